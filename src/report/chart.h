/* chart: bars and ranges in SVG and in letters, told apart by pattern and label, never by color.
 * Private to this room. */
#pragma once

#include "figure.h"

/* One row. A bar from low to value, hatched or full, with a mark at limit (0: none); or a range
 * from low to high with a mark at value. */
typedef struct {
    const char *label; /* not yet made safe */
    const char *shown; /* the figure in words */
    double low, value, high, limit;
    bool range, hatched;
} ls_chart_row;
typedef LS_LIST(ls_chart_row) ls_chart_rows;

/* What stands around the rows. */
typedef struct {
    const char *id; /* of the picture in the document */
    const char *title, *description;
    const char *unit; /* of the axis */
    double most;      /* the axis reaches to there at least */
    double rule;      /* a vertical line at that value with its words; 0: none */
    const char *rule_words;
    const char *full, *hatched; /* what the fills mean; NULL: it is not told */
    double labels;              /* room for labels left of the bars; 0: they stand above them */
} ls_chart_frame;

/* The rows below each other on one axis from 0, or from the least value below it; and their words
 * as a table for those who cannot see them. NULL without rows. */
const char *ls_chart(const ls_view *v, const ls_chart_frame *frame, const ls_chart_rows *rows);
/* The words of rows as a table under a picture for those who cannot see it. */
void ls_chart_numbers(ls_text *to, const char *title, const ls_chart_rows *rows);
/* The same ranges in letters, at most 60 columns wide: "---O-----". NULL without rows. */
const char *ls_chart_letters(ls_arena *a, const ls_chart_rows *rows);
