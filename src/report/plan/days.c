/* The days, other numbers of trucks, and the loader. */
#include "parts.h"

#include <limits.h>
#include <string.h>

/* A number of days; LONG_MIN: not known. */
static ls_doc_cell count(long n) { return n == LONG_MIN ? W(NULL) : N(n); }

/* ---- day by day ---- */

LS_DOC_COLUMNS(day_columns, WORDS("day", "DAY"), NUMBER("loads", "loads"), IN("tons", NULL, "ton"),
               NUMBER("done", "all done"),
               {.key = "loading_hours", .heading = "loader loads", .unit = "h", .level = LS_FULL},
               {.key = "idle_hours", .heading = "loader waits", .unit = "h", .level = LS_FULL},
               {.key = "slats_hours", .heading = "slats moved", .unit = "h", .level = LS_FULL},
               {.key = "waiting_hours", .heading = "trucks queue", .unit = "h", .level = LS_FULL},
               {.key = "held_hours", .heading = "trucks held", .unit = "h", .level = LS_FULL},
               {.key = "out_hours", .heading = "loader out", .unit = "h", .level = LS_DATA},
               {.key = "stopped_hours", .heading = "trucks stopped", .unit = "h", .level = LS_DATA}, DATA("last_back"),
               DATA("work"));

/* When the last truck is back. */
static ls_moment last_back(const ls_plan *plan, ls_date day) {
    ls_moment last = {day, -1};
    LS_EACH_OF (const ls_load, l, plan->loads, plan->loads_n)
        if (ls_load_counted(l) && l->back.day == day && l->back.second > last.second) last = l->back;
    return last;
}

/* All days from the first on but the last, for people, in a row of words. */
static void left_out(ls_doc_table t, const ls_plan *plan, size_t first) {
    size_t n = plan->days_n - 1 - first;
    long loads = 0;
    double tons = 0;
    for (size_t i = first; i < first + n; i++) {
        loads += plan->days[i].loads;
        tons += ls_line_value(t.group->document->view->sheet, plan->days[i].tons);
    }
    ls_doc_words_in(t, LS_FIRST,
                    T("... {} more day{}: {} load{}, {}", N(n), W(n == 1 ? "" : "s"), N(loads),
                      W(loads == 1 ? "" : "s"), V(tons, "ton")));
}

/* A name as an item of a list in a file, in quotation marks if a mark in it might end it. */
static void add_item(ls_text *t, const char *name) {
    bool marks = strpbrk(name, ",[]{}:#'\"&*!|>%@`?-\\") != NULL;
    ls_text_add(t, marks ? "\"" : "");
    for (; *name != '\0'; name++) ls_text_addf(t, "%s%c", *name == '"' || *name == '\\' ? "\\" : "", *name);
    ls_text_add(t, marks ? "\"" : "");
}

/* "Soonest: order: [South/right, North/left] under crew, done Wed, Feb 25, 3:06 pm, a day earlier."
 * It is to be copied into the file: whole. */
static void sooner(ls_doc_group *g, const ls_plan *plan) {
    enum { HOUR = 3600 };
    size_t n = plan->sooner.n;
    if (n == 0) return;
    const char **names = LS_NEW(g->document->arena, const char *, n);
    ls_text *order = ls_text_new(g->document->arena);
    for (size_t i = 0; i < n; i++) {
        names[i] = plan->sooner.at[i]->name;
        ls_text_add(order, i > 0 ? ", " : "");
        add_item(order, names[i]);
    }
    ls_doc_texts(g, LS_DATA, "sooner", NULL, names, n);
    long days = (long)plan->finish - plan->sooner_ends.day;
    bool much = days > 0 || plan->ends.second - plan->sooner_ends.second >= HOUR;
    SAY(g, much ? LS_FIRST : LS_FULL, "{}: crew with \"order: [{}]\": done {}{}.",
        W(plan->all_orders ? "Soonest" : "Sooner"), W(order->s), ls_doc_moment(plan->sooner_ends),
        days == 0   ? W("")
        : days == 1 ? W(", a day earlier")
                    : T(", {} days earlier", N(days)));
}

