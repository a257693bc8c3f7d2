/* What a reader must know of a field besides its figures, in plain words. */
#include "room.h"

#include <math.h>
#include <string.h>

static ls_line age_line(ls_agronomy *g, const char *key, const char *label, const ls_quantity *q, const char *row) {
    ls_worksheet *w = ls_part(g->w, NULL, "agronomy.age");
    return q != NULL && LS_GIVEN(*q) ? ls_leaf_given(w, key, label, "years", q)
                                     : ls_leaf_figure(w, key, label, "years", ls_reference_practice(g->reference, row));
}

void ls_agronomy_flag_lines(ls_agronomy *g) {
    const ls_ages *ages = g->farm->ages;
    ls_worksheet *w = ls_part(g->w, NULL, "agronomy");
    g->soil_age = age_line(g, "soil", "how old a soil test may be", ages == NULL ? NULL : &ages->soil, "soil test age");
    g->analysis_age =
        age_line(g, "litter", "how old a lab report may be", ages == NULL ? NULL : &ages->litter, "analysis age");
    g->range_top = ls_leaf_figure(w, "range_top", "the top of the published range for litter", "ton/ac", g->cap);
    g->tolerance = ls_leaf_figure(w, "tolerance", "most nitrogen over what is recommended, Alabama", "%",
                                  ls_reference_practice(g->reference, "nitrogen over recommended most"));
}

/* ---- ages ---- */

/* The first day litter can be spread: the later of the field's opening and the crew's coming. */
static ls_date first_day(const ls_agronomy_plot *p, const char **when) {
    const ls_crew *crew = p->g->farm->crew;
    ls_date opening = p->field->allowed.from,
            arrives = crew != NULL && LS_GIVEN(crew->arrives) ? crew->arrives.day : LS_NO_DATE;
    *when = arrives > opening ? "the crew comes" : "the field opens";
    return arrives > opening ? arrives : opening;
}

ls_date ls_agronomy_good_until(ls_date day, double age) {
    double years = age / ls_unit_of("years").factor, whole = floor(years + 0.5);
    return fabs(years - whole) > 1e-9 ? day + (ls_date)floor(age / ls_unit_of("day").factor + 0.5)
                                      : ls_date_years_on(day, (int)whole);
}

static bool is_old(const ls_agronomy_plot *p, const ls_day *day, ls_line age, const char **when) {
    ls_date first = first_day(p, when);
    return LS_GIVEN(*day) && day->day != LS_NO_DATE && first != LS_NO_DATE &&
           ls_agronomy_good_until(day->day, ls_line_value(p->g->w, age)) < first;
}

/* "3 years", "60 days". */
static const char *age_words(const ls_agronomy_plot *p, ls_line age) {
    ls_agronomy *g = p->g;
    double years = ls_line_shown(g->w, age), days = ls_line_value(g->w, age) / ls_unit_of("day").factor;
    bool whole = fabs(years - floor(years + 0.5)) < 1e-9;
    double n = whole ? years : days;
    return ls_printf(g->w, "%s %s%s", ls_number_text(g->arena, n, 3), whole ? "year" : "day", n > 1 ? "s" : "");
}

/* What the farm calls the litter; in the stack, its file. */
static const char *litter_of(const ls_agronomy *g, const ls_analysis *a) {
    return a->by == NULL ? a->slug : ls_arena_copy_n(g->arena, a->by, strcspn(a->by, ":"));
}

