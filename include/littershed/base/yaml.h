/* YAML as a tree of nodes with places, within limits. No anchors, aliases, tags, merge keys, empty
 * values, duplicate keys or second documents. */
#pragma once

#include "littershed/base/arena.h"
#include "littershed/base/diag.h"

#include <stdbool.h>

/* Levels one inside the other; characters of a text; texts, lists and mappings of a file. */
enum { LS_MOST_DEPTH = 32, LS_MOST_SCALAR = 1000, LS_MOST_VALUES = 2000000 };

typedef enum { LS_SCALAR, LS_SEQUENCE, LS_MAPPING } ls_node_kind;

typedef struct ls_node ls_node;
struct ls_node {
    ls_node_kind kind;
    ls_place at;      /* of the value itself */
    const char *text; /* scalar: never empty, no NUL, no last line end of a block; else "" */
    bool quoted;      /* scalar: it stood in quotes or a block */
    bool refused;     /* its error is in d: nothing more is said of it; of the top: sections lack */
    size_t n;         /* sequence, mapping: number of items */
    ls_node **keys;   /* mapping: n scalars, all different */
    ls_node **items;  /* sequence, mapping: n values */
};

/* Read the registered input number file. NULL if it is not YAML that is accepted here: the errors
 * are in d. A file with nothing in it is an error too. The tree lives in the arena. */
ls_node *ls_yaml_read(ls_arena *a, ls_diag *d, int32_t file);
/* As ls_yaml_read, but what is refused, or cut off by what cannot be read, only lacks: the rest is
 * there to be checked too. NULL if nothing is. */
ls_node *ls_yaml_read_most(ls_arena *a, ls_diag *d, int32_t file);
/* The value of a key of a mapping, NULL if it has none (or node is NULL or no mapping). */
const ls_node *ls_yaml_get(const ls_node *mapping, const char *key);
