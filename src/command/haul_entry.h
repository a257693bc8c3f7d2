/* haul_entry: what record was told, as an entry of the haul log, and whether it makes sense on this
 * farm. Private to this room. */
#ifndef COMMAND_HAUL_ENTRY_H
#define COMMAND_HAUL_ENTRY_H

#include "run.h"

/* Each returns LS_DONE, or says what is wrong and returns the exit code. */

/* The options as an entry: what was not given is 0, "", or of the entry it replaces (old; NULL:
 * none is replaced). */
int ls_haul_entry_read(ls_run *r, const ls_log_entry *old, ls_log_entry *out);

/* The option that tells what the log has in words. */
ls_option ls_haul_entry_option(ls_log_word word);

/* Against the farm: the lot, the field, the truck, the day the house was emptied. */
int ls_haul_entry_check(ls_run *r, const ls_log_entry *e);

/* Against the days on which its fields may be spread; --sure lets it pass. */
int ls_haul_entry_check_window(ls_run *r, const ls_log_entry *e);

/* Against what the truck can hold, once the farm is estimated. */
int ls_haul_entry_check_body(ls_run *r, const ls_log_entry *e);

/* haul_notes.c: what looks odd but may be so, once the farm is estimated; --sure leaves it unsaid.
 */
void ls_haul_entry_notes(ls_run *r, const ls_log_entry *e);

/* haul_place.c: where it went, if it was not told: by the plan of the morning (of the loads of days
 * before). Said if a plan with that day's loads sends it elsewhere. Where no plan tells, that is
 * said, and the place stays open. Estimates the farm on the way. */
int ls_haul_entry_find_place(ls_run *r, ls_log_entry *e);

#endif
