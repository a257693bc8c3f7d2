/* plan_worth: what a ton is worth to each buyer, and how far it may go. Private to this room. */
#ifndef REPORT_PLAN_WORTH_H
#define REPORT_PLAN_WORTH_H

#include "report/json.h"
#include "report/page.h"

void ls_report_plan_worth(ls_report_page *p, const ls_plan *plan);
json_t *ls_report_plan_worth_json(const ls_view *v, const ls_plan *plan);

#endif
