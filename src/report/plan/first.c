/* The lines of a plan that answer first, a label and a sentence or two each. */
#include "parts.h"

#include <limits.h>
#include <math.h>

enum { LIKELY = 1, HIGH = LS_STAGES - 1 };

bool ls_report_lacks_fields(const ls_plan *plan) { return !plan->all_placed[LIKELY] && plan->homeless > 0; }

bool ls_report_has_costs(const ls_plan *plan) {
    for (int i = 0; i < LS_COSTS; i++)
        if (plan->cost[i] != LS_NO_LINE) return true;
    return false;
}

bool ls_report_next_flock(const ls_plan *plan) { return plan->slack_days != LONG_MIN; }

/* The lines join one object: what they say in words. */
static ls_doc_group *in_short(ls_doc_group *top) { return ls_doc_object(top, LS_FIRST, "in_short", NULL); }

/* ---- tons, loads, money ---- */

/* In whole tons of the page, below 10 in tenths, so that what is told together adds up. */
static double rounded(const ls_document *d, double value, double of) {
    ls_unit ton = ls_unit_of("ton");
    double unit = (d->view->metric ? ls_unit_metric(d->arena, ton) : ton).factor;
    double step = of < 10 * unit ? unit / 10 : unit;
    return round(value / step) * step;
}

/* What is likely, with what lies in the stack by the haul log, is placed on fields, or stays in the stack, or has no
 * field, or is in no load: rests of the sides, and what is likelier for the whole farm than for its sides. */
static ls_doc_cell litter(const ls_document *d, const ls_plan_sums *s) {
    const ls_worksheet *w = d->view->sheet;
    const ls_q *tons = &s->estimate->tons;
    double there = s->still_stacked == LS_NO_LINE ? 0 : ls_line_value(w, s->still_stacked);
    double all = tons->mid + there, likely = rounded(d, tons->mid, all), stack = rounded(d, there, all),
           none = rounded(d, ls_line_value(w, s->plan->unplaced[LIKELY]), all),
           stays = ls_line_shown(w, s->stays) >= 1 ? rounded(d, ls_line_value(w, s->stays), all) : 0;
    bool lacks = ls_report_lacks_fields(s->plan);
    ls_doc_cell range = T(" ({}-{})", BARE(POINT(tons, tons->low, "ton")), BARE(POINT(tons, tons->high, "ton")));
    return KEPT(d, "{} likely{}{}. {} placed{}{}", V(likely, "ton"), tons->low < tons->high ? range : W(""),
                stack > 0 ? T(" + {} in the stack", BARE(V(stack, "ton"))) : W(""),
                BARE(V(likely + stack - none - stays, "ton")),
                stays > 0 ? T(", {} to stay in the stack", BARE(V(stays, "ton"))) : W(""),
                lacks       ? T(". {} have NO FIELD.", BARE(V(none, "ton")))
                : none > 0  ? T(", {} in no load yet.", BARE(V(none, "ton")))
                : stays > 0 ? W(".")
                            : W(". All has a field."));
}

/* Loads of the middle case. */
static long counted(const ls_load *loads, size_t n) {
    long counted = 0;
    for (size_t i = 0; i < n; i++) counted += ls_load_counted(&loads[i]);
    return counted;
}

static ls_doc_cell loads(const ls_document *d, const ls_plan *plan) {
    if (plan->days_n == 0) return W("No load leaves a house.");
    return KEPT(d, "{} in {} day{}, all done {}{}.", N(counted(plan->loads, plan->loads_n)), N(plan->working_days),
                W(plan->working_days == 1 ? "" : "s"), ls_doc_moment(plan->ends),
                plan->out_n == 0 ? W("") : T("; {} later from the stack", N(counted(plan->out, plan->out_n))));
}

static ls_doc_cell money(const ls_document *d, const ls_plan *plan) {
    double left = ls_line_value(d->view->sheet, plan->net_return);
    if (!ls_report_has_costs(plan))
        return KEPT(d, "{} in. No costs in the file: add costs to see what is left.", F(plan->income, "$"));
    return KEPT(d, "{} in, {} out, {} {}.", F(plan->income, "$"), F(plan->costs, "$"),
                left < 0 ? V(-left, "$") : F(plan->net_return, "$"), W(left < 0 ? "short" : "left"));
}

void ls_report_put_answer(ls_doc_group *top, const ls_plan_sums *s) {
    const ls_document *d = top->document;
    ls_doc_group *g = in_short(top);
    bool rest = d->view->farm->hauled.n > 0;
    FACTS(g, LS_FIRST, {"litter", rest ? "LEFT TO HAUL" : "LITTER", litter(d, s)},
          {"loads", rest ? "LOADS LEFT" : "LOADS", loads(d, s->plan)},
          {"money", rest ? "MONEY OF THEM" : "MONEY", money(d, s->plan)});
    ls_report_put_kept(g, s);
}

