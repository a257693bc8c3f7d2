/* Loads with their certainty: bound ones and, of the rest, firm ones first in every lot, then likely, then possible. */
#include "plan.h"

#include <math.h>
#include <string.h>

typedef struct {
    ls_haul_planner *p;
    ls_split *high; /* the answer, with room for trips to be cut */
    ls_load *loads; /* as they come */
    size_t *of, n;
    bool *taken; /* [load of the high stage] it has its ticket */
} lister;

/* Their lines are made by lines.c. */
static void drops(lister *s, ls_load *load, const ls_split_load *from) {
    ls_haul_planner *p = s->p;
    ls_drop *list = LS_NEW(p->arena, ls_drop, from->n);
    for (size_t k = 0; k < from->n; k++) {
        const ls_split_drop *d = &p->high->drops[from->first + k];
        list[k] = (ls_drop){.buyer = &p->farm->buyers.at[p->buyer[d->field]],
                            .field = p->field[d->field],
                            .analysis = ls_haul_lot(p, d->lot)->analysis};
    }
    load->drops = list;
    load->n = from->n;
}

static ls_load *add(lister *s, size_t k, ls_certainty certainty) {
    ls_haul_planner *p = s->p;
    const ls_split_load *from = &p->high->loads[k];
    ls_load *load = &s->loads[s->n];
    *load = (ls_load){.lot = ls_haul_lot(p, from->lot),
                      .kind = from->from_stack ? ls_haul_kind_for(p, from->lot, p->high->drops[from->first].field)
                                               : p->kind_of[from->lot],
                      .certainty = certainty,
                      .buyer = from->buyer == p->buyers ? NULL : &p->farm->buyers.at[from->buyer],
                      .from_stack = from->from_stack,
                      .day = LS_NO_DATE,
                      .from = LS_NO_DATE};
    drops(s, load, from);
    s->taken[k] = true;
    s->of[s->n++] = k;
    return load;
}

static bool is_left(const lister *s, size_t k, size_t lot, bool from_stack) {
    const ls_split_load *l = &s->p->high->loads[k];
    return !s->taken[k] && l->lot == lot && l->from_stack == from_stack;
}

/* The next count loads of a lot for an end that have no ticket yet: full ones, or of those tons. */
static void take(lister *s, size_t lot, size_t to, long count, double tons, ls_certainty certainty) {
    for (size_t k = 0; k < s->p->high->loads_n && count > 0; k++) {
        const ls_split_load *l = &s->p->high->loads[k];
        bool meant = tons > 0 ? fabs(l->tons - tons) <= 0.001 : l->tons > s->p->payload[lot] - 0.005;
        if (!is_left(s, k, lot, false) || l->buyer != to || !meant) continue;
        add(s, k, certainty);
        count--;
    }
}

static void take_rest(lister *s, size_t lot, bool from_stack) {
    for (size_t k = 0; k < s->p->high->loads_n; k++)
        if (is_left(s, k, lot, from_stack)) add(s, k, LS_POSSIBLE);
}

/* The ends of a lot in the order in which the answer names them. */
static size_t ends_of(const ls_haul_planner *p, size_t lot, size_t *ends) {
    size_t n = 0;
    for (size_t k = 0; k < p->high->loads_n; k++) {
        const ls_split_load *l = &p->high->loads[k];
        size_t i = 0;
        while (i < n && ends[i] != l->buyer) i++;
        if (l->lot == lot && !l->from_stack && i == n) ends[n++] = l->buyer;
    }
    return n;
}

static void list_lot(lister *s, size_t lot) {
    ls_haul_planner *p = s->p;
    size_t *ends = LS_NEW(p->arena, size_t, p->buyers + 1), n = ends_of(p, lot, ends);
    const long *firm = &p->firm.full[ls_haul_lot_to(p, lot, 0)], *likely = &p->likely.full[ls_haul_lot_to(p, lot, 0)];
    const double *part = &p->likely.part[ls_haul_lot_to(p, lot, 0)];
    for (size_t i = 0; i < n; i++) take(s, lot, ends[i], firm[ends[i]], 0, LS_FIRM);
    for (size_t i = 0; i < n; i++) take(s, lot, ends[i], likely[ends[i]] - firm[ends[i]], 0, LS_LIKELY);
    for (size_t i = 0; i < n; i++) take(s, lot, ends[i], part[ends[i]] > 0, part[ends[i]], LS_LIKELY);
    take_rest(s, lot, false);
}

/* ---- out of the stack ---- */

/* The largest trip without a ticket that brings a lot's litter to a buyer and is no more than tons;
 * or the smallest of all. The number of loads if there is none. */
static size_t trip_of(const lister *s, size_t lot, size_t buyer, bool smallest, double tons) {
    const ls_split *high = s->p->high;
    size_t best = high->loads_n;
    for (size_t k = 0; k < high->loads_n; k++) {
        double own = high->loads[k].tons;
        if (is_left(s, k, lot, true) && high->loads[k].buyer == buyer && (smallest || own < tons + 1e-6) &&
            (best == high->loads_n || (smallest ? own < high->loads[best].tons : own > high->loads[best].tons)))
            best = k;
    }
    return best;
}

/* A buyer who takes so many loads and no more gets no trip in two. */
static bool counts_loads(const lister *s, size_t buyer) {
    const ls_order *order = s->p->farm->buyers.at[buyer].order;
    return order != NULL && order->most.form != 0 && order->most.unit.dimension.power[LS_LOAD] == 1;
}

