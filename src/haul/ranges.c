/* The days on which the loads of a lot are expected. A field takes litter of a lot straight from
 * the house only if its window holds them all; so they are guessed, planned with, and mended by the
 * calendar until guess and calendar agree. */
#include "plan.h"

#include <math.h>

enum { MOVING = 3, WIDENING = 6 }; /* rounds */

/* ---- before anything is decided ---- */

/* The pace of a lot's slowest (fastest) trips to a field that takes its litter. */
static double extreme_pace(const ls_haul_planner *p, size_t lot, bool slowest) {
    double pace = ls_haul_pace(p, lot, LS_HAUL_TO_STACK);
    bool any = p->stack_tons > 0;
    for (size_t f = 0; f < p->fields; f++) {
        if (!(p->rate[ls_haul_pair(p, lot, f)] > 0))
            continue;
        double one = ls_haul_pace(p, lot, f);
        pace = !any ? one : slowest ? fmax(pace, one) : fmin(pace, one);
        any = true;
    }
    return pace;
}

/* The days if a share of all litter of the high stage is hauled at an even pace. */
static bool days_at(ls_haul_planner *p, bool slowest, double share, ls_haul_range *days) {
    size_t n = 0, k = 0;
    for (size_t i = 0; i < p->e->n; i++)
        n += (size_t)ceil(p->tons[LS_STAGES - 1][i] / p->payload[i] - 1e-9);
    ls_haul_trip *trips = LS_NEW(p->arena, ls_haul_trip, n);
    for (size_t i = 0; i < p->e->n; i++) {
        double pace = extreme_pace(p, i, slowest);
        for (double left = share * p->tons[LS_STAGES - 1][i]; left > 1e-9 && k < n;
             left -= p->payload[i])
            trips[k++] = (ls_haul_trip){i, pace, LS_NO_DATE};
    }
    return ls_haul_days(p, trips, k, days, NULL);
}

/* No more than that finds room: fields at their highest rates, orders, the stack. */
static double most_tons(const ls_haul_planner *p) {
    ls_split_problem q = ls_haul_problem(p);
    double sum = p->stack_tons, payload = 0;
    for (size_t i = 0; i < p->lots; i++)
        payload = fmax(payload, p->payload[i]);
    for (size_t b = 0, f = 0; b < p->buyers; b++) {
        double room = 0;
        for (; f < p->fields && p->buyer[f] == b; f++) {
            double rate = 0;
            for (size_t i = 0; i < p->lots; i++)
                rate = fmax(rate, p->rate[ls_haul_pair(p, i, f)]);
            room += rate * p->acres[f];
        }
        room = fmin(room, q.most[b]);
        sum += fmin(room, (double)q.most_loads[b] * payload);
    }
    return sum;
}

bool ls_haul_first_ranges(ls_haul_planner *p) {
    double all = 0;
    for (size_t i = 0; i < p->e->n; i++)
        all += p->tons[LS_STAGES - 1][i];
    double room = most_tons(p);
    return days_at(p, false, room < all ? room / all : 1, p->range);
}

/* ---- round by round ---- */

static bool holds(ls_haul_range range, ls_haul_range days) {
    return days.from == LS_NO_DATE || (range.from <= days.from && days.to <= range.to);
}

bool ls_haul_ranges_hold(const ls_haul_planner *p) {
    for (size_t i = 0; i < p->lots; i++)
        if (!holds(p->range[i], p->hauled[i]))
            return false;
    return true;
}

static void widen(ls_haul_range *range, ls_haul_range days) {
    if (range->from == LS_NO_DATE)
        *range = days;
    if (days.from == LS_NO_DATE)
        return;
    range->from = days.from < range->from ? days.from : range->from;
    range->to = days.to > range->to ? days.to : range->to;
}

/* All loads the slowest way; and fewer or faster loads come earlier, but not before a lot can be
 * begun. */
static bool widest(ls_haul_planner *p) {
    if (!days_at(p, true, 1, p->range))
        return false;
    for (size_t i = 0; i < p->lots; i++)
        if (p->range[i].from != LS_NO_DATE)
            p->range[i].from = ls_haul_empty(p, i);
    return true;
}

bool ls_haul_next_ranges(ls_haul_planner *p, int round) {
    if (round >= WIDENING)
        return widest(p);
    for (size_t i = 0; i < p->lots; i++) {
        if (round < MOVING && p->hauled[i].from != LS_NO_DATE)
            p->range[i] = p->hauled[i];
        else
            widen(&p->range[i], p->hauled[i]);
    }
    return true;
}
