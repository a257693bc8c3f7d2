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
        if (!LS_GIVEN(*in_feed(&f->feed.at[i], e))) return false;
    bool eggs =
        LS_GIVEN(f->eggs) && ls_litter_bird_figure(h, "egg_weight") && ls_litter_bird_figure(h, elements[e].egg);
    return f->feed.n > 0 && (!ls_bird_is(f->birds.is, LS_LAYS) || eggs);
}

static bool possible(const ls_litter_house *h, int e) {
    bool growth = ls_litter_bird_figure(h, elements[e].retained) ||
                  (ls_litter_bird_figure(h, "start_weight") && ls_litter_bird_figure(h, elements[e].body));
    if (h->bird == 0 || !growth || h->house->flocks.n == 0) return false;
    for (size_t k = 0; k < h->house->flocks.n; k++)
        if (!flock_tells(h, &h->house->flocks.at[k], e)) return false;
    return true;
}

/* ---- one flock; in a part of its own for the element ---- */

/* Of one feed. Crude protein is nitrogen x 6.25. */
static ls_line eaten_in(ls_litter_house *h, const ls_litter_flock *f, ls_worksheet *of, size_t i, int e) {
    ls_line feed = ls_litter_phase(h, f, i);
    if (!feed) return LS_NO_LINE;
    ls_worksheet *w = ls_litter_of_phase(f, of, i);
    ls_line share = ls_leaf_given(w, "in_feed", ls_printf(w, "%s in the feed", elements[e].feed), "%",
                                  in_feed(&f->told->feed.at[i], e));
    const char *label = ls_printf(w, "%s eaten", ls_litter_element_word(e));
    if (e != LS_ELEMENT_N) return LS_PRODUCT(w, "fed", label, "lb", feed, share);
    ls_line protein = LS_PRODUCT(w, "protein", "protein eaten", "lb", feed, share);
    ls_line per = ls_leaf_figure(h->w, "nitrogen.per_protein", "protein per nitrogen", "",
                                 ls_litter_practice(h, "protein to nitrogen"));
    return ls_quotient(w, "fed", label, "lb", protein, per);
}

static ls_line eaten_by(ls_litter_house *h, const ls_litter_flock *f, ls_worksheet *w, int e) {
    size_t n = f->told->feed.n;
    ls_line *x = LS_NEW(h->arena, ls_line, n);
    for (size_t i = 0; i < n; i++) x[i] = eaten_in(h, f, w, i, e);
    return n == 1 ? x[0] : ls_sum(w, "fed", "%s eaten", "lb", x, n);
}

static ls_line eggs_of(ls_litter_house *h, const ls_litter_flock *f, ls_worksheet *w, int e) {
    ls_line eggs = ls_leaf_given(f->w, "eggs", "eggs per hen placed", "egg/bird", &f->told->eggs);
    ls_line weight =
        ls_leaf_figure(f->w, "egg_weight", "weight of an egg", "g/egg", ls_litter_bird_figure(h, "egg_weight"));
    ls_line mass = LS_PRODUCT(f->w, "egg_mass", "eggs sold", "lb", f->hens, eggs, weight);
    ls_line share = ls_leaf_figure(w, "in_egg", "%s in eggs", "%", ls_litter_bird_figure(h, elements[e].egg));
    return LS_PRODUCT(w, "out_in_eggs", "%s gone with the eggs", "lb", mass, share);
}

/* To the weight as given, else the published one at the end of the stay. */
static ls_line gain_of(ls_litter_house *h, const ls_litter_flock *f) {
    const ls_litter_growth *g = f->told->came > 0 ? ls_litter_growth_of(h) : NULL;
    static const char placed[] = "weight of a bird placed";
    ls_line start =
        g ? ls_leaf_by(f->w, "start_weight", placed, "lb/bird", g->last_weight, g->weight[f->told->came],
                       ls_spread_exact(), "by the growth curve, at the age at which it came in")
          : ls_leaf_figure(f->w, "start_weight", placed, "kg/bird", ls_litter_bird_figure(h, "start_weight"));
    const ls_figure *published = ls_litter_bird_figure(h, "end_weight");
    ls_line end = LS_GIVEN(f->told->weight) || !published
                      ? f->weight
                      : ls_leaf_figure(f->w, "end_weight", "weight of a bird removed", "kg/bird", published);
    return ls_difference(f->w, "gain", "growth of a bird", "kg/bird", end, start);
}

/* By the share of the feed that bodies keep, where published; else growth x what bodies hold. */
static ls_line growth_of(ls_litter_house *h, const ls_litter_flock *f, ls_worksheet *w, int e, ls_line eaten) {
    static const char label[] = "%s in the growth of the birds";
    const ls_figure *kept = ls_litter_bird_figure(h, elements[e].retained);
    if (kept)
        return LS_PRODUCT(w, "out_in_growth", label, "lb", eaten,
                          ls_leaf_figure(w, "retained", "share of the %s eaten that bodies keep", "%", kept));
    ls_line gain = gain_of(h, f);
    ls_line share = ls_leaf_figure(w, "in_bird", "%s in live birds", "%", ls_litter_bird_figure(h, elements[e].body));
    return LS_PRODUCT(w, "out_in_growth", label, "lb", f->mean, gain, share);
}

/* ---- the house ---- */

