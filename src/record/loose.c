/* Days, numbers and yes or no as other programs write them when they save a log. */
#include "row.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

const char *ls_record_trimmed(ls_arena *a, const char *s) {
    while (*s == ' ' || *s == '\t') s++;
    size_t n = strlen(s);
    while (n > 0 && (s[n - 1] == ' ' || s[n - 1] == '\t' || s[n - 1] == '\r')) n--;
    return ls_arena_copy_n(a, s, n);
}

bool ls_record_yes_no(const char *s, bool *out) {
    *out = strcasecmp(s, "yes") == 0 || strcasecmp(s, "true") == 0;
    return *out || strcasecmp(s, "no") == 0 || strcasecmp(s, "false") == 0;
}

/* ---- days ---- */

/* Three whole numbers with one sign between them. */
typedef struct {
    int n[3];
    size_t digits[3];
    char between;
    const char *rest;
} triple;

static bool read_triple(const char *s, triple *t) {
    t->between = '\0';
    for (int i = 0; i < 3; i++) {
        t->digits[i] = strspn(s, "0123456789");
        if (t->digits[i] == 0 || t->digits[i] > 4) return false;
        t->n[i] = (int)strtol(s, NULL, 10);
        s += t->digits[i];
        if (i == 2) break;
        if (*s == '\0' || strchr("/-.", *s) == NULL || (i == 1 && *s != t->between)) return false;
        t->between = *s++;
    }
    t->rest = s;
    return true;
}

/* In the order in which readings are told. */
enum { MONTH_FIRST, DAY_FIRST, YEAR_FIRST, ORDERS };

/* The day by an order; LS_NO_DATE: there is no such day. Points part no month from what follows it.
 * A year of two digits is one of this century; as the first number it stands between slashes and is
 * no year before there were such logs. */
static ls_date day_by(const triple *t, int order) {
    enum { FIRST_YEAR = 20 };
    static const int places[ORDERS][3] = {{2, 0, 1}, {2, 1, 0}, {0, 1, 2}};
    int year = places[order][0], month = places[order][1], day = places[order][2];
    char iso[48];
    ls_date out = LS_NO_DATE;
    bool whole = t->digits[year] == 4;
    if ((!whole && (t->digits[year] != 2 || t->between == '-')) || t->digits[month] > 2 || t->digits[day] > 2 ||
        (order == MONTH_FIRST && t->between == '.') ||
        (order == YEAR_FIRST && !whole && (t->between != '/' || t->n[year] < FIRST_YEAR)))
        return LS_NO_DATE;
    snprintf(iso, sizeof iso, "%04d-%02d-%02d", t->n[year] + (whole ? 0 : 2000), t->n[month], t->n[day]);
    ls_date_parse(iso, strlen(iso), &out);
    return out;
}

/* As ls_when_text writes it. */
static bool is_ours(const triple *t) {
    return t->between == '-' && t->digits[0] == 4 && t->digits[1] == 2 && t->digits[2] == 2 &&
           (t->rest[0] == '\0' || (t->rest[0] == 'T' && strlen(t->rest) == strlen("T10:00")));
}

void ls_record_learn_when(ls_record_habits *h, const char *s) {
    triple t;
    bool read = read_triple(s, &t);
    h->foreign = h->foreign || !read || !is_ours(&t);
    if (!read || t.between == '.') return;
    bool month = day_by(&t, MONTH_FIRST) != LS_NO_DATE, day = day_by(&t, DAY_FIRST) != LS_NO_DATE;
    if (day_by(&t, YEAR_FIRST) == LS_NO_DATE && month != day) *(month ? &h->month_first : &h->day_first) = true;
}

/* One or two digits, stepped over; -1: there are none, or it is no such hour or minute. */
static int below(const char **s, int most) {
    size_t n = strspn(*s, "0123456789");
    int v = n == 1 || n == 2 ? (int)strtol(*s, NULL, 10) : -1;
    *s += n;
    return v < most ? v : -1;
}

/* "", "T10:00", " 9:06", ", 9:06:00 AM": minutes since midnight, -1: no time is told. */
static bool read_time(const char *s, int *out) {
    enum { MINUTES = 60, HOURS = 24, NOON = 12 };
    *out = -1;
    if (*s == '\0') return true;
    s += *s == ',';
    if (*s != 'T' && *s != ' ') return false;
    s += *s == 'T' ? 1 : strspn(s, " ");
    int hour = below(&s, HOURS), minute = *s++ == ':' ? below(&s, MINUTES) : -1;
    bool seconds = minute >= 0 && *s == ':' && s++ != NULL;
    if (hour < 0 || minute < 0 || (seconds && below(&s, MINUTES) < 0)) return false;
    s += strspn(s, " ");
    bool pm = strcasecmp(s, "pm") == 0;
    if (pm || strcasecmp(s, "am") == 0) {
        if (hour == 0 || hour > NOON) return false;
        hour = hour % NOON + (pm ? NOON : 0);
        s += 2;
    }
    *out = hour * MINUTES + minute;
    return *s == '\0';
}

