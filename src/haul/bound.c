/* Tickets that were handed out: which of them stay. Each in its turn is taken out of what its lot,
 * its fields, its buyer's order and the stack have left; one that no longer fits is recalled. */
#include "plan.h"

#include <limits.h>
#include <string.h>

/* ---- what is left ---- */

typedef struct {
    ls_haul_planner *p;
    double *middle; /* [lot of the estimate] tons left of the middle case */
    double *own;    /* [lot of the estimate] tons it has at the high stage if none is held */
    double *cap;    /* [lot of the estimate] tons it has there at the very best */
    double extra;   /* tons that all lots together have at the high stage beyond the middle one */
    bool shared;    /* beyond its own tons a lot takes of what all lots together have */
    bool *closed;   /* [lot of the estimate] a ticket of it waits for that */
    double *in_new; /* [lot of the estimate] tons that bound loads take into the stack, less those
                       that bound loads take out */
    double *in_log; /* [lot] tons that lie there by the log, less those */
} walk;

static size_t lot_of_log(const ls_haul_planner *p, size_t lot) {
    size_t i = p->house_lots;
    while (i < p->stacked_lots && p->lot_of[i] != lot)
        i++;
    return i;
}

static void room_of(ls_haul_planner *p) {
    ls_split_problem q = ls_haul_problem(p);
    ls_haul_room *r = &p->room;
    memcpy(r->acres, p->acres, p->fields * sizeof *r->acres);
    memcpy(r->least, q.least, p->buyers * sizeof *r->least);
    memcpy(r->most, q.most, p->buyers * sizeof *r->most);
    memcpy(r->least_loads, q.least_loads, p->buyers * sizeof *r->least_loads);
    memcpy(r->most_loads, q.most_loads, p->buyers * sizeof *r->most_loads);
    r->stack = fmax(0, p->stack_tons - ls_haul_lies_there(p));
    for (size_t i = 0; i < p->stacked_lots; i++)
        r->piled[p->lot_of[i]] = ls_haul_is_stacked(p, i);
}

static walk start(ls_haul_planner *p) {
    walk s = {.p = p};
    size_t n = p->e->n;
    double ton = ls_unit_of("ton").factor;
    s.own = LS_NEW(p->arena, double, n);
    s.cap = LS_NEW(p->arena, double, n);
    s.closed = LS_NEW(p->arena, bool, n);
    s.middle = LS_NEW(p->arena, double, n);
    s.in_new = LS_NEW(p->arena, double, n);
    s.in_log = LS_NEW(p->arena, double, p->lots + 1);
    memset(p->held, 0, p->house_lots * sizeof *p->held);
    memset(p->joined, 0, n * sizeof *p->joined);
    ls_haul_litter(p);
    for (size_t i = 0; i < n; i++) {
        s.own[i] = p->in_lot[LS_STAGES - 1][i];
        s.cap[i] = fmax(p->e->lots[i].tons.high / ton, s.own[i]);
        s.middle[i] = p->in_lot[1][i];
        s.extra += s.own[i] - s.middle[i];
    }
    for (size_t i = p->house_lots; i < p->stacked_lots; i++)
        s.in_log[i] = ls_haul_hundredths(p->tons[0][i]);
    room_of(p);
    return s;
}

/* Tons a lot of the estimate still has at the high stage for a bound load. */
static double litter_left(const walk *s, size_t lot) {
    const ls_haul_planner *p = s->p;
    double held = ls_haul_held(p, lot);
    double at_hand = fmax(p->in_lot[1][lot], held) + fmax(0, s->extra);
    return ls_haul_hundredths((s->shared ? fmin(s->cap[lot], at_hand) : s->own[lot]) - held);
}

static void take_litter(walk *s, size_t lot, double tons) {
    const ls_haul_planner *p = s->p;
    double middle = p->in_lot[1][p->lot_of[lot]], held = ls_haul_held(p, p->lot_of[lot]);
    s->extra -= fmax(middle, held + tons) - fmax(middle, held);
    p->held[lot] += tons;
}

/* ---- does it fit? ---- */

static const char *number(const ls_haul_planner *p, double v) {
    return ls_number_text(p->arena, v, 3);
}

