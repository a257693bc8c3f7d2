#include "house.h"

#include <math.h>
#include <stdlib.h>

/* A mean of normal figures, each of its own variance. */
typedef struct {
    double precision, sum;
} pooled;

static void add(pooled *p, double x, double variance) {
    p->precision += 1 / variance;
    p->sum += x / variance;
}

static int by_litter_and_day(const void *a, const void *b) {
    const ls_full_load *x = a, *y = b;
    if (x->litter != y->litter) return x->litter < y->litter ? -1 : 1;
    return (x->day > y->day) - (x->day < y->day);
}

/* And by weight: sums come out the same whatever the order in the log. */
static int in_order(const void *a, const void *b) {
    const ls_full_load *x = a, *y = b;
    int order = by_litter_and_day(a, b);
    return order != 0 ? order : (x->log_tons > y->log_tons) - (x->log_tons < y->log_tons);
}

/* One past the last load of the litter, and of the day, of the one at from. */
static size_t litter_end(const ls_full_load *loads, size_t from, size_t n) {
    size_t end = from;
    while (end < n && loads[end].litter == loads[from].litter) end++;
    return end;
}
static size_t day_end(const ls_full_load *loads, size_t from, size_t n) {
    size_t end = from;
    while (end < n && by_litter_and_day(&loads[end], &loads[from]) == 0) end++;
    return end;
}

/* The usual spread from load to load and that within the days, of loads no limit cut short. */
static void load_spread(ls_full_loads *out, const ls_full_load *loads, size_t n, ls_full_load_spreads spreads) {
    double squares = spreads.df * spreads.load * spreads.load;
    out->df = spreads.df;
    for (size_t from = 0, end; from < n; from = end) {
        double free = 0, sum = 0, sum2 = 0;
        end = day_end(loads, from, n);
        for (size_t i = from; i < end; i++) {
            double beyond = loads[i].log_tons - loads[from].log_tons; /* keeps digits */
            if (!loads[i].at_limit) free++, sum += beyond, sum2 += beyond * beyond;
        }
        if (free > 1) out->df += free - 1, squares += fmax(0, sum2 - sum * sum / free);
        out->days++;
    }
    out->load = sqrt(squares / out->df);
}

static pooled litter_mean(const ls_full_load *loads, size_t from, size_t n, double load, double day) {
    pooled litter = {0, 0};
    for (size_t end; from < n; from = end) {
        double sum = 0;
        end = day_end(loads, from, n);
        for (size_t i = from; i < end; i++) sum += loads[i].log_tons;
        double k = (double)(end - from);
        add(&litter, sum / k, day * day + load * load / k);
    }
    return litter;
}

ls_full_loads ls_full_loads_of(ls_full_load *loads, size_t n, ls_full_load_spreads spreads) {
    ls_full_loads out = {0};
    pooled own = {0, 0}, others = {0, 0};
    double between = spreads.litter * spreads.litter;
    qsort(loads, n, sizeof *loads, in_order);
    load_spread(&out, loads, n, spreads);
    for (size_t from = 0, end; from < n; from = end) {
        end = litter_end(loads, from, n);
        pooled one = litter_mean(loads, from, end, out.load, spreads.day);
        if (loads[from].litter == 0)
            own = one;
        else
            add(&others, one.sum / one.precision, 1 / one.precision + between);
    }
    if (others.precision > 0) add(&own, others.sum / others.precision, 1 / others.precision + between);
    out.mean = own.sum / own.precision;
    out.sd = sqrt(1 / own.precision);
    return out;
}
