/* What the litter holds by laboratory reports, each as received, in oxides, several by their mean;
 * else the published figures of the bird. */
#include "house.h"

#include <gsl/gsl_cdf.h>
#include <math.h>

/* The reports that are averaged. */
typedef struct {
    size_t n;
    const ls_lab **at;
    const ls_lab *latest; /* NULL if n is 0 */
} report_list;

/* The forms in which a report may give a nutrient. */
typedef struct {
    const ls_quantity *oxide, *element; /* element NULL: there is no other form */
    int is;                             /* which element */
} reported_forms;

static reported_forms forms_of(const ls_lab *report, int nutrient) {
    switch (nutrient) {
    case LS_N: return (reported_forms){&report->N, NULL, LS_ELEMENT_N};
    case LS_NH4N: return (reported_forms){&report->NH4N, NULL, LS_ELEMENT_N};
    case LS_P2O5: return (reported_forms){&report->P2O5, &report->P, LS_ELEMENT_P};
    default: return (reported_forms){&report->K2O, &report->K, LS_ELEMENT_K};
    }
}

/* ---- which reports ---- */

static ls_date last_emptied(const ls_house *house) {
    ls_date last = LS_NO_DATE;
    for (size_t i = 0; i < house->last_cleanout.n; i++) {
        ls_date day = house->last_cleanout.at[i].date.day;
        if (last == LS_NO_DATE || day > last) last = day;
    }
    return last;
}

/* All reports of a list; if some are of the litter now in the house, not those before it. */
static report_list reports_of(ls_litter_house *h, const ls_lab_list *list, const char *side) {
    report_list out = {.at = LS_NEW(h->arena, const ls_lab *, list->n)};
    ls_date emptied = last_emptied(h->house);
    for (size_t i = 0; i < list->n; i++)
        if (!out.latest || list->at[i].date.day > out.latest->date.day) out.latest = &list->at[i];
    bool cut = emptied != LS_NO_DATE && out.latest && out.latest->date.day > emptied;
    for (size_t i = 0; i < list->n; i++)
        if (!cut || list->at[i].date.day > emptied) out.at[out.n++] = &list->at[i];
    if (out.n < list->n)
        ls_litter_note(h, "%s%slaboratory reports from before the last cleanout are left out", side ? side : "",
                       side ? ": " : "");
    return out;
}

/* "lab" of a single report, "lab-2" of several. */
static ls_worksheet *part_of(ls_worksheet *w, const char *of, const report_list *reports, size_t i) {
    return reports->n == 1 ? ls_part(w, of, "lab") : ls_part(w, of, "lab-%zu", i + 1);
}

/* ---- means ---- */

static ls_line mean_of(ls_worksheet *w, const char *key, const char *label, const char *unit, const ls_line *x,
                       size_t n) {
    if (n <= 1) return n == 0 ? LS_NO_LINE : x[0];
    ls_line sum = ls_sum(w, ls_printf(w, "%s.sum", key), "sum of the reports", unit, x, n);
    ls_line count = ls_leaf_exact(w, ls_printf(w, "%s.n", key), "reports", "", (double)n, LS_BY_DEFINITION, NULL);
    return ls_quotient(w, key, label, unit, sum, count);
}

/* To squares, those of how far some lines lie off their mean, as shares of it, in terms of one. */
static double squares_of(const ls_worksheet *w, const ls_line *x, size_t n, double one, double squares) {
    double mean = 0;
    for (size_t i = 0; i < n; i++) mean += ls_line_value(w, x[i]) / (double)n;
    for (size_t i = 0; i < n && mean > 0; i++) squares += pow((ls_line_value(w, x[i]) / mean - 1) / one, 2);
    return squares;
}

/* How far the mean of n samples may lie from the litter: of one, the 10 % of practice. Of several, their own scatter,
 * in which the practice counts as one degree of freedom more: two reports that happen to print the same figure do not
 * make it sure, nor do two that differ a little make it less sure than one. With m the mean and s0 the practice, s^2 =
 * (s0^2 + sum (x/m - 1)^2) / n on n degrees of freedom, and the mean has the scale s / sqrt(n) (Student t). */
static ls_line sampling(ls_litter_house *h, ls_worksheet *w, const char *key, const char *label, const ls_line *x,
                        size_t n) {
    if (n == 1) return ls_litter_factor(h, w, key, label, "lab sampling");
    const ls_figure *f = ls_litter_practice(h, "lab sampling");
    double squares = squares_of(w, x, n, 1, f->value * f->value);
    ls_spread spread = ls_spread_student(sqrt(squares / (double)n / (double)n), (double)n);
    spread.low = 1e-9;
    return ls_leaf_by(w, key, label, "", f, 1, spread,
                      ls_printf(w,
                                "a factor of 1: the scatter of %zu samples about their mean, this "
                                "figure counted with them, over the root of their number",
                                n));
}

/* ---- moisture ---- */

