/* Loads that go on while one before them waits for a truck that is out. */
#include "plan.h"

#include <string.h>

typedef struct {
    ls_haul_planner *p;
    size_t n;           /* loads counted */
    size_t *of;         /* in the order of hauling: which of the plan's list */
    ls_haul_trip *trip; /* [load of the list] */
} queue;

static queue queue_of(ls_haul_planner *p) {
    size_t n = p->plan->loads_n;
    queue q = {p, 0, LS_NEW(p->arena, size_t, n), LS_NEW(p->arena, ls_haul_trip, n)};
    for (size_t k = 0; k < n; k++) {
        const ls_split_load *l = ls_haul_split_of(p, &p->loads[k]);
        q.trip[k] = (ls_haul_trip){l->lot, ls_haul_trip_of(p, p->high, l), &p->loads[k]};
        if (ls_load_counted(&p->loads[k])) q.of[q.n++] = k;
    }
    return q;
}

/* How the k-th goes; what the simulation needs is given back. */
static ls_sim_trip trip_at(const queue *q, size_t k) {
    ls_arena *a = q->p->arena;
    ls_arena_mark mark = ls_arena_here(a);
    ls_haul_trip *trips = LS_NEW(a, ls_haul_trip, q->n);
    ls_haul_run run;
    for (size_t i = 0; i < q->n; i++) trips[i] = q->trip[q->of[i]];
    ls_haul_simulate(q->p, trips, q->n, ls_haul_fleet(q->p), &run);
    ls_sim_trip trip = run.x.trips[k];
    ls_arena_rewind(a, mark);
    return trip;
}

static size_t kind_at(const queue *q, size_t k) { return q->trip[q->of[k]].job.kind; }

/* Is a truck for the k-th out once the load before it has left? */
static bool waits(const queue *q, size_t k, ls_sim_time start) {
    const ls_haul_clock *c = &q->p->clock;
    ls_sim s = {.day = c->day, .outs_n = c->out.n, .outs = c->out.at};
    ls_sim_span span = {k == 0 ? 0 : trip_at(q, k - 1).leave, start};
    ls_sim_who who = {LS_SIM_TRUCK, kind_at(q, k), 0}, all = {.what = LS_SIM_ALL};
    size_t trucks = ls_haul_fleet(q->p)[who.kind];
    while (who.truck < trucks && ls_sim_absent(&s, who, span) == ls_sim_absent(&s, all, span)) who.truck++;
    return who.truck < trucks;
}

/* The next load of another kind from j on that is of the same side, as sure and as full, and the
 * first of its kind; q->n: none. */
static size_t next_at(const queue *q, size_t k, size_t j) {
    const ls_haul_planner *p = q->p;
    const ls_load *own = &p->loads[q->of[k]];
    for (; j < q->n && p->loads[q->of[j]].lot == own->lot; j++) {
        const ls_load *other = &p->loads[q->of[j]];
        const ls_split_load *a = ls_haul_split_of(p, own), *b = ls_haul_split_of(p, other);
        size_t i = k;
        while (kind_at(q, i) != kind_at(q, j)) i++;
        if (i == j && other->certainty == own->certainty &&
            (a->tons < p->payload[a->lot] - 0.005) == (b->tons < p->payload[b->lot] - 0.005))
            return j;
    }
    return q->n;
}

static void move(queue *q, size_t from, size_t to) {
    size_t of = q->of[from];
    for (size_t i = from; i > to; i--) q->of[i] = q->of[i - 1];
    for (size_t i = from; i < to; i++) q->of[i] = q->of[i + 1];
    q->of[to] = of;
}

/* One that has left the loader before the k-th begins goes before it: nothing comes later. */
static void let_pass(queue *q, size_t k) {
    ls_sim_time start = trip_at(q, k).start;
    if (!waits(q, k, start)) return;
    for (size_t j = k; (j = next_at(q, k, j + 1)) < q->n;) {
        move(q, j, k);
        if (trip_at(q, k).leave <= start) return;
        move(q, k, j);
    }
}

void ls_haul_pass(ls_haul_planner *p) {
    bool out = false;
    LS_EACH (const ls_sim_out, o, p->clock.out) out = out || o->who.what == LS_SIM_TRUCK;
    if (p->kinds == 1 || !out) return;
    size_t n = p->plan->loads_n;
    queue q = queue_of(p);
    for (size_t k = 0; k < q.n; k++) let_pass(&q, k);
    ls_load *loads = LS_NEW(p->arena, ls_load, n);
    size_t *of = LS_NEW(p->arena, size_t, n);
    for (size_t k = 0, counted = 0; k < n; k++) {
        size_t from = ls_load_counted(&p->loads[k]) ? q.of[counted++] : k;
        loads[k] = p->loads[from], of[k] = p->load_of[from];
    }
    memcpy(p->loads, loads, n * sizeof *loads);
    memcpy(p->load_of, of, n * sizeof *of);
}
