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
    const char *name = ls_zone_name(zone), *key = ls_printf(h->w, "share.%s", name);
    const char *label = ls_printf(h->w, "share of the floor: %s", name);
    const ls_floor *f = h->house->floor;
    if (!f)
        return ls_leaf_exact(h->w, key, label, "%", 1, LS_BY_DEFINITION, "one floor");
    const ls_quantity *q = zone == LS_SLATS     ? &f->slats
                           : zone == LS_SCRATCH ? &f->scratch
                                                : &f->floor;
    return ls_leaf_given(h->w, key, label, "%", q);
}

ls_line ls_litter_area(ls_litter_house *h, int zone) {
    ls_worksheet *w = h->w;
    ls_line share = zone && h->house->floor ? ls_litter_floor_share(h, zone) : LS_NO_LINE;
    ls_line all = LS_PRODUCT(w, "area.all", "floor area", "ft2", ls_line_find(w, "length"),
                             ls_line_find(w, "width"));
    const char *name = ls_zone_name(zone), *key = ls_printf(w, "area.%s", name);
    if (zone == 0)
        return all;
    return share ? LS_PRODUCT(w, key, ls_printf(w, "area of the %s", name), "ft2", all, share)
                 : ls_same(w, key, "floor area", "ft2", all);
}
