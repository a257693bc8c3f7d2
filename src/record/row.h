/* What the files of this room tell each other: the log as rows of CSV, out and in. */
#pragma once

#include "littershed/record.h"

/* The columns of the log, in order; the words follow as ls_log_word orders them. Logs of older
 * programs end with LS_RECORD_FIRST_ONES of them. The kind is the last: a line that ends in one is
 * whole, whatever became of its line end. */
enum {
    LS_RECORD_ENTRY,
    LS_RECORD_REPLACES,
    LS_RECORD_TICKET,
    LS_RECORD_WHEN,
    LS_RECORD_TONS,
    LS_RECORD_WEIGHED,
    LS_RECORD_CLEARED,
    LS_RECORD_WORDS,
    LS_RECORD_FIRST_ONES = LS_RECORD_WORDS + LS_LOG_CONFIRMED,
    LS_RECORD_ACRES = LS_RECORD_WORDS + LS_LOG_WORDS,
    LS_RECORD_CERTAINTY, /* of a ticket handed out */
    LS_RECORD_PLANNED,
    LS_RECORD_LOADS, /* of a slip */
    LS_RECORD_PRICE,
    LS_RECORD_BATCH, /* "2 of 9": which of the lines that were written together */
    LS_RECORD_KIND,
    LS_RECORD_COLUMNS
};
const char *ls_record_column(size_t column);
/* A cell of an entry, as it stands between separators. */
const char *ls_record_text(ls_arena *a, const ls_log_entry *e, size_t column);
/* The header row, and the row of an entry, each with its CRLF. */
const char *ls_record_header(ls_arena *a, char separator);
const char *ls_record_row(ls_arena *a, char separator, const ls_log_entry *e);
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

/* Where reading stands in the text of an input, and the row read last. */
typedef struct {
    ls_arena *arena;
    ls_diag *d;
    const ls_input *input;
    int32_t file;
    size_t at;
    uint32_t line, column;
    char separator; /* of cells; the first row, and any that begins with "entry", may change it */
    bool titles;    /* all rows up to the headings may do so */
    bool open;      /* the row ends the input within quotation marks */
    ls_text *cell;  /* being read */
    size_t began;   /* the row */
    LS_LIST(ls_record_cell) cells;
} ls_record_reader;

/* At the start of an input, behind a byte order mark. */
ls_record_reader ls_record_reader_of(ls_arena *a, ls_diag *d, int32_t file);
/* The next row. Of a torn one the cells as far as they go; one in open quotation marks is "". */
ls_record_status ls_record_next(ls_record_reader *r);

/* ---- loose.c: what other programs make of the cells ---- */

/* How the cells of one log are written, as far as some of them mean one thing only. */
typedef struct {
    bool month_first, day_first, point, comma;
    bool foreign; /* something is not written as record writes it */
} ls_record_habits;

typedef enum {
    LS_RECORD_READS,
    LS_RECORD_TWO_WAYS, /* both in their places, and nothing tells which */
    LS_RECORD_NOT
} ls_record_meaning;

/* Learn from a day, from a number. */
void ls_record_learn_when(ls_record_habits *h, const char *s);
void ls_record_learn_number(ls_record_habits *h, const char *s);
/* More than one reading: each of them in out, a day of LS_NO_DATE behind the last. */
ls_record_meaning ls_record_when(const ls_record_habits *h, const char *s, ls_when out[4]);
ls_record_meaning ls_record_number(const ls_record_habits *h, const char *s, double *out);
/* Digits, perhaps in groups of three, perhaps a part behind the point ('.' or ','). */
bool ls_record_number_by(const char *s, char point, double *out);
/* "2026-03-04 or 2026-04-03": all readings of a day, of which there is one at least. */
const char *ls_record_days(ls_arena *a, const ls_when *may);
bool ls_record_yes_no(const char *s, bool *out);
/* s without blanks at its ends. */
const char *ls_record_trimmed(ls_arena *a, const char *s);
/* Are all cells of the row blank? */
bool ls_record_blank(const ls_record_reader *r);

/* ---- facts.c: a row's cells by columns of the log, as an entry ---- */

typedef struct {
    ls_arena *arena;
    ls_diag *d;
    const ls_log *beside; /* the same entries as written, for days that mean two things; NULL */
    ls_record_habits habits;
} ls_record_facts;

#define LS_RECORD_MISTAKE(r, cell, hint, ...) ls_diag_add((r)->d, LS_ERROR, ls_record_marked(cell), (hint), __VA_ARGS__)

/* The place of a cell with as much of it as stands on its first line. */
ls_place ls_record_marked(const ls_record_cell *cell);
/* Ticket, day, weighed, cleared, acres, words and what was handed out, of an entry whose kind is
 * known; mistakes are noted. */
void ls_record_read_facts(const ls_record_facts *r, const ls_record_cell *cells, ls_log_entry *e);
/* A number of the unit, at most so many of it; false: it is noted. */
bool ls_record_amount(const ls_record_facts *r, const ls_record_cell *cell, size_t column, double most, double *out);
/* A whole number from 1 to LS_MOST_ENTRIES, perhaps with a comma between thousands or a zero
 * behind a point; 0: it is none. */
long ls_record_whole_number(const char *s);

/* ---- read.c ---- */

/* What was read of one file. */
typedef struct {
    size_t whole;   /* bytes of its whole lines */
    bool headed;    /* a header row is there */
    bool ours;      /* the last one is that of this program, and all below it as record writes it */
    char separator; /* of the last header row */
} ls_record_shape;

/* All rows of an input into log; mistakes are noted in d. */
ls_record_shape ls_record_read_all(ls_arena *a, ls_diag *d, int32_t file, const ls_log *beside, ls_log *log);

/* ---- lock.c: the file of the log, opened and locked ---- */

/* What the system says of an error number, in plainer words where it is a grower's doing. */
const char *ls_record_reason(int error);

typedef enum { LS_RECORD_TO_READ, LS_RECORD_TO_WRITE } ls_record_use;
/* The file, open and locked (shared to read, else exclusive), made if it is to be written and is
 * not there: *made then. -1: *why tells; NULL there: no such file to be read. Closing frees it. */
int ls_record_lock(const char *path, ls_record_use use, bool *made, const char **why);
/* copy.c: hold the log against its copy, and count what record wrote; what differs is warned of,
 * and lost entries noted as lost says. */
void ls_record_compare(ls_arena *a, ls_diag *d, ls_log *log, const ls_log *copy, ls_severity lost);
