#include "rates.h"
#include "limits.h"

static void acres(ls_report_page *p, const ls_field_rates *field) {
    ls_report_say(p, 2, "%s to spread, of %s.", ls_report_line(p, field->spreadable, "ac"),
                  ls_report_line(p, field->area, "ac"));
    ls_report_setbacks(p, field);
}

/* ---- the rate of one kind of litter ---- */

static const ls_report_column limit_columns[] = {{"", 30, true}, {"", 9, false}, {"", 33, true}};
enum { LIMIT_COLUMNS = sizeof limit_columns / sizeof *limit_columns };

static void limit(ls_report_page *p, const ls_rate *rate, ls_limit which, ls_line line,
                  const char *words) {
    const char *cells[LIMIT_COLUMNS] = {ls_arena_printf(p->arena, "  %s", words)};
    if (line == LS_NO_LINE)
        return;
    cells[1] = ls_report_line_number(p, line, "ton/ac");
    cells[2] = rate->limit == which ? "<- the least: this one rules" : NULL;
    ls_report_row(p, limit_columns, LIMIT_COLUMNS, cells);
}

static void limits(ls_report_page *p, const ls_field_rates *field, const ls_rate *rate) {
    ls_report_row(p, limit_columns, LIMIT_COLUMNS,
                  (const char *[]){"At most, by", ls_report_unit(p, "ton/ac"), NULL});
    limit(p, rate, LS_LIMIT_NITROGEN, rate->nitrogen, "nitrogen");
    limit(p, rate, LS_LIMIT_PHOSPHORUS, rate->phosphorus, "phosphorus");
    limit(p, rate, LS_LIMIT_CAP, rate->cap,
          LS_GIVEN(field->field->most) ? "the plan's cap" : "top of the range for litter");
    limit(p, rate, LS_LIMIT_SPREADER, rate->spreader, "what the spreader can do");
    limit(p, rate, LS_LIMIT_WINDOW, rate->window, "the cap of the season");
}

/* Lots that share an analysis have the same rate on a field. */
static bool leads(const ls_field_rates *field, size_t i) {
    for (size_t k = 0; k < i; k++)
        if (field->rates[k].lot->analysis == field->rates[i].lot->analysis)
            return false;
    return true;
}

static const char *lots_like(const ls_report_page *p, const ls_field_rates *field, size_t i) {
    ls_text *t = ls_text_new(p->arena);
    for (size_t k = i; k < field->n; k++) {
        const ls_lot *lot = field->rates[k].lot;
        if (lot->analysis != field->rates[i].lot->analysis)
            continue;
        ls_text_add(t, k > i ? ", " : "");
        ls_text_add(t, ls_report_name(p, lot->name, 40));
    }
    return t->s;
}

static void without_report(ls_report_page *p, const ls_field_rates *field, const ls_rate *rate) {
    const double least = 0.001; /* fewer draws than that say nothing */
    bool middle = field->field->without_lab.is == LS_EXPECTED;
    double chance = ls_line_value(p->view->sheet, rate->chance_over);
    ls_report_say(p, 2,
                  "No laboratory report: the limits count on %s. Chance that this rate goes over "
                  "a limit all the same: %s.",
                  middle ? "the middle of what such litter holds, as the plan asks"
                         : "rich litter (1 case in 10 is richer)",
                  chance < least ? "below 0.1 %" : ls_report_amount(p, chance, "%"));
}

/* Of litter that was drawn, what usual litter has, as on an acre at the rate (on); "" of other
 * litter. */
static const char *usual(const ls_report_page *p, ls_line per_ton, ls_line on) {
    const ls_worksheet *w = p->view->sheet;
    if (ls_line_at(w, per_ton)->origin.kind != LS_BY_SIMULATION)
        return "";
    return ls_arena_printf(p->arena, "by the draws; usual litter %s",
                           ls_report_line(p, ls_line_at(w, on)->in[1], "lb/ton"));
}

/* What of a ton counts: "organic N 30 lb/ton x 60 % + ammonium N 8 lb/ton x 20 %"; "" if the page
 * cannot say it so. */
static const char *what_counts(const ls_report_page *p, const ls_rate *rate) {
    static const char *const parts[] = {"organic N", "ammonium N"};
    const ls_worksheet *w = p->view->sheet;
    const ls_entry *e = ls_line_at(w, rate->pan);
    if (e->origin.kind == LS_BY_SIMULATION)
        return usual(p, rate->pan, rate->available_N);
    if (e->op == LS_OP_PRODUCT && !p->view->metric)
        return ls_line_numbers(p->arena, w, rate->pan);
    ls_text *t = ls_text_new(p->arena);
    for (size_t i = 0; e->op == LS_OP_SUM && !p->view->metric && i < e->n && i < 2; i++)
        ls_text_addf(t, "%s%s %s", i > 0 ? " + " : "", parts[i],
                     ls_line_numbers(p->arena, w, e->in[i]));
    return t->s;
}

/* The division behind a limit; of a ton holds so much, by how. */
static void divided(ls_report_page *p, ls_line limit, const char *what, const char *by) {
    const ls_entry *e = ls_line_at(p->view->sheet, limit);
    ls_report_item(p, 4, "%s, %s / %s%s%s%s", what, ls_report_line(p, e->in[0], "lb/ac"),
                   ls_report_line(p, e->in[1], "lb/ton"), by[0] == '\0' ? "" : " (", by,
                   by[0] == '\0' ? "" : ")");
}

