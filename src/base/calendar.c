#include "littershed/base/calendar.h"

#include <string.h>

static const int first_year = 1900, last_year = 2199;

static bool is_leap(int year) { return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0; }

static int month_days(int year, int month) {
    static const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    return days[month - 1] + (month == 2 && is_leap(year));
}

/* Days from 1970-01-01 to a year; 477 leap days lie before 1970 (1969/4 - 1969/100 + 1969/400). */
static int32_t year_start(int year) {
    int before = year - 1;
    return 365 * (year - 1970) + before / 4 - before / 100 + before / 400 - 477;
}

ls_date ls_date_of(int year, int month, int day) {
    if (year < first_year || year > last_year || month < 1 || month > 12) return LS_NO_DATE;
    if (day < 1 || day > month_days(year, month)) return LS_NO_DATE;
    ls_date d = year_start(year) + day - 1;
    for (int m = 1; m < month; m++) d += month_days(year, m);
    return d;
}

/* The number that n digits at s make; -1 if they are not digits. */
static int digits(const char *s, size_t n) {
    int v = 0;
    for (size_t i = 0; i < n; i++) {
        if (s[i] < '0' || s[i] > '9') return -1;
        v = v * 10 + (s[i] - '0');
    }
    return v;
}

bool ls_date_parse(const char *s, size_t n, ls_date *out) {
    if (n != 10 || s[4] != '-' || s[7] != '-') return false;
    ls_date d = ls_date_of(digits(s, 4), digits(s + 5, 2), digits(s + 8, 2));
    if (d == LS_NO_DATE) return false;
    *out = d;
    return true;
}

/* Year, month and day of a date; false outside the calendar. */
static bool split(ls_date d, int *year, int *month, int *day) {
    if (d < year_start(first_year) || d >= year_start(last_year + 1)) return false;
    int y = 1970 + d / 366;
    if (d < 0) y = 1970 + d / 365 - 1;
    while (d >= year_start(y + 1)) y++;
    int rest = d - year_start(y), m = 1;
    while (rest >= month_days(y, m)) rest -= month_days(y, m++);
    *year = y;
    *month = m;
    *day = rest + 1;
    return true;
}

ls_date ls_date_years_on(ls_date d, int years) {
    int year, month, day;
    if (!split(d, &year, &month, &day)) return LS_NO_DATE;
    ls_date same = ls_date_of(year + years, month, day);
    return same != LS_NO_DATE ? same : ls_date_of(year + years, month, day - 1);
}

int ls_date_year(ls_date d) {
    int year = 0, month, day;
    split(d, &year, &month, &day);
    return year;
}

int ls_date_weekday(ls_date d) { return (d % 7 + 7 + 4) % 7; /* 1970-01-01 was a Thursday */ }

const char *const ls_weekdays[] = {"sunday", "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", NULL};

const char *ls_date_iso(ls_arena *a, ls_date d) {
    int year, month, day;
    if (!split(d, &year, &month, &day)) return "no date";
    return ls_arena_printf(a, "%04d-%02d-%02d", year, month, day);
}

const char *ls_date_words(ls_arena *a, ls_date d, int year) {
    static const char *const days[] = {"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};
    static const char *const months[] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                         "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
    int of, month, day;
    if (!split(d, &of, &month, &day)) return "no date";
    const char *words = ls_arena_printf(a, "%s, %s %d", days[ls_date_weekday(d)], months[month - 1], day);
    return of == year ? words : ls_arena_printf(a, "%s, %d", words, of);
}

bool ls_clock_parse(const char *s, long *out) {
    if (strlen(s) != 5 || s[2] != ':') return false;
    int hour = digits(s, 2), minute = digits(s + 3, 2);
    if (hour < 0 || hour > 23 || minute < 0 || minute > 59) return false;
    *out = 60 * hour + minute;
    return true;
}

const char *ls_clock_words(ls_arena *a, long second) {
    long hour = second / 3600 % 24, minute = second / 60 % 60;
    return ls_arena_printf(a, "%ld:%02ld %s", hour % 12 == 0 ? 12 : hour % 12, minute, hour < 12 ? "am" : "pm");
}
