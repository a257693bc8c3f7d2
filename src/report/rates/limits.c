#include "limits.h"

/* "2026-02-16 to 2026-04-15". */
static const char *days(const ls_report_page *p, ls_window w) {
    return w.from == w.to ? ls_date_iso(p->arena, w.from)
                          : ls_arena_printf(p->arena, "%s to %s", ls_date_iso(p->arena, w.from),
                                            ls_date_iso(p->arena, w.to));
}

/* ---- setbacks ---- */

static const char *shape(const ls_report_page *p, const ls_setback *s) {
    ls_text *t = ls_text_new(p->arena);
    if (LS_GIVEN(s->radius))
        ls_text_addf(t, "%s round", ls_report_amount(p, s->radius.value, "ft"));
    else
        ls_text_addf(t, "%s along %s", ls_report_amount(p, s->width.value, "ft"),
                     ls_report_amount(p, s->edge.value, "ft"));
    if (LS_GIVEN(s->share))
        ls_text_addf(t, ", %s of it in the field", ls_report_amount(p, s->share.value, "%"));
    if (LS_GIVEN(s->overlap))
        ls_text_addf(t, ", %s of it kept back already",
                     ls_report_amount(p, s->overlap.value, "ac"));
    return t->s;
}

void ls_report_setbacks(ls_report_page *p, const ls_field_rates *field) {
    for (size_t i = 0; i < field->setbacks_n; i++) {
        const ls_setback *s = field->setbacks[i].setback;
        ls_report_item(p, 4, "kept back: %s, %s: %s%s%s",
                       s->from.text == NULL ? "a strip" : ls_report_name(p, s->from.text, 40),
                       shape(p, s), ls_report_line(p, field->setbacks[i].acres, "ac"),
                       s->rule.text == NULL ? "" : ", by the rule of ",
                       s->rule.text == NULL ? "" : ls_report_name(p, s->rule.text, 60));
    }
}

/* ---- dates ---- */

/* What is said of one interval. */
static void interval(const ls_report_page *p, ls_text *t, const ls_interval *i, const char *what) {
    if (i->line == LS_NO_LINE)
        return;
    const char *length =
                   ls_report_whole(p, ls_line_value(p->view->sheet, i->line), ls_unit_of("days")),
               *whose = i->given ? "by the farm file"
                                 : ls_arena_printf(p->arena, "a published caution, %s", i->source);
    ls_text_addf(t, "%s%s not ", t->n > 0 ? "; " : "", what);
    if (i->day == LS_NO_DATE)
        ls_text_addf(t, "sooner than %s after it (%s)", length, whose);
    else
        ls_text_addf(t, "before %s (%s, %s)", ls_date_iso(p->arena, i->day), length, whose);
}

/* A caution that asks for more than the plan's limit. */
static void beyond(const ls_report_page *p, ls_text *t, const ls_interval *limit,
                   const ls_interval *caution, const char *what) {
    if (limit->given && caution->longer)
        interval(p, t, caution, what);
}

static void earliest(ls_report_page *p, const ls_field_rates *field) {
    const ls_earliest *e = &field->earliest;
    ls_text *t = ls_text_new(p->arena);
    interval(p, t, &e->grazing, "animals");
    beyond(p, t, &e->grazing, &e->cattle, "cattle");
    interval(p, t, &e->harvest, "harvest");
    beyond(p, t, &e->harvest, &e->organic_off_soil, "organic food off the soil");
    beyond(p, t, &e->harvest, &e->organic_on_soil, "organic food that touches soil");
    if (t->n == 0)
        return;
    const char *when = field->last_day == LS_NO_DATE
                           ? "litter"
                           : ls_arena_printf(p->arena, "litter on the last day, %s",
                                             ls_date_iso(p->arena, field->last_day));
    ls_report_say(p, 2, "After %s: %s.", when, t->s);
}

/* The dates that the plan's own days take from the window. */
static const char *narrowed(const ls_report_page *p, const ls_field *f) {
    const struct {
        const ls_count *days;
        const ls_day *day;
        const char *least, *what;
    } limits[] = {{&f->days_before_planting, &f->planting, "most", "planting"},
                  {&f->days_before_harvest, &f->harvest, "least", "harvest"},
                  {&f->days_before_grazing, &f->grazing, "least", "grazing"}};
    ls_text *t = ls_text_new(p->arena);
    for (size_t i = 0; i < sizeof limits / sizeof *limits; i++) {
        if (!LS_GIVEN(*limits[i].days) || !LS_GIVEN(*limits[i].day))
            continue;
        const char *day = ls_date_iso(p->arena, limits[i].day->day);
        ls_text_add(t, t->n > 0 ? ", " : "");
        ls_text_addf(t, "at %s %ld days before %s on %s", limits[i].least, limits[i].days->n,
                     limits[i].what, day);
    }
    return t->s;
}

