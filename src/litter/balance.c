/* What the birds ate less what left with eggs and growth: nitrogen, phosphorus and potassium in the
 * droppings, from this farm's own feed and product. */
#include "house.h"

/* Names of columns, in the order of LS_ELEMENT_N. */
static const struct {
    const char *feed, *body, *egg, *retained;
} elements[LS_ELEMENTS] = {
    {"protein", "body_N", "egg_N", "retained_N"},
    {"phosphorus", "body_P", "egg_P", "retained_P"},
    {"potassium", "body_K", "egg_K", "retained_K"},
};

static const ls_quantity *in_feed(const ls_feed *feed, int e) {
    const ls_quantity *q[LS_ELEMENTS] = {&feed->protein, &feed->phosphorus, &feed->potassium};
    return q[e];
}

/* ---- is all there that the balance needs? ---- */

static bool flock_tells(const ls_litter_house *h, const ls_flock *f, int e) {
    for (size_t i = 0; i < f->feed.n; i++)
        if (!LS_GIVEN(*in_feed(&f->feed.at[i], e)))
            return false;
    bool eggs = LS_GIVEN(f->eggs) && ls_litter_bird_figure(h, "egg_weight") &&
                ls_litter_bird_figure(h, elements[e].egg);
    return f->feed.n > 0 && (!ls_bird_is(f->birds.is, LS_LAYS) || eggs);
}

static bool growth_known(const ls_litter_house *h, int e) {
    if (ls_litter_bird_figure(h, elements[e].retained))
        return true;
    return ls_litter_bird_figure(h, "start_weight") && ls_litter_bird_figure(h, elements[e].body);
}

static bool possible(const ls_litter_house *h, int e) {
    if (h->bird == 0 || !growth_known(h, e))
        return false;
    for (size_t k = 0; k < h->house->flocks.n; k++)
        if (!flock_tells(h, &h->house->flocks.at[k], e))
            return false;
    return true;
}

/* ---- one flock ---- */

static const char *key_of(const ls_litter_house *h, int e, size_t k, const char *what) {
    return LS_KEY(h, "%s.flock-%zu%s", ls_litter_element_word(e), k, what);
}

/* Of one feed. Crude protein is nitrogen x 6.25. */
static ls_line eaten_in(ls_litter_house *h, size_t k, size_t i, int e) {
    ls_worksheet *w = h->w;
    const ls_feed *feed = &h->house->flocks.at[k - 1].feed.at[i];
    ls_litter_phase phase = ls_litter_phase_of(h, k, i);
    if (!phase.counts)
        return LS_NO_LINE;
    const char *prefix = key_of(h, e, k, ls_litter_phase_key(h, k, i));
    ls_line share =
        ls_leaf_given(w, ls_printf(w, "%s.in_feed", prefix),
                      ls_printf(w, "%s in the feed", elements[e].feed), "%", in_feed(feed, e));
    const char *key = ls_printf(w, "%s.fed", prefix);
    const char *label = ls_printf(w, "%s eaten", ls_litter_element_word(e));
    if (e != LS_ELEMENT_N)
        return LS_PRODUCT(w, key, label, "lb", phase.feed, share);
    ls_line protein =
        LS_PRODUCT(w, ls_printf(w, "%s.protein", prefix), "protein eaten", "lb", phase.feed, share);
    ls_line per = ls_litter_shared(h, LS_KEY(h, "nitrogen.per_protein"), "protein per nitrogen", "",
                                   ls_litter_practice(h, "protein to nitrogen"));
    return ls_quotient(w, key, label, "lb", protein, per);
}

static ls_line eaten_by(ls_litter_house *h, size_t k, int e) {
    size_t feeds = h->house->flocks.at[k - 1].feed.n, n = 0;
    ls_line *x = LS_NEW(ls_worksheet_arena(h->w), ls_line, feeds);
    for (size_t i = 0; i < feeds; i++) {
        x[n] = eaten_in(h, k, i, e);
        n += x[n] != LS_NO_LINE;
    }
    return feeds == 1 ? x[0]
                      : ls_sum(h->w, key_of(h, e, k, ".fed"),
                               ls_printf(h->w, "%s eaten", ls_litter_element_word(e)), "lb", x, n);
}

