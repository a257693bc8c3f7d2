/* The loads that are gone: where they went, in whose files they stand. */
#include "room.h"

#include <stdlib.h>

bool ls_dossier_is_transfer(const ls_dossier_load *load) {
    for (size_t k = 0; k < load->n; k++)
        if (load->drops[k].buyer != NULL && !ls_dossier_is_own(load->drops[k].buyer)) return true;
    return false;
}

bool ls_dossier_bought(const ls_dossier_field *f) {
    bool bought = false;
    for (size_t i = 0; i < f->rates->credit_n; i++)
        bought = bought || f->rates->credit[i].gives[LS_FIELD_P2O5] != LS_NO_LINE;
    return bought;
}

bool ls_dossier_above(const ls_dossier *d, ls_line x, ls_line limit) {
    const ls_worksheet *w = d->sheet;
    double open = ls_reference_need(d->books->reference, "practice", "", "over a limit unflagged", "value")->value;
    return x != LS_NO_LINE && limit != LS_NO_LINE && ls_line_value(w, x) > ls_line_value(w, limit) * (1 + open);
}

const char *ls_dossier_name(ls_arena *a, const ls_buyer *b, const ls_field *f) {
    return ls_arena_printf(a, "%s/%s", b->name.text, f->name.text);
}

const char *ls_dossier_drop_place(ls_arena *a, const ls_dossier_drop *drop) {
    return drop == NULL          ? "not known"
           : drop->buyer == NULL ? "the stack"
                                 : ls_dossier_name(a, drop->buyer, drop->field);
}

/* ---- loads of this file ---- */

static void one_load(ls_dossier *d, size_t index) {
    const ls_hauled *h = &d->farm->hauled.at[index];
    const ls_log *log = d->log;
    ls_dossier_load load = {.hauled = h, .lot = ls_books_lot_of(d->estimate, h->lot), .n = h->n};
    if (load.lot == NULL) return;
    if (log != NULL && h->log_entry > 0 && (size_t)h->log_entry <= log->entries.n)
        load.entry = &log->entries.at[h->log_entry - 1];
    if (log != NULL && h->issue > 0) {
        ls_coded_lots lots = ls_books_lots(d->arena, d->farm);
        load.issued = &log->entries.at[h->issue - 1];
        load.ticket = ls_issued_of(d->arena, d->farm, &lots, load.issued);
        load.astray = !ls_books_same_way(&load.ticket, h->drops, h->n);
    }
    load.tons = ls_dossier_tons(d, 0, index, LS_DOSSIER_WHOLE);
    load.drops = LS_NEW(d->arena, ls_dossier_drop, h->n);
    for (size_t k = 0; k < h->n; k++)
        load.drops[k] = (ls_dossier_drop){
            .buyer = h->drops[k].buyer, .field = h->drops[k].field, .tons = ls_dossier_tons(d, 0, index, k)};
    *LS_PUSH(d->arena, &d->loads) = load;
}

/* ---- corrections ---- */

static ls_line tons_of(const ls_dossier *d, const ls_log_entry *e) {
    ls_worksheet *w = ls_part(d->sheet, NULL, "entry-%ld", e->number);
    return ls_leaf_exact(w, "tons", ls_printf(w, "tons of entry %ld", e->number), "ton", e->tons, LS_BY_LOG,
                         ls_printf(w, "entry %ld of %s", e->number, d->log->path));
}

static void add_change(ls_text *t, const char *what, const char *now, const char *was) {
    if (strcmp(now, was) != 0)
        ls_text_addf(t, "%s%s: %s, was %s", t->n > 0 ? "; " : "", what, now[0] != '\0' ? now : "nothing",
                     was[0] != '\0' ? was : "nothing");
}

static void one_correction(ls_dossier *d, const ls_log_entry *now) {
    const ls_log_entry *was = &d->log->entries.at[now->replaces - 1];
    ls_text *t = ls_text_new(d->arena);
    add_change(t, "ticket", ls_log_about(now), ls_log_about(was));
    add_change(t, "when", ls_when_text(d->arena, now->when), ls_when_text(d->arena, was->when));
    add_change(t, "weighed", now->weighed ? "yes" : "no", was->weighed ? "yes" : "no");
    add_change(t, "acres", ls_log_acres_text(d->arena, now->acres), ls_log_acres_text(d->arena, was->acres));
    for (ls_log_word k = 0; now->kind != LS_LOG_STRIKE && k < LS_LOG_NOTE; k++)
        add_change(t, ls_log_label(k), now->words[k], was->words[k]);
    *LS_PUSH(d->arena, &d->corrections) = (ls_dossier_correction){now, was, tons_of(d, now), tons_of(d, was), t->s};
}

void ls_dossier_make_loads(ls_dossier *d) {
    for (size_t i = 0; i < d->farm->hauled.n; i++) one_load(d, i);
    for (size_t i = 0; d->log != NULL && i < d->log->entries.n; i++)
        if (ls_log_corrects(&d->log->entries.at[i])) one_correction(d, &d->log->entries.at[i]);
}
