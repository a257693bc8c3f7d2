/* plan_sums: sums of a plan's loads as lines of the worksheet. Private to this room. */
#ifndef REPORT_PLAN_SUMS_H
#define REPORT_PLAN_SUMS_H

#include "littershed/report.h"

/* Tons for a buyer of one certainty, straight and out of the stack; tons of a lot taken into the
 * stack. LS_NO_LINE if there are none. */
ls_line ls_report_buyer_tons(const ls_view *v, const ls_buyer *b, ls_certainty c);
ls_line ls_report_stacked_tons(const ls_view *v, const ls_lot *lot);

/* Tons that went into the stack before, by the haul log, whether or not they left it since, and
 * those of them that still lie there; LS_NO_LINE: none went in. */
ls_line ls_report_stacked_before(const ls_view *v);
ls_line ls_report_still_stacked(const ls_view *v);

/* How many loads a buyer gets of one certainty, straight and out of the stack. */
size_t ls_report_buyer_loads(const ls_plan *p, const ls_buyer *b, ls_certainty c);

/* All that goes on one field, straight and out of the stack: tons and acres; LS_NO_LINE if nothing
 * does. */
ls_line ls_report_field_tons(const ls_view *v, const ls_buyer *b, const ls_field *f);
ls_line ls_report_field_acres(const ls_view *v, const ls_buyer *b, const ls_field *f);

/* Is less than a smallest drop left without a home, so that the rest is mere rounding? At the high
 * stage; at one stage. */
bool ls_report_all_placed(const ls_view *v, const ls_plan *p);
bool ls_report_all_placed_in(const ls_view *v, const ls_plan *p, int stage);

/* What goes to a buyer at the middle stage and what is paid for it; LS_NO_LINE: nothing, or no
 * price is given. */
ls_line ls_report_buyer_middle(const ls_view *v, const ls_buyer *b);
ls_line ls_report_buyer_income(const ls_view *v, const ls_buyer *b);

#endif
