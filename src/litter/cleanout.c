/* What the cleanouts before tell of this one: the droppings found then, in proportion to the feed
 * eaten, or to bird-days where the feed then is not told. */
#include "house.h"

#include <gsl/gsl_cdf.h>
#include <math.h>

/* A cleanout; and the droppings it tells of now, if it can be compared. */
typedef struct {
    const ls_cleanout *told;
    ls_worksheet *w; /* part "last-cleanout" of a single one, "cleanout-K" of several */
    ls_line droppings;
} year;

static year year_of(const ls_litter_house *h, size_t k) {
    const ls_cleanout *told = &h->house->last_cleanout.at[k];
    if (h->house->last_cleanout.n == 1)
        return (year){told, ls_part(h->w, "the last cleanout", "last-cleanout"), LS_NO_LINE};
    const char *of = ls_printf(h->w, "the cleanout of %s", ls_date_words(h->arena, told->date.day, 0));
    return (year){told, ls_part(h->w, of, "cleanout-%zu", k + 1), LS_NO_LINE};
}

/* ---- moisture then ---- */

static ls_line told_moisture(ls_litter_house *h, const year *y) {
    return ls_litter_told_moisture(h, y->w, "moisture", "moisture at %s", &y->told->moisture,
                                   ls_litter_moisture_figure(h, ls_litter_manure(h)));
}

ls_line ls_litter_cleanout_moisture(ls_litter_house *h) {
    const ls_cleanout *c = h->house->last_cleanout.at;
    size_t n = h->house->last_cleanout.n, latest = n;
    for (size_t k = 0; k < n; k++)
        if (LS_GIVEN(c[k].moisture) && (latest == n || c[k].date.day > c[latest].date.day)) latest = k;
    if (latest == n) return LS_NO_LINE;
    year y = year_of(h, latest);
    return told_moisture(h, &y);
}

/* Not told, it is as now, but for what one litter of a house has of its own. */
static ls_line moisture_then(ls_litter_house *h, const year *y) {
    if (LS_GIVEN(y->told->moisture)) return told_moisture(h, y);
    ls_line as_now = ls_litter_own_part(h, y->w, "moisture-as-now", "moisture, as now, at %s", h->moisture,
                                        "within farm moisture", true);
    return ls_litter_kept_within(h, y->w, "moisture", "moisture at %s", as_now);
}

/* ---- droppings then ---- */

/* Dry litter of those flocks: hauled then, and taken out before. */
static ls_line made_then(ls_litter_house *h, const year *y) {
    const ls_cleanout *c = y->told;
    ls_line *x = LS_NEW(h->arena, ls_line, c->cake.n + 1);
    ls_line weighed = LS_GIVEN(c->weighed)
                          ? ls_leaf_given(y->w, "weighed", "litter weighed at %s", "ton", &c->weighed)
                          : ls_litter_by_full_loads(h, y->w, "litter in the loads of %s", &c->loads, c->truck);
    ls_line solids = ls_complement(y->w, "solids", "dry share at %s", "%", moisture_then(h, y));
    x[0] = LS_PRODUCT(y->w, "hauled", "dry litter at %s", "ton", weighed, solids);
    for (size_t i = 0; i < c->cake.n; i++)
        x[i + 1] = ls_litter_taken(h, &c->cake.at[i], ls_part(y->w, NULL, "cake-%zu", i + 1),
                                   c->cake.at[i].what.is != LS_TAKEN_LITTER);
    return c->cake.n == 0 ? x[0]
                          : ls_sum(y->w, "made", "dry litter at and taken out before %s", "ton", x, c->cake.n + 1);
}

/* As told; else so many flocks like the last one here now, or birds like those that stayed. */
static ls_line bird_days_then(ls_litter_house *h, const year *y) {
    const ls_cleanout *c = y->told;
    static const char label[] = "bird-days before %s";
    ls_origin at = {LS_BY_FARM, c->bird_days.at, NULL, NULL};
    if (LS_GIVEN(c->bird_days))
        return ls_leaf(y->w, "bird_days", label, "bird-day", c->bird_days.value, ls_spread_exact(), at);
    if (h->house->flocks.n == 0) return LS_NO_LINE;
    const ls_litter_flock *now = &h->flocks[h->house->flocks.n - 1];
    ls_line birds = now->mean, days = now->days;
    if (LS_GIVEN(c->birds))
        birds = LS_PRODUCT(y->w, "mean_birds", "birds on an average day before %s", "bird", birds,
                           ls_quotient(y->w, "birds_over_now", "birds placed then over now", "",
                                       ls_leaf_count(y->w, "birds", "birds placed before %s", "bird", &c->birds),
                                       now->placed));
    if (LS_GIVEN(c->from))
        days = ls_litter_by_dates(h, y->w, "days", "days those birds stayed", "day", c->date.day - c->from.day,
                                  c->from.at, (ls_litter_days){c->from.day, c->date.day});
    if (!LS_GIVEN(c->flocks)) return LS_PRODUCT(y->w, "bird_days", label, "bird-day", birds, days);
    return LS_PRODUCT(y->w, "bird_days", label, "bird-day", birds, days,
                      ls_leaf_count(y->w, "flocks", "flocks before %s", "", &c->flocks));
}

/* How much more was fed since than before. LS_NO_LINE: not to be known. */
static ls_line now_over_then(ls_litter_house *h, const year *y) {
    const ls_cleanout *c = y->told;
    if (LS_GIVEN(c->feed) && h->feed)
        return ls_quotient(y->w, "ratio", "feed now over then", "", h->feed,
                           ls_leaf_given(y->w, "feed", "feed eaten before %s", "ton", &c->feed));
    ls_line then = h->bird_days ? bird_days_then(h, y) : LS_NO_LINE;
    return then ? ls_quotient(y->w, "ratio", "bird-days now over then", "", h->bird_days, then) : LS_NO_LINE;
}

