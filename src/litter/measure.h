/* The measurements that could be made next, each put into a copy of the farm as if it came out as
 * expected. */
#ifndef LITTER_MEASURE_H
#define LITTER_MEASURE_H

#include "house.h"

typedef struct ls_litter_change ls_litter_change;

typedef struct {
    const char *what, *effort;
    int minutes; /* of work, as effort has it: for comparison alone */
    /* Put the measurement into the house; false if it would tell nothing here. */
    bool (*add)(ls_litter_change *c);
    const char *line; /* the house's line that should equal its dry tons; NULL: the reading itself
                         is expected */
} ls_litter_measurement;

/* By index, NULL past the end. */
const ls_litter_measurement *ls_litter_measurement_at(size_t index);

/* The lines of the farm with that measurement made in one house, in a worksheet of their own (*w)
 * in the arena. NULL if it tells nothing. */
const ls_estimate *ls_litter_measured(ls_arena *a, const ls_reference *r, const ls_worksheet *base,
                                      const ls_farm *f, size_t house,
                                      const ls_litter_measurement *m, ls_worksheet **w);

#endif
