/* A set of tables in which one source is not asked. */
#include "bench/calibrate/without_source.h"

#include "reference/tables.h"

#include <string.h>

/* Rows of these go as a whole: what is beside their first figure only makes it comparable. */
static bool goes_by_rows(const ls_table *t) { return strcmp(t->kind, "droppings") == 0; }

/* Figures of these go one by one; a figure that is not there is not used. */
static bool goes_by_cells(const ls_table *t) {
    static const char *const kinds[] = {"kept", "excreted", "composition"};
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++)
        if (strcmp(t->kind, kinds[i]) == 0) return true;
    return false;
}

/* The row without figures of the source; false if no figure is left. */
static bool row_without(ls_arena *a, const ls_row *row, const ls_source *source, ls_row *out) {
    ls_cell *cells = LS_NEW(a, ls_cell, row->n);
    bool left = false;
    *out = *row;
    out->cells = cells;
    out->n = 0;
    for (size_t i = 0; i < row->n; i++) {
        const ls_figure *f = row->cells[i].figure;
        if (f && f->source == source) continue;
        left |= f != NULL;
        cells[out->n++] = row->cells[i];
    }
    return left;
}

static const ls_table *table_without(ls_arena *a, const ls_table *t, const ls_source *source) {
    ls_table *out = LS_NEW(a, ls_table, 1);
    ls_row *rows = LS_NEW(a, ls_row, t->n);
    *out = *t;
    out->rows = rows;
    out->n = 0;
    for (size_t i = 0; i < t->n; i++) {
        bool stays = true;
        rows[out->n] = t->rows[i];
        if (goes_by_rows(t))
            stays = t->rows[i].source != source;
        else
            stays = row_without(a, &t->rows[i], source, &rows[out->n]);
        out->n += stays;
    }
    return out;
}

const ls_reference *without_source(ls_arena *a, const ls_reference *base, const char *source) {
    const ls_source *s = ls_reference_source(base, source);
    ls_reference *out = LS_NEW(a, ls_reference, 1);
    *out = *base;
    memset(&out->tables, 0, sizeof out->tables);
    for (size_t i = 0; i < base->tables.n; i++) {
        const ls_table *t = base->tables.at[i];
        *LS_PUSH(a, &out->tables) = s && (goes_by_rows(t) || goes_by_cells(t)) ? table_without(a, t, s) : t;
    }
    return out;
}
