/* What the cleanouts before tell of this one, in proportion to bird-days. */
#include "house.h"

#include <gsl/gsl_cdf.h>
#include <math.h>

/* Keys of a single cleanout: "last-cleanout.X"; of the k-th of several: "cleanout-K.X". */
static const char *key_of(ls_litter_house *h, size_t k, const char *what) {
    return h->house->last_cleanout.n == 1 ? LS_KEY(h, "last-cleanout.%s", what)
                                          : LS_KEY(h, "cleanout-%zu.%s", k + 1, what);
}

static const char *label_of(ls_litter_house *h, const ls_cleanout *c, const char *what) {
    if (h->house->last_cleanout.n == 1)
        return ls_words(h->w, "%s the last cleanout", what);
    return ls_words(h->w, "%s the cleanout of %s", what,
                    ls_date_iso(ls_worksheet_arena(h->w), c->date.day));
}

/* What is known of one cleanout. */
typedef struct {
    ls_line weighed, then, solids, ratio;
} figures;

static figures figures_of(ls_litter_house *h, const ls_cleanout *c, size_t k) {
    ls_worksheet *w = h->w;
    figures f;
    f.weighed = ls_leaf_given(w, key_of(h, k, "weighed"), label_of(h, c, "litter weighed at"),
                              "ton", &c->weighed);
    ls_origin at = {LS_BY_FARM, c->bird_days.at, NULL, NULL};
    f.then = ls_leaf(w, key_of(h, k, "bird_days"), label_of(h, c, "bird-days before"), "bird-day",
                     c->bird_days.value, ls_spread_exact(), at);
    ls_line water = h->moisture;
    if (LS_GIVEN(c->moisture))
        water = ls_litter_kept_within(h, key_of(h, k, "moisture"), label_of(h, c, "moisture at"),
                                      ls_leaf_given(w, key_of(h, k, "moisture.given"),
                                                    label_of(h, c, "moisture given for"), "%",
                                                    &c->moisture));
    f.solids = ls_complement(w, key_of(h, k, "solids"), label_of(h, c, "dry share at"), "%", water);
    f.ratio =
        ls_quotient(w, key_of(h, k, "ratio"), "bird-days now over then", "", h->bird_days, f.then);
    return f;
}

/* The years apart from each other, in dry litter per bird-day, more than flocks of one house
 * differ: by how much to widen (Birge), 1 if they agree. one_year: log sd of the part of a year
 * alone. */
static double scatter(ls_litter_house *h, const ls_line *yield, size_t n, double one_year) {
    ls_worksheet *w = h->w;
    const ls_cleanout *c = h->house->last_cleanout.at;
    size_t least = 0, most = 0;
    double mean = 0, squares = 0;
    for (size_t k = 0; k < n; k++)
        mean += log(ls_line_value(w, yield[k])) / (double)n;
    for (size_t k = 0; k < n; k++) {
        double y = ls_line_value(w, yield[k]);
        squares += pow((log(y) - mean) / one_year, 2);
        least = y < ls_line_value(w, yield[least]) ? k : least;
        most = y > ls_line_value(w, yield[most]) ? k : most;
    }
    if (squares <= gsl_cdf_chisq_Pinv(0.95, (double)(n - 1)))
        return 1;
    ls_arena *a = ls_worksheet_arena(w);
    ls_line apart =
        ls_quotient(w, LS_KEY(h, "earlier-cleanouts.apart"),
                    ls_words(w, "cleanout of %s over that of %s", ls_date_iso(a, c[most].date.day),
                             ls_date_iso(a, c[least].date.day)),
                    "", yield[most], yield[least]);
    ls_litter_note(h,
                   "the cleanout of %s gave %s times as much dry litter a bird-day as that of %s: "
                   "more than flocks of one house differ, so their range is widened. Look at the "
                   "scale tickets, the bird-days, litter left behind, the moisture then",
                   ls_date_iso(a, c[most].date.day), ls_number_text(a, ls_line_value(w, apart), 2),
                   ls_date_iso(a, c[least].date.day));
    return sqrt(squares / (double)(n - 1));
}

