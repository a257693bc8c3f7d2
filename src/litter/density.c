/* Density of the litter as it lies and in the truck: measured, else by the pail, else published;
 * once loads went over a scale, by them too. */
#include "house.h"

static const ls_row *bird_row(const ls_litter_house *h) {
    const ls_table *density = ls_reference_table(h->reference, "density", "");
    return ls_table_row(density, ls_bird_tables(h->bird));
}

/* What a zone counts for where there is no survey: its area, its share of the floor without the
 * size of the house. */
static ls_line weight_of(ls_litter_house *h, int zone) {
    return ls_litter_has_size(h) ? ls_litter_area(h, zone) : ls_litter_floor_share(h, zone);
}

/* The pail, the published density and the ratio between them are each one line: whatever rests on
 * them moves with them. */
static ls_line pail(ls_litter_house *h) {
    const char *key = LS_KEY(h, "density.pail");
    ls_line known = ls_line_find(h->w, key);
    return known != LS_NO_LINE ? known
                               : ls_litter_readings(h, key, "density of loose litter, in a pail",
                                                    "lb/ft3", &h->house->measured->loose_density,
                                                    "usual density reading", true);
}

static ls_line lies_over_loose(ls_litter_house *h) {
    return ls_litter_shared(
        h, "lies-over-loose", "density in the house over loose", "",
        ls_reference_need(h->reference, "density", "", "in place over loose", "ratio"));
}

/* The houses of a farm are more alike than what is published lets see. */
static ls_line published_density(ls_litter_house *h) {
    const char *key = LS_KEY(h, "density.published");
    ls_line known = ls_line_find(h->w, key);
    if (known != LS_NO_LINE)
        return known;
    const ls_figure *f = ls_row_figure(bird_row(h), "density");
    ls_line shared = ls_litter_shared_part(
        h, ls_litter_published_key(h, "density"), "density in the house, houses of a farm alike",
        "lb/ft3", f, f->value * ls_litter_practice(h, "within farm density")->value);
    return ls_litter_own_part(h, key, "density in the house, published", shared,
                              "within farm density", false);
}

/* Density as it lies: measured in this zone; else from the pail x published ratio; else the
 * published figure of the bird. */
ls_line ls_litter_zone_density(ls_litter_house *h, int zone) {
    ls_worksheet *w = h->w;
    const ls_measured *m = h->house->measured;
    const char *key = LS_KEY(h, "density.%s", ls_zone_name(zone));
    const char *label = ls_printf(w, "density in the house: %s", ls_zone_name(zone));
    if (LS_GIVEN(m->density.of[zone]))
        return ls_litter_readings(h, key, label, "lb/ft3", &m->density.of[zone],
                                  "usual density reading", true);
    if (LS_GIVEN(m->loose_density)) {
        ls_litter_note(h,
                       "no density in the house for the %s: the pail density times 1.1-1.3 is used",
                       ls_zone_name(zone));
        return LS_PRODUCT(w, key, label, "lb/ft3", pail(h), lies_over_loose(h));
    }
    ls_litter_note(h, "no density for the %s: the published figure is used", ls_zone_name(zone));
    return ls_same(w, key, label, "lb/ft3", published_density(h));
}

/* Density of the litter over the whole house as it lies: the survey's mass over its volume, else
 * the readings by area. */
static ls_line mean_in_place(ls_litter_house *h) {
    ls_worksheet *w = h->w;
    const ls_measured *m = h->house->measured;
    ls_line known = ls_line_find(w, LS_KEY(h, "density.in_place"));
    if (known != LS_NO_LINE)
        return known;
    ls_line mass[LS_ZONES], of[LS_ZONES];
    bool sized = ls_litter_has_size(h);
    const char *heavy = sized ? "lb/ft" : "lb/ft3";
    size_t n = 0;
    for (int z = LS_SLATS; z < LS_ZONES; z++) {
        if (!m || !ls_litter_has_zone(h, z) || (!h->surveyed && !LS_GIVEN(m->density.of[z])))
            continue;
        of[n] = h->surveyed ? h->zone_volume[z] : weight_of(h, z);
        mass[n] = h->surveyed ? h->zone_wet[z]
                              : LS_PRODUCT(w, LS_KEY(h, "density.%s.weighted", ls_zone_name(z)),
                                           ls_printf(w, "density x %s", sized ? "area" : "share"),
                                           heavy, ls_litter_zone_density(h, z), of[n]);
        n++;
    }
    if (n == 0)
        return LS_NO_LINE;
    ls_line sum = ls_sum(w, LS_KEY(h, "density.sum"), "litter of the zones",
                         h->surveyed ? "ton" : heavy, mass, n);
    ls_line over = ls_sum(w, LS_KEY(h, "density.of"), "over",
                          h->surveyed ? "ft3"
                          : sized     ? "ft2"
                                      : "%",
                          of, n);
    return ls_quotient(w, LS_KEY(h, "density.in_place"), "density in the house, whole house",
                       "lb/ft3", sum, over);
}

ls_line ls_litter_in_place(ls_litter_house *h) {
    const ls_measured *m = h->house->measured;
    ls_line known = ls_line_find(h->w, LS_KEY(h, "density.by-pail"));
    ls_line lies = mean_in_place(h);
    if (lies != LS_NO_LINE || known != LS_NO_LINE)
        return lies != LS_NO_LINE ? lies : known;
    if (!m || !LS_GIVEN(m->loose_density))
        return published_density(h);
    return LS_PRODUCT(h->w, LS_KEY(h, "density.by-pail"), "density in the house, by the pail",
                      "lb/ft3", pail(h), lies_over_loose(h));
}

/* Before any load was weighed. */
static ls_line loose_density(ls_litter_house *h, const char *key, const char *label) {
    ls_worksheet *w = h->w;
    const ls_measured *m = h->house->measured;
    ls_line lies = mean_in_place(h); /* looked at even where the pail decides */
    if (m && LS_GIVEN(m->loose_density))
        return ls_same(w, key, label, "lb/ft3", pail(h));
    if (lies == LS_NO_LINE) {
        lies = published_density(h);
        ls_litter_note(h,
                       "no density was measured: the published density of %s litter is used (%s)%s",
                       h->bird ? "this bird's" : ls_bird_tables(h->bird),
                       bird_row(h)->source ? bird_row(h)->source->id : "",
                       h->bird ? "" : ", as no bird is named");
    }
    return ls_quotient(w, key, label, "lb/ft3", lies, lies_over_loose(h));
}

ls_line ls_litter_loose_taken(ls_litter_house *h) {
    const char *key = LS_KEY(h, "loose-taken");
    ls_line known = ls_line_find(h->w, key);
    return known != LS_NO_LINE ? known
                               : loose_density(h, key, "density of the loose litter taken out");
}

void ls_litter_loose_density(ls_litter_house *h) {
    const char *key = LS_KEY(h, "loose_density");
    const char *label = "density of the loose litter in the truck";
    if (!ls_litter_loads_tell_density(h)) {
        h->loose_density = loose_density(h, key, label);
        return;
    }
    ls_line before = loose_density(h, LS_KEY(h, "loose_density-before"),
                                   "density of the loose litter, before any load was weighed");
    h->loose_density = ls_litter_density_by_loads(h, key, label, before);
}
