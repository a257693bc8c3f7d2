/* What the birds excreted and what of it published shares would leave in the house: beside the
 * litter's own figures, never mixed with them. */
#include "litter/house.h"

#include <string.h>

static const char *const elements[] = {"N", "P", "K"};

/* The default row of a table that has a column. */
static const ls_figure *default_figure(const ls_litter_house *h, const char *kind,
                                       const char *column, const ls_row **row) {
    const ls_table *t = ls_reference_table(h->reference, kind, ls_bird_name(h->bird));
    for (size_t i = 0; t && i < t->n; i++) {
        const ls_figure *f = ls_row_figure(&t->rows[i], column);
        if (f && ls_text_same(ls_row_word(&t->rows[i], "default"), "yes")) {
            *row = &t->rows[i];
            return f;
        }
    }
    return NULL;
}

static ls_line base_of(const ls_litter_house *h, const char *per) {
    if (strcmp(per, "bird") == 0)
        return h->removed;
    return strcmp(per, "hen-day") == 0 ? h->hen_days : h->bird_days;
}

static void element(ls_litter_house *h, const char *name) {
    ls_worksheet *w = h->w;
    const ls_row *row = NULL;
    const ls_figure *f = default_figure(h, "excreted", name, &row);
    if (!f)
        return;
    ls_line each =
        ls_leaf_figure(w, LS_KEY(h, "excreted.%s.figure", name),
                       ls_words(w, "%s excreted, by %s", name, row->name), f->unit.text, f);
    ls_line all =
        LS_PRODUCT(w, LS_KEY(h, "excreted.%s", name), ls_words(w, "%s excreted in all", name), "lb",
                   base_of(h, ls_row_word(row, "per")), each);
    const ls_figure *kept = default_figure(h, "kept", name, &row);
    if (!kept)
        return;
    ls_line share =
        ls_leaf_figure(w, LS_KEY(h, "excreted.%s.share", name),
                       ls_words(w, "share of it kept in the house, by %s", row->name), "%", kept);
    LS_PRODUCT(w, LS_KEY(h, "excreted.%s.kept", name),
               ls_words(w, "%s kept by published shares", name), "lb", all, share);
}

void ls_litter_excreted(ls_litter_house *h) {
    if (h->bird == 0 || h->bird_days == LS_NO_LINE)
        return;
    for (size_t i = 0; i < sizeof elements / sizeof *elements; i++)
        element(h, elements[i]);
}
