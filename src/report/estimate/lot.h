/* estimate_lot: one lot on the page of the estimate. Private to this room. */
#ifndef REPORT_ESTIMATE_LOT_H
#define REPORT_ESTIMATE_LOT_H

#include "report/page.h"

/* The lot number at of the estimate: tons, moisture, what is in it, and how the tons are known. */
void ls_report_estimate_lot(ls_report_page *p, const ls_estimate *e, size_t at);

/* Is one of the lot's published methods named so? */
bool ls_report_uses_method(const ls_lot *lot, const char *name);

/* Heads and a row of a table of low, middle and high. */
void ls_report_points_heads(ls_report_page *p, const char *head);
void ls_report_points_row(ls_report_page *p, const char *label, ls_q q, const char *unit);

/* What became of the nutrients of a house whose own feed or analysis is known; else nothing. */
void ls_report_estimate_account(ls_report_page *p, const ls_account *a);
/* Of what the birds excreted, what the litter holds. */
void ls_report_estimate_found(ls_report_page *p, const ls_account *a);
/* What should be queried, under a heading of its own, if anything. */
void ls_report_estimate_cautions(ls_report_page *p, const ls_estimate *e);

#endif
