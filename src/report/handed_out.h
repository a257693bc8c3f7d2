/* handed_out: tickets and slips that were handed out, in words. Private to this room. */
#pragma once

#include "report/document/document.h"

/* "Larkspur Hay, Upper Meadow"; "the stack"; of a load, and of a ticket as it was handed out. */
const char *ls_report_way(ls_arena *a, const ls_load *load);
const char *ls_report_way_issued(ls_arena *a, const ls_issued *ticket);
/* Whom to call when the ticket is taken back, "Larkspur Hay, 555-0142": the buyer it was for, else
 * the one who gets its load now; NULL: nobody. */
const char *ls_report_whom(const ls_view *v, const ls_recall *r);
/* The buyer of a slip, as there. */
const char *ls_report_promised_to(ls_arena *a, const ls_promise_slip *slip);
/* Who has the tickets to take back, by their kinds of truck: "Quarry Lane Cleanout, 555-0117; spreader truck,
 * 555-0150"; NULL: the file names neither. */
const char *ls_report_hauler(const ls_view *v, const ls_handed_out *h);
/* "NORTH-LEFT-02-O, in the cab for Larkspur Hay (8.6 tons, firm): now the stack, because Upper
 * Meadow is full. Call Larkspur Hay, 555-0142." */
const char *ls_report_recall(const ls_view *v, const ls_recall *r);

/* Recalls of one buyer for one reason in one sentence, at the first of them: "Larkspur Hay, 555-0142: 2 tickets (1
 * firm), because Upper Meadow is full: NORTH-LEFT-02-O, NORTH-LEFT-03-M". Returns how many; 0: it is not the first. */
size_t ls_report_recall_group(const ls_view *v, const ls_handed_out *h, size_t first, const char **words);
/* "had 3 of 8 loads, 5 to come"; "..., 2 short". */
const char *ls_report_kept(const ls_view *v, const ls_promise_kept *p);

/* Why tons lack though all loads are there or to come: those hauled, those to come, or both. */
const char *ls_report_light(const ls_view *v, const ls_promise_kept *p);

/* Why no load comes of a promise whose buyer was removed. */
#define LS_REPORT_NO_BUYER "the farm file no longer names this buyer"

/* The tickets to take back as a table; what is recorded once one of them is back. */
void ls_report_put_recalled(ls_doc_group *g, ls_doc_level level, const ls_handed_out *h);
const char *ls_report_settle(ls_arena *a, const ls_issued *ticket);
const char *ls_report_settle_slip(ls_arena *a, const ls_promise_slip *slip);
/* Whole loads of a line of them. */
long ls_report_loads(const ls_view *v, ls_line loads);
