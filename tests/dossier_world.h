/* A farm whose records are complete, and three days of its haul log. */
#ifndef LITTERSHED_TESTS_DOSSIER_WORLD_H
#define LITTERSHED_TESTS_DOSSIER_WORLD_H

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
dossier_world dossier_write(ls_arena *a, const char *house, const char *fields, const char *log);

/* The dossier as JSON (given back by the caller); arguments beside the files end with NULL. */
json_t *dossier_document(const dossier_world *w);
test_run dossier_run(const dossier_world *w, const char *one, const char *two, const char *three);

#endif
