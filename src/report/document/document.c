#include "document.h"

#include "report/warning.h"

#include <math.h>

static const char *copied(ls_arena *a, const char *s) { return s == NULL ? NULL : ls_arena_copy(a, s); }

/* The cell with copies of all it needs: its line and texts may go. */
static ls_doc_cell kept(const ls_document *d, ls_doc_cell cell, const char *unit) {
    cell.words = copied(d->arena, cell.words);
    cell.link = copied(d->arena, cell.link);
    if (cell.unit == NULL) cell.unit = unit;
    if (cell.line != LS_NO_LINE) {
        cell.key = ls_arena_copy(d->arena, ls_line_at(d->view->sheet, cell.line)->key);
        if (cell.kind != LS_DOC_POINTS) cell.value = ls_line_value(d->view->sheet, cell.line);
        if (cell.unit == NULL) ls_fail("%s has no unit on its page", cell.key);
        if (cell.kind == LS_DOC_COUNT) cell.whole = isfinite(cell.value) ? lround(cell.value) : 0;
    }
    if (cell.parts != NULL) {
        ls_doc_cell *parts = LS_NEW(d->arena, ls_doc_cell, cell.n);
        for (size_t i = 0; i < cell.n; i++) parts[i] = kept(d, cell.parts[i], NULL);
        cell.parts = parts;
    }
    if (cell.kind == LS_DOC_NAMES) {
        const char **names = LS_NEW(d->arena, const char *, cell.n);
        for (size_t i = 0; i < cell.n; i++) names[i] = ls_arena_copy(d->arena, cell.names[i]);
        cell.names = names;
    }
    return cell;
}

ls_doc_cell ls_doc_keep(const ls_document *d, ls_doc_cell cell) { return kept(d, cell, NULL); }

const char *ls_doc_told(const ls_document *d, ls_doc_cell cell) {
    const ls_doc_cell full = kept(d, cell, NULL);
    return ls_doc_shown(d, &full, NULL, d->view->metric);
}

static ls_doc_block *add(ls_doc_group *g, ls_doc_block_kind kind, ls_doc_level level, const char *key,
                         const char *label) {
    ls_arena *a = g->document->arena;
    ls_doc_block *b = LS_PUSH(a, &g->blocks);
    b->kind = kind;
    b->level = level;
    b->key = copied(a, key);
    b->label = copied(a, label);
    return b;
}

static ls_doc_group *group_of(ls_document *d) {
    ls_doc_group *g = LS_NEW(d->arena, ls_doc_group, 1);
    g->document = d;
    return g;
}

static ls_doc_group *group_in(ls_doc_group *g, ls_doc_block_kind kind, ls_doc_level level, const char *key,
                              const char *label) {
    ls_doc_group *inner = group_of(g->document);
    inner->is_list = kind == LS_DOC_LIST;
    return add(g, kind, level, key, label)->group = inner;
}

ls_doc_group *ls_doc_object(ls_doc_group *g, ls_doc_level level, const char *key, const char *heading) {
    return group_in(g, LS_DOC_OBJECT, level, key, heading);
}

ls_doc_group *ls_doc_list(ls_doc_group *g, ls_doc_level level, const char *key, const char *heading) {
    return group_in(g, LS_DOC_LIST, level, key, heading);
}

void ls_doc_nest(ls_doc_group *g, const char *key, const ls_document *other) {
    add(g, LS_DOC_OBJECT, LS_DATA, key, NULL)->group = other->top;
}

ls_doc_group *ls_doc_loose_object(ls_doc_group *g) { return group_of(g->document); }

ls_doc_group *ls_doc_loose_list(ls_doc_group *g) {
    ls_doc_group *list = group_of(g->document);
    list->is_list = true;
    return list;
}

void ls_doc_fact(ls_doc_group *g, ls_doc_level level, const char *key, const char *label, ls_doc_cell cell) {
    add(g, LS_DOC_FACT, level, key, label)->cell = kept(g->document, cell, NULL);
}

void ls_doc_data(ls_doc_group *g, const char *key, ls_doc_cell cell) { ls_doc_fact(g, LS_DATA, key, NULL, cell); }

void ls_doc_facts_in(ls_doc_group *g, ls_doc_level level, const ls_doc_named *facts, size_t n) {
    for (size_t i = 0; i < n; i++) ls_doc_fact(g, level, facts[i].key, facts[i].label, facts[i].cell);
}

ls_doc_group *ls_doc_members_in(ls_doc_group *g, const ls_doc_member *members, size_t n) {
    for (size_t i = 0; i < n; i++) ls_doc_data(g, members[i].key, members[i].cell);
    return g;
}

void ls_doc_say(ls_doc_group *g, ls_doc_level level, ls_doc_cell words) {
    add(g, LS_DOC_SAY, level, NULL, NULL)->cell = kept(g->document, words, NULL);
}

void ls_doc_item(ls_doc_group *g, ls_doc_level level, ls_doc_cell words) {
    add(g, LS_DOC_ITEM, level, NULL, NULL)->cell = kept(g->document, words, NULL);
}

void ls_doc_texts(ls_doc_group *g, ls_doc_level level, const char *key, const char *heading, const char *const *texts,
                  size_t n) {
    add(g, LS_DOC_TEXTS, level, key, heading)->cell = kept(g->document, ls_doc_names(texts, n), NULL);
}

