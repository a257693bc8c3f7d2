/* ask: what a starter file leaves to be filled in, asked for on a terminal. Private to this room.
 */
#ifndef COMMAND_ASK_H
#define COMMAND_ASK_H

#include "run.h"

/* Ask what birds there are and how they are kept; false: the terminal ended. */
bool ls_run_ask_kind(ls_run *r, ls_starter *is);

/* Ask for each line of the file that is to be filled in (LS_STARTER_FILL). The file alone
 * remembers: it is read before and written as a whole after each answer, so that another run goes
 * on where one was left. When nothing is left it asks for the names of
 * houses like the first, and prints the estimate. Returns the exit code. */
int ls_run_ask(ls_run *r, const char *path);

#endif
