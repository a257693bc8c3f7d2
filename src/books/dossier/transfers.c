/* What each receiver got. */
#include "room.h"

#include <stdlib.h>

static int by_load(const void *left, const void *right) {
    const ls_dossier_application *a = *(const ls_dossier_application *const *)left,
                                 *b = *(const ls_dossier_application *const *)right;
    if (a->load != b->load) return a->load < b->load ? -1 : 1;
    return (a->part > b->part) - (a->part < b->part);
}

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
    for (size_t i = 0; i < d->fields.n; i++)
        for (size_t k = 0; d->fields.at[i].buyer == b && k < d->fields.at[i].applications.n; k++)
            *LS_PUSH(d->arena, &t.loads) = &d->fields.at[i].applications.at[k];
    if (t.loads.n == 0) return;
    qsort(t.loads.at, t.loads.n, sizeof *t.loads.at, by_load);
    for (size_t i = 0; i < t.loads.n; i++) {
        const ls_dossier_drop *drop = &t.loads.at[i]->load->drops[t.loads.at[i]->part];
        *LS_PUSH(d->arena, &tons) = t.loads.at[i]->tons;
        for (size_t k = 0; k < drop->litters; k++)
            add_analysis(d, &t, drop->litter[k].file, drop->litter[k].lot);
    }
    t.tons = ls_sum(w, ls_printf(w, "dossier.%s.handed-over", b->slug),
                    ls_printf(w, "handed over to %s", b->name.text), "ton", tons.at, tons.n);
    *LS_PUSH(d->arena, &d->transfers) = t;
}

void ls_dossier_make_transfers(ls_dossier *d) {
    for (size_t i = 0; i < d->farm->buyers.n; i++)
        if (!ls_dossier_is_own(&d->farm->buyers.at[i])) one_receiver(d, &d->farm->buyers.at[i]);
}
