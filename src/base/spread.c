#define HAVE_INLINE /* GSL then draws without one more call a number */

#include "littershed/base/spread.h"

#include "littershed/base/text.h"
#include "littershed/base/unit.h"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>
#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

/* ---- random numbers ---- */

struct ls_stream {
    gsl_rng *rng;
};

ls_stream *ls_stream_new(void) {
    ls_stream *s = malloc(sizeof *s);
    if (s == NULL) ls_fail("out of memory");
    s->rng = gsl_rng_alloc(gsl_rng_mt19937);
    if (s->rng == NULL) ls_fail("out of memory");
    return s;
}

void ls_stream_free(ls_stream *s) {
    if (s == NULL) return;
    gsl_rng_free(s->rng);
    free(s);
}

/* The finalizer of SplitMix64 (Steele, Lea, Flood 2014): every bit bears on every other. */
static uint64_t mix(uint64_t x) {
    x += UINT64_C(0x9e3779b97f4a7c15);
    x = (x ^ (x >> 30)) * UINT64_C(0xbf58476d1ce4e5b9);
    x = (x ^ (x >> 27)) * UINT64_C(0x94d049bb133111eb);
    return x ^ (x >> 31);
}

void ls_stream_start(ls_stream *s, uint64_t seed, uint64_t name, uint64_t block) {
    uint32_t start = (uint32_t)(mix(mix(mix(seed) ^ name) ^ block) >> 32);
    gsl_rng_set(s->rng, start == 0 ? 1 : start); /* 0 would mean the library's default seed */
}

void ls_stream_uniform(ls_stream *s, double *out, size_t n) {
    for (size_t i = 0; i < n; i++) out[i] = gsl_rng_uniform_pos(s->rng);
}

void ls_stream_normal(ls_stream *s, double *out, size_t n) {
    for (size_t i = 0; i < n; i++) out[i] = gsl_ran_gaussian_ziggurat(s->rng, 1);
}

/* Two degrees of freedom, as of a mean of three, by the inverse of its distribution in closed form;
 * others as the ratio that defines them. */
void ls_stream_student(ls_stream *s, double df, double *out, size_t n) {
    if (df == 2) {
        for (size_t i = 0; i < n; i++) {
            double u = gsl_rng_uniform_pos(s->rng);
            out[i] = (2 * u - 1) / sqrt(2 * u * (1 - u));
        }
        return;
    }
    for (size_t i = 0; i < n; i++) out[i] = gsl_ran_gaussian_ziggurat(s->rng, 1) / sqrt(gsl_ran_chisq(s->rng, df) / df);
}

/* ---- spreads ---- */

/* A spread of no width is exact: it needs no draws. */
static ls_spread spread_of(ls_spread_kind kind, double scale, double df, double low, double high) {
    if (scale == 0 || low == high) return ls_spread_exact();
    return (ls_spread){kind, scale, df, low, high};
}

ls_spread ls_spread_exact(void) { return (ls_spread){LS_EXACT, 0, 0, -INFINITY, INFINITY}; }

ls_spread ls_spread_normal(double sd) { return spread_of(LS_NORMAL, sd, 0, -INFINITY, INFINITY); }

ls_spread ls_spread_truncated(double sd, double low, double high) { return spread_of(LS_TRUNCATED, sd, 0, low, high); }

ls_spread ls_spread_lognormal(double log_sd) { return spread_of(LS_LOGNORMAL, log_sd, 0, -INFINITY, INFINITY); }

/* The scale of the next two says only that there is a width. */
ls_spread ls_spread_rectangular(double low, double high) { return spread_of(LS_RECTANGULAR, high - low, 0, low, high); }

ls_spread ls_spread_triangular(double low, double high) { return spread_of(LS_TRIANGULAR, high - low, 0, low, high); }

ls_spread ls_spread_student(double scale, double df) { return spread_of(LS_STUDENT, scale, df, -INFINITY, INFINITY); }

ls_spread ls_spread_log_student(double log_scale, double df) {
    return spread_of(LS_LOG_STUDENT, log_scale, df, -INFINITY, INFINITY);
}

/* What of a standard normal lies in a..b; by the upper tail where that keeps the digits. */
static double normal_share(double a, double b) {
    return a > 0 ? gsl_cdf_ugaussian_Q(a) - gsl_cdf_ugaussian_Q(b) : gsl_cdf_ugaussian_P(b) - gsl_cdf_ugaussian_P(a);
}

/* x times the density of the standard normal; 0 at the infinities. */
static double weighted_density(double x) { return isinf(x) ? 0 : x * gsl_ran_ugaussian_pdf(x); }

