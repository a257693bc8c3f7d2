/* What the litter holds: the laboratory's figures as they stand, else the published figures of the
 * bird. */
#include "house.h"

const char *ls_nutrient_name(int nutrient) {
    static const char *const names[] = {"N", "NH4-N", "P2O5", "K2O"};
    return names[nutrient];
}

const char *ls_nutrient_key(int nutrient) {
    static const char *const keys[] = {"N", "NH4N", "P2O5", "K2O"};
    return keys[nutrient];
}

/* The row of the bird's composition table that stands for a farm without a report. */
static const ls_row *published_row(const ls_litter_house *h) {
    const ls_table *t = ls_reference_table(h->reference, "composition",
                                           ls_bird_name(h->bird ? h->bird : LS_BROILER));
    for (size_t i = 0; t && i < t->n; i++)
        if (ls_text_same(ls_row_word(&t->rows[i], "default"), "yes"))
            return &t->rows[i];
    return NULL;
}

static ls_line from_table(ls_litter_house *h, const char *prefix, const ls_row *row, int k) {
    ls_worksheet *w = h->w;
    const ls_figure *f = ls_row_figure(row, ls_nutrient_key(k));
    if (!f)
        return LS_NO_LINE;
    const char *name = ls_nutrient_name(k);
    ls_line figure = ls_leaf_figure(w, ls_words(w, "%s.table.%s", prefix, ls_nutrient_key(k)),
                                    ls_words(w, "%s in such litter, published", name), "lb/ton", f);
    const char *key = ls_words(w, "%s.per_ton.%s", prefix, ls_nutrient_key(k));
    const char *label = ls_words(w, "%s in the litter", name);
    if (f->spread.kind != LS_EXACT)
        return ls_same(w, key, label, "lb/ton", figure);
    ls_line house = ls_litter_factor(
        h, ls_words(w, "%s.table.%s.houses", prefix, ls_nutrient_key(k)),
        "how far one house lies from the published figure", "single composition log sd");
    return LS_PRODUCT(w, key, label, "lb/ton", figure, house);
}

static ls_line ammonium_from_table(ls_litter_house *h, const char *prefix, const ls_row *row,
                                   ls_line nitrogen) {
    const ls_figure *f = ls_row_figure(row, "NH4N_share");
    if (!f)
        return LS_NO_LINE;
    ls_worksheet *w = h->w;
    ls_line share = ls_leaf_figure(w, ls_words(w, "%s.table.NH4N_share", prefix),
                                   "share of N that is ammonium, published", "%", f);
    return LS_PRODUCT(w, ls_words(w, "%s.per_ton.NH4N", prefix), "NH4-N in the litter", "lb/ton",
                      nitrogen, share);
}

/* The published figures of the bird, for what the reports lack. */
static ls_line published(ls_litter_house *h, const char *prefix, const ls_row *row,
                         const ls_analysis *a, int k) {
    if (k != LS_NH4N)
        return from_table(h, prefix, row, k);
    return a->report ? LS_NO_LINE : ammonium_from_table(h, prefix, row, a->per_ton[LS_N]);
}

/* Lines of an analysis: the mean of its reports, or the published figures of the bird. */
static ls_analysis *analysis_of(ls_litter_house *h, const char *prefix,
                                const ls_litter_reports *reports) {
    ls_analysis *out = LS_NEW(ls_worksheet_arena(h->w), ls_analysis, 1);
    *out = (ls_analysis){
        .slug = prefix, .report = reports->latest, .reports = reports->n, .bird = h->bird};
    out->solids = ls_litter_latest_solids(h, prefix, reports);
    const ls_row *row = published_row(h);
    for (int k = 0; k < LS_NUTRIENTS; k++) {
        out->per_ton[k] = ls_litter_reported(h, prefix, reports, k);
        out->reported[k] = out->per_ton[k] != LS_NO_LINE;
        if (!out->reported[k])
            out->per_ton[k] = published(h, prefix, row, out, k);
    }
    return out;
}

/* The mean of one figure over the sides that have it. */
static ls_line over_sides(ls_litter_house *h, const char *what, const char *label, const char *unit,
                          const ls_line *x, size_t n) {
    return n == 0 ? LS_NO_LINE
                  : ls_litter_mean(h, LS_KEY(h, "side-reports.%s", what), label, unit, x, n);
}

/* Reports of single sides; without one of the house their mean stands for its moisture and its
 * phosphorus. True if any side has one. */
static bool side_reports(ls_litter_house *h) {
    ls_worksheet *w = h->w;
    ls_arena *a = ls_worksheet_arena(w);
    size_t n = h->house->sides.n, reported = 0, moist = 0;
    ls_line *phosphate = LS_NEW(a, ls_line, n), *water = LS_NEW(a, ls_line, n);
    h->side_analysis = LS_NEW(a, const ls_analysis *, n);
    for (size_t k = 0; k < n; k++) {
        const ls_side *side = &h->house->sides.at[k];
        ls_litter_reports reports = ls_litter_reports_of(h, &side->lab, side->name.text);
        if (reports.n == 0)
            continue;
        const char *prefix = ls_words(w, "%s.%s", h->slug, side->slug);
        h->side_analysis[k] = analysis_of(h, prefix, &reports);
        phosphate[reported++] = h->side_analysis[k]->per_ton[LS_P2O5];
        water[moist] = ls_litter_lab_moisture(h, prefix, &reports);
        moist += water[moist] != LS_NO_LINE;
    }
    if (reported == 0 || h->house->lab.n > 0)
        return reported > 0;
    h->lab_moisture =
        over_sides(h, "moisture", "moisture by the sides' reports", "%", water, moist);
    h->lab_phosphate =
        over_sides(h, "P2O5", "P2O5 by the sides' reports", "lb/ton", phosphate, reported);
    if (reported < n)
        ls_litter_note(
            h,
            "only some sides have a laboratory report: N-P-K of the others are published figures");
    return true;
}

void ls_litter_analysis(ls_litter_house *h) {
    ls_litter_reports reports = ls_litter_reports_of(h, &h->house->lab, NULL);
    ls_analysis *of_house = analysis_of(h, h->slug, &reports);
    h->analysis = of_house;
    h->lab_moisture = ls_litter_lab_moisture(h, h->slug, &reports);
    h->lab_moisture_sampling =
        reports.n > 1 ? ls_litter_sampling_of_moisture(h, &reports) : LS_NO_LINE;
    h->lab_phosphate = of_house->reported[LS_P2O5] ? of_house->per_ton[LS_P2O5] : LS_NO_LINE;
    bool sides = side_reports(h);
    if (!of_house->report && !sides)
        ls_litter_note(h, "no laboratory report: N-P-K are published figures, not this house's");
}
