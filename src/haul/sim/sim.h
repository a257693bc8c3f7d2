/* Loads of trucks under one loader, event by event. Knows nothing of farms, dates or units: times
 * are whole ticks of working time, which runs on from one working day to the next; day d holds
 * the ticks from d x day to (d + 1) x day. The same input gives the same answer on every machine.
 *
 * The rules. Blocks of loads are hauled in their order, loads of a block in theirs. Before a block
 * something is moved out of the way, after its last load is loaded it is moved back; moves may
 * stop at night and go on the next day; the next block waits for them. The loader loads one truck
 * at a time; a load goes onto the truck that has waited longest (of equals the one with the lowest
 * number). A load is begun only if its truck can be back before the day ends, else everything
 * waits for the next day; a load that takes longer than a day begins with a day and runs on.
 *
 * Because loads never overtake each other, no time that is made shorter, and no truck that is
 * added, ever makes anything happen later (the recursion of the first-come-first-served queue with
 * several servers is monotone: Kiefer and Wolfowitz 1955, from memory). */
#ifndef LITTERSHED_HAUL_SIM_H
#define LITTERSHED_HAUL_SIM_H

#include "littershed/base.h"

typedef int64_t ls_sim_time;

typedef struct {
    ls_sim_time load, out, empty, back; /* how long each takes */
} ls_sim_job;

/* The next n jobs, and what is moved before and after them. */
typedef struct {
    size_t n;          /* at least 1 */
    ls_sim_time ready; /* not begun before */
    ls_sim_time before, after;
} ls_sim_block;

typedef struct {
    size_t trucks;   /* at least 1 */
    ls_sim_time day; /* length of a working day, at least 1 */
    size_t jobs_n, blocks_n;
    const ls_sim_job *jobs;
    const ls_sim_block *blocks;
} ls_sim;

/* What became of a job: times at which each part of it began, and the truck was back. */
typedef struct {
    size_t truck; /* 0 ... */
    ls_sim_time start, leave, there, emptied, back;
    ls_sim_time waited; /* by its truck at the loader since it came back or the day began */
} ls_sim_trip;

typedef struct {
    ls_sim_time from, to;
} ls_sim_span;

typedef struct {
    ls_sim_trip *trips;          /* [job] */
    ls_sim_span *before, *after; /* [block] */
    ls_sim_time end;             /* the last truck is back, the last move done */
} ls_sim_answer;

/* Runs in time jobs x trucks. The answer lives in the arena. */
ls_sim_answer ls_sim_run(ls_arena *a, const ls_sim *s);

/* One day of an answer. The loader counts from the day's beginning to its last load of the day. */
typedef struct {
    ls_sim_time loading; /* by the loader */
    ls_sim_time moving;  /* things moved out of the way or back, all day long */
    ls_sim_time idle;    /* the loader could load, and waits for a truck or for the next day */
    ls_sim_time waiting; /* by trucks for the loader or the next day, all trucks together */
    ls_sim_time held;    /* by trucks while something is moved */
    ls_sim_time worked;  /* from the day's beginning to the last thing done on it */
} ls_sim_hours;

/* hours[d] for d = 0 ... days - 1; days as ls_sim_days says; the arena is for scratch. */
void ls_sim_by_day(ls_arena *a, const ls_sim *s, const ls_sim_answer *answer, ls_sim_hours *hours,
                   size_t days);

/* The number of days up to the answer's end. */
size_t ls_sim_days(const ls_sim *s, const ls_sim_answer *answer);

#endif
