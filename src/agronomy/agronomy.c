/* What all fields share, and the way through the lines of one field. */
#include "room.h"

#include <string.h>

/* The table of a kind that the farm names, otherwise that one; NULL: none. */
static const ls_table *table(const ls_agronomy *g, const char *kind, const ls_name *name, const char *otherwise) {
    const char *id = name->text == NULL ? otherwise : name->text;
    return id == NULL ? NULL : ls_reference_table(g->reference, kind, id);
}

/* The tables that the farm names; without a name first-year nitrogen of psu-pan and carryover of
 * cornell-n, both read. */
static void choose_tables(ls_agronomy *g) {
    static const ls_table_names none;
    const ls_table_names *t = g->farm->tables == NULL ? &none : g->farm->tables;
    g->nitrogen = table(g, "nitrogen", &t->nitrogen, "psu-pan");
    g->carryover = table(g, "carryover", &t->carryover, "cornell-n");
    g->removal = table(g, "removal", &t->removal, NULL);
    g->ammonium = table(g, "ammonium", &t->ammonium, NULL);
    g->soil = table(g, "soil", &t->soil, NULL);
    g->cap = ls_reference_practice(g->reference, "cap");
}

static void make_definitions(ls_agronomy *g) {
    ls_worksheet *w = ls_part(g->w, NULL, "agronomy");
    g->none = ls_leaf_exact(w, "none", "nothing on an acre", "lb/ac", 0, LS_BY_DEFINITION, NULL);
    g->no_acres = ls_leaf_exact(w, "no_acres", "no acres", "ac", 0, LS_BY_DEFINITION, NULL);
    g->one = ls_leaf_exact(w, "one", "one", "", 1, LS_BY_DEFINITION, NULL);
    g->one_year = ls_leaf_exact(w, "one_year", "one year", "years", ls_unit_of("years").factor, LS_BY_DEFINITION, NULL);
}

/* ---- spreaders ---- */

static const ls_rate_range *range_of(const ls_truck *truck) {
    static const ls_rate_range none;
    return truck == NULL || truck->rate == NULL ? &none : truck->rate;
}

static bool same(const ls_quantity *a, const ls_quantity *b) {
    return LS_GIVEN(*a) == LS_GIVEN(*b) && a->value == b->value;
}

static ls_line given(ls_worksheet *w, const char *key, const char *label, const ls_quantity *q) {
    return LS_GIVEN(*q) && q->value > 0 ? ls_leaf_given(w, key, label, "ton/ac", q) : LS_NO_LINE;
}

/* The spreader of a truck: one that stands already, or one more. */
static size_t spreader(ls_agronomy *g, const ls_truck *truck) {
    static const char label[] = "least rate of the spreader";
    const ls_rate_range *r = range_of(truck);
    size_t i = 0;
    for (; i < g->spreaders_n; i++) {
        const ls_rate_range *s = range_of(g->spreaders[i].truck);
        if (same(&s->least, &r->least) && same(&s->most, &r->most) && same(&s->step, &r->step)) return i;
    }
    ls_worksheet *w =
        i == 0 ? ls_part(g->w, NULL, "agronomy.spreader") : ls_part(g->w, NULL, "agronomy.spreader-%zu", i + 1);
    ls_line least = LS_GIVEN(r->least) ? given(w, "least", label, &r->least)
                                       : ls_leaf_figure(w, "least", label, "ton/ac",
                                                        ls_reference_practice(g->reference, "least spread"));
    g->spreaders[g->spreaders_n++] =
        (ls_agronomy_spreader){truck, least, given(w, "most", "most rate of the spreader", &r->most),
                               given(w, "step", "step of the spreader", &r->step)};
    return i;
}

/* The first spreader is that of the first truck that spreads. */
static void make_spreaders(ls_agronomy *g) {
    size_t n = g->farm->trucks.n, first = 0;
    g->spreaders = LS_NEW(g->arena, ls_agronomy_spreader, n + 1);
    g->spreader_of = LS_NEW(g->arena, size_t, n);
    while (first < n && g->farm->trucks.at[first].only.is == LS_ONLY_ROAD) first++;
    spreader(g, first < n ? &g->farm->trucks.at[first] : NULL);
    for (size_t k = 0; k < n; k++)
        if (g->farm->trucks.at[k].only.is != LS_ONLY_ROAD) g->spreader_of[k] = spreader(g, &g->farm->trucks.at[k]);
    if (g->spreaders_n > 1)
        *LS_PUSH(g->arena, &g->notes) =
            ls_arena_printf(g->arena,
                            "These rates are for %s. Other trucks spread in other steps: the plan "
                            "gives each its own",
                            g->spreaders[0].truck->name.text);
}

/* The shares of organic N released in year 1, 2, ..., as far as the carryover table goes. */
static void make_carryover(ls_agronomy *g) {
    for (size_t n = 1; n <= g->carryover->n; n++) {
        const char *year = ls_printf(g->w, "%zu", n);
        const ls_figure *f = ls_row_figure(ls_table_row(g->carryover, ls_printf(g->w, "year %s", year)), "organic");
        ls_worksheet *w = ls_part(g->w, year, "share");
        *LS_PUSH(g->arena, &g->released) = f == NULL ? LS_NO_LINE
                                                     : ls_leaf_figure(w, ls_printf(w, "released_year_%s", year),
                                                                      "share of organic N released in year %s", "%", f);
    }
}

ls_line ls_agronomy_metal_most(const ls_agronomy *g, ls_metal metal) { return g->metals_most[metal]; }

