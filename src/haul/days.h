/* How long things take on a farm, and the calendar they fall on. Private to the room. */
#pragma once

#include "planner.h"

/* loading.c: loading a truck, as lines, once for each house; then the time for so many tons. */
void ls_haul_loading(ls_haul_planner *p, size_t lot);
ls_sim_time ls_haul_load_time(const ls_haul_planner *p, size_t lot, double tons);

/* pace.c: how long things take, as lines; fills the planner's clock but for its days. */
void ls_haul_times(ls_haul_planner *p);
/* A full load of a lot to a field; LS_HAUL_TO_STACK: to the stack. */
#define LS_HAUL_TO_STACK SIZE_MAX
ls_sim_job ls_haul_full_trip(const ls_haul_planner *p, size_t lot, size_t field);
/* A load of an answer of the split, straight from the house. */
ls_sim_job ls_haul_trip_of(const ls_haul_planner *p, const ls_split *s, const ls_split_load *l);

/* calendar.c: the working days from the crew's first on, and what is out in their hours. */
enum { LS_HAUL_MOST_DAYS = 3650 };
void ls_haul_calendar(ls_haul_planner *p);
/* The day a lot can be begun on: the crew is there and the last flock has left. */
ls_date ls_haul_empty(const ls_haul_planner *p, size_t lot);
/* A second of a day as working time: of the night the end or beginning of a day. */
ls_sim_time ls_haul_work_time(const ls_haul_planner *p, ls_date day, ls_sim_time second);
/* When something begins, or ends: the end of a day belongs to that day. */
ls_moment ls_haul_moment(const ls_haul_planner *p, ls_sim_time t);
ls_moment ls_haul_moment_end(const ls_haul_planner *p, ls_sim_time t);

/* days.c */
/* Loads of a lot are gone: its slats are off. */
bool ls_haul_is_begun(const ls_haul_planner *p, size_t lot);
/* The farm's trucks, [kind]. */
size_t *ls_haul_fleet(const ls_haul_planner *p);
/* Simulate trips with so many trucks, [kind]; run keeps them. False: it takes too long. */
bool ls_haul_simulate(const ls_haul_planner *p, const ls_haul_trip *trips, size_t n,
                      const size_t *fleet, ls_haul_run *run);
/* Give every trip its days, and every lot the days it is hauled on. False: it takes too long.
 * run may be NULL. */
bool ls_haul_days(ls_haul_planner *p, ls_haul_trip *trips, size_t n, ls_haul_range *days,
                  ls_haul_run *run);
/* Days of a run on which anything is done. */
long ls_haul_worked_days(const ls_haul_planner *p, const ls_haul_run *run);

/* workdays.c: what is done on each day, once loads have lines. */
void ls_haul_workdays(ls_haul_planner *p);
/* orders.c: another order of the houses and sides, once the days have lines. */
void ls_haul_orders(ls_haul_planner *p);
/* fleet.c: other numbers of trucks, once the days have lines; which of them serves best. */
void ls_haul_fleets(ls_haul_planner *p);
/* legal.c: the truck's weights against federal limits. */
void ls_haul_weights(ls_haul_planner *p);
