/* What the litter holds: the laboratory's figures as they stand, else the published figures of the
 * bird. */
#include "litter/house.h"

const char *ls_nutrient_name(int nutrient) {
    static const char *const names[] = {"N", "NH4-N", "P2O5", "K2O"};
    return names[nutrient];
}

const char *ls_nutrient_key(int nutrient) {
    static const char *const keys[] = {"N", "NH4N", "P2O5", "K2O"};
    return keys[nutrient];
}

const ls_lab *ls_litter_latest(const ls_lab_list *reports) {
    const ls_lab *latest = NULL;
    for (size_t i = 0; i < reports->n; i++)
        if (!latest || reports->at[i].date.day > latest->date.day)
            latest = &reports->at[i];
    return latest;
}

static const ls_quantity *reported(const ls_lab *report, int nutrient) {
    const ls_quantity *q[] = {&report->N, &report->NH4N, &report->P2O5, &report->K2O};
    return q[nutrient];
}

/* The report's figure as received; a figure on dry basis times the dry share of the sample. */
static ls_line from_report(ls_litter_house *h, const char *prefix, const ls_lab *report, int k,
                           ls_line solids) {
    ls_worksheet *w = h->w;
    const char *name = ls_nutrient_name(k);
    ls_line figure =
        ls_leaf_given(w, ls_words(w, "%s.lab.%s.reported", prefix, ls_nutrient_key(k)),
                      ls_words(w, "%s by the laboratory", name), "lb/ton", reported(report, k));
    if (report->basis.is == LS_DRY)
        figure = LS_PRODUCT(w, ls_words(w, "%s.lab.%s.received", prefix, ls_nutrient_key(k)),
                            ls_words(w, "%s by the laboratory, as received", name), "lb/ton",
                            figure, solids);
    ls_line sampling =
        ls_litter_factor(h, ls_words(w, "%s.lab.%s.sampling", prefix, ls_nutrient_key(k)),
                         ls_words(w, "sampling of %s", name), "lab sampling");
    return LS_PRODUCT(w, ls_words(w, "%s.per_ton.%s", prefix, ls_nutrient_key(k)),
                      ls_words(w, "%s in the litter", name), "lb/ton", figure, sampling);
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

/* Moisture by the laboratory, kept within 0 to 95 %; LS_NO_LINE if the report has none. */
static ls_line lab_moisture(ls_litter_house *h, const char *prefix, const ls_lab *report) {
    if (!LS_GIVEN(report->moisture))
        return LS_NO_LINE;
    ls_worksheet *w = h->w;
    const char *key = ls_words(w, "%s.lab.moisture", prefix);
    ls_line known = ls_line_find(w, key);
    if (known != LS_NO_LINE)
        return known;
    ls_line given = ls_leaf_given(w, ls_words(w, "%s.given", key),
                                  "moisture given by the laboratory", "%", &report->moisture);
    return ls_litter_kept_within(h, key, "moisture by the laboratory", given);
}

const ls_analysis *ls_litter_analysis_of(ls_litter_house *h, const char *prefix,
                                         const ls_lab *report) {
    ls_worksheet *w = h->w;
    ls_analysis *out = LS_NEW(ls_worksheet_arena(w), ls_analysis, 1);
    *out = (ls_analysis){.slug = prefix, .report = report, .bird = h->bird};
    const ls_row *row = published_row(h);
    ls_line solids = LS_NO_LINE;
    if (report && report->basis.is == LS_DRY) {
        ls_line water = lab_moisture(h, prefix, report);
        solids = ls_complement(w, ls_words(w, "%s.lab.solids", prefix), "dry share of the sample",
                               "%", water);
    }
    for (int k = 0; k < LS_NUTRIENTS; k++) {
        if (report && LS_GIVEN(*reported(report, k)))
            out->per_ton[k] = from_report(h, prefix, report, k, solids);
        else if (k == LS_NH4N)
            out->per_ton[k] =
                report ? LS_NO_LINE : ammonium_from_table(h, prefix, row, out->per_ton[LS_N]);
        else
            out->per_ton[k] = from_table(h, prefix, row, k);
        if (report && k != LS_NH4N && !LS_GIVEN(*reported(report, k)))
            ls_litter_note(h, "the laboratory report lacks %s: the published figure is used",
                           ls_nutrient_name(k));
    }
    return out;
}

/* The mean of one figure over the sides that have it. */
static ls_line over_sides(ls_litter_house *h, const char *what, const char *label, const char *unit,
                          const ls_line *x, size_t n) {
    if (n < 2)
        return n == 1 ? x[0] : LS_NO_LINE;
    ls_line sum = ls_sum(h->w, LS_KEY(h, "side-reports.%s.sum", what),
                         "sum over the sides' reports", unit, x, n);
    ls_line count = ls_leaf_exact(h->w, LS_KEY(h, "side-reports.%s.n", what), "reports", "",
                                  (double)n, LS_BY_DEFINITION, NULL);
    return ls_quotient(h->w, LS_KEY(h, "side-reports.%s", what), label, unit, sum, count);
}

/* Reports of single sides; without one of the house their mean stands for its moisture and its
 * phosphorus. */
static void side_reports(ls_litter_house *h, ls_analysis *of_house) {
    ls_worksheet *w = h->w;
    ls_arena *a = ls_worksheet_arena(w);
    size_t n = h->house->sides.n, reports = 0, moist = 0;
    ls_line *phosphate = LS_NEW(a, ls_line, n), *water = LS_NEW(a, ls_line, n);
    h->side_analysis = LS_NEW(a, const ls_analysis *, n);
    for (size_t k = 0; k < n; k++) {
        const ls_side *side = &h->house->sides.at[k];
        const ls_lab *report = ls_litter_latest(&side->lab);
        if (!report)
            continue;
        const char *prefix = ls_words(w, "%s.%s", h->slug, side->slug);
        h->side_analysis[k] = ls_litter_analysis_of(h, prefix, report);
        phosphate[reports++] = h->side_analysis[k]->per_ton[LS_P2O5];
        water[moist] = lab_moisture(h, prefix, report);
        moist += water[moist] != LS_NO_LINE;
        if (!of_house->report)
            of_house->report = report;
    }
    if (reports == 0 || h->house->lab.n > 0)
        return;
    h->lab_moisture =
        over_sides(h, "moisture", "moisture by the sides' reports", "%", water, moist);
    of_house->per_ton[LS_P2O5] =
        over_sides(h, "P2O5", "P2O5 by the sides' reports", "lb/ton", phosphate, reports);
    if (reports < n)
        ls_litter_note(
            h,
            "only some sides have a laboratory report: N-P-K of the others are published figures");
}

void ls_litter_analysis(ls_litter_house *h) {
    const ls_lab *report = ls_litter_latest(&h->house->lab);
    ls_analysis *of_house = LS_NEW(ls_worksheet_arena(h->w), ls_analysis, 1);
    *of_house = *ls_litter_analysis_of(h, h->slug, report);
    h->analysis = of_house;
    h->lab_moisture = report ? lab_moisture(h, h->slug, report) : LS_NO_LINE;
    side_reports(h, of_house);
    if (!of_house->report)
        ls_litter_note(h, "no laboratory report: N-P-K are published figures, not this house's");
}
