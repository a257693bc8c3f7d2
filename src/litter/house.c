#include "house.h"

#include <stdarg.h>

const char *ls_litter_key(const ls_litter_house *h, const char *format, ...) {
    va_list args;
    va_start(args, format);
    const char *tail = ls_arena_vprintf(ls_worksheet_arena(h->w), format, args);
    va_end(args);
    return ls_printf(h->w, "%s.%s", h->slug, tail);
}

/* A note is told once, however many flocks or readings it is of. */
void ls_litter_note(ls_litter_house *h, const char *format, ...) {
    va_list args;
    va_start(args, format);
    ls_arena *a = ls_worksheet_arena(h->w);
    const char *text = ls_arena_vprintf(a, format, args);
    va_end(args);
    const char *note = ls_printf(h->w, "%s: %s", h->house->name.text, text);
    for (size_t i = 0; i < h->estimate->notes.n; i++)
        if (ls_text_same(h->estimate->notes.at[i], note))
            return;
    *LS_PUSH(a, &h->estimate->notes) = note;
}

void ls_litter_caution(ls_litter_house *h, const char *id, const char *source, const char *format,
                       ...) {
    va_list args;
    va_start(args, format);
    ls_arena *a = ls_worksheet_arena(h->w);
    const char *text = ls_arena_vprintf(a, format, args);
    va_end(args);
    *LS_PUSH(a, &h->estimate->cautions) =
        (ls_caution){id, ls_printf(h->w, "%s: %s", h->house->name.text, text), source};
}

const ls_figure *ls_litter_practice(const ls_litter_house *h, const char *row) {
    return ls_reference_need(h->reference, "practice", "", row, "value");
}

const char *ls_litter_status(const ls_figure *f) {
    return f->status == LS_MEMORY     ? ", from memory"
           : f->status == LS_PRACTICE ? ", common practice"
                                      : "";
}

ls_line ls_litter_shared(ls_litter_house *h, const char *key, const char *label, const char *unit,
                         const ls_figure *f) {
    ls_line known = ls_line_find(h->w, key);
    return known != LS_NO_LINE ? known : ls_leaf_figure(h->w, key, label, unit, f);
}

ls_line ls_litter_factor(ls_litter_house *h, const char *key, const char *label, const char *row) {
    const ls_figure *f = ls_litter_practice(h, row);
    ls_origin origin = {LS_BY_TABLE, LS_NOWHERE, f,
                        "a factor of 1 whose log standard deviation is this figure"};
    return ls_leaf(h->w, key, label, "", 1, ls_spread_lognormal(f->value), origin);
}

ls_line ls_litter_flock_line(const ls_litter_house *h, size_t k, const char *what) {
    return ls_line_find(h->w, LS_KEY(h, "flock-%zu.%s", k, what));
}
