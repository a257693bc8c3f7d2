/* One function for every kind of operation. */
#include "build.h"

/* Of something unknown. */
static ls_line operation(ls_worksheet *w, ls_entry e, ls_op op, const ls_line *x, size_t n) {
    for (size_t i = 0; i < n; i++)
        if (x[i] == LS_NO_LINE) return LS_NO_LINE;
    e.op = op;
    e.n = n;
    return ls_worksheet_append(w, e, x);
}

/* Of those of the lines that are known. */
static ls_line over_known(ls_worksheet *w, ls_entry e, ls_op op, const ls_line *x, size_t n) {
    ls_line *known = ls_worksheet_shelf_take(&w->book->shelf, sizeof *known, n);
    size_t known_n = 0;
    for (size_t i = 0; i < n; i++)
        if (x[i] != LS_NO_LINE) known[known_n++] = x[i];
    return known_n == 0 ? LS_NO_LINE : operation(w, e, op, known, known_n);
}

#define NAMED const char *key, const char *label, const char *unit
#define ENTRY ls_worksheet_named(w, key, label, unit)
#define OF_ONE(name, op)                                                                                               \
    ls_line name(ls_worksheet *w, NAMED, ls_line x) { return operation(w, ENTRY, op, &x, 1); }
#define OF_TWO(name, op)                                                                                               \
    ls_line name(ls_worksheet *w, NAMED, ls_line a, ls_line b) { return operation(w, ENTRY, op, (ls_line[]){a, b}, 2); }
#define OF_MANY(name, op, how)                                                                                         \
    ls_line name(ls_worksheet *w, NAMED, const ls_line *x, size_t n) { return how(w, ENTRY, op, x, n); }

OF_ONE(ls_same, LS_OP_SAME)
OF_ONE(ls_complement, LS_OP_COMPLEMENT)
OF_TWO(ls_difference, LS_OP_DIFFERENCE)
OF_TWO(ls_quotient, LS_OP_QUOTIENT)
OF_TWO(ls_step_down, LS_OP_STEP_DOWN)
OF_TWO(ls_step_up, LS_OP_STEP_UP)
OF_MANY(ls_product, LS_OP_PRODUCT, operation)
OF_MANY(ls_sum, LS_OP_SUM, over_known)
OF_MANY(ls_least, LS_OP_LEAST, over_known)
OF_MANY(ls_greatest, LS_OP_GREATEST, over_known)

ls_line ls_clip(ls_worksheet *w, NAMED, ls_line x, ls_line low, ls_line high) {
    return operation(w, ENTRY, LS_OP_CLIP, (ls_line[]){x, low, high}, 3);
}

ls_line ls_geomean(ls_worksheet *w, NAMED, const ls_line *x, const ls_line *weights, size_t n) {
    ls_line *both = ls_worksheet_shelf_take(&w->book->shelf, sizeof *both, 2 * n);
    for (size_t i = 0; i < n; i++) {
        both[2 * i] = x[i];
        both[2 * i + 1] = weights[i];
    }
    return operation(w, ENTRY, LS_OP_GEOMEAN, both, 2 * n);
}

ls_line ls_interpolate(ls_worksheet *w, NAMED, ls_line x, const ls_curve *curve) {
    ls_entry e = ENTRY;
    e.curve = curve;
    return operation(w, e, LS_OP_INTERPOLATE, &x, 1);
}
