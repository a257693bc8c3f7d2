/* Evidence updates the published figures: weights by inverse unshared squared spread on the log
 * scale, fixed before drawing. */
#include "house.h"

#include <gsl/gsl_cdf.h>
#include <math.h>

/* ---- the ways in which the dry tons of a house are known, and how far to trust each ---- */

/* A leaf that is from memory and moves the line by 1 % or more stands behind it. */
static bool is_recalled(const ls_worksheet *w, ls_line line) {
    const double share = 0.01;
    ls_arena *a = ls_arena_new();
    ls_ancestors of = ls_line_ancestors(a, w, line);
    bool recalled = false;
    for (size_t k = 0; k < of.n && !recalled; k++) {
        const ls_entry *e = ls_line_at(w, of.at[k].line);
        const ls_figure *f = e->origin.figure;
        recalled =
            f && f->status == LS_MEMORY &&
            fabs(of.at[k].gradient * ls_spread_scale(e->spread, e->value)) >= share * fabs(ls_line_value(w, line));
    }
    ls_arena_free(a);
    return recalled;
}

ls_litter_way *ls_litter_add_way(ls_litter_house *h, const char *name, bool evidence, ls_line made) {
    if (!made || h->ways_n == LS_MOST_METHODS) return NULL;
    if (!(ls_line_value(h->w, made) > 0)) {
        ls_litter_note(h, "%s is left out: it gives no litter at all. Check the figures it is made of", name);
        return NULL;
    }
    ls_litter_way *way = &h->ways[h->ways_n++];
    *way = (ls_litter_way){.name = name, .evidence = evidence, .memory = is_recalled(h->w, made), .dry = made};
    return way;
}

void ls_litter_add_published(ls_litter_house *h, const char *name, ls_line figure, ls_line made, ls_line weight) {
    ls_litter_way *way = ls_litter_add_way(h, name, false, made);
    if (way) way->weight = weight, way->memory = is_recalled(h->w, figure);
}

/* What a way shares with the others. */
static ls_ancestors shared(ls_arena *a, const ls_ancestors *ways, size_t n, size_t way) {
    ls_ancestors in_two = {0};
    for (size_t k = 0; k < ways[way].n; k++) {
        bool found = false;
        for (size_t i = 0; i < n && !found; i++) found = i != way && ls_line_among(&ways[i], ways[way].at[k].line);
        if (found) *LS_PUSH(a, &in_two) = ways[way].at[k];
    }
    return in_two;
}

/* Of ways [first, n): log of the dry tons into y, and their spread on the log scale into s, leaves
 * that two of them share left out. */
static void log_scales(const ls_litter_house *h, size_t first, size_t n, double *y, double *s) {
    const double least = 0.001; /* keeps the weight of a figure without any spread finite */
    ls_arena *a = ls_arena_new();
    ls_ancestors of[LS_MOST_METHODS];
    for (size_t i = first; i < n; i++) of[i - first] = ls_line_ancestors(a, h->w, h->ways[i].dry);
    for (size_t i = 0; i + first < n; i++) {
        ls_ancestors skip = shared(a, of, n - first, i);
        y[i] = log(ls_line_value(h->w, h->ways[i + first].dry));
        s[i] = fmax(ls_line_log_scale(h->w, h->ways[i + first].dry, &skip), least);
    }
    ls_arena_free(a);
}

void ls_litter_opine(ls_litter_opinions *o, const char *name, ls_line x, double scale) {
    o->name[o->n] = name, o->scale[o->n] = scale;
    o->x[o->n++] = x;
}

/* The sum of the inverses of their squared scales. */
static double precision(const ls_litter_opinions *o) {
    double sum = 0;
    for (size_t i = 0; i < o->n; i++) sum += 1 / (o->scale[i] * o->scale[i]);
    return sum;
}

void ls_litter_give_weights(ls_litter_opinions *o, ls_worksheet *w, const char *key, size_t first, const char *label) {
    double sum = precision(o);
    for (size_t i = 0; i < o->n; i++)
        o->weight[i] =
            ls_leaf_exact(ls_part(w, o->name[i], "%s-%zu", key, i + first), "", label, "%",
                          1 / (o->scale[i] * o->scale[i]) / sum, LS_BY_FIRST_PASS, "inverse of its squared spread");
}

