/* The last 12 months of all files together (40 CFR 122.42(e)(4)). */
#include "room.h"

#include <stdlib.h>

static ls_date newest(const ls_dossier *d) {
    ls_date last = LS_NO_DATE; /* before any day */
    for (size_t i = 0; i <= d->books->earlier.n; i++) {
        ls_date day = ls_dossier_span(ls_dossier_farm(d, i)).to;
        last = day > last ? day : last;
    }
    return last;
}

static ls_line total(const ls_dossier *d, const char *what, const char *label, const char *unit,
                     const ls_books_lines *x) {
    return ls_dossier_sum(d, ls_printf(d->sheet, "months.%s", what), label, unit, x, "none falls into these months");
}

/* ---- birds ---- */

/* What the newest file that names the house calls it, or its first side. */
static const char *code_now(const ls_coded_lots *all, size_t file, const ls_house *h) {
    size_t i = 0;
    while (all[file].at[i].house != h) i++;
    return ls_books_code_now(all, file, all[file].at[i].code);
}

/* Does an earlier place of the files tell of the same flock? */
static bool told_before(const ls_dossier *d, const ls_coded_lots *all, size_t file, const ls_house *h,
                        const ls_flock *f) {
    for (size_t i = 0; i < file; i++)
        LS_EACH (const ls_house, before, ls_dossier_farm(d, i)->houses)
            LS_EACH (const ls_flock, other, before->flocks)
                if (other->birds.is == f->birds.is && LS_GIVEN(other->placed) && other->placed.day == f->placed.day &&
                    strcmp(code_now(all, i, before), code_now(all, file, h)) == 0)
                    return true;
    return false;
}

/* How many of flocks alike were placed in these days, or (staying) were in a house on one of them: the others stood one
 * behind the other before the last, as the tons of a period have them. The day of removal counts: the birds were there
 * that morning. */
static long in_days(const ls_dossier *d, const ls_flock *f, bool staying) {
    ls_date stay = f->removed.day - f->placed.day, in = f->placed.day;
    long n = 0;
    for (long i = 0; i < ls_flock_times(f); i++, in -= stay)
        n += staying ? in <= d->months.to && in + stay >= d->months.from : ls_dossier_covers(d, in);
    return n;
}

static void one_flock(ls_dossier *d, const ls_coded_lots *all, size_t file, const ls_house *h, const ls_flock *f,
                      ls_books_lines *placed, ls_books_lines *housed) {
    if (!LS_GIVEN(f->placed)) d->months.undated++;
    if (!LS_GIVEN(f->placed) || f->removed.day < d->months.from || told_before(d, all, file, h, f)) return;
    ls_line stayed = ls_dossier_placed(d, file, h, f, in_days(d, f, true)),
            came = ls_dossier_placed(d, file, h, f, in_days(d, f, false));
    if (stayed != LS_NO_LINE) *LS_PUSH(d->arena, housed) = stayed;
    if (came != LS_NO_LINE) *LS_PUSH(d->arena, placed) = came;
}

static void birds(ls_dossier *d) {
    ls_books_lines kinds = {0};
    const ls_coded_lots *all = ls_books_all_lots(d->books);
    for (int bird = 1; bird < LS_BIRDS; bird++) {
        ls_books_lines placed = {0}, housed = {0};
        for (size_t i = 0; i <= d->books->earlier.n; i++)
            LS_EACH (const ls_house, h, ls_dossier_farm(d, i)->houses)
                LS_EACH (const ls_flock, f, h->flocks)
                    if (f->birds.is == bird) one_flock(d, all, i, h, f, &placed, &housed);
        if (housed.n == 0) continue;
        const char *name = ls_bird_name(bird);
        ls_worksheet *w = d->sheet; /* keys and labels are made in it */
        ls_dossier_birds b = {
            name, total(d, ls_printf(w, "placed-%d", bird), ls_printf(w, "%s placed", name), "bird", &placed),
            total(d, ls_printf(w, "housed-%d", bird), ls_printf(w, "%s in a house", name), "bird", &housed)};
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
    const char *name = drop->buyer == NULL ? NULL : ls_dossier_name(d->arena, drop->buyer, drop->field);
    if (name == NULL || seen(s, name)) return;
    *LS_PUSH(d->arena, &s->fields) = name;
    ls_line acres = *LS_PUSH(d->arena, &s->used) = ls_dossier_area(d, file, drop->buyer, drop->field);
    if (drop->buyer->own.yes) *LS_PUSH(d->arena, &s->own_used) = acres;
}

static void litter(ls_dossier *d) {
    ls_dossier_months *m = &d->months;
    sums s = {0};
    for (size_t i = 0; i <= d->books->earlier.n; i++) {
        m->doubled += ls_books_file(d->books, i)->doubled;
        for (size_t k = 0; k < ls_dossier_farm(d, i)->hauled.n; k++) {
            const ls_hauled *load = &ls_dossier_farm(d, i)->hauled.at[k];
            if (!ls_dossier_covers(d, load->day)) continue;
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
    ls_books_lines all = {0}, own = {0};
    LS_EACH (const ls_buyer, b, d->farm->buyers)
        LS_EACH (const ls_field, f, b->fields) {
            ls_line area = *LS_PUSH(d->arena, &all) = ls_dossier_area(d, 0, b, f);
            if (b->own.yes) *LS_PUSH(d->arena, &own) = area;
        }
    d->months.acres = total(d, "acres", "acres in the plan", "ac", &all);
    d->months.own_acres = total(d, "own-acres", "own acres in the plan", "ac", &own);
}

void ls_dossier_make_months(ls_dossier *d) {
    ls_dossier_months *m = &d->months;
    m->by_option = m->from != LS_NO_DATE;
    if (!m->by_option) m->to = newest(d);
    if (m->to == LS_NO_DATE) return;
    if (!m->by_option) m->from = ls_date_years_on(m->to, -1) + 1;
    birds(d);
    litter(d);
    acres(d);
}
