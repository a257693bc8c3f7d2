/* The symbols that make up units. Private to the room. */
#pragma once

#include "littershed/base/unit.h"

/* Every symbol the reader knows: index from 0, NULL past the end. */
const ls_unit *ls_unit_symbol(size_t index);
/* The unit of one: "ton/ac" of "tons/ac". */
const char *ls_unit_one(ls_arena *a, const char *unit);
