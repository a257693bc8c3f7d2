/* What was read off in a house, and what its litter has of its own beside the published figure. */
#include "house.h"

#include <math.h>

static ls_usual_scatter usual_scatter(const ls_litter_house *h, const char *row, bool relative) {
    return (ls_usual_scatter){ls_litter_practice(h, row)->value,
                              ls_litter_practice(h, "usual readings df")->value,
                              ls_litter_practice(h, "least readings ratio")->value, relative};
}

ls_line ls_litter_readings(ls_litter_house *h, const char *key, const char *label, const char *unit,
                           const ls_quantity *q, const char *row) {
    return ls_leaf_readings(h->w, key, label, unit, q, usual_scatter(h, row, true));
}

ls_line ls_litter_kept_within(ls_litter_house *h, ls_worksheet *w, const char *key,
                              const char *label, ls_line found) {
    ls_line low = ls_leaf_exact(h->w, "moisture.least", "least a moisture can be", "%", 0,
                                LS_BY_DEFINITION, NULL);
    ls_line high = ls_leaf_exact(h->w, "moisture.most", "most a moisture is taken to be", "%", 0.95,
                                 LS_BY_DEFINITION, "a draw of moisture is kept below 95%");
    return ls_clip(w, key, label, "%", found, low, high);
}

/* Between a few readings and the published figure the truth is nearer to both than either tells.
 * The figure told stands; about it the two together leave their common variance and the square of
 * how far their weighted mean lies off. Degrees of freedom: only the readings' part of the weight
 * is uncertain (Welch and Satterthwaite). */
static ls_spread with_published(ls_spread told, double value, const ls_figure *published,
                                double published_sd) {
    double variance = told.scale * told.scale, other = published_sd * published_sd;
    double weight = other / (variance + other); /* of what was told */
    double off = (1 - weight) * (value - published->value);
    double scale = sqrt(weight * variance + off * off);
    return scale < told.scale ? ls_spread_student(scale, told.df / (weight * weight)) : told;
}

ls_line ls_litter_told_moisture(ls_litter_house *h, ls_worksheet *w, const char *key,
                                const char *label, const ls_quantity *q,
                                const ls_figure *published) {
    ls_spread spread = ls_readings_spread(q, usual_scatter(h, "usual moisture reading", false));
    double sd = fmax(ls_spread_scale(published->spread, published->value),
                     ls_litter_practice(h, "within farm moisture")->value);
    if (spread.kind == LS_STUDENT)
        spread = with_published(spread, q->value, published, sd);
    ls_origin origin = {LS_BY_FARM, q->at, NULL, q->how};
    ls_line told = ls_leaf(w, ls_printf(w, "%s.given", key), ls_printf(w, "%s, as given", label),
                           "%", q->value, spread, origin);
    return ls_litter_kept_within(h, w, key, label, told);
}

ls_line ls_litter_own_part(ls_litter_house *h, ls_worksheet *w, const char *key, const char *label,
                           ls_line shared, const char *own, bool points) {
    const ls_figure *f = ls_litter_practice(h, own);
    const char *unit = ls_line_at(w, shared)->unit.text, *part = ls_printf(w, "%s.own", key);
    if (!points)
        return LS_PRODUCT(w, key, label, unit, shared,
                          ls_litter_factor(h, w, part, "what this house has of its own", own));
    ls_line more =
        ls_leaf_by(w, part, "what this litter has of its own", unit, f, 0,
                   ls_spread_normal(f->value), "points about nothing, of this litter alone");
    return LS_SUM(w, key, label, unit, shared, more);
}
