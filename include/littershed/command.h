/* command: the command line. */
#pragma once

#include <stdio.h>

/* Exit codes. */
enum { LS_DONE = 0, LS_MISTAKE = 1, LS_USAGE = 2, LS_SYSTEM = 3 };

/* Run the program: results go to out, messages to err. Returns the exit code. May be called several
 * times in one process (tests do). */
int ls_command_main(int argc, char **argv, FILE *out, FILE *err);
