/* What the litter would cost as fertilizer: nitrogen as far as a crop can use it in the first
 * season, phosphate and potash in full. */
#include "house.h"

#include <string.h>

typedef struct {
    ls_worksheet *w;
    const ls_reference *reference;
    const ls_estimate *estimate;
} market;

static ls_line product_price(const market *m, const ls_price *p) {
    const char *key = ls_printf(m->w, "fertilizer-%s.price",
                                ls_text_slug(ls_worksheet_arena(m->w), p->product.text));
    ls_line known = ls_line_find(m->w, key);
    return known != LS_NO_LINE
               ? known
               : ls_leaf_given(m->w, key, ls_printf(m->w, "price of %s", p->product.text), "$/ton",
                               &p->price);
}

static ls_line content(const market *m, const ls_price *p, const char *nutrient) {
    const ls_figure *f = ls_row_figure(
        ls_table_row(ls_reference_table(m->reference, "fertilizer", ""), p->product.text),
        nutrient);
    if (!f)
        return LS_NO_LINE;
    const char *key = ls_printf(m->w, "fertilizer-%s.%s",
                                ls_text_slug(ls_worksheet_arena(m->w), p->product.text), nutrient);
    ls_line known = ls_line_find(m->w, key);
    return known != LS_NO_LINE
               ? known
               : ls_leaf_figure(m->w, key, ls_printf(m->w, "%s in %s", nutrient, p->product.text),
                                "lb/ton", f);
}

/* $ per lb of a nutrient from one product; the nitrogen that comes with a phosphate counts at the
 * price of nitrogen. */
static ls_line unit_price(const market *m, const ls_price *p, const char *nutrient,
                          ls_line nitrogen_price) {
    ls_line of = content(m, p, nutrient), n = content(m, p, "N");
    if (of == LS_NO_LINE)
        return LS_NO_LINE;
    ls_worksheet *w = m->w;
    const char *slug = ls_text_slug(ls_worksheet_arena(w), p->product.text);
    ls_line price = product_price(m, p);
    if (strcmp(nutrient, "N") != 0 && n != LS_NO_LINE) {
        if (nitrogen_price == LS_NO_LINE)
            return LS_NO_LINE;
        ls_line worth = LS_PRODUCT(w, ls_printf(w, "fertilizer-%s.N_worth", slug),
                                   "worth of its nitrogen", "$/ton", n, nitrogen_price);
        ls_line rest = ls_difference(w, ls_printf(w, "fertilizer-%s.rest", slug),
                                     "price less its nitrogen", "$/ton", price, worth);
        ls_line nothing = ls_leaf_exact(w, ls_printf(w, "fertilizer-%s.nothing", slug), "nothing",
                                        "$/ton", 0, LS_BY_DEFINITION, NULL);
        price = LS_GREATEST(w, ls_printf(w, "fertilizer-%s.rest_kept", slug),
                            "price less its nitrogen, at least nothing", "$/ton", rest, nothing);
    }
    return ls_quotient(w, ls_printf(w, "fertilizer-%s.per_lb.%s", slug, nutrient),
                       ls_printf(w, "%s by %s", nutrient, p->product.text), "$/lb", price, of);
}

/* The cheapest source given; for nitrogen only products that hold nothing else. */
static ls_line cheapest(const market *m, const char *nutrient, ls_line nitrogen_price) {
    const ls_farm *f = m->estimate->farm;
    ls_arena *a = ls_worksheet_arena(m->w);
    ls_line *x = LS_NEW(a, ls_line, f->fertilizer.n);
    size_t n = 0;
    for (size_t i = 0; i < f->fertilizer.n; i++) {
        const ls_price *p = &f->fertilizer.at[i];
        if (strcmp(nutrient, "N") == 0 &&
            (content(m, p, "P2O5") != LS_NO_LINE || content(m, p, "K2O") != LS_NO_LINE))
            continue;
        ls_line price = unit_price(m, p, nutrient, nitrogen_price);
        if (price != LS_NO_LINE)
            x[n++] = price;
    }
    if (n == 0)
        return LS_NO_LINE;
    return ls_least(m->w, ls_printf(m->w, "whole-farm.price.%s", nutrient),
                    ls_printf(m->w, "price of %s, the cheapest given", nutrient), "$/lb", x, n);
}

/* ---- nitrogen of the first season from litter left on the surface ---- */

static const ls_row *factors(const market *m) {
    const ls_table_names *names = m->estimate->farm->tables;
    const char *name = names && names->nitrogen.text ? names->nitrogen.text : "psu-pan";
    return ls_table_row(ls_reference_table(m->reference, "nitrogen", name), "factors");
}

/* Kept of the ammonium: by the nitrogen table, else by the ammonium table the farm names. */
static const ls_figure *ammonium_kept(const market *m) {
    const ls_table_names *names = m->estimate->farm->tables;
    const ls_figure *own = ls_row_figure(factors(m), "ammonium_never");
    if (own != NULL || names == NULL || names->ammonium.text == NULL)
        return own;
    const ls_table *t = ls_reference_table(m->reference, "ammonium", names->ammonium.text);
    return ls_row_figure(ls_table_row(t, "never"), "average");
}

