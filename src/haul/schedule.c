/* The days of the loads listed, and what is done on each day. */
#include "plan.h"

#include <limits.h>

/* The slowest of a load's fields sets its pace. */
static double pace_of(const ls_haul_planner *p, const ls_split_load *l) {
    double pace = l->n == 0 ? ls_haul_pace(p, l->lot, LS_HAUL_TO_STACK) : 0;
    for (size_t k = 0; k < l->n; k++) {
        double one = ls_haul_pace(p, l->lot, p->high->drops[l->first + k].field);
        pace = one > pace ? one : pace;
    }
    return pace;
}

static void out_dates(ls_haul_planner *p) {
    for (size_t k = 0; k < p->plan->out_n; k++) {
        const ls_split_load *l = &p->high->loads[p->out_of[k]];
        for (size_t d = 0; d < l->n; d++) {
            ls_date day = ls_haul_later(p, l->lot, p->field[p->high->drops[l->first + d].field]);
            if (p->out[k].from == LS_NO_DATE || day > p->out[k].from)
                p->out[k].from = day;
        }
    }
}

bool ls_haul_schedule(ls_haul_planner *p) {
    size_t n = p->plan->loads_n;
    ls_haul_trip *trips = LS_NEW(p->arena, ls_haul_trip, n);
    for (size_t k = 0; k < n; k++) {
        const ls_split_load *l = &p->high->loads[p->load_of[k]];
        trips[k] = (ls_haul_trip){l->lot, pace_of(p, l), LS_NO_DATE};
    }
    p->works = (ls_haul_works){0};
    if (!ls_haul_days(p, trips, n, p->hauled, &p->works))
        return false;
    long trucks = p->farm->trucks.at[0].count.n;
    for (size_t k = 0; k < n; k++) {
        p->loads[k].day = trips[k].day;
        p->loads[k].truck = 1 + (long)k % trucks;
    }
    out_dates(p);
    return true;
}

static bool within(const ls_load *l, ls_date day) {
    for (size_t k = 0; k < l->n; k++) {
        const ls_field *f = l->drops[k].field;
        if (ls_haul_has_window(f) && (day < f->allowed.from || day > f->allowed.to))
            return false;
    }
    return true;
}

const ls_load *ls_haul_outside(const ls_haul_planner *p) {
    for (size_t k = 0; k < p->plan->loads_n; k++)
        if (!within(&p->loads[k], p->loads[k].day))
            return &p->loads[k];
    for (size_t k = 0; k < p->plan->out_n; k++)
        if (p->out[k].from == LS_NO_DATE || !within(&p->out[k], p->out[k].from))
            return &p->out[k];
    return NULL;
}

/* ---- day by day ---- */

/* What is done for one lot on one day: works from first on, up to the returned one. */
static size_t say_lot(const ls_haul_planner *p, size_t first, ls_text *t, long *loads) {
    static const char *const words[] = {"slats off", "", "slats back"};
    size_t k = first;
    bool begun = false;
    while (k < p->works.n && p->works.at[k].day == p->works.at[first].day &&
           p->works.at[k].lot == p->works.at[first].lot) {
        ls_haul_task_kind kind = p->works.at[k].kind;
        long n = 0;
        while (k < p->works.n && p->works.at[k].kind == kind &&
               p->works.at[k].day == p->works.at[first].day &&
               p->works.at[k].lot == p->works.at[first].lot)
            n++, k++;
        ls_text_add(t, begun ? ", " : "");
        if (kind == LS_HAUL_LOAD)
            ls_text_addf(t, "%ld load%s", n, n == 1 ? "" : "s");
        else
            ls_text_add(t, words[kind]);
        *loads += kind == LS_HAUL_LOAD ? n : 0;
        begun = true;
    }
    return k;
}

static ls_line tons_on(ls_haul_planner *p, ls_date day) {
    ls_line *lines = LS_NEW(p->arena, ls_line, p->plan->loads_n);
    size_t n = 0;
    for (size_t k = 0; k < p->plan->loads_n; k++)
        if (p->loads[k].day == day)
            lines[n++] = p->loads[k].tons;
    const char *key = ls_words(p->w, "plan.day.%s.tons", ls_date_iso(p->arena, day));
    if (n == 0)
        return ls_leaf_exact(p->w, key, "tons hauled on the day: none", "ton", 0, LS_BY_SPLIT,
                             NULL);
    return ls_sum(p->w, key, "tons hauled on the day", "ton", lines, n);
}

void ls_haul_workdays(ls_haul_planner *p) {
    LS_LIST(ls_workday) days = {0};
    for (size_t k = 0; k < p->works.n;) {
        ls_workday *day = LS_PUSH(p->arena, &days);
        ls_text *t = ls_text_new(p->arena);
        day->day = p->works.at[k].day;
        while (k < p->works.n && p->works.at[k].day == day->day) {
            ls_text_add(t, t->n > 0 ? "; " : "");
            ls_text_addf(t, "%s: ", p->e->lots[p->works.at[k].lot].name);
            k = say_lot(p, k, t, &day->loads);
        }
        day->tons = tons_on(p, day->day);
        day->work = t->s;
    }
    ls_plan *plan = p->plan;
    plan->days = days.at;
    plan->days_n = days.n;
    plan->working_days = (long)days.n;
    plan->start = days.n > 0 ? days.at[0].day : p->farm->crew->arrives.day;
    plan->finish = days.n > 0 ? days.at[days.n - 1].day : plan->start;
    const ls_farm_facts *facts = p->farm->facts;
    bool known = facts != NULL && LS_GIVEN(facts->next_flock);
    plan->slack_days = known ? (long)facts->next_flock.day - plan->finish : LONG_MIN;
}
