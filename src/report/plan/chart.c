/* The hours of the loader and the trucks as a chart of plain letters. */
#include "parts.h"
#include "report/page.h"

#include <string.h>

enum { CELLS = 66, MOST_DAYS = 7, MOST_TRUCKS = 12, LABEL = 9 };

/* What a cell may show, the stronger first where two take the same time of it. */
typedef enum { LOAD, SLATS, OUT, SPREAD, DUMP, BACK, WAIT, KINDS } kind;
static const char letters[] = {'L', '=', '>', 's', 'd', '<', '.'};

typedef struct {
    ls_arena *arena;
    ls_text *text; /* of the picture in the making */
    const ls_plan *plan;
    ls_date day;
    int year;  /* told without it */
    long most; /* cells in a row */
    long cell; /* seconds */
    size_t cells;
    long seconds[CELLS][KINDS];
} chart;

/* The least handy step at which the day fits. */
static void scale(chart *c) {
    static const long steps[] = {60, 120, 300, 600, 900, 1200, 1800, 3600};
    size_t i = 0;
    while (i + 1 < sizeof steps / sizeof *steps && c->plan->day_seconds > steps[i] * c->most)
        i++;
    c->cell = steps[i];
    c->cells = (size_t)((c->plan->day_seconds + c->cell - 1) / c->cell);
}

/* The part of a span that falls on the chart's day, as seconds of the working day. */
static bool on_day(const chart *c, ls_moment from, ls_moment to, long *a, long *b) {
    if (from.day > c->day || to.day < c->day)
        return false;
    *a = from.day < c->day ? 0 : from.second - c->plan->day_begins;
    *b = to.day > c->day ? c->plan->day_seconds : to.second - c->plan->day_begins;
    return *b > *a;
}

static void paint(chart *c, long a, long b, kind what) {
    for (long i = a / c->cell; i < (long)c->cells && i * c->cell < b; i++) {
        long from = i * c->cell > a ? i * c->cell : a;
        long to = (i + 1) * c->cell < b ? (i + 1) * c->cell : b;
        c->seconds[i][what] += to - from;
    }
}

static void paint_span(chart *c, ls_moment from, ls_moment to, kind what) {
    long a, b;
    if (on_day(c, from, to, &a, &b))
        paint(c, a, b, what);
}

static char letter(const chart *c, size_t cell) {
    size_t most = KINDS;
    for (size_t k = 0; k < KINDS; k++)
        if (c->seconds[cell][k] > (most == KINDS ? 0 : c->seconds[cell][most]))
            most = k;
    return most == KINDS ? ' ' : letters[most];
}

/* The row as painted; then nothing is painted. */
static void put_row(chart *c, const char *label) {
    char row[CELLS + 1];
    for (size_t i = 0; i < c->cells; i++)
        row[i] = letter(c, i);
    row[c->cells] = '\0';
    memset(c->seconds, 0, sizeof c->seconds);
    ls_text_addf(c->text, "  %-*s|%s|\n", LABEL, label, row);
}

/* Hours above the cells in which they begin, as many as there is room for. */
static void put_hours(chart *c, const char *label) {
    enum { HOUR = 3600, ROOM = 3 };
    char row[CELLS + ROOM + 1];
    memset(row, ' ', sizeof row);
    long every = HOUR;
    while (every / c->cell < ROOM)
        every += HOUR;
    long begin = c->plan->day_begins, end = begin + c->plan->day_seconds;
    for (long t = (begin + HOUR - 1) / HOUR * HOUR; t < end; t += every) {
        long at = (t - begin) / c->cell;
        long hour = (t / HOUR + 11) % 12 + 1;
        row[at] = hour < 10 ? ' ' : '1', row[at + 1] = (char)('0' + hour % 10);
    }
    size_t n = CELLS + ROOM;
    while (n > 0 && row[n - 1] == ' ')
        n--;
    row[n] = '\0';
    ls_text_addf(c->text, "  %-*s %s\n", LABEL, label, row);
}

/* ---- rows ---- */

/* The loader waits from the day's beginning to its last load of the day, when it does nothing else.
 */
