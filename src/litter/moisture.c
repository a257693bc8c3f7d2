/* The depth survey as a volume and a wet mass by zone, and the one moisture of the house. */
#include "house.h"

#include <math.h>

static bool has_zone(const ls_litter_house *h, int zone) {
    return ls_house_share(h->house, (ls_zone)zone) > 0;
}

/* A house whose litter was weighed may leave its size out. */
static bool has_size(const ls_litter_house *h) {
    return LS_GIVEN(h->house->length) && LS_GIVEN(h->house->width);
}

static ls_line floor_share(ls_litter_house *h, int zone) {
    const char *key = LS_KEY(h, "share.%s", ls_zone_name(zone));
    const char *label = ls_words(h->w, "share of the floor: %s", ls_zone_name(zone));
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

/* What a zone counts for where there is no survey: its area, its share of the floor without the
 * size of the house. */
static ls_line weight_of(ls_litter_house *h, int zone) {
    return has_size(h) ? ls_litter_area(h, zone) : floor_share(h, zone);
}

static const ls_row *bird_row(const ls_litter_house *h, const char *kind) {
    const char *bird = ls_bird_name(h->bird ? h->bird : LS_BROILER);
    return ls_table_row(ls_reference_table(h->reference, kind, ""), bird);
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
        h, "lies-over-loose", "density as it lies over loose", "",
        ls_reference_need(h->reference, "density", "", "in place over loose", "ratio"));
}

/* The houses of a farm are more alike than what is published lets see. */
static ls_line published_density(ls_litter_house *h) {
    const char *key = LS_KEY(h, "density.published");
    ls_line known = ls_line_find(h->w, key);
    if (known != LS_NO_LINE)
        return known;
    const ls_figure *f = ls_row_figure(bird_row(h, "density"), "density");
    ls_line shared = ls_litter_shared_part(
        h, ls_litter_published_key(h, "density"), "density as it lies, houses of a farm alike",
        "lb/ft3", f, f->value * ls_litter_practice(h, "within farm density")->value);
    return ls_litter_own_part(h, key, "density as it lies, published", shared,
                              "within farm density", false);
}

/* Density as it lies: measured in this zone; else from the pail x published ratio; else the
 * published figure of the bird. */
static ls_line density_in_place(ls_litter_house *h, int zone) {
    ls_worksheet *w = h->w;
    const ls_measured *m = h->house->measured;
    const char *key = LS_KEY(h, "density.%s", ls_zone_name(zone));
    const char *label = ls_words(w, "density as it lies: %s", ls_zone_name(zone));
    if (LS_GIVEN(m->density.of[zone]))
        return ls_litter_readings(h, key, label, "lb/ft3", &m->density.of[zone],
                                  "usual density reading", true);
    if (LS_GIVEN(m->loose_density)) {
        ls_litter_note(h,
                       "no density as it lies for the %s: the pail density times 1.1-1.3 is used",
                       ls_zone_name(zone));
        return LS_PRODUCT(w, key, label, "lb/ft3", pail(h), lies_over_loose(h));
    }
    ls_litter_note(h, "no density for the %s: the published figure is used", ls_zone_name(zone));
    return ls_same(w, key, label, "lb/ft3", published_density(h));
}

/* Mean depth of a zone: by its readings, or by a grid over the whole floor; LS_NO_LINE if neither
 * is given. */
static ls_line depth_of(ls_litter_house *h, int zone) {
    const ls_zoned *depth = &h->house->measured->depth;
    if (depth->grid)
        return ls_litter_grid_depth(h, zone);
    if (!LS_GIVEN(depth->of[zone]))
        return LS_NO_LINE;
    const char *name = ls_zone_name(zone);
    return ls_litter_readings(h, LS_KEY(h, "depth.%s", name),
                              ls_words(h->w, "depth of the litter: %s", name), "in",
                              &depth->of[zone], "usual depth reading", true);
}

