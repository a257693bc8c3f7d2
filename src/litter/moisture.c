/* The one moisture of the house. */
#include "house.h"

#include <math.h>

/* Where its litter was surveyed a zone counts by its tons, fixed before drawing: how moist the
 * house is hardly hangs on them, and what rests on its moisture is then no kin of the survey. */
static ls_line share_of(ls_litter_house *h, int zone) {
    ls_worksheet *w = h->w;
    double all = 0;
    if (!h->surveyed) return ls_litter_floor_share(h, zone);
    for (int z = LS_SLATS; z < LS_ZONES; z++) all += ls_litter_has_zone(h, z) ? ls_line_value(w, h->zone_wet[z]) : 0;
    return ls_leaf_exact(w, ls_printf(h->w, "tons-share.%s", ls_zone_name(zone)),
                         ls_printf(w, "share of the tons surveyed: %s", ls_zone_name(zone)), "%",
                         all > 0 ? ls_line_value(w, h->zone_wet[zone]) / all : 1, LS_BY_FIRST_PASS,
                         "tons of the part over those of the house");
}

/* Readings by zone, each weighing as its zone: by tons where surveyed, else by area. */
static ls_line from_readings(ls_litter_house *h) {
    const ls_measured *m = h->house->measured;
    ls_worksheet *w = ls_part(h->w, NULL, "water");
    ls_line water[LS_ZONES] = {0}, share[LS_ZONES] = {0};
    for (int z = LS_SLATS; z < LS_ZONES; z++) {
        if (!m || !ls_litter_has_zone(h, z) || !LS_GIVEN(m->moisture.of[z])) continue;
        const char *zone = ls_zone_name(z);
        if (m->moisture.of[z].form == LS_PLAIN)
            ls_litter_note(h, "one moisture without a spread counts as one reading. Give several, "
                              "or \"30 %% +/- 4 %%\", to show how sure it is");
        h->zone_moisture[z] =
            ls_litter_told_moisture(h, h->w, ls_printf(w, "moisture.%s", zone), ls_printf(w, "moisture: %s", zone),
                                    &m->moisture.of[z], ls_litter_moisture_figure(h, ls_litter_manure(h)));
        share[z] = share_of(h, z);
        water[z] = LS_PRODUCT(w, zone, ls_printf(w, "moisture x share: %s", zone), "%", h->zone_moisture[z], share[z]);
    }
    ls_line sum = ls_sum(w, "sum", "moisture x share of the zones read", "%", water, LS_ZONES);
    ls_line of = ls_sum(w, "of", "shares of the zones read", "%", share, LS_ZONES);
    return ls_quotient(h->w, "moisture.read", "moisture by the readings", "%", sum, of);
}

/* How far one sample may lie from the litter, beside what is published of such litter: a report
 * makes its moisture no less sure than none does. */
static ls_line sampling_of_one(ls_litter_house *h) {
    const ls_figure *f = ls_litter_practice(h, "lab sampling");
    const ls_figure *published = ls_litter_moisture_figure(h, ls_litter_manure(h));
    double told = ls_line_value(h->w, h->lab_moisture), one = f->value * told,
           usual = fmax(ls_spread_scale(published->spread, published->value),
                        ls_litter_practice(h, "within farm moisture")->value);
    return ls_leaf_by(h->w, "moisture.sampling", "sampling of the moisture", "", f, 1,
                      ls_spread_lognormal(one * usual / hypot(one, usual) / told),
                      "a factor of 1: this figure of one sample, beside what is published of such litter");
}

static ls_line by_laboratory(ls_litter_house *h) {
    if (!h->lab_moisture) return LS_NO_LINE;
    ls_line factor = h->lab_moisture_sampling;
    if (!factor) factor = sampling_of_one(h);
    ls_litter_note(h, "no moisture readings: the laboratory's moisture is used");
    return LS_PRODUCT(h->w, "moisture.lab", "moisture by the laboratory", "%", h->lab_moisture, factor);
}

