/* Spread by drawing against distributions known exactly. Unless said otherwise tolerances are five
 * standard errors of the draws: of a p point sqrt(p (1 - p) / n) / density there; of a share sqrt(p
 * (1 - p) / n). */
#include "littershed/worksheet.h"
#include "suite.h"
#include "worksheet/program.h"
#include "worksheet/summary.h"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_randist.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { MILLION = 1000000 };

static ls_line leaf(ls_worksheet *w, const char *key, double value, ls_spread spread) {
    return ls_leaf(w, key, "", "", value, spread, (ls_origin){LS_BY_DEFINITION, LS_NOWHERE, NULL, NULL});
}

static void near_point(double got, double want, double p, double density) {
    double error = 5 * sqrt(p * (1 - p) / MILLION) / density;
    TEST_NEAR(got - want, 0, error);
}

static void near_share(double got, double p) { TEST_NEAR(got - p, 0, 5 * sqrt(p * (1 - p) / MILLION)); }

/* n like leaves, the points and the share above a limit of their sum. */
static ls_drawn sum_of(size_t n, double value, ls_spread spread, double above) {
    ls_arena *a = ls_arena_new();
    ls_worksheet *w = ls_worksheet_new(a);
    ls_line x[12];
    for (size_t i = 0; i < n; i++) x[i] = leaf(w, ls_printf(w, "x%zu", i), value, spread);
    ls_drawn sum = ls_drawn_of(ls_sum(w, "sum", "", "", x, n));
    sum.above = above;
    ls_draw(w, 20260216, MILLION, &sum, 1);
    ls_arena_free(a);
    return sum;
}

/* JCGM 101:2008, 9.2.2, Table 2: the sum of four standard normals has u = 2.0 and the 95 % interval
 * -3.92 to 3.92. */
static void test_four_normals(void) {
    ls_drawn sum = sum_of(4, 0, ls_spread_normal(1), 3.92);
    TEST_NEAR(sum.mean, 0, 5 * 2 / 1e3);
    TEST_NEAR(sum.sd, 2, 5 / sqrt(2e6));
    near_share(sum.share_above, 0.025); /* 3.92 is 1.96 sd: 0.024998 */
    near_point(sum.low, -2 * 1.2815515655446004, 0.1, gsl_ran_gaussian_pdf(2.5631, 2));
    near_point(sum.high, 2 * 1.2815515655446004, 0.9, gsl_ran_gaussian_pdf(2.5631, 2));
    near_point(sum.mid, 0, 0.5, gsl_ran_gaussian_pdf(0, 2));
}

/* Two on 0..1: the triangular distribution, F(x) = x^2 / 2 up to 1. Density x there. */
static void test_two_rectangular(void) {
    ls_drawn sum = sum_of(2, 0.5, ls_spread_rectangular(0, 1), 1.5);
    near_point(sum.low, sqrt(0.2), 0.1, sqrt(0.2));
    near_point(sum.mid, 1, 0.5, 1);
    near_point(sum.high, 2 - sqrt(0.2), 0.9, sqrt(0.2));
    near_share(sum.share_above, 0.125);
    TEST_NEAR(sum.sd, sqrt(1.0 / 6), 0.005);
}

/* Irwin-Hall: F(x) = sum over k <= x of (-1)^k C(n, k) (x - k)^n / n!. */
static double irwin_hall(int n, double x) {
    double sum = 0, binomial = 1, factorial = 1;
    for (int k = 1; k <= n; k++) factorial *= k;
    for (int k = 0; k <= n && k < x; k++) {
        sum += (k % 2 == 0 ? 1 : -1) * binomial * pow(x - k, n);
        binomial *= (double)(n - k) / (k + 1);
    }
    return sum / factorial;
}

static void test_twelve_rectangular(void) {
    ls_drawn sum = sum_of(12, 0.5, ls_spread_rectangular(0, 1), 8);
    near_share(sum.share_above, 1 - irwin_hall(12, 8));
    near_share(irwin_hall(12, sum.low), 0.1);
    near_share(irwin_hall(12, sum.mid), 0.5);
    near_share(irwin_hall(12, sum.high), 0.9);
    TEST_NEAR(sum.sd, 1, 0.005);
}

