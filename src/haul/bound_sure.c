/* How sure bound loads are now, and what they leave of each lot at each stage. A firm load counts
 * in every stage, a likely one in the middle and the high, a possible one in the high. */
#include "plan.h"

#include <string.h>

/* ---- counted ---- */

typedef struct {
    ls_haul_planner *p;
    long *sure;              /* [lot] full loads left */
    double *tons[LS_STAGES]; /* [lot] left */
} counts;

long ls_haul_sure_loads(const ls_haul_planner *p, size_t lot) { return ls_haul_is_stacked(p, lot) ? 0 : p->sure[lot]; }

static void settle(counts *s, ls_haul_bound *b, ls_certainty certainty) {
    const ls_haul_planner *p = s->p;
    b->certainty = certainty;
    if (certainty == LS_FIRM && !b->from_stack) s->sure[b->lot]--;
    for (int stage = (int)certainty; stage < LS_STAGES; stage++) {
        s->tons[stage][b->lot] -= b->tons;
        if (!b->from_stack && b->to == p->buyers) s->tons[stage][ls_haul_bound_lot(p, p->lot_of[b->lot])] += b->tons;
    }
}

/* Settled ones have a certainty; the others are as far from one as can be. */
static const ls_certainty OPEN = (ls_certainty)(LS_POSSIBLE + 1);

/* Tons of a lot; what lies in the stack by the log may count with what is bound for it. */
static double in_lot(const ls_haul_planner *p, int stage, size_t lot) {
    double joined = p->joined[p->lot_of[lot]];
    if (lot >= p->stacked_lots) return joined;
    double tons = ls_haul_hundredths(p->tons[stage][lot]);
    return ls_haul_is_stacked(p, lot) ? fmax(0, tons - joined) : tons;
}

/* All but what is settled. */
static counts counts_of(ls_haul_planner *p) {
    counts s = {.p = p, .sure = p->rest_sure};
    for (int stage = 0; stage < LS_STAGES; stage++) {
        s.tons[stage] = p->rest[stage];
        for (size_t i = 0; i < p->lots; i++) s.tons[stage][i] = in_lot(p, stage, i);
    }
    for (size_t i = 0; i < p->lots; i++) s.sure[i] = ls_haul_sure_loads(p, i);
    for (size_t k = 0; k < p->bound.n; k++)
        if (p->bound.at[k].why == NULL && p->bound.at[k].certainty < OPEN)
            settle(&s, &p->bound.at[k], p->bound.at[k].certainty);
    return s;
}

/* ---- firm before ---- */

/* Loads of a slip that are neither gone nor bound. */
static long still_owed(ls_haul_planner *p, const ls_promise_slip *slip, size_t buyer) {
    long owed = slip->loads - slip->had;
    for (size_t k = 0; k < p->bound.n; k++) {
        ls_haul_bound *b = &p->bound.at[k];
        if (b->to == buyer && b->why == NULL) b->promised = owed-- > 0;
    }
    return owed > 0 ? owed : 0;
}

bool ls_haul_bind_owed(ls_haul_planner *p) {
    bool any = false;
    double truck = 0;
    for (size_t i = 0; i < p->lots; i++) truck = fmax(truck, p->payload[i]);
    for (size_t k = 0; k < p->bound.n; k++) p->bound.at[k].promised = false;
    for (size_t k = 0; k < p->farm->promised.n; k++) {
        const ls_promise_slip *slip = &p->farm->promised.at[k];
        if (slip->buyer == NULL || slip->loads <= 0) continue;
        size_t b = (size_t)(slip->buyer - p->farm->buyers.at);
        double load = slip->tons / ls_unit_of("ton").factor / (double)slip->loads;
        p->owed[b] = still_owed(p, slip, b);
        p->owed_tons[b] = (double)p->owed[b] * fmin(load, truck);
        any = any || p->owed[b] > 0;
    }
    return any;
}

/* Sure loads that slips are served with leave bound loads of buyers who were promised them their
 * litter, and firm ones. */
static void leave_to_others(counts *s) {
    const ls_haul_planner *p = s->p;
    double *kept = LS_NEW(p->arena, double, p->lots);
    for (size_t k = 0; k < p->bound.n; k++) {
        const ls_haul_bound *b = &p->bound.at[k];
        if (b->why != NULL) continue;
        if (b->promised || b->certainty == LS_FIRM) kept[b->lot] += b->tons;
        if (b->from_stack) s->tons[0][b->lot] = fmax(0, s->tons[0][b->lot] - b->tons);
    }
    for (size_t i = 0; i < p->house_lots; i++) {
        double left = p->tons[LS_STAGES - 1][i] - kept[i];
        long most = (long)floor(fmax(0, left) / p->payload[i] + 1e-9);
        s->sure[i] = s->sure[i] < most ? s->sure[i] : most;
    }
}

