/* Cake and partial removals since the last cleanout: no longer in the house. */
#include "litter/house.h"

static ls_line one_removal(ls_litter_house *h, const ls_already_out *o, size_t k) {
    ls_worksheet *w = h->w;
    ls_line tons = ls_leaf_given(w, LS_KEY(h, "already-out-%zu.weighed", k),
                                 "litter taken out before", "ton", &o->weighed);
    ls_line water = h->moisture;
    if (LS_GIVEN(o->moisture))
        water = ls_litter_kept_within(
            h, LS_KEY(h, "already-out-%zu.moisture", k), "moisture of the litter taken out before",
            ls_leaf_given(w, LS_KEY(h, "already-out-%zu.moisture.given", k),
                          "moisture given for the litter taken out before", "%", &o->moisture));
    ls_line solids =
        ls_complement(w, LS_KEY(h, "already-out-%zu.solids", k), "its dry share", "%", water);
    return LS_PRODUCT(w, LS_KEY(h, "already-out-%zu.dry", k), "dry litter taken out before", "ton",
                      tons, solids);
}

void ls_litter_already_out(ls_litter_house *h) {
    size_t n = h->house->already_out.n;
    h->out = LS_NO_LINE;
    if (n == 0)
        return;
    ls_line *x = LS_NEW(ls_worksheet_arena(h->w), ls_line, n);
    for (size_t k = 0; k < n; k++)
        x[k] = one_removal(h, &h->house->already_out.at[k], k + 1);
    h->out = ls_sum(h->w, LS_KEY(h, "already-out"), "dry litter taken out since the last cleanout",
                    "ton", x, n);
}

ls_line ls_litter_left(ls_litter_house *h, const char *key, const char *label, ls_line made) {
    ls_worksheet *w = h->w;
    if (h->out == LS_NO_LINE)
        return made;
    ls_line least = ls_line_find(w, LS_KEY(h, "already-out.least"));
    if (least == LS_NO_LINE)
        least =
            ls_leaf_exact(w, LS_KEY(h, "already-out.least"), "next to nothing", "ton", 2,
                          LS_BY_DEFINITION, "no less than this is left, whatever was taken out");
    ls_line rest =
        ls_difference(w, ls_words(w, "%s.rest", key),
                      ls_words(w, "%s, less what was taken out", label), "ton", made, h->out);
    return LS_GREATEST(w, key, label, "ton", rest, least);
}
