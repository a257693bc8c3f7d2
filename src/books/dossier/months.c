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
    ls_date last = LS_NO_DATE; /* before any day */
    for (size_t i = 0; i <= d->books->earlier.n; i++) {
        ls_date day = ls_dossier_span(ls_dossier_farm(d, i)).to;
        last = day > last ? day : last;
    }
    return last;
}

static bool inside(const ls_dossier *d, ls_date day) {
    return day >= d->months.from && day <= d->months.to;
}

static ls_line total(const ls_dossier *d, const char *what, const char *label, const char *unit,
                     const ls_books_lines *x) {
    return ls_dossier_sum(d, ls_printf(d->books->sheet, "dossier.months.%s", what), label, unit, x,
                          "none falls into these months");
}

/* ---- birds ---- */

/* What the newest file that names the house calls it, or its first side. */
static const char *code_now(const ls_coded_lots *all, size_t file, const ls_house *h) {
    size_t i = 0;
    while (all[file].at[i].house != h) i++;
    return ls_books_code_now(all, file, all[file].at[i].code);
}

/* Does an earlier place of the files tell of the same flock? */
static bool told_before(const ls_dossier *d, const ls_coded_lots *all, size_t file, size_t house,
                        size_t flock) {
    const ls_house *h = &ls_dossier_farm(d, file)->houses.at[house];
    const ls_flock *f = &h->flocks.at[flock];
    for (size_t i = 0; i < file; i++) {
        const ls_farm *farm = ls_dossier_farm(d, i);
        for (size_t k = 0; k < farm->houses.n; k++)
            for (size_t n = 0; n < farm->houses.at[k].flocks.n; n++) {
                const ls_flock *other = &farm->houses.at[k].flocks.at[n];
                if (other->birds.is == f->birds.is && LS_GIVEN(other->placed) &&
                    other->placed.day == f->placed.day &&
                    strcmp(code_now(all, i, &farm->houses.at[k]), code_now(all, file, h)) == 0)
                    return true;
            }
    }
    return false;
}

static void one_flock(ls_dossier *d, const ls_coded_lots *all, size_t file, size_t house,
                      size_t flock, ls_books_lines *placed, ls_books_lines *housed) {
    const ls_house *h = &ls_dossier_farm(d, file)->houses.at[house];
    const ls_flock *f = &h->flocks.at[flock];
    if (!LS_GIVEN(f->placed)) {
        d->months.undated++;
        return;
    }
    /* the day of removal counts: the birds were there that morning */
    if (f->placed.day > d->months.to || told_before(d, all, file, house, flock) ||
        (LS_GIVEN(f->removed) && f->removed.day < d->months.from))
        return;
    ls_line line = ls_dossier_placed(d, file, h, f);
    *LS_PUSH(d->arena, housed) = line;
    if (inside(d, f->placed.day)) *LS_PUSH(d->arena, placed) = line;
}

static void birds(ls_dossier *d) {
    ls_books_lines kinds = {0};
    const ls_coded_lots *all = ls_books_all_lots(d->books);
    for (int bird = 1; bird < LS_BIRDS; bird++) {
        ls_books_lines placed = {0}, housed = {0};
        for (size_t i = 0; i <= d->books->earlier.n; i++) {
            const ls_farm *farm = ls_dossier_farm(d, i);
            for (size_t k = 0; k < farm->houses.n; k++)
                for (size_t n = 0; n < farm->houses.at[k].flocks.n; n++)
                    if (farm->houses.at[k].flocks.at[n].birds.is == bird)
                        one_flock(d, all, i, k, n, &placed, &housed);
        }
        if (housed.n == 0) continue;
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
    ls_dossier_gone gone;
    ls_books_lines used, own_used;
    LS_LIST(const char *) fields; /* "Buyer/Field" that were used */
} sums;

static bool seen(const sums *s, const char *name) {
    for (size_t i = 0; i < s->fields.n; i++)
        if (strcmp(s->fields.at[i], name) == 0) return true;
    return false;
}

static void use(ls_dossier *d, size_t file, const ls_hauled_drop *drop, sums *s) {
    const char *name =
        drop->buyer == NULL ? NULL : ls_dossier_name(d->arena, drop->buyer, drop->field);
    if (name == NULL || seen(s, name)) return;
    *LS_PUSH(d->arena, &s->fields) = name;
    ls_line acres = ls_dossier_area(d, file, drop->buyer, drop->field);
    *LS_PUSH(d->arena, &s->used) = acres;
    if (drop->buyer->own.yes) *LS_PUSH(d->arena, &s->own_used) = acres;
}

static void litter(ls_dossier *d) {
    ls_dossier_months *m = &d->months;
    sums s = {0};
    for (size_t i = 0; i <= d->books->earlier.n; i++) {
        m->doubled += ls_books_file(d->books, i)->doubled;
        for (size_t k = 0; k < ls_dossier_farm(d, i)->hauled.n; k++) {
            const ls_hauled *load = &ls_dossier_farm(d, i)->hauled.at[k];
            if (!inside(d, load->day)) continue;
            ls_dossier_add_load(d, i, k, &s.gone);
            for (size_t n = 0; n < load->n; n++) use(d, i, &load->drops[n], &s);
        }
    }
    m->out = total(d, "out", "out of the houses", "ton", &s.gone.out);
    m->moved = total(d, "moved", "moved to others", "ton", &s.gone.moved);
    m->own = total(d, "own", "on own fields", "ton", &s.gone.own);
    m->used = total(d, "used", "acres used", "ac", &s.used);
    m->own_used = total(d, "own-used", "own acres used", "ac", &s.own_used);
}

static void acres(ls_dossier *d) {
    const ls_farm *farm = d->farm;
    ls_books_lines all = {0}, own = {0};
    for (size_t b = 0; b < farm->buyers.n; b++)
        for (size_t f = 0; f < farm->buyers.at[b].fields.n; f++) {
            const ls_buyer *buyer = &farm->buyers.at[b];
            ls_line area = ls_dossier_area(d, 0, buyer, &buyer->fields.at[f]);
            *LS_PUSH(d->arena, &all) = area;
            if (buyer->own.yes) *LS_PUSH(d->arena, &own) = area;
        }
    d->months.acres = total(d, "acres", "acres in the plan", "ac", &all);
    d->months.own_acres = total(d, "own-acres", "own acres in the plan", "ac", &own);
}

void ls_dossier_make_months(ls_dossier *d) {
    ls_dossier_months *m = &d->months;
    m->by_option = m->from != LS_NO_DATE;
    if (!m->by_option) m->to = newest(d);
    if (m->to == LS_NO_DATE) return;
    if (!m->by_option) m->from = a_year_to(d->arena, m->to);
    birds(d);
    litter(d);
    acres(d);
}
