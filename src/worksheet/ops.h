/* The closed table of operations. */
#pragma once

#include "build.h"

/* Draws worked through at a time: short enough that all columns of a graph stay in the cache, a
 * divisor of LS_BLOCK and a multiple of every vector width up to four doubles. */
enum { LS_WORKSHEET_COLUMN = 500 };

/* An input of a column: LS_WORKSHEET_COLUMN draws, or one number for all of them (at NULL). */
typedef struct {
    const double *at;
    double number;
} ls_worksheet_operand;

typedef struct {
    /* The value from the values of the inputs. */
    double (*value)(const ls_worksheet *w, const ls_entry *e);
    /* LS_WORKSHEET_COLUMN values  into out, from at least one column among the inputs; out is none
     * of them. */
    void (*column)(const ls_entry *e, const ls_worksheet_operand *x, double *out);
    /* d value / d input i. */
    double (*derivative)(const ls_worksheet *w, const ls_entry *e, size_t i);
    /* The dimension of the result into *out; false if the inputs do not fit. */
    bool (*dimension)(const ls_worksheet *w, const ls_entry *e, ls_dimension *out);
} ls_worksheet_operation;

/* The operation over the n words of its inputs; x[n] says what "one" is called beside them. */
void ls_worksheet_words(ls_text *t, const ls_entry *e, const char *const *x);
/* Of any op but LS_OP_LEAF. */
const ls_worksheet_operation *ls_worksheet_operation_of(ls_op op);
