/* Phosphorus and potassium do not go to the air: what litter holds of them, its tons and what was
 * excreted are one identity,
 *     content x droppings = excreted x share found again,
 * reconciled on the log scale, the same in every draw. The tons know of it (prior.c); here the
 * pounds are the mean, by precision, of what was excreted and found again and of content x those
 * tons. Nitrogen does go to the air: it is content x droppings, within what was excreted. */
#include "house.h"

#include <math.h>

/* ---- pounds ---- */

/* Content x droppings, reconciled with what was excreted and kept; no more than was excreted. */
static ls_line pounds_of(ls_litter_house *h, int e, ls_line droppings) {
    ls_worksheet *w = h->w;
    int k = ls_litter_element_nutrient(e);
    const char *name = ls_element_name(e), *called = ls_nutrient_name(k);
    ls_line by_content = LS_PRODUCT(w, LS_KEY(h, "found.%s.by_content", name),
                                    ls_printf(w, "%s by the published content", called), "lb",
                                    droppings, h->in_droppings[k]);
    if (h->excreted[e] == LS_NO_LINE)
        return by_content;
    ls_line found = by_content, most = h->excreted[e];
    if (e != LS_ELEMENT_N && h->kept[e] != LS_NO_LINE) {
        ls_line x[2] = {ls_litter_kept_oxide(h, e), by_content}, weight[2];
        double v[2] = {pow(ls_line_log_scale(w, h->in_droppings[k], NULL), 2),
                       pow(ls_line_log_scale(w, x[0], NULL), 2)};
        for (int i = 0; i < 2; i++)
            weight[i] = ls_leaf_exact(w, LS_KEY(h, "found.%s.weight-%d", name, i + 1),
                                      i ? "weight of the published content"
                                        : "weight of what was excreted and kept",
                                      "%", v[i] / (v[0] + v[1]), LS_BY_FIRST_PASS,
                                      "the variance of the other over the sum of both");
        found =
            ls_geomean(w, LS_KEY(h, "found.%s.reconciled", name),
                       ls_printf(w, "%s in the droppings, reconciled", called), "lb", x, weight, 2);
    }
    if (ls_litter_element_oxide(e))
        most = LS_PRODUCT(w, LS_KEY(h, "found.%s.most", name), ls_printf(w, "%s excreted", called),
                          "lb", most, ls_litter_oxide_per(h, e));
    return LS_LEAST(w, LS_KEY(h, "found.%s.droppings_hold", name),
                    ls_printf(w, "%s in the droppings, no more than excreted", called), "lb", found,
                    most);
}

/* Share of the bedding told that can be there: litter holds no more of it than what is no
 * droppings. */
static ls_line bedding_there(ls_litter_house *h, ls_line droppings) {
    ls_worksheet *w = h->w;
    const char *key = LS_KEY(h, "found.bedding_there");
    ls_line known = ls_line_find(w, key);
    if (known != LS_NO_LINE)
        return known;
    ls_line rest = ls_difference(w, LS_KEY(h, "found.no_droppings"),
                                 "dry litter less the droppings", "ton", h->made, droppings);
    ls_line share = ls_quotient(w, LS_KEY(h, "found.bedding_share"), "that over the bedding given",
                                "%", rest, h->bedding);
    ls_line one = ls_leaf_exact(w, LS_KEY(h, "found.all_bedding"), "all of it", "%", 1,
                                LS_BY_DEFINITION, NULL);
    return LS_LEAST(w, key, "share of the bedding given that can be there", "%", share, one);
}

/* lb per lb of all dry litter. */
static ls_line settled(ls_litter_house *h, int e, ls_line droppings) {
    ls_worksheet *w = h->w;
    int k = ls_litter_element_nutrient(e);
    const char *name = ls_element_name(e), *called = ls_nutrient_name(k);
    ls_line all = pounds_of(h, e, droppings);
    if (h->in_bedding[e] != LS_NO_LINE) {
        ls_line bedding = LS_PRODUCT(w, LS_KEY(h, "found.%s.bedding_there", name),
                                     ls_printf(w, "%s in the bedding that is there", name), "lb",
                                     h->in_bedding[e], bedding_there(h, droppings));
        if (ls_litter_element_oxide(e))
            bedding = LS_PRODUCT(w, LS_KEY(h, "found.%s.bedded", name),
                                 ls_printf(w, "%s in the bedding", called), "lb", bedding,
                                 ls_litter_oxide_per(h, e));
        all = LS_SUM(w, LS_KEY(h, "found.%s.held", name), ls_printf(w, "%s in the litter", called),
                     "lb", all, bedding);
    }
    return ls_quotient(w, LS_KEY(h, "per_dry.%s", ls_nutrient_key(k)),
                       ls_printf(w, "%s in the dry matter of the litter", called), "%", all,
                       h->made);
}

