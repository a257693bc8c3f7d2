/* Bedding brought in, at the start and on top later: its weight less its water and what rots of it;
 * and the N, P and K in it. */
#include "house.h"

/* A figure of a material: the same wherever it is spread. */
static ls_line of_material(ls_litter_house *h, const ls_bedding *b, const char *column,
                           const char *label, const char *unit) {
    const ls_row *row =
        ls_table_row(ls_reference_table(h->reference, "bedding", ""), b->material.text);
    const char *slug = ls_text_slug(ls_worksheet_arena(h->w), b->material.text);
    return ls_litter_shared(h, ls_printf(h->w, "bedding-%s.%s", slug, column), label, unit,
                            ls_row_figure(row, column));
}

/* lb as brought in: weighed, counted in bales, or by its volume. */
static ls_line weight_of(ls_litter_house *h, const ls_bedding *b, size_t k) {
    ls_worksheet *w = h->w;
    const char *material = b->material.text, *key = LS_KEY(h, "bedding-%zu.weight", k);
    const char *label = ls_printf(w, "weight of the %s brought in", material);
    if (LS_GIVEN(b->weight))
        return ls_leaf_given(w, key, label, "ton", &b->weight);
    if (LS_GIVEN(b->bales)) {
        ls_line bales = ls_leaf_count(w, LS_KEY(h, "bedding-%zu.bales", k),
                                      ls_printf(w, "bales of %s", material), "bale", &b->bales);
        return LS_PRODUCT(
            w, key, label, "lb", bales,
            of_material(h, b, "bale", ls_printf(w, "weight of a bale of %s", material), "lb/bale"));
    }
    ls_line density =
        of_material(h, b, "density", ls_printf(w, "density of %s", material), "lb/ft3");
    if (LS_GIVEN(b->volume)) {
        ls_line volume = ls_leaf_given(w, LS_KEY(h, "bedding-%zu.volume", k),
                                       ls_printf(w, "volume of %s", material), "yd3", &b->volume);
        return LS_PRODUCT(w, key, label, "lb", volume, density);
    }
    ls_line depth = ls_leaf_given(w, LS_KEY(h, "bedding-%zu.depth", k),
                                  ls_printf(w, "depth of %s", material), "in", &b->depth);
    return LS_PRODUCT(w, key, label, "lb", ls_litter_area(h, b->zone.is), depth, density);
}

/* Its dry matter as spread: what it brings of N, P and K stays when some of it rots. */
static ls_line dry_matter(ls_litter_house *h, const ls_bedding *b, size_t k) {
    ls_worksheet *w = h->w;
    ls_line weight = weight_of(h, b, k);
    ls_line water =
        of_material(h, b, "moisture", ls_printf(w, "moisture of %s", b->material.text), "%");
    LS_PRODUCT(w, LS_KEY(h, "bedding-%zu.water", k), "water brought in with the bedding", "lb",
               weight, water);
    ls_line solids = ls_complement(w, LS_KEY(h, "bedding-%zu.solids", k),
                                   "dry share of the bedding", "%", water);
    return LS_PRODUCT(w, LS_KEY(h, "bedding-%zu.spread", k),
                      ls_printf(w, "dry matter of the %s", b->material.text), "lb", weight, solids);
}

/* What is left of it. */
static ls_line left_of(ls_litter_house *h, const ls_bedding *b, size_t k, ls_line spread) {
    ls_worksheet *w = h->w;
    ls_line lost = of_material(h, b, "lost", "share of the bedding that rots in the house", "%");
    ls_line kept = ls_complement(w, LS_KEY(h, "bedding-%zu.kept", k),
                                 "share of the bedding that stays", "%", lost);
    return LS_PRODUCT(w, LS_KEY(h, "bedding-%zu.dry", k),
                      ls_printf(w, "dry bedding left: %s", b->material.text), "lb", spread, kept);
}

static ls_line element_of(ls_litter_house *h, const ls_bedding *b, size_t k, int e,
                          ls_line spread) {
    const char *name = ls_element_name(e);
    ls_line share =
        of_material(h, b, name, ls_printf(h->w, "%s in %s", name, b->material.text), "%");
    return LS_PRODUCT(h->w, LS_KEY(h, "bedding-%zu.%s", k, name),
                      ls_printf(h->w, "%s in the %s", name, b->material.text), "lb", spread, share);
}

