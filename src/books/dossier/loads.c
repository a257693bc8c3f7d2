/* The loads that are gone: where they went, in whose files they stand. */
#include "room.h"

bool ls_dossier_is_transfer(const ls_dossier_load *load) {
    for (size_t k = 0; k < load->n; k++)
        if (load->drops[k].buyer != NULL && !ls_dossier_is_own(load->drops[k].buyer))
            return true;
    return false;
}

bool ls_dossier_on(const ls_dossier_load *load, const ls_field *field) {
    for (size_t k = 0; k < load->n; k++)
        if (load->drops[k].field == field)
            return true;
    return false;
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
