/* The hours of the loader and the trucks as a chart: of plain letters, and in HTML of boxes. */
#include "parts.h"

#include "report/chart.h"
#include "report/svg.h"

#include <string.h>

enum { CELLS = 66, MOST_DAYS = 7, MOST_TRUCKS = 12, LABEL = 9, MOST_LABEL = 24, LETTER = 6 };

/* Of the boxes: where the day begins, and a row; possible loads stand below the others. */
enum { DAWN = 58, BOX = 14, SMALL = 6, ROW = BOX + SMALL, HEAD = 20 };

/* What a cell may show, the stronger first where two take the same time of it. */
typedef enum { LOAD, SLATS, OUT, SPREAD, DUMP, BACK, WAIT, KINDS } kind;
static const char letters[] = {'L', '=', '>', 's', 'd', '<', '.'};

typedef struct {
    ls_arena *arena;
    ls_text *text; /* of the picture in the making */
    const ls_plan *plan;
    ls_date day;
    int year; /* told without it */
    const ls_farm *farm;
    int label;   /* characters before a row */
    double dawn; /* of the boxes, where the day begins */
    long most;   /* cells in a row */
    long cell;   /* seconds */
    size_t cells;
    bool apart; /* slats are moved while the loader loads: in a row of their own */
    long seconds[CELLS][KINDS];
    ls_svg svg;
    double y; /* of the row in it */
} chart;

/* The least handy step at which the day fits. */
static void scale(chart *c) {
    static const long steps[] = {60, 120, 300, 600, 900, 1200, 1800, 3600};
    size_t i = 0;
    while (i + 1 < sizeof steps / sizeof *steps && c->plan->day_seconds > steps[i] * c->most) i++;
    c->cell = steps[i];
    c->cells = (size_t)((c->plan->day_seconds + c->cell - 1) / c->cell);
}

