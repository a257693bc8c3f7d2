/* Random choices of the tests: the same for the same state, on every machine. */
#pragma once

#include <stdint.h>

/* Uniform on 0..n-1 (splitmix64). */
unsigned test_pick(uint64_t *state, unsigned n);

/* One of 10,001 even steps from low to high. */
double test_between(uint64_t *state, double low, double high);
