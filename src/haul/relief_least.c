/* A limit as it would be, the least change of it that gives litter a home, and what is told of it.
 */
#include "relief.h"

#include <limits.h>
#include <math.h>
#include <string.h>

enum { MOST_HALVINGS = 6 };

static double largest(const double *v, size_t n) {
    double most = 0;
    for (size_t i = 0; i < n; i++) most = fmax(most, v[i]);
    return most;
}

/* ---- what there is room for ---- */

bool ls_haul_order_full(const ls_haul_reliever *s, size_t b) {
    return s->q.most_loads[b] - s->loads[b] < 1 ||
           s->q.most[b] - s->on_buyer[b] < s->q.smallest_drop;
}

double ls_haul_room_on(const ls_haul_reliever *s, const double *use, size_t f, bool anytime) {
    double most = 0;
    for (size_t i = 0; i < s->p->lots; i++) {
        size_t at = ls_haul_lot_field(s->p, i, f);
        bool may = anytime || s->q.open[at] || (s->q.later != NULL && s->q.later[at]);
        if (may && isfinite(use[at])) most = fmax(most, s->q.capacity[f] / use[at]);
    }
    return most - s->on_field[f];
}

/* ---- an order as it would be ---- */

void *ls_haul_copy(const ls_haul_reliever *s, const void *list, size_t size) {
    return memcpy(ls_arena_alloc(s->p->arena, size, 1), list, size);
}

const double *ls_haul_with_tons(const ls_haul_reliever *s, size_t buyer, double most) {
    double *copy = ls_haul_copy(s, s->q.most, s->p->buyers * sizeof *copy);
    copy[buyer] = most;
    return copy;
}

const long *ls_haul_with_loads(const ls_haul_reliever *s, size_t buyer, long most) {
    long *copy = ls_haul_copy(s, s->q.most_loads, s->p->buyers * sizeof *copy);
    copy[buyer] = most;
    return copy;
}

double ls_haul_placed_by(const ls_haul_reliever *s, const ls_split *answer) {
    return s->left - ls_haul_sum(answer->unplaced, s->p->lots);
}

/* ---- the least that does it ---- */

static double tons_of_buyer(const ls_haul_reliever *s, const ls_split *x, size_t b) {
    double tons = 0;
    for (size_t k = 0; k < x->drops_n; k++)
        tons += s->p->buyer[x->drops[k].field] == b ? x->drops[k].tons : 0;
    return tons;
}

static long loads_of_buyer(const ls_split *x, size_t b) {
    long n = 0;
    for (size_t k = 0; k < x->loads_n; k++) n += x->loads[k].buyer == b;
    return n;
}

/* Does a most of so many loads (tons) place as much? */
static bool order_does(const ls_haul_reliever *s, const ls_haul_limit *one, bool in_loads,
                       double most) {
    ls_split_problem *q = LS_NEW(s->p->arena, ls_split_problem, 1);
    *q = s->q;
    if (in_loads)
        q->most_loads = ls_haul_with_loads(s, one->buyer, (long)most);
    else
        q->most = ls_haul_with_tons(s, one->buyer, most);
    return ls_haul_placed_by(s, ls_split_solve(s->p->arena, q)) > one->placed - 0.05;
}

/* By halving what lies between the order and what the answer without it brings the buyer. */
static double least_order(const ls_haul_reliever *s, const ls_haul_limit *one, bool in_loads) {
    size_t b = one->buyer;
    double low = in_loads ? (double)s->q.most_loads[b] : s->q.most[b];
    double high = in_loads ? (double)loads_of_buyer(one->answer, b)
                           : ceil(tons_of_buyer(s, one->answer, b) - 1e-9);
    for (int k = 0; k < MOST_HALVINGS && high - low > 1; k++) {
        double middle = floor((low + high) / 2);
        if (order_does(s, one, in_loads, middle))
            high = middle;
        else
            low = middle;
    }
    return high;
}

