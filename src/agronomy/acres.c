/* Acres that may be spread: the area less strips and circles. */
#include "room.h"

#include <math.h>

static ls_line strip(const ls_setback *s, ls_worksheet *w) {
    ls_line edge = ls_leaf_given(w, "edge", "%s, edge", "ft", &s->edge);
    ls_line width = ls_leaf_given(w, "width", "%s, width", "ft", &s->width);
    return LS_PRODUCT(w, "area", "%s, strip", "ac", edge, width);
}

/* The circle, pi r^2, times the share that the file says lies in the field; without one all of it,
 * though part may lie outside. */
static ls_line circle(const ls_agronomy *g, const ls_setback *s, ls_worksheet *w) {
    ls_line pi = ls_leaf_exact(g->w, "pi", "pi", "", acos(-1), LS_BY_DEFINITION, NULL);
    ls_line radius = ls_leaf_given(w, "radius", "%s, radius", "ft", &s->radius);
    if (!LS_GIVEN(s->share)) return LS_PRODUCT(w, "area", "%s, circle", "ac", pi, radius, radius);
    ls_line share = ls_leaf_given(w, "share", "%s, share of it in the field", "%", &s->share);
    return LS_PRODUCT(w, "area", "%s, part of a circle", "ac", pi, radius, radius, share);
}

/* What a setback takes by itself: its area less what others take already. */
static ls_line one_setback(const ls_agronomy *g, const ls_setback *s, ls_worksheet *w) {
    ls_line whole = LS_GIVEN(s->radius) ? circle(g, s, w) : strip(s, w);
    if (!LS_GIVEN(s->overlap)) return whole;
    ls_line overlap = ls_leaf_given(w, "overlap", "%s, taken by other setbacks too", "ac", &s->overlap);
    ls_line left = ls_difference(w, "less_overlap", "%s, less the overlap", "ac", whole, overlap);
    return LS_GREATEST(w, "counted", "%s, counted once", "ac", g->no_acres, left);
}

/* The setbacks of the field; their acres also in a row. */
static ls_line *make_setbacks(ls_agronomy_plot *p) {
    const ls_field *f = p->field;
    ls_line *acres = LS_NEW(p->g->arena, ls_line, f->setbacks.n);
    p->out->setbacks_n = f->setbacks.n;
    p->out->setbacks = LS_NEW(p->g->arena, ls_field_setback, f->setbacks.n);
    for (size_t i = 0; i < f->setbacks.n; i++) {
        const ls_setback *s = &f->setbacks.at[i];
        const char *of = s->from.text ? ls_printf(p->w, "setback from %s", s->from.text) : "setback";
        acres[i] = one_setback(p->g, s, ls_part(p->w, of, "setback-%zu", i + 1));
        p->out->setbacks[i] = (ls_field_setback){s, acres[i]};
    }
    return acres;
}

void ls_agronomy_acres(ls_agronomy_plot *p) {
    const ls_field *f = p->field;
    ls_line *setbacks = make_setbacks(p);
    ls_field_rates *out = p->out;
    static const char label[] = "spreadable acres";
    out->area = ls_leaf_given(p->w, "area", "area of the field", "ac", &f->area);
    if (f->setbacks.n == 0) {
        out->spreadable = ls_same(p->w, "spreadable", label, "ac", out->area);
        return;
    }
    ls_line sum = ls_sum(p->w, "setbacks", "setbacks together", "ac", setbacks, f->setbacks.n);
    ls_line left = ls_difference(p->w, "outside_setbacks", "area less setbacks", "ac", out->area, sum);
    out->spreadable = LS_GREATEST(p->w, "spreadable", label, "ac", p->g->no_acres, left);
    /* The area and the distances are the file's own; a field they leave nothing of takes no litter.
     */
    if (!(ls_line_value(p->w, out->spreadable) > 0))
        p->closed = ls_leaf(p->w, "no_acres_left", "no acres left after the setbacks", "ton/ac", 0, ls_spread_exact(),
                            (ls_origin){LS_BY_FARM, f->area.at, NULL, "the setbacks cover the field"});
}
