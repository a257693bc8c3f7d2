/* Two documents of one command side by side: of the farm files, and with a change over them. */
#include "document/document.h"

#include <string.h>

/* A figure, by its place in the JSON. */
typedef struct {
    const char *label, *path;
} figure;

/* A table's column, row by row: rows are the same if what stands in the columns of by is, whose
 * names have a blank between them. */
typedef struct {
    const char *key, *heading, *table, *by, *column;
    const char *none; /* in place of a cell that is not there; NULL: "-" */
    bool changed;     /* only rows that differ */
    bool words;       /* the column holds words */
} matched;

static const figure figures[] = {
    {"Litter", "total.tons"},
    {"Litter, dry", "total.dry_tons"},
    {"N (nitrogen)", "total.lb.N"},
    {"P2O5 (phosphate)", "total.lb.P2O5"},
    {"K2O (potash)", "total.lb.K2O"},
    {"Firm loads", "total.loads.firm"},
    {"Likely loads", "total.loads.likely"},
    {"Possible loads", "total.loads.possible"},
    {"Worth as fertilizer", "value.total"},
};

/* What a plan says in a line each. */
static const figure lines[] = {
    {"Litter", "in_short.litter"}, {"Loads", "in_short.loads"},     {"Money", "in_short.money"},
    {"Houses", "in_short.houses"}, {"If high", "in_short.if_high"}, {"Next flock", "in_short.next_flock"},
    {"Trucks", "in_short.trucks"}, {"Counts", "in_short.counts"},   {"Limits", "in_short.limits"},
};

static const matched tables[] = {
    {"done", "DAYS THAT END AT ANOTHER TIME", "days.by_day", "day", "done", "no work", true, true},
    {"by_buyer", "FIRM LOADS, BY BUYER", "by_buyer", "buyer", "firm_loads", NULL, false, false},
    {"by_field", "TONS THAT CHANGE, BY FIELD", "where", "where buyer", "tons", NULL, true, false},
    {"rates_planned", "RATES THAT CHANGE, BY FIELD", "where", "where buyer", "most_ton_per_ac", NULL, true, false},
    {"money", "MONEY THAT CHANGES", "money", "item", "dollars", NULL, true, false},
    {"by_rate", "RATES THAT CHANGE, BY FIELD", "rates", "buyer field lots", "ton_per_ac", NULL, true, false},
    {"tickets", "TICKETS THAT GO ELSEWHERE", "loads", "ticket", "for", "no such load", true, true},
    {"from_stack", "TICKETS OUT OF THE STACK THAT GO ELSEWHERE", "stack.out", "ticket", "for", "no such load", true,
     true},
};

enum { ON_FIRST_SCREEN = 12 }; /* rows of a table */

LS_DOC_COLUMNS(change_columns, WORDS("what", "changed"), WORDS("was", "now"), WORDS("is", "instead"));

static void changes(ls_doc_group *top, const ls_farm_changes *list) {
    ls_doc_table t = LS_DOC_TABLE_IN(top, LS_FIRST, "changes", NULL, change_columns);
    LS_EACH (const ls_farm_change, x, *list)
        LS_DOC_ROW(t, change_columns, W(x->what), W(x->was == NULL ? "not there" : x->was),
                   W(x->now == NULL ? "removed" : x->now));
    if (list->n == 0) SAY(top, LS_FIRST, "The change says what the files say already.");
}

/* ---- figures side by side ---- */

LS_DOC_COLUMNS(side_columns, WORDS("what", ""), NUMBER("now", "now"), NUMBER("instead", "instead"));
LS_DOC_COLUMNS(words_columns, WORDS("what", ""), WORDS("now", "now"), WORDS("instead", "instead"));

/* A cell of another document, whose worksheet is another: its figures without their lines. */
static ls_doc_cell taken(ls_arena *a, ls_doc_cell cell) {
    ls_doc_cell *parts = cell.parts == NULL ? NULL : LS_NEW(a, ls_doc_cell, cell.n);
    for (size_t i = 0; parts != NULL && i < cell.n; i++) parts[i] = taken(a, cell.parts[i]);
    cell.line = LS_NO_LINE;
    cell.parts = parts;
    return cell;
}

/* A figure, or one with its low and high. */
static ls_doc_cell shown(const ls_document *d, const char *path) {
    static const char *const points[] = {"mid", "low", "high"};
    ls_doc_cell cells[3], *parts = cells;
    const ls_doc_cell *found = ls_doc_find(d->top, path);
    if (found != NULL) return taken(d->arena, *found);
    for (size_t i = 0; i < 3; i++) {
        found = ls_doc_find(d->top, ls_arena_printf(d->arena, "%s.%s", path, points[i]));
        if (found == NULL) return W(NULL);
        cells[i] = taken(d->arena, *found);
    }
    parts[0].kind = LS_DOC_POINTS;
    parts[0].low = cells[1].value;
    parts[0].high = cells[2].value;
    return parts[0];
}

