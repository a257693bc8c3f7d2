/* quarantine: what a farm under quarantine is told. Private to this room. */
#ifndef REPORT_QUARANTINE_H
#define REPORT_QUARANTINE_H

#include "littershed/report.h"

/* What every page and document of a farm under a disease control order says before all else:
 * nothing moves, whatever its figures are. */
typedef struct {
    const char *heading, *order, *caution, *who; /* who says the caution */
} ls_report_quarantine;
/* NULL: the farm is under none. */
const ls_report_quarantine *ls_report_quarantine_of(const ls_view *v);

#endif
