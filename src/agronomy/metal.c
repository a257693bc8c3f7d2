/* Copper and zinc that litter brings: cautions, never limits. */
#include "room.h"

const char *ls_metal_key(ls_metal metal) { return metal == LS_COPPER ? "Cu" : "Zn"; }

static const char *metal_name(ls_metal metal) { return metal == LS_COPPER ? "copper" : "zinc"; }

/* By the laboratory, as received. */
static ls_line reported(ls_agronomy *g, const ls_analysis *a, ls_metal metal, const ls_quantity *found) {
    ls_worksheet *w = ls_part(g->w, metal_name(metal), "%s.lab.%s", a->slug, ls_metal_key(metal));
    ls_line given = ls_leaf_given(w, "reported", "%s by the laboratory", "ppm", found);
    return a->solids ? LS_PRODUCT(w, "received", "%s by the laboratory, as received", "ppm", given, a->solids) : given;
}

/* The published content of broiler litter, one line for all. */
static ls_line published(ls_agronomy *g, ls_metal metal) {
    const char *key = ls_metal_key(metal);
    return ls_leaf_figure(ls_part(g->w, metal_name(metal), "published-metals"), key, "%s in broiler litter", "ppm",
                          ls_reference_need(g->reference, "metals", "", key, "content"));
}

void ls_agronomy_metals(ls_agronomy *g) {
    static const char *const rules[LS_METALS] = {"copper most", "zinc most"};
    for (ls_metal m = LS_COPPER; m < LS_METALS; m++) {
        g->metals_most[m] = ls_leaf_figure(ls_part(g->w, metal_name(m), "agronomy.most"), ls_metal_key(m),
                                           "lifetime limit of %s on an acre, South Carolina", "lb/ac",
                                           ls_reference_need(g->reference, "rule", "", rules[m], "most"));
        LS_EACH_OF (ls_agronomy_litter, l, g->litters, g->litters_n) {
            const ls_lab *lab = l->analysis->report;
            const ls_quantity *found = lab == NULL ? NULL : m == LS_COPPER ? &lab->Cu : &lab->Zn;
            l->metals_reported[m] = found != NULL && LS_GIVEN(*found);
            l->metals[m] = l->metals_reported[m] ? reported(g, l->analysis, m, found) : published(g, m);
        }
    }
}

void ls_agronomy_metals_on(const ls_agronomy_plot *p, const ls_agronomy_litter *litter, ls_worksheet *of,
                           ls_rate *rate) {
    for (ls_metal m = LS_COPPER; m < LS_METALS; m++) {
        ls_worksheet *w = ls_part(of, metal_name(m), "on");
        const char *symbol = ls_metal_key(m);
        ls_metal_rate *out = &rate->metals[m];
        out->most = p->g->metals_most[m];
        out->reported = litter->metals_reported[m];
        out->on = LS_PRODUCT(w, symbol, "%s supplied", "lb/ac", rate->rate, litter->metals[m]);
        if (ls_line_value(w, out->on) > 0)
            out->times = ls_quotient(ls_part(of, metal_name(m), "times"), symbol,
                                     "spreadings until the lifetime limit of %s", "", out->most, out->on);
    }
}
