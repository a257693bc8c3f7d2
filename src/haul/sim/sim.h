/* Loads of trucks under one loader, event by event. Knows nothing of farms, dates or units: times
 * are whole ticks of working time, which runs on from one working day to the next; day d holds
 * the ticks from d x day to (d + 1) x day. The same input gives the same answer on every machine.
 *
 * The rules. Blocks of loads are hauled in their order, loads of a block in theirs. Before a block
 * something is moved out of the way, after its last load is loaded it is moved back; moves may
 * stop at night and go on the next day. The loader loads one truck at a time; a load goes onto the
 * truck of its kind with which it is begun soonest, of these the one that has waited longest (of
 * equals the one with the lowest number); later loads wait for it, of whatever kind they are. A
 * load is begun only if its truck can be back before the day ends, else everything waits for the
 * next day; a load that takes longer than a day begins with a day and runs on.
 *
 * What is out: the loader loads nothing, a truck is on no trip, the hands' moves pause and go on;
 * and a block's own is moved out of the way no sooner than the day before one on which a truck for
 * its first load is there.
 *
 * Moves are worked one after the other, in an order that does not hang on times. As a rule all of
 * the block in front is moved back before a block's own is moved out of the way, and nothing is
 * loaded meanwhile. While loading: a block's own is moved after what the blocks before the one in
 * front and those of its own house need moved back, while the loader goes on with the block in
 * front; so a house is always moved strictly in turn, and another house's in the meantime. What
 * takes no time waits for no hands.
 *
 * Loads never overtake each other, so every time is the greatest of earlier ones, put off to a
 * moment that fits, and trucks of a kind that are never out singly are alike. Therefore no time
 * that is made shorter, and no truck that is added, ever makes anything happen later (the recursion
 * of the first-come-first-served queue with several servers is monotone: Kiefer and Wolfowitz 1955,
 * from memory), whenever the loader, the hands or all are out.
 *
 * Single trucks out: a truck that is added makes nothing later as long as of each kind no more than
 * one is out, however often. For when a load was begun without the added truck, all loads that are
 * on the road with it were on the road too, by induction; so at least two trucks are there, of
 * which one at most goes out too soon. With two of a kind out both may. And a shorter time may make
 * things later with one out: a load begun sooner may take the truck that a long one behind it
 * needs.
 */
#pragma once

#include "littershed/base.h"

typedef int64_t ls_sim_time;

typedef struct {
    ls_sim_time load, out, empty, back; /* how long each takes */
    size_t kind;                        /* of truck */
} ls_sim_job;
static inline ls_sim_time ls_sim_whole(ls_sim_job j) { return j.load + j.out + j.empty + j.back; }

/* The next n jobs, and what is moved before and after them. */
typedef struct {
    size_t n;          /* at least 1 */
    ls_sim_time ready; /* neither moved nor loaded before */
    ls_sim_time before, after;
    size_t house; /* any number: blocks with the same one lie in the same house */
} ls_sim_block;

typedef enum { LS_SIM_ALL, LS_SIM_LOADER, LS_SIM_HANDS, LS_SIM_TRUCK } ls_sim_what;

typedef struct {
    ls_sim_what what;
    size_t kind, truck; /* LS_SIM_TRUCK: which of them, 0 ... */
} ls_sim_who;

typedef struct {
    ls_sim_who who;
    ls_sim_time from, to;
} ls_sim_out;

typedef struct {
    size_t kinds_n;       /* of trucks, at least 1 */
    const size_t *trucks; /* [kind] at least 1 where it has jobs */
    ls_sim_time day;      /* length of a working day, at least 1 */
    size_t jobs_n, blocks_n, outs_n;
    const ls_sim_job *jobs;
    const ls_sim_block *blocks;
    const ls_sim_out *outs; /* in any order; may overlap */
    bool while_loading;     /* another house's moves go on while the loader loads */
} ls_sim;

/* What became of a job: times at which each part of it began, and the truck was back. */
typedef struct {
    size_t truck; /* of its kind, 0 ... */
    ls_sim_time start, leave, there, emptied, back;
    ls_sim_time waited; /* by its truck at the loader since it came back, was no longer out, or the
                           day began */
} ls_sim_trip;

typedef struct {
    ls_sim_time from, to;
} ls_sim_span;

typedef struct {
    ls_sim_trip *trips;          /* [job] */
    ls_sim_span *before, *after; /* [block] with the pauses in it */
    ls_sim_time end;             /* the last truck is back, the last move done */
} ls_sim_answer;

/* Runs in time jobs x trucks x (1 + outs). The answer lives in the arena. */
ls_sim_answer ls_sim_run(ls_arena *a, const ls_sim *s);

/* The first moment from t on at which someone is not out; the next at which he is (INT64_MAX:
 * never), t if he is out now. */
ls_sim_time ls_sim_there(const ls_sim *s, ls_sim_who who, ls_sim_time t);
ls_sim_time ls_sim_until(const ls_sim *s, ls_sim_who who, ls_sim_time t);
/* How long he is out within a span. */
ls_sim_time ls_sim_absent(const ls_sim *s, ls_sim_who who, ls_sim_span span);

/* One day of an answer. The loader is idle from the day's beginning to its last load of the day,
 * and out until its last load of all. Time in which all are out counts nowhere. */
typedef struct {
    ls_sim_time loading; /* by the loader */
    ls_sim_time moving;  /* things moved out of the way or back, all day long */
    ls_sim_time out;     /* the loader, not kept by moves */
    ls_sim_time idle;    /* the loader could load, and waits for a truck or for the next day */
    ls_sim_time waiting; /* by trucks for the loader or the next day, all trucks together */
    ls_sim_time stopped; /* by trucks while the loader is out */
    ls_sim_time held;    /* by trucks while the loader stands for something that is moved */
    ls_sim_time worked;  /* from the day's beginning to the last thing done on it */
    ls_sim_time ends;    /* the last thing done, after the day's beginning, hours of all out counted */
} ls_sim_hours;

/* hours[d] for d = 0 ... days - 1; days as ls_sim_days says; the arena is for scratch. */
void ls_sim_by_day(ls_arena *a, const ls_sim *s, const ls_sim_answer *answer, ls_sim_hours *hours, size_t days);

/* The number of days up to the answer's end. */
size_t ls_sim_days(const ls_sim *s, const ls_sim_answer *answer);
