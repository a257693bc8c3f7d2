/* A table of a document as CSV, with the names and figures of its JSON. */
#include "writers.h"

#include <string.h>

typedef LS_LIST(const char *) names;

/* A row: cells by column. Names of columns are those of JSON, parts of an object joined by '_'. */
typedef struct {
    LS_LIST(const char *) cells; /* NULL: none */
} csv_row;

typedef struct {
    ls_arena *arena;
    names columns, nested; /* nested: they hold objects or tables, null where there are none */
    LS_LIST(csv_row) rows;
} csv;

static size_t column_of(csv *c, const char *name) {
    for (size_t i = 0; i < c->columns.n; i++)
        if (strcmp(c->columns.at[i], name) == 0) return i;
    *LS_PUSH(c->arena, &c->columns) = name;
    return c->columns.n - 1;
}

static void set(csv *c, csv_row *row, const char *name, const char *cell) {
    size_t at = column_of(c, name);
    while (row->cells.n <= at) *LS_PUSH(c->arena, &row->cells) = NULL;
    row->cells.at[at] = cell;
}

static const char *joined(ls_arena *a, json_t *list) {
    ls_text *t = ls_text_new(a);
    for (size_t i = 0; i < json_array_size(list); i++)
        ls_text_addf(t, "%s%s", i > 0 ? "; " : "", json_string_value(json_array_get(list, i)));
    return ls_text_csv(a, t->s);
}

/* Of an empty list nothing can be told: it is neither. */
static bool is_list_of(json_t *value, bool texts) {
    return json_array_size(value) > 0 && json_is_string(json_array_get(value, 0)) == texts;
}

static const char *scalar(ls_arena *a, json_t *value) {
    if (json_is_string(value)) return ls_text_csv(a, json_string_value(value));
    if (json_is_integer(value)) return ls_arena_printf(a, "%" JSON_INTEGER_FORMAT, json_integer_value(value));
    if (json_is_real(value)) return ls_arena_printf(a, "%.10g", json_real_value(value));
    return json_is_boolean(value) ? json_is_true(value) ? "yes" : "no" : NULL;
}

static bool is_nested(const csv *c, const char *name) {
    for (size_t i = 0; i < c->nested.n; i++)
        if (strcmp(c->nested.at[i], name) == 0) return true;
    return false;
}

/* The members of an object, those of objects within it too; tables within it are tables of their own. */
static void flatten(csv *c, csv_row *row, const char *before, json_t *object) {
    const char *key;
    json_t *value;
    json_object_foreach(object, key, value) {
        const char *name = ls_arena_printf(c->arena, "%s%s%s", before, before[0] ? "_" : "", key);
        bool nests = json_is_object(value) || is_list_of(value, false);
        if (nests && !is_nested(c, name)) *LS_PUSH(c->arena, &c->nested) = name;
        if (json_is_object(value))
            flatten(c, row, name, value);
        else if (is_list_of(value, true))
            set(c, row, name, joined(c->arena, value));
        else if (!json_is_array(value))
            set(c, row, name, scalar(c->arena, value));
    }
}

static void collect(csv *c, json_t *value, const char *name, const char *path, const csv_row *around);

/* One row of the table, or of a table around it, whose columns are led by its name. */
static void row_of(csv *c, json_t *object, const char *name, const char *path, const csv_row *around) {
    csv_row row = {0};
    for (size_t k = 0; k < around->cells.n; k++) *LS_PUSH(c->arena, &row.cells) = around->cells.at[k];
    flatten(c, &row, path[0] == '\0' ? "" : name, object);
    if (path[0] == '\0')
        *LS_PUSH(c->arena, &c->rows) = row;
    else
        collect(c, object, "", path, &row);
}

/* Rows of the table at path under value, which is called name; around: what the rows around say. An
 * object is a table of one row. */
