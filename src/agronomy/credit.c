/* What comes from elsewhere: legume, fertilizer, irrigation water, litter spread for earlier crops.
 */
#include "room.h"

/* The credits of a field while they are gathered; at has room for all of them. */
typedef struct {
    ls_agronomy_plot *plot;
    size_t n;
    ls_credit *at;
} gathering;

static ls_credit *add_credit(gathering *c, const char *name) {
    ls_credit *credit = &c->at[c->n++];
    credit->name = ls_arena_copy(c->plot->g->arena, name);
    return credit;
}

static void add_nitrogen(gathering *c, const char *name, ls_line line) {
    add_credit(c, name)->gives[LS_FIELD_N] = line;
}

/* ---- earlier litter ---- */

/* The year of the crop that the litter is for; what it is taken for is said. */
static long crop_year(ls_agronomy_plot *p) {
    const ls_field *f = p->field;
    int year = ls_farm_crop_year(p->g->farm->crew, p->field);
    if (year != 0 && !LS_GIVEN(f->for_crop))
        ls_agronomy_flag(p,
                         "no for_crop given: this litter is taken as for the crop of %d, by its "
                         "harvest or the first day it can be spread",
                         year);
    if (year != 0) return year;
    long latest = 0;
    LS_EACH (const ls_earlier, e, f->earlier_litter)
        latest = ls_agronomy_crop_of(e) > latest ? ls_agronomy_crop_of(e) : latest;
    ls_agronomy_flag(p,
                     "no for_crop and no opening day given: this litter is taken as for the crop "
                     "of %ld, the year after the last crop that had litter",
                     latest + 1);
    return latest + 1;
}

/* The share of organic nitrogen that litter for the crop of one year releases in another;
 * LS_NO_LINE: nothing by the table. */
static ls_line released(const ls_agronomy *g, long from, long year) {
    long n = year - from + 1;
    return n < 1 || (size_t)n > g->released.n ? LS_NO_LINE : g->released.at[n - 1];
}

/* What litter spread earlier still gives: rate x its organic N x the share released in the year. */
static ls_line earlier_credit(ls_agronomy_plot *p, const ls_earlier *e, size_t number, long year) {
    ls_worksheet *w = ls_part(p->w, NULL, "credit.earlier-%zu", number);
    ls_line share = released(p->g, ls_agronomy_crop_of(e), year);
    if (!share) return LS_NO_LINE;
    return LS_PRODUCT(
        w, "N", ls_printf(w, "N from earlier litter, year %ld after spreading", year - ls_agronomy_crop_of(e) + 1),
        "lb/ac", ls_leaf_given(w, "spread", "earlier litter, rate", "ton/ac", &e->rate),
        ls_leaf_given(w, "organic_N", "earlier litter, organic N", "lb/ton", &e->organic_nitrogen), share);
}

/* The same of litter that earlier files and their logs tell of, beyond what the file itself says of
 * litter for that crop. */
static void add_logged(gathering *c, const ls_past *past, size_t number, long year, const ls_line *told) {
    ls_agronomy_plot *p = c->plot;
    ls_worksheet *w = ls_part(p->w, NULL, "credit.logged-%zu", number);
    ls_line share = released(p->g, past->year, year), *same = LS_NEW(p->g->arena, ls_line, p->field->earlier_litter.n);
    size_t n = 0;
    LS_EACH (const ls_earlier, e, p->field->earlier_litter)
        if (ls_agronomy_crop_of(e) == past->year) same[n++] = told[e - p->field->earlier_litter.at];
    if (!share || !(past->organic > 0)) return;
    ls_line organic =
        ls_leaf_exact(w, "organic_N", ls_printf(w, "organic N of litter for %d", past->year), "lb/ac", past->organic,
                      LS_BY_FARM, ls_printf(w, "%s with the log, parts of loads: %zu", past->from, past->loads));
    ls_line logged =
        LS_PRODUCT(w, "N", ls_printf(w, "N from logged litter, year %ld after spreading", year - past->year + 1),
                   "lb/ac", organic, share);
    ls_line own = ls_sum(w, "told", "N from that litter, as the file says", "lb/ac", same, n);
    if (own) {
        *LS_PUSH(p->g->arena, &p->out->carried) = (ls_field_carryover){past->year, own, logged, past};
        logged =
            LS_GREATEST(w, "more", "N by the logs beyond what the file says", "lb/ac", p->g->none,
                        ls_difference(w, "less_told", "N by the logs less what the file says", "lb/ac", logged, own));
    }
    add_nitrogen(c, ls_printf(w, "N from litter for %d", past->year), logged);
}

