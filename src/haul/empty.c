/* When the houses would be empty: the days of the middle case if its litter without a field found
 * one as far away, and at the rate, as its fields are on the mean by tons. */
#include "plan.h"

#include <math.h>

/* ---- the mean field ---- */

/* Of each buyer with a distance: the share of its tons in theirs times that. */
static ls_line mean_distance(ls_haul_planner *p) {
    ls_worksheet *w = ls_part(p->w, NULL, "plan.mean-field");
    ls_line *lines = LS_NEW(p->arena, ls_line, p->buyers);
    for (size_t b = 0; b < p->buyers; b++)
        lines[b] = p->trade[b].distance == LS_NO_LINE ? LS_NO_LINE : p->trade[b].tons;
    ls_line all = ls_sum(w, "tons", "tons on fields with a distance, likely case", "ton", lines, p->buyers);
    for (size_t b = 0; b < p->buyers; b++) {
        const ls_buyer *buyer = &p->farm->buyers.at[b];
        ls_worksheet *own = ls_part(w, buyer->name.text, "%s", buyer->slug);
        ls_line share = ls_quotient(own, "share", "share of those tons for %s", "", lines[b], all);
        lines[b] = LS_PRODUCT(own, "distance", "that share of the distance to %s", "mi", share, p->trade[b].distance);
    }
    return ls_sum(w, "distance", "distance of the mean field, one way", "mi", lines, p->buyers);
}

/* Acres to spread a ton there; not finite: no load that counts is spread. */
static double spreading(ls_haul_planner *p) {
    ls_worksheet *w = ls_part(p->w, NULL, "plan.mean-field");
    ls_line *tons = LS_NEW(p->arena, ls_line, p->high->drops_n), *acres = LS_NEW(p->arena, ls_line, p->high->drops_n);
    size_t n = 0;
    LS_EACH_OF (const ls_load, load, p->loads, p->loads_n)
        LS_EACH_OF (const ls_drop, d, load->drops, load->n)
            if (ls_load_counted(load) && d->acres != LS_NO_LINE) tons[n] = d->tons, acres[n++] = d->acres;
    if (n == 0) return INFINITY;
    ls_line all = ls_sum(w, "spread", "tons spread, likely case", "ton", tons, n),
            covered = ls_sum(w, "acres", "acres they cover", "ac", acres, n);
    ls_line rate = ls_quotient(w, "rate", "rate of the mean field", "ton/ac", all, covered);
    return 1 / ls_line_shown(w, rate);
}

/* ---- the loads ---- */

/* Litter of a lot without a field; below the smallest drop it is rounding. */
static double homeless(const ls_haul_planner *p, size_t lot) {
    double tons = p->middle->unplaced[lot];
    return tons >= ls_haul_smallest_drop(p) ? tons : 0;
}

static size_t loads_left(const ls_haul_planner *p, size_t lot) {
    return (size_t)fmax(0, ceil((homeless(p, lot) - 0.005) / p->payload[lot]));
}

/* The trips of the middle case, and behind those of each lot what it has left. */
static size_t trips_of(const ls_haul_planner *p, const ls_sim_time *way, double acre, ls_haul_trip *trips) {
    size_t n = 0, k = 0;
    size_t *had = LS_NEW(p->arena, size_t, p->kinds), *all = LS_NEW(p->arena, size_t, p->kinds);
    for (size_t turn = 0; turn < p->e->n; turn++) {
        size_t i = p->order[turn];
        while (k < p->trips_n && p->lot_of[p->trips[k].lot] == i) trips[n++] = p->trips[k++];
        for (size_t kind = 0; kind < p->kinds; kind++)
            had[kind] = 0, all[kind] = loads_left(p, ls_haul_house_lot(p, i, kind));
        for (size_t kind; (kind = ls_haul_turn(p, had, all)) < p->kinds; had[kind]++) {
            size_t lot = ls_haul_house_lot(p, i, kind);
            double tons = fmin(homeless(p, lot) - (double)had[kind] * p->payload[lot], p->payload[lot]);
            ls_sim_job job = {ls_haul_load_time(p, lot, tons), way[kind],
                              ls_haul_whole(tons * acre * p->clock.acre[kind]), way[kind], kind};
            trips[n++] = (ls_haul_trip){lot, job, NULL};
        }
    }
    return n;
}

static ls_sim_time mean_way(ls_haul_planner *p, size_t kind) {
    const char *of = kind == 0 ? "" : ls_printf(p->w, "truck-%zu.", kind + 1);
    ls_line way = ls_quotient(p->w, ls_printf(p->w, "plan.mean-field.%sway", of), "one way to the mean field", "min",
                              p->plan->empty_distance, ls_line_find(p->w, ls_printf(p->w, "days-road.%sspeed", of)));
    return ls_haul_whole(ls_haul_seconds(p, way));
}

void ls_haul_empty_houses(ls_haul_planner *p) {
    ls_plan *plan = p->plan;
    size_t n = p->trips_n;
    for (size_t i = 0; i < p->house_lots; i++) n += loads_left(p, i);
    plan->empty_distance = LS_NO_LINE;
    plan->empty_finish = LS_NO_DATE;
    if (n > p->trips_n) plan->empty_distance = mean_distance(p);
    if (plan->empty_distance == LS_NO_LINE) return;
    double acre = spreading(p);
    if (!isfinite(acre)) return;
    ls_sim_time *way = LS_NEW(p->arena, ls_sim_time, p->kinds);
    for (size_t k = 0; k < p->kinds; k++) way[k] = mean_way(p, k);
    ls_haul_trip *trips = LS_NEW(p->arena, ls_haul_trip, n);
    ls_haul_run run;
    n = trips_of(p, way, acre, trips);
    if (!ls_haul_simulate(p, trips, n, ls_haul_fleet(p), &run)) return;
    plan->empty_ends = ls_haul_moment_end(p, run.x.end);
    plan->empty_finish = plan->empty_ends.day;
    plan->empty_days = ls_haul_worked_days(p, &run) - plan->working_days;
}
