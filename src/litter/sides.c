/* A house as its lots: one, or one a side, and the share of each. */
#include "house.h"

size_t ls_litter_lots_of(const ls_house *house) {
    return house->sides.n ? house->sides.n : 1;
}

const ls_side *ls_litter_side(const ls_house *house, size_t lot) {
    return house->sides.n ? &house->sides.at[lot] : NULL;
}

const char *ls_litter_lot_slug(ls_litter_house *h, size_t lot) {
    const ls_side *side = ls_litter_side(h->house, lot);
    return side ? ls_printf(h->w, "%s.%s", h->slug, side->slug) : h->slug;
}

/* Share of each side: half each (1/n), uncertain by some points; the last is what the others leave.
 */
static void side_shares(ls_litter_house *h, ls_line *share, size_t n) {
    ls_worksheet *w = h->w;
    const ls_figure *sd = ls_litter_practice(h, "side share sd");
    ls_origin origin = {LS_BY_TABLE, LS_NOWHERE, sd, "equal shares, uncertain by these points"};
    for (size_t k = 0; k + 1 < n; k++) {
        ls_spread spread = ls_spread_normal(sd->value);
        spread.low = 0, spread.high = 1;
        share[k] = ls_leaf(w, ls_printf(w, "%s.share", ls_litter_lot_slug(h, k)),
                           ls_printf(w, "share of the house: %s", h->house->sides.at[k].name.text),
                           "%", 1.0 / (double)n, spread, origin);
    }
    const char *last = ls_litter_lot_slug(h, n - 1);
    ls_line others = share[0];
    if (n > 2)
        others = ls_sum(w, ls_printf(w, "%s.shares_before", last), "share of the other sides", "%",
                        share, n - 1);
    ls_line rest =
        ls_complement(w, ls_printf(w, "%s.rest", last), "what the other sides leave", "%", others);
    ls_line none =
        ls_leaf_exact(w, ls_printf(w, "%s.none", last), "nothing", "%", 0, LS_BY_DEFINITION, NULL);
    share[n - 1] =
        LS_GREATEST(w, ls_printf(w, "%s.share", last),
                    ls_printf(w, "share of the house: %s", h->house->sides.at[n - 1].name.text),
                    "%", rest, none);
}

void ls_litter_shares(ls_litter_house *h) {
    size_t n = ls_litter_lots_of(h->house);
    h->share = LS_NEW(ls_worksheet_arena(h->w), ls_line, n);
    h->share[0] = LS_NO_LINE;
    if (n > 1)
        side_shares(h, h->share, n);
}
