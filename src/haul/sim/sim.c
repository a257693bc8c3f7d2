#include "sim.h"

typedef struct {
    const ls_sim *s;
    ls_sim_time *home;  /* [truck] when it is back */
    ls_sim_time loader; /* free from */
} yard;

static ls_sim_time day_of(const ls_sim *s, ls_sim_time t) {
    return t / s->day;
}

static ls_sim_time dawn(const ls_sim *s, ls_sim_time t) {
    return t - t % s->day;
}

static ls_sim_time whole(const ls_sim_job *j) {
    return j->load + j->out + j->empty + j->back;
}

/* May a load be begun at this time? */
static bool fits(const ls_sim *s, const ls_sim_job *j, ls_sim_time t) {
    return t % s->day == 0 || t % s->day + whole(j) <= s->day;
}

/* The truck that has waited longest on the day of t, or comes back first. */
static size_t next_truck(const yard *y, ls_sim_time t) {
    ls_sim_time best = INT64_MAX, from = dawn(y->s, t);
    size_t truck = 0;
    for (size_t k = 0; k < y->s->trucks; k++) {
        ls_sim_time since = y->home[k] > from ? y->home[k] : from;
        if (since < best)
            best = since, truck = k;
    }
    return truck;
}

/* When the load is begun, not before t, and with which truck. */
static ls_sim_time begin(const yard *y, const ls_sim_job *j, ls_sim_time t, size_t *truck) {
    for (;;) {
        *truck = next_truck(y, t);
        ls_sim_time home = y->home[*truck];
        if (home > t && day_of(y->s, home) > day_of(y->s, t)) {
            t = home; /* others may be back by then too */
            continue;
        }
        t = home > t ? home : t;
        if (fits(y->s, j, t))
            return t;
        t = dawn(y->s, t) + y->s->day;
    }
}

static void haul(yard *y, const ls_sim_job *j, ls_sim_trip *trip) {
    ls_sim_time start = begin(y, j, y->loader, &trip->truck), home = y->home[trip->truck];
    ls_sim_time since = home > dawn(y->s, start) ? home : dawn(y->s, start);
    trip->waited = start - since;
    trip->start = start;
    trip->leave = start + j->load;
    trip->there = trip->leave + j->out;
    trip->emptied = trip->there + j->empty;
    trip->back = trip->emptied + j->back;
    y->loader = trip->leave;
    y->home[trip->truck] = trip->back;
}

static ls_sim_span move(yard *y, ls_sim_time time) {
    ls_sim_span span = {y->loader, y->loader + time};
    y->loader = span.to;
    return span;
}

ls_sim_answer ls_sim_run(ls_arena *a, const ls_sim *s) {
    yard y = {s, LS_NEW(a, ls_sim_time, s->trucks), 0};
    ls_sim_answer answer = {LS_NEW(a, ls_sim_trip, s->jobs_n), LS_NEW(a, ls_sim_span, s->blocks_n),
                            LS_NEW(a, ls_sim_span, s->blocks_n), 0};
    for (size_t b = 0, k = 0; b < s->blocks_n; b++) {
        const ls_sim_block *block = &s->blocks[b];
        y.loader = block->ready > y.loader ? block->ready : y.loader;
        answer.before[b] = move(&y, block->before);
        for (size_t end = k + block->n; k < end; k++) {
            haul(&y, &s->jobs[k], &answer.trips[k]);
            answer.end = answer.trips[k].back > answer.end ? answer.trips[k].back : answer.end;
        }
        answer.after[b] = move(&y, block->after);
    }
    answer.end = y.loader > answer.end ? y.loader : answer.end;
    return answer;
}
