/* The file of a depth survey on a grid: comma-separated, a header with units, a line a reading. */
#include "reader.h"

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { ACROSS, ALONG, DEPTH, COLUMNS, MOST_READINGS = 10000, SHOWN = 40 };

static const char *const column_names[COLUMNS] = {"across", "along", "depth"};
/* The most a place or a depth may be, in ft: the longest house, ten feet of litter. */
static const double column_most[COLUMNS] = {500, 3000, 10};
static const char form[] = "the first line is \"across ft,along ft,depth in\"";

typedef struct {
    double at[COLUMNS];
    ls_place place;
} reading;

typedef struct {
    ls_farm_reader *reader;
    ls_input input;
    int32_t file;
    size_t next;   /* byte at which the next line begins */
    uint32_t line; /* number of the line read last */
    size_t column_of[COLUMNS];
    ls_unit unit[COLUMNS]; /* by kind, not by place in the line */
    LS_LIST(reading) readings;
} table;

typedef struct {
    const char *text;
    ls_place place;
} cell;
typedef LS_LIST(cell) cell_list;

/* ---- lines and cells ---- */

static uint32_t characters(const char *s, size_t n) {
    uint32_t count = 0;
    for (size_t i = 0; i < n; i++) count += ((unsigned char)s[i] & 0xC0) != 0x80;
    return count;
}

/* A cell without the blanks and the quotes round it. */
static cell trimmed(table *t, const char *line, size_t from, size_t to) {
    while (from < to && strchr(" \t\"", line[from])) from++;
    while (to > from && strchr(" \t\"\r", line[to - 1])) to--;
    uint32_t width = characters(line + from, to - from);
    return (cell){ls_arena_copy_n(t->reader->arena, line + from, to - from),
                  {t->file, t->line, characters(line, from) + 1, width > 0 ? width : 1}};
}

/* The cells of the next line that is not blank; none at the end of the file. */
static cell_list next_line(table *t) {
    cell_list cells = {0};
    while (cells.n == 0 && t->next < t->input.size) {
        const char *line = t->input.text + t->next;
        size_t left = t->input.size - t->next, length = 0;
        while (length < left && line[length] != '\n') length++;
        t->next += length + 1;
        t->line++;
        bool blank = true;
        for (size_t i = 0; i < length; i++) blank &= strchr(" \t\r,", line[i]) != NULL && line[i] != '\0';
        for (size_t from = 0, to = 0; !blank && to <= length; to++)
            if (to == length || line[to] == ',') {
                *LS_PUSH(t->reader->arena, &cells) = trimmed(t, line, from, to);
                from = to + 1;
            }
    }
    return cells;
}

/* ---- the header ---- */

/* "across ft": which column, and its unit. */
static bool read_head(table *t, const cell *c, size_t place, bool *known) {
    ls_arena *a = t->reader->arena;
    size_t name = strcspn(c->text, " ");
    const char *unit = c->text + name + strspn(c->text + name, " ");
    int kind = 0;
    while (kind < COLUMNS && !(strlen(column_names[kind]) == name && strncmp(column_names[kind], c->text, name) == 0))
        kind++;
    if (kind == COLUMNS)
        return LS_FARM_WRONG(t->reader, c->place, form, "unknown column \"%s\"", ls_text_fit(a, c->text, SHOWN));
    if (known[kind])
        return LS_FARM_WRONG(t->reader, c->place, form, "the column %s stands here twice", column_names[kind]);
    if (ls_unit_parse(a, unit, strlen(unit), &t->unit[kind]) != LS_UNIT_OK ||
        !ls_dimension_same(t->unit[kind].dimension, ls_unit_of("ft").dimension))
        return LS_FARM_WRONG(t->reader, c->place, form, "the column %s needs a unit of length behind its name",
                             column_names[kind]);
    known[kind] = true;
    t->column_of[kind] = place;
    return true;
}

