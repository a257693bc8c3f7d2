/* Days and hours as people write them: "12/8/2025", "Dec 8, 2025", "Feb 16 to Apr 15, 2026", "7 am". */
#include "reader.h"

#include <stdlib.h>
#include <string.h>

enum { PARTS = 3, LONGEST_YEAR = 4 };

static const char *const months[] = {"january", "february", "march",     "april",   "may",      "june",
                                     "july",    "august",   "september", "october", "november", "december"};

/* The month a word begins, of three letters at least; 0: none. */
static int month_of(ls_arena *a, const char *word, size_t n) {
    for (int m = 0; m < 12 && n >= 3; m++)
        if (n <= strlen(months[m]) && ls_text_among(ls_arena_copy_n(a, months[m], n), ls_arena_copy_n(a, word, n)))
            return m + 1;
    return 0;
}

/* The parts of a date, in the order written; a month that stands as a word apart. */
typedef struct {
    int numbers[PARTS], digits[PARTS], n, month;
    int weekday; /* from 1; 0: none is named */
} parts;

bool ls_farm_is_weekday(const char *s, size_t n, int k) {
    size_t all = strlen(ls_weekdays[k]), i = 0;
    n -= n == all + 1 && s[all] == 's';
    while (i < n && i < all && (s[i] | 0x20) == ls_weekdays[k][i]) i++;
    return i == n && n >= 3;
}

static int weekday_of(const char *word, size_t n) {
    for (int k = 0; ls_weekdays[k] != NULL; k++)
        if (ls_farm_is_weekday(word, n, k)) return k + 1;
    return 0;
}

static bool take_parts(ls_arena *a, const char *s, parts *out) {
    static const char letters[] = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ";
    *out = (parts){.n = 0};
    while (*s != '\0') {
        size_t digits = strspn(s, "0123456789"), word = strspn(s, letters);
        if (digits > 0 && (digits > LONGEST_YEAR || out->n == PARTS)) return false;
        if (digits > 0) {
            out->digits[out->n] = (int)digits;
            out->numbers[out->n++] = atoi(ls_arena_copy_n(a, s, digits));
        } else if (word > 0 && month_of(a, s, word) > 0 && out->month == 0)
            out->month = month_of(a, s, word);
        else if (word > 0 && out->weekday == 0 && weekday_of(s, word) > 0)
            out->weekday = weekday_of(s, word);
        else if (word > 0 && !ls_text_among("st|nd|rd|th|of", ls_arena_copy_n(a, s, word)))
            return false;
        s += digits + word + (digits + word == 0);
    }
    return true;
}

static void add_day(ls_said_days *out, int year, int month, int day) {
    ls_date d = LS_NO_DATE;
    char text[16];
    if (year < 100) year += 2000;
    int n = snprintf(text, sizeof text, "%04d-%02d-%02d", year, month, day);
    if (n == 10 && ls_date_parse(text, 10, &d) && (out->n == 0 || out->days[0] != d)) out->days[out->n++] = d;
}

ls_said_days ls_farm_days_said(ls_arena *a, const char *s, int year) {
    ls_said_days out = {.n = 0};
    parts p;
    if (!take_parts(a, s, &p)) return out;
    const int *x = p.numbers;
    out.no_year = p.n + (p.month > 0) == 2;
    if (out.no_year && year == 0) return out;
    if (p.month > 0 && p.n >= 1) {
        bool first = p.n == 2 && p.digits[0] == LONGEST_YEAR;
        add_day(&out, p.n == 1 ? year : x[!first], p.month, x[first]);
    } else if (p.n == PARTS && p.digits[0] == LONGEST_YEAR) {
        add_day(&out, x[0], x[1], x[2]);
    } else if (p.n == PARTS || p.n == 2) { /* month first, or day first */
        add_day(&out, p.n == 2 ? year : x[2], x[0], x[1]);
        add_day(&out, p.n == 2 ? year : x[2], x[1], x[0]);
    }
    if (p.weekday > 0) { /* which is not that weekday is not meant */
        size_t n = 0;
        for (size_t i = 0; i < out.n; i++)
            if (ls_date_weekday(out.days[i]) == p.weekday - 1) out.days[n++] = out.days[i];
        out.n = n;
    }
    return out;
}

