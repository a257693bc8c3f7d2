/* The goals and the days as lines. */
#include "plan.h"

#include <limits.h>
#include <math.h>

double ls_haul_worth_of(const ls_split_problem *q, const ls_split *s) {
    double money = 0;
    for (size_t k = 0; k < s->loads_n; k++) {
        const ls_split_load *l = &s->loads[k];
        if (l->buyer == q->buyers) {
            money += l->tons * q->stack_value;
            continue;
        }
        money -= q->trip_cost[l->buyer];
        for (size_t d = l->first; d < l->first + l->n; d++)
            money +=
                s->drops[d].tons *
                (l->from_stack ? q->later_value : q->value)[l->lot * q->fields + s->drops[d].field];
    }
    return money;
}

/* ---- goals ---- */

static const char *const aim_keys[LS_AIMS] = {"return", "miles", "phosphorus"};

/* The third goal in the words and the unit of the aim; miles are counted, not their loss. */
static void name_third(ls_plan *plan) {
    ls_goal *g = &plan->goals[LS_GOAL_RETURN];
    if (plan->aim == LS_AIM_NEAR)
        *g = (ls_goal){"truck miles", "mi", 0 - g->value, 0 - g->bound, g->gap};
    if (plan->aim == LS_AIM_PHOSPHORUS)
        *g = (ls_goal){"P2O5 that crops need", "lb", g->value, g->bound, g->gap};
}

static bool is_most(const ls_plan *plan, int goal) {
    return goal == LS_GOAL_TONS || (goal == LS_GOAL_RETURN && plan->aim != LS_AIM_NEAR);
}

/* Value, bound and gap: the gap is what lies between the two. */
static void goal_lines(ls_haul_planner *p, int goal, const char *name) {
    ls_plan *plan = p->plan;
    ls_worksheet *w = p->w;
    const ls_goal *g = &plan->goals[goal];
    const char *unit = goal == LS_GOAL_DROPS ? "" : g->unit;
    double factor = ls_unit_of(unit).factor;
    const char *key = ls_printf(w, "plan.goal-%s", name),
               *label = ls_printf(w, "%s, likely case", g->goal);
    bool money = goal == LS_GOAL_RETURN && plan->aim == LS_AIM_MONEY;
    plan->reached[goal] = money ? ls_same(w, key, label, unit, plan->net_return)
                                : ls_leaf_exact(w, key, label, unit, g->value * factor, LS_BY_SPLIT,
                                                "the split of the likely case");
    const char *best_key = ls_printf(w, "plan.goal-%s.bound", name),
               *best = ls_printf(w, "%s, at best", g->goal);
    plan->bound[goal] =
        g->gap > 0 ? ls_leaf_exact(w, best_key, best, unit, g->bound * factor, LS_BY_SPLIT,
                                   "proven: no plan that serves the goals before as well and keeps "
                                   "the firm loads does better")
                   : ls_same(w, best_key, best, unit, plan->reached[goal]);
    bool most = is_most(plan, goal);
    plan->gap[goal] = ls_difference(w, ls_printf(w, "plan.goal-%s.gap", name),
                                    ls_printf(w, "%s, not proven", g->goal), unit,
                                    most ? plan->bound[goal] : plan->reached[goal],
                                    most ? plan->reached[goal] : plan->bound[goal]);
}

/* Days as a line, once. */
static void day_line(ls_haul_planner *p, const char *key, const char *label, long days,
                     const char *words) {
    if (ls_line_find(p->w, key) == LS_NO_LINE)
        ls_leaf_exact(p->w, key, label, "day", (double)days * ls_unit_of("day").factor, LS_BY_SPLIT,
                      words);
}

static void days(ls_haul_planner *p) {
    static const char calendar[] = "the calendar of the loads";
    const ls_plan *plan = p->plan;
    day_line(p, "plan.working-days", "days with work, likely case", plan->working_days, calendar);
    if (plan->slack_days != LONG_MIN)
        day_line(p, "plan.slack-days", "days between the finish and the next flock",
                 plan->slack_days, "the calendar of the loads, less the date the file gives");
    if (plan->high_finish != LS_NO_DATE)
        day_line(p, "plan.high-days", "days with work that possible loads add", plan->high_days,
                 calendar);
    if (plan->empty_finish != LS_NO_DATE)
        day_line(p, "plan.empty-days", "days with work that litter without a field would add",
                 plan->empty_days, "the calendar of the loads, each such load to the mean field");
}

/* Beside bound loads the rest alone was split. What keeps the firm loads is proven of all plans if
 * they could do no better; of other third goals than money that is known of the same answer alone.
 */
static void proven_for(ls_haul_planner *p) {
    const ls_goal *kept = p->middle->goals, *all = p->free->goals;
    p->plan->firm_kept =
        p->middle->loads != p->free->loads &&
        (p->aim != LS_AIM_MONEY || all[LS_GOAL_TONS].bound > kept[LS_GOAL_TONS].bound + 0.005 ||
         all[LS_GOAL_SHORT].bound < kept[LS_GOAL_SHORT].bound - 0.005 ||
         all[LS_GOAL_RETURN].bound > kept[LS_GOAL_RETURN].bound + 0.005);
    for (size_t k = 0; k < p->bound.n; k++)
        p->plan->tickets_kept = p->plan->tickets_kept || p->bound.at[k].why == NULL;
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
