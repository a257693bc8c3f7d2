/* Days between spreading and grazing or harvest: the farm file's, else published cautions. */
#include "room.h"

#include <string.h>

static bool is_grazed(const ls_field *f) {
    return f->use.is == LS_GRAZED_BEEF || f->use.is == LS_GRAZED_DAIRY || LS_GIVEN(f->grazing) ||
           (f->crop.text != NULL && strstr(f->crop.text, "pasture") != NULL);
}

static bool is_one_of(const ls_field *f, const char *const *crops) {
    for (; f->crop.text != NULL && *crops != NULL; crops++)
        if (strstr(f->crop.text, *crops) != NULL) return true;
    return false;
}

/* Of a crop of another name it is not known whether animals eat it. */
bool ls_agronomy_for_stock(const ls_field *f) {
    static const char *const others[] = {"grain",  "soybean",    "peanut", "cotton",    "sod", "tobacco",
                                         "tomato", "watermelon", "canola", "sunflower", NULL},
                             *const fodder[] = {"forage", NULL};
    return is_grazed(f) || LS_GIVEN(f->days_before_grazing) || !is_one_of(f, others) || is_one_of(f, fodder);
}

/* Crops that nobody eats: feed, fiber, turf. Their harvest asks for no days after raw litter. */
static bool is_food(const ls_field *f) {
    static const char *const others[] = {"hay",    "pasture", "silage", "haylage", "forage", "straw",
                                         "stover", "cotton",  "sod",    "tobacco", NULL};
    return f->crop.text != NULL && f->use.is != LS_COVER && !is_grazed(f) && !is_one_of(f, others);
}

/* ---- the days ---- */

static ls_date day_after(ls_date day, long days) {
    const ls_date last = ls_date_of(2199, 12, 31); /* of the calendar */
    return day != LS_NO_DATE && day <= last - (ls_date)days ? day + (ls_date)days : LS_NO_DATE;
}

static const ls_interval none = {.day = LS_NO_DATE};

static const ls_row *rule(const ls_reference *r, const char *name) {
    return ls_table_row(ls_reference_table(r, "rule", ""), name);
}

static ls_interval published(const ls_reference *r, const char *name, ls_date day, bool in_case) {
    const ls_row *row = rule(r, name);
    const ls_figure *figure = ls_row_figure(row, "value");
    if (figure == NULL) return none;
    const char *source = ls_agronomy_source(figure->source, figure->status), *cite = ls_row_word(row, "cite");
    long days = (long)(figure->value / ls_unit_of("day").factor + 0.5);
    return (ls_interval){.days = days,
                         .day = days > 0 ? day_after(day, days) : LS_NO_DATE,
                         .source = source,
                         .cite = cite != NULL ? cite : source,
                         .in_case = in_case};
}

/* The farm file's days; else those of a caution that concerns the field. */
static ls_interval governing(const ls_count *given, ls_interval caution, ls_date day) {
    if (!LS_GIVEN(*given)) return caution.in_case ? none : caution;
    return (ls_interval){.given = true, .days = given->n, .day = day_after(day, given->n)};
}

static bool is_longer(const ls_interval *caution, const ls_interval *governs) {
    return caution->days > (governs->given ? governs->days : 0);
}

static const char cattle[] = "cattle off pasture", on_soil[] = "harvest, part in the soil",
                  off_soil[] = "harvest, part off the soil";

/* Of organic food of one kind; none where the file says that the crop is another. */
static ls_interval organic(const ls_reference *r, const ls_field *f, int kind, const char *row, ls_date day) {
    bool told = f->grown_for.is == kind;
    return told || (f->grown_for.is == 0 && is_food(f)) ? published(r, row, day, !told) : none;
}

ls_earliest ls_agronomy_earliest(const ls_reference *r, const ls_field *f, ls_date day) {
    ls_earliest e = {.cattle = published(r, cattle, day, !is_grazed(f))};
    e.organic_on_soil = organic(r, f, LS_ORGANIC_IN_SOIL, on_soil, day);
    e.organic_off_soil = organic(r, f, LS_ORGANIC_OFF_SOIL, off_soil, day);
    e.grazing = governing(&f->days_before_grazing, e.cattle, day);
    e.harvest = governing(&f->days_before_harvest,
                          f->grown_for.is == LS_ORGANIC_OFF_SOIL ? e.organic_off_soil : e.organic_on_soil, day);
    e.cattle.longer = is_longer(&e.cattle, &e.grazing);
    e.organic_on_soil.longer = is_longer(&e.organic_on_soil, &e.harvest);
    e.organic_off_soil.longer = is_longer(&e.organic_off_soil, &e.harvest);
    return e;
}

/* ---- as lines ---- */