/* exp of a normal: the product of lognormals is lognormal, its squared log scales add; mean =
 * median x exp(s^2 / 2). */
static void test_lognormals(void) {
    ls_arena *a = ls_arena_new();
    ls_worksheet *w = ls_worksheet_new(a);
    ls_line x = leaf(w, "x", 3, ls_spread_lognormal(0.3)), y = leaf(w, "y", 5, ls_spread_lognormal(0.4));
    ls_line half = leaf(w, "half", 0.5, ls_spread_exact());
    ls_drawn drawn[] = {ls_drawn_of(LS_PRODUCT(w, "xy", "", "", x, y)),
                        ls_drawn_of(ls_geomean(w, "mean", "", "", (ls_line[]){x, y}, (ls_line[]){half, half}, 2))};
    ls_draw(w, 7, MILLION, drawn, 2);
    for (int i = 0; i < 2; i++) {
        double s = i == 0 ? 0.5 : 0.25, median = i == 0 ? 15 : sqrt(15), z = gsl_cdf_ugaussian_Pinv(0.9);
        near_point(log(drawn[i].low), log(median) - z * s, 0.1, gsl_ran_gaussian_pdf(z * s, s));
        near_point(log(drawn[i].mid), log(median), 0.5, gsl_ran_gaussian_pdf(0, s));
        near_point(log(drawn[i].high), log(median) + z * s, 0.9, gsl_ran_gaussian_pdf(z * s, s));
        TEST_NEAR(drawn[i].mean, median * exp(s * s / 2), 5 * s / 1e3);
        TEST_NEAR(ls_line_log_scale(w, drawn[i].line, NULL), s, 1e-14);
    }
    ls_arena_free(a);
}

static void test_student(void) {
    static const double df[] = {1, 2, 3, 5, 30};
    for (size_t i = 0; i < sizeof df / sizeof *df; i++) {
        double t = gsl_cdf_tdist_Pinv(0.9, df[i]), density = gsl_ran_tdist_pdf(t, df[i]);
        ls_drawn x = sum_of(1, 10, ls_spread_student(2, df[i]), 10 + 2 * gsl_cdf_tdist_Pinv(0.99, df[i]));
        near_point(x.low, 10 - 2 * t, 0.1, density / 2);
        near_point(x.high, 10 + 2 * t, 0.9, density / 2);
        near_share(x.share_above, 0.01);
        ls_drawn y = sum_of(1, 10, ls_spread_log_student(0.1, df[i]), NAN);
        near_point(log(y.high / 10), 0.1 * t, 0.9, density / 0.1);
        CU_ASSERT(isnan(y.share_above));
    }
}

/* A truck holds a rounded down number of whole things: x rectangular on 0.5..3.5, whole steps down
 * 0, 1, 2, 3 with chances 1/6, 1/3, 1/3, 1/6: the points are 0, 1 or 2 (the middle lies on the
 * edge: some blocks say 1, some 2) and 3. */
static void test_whole_numbers(void) {
    ls_arena *a = ls_arena_new();
    ls_worksheet *w = ls_worksheet_new(a);
    ls_line x = leaf(w, "x", 2, ls_spread_rectangular(0.5, 3.5)), one = leaf(w, "one", 1, ls_spread_exact());
    ls_drawn drawn = ls_drawn_of(ls_step_down(w, "n", "", "", x, one));
    drawn.above = 2.5;
    ls_draw(w, 7, MILLION, &drawn, 1);
    TEST_NEAR(drawn.low, 0, 0);
    TEST_NEAR(drawn.high, 3, 0);
    CU_ASSERT(drawn.mid > 1 && drawn.mid < 2);
    near_share(drawn.share_above, 1.0 / 6);
    TEST_NEAR(drawn.mean, 1.5, 0.005);
    ls_arena_free(a);
}

