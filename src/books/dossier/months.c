/* The last 12 months of all files together (40 CFR 122.42(e)(4)). */
#include "room.h"

#include <stdlib.h>

/* The day after the same day a year before; of 29 February, after 28 February. */
static ls_date a_year_to(ls_arena *a, ls_date day) {
    const char *iso = ls_date_iso(a, day);
    const char *before = ls_arena_printf(a, "%04d%s", ls_date_year(day) - 1, iso + 4);
    ls_date same;
    if (!ls_date_parse(before, strlen(before), &same))
        same = ls_date_of(ls_date_year(day) - 1, 2, 28);
    return same + 1;
}

static ls_date newest(const ls_dossier *d) {
    ls_date last = LS_NO_DATE;
    for (size_t i = 0; i <= d->books->earlier.n; i++) {
        const ls_farm *farm = ls_dossier_farm(d, i);
        for (size_t k = 0; k < farm->hauled.n; k++)
            if (last == LS_NO_DATE || farm->hauled.at[k].day > last)
                last = farm->hauled.at[k].day;
    }
    return last;
}

static bool inside(const ls_dossier *d, ls_date day) {
    return day >= d->months.from && day <= d->months.to;
}

/* No lines give nothing: a line of 0. */
static ls_line total(ls_dossier *d, const char *what, const char *label, const char *unit,
                     const ls_books_lines *x) {
    ls_worksheet *w = d->books->sheet;
    const char *key = ls_printf(w, "dossier.months.%s", what);
    return x->n == 0 ? ls_leaf_exact(w, key, label, unit, 0, LS_BY_DEFINITION,
                                     "none falls into these months")
                     : ls_sum(w, key, label, unit, x->at, x->n);
}

/* ---- birds ---- */

/* Does an earlier place of the files tell of the same flock? */
static bool told_before(const ls_dossier *d, size_t file, size_t house, size_t flock) {
    const ls_house *h = &ls_dossier_farm(d, file)->houses.at[house];
    const ls_flock *f = &h->flocks.at[flock];
    for (size_t i = 0; i < file; i++) {
        const ls_farm *farm = ls_dossier_farm(d, i);
        for (size_t k = 0; k < farm->houses.n; k++)
            for (size_t n = 0; n < farm->houses.at[k].flocks.n; n++) {
                const ls_flock *other = &farm->houses.at[k].flocks.at[n];
                if (strcmp(farm->houses.at[k].name.text, h->name.text) == 0 &&
                    other->birds.is == f->birds.is && LS_GIVEN(other->placed) &&
                    other->placed.day == f->placed.day)
                    return true;
            }
    }
    return false;
}

static void one_flock(ls_dossier *d, size_t file, size_t house, size_t flock,
                      ls_books_lines *placed, ls_books_lines *housed) {
    ls_worksheet *w = d->books->sheet;
    const ls_house *h = &ls_dossier_farm(d, file)->houses.at[house];
    const ls_flock *f = &h->flocks.at[flock];
    if (!LS_GIVEN(f->placed)) {
        d->months.undated++;
        return;
    }
    /* the day of removal counts: the birds were there that morning */
    if (f->placed.day > d->months.to || told_before(d, file, house, flock) ||
        (LS_GIVEN(f->removed) && f->removed.day < d->months.from))
        return;
    ls_origin origin = {LS_BY_FARM, file == 0 ? f->at : LS_NOWHERE, NULL,
                        file == 0 ? "birds placed"
                                  : ls_arena_printf(d->arena, "%s: birds placed",
                                                    d->books->earlier.at[file - 1]->name)};
    ls_line line = ls_leaf(
        w, ls_printf(w, "dossier.months.file-%zu.%s.flock-%zu", file, h->slug, flock + 1),
        ls_printf(w, "birds of %s, placed %s", h->name.text,
                  ls_date_words(d->arena, f->placed.day, 0)),
        "bird", (double)ls_books_birds(f) * (double)ls_flock_times(f), ls_spread_exact(), origin);
    *LS_PUSH(d->arena, housed) = line;
    if (inside(d, f->placed.day))
        *LS_PUSH(d->arena, placed) = line;
}

static void birds(ls_dossier *d) {
    ls_books_lines kinds = {0};
    for (int bird = 1; bird < LS_BIRDS; bird++) {
        ls_books_lines placed = {0}, housed = {0};
        for (size_t i = 0; i <= d->books->earlier.n; i++) {
            const ls_farm *farm = ls_dossier_farm(d, i);
            for (size_t k = 0; k < farm->houses.n; k++)
                for (size_t n = 0; n < farm->houses.at[k].flocks.n; n++)
                    if (farm->houses.at[k].flocks.at[n].birds.is == bird)
                        one_flock(d, i, k, n, &placed, &housed);
        }
        if (housed.n == 0)
            continue;
        const char *name = ls_bird_name(bird);
        ls_dossier_birds b = {name,
                              total(d, ls_arena_printf(d->arena, "placed-%d", bird),
                                    ls_arena_printf(d->arena, "%s placed", name), "bird", &placed),
                              total(d, ls_arena_printf(d->arena, "housed-%d", bird),
                                    ls_arena_printf(d->arena, "%s in a house", name), "bird",
                                    &housed)};
        *LS_PUSH(d->arena, &d->months.birds) = b;
        *LS_PUSH(d->arena, &kinds) = b.housed;
    }
    d->months.housed = total(d, "housed", "birds in a house in those months", "bird", &kinds);
}

