/* The distributions of leaves. Moments from 400,000 draws; tolerances of five standard errors are
 * set beside each. */
#include "suite.h"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_math.h>
#include <gsl/gsl_statistics_double.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { DRAWS = 400000 };

typedef struct {
    double mean, sd, below; /* below: share of draws at or below m */
    double least, most;
} drawn;

static drawn draw(ls_spread spread, double m) {
    ls_arena *a = ls_arena_new();
    double *x = LS_NEW(a, double, DRAWS);
    ls_stream *s = ls_stream_new();
    ls_stream_start(s, 42, 4711, 0);
    ls_spread_fill(spread, m, s, x, DRAWS);
    drawn d = {gsl_stats_mean(x, 1, DRAWS), gsl_stats_sd(x, 1, DRAWS), 0, x[0], x[0]};
    for (size_t i = 0; i < DRAWS; i++) {
        d.below += x[i] <= m ? 1.0 / DRAWS : 0;
        d.least = fmin(d.least, x[i]);
        d.most = fmax(d.most, x[i]);
    }
    ls_stream_free(s);
    ls_arena_free(a);
    return d;
}

/* mean in five of its standard errors; the sd to 1 %; the share below m to 0.4 points; the scale is
 * the sd. */
static void check(ls_spread s, double m, double mean, double sd, double below) {
    drawn d = draw(s, m);
    TEST_NEAR(d.mean - mean, 0, 5 * sd / sqrt(DRAWS));
    TEST_NEAR(d.sd, sd, 0.01);
    TEST_NEAR(d.below - below, 0, 0.004);
    CU_ASSERT(d.least >= s.low && d.most <= s.high);
}

static void test_kinds(void) {
    check(ls_spread_normal(4), 31, 31, 4, 0.5);
    check(ls_spread_rectangular(4, 7), 5.5, 5.5, 3 / sqrt(12), 0.5);
    /* Triangular 1, 2, 6: mean 3, variance (1 + 4 + 36 - 2 - 6 - 12)/18 = 21/18; below the mode
     * 1/5. */
    check(ls_spread_triangular(1, 6), 2, 3, sqrt(21.0 / 18), 0.2);
    /* Lognormal: mean m exp(s^2/2), sd = mean sqrt(exp(s^2) - 1). */
    check(ls_spread_lognormal(0.35), 10, 10 * exp(0.06125), 10 * exp(0.06125) * sqrt(expm1(0.1225)), 0.5);
    /* Student t: variance df / (df - 2). */
    check(ls_spread_student(2, 10), 50, 50, 2 * sqrt(10.0 / 8), 0.5);
    /* Normal cut at the mean to one side: the half-normal, mean sqrt(2/pi), variance 1 - 2/pi. */
    check(ls_spread_truncated(3, 20, INFINITY), 20, 20 + 3 * sqrt(2 / M_PI), 3 * sqrt(1 - 2 / M_PI), 0);
    /* Within one sd either side: variance 1 - 2 f(1) / (2 F(1) - 1), f and F of the standard
     * normal. */
    double share = 2 * gsl_cdf_ugaussian_P(1) - 1, density = exp(-0.5) / sqrt(2 * M_PI);
    check(ls_spread_truncated(2, 8, 12), 10, 10, 2 * sqrt(1 - 2 * density / share), 0.5);
    /* So wide that nothing but the bounds is left of it: rectangular. */
    check(ls_spread_truncated(1e6, 10, 22), 16, 16, 12 / sqrt(12), 0.5);
    drawn exact = draw(ls_spread_exact(), 7);
    CU_ASSERT(exact.least == 7 && exact.most == 7);
}

/* Far in a tail nearly an exponential distribution of mean 1/a is left, a the distance in sd; by
 * the series of Mills' ratio the mean is 1/a - 2/a^3 and the sd 1/a - 3/a^3, to a^-5. Here a = 30.
 */
