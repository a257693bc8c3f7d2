/* record_sums: what the haul log adds up to. Private to this room. */
#ifndef REPORT_RECORD_SUMS_H
#define REPORT_RECORD_SUMS_H

#include "littershed/report.h"

/* An entry with the line of its tons. */
typedef struct {
    const ls_log_entry *entry;
    const char *lot; /* its name; the lot code, if the farm has no such lot */
    size_t order;    /* of the lot on the farm */
    ls_line tons;
} ls_report_hauled;

/* Loads of one lot or one day; loads out of the stack apart. */
typedef struct {
    const char *lot; /* NULL: a day */
    ls_date day;     /* LS_NO_DATE: a lot */
    bool from_stack;
    size_t loads;
    ls_line tons;
} ls_report_haul_sum;

typedef struct {
    const ls_report_hauled *entries; /* every entry of the log */
    size_t n;
    const ls_report_hauled *hauled;         /* those that stand, in the order of the log */
    LS_LIST(ls_report_haul_sum) lots, days; /* lots as on the farm, then by code; days by date */
    ls_line houses, stack; /* all tons out of houses, out of the stack; LS_NO_LINE: none */
    size_t house_loads, stack_loads;
} ls_report_haul_sums;

/* Drops on one field, or (buyer and field NULL) into the stack. */
typedef struct {
    const ls_buyer *buyer;
    const ls_field *field;
    size_t loads;
    ls_line tons;
} ls_report_place_sum;
typedef LS_LIST(ls_report_place_sum) ls_report_place_sums;

/* In the order of the farm files, the stack last; of the loads that the view's farm holds. Adds
 * lines as below. */
ls_report_place_sums ls_report_hauled_places(const ls_view *v);

/* Adds the lines it needs to the worksheet; a view makes them once. */
const ls_report_haul_sums *ls_report_haul(const ls_view *v, const ls_log *log);

#endif
