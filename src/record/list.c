/* A list of loads that another program wrote, a scale house's above all: columns by their headings,
 * with the units in them. */
#include "row.h"

#include <ctype.h>
#include <math.h>
#include <string.h>

typedef enum { TICKET, WHEN, TIME, NET, GROSS, TARE, WEIGHED, CLEARED, ACRES, WORD, NOTHING } role;

/* What a heading is called, without its unit. */
static const struct {
    role role;
    ls_log_word word;
    const char *names; /* '|' about each */
} headings[] = {
    {TICKET, 0, "|ticket|ticket no|ticket number|load ticket|"},
    {WHEN, 0, "|when|date|day|date time|date and time|"},
    {TIME, 0, "|time|time out|"},
    {NET, 0, "||net|net weight|net wt|weight|"},
    {GROSS, 0, "|gross|gross weight|gross wt|"},
    {TARE, 0, "|tare|tare weight|tare wt|empty|"},
    {WEIGHED, 0, "|weighed|"},
    {CLEARED, 0, "|cleared|"},
    {ACRES, 0, "|acres|"},
    {WORD, LS_LOG_FIELD, "|field|destination|to|"},
    {WORD, LS_LOG_TRUCK, "|truck|truck no|vehicle|"},
    {WORD, LS_LOG_DRIVER, "|driver|"},
    {WORD, LS_LOG_RECEIVED_BY, "|received by|receiver|"},
    {WORD, LS_LOG_ANALYSIS, "|analysis|"},
    {WORD, LS_LOG_INCORPORATED, "|incorporated|worked in|"},
    {WORD, LS_LOG_WEATHER_BEFORE, "|weather before|"},
    {WORD, LS_LOG_WEATHER, "|weather|"},
    {WORD, LS_LOG_WEATHER_AFTER, "|weather after|"},
    {WORD, LS_LOG_SOIL, "|soil|"},
    {WORD, LS_LOG_NOTE, "|note|notes|remark|remarks|comment|comments|"},
};

typedef struct {
    role role;
    ls_log_word word;
    double unit; /* of its weights; 0: not told */
    const char *heading;
} column;

typedef struct {
    ls_arena *a;
    ls_diag *d;
    LS_LIST(column) columns;
    ls_record_habits habits;
    bool scale; /* it weighs gross and tare, or net */
} reading;

#define MISTAKE(r, cell, hint, ...) ls_diag_add((r)->d, LS_ERROR, (cell)->at, (hint), __VA_ARGS__)

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

static column column_of(const reading *r, const char *heading) {
    ls_text *plain = ls_text_new(r->a); /* small letters, single blanks between words */
    for (const char *s = heading; *s != '\0'; s++) {
        char c = (char)tolower((unsigned char)*s);
        if (isalnum((unsigned char)c))
            ls_text_add_n(plain, &c, 1);
        else if (plain->n > 0 && plain->s[plain->n - 1] != ' ')
            ls_text_add(plain, " ");
    }
    while (plain->n > 0 && plain->s[plain->n - 1] == ' ')
        plain->s[--plain->n] = '\0';
    column c = {NOTHING, 0, 0, heading};
    c.unit = cut_unit(r->a, plain->s);
    const char *name = ls_arena_printf(r->a, "|%s|", plain->s);
    if (plain->s[0] == '\0' && c.unit <= 0)
        return c; /* no heading at all */
    for (size_t i = 0; i < sizeof headings / sizeof *headings; i++)
        if (strstr(headings[i].names, name) != NULL) {
            c.role = headings[i].role;
            c.word = headings[i].word;
        }
    return c;
}

