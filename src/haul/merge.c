/* Bound loads beside what the rest was split into: one answer for whoever reads it. */
#include "plan.h"

#include <string.h>

typedef struct {
    ls_haul_planner *p;
    ls_split *out;
} merger;

static void add_load(merger *m, ls_split_load load, const ls_split_drop *drops) {
    load.first = m->out->drops_n;
    LS_EACH_OF (const ls_split_drop, d, drops, load.n) {
        m->out->drops[m->out->drops_n] = *d;
        m->out->drops[m->out->drops_n++].lot = load.lot;
    }
    m->out->loads[m->out->loads_n++] = load;
}

/* What bound loads took into the stack comes out of it as litter of its house. */
static void add_rest(merger *m, const ls_split *rest) {
    const ls_haul_planner *p = m->p;
    LS_EACH_OF (const ls_split_load, l, rest->loads, rest->loads_n) {
        ls_split_load load = *l;
        bool bound_lot = load.lot >= p->stacked_lots;
        if (bound_lot && !load.from_stack) continue;
        load.lot = bound_lot ? ls_haul_home(p, load.lot) : load.lot;
        add_load(m, load, &rest->drops[load.first]);
    }
    memcpy(m->out->straight, rest->straight, p->stacked_lots * sizeof *rest->straight);
    memcpy(m->out->stacked, rest->stacked, p->stacked_lots * sizeof *rest->stacked);
}

static bool is_in(const ls_haul_bound *b, int stage) { return b->why == NULL && (int)b->certainty <= stage; }

static void lies(merger *m, size_t lot, double tons) {
    add_load(m, (ls_split_load){.lot = lot, .buyer = m->p->buyers, .tons = tons}, NULL);
    m->out->stacked[lot] += tons;
}

/* Litter that lay in the stack and that bound loads take out: it lies there all the same. */
static void add_stacked(merger *m, int stage) {
    const ls_haul_planner *p = m->p;
    for (size_t i = p->house_lots; i < p->stacked_lots; i++)
        if (p->joined[p->lot_of[i]] > 0) lies(m, i, p->joined[p->lot_of[i]]);
    LS_EACH (const ls_haul_bound, b, p->bound)
        if (is_in(b, stage) && b->from_stack && b->lot < p->stacked_lots) lies(m, b->lot, b->tons);
}

static void add_bound(merger *m, int stage, double *placed) {
    const ls_haul_planner *p = m->p;
    LS_EACH (const ls_haul_bound, b, p->bound) {
        if (!is_in(b, stage)) continue;
        size_t lot = b->lot < p->stacked_lots ? b->lot : ls_haul_home(p, b->lot);
        ls_split_load load = {lot, b->to, b->from_stack, b->tons, 0, b->n};
        add_load(m, load, b->drops);
        *placed += b->to == p->buyers ? 0 : b->tons;
        if (!b->from_stack) *(b->to == p->buyers ? &m->out->stacked[lot] : &m->out->straight[lot]) += b->tons;
    }
}

static void raise(ls_goal *g, double by) {
    g->value += by;
    g->bound += by;
}

const ls_split *ls_haul_merge(ls_haul_planner *p, const ls_split *rest, int stage) {
    size_t drops = rest->drops_n, loads = rest->loads_n + 2 * p->bound.n + p->lots;
    if (p->bound.n == 0) return rest;
    LS_EACH (const ls_haul_bound, b, p->bound) drops += b->n;
    ls_split *out = LS_NEW(p->arena, ls_split, 1);
    *out = (ls_split){.loads = LS_NEW(p->arena, ls_split_load, loads),
                      .drops = LS_NEW(p->arena, ls_split_drop, drops),
                      .straight = LS_NEW(p->arena, double, p->lots),
                      .stacked = LS_NEW(p->arena, double, p->lots),
                      .unplaced = LS_NEW(p->arena, double, p->lots)};
    memcpy(out->goals, rest->goals, sizeof out->goals);
    merger m = {p, out};
    double placed = 0;
    add_rest(&m, rest);
    add_stacked(&m, stage);
    p->bound_from = out->loads_n;
    add_bound(&m, stage, &placed);
    for (size_t i = 0; i < p->stacked_lots; i++)
        out->unplaced[i] = fmax(0, ls_haul_hundredths(p->tons[stage][i]) - out->straight[i] - out->stacked[i]);
    ls_split_problem q = ls_haul_problem(p);
    raise(&out->goals[LS_GOAL_TONS], placed);
    raise(&out->goals[LS_GOAL_DROPS], (double)(out->drops_n - rest->drops_n));
    raise(&out->goals[LS_GOAL_RETURN], ls_haul_worth_of(&q, out) - out->goals[LS_GOAL_RETURN].value);
    return out;
}