/* ---- litter ---- */

typedef struct {
    ls_books_lines out, moved, own, used, own_used;
    LS_LIST(const char *) fields; /* "Buyer/Field" that were used */
} sums;

static bool seen(const sums *s, const char *name) {
    for (size_t i = 0; i < s->fields.n; i++)
        if (strcmp(s->fields.at[i], name) == 0)
            return true;
    return false;
}

static void use(ls_dossier *d, const ls_hauled_drop *drop, const char *lead, sums *s) {
    ls_worksheet *w = d->books->sheet;
    const char *name = ls_dossier_name(d->arena, drop->buyer, drop->field);
    if (seen(s, name))
        return;
    *LS_PUSH(d->arena, &s->fields) = name;
    ls_line acres = ls_leaf_exact(w, ls_printf(w, "%s.area", lead),
                                  ls_printf(w, "area of %s", name), "ac", drop->field->area.value,
                                  LS_BY_FARM, ls_arena_printf(d->arena, "area of %s", name));
    *LS_PUSH(d->arena, &s->used) = acres;
    if (drop->buyer->own.yes)
        *LS_PUSH(d->arena, &s->own_used) = acres;
}

static void one_load(ls_dossier *d, size_t file, size_t index, sums *s) {
    ls_worksheet *w = d->books->sheet;
    const ls_hauled *load = &ls_dossier_farm(d, file)->hauled.at[index];
    const char *lead =
        ls_arena_printf(d->arena, "dossier.months.file-%zu.load-%zu", file, index + 1);
    if (!load->from_stack)
        *LS_PUSH(d->arena, &s->out) =
            ls_leaf_exact(w, ls_printf(w, "%s.tons", lead), ls_printf(w, "load %s", load->ticket),
                          "ton", load->tons, LS_BY_LOG, load->entry);
    for (size_t k = 0; k < load->n; k++) {
        const ls_hauled_drop *drop = &load->drops[k];
        if (drop->buyer == NULL)
            continue;
        const char *part = ls_arena_printf(d->arena, "%s.part-%zu", lead, k + 1);
        *LS_PUSH(d->arena, drop->buyer->own.yes ? &s->own : &s->moved) = ls_leaf_exact(
            w, ls_printf(w, "%s.tons", part), ls_printf(w, "of load %s", load->ticket), "ton",
            drop->tons, LS_BY_LOG, load->entry);
        use(d, drop, part, s);
    }
}

static void litter(ls_dossier *d) {
    ls_dossier_months *m = &d->months;
    sums s = {0};
    for (size_t i = 0; i <= d->books->earlier.n; i++)
        for (size_t k = 0; k < ls_dossier_farm(d, i)->hauled.n; k++) {
            const ls_hauled *load = &ls_dossier_farm(d, i)->hauled.at[k];
            if (ls_dossier_doubled(d, i, load))
                m->doubled++;
            else if (inside(d, load->day))
                one_load(d, i, k, &s);
        }
    m->out = total(d, "out", "out of the houses", "ton", &s.out);
    m->moved = total(d, "moved", "moved to others", "ton", &s.moved);
    m->own = total(d, "own", "on own fields", "ton", &s.own);
    m->used = total(d, "used", "acres used", "ac", &s.used);
    m->own_used = total(d, "own-used", "own acres used", "ac", &s.own_used);
    m->in_houses = d->balance.left;
    m->made = LS_SUM(d->books->sheet, "dossier.months.made", "out of the houses and still in them",
                     "ton", m->out, m->in_houses);
}

static void acres(ls_dossier *d) {
    const ls_farm *farm = d->farm;
    ls_books_lines all = {0}, own = {0};
    for (size_t b = 0; b < farm->buyers.n; b++)
        for (size_t f = 0; f < farm->buyers.at[b].fields.n; f++) {
            const ls_field *field = &farm->buyers.at[b].fields.at[f];
            ls_worksheet *w = d->books->sheet;
            ls_line area = ls_leaf_given(
                w, ls_printf(w, "dossier.months.%s.%s.area", farm->buyers.at[b].slug, field->slug),
                ls_printf(w, "area of %s", field->name.text), "ac", &field->area);
            *LS_PUSH(d->arena, &all) = area;
            if (farm->buyers.at[b].own.yes)
                *LS_PUSH(d->arena, &own) = area;
        }
    d->months.acres = total(d, "acres", "acres in the plan", "ac", &all);
    d->months.own_acres = total(d, "own-acres", "own acres in the plan", "ac", &own);
}

void ls_dossier_make_months(ls_dossier *d) {
    ls_dossier_months *m = &d->months;
    m->by_option = d->printed != LS_NO_DATE;
    m->to = m->by_option ? d->printed : newest(d);
    if (m->to == LS_NO_DATE) {
        m->from = LS_NO_DATE;
        return;
    }
    m->from = a_year_to(d->arena, m->to);
    birds(d);
    litter(d);
    acres(d);
}
