/* The pictures of the dossier. */
#include "chapters.h"

#include "report/chart.h"

#include <math.h>
#include <string.h>

static const char *shown(const ls_document *doc, ls_line line, const char *unit) {
    bool tons = strcmp(unit, "ton") == 0;
    return ls_doc_told(doc, tons ? BOOKED(line, unit) : F(line, unit));
}

static void bar(const ls_document *doc, ls_chart_rows *rows, const char *label, ls_line line,
                const char *unit, bool hatched) {
    double value = ls_line_value(doc->view->sheet, line);
    if (line != LS_NO_LINE && isfinite(value))
        *LS_PUSH(doc->arena, rows) = (ls_chart_row){
            .label = label, .shown = shown(doc, line, unit), .value = value, .hatched = hatched};
}

const char *ls_dossier_chart_ways(const ls_document *doc, const ls_dossier *d) {
    const ls_dossier_balance *b = &d->balance;
    ls_chart_rows rows = {0};
    bar(doc, &rows, "own fields", b->own, "ton", false);
    bar(doc, &rows, "moved to others", b->moved, "ton", false);
    bar(doc, &rows, "in the stack", b->stacked, "ton", true);
    bar(doc, &rows, "still in the houses", b->left, "ton", true);
    return ls_chart(
        doc->view,
        &(ls_chart_frame){
            .id = "ways",
            .title = "Where the tons went",
            .description = "Full bars: litter on fields. Hatched bars: litter that waits.",
            .unit = "ton",
            .rule = ls_line_value(doc->view->sheet, b->made),
            .rule_words = ls_arena_printf(doc->arena, "made: %s", shown(doc, b->made, "ton"))},
        &rows);
}

const char *ls_dossier_chart_field(const ls_document *doc, const ls_dossier_field *f,
                                   size_t index) {
    ls_chart_rows rows = {0};
    if (f->actual.tons == LS_NO_LINE) return NULL;
    bar(doc, &rows, "N on an acre, plant-available", f->actual.available, "lb/ac", false);
    bar(doc, &rows, "N: need less credits", f->rates->left[LS_FIELD_N], "lb/ac", true);
    bar(doc, &rows, "P2O5 on an acre", f->actual.on_acre[LS_FIELD_P2O5], "lb/ac", false);
    bar(doc, &rows, "P2O5: what the rating allows", f->rates->phosphate_left, "lb/ac", true);
    return ls_chart(
        doc->view,
        &(ls_chart_frame){
            .id = ls_arena_printf(doc->arena, "field%zu-chart", index + 1),
            .title = ls_arena_printf(doc->arena, "Nitrogen and phosphate on %s beside their limits",
                                     f->field->name.text),
            .description = "Pounds an acre. Full bar: applied. Hatched bar: the limit. No hatched "
                           "bar: the rating sets no limit.",
            .unit = "lb/ac"},
        &rows);
}

/* Has the lot loads? lot NULL: has any? */
static bool is_hauled(const ls_dossier *d, const char *lot) {
    for (size_t i = 0; i < d->methods.n; i++)
        if (d->methods.at[i].scales && (lot == NULL || d->methods.at[i].lot == lot)) return true;
    return false;
}

/* Is that way in the picture? Of each lot with loads (of all, while there are none) the last: all
 * taken together, and what the loads show. */
static bool is_pictured(const ls_dossier *d, size_t way) {
    const char *lot = d->methods.at[way].lot;
    bool hauled = is_hauled(d, lot);
    size_t last = hauled ? way + 2 : way + 1;
    return hauled == is_hauled(d, NULL) && (last >= d->methods.n || d->methods.at[last].lot != lot);
}

const char *ls_dossier_chart_methods(const ls_document *doc, const ls_dossier *d) {
    const ls_worksheet *w = doc->view->sheet;
    ls_arena *a = doc->arena;
    ls_chart_rows rows = {0};
    for (size_t i = 0; i < d->methods.n; i++) {
        const ls_dossier_method *x = &d->methods.at[i];
        if (!is_pictured(d, i)) continue;
        const char *label = ls_arena_printf(a, "%s: %s", x->lot, x->method);
        double low = ls_line_value(w, x->low), high = ls_line_value(w, x->high);
        if (high - low <= 0)
            bar(doc, &rows, label, x->mid, "ton", true);
        else if (isfinite(low) && isfinite(high))
            *LS_PUSH(a, &rows) = (ls_chart_row){
                .label = label,
                .shown = ls_doc_told(doc, T("{}-{}", BARE(F(x->low, "ton")), F(x->high, "ton"))),
                .low = low,
                .value = ls_line_value(w, x->mid),
                .high = high,
                .range = true,
                .hatched = !x->scales};
    }
    return ls_chart(
        doc->view,
        &(ls_chart_frame){
            .id = "methods",
            .title = "Tons of each side",
            .description =
                "A bar from low to high, with a mark at likely. A side that is empty by the log: a "
                "bar up to its tons. Full: with the loads of the haul log. Hatched: without.",
            .unit = "ton"},
        &rows);
}

const char *ls_dossier_chart_calendar(const ls_document *doc, const ls_dossier *d) {
    const ls_crew *crew = d->farm->crew;
    ls_calendar_days days = {0};
    for (size_t i = 0; i < d->days.n; i++) {
        const ls_dossier_day *x = &d->days.at[i];
        *LS_PUSH(doc->arena, &days) =
            (ls_calendar_day){x->day, x->loads, ls_line_value(doc->view->sheet, x->tons),
                              ls_doc_told(doc, BARE(F(x->tons, "ton")))};
    }
    ls_calendar_days holds = {0};
    for (size_t i = 0; crew != NULL && i < crew->hold_days.n; i++)
        if (ls_hold_whole(&crew->hold_days.at[i]))
            *LS_PUSH(doc->arena, &holds) = (ls_calendar_day){.day = crew->hold_days.at[i].day};
    return ls_calendar(doc->arena, &days, &holds, crew == NULL ? 0 : crew->days_off);
}
