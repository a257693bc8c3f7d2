/* promise: what a buyer is told of the plan. Private to this room. */
#ifndef REPORT_PROMISE_H
#define REPORT_PROMISE_H

#include "littershed/report.h"

/* For other programs. */
const char *ls_report_promises_json(const ls_view *v, const ls_slip_list *list);

#endif
