/* Showing one line of an input with a caret. */
#pragma once

#include "littershed/base/diag.h"

/* A place in an input that only moves on, so that places in file order cost one pass. */
typedef struct {
    int32_t file;
    uint32_t line, column; /* from 1 */
    size_t line_start, at; /* bytes */
} ls_source_cursor;

/* Go on to a place (or to the end of its line if that is shorter); from the start if the input is
 * another or the place lies before. False if there is no such line. */
bool ls_source_seek(ls_source_cursor *c, const ls_input *input, ls_place place);
/* Print the line the cursor is in and a line with a caret and a tail of place.length characters,
 * each led by four spaces, at most 80 columns wide. */
void ls_source_print(const ls_source_cursor *c, const ls_input *input, ls_place place, FILE *to);
