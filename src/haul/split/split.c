/* The split: goal by goal, each solved with the ones before held at what was reached. */
#include "guard.h"
#include "search.h"

#include <math.h>

enum { MOST_PAIRS = 100 };

static bool small(const ls_haul_task *t) { return !t->given->whole_loads && t->lots * t->fields <= MOST_PAIRS; }

/* Nodes for one goal: many where a node is cheap. Few tons in the stack only decide between answers
 * that are otherwise as good. */
static long nodes_for(const ls_haul_task *t, ls_haul_aim aim) {
    if (aim == LS_HAUL_STACKED) return small(t) ? 20 : 0;
    size_t size = t->lots * (t->fields + 3 * t->buyers + 1);
    if (t->given->whole_loads) return 20000;
    long nodes = (long)(20000 / (size + 100));
    return nodes < 40 ? 40 : nodes;
}

typedef struct {
    ls_haul_search search;
    double bound[LS_GOALS];
    bool solved[LS_GOALS];
} solver;

static bool pays_nothing(const ls_haul_task *t) {
    bool any = t->given->stack_value != 0;
    for (size_t k = 0; k < t->lots * t->fields; k++)
        any = any || (t->open[k] && t->value[k] != 0) || (t->later[k] && t->later_value[k] != 0);
    for (size_t b = 0; b < t->buyers; b++) any = any || t->trip_cost[b] != 0;
    return !any;
}

static bool trivial(const ls_haul_search *s, ls_haul_aim aim) {
    if (aim == LS_HAUL_STACKED) return s->found && s->best->stacked == 0;
    return aim == LS_HAUL_MONEY && pays_nothing(s->t);
}

/* Hold what was reached, with a little room for the solver's noise: more would be made use of. */
static void hold(ls_haul_search *s, ls_haul_aim aim) {
    if (s->m == NULL || !s->found || aim == LS_HAUL_STACKED) return;
    double worth = ls_haul_worth(s->best, aim);
    ls_haul_model_hold(s->m, aim, aim == LS_HAUL_SHORT ? worth + 1e-6 : worth - 1e-6);
}

/* What is done in the stack belongs to the goal before it. */
static void tell(const solver *s, int goal) {
    const ls_split_problem *p = s->search.t->given;
    if (p->progress.say != NULL && p->stage != NULL && goal < LS_GOALS)
        p->progress.say(p->progress.to,
                        ls_arena_printf(s->search.t->arena, "%s, goal %d of %d", p->stage, goal + 1, (int)LS_GOALS));
}

static void one_goal(solver *s, ls_haul_aim aim) {
    ls_haul_search *search = &s->search;
    if (aim != LS_HAUL_STACKED) tell(s, (int)aim);
    search->aim = aim;
    if (trivial(search, aim))
        search->bound = search->found ? ls_haul_worth(search->best, aim) : 0;
    else
        ls_haul_search_aim(search, aim, nodes_for(search->t, aim));
    if (aim != LS_HAUL_STACKED) {
        s->bound[aim] = search->bound;
        s->solved[aim] = true;
    }
    hold(search, aim);
}

/* Tons not proven: the smallest drop may be why, and a model that knows of it will tell. */
static void look_closer(solver *s) {
    double bound = s->bound[LS_GOAL_TONS];
    ls_haul_model_free(s->search.m);
    s->search.m = ls_haul_model_new(s->search.t, true);
    one_goal(s, LS_HAUL_TONS);
    s->bound[LS_GOAL_TONS] = fmin(bound, s->bound[LS_GOAL_TONS]);
}

static void goals(void *data) {
    solver *s = data;
    s->search.m = ls_haul_model_new(s->search.t, false);
    one_goal(s, LS_HAUL_TONS);
    if (small(s->search.t) && !ls_haul_proven(&s->search)) look_closer(s);
    for (int aim = s->search.t->given->tons_only ? LS_HAUL_STACKED : LS_HAUL_SHORT; aim <= LS_HAUL_STACKED; aim++)
        one_goal(s, (ls_haul_aim)aim);
    if (s->search.found && !s->search.t->given->tons_only) {
        tell(s, LS_GOAL_DROPS);
        s->bound[LS_GOAL_DROPS] = ls_haul_few_drops(&s->search);
        s->solved[LS_GOAL_DROPS] = true;
    }
    ls_haul_model_free(s->search.m);
}

/* Bounds of goals the solver did not come to, or was not to come to. */
static void plain_goals(solver *s) {
    s->search.m = NULL;
    for (int aim = LS_HAUL_TONS; aim <= LS_HAUL_MONEY; aim++)
        if (!s->solved[aim]) one_goal(s, (ls_haul_aim)aim);
    if (s->search.t->priced && !s->search.t->given->quick) ls_haul_groups(&s->search, ls_split_solve);
    if (!s->solved[LS_GOAL_DROPS]) s->bound[LS_GOAL_DROPS] = ls_haul_few_drops(&s->search);
}

/* ---- the answer in the numbers of the given problem ---- */

