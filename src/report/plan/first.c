/* The lines of a plan that answer first, a label and a sentence or two each. */
#include "parts.h"

#include <limits.h>

enum { LIKELY = 1, HIGH = LS_STAGES - 1 };

bool ls_report_lacks_fields(const ls_plan *plan) {
    return !plan->all_placed[LIKELY] && plan->homeless > 0;
}

bool ls_report_next_flock(const ls_plan *plan) {
    return plan->slack_days != LONG_MIN;
}

/* The lines join one object: what they say in words. */
static ls_doc_group *in_short(ls_doc_group *top) {
    return ls_doc_object(top, LS_FIRST, "in_short", NULL);
}

/* ---- tons, loads, money ---- */

/* A point of a range, as sure as the range is. */
static ls_doc_cell of(const ls_q *q, double value) {
    ls_doc_cell cell = V(value, "ton");
    cell.low = q->low, cell.high = q->high;
    return cell;
}

static ls_doc_cell litter(const ls_document *d, const ls_plan_sums *s) {
    const ls_q *tons = &s->estimate->tons;
    const ls_plan *plan = s->plan;
    ls_doc_cell range = T(" ({}-{})", BARE(of(tons, tons->low)), BARE(of(tons, tons->high)));
    ls_doc_cell rest = ls_report_lacks_fields(plan)
                           ? T("{} have NO FIELD.", BARE(F(plan->unplaced[LIKELY], "ton")))
                           : W("All has a field.");
    return ls_doc_keep(d, T("{} likely{}. {} placed. {}", of(tons, tons->mid),
                            tons->low < tons->high ? range : W(""),
                            BARE(of(tons, ls_line_value(d->view->sheet, s->placed))), rest));
}

/* Loads of the middle case. */
static long counted(const ls_load *loads, size_t n) {
    long counted = 0;
    for (size_t i = 0; i < n; i++)
        counted += ls_load_counted(&loads[i]);
    return counted;
}

static ls_doc_cell loads(const ls_document *d, const ls_plan *plan) {
    if (plan->days_n == 0)
        return W("No load leaves a house.");
    return ls_doc_keep(
        d,
        T("{} in {} day{}, all done {}{}.", N(counted(plan->loads, plan->loads_n)),
          N(plan->working_days), W(plan->working_days == 1 ? "" : "s"), ls_doc_moment(plan->ends),
          plan->out_n == 0 ? W("")
                           : T("; {} later from the stack", N(counted(plan->out, plan->out_n)))));
}

void ls_report_put_answer(ls_doc_group *top, const ls_plan_sums *s) {
    const ls_document *d = top->document;
    const ls_plan *plan = s->plan;
    ls_doc_group *g = in_short(top);
    double left = ls_line_value(d->view->sheet, plan->net_return);
    ls_doc_fact(g, LS_FIRST, "litter", "LITTER", litter(d, s));
    ls_doc_fact(g, LS_FIRST, "loads", "LOADS", loads(d, plan));
    ls_doc_fact(g, LS_FIRST, "money", "MONEY",
                T("{} in, {} out, {} {}.", F(plan->income, "$"), F(plan->costs, "$"),
                  left < 0 ? V(-left, "$") : F(plan->net_return, "$"),
                  W(left < 0 ? "short" : "left")));
}

/* ---- houses, next flock, trucks ---- */

/* "1 more day" */
static ls_doc_cell days_more(const ls_document *d, long n) {
    return ls_doc_keep(d, T("{} more day{}", N(n), W(n == 1 ? "" : "s")));
}

static ls_doc_cell houses(const ls_document *d, const ls_plan *plan) {
    ls_doc_cell stay = F(plan->unplaced[LIKELY], "ton");
    if (!ls_report_lacks_fields(plan))
        return ls_doc_keep(d, T("Empty {}.", ls_doc_moment(plan->ends)));
    if (plan->empty_finish == LS_NO_DATE)
        return ls_doc_keep(d, T("NOT EMPTY: {} stay.", stay));
    return ls_doc_keep(d, plan->empty_days == 0
                              ? T("NOT EMPTY: {} stay. With a field they fit in these days.", stay)
                              : T("NOT EMPTY: {} stay. With a field they take {}.", stay,
                                  days_more(d, plan->empty_days)));
}

