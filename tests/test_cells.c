/* Every cell of every built-in table, against lists typed apart from the tables: tests/cells.csv
 * (figures, in the unit they are printed in; a blank is what the source does not print) and
 * tests/words.csv (words; of a text of several sentences its FNV-1a hash). The lists were typed
 * from the sources' figures; those that no source gives, common practice among them, as the tables
 * stood. A cell that is changed on purpose is changed in both. */
#include "program.h"

#include "littershed/reference.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { MOST_FIELDS = 24 };

typedef struct {
    size_t n;
    const char *at[MOST_FIELDS];
} fields;

typedef LS_LIST(fields) lines;

/* One cell of a line of CSV into *out; what follows its comma, NULL: it was the last. */
static char *field(char *s, const char **out) {
    if (*s != '"') {
        char *end = s + strcspn(s, ",");
        *out = s;
        if (*end == '\0') return NULL;
        *end = '\0';
        return end + 1;
    }
    char *to = ++s;
    *out = to;
    for (; *s != '\0' && !(s[0] == '"' && s[1] != '"'); s++) {
        *to++ = *s;
        s += s[0] == '"';
    }
    bool more = s[0] == '"' && s[1] == ',';
    *to = '\0';
    return more ? s + 2 : NULL;
}

/* The lines below the heading. */
static lines read_list(ls_arena *a, const char *path) {
    lines list = {0};
    char *s = strchr(test_file_text(a, path), '\n');
    CU_ASSERT_PTR_NOT_NULL_FATAL(s);
    for (s++; *s != '\0';) {
        char *next = s + strcspn(s, "\n");
        if (*next == '\n') *next++ = '\0';
        fields *f = LS_PUSH(a, &list);
        f->n = 0;
        for (char *at = s; at != NULL && f->n < MOST_FIELDS;) at = field(at, &f->at[f->n++]);
        s = next;
    }
    return list;
}

enum {
    KIND,
    NAME,
    ROW,
    COLUMN,
    WORD,
    VALUE = WORD,
    UNIT,
    N,
    LEAST,
    MOST,
    MEDIAN,
    MEAN,
    SD,
    SPREAD,
    SCALE,
    DF,
    LOW,
    HIGH,
    STATUS,
    SOURCE,
    FIGURE_FIELDS
};

/* The line of a cell, NULL if there is none. */
static const fields *line_of(const lines *list, const ls_table *t, const char *row, const char *column) {
    for (size_t i = 0; i < list->n; i++) {
        const fields *f = &list->at[i];
        if (strcmp(f->at[COLUMN], column) == 0 && strcmp(f->at[ROW], row) == 0 && strcmp(f->at[NAME], t->name) == 0 &&
            strcmp(f->at[KIND], t->kind) == 0)
            return f;
    }
    return NULL;
}

/* A number of the list in a unit, NaN if it is blank. */
static double number(const char *text, double factor) { return text[0] == '\0' ? NAN : strtod(text, NULL) * factor; }

static bool alike(double a, double b) { return (isnan(a) && isnan(b)) || fabs(a - b) <= 1e-9 * fabs(b); }

/* What of a spread the list tells: bounds where they are not the printed extremes. */
static bool spread_alike(const ls_figure *f, const fields *l, double factor) {
    static const char *const words[] = {
        [LS_EXACT] = "exact",         [LS_NORMAL] = "normal",           [LS_TRUNCATED] = "truncated",
        [LS_LOGNORMAL] = "lognormal", [LS_TRIANGULAR] = "triangular",   [LS_RECTANGULAR] = "rectangular",
        [LS_STUDENT] = "student",     [LS_LOG_STUDENT] = "log-student",
    };
    ls_spread s = f->spread;
    bool bounded = s.kind == LS_TRUNCATED || s.kind == LS_TRIANGULAR || s.kind == LS_RECTANGULAR,
         logs = s.kind == LS_LOGNORMAL || s.kind == LS_LOG_STUDENT,
         few = s.kind == LS_STUDENT || s.kind == LS_LOG_STUDENT,
         scaled = logs || few || s.kind == LS_NORMAL || s.kind == LS_TRUNCATED;
    double low = number(l->at[l->at[LOW][0] != '\0' ? LOW : LEAST], factor),
           high = number(l->at[l->at[HIGH][0] != '\0' ? HIGH : MOST], factor);
    return strcmp(words[s.kind], l->at[SPREAD]) == 0 &&
           (!scaled || alike(s.scale, number(l->at[SCALE], logs ? 1 : factor))) &&
           (!few || alike(s.df, number(l->at[DF], 1))) && (!bounded || (alike(s.low, low) && alike(s.high, high)));
}

