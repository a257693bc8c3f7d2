/* Income, costs and net return of the likely case, as lines. */
#include "plan.h"

#include <math.h>

enum { TAKE_OUT, LOAD, HAUL, SPREAD, STACKING, RELOAD };

const char *ls_cost_name(int cost) {
    static const char *const names[] = {"take out", "load", "haul", "spread", "stacking", "reload"};
    return names[cost];
}

typedef struct {
    ls_haul_planner *p;
    ls_line straight, stacked, out; /* tons of the middle stage */
} books;

/* A sum of what is known, or nothing. */
static ls_line sum(books *s, const char *key, const char *label, const ls_line *lines, size_t n) {
    ls_line all = ls_sum(s->p->w, key, label, "$", lines, n);
    return all != LS_NO_LINE
               ? all
               : ls_same(s->p->w, key, label, "$", ls_haul_exact(s->p, "plan.no_money", "no money", "$", 0));
}

/* ---- tons and trips of a buyer at the middle stage ---- */

static double out_tons(const ls_haul_planner *p, size_t buyer) {
    double tons = 0;
    LS_EACH_OF (const ls_split_load, l, p->middle->loads, p->middle->loads_n)
        if (l->from_stack && (buyer == p->buyers || l->buyer == buyer)) tons += l->tons;
    return tons;
}

/* Firm and likely loads, and what comes out of the stack. LS_NO_LINE: none. */
static ls_line tons_of(books *s, size_t buyer) {
    ls_haul_planner *p = s->p;
    const ls_buyer *b = &p->farm->buyers.at[buyer];
    ls_worksheet *w = ls_haul_of_buyer(p, b);
    ls_line *lines = LS_NEW(p->arena, ls_line, p->plan->loads_n + 1);
    size_t n = 0;
    LS_EACH_OF (const ls_load, l, p->loads, p->plan->loads_n)
        if (l->buyer == b && ls_load_counted(l)) lines[n++] = l->tons;
    double out = out_tons(p, buyer);
    if (out > 0)
        lines[n++] =
            ls_haul_decided(w, "from_stack", "out of the stack for %s, likely case", "ton", out, ls_haul_likely_split);
    return ls_sum(w, "tons", "tons for %s, likely case", "ton", lines, n);
}

/* As promised with a slip, whatever the file says since. LS_NO_LINE: none. */
static ls_line price_of(ls_haul_planner *p, const ls_buyer *b) {
    LS_EACH (const ls_promise_slip, slip, p->farm->promised)
        if (slip->buyer == b)
            return isnan(slip->price)
                       ? LS_NO_LINE
                       : ls_leaf_exact(ls_part(p->w, b->name.text, "promised.%s", b->slug), "price",
                                       "price promised to %s", "$/ton", slip->price, LS_BY_LOG, slip->entry);
    return !LS_GIVEN(b->price) ? LS_NO_LINE
                               : ls_leaf_given(ls_haul_of_buyer(p, b), "price", "price paid by %s", "$/ton", &b->price);
}

static ls_line income(books *s) {
    ls_haul_planner *p = s->p;
    ls_line *lines = LS_NEW(p->arena, ls_line, p->buyers);
    for (size_t i = 0; i < p->buyers; i++) {
        const ls_buyer *b = &p->farm->buyers.at[i];
        ls_trade *t = &p->trade[i];
        t->tons = tons_of(s, i);
        if (t->tons == LS_NO_LINE) continue;
        t->price = price_of(p, b);
        if (t->price == LS_NO_LINE && !b->own.yes)
            ls_haul_note(p, "%s has no price: its litter counts as given away.", b->name.text);
        lines[i] = t->income = LS_PRODUCT(ls_haul_of_buyer(p, b), "income", "paid by %s", "$", t->tons, t->price);
    }
    return sum(s, "plan.income", "income, delivered and spread", lines, p->buyers);
}

/* ---- costs ---- */

static bool is_given(books *s, int cost, const ls_quantity *q) {
    if (!LS_GIVEN(*q)) ls_haul_note(s->p, "The file gives no cost \"%s\": it counts as $0.", ls_cost_name(cost));
    return LS_GIVEN(*q);
}

static ls_line per_ton(books *s, int cost, const ls_quantity *q, ls_line tons) {
    const char *name = ls_cost_name(cost);
    if (!is_given(s, cost, q)) return LS_NO_LINE;
    ls_worksheet *w = ls_part(s->p->w, name, "plan.cost.%s", ls_text_slug(s->p->arena, name));
    return LS_PRODUCT(w, "", "%s", "$", tons, ls_leaf_given(w, "per_ton", "%s, per ton", "$/ton", q));
}

