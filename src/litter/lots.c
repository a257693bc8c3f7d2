/* The lots of a house: one, or one a side. Sides share every house line, plus a split of the tons
 * between them. */
#include "house.h"

static ls_line of_lot(ls_litter_house *h, const ls_lot *lot, const char *what, const char *label,
                      const char *unit, ls_line house, ls_line share) {
    const char *key = ls_printf(h->w, "%s.%s", lot->slug, what);
    if (share == LS_NO_LINE) {
        ls_line known = ls_line_find(h->w, key); /* a house without sides is its own lot */
        return known != LS_NO_LINE ? known : ls_same(h->w, key, label, unit, house);
    }
    return LS_PRODUCT(h->w, key, label, unit, house, share);
}

static void lot_methods(ls_litter_house *h, ls_lot *lot, ls_line share, ls_line solids) {
    ls_worksheet *w = h->w;
    ls_arena *a = ls_worksheet_arena(w);
    lot->methods_n = h->ways_n;
    lot->methods = LS_NEW(a, ls_method, h->ways_n);
    for (size_t i = 0; i < h->ways_n; i++) {
        const ls_litter_way *way = &h->ways[i];
        const char *slug = ls_text_slug(a, way->name);
        ls_line wet = ls_line_find(w, LS_KEY(h, "by-%s.house", slug));
        if (wet == LS_NO_LINE) {
            ls_line dry =
                ls_litter_left(h, LS_KEY(h, "by-%s.left", slug),
                               ls_printf(w, "dry litter left by %s", way->name), way->dry);
            wet = ls_quotient(w, LS_KEY(h, "by-%s.house", slug),
                              ls_printf(w, "litter of the house by %s", way->name), "ton", dry,
                              solids);
        }
        ls_line tons =
            share == LS_NO_LINE
                ? wet
                : LS_PRODUCT(w, ls_printf(w, "%s.by-%s", lot->slug, slug),
                             ls_printf(w, "litter of the lot by %s", way->name), "ton", wet, share);
        lot->methods[i] = (ls_method){way->name, way->evidence, way->memory,
                                      way->dry,  way->weight,   {.line = tons}};
    }
}

/* A lot weighed by itself: the scale settles it. */
static void lot_weighed(ls_litter_house *h, ls_lot *lot, const ls_quantity *q) {
    ls_worksheet *w = h->w;
    lot->tons.line =
        ls_leaf_given(w, ls_printf(w, "%s.tons", lot->slug), "litter weighed", "ton", q);
    lot->dry_tons.line =
        LS_PRODUCT(w, ls_printf(w, "%s.dry_tons", lot->slug), "dry litter of the lot", "ton",
                   lot->tons.line, ls_litter_solids(h));
    lot->prior_weight = LS_NO_LINE;
}

/* Of a house with cleared sides: all that is left of it belongs to the other sides, each with its
 * share of theirs. */
static ls_line beside_cleared(ls_litter_house *h, const ls_lot *lot, size_t k) {
    ls_worksheet *w = h->w;
    ls_line rest = ls_line_find(w, LS_KEY(h, "tons-beside-cleared"));
    if (rest == LS_NO_LINE)
        rest = ls_litter_beside_cleared(h);
    ls_line *others = LS_NEW(ls_worksheet_arena(w), ls_line, ls_litter_lots_of(h->house));
    size_t n = 0;
    for (size_t i = 0; i < ls_litter_lots_of(h->house); i++)
        if (!h->gone[i].empty)
            others[n++] = h->share[i];
    const char *label = "litter of the lot: what the cleared sides leave of the house";
    if (n == 1)
        return ls_same(w, ls_printf(w, "%s.tons", lot->slug), label, "ton", rest);
    ls_line all = ls_sum(w, ls_printf(w, "%s.shares-uncleared", lot->slug),
                         "share of the house not cleared", "%", others, n);
    ls_line share = ls_quotient(w, ls_printf(w, "%s.share-of-rest", lot->slug),
                                "share of what is not cleared", "%", h->share[k], all);
    return LS_PRODUCT(w, ls_printf(w, "%s.tons", lot->slug), label, "ton", rest, share);
}

static bool has_cleared(const ls_litter_house *h) {
    for (size_t i = 0; i < ls_litter_lots_of(h->house); i++)
        if (h->gone[i].empty)
            return true;
    return false;
}

static void lot_tons(ls_litter_house *h, ls_lot *lot, size_t k) {
    ls_line share = h->share[k];
    const ls_side *side = lot->side;
    if (side && side->measured && LS_GIVEN(side->measured->weighed)) {
        lot_weighed(h, lot, &side->measured->weighed);
        return;
    }
    lot->tons.line =
        has_cleared(h) && !lot->empty && share != LS_NO_LINE
            ? beside_cleared(h, lot, k)
            : of_lot(h, lot, "tons", "litter of the lot as hauled", "ton", h->wet, share);
    lot->dry_tons.line = of_lot(h, lot, "dry_tons", "dry litter of the lot", "ton", h->dry, share);
    lot->prior_weight = h->weighed == LS_NO_LINE ? h->prior_weight : LS_NO_LINE;
    if (h->weighed == LS_NO_LINE)
        lot_methods(h, lot, share, ls_litter_solids(h));
}

/* What is still there of a lot that loads have left: no less was made than what is gone; nothing
 * is left once the log says that it is empty. */
