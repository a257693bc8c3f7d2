#include "split_world.h"

#include <limits.h>
#include <math.h>

split_world *split_world_new(ls_arena *a, size_t lots, size_t fields, size_t buyers) {
    split_world *w = LS_NEW(a, split_world, 1);
    size_t pairs = lots * fields;
    w->tons = LS_NEW(a, double, lots);
    w->payload = LS_NEW(a, double, lots);
    w->use = LS_NEW(a, double, pairs);
    w->value = LS_NEW(a, double, pairs);
    w->later_value = LS_NEW(a, double, pairs);
    w->open = LS_NEW(a, bool, pairs);
    w->later = LS_NEW(a, bool, pairs);
    w->capacity = LS_NEW(a, double, fields);
    w->buyer = LS_NEW(a, size_t, fields);
    w->names = LS_NEW(a, const char *, fields);
    w->trip_cost = LS_NEW(a, double, buyers);
    w->least = LS_NEW(a, double, buyers);
    w->pile = LS_NEW(a, double, lots);
    w->most = LS_NEW(a, double, buyers);
    w->least_loads = LS_NEW(a, long, buyers);
    w->most_loads = LS_NEW(a, long, buyers);
    for (size_t k = 0; k < pairs; k++) {
        w->use[k] = 1;
        w->open[k] = true;
    }
    for (size_t f = 0; f < fields; f++) {
        w->buyer[f] = f * buyers / fields;
        w->names[f] = ls_arena_printf(a, "buyer %zu/field %02zu", w->buyer[f], f);
    }
    for (size_t b = 0; b < buyers; b++) {
        w->most[b] = INFINITY;
        w->most_loads[b] = LONG_MAX;
    }
    w->p = (ls_split_problem){.lots = lots,
                              .fields = fields,
                              .buyers = buyers,
                              .tons = w->tons,
                              .payload = w->payload,
                              .buyer = w->buyer,
                              .use = w->use,
                              .value = w->value,
                              .capacity = w->capacity,
                              .open = w->open,
                              .later_value = w->later_value,
                              .trip_cost = w->trip_cost,
                              .pile = w->pile,
                              .least = w->least,
                              .most = w->most,
                              .least_loads = w->least_loads,
                              .most_loads = w->most_loads,
                              .smallest_drop = 1,
                              .names = w->names};
    return w;
}

/* Marsaglia's xorshift with the shifts 13, 7, 17. */
size_t throw_dice(dice *d, size_t below) {
    d->state ^= d->state << 13;
    d->state ^= d->state >> 7;
    d->state ^= d->state << 17;
    return (size_t)((d->state >> 20) % below);
}

static void random_orders(split_world *w, dice *d) {
    for (size_t b = 0; b < w->p.buyers; b++) {
        w->trip_cost[b] = (double)throw_dice(d, 6000) / 100;
        size_t kind = throw_dice(d, 6);
        if (kind == 0) w->least_loads[b] = 1 + (long)throw_dice(d, 5);
        if (kind <= 1) w->most_loads[b] = 5 + (long)throw_dice(d, 10);
        if (kind == 2) {
            w->least[b] = (double)throw_dice(d, 40);
            w->most[b] = 40 + (double)throw_dice(d, 60);
        }
    }
}

split_world *split_world_random(ls_arena *a, dice *d) {
    size_t lots = 1 + throw_dice(d, 4), fields = 1 + throw_dice(d, 12);
    size_t most = fields < 4 ? fields : 4, buyers = 1 + throw_dice(d, most);
    split_world *w = split_world_new(a, lots, fields, buyers);
    bool alike = throw_dice(d, 2) == 0, stack = throw_dice(d, 2) == 0;
    for (size_t i = 0; i < lots; i++) {
        w->tons[i] = 10 + (double)throw_dice(d, 8000) / 100;
        w->payload[i] = alike ? 11 : 9 + (double)throw_dice(d, 300) / 100;
    }
    for (size_t f = 0; f < fields; f++) {
        w->capacity[f] = 1 + (double)throw_dice(d, 3000) / 100;
        size_t window = throw_dice(d, 4);
        double rate = 1 + 0.25 * (double)throw_dice(d, 8);
        double price = (double)throw_dice(d, 20);
        for (size_t i = 0; i < lots; i++) {
            size_t k = i * fields + f;
            w->use[k] = 1 / (rate + (alike ? 0 : 0.25 * (double)throw_dice(d, 3)));
            w->open[k] = window != 0;
            w->later[k] = window <= 1;
            w->value[k] = price;
            w->later_value[k] = price - 4;
        }
    }
    random_orders(w, d);
    w->p.later = stack ? w->later : NULL;
    w->p.stack_room = stack ? 20 + (double)throw_dice(d, 100) : 0;
    double slopes = throw_dice(d, 2) == 0 ? 0 : (double)throw_dice(d, 2500) / 100;
    for (size_t i = 0; i < lots; i++) /* some stand already */
        w->pile[i] = throw_dice(d, 4) == 0 ? 0 : slopes;
    return w;
}

/* ---- what has to hold ---- */

static bool close(double a, double b) { return fabs(a - b) < 1e-7; }

