/* The tables of `make calibrate`; each prints itself and gives how many bounds were missed. */
#pragma once

#include "bench/calibrate/paper.h"

/* Coverage of the 10-90 % range over so many farms for each kind of evidence; part 0 or 1 of 2, so
 * that two may run side by side (-1: all). */
int calibrate_coverage(long farms, int part);
int calibrate_sources(void);
int calibrate_widening(const char *const *demo, size_t files);
int calibrate_totals(void);
