/* writers: what the writers of documents share. Private to this room. */
#ifndef REPORT_WRITERS_H
#define REPORT_WRITERS_H

#include "document.h"

#include "report/page.h"

#include <jansson.h>

/* The document as a tree of JSON, owned by the caller. */
json_t *ls_document_tree(const ls_document *d);

/* An entry of the worksheet on a page of text; within others it stands behind bars. */
void ls_doc_entry_text(const ls_document *d, ls_report_page *p, const ls_doc_entry *e);

#endif
