#include "sim.h"

typedef struct {
    const ls_sim *s;
    ls_sim_time **home;  /* [kind][truck] when it is back */
    ls_sim_time *loaded; /* [block] */
    ls_sim_time loader;  /* free from */
    ls_sim_time hands;
    size_t back; /* blocks whose moves back are worked */
    ls_sim_answer answer;
} yard;

/* ---- who is out when ---- */

static bool is(const ls_sim_out *o, ls_sim_who who) {
    return o->who.what == LS_SIM_ALL ||
           (o->who.what == who.what && o->who.kind == who.kind && o->who.truck == who.truck);
}

ls_sim_time ls_sim_there(const ls_sim *s, ls_sim_who who, ls_sim_time t) {
    for (size_t k = 0; k < s->outs_n;) {
        const ls_sim_out *o = &s->outs[k++];
        if (is(o, who) && o->from <= t && t < o->to) t = o->to, k = 0; /* one seen before may cover this moment */
    }
    return t;
}

ls_sim_time ls_sim_until(const ls_sim *s, ls_sim_who who, ls_sim_time t) {
    ls_sim_time next = INT64_MAX;
    for (size_t k = 0; k < s->outs_n; k++) {
        const ls_sim_out *o = &s->outs[k];
        ls_sim_time from = o->from > t ? o->from : t;
        if (is(o, who) && from < o->to && from < next) next = from;
    }
    return next;
}

ls_sim_time ls_sim_absent(const ls_sim *s, ls_sim_who who, ls_sim_span span) {
    ls_sim_time sum = 0;
    for (ls_sim_time t = span.from; t < span.to;) {
        ls_sim_time from = ls_sim_until(s, who, t), to = ls_sim_there(s, who, from);
        if (from < span.to) sum += (to < span.to ? to : span.to) - from;
        t = to;
    }
    return sum;
}

/* ---- loads ---- */

static const ls_sim_who loader = {.what = LS_SIM_LOADER}, hands = {.what = LS_SIM_HANDS};

static ls_sim_time later(ls_sim_time a, ls_sim_time b) { return a > b ? a : b; }

static ls_sim_time dawn(const ls_sim *s, ls_sim_time t) { return t - t % s->day; }

/* The first moment from t on from which someone is there for so long. */
static ls_sim_time there_for(const ls_sim *s, ls_sim_who who, ls_sim_time t, ls_sim_time takes) {
    for (;;) {
        t = ls_sim_there(s, who, t);
        ls_sim_time until = ls_sim_until(s, who, t);
        if (until - t >= takes) return t;
        t = until;
    }
}

/* The first moment from t on at which a load may be begun with a truck. */
static ls_sim_time fits(const ls_sim *s, const ls_sim_job *j, ls_sim_who truck, ls_sim_time t) {
    for (ls_sim_time tried = -1; tried < t;) {
        tried = t;
        t = there_for(s, truck, there_for(s, loader, t, j->load), ls_sim_whole(*j));
        if (t % s->day > 0 && t % s->day + ls_sim_whole(*j) > s->day) t = dawn(s, t) + s->day;
    }
    return t;
}

/* Since when a truck stands there that begins at t. */
static ls_sim_time since(const yard *y, ls_sim_who truck, ls_sim_time t) {
    ls_sim_time from = later(y->home[truck.kind][truck.truck], dawn(y->s, t)), out;
    while ((out = ls_sim_until(y->s, truck, from)) < t) from = ls_sim_there(y->s, truck, out);
    return from;
}

/* A load is put on the truck with which it is begun soonest. */
static void choose(const yard *y, const ls_sim_job *j, ls_sim_trip *trip) {
    trip->start = INT64_MAX;
    for (size_t k = 0; k < y->s->trucks[j->kind]; k++) {
        ls_sim_who truck = {LS_SIM_TRUCK, j->kind, k};
        ls_sim_time t = fits(y->s, j, truck, later(y->loader, y->home[j->kind][k]));
        ls_sim_time waited = t - since(y, truck, t);
        if (t < trip->start || (t == trip->start && waited > trip->waited))
            *trip = (ls_sim_trip){.truck = k, .start = t, .waited = waited};
    }
}

