#include "bench/calibrate/nature.h"

#include "littershed/litter.h"

#include <math.h>
#include <string.h>

/* ---- draws and cells ---- */

double nature_draw(const nature *n, const ls_figure *f) {
    double x;
    ls_spread_fill(f->spread, f->value, n->stream, &x, 1);
    return x;
}

double nature_normal(const nature *n, double sd) {
    double x;
    ls_stream_normal(n->stream, &x, 1);
    return sd * x;
}

double nature_between(const nature *n, double low, double high) {
    double x;
    ls_stream_uniform(n->stream, &x, 1);
    return low + (high - low) * x;
}

double nature_times(const nature *n, double log_sd) { return exp(nature_normal(n, log_sd)); }

const ls_figure *nature_cell(const nature *n, const char *kind, const char *name, const char *row, const char *column) {
    return ls_row_figure(ls_table_row(ls_reference_table(n->reference, kind, name), row), column);
}

double nature_practice(const nature *n, const char *row) {
    return ls_reference_need(n->reference, "practice", "", row, "value")->value;
}

static const ls_figure *of_bird(const nature *n, int bird, const char *column) {
    return nature_cell(n, "bird", "", ls_bird_name(bird), column);
}

static bool is_word(const ls_row *row, const char *column, const char *word) {
    const char *w = ls_row_word(row, column);
    return w && word && strcmp(w, word) == 0;
}

const ls_row *nature_row(const nature *n, const char *kind, int bird, const char *manure, const char *column) {
    const ls_table *t = ls_reference_table(n->reference, kind, ls_bird_name(bird));
    const ls_row *usual = NULL;
    for (size_t i = 0; t && i < t->n; i++) {
        if (!ls_row_figure(&t->rows[i], column)) continue;
        if (is_word(&t->rows[i], "manure", manure)) return &t->rows[i];
        if (!usual && is_word(&t->rows[i], "default", "yes")) usual = &t->rows[i];
    }
    return usual;
}

/* ---- feed ---- */

/* A straight line on log paper through the two ages nearest to x in a column, of those that the
 * growth table tells both columns of; through one of them with a slope. */
static double on_log_paper(const ls_table *t, const char *x_column, const char *y_column, double at,
                           double single_slope) {
    double x[2] = {0}, y[2] = {0}, far[2] = {INFINITY, INFINITY};
    for (size_t i = 0; t && i < t->n; i++) {
        const ls_figure *fx = ls_row_figure(&t->rows[i], x_column), *fy = ls_row_figure(&t->rows[i], y_column);
        if (!fx || !fy || !(fx->value > 0) || !is_word(&t->rows[i], "default", "yes")) continue;
        double d = fabs(log(fx->value / at));
        size_t k = d < far[0] ? 0 : d < far[1] ? 1 : 2;
        if (k == 0) x[1] = x[0], y[1] = y[0], far[1] = far[0];
        if (k < 2) x[k] = log(fx->value), y[k] = log(fy->value), far[k] = d;
    }
    double slope = isinf(far[1]) ? single_slope : (y[1] - y[0]) / (x[1] - x[0]);
    return exp(y[0] + slope * (log(at) - x[0]));
}

/* By its age; a heavier bird of that age eats more, but less than in proportion. */
double nature_feed(const nature *n, int bird, double days, double weight) {
    const ls_table *t = ls_reference_table(n->reference, "growth", ls_bird_name(bird));
    if (!(days > 0)) return on_log_paper(t, "weight", "feed", weight, 1.25);
    double usual = on_log_paper(t, "days", "weight", days, 1.5);
    return on_log_paper(t, "days", "feed", days, 1.8) * pow(weight > 0 ? weight / usual : 1, 0.9);
}

double nature_usual_feed(const nature *n, int bird) {
    const ls_table *t = ls_reference_table(n->reference, "growth", ls_bird_name(bird));
    double feed = 0;
    for (size_t i = 0; t && i < t->n; i++)
        if (is_word(&t->rows[i], "default", "yes") && ls_row_figure(&t->rows[i], "feed"))
            feed = ls_row_figure(&t->rows[i], "feed")->value;
    return t ? feed : of_bird(n, bird, "feed")->value * of_bird(n, bird, "days")->value;
}

/* Mean live weight of a stay over that at its end, as the notes of the table have it. */
static double mean_over_last(int bird) { return bird == LS_TURKEY_TOM ? 0.36 : 0.39; }

double nature_own_feed(const nature *n, int bird, const ls_row *row) {
    const char *per = ls_row_word(row, "per");
    const ls_figure *told = ls_row_figure(row, "own_feed"), *last = ls_row_figure(row, "own_weight"),
                    *mean = ls_row_figure(row, "own_mean_weight");
    bool by_weight = strncmp(per, "live-weight", 11) == 0;
    if (!by_weight && strcmp(per, "bird") != 0) return nature_draw(n, told ? told : of_bird(n, bird, "feed"));
    const ls_figure *days = ls_row_figure(row, "own_days");
    double feed = told ? nature_draw(n, told) : nature_feed(n, bird, days ? days->value : 0, last->value);
    if (strcmp(per, "live-weight") == 0) return feed / last->value;
    if (!by_weight) return feed;
    return feed / (mean ? mean->value : mean_over_last(bird) * last->value) / ls_row_figure(row, "own_days")->value;
}

