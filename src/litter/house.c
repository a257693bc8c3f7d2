#include "house.h"

#include <math.h>
#include <stdarg.h>

/* ---- nutrients as a laboratory reports them, and the elements in them ---- */

const char *ls_nutrient_name(int nutrient) {
    static const char *const names[] = {"N", "NH4-N", "P2O5", "K2O"};
    return names[nutrient];
}

const char *ls_nutrient_key(int nutrient) {
    static const char *const keys[] = {"N", "NH4N", "P2O5", "K2O"};
    return keys[nutrient];
}

/* Elements in the order of LS_ELEMENT_N. */
static const struct element {
    const char *name, *word, *oxide;
    int nutrient;
} elements[LS_ELEMENTS] = {
    {"N", "nitrogen", NULL, LS_N},
    {"P", "phosphorus", "P to P2O5", LS_P2O5},
    {"K", "potassium", "K to K2O", LS_K2O},
};

const char *ls_element_name(int element) { return elements[element].name; }

const char *ls_litter_element_word(int element) { return elements[element].word; }

int ls_litter_element_nutrient(int element) { return elements[element].nutrient; }

const ls_figure *ls_litter_oxide(const ls_litter_house *h, int element) {
    return elements[element].oxide ? ls_litter_practice(h, elements[element].oxide) : NULL;
}

ls_line ls_litter_oxide_per(ls_litter_house *h, int element) {
    const char *name = elements[element].name, *oxide = ls_nutrient_key(elements[element].nutrient);
    return ls_leaf_figure(h->all, ls_printf(h->all, "whole-farm.%s_per_%s", oxide, name),
                          ls_printf(h->all, "%s per %s", oxide, name), "", ls_litter_oxide(h, element));
}

/* "North: " and what is printed. */
static const char *of_house(const ls_litter_house *h, const char *format, va_list arguments) {
    return ls_printf(h->w, "%s: %s", h->house->name.text, ls_arena_vprintf(h->arena, format, arguments));
}

/* A note is told once, however many flocks or readings it is of. */
void ls_litter_note(ls_litter_house *h, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    const char *note = of_house(h, format, arguments);
    va_end(arguments);
    for (size_t i = 0; i < h->estimate->notes.n; i++)
        if (ls_text_same(h->estimate->notes.at[i], note)) return;
    *LS_PUSH(h->arena, &h->estimate->notes) = note;
}

void ls_litter_caution(ls_litter_house *h, const char *id, const char *source, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    *LS_PUSH(h->arena, &h->estimate->cautions) = (ls_caution){id, of_house(h, format, arguments), source};
    va_end(arguments);
}

const ls_figure *ls_litter_practice(const ls_litter_house *h, const char *row) {
    return ls_reference_practice(h->reference, row);
}

const char *ls_litter_status(const ls_figure *f) {
    return f->status == LS_MEMORY ? ", from memory" : f->status == LS_PRACTICE ? ", common practice" : "";
}

ls_line ls_litter_factor(const ls_litter_house *h, ls_worksheet *w, const char *key, const char *label,
                         const char *row) {
    const ls_figure *f = ls_litter_practice(h, row);
    return ls_leaf_by(w, key, label, "", f, 1, ls_spread_lognormal(f->value),
                      "a factor of 1 whose log standard deviation is this figure");
}

const char *ls_litter_source(const ls_figure *f) { return f->source ? f->source->title : ls_status_words(f->status); }

const ls_figure *ls_litter_bound(const ls_litter_house *h, const char *kind, const char *row, const char *column) {
    return ls_row_figure(ls_table_row(ls_reference_table(h->reference, kind, ""), row), column);
}

void ls_litter_query(ls_litter_house *h, const char *id, const char *what, ls_line line, const char *kind,
                     const char *row) {
    const ls_figure *low = ls_litter_bound(h, kind, row, "low");
    const ls_figure *high = ls_litter_bound(h, kind, row, "high");
    double v = ls_line_value(h->w, line);
    const ls_figure *passed = low && v < low->value ? low : high && v > high->value ? high : NULL;
    if (!passed) return;
    const ls_entry *e = ls_line_at(h->w, line);
    const char *unit = ls_text_same(e->unit.text, "day") ? "days" : e->unit.text;
    const char *blank = unit[0] ? " " : "";
    ls_litter_caution(h, id, ls_litter_source(passed), "%s is %s%s%s, %s the %s%s%s%s", what,
                      ls_number_text(h->arena, v / e->unit.factor, 3), blank, unit, passed == low ? "below" : "above",
                      passed->source ? "published " : "usual bound, ",
                      ls_number_text(h->arena, passed->value / e->unit.factor, 3), blank, unit);
}

/* ---- what was read off in a house, and what it has of its own beside what is published ---- */

static ls_usual_scatter usual_scatter(const ls_litter_house *h, const char *row, bool relative) {
    return (ls_usual_scatter){ls_litter_practice(h, row)->value, ls_litter_practice(h, "usual readings df")->value,
                              ls_litter_practice(h, "least readings ratio")->value, relative};
}

