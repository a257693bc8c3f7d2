/* Draws of leaves that several drawings have in common, made once for all of them. */
#ifndef LITTERSHED_WORKSHEET_READY_H
#define LITTERSHED_WORKSHEET_READY_H

#include "program.h"

typedef struct ls_worksheet_ready ls_worksheet_ready;

/* The leaves that at least two of the n programs draw alike (the same key, value and spread), in
 * the arena; of very many the first ones, so that memory stays small. None is drawn yet. */
ls_worksheet_ready *ls_worksheet_ready_new(ls_arena *a, const ls_worksheet_program *programs,
                                           size_t n);
size_t ls_worksheet_ready_n(const ls_worksheet_ready *r);
/* Draw the i-th for block 0; threads may each draw another one. */
void ls_worksheet_ready_draw(ls_worksheet_ready *r, size_t i, ls_stream *stream, uint64_t seed);
/* LS_BLOCK draws of a leaf in block 0; NULL: not among them. */
const double *ls_worksheet_ready_draws(const ls_worksheet_ready *r, const ls_entry *leaf);

#endif
