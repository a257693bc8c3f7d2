/* Measure next: the farm estimated again with each measurement, all drawn together, the best first.
 */
#include "measure.h"

#include <stdlib.h>
#include <string.h>

/* What the advice is made from. */
typedef struct {
    ls_worksheet *w;
    const ls_reference *reference;
    const ls_estimate *e;
} advice;

/* The whole farm is estimated again for each measurement, so of many houses only the widest are
 * looked at: as many as make about this many houses to be drawn for each kind of measurement, and
 * at least one. */
enum { HOUSES_DRAWN = 12 };

static ls_line all_of(const ls_estimate *e) {
    return e->trips != LS_NO_LINE ? e->trips : e->tons.line;
}

/* A line to be drawn in a worksheet of its own. */
typedef struct {
    size_t house;
    const ls_litter_measurement *m;
} trial;

typedef LS_LIST(trial) trial_list;
typedef LS_LIST(ls_draw_job) job_list;

static void try_house(const advice *v, ls_arena *a, size_t house, trial_list *trials,
                      job_list *jobs) {
    for (size_t k = 0; ls_litter_measurement_at(k); k++) {
        const ls_litter_measurement *m = ls_litter_measurement_at(k);
        ls_worksheet *w = NULL;
        const ls_estimate *again =
            ls_litter_measured(a, v->reference, v->w, v->e->farm, house, m, &w);
        if (!again)
            continue;
        *LS_PUSH(a, trials) = (trial){house, m};
        *LS_PUSH(a, jobs) = (ls_draw_job){w, ls_drawn_of(all_of(again))};
    }
}

static ls_q as_line(ls_worksheet *w, const char *key, const char *label, bool loads, ls_drawn d) {
    ls_line line =
        ls_leaf_exact(w, key, label, loads ? "load" : "ton", d.mid, LS_BY_SIMULATION,
                      "low, likely and high with the measurement as the estimate expects it");
    return (ls_q){line, d.low, d.mid, d.high};
}

/* Narrowest first, then by where and what. */
static int by_gain(const void *a, const void *b) {
    const ls_next *x = a, *y = b;
    double wx = x->then.high - x->then.low, wy = y->then.high - y->then.low;
    if (wx != wy)
        return wx < wy ? -1 : 1;
    int where = strcmp(x->where, y->where);
    return where ? where : strcmp(x->what, y->what);
}

/* How wide the tons of each house are. */
static double *widths_of(ls_arena *a, const ls_estimate *e) {
    double *width = LS_NEW(a, double, e->farm->houses.n);
    for (size_t i = 0; i < e->n; i++)
        width[e->lots[i].house - e->farm->houses.at] += e->lots[i].tons.high - e->lots[i].tons.low;
    return width;
}

static size_t looked_at(size_t houses) {
    return HOUSES_DRAWN / houses > 0 ? HOUSES_DRAWN / houses : 1;
}

/* Are fewer than so many others wider? */
static bool is_among_widest(const double *width, size_t n, size_t house, size_t many) {
    size_t wider = 0;
    for (size_t h = 0; h < n && wider < many; h++)
        wider += width[h] > width[house] || (width[h] >= width[house] && h < house);
    return wider < many;
}

/* Does another trial in the same house take less work and narrow more? */
static bool is_outdone(const trial_list *trials, const job_list *jobs, size_t i) {
    const trial *own = &trials->at[i];
    const ls_drawn *d = &jobs->at[i + 1].drawn;
    for (size_t k = 0; k < trials->n; k++) {
        const ls_drawn *other = &jobs->at[k + 1].drawn;
        if (trials->at[k].house == own->house && trials->at[k].m->minutes < own->m->minutes &&
            other->high - other->low <= d->high - d->low)
            return true;
    }
    return false;
}

/* jobs: the farm as it is, then those of the trials. */
static void advise(const advice *v, const trial_list *trials, const job_list *jobs,
                   ls_next_list *list) {
    ls_arena *a = ls_worksheet_arena(v->w);
    bool loads = v->e->trips != LS_NO_LINE;
    ls_q now = as_line(v->w, "whole-farm.range-now", "range as it is", loads, jobs->at[0].drawn);
    for (size_t i = 0; i < trials->n; i++) {
        const ls_litter_measurement *m = trials->at[i].m;
        const ls_house *h = &v->e->farm->houses.at[trials->at[i].house];
        const char *key = ls_printf(v->w, "%s.measure-next.%s", h->slug, ls_text_slug(a, m->what));
        ls_q then = as_line(v->w, key, m->what, loads, jobs->at[i + 1].drawn);
        *LS_PUSH(a, list) = (ls_next){
            m->what, h->name.text, m->effort, loads, is_outdone(trials, jobs, i), now, then};
    }
}

ls_next_list ls_litter_next(ls_worksheet *w, const ls_reference *r, const ls_estimate *e) {
    ls_arena *a = ls_arena_new();
    ls_next_list list = {0};
    trial_list trials = {0};
    job_list jobs = {0};
    advice v = {w, r, e};
    size_t houses = e->farm->houses.n;
    const double *width = widths_of(a, e);
    *LS_PUSH(a, &jobs) = (ls_draw_job){w, ls_drawn_of(all_of(e))};
    for (size_t h = 0; h < houses; h++)
        if (is_among_widest(width, houses, h, looked_at(houses)))
            try_house(&v, a, h, &trials, &jobs);
    ls_draw_each(jobs.at, jobs.n, e->seed);
    advise(&v, &trials, &jobs, &list);
    if (list.n)
        qsort(list.at, list.n, sizeof *list.at, by_gain);
    ls_arena_free(a);
    return list;
}
