/* Cake and partial removals since the last cleanout: no longer in the house. */
#include "house.h"

/* The area a depth was taken off: as given, or that share of the floor. */
static ls_line area_of(ls_litter_house *h, const ls_already_out *o, ls_worksheet *w) {
    static const char label[] = "area that litter was taken off before";
    if (!ls_dimension_none(o->area.unit.dimension)) return ls_leaf_given(w, "area", label, "ft2", &o->area);
    ls_line share = ls_leaf_given(w, "share", "share of the floor that litter was taken off before", "%", &o->area);
    return LS_PRODUCT(w, "area", label, "ft2", ls_litter_area(h, 0), share);
}

static const char taken_label[] = "litter taken out before";

ls_line ls_litter_by_full_loads(ls_litter_house *h, ls_worksheet *w, const char *label, const ls_count *told,
                                ls_name of) {
    ls_line loads = ls_leaf_count(w, "loads", "full loads, over no scale", "", told);
    const ls_truck *truck = ls_truck_named(h->farm, of);
    ls_line each = ls_litter_weight_limit(h, truck);
    if (LS_GIVEN(truck->body)) {
        ls_line body = LS_PRODUCT(w, "body", "a full body of it", "ton", ls_litter_body(h, truck),
                                  ls_litter_loose_before(h, "loose-taken", "density of the loose litter taken out"));
        each = LS_LEAST(w, "load", "a load of it, by weight or volume", "ton", each, body);
    }
    return LS_PRODUCT(w, "wet", label, "ton", loads, each, ls_litter_by_eye(h));
}

/* As hauled then: weighed, loads, or depth x area x density in the house. */
static ls_line wet_removal(ls_litter_house *h, const ls_already_out *o, ls_worksheet *w) {
    if (LS_GIVEN(o->weighed)) return ls_leaf_given(w, "weighed", taken_label, "ton", &o->weighed);
    if (LS_GIVEN(o->loads)) return ls_litter_by_full_loads(h, w, taken_label, &o->loads, o->truck);
    ls_line depth = ls_leaf_given(w, "depth", "depth of the litter taken out before", "in", &o->depth);
    return LS_PRODUCT(w, "wet", taken_label, "ton", area_of(h, o, w), depth, ls_litter_in_place(h));
}

static const ls_figure *of_cake(const ls_litter_house *h) {
    return ls_reference_need(h->reference, "moisture", "", "cake", "moisture");
}

/* Moisture of cake: a house's cakes are alike, and those of a farm nearly so. */
static ls_line cake_moisture(ls_litter_house *h) {
    const ls_figure *f = of_cake(h);
    ls_line shared =
        ls_litter_shared_part(h->all, "published-cake.moisture", "moisture of cake, houses of a farm alike", "%", f,
                              ls_litter_practice(h, "within farm moisture")->value);
    ls_line found = ls_litter_own_part(h, h->w, "cake.moisture-table", "moisture of cake, published", shared,
                                       "within farm moisture", true);
    ls_litter_note(h, "no moisture of the cake is given: the published %s%% is used (%s)%s",
                   ls_number_text(h->arena, f->value * 100, 3), f->source ? f->source->id : "no source",
                   ls_litter_status(f));
    return ls_litter_kept_within(h, h->w, "cake.moisture", "moisture of the cake", found);
}

ls_line ls_litter_taken(ls_litter_house *h, const ls_already_out *o, ls_worksheet *w, bool cake) {
    static const char label[] = "dry litter taken out before";
    ls_line tons = wet_removal(h, o, w), moisture = h->moisture;
    if (LS_GIVEN(o->moisture))
        moisture = ls_litter_told_moisture(h, w, "moisture", "moisture of the litter taken out before", &o->moisture,
                                           cake ? of_cake(h) : ls_litter_moisture_figure(h, ls_litter_manure(h)));
    else if (cake)
        moisture = cake_moisture(h);
    ls_line solids = ls_complement(w, "solids", "its dry share", "%", moisture);
    if (o->times.n <= 1) return LS_PRODUCT(w, "dry", label, "ton", tons, solids);
    return LS_PRODUCT(w, "dry", label, "ton", tons, solids,
                      ls_leaf_count(w, "times", "so many times alike", "", &o->times));
}

void ls_litter_already_out(ls_litter_house *h) {
    size_t n = h->house->already_out.n;
    ls_line *x = LS_NEW(h->arena, ls_line, n);
    if (n == 0) return;
    for (size_t k = 0; k < n; k++) {
        const ls_already_out *o = &h->house->already_out.at[k];
        x[k] = ls_litter_taken(h, o, ls_part(h->w, NULL, "already-out-%zu", k + 1), ls_taken_is_cake(o, h->bird));
    }
    h->out = ls_sum(h->w, "already-out", "dry litter taken out since the last cleanout", "ton", x, n);
}

ls_line ls_litter_left(ls_litter_house *h, const char *key, const char *label, ls_line made) {
    ls_worksheet *w = h->w;
    if (!h->out) return made;
    ls_line least = ls_leaf_exact(w, "already-out.least", "next to nothing", "ton", 2, LS_BY_DEFINITION,
                                  "no less than this is left, whatever was taken out");
    ls_line rest = ls_difference(w, ls_printf(w, "%s.rest", key), ls_printf(w, "%s, less what was taken out", label),
                                 "ton", made, h->out);
    return LS_GREATEST(w, key, label, "ton", rest, least);
}