static bool read_header(table *t) {
    cell_list cells = next_line(t);
    if (cells.n == 0) return LS_FARM_WRONG(t->reader, LS_WHOLE_FILE(t->file), form, "there is nothing in this file");
    bool known[COLUMNS] = {false};
    if (cells.n != COLUMNS)
        return LS_FARM_WRONG(t->reader, cells.at[0].place, form, "%s",
                             cells.n == 1 && strchr(cells.at[0].text, ';')
                                 ? "the columns must be separated by commas"
                                 : "the first line must name three columns: across, along and depth");
    for (size_t i = 0; i < cells.n; i++)
        if (!read_head(t, &cells.at[i], i, known)) return false;
    return true;
}

/* ---- the readings ---- */

static bool read_number(table *t, const cell *c, int kind, double *out) {
    ls_arena *a = t->reader->arena;
    double number;
    if (!ls_number_parse(c->text, strlen(c->text), &number)) {
        const char *hint = c->text[0] == '\0' ? "every line has all three"
                                              : "write plain digits; the unit stands in the first "
                                                "line";
        return LS_FARM_WRONG(t->reader, c->place, hint, "%s",
                             c->text[0] == '\0'
                                 ? ls_arena_printf(a, "%s is missing", column_names[kind])
                                 : ls_arena_printf(a, "\"%s\" is not a number", ls_text_fit(a, c->text, SHOWN)));
    }
    *out = number * t->unit[kind].factor;
    if (*out <= column_most[kind]) return true;
    double most = column_most[kind] / t->unit[kind].factor;
    return LS_FARM_WRONG(t->reader, c->place, "check the number and the unit in the first line",
                         "%s must be at most %s %s, not %s", column_names[kind], ls_number_text(a, most, 4),
                         t->unit[kind].text, ls_text_fit(a, c->text, SHOWN));
}

static void read_row(table *t, const cell_list *cells) {
    if (cells->n != COLUMNS) {
        LS_FARM_WRONG(t->reader, cells->at[0].place,
                      "across, along and depth, with commas between; a decimal point, no decimal "
                      "comma",
                      "a reading has three numbers, not %zu", cells->n);
        return;
    }
    reading r = {.place = cells->at[0].place};
    bool good = true;
    for (int kind = 0; kind < COLUMNS; kind++)
        good &= read_number(t, &cells->at[t->column_of[kind]], kind, &r.at[kind]);
    if (good) *LS_PUSH(t->reader->arena, &t->readings) = r;
}

static bool read_rows(table *t) {
    size_t before = ls_diag_count(t->reader->diag, LS_ERROR), n = 0;
    for (cell_list cells = next_line(t); cells.n > 0; cells = next_line(t)) {
        if (++n > MOST_READINGS)
            return LS_FARM_WRONG(t->reader, cells.at[0].place, "a few hundred are plenty",
                                 "a grid may have at most 10,000 readings");
        read_row(t, &cells);
    }
    return ls_diag_count(t->reader->diag, LS_ERROR) == before;
}

/* ---- the grid ---- */

static int by_value(const void *left, const void *right) {
    const double *a = left, *b = right;
    return (*a > *b) - (*a < *b);
}

/* The different places of all readings along one direction, rising. */
static double *places(const table *t, int kind, size_t *n) {
    double *x = LS_NEW(t->reader->arena, double, t->readings.n);
    for (size_t i = 0; i < t->readings.n; i++) x[i] = t->readings.at[i].at[kind];
    qsort(x, t->readings.n, sizeof *x, by_value);
    *n = 1;
    for (size_t i = 1; i < t->readings.n; i++)
        if (x[i] > x[*n - 1]) x[(*n)++] = x[i];
    return x;
}

static size_t index_of(const double *x, size_t n, double value) {
    const double *found = bsearch(&value, x, n, sizeof *x, by_value);
    return (size_t)(found - x);
}

static const char *spot(const table *t, double across, double along) {
    ls_arena *a = t->reader->arena;
    return ls_arena_printf(a, "across %s %s, along %s %s", ls_number_text(a, across / t->unit[ACROSS].factor, 6),
                           t->unit[ACROSS].text, ls_number_text(a, along / t->unit[ALONG].factor, 6),
                           t->unit[ALONG].text);
}

