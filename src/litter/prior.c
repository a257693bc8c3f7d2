/* Dry tons of houses in general, by the published figures together: the pooled tons and, as one
 * more figure, what is excreted of phosphorus and potassium over a published content, by a source
 * that is not asked for tons already. It counts by its precision. */
#include "house.h"

#include <math.h>

/* ---- tons by what was excreted ---- */

/* Of an element, in its word. */
static ls_worksheet *found_part(const ls_litter_house *h, int e) {
    return ls_part(h->w, ls_litter_element_word(e), "found.%s", ls_element_name(e));
}

ls_line ls_litter_kept_oxide(ls_litter_house *h, int e) {
    ls_worksheet *w = ls_part(h->w, ls_nutrient_name(ls_litter_element_nutrient(e)), "found.%s", ls_element_name(e));
    return LS_PRODUCT(w, "kept", "%s excreted and kept in the house", "lb", h->kept[e], ls_litter_oxide_per(h, e));
}

ls_line ls_litter_by_element(ls_litter_house *h, int e) {
    ls_worksheet *w = found_part(h, e);
    int k = ls_litter_element_nutrient(e);
    const char *oxide = ls_nutrient_name(k);
    if (!h->kept[e] || !h->lab_dry[k]) return LS_NO_LINE;
    ls_line all = ls_litter_kept_oxide(h, e);
    if (h->in_bedding[e]) {
        ls_line bedding = LS_PRODUCT(w, "bedding", ls_printf(w, "%s in the bedding", oxide), "lb", h->in_bedding[e],
                                     ls_litter_oxide_per(h, e));
        all = LS_SUM(w, "all", ls_printf(w, "%s kept and bedded", oxide), "lb", all, bedding);
    }
    return ls_quotient(w, "litter", "dry litter by the %s excreted", "ton", all, h->lab_dry[k]);
}

/* Dry droppings by an element and the published content of such droppings. */
static ls_line by_content(ls_litter_house *h, int e) {
    ls_worksheet *w = found_part(h, e);
    int k = ls_litter_element_nutrient(e);
    if (!h->kept[e] || h->lab_dry[k] || !(ls_line_value(h->w, h->kept[e]) > 0)) return LS_NO_LINE;
    ls_line content = ls_litter_content_beside(h, k);
    if (!content) return LS_NO_LINE;
    ls_line found = ls_quotient(w, "by_published_content", "dry droppings by the %s excreted, as published", "ton",
                                ls_litter_kept_oxide(h, e), content);
    return LS_LEAST(w, "droppings", "dry droppings by the %s excreted, no more than excreted", "ton", found,
                    h->excreted_dry);
}

/* What all of some lines share; of one alone nothing. */
static ls_ancestors common(const ls_litter_house *h, ls_arena *a, const ls_line *x, size_t n) {
    ls_ancestors all = {0};
    if (n > 1) all = ls_line_ancestors(a, h->w, x[0]);
    for (size_t i = 1; i < n; i++) {
        ls_ancestors of = ls_line_ancestors(a, h->w, x[i]);
        size_t kept = 0;
        for (size_t k = 0; k < all.n; k++)
            if (ls_line_among(&of, all.at[k].line)) all.at[kept++] = all.at[k];
        all.n = kept;
    }
    return all;
}

/* ---- the published figures together ---- */

static const int elements[] = {LS_ELEMENT_P, LS_ELEMENT_K};
static const char *const names[] = {"phosphorus excreted", "potassium excreted"};
enum { ELEMENTS = 2 };

/* One stands as it is. */
static ls_line pooled(ls_litter_house *h, ls_litter_opinions *o, const char *key, const char *label) {
    ls_litter_give_weights(o, h->w, ls_printf(h->w, "%s.part", key), 1, "weight of %s");
    return o->n == 1 ? o->x[0] : ls_geomean(h->w, key, label, "ton", o->x, o->weight, o->n);
}

/* Spread of a line on the log scale, that of the feed left out. */
static double scale_beside_feed(const ls_litter_house *h, ls_line line) {
    ls_arena *a = ls_arena_new();
    ls_ancestors feed = ls_line_ancestors(a, h->w, h->feed);
    double scale = ls_line_log_scale(h->w, line, &feed);
    ls_arena_free(a);
    return scale;
}

/* What is excreted over the published content is one more figure of the droppings that houses in
 * general hold, by a source that is not in the pool already. P and K of one table share its water
 * and its rot: their spreads are taken as one, so that they have one vote. */
static ls_line by_contents(ls_litter_house *h, ls_litter_opinions *o, double *scale) {
    *scale = 0;
    for (size_t i = 0; i < ELEMENTS; i++) {
        ls_line line = by_content(h, elements[i]);
        if (line) ls_litter_opine(o, names[i], line, scale_beside_feed(h, line));
    }
    if (o->n == 0) return LS_NO_LINE;
    ls_line all = pooled(h, o, "made.by_contents", "dry droppings by what is excreted of P and K");
    for (size_t i = 0; i < o->n; i++) *scale += o->scale[i] * ls_line_value(h->w, o->weight[i]);
    return all;
}

/* Each published figure's share of a pool in which they all have that weight. */
static void share_weights(ls_litter_house *h, const char *key, const char *label, ls_line of) {
    for (size_t i = 0; i < h->ways_n; i++)
        h->ways[i].weight =
            LS_PRODUCT(ls_part(h->w, h->ways[i].name, "%s-%zu", key, i + 1), "", label, "%", h->ways[i].weight, of);
}

