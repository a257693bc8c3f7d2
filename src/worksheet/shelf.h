/* Memory of the lines: taken from the front to the back, given back from the back, and used again.
 * The chunks come from an arena and stay there, so that giving lines back touches nothing else that
 * lives in that arena. */
#ifndef LITTERSHED_WORKSHEET_SHELF_H
#define LITTERSHED_WORKSHEET_SHELF_H

#include "littershed/base.h"

typedef struct ls_worksheet_chunk ls_worksheet_chunk;

/* A place to go back to; valid until the shelf goes back to an earlier one. */
typedef struct {
    ls_worksheet_chunk *chunk;
    size_t used;
} ls_worksheet_place;

typedef struct {
    ls_arena *arena;
    ls_worksheet_chunk *first;
    ls_worksheet_place end;
} ls_worksheet_shelf;

/* count objects of size bytes, zeroed, aligned for any type. */
void *ls_worksheet_shelf_take(ls_worksheet_shelf *s, size_t size, size_t count);
void ls_worksheet_shelf_back(ls_worksheet_shelf *s, ls_worksheet_place place);

#endif
