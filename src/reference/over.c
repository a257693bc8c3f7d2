/* A farm's own tables laid over the built-in ones. */
#include "tables.h"

#include <string.h>

/* The own row with the cells of the built-in one that it does not give. */
static ls_row joined(ls_arena *a, const ls_row *own, const ls_row *old) {
    ls_row row = *own;
    ls_cell *cells = LS_NEW(a, ls_cell, own->n + old->n);
    memcpy(cells, own->cells, own->n * sizeof *cells);
    for (size_t i = 0; i < old->n; i++)
        if (ls_reference_cell(own, old->cells[i].column) == NULL) cells[row.n++] = old->cells[i];
    row.cells = cells;
    row.in_place_of = old;
    return row;
}

/* New rows first: where one row of several is used, it is the farm's own. */
static const ls_table *laid_over(ls_arena *a, const ls_table *own, const ls_table *old) {
    ls_table *t = LS_NEW(a, ls_table, 1);
    ls_row *rows = LS_NEW(a, ls_row, own->n + old->n);
    *t = *old;
    t->n = 0;
    for (size_t i = 0; i < own->n; i++)
        if (ls_table_row(old, own->rows[i].name) == NULL) rows[t->n++] = own->rows[i];
    for (size_t i = 0; i < old->n; i++) {
        const ls_row *row = ls_table_row(own, old->rows[i].name);
        rows[t->n++] = row == NULL ? old->rows[i] : joined(a, row, &old->rows[i]);
    }
    t->rows = rows;
    return t;
}

const ls_reference *ls_reference_with(ls_arena *a, ls_diag *d, const ls_reference *base, const int32_t *files,
                                      size_t n) {
    ls_reference *own = LS_NEW(a, ls_reference, 1), *set = LS_NEW(a, ls_reference, 1);
    memcpy(own->why, base->why, sizeof own->why);
    for (size_t i = 0; i < base->sources.n; i++) *LS_PUSH(a, &own->sources) = base->sources.at[i];
    ls_reference_read(a, d, own, base, files, n);
    *set = (ls_reference){.version = base->version, .date = base->date};
    memcpy(set->why, base->why, sizeof set->why);
    for (size_t i = 0; i < own->sources.n; i++) *LS_PUSH(a, &set->sources) = own->sources.at[i];
    for (size_t i = 0; i < own->tables.n; i++)
        if (ls_reference_by_id(base, own->tables.at[i]->id) == NULL) *LS_PUSH(a, &set->tables) = own->tables.at[i];
    for (size_t i = 0; i < base->tables.n; i++) {
        const ls_table *over = ls_reference_by_id(own, base->tables.at[i]->id);
        *LS_PUSH(a, &set->tables) = over == NULL ? base->tables.at[i] : laid_over(a, over, base->tables.at[i]);
    }
    return set;
}
