/* A paper as HTML. */
#include "paper.h"

#include <string.h>

static void linked(const ls_paper *p, ls_text *t, const ls_paper_cell *cell, const size_t *number) {
    ls_report_page page = {p->view, p->arena, t};
    const char *shown = ls_text_html(p->arena, ls_paper_shown(&page, cell));
    if (cell->words == NULL && cell->line != LS_NO_LINE && number[cell->line] > 0)
        ls_text_addf(t, "<a href=\"#w%zu\" data-line=\"%zu\">%s</a>", number[cell->line],
                     number[cell->line], shown);
    else
        ls_text_add(t, shown);
}

static bool is_date(const ls_paper_cell *cell) {
    ls_date day;
    return cell->words != NULL && ls_date_parse(cell->words, strlen(cell->words), &day);
}

static void row(const ls_paper *p, ls_text *t, const ls_paper_block *b, const ls_paper_cell *cells,
                const size_t *number) {
    ls_text_add(t, "<tr>");
    for (size_t k = 0; k < b->n; k++) {
        const char *head = ls_text_html(p->arena, b->columns[k].head);
        const char *class = !b->columns[k].words ? " class=\"n\""
                            : is_date(&cells[k]) ? " class=\"d\""
                                                 : "";
        if (k == 0)
            ls_text_add(t, "<th scope=\"row\">");
        else
            ls_text_addf(t, "<td%s data-head=\"%s\">", class, head);
        linked(p, t, &cells[k], number);
        ls_text_add(t, k == 0 ? "</th>" : "</td>");
    }
    ls_text_add(t, "</tr>\n");
}

static void table(const ls_paper *p, ls_text *t, const ls_paper_block *b, const size_t *number) {
    enum { FEW_ROWS = 10 };
    ls_text_addf(t, "<table class=\"%s%s\">\n<caption>%s</caption>\n<thead><tr>",
                 b->n > 2 ? "wide" : "two", b->rows.n <= FEW_ROWS ? " short" : "",
                 ls_text_html(p->arena, b->words));
    for (size_t k = 0; k < b->n; k++) {
        const char *head = b->columns[k].head;
        ls_text_addf(t, "<th scope=\"col\"%s>%s</th>", b->columns[k].words ? "" : " class=\"n\"",
                     head[0] == '\0' ? (k == 0 ? "about" : "told") : ls_text_html(p->arena, head));
    }
    ls_text_add(t, "</tr></thead>\n<tbody>\n");
    for (size_t r = 0; r < b->rows.n; r++)
        row(p, t, b, b->rows.at[r], number);
    ls_text_add(t, "</tbody>\n</table>\n");
}

static void block(const ls_paper *p, ls_text *t, const ls_paper_block *b, const size_t *number) {
    switch (b->kind) {
    case LS_PAPER_HEADING:
        ls_text_addf(t, "<h%d id=\"%s\">%s</h%d>\n", b->level, b->id,
                     ls_text_html(p->arena, b->words), b->level);
        break;
    case LS_PAPER_SAY:
        ls_text_addf(t, "<p>%s</p>\n", ls_text_html(p->arena, b->words));
        break;
    case LS_PAPER_ITEM:
        ls_text_addf(t, "<li>%s</li>\n", ls_text_html(p->arena, b->words));
        break;
    case LS_PAPER_TABLE:
        table(p, t, b, number);
        break;
    case LS_PAPER_CHART:
        ls_text_addf(t, "<figure>\n%s<figcaption>%s</figcaption>\n</figure>\n", b->id,
                     ls_text_html(p->arena, b->words));
        break;
    }
}

void ls_paper_html(const ls_paper *p, ls_text *t, const size_t *number) {
    bool list = false;
    for (size_t i = 0; i < p->blocks.n; i++) {
        const ls_paper_block *b = &p->blocks.at[i];
        bool item = b->kind == LS_PAPER_ITEM;
        if (item != list)
            ls_text_add(t, item ? "<ul>\n" : "</ul>\n");
        list = item;
        if (b->kind == LS_PAPER_TABLE && b->rows.n == 0)
            continue;
        block(p, t, b, number);
    }
    if (list)
        ls_text_add(t, "</ul>\n");
}
