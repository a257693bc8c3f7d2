/* One cell of a table: a figure or a word. Private to this room. */
#pragma once

#include "tables.h"

/* Where a figure comes from: of the table, then as its row and its cell override it. */
typedef struct {
    const ls_source *source;
    bool unknown_source; /* one was named that there is not */
    int status;          /* ls_status; -1: not given */
    const char *note, *why;
    ls_spread single; /* of a figure given alone: exact or lognormal */
    const char *own;  /* of a farm's own row: where it stands */
} ls_reference_origin;

/* key is one of source, status, note, why. */
bool ls_reference_is_origin(const char *key);
/* Let those keys of a mapping override o. */
void ls_reference_read_origin(ls_reference_reader *r, const ls_node *mapping,
                              ls_reference_origin *o);
/* There is a status, and a source unless the status is practice; else an error at the node (an
 * unknown source was noted before). */
bool ls_reference_check_origin(ls_reference_reader *r, const ls_node *at,
                               const ls_reference_origin *o);

/* The text of a key of a mapping, NULL if it has none or (an error) if that is no text. */
const char *ls_reference_text(ls_reference_reader *r, const ls_node *mapping, const char *key);

/* The texts with commas between. */
const char *ls_reference_joined(ls_arena *a, const char *const *names, size_t n);

/* "did you mean X?", or the lead and what there is. */
const char *ls_reference_meant(ls_reference_reader *r, const char *word, const char *const *names,
                               size_t n, const char *lead);

/* The node is a word: quoted, or not beginning with a digit. */
bool ls_reference_is_word(const ls_node *node);

/* The figure a cell holds; units, joined by '|', says which dimensions it may have. NULL: refused,
 * with an error. */
const ls_figure *ls_reference_read_figure(ls_reference_reader *r, const ls_node *node,
                                          const char *id, const char *units,
                                          ls_reference_origin origin);
