/* The loads that are gone: where they went, in whose files they stand. */
#include "room.h"

bool ls_dossier_is_transfer(const ls_dossier_load *load) {
    for (size_t k = 0; k < load->n; k++)
        if (load->drops[k].buyer != NULL && !ls_dossier_is_own(load->drops[k].buyer))
            return true;
    return false;
}

bool ls_dossier_bought(const ls_dossier_field *f) {
    bool bought = false;
    for (size_t i = 0; i < f->rates->credit_n; i++)
        bought = bought || f->rates->credit[i].gives[LS_FIELD_P2O5] != LS_NO_LINE;
    return bought;
}

bool ls_dossier_above(const ls_dossier *d, ls_line x, ls_line limit) {
    const ls_worksheet *w = d->books->sheet;
    double open =
        ls_reference_need(d->books->reference, "practice", "", "over a limit unflagged", "value")
            ->value;
    return x != LS_NO_LINE && limit != LS_NO_LINE &&
           ls_line_value(w, x) > ls_line_value(w, limit) * (1 + open);
}

const char *ls_dossier_name(ls_arena *a, const ls_buyer *b, const ls_field *f) {
    return ls_arena_printf(a, "%s/%s", b->name.text, f->name.text);
}

const char *ls_dossier_place(ls_arena *a, const ls_dossier_load *load) {
    ls_text *t = ls_text_new(a);
    for (size_t k = 0; k < load->n; k++)
        ls_text_addf(t, "%s%s", k == 0 ? "" : "; ",
                     load->drops[k].buyer == NULL
                         ? "the stack"
                         : ls_dossier_name(a, load->drops[k].buyer, load->drops[k].field));
    return load->n == 0 ? "not known" : t->s;
}

/* ---- loads of this file ---- */

static void one_load(ls_dossier *d, size_t index) {
    const ls_hauled *h = &d->farm->hauled.at[index];
    const ls_log *log = d->log;
    ls_dossier_load load = {.hauled = h, .lot = ls_books_lot_of(d->estimate, h->lot), .n = h->n};
    if (load.lot == NULL)
        return;
    if (log != NULL && h->log_entry > 0 && (size_t)h->log_entry <= log->entries.n)
        load.entry = &log->entries.at[h->log_entry - 1];
    load.tons = ls_dossier_tons(d, 0, index, LS_DOSSIER_WHOLE);
    load.drops = LS_NEW(d->arena, ls_dossier_drop, h->n);
    for (size_t k = 0; k < h->n; k++)
        load.drops[k] = (ls_dossier_drop){h->drops[k].buyer, h->drops[k].field,
                                          ls_dossier_tons(d, 0, index, k)};
    *LS_PUSH(d->arena, &d->loads) = load;
}

void ls_dossier_make_loads(ls_dossier *d) {
    for (size_t i = 0; i < d->farm->hauled.n; i++)
        one_load(d, i);
}
