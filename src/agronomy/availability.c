/* Plant-available nitrogen in a ton of each analysis, by each way of spreading. */
#include "agronomy/room.h"

#include <string.h>

static bool any_way_by_parts(const ls_agronomy *g) {
    for (size_t i = 0; i < g->ways_n; i++)
        if (g->ways[i].ammonium != LS_NO_LINE)
            return true;
    return false;
}

/* The published share of N that is ammonium: the nitrogen table's own, else that of the bird's
 * litter. */
static const ls_figure *published_share(const ls_agronomy *g, int bird) {
    const ls_figure *own = ls_row_figure(ls_table_row(g->nitrogen, "factors"), "NH4N_share");
    if (own != NULL)
        return own;
    const ls_table *t = ls_reference_table(g->reference, "composition",
                                           ls_bird_name(bird == 0 ? LS_BROILER : bird));
    for (size_t i = 0; t != NULL && i < t->n; i++)
        if (ls_text_same(ls_row_word(&t->rows[i], "default"), "yes"))
            return ls_row_figure(&t->rows[i], "NH4N_share");
    return NULL;
}

/* Ammonium and organic N in a ton, where the table counts them apart. */
static bool split_nitrogen(ls_agronomy *g, ls_agronomy_litter *l) {
    ls_worksheet *w = g->w;
    const ls_analysis *a = l->analysis;
    l->ammonium = a->per_ton[LS_NH4N];
    if (l->ammonium == LS_NO_LINE) {
        const ls_figure *share = published_share(g, a->bird);
        if (share == NULL) {
            LS_AGRONOMY_WRONG(
                g, a->report == NULL ? LS_NOWHERE : a->report->at,
                "add NH4N from the laboratory, or name a nitrogen table of all nitrogen: georgia",
                "the litter of %s has no ammonium nitrogen, and the nitrogen table %s needs it",
                a->slug, g->nitrogen->name);
            return false;
        }
        ls_line leaf = ls_leaf_figure(w, ls_words(w, "%s.pan.NH4N_share", a->slug),
                                      "share of N that is ammonium, published", "%", share);
        l->ammonium = LS_PRODUCT(w, ls_words(w, "%s.pan.NH4N", a->slug), "ammonium N in the litter",
                                 "lb/ton", a->per_ton[LS_N], leaf);
        l->flag = ls_words(
            w,
            "no ammonium nitrogen by a laboratory for the litter of %s: the published share of its "
            "nitrogen is used (%s)",
            a->slug, share->source == NULL ? ls_status_words(share->status) : share->source->id);
    }
    l->organic = ls_difference(w, ls_words(w, "%s.pan.organic_N", a->slug),
                               "organic N in the litter", "lb/ton", a->per_ton[LS_N], l->ammonium);
    return true;
}

/* PAN = organic share x organic N + ammonium share x ammonium N, both of a ton (Penn State
 * Extension); or a share of all N; or a figure. */
static ls_line pan_line(ls_agronomy *g, const ls_agronomy_litter *l, const ls_agronomy_way *way) {
    ls_worksheet *w = g->w;
    const char *slug = l->analysis->slug;
    const char *key = ls_words(w, "%s.pan.%s", slug, way->slug),
               *label = "plant-available N in the litter";
    if (way->per_ton != LS_NO_LINE)
        return ls_same(w, key, label, "lb/ton", way->per_ton);
    if (way->total != LS_NO_LINE)
        return LS_PRODUCT(w, key, label, "lb/ton", l->analysis->per_ton[LS_N], way->total);
    ls_line organic = LS_PRODUCT(w, ls_words(w, "%s.organic", key), "organic N that counts",
                                 "lb/ton", l->organic, way->organic);
    ls_line ammonium = LS_PRODUCT(w, ls_words(w, "%s.ammonium", key), "ammonium N that counts",
                                  "lb/ton", l->ammonium, way->ammonium);
    return LS_SUM(w, key, label, "lb/ton", organic, ammonium);
}

/* Both limits need a figure; a table of the farm's own may lack one. */
static bool has_figures(ls_agronomy *g, const ls_analysis *a) {
    if (a->per_ton[LS_N] != LS_NO_LINE && a->per_ton[LS_P2O5] != LS_NO_LINE)
        return true;
    LS_AGRONOMY_WRONG(g, a->report == NULL ? LS_NOWHERE : a->report->at,
                      "add N and P2O5 from the laboratory, or to the composition table of your own",
                      "no nitrogen or no phosphate is known for the litter of %s", a->slug);
    return false;
}

static bool fill_litter(ls_agronomy *g, ls_agronomy_litter *l, const ls_analysis *a,
                        bool by_parts) {
    *l = (ls_agronomy_litter){.analysis = a, .ammonium = LS_NO_LINE, .organic = LS_NO_LINE};
    if (!has_figures(g, a))
        return false;
    if (by_parts && !split_nitrogen(g, l))
        return false;
    l->pan = LS_NEW(g->arena, ls_agronomy_content, g->ways_n);
    for (size_t i = 0; i < g->ways_n; i++) {
        bool reported = a->reported[LS_N];
        l->pan[i] = (ls_agronomy_content){pan_line(g, l, &g->ways[i]), reported, LS_NO_LINE,
                                          LS_NO_LINE, NULL};
    }
    bool reported = a->reported[LS_P2O5];
    l->phosphate =
        (ls_agronomy_content){a->per_ton[LS_P2O5], reported, LS_NO_LINE, LS_NO_LINE, NULL};
    return true;
}

bool ls_agronomy_litters(ls_agronomy *g) {
    const ls_estimate *e = g->estimate;
    bool by_parts = any_way_by_parts(g), good = true;
    g->litters = LS_NEW(g->arena, ls_agronomy_litter, e->n);
    g->litter_of = LS_NEW(g->arena, size_t, e->n);
    for (size_t i = 0; i < e->n; i++) {
        size_t k = 0;
        while (k < g->litters_n && g->litters[k].analysis != e->lots[i].analysis)
            k++;
        if (k == g->litters_n)
            good =
                fill_litter(g, &g->litters[g->litters_n++], e->lots[i].analysis, by_parts) && good;
        g->litter_of[i] = k;
    }
    return good;
}