/* One column at most for each of them, those that are needed among them. */
static bool read_headings(reading *r, const ls_record_reader *rows) {
    int has[NOTHING + 1] = {0};
    for (size_t i = 0; i < rows->cells.n; i++) {
        column c = column_of(r, ls_record_trimmed(r->a, rows->cells.at[i].text));
        if (c.role < WORD && has[c.role]++ > 0)
            MISTAKE(r, &rows->cells.at[i], "take one of them out", "a second column like \"%s\"",
                    c.heading);
        r->scale =
            r->scale || c.role == GROSS || (c.role == NET && strstr(c.heading, "et") != NULL);
        *LS_PUSH(r->a, &r->columns) = c;
    }
    if (has[TICKET] > 0 && has[WHEN] > 0 && (has[NET] > 0 || (has[GROSS] > 0 && has[TARE] > 0)))
        return true;
    ls_diag_add(r->d, LS_ERROR, rows->cells.n > 0 ? rows->cells.at[0].at : LS_NOWHERE,
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
    char *s = ls_arena_copy(r->a, ls_record_trimmed(r->a, cell->text));
    double own = cut_unit(r->a, s), v = NAN, w;
    ls_record_meaning meaning = ls_record_number(&r->habits, s, &v);
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

static void read_when(reading *r, const ls_record_cell *day, const ls_record_cell *time,
                      ls_log_entry *e) {
    ls_when may[4];
    const char *s = ls_record_trimmed(r->a, day->text);
    if (time != NULL && ls_record_trimmed(r->a, time->text)[0] != '\0')
        s = ls_arena_printf(r->a, "%s %s", s, ls_record_trimmed(r->a, time->text));
    ls_record_meaning meaning = ls_record_when(&r->habits, s, may);
    e->when = may[0];
    if (meaning == LS_RECORD_TWO_WAYS)
        MISTAKE(r, day, "write the year first: 2026-02-16",
                "this day may mean two days, and no other line says which comes first, month or "
                "day");
    else if (meaning == LS_RECORD_NOT)
        MISTAKE(r, day, "for example 2026-02-16 or 2/16/2026, and the time as 10:00",
                "this is no day, or no day and time");
}

/* Net, and gross less tare: either tells, both agree to two steps of a scale. */
static void read_tons(reading *r, const ls_record_cell *of[NOTHING], const double unit[NOTHING],
                      ls_log_entry *e) {
    double ton = ls_unit_of("ton").factor, w[3] = {NAN, NAN, NAN};
    const ls_record_cell *first = NULL;
    for (role k = NET; k <= TARE; k++) {
        if (of[k] == NULL || ls_record_trimmed(r->a, of[k]->text)[0] == '\0')
            continue;
        w[k - NET] = read_weight(r, of[k], unit[k]);
        first = first == NULL ? of[k] : first;
    }
    double net = isnan(w[0]) ? w[1] - w[2] : w[0];
    if (fabs(w[1] - w[2] - net) > ton / 50)
        MISTAKE(r, first, NULL, "the net weight is not gross less tare");
    else if (!(net > 0 && net <= LS_MOST_TONS * ton) && ls_diag_count(r->d, LS_ERROR) == 0)
        MISTAKE(r, first != NULL ? first : of[TICKET], NULL, "this row has no weight of a load");
    const char *written = isnan(net) ? "0" : ls_log_tons_text(r->a, fmax(net, 0));
    ls_number_parse(written, strlen(written), &e->tons);
    e->tons *= ton;
}

static void read_ticket(reading *r, const ls_record_cell *cell, ls_log_entry *e) {
    if (ls_ticket_read(r->a, ls_record_trimmed(r->a, cell->text), &e->ticket) != LS_TICKET_OK)
        MISTAKE(r, cell, "write the number of the load's ticket, such as NORTH-LEFT-03-L",
                "this is no ticket number, or a slip in it");
}

static void read_share(reading *r, const ls_record_cell *cell, ls_log_entry *e) {
    const char *s = ls_record_trimmed(r->a, cell->text);
    if (s[0] != '\0' && !ls_log_share_parse(s, &e->cleared))
        MISTAKE(r, cell, "for example 40 % or all", "cleared should be a share of the lot");
}

static void read_rest(reading *r, const ls_record_cell *of[NOTHING], ls_log_entry *e) {
    double acres;
    e->weighed = r->scale;
    if (of[WEIGHED] != NULL &&
        !ls_record_yes_no(ls_record_trimmed(r->a, of[WEIGHED]->text), &e->weighed))
        MISTAKE(r, of[WEIGHED], NULL, "weighed should be yes or no");
    if (of[CLEARED] != NULL)
        read_share(r, of[CLEARED], e);
    if (of[ACRES] == NULL || ls_record_trimmed(r->a, of[ACRES]->text)[0] == '\0')
        return;
    if (ls_record_number(&r->habits, of[ACRES]->text, &acres) == LS_RECORD_READS)
        e->acres = acres * ls_unit_of("ac").factor;
    else
        MISTAKE(r, of[ACRES], "for example 2.5", "acres should be a number");
}

static ls_log_entry read_row(reading *r, const ls_record_cell *cells, size_t n) {
    const ls_record_cell *of[NOTHING] = {NULL};
    double unit[NOTHING] = {0};
    ls_log_entry e = {.cleared = NAN, .acres = NAN, .at = cells[0].at};
    for (int i = 0; i < LS_LOG_WORDS; i++)
        e.words[i] = "";
    for (size_t i = 0; i < r->columns.n && i < n; i++) {
        const column *c = &r->columns.at[i];
        const char *s = ls_record_trimmed(r->a, cells[i].text);
        if (c->role < WORD) {
            of[c->role] = &cells[i];
            unit[c->role] = c->unit;
        } else if (c->role == WORD && ls_log_fits(r->a, s)) {
            e.words[c->word] = ls_record_unguarded(r->a, s);
        } else if (c->role == WORD) {
            MISTAKE(r, &cells[i], "save the file as UTF-8", "a character that cannot be shown");
        }
    }
    if (n < r->columns.n) {
        MISTAKE(r, &cells[0], NULL, "this line has %zu cells, %zu are needed", n, r->columns.n);
        return e;
    }
    read_ticket(r, of[TICKET], &e);
    read_when(r, of[WHEN], of[TIME], &e);
    read_tons(r, of, unit, &e);
    read_rest(r, of, &e);
    return e;
}

/* The sign that stands most often in the first line. */
static char separator_of(const ls_input *input) {
    static const char signs[] = ",;\t";
    size_t end = strcspn(input->text, "\n"), most = 0;
    char best = ',';
    for (const char *sign = signs; *sign != '\0'; sign++) {
        size_t n = 0;
        for (size_t i = 0; i < end; i++)
            n += input->text[i] == *sign;
        if (n > most)
            best = *sign;
        most = n > most ? n : most;
    }
    return best;
}

static void learn(reading *r, const ls_record_reader *rows) {
    for (size_t i = 0; i < rows->cells.n && i < r->columns.n; i++) {
        role of = r->columns.at[i].role;
        char *s = ls_arena_copy(r->a, ls_record_trimmed(r->a, rows->cells.at[i].text));
        if (of == WHEN)
            ls_record_learn_when(&r->habits, s);
        else if (of >= NET && of <= ACRES && (cut_unit(r->a, s), true))
            ls_record_learn_number(&r->habits, s);
    }
}

static bool blank(const reading *r, const ls_record_reader *rows) {
    for (size_t i = 0; i < rows->cells.n; i++)
        if (ls_record_trimmed(r->a, rows->cells.at[i].text)[0] != '\0')
            return false;
    return true;
}

const ls_log_list *ls_log_list_read(ls_arena *a, ls_diag *d, const char *path) {
    ls_log_list *list = LS_NEW(a, ls_log_list, 1);
    int32_t file = ls_file_read_plain(a, d, path);
    if (file < 0)
        return NULL;
    reading r = {.a = a, .d = d};
    for (int pass = 0; pass < 2; pass++) { /* first to learn how it writes days and numbers */
        ls_record_reader rows = ls_record_reader_of(a, d, file);
        rows.separator = separator_of(rows.input);
        ls_record_status status = ls_record_next(&rows);
        if (pass == 0 && !read_headings(&r, &rows))
            return NULL;
        while (status == LS_RECORD_ROW_READ) {
            status = ls_record_next(&rows); /* the last line end may be missing */
            if (status == LS_RECORD_END || status == LS_RECORD_WRONG || blank(&r, &rows))
                continue;
            if (pass == 0)
                learn(&r, &rows);
            else
                *LS_PUSH(a, &list->entries) = read_row(&r, rows.cells.at, rows.cells.n);
        }
    }
    for (size_t i = 0; i < r.columns.n; i++)
        if (r.columns.at[i].role == NOTHING && r.columns.at[i].heading[0] != '\0')
            list->unread =
                ls_arena_printf(a, "%s%s%s", list->unread == NULL ? "" : list->unread,
                                list->unread == NULL ? "" : ", ", r.columns.at[i].heading);
    return ls_diag_count(d, LS_ERROR) == 0 ? list : NULL;
}
