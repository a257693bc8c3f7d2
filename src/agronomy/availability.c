/* Plant-available nitrogen in a ton of each analysis, by each way of spreading. */
#include "room.h"

#include <math.h>
#include <string.h>

static bool any_way_by_parts(const ls_agronomy *g) {
    LS_EACH_OF (const ls_agronomy_spreading, way, g->spreadings, g->spreadings_n)
        if (way->ammonium) return true;
    return false;
}

/* The published share of N that is ammonium: the nitrogen table's own, else that of the bird's litter. */
static const ls_figure *published_share(const ls_agronomy *g, int bird) {
    const ls_figure *own = ls_row_figure(ls_table_row(g->nitrogen, "factors"), "NH4N_share");
    if (own != NULL) return own;
    const ls_table *t = ls_reference_table(g->reference, "composition", ls_bird_tables(bird));
    for (size_t i = 0; t != NULL && i < t->n; i++)
        if (ls_text_same(ls_row_word(&t->rows[i], "default"), "yes")) return ls_row_figure(&t->rows[i], "NH4N_share");
    return NULL;
}

/* Ammonium and organic N in a ton, where the table counts them apart. */
static bool split_nitrogen(ls_agronomy *g, ls_agronomy_litter *l, ls_worksheet *w) {
    const ls_analysis *a = l->analysis;
    l->ammonium = a->per_ton[LS_NH4N];
    if (!l->ammonium) {
        const ls_figure *share = published_share(g, a->bird);
        if (share == NULL) {
            LS_AGRONOMY_WRONG(g, a->report == NULL ? LS_NOWHERE : a->report->at,
                              "add NH4N from the laboratory, or name a nitrogen table of all nitrogen: georgia",
                              "the litter of %s has no ammonium nitrogen, and the nitrogen table %s needs it", a->slug,
                              g->nitrogen->name);
            return false;
        }
        ls_line leaf = ls_leaf_figure(w, "NH4N_share", "share of N that is ammonium, published", "%", share);
        l->ammonium = LS_PRODUCT(w, "NH4N", "ammonium N in the litter", "lb/ton", a->per_ton[LS_N], leaf);
        *LS_PUSH(g->arena, &l->flags) =
            ls_printf(w,
                      "no ammonium nitrogen by a laboratory for the litter of %s: the published "
                      "share of its nitrogen is used (%s)",
                      a->slug, ls_agronomy_source(share->source, share->status));
    }
    l->organic = ls_difference(w, "organic_N", "organic N in the litter", "lb/ton", a->per_ton[LS_N], l->ammonium);
    return true;
}

/* PAN = organic share x organic N + ammonium share x ammonium N, both of a ton (Penn State
 * Extension); or a share of all N; or a figure. */
static ls_line pan_line(const ls_agronomy_litter *l, ls_worksheet *of, const ls_agronomy_spreading *spread) {
    ls_worksheet *w = ls_part(of, NULL, "%s", spread->slug);
    static const char label[] = "plant-available N in the litter";
    if (spread->per_ton) return ls_same(w, "", label, "lb/ton", spread->per_ton);
    if (spread->total) return LS_PRODUCT(w, "", label, "lb/ton", l->analysis->per_ton[LS_N], spread->total);
    ls_line organic = LS_PRODUCT(w, "organic", "organic N that counts", "lb/ton", l->organic, spread->organic);
    ls_line ammonium = LS_PRODUCT(w, "ammonium", "ammonium N that counts", "lb/ton", l->ammonium, spread->ammonium);
    return LS_SUM(w, "", label, "lb/ton", organic, ammonium);
}

/* Both limits need a figure; a table of the farm's own may lack one. */
static bool has_figures(ls_agronomy *g, const ls_analysis *a) {
    if (a->per_ton[LS_N] && a->per_ton[LS_P2O5]) return true;
    LS_AGRONOMY_WRONG(g, a->report == NULL ? LS_NOWHERE : a->report->at,
                      "add N and P2O5 from the laboratory, or to the composition table of your own",
                      "no nitrogen or no phosphate is known for the litter of %s", a->slug);
    return false;
}

bool ls_agronomy_fill(ls_agronomy *g, ls_agronomy_litter *l, const ls_analysis *a) {
    ls_worksheet *w = ls_part(g->w, NULL, "%s.pan", a->slug);
    *l = (ls_agronomy_litter){.analysis = a,
                              .phosphate = {.stated = a->per_ton[LS_P2O5], .reported = a->reported[LS_P2O5]}};
    if (!has_figures(g, a)) return false;
    if (any_way_by_parts(g) && !split_nitrogen(g, l, w)) return false;
    l->pan = LS_NEW(g->arena, ls_agronomy_content, g->spreadings_n);
    for (size_t i = 0; i < g->spreadings_n; i++)
        l->pan[i] = (ls_agronomy_content){.stated = pan_line(l, w, &g->spreadings[i]), .reported = a->reported[LS_N]};
    return true;
}