void ls_litter_survey(ls_litter_house *h) {
    ls_worksheet *w = h->w;
    const ls_house *house = h->house;
    bool measured = house->measured && has_size(h);
    size_t deep = 0, zones = 0;
    for (int z = LS_SLATS; z < LS_ZONES; z++) {
        h->zone_volume[z] = h->zone_wet[z] = h->zone_density[z] = h->zone_moisture[z] = LS_NO_LINE;
        zones += has_zone(h, z);
        ls_line depth = measured && has_zone(h, z) ? depth_of(h, z) : LS_NO_LINE;
        if (depth == LS_NO_LINE)
            continue;
        deep++;
        const char *zone = ls_zone_name(z);
        h->zone_density[z] = density_in_place(h, z);
        h->zone_volume[z] = LS_PRODUCT(w, LS_KEY(h, "volume.%s", zone),
                                       ls_words(w, "volume of the litter: %s", zone), "ft3",
                                       ls_litter_area(h, z), depth);
        h->zone_wet[z] = LS_PRODUCT(w, LS_KEY(h, "wet.%s", zone),
                                    ls_words(w, "litter by the depth survey: %s", zone), "ton",
                                    h->zone_volume[z], h->zone_density[z]);
    }
    h->surveyed = zones > 0 && deep == zones;
    if (deep > 0 && !h->surveyed)
        ls_litter_note(
            h, "the depth survey leaves a zone of the house out and is not used for its tons");
}

/* A moisture kept within 0 to 95 %: a draw beyond is no litter. */
ls_line ls_litter_kept_within(ls_litter_house *h, const char *key, const char *label,
                              ls_line found) {
    ls_worksheet *w = h->w;
    ls_line low = ls_line_find(w, LS_KEY(h, "moisture.least"));
    ls_line high = ls_line_find(w, LS_KEY(h, "moisture.most"));
    if (low == LS_NO_LINE) {
        low = ls_leaf_exact(w, LS_KEY(h, "moisture.least"), "least a moisture can be", "%", 0,
                            LS_BY_DEFINITION, NULL);
        high = ls_leaf_exact(w, LS_KEY(h, "moisture.most"), "most a moisture is taken to be", "%",
                             0.95, LS_BY_DEFINITION, "a draw of moisture is kept below 95 %");
    }
    return ls_clip(w, key, label, "%", found, low, high);
}

/* Where its litter was surveyed a zone counts by its tons, fixed before drawing: how moist the
 * house is hardly hangs on them, and what rests on its moisture is then no kin of the survey. */
static ls_line share_of(ls_litter_house *h, int zone) {
    ls_worksheet *w = h->w;
    double all = 0;
    if (!h->surveyed)
        return floor_share(h, zone);
    for (int z = LS_SLATS; z < LS_ZONES; z++)
        all += has_zone(h, z) ? ls_line_value(w, h->zone_wet[z]) : 0;
    return ls_leaf_exact(w, LS_KEY(h, "tons-share.%s", ls_zone_name(zone)),
                         ls_words(w, "share of the tons surveyed: %s", ls_zone_name(zone)), "%",
                         all > 0 ? ls_line_value(w, h->zone_wet[zone]) / all : 1, LS_BY_FIRST_PASS,
                         "tons of the part over those of the house");
}

/* Readings by zone, each weighing as much as its zone: by tons where the survey gives them, else by
 * area. */
