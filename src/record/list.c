/* A list of loads that another program wrote, a scale house's above all: columns by their headings,
 * with the units in them. */
#include "row.h"

#include <ctype.h>
#include <math.h>
#include <string.h>

/* Columns that only lists have, behind those of a log. */
enum { TIME = LS_RECORD_COLUMNS, GROSS, TARE, COLUMNS };

/* What a heading is called, without its unit, if not as in a log. */
static const struct {
    int column;
    const char *names; /* '|' about each */
} headings[] = {
    {LS_RECORD_TICKET, "|ticket no|ticket number|load ticket|"},
    {LS_RECORD_WHEN, "|date|day|date time|date and time|"},
    {TIME, "|time|time out|"},
    {LS_RECORD_TONS, "||net|net weight|net wt|weight|"},
    {GROSS, "|gross|gross weight|gross wt|"},
    {TARE, "|tare|tare weight|tare wt|empty|"},
    {LS_RECORD_WORDS + LS_LOG_FIELD, "|destination|to|"},
    {LS_RECORD_WORDS + LS_LOG_TRUCK, "|truck no|vehicle|"},
    {LS_RECORD_WORDS + LS_LOG_RECEIVED_BY, "|receiver|"},
    {LS_RECORD_WORDS + LS_LOG_INCORPORATED, "|worked in|"},
    {LS_RECORD_WORDS + LS_LOG_NOTE, "|notes|remark|remarks|comment|comments|"},
};

typedef struct {
    int column;  /* -1: none of a load */
    double unit; /* of its weights; 0: not told */
    const char *heading;
} heading;

typedef struct {
    ls_record_facts facts;
    LS_LIST(heading) columns;
    bool scale; /* it weighs gross and tare, or net */
} reading;

#define MISTAKE(r, cell, hint, ...) LS_RECORD_MISTAKE(&(r)->facts, cell, hint, __VA_ARGS__)

/* The unit of mass that a text ends with, and the rest before it; 0: none. */
static double cut_unit(ls_arena *a, char *s) {
    size_t n = strlen(s), from = n;
    ls_unit unit;
    while (from > 0 && isalpha((unsigned char)s[from - 1]))
        from--;
    const char *word =
        strcmp(s + from, "lbs") == 0 || strcmp(s + from, "pounds") == 0 ? "lb" : s + from;
    if (from == n || ls_unit_parse(a, word, strlen(word), &unit) != LS_UNIT_OK ||
        !ls_dimension_same(unit.dimension, ls_unit_of("ton").dimension))
        return 0;
    while (from > 0 && s[from - 1] == ' ')
        from--;
    s[from] = '\0';
    return unit.factor;
}

/* Small letters, single blanks between words. */
static char *plain(ls_arena *a, const char *s) {
    ls_text *t = ls_text_new(a);
    for (; *s != '\0'; s++) {
        char c = (char)tolower((unsigned char)*s);
        if (isalnum((unsigned char)c))
            ls_text_add_n(t, &c, 1);
        else if (t->n > 0 && t->s[t->n - 1] != ' ')
            ls_text_add(t, " ");
    }
    while (t->n > 0 && t->s[t->n - 1] == ' ')
        t->s[--t->n] = '\0';
    return t->s;
}

static heading heading_of(ls_arena *a, const char *text) {
    char *name = plain(a, text);
    heading h = {-1, 0, text};
    for (size_t i = LS_RECORD_TICKET; i <= LS_RECORD_ACRES; i++)
        if (strcmp(name, plain(a, ls_record_column(i))) == 0)
            h.column = (int)i;
    h.unit = cut_unit(a, name);
    const char *between = ls_arena_printf(a, "|%s|", name);
    for (size_t i = 0; text[0] != '\0' && i < sizeof headings / sizeof *headings; i++)
        if (strstr(headings[i].names, between) != NULL)
            h.column = headings[i].column;
    return h;
}