static ls_window least_window(const ls_haul_reliever *s, const ls_haul_limit *one) {
    ls_window open = s->p->field[one->field]->allowed;
    for (size_t k = 0; k < one->answer->loads_n; k++) {
        const ls_split_load *l = &one->answer->loads[k];
        ls_haul_range days = s->p->range[l->lot];
        for (size_t d = l->first; d < l->first + l->n; d++) {
            if (l->from_stack || one->answer->drops[d].field != one->field ||
                days.from == LS_NO_DATE)
                continue;
            open.from = days.from < open.from ? days.from : open.from;
            open.to = days.to > open.to ? days.to : open.to;
        }
    }
    return open;
}

/* Acres the field's tons cover if rates may not pass a cap. */
static double covered(const ls_haul_reliever *s, const ls_haul_limit *one, double cap) {
    const double *rate = one->kind == LS_RELIEF_SEASON ? s->p->season_rate : s->p->free_rate;
    double acres = 0;
    for (size_t k = 0; k < one->answer->drops_n; k++) {
        const ls_split_drop *d = &one->answer->drops[k];
        if (d->field == one->field)
            acres += d->tons / fmin(cap, rate[ls_haul_lot_field(s->p, d->lot, d->field)]);
    }
    return acres;
}

/* The highest rate of any lot on the field as it is, ton/ac. */
static double rate_now(const ls_haul_reliever *s, size_t f) {
    double most = 0;
    for (size_t i = 0; i < s->p->lots; i++)
        most = fmax(most, s->p->rate[ls_haul_lot_field(s->p, i, f)]);
    return most;
}

/* The lowest top rate, in tenths of a ton per acre, at which the answer's tons still fit. */
static double least_cap(const ls_haul_reliever *s, const ls_haul_limit *one) {
    double ton_ac = ls_unit_of("ton/ac").factor;
    const ls_rate_range *truck = s->p->farm->trucks.at[s->p->stack_kind].rate;
    double from = one->kind == LS_RELIEF_SEASON ? fmax(0.1, rate_now(s, one->field))
                                                : s->p->field[one->field]->most.value / ton_ac;
    if (one->kind == LS_RELIEF_SEASON && truck != NULL && LS_GIVEN(truck->least))
        from = fmax(from, truck->least.value / ton_ac);
    double cap = ceil(from * 10 - 1e-9) / 10;
    while (cap < 100 && covered(s, one, cap) > s->q.capacity[one->field] + 1e-6) cap += 0.1;
    return round(cap * 10) / 10;
}

/* ---- told ---- */

static ls_line decided(const ls_haul_reliever *s, size_t number, const char *what,
                       const char *label, const char *unit, double value) {
    return ls_leaf_exact(s->p->w, ls_printf(s->p->w, "plan.relief.%zu.%s", number, what), label,
                         unit, value * ls_unit_of(unit).factor, LS_BY_SPLIT,
                         "the split of the likely case without that limit");
}

/* Loads or tons of the order that are gone, or bound. */
static double had_or_bound(const ls_haul_planner *p, size_t buyer, bool in_loads) {
    double had = p->gone == NULL ? 0
                 : in_loads      ? (double)p->gone->loads[buyer]
                                 : p->gone->tons[buyer];
    for (size_t k = 0; k < p->bound.n; k++)
        if (p->bound.at[k].why == NULL && p->bound.at[k].to == buyer)
            had += in_loads ? 1 : p->bound.at[k].tons;
    return had;
}

/* All that lies there by an answer of the rest, and its piles. */
static double in_stack(const ls_haul_reliever *s, const ls_split *answer, size_t *piles) {
    const ls_haul_planner *p = s->p;
    double tons = ls_haul_stacked_tons(p) + ls_haul_sum(answer->stacked, p->house_lots);
    for (size_t k = 0; k < p->bound.n; k++)
        tons +=
            p->bound.at[k].why == NULL && p->bound.at[k].to == p->buyers ? p->bound.at[k].tons : 0;
    for (size_t i = 0; i < p->e->n; i++)
        *piles += p->room.piled[i] > 0 || ls_haul_in_pile(p, answer, i) > 0;
    return tons;
}