void ls_litter_settle(ls_litter_house *h) {
    ls_worksheet *w = h->w;
    ls_line per_dry[LS_NUTRIENTS];
    if (ls_litter_all_reported(h))
        return;
    bool whole = h->made != LS_NO_LINE && h->feed != LS_NO_LINE;
    ls_line droppings =
        whole ? ls_litter_less_bedding(w, LS_KEY(h, "found"), "the litter",
                                       "dry litter less the bedding", "dry droppings in the litter",
                                       h->made, h->bedding)
              : LS_NO_LINE;
    for (int e = 0; e < LS_ELEMENTS; e++) {
        int k = ls_litter_element_nutrient(e);
        per_dry[k] = h->content[k];
        if (droppings != LS_NO_LINE && h->in_droppings[k] != LS_NO_LINE)
            per_dry[k] = settled(h, e, droppings);
    }
    per_dry[LS_NH4N] =
        h->ammonium_share == LS_NO_LINE || per_dry[LS_N] == LS_NO_LINE
            ? LS_NO_LINE
            : LS_PRODUCT(w, LS_KEY(h, "per_dry.NH4N"), "NH4-N in the dry matter of the litter", "%",
                         per_dry[LS_N], h->ammonium_share);
    ls_litter_publish(h, per_dry);
}

/* ---- found again ---- */

/* The share of what was excreted that the litter holds, by all that tells its tons but the element
 * itself: lines H.found.E.share. */
static void share_found(ls_litter_house *h, int e, ls_line litter, ls_line droppings) {
    ls_worksheet *w = h->w;
    int k = ls_litter_element_nutrient(e);
    const char *name = ls_element_name(e), *called = ls_nutrient_name(k);
    bool lab = h->lab_dry[k] != LS_NO_LINE;
    ls_line content = lab ? h->lab_dry[k] : h->in_droppings[k];
    if (h->excreted[e] == LS_NO_LINE || content == LS_NO_LINE)
        return;
    ls_line there = LS_PRODUCT(w, LS_KEY(h, "found.%s.there", name),
                               ls_printf(w, "%s in the litter, by its content", called), "lb",
                               lab ? litter : droppings, content);
    if (lab && h->in_bedding[e] != LS_NO_LINE) {
        ls_line bedding = LS_PRODUCT(w, LS_KEY(h, "found.%s.not_excreted", name),
                                     ls_printf(w, "%s in the bedding", called), "lb",
                                     h->in_bedding[e], ls_litter_oxide_per(h, e));
        there = ls_difference(w, LS_KEY(h, "found.%s.excreted_there", name),
                              ls_printf(w, "%s in the litter less that of the bedding", called),
                              "lb", there, bedding);
    }
    ls_line element = ls_quotient(w, LS_KEY(h, "found.%s.element", name),
                                  ls_printf(w, "%s in the litter, as the element", name), "lb",
                                  there, ls_litter_oxide_per(h, e));
    h->found_again[e] =
        ls_quotient(w, LS_KEY(h, "found.%s.share", name),
                    ls_printf(w, "share of the %s excreted that is found again", name), "%",
                    element, h->excreted[e]);
}

void ls_litter_found_again(ls_litter_house *h) {
    ls_worksheet *w = h->w;
    for (int e = 0; e < LS_ELEMENTS; e++)
        h->found_again[e] = LS_NO_LINE;
    h->dry_found = LS_NO_LINE;
    ls_line litter = h->made_without;
    if (litter == LS_NO_LINE || h->excreted_dry == LS_NO_LINE)
        return;
    ls_line droppings = litter;
    if (h->bedding != LS_NO_LINE)
        droppings =
            ls_difference(w, LS_KEY(h, "found.droppings_there"),
                          "dry litter less the bedding, not counting the phosphorus balance", "ton",
                          litter, h->bedding);
    share_found(h, LS_ELEMENT_P, litter, droppings);
    share_found(h, LS_ELEMENT_K, litter, droppings);
    h->dry_found = ls_quotient(w, LS_KEY(h, "found.dry.share"),
                               "share of the dry matter excreted that is found again", "%",
                               droppings, h->excreted_dry);
}