/* The part of a span that falls on the chart's day, as seconds of the working day. */
static bool on_day(const chart *c, ls_moment from, ls_moment to, long *a, long *b) {
    if (from.day > c->day || to.day < c->day) return false;
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

static double x_of(const chart *c, long second) {
    return c->dawn + (LS_SVG_WIDTH - LS_SVG_EDGE - c->dawn) * (double)second / (double)c->plan->day_seconds;
}

/* Loading as a box by its certainty, spreading and dumping as low ones, the way as a line. */
static void draw(const chart *c, double x, double wide, kind what, ls_certainty certainty) {
    double mid = c->y + BOX / 2.0;
    if (what == LOAD)
        ls_svg_box(&c->svg, x, c->y, wide, BOX, (ls_svg_fill)certainty);
    else if (what == SPREAD || what == DUMP)
        ls_svg_box(&c->svg, x, mid - SMALL / 2.0, wide, SMALL, what == SPREAD ? LS_FULL_BOX : LS_OPEN_BOX);
    else if (what != WAIT)
        ls_svg_line(&c->svg, x, mid, x + wide, mid, what == SLATS ? LS_DASHED_LINE : LS_THIN_LINE);
}

static void paint_span(chart *c, ls_moment from, ls_moment to, kind what, ls_certainty certainty) {
    long a, b;
    if (!on_day(c, from, to, &a, &b)) return;
    paint(c, a, b, what);
    draw(c, x_of(c, a), x_of(c, b) - x_of(c, a), what, certainty);
}

static char letter(const chart *c, size_t cell) {
    size_t most = KINDS;
    for (size_t k = 0; k < KINDS; k++)
        if (c->seconds[cell][k] > (most == KINDS ? 0 : c->seconds[cell][most])) most = k;
    return most == KINDS ? ' ' : letters[most];
}

/* The row as painted; then nothing is painted. */
static void put_row(chart *c, const char *label) {
    char row[CELLS + 1];
    for (size_t i = 0; i < c->cells; i++) row[i] = letter(c, i);
    row[c->cells] = '\0';
    memset(c->seconds, 0, sizeof c->seconds);
    ls_text_addf(c->text, "  %-*.*s|%s|\n", c->label, c->label, label, row);
    ls_svg_words(&c->svg, LS_SVG_EDGE, c->y + 12, "start", label);
    c->y += ROW;
}

/* Hours above the cells in which they begin, as many as there is room for. */
static void put_hours(chart *c, const char *label) {
    enum { HOUR = 3600, ROOM = 3 };
    char row[CELLS + ROOM + 1];
    memset(row, ' ', sizeof row);
    long every = HOUR;
    while (every / c->cell < ROOM) every += HOUR;
    long begin = c->plan->day_begins, end = begin + c->plan->day_seconds;
    for (long t = (begin + HOUR - 1) / HOUR * HOUR; t < end; t += every) {
        long at = (t - begin) / c->cell;
        long hour = (t / HOUR + 11) % 12 + 1;
        row[at] = hour < 10 ? ' ' : '1', row[at + 1] = (char)('0' + hour % 10);
    }
    size_t n = CELLS + ROOM;
    while (n > 0 && row[n - 1] == ' ') n--;
    row[n] = '\0';
    ls_text_addf(c->text, "  %-*s %s\n", c->label, label, row);
}

/* ---- rows ---- */

static void paint_slats(chart *c) {
    for (size_t i = 0; i < c->plan->moves_n; i++)
        paint_span(c, c->plan->moves[i].from, c->plan->moves[i].to, SLATS, LS_FIRM);
}

/* The loader waits from the day's beginning, or the plan's, to its last load of the day, when it does nothing else. */
static void paint_loader(chart *c) {
    long a, b, last = 0;
    LS_EACH_OF (const ls_load, l, c->plan->loads, c->plan->loads_n) {
        if (!ls_load_counted(l)) {
            if (on_day(c, l->start, l->leave, &a, &b))
                ls_svg_box(&c->svg, x_of(c, a), c->y + BOX, x_of(c, b) - x_of(c, a), SMALL - 1, LS_OPEN_BOX);
            continue;
        }
        paint_span(c, l->start, l->leave, LOAD, l->certainty);
        if (on_day(c, l->start, l->leave, &a, &b) && b > last) last = b;
    }
    long begins = c->plan->begins.day == c->day ? c->plan->begins.second - c->plan->day_begins : 0;
    for (size_t i = begins > 0 ? (size_t)((begins + c->cell - 1) / c->cell) : 0; i < c->cells; i++) {
        long from = (long)i * c->cell, to = from + c->cell < last ? from + c->cell : last;
        if (to > from) c->seconds[i][WAIT] += to - from - c->seconds[i][LOAD] - c->seconds[i][SLATS];
    }
}

static void paint_truck(chart *c, long truck) {
    bool late = c->plan->begins.day == c->day && c->plan->begins.second > c->plan->day_begins;
    ls_moment home = {c->day, late ? c->plan->begins.second : c->plan->day_begins};
    LS_EACH_OF (const ls_load, l, c->plan->loads, c->plan->loads_n) {
        if (!ls_load_counted(l) || l->truck != truck || l->day > c->day || l->back.day < c->day) continue;
        if (l->day == c->day) paint_span(c, home, l->start, WAIT, l->certainty);
        paint_span(c, l->start, l->leave, LOAD, l->certainty);
        paint_span(c, l->leave, l->there, OUT, l->certainty);
        paint_span(c, l->there, l->emptied, l->buyer == NULL ? DUMP : SPREAD, l->certainty);
        paint_span(c, l->emptied, l->back, BACK, l->certainty);
        home = l->back;
    }
}

/* "truck 2"; of several kinds as its tickets call it. */
static const char *called(const chart *c, long truck) {
    for (size_t k = 0; c->farm->trucks.n > 1; truck -= c->farm->trucks.at[k++].count.n)
        if (truck <= c->farm->trucks.at[k].count.n)
            return ls_farm_truck_called(c->arena, &c->farm->trucks.at[k], truck);
    return ls_arena_printf(c->arena, "truck %ld", truck);
}

static bool works(const chart *c, long truck) {
    LS_EACH_OF (const ls_load, l, c->plan->loads, c->plan->loads_n)
        if (ls_load_counted(l) && l->truck == truck && l->day <= c->day && c->day <= l->back.day) return true;
    return false;
}

/* Trucks that do not work on the day are left out. */
static void put_day(chart *c, long trucks) {
    long shown = 0;
    put_hours(c, "");
    if (!c->apart) paint_slats(c);
    paint_loader(c);
    put_row(c, "loader");
    if (c->apart) {
        paint_slats(c);
        put_row(c, "slats");
    }
    for (long k = 1; k <= trucks && shown < MOST_TRUCKS; k++) {
        if (!works(c, k)) continue;
        shown++;
        paint_truck(c, k);
        put_row(c, called(c, k));
    }
}

/* "Feb 16" */
static const char *short_day(const chart *c) {
    enum { WEEKDAY = 5 };
    return ls_date_words(c->arena, c->day, ls_date_year(c->day)) + WEEKDAY;
}

/* The hours across so many rows. */
static void begin(chart *c, const char *id, const char *title, double rows, size_t below) {
    enum { HOUR = 3600, ROOM = 38 };
    double end = HEAD + rows * ROW;
    c->text = ls_text_new(c->arena);
    c->svg = ls_svg_begin(c->arena, id, title,
                          "Hours from left to right. Boxes: the loader loads; full: firm loads, hatched: likely "
                          "ones, open and low: possible ones. Dashed: slats are moved. Of a truck: lines are the "
                          "way, low boxes spreading (full) and dumping at the stack (open).",
                          end + (double)below * LS_SVG_LINE + 4);
    double last = 0;
    for (long t = (c->plan->day_begins + HOUR - 1) / HOUR * HOUR; t <= c->plan->day_begins + c->plan->day_seconds;
         t += HOUR) {
        double x = x_of(c, t - c->plan->day_begins);
        long hour = t / HOUR % 24;
        ls_svg_line(&c->svg, x, HEAD - 4, x, end, LS_GRID_LINE);
        if (x < last + ROOM || x > LS_SVG_WIDTH - 18) continue;
        last = x;
        ls_svg_words(&c->svg, x, HEAD - 7, "middle",
                     ls_arena_printf(c->arena, "%ld %s", hour % 12 == 0 ? 12 : hour % 12, hour < 12 ? "am" : "pm"));
    }
    c->y = HEAD;
}

static void legend(const chart *c) {
    static const char *const names[] = {"firm", "likely", "possible"};
    enum { DASHES = 22 };
    double end = c->y + LS_SVG_LINE, x = LS_SVG_WIDTH - LS_SVG_EDGE - ls_svg_wide("slats moved");
    ls_svg_legend(&c->svg, end, names, sizeof names / sizeof *names);
    ls_svg_line(&c->svg, x - DASHES - 4, end - 5, x - 4, end - 5, LS_DASHED_LINE);
    ls_svg_words(&c->svg, x, end, "start", "slats moved");
}

/* What letters mean, and what the marks of all days. */
static void put_key(ls_doc_group *g, chart *c) {
    c->svg = ls_svg_begin(c->arena, "hours-key", "What the marks of the hours mean", "Each mark with its name.",
                          4 * LS_SVG_LINE);
    legend(c);
    ls_svg_words(&c->svg, LS_SVG_EDGE, c->y + 2 * LS_SVG_LINE, "start", "Line: on the way. Low box: spreading.");
    ls_svg_words(&c->svg, LS_SVG_EDGE, c->y + 3 * LS_SVG_LINE, "start", "Low open box: dumping at the stack.");
    const char *words =
        ls_arena_printf(c->arena,
                        "A column is %ld minutes and shows what takes most of them: L loading, = slats moved, > on "
                        "the way out, s spreading, d dumping at the stack, < on the way back, . waiting.",
                        c->cell / 60);
    ls_doc_picture(g, LS_FULL, NULL, NULL, ls_svg_end(&c->svg),
                   ls_report_lines(c->arena, words, ls_report_width(g->document->view)));
}

/* What the loader does on those days. */
static void put_loader(chart *c, const ls_date *days, size_t n) {
    put_hours(c, "loader");
    for (size_t d = 0; d < n; d++) {
        c->day = days[d];
        paint_slats(c);
        paint_loader(c);
        put_row(c, short_day(c));
    }
    legend(c);
    ls_svg_end(&c->svg);
}

static long trucks_used(const ls_plan *plan) {
    long most = 0;
    for (size_t i = 0; i < plan->loads_n; i++) most = plan->loads[i].truck > most ? plan->loads[i].truck : most;
    return most;
}

static void put_days(ls_doc_group *g, chart *c, long trucks) {
    if (trucks > MOST_TRUCKS) SAY(g, LS_FULL, "No more than {} trucks are shown.", N(MOST_TRUCKS));
    for (size_t d = 0; d < c->plan->days_n; d++) {
        c->day = c->plan->days[d].day;
        long rows = 1 + c->apart;
        for (long k = 1; k <= trucks && rows <= MOST_TRUCKS + c->apart; k++) rows += works(c, k);
        const char *words = ls_date_words(c->arena, c->day, c->year);
        begin(c, ls_arena_printf(c->arena, "day%zu-picture", d + 1),
              ls_arena_printf(c->arena, "Hour by hour, %s", words), (double)rows, 0);
        put_day(c, trucks);
        ls_doc_picture(g, LS_FULL, NULL, words, ls_svg_end(&c->svg), c->text->s);
    }
}

/* All days of the plan, then those that only possible loads need; few: of the plan the first ones and the last. */
static size_t days_of(const ls_plan *plan, bool few, ls_date *days) {
    enum { FIRST_DAYS = 5 };
    size_t n = 0;
    for (size_t i = 0; i < plan->days_n; i++)
        if (!few || i < FIRST_DAYS || i + 1 == plan->days_n) days[n++] = plan->days[i].day;
    for (size_t i = 0; i < plan->loads_n && !few; i++)
        if (!ls_load_counted(&plan->loads[i]) && (n == 0 || plan->loads[i].day > days[n - 1]))
            days[n++] = plan->loads[i].day;
    return n;
}

static chart chart_of(const ls_doc_group *g, const ls_plan *plan) {
    const ls_view *v = g->document->view;
    const ls_slat_crew *slats = v->farm->crew->slats;
    chart c = {.arena = g->document->arena,
               .plan = plan,
               .apart = slats != NULL && slats->while_loading.yes,
               .year = v->year,
               .farm = v->farm,
               .label = LABEL};
    for (long k = trucks_used(plan); k > 0; k--) {
        int n = (int)ls_text_characters(called(&c, k));
        c.label = n > c.label ? n : c.label;
    }
    c.label = c.label < MOST_LABEL ? c.label : MOST_LABEL;
    c.dawn = DAWN + LETTER * (c.label - LABEL);
    c.most = CELLS + LABEL - c.label + (long)(ls_report_width(v) - LS_REPORT_WIDTH);
    scale(&c);
    return c;
}

/* "7:50 am firm, 8:10 am likely" */
static void numbers(chart *c, const ls_date *days, size_t n) {
    ls_chart_rows rows = {0};
    for (size_t d = 0; d < n; d++) {
        ls_text *t = ls_text_new(c->arena);
        for (size_t i = 0; i < c->plan->loads_n; i++)
            if (c->plan->loads[i].day == days[d])
                ls_text_addf(t, "%s%s %s", t->n > 0 ? ", " : "",
                             ls_clock_words(c->arena, c->plan->loads[i].start.second),
                             ls_certainty_name(c->plan->loads[i].certainty));
        *LS_PUSH(c->arena, &rows) = (ls_chart_row){.label = ls_date_words(c->arena, days[d], c->year), .shown = t->s};
    }
    ls_chart_numbers(c->svg.text, "When the loader begins each load", &rows);
}

void ls_report_put_calendar(ls_doc_group *top, const ls_plan *plan) {
    chart c = chart_of(top, plan);
    ls_date *days = LS_NEW(c.arena, ls_date, plan->days_n + plan->loads_n);
    size_t n = days_of(plan, true, days);
    if (n == 0) return;
    begin(&c, "calendar", "Loads by day and hour", (double)n, 1);
    put_loader(&c, days, n);
    numbers(&c, days, n);
    ls_doc_picture(top, LS_FIRST, NULL, "Each box is a load, while the loader fills it.", c.svg.text->s, NULL);
}

void ls_report_put_chart(ls_doc_group *top, const ls_plan *plan) {
    if (plan->days_n == 0) return;
    chart c = chart_of(top, plan);
    ls_doc_group *g = ls_doc_object(top, LS_FULL, NULL, "HOUR BY HOUR");
    put_key(g, &c);
    if (plan->days_n <= MOST_DAYS) {
        put_days(g, &c, trucks_used(plan));
        return;
    }
    ls_date *days = LS_NEW(c.arena, ls_date, plan->days_n + plan->loads_n);
    size_t n = days_of(plan, false, days);
    begin(&c, "loader-picture", "The loader, day by day", (double)n, 1);
    put_loader(&c, days, n);
    ls_doc_picture(g, LS_FULL, NULL, NULL, c.svg.text->s, c.text->s);
}
