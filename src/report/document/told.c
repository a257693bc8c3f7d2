/* What of a document is told at a level, for the writers of pages. */
#include "document.h"

#include "report/figure.h"

#include <math.h>
#include <string.h>

bool ls_doc_is_told(ls_doc_level of, ls_doc_level level) { return of <= level; }

void ls_doc_add_written(ls_text *to, const ls_doc_block *b, ls_form form, const char *between) {
    size_t bytes = 0;
    if (b->form != form) ls_fail("%s was written in another form", b->key);
    for (size_t i = 0; i < b->written.n; i++) bytes += strlen(b->written.at[i]) + strlen(between);
    ls_text_room(to, bytes);
    for (size_t i = 0; i < b->written.n; i++) {
        ls_text_add(to, i == 0 ? "" : between);
        ls_text_add(to, b->written.at[i]);
    }
}

bool ls_doc_shows(const ls_doc_block *b, ls_doc_level level) {
    if (!ls_doc_is_told(b->level, level)) return false;
    for (size_t r = 0; r < b->rows.n; r++)
        if (ls_doc_is_told(b->rows.at[r].level, level)) return true;
    if (b->columns != NULL) return false;
    if (b->kind == LS_DOC_TEXTS) return b->cell.n > 0;
    if (b->kind == LS_DOC_PICTURE) return b->svg != NULL || b->letters != NULL;
    if (b->kind != LS_DOC_OBJECT && b->kind != LS_DOC_LIST) return true;
    for (size_t i = 0; i < b->group->blocks.n; i++)
        if (ls_doc_shows(&b->group->blocks.at[i], level)) return true;
    return false;
}

bool ls_doc_leaves_out(const ls_doc_group *g) {
    LS_EACH (const ls_doc_block, b, g->blocks) {
        bool now = ls_doc_shows(b, LS_FIRST);
        if (!ls_doc_shows(b, LS_FULL)) continue;
        if (!now || (b->group != NULL && ls_doc_leaves_out(b->group))) return true;
        for (size_t k = 0; k < b->n; k++)
            if (b->columns[k].level == LS_FULL) return true;
        for (size_t r = 0; r < b->rows.n; r++)
            if (b->rows.at[r].level == LS_FULL) return true;
    }
    return false;
}

const char *ls_doc_more(const ls_document *d) {
    const char *files = d->view->files == NULL ? "FILES" : d->view->files;
    if (d->view->full || (!d->left_out && !ls_doc_leaves_out(d->top))) return "";
    return ls_arena_printf(d->arena, "More: littershed %s %s --full%s%s%s", d->command, files,
                           d->more == NULL ? "" : " (", d->more == NULL ? "" : d->more, d->more == NULL ? "" : ")");
}

size_t ls_doc_bar(const ls_doc_block *table, size_t row, size_t column, size_t most) {
    double largest = 0;
    for (size_t r = 0; r < table->rows.n; r++)
        if (table->rows.at[r].cells != NULL) largest = fmax(largest, table->rows.at[r].cells[column].value);
    double value = table->rows.at[row].cells[column].value;
    return value > 0 ? (size_t)fmax(1, round((double)most * value / largest)) : 0;
}

bool ls_doc_is_number(const ls_doc_column *column) { return column->number || column->unit != NULL; }

const char *ls_doc_heading(const ls_document *d, const ls_doc_column *column, bool metric) {
    const char *heading = column->heading == NULL ? "" : column->heading;
    if (column->unit == NULL || column->unit[0] == '\0') return heading;
    ls_unit unit = ls_unit_of(column->unit);
    const char *name = ls_unit_many(d->arena, (metric ? ls_unit_metric(d->arena, unit) : unit).text);
    return heading[0] == '\0' ? name : ls_arena_printf(d->arena, "%s, %s", heading, name);
}

/* ---- facts as a table ---- */

LS_DOC_COLUMNS(words_columns, {.heading = ""}, {.heading = ""});
LS_DOC_COLUMNS(figure_columns, {.heading = ""}, {.heading = "", .number = true});
LS_DOC_COLUMNS(point_columns, {.heading = ""}, {.heading = "low", .number = true},
               {.heading = "likely", .number = true}, {.heading = "high", .number = true});

typedef enum { ANY, WORDS, FIGURE, POINTS } form;

static form form_of(const ls_doc_cell *cell) {
    switch (cell->kind) {
    case LS_DOC_EMPTY: return ANY;
    case LS_DOC_POINTS: return POINTS;
    case LS_DOC_FIGURE:
    case LS_DOC_BOOKED:
    case LS_DOC_COUNT: return FIGURE;
    default: return WORDS;
    }
}

/* The points of a fact stand side by side, its unit at the label. */
static void points_row(const ls_document *d, const ls_doc_block *fact, ls_doc_cell *cells) {
    const ls_doc_cell *cell = &fact->cell;
    const ls_doc_column labelled = {.heading = fact->label, .unit = cell->unit};
    cells[0] = W(ls_doc_heading(d, &labelled, d->view->metric));
    for (int i = 1; i <= 3; i++) {
        cells[i] = *cell;
        cells[i].bare = true;
        cells[i].kind = cell->kind == LS_DOC_POINTS ? LS_DOC_FIGURE : LS_DOC_EMPTY;
    }
    cells[1].value = cell->low;
    cells[3].value = cell->high;
}

