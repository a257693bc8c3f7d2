/* warning: what pages of a farm begin with: a quarantine, figures that are still the starter's.
 * Private to this room. */
#pragma once

#include "littershed/report.h"

/* What every page and document of a farm under a disease control order says before all else:
 * nothing moves, whatever its figures are. */
typedef struct {
    const char *heading, *order, *caution, *who; /* who says the caution */
} ls_report_quarantine;
/* NULL: the farm is under none. */
const ls_report_quarantine *ls_report_quarantine_of(const ls_view *v);

/* A file begun with a starter: figures and names that are the starter's, of all it has. */
typedef struct {
    const char *file, *lines; /* numbers of the first such lines */
    long same, all;
} ls_report_begun;
typedef LS_LIST(ls_report_begun) ls_report_starter;

/* Files with figures of a starter; none: all figures are the farm's own. */
ls_report_starter ls_report_starter_of(const ls_view *v);