static ls_line from_readings(ls_litter_house *h) {
    ls_worksheet *w = h->w;
    const ls_measured *m = h->house->measured;
    ls_line water[LS_ZONES], share[LS_ZONES];
    size_t n = 0;
    for (int z = LS_SLATS; z < LS_ZONES; z++) {
        if (!m || !has_zone(h, z) || !LS_GIVEN(m->moisture.of[z]))
            continue;
        const char *zone = ls_zone_name(z);
        if (m->moisture.of[z].form == LS_PLAIN)
            ls_litter_note(h, "one moisture without a spread counts as one reading: several, or "
                              "\"30 %% +/- 4 %%\", tell how sure it is");
        h->zone_moisture[z] = ls_litter_told_moisture(
            h, LS_KEY(h, "moisture.%s", zone), ls_words(w, "moisture: %s", zone),
            &m->moisture.of[z], ls_litter_moisture_figure(h, ls_litter_manure(h)));
        share[n] = share_of(h, z);
        water[n] =
            LS_PRODUCT(w, LS_KEY(h, "water.%s", zone), ls_words(w, "moisture x share: %s", zone),
                       "%", h->zone_moisture[z], share[n]);
        n++;
    }
    if (n == 0)
        return LS_NO_LINE;
    ls_line sum =
        ls_sum(w, LS_KEY(h, "water.sum"), "moisture x share of the zones read", "%", water, n);
    ls_line of = ls_sum(w, LS_KEY(h, "water.of"), "shares of the zones read", "%", share, n);
    return ls_quotient(w, LS_KEY(h, "moisture.read"), "moisture by the readings", "%", sum, of);
}

/* How far one sample may lie from the litter, beside what is published of such litter: a report
 * makes its moisture no less sure than none does. */
static ls_line sampling_of_one(ls_litter_house *h) {
    const ls_figure *f = ls_litter_practice(h, "lab sampling");
    const ls_figure *published = ls_litter_moisture_figure(h, ls_litter_manure(h));
    double told = ls_line_value(h->w, h->lab_moisture), one = f->value * told,
           usual = fmax(ls_spread_scale(published->spread, published->value),
                        ls_litter_practice(h, "within farm moisture")->value);
    ls_origin origin = {
        LS_BY_TABLE, LS_NOWHERE, f,
        "a factor of 1: this figure of one sample, beside what is published of such "
        "litter"};
    return ls_leaf(h->w, LS_KEY(h, "moisture.sampling"), "sampling of the moisture", "", 1,
                   ls_spread_lognormal(one * usual / hypot(one, usual) / told), origin);
}

static ls_line by_laboratory(ls_litter_house *h) {
    if (h->lab_moisture == LS_NO_LINE)
        return LS_NO_LINE;
    ls_line factor = h->lab_moisture_sampling;
    if (factor == LS_NO_LINE)
        factor = sampling_of_one(h);
    ls_litter_note(h, "no moisture readings: the laboratory's moisture is used");
    return LS_PRODUCT(h->w, LS_KEY(h, "moisture.lab"), "moisture by the laboratory", "%",
                      h->lab_moisture, factor);
}

/* By litter of this house when it was emptied before. Of the variance that litters of a farm have
 * of their own, half is the house's and half each litter's, so two litters of a house go together
 * by beta; the rest of the way to the published figure is unknown (linear regression of one of two
 * figures alike on the other). */
static ls_line by_cleanout(ls_litter_house *h) {
    ls_worksheet *w = h->w;
    ls_line then = ls_litter_cleanout_moisture(h);
    if (then == LS_NO_LINE)
        return LS_NO_LINE;
    const ls_figure *f = ls_litter_moisture_figure(h, ls_litter_manure(h));
    double own = ls_litter_practice(h, "within farm moisture")->value, own2 = own * own;
    double all2 = fmax(pow(ls_spread_scale(f->spread, f->value), 2), own2);
    double beta = (all2 - own2 / 2) / all2;
    ls_line share = ls_leaf_exact(w, LS_KEY(h, "moisture.as-then.share"),
                                  "how far two litters of a house go together", "%", beta,
                                  LS_BY_FIRST_PASS, "common part of their variance");
    ls_origin origin = {LS_BY_TABLE, LS_NOWHERE, f,
                        "the part that the litter before does not tell"};
    ls_line rest =
        ls_leaf(w, LS_KEY(h, "moisture.as-then.rest"), "moisture that it does not tell", "%",
                (1 - beta) * f->value, ls_spread_normal(sqrt(all2 * (1 - beta * beta))), origin);
    ls_line told = LS_PRODUCT(w, LS_KEY(h, "moisture.as-then.told"), "moisture that it tells", "%",
                              then, share);
    ls_litter_note(h, "no moisture readings and no laboratory report: the moisture told of the "
                      "cleanout before is used");
    return LS_SUM(w, LS_KEY(h, "moisture.as-then"), "moisture, as of the cleanout before", "%",
                  told, rest);
}

