/* starter: what of a farm file still stands as the starter wrote it. Private to this room. */
#ifndef REPORT_STARTER_H
#define REPORT_STARTER_H

#include "littershed/report.h"

/* A file begun with a starter: figures and names that are the starter's, of all it has. */
typedef struct {
    const char *file, *lines; /* numbers of the first such lines */
    long same, all;
} ls_report_begun;
typedef LS_LIST(ls_report_begun) ls_report_starter;

/* Files with figures of a starter; none: all figures are the farm's own. */
ls_report_starter ls_report_starter_of(const ls_view *v);
/* The warning that every page and printed form with such figures begins with; NULL: none is due. */
const char *ls_report_starter_words(const ls_view *v);

#endif
