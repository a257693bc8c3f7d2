/* What the litter holds: the laboratory's figures as they stand, else the published figures of the
 * bird. */
#include "house.h"

/* Lines of an analysis: the mean of its reports. What no report tells is settled later. */
static ls_analysis *analysis_of(ls_litter_house *h, ls_worksheet *w, const char *slug,
                                const ls_litter_reports *reports) {
    ls_analysis *out = LS_NEW(h->arena, ls_analysis, 1);
    *out = (ls_analysis){
        .slug = slug, .report = reports->latest, .reports = reports->n, .bird = h->bird};
    out->solids = ls_litter_latest_solids(h, w, reports);
    out->moisture = ls_litter_lab_moisture(h, w, reports);
    for (int k = 0; k < LS_NUTRIENTS; k++) {
        out->per_ton[k] = ls_litter_reported(h, w, reports, k);
        out->reported[k] = out->per_ton[k] != LS_NO_LINE;
    }
    return out;
}

/* Reports of single sides; without one of the house their mean stands for its moisture and its
 * phosphorus. True if any side has one. */
static bool side_reports(ls_litter_house *h) {
    size_t n = h->house->sides.n, reported = 0, moist = 0;
    ls_line *water = LS_NEW(h->arena, ls_line, n);
    h->side_analysis = LS_NEW(h->arena, ls_analysis *, n);
    for (size_t k = 0; k < n; k++) {
        const ls_side *side = &h->house->sides.at[k];
        ls_litter_reports reports = ls_litter_reports_of(h, &side->lab, side->name.text);
        if (reports.n == 0)
            continue;
        h->side_analysis[k] = analysis_of(h, ls_litter_lot_part(h, k),
                                          ls_printf(h->w, "%s.%s", h->slug, side->slug), &reports);
        reported++;
        water[moist] = h->side_analysis[k]->moisture;
        moist += water[moist] != LS_NO_LINE;
    }
    if (reported == 0 || h->house->lab.n > 0)
        return reported > 0;
    h->lab_moisture = ls_litter_mean(h->w, "side-reports.moisture",
                                     "moisture by the sides' reports", "%", water, moist);
    if (reported < n)
        ls_litter_note(
            h,
            "only some sides have a laboratory report: N-P-K of the others are published figures");
    return true;
}

void ls_litter_analysis(ls_litter_house *h) {
    ls_litter_reports reports = ls_litter_reports_of(h, &h->house->lab, NULL);
    h->analysis = analysis_of(h, h->w, h->slug, &reports);
    h->lab_moisture = h->analysis->moisture;
    if (reports.n > 1)
        h->lab_moisture_sampling = ls_litter_sampling_of_moisture(h, &reports);
    bool sides = side_reports(h);
    if (!h->analysis->report && !sides)
        ls_litter_note(h, "no laboratory report: N-P-K are published figures, not this house's");
}

/* ---- on the dry matter ---- */

/* Of the sample: a report without a moisture is taken to be of litter as moist as the house. */
static void on_dry(ls_litter_house *h, ls_worksheet *of, ls_analysis *a) {
    ls_line solids = ls_complement(of, "sample.solids", "dry share of the sample", "%",
                                   a->moisture ? a->moisture : h->moisture);
    for (int k = 0; k < LS_NUTRIENTS; k++)
        if (a->reported[k])
            a->per_dry[k] =
                ls_quotient(ls_part(of, ls_nutrient_name(k), "sample"), ls_nutrient_key(k),
                            "%s in the dry matter of the sample", "%", a->per_ton[k], solids);
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
    size_t n = h->house->sides.n;
    ls_line *x = LS_NEW(h->arena, ls_line, n);
    if (h->analysis->report)
        on_dry(h, h->w, h->analysis);
    for (size_t i = 0; i < n; i++)
        if (h->side_analysis[i])
            on_dry(h, ls_litter_lot_part(h, i), h->side_analysis[i]);
    for (int k = 0; k < LS_NUTRIENTS; k++) {
        size_t sides = 0;
        for (size_t i = 0; i < n && !h->analysis->report; i++)
            if (h->side_analysis[i] && h->side_analysis[i]->reported[k])
                x[sides++] = h->side_analysis[i]->per_dry[k];
        h->lab_dry[k] =
            sides == 0 ? h->analysis->per_dry[k]
                       : ls_litter_mean(ls_part(h->w, NULL, "side-reports"), ls_nutrient_key(k),
                                        "in the dry matter, by the sides' reports", "%", x, sides);
    }
}

void ls_litter_publish(ls_litter_house *h, const ls_line *per_dry) {
    if (h->analysis->report)
        return;
    ls_line solids = ls_litter_solids(h);
    for (int k = 0; k < LS_NUTRIENTS; k++) {
        h->analysis->per_dry[k] = per_dry[k];
        h->analysis->per_ton[k] =
            LS_PRODUCT(ls_part(h->w, ls_nutrient_name(k), "per_ton"), ls_nutrient_key(k),
                       "%s in the litter", "lb/ton", per_dry[k], solids);
    }
}
