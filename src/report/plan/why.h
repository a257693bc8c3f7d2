/* plan_why: why a plan is as it is: what gets nothing, what is full or short, what would help.
 * Private to this room. */
#ifndef REPORT_PLAN_WHY_H
#define REPORT_PLAN_WHY_H

#include "report/page.h"

typedef LS_LIST(const char *) ls_report_words;

/* Why the field gets nothing; NULL if it gets something. */
const char *ls_report_why_unused(const ls_plan *plan, const ls_field *f);

/* A sentence each, in the units of the page: orders short of their least; a full stack; limits
 * that, lifted one at a time, would help most. */
ls_report_words ls_report_shortages(const ls_report_page *p, const ls_plan *plan);
ls_report_words ls_report_relief(const ls_report_page *p, const ls_plan *plan);

/* Litter of the middle case without a home, in one line: tons, loads, what would help most; NULL:
 * all has a home. */
const char *ls_report_no_home(const ls_report_page *p, const ls_plan *plan);
/* All of it for a document, in US units: fields that get nothing, shortages, relief. */
ls_report_words ls_report_why(const ls_view *v, const ls_plan *plan);

#endif
