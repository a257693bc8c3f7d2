/* Which tables there can be and which columns each may have. Private to this room. */
#pragma once

#include "littershed/base.h"

/* A column of figures states `units`, of words `words`; one of them is NULL. */
typedef struct {
    const char *name;  /* "*": every name that is not listed */
    const char *units; /* joined by '|': a figure must have the dimension of one of them */
    const char *words; /* joined by '|': what the cell may say; "" anything; with '|' at the end it
                          may be left out */
} ls_reference_column;

/* columns: "NAME: UNITS; NAME: =WORDS; ...". */
typedef struct {
    const char *kind;
    /* What a farm's own tables may add to the kind. names: "": the kind has one table, without a
     * name; "=": the names of the built-in tables; "*": any. rows: "=" and "*" likewise, or the
     * names of rows, joined by '|', a # in them standing for a number. */
    const char *names, *rows;
    const char *columns;
} ls_reference_kind;

/* By index from 0 (NULL past the end); by name (NULL: no such kind). */
const ls_reference_kind *ls_reference_kind_at(size_t index);
const ls_reference_kind *ls_reference_kind_of(const char *kind);

/* The column at *at among the columns of a kind, which moves on; false: none is left. */
bool ls_reference_next_column(ls_arena *a, const char **at, ls_reference_column *out);
/* A column of a kind, NULL if it may have none of this name. */
const ls_reference_column *ls_reference_column_of(ls_arena *a, const ls_reference_kind *kind,
                                                  const char *name);

/* Rows of a farm's own may leave the column out. */
bool ls_reference_may_lack(const ls_reference_column *column);

/* word is one of choices (joined by '|'). */
bool ls_reference_is_choice(const char *choices, const char *word);
