#include "littershed/base/text.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const double most_number = 1e15;

enum {
    LONGEST_NUMBER = 1000, /* characters read */
    MOST_DECIMALS = 12     /* what is left of a sum that should vanish prints as 0 */
};

static size_t digits_at(const char *s, size_t n) {
    size_t i = 0;
    while (i < n && s[i] >= '0' && s[i] <= '9') i++;
    return i;
}

bool ls_number_parse(const char *s, size_t n, double *out) {
    char text[LONGEST_NUMBER + 32];
    size_t whole = digits_at(s, n), part = 0;
    if (whole == 0 || n > LONGEST_NUMBER) return false;
    if (whole < n) {
        part = digits_at(s + whole + 1, n - whole - 1);
        if (s[whole] != '.' || part == 0 || whole + 1 + part != n) return false;
    }
    /* 12.5 is read as 125e-1: the same number, and no decimal point that a locale could change. */
    snprintf(text, sizeof text, "%.*s%.*se-%zu", (int)whole, s, (int)part, part > 0 ? s + whole + 1 : "", part);
    double v = strtod(text, NULL);
    if (!(v <= most_number)) return false;
    *out = v;
    return true;
}

/* The decimals that v shows with so many significant digits, after rounding. */
static int decimals_for(double v, int digits) {
    char text[64];
    snprintf(text, sizeof text, "%.*e", digits - 1, v);
    int decimals = digits - 1 - atoi(strchr(text, 'e') + 1);
    return decimals < 0 ? 0 : decimals > MOST_DECIMALS ? MOST_DECIMALS : decimals;
}

static int within(int v, int low, int high) { return v < low ? low : v > high ? high : v; }

/* v with so many decimals and thousands commas. */
static const char *written(ls_arena *a, double v, int decimals, bool trim) {
    const char *raw = ls_arena_printf(a, "%.*f", decimals, fabs(v));
    size_t length = strlen(raw), whole = digits_at(raw, length), end = length;
    while (trim && decimals > 0 && end > whole + 1 && raw[end - 1] == '0') end--;
    if (end <= whole + 1) end = whole;
    ls_text *t = ls_text_new(a);
    if (v < 0 && strspn(raw, "0.,") < length) ls_text_add(t, "-");
    for (size_t i = 0; i < whole; i++) {
        if (i > 0 && (whole - i) % 3 == 0) ls_text_add(t, ",");
        ls_text_add_n(t, raw + i, 1);
    }
    if (end > whole) {
        ls_text_add(t, ".");
        ls_text_add_n(t, raw + whole + 1, end - whole - 1);
    }
    return t->s;
}

const char *ls_number_text(ls_arena *a, double v, int digits) {
    if (!isfinite(v)) return "unknown";
    return written(a, v, decimals_for(v, within(digits, 1, 6)), true);
}

const char *ls_number_step(ls_arena *a, double v, double step) {
    if (!isfinite(v)) return "unknown";
    if (step >= 1) return written(a, round(v / step) * step, 0, true);
    return written(a, v, within((int)lround(-log10(step)), 0, MOST_DECIMALS), true);
}

const char *ls_number_fixed(ls_arena *a, double v, int places) {
    if (!isfinite(v)) return "unknown";
    return written(a, v, within(places, 0, 6), false);
}

double ls_number_round(double v) {
    char text[512]; /* the longest double has 309 digits before the point */
    if (!isfinite(v)) return v;
    snprintf(text, sizeof text, "%.*f", decimals_for(v, 6), v);
    double rounded = strtod(text, NULL);
    return rounded == 0 ? 0 : rounded;
}
