/* What the farm files leave out, and what each of it is worth. */
#pragma once

#include "littershed/litter.h"

typedef struct {
    const char *words;           /* "no laboratory report (lab): N-P-K as published, safe rates" */
    const char *path;            /* the key to write ("houses.lab") */
    LS_LIST(const char *) where; /* houses or fields; none: the farm */
    /* Loads (tons without a truck) that the range of all narrows by once it is measured, or that find a field more once
     * it is filled in, as far as acres go; $ that the worth of the nutrients may be off by. LS_NO_LINE: not known. */
    ls_line worth;
    const char *unit; /* of that, "load", "ton", "$" */
    int rank;         /* 0: without it there is no answer; then the worse the less */
    double loads;     /* the worth in loads, to compare */
} ls_gap;
typedef LS_LIST(ls_gap) ls_gap_list;

struct ls_books;

/* The worst first: what leaves no answer, then what is worth most. next: see ls_litter_next.
 * Without an estimate no worth is known. Adds lines to the worksheet. */
ls_gap_list ls_books_gaps(const struct ls_books *books, const ls_next_list *next);
/* Has the field a soil test that no table reads? */
bool ls_books_soil_unread(const ls_farm *f, const ls_field *field);
