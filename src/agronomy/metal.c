/* Copper and zinc that litter brings: cautions, never limits. */
#include "room.h"

const char *ls_metal_key(ls_metal metal) {
    return metal == LS_COPPER ? "Cu" : "Zn";
}

static const char *metal_name(ls_metal metal) {
    return metal == LS_COPPER ? "copper" : "zinc";
}

/* By the laboratory, as received. */
static ls_line reported(ls_agronomy *g, const ls_analysis *a, ls_metal metal,
                        const ls_quantity *found) {
    ls_worksheet *w = g->w;
    const char *name = metal_name(metal), *symbol = ls_metal_key(metal);
    ls_line given = ls_leaf_given(w, ls_printf(w, "%s.lab.%s.reported", a->slug, symbol),
                                  ls_printf(w, "%s by the laboratory", name), "ppm", found);
    if (a->solids == LS_NO_LINE)
        return given;
    return LS_PRODUCT(w, ls_printf(w, "%s.lab.%s.received", a->slug, symbol),
                      ls_printf(w, "%s by the laboratory, as received", name), "ppm", given,
                      a->solids);
}

/* The published content of broiler litter, one line for all. */
static ls_line published(ls_agronomy *g, ls_metal metal) {
    const char *key = ls_printf(g->w, "published-metals.%s", ls_metal_key(metal));
    ls_line line = ls_line_find(g->w, key);
    return line != LS_NO_LINE
               ? line
               : ls_leaf_figure(
                     g->w, key, ls_printf(g->w, "%s in broiler litter", metal_name(metal)), "ppm",
                     ls_reference_need(g->reference, "metals", "", ls_metal_key(metal), "content"));
}

void ls_agronomy_metals(ls_agronomy *g) {
    static const char *const rules[LS_METALS] = {"copper most", "zinc most"};
    for (ls_metal m = LS_COPPER; m < LS_METALS; m++) {
        g->metals_most[m] = ls_leaf_figure(
            g->w, ls_printf(g->w, "agronomy.most.%s", ls_metal_key(m)),
            ls_printf(g->w, "lifetime limit of %s on an acre, South Carolina", metal_name(m)),
            "lb/ac", ls_reference_need(g->reference, "rule", "", rules[m], "most"));
        for (size_t i = 0; i < g->litters_n; i++) {
            ls_agronomy_litter *l = &g->litters[i];
            const ls_lab *lab = l->analysis->report;
            const ls_quantity *found = lab == NULL ? NULL : m == LS_COPPER ? &lab->Cu : &lab->Zn;
            l->metals_reported[m] = found != NULL && LS_GIVEN(*found);
            l->metals[m] =
                l->metals_reported[m] ? reported(g, l->analysis, m, found) : published(g, m);
        }
    }
}

void ls_agronomy_metals_on(const ls_agronomy_plot *p, const ls_agronomy_litter *litter,
                           const char *prefix, ls_rate *rate) {
    ls_worksheet *w = p->g->w;
    for (ls_metal m = LS_COPPER; m < LS_METALS; m++) {
        const char *name = metal_name(m), *symbol = ls_metal_key(m);
        ls_metal_rate *out = &rate->metals[m];
        *out = (ls_metal_rate){LS_NO_LINE, p->g->metals_most[m], LS_NO_LINE,
                               litter->metals_reported[m]};
        out->on =
            LS_PRODUCT(w, ls_printf(w, "%s.on.%s", prefix, symbol),
                       ls_printf(w, "%s supplied", name), "lb/ac", rate->rate, litter->metals[m]);
        if (ls_line_value(w, out->on) > 0)
            out->times =
                ls_quotient(w, ls_printf(w, "%s.times.%s", prefix, symbol),
                            ls_printf(w, "spreadings until the lifetime limit of %s", name), "",
                            out->most, out->on);
    }
}
