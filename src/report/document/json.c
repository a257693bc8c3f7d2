/* A document as JSON: every block, always in US units. */
#include "writers.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* 15 digits print 0.1 as 0.1; names as ASCII, so that no invisible character reaches a terminal. */
#define FLAGS (JSON_REAL_PRECISION(15) | JSON_ENSURE_ASCII)

static json_t *checked(json_t *value) {
    if (value == NULL) ls_fail("out of memory");
    return value;
}

/* The object or array takes the value over; out of memory ends the program. */
static void put(json_t *object, const char *key, json_t *value) {
    if (json_object_get(object, key) != NULL) ls_fail("%s stands twice in an object", key);
    if (json_object_set_new(object, key, checked(value)) != 0) ls_fail("out of memory");
}

static void append(json_t *array, json_t *value) {
    if (json_array_append_new(array, checked(value)) != 0) ls_fail("out of memory");
}

/* As text in the arena; the value is given back. */
static const char *dumped(ls_arena *a, json_t *value, size_t flags, const char *end) {
    char *s = json_dumps(value, flags);
    if (s == NULL) ls_fail("out of memory");
    const char *copy = ls_arena_printf(a, "%s%s", s, end);
    free(s);
    json_decref(value);
    return copy;
}

/* As a number of unit, rounded for a reader; null if it is not known or not finite. */
static json_t *figure(double value, const char *unit) {
    double shown = value / ls_unit_of(unit).factor;
    return isfinite(shown) ? json_real(ls_number_round(shown)) : json_null();
}

static json_t *string(const char *s) { return s == NULL ? json_null() : json_string(s); }

/* A list of texts. */
static json_t *strings(const char *const *s, size_t n) {
    json_t *list = checked(json_array());
    for (size_t i = 0; i < n; i++) append(list, string(s[i]));
    return list;
}

static json_t *of_group(const ls_doc_group *g);

static json_t *points(const ls_doc_cell *cell) {
    json_t *object = json_object();
    put(object, "low", figure(cell->low, cell->unit));
    put(object, "mid", figure(cell->value, cell->unit));
    put(object, "high", figure(cell->high, cell->unit));
    return object;
}

/* "2026-02-16T07:40" */
static json_t *moment(const ls_document *d, const ls_doc_cell *cell) {
    return json_string(ls_arena_printf(d->arena, "%sT%02ld:%02ld", ls_date_iso(d->arena, cell->day), cell->whole / 3600,
                                       cell->whole / 60 % 60));
}

static json_t *of_cell(const ls_document *d, const ls_doc_cell *cell) {
    switch (cell->kind) {
    case LS_DOC_WORDS: return string(ls_doc_shown(d, cell, NULL, false));
    case LS_DOC_FIGURE: return figure(cell->value, cell->unit);
    case LS_DOC_BOOKED: { /* tons to a tenth of a pound */
        double value = round(cell->value / ls_unit_of(cell->unit).factor * 1e5) / 1e5;
        return isfinite(value) ? json_real(value) : json_null();
    }
    case LS_DOC_COUNT: return isfinite(cell->value) ? json_integer(cell->whole) : json_null();
    case LS_DOC_POINTS: return points(cell);
    case LS_DOC_DAY: return json_string(ls_date_iso(d->arena, cell->day));
    case LS_DOC_MOMENT: return moment(d, cell);
    case LS_DOC_FLAG: return json_boolean(cell->value != 0);
    case LS_DOC_NAMES: return strings(cell->names, cell->n);
    case LS_DOC_GROUP: return of_group(cell->group);
    case LS_DOC_EMPTY: break;
    }
    return json_null();
}

static json_t *of_row(const ls_document *d, const ls_doc_block *b, const ls_doc_row *row) {
    json_t *object = json_object();
    for (size_t k = 0; k < b->n; k++)
        if (b->columns[k].key != NULL) put(object, b->columns[k].key, of_cell(d, &row->cells[k]));
    return object;
}

/* {column: {row: cell}} */
static void put_columns(json_t *into, const ls_document *d, const ls_doc_block *b) {
    for (size_t k = 0; k < b->n; k++) {
        if (b->columns[k].key == NULL) continue;
        json_t *column = json_object();
        for (size_t r = 0; r < b->rows.n; r++) put(column, b->rows.at[r].key, of_cell(d, &b->rows.at[r].cells[k]));
        put(into, b->columns[k].key, column);
    }
}

