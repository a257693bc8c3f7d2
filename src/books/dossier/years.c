/* Totals year by year. */
#include "room.h"

/* All birds of that kind: of each house the largest flock; LS_NO_LINE: none. */
static ls_line birds_of(const ls_dossier *d, const ls_farm *farm, const char *lead, int bird) {
    ls_worksheet *w = d->books->sheet;
    ls_books_lines x = {0};
    for (size_t i = 0; i < farm->houses.n; i++) {
        const ls_house *h = &farm->houses.at[i];
        const ls_flock *most = ls_books_largest(h, bird);
        if (most == NULL)
            continue;
        ls_origin origin = {LS_BY_FARM, farm == d->farm ? most->at : LS_NOWHERE, NULL,
                            "birds placed; of breeders hens and males"};
        *LS_PUSH(d->arena, &x) = ls_leaf(w, ls_printf(w, "%s.%s.birds-%d", lead, h->slug, bird),
                                         ls_printf(w, "birds of %s", h->name.text), "bird",
                                         (double)ls_books_birds(most), ls_spread_exact(), origin);
    }
    return x.n == 0 ? LS_NO_LINE
                    : ls_sum(w, ls_printf(w, "%s.birds-%d", lead, bird),
                             ls_printf(w, "%s on the farm", ls_bird_name(bird)), "bird", x.at, x.n);
}

/* ---- years ---- */

typedef struct {
    ls_books_lines own, moved, acres, used, birds, out;
} year_parts;

static void year_field(ls_dossier *d, const ls_farm *farm, const char *lead, size_t b, size_t f,
                       year_parts *y) {
    ls_worksheet *w = d->books->sheet;
    const ls_field *field = &farm->buyers.at[b].fields.at[f];
    ls_line acres =
        ls_leaf_given(w, ls_printf(w, "%s.%s.%s.area", lead, farm->buyers.at[b].slug, field->slug),
                      ls_printf(w, "area of %s", field->name.text), "ac", &field->area);
    *LS_PUSH(d->arena, &y->acres) = acres;
    for (size_t i = 0; i < farm->hauled.n; i++)
        for (size_t k = 0; k < farm->hauled.at[i].n; k++)
            if (farm->hauled.at[i].drops[k].field == field) {
                *LS_PUSH(d->arena, &y->used) = acres;
                return;
            }
}

static void year_loads(ls_dossier *d, const ls_farm *farm, const char *lead, year_parts *y) {
    ls_worksheet *w = d->books->sheet;
    for (size_t i = 0; i < farm->hauled.n; i++) {
        const ls_hauled *load = &farm->hauled.at[i];
        if (!load->from_stack)
            *LS_PUSH(d->arena, &y->out) = ls_leaf_exact(w, ls_printf(w, "%s.load-%zu", lead, i + 1),
                                                        ls_printf(w, "load %s", load->ticket),
                                                        "ton", load->tons, LS_BY_LOG, load->entry);
        for (size_t k = 0; k < load->n; k++) {
            const ls_hauled_drop *drop = &load->drops[k];
            if (drop->buyer == NULL)
                continue;
            *LS_PUSH(d->arena, drop->buyer->own.yes ? &y->own : &y->moved) =
                ls_leaf_exact(w, ls_printf(w, "%s.load-%zu.part-%zu", lead, i + 1, k + 1),
                              ls_printf(w, "of load %s", load->ticket), "ton", drop->tons,
                              LS_BY_LOG, load->entry);
        }
    }
}

static ls_line year_sum(ls_dossier *d, const char *lead, const char *what, const char *label,
                        const char *unit, const ls_books_lines *x) {
    ls_worksheet *w = d->books->sheet;
    return x->n == 0 ? LS_NO_LINE
                     : ls_sum(w, ls_printf(w, "%s.%s", lead, what), label, unit, x->at, x->n);
}

/* The days between which loads of a farm went out: "2026-02-16 to 2026-02-18"; or in words. */
static const char *years_of(ls_books *books, const ls_farm *farm, bool words) {
    ls_date first = LS_NO_DATE, last = LS_NO_DATE;
    for (size_t i = 0; i < farm->hauled.n; i++) {
        ls_date day = farm->hauled.at[i].day;
        if (first == LS_NO_DATE || day < first)
            first = day;
        if (last == LS_NO_DATE || day > last)
            last = day;
    }
    if (first == LS_NO_DATE)
        return "nothing hauled yet";
    return words ? ls_arena_printf(books->arena, "%s to %s", ls_date_words(books->arena, first, 0),
                                   ls_date_words(books->arena, last, 0))
                 : ls_arena_printf(books->arena, "%s to %s", ls_date_iso(books->arena, first),
                                   ls_date_iso(books->arena, last));
}

static void add_year(ls_dossier *d, const ls_farm *farm, size_t index) {
    const char *lead = ls_arena_printf(d->arena, "dossier.year-%zu", index);
    year_parts y = {0};
    for (int bird = 1; bird < LS_BIRDS; bird++) {
        ls_line birds = birds_of(d, farm, lead, bird);
        if (birds != LS_NO_LINE)
            *LS_PUSH(d->arena, &y.birds) = birds;
    }
    for (size_t b = 0; b < farm->buyers.n; b++)
        for (size_t f = 0; f < farm->buyers.at[b].fields.n; f++)
            year_field(d, farm, lead, b, f, &y);
    year_loads(d, farm, lead, &y);
    *LS_PUSH(d->arena, &d->years) =
        (ls_dossier_year){years_of(d->books, farm, false),
                          years_of(d->books, farm, true),
                          index == 0 ? "this file" : d->books->earlier.at[index - 1]->name,
                          farm,
                          year_sum(d, lead, "birds", "birds", "bird", &y.birds),
                          year_sum(d, lead, "out", "out of the houses", "ton", &y.out),
                          year_sum(d, lead, "moved", "moved to others", "ton", &y.moved),
                          year_sum(d, lead, "own", "on own fields", "ton", &y.own),
                          year_sum(d, lead, "acres", "acres in the plan", "ac", &y.acres),
                          year_sum(d, lead, "used", "acres used", "ac", &y.used)};
}

void ls_dossier_make_years(ls_dossier *d) {
    add_year(d, d->farm, 0);
    for (size_t i = 0; i < d->books->earlier.n; i++)
        add_year(d, d->books->earlier.at[i]->farm, i + 1);
}
