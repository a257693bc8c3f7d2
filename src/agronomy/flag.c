/* What a reader must know of a field besides its figures, in plain words. */
#include "agronomy/room.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

void ls_agronomy_flag(ls_agronomy_plot *p, const char *format, ...) {
    char text[500];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    ls_arena *a = p->g->arena;
    *LS_PUSH(a, &p->out->flags) = ls_arena_copy(a, text);
}

ls_date ls_agronomy_opening(const ls_agronomy_plot *p) {
    const ls_crew *crew = p->g->farm->crew;
    if (LS_GIVEN(p->field->open))
        return p->field->open.days.from;
    return crew != NULL && LS_GIVEN(crew->arrives) ? crew->arrives.day : LS_NO_DATE;
}

static double years_of(const ls_figure *age) {
    return age->value / ls_unit_of("year").factor;
}

/* A day that lies further back from the opening than an age, in whole years by the calendar: leap
 * days do not count. */
static bool is_old(const ls_agronomy_plot *p, const ls_day *day, const ls_figure *age) {
    ls_date opening = ls_agronomy_opening(p);
    if (!LS_GIVEN(*day) || opening == LS_NO_DATE)
        return false;
    int year = ls_date_year(day->day);
    ls_date end =
        ls_date_of(year + (int)(years_of(age) + 0.5), 1, 1) + (day->day - ls_date_of(year, 1, 1));
    return end < opening;
}

static const char *age_words(const ls_agronomy_plot *p, const ls_figure *age) {
    return ls_words(p->g->w, "%s year%s", ls_number_text(p->g->arena, years_of(age), 3),
                    years_of(age) > 1 ? "s" : "");
}

static void flag_ages(ls_agronomy_plot *p) {
    ls_agronomy *g = p->g;
    const ls_field *f = p->field;
    if (f->soil == NULL)
        ls_agronomy_flag(p, "no soil test given");
    else if (is_old(p, &f->soil->date, g->soil_age))
        ls_agronomy_flag(p, "the soil test of %s is more than %s old when the field opens",
                         ls_date_iso(g->arena, f->soil->date.day), age_words(p, g->soil_age));
    for (size_t i = 0; i < g->litters_n; i++) {
        const ls_analysis *a = g->litters[i].analysis;
        if (a->report != NULL && is_old(p, &a->report->date, g->analysis_age))
            ls_agronomy_flag(
                p, "the lab report of %s (%s) is more than %s old when the field opens", a->slug,
                ls_date_iso(g->arena, a->report->date.day), age_words(p, g->analysis_age));
    }
}

/* Tables that were taken because the farm names none. */
static void flag_defaults(ls_agronomy_plot *p) {
    ls_agronomy *g = p->g;
    const ls_table_names *t = g->farm->tables;
    if (t == NULL || t->nitrogen.text == NULL)
        ls_agronomy_flag(p, "no nitrogen table named: %s is used", g->nitrogen->name);
    if (p->field->earlier_litter.n > 0 && (t == NULL || t->carryover.text == NULL))
        ls_agronomy_flag(p, "no carryover table named: %s is used", g->carryover->name);
}

static void flag_availability(ls_agronomy_plot *p) {
    ls_agronomy *g = p->g;
    const ls_agronomy_way *way = &g->ways[p->way];
    if (!LS_GIVEN(p->field->incorporated))
        ls_agronomy_flag(p, "not said when the litter is worked in: taken as never");
    if (g->ammonium != NULL && p->field->weather.is == 0)
        ls_agronomy_flag(p, "no weather given: taken as average");
    for (size_t i = 0; i < way->flags.n; i++)
        ls_agronomy_flag(p, "%s", way->flags.at[i]);
    for (size_t i = 0; i < g->litters_n; i++)
        for (size_t k = 0; k < g->litters[i].flags.n; k++)
            ls_agronomy_flag(p, "%s", g->litters[i].flags.at[k]);
    if (p->field->earlier_litter.n > 0 && g->carryover->n > 0 &&
        g->carryover->rows[0].status == LS_MEMORY)
        ls_agronomy_flag(p, "the carryover table %s is from memory", g->carryover->name);
}

static void flag_limits(ls_agronomy_plot *p) {
    ls_agronomy *g = p->g;
    const ls_field *f = p->field;
    const char *published =
        ls_words(g->w, "%s ton/ac",
                 ls_number_text(g->arena, g->cap->value / ls_unit_of("ton/ac").factor, 3));
    if (!LS_GIVEN(f->most))
        ls_agronomy_flag(
            p, "no most given: %s, the top of the published range for litter (%s)", published,
            g->cap->source == NULL ? ls_status_words(g->cap->status) : g->cap->source->id);
    else if (f->most.value > g->cap->value)
        ls_agronomy_flag(
            p, "the plan's most, %s, is above %s, the top of the published range for litter",
            f->most.text, published);
    if (f->phosphorus != NULL && f->phosphorus->rating.is == LS_RATING_VERY_HIGH)
        ls_agronomy_flag(p, "phosphorus is rated very high: closed to litter");
    if (f->phosphorus != NULL && f->phosphorus->rating.is != 0 &&
        f->phosphorus->rated_by.text == NULL)
        ls_agronomy_flag(p, "it is not said who rated the phosphorus");
}

/* Animals on the land: reminders, each with its source. */
static void flag_grazing(ls_agronomy_plot *p) {
    const ls_field *f = p->field;
    bool pasture = f->crop.text != NULL && strstr(f->crop.text, "pasture") != NULL;
    if (!pasture && f->use.is != LS_GRAZED_BEEF && f->use.is != LS_GRAZED_DAIRY)
        return;
    static const char *const rules[] = {"cattle off pasture", "sheep"};
    const ls_table *t = ls_reference_table(p->g->reference, "rule", "");
    for (size_t i = 0; i < sizeof rules / sizeof *rules; i++) {
        const ls_row *row = ls_table_row(t, rules[i]);
        const char *text = ls_row_word(row, "text");
        const ls_figure *days = ls_row_figure(row, "value");
        if (text == NULL)
            continue;
        const char *how_long = days == NULL ? ""
                                            : ls_words(p->g->w, " for %s days",
                                                       ls_number_text(p->g->arena, days->value, 3));
        ls_agronomy_flag(p, "%s%s (%s)", text, how_long,
                         row->source == NULL ? ls_status_words(row->status) : row->source->id);
    }
}

void ls_agronomy_flags(ls_agronomy_plot *p) {
    flag_limits(p);
    flag_ages(p);
    flag_defaults(p);
    flag_availability(p);
    flag_grazing(p);
}
