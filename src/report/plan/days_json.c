#include "days_json.h"

#include <limits.h>

/* "2026-02-16T07:40", to the nearest minute. */
static json_t *moment(const ls_view *v, ls_moment m) {
    enum { MINUTES = 24 * 60 };
    long minute = (m.second + 30) / 60;
    ls_date day = minute < MINUTES ? m.day : m.day + 1;
    minute %= MINUTES;
    return ls_report_string(ls_arena_printf(v->arena, "%sT%02ld:%02ld", ls_date_iso(v->arena, day),
                                            minute / 60, minute % 60));
}

void ls_report_put_load_times(json_t *object, const ls_view *v, const ls_load *load) {
    ls_report_put(object, "start", moment(v, load->start));
    ls_report_put(object, "leave", moment(v, load->leave));
    ls_report_put(object, "there", moment(v, load->there));
    ls_report_put(object, "empty", moment(v, load->emptied));
    ls_report_put(object, "back", moment(v, load->back));
}

static json_t *count(long n) {
    return n == LONG_MIN ? json_null() : json_integer(n);
}

static json_t *one_day(const ls_view *v, const ls_workday *day) {
    json_t *one = json_object();
    ls_report_put(one, "day", ls_report_day(v, day->day));
    ls_report_put(one, "loads", json_integer(day->loads));
    ls_report_put(one, "tons", ls_report_line_figure(v, day->tons, "ton"));
    ls_report_put(one, "work", ls_report_string(day->work));
    ls_report_put(one, "loading_hours", ls_report_line_figure(v, day->loading, "h"));
    ls_report_put(one, "idle_hours", ls_report_line_figure(v, day->idle, "h"));
    ls_report_put(one, "slats_hours", ls_report_line_figure(v, day->slats, "h"));
    ls_report_put(one, "waiting_hours", ls_report_line_figure(v, day->waiting, "h"));
    ls_report_put(one, "held_hours", ls_report_line_figure(v, day->held, "h"));
    return one;
}

static json_t *fleets(const ls_view *v, const ls_plan *plan) {
    json_t *list = json_array();
    for (size_t i = 0; i < plan->fleets_n; i++) {
        const ls_fleet *f = &plan->fleets[i];
        json_t *one = json_object();
        ls_report_put(one, "trucks", json_integer(f->trucks));
        ls_report_put(one, "finish", moment(v, f->finish));
        ls_report_put(one, "hours", ls_report_line_figure(v, f->hours, "h"));
        ls_report_put(one, "idle_hours", ls_report_line_figure(v, f->idle, "h"));
        ls_report_put(one, "waiting_hours", ls_report_line_figure(v, f->waiting, "h"));
        ls_report_put(one, "held_hours", ls_report_line_figure(v, f->held, "h"));
        ls_report_put(one, "cost", ls_report_line_figure(v, f->cost, "$"));
        ls_report_append(list, one);
    }
    return list;
}

static json_t *trucks_of(const ls_plan *plan, size_t i) {
    return i < plan->fleets_n ? json_integer(plan->fleets[i].trucks) : json_null();
}

json_t *ls_report_days_json(const ls_view *v, const ls_plan *plan) {
    json_t *object = json_object(), *list = json_array(), *best = json_object();
    ls_report_put(object, "start", ls_report_day(v, plan->start));
    ls_report_put(object, "finish", ls_report_day(v, plan->finish));
    ls_report_put(object, "working_days", json_integer(plan->working_days));
    ls_report_put(object, "slack_days", count(plan->slack_days));
    for (size_t i = 0; i < plan->days_n; i++)
        ls_report_append(list, one_day(v, &plan->days[i]));
    ls_report_put(object, "by_day", list);
    ls_report_put(object, "ready_days", ls_report_line_figure(v, plan->ready, "days"));
    ls_report_put(object, "spare_days", count(plan->spare_days));
    ls_report_put(object, "loading_hours", ls_report_line_figure(v, plan->loading, "h"));
    ls_report_put(object, "idle_hours", ls_report_line_figure(v, plan->idle, "h"));
    ls_report_put(object, "slats_hours", ls_report_line_figure(v, plan->slats, "h"));
    ls_report_put(object, "waiting_hours", ls_report_line_figure(v, plan->waiting, "h"));
    ls_report_put(object, "held_hours", ls_report_line_figure(v, plan->held, "h"));
    ls_report_put(object, "match_factor", ls_report_line_figure(v, plan->match, ""));
    ls_report_put(best, "soonest", trucks_of(plan, plan->soonest));
    ls_report_put(best, "cheapest", trucks_of(plan, plan->cheapest));
    ls_report_put(best, "tried", fleets(v, plan));
    ls_report_put(object, "best_trucks", best);
    return object;
}
