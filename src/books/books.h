/* What the files of books share. Private to this room. */
#pragma once

#include "littershed/books.h"

typedef LS_LIST(ls_line) ls_books_lines;

/* plan.c: the first day after that one on which loads went out; LS_NO_DATE: there is none. */
ls_date ls_books_next_day(const ls_farm *farm, ls_date after);

/* A copy of the farm without what a log tells: nothing is gone, nothing handed out. */
ls_farm *ls_books_bare(const ls_books *books);

/* Another state of the same farm, in a worksheet of its own: estimate and rates are NULL if they cannot be made. */
ls_books ls_books_of(const ls_books *books, const ls_farm *farm);

/* issued.c: what became of the ticket that an entry hands out: the entry that it went out with, and the newest that
 * hands it out (0: there is none); of the log's entries, only hauled ones of days before that one. */
typedef struct {
    long hauled_as, newest;
} ls_ticket_fate;
const ls_ticket_fate *ls_books_fates(const ls_books *books, ls_date before);
/* Fills the farm with tickets and slips that were handed out, as ls_books_log does. */
void ls_books_handed(const ls_books *books, ls_farm *farm, ls_date before);

/* had.c: the buyer whose name, now or before, leads that of a field; *n its bytes: of names that lead it the longest.
 * NULL: the files name none, and without a slip of his the name ends where the first slash stands. */
const ls_buyer *ls_books_owner(const ls_farm *farm, const char *place, size_t *n);
/* Does a way of the log, "Buyer/Field (5 ton); Buyer/Other (3 ton)", name the buyer? */
bool ls_books_names(const ls_farm *farm, const char *way, const char *buyer);
/* The entry of a load in the log. */
const ls_log_entry *ls_books_entry(const ls_books *books, const ls_hauled *load);
/* Loads that went out while a slip held, to him or not, in their order; NULL: those of the
 * litter that is in the houses. */
typedef LS_LIST(const ls_hauled *) ls_books_loads;
ls_books_loads ls_books_loads_for(const ls_books *books, const ls_farm *farm, const ls_promise_slip *slip);
/* Tons of a load that are on fields of his; 0: none. A buyer whom the files name no more had the
 * loads whose way names him. */
double ls_books_tons_to(const ls_books *books, const ls_farm *farm, const ls_hauled *load, const ls_promise_slip *slip);
/* ledger.c: fills the farm with what its earlier files tell of its fields, and marks loads that
 * stand in two files. The field of this farm that one of an earlier file became; NULL: none. */
void ls_books_past(ls_books *books);
const ls_field *ls_books_same_field(const ls_books *books, size_t file, const ls_buyer *buyer, const ls_field *field);

/* litters.c: the litter of all loads of all files, by log, load and part; in the stack that of each
 * lot goes out by its ticket, else first in, first out. */
typedef struct {
    LS_LIST(ls_dossier_piece) all;   /* tons is LS_NO_LINE */
    LS_LIST(ls_dossier_piece) lying; /* what lies in the stack yet, longest first lot by lot */
} ls_litters;
ls_litters ls_books_litters(const ls_books *books);
/* Fills the farm with what earlier files left in the stack. */
void ls_books_stacked(const ls_books *books, ls_farm *farm, const ls_litters *litters);
/* 0: these books; then the earlier ones. */
const ls_books *ls_books_file(const ls_books *books, size_t file);

/* The lots of each file; the code by which the newest file that names a lot of one knows it,
 * through the names it had in those between. */
const ls_coded_lots *ls_books_all_lots(const ls_books *books);
const char *ls_books_code_now(const ls_coded_lots *all, size_t file, const char *code);

/* cautions.c: those of the tables that belong to a load, for its driver, loader and receiver; to
 * all the work of a plan. */
ls_cautions ls_books_load_cautions(const ls_books *books, const ls_load *load);
ls_cautions ls_books_plan_cautions(const ls_books *books, const ls_plan *plan);

/* promises.c: what each buyer is promised, one sheet for each of the farm. */
const ls_buyer_sheet *ls_books_promises(ls_books *books, const ls_plan_sums *sums);

/* handed_out.c: the buyer's phone in the note of a paper; NULL: it has none. */
const char *ls_books_phone(ls_arena *a, const char *note);
/* What became of tickets and slips, as lines; a load as its paper says it. */
const ls_load *ls_books_paper(ls_books *books, const ls_load *load);
/* What the buyer of a slip had: while it held, or, if it is none that was handed out, of the litter
 * in the houses. Keys begin with key. Loads he had, and their tons; out stays without any. */
ls_had_loads ls_books_had(ls_books *books, const ls_promise_slip *slip, bool held, const char *key);
long ls_books_had_sum(ls_books *books, const ls_had_loads *list, const char *key, const char *name, ls_line *out);
/* What lacks and what is beyond, of the tons promised, had and to come. */
void ls_books_balance(ls_books *books, const char *key, const char *name, ls_promise_tons *t);
/* Is the load one of those to come of a promise? kept NULL: of none. */
bool ls_books_owes(const ls_promise_kept *kept, const ls_load *load);
const ls_handed_out *ls_books_handed_out(ls_books *books, const ls_plan *plan);

/* The birds of a flock; of a house the largest flock of that bird, NULL: none. */
long ls_books_birds(const ls_flock *f);
const ls_flock *ls_books_largest(const ls_house *h, int bird);
