/* record: the haul log, one line a load that went out, beside the farm file. Read and appended to,
 * never changed; knows nothing of a plan. */
#pragma once

#include "littershed/base.h"

#include <stdbool.h>

/* Of one log; a cell is counted in characters. A log has at most LS_MOST_BYTES. */
enum { LS_MOST_ENTRIES = 100000, LS_MOST_CELL = 1000 };

/* ---- what an entry holds ---- */

/* A day, and the time of it if that is known. */
typedef struct {
    ls_date day;
    int minute; /* since midnight; -1: not known */
} ls_when;

/* "2026-02-16T10:00" or "2026-02-16", or as other programs write it, "2/16/2026 10:00 AM": a day
 * and a time that exist, and can mean nothing else. False leaves out untouched; *either then names
 * the days it may mean, "2026-03-04 or 2026-04-03", NULL: it is none. */
bool ls_when_parse(ls_arena *a, const char *s, ls_when *out, const char **either);
/* The first two of these. */
const char *ls_when_text(ls_arena *a, ls_when when);

/* A ticket number: lot code, '-', running number in the lot (led by S for loads out of the stack),
 * '-', check character of all before it (ls_check_character): "NORTH-LEFT-03-L". */
typedef struct {
    const char *text, *code;
    const char *number; /* digits: 01 ... 99, 100 ... */
    bool from_stack;
} ls_ticket;

typedef enum {
    LS_TICKET_OK,
    LS_TICKET_FORM, /* not made like a ticket number */
    LS_TICKET_SLIP  /* the check character does not fit the rest */
} ls_ticket_status;

/* Read a ticket number, small letters as capitals; out is filled if it is made like one. */
ls_ticket_status ls_ticket_read(ls_arena *a, const char *s, ls_ticket *out);

/* What is written down in words. */
typedef enum {
    LS_LOG_FIELD, /* "Buyer/Field"; "stack"; several: "Buyer/Field (5.2 ton); Buyer/Other (3 ton,
                     1.5 ac)" */
    LS_LOG_TRUCK,
    LS_LOG_DRIVER,
    LS_LOG_RECEIVED_BY,
    LS_LOG_ANALYSIS,     /* which one was handed over */
    LS_LOG_INCORPORATED, /* when it was worked in, or that it was not */
    LS_LOG_WEATHER_BEFORE,
    LS_LOG_WEATHER,
    LS_LOG_WEATHER_AFTER,
    LS_LOG_SOIL,
    LS_LOG_NOTE,
    LS_LOG_CONFIRMED, /* what looked wrong and was confirmed: by the program */
    LS_LOG_WORDS
} ls_log_word;

/* The column of the log, "weather_before"; and the same for a reader, "weather before". */
const char *ls_log_column(ls_log_word word);
const char *ls_log_label(ls_log_word word);
/* May the text stand in a cell: UTF-8, no control, invisible or direction-changing characters but
 * tabs and newlines, at most LS_MOST_CELL characters? */
bool ls_log_fits(ls_arena *a, const char *s);

/* A load gone out; a ticket handed out; a promise; what it replaces put right, or taken back. */
typedef enum {
    LS_LOG_HAULED,
    LS_LOG_ISSUED,
    LS_LOG_PROMISED,
    LS_LOG_CORRECTION,
    LS_LOG_STRIKE,
    LS_LOG_KINDS
} ls_log_kind;
const char *ls_log_kind_name(ls_log_kind kind);

/* How sure the load of a ticket was when it was handed out. */
typedef enum { LS_LOG_UNTOLD, LS_LOG_FIRM, LS_LOG_LIKELY, LS_LOG_POSSIBLE, LS_LOG_SURES } ls_log_sure;
const char *ls_log_sure_name(ls_log_sure sure); /* ""; "firm", "likely", "possible" */

typedef struct {
    long number;      /* 1, 2, ... */
    long replaces;    /* the entry this one corrects; 0: none */
    long replaced_by; /* 0: it stands */
    ls_log_kind kind;
    ls_log_kind of;      /* what the first entry of its corrections is: none of these two */
    long first;          /* the number of that entry; its own if it corrects none; LONG_MAX: not in the log yet */
    long batch, batch_n; /* 2 of 9 entries written together; 0: written alone */
    ls_ticket ticket;
    ls_when when;
    double tons;    /* base units, as all masses; 0: a correction that strikes an entry */
    bool weighed;   /* over a scale */
    double cleared; /* share of the lot cleared once the load was out, 1: all; NAN: not told */
    double acres;   /* it covered, in base units; NAN: not told */
    /* of a ticket handed out, and of a slip (field: the buyer's name; no ticket) */
    ls_log_sure sure;                /* of the ticket */
    ls_date planned;                 /* day of the ticket; LS_NO_DATE: none */
    long loads;                      /* of the slip, in all */
    double price;                    /* of the slip, money per mass in base units; NAN: none */
    const char *words[LS_LOG_WORDS]; /* "" if not given */
    ls_place at;                     /* where it stands in the log */
} ls_log_entry;

/* An entry that says nothing yet. */
ls_log_entry ls_log_no_facts(ls_place at);
/* An entry of that kind that is not replaced and does not only strike one; a load that went out. */
bool ls_log_holds(const ls_log_entry *e, ls_log_kind of);
bool ls_log_stands(const ls_log_entry *e);
/* Does it put another right or strike it? A slip in place of another does not. */
bool ls_log_corrects(const ls_log_entry *e);
/* Which of two came first: by day and time, a day alone at its end; then a correction stands where the entry stood that
 * it replaces. <0: a. */
int ls_log_order(const ls_log_entry *a, const ls_log_entry *b);
/* Its ticket number; of a slip the buyer. */
const char *ls_log_about(const ls_log_entry *e);

