/* Split problems made by chance, and what has to hold of every answer, checked from the answer
 * alone. */
#pragma once

#include "haul/split/solve.h"

/* A problem with its own arrays, open for changes. */
typedef struct {
    ls_split_problem p;
    double *tons, *payload, *use, *value, *capacity, *later_value, *trip_cost, *least, *most, *pile;
    long *least_loads, *most_loads;
    size_t *buyer;
    bool *open, *later;
    const char **names;
} split_world;

/* Fields are shared out evenly to the buyers. Everything open, no stack, no orders, no money, use
 * 1, capacity 0, drop 1 ton. */
split_world *split_world_new(ls_arena *a, size_t lots, size_t fields, size_t buyers);

/* A stream of numbers that is the same everywhere; 0 <= number < below. */
typedef struct {
    uint64_t state;
} dice;
size_t throw_dice(dice *d, size_t below);

/* A problem as farms have them: up to 4 lots and 12 fields. */
split_world *split_world_random(ls_arena *a, dice *d);

/* What is wrong with an answer, in words; NULL if it keeps every limit. */
const char *split_world_wrong(const ls_split_problem *p, const ls_split *s);
