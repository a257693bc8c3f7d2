/* Splits as large farms have them, made by chance: a ring of neighbors around a few houses. */
#pragma once

#include "split_world.h"

typedef struct {
    uint64_t seed;
    size_t lots, fields, buyers;
    double fill; /* litter, as a share of what open fields could take; 0: some 80 ton a lot */
    bool stack;  /* with a stack of 150 ton, for the fields that open later */
} bench_farm;

/* The same farm from the same figures, on every machine. */
split_world *bench_farm_new(ls_arena *a, const bench_farm *f);

/* tool split SEED LOTS FIELDS BUYERS FILL STACK [WITHOUT]: seconds, pivots, nodes, goals, turnover,
 * peak memory; WITHOUT a heuristic, see without.h.
 * tool problem SEED LOTS FIELDS BUYERS FILL STACK: the problem, the program GLPK is given for it
 * and the answer, as JSON. tool problem SEED: a small one, of the tests' kind. Exit code. */
int bench_split(const char *what, char **arguments, int n);
