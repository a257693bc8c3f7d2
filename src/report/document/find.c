/* What stands in a document, found again by its place in the JSON. */
#include "document.h"

#include <string.h>

/* Is key the first part of path? *rest: what follows it. */
static bool leads(const char *key, const char *path, const char **rest) {
    size_t n = strcspn(path, ".");
    if (key == NULL || strlen(key) != n || strncmp(key, path, n) != 0) return false;
    *rest = path + n + (path[n] == '.');
    return true;
}

static bool is_called(const ls_doc_column *c, bool by_key, const char *name) {
    const char *of = by_key ? c->key : c->key == NULL ? c->heading : NULL;
    return of != NULL && strcmp(of, name) == 0;
}

size_t ls_doc_column_of(const ls_doc_block *table, const char *name) {
    for (size_t i = 0; i < 2 * table->n; i++)
        if (is_called(&table->columns[i % table->n], i < table->n, name)) return i % table->n;
    return table->n;
}

/* Of a grid: "ROW.COLUMN", or the other way round. */
static const ls_doc_cell *in_grid(const ls_doc_block *b, const char *path) {
    const char *rest = path, *last = "";
    for (size_t r = 0; r < b->rows.n; r++)
        for (size_t k = 0; b->rows.at[r].key != NULL && k < b->n; k++) {
            const char *row = b->rows.at[r].key, *column = b->columns[k].key;
            if (leads(b->by_column ? column : row, path, &rest) && leads(b->by_column ? row : column, rest, &last) &&
                last[0] == '\0')
                return &b->rows.at[r].cells[k];
        }
    return NULL;
}

const ls_doc_cell *ls_doc_find(const ls_doc_group *g, const char *path) {
    const ls_doc_cell *found = NULL;
    for (size_t i = 0; found == NULL && i < g->blocks.n; i++) {
        const ls_doc_block *b = &g->blocks.at[i];
        const char *rest = path;
        if (b->key != NULL && !leads(b->key, path, &rest)) continue;
        if (b->kind == LS_DOC_OBJECT)
            found = ls_doc_find(b->group, rest);
        else if (b->kind == LS_DOC_FACT && rest[0] == '\0')
            found = &b->cell;
        else if (b->columns != NULL)
            found = in_grid(b, rest);
    }
    return found;
}

static void collect(const ls_doc_group *g, const char *path, ls_doc_tables *out) {
    LS_EACH (const ls_doc_block, b, g->blocks) {
        const char *rest = path;
        if (b->key != NULL && !leads(b->key, path, &rest)) continue;
        if (b->kind == LS_DOC_OBJECT || b->kind == LS_DOC_LIST)
            collect(b->group, rest, out);
        else if (b->columns != NULL && b->key != NULL && rest[0] == '\0')
            *LS_PUSH(g->document->arena, out) = b;
    }
}

ls_doc_tables ls_doc_find_tables(const ls_doc_group *g, const char *path) {
    ls_doc_tables out = {0};
    collect(g, path, &out);
    return out;
}
