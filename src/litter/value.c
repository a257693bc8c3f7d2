/* What the litter would cost as fertilizer: nitrogen as far as a crop can use it in the first
 * season, phosphate and potash in full. */
#include "house.h"

#include <string.h>

typedef struct {
    ls_worksheet *w;
    const ls_reference *reference;
    const ls_estimate *estimate;
} market;

/* The part of a product of fertilizer. */
static ls_worksheet *part_of(const market *m, const ls_price *p) {
    return ls_part(m->w, p->product.text, "fertilizer-%s", ls_text_slug(ls_worksheet_arena(m->w), p->product.text));
}

static ls_line content(const market *m, const ls_price *p, const char *nutrient) {
    const ls_row *row = ls_table_row(ls_reference_table(m->reference, "fertilizer", ""), p->product.text);
    const ls_figure *f = ls_row_figure(row, nutrient);
    return f ? ls_leaf_figure(part_of(m, p), nutrient, ls_printf(m->w, "%s in %%s", nutrient), "lb/ton", f)
             : LS_NO_LINE;
}

/* $ per lb of a nutrient from one product; the nitrogen that comes with a phosphate counts at the price of nitrogen. */
static ls_line unit_price(const market *m, const ls_price *p, const char *nutrient, ls_line nitrogen_price) {
    ls_line of = content(m, p, nutrient), n = content(m, p, "N");
    if (!of) return LS_NO_LINE;
    ls_worksheet *w = part_of(m, p);
    ls_line price = ls_leaf_given(w, "price", "price of %s", "$/ton", &p->price);
    if (strcmp(nutrient, "N") != 0 && n) {
        ls_line worth = LS_PRODUCT(w, "N_worth", "worth of its nitrogen", "$/ton", n, nitrogen_price);
        if (!worth) return LS_NO_LINE;
        ls_line rest = ls_difference(w, "rest", "price less its nitrogen", "$/ton", price, worth);
        ls_line nothing = ls_leaf_exact(w, "nothing", "nothing", "$/ton", 0, LS_BY_DEFINITION, NULL);
        price = LS_GREATEST(w, "rest_kept", "price less its nitrogen, at least nothing", "$/ton", rest, nothing);
    }
    return ls_quotient(w, ls_printf(w, "per_lb.%s", nutrient), ls_printf(w, "%s by %%s", nutrient), "$/lb", price, of);
}

/* The cheapest source given; for nitrogen only products that hold nothing else. */
static ls_line cheapest(const market *m, const char *nutrient, ls_line nitrogen_price) {
    const ls_farm *f = m->estimate->farm;
    ls_line *x = LS_NEW(ls_worksheet_arena(m->w), ls_line, f->fertilizer.n);
    for (size_t i = 0; i < f->fertilizer.n; i++) {
        const ls_price *p = &f->fertilizer.at[i];
        bool alone = strcmp(nutrient, "N") != 0 || (!content(m, p, "P2O5") && !content(m, p, "K2O"));
        if (alone) x[i] = unit_price(m, p, nutrient, nitrogen_price);
    }
    return ls_least(ls_part(m->w, nutrient, "whole-farm.price"), nutrient, "price of %s, the cheapest given", "$/lb", x,
                    f->fertilizer.n);
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
    if (own != NULL || names == NULL || names->ammonium.text == NULL) return own;
    const ls_table *t = ls_reference_table(m->reference, "ammonium", names->ammonium.text);
    return ls_row_figure(ls_table_row(t, "never"), "average");
}

/* Tables that count organic and ammonium nitrogen apart. */
static ls_line nitrogen_by_parts(const market *m, const ls_figure *organic, const ls_figure *ammonium) {
    ls_worksheet *w = ls_part(m->w, NULL, "whole-farm");
    ls_line nitrogen = m->estimate->pounds[LS_N].line, ammoniacal = m->estimate->pounds[LS_NH4N].line;
    if (!nitrogen || !ammoniacal) return LS_NO_LINE;
    ls_line bound = ls_difference(w, "organic_N", "organic N in all litter", "lb", nitrogen, ammoniacal);
    ls_line share = ls_leaf_figure(w, "organic_share", "organic N released in the first season", "%", organic);
    ls_line kept = ls_leaf_figure(w, "ammonium_share", "NH4-N kept when litter is left on the surface", "%", ammonium);
    ls_line released = LS_PRODUCT(w, "released_N", "organic N released", "lb", bound, share);
    ls_line saved = LS_PRODUCT(w, "saved_N", "NH4-N kept", "lb", ammoniacal, kept);
    return LS_SUM(w, "usable_N", "N a crop can use in the first season", "lb", released, saved);
}

/* Tables that count a share of all nitrogen, or pounds in a ton. */
static ls_line nitrogen_by(const market *m, const char *label, const ls_figure *f, const char *unit, ls_line amount) {
    if (!amount) return LS_NO_LINE;
    ls_line each = ls_leaf_figure(m->w, "whole-farm.usable_share", label, unit, f);
    return LS_PRODUCT(m->w, "whole-farm.usable_N", "N a crop can use in the first season", "lb", amount, each);
}

static ls_line usable_nitrogen(const market *m) {
    const ls_row *row = factors(m);
    const ls_figure *organic = ls_row_figure(row, "organic"), *ammonium = ammonium_kept(m),
                    *share = ls_row_figure(row, "total_surface"), *per_ton = ls_row_figure(row, "per_ton_surface");
    if (organic != NULL && ammonium != NULL) return nitrogen_by_parts(m, organic, ammonium);
    if (share == NULL) share = ls_row_figure(row, "total");
    if (share != NULL)
        return nitrogen_by(m, "share of N that counts in the first season", share, "%", m->estimate->pounds[LS_N].line);
    return per_ton == NULL ? LS_NO_LINE
                           : nitrogen_by(m, "usable N in a ton", per_ton, "lb/ton", m->estimate->tons.line);
}

void ls_litter_value(ls_worksheet *w, const ls_reference *r, ls_estimate *e) {
    static const int nutrients[] = {LS_N, LS_P2O5, LS_K2O};
    if (e->farm->fertilizer.n == 0) return;
    market m = {w, r, e};
    e->price[LS_N] = cheapest(&m, "N", LS_NO_LINE);
    ls_line usable = usable_nitrogen(&m), worth[3] = {0};
    e->price[LS_P2O5] = cheapest(&m, "P2O5", e->price[LS_N]);
    e->price[LS_K2O] = cheapest(&m, "K2O", e->price[LS_N]);
    for (size_t i = 0; i < 3; i++) {
        int k = nutrients[i];
        const char *name = ls_nutrient_name(k);
        worth[i] = LS_PRODUCT(ls_part(w, name, "whole-farm.worth"), name, "worth of the %s", "$",
                              k == LS_N ? usable : e->pounds[k].line, e->price[k]);
        if (!worth[i])
            *LS_PUSH(ls_worksheet_arena(w), &e->notes) =
                ls_printf(w, "the value leaves %s out: no price or no figure for it", name);
    }
    e->value.line = ls_sum(w, "whole-farm.value", "worth of the litter as fertilizer", "$", worth, 3);
    e->value_per_ton = ls_quotient(w, "whole-farm.value_per_ton", "worth of a ton as fertilizer", "$/ton",
                                   e->value.line, e->tons.line);
}
