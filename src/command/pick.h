/* pick: the loads and buyers that the options of tickets ask for. Private to this room. */
#pragma once

#include "run.h"

typedef LS_LIST(const ls_load *) ls_picked;

/* Loads of the plan that fit --lot, --day, --ticket and --buyer, from the houses first, then out of the stack. LS_DONE,
 * or what is wrong is said and the exit code returned: there is always at least one load. */
int ls_pick_loads(ls_run *r, const ls_plan *p, ls_picked *out);

/* The name of the buyer after --buyer in *out, NULL: none is asked for. LS_DONE or the exit code.
 */
int ls_pick_buyer(ls_run *r, const char **out);
