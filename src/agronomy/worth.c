/* What a ton is worth on a field: the fertilizer it saves, as far as the crop will use it. Nitrogen counts by its
 * availability and up to what is left of the need; phosphate and potash up to the need of the laboratory or plan, or by
 * the soil test's class: nothing where that is high or above, what the harvest removes where it is low or medium.
 * Prices of nutrients are those of the fertilizers in the farm file (University of Georgia, Circular 933). */
#include "room.h"

#include <string.h>

typedef struct {
    const ls_agronomy_plot *plot;
    const ls_agronomy_litter *litter;
    ls_worksheet *w; /* the part of both */
    ls_rate *rate;
} worth;

/* ---- what the crop will use, per acre ---- */

/* Potash of a year's harvest, by the row that its phosphate is reckoned by; LS_NO_LINE: none is, or
 * it has no potash by the yield. */
static ls_line removed_potash(const ls_agronomy_plot *p) {
    const ls_figure *per_unit = ls_row_figure(p->removal, "K2O");
    return per_unit == NULL || !ls_agronomy_fits(per_unit, &p->field->yield) ? LS_NO_LINE
                                                                             : ls_agronomy_removed(p, LS_FIELD_K2O);
}

static const char *to_add(const worth *x, int k) {
    return ls_printf(x->plot->g->w, "not counted: give the field's %s, or a soil test by Mehlich-1%s, to count it",
                     k == LS_FIELD_P2O5 ? "phosphate need (phosphate)" : "potash need (potash)",
                     x->plot->g->soil == NULL ? " and a soil table under tables" : "");
}

/* Phosphate or potash that the crop will use; LS_NO_LINE: not known, *why says what to add. */
static ls_line other_use(const worth *x, int k, const char **why) {
    const ls_agronomy_plot *p = x->plot;
    ls_worksheet *w = p->g->w;
    if (p->out->left[k]) {
        *why = ls_line_value(w, p->out->left[k]) > 0 ? "up to the need of the field"
                                                     : "the soil test or plan asks for none";
        return p->out->left[k];
    }
    const char *class = k == LS_FIELD_P2O5 ? p->out->P_class : p->out->K_class;
    if (class != NULL &&
        (strcmp(class, "high") == 0 || strcmp(class, "very high") == 0 || strcmp(class, "excessive") == 0)) {
        *why = ls_printf(w, "the soil test is %s: none is asked for", class);
        return ls_leaf_exact(ls_part(p->w, ls_field_nutrient[k], "worth.none"), ls_field_nutrient[k],
                             "%s the soil test asks for", "lb/ac", 0, LS_BY_DEFINITION,
                             "the class is high or very high");
    }
    ls_line removed = LS_NO_LINE;
    if (class != NULL) removed = k == LS_FIELD_P2O5 ? p->out->removal_P2O5 : removed_potash(p);
    *why = removed ? ls_printf(w, "the soil test is %s: up to what a harvest removes", class) : to_add(x, k);
    return removed;
}

/* ---- worth of a ton ---- */

static ls_line worth_of(const worth *x, int k, ls_line on, ls_line use, ls_line price) {
    const char *name = ls_field_nutrient[k];
    ls_line used =
        LS_LEAST(ls_part(x->w, name, "worth.used"), name, "%s of the litter that the crop will use", "lb/ac", on, use);
    ls_line ton =
        ls_quotient(ls_part(x->w, name, "worth.per_ton"), name, "%s that a ton saves", "lb/ton", used, x->rate->rate);
    return LS_PRODUCT(ls_part(x->w, name, "worth"), name, "worth of the %s in a ton on this field", "$/ton", ton,
                      price);
}

static void one_nutrient(const worth *x, int k) {
    static const char *const products[LS_FIELD_NUTRIENTS] = {"\"urea: 610 $/ton\"", "\"DAP: 790 $/ton\"",
                                                             "\"muriate of potash: 480 $/ton\""};
    ls_worksheet *w = x->plot->g->w;
    const char **why = &x->rate->worth_why[k];
    ls_line on = x->rate->counts[k], use = x->plot->out->left[k];
    ls_line price = x->plot->g->estimate->price[ls_in_litter[k]];
    *why = "what a crop can use in the first season, up to the need of the field";
    if (!price) {
        *why = ls_printf(w, "not counted: no price; add a fertilizer that holds it under fertilizer, such as %s",
                         products[k]);
        return;
    }
    if (k != LS_FIELD_N) use = other_use(x, k, why);
    if (!on) *why = "not counted: the litter has no figure for it";
    if (on && use) x->rate->worth[k] = worth_of(x, k, on, use, price);
}

static void price_per_pound(const worth *x) {
    const ls_quantity *price = &x->plot->out->buyer->price;
    ls_line pan = x->litter->pan[x->plot->spreading].stated;
    if (!LS_GIVEN(*price) || !(ls_line_value(x->w, pan) > 0)) return;
    ls_line paid = ls_leaf_given(x->plot->w, "buyer_price", "price paid, delivered and spread", "$/ton", price);
    x->rate->price_per_lb =
        ls_quotient(x->w, "price_per_lb_N", "price of a pound of plant-available N in this litter", "$/lb", paid, pan);
}

ls_rate ls_agronomy_worth(const ls_agronomy_plot *p, const ls_agronomy_litter *litter, ls_rate of) {
    worth x = {p, litter, ls_agronomy_part(p, litter), &of};
    if (!(ls_line_value(x.w, of.rate) > 0)) return of;
    price_per_pound(&x);
    for (int k = 0; k < LS_FIELD_NUTRIENTS; k++) one_nutrient(&x, k);
    of.value_per_ton =
        ls_sum(x.w, "value_per_ton", "worth of a ton on this field", "$/ton", of.worth, LS_FIELD_NUTRIENTS);
    return of;
}
