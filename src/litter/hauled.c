/* What loads that are gone tell of a house: how much is left of each lot, and how much there was
 * once a lot (or a known share of it) is cleared. */
#include "house.h"

#include <math.h>
#include <string.h>

/* ---- loads gone ---- */

bool ls_litter_load_is_of(const ls_hauled *load, const char *code) {
    return !load->from_stack && strcmp(load->lot, code) == 0;
}

ls_line ls_litter_by_eye(ls_litter_house *h) {
    return ls_litter_factor(h, h->all, "whole-farm.by-eye", "how well loads are judged by eye", "load by eye");
}

static ls_line one_load(ls_litter_house *h, const ls_hauled *load, ls_worksheet *lot, size_t number) {
    ls_worksheet *w = ls_part(lot, NULL, "load-%zu", number);
    const char *of = ls_printf(w, "load %s, ", load->ticket);
    ls_line tons = ls_leaf_exact(w, "", ls_printf(w, "%s%s", of, load->weighed ? "over a scale" : "judged by eye"),
                                 "ton", load->tons, LS_BY_LOG, load->entry);
    return load->weighed
               ? tons
               : LS_PRODUCT(w, "about", ls_printf(w, "%sas far as known", of), "ton", tons, ls_litter_by_eye(h));
}

/* The share of a lot that was cleared when a load had gone. */
static ls_line cleared(ls_litter_house *h, const ls_hauled *load, ls_worksheet *lot) {
    const ls_figure *sd = ls_litter_practice(h, "cleared by eye");
    ls_spread spread = load->cleared < 1 ? ls_spread_normal(sd->value) : ls_spread_exact();
    if (load->cleared < 1) spread.low = 0.01, spread.high = 1;
    ls_origin origin = {LS_BY_LOG, LS_NOWHERE, NULL, load->entry};
    return ls_leaf(lot, "cleared", "share of the lot cleared by then", "%", load->cleared, spread, origin);
}

static void lot_gone(ls_litter_house *h, size_t k) {
    ls_litter_gone *gone = &h->gone[k];
    ls_worksheet *w = ls_litter_lot_part(h, k);
    const char *code = ls_lot_code(h->arena, h->house, ls_litter_side(h->house, k));
    ls_line *loads = LS_NEW(h->arena, ls_line, h->farm->hauled.n);
    size_t n = 0, until = 0;
    const ls_hauled *told = NULL;
    LS_EACH (const ls_hauled, load, h->farm->hauled) {
        if (!ls_litter_load_is_of(load, code)) continue;
        loads[n] = one_load(h, load, w, n + 1);
        n++;
        if (!isnan(load->cleared)) told = load, until = n;
        gone->empty |= load->cleared >= 1;
    }
    if (n == 0) return;
    gone->tons = ls_sum(w, "gone", "litter of the lot hauled already", "ton", loads, n);
    if (told == NULL) return;
    gone->until = ls_sum(w, "gone-by-then", "litter hauled when the lot was cleared so far", "ton", loads,
                         gone->empty ? n : until);
    gone->cleared = cleared(h, told, w);
}

void ls_litter_hauled(ls_litter_house *h) {
    size_t n = ls_litter_lots_of(h->house);
    h->gone = LS_NEW(h->arena, ls_litter_gone, n);
    for (size_t k = 0; k < n; k++) lot_gone(h, k);
}

/* ---- what was there ---- */

ls_line ls_litter_by_loads(ls_litter_house *h) {
    ls_worksheet *w = ls_part(h->w, NULL, "loads-hauled");
    size_t n = ls_litter_lots_of(h->house);
    ls_line *tons = LS_NEW(h->arena, ls_line, n), *parts = LS_NEW(h->arena, ls_line, n);
    for (size_t k = 0; k < n; k++)
        if (h->gone[k].cleared) tons[k] = h->gone[k].until;
    ls_line out = ls_sum(w, "out", "litter hauled out of what is cleared", "ton", tons, n);
    for (size_t k = 0; k < n; k++)
        parts[k] = h->share[k] ? LS_PRODUCT(ls_litter_lot_part(h, k), "share-cleared", "cleared share of the house",
                                            "%", h->share[k], h->gone[k].cleared)
                               : h->gone[k].cleared;
    ls_line share = ls_sum(w, "share", "share of the house cleared", "%", parts, n);
    ls_line there = ls_quotient(w, "house", "litter of the house by the loads hauled", "ton", out, share);
    if (!there) return LS_NO_LINE;
    ls_line solids = ls_complement(w, "solids", "dry share of the litter", "%", h->moisture);
    ls_line dry = LS_PRODUCT(w, "dry", "dry litter by the loads hauled", "ton", there, solids);
    return h->out ? LS_SUM(w, "made", "dry litter made, by the loads hauled", "ton", dry, h->out) : dry;
}

ls_line ls_litter_beside_cleared(ls_litter_house *h) {
    ls_worksheet *w = h->w;
    size_t n = ls_litter_lots_of(h->house);
    ls_line *tons = LS_NEW(h->arena, ls_line, n);
    for (size_t k = 0; k < n; k++)
        if (h->gone[k].empty) tons[k] = h->gone[k].tons;
    ls_line cleared = ls_sum(w, "tons-cleared", "litter of the sides that are cleared", "ton", tons, n);
    ls_line rest = ls_difference(w, "tons-less-cleared", "litter of the house less that", "ton", h->wet, cleared);
    ls_line none = ls_leaf_exact(w, "tons-none", "nothing", "ton", 0, LS_BY_DEFINITION, NULL);
    return LS_GREATEST(w, "tons-beside-cleared", "litter of the house beside its cleared sides", "ton", rest, none);
}
