/* put: what several pages put into their documents. Private to this room. */
#ifndef REPORT_PUT_H
#define REPORT_PUT_H

#include "document/document.h"

/* Cautions, as items. */
void ls_report_put_cautions(ls_doc_group *g, ls_doc_level level, const ls_cautions *list);

/* Each with its place and its usual bound; nothing if there are none. */
void ls_report_put_odd_figures(ls_doc_group *g);
/* Lines that a file begun with a starter still has of it; nothing of other files. */
void ls_report_put_starter_lines(ls_doc_group *g);

#endif