/* ---- houses, next flock, trucks ---- */

/* "1 more day" */
static ls_doc_cell days_more(const ls_document *d, long n) {
    return KEPT(d, "{} more day{}", N(n), W(n == 1 ? "" : "s"));
}

static ls_doc_cell houses(const ls_document *d, const ls_plan *plan) {
    ls_doc_cell stay = F(plan->unplaced[LIKELY], "ton");
    if (!ls_report_lacks_fields(plan) && plan->loads_n == 0) return W("No whole load is in them.");
    if (!ls_report_lacks_fields(plan))
        return KEPT(d, "Empty {}{}.", ls_doc_moment(plan->ends),
                    ls_line_shown(d->view->sheet, plan->unplaced[LIKELY]) >= 1 ? T(", but for {} in no load", stay)
                                                                               : W(""));
    if (plan->empty_finish == LS_NO_DATE) return KEPT(d, "NOT EMPTY: {} stay.", stay);
    return ls_doc_keep(d, plan->empty_days == 0 ? T("NOT EMPTY: {} stay. With a field they fit in these days.", stay)
                                                : T("NOT EMPTY: {} stay. With a field they take {}.", stay,
                                                    days_more(d, plan->empty_days)));
}

/* What the high case adds to the days. */
static ls_doc_cell if_high(const ls_document *d, const ls_plan *plan) {
    ls_doc_cell days =
        plan->high_finish == LS_NO_DATE || plan->high_days == 0 ? W("") : T("{}. ", days_more(d, plan->high_days));
    return plan->all_placed[HIGH] ? ls_doc_keep(d, days)
                                  : KEPT(d, "{}{} have no field.", days, F(plan->unplaced[HIGH], "ton"));
}

/* The day the houses are empty; LS_NO_DATE: they are not, and when is not known. */
static ls_date emptied(const ls_plan *plan) { return ls_report_lacks_fields(plan) ? plan->empty_finish : plan->finish; }

static ls_doc_cell next_flock(const ls_document *d, const ls_plan *plan) {
    if (!ls_report_next_flock(plan)) return W("The file gives no date.");
    ls_date flock = d->view->farm->facts->next_flock.day, empty = emptied(plan);
    ls_doc_cell next = DAY(flock);
    if (plan->slack_days <= 0) return KEPT(d, "{}: before the houses are done.", next);
    if (empty == LS_NO_DATE) return KEPT(d, "{}: empty the houses by then.", next);
    if (flock <= empty) return KEPT(d, "{}: before the houses are empty.", next);
    ls_doc_cell whole = T("{}: {} whole days empty", next, N((long)flock - empty - 1));
    return plan->ready == LS_NO_LINE ? KEPT(d, "{}, for washing and bedding too.", whole)
                                     : KEPT(d, "{}; they need {}.", whole, BARE(F(plan->ready, "day")));
}

ls_doc_cell ls_report_fleet(const ls_fleet *fleet) { return fleet->fleet == NULL ? N(fleet->trucks) : W(fleet->fleet); }

/* Do both finish in the same minute, as far as a page tells? */
static bool as_soon(const ls_fleet *a, const ls_fleet *b) {
    return a->finish.day == b->finish.day && (a->finish.second + 30) / 60 == (b->finish.second + 30) / 60;
}

/* "2 now; 3 finish at 2:01 pm. The loader waits for trucks: more would help." */
static ls_doc_cell trucks(const ls_document *d, const ls_plan *plan) {
    const ls_fleet *now = plan->now == SIZE_MAX ? NULL : &plan->fleets[plan->now],
                   *more = plan->more == SIZE_MAX ? NULL : &plan->fleets[plan->more];
    if (now == NULL) return W("No load to haul.");
    ls_doc_cell cell = T("{} now", ls_report_fleet(now));
    bool help = more != NULL && !as_soon(now, more);
    if (help)
        cell = KEPT(d, "{}; {} finish{} {}", cell, ls_report_fleet(more), W(more->fleet == NULL ? "" : "es"),
                    more->finish.day == now->finish.day ? T("at {}", BARE(ls_doc_moment(more->finish)))
                                                        : ls_doc_moment(more->finish));
    if (plan->cheapest != SIZE_MAX)
        cell = KEPT(d, "{}; cheapest by the hour: {}", cell, ls_report_fleet(&plan->fleets[plan->cheapest]));
    double factor = ls_line_value(d->view->sheet, plan->match);
    return KEPT(d, "{}. {}", cell,
                W(!help        ? "One more would not finish sooner."
                  : factor < 1 ? "The loader waits: more would help."
                  : factor > 1 ? "Trucks wait: more help little."
                               : "Neither waits for the other."));
}

