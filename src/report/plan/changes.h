/* plan_changes: what a plan says otherwise than the one before the newest loads of the haul log.
 * Private to this room. */
#ifndef REPORT_PLAN_CHANGES_H
#define REPORT_PLAN_CHANGES_H

#include "littershed/report.h"

/* A ticket that goes another way. */
typedef struct {
    const ls_load *was, *now; /* NULL: not planned then; no longer planned */
} ls_report_change;

/* Loads of a buyer, at each certainty, then and now; what is gone since is in neither. */
typedef struct {
    const ls_buyer *buyer;
    size_t was[LS_POSSIBLE + 1], now[LS_POSSIBLE + 1];
    bool field, lot, days; /* firm loads: on other fields, of other lots, on other days */
    bool call; /* fewer or more firm loads, or a firm ticket changed and one of these with it */
} ls_report_buyer_change;

typedef struct {
    LS_LIST(ls_report_change) tickets;      /* in the order of the plan before, new ones last */
    LS_LIST(ls_report_buyer_change) buyers; /* those with other loads than before */
} ls_report_changes;

/* Nothing where the plan has none before it. */
ls_report_changes ls_report_changes_of(const ls_view *v, const ls_plan *plan);

/* "Larkspur Hay, Upper Meadow"; "the stack". */
const char *ls_report_way(const ls_view *v, const ls_load *load);

#endif
