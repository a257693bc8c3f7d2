/* Other numbers of trucks: the same loads in the same order, simulated with each. */
#include "plan.h"

static ls_line figure(ls_haul_planner *p, long trucks, const char *what, const char *label,
                      ls_sim_time time) {
    return ls_leaf_exact(
        p->w, ls_printf(p->w, "plan.fleet.%ld.%s", trucks, what),
        ls_printf(p->w, "%s with %ld truck%s", label, trucks, trucks == 1 ? "" : "s"), "h",
        (double)time * ls_unit_of("s").factor, LS_BY_DAYS, NULL);
}

/* ---- cost ---- */

/* Crew and trucks are paid for the hours on the job. */
static ls_line cost(ls_haul_planner *p, long trucks, ls_line hours) {
    ls_worksheet *w = p->w;
    const ls_costs *c = p->farm->costs;
    if (c == NULL || !LS_GIVEN(c->crew) || !LS_GIVEN(c->truck))
        return LS_NO_LINE;
    ls_line crew =
        ls_haul_shared(p, "plan.cost.crew.per_hour", "crew and loader, per hour", "$/h", &c->crew);
    ls_line truck =
        ls_haul_shared(p, "plan.cost.truck.per_hour", "a truck, per hour", "$/h", &c->truck);
    ls_line count = ls_leaf_exact(w, ls_printf(w, "plan.fleet.%ld.trucks", trucks), "trucks", "",
                                  (double)trucks, LS_BY_DEFINITION, NULL);
    ls_line all = LS_PRODUCT(w, ls_printf(w, "plan.fleet.%ld.trucks.per_hour", trucks),
                             "all trucks, per hour", "$/h", count, truck);
    ls_line each = LS_SUM(w, ls_printf(w, "plan.fleet.%ld.per_hour", trucks),
                          "crew and trucks, per hour", "$/h", crew, all);
    return LS_PRODUCT(w, ls_printf(w, "plan.fleet.%ld.cost", trucks),
                      ls_printf(w, "crew and %ld truck%s", trucks, trucks == 1 ? "" : "s"), "$",
                      each, hours);
}

/* ---- one number of trucks ---- */

typedef struct {
    ls_sim_time end;
    ls_sim_hours all;
} outcome;

/* False: the work would take more days than there are. What the simulation needs is given back. */
static bool simulate(ls_haul_planner *p, long trucks, outcome *o) {
    ls_arena_mark mark = ls_arena_here(p->arena);
    ls_haul_run run;
    size_t *fleet = ls_haul_fleet(p);
    fleet[0] = (size_t)trucks;
    bool fits = ls_haul_simulate(p, p->trips, p->trips_n, fleet, &run);
    *o = (outcome){.end = run.x.end};
    size_t days = fits ? ls_sim_days(&run.s, &run.x) : 0;
    ls_sim_hours *h = LS_NEW(p->arena, ls_sim_hours, days);
    if (fits)
        ls_sim_by_day(p->arena, &run.s, &run.x, h, days);
    for (size_t d = 0; d < days; d++) {
        o->all.worked += h[d].worked;
        o->all.idle += h[d].idle;
        o->all.waiting += h[d].waiting;
        o->all.held += h[d].held;
    }
    ls_arena_rewind(p->arena, mark);
    return fits;
}

static ls_fleet fleet_of(ls_haul_planner *p, long trucks, const outcome *o) {
    ls_fleet f = {.trucks = trucks, .finish = ls_haul_moment_end(p, o->end)};
    f.hours = figure(p, trucks, "hours", "hours on the job", o->all.worked);
    f.idle = figure(p, trucks, "idle", "hours the loader waits for a truck", o->all.idle);
    f.waiting = figure(p, trucks, "waiting", "hours trucks wait for the loader", o->all.waiting);
    f.held = figure(p, trucks, "held", "hours trucks wait for slats", o->all.held);
    f.cost = cost(p, trucks, f.hours);
    return f;
}

/* ---- the match factor ---- */

/* Burt and Caccetta 2007: trucks x load time / (loaders x truck cycle); here over all loads. */
static ls_line match(ls_haul_planner *p) {
    ls_worksheet *w = p->w;
    ls_sim_time round = 0;
    for (size_t k = 0; k < p->trips_n; k++) {
        ls_sim_job j = p->trips[k].job;
        round += j.load + j.out + j.empty + j.back;
    }
    if (round == 0)
        return LS_NO_LINE;
    ls_line rounds = ls_leaf_exact(w, "plan.days.rounds", "all loads from loading to coming back",
                                   "h", (double)round * ls_unit_of("s").factor, LS_BY_DAYS, NULL);
    ls_line trucks = ls_leaf_count(w, "truck-1.count", "trucks", "", &p->farm->trucks.at[0].count);
    ls_line all = LS_PRODUCT(w, "plan.days.trucks_loading", "trucks times loading", "h", trucks,
                             p->plan->loading);
    return ls_quotient(w, "plan.days.match", "match factor: trucks x load time / round trip", "",
                       all, rounds);
}

/* Remembers the fleet that costs least, of equals the smaller. */
static void note_cheapest(ls_haul_planner *p, size_t fleet) {
    ls_plan *plan = p->plan;
    if (plan->fleets[fleet].cost != LS_NO_LINE &&
        (plan->cheapest == SIZE_MAX || ls_line_value(p->w, plan->fleets[fleet].cost) <
                                           ls_line_value(p->w, plan->fleets[plan->cheapest].cost)))
        plan->cheapest = fleet;
}

void ls_haul_fleets(ls_haul_planner *p) {
    enum { AT_LEAST = 8, MORE = 4 };
    ls_plan *plan = p->plan;
    long most = p->farm->trucks.at[0].count.n + MORE;
    most = most < AT_LEAST ? AT_LEAST : most;
    ls_fleet *list = LS_NEW(p->arena, ls_fleet, (size_t)most);
    ls_sim_time best = INT64_MAX;
    plan->fleets = list;
    plan->cheapest = SIZE_MAX;
    plan->match = match(p);
    for (long trucks = 1; trucks <= most && p->trips_n > 0; trucks++) {
        outcome o;
        if (!simulate(p, trucks, &o))
            continue;
        size_t k = plan->fleets_n++;
        list[k] = fleet_of(p, trucks, &o);
        if (o.end < best)
            best = o.end, plan->soonest = k;
        note_cheapest(p, k);
    }
    while (plan->fewest < plan->soonest &&
           list[plan->fewest].finish.day > list[plan->soonest].finish.day)
        plan->fewest++;
}
