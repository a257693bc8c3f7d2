/* writers: what the writers of documents share. Private to this room. */
#ifndef REPORT_WRITERS_H
#define REPORT_WRITERS_H

#include "document.h"

#include <jansson.h>

/* The document as a tree of JSON, owned by the caller. */
json_t *ls_document_tree(const ls_document *d);

/* An entry of the worksheet, not yet made safe. A leaf says where it comes from (from), any other
 * line how it is made (formula, numbers, and of: the entries it is made of by number, a blank
 * between them); the others are NULL. */
typedef struct {
    const char *key, *label, *value, *formula, *numbers, *from, *of;
} ls_doc_sheet_entry;
ls_doc_sheet_entry ls_doc_sheet_entry_of(const ls_document *d, const ls_doc_row *row);

#endif
