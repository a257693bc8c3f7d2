/* Houses in general: every published method that fits the bird, pooled by random effects on the log
 * scale. */
#include "house.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_roots.h>
#include <math.h>
#include <string.h>

/* ---- the dry matter by one method ---- */

/* What the figure of a method is multiplied by. */
static ls_line base_of(const ls_litter_house *h, const char *per) {
    if (strcmp(per, "hen-day") == 0)
        return h->hen_days;
    if (strcmp(per, "bird-day") == 0 || strcmp(per, "bird-year") == 0)
        return h->bird_days;
    if (strcmp(per, "live-weight") == 0)
        return h->live_weight;
    return h->removed;
}

/* A figure of a method: the same for every house of that bird. */
static ls_line cell(ls_litter_house *h, const ls_row *row, const char *slug, const char *column,
                    const char *label) {
    const ls_figure *f = ls_row_figure(row, column);
    const char *bird = ls_text_slug(ls_worksheet_arena(h->w), ls_bird_name(h->bird));
    return ls_litter_shared(h, ls_words(h->w, "published-%s.%s.%s", bird, slug, column), label,
                            f->unit.text, f);
}

/* A figure printed at two live weights: on the straight line between them, per bird, the end values
 * beyond them. */
static ls_line by_weight(ls_litter_house *h, const ls_row *row, const char *slug) {
    ls_worksheet *w = h->w;
    ls_line light =
        cell(h, row, slug, "weight_low", "the lighter bird of the source"); /* lb: of one bird */
    ls_line heavy = cell(h, row, slug, "weight_high", "the heavier bird of the source");
    ls_line low = cell(h, row, slug, "litter_low", "dry litter of the lighter bird");
    ls_line high = cell(h, row, slug, "litter_high", "dry litter of the heavier bird");
    ls_line bird = ls_leaf_exact(w, LS_KEY(h, "made-%s.bird", slug), "one bird", "bird", 1,
                                 LS_BY_DEFINITION, NULL);
    ls_line flock =
        ls_quotient(w, LS_KEY(h, "made-%s.weight", slug), "live weight of a bird removed",
                    "lb/bird", h->live_weight, h->removed);
    ls_line weight = LS_PRODUCT(w, LS_KEY(h, "made-%s.bird_weight", slug),
                                "live weight of one bird removed", "lb", flock, bird);
    ls_line above = ls_difference(w, LS_KEY(h, "made-%s.above", slug), "above the lighter bird",
                                  "lb", weight, light);
    ls_line span = ls_difference(w, LS_KEY(h, "made-%s.span", slug),
                                 "from the lighter to the heavier bird", "lb", heavy, light);
    ls_line part =
        ls_quotient(w, LS_KEY(h, "made-%s.part", slug), "part of the way", "%", above, span);
    ls_line none = ls_leaf_exact(w, LS_KEY(h, "made-%s.none", slug), "none of the way", "%", 0,
                                 LS_BY_DEFINITION, NULL);
    ls_line all = ls_leaf_exact(w, LS_KEY(h, "made-%s.all", slug), "all of the way", "%", 1,
                                LS_BY_DEFINITION, NULL);
    ls_line way = ls_clip(w, LS_KEY(h, "made-%s.way", slug), "part of the way, within the source",
                          "%", part, none, all);
    ls_line rise = ls_difference(w, LS_KEY(h, "made-%s.rise", slug),
                                 "what the heavier bird makes more", "lb/bird", high, low);
    ls_line more = LS_PRODUCT(w, LS_KEY(h, "made-%s.more", slug), "more than the lighter bird",
                              "lb/bird", rise, way);
    return LS_SUM(w, LS_KEY(h, "made-%s.per_bird", slug), "dry litter per bird", "lb/bird", low,
                  more);
}

/* The shares a method's figure is multiplied by: dry share, share kept, manure over feed. */
static size_t shares_of(ls_litter_house *h, const ls_row *row, const char *slug, ls_line *out) {
    size_t n = 0;
    if (ls_row_figure(row, "moisture") && ls_text_same(ls_row_word(row, "state"), "wet")) {
        ls_line water = cell(h, row, slug, "moisture", "moisture of the published litter");
        out[n++] = ls_complement(h->w, LS_KEY(h, "made-%s.solids", slug),
                                 "dry share of the published litter", "%", water);
    }
    if (ls_row_figure(row, "feed_share"))
        out[n++] = cell(h, row, slug, "feed_share", "dry manure over feed");
    if (ls_row_figure(row, "kept"))
        out[n++] = cell(h, row, slug, "kept", "share of dry matter that stays in the house");
    return n;
}

