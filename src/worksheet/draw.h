#ifndef LITTERSHED_WORKSHEET_DRAW_H
#define LITTERSHED_WORKSHEET_DRAW_H

#include "littershed/worksheet.h"

/* ls_draw on at most so many threads (at least 1): the answer is the same whatever their number. */
void ls_worksheet_draw_on(const ls_worksheet *w, uint64_t seed, size_t draws, ls_drawn *wanted,
                          size_t n, size_t threads);

#endif