static void divisions(ls_report_page *p, const ls_rate *rate) {
    if (rate->nitrogen != LS_NO_LINE)
        divided(p, rate->nitrogen, "nitrogen: left to give over what counts in a ton",
                what_counts(p, rate));
    if (rate->phosphorus != LS_NO_LINE)
        divided(
            p, rate->phosphorus, "phosphorus: P2O5 that may go on over P2O5 in a ton",
            usual(p, ls_line_at(p->view->sheet, rate->phosphorus)->in[1], rate->on[LS_FIELD_P2O5]));
}

/* The rate, and the spreader's step where that lowers it. */
static void the_rate(ls_report_page *p, const ls_field_rates *field, const ls_rate *rate) {
    const ls_worksheet *w = p->view->sheet;
    const ls_line limits[] = {rate->nitrogen, rate->phosphorus, rate->cap, rate->spreader,
                              rate->window};
    const double rounding = 1e-9;
    double value = ls_line_value(w, rate->rate);
    ls_line step = rate->step;
    bool lowered = rate->limit != LS_LIMIT_CLOSED && step != LS_NO_LINE && value > 0 &&
                   ls_line_value(w, limits[rate->limit]) > value * (1 + rounding);
    ls_report_say(p, 2, "RATE: %s%s%s", ls_report_line(p, rate->rate, "ton/ac"),
                  lowered ? ", the limit in whole steps of " : "",
                  lowered ? ls_report_line(p, step, "ton/ac") : "");
    if (field->stand_in != NULL && rate->limit != LS_LIMIT_CLOSED)
        ls_report_say(p, 2,
                      "Beside it: %s. Where litter is worked in sooner than that, more of its "
                      "nitrogen counts than here: the limit by nitrogen may then be too high; ask "
                      "the plan writer, or name a table that has it.",
                      field->stand_in);
}

static void balance(ls_report_page *p, const ls_field_rates *field, size_t i) {
    const ls_rate *rate = &field->rates[i];
    ls_report_nutrient_heads(p, "At this rate, ");
    ls_report_nutrients(p, "Goes on", rate->on, "-");
    ls_report_nutrients(p, "What of it counts this year", rate->counts, "-");
    ls_report_nutrients(p, "Short of what is left to give", rate->short_of, "-");
    ls_report_nutrients(p, "More than that", rate->over, "-");
    ls_report_again(p, rate);
    if (rate->chance_over != LS_NO_LINE)
        without_report(p, field, rate);
    ls_report_uncounted(p, field, rate);
    ls_report_worth(p, field, i);
}

/* What bounds the rate; of a field that is closed only why it is. */
static void bounds(ls_report_page *p, const ls_field_rates *field, const ls_rate *rate) {
    if (rate->limit == LS_LIMIT_CLOSED)
        return;
    limits(p, field, rate);
    divisions(p, rate);
}

static void one_rate(ls_report_page *p, const ls_field_rates *field, size_t i) {
    const ls_rate *rate = &field->rates[i], *earlier = ls_report_repeated(p, field, i);
    ls_report_blank(p);
    ls_report_say(p, 2, "Litter of %s, by the %s:", lots_like(p, field, i),
                  ls_report_analysis(p, rate->lot->analysis));
    if (earlier != NULL) {
        ls_report_as_for(p, rate, earlier);
        return;
    }
    bounds(p, field, rate);
    the_rate(p, field, rate);
    if (rate->why != NULL)
        ls_report_say(p, 2, "Why: %s", rate->why);
    ls_report_outside(p, field, rate);
    if (ls_line_value(p->view->sheet, rate->rate) > 0)
        balance(p, field, i);
    else if (rate->limit != LS_LIMIT_CLOSED)
        ls_report_again(p, rate);
    ls_report_buy(p, field, rate);
}

static void one_field(ls_report_page *p, const ls_field_rates *field) {
    ls_report_heading(p, "%s, %s", ls_report_name(p, field->buyer->name.text, 38),
                      ls_report_name(p, field->field->name.text, 38));
    acres(p, field);
    ls_report_dates(p, field);
    ls_report_caps(p, field);
    ls_report_phosphorus(p, field);
    ls_report_need(p, field);
    for (size_t i = 0; i < field->n; i++)
        if (leads(field, i))
            one_rate(p, field, i);
    for (size_t i = 0; i < field->flags.n; i++)
        ls_report_item(p, 2, "%s", field->flags.at[i]);
}

ls_report_page *ls_report_rates_text_begin(const ls_view *v, const ls_agronomy *g) {
    ls_report_page *p = ls_report_begin(v, "What each field may take, and why");
    ls_report_blank(p);
    ls_report_say(p, 0,
                  "The limits are those of the farm file: its plan, its ratings, its dates. This "
                  "page only does the "
                  "arithmetic and names which limit is the least.");
    const char *const *notes;
    size_t noted = ls_agronomy_notes(g, &notes);
    for (size_t i = 0; i < noted; i++)
        ls_report_item(p, 2, "%s", notes[i]);
    ls_report_metals_most(p, g);
    return p;
}

void ls_report_rates_text_field(ls_report_page *p, const ls_field_rates *field) {
    p->arena = ls_arena_new();
    one_field(p, field);
    ls_arena_free(p->arena);
    p->arena = p->view->arena;
}