static void test_numbers_and_nothing(void) {
    ls_arena *a = ls_arena_new();
    ls_worksheet *w = ls_worksheet_new(a);
    ls_line two = leaf(w, "two", 2, ls_spread_exact());
    ls_drawn drawn[] = {ls_drawn_of(LS_SUM(w, "four", "", "", two, two)), ls_drawn_of(LS_NO_LINE)};
    drawn[0].above = 3.9;
    ls_draw(w, 7, 1, drawn, 2);
    CU_ASSERT(drawn[0].low == 4 && drawn[0].mid == 4 && drawn[0].high == 4 && drawn[0].mean == 4 && drawn[0].sd == 0);
    TEST_NEAR(drawn[0].share_above, 1, 0);
    CU_ASSERT(isnan(drawn[1].low) && isnan(drawn[1].mean) && isnan(drawn[1].sd) && isnan(drawn[1].share_above));
    /* 0/0 in one draw of four: no point can be told */
    ls_line x = leaf(w, "x", 0, ls_spread_rectangular(-1, 1)), none = leaf(w, "none", 0, ls_spread_exact());
    ls_line bad = ls_quotient(w, "bad", "", "", none, LS_GREATEST(w, "g", "", "", x, none));
    drawn[0] = ls_drawn_of(bad);
    ls_draw(w, 7, 1, drawn, 1);
    CU_ASSERT(isnan(drawn[0].low) && isnan(drawn[0].mid) && isnan(drawn[0].high) && isnan(drawn[0].mean));
    ls_arena_free(a);
}

/* ---- a graph with every kind of leaf; an extra one may be drawn before all others ---- */

static const ls_spread kinds[] = {
    {LS_NORMAL, 1, 0, 0, INFINITY},      {LS_TRUNCATED, 3, 0, 9, 20},    {LS_LOGNORMAL, 0.3, 0, -INFINITY, INFINITY},
    {LS_TRIANGULAR, 15, 0, 5, 20},       {LS_RECTANGULAR, 12, 0, 4, 16}, {LS_STUDENT, 1, 3, 0, INFINITY},
    {LS_LOG_STUDENT, 0.2, 4, 0.1, 1000}, {LS_TRUNCATED, 1, 0, 14, 16},
};
enum { KINDS = sizeof kinds / sizeof *kinds, WANTED = KINDS + 2 };

static void build_graph(ls_worksheet *w, ls_drawn out[WANTED]) {
    ls_line x[KINDS];
    for (size_t i = 0; i < KINDS; i++) {
        x[i] = leaf(w, ls_printf(w, "leaf.%zu", i), 10, kinds[i]);
        out[i] = ls_drawn_of(x[i]);
    }
    ls_line sum = ls_sum(w, "sum", "", "", x, KINDS);
    out[KINDS] = ls_drawn_of(sum);
    out[KINDS + 1] = ls_drawn_of(ls_quotient(w, "y", "", "", LS_PRODUCT(w, "p", "", "", x[0], x[1], x[0]), sum));
    out[KINDS + 1].above = 1.2;
}

static void draw_graph(const char *extra, uint64_t seed, size_t draws, size_t threads, ls_drawn out[WANTED]) {
    ls_arena *a = ls_arena_new();
    ls_worksheet *w = ls_worksheet_new(a);
    ls_drawn all[WANTED + 1];
    all[WANTED] = ls_drawn_of(extra == NULL ? LS_NO_LINE : leaf(w, extra, 5, ls_spread_normal(1)));
    build_graph(w, all);
    ls_worksheet_draw_on(w, seed, draws, all, WANTED + 1, threads);
    memcpy(out, all, WANTED * sizeof *out);
    ls_arena_free(a);
}

static bool same_bytes(const ls_drawn a[WANTED], const ls_drawn b[WANTED]) {
    bool same = true;
    for (size_t i = 0; i < WANTED; i++)
        same = same && memcmp(&a[i].low, &b[i].low, 5 * sizeof(double)) == 0 &&
               (a[i].share_above == b[i].share_above || (isnan(a[i].share_above) && isnan(b[i].share_above)));
    return same;
}

