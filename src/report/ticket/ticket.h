/* ticket: what stands on a ticket. Private to this room. */
#pragma once

#include "report/paper/paper.h"

/* Days from spreading until something may come on the field: by the farm file or a caution. */
typedef struct {
    const char *what; /* "cattle", "harvest of organic food", ... */
    ls_interval wait;
} ls_report_wait;
typedef LS_LIST(ls_report_wait) ls_report_wait_list;

/* Counted from the day planned now. A caution is told where the farm file's own limit is not as long. */
ls_report_wait_list ls_report_waits(const ls_view *v, const ls_earliest *e);

/* Day and order of the day; of one that was handed out the day that it says. */
const char *ls_report_when(const ls_report_page *p, const ls_plan *plan, const ls_load *load);

/* The paper of load i of those asked for: does it bind, what does it take the place of (the newest
 * such ticket; NULL: none), what is otherwise since (NULL: nothing). */
const ls_issued *ls_report_in_place_of(const ls_ticket_list *list, size_t i);
const ls_ticket_moved *ls_report_moved(const ls_ticket_list *list, size_t i);

/* Tons as a truck scale shows them, to a tenth; acres of so many, to a hundredth. */
const char *ls_report_by_scale(const ls_report_page *p, ls_line line, const char *unit);

/* What goes on field k of a load: as lines to read first; and as facts. */
void ls_report_drop_leads(ls_paper *t, const ls_tickets *of, const ls_load_sheet *sheet, size_t k);
void ls_report_drop_facts(ls_paper *t, const ls_tickets *of, const ls_load_sheet *sheet, size_t k);

/* "N 38, P2O5 56, K2O 36 lb/ton". */
const char *ls_report_contents(const ls_report_page *p, const ls_line lines[LS_FIELD_NUTRIENTS], const char *unit);
/* Those of a ton, and whose analysis says so. */
const char *ls_report_litter(const ls_report_page *p, const ls_analysis *a);

/* What stands at the foot of tickets and slips. */
#define LS_REPORT_DECIDE "Planning figures. The local code and the nutrient management plan decide what may be spread."

/* For other programs. */
const char *ls_report_tickets_json(const ls_view *v, const ls_ticket_list *list);