/* ---- of one year or several ---- */

/* The bedding then is taken as that of now. */
static size_t years_of(ls_litter_house *h, year *out) {
    size_t n = 0;
    for (size_t k = 0; k < h->house->last_cleanout.n; k++) {
        year y = year_of(h, k);
        ls_line ratio = now_over_then(h, &y);
        if (!ratio) continue;
        ls_line then = ls_litter_less_bedding(y.w, "it at %s", "dry litter less its bedding at %s",
                                              "dry droppings at %s", made_then(h, &y), h->bedding);
        y.droppings = LS_PRODUCT(y.w, "carried", "dry droppings now, by %s", "ton", then, ratio);
        out[n++] = y;
    }
    return n;
}

/* The years apart from each other, in droppings for what was fed, more than flocks of one house differ: by how much to
 * widen (Birge), 1 if they agree. one_year: log sd of the part of a year alone. */
static double scatter(ls_litter_house *h, const year *x, size_t n, double one_year) {
    ls_worksheet *w = h->w;
    size_t least = 0, most = 0;
    double mean = 0, squares = 0;
    for (size_t i = 0; i < n; i++) mean += log(ls_line_value(w, x[i].droppings)) / (double)n;
    for (size_t i = 0; i < n; i++) {
        double y = ls_line_value(w, x[i].droppings);
        squares += pow((log(y) - mean) / one_year, 2);
        least = y < ls_line_value(w, x[least].droppings) ? i : least;
        most = y > ls_line_value(w, x[most].droppings) ? i : most;
    }
    if (squares <= gsl_cdf_chisq_Pinv(0.95, (double)(n - 1))) return 1;
    const char *of_most = ls_date_words(h->arena, x[most].told->date.day, 0),
               *of_least = ls_date_words(h->arena, x[least].told->date.day, 0);
    ls_line apart =
        ls_quotient(w, "earlier-cleanouts.apart", ls_printf(w, "cleanout of %s over that of %s", of_most, of_least), "",
                    x[most].droppings, x[least].droppings);
    ls_litter_note(h,
                   "the cleanout of %s gave %s times as much dry litter for the feed as that of %s. Flocks of "
                   "one house differ less, so the range is widened. Check the scale tickets, feed or "
                   "bird-days, cake taken out, litter left behind, and the moisture then",
                   of_most, ls_number_text(h->arena, ls_line_value(w, apart), 2), of_least);
    return sqrt(squares / (double)(n - 1));
}

/* The 15 % (practice) is how far one flock of a house may lie from another. Each flock has half of its square of its
 * own: this one's no earlier year can tell, it stays whole; that of each earlier year is independent of the others' and
 * shrinks with their number. n years: 15 % x sqrt(1/2 + 1/(2n)); one year: the 15 %. */
static ls_line alike(ls_litter_house *h, ls_worksheet *w, const char *label, double widen, const char *words) {
    const ls_figure *f = ls_litter_practice(h, "last cleanout");
    return ls_leaf_by(w, "beyond", label, "", f, 1, ls_spread_lognormal(widen * f->value * sqrt(0.5)), words);
}

static ls_line by_several(ls_litter_house *h, ls_worksheet *w, const year *years, size_t n) {
    ls_line *x = LS_NEW(h->arena, ls_line, n), *weights = LS_NEW(h->arena, ls_line, n);
    double widen = scatter(h, years, n, ls_litter_practice(h, "last cleanout")->value * sqrt(0.5));
    for (size_t i = 0; i < n; i++) {
        ls_worksheet *of = years[i].w;
        ls_line peculiar = alike(h, of, "what was peculiar at %s", widen,
                                 widen > 1 ? "a factor of 1 whose log standard deviation is this "
                                             "figure over root 2, widened as the years disagree"
                                           : "a factor of 1 whose log standard deviation is this "
                                             "figure over root 2: the part of that year alone");
        x[i] = LS_PRODUCT(of, "told", "dry droppings as given by %s", "ton", years[i].droppings, peculiar);
        weights[i] =
            ls_leaf_exact(of, "weight", "weight of %s", "%", 1 / (double)n, LS_BY_FIRST_PASS, "the years count alike");
    }
    ls_line mean = ls_geomean(w, "mean", "mean dry droppings by the cleanouts before", "ton", x, weights, n);
    ls_line now = alike(h, w, "what is peculiar to this flock", 1,
                        "a factor of 1 whose log standard deviation is this figure over root 2: "
                        "the part of this flock alone");
    return LS_PRODUCT(w, "droppings", "dry droppings by the cleanouts before", "ton", mean, now);
}

ls_line ls_litter_by_cleanouts(ls_litter_house *h) {
    year *years = LS_NEW(h->arena, year, h->house->last_cleanout.n);
    size_t n = years_of(h, years);
    if (n < h->house->last_cleanout.n)
        ls_litter_note(h, "an earlier cleanout is left out: the feed eaten now is not known. Give its bird_days");
    if (n == 0) return LS_NO_LINE;
    if (n > 1)
        return ls_litter_with_bedding(h, h->w, "earlier-cleanouts.dry", "dry litter by the cleanouts before",
                                      by_several(h, ls_part(h->w, NULL, "earlier-cleanouts"), years, n));
    ls_worksheet *w = years[0].w;
    ls_line told = LS_PRODUCT(w, "told", "dry droppings by the last cleanout", "ton", years[0].droppings,
                              ls_litter_factor(h, w, "beyond", "how alike two flocks are", "last cleanout"));
    return ls_litter_with_bedding(h, w, "dry", "dry litter by the last cleanout", told);
}
