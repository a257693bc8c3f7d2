/* Dates of the proleptic Gregorian calendar, 1900 to 2199. */
#pragma once

#include "littershed/base/arena.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef int32_t ls_date;     /* days since 1970-01-01 */
#define LS_NO_DATE INT32_MIN /* not given */

/* Both days belong to it. from == LS_NO_DATE: not given. */
typedef struct {
    ls_date from, to;
} ls_window;

/* Exactly YYYY-MM-DD and a day that exists; else false and out untouched. */
bool ls_date_parse(const char *s, size_t n, ls_date *out);
ls_date ls_date_of(int year, int month, int day);
int ls_date_year(ls_date d);
/* The same day so many years later; of February 29 February 28 where there is none. */
ls_date ls_date_years_on(ls_date d, int years);
/* 0 Sunday ... 6 Saturday; and their lower-case English names, NULL at the end. */
int ls_date_weekday(ls_date d);
extern const char *const ls_weekdays[7 + 1];
/* "2026-02-16"; for a reader "Mon, Feb 16", with ", 2026" in another year than that (0: any). */
const char *ls_date_iso(ls_arena *a, ls_date d);
const char *ls_date_words(ls_arena *a, ls_date d, int year);
/* Exactly HH:MM, 00:00 to 23:59, as minutes after midnight; else false and out untouched. */
bool ls_clock_parse(const char *s, long *out);
/* A second of the day for a reader: "2:28 pm". */
const char *ls_clock_words(ls_arena *a, long second);