static ls_line haul(books *s, const ls_quantity *q) {
    ls_haul_planner *p = s->p;
    if (!is_given(s, HAUL, q)) return LS_NO_LINE;
    ls_line per_mile = ls_leaf_given(p->w, "plan.cost.haul.per_mile", "haul, per mile driven", "$/mi", q);
    ls_line both = ls_haul_exact(p, "plan.cost.haul.ways", "out and back", "", 2);
    ls_line *lines = LS_NEW(p->arena, ls_line, p->buyers);
    double *tons = LS_NEW(p->arena, double, p->buyers);
    long *trips = LS_NEW(p->arena, long, p->buyers);
    ls_haul_count(p, p->middle, tons, trips);
    for (size_t i = 0; i < p->buyers; i++) {
        const ls_buyer *b = &p->farm->buyers.at[i];
        ls_worksheet *w = ls_haul_of_buyer(p, b);
        if (trips[i] == 0 || !LS_GIVEN(b->distance)) continue;
        ls_line count =
            ls_haul_decided(w, "trips", "trips to %s, likely case", "", (double)trips[i], ls_haul_likely_split);
        lines[i] = p->trade[i].haul =
            LS_PRODUCT(w, "haul", "haul to %s", "$", both, p->trade[i].distance, count, per_mile);
    }
    return sum(s, "plan.cost.haul", "haul", lines, p->buyers);
}

/* What goes to yards is not spread. */
static ls_line spread_tons(books *s) {
    ls_haul_planner *p = s->p;
    ls_line *yards = LS_NEW(p->arena, ls_line, p->buyers);
    bool any = false;
    for (size_t i = 0; i < p->buyers; i++)
        if (ls_buyer_is_yard(&p->farm->buyers.at[i])) yards[i] = p->trade[i].tons, any = any || yards[i] != LS_NO_LINE;
    static const char key[] = "plan.spread", label[] = "litter spread, likely case";
    if (!any) return LS_SUM(p->w, key, label, "ton", s->straight, s->out);
    ls_line all =
        LS_SUM(p->w, "plan.hauled_out", "litter to fields and yards, likely case", "ton", s->straight, s->out);
    return ls_difference(p->w, key, label, "ton", all,
                         ls_sum(p->w, "plan.to_yards", "litter to yards, likely case", "ton", yards, p->buyers));
}

static void costs(books *s) {
    static const ls_costs nothing;
    ls_haul_planner *p = s->p;
    const ls_costs *c = p->farm->costs == NULL ? &nothing : p->farm->costs;
    ls_line *cost = p->plan->cost;
    ls_line taken = LS_SUM(p->w, "plan.taken_out", "litter taken out, likely case", "ton", s->straight, s->stacked);
    ls_line spread = spread_tons(s);
    cost[TAKE_OUT] = per_ton(s, TAKE_OUT, &c->take_out, taken);
    /* seldom paid for by itself: not missed if it is not given */
    cost[LOAD] = LS_GIVEN(c->load) ? per_ton(s, LOAD, &c->load, taken) : LS_NO_LINE;
    cost[HAUL] = haul(s, &c->haul);
    cost[SPREAD] = per_ton(s, SPREAD, &c->spread, spread);
    cost[RELOAD] = cost[STACKING] = LS_NO_LINE;
    if (!(p->stack_tons > 0)) return;
    cost[STACKING] = per_ton(s, STACKING, &c->stacking, s->stacked);
    cost[RELOAD] = per_ton(s, RELOAD, &c->reload, s->out);
}

static void net_return(books *s) {
    ls_haul_planner *p = s->p;
    ls_plan *plan = p->plan;
    ls_line all = plan->costs = sum(s, "plan.costs", "all costs", plan->cost, LS_COSTS);
    plan->net_return = ls_difference(p->w, "plan.net_return", "net return, likely case", "$", plan->income, all);
    double turnover = ls_line_value(p->w, plan->income) + ls_line_value(p->w, all);
    plan->gap_percent = turnover > 0 ? 100 * plan->goals[LS_GOAL_RETURN].gap / turnover : 0;
}

void ls_haul_money(ls_haul_planner *p) {
    ls_plan *plan = p->plan;
    books s = {.p = p, .straight = plan->straight[1], .stacked = plan->stacked[1]};
    s.out = ls_haul_decided(p->w, "plan.from_stack", "out of the stack, likely case", "ton", out_tons(p, p->buyers),
                            ls_haul_likely_split);
    plan->income = income(&s);
    costs(&s);
    net_return(&s);
    double given_up = p->free->goals[LS_GOAL_RETURN].value - p->middle->goals[LS_GOAL_RETURN].value;
    plan->firmness_cost = ls_haul_decided(
        p->w, "plan.firmness_cost", "net return given up to keep firm loads where they are", "$",
        given_up > 0.005 ? given_up : 0, "net return of the likely case split freely, less that with firm loads kept");
}
