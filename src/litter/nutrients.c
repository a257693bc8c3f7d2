/* What the litter holds: the laboratory's figures as they stand, else the published figures of the
 * bird. */
#include "house.h"

/* Lines of an analysis: the mean of its reports. What no report tells is settled later. */
static ls_analysis *analysis_of(ls_litter_house *h, const char *prefix,
                                const ls_litter_reports *reports) {
    ls_analysis *out = LS_NEW(ls_worksheet_arena(h->w), ls_analysis, 1);
    *out = (ls_analysis){
        .slug = prefix, .report = reports->latest, .reports = reports->n, .bird = h->bird};
    out->solids = ls_litter_latest_solids(h, prefix, reports);
    out->moisture = ls_litter_lab_moisture(h, prefix, reports);
    for (int k = 0; k < LS_NUTRIENTS; k++) {
        out->per_dry[k] = LS_NO_LINE;
        out->per_ton[k] = ls_litter_reported(h, prefix, reports, k);
        out->reported[k] = out->per_ton[k] != LS_NO_LINE;
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
    ls_line *water = LS_NEW(a, ls_line, n);
    h->side_analysis = LS_NEW(a, ls_analysis *, n);
    for (size_t k = 0; k < n; k++) {
        const ls_side *side = &h->house->sides.at[k];
        ls_litter_reports reports = ls_litter_reports_of(h, &side->lab, side->name.text);
        if (reports.n == 0)
            continue;
        const char *prefix = ls_printf(w, "%s.%s", h->slug, side->slug);
        h->side_analysis[k] = analysis_of(h, prefix, &reports);
        reported++;
        water[moist] = h->side_analysis[k]->moisture;
        moist += water[moist] != LS_NO_LINE;
    }
    if (reported == 0 || h->house->lab.n > 0)
        return reported > 0;
    h->lab_moisture =
        over_sides(h, "moisture", "moisture by the sides' reports", "%", water, moist);
    if (reported < n)
        ls_litter_note(
            h,
            "only some sides have a laboratory report: N-P-K of the others are published figures");
    return true;
}

void ls_litter_analysis(ls_litter_house *h) {
    ls_litter_reports reports = ls_litter_reports_of(h, &h->house->lab, NULL);
    h->analysis = analysis_of(h, h->slug, &reports);
    h->lab_moisture = h->analysis->moisture;
    h->lab_moisture_sampling =
        reports.n > 1 ? ls_litter_sampling_of_moisture(h, &reports) : LS_NO_LINE;
    bool sides = side_reports(h);
    if (!h->analysis->report && !sides)
        ls_litter_note(h, "no laboratory report: N-P-K are published figures, not this house's");
}

/* ---- on the dry matter ---- */

/* Of the sample: a report without a moisture is taken to be of litter as moist as the house. */
static void on_dry(ls_litter_house *h, ls_analysis *a) {
    ls_worksheet *w = h->w;
    ls_line solids =
        ls_complement(w, ls_printf(w, "%s.sample.solids", a->slug), "dry share of the sample", "%",
                      a->moisture != LS_NO_LINE ? a->moisture : h->moisture);
    for (int k = 0; k < LS_NUTRIENTS; k++)
        if (a->reported[k])
            a->per_dry[k] =
                ls_quotient(w, ls_printf(w, "%s.sample.%s", a->slug, ls_nutrient_key(k)),
                            ls_printf(w, "%s in the dry matter of the sample", ls_nutrient_name(k)),
                            "%", a->per_ton[k], solids);
}

bool ls_litter_all_reported(const ls_litter_house *h) {
    if (h->analysis->report)
        return true;
    for (size_t k = 0; k < h->house->sides.n; k++)
        if (!h->side_analysis[k])
            return false;
    return h->house->sides.n > 0;
}

void ls_litter_dry_basis(ls_litter_house *h) {
    ls_worksheet *w = h->w;
    size_t n = h->house->sides.n;
    ls_line *x = LS_NEW(ls_worksheet_arena(w), ls_line, n);
    if (h->analysis->report)
        on_dry(h, h->analysis);
    for (size_t i = 0; i < n; i++)
        if (h->side_analysis[i])
            on_dry(h, h->side_analysis[i]);
    for (int k = 0; k < LS_NUTRIENTS; k++) {
        size_t sides = 0;
        h->lab_dry[k] = h->analysis->per_dry[k];
        for (size_t i = 0; i < n && !h->analysis->report; i++)
            if (h->side_analysis[i] && h->side_analysis[i]->reported[k])
                x[sides++] = h->side_analysis[i]->per_dry[k];
        if (sides > 0)
            h->lab_dry[k] = over_sides(h, ls_nutrient_key(k),
                                       "in the dry matter, by the sides' reports", "%", x, sides);
    }
}

void ls_litter_publish(ls_litter_house *h, const ls_line *per_dry) {
    ls_worksheet *w = h->w;
    if (h->analysis->report)
        return;
    ls_line solids = ls_litter_solids(h);
    for (int k = 0; k < LS_NUTRIENTS; k++) {
        h->analysis->per_dry[k] = per_dry[k];
        if (per_dry[k] != LS_NO_LINE)
            h->analysis->per_ton[k] =
                LS_PRODUCT(w, LS_KEY(h, "per_ton.%s", ls_nutrient_key(k)),
                           ls_printf(w, "%s in the litter", ls_nutrient_name(k)), "lb/ton",
                           per_dry[k], solids);
    }
}