static void flag_ages(ls_agronomy_plot *p) {
    ls_agronomy *g = p->g;
    const ls_field *f = p->field;
    const ls_ages *ages = g->farm->ages;
    const char *when, *usual = ages != NULL && LS_GIVEN(ages->soil) ? "" : " (rules ask for 3 to 5 years)";
    if (f->soil == NULL)
        ls_agronomy_flag(p, "no soil test given");
    else if (is_old(p, &f->soil->date, g->soil_age, &when))
        ls_agronomy_flag(p, "the soil test of %s is more than %s old when %s%s",
                         ls_date_words(g->arena, f->soil->date.day, 0), age_words(p, g->soil_age), when, usual);
    for (size_t i = 0; i < g->litters_n; i++) {
        const ls_analysis *a = g->litters[i].analysis;
        if (a->report != NULL && is_old(p, &a->report->date, g->analysis_age, &when))
            ls_agronomy_flag(p, "the lab report of %s (%s) is more than %s old when %s", litter_of(g, a),
                             ls_date_words(g->arena, a->report->date.day, 0), age_words(p, g->analysis_age), when);
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

/* A table that counts so many pounds in any ton may count more than a poor litter holds. */
static void flag_more_than_held(ls_agronomy_plot *p, const ls_agronomy_spreading *spread) {
    ls_agronomy *g = p->g;
    for (size_t i = 0; spread->per_ton && i < g->litters_n; i++) {
        const ls_analysis *a = g->litters[i].analysis;
        if (ls_line_value(g->w, spread->per_ton) > ls_line_value(g->w, a->per_ton[LS_N]))
            ls_agronomy_flag(p,
                             "%s lb/ton of nitrogen count by the table %s, whatever a ton holds. The litter of "
                             "%s has %s lb/ton in all. Name a table that counts by the analysis",
                             ls_agronomy_number(g, spread->per_ton), g->nitrogen->name, litter_of(g, a),
                             ls_agronomy_number(g, a->per_ton[LS_N]));
    }
}

static void flag_availability(ls_agronomy_plot *p) {
    ls_agronomy *g = p->g;
    const ls_agronomy_spreading *spread = &g->spreadings[p->spreading];
    if (!LS_GIVEN(p->field->incorporated)) ls_agronomy_flag(p, "not said when the litter is worked in: taken as never");
    if (g->ammonium != NULL && p->field->weather.is == 0) ls_agronomy_flag(p, "no weather given: taken as average");
    for (size_t i = 0; i < spread->flags.n; i++) ls_agronomy_flag(p, "%s", spread->flags.at[i]);
    p->out->stand_in = spread->stand_in;
    flag_more_than_held(p, spread);
    LS_EACH_OF (ls_agronomy_litter, l, g->litters, g->litters_n)
        for (size_t i = 0; i < l->flags.n; i++) ls_agronomy_flag(p, "%s", l->flags.at[i]);
    if (p->field->earlier_litter.n > 0 && g->carryover->n > 0 && g->carryover->rows[0].status == LS_MEMORY)
        ls_agronomy_flag(p, "the carryover table %s is from memory", g->carryover->name);
}

static void flag_limits(ls_agronomy_plot *p) {
    ls_agronomy *g = p->g;
    const ls_field *f = p->field;
    const char *published = ls_unit_amount(g->arena, ls_agronomy_number(g, g->range_top), "ton/ac"),
               *source = ls_agronomy_source(g->cap->source, g->cap->status);
    if (!LS_GIVEN(f->most))
        ls_agronomy_flag(p, "no limit (most) given: %s is used, the top of the published range for litter (%s)",
                         published, source);
    else if (f->most.value > g->cap->value)
        ls_agronomy_flag(p,
                         "the plan's limit (most), %s, is used. It is above %s, the top of the "
                         "published range for litter (%s)",
                         ls_quantity_words(g->arena, &f->most), published, source);
    const ls_phosphorus *rated = f->phosphorus;
    if (rated == NULL || rated->rating.is == 0) return;
    if (rated->rating.is == LS_RATING_VERY_HIGH) ls_agronomy_flag(p, "phosphorus is rated very high: closed to litter");
    if (rated->rated_by.text == NULL) ls_agronomy_flag(p, "it is not said who rated the phosphorus");
    if (!LS_GIVEN(rated->date)) ls_agronomy_flag(p, "it is not said when the phosphorus was rated");
}

/* ---- nitrogen ---- */

/* Alabama lets a little more go on than is recommended; these rates do not use that. */
static void flag_tolerance(ls_agronomy_plot *p) {
    ls_agronomy *g = p->g;
    const ls_farm_facts *facts = g->farm->facts;
    const char *place = facts == NULL ? NULL : facts->place.text;
    bool governs = false;
    LS_EACH_OF (const ls_rate, rate, p->out->rates, p->out->n) governs = governs || rate->limit == LS_LIMIT_NITROGEN;
    if (!governs || place == NULL || strstr(place, "Alabama") == NULL) return;
    const ls_figure *f = ls_line_at(g->w, g->tolerance)->origin.figure;
    ls_agronomy_flag(p,
                     "Alabama allows up to %s%% of the recommended nitrogen (%s). These rates stay "
                     "at the recommended figure",
                     ls_agronomy_number(g, g->tolerance), ls_agronomy_source(f->source, f->status));
}

/* ---- the tables that figures rest on ---- */

static void add(ls_arena *a, ls_line_list *list, const ls_line *lines, size_t n) {
    for (size_t i = 0; i < n; i++)
        if (lines[i]) *LS_PUSH(a, list) = lines[i];
}

static void add_rate(ls_arena *a, ls_line_list *list, const ls_rate *r) {
    const ls_line lines[] = {r->rate, r->available_N, r->on[LS_FIELD_K2O], r->value_per_ton, r->covered};
    add(a, list, lines, sizeof lines / sizeof *lines);
    add(a, list, r->counts, LS_FIELD_NUTRIENTS);
    add(a, list, r->short_of, LS_FIELD_NUTRIENTS);
    for (int m = 0; m < LS_METALS; m++) add(a, list, (const ls_line[]){r->metals[m].on, r->metals[m].most}, 2);
    for (size_t i = 0; i < r->bought_n; i++) add(a, list, &r->bought[i].per_acre, 1);
}

/* What is said of the field. */
static ls_line_list said_of(ls_arena *a, const ls_field_rates *f) {
    ls_line_list list = {0};
    const ls_line days[] = {f->earliest.grazing.line, f->earliest.harvest.line};
    const ls_line lines[] = {f->removal_P2O5, f->soil_P, f->soil_K, f->banked, f->phosphate_left};
    add(a, &list, f->need, LS_FIELD_NUTRIENTS);
    add(a, &list, f->credits, LS_FIELD_NUTRIENTS);
    add(a, &list, lines, sizeof lines / sizeof *lines);
    add(a, &list, days, sizeof days / sizeof *days);
    for (size_t i = 0; i < f->n; i++) add_rate(a, &list, &f->rates[i]);
    return list;
}

/* The lines that these are made of, and they. */
static const bool *used_lines(ls_arena *a, const ls_worksheet *w, const ls_line_list *list) {
    bool *used = LS_NEW(a, bool, ls_worksheet_lines(w));
    for (size_t i = 0; i < list->n; i++) used[list->at[i]] = true;
    for (size_t i = ls_worksheet_lines(w); i-- > 0;) {
        const ls_entry *e = used[i] ? ls_line_at(w, (ls_line)i) : NULL;
        for (size_t k = 0; e != NULL && k < e->n; k++) used[e->in[k]] = true;
    }
    return used;
}

static void flag_tables(ls_agronomy_plot *p) {
    static const char said[] = "removal|nitrogen|ammonium|carryover"; /* by flags of their own */
    ls_arena *a = ls_arena_new();
    const ls_worksheet *w = p->g->w;
    ls_line_list list = said_of(a, p->out);
    const char *memory = ls_lines_from_memory(a, w, &list, said);
    const char *own = p->g->farm->own_tables.n == 0 ? NULL : ls_lines_of_own_rows(a, w, 0, used_lines(a, w, &list));
    if (memory != NULL) ls_agronomy_flag(p, "unverified figures: %s", memory);
    if (own != NULL) ls_agronomy_flag(p, "rows of the farm's own tables in use: %s", own);
    ls_arena_free(a);
}

void ls_agronomy_flags(ls_agronomy_plot *p) {
    flag_limits(p);
    flag_ages(p);
    flag_defaults(p);
    flag_availability(p);
    flag_tolerance(p);
    ls_agronomy_flag_dates(p);
    flag_tables(p);
}
