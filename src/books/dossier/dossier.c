/* The dossier: what it is made of, in its order. */
#include "room.h"

bool ls_dossier_falls_short(const ls_dossier *d) {
    LS_EACH (const ls_dossier_finding, f, d->findings) {
        if (f->state == LS_EXCEEDED || (f->state == LS_MISSING && f->required)) return true;
    }
    return false;
}

/* The farm as before any load, with its plan. */
static void before(ls_dossier *d, ls_progress progress) {
    ls_books *then = LS_NEW(d->arena, ls_books, 1);
    *then = ls_books_of(d->books, ls_books_bare(d->books));
    if (then->estimate == NULL) return;
    d->before = d->farm->hauled.n > 0 ? then : NULL;
    if (then->agronomy == NULL || !ls_books_can_plan(then)) return;
    ls_plan_terms terms = {.from = LS_NO_DATE, .progress = progress};
    d->plan = ls_haul_plan(then->sheet, then->reference, then->estimate, then->agronomy, &terms);
    d->plan_sheet = then->sheet;
}

const ls_dossier *ls_books_dossier(ls_books *books, ls_dossier_terms terms, ls_progress progress) {
    ls_dossier *d = LS_NEW(books->arena, ls_dossier, 1);
    *d = (ls_dossier){.books = books,
                      .sheet = ls_part(books->sheet, NULL, "dossier"),
                      .arena = books->arena,
                      .farm = books->farm,
                      .estimate = books->estimate,
                      .log = books->log,
                      .printed = terms.printed,
                      .months = {.from = terms.period.from, .to = terms.period.to}};
    before(d, progress);
    ls_dossier_make_loads(d);
    ls_dossier_make_stack(d);
    if (!ls_dossier_make_fields(d)) return NULL;
    ls_dossier_join_notes(d);
    ls_dossier_make_balance(d);
    ls_dossier_make_ages(d);
    ls_dossier_make_runs(d);
    ls_dossier_make_transfers(d);
    ls_dossier_make_methods(d);
    ls_dossier_make_days(d);
    ls_dossier_make_sizes(d);
    ls_dossier_make_years(d);
    ls_dossier_make_months(d);
    ls_dossier_make_period(d);
    ls_dossier_audit(d);
    return d;
}
