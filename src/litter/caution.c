/* Figures that should be queried, each with the source of its bound. Reads values: nothing is
 * computed from the result. */
#include "house.h"

#include <math.h>

static void query_band(ls_litter_house *h) {
    if (!h->analysis->per_ton[LS_N] || !h->analysis->per_ton[LS_P2O5]) return;
    const char *row = ls_printf(h->w, "N to P2O5 %s", ls_bird_name(h->bird));
    if (!ls_litter_bound(h, "plausible", row, "low")) return;
    ls_line ratio =
        ls_quotient(h->w, "N_to_P2O5", "N over P2O5", "", h->analysis->per_ton[LS_N], h->analysis->per_ton[LS_P2O5]);
    ls_litter_query(h, "n-to-p2o5", "N over P2O5", ratio, "plausible", row);
}

static void query_lab_moisture(ls_litter_house *h) {
    ls_line read = ls_line_find(h->w, "moisture.read");
    const ls_figure *most = ls_litter_bound(h, "plausible", "lab moisture against readings", "high");
    if (!read || !h->lab_moisture || !most) return;
    ls_line apart = ls_difference(h->w, "moisture.lab_over_read",
                                  "moisture by the laboratory less that by the readings", "%", h->lab_moisture, read);
    double points = 100 * ls_line_value(h->w, apart);
    if (fabs(points) <= 100 * most->value) return;
    ls_litter_caution(h, "lab-moisture", ls_litter_source(most),
                      "the lab's moisture is %s points %s the readings. Usual is up to %s. Take another sample",
                      ls_number_text(h->arena, fabs(points), 2), points > 0 ? "above" : "below",
                      ls_number_text(h->arena, 100 * most->value, 2));
}

/* Litter holds the bedding that was brought in, less what rotted of it. */
static void query_bedding(ls_litter_house *h) {
    ls_worksheet *w = h->w;
    if (!h->dry || !h->bedding) return;
    ls_line made = h->out ? LS_SUM(w, "dry_made", "dry litter left and taken out", "ton", h->dry, h->out) : h->dry;
    ls_line share =
        ls_quotient(w, "bedding_over_litter", "dry bedding left over all dry litter", "%", h->bedding, made);
    double v = ls_line_value(w, share);
    const ls_figure *most = ls_litter_bound(h, "plausible", "bedding over litter", "high");
    if (v > most->value)
        ls_litter_caution(h, "bedding-over-litter", ls_litter_source(most),
                          "%s%% of the dry litter would be bedding. Check its amount and unit, and "
                          "the bird count",
                          ls_number_text(h->arena, 100 * v, 3));
}

static bool density_measured(const ls_litter_house *h) {
    for (int z = LS_SLATS; h->house->measured && z < LS_ZONES; z++)
        if (LS_GIVEN(h->house->measured->density.of[z])) return true;
    return false;
}

/* ---- the house and its flocks ---- */

static void query_flock(ls_litter_house *h, const ls_litter_flock *f) {
    const char *bird = ls_bird_name(f->told->birds.is);
    if (ls_litter_has_size(h)) {
        ls_line space =
            ls_quotient(f->w, "floor_space", "floor for each bird", "ft2/bird", ls_litter_area(h, 0), f->placed);
        ls_litter_query(h, "floor-space", "the floor for each bird placed", space, "plausible",
                        ls_printf(h->w, "floor space %s", bird));
    }
    ls_litter_query(h, "stay", ls_printf(h->w, "the stay of a %s flock", bird), f->days, "plausible",
                    ls_printf(h->w, "stay %s", bird));
    ls_litter_query(h, "lost", "the share of the birds lost", f->lost, "plausible", "birds lost");
    /* pounds for ounces, the weight of another bird, or another number of days */
    ls_litter_query(h, "weight", "the weight given, over the published weight at that age,", f->over_curve, "plausible",
                    "weight over curve");
}

/* Depths on the slats above a height, of how many. */
typedef struct {
    size_t above, of;
} depths;