static void add_earlier(gathering *c) {
    const ls_field *f = c->plot->field;
    const ls_farm *farm = c->plot->g->farm;
    size_t past = 0, n = 0;
    LS_EACH (const ls_past, x, farm->past) past += x->field == f;
    if (f->earlier_litter.n == 0 && past == 0) return;
    long year = crop_year(c->plot);
    ls_line *told = LS_NEW(c->plot->g->arena, ls_line, f->earlier_litter.n);
    for (size_t i = 0; i < f->earlier_litter.n; i++) {
        const ls_earlier *e = &f->earlier_litter.at[i];
        told[i] = earlier_credit(c->plot, e, i + 1, year);
        if (told[i]) add_nitrogen(c, ls_printf(c->plot->g->w, "N from litter of %ld", e->year.n), told[i]);
    }
    LS_EACH (const ls_past, x, farm->past)
        if (x->field == f) add_logged(c, x, ++n, year, told);
}

/* ---- a figure of the file ---- */

static void add_given(gathering *c) {
    static const ls_credits none;
    const ls_credits *given = c->plot->field->credits == NULL ? &none : c->plot->field->credits;
    const struct {
        const ls_quantity *q;
        const char *key, *label;
    } all[] = {{&given->legume, "credit.legume", "N from the legume before"},
               {&given->cover, "credit.cover", "N from the cover crop before"},
               {&given->starter, "credit.starter", "N in starter fertilizer"},
               {&given->irrigation, "credit.irrigation", "N in irrigation water"}};
    for (size_t i = 0; i < sizeof all / sizeof *all; i++)
        if (LS_GIVEN(*all[i].q))
            add_nitrogen(c, all[i].label, ls_leaf_given(c->plot->w, all[i].key, all[i].label, "lb/ac", all[i].q));
}

/* ---- irrigation water ---- */

/* Nitrate nitrogen in the water: of the nitrate itself 14.007 / 62.004 is nitrogen. */
static ls_line nitrate_nitrogen(ls_agronomy_plot *p, ls_worksheet *w, const char *unit) {
    const ls_irrigation *water = p->field->irrigation;
    static const char label[] = "nitrate nitrogen (NO3-N) in the water";
    if (LS_GIVEN(water->nitrate)) return ls_leaf_given(w, "nitrate_N", label, unit, &water->nitrate);
    ls_line nitrate = ls_leaf_given(w, "nitrate", "nitrate (NO3) in the water", unit, &water->NO3);
    ls_line share = ls_leaf_figure(p->g->w, "agronomy.nitrogen_in_nitrate", "share of nitrate that is nitrogen", "",
                                   ls_reference_practice(p->g->reference, "NO3 to N"));
    return LS_PRODUCT(w, "nitrate_N", label, unit, nitrate, share);
}

/* An acre-inch of water weighs 226,600 lb, so that 1 ppm in an inch is 0.2266 lb/ac; 1 mg/L is reckoned by volume. */
static void add_irrigation(gathering *c) {
    ls_agronomy_plot *p = c->plot;
    const ls_irrigation *water = p->field->irrigation;
    if (water == NULL) return;
    ls_worksheet *w = ls_part(p->w, NULL, "credit.irrigation");
    const ls_quantity *nitrate = LS_GIVEN(water->nitrate) ? &water->nitrate : &water->NO3;
    bool by_weight = ls_dimension_none(nitrate->unit.dimension);
    ls_line held = nitrate_nitrogen(p, w, by_weight ? "ppm" : "mg/L");
    ls_line depth = ls_leaf_given(w, "water", "irrigation water", "in", &water->water);
    static const char label[] = "N in irrigation water";
    if (!by_weight) {
        add_nitrogen(c, label, LS_PRODUCT(w, "", label, "lb/ac", held, depth));
        return;
    }
    ls_line weight = ls_leaf_figure(p->g->w, "agronomy.water_on_an_acre", "an inch of water on an acre", "lb/ac/in",
                                    ls_reference_practice(p->g->reference, "water on an acre"));
    add_nitrogen(c, label, LS_PRODUCT(w, "", label, "lb/ac", held, depth, weight));
}

/* ---- fertilizer ---- */

