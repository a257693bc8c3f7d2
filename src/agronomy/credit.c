/* What comes from elsewhere: legume, fertilizer, irrigation water, litter spread for earlier crops.
 */
#include "room.h"

static const char *const nutrients[LS_FIELD_NUTRIENTS] = {"N", "P2O5", "K2O"};

/* The credits of a field while they are gathered; at has room for all of them. */
typedef struct {
    ls_agronomy_plot *plot;
    size_t n;
    ls_credit *at;
} gathering;

static ls_credit *add_credit(gathering *c, const char *name) {
    ls_credit *credit = &c->at[c->n++];
    credit->name = ls_arena_copy(c->plot->g->arena, name);
    for (int i = 0; i < LS_FIELD_NUTRIENTS; i++)
        credit->gives[i] = LS_NO_LINE;
    return credit;
}

static void add_nitrogen(gathering *c, const char *name, ls_line line) {
    add_credit(c, name)->gives[LS_FIELD_N] = line;
}

/* ---- earlier litter ---- */

/* The year of the crop that the litter is for. */
static long crop_year(ls_agronomy_plot *p) {
    const ls_field *f = p->field;
    if (LS_GIVEN(f->for_crop))
        return f->for_crop.n;
    ls_date opening = ls_agronomy_opening(p);
    if (opening != LS_NO_DATE) {
        int year = ls_date_year(opening);
        ls_agronomy_flag(p,
                         "no for_crop given: this litter is taken as for the crop of %d, the year "
                         "it can be spread",
                         year);
        return year;
    }
    long latest = 0;
    for (size_t i = 0; i < f->earlier_litter.n; i++) {
        const ls_earlier *e = &f->earlier_litter.at[i];
        long year = LS_GIVEN(e->for_crop) ? e->for_crop.n : e->year.n;
        latest = year > latest ? year : latest;
    }
    ls_agronomy_flag(p,
                     "no for_crop and no opening day given: this litter is taken as for the crop "
                     "of %ld, the year after the last "
                     "crop that had litter",
                     latest + 1);
    return latest + 1;
}

/* What litter spread earlier still gives: rate x its organic N x the share released in the year;
 * LS_NO_LINE: nothing by the table. */
static ls_line earlier_credit(ls_agronomy_plot *p, const ls_earlier *e, size_t number, long year) {
    ls_agronomy *g = p->g;
    ls_worksheet *w = g->w;
    const char *slug = p->out->slug;
    long n = year - (LS_GIVEN(e->for_crop) ? e->for_crop.n : e->year.n) + 1;
    if (n < 1 || (size_t)n > g->released.n || g->released.at[n - 1] == LS_NO_LINE)
        return LS_NO_LINE;
    ls_line rate = ls_leaf_given(w, ls_printf(w, "%s.credit.earlier-%zu.spread", slug, number),
                                 "earlier litter, rate", "ton/ac", &e->rate);
    ls_line organic =
        ls_leaf_given(w, ls_printf(w, "%s.credit.earlier-%zu.organic_N", slug, number),
                      "earlier litter, organic N", "lb/ton", &e->organic_nitrogen);
    return LS_PRODUCT(w, ls_printf(w, "%s.credit.earlier-%zu.N", slug, number),
                      ls_printf(w, "N from earlier litter, year %ld after spreading", n), "lb/ac",
                      rate, organic, g->released.at[n - 1]);
}

static void add_earlier(gathering *c) {
    const ls_field *f = c->plot->field;
    if (f->earlier_litter.n == 0)
        return;
    long year = crop_year(c->plot);
    for (size_t i = 0; i < f->earlier_litter.n; i++) {
        const ls_earlier *e = &f->earlier_litter.at[i];
        ls_line credit = earlier_credit(c->plot, e, i + 1, year);
        if (credit != LS_NO_LINE)
            add_nitrogen(c, ls_printf(c->plot->g->w, "N from litter of %ld", e->year.n), credit);
    }
}

/* ---- a figure of the file ---- */

static void add_given(gathering *c) {
    static const ls_credits none;
    const ls_credits *given = c->plot->field->credits == NULL ? &none : c->plot->field->credits;
    const struct {
        const ls_quantity *q;
        const char *key, *label;
    } all[] = {{&given->legume, "credit.legume", "N from the legume before"},
               {&given->starter, "credit.starter", "N in starter fertilizer"},
               {&given->irrigation, "credit.irrigation", "N in irrigation water"}};
    for (size_t i = 0; i < sizeof all / sizeof *all; i++)
        if (LS_GIVEN(*all[i].q))
            add_nitrogen(
                c, all[i].label,
                ls_leaf_given(c->plot->g->w,
                              ls_printf(c->plot->g->w, "%s.%s", c->plot->out->slug, all[i].key),
                              all[i].label, "lb/ac", all[i].q));
}

