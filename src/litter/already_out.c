/* Cake and partial removals since the last cleanout: no longer in the house. */
#include "house.h"

/* The area a depth was taken off: as given, or that share of the floor. */
static ls_line area_of(ls_litter_house *h, const ls_already_out *o, size_t k) {
    ls_worksheet *w = h->w;
    const char *key = LS_KEY(h, "already-out-%zu.area", k);
    static const char label[] = "area that litter was taken off before";
    if (!ls_dimension_none(o->area.unit.dimension))
        return ls_leaf_given(w, key, label, "ft2", &o->area);
    ls_line share =
        ls_leaf_given(w, LS_KEY(h, "already-out-%zu.share", k),
                      "share of the floor that litter was taken off before", "%", &o->area);
    return LS_PRODUCT(w, key, label, "ft2", ls_litter_area(h, 0), share);
}

/* As hauled then: weighed, or depth x area x density as it lies. */
static ls_line wet_removal(ls_litter_house *h, const ls_already_out *o, size_t k) {
    ls_worksheet *w = h->w;
    static const char label[] = "litter taken out before";
    if (LS_GIVEN(o->loads))
        return ls_leaf_exact(w, LS_KEY(h, "already-out-%zu.loads", k), label, "ton",
                             (double)o->loads.n * ls_truck_payload(&h->farm->trucks.at[0]),
                             LS_BY_FARM, "loads times the payload of the first truck");
    if (LS_GIVEN(o->weighed))
        return ls_leaf_given(w, LS_KEY(h, "already-out-%zu.weighed", k), label, "ton", &o->weighed);
    ls_line depth = ls_leaf_given(w, LS_KEY(h, "already-out-%zu.depth", k),
                                  "depth of the litter taken out before", "in", &o->depth);
    return LS_PRODUCT(w, LS_KEY(h, "already-out-%zu.wet", k), label, "ton", area_of(h, o, k), depth,
                      ls_litter_in_place(h));
}

static ls_line one_removal(ls_litter_house *h, const ls_already_out *o, size_t k) {
    ls_worksheet *w = h->w;
    ls_line tons = wet_removal(h, o, k);
    ls_line water = h->moisture;
    if (LS_GIVEN(o->moisture))
        water = ls_litter_kept_within(
            h, LS_KEY(h, "already-out-%zu.moisture", k), "moisture of the litter taken out before",
            ls_leaf_given(w, LS_KEY(h, "already-out-%zu.moisture.given", k),
                          "moisture given for the litter taken out before", "%", &o->moisture));
    ls_line solids =
        ls_complement(w, LS_KEY(h, "already-out-%zu.solids", k), "its dry share", "%", water);
    return LS_PRODUCT(w, LS_KEY(h, "already-out-%zu.dry", k), "dry litter taken out before", "ton",
                      tons, solids);
}

void ls_litter_already_out(ls_litter_house *h) {
    size_t n = h->house->already_out.n;
    h->out = LS_NO_LINE;
    if (n == 0)
        return;
    ls_line *x = LS_NEW(ls_worksheet_arena(h->w), ls_line, n);
    for (size_t k = 0; k < n; k++)
        x[k] = one_removal(h, &h->house->already_out.at[k], k + 1);
    h->out = ls_sum(h->w, LS_KEY(h, "already-out"), "dry litter taken out since the last cleanout",
                    "ton", x, n);
}

ls_line ls_litter_left(ls_litter_house *h, const char *key, const char *label, ls_line made) {
    ls_worksheet *w = h->w;
    if (h->out == LS_NO_LINE)
        return made;
    ls_line least = ls_line_find(w, LS_KEY(h, "already-out.least"));
    if (least == LS_NO_LINE)
        least =
            ls_leaf_exact(w, LS_KEY(h, "already-out.least"), "next to nothing", "ton", 2,
                          LS_BY_DEFINITION, "no less than this is left, whatever was taken out");
    ls_line rest =
        ls_difference(w, ls_words(w, "%s.rest", key),
                      ls_words(w, "%s, less what was taken out", label), "ton", made, h->out);
    return LS_GREATEST(w, key, label, "ton", rest, least);
}
