/* plan_days_json: the days of a plan as JSON. Private to this room. */
#ifndef REPORT_PLAN_DAYS_JSON_H
#define REPORT_PLAN_DAYS_JSON_H

#include "report/json.h"

/* Start and finish, the hours of each day, the numbers of trucks tried. */
json_t *ls_report_days_json(const ls_view *v, const ls_plan *plan);

/* When a load from a house is loaded, leaves, is there, is empty, is back. */
void ls_report_put_load_times(json_t *object, const ls_view *v, const ls_load *load);

#endif