static void caution_line(ls_worksheet *w, ls_interval *i, const char *key, const char *label, const ls_row *row) {
    if (i->days > 0) i->line = ls_leaf_figure(w, key, label, "days", ls_row_figure(row, "value"));
}

static void limit_line(ls_worksheet *w, ls_interval *i, const ls_count *given, const char *what,
                       const ls_interval *caution) {
    if (i->given)
        i->line = ls_leaf_count(w, what, ls_printf(w, "days from spreading to %s", what), "days", given);
    else if (i->days > 0)
        i->line = caution->line;
}

ls_earliest ls_agronomy_earliest_lines(ls_worksheet *all, const char *prefix, const ls_reference *r, const ls_field *f,
                                       ls_date day) {
    static const char off[] = "days that cattle stay off after spreading",
                      food[] = "days from raw litter to the harvest of organic food";
    ls_worksheet *w = ls_part(all, NULL, "%s", prefix);
    ls_earliest e = ls_agronomy_earliest(r, f, day);
    caution_line(w, &e.cattle, "cattle", off, rule(r, cattle));
    caution_line(w, &e.organic_on_soil, "organic_in_soil", food, rule(r, on_soil));
    caution_line(w, &e.organic_off_soil, "organic_off_soil", food, rule(r, off_soil));
    limit_line(w, &e.grazing, &f->days_before_grazing, "grazing", &e.cattle);
    limit_line(w, &e.harvest, &f->days_before_harvest, "harvest",
               f->grown_for.is == LS_ORGANIC_OFF_SOIL ? &e.organic_off_soil : &e.organic_on_soil);
    return e;
}

void ls_agronomy_dates(ls_agronomy_plot *p) {
    const ls_field *f = p->field;
    ls_field_rates *out = p->out;
    out->last_day = f->allowed.from == LS_NO_DATE ? LS_NO_DATE : f->allowed.to;
    out->earliest = ls_agronomy_earliest_lines(p->w, "interval", p->g->reference, f, out->last_day);
    if (LS_GIVEN(f->days_before_planting))
        ls_leaf_count(p->w, "interval.planting", "most days from spreading to planting", "days",
                      &f->days_before_planting);
}

/* ---- flags ---- */

/* A published reminder, with its source; its days, where it has any, are a line. */
static void flag_rule(ls_agronomy_plot *p, const char *name, ls_line days) {
    ls_agronomy *g = p->g;
    const ls_row *row = rule(g->reference, name);
    const char *text = ls_row_word(row, "text");
    if (text == NULL) return;
    const char *how_long = days ? ls_printf(g->w, " for %s days", ls_agronomy_number(g, days)) : "";
    ls_agronomy_flag(p, "%s%s (%s)", text, how_long, ls_agronomy_source(row->source, row->status));
}

/* A date of the file that a published caution would have later. */
static void flag_early(ls_agronomy_plot *p, const ls_day *day, const ls_interval *i, const char *what) {
    ls_arena *a = p->g->arena;
    int year = ls_farm_year(p->g->farm);
    if (!LS_GIVEN(*day) || i->in_case || i->day == LS_NO_DATE || day->day >= i->day) return;
    ls_agronomy_flag(p, "%s on %s: after litter on the last day, %s, that would be %s at the earliest (%s)", what,
                     ls_date_words(a, day->day, year), ls_date_words(a, p->out->last_day, year),
                     ls_date_words(a, i->day, year), i->source);
}

static void flag_grazing(ls_agronomy_plot *p) {
    if (!is_grazed(p->field)) return;
    flag_rule(p, cattle, p->out->earliest.cattle.line);
    flag_rule(p, "sheep", LS_NO_LINE);
    flag_early(p, &p->field->grazing, &p->out->earliest.cattle, "animals come");
}

/* Organic food; where the file does not say what the harvest is for, in case. */
static void flag_harvest(ls_agronomy_plot *p) {
    ls_agronomy *g = p->g;
    const ls_interval *on = &p->out->earliest.organic_on_soil, *off = &p->out->earliest.organic_off_soil;
    flag_early(p, &p->field->harvest, on, "the harvest is");
    flag_early(p, &p->field->harvest, off, "the harvest is");
    if (!LS_GIVEN(p->field->harvest) || !on->in_case || !off->in_case || !on->longer) return;
    ls_agronomy_flag(p,
                     "organic food: %s days from raw litter to harvest if the part eaten touches "
                     "the soil, %s if not (%s)",
                     ls_agronomy_number(g, on->line), ls_agronomy_number(g, off->line), on->source);
}

void ls_agronomy_flag_dates(ls_agronomy_plot *p) {
    flag_grazing(p);
    flag_harvest(p);
}
