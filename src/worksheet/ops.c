/* The table of operations and what each makes of the dimensions of its inputs. */
#include "ops.h"

#include "op_parts.h"

#include <stdint.h>

static ls_dimension input_dimension(const ls_worksheet *w, const ls_entry *e, size_t i) {
    return ls_worksheet_input(w, e, i)->unit.dimension;
}

/* Every step-th input from the first on. */
static bool all_same(const ls_worksheet *w, const ls_entry *e, size_t step) {
    for (size_t i = step; i < e->n; i += step)
        if (!ls_dimension_same(input_dimension(w, e, i), input_dimension(w, e, 0)))
            return false;
    return true;
}

static bool same_dimension(const ls_worksheet *w, const ls_entry *e, ls_dimension *out) {
    *out = input_dimension(w, e, 0);
    return all_same(w, e, 1);
}

static bool product_dimension(const ls_worksheet *w, const ls_entry *e, ls_dimension *out) {
    *out = input_dimension(w, e, 0);
    for (size_t i = 1; i < e->n; i++)
        *out = ls_dimension_times(*out, input_dimension(w, e, i), 1);
    return true;
}

static bool quotient_dimension(const ls_worksheet *w, const ls_entry *e, ls_dimension *out) {
    *out = ls_dimension_times(input_dimension(w, e, 0), input_dimension(w, e, 1), -1);
    return true;
}

static bool no_dimension(const ls_worksheet *w, const ls_entry *e, ls_dimension *out) {
    *out = input_dimension(w, e, 0);
    return ls_dimension_none(*out);
}

static bool geomean_dimension(const ls_worksheet *w, const ls_entry *e, ls_dimension *out) {
    *out = input_dimension(w, e, 0);
    for (size_t i = 1; i < e->n; i += 2)
        if (!ls_dimension_none(input_dimension(w, e, i)))
            return false;
    return all_same(w, e, 2);
}

/* A table maps any dimension to any other. */
static bool table_dimension(const ls_worksheet *w, const ls_entry *e, ls_dimension *out) {
    (void)w;
    *out = e->unit.dimension;
    return true;
}

#define PARTS(op)                                                                                  \
    ls_worksheet_value_##op, ls_worksheet_column_##op, ls_worksheet_derivative_##op,               \
        ls_worksheet_words_##op

static const ls_worksheet_operation operations[LS_OPS] = {
    [LS_OP_SAME] = {PARTS(same), same_dimension},
    [LS_OP_SUM] = {PARTS(sum), same_dimension},
    [LS_OP_DIFFERENCE] = {PARTS(difference), same_dimension},
    [LS_OP_PRODUCT] = {PARTS(product), product_dimension},
    [LS_OP_QUOTIENT] = {PARTS(quotient), quotient_dimension},
    [LS_OP_COMPLEMENT] = {PARTS(complement), no_dimension},
    [LS_OP_LEAST] = {PARTS(least), same_dimension},
    [LS_OP_GREATEST] = {PARTS(greatest), same_dimension},
    [LS_OP_CLIP] = {PARTS(clip), same_dimension},
    [LS_OP_STEP_DOWN] = {PARTS(step_down), same_dimension},
    [LS_OP_STEP_UP] = {PARTS(step_up), same_dimension},
    [LS_OP_GEOMEAN] = {PARTS(geomean), geomean_dimension},
    [LS_OP_INTERPOLATE] = {PARTS(interpolate), table_dimension},
};

const ls_worksheet_operation *ls_worksheet_operation_of(ls_op op) {
    return &operations[op];
}
