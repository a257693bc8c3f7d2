/* paper: what is printed, carried along and filled in by hand, ticket or slip: its lines are put in
 * once, each with a rank, and written as text or as a document to be printed. Private to this room.
 */
#pragma once

#include "report/page.h"

/* Label and words, as far as a rank has them. */
typedef enum {
    LS_PAPER_LEAD, /* read first, in the largest letters */
    LS_PAPER_NAME, /* what paper it is, one on each; words stand at the right */
    LS_PAPER_BOX,  /* words that must not be missed */
    LS_PAPER_FACT,
    LS_PAPER_HEAD, /* heads what follows */
    LS_PAPER_ITEM,
    LS_PAPER_WORDS,
    LS_PAPER_BLANKS, /* to fill in */
    LS_PAPER_END,    /* small words at the foot */
    LS_PAPER_RANKS
} ls_paper_rank;

typedef struct {
    ls_paper_rank rank;
    const char *label, *words; /* not yet made safe */
    const char *const *blanks; /* what stands before each blank; NULL at the end */
} ls_paper_line;

typedef struct {
    ls_report_page *page; /* whose figures it shows */
    LS_LIST(ls_paper_line) lines;
} ls_paper;

typedef LS_LIST(ls_paper) ls_papers;

void ls_paper_add(ls_paper *paper, ls_paper_rank rank, const char *label, const char *format, ...)
    __attribute__((format(printf, 4, 5)));
#define PUT(paper, rank, ...) ls_paper_add((paper), LS_PAPER_##rank, __VA_ARGS__)
void ls_paper_blanks(ls_paper *paper, const char *label, const char *const *blanks);

/* That figures are still the starter's, if they are: what each paper begins with. */
void ls_paper_starter(ls_paper *paper);

/* What is to be known of the haul log, before the papers and for the farm alone; none if there is nothing. */
void ls_paper_log(ls_report_page *p, ls_papers *all);

/* "Mon, Feb 16", "Feb 18-19", "Feb 16 - Apr 15". */
const char *ls_paper_days(const ls_report_page *p, ls_date from, ls_date to);

/* Each on a page of its own, or several; a form feed between pages, none at the end. */
const char *ls_papers_text(const ls_view *v, const ls_papers *all);

/* A whole document: no scripts, no links, no network. kind: the class of each paper, with a style
 * of its own: "ticket" or "slip". */
const char *ls_papers_html(const ls_view *v, const ls_papers *all, const char *title, const char *kind);

/* The farm's name, place and permit, as far as they are given. */
const char *ls_paper_farm(const ls_report_page *p);