/* By litter of this house when it was emptied before. Of the variance that litters of a farm have of their own, half is
 * the house's and half each litter's, so two litters of a house go together by beta; the rest of the way to the
 * published figure is unknown (linear regression of one of two figures alike on the other). */
static ls_line by_cleanout(ls_litter_house *h) {
    ls_worksheet *w = h->w;
    ls_line then = ls_litter_cleanout_moisture(h);
    if (!then) return LS_NO_LINE;
    const ls_figure *f = ls_litter_moisture_figure(h, ls_litter_manure(h));
    double own = ls_litter_practice(h, "within farm moisture")->value, own2 = own * own;
    double all2 = fmax(pow(ls_spread_scale(f->spread, f->value), 2), own2);
    double beta = (all2 - own2 / 2) / all2;
    ls_line share = ls_leaf_exact(w, "moisture.as-then.share", "how far two litters of a house go together", "%", beta,
                                  LS_BY_FIRST_PASS, "common part of their variance");
    ls_line rest =
        ls_leaf_by(w, "moisture.as-then.rest", "moisture it says nothing of", "%", f, (1 - beta) * f->value,
                   ls_spread_normal(sqrt(all2 * (1 - beta * beta))), "the part that the litter before says nothing of");
    ls_line told = LS_PRODUCT(w, "moisture.as-then.told", "moisture it says", "%", then, share);
    ls_litter_note(h, "no moisture readings and no laboratory report: the moisture given for the "
                      "earlier cleanout is used");
    return LS_SUM(w, "moisture.as-then", "moisture, as of the cleanout before", "%", told, rest);
}

static ls_line by_table(ls_litter_house *h) {
    const char *manure = ls_litter_manure(h);
    const ls_figure *f = ls_litter_moisture_figure(h, manure);
    ls_line shared = ls_litter_shared_part(
        h->published, ls_printf(h->w, "moisture%s%s", manure ? "-" : "", manure ? manure : ""),
        "moisture, houses of a farm alike", "%", f, ls_litter_practice(h, "within farm moisture")->value);
    ls_litter_note(h, "no moisture readings and no laboratory report: the published %s%% is used (%s)%s",
                   ls_number_text(h->arena, f->value * 100, 3), f->source ? f->source->id : "no source",
                   ls_litter_status(f));
    return ls_litter_own_part(h, h->w, "moisture.table", "moisture, published", shared, "within farm moisture", true);
}

void ls_litter_moisture(ls_litter_house *h) {
    ls_line found = from_readings(h);
    if (!found) found = by_laboratory(h);
    if (!found) found = by_cleanout(h);
    if (!found) found = by_table(h);
    h->moisture = ls_litter_kept_within(h, h->w, "moisture", "moisture of the litter as it is hauled", found);
}

/* Its tons and its nutrients are known without asking. */
static bool is_settled(const ls_house *house) {
    return house->measured && LS_GIVEN(house->measured->weighed) && house->lab.n > 0;
}

void ls_litter_ask_manure(ls_worksheet *w, ls_estimate *e) {
    ls_text *houses = ls_text_new(ls_worksheet_arena(w));
    const char *kind = "";
    LS_EACH (const ls_house, house, e->farm->houses) {
        int bird = house->flocks.n > 0 ? house->flocks.at[0].birds.is : LS_NO_BIRD;
        bool asks = ls_bird_is(bird, LS_LAYS) && ls_bird_is(bird, LS_MANURE_APART);
        if (!asks || LS_GIVEN(house->manure) || is_settled(house)) continue;
        kind = ls_bird_name(bird);
        ls_text_addf(houses, "%s%s", houses->n > 0 ? ", " : "", house->name.text);
    }
    if (houses->n > 0)
        *LS_PUSH(ls_worksheet_arena(w), &e->notes) =
            ls_printf(w,
                      "%s: the file does not say how the manure is kept, so ranges cover all kinds of %s "
                      "houses. Write \"manure: pit\" under the house, or belt, scraped, litter",
                      houses->s, kind);
}

ls_line ls_litter_solids(ls_litter_house *h) {
    return ls_complement(h->w, "solids", "dry share of the litter", "%", h->moisture);
}
