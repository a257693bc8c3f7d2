/* hauled: the entries of the haul log as the loads of this farm. Private to this room. */
#ifndef COMMAND_HAULED_H
#define COMMAND_HAULED_H

#include "run.h"

/* The log of the farm that was read; NULL: it came from the standard input and names none. */
const char *ls_hauled_path(const ls_run *r);

/* Where a load went, as the log writes it: "Buyer/Field", "stack", or several of them, each with
 * its tons, between semicolons: "Buyer/Field (5.2 ton); Buyer/Other (3 ton)". Their tons come to
 * the load's. Places the farm does not know are left out, the first of them in *unknown (NULL: all
 * are known). */
typedef LS_LIST(ls_hauled_drop) ls_hauled_drops;
ls_hauled_drops ls_hauled_places(const ls_run *r, const char *text, double tons,
                                 const char **unknown);

/* The same text again: of drops that are all known. */
const char *ls_hauled_text(ls_arena *a, const ls_hauled_drop *drops, size_t n);

/* The text with its tons in proportion to a load of other tons; as it is if it tells none, or names
 * places the farm does not know. */
const char *ls_hauled_scaled(const ls_run *r, const char *text, double tons);

#endif