/* The variance of a truncated normal: sd^2 (1 + (a f(a) - b f(b)) / Z - ((f(a) - f(b)) / Z)^2), f
 * the normal density and Z its share within a..b (Johnson, Kotz, Balakrishnan, Continuous
 * Univariate Distributions 1, 10.1; from memory). */
static double truncated_sd(ls_spread s, double m) {
    double a = (s.low - m) / s.scale, b = (s.high - m) / s.scale, share = normal_share(a, b);
    if (!(share > 0)) return 0;
    double shift = (gsl_ran_ugaussian_pdf(a) - gsl_ran_ugaussian_pdf(b)) / share;
    double variance = 1 + (weighted_density(a) - weighted_density(b)) / share - shift * shift;
    return variance > 0 ? s.scale * sqrt(variance) : 0;
}

ls_spread ls_spread_narrowed(ls_spread s, double m, double factor) {
    if (factor <= 0) return ls_spread_exact();
    s.scale *= factor;
    if (s.kind == LS_TRIANGULAR || s.kind == LS_RECTANGULAR) {
        s.low = m - factor * (m - s.low);
        s.high = m + factor * (s.high - m);
    }
    return s;
}

/* 90 % point of a t over that of the standard normal distribution. */
static double t_over_normal(double df) { return gsl_cdf_tdist_Pinv(0.9, df) / gsl_cdf_ugaussian_Pinv(0.9); }

double ls_spread_scale(ls_spread s, double m) {
    double width = s.high - s.low;
    switch (s.kind) {
    case LS_EXACT: return 0;
    case LS_NORMAL: return s.scale;
    case LS_STUDENT: return s.scale * t_over_normal(s.df);
    case LS_TRUNCATED: return truncated_sd(s, m);
    case LS_LOGNORMAL: return fabs(m) * s.scale;
    case LS_LOG_STUDENT: return fabs(m) * s.scale * t_over_normal(s.df);
    case LS_TRIANGULAR: /* (a^2 + b^2 + c^2 - ab - ac - bc) / 18 about a = 0 */
        return sqrt((width * width + (m - s.low) * (m - s.low) - width * (m - s.low)) / 18);
    case LS_RECTANGULAR: return width / sqrt(12);
    }
    return NAN;
}

static void keep_within(double low, double high, double *out, size_t n) {
    if (isinf(low) && isinf(high)) return;
    for (size_t i = 0; i < n; i++) out[i] = out[i] < low ? low : out[i] > high ? high : out[i];
}

static void shift_and_stretch(double m, double scale, double *out, size_t n) {
    for (size_t i = 0; i < n; i++) out[i] = m + scale * out[i];
}

static void stretch_log(double m, double scale, double *out, size_t n) {
    for (size_t i = 0; i < n; i++) out[i] = m * exp(scale * out[i]);
}

static void fill_triangular(ls_spread s, double m, double *out, size_t n) {
    double width = s.high - s.low, left = width * (m - s.low), right = width * (s.high - m);
    double turn = (m - s.low) / width;
    for (size_t i = 0; i < n; i++) {
        double u = out[i], root = sqrt(u < turn ? u * left : (1 - u) * right);
        out[i] = u < turn ? s.low + root : s.high - root;
    }
}

/* Rejection: each round asks for as many normals as are still missing, so that no number of the
 * stream is drawn and then not looked at, however the draws are divided into calls. */
static void fill_by_rejection(ls_spread s, double m, ls_stream *stream, double *out, size_t n) {
    for (size_t kept = 0; kept < n;) {
        size_t from = kept;
        ls_stream_normal(stream, out + from, n - from);
        shift_and_stretch(m, s.scale, out + from, n - from);
        for (size_t i = from; i < n; i++)
            if (out[i] >= s.low && out[i] <= s.high) out[kept++] = out[i];
    }
}

/* Bounds far out in a tail: by the inverse of the upper tail, mirrored if it is the lower one. */
static void fill_by_inverse(ls_spread s, double m, ls_stream *stream, double *out, size_t n) {
    bool mirrored = s.high < m;
    double near = mirrored ? (m - s.high) / s.scale : (s.low - m) / s.scale;
    double far = mirrored ? (m - s.low) / s.scale : (s.high - m) / s.scale;
    double q_near = gsl_cdf_ugaussian_Q(near), q_far = gsl_cdf_ugaussian_Q(far);
    ls_stream_uniform(stream, out, n);
    for (size_t i = 0; i < n; i++) {
        double z = q_near > q_far ? gsl_cdf_ugaussian_Qinv(q_far + out[i] * (q_near - q_far)) : near;
        out[i] = mirrored ? m - s.scale * z : m + s.scale * z;
    }
    keep_within(s.low, s.high, out, n);
}