static ls_line egg_mass(ls_litter_house *h, size_t k) {
    ls_line known = ls_litter_flock_line(h, k, "egg_mass");
    if (known != LS_NO_LINE)
        return known;
    ls_worksheet *w = h->w;
    const ls_flock *f = &h->house->flocks.at[k - 1];
    ls_line eggs = ls_leaf_given(w, LS_KEY(h, "flock-%zu.eggs", k), "eggs per hen placed",
                                 "egg/bird", &f->eggs);
    ls_line weight = ls_leaf_figure(w, LS_KEY(h, "flock-%zu.egg_weight", k), "weight of an egg",
                                    "g/egg", ls_litter_bird_figure(h, "egg_weight"));
    ls_line hens = ls_litter_flock_line(h, k, ls_bird_is_breeder(f->birds.is) ? "hens" : "birds");
    return LS_PRODUCT(w, LS_KEY(h, "flock-%zu.egg_mass", k), "eggs sold", "lb", hens, eggs, weight);
}

static ls_line eggs_of(ls_litter_house *h, size_t k, int e) {
    ls_worksheet *w = h->w;
    ls_line mass = egg_mass(h, k);
    ls_line share = ls_leaf_figure(w, key_of(h, e, k, ".in_egg"),
                                   ls_printf(w, "%s in eggs", ls_litter_element_word(e)), "%",
                                   ls_litter_bird_figure(h, elements[e].egg));
    return LS_PRODUCT(w, key_of(h, e, k, ".out_in_eggs"),
                      ls_printf(w, "%s gone with the eggs", ls_litter_element_word(e)), "lb", mass,
                      share);
}

/* lb/bird: as given, else the published weight at the end of the stay. */
static ls_line end_weight(ls_litter_house *h, size_t k) {
    const ls_figure *end = ls_litter_bird_figure(h, "end_weight");
    if (LS_GIVEN(h->house->flocks.at[k - 1].weight) || !end)
        return ls_litter_flock_line(h, k, "weight");
    return ls_leaf_figure(h->w, LS_KEY(h, "flock-%zu.end_weight", k), "weight of a bird removed",
                          "kg/bird", end);
}

static ls_line gain_of(ls_litter_house *h, size_t k) {
    ls_line known = ls_litter_flock_line(h, k, "gain");
    if (known != LS_NO_LINE)
        return known;
    ls_worksheet *w = h->w;
    ls_line start =
        ls_leaf_figure(w, LS_KEY(h, "flock-%zu.start_weight", k), "weight of a bird placed",
                       "kg/bird", ls_litter_bird_figure(h, "start_weight"));
    ls_line end = end_weight(h, k);
    return ls_difference(w, LS_KEY(h, "flock-%zu.gain", k), "growth of a bird", "kg/bird", end,
                         start);
}

/* By the share of the feed that bodies keep, where it is published; else growth x what bodies hold.
 */
static ls_line growth_of(ls_litter_house *h, size_t k, int e, ls_line eaten) {
    ls_worksheet *w = h->w;
    const char *word = ls_litter_element_word(e), *key = key_of(h, e, k, ".out_in_growth");
    const char *label = ls_printf(w, "%s in the growth of the birds", word);
    const ls_figure *kept = ls_litter_bird_figure(h, elements[e].retained);
    if (kept) {
        ls_line share =
            ls_leaf_figure(w, key_of(h, e, k, ".retained"),
                           ls_printf(w, "share of the %s eaten that bodies keep", word), "%", kept);
        return LS_PRODUCT(w, key, label, "lb", eaten, share);
    }
    ls_line gain = gain_of(h, k);
    ls_line share =
        ls_leaf_figure(w, key_of(h, e, k, ".in_bird"), ls_printf(w, "%s in live birds", word), "%",
                       ls_litter_bird_figure(h, elements[e].body));
    return LS_PRODUCT(w, key, label, "lb", ls_litter_flock_line(h, k, "mean_birds"), gain, share);
}

