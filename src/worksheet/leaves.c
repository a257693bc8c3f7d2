/* Lines that say where they come from. */
#include "build.h"

#include <gsl/gsl_statistics_double.h>
#include <math.h>

ls_line ls_leaf(ls_worksheet *w, const char *key, const char *label, const char *unit, double value, ls_spread spread,
                ls_origin origin) {
    ls_entry e = ls_worksheet_named(w, key, label, unit);
    e.op = LS_OP_LEAF;
    e.value = value;
    e.spread = spread;
    e.origin = origin;
    return ls_worksheet_append(w, e, NULL);
}

/* A figure that is shown in a unit of another dimension than it was given in. */
static void check_unit(ls_worksheet *w, ls_line line, ls_unit given) {
    ls_unit shown = ls_worksheet_entry(w, line)->unit;
    if (!ls_dimension_same(shown.dimension, given.dimension))
        ls_worksheet_spoil(w, line, "given in %s, but shown in %s",
                           given.text[0] == '\0' ? "a bare number" : given.text,
                           shown.text[0] == '\0' ? "a bare number" : shown.text);
}

static ls_spread readings_spread(const ls_quantity *q) {
    if (q->n < 2) return ls_spread_exact();
    double sd = gsl_stats_sd(q->readings, 1, q->n);
    return ls_spread_student(sd / sqrt((double)q->n), (double)(q->n - 1));
}

static ls_spread given_spread(const ls_quantity *q) {
    switch (q->form) {
    case LS_PLUS_MINUS: return ls_spread_normal(q->half / 2);
    case LS_RANGE: return ls_spread_rectangular(q->low, q->high);
    case LS_READINGS: return readings_spread(q);
    case LS_PLAIN: break;
    }
    return ls_spread_exact();
}

ls_spread ls_readings_spread(const ls_quantity *q, ls_usual_scatter usual) {
    size_t n = q->form == LS_READINGS ? q->n : q->form == LS_PLAIN ? 1 : 0;
    double unit = usual.relative ? q->value : 1; /* of the scatter */
    if (n == 0) return given_spread(q);
    if (!(unit > 0)) return ls_spread_exact();
    double sd = n > 1 ? gsl_stats_sd(q->readings, 1, n) / unit : 0, df = (double)(n - 1);
    double pooled = (usual.df * usual.sd * usual.sd + df * sd * sd) / (usual.df + df);
    bool alone = n > 1 && sd >= usual.alone * usual.sd;
    double scale = (alone ? sd : sqrt(pooled)) / sqrt((double)n), freedom = alone ? df : usual.df + df;
    return usual.relative ? ls_spread_log_student(scale, freedom) : ls_spread_student(scale, freedom);
}

static ls_line given(ls_worksheet *w, const char *key, const char *label, const char *unit, const ls_quantity *q,
                     ls_spread spread) {
    if (spread.low < 0 && spread.kind != LS_EXACT)
        spread.low = q->value * 1e-9; /* not 0: two of them may be divided by each other */
    ls_origin origin = {LS_BY_FARM, q->at, NULL, q->how};
    ls_line line = ls_leaf(w, key, label, unit, q->value, spread, origin);
    if (q->form == 0)
        ls_worksheet_spoil(w, line, "the farm file does not give it");
    else
        check_unit(w, line, q->unit);
    return line;
}

ls_line ls_leaf_readings(ls_worksheet *w, const char *key, const char *label, const char *unit, const ls_quantity *q,
                         ls_usual_scatter usual) {
    return given(w, key, label, unit, q, ls_readings_spread(q, usual));
}

ls_line ls_leaf_given(ls_worksheet *w, const char *key, const char *label, const char *unit, const ls_quantity *q) {
    return given(w, key, label, unit, q, given_spread(q));
}

ls_line ls_leaf_count(ls_worksheet *w, const char *key, const char *label, const char *unit, const ls_count *c) {
    ls_origin origin = {LS_BY_FARM, c->at, NULL, NULL};
    double value = (double)c->n * ls_unit_of(unit).factor;
    return ls_leaf(w, key, label, unit, value, ls_spread_exact(), origin);
}

ls_line ls_leaf_figure(ls_worksheet *w, const char *key, const char *label, const char *unit, const ls_figure *f) {
    ls_origin origin = {LS_BY_TABLE, LS_NOWHERE, f, NULL};
    if (f == NULL) {
        ls_line missing = ls_leaf(w, key, label, unit, NAN, ls_spread_exact(), origin);
        ls_worksheet_spoil(w, missing, "the table has no such figure");
        return missing;
    }
    ls_line line = ls_leaf(w, key, label, unit, f->value, f->spread, origin);
    check_unit(w, line, f->unit);
    return line;
}

ls_line ls_leaf_by(ls_worksheet *w, const char *key, const char *label, const char *unit, const ls_figure *f,
                   double value, ls_spread spread, const char *words) {
    ls_origin origin = {LS_BY_TABLE, LS_NOWHERE, f, words};
    return ls_leaf(w, key, label, unit, value, spread, origin);
}

ls_line ls_leaf_exact(ls_worksheet *w, const char *key, const char *label, const char *unit, double value,
                      ls_origin_kind kind, const char *words) {
    ls_origin origin = {kind, LS_NOWHERE, NULL, words};
    return ls_leaf(w, key, label, unit, value, ls_spread_exact(), origin);
}
