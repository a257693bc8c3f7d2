/* The depth survey as a volume and a wet mass by zone. */
#include "house.h"

/* Mean depth of a zone: by its readings, or by a grid over the whole floor; LS_NO_LINE if neither
 * is given. */
static ls_line depth_of(ls_litter_house *h, int zone) {
    const ls_zoned *depth = &h->house->measured->depth;
    if (depth->grid)
        return ls_litter_grid_depth(h, zone);
    if (!LS_GIVEN(depth->of[zone]))
        return LS_NO_LINE;
    const char *name = ls_zone_name(zone);
    return ls_litter_readings(h, ls_printf(h->w, "depth.%s", name),
                              ls_printf(h->w, "depth of the litter: %s", name), "in",
                              &depth->of[zone], "usual depth reading");
}

void ls_litter_survey(ls_litter_house *h) {
    ls_worksheet *w = h->w;
    bool measured = h->house->measured && ls_litter_has_size(h);
    size_t deep = 0, zones = 0;
    for (int z = LS_SLATS; z < LS_ZONES; z++) {
        zones += ls_litter_has_zone(h, z);
        ls_line depth = measured && ls_litter_has_zone(h, z) ? depth_of(h, z) : LS_NO_LINE;
        if (!depth)
            continue;
        deep++;
        const char *zone = ls_zone_name(z);
        ls_line density = ls_litter_zone_density(h, z);
        h->zone_volume[z] = LS_PRODUCT(ls_part(w, zone, "volume"), zone, "volume of the litter: %s",
                                       "ft3", ls_litter_area(h, z), depth);
        h->zone_wet[z] = LS_PRODUCT(ls_part(w, zone, "wet"), zone, "litter by the depth survey: %s",
                                    "ton", h->zone_volume[z], density);
    }
    h->surveyed = zones > 0 && deep == zones;
    if (deep > 0 && !h->surveyed)
        ls_litter_note(
            h, "the depth survey leaves a zone of the house out and is not used for its tons");
}
