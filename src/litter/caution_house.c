/* Figures of the house and its flocks that should be queried: room on the floor, days of stay,
 * litter above the slats. */
#include "house.h"

static void query_flock(ls_litter_house *h, const ls_litter_flock *f) {
    const char *bird = ls_bird_name(f->told->birds.is);
    if (ls_litter_has_size(h)) {
        ls_line space = ls_quotient(f->w, "floor_space", "floor for each bird", "ft2/bird",
                                    ls_litter_area(h, 0), f->placed);
        ls_litter_query(h, "floor-space", "the floor for each bird placed", space, "plausible",
                        ls_printf(h->w, "floor space %s", bird));
    }
    ls_litter_query(h, "stay", ls_printf(h->w, "the stay of a %s flock", bird), f->days,
                    "plausible", ls_printf(h->w, "stay %s", bird));
    ls_litter_query(h, "lost", "the share of the birds lost", f->lost, "plausible", "birds lost");
    /* pounds for ounces, the weight of another bird, or another number of days */
    ls_litter_query(h, "weight", "the weight given, over the published weight at that age,",
                    f->over_curve, "plausible", "weight over curve");
}

/* Depths on the slats above a height, of how many. */
typedef struct {
    size_t above, of;
} depths;

static depths above(const ls_house *house, double height) {
    const ls_zoned *depth = &house->measured->depth;
    const ls_quantity *q = &depth->of[LS_SLATS];
    depths d = {0};
    for (size_t i = 0; i < q->n; i++)
        d.of++, d.above += q->readings[i] > height;
    if (q->form == LS_RANGE)
        d.of = 1, d.above = q->high > height;
    const ls_depth_grid *g = depth->grid;
    ls_strip strips[2];
    size_t n = ls_house_strips(house, LS_SLATS, strips);
    for (size_t k = 0; g && k < g->across_n * g->along_n; k++)
        for (size_t i = 0; i < n; i++) {
            double x = g->across[k % g->across_n] / house->width.value;
            if (x >= strips[i].from && x <= strips[i].to)
                d.of++, d.above += g->depth[k] > height;
        }
    return d;
}

/* Litter under the slats cannot be deeper than they are high. */
static void query_slats(ls_litter_house *h) {
    const ls_house *house = h->house;
    if (!LS_GIVEN(house->slat_height) || !house->measured)
        return;
    ls_line top = ls_leaf_given(h->w, "slat_height", "top of the slats above the floor", "in",
                                &house->slat_height);
    depths d = above(house, ls_line_value(h->w, top));
    if (d.above == 0)
        return;
    ls_arena *a = h->arena;
    ls_litter_caution(h, "depth-over-slats", ls_diag_where(a, h->farm->diag, house->slat_height.at),
                      "%zu of %zu depths read on the slats are above the top of the slats, %s %s. "
                      "Check the depths, their unit, and where they were measured from",
                      d.above, d.of, ls_number_text(a, ls_line_shown(h->w, top), 3),
                      ls_line_at(h->w, top)->unit.text);
}

void ls_litter_house_cautions(ls_litter_house *h) {
    for (size_t k = 0; k < h->house->flocks.n; k++)
        query_flock(h, &h->flocks[k]);
    query_slats(h);
}
