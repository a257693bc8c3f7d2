/* What is done on each working day, and the hours of it. */
#include "plan.h"

#include <string.h>

#include <limits.h>
#include <stdlib.h>

/* ---- words ---- */

typedef struct {
    const ls_haul_planner *p;
    ls_sim_time from, to; /* of the day */
    ls_text *t;
    long loads; /* of all lots */
} teller;

/* A rest of seconds from the day before is not told. */
static bool moved(const teller *s, ls_sim_span span) {
    enum { MINUTE = 60 };
    return span.from < span.to && span.from < s->to && span.to > s->from &&
           (span.from >= s->from || span.to >= s->from + MINUTE);
}

static void add(teller *s, bool *begun, const char *name, const char *words) {
    if (!*begun) ls_text_addf(s->t, "%s%s: ", s->t->n > 0 ? "; " : "", name);
    ls_text_addf(s->t, "%s%s", *begun ? ", " : "", words);
    *begun = true;
}

/* "5 loads", and what is said of them. */
static const char *loads_of(const ls_haul_planner *p, long n, const char *said) {
    return ls_arena_printf(p->arena, "%ld load%s%s", n, n == 1 ? "" : "s", said);
}

/* Loads of a block begun on the day, and those still out from days before. */
static void say_block(teller *s, size_t block, size_t first) {
    const ls_haul_run *run = &s->p->run;
    const char *name = ls_haul_lot(s->p, run->lot[block])->name;
    long loads = 0, out = 0;
    bool begun = false;
    LS_EACH_OF (const ls_sim_trip, t, run->x.trips + first, run->s.blocks[block].n) {
        loads += s->from <= t->start && t->start < s->to;
        out += t->start < s->from && t->back > s->from;
    }
    if (moved(s, run->x.before[block])) add(s, &begun, name, "slats off");
    if (loads > 0) add(s, &begun, name, loads_of(s->p, loads, ""));
    if (out > 0) add(s, &begun, name, loads_of(s->p, out, " from the day before"));
    if (moved(s, run->x.after[block])) add(s, &begun, name, "slats back");
    s->loads += loads;
}

/* Loads of the log on a day that was begun before the plan. */
static long gone_on(const ls_haul_planner *p, ls_date day) {
    long gone = 0;
    LS_EACH (const ls_hauled, load, p->farm->hauled) gone += p->from == day && load->day == day;
    return gone;
}

static const char *words_of(const ls_haul_planner *p, size_t day, long *loads) {
    ls_sim_time length = p->clock.day;
    teller s = {p, (ls_sim_time)day * length, (ls_sim_time)(day + 1) * length, ls_text_new(p->arena), 0};
    long gone = gone_on(p, p->clock.on.at[day]);
    if (gone > 0) ls_text_add(s.t, loads_of(p, gone, " gone already"));
    for (size_t b = 0, first = 0; b < p->run.s.blocks_n; first += p->run.s.blocks[b++].n)
        if (p->run.x.before[b].from < s.to) say_block(&s, b, first);
    *loads = s.loads;
    return s.t->s;
}

/* ---- what is out ---- */

static const char *who(const ls_haul_planner *p, const ls_sim_out *o) {
    ls_sim_who who = o->who;
    if (who.what == LS_SIM_TRUCK)
        return ls_arena_printf(p->arena, "%s %s",
                               ls_farm_truck_called(p->arena, &p->farm->trucks.at[who.kind], (long)who.truck + 1),
                               o < p->clock.out.at + p->clock.out.n - p->clock.on_road ? "out" : "on the road");
    return who.what == LS_SIM_ALL ? "no work" : who.what == LS_SIM_LOADER ? "loader out" : "slat hands out";
}

/* " until 3:30 pm" */
static const char *hours_out(const ls_haul_planner *p, ls_sim_span day, const ls_sim_out *o) {
    bool from = o->from > day.from, to = o->to < day.to;
    const char *begins = ls_clock_words(p->arena, ls_haul_moment(p, o->from).second),
               *ends = ls_clock_words(p->arena, ls_haul_moment_end(p, o->to).second);
    return from && to ? ls_arena_printf(p->arena, " %s to %s", begins, ends)
           : from     ? ls_arena_printf(p->arena, " from %s", begins)
           : to       ? ls_arena_printf(p->arena, " until %s", ends)
                      : " all day";
}