static void test_same_bytes(void) {
    enum { DRAWS = 7 * LS_BLOCK };
    ls_drawn one[WANTED], two[WANTED], other[WANTED];
    draw_graph(NULL, 11, DRAWS, 1, one);
    draw_graph(NULL, 11, DRAWS, 1, two);
    CU_ASSERT(same_bytes(one, two));
    draw_graph(NULL, 11, DRAWS, 2, two);
    CU_ASSERT(same_bytes(one, two));
    draw_graph(NULL, 11, DRAWS, 5, two);
    CU_ASSERT(same_bytes(one, two));
    draw_graph("extra", 11, DRAWS, 2, two);
    CU_ASSERT(same_bytes(one, two));
    draw_graph(NULL, 11, DRAWS - LS_BLOCK + 1, 2, two); /* rounded up to whole blocks */
    CU_ASSERT(same_bytes(one, two));
    draw_graph(NULL, 12, DRAWS, 2, other);
    for (size_t i = 0; i < WANTED; i++) CU_ASSERT(other[i].mid != one[i].mid);
}

/* Wanted lines beyond what is drawn at once, the same line twice among them. */
static void test_many_wanted(void) {
    enum { MANY = 600 };
    ls_arena *a = ls_arena_new();
    ls_worksheet *w = ls_worksheet_new(a);
    ls_line x = leaf(w, "x", 10, ls_spread_normal(1)), last = x;
    ls_drawn *drawn = LS_NEW(a, ls_drawn, MANY);
    for (size_t i = 0; i < MANY; i++) {
        drawn[i] = ls_drawn_of(i % 2 == 0 ? last : x);
        last = LS_SUM(w, ls_printf(w, "x + %zu x", i), "", "", last, x);
    }
    ls_draw(w, 3, 1, drawn, MANY);
    for (size_t i = 0; i < MANY; i++) {
        double times = i % 2 == 0 ? (double)i + 1 : 1;
        TEST_NEAR(drawn[i].low, times * drawn[1].low, 1e-12);
        TEST_NEAR(drawn[i].sd, times * drawn[1].sd, 1e-9);
    }
    ls_arena_free(a);
}

/* ---- memory ---- */

/* The highest resident size since the last reset, kB; 0 if the system does not tell. */
static long peak(void) {
    char line[200];
    long kilobytes = 0;
    FILE *f = fopen("/proc/self/status", "r");
    while (f != NULL && fgets(line, sizeof line, f) != NULL) sscanf(line, "VmHWM: %ld", &kilobytes);
    if (f != NULL) fclose(f);
    return kilobytes;
}

static void reset_peak(void) {
    FILE *f = fopen("/proc/self/clear_refs", "w");
    if (f != NULL) {
        fputs("5", f);
        fclose(f);
    }
}

/* Ten lines of ten times the draws: kept, they would take 56 MB more. */
static void test_memory(void) {
    ls_drawn drawn[WANTED];
    draw_graph(NULL, 1, 8 * LS_BLOCK, 2, drawn);
    reset_peak();
    draw_graph(NULL, 1, 8 * LS_BLOCK, 2, drawn);
    long few = peak();
    CU_ASSERT(few > 0);
    reset_peak();
    draw_graph(NULL, 1, 80 * LS_BLOCK, 2, drawn);
    TEST_NEAR((double)(peak() - few), 0, 8000);
}

/* ---- mean, standard deviation, points ---- */

/* NIST Statistical Reference Datasets, univariate: certified mean and sd. The tolerances of NumAcc
 * are those of the GSL's own test of them (statistics/test_nist.c), which a plain sum of squares
 * does not pass; Mavro to the 12 digits that its data keep in binary. Whole, and joined from two
 * parts (to 1e-14 at best). */
static void check_nist(const double *x, size_t n, double mean, double sd, double tolerance) {
    ls_worksheet_moments m = ls_worksheet_moments_of(x, n);
    TEST_NEAR(m.mean, mean, 1e-15);
    TEST_NEAR(ls_worksheet_moments_sd(m), sd, tolerance);
    m = ls_worksheet_moments_join(ls_worksheet_moments_of(x, n / 3), ls_worksheet_moments_of(x + n / 3, n - n / 3));
    TEST_NEAR(m.mean, mean, 1e-15);
    TEST_NEAR(ls_worksheet_moments_sd(m), sd, tolerance > 1e-14 ? tolerance : 1e-14);
}