void ls_doc_picture(ls_doc_group *g, ls_doc_level level, const char *key, const char *caption, const char *svg,
                    const char *letters) {
    ls_doc_block *b = add(g, LS_DOC_PICTURE, level, key, caption);
    b->svg = copied(g->document->arena, svg);
    b->letters = copied(g->document->arena, letters);
}

ls_doc_table ls_doc_table_in(ls_doc_group *g, ls_doc_level level, const char *key, const char *caption,
                             const ls_doc_column *columns, size_t n) {
    ls_doc_block *b = add(g, LS_DOC_TABLE, level, key, caption);
    b->columns = columns;
    b->n = n;
    return (ls_doc_table){g, g->blocks.n - 1};
}

static ls_doc_block *block_of(ls_doc_table t) { return &t.group->blocks.at[t.index]; }

void ls_doc_by_column(ls_doc_table t) { block_of(t)->by_column = true; }

void ls_doc_as_items(ls_doc_table t) { block_of(t)->kind = LS_DOC_ITEMS; }

void ls_doc_row_in(ls_doc_table t, const ls_doc_column *columns, ls_doc_level level, const char *key,
                   const ls_doc_cell *cells) {
    ls_document *d = t.group->document;
    ls_doc_block *b = block_of(t);
    if (b->columns != columns) ls_fail("a row of another table than %s", b->key == NULL ? "this grid" : b->key);
    ls_doc_cell *row = LS_NEW(d->arena, ls_doc_cell, b->n);
    for (size_t i = 0; i < b->n; i++) row[i] = kept(d, cells[i], columns[i].bar ? "" : columns[i].unit);
    *LS_PUSH(d->arena, &b->rows) = (ls_doc_row){.key = copied(d->arena, key), .cells = row, .level = level};
}

void ls_doc_name_block(ls_doc_group *g, const char *id) {
    g->blocks.at[g->blocks.n - 1].id = copied(g->document->arena, id);
}

void ls_doc_name_row(ls_doc_table t, const char *id) {
    ls_doc_block *b = block_of(t);
    b->rows.at[b->rows.n - 1].id = copied(t.group->document->arena, id);
}

void ls_doc_words_in(ls_doc_table t, ls_doc_level level, ls_doc_cell words) {
    *LS_PUSH(t.group->document->arena, &block_of(t)->rows) =
        (ls_doc_row){.level = level, .words = kept(t.group->document, words, NULL)};
}

ls_doc_table ls_doc_sheet_in(ls_doc_group *g, ls_doc_level level, const char *key, const char *heading,
                             const ls_doc_column *columns, size_t n) {
    ls_doc_table t = ls_doc_table_in(g, level, key, heading, columns, n);
    block_of(t)->kind = LS_DOC_SHEET;
    return t;
}

void ls_doc_entry_in(ls_doc_table t, const ls_doc_column *columns, const ls_doc_cell *cells,
                     const ls_doc_entry *entry) {
    const ls_document *d = t.group->document;
    ls_doc_entry *own = LS_NEW(d->arena, ls_doc_entry, 1);
    *own = *entry;
    own->key = copied(d->arena, entry->key);
    own->label = copied(d->arena, entry->label);
    own->value = kept(d, entry->value, NULL);
    for (size_t i = 0; i < own->lines.n; i++) own->lines.at[i] = copied(d->arena, entry->lines.at[i]);
    ls_doc_row_in(t, columns, LS_FIRST, NULL, cells);
    ls_doc_block *b = block_of(t);
    b->rows.at[b->rows.n - 1].entry = own;
}

/* ---- what every document begins with ---- */

static void quarantine(ls_doc_group *top, const ls_view *v) {
    const ls_report_quarantine *q = ls_report_quarantine_of(v);
    if (q == NULL) {
        ls_doc_data(top, "quarantine", W(NULL));
        return;
    }
    ls_doc_group *g = ls_doc_object(top, LS_FIRST, "quarantine", q->heading);
    MEMBERS(g, {"heading", W(q->heading)}, {"caution", W(q->caution)}, {"source", W(q->who)}, {"order", W(q->order)});
    ITEM(g, LS_FIRST, ls_arena_printf(v->arena, "%s (%s)", q->caution, q->who));
    SAY(g, LS_FIRST, q->order);
}

ls_document *ls_document_new(const ls_view *v, const char *command, const char *about) {
    ls_document *d = LS_NEW(v->arena, ls_document, 1);
    *d =
        (ls_document){.view = v, .arena = v->arena, .command = command, .about = about, .links = ls_text_new(v->arena)};
    d->top = group_of(d);
    const ls_farm_facts *facts = v->farm == NULL ? NULL : v->farm->facts;
    MEMBERS(d->top, {"program", W("littershed")}, {"version", W(LITTERSHED_VERSION)});
    ls_doc_group *tables = ls_doc_object(d->top, LS_DATA, "tables", NULL);
    MEMBERS(tables, {"version", W(ls_reference_version(v->reference))}, {"date", W(ls_reference_date(v->reference))});
    MEMBERS(d->top, {"command", W(command)}, {"farm", W(facts == NULL ? NULL : facts->name.text)},
            {"place", W(facts == NULL ? NULL : facts->place.text)},
            {"prepared_by", W(facts == NULL ? NULL : facts->prepared_by.text)}, {"about", W(about)}, {"units", W("US")},
            {"seed", N(v->seed)}, {"draws", N(v->draws)});
    quarantine(d->top, v);
    const char *starter = ls_report_starter_words(v);
    if (starter != NULL) SAY(d->top, LS_FIRST, starter);
    return d;
}
