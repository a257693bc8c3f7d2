/* The same loads with other numbers of trucks, on the page of a plan. */
#include "days.h"

#include "report/figure.h"

static const ls_report_column columns[] = {
    {"Trucks", 6, false},        {"finish", 21, true},        {"hours", 6, false},
    {"loader waits", 12, false}, {"trucks queue", 12, false}, {"$", 7, false},
};
enum { COLUMNS = sizeof columns / sizeof *columns };

static const char *hours(const ls_report_page *p, ls_line line) {
    return ls_arena_printf(p->arena, "%.1f", ls_line_shown(p->view->sheet, line));
}

/* Numbers beyond the one that finishes soonest change nothing: the next one shows it, and the
 * farm's own and the cheapest stand there in any case. */
static bool worth_a_row(const ls_report_page *p, const ls_plan *plan, size_t i) {
    return i <= plan->soonest + 1 || i == plan->cheapest ||
           plan->fleets[i].trucks == p->view->farm->trucks.at[0].count.n;
}

static void rows(ls_report_page *p, const ls_plan *plan) {
    ls_report_heads(p, columns, COLUMNS);
    for (size_t i = 0; i < plan->fleets_n; i++) {
        const ls_fleet *f = &plan->fleets[i];
        if (!worth_a_row(p, plan, i))
            continue;
        const char *cells[COLUMNS] = {
            ls_arena_printf(p->arena, "%ld", f->trucks),
            ls_report_moment(p, f->finish),
            hours(p, f->hours),
            hours(p, f->idle),
            hours(p, f->waiting),
            f->cost == LS_NO_LINE ? "-" : ls_report_line_number(p, f->cost, "$")};
        ls_report_row(p, columns, COLUMNS, cells);
    }
}

static const char *trucks(const ls_report_page *p, long n) {
    return ls_arena_printf(p->arena, "%ld truck%s", n, n == 1 ? "" : "s");
}

/* The fewest trucks that finish on the day the soonest do. */
static const ls_fleet *fewest(const ls_plan *plan) {
    size_t i = 0;
    while (plan->fleets[i].finish.day > plan->fleets[plan->soonest].finish.day)
        i++;
    return &plan->fleets[i];
}

static void best(ls_report_page *p, const ls_plan *plan) {
    const ls_fleet *soonest = &plan->fleets[plan->soonest], *few = fewest(plan);
    bool last = plan->soonest + 1 == plan->fleets_n;
    ls_report_item(p, 2, "Soonest: %s, %s%s.", trucks(p, soonest->trucks),
                   ls_report_moment(p, soonest->finish),
                   last ? ", of the numbers tried" : "; more would finish no sooner");
    if (few != soonest)
        ls_report_item(p, 2, "The fewest that finish on that day: %s, at %s.",
                       trucks(p, few->trucks), ls_report_clock(p, few->finish.second));
    if (plan->cheapest != SIZE_MAX) {
        const ls_fleet *cheapest = &plan->fleets[plan->cheapest];
        ls_report_item(p, 2,
                       "Least cost of crew and trucks by the hour: %s, %s. This is another way to "
                       "count than the costs by the ton and the mile above; it only compares.",
                       trucks(p, cheapest->trucks), ls_report_line(p, cheapest->cost, "$"));
    } else
        ls_report_item(p, 2,
                       "Which number costs least is not told: that takes crew and truck under "
                       "costs, each in $/h.");
}

static void match(ls_report_page *p, const ls_plan *plan) {
    double factor = ls_line_value(p->view->sheet, plan->match);
    ls_report_item(p, 2, "Match factor with %s: %s (trucks x time to load / a round trip). %s",
                   trucks(p, p->view->farm->trucks.at[0].count.n),
                   ls_report_line(p, plan->match, ""),
                   factor < 1   ? "Below 1 the loader waits for trucks."
                   : factor > 1 ? "Above 1 trucks queue for the loader."
                                : "At 1 neither need wait for the other.");
}

void ls_report_fleets(ls_report_page *p, const ls_estimate *e, const ls_plan *plan) {
    (void)e;
    if (plan->fleets_n == 0)
        return;
    ls_report_heading(p, "HOW MANY TRUCKS");
    rows(p, plan);
    ls_report_say(
        p, 2, "Hours: on the job, from the beginning of each day to the last thing done on it.");
    ls_report_blank(p);
    best(p, plan);
    match(p, plan);
}