static ls_line dry_by(ls_litter_house *h, const ls_row *row, const char *slug) {
    ls_worksheet *w = h->w;
    const char *per = ls_row_word(row, "per");
    ls_line base = base_of(h, per);
    if (base == LS_NO_LINE)
        return LS_NO_LINE;
    ls_line x[5] = {base};
    if (strcmp(per, "bird-by-weight") == 0) {
        if (h->live_weight == LS_NO_LINE)
            return LS_NO_LINE;
        x[1] = by_weight(h, row, slug);
    } else {
        x[1] = cell(h, row, slug, "litter", ls_words(w, "litter made, by %s", row->name));
    }
    size_t n = 2 + shares_of(h, row, slug, x + 2);
    if (ls_text_same(ls_row_word(row, "bedding"), "none") && h->bedding != LS_NO_LINE) {
        ls_line manure = ls_product(w, LS_KEY(h, "made-%s.manure", slug),
                                    ls_words(w, "dry manure, by %s", row->name), "ton", x, n);
        return LS_SUM(w, LS_KEY(h, "made-%s.dry", slug),
                      ls_words(w, "dry litter, by %s, with the bedding", row->name), "ton", manure,
                      h->bedding);
    }
    return ls_product(w, LS_KEY(h, "made-%s.dry", slug),
                      ls_words(w, "dry litter, by %s", row->name), "ton", x, n);
}

/* ---- pooling ---- */

typedef struct {
    size_t n;
    double y[LS_MOST_METHODS], s2[LS_MOST_METHODS]; /* log values and their own variances */
} sample;

/* Weighted mean, and sum of weighted squared deviations less (n - 1), at a between-source variance
 * tau2. */
static double excess(double tau2, void *of) {
    const sample *m = of;
    double sum = 0, mean = 0, q = 0;
    for (size_t i = 0; i < m->n; i++)
        sum += 1 / (m->s2[i] + tau2), mean += m->y[i] / (m->s2[i] + tau2);
    mean /= sum;
    for (size_t i = 0; i < m->n; i++)
        q += (m->y[i] - mean) * (m->y[i] - mean) / (m->s2[i] + tau2);
    return q - (double)(m->n - 1);
}

/* Between-source variance by Mandel and Paule (J. Res. NBS 87 (1982) 377): the tau2 at which the
 * excess is 0. */
static double between_sources(const sample *m) {
    if (m->n < 2 || excess(0, (void *)(uintptr_t)m) <= 0)
        return 0;
    double high = 1;
    while (excess(high, (void *)(uintptr_t)m) > 0 && high < 1e6)
        high *= 4;
    gsl_root_fsolver *solver = gsl_root_fsolver_alloc(gsl_root_fsolver_brent);
    if (!solver)
        ls_fail("out of memory");
    gsl_function f = {excess, (void *)(uintptr_t)m};
    double root = high;
    if (gsl_root_fsolver_set(solver, &f, 0, high) == GSL_SUCCESS) {
        for (int i = 0; i < 200 && gsl_root_fsolver_iterate(solver) == GSL_SUCCESS; i++) {
            root = gsl_root_fsolver_root(solver);
            if (gsl_root_test_interval(gsl_root_fsolver_x_lower(solver),
                                       gsl_root_fsolver_x_upper(solver), 0, 1e-12) == GSL_SUCCESS)
                break;
        }
    }
    gsl_root_fsolver_free(solver);
    return root;
}

/* What houses of one farm share of how far they lie from the published figures: 1, to the power of
 * scale in a house. Whether the sources are right is one question for all of them. Kept within a
 * thousand times, beyond which it tells nothing. */
static ls_line shared_factor(ls_litter_house *h, double scale, size_t sources) {
    ls_worksheet *w = h->w;
    bool few = sources >= 2 && sources <= 5;
    const char *bird = ls_text_slug(ls_worksheet_arena(w), ls_bird_name(h->bird));
    const char *key = LS_GIVEN(h->house->alike) && !h->house->alike.yes
                          ? LS_KEY(h, "made.unlike")
                          : ls_words(w, "published-%s.%zu-sources", bird, sources);
    ls_line unit = ls_line_find(w, key);
    if (unit == LS_NO_LINE) {
        ls_spread spread =
            few ? ls_spread_log_student(1, (double)(sources - 1)) : ls_spread_lognormal(1);
        ls_origin origin = {
            LS_BY_FIRST_PASS, LS_NOWHERE, NULL,
            "how far such houses lie from the published figures, to the power of its scale"};
        spread.low = 1e-12, spread.high = 1e12;
        unit = ls_leaf(w, key, "how far the houses lie from the published figures, together", "", 1,
                       spread, origin);
    }
    ls_line power = ls_leaf_exact(w, LS_KEY(h, "made.scale"), "scale of that on the log scale", "%",
                                  scale, LS_BY_FIRST_PASS,
                                  "between-source standard deviation (Mandel and Paule) and the "
                                  "standard error of the pool, less what one "
                                  "house has of its own");
    ls_line rest = ls_complement(w, LS_KEY(h, "made.scale_rest"), "rest of the power", "%", power);
    ls_line one = ls_leaf_exact(w, LS_KEY(h, "made.one"), "one", "", 1, LS_BY_DEFINITION, NULL);
    return ls_geomean(w, LS_KEY(h, "made.together"),
                      "how far the houses lie from the published figures", "",
                      (const ls_line[]){unit, one}, (const ls_line[]){power, rest}, 2);
}

