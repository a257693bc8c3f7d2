/* Random streams that can be named: the same (seed, name, block) gives the same numbers wherever it
 * is used. */
#pragma once

#include <stddef.h>
#include <stdint.h>

typedef struct ls_stream ls_stream;

/* A stream (a GSL Mersenne twister) owned by the caller; start it before drawing. One per thread.
 */
ls_stream *ls_stream_new(void);
void ls_stream_free(ls_stream *s);
/* Begin the numbers of (seed, name, block); name is a hash (ls_text_hash). */
void ls_stream_start(ls_stream *s, uint64_t seed, uint64_t name, uint64_t block);

/* Fill out[0..n): uniform on (0,1); standard normal (ziggurat); Student t with df degrees of
 * freedom. */
void ls_stream_uniform(ls_stream *s, double *out, size_t n);
void ls_stream_normal(ls_stream *s, double *out, size_t n);
void ls_stream_student(ls_stream *s, double df, double *out, size_t n);
