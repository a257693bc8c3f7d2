/* Every operation in words, over the words of its inputs. */
#include "op_parts.h"

#define WORDS(op) void ls_worksheet_words_##op(ls_text *t, const ls_entry *e, const char *const *x)

static void join(ls_text *t, const char *const *x, size_t n, const char *between,
                 const char *before_last) {
    for (size_t k = 0; k < n; k++) {
        if (k > 0)
            ls_text_add(t, k + 1 < n ? between : before_last);
        ls_text_add(t, x[k]);
    }
}

WORDS(same) {
    (void)e;
    ls_text_add(t, x[0]);
}

WORDS(sum) {
    join(t, x, e->n, " + ", " + ");
}

WORDS(difference) {
    join(t, x, e->n, " - ", " - ");
}

WORDS(product) {
    join(t, x, e->n, " x ", " x ");
}

WORDS(quotient) {
    join(t, x, e->n, " / ", " / ");
}

WORDS(complement) {
    ls_text_addf(t, "%s - %s", x[e->n], x[0]);
}

WORDS(least) {
    ls_text_add(t, "the least of ");
    join(t, x, e->n, ", ", " and ");
}

WORDS(greatest) {
    ls_text_add(t, "the greatest of ");
    join(t, x, e->n, ", ", " and ");
}

WORDS(clip) {
    (void)e;
    ls_text_addf(t, "%s, kept within %s to %s", x[0], x[1], x[2]);
}

WORDS(step_down) {
    (void)e;
    ls_text_addf(t, "%s, down to whole steps of %s", x[0], x[1]);
}

WORDS(step_up) {
    (void)e;
    ls_text_addf(t, "%s, up to whole steps of %s", x[0], x[1]);
}

WORDS(geomean) {
    ls_text_add(t, "weighted geometric mean of ");
    for (size_t k = 0; k < e->n; k += 2) {
        if (k > 0)
            ls_text_add(t, k + 2 < e->n ? ", " : " and ");
        ls_text_addf(t, "%s (weight: %s)", x[k], x[k + 1]);
    }
}

WORDS(interpolate) {
    (void)e;
    ls_text_addf(t, "straight line in a table at %s", x[0]);
}
