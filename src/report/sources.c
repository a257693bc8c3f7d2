/* The page of the published tables. */
#include "document/document.h"

#include <math.h>

/* What of the reference was asked for by name: tables, or a source; NULL: all. */
typedef struct {
    const ls_reference *reference;
    const char *name;
} question;

/* Is it asked for by its id, by its kind, or by its name as a farm file writes it? */
static bool is_asked(const question *q, const ls_table *t) {
    return q->name != NULL && (ls_text_same(t->id, q->name) || ls_text_same(t->kind, q->name) ||
                               (t->name[0] != '\0' && ls_text_same(t->name, q->name)));
}

static bool any_asked(const question *q) {
    for (size_t i = 0; ls_reference_at(q->reference, i) != NULL; i++)
        if (is_asked(q, ls_reference_at(q->reference, i))) return true;
    return false;
}

static bool names_source(const ls_table *t, const ls_source *s) {
    LS_EACH_OF (const ls_row, row, t->rows, t->n) {
        if (row->source == s) return true;
        LS_EACH_OF (const ls_cell, c, row->cells, row->n)
            if (c->figure != NULL && c->figure->source == s) return true;
    }
    return false;
}

/* Does a table that was asked for take a figure from it? */
static bool is_used(const question *q, const ls_source *s) {
    for (size_t i = 0; ls_reference_at(q->reference, i) != NULL; i++) {
        const ls_table *t = ls_reference_at(q->reference, i);
        if (is_asked(q, t) && names_source(t, s)) return true;
    }
    return false;
}

/* ---- a row of a table ---- */

LS_DOC_COLUMNS(cell_columns, HEAD("figure"), NUMBER("value", "value"), DATA("unit"), HEAD("spread"), DATA("spread"),
               DATA("why"), HEAD("known by"), DATA("status"), DATA("source"), HEAD("printed, noted"), DATA("note"),
               DATA("own"));

static const char *known_by(ls_arena *a, const ls_source *source, ls_status status) {
    if (source == NULL) return ls_status_words(status);
    return ls_arena_printf(a, "%s, %s", source->id, ls_status_words(status));
}

static void printed_part(ls_text *t, const char *word, double v, double factor) {
    if (!isnan(v)) ls_text_addf(t, "%s%s %s", t->n > 0 ? ", " : "", word, ls_number_text(t->arena, v / factor, 6));
}

/* What the source printed beside the figure, and what is noted of it alone. */
static const char *beside(ls_arena *a, const ls_figure *f, const ls_row *row) {
    ls_text *t = ls_text_new(a);
    double factor = f->unit.factor;
    printed_part(t, "n", f->printed.n, 1);
    printed_part(t, "least", f->printed.least, factor);
    printed_part(t, "most", f->printed.most, factor);
    printed_part(t, "median", f->printed.median, factor);
    printed_part(t, "mean", f->printed.mean, factor);
    printed_part(t, "sd", f->printed.sd, factor);
    if (row->own != NULL && f->own == NULL) ls_text_addf(t, "%sof the built-in row", t->n > 0 ? "; " : "");
    if (f->note != NULL && f->note != row->note) ls_text_addf(t, "%s%s", t->n > 0 ? "; " : "", f->note);
    return t->n > 0 ? t->s : NULL;
}

static void figure(ls_doc_table t, const char *column, const ls_figure *f, const ls_row *row) {
    ls_arena *a = t.group->document->arena;
    const char *spread = ls_spread_words(a, f->spread, f->unit.factor, f->unit.text);
    const char *told = f->why == NULL ? spread : ls_arena_printf(a, "%s; %s", spread, f->why);
    bool of_row = f->source == row->source && f->status == row->status;
    LS_DOC_GRID_ROW(t, cell_columns, LS_FIRST, column, W(column), FINE(V(f->value, f->unit.text)), W(f->unit.text),
                    f->spread.kind == LS_EXACT ? W(spread) : W(told), W(spread), W(f->why),
                    W(of_row ? NULL : known_by(a, f->source, f->status)), W(ls_status_words(f->status)),
                    W(f->source == NULL ? NULL : f->source->id), W(beside(a, f, row)), W(f->note), W(f->own));
}

static void put_row(ls_doc_group *g, ls_doc_level level, const ls_row *row) {
    MEMBERS(g, {"name", W(row->name)}, {"status", W(ls_status_words(row->status))},
            {"source", W(row->source == NULL ? NULL : row->source->id)});
    ls_doc_group *cells = ls_doc_object(g, level, "cells", NULL);
    ls_doc_table t = LS_DOC_TABLE_IN(cells, level, NULL, NULL, cell_columns);
    LS_EACH_OF (const ls_cell, c, row->cells, row->n)
        if (c->figure != NULL)
            figure(t, c->column, c->figure, row);
        else
            ls_doc_fact(cells, level, c->column, c->column, W(c->word));
    ls_doc_fact(g, row->note == NULL ? LS_DATA : level, "note", "note", W(row->note));
    ls_doc_data(g, "own", W(row->own));
    const ls_row *old = row->in_place_of;
    if (old == NULL) {
        ls_doc_data(g, "in_place_of", W(NULL));
        return;
    }
    ls_arena *a = g->document->arena;
    const char *heading =
        ls_arena_printf(a, "In place of the built-in row (%s), not used where the farm's own gives the figure",
                        known_by(a, old->source, old->status));
    put_row(ls_doc_object(g, level, "in_place_of", heading), level, old);
}

