/* The days on which the loads of a lot are expected. A field takes litter of a lot straight from
 * the house only if its window holds them all; so they are guessed, planned with, and mended by the
 * calendar until guess and calendar agree. */
#include "plan.h"

#include <math.h>

enum { MOVING = 3, WIDENING = 6 }; /* rounds */

/* ---- before anything is decided ---- */

/* A lot's slowest (fastest) trip to a field that takes its litter. */
static ls_sim_job extreme_trip(const ls_haul_planner *p, size_t lot, bool slowest) {
    ls_sim_job trip = ls_haul_full_trip(p, lot, LS_HAUL_TO_STACK);
    bool any = p->stack_tons > 0;
    for (size_t f = 0; f < p->fields; f++) {
        if (!(p->rate[ls_haul_lot_field(p, lot, f)] > 0) || !ls_haul_spreads_on(p, p->kind_of[lot], f)) continue;
        ls_sim_job one = ls_haul_full_trip(p, lot, f);
        if (!any || (ls_sim_whole(one) > ls_sim_whole(trip)) == slowest) trip = one;
        any = true;
    }
    return trip;
}

/* Trips of a lot for so many tons. The litter of all stages may come in a part load more than its
 * tons need (one promised at the middle stage, one of the rest). */
static size_t trips_for(double tons, double payload, bool slowest) {
    double full = tons / payload;
    if (!(tons > 0)) return 0;
    return (size_t)(slowest ? floor(full + 1e-9) + 2 : ceil(full - 1e-9));
}

/* The days if a share of all litter of the high stage is hauled, each trip like the next. */
static bool days_at(ls_haul_planner *p, bool slowest, double share, ls_haul_range *days) {
    size_t n = 0, k = 0;
    for (size_t i = 0; i < p->house_lots; i++)
        n += trips_for(share * p->tons[LS_STAGES - 1][i], p->payload[i], slowest);
    ls_haul_trip *trips = LS_NEW(p->arena, ls_haul_trip, n);
    size_t *had = LS_NEW(p->arena, size_t, p->kinds), *all = LS_NEW(p->arena, size_t, p->kinds);
    ls_sim_job *job = LS_NEW(p->arena, ls_sim_job, p->kinds);
    for (size_t lot = 0; lot < p->e->n; lot++) {
        size_t i = ls_haul_house_lot(p, p->order[lot], 0);
        for (size_t kind = 0; kind < p->kinds; kind++) {
            double tons = share * p->tons[LS_STAGES - 1][i + kind];
            had[kind] = 0;
            all[kind] = trips_for(tons, p->payload[i + kind], slowest);
            job[kind] = extreme_trip(p, i + kind, slowest);
        }
        for (size_t kind; (kind = ls_haul_turn(p, had, all)) < p->kinds; had[kind]++)
            trips[k++] = (ls_haul_trip){i + kind, job[kind], NULL};
    }
    return ls_haul_days(p, trips, n, days, NULL);
}

/* No more than that finds room: fields at their highest rates, orders, the stack. */
static double most_tons(const ls_haul_planner *p) {
    ls_split_problem q = ls_haul_problem(p);
    double sum = p->stack_tons, payload = ls_haul_largest(p);
    for (size_t b = 0, f = 0; b < p->buyers; b++) {
        double room = 0;
        for (; f < p->fields && p->buyer[f] == b; f++) room += ls_haul_top_rate(p, f) * p->acres[f];
        room = fmin(room, q.most[b]);
        sum += fmin(room, (double)q.most_loads[b] * payload);
    }
    return sum;
}

bool ls_haul_first_ranges(ls_haul_planner *p) {
    double all = 0;
    for (size_t i = 0; i < p->house_lots; i++) all += p->tons[LS_STAGES - 1][i];
    double room = most_tons(p);
    return days_at(p, false, room < all ? room / all : 1, p->range);
}

/* ---- round by round ---- */

static bool holds(ls_haul_range range, ls_haul_range days) {
    return days.from == LS_NO_DATE || (range.from <= days.from && days.to <= range.to);
}

bool ls_haul_ranges_hold(const ls_haul_planner *p) {
    for (size_t i = 0; i < p->lots; i++)
        if (!holds(p->range[i], p->hauled[i])) return false;
    return true;
}

/* All loads the slowest way; and fewer or faster loads come earlier, but not before a lot can be begun. */
static bool widest(ls_haul_planner *p) {
    if (!days_at(p, true, 1, p->range)) return false;
    for (size_t i = 0; i < p->lots; i++)
        if (p->range[i].from != LS_NO_DATE) p->range[i].from = ls_haul_empty(p, i);
    return true;
}

bool ls_haul_next_ranges(ls_haul_planner *p, int round) {
    if (round == WIDENING) return widest(p);
    for (size_t i = 0; i < p->lots; i++) {
        if (round < MOVING && p->hauled[i].from != LS_NO_DATE)
            p->range[i] = p->hauled[i];
        else
            ls_haul_widen(&p->range[i], p->hauled[i]);
    }
    return true;
}
