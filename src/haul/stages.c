/* The litter of the stages, split one after the other: firm loads, then what else is there if there
 * is little litter, the middle, or much. What is promised at one stays at the next. */
#include "plan.h"

#include <math.h>
#include <string.h>

static bool full(const ls_haul_planner *p, const ls_split_load *l) {
    return !l->from_stack && l->tons > p->payload[l->lot] - 0.005;
}

/* ---- promises ---- */

static ls_haul_promise nothing(const ls_haul_planner *p) {
    size_t ends = p->lots * (p->buyers + 1);
    return (ls_haul_promise){LS_NEW(p->arena, long, ends), LS_NEW(p->arena, double, ends),
                             LS_NEW(p->arena, double, p->lots * p->buyers)};
}

/* Trips out of the stack, as far as the promised loads take litter into it. */
static void promise_out(const ls_haul_planner *p, const ls_split *s, ls_haul_promise *to) {
    double *held = LS_NEW(p->arena, double, p->lots);
    for (size_t i = 0; i < p->lots; i++) {
        size_t stack = ls_haul_lot_to(p, i, p->buyers);
        held[i] = (double)to->full[stack] * p->payload[i] + to->part[stack];
    }
    for (size_t k = 0; k < s->loads_n; k++) {
        const ls_split_load *l = &s->loads[k];
        if (!l->from_stack || l->tons > held[l->lot] + 1e-9)
            continue;
        held[l->lot] -= l->tons;
        to->out[ls_haul_lot_buyer(p, l->lot, l->buyer)] += l->tons;
    }
}

/* The loads of an answer, part loads only if asked for. */
static ls_haul_promise promise(const ls_haul_planner *p, const ls_split *s, bool parts) {
    ls_haul_promise to = nothing(p);
    ls_haul_promise_stacked(p, &to);
    for (size_t k = 0; k < s->loads_n; k++) {
        const ls_split_load *l = &s->loads[k];
        if (ls_haul_is_stacked(p, l->lot) && !l->from_stack)
            continue;
        if (full(p, l))
            to.full[ls_haul_lot_to(p, l->lot, l->buyer)]++;
        else if (!l->from_stack && parts)
            to.part[ls_haul_lot_to(p, l->lot, l->buyer)] = l->tons;
    }
    promise_out(p, s, &to);
    return to;
}

/* Does an answer happen to leave all firm loads where they are? */
static bool keeps(const ls_haul_planner *p, const ls_split *s) {
    ls_haul_promise has = promise(p, s, true);
    for (size_t i = 0; i < p->lots * (p->buyers + 1); i++)
        if (has.full[i] < p->firm.full[i])
            return false;
    for (size_t i = 0; i < p->lots * p->buyers; i++)
        if (has.out[i] < p->firm.out[i] - 1e-6)
            return false;
    return true;
}

/* ---- stages ---- */

/* The loads a lot is sure of, never more than its low stage holds. */
static long sure_loads(const ls_haul_planner *p, size_t lot) {
    if (ls_haul_is_stacked(p, lot))
        return 0;
    double sure = floor(ls_line_value(p->w, ls_haul_lot(p, lot)->firm) + 1e-9);
    return (long)fmin(sure, floor(p->tons[0][lot] / p->payload[lot] + 1e-9));
}

static void note_homeless(ls_haul_planner *p) {
    p->plan->firm_homeless = 0;
    for (size_t i = 0; i < p->lots; i++) {
        long left = sure_loads(p, i);
        for (size_t to = 0; to <= p->buyers; to++)
            left -= p->firm.full[ls_haul_lot_to(p, i, to)];
        if (left <= 0)
            continue;
        p->plan->firm_homeless += left;
        ls_haul_note(p, "%s: %ld load%s that %s sure to be there %s no field yet.",
                     ls_haul_lot(p, i)->name, left, left == 1 ? "" : "s", left == 1 ? "is" : "are",
                     left == 1 ? "has" : "have");
    }
}

static void keep(ls_split_problem *q, const ls_haul_promise *promised) {
    q->kept = promised->full;
    q->kept_part = promised->part;
    q->kept_out = promised->out;
}

static const ls_split *solve(ls_haul_planner *p, ls_split_problem *q, const double *tons,
                             const char *stage) {
    q->tons = tons;
    q->stage = stage;
    q->start = ls_split_solve(p->arena, q);
    if (q->start == NULL)
        ls_fail("the loads that were promised could not be placed again");
    return q->start;
}

/* The same answer with its money as the third goal, of which nothing is proven. */
static const ls_split *in_money(const ls_haul_planner *p, const ls_split *s) {
    ls_split_problem q = ls_haul_money_problem(p);
    ls_split *copy = LS_NEW(p->arena, ls_split, 1);
    *copy = *s;
    double money = ls_haul_worth_of(&q, s);
    copy->goals[LS_GOAL_RETURN] = (ls_goal){"net return", "$", money, money, 0};
    return copy;
}

/* Firm loads: what was firm before first, as far as it can be kept. What lies in the stack stays
 * there. *stacked keeps that alone. */
static void firm_loads(ls_haul_planner *p, ls_split_problem *q, ls_haul_promise *stacked) {
    double *sure = LS_NEW(p->arena, double, p->lots);
    for (size_t i = 0; i < p->lots; i++)
        sure[i] =
            ls_haul_is_stacked(p, i) ? p->tons[0][i] : (double)sure_loads(p, i) * p->payload[i];
    const ls_split *kept = NULL;
    ls_haul_promise before = nothing(p);
    *stacked = nothing(p);
    ls_haul_promise_stacked(p, stacked);
    ls_haul_promise_stacked(p, &before);
    if (p->before != NULL) {
        ls_haul_promise_again(p, q, sure, &before);
        keep(q, &before);
        q->tons = sure;
        q->stage = "firm loads";
        kept = ls_split_solve(p->arena, q);
    }
    if (kept == NULL && p->lots > p->e->n)
        keep(q, stacked);
    else if (kept == NULL)
        q->kept = NULL, q->kept_part = q->kept_out = NULL;
    p->firm = promise(p, kept != NULL ? (q->start = kept) : solve(p, q, sure, "firm loads"), false);
}

void ls_haul_stages(ls_haul_planner *p) {
    ls_split_problem q = ls_haul_problem(p), unbound = q;
    ls_haul_promise stacked;
    firm_loads(p, &q, &stacked);
    note_homeless(p);
    keep(&q, &p->firm);
    p->low = solve(p, &q, p->tons[0], "low case");
    if (p->lots > p->e->n)
        keep(&unbound, &stacked);
    unbound.start = p->low;
    p->free = p->middle = solve(p, &unbound, p->tons[1], "likely case");
    if (!keeps(p, p->free))
        p->middle = solve(p, &q, p->tons[1], "likely case, firm loads kept");
    p->likely = promise(p, p->middle, true);
    keep(&q, &p->likely);
    q.start = p->middle;
    p->high = solve(p, &q, p->tons[2], "high case");
    memcpy(p->aimed, p->middle->goals, sizeof p->aimed);
    if (p->aim != LS_AIM_MONEY) {
        p->free = in_money(p, p->free);
        p->middle = in_money(p, p->middle);
    }
}
