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

/* The loads whose tickets are asked for, in the order of the plan. */
typedef struct {
    const ls_estimate *estimate;
    const ls_plan *plan;
    size_t n;
    const ls_load *const *loads;
} ls_ticket_list;

/* Lines that only tickets and promise slips need, of every load of the plan, made once after
 * ls_report_plan_lines: buckets, way, tarp check, nutrients on an acre; what each buyer is
 * promised. */
void ls_report_ticket_lines(const ls_view *v, const ls_estimate *e, const ls_plan *p);

/* A ticket for each load. Text: pages of at most 60 lines (the 66 of a letter page less the margins
 * of printing systems), a form feed between pages, none at the end. HTML: a whole document to be
 * printed, two tickets to a letter page; in itself complete, without scripts and links. */
const char *ls_report_tickets_text(const ls_view *v, const ls_ticket_list *list);
const char *ls_report_tickets_html(const ls_view *v, const ls_ticket_list *list);
const char *ls_report_tickets_json(const ls_view *v, const ls_ticket_list *list);

/* What each buyer can be promised: firm loads, likely ones, rates, analysis, price. A page a buyer;
 * only the buyer of that name if one is given. Pages and documents as above. */
const char *ls_report_promises_text(const ls_view *v, const ls_estimate *e, const ls_plan *p,
                                    const char *buyer);
const char *ls_report_promises_html(const ls_view *v, const ls_estimate *e, const ls_plan *p,
                                    const char *buyer);
const char *ls_report_promises_json(const ls_view *v, const ls_estimate *e, const ls_plan *p,
                                    const char *buyer);

/* The haul log: its entries and corrections, and what went out by lot, by field and by day (loads
 * out of the stack apart: they went out of a house before). As CSV the entries that stand, with the
 * names of their lots. */
const char *ls_report_record_text(const ls_view *v, const ls_log *log);
const char *ls_report_record_json(const ls_view *v, const ls_log *log);
const char *ls_report_record_csv(const ls_view *v, const ls_log *log);

/* ---- the dossier: where every ton went, and what the records lack ---- */

/* Farm files of an earlier year, worked out in a worksheet of their own. */
typedef struct {
    const char *file;    /* as written: "2025.yaml" */
    const ls_farm *farm; /* with what its log tells */
    const char *log;     /* path of its haul log; NULL: none can be named */
    bool log_empty;      /* no such file, or no entry in it */
    const ls_worksheet *sheet;
    const ls_estimate *estimate;
    size_t rates_n;
    const ls_field_rates *const *rates; /* of every field, in the order of the files */
} ls_dossier_earlier;

/* What a dossier is made of. Other worksheets than the view's are only read. */
typedef struct {
    const ls_estimate *estimate; /* with what the log tells, in the view's worksheet */
    ls_agronomy *agronomy;       /* NULL: the files name no field */
    const ls_estimate *before;   /* as before any load; NULL: none is gone */
    const ls_worksheet *before_sheet;
    const ls_plan *plan; /* as before any load; NULL: it cannot be made */
    const ls_worksheet *plan_sheet;
    const ls_log *log; /* NULL: there is none */
    ls_date printed;   /* LS_NO_DATE: not asked for */
    size_t earlier_n;
    const ls_dossier_earlier *earlier; /* in the order of the farm file */
} ls_dossier_terms;

typedef struct ls_dossier ls_dossier;

/* Make the lines of a dossier, once for a view, and look through the records. NULL: a field could
 * not be worked out; the mistake is in the farm's diagnostics. */
const ls_dossier *ls_report_dossier(const ls_view *v, const ls_dossier_terms *terms);

/* A required record is missing, or a limit was passed. */
bool ls_report_dossier_falls_short(const ls_dossier *d);

const char *ls_report_dossier_text(const ls_view *v, const ls_dossier *d);
/* One document, in itself complete. */
const char *ls_report_dossier_html(const ls_view *v, const ls_dossier *d);
const char *ls_report_dossier_json(const ls_view *v, const ls_dossier *d);
/* One table as CSV: "fields", "transfers", "loads", "findings", ... ; NULL: there is no such table.
 */
const char *ls_report_dossier_csv(const ls_view *v, const ls_dossier *d, const char *part);
/* The names of the tables by index, NULL past the end. */
const char *ls_report_dossier_part(size_t index);

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
