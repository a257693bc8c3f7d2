/* writers: what the writers of documents share. Private to this room. */
#ifndef REPORT_WRITERS_H
#define REPORT_WRITERS_H

#include "document.h"

#include <jansson.h>

/* The document as a tree of JSON, owned by the caller. */
json_t *ls_document_tree(const ls_document *d);

#endif
