/* First-order propagation (JCGM 100:2008, 5.1) by reverse accumulation: one pass from a line back to its leaves. */
#include "build.h"
#include "ops.h"
#include "summary.h"

#include <math.h>
#include <stdlib.h>

/* Where a line stands among those found: the book remembers where it stood last. */
static bool is_found(const ls_worksheet *w, const ls_ancestors *of, ls_line line) {
    size_t place = w->book->places[line];
    return place < of->n && of->at[place].line == line;
}

static void find(ls_arena *a, const ls_worksheet *w, ls_ancestors *of, ls_line line) {
    if (is_found(w, of, line)) return;
    w->book->places[line] = of->n;
    *LS_PUSH(a, of) = (ls_ancestor){line, 0};
}

static int later_first(const void *a, const void *b) {
    const ls_ancestor *x = a, *y = b;
    return (x->line < y->line) - (x->line > y->line);
}

static void make_places(ls_worksheet_book *b) {
    if (b->places_n >= b->lines.n) return;
    b->places_n = 2 * b->lines.n;
    b->places = LS_NEW(b->arena, size_t, b->places_n);
}

ls_ancestors ls_line_ancestors(ls_arena *a, const ls_worksheet *w, ls_line line) {
    ls_ancestors of = {0};
    if (ls_line_at(w, line) == NULL) return of;
    make_places(w->book);
    find(a, w, &of, line);
    for (size_t k = 0; k < of.n; k++) {
        const ls_entry *e = ls_worksheet_entry(w, of.at[k].line);
        for (size_t i = 0; i < e->n; i++) find(a, w, &of, e->in[i]);
    }
    qsort(of.at, of.n, sizeof *of.at, later_first);
    for (size_t k = 0; k < of.n; k++) w->book->places[of.at[k].line] = k;
    of.at[0].gradient = 1;
    for (size_t k = 0; k < of.n; k++) {
        const ls_entry *e = ls_worksheet_entry(w, of.at[k].line);
        for (size_t i = 0; i < e->n && of.at[k].gradient != 0; i++)
            of.at[w->book->places[e->in[i]]].gradient +=
                of.at[k].gradient * ls_worksheet_operation_of(e->op)->derivative(w, e, i);
    }
    return of;
}

bool ls_line_among(const ls_ancestors *of, ls_line line) {
    const ls_ancestor key = {line, 0};
    return of->n > 0 && bsearch(&key, of->at, of->n, sizeof key, later_first) != NULL;
}

/* Standard uncertainty of a line from the leaves that are not skipped. */
static double first_order_scale(const ls_worksheet *w, ls_line line, const ls_ancestors *skip) {
    ls_arena *a = ls_arena_new();
    ls_ancestors of = ls_line_ancestors(a, w, line);
    double squares = 0;
    for (size_t k = of.n; k-- > 0;) {
        const ls_entry *e = ls_worksheet_entry(w, of.at[k].line);
        if (e->op != LS_OP_LEAF || e->spread.kind == LS_EXACT) continue;
        if (of.at[k].gradient == 0 || (skip != NULL && ls_line_among(skip, of.at[k].line))) continue;
        double part = of.at[k].gradient * ls_spread_scale(e->spread, e->value);
        squares += part * part;
    }
    ls_arena_free(a);
    return sqrt(squares);
}

double ls_line_log_scale(const ls_worksheet *w, ls_line line, const ls_ancestors *skip) {
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