/* The evidence of a house, the ways from first on; on the log scale. */
typedef struct {
    ls_litter_opinions of;
    size_t first;
    double y[LS_MOST_METHODS];
    double mean; /* of all together */
} evidence;

static evidence weigh(const ls_litter_house *h, size_t first) {
    evidence e = {.first = first};
    for (size_t i = first; i < h->ways_n; i++) ls_litter_opine(&e.of, h->ways[i].name, h->ways[i].dry, NAN);
    log_scales(h, first, h->ways_n, e.y, e.of.scale);
    for (size_t i = 0; i < e.of.n; i++) e.mean += e.y[i] / (e.of.scale[i] * e.of.scale[i]);
    e.mean /= e.of.n > 0 ? precision(&e.of) : 1;
    return e;
}

static size_t first_evidence(const ls_litter_house *h) {
    size_t i = 0;
    while (i < h->ways_n && !h->ways[i].evidence) i++;
    return i;
}

/* The pair of ways farthest apart, in their own spreads, in words. */
static void say_disagreement(ls_litter_house *h, const evidence *e, double ratio) {
    size_t a = 0, b = 0;
    double worst = 0;
    for (size_t i = 0; i < e->of.n; i++)
        for (size_t k = i + 1; k < e->of.n; k++) {
            double d = fabs(e->y[i] - e->y[k]) / hypot(e->of.scale[i], e->of.scale[k]);
            if (d > worst) worst = d, a = e->y[i] > e->y[k] ? i : k, b = e->y[i] > e->y[k] ? k : i;
        }
    const ls_litter_way *high = &h->ways[e->first + a], *low = &h->ways[e->first + b];
    ls_worksheet *w = h->w;
    ls_line apart = ls_quotient(w, "disagreement.apart", ls_printf(w, "%s over %s", high->name, low->name), "",
                                high->dry, low->dry);
    ls_line widening = ls_leaf_exact(w, "disagreement.ratio", "how many times the range is widened", "", ratio,
                                     LS_BY_FIRST_PASS, "Birge ratio of the evidence");
    ls_litter_caution(h, "evidence-apart", "spreads of what was found, Birge ratio",
                      "tons by the %s are %s times those by the %s: too far apart for both to be "
                      "right. The range is widened %s times. Check figures and units, birds and "
                      "bird-days, the bedding, a wet zone, soil scraped up",
                      high->name, ls_number_text(h->arena, ls_line_value(w, apart), 2), low->name,
                      ls_number_text(h->arena, ls_line_value(w, widening), 2));
}

/* Birge ratio (Phys. Rev. 40 (1932) 207): 1 unless chi-square is past its 95 % point. */
static double birge(const evidence *e) {
    if (e->of.n < 2) return 1;
    double chi2 = 0;
    for (size_t i = 0; i < e->of.n; i++)
        chi2 += (e->y[i] - e->mean) * (e->y[i] - e->mean) / (e->of.scale[i] * e->of.scale[i]);
    double df = (double)(e->of.n - 1);
    return chi2 > gsl_cdf_chisq_Pinv(0.95, df) ? sqrt(chi2 / df) : 1;
}

/* A factor of 1 that widens the spread ratio times: what is drawn already has the log variance s2.
 * what leads the keys. */
static ls_line widened(ls_litter_house *h, ls_line x, double ratio, double s2, const char *what) {
    ls_worksheet *w = ls_part(h->w, NULL, "%s", what);
    ls_origin origin = {LS_BY_FIRST_PASS, LS_NOWHERE, NULL,
                        ls_printf(w, "Birge ratio %s: chi-square of the evidence is past its 95%% point",
                                  ls_number_text(h->arena, ratio, 3))};
    ls_line factor = ls_leaf(w, "disagreement", "widening, as the evidence disagrees", "", 1,
                             ls_spread_lognormal(sqrt((ratio * ratio - 1) * s2)), origin);
    return LS_PRODUCT(w, "widened", "dry litter, widened", "ton", x, factor);
}

