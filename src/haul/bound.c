/* Tickets that were handed out: which of them stay. Each in its turn is taken out of what its lot,
 * its fields, its buyer's order and the stack have left; one that no longer fits is recalled. */
#include "plan.h"

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
    while (i < p->stacked_lots && p->lot_of[i] != lot) i++;
    return i;
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
    for (size_t i = p->house_lots; i < p->stacked_lots; i++) s.in_log[i] = ls_haul_hundredths(p->tons[0][i]);
    ls_haul_bound_room(p, -1);
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

/* Loads that slips promise have their litter before tickets, as if theirs were handed out. */
static void leave_to_slips(walk *s, const long *slips) {
    const ls_haul_planner *p = s->p;
    for (size_t i = 0; i < p->house_lots; i++) {
        double tons = (double)slips[i] * p->payload[i];
        take_litter(s, i, tons);
        s->middle[p->lot_of[i]] -= tons;
    }
}

/* Of the tons on a paper, or of what litter there is for it: with less room whoever works by it
 * does too much, and it is recalled. */
static const double nearly = 0.9;

/* Tons it had, as far as a truck takes them now; without a ticket, tons it is made for. */
static double had(const ls_haul_planner *p, const ls_haul_bound *b) {
    double tons = b->issued == NULL ? b->tons : b->issued->tons / ls_unit_of("ton").factor;
    return fmin(tons, p->payload[ls_haul_house_lot(p, p->lot_of[b->lot], b->kind)]);
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
    b->why = ls_haul_bound_fit(p, b, tons, nearly * tons);
    if (b->why != NULL) return false;
    b->wish = b->full ? fmin(p->payload[b->lot], left) : b->tons;
    take_litter(s, b->lot, b->wish);
    s->middle[p->lot_of[b->lot]] -= counts ? b->wish : 0;
    ls_haul_bound_take(p, b, 1);
    return true;
}

/* More on a full load, once all others have room. */
static void fill_up(walk *s, ls_haul_bound *b) {
    ls_haul_planner *p = s->p;
    ls_haul_bound_widen(p, b, b->wish);
    take_litter(s, b->lot, b->tons - b->wish);
    if (b->to == p->buyers) s->in_new[p->lot_of[b->lot]] += b->tons;
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
        if (in[k]) fill_up(s, &p->bound.at[k]);
    return any;
}

/* Each lot's own tons first, then what all share; again as long as tickets for which litter was
 * kept that found no room leave it to others. */
static void keep_house_loads(walk *s, size_t n) {
    for (size_t k = 0; k < n; k++)
        if (!s->p->bound.at[k].lost) s->p->bound.at[k].why = "not in yet";
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
        ls_haul_bound in = {
            .lot = lot, .kind = p->kind_of[lot], .to = p->buyers, .full = true, .was = was, .tons = lacking};
        if (!keep_house_load(s, &in)) return;
        fill_up(s, &in);
        *LS_PUSH(p->arena, &p->bound) = in;
    }
}

static bool can_wait(const ls_haul_planner *p, const ls_haul_bound *b) {
    for (size_t k = 0; k < b->n; k++)
        if (ls_haul_later_from(p, ls_haul_first_day(p), p->field[b->drops[k].field]) == LS_NO_DATE) return false;
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
    if (log<p->stacked_lots && * by_log> tons - 0.005) return by_log;
    double there = log < p->stacked_lots ? *by_log : 0;
    if (there + *pool < tons - 0.005) fill_stack(s, ls_haul_house_lot(p, lot, b->kind), tons - there, b->was);
    if (!(*pool > 0) && there > 0) return by_log;
    *from = ls_haul_bound_lot(p, lot);
    *pool += there;
    p->joined[lot] += there;
    if (there > 0) *by_log = 0;
    return pool;
}

/* Without room no litter is taken into the stack for it. The list of bound loads may move while
 * loads into the stack are added to it. */
static void keep_out_load(walk *s, size_t at) {
    ls_haul_planner *p = s->p;
    ls_haul_bound b = p->bound.at[at];
    double tons = had(p, &b), *pool = NULL;
    b.why = can_wait(p, &b) ? ls_haul_bound_fit(p, &b, tons, 0) : "its field is closed when litter leaves the stack";
    if (b.why == NULL) {
        pool = pool_for(s, &b, tons, &b.lot);
        for (size_t k = 0; k < b.n; k++) b.drops[k].lot = b.lot;
        tons = fmin(tons, *pool);
        b.why = ls_haul_bound_fit(p, &b, tons, nearly * tons);
    }
    if (b.why == NULL) {
        ls_haul_bound_take(p, &b, 1);
        *pool -= b.tons;
    }
    p->bound.at[at] = b;
}

/* Litter that is too little for a trip goes on the last one there is. */
static void take_rest(walk *s, ls_haul_bound *b) {
    ls_haul_planner *p = s->p;
    double tons = b->tons, *pool = b->lot < p->stacked_lots ? &s->in_log[b->lot] : &s->in_new[p->lot_of[b->lot]];
    if (*pool < 0.005 || *pool > ls_haul_smallest_drop(p) - 0.005) return;
    ls_haul_bound_widen(p, b, fmin(p->payload[b->lot], tons + *pool));
    *pool -= b->tons - tons;
}

void ls_haul_bind(ls_haul_planner *p, const long *slips) {
    walk s = start(p);
    leave_to_slips(&s, slips);
    size_t n = p->bound.n = p->farm->issued.n;
    keep_house_loads(&s, n);
    for (size_t k = 0; k < n; k++)
        if (!p->bound.at[k].lost && p->bound.at[k].from_stack) keep_out_load(&s, k);
    for (size_t k = n; k-- > 0;)
        if (p->bound.at[k].why == NULL && p->bound.at[k].from_stack) take_rest(&s, &p->bound.at[k]);
    ls_haul_litter(p);
}
