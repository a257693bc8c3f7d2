/* dossier_tables: the same tables for JSON and CSV. Private to this room. */
#ifndef REPORT_DOSSIER_TABLES_H
#define REPORT_DOSSIER_TABLES_H

#include "report/page.h"

/* Words; or a line in the unit of its column; or a count. */
typedef struct {
    const char *words;
    ls_line line;
    long count;
    bool is_count, empty;
} ls_dossier_cell;

typedef struct {
    const char *key;  /* "tons" */
    const char *unit; /* of lines; NULL: words or counts */
} ls_dossier_column;

typedef struct {
    const char *name;
    const ls_view *view;
    size_t n;
    const ls_dossier_column *columns;
    LS_LIST(const ls_dossier_cell *) rows;
} ls_dossier_table;

/* The table of that name; NULL: there is none. */
const ls_dossier_table *ls_dossier_table_of(const ls_view *v, const ls_dossier *d,
                                            const char *name);

#endif