static void fill_truncated(ls_spread s, double m, ls_stream *stream, double *out, size_t n) {
    const double least_share = 0.1; /* ten normals for one, on the average */
    if (normal_share((s.low - m) / s.scale, (s.high - m) / s.scale) >= least_share)
        fill_by_rejection(s, m, stream, out, n);
    else
        fill_by_inverse(s, m, stream, out, n);
}

void ls_spread_fill(ls_spread s, double m, ls_stream *stream, double *out, size_t n) {
    switch (s.kind) {
    case LS_EXACT:
        for (size_t i = 0; i < n; i++) out[i] = m;
        return;
    case LS_TRUNCATED: fill_truncated(s, m, stream, out, n); return;
    case LS_TRIANGULAR:
        ls_stream_uniform(stream, out, n);
        fill_triangular(s, m, out, n);
        return;
    case LS_RECTANGULAR:
        ls_stream_uniform(stream, out, n);
        shift_and_stretch(s.low, s.high - s.low, out, n);
        return;
    case LS_NORMAL:
    case LS_LOGNORMAL: ls_stream_normal(stream, out, n); break;
    case LS_STUDENT:
    case LS_LOG_STUDENT: ls_stream_student(stream, s.df, out, n); break;
    }
    if (s.kind == LS_LOGNORMAL || s.kind == LS_LOG_STUDENT)
        stretch_log(m, s.scale, out, n);
    else
        shift_and_stretch(m, s.scale, out, n);
    keep_within(s.low, s.high, out, n);
}

/* ---- in words ---- */

enum { DIGITS = 4 };

static const char *amount(ls_arena *a, double v, double factor, const char *unit) {
    return ls_unit_amount(a, ls_number_text(a, v / factor, DIGITS), unit);
}

static const char *between(ls_arena *a, ls_spread s, double factor, const char *unit) {
    return ls_arena_printf(a, "%s to %s", ls_number_text(a, s.low / factor, DIGITS), amount(a, s.high, factor, unit));
}

/* Bounds worth telling; that a quantity is never negative goes without saying. */
static const char *bounds(ls_arena *a, ls_spread s, double factor, const char *unit) {
    bool low = isfinite(s.low) && s.low != 0, high = isfinite(s.high);
    if (isfinite(s.low) && high) return ls_arena_printf(a, ", kept within %s", between(a, s, factor, unit));
    if (high) return ls_arena_printf(a, ", at most %s", amount(a, s.high, factor, unit));
    return low ? ls_arena_printf(a, ", at least %s", amount(a, s.low, factor, unit)) : "";
}

static const char *freedom(ls_arena *a, ls_spread s) {
    return ls_arena_printf(a, "%s degree%s of freedom", ls_number_text(a, s.df, DIGITS), s.df == 1 ? "" : "s");
}

static const char *factor_words(ls_arena *a, ls_spread s) {
    return ls_arena_printf(a, "log scale %s, up or down by a factor of %s", ls_number_text(a, s.scale, 2),
                           ls_number_text(a, exp(s.scale), 3));
}

static const char *shape(ls_arena *a, ls_spread s, double factor, const char *unit) {
    switch (s.kind) {
    case LS_EXACT: return "exact";
    case LS_NORMAL:
    case LS_TRUNCATED: return ls_arena_printf(a, "normal, sd %s", amount(a, s.scale, factor, unit));
    case LS_LOGNORMAL: return ls_arena_printf(a, "lognormal, %s", factor_words(a, s));
    case LS_TRIANGULAR: return ls_arena_printf(a, "%s (the middle of it most often)", between(a, s, factor, unit));
    case LS_RECTANGULAR: return ls_arena_printf(a, "%s (any value alike)", between(a, s, factor, unit));
    case LS_STUDENT:
        return ls_arena_printf(a, "Student t, %s, scale %s", freedom(a, s), amount(a, s.scale, factor, unit));
    case LS_LOG_STUDENT: return ls_arena_printf(a, "log of a Student t, %s, %s", freedom(a, s), factor_words(a, s));
    }
    return "";
}

const char *ls_spread_words(ls_arena *a, ls_spread s, double factor, const char *unit) {
    bool bounded = s.kind != LS_EXACT && s.kind != LS_TRIANGULAR && s.kind != LS_RECTANGULAR;
    if (bounded && fabs(s.low) < 1e-4 * s.scale) /* a bound that only keeps it above 0 */
        s.low = 0;
    return ls_arena_printf(a, "%s%s", shape(a, s, factor, unit), bounded ? bounds(a, s, factor, unit) : "");
}
