/* Farms written for the tests of needs, limits and rates. */
#pragma once

#include "suite.h"

#include "littershed/agronomy.h"

typedef struct {
    ls_arena *arena;
    ls_diag *diag;
    const ls_reference *reference;
    const ls_farm *farm;
    ls_worksheet *sheet;
    ls_estimate *estimate;
    ls_agronomy *agronomy; /* NULL: a mistake is in diag */
} world;

/* The demo farm; a farm written for the test; one house, weighed, with a lab report of these
 * nutrients (NULL: none), and one field, more being further sections. Give each back with
 * world_end. */
world demo(void);
world world_of_text(const char *yaml);
world one_field(const char *more, const char *lab, const char *field);
void world_end(world *t);

/* Broiler litter of the University of Georgia's Bulletin 1330 as a report. */
extern const char broiler_litter[];

/* Rates of the k-th field of a buyer; the test ends if there are none. */
const ls_field_rates *rates_of(world *t, size_t buyer, size_t k);
/* The value of a line in its unit, NaN for LS_NO_LINE. */
double shown(const world *t, ls_line line);
/* A flag holds part. */
bool has_flag(const ls_field_rates *f, const char *part);
