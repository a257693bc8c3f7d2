/* put: what several pages put into their documents. Private to this room. */
#pragma once

#include "document/document.h"

/* Cautions, as items; the first so many on the first screen. */
void ls_report_put_cautions(ls_doc_group *g, const ls_cautions *list, size_t first);
/* What is to be known of the haul log, on the first screen; nothing if there is nothing. */
void ls_report_put_log(ls_doc_group *top);
/* What became of the nutrients of a house, as an item of a list. */
void ls_report_put_account(ls_doc_group *list, const ls_account *a);
/* Tons and loads of the sides, those that are alike in one row, and a picture of their ranges; the
 * table at a level of its own. */
void ls_report_put_sides(ls_doc_group *g, ls_doc_level level, const ls_estimate *e);

/* "A, B, C and 9 more" */
typedef LS_LIST(const char *) ls_report_list;
const char *ls_report_named(ls_arena *a, const ls_report_list *list);
