/* A limit as it would be, the least change of it that gives litter a home, and what is told of it. */
#include "relief.h"

#include <limits.h>
#include <math.h>
#include <string.h>

enum { MOST_HALVINGS = 6 };

void *ls_haul_copy(const ls_haul_reliever *s, const void *list, size_t size) {
    return memcpy(ls_arena_alloc(s->p->arena, size, 1), list, size);
}

ls_split_problem ls_haul_with_order(const ls_haul_reliever *s, size_t buyer, double tons, long loads) {
    ls_split_problem q = s->q;
    double *most = ls_haul_copy(s, q.most, s->p->buyers * sizeof *most);
    long *most_loads = ls_haul_copy(s, q.most_loads, s->p->buyers * sizeof *most_loads);
    most[buyer] = tons, most_loads[buyer] = loads;
    q.most = most, q.most_loads = most_loads;
    return q;
}

void ls_haul_split_again(const ls_haul_reliever *s, ls_split_problem q, ls_haul_limit *one) {
    one->answer = ls_split_solve(s->p->arena, &q);
    one->placed = fmax(0, s->left - ls_haul_sum(one->answer->unplaced, s->p->lots));
}

/* ---- the least that does it ---- */

/* By halving what lies between the order and what the answer without it brings the buyer: does a
 * most of so many loads (tons) place as much? */
static double least_order(const ls_haul_reliever *s, const ls_haul_limit *one, bool in_loads) {
    size_t b = one->buyer;
    double *tons = LS_NEW(s->p->arena, double, s->p->buyers);
    long *loads = LS_NEW(s->p->arena, long, s->p->buyers);
    ls_haul_count(s->p, one->answer, tons, loads);
    double low = in_loads ? (double)s->q.most_loads[b] : s->q.most[b],
           high = in_loads ? (double)loads[b] : ceil(tons[b] - 1e-9);
    for (int k = 0; k < MOST_HALVINGS && high - low > 1; k++) {
        double middle = floor((low + high) / 2);
        ls_haul_limit at;
        ls_haul_split_again(
            s, ls_haul_with_order(s, b, in_loads ? s->q.most[b] : middle, in_loads ? (long)middle : s->q.most_loads[b]),
            &at);
        *(at.placed > one->placed - 0.05 ? &high : &low) = middle;
    }
    return high;
}

static ls_window least_window(const ls_haul_reliever *s, const ls_haul_limit *one) {
    ls_window open = s->p->field[one->field]->allowed;
    LS_EACH_OF (const ls_split_load, l, one->answer->loads, one->answer->loads_n)
        for (size_t d = l->first; !l->from_stack && d < l->first + l->n; d++) {
            ls_haul_range days = s->p->range[l->lot];
            if (one->answer->drops[d].field != one->field || days.from == LS_NO_DATE) continue;
            open.from = days.from < open.from ? days.from : open.from;
            open.to = days.to > open.to ? days.to : open.to;
        }
    return open;
}

/* Acres the field's tons cover if rates may not pass a cap. */
static double covered(const ls_haul_reliever *s, const ls_haul_limit *one, double cap) {
    const double *rate = one->kind == LS_RELIEF_SEASON ? s->p->season_rate : s->p->free_rate;
    double acres = 0;
    LS_EACH_OF (const ls_split_drop, d, one->answer->drops, one->answer->drops_n)
        if (d->field == one->field) acres += d->tons / fmin(cap, rate[ls_haul_lot_field(s->p, d->lot, d->field)]);
    return acres;
}

/* The lowest top rate, in tenths of a ton per acre, at which the answer's tons still fit. */
static double least_cap(const ls_haul_reliever *s, const ls_haul_limit *one) {
    double ton_ac = ls_unit_of("ton/ac").factor;
    const ls_rate_range *truck = s->p->farm->trucks.at[s->p->stack_kind].rate;
    double from = one->kind == LS_RELIEF_SEASON ? fmax(0.1, ls_haul_top_rate(s->p, one->field))
                                                : s->p->field[one->field]->most.value / ton_ac;
    if (one->kind == LS_RELIEF_SEASON && truck != NULL && LS_GIVEN(truck->least))
        from = fmax(from, truck->least.value / ton_ac);
    double cap = ceil(from * 10 - 1e-9) / 10;
    while (cap < 100 && covered(s, one, cap) > s->q.capacity[one->field] + 1e-6) cap += 0.1;
    return round(cap * 10) / 10;
}

/* ---- told ---- */

static const char by_split[] = "the split of the likely case without that limit";

/* Loads or tons of the order that are gone, or bound. */
static double had_or_bound(const ls_haul_planner *p, size_t buyer, bool in_loads) {
    double had = p->gone == NULL ? 0 : in_loads ? (double)p->gone->loads[buyer] : p->gone->tons[buyer];
    LS_EACH (const ls_haul_bound, x, p->bound)
        if (x->why == NULL && x->to == buyer) had += in_loads ? 1 : x->tons;
    return had;
}

/* All that lies there by an answer of the rest, and its piles. */
static double in_stack(const ls_haul_reliever *s, const ls_split *answer, size_t *piles) {
    const ls_haul_planner *p = s->p;
    double tons = ls_haul_stacked_tons(p) + ls_haul_sum(answer->stacked, p->house_lots);
    LS_EACH (const ls_haul_bound, b, p->bound) tons += b->why == NULL && b->to == p->buyers ? b->tons : 0;
    for (size_t i = 0; i < p->e->n; i++) *piles += p->room.piled[i] > 0 || ls_haul_in_pile(p, answer, i) > 0;
    return tons;
}