void ls_report_put_days(ls_doc_group *top, const ls_plan *plan) {
    enum { FIRST_DAYS = 5 };
    ls_doc_group *g = ls_doc_object(top, LS_FIRST, "days", NULL);
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FIRST, "by_day", NULL, day_columns);
    for (size_t i = 0; i < plan->days_n; i++) {
        const ls_workday *d = &plan->days[i];
        ls_moment last = last_back(plan, d->day);
        if (i == FIRST_DAYS && i + 1 < plan->days_n && !top->document->view->full) left_out(t, plan, i);
        LS_DOC_GRID_ROW(t, day_columns, i < FIRST_DAYS || i + 1 == plan->days_n ? LS_FIRST : LS_FULL, NULL, DAY(d->day),
                        N(d->loads), L(d->tons), BARE(ls_doc_moment(d->done)), L(d->loading), L(d->idle), L(d->slats),
                        L(d->waiting), L(d->held), L(d->out), L(d->stopped),
                        last.second < 0 ? W(NULL) : ls_doc_moment(last), W(d->work));
    }
    ls_doc_texts(g, LS_FIRST, "out", NULL, plan->outs.at, plan->outs.n);
    sooner(g, plan);
}

/* ---- the rules ---- */

static ls_doc_cell clock(const ls_plan *plan, long second) {
    return BARE(ls_doc_moment((ls_moment){plan->start, second}));
}

static void rules(ls_doc_group *g, const ls_plan *plan) {
    const ls_slat_crew *slats = g->document->view->farm->crew->slats;
    SAY(g, LS_FULL,
        "The working day is {} to {}. Sides go in the order of the file (\"order\" of the crew). "
        "Of a side firm loads go first, part loads last, equal ones in the order of their "
        "tickets{}. "
        "The slats of a side are off before its first load and back before the next side{}. A load "
        "is begun only if its truck can be back that day. No time is counted for pauses, "
        "breakdowns, weather or a meal.",
        clock(plan, plan->day_begins), clock(plan, plan->day_begins + plan->day_seconds),
        W(plan->kinds == NULL ? "" : "; while one waits for a truck that is out, those of other kinds go on"),
        W(slats != NULL && slats->while_loading.yes ? " of its house; the next house's are moved while the loader loads"
                                                    : ""));
    if (plan->out_hours != LS_NO_LINE && ls_line_value(g->document->view->sheet, plan->out_hours) > 0)
        SAY(g, LS_FULL,
            "The loader is out for {} in which no slats keep it anyway. Trucks wait {} of them, "
            "each from when it is back, or no longer out, to its next load that day. Neither is "
            "among the hours the loader waits or trucks queue.",
            F(plan->out_hours, "h"), F(plan->stopped, "h"));
    if (plan->out_n > 0)
        SAY(g, LS_FULL,
            "Loads from the stack go later, in the order of the days they may go on, not planned "
            "here.");
}

static void data(ls_doc_group *g, const ls_plan *plan) {
    MEMBERS(g, {"start", DAY(plan->start)}, {"finish", DAY(plan->finish)});
    if (plan->high_finish != LS_NO_DATE) {
        MEMBERS(g, {"high_finish", DAY(plan->high_finish)}, {"high_days", N(plan->high_days)});
    }
    if (plan->empty_finish != LS_NO_DATE) {
        MEMBERS(g, {"empty_finish", DAY(plan->empty_finish)}, {"empty_days", N(plan->empty_days)},
                {"empty_miles", F(plan->empty_distance, "mi")});
    }
    MEMBERS(g, {"working_days", N(plan->working_days)}, {"slack_days", count(plan->slack_days)},
            {"ready_days", F(plan->ready, "days")}, {"spare_days", count(plan->spare_days)},
            {"loading_hours", F(plan->loading, "h")}, {"idle_hours", F(plan->idle, "h")},
            {"slats_hours", F(plan->slats, "h")}, {"waiting_hours", F(plan->waiting, "h")},
            {"held_hours", F(plan->held, "h")}, {"out_hours", F(plan->out_hours, "h")},
            {"stopped_hours", F(plan->stopped, "h")}, {"match_factor", F(plan->match, "")});
}

void ls_report_put_rules(ls_doc_group *top, const ls_plan *plan) {
    ls_doc_group *g = ls_doc_object(top, LS_FULL, "days", "HOURS OF WORK");
    data(g, plan);
    if (plan->days_n > 0) rules(g, plan);
}

/* ---- other numbers of trucks ---- */

/* [several kinds haul] */
#define FIGURES                                                                                                        \
    WORDS("finish", "finish"), IN("hours", "on the job", "h"), IN("idle_hours", "loader waits", "h"),                  \
        IN("waiting_hours", "trucks queue", "h"), IN("held_hours", "trucks held", "h"), IN("cost", "cost", "$")
static const ls_doc_column fleet_columns[][8] = {
    {NUMBER("trucks", "trucks"), DATA("fleet"), FIGURES},
    {DATA("trucks"), WORDS("fleet", "trucks"), FIGURES},
};

