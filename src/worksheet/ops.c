/* The table of operations: the value and derivative of each, its draws, its words, and what it
 * makes of the dimensions of its inputs. Values and draws share their arithmetic, so that a draw at
 * the stated figures gives the very value of the value pass. */
#include "ops.h"

#include <gsl/gsl_interp.h>
#include <math.h>
#include <string.h>

/* ---- arithmetic ---- */

static inline double add(double x, double y) { return x + y; }

static inline double subtract(double x, double y) { return x - y; }

static inline double multiply(double x, double y) { return x * y; }

static inline double divide(double x, double y) { return x / y; }

/* NaN if either is; x if they are equal. */
static inline double lesser(double x, double y) { return ((x <= y) | (x != x)) ? x : y; }

static inline double greater(double x, double y) { return ((x >= y) | (x != x)) ? x : y; }

/* A quotient this near a whole number counts as that number: 0.75 / 0.25 and the like must not lose
 * a step to rounding. */
#define NEARLY_WHOLE 1e-9

static inline double down(double x, double step) { return floor(x / step + NEARLY_WHOLE) * step; }

static inline double up(double x, double step) { return ceil(x / step - NEARLY_WHOLE) * step; }

/* The logarithm of x^weight; x^0 is 1 whatever x. */
static inline double weighted_log(double x, double weight) { return weight == 0 ? 0 : weight * log(x < 0 ? 0 : x); }

static inline double slope(const ls_curve *c, size_t i) { return (c->y[i + 1] - c->y[i]) / (c->x[i + 1] - c->x[i]); }

static inline double on_curve(const ls_curve *c, double x) {
    if (x != x) return x;
    if (x <= c->x[0]) return c->y[0];
    if (x >= c->x[c->n - 1]) return c->y[c->n - 1];
    size_t i = gsl_interp_bsearch(c->x, x, 0, c->n - 1);
    return c->y[i] + slope(c, i) * (x - c->x[i]);
}

/* ---- values; and columns of draws: plain loops of a fixed length that a compiler can put into
 * vectors ---- */

typedef ls_worksheet_operand operand;

enum { COLUMN = LS_WORKSHEET_COLUMN };

#define EACH for (size_t j = 0; j < COLUMN; j++)
#define X(i) ls_worksheet_x(w, e, (i))
#define VALUE(op) static double value_##op(const ls_worksheet *w, const ls_entry *e)
#define COLUMN_OF(op) static void column_##op(const ls_entry *e, const operand *x, double *restrict out)

/* An operation f(f(x1, x2), x3) ...; f##_pair: f(a, b) into out; f##_more: f(out, b) into out. */
#define FOLDED(op, f)                                                                                                  \
    VALUE(op) {                                                                                                        \
        double y = X(0);                                                                                               \
        for (size_t k = 1; k < e->n; k++) y = f(y, X(k));                                                              \
        return y;                                                                                                      \
    }                                                                                                                  \
    static void f##_pair(operand a, operand b, double *restrict out) {                                                 \
        const double *restrict x = a.at, *restrict y = b.at;                                                           \
        const double p = a.number, q = b.number;                                                                       \
        if (x != NULL && y != NULL)                                                                                    \
            EACH out[j] = f(x[j], y[j]);                                                                               \
        else if (x != NULL)                                                                                            \
            EACH out[j] = f(x[j], q);                                                                                  \
        else if (y != NULL)                                                                                            \
            EACH out[j] = f(p, y[j]);                                                                                  \
        else                                                                                                           \
            EACH out[j] = f(p, q);                                                                                     \
    }                                                                                                                  \
    static void f##_more(operand b, double *restrict out) {                                                            \
        const double *restrict y = b.at;                                                                               \
        const double q = b.number;                                                                                     \
        if (y != NULL)                                                                                                 \
            EACH out[j] = f(out[j], y[j]);                                                                             \
        else                                                                                                           \
            EACH out[j] = f(out[j], q);                                                                                \
    }                                                                                                                  \
    COLUMN_OF(op) {                                                                                                    \
        if (e->n == 1)                                                                                                 \
            memcpy(out, x[0].at, COLUMN * sizeof *out);                                                                \
        else                                                                                                           \
            f##_pair(x[0], x[1], out);                                                                                 \
        for (size_t k = 2; k < e->n; k++) f##_more(x[k], out);                                                         \
    }

FOLDED(sum, add)
FOLDED(difference, subtract)
FOLDED(product, multiply)
FOLDED(quotient, divide)
FOLDED(least, lesser)
FOLDED(greatest, greater)
FOLDED(step_down, down)
FOLDED(step_up, up)

VALUE(complement) { return 1 - X(0); }

COLUMN_OF(complement) {
    (void)e;
    subtract_pair((operand){NULL, 1}, x[0], out);
}

VALUE(clip) { return lesser(greater(X(0), X(1)), X(2)); }

COLUMN_OF(clip) {
    (void)e;
    greater_pair(x[0], x[1], out);
    lesser_more(x[2], out);
}

VALUE(geomean) {
    double log_y = 0;
    for (size_t k = 0; k < e->n; k += 2) log_y += weighted_log(X(k), X(k + 1));
    return exp(log_y);
}