/* One column at most of each kind, those that are needed among them. */
static bool read_headings(reading *r, const ls_record_reader *rows) {
    bool has[COLUMNS] = {false};
    for (size_t i = 0; i < rows->cells.n; i++) {
        ls_arena *a = r->facts.arena;
        heading h = heading_of(a, ls_record_trimmed(a, rows->cells.at[i].text));
        if (h.column >= 0 && has[h.column])
            MISTAKE(r, &rows->cells.at[i], "take one of them out", "a second column like \"%s\"",
                    h.heading);
        if (h.column >= 0)
            has[h.column] = true;
        r->scale = r->scale || h.column == GROSS ||
                   (h.column == LS_RECORD_TONS && strncmp(plain(a, h.heading), "net", 3) == 0);
        *LS_PUSH(a, &r->columns) = h;
    }
    if (has[LS_RECORD_TICKET] && has[LS_RECORD_WHEN] &&
        (has[LS_RECORD_TONS] || (has[GROSS] && has[TARE])))
        return true;
    ls_diag_add(r->facts.d, LS_ERROR, (ls_place){rows->file, 1, 1, 1},
                "name them in the first line: Ticket, Date, and Net (lb) or Gross and Tare",
                "this list has no columns for ticket, day and weight");
    return false;
}

/* v of the unit; without one a number that can only be pounds, or only tons. NAN: no weight of a
 * truck or load. */
static double weight_of(double v, double unit) {
    double ton = ls_unit_of("ton").factor, most = 100;
    unit = unit > 0 ? unit : v >= ton / 2 ? 1 : v < most ? ton : 0;
    return v * unit >= ton / 20 && v * unit <= most * ton ? v * unit : NAN;
}

/* "17,400 lb", "8.7": by the sign in it that leaves a weight. */
static double read_weight(reading *r, const ls_record_cell *cell, double unit) {
    static const ls_record_habits with_point = {.point = true}, with_comma = {.comma = true};
    char *s = ls_arena_copy(r->facts.arena, cell->text);
    double own = cut_unit(r->facts.arena, s), v = NAN, w;
    ls_record_meaning meaning = ls_record_number(&r->facts.habits, s, &v);
    unit = own > 0 ? own : unit;
    if (meaning == LS_RECORD_NOT)
        MISTAKE(r, cell, "for example 17,400 lb or 8.7 tons", "this is no weight");
    if (meaning != LS_RECORD_TWO_WAYS)
        return weight_of(v, unit);
    ls_record_number(&with_point, s, &v);
    ls_record_number(&with_comma, s, &w);
    v = weight_of(v, unit);
    w = weight_of(w, unit);
    if (!isnan(v) && !isnan(w))
        MISTAKE(r, cell, "write the unit in the heading: Net (lb) or Net (tons)",
                "this may be pounds or tons");
    return isnan(v) ? w : v;
}

/* Net, and gross less tare: either tells, both agree to two steps of a scale. */
static void read_tons(reading *r, const ls_record_cell cells[COLUMNS], const double unit[COLUMNS],
                      ls_log_entry *e) {
    static const int columns[] = {LS_RECORD_TONS, GROSS, TARE};
    double ton = ls_unit_of("ton").factor, w[3] = {NAN, NAN, NAN};
    size_t before = ls_diag_count(r->facts.d, LS_ERROR);
    for (int k = 0; k < 3; k++)
        if (cells[columns[k]].text[0] != '\0')
            w[k] = read_weight(r, &cells[columns[k]], unit[columns[k]]);
    double net = isnan(w[0]) ? w[1] - w[2] : w[0];
    const ls_record_cell *at = &cells[cells[GROSS].text[0] != '\0' ? GROSS : LS_RECORD_TONS];
    if (fabs(w[1] - w[2] - net) > ton / 50)
        MISTAKE(r, at, NULL, "the net weight is not gross less tare");
    else if (net > 0 && net <= LS_MOST_TONS * ton)
        e->tons = round(net / ton * 10000) / 10000 * ton; /* as the log writes them */
    else if (ls_diag_count(r->facts.d, LS_ERROR) == before)
        MISTAKE(r, at, NULL, "this row has no weight of a load");
}

