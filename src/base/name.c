/* Names: as worksheet keys, the nearest of several, and those that stand twice; the check character
 * of numbers that people copy by hand. */
#include "littershed/base/text.h"

#include <stdlib.h>
#include <string.h>

/* Names longer than this are never near. */
enum { LONGEST_NAME = 64 };

static char lower(char c) { return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c; }

const char *ls_text_slug(ls_arena *a, const char *name) {
    char *slug = LS_NEW(a, char, strlen(name) + 2);
    size_t n = 0;
    bool gap = false;
    for (; *name != '\0'; name++) {
        char c = lower(*name);
        bool keep = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || (unsigned char)c >= 0x80;
        if (keep && gap && n > 0) slug[n++] = '_';
        if (keep) slug[n++] = c;
        gap = !keep;
    }
    if (n == 0) slug[0] = '_';
    return slug;
}

bool ls_text_among(const char *words, const char *word) {
    size_t length = strlen(word), i;
    for (const char *s = words; s != NULL; s = strchr(s, '|') != NULL ? strchr(s, '|') + 1 : NULL) {
        for (i = 0; i < length && s[i] != '|' && lower(s[i]) == lower(word[i]); i++)
            ;
        if (i == length && (s[i] == '|' || s[i] == '\0')) return true;
    }
    return false;
}

static size_t least(size_t a, size_t b) { return a < b ? a : b; }

/* Edits (insert, delete, replace, swap of neighbors) that make b of a; no part is edited twice.
 * Both at most LONGEST_NAME bytes. */
static size_t distance(const char *a, const char *b) {
    size_t rows[3][LONGEST_NAME + 1];
    size_t *before = rows[0], *last = rows[1], *row = rows[2];
    size_t na = strlen(a), nb = strlen(b);
    for (size_t j = 0; j <= nb; j++) before[j] = last[j] = j;
    for (size_t i = 1; i <= na; i++) {
        row[0] = i;
        for (size_t j = 1; j <= nb; j++) {
            char x = lower(a[i - 1]), y = lower(b[j - 1]);
            row[j] = least(least(last[j], row[j - 1]) + 1, last[j - 1] + (x != y));
            if (i > 1 && j > 1 && x == lower(b[j - 2]) && y == lower(a[i - 2]))
                row[j] = least(row[j], before[j - 2] + 1);
        }
        size_t *spare = before;
        before = last;
        last = row;
        row = spare;
    }
    return last[nb];
}

const char *ls_text_nearest(const char *word, const char *const *names, size_t n) {
    size_t length = strlen(word);
    if (length == 0 || length > LONGEST_NAME) return NULL;
    size_t best = length / 3 > 1 ? length / 3 : 1;
    const char *nearest = NULL;
    for (size_t i = 0; i < n; i++) {
        if (strlen(names[i]) > LONGEST_NAME) continue;
        size_t d = distance(word, names[i]);
        if (d < best || (d == best && nearest == NULL)) {
            best = d;
            nearest = names[i];
        }
    }
    return nearest;
}

typedef struct {
    const char *text;
    size_t index;
} numbered;

static int by_text(const void *left, const void *right) {
    const numbered *a = left, *b = right;
    int order = strcmp(a->text, b->text);
    return order != 0 ? order : a->index < b->index ? -1 : a->index > b->index;
}

const size_t *ls_text_firsts(ls_arena *a, const char *const *texts, size_t n) {
    numbered *sorted = LS_NEW(a, numbered, n);
    size_t *first = LS_NEW(a, size_t, n);
    for (size_t i = 0; i < n; i++) sorted[i] = (numbered){texts[i], i};
    if (n > 1) qsort(sorted, n, sizeof *sorted, by_text);
    for (size_t i = 0; i < n; i++) {
        bool again = i > 0 && strcmp(sorted[i].text, sorted[i - 1].text) == 0;
        first[sorted[i].index] = again ? first[sorted[i - 1].index] : sorted[i].index;
    }
    return first;
}

/* The value of a letter or digit; -1 for anything else. */
static int value_of(char c) {
    if (c >= '0' && c <= '9') return c - '0';
    return c >= 'A' && c <= 'Z' ? c - 'A' + 10 : -1; /* ASCII */
}

char ls_check_character(const char *s) {
    static const char alphabet[] = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ";
    int product = 36;
    for (; *s != '\0'; s++) {
        if (value_of(*s) < 0) continue;
        int sum = (product + value_of(*s)) % 36;
        product = (sum == 0 ? 36 : sum) * 2 % 37;
    }
    return alphabet[(37 - product) % 36];
}