ls_record_meaning ls_record_when(const ls_record_habits *h, const char *s, ls_when out[4]) {
    triple t;
    int minute;
    size_t n = 0;
    if (!read_triple(s, &t) || !read_time(t.rest, &minute)) return LS_RECORD_NOT;
    bool month = h->month_first && !h->day_first && day_by(&t, MONTH_FIRST) != LS_NO_DATE,
         day = h->day_first && !h->month_first && day_by(&t, DAY_FIRST) != LS_NO_DATE;
    for (int order = 0; order < ORDERS; order++) {
        ls_date may = day_by(&t, order);
        bool new = may != LS_NO_DATE && !(month && order != MONTH_FIRST) && !(day && order != DAY_FIRST);
        for (size_t k = 0; k < n; k++) new = new &&out[k].day != may;
        if (new) out[n++] = (ls_when){may, minute};
    }
    out[n] = (ls_when){LS_NO_DATE, -1};
    return n == 0 ? LS_RECORD_NOT : n == 1 ? LS_RECORD_READS : LS_RECORD_TWO_WAYS;
}

const char *ls_record_days(ls_arena *a, const ls_when *may) {
    const char *s = ls_when_text(a, *may);
    while ((++may)->day != LS_NO_DATE) s = ls_arena_printf(a, "%s or %s", s, ls_when_text(a, *may));
    return s;
}

bool ls_when_parse(ls_arena *a, const char *s, ls_when *out, const char **either) {
    static const ls_record_habits none;
    ls_when may[4];
    ls_record_meaning meaning = ls_record_when(&none, s, may);
    *either = meaning == LS_RECORD_TWO_WAYS ? ls_record_days(a, may) : NULL;
    if (meaning == LS_RECORD_READS) *out = may[0];
    return meaning == LS_RECORD_READS;
}

/* ---- numbers ---- */

bool ls_record_number_by(const char *s, char point, double *out) {
    char plain[32], group = point == '.' ? ',' : '.';
    size_t n = 0, run = 0;
    bool grouped = false;
    for (; *s != '\0' && *s != point; s++) {
        if (*s == group) {
            if (run == 0 || run > 3 || (grouped && run != 3)) return false;
            grouped = true;
            run = 0;
            continue;
        }
        if (!isdigit((unsigned char)*s) || n + 1 >= sizeof plain / 2) return false;
        plain[n++] = *s;
        run++;
    }
    if (grouped && (run != 3 || plain[0] == '0')) return false;
    size_t part = *s == point ? strspn(s + 1, "0123456789") : 0;
    if (*s == point && (part == 0 || s[1 + part] != '\0' || part + 1 >= sizeof plain / 2)) return false;
    if (*s == point) {
        plain[n++] = '.';
        memcpy(plain + n, s + 1, part);
        n += part;
    }
    return ls_number_parse(plain, n, out);
}

void ls_record_learn_number(ls_record_habits *h, const char *s) {
    double v;
    if (strchr(s, ',') == NULL && strchr(s, '.') == NULL) return;
    bool point = ls_record_number_by(s, '.', &v), comma = ls_record_number_by(s, ',', &v);
    if (point != comma) *(point ? &h->point : &h->comma) = true;
    h->foreign = h->foreign || strchr(s, ',') != NULL;
}

ls_record_meaning ls_record_number(const ls_record_habits *h, const char *s, double *out) {
    double with_point = 0, with_comma = 0;
    bool point = ls_record_number_by(s, '.', &with_point), comma = ls_record_number_by(s, ',', &with_comma);
    if (!point && !comma) return LS_RECORD_NOT;
    *out = point ? with_point : with_comma;
    if (!point || !comma || with_point == with_comma) return LS_RECORD_READS;
    if (h->point == h->comma) return strchr(s, ',') == NULL && !h->comma ? LS_RECORD_READS : LS_RECORD_TWO_WAYS;
    if (h->comma && strchr(s, ',') == NULL) return LS_RECORD_TWO_WAYS; /* record's own point, or between thousands */
    *out = h->comma ? with_comma : with_point;
    return LS_RECORD_READS;
}