ls_line ls_litter_readings(ls_litter_house *h, const char *key, const char *label, const char *unit,
                           const ls_quantity *q, const char *row) {
    return ls_leaf_readings(h->w, key, label, unit, q, usual_scatter(h, row, true));
}

ls_line ls_litter_kept_within(ls_litter_house *h, ls_worksheet *w, const char *key, const char *label, ls_line found) {
    ls_line low = ls_leaf_exact(h->w, "moisture.least", "least a moisture can be", "%", 0, LS_BY_DEFINITION, NULL);
    ls_line high = ls_leaf_exact(h->w, "moisture.most", "most a moisture is taken to be", "%", 0.95, LS_BY_DEFINITION,
                                 "a draw of moisture is kept below 95%");
    return ls_clip(w, key, label, "%", found, low, high);
}

/* Between a few readings and the published figure the truth is nearer to both than either tells. The figure told
 * stands; about it the two together leave their common variance and the square of how far their weighted mean lies off.
 * Degrees of freedom: only the readings' part of the weight is uncertain (Welch and Satterthwaite). */
static ls_spread with_published(ls_spread told, double value, const ls_figure *published, double published_sd) {
    double variance = told.scale * told.scale, other = published_sd * published_sd;
    double weight = other / (variance + other); /* of what was told */
    double off = (1 - weight) * (value - published->value);
    double scale = sqrt(weight * variance + off * off);
    return scale < told.scale ? ls_spread_student(scale, told.df / (weight * weight)) : told;
}

ls_line ls_litter_told_moisture(ls_litter_house *h, ls_worksheet *w, const char *key, const char *label,
                                const ls_quantity *q, const ls_figure *published) {
    ls_spread spread = ls_readings_spread(q, usual_scatter(h, "usual moisture reading", false));
    double sd = fmax(ls_spread_scale(published->spread, published->value),
                     ls_litter_practice(h, "within farm moisture")->value);
    if (spread.kind == LS_STUDENT) spread = with_published(spread, q->value, published, sd);
    ls_origin origin = {LS_BY_FARM, q->at, NULL, q->how};
    ls_line told =
        ls_leaf(w, ls_printf(w, "%s.given", key), ls_printf(w, "%s, as given", label), "%", q->value, spread, origin);
    return ls_litter_kept_within(h, w, key, label, told);
}

ls_line ls_litter_own_part(ls_litter_house *h, ls_worksheet *w, const char *key, const char *label, ls_line shared,
                           const char *own, bool points) {
    const ls_figure *f = ls_litter_practice(h, own);
    const char *unit = ls_line_at(w, shared)->unit.text, *part = ls_printf(w, "%s.own", key);
    if (!points)
        return LS_PRODUCT(w, key, label, unit, shared,
                          ls_litter_factor(h, w, part, "what this house has of its own", own));
    ls_line more = ls_leaf_by(w, part, "what this litter has of its own", unit, f, 0, ls_spread_normal(f->value),
                              "points about nothing, of this litter alone");
    return LS_SUM(w, key, label, unit, shared, more);
}

/* ---- the floor and its parts ---- */

bool ls_litter_has_zone(const ls_litter_house *h, int zone) { return ls_house_share(h->house, (ls_zone)zone) > 0; }

/* A house whose litter was weighed may leave its size out. */
bool ls_litter_has_size(const ls_litter_house *h) { return LS_GIVEN(h->house->length) && LS_GIVEN(h->house->width); }

ls_line ls_litter_floor_share(ls_litter_house *h, int zone) {
    const char *name = ls_zone_name(zone), *key = ls_printf(h->w, "share.%s", name);
    const char *label = ls_printf(h->w, "share of the floor: %s", name);
    const ls_floor *f = h->house->floor;
    if (!f) return ls_leaf_exact(h->w, key, label, "%", 1, LS_BY_DEFINITION, "one floor");
    const ls_quantity *q = zone == LS_SLATS ? &f->slats : zone == LS_SCRATCH ? &f->scratch : &f->floor;
    return ls_leaf_given(h->w, key, label, "%", q);
}

ls_line ls_litter_area(ls_litter_house *h, int zone) {
    ls_worksheet *w = h->w;
    ls_line share = zone && h->house->floor ? ls_litter_floor_share(h, zone) : LS_NO_LINE;
    ls_line all = LS_PRODUCT(w, "area.all", "floor area", "ft2", ls_line_find(w, "length"), ls_line_find(w, "width"));
    const char *name = ls_zone_name(zone), *key = ls_printf(w, "area.%s", name);
    if (zone == 0) return all;
    return share ? LS_PRODUCT(w, key, ls_printf(w, "area of the %s", name), "ft2", all, share)
                 : ls_same(w, key, "floor area", "ft2", all);
}

ls_line ls_litter_times(const ls_litter_flock *f, ls_worksheet *w, const char *key, const char *label, const char *unit,
                        ls_line x) {
    if (!x || !LS_GIVEN(f->told->flocks)) return x;
    ls_line n =
        ls_leaf_exact(f->w, "flocks", "flocks alike", "", (double)ls_flock_times(f->told), LS_BY_FARM, "as given");
    return LS_PRODUCT(w, key, label, unit, x, n);
}
