/* How sure a figure is: the distribution of a leaf of the worksheet, and its random numbers. */
#pragma once

#include "littershed/base/arena.h"

#include <stddef.h>
#include <stdint.h>

typedef struct ls_stream ls_stream;

/* A stream (a GSL Mersenne twister), the caller's, one per thread; start it before drawing. */
ls_stream *ls_stream_new(void);
void ls_stream_free(ls_stream *s);
/* Begin the numbers of (seed, name, block), the same everywhere; name: see ls_text_hash. */
void ls_stream_start(ls_stream *s, uint64_t seed, uint64_t name, uint64_t block);
/* Fill out[0..n): uniform on (0,1); standard normal (ziggurat); Student t of df degrees. */
void ls_stream_uniform(ls_stream *s, double *out, size_t n);
void ls_stream_normal(ls_stream *s, double *out, size_t n);
void ls_stream_student(ls_stream *s, double df, double *out, size_t n);

/* m is the stated figure of the leaf, in base units. It is the median, but for a truncated normal
 * (a table's mean) and a triangular one (the most usual value). */
typedef enum {
    LS_EXACT,       /* m, always */
    LS_NORMAL,      /* m + scale * Z */
    LS_TRUNCATED,   /* normal about m, sd scale, kept within low..high */
    LS_LOGNORMAL,   /* m * exp(scale * Z) */
    LS_TRIANGULAR,  /* low, most usual m, high */
    LS_RECTANGULAR, /* low..high, m the middle */
    LS_STUDENT,     /* m + scale * t(df) */
    LS_LOG_STUDENT  /* m * exp(scale * t(df)) */
} ls_spread_kind;

typedef struct {
    ls_spread_kind kind;
    double scale;     /* base units; log kinds: on the natural log scale */
    double df;        /* Student kinds */
    double low, high; /* base units; truncated, triangular, rectangular. Normal, Student and log
                         kinds: a draw beyond them counts as the bound (a depth is never negative);
                         constructors set them to +-INFINITY */
} ls_spread;

/* A spread of no width (scale 0, low equal to high) comes out as the exact one. Scales are >= 0,
 * low <= high. Ranges, given low and high, keep their width in scale. */
ls_spread ls_spread_exact(void);
ls_spread ls_spread_normal(double sd);
ls_spread ls_spread_truncated(double sd, double low, double high);
ls_spread ls_spread_lognormal(double log_sd);
ls_spread ls_spread_rectangular(double low, double high);
ls_spread ls_spread_triangular(double low, double high);
ls_spread ls_spread_student(double scale, double df);
ls_spread ls_spread_log_student(double log_scale, double df);
/* The same about m with factor (0 to 1) times the width. */
ls_spread ls_spread_narrowed(ls_spread s, double m, double factor);

/* The scale of the spread about m in base units, for first-order propagation: the sd of exact (0),
 * normal, triangular and rectangular; the sd within the bounds for a truncated normal; |m| * scale
 * for the log kinds; a t counts by the normal distribution that has the same 10 and 90 % points,
 * not by its sd (with 2 degrees of freedom it has none). Other bounds are not looked at. */
double ls_spread_scale(ls_spread s, double m);
/* n draws about m into out, from the stream as it stands: drawing a and then b gives the same
 * numbers as a + b at once. */
void ls_spread_fill(ls_spread s, double m, ls_stream *stream, double *out, size_t n);

/* The spread in words, in the arena, of a figure shown in a unit of factor base units called unit: "normal, sd 4
 * lb/ton", "0.9 to 1 (any value alike)", "Student t, 2 degrees of freedom, ...", "exact". */
const char *ls_spread_words(ls_arena *a, ls_spread s, double factor, const char *unit);
