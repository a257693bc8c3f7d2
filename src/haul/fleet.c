/* Other fleets: the same loads in the same order, simulated with each. Of one kind of truck 1, 2,
 * ...; of several kinds the farm's own, and one more or one fewer of each. */
#include "plan.h"

/* ---- the kinds that haul ---- */

typedef struct {
    ls_haul_planner *p;
    bool *hauls; /* [kind] */
    size_t n;    /* kinds that do */
    size_t kind; /* the first of them */
} table;

static table new_table(ls_haul_planner *p) {
    table t = {p, LS_NEW(p->arena, bool, p->farm->trucks.n), 0, 0};
    LS_EACH_OF (const ls_haul_trip, trip, p->trips, p->trips_n) t.hauls[trip->job.kind] = true;
    for (size_t k = p->farm->trucks.n; k-- > 0;)
        if (t.hauls[k]) t.n++, t.kind = k;
    return t;
}

static long count_of(const ls_haul_planner *p, size_t kind) { return p->farm->trucks.at[kind].count.n; }

static const char *name_of(const ls_haul_planner *p, size_t kind) {
    const char *name = p->farm->trucks.at[kind].name.text;
    return name == NULL ? "truck" : name;
}

/* ---- lines of one fleet ---- */

typedef struct {
    ls_worksheet *w;   /* "plan.fleet.3", "with 3 trucks" */
    const char *fleet; /* as of a fleet of the plan */
    long trucks;       /* that haul */
} other;

/* Crew and trucks are paid for the hours on the job. */
static ls_line cost(ls_haul_planner *p, const other *o, ls_line hours) {
    const ls_costs *c = p->farm->costs;
    if (c == NULL || !LS_GIVEN(c->crew) || !LS_GIVEN(c->truck)) return LS_NO_LINE;
    ls_line crew = ls_leaf_given(p->w, "plan.cost.crew.per_hour", "crew and loader, per hour", "$/h", &c->crew);
    ls_line truck = ls_leaf_given(p->w, "plan.cost.truck.per_hour", "a truck, per hour", "$/h", &c->truck);
    ls_line count = ls_leaf_exact(o->w, "trucks", "trucks", "", (double)o->trucks, LS_BY_DEFINITION, NULL);
    ls_line all = LS_PRODUCT(o->w, "trucks.per_hour", "all trucks, per hour", "$/h", count, truck);
    ls_line each = LS_SUM(o->w, "per_hour", "crew and trucks, per hour", "$/h", crew, all);
    return LS_PRODUCT(o->w, "cost", "cost %s", "$", each, hours);
}

/* What the simulation needs is given back. False: the work would take more days than there are. */
static bool simulate(ls_haul_planner *p, const size_t *trucks, ls_sim_time *end, ls_sim_hours *all) {
    ls_arena_mark mark = ls_arena_here(p->arena);
    ls_haul_run run;
    bool fits = ls_haul_simulate(p, p->trips, p->trips_n, trucks, &run);
    *end = run.x.end;
    *all = (ls_sim_hours){0};
    size_t days = 0;
    const ls_sim_hours *h = fits ? ls_haul_hours(p, &run, &days) : NULL;
    for (size_t d = 0; d < days; d++) {
        all->worked += h[d].worked;
        all->idle += h[d].idle;
        all->waiting += h[d].waiting;
        all->held += h[d].held;
    }
    ls_arena_rewind(p->arena, mark);
    return fits;
}

/* ---- the list ---- */

typedef LS_LIST(ls_fleet) fleet_list;

/* SIZE_MAX: it is not listed. */
static size_t add(ls_haul_planner *p, fleet_list *list, const other *o, const size_t *trucks) {
    ls_sim_time end;
    ls_sim_hours all;
    if (!simulate(p, trucks, &end, &all)) return SIZE_MAX;
    ls_fleet f = {.trucks = o->trucks, .fleet = o->fleet, .finish = ls_haul_moment_end(p, end)};
    f.hours = ls_haul_timed(o->w, "hours", "hours on the job %s", all.worked);
    f.idle = ls_haul_timed(o->w, "idle", "hours the loader waits for a truck %s", all.idle);
    f.waiting = ls_haul_timed(o->w, "waiting", "hours trucks wait for the loader %s", all.waiting);
    f.held = ls_haul_timed(o->w, "held", "hours trucks wait for slats %s", all.held);
    f.cost = cost(p, o, f.hours);
    *LS_PUSH(p->arena, list) = f;
    return list->n - 1;
}

static void of_one_kind(const table *t, fleet_list *list) {
    enum { AT_LEAST = 8, MORE = 4 };
    ls_haul_planner *p = t->p;
    size_t *trucks = ls_haul_fleet(p);
    long own = count_of(p, t->kind), most = own + MORE < AT_LEAST ? AT_LEAST : own + MORE;
    for (long n = 1; n <= most; n++) {
        const char *with = ls_arena_printf(p->arena, "with %ld truck%s", n, n == 1 ? "" : "s");
        other o = {ls_part(p->w, with, "plan.fleet.%ld", n), NULL, n};
        trucks[t->kind] = (size_t)n;
        size_t k = add(p, list, &o, trucks);
        p->plan->now = n == own ? k : p->plan->now;
        p->plan->more = n == own + 1 ? k : p->plan->more;
    }
}

