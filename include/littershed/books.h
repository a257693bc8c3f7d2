/* books: the way of a farm from its files and its haul log to estimate, rates, plan and dossier,
 * and what those add up to as lines: all that a page shows is made when it is told. */
#pragma once

#include "littershed/books/dossier.h"
#include "littershed/books/gaps.h"
#include "littershed/books/log.h"
#include "littershed/books/plan.h"

/* Of one farm in one year, filled as far as one has come: arena, published, seed, draws and digits
 * are given, the rest is filled by the steps below, in their order. */
struct ls_books {
    ls_arena *arena;
    const ls_reference *published;
    uint64_t seed;
    size_t draws; /* after an estimate with digits: as many as were drawn */
    int digits;   /* see ls_draws_needed; 0: as many draws as said */
    ls_diag *diag;
    const ls_reference *reference; /* with the farm's own tables */
    ls_worksheet *sheet;
    const ls_farm *farm; /* once the log is read: with the loads that it tells */
    const ls_log *log;   /* NULL: none is read */
    ls_estimate *estimate;
    ls_agronomy *agronomy;
    const char *instead; /* a change to be laid over the farm files; NULL: none */
    /* of an earlier year */
    const char *name;                      /* of its file, as written: "2025.yaml" */
    LS_LIST(const ls_field_rates *) rates; /* of every field, in the order of the files */
    size_t doubled;              /* loads of its log that the file of a later year has too: there they count */
    LS_LIST(ls_books *) earlier; /* the newest first, by their loads */
};

/* Steps. False, or NULL: a mistake is noted in diag. */
bool ls_books_read(ls_books *books, const char *const *files, size_t n);
/* Only loads of days before that one; LS_NO_DATE: all. Tickets and slips that were handed out all
 * count, whatever their day. The log is read once. */
bool ls_books_log(ls_books *books, ls_date before);
bool ls_books_estimate(ls_books *books);
bool ls_books_agronomy(ls_books *books);
/* Has the farm any field; does it name all that a plan needs? */
bool ls_books_has_fields(const ls_books *books);
bool ls_books_can_plan(const ls_books *books);
/* The plan of what is not gone by the log, by the tickets and slips handed out. */
const ls_plan *ls_books_plan(ls_books *books, const ls_plan_terms *terms);
/* The books of the years that the farm file names under earlier, and what they tell of its fields: after the log and
 * before the estimate, once. Only stated figures are asked of them. False: the diag of the last of them tells why. */
bool ls_books_earlier(ls_books *books);
/* Do the lines fit together? If not, the tables of the farm's own are at fault, and a mistake is
 * noted; without such tables the program ends (exit 3). */
bool ls_books_fit(const ls_books *books);
/* Each field's rates are worked out, shown, and their lines given back. rates NULL: they could not
 * be worked out. show: false, go no further. False: a field could not be worked out. */
typedef bool ls_books_show(void *to, const ls_field_rates *rates);
bool ls_books_each_field(ls_books *books, ls_books_show *show, void *to);
