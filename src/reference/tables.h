/* Reading table files (their form is told at the head of tables.yaml). Private to this room. */
#pragma once

#include "littershed/reference.h"

/* Everything read so far. */
struct ls_reference {
    const char *version, *date;
    LS_LIST(const ls_source *) sources;
    LS_LIST(const ls_table *) tables;
    const char
        *why[LS_LOG_STUDENT + 1]; /* by ls_spread_kind: why figures have it, unless they say */
};

typedef struct {
    ls_arena *arena;
    ls_diag *diag;
    ls_reference *set;
    const ls_reference
        *base;   /* what a farm's own tables are laid over; NULL: the built-in tables */
    size_t read; /* sources, tables and rows of the farm's own so far */
} ls_reference_reader;

/* Note a mistake that stands at a node; false. cell.c */
bool ls_reference_wrong(ls_reference_reader *r, const ls_node *at, const char *hint,
                        const char *format, ...) __attribute__((format(printf, 4, 5)));

/* Read n table files, registered inputs of d, into the set: first what all of them say of sources
 * and spreads, then their tables. Mistakes are errors in d; what has one is left out. */
void ls_reference_read(ls_arena *a, ls_diag *d, ls_reference *set, const int32_t *files, size_t n);
/* The same of files that are laid over base (see own.h). */
void ls_reference_read_over(ls_arena *a, ls_diag *d, ls_reference *set, const ls_reference *base,
                            const int32_t *files, size_t n);