/* The most tons of a load, in short tons: one of 1.125 ton that lost its point is refused. */
#define LS_MOST_TONS 1000
/* The same of a slip, for each of its loads, and the most dollars a ton. */
#define LS_MOST_SLIP_TONS 100
#define LS_MOST_PRICE 1000
/* A share as the log writes it, "40 %", "all"; "" for NAN. And back: false if it is none, or not
 * above 0 and at most 1. */
const char *ls_log_share_text(ls_arena *a, double share);
bool ls_log_share_parse(const char *s, double *out);
/* tons (base units) as the log writes them: short tons to 0.0001, no trailing zeros, no commas. */
const char *ls_log_tons_text(ls_arena *a, double tons);
/* The same in acres, and in $/ton; "" for NAN. */
const char *ls_log_acres_text(ls_arena *a, double acres);
const char *ls_log_price_text(ls_arena *a, double price);

/* ---- the file ---- */

/* A cell that says something else in the log than in its copy. */
typedef struct {
    long entry;
    const char *column;
    const char *now, *was; /* in the log, in the copy */
} ls_log_change;

/* A header row, one row an entry, by RFC 4180. A text that a spreadsheet would run as a formula is
 * led by an apostrophe in the file and is itself again once read. A header row of fewer columns, as
 * older programs wrote it, holds for the rows up to the next header row. */
typedef struct {
    const char *path;
    LS_LIST(ls_log_entry) entries;  /* number k at k - 1 */
    size_t unfinished;              /* bytes behind the last whole line or batch: their writing was cut off */
    size_t torn;                    /* entries of that batch */
    LS_LIST(ls_log_change) changed; /* by hand; the entry counts as the copy has it */
    size_t lost;                    /* of the last entries: they stand in the copy alone */
} ls_log;

/* The log of a farm file: farm.yaml (or farm.yml) has farm.haul.csv. */
const char *ls_log_path(ls_arena *a, const char *farm_file);
/* Where an unfinished end of a log is moved to, and the copy of its entries. */
const char *ls_log_torn_path(ls_arena *a, const char *log);
const char *ls_log_copy_path(ls_arena *a, const char *log);
/* Does the file begin as a log does? False if it cannot be read. */
bool ls_log_is_one(ls_arena *a, const char *path);

/* Read a log, also one that a spreadsheet program saved: days and times as 2/23/2026 9:06 AM,
 * semicolons or tabs, a decimal comma, TRUE, blank rows and columns, LF or CRLF, a byte order mark.
 * What means two things is a mistake, unless other cells or the copy tell which. No such file: a
 * log without entries. Mistakes are noted in d, NULL then; an unfinished end is only warned of.
 *
 * Beside it stands its copy, which counts where an entry differs, and for entries that the log
 * lost. Both are warned of, until the entry is replaced or the log is brought back. */
const ls_log *ls_log_read(ls_arena *a, ls_diag *d, const char *path);
/* The newest entry that hands out a ticket and is not replaced; NULL: it was not handed out. */
const ls_log_entry *ls_log_issue_of(const ls_log *log, const char *ticket);
/* The loads that stand, in their order (ls_log_order). */
typedef LS_LIST(const ls_log_entry *) ls_log_loads;
ls_log_loads ls_log_loads_of(ls_arena *a, const ls_log *log);
/* Do the logs hold the same entries? */
bool ls_log_same(ls_arena *a, const ls_log *left, const ls_log *right);

/* A list of loads that another program wrote, as a scale house does: a CSV with headings, perhaps below some lines of
 * title, Ticket, Date, Time, Net or Gross and Tare (in lb or tons, as the heading, the cell or all numbers of the
 * column together tell), Truck, or those of a log. Entries without numbers. */
typedef struct {
    LS_LIST(ls_log_entry) entries;
    const char *unread; /* headings that tell nothing of a load; NULL: none */
} ls_log_list;
/* NULL: a mistake, noted in d. */
const ls_log_list *ls_log_list_read(ls_arena *a, ls_diag *d, const char *path);

/* ---- adding to it ---- */

typedef enum {
    LS_LOG_DONE,
    LS_LOG_MISTAKE, /* the log cannot be read as one, or lost entries: noted in d */
    LS_LOG_FAILED   /* the system failed or another holds the log too long: why tells */
} ls_log_status;

/* A log held for writing: nobody else writes to it until it is closed. */
typedef struct ls_log_book ls_log_book;

/* Lock the log (made if there is none; waits up to half a minute for another who writes) and read
 * it. On LS_LOG_DONE *out must be closed; else nothing is open and the file is as it was. */
ls_log_status ls_log_open(ls_arena *a, ls_diag *d, const char *path, ls_log_book **out, const char **why);
/* The entries as they stand: when the log was opened, then with those appended. */
const ls_log *ls_log_of(const ls_log_book *b);

/* Append n entries as the next ones, whatever their numbers; that of the first goes to *number. A kind is given only to
 * what replaces nothing. First an unfinished end is moved to the file PATH.torn. The lines are on the disk when
 * LS_LOG_DONE is returned, all in one piece; on LS_LOG_FAILED no part of them is in the log. Then the copy gets what it
 * lacks. Texts must fit (ls_log_fits; checked). Once for each time the log is opened. */
ls_log_status ls_log_append(ls_log_book *b, const ls_log_entry *entries, size_t n, long *number, const char **why);
/* Why the copy could not be written (the entries are in the log all the same); NULL: it was. */
const char *ls_log_copy_fault(const ls_log_book *b);
/* Give the log free; one that was made and got no entry is taken away again. */
void ls_log_close(ls_log_book *b);
