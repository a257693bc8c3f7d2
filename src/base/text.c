#include "littershed/base/text.h"

#include "utf8.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

ls_text *ls_text_new(ls_arena *a) {
    ls_text *t = LS_NEW(a, ls_text, 1);
    t->arena = a;
    t->cap = 64;
    t->s = LS_NEW(a, char, t->cap);
    return t;
}

void ls_text_room(ls_text *t, size_t n) {
    if (n < t->cap - t->n) return;
    size_t cap = t->cap;
    while (cap - t->n <= n) {
        if (cap > SIZE_MAX / 4) ls_fail("out of memory");
        cap *= 2;
    }
    char *bigger = LS_NEW(t->arena, char, cap);
    memcpy(bigger, t->s, t->n);
    t->s = bigger;
    t->cap = cap;
}

void ls_text_add_n(ls_text *t, const char *s, size_t n) {
    ls_text_room(t, n);
    if (n > 0) memcpy(t->s + t->n, s, n);
    t->n += n;
    t->s[t->n] = '\0';
}

void ls_text_add(ls_text *t, const char *s) { ls_text_add_n(t, s, strlen(s)); }

void ls_text_addf(ls_text *t, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    int n = vsnprintf(NULL, 0, format, arguments);
    va_end(arguments);
    if (n < 0) ls_fail("a text could not be put together");
    ls_text_room(t, (size_t)n);
    va_start(arguments, format);
    vsnprintf(t->s + t->n, (size_t)n + 1, format, arguments);
    va_end(arguments);
    t->n += (size_t)n;
}

size_t ls_text_characters(const char *s) {
    size_t characters = 0;
    for (size_t n = strlen(s); n > 0; characters++) {
        ls_utf8_character c = ls_utf8_at(s, n);
        s += c.bytes;
        n -= c.bytes;
    }
    return characters;
}

size_t ls_text_columns(const char *s) {
    size_t columns = ls_utf8_plain(s);
    s += columns;
    for (size_t n = strlen(s); n > 0;) {
        ls_utf8_character c = ls_utf8_at(s, n);
        columns += ls_utf8_columns(c);
        s += c.bytes;
        n -= c.bytes;
    }
    return columns;
}

size_t ls_text_bytes(const char *s, size_t columns) {
    size_t n = strlen(s), at = 0, used = 0;
    while (at < n) {
        ls_utf8_character c = ls_utf8_at(s + at, n - at);
        used += ls_utf8_columns(c);
        if (used > columns) break;
        at += c.bytes;
    }
    return at;
}

const char *ls_text_fit(ls_arena *a, const char *s, size_t columns) {
    if (ls_text_columns(s) <= columns) return ls_arena_copy(a, s);
    if (columns == 0) return "";
    return ls_arena_printf(a, "%.*s\u2026", (int)ls_text_bytes(s, columns - 1), s);
}

static void add_spaces(ls_text *t, size_t n) {
    for (; n > 0; n--) ls_text_add_n(t, " ", 1);
}

void ls_text_wrap(ls_text *t, const char *s, size_t indent, size_t width) {
    static const char blanks[] = " \t\n";
    size_t column = 0;
    for (s += strspn(s, blanks); *s != '\0'; s += strspn(s, blanks)) {
        size_t n = strcspn(s, blanks);
        size_t columns = ls_text_columns(ls_arena_copy_n(t->arena, s, n));
        if (column > 0 && column + 1 + columns > width) {
            ls_text_add_n(t, "\n", 1);
            column = 0;
        }
        if (column == 0) {
            add_spaces(t, indent);
            column = indent;
        } else {
            ls_text_add_n(t, " ", 1);
            column++;
        }
        ls_text_add_n(t, s, n);
        column += columns;
        s += n;
    }
    if (column > 0) ls_text_add_n(t, "\n", 1);
}

void ls_text_left(ls_text *t, const char *s, size_t columns) {
    size_t own = ls_text_columns(s);
    ls_text_add(t, s);
    add_spaces(t, columns > own ? columns - own : 0);
}

void ls_text_right(ls_text *t, const char *s, size_t columns) {
    size_t own = ls_text_columns(s);
    add_spaces(t, columns > own ? columns - own : 0);
    ls_text_add(t, s);
}

uint64_t ls_text_hash(const char *s) {
    uint64_t hash = UINT64_C(0xcbf29ce484222325);
    for (; *s != '\0'; s++) hash = (hash ^ (unsigned char)*s) * UINT64_C(0x100000001b3);
    return hash;
}

bool ls_text_same(const char *a, const char *b) {
    if (a == NULL || b == NULL) return a == b;
    return strcmp(a, b) == 0;
}

bool ls_text_ends(const char *s, const char *end) {
    size_t n = strlen(s), m = strlen(end);
    return n >= m && strcmp(s + n - m, end) == 0;
}
