/* row: one row of the log as CSV, out and in. Private to this room. */
#ifndef RECORD_ROW_H
#define RECORD_ROW_H

#include "littershed/record.h"

/* The columns of the log, in order; the words follow as ls_log_word orders them. */
enum {
    LS_RECORD_ENTRY,
    LS_RECORD_REPLACES,
    LS_RECORD_TICKET,
    LS_RECORD_WHEN,
    LS_RECORD_TONS,
    LS_RECORD_WEIGHED,
    LS_RECORD_CLEARED,
    LS_RECORD_WORDS,
    LS_RECORD_COLUMNS = LS_RECORD_WORDS + LS_LOG_WORDS
};
const char *ls_record_column(size_t column);

/* The header row, and the row of an entry, each with its CRLF. */
const char *ls_record_header(ls_arena *a);
const char *ls_record_row(ls_arena *a, const ls_log_entry *e);

/* A cell's text as it was before it was kept from running as a formula. */
const char *ls_record_unguarded(ls_arena *a, const char *cell);

typedef struct {
    const char *text;
    ls_place at;
} ls_record_cell;

typedef enum {
    LS_RECORD_ROW_READ,
    LS_RECORD_END,
    LS_RECORD_TORN, /* the input ends within a row; the reader stands at its start */
    LS_RECORD_WRONG /* noted in d; what follows cannot be told into rows */
} ls_record_status;

/* Where reading stands in the text of an input. */
typedef struct {
    ls_arena *arena;
    ls_diag *d;
    const ls_input *input;
    int32_t file;
    size_t at;
    uint32_t line, column;
    ls_text *cell; /* of the cell being read */
} ls_record_reader;

/* The next row. Cells past LS_RECORD_COLUMNS are counted in *n but not kept. */
ls_record_status ls_record_next(ls_record_reader *r, ls_record_cell cells[LS_RECORD_COLUMNS],
                                size_t *n);

/* All rows of an input into log; mistakes are noted in d. Returns the bytes of the whole lines;
 * *headed: the header row is there. */
size_t ls_record_read_all(ls_arena *a, ls_diag *d, int32_t file, ls_log *log, bool *headed);

#endif
