/* The truck's weights beside the federal limits of the United States. Warnings for the owner to
 * look into: which law rules a road, and what permits say, the program does not know. */
#include "plan.h"

typedef struct {
    ls_haul_planner *p;
    const ls_truck *truck;
    size_t number; /* of the truck in the farm: 1 ... */
} scale;

static ls_line federal(scale *s, const char *row, const char *unit) {
    ls_worksheet *w = ls_part(s->p->w, row, "federal-weight");
    return ls_leaf_figure(w, ls_text_slug(s->p->arena, row), "federal limit: %s", unit,
                          ls_reference_need(s->p->reference, "weights", "", row, "value"));
}

static const char *pounds(const scale *s, ls_line line) {
    return ls_number_text(s->p->arena, ls_line_value(s->p->w, line), 6);
}

static void compare(scale *s, const char *what, ls_line weight, ls_line limit, const char *rule) {
    if (ls_line_value(s->p->w, weight) <= ls_line_value(s->p->w, limit) + 1e-6) return;
    ls_haul_note(s->p,
                 "WEIGHT: %s of the %s is %s lb, above %s lb, %s. Ask who issues permits for the "
                 "roads you take; your state may allow less or more.",
                 what, s->truck->name.text, pounds(s, weight), pounds(s, limit), rule);
}

/* ---- groups of axles ---- */

/* W = 500 (L N / (N - 1) + 12 N + 36), to the nearest 500 lb, halfway down: whole steps of 500 lb
 * up from W less 250 lb. */
static ls_line bridge(scale *s, size_t first, size_t n, ls_line length) {
    const char *of = s->number == 1 ? "" : ls_printf(s->p->w, "truck-%zu.", s->number);
    ls_worksheet *w = ls_part(s->p->w, NULL, "federal-weight.%saxles-%zu-%zu", of, first + 1, first + n);
    ls_line per_foot = federal(s, "bridge per foot", "lb/ft"), per_axle = federal(s, "bridge per axle", "lb"),
            base = federal(s, "bridge base", "lb"), step = federal(s, "bridge step", "lb"),
            half = federal(s, "bridge half step", "lb");
    ls_line axles = ls_leaf_exact(w, "axles", "axles", "", (double)n, LS_BY_DEFINITION, NULL);
    ls_line gaps = ls_leaf_exact(w, "gaps", "axles less one", "", (double)(n - 1), LS_BY_DEFINITION, NULL);
    ls_line ratio = ls_quotient(w, "ratio", "axles over axles less one", "", axles, gaps);
    ls_line by_length = LS_PRODUCT(w, "by_length", "allowed for their length", "lb", per_foot, length, ratio);
    ls_line by_axles = LS_PRODUCT(w, "by_axles", "allowed for their number", "lb", per_axle, axles);
    ls_line sum = LS_SUM(w, "sum", "bridge formula before rounding", "lb", by_length, by_axles, base);
    ls_line less = ls_difference(w, "less", "less half a step", "lb", sum, half);
    return ls_step_up(w, "most", ls_printf(w, "bridge formula, axles %zu to %zu", first + 1, first + n), "lb", less,
                      step);
}

/* From the axle before to this one, or its weight. */
static ls_line given(scale *s, size_t i, bool weight) {
    const ls_axle *axle = &s->truck->axles.at[i];
    ls_worksheet *w = ls_part(s->p->w, NULL, "truck-%zu.axle-%zu", s->number, i + 1);
    return weight
               ? ls_leaf_given(w, "weight", ls_printf(w, "weight on axle %zu", i + 1), "lb", &axle->weight)
               : ls_leaf_given(w, "spacing", ls_printf(w, "from axle %zu to axle %zu", i, i + 1), "ft", &axle->spacing);
}

/* From the first to the last axle of a group, or the weight on it; LS_NO_LINE: not all are given. */
static ls_line of_group(scale *s, size_t first, size_t n, bool weight) {
    ls_line *lines = LS_NEW(s->p->arena, ls_line, n);
    size_t from = weight ? first : first + 1;
    for (size_t i = first; weight && i < first + n; i++)
        if (!LS_GIVEN(s->truck->axles.at[i].weight)) return LS_NO_LINE;
    for (size_t i = from; i < first + n; i++) lines[i - from] = given(s, i, weight);
    ls_worksheet *w = ls_part(s->p->w, NULL, "truck-%zu.axles-%zu-%zu", s->number, first + 1, first + n);
    const char *label = weight ? "weight on axles %zu to %zu" : "from axle %zu to axle %zu";
    return ls_sum(w, weight ? "weight" : "length", ls_printf(w, label, first + 1, first + n), weight ? "lb" : "ft",
                  lines, first + n - from);
}

static void group(scale *s, size_t first, size_t n, ls_line loaded) {
    bool all = n == s->truck->axles.n;
    ls_line weight = of_group(s, first, n, true), length = of_group(s, first, n, false);
    weight = weight == LS_NO_LINE && all ? loaded : weight;
    if (weight == LS_NO_LINE) return;
    const char *what = ls_arena_printf(s->p->arena, "the weight on axles %zu to %zu", first + 1, first + n);
    bool tandem = n == 2 && ls_line_value(s->p->w, length) <=
                                ls_line_value(s->p->w, federal(s, "tandem spacing most", "ft")) + 1e-9;
    if (tandem)
        compare(s, what, weight, federal(s, "tandem axle", "lb"), "the federal limit for a pair of axles");
    else
        compare(s, what, weight, bridge(s, first, n, length),
                "what the federal bridge formula gives for their number and spacing");
}

static void axles(scale *s, ls_line loaded) {
    size_t n = s->truck->axles.n;
    for (size_t i = 0; i < n; i++)
        if (LS_GIVEN(s->truck->axles.at[i].weight))
            compare(s, ls_arena_printf(s->p->arena, "the weight on axle %zu", i + 1), given(s, i, true),
                    federal(s, "single axle", "lb"), "the federal limit for a single axle");
    for (size_t size = 2; size <= n; size++)
        for (size_t first = 0; first + size <= n; first++) group(s, first, size, loaded);
}

/* ---- the whole truck ---- */

/* What a full truck weighs: its gross, or else its tare and its payload. */
static ls_line loaded_weight(scale *s) {
    ls_worksheet *w = ls_part(s->p->w, NULL, "truck-%zu", s->number);
    const ls_truck *t = s->truck;
    ls_line known = s->p->e->truck_gross[s->number - 1];
    if (known != LS_NO_LINE) return known;
    if (LS_GIVEN(t->gross)) return ls_leaf_given(w, "gross", "most the truck may weigh loaded", "lb", &t->gross);
    if (!LS_GIVEN(t->tare)) return LS_NO_LINE;
    ls_line tare = ls_leaf_given(w, "tare", "weight of the empty truck", "lb", &t->tare);
    return LS_SUM(w, "loaded", "weight of the full truck", "lb", tare, s->p->e->truck_payload[s->number - 1]);
}

void ls_haul_weights(ls_haul_planner *p) {
    for (size_t k = 0; k < p->farm->trucks.n; k++) {
        scale s = {p, &p->farm->trucks.at[k], k + 1};
        ls_line loaded = loaded_weight(&s);
        if (loaded != LS_NO_LINE)
            compare(&s, "the loaded weight", loaded, federal(&s, "gross", "lb"), "the federal gross limit");
        axles(&s, loaded);
    }
}