/* "no work until 1:00 pm"; hours before a plan from an hour on in which loads went: "5 loads went until 1:00 pm" */
static const char *words_out(const ls_haul_planner *p, ls_sim_span day, const ls_sim_out *o) {
    ls_date on = ls_haul_moment(p, day.from).day;
    long gone = gone_on(p, on);
    const char *name = who(p, o);
    if (o->who.what == LS_SIM_ALL && gone > 0 && o->to == ls_haul_work_time(p, on, p->from_second))
        name = loads_of(p, gone, " went");
    return ls_arena_printf(p->arena, "%s%s", name, hours_out(p, day, o));
}

/* Days on which the same is out all day stand in one line. */
static void list_out(ls_haul_planner *p) {
    size_t days = ls_sim_days(&p->run.s, &p->run.x);
    const char *before = "", *first = "";
    for (size_t d = 0; d < days; d++) {
        ls_sim_span day = {(ls_sim_time)d * p->clock.day, (ls_sim_time)(d + 1) * p->clock.day};
        ls_text *t = ls_text_new(p->arena);
        LS_EACH (const ls_sim_out, o, p->clock.out)
            if (o->from < day.to && o->to > day.from)
                ls_text_addf(t, "%s%s", t->n > 0 ? ", " : "", words_out(p, day, o));
        const char *on = ls_date_words(p->arena, p->clock.on.at[d], ls_farm_year(p->farm)), *out = t->s;
        bool goes_on = t->n > 0 && strcmp(out, before) == 0;
        first = goes_on ? first : on;
        before = out;
        if (goes_on) p->plan->outs.n--;
        if (t->n > 0)
            *LS_PUSH(p->arena, &p->plan->outs) =
                ls_arena_printf(p->arena, "%s%s%s: %s", first, goes_on ? " to " : "", goes_on ? on : "", out);
    }
}

/* ---- lines ---- */

static ls_line tons_on(ls_haul_planner *p, ls_worksheet *w, ls_date day) {
    ls_line *lines = LS_NEW(p->arena, ls_line, p->plan->loads_n);
    size_t n = 0;
    LS_EACH_OF (const ls_load, l, p->loads, p->plan->loads_n)
        if (l->day == day && ls_load_counted(l)) lines[n++] = l->tons;
    if (n == 0) return ls_haul_decided(w, "tons", "tons hauled on the day: none", "ton", 0, NULL);
    return ls_sum(w, "tons", "tons hauled on the day", "ton", lines, n);
}

static ls_line hours(ls_worksheet *w, const char *key, const char *label, ls_sim_time time) {
    return ls_haul_timed(w, key, ls_printf(w, "%s, %%s", label), time);
}

static const char out_label[] = "hours the loader is out, but for those slats are moved in",
                  stopped_label[] = "hours trucks wait while the loader is out";

static void fill(ls_haul_planner *p, ls_workday *d, size_t day, const ls_sim_hours *h) {
    *d = (ls_workday){.day = p->clock.on.at[day]};
    d->done = (ls_moment){d->day, (long)(p->clock.dawn + h->ends)};
    d->work = words_of(p, day, &d->loads);
    ls_worksheet *w = ls_part(p->w, ls_date_words(p->arena, d->day, 0), "plan.day.%s", ls_date_iso(p->arena, d->day));
    d->tons = tons_on(p, w, d->day);
    d->loading = hours(w, "loading", "hours the loader loads", h->loading);
    d->idle = hours(w, "idle", "hours the loader waits for a truck", h->idle);
    d->slats = hours(w, "slats", "hours slats are moved", h->moving);
    d->waiting = hours(w, "waiting", "hours trucks wait for the loader", h->waiting);
    d->held = hours(w, "held", "hours trucks wait for slats", h->held);
    if (p->clock.out.n == 0) return;
    d->out = hours(w, "out", out_label, h->out);
    d->stopped = hours(w, "stopped", stopped_label, h->stopped);
}

/* One kind of hours over all days. */
static ls_line total(ls_haul_planner *p, const char *what, const char *label) {
    ls_line *lines = LS_NEW(p->arena, ls_line, p->plan->days_n);
    for (size_t d = 0; d < p->plan->days_n; d++) {
        const char *day = ls_date_iso(p->arena, p->plan->days[d].day);
        lines[d] = ls_line_find(ls_part(p->w, NULL, "plan.day.%s", day), what);
    }
    ls_worksheet *w = ls_part(p->w, NULL, "plan.days");
    if (p->plan->days_n == 0) return ls_haul_timed(w, what, label, 0);
    return ls_sum(w, what, label, "h", lines, p->plan->days_n);
}

