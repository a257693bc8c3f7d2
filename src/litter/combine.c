/* Evidence updates the published figures: weights by inverse unshared squared spread on the log
 * scale, fixed before drawing. */
#include "house.h"

#include <gsl/gsl_cdf.h>
#include <math.h>

/* The evidence of a house as numbers on the log scale. */
typedef struct {
    size_t n;
    size_t way[LS_MOST_METHODS];
    double y[LS_MOST_METHODS], s[LS_MOST_METHODS];
    double precision, mean; /* of all together */
} evidence;

/* The ways from first on. */
static evidence weigh(const ls_litter_house *h, size_t first) {
    evidence e = {.n = h->ways_n - first};
    for (size_t i = 0; i < e.n; i++)
        e.way[i] = first + i;
    ls_litter_weigh(h, first, h->ways_n, e.y, e.s);
    for (size_t i = 0; i < e.n; i++)
        e.precision += 1 / (e.s[i] * e.s[i]), e.mean += e.y[i] / (e.s[i] * e.s[i]);
    e.mean /= e.n > 0 ? e.precision : 1;
    return e;
}

static size_t first_evidence(const ls_litter_house *h) {
    size_t i = 0;
    while (i < h->ways_n && !h->ways[i].evidence)
        i++;
    return i;
}

/* The pair of ways farthest apart, in their own spreads, in words. */
static void say_disagreement(ls_litter_house *h, const evidence *e, double ratio) {
    size_t a = 0, b = 0;
    double worst = 0;
    for (size_t i = 0; i < e->n; i++)
        for (size_t k = i + 1; k < e->n; k++) {
            double d = fabs(e->y[i] - e->y[k]) / hypot(e->s[i], e->s[k]);
            if (d > worst)
                worst = d, a = e->y[i] > e->y[k] ? i : k, b = e->y[i] > e->y[k] ? k : i;
        }
    const ls_litter_way *high = &h->ways[e->way[a]], *low = &h->ways[e->way[b]];
    ls_worksheet *w = h->w;
    ls_arena *arena = ls_worksheet_arena(w);
    ls_line apart =
        ls_quotient(w, LS_KEY(h, "disagreement.apart"),
                    ls_printf(w, "%s over %s", high->name, low->name), "", high->dry, low->dry);
    ls_line widening =
        ls_leaf_exact(w, LS_KEY(h, "disagreement.ratio"), "how many times the range is widened", "",
                      ratio, LS_BY_FIRST_PASS, "Birge ratio of the evidence");
    ls_litter_caution(
        h, "evidence-apart", "spreads of what was found, Birge ratio",
        "tons by the %s are %s times those by the %s: too far apart for both to be "
        "right. The range is widened %s times. Check figures and units, birds and bird-days, "
        "the bedding, a wet zone, soil scraped up",
        high->name, ls_number_text(arena, ls_line_value(w, apart), 2), low->name,
        ls_number_text(arena, ls_line_value(w, widening), 2));
}

/* Birge ratio of the evidence: 1 unless chi-square is past its 95 % point (Birge, Phys. Rev. 40
 * (1932) 207). */
static double birge(const evidence *e) {
    if (e->n < 2)
        return 1;
    double chi2 = 0;
    for (size_t i = 0; i < e->n; i++)
        chi2 += (e->y[i] - e->mean) * (e->y[i] - e->mean) / (e->s[i] * e->s[i]);
    double df = (double)(e->n - 1);
    return chi2 > gsl_cdf_chisq_Pinv(0.95, df) ? sqrt(chi2 / df) : 1;
}

/* A factor of 1 that widens the spread ratio times: what is drawn already has the log variance s2.
 * what leads the keys. */
