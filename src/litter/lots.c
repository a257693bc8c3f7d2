/* The lots of a house: one, or one a side. Sides share its lines, and split the tons. */
#include "house.h"

/* A lot while its lines are made. */
typedef struct {
    ls_litter_house *h;
    ls_worksheet *w; /* its part */
    size_t k;
    ls_lot *out;
    ls_line share; /* of the house; LS_NO_LINE: it is all of it */
} lot;

/* A house without sides is its own lot: the line may stand already. */
static ls_line of_lot(const lot *l, const char *key, const char *label, ls_line house) {
    if (l->share) return LS_PRODUCT(l->w, key, label, "ton", house, l->share);
    ls_line known = ls_line_find(l->w, key);
    return known ? known : ls_same(l->w, key, label, "ton", house);
}

static void lot_methods(const lot *l, ls_line solids) {
    ls_litter_house *h = l->h;
    l->out->methods_n = h->ways_n;
    l->out->methods = LS_NEW(h->arena, ls_method, h->ways_n);
    for (size_t i = 0; i < h->ways_n; i++) {
        const ls_litter_way *way = &h->ways[i];
        const char *slug = ls_text_slug(h->arena, way->name);
        ls_line dry = ls_litter_left(h, ls_printf(h->w, "by-%s.left", slug),
                                     ls_printf(h->w, "dry litter left by %s", way->name), way->dry);
        ls_line tons = ls_quotient(ls_part(h->w, way->name, "by-%s", slug), "house", "litter of the house by %s", "ton",
                                   dry, solids);
        if (l->share)
            tons = LS_PRODUCT(l->w, ls_printf(l->w, "by-%s", slug),
                              ls_printf(l->w, "litter of the lot by %s", way->name), "ton", tons, l->share);
        l->out->methods[i] = (ls_method){way->name, way->evidence, way->memory, way->dry, way->weight, {.line = tons}};
    }
}

/* Of a house with cleared sides: what is left belongs to the others, by their shares. */
static ls_line beside_cleared(const lot *l) {
    ls_litter_house *h = l->h;
    ls_line rest = ls_litter_beside_cleared(h);
    ls_line *others = LS_NEW(h->arena, ls_line, ls_litter_lots_of(h->house));
    size_t n = 0;
    for (size_t i = 0; i < ls_litter_lots_of(h->house); i++)
        if (!h->gone[i].empty) others[n++] = h->share[i];
    static const char label[] = "litter of the lot: what the cleared sides leave of the house";
    if (n == 1) return ls_same(l->w, "tons", label, "ton", rest);
    ls_line all = ls_sum(l->w, "shares-uncleared", "share of the house not cleared", "%", others, n);
    ls_line share = ls_quotient(l->w, "share-of-rest", "share of what is not cleared", "%", l->share, all);
    return LS_PRODUCT(l->w, "tons", label, "ton", rest, share);
}

static bool has_cleared(const ls_litter_house *h) {
    for (size_t i = 0; i < ls_litter_lots_of(h->house); i++)
        if (h->gone[i].empty) return true;
    return false;
}

/* A lot weighed by itself: the scale settles it. */
static void lot_tons(const lot *l) {
    ls_litter_house *h = l->h;
    ls_lot *out = l->out;
    const ls_measured *m = out->side ? out->side->measured : NULL;
    static const char dry_label[] = "dry litter of the lot";
    if (m && LS_GIVEN(m->weighed)) {
        out->tons.line = ls_leaf_given(l->w, "tons", "litter weighed", "ton", &m->weighed);
        out->dry_tons.line = LS_PRODUCT(l->w, "dry_tons", dry_label, "ton", out->tons.line, ls_litter_solids(h));
        return;
    }
    out->tons.line = has_cleared(h) && !out->empty && l->share
                         ? beside_cleared(l)
                         : of_lot(l, "tons", "litter of the lot as hauled", h->wet);
    out->dry_tons.line = of_lot(l, "dry_tons", dry_label, h->dry);
    if (h->weighed) return;
    out->prior_weight = h->prior_weight;
    lot_methods(l, ls_litter_solids(h));
}

/* What is still there of a lot that loads have left: no less was made than what is gone; nothing
 * is left once the log says that it is empty. */
