/* Farms of a test, estimated: what the suites on birds and litter share. */
#ifndef LITTERSHED_TESTS_LITTER_WORLD_H
#define LITTERSHED_TESTS_LITTER_WORLD_H

#include "suite.h"

#include "littershed/litter.h"

typedef struct {
    ls_arena *arena;
    const ls_farm *farm;
    ls_worksheet *sheet;
    ls_estimate
        *estimate; /* NULL: the farm file or the estimate has a mistake, which was printed */
} litter_world;

/* The farm of this text, estimated from one block of draws; a fault of the worksheet fails the
 * test. End it with litter_world_end. */
litter_world litter_world_of(const char *yaml);
void litter_world_end(litter_world *t);

/* Is there such a line? Its value in its unit; NaN, said aloud, if there is none. */
bool litter_has(const litter_world *t, const char *key);
double litter_shown(const litter_world *t, const char *key);

#endif
