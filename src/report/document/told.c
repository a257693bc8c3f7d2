/* What of a document is told at a level, for the writers of pages. */
#include "document.h"

#include "report/figure.h"

bool ls_doc_is_told(ls_doc_level of, ls_doc_level level) {
    return of <= level;
}

bool ls_doc_shows(const ls_doc_block *b, ls_doc_level level) {
    if (!ls_doc_is_told(b->level, level))
        return false;
    if (b->kind == LS_DOC_TABLE || b->kind == LS_DOC_SHEET)
        return b->rows.n > 0;
    if (b->kind == LS_DOC_TEXTS)
        return b->cell.n > 0;
    if (b->kind != LS_DOC_OBJECT && b->kind != LS_DOC_LIST)
        return true;
    for (size_t i = 0; i < b->group->blocks.n; i++)
        if (ls_doc_shows(&b->group->blocks.at[i], level))
            return true;
    return false;
}

bool ls_doc_is_number(const ls_doc_column *column) {
    return column->number || column->unit != NULL;
}

const char *ls_doc_heading(const ls_document *d, const ls_doc_column *column, bool metric) {
    const char *heading = column->heading == NULL ? "" : column->heading;
    if (column->unit == NULL || column->unit[0] == '\0')
        return heading;
    ls_unit unit = ls_unit_of(column->unit);
    const char *name = (metric ? ls_unit_metric(unit) : unit).text;
    return heading[0] == '\0' ? name : ls_arena_printf(d->arena, "%s, %s", heading, name);
}

/* ---- facts as a table ---- */

static const ls_doc_column words_columns[] = {{.heading = ""}, {.heading = ""}};
static const ls_doc_column figure_columns[] = {{.heading = ""}, {.heading = "", .number = true}};
static const ls_doc_column point_columns[] = {{.heading = ""},
                                              {.heading = "low", .number = true},
                                              {.heading = "likely", .number = true},
                                              {.heading = "high", .number = true}};

typedef enum { WORDS, FIGURE, POINTS } form;

static form form_of(const ls_doc_cell *cell) {
    if (cell->kind == LS_DOC_POINTS)
        return POINTS;
    return cell->kind == LS_DOC_FIGURE || cell->kind == LS_DOC_BOOKED || cell->kind == LS_DOC_COUNT
               ? FIGURE
               : WORDS;
}

/* The points of a fact stand side by side, its unit at the label. */
static void points_row(const ls_document *d, ls_doc_block *table, const ls_doc_block *fact) {
    ls_doc_cell *cells = LS_NEW(d->arena, ls_doc_cell, 4);
    const ls_doc_cell *cell = &fact->cell;
    ls_doc_cell point = *cell;
    ls_doc_column labelled = {.heading = fact->label, .unit = cell->unit};
    point.kind = LS_DOC_FIGURE;
    cells[0] = W(ls_doc_heading(d, &labelled, d->view->metric));
    for (int i = 0; i < 3; i++) {
        point.value = i == 0 ? cell->low : i == 1 ? cell->value : cell->high;
        cells[i + 1] = point;
    }
    *LS_PUSH(d->arena, &table->rows) = (ls_doc_row){NULL, cells};
}

static void fact_row(const ls_document *d, ls_doc_block *table, const ls_doc_block *fact) {
    ls_doc_cell *cells = LS_NEW(d->arena, ls_doc_cell, 2);
    cells[0] = W(fact->label);
    cells[1] = fact->cell;
    *LS_PUSH(d->arena, &table->rows) = (ls_doc_row){NULL, cells};
}

const ls_doc_block *ls_doc_facts(const ls_doc_group *g, size_t i, ls_doc_level level, size_t *n) {
    const ls_document *d = g->document;
    const form first = form_of(&g->blocks.at[i].cell);
    ls_doc_block *table = LS_NEW(d->arena, ls_doc_block, 1);
    table->kind = LS_DOC_TABLE;
    table->columns = first == POINTS   ? point_columns
                     : first == FIGURE ? figure_columns
                                       : words_columns;
    table->n = first == POINTS ? 4 : 2;
    for (*n = 0; i + *n < g->blocks.n; ++*n) {
        const ls_doc_block *fact = &g->blocks.at[i + *n];
        if (!ls_doc_is_told(fact->level, level))
            continue;
        if (fact->kind != LS_DOC_FACT || form_of(&fact->cell) != first)
            break;
        if (first == POINTS)
            points_row(d, table, fact);
        else
            fact_row(d, table, fact);
    }
    return table;
}

const ls_doc_block *ls_doc_told_columns(const ls_document *d, const ls_doc_block *table,
                                        ls_doc_level level) {
    ls_doc_block *told = LS_NEW(d->arena, ls_doc_block, 1);
    ls_doc_column *columns = LS_NEW(d->arena, ls_doc_column, table->n);
    *told = *table;
    told->n = 0;
    told->columns = columns;
    told->rows.n = told->rows.cap = 0;
    told->rows.at = NULL;
    for (size_t k = 0; k < table->n; k++)
        if (ls_doc_is_told(table->columns[k].level, level))
            columns[told->n++] = table->columns[k];
    for (size_t r = 0; r < table->rows.n; r++) {
        ls_doc_cell *cells = LS_NEW(d->arena, ls_doc_cell, told->n);
        size_t n = 0;
        for (size_t k = 0; k < table->n; k++)
            if (ls_doc_is_told(table->columns[k].level, level))
                cells[n++] = table->rows.at[r].cells[k];
        *LS_PUSH(d->arena, &told->rows) = (ls_doc_row){table->rows.at[r].key, cells};
    }
    return told;
}
