/* caution: cautions of the published table on a page. Private to this room. */
#ifndef REPORT_CAUTION_H
#define REPORT_CAUTION_H

#include "page.h"

/* The row of that name of the table of cautions as an item: its words and who says so. */
void ls_report_caution(ls_report_page *p, const char *name);

#endif
