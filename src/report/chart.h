/* chart: bars and ranges in SVG and in letters, told apart by pattern and label, never by color.
 * Private to this room. */
#ifndef REPORT_CHART_H
#define REPORT_CHART_H

#include "figure.h"

/* One row. A bar from 0 to value, hatched or full; or a range with a mark at value, thick if
 * hatched is set. */
typedef struct {
    const char *label; /* not yet made safe */
    const char *shown; /* the figure in words */
    double low, value, high;
    bool range, hatched;
} ls_chart_row;
typedef LS_LIST(ls_chart_row) ls_chart_rows;

/* The rows below each other on one scale from 0. id names the picture in the document; rule: a
 * vertical line at that value with its words (NAN: none). NULL without rows. */
const char *ls_chart(ls_arena *a, const char *id, const char *title, const char *description,
                     const ls_chart_rows *rows, double rule, const char *rule_words);

/* The same ranges in letters, at most 60 columns wide: "---O-----". NULL without rows. */
const char *ls_chart_letters(ls_arena *a, const ls_chart_rows *rows);

#endif
