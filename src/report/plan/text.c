#include "report/figure.h"
#include "days.h"
#include "loads.h"
#include "why.h"
#include "worth.h"

/* ---- where the litter goes ---- */

static const ls_report_column stage_columns[] = {
    {"", 42, true}, {"little", 9, false}, {"middle", 9, false}, {"much", 9, false}};
enum { STAGE_COLUMNS = sizeof stage_columns / sizeof *stage_columns };

static void stages(ls_report_page *p, const char *label, const ls_line lines[LS_STAGES]) {
    const char *cells[STAGE_COLUMNS] = {
        ls_arena_printf(p->arena, "%s, %s", label, ls_report_unit(p, "ton"))};
    for (int i = 0; i < LS_STAGES; i++)
        cells[i + 1] = ls_report_line_number(p, lines[i], "ton");
    ls_report_row(p, stage_columns, STAGE_COLUMNS, cells);
}

static void where_it_goes(ls_report_page *p, const ls_plan *plan) {
    ls_report_heading(p, "WHERE IT GOES, IF THERE IS LITTLE LITTER, THE MIDDLE, OR MUCH");
    ls_report_heads(p, stage_columns, STAGE_COLUMNS);
    stages(p, "Straight to fields", plan->straight);
    stages(p, "Into the stack", plan->stacked);
    stages(p, "NO HOME: nowhere may take it", plan->unplaced);
    if (plan->all_placed[LS_STAGES - 1])
        ls_report_say(p, 2, "All litter has a home; a rest below one drop is rounding.");
    else
        ls_report_say(p, 2,
                      "Litter without a home: find another field or buyer, another window, or more "
                      "room in a stack "
                      "before the crew comes.");
    ls_report_words shortages = ls_report_shortages(p, plan), relief = ls_report_relief(p, plan);
    for (size_t i = 0; i < shortages.n; i++)
        ls_report_item(p, 2, "%s", shortages.at[i]);
    ls_report_list(p, "WHAT WOULD HELP MOST: ONE LIMIT LIFTED, ALL ELSE AS IT IS, MIDDLE CASE",
                   relief.at, relief.n);
}

/* ---- money ---- */

static const ls_report_column money_columns[] = {{"", 42, true}, {"$", 12, false}};

static void money_row(ls_report_page *p, const char *label, ls_line line) {
    if (line != LS_NO_LINE)
        ls_report_row(p, money_columns, 2,
                      (const char *[]){label, ls_report_line_number(p, line, "$")});
}

static void paid_row(ls_report_page *p, const ls_buyer *b, const ls_trade *t) {
    if (t->tons != LS_NO_LINE)
        money_row(p,
                  ls_arena_printf(p->arena, "%s pays for %s", ls_report_name(p, b->name.text, 22),
                                  ls_report_line(p, t->tons, "ton")),
                  t->income);
}

static void money(ls_report_page *p, const ls_estimate *e, const ls_plan *plan) {
    ls_report_heading(p, "MONEY, IF THERE IS AS MUCH LITTER AS IN THE MIDDLE CASE");
    if (p->view->farm->hauled.n > 0)
        ls_report_say(p, 2, "Of what is still to be hauled.");
    for (size_t i = 0; i < e->farm->buyers.n; i++)
        paid_row(p, &e->farm->buyers.at[i], &plan->trade[i]);
    money_row(p, "Income, delivered and spread", plan->income);
    for (int i = 0; i < LS_COSTS; i++)
        money_row(p, ls_arena_printf(p->arena, "less %s", ls_cost_name(i)), plan->cost[i]);
    money_row(p, "Net return", plan->net_return);
    if (plan->firmness_cost != LS_NO_LINE && ls_line_value(p->view->sheet, plan->firmness_cost) > 0)
        ls_report_say(p, 2, "Keeping the firm loads where they are promised costs %s of that.",
                      ls_report_line(p, plan->firmness_cost, "$"));
}

/* ---- how good the plan is ---- */

static const ls_report_column goal_columns[] = {{"Goal, in this order", 32, true},
                                                {"reached", 10, false},
                                                {"at best", 10, false},
                                                {"gap", 9, false},
                                                {"", 7, true}};
enum { GOAL_COLUMNS = sizeof goal_columns / sizeof *goal_columns };

static void goals(ls_report_page *p, const ls_plan *plan) {
    ls_report_heading(p, "HOW GOOD THE PLAN IS");
    ls_report_heads(p, goal_columns, GOAL_COLUMNS);
    for (int i = 0; i < LS_GOALS; i++) {
        const ls_goal *g = &plan->goals[i];
        const char *unit = ls_line_at(p->view->sheet, plan->reached[i])->unit.text;
        const char *cells[GOAL_COLUMNS] = {g->goal,
                                           ls_report_line_number(p, plan->reached[i], unit),
                                           ls_report_line_number(p, plan->bound[i], unit),
                                           ls_report_line_number(p, plan->gap[i], unit),
                                           unit[0] == '\0' ? g->unit : ls_report_unit(p, unit)};
        ls_report_row(p, goal_columns, GOAL_COLUMNS, cells);
    }
    ls_report_say(
        p, 2, "At best: no plan can do better than this. A gap of 0 is proof that none is better.");
    if (plan->aim == LS_AIM_NEAR)
        ls_report_say(p, 2, "Asked for: the fewest truck miles, not the most money.");
    if (plan->aim == LS_AIM_PHOSPHORUS)
        ls_report_say(p, 2,
                      "Asked for: phosphorus where crops need it, not the most money. What a field "
                      "gets beyond its need less credits does not count.");
}

/* ---- cautions ---- */

static void cautions(ls_report_page *p, const ls_cautions *list) {
    ls_report_heading(p, "TAKE CARE");
    for (size_t i = 0; i < list->n; i++)
        ls_report_item(p, 2, "%s (%s)", list->at[i].text, list->at[i].source);
}

/* First of all: what the crew would find no place for. */
static void no_home(ls_report_page *p, const ls_plan *plan) {
    const char *words = ls_report_no_home(p, plan);
    if (words == NULL)
        return;
    ls_report_blank(p);
    ls_report_say(p, 0, "%s", words);
}

const char *ls_report_plan_text(const ls_view *v, const ls_plan_sums *s) {
    const ls_estimate *e = s->estimate;
    const ls_plan *plan = s->plan;
    ls_report_page *p = ls_report_begin(v, "The plan: loads to fields, the stack, the days");
    no_home(p, plan);
    ls_report_what_changed(p, plan);
    ls_report_promises(p, s);
    ls_report_days(p, plan);
    ls_report_stack(p, s);
    ls_report_fields(p, s);
    where_it_goes(p, plan);
    money(p, e, plan);
    ls_report_plan_worth(p, plan);
    goals(p, plan);
    ls_report_calendar(p, e, plan);
    ls_report_load_times(p, plan);
    ls_report_loader(p, e, plan);
    ls_report_fleets(p, e, plan);
    ls_report_list(p, "NOTES", plan->notes.at, plan->notes.n);
    cautions(p, &s->take_care);
    return ls_report_end(p);
}
