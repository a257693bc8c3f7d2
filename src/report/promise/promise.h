/* promise: what a buyer is told of the plan. Private to this room. */
#pragma once

#include "littershed/report.h"

#include <string.h>

/* For other programs. */
const char *ls_report_promises_json(const ls_view *v, const ls_slip_list *list);

/* The day of the slip that a paper takes the place of; LS_NO_DATE: none. kept NULL: none stands. */
static inline ls_date ls_report_slip_before(const ls_handed *handed, const ls_promise_kept *kept) {
    return kept == NULL ? LS_NO_DATE : handed->mark == LS_MARK_COPY ? kept->slip->before : kept->slip->day;
}

/* Is it the slip of a buyer whom the files name no more, and asked for? */
static inline bool ls_report_is_gone(const ls_slip_list *list, const ls_promise_kept *kept) {
    return kept->slip->buyer == NULL && list->gone != NULL &&
           (list->gone[0] == '\0' || strcmp(list->gone, kept->slip->name) == 0);
}
