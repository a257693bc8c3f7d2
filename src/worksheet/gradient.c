/* First-order propagation (JCGM 100:2008, 5.1) by reverse accumulation: one pass from a line back
 * to its leaves. */
#include "worksheet/build.h"
#include "worksheet/ops.h"

#include <math.h>

void ls_line_gradient(const ls_worksheet *w, ls_line line, double *out) {
    if (ls_line_at(w, line) == NULL)
        return;
    for (ls_line k = 0; k < line; k++)
        out[k] = 0;
    out[line] = 1;
    for (ls_line k = line; k >= 0; k--) {
        const ls_entry *e = ls_worksheet_entry(w, k);
        if (out[k] == 0)
            continue;
        for (size_t i = 0; i < e->n; i++)
            out[e->in[i]] += out[k] * ls_worksheet_operation_of(e->op)->derivative(w, e, i);
    }
}

void ls_line_ancestors(const ls_worksheet *w, ls_line line, bool *out) {
    for (size_t k = 0; k < w->lines.n; k++)
        out[k] = false;
    if (ls_line_at(w, line) == NULL)
        return;
    out[line] = true;
    for (ls_line k = line; k >= 0; k--) {
        const ls_entry *e = ls_worksheet_entry(w, k);
        for (size_t i = 0; out[k] && i < e->n; i++)
            out[e->in[i]] = true;
    }
}

double ls_line_log_scale(const ls_worksheet *w, ls_line line, const bool *skip) {
    if (ls_line_at(w, line) == NULL)
        return NAN;
    ls_arena *a = ls_arena_new();
    double *gradient = LS_NEW(a, double, (size_t)line + 1);
    double squares = 0;
    ls_line_gradient(w, line, gradient);
    for (ls_line k = 0; k <= line; k++) {
        const ls_entry *e = ls_worksheet_entry(w, k);
        if (e->op != LS_OP_LEAF || gradient[k] == 0 || (skip != NULL && skip[k]))
            continue;
        double part = gradient[k] * ls_spread_scale(e->spread, e->value);
        squares += part * part;
    }
    ls_arena_free(a);
    return sqrt(squares) / fabs(ls_line_value(w, line));
}
