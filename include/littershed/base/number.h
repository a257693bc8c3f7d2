/* Numbers in and out, apart from the locale. */
#pragma once

#include "littershed/base/arena.h"

#include <stdbool.h>
#include <stddef.h>

/* digits[.digits] and nothing else (no sign, exponent, hex, underscore, comma, nan, inf); at most
 * 1e15. False leaves out untouched. */
bool ls_number_parse(const char *s, size_t n, double *out);

/* v for a reader: at most digits significant (1-6), but never coarser than whole units; thousands
 * commas; no trailing zeros, no exponent; at most 12 decimals, so that what is left of a difference
 * that should vanish is "0". NaN and infinities give "unknown". */
const char *ls_number_text(ls_arena *a, double v, int digits);

/* v rounded to a multiple of step, a power of ten; thousands commas, no trailing zeros. */
const char *ls_number_step(ls_arena *a, double v, double step);

/* v with exactly places decimals (0-6) and thousands commas: for columns of like figures. */
const char *ls_number_fixed(ls_arena *a, double v, int places);

/* v rounded to at most six significant digits, never coarser than whole units: what JSON and CSV
 * carry. */
double ls_number_round(double v);
