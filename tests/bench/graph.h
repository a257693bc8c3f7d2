/* The graph that `estimate` draws, for timing its draws and for writing it down as a program for
 * numpy. Looks into the worksheet's private headers: only the bench does. */
#pragma once

#include "littershed/litter.h"
#include "worksheet/program.h"

typedef struct {
    ls_arena *arena; /* all of it lives here; the caller frees it */
    const ls_worksheet *sheet;
    size_t n;
    ls_drawn *wanted; /* every line that an estimate tells the points of, each once */
    ls_worksheet_program program;
} bench_graph;

/* The estimate of the farm in these files; a mistake in them ends the program. */
bench_graph bench_graph_read(const char *const *files, size_t n);

/* Write the graph as a module of Python: leaves(g, n) draws every leaf, block(g, n) works out the
 * columns of all that is wanted, by key. */
void bench_graph_as_numpy(const bench_graph *g);

/* Time so many draws and print the seconds, the cores' worth of work got, and (whole graph) the
 * points of each line wanted. leaves: numbers are drawn and thrown away, nothing else. */
void bench_time_leaves(const bench_graph *g, size_t draws);
void bench_time_graph(const bench_graph *g, size_t draws, size_t threads);