static void collect(csv *c, json_t *value, const char *name, const char *path, const csv_row *around) {
    for (size_t i = 0; i < json_array_size(value); i++) row_of(c, json_array_get(value, i), name, path, around);
    if (path[0] == '\0' && json_is_object(value)) row_of(c, value, name, path, around);
    size_t n = strcspn(path, ".");
    const char *key = ls_arena_copy_n(c->arena, path, n);
    json_t *inner = json_object_get(value, key);
    if (inner != NULL) collect(c, inner, key, path + n + (path[n] == '.'), around);
}

/* ---- which tables there are ---- */

static void list_tables(ls_arena *a, const ls_doc_group *g, const char *before, names *out);

/* Parts of an object that a page tells in several places are one. */
static void add_name(ls_arena *a, const char *path, names *out) {
    for (size_t i = 0; i < out->n; i++)
        if (strcmp(out->at[i], path) == 0) return;
    *LS_PUSH(a, out) = path;
}

static void list_block(ls_arena *a, const ls_doc_block *b, const char *before, names *out) {
    const char *path = b->key == NULL ? before : ls_arena_printf(a, "%s%s%s", before, before[0] ? "." : "", b->key);
    bool grid = b->rows.n > 0 && b->rows.at[0].key != NULL;
    bool table = b->columns != NULL && !grid;
    if (b->key != NULL && (b->group != NULL || table)) add_name(a, path, out);
    if (b->group != NULL) list_tables(a, b->group, path, out);
    for (size_t r = 0, told = 0; r < b->rows.n && told < 1; r++) {
        told += b->rows.at[r].cells != NULL;
        for (size_t k = 0; k < b->n && told > 0; k++)
            if (b->rows.at[r].cells[k].group != NULL && b->columns[k].key != NULL) {
                const ls_doc_group *inner = b->rows.at[r].cells[k].group;
                const char *deeper = ls_arena_printf(a, "%s.%s", path, b->columns[k].key);
                if (inner->is_list) add_name(a, deeper, out);
                list_tables(a, inner, deeper, out);
            }
    }
}

/* Of a list of objects the first stands for all. */
static void list_tables(ls_arena *a, const ls_doc_group *g, const char *before, names *out) {
    for (size_t i = 0; i < g->blocks.n && (i < 1 || !g->is_list); i++) list_block(a, &g->blocks.at[i], before, out);
}

const char *const *ls_document_parts(const ls_document *d) {
    names list = {0};
    list_tables(d->arena, d->top, "", &list);
    *LS_PUSH(d->arena, &list) = NULL;
    return list.at;
}

const char *ls_document_table(const ls_document *d) { return d->table; }

/* The columns of a table without rows. */
static void add_heads(csv *c, const ls_document *d, const char *path) {
    ls_doc_tables found = ls_doc_find_tables(d->top, path);
    for (size_t i = 0; i < found.n; i++)
        for (size_t k = 0; k < found.at[i]->n; k++)
            if (found.at[i]->columns[k].key != NULL) column_of(c, found.at[i]->columns[k].key);
}

/* A line of the cells whose columns are not nested. */
static void add_line(const csv *c, ls_text *t, const char *const *cells, size_t n) {
    const char *comma = "";
    for (size_t k = 0; k < c->columns.n; k++) {
        if (is_nested(c, c->columns.at[k])) continue;
        ls_text_addf(t, "%s%s", comma, k < n && cells[k] != NULL ? cells[k] : "");
        comma = ",";
    }
    ls_text_add(t, "\r\n");
}

const char *ls_document_csv(const ls_document *d, const char *part) {
    csv c = {.arena = d->arena};
    csv_row none = {0};
    json_t *tree = ls_document_tree(d);
    collect(&c, tree, "", part, &none);
    json_decref(tree);
    if (c.rows.n == 0) add_heads(&c, d, part);
    ls_text *t = ls_text_new(d->arena);
    add_line(&c, t, c.columns.at, c.columns.n);
    for (size_t r = 0; r < c.rows.n; r++) add_line(&c, t, c.rows.at[r].cells.at, c.rows.at[r].cells.n);
    return t->s;
}
