/* Farms written for the tests of evidence. */
#pragma once

#include "suite.h"

#include "littershed/litter.h"

typedef struct {
    ls_arena *arena;
    ls_diag *diag;
    const ls_reference *reference;
    const ls_farm *farm;
    ls_worksheet *sheet;
    ls_estimate *estimate;
} litter_world;

/* The estimate of a farm file, from one block of draws; csv, if not NULL, stands beside it as
 * grid.csv. The test ends if there is none. Give it back with litter_end. */
litter_world litter_farm(const char *yaml, const char *csv);
void litter_end(litter_world *t);

/* The value of a line in its unit; NaN, and a word of it, if there is no such line. */
double litter_shown(const litter_world *t, const char *key);
bool litter_has(const litter_world *t, const char *key);
/* A note holds part; a caution has that id. */
bool litter_says(const litter_world *t, const char *part);
bool litter_cautions(const litter_world *t, const char *id);
/* High over low of the first lot's dry tons. */
double litter_width(const litter_world *t);

/* A text in the arena, from the printf format. */
#define LITTER_TEXT(t, ...) ls_arena_printf((t)->arena, __VA_ARGS__)
