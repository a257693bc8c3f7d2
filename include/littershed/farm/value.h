/* farm: the values of keys, each with its place in the file. */
#pragma once

#include "littershed/base.h"

/* What was not given is zero: at.line == 0, text NULL, a section pointer NULL, a list with n 0. */
#define LS_GIVEN(v) ((v).at.line != 0)

typedef struct {
    const char *text;
    ls_place at;
} ls_name;

typedef struct {
    ls_date day;
    ls_place at;
} ls_day;

/* Is it given, and a day there is? */
static inline bool ls_day_known(ls_day day) { return LS_GIVEN(day) && day.day != LS_NO_DATE; }

typedef struct {
    ls_window days;
    ls_place at;
} ls_open;

typedef struct {
    long n;
    ls_place at;
} ls_count;

typedef struct {
    bool yes;
    ls_place at;
} ls_yesno;

/* A time of the day. */
typedef struct {
    long minute; /* after midnight; -1: wrong */
    ls_place at;
} ls_clock;

/* A minute of a day. */
typedef struct {
    ls_date day; /* LS_NO_DATE: wrong */
    long minute; /* after midnight */
    ls_place at;
} ls_instant;

/* A day without work, or the part of one between two minutes. */
typedef struct {
    ls_date day;
    long from, until;
    ls_place at;
} ls_hold;
#define LS_DAY_MINUTES (24 * 60)

static inline bool ls_hold_whole(const ls_hold *hold) { return hold->from == 0 && hold->until == LS_DAY_MINUTES; }
/* Is there no work at that minute of the day (-1: not known) for it? */
static inline bool ls_hold_at(const ls_hold *hold, ls_date day, int minute) {
    return hold->day == day && (ls_hold_whole(hold) || (minute >= hold->from && minute < hold->until));
}
/* "2026-02-23 is a hold day until 12:00". */
const char *ls_hold_words(ls_arena *a, const ls_hold *hold, const char *day);

/* One of the words of its key, as an enum below; 0 is "not given". */
typedef struct {
    int is;
    ls_place at;
} ls_choice;

typedef enum { LS_PLAIN = 1, LS_PLUS_MINUS, LS_RANGE, LS_READINGS } ls_quantity_form;

/* A quantity as written, in base units. */
typedef struct {
    ls_quantity_form form;  /* 0: not given */
    double value;           /* the number; of a range its middle; of readings their mean */
    double half;            /* after +/-: half-width believed at about 95 % (two standard uncertainties) */
    double low, high;       /* of a range */
    const double *readings; /* the n readings; one number is one reading, a range has none */
    size_t n;
    ls_unit unit;     /* as written */
    const char *text; /* as written */
    const char *how;  /* how it comes about, if it is not simply what is written; else NULL */
    ls_place at;
} ls_quantity;

/* For a reader: "3 tons/ac" of one number, else as written. */
const char *ls_quantity_words(ls_arena *a, const ls_quantity *q);
