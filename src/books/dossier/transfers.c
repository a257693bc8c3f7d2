/* What each receiver got. */
#include "room.h"

/* The litter of one lot, once. */
static void add_analysis(ls_dossier *d, ls_dossier_transfer *t, size_t file, size_t lot) {
    for (size_t i = 0; i < t->analyses.n; i++)
        if (t->analyses.at[i].file == file && t->analyses.at[i].lot == lot) return;
    ls_dossier_analysis *x = LS_PUSH(d->arena, &t->analyses);
    *x = (ls_dossier_analysis){file, lot, ls_dossier_estimate(d, file)->lots[lot].analysis, {0}};
    for (int k = 0; k < LS_FIELD_NUTRIENTS; k++) x->per_ton[k] = ls_dossier_per_ton(d, file, lot, ls_in_litter[k]);
}

static void one_receiver(ls_dossier *d, const ls_buyer *b) {
    ls_worksheet *w = d->sheet;
    ls_dossier_transfer t = {.buyer = b};
    ls_books_lines tons = {0};
    LS_EACH (const ls_dossier_load, load, d->loads)
        LS_EACH_OF (const ls_dossier_drop, drop, load->drops, load->n) {
            if (drop->buyer != b) continue;
            *LS_PUSH(d->arena, &t.loads) = (ls_dossier_part){load, drop};
            *LS_PUSH(d->arena, &tons) = drop->tons;
            LS_EACH_OF (const ls_dossier_piece, p, drop->litter, drop->litters) add_analysis(d, &t, p->file, p->lot);
        }
    if (t.loads.n == 0) return;
    t.tons = ls_sum(w, ls_printf(w, "%s.handed-over", b->slug), ls_printf(w, "handed over to %s", b->name.text), "ton",
                    tons.at, tons.n);
    *LS_PUSH(d->arena, &d->transfers) = t;
}

void ls_dossier_make_transfers(ls_dossier *d) {
    LS_EACH (const ls_buyer, b, d->farm->buyers)
        if (!ls_dossier_is_own(b)) one_receiver(d, b);
}
