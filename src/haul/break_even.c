/* How far litter may go to each buyer: (value of a ton in the field - price at the house - take out
 * - spread) / cost of hauling a ton a mile. */
#include "plan.h"

typedef struct {
    ls_haul_planner *p;
    ls_worksheet *w; /* the buyer's part */
    const ls_buyer *buyer;
    const ls_trade *trade;
    ls_worth *out;
} account;

/* Worth and tons of the drops whose worth is known. */
typedef struct {
    ls_line *worth, *tons;
    size_t n, unknown;
} drops;

static void add_load(const account *x, drops *of, const ls_load *load) {
    for (size_t k = 0; load->buyer == x->buyer && ls_load_counted(load) && k < load->n; k++) {
        ls_drop *d = (ls_drop *)&load->drops[k];
        ls_worksheet *w = ls_part(x->p->w, NULL, "plan.load.%s.%zu", load->ticket, k + 1);
        of->unknown += d->value_per_ton == LS_NO_LINE;
        of->tons[of->n] = d->tons;
        d->worth = LS_PRODUCT(w, "worth", ls_printf(w, "load %s: worth on %s", load->ticket, d->field->name.text), "$",
                              d->tons, d->value_per_ton);
        of->worth[of->n++] = d->worth;
    }
}

/* The mean by tons of the litter of the middle stage. */
static void field_value(account *x) {
    const ls_haul_planner *p = x->p;
    size_t most = p->high->drops_n;
    drops of = {LS_NEW(p->arena, ls_line, most), LS_NEW(p->arena, ls_line, most), 0, 0};
    LS_EACH_OF (const ls_load, load, p->loads, p->loads_n) add_load(x, &of, load);
    if (of.unknown > 0) return;
    ls_line worth = ls_sum(x->w, "worth", "worth to %s in the fields", "$", of.worth, of.n);
    ls_line tons = ls_sum(x->w, "worth_tons", "tons of that for %s", "ton", of.tons, of.n);
    x->out->value = ls_quotient(x->w, "value_per_ton", "worth of a ton to %s in the fields", "$/ton", worth, tons);
}

/* ---- costs ---- */

static ls_line or_nothing(const account *x, ls_line line) {
    return line != LS_NO_LINE ? line : ls_haul_exact(x->p, "plan.no_cost", "nothing, as none is given", "$/ton", 0);
}

/* Haul of the plan's middle stage over its tons and its miles. */
static ls_line haul_per_ton(account *x) {
    ls_worksheet *w = x->w;
    ls_line haul = x->trade->haul, way = x->trade->distance;
    if (haul == LS_NO_LINE || !(ls_line_value(w, way) > 0) || !(ls_line_value(w, haul) > 0)) return LS_NO_LINE;
    ls_line per_ton = ls_quotient(w, "haul_per_ton", "haul to %s, per ton", "$/ton", haul, x->trade->tons);
    x->out->ton_mile = ls_quotient(w, "haul_per_ton_mile", "haul of a ton per mile of distance, out and back",
                                   "$/ton/mi", per_ton, way);
    return per_ton;
}

/* A cost per ton by its name; nothing if none is given. */
static ls_line cost_of(const account *x, const char *name) {
    const char *key = ls_printf(x->p->w, "plan.cost.%s.per_ton", ls_text_slug(x->p->arena, name));
    return or_nothing(x, ls_line_find(x->p->w, key));
}

/* The price less what is spent on a ton; without a price there is none at the house, and a ton
 * leaves what it costs, below 0. */
static void house_price(account *x, ls_line work, ls_line haul) {
    ls_line costs = LS_SUM(x->w, "costs_per_ton", "taking out to spreading, and haul", "$/ton", work, haul);
    bool paid = x->out->price != LS_NO_LINE;
    x->out->left = ls_difference(x->w, paid ? "price_at_house" : "left_per_ton",
                                 paid ? "price at the house from %s" : "what a ton for %s leaves", "$/ton",
                                 or_nothing(x, x->out->price), costs);
    x->out->at_house = paid ? x->out->left : LS_NO_LINE;
}

static const char *lacking(const account *x, ls_line haul) {
    if (ls_buyer_is_yard(x->buyer)) return "its own fields: a yard spreads the litter elsewhere";
    if (x->p->farm->fertilizer.n == 0) return "add prices under fertilizer, such as urea: 610 $/ton";
    if (x->out->value == LS_NO_LINE) return "littershed rates says for each field what to add";
    if (haul == LS_NO_LINE) return "add haul under costs, such as haul: 2.10 $/mi, and the buyer's distance";
    return NULL;
}

static void distance(account *x) {
    ls_worksheet *w = x->w;
    ls_worth *out = x->out;
    ls_line haul = haul_per_ton(x);
    ls_line work =
        LS_SUM(w, "work_per_ton", "taking out, loading and spreading a ton", "$/ton", cost_of(x, "take out"),
               cost_of(x, "load"), ls_buyer_is_yard(x->buyer) ? or_nothing(x, LS_NO_LINE) : cost_of(x, "spread"));
    out->price = x->trade->price;
    out->lacks = lacking(x, haul);
    if (haul != LS_NO_LINE) house_price(x, work, haul);
    if (out->lacks != NULL) return;
    ls_line other =
        LS_SUM(w, "before_haul", "price at the house and that work", "$/ton", or_nothing(x, out->at_house), work);
    ls_line left = ls_difference(w, "left_for_haul", "worth in the fields less that: left to haul with", "$/ton",
                                 out->value, other);
    out->break_even = ls_quotient(w, "break_even", "distance at which a ton for %s costs what it is worth", "mi", left,
                                  out->ton_mile);
}

void ls_haul_break_even(ls_haul_planner *p) {
    for (size_t i = 0; i < p->buyers; i++) {
        const ls_buyer *b = &p->farm->buyers.at[i];
        account x = {.p = p, .w = ls_haul_of_buyer(p, b), .buyer = b, .trade = &p->trade[i]};
        if (x.trade->tons == LS_NO_LINE) continue;
        x.out = LS_PUSH(p->arena, &p->plan->worth);
        *x.out = (ls_worth){.buyer = b};
        field_value(&x);
        distance(&x);
    }
}
