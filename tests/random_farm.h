/* Small farms drawn at random: one or two houses, up to twelve fields, orders, windows, a stack or
 * none. */
#ifndef LITTERSHED_TESTS_RANDOM_FARM_H
#define LITTERSHED_TESTS_RANDOM_FARM_H

#include "littershed/base.h"

/* The text of a farm file: the same for the same seed. */
const char *test_random_farm(ls_arena *a, uint64_t seed);

#endif