/* Of a flock that stayed through a cleanout what came since counts; flocks alike are told once. */
static ls_line counted(ls_litter_house *h, const ls_litter_flock *f, ls_worksheet *of, const char *what,
                       const char *label, bool of_stay, ls_line x) {
    ls_worksheet *w = ls_part(of, NULL, "%s", what);
    if (of_stay && ls_house_since(h->house, f->told) > f->told->placed.day) {
        ls_line all =
            ls_litter_bird_days(h, f, ls_part(f->w, NULL, "whole"), f->told->placed.day, f->told->removed.day);
        ls_line part =
            ls_quotient(f->w, "part", "bird-days since the last cleanout, of the whole stay", "%", f->bird_days, all);
        x = LS_PRODUCT(w, "since", label, "lb", x, part);
    }
    return ls_litter_times(f, w, "of_all", label, "lb", x);
}

static void balance(ls_litter_house *h, int e) {
    ls_worksheet *w = ls_part(h->w, ls_litter_element_word(e), "%s", ls_litter_element_word(e));
    size_t n = h->house->flocks.n;
    ls_line *fed = LS_NEW(h->arena, ls_line, n), *eggs = LS_NEW(h->arena, ls_line, n),
            *growth = LS_NEW(h->arena, ls_line, n);
    for (size_t k = 0; k < n; k++) {
        const ls_litter_flock *f = &h->flocks[k];
        ls_worksheet *of = ls_part(w, ls_litter_element_word(e), "flock-%zu", k + 1);
        ls_line eaten = eaten_by(h, f, of, e);
        bool kept = ls_litter_bird_figure(h, elements[e].retained) != NULL;
        growth[k] = counted(h, f, of, "growth", "in growth", !kept, growth_of(h, f, of, e, eaten));
        fed[k] = counted(h, f, of, "fed", "eaten", false, eaten);
        if (ls_bird_is(h->bird, LS_LAYS)) eggs[k] = counted(h, f, of, "eggs", "in eggs", true, eggs_of(h, f, of, e));
    }
    ls_line sum = ls_sum(w, "fed", "%s eaten", "lb", fed, n);
    ls_line known = ls_litter_factor(h, w, "feed", ls_printf(w, "how well feed and its %s are known", elements[e].feed),
                                     "phosphorus balance feed");
    h->eaten[e] = LS_PRODUCT(w, "in", "%s eaten, as far as known", "lb", sum, known);
    h->in_growth[e] = ls_sum(w, "growth", "%s in the growth of the birds", "lb", growth, n);
    ls_line gone = h->in_growth[e];
    h->in_eggs[e] = ls_sum(w, "eggs", "%s in eggs", "lb", eggs, n);
    if (h->in_eggs[e]) gone = LS_SUM(w, "gone", "%s in eggs and growth", "lb", h->in_eggs[e], gone);
    h->dropped[e] = ls_difference(w, "dropped", "%s in the droppings", "lb", h->eaten[e], gone);
}

void ls_litter_balance(ls_litter_house *h) {
    for (int e = 0; e < LS_ELEMENTS; e++)
        if (possible(h, e)) balance(h, e);
}

/* ---- what was excreted, and what of it a house keeps ---- */

/* In all, by a published figure per pound of feed of its own bird. */
static ls_line by_table(ls_litter_house *h, ls_worksheet *of, int e) {
    const char *name = ls_element_name(e);
    const ls_row *row = ls_litter_default_row(h, "excreted", name);
    if (!row || !h->feed) return LS_NO_LINE;
    ls_worksheet *w = ls_part(h->published, name, "excreted-%s", ls_text_slug(h->arena, row->name));
    ls_line feed = ls_litter_own_feed(h, row, w);
    if (!feed) return LS_NO_LINE;
    ls_line each = ls_litter_cell(w, row, name, ls_printf(w, "%%s excreted, by %s", row->name));
    ls_line ratio = ls_quotient(w, ls_printf(w, "%s.over_feed", name),
                                ls_printf(w, "%%s excreted over feed, by %s", row->name), "%", each, feed);
    h->excreted_by[e] = ls_row_figure(row, name)->source;
    return LS_PRODUCT(of, "published", ls_printf(w, "%%s excreted in all, by %s", row->name), "lb", h->feed, ratio);
}

static void element(ls_litter_house *h, int e) {
    const char *name = ls_element_name(e);
    ls_worksheet *w = ls_part(h->w, name, "excreted.%s", name);
    h->by_balance[e] = h->dropped[e] && ls_line_value(w, h->dropped[e]) > 0;
    ls_line from = h->by_balance[e] ? h->dropped[e] : by_table(h, w, e);
    if (h->dropped[e] && !h->by_balance[e])
        ls_litter_note(h,
                       "eggs and growth hold more %s than was eaten. Check the feed, its %s, the "
                       "eggs and the weight of the birds%s",
                       ls_litter_element_word(e), e == LS_ELEMENT_N ? "protein" : ls_litter_element_word(e),
                       from ? "; the published figure is used" : "");
    if (!from) return;
    h->excreted[e] = ls_same(w, "", "%s excreted in all", "lb", from);
    const ls_row *row = ls_litter_default_row(h, "kept", name);
    if (!row) return;
    h->kept_share[e] = ls_row_figure(row, name);
    ls_line share =
        ls_leaf_figure(h->w, ls_printf(w, "excreted.%s.share", name),
                       ls_printf(w, "share of it kept in the house, by %s", row->name), "%", h->kept_share[e]);
    h->kept[e] = LS_PRODUCT(w, "kept", "%s excreted and kept in the house", "lb", h->excreted[e], share);
}

const char *ls_litter_excreted_source(const ls_litter_house *h, int e) {
    return h->by_balance[e]    ? "what was eaten, less eggs and growth"
           : h->excreted_by[e] ? ls_printf(h->w, "%s, %s", h->excreted_by[e]->id, h->excreted_by[e]->title)
                               : "";
}

void ls_litter_excreted(ls_litter_house *h) {
    for (int e = 0; e < LS_ELEMENTS && h->bird != 0; e++) element(h, e);
}
