/* calendar_chart: days with loads as a calendar in SVG, told apart by pattern and words, never by
 * color. Private to this room. */
#ifndef REPORT_CALENDAR_CHART_H
#define REPORT_CALENDAR_CHART_H

#include "figure.h"

typedef struct {
    ls_date day;
    size_t loads;
    double amount;     /* bars are to each other as these; 0 or more */
    const char *shown; /* the amount in words, not yet made safe */
} ls_calendar_day;
typedef LS_LIST(ls_calendar_day) ls_calendar_days;

/* A row for each week (from Monday) that holds one of the days, which are in order. Bit k of
 * days_off: weekday k (0 Sunday). NULL without days. */
const char *ls_calendar(ls_arena *a, const ls_calendar_days *days, const ls_calendar_days *holds,
                        unsigned days_off);

#endif