/* How far one house lies from the pool, beyond what the methods' own leaves draw: with tau2 and
 * normalized weights v the predictive variance is tau2 + sum v^2 (s2 + tau2), of which sum v^2 s2
 * is drawn already. Two houses of one farm differ by the sister spread, so each has half of its
 * square of its own; the rest all houses share. */
static ls_line house_factor(ls_litter_house *h, const sample *m, const double *v, double tau2) {
    double v2 = 0, drawn = 0;
    for (size_t i = 0; i < m->n; i++)
        v2 += v[i] * v[i], drawn += v[i] * v[i] * m->s2[i];
    double single = ls_litter_practice(h, "single source log sd")->value;
    double rest = m->n > 1 ? tau2 * (1 + v2) : fmax(0, single * single - drawn);
    h->prior_scale = sqrt(rest + drawn);
    const ls_figure *sister = ls_litter_practice(h, "sister house");
    double own = fmin(rest, sister->value * sister->value / 2);
    ls_worksheet *w = h->w;
    ls_line together = shared_factor(h, sqrt(rest - own), m->n);
    ls_origin origin = {LS_BY_TABLE, LS_NOWHERE, sister,
                        "what one house has of its own: half the square of this figure"};
    ls_line alone = ls_leaf(w, LS_KEY(h, "made.own"), "how far this house lies from the others", "",
                            1, ls_spread_lognormal(sqrt(own)), origin);
    return LS_PRODUCT(w, LS_KEY(h, "made.house"),
                      "how far this house lies from the published figures", "", together, alone);
}

static void pool(ls_litter_house *h) {
    ls_worksheet *w = h->w;
    size_t n = h->ways_n;
    sample m = {.n = n};
    double s[LS_MOST_METHODS];
    ls_litter_weigh(h, 0, n, m.y, s);
    for (size_t i = 0; i < n; i++)
        m.s2[i] = s[i] * s[i];
    double tau2 = between_sources(&m), v[LS_MOST_METHODS], sum = 0;
    for (size_t i = 0; i < n; i++)
        sum += v[i] = 1 / (m.s2[i] + tau2);
    ls_line x[LS_MOST_METHODS], weights[LS_MOST_METHODS];
    for (size_t i = 0; i < n; i++) {
        v[i] /= sum;
        x[i] = h->ways[i].dry;
        weights[i] = h->ways[i].weight = ls_leaf_exact(
            w,
            LS_KEY(h, "made-%s.weight_in_pool",
                   ls_text_slug(ls_worksheet_arena(w), h->ways[i].name)),
            ls_words(w, "weight of %s among the published figures", h->ways[i].name), "%", v[i],
            LS_BY_FIRST_PASS, "inverse of its own variance plus the between-source variance");
    }
    ls_line mean = ls_geomean(w, LS_KEY(h, "made.pool"),
                              "dry litter by the published figures together", "ton", x, weights, n);
    ls_line house = house_factor(h, &m, v, tau2);
    h->prior = LS_PRODUCT(w, LS_KEY(h, "made.dry"), "dry litter of such a house, published", "ton",
                          mean, house);
}

/* "three-fold": how far the published methods lie apart. */
static void say_apart(ls_litter_house *h) {
    double least = INFINITY, most = 0;
    for (size_t i = 0; i < h->ways_n; i++) {
        least = fmin(least, ls_line_value(h->w, h->ways[i].dry));
        most = fmax(most, ls_line_value(h->w, h->ways[i].dry));
    }
    ls_arena *a = ls_worksheet_arena(h->w);
    if (h->ways_n > 1 && most > 1.5 * least)
        ls_litter_note(
            h,
            "the published figures lie %s-fold apart: measuring the house is what settles the tons",
            ls_number_text(a, most / least, 2));
}

void ls_litter_published(ls_litter_house *h) {
    h->ways_n = 0;
    h->prior = h->prior_weight = LS_NO_LINE;
    const ls_table *t =
        h->bird ? ls_reference_table(h->reference, "made", ls_bird_name(h->bird)) : NULL;
    ls_arena *a = ls_worksheet_arena(h->w);
    for (size_t i = 0; t && i < t->n && h->ways_n < LS_MOST_METHODS / 2; i++) {
        if (!ls_text_same(ls_row_word(&t->rows[i], "default"), "yes"))
            continue;
        ls_line dry = dry_by(h, &t->rows[i], ls_text_slug(a, t->rows[i].name));
        if (dry == LS_NO_LINE)
            continue;
        ls_litter_add_way(h, t->rows[i].name, false, dry);
    }
    if (h->ways_n == 0)
        return;
    pool(h);
    say_apart(h);
}