static void side_by_side(ls_doc_table t, const ls_doc_column *columns, const figure *list, size_t n,
                         const ls_document *now, const ls_document *instead) {
    for (size_t i = 0; i < n; i++) {
        const ls_doc_cell cells[] = {W(list[i].label), shown(now, list[i].path), shown(instead, list[i].path)};
        if (cells[1].kind != LS_DOC_EMPTY || cells[2].kind != LS_DOC_EMPTY)
            ls_doc_row_in(t, columns, LS_FIRST, NULL, cells);
    }
}

/* ---- tables side by side ---- */

static const char *name_of(const ls_document *d, const matched *m, const ls_doc_block *table, size_t r) {
    ls_text *t = ls_text_new(d->arena);
    for (const char *by = m->by, *end; *by != '\0'; by = end + strspn(end, " ")) {
        end = by + strcspn(by, " ");
        size_t k = ls_doc_column_of(table, ls_arena_copy_n(d->arena, by, (size_t)(end - by)));
        const char *name = ls_doc_shown(d, &table->rows.at[r].cells[k], NULL, d->view->metric);
        if (name[0] != '\0' && strcmp(name, "-") != 0) ls_text_addf(t, "%s%s", by == m->by ? "" : ", ", name);
    }
    return t->s;
}

/* The cell of the row of that name; NULL: there is none. */
static const ls_doc_cell *cell_of(const ls_document *d, const matched *m, const char *name) {
    ls_doc_tables found = ls_doc_find_tables(d->top, m->table);
    for (size_t i = 0; i < found.n; i++) {
        const ls_doc_block *table = found.at[i];
        size_t k = ls_doc_column_of(table, m->column);
        for (size_t r = 0; k < table->n && r < table->rows.n; r++)
            if (table->rows.at[r].cells != NULL && strcmp(name_of(d, m, table, r), name) == 0)
                return &table->rows.at[r].cells[k];
    }
    return NULL;
}

static bool same(const ls_document *d, const ls_doc_cell *a, const ls_doc_cell *b) {
    return a != NULL && b != NULL && strcmp(ls_doc_shown(d, a, NULL, false), ls_doc_shown(d, b, NULL, false)) == 0;
}

/* The rows of one document; of the second but those that the first has. */
static void rows_of(ls_doc_table t, const matched *m, const ls_document *of, bool is_now, const ls_document *other,
                    const ls_doc_column *columns, size_t *rows) {
    ls_doc_tables found = ls_doc_find_tables(of->top, m->table);
    for (size_t i = 0; i < found.n; i++)
        for (size_t r = 0; r < found.at[i]->rows.n; r++) {
            if (found.at[i]->rows.at[r].cells == NULL) continue;
            const char *name = name_of(of, m, found.at[i], r);
            const ls_doc_cell *a = cell_of(of, m, name), *b = cell_of(other, m, name);
            /* what the other document lacks is said in words */
            ls_doc_cell here = a == NULL ? W(m->none) : taken(of->arena, *a),
                        there = b == NULL ? W(m->none) : taken(of->arena, *b);
            if ((!is_now && b != NULL) || (m->changed && same(of, a, b))) continue;
            const ls_doc_cell cells[] = {W(name), is_now ? here : there, is_now ? there : here};
            ls_doc_row_in(t, columns, (*rows)++ < ON_FIRST_SCREEN ? LS_FIRST : LS_FULL, NULL, cells);
        }
}

static void matched_rows(ls_doc_group *top, const matched *m, const ls_document *now, const ls_document *instead) {
    const ls_doc_column *columns = m->words ? words_columns : side_columns;
    size_t rows = 0;
    if (ls_doc_find_tables(now->top, m->table).n + ls_doc_find_tables(instead->top, m->table).n == 0) return;
    ls_doc_group *g = ls_doc_object(top, LS_FIRST, NULL, m->heading);
    ls_doc_table t = ls_doc_table_in(g, LS_FIRST, m->key, NULL, columns, sizeof side_columns / sizeof *side_columns);
    rows_of(t, m, now, true, instead, columns, &rows);
    rows_of(t, m, instead, false, now, columns, &rows);
    if (m->changed && rows == 0) SAY(g, LS_FIRST, "None.");
    if (rows > ON_FIRST_SCREEN) SAY(g, LS_FIRST, "{} more with --full.", N(rows - ON_FIRST_SCREEN));
}

const ls_document *ls_report_instead(const ls_view *v, const char *command, const ls_document *now,
                                     const ls_document *instead, const ls_farm_changes *list) {
    ls_document *d = ls_document_new(v, command, "What if: the files as they are, and instead");
    d->table = "figures";
    changes(d->top, list);
    side_by_side(LS_DOC_TABLE_IN(d->top, LS_FIRST, "in_short", NULL, words_columns), words_columns, lines,
                 sizeof lines / sizeof *lines, now, instead);
    side_by_side(LS_DOC_TABLE_IN(d->top, LS_FIRST, "figures", NULL, side_columns), side_columns, figures,
                 sizeof figures / sizeof *figures, now, instead);
    for (size_t i = 0; i < sizeof tables / sizeof *tables; i++) matched_rows(d->top, &tables[i], now, instead);
    ls_doc_nest(d->top, "now", now);
    ls_doc_nest(d->top, "instead", instead);
    return d;
}
