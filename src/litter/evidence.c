/* What this house itself tells: a depth survey, its last cleanout, its phosphorus, a sister house.
 * All in dry tons. */
#include "house.h"

/* Sisters beyond these tell nothing that these do not. */
enum { MOST_SISTERS = 8 };

/* ---- depth survey: each zone's wet tons at its own moisture ---- */

static ls_line by_survey(ls_litter_house *h) {
    if (!h->surveyed)
        return LS_NO_LINE;
    ls_worksheet *w = h->w;
    ls_line dry[LS_ZONES];
    size_t n = 0;
    for (int z = LS_SLATS; z < LS_ZONES; z++) {
        if (h->zone_wet[z] == LS_NO_LINE)
            continue;
        const char *zone = ls_zone_name(z);
        ls_line water = h->zone_moisture[z] != LS_NO_LINE ? h->zone_moisture[z] : h->moisture;
        ls_line solids = ls_complement(w, LS_KEY(h, "depth-survey.solids.%s", zone),
                                       ls_printf(w, "dry share: %s", zone), "%", water);
        dry[n++] = LS_PRODUCT(w, LS_KEY(h, "depth-survey.dry.%s", zone),
                              ls_printf(w, "dry litter by the depth survey: %s", zone), "ton",
                              h->zone_wet[z], solids);
    }
    ls_line sum =
        ls_sum(w, LS_KEY(h, "depth-survey.sum"), "dry litter by the readings", "ton", dry, n);
    ls_line factor =
        ls_litter_factor(h, LS_KEY(h, "depth-survey.beyond"), "what the spots probed may miss",
                         "depth survey beyond readings");
    ls_line there = LS_PRODUCT(w, LS_KEY(h, "depth-survey.dry"), "dry litter by the depth survey",
                               "ton", sum, factor);
    if (h->out == LS_NO_LINE)
        return there;
    return LS_SUM(w, LS_KEY(h, "depth-survey.made"), "dry litter made, by the depth survey", "ton",
                  there, h->out);
}

/* ---- phosphorus balance: what was eaten, less eggs and growth, does not go to the air ---- */

static ls_line by_phosphorus(ls_litter_house *h) {
    return h->by_balance[LS_ELEMENT_P] && h->lab_dry[LS_P2O5] != LS_NO_LINE
               ? ls_same(h->w, LS_KEY(h, "phosphorus.dry"), "dry litter by the phosphorus balance",
                         "ton", ls_litter_by_element(h, LS_ELEMENT_P))
               : LS_NO_LINE;
}

/* Found as it lies in this house. */
static void add_as_lies(ls_litter_house *h, const char *name, ls_line made) {
    ls_litter_way *way = ls_litter_add_way(h, name, true, made);
    if (way)
        way->as_lies = true;
}

void ls_litter_evidence(ls_litter_house *h) {
    add_as_lies(h, "depth survey", by_survey(h));
    ls_litter_add_way(h, h->house->last_cleanout.n > 1 ? "earlier cleanouts" : "last cleanout",
                      true, ls_litter_by_cleanouts(h));
    ls_litter_way *way = ls_litter_add_way(h, "phosphorus balance", true, by_phosphorus(h));
    if (way)
        way->of_element = true;
    add_as_lies(h, "loads hauled", ls_litter_by_loads(h));
}

/* ---- sister houses: their own evidence, by the feed eaten ---- */

static bool is_sister(const ls_litter_house *h, const ls_litter_house *other) {
    bool alike = !(LS_GIVEN(h->house->alike) && !h->house->alike.yes) &&
                 !(LS_GIVEN(other->house->alike) && !other->house->alike.yes);
    return other->house != h->house && alike && other->bird == h->bird && h->bird != 0 &&
           other->own_evidence != LS_NO_LINE && other->feed != LS_NO_LINE && h->feed != LS_NO_LINE;
}

/* Several sisters count as one: their droppings together over their feed together. */
void ls_litter_sisters(ls_litter_house *h, const ls_litter_house *houses, size_t n) {
    ls_worksheet *w = h->w;
    ls_arena *a = ls_worksheet_arena(w);
    ls_line *made = LS_NEW(a, ls_line, n), *feed = LS_NEW(a, ls_line, n);
    const ls_litter_house *last = NULL;
    size_t sisters = 0;
    for (size_t i = 0; i < n && sisters < MOST_SISTERS; i++) {
        if (!is_sister(h, &houses[i]))
            continue;
        last = &houses[i];
        feed[sisters] = last->feed;
        const char *whose = last->house->name.text;
        made[sisters] = ls_litter_less_bedding(
            w, LS_KEY(h, "sister-%zu", sisters + 1), "its litter",
            ls_printf(w, "dry litter of %s less its bedding", whose),
            ls_printf(w, "dry droppings in %s", whose), last->own_evidence, last->bedding);
        sisters++;
    }
    if (sisters == 0)
        return;
    const char *name =
        sisters == 1 ? ls_printf(w, "sister house %s", last->house->name.text) : "sister houses";
    ls_line dry = made[0], over = feed[0];
    if (sisters > 1) {
        dry = ls_sum(w, LS_KEY(h, "sister-houses.made"), "dry droppings in the sister houses",
                     "ton", made, sisters);
        over = ls_sum(w, LS_KEY(h, "sister-houses.feed"), "feed eaten in the sister houses", "ton",
                      feed, sisters);
    }
    ls_line ratio =
        ls_quotient(w, LS_KEY(h, "sister-houses.ratio"),
                    ls_printf(w, "feed eaten here over that of the %s", name), "", h->feed, over);
    ls_line factor = ls_litter_factor(h, LS_KEY(h, "sister-houses.beyond"),
                                      "how alike two houses are", "sister house");
    ls_line droppings =
        LS_PRODUCT(w, LS_KEY(h, "sister-houses.droppings"),
                   ls_printf(w, "dry droppings by the %s", name), "ton", dry, ratio, factor);
    ls_litter_add_way(h, name, true,
                      ls_litter_with_bedding(h, LS_KEY(h, "sister-houses.dry"),
                                             ls_printf(w, "dry litter by the %s", name),
                                             droppings));
}