static const char *wrong_load(const ls_split_problem *p, const ls_split *s, const ls_split_load *l) {
    if (l->tons <= 0 || l->tons > p->payload[l->lot] + 1e-7) return "a load beyond the payload";
    double sum = 0;
    for (size_t k = 0; k < l->n; k++) {
        const ls_split_drop *d = &s->drops[l->first + k];
        size_t at = d->lot * p->fields + d->field;
        if (d->lot != l->lot || p->buyer[d->field] != l->buyer) return "a load shared between buyers or lots";
        if (l->from_stack ? p->later == NULL || !p->later[at] : !p->open[at]) return "a closed field";
        if (isinf(p->use[at])) return "a field this lot may not go to";
        if (d->tons < p->smallest_drop - 1e-7) return "a drop below the smallest";
        sum += d->tons;
    }
    if (l->from_stack && l->n != 1) return "a trip out of the stack to more than one field";
    bool to_stack = l->buyer == p->buyers;
    if (to_stack ? l->n != 0 || l->from_stack : !close(sum, l->tons)) return "drops that are not the load";
    return NULL;
}

static const char *wrong_lot(const ls_split_problem *p, const ls_split *s, size_t lot) {
    double straight = 0, in = 0, out = 0;
    int parts = 0;
    for (size_t k = 0; k < s->loads_n; k++) {
        const ls_split_load *l = &s->loads[k];
        if (l->lot != lot) continue;
        if (!l->from_stack) parts += l->tons < p->payload[lot] - 1e-7;
        *(l->from_stack ? &out : l->buyer == p->buyers ? &in : &straight) += l->tons;
    }
    if (!close(straight, s->straight[lot]) || !close(in, s->stacked[lot])) return "loads that are not the lot's tons";
    if (parts > 1) return "two part loads of a lot";
    if (out > in + 1e-7) return "more out of the stack than in";
    if (in - out > p->payload[lot] - 0.001) return "a load in the stack for no field";
    double sum = straight + in + s->unplaced[lot];
    if (s->unplaced[lot] < 0 || sum > p->tons[lot] + 1e-7 || sum < p->tons[lot] - 0.0101)
        return "tons that do not add up";
    return NULL;
}

static const char *wrong_field(const ls_split_problem *p, const ls_split *s, size_t field) {
    double covered = 0;
    for (size_t k = 0; k < s->drops_n; k++)
        if (s->drops[k].field == field) covered += s->drops[k].tons * p->use[s->drops[k].lot * p->fields + field];
    return covered > p->capacity[field] + 1e-6 ? "acres covered twice" : NULL;
}

static const char *wrong_buyer(const ls_split_problem *p, const ls_split *s, size_t buyer) {
    double tons = 0;
    long loads = 0;
    for (size_t k = 0; k < s->loads_n; k++)
        if (s->loads[k].buyer == buyer) {
            tons += s->loads[k].tons;
            loads++;
        }
    return tons > p->most[buyer] + 1e-7 || loads > p->most_loads[buyer] ? "more than ordered" : NULL;
}

/* The goals' values, worked out again from loads and drops. */
static const char *wrong_goals(const ls_split_problem *p, const ls_split *s) {
    double placed = 0, money = 0, stacked = 0;
    for (size_t k = 0; k < s->loads_n; k++) {
        const ls_split_load *l = &s->loads[k];
        if (l->buyer == p->buyers) {
            stacked += l->tons;
            continue;
        }
        money -= p->trip_cost[l->buyer];
        for (size_t j = 0; j < l->n; j++) {
            const ls_split_drop *d = &s->drops[l->first + j];
            placed += d->tons;
            money += d->tons * (l->from_stack ? p->later_value : p->value)[d->lot * p->fields + d->field];
        }
    }
    money += stacked * p->stack_value;
    if (!close(placed, s->goals[LS_GOAL_TONS].value) || fabs(money - s->goals[LS_GOAL_RETURN].value) > 1e-5)
        return "goals that are not the answer's";
    if ((size_t)s->goals[LS_GOAL_DROPS].value != s->drops_n) return "drops miscounted";
    for (int g = 0; g < LS_GOALS; g++)
        if (!(s->goals[g].gap >= 0) || !close(fabs(s->goals[g].bound - s->goals[g].value), s->goals[g].gap))
            return "a gap that is not the distance of bound and value";
    for (size_t i = 0; i < p->lots; i++) stacked += p->pile != NULL && s->stacked[i] > 0 ? p->pile[i] : 0;
    return stacked > p->stack_room + 1e-7 ? "more in the stack than it has room for" : NULL;
}

const char *split_world_wrong(const ls_split_problem *p, const ls_split *s) {
    const char *wrong = wrong_goals(p, s);
    for (size_t k = 0; k < s->loads_n && wrong == NULL; k++) wrong = wrong_load(p, s, &s->loads[k]);
    for (size_t i = 0; i < p->lots && wrong == NULL; i++) wrong = wrong_lot(p, s, i);
    for (size_t f = 0; f < p->fields && wrong == NULL; f++) wrong = wrong_field(p, s, f);
    for (size_t b = 0; b < p->buyers && wrong == NULL; b++) wrong = wrong_buyer(p, s, b);
    return wrong;
}
