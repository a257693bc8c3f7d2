/* First-order propagation (JCGM 100:2008, 5.1) by reverse accumulation: one pass from a line back
 * to its leaves. */
#include "build.h"
#include "ops.h"
#include "summary.h"

#include <math.h>

void ls_line_gradient(const ls_worksheet *w, ls_line line, double *out) {
    if (ls_line_at(w, line) == NULL) return;
    for (ls_line k = 0; k < line; k++) out[k] = 0;
    out[line] = 1;
    for (ls_line k = line; k > 0; k--) {
        const ls_entry *e = ls_worksheet_entry(w, k);
        if (out[k] == 0) continue;
        for (size_t i = 0; i < e->n; i++)
            out[e->in[i]] += out[k] * ls_worksheet_operation_of(e->op)->derivative(w, e, i);
    }
}

void ls_line_ancestors(const ls_worksheet *w, ls_line line, bool *out) {
    for (size_t k = 0; k < w->book->lines.n; k++) out[k] = false;
    if (ls_line_at(w, line) == NULL) return;
    out[line] = true;
    for (ls_line k = line; k > 0; k--) {
        const ls_entry *e = ls_worksheet_entry(w, k);
        for (size_t i = 0; out[k] && i < e->n; i++) out[e->in[i]] = true;
    }
}

/* Standard uncertainty of a line from the leaves that are not skipped. */
static double first_order_scale(const ls_worksheet *w, ls_line line, const bool *skip) {
    ls_arena *a = ls_arena_new();
    double *gradient = LS_NEW(a, double, (size_t)line + 1);
    double squares = 0;
    ls_line_gradient(w, line, gradient);
    for (ls_line k = 1; k <= line; k++) {
        const ls_entry *e = ls_worksheet_entry(w, k);
        if (e->op != LS_OP_LEAF || gradient[k] == 0 || (skip != NULL && skip[k])) continue;
        double part = gradient[k] * ls_spread_scale(e->spread, e->value);
        squares += part * part;
    }
    ls_arena_free(a);
    return sqrt(squares);
}

double ls_line_log_scale(const ls_worksheet *w, ls_line line, const bool *skip) {
    if (ls_line_at(w, line) == NULL) return NAN;
    return first_order_scale(w, line, skip) / fabs(ls_line_value(w, line));
}

ls_first_order ls_line_first_order(const ls_worksheet *w, ls_line line, const ls_drawn *drawn) {
    const double k90 = 1.2815515655446004; /* 90 % point of the standard normal distribution */
    ls_first_order f = {NAN, NAN, NAN, NAN, NAN, NAN, false};
    if (ls_line_at(w, line) == NULL) return f;
    double y = ls_line_value(w, line);
    f.u = first_order_scale(w, line, NULL);
    f.low = y - k90 * f.u;
    f.high = y + k90 * f.u;
    f.off_low = fabs(f.low - drawn->low);
    f.off_high = fabs(f.high - drawn->high);
    f.tolerance = ls_worksheet_tolerance(f.u, 2);
    f.good = f.off_low <= f.tolerance && f.off_high <= f.tolerance;
    return f;
}
