/* Bedding brought in: area x depth x density, less its water and what rots of it. */
#include "litter/house.h"

static ls_line zone_area(ls_litter_house *h, int zone, const char *key) {
    ls_worksheet *w = h->w;
    ls_line length = ls_line_find(w, LS_KEY(h, "length"));
    ls_line width = ls_line_find(w, LS_KEY(h, "width"));
    if (zone == 0 || (zone == LS_FLOOR && !h->house->floor))
        return LS_PRODUCT(w, key, "floor area", "ft2", length, width);
    const ls_floor *f = h->house->floor;
    const ls_quantity *q = zone == LS_SLATS     ? &f->slats
                           : zone == LS_SCRATCH ? &f->scratch
                                                : &f->floor;
    const char *share_key = LS_KEY(h, "share.%s", ls_zone_name(zone));
    ls_line share = ls_line_find(w, share_key);
    if (share == LS_NO_LINE)
        share = ls_leaf_given(w, share_key,
                              ls_words(w, "share of the floor: %s", ls_zone_name(zone)), "%", q);
    return LS_PRODUCT(w, key, ls_words(w, "area of the %s", ls_zone_name(zone)), "ft2", length,
                      width, share);
}

/* The area of a zone (0: the whole floor), made once. */
ls_line ls_litter_area(ls_litter_house *h, int zone) {
    const char *key = LS_KEY(h, "area.%s", zone == 0 ? "all" : ls_zone_name(zone));
    ls_line known = ls_line_find(h->w, key);
    return known != LS_NO_LINE ? known : zone_area(h, zone, key);
}

static ls_line dry_bedding(ls_litter_house *h, const ls_bedding *b, size_t k) {
    ls_worksheet *w = h->w;
    const ls_row *row =
        ls_table_row(ls_reference_table(h->reference, "bedding", ""), b->material.text);
    ls_line depth = ls_leaf_given(w, LS_KEY(h, "bedding-%zu.depth", k),
                                  ls_words(w, "depth of %s", b->material.text), "in", &b->depth);
    const char *slug = ls_text_slug(ls_worksheet_arena(w), b->material.text);
    ls_line density = ls_litter_shared(h, ls_words(w, "bedding-%s.density", slug),
                                       ls_words(w, "density of %s", b->material.text), "lb/ft3",
                                       ls_row_figure(row, "density"));
    ls_line water = ls_litter_shared(h, ls_words(w, "bedding-%s.moisture", slug),
                                     ls_words(w, "moisture of %s", b->material.text), "%",
                                     ls_row_figure(row, "moisture"));
    ls_line lost = ls_litter_shared(h, ls_words(w, "bedding-%s.lost", slug),
                                    "share of the bedding that rots in the house", "%",
                                    ls_row_figure(row, "lost"));
    ls_line solids = ls_complement(w, LS_KEY(h, "bedding-%zu.solids", k),
                                   "dry share of the bedding", "%", water);
    ls_line kept = ls_complement(w, LS_KEY(h, "bedding-%zu.kept", k),
                                 "share of the bedding that stays", "%", lost);
    return LS_PRODUCT(w, LS_KEY(h, "bedding-%zu.dry", k),
                      ls_words(w, "dry bedding left: %s", b->material.text), "lb",
                      ls_litter_area(h, b->zone.is), depth, density, solids, kept);
}

void ls_litter_bedding(ls_litter_house *h) {
    size_t n = h->house->bedding.n;
    h->bedding = LS_NO_LINE;
    if (n == 0)
        return;
    ls_line *x = LS_NEW(ls_worksheet_arena(h->w), ls_line, n);
    for (size_t k = 0; k < n; k++)
        x[k] = dry_bedding(h, &h->house->bedding.at[k], k + 1);
    h->bedding = ls_sum(h->w, LS_KEY(h, "bedding"), "dry bedding left in the litter", "lb", x, n);
}
