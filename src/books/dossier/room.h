/* What the parts of the dossier share. Private to this room. */
#ifndef BOOKS_DOSSIER_ROOM_H
#define BOOKS_DOSSIER_ROOM_H

#include "books/books.h"

#include <string.h>

/* The parts of ls_books_dossier, in this order. */
void ls_dossier_make_loads(ls_dossier *d);
bool ls_dossier_make_fields(ls_dossier *d);
void ls_dossier_make_balance(ls_dossier *d);
void ls_dossier_make_ages(ls_dossier *d);
void ls_dossier_make_stack(ls_dossier *d);
void ls_dossier_make_methods(ls_dossier *d);
void ls_dossier_make_days(ls_dossier *d);
void ls_dossier_make_sizes(ls_dossier *d);
void ls_dossier_make_years(ls_dossier *d);
void ls_dossier_make_months(ls_dossier *d);
/* Of a field: its own ledger with what earlier files tell. */
void ls_dossier_join(ls_dossier *d, ls_dossier_field *f);
/* What of the earlier files stands in no ledger. After the fields. */
void ls_dossier_join_notes(ls_dossier *d);
/* The farm of a file: 0 this one, then the earlier ones. */
const ls_farm *ls_dossier_farm(const ls_dossier *d, size_t file);
/* Does the load stand in a file before this one too (same ticket, same day)? */
bool ls_dossier_doubled(const ls_dossier *d, size_t file, const ls_hauled *load);
void ls_dossier_audit(ls_dossier *d);

/* Did a part of the load go on the field? */
bool ls_dossier_on(const ls_dossier_load *load, const ls_field *field);

/* Of the audit. */
ls_dossier_finding *ls_dossier_add(ls_dossier *d, ls_about about, const char *item, const char *of);
void ls_dossier_audit_limits(ls_dossier *d);
void ls_dossier_audit_farm(ls_dossier *d);
void ls_dossier_audit_fields(ls_dossier *d);
void ls_dossier_audit_transfers(ls_dossier *d);
/* Found at a place of the files, or missing, with what to write, and under what. */
void ls_dossier_given(ls_dossier *d, ls_dossier_finding *f, bool given, ls_place at, ls_place under,
                      const char *what, const char *mend);

#endif
