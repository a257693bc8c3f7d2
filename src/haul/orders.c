/* The order of houses and sides in which the same loads are done soonest. */
#include "plan.h"

#include <string.h>

enum { ALL_TRIED = 6, MOST_TRIPS = 4000000 };

/* A stretch of trips of one lot. */
typedef struct {
    size_t first, n, lot;
} stretch;

typedef struct {
    ls_haul_planner *p;
    stretch *of; /* as the plan has them */
    size_t n;
    size_t *order, *best; /* of the stretches */
    ls_sim_time end;      /* of the best */
    size_t trips;         /* simulated so far */
} search;

static bool open_then(const search *s, const ls_load *l, const ls_sim_trip *t) {
    ls_date day = ls_haul_moment(s->p, t->start).day, last = ls_haul_moment_end(s->p, t->emptied).day;
    LS_EACH_OF (const ls_drop, d, l->drops, l->n)
        if (!ls_field_allows(d->field, day) || !ls_field_allows(d->field, last)) return false;
    return true;
}

/* When all is done in this order; INT64_MAX: too late, or a field is closed then. */
static ls_sim_time end_of(search *s) {
    ls_haul_planner *p = s->p;
    ls_haul_trip *trips = LS_NEW(p->arena, ls_haul_trip, p->trips_n);
    ls_haul_run run;
    size_t n = 0;
    for (size_t i = 0; i < s->n; i++) {
        const stretch *one = &s->of[s->order[i]];
        memcpy(&trips[n], &p->trips[one->first], one->n * sizeof *trips);
        n += one->n;
    }
    s->trips += n;
    bool fits = ls_haul_simulate(p, trips, n, ls_haul_fleet(p), &run);
    for (size_t k = 0; fits && k < n; k++) fits = open_then(s, trips[k].load, &run.x.trips[k]);
    return fits ? run.x.end : INT64_MAX;
}

/* A house that is begun is gone on with where it was. */
static bool keeps_begun(const search *s) {
    for (size_t i = 0; i < s->n; i++)
        for (size_t k = i + 1; k < s->n; k++) {
            size_t now = s->of[s->order[i]].lot, then = s->of[s->order[k]].lot;
            if (ls_haul_is_begun(s->p, then) && !ls_haul_is_begun(s->p, now) &&
                ls_haul_lot(s->p, now)->house == ls_haul_lot(s->p, then)->house)
                return false;
        }
    return true;
}

/* Is it better than the best? */
static bool try(search *s) {
    ls_arena_mark mark = ls_arena_here(s->p->arena);
    ls_sim_time end = keeps_begun(s) ? end_of(s) : INT64_MAX;
    ls_arena_rewind(s->p->arena, mark);
    if (end >= s->end) return false;
    s->end = end;
    memcpy(s->best, s->order, s->n * sizeof *s->best);
    return true;
}

/* One stretch from place i to place k. */
static void shift(size_t *order, size_t i, size_t k) {
    size_t one = order[i];
    memmove(&order[i < k ? i : k + 1], &order[i < k ? i + 1 : k], (i < k ? k - i : i - k) * sizeof *order);
    order[k] = one;
}

/* All orders of the stretches from place i on. */
static void try_all(search *s, size_t i) {
    if (i + 1 >= s->n) try(s);
    for (size_t k = i; i + 1 < s->n && k < s->n; k++) {
        shift(s->order, k, i);
        try_all(s, i + 1);
        shift(s->order, i, k);
    }
}

/* One stretch after the other is put elsewhere, as long as that helps. */
static void climb(search *s) {
    for (bool better = true; better;) {
        better = false;
        for (size_t i = 0; i < s->n; i++)
            for (size_t k = 0; k < s->n && s->trips < MOST_TRIPS; k++) {
                memcpy(s->order, s->best, s->n * sizeof *s->best);
                shift(s->order, i, k);
                better = (i != k && try(s)) || better;
            }
    }
}

static search new_search(ls_haul_planner *p) {
    search s = {.p = p,
                .of = LS_NEW(p->arena, stretch, p->trips_n),
                .order = LS_NEW(p->arena, size_t, p->trips_n),
                .best = LS_NEW(p->arena, size_t, p->trips_n),
                .end = p->run.x.end};
    for (size_t k = 0; k < p->trips_n; k++) {
        if (k == 0 || p->lot_of[p->trips[k].lot] != p->lot_of[p->trips[k - 1].lot]) {
            s.order[s.n] = s.best[s.n] = s.n;
            s.of[s.n++] = (stretch){k, 0, p->trips[k].lot};
        }
        s.of[s.n - 1].n++;
    }
    return s;
}

void ls_haul_orders(ls_haul_planner *p) {
    search s = new_search(p);
    p->plan->all_orders = s.n <= ALL_TRIED;
    if (p->plan->all_orders)
        try_all(&s, 0);
    else
        climb(&s);
    ls_moment end = ls_haul_moment_end(p, s.end);
    if (s.n == 0 || (end.day == p->plan->ends.day && end.second / 60 >= p->plan->ends.second / 60)) return;
    p->plan->sooner_ends = end;
    bool *listed = LS_NEW(p->arena, bool, p->e->n); /* of those without a load begun ones come first */
    for (size_t i = 0; i < s.n; i++) listed[p->lot_of[s.of[i].lot]] = true;
    for (int begun = 1; begun >= 0; begun--) {
        for (size_t i = 0; i < p->e->n; i++) {
            size_t of = p->order[i];
            if (!listed[of] && ls_haul_is_begun(p, ls_haul_house_lot(p, of, 0)) == begun)
                *LS_PUSH(p->arena, &p->plan->sooner) = &p->e->lots[of];
        }
        for (size_t i = 0; begun && i < s.n; i++)
            *LS_PUSH(p->arena, &p->plan->sooner) = ls_haul_lot(p, s.of[s.best[i]].lot);
    }
}
