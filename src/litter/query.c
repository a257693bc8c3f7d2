/* A figure outside of its published or usual bounds is queried. Reads values: nothing is computed
 * from the result. */
#include "house.h"

const char *ls_litter_source(const ls_figure *f) {
    return f->source ? f->source->title : ls_status_words(f->status);
}

const ls_figure *ls_litter_bound(const ls_litter_house *h, const char *kind, const char *row,
                                 const char *column) {
    return ls_row_figure(ls_table_row(ls_reference_table(h->reference, kind, ""), row), column);
}

void ls_litter_query(ls_litter_house *h, const char *id, const char *what, ls_line line,
                     const char *kind, const char *row) {
    const ls_figure *low = ls_litter_bound(h, kind, row, "low");
    const ls_figure *high = ls_litter_bound(h, kind, row, "high");
    double v = ls_line_value(h->w, line);
    const ls_figure *passed = low && v < low->value ? low : high && v > high->value ? high : NULL;
    if (!passed)
        return;
    const ls_entry *e = ls_line_at(h->w, line);
    const char *unit = ls_text_same(e->unit.text, "day") ? "days" : e->unit.text;
    const char *blank = unit[0] ? " " : "";
    ls_litter_caution(h, id, ls_litter_source(passed), "%s is %s%s%s, %s the %s%s%s%s", what,
                      ls_number_text(h->arena, v / e->unit.factor, 3), blank, unit,
                      passed == low ? "below" : "above",
                      passed->source ? "published " : "usual bound, ",
                      ls_number_text(h->arena, passed->value / e->unit.factor, 3), blank, unit);
}