/* Tables that count organic and ammonium nitrogen apart. */
static ls_line nitrogen_by_parts(const market *m, const ls_figure *organic,
                                 const ls_figure *ammonium) {
    ls_worksheet *w = m->w;
    ls_line nitrogen = ls_line_find(w, "whole-farm.pounds.N"),
            ammoniacal = ls_line_find(w, "whole-farm.pounds.NH4N");
    if (nitrogen == LS_NO_LINE || ammoniacal == LS_NO_LINE)
        return LS_NO_LINE;
    ls_line bound = ls_difference(w, "whole-farm.organic_N", "organic N in all litter", "lb",
                                  nitrogen, ammoniacal);
    ls_line share = ls_leaf_figure(w, "whole-farm.organic_share",
                                   "organic N released in the first season", "%", organic);
    ls_line kept = ls_leaf_figure(w, "whole-farm.ammonium_share",
                                  "NH4-N kept when litter is left on the surface", "%", ammonium);
    ls_line released =
        LS_PRODUCT(w, "whole-farm.released_N", "organic N released", "lb", bound, share);
    ls_line saved = LS_PRODUCT(w, "whole-farm.saved_N", "NH4-N kept", "lb", ammoniacal, kept);
    return LS_SUM(w, "whole-farm.usable_N", "N a crop can use in the first season", "lb", released,
                  saved);
}

/* Tables that count a share of all nitrogen, or pounds in a ton. */
static ls_line nitrogen_by(const market *m, const char *label, const ls_figure *f, const char *unit,
                           ls_line amount) {
    if (amount == LS_NO_LINE)
        return LS_NO_LINE;
    ls_line each = ls_leaf_figure(m->w, "whole-farm.usable_share", label, unit, f);
    return LS_PRODUCT(m->w, "whole-farm.usable_N", "N a crop can use in the first season", "lb",
                      amount, each);
}

static ls_line usable_nitrogen(const market *m) {
    const ls_row *row = factors(m);
    const ls_figure *organic = ls_row_figure(row, "organic"), *ammonium = ammonium_kept(m),
                    *share = ls_row_figure(row, "total_surface"),
                    *per_ton = ls_row_figure(row, "per_ton_surface");
    if (organic != NULL && ammonium != NULL)
        return nitrogen_by_parts(m, organic, ammonium);
    if (share == NULL)
        share = ls_row_figure(row, "total");
    if (share != NULL)
        return nitrogen_by(m, "share of N that counts in the first season", share, "%",
                           ls_line_find(m->w, "whole-farm.pounds.N"));
    return per_ton == NULL
               ? LS_NO_LINE
               : nitrogen_by(m, "usable N in a ton", per_ton, "lb/ton", m->estimate->tons.line);
}

void ls_litter_value(ls_worksheet *w, const ls_reference *r, ls_estimate *e) {
    e->value_per_ton = e->value.line = LS_NO_LINE;
    for (int k = 0; k < LS_NUTRIENTS; k++)
        e->price[k] = LS_NO_LINE;
    if (e->farm->fertilizer.n == 0)
        return;
    market m = {w, r, e};
    ls_line n_price = cheapest(&m, "N", LS_NO_LINE);
    ls_line amounts[] = {usable_nitrogen(&m), ls_line_find(w, "whole-farm.pounds.P2O5"),
                         ls_line_find(w, "whole-farm.pounds.K2O")};
    ls_line prices[] = {n_price, cheapest(&m, "P2O5", n_price), cheapest(&m, "K2O", n_price)};
    e->price[LS_N] = prices[0], e->price[LS_P2O5] = prices[1], e->price[LS_K2O] = prices[2];
    static const char *const names[] = {"N", "P2O5", "K2O"};
    ls_line worth[3];
    size_t n = 0;
    for (size_t k = 0; k < 3; k++) {
        if (amounts[k] == LS_NO_LINE || prices[k] == LS_NO_LINE) {
            *LS_PUSH(ls_worksheet_arena(w), &e->notes) =
                ls_printf(w, "the value leaves %s out: no price or no figure for it", names[k]);
            continue;
        }
        worth[n++] =
            LS_PRODUCT(w, ls_printf(w, "whole-farm.worth.%s", names[k]),
                       ls_printf(w, "worth of the %s", names[k]), "$", amounts[k], prices[k]);
    }
    if (n == 0)
        return;
    e->value.line =
        ls_sum(w, "whole-farm.value", "worth of the litter as fertilizer", "$", worth, n);
    e->value_per_ton = ls_quotient(w, "whole-farm.value_per_ton", "worth of a ton as fertilizer",
                                   "$/ton", e->value.line, e->tons.line);
}