/* The rate of the ticket against what its truck may spread now; NULL: it may stay. */
static const char *over_rate(ls_haul_planner *p, const ls_haul_bound *b, const ls_split_drop *d) {
    const char *name = p->field[d->field]->name.text;
    size_t lot = ls_haul_house_lot(p, p->lot_of[d->lot], b->kind);
    double top = p->top_rate[ls_haul_lot_field(p, lot, d->field)];
    const ls_rate_range *truck = p->farm->trucks.at[b->kind].rate;
    if (!ls_haul_spreads_on(p, b->kind, d->field))
        return ls_arena_printf(p->arena, "%s spreads no more on %s",
                               p->farm->trucks.at[b->kind].name.text, name);
    double least = truck != NULL && LS_GIVEN(truck->least)
                       ? truck->least.value / ls_unit_of("ton/ac").factor
                       : 0;
    if (!(top > 0)) {
        const char *why = ls_haul_no_rate(p, d->field);
        return ls_arena_printf(p->arena, "no litter may go on %s now%s%s", name,
                               why == NULL ? "" : ": ", why == NULL ? "" : why);
    }
    if (p->field[d->field]->yard)
        return NULL;
    if (d->rate > top * (1 + 1e-4))
        return ls_arena_printf(p->arena, "%s tons/ac is the limit on %s now, the ticket says %s",
                               number(p, top), name, number(p, d->rate));
    if (d->rate < least * (1 - 1e-4))
        return ls_arena_printf(p->arena,
                               "the truck spreads no less than %s tons/ac now, the "
                               "ticket says %s",
                               number(p, least), number(p, d->rate));
    return NULL;
}

static bool is_past(const ls_haul_planner *p, const ls_haul_bound *b, const ls_field *f) {
    ls_date first = b->from_stack ? ls_haul_first_day(p) : ls_haul_empty(p, b->lot);
    return ls_haul_has_window(f) && f->allowed.to < first;
}

/* What the slopes take if no litter of the lot is in the stack yet. */
static double new_pile(const ls_haul_planner *p, size_t lot) {
    return p->room.piled[p->lot_of[lot]] > 0 ? 0 : p->pile_tons;
}

/* Tons that the stack or the buyer's order has room for. */
static double room_for(const ls_haul_planner *p, const ls_haul_bound *b) {
    if (b->to == p->buyers)
        return p->room.stack - new_pile(p, b->lot);
    return p->room.most_loads[b->to] < 1 ? 0 : p->room.most[b->to];
}

/* Is it full, or has it no room but for a part of the load? */
static const char *no_room_on(const ls_haul_planner *p, const char *where, double room) {
    return ls_arena_printf(p->arena, "%s %s", where,
                           room < ls_haul_smallest_drop(p) ? "is full"
                                                           : "has no room for all of it");
}

static const char *no_room(const ls_haul_planner *p, const ls_haul_bound *b) {
    if (b->to == p->buyers && !(p->stack_tons > 0))
        return "no stack can take it";
    const char *where = b->to == p->buyers ? "the stack"
                                           : ls_arena_printf(p->arena, "%s's order",
                                                             p->farm->buyers.at[b->to].name.text);
    return no_room_on(p, where, room_for(p, b));
}

static const char *no_litter(const ls_haul_planner *p, const ls_haul_bound *b) {
    const ls_lot *lot = ls_haul_lot(p, b->lot);
    return b->from_stack
               ? "no litter for it is in the stack"
               : ls_arena_printf(
                     p->arena, lot->empty ? "%s is empty" : "%s holds less: no load is left for it",
                     lot->name);
}

/* What a drop holds beyond the acres that its field has left is taken off it. Why the field cannot
 * take it, with no fewer tons in all than that; NULL: it can. */
static const char *fit_drop(ls_haul_planner *p, ls_haul_bound *b, size_t drop, double least) {
    ls_split_drop *d = &b->drops[drop];
    const ls_field *f = p->field[d->field];
    const char *why = is_past(p, b, f) ? ls_arena_printf(p->arena, "%s is closed", f->name.text)
                                       : over_rate(p, b, d);
    double most = (p->room.acres[d->field] + 1e-6) * d->rate;
    if (why != NULL || d->tons <= most)
        return why;
    most = ls_haul_hundredths(most);
    b->tons = round((b->tons - d->tons + most) * 100) / 100;
    d->tons = most;
    bool fits = b->tons > least - 1e-9 && most > ls_haul_bound_least_drop(p, b, drop) - 1e-9;
    return fits ? NULL : no_room_on(p, f->name.text, most);
}

