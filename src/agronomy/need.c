/* What the crop needs. Removal never stands in for need. */
#include "room.h"

#include <math.h>

/* The unit in which a yield is shown. */
static const char *yield_unit(const ls_quantity *yield) {
    const ls_dimension d = yield->unit.dimension;
    return d.power[LS_BUSHEL] != 0 ? "bu/ac" : d.power[LS_BALE] != 0 ? "bale/ac" : "ton/ac";
}

bool ls_agronomy_fits(const ls_figure *per_unit, const ls_quantity *yield) {
    return ls_dimension_same(ls_dimension_times(per_unit->unit.dimension, yield->unit.dimension, 1),
                             ls_unit_of("lb/ac").dimension);
}

ls_line ls_agronomy_yield(const ls_agronomy_plot *p) {
    const ls_quantity *yield = &p->field->yield;
    return ls_leaf_given(p->w, "yield", "expected yield", yield_unit(yield), yield);
}

/* "120 bu/ac", of a yield in base units. */
static const char *yield_words(const ls_agronomy_plot *p, double yield) {
    const char *unit = yield_unit(&p->field->yield);
    ls_arena *a = p->g->arena;
    return ls_unit_amount(a, ls_number_text(a, yield / ls_unit_of(unit).factor, 4), unit);
}

/* The need where a table prints two yields: a straight line between them, by the yield. */
static ls_line need_by_yield(ls_agronomy_plot *p, const ls_figure *least, const ls_figure *most,
                             const ls_figure *low_yield, const ls_figure *high_yield) {
    ls_arena *a = p->g->arena;
    double *x = LS_NEW(a, double, 2), *y = LS_NEW(a, double, 2);
    x[0] = low_yield->value;
    x[1] = high_yield->value;
    y[0] = least->value;
    y[1] = most->value;
    ls_curve *curve = LS_NEW(a, ls_curve, 1);
    *curve = (ls_curve){2, x, y};
    const double lb_ac = ls_unit_of("lb/ac").factor;
    const char *label =
        ls_printf(p->w, "straight line between %s lb/ac for %s and %s lb/ac for %s (%s)",
                  ls_number_text(a, y[0] / lb_ac, 4), yield_words(p, x[0]), ls_number_text(a, y[1] / lb_ac, 4),
                  yield_words(p, x[1]), ls_agronomy_source(least->source, least->status));
    return ls_interpolate(p->w, "need.N", label, "lb/ac", ls_agronomy_yield(p), curve);
}

/* Outside the yields that the table prints a need for its least or most stands, and is said. */
static void flag_outside_yields(ls_agronomy_plot *p, const ls_figure *low, const ls_figure *high) {
    const double yield = p->field->yield.value;
    const double least = isnan(low->printed.least) ? low->value : low->printed.least;
    bool below = yield < least * (1 - 1e-9);
    if (below || yield > high->value * (1 + 1e-9))
        ls_agronomy_flag(p, "the crop table of %s %s at %s: its nitrogen for that is taken; %s, as nitrogen",
                         p->field->crop.text, below ? "begins" : "ends", yield_words(p, below ? least : high->value),
                         below ? "a lesser yield needs less: ask the plan writer" : "the plan writer may give more");
}

static void flag_range(ls_agronomy_plot *p, const ls_figure *least, const ls_figure *most) {
    if (most != NULL && most->value > least->value)
        ls_agronomy_flag(p, "the nitrogen need is the lower end of the published range for %s, %s to %s %s",
                         p->field->crop.text, ls_number_text(p->g->arena, least->value / least->unit.factor, 4),
                         ls_number_text(p->g->arena, most->value / least->unit.factor, 4), least->unit.text);
}

static void need_from_row(ls_agronomy_plot *p, const ls_row *row) {
    ls_line *need = &p->out->need[LS_FIELD_N];
    const ls_figure *per_bu = ls_row_figure(row, "per_bu"), *least = ls_row_figure(row, "least"),
                    *most = ls_row_figure(row, per_bu == NULL ? "most" : "most_per_bu");
    const ls_figure *low = ls_row_figure(row, "yield_least"), *high = ls_row_figure(row, "yield_most");
    static const char label[] = "N the crop needs";
    if (per_bu != NULL) {
        ls_line unit = ls_leaf_figure(p->w, "need.N_per_bushel", "N a bushel needs", "lb/bu", per_bu);
        *need = LS_PRODUCT(p->w, "need.N", label, "lb/ac", ls_agronomy_yield(p), unit);
        flag_range(p, per_bu, most);
    } else if (low != NULL && high != NULL && most != NULL && low->value < high->value) {
        flag_outside_yields(p, low, high);
        *need = need_by_yield(p, least, most, low, high);
    } else {
        *need = ls_leaf_figure(p->w, "need.N", label, "lb/ac", least);
        flag_range(p, least, most);
    }
}

/* Which row it is, and what the source says beside the figure. */
static void flag_row(ls_agronomy_plot *p, const ls_crop_need *n) {
    const ls_row *row = n->row;
    const char *grown = ls_row_word(row, "grown"), *split = ls_row_word(row, "split"),
               *state = ls_row_word(row, "state"), *source = ls_agronomy_source(row->source, row->status);
    ls_text *t = ls_text_new(p->g->arena);
    ls_text_addf(t, "no nitrogen given: the need is that of the crop table (%s", source);
    if (row->source != NULL && row->status != LS_READ) ls_text_addf(t, ", %s", ls_status_words(row->status));
    ls_text_add(t, ")");
    if (state != NULL) ls_text_addf(t, ", for %s", ls_text_same(state, "any") ? "any state" : state);
    if (grown != NULL) ls_text_addf(t, ", %s", grown);
    if (!n->state_given && state != NULL && row->own == NULL) ls_text_add(t, "; no state is given");
    ls_agronomy_flag(p, "%s", t->s);
    if (split != NULL) ls_agronomy_flag(p, "nitrogen of %s: %s (%s)", n->crop, split, source);
    if (row->note != NULL) ls_agronomy_flag(p, "the crop table of %s: %s (%s)", n->crop, row->note, source);
}

void ls_agronomy_need(ls_agronomy_plot *p) {
    ls_agronomy *g = p->g;
    const ls_field *f = p->field;
    if (LS_GIVEN(f->nitrogen)) {
        p->out->need[LS_FIELD_N] = ls_leaf_given(p->w, "need.N", "N the crop needs", "lb/ac", &f->nitrogen);
    } else {
        /* the farm room asks for what is lacking: there is a row */
        const ls_crop_need n = ls_farm_crop_need(g->arena, g->reference, g->farm, p->out->buyer, f);
        flag_row(p, &n);
        need_from_row(p, n.row);
    }
    ls_agronomy_other_needs(p);
}
