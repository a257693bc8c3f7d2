/* Seconds on the wall, and of processor time of all threads of this process. */
#pragma once

#include <time.h>

static inline double bench_seconds(clockid_t clock) {
    struct timespec t;
    clock_gettime(clock, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static inline double bench_wall(void) { return bench_seconds(CLOCK_MONOTONIC); }

static inline double bench_work(void) { return bench_seconds(CLOCK_PROCESS_CPUTIME_ID); }
