/* The pictures of the dossier. */
#include "chart.h"
#include "dossier_paper.h"

#include <math.h>

static const char *shown(const ls_dossier *d, ls_line line, const char *unit) {
    ls_report_page p = {d->view, d->view->arena, NULL};
    return ls_paper_shown(&p, &LS_PAPER_LINE(line, unit));
}

static void bar(const ls_dossier *d, ls_chart_rows *rows, const char *label, ls_line line,
                const char *unit, bool hatched) {
    double value = ls_line_value(d->view->sheet, line);
    if (line != LS_NO_LINE && isfinite(value))
        *LS_PUSH(d->view->arena, rows) =
            (ls_chart_row){label, shown(d, line, unit), value, value, value, false, hatched};
}

const char *ls_dossier_chart_ways(const ls_dossier *d) {
    const ls_dossier_balance *b = &d->balance;
    ls_chart_rows rows = {0};
    bar(d, &rows, "own fields", b->own, "ton", false);
    bar(d, &rows, "moved to others", b->moved, "ton", false);
    bar(d, &rows, "in the stack", b->stacked, "ton", true);
    bar(d, &rows, "still in the houses", b->left, "ton", true);
    return ls_chart(d->view->arena, "ways", "Tons by way",
                    "Full bars: litter on fields. Hatched bars: litter that waits.", &rows,
                    ls_line_value(d->view->sheet, b->made),
                    ls_arena_printf(d->view->arena, "made: %s", shown(d, b->made, "ton")));
}

const char *ls_dossier_chart_field(const ls_dossier *d, const ls_dossier_field *f, size_t index) {
    ls_chart_rows rows = {0};
    if (f->actual.tons == LS_NO_LINE)
        return NULL;
    bar(d, &rows, "N on an acre, plant-available", f->actual.available, "lb/ac", false);
    bar(d, &rows, "N: need less credits", f->rates->left[LS_FIELD_N], "lb/ac", true);
    bar(d, &rows, "P2O5 on an acre", f->actual.on_acre[LS_FIELD_P2O5], "lb/ac", false);
    bar(d, &rows, "P2O5: what the rating allows", f->rates->phosphate_left, "lb/ac", true);
    return ls_chart(d->view->arena, ls_arena_printf(d->view->arena, "field%zu-chart", index + 1),
                    ls_arena_printf(d->view->arena,
                                    "Nitrogen and phosphate on %s beside their "
                                    "limits",
                                    f->field->name.text),
                    "Pairs of bars in pounds an acre: full what went on, hatched the limit; no "
                    "hatched bar where the rating sets no limit.",
                    &rows, NAN, NULL);
}

/* ---- the estimate by method ---- */

static ls_line point(const ls_dossier *d, const ls_lot *lot, size_t method, const char *which,
                     double value) {
    const ls_view *v = d->view;
    const char *key = ls_words(v->sheet, "dossier.%s.method-%zu.%s", lot->slug, method + 1, which);
    ls_line line = ls_line_find(v->sheet, key);
    return line != LS_NO_LINE
               ? line
               : ls_leaf_exact(v->sheet, key,
                               ls_words(v->sheet, "%s, %s", lot->methods[method].name, which),
                               "ton", value, LS_BY_SIMULATION, "without the haul log");
}

static void method(const ls_dossier *d, ls_chart_rows *rows, const ls_lot *lot, size_t i) {
    const ls_method *m = &lot->methods[i];
    ls_line low = point(d, lot, i, "low", m->tons.low),
            mid = point(d, lot, i, "middle", m->tons.mid),
            high = point(d, lot, i, "high", m->tons.high);
    const ls_worksheet *w = d->view->sheet;
    *LS_PUSH(d->view->arena, rows) = (ls_chart_row){
        ls_arena_printf(d->view->arena, "%s: %s", lot->name, m->name),
        ls_arena_printf(d->view->arena, "%s to %s", shown(d, low, "ton"), shown(d, high, "ton")),
        ls_line_value(w, low),
        ls_line_value(w, mid),
        ls_line_value(w, high),
        true,
        false};
}

const char *ls_dossier_chart_methods(const ls_dossier *d) {
    const ls_estimate *e = d->terms.before != NULL ? d->terms.before : d->terms.estimate;
    const ls_estimate *now = d->terms.estimate;
    ls_chart_rows rows = {0};
    for (size_t i = 0; i < e->n; i++) {
        for (size_t k = 0; k < e->lots[i].methods_n; k++)
            method(d, &rows, &e->lots[i], k);
        if (i < now->n && now->lots[i].empty)
            bar(d, &rows,
                ls_arena_printf(d->view->arena, "%s: hauled, by the log", e->lots[i].name),
                now->lots[i].made.line, "ton", true);
    }
    return ls_chart(d->view->arena, "methods", "Tons of each lot by each way of knowing",
                    "A line from the 10 to the 90 % point with a ring at the middle for each way; "
                    "hatched bars: what came out by the haul log.",
                    &rows, NAN, NULL);
}

/* ---- the calendar ---- */

static ls_line tons_of_day(const ls_dossier *d, ls_date day, size_t *loads) {
    const ls_view *v = d->view;
    LS_LIST(ls_line) x = {0};
    const char *key = ls_words(v->sheet, "dossier.day-%s.tons", ls_date_iso(v->arena, day));
    for (size_t i = 0; i < d->loads.n; i++)
        if (d->loads.at[i].hauled->day == day)
            *LS_PUSH(v->arena, &x) = d->loads.at[i].tons;
    *loads = x.n;
    ls_line line = ls_line_find(v->sheet, key);
    return line != LS_NO_LINE ? line : ls_sum(v->sheet, key, "hauled on the day", "ton", x.at, x.n);
}

/* The next day after day on which a load went; LS_NO_DATE: none. */
static ls_date next_day(const ls_dossier *d, ls_date day) {
    ls_date next = LS_NO_DATE;
    for (size_t i = 0; i < d->loads.n; i++) {
        ls_date x = d->loads.at[i].hauled->day;
        if (x > day && (next == LS_NO_DATE || x < next))
            next = x;
    }
    return next;
}

const char *ls_dossier_chart_calendar(const ls_dossier *d) {
    enum { MOST_DAYS = 60 };
    const ls_view *v = d->view;
    ls_chart_rows rows = {0};
    for (ls_date day = next_day(d, LS_NO_DATE); day != LS_NO_DATE && rows.n < MOST_DAYS;
         day = next_day(d, day)) {
        size_t n;
        ls_line tons = tons_of_day(d, day, &n);
        bar(d, &rows,
            ls_arena_printf(v->arena, "%s, %zu load%s", ls_date_words(v->arena, day), n,
                            n == 1 ? "" : "s"),
            tons, "ton", false);
    }
    return ls_chart(v->arena, "calendar", "Loads by day", "A bar of tons for each day with loads.",
                    &rows, NAN, NULL);
}
