/* What a simulation comes to, day by day. */
#include "sim.h"

typedef struct {
    const ls_sim *s;
    ls_sim_hours *hours;
    ls_sim_time *loaded;     /* [day] when its last load is loaded, within the day */
    ls_sim_time *moved_then; /* [day] moves until then */
} books;

size_t ls_sim_days(const ls_sim *s, const ls_sim_answer *answer) {
    return (size_t)((answer->end + s->day - 1) / s->day);
}

static ls_sim_time least(ls_sim_time a, ls_sim_time b) {
    return a < b ? a : b;
}

static void reach(ls_sim_time *most, ls_sim_time t) {
    *most = t > *most ? t : *most;
}

/* Calls add for the part of a span on each of its days, as times within the day. */
static void by_day(books *b, ls_sim_span span,
                   void (*add)(books *b, size_t day, ls_sim_time from, ls_sim_time to)) {
    for (ls_sim_time t = span.from; t < span.to;) {
        ls_sim_time day = t / b->s->day, night = (day + 1) * b->s->day, to = least(span.to, night);
        add(b, (size_t)day, t - day * b->s->day, to - day * b->s->day);
        t = to;
    }
}

static void add_work(books *b, size_t day, ls_sim_time from, ls_sim_time to) {
    (void)from;
    reach(&b->hours[day].worked, to);
}

static void add_loading(books *b, size_t day, ls_sim_time from, ls_sim_time to) {
    b->hours[day].loading += to - from;
    reach(&b->loaded[day], to);
    add_work(b, day, from, to);
}

static void add_move(books *b, size_t day, ls_sim_time from, ls_sim_time to) {
    b->hours[day].moving += to - from;
    if (from < b->loaded[day])
        b->moved_then[day] += least(to, b->loaded[day]) - from;
    add_work(b, day, from, to);
}

static ls_sim_time common(ls_sim_span a, ls_sim_span b) {
    ls_sim_time from = a.from > b.from ? a.from : b.from, to = least(a.to, b.to);
    return to > from ? to - from : 0;
}

/* The part of a truck's wait during which something was moved: for its own block, or one before. */
static ls_sim_time held(const ls_sim_answer *x, size_t block, ls_sim_span wait) {
    ls_sim_time sum = common(wait, x->before[block]);
    for (size_t b = block; b > 0 && x->after[b - 1].to > wait.from; b--)
        sum += common(wait, x->after[b - 1]) + common(wait, x->before[b - 1]);
    return sum;
}

static void add_trip(books *b, const ls_sim_answer *x, size_t block, const ls_sim_trip *t) {
    by_day(b, (ls_sim_span){t->start, t->leave}, add_loading);
    by_day(b, (ls_sim_span){t->leave, t->back}, add_work);
    ls_sim_hours *h = &b->hours[t->start / b->s->day];
    ls_sim_time stopped = held(x, block, (ls_sim_span){t->start - t->waited, t->start});
    h->waiting += t->waited - stopped;
    h->held += stopped;
}

void ls_sim_by_day(ls_arena *a, const ls_sim *s, const ls_sim_answer *answer, ls_sim_hours *hours,
                   size_t days) {
    books b = {s, hours, LS_NEW(a, ls_sim_time, days), LS_NEW(a, ls_sim_time, days)};
    for (size_t d = 0; d < days; d++)
        hours[d] = (ls_sim_hours){0};
    for (size_t k = 0, trip = 0; k < s->blocks_n; k++)
        for (size_t end = trip + s->blocks[k].n; trip < end; trip++)
            add_trip(&b, answer, k, &answer->trips[trip]);
    for (size_t k = 0; k < s->blocks_n; k++) {
        by_day(&b, answer->before[k], add_move);
        by_day(&b, answer->after[k], add_move);
    }
    for (size_t d = 0; d < days; d++)
        hours[d].idle = b.loaded[d] - hours[d].loading - b.moved_then[d];
}
