/* The truck's weights beside the federal limits of the United States. Warnings for the owner to
 * look into: which law rules a road, and what permits say, the program does not know. */
#include "plan.h"

typedef struct {
    ls_haul_planner *p;
    const ls_truck *truck;
    size_t number; /* of the truck in the farm: 1 ... */
} scale;

static ls_line federal(scale *s, const char *row, const char *unit) {
    const char *key = ls_printf(s->p->w, "federal-weight.%s", ls_text_slug(s->p->arena, row));
    ls_line known = ls_line_find(s->p->w, key);
    if (known != LS_NO_LINE) return known;
    return ls_leaf_figure(s->p->w, key, ls_printf(s->p->w, "federal limit: %s", row), unit,
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
    ls_worksheet *w = s->p->w;
    const char *of = s->number == 1 ? "" : ls_printf(w, "truck-%zu.", s->number);
    const char *at = ls_printf(w, "federal-weight.%saxles-%zu-%zu", of, first + 1, first + n);
    ls_line per_foot = federal(s, "bridge per foot", "lb/ft"),
            per_axle = federal(s, "bridge per axle", "lb"), base = federal(s, "bridge base", "lb"),
            step = federal(s, "bridge step", "lb"), half = federal(s, "bridge half step", "lb");
    ls_line axles = ls_leaf_exact(w, ls_printf(w, "%s.axles", at), "axles", "", (double)n,
                                  LS_BY_DEFINITION, NULL);
    ls_line gaps = ls_leaf_exact(w, ls_printf(w, "%s.gaps", at), "axles less one", "",
                                 (double)(n - 1), LS_BY_DEFINITION, NULL);
    ls_line ratio =
        ls_quotient(w, ls_printf(w, "%s.ratio", at), "axles over axles less one", "", axles, gaps);
    ls_line by_length = LS_PRODUCT(w, ls_printf(w, "%s.by_length", at), "allowed for their length",
                                   "lb", per_foot, length, ratio);
    ls_line by_axles = LS_PRODUCT(w, ls_printf(w, "%s.by_axles", at), "allowed for their number",
                                  "lb", per_axle, axles);
    ls_line sum = LS_SUM(w, ls_printf(w, "%s.sum", at), "bridge formula before rounding", "lb",
                         by_length, by_axles, base);
    ls_line less =
        ls_difference(w, ls_printf(w, "%s.less", at), "less half a step", "lb", sum, half);
    return ls_step_up(w, ls_printf(w, "%s.most", at),
                      ls_printf(w, "bridge formula, axles %zu to %zu", first + 1, first + n), "lb",
                      less, step);
}

/* From the first to the last axle of a group. */
static ls_line length_of(scale *s, size_t first, size_t n) {
    ls_worksheet *w = s->p->w;
    ls_line *gaps = LS_NEW(s->p->arena, ls_line, n);
    for (size_t i = first + 1; i < first + n; i++) {
        gaps[i - first - 1] =
            ls_haul_shared(s->p, ls_printf(w, "truck-%zu.axle-%zu.spacing", s->number, i + 1),
                           ls_printf(w, "from axle %zu to axle %zu", i, i + 1), "ft",
                           &s->truck->axles.at[i].spacing);
    }
    return ls_sum(
        w, ls_printf(w, "truck-%zu.axles-%zu-%zu.length", s->number, first + 1, first + n),
        ls_printf(w, "from axle %zu to axle %zu", first + 1, first + n), "ft", gaps, n - 1);
}

static ls_line weight_of(scale *s, size_t i) {
    ls_worksheet *w = s->p->w;
    return ls_haul_shared(s->p, ls_printf(w, "truck-%zu.axle-%zu.weight", s->number, i + 1),
                          ls_printf(w, "weight on axle %zu", i + 1), "lb",
                          &s->truck->axles.at[i].weight);
}

/* The weight on a group of axles; LS_NO_LINE: not all are given. */
static ls_line weights_of(scale *s, size_t first, size_t n) {
    ls_line *lines = LS_NEW(s->p->arena, ls_line, n);
    for (size_t i = first; i < first + n; i++)
        if (!LS_GIVEN(s->truck->axles.at[i].weight)) return LS_NO_LINE;
    for (size_t i = first; i < first + n; i++) lines[i - first] = weight_of(s, i);
    return ls_sum(
        s->p->w,
        ls_printf(s->p->w, "truck-%zu.axles-%zu-%zu.weight", s->number, first + 1, first + n),
        ls_printf(s->p->w, "weight on axles %zu to %zu", first + 1, first + n), "lb", lines, n);
}

static void group(scale *s, size_t first, size_t n, ls_line loaded) {
    bool all = n == s->truck->axles.n;
    ls_line weight = weights_of(s, first, n), length = length_of(s, first, n);
    weight = weight == LS_NO_LINE && all ? loaded : weight;
    if (weight == LS_NO_LINE) return;
    const char *what =
        ls_arena_printf(s->p->arena, "the weight on axles %zu to %zu", first + 1, first + n);
    bool tandem =
        n == 2 && ls_line_value(s->p->w, length) <=
                      ls_line_value(s->p->w, federal(s, "tandem spacing most", "ft")) + 1e-9;
    if (tandem)
        compare(s, what, weight, federal(s, "tandem axle", "lb"),
                "the federal limit for a pair of axles");
    else
        compare(s, what, weight, bridge(s, first, n, length),
                "what the federal bridge formula gives for their number and spacing");
}

static void axles(scale *s, ls_line loaded) {
    size_t n = s->truck->axles.n;
    for (size_t i = 0; i < n; i++)
        if (LS_GIVEN(s->truck->axles.at[i].weight))
            compare(s, ls_arena_printf(s->p->arena, "the weight on axle %zu", i + 1),
                    weight_of(s, i), federal(s, "single axle", "lb"),
                    "the federal limit for a single axle");
    for (size_t size = 2; size <= n; size++)
        for (size_t first = 0; first + size <= n; first++) group(s, first, size, loaded);
}

/* ---- the whole truck ---- */

/* What a full truck weighs: its gross, or else its tare and its payload. */
static ls_line loaded_weight(scale *s) {
    ls_worksheet *w = s->p->w;
    const ls_truck *t = s->truck;
    ls_line known = s->p->e->truck_gross[s->number - 1];
    if (known != LS_NO_LINE) return known;
    if (LS_GIVEN(t->gross))
        return ls_leaf_given(w, ls_printf(w, "truck-%zu.gross", s->number),
                             "most the truck may weigh loaded", "lb", &t->gross);
    if (!LS_GIVEN(t->tare)) return LS_NO_LINE;
    ls_line tare = ls_leaf_given(w, ls_printf(w, "truck-%zu.tare", s->number),
                                 "weight of the empty truck", "lb", &t->tare);
    return LS_SUM(w, ls_printf(w, "truck-%zu.loaded", s->number), "weight of the full truck", "lb",
                  tare, s->p->e->truck_payload[s->number - 1]);
}

void ls_haul_weights(ls_haul_planner *p) {
    for (size_t k = 0; k < p->farm->trucks.n; k++) {
        scale s = {p, &p->farm->trucks.at[k], k + 1};
        ls_line loaded = loaded_weight(&s);
        if (loaded != LS_NO_LINE)
            compare(&s, "the loaded weight", loaded, federal(&s, "gross", "lb"),
                    "the federal gross limit");
        axles(&s, loaded);
    }
}
