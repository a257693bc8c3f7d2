#include "tables.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

static const struct {
    const char *name;
    size_t offset;
} part_names[] = {
    {"value", offsetof(ls_reference_parts, value)},
    {"n", offsetof(ls_reference_parts, printed.n)},
    {"least", offsetof(ls_reference_parts, printed.least)},
    {"most", offsetof(ls_reference_parts, printed.most)},
    {"median", offsetof(ls_reference_parts, printed.median)},
    {"mean", offsetof(ls_reference_parts, printed.mean)},
    {"sd", offsetof(ls_reference_parts, printed.sd)},
    {"low", offsetof(ls_reference_parts, low)},
    {"high", offsetof(ls_reference_parts, high)},
    {"scale", offsetof(ls_reference_parts, scale)},
    {"relative_scale", offsetof(ls_reference_parts, relative_scale)},
    {"log_sd", offsetof(ls_reference_parts, log_sd)},
    {"df", offsetof(ls_reference_parts, df)},
};

static const char *const spread_words[] = {
    [LS_EXACT] = "exact",         [LS_NORMAL] = "normal",           [LS_TRUNCATED] = "truncated",
    [LS_LOGNORMAL] = "lognormal", [LS_TRIANGULAR] = "triangular",   [LS_RECTANGULAR] = "rectangular",
    [LS_STUDENT] = "student",     [LS_LOG_STUDENT] = "log-student",
};

ls_reference_parts ls_reference_no_parts(void) {
    return (ls_reference_parts){{NAN, NAN, NAN, NAN, NAN, NAN}, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NULL};
}

double *ls_reference_part(ls_reference_parts *p, const char *name) {
    for (size_t i = 0; i < sizeof part_names / sizeof *part_names; i++)
        if (strcmp(part_names[i].name, name) == 0) return (double *)(void *)((char *)p + part_names[i].offset);
    return NULL;
}

const char *ls_reference_part_name(size_t index) {
    return index < sizeof part_names / sizeof *part_names ? part_names[index].name : NULL;
}

static int kind_of(const char *word) {
    for (size_t i = 0; i < sizeof spread_words / sizeof *spread_words; i++)
        if (strcmp(spread_words[i], word) == 0) return (int)i;
    return -1;
}

const char *ls_reference_spread_word(ls_spread_kind kind) { return spread_words[kind]; }

static double first_of(double a, double b) { return isnan(a) ? b : a; }

/* What one part tells of another. */
static void fill_in(ls_reference_parts *p) {
    p->low = first_of(p->low, p->printed.least);
    p->high = first_of(p->high, p->printed.most);
    p->value = first_of(p->value, first_of(p->printed.mean, (p->low + p->high) / 2));
    p->scale = first_of(p->scale, p->relative_scale * p->value);
    p->df = first_of(p->df, p->printed.n - 1);
}

/* The spread that parts without a word for it amount to, -1 if that is not plain. */
static int guess(const ls_reference_parts *p, ls_spread single) {
    bool bounds = !isnan(p->low) && !isnan(p->high), scale = !isnan(first_of(p->scale, p->printed.sd));
    if (scale) return bounds ? LS_TRUNCATED : LS_NORMAL;
    if (!bounds) return (int)single.kind;
    return fabs(p->value - (p->low + p->high) / 2) <= 1e-9 * p->high ? LS_RECTANGULAR : -1;
}

static const char *check(const ls_reference_parts *p) {
    const ls_printed *printed = &p->printed;
    if (isnan(p->value)) return "there is no figure";
    if (!isnan(printed->n) && (printed->n < 1 || printed->n != floor(printed->n)))
        return "n is not a whole number of samples";
    if (printed->least > printed->most || printed->median < printed->least || printed->median > printed->most ||
        printed->mean < printed->least || printed->mean > printed->most)
        return "least, median, mean and most are out of order";
    return NULL;
}

static const char *bounded(const ls_reference_parts *p, ls_spread_kind kind) {
    if (isnan(p->low) || isnan(p->high)) return "this spread needs two bounds";
    if (p->low >= p->high) return "the lower bound is not below the upper one";
    if (p->value < p->low || p->value > p->high) return "the figure is outside of its bounds";
    if (kind == LS_RECTANGULAR && fabs(p->value - (p->low + p->high) / 2) > 1e-9 * p->high)
        return "the figure of a rectangular spread is not the middle of its bounds";
    return NULL;
}

static const char *scaled(double scale) { return scale > 0 ? NULL : "this spread needs a scale above zero"; }

/* A mean of n measurements is known to within sd / sqrt(n). */
static double student_scale(const ls_reference_parts *p) {
    return first_of(p->scale, p->printed.sd / sqrt(p->printed.n));
}

/* The spread of a kind, or what it lacks. */
static const char *make(const ls_reference_parts *p, ls_spread_kind kind, double factor, ls_spread *out) {
    double sd = first_of(p->scale, p->printed.sd);
    const char *wrong = NULL;
    switch (kind) {
    case LS_EXACT: *out = ls_spread_exact(); return NULL;
    case LS_NORMAL: *out = ls_spread_normal(sd * factor); return scaled(sd);
    case LS_TRUNCATED:
        wrong = bounded(p, kind);
        *out = ls_spread_truncated(sd * factor, p->low * factor, p->high * factor);
        return wrong != NULL ? wrong : scaled(sd);
    case LS_LOGNORMAL: *out = ls_spread_lognormal(p->log_sd); return scaled(p->log_sd);
    case LS_TRIANGULAR: *out = ls_spread_triangular(p->low * factor, p->high * factor); return bounded(p, kind);
    case LS_RECTANGULAR: *out = ls_spread_rectangular(p->low * factor, p->high * factor); return bounded(p, kind);
    case LS_STUDENT:
        *out = ls_spread_student(student_scale(p) * factor, p->df);
        wrong = scaled(student_scale(p));
        break;
    case LS_LOG_STUDENT:
        *out = ls_spread_log_student(p->log_sd, p->df);
        wrong = scaled(p->log_sd);
        break;
    }
    return wrong != NULL || p->df > 0 ? wrong : "this spread needs n above 1, or df";
}

const char *ls_reference_settle(ls_reference_parts *p, double factor, ls_spread single, ls_spread *out) {
    fill_in(p);
    const char *wrong = check(p);
    if (wrong != NULL) return wrong;
    int kind = p->spread != NULL ? kind_of(p->spread) : guess(p, single);
    if (kind < 0)
        return p->spread != NULL ? "there is no such spread"
                                 : "the figure is not in the middle of its bounds: say which spread it has";
    if (p->spread == NULL && kind == LS_LOGNORMAL) {
        *out = single;
        return NULL;
    }
    return make(p, (ls_spread_kind)kind, factor, out);
}