/* ---- irrigation water ---- */

/* Nitrate nitrogen in the water: of the nitrate itself 14.007 / 62.004 is nitrogen. */
static ls_line nitrate_nitrogen(ls_agronomy_plot *p, const char *unit) {
    const ls_irrigation *water = p->field->irrigation;
    ls_worksheet *w = p->g->w;
    const char *key = LS_AGRONOMY_KEY(p, "credit.irrigation.nitrate_N"),
               *label = "nitrate nitrogen (NO3-N) in the water";
    if (LS_GIVEN(water->nitrate))
        return ls_leaf_given(w, key, label, unit, &water->nitrate);
    ls_line nitrate = ls_leaf_given(w, LS_AGRONOMY_KEY(p, "credit.irrigation.nitrate"),
                                    "nitrate (NO3) in the water", unit, &water->NO3);
    ls_line share = ls_agronomy_shared(
        p->g, "agronomy.nitrogen_in_nitrate", "share of nitrate that is nitrogen", "",
        ls_reference_need(p->g->reference, "practice", "", "NO3 to N", "value"));
    return LS_PRODUCT(w, key, label, unit, nitrate, share);
}

/* An acre-inch of water weighs 226,600 lb, so that 1 ppm in an inch is 0.2266 lb/ac; 1 mg/L is
 * reckoned by volume. */
static void add_irrigation(gathering *c) {
    ls_agronomy_plot *p = c->plot;
    const ls_irrigation *water = p->field->irrigation;
    if (water == NULL)
        return;
    ls_worksheet *w = p->g->w;
    const ls_quantity *nitrate = LS_GIVEN(water->nitrate) ? &water->nitrate : &water->NO3;
    bool by_weight = ls_dimension_none(nitrate->unit.dimension);
    ls_line held = nitrate_nitrogen(p, by_weight ? "ppm" : "mg/L");
    ls_line depth = ls_leaf_given(w, LS_AGRONOMY_KEY(p, "credit.irrigation.water"),
                                  "irrigation water", "in", &water->water);
    const char *key = LS_AGRONOMY_KEY(p, "credit.irrigation"), *label = "N in irrigation water";
    if (!by_weight) {
        add_nitrogen(c, label, LS_PRODUCT(w, key, label, "lb/ac", held, depth));
        return;
    }
    ls_line weight = ls_agronomy_shared(
        p->g, "agronomy.water_on_an_acre", "an inch of water on an acre", "lb/ac/in",
        ls_reference_need(p->g->reference, "practice", "", "water on an acre", "value"));
    add_nitrogen(c, label, LS_PRODUCT(w, key, label, "lb/ac", held, depth, weight));
}

/* ---- fertilizer ---- */

/* The share of a nutrient in a product or a grade; LS_NO_LINE: it holds none. */
static ls_line content(ls_agronomy_plot *p, const ls_fertilized *f, const char *prefix,
                       int nutrient) {
    ls_agronomy *g = p->g;
    ls_worksheet *w = g->w;
    const char *key = ls_printf(w, "%s.holds.%s", prefix, nutrients[nutrient]);
    if (f->product.text != NULL) {
        const ls_figure *figure = ls_row_figure(
            ls_table_row(ls_reference_table(g->reference, "fertilizer", ""), f->product.text),
            nutrients[nutrient]);
        return figure == NULL || !(figure->value > 0)
                   ? LS_NO_LINE
                   : ls_leaf_figure(w, key,
                                    ls_printf(w, "%s in %s", nutrients[nutrient], f->product.text),
                                    "lb/ton", figure);
    }
    if (!(f->holds[nutrient] > 0))
        return LS_NO_LINE;
    return ls_leaf(w, key, ls_printf(w, "%s in %s", nutrients[nutrient], f->grade.text), "%",
                   f->holds[nutrient], ls_spread_exact(),
                   (ls_origin){LS_BY_FARM, f->grade.at, NULL, "by its grade"});
}