/* With so many tons, or what there is room for of them, but no fewer than the least; NULL: it fits.
 */
static const char *fit(ls_haul_planner *p, ls_haul_bound *b, double tons, double least) {
    if (!ls_haul_bound_share(p, b, tons))
        return no_litter(p, b);
    double room = room_for(p, b) + 1e-6;
    if (room < b->tons && (room < least || !ls_haul_bound_share(p, b, room)))
        return no_room(p, b);
    const char *why = NULL;
    for (size_t k = 0; k < b->n && why == NULL; k++)
        why = fit_drop(p, b, k, least);
    return why;
}

/* Of the tons on a paper, or of what litter there is for it: with less room whoever works by it
 * does too much, and it is recalled. */
static const double nearly = 0.9;

/* Tons it had, as far as a truck takes them now; without a ticket, tons it is made for. */
static double had(const ls_haul_planner *p, const ls_haul_bound *b) {
    double tons = b->issued == NULL ? b->tons : b->issued->tons / ls_unit_of("ton").factor;
    return fmin(tons, p->payload[ls_haul_house_lot(p, p->lot_of[b->lot], b->kind)]);
}

static void take_room(ls_haul_planner *p, const ls_haul_bound *b, int sign) {
    ls_haul_room *room = &p->room;
    for (size_t k = 0; k < b->n; k++)
        room->acres[b->drops[k].field] -= sign * b->drops[k].tons / b->drops[k].rate;
    if (b->to == p->buyers) {
        room->piled[p->lot_of[b->lot]] += sign < 0 ? -1 : 0;
        room->stack -= sign * (b->tons + new_pile(p, b->lot));
        room->piled[p->lot_of[b->lot]] += sign > 0 ? 1 : 0;
        return;
    }
    room->most[b->to] -= sign * b->tons;
    room->most_loads[b->to] -= room->most_loads[b->to] != LONG_MAX ? sign : 0;
}

/* ---- loads from a house ---- */

/* Tons that the lot has for it: all it wants, of the middle case if it counts there; with what all
 * lots share, as many of them as there are. */
static double litter_for(walk *s, const ls_haul_bound *b, bool *counts) {
    const ls_haul_planner *p = s->p;
    size_t of = p->lot_of[b->lot];
    double left = litter_left(s, of), middle = ls_haul_hundredths(s->middle[of]), wants = had(p, b);
    *counts = b->was != LS_POSSIBLE && middle >= ls_haul_bound_least(p, b);
    wants = *counts ? fmin(wants, middle) : wants;
    if (!s->shared && (s->closed[of] || left < wants - 0.005)) {
        s->closed[of] = true;
        return 0;
    }
    return *counts ? fmin(left, middle) : left;
}

/* It stays with what it had, or what its lot and its place have left for it; a full load keeps
 * litter for what a truck takes now. */
static bool keep_house_load(walk *s, ls_haul_bound *b) {
    ls_haul_planner *p = s->p;
    bool counts;
    double left = litter_for(s, b, &counts);
    double tons = fmin(had(p, b), left);
    b->why = fit(p, b, tons, nearly * tons);
    if (b->why != NULL)
        return false;
    b->wish = b->full ? fmin(p->payload[b->lot], left) : b->tons;
    take_litter(s, b->lot, b->wish);
    s->middle[p->lot_of[b->lot]] -= counts ? b->wish : 0;
    take_room(p, b, 1);
    return true;
}

/* So many tons, or what there is room for of them, but no fewer than it has. */
static void widen(ls_haul_planner *p, ls_haul_bound *b, double wish) {
    double tons = b->tons, *drops = LS_NEW(p->arena, double, b->n);
    for (size_t k = 0; k < b->n; k++)
        drops[k] = b->drops[k].tons;
    take_room(p, b, -1);
    if (fit(p, b, wish, tons) != NULL) {
        b->tons = tons;
        for (size_t k = 0; k < b->n; k++)
            b->drops[k].tons = drops[k];
    }
    take_room(p, b, 1);
}

