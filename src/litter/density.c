/* Density of the litter as it lies, and loose before any load was weighed: measured, else by the
 * pail, else published. */
#include "house.h"

static const ls_row *bird_row(const ls_litter_house *h) {
    const ls_table *density = ls_reference_table(h->reference, "density", "");
    return ls_table_row(density, ls_bird_tables(h->bird));
}

/* The pail, the published density and the ratio between them are each one line: whatever rests on
 * them moves with them. */
static ls_line pail(ls_litter_house *h) {
    return ls_litter_readings(h, "density.pail", "density of loose litter, in a pail", "lb/ft3",
                              &h->house->measured->loose_density, "usual density reading");
}

static ls_line lies_over_loose(ls_litter_house *h) {
    return ls_leaf_figure(
        h->all, "lies-over-loose", "density in the house over loose", "",
        ls_reference_need(h->reference, "density", "", "in place over loose", "ratio"));
}

/* The houses of a farm are more alike than what is published lets see. */
static ls_line published_density(ls_litter_house *h) {
    const ls_figure *f = ls_row_figure(bird_row(h), "density");
    ls_line shared = ls_litter_shared_part(
        h->published, "density", "density in the house, houses of a farm alike", "lb/ft3", f,
        f->value * ls_litter_practice(h, "within farm density")->value);
    return ls_litter_own_part(h, h->w, "density.published", "density in the house, published",
                              shared, "within farm density", false);
}

/* Density as it lies: measured in this zone; else from the pail x published ratio; else the
 * published figure of the bird. */
ls_line ls_litter_zone_density(ls_litter_house *h, int zone) {
    ls_worksheet *w = h->w;
    const ls_measured *m = h->house->measured;
    const char *name = ls_zone_name(zone), *key = ls_printf(w, "density.%s", name);
    const char *label = ls_printf(w, "density in the house: %s", name);
    if (LS_GIVEN(m->density.of[zone]))
        return ls_litter_readings(h, key, label, "lb/ft3", &m->density.of[zone],
                                  "usual density reading");
    if (LS_GIVEN(m->loose_density)) {
        ls_litter_note(
            h, "no density in the house for the %s: the pail density times 1.1-1.3 is used", name);
        return LS_PRODUCT(w, key, label, "lb/ft3", pail(h), lies_over_loose(h));
    }
    ls_litter_note(h, "no density for the %s: the published figure is used", name);
    return ls_same(w, key, label, "lb/ft3", published_density(h));
}

/* Density of the litter over the whole house as it lies: the survey's mass over its volume, else
 * the readings, each zone by its area (by its share of the floor without the size of the house). */
static ls_line mean_in_place(ls_litter_house *h) {
    ls_worksheet *w = h->w;
    const ls_measured *m = h->house->measured;
    ls_line mass[LS_ZONES] = {0}, of[LS_ZONES] = {0};
    bool sized = ls_litter_has_size(h);
    const char *heavy = h->surveyed ? "ton"
                        : sized     ? "lb/ft"
                                    : "lb/ft3",
               *over_unit = h->surveyed ? "ft3"
                            : sized     ? "ft2"
                                        : "%";
    for (int z = LS_SLATS; z < LS_ZONES; z++) {
        if (!m || !ls_litter_has_zone(h, z) || (!h->surveyed && !LS_GIVEN(m->density.of[z])))
            continue;
        of[z] = h->surveyed ? h->zone_volume[z]
                : sized     ? ls_litter_area(h, z)
                            : ls_litter_floor_share(h, z);
        mass[z] = h->surveyed ? h->zone_wet[z]
                              : LS_PRODUCT(w, ls_printf(w, "density.%s.weighted", ls_zone_name(z)),
                                           ls_printf(w, "density x %s", sized ? "area" : "share"),
                                           heavy, ls_litter_zone_density(h, z), of[z]);
    }
    ls_line sum = ls_sum(w, "density.sum", "litter of the zones", heavy, mass, LS_ZONES);
    ls_line over = ls_sum(w, "density.of", "over", over_unit, of, LS_ZONES);
    return ls_quotient(w, "density.in_place", "density in the house, whole house", "lb/ft3", sum,
                       over);
}

ls_line ls_litter_in_place(ls_litter_house *h) {
    const ls_measured *m = h->house->measured;
    ls_line lies = mean_in_place(h);
    if (lies)
        return lies;
    if (!m || !LS_GIVEN(m->loose_density))
        return published_density(h);
    return LS_PRODUCT(h->w, "density.by-pail", "density in the house, by the pail", "lb/ft3",
                      pail(h), lies_over_loose(h));
}

ls_line ls_litter_loose_before(ls_litter_house *h, const char *key, const char *label) {
    ls_worksheet *w = h->w;
    const ls_measured *m = h->house->measured;
    ls_line lies = mean_in_place(h); /* looked at even where the pail decides */
    if (m && LS_GIVEN(m->loose_density))
        return ls_same(w, key, label, "lb/ft3", pail(h));
    if (!lies) {
        lies = published_density(h);
        ls_litter_note(h,
                       "no density was measured: the published density of %s litter is used (%s)%s",
                       h->bird ? "this bird's" : ls_bird_tables(h->bird),
                       bird_row(h)->source ? bird_row(h)->source->id : "",
                       h->bird ? "" : ", as no bird is named");
    }
    return ls_quotient(w, key, label, "lb/ft3", lies, lies_over_loose(h));
}