void ls_report_put_in_short(ls_doc_group *top, const ls_plan_sums *s) {
    const ls_document *d = top->document;
    const ls_plan *plan = s->plan;
    ls_doc_level level = plan->days_n > 0 ? LS_FIRST : LS_DATA;
    ls_doc_group *g = in_short(top);
    ls_doc_fact(g, LS_FIRST, "houses", "HOUSES", houses(d, plan));
    ls_doc_fact(g, plan->high_days > 0 || !plan->all_placed[HIGH] ? LS_FIRST : LS_DATA, "if_high", "IF HIGH",
                if_high(d, plan));
    FACTS(g, level, {"next_flock", "NEXT FLOCK", next_flock(d, plan)}, {"trucks", "TRUCKS", trucks(d, plan)});
}

/* ---- how sure, what is assumed, what more there is ---- */

static ls_doc_cell how_good(const ls_document *d, const ls_plan *plan) {
    const ls_worksheet *w = d->view->sheet;
    static const char *const better[LS_AIMS] = {[LS_AIM_MONEY] = "leaves more money",
                                                [LS_AIM_NEAR] = "drives fewer miles",
                                                [LS_AIM_PHOSPHORUS] = "puts phosphorus where crops need it more"};
    ls_line gap = plan->gap[LS_GOAL_TONS], rest = plan->unplaced[LIKELY];
    const char *which = plan->firm_kept ? "that keeps firm loads" : "of these loads";
    if (plan->tickets_kept) return W("Tickets that stay keep their way. A better plan is not ruled out.");
    if (ls_report_lacks_fields(plan) && ls_line_value(w, gap) > 0)
        return KEPT(d, "Another plan may place up to {} more.",
                    F(ls_line_value(w, gap) < ls_line_value(w, rest) ? gap : rest, "ton"));
    if (ls_line_shown(w, plan->gap[LS_GOAL_RETURN]) < 1)
        return KEPT(d, "No plan {} places more tons or {}.", W(which), W(better[plan->aim]));
    const char *unit = ls_line_at(w, plan->gap[LS_GOAL_RETURN])->unit.text;
    return KEPT(d, "No plan {} places more tons. One may be better by {}.", W(which),
                F(plan->gap[LS_GOAL_RETURN], unit));
}

/* Loads by side, firm and likely, and how many of them go somewhere. What the whole farm is sure of
 * more than its sides one by one comes from any of them. */
static ls_doc_cell counts(const ls_document *d, const ls_plan_sums *s) {
    const ls_worksheet *w = d->view->sheet;
    const ls_load_count *firm = &s->counts[LS_FIRM], *likely = &s->counts[LS_LIKELY];
    double placed[] = {ls_line_value(w, firm->straight) + ls_line_value(w, firm->stacked),
                       ls_line_value(w, likely->straight) + ls_line_value(w, likely->stacked)};
    double without[] = {ls_line_value(w, firm->without), ls_line_value(w, likely->without)};
    double any = fmax(0, ls_line_value(w, firm->apart));
    ls_doc_cell of_any = T(", {} farm-wide", BARE(V(any, "load"))),
                none = T(", {} no field", BARE(F(likely->without, "load")));
    return KEPT(d, "Firm: {} of {} placed{}. Likely: {} of {}{}.", BARE(V(placed[0], "load")),
                BARE(V(placed[0] + without[0] + any, "load")), any > 0 && !(without[0] > 0) ? of_any : W(""),
                BARE(V(placed[1], "load")), BARE(V(placed[1] + without[1], "load")), without[1] > 0 ? none : W(""));
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
    if (n == 0) return W(NULL);
    const ls_default_limit *l = plan->defaults.at;
    ls_doc_cell first = T("{} keeps out {} ({}).", W(l->field->name.text), F(l->tons, "ton"), W(l->what));
    return n == 1 ? ls_doc_keep(d, first) : KEPT(d, "{} {} more (--full).", first, N(n - 1));
}

void ls_report_put_more(ls_doc_group *top, const ls_plan_sums *s) {
    const ls_document *d = top->document;
    ls_doc_group *g = in_short(top);
    size_t unverified = s->plan->unverified, things = s->plan->notes.n - (unverified > 0);
    ls_doc_fact(g, LS_FIRST, "counts", "COUNTS", counts(d, s));
    ls_doc_fact(g, costly(d, s->plan) > 0 && s->plan->relief.n > 0 ? LS_FIRST : LS_DATA, "limits", "LIMITS",
                limits(d, s->plan));
    FACTS(g, LS_FIRST, {"how_good", "PLAN", how_good(d, s->plan)},
          {"assumed", "ASSUMED",
           T("{} thing{}, {} unverified figure{}, {} cautions. List: --full", N(things), W(things == 1 ? "" : "s"),
             N(unverified), W(unverified == 1 ? "" : "s"), N(s->take_care.n))});
}
