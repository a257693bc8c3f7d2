/* What commercial fertilizer finishes a field's need after the litter: phosphate first, since its
 * products may bring nitrogen, then nitrogen, then potash. */
#include "room.h"

#include <math.h>

/* A product that may be bought. */
typedef struct {
    const char *name; /* NULL: none */
    const char *slug;
    bool priced;
    double dollars;                    /* of a base unit of mass */
    double share[LS_FIELD_NUTRIENTS];  /* what it holds */
    ls_line holds[LS_FIELD_NUTRIENTS]; /* the same as lines; LS_NO_LINE: none of it */
} product;

/* One product for each part of the work: phosphate with nitrogen in it (as far as nitrogen is short
 * too), phosphate alone (the rest), nitrogen, potash. */
enum { COMPOUND, PHOSPHATE, NITROGEN, POTASH, PARTS };
struct ls_agronomy_shop {
    product part[PARTS];
};

/* ---- which products ---- */

static product product_of(const ls_agronomy *g, const ls_row *row) {
    product it = {.name = row->name, .slug = ls_text_slug(g->arena, row->name), .dollars = NAN};
    for (int k = 0; k < LS_FIELD_NUTRIENTS; k++) {
        const ls_figure *f = ls_row_figure(row, ls_field_nutrient[k]);
        it.share[k] = f == NULL ? 0 : f->value;
    }
    for (size_t i = 0; i < g->farm->fertilizer.n; i++)
        if (ls_text_same(g->farm->fertilizer.at[i].product.text, row->name)) {
            it.priced = true;
            it.dollars = g->farm->fertilizer.at[i].price.value;
        }
    return it;
}

/* The part a product can play; PARTS: none. */
static int part_of(const product *it) {
    bool n = it->share[LS_FIELD_N] > 0, p = it->share[LS_FIELD_P2O5] > 0, k = it->share[LS_FIELD_K2O] > 0;
    if (p) return k ? PARTS : n ? COMPOUND : PHOSPHATE;
    return n && !k ? NITROGEN : k && !n ? POTASH : PARTS;
}

/* $ for a base unit of mass of what the part is for; nitrogen that comes with phosphate counts at
 * its own price, and makes no phosphate cost less than nothing. */
static double unit_cost(const product *it, int part, double nitrogen) {
    if (part == COMPOUND) return fmax(0, it->dollars - it->share[LS_FIELD_N] * nitrogen) / it->share[LS_FIELD_P2O5];
    return it->dollars / it->share[part == NITROGEN ? LS_FIELD_N : part == PHOSPHATE ? LS_FIELD_P2O5 : LS_FIELD_K2O];
}

/* Of the priced products of a part the one that costs least; with no price the usual one. */
static product choose(const ls_agronomy *g, int part, double nitrogen) {
    static const char *const usual[PARTS] = {"DAP", "TSP", "urea", "muriate of potash"};
    const ls_table *t = ls_reference_table(g->reference, "fertilizer", "");
    product best = {.name = NULL};
    for (size_t i = 0; t != NULL && i < t->n; i++) {
        product it = product_of(g, &t->rows[i]);
        if (it.priced && part_of(&it) == part &&
            (best.name == NULL || unit_cost(&it, part, nitrogen) < unit_cost(&best, part, nitrogen)))
            best = it;
    }
    const ls_row *row = ls_table_row(t, usual[part]);
    return best.name != NULL || row == NULL ? best : product_of(g, row);
}

static void make_lines(ls_agronomy *g, product *it) {
    const ls_table *t = ls_reference_table(g->reference, "fertilizer", "");
    for (int k = 0; it->name != NULL && k < LS_FIELD_NUTRIENTS; k++)
        if (it->share[k] > 0)
            it->holds[k] = ls_leaf_figure(ls_part(g->w, it->name, "fertilizer-%s", it->slug), ls_field_nutrient[k],
                                          ls_printf(g->w, "%s in %%s", ls_field_nutrient[k]), "lb/ton",
                                          ls_row_figure(ls_table_row(t, it->name), ls_field_nutrient[k]));
}

/* Phosphate with nitrogen in it is bought unless phosphate alone is the only one priced, or costs less. */
static bool compound_serves(const product *compound, const product *alone, double nitrogen) {
    if (compound->priced != alone->priced) return compound->priced;
    return !compound->priced || unit_cost(compound, COMPOUND, nitrogen) <= unit_cost(alone, PHOSPHATE, nitrogen);
}