void ls_report_dates(ls_report_page *p, const ls_field_rates *field) {
    const ls_field *f = field->field;
    const char *limits = narrowed(p, f);
    if (f->allowed.from == LS_NO_DATE)
        ls_report_say(p, 2, "May be spread on any day: the file names none.");
    else if (limits[0] == '\0')
        ls_report_say(p, 2, "May be spread %s.", days(p, f->allowed));
    else if (LS_GIVEN(f->open))
        ls_report_say(p, 2, "May be spread %s: open %s; %s.", days(p, f->allowed),
                      days(p, f->open.days), limits);
    else if (ls_field_opens(f))
        ls_report_say(p, 2, "May be spread %s: %s.", days(p, f->allowed), limits);
    else
        ls_report_say(p, 2, "May be spread until %s: %s.", ls_date_iso(p->arena, f->allowed.to),
                      limits);
    earliest(p, field);
}

/* ---- caps of a season ---- */

void ls_report_caps(ls_report_page *p, const ls_field_rates *field) {
    for (size_t i = 0; i < field->caps_n; i++) {
        const ls_field_cap *c = &field->caps[i];
        const char *of = LS_GIVEN(c->cap->most)             ? "litter"
                         : LS_GIVEN(c->cap->total_nitrogen) ? "nitrogen, all of it counted"
                                                            : "plant-available nitrogen";
        ls_report_say(p, 2, "Cap from %s%s%s: at most %s of %s. %s", days(p, c->cap->between.days),
                      c->cap->rule.text == NULL ? "" : ", by the rule of ",
                      c->cap->rule.text == NULL ? "" : ls_report_name(p, c->cap->rule.text, 60),
                      ls_report_line(p, c->figure, LS_GIVEN(c->cap->most) ? "ton/ac" : "lb/ac"), of,
                      c->applies
                          ? "It applies: the field may be spread on some of these days."
                          : "It does not apply: the field is not spread on any of these days.");
    }
}

void ls_report_outside(ls_report_page *p, const ls_field_rates *field, const ls_rate *rate) {
    const ls_worksheet *w = p->view->sheet;
    if (rate->outside == LS_NO_LINE ||
        !(ls_line_value(w, rate->outside) > ls_line_value(w, rate->rate)))
        return;
    ls_text *t = ls_text_new(p->arena);
    for (size_t i = 0; i < field->outside.n; i++)
        ls_text_addf(t, "%s%s", i == 0 ? "" : " and ", days(p, field->outside.at[i]));
    ls_report_say(p, 2,
                  "The rate is kept within the cap of the season on every day. From %s no such cap "
                  "holds: without it the rate would be %s.",
                  t->s, ls_report_line(p, rate->outside, "ton/ac"));
}

/* ---- phosphorus ---- */

static const ls_report_column ledger_columns[] = {{"Phosphate (P2O5)", 26, true},
                                                  {"put on", 9, false},
                                                  {"taken off", 9, false},
                                                  {"left", 9, false}};
enum { LEDGER_COLUMNS = sizeof ledger_columns / sizeof *ledger_columns };

static void ledger(ls_report_page *p, const ls_field_rates *field) {
    if (field->ledger_n == 0)
        return;
    ls_report_heads(p, ledger_columns, LEDGER_COLUMNS);
    for (size_t i = 0; i < field->ledger_n; i++) {
        const ls_field_ledger *l = &field->ledger[i];
        const char *cells[LEDGER_COLUMNS] = {
            ls_arena_printf(p->arena, "  crop of %d, %s", l->year, ls_report_unit(p, "lb/ac")),
            ls_report_line_number(p, l->on, "lb/ac"), ls_report_line_number(p, l->removed, "lb/ac"),
            ls_report_line_number(p, l->balance, "lb/ac")};
        ls_report_row(p, ledger_columns, LEDGER_COLUMNS, cells);
    }
    if (field->phosphate == LS_NO_LINE)
        return;
    const ls_worksheet *w = p->view->sheet;
    bool waits = ls_line_value(w, field->phosphate_left) < ls_line_value(w, field->phosphate);
    ls_report_say(p, 2,
                  waits ? "The crops have yet to take up %s of P2O5: none goes on until they have "
                          "(then the rating lets %s go on)."
                        : "The crops have taken up what went on before%.0s: the rating lets %s of "
                          "P2O5 go on now.",
                  ls_report_line(p, field->banked, "lb/ac"),
                  ls_report_line(p, field->phosphate, "lb/ac"));
}

void ls_report_phosphorus(ls_report_page *p, const ls_field_rates *field) {
    const ls_phosphorus *rated = field->field->phosphorus;
    if (rated == NULL || rated->rating.is == 0) {
        ls_report_say(p, 2, "Phosphorus: not rated; held to one year's removal.");
    } else {
        const char *by = rated->rated_by.text == NULL
                             ? ", by whom is not said"
                             : ls_arena_printf(p->arena, " by %s",
                                               ls_report_name(p, rated->rated_by.text, 40)),
                   *bank =
                       LS_GIVEN(rated->bank)
                           ? ls_arena_printf(p->arena, "; the removal of %s, %s, may go on at once",
                                             ls_report_amount(p, rated->bank.value, "years"),
                                             ls_report_line(p, field->phosphate, "lb/ac"))
                           : "";
        ls_report_say(p, 2, "Phosphorus: rated %s%s%s%s%s.", ls_rating_name(rated->rating.is), by,
                      LS_GIVEN(rated->date) ? ", " : "",
                      LS_GIVEN(rated->date) ? ls_date_iso(p->arena, rated->date.day) : "", bank);
    }
    ledger(p, field);
}

