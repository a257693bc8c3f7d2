/* promise: what a buyer is told of the plan, the same in text, HTML and JSON. Private to this room.
 */
#ifndef REPORT_PROMISE_H
#define REPORT_PROMISE_H

#include "report/ticket/ticket.h"

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
ls_report_promise ls_report_promise_of(ls_report_page *p, const ls_tickets *t, const ls_buyer *b);

#endif
