/* What litter of houses in general holds, published: in its dry matter, and in the dry matter of
 * its droppings. */
#include "house.h"

/* ---- what droppings hold, published ---- */

/* The row of the bird's composition table that stands for a house without a report. */
static const ls_row *composition_row(const ls_litter_house *h, int k) {
    return ls_litter_default_row(h, "composition", ls_nutrient_key(k));
}

/* The parts of keys that tell its rows apart: none for the one that stands for the house. */
static const char *of_row(const ls_litter_house *h, const ls_row *row) {
    return row == composition_row(h, LS_N)
               ? ""
               : ls_printf(h->w, "-%s", ls_text_slug(ls_worksheet_arena(h->w), row->name));
}

/* Key of what houses with that composition share. */
static const char *shared_key(const ls_litter_house *h, const ls_row *row, const char *tail) {
    const char *bird = ls_text_slug(ls_worksheet_arena(h->w), ls_bird_tables(h->bird));
    return ls_printf(h->w, "published-%s.litter%s.%s", bird, of_row(h, row), tail);
}

/* Dry share of the published litter. Printed with the content it is exact, as the spread of the
 * content holds that of its water; not printed it is as unsure as that of any such litter. */
static ls_line row_solids(ls_litter_house *h, const ls_row *row) {
    ls_worksheet *w = h->w;
    const ls_figure *printed = ls_row_figure(row, "moisture");
    const ls_figure *f =
        printed ? printed : ls_litter_moisture_figure(h, ls_row_word(row, "manure"));
    const char *key = shared_key(h, row, "solids");
    ls_line known = ls_line_find(w, key);
    if (known != LS_NO_LINE)
        return known;
    ls_origin origin = {LS_BY_TABLE, LS_NOWHERE, f,
                        printed ? "its mean; the spread of the content holds that of its water"
                                : "of any such litter, as none is printed with the content"};
    ls_line water = ls_leaf(w, shared_key(h, row, "moisture"), "moisture of the published litter",
                            "%", f->value, printed ? ls_spread_exact() : f->spread, origin);
    if (!printed)
        water = ls_litter_kept_within(h, shared_key(h, row, "moisture.kept"),
                                      "moisture of the published litter, within bounds", water);
    return ls_complement(w, key, "dry share of the published litter", "%", water);
}

/* Of one nutrient, lb per lb of dry litter: what the houses of the farm share of it, and this
 * house's own part. */
static ls_line in_dry_litter(ls_litter_house *h, const ls_row *row, int k) {
    ls_worksheet *w = h->w;
    const ls_figure *f = ls_row_figure(row, ls_nutrient_key(k));
    const char *name = ls_nutrient_name(k), *id = ls_nutrient_key(k);
    if (!f)
        return LS_NO_LINE;
    double own = ls_litter_practice(h, "within farm content")->value;
    ls_line wet = ls_litter_shared_part(h, shared_key(h, row, id),
                                        ls_printf(w, "%s in such litter, published", name),
                                        "lb/ton", f, own * f->value);
    ls_line house = ls_line_find(w, LS_KEY(h, "content.%s.own", id));
    if (house == LS_NO_LINE)
        house = ls_litter_factor(h, LS_KEY(h, "content.%s.own", id),
                                 ls_printf(w, "how far %s here lies from other houses", name),
                                 "within farm content");
    ls_line there = LS_PRODUCT(w, LS_KEY(h, "content%s.%s.wet", of_row(h, row), id),
                               ls_printf(w, "%s in such litter here", name), "lb/ton", wet, house);
    return ls_quotient(w, LS_KEY(h, "content%s.%s.litter", of_row(h, row), id),
                       ls_printf(w, "%s in the dry matter of such litter", name), "%", there,
                       row_solids(h, row));
}

/* Bedding over droppings in litter of the usual bird. */
static ls_line bedding_over_droppings(ls_litter_house *h) {
    ls_worksheet *w = h->w;
    const char *key = ls_litter_published_key(h, "bedding_over_droppings");
    const ls_figure *usual = ls_litter_bird_figure(h, "bedding");
    ls_line known = ls_line_find(w, key);
    if (known != LS_NO_LINE || !usual || !(usual->value > 0) || h->pool_ratio == LS_NO_LINE)
        return known;
    ls_line bedding =
        LS_PRODUCT(w, ls_litter_published_key(h, "bedding_kept"), "usual bedding a bird that stays",
                   "lb/bird", ls_litter_usual_bedding(h), ls_litter_bedding_stays(h));
    ls_line ratio = ls_leaf_exact(
        w, ls_litter_published_key(h, "over_feed"), "dry droppings over feed, published", "%",
        ls_line_value(w, h->pool_ratio), LS_BY_FIRST_PASS, "the published figures together");
    ls_line droppings =
        LS_PRODUCT(w, ls_litter_published_key(h, "droppings"), "dry droppings of such a bird",
                   "lb/bird", ls_litter_usual_feed(h), ratio);
    return ls_quotient(w, key, "bedding over droppings in such litter", "", bedding, droppings);
}

/* What is kept of a column where manure lies so; of a way that has no such figure the usual one. */
static const ls_figure *kept_figure(const ls_litter_house *h, const char *manure,
                                    const char *column) {
    const ls_table *t = ls_reference_table(h->reference, "kept", ls_bird_name(h->bird));
    for (size_t i = 0; t && i < t->n; i++) {
        const ls_figure *f = ls_row_figure(&t->rows[i], column);
        if (f && ls_text_same(ls_row_word(&t->rows[i], "manure"), manure))
            return f;
    }
    return ls_row_figure(ls_litter_default_row(h, "kept", column), column);
}