static ls_line widened(ls_litter_house *h, ls_line x, double ratio, double s2, const char *what) {
    ls_worksheet *w = h->w;
    ls_arena *a = ls_worksheet_arena(w);
    ls_origin origin = {
        LS_BY_FIRST_PASS, LS_NOWHERE, NULL,
        ls_printf(w, "Birge ratio %s: chi-square of the evidence is past its 95%% point",
                  ls_number_text(a, ratio, 3))};
    ls_line factor =
        ls_leaf(w, LS_KEY(h, "%s.disagreement", what), "widening, as the evidence disagrees", "", 1,
                ls_spread_lognormal(sqrt((ratio * ratio - 1) * s2)), origin);
    return LS_PRODUCT(w, LS_KEY(h, "%s.widened", what), "dry litter, widened", "ton", x, factor);
}

/* The evidence alone; lead: of the keys of its weights. */
static ls_line evidence_mean(ls_litter_house *h, const evidence *e, const char *lead,
                             const char *whose, const char *key, const char *label) {
    ls_worksheet *w = h->w;
    ls_line x[LS_MOST_METHODS], weights[LS_MOST_METHODS];
    for (size_t i = 0; i < e->n; i++) {
        const ls_litter_way *way = &h->ways[e->way[i]];
        x[i] = way->dry;
        weights[i] =
            ls_leaf_exact(w, LS_KEY(h, "%s.weight-%zu", lead, i + 1),
                          ls_printf(w, "weight of the %s in %s evidence", way->name, whose), "%",
                          1 / (e->s[i] * e->s[i]) / e->precision, LS_BY_FIRST_PASS,
                          "inverse of its squared spread");
    }
    return ls_geomean(w, LS_KEY(h, "%s.%s", lead, key), label, "ton", x, weights, e->n);
}

void ls_litter_own_evidence(ls_litter_house *h) {
    evidence e = weigh(h, first_evidence(h));
    h->own_evidence = LS_NO_LINE;
    if (e.n == 0)
        return;
    h->own_evidence = evidence_mean(h, &e, "own-evidence", "this house's", "dry",
                                    "dry litter by this house's own evidence");
    double ratio = birge(&e); /* what disagrees here tells its sisters less too */
    if (ratio > 1)
        h->own_evidence = widened(h, h->own_evidence, ratio, 1 / e.precision, "own-evidence");
}

/* This house's evidence far outside what houses in general make: more than twice the spread of the
 * difference. A house that only hears of its sisters has nothing odd itself. */
static void say_unusual(ls_litter_house *h, const evidence *e) {
    ls_worksheet *w = h->w;
    if (h->prior == LS_NO_LINE || h->own_evidence == LS_NO_LINE ||
        fabs(e->mean - log(ls_line_value(w, h->prior))) <
            2 * hypot(sqrt(1 / e->precision), h->prior_scale))
        return;
    ls_line found = evidence_mean(h, e, "unusual", "the", "found", "dry litter by the evidence");
    ls_line times = ls_quotient(w, LS_KEY(h, "unusual"), "evidence over published figures", "",
                                found, h->prior);
    ls_litter_caution(
        h, "evidence-unusual", "published figures of houses like it, twice their spread",
        "what was found here is %s times what published figures say of such houses. Check the bird "
        "count, the depth and its unit, and the date, tons and bird-days of the last cleanout",
        ls_number_text(ls_worksheet_arena(w), ls_line_value(w, times), 2));
}

