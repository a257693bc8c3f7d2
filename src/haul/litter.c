/* Tons of the lots at each stage. */
#include "plan.h"

#include <math.h>
#include <string.h>

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
            if (held[i])
                continue;
            tons[i] = point[i] * factor;
            double least = stage == 0 ? 0 : p->in_lot[stage - 1][i];
            if (stage == LS_STAGES - 1)
                least = fmax(least, ls_haul_held(p, i));
            if (tons[i] < least) {
                tons[i] = least;
                held[i] = changed = true;
            }
        }
    }
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
        memcpy(p->tons[stage], p->in_lot[stage], p->e->n * sizeof *point);
        for (size_t i = p->house_lots; i < p->stacked_lots; i++)
            p->tons[stage][i] = p->gone->in_stack[p->lot_of[i]];
    }
}
