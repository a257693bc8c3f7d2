/* Building text, making it safe for where it goes, comparing names; numbers, apart from the locale.
 * All text is UTF-8. */
#pragma once

#include "littershed/base/arena.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* A text that grows; s is always NUL-terminated. */
typedef struct {
    ls_arena *arena;
    char *s;
    size_t n, cap;
} ls_text;

/* An empty text in the arena. */
ls_text *ls_text_new(ls_arena *a);
/* Room for n more bytes. */
void ls_text_room(ls_text *t, size_t n);
void ls_text_add(ls_text *t, const char *s);
void ls_text_add_n(ls_text *t, const char *s, size_t n);
void ls_text_addf(ls_text *t, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* Text from a file made safe, in the arena: for a terminal (control, invisible and
 * direction-changing characters and bad UTF-8 become a visible \xNN or \u{NNNN}), for HTML text and
 * attributes (& < > " ' too), and as one CSV cell (RFC 4180; a text cell that a spreadsheet would
 * run as a formula is led by an apostrophe). HTML and CSV keep tabs and line ends. */
const char *ls_text_plain(ls_arena *a, const char *s);
const char *ls_text_html(ls_arena *a, const char *s);
const char *ls_text_csv(ls_arena *a, const char *s);

/* Characters of s; columns a terminal needs for it (wide characters and pictures take two); the bytes of as many
 * characters as fit into so many columns; s cut to at most columns (an ellipsis marks the cut). */
size_t ls_text_characters(const char *s);
size_t ls_text_columns(const char *s);
size_t ls_text_bytes(const char *s, size_t columns);
const char *ls_text_fit(ls_arena *a, const char *s, size_t columns);

/* Add s wrapped between words to width columns (the indent counts), every line led by indent spaces and ended by a
 * newline. Any run of blanks and newlines is one gap; a word too long for a line stands alone and sticks out. */
void ls_text_wrap(ls_text *t, const char *s, size_t indent, size_t width);
/* Write s at the left, then pad with spaces up to columns (ls_text_right: pad first). */
void ls_text_left(ls_text *t, const char *s, size_t columns);
void ls_text_right(ls_text *t, const char *s, size_t columns);
/* A name as part of a worksheet key: ASCII lower case, digits and non-ASCII kept, runs of all else
 * one '_', none at the ends. A name with nothing left gives "_". */
const char *ls_text_slug(ls_arena *a, const char *name);
/* The nearest of n names for "did you mean": Damerau-Levenshtein distance at most max(1, length/3),
 * the first of equals; NULL if none is near. Case is ignored. */
const char *ls_text_nearest(const char *word, const char *const *names, size_t n);
/* For each of n texts the index of the first that is equal to it: its own if it is new. */
const size_t *ls_text_firsts(ls_arena *a, const char *const *texts, size_t n);
/* 64-bit FNV-1a of the bytes of s. */
uint64_t ls_text_hash(const char *s);

/* The check character of a number by ISO 7064 (2003), MOD 37,36: starting from 36, add each character's value (0-9, A =
 * 10 ... Z = 35) modulo 36 (0 counts as 36), double modulo 37; the check character brings the last sum to 1 modulo 36.
 * Anything but digits and capital letters is passed over. Every change of one character is caught, and all swaps of
 * neighbors but some between two characters of adjoining values (2 in 1,000 of all swaps). */
char ls_check_character(const char *s);
/* Equal texts; both may be NULL. */
bool ls_text_same(const char *a, const char *b);
/* Is word one of words ('|' between; NULL: none), capitals aside? */
bool ls_text_among(const char *words, const char *word);
/* Does s end with that? */
bool ls_text_ends(const char *s, const char *end);

/* ---- numbers ---- */

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
/* v to six significant digits, never coarser than whole units: what JSON and CSV carry. */
double ls_number_round(double v);