/* The evidence alone. */
static ls_line evidence_mean(ls_worksheet *w, const evidence *e, const char *weight_label, const char *key,
                             const char *label) {
    ls_litter_opinions of = e->of;
    ls_litter_give_weights(&of, w, "weight", 1, weight_label);
    return ls_geomean(w, key, label, "ton", of.x, of.weight, of.n);
}

void ls_litter_own_evidence(ls_litter_house *h) {
    evidence e = weigh(h, first_evidence(h));
    if (e.of.n == 0) return;
    h->own_evidence =
        evidence_mean(ls_part(h->w, NULL, "own-evidence"), &e, "weight of the %s in this house's evidence", "dry",
                      "dry litter by this house's own evidence");
    double ratio = birge(&e); /* what disagrees here tells its sisters less too */
    if (ratio > 1) h->own_evidence = widened(h, h->own_evidence, ratio, 1 / precision(&e.of), "own-evidence");
}

/* This house's evidence far outside what houses in general make: more than twice the spread of the
 * difference. A house that only hears of its sisters has nothing odd itself. */
static void say_unusual(ls_litter_house *h, const evidence *e) {
    ls_worksheet *w = h->w;
    if (!h->prior || !h->own_evidence ||
        fabs(e->mean - log(ls_line_value(w, h->prior))) < 2 * hypot(sqrt(1 / precision(&e->of)), h->prior_scale))
        return;
    ls_line found = evidence_mean(ls_part(w, NULL, "unusual"), e, "weight of the %s in the evidence", "found",
                                  "dry litter by the evidence");
    ls_line times = ls_quotient(w, "unusual", "evidence over published figures", "", found, h->prior);
    ls_litter_caution(h, "evidence-unusual", "published figures of houses like it, twice their spread",
                      "what was found here is %s times what published figures say of such houses. Check the bird "
                      "count, the depth and its unit, and the date, tons and bird-days of the last cleanout",
                      ls_number_text(h->arena, ls_line_value(w, times), 2));
}

static ls_line pooled(ls_litter_house *h, const evidence *e) {
    ls_worksheet *w = h->w;
    ls_line x[LS_MOST_METHODS + 1], weights[LS_MOST_METHODS + 1];
    double sum = h->prior ? 1 / (h->prior_scale * h->prior_scale) : 0;
    for (size_t i = 0; i < e->of.n; i++) sum += 1 / (e->of.scale[i] * e->of.scale[i]);
    size_t n = 0;
    if (h->prior) {
        x[n] = h->prior;
        weights[n++] = h->prior_weight = ls_leaf_exact(w, "made.weight", "weight of the published figures", "%",
                                                       1 / (h->prior_scale * h->prior_scale) / sum, LS_BY_FIRST_PASS,
                                                       "inverse of the squared predictive scale");
    }
    for (size_t i = 0; i < e->of.n; i++) {
        x[n] = e->of.x[i];
        weights[n++] = h->ways[e->first + i].weight =
            ls_leaf_exact(ls_part(w, e->of.name[i], "evidence-%zu", i + 1), "weight", "weight of the %s", "%",
                          1 / (e->of.scale[i] * e->of.scale[i]) / sum, LS_BY_FIRST_PASS,
                          "inverse of its squared spread, what it shares with other evidence left out");
    }
    ls_line mean = ls_geomean(w, "combined", "dry litter by all that is known", "ton", x, weights, n);
    double ratio = birge(e);
    if (ratio <= 1) return mean;
    say_disagreement(h, e, ratio);
    return widened(h, mean, ratio, 1 / sum, "combined");
}

/* More was taken out than all that is known says was made. */
static void say_too_much_out(ls_litter_house *h) {
    const double nearly = 0.9;
    if (!h->out || ls_line_value(h->w, h->out) < nearly * ls_line_value(h->w, h->made)) return;
    ls_litter_caution(h, "too-much-out", "what is made, by all that is known",
                      "as much litter was taken out before as the house makes, or nearly so. Check "
                      "already_out, and how many flocks it is of");
}

static void from_scale(ls_litter_house *h) {
    h->wet = h->weighed;
    h->dry = LS_PRODUCT(h->w, "dry_tons", "dry litter of the house", "ton", h->weighed, ls_litter_solids(h));
    h->made = h->made_without =
        h->out ? LS_SUM(h->w, "weighed.made", "dry litter weighed and taken out before", "ton", h->dry, h->out)
               : h->dry;
}

