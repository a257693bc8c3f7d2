/* What this house itself tells: a depth survey, its last cleanout, its phosphorus, a sister house.
 * All in dry tons. */
#include "house.h"

#include <math.h>

/* Sisters beyond these tell nothing that these do not. */
enum { MOST_SISTERS = 8 };

/* A leaf that is from memory and moves the line by 1 % or more stands behind it. */
static bool is_recalled(const ls_worksheet *w, ls_line line) {
    const double share = 0.01;
    ls_arena *a = ls_arena_new();
    double *gradient = LS_NEW(a, double, ls_worksheet_lines(w));
    bool recalled = false;
    ls_line_gradient(w, line, gradient);
    for (ls_line k = 0; k <= line && !recalled; k++) {
        const ls_entry *e = ls_line_at(w, k);
        const ls_figure *f = e->origin.figure;
        recalled = f && f->status == LS_MEMORY &&
                   fabs(gradient[k] * ls_spread_scale(e->spread, e->value)) >=
                       share * fabs(ls_line_value(w, line));
    }
    ls_arena_free(a);
    return recalled;
}

/* One more way to know the dry litter made; one that gives none is left out with a note. */
static void add_way(ls_litter_house *h, const char *name, bool evidence, ls_line made) {
    if (made == LS_NO_LINE || h->ways_n == LS_MOST_METHODS)
        return;
    if (!(ls_line_value(h->w, made) > 0)) {
        ls_litter_note(
            h, "%s is left out: it gives no litter at all; look at the figures it is made of",
            name);
        return;
    }
    h->ways[h->ways_n++] = (ls_litter_way){.name = name,
                                           .evidence = evidence,
                                           .memory = is_recalled(h->w, made),
                                           .dry = made,
                                           .weight = LS_NO_LINE};
}

void ls_litter_add_published(ls_litter_house *h, const char *name, ls_line figure, ls_line made,
                             ls_line weight) {
    size_t before = h->ways_n;
    add_way(h, name, false, made);
    if (h->ways_n == before)
        return;
    h->ways[before].weight = weight;
    h->ways[before].memory = is_recalled(h->w, figure);
}

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
                                       ls_words(w, "dry share: %s", zone), "%", water);
        dry[n++] = LS_PRODUCT(w, LS_KEY(h, "depth-survey.dry.%s", zone),
                              ls_words(w, "dry litter by the depth survey: %s", zone), "ton",
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

const char ls_litter_phosphorus_balance[] = "phosphorus balance";

static ls_line by_phosphorus(ls_litter_house *h) {
    return h->by_balance[LS_ELEMENT_P] && h->lab_dry[LS_P2O5] != LS_NO_LINE
               ? ls_same(h->w, LS_KEY(h, "phosphorus.dry"), "dry litter by the phosphorus balance",
                         "ton", ls_litter_by_element(h, LS_ELEMENT_P))
               : LS_NO_LINE;
}

/* Found as it lies in this house. */
static void add_as_lies(ls_litter_house *h, const char *name, ls_line made) {
    size_t before = h->ways_n;
    add_way(h, name, true, made);
    if (h->ways_n > before)
        h->ways[before].as_lies = true;
}

void ls_litter_evidence(ls_litter_house *h) {
    add_as_lies(h, "depth survey", by_survey(h));
    add_way(h, h->house->last_cleanout.n > 1 ? "earlier cleanouts" : "last cleanout", true,
            ls_litter_by_cleanouts(h));
    add_way(h, ls_litter_phosphorus_balance, true, by_phosphorus(h));
    add_as_lies(h, "loads hauled", ls_litter_by_loads(h));
}

/* ---- sister houses: their own evidence, by the feed eaten ---- */

static bool is_sister(const ls_litter_house *h, const ls_litter_house *other) {
    bool alike = !(LS_GIVEN(h->house->alike) && !h->house->alike.yes) &&
                 !(LS_GIVEN(other->house->alike) && !other->house->alike.yes);
    return other->house != h->house && alike && other->bird == h->bird && h->bird != 0 &&
           other->own_evidence != LS_NO_LINE && other->feed != LS_NO_LINE && h->feed != LS_NO_LINE;
}

/* Dry droppings that a house's own evidence tells: all but its bedding. */
static ls_line own_droppings(ls_litter_house *h, const ls_litter_house *sister, size_t k) {
    ls_worksheet *w = h->w;
    if (sister->bedding == LS_NO_LINE)
        return sister->own_evidence;
    const char *name = sister->house->name.text;
    ls_line part = ls_leaf_exact(w, LS_KEY(h, "sister-%zu.least_part", k), "a twentieth", "", 0.05,
                                 LS_BY_DEFINITION, "droppings are no less of litter");
    ls_line least = LS_PRODUCT(w, LS_KEY(h, "sister-%zu.least", k), "a twentieth of its litter",
                               "ton", sister->own_evidence, part);
    ls_line rest = ls_difference(w, LS_KEY(h, "sister-%zu.less_bedding", k),
                                 ls_words(w, "dry litter of %s less its bedding", name), "ton",
                                 sister->own_evidence, sister->bedding);
    return LS_GREATEST(w, LS_KEY(h, "sister-%zu.droppings", k),
                       ls_words(w, "dry droppings in %s", name), "ton", rest, least);
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
        made[sisters] = own_droppings(h, last, sisters + 1);
        sisters++;
    }
    if (sisters == 0)
        return;
    const char *name =
        sisters == 1 ? ls_words(w, "sister house %s", last->house->name.text) : "sister houses";
    ls_line dry = made[0], over = feed[0];
    if (sisters > 1) {
        dry = ls_sum(w, LS_KEY(h, "sister-houses.made"), "dry droppings in the sister houses",
                     "ton", made, sisters);
        over = ls_sum(w, LS_KEY(h, "sister-houses.feed"), "feed eaten in the sister houses", "ton",
                      feed, sisters);
    }
    ls_line ratio =
        ls_quotient(w, LS_KEY(h, "sister-houses.ratio"),
                    ls_words(w, "feed eaten here over that of the %s", name), "", h->feed, over);
    ls_line factor = ls_litter_factor(h, LS_KEY(h, "sister-houses.beyond"),
                                      "how alike two houses are", "sister house");
    ls_line droppings =
        LS_PRODUCT(w, LS_KEY(h, "sister-houses.droppings"),
                   ls_words(w, "dry droppings by the %s", name), "ton", dry, ratio, factor);
    add_way(h, name, true,
            ls_litter_with_bedding(h, LS_KEY(h, "sister-houses.dry"),
                                   ls_words(w, "dry litter by the %s", name), droppings));
}