static ls_log_entry read_row(reading *r, const ls_record_reader *rows) {
    ls_arena *a = r->facts.arena;
    ls_record_cell cells[COLUMNS];
    double unit[COLUMNS] = {0};
    ls_log_entry e = ls_log_no_facts(rows->cells.at[0].at);
    for (size_t i = 0; i < COLUMNS; i++)
        cells[i] = (ls_record_cell){i == LS_RECORD_WEIGHED ? (r->scale ? "yes" : "no") : "", e.at};
    for (size_t i = 0; i < r->columns.n && i < rows->cells.n; i++) {
        const heading *h = &r->columns.at[i];
        const ls_record_cell *from = &rows->cells.at[i];
        if (h->column < 0)
            continue;
        cells[h->column] = (ls_record_cell){ls_record_trimmed(a, from->text), from->at};
        unit[h->column] = h->unit;
    }
    if (rows->cells.n < r->columns.n) {
        MISTAKE(r, &cells[0], NULL, "this line has %zu cells, %zu are needed", rows->cells.n,
                r->columns.n);
        return e;
    }
    if (cells[TIME].text[0] != '\0')
        cells[LS_RECORD_WHEN].text =
            ls_arena_printf(a, "%s %s", cells[LS_RECORD_WHEN].text, cells[TIME].text);
    ls_record_read_facts(&r->facts, cells, &e);
    read_tons(r, cells, unit, &e);
    return e;
}

static void learn(reading *r, const ls_record_reader *rows) {
    ls_arena *a = r->facts.arena;
    for (size_t i = 0; i < rows->cells.n && i < r->columns.n; i++) {
        int column = r->columns.at[i].column;
        char *s = ls_arena_copy(a, ls_record_trimmed(a, rows->cells.at[i].text));
        if (column == LS_RECORD_WHEN)
            ls_record_learn_when(&r->facts.habits, s);
        cut_unit(a, s);
        if (column == LS_RECORD_TONS || column == LS_RECORD_ACRES || column >= GROSS)
            ls_record_learn_number(&r->facts.habits, s);
    }
}

const ls_log_list *ls_log_list_read(ls_arena *a, ls_diag *d, const char *path) {
    ls_log_list *list = LS_NEW(a, ls_log_list, 1);
    int32_t file = ls_file_read_plain(a, d, path);
    if (file < 0)
        return NULL;
    reading r = {.facts = {a, d, NULL, {0}}};
    for (int pass = 0; pass < 2; pass++) { /* first to learn how it writes days and numbers */
        ls_record_reader rows = ls_record_reader_of(a, d, file);
        ls_record_status status = ls_record_next(&rows);
        if (pass == 0 && !read_headings(&r, &rows))
            return NULL;
        while (status == LS_RECORD_ROW_READ) {
            status = ls_record_next(&rows); /* the last line end may be missing */
            if (status == LS_RECORD_END || status == LS_RECORD_WRONG || ls_record_blank(&rows))
                continue;
            if (pass == 0)
                learn(&r, &rows);
            else
                *LS_PUSH(a, &list->entries) = read_row(&r, &rows);
        }
    }
    for (size_t i = 0; i < r.columns.n; i++)
        if (r.columns.at[i].column < 0 && r.columns.at[i].heading[0] != '\0')
            list->unread =
                ls_arena_printf(a, "%s%s%s", list->unread == NULL ? "" : list->unread,
                                list->unread == NULL ? "" : ", ", r.columns.at[i].heading);
    return ls_diag_count(d, LS_ERROR) == 0 ? list : NULL;
}
