/* plan_days: the days of a plan on its page. Private to this room. */
#ifndef REPORT_PLAN_DAYS_H
#define REPORT_PLAN_DAYS_H

#include "report/page.h"

/* Start, finish, the hours of each day, what is left before the next flock, and the chart. */
void ls_report_calendar(ls_report_page *p, const ls_estimate *e, const ls_plan *plan);
/* When each load is loaded, leaves, and is back. */
void ls_report_load_times(ls_report_page *p, const ls_plan *plan);
/* What the loader does, house by house. */
void ls_report_loader(ls_report_page *p, const ls_estimate *e, const ls_plan *plan);
/* The same loads with other numbers of trucks. */
void ls_report_fleets(ls_report_page *p, const ls_estimate *e, const ls_plan *plan);

/* plan_chart.c: the loader and each truck hour by hour, or, of many days, the loader day by day. */
void ls_report_chart(ls_report_page *p, const ls_plan *plan);

/* "07:40", to the nearest minute. */
const char *ls_report_clock(const ls_report_page *p, long second);

/* "Mon 16 Feb 2026 07:40" */
const char *ls_report_moment(const ls_report_page *p, ls_moment m);

#endif
