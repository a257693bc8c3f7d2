/* Acres that may be spread: the area less strips and circles. */
#include "room.h"

#include <math.h>

static const char *setback_label(ls_worksheet *w, const ls_setback *s, const char *what) {
    return s->from.text == NULL ? ls_printf(w, "setback, %s", what)
                                : ls_printf(w, "setback from %s, %s", s->from.text, what);
}

static const char *setback_key(ls_agronomy_plot *p, size_t number, const char *rest) {
    return ls_printf(p->g->w, "%s.setback-%zu.%s", p->out->slug, number, rest);
}

static ls_line strip(ls_agronomy_plot *p, const ls_setback *s, size_t number) {
    ls_worksheet *w = p->g->w;
    ls_line edge = ls_leaf_given(w, setback_key(p, number, "edge"), setback_label(w, s, "edge"),
                                 "ft", &s->edge);
    ls_line width = ls_leaf_given(w, setback_key(p, number, "width"), setback_label(w, s, "width"),
                                  "ft", &s->width);
    return LS_PRODUCT(w, setback_key(p, number, "area"), setback_label(w, s, "strip"), "ac", edge,
                      width);
}

/* The circle, pi r^2, times the share that the file says lies in the field; without one all of it,
 * though part may lie outside. */
static ls_line circle(ls_agronomy_plot *p, const ls_setback *s, size_t number) {
    ls_worksheet *w = p->g->w;
    ls_line pi = ls_line_find(w, "pi");
    if (pi == LS_NO_LINE)
        pi = ls_leaf_exact(w, "pi", "pi", "", acos(-1), LS_BY_DEFINITION, NULL);
    ls_line radius = ls_leaf_given(w, setback_key(p, number, "radius"),
                                   setback_label(w, s, "radius"), "ft", &s->radius);
    const char *key = setback_key(p, number, "area");
    if (!LS_GIVEN(s->share))
        return LS_PRODUCT(w, key, setback_label(w, s, "circle"), "ac", pi, radius, radius);
    ls_line share = ls_leaf_given(w, setback_key(p, number, "share"),
                                  setback_label(w, s, "share of it in the field"), "%", &s->share);
    return LS_PRODUCT(w, key, setback_label(w, s, "part of a circle"), "ac", pi, radius, radius,
                      share);
}

/* What a setback takes by itself: its area less what others take already. */
static ls_line one_setback(ls_agronomy_plot *p, const ls_setback *s, size_t number) {
    ls_worksheet *w = p->g->w;
    ls_line whole = LS_GIVEN(s->radius) ? circle(p, s, number) : strip(p, s, number);
    if (!LS_GIVEN(s->overlap))
        return whole;
    ls_line overlap =
        ls_leaf_given(w, setback_key(p, number, "overlap"),
                      setback_label(w, s, "taken by other setbacks too"), "ac", &s->overlap);
    ls_line left = ls_difference(w, setback_key(p, number, "less_overlap"),
                                 setback_label(w, s, "less the overlap"), "ac", whole, overlap);
    return LS_GREATEST(w, setback_key(p, number, "counted"), setback_label(w, s, "counted once"),
                       "ac", p->g->no_acres, left);
}

/* The setbacks of the field; their acres also in a row. */
static ls_line *make_setbacks(ls_agronomy_plot *p) {
    const ls_field *f = p->field;
    ls_line *acres = LS_NEW(p->g->arena, ls_line, f->setbacks.n);
    p->out->setbacks_n = f->setbacks.n;
    p->out->setbacks = LS_NEW(p->g->arena, ls_field_setback, f->setbacks.n);
    for (size_t i = 0; i < f->setbacks.n; i++) {
        acres[i] = one_setback(p, &f->setbacks.at[i], i + 1);
        p->out->setbacks[i] = (ls_field_setback){&f->setbacks.at[i], acres[i]};
    }
    return acres;
}

void ls_agronomy_acres(ls_agronomy_plot *p) {
    ls_agronomy *g = p->g;
    const ls_field *f = p->field;
    ls_line *setbacks = make_setbacks(p);
    ls_field_rates *out = p->out;
    out->area =
        ls_leaf_given(g->w, LS_AGRONOMY_KEY(p, "area"), "area of the field", "ac", &f->area);
    const char *key = LS_AGRONOMY_KEY(p, "spreadable"), *label = "spreadable acres";
    if (f->setbacks.n == 0) {
        out->spreadable = ls_same(g->w, key, label, "ac", out->area);
        return;
    }
    ls_line sum = ls_sum(g->w, LS_AGRONOMY_KEY(p, "setbacks"), "setbacks together", "ac", setbacks,
                         f->setbacks.n);
    ls_line left = ls_difference(g->w, LS_AGRONOMY_KEY(p, "outside_setbacks"), "area less setbacks",
                                 "ac", out->area, sum);
    out->spreadable = LS_GREATEST(g->w, key, label, "ac", g->no_acres, left);
    /* The area and the distances are the file's own; a field they leave nothing of takes no litter.
     */
    if (!(ls_line_value(g->w, out->spreadable) > 0))
        p->closed =
            ls_leaf(g->w, LS_AGRONOMY_KEY(p, "no_acres_left"), "no acres left after the setbacks",
                    "ton/ac", 0, ls_spread_exact(),
                    (ls_origin){LS_BY_FARM, f->area.at, NULL, "the setbacks cover the field"});
}
