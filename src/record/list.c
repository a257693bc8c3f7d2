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

/* How a column of weights may be read: by the decimal sign, by the unit. */
enum { BY_COMMA = 1, IN_TONS = 2, WAYS = 4 };

typedef struct {
    int column;    /* -1: none of a load */
    double unit;   /* of its weights; 0: not told, NAN: "t" */
    unsigned ways; /* bits: each weight of the column is one by this way */
    const char *heading;
} heading;

typedef struct {
    ls_record_facts facts;
    LS_LIST(heading) columns;
    bool scale; /* it weighs gross and tare, or net */
} reading;

static const char which_ton[] = "write ton (2,000 lb) or tonne (1,000 kg) instead of t",
                  one_unit[] = "write the unit in the heading: Net (lb) or Net (tons)";

#define MISTAKE(r, cell, hint, ...) LS_RECORD_MISTAKE(&(r)->facts, cell, hint, __VA_ARGS__)

/* The unit of mass that a text ends with, and the rest before it; 0: none, NAN: "t". */
static double cut_unit(ls_arena *a, char *s) {
    size_t end = strlen(s);
    end -= end > 0 && s[end - 1] == '.';
    size_t from = end;
    while (from > 0 && isalpha((unsigned char)s[from - 1])) from--;
    char *word = ls_arena_copy_n(a, s + from, end - from);
    for (char *c = word; *c != '\0'; c++) *c = (char)tolower((unsigned char)*c);
    const char *name = strcmp(word, "lbs") == 0 || strcmp(word, "pounds") == 0 ? "lb" : word;
    ls_unit unit;
    ls_unit_status known = ls_unit_parse(a, name, strlen(name), &unit);
    if (from == end || (known != LS_UNIT_T &&
                        (known != LS_UNIT_OK || !ls_dimension_same(unit.dimension, ls_unit_of("ton").dimension))))
        return 0;
    while (from > 0 && s[from - 1] == ' ') from--;
    s[from] = '\0';
    return known == LS_UNIT_T ? NAN : unit.factor;
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
    while (t->n > 0 && t->s[t->n - 1] == ' ') t->s[--t->n] = '\0';
    return t->s;
}

static heading heading_of(ls_arena *a, const char *text) {
    char *name = plain(a, text);
    heading h = {-1, 0, ~0U, text};
    for (size_t i = LS_RECORD_TICKET; i <= LS_RECORD_ACRES; i++)
        if (strcmp(name, plain(a, ls_record_column(i))) == 0) h.column = (int)i;
    h.unit = cut_unit(a, name);
    const char *between = ls_arena_printf(a, "|%s|", name);
    bool named = name[0] != '\0' || h.unit > 0;
    for (size_t i = 0; named && i < sizeof headings / sizeof *headings; i++)
        if (strstr(headings[i].names, between) != NULL) h.column = headings[i].column;
    return h;
}

/* Are these the headings? One of each kind that is needed. */
static bool are_headings(reading *r, const ls_record_reader *rows) {
    ls_arena *a = r->facts.arena;
    bool has[COLUMNS + 1] = {false};
    r->columns.n = 0;
    for (size_t i = 0; i < rows->cells.n; i++) {
        heading h = heading_of(a, ls_record_trimmed(a, rows->cells.at[i].text));
        has[h.column < 0 ? COLUMNS : h.column] = true;
        *LS_PUSH(a, &r->columns) = h;
    }
    return has[LS_RECORD_TICKET] && has[LS_RECORD_WHEN] && (has[LS_RECORD_TONS] || (has[GROSS] && has[TARE]));
}

