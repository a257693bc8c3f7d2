/* Trips simulated in working time, and the days they fall on. */
#include "plan.h"

/* Loads of it are gone: its slats are off. */
bool ls_haul_is_begun(const ls_haul_planner *p, size_t lot) {
    return p->gone != NULL && p->gone->last[p->lot_of[lot]] != LS_NO_DATE;
}

/* ---- simulation ---- */

size_t *ls_haul_fleet(const ls_haul_planner *p) {
    size_t *fleet = LS_NEW(p->arena, size_t, p->farm->trucks.n);
    for (size_t k = 0; k < p->farm->trucks.n; k++) fleet[k] = (size_t)p->farm->trucks.at[k].count.n;
    return fleet;
}

bool ls_haul_simulate(const ls_haul_planner *p, const ls_haul_trip *trips, size_t n, const size_t *fleet,
                      ls_haul_run *run) {
    const ls_slat_crew *slats = p->farm->crew->slats;
    ls_sim_job *jobs = LS_NEW(p->arena, ls_sim_job, n);
    ls_sim_block *blocks = LS_NEW(p->arena, ls_sim_block, n);
    size_t *lot = LS_NEW(p->arena, size_t, n), b = 0;
    for (size_t k = 0; k < n; k++) {
        size_t i = trips[k].lot;
        jobs[k] = trips[k].job;
        if (k == 0 || p->lot_of[trips[k - 1].lot] != p->lot_of[i]) {
            ls_sim_time off = ls_haul_is_begun(p, i) ? 0 : p->clock.slats[i];
            size_t house = (size_t)(ls_haul_lot(p, i)->house - p->farm->houses.at);
            blocks[b] = (ls_sim_block){0, ls_haul_work_time(p, ls_haul_empty(p, i), 0), off, p->clock.slats[i], house};
            lot[b++] = i;
        }
        blocks[b - 1].n++;
    }
    run->s = (ls_sim){.kinds_n = p->farm->trucks.n,
                      .trucks = fleet,
                      .day = p->clock.day,
                      .jobs_n = n,
                      .blocks_n = b,
                      .outs_n = p->clock.out.n,
                      .jobs = jobs,
                      .blocks = blocks,
                      .outs = p->clock.out.at,
                      .while_loading = slats != NULL && slats->while_loading.yes};
    run->x = ls_sim_run(p->arena, &run->s);
    run->lot = lot;
    return ls_sim_days(&run->s, &run->x) <= p->clock.on.n;
}

ls_sim_hours *ls_haul_hours(const ls_haul_planner *p, const ls_haul_run *run, size_t *days) {
    *days = ls_sim_days(&run->s, &run->x);
    ls_sim_hours *h = LS_NEW(p->arena, ls_sim_hours, *days);
    ls_sim_by_day(p->arena, &run->s, &run->x, h, *days);
    return h;
}

long ls_haul_worked_days(const ls_haul_planner *p, const ls_haul_run *run) {
    size_t days;
    const ls_sim_hours *h = ls_haul_hours(p, run, &days);
    long worked = 0;
    for (size_t d = 0; d < days; d++) worked += h[d].worked > 0;
    return worked;
}

bool ls_haul_days(ls_haul_planner *p, const ls_haul_trip *trips, size_t n, ls_haul_range *days, ls_haul_run *run) {
    ls_haul_run own;
    run = run == NULL ? &own : run;
    for (size_t i = 0; i < p->lots; i++) days[i] = (ls_haul_range){LS_NO_DATE, LS_NO_DATE};
    if (!ls_haul_simulate(p, trips, n, ls_haul_fleet(p), run)) return false;
    for (size_t k = 0; k < n; k++) /* from when it is begun until its truck is empty */
        ls_haul_widen(&days[trips[k].lot], (ls_haul_range){ls_haul_moment(p, run->x.trips[k].start).day,
                                                           ls_haul_moment_end(p, run->x.trips[k].emptied).day});
    return true;
}
