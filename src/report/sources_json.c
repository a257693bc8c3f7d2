#include "json.h"

static json_t *spread(const ls_view *v, const ls_figure *f) {
    return ls_report_string(ls_spread_words(v->arena, f->spread, f->unit.factor, f->unit.text));
}

static json_t *figure(const ls_view *v, const ls_figure *f) {
    json_t *object = json_object();
    ls_report_put(object, "value", ls_report_figure(f->value, f->unit.text));
    ls_report_put(object, "unit", ls_report_string(f->unit.text));
    ls_report_put(object, "spread", spread(v, f));
    ls_report_put(object, "why", ls_report_string(f->why));
    ls_report_put(object, "status", json_string(ls_status_words(f->status)));
    ls_report_put(object, "source", ls_report_string(f->source == NULL ? NULL : f->source->id));
    ls_report_put(object, "note", ls_report_string(f->note));
    ls_report_put(object, "own", ls_report_string(f->own));
    return object;
}

static json_t *one_row(const ls_view *v, const ls_row *row) {
    json_t *object = json_object(), *cells = json_object();
    ls_report_put(object, "name", ls_report_string(row->name));
    ls_report_put(object, "status", json_string(ls_status_words(row->status)));
    ls_report_put(object, "source", ls_report_string(row->source == NULL ? NULL : row->source->id));
    ls_report_put(object, "note", ls_report_string(row->note));
    for (size_t i = 0; i < row->n; i++) {
        const ls_cell *cell = &row->cells[i];
        ls_report_put(cells, cell->column,
                      cell->figure != NULL ? figure(v, cell->figure)
                                           : ls_report_string(cell->word));
    }
    ls_report_put(object, "cells", cells);
    ls_report_put(object, "own", ls_report_string(row->own));
    ls_report_put(object, "in_place_of",
                  row->in_place_of == NULL ? json_null() : one_row(v, row->in_place_of));
    return object;
}

static json_t *one_table(const ls_view *v, const ls_table *t) {
    json_t *object = json_object(), *rows = json_array();
    ls_report_put(object, "id", ls_report_string(t->id));
    ls_report_put(object, "kind", ls_report_string(t->kind));
    ls_report_put(object, "name", ls_report_string(t->name));
    ls_report_put(object, "title", ls_report_string(t->title));
    for (size_t i = 0; i < t->n; i++)
        ls_report_append(rows, one_row(v, &t->rows[i]));
    ls_report_put(object, "rows", rows);
    return object;
}

static json_t *sources(const ls_view *v) {
    json_t *list = json_array();
    for (size_t i = 0; ls_reference_source_at(v->reference, i) != NULL; i++) {
        const ls_source *s = ls_reference_source_at(v->reference, i);
        json_t *object = json_object();
        ls_report_put(object, "id", ls_report_string(s->id));
        ls_report_put(object, "who", ls_report_string(s->who));
        ls_report_put(object, "title", ls_report_string(s->title));
        ls_report_put(object, "url", ls_report_string(s->url));
        ls_report_append(list, object);
    }
    return list;
}

const char *ls_report_sources_json(const ls_view *v, const char *table) {
    json_t *document = ls_report_document(v, "sources"), *tables = json_array();
    for (size_t i = 0; ls_reference_at(v->reference, i) != NULL; i++) {
        const ls_table *t = ls_reference_at(v->reference, i);
        if (table == NULL || ls_text_same(t->id, table) || ls_text_same(t->kind, table))
            ls_report_append(tables, one_table(v, t));
    }
    bool none = json_array_size(tables) == 0;
    ls_report_put(document, "shown", tables);
    ls_report_put(document, "sources", sources(v));
    if (!none)
        return ls_report_dump(v, document);
    json_decref(document);
    return NULL;
}