static void totals(ls_haul_planner *p) {
    ls_plan *plan = p->plan;
    plan->loading = total(p, "loading", "hours the loader loads");
    plan->idle = total(p, "idle", "hours the loader waits for a truck");
    plan->slats = total(p, "slats", "hours slats are moved");
    plan->waiting = total(p, "waiting", "hours trucks wait for the loader");
    plan->held = total(p, "held", "hours trucks wait for slats");
    if (p->clock.out.n == 0) return;
    plan->out_hours = total(p, "out", out_label);
    plan->stopped = total(p, "stopped", stopped_label);
}

static void list_days(ls_haul_planner *p) {
    size_t days, n = 0;
    const ls_sim_hours *h = ls_haul_hours(p, &p->run, &days);
    ls_workday *list = LS_NEW(p->arena, ls_workday, days);
    for (size_t d = 0; d < days; d++)
        if (h[d].worked > 0) fill(p, &list[n++], d, &h[d]);
    p->plan->days = list;
    p->plan->days_n = n;
    totals(p);
}

/* ---- slats ---- */

static int by_time(const void *left, const void *right) {
    const ls_move *a = left, *b = right;
    return a->from.day != b->from.day ? (a->from.day > b->from.day ? 1 : -1)
                                      : (a->from.second > b->from.second) - (a->from.second < b->from.second);
}

/* Spans of time that do not meet. */
static void list_moves(ls_haul_planner *p) {
    const ls_haul_run *run = &p->run;
    ls_move *list = LS_NEW(p->arena, ls_move, 2 * run->s.blocks_n);
    size_t n = 0;
    for (size_t b = 0; b < run->s.blocks_n; b++)
        for (int back = 0; back < 2; back++) {
            ls_sim_span span = back ? run->x.after[b] : run->x.before[b];
            if (span.to > span.from)
                list[n++] = (ls_move){ls_haul_lot(p, run->lot[b]), back == 1, ls_haul_moment(p, span.from),
                                      ls_haul_moment_end(p, span.to)};
        }
    if (n > 0) qsort(list, n, sizeof *list, by_time);
    p->plan->moves = list;
    p->plan->moves_n = n;
}

/* ---- before the next flock ---- */

static ls_line ready(ls_haul_planner *p) {
    const ls_farm_facts *facts = p->farm->facts;
    if (facts == NULL || facts->make_ready == NULL) return LS_NO_LINE;
    const ls_make_ready *m = facts->make_ready;
    const struct {
        const ls_quantity *days;
        const char *key, *label;
    } all[] = {{&m->wash, "wash", "days for washing"},
               {&m->repairs, "repairs", "days for repairs"},
               {&m->bedding, "bedding", "days for bedding down"}};
    ls_worksheet *w = ls_part(p->w, NULL, "make_ready");
    ls_line lines[3] = {LS_NO_LINE};
    for (size_t k = 0; k < 3; k++)
        if (LS_GIVEN(*all[k].days)) lines[k] = ls_leaf_given(w, all[k].key, all[k].label, "days", all[k].days);
    return ls_sum(w, "days", "days the empty houses need", "days", lines, 3);
}

/* Whole days between the day of the finish and the day the flock comes, neither counted; the houses
 * need whole days too. */
static void slack(ls_haul_planner *p) {
    ls_plan *plan = p->plan;
    const ls_farm_facts *facts = p->farm->facts;
    bool known = facts != NULL && LS_GIVEN(facts->next_flock);
    plan->slack_days = known ? (long)facts->next_flock.day - plan->finish : LONG_MIN;
    plan->ready = ready(p);
    double need = plan->ready == LS_NO_LINE ? 0 : ls_line_shown(p->w, plan->ready);
    long whole = (long)need + ((double)(long)need < need);
    plan->spare_days = known ? plan->slack_days - 1 - whole : LONG_MIN;
}

void ls_haul_workdays(ls_haul_planner *p) {
    ls_plan *plan = p->plan;
    list_days(p);
    list_moves(p);
    list_out(p);
    plan->day_begins = (long)p->clock.dawn;
    plan->day_seconds = (long)p->clock.day;
    plan->begins = (ls_moment){ls_haul_first_day(p), p->from_second};
    plan->working_days = (long)plan->days_n;
    plan->start = plan->days_n > 0 ? plan->days[0].day : p->farm->crew->arrives.day;
    plan->finish = plan->days_n > 0 ? plan->days[plan->days_n - 1].day : plan->start;
    plan->ends = ls_haul_moment_end(p, p->run.x.end);
    plan->high_finish = LS_NO_DATE;
    if (p->trips_n < plan->loads_n) {
        plan->high_ends = ls_haul_moment_end(p, p->high_run.x.end);
        plan->high_finish = plan->high_ends.day;
        plan->high_days = ls_haul_worked_days(p, &p->high_run) - plan->working_days;
    }
    slack(p);
}
