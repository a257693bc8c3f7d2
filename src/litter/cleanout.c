/* What the cleanouts before tell of this one: the droppings found then, in proportion to the feed
 * eaten, or to bird-days where the feed then is not told. */
#include "house.h"

#include <gsl/gsl_cdf.h>
#include <math.h>

/* Leads the keys of a single cleanout: "last-cleanout"; of the k-th of several: "cleanout-K". */
static const char *prefix_of(ls_litter_house *h, size_t k) {
    return h->house->last_cleanout.n == 1 ? LS_KEY(h, "last-cleanout")
                                          : LS_KEY(h, "cleanout-%zu", k + 1);
}

static const char *key_of(ls_litter_house *h, size_t k, const char *what) {
    return ls_printf(h->w, "%s.%s", prefix_of(h, k), what);
}

static const char *label_of(ls_litter_house *h, size_t k, const char *what) {
    if (h->house->last_cleanout.n == 1)
        return ls_printf(h->w, "%s the last cleanout", what);
    return ls_printf(
        h->w, "%s the cleanout of %s", what,
        ls_date_words(ls_worksheet_arena(h->w), h->house->last_cleanout.at[k].date.day, 0));
}

/* ---- moisture then ---- */

static ls_line told_moisture(ls_litter_house *h, size_t k) {
    const char *key = key_of(h, k, "moisture");
    ls_line known = ls_line_find(h->w, key);
    return known != LS_NO_LINE
               ? known
               : ls_litter_told_moisture(h, key, label_of(h, k, "moisture at"),
                                         &h->house->last_cleanout.at[k].moisture,
                                         ls_litter_moisture_figure(h, ls_litter_manure(h)));
}

ls_line ls_litter_cleanout_moisture(ls_litter_house *h) {
    const ls_cleanout *c = h->house->last_cleanout.at;
    size_t n = h->house->last_cleanout.n, latest = n;
    for (size_t k = 0; k < n; k++)
        if (LS_GIVEN(c[k].moisture) && (latest == n || c[k].date.day > c[latest].date.day))
            latest = k;
    return latest < n ? told_moisture(h, latest) : LS_NO_LINE;
}

/* Not told, it is as now, but for what one litter of a house has of its own. */
static ls_line moisture_then(ls_litter_house *h, size_t k) {
    if (LS_GIVEN(h->house->last_cleanout.at[k].moisture))
        return told_moisture(h, k);
    ls_line as_now = ls_litter_own_part(h, key_of(h, k, "moisture-as-now"),
                                        label_of(h, k, "moisture, as now, at"), h->moisture,
                                        "within farm moisture", true);
    return ls_litter_kept_within(h, key_of(h, k, "moisture"), label_of(h, k, "moisture at"),
                                 as_now);
}

/* ---- droppings then ---- */

/* Dry litter of those flocks: hauled then, and taken out before. */
static ls_line made_then(ls_litter_house *h, size_t k) {
    ls_worksheet *w = h->w;
    const ls_cleanout *c = &h->house->last_cleanout.at[k];
    ls_line *x = LS_NEW(ls_worksheet_arena(w), ls_line, c->cake.n + 1);
    ls_line weighed = ls_leaf_given(w, key_of(h, k, "weighed"), label_of(h, k, "litter weighed at"),
                                    "ton", &c->weighed);
    ls_line solids = ls_complement(w, key_of(h, k, "solids"), label_of(h, k, "dry share at"), "%",
                                   moisture_then(h, k));
    x[0] = LS_PRODUCT(w, key_of(h, k, "hauled"), label_of(h, k, "dry litter at"), "ton", weighed,
                      solids);
    for (size_t i = 0; i < c->cake.n; i++)
        x[i + 1] = ls_litter_taken(h, &c->cake.at[i], key_of(h, k, ls_printf(w, "cake-%zu", i + 1)),
                                   c->cake.at[i].what.is != LS_TAKEN_LITTER);
    return c->cake.n == 0 ? x[0]
                          : ls_sum(w, key_of(h, k, "made"),
                                   label_of(h, k, "dry litter at and taken out before"), "ton", x,
                                   c->cake.n + 1);
}

/* The bedding then is taken as that of now. */
static ls_line droppings_then(ls_litter_house *h, size_t k) {
    return ls_litter_less_bedding(h->w, prefix_of(h, k), label_of(h, k, "it at"),
                                  label_of(h, k, "dry litter less its bedding at"),
                                  label_of(h, k, "dry droppings at"), made_then(h, k), h->bedding);
}

/* How much more was fed since than before. LS_NO_LINE: not to be known. */
static ls_line now_over_then(ls_litter_house *h, size_t k) {
    ls_worksheet *w = h->w;
    const ls_cleanout *c = &h->house->last_cleanout.at[k];
    if (LS_GIVEN(c->feed) && h->feed != LS_NO_LINE)
        return ls_quotient(w, key_of(h, k, "ratio"), "feed now over then", "", h->feed,
                           ls_leaf_given(w, key_of(h, k, "feed"),
                                         label_of(h, k, "feed eaten before"), "ton", &c->feed));
    if (!LS_GIVEN(c->bird_days) || h->bird_days == LS_NO_LINE)
        return LS_NO_LINE;
    ls_origin at = {LS_BY_FARM, c->bird_days.at, NULL, NULL};
    ls_line then = ls_leaf(w, key_of(h, k, "bird_days"), label_of(h, k, "bird-days before"),
                           "bird-day", c->bird_days.value, ls_spread_exact(), at);
    return ls_quotient(w, key_of(h, k, "ratio"), "bird-days now over then", "", h->bird_days, then);
}