static void lot_left(const lot *l) {
    ls_lot *out = l->out;
    static const char label[] = "litter of the lot still to be hauled";
    if (out->empty) {
        out->made.line = out->gone;
        out->tons.line = ls_leaf_exact(l->w, "tons-left", label, "ton", 0, LS_BY_LOG, "the lot is cleared");
    } else {
        out->made.line = LS_GREATEST(l->w, "tons-made", "litter of the lot, no less than what is gone", "ton",
                                     out->tons.line, out->gone);
        out->tons.line = ls_difference(l->w, "tons-left", label, "ton", out->made.line, out->gone);
    }
    out->dry_tons.line = LS_PRODUCT(l->w, "dry_tons-left", "dry litter of the lot still to be hauled", "ton",
                                    out->tons.line, ls_litter_solids(l->h));
}

/* What each kind of truck carries; whole payloads and trips. */
static void lot_loads(const lot *l) {
    const ls_litter_house *h = l->h;
    ls_lot *out = l->out;
    out->payload.line = h->payload;
    out->kinds = LS_NEW(h->arena, ls_lot_kind, h->farm->trucks.n);
    for (size_t k = 0; k < h->farm->trucks.n; k++) {
        const ls_litter_kind *kind = &h->kinds[k];
        ls_worksheet *w = ls_part(l->w, NULL, "truck-%zu", k + 1);
        out->kinds[k] = (ls_lot_kind){.payload.line = kind->payload,
                                      .next_load.line = kind->next_load,
                                      .volume_binds = kind->full_body && ls_line_value(h->w, kind->full_body) <
                                                                             ls_truck_payload(kind->truck)};
        if (h->farm->trucks.n > 1)
            out->kinds[k].full_loads.line = ls_step_down(
                w, "full_loads", "whole payloads if this kind hauls all", "load",
                ls_quotient(w, "payloads", "tons over payload", "load", out->tons.line, kind->payload), h->one_load);
    }
    ls_line loads = ls_quotient(l->w, "payloads", "tons over payload", "load", out->tons.line, h->payload);
    out->full_loads = ls_step_down(l->w, "full_loads", "whole payloads", "load", loads, h->one_load);
    out->trips = ls_step_up(l->w, "trips", "trips", "load", loads, h->one_load);
}

static void lot_nutrients(const lot *l) {
    ls_lot *out = l->out;
    const ls_analysis *own = out->side ? l->h->side_analysis[l->k] : NULL;
    out->analysis = own ? own : l->h->analysis;
    for (int k = 0; k < LS_NUTRIENTS; k++) {
        out->per_ton[k].line = out->analysis->per_ton[k];
        out->pounds[k].line = LS_PRODUCT(l->w, ls_printf(l->w, "pounds.%s", ls_nutrient_key(k)),
                                         ls_printf(l->w, "%s in the lot", ls_nutrient_name(k)), "lb",
                                         out->dry_tons.line, out->analysis->per_dry[k]);
    }
}

static ls_lot lot_begin(const ls_litter_house *h, size_t k) {
    const ls_side *side = ls_litter_side(h->house, k);
    const char *house = h->house->name.text;
    return (ls_lot){.house = h->house,
                    .side = side,
                    .name = side ? ls_printf(h->w, "%s/%s", house, side->name.text) : house,
                    .slug = side ? ls_printf(h->w, "%s.%s", h->slug, side->slug) : h->slug,
                    .code = ls_lot_code(h->arena, h->house, side),
                    .loose_density = h->loose_density,
                    .house_length = ls_line_find(h->w, "length"),
                    .moisture.line = h->moisture,
                    .gone = h->gone[k].tons,
                    .empty = h->gone[k].empty};
}

void ls_litter_lots(ls_litter_house *h, ls_lot *lots) {
    for (size_t k = 0; k < ls_litter_lots_of(h->house); k++) {
        lot l = {h, ls_litter_lot_part(h, k), k, &lots[k], h->share[k]};
        lots[k] = lot_begin(h, k);
        lot_tons(&l);
        if (lots[k].gone) lot_left(&l);
        lot_nutrients(&l);
        lot_loads(&l);
    }
}