static void fact_row(const ls_document *d, ls_doc_block *table, const ls_doc_block *fact) {
    ls_doc_cell *cells = LS_NEW(d->arena, ls_doc_cell, table->n);
    if (table->columns == point_columns)
        points_row(d, fact, cells);
    else
        cells[0] = W(fact->label), cells[1] = fact->cell;
    *LS_PUSH(d->arena, &table->rows) = (ls_doc_row){.cells = cells};
}

/* Is the block at i a fact that is told, of that form? *f: ANY until one of another form is met. */
static bool joins(const ls_doc_block *b, form *f) {
    form own = form_of(&b->cell);
    if (b->kind != LS_DOC_FACT || (own != ANY && *f != ANY && own != *f)) return false;
    *f = *f == ANY ? own : *f;
    return true;
}

const ls_doc_block *ls_doc_facts(const ls_doc_group *g, size_t i, ls_doc_level level, size_t *n) {
    ls_doc_block *table = LS_NEW(g->document->arena, ls_doc_block, 1);
    form f = ANY;
    for (*n = 0; i + *n < g->blocks.n; ++*n)
        if (ls_doc_is_told(g->blocks.at[i + *n].level, level) && !joins(&g->blocks.at[i + *n], &f)) break;
    *table = (ls_doc_block){.kind = LS_DOC_TABLE,
                            .n = f == POINTS ? 4 : 2,
                            .columns = f == POINTS   ? point_columns
                                       : f == FIGURE ? figure_columns
                                                     : words_columns};
    for (size_t k = i; k < i + *n; k++)
        if (ls_doc_is_told(g->blocks.at[k].level, level)) fact_row(g->document, table, &g->blocks.at[k]);
    return table;
}

static bool is_column_told(const ls_doc_column *column, ls_doc_level level, bool bars) {
    return ls_doc_is_told(column->level, level) && (bars || !column->bar);
}

const ls_doc_block *ls_doc_told_columns(const ls_document *d, const ls_doc_block *table, ls_doc_level level,
                                        bool bars) {
    ls_doc_block *told = LS_NEW(d->arena, ls_doc_block, 1);
    ls_doc_column *columns = LS_NEW(d->arena, ls_doc_column, table->n);
    *told = *table;
    told->n = 0;
    told->columns = columns;
    told->rows.n = told->rows.cap = 0;
    told->rows.at = NULL;
    for (size_t k = 0; k < table->n; k++)
        if (is_column_told(&table->columns[k], level, bars)) columns[told->n++] = table->columns[k];
    for (size_t r = 0; r < table->rows.n; r++) {
        if (!ls_doc_is_told(table->rows.at[r].level, level)) continue;
        const ls_doc_row *row = &table->rows.at[r];
        ls_doc_cell *cells = row->cells == NULL ? NULL : LS_NEW(d->arena, ls_doc_cell, told->n);
        size_t n = 0;
        for (size_t k = 0; k < table->n && cells != NULL; k++)
            if (is_column_told(&table->columns[k], level, bars)) cells[n++] = row->cells[k];
        *LS_PUSH(d->arena, &told->rows) = (ls_doc_row){.cells = cells, .words = row->words, .id = row->id};
    }
    return told;
}

/* ---- items ---- */

bool ls_doc_is_headed(const ls_doc_block *b) {
    return b->label != NULL &&
           (b->group != NULL || b->kind == LS_DOC_TEXTS || b->kind == LS_DOC_ITEMS || b->kind == LS_DOC_SHEET);
}

const char *const *ls_doc_items(const ls_document *d, const ls_doc_block *b, ls_doc_level level) {
    LS_LIST(const char *) items = {NULL, 0, 0};
    bool metric = d->view->metric;
    if (b->kind == LS_DOC_ITEM) *LS_PUSH(d->arena, &items) = ls_doc_shown(d, &b->cell, NULL, metric);
    for (size_t k = 0; b->kind == LS_DOC_TEXTS && k < b->cell.n; k++) *LS_PUSH(d->arena, &items) = b->cell.names[k];
    const ls_doc_block *t = b->kind == LS_DOC_ITEMS ? ls_doc_told_columns(d, b, level, false) : NULL;
    for (size_t r = 0; t != NULL && r < t->rows.n; r++) {
        const ls_doc_cell *cells = t->rows.at[r].cells;
        const char *first = ls_doc_shown(d, &cells[0], &t->columns[0], metric);
        *LS_PUSH(d->arena, &items) =
            t->n < 2 ? first
                     : ls_arena_printf(d->arena, "%s (%s)", first, ls_doc_shown(d, &cells[1], &t->columns[1], metric));
    }
    *LS_PUSH(d->arena, &items) = NULL;
    return items.at;
}
