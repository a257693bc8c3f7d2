/* What is told of many draws: points, mean and standard deviation. */
#pragma once

#include "littershed/worksheet.h"

/* The number of values, their mean and the sum of their squared distances from it. */
typedef struct {
    size_t n;
    double mean, squares;
} ls_worksheet_moments;

/* Of n >= 1 values: the corrected two-pass algorithm about the first value (Chan, Golub, LeVeque
 * 1983, The American Statistician 37:242; from memory), which keeps its digits where the mean is
 * large against the spread, and unlike a running mean needs no division a value. */
ls_worksheet_moments ls_worksheet_moments_of(const double *x, size_t n);
/* Of two sets together; either may be empty (all zero). */
ls_worksheet_moments ls_worksheet_moments_join(ls_worksheet_moments a, ls_worksheet_moments b);
/* The standard deviation, with n - 1; 0 of one value. */
double ls_worksheet_moments_sd(ls_worksheet_moments m);

/* The numerical tolerance of a figure whose standard uncertainty is sd, for so many significant digits of it: with sd =
 * c x 10^l, c a whole number of that many digits, half of 10^l (JCGM 101:2008, 7.9.2). */
double ls_worksheet_tolerance(double sd, int digits);

enum { LS_WORKSHEET_POINTS = 3 };

/* The 10, 50 and 90 % points of n independent draws (a whole number of columns) in the order in
 * which they were drawn: the order statistics of rank p x n, no interpolation, so that whole
 * numbers stay whole. NaN if any draw is NaN. scratch: LS_WORKSHEET_POINTS x n places. */
void ls_worksheet_points(const double *x, size_t n, double *scratch, double out[LS_WORKSHEET_POINTS]);