static void put_table(ls_doc_group *list, ls_doc_level level, const ls_table *t) {
    ls_arena *a = list->document->arena;
    ls_doc_group *g = ls_doc_object(list, level, NULL, ls_arena_printf(a, "%s: %s", t->id, t->title));
    MEMBERS(g, {"id", W(t->id)}, {"kind", W(t->kind)}, {"name", W(t->name)}, {"title", W(t->title)});
    ls_doc_group *rows = ls_doc_list(g, level, "rows", NULL);
    LS_EACH_OF (const ls_row, row, t->rows, t->n) {
        bool own = row->own != NULL;
        const char *heading = ls_arena_printf(a, "%s (%s%s%s)", row->name, known_by(a, row->source, row->status),
                                              own ? "; the farm's own, " : "", own ? row->own : "");
        put_row(ls_doc_object(rows, level, NULL, heading), level, row);
    }
}

/* ---- lists ---- */

LS_DOC_COLUMNS(table_columns, WORDS("id", "table"), NUMBER("rows", "rows"), WORDS("title", ""));

/* All tables; or those that take figures from a source. */
static void list_tables(ls_doc_group *top, const question *q, const char *heading, const ls_source *of) {
    ls_doc_group *g = ls_doc_object(top, LS_FIRST, NULL, heading);
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FIRST, "listed", NULL, table_columns);
    for (size_t i = 0; ls_reference_at(q->reference, i) != NULL; i++) {
        const ls_table *x = ls_reference_at(q->reference, i);
        if (q->name == NULL || names_source(x, of)) LS_DOC_ROW(t, table_columns, W(x->id), N(x->n), W(x->title));
    }
}

/* The farm's own rows, each with its place. */
static void own_rows(ls_doc_group *top, const question *q) {
    size_t n = 0;
    if (top->document->view->farm == NULL) return;
    ls_doc_group *g = ls_doc_object(top, LS_FIRST, "own_rows", "ROWS OF THE FARM'S OWN TABLES");
    for (size_t i = 0; ls_reference_at(q->reference, i) != NULL; i++) {
        const ls_table *t = ls_reference_at(q->reference, i);
        LS_EACH_OF (const ls_row, row, t->rows, t->n) {
            if (row->own == NULL) continue;
            n++;
            ITEM(g, LS_FIRST, "{}/{}, {}{}", W(t->id), W(row->name), W(row->own),
                 W(row->in_place_of == NULL ? "" : ", in place of the built-in row"));
        }
    }
    if (n == 0) SAY(g, LS_FIRST, "None: the farm files name no tables of their own (own_tables).");
}

LS_DOC_COLUMNS(source_columns, WORDS("id", "name"), WORDS("who", "who"), WORDS("title", "title"),
               WORDS("url", "where"));

static void put_sources(ls_doc_group *top, const question *q) {
    ls_doc_group *g = ls_doc_object(top, LS_FIRST, NULL, "SOURCES");
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FIRST, "sources", NULL, source_columns);
    for (size_t i = 0; ls_reference_source_at(q->reference, i) != NULL; i++) {
        const ls_source *s = ls_reference_source_at(q->reference, i);
        bool tell = q->name == NULL || ls_text_same(s->id, q->name) || is_used(q, s);
        LS_DOC_GRID_ROW(t, source_columns, tell ? LS_FIRST : LS_DATA, NULL, W(s->id), W(s->who), W(s->title),
                        W(s->url));
    }
}

const ls_document *ls_report_sources(const ls_view *v, const char *name) {
    const ls_table *one = name == NULL ? NULL : ls_reference_by_id(v->reference, name);
    const question q = {v->reference, one == NULL ? name : one->id};
    const ls_source *source = name == NULL ? NULL : ls_reference_source(v->reference, name);
    bool practice = ls_text_same(name, ls_status_words(LS_PRACTICE)), tables = any_asked(&q);
    if (name != NULL && !tables && source == NULL && !practice) return NULL;
    ls_document *d = ls_document_new(v, "sources", "Published tables in the program, and where they come from");
    d->table = "sources";
    SAY(d->top, LS_FIRST, "Tables {} of {}", W(ls_reference_version(v->reference)), W(ls_reference_date(v->reference)));
    ls_doc_group *shown = ls_doc_list(d->top, LS_FIRST, "shown", NULL);
    for (size_t i = 0; ls_reference_at(v->reference, i) != NULL; i++) {
        const ls_table *t = ls_reference_at(v->reference, i);
        if (name == NULL || is_asked(&q, t)) put_table(shown, name == NULL ? LS_DATA : LS_FIRST, t);
    }
    if (name == NULL) {
        list_tables(d->top, &q, "TABLES (littershed sources TABLE shows one)", NULL);
        own_rows(d->top, &q);
    } else if (!tables) {
        if (practice) SAY(d->top, LS_FIRST, "What the trade does and no source states: a habit, not a measurement.");
        list_tables(d->top, &q, "TABLES WITH FIGURES OF IT", source);
    }
    put_sources(d->top, &q);
    return d;
}
