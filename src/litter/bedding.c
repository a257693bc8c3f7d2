/* Bedding brought in, at the start and on top later: its weight less its water and what rots of it;
 * and the N, P and K in it. */
#include "house.h"

/* A figure of a material: the same wherever it is spread. */
static ls_line of_material(ls_litter_house *h, const char *material, const char *column, const char *label,
                           const char *unit) {
    const ls_row *row = ls_table_row(ls_reference_table(h->reference, "bedding", ""), material);
    ls_worksheet *w = ls_part(h->all, material, "bedding-%s", ls_text_slug(h->arena, material));
    return ls_leaf_figure(w, column, label, unit, ls_row_figure(row, column));
}

static ls_line lost_of(ls_litter_house *h, const char *material) {
    return of_material(h, material, "lost", "share of the bedding that rots in the house", "%");
}

/* lb as brought in: weighed, counted in bales, or by its volume. */
static ls_line weight_of(ls_litter_house *h, const ls_bedding *b, ls_worksheet *w) {
    const char *material = b->material.text;
    static const char label[] = "weight of the %s brought in";
    if (LS_GIVEN(b->weight)) return ls_leaf_given(w, "weight", label, "ton", &b->weight);
    if (LS_GIVEN(b->bales)) {
        ls_line bales = ls_leaf_count(w, "bales", "bales of %s", "bale", &b->bales);
        return LS_PRODUCT(w, "weight", label, "lb", bales,
                          of_material(h, material, "bale", "weight of a bale of %s", "lb/bale"));
    }
    ls_line density = of_material(h, material, "density", "density of %s", "lb/ft3");
    if (LS_GIVEN(b->volume)) {
        ls_line volume = ls_leaf_given(w, "volume", "volume of %s", "yd3", &b->volume);
        return LS_PRODUCT(w, "weight", label, "lb", volume, density);
    }
    ls_line depth = ls_leaf_given(w, "depth", "depth of %s", "in", &b->depth);
    return LS_PRODUCT(w, "weight", label, "lb", ls_litter_area(h, b->zone.is), depth, density);
}

/* What is left of a bedding, and its N, P and K: what it brings of them stays when it rots. */
static ls_line one_bedding(ls_litter_house *h, size_t k, ls_line *of[LS_ELEMENTS]) {
    const ls_bedding *b = &h->house->bedding.at[k];
    const char *material = b->material.text;
    ls_worksheet *w = ls_part(h->w, material, "bedding-%zu", k + 1);
    ls_line weight = weight_of(h, b, w);
    ls_line water = of_material(h, material, "moisture", "moisture of %s", "%");
    LS_PRODUCT(w, "water", "water brought in with the bedding", "lb", weight, water);
    ls_line solids = ls_complement(w, "solids", "dry share of the bedding", "%", water);
    ls_line spread = LS_PRODUCT(w, "spread", "dry matter of the %s", "lb", weight, solids);
    ls_line kept = ls_complement(w, "kept", "share of the bedding that stays", "%", lost_of(h, material));
    ls_line left = LS_PRODUCT(w, "dry", "dry bedding left: %s", "lb", spread, kept);
    for (int e = 0; e < LS_ELEMENTS; e++) {
        const char *name = ls_element_name(e);
        ls_line share = of_material(h, material, name, ls_printf(w, "%s in %%s", name), "%");
        of[e][k] = LS_PRODUCT(w, name, ls_printf(w, "%s in the %%s", name), "lb", spread, share);
    }
    return left;
}

static const char shavings[] = "shavings";
static const char left_label[] = "dry bedding left in the litter";

/* Nothing is told: the bird's usual pounds, of shavings. */
static void usual_bedding(ls_litter_house *h) {
    const ls_figure *usual = h->bird ? ls_litter_bird_figure(h, "bedding") : NULL;
    if (!usual || !h->placed || !(usual->value > 0)) return;
    ls_worksheet *w = h->w;
    ls_line each = ls_litter_usual_bedding(h);
    ls_line spread = LS_PRODUCT(w, "bedding-usual.spread", "usual bedding, dry", "lb", h->placed, each);
    h->bedding = LS_PRODUCT(w, "bedding", left_label, "lb", spread, ls_litter_bedding_stays(h));
    for (int e = 0; e < LS_ELEMENTS; e++) {
        const char *name = ls_element_name(e);
        ls_line share = of_material(h, shavings, name, ls_printf(w, "%s in %%s", name), "%");
        h->in_bedding[e] =
            LS_PRODUCT(ls_part(w, NULL, "bedding"), name, ls_printf(w, "%s in the bedding", name), "lb", spread, share);
    }
    ls_litter_note(h,
                   "no bedding is given: the usual %s lb of dry bedding a bird is counted. Write "
                   "\"bedding: none\" if there was none",
                   ls_number_text(h->arena, usual->value, 3));
}

ls_line ls_litter_usual_bedding(ls_litter_house *h) {
    return ls_leaf_figure(h->published, "bedding", "usual dry bedding a bird", "lb/bird",
                          ls_litter_bird_figure(h, "bedding"));
}

ls_line ls_litter_bedding_stays(ls_litter_house *h) {
    return ls_complement(h->all, "bedding-shavings.stays", "share of the bedding that stays", "%",
                         lost_of(h, shavings));
}

void ls_litter_bedding(ls_litter_house *h) {
    size_t n = h->house->bedding.n;
    if (n == 0 && !LS_GIVEN(h->house->no_bedding)) usual_bedding(h);
    if (n == 0) return;
    ls_line *dry = LS_NEW(h->arena, ls_line, n), *of[LS_ELEMENTS];
    for (int e = 0; e < LS_ELEMENTS; e++) of[e] = LS_NEW(h->arena, ls_line, n);
    for (size_t k = 0; k < n; k++) dry[k] = one_bedding(h, k, of);
    h->bedding = ls_sum(h->w, "bedding", left_label, "lb", dry, n);
    for (int e = 0; e < LS_ELEMENTS; e++)
        h->in_bedding[e] = ls_sum(ls_part(h->w, NULL, "bedding"), ls_element_name(e),
                                  ls_printf(h->w, "%s in the bedding", ls_element_name(e)), "lb", of[e], n);
}

ls_line ls_litter_with_bedding(const ls_litter_house *h, ls_worksheet *w, const char *key, const char *label,
                               ls_line droppings) {
    return h->bedding ? LS_SUM(w, key, label, "ton", droppings, h->bedding) : ls_same(w, key, label, "ton", droppings);
}

ls_line ls_litter_less_bedding(ls_worksheet *w, const char *of, const char *rest_label, const char *label,
                               ls_line litter, ls_line bedding) {
    if (!bedding) return litter;
    ls_line part =
        ls_leaf_exact(w, "least_part", "a twentieth", "", 0.05, LS_BY_DEFINITION, "droppings are no less of litter");
    ls_line least = LS_PRODUCT(w, "least", ls_printf(w, "a twentieth of %s", of), "ton", litter, part);
    ls_line rest = ls_difference(w, "less_bedding", rest_label, "ton", litter, bedding);
    return LS_GREATEST(w, "droppings", label, "ton", rest, least);
}
