/* What full loads tell of the next ones: normal in logs, loads within days within litters. */
#pragma once

#include "littershed/base.h"

#include <stdbool.h>

typedef struct {
    double log_tons;
    size_t litter; /* 0: the one asked for; others are litters like it */
    ls_date day;
    bool at_limit; /* the truck's weight limit: the body holds at least that */
} ls_full_load;

/* Log standard deviations: of loads about their day, counting for df degrees of freedom; of days
 * about their litter; of litters about their mean. */
typedef struct {
    double load, df, day, litter;
} ls_full_load_spreads;

typedef struct {
    double mean, sd; /* of the litter asked for, days and loads averaged out; log tons */
    double load, df; /* one load about its day: Student t of that scale */
    size_t days;     /* of any litter */
} ls_full_loads;

/* The posterior of the nested normal model with known spreads of days and litters and no other word
 * of the mean (Gelman and others, Bayesian Data Analysis, 3rd edition, 2.5 and 5.4: a mean known by
 * its cells counts each with the inverse of its variance), the spread of loads by the scaled
 * inverse chi-square (2.6). n at least 1; sorts the loads. */
ls_full_loads ls_full_loads_of(ls_full_load *loads, size_t n, ls_full_load_spreads spreads);
