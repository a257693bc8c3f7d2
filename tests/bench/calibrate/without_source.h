/* Tables in which one source is not asked. */
#pragma once

#include "littershed/reference.h"

/* The set as if a source had told nothing of what birds drop and litter holds (its rows of the
 * tables of droppings; its figures in those of what is excreted, kept, and of composition), to see
 * what the others say of it. Lives in the arena with base; an id that is not there takes nothing
 * out. */
const ls_reference *without_source(ls_arena *a, const ls_reference *base, const char *source);
