/* What a simulation comes to, day by day. */
#include "sim.h"

typedef struct {
    const ls_sim *s;
    const ls_sim_answer *x;
    ls_sim_hours *hours;
    ls_sim_span *stands; /* the loader, for something that is moved: disjoint */
    size_t stands_n;
} books;

static const ls_sim_who all = {.what = LS_SIM_ALL}, loader = {.what = LS_SIM_LOADER}, hands = {.what = LS_SIM_HANDS};

size_t ls_sim_days(const ls_sim *s, const ls_sim_answer *answer) {
    return (size_t)((answer->end + s->day - 1) / s->day);
}

static ls_sim_time least(ls_sim_time a, ls_sim_time b) { return a < b ? a : b; }

static ls_sim_time most(ls_sim_time a, ls_sim_time b) { return a > b ? a : b; }

static ls_sim_span common(ls_sim_span a, ls_sim_span b) {
    ls_sim_span c = {most(a.from, b.from), least(a.to, b.to)};
    return c.from < c.to ? c : (ls_sim_span){0, 0};
}

/* ---- work ---- */

typedef enum { LOADING, MOVING, ON_THE_ROAD } task;

static void add_work(books *b, task what, ls_sim_span span) {
    for (ls_sim_time t = span.from; t < span.to;) {
        ls_sim_time day = t / b->s->day, dawn = day * b->s->day, to = least(span.to, dawn + b->s->day);
        ls_sim_hours *h = &b->hours[day];
        h->loading += what == LOADING ? to - t : 0;
        h->moving += what == MOVING ? to - t : 0;
        h->ends = most(h->ends, to - dawn);
        h->worked = most(h->worked, to - dawn - ls_sim_absent(b->s, all, (ls_sim_span){dawn, to}));
        t = to;
    }
}

static void add_move(books *b, ls_sim_span span) {
    for (ls_sim_time t = span.from; t < span.to; t = ls_sim_there(b->s, hands, t)) {
        ls_sim_time to = least(span.to, ls_sim_until(b->s, hands, t));
        add_work(b, MOVING, (ls_sim_span){t, to});
        t = to;
    }
}

/* ---- waits ---- */

/* A wait in parts. */
typedef struct {
    ls_sim_time held, out, rest;
} parts;

static ls_sim_time loader_out(const books *b, ls_sim_span span) {
    return ls_sim_absent(b->s, loader, span) - ls_sim_absent(b->s, all, span);
}

static parts parts_of(const books *b, ls_sim_span wait) {
    parts p = {0, loader_out(b, wait), 0};
    for (size_t k = 0; k < b->stands_n; k++) {
        ls_sim_span c = common(wait, b->stands[k]);
        p.held += c.to - c.from - ls_sim_absent(b->s, all, c);
        p.out -= loader_out(b, c);
    }
    p.rest = wait.to - wait.from - ls_sim_absent(b->s, all, wait) - p.held - p.out;
    return p;
}

static ls_sim_span move_of(const books *b, size_t k) { return k % 2 ? b->x->after[k / 2] : b->x->before[k / 2]; }

/* When a move would have begun had the hands not been out then: after that time, and after the moves before it. */
static ls_sim_time due(const books *b, ls_sim_span span, ls_sim_time from) {
    for (size_t k = 0; k < 2 * b->s->blocks_n; k++) {
        ls_sim_span m = move_of(b, k);
        if (m.from < m.to && m.to <= span.from) from = most(from, m.to);
    }
    return from < span.from && ls_sim_there(b->s, hands, from) == span.from ? from : span.from;
}

/* From the last load before a block until nothing is in its way. */
static void add_stands(books *b, size_t block, ls_sim_time from) {
    ls_sim_span gap = {from, b->x->before[block].to};
    for (size_t k = 0; k < 2 * b->s->blocks_n; k++) {
        ls_sim_span span = move_of(b, k);
        if (span.from == span.to || span.from >= gap.to || span.to <= gap.from) continue;
        span.from = due(b, span, k % 2 ? from : most(from, b->s->blocks[k / 2].ready));
        b->stands[b->stands_n++] = common(gap, span);
    }
}

/* The loader is free, until it loads again: out on each day, idle on the last. */
static void add_free(books *b, ls_sim_span span) {
    for (ls_sim_time t = span.from; t < span.to;) {
        ls_sim_time day = t / b->s->day, to = least(span.to, (day + 1) * b->s->day);
        parts p = parts_of(b, (ls_sim_span){t, to});
        b->hours[day].out += p.out;
        b->hours[day].idle += day == span.to / b->s->day ? p.rest : 0;
        t = to;
    }
}

/* The loader was free from that time on. */
static void add_trip(books *b, const ls_sim_trip *t, ls_sim_time free) {
    ls_sim_hours *h = &b->hours[t->start / b->s->day];
    parts of_truck = parts_of(b, (ls_sim_span){t->start - t->waited, t->start});
    add_free(b, (ls_sim_span){free, t->start});
    h->held += of_truck.held;
    h->stopped += of_truck.out;
    h->waiting += of_truck.rest;
    add_work(b, LOADING, (ls_sim_span){t->start, t->leave});
    add_work(b, ON_THE_ROAD, (ls_sim_span){t->leave, t->back});
}

void ls_sim_by_day(ls_arena *a, const ls_sim *s, const ls_sim_answer *answer, ls_sim_hours *hours, size_t days) {
    /* Each move may end the stand before one block and begin that before the next. */
    books b = {s, answer, hours, LS_NEW(a, ls_sim_span, 3 * s->blocks_n), 0};
    for (size_t d = 0; d < days; d++) hours[d] = (ls_sim_hours){0};
    for (size_t k = 0, trip = 0; k < s->blocks_n; trip += s->blocks[k++].n)
        add_stands(&b, k, trip > 0 ? answer->trips[trip - 1].leave : 0);
    for (size_t k = 0; k < s->jobs_n; k++) add_trip(&b, &answer->trips[k], k > 0 ? answer->trips[k - 1].leave : 0);
    for (size_t k = 0; k < s->blocks_n; k++) {
        add_move(&b, answer->before[k]);
        add_move(&b, answer->after[k]);
    }
}