void ls_agronomy_open_shop(ls_agronomy *g) {
    g->shop = LS_NEW(g->arena, struct ls_agronomy_shop, 1);
    product *part = g->shop->part;
    part[NITROGEN] = choose(g, NITROGEN, 0);
    double nitrogen = part[NITROGEN].priced ? unit_cost(&part[NITROGEN], NITROGEN, 0) : 0;
    for (int i = 0; i < PARTS; i++) part[i] = choose(g, i, nitrogen);
    if (!compound_serves(&part[COMPOUND], &part[PHOSPHATE], nitrogen)) part[COMPOUND].name = NULL;
    for (int i = 0; i < PARTS; i++) make_lines(g, &part[i]);
}

/* ---- how much of each ---- */

/* The need of one field after one litter while it is finished. */
typedef struct {
    const ls_agronomy_plot *plot;
    ls_worksheet *w;                   /* the part of both */
    ls_line lacks[LS_FIELD_NUTRIENTS]; /* LS_NO_LINE: the need is unknown */
    size_t n;
    ls_bought *bought;
} basket;

/* The part of a product. */
static ls_worksheet *part_for(const basket *b, const product *it) {
    return ls_part(b->w, it->name, "buy.%s", it->slug);
}

/* How much of a product brings what is lacking of a nutrient. */
static ls_line enough_for(const basket *b, const product *it, int nutrient, const char *key) {
    ls_worksheet *w = part_for(b, it);
    return ls_quotient(w, key, ls_printf(w, "%%s for the %s that is short", ls_field_nutrient[nutrient]), "lb/ac",
                       b->lacks[nutrient], it->holds[nutrient]);
}

/* What a product brings of a nutrient is no longer lacking. */
static void take_off(basket *b, const product *it, ls_line per_acre, int nutrient) {
    ls_worksheet *w = part_for(b, it);
    const char *name = ls_field_nutrient[nutrient];
    ls_line brings = LS_PRODUCT(w, ls_printf(w, "brings.%s", name), ls_printf(w, "%s that %%s brings", name), "lb/ac",
                                per_acre, it->holds[nutrient]);
    ls_line less = ls_difference(w, ls_printf(w, "leaves_less.%s", name), ls_printf(w, "%s short less that", name),
                                 "lb/ac", b->lacks[nutrient], brings);
    b->lacks[nutrient] = LS_GREATEST(w, ls_printf(w, "leaves.%s", name), ls_printf(w, "%s still short after %%s", name),
                                     "lb/ac", b->plot->g->none, less);
}

static void buy(basket *b, const product *it, ls_line per_acre) {
    ls_line on_field =
        LS_PRODUCT(part_for(b, it), "field", "%s for the whole field", "lb", per_acre, b->plot->out->spreadable);
    b->bought[b->n++] = (ls_bought){it->name, it->priced, per_acre, on_field};
}

/* As much as the scarcer of its two nutrients asks for, so that neither is overdone. */
static void buy_compound(basket *b, const product *it) {
    if (it->name == NULL || !b->lacks[LS_FIELD_N] || !b->lacks[LS_FIELD_P2O5]) return;
    ls_line for_P = enough_for(b, it, LS_FIELD_P2O5, "for.P2O5"), for_N = enough_for(b, it, LS_FIELD_N, "for.N");
    ls_line per_acre = LS_LEAST(part_for(b, it), "", "%s to buy", "lb/ac", for_P, for_N);
    take_off(b, it, per_acre, LS_FIELD_N);
    take_off(b, it, per_acre, LS_FIELD_P2O5);
    buy(b, it, per_acre);
}

static void buy_single(basket *b, const product *it, int nutrient) {
    if (it->name != NULL && b->lacks[nutrient]) buy(b, it, enough_for(b, it, nutrient, ""));
}

void ls_agronomy_supplement(const ls_agronomy_plot *p, ls_worksheet *w, ls_rate *rate) {
    const product *part = p->g->shop->part;
    basket b = {.plot = p, .w = w, .bought = LS_NEW(p->g->arena, ls_bought, PARTS)};
    for (int k = 0; k < LS_FIELD_NUTRIENTS; k++) b.lacks[k] = rate->short_of[k];
    buy_compound(&b, &part[COMPOUND]);
    buy_single(&b, &part[PHOSPHATE], LS_FIELD_P2O5);
    buy_single(&b, &part[NITROGEN], LS_FIELD_N);
    buy_single(&b, &part[POTASH], LS_FIELD_K2O);
    rate->bought_n = b.n;
    rate->bought = b.bought;
}
