/* Houses in general: dry droppings found per pound of feed, by every published figure that fits the bird, pooled by
 * random effects on the log scale and carried by the feed eaten here. Never more than was excreted. */
#include "house.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_roots.h>
#include <math.h>
#include <string.h>

/* A published figure as droppings over feed. */
typedef struct {
    const char *name;
    ls_line ratio;
    const ls_source *source;
} method;

typedef LS_LIST(method) method_list;

/* ---- one figure ---- */

/* Share of the feed that is excreted as dry matter, the same for all houses. */
static ls_line excreted_share(ls_litter_house *h) {
    return ls_leaf_figure(h->published, "excreted", "dry matter excreted over feed", "%",
                          ls_litter_bird_figure(h, "excreted_share"));
}

/* Its own bedding, as far as it stays, in the unit of its litter; LS_NO_LINE: none is in it. */
static ls_line own_bedding(ls_litter_house *h, const ls_row *row, ls_worksheet *w, const char *unit) {
    const ls_figure *f = ls_row_figure(row, "own_bedding");
    if (!f || !(f->value > 0)) return LS_NO_LINE;
    const char *per = ls_row_word(row, "per");
    ls_line each = ls_litter_cell(w, row, "own_bedding", "dry bedding a bird in that figure");
    ls_line stays = ls_litter_bedding_stays(h);
    static const char label[] = "its own bedding, as far as it stays";
    if (strcmp(per, "bird") == 0) return LS_PRODUCT(w, "own_bedding_kept", label, unit, each, stays);
    ls_line kept =
        LS_PRODUCT(w, "own_bedding_of_bird", "its own bedding a bird, as far as it stays", "lb/bird", each, stays);
    bool by_weight = strcmp(per, "live-weight") == 0;
    return ls_quotient(w, "own_bedding_kept", label, unit, kept,
                       by_weight ? ls_litter_cell(w, row, "own_weight", "live weight of its own bird")
                                 : ls_litter_cell(w, row, "own_days", "days its own bird stayed"));
}

/* Dry litter of a figure less its own bedding; of a draw in which the bedding is nearly all of it a
 * tenth is taken to be droppings. */
static ls_line own_droppings(ls_litter_house *h, const ls_row *row, ls_worksheet *w) {
    ls_line litter = ls_litter_cell(w, row, "litter", "litter found");
    const char *unit = ls_line_at(w, litter)->unit.text;
    if (ls_text_same(ls_row_word(row, "state"), "wet")) {
        ls_line water = ls_litter_cell(w, row, "moisture", "moisture of that litter");
        ls_line solids = ls_complement(w, "solids", "dry share of that litter", "%", water);
        litter = LS_PRODUCT(w, "dry", "dry litter found", unit, litter, solids);
    }
    ls_line bedding = own_bedding(h, row, w, unit);
    if (!bedding) return litter;
    ls_line tenth = ls_leaf_exact(w, "tenth", "a tenth", "", 0.1, LS_BY_DEFINITION, "droppings are no less of litter");
    ls_line least = LS_PRODUCT(w, "least", "a tenth of that litter", unit, litter, tenth);
    ls_line rest = ls_difference(w, "less_bedding", "dry litter less its own bedding", unit, litter, bedding);
    return LS_GREATEST(w, "droppings", "dry droppings found", unit, rest, least);
}

/* Droppings over feed by one row, never above what is excreted; LS_NO_LINE: its feed is unknown. */
static ls_line ratio_of(ls_litter_house *h, const ls_row *row) {
    ls_worksheet *w = ls_part(h->published, row->name, "%s", ls_text_slug(h->arena, row->name));
    static const char label[] = "dry droppings found over feed, as printed";
    ls_line found;
    if (ls_row_figure(row, "feed_share")) {
        ls_line share = ls_litter_cell(w, row, "feed_share", "dry manure over feed");
        ls_line kept = ls_litter_cell(w, row, "kept", "share of it that stays in the house");
        found = LS_PRODUCT(w, "found_over_feed", label, "%", share, kept);
    } else {
        ls_line feed = ls_litter_own_feed(h, row, w);
        if (!feed) return LS_NO_LINE;
        found = ls_quotient(w, "found_over_feed", label, "%", own_droppings(h, row, w), feed);
    }
    return LS_LEAST(w, "over_feed", "dry droppings over feed, by %s, no more than excreted", "%", found,
                    excreted_share(h));
}

/* What is excreted x the share that stays, unless that share comes from one of the rows above: a
 * source is asked once. */
