/* parts: what the page of a plan is put together from. Private to this room. */
#pragma once

#include "littershed/books/plan.h"
#include "report/document/document.h"

/* first.c: what answers first; then what the days come to; at the end how sure it is and where the rest stands. */
void ls_report_put_answer(ls_doc_group *top, const ls_plan_sums *s);
void ls_report_put_in_short(ls_doc_group *top, const ls_plan_sums *s);
void ls_report_put_more(ls_doc_group *top, const ls_plan_sums *s);
/* Has litter of the middle case no field: at least what a truck would take? */
bool ls_report_lacks_fields(const ls_plan *plan);
bool ls_report_has_costs(const ls_plan *plan);  /* does the file give any? */
bool ls_report_next_flock(const ls_plan *plan); /* is its day given? */

/* do_now.c */
void ls_report_put_do_now(ls_doc_group *top, const ls_plan_sums *s);

/* why.c: what would help, in words; what the stages come to, and what was assumed. */
ls_doc_cell ls_report_relief(const ls_document *d, const ls_relief *r);
const char *ls_report_relief_kind(const ls_relief *r);
void ls_report_put_why(ls_doc_group *top, const ls_plan_sums *s);

/* handed_out.c: what became of tickets and slips that were handed out; in a line or two of g. */
void ls_report_put_handed_out(ls_doc_group *top, const ls_plan_sums *s);
void ls_report_put_kept(ls_doc_group *g, const ls_plan_sums *s);

/* days.c: day by day; other numbers of trucks; the loader. */
void ls_report_put_days(ls_doc_group *top, const ls_plan *plan);
void ls_report_put_rules(ls_doc_group *top, const ls_plan *plan);
void ls_report_put_trucks(ls_doc_group *top, const ls_plan *plan);
void ls_report_put_loader(ls_doc_group *top, const ls_plan_sums *s);

/* loads.c: load by load, and those that go by way of the stack. */
void ls_report_put_loads(ls_doc_group *top, const ls_plan *plan);
void ls_report_put_stack(ls_doc_group *top, const ls_plan_sums *s);

/* chart.c: the loader and each truck hour by hour, or, of many days, the loader day by day; for the
 * first screen of HTML the loader of the days told there. */
void ls_report_put_chart(ls_doc_group *top, const ls_plan *plan);
void ls_report_put_calendar(ls_doc_group *top, const ls_plan *plan);

/* pictures.c: fields by distance, money, the stack day by day. */
void ls_report_put_fields_picture(ls_doc_group *top, const ls_plan_sums *s);
void ls_report_put_money_picture(ls_doc_group *top, const ls_plan *plan);
void ls_report_put_stack_picture(ls_doc_group *top, const ls_plan_sums *s);

/* A fleet in short: how many trucks, or how it differs. */
ls_doc_cell ls_report_fleet(const ls_fleet *fleet);
