/* What a grower writes of such a farm: the farm file, measured with the usual errors. */
#pragma once

#include "bench/calibrate/nature.h"

/* Kinds of evidence, added up. */
enum {
    PAPER_DEPTH = 1,
    PAPER_CORES = 2,
    PAPER_PAIL = 4,
    PAPER_MOISTURE = 8,
    PAPER_LAB = 16, /* with the phosphorus of the farm's own feed */
    PAPER_CLEANOUT = 32,
    PAPER_LOADS = 64, /* some are gone, and a share of the house is cleared */
    PAPER_ALL = 127
};

/* The text of a farm file; evidence of each house. */
const char *paper_of(ls_arena *a, const nature *n, const nature_farm *f, const int *evidence);

/* Loads that are gone of a house, as the haul log tells them: so many tons (lb) of a share that is
 * judged by eye. The loads live in the arena. */
void paper_loads(ls_arena *a, const nature *n, const nature_house *h, const char *lot, ls_farm *farm, double *gone);

/* As the files of a run: written, read, and taken away again. Ends the program if it is refused. */
ls_farm *paper_read(ls_arena *a, const ls_reference *r, const char *yaml);