/* Nothing is told: the bird's usual pounds, of shavings. */
static void usual_bedding(ls_litter_house *h) {
    const ls_figure *usual = h->bird ? ls_litter_bird_figure(h, "bedding") : NULL;
    if (!usual || h->placed == LS_NO_LINE || !(usual->value > 0))
        return;
    ls_worksheet *w = h->w;
    ls_bedding shavings = {.material = {"shavings", LS_NOWHERE}};
    ls_line each = ls_litter_usual_bedding(h);
    ls_line spread = LS_PRODUCT(w, LS_KEY(h, "bedding-usual.spread"), "usual bedding, dry", "lb",
                                h->placed, each);
    h->bedding = LS_PRODUCT(w, LS_KEY(h, "bedding"), "dry bedding left in the litter", "lb", spread,
                            ls_litter_bedding_stays(h));
    for (int e = 0; e < LS_ELEMENTS; e++) {
        ls_line share = of_material(h, &shavings, ls_element_name(e),
                                    ls_printf(w, "%s in shavings", ls_element_name(e)), "%");
        h->in_bedding[e] =
            LS_PRODUCT(w, LS_KEY(h, "bedding.%s", ls_element_name(e)),
                       ls_printf(w, "%s in the bedding", ls_element_name(e)), "lb", spread, share);
    }
    ls_litter_note(h,
                   "no bedding is given: the usual %s lb of dry bedding a bird is counted. Write "
                   "\"bedding: none\" if there was none",
                   ls_number_text(ls_worksheet_arena(w), usual->value, 3));
}

/* Usual dry bedding a bird, as brought in; the share of it that stays when some of it rots. */
ls_line ls_litter_usual_bedding(ls_litter_house *h) {
    return ls_litter_shared(h, ls_litter_published_key(h, "bedding"), "usual dry bedding a bird",
                            "lb/bird", ls_litter_bird_figure(h, "bedding"));
}

ls_line ls_litter_bedding_stays(ls_litter_house *h) {
    ls_bedding shavings = {.material = {"shavings", LS_NOWHERE}};
    ls_line lost =
        of_material(h, &shavings, "lost", "share of the bedding that rots in the house", "%");
    static const char key[] = "bedding-shavings.stays";
    ls_line known = ls_line_find(h->w, key);
    return known != LS_NO_LINE
               ? known
               : ls_complement(h->w, key, "share of the bedding that stays", "%", lost);
}

void ls_litter_bedding(ls_litter_house *h) {
    size_t n = h->house->bedding.n;
    ls_arena *a = ls_worksheet_arena(h->w);
    h->bedding = LS_NO_LINE;
    ls_line *dry = LS_NEW(a, ls_line, n), *of[LS_ELEMENTS];
    for (int e = 0; e < LS_ELEMENTS; e++) {
        h->in_bedding[e] = LS_NO_LINE;
        of[e] = LS_NEW(a, ls_line, n);
    }
    if (n == 0) {
        if (!LS_GIVEN(h->house->no_bedding))
            usual_bedding(h);
        return;
    }
    for (size_t k = 0; k < n; k++) {
        const ls_bedding *b = &h->house->bedding.at[k];
        ls_line spread = dry_matter(h, b, k + 1);
        dry[k] = left_of(h, b, k + 1, spread);
        for (int e = 0; e < LS_ELEMENTS; e++)
            of[e][k] = element_of(h, b, k + 1, e, spread);
    }
    h->bedding = ls_sum(h->w, LS_KEY(h, "bedding"), "dry bedding left in the litter", "lb", dry, n);
    for (int e = 0; e < LS_ELEMENTS; e++)
        h->in_bedding[e] =
            ls_sum(h->w, LS_KEY(h, "bedding.%s", ls_element_name(e)),
                   ls_printf(h->w, "%s in the bedding", ls_element_name(e)), "lb", of[e], n);
}

ls_line ls_litter_with_bedding(ls_litter_house *h, const char *key, const char *label,
                               ls_line droppings) {
    return h->bedding == LS_NO_LINE ? ls_same(h->w, key, label, "ton", droppings)
                                    : LS_SUM(h->w, key, label, "ton", droppings, h->bedding);
}

ls_line ls_litter_less_bedding(ls_worksheet *w, const char *prefix, const char *of,
                               const char *rest_label, const char *label, ls_line litter,
                               ls_line bedding) {
    if (bedding == LS_NO_LINE)
        return litter;
    ls_line part = ls_leaf_exact(w, ls_printf(w, "%s.least_part", prefix), "a twentieth", "", 0.05,
                                 LS_BY_DEFINITION, "droppings are no less of litter");
    ls_line least = LS_PRODUCT(w, ls_printf(w, "%s.least", prefix),
                               ls_printf(w, "a twentieth of %s", of), "ton", litter, part);
    ls_line rest = ls_difference(w, ls_printf(w, "%s.less_bedding", prefix), rest_label, "ton",
                                 litter, bedding);
    return LS_GREATEST(w, ls_printf(w, "%s.droppings", prefix), label, "ton", rest, least);
}