static void add_load(const ls_haul_task *t, ls_split *out, const ls_haul_pieces *pieces, size_t load, size_t lot,
                     size_t to, bool from_stack) {
    ls_split_load *l = &out->loads[out->loads_n++];
    *l = (ls_split_load){.lot = lot, .from_stack = from_stack, .first = out->drops_n};
    l->buyer = to < t->buyers ? t->given_buyer[to] : t->buyers;
    int64_t tons = 0;
    for (size_t k = 0; k < pieces->n; k++) {
        const ls_haul_piece *piece = &pieces->at[k];
        if (piece->load != load) continue;
        size_t field = t->given_field[t->first[to] + piece->field];
        out->drops[out->drops_n++] = (ls_split_drop){lot, field, (double)piece->tons / 100, 0};
        tons += piece->tons;
    }
    l->n = out->drops_n - l->first;
    l->tons = (double)tons / 100;
}

static void add_loads(const ls_haul_task *t, const ls_haul_answer *x, ls_split *out, size_t lot, size_t to,
                      bool from_stack, bool full) {
    ls_haul_sizes sizes = ls_haul_sizes_of(t, x, lot, to, from_stack);
    ls_haul_pieces pieces = {0};
    if (to < t->buyers) ls_haul_pieces_of(t, x, lot, to, from_stack, &pieces);
    for (size_t k = 0; k < sizes.n; k++) {
        if (!from_stack && (sizes.at[k] == t->payload[lot]) != full) continue;
        add_load(t, out, &pieces, k, lot, to, from_stack);
        if (to == t->buyers) out->loads[out->loads_n - 1].tons = (double)sizes.at[k] / 100;
    }
}

static size_t count_loads(const ls_haul_task *t, const ls_haul_answer *x) {
    size_t n = 0;
    for (size_t i = 0; i < t->lots; i++)
        for (size_t to = 0; to <= t->buyers; to++) {
            n += ls_haul_sizes_of(t, x, i, to, false).n;
            if (to < t->buyers) n += ls_haul_sizes_of(t, x, i, to, true).n;
        }
    return n;
}

static void set_loads(const ls_haul_task *t, const ls_haul_answer *x, ls_split *out) {
    out->loads = LS_NEW(t->arena, ls_split_load, count_loads(t, x));
    out->drops = LS_NEW(t->arena, ls_split_drop, (size_t)x->drops);
    for (size_t i = 0; i < t->lots; i++)
        for (int kind = 0; kind < 3; kind++) /* full, part, out of the stack */
            for (size_t to = 0; to < t->buyers + (kind < 2 ? 1 : 0); to++)
                add_loads(t, x, out, i, to, kind == 2, kind == 0);
}

static void set_lots(const ls_haul_task *t, const ls_haul_answer *x, ls_split *out) {
    out->straight = LS_NEW(t->arena, double, t->lots);
    out->stacked = LS_NEW(t->arena, double, t->lots);
    out->unplaced = LS_NEW(t->arena, double, t->lots);
    for (size_t i = 0; i < t->lots; i++) {
        int64_t stacked = ls_haul_sent(t, x, i, t->buyers), gone = ls_haul_gone(t, x, i);
        out->stacked[i] = (double)stacked / 100;
        out->straight[i] = (double)(gone - stacked) / 100;
        out->unplaced[i] = (double)(t->tons[i] - gone) / 100;
    }
}

static void set_goal(ls_goal *goal, const char *name, const char *unit, double value, double bound, bool most) {
    double gap = most ? bound - value : value - bound;
    bool closed = gap < 0.0099;
    *goal = (ls_goal){name, unit, value, closed ? value : bound, closed ? 0 : gap};
}

static void set_goals(const solver *s, ls_split *out) {
    const ls_haul_answer *x = s->search.best;
    set_goal(&out->goals[LS_GOAL_TONS], "tons on fields", "ton", (double)x->placed / 100, s->bound[LS_GOAL_TONS], true);
    set_goal(&out->goals[LS_GOAL_SHORT], "tons short of orders", "ton", (double)x->short_of / 100,
             s->bound[LS_GOAL_SHORT], false);
    set_goal(&out->goals[LS_GOAL_RETURN], "net return", "$", x->money, s->bound[LS_GOAL_RETURN], true);
    set_goal(&out->goals[LS_GOAL_DROPS], "drops", "drops", (double)x->drops, s->bound[LS_GOAL_DROPS], false);
}

const ls_split *ls_split_solve(ls_arena *a, const ls_split_problem *p) {
    ls_haul_task *t = ls_haul_task_new(a, p);
    solver *s = LS_NEW(a, solver, 1);
    s->search = (ls_haul_search){.t = t, .wish = ls_haul_wish_new(t)};
    s->search.nearness = LS_NEW(a, double, t->buyers);
    s->search.best = ls_haul_answer_new(t);
    s->search.trial = ls_haul_answer_new(t);
    s->search.found = ls_haul_start(t, s->search.best) && ls_haul_check(t, s->search.best) == NULL;
    ls_haul_consider(&s->search, false, false);
    bool priced = t->priced;
    if (priced || !ls_haul_guarded(goals, s) || p->tons_only) plain_goals(s);
    if (!s->search.found) return NULL;
    const char *wrong = ls_haul_check(t, s->search.best);
    if (wrong != NULL) ls_fail("the split does not hold: %s", wrong);
    ls_split *out = LS_NEW(a, ls_split, 1);
    set_loads(t, s->search.best, out);
    set_lots(t, s->search.best, out);
    set_goals(s, out);
    return out;
}
