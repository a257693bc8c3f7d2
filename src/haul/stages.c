/* The litter of the stages, split one after the other: what slips promise, firm loads, then what
 * else is there if there is little litter, the middle, or much. What is promised at one stays at
 * the next. Bound loads stand aside, and are put to each answer. */
#include "plan.h"

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
    LS_EACH_OF (const ls_split_load, l, s->loads, s->loads_n) {
        if (!l->from_stack || l->tons > held[l->lot] + 1e-9) continue;
        held[l->lot] -= l->tons;
        to->out[ls_haul_lot_buyer(p, l->lot, l->buyer)] += l->tons;
    }
}

/* The loads of an answer, part loads only if asked for. */
static ls_haul_promise promise(const ls_haul_planner *p, const ls_split *s, int stage, bool parts) {
    ls_haul_promise to = nothing(p);
    ls_haul_promise_stacked(p, stage, &to);
    LS_EACH_OF (const ls_split_load, l, s->loads, s->loads_n) {
        if (ls_haul_is_stacked(p, l->lot) && !l->from_stack) continue;
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
    ls_haul_promise has = promise(p, s, 1, true);
    for (size_t i = 0; i < p->house_lots * (p->buyers + 1); i++)
        if (has.full[i] < p->firm.full[i]) return false;
    for (size_t i = 0; i < p->lots * p->buyers; i++)
        if (has.out[i] < p->firm.out[i] - 1e-6) return false;
    return true;
}

/* ---- one stage ---- */

/* An answer of an earlier stage with what lies in the stack at this one: to begin with. */
static const ls_split *restacked(const ls_haul_planner *p, const ls_split *s, const ls_haul_promise *lies) {
    if (s == NULL || p->stacked_lots == p->lots) return s;
    size_t n = s->loads_n;
    for (size_t i = p->house_lots; i < p->lots; i++) n += (size_t)lies->full[ls_haul_lot_to(p, i, p->buyers)] + 1;
    ls_split *copy = LS_NEW(p->arena, ls_split, 1);
    *copy = *s;
    copy->loads = LS_NEW(p->arena, ls_split_load, n);
    copy->loads_n = 0;
    LS_EACH_OF (const ls_split_load, l, s->loads, s->loads_n)
        if (l->from_stack || !ls_haul_is_stacked(p, l->lot)) copy->loads[copy->loads_n++] = *l;
    for (size_t i = p->house_lots; i < p->lots; i++) {
        size_t at = ls_haul_lot_to(p, i, p->buyers);
        ls_split_load load = {.lot = i, .buyer = p->buyers, .tons = p->payload[i]};
        for (long k = 0; k < lies->full[at]; k++) copy->loads[copy->loads_n++] = load;
        load.tons = lies->part[at];
        if (load.tons > 0) copy->loads[copy->loads_n++] = load;
    }
    return copy;
}

const bool *ls_haul_bound_parts(const ls_haul_planner *p, int stage) {
    bool *bound = LS_NEW(p->arena, bool, p->lots);
    LS_EACH (const ls_haul_bound, b, p->bound)
        if (ls_haul_is_bound_part(p, b, stage)) bound[b->lot] = true;
    return bound;
}

/* The tons of a stage, begun with the problem's start, which the answer is for the next one. */
static const ls_split *solve(ls_haul_planner *p, ls_split_problem *q, int stage, const double *tons,
                             ls_haul_promise kept, const char *words) {
    ls_haul_promise_stacked(p, stage, &kept);
    q->kept = kept.full, q->kept_part = kept.part, q->kept_out = kept.out;
    q->tons = tons;
    q->stack_room = ls_haul_rest_room(p, stage);
    q->no_part = ls_haul_bound_parts(p, stage);
    q->stage = words;
    q->start = restacked(p, q->start, &kept);
    q->start = ls_split_again(p->arena, &p->known, q);
    if (q->start == NULL) ls_fail("the loads that were promised could not be placed again");
    return q->start;
}

/* ---- firm loads ---- */

/* Full loads that are sure, and what lies in the stack. */
static double *sure_tons(const ls_haul_planner *p) {
    double *sure = LS_NEW(p->arena, double, p->lots);
    for (size_t i = 0; i < p->lots; i++)
        sure[i] = ls_haul_is_stacked(p, i) ? p->rest[0][i] : (double)p->rest_sure[i] * p->payload[i];
    return sure;
}

/* Only fields of buyers who are owed loads, and no more loads than that. Gives which are open. */
static bool *for_slips(const ls_haul_planner *p, ls_split_problem *q) {
    size_t pairs = p->lots * p->fields;
    bool *open = LS_NEW(p->arena, bool, pairs), *later = LS_NEW(p->arena, bool, pairs);
    long *most = LS_NEW(p->arena, long, p->buyers);
    for (size_t k = 0; k < pairs; k++) {
        bool owed = p->owed[p->buyer[k % p->fields]] > 0;
        open[k] = owed && q->open[k];
        later[k] = owed && q->later != NULL && q->later[k];
    }
    for (size_t b = 0; b < p->buyers; b++) most[b] = p->owed[b] < q->most_loads[b] ? p->owed[b] : q->most_loads[b];
    q->open = open;
    q->later = q->later == NULL ? NULL : later;
    q->most_loads = most;
    return open;
}

/* Loads of an answer that part loads and small trips do not bring, no more for a buyer than he is
 * owed, or than their tons make by his slip. */
static long served_by(const ls_haul_planner *p, const ls_split *s) {
    ls_haul_promise to = promise(p, s, 0, false);
    long n = 0, *loads = LS_NEW(p->arena, long, p->buyers);
    double *tons = LS_NEW(p->arena, double, p->buyers);
    LS_EACH_OF (const ls_split_load, l, s->loads, s->loads_n) {
        if (l->buyer == p->buyers) continue;
        double *out = &to.out[ls_haul_lot_buyer(p, l->lot, l->buyer)];
        if (!(l->from_stack ? *out > l->tons - 1e-6 && ls_haul_is_load(p, l->lot, l->tons) : full(p, l))) continue;
        *out -= l->from_stack ? l->tons : 0;
        loads[l->buyer]++;
        tons[l->buyer] += l->tons;
    }
    for (size_t b = 0; b < p->buyers; b++) {
        double owed = (double)p->owed[b];
        if (p->owed[b] > 0) n += (long)fmin(fmin(owed, (double)loads[b]), round(owed * tons[b] / p->owed_tons[b]));
    }
    return n;
}

/* The lot of the largest full loads to a buyer, if a truck takes more of it than of that one. */
static size_t larger_lot(const ls_haul_planner *p, const ls_split *s, size_t buyer, size_t lot) {
    size_t best = lot;
    LS_EACH_OF (const ls_split_load, l, s->loads, s->loads_n)
        if (l->buyer == buyer && full(p, l) && p->payload[l->lot] > p->payload[best] + 0.005) best = l->lot;
    return best;
}

/* A part load serves no slip. In its place a full one may go if a larger load goes elsewhere; else
 * none of its lot goes to that buyer. False: there is none. */
static bool shun_parts(const ls_haul_planner *p, const ls_split *s, bool *open, double *sure) {
    bool any = false;
    LS_EACH_OF (const ls_split_load, l, s->loads, s->loads_n) {
        if (l->from_stack || l->buyer == p->buyers || full(p, l)) continue;
        size_t larger = larger_lot(p, s, l->buyer, l->lot);
        sure[larger] = fmax(0, sure[larger] - (larger != l->lot ? p->payload[larger] : 0));
        for (size_t f = 0; f < p->fields && larger == l->lot; f++)
            if (p->buyer[f] == l->buyer) open[ls_haul_lot_field(p, l->lot, f)] = false;
        any = true;
    }
    return any;
}

static long owed_in_all(const ls_haul_planner *p) {
    long owed = 0;
    for (size_t b = 0; b < p->buyers; b++) owed += p->owed[b];
    return owed;
}

/* The sure loads that serve the most of the slips' loads: those of the most tons, or if part loads
 * are among them or a buyer lacks a load, others. */
static const ls_split *slips_served(ls_haul_planner *p) {
    ls_split_problem q = ls_haul_rest_problem(p);
    bool *open = for_slips(p, &q);
    double *sure = sure_tons(p);
    const ls_split *next = solve(p, &q, 0, sure, nothing(p), "promised loads"), *best = next;
    q.least_loads = q.most_loads;
    q.least = p->owed_tons;
    for (bool more = true; more && served_by(p, best) < owed_in_all(p);) {
        more = shun_parts(p, next, open, sure);
        q.start = NULL;
        next = solve(p, &q, 0, sure, nothing(p), "promised loads, one by one");
        best = served_by(p, next) > served_by(p, best) ? next : best;
    }
    return best;
}

/* What stays bound, as sure as it can be but for the sure loads of slips, which are served before
 * what was not firm: more of a lot than slips[lot], which grows then, or one more that is recalled,
 * are bound anew. Gives the loads of slips beside it, if they are served first. */
static ls_haul_promise bind(ls_haul_planner *p, bool first, const ls_split **start) {
    ls_haul_promise served;
    long *slips = LS_NEW(p->arena, long, p->house_lots);
    for (bool more = true; more;) {
        long *of_lot = LS_NEW(p->arena, long, p->lots);
        *start = NULL;
        served = nothing(p);
        ls_haul_bind(p, slips);
        bool owed = ls_haul_bind_owed(p);
        ls_haul_bind_firm(p);
        if (owed && first) served = promise(p, *start = slips_served(p), 0, false);
        more = false;
        for (size_t i = 0; i < p->house_lots; i++) {
            for (size_t to = 0; to <= p->buyers; to++) of_lot[i] += served.full[ls_haul_lot_to(p, i, to)];
            more = more || of_lot[i] > slips[i];
            slips[i] = of_lot[i] > slips[i] ? of_lot[i] : slips[i];
        }
        more = more || !ls_haul_bind_others(p, of_lot);
    }
    return served;
}

static void note_homeless(ls_haul_planner *p) {
    p->plan->firm_homeless = 0;
    for (size_t i = 0; i < p->e->n; i++) {
        long left = 0;
        for (size_t k = 0; k < p->kinds; k++) {
            size_t lot = ls_haul_house_lot(p, i, k);
            left += p->rest_sure[lot];
            for (size_t to = 0; to <= p->buyers; to++) left -= p->firm.full[ls_haul_lot_to(p, lot, to)];
        }
        if (left <= 0) continue;
        p->plan->firm_homeless += left;
        ls_haul_note(p, "%s: %ld load%s that %s sure to be there %s no field yet.", p->e->lots[i].name, left,
                     left == 1 ? "" : "s", left == 1 ? "is" : "are", left == 1 ? "has" : "have");
    }
}

/* ---- all stages ---- */

/* The same answer with its money as the third goal, of which nothing is proven. */
static const ls_split *in_money(const ls_haul_planner *p, const ls_split *s) {
    ls_split_problem q = ls_haul_money_problem(p);
    ls_split *copy = LS_NEW(p->arena, ls_split, 1);
    *copy = *s;
    double money = ls_haul_worth_of(&q, s);
    copy->goals[LS_GOAL_RETURN] = (ls_goal){"net return", "$", money, money, 0};
    return copy;
}

/* What is still owed is the least of its buyer. */
static ls_split_problem problem(const ls_haul_planner *p, bool slips_first) {
    ls_split_problem q = ls_haul_rest_problem(p);
    long *loads = LS_NEW(p->arena, long, p->buyers);
    double *tons = LS_NEW(p->arena, double, p->buyers);
    for (size_t b = 0; b < p->buyers; b++) {
        loads[b] = slips_first && p->owed[b] > q.least_loads[b] ? p->owed[b] : q.least_loads[b];
        tons[b] = slips_first ? fmax(p->owed_tons[b], q.least[b]) : q.least[b];
    }
    q.least_loads = loads;
    q.least = tons;
    return q;
}

/* No piles but those of an answer, and of what is kept; NULL: the firm loads make no others. */
static const double *few_piles(const ls_haul_planner *p, const ls_split_problem *q, const ls_split *firm,
                               const ls_split *answer, const ls_haul_promise *kept) {
    bool others = false;
    double *pile = LS_NEW(p->arena, double, p->lots);
    for (size_t i = 0; i < p->lots; i++) {
        size_t stack = ls_haul_lot_to(p, i, p->buyers);
        bool may = ls_haul_in_pile(p, answer, p->lot_of[i]) > 0 || kept->full[stack] > 0 || kept->part[stack] > 0;
        pile[i] = may || !(q->pile[i] > 0) ? q->pile[i] : p->stack_tons + 1;
        others = others || (pile[i] > p->stack_tons && firm->stacked[i] > 0);
    }
    return others ? pile : NULL;
}

/* Firm loads are split without what comes after them: a pile of their own would take room that the
 * likely case needs. If as many tons of theirs are placed without it, they go elsewhere. */
static bool regroup(ls_haul_planner *p, const ls_split_problem *q, const ls_split **firm_loads, const ls_split *free,
                    const ls_haul_promise *slips) {
    const ls_split *firm = *firm_loads;
    ls_split_problem less = *q;
    less.pile = few_piles(p, q, firm, free, slips);
    if (less.pile == NULL) return false;
    less.start = NULL;
    const ls_split *again = solve(p, &less, 0, sure_tons(p), *slips, "firm loads, fewer piles");
    if (again->goals[LS_GOAL_TONS].value < firm->goals[LS_GOAL_TONS].value - 0.005 ||
        again->goals[LS_GOAL_SHORT].value > firm->goals[LS_GOAL_SHORT].value + 0.005)
        return false;
    p->firm = promise(p, again, 0, false);
    *firm_loads = again;
    return true;
}

/* The low case: with the room that bound loads leave which count in it. */
static const ls_split *low_case(ls_haul_planner *p, ls_split_problem q, const char *words) {
    ls_haul_bound_room(p, 0);
    const ls_split *low = solve(p, &q, 0, p->rest[0], p->firm, words);
    ls_haul_bound_room(p, LS_STAGES - 1);
    return low;
}

/* Are all the loads that slips promise among the firm ones? */
static bool keeps_slips(const ls_haul_planner *p, const ls_split *firm) {
    long owed = owed_in_all(p);
    return owed == 0 || served_by(p, firm) == owed;
}

/* False: without serving slips first, not all of them are served. */
static bool stages(ls_haul_planner *p, bool slips_first) {
    const ls_split *start, *firm, *low, *free, *middle, *high;
    ls_haul_promise slips = bind(p, slips_first, &start);
    ls_split_problem q = problem(p, slips_first), unbound = q;
    q.start = start;
    firm = solve(p, &q, 0, sure_tons(p), slips, "firm loads");
    if (!slips_first && !keeps_slips(p, firm)) return false;
    p->firm = promise(p, firm, 0, false);
    low = low_case(p, q, "low case");
    unbound.start = low;
    free = middle = solve(p, &unbound, 1, p->rest[1], nothing(p), "likely case");
    if (!keeps(p, free)) {
        if (regroup(p, &q, &firm, free, &slips)) {
            if (!slips_first && !keeps_slips(p, firm)) return false;
            q.start = NULL;
            low = low_case(p, q, "low case, fewer piles");
        }
        /* the low case has room that bound loads of the others take */
        q.start = p->bound.n > 0 ? firm : low;
        middle = solve(p, &q, 1, p->rest[1], p->firm, "likely case, firm loads kept");
    }
    note_homeless(p);
    p->likely = promise(p, middle, 1, true);
    q.start = p->rest_middle = middle;
    p->low = ls_haul_merge(p, low, 0);
    p->free = ls_haul_merge(p, free, 1);
    ls_haul_bound_grow(p, middle, 1);
    p->middle = ls_haul_merge(p, middle, 1);
    p->free = free == middle ? p->middle : p->free;
    high = solve(p, &q, 2, p->rest[2], p->likely, "high case");
    ls_haul_bound_grow(p, high, 2);
    p->high = ls_haul_merge(p, high, 2);
    memcpy(p->aimed, p->middle->goals, sizeof p->aimed);
    if (p->aim != LS_AIM_MONEY) {
        p->free = in_money(p, p->free);
        p->middle = in_money(p, p->middle);
    }
    return true;
}

/* A plan that keeps all promises without being made for them is the one that they were made by:
 * handing out slips moves no load. */
void ls_haul_stages(ls_haul_planner *p) {
    if (!stages(p, false)) stages(p, true);
}
