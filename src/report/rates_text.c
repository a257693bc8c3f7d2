#include "rates.h"
#include "rates_limits.h"

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
                  "No laboratory report: the limits count %s. The chance that this rate "
                  "goes over the limit all the same is %s.",
                  middle ? "on the middle of what such litter holds, as the field's plan asks"
                         : "on rich litter (richer in 1 case out of 10 only)",
                  chance < least ? "below 0.1 %" : ls_report_amount(p, chance, "%"));
}

/* What of a ton counts: "organic N 30 lb/ton x 60 % + ammonium N 8 lb/ton x 20 %"; "" if the page
 * cannot say it so. */
static const char *what_counts(const ls_report_page *p, const ls_rate *rate) {
    static const char *const parts[] = {"organic N", "ammonium N"};
    const ls_worksheet *w = p->view->sheet;
    ls_line pan = rate->pan;
    const ls_entry *e = ls_line_at(w, pan), *on = ls_line_at(w, rate->available_N);
    if (e->origin.kind == LS_BY_SIMULATION)
        return ls_arena_printf(p->arena, "by the draws; usual litter %s",
                               ls_report_line(p, on->in[1], "lb/ton"));
    if (e->op == LS_OP_PRODUCT && !p->view->metric)
        return ls_line_numbers(p->arena, w, pan);
    ls_text *t = ls_text_new(p->arena);
    for (size_t i = 0; e->op == LS_OP_SUM && !p->view->metric && i < e->n && i < 2; i++)
        ls_text_addf(t, "%s%s %s", i > 0 ? " + " : "", parts[i],
                     ls_line_numbers(p->arena, w, e->in[i]));
    return t->s;
}

/* The division behind a limit; of a ton holds so much, by how. */
static void divided(ls_report_page *p, ls_line limit, const char *what, const char *by) {
    const ls_entry *e = ls_line_at(p->view->sheet, limit);
    if (e == NULL || e->op != LS_OP_QUOTIENT)
        return;
    ls_report_item(p, 4, "%s %s / %s%s%s%s", what, ls_report_line(p, e->in[0], "lb/ac"),
                   ls_report_line(p, e->in[1], "lb/ton"), by[0] == '\0' ? "" : " (", by,
                   by[0] == '\0' ? "" : ")");
}

/* What a ton is worth here, each nutrient with what it was counted by or what is missing. */
static void worth(ls_report_page *p, const ls_rate *rate) {
    if (rate->value_per_ton == LS_NO_LINE)
        ls_report_say(p, 2, "Worth of a ton on this field: not known.");
    else
        ls_report_say(p, 2, "Worth of a ton on this field, as fertilizer the crop will use: %s.",
                      ls_report_line(p, rate->value_per_ton, "$/ton"));
    static const int nutrients_of[LS_FIELD_NUTRIENTS] = {LS_N, LS_P2O5, LS_K2O};
    for (int i = 0; i < LS_FIELD_NUTRIENTS; i++)
        ls_report_item(p, 4, "%s: %s%s%s", ls_report_nutrient(nutrients_of[i]),
                       rate->worth[i] == LS_NO_LINE ? ""
                                                    : ls_report_line(p, rate->worth[i], "$/ton"),
                       rate->worth[i] == LS_NO_LINE ? "" : "; ", rate->worth_why[i]);
    if (rate->price_per_lb != LS_NO_LINE)
        ls_report_say(p, 2,
                      "At the price paid, delivered and spread, plant-available nitrogen costs %s "
                      "if it bears all of it.",
                      ls_report_line(p, rate->price_per_lb, "$/lb"));
}

static void balance(ls_report_page *p, const ls_field_rates *field, const ls_rate *rate) {
    ls_report_nutrient_heads(p, "At this rate, ");
    ls_report_nutrients(p, "Goes on", rate->on, "-");
    ls_report_nutrients(p, "What of it counts this year", rate->counts, "-");
    ls_report_nutrients(p, "Short of what is left to give", rate->short_of, "-");
    ls_report_nutrients(p, "More than that", rate->over, "-");
    if (rate->years_of_removal != LS_NO_LINE && field->removal_P2O5 != LS_NO_LINE)
        ls_report_say(
            p, 2,
            "The harvest removes %s of P2O5 a year: this rate brings as much as %s harvests take.",
            ls_report_line(p, field->removal_P2O5, "lb/ac"),
            ls_report_line_number(p, rate->years_of_removal, ""));
    ls_report_again(p, field, rate);
    if (rate->chance_over != LS_NO_LINE)
        without_report(p, field, rate);
    ls_report_uncounted(p, field, rate);
    worth(p, rate);
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
    limits(p, field, rate);
    divided(p, rate->nitrogen, "nitrogen: left to give over what counts in a ton,",
            what_counts(p, rate));
    divided(p, rate->phosphorus, "phosphorus: P2O5 allowed over P2O5 in a ton,", "");
    ls_report_say(p, 2, "RATE: %s", ls_report_line(p, rate->rate, "ton/ac"));
    if (rate->why != NULL)
        ls_report_say(p, 2, "Why: %s", rate->why);
    ls_report_outside(p, field, rate);
    if (ls_line_value(p->view->sheet, rate->rate) > 0)
        balance(p, field, rate);
    else
        ls_report_again(p, field, rate);
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

/* False: a mistake is noted in the farm's diagnostics. */
static bool add_field(ls_report_page *p, ls_agronomy *g, const ls_buyer *b, const ls_field *f) {
    size_t before = ls_worksheet_lines(p->view->sheet);
    const ls_field_rates *field = ls_agronomy_field(g, b, f);
    p->arena = ls_arena_new();
    if (field != NULL)
        one_field(p, field);
    ls_arena_free(p->arena);
    p->arena = p->view->arena;
    ls_worksheet_cut(p->view->sheet, before);
    return field != NULL;
}

const char *ls_report_rates_text(const ls_view *v, const ls_estimate *e, ls_agronomy *g) {
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
    bool sound = true;
    for (size_t b = 0; b < e->farm->buyers.n; b++)
        for (size_t f = 0; f < e->farm->buyers.at[b].fields.n; f++)
            sound &= add_field(p, g, &e->farm->buyers.at[b], &e->farm->buyers.at[b].fields.at[f]);
    return sound ? ls_report_end(p) : NULL;
}
