/* A paper as text. */
#include "paper.h"

#include <string.h>

enum { MOST_COLUMNS = 10, GAP = 2, LEAST_WORDS = 10 };

typedef struct {
    size_t width[MOST_COLUMNS];
} widths;

static size_t larger(size_t a, size_t b) {
    return a > b ? a : b;
}

/* The widest word of s, in columns. */
static size_t widest_word(ls_arena *a, const char *s) {
    size_t most = 0;
    for (; *s != '\0'; s += strcspn(s, " ")) {
        s += strspn(s, " ");
        most = larger(most, ls_text_columns(ls_arena_copy_n(a, s, strcspn(s, " "))));
    }
    return most;
}

static const char *safe(const ls_report_page *page, const ls_paper_cell *cell) {
    return ls_text_plain(page->arena, ls_paper_shown(page, cell));
}

/* How narrow a column may become: words wrap and break, a figure may only leave its unit below it.
 */
static size_t least_of(const ls_report_page *page, const ls_paper_block *b, size_t column) {
    size_t least = widest_word(page->arena, b->columns[column].head);
    if (b->columns[column].words)
        return LEAST_WORDS;
    for (size_t r = 0; r < b->rows.n; r++)
        least = larger(least, widest_word(page->arena, safe(page, &b->rows.at[r][column])));
    return least;
}

/* The widest column of words, or of figures, that can give way; n: none. */
static size_t widest_of(const ls_paper_block *b, const widths *w, const size_t *least, bool words) {
    size_t widest = b->n;
    for (size_t k = 0; k < b->n; k++)
        if (b->columns[k].words == words && w->width[k] > least[k] &&
            (widest == b->n || w->width[k] > w->width[widest]))
            widest = k;
    return widest;
}

/* Columns as wide as they need; where that is too wide, the widest columns of words give way, then
 * those of figures. */
static widths fit(const ls_report_page *page, const ls_paper_block *b) {
    widths w = {{0}};
    size_t total = GAP * b->n, least[MOST_COLUMNS];
    for (size_t k = 0; k < b->n; k++) {
        w.width[k] = b->columns[k].words ? ls_text_columns(b->columns[k].head)
                                         : widest_word(page->arena, b->columns[k].head);
        for (size_t r = 0; r < b->rows.n; r++)
            w.width[k] = larger(w.width[k], ls_text_columns(safe(page, &b->rows.at[r][k])));
        total += w.width[k];
        least[k] = least_of(page, b, k);
    }
    for (; total > LS_REPORT_WIDTH; total--) {
        size_t widest = widest_of(b, &w, least, true);
        if (widest == b->n)
            widest = widest_of(b, &w, least, false);
        if (widest == b->n)
            break;
        w.width[widest]--;
    }
    return w;
}

/* Cells beside each other, each wrapped in its column. */
static void row(ls_report_page *page, const ls_paper_block *b, const widths *w,
                const char *const *cells) {
    const char *rest[MOST_COLUMNS];
    bool more = true;
    for (size_t k = 0; k < b->n; k++) {
        ls_report_page part = {page->view, page->arena, ls_text_new(page->arena)};
        size_t lead = w->width[k] < LS_REPORT_WIDTH ? LS_REPORT_WIDTH - w->width[k] : 0;
        const char *blank = ls_arena_printf(page->arena, "%*s", (int)lead, "");
        ls_report_wrap(&part, blank, blank, cells[k]);
        rest[k] = part.text->s;
    }
    while (more) {
        ls_text *line = ls_text_new(page->arena);
        more = false;
        for (size_t k = 0; k < b->n; k++) {
            size_t n = strcspn(rest[k], "\n"), lead = LS_REPORT_WIDTH - w->width[k];
            const char *piece =
                n > lead ? ls_arena_copy_n(page->arena, rest[k] + lead, n - lead) : "";
            ls_text_add(line, "  ");
            if (b->columns[k].words)
                ls_text_left(line, piece, w->width[k]);
            else
                ls_text_right(line, piece, w->width[k]);
            rest[k] += n + (rest[k][n] == '\n');
            more = more || *rest[k] != '\0';
        }
        while (line->n > 0 && line->s[line->n - 1] == ' ')
            line->n--;
        ls_text_add_n(page->text, line->s, line->n);
        ls_text_add(page->text, "\n");
    }
}

static void table(ls_report_page *page, const ls_paper_block *b) {
    if (b->rows.n == 0)
        return;
    widths w = fit(page, b);
    const char *cells[MOST_COLUMNS];
    ls_report_blank(page);
    ls_report_say(page, 0, "%s", b->words);
    for (size_t k = 0; k < b->n; k++)
        cells[k] = b->columns[k].head;
    row(page, b, &w, cells);
    for (size_t r = 0; r < b->rows.n; r++) {
        for (size_t k = 0; k < b->n; k++)
            cells[k] = ls_paper_shown(page, &b->rows.at[r][k]);
        row(page, b, &w, cells);
    }
}

void ls_paper_text(const ls_paper *p, ls_report_page *page) {
    for (size_t i = 0; i < p->blocks.n; i++) {
        const ls_paper_block *b = &p->blocks.at[i];
        if (b->kind == LS_PAPER_HEADING && b->level == 2)
            ls_report_heading(page, "%s", b->words);
        else if (b->kind == LS_PAPER_HEADING) {
            ls_report_blank(page);
            ls_report_say(page, 0, "%s", b->words);
        } else if (b->kind == LS_PAPER_SAY) {
            if (i > 0 && p->blocks.at[i - 1].kind == LS_PAPER_TABLE)
                ls_report_blank(page);
            ls_report_say(page, 0, "%s", b->words);
        } else if (b->kind == LS_PAPER_ITEM)
            ls_report_item(page, 0, "%s", b->words);
        else if (b->kind == LS_PAPER_TABLE)
            table(page, b);
    }
}