static other as_now(const table *t) {
    other o = {ls_part(t->p->w, "as it is", "plan.fleet.now"), NULL, 0};
    ls_text *words = ls_text_new(t->p->arena);
    for (size_t k = 0; k < t->p->farm->trucks.n; k++)
        if (t->hauls[k]) {
            o.trucks += count_of(t->p, k);
            ls_text_addf(words, "%s%ld x %s", words->n > 0 ? ", " : "", count_of(t->p, k), name_of(t->p, k));
        }
    o.fleet = words->s;
    return o;
}

static bool sooner(ls_moment a, ls_moment b) { return a.day != b.day ? a.day < b.day : a.second < b.second; }

/* One more of a kind, or one fewer. */
static size_t add_other(const table *t, fleet_list *list, size_t kind, long change) {
    ls_haul_planner *p = t->p;
    size_t *trucks = ls_haul_fleet(p);
    const char *how = change > 0 ? "more" : "fewer",
               *fleet = ls_arena_printf(p->arena, "1 %s %s", how, name_of(p, kind));
    other o = {ls_part(p->w, ls_arena_printf(p->arena, "with %s", fleet), "plan.fleet.truck-%zu-%s", kind + 1, how),
               fleet, as_now(t).trucks + change};
    trucks[kind] = (size_t)(count_of(p, kind) + change);
    return trucks[kind] > 0 ? add(p, list, &o, trucks) : SIZE_MAX;
}

static void of_several(const table *t, fleet_list *list) {
    ls_plan *plan = t->p->plan;
    other now = as_now(t);
    plan->now = add(t->p, list, &now, ls_haul_fleet(t->p));
    for (size_t kind = 0; kind < t->p->farm->trucks.n; kind++) {
        size_t more = t->hauls[kind] ? add_other(t, list, kind, 1) : SIZE_MAX;
        if (t->hauls[kind]) add_other(t, list, kind, -1);
        if (more != SIZE_MAX && (plan->more == SIZE_MAX || sooner(list->at[more].finish, list->at[plan->more].finish)))
            plan->more = more;
    }
}

/* ---- the match factor ---- */

/* Burt and Caccetta 2007: trucks x load time / (loaders x truck cycle); here over all loads. */
static ls_line match(const table *t) {
    ls_haul_planner *p = t->p;
    ls_worksheet *w = p->w;
    ls_sim_time round = 0;
    LS_EACH_OF (const ls_haul_trip, one, p->trips, p->trips_n) round += ls_sim_whole(one->job);
    if (round == 0) return LS_NO_LINE;
    ls_line *counts = LS_NEW(p->arena, ls_line, t->n);
    size_t n = 0;
    for (size_t k = 0; k < p->farm->trucks.n; k++)
        if (t->hauls[k])
            counts[n++] =
                ls_leaf_count(w, ls_printf(w, "truck-%zu.count", k + 1), "trucks", "", &p->farm->trucks.at[k].count);
    ls_line rounds = ls_haul_timed(w, "plan.days.rounds", "all loads from loading to coming back", round);
    ls_line trucks = n == 1 ? counts[0] : ls_sum(w, "plan.days.trucks", "trucks of all kinds", "", counts, n);
    ls_line all = LS_PRODUCT(w, "plan.days.trucks_loading", "trucks times loading", "h", trucks, p->plan->loading);
    return ls_quotient(w, "plan.days.match", "match factor: trucks x load time / round trip", "", all, rounds);
}

/* ---- which serves best ---- */

/* Of equals always the first. */
static void choose(const ls_haul_planner *p) {
    ls_plan *plan = p->plan;
    const ls_fleet *f = plan->fleets;
    for (size_t k = 0; k < plan->fleets_n; k++) {
        if (sooner(f[k].finish, f[plan->soonest].finish)) plan->soonest = k;
        if (f[k].cost != LS_NO_LINE && (plan->cheapest == SIZE_MAX ||
                                        ls_line_value(p->w, f[k].cost) < ls_line_value(p->w, f[plan->cheapest].cost)))
            plan->cheapest = k;
    }
    plan->fewest = plan->soonest;
    for (size_t k = plan->fleets_n; k-- > 0;)
        if (f[k].finish.day == f[plan->soonest].finish.day && f[k].trucks <= f[plan->fewest].trucks) plan->fewest = k;
}

void ls_haul_fleets(ls_haul_planner *p) {
    ls_plan *plan = p->plan;
    table t = new_table(p);
    fleet_list list = {0};
    plan->cheapest = plan->now = plan->more = SIZE_MAX;
    plan->match = match(&t);
    if (t.n == 1)
        of_one_kind(&t, &list);
    else if (t.n > 1)
        of_several(&t, &list);
    plan->fleets = list.at;
    plan->fleets_n = list.n;
    choose(p);
}