static void paint_loader(chart *c) {
    long a, b, last = 0;
    for (size_t i = 0; i < c->plan->loads_n; i++) {
        const ls_load *l = &c->plan->loads[i];
        if (!ls_load_counted(l))
            continue;
        paint_span(c, l->start, l->leave, LOAD);
        if (on_day(c, l->start, l->leave, &a, &b) && b > last)
            last = b;
    }
    for (size_t i = 0; i < c->plan->moves_n; i++)
        paint_span(c, c->plan->moves[i].from, c->plan->moves[i].to, SLATS);
    for (size_t i = 0; i < c->cells; i++) {
        long from = (long)i * c->cell, to = from + c->cell < last ? from + c->cell : last;
        if (to > from)
            c->seconds[i][WAIT] += to - from - c->seconds[i][LOAD] - c->seconds[i][SLATS];
    }
}

static void paint_truck(chart *c, long truck) {
    ls_moment home = {c->day, c->plan->day_begins};
    for (size_t i = 0; i < c->plan->loads_n; i++) {
        const ls_load *l = &c->plan->loads[i];
        if (!ls_load_counted(l) || l->truck != truck || l->day > c->day || l->back.day < c->day)
            continue;
        if (l->day == c->day)
            paint_span(c, home, l->start, WAIT);
        paint_span(c, l->start, l->leave, LOAD);
        paint_span(c, l->leave, l->there, OUT);
        paint_span(c, l->there, l->emptied, l->buyer == NULL ? DUMP : SPREAD);
        paint_span(c, l->emptied, l->back, BACK);
        home = l->back;
    }
}

static const char *truck_label(const chart *c, long truck) {
    return ls_arena_printf(c->arena, "truck %ld", truck);
}

static bool works(const chart *c, long truck) {
    for (size_t i = 0; i < c->plan->loads_n; i++) {
        const ls_load *l = &c->plan->loads[i];
        if (ls_load_counted(l) && l->truck == truck && l->day <= c->day && c->day <= l->back.day)
            return true;
    }
    return false;
}

/* Trucks that do not work on the day are left out. */
static void put_day(chart *c, long trucks) {
    long shown = 0;
    put_hours(c, "");
    paint_loader(c);
    put_row(c, "loader");
    for (long k = 1; k <= trucks && shown < MOST_TRUCKS; k++) {
        if (!works(c, k))
            continue;
        shown++;
        paint_truck(c, k);
        put_row(c, truck_label(c, k));
    }
}

/* "Feb 16" */
static const char *short_day(const chart *c) {
    enum { WEEKDAY = 5 };
    return ls_date_words(c->arena, c->day, ls_date_year(c->day)) + WEEKDAY;
}

static void put_summary(chart *c) {
    put_hours(c, "loader");
    for (size_t d = 0; d < c->plan->days_n; d++) {
        c->day = c->plan->days[d].day;
        paint_loader(c);
        put_row(c, short_day(c));
    }
}

static long trucks_used(const ls_plan *plan) {
    long most = 0;
    for (size_t i = 0; i < plan->loads_n; i++)
        most = plan->loads[i].truck > most ? plan->loads[i].truck : most;
    return most;
}

static void put_days(ls_doc_group *g, chart *c, long trucks) {
    if (trucks > MOST_TRUCKS)
        ls_doc_say(g, LS_FULL, T("No more than {} trucks are shown.", N(MOST_TRUCKS)));
    for (size_t d = 0; d < c->plan->days_n; d++) {
        c->day = c->plan->days[d].day;
        c->text = ls_text_new(c->arena);
        put_day(c, trucks);
        ls_doc_picture(g, LS_FULL, NULL, ls_date_words(c->arena, c->day, c->year), NULL,
                       c->text->s);
    }
}

void ls_report_put_chart(ls_doc_group *top, const ls_plan *plan) {
    ls_arena *a = top->document->arena;
    chart c = {.arena = a,
               .text = ls_text_new(a),
               .plan = plan,
               .year = top->document->view->year,
               .most = (long)(CELLS + ls_report_width(top->document->view) - LS_REPORT_WIDTH)};
    if (plan->days_n == 0)
        return;
    scale(&c);
    ls_doc_group *g = ls_doc_object(top, LS_FULL, NULL, "HOUR BY HOUR");
    ls_doc_say(g, LS_FULL,
               T("A column is {} minutes and shows what takes most of them: L loading, = slats "
                 "moved, > on the way out, s spreading, d dumping at the stack, < on the way back, "
                 ". waiting.",
                 N(c.cell / 60)));
    if (plan->days_n <= MOST_DAYS) {
        put_days(g, &c, trucks_used(plan));
        return;
    }
    put_summary(&c);
    ls_doc_picture(g, LS_FULL, NULL, NULL, NULL, c.text->s);
}
