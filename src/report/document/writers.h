/* writers: what the writers of documents share. Private to this room. */
#pragma once

#include "document.h"

#include "report/page.h"

#include <jansson.h>

/* The document as a tree of JSON, owned by the caller. */
json_t *ls_document_tree(const ls_document *d);

/* The items of the list that is the top of d, as they stand in a document. */
const char *ls_document_text_items(ls_document *d);
const char *ls_document_html_items(ls_document *d);
const char *ls_document_json_items(ls_document *d);

/* An entry of the worksheet on a page of text; within others it stands behind bars. */
void ls_doc_entry_text(const ls_document *d, ls_report_page *p, const ls_doc_entry *e);
