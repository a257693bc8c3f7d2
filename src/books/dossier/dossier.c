/* The dossier: its loads, and what it is made of. */
#include "room.h"

bool ls_dossier_falls_short(const ls_dossier *d) {
    for (size_t i = 0; i < d->findings.n; i++) {
        const ls_dossier_finding *f = &d->findings.at[i];
        if (f->found == LS_MISSING && f->required)
            return true;
    }
    return false;
}

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
    return load->n == 0 ? "not told" : t->s;
}

/* ---- loads ---- */

static void one_load(ls_dossier *d, const ls_hauled *h) {
    ls_worksheet *w = d->books->sheet;
    const ls_log *log = d->log;
    ls_dossier_load load = {.hauled = h, .lot = ls_books_lot_of(d->estimate, h->lot), .n = h->n};
    if (load.lot == NULL)
        return;
    if (log != NULL && h->log_entry > 0 && (size_t)h->log_entry <= log->entries.n)
        load.entry = &log->entries.at[h->log_entry - 1];
    load.tons = ls_leaf_exact(
        w, ls_words(w, "dossier.load-%zu.tons", d->loads.n + 1),
        ls_words(w, "load %s, %s", h->ticket, h->weighed ? "over a scale" : "judged by eye"), "ton",
        h->tons, LS_BY_LOG, h->entry);
    load.drops = LS_NEW(d->arena, ls_dossier_drop, h->n);
    for (size_t k = 0; k < h->n; k++) {
        const ls_hauled_drop *drop = &h->drops[k];
        ls_line tons = load.tons;
        if (h->n > 1)
            tons = ls_leaf_exact(
                w, ls_words(w, "dossier.load-%zu.part-%zu.tons", d->loads.n + 1, k + 1),
                ls_words(w, "part of load %s%s", h->ticket,
                         drop->guessed ? ", all parts alike: the log tells none" : ""),
                "ton", drop->tons, LS_BY_LOG, h->entry);
        load.drops[k] = (ls_dossier_drop){drop->buyer, drop->field, tons};
    }
    *LS_PUSH(d->arena, &d->loads) = load;
}

static void make_loads(ls_dossier *d) {
    for (size_t i = 0; i < d->farm->hauled.n; i++)
        one_load(d, &d->farm->hauled.at[i]);
}

/* ---- the whole ---- */

/* The farm as before any load, with its plan. */
static void before(ls_dossier *d, ls_progress progress) {
    ls_books *then = LS_NEW(d->arena, ls_books, 1);
    *then = ls_books_of(d->books, ls_books_bare(d->books));
    if (then->estimate == NULL)
        return;
    d->before = d->farm->hauled.n > 0 ? then : NULL;
    if (then->agronomy == NULL || !ls_books_can_plan(then))
        return;
    ls_plan_terms terms = {.from = LS_NO_DATE, .progress = progress};
    d->plan = ls_haul_plan_on(then->sheet, then->reference, then->estimate, then->agronomy, &terms);
    d->plan_sheet = then->sheet;
}

const ls_dossier *ls_books_dossier(ls_books *books, ls_date printed, ls_progress progress) {
    ls_dossier *d = LS_NEW(books->arena, ls_dossier, 1);
    *d = (ls_dossier){.books = books,
                      .arena = books->arena,
                      .farm = books->farm,
                      .estimate = books->estimate,
                      .log = books->log,
                      .printed = printed};
    before(d, progress);
    make_loads(d);
    if (!ls_dossier_make_fields(d))
        return NULL;
    ls_dossier_join_notes(d);
    ls_dossier_make_balance(d);
    ls_dossier_make_ages(d);
    ls_dossier_make_stack(d);
    ls_dossier_make_ways(d);
    ls_dossier_make_days(d);
    ls_dossier_make_sizes(d);
    ls_dossier_make_years(d);
    ls_dossier_make_months(d);
    ls_dossier_audit(d);
    return d;
}