static depths above(const ls_house *house, double height) {
    const ls_zoned *depth = &house->measured->depth;
    const ls_quantity *q = &depth->of[LS_SLATS];
    depths d = {0};
    for (size_t i = 0; i < q->n; i++) d.of++, d.above += q->readings[i] > height;
    if (q->form == LS_RANGE) d.of = 1, d.above = q->high > height;
    const ls_depth_grid *g = depth->grid;
    ls_strip strips[2];
    size_t n = ls_house_strips(house, LS_SLATS, strips);
    for (size_t k = 0; g && k < g->across_n * g->along_n; k++)
        for (size_t i = 0; i < n; i++) {
            double x = g->across[k % g->across_n] / house->width.value;
            if (x >= strips[i].from && x <= strips[i].to) d.of++, d.above += g->depth[k] > height;
        }
    return d;
}

/* Litter under the slats cannot be deeper than they are high. */
static void query_slats(ls_litter_house *h) {
    const ls_house *house = h->house;
    if (!LS_GIVEN(house->slat_height) || !house->measured) return;
    ls_line top = ls_leaf_given(h->w, "slat_height", "top of the slats above the floor", "in", &house->slat_height);
    depths d = above(house, ls_line_value(h->w, top));
    if (d.above == 0) return;
    ls_arena *a = h->arena;
    ls_litter_caution(h, "depth-over-slats", ls_diag_where(a, h->farm->diag, house->slat_height.at),
                      "%zu of %zu depths read on the slats are above the top of the slats, %s %s. "
                      "Check the depths, their unit, and where they were measured from",
                      d.above, d.of, ls_number_text(a, ls_line_shown(h->w, top), 3), ls_line_at(h->w, top)->unit.text);
}

static void query_house(ls_litter_house *h) {
    for (size_t k = 0; k < h->house->flocks.n; k++) query_flock(h, &h->flocks[k]);
    query_slats(h);
}

void ls_litter_cautions(ls_litter_house *h) {
    const char *bird = h->bird ? ls_bird_name(h->bird) : NULL;
    query_band(h);
    query_lab_moisture(h);
    query_bedding(h);
    if (!bird) return;
    ls_litter_query(h, "moisture", "moisture", ls_line_find(h->w, "moisture"), "moisture", bird);
    ls_line lies = ls_line_find(h->w, "density.in_place");
    if (lies && density_measured(h)) ls_litter_query(h, "density", "density in the house", lies, "density", bird);
    query_house(h);
}

/* ---- what is found again, once drawn ---- */

static const char *percent(ls_worksheet *w, double share) {
    return ls_number_text(ls_worksheet_arena(w), 100 * share, 2);
}

/* Only where the whole 10 to 90 % range of the share lies beyond what is published. */
static void query_found(ls_worksheet *w, ls_estimate *e, const ls_account *a, const char *id, const char *what, ls_q q,
                        double least, double most, const char *source) {
    if (!q.line || !(q.low > most || q.high < least)) return;
    ls_arena *arena = ls_worksheet_arena(w);
    *LS_PUSH(arena, &e->cautions) = (ls_caution){
        id             ? id
        : q.low > most ? "above-excreted"
                       : "below-excreted",
        ls_printf(w,
                  "%s: the litter holds %s to %s%% of the %s its birds excreted, not "
                  "the usual %s to %s%%. Check %s",
                  a->house->name.text, percent(w, q.low), percent(w, q.high), what, percent(w, least), percent(w, most),
                  q.low > most ? "the bird count, the analysis, the tons, the feed"
                               : "the tons, the analysis, litter taken out, the feed"),
        source};
}

void ls_litter_query_found(ls_worksheet *w, ls_estimate *e) {
    LS_EACH (const ls_account, a, e->accounts) {
        for (int k = LS_ELEMENT_P; k < LS_ELEMENTS; k++)
            if (a->of[k].kept_share)
                query_found(w, e, a, NULL, ls_litter_element_word(k), a->of[k].found_again,
                            a->of[k].kept_share->spread.low, a->of[k].kept_share->spread.high,
                            ls_litter_source(a->of[k].kept_share));
        query_found(w, e, a, "manure-over-feed", "dry matter", a->dry_found, 0, 1,
                    "what was fed and not digested; bedding taken off");
    }
}