/* Up to the headings, which name one column at most of each kind. */
static bool read_headings(reading *r, ls_record_reader *rows) {
    bool has[COLUMNS] = {false};
    ls_record_status status;
    for (rows->titles = true; rows->titles; rows->titles = !are_headings(r, rows)) {
        status = ls_record_next(rows);
        if (status == LS_RECORD_END)
            ls_diag_add(r->facts.d, LS_ERROR, (ls_place){rows->file, 1, 1, 1},
                        "name them in one line: Ticket, Date, and Net (lb) or Gross and Tare",
                        "this list has no columns for ticket, day and weight");
        if (status == LS_RECORD_END || status == LS_RECORD_WRONG) return false;
    }
    for (size_t i = 0; i < r->columns.n; i++) {
        const heading *h = &r->columns.at[i];
        if (h->column < 0) continue;
        if (has[h->column])
            MISTAKE(r, &rows->cells.at[i], "take one of them out", "a second column like \"%s\"", h->heading);
        if (isnan(h->unit)) MISTAKE(r, &rows->cells.at[i], which_ton, "t may be of 2,000 lb or of 1,000 kg");
        has[h->column] = true;
        r->scale = r->scale || h->column == GROSS ||
                   (h->column == LS_RECORD_TONS && strncmp(plain(r->facts.arena, h->heading), "net", 3) == 0);
    }
    return true;
}

/* By one of the ways; of another unit than that if it was told. NAN: no weight of a truck or load;
 * below half a ton it is none either, if only its size tells that it is in pounds. */
static double weight_by(const char *s, double unit, unsigned way) {
    double v, ton = ls_unit_of("ton").factor;
    bool told = unit > 0, in_tons = (way & IN_TONS) != 0;
    if (!ls_record_number_by(s, way & BY_COMMA ? ',' : '.', &v)) return NAN;
    v *= told ? unit : in_tons ? ton : 1;
    return v >= (told || in_tons ? ton / 20 : ton / 2) && v <= 100 * ton ? v : NAN;
}

/* A weight tells the ways of its column. */
static void learn_weight(reading *r, const ls_record_cell *cell, heading *h) {
    char *s = ls_arena_copy(r->facts.arena, ls_record_trimmed(r->facts.arena, cell->text));
    double own = cut_unit(r->facts.arena, s);
    unsigned ways = 0;
    for (unsigned way = 0; way < WAYS; way++) ways |= isnan(weight_by(s, own > 0 ? own : h->unit, way)) ? 0 : 1U << way;
    if (ways == 0) return; /* none by itself, which is told later */
    if ((h->ways & ways) == 0)
        MISTAKE(r, cell, one_unit, "this weight has another unit or decimal sign than those above");
    h->ways &= ways;
}

/* "17,400 lb", "8.7": by the ways that its column leaves, which must all say the same. */
static double read_weight(reading *r, const ls_record_cell *cell, const heading *h) {
    ls_arena *a = r->facts.arena;
    char *s = ls_arena_copy(a, cell->text);
    double own = cut_unit(a, s), v = NAN, number;
    if (isnan(own))
        MISTAKE(r, cell, which_ton, "t may be of 2,000 lb or of 1,000 kg");
    else if (!ls_record_number_by(s, '.', &number) && !ls_record_number_by(s, ',', &number))
        MISTAKE(r, cell, "for example 17,400 lb or 8.7 tons", "this is no weight");
    for (unsigned way = 0; way < WAYS; way++) {
        double w = h->ways >> way & 1 ? weight_by(s, own > 0 ? own : h->unit, way) : NAN;
        if (!isnan(w) && !isnan(v) && (w < v || w > v)) {
            MISTAKE(r, cell, one_unit, "this may be %s or %s tons", ls_log_tons_text(a, fmin(v, w)),
                    ls_log_tons_text(a, fmax(v, w)));
            return NAN;
        }
        v = isnan(w) ? v : w;
    }
    return v;
}

