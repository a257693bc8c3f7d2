/* N, P and K that the birds excreted: what was eaten less eggs and growth where the farm tells its
 * feed, else a published figure per pound of feed, times the feed eaten here. And what of it a
 * house keeps. */
#include "house.h"

/* In all, by a published figure per pound of feed of its own bird. */
static ls_line by_table(ls_litter_house *h, ls_worksheet *of, int e) {
    const char *name = ls_element_name(e);
    const ls_row *row = ls_litter_default_row(h, "excreted", name);
    if (!row || !h->feed)
        return LS_NO_LINE;
    ls_worksheet *w = ls_part(h->published, name, "excreted-%s", ls_text_slug(h->arena, row->name));
    ls_line feed = ls_litter_own_feed(h, row, w);
    if (!feed)
        return LS_NO_LINE;
    ls_line each = ls_litter_cell(w, row, name, ls_printf(w, "%%s excreted, by %s", row->name));
    ls_line ratio =
        ls_quotient(w, ls_printf(w, "%s.over_feed", name),
                    ls_printf(w, "%%s excreted over feed, by %s", row->name), "%", each, feed);
    h->excreted_by[e] = ls_row_figure(row, name)->source;
    return LS_PRODUCT(of, "published", ls_printf(w, "%%s excreted in all, by %s", row->name), "lb",
                      h->feed, ratio);
}

static void element(ls_litter_house *h, int e) {
    const char *name = ls_element_name(e);
    ls_worksheet *w = ls_part(h->w, name, "excreted.%s", name);
    h->by_balance[e] = h->dropped[e] && ls_line_value(w, h->dropped[e]) > 0;
    ls_line from = h->by_balance[e] ? h->dropped[e] : by_table(h, w, e);
    if (h->dropped[e] && !h->by_balance[e])
        ls_litter_note(h,
                       "eggs and growth hold more %s than was eaten. Check the feed, its %s, the "
                       "eggs and the weight of the birds%s",
                       ls_litter_element_word(e),
                       e == LS_ELEMENT_N ? "protein" : ls_litter_element_word(e),
                       from ? "; the published figure is used" : "");
    if (!from)
        return;
    h->excreted[e] = ls_same(w, "", "%s excreted in all", "lb", from);
    const ls_row *row = ls_litter_default_row(h, "kept", name);
    if (!row)
        return;
    h->kept_share[e] = ls_row_figure(row, name);
    ls_line share = ls_leaf_figure(h->w, ls_printf(w, "excreted.%s.share", name),
                                   ls_printf(w, "share of it kept in the house, by %s", row->name),
                                   "%", h->kept_share[e]);
    h->kept[e] =
        LS_PRODUCT(w, "kept", "%s excreted and kept in the house", "lb", h->excreted[e], share);
}

const char *ls_litter_excreted_source(const ls_litter_house *h, int e) {
    return h->by_balance[e] ? "what was eaten, less eggs and growth"
           : h->excreted_by[e]
               ? ls_printf(h->w, "%s, %s", h->excreted_by[e]->id, h->excreted_by[e]->title)
               : "";
}

void ls_litter_excreted(ls_litter_house *h) {
    for (int e = 0; e < LS_ELEMENTS && h->bird != 0; e++)
        element(h, e);
}
