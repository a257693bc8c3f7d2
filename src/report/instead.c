/* Two documents of one command side by side: of the farm files, and of the farm files with a change
 * laid over them. */
#include "document/document.h"

#include <string.h>

/* A figure, by its place in the JSON. */
typedef struct {
    const char *label, *path;
} figure;

/* A table's column, row by row: rows are the same if what stands in the columns of by is. */
typedef struct {
    const char *key, *heading, *table, *by[3], *column;
    bool changed; /* only rows that differ */
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
    {"Straight to fields", "placed_tons"},
    {"Into the stack", "stacked_tons"},
    {"NO FIELD", "unplaced_tons"},
    {"First day", "days.start"},
    {"Last day", "days.finish"},
    {"Working days", "days.working_days"},
    {"More days until the houses are empty", "days.empty_days"},
    {"Days to spare before the next flock", "days.spare_days"},
    {"Money in", "income_in_all"},
    {"Money left", "net_return"},
};

static const matched tables[] = {
    {"done", "WHEN EACH DAY IS DONE", "days.by_day", {"day"}, "done", false},
    {"promises", "FIRM LOADS, BY BUYER", "promises", {"buyer"}, "firm_loads", false},
    {"by_field", "TONS THAT CHANGE, BY FIELD", "where", {"where", "buyer"}, "tons", true},
    {"by_rate",
     "RATES THAT CHANGE, BY FIELD",
     "rates",
     {"buyer", "field", "lots"},
     "ton_per_ac",
     true},
    {"tickets", "TICKETS THAT GO ELSEWHERE", "loads", {"ticket"}, "for", true},
};

enum { ON_FIRST_SCREEN = 12 }; /* rows of a table */

/* ---- what is changed in the files ---- */

static const ls_doc_column change_columns[] = {WORDS("what", "changed"), WORDS("was", "now"),
                                               WORDS("is", "instead")};

static void changes(ls_doc_group *top, const ls_farm_changes *list) {
    ls_doc_table t = LS_DOC_TABLE_IN(top, LS_FIRST, "changes", NULL, change_columns);
    for (size_t i = 0; i < list->n; i++)
        LS_DOC_ROW(t, change_columns, W(list->at[i].what), W(list->at[i].was), W(list->at[i].now));
    if (list->n == 0)
        ls_doc_say(top, LS_FIRST, W("The change says what the files say already."));
}

/* ---- figures side by side ---- */

static const ls_doc_column side_columns[] = {WORDS("what", ""), NUMBER("now", "now"),
                                             NUMBER("instead", "instead")};

/* A cell of another document: its line belongs to another worksheet. */
static ls_doc_cell taken(const ls_doc_cell *cell) {
    ls_doc_cell c = cell == NULL ? W(NULL) : *cell;
    c.line = LS_NO_LINE;
    return c;
}

/* A figure, or one with its low and high. */
static ls_doc_cell shown(const ls_document *d, const char *path) {
    static const char *const points[] = {"mid", "low", "high"};
    ls_doc_cell cells[3], *parts = cells;
    const ls_doc_cell *found = ls_doc_find(d->top, path);
    if (found != NULL)
        return taken(found);
    for (size_t i = 0; i < 3; i++) {
        found = ls_doc_find(d->top, ls_arena_printf(d->arena, "%s.%s", path, points[i]));
        if (found == NULL)
            return W(NULL);
        cells[i] = taken(found);
    }
    parts[0].kind = LS_DOC_POINTS;
    parts[0].low = cells[1].value;
    parts[0].high = cells[2].value;
    return parts[0];
}

static void side_by_side(ls_doc_group *top, const ls_document *now, const ls_document *instead) {
    ls_doc_table t = LS_DOC_TABLE_IN(top, LS_FIRST, "figures", NULL, side_columns);
    for (size_t i = 0; i < sizeof figures / sizeof *figures; i++) {
        ls_doc_cell a = shown(now, figures[i].path), b = shown(instead, figures[i].path);
        if (a.kind != LS_DOC_EMPTY || b.kind != LS_DOC_EMPTY)
            LS_DOC_ROW(t, side_columns, W(figures[i].label), a, b);
    }
}