VALUE(interpolate) { return on_curve(e->curve, X(0)); }

static void add_log(operand x, operand weight, double *restrict out) {
    const double *restrict in = x.at, *restrict by = weight.at;
    if (in == NULL && by == NULL) {
        double both = weighted_log(x.number, weight.number);
        EACH out[j] += both;
        return;
    }
    EACH out[j] += weighted_log(in == NULL ? x.number : in[j], by == NULL ? weight.number : by[j]);
}

COLUMN_OF(geomean) {
    EACH out[j] = 0;
    for (size_t k = 0; k < e->n; k += 2) add_log(x[k], x[k + 1], out);
    EACH out[j] = exp(out[j]);
}

COLUMN_OF(interpolate) {
    const double *restrict in = x[0].at;
    EACH out[j] = on_curve(e->curve, in[j]);
}

/* ---- derivatives ---- */

#define DERIVATIVE(op) static double derivative_##op(const ls_worksheet *w, const ls_entry *e, size_t i)
#define SLOPES(op, first, others)                                                                                      \
    DERIVATIVE(op) {                                                                                                   \
        (void)w, (void)e;                                                                                              \
        return i == 0 ? (first) : (others);                                                                            \
    }

SLOPES(sum, 1, 1)
SLOPES(difference, 1, -1)
SLOPES(complement, -1, 0)
/* The true slope is 0 between steps, but a count of loads must keep its spread: this is the slope
 * of the mean over all places of x within a step, x - step / 2 (going up: x + step / 2). */
SLOPES(step_down, 1, -0.5)
SLOPES(step_up, 1, 0.5)

DERIVATIVE(product) {
    double others = 1;
    for (size_t k = 0; k < e->n; k++)
        if (k != i) others *= X(k);
    return others;
}

DERIVATIVE(quotient) { return i == 0 ? 1 / X(1) : -X(0) / (X(1) * X(1)); }

/* 1 for the first that attains it. */
DERIVATIVE(extreme) {
    size_t first = 0;
    while (first + 1 < e->n && X(first) != e->value) first++;
    return i == first ? 1 : 0;
}

DERIVATIVE(clip) {
    size_t inner = X(0) < X(1) ? 1 : 0;
    size_t attains = X(inner) > X(2) ? 2 : inner;
    return i == attains ? 1 : 0;
}

DERIVATIVE(geomean) {
    if (i % 2 == 1) return e->value * log(X(i - 1));
    return X(i + 1) == 0 ? 0 : X(i + 1) * e->value / X(i);
}

DERIVATIVE(interpolate) {
    (void)i;
    const ls_curve *c = e->curve;
    double x = X(0);
    if (!(x >= c->x[0] && x < c->x[c->n - 1])) return 0;
    return slope(c, gsl_interp_bsearch(c->x, x, 0, c->n - 1));
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
    if (e->op == LS_OP_COMPLEMENT) ls_text_addf(t, "%s%s", x[1], p->before_last);
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
        if (!ls_dimension_same(input_dimension(w, e, i), input_dimension(w, e, 0))) return false;
    return true;
}

static bool same_dimension(const ls_worksheet *w, const ls_entry *e, ls_dimension *out) {
    *out = input_dimension(w, e, 0);
    return all_same(w, e, 1);
}

static bool product_dimension(const ls_worksheet *w, const ls_entry *e, ls_dimension *out) {
    *out = input_dimension(w, e, 0);
    for (size_t i = 1; i < e->n; i++) *out = ls_dimension_times(*out, input_dimension(w, e, i), 1);
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
        if (!ls_dimension_none(input_dimension(w, e, i))) return false;
    return all_same(w, e, 2);
}

/* A table maps any dimension to any other. */
static bool table_dimension(const ls_worksheet *w, const ls_entry *e, ls_dimension *out) {
    (void)w;
    *out = e->unit.dimension;
    return true;
}

#define PARTS(op) value_##op, column_##op, derivative_##op
static const ls_worksheet_operation operations[LS_OPS] = {
    [LS_OP_SAME] = {PARTS(sum), same_dimension},
    [LS_OP_SUM] = {PARTS(sum), same_dimension},
    [LS_OP_DIFFERENCE] = {PARTS(difference), same_dimension},
    [LS_OP_PRODUCT] = {PARTS(product), product_dimension},
    [LS_OP_QUOTIENT] = {PARTS(quotient), quotient_dimension},
    [LS_OP_COMPLEMENT] = {PARTS(complement), no_dimension},
    [LS_OP_LEAST] = {value_least, column_least, derivative_extreme, same_dimension},
    [LS_OP_GREATEST] = {value_greatest, column_greatest, derivative_extreme, same_dimension},
    [LS_OP_CLIP] = {PARTS(clip), same_dimension},
    [LS_OP_STEP_DOWN] = {PARTS(step_down), same_dimension},
    [LS_OP_STEP_UP] = {PARTS(step_up), same_dimension},
    [LS_OP_GEOMEAN] = {PARTS(geomean), geomean_dimension},
    [LS_OP_INTERPOLATE] = {PARTS(interpolate), table_dimension},
};

const ls_worksheet_operation *ls_worksheet_operation_of(ls_op op) { return &operations[op]; }