/* "as much goes on as 2.8 harvests take"; "" if nothing does, or what a harvest takes is unknown.
 */
static const char *harvests(const ls_report_page *p, const ls_rate *rate) {
    if (rate->years_of_removal == LS_NO_LINE || !(ls_line_value(p->view->sheet, rate->rate) > 0))
        return "";
    const char *n = ls_report_line_number(p, rate->years_of_removal, "");
    bool one = ls_text_same(n, "1");
    return ls_arena_printf(p->arena, "as much goes on as %s harvest%s take%s", n, one ? "" : "s",
                           one ? "s" : "");
}

/* "it lasts for 3 crops, this year's the first; it may go on again for the crop of 2029"; "" if it
 * is not known. */
static const char *lasts(const ls_report_page *p, const ls_rate *rate) {
    const ls_worksheet *w = p->view->sheet;
    if (rate->covered == LS_NO_LINE || !(ls_line_value(w, rate->covered) > 0))
        return "";
    bool now = ls_line_value(w, rate->rate) > 0, one = ls_line_value(w, rate->covered) < 1.5;
    const char *again =
        rate->again == 0
            ? "none goes on before that is over"
            : ls_arena_printf(p->arena, "it may go on again for the crop of %d", rate->again);
    return ls_arena_printf(p->arena, "%s lasts for %s crop%s, this year's the first; %s",
                           now ? "it" : "what the field has without litter",
                           ls_report_line_number(p, rate->covered, ""), one ? "" : "s", again);
}

void ls_report_again(ls_report_page *p, const ls_rate *rate) {
    const char *much = harvests(p, rate), *how_long = lasts(p, rate);
    if (much[0] != '\0' || how_long[0] != '\0')
        ls_report_say(p, 2, "Phosphorus: %s%s%s.", much,
                      much[0] != '\0' && how_long[0] != '\0' ? "; " : "", how_long);
}

/* ---- what no limit counts ---- */

/* Where a figure comes from, in a word or two. */
static const char *source_of(const ls_report_page *p, ls_line line) {
    const ls_origin *origin = &ls_line_at(p->view->sheet, line)->origin;
    const ls_figure *f = origin->figure;
    return origin->kind == LS_BY_FARM ? "the farm file"
           : f == NULL                ? "worked out"
           : f->source == NULL        ? ls_status_words(f->status)
                                      : f->source->id;
}

static void metals(ls_report_page *p, const ls_rate *rate) {
    const ls_metal_rate *cu = &rate->metals[LS_COPPER], *zn = &rate->metals[LS_ZINC];
    if (cu->times == LS_NO_LINE || zn->times == LS_NO_LINE)
        return;
    const char *whose = cu->reported && zn->reported ? "by the laboratory"
                        : cu->reported || zn->reported
                            ? "one by the laboratory, one as published for broiler litter"
                            : "as published for broiler litter";
    ls_report_say(p, 2, "Copper %s, zinc %s (%s): %s and %s such spreadings to the most in all.",
                  ls_report_line(p, cu->on, "lb/ac"), ls_report_line(p, zn->on, "lb/ac"), whose,
                  ls_report_line_number(p, cu->times, ""), ls_report_line_number(p, zn->times, ""));
}

void ls_report_uncounted(ls_report_page *p, const ls_field_rates *field, const ls_rate *rate) {
    ls_line over = rate->over[LS_FIELD_K2O], need = field->need[LS_FIELD_K2O];
    if (over != LS_NO_LINE && ls_line_value(p->view->sheet, over) > 0)
        ls_report_say(p, 2, "Potash (K2O): %s over the need (%s): a caution, not a limit.",
                      ls_report_line(p, over, "lb/ac"), source_of(p, need));
    metals(p, rate);
}

void ls_report_metals_most(ls_report_page *p, const ls_agronomy *g) {
    const ls_worksheet *w = p->view->sheet;
    ls_line cu = ls_agronomy_metal_most(g, LS_COPPER), zn = ls_agronomy_metal_most(g, LS_ZINC);
    ls_report_item(p, 2,
                   "Copper and zinc: the most in all, over the years, is %s and %s in South "
                   "Carolina (%s); a caution here, not a limit",
                   ls_report_whole(p, ls_line_value(w, cu), ls_unit_of("lb/ac")),
                   ls_report_whole(p, ls_line_value(w, zn), ls_unit_of("lb/ac")), source_of(p, cu));
}