/* ---- droppings over feed ---- */

static double own_bedding(const nature *n, const ls_row *row) {
    const ls_figure *f = ls_row_figure(row, "own_bedding");
    const char *per = ls_row_word(row, "per");
    if (!f || !(f->value > 0)) return 0;
    double each = nature_draw(n, f) * (1 - nature_draw(n, nature_cell(n, "bedding", "", "shavings", "lost")));
    if (strcmp(per, "bird") == 0) return each;
    return each / ls_row_figure(row, strcmp(per, "live-weight") == 0 ? "own_weight" : "own_days")->value;
}

static double found_over_feed(const nature *n, int bird, const ls_row *row) {
    if (ls_row_figure(row, "feed_share"))
        return nature_draw(n, ls_row_figure(row, "feed_share")) * nature_draw(n, ls_row_figure(row, "kept"));
    double litter = nature_draw(n, ls_row_figure(row, "litter"));
    double dry = is_word(row, "state", "wet") ? litter * (1 - nature_draw(n, ls_row_figure(row, "moisture"))) : litter;
    return fmax(dry - own_bedding(n, row), 0.1 * litter) / nature_own_feed(n, bird, row);
}

/* Figures on the log scale, with their own variances; NULL: what is excreted less what rots. */
enum { MOST_ROWS = 16 };
typedef struct {
    size_t n;
    const ls_row *row[MOST_ROWS];
    double y[MOST_ROWS], s2[MOST_ROWS];
} sample;

/* Rows of houses alike; and the balance, unless what stays is of one of them. */
static sample rows_of(const nature *n, int bird, const char *manure, const ls_row *kept) {
    const ls_table *t = ls_reference_table(n->reference, "droppings", ls_bird_name(bird));
    sample s = {0};
    bool twice = false;
    for (size_t i = 0; t && i < t->n && s.n + 1 < MOST_ROWS; i++) {
        const ls_row *row = &t->rows[i];
        const char *kind = ls_row_word(row, "manure");
        if (!is_word(row, "default", "yes") || (kind && manure && strcmp(kind, manure) != 0)) continue;
        s.row[s.n++] = row;
        twice |= kept && row->source && ls_row_figure(kept, "dry_matter")->source == row->source;
    }
    s.n += kept && !twice;
    return s;
}

static void look_at(const nature *n, int bird, const ls_row *kept, sample *s) {
    enum { TRIES = 600 };
    const ls_figure *share = of_bird(n, bird, "excreted_share");
    for (size_t i = 0; i < s->n; i++) {
        double sum = 0, sum2 = 0;
        for (int d = 0; d < TRIES; d++) {
            double most = nature_draw(n, share);
            double x = s->row[i] ? found_over_feed(n, bird, s->row[i])
                                 : most * nature_draw(n, ls_row_figure(kept, "dry_matter"));
            x = log(fmin(x, most));
            sum += x, sum2 += x * x;
        }
        s->y[i] = sum / TRIES;
        s->s2[i] = fmax(sum2 / TRIES - s->y[i] * s->y[i], 1e-4);
    }
}

/* With a variance between sources: their mean and its variance; squares about it, each over its
 * variance. */
typedef struct {
    double mean, variance, q;
} weighed;

static weighed weigh(const sample *s, double tau2) {
    weighed w = {0};
    double sum = 0;
    for (size_t i = 0; i < s->n; i++) sum += 1 / (s->s2[i] + tau2), w.mean += s->y[i] / (s->s2[i] + tau2);
    w.mean /= sum;
    w.variance = 1 / sum;
    for (size_t i = 0; i < s->n; i++) w.q += pow(s->y[i] - w.mean, 2) / (s->s2[i] + tau2);
    return w;
}

bool nature_asks(const nature *n, int bird, const char *manure, const ls_source *source) {
    sample s = rows_of(n, bird, manure, NULL);
    for (size_t i = 0; i < s.n; i++)
        if (source && s.row[i]->source == source) return true;
    return false;
}

/* Random effects: the variance between sources at which their squares are as many as they should
 * be.
 */
nature_ratio nature_droppings(const nature *n, int bird, const char *manure) {
    const ls_row *kept = nature_row(n, "kept", bird, manure, "dry_matter");
    sample s = rows_of(n, bird, manure, kept);
    look_at(n, bird, kept, &s);
    double low = 0, high = 4, df = (double)s.n - 1;
    for (int i = 0; i < 60 && s.n > 1 && weigh(&s, 0).q > df; i++)
        *(weigh(&s, (low + high) / 2).q > df ? &low : &high) = (low + high) / 2;
    weighed w = weigh(&s, low);
    return (nature_ratio){w.mean, low + w.variance, s.n};
}
