/* report: what a run found, as pages of text (80 columns) and as JSON. Every function returns text
 * in the arena, ended by a newline. */
#ifndef LITTERSHED_REPORT_H
#define LITTERSHED_REPORT_H

#include "littershed/agronomy.h"
#include "littershed/haul.h"
#include "littershed/litter.h"
#include "littershed/record.h"
#include "littershed/worksheet.h"

/* What every report needs. */
typedef struct {
    ls_arena *arena;
    ls_worksheet *sheet;
    const ls_reference *reference;
    const ls_farm *farm; /* NULL for sources */
    bool metric;         /* text only: --units metric */
    uint64_t seed;
    size_t draws;
} ls_view;

/* What was read and what is missing; e is NULL if no estimate can be made yet; diagnostics as
 * ls_diag_print prints them. */
const char *ls_report_check_text(const ls_view *v, const ls_estimate *e, const char *diagnostics);

/* next: what to measure next, best first. */
const char *ls_report_estimate_text(const ls_view *v, const ls_estimate *e, ls_next_list next);
const char *ls_report_estimate_json(const ls_view *v, const ls_estimate *e, ls_next_list next);

/* Field by field: each field's lines are made, written and given back. NULL: a mistake is noted in
 * the farm's diagnostics. */
const char *ls_report_rates_text(const ls_view *v, const ls_estimate *e, ls_agronomy *g);
const char *ls_report_rates_json(const ls_view *v, const ls_estimate *e, ls_agronomy *g);

/* Lines that only the pages of a plan need, made once after it: tons for each buyer by certainty,
 * tons of each lot taken into the stack. */
void ls_report_plan_lines(const ls_view *v, const ls_estimate *e, const ls_plan *p);

const char *ls_report_plan_text(const ls_view *v, const ls_estimate *e, const ls_plan *p);
const char *ls_report_plan_json(const ls_view *v, const ls_estimate *e, const ls_plan *p);

/* The haul log: its entries and corrections, and what went out by lot, by field and by day (loads
 * out of the stack apart: they went out of a house before). As CSV the entries that stand, with the
 * names of their lots. */
const char *ls_report_record_text(const ls_view *v, const ls_log *log);
const char *ls_report_record_json(const ls_view *v, const ls_log *log);
const char *ls_report_record_csv(const ls_view *v, const ls_log *log);

/* How a line came about, down to file lines and sources: a tree; a line that stood before is only
 * named again. */
const char *ls_report_explain_text(const ls_view *v, ls_line line, size_t depth);
const char *ls_report_explain_json(const ls_view *v, ls_line line, size_t depth);
/* The worksheet's lines from first on, each told once, in the order in which they were made: a line
 * stands below those it is made of. skip[i]: line i is left out; NULL: none is. */
const char *ls_report_worksheet_text(const ls_view *v, size_t first, const bool *skip);
/* The keys of the same lines, one a line: key, value, label. */
const char *ls_report_keys(const ls_view *v, size_t first, const bool *skip);

/* The published tables (one by id, those of a kind, or NULL: all): rows, figures, status, sources.
 * NULL if there is no such table. */
const char *ls_report_sources_text(const ls_view *v, const char *table);
const char *ls_report_sources_json(const ls_view *v, const char *table);

#endif
