#include "tables.h"

#include <string.h>

const char *ls_reference_version(const ls_reference *r) { return r->version; }

const char *ls_reference_date(const ls_reference *r) { return r->date; }

const ls_table *ls_reference_at(const ls_reference *r, size_t index) {
    return index < r->tables.n ? r->tables.at[index] : NULL;
}

const ls_table *ls_reference_by_id(const ls_reference *r, const char *id) {
    for (size_t i = 0; i < r->tables.n; i++) {
        const ls_table *t = r->tables.at[i];
        size_t kind = strlen(t->kind);
        if (strcmp(t->id, id) == 0 || (t->once != NULL && strncmp(t->kind, id, kind) == 0 && id[kind] == '-' &&
                                       strcmp(t->once, id + kind + 1) == 0))
            return t;
    }
    return NULL;
}

const ls_table *ls_reference_table(const ls_reference *r, const char *kind, const char *name) {
    for (size_t i = 0; i < r->tables.n; i++)
        if (strcmp(r->tables.at[i]->kind, kind) == 0 &&
            (strcmp(r->tables.at[i]->name, name) == 0 || ls_text_same(r->tables.at[i]->once, name)))
            return r->tables.at[i];
    return NULL;
}

const ls_row *ls_table_row(const ls_table *t, const char *row) {
    for (size_t i = 0; t != NULL && i < t->n; i++)
        if (strcmp(t->rows[i].name, row) == 0) return &t->rows[i];
    return NULL;
}

const ls_cell *ls_reference_cell(const ls_row *row, const char *column) {
    for (size_t i = 0; row != NULL && i < row->n; i++)
        if (strcmp(row->cells[i].column, column) == 0) return &row->cells[i];
    return NULL;
}

const ls_figure *ls_row_figure(const ls_row *row, const char *column) {
    const ls_cell *cell = ls_reference_cell(row, column);
    return cell == NULL ? NULL : cell->figure;
}

const char *ls_row_word(const ls_row *row, const char *column) {
    const ls_cell *cell = ls_reference_cell(row, column);
    return cell == NULL ? NULL : cell->word;
}

const ls_figure *ls_reference_need(const ls_reference *r, const char *kind, const char *name, const char *row,
                                   const char *column) {
    const ls_figure *f = ls_row_figure(ls_table_row(ls_reference_table(r, kind, name), row), column);
    if (f == NULL) ls_fail("the built-in tables hold no %s/%s/%s/%s", kind, name, row, column);
    return f;
}

const ls_figure *ls_reference_practice(const ls_reference *r, const char *row) {
    return ls_reference_need(r, "practice", "", row, "value");
}

const ls_source *ls_reference_source_at(const ls_reference *r, size_t index) {
    return index < r->sources.n ? r->sources.at[index] : NULL;
}

const ls_source *ls_reference_source(const ls_reference *r, const char *id) {
    for (size_t i = 0; i < r->sources.n; i++)
        if (strcmp(r->sources.at[i]->id, id) == 0) return r->sources.at[i];
    return NULL;
}

const char *ls_status_words(ls_status s) {
    static const char *const words[] = {
        [LS_READ] = "read",          [LS_READ2] = "second-hand copy",   [LS_DERIVED] = "derived",
        [LS_MEMORY] = "from memory", [LS_PRACTICE] = "common practice",
    };
    return words[s];
}