/* The first part in which a figure and its line differ, NULL if they are one. */
static const char *difference(ls_arena *a, const ls_figure *f, const fields *l) {
    static const char *const statuses[] = {"read", "read2", "derived", "memory", "practice"};
    ls_unit unit;
    if (l->n != FIGURE_FIELDS) return "number of fields";
    const char *text = l->at[UNIT];
    if (text[0] == '\0')
        unit = ls_unit_of("");
    else if (ls_unit_parse(a, text, strlen(text), &unit) != LS_UNIT_OK)
        return "unit";
    const struct {
        const char *what;
        double table, list;
    } numbers[] = {
        {"value", f->value, number(l->at[VALUE], unit.factor)},
        {"n", f->printed.n, number(l->at[N], 1)},
        {"least", f->printed.least, number(l->at[LEAST], unit.factor)},
        {"most", f->printed.most, number(l->at[MOST], unit.factor)},
        {"median", f->printed.median, number(l->at[MEDIAN], unit.factor)},
        {"mean", f->printed.mean, number(l->at[MEAN], unit.factor)},
        {"sd", f->printed.sd, number(l->at[SD], unit.factor)},
    };
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++)
        if (!alike(numbers[i].table, numbers[i].list)) return numbers[i].what;
    if (!ls_text_same(f->unit.text, text) || !ls_dimension_same(f->unit.dimension, unit.dimension)) return "unit";
    if (!spread_alike(f, l, unit.factor)) return "spread";
    if (strcmp(statuses[f->status], l->at[STATUS]) != 0) return "status";
    return strcmp(f->source == NULL ? "none" : f->source->id, l->at[SOURCE]) == 0 ? NULL : "source";
}

/* As the list of words gives it: a text of several sentences by its hash. */
static const char *word_of(ls_arena *a, const ls_cell *cell) {
    return strcmp(cell->column, "text") == 0
               ? ls_arena_printf(a, "%016llx", (unsigned long long)ls_text_hash(cell->word))
               : cell->word;
}

/* Cells of one sort in all tables; each must have its line, and differ from it in nothing. */
static size_t cells_alike(ls_arena *a, const ls_reference *r, const lines *list, bool figures) {
    const ls_table *t;
    size_t seen = 0;
    for (size_t i = 0; (t = ls_reference_at(r, i)) != NULL; i++)
        for (size_t k = 0; k < t->n; k++)
            for (size_t c = 0; c < t->rows[k].n; c++) {
                const ls_cell *cell = &t->rows[k].cells[c];
                if ((cell->figure != NULL) != figures) continue;
                seen++;
                const char *id = ls_arena_printf(a, "%s/%s/%s", t->id, t->rows[k].name, cell->column);
                const fields *l = line_of(list, t, t->rows[k].name, cell->column);
                const char *apart = l == NULL                                      ? "line"
                                    : cell->figure != NULL                         ? difference(a, cell->figure, l)
                                    : !ls_text_same(word_of(a, cell), l->at[WORD]) ? "word"
                                                                                   : NULL;
                if (apart != NULL) TEST_TEXT(ls_arena_printf(a, "%s: %s as in the list", id, apart), id);
            }
    return seen;
}

static bool is_cell(const ls_reference *r, const fields *l) {
    const ls_row *row = ls_table_row(ls_reference_table(r, l->at[KIND], l->at[NAME]), l->at[ROW]);
    return ls_row_figure(row, l->at[COLUMN]) != NULL || ls_row_word(row, l->at[COLUMN]) != NULL;
}

/* A line of the list that no table has, or that stands twice. */
static void check_surplus(ls_arena *a, const ls_reference *r, const lines *list, size_t cells) {
    for (size_t i = 0; i < list->n; i++) {
        const fields *l = &list->at[i];
        const char *id = ls_arena_printf(a, "%s,%s,%s,%s", l->at[KIND], l->at[NAME], l->at[ROW], l->at[COLUMN]);
        TEST_TEXT(is_cell(r, l) ? id : "no such cell", id);
    }
    TEST_SAME(list->n, cells);
}

static void check_list(const char *path, bool figures) {
    ls_arena *a = ls_arena_new();
    const ls_reference *r = ls_reference_load(a);
    lines list = read_list(a, path);
    check_surplus(a, r, &list, cells_alike(a, r, &list, figures));
    ls_arena_free(a);
}

static void test_figures(void) { check_list("tests/cells.csv", true); }

static void test_words(void) { check_list("tests/words.csv", false); }

TEST_SUITE(cells) = {{"every figure", test_figures}, {"every word", test_words}, CU_TEST_INFO_NULL};
