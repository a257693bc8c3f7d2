/* gate: no output goes over a file that is read or named in the run. Private to this room. */
#ifndef COMMAND_GATE_H
#define COMMAND_GATE_H

#include "run.h"

/* Keep what belongs to the farm that was read from these files: they, all that they name, their
 * haul logs (there or not) with what was cut off of them, and the same of earlier years' files. */
void ls_gate_keep(ls_run *r, const char *const *files, size_t n);

/* May the output go where it is sent: -o to no folder, into a folder that is there and may be
 * written, and neither -o nor the standard output to a file that is kept, by its name or by the
 * file itself? If not, that is said and the run refused. */
bool ls_gate_passes(ls_run *r);

#endif
