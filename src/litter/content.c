/* What litter of houses in general holds, published: in its dry matter, and that of droppings. */
#include "house.h"

/* ---- what droppings hold, published ---- */

/* The row of the bird's composition table that stands for a house without a report. */
static const ls_row *composition_row(const ls_litter_house *h, int k) {
    return ls_litter_default_row(h, "composition", ls_nutrient_key(k));
}

/* The parts of keys that tell its rows apart: none for the one that stands for the house. */
static const char *of_row(const ls_litter_house *h, const ls_row *row) {
    return row == composition_row(h, LS_N) ? "" : ls_printf(h->w, "-%s", ls_text_slug(h->arena, row->name));
}

/* Of what houses with that composition share; of: what of it. */
static ls_worksheet *shared_part(const ls_litter_house *h, const ls_row *row, const char *of) {
    return ls_part(h->all, of, "published-%s.litter%s", ls_text_slug(h->arena, ls_bird_tables(h->bird)),
                   of_row(h, row));
}

/* Dry share of the published litter. Printed with the content it is exact, as the spread of the
 * content holds that of its water; not printed it is as unsure as that of any such litter. */
static ls_line row_solids(ls_litter_house *h, const ls_row *row) {
    ls_worksheet *w = shared_part(h, row, NULL);
    const ls_figure *printed = ls_row_figure(row, "moisture");
    const ls_figure *f = printed ? printed : ls_litter_moisture_figure(h, ls_row_word(row, "manure"));
    ls_line known = ls_line_find(w, "solids"); /* kept within bounds that the first house made */
    if (known) return known;
    ls_line water = ls_leaf_by(w, "moisture", "moisture of the published litter", "%", f, f->value,
                               printed ? ls_spread_exact() : f->spread,
                               printed ? "its mean; the spread of the content holds that of its water"
                                       : "of any such litter, as none is printed with the content");
    if (!printed)
        water = ls_litter_kept_within(h, w, "moisture.kept", "moisture of the published litter, within bounds", water);
    return ls_complement(w, "solids", "dry share of the published litter", "%", water);
}

/* lb of a nutrient per lb of dry litter: what the farm's houses share, and this one's part. */
static ls_line in_dry_litter(ls_litter_house *h, const ls_row *row, int k) {
    const ls_figure *f = ls_row_figure(row, ls_nutrient_key(k));
    const char *name = ls_nutrient_name(k), *id = ls_nutrient_key(k);
    if (!f) return LS_NO_LINE;
    ls_worksheet *w = ls_part(h->w, name, "content%s.%s", of_row(h, row), id);
    double own = ls_litter_practice(h, "within farm content")->value;
    ls_line wet = ls_litter_shared_part(shared_part(h, row, name), id, "%s in such litter, published", "lb/ton", f,
                                        own * f->value);
    ls_line house = ls_litter_factor(h, ls_part(h->w, name, "content.%s", id), "own",
                                     "how far %s here lies from other houses", "within farm content");
    ls_line there = LS_PRODUCT(w, "wet", "%s in such litter here", "lb/ton", wet, house);
    return ls_quotient(w, "litter", "%s in the dry matter of such litter", "%", there, row_solids(h, row));
}

/* Bedding over droppings in litter of the usual bird. */
static ls_line bedding_over_droppings(ls_litter_house *h) {
    ls_worksheet *w = h->published;
    const ls_figure *usual = ls_litter_bird_figure(h, "bedding");
    ls_line known = ls_line_find(w, "bedding_over_droppings"); /* by the first house's pool */
    if (known || !usual || !(usual->value > 0) || !h->pool_ratio) return known;
    ls_line bedding = LS_PRODUCT(w, "bedding_kept", "usual bedding a bird that stays", "lb/bird",
                                 ls_litter_usual_bedding(h), ls_litter_bedding_stays(h));
    ls_line ratio = ls_leaf_exact(w, "over_feed", "dry droppings over feed, published", "%",
                                  ls_line_value(w, h->pool_ratio), LS_BY_FIRST_PASS, "the published figures together");
    ls_line droppings =
        LS_PRODUCT(w, "droppings", "dry droppings of such a bird", "lb/bird", ls_litter_usual_feed(h), ratio);
    return ls_quotient(w, "bedding_over_droppings", "bedding over droppings in such litter", "", bedding, droppings);
}

