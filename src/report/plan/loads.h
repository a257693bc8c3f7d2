/* plan_loads: the loads of a plan on its page. Private to this room. */
#ifndef REPORT_PLAN_LOADS_H
#define REPORT_PLAN_LOADS_H

#include "report/page.h"

/* Who can be promised how many loads; the loads day by day; the stack: what goes in and what comes
 * out. */
void ls_report_promises(ls_report_page *p, const ls_plan_sums *s);
void ls_report_days(ls_report_page *p, const ls_plan *plan);
void ls_report_stack(ls_report_page *p, const ls_plan_sums *s);

/* What the newest loads of the haul log changed, and whom to call; nothing where none are gone. */
void ls_report_what_changed(ls_report_page *p, const ls_plan *plan);

/* What goes on each field, and the rates to set the spreader to. */
void ls_report_fields(ls_report_page *p, const ls_plan_sums *s);

#endif
