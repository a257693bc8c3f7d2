/* Random streams: reproducible, apart from each other, of the right moments. */
#include "suite.h"

#include <math.h>
#include <string.h>

enum { N = 200000 };

typedef void (*fill)(ls_stream *s, double *out, size_t n);

static void student(ls_stream *s, double *out, size_t n) { ls_stream_student(s, 9, out, n); }

static const fill fills[] = {ls_stream_uniform, ls_stream_normal, student};

static void test_reproducible(void) {
    ls_arena *a = ls_arena_new();
    double *one = LS_NEW(a, double, 1000), *two = LS_NEW(a, double, 1000);
    ls_stream *s = ls_stream_new(), *t = ls_stream_new();
    for (size_t k = 0; k < sizeof fills / sizeof *fills; k++) {
        ls_stream_start(s, 1, ls_text_hash("north.depth"), 3);
        fills[k](s, one, 1000);
        ls_stream_start(t, 99, 99, 99);
        fills[k](t, two, 500);
        ls_stream_start(t, 1, ls_text_hash("north.depth"), 3);
        fills[k](t, two, 1); /* in columns of any length */
        fills[k](t, two + 1, 256);
        fills[k](t, two + 257, 743);
        CU_ASSERT(memcmp(one, two, 1000 * sizeof *one) == 0);
    }
    ls_stream_free(s);
    ls_stream_free(t);
    ls_stream_free(NULL);
    ls_arena_free(a);
}

/* Neighboring seeds, names and blocks give streams with no number in common and no correlation. */
static void test_apart(void) {
    static const uint64_t starts[][3] = {{0, 0, 0}, {1, 0, 0}, {0, 1, 0}, {0, 0, 1}, {1, 1, 0},
                                         {0, 1, 1}, {1, 0, 1}, {2, 1, 0}, {1, 2, 0}, {4357, 0, 0}};
    enum { STARTS = sizeof starts / sizeof *starts, LENGTH = 10000 };
    ls_arena *a = ls_arena_new();
    double *at[STARTS];
    ls_stream *s = ls_stream_new();
    for (size_t i = 0; i < STARTS; i++) {
        at[i] = LS_NEW(a, double, LENGTH);
        ls_stream_start(s, starts[i][0], starts[i][1], starts[i][2]);
        ls_stream_normal(s, at[i], LENGTH);
    }
    for (size_t i = 0; i < STARTS; i++) {
        for (size_t j = 0; j < i; j++) {
            double sum = 0;
            for (size_t k = 0; k < LENGTH; k++) sum += at[i][k] * at[j][k];
            CU_ASSERT(at[i][0] != at[j][0]);
            TEST_NEAR(sum / LENGTH, 0, 5 / sqrt(LENGTH)); /* five standard errors */
        }
    }
    ls_stream_free(s);
    ls_arena_free(a);
}

/* mean of out[i]^power against its exact value; the standard error from the exact moment of twice
 * the power. */
static void check_moment(const double *out, int power, double exact, double exact_twice) {
    double sum = 0;
    for (size_t i = 0; i < N; i++) sum += pow(out[i], power);
    TEST_NEAR(sum / N - exact, 0, 5 * sqrt((exact_twice - exact * exact) / N));
}

static void test_moments(void) {
    ls_arena *a = ls_arena_new();
    double *out = LS_NEW(a, double, N);
    ls_stream *s = ls_stream_new();
    ls_stream_start(s, 20260216, ls_text_hash("moments"), 0);
    ls_stream_uniform(s, out, N);
    for (size_t i = 0; i < N; i++) CU_ASSERT_FATAL(out[i] > 0 && out[i] < 1);
    for (int k = 1; k <= 4; k++) check_moment(out, k, 1.0 / (k + 1), 1.0 / (2 * k + 1));
    ls_stream_normal(s, out, N); /* the moments of even order are 1, 3, 15, 105 */
    check_moment(out, 1, 0, 1);
    check_moment(out, 2, 1, 3);
    check_moment(out, 3, 0, 15);
    check_moment(out, 4, 3, 105);
    /* Student t with 13 degrees of freedom: variance v/(v-2), fourth moment 3 v^2/((v-2)(v-4)). */
    ls_stream_student(s, 13, out, N);
    check_moment(out, 1, 0, 13.0 / 11);
    check_moment(out, 2, 13.0 / 11, 3.0 * 13 * 13 / (11 * 9));
    double eighth = 105.0 * 13 * 13 * 13 * 13 / (11.0 * 9 * 7 * 5);
    check_moment(out, 4, 3.0 * 13 * 13 / (11 * 9), eighth);
    ls_stream_free(s);
    ls_arena_free(a);
}

/* Shares below tabulated points of the normal and of t with 4 degrees of freedom (97.5 %: 1.959964
 * and 2.776445). */
static void test_tails(void) {
    ls_arena *a = ls_arena_new();
    double *out = LS_NEW(a, double, N);
    ls_stream *s = ls_stream_new();
    for (int k = 0; k < 2; k++) {
        double point = k == 0 ? 1.959964 : 2.776445, below = 0;
        ls_stream_start(s, 5, ls_text_hash("tails"), (uint64_t)k);
        if (k == 0)
            ls_stream_normal(s, out, N);
        else
            ls_stream_student(s, 4, out, N);
        for (size_t i = 0; i < N; i++) below += out[i] < point;
        TEST_NEAR(below / N - 0.975, 0, 5 * sqrt(0.975 * 0.025 / N));
    }
    ls_stream_free(s);
    ls_arena_free(a);
}

TEST_SUITE(base_random) = {
    {"reproducible", test_reproducible},
    {"apart", test_apart},
    {"moments", test_moments},
    {"tails", test_tails},
    CU_TEST_INFO_NULL,
};