/* ---- tables side by side ---- */

static const char *name_of(const ls_document *d, const matched *m, const ls_doc_block *table,
                           size_t r) {
    ls_text *t = ls_text_new(d->arena);
    for (size_t i = 0; i < 3 && m->by[i] != NULL; i++) {
        size_t k = ls_doc_column_of(table, m->by[i]);
        const char *name = ls_doc_shown(d, &table->rows.at[r].cells[k], NULL, d->view->metric);
        if (name[0] != '\0' && strcmp(name, "-") != 0)
            ls_text_addf(t, "%s%s", i == 0 ? "" : ", ", name);
    }
    return t->s;
}

/* The cell of the table's row of that name; NULL: it has none. */
static const ls_doc_cell *cell_of(const ls_document *d, const matched *m, const char *name) {
    const ls_doc_block *table = ls_doc_find_table(d->top, m->table);
    size_t k = table == NULL ? 0 : ls_doc_column_of(table, m->column);
    for (size_t r = 0; table != NULL && k < table->n && r < table->rows.n; r++)
        if (table->rows.at[r].cells != NULL && strcmp(name_of(d, m, table, r), name) == 0)
            return &table->rows.at[r].cells[k];
    return NULL;
}

static bool same(const ls_document *d, const ls_doc_cell *a, const ls_doc_cell *b) {
    return a != NULL && b != NULL &&
           strcmp(ls_doc_shown(d, a, NULL, false), ls_doc_shown(d, b, NULL, false)) == 0;
}

/* The rows of one document; of the second but those that the first has. */
static void rows_of(ls_doc_table t, const matched *m, const ls_document *of, bool is_now,
                    const ls_document *other, size_t *rows) {
    const ls_doc_block *table = ls_doc_find_table(of->top, m->table);
    for (size_t r = 0; table != NULL && r < table->rows.n; r++) {
        if (table->rows.at[r].cells == NULL)
            continue;
        const char *name = name_of(of, m, table, r);
        const ls_doc_cell *a = cell_of(of, m, name), *b = cell_of(other, m, name);
        if ((!is_now && b != NULL) || (m->changed && same(of, a, b)))
            continue;
        LS_DOC_GRID_ROW(t, side_columns, (*rows)++ < ON_FIRST_SCREEN ? LS_FIRST : LS_FULL, NULL,
                        W(name), taken(is_now ? a : b), taken(is_now ? b : a));
    }
}

static void matched_rows(ls_doc_group *top, const matched *m, const ls_document *now,
                         const ls_document *instead) {
    size_t rows = 0;
    if (ls_doc_find_table(now->top, m->table) == NULL)
        return;
    ls_doc_group *g = ls_doc_object(top, LS_FIRST, NULL, m->heading);
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FIRST, m->key, NULL, side_columns);
    rows_of(t, m, now, true, instead, &rows);
    rows_of(t, m, instead, false, now, &rows);
    if (m->changed && rows == 0)
        ls_doc_say(g, LS_FIRST, W("None."));
}

const ls_document *ls_report_instead(const ls_view *v, const char *command, const ls_document *now,
                                     const ls_document *instead, const ls_farm_changes *list) {
    ls_document *d = ls_document_new(v, command, "What if: the files as they are, and instead");
    d->table = "figures";
    changes(d->top, list);
    side_by_side(d->top, now, instead);
    for (size_t i = 0; i < sizeof tables / sizeof *tables; i++)
        matched_rows(d->top, &tables[i], now, instead);
    ls_doc_nest(d->top, "now", now);
    ls_doc_nest(d->top, "instead", instead);
    return d;
}