static ls_line pooled(ls_litter_house *h, const evidence *e) {
    ls_worksheet *w = h->w;
    ls_line x[LS_MOST_METHODS + 1], weights[LS_MOST_METHODS + 1];
    double sum = h->prior != LS_NO_LINE ? 1 / (h->prior_scale * h->prior_scale) : 0;
    for (size_t i = 0; i < e->n; i++)
        sum += 1 / (e->s[i] * e->s[i]);
    size_t n = 0;
    if (h->prior != LS_NO_LINE) {
        x[n] = h->prior;
        weights[n++] = h->prior_weight =
            ls_leaf_exact(w, LS_KEY(h, "made.weight"), "weight of the published figures", "%",
                          1 / (h->prior_scale * h->prior_scale) / sum, LS_BY_FIRST_PASS,
                          "inverse of the squared predictive scale");
    }
    for (size_t i = 0; i < e->n; i++) {
        ls_litter_way *way = &h->ways[e->way[i]];
        x[n] = way->dry;
        weights[n++] = way->weight = ls_leaf_exact(
            w, LS_KEY(h, "evidence-%zu.weight", i + 1), ls_printf(w, "weight of the %s", way->name),
            "%", 1 / (e->s[i] * e->s[i]) / sum, LS_BY_FIRST_PASS,
            "inverse of its squared spread, what it shares with other evidence left out");
    }
    ls_line mean = ls_geomean(w, LS_KEY(h, "combined"), "dry litter by all that is known", "ton", x,
                              weights, n);
    double ratio = birge(e);
    if (ratio <= 1)
        return mean;
    say_disagreement(h, e, ratio);
    return widened(h, mean, ratio, 1 / sum, "combined");
}

/* More was taken out than all that is known says was made. */
static void say_too_much_out(ls_litter_house *h) {
    const double nearly = 0.9;
    if (h->out == LS_NO_LINE || ls_line_value(h->w, h->out) < nearly * ls_line_value(h->w, h->made))
        return;
    ls_litter_caution(h, "too-much-out", "what is made, by all that is known",
                      "as much litter was taken out before as the house makes, or nearly so. Check "
                      "already_out, and how many flocks it is of");
}

static void from_scale(ls_litter_house *h) {
    ls_worksheet *w = h->w;
    h->wet = h->weighed;
    h->dry = LS_PRODUCT(w, LS_KEY(h, "dry_tons"), "dry litter of the house", "ton", h->weighed,
                        ls_litter_solids(h));
    h->made = h->out == LS_NO_LINE
                  ? h->dry
                  : LS_SUM(w, LS_KEY(h, "weighed.made"), "dry litter weighed and taken out before",
                           "ton", h->dry, h->out);
    h->made_without = h->made;
}

/* ---- dry and wet tons that agree ---- */

/* One way's wet tons, at the published moisture, and their spread on the log scale. */
typedef struct {
    ls_line wet;
    double scale;
} wet_way;

static wet_way wet_of(ls_litter_house *h, size_t k, ls_line dry, ls_line solids, double at_least) {
    ls_worksheet *w = h->w;
    wet_way out = {
        ls_quotient(w, LS_KEY(h, "agreed.wet-%zu", k), "wet litter by one way", "ton", dry, solids),
        0};
    out.scale = fmax(ls_line_log_scale(w, out.wet, NULL), at_least);
    return out;
}

/* Litter of this house surveyed or weighed wet tells the wet tons better than the dry ones where
 * its moisture is less sure than that, and both together tell the moisture. Wet tons are then
 * pooled by their own precision; the moisture of the house becomes what takes the dry tons to them.
 */
