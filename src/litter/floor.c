/* The floor of a house and its parts. */
#include "house.h"

bool ls_litter_has_zone(const ls_litter_house *h, int zone) {
    return ls_house_share(h->house, (ls_zone)zone) > 0;
}

/* A house whose litter was weighed may leave its size out. */
bool ls_litter_has_size(const ls_litter_house *h) {
    return LS_GIVEN(h->house->length) && LS_GIVEN(h->house->width);
}

ls_line ls_litter_floor_share(ls_litter_house *h, int zone) {
    const char *key = LS_KEY(h, "share.%s", ls_zone_name(zone));
    const char *label = ls_printf(h->w, "share of the floor: %s", ls_zone_name(zone));
    ls_line known = ls_line_find(h->w, key);
    if (known != LS_NO_LINE)
        return known;
    const ls_floor *f = h->house->floor;
    if (!f)
        return ls_leaf_exact(h->w, key, label, "%", 1, LS_BY_DEFINITION, "one floor");
    const ls_quantity *q = zone == LS_SLATS     ? &f->slats
                           : zone == LS_SCRATCH ? &f->scratch
                                                : &f->floor;
    return ls_leaf_given(h->w, key, label, "%", q);
}

static ls_line whole_floor(ls_litter_house *h) {
    ls_worksheet *w = h->w;
    const char *key = LS_KEY(h, "area.all");
    ls_line known = ls_line_find(w, key);
    if (known != LS_NO_LINE)
        return known;
    return LS_PRODUCT(w, key, "floor area", "ft2", ls_line_find(w, LS_KEY(h, "length")),
                      ls_line_find(w, LS_KEY(h, "width")));
}

ls_line ls_litter_area(ls_litter_house *h, int zone) {
    ls_worksheet *w = h->w;
    if (zone == 0)
        return whole_floor(h);
    const char *name = ls_zone_name(zone), *key = LS_KEY(h, "area.%s", name);
    ls_line known = ls_line_find(w, key);
    if (known != LS_NO_LINE)
        return known;
    if (!h->house->floor)
        return ls_same(w, key, "floor area", "ft2", whole_floor(h));
    ls_line share = ls_litter_floor_share(h, zone);
    return LS_PRODUCT(w, key, ls_printf(w, "area of the %s", name), "ft2", whole_floor(h), share);
}