ls_agronomy *ls_agronomy_new(ls_worksheet *w, const ls_reference *r, const ls_estimate *e) {
    ls_agronomy *g = LS_NEW(ls_worksheet_arena(w), ls_agronomy, 1);
    *g = (ls_agronomy){.w = w, .arena = ls_worksheet_arena(w), .reference = r, .estimate = e, .farm = e->farm};
    choose_tables(g);
    make_definitions(g);
    make_spreaders(g);
    make_carryover(g);
    ls_agronomy_counted(g);
    ls_agronomy_open_shop(g);
    ls_agronomy_flag_lines(g);
    if (!ls_agronomy_spreadings(g) || !ls_agronomy_litters(g)) return NULL;
    ls_agronomy_metals(g);
    ls_agronomy_draw(g);
    return g;
}

/* ---- a field ---- */

static void make_cap(ls_agronomy_plot *p) {
    const ls_quantity *most = &p->field->most;
    p->cap = LS_GIVEN(*most)
                 ? ls_leaf_given(p->w, "cap", "the plan's top rate", "ton/ac", most)
                 : ls_leaf_figure(p->w, "cap", "the top of the published range for litter", "ton/ac", p->g->cap);
}

/* Of each lot the least of what lies in the stack; this year's own litter may lie there too. */
static void stacked_rates(const ls_agronomy_plot *p, const ls_rate *of, ls_rate *stacked) {
    const ls_agronomy *g = p->g;
    for (size_t i = 0; i < p->out->n; i++)
        for (size_t k = 0; k < g->farm->stacked.n; k++) {
            const ls_stacked *s = &g->farm->stacked.at[k];
            if (!(s->left > 0) || strcmp(s->lot, g->estimate->lots[i].code) != 0) continue;
            ls_rate one = of[g->stacked_from + k];
            one.step = stacked[i].step;
            bool first = stacked[i].lot == &g->estimate->lots[i];
            if ((s->alone && first) || ls_line_value(p->w, one.rate) < ls_line_value(p->w, stacked[i].rate))
                stacked[i] = one;
        }
}

static void make_rates(ls_agronomy_plot *p) {
    ls_agronomy *g = p->g;
    size_t n = p->out->n;
    ls_rate *stacked = LS_NEW(g->arena, ls_rate, n * g->spreaders_n);
    p->out->stacked = stacked;
    for (p->spreader = 0; p->spreader < g->spreaders_n; p->spreader++) {
        ls_rate *of = LS_NEW(g->arena, ls_rate, g->litters_n);
        for (size_t i = 0; i < g->litters_n; i++)
            of[i] = ls_agronomy_worth(p, &g->litters[i], ls_agronomy_rate(p, &g->litters[i]));
        for (size_t i = 0; i < g->farm->stacked.n; i++) of[g->stacked_from + i].lot = &g->stacked[i];
        if (p->spreader == 0) p->out->earlier = of + g->stacked_from;
        ls_rate *rates = &p->out->rates[p->spreader * n];
        for (size_t i = 0; i < n; i++) {
            rates[i] = of[g->litter_of[i]];
            rates[i].lot = &g->estimate->lots[i];
            rates[i].step = g->spreaders[p->spreader].step;
        }
        memcpy(&stacked[p->spreader * n], rates, n * sizeof *rates);
        stacked_rates(p, of, &stacked[p->spreader * n]);
    }
}

/* Nothing grows on a yard, and no spreader rules there: it takes a ton on each of its acres. */
static void make_yard(ls_agronomy_plot *p) {
    ls_agronomy *g = p->g;
    ls_rate of = {.limit = LS_LIMIT_SPREADER};
    of.rate = ls_leaf_exact(p->w, "rate", "a ton for an acre of its area", "ton/ac", ls_unit_of("ton/ac").factor,
                            LS_BY_DEFINITION, "a yard: its area counts an acre for each ton");
    of.takes = LS_PRODUCT(p->w, "takes", "tons that the yard could take", "ton", of.rate, p->out->spreadable);
    for (size_t i = 0; i < p->out->n * g->spreaders_n; i++) {
        of.lot = &g->estimate->lots[i % p->out->n];
        p->out->rates[i] = of;
    }
}

const ls_field_rates *ls_agronomy_field(ls_agronomy *g, const ls_buyer *b, const ls_field *f) {
    ls_field_rates *out = LS_NEW(g->arena, ls_field_rates, 1);
    ls_agronomy_plot *p = LS_NEW(g->arena, ls_agronomy_plot, 1);
    *out = (ls_field_rates){.buyer = b,
                            .field = f,
                            .slug = ls_arena_printf(g->arena, "%s.%s", b->slug, f->slug),
                            .n = g->estimate->n,
                            .rates = LS_NEW(g->arena, ls_rate, g->estimate->n * g->spreaders_n),
                            .spreader_of = g->spreader_of,
                            .plot = p};
    *p = (ls_agronomy_plot){.g = g,
                            .field = f,
                            .out = out,
                            .w = ls_part(g->w, NULL, "%s", out->slug),
                            .spreading = ls_agronomy_spreading_of(g, f)};
    ls_agronomy_acres(p);
    if (f->yard) {
        make_yard(p);
        return out;
    }
    ls_agronomy_soil(p);
    ls_agronomy_need(p);
    if (!ls_agronomy_removal(p)) return NULL;
    ls_agronomy_ledger(p);
    ls_agronomy_credits(p);
    make_cap(p);
    ls_agronomy_windows(p);
    ls_agronomy_dates(p);
    make_rates(p);
    ls_agronomy_flags(p);
    return out;
}
