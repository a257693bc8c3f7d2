#include "paper.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

ls_paper *ls_paper_new(const ls_view *v) {
    ls_paper *p = LS_NEW(v->arena, ls_paper, 1);
    p->view = v;
    p->arena = v->arena;
    return p;
}

static ls_paper_block *add(ls_paper *p, ls_paper_kind kind, const char *format, va_list arguments) {
    va_list again;
    va_copy(again, arguments);
    int n = vsnprintf(NULL, 0, format, again);
    va_end(again);
    if (n < 0)
        ls_fail("a line of a page could not be put together");
    char *s = LS_NEW(p->arena, char, (size_t)n + 1);
    vsnprintf(s, (size_t)n + 1, format, arguments);
    ls_paper_block *b = LS_PUSH(p->arena, &p->blocks);
    b->kind = kind;
    b->words = s;
    return b;
}

void ls_paper_heading(ls_paper *p, int level, const char *id, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    ls_paper_block *b = add(p, LS_PAPER_HEADING, format, arguments);
    va_end(arguments);
    b->level = level;
    b->id = id;
}

void ls_paper_say(ls_paper *p, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    add(p, LS_PAPER_SAY, format, arguments);
    va_end(arguments);
}

void ls_paper_item(ls_paper *p, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    add(p, LS_PAPER_ITEM, format, arguments);
    va_end(arguments);
}

void ls_paper_table(ls_paper *p, const char *caption, const ls_paper_column *columns, size_t n) {
    *LS_PUSH(p->arena, &p->blocks) =
        (ls_paper_block){.kind = LS_PAPER_TABLE, .words = caption, .n = n, .columns = columns};
}

void ls_paper_row(ls_paper *p, const ls_paper_cell *cells) {
    ls_paper_block *b = &p->blocks.at[p->blocks.n - 1];
    ls_paper_cell *row = LS_NEW(p->arena, ls_paper_cell, b->n);
    for (size_t i = 0; i < b->n; i++)
        row[i] = cells[i];
    *LS_PUSH(p->arena, &b->rows) = row;
}

void ls_paper_chart(ls_paper *p, const char *caption, const char *svg) {
    *LS_PUSH(p->arena, &p->blocks) =
        (ls_paper_block){.kind = LS_PAPER_CHART, .words = caption, .id = svg};
}

const char *ls_paper_shown(const ls_report_page *p, const ls_paper_cell *cell) {
    if (cell->words != NULL)
        return cell->words;
    if (cell->line == LS_NO_LINE)
        return "-";
    if (strcmp(cell->unit, "ton") != 0)
        return ls_report_line(p, cell->line, cell->unit);
    /* tons to 0.01, so that the books can be added up on the page */
    ls_unit unit = ls_unit_of("ton");
    if (p->view->metric)
        unit = ls_unit_metric(unit);
    double tons = ls_line_value(p->view->sheet, cell->line) / unit.factor;
    return ls_arena_printf(p->arena, "%s %s",
                           ls_number_fixed(p->arena, fabs(tons) < 0.005 ? 0 : tons, 2), unit.text);
}

bool *ls_paper_used(const ls_paper *p) {
    const ls_worksheet *w = p->view->sheet;
    size_t n = ls_worksheet_lines(w);
    bool *used = LS_NEW(p->arena, bool, n);
    for (size_t i = 0; i < p->blocks.n; i++)
        for (size_t r = 0; r < p->blocks.at[i].rows.n; r++)
            for (size_t k = 0; k < p->blocks.at[i].n; k++) {
                const ls_paper_cell *cell = &p->blocks.at[i].rows.at[r][k];
                if (cell->words == NULL && cell->line != LS_NO_LINE)
                    used[cell->line] = true;
            }
    for (size_t i = n; i-- > 0;) { /* inputs stand before what is made of them */
        const ls_entry *entry = ls_line_at(w, (ls_line)i);
        for (size_t k = 0; used[i] && k < entry->n; k++)
            used[entry->in[k]] = true;
    }
    return used;
}