/* Shown beside each other, each with its share of the whole. */
static void show_ways(ls_litter_house *h, const ls_litter_opinions *contents, ls_line of_pool, ls_line of_contents) {
    share_weights(h, "made.weight", "weight of %s among all published figures", of_pool);
    for (size_t i = 0; i < contents->n; i++) {
        ls_worksheet *w = ls_part(h->w, contents->name[i], "made.contents-%zu", i + 1);
        ls_line weight = LS_PRODUCT(w, "weight", "weight of the %s among all published figures", "%",
                                    contents->weight[i], of_contents);
        ls_litter_add_published(h, contents->name[i], contents->x[i],
                                ls_litter_with_bedding(h, w, "litter", "dry litter by the %s", contents->x[i]), weight);
    }
}

/* Dry droppings of such a house by all published figures. They are figures of houses in general:
 * the more there are, the surer is their middle, but what houses alike differ by stays. */
static ls_line droppings_of_such(ls_litter_house *h) {
    ls_worksheet *w = h->w;
    ls_litter_opinions contents = {0}, all = {0};
    double scale, mean = h->pool_variance;
    ls_line by = by_contents(h, &contents, &scale);
    ls_line middle = h->pooled;
    if (by) {
        double houses = ls_litter_practice(h, "house to house log sd")->value;
        double pool = ls_litter_predictive(h, mean) - houses * houses;
        ls_litter_opine(&all, "the published tons", h->pooled, sqrt(pool));
        ls_litter_opine(&all, "what is excreted of P and K", by, scale);
        middle = pooled(h, &all, "made.general", "dry droppings by the published figures together");
        mean = 1 / (1 / pool + 1 / (scale * scale));
        show_ways(h, &contents, all.weight[0], all.weight[1]);
    }
    double drawn = scale_beside_feed(h, middle);
    ls_line house = ls_litter_house_factor(h, fmax(ls_litter_predictive(h, mean) - drawn * drawn, 0));
    ls_line by_tons =
        LS_PRODUCT(w, "made.by_tons.pooled", "dry droppings by the published tons together", "ton", h->pooled, house);
    h->prior_without =
        ls_litter_with_bedding(h, h->w, "made.by_tons", "dry litter of houses like it, by published tons",
                               LS_LEAST(w, "made.by_tons.droppings",
                                        "dry droppings of houses like it, by published tons, no more than excreted",
                                        "ton", by_tons, h->excreted_dry));
    return LS_PRODUCT(w, "made.droppings", "dry droppings of houses like it, published", "ton", middle, house);
}

/* Never more than was excreted and bedded. */
static void bound(ls_litter_house *h, ls_line litter) {
    ls_line most = ls_litter_with_bedding(h, h->w, "made.most", "dry matter excreted, and the bedding that stays",
                                          h->excreted_dry);
    h->prior = LS_LEAST(h->w, "made.dry", "dry litter of houses like it, published, no more than excreted and bedded",
                        "ton", litter, most);
}

/* The laboratory's content beside what birds are said to excrete tells of this house. With own feed
 * the phosphorus balance is evidence; potassium of one feed and sample would be asked twice. */
static bool tells(const ls_litter_house *h, int e) {
    return !h->by_balance[e] || h->lab_dry[ls_litter_element_nutrient(e)] == LS_NO_LINE;
}

/* P and K of one sample and one feed: the likelier to tell, as they share their errors. */
static void add_report(ls_litter_house *h, ls_litter_opinions *all) {
    size_t best = ELEMENTS;
    ls_line lines[ELEMENTS];
    for (size_t i = 0; i < ELEMENTS; i++) {
        lines[i] = tells(h, elements[i]) ? ls_litter_by_element(h, elements[i]) : LS_NO_LINE;
        bool known = lines[i] != LS_NO_LINE && ls_line_value(h->w, lines[i]) > 0;
        if (known &&
            (best == ELEMENTS || ls_line_log_scale(h->w, lines[i], NULL) < ls_line_log_scale(h->w, lines[best], NULL)))
            best = i;
    }
    if (best < ELEMENTS) ls_litter_opine(all, names[best], lines[best], NAN);
}

void ls_litter_prior(ls_litter_house *h) {
    if (!h->pooled) return;
    ls_litter_opinions all = {0};
    ls_line such = ls_litter_with_bedding(
        h, h->w, "made.litter", "dry litter of houses like it, by the published figures", droppings_of_such(h));
    ls_litter_opine(&all, "the published figures", such, NAN);
    add_report(h, &all);
    ls_arena *a = ls_arena_new();
    ls_ancestors shared = common(h, a, all.x, all.n);
    for (size_t i = 0; i < all.n; i++) all.scale[i] = ls_line_log_scale(h->w, all.x[i], &shared);
    ls_arena_free(a);
    ls_line litter = pooled(h, &all, "made.with_report", "dry litter by the published figures and the report together");
    if (all.n > 1) share_weights(h, "made.weight-with_report", "weight of %s beside the report", all.weight[0]);
    for (size_t i = 1; i < all.n; i++) ls_litter_add_published(h, all.name[i], all.x[i], all.x[i], all.weight[i]);
    h->prior_scale = ls_line_log_scale(h->w, litter, NULL);
    bound(h, litter);
}
