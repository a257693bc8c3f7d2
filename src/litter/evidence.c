/* What this house itself tells: a depth survey, its last cleanout, its phosphorus, a sister house.
 * All in dry tons. */
#include "house.h"

/* Sisters beyond these tell nothing that these do not. */
enum { MOST_SISTERS = 8 };

/* A leaf that is from memory stands behind the line. */
static bool is_recalled(const ls_worksheet *w, ls_line line) {
    ls_arena *a = ls_arena_new();
    bool *of = LS_NEW(a, bool, ls_worksheet_lines(w)), recalled = false;
    ls_line_ancestors(w, line, of);
    for (ls_line k = 0; k <= line && !recalled; k++) {
        const ls_figure *f = ls_line_at(w, k)->origin.figure;
        recalled = of[k] && f && f->status == LS_MEMORY;
    }
    ls_arena_free(a);
    return recalled;
}

void ls_litter_add_way(ls_litter_house *h, const char *name, bool evidence, ls_line made) {
    if (made == LS_NO_LINE || h->ways_n == LS_MOST_METHODS)
        return;
    if (!(ls_line_value(h->w, made) > 0)) {
        ls_litter_note(
            h, "%s is left out: it gives no litter at all; look at the figures it is made of",
            name);
        return;
    }
    h->ways[h->ways_n++] =
        (ls_litter_way){name, evidence, is_recalled(h->w, made), made, LS_NO_LINE};
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

/* P2O5 per pound of dry matter, by the laboratory. */
static ls_line phosphate_of_dry(ls_litter_house *h) {
    ls_line water = h->lab_moisture != LS_NO_LINE ? h->lab_moisture : h->moisture;
    ls_line solids =
        ls_complement(h->w, LS_KEY(h, "phosphorus.solids"), "dry share of the sample", "%", water);
    return ls_quotient(h->w, LS_KEY(h, "phosphorus.per_dry"),
                       "P2O5 in the dry matter, by the laboratory", "%", h->lab_phosphate, solids);
}

static ls_line by_phosphorus(ls_litter_house *h) {
    if (h->lab_phosphate == LS_NO_LINE || h->dropped[LS_ELEMENT_P] == LS_NO_LINE)
        return LS_NO_LINE;
    ls_worksheet *w = h->w;
    ls_line found =
        ls_leaf_figure(w, LS_KEY(h, "phosphorus.recovered"), "share of it found in the litter", "%",
                       ls_litter_practice(h, "phosphorus recovered"));
    ls_line oxide = ls_leaf_figure(w, LS_KEY(h, "phosphorus.oxide"), "P2O5 per P", "",
                                   ls_litter_practice(h, "P to P2O5"));
    ls_line phosphate = LS_PRODUCT(w, LS_KEY(h, "phosphorus.P2O5"), "P2O5 in the litter", "lb",
                                   h->dropped[LS_ELEMENT_P], found, oxide);
    return ls_quotient(w, LS_KEY(h, "phosphorus.dry"), "dry litter by the phosphorus balance",
                       "ton", phosphate, phosphate_of_dry(h));
}

void ls_litter_evidence(ls_litter_house *h) {
    ls_litter_add_way(h, "depth survey", true, by_survey(h));
    ls_litter_add_way(h, h->house->last_cleanout.n > 1 ? "earlier cleanouts" : "last cleanout",
                      true, ls_litter_by_cleanouts(h));
    ls_litter_add_way(h, "phosphorus balance", true, by_phosphorus(h));
    ls_litter_add_way(h, "loads hauled", true, ls_litter_by_loads(h));
}

/* ---- sister houses: their own evidence, by bird-days ---- */

static bool is_sister(const ls_litter_house *h, const ls_litter_house *other) {
    bool alike = !(LS_GIVEN(h->house->alike) && !h->house->alike.yes) &&
                 !(LS_GIVEN(other->house->alike) && !other->house->alike.yes);
    return other->house != h->house && alike && other->bird == h->bird && h->bird != 0 &&
           other->own_evidence != LS_NO_LINE && other->bird_days != LS_NO_LINE &&
           h->bird_days != LS_NO_LINE;
}

/* Several sisters count as one: their litter together over their bird-days together. */
void ls_litter_sisters(ls_litter_house *h, const ls_litter_house *houses, size_t n) {
    ls_worksheet *w = h->w;
    ls_arena *a = ls_worksheet_arena(w);
    ls_line *made = LS_NEW(a, ls_line, n), *days = LS_NEW(a, ls_line, n);
    const ls_litter_house *last = NULL;
    size_t sisters = 0;
    for (size_t i = 0; i < n && sisters < MOST_SISTERS; i++) {
        if (!is_sister(h, &houses[i]))
            continue;
        last = &houses[i];
        made[sisters] = last->own_evidence;
        days[sisters++] = last->bird_days;
    }
    if (sisters == 0)
        return;
    const char *name =
        sisters == 1 ? ls_words(w, "sister house %s", last->house->name.text) : "sister houses";
    ls_line dry = made[0], over = days[0];
    if (sisters > 1) {
        dry = ls_sum(w, LS_KEY(h, "sister-houses.made"), "dry litter made in the sister houses",
                     "ton", made, sisters);
        over = ls_sum(w, LS_KEY(h, "sister-houses.bird_days"), "bird-days in the sister houses",
                      "bird-day", days, sisters);
    }
    ls_line ratio = ls_quotient(w, LS_KEY(h, "sister-houses.ratio"),
                                ls_words(w, "bird-days here over those of the %s", name), "",
                                h->bird_days, over);
    ls_line factor = ls_litter_factor(h, LS_KEY(h, "sister-houses.beyond"),
                                      "how alike two houses are", "sister house");
    ls_litter_add_way(h, name, true,
                      LS_PRODUCT(w, LS_KEY(h, "sister-houses.dry"),
                                 ls_words(w, "dry litter by the %s", name), "ton", dry, ratio,
                                 factor));
}
