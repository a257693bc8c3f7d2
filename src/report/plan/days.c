#include "days.h"

#include "report/figure.h"

#include <limits.h>

const char *ls_report_clock(const ls_report_page *p, long second) {
    long minute = (second + 30) / 60;
    return ls_arena_printf(p->arena, "%02ld:%02ld", minute / 60, minute % 60);
}

const char *ls_report_moment(const ls_report_page *p, ls_moment m) {
    return ls_arena_printf(p->arena, "%s %s", ls_date_words(p->arena, m.day),
                           ls_report_clock(p, m.second));
}

/* ---- the table of days ---- */

static const ls_report_column day_columns[] = {
    {"", 15, true},      {"", 5, false},       {"", 6, false},
    {"last", 5, false},  {"loader", 7, false}, {"loader", 6, false},
    {"slats", 6, false}, {"trucks", 6, false}, {"trucks", 6, false},
};
enum { DAY_COLUMNS = sizeof day_columns / sizeof *day_columns };

/* When the last truck that left on the day is back. */
static const char *last_back(const ls_report_page *p, const ls_plan *plan, ls_date day) {
    long last = -1;
    for (size_t i = 0; i < plan->loads_n; i++)
        if (plan->loads[i].back.day == day && plan->loads[i].back.second > last)
            last = plan->loads[i].back.second;
    return last < 0 ? "-" : ls_report_clock(p, last);
}

static const char *hours(const ls_report_page *p, ls_line line) {
    double h = ls_line_shown(p->view->sheet, line);
    return h == 0 ? "-" : ls_arena_printf(p->arena, h < 0.05 ? "%.2f" : "%.1f", h);
}

static void day_row(ls_report_page *p, const ls_plan *plan, const ls_workday *d) {
    const char *loads = d->loads == 0 ? "-" : ls_arena_printf(p->arena, "%ld", d->loads);
    const char *tons = d->loads == 0 ? "-" : ls_report_line_number(p, d->tons, "ton");
    const char *cells[DAY_COLUMNS] = {ls_date_words(p->arena, d->day),
                                      loads,
                                      tons,
                                      last_back(p, plan, d->day),
                                      hours(p, d->loading),
                                      hours(p, d->idle),
                                      hours(p, d->slats),
                                      hours(p, d->waiting),
                                      hours(p, d->held)};
    ls_report_row(p, day_columns, DAY_COLUMNS, cells);
}

static void day_table(ls_report_page *p, const ls_plan *plan) {
    ls_report_heads(p, day_columns, DAY_COLUMNS);
    const char *heads[DAY_COLUMNS] = {"Day",   "loads", ls_report_unit(p, "ton"),
                                      "back",  "loads", "waits",
                                      "moved", "queue", "held"};
    ls_report_row(p, day_columns, DAY_COLUMNS, heads);
    for (size_t i = 0; i < plan->days_n; i++)
        day_row(p, plan, &plan->days[i]);
    const char *all[DAY_COLUMNS] = {"All days",
                                    NULL,
                                    NULL,
                                    NULL,
                                    hours(p, plan->loading),
                                    hours(p, plan->idle),
                                    hours(p, plan->slats),
                                    hours(p, plan->waiting),
                                    hours(p, plan->held)};
    ls_report_row(p, day_columns, DAY_COLUMNS, all);
    ls_report_say(p, 2,
                  "Last back: when the last truck comes home. The other columns are hours: the "
                  "loader loads, or waits for a truck; slats are moved; trucks, all together, "
                  "stand in the queue for the loader, or are held up by slats.");
}

/* ---- the rules ---- */

static void rules(ls_report_page *p, const ls_plan *plan) {
    ls_report_say(
        p, 2,
        "The working day is from %s to %s. Loads go in the order of their tickets, sides in the "
        "order of the file; the slats of a side are off before its first load and back before the "
        "next side is begun. A load is begun only if its truck can be back before the day ends; "
        "one that takes longer than a day begins with a day. No time is counted for breakdowns, "
        "weather or a meal: the hours given are hours of work.",
        ls_report_clock(p, plan->day_begins),
        ls_report_clock(p, plan->day_begins + plan->day_seconds));
    if (plan->out_n > 0)
        ls_report_say(p, 2,
                      "Loads out of the stack are hauled later, on days of their own that are not "
                      "planned here.");
}

/* ---- before the next flock ---- */

static bool some_ready(const ls_report_page *p, const ls_plan *plan) {
    return plan->ready != LS_NO_LINE && ls_line_value(p->view->sheet, plan->ready) > 0;
}

static const char *days_of(const ls_report_page *p, long n) {
    return ls_arena_printf(p->arena, "%ld day%s", n, n == 1 ? "" : "s");
}

static void does_not_fit(ls_report_page *p, const ls_plan *plan) {
    ls_report_say(p, 2,
                  "DOES NOT FIT: the houses need %s before the next flock, %s more than there are. "
                  "More trucks, longer days, an earlier crew or a later flock would help.",
                  ls_report_line(p, plan->ready, "days"), days_of(p, -plan->spare_days));
}

static void next_flock(ls_report_page *p, const ls_plan *plan) {
    if (plan->slack_days == LONG_MIN) {
        ls_report_say(p, 2, "The file gives no date for the next flock.");
        return;
    }
    long whole = plan->slack_days - 1;
    if (plan->slack_days <= 0) {
        ls_report_say(p, 2, "TOO LATE: the next flock comes before the houses are empty (%s).",
                      plan->slack_days == 0 ? "on the last day of the cleanout"
                                            : days_of(p, -plan->slack_days));
        return;
    }
    ls_report_say(p, 2, "Whole days between the finish and the next flock on %s: %ld.",
                  ls_date_words(p->arena, p->view->farm->facts->next_flock.day), whole);
    if (!some_ready(p, plan))
        ls_report_say(p, 2,
                      "Washing, repairs and bedding must fit into them; make_ready in the section "
                      "farm says how many days they take.");
    else if (plan->spare_days < 0)
        does_not_fit(p, plan);
    else
        ls_report_say(p, 2, "The houses need %s of them to be made ready; to spare: %s.",
                      ls_report_line(p, plan->ready, "days"), days_of(p, plan->spare_days));
}

