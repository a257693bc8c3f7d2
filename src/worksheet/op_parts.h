/* The column functions of the operations (columns.c), and the arithmetic that they share with the
 * values, so that a draw at the stated figures gives the very value of the value pass. */
#ifndef LITTERSHED_WORKSHEET_OP_PARTS_H
#define LITTERSHED_WORKSHEET_OP_PARTS_H

#include "ops.h"

#include <gsl/gsl_interp.h>
#include <math.h>

/* LS_WORKSHEET_COLUMN values into out, from at least one column among the inputs; out is none of
 * them. */
#define LS_WORKSHEET_COLUMN_OF(op)                                                                 \
    void ls_worksheet_column_##op(const ls_entry *e, const ls_worksheet_operand *x, double *out)

LS_WORKSHEET_COLUMN_OF(sum);
LS_WORKSHEET_COLUMN_OF(difference);
LS_WORKSHEET_COLUMN_OF(product);
LS_WORKSHEET_COLUMN_OF(quotient);
LS_WORKSHEET_COLUMN_OF(complement);
LS_WORKSHEET_COLUMN_OF(least);
LS_WORKSHEET_COLUMN_OF(greatest);
LS_WORKSHEET_COLUMN_OF(clip);
LS_WORKSHEET_COLUMN_OF(step_down);
LS_WORKSHEET_COLUMN_OF(step_up);
LS_WORKSHEET_COLUMN_OF(geomean);
LS_WORKSHEET_COLUMN_OF(interpolate);

static inline double ls_worksheet_add(double x, double y) {
    return x + y;
}

static inline double ls_worksheet_subtract(double x, double y) {
    return x - y;
}

static inline double ls_worksheet_multiply(double x, double y) {
    return x * y;
}

static inline double ls_worksheet_divide(double x, double y) {
    return x / y;
}

/* NaN if either is; x if they are equal. */
static inline double ls_worksheet_lesser(double x, double y) {
    return ((x <= y) | (x != x)) ? x : y;
}

static inline double ls_worksheet_greater(double x, double y) {
    return ((x >= y) | (x != x)) ? x : y;
}

/* A quotient this near a whole number counts as that number: 0.75 / 0.25 and the like must not lose
 * a step to rounding. */
#define LS_WORKSHEET_NEARLY_WHOLE 1e-9

static inline double ls_worksheet_down(double x, double step) {
    return floor(x / step + LS_WORKSHEET_NEARLY_WHOLE) * step;
}

static inline double ls_worksheet_up(double x, double step) {
    return ceil(x / step - LS_WORKSHEET_NEARLY_WHOLE) * step;
}

/* The logarithm of x^weight; x^0 is 1 whatever x. */
static inline double ls_worksheet_weighted_log(double x, double weight) {
    return weight == 0 ? 0 : weight * log(x < 0 ? 0 : x);
}

static inline double ls_worksheet_slope(const ls_curve *c, size_t i) {
    return (c->y[i + 1] - c->y[i]) / (c->x[i + 1] - c->x[i]);
}

static inline double ls_worksheet_on_curve(const ls_curve *c, double x) {
    if (x != x)
        return x;
    if (x <= c->x[0])
        return c->y[0];
    if (x >= c->x[c->n - 1])
        return c->y[c->n - 1];
    size_t i = gsl_interp_bsearch(c->x, x, 0, c->n - 1);
    return c->y[i] + ls_worksheet_slope(c, i) * (x - c->x[i]);
}

#endif
