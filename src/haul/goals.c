/* The goals and the days as lines. */
#include "plan.h"

#include <limits.h>
#include <math.h>

double ls_haul_worth_of(const ls_split_problem *q, const ls_split *s) {
    double money = 0;
    LS_EACH_OF (const ls_split_load, l, s->loads, s->loads_n) {
        money += l->buyer == q->buyers ? l->tons * q->stack_value : -q->trip_cost[l->buyer];
        LS_EACH_OF (const ls_split_drop, d, s->drops + l->first, l->n)
            money += d->tons * (l->from_stack ? q->later_value : q->value)[l->lot * q->fields + d->field];
    }
    return money;
}

/* ---- goals ---- */

static const char *const aim_keys[LS_AIMS] = {"return", "miles", "phosphorus"};

/* The third goal in the words and the unit of the aim; miles are counted, not their loss. */
static void name_third(ls_plan *plan) {
    ls_goal *g = &plan->goals[LS_GOAL_RETURN];
    if (plan->aim == LS_AIM_NEAR) *g = (ls_goal){"truck miles", "mi", 0 - g->value, 0 - g->bound, g->gap};
    if (plan->aim == LS_AIM_PHOSPHORUS) *g = (ls_goal){"P2O5 that crops need", "lb", g->value, g->bound, g->gap};
}

/* Value, bound and gap: the gap is what lies between the two. */
static void goal_lines(ls_haul_planner *p, int goal, const char *name) {
    ls_plan *plan = p->plan;
    const ls_goal *g = &plan->goals[goal];
    ls_worksheet *w = ls_part(p->w, g->goal, "plan.goal-%s", name);
    const char *unit = goal == LS_GOAL_DROPS ? "" : g->unit;
    bool money = goal == LS_GOAL_RETURN && plan->aim == LS_AIM_MONEY,
         most = goal == LS_GOAL_TONS || (goal == LS_GOAL_RETURN && plan->aim != LS_AIM_NEAR);
    static const char likely[] = "%s, likely case", at_best[] = "%s, at best";
    ls_line reached = money ? ls_same(w, "", likely, unit, plan->net_return)
                            : ls_haul_decided(w, "", likely, unit, g->value, ls_haul_likely_split);
    ls_line bound = g->gap > 0 ? ls_haul_decided(w, "bound", at_best, unit, g->bound,
                                                 "proven: no plan that serves the goals before as well and keeps "
                                                 "the firm loads does better")
                               : ls_same(w, "bound", at_best, unit, reached);
    plan->reached[goal] = reached, plan->bound[goal] = bound;
    plan->gap[goal] = ls_difference(w, "gap", "%s, not proven", unit, most ? bound : reached, most ? reached : bound);
}

static void days(ls_haul_planner *p) {
    static const char calendar[] = "the calendar of the loads";
    const ls_plan *plan = p->plan;
    ls_worksheet *w = ls_part(p->w, NULL, "plan");
    ls_haul_decided(w, "working-days", "days with work, likely case", "day", (double)plan->working_days, calendar);
    if (plan->slack_days != LONG_MIN)
        ls_haul_decided(w, "slack-days", "days between the finish and the next flock", "day", (double)plan->slack_days,
                        "the calendar of the loads, less the date the file gives");
    if (plan->high_finish != LS_NO_DATE)
        ls_haul_decided(w, "high-days", "days with work that possible loads add", "day", (double)plan->high_days,
                        calendar);
    if (plan->empty_finish != LS_NO_DATE)
        ls_haul_decided(w, "empty-days", "days with work that litter without a field would add", "day",
                        (double)plan->empty_days, "the calendar of the loads, each such load to the mean field");
}

/* Beside bound loads the rest alone was split. What keeps the firm loads is proven of all plans if they could do no
 * better; of other third goals than money that is known of the same answer alone. */
static void proven_for(ls_haul_planner *p) {
    const ls_goal *kept = p->middle->goals, *all = p->free->goals;
    p->plan->firm_kept = p->middle->loads != p->free->loads &&
                         (p->aim != LS_AIM_MONEY || all[LS_GOAL_TONS].bound > kept[LS_GOAL_TONS].bound + 0.005 ||
                          all[LS_GOAL_SHORT].bound < kept[LS_GOAL_SHORT].bound - 0.005 ||
                          all[LS_GOAL_RETURN].bound > kept[LS_GOAL_RETURN].bound + 0.005);
    LS_EACH (const ls_haul_bound, b, p->bound) p->plan->tickets_kept = p->plan->tickets_kept || b->why == NULL;
}

void ls_haul_goal_lines(ls_haul_planner *p) {
    name_third(p->plan);
    proven_for(p);
    const char *names[LS_GOALS] = {"tons", "short", aim_keys[p->aim], "drops"};
    for (int goal = 0; goal < LS_GOALS; goal++) goal_lines(p, goal, names[goal]);
    const ls_goal *third = &p->plan->goals[LS_GOAL_RETURN];
    if (p->aim != LS_AIM_MONEY)
        p->plan->gap_percent = fabs(third->value) > 0 ? 100 * third->gap / fabs(third->value) : 0;
    ls_haul_pile_lines(p);
    days(p);
}