/* Litter of earlier years in the stack, by the figures of its own file. */
static const ls_analysis *analysis_of(ls_agronomy *g, const ls_stacked *s, const char *slug) {
    ls_worksheet *w = ls_part(g->w, s->from, "%s", slug);
    ls_analysis *a = LS_NEW(g->arena, ls_analysis, 1);
    *a = (ls_analysis){.slug = slug, .report = s->report, .reports = s->reports, .bird = s->bird, .by = s->by};
    for (int k = 0; k < LS_NUTRIENTS; k++) {
        a->reported[k] = true; /* the figure is used as it is */
        if (!isnan(s->per_ton[k]))
            a->per_ton[k] = ls_leaf_exact(w, ls_nutrient_key(k),
                                          ls_printf(w, "%s in a ton of stacked litter, %%s", ls_nutrient_key(k)),
                                          "lb/ton", s->per_ton[k], LS_BY_FARM, s->by);
    }
    return a;
}

static bool stacked_litters(ls_agronomy *g) {
    bool good = true;
    g->stacked_from = g->litters_n;
    g->stacked = LS_NEW(g->arena, ls_lot, g->farm->stacked.n);
    for (size_t i = 0; i < g->farm->stacked.n; i++) {
        const ls_stacked *s = &g->farm->stacked.at[i];
        LS_EACH_OF (const ls_lot, lot, g->estimate->lots, g->estimate->n)
            if (strcmp(lot->code, s->lot) == 0) g->stacked[i] = *lot;
        const char *slug = ls_arena_printf(g->arena, "%s.of-%s", g->stacked[i].slug, ls_text_slug(g->arena, s->from));
        g->stacked[i].slug = slug;
        g->stacked[i].analysis = analysis_of(g, s, slug);
        good = ls_agronomy_fill(g, &g->litters[g->litters_n++], g->stacked[i].analysis) && good;
    }
    return good;
}

bool ls_agronomy_litters(ls_agronomy *g) {
    const ls_estimate *e = g->estimate;
    bool good = true;
    g->litters = LS_NEW(g->arena, ls_agronomy_litter, e->n + g->farm->stacked.n);
    g->litter_of = LS_NEW(g->arena, size_t, e->n);
    for (size_t i = 0; i < e->n; i++) {
        size_t k = 0;
        while (k < g->litters_n && g->litters[k].analysis != e->lots[i].analysis) k++;
        if (k == g->litters_n) good = ls_agronomy_fill(g, &g->litters[g->litters_n++], e->lots[i].analysis) && good;
        g->litter_of[i] = k;
    }
    return stacked_litters(g) && good;
}

/* ---- phosphate and potash ---- */

static void note(ls_agronomy *g, const char *what, const char *by, const ls_table *t) {
    const ls_row *row = &t->rows[0];
    *LS_PUSH(g->arena, &g->notes) =
        ls_arena_printf(g->arena, "%s %s %s (%s%s%s)", what, by, t->name, row->source == NULL ? "" : row->source->who,
                        row->source == NULL || row->status == LS_READ ? "" : ", ",
                        row->source != NULL && row->status == LS_READ ? "" : ls_status_words(row->status));
}

/* Litter treated with alum: no factor is known, only the caution. */
static void note_alum(ls_agronomy *g) {
    const ls_row *row = ls_table_row(ls_reference_table(g->reference, "caution", ""), "alum");
    ls_text *houses = ls_text_new(g->arena);
    bool reported = true;
    LS_EACH (const ls_house, h, g->farm->houses)
        if (h->alum.yes) ls_text_addf(houses, "%s%s", houses->n > 0 ? ", " : "", h->name.text);
    LS_EACH_OF (const ls_lot, lot, g->estimate->lots, g->estimate->n)
        if (lot->house->alum.yes && lot->analysis->report == NULL) reported = false;
    if (houses->n > 0 && row != NULL)
        *LS_PUSH(g->arena, &g->notes) = ls_arena_printf(
            g->arena, "Treated with alum: litter of %s. %s (%s)%s", houses->s, ls_row_word(row, "text"),
            row->source->id,
            reported ? "" : " Not all of it has a report: the published figures are of litter without alum.");
}

void ls_agronomy_counted(ls_agronomy *g) {
    const ls_table_names *names = g->farm->tables;
    const char *name = names == NULL ? NULL : names->phosphate_and_potash.text;
    const ls_table *t = name == NULL ? NULL : ls_reference_table(g->reference, "nitrogen", name);
    note(g, "Nitrogen that counts in the first year:",
         names == NULL || names->nitrogen.text == NULL ? "no table is named, so by table" : "by table", g->nitrogen);
    if (g->ammonium != NULL) note(g, "Ammonium kept after spreading:", "by table", g->ammonium);
    note_alum(g);
    if (t == NULL) {
        *LS_PUSH(g->arena, &g->notes) =
            "Phosphate and potash of the litter count in full: no table of what counts in the "
            "first year is named (phosphate_and_potash, under tables)";
        return;
    }
    const ls_row *row = ls_table_row(t, "factors");
    static const char label[] = "share of %s that counts in the first year";
    g->counted[LS_FIELD_P2O5] =
        ls_leaf_figure(ls_part(g->w, "P2O5", "share"), "phosphate", label, "%", ls_row_figure(row, "P"));
    g->counted[LS_FIELD_K2O] =
        ls_leaf_figure(ls_part(g->w, "K2O", "share"), "potash", label, "%", ls_row_figure(row, "K"));
    note(g, "Phosphate and potash that count in the first year:", "by table", t);
}

size_t ls_agronomy_notes(const ls_agronomy *g, const char *const **notes) {
    *notes = g->notes.at;
    return g->notes.n;
}