static void test_tails(void) {
    for (int sign = -1; sign <= 1; sign += 2) {
        ls_spread s = sign > 0 ? ls_spread_truncated(2, 60, INFINITY) : ls_spread_truncated(2, -INFINITY, -60);
        drawn d = draw(s, 0);
        TEST_NEAR(fabs(d.mean) - 60, 2 * (1.0 / 30 - 2.0 / 27000), 0.01);
        TEST_NEAR(d.sd, 2 * (1.0 / 30 - 3.0 / 27000), 0.02);
        TEST_NEAR(ls_spread_scale(s, 0), 2 * (1.0 / 30 - 3.0 / 27000), 1e-4);
    }
    drawn far = draw(ls_spread_truncated(1, 100, 101), 0); /* no double holds so small a share: the nearer bound */
    CU_ASSERT(far.least == 100 && far.most == 100);
}

static void test_bounds(void) {
    ls_spread s = ls_spread_normal(1);
    s.low = 0, s.high = 3;
    drawn d = draw(s, 1);
    CU_ASSERT(d.least == 0 && d.most == 3);
    s = ls_spread_log_student(0.5, 2);
    s.high = 4;
    d = draw(s, 2);
    CU_ASSERT(d.least > 0 && d.most == 4);
}

static void test_scale(void) {
    TEST_NEAR(ls_spread_scale(ls_spread_exact(), 5), 0, 0);
    TEST_NEAR(ls_spread_scale(ls_spread_normal(4), 31), 4, 0);
    /* 90 % points (NIST/SEMATECH e-Handbook, 1.3.6.7.1 and 1.3.6.7.2): t of 3 degrees of freedom
     * 1.638, of 2 1.886; normal 1.2816 */
    TEST_NEAR(ls_spread_scale(ls_spread_student(2, 3), 31), 2 * 1.638 / 1.2816, 1e-3);
    TEST_NEAR(ls_spread_scale(ls_spread_lognormal(0.1), -31), 3.1, 1e-15);
    TEST_NEAR(ls_spread_scale(ls_spread_log_student(0.1, 2), 31), 3.1 * 1.886 / 1.2816, 1e-3);
    TEST_NEAR(ls_spread_scale(ls_spread_rectangular(4, 7), 5), sqrt(0.75), 1e-15);
    TEST_NEAR(ls_spread_scale(ls_spread_triangular(1, 6), 2), sqrt(21.0 / 18), 1e-15);
    TEST_NEAR(ls_spread_scale(ls_spread_truncated(3, 20, INFINITY), 20), 3 * sqrt(1 - 2 / M_PI), 1e-14);
    TEST_NEAR(ls_spread_scale(ls_spread_truncated(3, -INFINITY, INFINITY), 20), 3, 1e-14);
    /* Within one sd either side: variance 1 - 2 f(1) / (2 F(1) - 1), f and F of the standard
     * normal. */
    double share = 2 * gsl_cdf_ugaussian_P(1) - 1, density = exp(-0.5) / sqrt(2 * M_PI);
    TEST_NEAR(ls_spread_scale(ls_spread_truncated(2, 8, 12), 10), 2 * sqrt(1 - 2 * density / share), 1e-14);
}

static void test_no_width(void) {
    TEST_SAME(ls_spread_normal(0).kind, LS_EXACT);
    TEST_SAME(ls_spread_student(0, 3).kind, LS_EXACT);
    TEST_SAME(ls_spread_rectangular(4, 4).kind, LS_EXACT);
    TEST_SAME(ls_spread_triangular(4, 4).kind, LS_EXACT);
}

