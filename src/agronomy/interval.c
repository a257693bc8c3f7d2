/* Days between spreading and grazing or harvest: the farm file's, else published cautions. */
#include "room.h"

#include <string.h>

static bool is_grazed(const ls_field *f) {
    return f->use.is == LS_GRAZED_BEEF || f->use.is == LS_GRAZED_DAIRY || LS_GIVEN(f->grazing) ||
           (f->crop.text != NULL && strstr(f->crop.text, "pasture") != NULL);
}

/* The row of the published interval; NULL: none applies. */
static const ls_row *grazing_rule(const ls_reference *r, const ls_field *f) {
    return is_grazed(f) ? ls_table_row(ls_reference_table(r, "rule", ""), "cattle off pasture")
                        : NULL;
}

static const ls_row *harvest_rule(const ls_reference *r, const ls_field *f) {
    const char *name = f->grown_for.is == LS_ORGANIC_IN_SOIL    ? "harvest, part in the soil"
                       : f->grown_for.is == LS_ORGANIC_OFF_SOIL ? "harvest, part off the soil"
                                                                : NULL;
    return name == NULL ? NULL : ls_table_row(ls_reference_table(r, "rule", ""), name);
}

static ls_interval interval(const ls_count *given, const ls_row *rule, ls_date day) {
    ls_interval out = {0, LS_NO_DATE, LS_GIVEN(*given), NULL, LS_NO_LINE};
    const ls_figure *figure = ls_row_figure(rule, "value");
    if (out.given)
        out.days = given->n;
    else if (figure != NULL) {
        out.days = (long)(figure->value / ls_unit_of("day").factor + 0.5);
        out.source = ls_agronomy_source(figure->source, figure->status);
    }
    const ls_date last = ls_date_of(2199, 12, 31); /* of the calendar */
    if ((out.given || out.days > 0) && day != LS_NO_DATE && day <= last - (ls_date)out.days)
        out.day = day + (ls_date)out.days;
    return out;
}

ls_earliest ls_agronomy_earliest(const ls_reference *r, const ls_field *f, ls_date day) {
    return (ls_earliest){interval(&f->days_before_grazing, grazing_rule(r, f), day),
                         interval(&f->days_before_harvest, harvest_rule(r, f), day)};
}

/* The days as a line, and, where the farm file gives them, the published ones as a line beside it.
 */
static ls_line days_line(ls_agronomy_plot *p, const char *what, const ls_count *given,
                         const ls_row *rule) {
    ls_worksheet *w = p->g->w;
    const ls_figure *figure = ls_row_figure(rule, "value");
    const char *key = ls_words(w, "%s.interval.%s", p->out->slug, what),
               *label = ls_words(w, "days from spreading to %s", what);
    if (!LS_GIVEN(*given))
        return figure == NULL ? LS_NO_LINE : ls_leaf_figure(w, key, label, "days", figure);
    if (figure != NULL)
        ls_leaf_figure(w, ls_words(w, "%s_published", key), ls_words(w, "%s, published", label),
                       "days", figure);
    return ls_leaf_count(w, key, label, "days", given);
}

void ls_agronomy_dates(ls_agronomy_plot *p) {
    const ls_field *f = p->field;
    const ls_reference *r = p->g->reference;
    ls_field_rates *out = p->out;
    out->last_day = f->allowed.from == LS_NO_DATE ? LS_NO_DATE : f->allowed.to;
    out->earliest = ls_agronomy_earliest(r, f, out->last_day);
    out->earliest.grazing.line =
        days_line(p, "grazing", &f->days_before_grazing, grazing_rule(r, f));
    out->earliest.harvest.line =
        days_line(p, "harvest", &f->days_before_harvest, harvest_rule(r, f));
    if (LS_GIVEN(f->days_before_planting))
        ls_leaf_count(p->g->w, LS_AGRONOMY_KEY(p, "interval.planting"),
                      "most days from spreading to planting", "days", &f->days_before_planting);
}

/* ---- flags ---- */