static ls_line moisture_of(ls_litter_house *h, ls_worksheet *lab, const ls_lab *report) {
    if (!LS_GIVEN(report->moisture)) return LS_NO_LINE;
    ls_line given = ls_leaf_given(lab, "moisture.given", "moisture given by the laboratory", "%", &report->moisture);
    return ls_litter_kept_within(h, lab, "moisture", "moisture by the laboratory", given);
}

/* Of the reports that give one. */
static size_t moistures(ls_litter_house *h, ls_worksheet *w, const report_list *reports, ls_line *x) {
    size_t n = 0;
    for (size_t i = 0; i < reports->n; i++) {
        x[n] = moisture_of(h, part_of(w, NULL, reports, i), reports->at[i]);
        n += x[n] != LS_NO_LINE;
    }
    return n;
}

static ls_line mean_moisture(ls_litter_house *h, ls_worksheet *w, const report_list *reports) {
    ls_line *x = LS_NEW(h->arena, ls_line, reports->n);
    size_t n = moistures(h, w, reports, x);
    return mean_of(w, "lab.moisture", "mean moisture by the laboratory", "%", x, n);
}

static ls_line sampling_of_moisture(ls_litter_house *h, const report_list *reports) {
    ls_line *x = LS_NEW(h->arena, ls_line, reports->n);
    size_t n = moistures(h, h->w, reports, x);
    return n == 0 ? LS_NO_LINE : sampling(h, h->w, "moisture.sampling", "sampling of the moisture", x, n);
}

/* ---- nutrients ---- */

/* The report's figure as the oxide. */
static ls_line as_oxide(ls_litter_house *h, ls_worksheet *lab, const ls_lab *report, int k) {
    reported_forms f = forms_of(report, k);
    const char *key = ls_printf(lab, "%s.reported", ls_nutrient_key(k));
    static const char label[] = "%s by the laboratory";
    if (LS_GIVEN(*f.oxide)) return ls_leaf_given(lab, key, label, "lb/ton", f.oxide);
    if (!f.element || !LS_GIVEN(*f.element)) return LS_NO_LINE;
    const char *name = ls_element_name(f.is);
    ls_line element = ls_leaf_given(lab, ls_printf(lab, "%s.reported", name),
                                    ls_printf(lab, "%s by the laboratory, the element", name), "lb/ton", f.element);
    return LS_PRODUCT(lab, key, label, "lb/ton", element, ls_litter_oxide_per(h, f.is));
}

/* Dry share of the sample of a report on dry basis; LS_NO_LINE: it is as received. */
static ls_line solids_of(ls_litter_house *h, ls_worksheet *lab, const ls_lab *report) {
    if (report->basis.is != LS_DRY) return LS_NO_LINE;
    return ls_complement(lab, "solids", "dry share of the sample", "%", moisture_of(h, lab, report));
}

static ls_line latest_solids(ls_litter_house *h, ls_worksheet *w, const report_list *reports) {
    for (size_t i = 0; i < reports->n; i++)
        if (reports->at[i] == reports->latest) return solids_of(h, part_of(w, NULL, reports, i), reports->latest);
    return LS_NO_LINE;
}

/* As received: a figure on dry basis times the dry share of the sample. */
static ls_line as_received(ls_litter_house *h, ls_worksheet *lab, const ls_lab *report, int k) {
    ls_line figure = as_oxide(h, lab, report, k);
    ls_line solids = solids_of(h, lab, report);
    return solids ? LS_PRODUCT(lab, ls_printf(lab, "%s.received", ls_nutrient_key(k)),
                               "%s by the laboratory, as received", "lb/ton", figure, solids)
                  : figure;
}

/* Reports farther apart than samples of one litter: chi-square past its 95 % point. */
static void say_apart(ls_litter_house *h, ls_worksheet *w, const ls_line *x, size_t n, int k) {
    double usual = ls_litter_practice(h, "lab sampling")->value;
    if (n < 2 || squares_of(w, x, n, usual, 0) <= gsl_cdf_chisq_Pinv(0.95, (double)(n - 1))) return;
    ls_line most = ls_greatest(w, "most", "%s by the highest report", "lb/ton", x, n);
    ls_line least = ls_least(w, "least", "%s by the lowest report", "lb/ton", x, n);
    ls_litter_note(h,
                   "the lab reports differ more in %s than samples of one litter do, %s to %s "
                   "lb/ton. Check the units and the basis, or take another sample",
                   ls_nutrient_name(k), ls_number_text(h->arena, ls_line_shown(w, least), 3),
                   ls_number_text(h->arena, ls_line_shown(w, most), 3));
}

