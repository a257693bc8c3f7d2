/* search: looking for a key among lines that come and go, and remembering near ones. Private to
 * this room. */
#ifndef COMMAND_SEARCH_H
#define COMMAND_SEARCH_H

#include "littershed/worksheet.h"

enum { LS_MOST_HOLDING = 5 };

typedef struct {
    const char *key;
    ls_arena *arena;                      /* of near and holding */
    const char *near;                     /* the nearest key so far; NULL: none is near */
    const char *holding[LS_MOST_HOLDING]; /* the first keys that hold the key as a part */
    size_t holding_n;
} ls_search;

/* The line with the key among the lines from first on; LS_NO_LINE: there is none, and what is near
 * is noted. */
ls_line ls_search_lines(ls_search *s, const ls_worksheet *w, size_t first);

#endif