/* Numbers beyond the one that finishes soonest change nothing: the next one shows it, and the
 * farm's own and the cheapest stand there in any case. */
static ls_doc_level worth_a_row(const ls_plan *plan, size_t i) {
    return plan->fleets[i].fleet != NULL || i <= plan->soonest + 1 || i == plan->cheapest || i == plan->now ? LS_FULL
                                                                                                            : LS_DATA;
}

static void fleets(ls_doc_group *g, const ls_plan *plan) {
    size_t several = plan->fleets_n > 0 && plan->fleets[0].fleet != NULL;
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "tried", NULL, fleet_columns[several]);
    for (size_t i = 0; i < plan->fleets_n; i++) {
        const ls_fleet *f = &plan->fleets[i];
        LS_DOC_GRID_ROW(t, fleet_columns[several], worth_a_row(plan, i), NULL, N(f->trucks), W(f->fleet),
                        ls_doc_moment(f->finish), L(f->hours), L(f->idle), L(f->waiting), L(f->held), L(f->cost));
    }
}

LS_DOC_COLUMNS(kind_columns, WORDS("kind", "truck"), NUMBER("count", "trucks"), IN("share_pct", "of the litter", "%"),
               IN("payload_tons", "full load", "ton/load"), IN("round_min", "round", "min"));

/* Several kinds: how many of each, and what it hauls. */
static void kinds(ls_doc_group *g, const ls_plan *plan) {
    const ls_farm *farm = g->document->view->farm;
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "kinds", NULL, kind_columns);
    for (size_t k = 0; k < farm->trucks.n; k++)
        LS_DOC_ROW(t, kind_columns, W(farm->trucks.at[k].name.text), N(farm->trucks.at[k].count.n),
                   L(plan->kinds[k].share), L(plan->kinds[k].payload), L(plan->kinds[k].round));
    SAY(g, LS_FULL, "Each kind hauls by its pace, where it may go. Loads of a side go out in turns.");
}

static ls_doc_cell trucks_of(const ls_plan *plan, size_t i) {
    return i < plan->fleets_n ? N(plan->fleets[i].trucks) : W(NULL);
}

void ls_report_put_trucks(ls_doc_group *top, const ls_plan *plan) {
    ls_doc_group *chapter = ls_doc_object(top, LS_FULL, NULL, "HOW MANY TRUCKS");
    ls_doc_group *of_days = ls_doc_object(chapter, LS_FULL, "days", NULL);
    ls_doc_group *g = ls_doc_object(of_days, LS_FULL, "best_trucks", NULL);
    MEMBERS(g, {"soonest", trucks_of(plan, plan->soonest)}, {"fewest_that_day", trucks_of(plan, plan->fewest)},
            {"cheapest", trucks_of(plan, plan->cheapest)});
    if (plan->kinds != NULL) kinds(of_days, plan);
    fleets(g, plan);
    if (plan->fleets_n > 0)
        SAY(g, LS_FULL, "On the job: from the start of each day to the last thing done.{}",
            W(plan->cheapest == SIZE_MAX ? " Add crew and truck costs, in $/h, to see the cheapest."
                                         : " These costs are counted apart from those by the ton and mile."));
}

LS_DOC_COLUMNS(loader_columns, WORDS("house", "house"), IN("bucket_tons", "a bucket", "ton"),
               IN("buckets", "buckets a load", ""), IN("load_minutes", "a load", "min"),
               IN("steady_tons_per_hour", "in the days", "ton/h"), IN("tons_per_hour", "with pauses", "ton/h"),
               IN("yd3_per_hour", "with pauses", "yd3/h"));

void ls_report_put_loader(ls_doc_group *top, const ls_plan_sums *s) {
    const ls_estimate *e = s->estimate;
    const ls_plan *plan = s->plan;
    ls_doc_group *g = ls_doc_object(top, LS_FULL, NULL, "THE LOADER");
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "loader", NULL, loader_columns);
    if (plan->loading_of == NULL || plan->loads_n == 0) return;
    for (size_t i = 0; i < e->n; i++) {
        const ls_loading *of = &plan->loading_of[i];
        if (i == 0 || e->lots[i].house != e->lots[i - 1].house)
            LS_DOC_ROW(t, loader_columns, W(e->lots[i].house->name.text), L(of->bucket), L(of->buckets), L(of->time),
                       L(of->steady), L(of->production), L(of->volume));
    }
    SAY(g, LS_FULL,
        "The days count the first pace: a loader that never pauses while a truck stands there. "
        "Loaders usually work {} of an hour: where yours waits little for trucks, the days come "
        "out too short. Give fewer hours a day then.",
        F(plan->job_efficiency, "%"));
}