static ls_line reported(ls_litter_house *h, ls_worksheet *of, const report_list *reports, int k) {
    const char *name = ls_nutrient_name(k), *id = ls_nutrient_key(k);
    ls_worksheet *w = ls_part(of, name, "lab.%s", id);
    ls_line *x = LS_NEW(h->arena, ls_line, reports->n);
    size_t n = 0;
    for (size_t i = 0; i < reports->n; i++) {
        x[n] = as_received(h, part_of(of, name, reports, i), reports->at[i], k);
        n += x[n] != LS_NO_LINE;
    }
    if (n == 0) return LS_NO_LINE;
    say_apart(h, w, x, n, k);
    ls_line mean = mean_of(w, "mean", "mean %s by the laboratory", "lb/ton", x, n);
    ls_line factor = sampling(h, w, "sampling", "sampling of %s", x, n);
    return LS_PRODUCT(ls_part(of, name, "per_ton"), id, "%s in the litter", "lb/ton", mean, factor);
}

/* ---- analyses ---- */

/* Lines of an analysis: the mean of its reports. What no report tells is settled later. */
static ls_analysis *analysis_of(ls_litter_house *h, ls_worksheet *w, const char *slug, const report_list *reports) {
    ls_analysis *out = LS_NEW(h->arena, ls_analysis, 1);
    *out = (ls_analysis){.slug = slug, .report = reports->latest, .reports = reports->n, .bird = h->bird};
    out->solids = latest_solids(h, w, reports);
    out->moisture = mean_moisture(h, w, reports);
    for (int k = 0; k < LS_NUTRIENTS; k++) {
        out->per_ton[k] = reported(h, w, reports, k);
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
        report_list reports = reports_of(h, &side->lab, side->name.text);
        if (reports.n == 0) continue;
        h->side_analysis[k] =
            analysis_of(h, ls_litter_lot_part(h, k), ls_printf(h->w, "%s.%s", h->slug, side->slug), &reports);
        reported++;
        water[moist] = h->side_analysis[k]->moisture;
        moist += water[moist] != LS_NO_LINE;
    }
    if (reported == 0 || h->house->lab.n > 0) return reported > 0;
    h->lab_moisture = mean_of(h->w, "side-reports.moisture", "moisture by the sides' reports", "%", water, moist);
    if (reported < n)
        ls_litter_note(h, "only some sides have a laboratory report: N-P-K of the others are published figures");
    return true;
}

void ls_litter_analysis(ls_litter_house *h) {
    report_list reports = reports_of(h, &h->house->lab, NULL);
    h->analysis = analysis_of(h, h->w, h->slug, &reports);
    h->lab_moisture = h->analysis->moisture;
    if (reports.n > 1) h->lab_moisture_sampling = sampling_of_moisture(h, &reports);
    bool sides = side_reports(h);
    if (!h->analysis->report && !sides)
        ls_litter_note(h, "no laboratory report: N-P-K are published figures, not this house's");
}

/* ---- on the dry matter ---- */

/* Of the sample: a report without a moisture is taken to be of litter as moist as the house. */
static void on_dry(ls_litter_house *h, ls_worksheet *of, ls_analysis *a) {
    ls_line solids =
        ls_complement(of, "sample.solids", "dry share of the sample", "%", a->moisture ? a->moisture : h->moisture);
    for (int k = 0; k < LS_NUTRIENTS; k++)
        if (a->reported[k])
            a->per_dry[k] = ls_quotient(ls_part(of, ls_nutrient_name(k), "sample"), ls_nutrient_key(k),
                                        "%s in the dry matter of the sample", "%", a->per_ton[k], solids);
}

bool ls_litter_all_reported(const ls_litter_house *h) {
    if (h->analysis->report) return true;
    for (size_t k = 0; k < h->house->sides.n; k++)
        if (!h->side_analysis[k]) return false;
    return h->house->sides.n > 0;
}

void ls_litter_dry_basis(ls_litter_house *h) {
    size_t n = h->house->sides.n;
    ls_line *x = LS_NEW(h->arena, ls_line, n);
    if (h->analysis->report) on_dry(h, h->w, h->analysis);
    for (size_t i = 0; i < n; i++)
        if (h->side_analysis[i]) on_dry(h, ls_litter_lot_part(h, i), h->side_analysis[i]);
    for (int k = 0; k < LS_NUTRIENTS; k++) {
        size_t sides = 0;
        for (size_t i = 0; i < n && !h->analysis->report; i++)
            if (h->side_analysis[i] && h->side_analysis[i]->reported[k]) x[sides++] = h->side_analysis[i]->per_dry[k];
        h->lab_dry[k] = sides == 0 ? h->analysis->per_dry[k]
                                   : mean_of(ls_part(h->w, NULL, "side-reports"), ls_nutrient_key(k),
                                             "in the dry matter, by the sides' reports", "%", x, sides);
    }
}

void ls_litter_publish(ls_litter_house *h, const ls_line *per_dry) {
    if (h->analysis->report) return;
    ls_line solids = ls_litter_solids(h);
    for (int k = 0; k < LS_NUTRIENTS; k++) {
        h->analysis->per_dry[k] = per_dry[k];
        h->analysis->per_ton[k] = LS_PRODUCT(ls_part(h->w, ls_nutrient_name(k), "per_ton"), ls_nutrient_key(k),
                                             "%s in the litter", "lb/ton", per_dry[k], solids);
    }
}
