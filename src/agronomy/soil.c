/* The soil test, its classes, and the phosphate and potash that a laboratory recommends for them.
 */
#include "room.h"

#include <string.h>

/* ---- the test ---- */

/* The test in lb/ac; one in ppm counts for a furrow slice of 2,000,000 lb/ac. */
static ls_line soil_line(ls_agronomy_plot *p, const char *element, const ls_quantity *test) {
    ls_worksheet *w = ls_part(p->w, element, "soil.%s", element);
    static const char label[] = "soil-test %s";
    if (!LS_GIVEN(*test)) return LS_NO_LINE;
    if (!ls_dimension_none(test->unit.dimension)) return ls_leaf_given(w, "", label, "lb/ac", test);
    ls_line slice = ls_leaf_figure(p->g->w, "agronomy.furrow_slice", "soil a test stands for", "lb/ac",
                                   ls_reference_practice(p->g->reference, "furrow slice"));
    ls_line share = ls_leaf_given(w, "in_soil", "%s in the soil by the test", "ppm", test);
    return LS_PRODUCT(w, "", label, "lb/ac", share, slice);
}

const char *ls_soil_class(const ls_table *soil, const char *element, double per_area) {
    static const char *const classes[] = {"low", "medium", "high"};
    const ls_row *row = ls_table_row(soil, element);
    if (row == NULL) return NULL;
    for (size_t i = 0; i < sizeof classes / sizeof *classes; i++) {
        const ls_figure *highest = ls_row_figure(row, classes[i]);
        if (highest != NULL && per_area <= highest->value) return classes[i];
    }
    return "very high";
}

/* The row of a table's classes: the crop's own, "peanut P", where there is one. */
static const char *classes_of(const ls_agronomy_plot *p, const char *element) {
    const char *own = ls_printf(p->g->w, "%s %s", p->field->crop.text, element);
    return ls_table_row(p->g->soil, own) != NULL ? own : element;
}

/* The classes of a table hold for the extraction it names: "Mehlich 1" is "Mehlich-1". */
static bool classes_hold(ls_agronomy *g, const char *element, const char *method) {
    const char *classed = ls_row_word(ls_table_row(g->soil, element), "method");
    if (classed == NULL) return true;
    return method != NULL && strcmp(ls_text_slug(g->arena, method), ls_text_slug(g->arena, classed)) == 0;
}

/* As the laboratory says it; else by the table the farm names, if it is for the test's method. */
static const char *class_of(ls_agronomy_plot *p, const char *element, const ls_choice *given, ls_line test) {
    ls_agronomy *g = p->g;
    if (given->is != 0) return ls_soil_level_name(given->is);
    if (g->soil == NULL || !classes_hold(g, element, p->field->soil->method.text)) return NULL;
    return ls_soil_class(g->soil, classes_of(p, element), ls_line_value(g->w, test));
}

void ls_agronomy_soil(ls_agronomy_plot *p) {
    const ls_soil *soil = p->field->soil;
    ls_field_rates *out = p->out;
    if (soil == NULL) return;
    out->soil_P = soil_line(p, "P", &soil->P);
    out->soil_K = soil_line(p, "K", &soil->K);
    out->P_class = class_of(p, "P", &soil->P_class, out->soil_P);
    out->K_class = class_of(p, "K", &soil->K_class, out->soil_K);
    const char *method = ls_row_word(ls_table_row(p->g->soil, "P"), "method");
    if (p->g->soil != NULL && (out->P_class == NULL || out->K_class == NULL))
        ls_agronomy_flag(p,
                         "the soil classes of %s hold for %s. Write method: %s under soil if the test was one. "
                         "Or write the class the report prints, as P_class and K_class",
                         p->g->soil->name, method, method);
}

/* ---- what is recommended ---- */

/* The rate for crop, nutrient and class in the first table that has one. A highest class is called
 * very high by one laboratory and excessive by another. */
static const ls_figure *recommended(ls_agronomy_plot *p, const char *nutrient, const char *class) {
    const char *const called[] = {class, "very high", "excessive"}, *crop = p->field->crop.text;
    size_t names = ls_text_same(class, called[1]) || ls_text_same(class, called[2]) ? 3 : 1;
    const ls_table *t;
    const ls_figure *f = NULL;
    for (size_t i = 0; f == NULL && (t = ls_reference_at(p->g->reference, i)) != NULL; i++)
        for (size_t k = 0; f == NULL && strcmp(t->kind, "recommended") == 0 && k < names; k++)
            f = ls_row_figure(ls_table_row(t, ls_printf(p->w, "%s %s %s", crop, nutrient, called[k])), "rate");
    return f;
}

/* One of the two nutrients while its need is made. */
typedef struct {
    int nutrient;
    const char *name, *element, *class, *hint;
    const ls_quantity *given;
    const ls_choice *level;
} other;

/* Its part. */
static ls_worksheet *part_of(const ls_agronomy_plot *p, const other *o) {
    return ls_part(p->w, o->name, "need.%s", o->name);
}