void ls_report_calendar(ls_report_page *p, const ls_estimate *e, const ls_plan *plan) {
    (void)e;
    ls_report_heading(p, "THE DAYS");
    if (plan->days_n == 0) {
        ls_report_say(p, 2, "No load leaves a house: there are no days to tell of.");
        return;
    }
    ls_report_say(p, 2, "Start %s, finish %s, working days: %ld.",
                  ls_date_words(p->arena, plan->start), ls_date_words(p->arena, plan->finish),
                  plan->working_days);
    if (!plan->all_placed[LS_STAGES - 1])
        ls_report_say(
            p, 2,
            "These are the days of the loads above. Litter without a home is still in the "
            "houses then: they are not empty.");
    next_flock(p, plan);
    ls_report_blank(p);
    day_table(p, plan);
    rules(p, plan);
    ls_report_chart(p, plan);
}

/* ---- load by load ---- */

static const ls_report_column time_columns[] = {
    {"Ticket", 17, true}, {"truck", 5, false}, {"loading", 7, false}, {"leaves", 6, false},
    {"there", 6, false},  {"empty", 6, false}, {"back", 6, false},
};
enum { TIME_COLUMNS = sizeof time_columns / sizeof *time_columns };

/* A time of the day; + after it: of a later day than the load's. */
static const char *time_of(const ls_report_page *p, const ls_load *load, ls_moment m) {
    return ls_arena_printf(p->arena, "%s%s", ls_report_clock(p, m.second),
                           m.day > load->day ? "+" : "");
}

static void time_row(ls_report_page *p, const ls_load *load) {
    bool fits = ls_text_columns(load->ticket) <= time_columns[0].width;
    const char *cells[TIME_COLUMNS] = {
        fits ? load->ticket : NULL,    ls_arena_printf(p->arena, "%ld", load->truck),
        time_of(p, load, load->start), time_of(p, load, load->leave),
        time_of(p, load, load->there), time_of(p, load, load->emptied),
        time_of(p, load, load->back)};
    if (!fits)
        ls_report_say(p, 2, "%s", load->ticket);
    ls_report_row(p, time_columns, TIME_COLUMNS, cells);
}

void ls_report_load_times(ls_report_page *p, const ls_plan *plan) {
    if (plan->loads_n == 0)
        return;
    bool later = false;
    ls_report_heading(p, "EACH LOAD BY THE CLOCK");
    ls_report_heads(p, time_columns, TIME_COLUMNS);
    for (size_t i = 0; i < plan->loads_n; i++) {
        const ls_load *load = &plan->loads[i];
        if (i == 0 || load->day != plan->loads[i - 1].day)
            ls_report_say(p, 0, "%s", ls_date_words(p->arena, load->day));
        time_row(p, load);
        later = later || load->back.day > load->day;
    }
    if (later)
        ls_report_say(p, 2, "+ on a later working day.");
}

/* ---- the loader ---- */

static const ls_report_column loader_columns[] = {
    {"", 18, true},       {"bucket", 8, false}, {"buckets", 8, false}, {"time", 8, false},
    {"steady", 8, false}, {"with", 8, false},   {"pauses", 8, false},
};
enum { LOADER_COLUMNS = sizeof loader_columns / sizeof *loader_columns };

void ls_report_loader(ls_report_page *p, const ls_estimate *e, const ls_plan *plan) {
    if (plan->loading_of == NULL || plan->loads_n == 0)
        return;
    ls_report_heading(p, "THE LOADER");
    ls_report_heads(p, loader_columns, LOADER_COLUMNS);
    const char *heads[LOADER_COLUMNS] = {"House",
                                         ls_report_unit(p, "ton"),
                                         "a load",
                                         "min",
                                         ls_report_unit(p, "ton/h"),
                                         ls_report_unit(p, "ton/h"),
                                         ls_report_unit(p, "yd3/h")};
    ls_report_row(p, loader_columns, LOADER_COLUMNS, heads);
    for (size_t i = 0; i < e->n; i++) {
        const ls_house *h = e->lots[i].house;
        const ls_loading *of = &plan->loading_of[i];
        if (i > 0 && h == e->lots[i - 1].house)
            continue;
        const char *cells[LOADER_COLUMNS] = {h->name.text,
                                             ls_report_line_number(p, of->bucket, "ton"),
                                             ls_report_line_number(p, of->buckets, ""),
                                             ls_report_line_number(p, of->time, "min"),
                                             ls_report_line_number(p, of->steady, "ton/h"),
                                             ls_report_line_number(p, of->production, "ton/h"),
                                             ls_report_line_number(p, of->volume, "yd3/h")};
        ls_report_row(p, loader_columns, LOADER_COLUMNS, cells);
    }
    ls_report_say(p, 2,
                  "Litter in a bucket, buckets and minutes for a full truck, and what that makes "
                  "in an hour of steady loading, as the days above reckon. With pauses: heaped "
                  "bucket x fill x cycles an hour x the share of an hour that loaders usually work "
                  "(%s). If yours rests that much, count it in the hours of the day.",
                  ls_report_line(p, plan->job_efficiency, "%"));
}
