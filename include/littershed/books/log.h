/* books: the haul log as loads of the farm, and what it adds up to. */
#pragma once

#include "littershed/litter.h"
#include "littershed/record.h"
#include "littershed/worksheet.h"

typedef struct ls_books ls_books;

/* The log of the farm that was read; NULL: it came from the standard input and names none. */
const char *ls_books_log_path(const ls_books *books);

/* Where a load went: "Buyer/Field", "stack", or several of them between semicolons, each with its
 * tons and perhaps acres: "Buyer/Field (5.2 ton); Buyer/Other (3 ton, 1.5 ac)", or "Buyer/Other 3
 * tons 1.5 ac". Of one that tells no tons it is the rest; those of all come to the load's. Places
 * the farm does not know are left out, the first of them in *unknown (NULL: all are known). */
typedef struct {
    ls_hauled_drop *at;
    size_t n, cap;
    double told; /* tons of the parts as they were told */
    size_t left; /* parts that tell none */
} ls_hauled_drops;
ls_hauled_drops ls_hauled_places(ls_arena *a, const ls_farm *farm, const char *text, double tons, const char **unknown);
/* The acres a load covered, shared by tons between the fields that tell none. */
void ls_hauled_cover(ls_hauled_drops *drops, double acres);
/* The same text again: of drops that are all known. */
const char *ls_hauled_text(ls_arena *a, const ls_hauled_drop *drops, size_t n);
/* The text with its tons in proportion to a load of other tons; as it is if it tells none, or names
 * places the farm does not know. */
const char *ls_hauled_scaled(ls_arena *a, const ls_farm *farm, const char *text, double tons);

/* Name and house of the lot of a code. */
typedef struct {
    const char *code, *name;
    const ls_house *house;
    const char *before[3]; /* codes by names the house and the side had; NULL: none */
    ls_date since;         /* when the first birds on its litter came; LS_NO_DATE: not known */
} ls_coded_lot;
typedef LS_LIST(ls_coded_lot) ls_coded_lots;
ls_coded_lots ls_books_lots(ls_arena *a, const ls_farm *farm);
/* NULL: there is none of that code; the same of an estimate (NULL: there is none). */
const ls_coded_lot *ls_books_lot(const ls_coded_lots *lots, const char *code);
const ls_lot *ls_books_lot_of(const ls_estimate *e, const char *code);
/* The lot whose litter went out with the entry; NULL: there is none of that code, or the load left
 * before the birds came, so it was an earlier litter. */
const ls_coded_lot *ls_books_litter(const ls_coded_lots *lots, const ls_log_entry *e);
/* Are they of one ticket? Its number comes again with the next litter. */
bool ls_books_same_ticket(const ls_coded_lots *lots, const ls_log_entry *a, const ls_log_entry *b);
/* Does a load go where its ticket says? True too where the files do not name its fields. */
bool ls_books_same_way(const ls_issued *is, const ls_hauled_drop *drops, size_t n);
/* The buyer or field of a ticket that the files no longer name; NULL: they name all. */
const char *ls_books_no_longer(const ls_issued *is);
/* The note of a paper that is handed out, "call 555-0142; in place of entry 3: Upper Meadow is
 * full": the phone of its buyer, should the file lose him, and why the older ticket is recalled,
 * which is told by that while it is out. NULL: no buyer, none is recalled. */
const char *ls_books_issue_note(ls_arena *a, const ls_buyer *buyer, const ls_recall *r);
/* Why the ticket was recalled, by the note of the paper in its place; NULL: that does not tell. */
const char *ls_books_noted(const ls_books *books, const ls_issued *is);
/* The ticket that an entry hands out, by names as they were and things as the files have them. */
ls_issued ls_issued_of(ls_arena *a, const ls_farm *farm, const ls_coded_lots *lots, const ls_log_entry *e);

/* ---- sums ---- */

/* An entry with the line of its tons. */
typedef struct {
    const ls_log_entry *entry;
    const char *lot; /* its name; that of its code, if the farm has no such lot or litter */
    size_t order;    /* of the lot on the farm */
    bool known;      /* the farm has it */
    ls_line tons;
    long hauled_as; /* of a ticket handed out: the entry of its load; 0: it did not go out */
    long again_as;  /* ... the newest entry that hands it out, if that is another; 0 */
} ls_logged;

/* Loads of one lot or one day; loads out of the stack apart. */
typedef struct {
    const char *lot; /* NULL: a day */
    ls_date day;     /* LS_NO_DATE: a lot */
    bool from_stack;
    size_t loads;
    ls_line tons;
} ls_log_sum;

/* Drops on one field, or (buyer and field NULL) into the stack, on places that the files do not
 * name, or that are not told. All come to the tons of all loads, but for those out of the stack. */
typedef enum { LS_TO_FIELD, LS_TO_STACK, LS_TO_UNKNOWN, LS_TO_UNTOLD } ls_place_kind;
typedef struct {
    ls_place_kind kind;
    const ls_buyer *buyer;
    const ls_field *field;
    size_t loads;
    ls_line tons;
} ls_place_sum;

typedef struct {
    const ls_log *log;
    const ls_logged *entries; /* every entry of the log */
    size_t n;
    const ls_logged *hauled;        /* those that stand, in their order (ls_log_order) */
    LS_LIST(ls_log_sum) lots, days; /* lots as on the farm, then by code; days by date */
    LS_LIST(ls_place_sum) places;   /* in the order of the farm files, then by kind */
    ls_line houses, stack;          /* all tons out of houses, out of the stack; LS_NO_LINE: none */
    size_t house_loads, stack_loads;
} ls_log_sums;

/* Loads that count in the log alone or on no field, entries that differ from their copy or are
 * lost, a line cut off: sentences. Of the years before too, as far as they are read. */
typedef LS_LIST(const char *) ls_log_notes;
ls_log_notes ls_books_log_notes(const ls_books *books);
/* Makes the lines, once after the log is read. */
const ls_log_sums *ls_books_log_sums(ls_books *books);