/* The share of a nutrient in a product or a grade; LS_NO_LINE: it holds none. */
static ls_line content(ls_agronomy_plot *p, const ls_fertilized *f, ls_worksheet *w, int nutrient) {
    const char *name = ls_field_nutrient[nutrient], *key = ls_printf(w, "holds.%s", name);
    if (f->product.text != NULL) {
        const ls_table *table = ls_reference_table(p->g->reference, "fertilizer", "");
        const ls_figure *figure = ls_row_figure(ls_table_row(table, f->product.text), name);
        return figure == NULL || !(figure->value > 0)
                   ? LS_NO_LINE
                   : ls_leaf_figure(w, key, ls_printf(w, "%s in %s", name, f->product.text), "lb/ton", figure);
    }
    if (!(f->holds[nutrient] > 0)) return LS_NO_LINE;
    return ls_leaf(w, key, ls_printf(w, "%s in %s", name, f->grade.text), "%", f->holds[nutrient], ls_spread_exact(),
                   (ls_origin){LS_BY_FARM, f->grade.at, NULL, "by its grade"});
}

static void add_fertilizer(gathering *c) {
    ls_agronomy_plot *p = c->plot;
    for (size_t i = 0; i < p->field->fertilizer.n; i++) {
        const ls_fertilized *f = &p->field->fertilizer.at[i];
        ls_worksheet *w = ls_part(p->w, NULL, "credit.fertilizer-%zu", i + 1);
        const char *product = f->product.text == NULL ? f->grade.text : f->product.text;
        ls_credit *credit =
            add_credit(c, f->purpose.text == NULL ? product : ls_printf(w, "%s, %s", product, f->purpose.text));
        ls_line rate = ls_leaf_given(w, "rate", ls_printf(w, "%s, rate", credit->name), "lb/ac", &f->rate);
        for (int k = 0; k < LS_FIELD_NUTRIENTS; k++)
            credit->gives[k] =
                LS_PRODUCT(w, ls_field_nutrient[k], ls_printf(w, "%s from %s", ls_field_nutrient[k], credit->name),
                           "lb/ac", rate, content(p, f, w, k));
    }
}

/* ---- together ---- */

/* All credits of a nutrient, and what is left of the need after them. */
static void add_up(gathering *c, int nutrient) {
    ls_agronomy_plot *p = c->plot;
    ls_field_rates *out = p->out;
    const char *name = ls_field_nutrient[nutrient];
    ls_worksheet *w = ls_part(p->w, name, "credits");
    static const char label[] = "%s from elsewhere";
    ls_line *lines = LS_NEW(p->g->arena, ls_line, c->n);
    for (size_t i = 0; i < c->n; i++) lines[i] = c->at[i].gives[nutrient];
    out->credits[nutrient] = ls_sum(w, name, label, "lb/ac", lines, c->n);
    if (!out->credits[nutrient])
        out->credits[nutrient] =
            ls_leaf_exact(w, name, label, "lb/ac", 0, LS_BY_DEFINITION, "the farm file gives none");
    ls_line less = ls_difference(ls_part(p->w, name, "need_less_credits"), nutrient == LS_FIELD_N ? "" : name,
                                 "%s need less credits", "lb/ac", out->need[nutrient], out->credits[nutrient]);
    if (less)
        out->left[nutrient] =
            LS_GREATEST(ls_part(p->w, name, "left"), name, "%s need after credits", "lb/ac", p->g->none, less);
}

bool ls_agronomy_gives(const ls_agronomy_plot *p, int nutrient) {
    for (size_t i = 0; i < p->out->credit_n; i++)
        if (p->out->credit[i].gives[nutrient]) return true;
    return false;
}

/* Phosphate of fertilizer counts against what the rating and the ledger allow. */
static void take_off_limit(ls_agronomy_plot *p) {
    p->out->phosphate_litter = p->phosphate;
    if (!ls_agronomy_gives(p, LS_FIELD_P2O5) || !p->phosphate) return;
    ls_line less = ls_difference(p->w, "phosphorus.less_fertilizer", "P2O5 allowed less that of fertilizer", "lb/ac",
                                 p->phosphate, p->out->credits[LS_FIELD_P2O5]);
    p->out->phosphate_litter = p->phosphate =
        LS_GREATEST(p->w, "phosphorus.for_litter", "P2O5 allowed in litter", "lb/ac", p->g->none, less);
}

void ls_agronomy_credits(ls_agronomy_plot *p) {
    enum { GIVEN = 5 };
    const ls_field *f = p->field;
    gathering c = {p, 0,
                   LS_NEW(p->g->arena, ls_credit, GIVEN + f->fertilizer.n + f->earlier_litter.n + p->g->farm->past.n)};
    add_given(&c);
    add_irrigation(&c);
    add_fertilizer(&c);
    add_earlier(&c);
    p->out->credit_n = c.n;
    p->out->credit = c.at;
    for (int k = 0; k < LS_FIELD_NUTRIENTS; k++) add_up(&c, k);
    take_off_limit(p);
}
