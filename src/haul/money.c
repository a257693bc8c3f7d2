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

/* A sum, or nothing. */
static ls_line sum(books *s, const char *key, const char *label, const ls_line *lines, size_t n) {
    return n == 0 ? ls_same(s->p->w, key, label, "$",
                            ls_haul_exact(s->p, "plan.no_money", "no money", "$", 0))
                  : ls_sum(s->p->w, key, label, "$", lines, n);
}

/* ---- tons and trips of a buyer at the middle stage ---- */

static double out_tons(const ls_haul_planner *p, size_t buyer) {
    double tons = 0;
    for (size_t k = 0; k < p->middle->loads_n; k++)
        if (p->middle->loads[k].from_stack &&
            (buyer == p->buyers || p->middle->loads[k].buyer == buyer))
            tons += p->middle->loads[k].tons;
    return tons;
}

static long trips(const ls_haul_planner *p, size_t buyer) {
    long n = 0;
    for (size_t k = 0; k < p->middle->loads_n; k++) n += p->middle->loads[k].buyer == buyer;
    return n;
}

/* Firm and likely loads, and what comes out of the stack. LS_NO_LINE: none. */
static ls_line tons_of(books *s, size_t buyer) {
    ls_haul_planner *p = s->p;
    const ls_buyer *b = &p->farm->buyers.at[buyer];
    ls_line *lines = LS_NEW(p->arena, ls_line, p->plan->loads_n + 1);
    size_t n = 0;
    for (size_t k = 0; k < p->plan->loads_n; k++)
        if (p->loads[k].buyer == b && p->loads[k].certainty != LS_POSSIBLE)
            lines[n++] = p->loads[k].tons;
    double out = out_tons(p, buyer);
    if (out > 0)
        lines[n++] = ls_leaf_exact(
            p->w, ls_printf(p->w, "plan.buyer.%s.from_stack", b->slug),
            ls_printf(p->w, "out of the stack for %s, likely case", b->name.text), "ton",
            out * ls_unit_of("ton").factor, LS_BY_SPLIT, "the split of the likely case");
    if (n == 0) return LS_NO_LINE;
    return ls_sum(p->w, ls_printf(p->w, "plan.buyer.%s.tons", b->slug),
                  ls_printf(p->w, "tons for %s, likely case", b->name.text), "ton", lines, n);
}

/* As promised with a slip, whatever the file says since. LS_NO_LINE: none. */
static ls_line price_of(ls_haul_planner *p, const ls_buyer *b) {
    for (size_t i = 0; i < p->farm->promised.n; i++) {
        const ls_promise_slip *slip = &p->farm->promised.at[i];
        if (slip->buyer == b && !isnan(slip->price))
            return ls_leaf_exact(p->w, ls_printf(p->w, "promised.%s.price", b->slug),
                                 ls_printf(p->w, "price promised to %s", b->name.text), "$/ton",
                                 slip->price, LS_BY_LOG, slip->entry);
        if (slip->buyer == b) return LS_NO_LINE;
    }
    return !LS_GIVEN(b->price)
               ? LS_NO_LINE
               : ls_leaf_given(p->w, ls_printf(p->w, "plan.buyer.%s.price", b->slug),
                               ls_printf(p->w, "price paid by %s", b->name.text), "$/ton",
                               &b->price);
}

static ls_line income(books *s) {
    ls_haul_planner *p = s->p;
    ls_line *lines = LS_NEW(p->arena, ls_line, p->buyers);
    size_t n = 0;
    for (size_t i = 0; i < p->buyers; i++) {
        const ls_buyer *b = &p->farm->buyers.at[i];
        ls_trade *t = &p->trade[i];
        t->tons = tons_of(s, i);
        if (t->tons == LS_NO_LINE) continue;
        t->price = price_of(p, b);
        if (t->price == LS_NO_LINE) {
            if (!b->own.yes)
                ls_haul_note(p, "%s has no price: its litter counts as given away.", b->name.text);
            continue;
        }
        t->income = LS_PRODUCT(p->w, ls_printf(p->w, "plan.buyer.%s.income", b->slug),
                               ls_printf(p->w, "paid by %s", b->name.text), "$", t->tons, t->price);
        lines[n++] = t->income;
    }
    return sum(s, "plan.income", "income, delivered and spread", lines, n);
}

/* ---- costs ---- */

static bool is_given(books *s, int cost, const ls_quantity *q) {
    if (!LS_GIVEN(*q))
        ls_haul_note(s->p, "The file gives no cost \"%s\": it counts as $0.", ls_cost_name(cost));
    return LS_GIVEN(*q);
}

