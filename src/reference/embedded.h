/* The built-in tables as data of the program, made from the table files when it is built (embed/).
 * Private to this room. */
#pragma once

#include "tables.h"

extern const ls_reference ls_reference_built_in;
