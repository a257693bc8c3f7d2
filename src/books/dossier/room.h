/* What the parts of the dossier share. Private to this room. */
#pragma once

#include "books/books.h"

#include <stdint.h>
#include <string.h>

/* The parts of ls_books_dossier, in this order. */
void ls_dossier_make_loads(ls_dossier *d);
bool ls_dossier_make_fields(ls_dossier *d);
void ls_dossier_make_balance(ls_dossier *d);
void ls_dossier_make_ages(ls_dossier *d);
void ls_dossier_make_stack(ls_dossier *d);
void ls_dossier_make_runs(ls_dossier *d);
void ls_dossier_make_transfers(ls_dossier *d);
void ls_dossier_make_methods(ls_dossier *d);
void ls_dossier_make_days(ls_dossier *d);
void ls_dossier_make_sizes(ls_dossier *d);
void ls_dossier_make_years(ls_dossier *d);
void ls_dossier_make_months(ls_dossier *d);
void ls_dossier_make_period(ls_dossier *d);
/* Of a field: what is left after this litter's crop. */
void ls_dossier_make_ledger(ls_dossier_field *f);
/* What of the earlier files stands in no ledger. After the fields. */
void ls_dossier_join_notes(ls_dossier *d);
/* files.c: the farm of a file: 0 this one, then the earlier ones. */
const ls_farm *ls_dossier_farm(const ls_dossier *d, size_t file);
const ls_estimate *ls_dossier_estimate(const ls_dossier *d, size_t file);
/* "North/left"; "North/left of 2025.yaml". */
const char *ls_dossier_lot_name(const ls_dossier *d, size_t file, size_t lot);
/* What a ton of a lot of a file holds (LS_N, ...), and the tons it made, as one line. */
ls_line ls_dossier_per_ton(const ls_dossier *d, size_t file, size_t lot, int nutrient);
ls_line ls_dossier_made(const ls_dossier *d, size_t file, size_t lot);
/* How many loads or parts went on a field of a farm; the first and last day on which loads went. */
size_t ls_dossier_parts_on(const ls_farm *farm, const ls_field *field);
ls_window ls_dossier_span(const ls_farm *farm);
/* The one line of: tons of a load of a file, or of a part of it; the area of a field; the largest flock of that bird in
 * a house (LS_NO_LINE: none). The birds of n of the flocks alike that a flock stands for (LS_NO_LINE: 0). */
#define LS_DOSSIER_WHOLE SIZE_MAX
ls_line ls_dossier_tons(const ls_dossier *d, size_t file, size_t load, size_t part);
ls_line ls_dossier_area(const ls_dossier *d, size_t file, const ls_buyer *b, const ls_field *f);
ls_line ls_dossier_housed(const ls_dossier *d, size_t file, const ls_house *h, int bird);
ls_line ls_dossier_placed(const ls_dossier *d, size_t file, const ls_house *h, const ls_flock *f, long n);
/* Of a flock of this file: birds lost; LS_NO_LINE: not told. */
ls_line ls_dossier_lost(const ls_dossier *d, const ls_house *h, const ls_flock *f);
/* Where loads went. */
typedef struct {
    ls_books_lines out, moved, own;
} ls_dossier_gone;
void ls_dossier_add_load(const ls_dossier *d, size_t file, size_t load, ls_dossier_gone *gone);
/* No lines: a line of 0 that says so; nothing NULL: LS_NO_LINE. */
ls_line ls_dossier_sum(const ls_dossier *d, const char *key, const char *label, const char *unit,
                       const ls_books_lines *x, const char *nothing);
void ls_dossier_audit(ls_dossier *d);

/* More than the limit by what scales and tarps leave open, and more? No line: no. */
bool ls_dossier_above(const ls_dossier *d, ls_line x, ls_line limit);

/* Of the audit. */
ls_dossier_finding *ls_dossier_add(ls_dossier *d, ls_about about, const char *item, const char *of);
/* A rule that was passed, and the place where the farm's files give it (LS_NOWHERE: none). */
ls_dossier_finding *ls_dossier_passed(ls_dossier *d, ls_finding_state state, const char *item, const char *of,
                                      ls_place rule, const char *what);
/* The figures that its words name, of one unit. */
void ls_dossier_figures(ls_dossier_finding *f, ls_line one, ls_line other, const char *unit);
const char *ls_dossier_words_of(const ls_dossier *d, ls_date day);
void ls_dossier_audit_limits(ls_dossier *d);
void ls_dossier_audit_days(ls_dossier *d);
void ls_dossier_audit_farm(ls_dossier *d);
void ls_dossier_audit_fields(ls_dossier *d);
void ls_dossier_audit_transfers(ls_dossier *d);
/* It is about that entry of the log. */
void ls_dossier_about_entry(ls_dossier *d, ls_dossier_finding *f, long number);
/* "entry 1, 2, 6": all it is about. */
const char *ls_dossier_entries(const ls_dossier *d, const ls_dossier_finding *f);
/* There are several of that item and place: what tells them apart joins the id. */
void ls_dossier_tell_apart(ls_dossier *d, ls_dossier_finding *f, const char *by);
/* Found at a place of the files, or missing, with what to write, and under what. */
void ls_dossier_given(ls_dossier *d, ls_dossier_finding *f, bool given, ls_place at, ls_place under, const char *what,
                      const char *mend);