/* Put the readings into their places; one in every place and no more. */
static bool fill(const table *t, ls_depth_grid *g, double *depth) {
    ls_arena *a = t->reader->arena;
    size_t before = ls_diag_count(t->reader->diag, LS_ERROR);
    for (size_t i = 0; i < t->readings.n; i++) {
        const reading *r = &t->readings.at[i];
        size_t k = index_of(g->along, g->along_n, r->at[ALONG]) * g->across_n +
                   index_of(g->across, g->across_n, r->at[ACROSS]);
        if (g->read_at[k].line != 0)
            LS_FARM_WRONG(
                t->reader, r->place,
                ls_arena_printf(a, "the other one stands at %s", ls_diag_where(a, t->reader->diag, g->read_at[k])),
                "a second reading at %s", spot(t, r->at[ACROSS], r->at[ALONG]));
        g->read_at[k] = r->place;
        depth[k] = r->at[DEPTH];
    }
    for (size_t k = 0; k < g->across_n * g->along_n; k++) {
        if (g->read_at[k].line != 0) continue;
        size_t row = k / g->across_n, other = row * g->across_n;
        while (g->read_at[other].line == 0) other++;
        LS_FARM_WRONG(
            t->reader, g->read_at[other],
            ls_arena_printf(a, "every across goes with every along: %zu x %zu readings", g->across_n, g->along_n),
            "the grid of these readings lacks one at %s", spot(t, g->across[k % g->across_n], g->along[row]));
    }
    return ls_diag_count(t->reader->diag, LS_ERROR) == before;
}

static bool make_grid(const table *t, ls_depth_grid *g) {
    ls_arena *a = t->reader->arena;
    if (t->readings.n == 0)
        return LS_FARM_WRONG(t->reader, LS_WHOLE_FILE(t->file), "a line for each reading below the first",
                             "there are no readings in this file");
    g->across = places(t, ACROSS, &g->across_n);
    g->along = places(t, ALONG, &g->along_n);
    g->unit = t->unit[DEPTH];
    ls_place first = t->readings.at[0].place;
    if (g->across_n < 2 || g->along_n < 2)
        return LS_FARM_WRONG(t->reader, first, "read at two places or more across the house and along it",
                             "these readings make no grid: they stand in one line");
    if (g->across_n * g->along_n > 2 * t->readings.n)
        return LS_FARM_WRONG(t->reader, first, "read at the same places across the house on every line along it",
                             "these readings are on no regular grid: %zu of them at %zu different "
                             "places across and %zu along",
                             t->readings.n, g->across_n, g->along_n);
    double *depth = LS_NEW(a, double, g->across_n * g->along_n);
    g->depth = depth;
    g->read_at = LS_NEW(a, ls_place, g->across_n * g->along_n);
    return fill(t, g, depth);
}

/* ---- the file ---- */

static bool open_table(table *t, const ls_name *file) {
    ls_farm_reader *reader = t->reader;
    const char *farm_file = ls_diag_input_at(reader->diag, file->at.file)->name;
    const char *path = ls_farm_beside(reader->arena, farm_file, file->text);
    if (access(path, F_OK) != 0) {
        LS_FARM_WRONG(reader, file->at, "its name counts from the folder of this farm file",
                      "there is no file \"%s\" here", file->text);
        return false;
    }
    t->file = ls_file_read_plain(reader->arena, reader->diag, path);
    if (t->file < 0) return false;
    t->input = *ls_diag_input_at(t->reader->diag, t->file);
    if (memchr(t->input.text, '\0', t->input.size) != NULL)
        return LS_FARM_WRONG(t->reader, LS_WHOLE_FILE(t->file), "save the sheet as comma-separated text (CSV)",
                             "this is not a text file");
    static const char mark[] = "\xEF\xBB\xBF";
    t->next = strncmp(t->input.text, mark, sizeof mark - 1) == 0 ? sizeof mark - 1 : 0;
    return true;
}

bool ls_farm_read_grid(ls_farm_reader *reader, ls_depth_grid *grid) {
    table t = {.reader = reader};
    return open_table(&t, &grid->file) && read_header(&t) && read_rows(&t) && make_grid(&t, grid);
}