static void add_balance(ls_litter_house *h, method_list *list) {
    const ls_row *row = ls_litter_default_row(h, "kept", "dry_matter");
    if (!row || !ls_litter_bird_figure(h, "excreted_share")) return;
    const ls_figure *kept = ls_row_figure(row, "dry_matter");
    for (size_t i = 0; i < list->n; i++)
        if (kept->source && list->at[i].source == kept->source) return;
    const char *told = ls_litter_manure(h);
    ls_worksheet *w = ls_part(h->published, NULL, "kept%s%s", told ? "-" : "", told ? told : "");
    ls_line share = ls_leaf_figure(w, "dry_matter", "share of the dry matter excreted that stays", "%", kept);
    ls_line ratio = LS_PRODUCT(w, "over_feed", "dry droppings over feed, by what is excreted and stays", "%",
                               excreted_share(h), share);
    *LS_PUSH(h->arena, list) = (method){"excreted less rot", ratio, kept->source};
}

static bool is_method(const ls_litter_house *h, const ls_row *row) {
    return ls_text_same(ls_row_word(row, "default"), "yes") && ls_litter_row_fits(h, row);
}

bool ls_litter_pool_asks(const ls_litter_house *h, const ls_source *source) {
    const ls_table *t = ls_reference_table(h->reference, "droppings", ls_bird_name(h->bird));
    for (size_t i = 0; t && source && i < t->n; i++)
        if (t->rows[i].source == source && is_method(h, &t->rows[i])) return true;
    return false;
}

static method_list methods_of(ls_litter_house *h) {
    method_list list = {0};
    const ls_table *t = ls_reference_table(h->reference, "droppings", ls_bird_name(h->bird));
    for (size_t i = 0; t && i < t->n && list.n < LS_MOST_METHODS / 2; i++) {
        const ls_row *row = &t->rows[i];
        if (!is_method(h, row)) continue;
        ls_line ratio = ratio_of(h, row);
        if (ratio != LS_NO_LINE) *LS_PUSH(h->arena, &list) = (method){row->name, ratio, row->source};
    }
    add_balance(h, &list);
    return list;
}

/* ---- pooling ---- */

typedef struct {
    size_t n;
    double y[LS_MOST_METHODS], s2[LS_MOST_METHODS]; /* log values and their own variances */
} sample;

/* Weighted mean, and weighted squared deviations less (n - 1), at a variance tau2 between sources.
 */
static double excess(double tau2, void *of) {
    const sample *m = of;
    double sum = 0, mean = 0, q = 0;
    for (size_t i = 0; i < m->n; i++) sum += 1 / (m->s2[i] + tau2), mean += m->y[i] / (m->s2[i] + tau2);
    mean /= sum;
    for (size_t i = 0; i < m->n; i++) q += (m->y[i] - mean) * (m->y[i] - mean) / (m->s2[i] + tau2);
    return q - (double)(m->n - 1);
}

/* Between-source variance of Mandel and Paule (J. Res. NBS 87 (1982) 377): where excess is 0. */
static double between_sources(const sample *m) {
    if (m->n < 2 || excess(0, (void *)(uintptr_t)m) <= 0) return 0;
    double high = 1;
    while (excess(high, (void *)(uintptr_t)m) > 0 && high < 1e6) high *= 4;
    gsl_root_fsolver *solver = gsl_root_fsolver_alloc(gsl_root_fsolver_brent);
    if (!solver) ls_fail("out of memory");
    gsl_function f = {excess, (void *)(uintptr_t)m};
    double root = high;
    if (gsl_root_fsolver_set(solver, &f, 0, high) == GSL_SUCCESS) {
        for (int i = 0; i < 200 && gsl_root_fsolver_iterate(solver) == GSL_SUCCESS; i++) {
            root = gsl_root_fsolver_root(solver);
            if (gsl_root_test_interval(gsl_root_fsolver_x_lower(solver), gsl_root_fsolver_x_upper(solver), 0, 1e-12) ==
                GSL_SUCCESS)
                break;
        }
    }
    gsl_root_fsolver_free(solver);
    return root;
}

/* What houses of one farm share of how far they lie from the published figures: 1, to the power of
 * scale in a house. Whether the sources are right is one question for all of them. Kept within a
 * thousand times, beyond which it tells nothing. */
static ls_line shared_factor(ls_litter_house *h, double scale) {
    ls_worksheet *w = h->w;
    const char *told = ls_litter_manure(h);
    bool unlike = LS_GIVEN(h->house->alike) && !h->house->alike.yes;
    ls_spread spread = ls_spread_lognormal(1);
    spread.low = 1e-12, spread.high = 1e12;
    ls_line unit =
        ls_leaf(unlike ? w : h->published,
                unlike ? "made.unlike" : ls_printf(w, "together%s%s", told ? "-" : "", told ? told : ""),
                "how far the houses lie from the published figures, together", "", 1, spread,
                (ls_origin){LS_BY_FIRST_PASS, LS_NOWHERE, NULL,
                            "how far such houses lie from the published figures, to the power of its scale"});
    ls_line power = ls_leaf_exact(w, "made.scale", "scale of that on the log scale", "%", scale, LS_BY_FIRST_PASS,
                                  "between-source standard deviation (Mandel and Paule), house to "
                                  "house, and the standard error of the pool, less what one house "
                                  "has of its own; no less than that of a single source");
    ls_line rest = ls_complement(w, "made.scale_rest", "rest of the power", "%", power);
    ls_line one = ls_leaf_exact(w, "made.one", "one", "", 1, LS_BY_DEFINITION, NULL);
    return ls_geomean(w, "made.together", "how far the houses lie from the published figures", "",
                      (const ls_line[]){unit, one}, (const ls_line[]){power, rest}, 2);
}