/* ---- the house ---- */

/* Of a flock that stayed through a cleanout only what came since counts; flocks alike are told
 * once.
 */
static ls_line counted(ls_litter_house *h, size_t k, int e, const char *what, const char *label,
                       bool of_stay, ls_line x) {
    const ls_flock *f = &h->house->flocks.at[k - 1];
    ls_worksheet *w = h->w;
    if (of_stay && ls_house_since(h->house, f) > f->placed.day) {
        ls_line part = ls_litter_flock_line(h, k, "part");
        if (part == LS_NO_LINE) {
            ls_line all = ls_litter_bird_days(h, k, LS_KEY(h, "flock-%zu.whole", k), f->placed.day,
                                              f->removed.day);
            part = ls_quotient(w, LS_KEY(h, "flock-%zu.part", k),
                               "bird-days since the last cleanout, of the whole stay", "%",
                               ls_litter_flock_line(h, k, "bird_days"), all);
        }
        x = LS_PRODUCT(w, key_of(h, e, k, ls_printf(w, ".%s.since", what)), label, "lb", x, part);
    }
    return ls_litter_times(h, k, key_of(h, e, k, ls_printf(w, ".%s.of_all", what)), label, "lb", x);
}

static void balance(ls_litter_house *h, int e) {
    ls_worksheet *w = h->w;
    ls_arena *a = ls_worksheet_arena(w);
    const char *word = ls_litter_element_word(e);
    size_t n = h->house->flocks.n;
    ls_line *fed = LS_NEW(a, ls_line, n), *eggs = LS_NEW(a, ls_line, n),
            *growth = LS_NEW(a, ls_line, n);
    for (size_t k = 0; k < n; k++) {
        fed[k] = eaten_by(h, k + 1, e);
        bool kept = ls_litter_bird_figure(h, elements[e].retained) != NULL;
        growth[k] =
            counted(h, k + 1, e, "growth", "in growth", !kept, growth_of(h, k + 1, e, fed[k]));
        fed[k] = counted(h, k + 1, e, "fed", "eaten", false, fed[k]);
        eggs[k] = ls_bird_is(h->bird, LS_LAYS)
                      ? counted(h, k + 1, e, "eggs", "in eggs", true, eggs_of(h, k + 1, e))
                      : LS_NO_LINE;
    }
    ls_line sum =
        ls_sum(w, LS_KEY(h, "%s.fed", word), ls_printf(w, "%s eaten", word), "lb", fed, n);
    ls_line known =
        ls_litter_factor(h, LS_KEY(h, "%s.feed", word),
                         ls_printf(w, "how well feed and its %s are known", elements[e].feed),
                         "phosphorus balance feed");
    h->eaten[e] = LS_PRODUCT(w, LS_KEY(h, "%s.in", word),
                             ls_printf(w, "%s eaten, as far as known", word), "lb", sum, known);
    h->in_growth[e] = ls_sum(w, LS_KEY(h, "%s.growth", word),
                             ls_printf(w, "%s in the growth of the birds", word), "lb", growth, n);
    ls_line gone = h->in_growth[e];
    if (ls_bird_is(h->bird, LS_LAYS)) {
        h->in_eggs[e] =
            ls_sum(w, LS_KEY(h, "%s.eggs", word), ls_printf(w, "%s in eggs", word), "lb", eggs, n);
        gone = LS_SUM(w, LS_KEY(h, "%s.gone", word), ls_printf(w, "%s in eggs and growth", word),
                      "lb", h->in_eggs[e], h->in_growth[e]);
    }
    h->dropped[e] =
        ls_difference(w, LS_KEY(h, "%s.dropped", word), ls_printf(w, "%s in the droppings", word),
                      "lb", h->eaten[e], gone);
}

void ls_litter_balance(ls_litter_house *h) {
    for (int e = 0; e < LS_ELEMENTS; e++) {
        h->eaten[e] = h->in_eggs[e] = h->in_growth[e] = h->dropped[e] = LS_NO_LINE;
        if (h->house->flocks.n > 0 && possible(h, e))
            balance(h, e);
    }
}