/* Net, and gross less tare: either tells, both agree to two steps of a scale. */
static void read_tons(reading *r, const ls_record_cell cells[COLUMNS], const heading *const from[COLUMNS],
                      ls_log_entry *e) {
    static const int columns[] = {LS_RECORD_TONS, GROSS, TARE};
    double ton = ls_unit_of("ton").factor, w[3] = {NAN, NAN, NAN};
    size_t before = ls_diag_count(r->facts.d, LS_ERROR);
    for (int k = 0; k < 3; k++)
        if (cells[columns[k]].text[0] != '\0') w[k] = read_weight(r, &cells[columns[k]], from[columns[k]]);
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
    const heading *headed[COLUMNS] = {NULL};
    ls_log_entry e = ls_log_no_facts(rows->cells.at[0].at);
    for (size_t i = 0; i < COLUMNS; i++)
        cells[i] = (ls_record_cell){i == LS_RECORD_WEIGHED ? (r->scale ? "yes" : "no") : "", e.at};
    for (size_t i = 0; i < r->columns.n && i < rows->cells.n; i++) {
        const heading *h = &r->columns.at[i];
        const ls_record_cell *from = &rows->cells.at[i];
        if (h->column < 0) continue;
        cells[h->column] = (ls_record_cell){ls_record_trimmed(a, from->text), from->at};
        headed[h->column] = h;
    }
    if (rows->open || rows->cells.n < r->columns.n) {
        MISTAKE(r, &cells[0], rows->at < rows->input->size ? NULL : "was the list cut off?",
                "this line has %zu cells, %zu are needed", rows->cells.n, r->columns.n);
        return e;
    }
    const char *day = cells[LS_RECORD_WHEN].text;
    if (cells[TIME].text[0] != '\0') /* a spreadsheet may have put 00:00:00 behind the day */
        cells[LS_RECORD_WHEN].text = ls_arena_printf(a, "%.*s %s", (int)strcspn(day, " T"), day, cells[TIME].text);
    ls_record_read_facts(&r->facts, cells, &e);
    read_tons(r, cells, headed, &e);
    return e;
}

static void learn(reading *r, const ls_record_reader *rows) {
    for (size_t i = 0; i < rows->cells.n && i < r->columns.n; i++) {
        heading *h = &r->columns.at[i];
        const ls_record_cell *cell = &rows->cells.at[i];
        const char *s = ls_record_trimmed(r->facts.arena, cell->text);
        if (h->column == LS_RECORD_WHEN)
            ls_record_learn_when(&r->facts.habits, s);
        else if (h->column == LS_RECORD_ACRES)
            ls_record_learn_number(&r->facts.habits, s);
        else if (h->column == LS_RECORD_TONS || h->column == GROSS || h->column == TARE)
            learn_weight(r, cell, h);
    }
}

const ls_log_list *ls_log_list_read(ls_arena *a, ls_diag *d, const char *path) {
    ls_log_list *list = LS_NEW(a, ls_log_list, 1);
    int32_t file = ls_file_read_plain(a, d, path);
    if (file < 0) return NULL;
    reading r = {.facts = {a, d, NULL, {0}}};
    ls_record_reader first = ls_record_reader_of(a, d, file);
    if (!read_headings(&r, &first)) return NULL;
    for (int pass = 0; pass < 2; pass++) { /* first to learn how it writes days and numbers */
        ls_record_reader rows = first;
        for (ls_record_status status = LS_RECORD_ROW_READ; status == LS_RECORD_ROW_READ;) {
            status = ls_record_next(&rows); /* the last line end may be missing */
            if (status == LS_RECORD_END || status == LS_RECORD_WRONG || ls_record_blank(&rows)) continue;
            if (pass == 0)
                learn(&r, &rows);
            else
                *LS_PUSH(a, &list->entries) = read_row(&r, &rows);
        }
    }
    for (size_t i = 0; i < r.columns.n; i++)
        if (r.columns.at[i].column < 0 && r.columns.at[i].heading[0] != '\0')
            list->unread = ls_arena_printf(a, "%s%s%s", list->unread == NULL ? "" : list->unread,
                                           list->unread == NULL ? "" : ", ", r.columns.at[i].heading);
    return ls_diag_count(d, LS_ERROR) == 0 ? list : NULL;
}
