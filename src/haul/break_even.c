/* How far litter may go to each buyer: (value of a ton in the field - price at the house - take out
 * - spread) / cost of hauling a ton a mile. */
#include "plan.h"

typedef struct {
    ls_haul_planner *p;
    const ls_buyer *buyer;
    const ls_trade *trade;
    ls_worth *out;
} account;

static const char *key_of(const account *x, const char *what) {
    return ls_printf(x->p->w, "plan.buyer.%s.%s", x->buyer->slug, what);
}

/* Worth and tons of the drops whose worth is known. */
typedef struct {
    ls_line *worth, *tons;
    size_t n, unknown;
} drops;

static void add_load(const account *x, drops *of, const ls_load *load) {
    ls_worksheet *w = x->p->w;
    for (size_t k = 0; load->buyer == x->buyer && load->certainty != LS_POSSIBLE && k < load->n;
         k++) {
        ls_drop *d = (ls_drop *)&load->drops[k];
        if (d->value_per_ton == LS_NO_LINE) {
            of->unknown++;
            continue;
        }
        of->tons[of->n] = d->tons;
        d->worth =
            LS_PRODUCT(w, ls_printf(w, "plan.load.%s.%zu.worth", load->ticket, k + 1),
                       ls_printf(w, "load %s: worth on %s", load->ticket, d->field->name.text), "$",
                       d->tons, d->value_per_ton);
        of->worth[of->n++] = d->worth;
    }
}

/* Room for all drops of the plan. */
static drops room_for(const ls_haul_planner *p) {
    size_t most = 0;
    for (size_t i = 0; i < p->plan->loads_n; i++) most += p->loads[i].n;
    for (size_t i = 0; i < p->plan->out_n; i++) most += p->out[i].n;
    return (drops){LS_NEW(p->arena, ls_line, most), LS_NEW(p->arena, ls_line, most), 0, 0};
}

/* The mean by tons of the litter of the middle stage. */
static void field_value(account *x, drops of) {
    ls_haul_planner *p = x->p;
    ls_worksheet *w = p->w;
    for (size_t i = 0; i < p->plan->loads_n; i++) add_load(x, &of, &p->loads[i]);
    for (size_t i = 0; i < p->plan->out_n; i++) add_load(x, &of, &p->out[i]);
    if (of.n == 0 || of.unknown > 0) return;
    const char *name = x->buyer->name.text;
    ls_line worth = ls_sum(w, key_of(x, "worth"), ls_printf(w, "worth to %s in the fields", name),
                           "$", of.worth, of.n);
    ls_line tons = ls_sum(w, key_of(x, "worth_tons"), ls_printf(w, "tons of that for %s", name),
                          "ton", of.tons, of.n);
    x->out->value =
        ls_quotient(w, key_of(x, "value_per_ton"),
                    ls_printf(w, "worth of a ton to %s in the fields", name), "$/ton", worth, tons);
}

/* ---- costs ---- */

static ls_line nothing(const account *x) {
    return ls_haul_exact(x->p, "plan.no_cost", "nothing, as none is given", "$/ton", 0);
}

static ls_line or_nothing(const account *x, ls_line line) {
    return line == LS_NO_LINE ? nothing(x) : line;
}

/* Haul of the plan's middle stage over its tons and its miles. */
static ls_line haul_per_ton(account *x) {
    ls_worksheet *w = x->p->w;
    ls_line haul = x->trade->haul, way = x->trade->distance, tons = x->trade->tons;
    if (haul == LS_NO_LINE || !(ls_line_value(w, way) > 0) || !(ls_line_value(w, haul) > 0))
        return LS_NO_LINE;
    ls_line per_ton =
        ls_quotient(w, key_of(x, "haul_per_ton"),
                    ls_printf(w, "haul to %s, per ton", x->buyer->name.text), "$/ton", haul, tons);
    x->out->ton_mile =
        ls_quotient(w, key_of(x, "haul_per_ton_mile"),
                    "haul of a ton per mile of distance, out and back", "$/ton/mi", per_ton, way);
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
    ls_worksheet *w = x->p->w;
    ls_line costs = LS_SUM(w, key_of(x, "costs_per_ton"), "taking out to spreading, and haul",
                           "$/ton", work, haul);
    bool paid = x->out->price != LS_NO_LINE;
    x->out->left =
        ls_difference(w, key_of(x, paid ? "price_at_house" : "left_per_ton"),
                      ls_printf(w, paid ? "price at the house from %s" : "what a ton for %s leaves",
                                x->buyer->name.text),
                      "$/ton", or_nothing(x, x->out->price), costs);
    x->out->at_house = paid ? x->out->left : LS_NO_LINE;
}

static const char *lacking(const account *x, ls_line haul) {
    if (ls_buyer_is_yard(x->buyer)) return "its own fields: a yard spreads the litter elsewhere";
    if (x->p->farm->fertilizer.n == 0)
        return "add prices under fertilizer, such as urea: 610 $/ton";
    if (x->out->value == LS_NO_LINE) return "littershed rates says for each field what to add";
    if (haul == LS_NO_LINE)
        return "add haul under costs, such as haul: 2.10 $/mi, and the buyer's distance";
    return NULL;
}

static void distance(account *x) {
    ls_worksheet *w = x->p->w;
    ls_worth *out = x->out;
    ls_line haul = haul_per_ton(x);
    ls_line work = LS_SUM(w, key_of(x, "work_per_ton"), "taking out, loading and spreading a ton",
                          "$/ton", cost_of(x, "take out"), cost_of(x, "load"),
                          ls_buyer_is_yard(x->buyer) ? nothing(x) : cost_of(x, "spread"));
    out->price = x->trade->price;
    out->lacks = lacking(x, haul);
    if (haul != LS_NO_LINE) house_price(x, work, haul);
    if (out->lacks != NULL) return;
    ls_line other = LS_SUM(w, key_of(x, "before_haul"), "price at the house and that work", "$/ton",
                           or_nothing(x, out->at_house), work);
    ls_line left = ls_difference(w, key_of(x, "left_for_haul"),
                                 "worth in the fields less that: left to haul with", "$/ton",
                                 out->value, other);
    out->break_even = ls_quotient(
        w, key_of(x, "break_even"),
        ls_printf(w, "distance at which a ton for %s costs what it is worth", x->buyer->name.text),
        "mi", left, out->ton_mile);
}

void ls_haul_break_even(ls_haul_planner *p) {
    drops room = room_for(p);
    for (size_t i = 0; i < p->buyers; i++) {
        account x = {.p = p, .buyer = &p->farm->buyers.at[i], .trade = &p->trade[i]};
        if (x.trade->tons == LS_NO_LINE) continue;
        x.out = LS_PUSH(p->arena, &p->plan->worth);
        *x.out = (ls_worth){x.buyer,    LS_NO_LINE, LS_NO_LINE, LS_NO_LINE,
                            LS_NO_LINE, LS_NO_LINE, LS_NO_LINE, NULL};
        field_value(&x, room);
        distance(&x);
    }
}