static void agree_on_moisture(ls_litter_house *h, const evidence *e) {
    ls_worksheet *w = h->w;
    wet_way x[LS_MOST_METHODS + 1];
    ls_line wet[LS_MOST_METHODS + 1], weights[LS_MOST_METHODS + 1];
    size_t n = 0, told = 0;
    double sum = 0;
    if (h->prior == LS_NO_LINE)
        return;
    ls_line solids =
        ls_complement(w, LS_KEY(h, "agreed.solids"), "dry share, published", "%", h->moisture);
    double water = ls_line_log_scale(w, solids, NULL);
    x[n++] = wet_of(h, 0, h->prior, solids, hypot(h->prior_scale, water));
    for (size_t i = 0; i < e->n; i++) {
        const ls_litter_way *way = &h->ways[e->way[i]];
        double of_dry = hypot(ls_line_log_scale(w, way->dry, NULL), water);
        x[n] = wet_of(h, i + 1, way->dry, solids, way->as_lies ? 0.001 : of_dry);
        told += x[n++].scale < water;
    }
    if (told == 0)
        return;
    for (size_t i = 0; i < n; i++)
        sum += 1 / (x[i].scale * x[i].scale);
    for (size_t i = 0; i < n; i++) {
        wet[i] = x[i].wet;
        weights[i] = ls_leaf_exact(w, LS_KEY(h, "agreed.weight-%zu", i), "weight of its wet tons",
                                   "%", 1 / (x[i].scale * x[i].scale) / sum, LS_BY_FIRST_PASS,
                                   "inverse of its squared spread");
    }
    ls_line all = ls_geomean(w, LS_KEY(h, "agreed.wet"), "wet litter by all that is known", "ton",
                             wet, weights, n);
    ls_line wider = ls_line_find(w, LS_KEY(h, "combined.disagreement"));
    if (wider != LS_NO_LINE)
        all = LS_PRODUCT(w, LS_KEY(h, "agreed.widened"), "wet litter, widened", "ton", all, wider);
    ls_line share =
        ls_quotient(w, LS_KEY(h, "agreed.share"),
                    "dry share that takes the dry tons to the wet ones", "%", h->made, all);
    h->moisture = ls_litter_kept_within(
        h, LS_KEY(h, "agreed.moisture"), "moisture that dry and wet tons agree on",
        ls_complement(w, LS_KEY(h, "agreed.water"), "water beside that share", "%", share));
}

/* By all that tells tons but what birds excrete of an element: for what is found again of it. */
static ls_line without_elements(ls_litter_house *h, const evidence *e) {
    ls_worksheet *w = h->w;
    ls_line x[LS_MOST_METHODS + 1], weights[LS_MOST_METHODS + 1];
    double precision[LS_MOST_METHODS + 1], sum = 0;
    size_t n = 0;
    if (h->prior_without != LS_NO_LINE) {
        double scale = ls_line_log_scale(w, h->prior_without, NULL);
        x[n] = h->prior_without, sum += precision[n++] = 1 / (scale * scale);
    }
    for (size_t i = 0; i < e->n; i++)
        if (!h->ways[e->way[i]].of_element)
            x[n] = h->ways[e->way[i]].dry, sum += precision[n++] = 1 / (e->s[i] * e->s[i]);
    for (size_t i = 0; i < n; i++)
        weights[i] =
            ls_leaf_exact(w, LS_KEY(h, "found.weight-%zu", i + 1),
                          "weight among all that tells tons but the elements", "%",
                          precision[i] / sum, LS_BY_FIRST_PASS, "inverse of its squared spread");
    return n == 0 ? LS_NO_LINE
                  : ls_geomean(w, LS_KEY(h, "found.litter"),
                               "dry litter by all that tells tons but the elements excreted", "ton",
                               x, weights, n);
}

void ls_litter_combine(ls_litter_house *h) {
    ls_worksheet *w = h->w;
    h->dry = h->wet = h->made = h->made_without = LS_NO_LINE;
    if (h->weighed != LS_NO_LINE) {
        from_scale(h);
        return;
    }
    evidence e = weigh(h, first_evidence(h));
    if (h->prior == LS_NO_LINE && e.n == 0)
        return;
    say_unusual(h, &e);
    h->made = pooled(h, &e);
    h->made_without = without_elements(h, &e);
    agree_on_moisture(h, &e);
    ls_line left =
        ls_litter_left(h, LS_KEY(h, "left-in-all"), "dry litter left in the house", h->made);
    h->dry = ls_same(w, LS_KEY(h, "dry_tons"), "dry litter of the house", "ton", left);
    say_too_much_out(h);
    h->wet = ls_quotient(w, LS_KEY(h, "tons"), "litter of the house as hauled", "ton", h->dry,
                         ls_litter_solids(h));
}
