/* A house as its lots: one, or one a side, and the share of each; and the truck that hauls them. */
#include "house.h"

size_t ls_litter_lots_of(const ls_house *house) { return house->sides.n ? house->sides.n : 1; }

const ls_side *ls_litter_side(const ls_house *house, size_t lot) {
    return house->sides.n ? &house->sides.at[lot] : NULL;
}

ls_worksheet *ls_litter_lot_part(const ls_litter_house *h, size_t lot) {
    const ls_side *side = ls_litter_side(h->house, lot);
    return side ? ls_part(h->w, side->name.text, "%s", side->slug) : h->w;
}

/* Share of each side: half each (1/n), uncertain by some points; the last what the others leave. */
void ls_litter_shares(ls_litter_house *h) {
    size_t n = ls_litter_lots_of(h->house);
    const ls_figure *sd = ls_litter_practice(h, "side share sd");
    static const char label[] = "share of the house: %s";
    ls_line *share = h->share = LS_NEW(h->arena, ls_line, n);
    if (n == 1) return;
    ls_spread spread = ls_spread_normal(sd->value);
    spread.low = 0, spread.high = 1;
    for (size_t k = 0; k + 1 < n; k++)
        share[k] = ls_leaf_by(ls_litter_lot_part(h, k), "share", label, "%", sd, 1.0 / (double)n, spread,
                              "equal shares, uncertain by these points");
    ls_worksheet *last = ls_litter_lot_part(h, n - 1);
    ls_line others = share[0];
    if (n > 2) others = ls_sum(last, "shares_before", "share of the other sides", "%", share, n - 1);
    ls_line rest = ls_complement(last, "rest", "what the other sides leave", "%", others);
    ls_line none = ls_leaf_exact(last, "none", "nothing", "%", 0, LS_BY_DEFINITION, NULL);
    share[n - 1] = LS_GREATEST(last, "share", label, "%", rest, none);
}

ls_worksheet *ls_litter_truck_part(const ls_litter_house *h, const ls_truck *truck) {
    return ls_part(h->all, NULL, "truck-%zu", (size_t)(truck - h->farm->trucks.at) + 1);
}

ls_line ls_litter_body(const ls_litter_house *h, const ls_truck *truck) {
    return ls_leaf_given(ls_litter_truck_part(h, truck), "body", "struck volume of the body", "yd3", &truck->body);
}

/* The most a truck may carry by weight: its payload or gross less tare, the lesser of both. */
ls_line ls_litter_weight_limit(const ls_litter_house *h, const ls_truck *truck) {
    ls_worksheet *w = ls_litter_truck_part(h, truck);
    if (!LS_GIVEN(truck->gross) || !LS_GIVEN(truck->tare))
        return ls_leaf_given(w, "payload", "payload by weight", "ton", &truck->payload);
    ls_line gross = ls_leaf_given(w, "gross", "most the truck may weigh loaded", "lb", &truck->gross);
    ls_line tare = ls_leaf_given(w, "tare", "weight of the empty truck", "lb", &truck->tare);
    if (!LS_GIVEN(truck->payload))
        return ls_difference(w, "payload", "payload by weight: gross less tare", "ton", gross, tare);
    ls_line legal = ls_difference(w, "payload-by-gross", "gross less tare", "ton", gross, tare);
    ls_line given = ls_leaf_given(w, "payload-given", "payload by weight as given", "ton", &truck->payload);
    return LS_LEAST(w, "payload", "payload by weight: the lesser of both", "ton", given, legal);
}
