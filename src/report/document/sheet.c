/* The worksheet at the end of a document. */
#include "writers.h"

LS_DOC_COLUMNS(columns, WORDS("key", NULL), WORDS("label", NULL), WORDS("value", NULL), WORDS("unit", NULL),
               WORDS("formula", NULL), WORDS("numbers", NULL), WORDS("made_of", NULL), WORDS("from", NULL),
               WORDS("number", NULL));

/* ---- which lines ---- */

/* What is done to each cell of a document. */
typedef void each_cell(ls_doc_cell *cell, void *context);

static void walk(ls_doc_group *g, each_cell *each, void *context) {
    LS_EACH (ls_doc_block, b, g->blocks) {
        each(&b->cell, context);
        for (size_t r = 0; r < b->rows.n; r++)
            for (size_t k = 0; k < b->n && b->rows.at[r].cells != NULL; k++) each(&b->rows.at[r].cells[k], context);
        if (b->group != NULL) walk(b->group, each, context);
    }
}

static void mark(ls_doc_cell *cell, void *context) {
    bool *used = context;
    bool line = cell->kind == LS_DOC_FIGURE || cell->kind == LS_DOC_BOOKED || cell->kind == LS_DOC_COUNT ||
                cell->kind == LS_DOC_POINTS;
    if (line && cell->line != LS_NO_LINE) used[cell->line] = true;
    for (size_t i = 0; cell->parts != NULL && i < cell->n; i++) mark(&cell->parts[i], context);
}

static void give_number(ls_doc_cell *cell, void *context) {
    const size_t *number = context;
    if (cell->line != LS_NO_LINE && cell->kind != LS_DOC_EMPTY) cell->number = number[cell->line];
    for (size_t i = 0; cell->parts != NULL && i < cell->n; i++) give_number(&cell->parts[i], context);
}

/* Number by line, 0 of those that are not used; inputs stand before what is made of them. */
static size_t *numbered(const ls_worksheet *w, ls_arena *a, bool *used) {
    size_t lines = ls_worksheet_lines(w), *number = LS_NEW(a, size_t, lines), n = 0;
    for (size_t i = lines; i-- > 0;) {
        const ls_entry *e = ls_line_at(w, (ls_line)i);
        for (size_t k = 0; used[i] && k < e->n; k++) used[e->in[k]] = true;
    }
    for (size_t i = 0; i < lines; i++) number[i] = used[i] ? ++n : 0;
    return number;
}

/* ---- their entries ---- */

ls_doc_cell ls_doc_made_of(const ls_view *v, const ls_entry *e) {
    const char **keys = LS_NEW(v->arena, const char *, e->n);
    for (size_t k = 0; k < e->n; k++) keys[k] = ls_line_at(v->sheet, e->in[k])->key;
    return ls_doc_names(keys, e->n);
}

ls_doc_entry ls_doc_entry_of(const ls_view *v, ls_line line) {
    const ls_entry *e = ls_line_at(v->sheet, line);
    ls_arena *a = v->arena;
    ls_doc_entry entry = {.key = e->key, .label = e->label, .value = FINE(V(e->value, e->unit.text))};
    if (e->op == LS_OP_LEAF)
        *LS_PUSH(a, &entry.lines) = ls_arena_printf(a, "from: %s", ls_line_origin(a, v->sheet, line, v->farm->diag));
    else {
        *LS_PUSH(a, &entry.lines) = ls_arena_printf(a, "= %s", ls_line_formula(a, v->sheet, line));
        *LS_PUSH(a, &entry.lines) = ls_arena_printf(a, "= %s", ls_line_numbers(a, v->sheet, line));
    }
    return entry;
}

static void put_entry(ls_doc_table t, const ls_view *v, ls_line line, const size_t *number) {
    const ls_entry *e = ls_line_at(v->sheet, line);
    ls_arena *a = v->arena;
    ls_doc_entry entry = ls_doc_entry_of(v, line);
    entry.number = number[line];
    for (size_t k = 0; k < e->n; k++) *LS_PUSH(a, &entry.of) = number[e->in[k]];
    const ls_doc_cell cells[] = {W(e->key),
                                 W(e->label),
                                 V(e->value, e->unit.text),
                                 W(e->unit.text),
                                 W(ls_line_formula(a, v->sheet, line)),
                                 W(ls_line_numbers(a, v->sheet, line)),
                                 ls_doc_made_of(v, e),
                                 W(ls_line_origin(a, v->sheet, line, v->farm->diag)),
                                 N(number[line])};
    ls_doc_entry_in(t, columns, cells, &entry);
}

void ls_doc_worksheet(ls_document *d, bool without) {
    const ls_view *v = d->view;
    bool *used = LS_NEW(d->arena, bool, ls_worksheet_lines(v->sheet));
    walk(d->top, mark, used);
    size_t *number = numbered(v->sheet, d->arena, used);
    walk(d->top, give_number, number);
    d->sheet_apart = without;
    if (without) return;
    ls_doc_table t =
        ls_doc_sheet_in(d->top, LS_FULL, "worksheet", "Worksheet", columns, sizeof columns / sizeof *columns);
    for (size_t i = 0; i < ls_worksheet_lines(v->sheet); i++)
        if (number[i] > 0) put_entry(t, v, (ls_line)i, number);
}
