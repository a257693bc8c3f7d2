/* Plans of farms for tests. */
#pragma once

#include "suite.h"

#include "littershed/haul.h"

typedef struct {
    ls_arena *arena;
    const ls_reference *reference;
    ls_diag *diag;
    const ls_farm *farm;
    ls_worksheet *sheet;
    ls_estimate *estimate;
    const ls_plan *plan; /* NULL: mistakes in diag */
} plan_world;

/* The plan of farm files, or of one farm written for the test. End it with plan_world_end. */
plan_world plan_world_of(const char *const *paths, size_t n);
plan_world plan_world_text(const char *yaml);
plan_world plan_world_on(const char *yaml, const ls_plan_terms *terms);
void plan_world_end(plan_world *t);

/* Lines that are not there count as 0. */
double plan_tons(const plan_world *t, ls_line line);

/* A plan of one house of 440 ft and one buyer with a field: tons weighed, keys of the truck, the
 * crew and the buyer (each led by a comma but the truck's), other sections. The plan must come
 * about. */
typedef struct {
    const char *tons, *truck, *crew, *buyer, *more;
} plan_small;
plan_world plan_world_small(plan_small s);

/* A house of 110 ton weighed, its lab report, trucks of 11 ton, and what more the text says. */
#define PLAN_HOUSE                                                                                                     \
    "houses:\n  - {name: One, length: 440 ft, width: 40 ft,\n"                                                         \
    "     measured: {weighed: 110 ton, loose_density: 40 lb/ft3},\n"                                                   \
    "     lab: [{date: 2026-01-10, basis: as received, moisture: 30 %, N: 20 lb/ton, NH4N: 5 "                         \
    "lb/ton, P2O5: 20 lb/ton, K2O: 20 lb/ton}]}\n"
#define PLAN_FIELD "crop: tall fescue hay, nitrogen: 200 lb/ac, phosphorus: {rating: low}, most: 2 ton/ac"