static ls_line per_ton(books *s, int cost, const ls_quantity *q, ls_line tons) {
    ls_worksheet *w = s->p->w;
    if (!is_given(s, cost, q)) return LS_NO_LINE;
    const char *slug = ls_text_slug(s->p->arena, ls_cost_name(cost));
    ls_line each = ls_leaf_given(w, ls_printf(w, "plan.cost.%s.per_ton", slug),
                                 ls_printf(w, "%s, per ton", ls_cost_name(cost)), "$/ton", q);
    return LS_PRODUCT(w, ls_printf(w, "plan.cost.%s", slug), ls_cost_name(cost), "$", tons, each);
}

static ls_line haul(books *s, const ls_quantity *q) {
    ls_haul_planner *p = s->p;
    ls_worksheet *w = p->w;
    if (!is_given(s, HAUL, q)) return LS_NO_LINE;
    ls_line per_mile =
        ls_leaf_given(w, "plan.cost.haul.per_mile", "haul, per mile driven", "$/mi", q);
    ls_line both =
        ls_leaf_exact(w, "plan.cost.haul.ways", "out and back", "", 2, LS_BY_DEFINITION, NULL);
    ls_line *lines = LS_NEW(p->arena, ls_line, p->buyers);
    size_t n = 0;
    for (size_t i = 0; i < p->buyers; i++) {
        const ls_buyer *b = &p->farm->buyers.at[i];
        if (trips(p, i) == 0 || !LS_GIVEN(b->distance)) continue;
        ls_line count =
            ls_leaf_exact(w, ls_printf(w, "plan.buyer.%s.trips", b->slug),
                          ls_printf(w, "trips to %s, likely case", b->name.text), "",
                          (double)trips(p, i), LS_BY_SPLIT, "the split of the likely case");
        p->trade[i].haul = LS_PRODUCT(w, ls_printf(w, "plan.buyer.%s.haul", b->slug),
                                      ls_printf(w, "haul to %s", b->name.text), "$", both,
                                      p->trade[i].distance, count, per_mile);
        lines[n++] = p->trade[i].haul;
    }
    return sum(s, "plan.cost.haul", "haul", lines, n);
}

/* What goes to yards is not spread. */
static ls_line spread_tons(books *s) {
    ls_haul_planner *p = s->p;
    ls_line *yards = LS_NEW(p->arena, ls_line, p->buyers);
    size_t n = 0;
    for (size_t i = 0; i < p->buyers; i++)
        if (ls_buyer_is_yard(&p->farm->buyers.at[i]) && p->trade[i].tons != LS_NO_LINE)
            yards[n++] = p->trade[i].tons;
    static const char key[] = "plan.spread", label[] = "litter spread, likely case";
    if (n == 0) return LS_SUM(p->w, key, label, "ton", s->straight, s->out);
    ls_line all = LS_SUM(p->w, "plan.hauled_out", "litter to fields and yards, likely case", "ton",
                         s->straight, s->out);
    return ls_difference(
        p->w, key, label, "ton", all,
        ls_sum(p->w, "plan.to_yards", "litter to yards, likely case", "ton", yards, n));
}

static void costs(books *s) {
    static const ls_costs nothing;
    ls_haul_planner *p = s->p;
    const ls_costs *c = p->farm->costs == NULL ? &nothing : p->farm->costs;
    ls_line *cost = p->plan->cost;
    ls_line taken = LS_SUM(p->w, "plan.taken_out", "litter taken out, likely case", "ton",
                           s->straight, s->stacked);
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
    ls_line known[LS_COSTS];
    size_t n = 0;
    for (int k = 0; k < LS_COSTS; k++)
        if (plan->cost[k] != LS_NO_LINE) known[n++] = plan->cost[k];
    ls_line all = plan->costs = sum(s, "plan.costs", "all costs", known, n);
    plan->net_return =
        ls_difference(p->w, "plan.net_return", "net return, likely case", "$", plan->income, all);
    double turnover = ls_line_value(p->w, plan->income) + ls_line_value(p->w, all);
    plan->gap_percent = turnover > 0 ? 100 * plan->goals[LS_GOAL_RETURN].gap / turnover : 0;
}

void ls_haul_money(ls_haul_planner *p) {
    ls_plan *plan = p->plan;
    books s = {.p = p, .straight = plan->straight[1], .stacked = plan->stacked[1]};
    s.out = ls_leaf_exact(p->w, "plan.from_stack", "out of the stack, likely case", "ton",
                          out_tons(p, p->buyers) * ls_unit_of("ton").factor, LS_BY_SPLIT,
                          "the split of the likely case");
    plan->income = income(&s);
    costs(&s);
    net_return(&s);
    double given_up = p->free->goals[LS_GOAL_RETURN].value - p->middle->goals[LS_GOAL_RETURN].value;
    plan->firmness_cost = ls_leaf_exact(
        p->w, "plan.firmness_cost", "net return given up to keep firm loads where they are", "$",
        given_up > 0.005 ? given_up : 0, LS_BY_SPLIT,
        "net return of the likely case split freely, less that with firm loads kept");
}