/* What the high case adds to the days. */
static ls_doc_cell if_high(const ls_document *d, const ls_plan *plan) {
    ls_doc_cell days = plan->high_finish == LS_NO_DATE || plan->high_days == 0
                           ? W("")
                           : T("{}. ", days_more(d, plan->high_days));
    return plan->all_placed[HIGH]
               ? ls_doc_keep(d, days)
               : ls_doc_keep(d, T("{}{} have no field.", days, F(plan->unplaced[HIGH], "ton")));
}

static ls_doc_cell next_flock(const ls_document *d, const ls_plan *plan) {
    if (!ls_report_next_flock(plan))
        return W("The file gives no date.");
    ls_doc_cell next = DAY(d->view->farm->facts->next_flock.day);
    if (plan->slack_days <= 0)
        return ls_doc_keep(d, T("{}: before the houses are done.", next));
    if (plan->ready == LS_NO_LINE)
        return ls_doc_keep(d, T("{}: {} whole days between, for washing and bedding too.", next,
                                N(plan->slack_days - 1)));
    return ls_doc_keep(d, T("{}: {} whole days between, the houses need {}.", next,
                            N(plan->slack_days - 1), BARE(F(plan->ready, "day"))));
}

static const ls_fleet *fleet_of(const ls_plan *plan, long trucks) {
    for (size_t i = 0; i < plan->fleets_n; i++)
        if (plan->fleets[i].trucks == trucks)
            return &plan->fleets[i];
    return NULL;
}

/* "2 now; 3 finish at 2:01 pm. The loader waits for trucks: more would help." */
static ls_doc_cell trucks(const ls_document *d, const ls_plan *plan) {
    long n = d->view->farm->trucks.at[0].count.n;
    const ls_fleet *now = fleet_of(plan, n), *more = fleet_of(plan, n + 1);
    if (now == NULL)
        return W("No load to haul.");
    ls_doc_cell cell = T("{} now", N(n));
    if (more != NULL && more->finish.day == now->finish.day)
        cell = ls_doc_keep(
            d, T("{}; {} finish at {}", cell, N(n + 1), BARE(ls_doc_moment(more->finish))));
    else if (more != NULL)
        cell = ls_doc_keep(d, T("{}; {} finish {}", cell, N(n + 1), ls_doc_moment(more->finish)));
    if (plan->cheapest != SIZE_MAX)
        cell = ls_doc_keep(
            d, T("{}; cheapest by the hour: {}", cell, N(plan->fleets[plan->cheapest].trucks)));
    double factor = ls_line_value(d->view->sheet, plan->match);
    return ls_doc_keep(d, T("{}. {}", cell,
                            W(factor < 1   ? "The loader waits: more would help."
                              : factor > 1 ? "Trucks wait: more help little."
                                           : "Neither waits for the other.")));
}

void ls_report_put_in_short(ls_doc_group *top, const ls_plan_sums *s) {
    const ls_document *d = top->document;
    const ls_plan *plan = s->plan;
    ls_doc_level level = plan->days_n > 0 ? LS_FIRST : LS_DATA;
    ls_doc_group *g = in_short(top);
    ls_doc_fact(g, LS_FIRST, "houses", "HOUSES", houses(d, plan));
    ls_doc_fact(g, plan->high_days > 0 || !plan->all_placed[HIGH] ? LS_FIRST : LS_DATA, "if_high",
                "IF HIGH", if_high(d, plan));
    ls_doc_fact(g, level, "next_flock", "NEXT FLOCK", next_flock(d, plan));
    ls_doc_fact(g, level, "trucks", "TRUCKS", trucks(d, plan));
}

/* ---- how sure, what is assumed, what more there is ---- */

