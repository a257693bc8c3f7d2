/* A document as JSON: every block, always in US units. */
#include "writers.h"

#include "report/json.h"

#include <math.h>
#include <string.h>

static json_t *of_group(const ls_doc_group *g);

static json_t *points(const ls_doc_cell *cell) {
    json_t *object = json_object();
    ls_report_put(object, "low", ls_report_figure(cell->low, cell->unit));
    ls_report_put(object, "mid", ls_report_figure(cell->value, cell->unit));
    ls_report_put(object, "high", ls_report_figure(cell->high, cell->unit));
    return object;
}

/* "2026-02-16T07:40" */
static json_t *moment(const ls_document *d, const ls_doc_cell *cell) {
    return json_string(ls_arena_printf(d->arena, "%sT%02ld:%02ld", ls_date_iso(d->arena, cell->day),
                                       cell->whole / 3600, cell->whole / 60 % 60));
}

static json_t *of_cell(const ls_document *d, const ls_doc_cell *cell) {
    switch (cell->kind) {
    case LS_DOC_WORDS:
        return ls_report_string(ls_doc_shown(d, cell, NULL, false));
    case LS_DOC_FIGURE:
        return ls_report_figure(cell->value, cell->unit);
    case LS_DOC_BOOKED: { /* tons to a tenth of a pound */
        double value = round(cell->value / ls_unit_of(cell->unit).factor * 1e5) / 1e5;
        return isfinite(value) ? json_real(value) : json_null();
    }
    case LS_DOC_COUNT:
        return isfinite(cell->value) ? json_integer(cell->whole) : json_null();
    case LS_DOC_POINTS:
        return points(cell);
    case LS_DOC_DAY:
        return json_string(ls_date_iso(d->arena, cell->day));
    case LS_DOC_MOMENT:
        return moment(d, cell);
    case LS_DOC_FLAG:
        return json_boolean(cell->value != 0);
    case LS_DOC_NAMES:
        return ls_report_strings(cell->names, cell->n);
    case LS_DOC_GROUP:
        return of_group(cell->group);
    case LS_DOC_EMPTY:
        break;
    }
    return json_null();
}

static json_t *of_row(const ls_document *d, const ls_doc_block *b, const ls_doc_row *row) {
    json_t *object = json_object();
    for (size_t k = 0; k < b->n; k++)
        if (b->columns[k].key != NULL)
            ls_report_put(object, b->columns[k].key, of_cell(d, &row->cells[k]));
    return object;
}

/* {column: {row: cell}} */
static void put_columns(json_t *into, const ls_document *d, const ls_doc_block *b) {
    for (size_t k = 0; k < b->n; k++) {
        if (b->columns[k].key == NULL)
            continue;
        json_t *column = json_object();
        for (size_t r = 0; r < b->rows.n; r++)
            ls_report_put(column, b->rows.at[r].key, of_cell(d, &b->rows.at[r].cells[k]));
        ls_report_put(into, b->columns[k].key, column);
    }
}

/* A grid is an object of its rows, a table an array of them. */
static void put_table(json_t *to, const ls_document *d, const ls_doc_block *b) {
    bool grid = b->rows.n > 0 && b->rows.at[0].key != NULL;
    json_t *into = b->key == NULL ? to : grid ? json_object() : json_array();
    if (b->by_column)
        put_columns(into, d, b);
    for (size_t r = 0; r < b->rows.n && !b->by_column; r++) {
        const ls_doc_row *of = &b->rows.at[r];
        if (of->cells == NULL || (of->entry != NULL && of->entry->again))
            continue;
        json_t *row = of_row(d, b, &b->rows.at[r]);
        if (grid)
            ls_report_put(into, b->rows.at[r].key, row);
        else
            ls_report_append(into, row);
    }
    if (b->key != NULL)
        ls_report_put(to, b->key, into);
}

/* Words of the page join the member "words" of the nearest object with a name. */
static void put_words(json_t *to, const ls_document *d, const ls_doc_block *b) {
    if (json_object_get(to, "words") == NULL)
        ls_report_put(to, "words", json_array());
    ls_report_append(json_object_get(to, "words"), of_cell(d, &b->cell));
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
            ls_report_put(to, b->key, of_group(b->group));
        break;
    case LS_DOC_FACT:
    case LS_DOC_TEXTS:
        ls_report_put(to, b->key, of_cell(d, &b->cell));
        break;
    case LS_DOC_TABLE:
    case LS_DOC_ITEMS:
    case LS_DOC_SHEET:
        put_table(to, d, b);
        break;
    case LS_DOC_SAY:
    case LS_DOC_ITEM:
        put_words(to, d, b);
        break;
    case LS_DOC_PICTURE:
        if (b->key != NULL)
            ls_report_put(to, b->key, ls_report_string(b->letters));
        break;
    case LS_DOC_WRITTEN: /* it joins the text */
        break;
    }
}

static void put_group(json_t *to, const ls_doc_group *g) {
    for (size_t i = 0; i < g->blocks.n; i++)
        put_block(to, g->document, &g->blocks.at[i]);
}

static json_t *of_group(const ls_doc_group *g) {
    if (!g->is_list) {
        json_t *object = json_object();
        put_group(object, g);
        return object;
    }
    json_t *list = json_array();
    for (size_t i = 0; i < g->blocks.n; i++)
        ls_report_append(list, of_group(g->blocks.at[i].group));
    return list;
}

json_t *ls_document_tree(const ls_document *d) {
    return of_group(d->top);
}

const char *ls_document_json_items(ls_document *d) {
    ls_text *t = ls_text_new(d->arena);
    for (size_t i = 0; i < d->top->blocks.n; i++)
        ls_text_addf(t, "%s%s", i > 0 ? ",\n    " : "",
                     ls_report_dump_line(d->arena, of_group(d->top->blocks.at[i].group)));
    return t->s;
}

const char *ls_document_json(const ls_document *d) {
    static const char end[] = "\n}\n", between[] = ",\n    ";
    const char *tree = ls_report_dump(d->arena, ls_document_tree(d));
    ls_text *t = NULL;
    for (size_t i = 0; i < d->top->blocks.n; i++) {
        const ls_doc_block *b = &d->top->blocks.at[i];
        if (b->kind != LS_DOC_WRITTEN)
            continue;
        if (t == NULL)
            ls_text_add_n(t = ls_text_new(d->arena), tree, strlen(tree) - strlen(end));
        ls_text_addf(t, ",\n  \"%s\": [\n    ", b->key);
        ls_doc_add_written(t, b, LS_JSON, between);
        ls_text_add(t, "\n  ]");
    }
    if (t == NULL)
        return tree;
    ls_text_add(t, end);
    return t->s;
}
