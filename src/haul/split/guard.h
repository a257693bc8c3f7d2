/* GLPK kept quiet, and kept from ending the program. Private to the room. */
#pragma once

#include <stdbool.h>

/* Run work(data), which may use GLPK but keep nothing of it; nothing is printed. False if GLPK gave up on the way (a
 * failed assertion, no memory): what work wrote into data before that stands. Everything GLPK held is freed. */
bool ls_haul_guarded(void (*work)(void *data), void *data);