static void check_accuracy(double first, double low, double high, double sd_tolerance) {
    enum { N = 1001 };
    double x[N] = {first};
    for (size_t i = 1; i < N; i++) x[i] = i % 2 == 1 ? low : high;
    check_nist(x, N, first, 0.1, sd_tolerance);
}

/* Michelso: the 100 speeds of light of 1879, less 299, in thousandths of 1,000 km/s. The data are
 * from memory; that they give the certified mean and sd to 14 digits shows that they are right. */
static void michelson(void) {
    static const int thousandths[] = {
        850, 740, 900, 1070, 930, 850, 950, 980, 980, 880, 1000, 980, 930, 650, 760, 810, 1000, 1000, 960, 960,
        960, 940, 960, 940,  880, 800, 850, 880, 900, 840, 830,  790, 810, 880, 880, 830, 800,  790,  760, 800,
        880, 880, 880, 860,  720, 720, 620, 860, 970, 950, 880,  910, 850, 870, 840, 840, 850,  840,  840, 840,
        890, 810, 810, 820,  800, 770, 760, 740, 750, 760, 910,  920, 890, 860, 880, 720, 840,  850,  850, 780,
        890, 840, 780, 810,  760, 810, 790, 810, 820, 850, 870,  870, 810, 740, 810, 940, 950,  800,  810, 870};
    enum { N = sizeof thousandths / sizeof *thousandths };
    double x[N];
    for (size_t i = 0; i < N; i++) x[i] = 299 + thousandths[i] / 1000.0;
    check_nist(x, N, 299.852400000000, 0.0790105478190518, 1e-12);
}

static void test_nist(void) {
    static const double mavro[] = {2.00180, 2.00170, 2.00180, 2.00190, 2.00180, 2.00170, 2.00150, 2.00140, 2.00150,
                                   2.00150, 2.00170, 2.00180, 2.00180, 2.00190, 2.00190, 2.00210, 2.00200, 2.00160,
                                   2.00140, 2.00130, 2.00130, 2.00150, 2.00150, 2.00160, 2.00150, 2.00140, 2.00130,
                                   2.00140, 2.00150, 2.00140, 2.00150, 2.00160, 2.00150, 2.00160, 2.00190, 2.00200,
                                   2.00200, 2.00210, 2.00220, 2.00230, 2.00240, 2.00250, 2.00270, 2.00260, 2.00260,
                                   2.00260, 2.00270, 2.00260, 2.00250, 2.00240};
    check_nist((const double[]){10000001, 10000003, 10000002}, 3, 10000002, 1, 1e-15); /* NumAcc1 */
    /* Doubles here are whole numbers: the mean cannot be held, the sd sqrt(1/3) can. */
    check_nist((const double[]){0x1p52, 0x1p52 + 1, 0x1p52 + 1}, 3, 0x1p52 + 2.0 / 3, sqrt(1.0 / 3), 1e-15);
    check_accuracy(1.2, 1.1, 1.3, 1e-15);                     /* NumAcc2 */
    check_accuracy(1000000.2, 1000000.1, 1000000.3, 1e-9);    /* NumAcc3 */
    check_accuracy(10000000.2, 10000000.1, 10000000.3, 1e-7); /* NumAcc4 */
    check_nist(mavro, sizeof mavro / sizeof *mavro, 2.00185600000000, 0.000429123454003053, 1e-12);
    michelson();
}

