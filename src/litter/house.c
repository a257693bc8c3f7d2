#include "house.h"

#include <stdarg.h>

/* "North: " and what is printed. */
static const char *of_house(const ls_litter_house *h, const char *format, va_list arguments) {
    return ls_printf(h->w, "%s: %s", h->house->name.text,
                     ls_arena_vprintf(h->arena, format, arguments));
}

/* A note is told once, however many flocks or readings it is of. */
void ls_litter_note(ls_litter_house *h, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    const char *note = of_house(h, format, arguments);
    va_end(arguments);
    for (size_t i = 0; i < h->estimate->notes.n; i++)
        if (ls_text_same(h->estimate->notes.at[i], note))
            return;
    *LS_PUSH(h->arena, &h->estimate->notes) = note;
}

void ls_litter_caution(ls_litter_house *h, const char *id, const char *source, const char *format,
                       ...) {
    va_list arguments;
    va_start(arguments, format);
    *LS_PUSH(h->arena, &h->estimate->cautions) =
        (ls_caution){id, of_house(h, format, arguments), source};
    va_end(arguments);
}

const ls_figure *ls_litter_practice(const ls_litter_house *h, const char *row) {
    return ls_reference_need(h->reference, "practice", "", row, "value");
}

const char *ls_litter_status(const ls_figure *f) {
    return f->status == LS_MEMORY     ? ", from memory"
           : f->status == LS_PRACTICE ? ", common practice"
                                      : "";
}

ls_line ls_litter_factor(const ls_litter_house *h, ls_worksheet *w, const char *key,
                         const char *label, const char *row) {
    const ls_figure *f = ls_litter_practice(h, row);
    return ls_leaf_by(w, key, label, "", f, 1, ls_spread_lognormal(f->value),
                      "a factor of 1 whose log standard deviation is this figure");
}

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
