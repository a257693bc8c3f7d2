#include "bench/farms.h"

#include <math.h>

static double between(dice *d, double low, double high) {
    return low + (high - low) * (double)throw_dice(d, 10001) / 10000;
}

/* Litter of four kinds, two sides a house: half the houses fill a truck by weight, half by volume.
 */
static void lots_of(split_world *w, dice *d) {
    double payload = 0;
    for (size_t i = 0; i < w->p.lots; i++) {
        if (i % 2 == 0) payload = throw_dice(d, 2) == 0 ? 11 : floor(100 * between(d, 8, 11)) / 100;
        w->payload[i] = payload;
        w->tons[i] = floor(100 * between(d, 50, 110)) / 100;
    }
}

/* Nitrogen sets most rates, by the litter's own analysis, in steps of a quarter ton; a field in
 * four takes its 3 tons whatever the litter; one in ten none. */
static void rates_of(split_world *w, dice *d, size_t field, const double *strength) {
    size_t kind = throw_dice(d, 20);
    double need = between(d, 60, 250);
    w->capacity[field] = floor(10 * between(d, 5, 60)) / 10;
    for (size_t i = 0; i < w->p.lots; i++) {
        double rate = fmin(3, floor(4 * need / strength[i]) / 4);
        rate = kind < 5 ? 3 : kind < 7 ? 0 : rate;
        w->use[i * w->p.fields + field] = rate > 0 ? 1 / rate : INFINITY;
    }
}

/* Open all the while, later (for the stack), or for some lots only: the days of hauling pass. */
static void windows_of(split_world *w, dice *d, size_t field) {
    size_t window = throw_dice(d, 8), half = throw_dice(d, w->p.lots + 1);
    for (size_t i = 0; i < w->p.lots; i++) {
        size_t k = i * w->p.fields + field;
        w->open[k] = window > 1 || (window == 1 && i < half);
        w->later[k] = !w->open[k];
    }
}

static void buyers_of(split_world *w, dice *d) {
    for (size_t b = 0; b < w->p.buyers; b++) {
        double miles = between(d, 1, 25), price = floor(between(d, 18, 36));
        w->trip_cost[b] = 2 * miles * 2.1;
        for (size_t f = 0; f < w->p.fields; f++)
            for (size_t i = 0; w->buyer[f] == b && i < w->p.lots; i++) {
                w->value[i * w->p.fields + f] = price - 17;
                w->later_value[i * w->p.fields + f] = price - 12;
            }
        size_t order = throw_dice(d, 6);
        if (order == 0) w->least_loads[b] = 1 + (long)throw_dice(d, 4);
        if (order <= 1) w->most_loads[b] = 5 + (long)throw_dice(d, 15);
        if (order == 2) w->most[b] = 20 + (double)throw_dice(d, 200);
    }
}

/* Scale the litter to a share of what open fields take of it at their lightest use. */
static void fill(split_world *w, double share) {
    double room = 0, tons = 0;
    for (size_t f = 0; f < w->p.fields; f++) {
        double best = 0;
        for (size_t i = 0; i < w->p.lots; i++)
            if (w->open[i * w->p.fields + f]) best = fmax(best, w->capacity[f] / w->use[i * w->p.fields + f]);
        room += best;
    }
    for (size_t i = 0; i < w->p.lots; i++) tons += w->tons[i];
    for (size_t i = 0; i < w->p.lots; i++) w->tons[i] = floor(100 * w->tons[i] * share * room / tons) / 100;
}

split_world *bench_farm_new(ls_arena *a, const bench_farm *f) {
    dice d = {f->seed * 0x9e3779b97f4a7c15U};
    for (int k = 0; k < 10; k++) throw_dice(&d, 2);
    split_world *w = split_world_new(a, f->lots, f->fields, f->buyers);
    double *strength = LS_NEW(a, double, f->lots);
    lots_of(w, &d);
    for (size_t i = 0; i < f->lots; i++)
        strength[i] = i % 2 == 1 && throw_dice(&d, 2) == 0 ? strength[i - 1] : between(&d, 20, 60);
    for (size_t k = 0; k < f->fields; k++) {
        rates_of(w, &d, k, strength);
        windows_of(w, &d, k);
    }
    buyers_of(w, &d);
    w->p.stack_value = -9;
    w->p.later = f->stack ? w->later : NULL;
    w->p.stack_room = f->stack ? 150 : 0;
    if (f->fill > 0) fill(w, f->fill);
    return w;
}
