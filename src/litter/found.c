/* Phosphorus and potassium do not go to the air: what litter holds of them, its tons and what was
 * excreted are one identity,
 *     content x droppings = excreted x share found again,
 * reconciled on the log scale, the same in every draw. The tons know of it (prior.c); here the
 * pounds are the mean, by precision, of what was excreted and found again and of content x those
 * tons. Nitrogen does go to the air: it is content x droppings, within what was excreted. */
#include "house.h"

#include <math.h>

/* ---- pounds ---- */

/* Of an element, in the words of what the laboratory reports. */
static ls_worksheet *found_part(const ls_litter_house *h, int e) {
    return ls_part(h->w, ls_nutrient_name(ls_litter_element_nutrient(e)), "found.%s", ls_element_name(e));
}

/* As the laboratory reports it. */
static ls_line as_oxide(ls_litter_house *h, ls_worksheet *w, const char *key, const char *label, int e, ls_line x) {
    return ls_litter_oxide(h, e) ? LS_PRODUCT(w, key, label, "lb", x, ls_litter_oxide_per(h, e)) : x;
}

/* Content x droppings, reconciled with what was excreted and kept; no more than was excreted. */
static ls_line pounds_of(ls_litter_house *h, int e, ls_line droppings) {
    ls_worksheet *w = found_part(h, e);
    int k = ls_litter_element_nutrient(e);
    ls_line by_content =
        LS_PRODUCT(w, "by_content", "%s by the published content", "lb", droppings, h->in_droppings[k]);
    if (!h->excreted[e]) return by_content;
    ls_line found = by_content;
    if (e != LS_ELEMENT_N && h->kept[e]) {
        ls_line x[2] = {ls_litter_kept_oxide(h, e), by_content}, weight[2];
        double v[2] = {pow(ls_line_log_scale(w, h->in_droppings[k], NULL), 2),
                       pow(ls_line_log_scale(w, x[0], NULL), 2)};
        for (int i = 0; i < 2; i++)
            weight[i] =
                ls_leaf_exact(w, ls_printf(w, "weight-%d", i + 1),
                              i ? "weight of the published content" : "weight of what was excreted and kept", "%",
                              v[i] / (v[0] + v[1]), LS_BY_FIRST_PASS, "the variance of the other over the sum of both");
        found = ls_geomean(w, "reconciled", "%s in the droppings, reconciled", "lb", x, weight, 2);
    }
    ls_line most = as_oxide(h, w, "most", "%s excreted", e, h->excreted[e]);
    return LS_LEAST(w, "droppings_hold", "%s in the droppings, no more than excreted", "lb", found, most);
}

/* Share of the bedding that can be there: litter holds no more than what is no droppings. */
static ls_line bedding_there(ls_litter_house *h, ls_line droppings) {
    ls_worksheet *w = ls_part(h->w, NULL, "found");
    ls_line rest = ls_difference(w, "no_droppings", "dry litter less the droppings", "ton", h->made, droppings);
    ls_line share = ls_quotient(w, "bedding_share", "that over the bedding given", "%", rest, h->bedding);
    ls_line one = ls_leaf_exact(w, "all_bedding", "all of it", "%", 1, LS_BY_DEFINITION, NULL);
    return LS_LEAST(w, "bedding_there", "share of the bedding given that can be there", "%", share, one);
}

/* lb per lb of all dry litter. */
static ls_line settled(ls_litter_house *h, int e, ls_line droppings) {
    ls_worksheet *w = found_part(h, e);
    int k = ls_litter_element_nutrient(e);
    ls_line all = pounds_of(h, e, droppings);
    if (h->in_bedding[e]) {
        ls_line bedding =
            LS_PRODUCT(w, "bedding_there", ls_printf(w, "%s in the bedding that is there", ls_element_name(e)), "lb",
                       h->in_bedding[e], bedding_there(h, droppings));
        bedding = as_oxide(h, w, "bedded", "%s in the bedding", e, bedding);
        all = LS_SUM(w, "held", "%s in the litter", "lb", all, bedding);
    }
    return ls_quotient(ls_part(h->w, ls_nutrient_name(k), "per_dry"), ls_nutrient_key(k),
                       "%s in the dry matter of the litter", "%", all, h->made);
}

void ls_litter_settle(ls_litter_house *h) {
    ls_line per_dry[LS_NUTRIENTS], droppings = LS_NO_LINE;
    if (ls_litter_all_reported(h)) return;
    if (h->made && h->feed)
        droppings = ls_litter_less_bedding(ls_part(h->w, NULL, "found"), "the litter", "dry litter less the bedding",
                                           "dry droppings in the litter", h->made, h->bedding);
    for (int e = 0; e < LS_ELEMENTS; e++) {
        int k = ls_litter_element_nutrient(e);
        per_dry[k] = droppings && h->in_droppings[k] ? settled(h, e, droppings) : h->content[k];
    }
    per_dry[LS_NH4N] = LS_PRODUCT(h->w, "per_dry.NH4N", "NH4-N in the dry matter of the litter", "%", per_dry[LS_N],
                                  h->ammonium_share);
    ls_litter_publish(h, per_dry);
}

/* ---- found again ---- */

/* The share of what was excreted that the litter holds, by all that tells its tons but the element
 * itself: lines H.found.E.share. */
static void share_found(ls_litter_house *h, int e, ls_line litter, ls_line droppings) {
    ls_worksheet *w = found_part(h, e);
    int k = ls_litter_element_nutrient(e);
    const char *name = ls_element_name(e);
    bool lab = h->lab_dry[k] != LS_NO_LINE;
    ls_line content = lab ? h->lab_dry[k] : h->in_droppings[k];
    if (!h->excreted[e] || !content) return;
    ls_line there = LS_PRODUCT(w, "there", "%s in the litter, by its content", "lb", lab ? litter : droppings, content);
    if (lab && h->in_bedding[e]) {
        ls_line bedding = as_oxide(h, w, "not_excreted", "%s in the bedding", e, h->in_bedding[e]);
        there = ls_difference(w, "excreted_there", "%s in the litter less that of the bedding", "lb", there, bedding);
    }
    ls_line element = ls_quotient(w, "element", ls_printf(w, "%s in the litter, as the element", name), "lb", there,
                                  ls_litter_oxide_per(h, e));
    h->found_again[e] = ls_quotient(w, "share", ls_printf(w, "share of the %s excreted that is found again", name), "%",
                                    element, h->excreted[e]);
}

void ls_litter_found_again(ls_litter_house *h) {
    ls_line litter = h->made_without, droppings = litter;
    if (!litter || !h->excreted_dry) return;
    if (h->bedding)
        droppings = ls_difference(h->w, "found.droppings_there",
                                  "dry litter less the bedding, not counting the phosphorus balance", "ton", litter,
                                  h->bedding);
    share_found(h, LS_ELEMENT_P, litter, droppings);
    share_found(h, LS_ELEMENT_K, litter, droppings);
    h->dry_found = ls_quotient(h->w, "found.dry.share", "share of the dry matter excreted that is found again", "%",
                               droppings, h->excreted_dry);
}
