/* The days of the loads listed. */
#include "plan.h"

/* A bound load is not split by the days its lot was expected on: it goes by those it is hauled on. */
static ls_date later(const ls_haul_planner *p, const ls_load *load, size_t lot, const ls_field *f) {
    ls_date day = ls_haul_later(p, lot, f);
    ls_haul_range hauled = ls_haul_range_of(p, p->hauled, p->lot_of[lot]);
    if (day != LS_NO_DATE || load->issued == NULL || ls_haul_is_stacked(p, lot) || hauled.from == LS_NO_DATE)
        return day;
    return ls_haul_later_from(p, hauled.to + 1, f);
}

static void out_dates(ls_haul_planner *p) {
    LS_EACH_OF (ls_load, load, p->loads + p->plan->loads_n, p->plan->out_n) {
        const ls_split_load *l = ls_haul_split_of(p, load);
        LS_EACH_OF (const ls_split_drop, d, p->high->drops + l->first, l->n) {
            ls_date day = later(p, load, l->lot, p->field[d->field]);
            if (load->from == LS_NO_DATE || day > load->from) load->from = day;
        }
    }
}

static void set_times(const ls_haul_planner *p, ls_load *load, const ls_sim_trip *t) {
    load->number = load->truck = 1 + (long)t->truck;
    for (size_t k = 0; k < load->kind; k++) load->truck += p->farm->trucks.at[k].count.n;
    load->start = ls_haul_moment(p, t->start);
    load->leave = ls_haul_moment_end(p, t->leave);
    load->there = ls_haul_moment_end(p, t->there);
    load->emptied = ls_haul_moment_end(p, t->emptied);
    load->back = ls_haul_moment_end(p, t->back);
    load->day = load->start.day;
}

/* Trips of all loads, or of those counted alone. */
static size_t trips_of(const ls_haul_planner *p, bool all, ls_haul_trip *trips) {
    size_t n = 0;
    for (size_t k = 0; k < p->plan->loads_n; k++) {
        const ls_split_load *l = ls_haul_split_of(p, &p->loads[k]);
        if (all || ls_load_counted(&p->loads[k]))
            trips[n++] = (ls_haul_trip){l->lot, ls_haul_trip_of(p, p->high, l), &p->loads[k]};
    }
    return n;
}

/* Fields must be open for the days of both cases: more litter makes a later lot later. */
bool ls_haul_schedule(ls_haul_planner *p) {
    size_t n = p->plan->loads_n;
    ls_haul_trip *all = LS_NEW(p->arena, ls_haul_trip, n);
    ls_haul_range *days = LS_NEW(p->arena, ls_haul_range, p->lots);
    p->trips = LS_NEW(p->arena, ls_haul_trip, n);
    p->trips_n = trips_of(p, false, p->trips);
    if (!ls_haul_days(p, all, trips_of(p, true, all), p->hauled, &p->high_run) ||
        !ls_haul_days(p, p->trips, p->trips_n, days, &p->run))
        return false;
    for (size_t i = 0; i < p->lots; i++) ls_haul_widen(&p->hauled[i], days[i]);
    for (size_t k = 0, counted = 0; k < n; k++)
        set_times(p, &p->loads[k],
                  ls_load_counted(&p->loads[k]) ? &p->run.x.trips[counted++] : &p->high_run.x.trips[k]);
    out_dates(p);
    return true;
}

/* The first field of the load that is closed on a day it is there; NULL: none. */
static const ls_field *closed(const ls_load *l) {
    LS_EACH_OF (const ls_drop, d, l->drops, l->n) {
        const ls_field *f = d->field;
        bool open = l->from_stack ? l->from != LS_NO_DATE && ls_field_allows(f, l->from)
                                  : ls_field_allows(f, l->day) && ls_field_allows(f, l->emptied.day);
        if (!open) return f;
    }
    return NULL;
}

const ls_load *ls_haul_outside(const ls_haul_planner *p) {
    LS_EACH_OF (const ls_load, l, p->loads, p->loads_n)
        if (closed(l) != NULL) return l;
    return NULL;
}

static const char *closed_words(const ls_haul_planner *p, const ls_load *l, const ls_field *f) {
    ls_date day = l->from_stack ? l->from : ls_field_allows(f, l->day) ? l->emptied.day : l->day;
    return day == LS_NO_DATE ? ls_arena_printf(p->arena, "%s is closed when litter leaves the stack", f->name.text)
                             : ls_arena_printf(p->arena, "%s is closed on %s", f->name.text,
                                               ls_date_words(p->arena, day, ls_farm_year(p->farm)));
}

static bool recall(ls_haul_planner *p, const ls_load *load, const char *why) {
    LS_EACH (ls_haul_bound, b, p->bound)
        if (load->issued != NULL && b->issued == load->issued) {
            b->why = why;
            return b->lost = true;
        }
    return false;
}

/* Is there a working day between them? */
static bool idles(const ls_haul_planner *p, ls_date last, ls_date next) {
    size_t k = 0;
    while (k < p->clock.on.n && p->clock.on.at[k] <= last) k++;
    return k < p->clock.on.n && p->clock.on.at[k] < next;
}

bool ls_haul_recall_waiting(ls_haul_planner *p) {
    ls_date last = ls_haul_first_day(p) - 1;
    const char **why = LS_NEW(p->arena, const char *, p->kinds);
    bool any = false;
    LS_EACH_OF (const ls_load, l, p->loads, p->plan->loads_n) {
        if (p->kinds == 1 || !ls_load_counted(l)) continue;
        ls_date ready = ls_haul_empty(p, ls_haul_split_of(p, l)->lot) - 1;
        if (why[l->kind] == NULL && p->away[l->kind] && idles(p, ready > last ? ready : last, l->day))
            why[l->kind] = ls_arena_printf(p->arena, "%s is out until %s", p->farm->trucks.at[l->kind].name.text,
                                           ls_date_words(p->arena, l->day, ls_farm_year(p->farm)));
        if (why[l->kind] != NULL) any = recall(p, l, why[l->kind]) || any;
        last = l->day;
    }
    return any;
}

bool ls_haul_recall_outside(ls_haul_planner *p) {
    bool any = false;
    LS_EACH_OF (const ls_load, l, p->loads, p->loads_n) {
        const ls_field *f = closed(l);
        if (f != NULL) any = recall(p, l, closed_words(p, l, f)) || any;
    }
    return any;
}
