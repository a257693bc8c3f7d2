/* One function for every kind of operation. */
#include "build.h"

/* Of something unknown. */
static ls_line operation(ls_worksheet *w, ls_entry e, ls_op op, const ls_line *x, size_t n) {
    for (size_t i = 0; i < n; i++)
        if (x[i] == LS_NO_LINE)
            return LS_NO_LINE;
    e.op = op;
    e.n = n;
    return ls_worksheet_append(w, e, x);
}

/* Of those of the lines that are known. */
static ls_line over_known(ls_worksheet *w, ls_entry e, ls_op op, const ls_line *x, size_t n) {
    ls_line *known = ls_worksheet_shelf_take(&w->book->shelf, sizeof *known, n);
    size_t known_n = 0;
    for (size_t i = 0; i < n; i++)
        if (x[i] != LS_NO_LINE)
            known[known_n++] = x[i];
    return known_n == 0 ? LS_NO_LINE : operation(w, e, op, known, known_n);
}

#define NAMED ls_worksheet_named(w, key, label, unit)

ls_line ls_same(ls_worksheet *w, const char *key, const char *label, const char *unit, ls_line x) {
    return operation(w, NAMED, LS_OP_SAME, &x, 1);
}

ls_line ls_sum(ls_worksheet *w, const char *key, const char *label, const char *unit,
               const ls_line *x, size_t n) {
    return over_known(w, NAMED, LS_OP_SUM, x, n);
}

ls_line ls_difference(ls_worksheet *w, const char *key, const char *label, const char *unit,
                      ls_line a, ls_line b) {
    return operation(w, NAMED, LS_OP_DIFFERENCE, (ls_line[]){a, b}, 2);
}

ls_line ls_product(ls_worksheet *w, const char *key, const char *label, const char *unit,
                   const ls_line *x, size_t n) {
    return operation(w, NAMED, LS_OP_PRODUCT, x, n);
}

ls_line ls_quotient(ls_worksheet *w, const char *key, const char *label, const char *unit,
                    ls_line a, ls_line b) {
    return operation(w, NAMED, LS_OP_QUOTIENT, (ls_line[]){a, b}, 2);
}

ls_line ls_complement(ls_worksheet *w, const char *key, const char *label, const char *unit,
                      ls_line x) {
    return operation(w, NAMED, LS_OP_COMPLEMENT, &x, 1);
}

ls_line ls_least(ls_worksheet *w, const char *key, const char *label, const char *unit,
                 const ls_line *x, size_t n) {
    return over_known(w, NAMED, LS_OP_LEAST, x, n);
}

ls_line ls_greatest(ls_worksheet *w, const char *key, const char *label, const char *unit,
                    const ls_line *x, size_t n) {
    return over_known(w, NAMED, LS_OP_GREATEST, x, n);
}

ls_line ls_clip(ls_worksheet *w, const char *key, const char *label, const char *unit, ls_line x,
                ls_line low, ls_line high) {
    return operation(w, NAMED, LS_OP_CLIP, (ls_line[]){x, low, high}, 3);
}

ls_line ls_step_down(ls_worksheet *w, const char *key, const char *label, const char *unit,
                     ls_line x, ls_line step) {
    return operation(w, NAMED, LS_OP_STEP_DOWN, (ls_line[]){x, step}, 2);
}

ls_line ls_step_up(ls_worksheet *w, const char *key, const char *label, const char *unit, ls_line x,
                   ls_line step) {
    return operation(w, NAMED, LS_OP_STEP_UP, (ls_line[]){x, step}, 2);
}

ls_line ls_geomean(ls_worksheet *w, const char *key, const char *label, const char *unit,
                   const ls_line *x, const ls_line *weights, size_t n) {
    ls_line *both = ls_worksheet_shelf_take(&w->book->shelf, sizeof *both, 2 * n);
    for (size_t i = 0; i < n; i++) {
        both[2 * i] = x[i];
        both[2 * i + 1] = weights[i];
    }
    return operation(w, NAMED, LS_OP_GEOMEAN, both, 2 * n);
}

ls_line ls_interpolate(ls_worksheet *w, const char *key, const char *label, const char *unit,
                       ls_line x, const ls_curve *curve) {
    ls_entry e = NAMED;
    e.curve = curve;
    return operation(w, e, LS_OP_INTERPOLATE, &x, 1);
}
