/* What the birds excreted and what of it published shares would leave in the house: beside the
 * litter's own figures, never mixed with them. By what was eaten less eggs and growth where the
 * farm tells it, else by published figures. */
#include "house.h"

#include <string.h>

/* The default row of a table that has a column, or the row for what falls under slats. */
static const ls_figure *figure_of(const ls_litter_house *h, const char *kind, const char *column,
                                  bool slats, const ls_row **row) {
    const ls_table *t = ls_reference_table(h->reference, kind, ls_bird_name(h->bird));
    for (size_t i = 0; t && i < t->n; i++) {
        const ls_figure *f = ls_row_figure(&t->rows[i], column);
        bool fits = slats ? ls_row_word(&t->rows[i], "floor") != NULL
                          : ls_text_same(ls_row_word(&t->rows[i], "default"), "yes");
        if (f && fits && !ls_text_same(ls_row_word(&t->rows[i], "per"), "live-weight-day")) {
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

/* By published figures; LS_NO_LINE if there is none. */
static ls_line by_table(ls_litter_house *h, const char *column, const char *what,
                        const char *unit) {
    const ls_row *row = NULL;
    const ls_figure *f = figure_of(h, "excreted", column, false, &row);
    if (!f)
        return LS_NO_LINE;
    ls_worksheet *w = h->w;
    ls_line each =
        ls_leaf_figure(w, LS_KEY(h, "excreted.%s.figure", column),
                       ls_words(w, "%s excreted, by %s", what, row->name), f->unit.text, f);
    return LS_PRODUCT(w, LS_KEY(h, "excreted.%s.published", column),
                      ls_words(w, "%s excreted in all, by %s", what, row->name), unit,
                      base_of(h, ls_row_word(row, "per")), each);
}

/* ---- what is kept ---- */

/* Of what falls under slats and of what falls on litter, weighted by where the droppings fall. */
static ls_line share_by_zone(ls_litter_house *h, const char *name, ls_line litter,
                             const ls_figure *slats) {
    ls_worksheet *w = h->w;
    ls_line under =
        ls_leaf_figure(w, LS_KEY(h, "excreted.%s.share.slats", name),
                       ls_words(w, "share of the %s kept under slats", name), "%", slats);
    ls_line fall = ls_litter_shared(h, LS_KEY(h, "droppings.slats"),
                                    "share of the droppings that falls under the slats", "%",
                                    ls_litter_practice(h, "droppings under slats share"));
    const char *rest_key = LS_KEY(h, "droppings.litter");
    ls_line rest = ls_line_find(w, rest_key);
    if (rest == LS_NO_LINE)
        rest = ls_complement(w, rest_key, "share of the droppings that falls on litter", "%", fall);
    ls_line first = LS_PRODUCT(w, LS_KEY(h, "excreted.%s.share.slats-part", name),
                               ls_words(w, "%s kept under slats, of all", name), "%", under, fall);
    ls_line second = LS_PRODUCT(w, LS_KEY(h, "excreted.%s.share.litter-part", name),
                                ls_words(w, "%s kept in litter, of all", name), "%", litter, rest);
    return LS_SUM(w, LS_KEY(h, "excreted.%s.share", name),
                  ls_words(w, "share of the %s kept in the house, by zone", name), "%", first,
                  second);
}

static void kept(ls_litter_house *h, const char *name, ls_line all) {
    ls_worksheet *w = h->w;
    const ls_row *row = NULL, *slat_row = NULL;
    const ls_figure *one = figure_of(h, "kept", name, false, &row);
    if (!one)
        return;
    bool zones = ls_house_share(h->house, LS_SLATS) > 0;
    const ls_figure *slats = zones ? figure_of(h, "kept", name, true, &slat_row) : NULL;
    const char *label = ls_words(w, "share of it kept in the house, by %s", row->name);
    ls_line litter = ls_leaf_figure(
        w,
        slats ? LS_KEY(h, "excreted.%s.share.litter", name) : LS_KEY(h, "excreted.%s.share", name),
        slats ? ls_words(w, "share of the %s kept in litter", name) : label, "%", one);
    ls_line share = slats ? share_by_zone(h, name, litter, slats) : litter;
    LS_PRODUCT(w, LS_KEY(h, "excreted.%s.kept", name),
               ls_words(w, "%s kept by published shares", name), "lb", all, share);
}

/* What other published shares would leave, where they were read or derived. */
static void beside(ls_litter_house *h, const char *name, ls_line all) {
    ls_worksheet *w = h->w;
    const ls_table *t = ls_reference_table(h->reference, "kept", ls_bird_name(h->bird));
    for (size_t i = 0; t && i < t->n; i++) {
        const ls_row *row = &t->rows[i];
        const ls_figure *f = ls_row_figure(row, name);
        if (!f || f->status == LS_MEMORY || ls_row_word(row, "floor") ||
            !ls_text_same(ls_row_word(row, "default"), "no"))
            continue;
        const char *slug = ls_text_slug(ls_worksheet_arena(w), row->name);
        ls_line share =
            ls_leaf_figure(w, LS_KEY(h, "excreted.%s.beside-%s.share", name, slug),
                           ls_words(w, "share of it kept in the house, by %s", row->name), "%", f);
        LS_PRODUCT(w, LS_KEY(h, "excreted.%s.beside-%s.kept", name, slug),
                   ls_words(w, "%s kept, by %s", name, row->name), "lb", all, share);
    }
}

/* ---- one element ---- */

static void element(ls_litter_house *h, int e) {
    ls_worksheet *w = h->w;
    const char *name = ls_element_name(e);
    h->by_balance[e] = h->dropped[e] != LS_NO_LINE && ls_line_value(w, h->dropped[e]) > 0;
    ls_line published = h->by_balance[e] ? LS_NO_LINE : by_table(h, name, name, "lb");
    if (h->dropped[e] != LS_NO_LINE && !h->by_balance[e])
        ls_litter_note(
            h,
            "eggs and growth hold more %s than was eaten: look at the feed, its %s, the eggs and "
            "the weight of the birds%s",
            ls_litter_element_word(e), e == LS_ELEMENT_N ? "protein" : ls_litter_element_word(e),
            published != LS_NO_LINE ? "; the published figure is used" : "");
    ls_line from = h->by_balance[e] ? h->dropped[e] : published;
    if (from == LS_NO_LINE)
        return;
    h->excreted[e] = ls_same(w, LS_KEY(h, "excreted.%s", name),
                             ls_words(w, "%s excreted in all", name), "lb", from);
    kept(h, name, h->excreted[e]);
    beside(h, name, h->excreted[e]);
}

const char *ls_litter_excreted_source(const ls_litter_house *h, int e) {
    ls_worksheet *w = h->w;
    if (h->by_balance[e])
        return "what was eaten, less eggs and growth";
    ls_line figure = ls_line_find(w, LS_KEY(h, "excreted.%s.figure", ls_element_name(e)));
    return ls_line_origin(ls_worksheet_arena(w), w, figure, h->farm->diag);
}

void ls_litter_excreted(ls_litter_house *h) {
    for (int e = 0; e < LS_ELEMENTS; e++)
        h->excreted[e] = LS_NO_LINE;
    if (h->bird == 0 || h->bird_days == LS_NO_LINE)
        return;
    for (int e = 0; e < LS_ELEMENTS; e++)
        element(h, e);
    const ls_row *row = NULL;
    const ls_figure *manure = figure_of(h, "excreted", "manure", false, &row);
    if (manure && manure->status != LS_MEMORY)
        by_table(h, "manure", "manure (wet)", "ton");
}
