/* N, P and K that the birds excreted: what was eaten less eggs and growth where the farm tells its
 * feed, else a published figure per pound of feed, times the feed eaten here. And what of it a
 * house keeps. */
#include "house.h"

/* Per pound of feed of the figure's own bird. */
static ls_line over_feed(ls_litter_house *h, const ls_row *row, int e) {
    ls_worksheet *w = h->w;
    const char *name = ls_element_name(e), *slug = ls_text_slug(ls_worksheet_arena(w), row->name);
    const char *prefix = ls_litter_published_key(h, ls_printf(w, "excreted-%s", slug));
    const char *key = ls_printf(w, "%s.%s.over_feed", prefix, name);
    ls_line known = ls_line_find(w, key);
    if (known != LS_NO_LINE)
        return known;
    ls_line feed = ls_litter_own_feed(h, row, prefix);
    if (feed == LS_NO_LINE)
        return LS_NO_LINE;
    ls_line each =
        ls_litter_cell(h, row, prefix, name, ls_printf(w, "%s excreted, by %s", name, row->name));
    return ls_quotient(w, key, ls_printf(w, "%s excreted over feed, by %s", name, row->name), "%",
                       each, feed);
}

static ls_line by_table(ls_litter_house *h, int e) {
    ls_worksheet *w = h->w;
    const char *name = ls_element_name(e);
    const ls_row *row = ls_litter_default_row(h, "excreted", name);
    if (!row || h->feed == LS_NO_LINE)
        return LS_NO_LINE;
    ls_line ratio = over_feed(h, row, e);
    if (ratio == LS_NO_LINE)
        return LS_NO_LINE;
    h->excreted_by[e] = ls_row_figure(row, name)->source;
    return LS_PRODUCT(w, LS_KEY(h, "excreted.%s.published", name),
                      ls_printf(w, "%s excreted in all, by %s", name, row->name), "lb", h->feed,
                      ratio);
}

static void element(ls_litter_house *h, int e) {
    ls_worksheet *w = h->w;
    const char *name = ls_element_name(e);
    h->by_balance[e] = h->dropped[e] != LS_NO_LINE && ls_line_value(w, h->dropped[e]) > 0;
    ls_line published = h->by_balance[e] ? LS_NO_LINE : by_table(h, e);
    if (h->dropped[e] != LS_NO_LINE && !h->by_balance[e])
        ls_litter_note(h,
                       "eggs and growth hold more %s than was eaten. Check the feed, its %s, the "
                       "eggs and the weight of the birds%s",
                       ls_litter_element_word(e),
                       e == LS_ELEMENT_N ? "protein" : ls_litter_element_word(e),
                       published != LS_NO_LINE ? "; the published figure is used" : "");
    ls_line from = h->by_balance[e] ? h->dropped[e] : published;
    if (from == LS_NO_LINE)
        return;
    h->excreted[e] = ls_same(w, LS_KEY(h, "excreted.%s", name),
                             ls_printf(w, "%s excreted in all", name), "lb", from);
    const ls_row *row = ls_litter_default_row(h, "kept", name);
    if (!row)
        return;
    h->kept_share[e] = ls_row_figure(row, name);
    ls_line share = ls_leaf_figure(w, LS_KEY(h, "excreted.%s.share", name),
                                   ls_printf(w, "share of it kept in the house, by %s", row->name),
                                   "%", h->kept_share[e]);
    h->kept[e] = LS_PRODUCT(w, LS_KEY(h, "excreted.%s.kept", name),
                            ls_printf(w, "%s excreted and kept in the house", name), "lb",
                            h->excreted[e], share);
}

const char *ls_litter_excreted_source(const ls_litter_house *h, int e) {
    return h->by_balance[e] ? "what was eaten, less eggs and growth"
           : h->excreted_by[e]
               ? ls_printf(h->w, "%s, %s", h->excreted_by[e]->id, h->excreted_by[e]->title)
               : "";
}

void ls_litter_excreted(ls_litter_house *h) {
    for (int e = 0; e < LS_ELEMENTS; e++) {
        h->excreted[e] = h->kept[e] = LS_NO_LINE;
        h->kept_share[e] = NULL;
        h->excreted_by[e] = NULL;
    }
    for (int e = 0; e < LS_ELEMENTS && h->bird != 0; e++)
        element(h, e);
}