/* What is kept of a column where manure lies so; of a way that has no such figure the usual one. */
static const ls_figure *kept_figure(const ls_litter_house *h, const char *manure, const char *column) {
    const ls_table *t = ls_reference_table(h->reference, "kept", ls_bird_name(h->bird));
    for (size_t i = 0; t && i < t->n; i++) {
        const ls_figure *f = ls_row_figure(&t->rows[i], column);
        if (f && ls_text_same(ls_row_word(&t->rows[i], "manure"), manure)) return f;
    }
    return ls_row_figure(ls_litter_default_row(h, "kept", column), column);
}

static ls_line kept_line(ls_litter_house *h, const char *manure, const char *column) {
    const ls_figure *f = kept_figure(h, manure, column);
    ls_worksheet *w = ls_part(h->published, manure, "kept-%s", manure);
    ls_line known = ls_line_find(w, column); /* where the pool asks for it too */
    if (known || !f) return known;
    return ls_leaf_figure(w, column,
                          ls_text_same(column, "N") ? "share of the nitrogen that stays, manure kept as %s"
                                                    : "share of the dry matter that stays, manure kept as %s",
                          "%", f);
}

/* As dry matter rots, what does not rot grows denser, and nitrogen goes to the air: of manure kept
 * in another way than that of the row, times the dry matter left there over that left here; of
 * nitrogen also times what is kept here over what is kept there. LS_NO_LINE: it is kept alike. */
static ls_line rot_factor(ls_litter_house *h, const ls_row *row, int k) {
    const char *told = ls_litter_manure(h), *of_row = ls_row_word(row, "manure");
    if (!told || !of_row || ls_text_same(told, of_row)) return LS_NO_LINE;
    ls_worksheet *w = ls_part(h->published, NULL, "rot-%s.%s", told, ls_nutrient_key(k));
    ls_line known = ls_line_find(w, ""); /* by the first house's row */
    ls_line there = kept_line(h, of_row, "dry_matter"), here = kept_line(h, told, "dry_matter");
    if (known) return known;
    static const char label[] = "dry matter left there over that left here";
    if (k != LS_N || !there || !here) return ls_quotient(w, "", label, "", there, here);
    ls_line dry = ls_quotient(w, "dry", label, "", there, here);
    ls_line kept = ls_quotient(w, "kept", "nitrogen kept here over that kept there", "", kept_line(h, told, "N"),
                               kept_line(h, of_row, "N"));
    return LS_PRODUCT(w, "", "how much denser nitrogen is here", "", dry, kept);
}

/* lb per lb of dry droppings. */
static ls_line in_droppings(ls_litter_house *h, const ls_row *row, int k, ls_line in_litter) {
    ls_line x[3] = {in_litter}, over = bedding_over_droppings(h);
    size_t n = 1;
    if (!in_litter) return LS_NO_LINE;
    if (over) {
        ls_line one = ls_leaf_exact(h->published, "one", "the droppings", "", 1, LS_BY_DEFINITION, NULL);
        x[n++] = LS_SUM(h->published, "litter_over_droppings", "litter over droppings in such litter", "", one, over);
    }
    x[n] = rot_factor(h, row, k);
    n += x[n] != LS_NO_LINE;
    ls_worksheet *w = ls_part(h->w, ls_nutrient_name(k), "content%s.%s", of_row(h, row), ls_nutrient_key(k));
    return ls_product(w, "droppings", "%s in the dry matter of droppings", "%", x, n);
}

void ls_litter_content(ls_litter_house *h) {
    if (ls_litter_all_reported(h)) return;
    for (int k = 0; k < LS_NUTRIENTS; k++) {
        const ls_row *row = composition_row(h, k);
        if (k == LS_NH4N || !row) continue;
        h->content[k] = in_dry_litter(h, row, k);
        if (h->feed) h->in_droppings[k] = in_droppings(h, row, k, h->content[k]);
    }
    const ls_row *row = ls_litter_default_row(h, "composition", "NH4N_share");
    const ls_figure *share = ls_row_figure(row, "NH4N_share");
    if (share)
        h->ammonium_share = ls_leaf_figure(shared_part(h, row, NULL), "NH4N_share",
                                           "share of N that is ammonium, published", "%", share);
}

/* Is the water of the row's litter known? Printed, or that of the one way such litter is kept. */
static bool water_known(const ls_litter_house *h, const ls_row *row) {
    return !ls_bird_is(h->bird, LS_MANURE_APART) || ls_row_word(row, "manure") || ls_row_figure(row, "moisture");
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
    return beside && h->in_droppings[k] ? in_droppings(h, beside, k, in_dry_litter(h, beside, k)) : LS_NO_LINE;
}
