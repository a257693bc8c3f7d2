/* Small farms drawn at random: one or two houses, up to twelve fields, orders, windows, a stack or
 * none. */
#pragma once

#include "littershed/base.h"

/* The text of a farm file: the same for the same seed. */
const char *test_random_farm(ls_arena *a, uint64_t seed);