static ls_line kept_line(ls_litter_house *h, const char *manure, const char *column) {
    const ls_figure *f = kept_figure(h, manure, column);
    return f ? ls_litter_shared(
                   h, ls_litter_published_key(h, ls_printf(h->w, "kept-%s.%s", manure, column)),
                   ls_printf(h->w, "share of the %s that stays, manure kept as %s",
                             ls_text_same(column, "N") ? "nitrogen" : "dry matter", manure),
                   "%", f)
             : LS_NO_LINE;
}

/* As dry matter rots, what does not rot grows denser, and nitrogen goes to the air: of manure kept
 * in another way than that of the row, times the dry matter left there over that left here; of
 * nitrogen also times what is kept here over what is kept there. LS_NO_LINE: it is kept alike. */
static ls_line rot_factor(ls_litter_house *h, const ls_row *row, int k) {
    const char *told = ls_litter_manure(h), *of_row = ls_row_word(row, "manure");
    if (!told || !of_row || ls_text_same(told, of_row))
        return LS_NO_LINE;
    ls_worksheet *w = h->w;
    const char *key =
        ls_litter_published_key(h, ls_printf(w, "rot-%s.%s", told, ls_nutrient_key(k)));
    ls_line known = ls_line_find(w, key), there = kept_line(h, of_row, "dry_matter"),
            here = kept_line(h, told, "dry_matter");
    if (known != LS_NO_LINE || there == LS_NO_LINE || here == LS_NO_LINE)
        return known;
    static const char label[] = "dry matter left there over that left here";
    if (k != LS_N)
        return ls_quotient(w, key, label, "", there, here);
    ls_line dry = ls_quotient(w, ls_printf(w, "%s.dry", key), label, "", there, here);
    ls_line kept =
        ls_quotient(w, ls_printf(w, "%s.kept", key), "nitrogen kept here over that kept there", "",
                    kept_line(h, told, "N"), kept_line(h, of_row, "N"));
    return LS_PRODUCT(w, key, "how much denser nitrogen is here", "", dry, kept);
}

/* lb per lb of dry droppings. */
static ls_line in_droppings(ls_litter_house *h, const ls_row *row, int k, ls_line in_litter) {
    ls_worksheet *w = h->w;
    const char *id = ls_nutrient_key(k);
    ls_line x[3] = {in_litter, LS_NO_LINE, LS_NO_LINE}, over = bedding_over_droppings(h);
    size_t n = 1;
    if (x[0] == LS_NO_LINE)
        return LS_NO_LINE;
    if (over != LS_NO_LINE) {
        const char *key = ls_litter_published_key(h, "litter_over_droppings");
        ls_line whole = ls_line_find(w, key);
        if (whole == LS_NO_LINE) {
            ls_line one = ls_leaf_exact(w, ls_litter_published_key(h, "one"), "the droppings", "",
                                        1, LS_BY_DEFINITION, NULL);
            whole = LS_SUM(w, key, "litter over droppings in such litter", "", one, over);
        }
        x[n++] = whole;
    }
    ls_line rot = rot_factor(h, row, k);
    if (rot != LS_NO_LINE)
        x[n++] = rot;
    return ls_product(w, LS_KEY(h, "content%s.%s.droppings", of_row(h, row), id),
                      ls_printf(w, "%s in the dry matter of droppings", ls_nutrient_name(k)), "%",
                      x, n);
}

void ls_litter_content(ls_litter_house *h) {
    for (int k = 0; k < LS_NUTRIENTS; k++)
        h->content[k] = h->in_droppings[k] = LS_NO_LINE;
    h->ammonium_share = LS_NO_LINE;
    if (ls_litter_all_reported(h))
        return;
    for (int k = 0; k < LS_NUTRIENTS; k++) {
        const ls_row *row = composition_row(h, k);
        if (k == LS_NH4N || !row)
            continue;
        h->content[k] = in_dry_litter(h, row, k);
        if (h->feed != LS_NO_LINE)
            h->in_droppings[k] = in_droppings(h, row, k, h->content[k]);
    }
    const ls_row *row = ls_litter_default_row(h, "composition", "NH4N_share");
    const ls_figure *share = ls_row_figure(row, "NH4N_share");
    if (share)
        h->ammonium_share = ls_litter_shared(h, shared_key(h, row, "NH4N_share"),
                                             "share of N that is ammonium, published", "%", share);
}

/* Is the water of the row's litter known? Printed, or that of the one way such litter is kept. */
static bool water_known(const ls_litter_house *h, const ls_row *row) {
    return !ls_bird_is(h->bird, LS_MANURE_APART) || ls_row_word(row, "manure") ||
           ls_row_figure(row, "moisture");
}

ls_line ls_litter_content_beside(ls_litter_house *h, int k) {
    const ls_table *t = ls_reference_table(h->reference, "composition", ls_bird_tables(h->bird));
    const ls_row *usual = composition_row(h, k), *beside = NULL;
    if (usual && ls_row_figure(usual, ls_nutrient_key(k)) &&
        !ls_litter_pool_asks(h, ls_row_figure(usual, ls_nutrient_key(k))->source))
        return h->in_droppings[k];
    for (size_t i = 0; t && i < t->n && !beside; i++) {
        const ls_figure *f = ls_row_figure(&t->rows[i], ls_nutrient_key(k));
        if (f && ls_litter_row_fits(h, &t->rows[i]) && water_known(h, &t->rows[i]) &&
            !ls_litter_pool_asks(h, f->source))
            beside = &t->rows[i];
    }
    return beside && h->in_droppings[k] != LS_NO_LINE
               ? in_droppings(h, beside, k, in_dry_litter(h, beside, k))
               : LS_NO_LINE;
}
