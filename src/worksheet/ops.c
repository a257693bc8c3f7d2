/* The table of operations: the value and derivative of each, its words, and what it makes of the
 * dimensions of its inputs. */
#include "ops.h"

#include "op_parts.h"

/* ---- values and derivatives ---- */

#define X(i) ls_worksheet_x(w, e, (i))
#define VALUE(op) static double value_##op(const ls_worksheet *w, const ls_entry *e)
#define DERIVATIVE(op)                                                                             \
    static double derivative_##op(const ls_worksheet *w, const ls_entry *e, size_t i)

/* f(f(x1, x2), x3) ... */
#define FOLDED(f)                                                                                  \
    double y = X(0);                                                                               \
    for (size_t k = 1; k < e->n; k++)                                                              \
        y = f(y, X(k));                                                                            \
    return y

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
DERIVATIVE(extreme) {
    size_t first = 0;
    while (first + 1 < e->n && X(first) != e->value)
        first++;
    return i == first ? 1 : 0;
}

VALUE(greatest) {
    FOLDED(ls_worksheet_greater);
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

/* ---- words: lead, the inputs with between and before the last one ---- */

typedef struct {
    const char *lead, *between, *before_last;
} phrase;

static const phrase phrases[LS_OPS] = {
    [LS_OP_SAME] = {"", "", ""},
    [LS_OP_SUM] = {"", " + ", " + "},
    [LS_OP_DIFFERENCE] = {"", "", " - "},
    [LS_OP_PRODUCT] = {"", " x ", " x "},
    [LS_OP_QUOTIENT] = {"", "", " / "},
    [LS_OP_COMPLEMENT] = {"", "", " - "}, /* one less its input */
    [LS_OP_LEAST] = {"the least of ", ", ", " and "},
    [LS_OP_GREATEST] = {"the greatest of ", ", ", " and "},
    [LS_OP_CLIP] = {"", ", kept within ", " to "},
    [LS_OP_STEP_DOWN] = {"", "", ", down to whole steps of "},
    [LS_OP_STEP_UP] = {"", "", ", up to whole steps of "},
    [LS_OP_GEOMEAN] = {"weighted geometric mean of ", ", ", " and "},
    [LS_OP_INTERPOLATE] = {"straight line in a table at ", "", ""},
};

void ls_worksheet_words(ls_text *t, const ls_entry *e, const char *const *x) {
    const phrase *p = &phrases[e->op];
    bool weighted = e->op == LS_OP_GEOMEAN;
    size_t n = weighted ? e->n / 2 : e->n;
    ls_text_add(t, p->lead);
    if (e->op == LS_OP_COMPLEMENT)
        ls_text_addf(t, "%s%s", x[1], p->before_last);
    for (size_t k = 0; k < n; k++) {
        ls_text_add(t, k == 0 ? "" : k + 1 < n ? p->between : p->before_last);
        if (weighted)
            ls_text_addf(t, "%s (weight: %s)", x[2 * k], x[2 * k + 1]);
        else
            ls_text_add(t, x[k]);
    }
}

/* ---- dimensions ---- */

static ls_dimension input_dimension(const ls_worksheet *w, const ls_entry *e, size_t i) {
    return ls_worksheet_input(w, e, i)->unit.dimension;
}

/* Every step-th input from the first on. */
static bool all_same(const ls_worksheet *w, const ls_entry *e, size_t step) {
    for (size_t i = step; i < e->n; i += step)
        if (!ls_dimension_same(input_dimension(w, e, i), input_dimension(w, e, 0)))
            return false;
    return true;
}

static bool same_dimension(const ls_worksheet *w, const ls_entry *e, ls_dimension *out) {
    *out = input_dimension(w, e, 0);
    return all_same(w, e, 1);
}

static bool product_dimension(const ls_worksheet *w, const ls_entry *e, ls_dimension *out) {
    *out = input_dimension(w, e, 0);
    for (size_t i = 1; i < e->n; i++)
        *out = ls_dimension_times(*out, input_dimension(w, e, i), 1);
    return true;
}

static bool quotient_dimension(const ls_worksheet *w, const ls_entry *e, ls_dimension *out) {
    *out = ls_dimension_times(input_dimension(w, e, 0), input_dimension(w, e, 1), -1);
    return true;
}

static bool no_dimension(const ls_worksheet *w, const ls_entry *e, ls_dimension *out) {
    *out = input_dimension(w, e, 0);
    return ls_dimension_none(*out);
}

static bool geomean_dimension(const ls_worksheet *w, const ls_entry *e, ls_dimension *out) {
    *out = input_dimension(w, e, 0);
    for (size_t i = 1; i < e->n; i += 2)
        if (!ls_dimension_none(input_dimension(w, e, i)))
            return false;
    return all_same(w, e, 2);
}

/* A table maps any dimension to any other. */
static bool table_dimension(const ls_worksheet *w, const ls_entry *e, ls_dimension *out) {
    (void)w;
    *out = e->unit.dimension;
    return true;
}

#define PARTS(op) value_##op, ls_worksheet_column_##op, derivative_##op
static const ls_worksheet_operation operations[LS_OPS] = {
    [LS_OP_SAME] = {PARTS(sum), same_dimension},
    [LS_OP_SUM] = {PARTS(sum), same_dimension},
    [LS_OP_DIFFERENCE] = {PARTS(difference), same_dimension},
    [LS_OP_PRODUCT] = {PARTS(product), product_dimension},
    [LS_OP_QUOTIENT] = {PARTS(quotient), quotient_dimension},
    [LS_OP_COMPLEMENT] = {PARTS(complement), no_dimension},
    [LS_OP_LEAST] = {value_least, ls_worksheet_column_least, derivative_extreme, same_dimension},
    [LS_OP_GREATEST] = {value_greatest, ls_worksheet_column_greatest, derivative_extreme,
                        same_dimension},
    [LS_OP_CLIP] = {PARTS(clip), same_dimension},
    [LS_OP_STEP_DOWN] = {PARTS(step_down), same_dimension},
    [LS_OP_STEP_UP] = {PARTS(step_up), same_dimension},
    [LS_OP_GEOMEAN] = {PARTS(geomean), geomean_dimension},
    [LS_OP_INTERPOLATE] = {PARTS(interpolate), table_dimension},
};

const ls_worksheet_operation *ls_worksheet_operation_of(ls_op op) {
    return &operations[op];
}
