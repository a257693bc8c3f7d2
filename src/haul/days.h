/* How long things take on a farm, and the calendar they fall on. Private to the room; times are
 * whole seconds of working time. */
#ifndef LITTERSHED_HAUL_DAYS_H
#define LITTERSHED_HAUL_DAYS_H

#include "haul/sim/sim.h"

#include "littershed/haul.h"

typedef struct ls_haul_planner ls_haul_planner;

/* The days from the first to the last load of a lot. from == LS_NO_DATE: none. */
typedef ls_window ls_haul_range;

typedef struct {
    ls_sim_time day;     /* of work */
    ls_sim_time dawn;    /* when it begins, after midnight */
    LS_LIST(ls_date) on; /* all working days that may be used */
    ls_sim_time dump;    /* to empty a truck at the stack */
    ls_sim_time *way;    /* [buyer] on the road, one way */
    ls_sim_time *slats;  /* [lot] to move its slats off, or back */
    double *bucket;      /* [lot] tons in a bucket; 0: no loader is named, a truck takes cycle */
    double *cycle;       /* [lot] seconds for a bucket */
    double acre;         /* seconds to spread one */
} ls_haul_clock;

/* A trip to come, in the order of hauling. */
typedef struct {
    size_t lot;
    ls_sim_job job;
    ls_date day, last; /* found by the calendar: when it is begun, when its truck is empty */
} ls_haul_trip;

/* Trips simulated: a block for each lot, in the order of hauling. */
typedef struct {
    ls_sim s;
    ls_sim_answer x;
    size_t *lot; /* [block] */
} ls_haul_run;

/* loading.c: loading a truck, as lines, once for each house; then the time for so many tons. */
void ls_haul_loading(ls_haul_planner *p, size_t lot);
ls_sim_time ls_haul_load_time(const ls_haul_planner *p, size_t lot, double tons);

/* pace.c: a quantity of the farm as a line, or else the figure of common practice, said aloud
 * unless what is NULL. A line of time in seconds, cut to what any calendar can hold; whole ones. */
ls_line ls_haul_given_or(ls_haul_planner *p, const char *key, const char *label, const char *unit,
                         const ls_quantity *q, const char *row, const char *what);
double ls_haul_seconds(const ls_haul_planner *p, ls_line line);
ls_sim_time ls_haul_whole(double seconds);
/* How long things take, as lines; fills the planner's clock but for its days. */
void ls_haul_times(ls_haul_planner *p);
/* A full load of a lot to a field; LS_HAUL_TO_STACK: to the stack. */
#define LS_HAUL_TO_STACK SIZE_MAX
ls_sim_job ls_haul_full_trip(const ls_haul_planner *p, size_t lot, size_t field);
/* A load of an answer of the split, straight from the house. */
ls_sim_job ls_haul_trip_of(const ls_haul_planner *p, const ls_split *s, const ls_split_load *l);

/* days.c: the working days from the crew's first on. */
void ls_haul_calendar(ls_haul_planner *p);
/* Simulate trips with so many trucks. False: it takes too long. */
bool ls_haul_simulate(const ls_haul_planner *p, const ls_haul_trip *trips, size_t n, size_t trucks,
                      ls_haul_run *run);
/* Give every trip its days, and every lot the days it is hauled on. False: it takes too long,
 * noted in the farm's diag. run may be NULL. */
bool ls_haul_days(ls_haul_planner *p, ls_haul_trip *trips, size_t n, ls_haul_range *days,
                  ls_haul_run *run);
/* The day a lot can be begun on: the crew is there and the last flock has left. */
ls_date ls_haul_empty(const ls_haul_planner *p, size_t lot);
/* When something begins, or ends: the end of a day belongs to that day. */
ls_moment ls_haul_moment(const ls_haul_planner *p, ls_sim_time t);
ls_moment ls_haul_moment_end(const ls_haul_planner *p, ls_sim_time t);

/* workdays.c: what is done on each day, once loads have lines. */
void ls_haul_workdays(ls_haul_planner *p);
/* fleet.c: other numbers of trucks, once the days have lines; which of them serves best. */
void ls_haul_fleets(ls_haul_planner *p);
/* legal.c: the truck's weights against federal limits. */
void ls_haul_weights(ls_haul_planner *p);

#endif