/* Where the second day of a window begins; *n: the bytes of the first. */
static const char *second_day(const char *s, size_t *n) {
    static const char *const between[] = {"..", " to ", " - ", "–", " through ", " until ", "/to/"};
    for (size_t i = 0; i < sizeof between / sizeof *between; i++) {
        const char *at = strstr(s, between[i]);
        if (at != NULL) {
            *n = (size_t)(at - s);
            return at + strlen(between[i]);
        }
    }
    return NULL;
}

/* The days at both ends; the first may leave the year to the second. NULL: there is no second. */
static const char *both_ends(ls_arena *a, const char *s, ls_said_days *from, ls_said_days *to) {
    size_t n = strlen(s);
    const char *second = second_day(s, &n);
    *to = ls_farm_days_said(a, second ? second : "", 0);
    *from = ls_farm_days_said(a, ls_arena_copy_n(a, s, n), to->n > 0 ? ls_date_year(to->days[0]) : 0);
    return second;
}

bool ls_farm_window_said(ls_arena *a, const char *s, ls_window *out) {
    ls_said_days from, to;
    if (both_ends(a, s, &from, &to) == NULL || from.n != 1 || to.n != 1 || to.days[0] < from.days[0]) return false;
    *out = (ls_window){from.days[0], to.days[0]};
    return true;
}

const char *ls_farm_day_meant(ls_farm_reader *reader, ls_farm_value value) {
    ls_arena *a = reader->arena;
    const char *s = value.node->text, *example = ls_farm_example(a, value.key), *second = NULL;
    ls_said_days to = {.n = 0}, from = ls_farm_days_said(a, s, 0);
    if (value.key->kind == LS_FARM_WINDOW) second = both_ends(a, s, &from, &to);
    size_t n;
    ls_text *t = ls_text_new(a);
    if (strspn(s, "0123456789,") == strlen(s))
        return ls_arena_printf(a, "a date is wanted here, not a number: \"%s\"", example);
    if (from.no_year && from.n == 0) return ls_arena_printf(a, "add the year: \"%s\"", example);
    n = from.n < to.n || second == NULL ? from.n : to.n;
    for (size_t i = 0; i < n; i++)
        ls_text_addf(t, "%s\"%s%s%s\"", i > 0 ? " or " : "", ls_date_iso(a, from.days[i]), second ? ".." : "",
                     second ? ls_date_iso(a, to.days[i]) : "");
    if (n == 0 || (value.key->kind == LS_FARM_WINDOW && second == NULL))
        return ls_arena_printf(a, "write %s: \"%s\"",
                               value.key->kind == LS_FARM_WINDOW ? "first and last day" : "year, month and day",
                               example);
    return ls_arena_printf(a, n > 1 ? "which day is it? write %s" : "write %s", t->s);
}

const char *ls_farm_clock_meant(ls_arena *a, const char *s) {
    size_t n = strspn(s, "0123456789");
    int hour = n == 1 || n == 2 ? atoi(s) : -1, minute = 0;
    const char *tail = s + n;
    if (n == 2 && s[0] == '0' && tail[0] == '\0') return NULL;
    if (tail[0] == ':' && strspn(tail + 1, "0123456789") == 2) {
        minute = atoi(tail + 1);
        tail += 3;
    }
    tail += strspn(tail, " ");
    bool am = ls_text_among("am|a.m.|a", tail), pm = ls_text_among("pm|p.m.|p", tail);
    if (hour < 0 || hour > 23 || minute > 59 || (hour > 12 && (am || pm)) || (tail[0] != '\0' && !am && !pm))
        return NULL;
    if (am || pm) hour = hour % 12 + (pm ? 12 : 0);
    return ls_arena_printf(a, "%02d:%02d", hour, minute);
}