/* Full loads of tickets that were firm, or whose buyers were promised them. */
static void settle_firm(counts *s, bool was_firm) {
    const ls_haul_planner *p = s->p;
    for (size_t k = 0; k < p->bound.n; k++) {
        ls_haul_bound *b = &p->bound.at[k];
        if (b->why == NULL && !b->from_stack && b->certainty == OPEN && ls_haul_bound_whole(p, b) &&
            s->sure[b->lot] > 0 && (was_firm ? b->was == LS_FIRM : b->promised))
            settle(s, b, LS_FIRM);
    }
}

void ls_haul_bind_firm(ls_haul_planner *p) {
    for (size_t k = 0; k < p->bound.n; k++) p->bound.at[k].certainty = OPEN;
    counts s = counts_of(p);
    settle_firm(&s, true);
    leave_to_others(&s);
    ls_haul_bound_room(p, (int)OPEN);
}

/* ---- the others ---- */

/* A part load of the lot counts in the middle case already: what that has more goes on it. */
static bool has_middle_part(const ls_haul_planner *p, size_t lot) {
    for (size_t k = 0; k < p->bound.n; k++)
        if (p->bound.at[k].lot == lot && ls_haul_is_bound_part(p, &p->bound.at[k], 1)) return true;
    return false;
}

/* With its tons as far as slips leave them. */
static void settle_house_load(counts *s, ls_haul_bound *b) {
    double high = s->tons[LS_STAGES - 1][b->lot], middle = fmin(s->tons[1][b->lot], high);
    bool second = b->was == LS_POSSIBLE && !ls_haul_bound_whole(s->p, b) && has_middle_part(s->p, b->lot),
         in_middle = !second && middle > b->tons - 0.005;
    if (in_middle && ls_haul_bound_whole(s->p, b) && s->sure[b->lot] > 0)
        settle(s, b, LS_FIRM);
    else if (in_middle || high > b->tons - 0.005 || ls_haul_bound_share(s->p, b, high))
        settle(s, b, in_middle ? LS_LIKELY : LS_POSSIBLE);
    else
        b->why = "what its lot holds goes to loads that slips promise", b->lost = true;
}

/* Out of the stack: as sure as the litter that it comes from. */
static void settle_out_load(counts *s, ls_haul_bound *b) {
    int stage = LS_STAGES;
    bool whole = b->issued->full || ls_haul_is_load(s->p, b->lot, b->tons);
    while (stage > !whole && s->tons[stage - 1][b->lot] > b->tons - 0.005) stage--;
    if (stage < LS_STAGES)
        settle(s, b, (ls_certainty)stage);
    else if (ls_haul_bound_share(s->p, b, s->tons[LS_STAGES - 1][b->lot]))
        settle(s, b, LS_POSSIBLE);
    else
        b->why = "no litter for it is in the stack", b->lost = true;
}

/* What is kept from a stage to the next has no less left there: loads of the middle case, firm
 * ones, and what they take into the stack. The low case is kept in none. */
static void level(counts *s, size_t lot) {
    for (int stage = 0; stage < LS_STAGES; stage++) s->tons[stage][lot] = fmax(0, s->tons[stage][lot]);
    s->tons[1][lot] = fmin(s->tons[1][lot], s->tons[2][lot]);
    double least = fmin(s->tons[0][lot], s->tons[1][lot]);
    if (ls_haul_is_stacked(s->p, lot)) s->tons[0][lot] = least;
    long most = (long)floor(least / s->p->payload[lot] + 1e-9);
    s->sure[lot] = s->sure[lot] < most ? s->sure[lot] : most;
}

/* The sure loads that slips take are left to them. */
static void reserve(counts *s, const long *promised, int sign) {
    const ls_haul_planner *p = s->p;
    for (size_t i = 0; promised != NULL && i < p->house_lots; i++) {
        s->sure[i] -= sign * promised[i];
        for (int stage = 0; stage < LS_STAGES; stage++) s->tons[stage][i] -= sign * (double)promised[i] * p->payload[i];
    }
}

bool ls_haul_bind_others(ls_haul_planner *p, const long *promised) {
    bool all = true;
    counts s = counts_of(p);
    reserve(&s, promised, 1);
    settle_firm(&s, false);
    for (int out = 0; out < 2; out++)
        for (size_t k = 0; k < p->bound.n; k++) {
            ls_haul_bound *b = &p->bound.at[k];
            if (b->why != NULL || b->from_stack != (out == 1) || b->certainty != OPEN) continue;
            if (out == 1)
                settle_out_load(&s, b);
            else
                settle_house_load(&s, b);
            all = all && b->why == NULL;
        }
    reserve(&s, promised, -1);
    ls_haul_bound_room(p, LS_STAGES - 1);
    for (size_t i = 0; i < p->lots; i++) level(&s, i);
    return all;
}