static int rising(const void *a, const void *b) {
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* n of x in this order, against the same sorted: of 10,000 ranks 1,000, 5,000 and 9,000 from 1. */
static void check_points(double *x, size_t n, double *scratch) {
    double got[LS_WORKSHEET_POINTS];
    ls_worksheet_points(x, n, scratch, got);
    qsort(x, n, sizeof *x, rising);
    CU_ASSERT(got[0] == x[n / 10 - 1] && got[1] == x[n / 2 - 1] && got[2] == x[n / 10 * 9 - 1]);
}

static void test_points(void) {
    enum { SHAPES = 7, SEEDS = 30 };
    ls_arena *a = ls_arena_new();
    double *x = LS_NEW(a, double, LS_BLOCK), *scratch = LS_NEW(a, double, LS_WORKSHEET_POINTS *LS_BLOCK);
    ls_stream *s = ls_stream_new();
    for (size_t seed = 0; seed < SEEDS * SHAPES; seed++) {
        ls_stream_start(s, seed, 1, 0);
        ls_stream_student(s, 1, x, LS_BLOCK);
        for (size_t i = 0; i < LS_BLOCK; i++) {
            const double shapes[SHAPES] = {x[i],        (double)i, -(double)i,          floor(x[i]),
                                           i % 10 == 0, 3,         i < 600 ? 9e9 : x[i]};
            x[i] = shapes[seed % SHAPES];
        }
        if (seed == 0) x[17] = INFINITY, x[600] = -INFINITY;
        check_points(x, 500, scratch);
        check_points(x, 1500, scratch);
        check_points(x, LS_BLOCK, scratch);
    }
    ls_stream_free(s);
    ls_arena_free(a);
}

/* JCGM 101:2008, 7.9.2, examples (from memory): u = 0.000 35, two digits: 35e-5, tolerance 5e-6;
 * one digit: 4e-4, 5e-5. A u that rounds up to one digit more moves the last place. */
static void test_tolerance(void) {
    TEST_NEAR(ls_worksheet_tolerance(0.00035, 2), 5e-6, 1e-9);
    TEST_NEAR(ls_worksheet_tolerance(0.00035, 1), 5e-5, 1e-9);
    TEST_NEAR(ls_worksheet_tolerance(2.0, 1), 0.5, 1e-12);
    TEST_NEAR(ls_worksheet_tolerance(9.4, 1), 0.5, 1e-12);
    TEST_NEAR(ls_worksheet_tolerance(9.6, 1), 5, 1e-12);
    TEST_NEAR(ls_worksheet_tolerance(99.7, 2), 5, 1e-12);
    TEST_NEAR(ls_worksheet_tolerance(0, 2), 0, 0);
}

/* Four standard normals to one and two digits: the points are then within the tolerance of the
 * exact ones (0.5 and 0.05 of u = 2.0); a cap ends it early and says so; an exact line needs one
 * block. */
static void test_enough_draws(void) {
    ls_arena *a = ls_arena_new();
    ls_worksheet *w = ls_worksheet_new(a);
    ls_line x[4];
    for (size_t i = 0; i < 4; i++) x[i] = leaf(w, ls_printf(w, "x%zu", i), 0, ls_spread_normal(1));
    ls_line sum = ls_sum(w, "sum", "", "", x, 4);
    bool enough = false;
    size_t one = ls_draws_needed(w, 7, 1, MILLION, &sum, 1, &enough);
    CU_ASSERT_TRUE(enough);
    TEST_SAME(one, 2 * LS_BLOCK);
    size_t two = ls_draws_needed(w, 7, 2, MILLION, &sum, 1, &enough);
    CU_ASSERT_TRUE(enough);
    CU_ASSERT_TRUE(two >= one && two % LS_BLOCK == 0 && two < MILLION);
    ls_drawn d = ls_drawn_of(sum);
    ls_draw(w, 7, two, &d, 1);
    TEST_NEAR(d.low - -2 * 1.2815515655446004, 0, 0.05);
    TEST_NEAR(d.high - 2 * 1.2815515655446004, 0, 0.05);
    TEST_NEAR(d.sd - 2, 0, 0.05);
    TEST_SAME(ls_draws_needed(w, 7, 2, LS_BLOCK, &sum, 1, &enough), LS_BLOCK);
    CU_ASSERT_FALSE(enough);
    ls_line wild = leaf(w, "wild", 0, ls_spread_student(1, 1)); /* no standard deviation, but points */
    CU_ASSERT_TRUE(ls_draws_needed(w, 7, 1, MILLION, &wild, 1, &enough) < MILLION);
    CU_ASSERT_TRUE(enough);
    ls_line exact = leaf(w, "exact", 3, ls_spread_exact());
    TEST_SAME(ls_draws_needed(w, 7, 2, MILLION, &exact, 1, &enough), LS_BLOCK);
    CU_ASSERT_TRUE(enough);
    ls_arena_free(a);
}

/* Lines of worksheets drawn together are as each drawn by itself, also where leaves of one name are
 * not alike. */
static void test_each(void) {
    ls_arena *a = ls_arena_new();
    ls_draw_job jobs[5];
    for (size_t i = 0; i < 5; i++) {
        ls_worksheet *w = ls_worksheet_new(a);
        ls_line x = leaf(w, "x", i < 4 ? 10 : 11, ls_spread_normal(i < 2 ? 1 : 2)),
                y = leaf(w, i < 3 ? "y" : "z", 5, ls_spread_student(1, 2));
        jobs[i] = (ls_draw_job){w, ls_drawn_of(LS_SUM(w, "sum", "", "", x, y))};
    }
    ls_draw_each(jobs, 5, 11);
    for (size_t i = 0; i < 5; i++) {
        ls_drawn alone = ls_drawn_of(jobs[i].drawn.line);
        ls_draw(jobs[i].w, 11, LS_BLOCK, &alone, 1);
        CU_ASSERT(alone.low == jobs[i].drawn.low && alone.high == jobs[i].drawn.high);
    }
    CU_ASSERT(jobs[0].drawn.low == jobs[1].drawn.low && jobs[1].drawn.low != jobs[2].drawn.low);
    ls_arena_free(a);
}

/* First order is exact for a sum of normals and poor for a product of wide lognormals. */
static void test_first_order(void) {
    ls_arena *a = ls_arena_new();
    ls_worksheet *w = ls_worksheet_new(a);
    ls_line x = leaf(w, "x", 10, ls_spread_normal(3)), y = leaf(w, "y", 20, ls_spread_normal(4));
    ls_line p = leaf(w, "p", 1, ls_spread_lognormal(1)), q = leaf(w, "q", 1, ls_spread_lognormal(1));
    ls_drawn sum = ls_drawn_of(LS_SUM(w, "sum", "", "", x, y));
    ls_drawn product = ls_drawn_of(LS_PRODUCT(w, "product", "", "", p, q));
    ls_draw(w, 3, MILLION, &sum, 1);
    ls_draw(w, 3, MILLION, &product, 1);
    ls_first_order good = ls_line_first_order(w, sum.line, &sum);
    TEST_NEAR(good.u, 5, 1e-12);
    TEST_NEAR(good.high, 30 + 5 * 1.2815515655446004, 1e-12);
    CU_ASSERT_TRUE(good.good);
    ls_first_order poor = ls_line_first_order(w, product.line, &product);
    TEST_NEAR(poor.u, sqrt(2), 1e-12);
    CU_ASSERT_FALSE(poor.good);
    CU_ASSERT_TRUE(poor.off_high > 3); /* exact: exp(1.2816 sqrt 2) = 6.13 against 2.81 */
    ls_arena_free(a);
}

TEST_SUITE(worksheet_draw) = {
    {"four standard normals (JCGM 101, 9.2.2)", test_four_normals},
    {"two rectangular: triangular", test_two_rectangular},
    {"twelve rectangular: Irwin-Hall", test_twelve_rectangular},
    {"product and geometric mean of lognormals", test_lognormals},
    {"Student t", test_student},
    {"whole numbers", test_whole_numbers},
    {"what draws nothing, and what cannot be told", test_numbers_and_nothing},
    {"same seed, same bytes, whatever the threads and other leaves", test_same_bytes},
    {"more lines than are drawn at once", test_many_wanted},
    {"memory does not grow with draws", test_memory},
    {"mean and sd of the NIST StRD sets", test_nist},
    {"points are order statistics", test_points},
    {"tolerance in digits (JCGM 101, 7.9.2)", test_tolerance},
    {"enough draws (JCGM 101, 7.9)", test_enough_draws},
    {"first order beside the draws (JCGM 101, 8)", test_first_order},
    {"lines of several worksheets", test_each},
    CU_TEST_INFO_NULL,
};