static void lot_left(ls_litter_house *h, ls_lot *lot) {
    ls_worksheet *w = h->w;
    const char *key = ls_printf(w, "%s.tons-left", lot->slug);
    const char *label = "litter of the lot still to be hauled";
    if (lot->empty) {
        lot->made.line = lot->gone;
        lot->tons.line = ls_leaf_exact(w, key, label, "ton", 0, LS_BY_LOG, "the lot is cleared");
    } else {
        lot->made.line = LS_GREATEST(w, ls_printf(w, "%s.tons-made", lot->slug),
                                     "litter of the lot, no less than what is gone", "ton",
                                     lot->tons.line, lot->gone);
        lot->tons.line = ls_difference(w, key, label, "ton", lot->made.line, lot->gone);
    }
    lot->dry_tons.line = LS_PRODUCT(w, ls_printf(w, "%s.dry_tons-left", lot->slug),
                                    "dry litter of the lot still to be hauled", "ton",
                                    lot->tons.line, ls_litter_solids(h));
}

/* Payload of one trip: the truck's weight limit or a full body of loose litter, whichever is less;
 * whole payloads and trips. */
static void lot_loads(ls_litter_house *h, ls_lot *lot) {
    lot->payload.line = lot->full_loads = lot->trips = LS_NO_LINE;
    if (h->farm->trucks.n == 0)
        return;
    ls_worksheet *w = h->w;
    const ls_truck *truck = &h->farm->trucks.at[0];
    ls_line trip = ls_line_find(w, LS_KEY(h, "payload"));
    ls_line one = ls_line_find(w, LS_KEY(h, "one_load"));
    if (trip == LS_NO_LINE) {
        one =
            ls_leaf_exact(w, LS_KEY(h, "one_load"), "one load", "load", 1, LS_BY_DEFINITION, NULL);
        ls_line weight = ls_litter_payload(w, truck);
        ls_line most = weight;
        if (LS_GIVEN(truck->body)) {
            ls_line body = ls_litter_body(w, truck);
            ls_line volume =
                LS_PRODUCT(w, LS_KEY(h, "payload.volume"), "a full body of loose litter", "ton",
                           body, h->loose_density);
            most = LS_LEAST(w, LS_KEY(h, "payload.most"), "payload, by weight or volume", "ton",
                            weight, volume);
        }
        trip = ls_quotient(w, LS_KEY(h, "payload"), "payload of a trip", "ton/load", most, one);
    }
    lot->payload.line = trip;
    ls_line volume = ls_line_find(w, LS_KEY(h, "payload.volume"));
    lot->volume_binds =
        volume != LS_NO_LINE &&
        ls_line_value(w, volume) < ls_line_value(w, ls_line_find(w, "truck-1.payload"));
    ls_line loads = ls_quotient(w, ls_printf(w, "%s.payloads", lot->slug), "tons over payload",
                                "load", lot->tons.line, trip);
    lot->full_loads = ls_step_down(w, ls_printf(w, "%s.full_loads", lot->slug), "whole payloads",
                                   "load", loads, one);
    lot->trips = ls_step_up(w, ls_printf(w, "%s.trips", lot->slug), "trips", "load", loads, one);
}

static void lot_nutrients(ls_litter_house *h, ls_lot *lot) {
    ls_worksheet *w = h->w;
    size_t k_side = lot->side ? (size_t)(lot->side - h->house->sides.at) : 0;
    bool own = lot->side && h->side_analysis[k_side];
    lot->analysis = own ? h->side_analysis[k_side] : h->analysis;
    for (int k = 0; k < LS_NUTRIENTS; k++) {
        lot->per_ton[k].line = lot->analysis->per_ton[k];
        lot->pounds[k].line = LS_NO_LINE;
        if (lot->analysis->per_dry[k] != LS_NO_LINE)
            lot->pounds[k].line =
                LS_PRODUCT(w, ls_printf(w, "%s.pounds.%s", lot->slug, ls_nutrient_key(k)),
                           ls_printf(w, "%s in the lot", ls_nutrient_name(k)), "lb",
                           lot->dry_tons.line, lot->analysis->per_dry[k]);
    }
}

static void lot_begin(ls_litter_house *h, ls_lot *lot, size_t k) {
    const ls_side *side = ls_litter_side(h->house, k);
    lot->house = h->house;
    lot->side = side;
    lot->name =
        side ? ls_printf(h->w, "%s/%s", h->house->name.text, side->name.text) : h->house->name.text;
    lot->slug = ls_litter_lot_slug(h, k);
    lot->code = ls_lot_code(ls_worksheet_arena(h->w), h->house, side);
    lot->made.line = LS_NO_LINE;
    lot->loose_density = h->loose_density;
    lot->house_length = ls_line_find(h->w, LS_KEY(h, "length"));
    lot->gone = h->gone[k].tons;
    lot->empty = h->gone[k].empty;
}

void ls_litter_lots(ls_litter_house *h, ls_lot *lots) {
    size_t n = ls_litter_lots_of(h->house);
    for (size_t k = 0; k < n; k++) {
        lot_begin(h, &lots[k], k);
        lot_tons(h, &lots[k], k);
        if (lots[k].gone != LS_NO_LINE)
            lot_left(h, &lots[k]);
        lots[k].moisture.line = h->moisture;
        lot_nutrients(h, &lots[k]);
        lot_loads(h, &lots[k]);
    }
}
