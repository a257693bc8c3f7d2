/* check_odd: figures of buyers and fields that look like slips of the pen, and what is not the
 * farm's own yet. Private to this room. */
#ifndef REPORT_CHECK_ODD_H
#define REPORT_CHECK_ODD_H

#include "document/document.h"

/* Each with its place and its usual bound; nothing if there are none. */
void ls_report_put_odd_figures(ls_doc_group *g);
/* Lines that a file begun with a starter still has of it; nothing of other files. */
void ls_report_put_starter_lines(ls_doc_group *g);

#endif