/* A grid is an object of its rows, a table an array of them. */
static void put_table(json_t *to, const ls_document *d, const ls_doc_block *b) {
    bool grid = b->rows.n > 0 && b->rows.at[0].key != NULL;
    json_t *into = b->key == NULL ? to : grid ? json_object() : json_array();
    if (b->by_column) put_columns(into, d, b);
    for (size_t r = 0; r < b->rows.n && !b->by_column; r++) {
        const ls_doc_row *of = &b->rows.at[r];
        if (of->cells == NULL || (of->entry != NULL && of->entry->again)) continue;
        json_t *row = of_row(d, b, &b->rows.at[r]);
        if (grid)
            put(into, b->rows.at[r].key, row);
        else
            append(into, row);
    }
    if (b->key != NULL) put(to, b->key, into);
}

/* Words of the page join the member "words" of the nearest object with a name. */
static void put_words(json_t *to, const ls_document *d, const ls_doc_block *b) {
    if (json_object_get(to, "words") == NULL) put(to, "words", json_array());
    append(json_object_get(to, "words"), of_cell(d, &b->cell));
}

static void put_group(json_t *to, const ls_doc_group *g);

static void put_block(json_t *to, const ls_document *d, const ls_doc_block *b) {
    switch (b->kind) {
    case LS_DOC_OBJECT:
    case LS_DOC_LIST:
        if (b->key == NULL)
            put_group(to, b->group);
        else if (json_object_get(to, b->key) != NULL)
            put_group(json_object_get(to, b->key), b->group);
        else
            put(to, b->key, of_group(b->group));
        break;
    case LS_DOC_FACT:
    case LS_DOC_TEXTS: put(to, b->key, of_cell(d, &b->cell)); break;
    case LS_DOC_TABLE:
    case LS_DOC_ITEMS:
    case LS_DOC_SHEET: put_table(to, d, b); break;
    case LS_DOC_SAY:
    case LS_DOC_ITEM: put_words(to, d, b); break;
    case LS_DOC_PICTURE:
        if (b->key != NULL) put(to, b->key, string(b->letters));
        break;
    case LS_DOC_WRITTEN: /* it joins the text */ break;
    }
}

static void put_group(json_t *to, const ls_doc_group *g) {
    for (size_t i = 0; i < g->blocks.n; i++) put_block(to, g->document, &g->blocks.at[i]);
}

static json_t *of_group(const ls_doc_group *g) {
    if (!g->is_list) {
        json_t *object = json_object();
        put_group(object, g);
        return object;
    }
    json_t *list = json_array();
    for (size_t i = 0; i < g->blocks.n; i++) append(list, of_group(g->blocks.at[i].group));
    return list;
}

json_t *ls_document_tree(const ls_document *d) { return of_group(d->top); }

const char *ls_document_json_items(ls_document *d) {
    ls_text *t = ls_text_new(d->arena);
    for (size_t i = 0; i < d->top->blocks.n; i++)
        ls_text_addf(t, "%s%s", i > 0 ? ",\n    " : "",
                     dumped(d->arena, of_group(d->top->blocks.at[i].group), FLAGS, ""));
    return t->s;
}

const char *ls_document_json(const ls_document *d) {
    static const char end[] = "\n}\n", between[] = ",\n    ";
    const char *tree = dumped(d->arena, ls_document_tree(d), FLAGS | JSON_INDENT(2), "\n");
    ls_text *t = NULL;
    LS_EACH (const ls_doc_block, b, d->top->blocks) {
        if (b->kind != LS_DOC_WRITTEN) continue;
        if (t == NULL) ls_text_add_n(t = ls_text_new(d->arena), tree, strlen(tree) - strlen(end));
        ls_text_addf(t, ",\n  \"%s\": [\n    ", b->key);
        ls_doc_add_written(t, b, LS_JSON, between);
        ls_text_add(t, "\n  ]");
    }
    if (t == NULL) return tree;
    ls_text_add(t, end);
    return t->s;
}