static ls_line by_table(ls_litter_house *h) {
    ls_worksheet *w = h->w;
    const char *manure = ls_litter_manure(h);
    const ls_figure *f = ls_litter_moisture_figure(h, manure);
    ls_line shared = ls_litter_shared_part(
        h, ls_litter_published_key(h, manure ? ls_words(w, "moisture-%s", manure) : "moisture"),
        "moisture, houses of a farm alike", "%", f,
        ls_litter_practice(h, "within farm moisture")->value);
    ls_litter_note(
        h, "no moisture readings and no laboratory report: the published %s %% is used (%s)%s",
        ls_number_text(ls_worksheet_arena(w), f->value * 100, 3),
        f->source ? f->source->id : "no source", ls_litter_status(f));
    return ls_litter_own_part(h, LS_KEY(h, "moisture.table"), "moisture, published", shared,
                              "within farm moisture", true);
}

void ls_litter_moisture(ls_litter_house *h) {
    ls_line found = from_readings(h);
    if (found == LS_NO_LINE)
        found = by_laboratory(h);
    if (found == LS_NO_LINE)
        found = by_cleanout(h);
    if (found == LS_NO_LINE)
        found = by_table(h);
    h->moisture = ls_litter_kept_within(h, LS_KEY(h, "moisture"),
                                        "moisture of the litter as it is hauled", found);
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
    bool sized = has_size(h);
    const char *heavy = sized ? "lb/ft" : "lb/ft3";
    size_t n = 0;
    for (int z = LS_SLATS; z < LS_ZONES; z++) {
        if (!m || !has_zone(h, z) || (!h->surveyed && !LS_GIVEN(m->density.of[z])))
            continue;
        of[n] = h->surveyed ? h->zone_volume[z] : weight_of(h, z);
        mass[n] = h->surveyed ? h->zone_wet[z]
                              : LS_PRODUCT(w, LS_KEY(h, "density.%s.weighted", ls_zone_name(z)),
                                           ls_words(w, "density x %s", sized ? "area" : "share"),
                                           heavy, density_in_place(h, z), of[n]);
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
    return ls_quotient(w, LS_KEY(h, "density.in_place"), "density as it lies, whole house",
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
    return LS_PRODUCT(h->w, LS_KEY(h, "density.by-pail"), "density as it lies, by the pail",
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
                       h->bird ? "this bird's" : "broiler",
                       bird_row(h, "density")->source ? bird_row(h, "density")->source->id : "",
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

/* Its tons and its nutrients are known without asking. */
static bool is_settled(const ls_house *house) {
    return house->measured && LS_GIVEN(house->measured->weighed) && house->lab.n > 0;
}

void ls_litter_ask_manure(ls_worksheet *w, ls_estimate *e) {
    ls_text *houses = ls_text_new(ls_worksheet_arena(w));
    for (size_t i = 0; i < e->farm->houses.n; i++) {
        const ls_house *house = &e->farm->houses.at[i];
        bool layers = house->flocks.n > 0 && house->flocks.at[0].birds.is == LS_LAYER;
        if (layers && !LS_GIVEN(house->manure) && !is_settled(house))
            ls_text_addf(houses, "%s%s", houses->n > 0 ? ", " : "", house->name.text);
    }
    if (houses->n > 0)
        *LS_PUSH(ls_worksheet_arena(w), &e->notes) = ls_words(
            w,
            "%s: how the manure is kept is not told, so the ranges are over all kinds of "
            "layer houses; write \"manure: pit\" under the house, or belt, scraped, litter",
            houses->s);
}