/* The smallest trip of that kind that brings more than tons, cut so that a first part brings just
 * them: as a part load of the house is kept apart from what is only possible. Nothing is cut off,
 * or taken, that no truck would drive with. */
static size_t cut(const lister *s, size_t lot, size_t buyer, double tons) {
    ls_split *high = s->high;
    double least = ls_haul_smallest_drop(s->p);
    size_t best = trip_of(s, lot, buyer, true, 0);
    if (best == high->loads_n || tons < least || counts_loads(s, buyer)) return high->loads_n;
    ls_split_load *whole = &high->loads[best];
    double rest = whole->tons - tons;
    if (rest < least) return best;
    ls_split_load *other = &high->loads[high->loads_n++];
    *other = *whole;
    other->first = high->drops_n++;
    high->drops[other->first] = high->drops[whole->first];
    high->drops[other->first].tons = other->tons = rest;
    high->drops[whole->first].tons = whole->tons = tons;
    return best;
}

/* Tons of a lot for a buyer, of what bound loads take into the stack too. */
static double promised_out(const ls_haul_planner *p, const double *promised, size_t lot, size_t buyer) {
    double tons = promised[ls_haul_lot_buyer(p, lot, buyer)];
    for (size_t i = p->stacked_lots; i < p->lots; i++)
        if (ls_haul_home(p, i) == lot) tons += promised[ls_haul_lot_buyer(p, i, buyer)];
    return tons;
}

/* The next trip to a buyer as far as the tons promised to it go, a firm one if it is a load. */
static size_t next_out(const lister *s, size_t lot, size_t buyer, double tons, ls_certainty c) {
    size_t trip = trip_of(s, lot, buyer, false, tons);
    double most = trip < s->p->high->loads_n ? s->p->high->loads[trip].tons : tons;
    if (c == LS_FIRM && !ls_haul_is_load(s->p, lot, most)) return s->p->high->loads_n;
    return trip < s->p->high->loads_n ? trip : cut(s, lot, buyer, tons);
}

static void take_out(lister *s, size_t lot, const double *promised, ls_certainty certainty, double *had) {
    const ls_haul_planner *p = s->p;
    for (size_t k = 0; k < p->high->loads_n; k++) { /* buyers in the order of the answer */
        size_t to = p->high->loads[k].buyer, trip;
        if (!p->high->loads[k].from_stack || p->high->loads[k].lot != lot) continue;
        double most = promised_out(p, promised, lot, to);
        while ((trip = next_out(s, lot, to, most - had[to], certainty)) < p->high->loads_n) {
            add(s, trip, certainty);
            had[to] += p->high->loads[trip].tons;
        }
    }
}

/* Out of the stack: what was hauled into it before comes first. */
static void list_out(lister *s, size_t lot) {
    const ls_haul_planner *p = s->p;
    double *had = LS_NEW(p->arena, double, p->buyers);
    take_out(s, lot, p->firm.out, LS_FIRM, had);
    take_out(s, lot, p->likely.out, LS_LIKELY, had);
    take_rest(s, lot, true);
}

/* Of each lot and buyer a firm and a likely trip may be cut. */
static ls_split *with_room(const ls_haul_planner *p) {
    size_t more = 2 * p->lots * p->buyers;
    ls_split *copy = LS_NEW(p->arena, ls_split, 1);
    *copy = *p->high;
    copy->loads = LS_NEW(p->arena, ls_split_load, copy->loads_n + more);
    copy->drops = LS_NEW(p->arena, ls_split_drop, copy->drops_n + more);
    memcpy(copy->loads, p->high->loads, copy->loads_n * sizeof *copy->loads);
    memcpy(copy->drops, p->high->drops, copy->drops_n * sizeof *copy->drops);
    return copy;
}

static void list_bound(lister *s) {
    size_t k = s->p->bound_from;
    LS_EACH (const ls_haul_bound, b, s->p->bound) {
        if (b->why != NULL) continue;
        ls_load *load = add(s, k++, b->certainty);
        load->issued = b->issued;
        load->kind = b->kind;
    }
}

void ls_haul_list(ls_haul_planner *p) {
    size_t n = p->high->loads_n + 2 * p->lots * p->buyers;
    lister s = {.p = p,
                .high = with_room(p),
                .loads = LS_NEW(p->arena, ls_load, n),
                .of = LS_NEW(p->arena, size_t, n),
                .taken = LS_NEW(p->arena, bool, n)};
    p->high = s.high;
    list_bound(&s);
    for (size_t i = p->house_lots; i < p->stacked_lots; i++) list_out(&s, i);
    for (size_t i = 0; i < p->house_lots; i++) {
        list_lot(&s, i);
        list_out(&s, i);
    }
    p->loads = LS_NEW(p->arena, ls_load, s.n);
    p->load_of = LS_NEW(p->arena, size_t, s.n);
    p->loads_n = 0;
    for (int out = 0; out < 2; out++) {
        for (size_t k = 0; k < s.n; k++)
            if (s.loads[k].from_stack == (out == 1))
                p->loads[p->loads_n] = s.loads[k], p->load_of[p->loads_n++] = s.of[k];
        if (out == 0) p->plan->loads_n = p->loads_n;
    }
    p->plan->out_n = s.n - p->plan->loads_n;
    p->plan->loads = p->loads, p->plan->out = p->loads + p->plan->loads_n;
}
