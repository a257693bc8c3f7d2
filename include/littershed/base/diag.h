/* What is wrong with the input, and where: gathered over a whole run, printed in file order. */
#pragma once

#include "littershed/base/arena.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

/* One input as read. name is what the user typed ("standard input" for "-"). */
typedef struct {
    const char *name;
    const char *text; /* NUL-terminated; size bytes before that */
    size_t size;
} ls_input;

/* Where something stands. line and column count from 1, columns in characters; line 0: the file as
 * a whole; file -1: no place at all. length: characters to underline. */
typedef struct {
    int32_t file;
    uint32_t line, column, length;
} ls_place;
#define LS_NOWHERE ((ls_place){-1, 0, 0, 0})
#define LS_WHOLE_FILE(file) ((ls_place){(file), 0, 0, 0})

typedef enum { LS_ERROR, LS_WARNING } ls_severity;

enum { LS_MOST_ERRORS = 100 };

typedef struct ls_diag ls_diag;

/* An empty collection in the arena. Inputs are registered in the order of the command line; the
 * returned number is the ls_place.file of their nodes. */
ls_diag *ls_diag_new(ls_arena *a);
int32_t ls_diag_input(ls_diag *d, ls_input input);
const ls_input *ls_diag_input_at(const ls_diag *d, int32_t file);

/* Note a mistake. The message names the thing and stands alone, no capital, no full stop; hint says
 * what to do (may be NULL). Text from the input may be passed as it is: it is made safe when
 * printed. Past LS_MOST_ERRORS errors (or as many warnings) more are only counted. The same message
 * at the same place is noted once. False, so that who reads can return it. */
bool ls_diag_add(ls_diag *d, ls_severity severity, ls_place at, const char *hint, const char *format, ...)
    __attribute__((format(printf, 5, 6)));

size_t ls_diag_count(const ls_diag *d, ls_severity severity);

/* Print all in file order (no place first, then by file, line, column):
 *   NAME:LINE:COLUMN: error: MESSAGE
 *       the line
 *       ^~~~
 *       hint: HINT
 *       the same: line 31, line 48
 *       NAME:65: HINT
 * (a mistake that stands in several places once, with the others; with what to do there where that
 * differs) and a last line when some were left out. Of a file read twice each message is printed
 * once. The line is clipped round the caret to 80 columns. "littershed: error: ..." where there is
 * no place, "NAME: error: ..." for a file as a whole. */
void ls_diag_print(const ls_diag *d, FILE *to);
/* The notes of one line of the inputs, in the arena. */
const ls_diag *ls_diag_of_line(ls_arena *a, const ls_diag *d, uint32_t line);
/* "NAME:LINE" of a place, "" for LS_NOWHERE. */
const char *ls_diag_where(ls_arena *a, const ls_diag *d, ls_place at);
