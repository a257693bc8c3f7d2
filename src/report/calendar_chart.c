#include "calendar_chart.h"

#include <math.h>

/* Units of the drawing. */
enum {
    WIDTH = 400,
    LEFT = 62,
    CELL = 48,
    WEEK = 44,
    HEAD = 20,
    GAP = 14,
    MOST_WEEKS = 30,
    WEEKDAY = sizeof "Mon, " - 1
};

typedef struct {
    ls_text *t;
    ls_arena *arena;
    const ls_calendar_days *days, *holds;
    unsigned days_off;
    double most; /* the largest amount of a day */
} drawing;

static ls_date monday_of(ls_date day) {
    return day - (ls_date_weekday(day) + 6) % 7;
}

static const ls_calendar_day *find(const ls_calendar_days *list, ls_date day) {
    for (size_t i = 0; i < list->n; i++)
        if (list->at[i].day == day)
            return &list->at[i];
    return NULL;
}

static void cell(const drawing *d, ls_date day, double x, double y) {
    const ls_calendar_day *load = find(d->days, day);
    bool off = (d->days_off >> ls_date_weekday(day) & 1U) != 0 || find(d->holds, day) != NULL;
    const char *iso = ls_date_iso(d->arena, day);
    ls_text_addf(d->t,
                 "<rect x=\"%.0f\" y=\"%.0f\" width=\"%d\" height=\"%d\" fill=\"%s\" "
                 "stroke=\"#111\"/>\n",
                 x, y, CELL, WEEK, off ? "url(#calendar-hatch)" : "#fff");
    if (load != NULL) {
        double wide = d->most > 0 ? (CELL - 6) * load->amount / d->most : 0;
        ls_text_addf(d->t,
                     "<rect x=\"%.0f\" y=\"%.0f\" width=\"%d\" height=\"%d\" fill=\"#fff\"/>\n"
                     "<text x=\"%.0f\" y=\"%.0f\" font-size=\"10\" fill=\"#111\">%s: %zu</text>\n"
                     "<rect x=\"%.0f\" y=\"%.0f\" width=\"%.1f\" height=\"8\" fill=\"#444\"/>\n"
                     "<text x=\"%.0f\" y=\"%.0f\" font-size=\"10\" fill=\"#111\">%s</text>\n",
                     x + 1, y + 1, CELL - 2, WEEK - 2, x + 3, y + 12, iso + 8, load->loads, x + 3,
                     y + 17, fmax(wide, 1), x + 3, y + 38, ls_text_html(d->arena, load->shown));
    } else if (!off)
        ls_text_addf(d->t, "<text x=\"%.0f\" y=\"%.0f\" font-size=\"10\" fill=\"#111\">%s</text>\n",
                     x + 3, y + 12, iso + 8);
}

static void week(const drawing *d, ls_date monday, double y) {
    ls_text_addf(d->t, "<text x=\"2\" y=\"%.0f\" font-size=\"10\" fill=\"#111\">%s</text>\n",
                 y + WEEK / 2.0 + 4, ls_date_words(d->arena, monday, 0) + WEEKDAY);
    for (int k = 0; k < 7; k++)
        cell(d, monday + k, LEFT + k * CELL, y);
}

static void head(const drawing *d, double height) {
    static const char *const names[] = {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};
    ls_text_addf(
        d->t,
        "<svg viewBox=\"0 0 %d %.0f\" role=\"img\">\n<title>Loads by day</title>\n"
        "<desc>A row of seven days for each week with loads. Each day: the day of the month, "
        "the loads, their tons as a bar and in words. Hatched: days off and hold "
        "days.</desc>\n<defs><pattern id=\"calendar-hatch\" width=\"6\" height=\"6\" "
        "patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(45)\"><rect "
        "width=\"6\" height=\"6\" fill=\"#fff\"/><rect width=\"1\" height=\"6\" "
        "fill=\"#666\"/></pattern></defs>\n"
        "<text x=\"2\" y=\"14\" font-size=\"10\" fill=\"#111\">week of</text>\n",
        WIDTH, height);
    for (int k = 0; k < 7; k++)
        ls_text_addf(d->t, "<text x=\"%d\" y=\"14\" font-size=\"10\" fill=\"#111\">%s</text>\n",
                     LEFT + k * CELL + 3, names[k]);
}

/* The Mondays of the weeks with loads; at most MOST_WEEKS. */
static size_t weeks_of(const ls_calendar_days *days, ls_date *mondays) {
    size_t n = 0;
    for (size_t i = 0; i < days->n && n < MOST_WEEKS; i++) {
        ls_date monday = monday_of(days->at[i].day);
        if (n == 0 || mondays[n - 1] != monday)
            mondays[n++] = monday;
    }
    return n;
}

const char *ls_calendar(ls_arena *a, const ls_calendar_days *days, const ls_calendar_days *holds,
                        unsigned days_off) {
    ls_date mondays[MOST_WEEKS];
    size_t n = weeks_of(days, mondays);
    if (n == 0)
        return NULL;
    drawing d = {ls_text_new(a), a, days, holds, days_off, 0};
    for (size_t i = 0; i < days->n; i++)
        d.most = fmax(d.most, days->at[i].amount);
    double height = HEAD;
    for (size_t i = 0; i < n; i++)
        height += WEEK + (i > 0 && mondays[i] != mondays[i - 1] + 7 ? GAP : 0);
    head(&d, height + 4);
    double y = HEAD;
    for (size_t i = 0; i < n; i++) {
        y += i > 0 && mondays[i] != mondays[i - 1] + 7 ? GAP : 0;
        week(&d, mondays[i], y);
        y += WEEK;
    }
    ls_text_add(d.t, "</svg>\n");
    return d.t->s;
}
