/* promise: what a buyer is told of the plan, the same in text, HTML and JSON. Private to this room.
 */
#ifndef REPORT_PROMISE_H
#define REPORT_PROMISE_H

#include "report/ticket/ticket.h"

/* Drops of one certainty on one field at one rate, straight or out of the stack. */
typedef struct {
    const ls_field *field;
    const ls_analysis *analysis;
    ls_certainty certainty;
    bool from_stack;
    ls_line rate, tons, acres;
    size_t loads;
    ls_date first, last; /* days hauled; out of the stack both the first day it may be spread */
} ls_report_promised;
typedef LS_LIST(ls_report_promised) ls_report_promised_list;

/* Firm ones first; straight ones before those out of the stack; by field as in the farm file. The
 * tons and acres of the rows are lines made by ls_report_promise_lines. */
ls_report_promised_list ls_report_promised_of(const ls_view *v, const ls_plan *p,
                                              const ls_buyer *b);
void ls_report_promise_lines(const ls_view *v, const ls_estimate *e, const ls_plan *p);

/* The price of a ton; LS_NO_LINE: none is given. */
ls_line ls_report_price(const ls_view *v, const ls_buyer *b);

/* What the firm loads cost the buyer, and what their nutrients are worth; LS_NO_LINE: no firm load,
 * no price. */
ls_line ls_report_firm_price(const ls_view *v, const ls_buyer *b);
ls_line ls_report_firm_worth(const ls_view *v, const ls_buyer *b);
/* That less the price, and the price less that; LS_NO_LINE: one of them is not known. */
ls_line ls_report_firm_gain(const ls_view *v, const ls_buyer *b);
ls_line ls_report_firm_loss(const ls_view *v, const ls_buyer *b);

/* ---- a slip ---- */

enum { LS_PROMISE_CELLS = 7 };
typedef struct {
    const char *heading;
    LS_LIST(struct { const char *cells[LS_PROMISE_CELLS]; })
    rows;              /* none: nothing of this certainty */
    const char *below; /* a sentence */
} ls_report_promise_part;

typedef struct {
    const ls_buyer *buyer;
    ls_report_facts who;
    ls_report_promise_part parts[LS_POSSIBLE + 1];
    ls_report_facts terms; /* price, how sure, worth, what is in the litter */
} ls_report_promise;

/* Heads of the cells. Litters of several analyses are told apart by letters. */
void ls_report_promise_heads(ls_report_page *p, const char *heads[LS_PROMISE_CELLS]);
ls_report_promise ls_report_promise_of(ls_report_page *p, const ls_estimate *e, const ls_plan *plan,
                                       const ls_buyer *b);

#endif
