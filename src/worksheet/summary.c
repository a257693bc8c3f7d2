#include "summary.h"

#include <gsl/gsl_statistics_double.h>
#include <math.h>
#include <string.h>

/* Sums of (x - about) and of its square. */
typedef struct {
    double first, second;
} power_sums;

/* In four partial sums each, so that no addition waits for the one before it. */
static power_sums sums_about(const double *x, size_t n, double about) {
    enum { LANES = 4 };
    double first[LANES] = {0}, second[LANES] = {0};
    size_t i = 0;
    for (; i + LANES <= n; i += LANES)
        for (size_t k = 0; k < LANES; k++) {
            double d = x[i + k] - about;
            first[k] += d;
            second[k] += d * d;
        }
    for (; i < n; i++) {
        double d = x[i] - about;
        first[0] += d;
        second[0] += d * d;
    }
    return (power_sums){(first[0] + first[1]) + (first[2] + first[3]),
                        (second[0] + second[1]) + (second[2] + second[3])};
}

ls_worksheet_moments ls_worksheet_moments_of(const double *x, size_t n) {
    double count = (double)n;
    double mean = x[0] + sums_about(x, n, x[0]).first / count;
    power_sums about_mean = sums_about(x, n, mean); /* first: what rounding left in the mean */
    double squares = about_mean.second - about_mean.first * about_mean.first / count;
    return (ls_worksheet_moments){n, mean, squares < 0 ? 0 : squares};
}

ls_worksheet_moments ls_worksheet_moments_join(ls_worksheet_moments a, ls_worksheet_moments b) {
    if (a.n == 0) return b;
    if (b.n == 0) return a;
    double na = (double)a.n, nb = (double)b.n, apart = b.mean - a.mean;
    return (ls_worksheet_moments){a.n + b.n, a.mean + apart * (nb / (na + nb)),
                                  a.squares + b.squares + apart * apart * (na * nb / (na + nb))};
}

double ls_worksheet_moments_sd(ls_worksheet_moments m) { return m.n < 2 ? 0 : sqrt(m.squares / (double)(m.n - 1)); }

double ls_worksheet_tolerance(double sd, int digits) {
    if (!(sd > 0)) return sd == 0 ? 0 : NAN;
    double l = floor(log10(sd)) - (digits - 1);
    if (floor(sd / pow(10, l) + 0.5) >= pow(10, digits)) /* c rounds up to one digit more */
        l++;
    return 0.5 * pow(10, l);
}

/* ---- points ---- */

/* The first SAMPLE draws say between which two values a point of the block lies, but for a chance of about 1 in 2,000:
 * their ranks below and above the rank of the point lie 3.5 standard deviations of the binomial from it. */
enum { SAMPLE = 500 };
static const struct {
    size_t tenths, below, above; /* of the draws; ranks in the sample from 0 */
} points[LS_WORKSHEET_POINTS] = {{1, 26, 73}, {5, 210, 289}, {9, 426, 473}};

typedef struct {
    double low, high; /* of the bracket */
    size_t below;     /* draws below it */
    size_t n;         /* draws in it */
    double *at;       /* these */
} bracket;

/* gsl_stats_select leaves smaller values before the place of the one it finds, larger ones behind.
 */
static void make_brackets(const double *x, size_t n, double *scratch, bracket b[LS_WORKSHEET_POINTS]) {
    double sample[SAMPLE];
    memcpy(sample, x, sizeof sample);
    size_t from = 0; /* what lies before it is smaller */
    for (size_t p = 0; p < LS_WORKSHEET_POINTS; p++) {
        b[p].low = gsl_stats_select(sample + from, 1, SAMPLE - from, points[p].below - from);
        from = points[p].below;
        b[p].high = gsl_stats_select(sample + from, 1, SAMPLE - from, points[p].above - from);
        from = points[p].above;
        b[p].below = b[p].n = 0;
        b[p].at = scratch + p * n;
    }
}

/* Without branches: every draw is written to the end of the bracket, which moves on only if the draw belongs there. */
static void fill_bracket(const double *x, size_t draws, bracket *b) {
    const double low = b->low, high = b->high;
    double *at = b->at;
    size_t below = 0, n = 0;
    for (size_t i = 0; i < draws; i++) {
        const double v = x[i];
        at[n] = v;
        n += (size_t)((v >= low) & (v <= high));
        below += (size_t)(v < low);
    }
    b->below = below;
    b->n = n;
}

static double point_in(const double *x, size_t n, bracket *b, size_t rank) {
    if (rank < b->below || rank >= b->below + b->n) { /* the sample misled */
        memcpy(b->at, x, n * sizeof *x);
        return gsl_stats_select(b->at, 1, n, rank);
    }
    return b->low == b->high ? b->low : gsl_stats_select(b->at, 1, b->n, rank - b->below);
}

static bool has_nan(const double *x, size_t n) {
    bool found = false;
    for (size_t i = 0; i < n; i++) found |= x[i] != x[i];
    return found;
}

void ls_worksheet_points(const double *x, size_t n, double *scratch, double out[LS_WORKSHEET_POINTS]) {
    bracket b[LS_WORKSHEET_POINTS];
    bool unknown = has_nan(x, n);
    if (!unknown) make_brackets(x, n, scratch, b);
    for (size_t p = 0; p < LS_WORKSHEET_POINTS; p++) {
        if (!unknown) fill_bracket(x, n, &b[p]);
        out[p] = unknown ? NAN : point_in(x, n, &b[p], n * points[p].tenths / 10 - 1);
    }
}
