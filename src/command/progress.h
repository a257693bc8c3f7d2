/* progress: what a long plan is at, on a terminal. Private to this room. */
#ifndef COMMAND_PROGRESS_H
#define COMMAND_PROGRESS_H

#include "run.h"

/* Words go to err from a second after the start on, one line that is written over, and only if err
 * is a terminal; nothing else is ever written. */
typedef struct ls_run_progress ls_run_progress;
ls_run_progress *ls_run_progress_new(ls_run *r);
ls_progress ls_run_progress_hook(ls_run_progress *p);
/* Erase the line. */
void ls_run_progress_end(ls_run_progress *p);

#endif
