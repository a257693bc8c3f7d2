/* The sections KEYS and CROPS of the manual page littershed-farm(5), made from the schema table and
 * the tables of crops. */
#ifndef LITTERSHED_TESTS_FARM_KEYS_H
#define LITTERSHED_TESTS_FARM_KEYS_H

#include "littershed/base.h"

/* In mdoc, in the arena. */
const char *test_farm_keys(ls_arena *a);

#endif
