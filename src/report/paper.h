/* paper: a document in blocks, told alike as text and as HTML. Private to this room. */
#ifndef REPORT_PAPER_H
#define REPORT_PAPER_H

#include "figure.h"

/* Words, or (words NULL) a line shown in unit; both missing: empty. Texts are not yet made safe. */
typedef struct {
    const char *words;
    ls_line line;
    const char *unit;
} ls_paper_cell;

typedef struct {
    const char *head;
    bool words; /* stands at the left and wraps; else a number at the right */
} ls_paper_column;

typedef enum {
    LS_PAPER_HEADING, /* level 2 or 3; id names it in HTML */
    LS_PAPER_SAY,
    LS_PAPER_ITEM,
    LS_PAPER_TABLE, /* the first cell of a row is its head */
    LS_PAPER_CHART  /* HTML only: markup of the program's own, words its caption */
} ls_paper_kind;

typedef struct {
    ls_paper_kind kind;
    int level;
    const char *id, *words;
    size_t n; /* columns */
    const ls_paper_column *columns;
    LS_LIST(const ls_paper_cell *) rows;
} ls_paper_block;

typedef struct {
    const ls_view *view;
    ls_arena *arena;
    LS_LIST(ls_paper_block) blocks;
} ls_paper;

ls_paper *ls_paper_new(const ls_view *v);
void ls_paper_heading(ls_paper *p, int level, const char *id, const char *format, ...)
    __attribute__((format(printf, 4, 5)));
void ls_paper_say(ls_paper *p, const char *format, ...) __attribute__((format(printf, 2, 3)));
void ls_paper_item(ls_paper *p, const char *format, ...) __attribute__((format(printf, 2, 3)));
/* A table of n columns, which must live as long as the paper; its rows follow. */
void ls_paper_table(ls_paper *p, const char *caption, const ls_paper_column *columns, size_t n);
void ls_paper_row(ls_paper *p, const ls_paper_cell *cells);
void ls_paper_chart(ls_paper *p, const char *caption, const char *svg);

#define LS_PAPER_WORDS(s) ((ls_paper_cell){(s), LS_NO_LINE, NULL})
#define LS_PAPER_LINE(line, unit) ((ls_paper_cell){NULL, (line), (unit)})

/* What a cell shows, not yet made safe. */
const char *ls_paper_shown(const ls_report_page *p, const ls_paper_cell *cell);

/* used[line]: a cell shows it, or a line that is made of it. In the arena. */
bool *ls_paper_used(const ls_paper *p);

/* The blocks on a page of text, at most 80 columns. */
void ls_paper_text(const ls_paper *p, ls_report_page *page);
/* The blocks as HTML. number[line]: of the worksheet's entry that a figure links to; 0: none. */
void ls_paper_html(const ls_paper *p, ls_text *t, const size_t *number);

#endif
