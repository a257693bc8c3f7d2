/* issue: which papers were handed out, and handing out the rest: the log first, then the paper.
 * Private to this room. */
#pragma once

#include "pick.h"

/* Of each paper: was it handed out as it is now? */
ls_handed *ls_issue_tickets_handed(const ls_run *r, const ls_picked *loads);
ls_handed *ls_issue_slips_handed(const ls_run *r, const ls_slip_list *list);

/* Only papers that were not handed out as they are stay in the list, and go into the log in one piece; handed says so.
 * It may be empty then, and nothing is written. One that was asked for by its name (named) stays in any case. LS_DONE,
 * or what is wrong is said, nothing is written, and the exit code returned. */
int ls_issue_tickets(ls_run *r, const ls_plan *plan, ls_picked *loads, ls_handed *handed, bool named);
int ls_issue_slips(ls_run *r, ls_slip_list *list, const ls_buyer **buyers, ls_handed *handed, bool named);
