/* The sections KEYS and CROPS of the manual page littershed-farm(5), made from the schema table and
 * the tables of crops. */
#pragma once

#include "littershed/base.h"

/* In mdoc, in the arena. */
const char *test_farm_keys(ls_arena *a);