/* The 15 % (practice) is how far one flock of a house may lie from another. Each flock has half of
 * its square of its own: this one's no earlier year can tell, it stays whole; that of each earlier
 * year is independent of the others' and shrinks with their number. n years: 15 % x sqrt(1/2 +
 * 1/(2n)); one year: the 15 %. */
static ls_line alike(ls_litter_house *h, const char *key, const char *label, double widen,
                     const char *words) {
    const ls_figure *f = ls_litter_practice(h, "last cleanout");
    ls_origin origin = {LS_BY_TABLE, LS_NOWHERE, f, words};
    return ls_leaf(h->w, key, label, "", 1, ls_spread_lognormal(widen * f->value * sqrt(0.5)),
                   origin);
}

static ls_line by_several(ls_litter_house *h) {
    ls_worksheet *w = h->w;
    ls_arena *a = ls_worksheet_arena(w);
    const ls_cleanout *c = h->house->last_cleanout.at;
    size_t n = h->house->last_cleanout.n;
    figures *f = LS_NEW(a, figures, n);
    ls_line *x = LS_NEW(a, ls_line, n), *weights = LS_NEW(a, ls_line, n);
    for (size_t k = 0; k < n; k++) {
        f[k] = figures_of(h, &c[k], k);
        ls_line dry = LS_PRODUCT(w, key_of(h, k, "hauled"), label_of(h, &c[k], "dry litter at"),
                                 "ton", f[k].weighed, f[k].solids);
        x[k] = ls_quotient(w, key_of(h, k, "yield"), label_of(h, &c[k], "dry litter a bird-day at"),
                           "lb/bird/day", dry, f[k].then);
    }
    double widen = scatter(h, x, n, ls_litter_practice(h, "last cleanout")->value * sqrt(0.5));
    for (size_t k = 0; k < n; k++) {
        ls_line year =
            alike(h, key_of(h, k, "beyond"), label_of(h, &c[k], "what was peculiar at"), widen,
                  widen > 1 ? "a factor of 1 whose log standard deviation is this "
                              "figure over root 2, widened as the years disagree"
                            : "a factor of 1 whose log standard deviation is this "
                              "figure over root 2: the part of that year alone");
        x[k] = LS_PRODUCT(w, key_of(h, k, "dry"), label_of(h, &c[k], "dry litter by"), "ton",
                          f[k].weighed, f[k].solids, f[k].ratio, year);
        weights[k] = ls_leaf_exact(w, key_of(h, k, "weight"), label_of(h, &c[k], "weight of"), "%",
                                   1 / (double)n, LS_BY_FIRST_PASS, "the years count alike");
    }
    ls_line mean = ls_geomean(w, LS_KEY(h, "earlier-cleanouts.mean"),
                              "mean dry litter by the cleanouts before", "ton", x, weights, n);
    ls_line now =
        alike(h, LS_KEY(h, "earlier-cleanouts.beyond"), "what is peculiar to this flock", 1,
              "a factor of 1 whose log standard deviation is this figure over root 2: "
              "the part of this flock alone");
    return LS_PRODUCT(w, LS_KEY(h, "earlier-cleanouts.dry"), "dry litter by the cleanouts before",
                      "ton", mean, now);
}

ls_line ls_litter_by_cleanouts(ls_litter_house *h) {
    const ls_house *house = h->house;
    if (house->last_cleanout.n == 0 || h->bird_days == LS_NO_LINE)
        return LS_NO_LINE;
    for (size_t k = 0; k < house->last_cleanout.n; k++)
        if (!LS_GIVEN(house->last_cleanout.at[k].bird_days))
            return LS_NO_LINE;
    if (house->last_cleanout.n > 1)
        return by_several(h);
    figures f = figures_of(h, &house->last_cleanout.at[0], 0);
    ls_line factor = ls_litter_factor(h, LS_KEY(h, "last-cleanout.beyond"),
                                      "how alike two flocks are", "last cleanout");
    return LS_PRODUCT(h->w, LS_KEY(h, "last-cleanout.dry"), "dry litter by the last cleanout",
                      "ton", f.weighed, f.solids, f.ratio, factor);
}
