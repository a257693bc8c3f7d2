/* haul_entry: what record was told, as an entry of the haul log, and whether it makes sense on this
 * farm. Private to this room. */
#pragma once

#include "run.h"

/* Each returns LS_DONE, or says what is wrong and returns the exit code. */

/* The options as an entry: what was not given is 0, "", or of the entry it replaces (old; NULL: none is replaced). */
int ls_haul_entry_read(ls_run *r, const ls_log_entry *old, ls_log_entry *out);

/* The option that tells what the log has in words; LS_OPTIONS: none does. */
ls_option ls_haul_entry_option(ls_log_word word);

/* Against the farm: lot, fields and their parts. Fields, tons and acres of the parts are written as the log does. */
int ls_haul_entry_check(ls_run *r, ls_log_entry *e);

/* What looks wrong of truck, ticket, stack, fields and day: all of it is shown, only --sure lets it pass, and the entry
 * says what was confirmed. A list that is only shown goes on. rows are those recorded with it. */
int ls_haul_entry_confirm(ls_run *r, const ls_log *log, const ls_log_entry *rows, size_t n, ls_log_entry *e);

/* The truck that the entry names, else the one that carries most; NULL: the farm has none. */
const ls_truck *ls_haul_entry_truck(const ls_run *r, const ls_log_entry *e);

/* haul_write.c: the clock of this machine, by its time zone; false: it cannot be read. */
bool ls_haul_now(ls_when *out);
/* The log opened to be written, to be closed on LS_DONE; entries added to it, with what became of
 * the log and its copy told. *number: of the first. */
int ls_haul_open(ls_run *r, const char *path, ls_log_book **out);
int ls_haul_append(ls_run *r, ls_log_book *book, const ls_log_entry *entries, size_t n, long *number);

/* haul_import.c: the loads of a list, shown, and with --sure written as one batch. */
int ls_haul_import(ls_run *r, const char *log);

/* haul_notes.c: what looks odd but may be so, once the farm is estimated; --sure leaves it unsaid.
 */
void ls_haul_entry_notes(ls_run *r, const ls_log *log, const ls_log_entry *e);

/* haul_place.c: as the ticket was issued the last time, its tons in proportion; NULL: it was not.
 * The acres that were planned are not told as covered. */
const char *ls_haul_issued_way(const ls_run *r, const ls_log *log, const ls_log_entry *e);

/* haul_place.c: where it went, if it was not told: as the ticket was issued, else by the plan of
 * the morning (of the loads of days before). Where neither tells, or the plan takes long to make,
 * that is said, and the place stays open. Estimates the farm on the way. */
int ls_haul_entry_find_place(ls_run *r, ls_log_entry *e);
/* A plan takes more than a moment. */
bool ls_haul_is_large(const ls_run *r);
