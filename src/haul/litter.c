/* Tons of the lots at each stage. */
#include "plan.h"

#include <math.h>

/* Each lot's (of the estimate) own point times one factor for all, so that the lots sum to the
 * point of the total; but no lot holds less than at the stage before, or at the high one than its
 * bound loads: what was promised of it stays. */
static void stage_tons(ls_haul_planner *p, int stage, const double *point, double total) {
    double *tons = p->in_lot[stage];
    size_t n = p->e->n;
    bool *held = LS_NEW(p->arena, bool, n);
    for (bool changed = true; changed;) {
        double rest = total, sum = 0;
        changed = false;
        for (size_t i = 0; i < n; i++) {
            if (held[i])
                rest -= tons[i];
            else
                sum += point[i];
        }
        double factor = sum > 0 ? fmax(0, rest / sum) : 0;
        for (size_t i = 0; i < n; i++) {
            if (held[i]) continue;
            tons[i] = point[i] * factor;
            double least = stage == 0 ? 0 : p->in_lot[stage - 1][i];
            if (stage == LS_STAGES - 1) least = fmax(least, ls_haul_held(p, i));
            if (tons[i] < least) {
                tons[i] = least;
                held[i] = changed = true;
            }
        }
    }
}

/* ---- dealt out to the kinds of truck ---- */

typedef struct {
    ls_haul_planner *p;
    size_t lot;   /* the first of the lot's */
    double left;  /* tons */
    double *tons; /* [kind] */
    double *held; /* [kind] tons of bound loads still to be given */
    long *firm;   /* [kind] as held: their full loads, of the sure ones */
    double *one;  /* [kind] part of the lot's sure litter in a full load */
    double sure;  /* part of it that is left; 0: it is not counted at this stage */
} dealer;

/* Tons (sure ones) that the bound loads of other kinds leave a kind. */
static double left_for(const dealer *d, size_t kind) {
    double left = d->left;
    for (size_t k = 0; k < d->p->kinds; k++) left -= k == kind ? 0 : d->held[k];
    return left;
}

static bool is_sure(const dealer *d, size_t kind) {
    double left = d->sure;
    for (size_t k = 0; k < d->p->kinds; k++) left -= k == kind || d->firm[k] == 0 ? 0 : (double)d->firm[k] * d->one[k];
    return left > d->one[kind] - 1e-9;
}

static void give(dealer *d, size_t kind) {
    ls_haul_planner *p = d->p;
    double load = p->payload[d->lot + kind], tons = fmin(load, left_for(d, kind));
    d->tons[kind] += tons;
    d->left -= tons;
    d->held[kind] = fmax(0, d->held[kind] - tons);
    if (tons > load - 1e-6 && is_sure(d, kind)) {
        p->sure[d->lot + kind]++;
        d->sure -= d->one[kind];
        d->firm[kind] -= d->firm[kind] > 0;
    }
}

/* The kind that has least of its share, its next load half counted. */
static size_t next_kind(const dealer *d) {
    const ls_haul_planner *p = d->p;
    size_t best = p->kinds;
    double least = INFINITY;
    for (size_t k = 0; k < p->kinds; k++) {
        double share = p->share[d->lot + k];
        double had = (d->tons[k] + p->payload[d->lot + k] / 2) / share;
        if ((share > 0 || d->held[k] > 0) && left_for(d, k) > 1e-9 && (best == p->kinds || had < least * (1 - 1e-9)))
            best = k, least = had;
    }
    return best < p->kinds ? best : 0;
}

/* Bound loads of the stage are kept for their kinds, as far as the lot has them. */
static void hold(dealer *d, size_t of, int stage) {
    ls_haul_planner *p = d->p;
    double left = d->left, sure = d->sure + 1e-9;
    for (size_t i = 0; i < p->bound.n; i++) {
        const ls_haul_bound *b = &p->bound.at[i];
        if (b->why != NULL || b->from_stack || p->lot_of[b->lot] != of || b->was > stage) continue;
        double tons = fmin(b->tons, left);
        d->held[b->kind] += tons;
        left -= tons;
        if (sure > d->one[b->kind] && ls_haul_bound_whole(p, b)) d->firm[b->kind]++, sure -= d->one[b->kind];
    }
}

/* Load by load in turns, the same at every stage, so that more litter takes nothing from a kind; and whatever was
 * handed out, as long as what is bound leaves the others theirs, so that handing out changes no plan. */
static void deal(ls_haul_planner *p, size_t of, int stage) {
    dealer d = {.p = p,
                .lot = ls_haul_house_lot(p, of, 0),
                .left = p->in_lot[stage][of],
                .held = LS_NEW(p->arena, double, p->kinds),
                .firm = LS_NEW(p->arena, long, p->kinds),
                .one = LS_NEW(p->arena, double, p->kinds),
                .sure = stage == 0};
    d.tons = &p->tons[stage][d.lot];
    for (size_t k = 0; k < p->kinds; k++) {
        d.tons[k] = 0;
        d.one[k] = 1 / ls_line_value(p->w, p->e->lots[of].kinds[k].firm);
        p->sure[d.lot + k] = stage == 0 ? 0 : p->sure[d.lot + k];
    }
    hold(&d, of, stage);
    while (d.left > 1e-9) give(&d, next_kind(&d));
}

/* One kind has all of it. */
static void deal_lot(ls_haul_planner *p, size_t of, int stage) {
    if (p->kinds > 1) {
        if (p->share != NULL) deal(p, of, stage);
        return;
    }
    double firm = floor(ls_line_value(p->w, p->e->lots[of].firm) + 1e-9);
    p->tons[stage][of] = p->in_lot[stage][of];
    if (stage == 0) p->sure[of] = (long)fmin(firm, floor(p->in_lot[0][of] / p->payload[of] + 1e-9));
}

void ls_haul_litter(ls_haul_planner *p) {
    double ton = ls_unit_of("ton").factor;
    double *point = LS_NEW(p->arena, double, p->e->n);
    for (int stage = 0; stage < LS_STAGES; stage++) {
        for (size_t i = 0; i < p->e->n; i++) {
            ls_q q = p->e->lots[i].tons;
            point[i] = (stage == 0 ? q.low : stage == 1 ? q.mid : q.high) / ton;
        }
        ls_q all = p->e->tons;
        stage_tons(p, stage, point, (stage == 0 ? all.low : stage == 1 ? all.mid : all.high) / ton);
        for (size_t i = 0; i < p->e->n; i++) deal_lot(p, i, stage);
        for (size_t i = p->house_lots; i < p->stacked_lots; i++) p->tons[stage][i] = p->gone->in_stack[p->lot_of[i]];
    }
}
