/* report: what a run found, as pages of text, HTML, JSON and CSV. It makes no line:
 * the books have made them all. Functions return text in the arena, ended by a newline. */
#pragma once

#include "littershed/books/dossier.h"
#include "littershed/books/gaps.h"
#include "littershed/books/log.h"
#include "littershed/books/plan.h"
#include "littershed/litter.h"

/* What every report needs. */
typedef struct {
    ls_arena *arena;
    const ls_worksheet *sheet;
    const ls_reference *reference;
    const ls_farm *farm;    /* NULL for sources */
    bool metric;            /* text only: --units metric */
    bool full;              /* pages: all there is to say, not the first screen alone */
    int year;               /* days of that year are told without it; 0: each with its own */
    size_t columns;         /* of a page of text; 0: 80 */
    bool bold;              /* text only: headings and the answer stand out, by escapes of a terminal */
    ls_log_notes log_notes; /* of the haul log, if it is read */
    const char *files;      /* as named, for a command to be typed; NULL: their names are not known */
    uint64_t seed;
    size_t draws;
} ls_view;

/* What a page says, to be written in one of four ways. It lives in the view's arena and needs no
 * line of the worksheet any more. */
typedef struct ls_document ls_document;

/* What a document is written as. */
typedef enum { LS_TEXT, LS_HTML, LS_JSON, LS_CSV } ls_form;

/* As wide as the view is, in its units. */
const char *ls_document_text(const ls_document *d);
/* In itself complete: no scripts, no links out, no network. */
const char *ls_document_html(const ls_document *d);
/* All there is, with the names of the contract, in US units. */
const char *ls_document_json(const ls_document *d);
/* One of its tables, by its place in the JSON ("loads", "loads.drops"): a row of names, then a line
 * each; a row of a table within others begins with what stands in the rows around it. */
const char *ls_document_csv(const ls_document *d, const char *part);
/* The table that stands for the document; NULL: none does. */
const char *ls_document_table(const ls_document *d);
/* The names of its tables, ended by NULL. */
const char *const *ls_document_parts(const ls_document *d);
/* What was read and what is missing, as ls_books_gaps has it; e is NULL if no estimate can be made
 * yet; diagnostics as ls_diag_print prints them. */
const ls_document *ls_report_check(const ls_view *v, const ls_estimate *e, ls_gap_list gaps, const char *diagnostics);
/* next: what to measure next, best first. */
const ls_document *ls_report_estimate(const ls_view *v, const ls_estimate *e, ls_next_list next);

/* The rates, told field by field, as ls_books_each_field shows them: begin, a part for each field,
 * end. Fields are written as they come: the document can be written in that form only. */
typedef struct ls_rates_page ls_rates_page;
ls_rates_page *ls_report_rates_begin(const ls_view *v, const ls_agronomy *g, ls_form form);
void ls_report_rates_field(ls_rates_page *page, const ls_field_rates *field);
const ls_document *ls_report_rates_end(ls_rates_page *page);

const ls_document *ls_report_plan(const ls_view *v, const ls_plan_sums *s);
/* Two documents of a command side by side: of the files, and of the files with a change laid over
 * them. JSON holds both whole, as "now" and "instead". */
const ls_document *ls_report_instead(const ls_view *v, const char *command, const ls_document *now,
                                     const ls_document *instead, const ls_farm_changes *list);

/* Does a paper bind? */
typedef enum {
    LS_MARK_DRAFT,  /* it was not handed out: a plan made anew may say otherwise */
    LS_MARK_ISSUED, /* it is handed out now, and the log has it */
    LS_MARK_COPY    /* as it was handed out before */
} ls_mark;
typedef struct {
    ls_mark mark;
    ls_date day;    /* of the entry; no meaning in a draft */
    long log_entry; /* 0: a draft */
} ls_handed;
/* "DRAFT, NOT ISSUED", "ISSUED Mon, Feb 16", "COPY, issued Mon, Feb 16". */
const char *ls_handed_text(const ls_view *v, const ls_handed *handed);

/* The loads whose tickets are asked for, in the order of the plan. */
typedef struct {
    const ls_tickets *figures;
    size_t n;
    const ls_load *const *loads;
    const ls_handed *handed; /* [n] */
    bool take_back;          /* a first page tells the recalls of the plan, if there are any (n may be 0) */
} ls_ticket_list;

/* A ticket for each load. Text: pages of at most 60 lines (the 66 of a letter page less the margins
 * of printing systems), a form feed between pages, none at the end. HTML: a whole document to be
 * printed, two tickets to a letter page; in itself complete, without scripts and links. */
const char *ls_report_tickets(const ls_view *v, const ls_ticket_list *list, ls_form form);

/* The buyers whose slips are asked for, in the order of the farm file. */
typedef struct {
    const ls_tickets *figures;
    size_t n;
    const ls_buyer *const *buyers;
    const ls_handed *handed; /* [n]; of a draft where a slip stands: what it would say instead */
    const char *gone;        /* of buyers no longer in the files: the one asked for; "": all; NULL: none */
    bool worth;              /* pages say what the litter is worth to the buyer */
} ls_slip_list;

/* What each buyer can be promised: firm loads, likely ones, rates, analysis, price; what was
 * promised. A page a buyer. Pages and documents as above. */
const char *ls_report_promises(const ls_view *v, const ls_slip_list *list, ls_form form);

/* The haul log: its entries and corrections, and what went out by lot, by field and by day (loads out of the stack
 * apart: they went out of a house before). Its table "loads": the entries that stand, with the names of their lots. h:
 * what became of tickets and slips; NULL: as far as the log tells. */
const ls_document *ls_report_record(const ls_view *v, const ls_log_sums *s, const ls_handed_out *h);
/* The inspector's answer: what the farm is, the findings, a sheet for each field, all loads, and
 * the worksheet; without it figures keep its numbers. */
const ls_document *ls_report_dossier(const ls_view *v, const ls_dossier *d, bool worksheet);
/* The warning that every page, document and paper begins with while figures of the farm's files are still those of a
 * starter; NULL: none is due. */
const char *ls_report_starter_words(const ls_view *v);
/* How a line came about, down to file lines and sources: a tree, each line told once. */
const ls_document *ls_report_explain(const ls_view *v, ls_line line, size_t depth);
/* The worksheet's lines from first on, each told once, in the order in which they were made: a line
 * stands below those it is made of. skip[i]: line i is left out; NULL: none is. */
const char *ls_report_worksheet_text(const ls_view *v, size_t first, const bool *skip);
/* The keys of the same lines, one a line: key, value, label. */
const char *ls_report_keys(const ls_view *v, size_t first, const bool *skip);
/* The published tables (one by id, those of a kind, or NULL: all): rows, figures, status, sources.
 * NULL if there is no such table. */
const ls_document *ls_report_sources(const ls_view *v, const char *name);