/* Two houses of one farm differ by the sister spread, so each has half of its square of its own;
 * the rest all houses share. */
ls_line ls_litter_house_factor(ls_litter_house *h, double variance) {
    const ls_figure *sister = ls_litter_practice(h, "sister house");
    double own = fmin(variance, sister->value * sister->value / 2);
    ls_line together = shared_factor(h, sqrt(variance - own));
    ls_line alone =
        ls_leaf_by(h->w, "made.own", "how far this house lies from the others", "", sister, 1,
                   ls_spread_lognormal(sqrt(own)), "what one house has of its own: half the square of this figure");
    return LS_PRODUCT(h->w, "made.house", "how far this house lies from the published figures", "", together, alone);
}

double ls_litter_predictive(const ls_litter_house *h, double mean) {
    double single = ls_litter_practice(h, "single source log sd")->value;
    double houses = ls_litter_practice(h, "house to house log sd")->value;
    return fmax(single * single, mean + houses * houses);
}

static const double least_spread = 0.02; /* no published figure is exact */

/* Pooled droppings over feed; a weight for each method into weight. With tau2 and normalized
 * weights v what houses in general get has the variance tau2 + sum v^2 (s2 + tau2). */
static void pool(ls_litter_house *h, const method_list *list, ls_line *weight) {
    ls_worksheet *w = h->w;
    sample m = {.n = list->n};
    ls_line x[LS_MOST_METHODS];
    for (size_t i = 0; i < list->n; i++) {
        x[i] = list->at[i].ratio;
        m.y[i] = log(ls_line_value(w, x[i]));
        m.s2[i] = pow(fmax(ls_line_log_scale(w, x[i], NULL), least_spread), 2);
    }
    double tau2 = between_sources(&m), v[LS_MOST_METHODS], sum = 0;
    for (size_t i = 0; i < m.n; i++) sum += v[i] = 1 / (m.s2[i] + tau2);
    h->pool_variance = tau2 + 1 / sum;
    for (size_t i = 0; i < m.n; i++) {
        const char *name = list->at[i].name;
        ls_worksheet *of = ls_part(w, name, "made-%s", ls_text_slug(h->arena, name));
        v[i] /= sum;
        weight[i] = ls_leaf_exact(of, "weight_in_pool", "weight of %s among the published figures of tons", "%", v[i],
                                  LS_BY_FIRST_PASS, "inverse of its own variance plus the between-source variance");
    }
    h->pool_ratio = ls_geomean(w, "made.over_feed", "dry droppings over feed by the published figures together", "%", x,
                               weight, m.n);
}

/* "3": how many times the published methods lie apart. */
static void say_apart(ls_litter_house *h, const method_list *list) {
    double least = INFINITY, most = 0;
    for (size_t i = 0; i < list->n; i++) {
        least = fmin(least, ls_line_value(h->w, list->at[i].ratio));
        most = fmax(most, ls_line_value(h->w, list->at[i].ratio));
    }
    if (list->n > 1 && most > 1.5 * least)
        ls_litter_note(h, "published figures differ %s-fold: measure the house to settle the tons",
                       ls_number_text(h->arena, most / least, 2));
}

void ls_litter_droppings(ls_litter_house *h) {
    ls_worksheet *w = h->w;
    if (h->bird == 0 || !h->feed) return;
    h->excreted_dry = LS_PRODUCT(w, "excreted.dry", "dry matter excreted in all", "ton", h->feed, excreted_share(h));
    method_list list = methods_of(h);
    ls_line weight[LS_MOST_METHODS];
    if (list.n == 0) return;
    pool(h, &list, weight);
    h->pooled = LS_PRODUCT(w, "made.pooled", "dry droppings by published tons", "ton", h->feed, h->pool_ratio);
    for (size_t i = 0; i < list.n; i++) {
        const method *m = &list.at[i];
        const char *part = ls_printf(w, "made-%s", ls_text_slug(h->arena, m->name));
        ls_line alone = LS_PRODUCT(w, ls_printf(w, "%s.droppings", part), ls_printf(w, "dry droppings, by %s", m->name),
                                   "ton", h->feed, m->ratio);
        ls_line dry = ls_litter_with_bedding(h, h->w, ls_printf(w, "%s.dry", part),
                                             ls_printf(w, "dry litter, by %s", m->name), alone);
        ls_litter_add_published(h, m->name, m->ratio, dry, weight[i]);
    }
    say_apart(h, &list);
    if (h->house->manure.is == LS_MANURE_BELT)
        ls_litter_note(h, "belts take the manure out all along. The tons are all that came since the last "
                          "cleanout, wherever it is now. Write what left the store under already_out");
}
