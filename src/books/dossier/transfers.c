/* What each receiver got. */
#include "room.h"

/* The litter of one lot, once. */
static void add_analysis(ls_dossier *d, ls_dossier_transfer *t, size_t file, size_t lot) {
    static const int nutrients[LS_FIELD_NUTRIENTS] = {LS_N, LS_P2O5, LS_K2O};
    for (size_t i = 0; i < t->analyses.n; i++)
        if (t->analyses.at[i].file == file && t->analyses.at[i].lot == lot) return;
    ls_dossier_analysis *x = LS_PUSH(d->arena, &t->analyses);
    *x = (ls_dossier_analysis){file, lot, ls_dossier_estimate(d, file)->lots[lot].analysis, {0}};
    for (int k = 0; k < LS_FIELD_NUTRIENTS; k++)
        x->per_ton[k] = ls_dossier_per_ton(d, file, lot, nutrients[k]);
}

static void one_receiver(ls_dossier *d, const ls_buyer *b) {
    ls_worksheet *w = d->books->sheet;
    ls_dossier_transfer t = {.buyer = b};
    ls_books_lines tons = {0};
    for (size_t i = 0; i < d->loads.n; i++)
        for (size_t k = 0; k < d->loads.at[i].n; k++) {
            const ls_dossier_drop *drop = &d->loads.at[i].drops[k];
            if (drop->buyer != b) continue;
            *LS_PUSH(d->arena, &t.loads) = (ls_dossier_part){&d->loads.at[i], drop};
            *LS_PUSH(d->arena, &tons) = drop->tons;
            for (size_t p = 0; p < drop->litters; p++)
                add_analysis(d, &t, drop->litter[p].file, drop->litter[p].lot);
        }
    if (t.loads.n == 0) return;
    t.tons = ls_sum(w, ls_printf(w, "dossier.%s.handed-over", b->slug),
                    ls_printf(w, "handed over to %s", b->name.text), "ton", tons.at, tons.n);
    *LS_PUSH(d->arena, &d->transfers) = t;
}

void ls_dossier_make_transfers(ls_dossier *d) {
    for (size_t i = 0; i < d->farm->buyers.n; i++)
        if (!ls_dossier_is_own(&d->farm->buyers.at[i])) one_receiver(d, &d->farm->buyers.at[i]);
}