static ls_line least_change(const ls_haul_reliever *s, const ls_haul_limit *one, size_t number,
                            size_t *piles) {
    const ls_order *order = s->p->farm->buyers.at[one->buyer].order;
    switch (one->kind) {
    case LS_RELIEF_ORDER: {
        bool in_loads = order != NULL && s->q.most_loads[one->buyer] != LONG_MAX;
        double had = had_or_bound(s->p, one->buyer, in_loads);
        return decided(s, number, "to", "the least order that does it", in_loads ? "load" : "ton",
                       had + least_order(s, one, in_loads));
    }
    case LS_RELIEF_CAP:
    case LS_RELIEF_SEASON:
        return decided(s, number, "to", "the least top rate that does it", "ton/ac",
                       least_cap(s, one));
    case LS_RELIEF_STACK:
        return decided(s, number, "to", "the least room in the stack that does it", "ton",
                       ceil(in_stack(s, one->answer, piles) - 1e-9));
    case LS_RELIEF_TRUCK:
        return decided(s, number, "to", "a full load of such a truck, at most", "ton",
                       largest(s->p->payload, s->p->lots) * one->factor);
    case LS_RELIEF_WINDOW: break;
    }
    return LS_NO_LINE;
}

/* The body of a truck that takes more: where it is full before the weight limit is met, more weight
 * alone helps nothing. */
static ls_line larger_body(const ls_haul_reliever *s, const ls_haul_limit *one, size_t number) {
    const ls_truck *truck = NULL; /* the largest */
    bool full = false;
    for (size_t i = 0; i < s->p->lots; i++) {
        const ls_truck *of = &s->p->farm->trucks.at[s->p->kind_of[i]];
        full = full || ls_haul_lot(s->p, i)->kinds[s->p->kind_of[i]].volume_binds;
        truck = truck == NULL || of->body.value > truck->body.value ? of : truck;
    }
    if (one->kind != LS_RELIEF_TRUCK || one->factor <= 1 || !full) return LS_NO_LINE;
    return decided(s, number, "body", "struck volume of the body of such a truck", "yd3",
                   truck->body.value / ls_unit_of("yd3").factor * one->factor);
}

/* Does the figure of the file do? Then more is placed by chance of the search alone. */
static bool as_it_is(const ls_haul_reliever *s, const ls_haul_limit *one) {
    const ls_field *f = s->p->field[one->field];
    if (one->kind == LS_RELIEF_CAP)
        return least_cap(s, one) <= f->most.value / ls_unit_of("ton/ac").factor + 1e-9;
    if (one->kind != LS_RELIEF_WINDOW) return false;
    ls_window open = least_window(s, one);
    return open.from == f->allowed.from && open.to == f->allowed.to;
}

void ls_haul_show_relief(const ls_haul_reliever *s, const ls_haul_limit *one, size_t number) {
    ls_haul_planner *p = s->p;
    bool of_buyer = one->kind <= LS_RELIEF_SEASON,
         of_field = of_buyer && one->kind != LS_RELIEF_ORDER;
    if (as_it_is(s, one)) return;
    ls_relief *r = LS_PUSH(p->arena, &p->plan->relief);
    *r = (ls_relief){.kind = one->kind,
                     .buyer = of_buyer ? &p->farm->buyers.at[one->buyer] : NULL,
                     .field = of_field ? p->field[one->field] : NULL};
    r->tons = decided(s, number, "tons", "tons that would find a field without that limit", "ton",
                      one->placed);
    r->to = least_change(s, one, number, &r->piles);
    r->now = r->piles > 0 ? ls_haul_room_of_piles(p, r->piles) : LS_NO_LINE;
    r->body = larger_body(s, one, number);
    if (one->kind == LS_RELIEF_WINDOW) r->open = least_window(s, one);
}
