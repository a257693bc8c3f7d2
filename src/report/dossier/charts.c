/* The pictures of the dossier. */
#include "chapters.h"

#include "report/chart.h"

#include <math.h>
#include <string.h>

static const char *shown(const ls_document *doc, ls_line line, const char *unit) {
    bool tons = strcmp(unit, "ton") == 0;
    return ls_doc_told(doc, tons ? BOOKED(line, unit) : F(line, unit));
}

static void bar(const ls_document *doc, ls_chart_rows *rows, const char *label, ls_line line, const char *unit,
                bool hatched) {
    double value = ls_line_value(doc->view->sheet, line);
    if (line != LS_NO_LINE && isfinite(value))
        *LS_PUSH(doc->arena, rows) =
            (ls_chart_row){.label = label, .shown = shown(doc, line, unit), .value = value, .hatched = hatched};
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
        &(ls_chart_frame){.id = "ways",
                          .title = "Where the tons went",
                          .description = "Full bars: litter on fields. Hatched bars: litter that waits.",
                          .unit = "ton",
                          .labels = 130,
                          .rule = ls_line_value(doc->view->sheet, b->made),
                          .rule_words = ls_arena_printf(doc->arena, "made: %s", shown(doc, b->made, "ton"))},
        &rows);
}

const char *ls_dossier_chart_field(const ls_document *doc, const ls_dossier_field *f, size_t index) {
    ls_chart_rows rows = {0};
    if (f->actual.tons == LS_NO_LINE) return NULL;
    bar(doc, &rows, "usable N applied", f->actual.available, "lb/ac", false);
    bar(doc, &rows, "usable N limit", f->rates->left[LS_FIELD_N], "lb/ac", true);
    bar(doc, &rows, "P2O5 applied", f->actual.on_acre[LS_FIELD_P2O5], "lb/ac", false);
    bar(doc, &rows, "P2O5 limit", f->rates->phosphate_litter, "lb/ac", true);
    return ls_chart(
        doc->view,
        &(ls_chart_frame){.id = ls_arena_printf(doc->arena, "field%zu-chart", index + 1),
                          .title = ls_arena_printf(doc->arena, "Nitrogen and phosphate on %s beside their limits",
                                                   f->field->name.text),
                          .description = "Pounds an acre. Full bar: applied. Hatched bar: the limit. No hatched "
                                         "bar: the rating sets no limit.",
                          .unit = "lb/ac",
                          .labels = 110},
        &rows);
}
