/* A farm whose records are complete, and three days of its haul log. */
#pragma once

#include "program.h"

#include <jansson.h>

typedef struct {
    ls_arena *a;
    const char *folder, *house, *fields;
} dossier_world;

/* The texts of the files; world_write puts them into a folder. */
const char *dossier_house(ls_arena *a);
/* The file of the year before: the birds of North came and went a year earlier. */
const char *dossier_house_before(ls_arena *a);
const char *dossier_fields(ls_arena *a);
const char *dossier_log(ls_arena *a);
/* A load with all that the records ask for; NULL: entry none, not worked in, report of 2026-01-29.
 */
typedef struct {
    const char *ticket, *when, *tons, *to, *worked_in, *report, *replaces;
} dossier_haul;
/* A log of n loads, or of fewer, to the first without a ticket. */
const char *dossier_log_of(ls_arena *a, const dossier_haul *loads, size_t n);
dossier_world dossier_write(ls_arena *a, const char *house, const char *fields, const char *log);

/* The dossier as JSON (given back by the caller); arguments beside the files end with NULL. */
json_t *dossier_document(const dossier_world *w);
test_run dossier_run(const dossier_world *w, const char *one, const char *two, const char *three);

/* Members of an object: "" and 0 if there are none. The row of a table whose cell holds that; NULL:
 * none. */
const char *dossier_word(json_t *object, const char *key);
double dossier_number(json_t *object, const char *key);
json_t *dossier_row(json_t *d, const char *table, const char *key, const char *value);