/* More on a full load, once all others have room. */
static void fill_up(walk *s, ls_haul_bound *b) {
    ls_haul_planner *p = s->p;
    widen(p, b, b->wish);
    take_litter(s, b->lot, b->tons - b->wish);
    if (b->to == p->buyers)
        s->in_new[p->lot_of[b->lot]] += b->tons;
}

/* Those that are not in yet, in order. False: no more found a place. */
static bool keep_more(walk *s, size_t n) {
    ls_haul_planner *p = s->p;
    bool any = false, *in = LS_NEW(p->arena, bool, n);
    memset(s->closed, 0, p->e->n * sizeof *s->closed);
    for (size_t k = 0; k < n; k++) {
        ls_haul_bound *b = &p->bound.at[k];
        in[k] = !b->from_stack && !b->lost && b->why != NULL && keep_house_load(s, b);
        any = any || in[k];
    }
    for (size_t k = 0; k < n; k++)
        if (in[k])
            fill_up(s, &p->bound.at[k]);
    return any;
}

/* Each lot's own tons first, then what all share; again as long as tickets for which litter was
 * kept that found no room leave it to others. */
static void keep_house_loads(walk *s, size_t n) {
    for (size_t k = 0; k < n; k++)
        if (!s->p->bound.at[k].lost)
            s->p->bound.at[k].why = "not in yet";
    for (int shared = 0; shared < 2; shared++) {
        s->shared = shared == 1;
        while (keep_more(s, n))
            ;
    }
}

/* ---- out of the stack ---- */

/* Loads into the stack that nobody has a ticket for, so many that tons of the lot can come out. */
static void fill_stack(walk *s, size_t lot, double tons, int was) {
    ls_haul_planner *p = s->p;
    const double *in_new = &s->in_new[p->lot_of[lot]];
    while (*in_new < tons - 1e-6) {
        double lacking = fmax(tons - *in_new, ls_haul_smallest_drop(p));
        ls_haul_bound in = {.lot = lot,
                            .kind = p->kind_of[lot],
                            .to = p->buyers,
                            .full = true,
                            .was = was,
                            .tons = lacking};
        if (!keep_house_load(s, &in))
            return;
        fill_up(s, &in);
        *LS_PUSH(p->arena, &p->bound) = in;
    }
}

static bool can_wait(const ls_haul_planner *p, const ls_haul_bound *b) {
    for (size_t k = 0; k < b->n; k++)
        if (ls_haul_later_from(p, ls_haul_first_day(p), p->field[b->drops[k].field]) == LS_NO_DATE)
            return false;
    return true;
}

/* Where the litter of a trip of so many tons lies: there by the log; else what bound loads take
 * into the stack, to which the rest of that is added then. */
static double *pool_for(walk *s, const ls_haul_bound *b, double tons, size_t *from) {
    ls_haul_planner *p = s->p;
    size_t lot = p->lot_of[b->lot];
    size_t log = lot_of_log(p, lot);
    double *by_log = &s->in_log[log], *pool = &s->in_new[lot];
    *from = log;
    if (log<p->stacked_lots && * by_log> tons - 0.005)
        return by_log;
    double there = log < p->stacked_lots ? *by_log : 0;
    if (there + *pool < tons - 0.005)
        fill_stack(s, ls_haul_house_lot(p, lot, b->kind), tons - there, b->was);
    if (!(*pool > 0) && there > 0)
        return by_log;
    *from = ls_haul_bound_lot(p, lot);
    *pool += there;
    p->joined[lot] += there;
    if (there > 0)
        *by_log = 0;
    return pool;
}

/* Without room no litter is taken into the stack for it. The list of bound loads may move while
 * loads into the stack are added to it. */
