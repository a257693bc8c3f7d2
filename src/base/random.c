#define HAVE_INLINE /* GSL then draws without one more call a number */

#include "littershed/base/random.h"

#include "littershed/base/arena.h"

#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>
#include <math.h>
#include <stdlib.h>

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

/* The finalizer of SplitMix64 (Steele, Lea, Flood 2014): every bit of x bears on every bit of the
 * result. */
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
    for (size_t i = 0; i < n; i++)
        out[i] = gsl_ran_gaussian_ziggurat(s->rng, 1) / sqrt(gsl_ran_chisq(s->rng, df) / df);
}
