/* The heuristics around GLPK, each left out to see what it earns, and the work counted: the linker
 * puts __wrap_F in the place of F. */
#pragma once

#include <stdbool.h>

/* Leave out the heuristic of that name from now on ("" none); false if there is none of that name.
 */
bool bench_leave_out(const char *name);

/* Pivots of the simplex method and nodes of the trees so far. */
typedef struct {
    long pivots, nodes;
} bench_counts;
bench_counts bench_counted(void);