static void keep_out_load(walk *s, size_t at) {
    ls_haul_planner *p = s->p;
    ls_haul_bound b = p->bound.at[at];
    double tons = had(p, &b), *pool = NULL;
    b.why =
        can_wait(p, &b) ? fit(p, &b, tons, 0) : "its field is closed when litter leaves the stack";
    if (b.why == NULL) {
        pool = pool_for(s, &b, tons, &b.lot);
        for (size_t k = 0; k < b.n; k++)
            b.drops[k].lot = b.lot;
        tons = fmin(tons, *pool);
        b.why = fit(p, &b, tons, nearly * tons);
    }
    if (b.why == NULL) {
        take_room(p, &b, 1);
        *pool -= b.tons;
    }
    p->bound.at[at] = b;
}

/* Litter that is too little for a trip goes on the last one there is. */
static void take_rest(walk *s, ls_haul_bound *b) {
    ls_haul_planner *p = s->p;
    double tons = b->tons,
           *pool = b->lot < p->stacked_lots ? &s->in_log[b->lot] : &s->in_new[p->lot_of[b->lot]];
    if (*pool < 0.005 || *pool > ls_haul_smallest_drop(p) - 0.005)
        return;
    widen(p, b, fmin(p->payload[b->lot], tons + *pool));
    *pool -= b->tons - tons;
}

void ls_haul_bound_room(ls_haul_planner *p, int stage) {
    ls_haul_room *room = &p->room;
    room_of(p);
    for (size_t k = 0; k < p->bound.n; k++) {
        const ls_haul_bound *b = &p->bound.at[k];
        if (b->why != NULL || (int)b->certainty > stage)
            continue;
        take_room(p, b, 1);
        if (b->to < p->buyers) {
            room->least[b->to] = fmax(0, room->least[b->to] - b->tons);
            room->least_loads[b->to] -= room->least_loads[b->to] > 0;
        }
    }
}

/* ---- once the rest is split ---- */

/* What an answer of the rest takes beside bound loads, and a little: it counts in whole hundredths.
 */
static void take_answer(ls_haul_planner *p, const ls_split *s) {
    enum { LITTLE = 100 };
    p->room.stack -= 1.0 / LITTLE;
    for (size_t b = 0; b < p->buyers; b++)
        p->room.most[b] -= 1.0 / LITTLE;
    for (size_t f = 0; f < p->fields; f++)
        p->room.acres[f] -= 1.0 / LITTLE / LITTLE;
    for (size_t k = 0; k < s->drops_n; k++)
        p->room.acres[s->drops[k].field] -= s->drops[k].tons / ls_haul_drop_rate(p, &s->drops[k]);
    for (size_t k = 0; k < s->loads_n; k++) {
        ls_haul_bound load = {
            .lot = s->loads[k].lot, .to = s->loads[k].buyer, .tons = s->loads[k].tons};
        if (load.to < p->buyers || !ls_haul_is_stacked(p, load.lot))
            take_room(p, &load, 1);
    }
}

void ls_haul_bound_grow(ls_haul_planner *p, const ls_split *rest, int stage) {

    ls_haul_bound_room(p, LS_STAGES - 1);
    take_answer(p, rest);
    for (size_t k = 0; k < p->bound.n; k++) {
        ls_haul_bound *b = &p->bound.at[k];
        double tons = b->tons, left = b->why == NULL ? rest->unplaced[b->lot] : 0;
        if (b->to == p->buyers || !ls_haul_is_bound_part(p, b, stage) || !(left > 0.005))
            continue;
        widen(p, b, fmin(p->payload[b->lot], tons + left));
        rest->unplaced[b->lot] -= b->tons - tons;
        for (int later = stage; later < LS_STAGES; later++)
            p->rest[later][b->lot] -= b->tons - tons;
    }
    ls_haul_bound_room(p, LS_STAGES - 1);
}

void ls_haul_bind(ls_haul_planner *p) {
    walk s = start(p);
    size_t n = p->bound.n = p->farm->issued.n;
    keep_house_loads(&s, n);
    for (size_t k = 0; k < n; k++)
        if (!p->bound.at[k].lost && p->bound.at[k].from_stack)
            keep_out_load(&s, k);
    for (size_t k = n; k-- > 0;)
        if (p->bound.at[k].why == NULL && p->bound.at[k].from_stack)
            take_rest(&s, &p->bound.at[k]);
    ls_haul_litter(p);
}