/* A published reminder, with its source; its days, where it has any, are a line. */
static void flag_rule(ls_agronomy_plot *p, const char *rule, const char *key) {
    ls_agronomy *g = p->g;
    const ls_row *row = ls_table_row(ls_reference_table(g->reference, "rule", ""), rule);
    const char *text = ls_row_word(row, "text");
    ls_line days = key == NULL ? LS_NO_LINE : ls_line_find(g->w, key);
    if (text == NULL)
        return;
    const char *how_long =
        days == LS_NO_LINE ? "" : ls_words(g->w, " for %s days", ls_agronomy_number(g, days));
    ls_agronomy_flag(p, "%s%s (%s)", text, how_long, ls_agronomy_source(row->source, row->status));
}

/* A date of the file that a published caution would have later. */
static void flag_early(ls_agronomy_plot *p, const ls_day *day, const ls_interval *i,
                       const char *what) {
    ls_arena *a = p->g->arena;
    if (!LS_GIVEN(*day) || i->given || i->day == LS_NO_DATE || day->day >= i->day)
        return;
    ls_agronomy_flag(p,
                     "%s on %s: after litter on the last day, %s, that would be %s at the earliest "
                     "(%s)",
                     what, ls_date_iso(a, day->day), ls_date_iso(a, p->out->last_day),
                     ls_date_iso(a, i->day), i->source);
}

static void flag_grazing(ls_agronomy_plot *p) {
    if (!is_grazed(p->field))
        return;
    flag_rule(p, "cattle off pasture",
              p->out->earliest.grazing.given ? LS_AGRONOMY_KEY(p, "interval.grazing_published")
                                             : LS_AGRONOMY_KEY(p, "interval.grazing"));
    flag_rule(p, "sheep", NULL);
    flag_early(p, &p->field->grazing, &p->out->earliest.grazing, "animals come");
}

/* Crops that nobody eats: feed, fiber, turf. Their harvest asks for no days after raw litter. */
static bool is_food(const ls_field *f) {
    static const char *const others[] = {"hay",   "pasture", "silage", "haylage", "forage",
                                         "straw", "stover",  "cotton", "sod"};
    if (f->crop.text == NULL || is_grazed(f))
        return false;
    for (size_t i = 0; i < sizeof others / sizeof *others; i++)
        if (strstr(f->crop.text, others[i]) != NULL)
            return false;
    return true;
}

/* Organic food, where the file does not say what the harvest is for. */
static void flag_harvest(ls_agronomy_plot *p) {
    static const char *const rules[] = {"harvest, part in the soil", "harvest, part off the soil"};
    static const char *const keys[] = {"in_soil", "off_soil"};
    enum { RULES = sizeof rules / sizeof *rules };
    ls_agronomy *g = p->g;
    const ls_field *f = p->field;
    const ls_figure *figures[RULES];
    ls_line days[RULES];
    flag_early(p, &f->harvest, &p->out->earliest.harvest, "the harvest is");
    if (!is_food(f) || !LS_GIVEN(f->harvest) || f->grown_for.is != 0 ||
        LS_GIVEN(f->days_before_harvest))
        return;
    for (size_t i = 0; i < RULES; i++) {
        figures[i] = ls_reference_need(g->reference, "rule", "", rules[i], "value");
        days[i] = ls_leaf_figure(
            g->w, ls_words(g->w, "%s.interval.organic_%s", p->out->slug, keys[i]),
            "days from raw litter to the harvest of organic food", "days", figures[i]);
    }
    ls_agronomy_flag(p,
                     "if this is organic food: %s days from raw litter to harvest where the part "
                     "that is eaten touches the soil, %s where it does not (%s)",
                     ls_agronomy_number(g, days[0]), ls_agronomy_number(g, days[1]),
                     ls_agronomy_source(figures[0]->source, figures[0]->status));
}

void ls_agronomy_flag_dates(ls_agronomy_plot *p) {
    flag_grazing(p);
    flag_harvest(p);
}