static ls_doc_cell how_good(const ls_document *d, const ls_plan *plan) {
    const ls_worksheet *w = d->view->sheet;
    static const char *const better[LS_AIMS] = {[LS_AIM_MONEY] = "leave more money",
                                                [LS_AIM_NEAR] = "drive fewer miles",
                                                [LS_AIM_PHOSPHORUS] =
                                                    "put phosphorus where crops need it more"};
    ls_line gap = plan->gap[LS_GOAL_TONS], rest = plan->unplaced[LIKELY];
    if (ls_report_lacks_fields(plan) && ls_line_value(w, gap) > 0)
        return ls_doc_keep(
            d, T("Another plan may place up to {} more.",
                 F(ls_line_value(w, gap) < ls_line_value(w, rest) ? gap : rest, "ton")));
    if (ls_line_shown(w, plan->gap[LS_GOAL_RETURN]) < 1)
        return ls_doc_keep(d, T("No plan can place more tons or {}.", W(better[plan->aim])));
    const char *unit = ls_line_at(w, plan->gap[LS_GOAL_RETURN])->unit.text;
    return ls_doc_keep(d, T("No plan can place more tons. One may be better by {}.",
                            F(plan->gap[LS_GOAL_RETURN], unit)));
}

/* Loads that are there and those with a field or room in the stack. */
static ls_doc_cell counts(const ls_document *d, const ls_plan_sums *s) {
    ls_doc_cell told[2 * LS_CERTAINTIES];
    for (int c = LS_FIRM; c <= LS_POSSIBLE; c++) {
        const ls_load_count *n = &s->counts[c];
        const ls_worksheet *w = d->view->sheet;
        told[2 * c] = BARE(F(n->there, "load"));
        told[2 * c + 1] =
            BARE(V(ls_line_value(w, n->straight) + ls_line_value(w, n->stacked), "load"));
    }
    return ls_doc_keep(d, T("Firm: {} there, {} placed; likely: {} and {}; possible: {} and {}.",
                            told[0], told[1], told[2], told[3], told[4], told[5]));
}

/* How many limits that the file does not give keep litter from a field. */
static size_t costly(const ls_document *d, const ls_plan *plan) {
    size_t n = 0;
    for (size_t i = 0; i < plan->defaults.n; i++) {
        ls_line tons = plan->defaults.at[i].tons;
        n += tons != LS_NO_LINE && ls_line_value(d->view->sheet, tons) > 0;
    }
    return n;
}

static ls_doc_cell limits(const ls_document *d, const ls_plan *plan) {
    size_t n = costly(d, plan);
    if (n == 0)
        return W(NULL);
    const ls_default_limit *l = plan->defaults.at;
    ls_doc_cell first =
        T("{} keeps out {} ({}).", W(l->field->name.text), F(l->tons, "ton"), W(l->what));
    return n == 1 ? ls_doc_keep(d, first)
                  : ls_doc_keep(d, T("{} {} more (--full).", first, N(n - 1)));
}

void ls_report_put_more(ls_doc_group *top, const ls_plan_sums *s) {
    const ls_document *d = top->document;
    ls_doc_group *g = in_short(top);
    size_t unverified = s->plan->unverified, things = s->plan->notes.n - (unverified > 0);
    ls_doc_fact(g, LS_FIRST, "counts", "COUNTS", counts(d, s));
    ls_doc_fact(g, costly(d, s->plan) > 0 ? LS_FIRST : LS_DATA, "limits", "LIMITS",
                limits(d, s->plan));
    ls_doc_fact(g, LS_FIRST, "how_good", "PLAN", how_good(d, s->plan));
    ls_doc_fact(g, LS_FIRST, "assumed", "ASSUMED",
                T("{} thing{}, {} unverified figure{}, {} cautions. List: --full", N(things),
                  W(things == 1 ? "" : "s"), N(unverified), W(unverified == 1 ? "" : "s"),
                  N(s->take_care.n)));
}
