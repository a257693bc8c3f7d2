/* parts: what the page of a plan is put together from. Private to this room. */
#ifndef REPORT_PLAN_PARTS_H
#define REPORT_PLAN_PARTS_H

#include "littershed/books/plan.h"
#include "report/document/document.h"

/* why.c: whether all litter has a field, orders that fall short; what gets nothing; what would
 * help; all of it in words, with the notes of the plan. */
void ls_report_put_answer(ls_doc_group *top, const ls_plan_sums *s);
void ls_report_put_unused(ls_doc_group *g, const ls_plan *plan);
void ls_report_put_relief(ls_doc_group *top, const ls_plan *plan);
void ls_report_put_defaults(ls_doc_group *top, const ls_plan *plan);
void ls_report_put_plan_notes(ls_doc_group *top, const ls_plan_sums *s);

/* changes.c: against the plan without the newest loads of the haul log. */
void ls_report_put_changes(ls_doc_group *top, const ls_plan *plan);

/* days.c: when it begins and ends, and what is left before the next flock; other numbers of trucks;
 * the loader. */
void ls_report_put_days(ls_doc_group *top, const ls_plan *plan);
void ls_report_put_trucks(ls_doc_group *top, const ls_plan *plan);
void ls_report_put_loader(ls_doc_group *top, const ls_plan_sums *s);

/* loads.c: load by load, and those that go by way of the stack. */
void ls_report_put_loads(ls_doc_group *top, const ls_plan *plan);
void ls_report_put_stack(ls_doc_group *top, const ls_plan_sums *s);

/* chart.c: the loader and each truck hour by hour, or, of many days, the loader day by day. */
void ls_report_put_chart(ls_doc_group *top, const ls_plan *plan);

#endif
