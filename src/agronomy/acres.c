/* Acres that may be spread: the area less strips and circles. */
#include "agronomy/room.h"

#include <math.h>

static const char *setback_label(ls_worksheet *w, const ls_setback *s, const char *what) {
    return s->from.text == NULL ? ls_words(w, "setback, %s", what)
                                : ls_words(w, "setback from %s, %s", s->from.text, what);
}

static ls_line strip(ls_agronomy_plot *p, const ls_setback *s, size_t number) {
    ls_worksheet *w = p->g->w;
    const char *slug = p->out->slug;
    ls_line edge = ls_leaf_given(w, ls_words(w, "%s.setback_%zu.edge", slug, number),
                                 setback_label(w, s, "edge"), "ft", &s->edge);
    ls_line width = ls_leaf_given(w, ls_words(w, "%s.setback_%zu.width", slug, number),
                                  setback_label(w, s, "width"), "ft", &s->width);
    return LS_PRODUCT(w, ls_words(w, "%s.setback_%zu.area", slug, number),
                      setback_label(w, s, "strip"), "ac", edge, width);
}

/* The full circle, pi r^2, though part of it may lie outside of the field. */
static ls_line circle(ls_agronomy_plot *p, const ls_setback *s, size_t number) {
    ls_worksheet *w = p->g->w;
    const char *slug = p->out->slug;
    ls_line pi = ls_line_find(w, "pi");
    if (pi == LS_NO_LINE)
        pi = ls_leaf_exact(w, "pi", "pi", "", acos(-1), LS_BY_DEFINITION, NULL);
    ls_line radius = ls_leaf_given(w, ls_words(w, "%s.setback_%zu.radius", slug, number),
                                   setback_label(w, s, "radius"), "ft", &s->radius);
    return LS_PRODUCT(w, ls_words(w, "%s.setback_%zu.area", slug, number),
                      setback_label(w, s, "circle"), "ac", pi, radius, radius);
}

void ls_agronomy_acres(ls_agronomy_plot *p) {
    ls_agronomy *g = p->g;
    const ls_field *f = p->field;
    ls_line *setbacks = LS_NEW(g->arena, ls_line, f->setbacks.n);
    for (size_t i = 0; i < f->setbacks.n; i++) {
        const ls_setback *s = &f->setbacks.at[i];
        setbacks[i] = LS_GIVEN(s->radius) ? circle(p, s, i + 1) : strip(p, s, i + 1);
    }
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
