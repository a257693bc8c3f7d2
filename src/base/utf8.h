/* Characters in UTF-8 bytes that may be bad. */
#pragma once

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* One character of a text: its code point and bytes. A byte that belongs to no valid character is
 * one of its own, with valid false and the byte as its code. */
typedef struct {
    uint32_t code;
    uint32_t bytes;
    bool valid;
} ls_utf8_character;

/* The character that begins at s; n > 0 bytes remain. */
ls_utf8_character ls_utf8_at(const char *s, size_t n);
/* How many bytes at s are printing ASCII, safe and one column each: most of all text. */
size_t ls_utf8_plain(const char *s);
/* How many bytes before s[at] the character before it begins (at > 0). */
size_t ls_utf8_back(const char *s, size_t at);
/* Columns of a terminal it takes: 2 for the wide characters of East Asia and pictures, 1 for all
 * else (marks that stand on another character count as well: never too few). */
size_t ls_utf8_columns(ls_utf8_character c);

/* Room for what ls_utf8_visible writes. */
enum { LS_UTF8_VISIBLE = 16 };

/* The character at s as it may be shown: itself, \xNN or \u{NNNN}. Returns its columns. */
size_t ls_utf8_visible(const char *s, ls_utf8_character c, char out[LS_UTF8_VISIBLE]);
