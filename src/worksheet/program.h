/* What has to be worked out for the lines wanted, compiled once for all draws. */
#pragma once

#include "ops.h"

/* A register holds a column. The first program.kept registers are those of wanted lines, which are
 * kept for the whole block. */
enum { LS_WORKSHEET_NO_REGISTER = -1 };

/* Where an input or a wanted line is found: in a register, or a number alike in all draws. */
typedef struct {
    int32_t in;
    double number;
} ls_worksheet_value;

/* A leaf has a stream and draws, an operation works on its inputs; the result goes to the register out. */
typedef struct {
    const ls_entry *entry;
    const ls_worksheet_value *in;
    int32_t out;
    size_t stream;
} ls_worksheet_step;

typedef struct {
    size_t n;
    const ls_worksheet_step *steps;
    size_t registers, kept, streams;
    size_t most_inputs;
    const ls_worksheet_value *wanted; /* by index of what was wanted */
} ls_worksheet_program;

/* In the arena. Only ancestors of the wanted lines; lines that draw nothing are numbers; lines that are the same in
 * every draw, be it in several worksheets, are worked out once; a leaf is drawn just before its first use; the register
 * of a line not wanted is used again after its last use. Jobs of one worksheet stand together. */
ls_worksheet_program ls_worksheet_compile(ls_arena *a, const ls_draw_job *jobs, size_t n);

/* draw.c: ls_draw on at most so many threads (at least 1): the answer is the same whatever their number. */
void ls_worksheet_draw_on(const ls_worksheet *w, uint64_t seed, size_t draws, ls_drawn *wanted, size_t n,
                          size_t threads);
