/* Value and derivative of every operation. */
#include "op_parts.h"

#define X(i) ls_worksheet_x(w, e, (i))
#define VALUE(op) double ls_worksheet_value_##op(const ls_worksheet *w, const ls_entry *e)
#define DERIVATIVE(op)                                                                             \
    double ls_worksheet_derivative_##op(const ls_worksheet *w, const ls_entry *e, size_t i)

/* f(f(x1, x2), x3) ... */
#define FOLDED(f)                                                                                  \
    double y = X(0);                                                                               \
    for (size_t k = 1; k < e->n; k++)                                                              \
        y = f(y, X(k));                                                                            \
    return y

VALUE(same) {
    return X(0);
}

DERIVATIVE(same) {
    (void)w, (void)e, (void)i;
    return 1;
}

VALUE(sum) {
    FOLDED(ls_worksheet_add);
}

DERIVATIVE(sum) {
    (void)w, (void)e, (void)i;
    return 1;
}

VALUE(difference) {
    return X(0) - X(1);
}

DERIVATIVE(difference) {
    (void)w, (void)e;
    return i == 0 ? 1 : -1;
}

VALUE(product) {
    FOLDED(ls_worksheet_multiply);
}

DERIVATIVE(product) {
    double others = 1;
    for (size_t k = 0; k < e->n; k++)
        if (k != i)
            others *= X(k);
    return others;
}

VALUE(quotient) {
    return X(0) / X(1);
}

DERIVATIVE(quotient) {
    return i == 0 ? 1 / X(1) : -X(0) / (X(1) * X(1));
}

VALUE(complement) {
    return 1 - X(0);
}

DERIVATIVE(complement) {
    (void)w, (void)e, (void)i;
    return -1;
}

VALUE(least) {
    FOLDED(ls_worksheet_lesser);
}

/* 1 for the first that attains it. */
DERIVATIVE(least) {
    size_t best = 0;
    for (size_t k = 1; k < e->n; k++)
        if (X(k) < X(best))
            best = k;
    return i == best ? 1 : 0;
}

VALUE(greatest) {
    FOLDED(ls_worksheet_greater);
}

DERIVATIVE(greatest) {
    size_t best = 0;
    for (size_t k = 1; k < e->n; k++)
        if (X(k) > X(best))
            best = k;
    return i == best ? 1 : 0;
}

VALUE(clip) {
    return ls_worksheet_lesser(ls_worksheet_greater(X(0), X(1)), X(2));
}

DERIVATIVE(clip) {
    size_t inner = X(0) < X(1) ? 1 : 0;
    size_t attains = X(inner) > X(2) ? 2 : inner;
    return i == attains ? 1 : 0;
}

VALUE(step_down) {
    return ls_worksheet_down(X(0), X(1));
}

/* The true slope is 0 between steps, but a count of loads must keep its spread: this is the slope
 * of the mean over all places of x within a step, x - step / 2 (going up: x + step / 2). */
DERIVATIVE(step_down) {
    (void)w, (void)e;
    return i == 0 ? 1 : -0.5;
}

VALUE(step_up) {
    return ls_worksheet_up(X(0), X(1));
}

DERIVATIVE(step_up) {
    (void)w, (void)e;
    return i == 0 ? 1 : 0.5;
}

VALUE(geomean) {
    double log_y = 0;
    for (size_t k = 0; k < e->n; k += 2)
        log_y += ls_worksheet_weighted_log(X(k), X(k + 1));
    return exp(log_y);
}

DERIVATIVE(geomean) {
    if (i % 2 == 1)
        return e->value * log(X(i - 1));
    return X(i + 1) == 0 ? 0 : X(i + 1) * e->value / X(i);
}

VALUE(interpolate) {
    return ls_worksheet_on_curve(e->curve, X(0));
}

DERIVATIVE(interpolate) {
    (void)i;
    const ls_curve *c = e->curve;
    double x = X(0);
    if (!(x >= c->x[0] && x < c->x[c->n - 1]))
        return 0;
    return ls_worksheet_slope(c, gsl_interp_bsearch(c->x, x, 0, c->n - 1));
}
