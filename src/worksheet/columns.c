/* The column function of every operation: plain loops of a fixed length that a compiler can put
 * into vectors. */
#include "op_parts.h"

#include <string.h>

typedef ls_worksheet_operand operand;

enum { COLUMN = LS_WORKSHEET_COLUMN };

#define EACH for (size_t j = 0; j < COLUMN; j++)
#define COLUMN_OF(op)                                                                              \
    void ls_worksheet_column_##op(const ls_entry *e, const operand *x, double *restrict out)

/* f##_pair: f(a, b) into out; f##_more: f(out, b) into out. */
#define PAIR(f)                                                                                    \
    static void f##_pair(operand a, operand b, double *restrict out) {                             \
        const double *restrict x = a.at, *restrict y = b.at;                                       \
        const double p = a.number, q = b.number;                                                   \
        if (x != NULL && y != NULL)                                                                \
            EACH out[j] = ls_worksheet_##f(x[j], y[j]);                                            \
        else if (x != NULL)                                                                        \
            EACH out[j] = ls_worksheet_##f(x[j], q);                                               \
        else if (y != NULL)                                                                        \
            EACH out[j] = ls_worksheet_##f(p, y[j]);                                               \
        else                                                                                       \
            EACH out[j] = ls_worksheet_##f(p, q);                                                  \
    }

#define MORE(f)                                                                                    \
    static void f##_more(operand b, double *restrict out) {                                        \
        const double *restrict y = b.at;                                                           \
        const double q = b.number;                                                                 \
        if (y != NULL)                                                                             \
            EACH out[j] = ls_worksheet_##f(out[j], y[j]);                                          \
        else                                                                                       \
            EACH out[j] = ls_worksheet_##f(out[j], q);                                             \
    }

PAIR(add)
MORE(add)
PAIR(subtract)
PAIR(multiply)
MORE(multiply)
PAIR(divide)
PAIR(lesser)
MORE(lesser)
PAIR(greater)
MORE(greater)
PAIR(down)
PAIR(up)

/* f(f(x1, x2), x3) ..., in the order of the value. */
#define FOLDED(f)                                                                                  \
    if (e->n == 1) {                                                                               \
        memcpy(out, x[0].at, COLUMN * sizeof *out);                                                \
        return;                                                                                    \
    }                                                                                              \
    f##_pair(x[0], x[1], out);                                                                     \
    for (size_t k = 2; k < e->n; k++)                                                              \
    f##_more(x[k], out)

COLUMN_OF(sum) {
    FOLDED(add);
}

COLUMN_OF(difference) {
    (void)e;
    subtract_pair(x[0], x[1], out);
}

COLUMN_OF(product) {
    FOLDED(multiply);
}

COLUMN_OF(quotient) {
    (void)e;
    divide_pair(x[0], x[1], out);
}

COLUMN_OF(complement) {
    (void)e;
    subtract_pair((operand){NULL, 1}, x[0], out);
}

COLUMN_OF(least) {
    FOLDED(lesser);
}

COLUMN_OF(greatest) {
    FOLDED(greater);
}

COLUMN_OF(clip) {
    (void)e;
    greater_pair(x[0], x[1], out);
    lesser_more(x[2], out);
}

COLUMN_OF(step_down) {
    (void)e;
    down_pair(x[0], x[1], out);
}

COLUMN_OF(step_up) {
    (void)e;
    up_pair(x[0], x[1], out);
}

static void add_log(operand x, operand weight, double *restrict out) {
    const double *restrict in = x.at, *restrict by = weight.at;
    if (in == NULL && by == NULL) {
        double both = ls_worksheet_weighted_log(x.number, weight.number);
        EACH out[j] += both;
        return;
    }
    EACH out[j] += ls_worksheet_weighted_log(in == NULL ? x.number : in[j],
                                             by == NULL ? weight.number : by[j]);
}

COLUMN_OF(geomean) {
    EACH out[j] = 0;
    for (size_t k = 0; k < e->n; k += 2)
        add_log(x[k], x[k + 1], out);
    EACH out[j] = exp(out[j]);
}

COLUMN_OF(interpolate) {
    const double *restrict in = x[0].at;
    EACH out[j] = ls_worksheet_on_curve(e->curve, in[j]);
}
