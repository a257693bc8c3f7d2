/* The worksheet at the end of a document. */
#include "writers.h"

#include "report/figure.h"

static const ls_doc_column columns[] = {{.key = "key"},     {.key = "label"},   {.key = "value"},
                                        {.key = "unit"},    {.key = "formula"}, {.key = "numbers"},
                                        {.key = "made_of"}, {.key = "from"},    {.key = NULL}};
enum { KEY, LABEL, VALUE, UNIT, FORMULA, NUMBERS, MADE_OF, FROM, OF };

/* ---- which lines ---- */

/* What is done to each cell of a document. */
typedef void each_cell(ls_doc_cell *cell, void *context);

static void walk(ls_doc_group *g, each_cell *each, void *context) {
    for (size_t i = 0; i < g->blocks.n; i++) {
        ls_doc_block *b = &g->blocks.at[i];
        each(&b->cell, context);
        for (size_t r = 0; r < b->rows.n; r++)
            for (size_t k = 0; k < b->n && b->rows.at[r].cells != NULL; k++)
                each(&b->rows.at[r].cells[k], context);
        if (b->group != NULL)
            walk(b->group, each, context);
    }
}

static void mark(ls_doc_cell *cell, void *context) {
    bool *used = context;
    bool line = cell->kind == LS_DOC_FIGURE || cell->kind == LS_DOC_BOOKED ||
                cell->kind == LS_DOC_COUNT || cell->kind == LS_DOC_POINTS;
    if (line && cell->line != LS_NO_LINE)
        used[cell->line] = true;
    for (size_t i = 0; cell->parts != NULL && i < cell->n; i++)
        mark(&cell->parts[i], context);
}

static void give_number(ls_doc_cell *cell, void *context) {
    const size_t *number = context;
    if (cell->line != LS_NO_LINE && cell->kind != LS_DOC_EMPTY)
        cell->number = number[cell->line];
}

/* Number by line, 0 of those that are not used; inputs stand before what is made of them. */
static size_t *numbered(const ls_worksheet *w, ls_arena *a, bool *used) {
    size_t lines = ls_worksheet_lines(w), *number = LS_NEW(a, size_t, lines), n = 0;
    for (size_t i = lines; i-- > 0;) {
        const ls_entry *e = ls_line_at(w, (ls_line)i);
        for (size_t k = 0; used[i] && k < e->n; k++)
            used[e->in[k]] = true;
    }
    for (size_t i = 0; i < lines; i++)
        number[i] = used[i] ? ++n : 0;
    return number;
}

/* ---- their entries ---- */

static const char *const *keys_of(const ls_view *v, const ls_entry *e) {
    const char **keys = LS_NEW(v->arena, const char *, e->n);
    for (size_t k = 0; k < e->n; k++)
        keys[k] = ls_line_at(v->sheet, e->in[k])->key;
    return keys;
}

static const char *numbers_of(const ls_view *v, const ls_entry *e, const size_t *number) {
    ls_text *t = ls_text_new(v->arena);
    for (size_t k = 0; k < e->n; k++)
        ls_text_addf(t, "%s%zu", k > 0 ? " " : "", number[e->in[k]]);
    return t->s;
}

static void entry(ls_doc_table t, const ls_view *v, ls_line line, const size_t *number) {
    const ls_entry *e = ls_line_at(v->sheet, line);
    ls_arena *a = v->arena;
    LS_DOC_ROW(t, columns, W(e->key), W(e->label), V(e->value, e->unit.text), W(e->unit.text),
               W(ls_line_formula(a, v->sheet, line)), W(ls_line_numbers(a, v->sheet, line)),
               ls_doc_names(keys_of(v, e), e->n),
               W(ls_line_origin(a, v->sheet, line, v->farm->diag)), W(numbers_of(v, e, number)));
}

void ls_doc_worksheet(ls_document *d) {
    const ls_view *v = d->view;
    bool *used = LS_NEW(d->arena, bool, ls_worksheet_lines(v->sheet));
    walk(d->top, mark, used);
    size_t *number = numbered(v->sheet, d->arena, used);
    walk(d->top, give_number, number);
    ls_doc_table t = LS_DOC_TABLE_IN(d->top, LS_FULL, "worksheet", "Worksheet", columns);
    d->top->blocks.at[t.index].kind = LS_DOC_SHEET;
    for (size_t i = 0; i < ls_worksheet_lines(v->sheet); i++)
        if (number[i] > 0)
            entry(t, v, (ls_line)i, number);
}

/* ---- told ---- */

ls_doc_sheet_entry ls_doc_sheet_entry_of(const ls_document *d, const ls_doc_row *row) {
    const ls_doc_cell *c = row->cells;
    const ls_report_page page = {d->view, d->arena, NULL};
    bool leaf = c[MADE_OF].n == 0;
    return (ls_doc_sheet_entry){
        .key = c[KEY].words,
        .label = c[LABEL].words,
        .value = ls_report_whole(&page, c[VALUE].value, ls_unit_of(c[VALUE].unit)),
        .formula = leaf ? NULL : c[FORMULA].words,
        .numbers = leaf ? NULL : c[NUMBERS].words,
        .from = leaf ? c[FROM].words : NULL,
        .of = c[OF].words};
}