/* Parts of any length are the same draws as the whole. */
static void test_parts(void) {
    enum { N = 1000 };
    static const ls_spread spreads[] = {
        {LS_NORMAL, 1, 0, 0, 3},      {LS_TRUNCATED, 3, 0, 9, 14},   {LS_TRUNCATED, 1, 0, 12.5, 16},
        {LS_LOGNORMAL, 0.3, 0, 0, 9}, {LS_TRIANGULAR, 15, 0, 5, 20}, {LS_RECTANGULAR, 12, 0, 4, 16},
        {LS_STUDENT, 1, 3, 0, 99},    {LS_LOG_STUDENT, 1, 3, 0, 99},
    };
    double whole[N], parts[N];
    ls_stream *s = ls_stream_new();
    for (size_t k = 0; k < sizeof spreads / sizeof *spreads; k++) {
        ls_stream_start(s, 1, 2, 3);
        ls_spread_fill(spreads[k], 10, s, whole, N);
        ls_stream_start(s, 1, 2, 3);
        for (size_t from = 0, n = 1; from < N; from += n, n = 2 * n < N - from ? 2 * n : N - from)
            ls_spread_fill(spreads[k], 10, s, parts + from, n);
        CU_ASSERT(memcmp(whole, parts, sizeof whole) == 0);
    }
    ls_stream_free(s);
}

static void test_words(void) {
    ls_arena *a = ls_arena_new();
    const double ton = 2000;
    ls_spread s = ls_spread_normal(4 / ton);
    TEST_TEXT(ls_spread_words(a, s, 1 / ton, "lb/ton"), "normal, sd 4 lb/ton");
    s.low = 0;
    TEST_TEXT(ls_spread_words(a, s, 1 / ton, "lb/ton"), "normal, sd 4 lb/ton");
    s.low = 1e-9 * 38 / ton; /* as good as 0 */
    TEST_TEXT(ls_spread_words(a, s, 1 / ton, "lb/ton"), "normal, sd 4 lb/ton");
    s.high = 50 / ton;
    TEST_TEXT(ls_spread_words(a, s, 1 / ton, "lb/ton"), "normal, sd 4 lb/ton, kept within 0 to 50 lb/ton");
    TEST_TEXT(ls_spread_words(a, ls_spread_exact(), 1, "ft"), "exact");
    TEST_TEXT(ls_spread_words(a, ls_spread_rectangular(0.9, 1), 1, ""), "0.9 to 1 (any value alike)");
    TEST_TEXT(ls_spread_words(a, ls_spread_triangular(0.9, 1), 0.01, "%"), "90 to 100% (the middle of it most often)");
    TEST_TEXT(ls_spread_words(a, ls_spread_truncated(0.02, 0.1, 0.6), 0.01, "%"),
              "normal, sd 2%, kept within 10 to 60%");
    TEST_TEXT(ls_spread_words(a, ls_spread_truncated(2, -INFINITY, 3), 1, "ft"), "normal, sd 2 ft, at most 3 ft");
    TEST_TEXT(ls_spread_words(a, ls_spread_student(0.25, 2), 1.0 / 12, "in"),
              "Student t, 2 degrees of freedom, scale 3 in");
    TEST_TEXT(ls_spread_words(a, ls_spread_student(1, 1), 1, "in"), "Student t, 1 degree of freedom, scale 1 in");
    TEST_TEXT(ls_spread_words(a, ls_spread_lognormal(0.35), 1, "lb"),
              "lognormal, log scale 0.35, up or down by a factor of 1.42");
    TEST_TEXT(ls_spread_words(a, ls_spread_log_student(0.35, 4), 1, "lb"),
              "log of a Student t, 4 degrees of freedom, log scale 0.35, up or down by a factor of 1.42");
    ls_arena_free(a);
}

TEST_SUITE(base_spread) = {
    {"mean, sd and median of every kind", test_kinds},
    {"truncated far in a tail", test_tails},
    {"draws beyond a bound count as the bound", test_bounds},
    {"scale for first order", test_scale},
    {"no width is exact", test_no_width},
    {"parts are the same draws as the whole", test_parts},
    {"in words", test_words},
    CU_TEST_INFO_NULL,
};