/* ---- dry and wet tons that agree ---- */

/* One way's wet tons, at the published moisture. */
static double add_wet(ls_litter_opinions *o, ls_worksheet *w, ls_line dry, ls_line solids, double at_least) {
    ls_line wet = ls_quotient(w, ls_printf(w, "wet-%zu", o->n), "wet litter by one way", "ton", dry, solids);
    double scale = fmax(ls_line_log_scale(w, wet, NULL), at_least);
    ls_litter_opine(o, NULL, wet, scale);
    return scale;
}

/* Litter of this house surveyed or weighed wet tells the wet tons better than the dry ones where
 * its moisture is less sure than that, and both together tell the moisture. Wet tons are then
 * pooled by their own precision; the moisture becomes what takes the dry tons to them. */
static void agree_on_moisture(ls_litter_house *h, const evidence *e) {
    ls_worksheet *w = ls_part(h->w, NULL, "agreed");
    ls_litter_opinions wet = {0};
    bool told = false;
    if (!h->prior) return;
    ls_line solids = ls_complement(w, "solids", "dry share, published", "%", h->moisture);
    double water = ls_line_log_scale(w, solids, NULL);
    add_wet(&wet, w, h->prior, solids, hypot(h->prior_scale, water));
    for (size_t i = 0; i < e->of.n; i++) {
        const ls_litter_way *way = &h->ways[e->first + i];
        double of_dry = hypot(ls_line_log_scale(w, way->dry, NULL), water);
        told |= add_wet(&wet, w, way->dry, solids, way->as_lies ? 0.001 : of_dry) < water;
    }
    if (!told) return;
    ls_litter_give_weights(&wet, w, "weight", 0, "weight of its wet tons");
    ls_line all = ls_geomean(w, "wet", "wet litter by all that is known", "ton", wet.x, wet.weight, wet.n);
    ls_line wider = ls_line_find(h->w, "combined.disagreement");
    if (wider) all = LS_PRODUCT(w, "widened", "wet litter, widened", "ton", all, wider);
    ls_line share = ls_quotient(w, "share", "dry share that takes the dry tons to the wet ones", "%", h->made, all);
    ls_line water_beside = ls_complement(w, "water", "water beside that share", "%", share);
    h->moisture = ls_litter_kept_within(h, w, "moisture", "moisture that dry and wet tons agree on", water_beside);
}

/* By all that tells tons but what birds excrete of an element: for what is found again of it. */
static ls_line without_elements(ls_litter_house *h, const evidence *e) {
    ls_worksheet *w = ls_part(h->w, NULL, "found");
    ls_litter_opinions o = {0};
    if (h->prior_without) ls_litter_opine(&o, NULL, h->prior_without, ls_line_log_scale(w, h->prior_without, NULL));
    for (size_t i = 0; i < e->of.n; i++)
        if (!h->ways[e->first + i].of_element) ls_litter_opine(&o, NULL, e->of.x[i], e->of.scale[i]);
    ls_litter_give_weights(&o, w, "weight", 1, "weight among all that tells tons but the elements");
    return o.n == 0 ? LS_NO_LINE
                    : ls_geomean(w, "litter", "dry litter by all that tells tons but the elements excreted", "ton", o.x,
                                 o.weight, o.n);
}

void ls_litter_combine(ls_litter_house *h) {
    if (h->weighed) {
        from_scale(h);
        return;
    }
    evidence e = weigh(h, first_evidence(h));
    if (!h->prior && e.of.n == 0) return;
    say_unusual(h, &e);
    h->made = pooled(h, &e);
    h->made_without = without_elements(h, &e);
    agree_on_moisture(h, &e);
    ls_line left = ls_litter_left(h, "left-in-all", "dry litter left in the house", h->made);
    h->dry = ls_same(h->w, "dry_tons", "dry litter of the house", "ton", left);
    say_too_much_out(h);
    h->wet = ls_quotient(h->w, "tons", "litter of the house as hauled", "ton", h->dry, ls_litter_solids(h));
}