static void haul(yard *y, const ls_sim_job *j, ls_sim_trip *trip) {
    choose(y, j, trip);
    trip->leave = trip->start + j->load;
    trip->there = trip->leave + j->out;
    trip->emptied = trip->there + j->empty;
    trip->back = trip->emptied + j->back;
    y->loader = trip->leave;
    y->home[j->kind][trip->truck] = trip->back;
    y->answer.end = later(y->answer.end, trip->back);
}

/* ---- moves ---- */

static ls_sim_span move(yard *y, ls_sim_time from, ls_sim_time time) {
    if (time == 0) return (ls_sim_span){from, from};
    ls_sim_span span = {ls_sim_there(y->s, hands, later(from, y->hands)), 0};
    ls_sim_time t = span.from, until;
    while ((until = ls_sim_until(y->s, hands, t)) - t < time) {
        time -= until - t;
        t = ls_sim_there(y->s, hands, until);
    }
    y->hands = span.to = t + time;
    return span;
}

/* All blocks before this one are moved back. */
static void move_back(yard *y, size_t end) {
    for (; y->back < end; y->back++) {
        ls_sim_span *span = &y->answer.after[y->back];
        *span = move(y, y->loaded[y->back], y->s->blocks[y->back].after);
        y->answer.end = later(y->answer.end, span->to);
    }
}

/* The day before one on which a truck of the kind is there. */
static ls_sim_time day_before(const ls_sim *s, size_t kind, ls_sim_time from) {
    ls_sim_time first = INT64_MAX;
    for (size_t k = 0; k < s->trucks[kind]; k++) {
        ls_sim_time t = ls_sim_there(s, (ls_sim_who){LS_SIM_TRUCK, kind, k}, from);
        first = t < first ? t : first;
    }
    return later(from, dawn(s, first) - s->day);
}

/* What is moved before a block is loaded, whose first load goes onto a truck of that kind. */
static void clear(yard *y, size_t b, size_t kind) {
    const ls_sim_block *blocks = y->s->blocks;
    size_t own = y->s->while_loading ? 0 : b; /* blocks up to the one that it waits for */
    size_t front = b > 0 ? b - 1 : 0;
    for (size_t k = 0; k < b; k++)
        if (blocks[k].house == blocks[b].house && k >= own) own = k + 1;
    move_back(y, own > front ? own : front);
    ls_sim_time from = blocks[b].ready;
    if (own > 0) from = later(from, y->answer.after[own - 1].to);
    if (blocks[b].before > 0) from = day_before(y->s, kind, from);
    y->answer.before[b] = move(y, from, blocks[b].before);
    y->loader = later(y->loader, y->answer.before[b].to);
}

ls_sim_answer ls_sim_run(ls_arena *a, const ls_sim *s) {
    yard y = {.s = s,
              .home = LS_NEW(a, ls_sim_time *, s->kinds_n),
              .loaded = LS_NEW(a, ls_sim_time, s->blocks_n),
              .answer = {LS_NEW(a, ls_sim_trip, s->jobs_n), LS_NEW(a, ls_sim_span, s->blocks_n),
                         LS_NEW(a, ls_sim_span, s->blocks_n), 0}};
    for (size_t kind = 0; kind < s->kinds_n; kind++) y.home[kind] = LS_NEW(a, ls_sim_time, s->trucks[kind]);
    for (size_t b = 0, k = 0; b < s->blocks_n; b++) {
        clear(&y, b, s->jobs[k].kind);
        for (size_t end = k + s->blocks[b].n; k < end; k++) haul(&y, &s->jobs[k], &y.answer.trips[k]);
        y.loaded[b] = y.loader;
    }
    move_back(&y, s->blocks_n);
    return y.answer;
}