static void add_fertilizer(gathering *c) {
    ls_agronomy_plot *p = c->plot;
    ls_worksheet *w = p->g->w;
    for (size_t i = 0; i < p->field->fertilizer.n; i++) {
        const ls_fertilized *f = &p->field->fertilizer.at[i];
        const char *product = f->product.text == NULL ? f->grade.text : f->product.text;
        const char *name =
            f->purpose.text == NULL ? product : ls_printf(w, "%s, %s", product, f->purpose.text);
        const char *prefix =
            ls_arena_printf(p->g->arena, "%s.credit.fertilizer-%zu", p->out->slug, i + 1);
        ls_credit *credit = add_credit(c, name);
        ls_line rate = ls_leaf_given(w, ls_printf(w, "%s.rate", prefix),
                                     ls_printf(w, "%s, rate", credit->name), "lb/ac", &f->rate);
        for (int k = 0; k < LS_FIELD_NUTRIENTS; k++) {
            ls_line holds = content(p, f, prefix, k);
            if (holds != LS_NO_LINE)
                credit->gives[k] = LS_PRODUCT(
                    w, ls_printf(w, "%s.%s", prefix, nutrients[k]),
                    ls_printf(w, "%s from %s", nutrients[k], credit->name), "lb/ac", rate, holds);
        }
    }
}

/* ---- together ---- */

/* All credits of a nutrient, and what is left of the need after them. */
static void add_up(gathering *c, int nutrient) {
    ls_agronomy_plot *p = c->plot;
    ls_worksheet *w = p->g->w;
    ls_field_rates *out = p->out;
    const char *name = nutrients[nutrient];
    const char *key = ls_printf(w, "%s.credits.%s", out->slug, name),
               *label = ls_printf(w, "%s from elsewhere", name);
    ls_line *lines = LS_NEW(p->g->arena, ls_line, c->n);
    size_t n = 0;
    for (size_t i = 0; i < c->n; i++)
        if (c->at[i].gives[nutrient] != LS_NO_LINE)
            lines[n++] = c->at[i].gives[nutrient];
    out->credits[nutrient] = n > 0 ? ls_sum(w, key, label, "lb/ac", lines, n)
                                   : ls_leaf_exact(w, key, label, "lb/ac", 0, LS_BY_DEFINITION,
                                                   "the farm file gives none");
    out->left[nutrient] = LS_NO_LINE;
    if (out->need[nutrient] == LS_NO_LINE)
        return;
    ls_line less = ls_difference(w,
                                 nutrient == LS_FIELD_N
                                     ? LS_AGRONOMY_KEY(p, "need_less_credits")
                                     : ls_printf(w, "%s.need_less_credits.%s", out->slug, name),
                                 ls_printf(w, "%s need less credits", name), "lb/ac",
                                 out->need[nutrient], out->credits[nutrient]);
    out->left[nutrient] =
        LS_GREATEST(w, ls_printf(w, "%s.left.%s", out->slug, name),
                    ls_printf(w, "%s need after credits", name), "lb/ac", p->g->none, less);
}

bool ls_agronomy_gives(const ls_agronomy_plot *p, int nutrient) {
    for (size_t i = 0; i < p->out->credit_n; i++)
        if (p->out->credit[i].gives[nutrient] != LS_NO_LINE)
            return true;
    return false;
}

/* Phosphate of fertilizer counts against what the rating and the ledger allow. */
static void take_off_limit(ls_agronomy_plot *p) {
    if (!ls_agronomy_gives(p, LS_FIELD_P2O5) || p->phosphate == LS_NO_LINE)
        return;
    ls_worksheet *w = p->g->w;
    ls_line less = ls_difference(w, LS_AGRONOMY_KEY(p, "phosphorus.less_fertilizer"),
                                 "P2O5 allowed less that of fertilizer", "lb/ac", p->phosphate,
                                 p->out->credits[LS_FIELD_P2O5]);
    p->phosphate = LS_GREATEST(w, LS_AGRONOMY_KEY(p, "phosphorus.for_litter"),
                               "P2O5 allowed in litter", "lb/ac", p->g->none, less);
}

void ls_agronomy_credits(ls_agronomy_plot *p) {
    enum { GIVEN = 4 };
    const ls_field *f = p->field;
    gathering c = {p, 0,
                   LS_NEW(p->g->arena, ls_credit, GIVEN + f->fertilizer.n + f->earlier_litter.n)};
    add_given(&c);
    add_irrigation(&c);
    add_fertilizer(&c);
    add_earlier(&c);
    p->out->credit_n = c.n;
    p->out->credit = c.at;
    for (int k = 0; k < LS_FIELD_NUTRIENTS; k++)
        add_up(&c, k);
    take_off_limit(p);
}
