#include "chart.h"

#include "svg.h"

#include <math.h>

/* Units of the drawing. */
enum {
    CELL = (LS_SVG_WIDTH - 2 * LS_SVG_EDGE) / 7,
    WEEK = 42,
    GAP = 10,
    WEEKDAY = sizeof "Mon, " - 1
};

typedef struct {
    ls_svg svg;
    ls_arena *arena;
    const ls_calendar_days *days, *holds;
    unsigned days_off;
    double most; /* the largest amount of a day */
} drawing;

static const ls_calendar_day *find(const ls_calendar_days *list, ls_date day) {
    for (size_t i = 0; i < list->n; i++)
        if (list->at[i].day == day) return &list->at[i];
    return NULL;
}

static void cell(const drawing *d, ls_date day, double x, double y) {
    const ls_calendar_day *load = find(d->days, day);
    bool off = (d->days_off >> ls_date_weekday(day) & 1U) != 0 || find(d->holds, day) != NULL;
    const char *iso = ls_date_iso(d->arena, day);
    ls_svg_box(&d->svg, x, y, CELL, WEEK, off && load == NULL ? LS_HATCHED_BOX : LS_OPEN_BOX);
    if (load == NULL && off) return;
    ls_svg_words(&d->svg, x + 3, y + 13, "start",
                 load == NULL ? iso + 8
                              : ls_arena_printf(d->arena, "%s: %zu", iso + 8, load->loads));
    if (load == NULL) return;
    ls_svg_box(&d->svg, x + 3, y + 17, d->most > 0 ? (CELL - 6) * load->amount / d->most : 0, 7,
               off ? LS_HATCHED_BOX : LS_FULL_BOX);
    ls_svg_words(&d->svg, x + 3, y + 38, "start", load->shown);
}

static void week(const drawing *d, ls_date monday, double y) {
    ls_svg_words(
        &d->svg, LS_SVG_EDGE, y - 4, "start",
        ls_arena_printf(d->arena, "week of %s", ls_date_words(d->arena, monday, 0) + WEEKDAY));
    for (int k = 0; k < 7; k++) cell(d, monday + k, LS_SVG_EDGE + k * CELL, y);
}

/* The Mondays of the weeks with loads. */
static size_t weeks_of(const ls_calendar_days *days, ls_date *mondays) {
    size_t n = 0;
    for (size_t i = 0; i < days->n; i++) {
        ls_date monday = days->at[i].day - (ls_date_weekday(days->at[i].day) + 6) % 7;
        if (n == 0 || mondays[n - 1] != monday) mondays[n++] = monday;
    }
    return n;
}

const char *ls_calendar(ls_arena *a, const ls_calendar_days *days, const ls_calendar_days *holds,
                        unsigned days_off) {
    ls_date *mondays = LS_NEW(a, ls_date, days->n);
    size_t n = weeks_of(days, mondays);
    if (n == 0) return NULL;
    drawing d = {.arena = a, .days = days, .holds = holds, .days_off = days_off};
    for (size_t i = 0; i < days->n; i++) d.most = fmax(d.most, days->at[i].amount);
    d.svg = ls_svg_begin(
        a, "calendar", "Loads by day",
        "A row of seven days from Monday for each week with loads. In it: day of the month, loads, "
        "tons as a bar and as a number. Hatched: days off and hold days.",
        (double)n * (WEEK + GAP + LS_SVG_LINE));
    for (size_t i = 0; i < n; i++)
        week(&d, mondays[i], LS_SVG_LINE + (double)i * (WEEK + GAP + LS_SVG_LINE));
    return ls_svg_end(&d.svg);
}
