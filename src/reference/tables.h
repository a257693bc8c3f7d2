/* Reading table files (their form is told at the head of tables.yaml). Private to this room. */
#pragma once

#include "littershed/reference.h"

/* Everything read so far. */
struct ls_reference {
    const char *version, *date;
    LS_LIST(const ls_source *) sources;
    LS_LIST(const ls_table *) tables;
    const char *why[LS_LOG_STUDENT + 1]; /* by ls_spread_kind, unless figures say */
};

typedef struct {
    ls_arena *arena;
    ls_diag *diag;
    ls_reference *set;
    const ls_reference *base; /* what a farm's own tables are laid over; NULL: built-in tables */
    size_t read;              /* sources, tables and rows of the farm's own so far */
} ls_reference_reader;

/* Read n table files, registered inputs of d, into the set: first what all of them say of sources
 * and spreads, then their tables. Mistakes are errors in d; what has one is left out. base: what
 * they are laid over as a farm's own; NULL: nothing. */
void ls_reference_read(ls_arena *a, ls_diag *d, ls_reference *set, const ls_reference *base, const int32_t *files,
                       size_t n);
/* The cell of a row (NULL: none) in a column. */
const ls_cell *ls_reference_cell(const ls_row *row, const char *column);

/* ---- columns.c: which tables there can be and which columns each may have ---- */

/* A column of figures states `units`, of words `words`; one of them is NULL. */
typedef struct {
    const char *name;  /* "*": every name that is not listed */
    const char *units; /* joined by '|': a figure must have the dimension of one of them */
    const char *words; /* joined by '|': what the cell may say; "" anything; '|' at the end: none */
} ls_reference_column;

/* columns: "NAME: UNITS; NAME: =WORDS; ...". What a farm's own tables may add: names: "": the kind
 * has one table, without a name; "=": the names of the built-in tables; "*": any. rows: "=" and "*"
 * likewise, or the names of rows, joined by '|', a # in them standing for a number. */
typedef struct {
    const char *kind, *names, *rows, *columns;
} ls_reference_kind;

/* By index from 0 (NULL past the end); by name (NULL: no such kind). */
const ls_reference_kind *ls_reference_kind_at(size_t index);
const ls_reference_kind *ls_reference_kind_of(const char *kind);
/* The column at *at among the columns of a kind, which moves on; false: none is left. */
bool ls_reference_next_column(ls_arena *a, const char **at, ls_reference_column *out);
/* A column of a kind, NULL if it may have none of this name. */
const ls_reference_column *ls_reference_column_of(ls_arena *a, const ls_reference_kind *kind, const char *name);
/* Rows of a farm's own may leave the column out. */
bool ls_reference_may_lack(const ls_reference_column *column);
/* word is one of choices (joined by '|'). */
bool ls_reference_is_choice(const char *choices, const char *word);

/* ---- cell.c: a figure or a word ---- */

/* Note a mistake that stands at a node; false. */
bool ls_reference_wrong(ls_reference_reader *r, const ls_node *at, const char *hint, const char *format, ...)
    __attribute__((format(printf, 4, 5)));

/* Where a figure comes from: of the table, then as its row and its cell override it. */
typedef struct {
    const ls_source *source;
    bool unknown_source; /* one was named that there is not */
    int status;          /* ls_status; -1: not given */
    const char *note, *why;
    ls_spread single; /* of a figure given alone: exact or lognormal */
    const char *own;  /* of a farm's own row: where it stands */
} ls_reference_origin;

/* key is one of source, status, note, why; let those keys of a mapping override o. */
bool ls_reference_is_origin(const char *key);
void ls_reference_read_origin(ls_reference_reader *r, const ls_node *mapping, ls_reference_origin *o);
/* There is a status, and a source unless the status is practice; else an error at the node (an
 * unknown source was noted before). */
bool ls_reference_check_origin(ls_reference_reader *r, const ls_node *at, const ls_reference_origin *o);
/* The text of a key of a mapping, NULL if it has none or (an error) if that is no text. */
const char *ls_reference_text(ls_reference_reader *r, const ls_node *mapping, const char *key);
/* The texts with commas between; "did you mean X?", or the lead and what there is. */
const char *ls_reference_joined(ls_arena *a, const char *const *names, size_t n);
const char *ls_reference_meant(ls_reference_reader *r, const char *word, const char *const *names, size_t n,
                               const char *lead);
/* The node is a word: quoted, or not beginning with a digit. */
bool ls_reference_is_word(const ls_node *node);
/* The figure of a cell; units, joined by '|': which dimensions it may have. NULL: an error. */
const ls_figure *ls_reference_read_figure(ls_reference_reader *r, const ls_node *node, const char *id,
                                          const char *units, ls_reference_origin origin);

/* ---- parts.c: the parts of a figure as a file gives them, and the spread they amount to ---- */

/* In the unit of the figure; NaN: not given. */
typedef struct {
    ls_printed printed;
    double value, low, high;
    double scale, relative_scale, log_sd, df;
    const char *spread; /* the word for it; NULL: not given */
} ls_reference_parts;

/* All parts not given. */
ls_reference_parts ls_reference_no_parts(void);
/* Where a part of this name is kept, NULL if there is none: "n", "mean", "low", ...; names of the
 * parts by index, NULL past the end. */
double *ls_reference_part(ls_reference_parts *p, const char *name);
const char *ls_reference_part_name(size_t index);
const char *ls_reference_spread_word(ls_spread_kind kind);
/* Fill in what follows from the parts (value, bounds, scale, df) and tell the spread in base units
 * of factor each; single is the spread of a figure given alone. Returns NULL, or what is wrong. */
const char *ls_reference_settle(ls_reference_parts *p, double factor, ls_spread single, ls_spread *out);

/* ---- own.c: what a farm's own tables may hold beyond what any table file may ---- */

/* False after noting a mistake with its place and what to do. There is room for one more source,
 * table or row, which stands at the node; a table of that kind and name may be there: t has its id,
 * kind and name; the program knows the column, also where a kind takes columns of any name. */
bool ls_reference_own_room(ls_reference_reader *r, const ls_node *at);
bool ls_reference_own_table(ls_reference_reader *r, const ls_reference_kind *kind, const ls_node *node,
                            const ls_table *t);
bool ls_reference_own_column(ls_reference_reader *r, const ls_reference_kind *kind, const ls_node *key);
/* The row as read, with its name at key and its columns in node: it is one that can be used, names
 * a source, and its figures are of the dimension of those they stand in for and possible. */
bool ls_reference_own_row(ls_reference_reader *r, const ls_reference_kind *kind, const ls_table *t, const ls_node *key,
                          const ls_node *node, const ls_row *row);
