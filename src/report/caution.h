/* caution: cautions of the published table, and what a farm under quarantine is told. Private to
 * this room. */
#ifndef REPORT_CAUTION_H
#define REPORT_CAUTION_H

#include "littershed/report.h"

/* The row of that name of the table of cautions: its words, and those for a driver (NULL: none);
 * who says so, and the id of that source. */
typedef struct {
    const char *text, *driver, *who, *source;
} ls_report_caution;
ls_report_caution ls_report_caution_of(const ls_view *v, const char *name);

/* What every page and document of a farm under a disease control order says before all else:
 * nothing moves, whatever its figures are. */
typedef struct {
    const char *heading, *order;
    ls_report_caution caution;
} ls_report_quarantine;
/* NULL: the farm is under none. */
const ls_report_quarantine *ls_report_quarantine_of(const ls_view *v);

#endif
