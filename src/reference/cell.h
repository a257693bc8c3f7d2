/* One cell of a table: a figure or a word. Private to this room. */
#ifndef REFERENCE_CELL_H
#define REFERENCE_CELL_H

#include "littershed/reference.h"

/* What a reading of table files works on. */
typedef struct {
    ls_arena *arena;
    ls_diag *diag;
    ls_reference *set; /* what has been read so far */
} ls_reference_reader;

/* Where a figure comes from: of the table, then as its row and its cell override it. */
typedef struct {
    const ls_source *source;
    bool has_source; /* a source, or none, was named */
    int status;      /* ls_status; -1: not given */
    const char *note, *why;
    ls_spread single; /* of a figure given alone: exact or lognormal */
} ls_reference_origin;

/* Note an error at a node. */
void ls_reference_refuse(ls_reference_reader *r, const ls_node *at, const char *hint, const char *format, ...)
    __attribute__((format(printf, 4, 5)));

/* key is one of `source status note why`. */
bool ls_reference_is_origin(const char *key);
/* Let the keys of a mapping override o, which may be that of a table (any o: NULL is nothing there). */
void ls_reference_read_origin(ls_reference_reader *r, const ls_node *mapping, ls_reference_origin *o);
/* The origin tells a status, and a source unless the status is practice; else an error at a node. */
bool ls_reference_check_origin(ls_reference_reader *r, const ls_node *at, const ls_reference_origin *o);

/* The node is a word: quoted, or not beginning with a digit. */
bool ls_reference_is_word(const ls_node *node);

/* The figure a cell holds; its dimension must be that of one of units (joined by '|'). NULL: refused. */
const ls_figure *ls_reference_read_figure(ls_reference_reader *r, const ls_node *node, const char *id,
                                          const char *units, ls_reference_origin origin);

#endif
