/* sheet: forms of text that are printed page by page, a form feed between pages. Private to this
 * room. */
#ifndef REPORT_SHEET_H
#define REPORT_SHEET_H

#include "report/ticket/ticket.h"

/* A letter page has 66 lines of six to the inch; printing systems keep half an inch free above and
 * below. */
enum { LS_SHEET_LINES = 60, LS_SHEET_LABEL = 14 };

void ls_report_rule(ls_report_page *p);

/* One fact: its label, and its words wrapped beside it; one without a label as an item. */
void ls_report_fact_text(ls_report_page *p, const ls_report_fact *fact);
void ls_report_facts_text(ls_report_page *p, const ls_report_facts *facts);

/* left at the left, right at the right end of one line, or each on its own where that is too
 * narrow. */
void ls_report_ends(ls_report_page *p, const char *left, const char *right);

/* Add head and body (whole lines) to the text as pages of at most LS_SHEET_LINES; the head stands
 * on each, with the number of the page if there is more than one. A form feed leads every page but
 * the first of the text. */
void ls_report_sheet(ls_arena *a, ls_text *t, const char *head, const char *body);

/* Do head and body fit on one page? */
bool ls_report_fits_sheet(const char *head, const char *body);

/* A page of the same run to write a head or a body on, its text still empty. */
ls_report_page ls_report_scrap(const ls_view *v);

#endif