/* ---- of one year or several ---- */

/* A cleanout that can be compared, and the droppings it tells of now. */
typedef struct {
    size_t k;
    ls_line droppings;
} year;

static size_t years_of(ls_litter_house *h, year *out) {
    size_t n = 0;
    for (size_t k = 0; k < h->house->last_cleanout.n; k++) {
        ls_line ratio = now_over_then(h, k);
        if (ratio == LS_NO_LINE)
            continue;
        out[n++] = (year){k, LS_PRODUCT(h->w, key_of(h, k, "carried"),
                                        label_of(h, k, "dry droppings now, by"), "ton",
                                        droppings_then(h, k), ratio)};
    }
    return n;
}

/* The years apart from each other, in droppings for what was fed, more than flocks of one house
 * differ: by how much to widen (Birge), 1 if they agree. one_year: log sd of the part of a year
 * alone. */
static double scatter(ls_litter_house *h, const year *x, size_t n, double one_year) {
    ls_worksheet *w = h->w;
    const ls_cleanout *c = h->house->last_cleanout.at;
    size_t least = 0, most = 0;
    double mean = 0, squares = 0;
    for (size_t i = 0; i < n; i++)
        mean += log(ls_line_value(w, x[i].droppings)) / (double)n;
    for (size_t i = 0; i < n; i++) {
        double y = ls_line_value(w, x[i].droppings);
        squares += pow((log(y) - mean) / one_year, 2);
        least = y < ls_line_value(w, x[least].droppings) ? i : least;
        most = y > ls_line_value(w, x[most].droppings) ? i : most;
    }
    if (squares <= gsl_cdf_chisq_Pinv(0.95, (double)(n - 1)))
        return 1;
    ls_arena *a = ls_worksheet_arena(w);
    const char *of_most = ls_date_words(a, c[x[most].k].date.day, 0),
               *of_least = ls_date_words(a, c[x[least].k].date.day, 0);
    ls_line apart = ls_quotient(w, LS_KEY(h, "earlier-cleanouts.apart"),
                                ls_printf(w, "cleanout of %s over that of %s", of_most, of_least),
                                "", x[most].droppings, x[least].droppings);
    ls_litter_note(
        h,
        "the cleanout of %s gave %s times as much dry litter for the feed as that of %s. Flocks of "
        "one house differ less, so the range is widened. Check the scale tickets, feed or "
        "bird-days, cake taken out, litter left behind, and the moisture then",
        of_most, ls_number_text(a, ls_line_value(w, apart), 2), of_least);
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

static ls_line by_several(ls_litter_house *h, const year *years, size_t n) {
    ls_worksheet *w = h->w;
    ls_arena *a = ls_worksheet_arena(w);
    ls_line *x = LS_NEW(a, ls_line, n), *weights = LS_NEW(a, ls_line, n);
    double widen = scatter(h, years, n, ls_litter_practice(h, "last cleanout")->value * sqrt(0.5));
    for (size_t i = 0; i < n; i++) {
        size_t k = years[i].k;
        ls_line peculiar =
            alike(h, key_of(h, k, "beyond"), label_of(h, k, "what was peculiar at"), widen,
                  widen > 1 ? "a factor of 1 whose log standard deviation is this "
                              "figure over root 2, widened as the years disagree"
                            : "a factor of 1 whose log standard deviation is this "
                              "figure over root 2: the part of that year alone");
        x[i] = LS_PRODUCT(w, key_of(h, k, "told"), label_of(h, k, "dry droppings as given by"),
                          "ton", years[i].droppings, peculiar);
        weights[i] = ls_leaf_exact(w, key_of(h, k, "weight"), label_of(h, k, "weight of"), "%",
                                   1 / (double)n, LS_BY_FIRST_PASS, "the years count alike");
    }
    ls_line mean = ls_geomean(w, LS_KEY(h, "earlier-cleanouts.mean"),
                              "mean dry droppings by the cleanouts before", "ton", x, weights, n);
    ls_line now =
        alike(h, LS_KEY(h, "earlier-cleanouts.beyond"), "what is peculiar to this flock", 1,
              "a factor of 1 whose log standard deviation is this figure over root 2: "
              "the part of this flock alone");
    return LS_PRODUCT(w, LS_KEY(h, "earlier-cleanouts.droppings"),
                      "dry droppings by the cleanouts before", "ton", mean, now);
}

ls_line ls_litter_by_cleanouts(ls_litter_house *h) {
    ls_worksheet *w = h->w;
    year *years = LS_NEW(ls_worksheet_arena(w), year, h->house->last_cleanout.n);
    size_t n = years_of(h, years);
    if (n < h->house->last_cleanout.n)
        ls_litter_note(
            h,
            "an earlier cleanout is left out: the feed eaten now is not known. Give its bird_days");
    if (n == 0)
        return LS_NO_LINE;
    if (n > 1)
        return ls_litter_with_bedding(h, LS_KEY(h, "earlier-cleanouts.dry"),
                                      "dry litter by the cleanouts before",
                                      by_several(h, years, n));
    const char *key = key_of(h, years[0].k, "dry"), *beyond = key_of(h, years[0].k, "beyond");
    ls_line told =
        LS_PRODUCT(w, key_of(h, years[0].k, "told"), "dry droppings by the last cleanout", "ton",
                   years[0].droppings,
                   ls_litter_factor(h, beyond, "how alike two flocks are", "last cleanout"));
    return ls_litter_with_bedding(h, key, "dry litter by the last cleanout", told);
}
