/* Standby fields: where a load that is not firm could go instead, with room kept for it alone. */
#include "plan.h"

#include <limits.h>
#include <math.h>
#include <string.h>

/* What all loads together leave. */
typedef struct {
    ls_haul_planner *p;
    ls_split_problem q;
    double *acres; /* [field] */
    double *tons;  /* [buyer] */
    long *loads;   /* [buyer] */
} rest;

static void take(rest *s, const ls_split_drop *d) {
    const ls_haul_planner *p = s->p;
    s->acres[d->field] -= d->tons / ls_haul_drop_rate(p, d);
    s->tons[p->buyer[d->field]] -= d->tons;
}

static rest what_is_left(ls_haul_planner *p) {
    rest s = {.p = p, .q = ls_haul_problem(p)};
    s.acres = LS_NEW(p->arena, double, p->fields);
    s.tons = LS_NEW(p->arena, double, p->buyers);
    s.loads = LS_NEW(p->arena, long, p->buyers);
    memcpy(s.acres, p->acres, p->fields * sizeof *s.acres);
    memcpy(s.tons, s.q.most, p->buyers * sizeof *s.tons);
    memcpy(s.loads, s.q.most_loads, p->buyers * sizeof *s.loads);
    LS_EACH_OF (const ls_split_drop, d, p->high->drops, p->high->drops_n) take(&s, d);
    LS_EACH_OF (const ls_split_load, l, p->high->loads, p->high->loads_n)
        if (l->buyer < p->buyers) s.loads[l->buyer]--;
    return s;
}

static bool is_its_own(const rest *s, const ls_split_load *l, size_t field) {
    for (size_t k = l->first; k < l->first + l->n; k++)
        if (s->p->high->drops[k].field == field) return true;
    return false;
}

static bool could_take(const rest *s, const ls_split_load *l, size_t f) {
    const ls_haul_planner *p = s->p;
    size_t at = ls_haul_lot_field(p, l->lot, f), b = p->buyer[f];
    bool same = b == l->buyer; /* the load moves within its buyer's order */
    return s->q.open[at] && p->rate[at] > 0 && !is_its_own(s, l, f) && s->acres[f] * p->rate[at] > l->tons - 1e-6 &&
           (same || (s->loads[b] > 0 && s->tons[b] > l->tons - 1e-6));
}

/* The best by the plan's aim, ties to the lesser name; p->fields if there is none. */
static size_t best_for(const rest *s, const ls_split_load *l) {
    const ls_haul_planner *p = s->p;
    size_t best = p->fields;
    double most = 0;
    for (size_t f = 0; f < p->fields; f++) {
        if (!could_take(s, l, f)) continue;
        double worth = s->q.value[ls_haul_lot_field(p, l->lot, f)] - s->q.trip_cost[p->buyer[f]] / l->tons;
        if (best == p->fields || worth > most + 1e-9 ||
            (worth > most - 1e-9 && strcmp(s->q.names[f], s->q.names[best]) < 0))
            best = f, most = worth;
    }
    return best;
}

void ls_haul_stand_by(ls_haul_planner *p) {
    rest s = what_is_left(p);
    LS_EACH_OF (ls_load, load, p->loads, p->plan->loads_n) {
        const ls_split_load *l = ls_haul_split_of(p, load);
        size_t f = load->certainty == LS_FIRM ? p->fields : best_for(&s, l);
        if (f == p->fields) continue;
        take(&s, &(ls_split_drop){l->lot, f, l->tons, 0});
        if (s.loads[p->buyer[f]] != LONG_MAX) s.loads[p->buyer[f]]--;
        load->standby = p->field[f];
        load->standby_buyer = &p->farm->buyers.at[p->buyer[f]];
    }
}
