/* How a bird grows and eats, day by day of its age: a Gompertz curve through the hatch weight and the published
 * weights, feed in proportion to what living and growing take, scaled to the published feed. */
#include "house.h"

#include <math.h>

/* kg of feed a day for each kg^0.75 of live weight, and for each kg gained (common practice): only
 * their proportion matters, as their sum is scaled to the feed that is published. */
static const double upkeep_per_kg = 0.055, feed_per_gain = 1.35;
static const double kg = 2.2046226218487757; /* lb */

enum { LEAST_DAYS = 200, MOST_POINTS = 64 };

typedef struct {
    size_t n;
    double day[MOST_POINTS], y[MOST_POINTS]; /* y: log of weight over hatch weight */
} points;

/* Squared misses of W(t) = W0 exp(limit (1 - exp(-rate t))) at a rate, with its best limit. */
static double misses(const points *p, double rate, double *limit) {
    double xy = 0, xx = 0, sum = 0;
    for (size_t i = 0; i < p->n; i++) {
        double x = 1 - exp(-rate * p->day[i]);
        xy += x * p->y[i], xx += x * x;
    }
    *limit = xy / xx;
    for (size_t i = 0; i < p->n; i++) sum += pow(p->y[i] - *limit * (1 - exp(-rate * p->day[i])), 2);
    return sum;
}

/* The rate that misses least: by steps over what birds show, then between its neighbors. */
static double rate_of(const points *p, double *limit) {
    const double slowest = 0.003, step = 1.05, golden = 0.6180339887498949;
    double best = slowest, least = INFINITY;
    for (double rate = slowest; rate < 0.2; rate *= step) {
        double m = misses(p, rate, limit);
        if (m < least) least = m, best = rate;
    }
    double low = best / step, high = best * step;
    for (int i = 0; i < 60; i++) {
        double a = high - golden * (high - low), b = low + golden * (high - low);
        if (misses(p, a, limit) < misses(p, b, limit))
            high = b;
        else
            low = a;
    }
    misses(p, (low + high) / 2, limit);
    return (low + high) / 2;
}

static bool is_default(const ls_row *row) { return ls_text_same(ls_row_word(row, "default"), "yes"); }

/* Weights by day; past the last published day with the slope of that day. */
static void grow(ls_litter_growth *g, double hatch, double limit, double rate, size_t last) {
    for (size_t t = 0; t <= g->days; t++)
        g->weight[t] = t <= last || last == 0 ? hatch * exp(limit * (1 - exp(-rate * (double)t)))
                                              : g->weight[t - 1] + (g->weight[last] - g->weight[last - 1]);
}

/* Feed by day, to live and to grow, before it is scaled. */
static void eat(ls_litter_growth *g) {
    for (size_t t = 0; t < g->days; t++) {
        double mean = (g->weight[t] + g->weight[t + 1]) / 2 / kg;
        g->upkeep[t + 1] = g->upkeep[t] + upkeep_per_kg * pow(mean, 0.75) * kg;
        g->gain[t + 1] = g->gain[t] + feed_per_gain * (g->weight[t + 1] - g->weight[t]);
    }
}

static void scale(ls_litter_growth *g, const ls_table *table) {
    double logs = 0;
    size_t n = 0;
    for (size_t i = 0; i < table->n; i++) {
        const ls_figure *feed = ls_row_figure(&table->rows[i], "feed");
        const ls_figure *day = ls_row_figure(&table->rows[i], "days");
        if (!feed || !day || !is_default(&table->rows[i])) continue;
        size_t t = (size_t)day->value;
        logs += log(feed->value / (g->upkeep[t] + g->gain[t]));
        n++;
        g->feed = feed, g->end = t;
    }
    double factor = n ? exp(logs / (double)n) : 1;
    for (size_t t = 0; t <= g->days; t++) g->upkeep[t] *= factor, g->gain[t] *= factor;
}

static size_t longest_stay(const ls_house *house) {
    size_t days = LEAST_DAYS;
    for (size_t k = 0; k < house->flocks.n; k++) {
        size_t age = ls_flock_age(&house->flocks.at[k]);
        days = age > days ? age : days;
    }
    return days;
}

static const ls_figure *hatch_weight(const ls_table *table) {
    for (size_t i = 0; i < table->n; i++) {
        const ls_figure *day = ls_row_figure(&table->rows[i], "days");
        const ls_figure *weight = ls_row_figure(&table->rows[i], "weight");
        if (day && weight && day->value <= 0 && is_default(&table->rows[i])) return weight;
    }
    return NULL;
}

/* The longest age of any row, weight or feed. */
static size_t oldest(const ls_table *table) {
    size_t days = 0;
    for (size_t i = 0; i < table->n; i++) {
        const ls_figure *day = ls_row_figure(&table->rows[i], "days");
        days = day && day->value > (double)days ? (size_t)day->value : days;
    }
    return days;
}

/* NULL: the table has no hatch weight, or no weight after it. */
static ls_litter_growth *curve(ls_litter_house *h, const ls_table *table) {
    ls_arena *a = h->arena;
    ls_litter_growth *g = LS_NEW(a, ls_litter_growth, 1);
    const ls_figure *hatch = hatch_weight(table);
    points p = {0};
    size_t last = 0;
    for (size_t i = 0; hatch && i < table->n && p.n < MOST_POINTS; i++) {
        const ls_figure *day = ls_row_figure(&table->rows[i], "days");
        const ls_figure *weight = ls_row_figure(&table->rows[i], "weight");
        if (!day || !weight || !is_default(&table->rows[i]) || day->value <= 0) continue;
        p.day[p.n] = day->value, p.y[p.n++] = log(weight->value / hatch->value);
        last = day->value > (double)last ? (size_t)day->value : last;
        g->last_weight = weight;
    }
    if (p.n == 0) return NULL;
    double limit = 0, rate = rate_of(&p, &limit);
    g->days = longest_stay(h->house);
    g->days = oldest(table) > g->days ? oldest(table) : g->days;
    g->weight = LS_NEW(a, double, g->days + 1);
    g->upkeep = LS_NEW(a, double, g->days + 1);
    g->gain = LS_NEW(a, double, g->days + 1);
    grow(g, hatch->value, limit, rate, last);
    eat(g);
    scale(g, table);
    return g->feed ? g : NULL;
}

const ls_litter_growth *ls_litter_growth_of(ls_litter_house *h) {
    const ls_table *table = h->bird ? ls_reference_table(h->reference, "growth", ls_bird_name(h->bird)) : NULL;
    if (table && !h->growth) h->growth = curve(h, table);
    return h->growth;
}

double ls_litter_feed_to(const ls_litter_growth *g, size_t day, double times) {
    return g->upkeep[day] * pow(times, 0.75) + g->gain[day] * times;
}

double ls_litter_live_days(const ls_litter_growth *g, size_t day) {
    double sum = 0;
    for (size_t t = 0; t < day; t++) sum += (g->weight[t] + g->weight[t + 1]) / 2;
    return sum;
}