/* Rates that assume so much nitrogen, by the file or by the rule: what the nitrogen need above it adds. */
static ls_line with_extra(ls_agronomy_plot *p, const other *o, ls_line rate, const ls_row *rule) {
    ls_worksheet *w = part_of(p, o);
    const ls_quantity *given = &p->field->recommended_with_nitrogen;
    static const char assumed_label[] = "N that the recommended rate assumes";
    ls_line assumed = LS_GIVEN(*given)
                          ? ls_leaf_given(w, "assumed_N", assumed_label, "lb/ac", given)
                          : ls_leaf_figure(w, "assumed_N", assumed_label, "lb/ac", ls_row_figure(rule, "above_N"));
    ls_line each = ls_leaf_figure(w, "each_N", "further N that counts once", "lb/ac", ls_row_figure(rule, "each_N"));
    ls_line adds = ls_leaf_figure(w, "adds", "%s that this adds", "lb/ac", ls_row_figure(rule, "adds"));
    ls_line more = ls_difference(w, "more_N", "N need above that", "lb/ac", p->out->need[LS_FIELD_N], assumed);
    ls_line above = LS_GREATEST(w, "above_N", "N need above that, at least 0", "lb/ac", p->g->none, more);
    ls_line times = ls_quotient(w, "times", "how many times", "", above, each);
    ls_line extra = LS_PRODUCT(w, "extra", "%s for the further N", "lb/ac", times, adds);
    return LS_SUM(w, "", "%s the crop needs", "lb/ac", rate, extra);
}

/* Classes by one source and rates by another are said, once for both nutrients. */
static void flag_sources(ls_agronomy_plot *p, const other *o, const ls_figure *rate) {
    const ls_row *row = ls_table_row(p->g->soil, classes_of(p, o->element));
    if (o->level->is != 0 || row == NULL || row->source == rate->source) return;
    const char *text = ls_arena_printf(
        p->g->arena,
        "soil-test classes are by %s (%s), the phosphate and potash for them by %s: two sources. "
        "What the laboratory recommends, as phosphate and potash, comes first",
        p->g->soil->name, ls_agronomy_source(row->source, row->status), ls_agronomy_source(rate->source, rate->status));
    for (size_t i = 0; i < p->out->flags.n; i++)
        if (strcmp(p->out->flags.at[i], text) == 0) return;
    ls_agronomy_flag(p, "%s", text);
}

/* Phosphate or potash as the file gives it counts as it is, unless the file says for which nitrogen
 * rate it was recommended; the rule for more nitrogen is told. */
static void flag_extra(ls_agronomy_plot *p, const other *o, const ls_row *rule) {
    const ls_figure *above = ls_row_figure(rule, "above_N"), *each = ls_row_figure(rule, "each_N"),
                    *adds = ls_row_figure(rule, "adds");
    if (!(ls_line_value(p->g->w, p->out->need[LS_FIELD_N]) > above->value)) return;
    const double lb_ac = ls_unit_of("lb/ac").factor;
    ls_arena *a = p->g->arena;
    const char *assumed = ls_number_text(a, above->value / lb_ac, 3);
    ls_agronomy_flag(p,
                     "soil-test rates of %s for %s assume %s lb/ac of nitrogen. Each further %s adds %s (%s). "
                     "If %s is such a rate, write recommended_with_nitrogen: %s lb/ac",
                     o->name, p->field->crop.text, assumed, ls_number_text(a, each->value / lb_ac, 3),
                     ls_number_text(a, adds->value / lb_ac, 3), ls_agronomy_source(rule->source, rule->status), o->hint,
                     assumed);
}

static ls_line given_need(ls_agronomy_plot *p, const other *o, const ls_row *rule) {
    ls_worksheet *w = part_of(p, o);
    const ls_quantity *with = &p->field->recommended_with_nitrogen;
    if (rule != NULL && LS_GIVEN(*with))
        return with_extra(p, o, ls_leaf_given(w, "rate", "%s recommended", "lb/ac", o->given), rule);
    if (rule != NULL)
        flag_extra(p, o, rule);
    else if (LS_GIVEN(*with))
        ls_agronomy_flag(p,
                         "recommended_with_nitrogen is not used: no table says how much %s goes "
                         "with more nitrogen on %s",
                         o->name, p->field->crop.text);
    return ls_leaf_given(w, "", "%s the crop needs", "lb/ac", o->given);
}

static ls_line other_need(ls_agronomy_plot *p, const other *o) {
    ls_worksheet *w = part_of(p, o);
    const ls_row *rule = ls_table_row(ls_reference_table(p->g->reference, "extra", ""),
                                      ls_printf(w, "%s %s", p->field->crop.text, o->name));
    if (LS_GIVEN(*o->given)) return given_need(p, o, rule);
    const ls_figure *rate = o->class == NULL ? NULL : recommended(p, o->name, o->class);
    if (rate == NULL) return LS_NO_LINE;
    flag_sources(p, o, rate);
    const char *label = ls_printf(w, "%%s recommended, soil test %s %s", o->element, o->class);
    ls_line line = ls_leaf_figure(w, rule == NULL ? "" : "rate", label, "lb/ac", rate);
    return rule == NULL ? line : with_extra(p, o, line, rule);
}

void ls_agronomy_other_needs(ls_agronomy_plot *p) {
    static const ls_soil untested;
    const ls_field *f = p->field;
    const ls_soil *soil = f->soil == NULL ? &untested : f->soil;
    const other both[] = {{LS_FIELD_P2O5, "P2O5", "P", p->out->P_class, "phosphate", &f->phosphate, &soil->P_class},
                          {LS_FIELD_K2O, "K2O", "K", p->out->K_class, "potash", &f->potash, &soil->K_class}};
    for (size_t i = 0; i < sizeof both / sizeof *both; i++) p->out->need[both[i].nutrient] = other_need(p, &both[i]);
}