/* In a part of the worksheet, of the relief. */
static ls_line least_change(const ls_haul_reliever *s, const ls_haul_limit *one, ls_worksheet *w, size_t *piles) {
    const ls_order *order = s->p->farm->buyers.at[one->buyer].order;
    bool in_loads = order != NULL && s->q.most_loads[one->buyer] != LONG_MAX;
    switch (one->kind) {
    case LS_RELIEF_ORDER:
        return ls_haul_decided(w, "to", "the least order that does it", in_loads ? "load" : "ton",
                               had_or_bound(s->p, one->buyer, in_loads) + least_order(s, one, in_loads), by_split);
    case LS_RELIEF_CAP:
    case LS_RELIEF_SEASON:
        return ls_haul_decided(w, "to", "the least top rate that does it", "ton/ac", least_cap(s, one), by_split);
    case LS_RELIEF_STACK:
        return ls_haul_decided(w, "to", "the least room in the stack that does it", "ton",
                               ceil(in_stack(s, one->answer, piles) - 1e-9), by_split);
    case LS_RELIEF_TRUCK:
        return ls_haul_decided(w, "to", "a full load of such a truck, at most", "ton",
                               ls_haul_largest(s->p) * one->factor, by_split);
    case LS_RELIEF_WINDOW: break;
    }
    return LS_NO_LINE;
}

/* The body of a truck that takes more: where it is full before the weight limit is met, more weight
 * alone helps nothing. */
static ls_line larger_body(const ls_haul_reliever *s, const ls_haul_limit *one, ls_worksheet *w) {
    const ls_truck *truck = NULL; /* the largest */
    bool full = false;
    for (size_t i = 0; i < s->p->lots; i++) {
        const ls_truck *of = &s->p->farm->trucks.at[s->p->kind_of[i]];
        full = full || ls_haul_lot(s->p, i)->kinds[s->p->kind_of[i]].volume_binds;
        truck = truck == NULL || of->body.value > truck->body.value ? of : truck;
    }
    if (one->kind != LS_RELIEF_TRUCK || one->factor <= 1 || !full) return LS_NO_LINE;
    return ls_haul_decided(w, "body", "struck volume of the body of such a truck", "yd3",
                           truck->body.value / ls_unit_of("yd3").factor * one->factor, by_split);
}

void ls_haul_show_relief(const ls_haul_reliever *s, const ls_haul_limit *one, size_t number) {
    ls_haul_planner *p = s->p;
    const ls_field *f = p->field[one->field];
    bool of_buyer = one->kind <= LS_RELIEF_SEASON, window = one->kind == LS_RELIEF_WINDOW;
    ls_window open = window ? least_window(s, one) : (ls_window){0};
    /* Does the figure of the file do? Then more is placed by chance of the search alone. */
    if (one->kind == LS_RELIEF_CAP && least_cap(s, one) <= f->most.value / ls_unit_of("ton/ac").factor + 1e-9) return;
    if (window && open.from == f->allowed.from && open.to == f->allowed.to) return;
    ls_worksheet *w = ls_part(p->w, NULL, "plan.relief.%zu", number);
    ls_relief *r = LS_PUSH(p->arena, &p->plan->relief);
    *r = (ls_relief){.kind = one->kind,
                     .buyer = of_buyer ? &p->farm->buyers.at[one->buyer] : NULL,
                     .field = of_buyer && one->kind != LS_RELIEF_ORDER ? f : NULL,
                     .open = open};
    r->tons =
        ls_haul_decided(w, "tons", "tons that would find a field without that limit", "ton", one->placed, by_split);
    r->to = least_change(s, one, w, &r->piles);
    r->now = r->piles > 0 ? ls_haul_room_of_piles(p, r->piles) : LS_NO_LINE;
    r->body = larger_body(s, one, w);
}

/* ---- limits of the program's own ---- */

static const char *words(const ls_haul_planner *p, const ls_haul_limit *one) {
    double rate = ls_haul_top_rate(p, one->field); /* the same for all litter; others are not */
    for (size_t i = 0; one->held != LS_DEFAULT_RATE && i < p->lots; i++)
        rate = fmin(rate, p->rate[ls_haul_lot_field(p, i, one->field)]);
    const char *number = ls_number_text(p->arena, rate, 3);
    static const char *const leads[] = {"no phosphorus rating: held to", "no limit in the file: held to",
                                        "no lab report, so set for rich litter:"};
    return ls_arena_printf(p->arena, "%s %s ton%s/ac", leads[one->held], number, strcmp(number, "1") == 0 ? "" : "s");
}

void ls_haul_show_default(const ls_haul_reliever *s, const ls_haul_limit *one, size_t number) {
    ls_haul_planner *p = s->p;
    ls_default_limit *d = LS_PUSH(p->arena, &p->plan->defaults);
    *d = (ls_default_limit){one->held, &p->farm->buyers.at[p->buyer[one->field]], p->field[one->field], words(p, one),
                            LS_NO_LINE};
    if (one->placed >= 0)
        d->tons =
            ls_haul_decided(p->w, ls_printf(p->w, "plan.default.%zu.tons", number),
                            ls_printf(p->w, "tons that would find a field: %s", d->what), "ton", one->placed, by_split);
}
