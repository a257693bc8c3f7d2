/* What this house itself tells, in dry tons: a survey, its last cleanout, phosphorus, a sister. */
#include "house.h"

/* Sisters beyond these tell nothing that these do not. */
enum { MOST_SISTERS = 8 };

/* ---- depth survey: each zone's wet tons at its own moisture ---- */

static ls_line by_survey(ls_litter_house *h) {
    ls_worksheet *w = ls_part(h->w, NULL, "depth-survey");
    ls_line dry[LS_ZONES] = {0};
    if (!h->surveyed) return LS_NO_LINE;
    for (int z = LS_SLATS; z < LS_ZONES; z++) {
        if (!h->zone_wet[z]) continue;
        const char *zone = ls_zone_name(z);
        ls_line solids = ls_complement(ls_part(w, zone, "solids"), zone, "dry share: %s", "%",
                                       h->zone_moisture[z] ? h->zone_moisture[z] : h->moisture);
        dry[z] = LS_PRODUCT(ls_part(w, zone, "dry"), zone, "dry litter by the depth survey: %s", "ton", h->zone_wet[z],
                            solids);
    }
    ls_line sum = ls_sum(w, "sum", "dry litter by the readings", "ton", dry, LS_ZONES);
    ls_line factor = ls_litter_factor(h, w, "beyond", "what the spots probed may miss", "depth survey beyond readings");
    ls_line there = LS_PRODUCT(w, "dry", "dry litter by the depth survey", "ton", sum, factor);
    return h->out ? LS_SUM(w, "made", "dry litter made, by the depth survey", "ton", there, h->out) : there;
}

/* ---- phosphorus balance: what was eaten, less eggs and growth, does not go to the air ---- */

static ls_line by_phosphorus(ls_litter_house *h) {
    return h->by_balance[LS_ELEMENT_P] && h->lab_dry[LS_P2O5]
               ? ls_same(h->w, "phosphorus.dry", "dry litter by the phosphorus balance", "ton",
                         ls_litter_by_element(h, LS_ELEMENT_P))
               : LS_NO_LINE;
}

/* Found as it lies in this house. */
static void add_as_lies(ls_litter_house *h, const char *name, ls_line made) {
    ls_litter_way *way = ls_litter_add_way(h, name, true, made);
    if (way) way->as_lies = true;
}

void ls_litter_evidence(ls_litter_house *h) {
    add_as_lies(h, "depth survey", by_survey(h));
    ls_litter_add_way(h, h->house->last_cleanout.n > 1 ? "earlier cleanouts" : "last cleanout", true,
                      ls_litter_by_cleanouts(h));
    ls_litter_way *way = ls_litter_add_way(h, "phosphorus balance", true, by_phosphorus(h));
    if (way) way->of_element = true;
    add_as_lies(h, "loads hauled", ls_litter_by_loads(h));
}

/* ---- sister houses: their own evidence, by the feed eaten ---- */

static bool is_sister(const ls_litter_house *h, const ls_litter_house *other) {
    bool alike = !(LS_GIVEN(h->house->alike) && !h->house->alike.yes) &&
                 !(LS_GIVEN(other->house->alike) && !other->house->alike.yes);
    return other->house != h->house && alike && other->bird == h->bird && h->bird != 0 && other->own_evidence &&
           other->feed && h->feed;
}

/* Several sisters count as one: their droppings together over their feed together. */
void ls_litter_sisters(ls_litter_house *h, const ls_litter_house *houses, size_t n) {
    ls_line made[MOST_SISTERS], feed[MOST_SISTERS];
    const ls_litter_house *last = NULL;
    size_t sisters = 0;
    for (size_t i = 0; i < n && sisters < MOST_SISTERS; i++) {
        if (!is_sister(h, &houses[i])) continue;
        last = &houses[i];
        feed[sisters] = last->feed;
        made[sisters] = ls_litter_less_bedding(ls_part(h->w, last->house->name.text, "sister-%zu", sisters + 1),
                                               "its litter", "dry litter of %s less its bedding", "dry droppings in %s",
                                               last->own_evidence, last->bedding);
        sisters++;
    }
    if (sisters == 0) return;
    const char *name = sisters == 1 ? ls_printf(h->w, "sister house %s", last->house->name.text) : "sister houses";
    ls_worksheet *w = ls_part(h->w, name, "sister-houses");
    ls_line dry = made[0], over = feed[0];
    if (sisters > 1) {
        dry = ls_sum(w, "made", "dry droppings in the sister houses", "ton", made, sisters);
        over = ls_sum(w, "feed", "feed eaten in the sister houses", "ton", feed, sisters);
    }
    ls_line ratio = ls_quotient(w, "ratio", "feed eaten here over that of the %s", "", h->feed, over);
    ls_line factor = ls_litter_factor(h, w, "beyond", "how alike two houses are", "sister house");
    ls_line droppings = LS_PRODUCT(w, "droppings", "dry droppings by the %s", "ton", dry, ratio, factor);
    ls_litter_add_way(h, name, true, ls_litter_with_bedding(h, w, "dry", "dry litter by the %s", droppings));
}
