/* reference: the published tables, each row with its source, embedded in the program. */
#pragma once

#include "littershed/base.h"

/* How well a figure is known. */
typedef enum {
    LS_READ,    /* it stood in the source */
    LS_READ2,   /* it stood in a second-hand copy of the source */
    LS_DERIVED, /* arithmetic on figures that were read */
    LS_MEMORY,  /* recalled, not seen: shown as "from memory" */
    LS_PRACTICE /* a fact of the trade without a source: shown as "common practice" */
} ls_status;

typedef struct {
    const char *id, *who, *title, *url; /* url may be NULL */
} ls_source;

/* What a source printed beside a mean; a figure that was not printed is NaN. Base units. */
typedef struct {
    double n, least, most, median, mean, sd;
} ls_printed;

/* One cell of a table that holds a quantity. */
typedef struct {
    const char *id; /* "TABLE/ROW/COLUMN" */
    double value;   /* base units */
    ls_unit unit;   /* as printed */
    ls_spread spread;
    const char *why; /* why this spread, in words */
    ls_printed printed;
    const ls_source *source; /* NULL only for status practice */
    ls_status status;
    const char *note; /* may be NULL */
    const char *own;  /* of the farm's own row: where it stands, "my-tables.yaml:12"; else NULL */
} ls_figure;

typedef struct {
    const char *column;
    const ls_figure *figure; /* NULL: the cell is a word */
    const char *word;        /* NULL: the cell is a figure */
} ls_cell;

typedef struct ls_row ls_row;
struct ls_row {
    const char *name;
    size_t n;
    const ls_cell *cells;
    const ls_source *source; /* as in ls_figure */
    ls_status status;
    const char *note;
    const char *own;           /* as in ls_figure */
    const ls_row *in_place_of; /* the built-in row that a row of the farm's own stands in for; its
                                  cells that the own row does not give are among the cells */
};

typedef struct {
    const char *id;   /* KIND-NAME with '-' for blanks: "removal-us-crops",
                         "droppings-broiler-breeder",   "practice" */
    const char *kind; /* "removal", "droppings", ... */
    const char *name; /* "us-crops", "broiler breeder"; "" where a kind has one table */
    const char *once; /* a name it had before, which is still understood; NULL: none */
    const char *title;
    size_t n;
    const ls_row *rows;
} ls_table;

typedef struct ls_reference ls_reference;

/* The built-in tables: data of the program, read from the table files when it was built. They take
 * no time and no memory of the arena. */
const ls_reference *ls_reference_load(ls_arena *a);

/* At most so many sources, tables and rows in all tables of a farm's own together. */
enum { LS_MOST_OWN = 2000 };

/* A farm's own tables: n files of tables, registered inputs of d, laid over a set. A row of a table
 * that the set has stands in for the row of that name, cell by cell, or comes before the others;
 * new tables come first. Every row names a source, of the file or of the set. Mistakes are errors
 * in d, with a place and what to do; what has one is left out. Lives in the arena with base. */
const ls_reference *ls_reference_with(ls_arena *a, ls_diag *d, const ls_reference *base, const int32_t *files,
                                      size_t n);
/* Version and date of the set of tables, as printed by --version and in every JSON document. */
const char *ls_reference_version(const ls_reference *r);
const char *ls_reference_date(const ls_reference *r);
/* A table by index; by id; by kind and name, or the name it had before. NULL if there is none. */
const ls_table *ls_reference_at(const ls_reference *r, size_t index);
const ls_table *ls_reference_by_id(const ls_reference *r, const char *id);
const ls_table *ls_reference_table(const ls_reference *r, const char *kind, const char *name);
/* A row by name (NULL table allowed); the figure or the word in a column of a row (NULL row allowed). NULL if none. */
const ls_row *ls_table_row(const ls_table *t, const char *row);
const ls_figure *ls_row_figure(const ls_row *row, const char *column);
const char *ls_row_word(const ls_row *row, const char *column);
/* The figure at kind, name, row, column, of the program's own tables (exit 3: there is none). */
const ls_figure *ls_reference_need(const ls_reference *r, const char *kind, const char *name, const char *row,
                                   const char *column);
/* The value of a row of the table of practice, likewise. */
const ls_figure *ls_reference_practice(const ls_reference *r, const char *row);
/* All sources by index, NULL past the end; by id. */
const ls_source *ls_reference_source_at(const ls_reference *r, size_t index);
const ls_source *ls_reference_source(const ls_reference *r, const char *id);
/* "read", "second-hand copy", "derived", "from memory", "common practice". */
const char *ls_status_words(ls_status s);
