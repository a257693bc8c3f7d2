/* The rate of one kind of litter on a field: limits and what goes on. */
#include "rates.h"
#include "report/figure.h"

#include <math.h>

/* ---- worth ---- */

static const ls_doc_column worth_columns[] = {HEAD("worth of its"), IN("per_ton", NULL, "$/ton"),
                                              WORDS("why", "counted by")},
                           same_columns[] = {HEAD("worth of its"), IN("per_ton", NULL, "$/ton"), DATA("why")};

/* The page has said by what the nutrients are counted, for a lot before this one. */
static bool is_said(const ls_field_rates *field, size_t i) {
    for (size_t k = 0; k < i; k++) {
        bool same = true;
        for (int n = 0; n < LS_FIELD_NUTRIENTS; n++)
            same = same && ls_text_same(field->rates[k].worth_why[n], field->rates[i].worth_why[n]);
        if (same) return true;
    }
    return false;
}

static void put_worth(ls_doc_group *g, ls_doc_level level, const ls_field_rates *field, size_t i) {
    const ls_rate *rate = &field->rates[i];
    const ls_doc_column *columns = is_said(field, i) ? same_columns : worth_columns;
    ls_doc_table t = ls_doc_table_in(g, level, "value_of", NULL, columns, sizeof worth_columns / sizeof *worth_columns);
    for (int k = 0; k < LS_FIELD_NUTRIENTS; k++)
        ls_doc_row_in(t, columns, level, ls_field_nutrient[k],
                      (ls_doc_cell[]){W(ls_field_nutrient[k]), L(rate->worth[k]), W(rate->worth_why[k])});
    ls_doc_fact(g, level, "value_per_ton", "Worth as fertilizer the crop will use",
                rate->value_per_ton ? F(rate->value_per_ton, "$/ton") : V(NAN, "$/ton"));
    ls_doc_fact(g, rate->price_per_lb ? level : LS_DATA, "price_per_lb_N", "Cost of usable N",
                F(rate->price_per_lb, "$/lb"));
}

LS_DOC_COLUMNS(product_columns, WORDS("product", "fertilizer to buy"), IN("lb_ac", NULL, "lb/ac"),
               IN("lb_field", "on the field", "lb"));

/* Less of a product, lb/ac, is what rounding leaves; than the second: nothing. */
static const double worth_telling = 0.05, not_nothing = 1e-6;

static void put_buy(ls_doc_group *rate_group, ls_doc_level level, const ls_field_rates *field, const ls_rate *rate) {
    const ls_view *v = rate_group->document->view;
    bool any = false;
    ls_doc_group *g = ls_doc_object(rate_group, level, "supplement", NULL);
    for (int i = 0; i < LS_FIELD_NUTRIENTS; i++) ls_doc_data(g, ls_field_nutrient[i], F(rate->short_of[i], "lb/ac"));
    ls_doc_table t = LS_DOC_TABLE_IN(g, level, "products", NULL, product_columns);
    LS_EACH_OF (const ls_bought, b, rate->bought, rate->bought_n) {
        double amount = ls_line_value(v->sheet, b->per_acre) / ls_unit_of("lb/ac").factor;
        bool tell = amount >= worth_telling && b->priced;
        if (!(amount > not_nothing)) continue;
        LS_DOC_GRID_ROW(t, product_columns, tell ? level : LS_DATA, NULL, W(b->product), L(b->per_acre),
                        L(b->on_field));
        any = any || tell;
    }
    if (level == LS_DATA) return;
    if (!any) SAY(g, level, "Fertilizer to buy: none listed.");
    ls_line lacks = rate->short_of[LS_FIELD_P2O5];
    if (field->phosphate && ls_line_value(v->sheet, lacks) > 0)
        SAY(g, LS_FULL,
            "The phosphorus rating binds bought phosphate too: ask who rated the field before "
            "buying any.");
}

/* ---- rates that repeat an earlier one of the field ---- */

static bool same(const ls_worksheet *w, ls_line a, ls_line b, double within) {
    if (!a || !b) return a == b;
    double x = ls_line_value(w, a), y = ls_line_value(w, b);
    return fabs(x - y) <= within * fabs(x);
}

/* All that the page says of one rate holds for another, figures within a share of each other. */
static bool says_the_same(const ls_worksheet *w, const ls_rate *a, const ls_rate *b, double within) {
    bool alike = a->limit == b->limit && ls_text_same(a->why, b->why) && same(w, a->rate, b->rate, within) &&
                 same(w, a->pan, b->pan, within) && same(w, a->nitrogen, b->nitrogen, within) &&
                 same(w, a->phosphorus, b->phosphorus, within) && same(w, a->cap, b->cap, 0) &&
                 same(w, a->window, b->window, within);
    for (int k = 0; k < LS_FIELD_NUTRIENTS; k++)
        alike = alike && same(w, a->on[k], b->on[k], within) && same(w, a->counts[k], b->counts[k], within);
    return alike;
}

/* An earlier rate of the field that the i-th repeats: by figures that are the same, or, where no
 * laboratory reported either, by draws that differ by no more than their scatter. NULL: none. */
static const ls_rate *repeated(const ls_worksheet *w, const ls_field_rates *field, size_t i) {
    const double scatter = 0.02;
    const ls_rate *rate = &field->rates[i];
    LS_EACH_OF (const ls_rate, earlier, field->rates, i) {
        if (rate->limit == LS_LIMIT_CLOSED) /* closed to all litter, and the page says no more */
            return earlier;
        bool drawn = rate->chance_over && earlier->chance_over;
        if ((drawn || rate->chance_over == earlier->chance_over) &&
            says_the_same(w, earlier, rate, drawn ? scatter : 0))
            return earlier;
    }
    return NULL;
}

bool ls_rates_leads(const ls_field_rates *field, size_t i) {
    for (size_t k = 0; k < i; k++)
        if (field->rates[k].lot->analysis == field->rates[i].lot->analysis) return false;
    return true;
}

const char *ls_rates_lots(ls_arena *a, const ls_field_rates *field, size_t i) {
    ls_text *t = ls_text_new(a);
    for (size_t k = i; k < field->n; k++)
        if (field->rates[k].lot->analysis == field->rates[i].lot->analysis)
            ls_text_addf(t, "%s%s", k > i ? ", " : "", field->rates[k].lot->name);
    return t->s;
}

static const ls_worksheet *sheet_of(const ls_doc_group *g) { return g->document->view->sheet; }

/* ---- limits ---- */

const char *ls_rates_set_by(const ls_field_rates *field, ls_limit limit) {
    switch (limit) {
    case LS_LIMIT_NITROGEN: return "nitrogen";
    case LS_LIMIT_PHOSPHORUS:
        return field->field->phosphorus != NULL && field->field->phosphorus->rating.is != 0 ? "phosphorus"
                                                                                            : "phosphorus, not rated";
    case LS_LIMIT_CAP: return LS_GIVEN(field->field->most) ? "plan limit" : "published limit";
    case LS_LIMIT_SPREADER: return "spreader";
    case LS_LIMIT_WINDOW: return "season limit";
    case LS_LIMIT_CLOSED: break;
    }
    return "closed";
}

static ls_line limit_of(const ls_rate *rate, ls_limit limit) {
    const ls_line lines[] = {rate->nitrogen, rate->phosphorus, rate->cap, rate->spreader, rate->window};
    return limit == LS_LIMIT_CLOSED ? LS_NO_LINE : lines[limit];
}

static void limits(ls_doc_group *rate_group, ls_doc_level level, const ls_field_rates *field, const ls_rate *rate) {
    ls_doc_group *g = ls_doc_object(rate_group, level, "limits", "Limit from");
    for (ls_limit i = LS_LIMIT_NITROGEN; i < LS_LIMIT_CLOSED; i++)
        ls_doc_fact(g, limit_of(rate, i) == LS_NO_LINE ? LS_DATA : level, ls_limit_name(i),
                    ls_arena_printf(g->document->arena, "%s%s", ls_rates_set_by(field, i),
                                    i == rate->limit ? " (lowest: sets the rate)" : ""),
                    F(limit_of(rate, i), "ton/ac"));
}

/* Of litter that was drawn, what typical litter has, as on an acre at the rate (on). */
static ls_line typical(const ls_worksheet *w, ls_line per_ton, ls_line on) {
    return ls_line_at(w, per_ton)->origin.kind == LS_BY_SIMULATION ? ls_line_at(w, on)->in[1] : LS_NO_LINE;
}

/* What of a ton counts: "organic N 30 lb/ton x 60 % + ammonium N 8 lb/ton x 20 %"; "" if the page cannot say it so. */
static const char *what_counts(const ls_doc_group *g, const ls_rate *rate) {
    static const char *const parts[] = {"organic N", "ammonium N"};
    const ls_worksheet *w = sheet_of(g);
    const ls_entry *e = ls_line_at(w, rate->pan);
    ls_text *t = ls_text_new(g->document->arena);
    if (g->document->view->metric) return "";
    if (e->op == LS_OP_PRODUCT) return ls_line_numbers(g->document->arena, w, rate->pan);
    for (size_t i = 0; e->op == LS_OP_SUM && i < e->n && i < 2; i++)
        ls_text_addf(t, "%s%s %s", i > 0 ? " + " : "", parts[i], ls_line_numbers(g->document->arena, w, e->in[i]));
    return t->s;
}

/* The division behind a limit; of a ton holds so much, by how. */
static void divided(ls_doc_group *g, ls_line limit, const char *what, const char *how, ls_line usual) {
    const ls_entry *e = ls_line_at(sheet_of(g), limit);
    ls_doc_cell by = usual            ? T(" (rich litter; typical {})", F(usual, "lb/ton"))
                     : how[0] != '\0' ? T(" ({})", W(how))
                                      : W("");
    ITEM(g, LS_FULL, "{}, {} / {}{}", W(what), F(e->in[0], "lb/ac"), F(e->in[1], "lb/ton"), by);
}

static void divisions(ls_doc_group *g, const ls_rate *rate) {
    const ls_worksheet *w = sheet_of(g);
    if (rate->nitrogen)
        divided(g, rate->nitrogen, "nitrogen: need after credits over usable N", what_counts(g, rate),
                typical(w, rate->pan, rate->available_N));
    if (rate->phosphorus)
        divided(g, rate->phosphorus, "phosphorus: P2O5 allowed over P2O5 of the litter", "",
                typical(w, ls_line_at(w, rate->phosphorus)->in[1], rate->on[LS_FIELD_P2O5]));
}

/* ---- the rate ---- */

/* The spreader's step, where that lowers the rate. */
static void step(ls_doc_group *g, const ls_rate *rate) {
    const double rounding = 1e-9;
    const ls_worksheet *w = sheet_of(g);
    double value = ls_line_value(w, rate->rate);
    if (rate->step && value > 0 && ls_line_value(w, limit_of(rate, rate->limit)) > value * (1 + rounding))
        SAY(g, LS_FULL, "The rate is the lowest limit in whole steps of {}.", F(rate->step, "ton/ac"));
}

/* What may go on outside the caps of a season. */
static void outside(ls_doc_group *g, const ls_field_rates *field, const ls_rate *rate) {
    const ls_worksheet *w = sheet_of(g);
    if (!(ls_line_value(w, rate->outside) > ls_line_value(w, rate->rate))) return;
    ls_text *t = ls_text_new(g->document->arena);
    for (size_t i = 0; i < field->outside.n; i++)
        ls_text_addf(t, "%s%s", i == 0 ? "" : " and ", ls_rates_days(g->document->view, field->outside.at[i]));
    SAY(g, LS_FULL,
        "The rate keeps the limit of the season on every day. From {} no such limit holds: without "
        "it the rate would be {}.",
        W(t->s), F(rate->outside, "ton/ac"));
}

static void why(ls_doc_group *g, const ls_field_rates *field, const ls_rate *rate) {
    if (rate->limit != LS_LIMIT_CLOSED) {
        step(g, rate);
        if (field->stand_in != NULL)
            SAY(g, LS_FULL,
                "Beside it: {}. Where litter is worked in sooner than that, more of its nitrogen "
                "counts than here: the limit by nitrogen may then be too high; ask the plan "
                "writer, or name a table that has it.",
                W(field->stand_in));
    }
    if (rate->why != NULL) SAY(g, LS_FULL, "Why: {}", W(rate->why));
    outside(g, field, rate);
}

/* ---- what it brings ---- */

/* Phosphorus for how many harvests, and when it may go on again. */
static void phosphorus(ls_doc_group *g, bool open, const ls_rate *rate) {
    const ls_worksheet *w = sheet_of(g);
    bool now = open && ls_line_value(w, rate->rate) > 0, lasts = open && ls_line_value(w, rate->covered) > 0;
    ls_doc_fact(g, now && rate->years_of_removal ? LS_FULL : LS_DATA, "years_of_P2O5_removal",
                "Harvests that take up the phosphorus applied", F(rate->years_of_removal, ""));
    ls_doc_fact(g, lasts ? LS_FULL : LS_DATA, "phosphorus_crop_years",
                now ? "Crops that it lasts for, this year's the first"
                    : "Crops that the field's phosphorus lasts for without litter",
                F(rate->covered, ""));
    ls_doc_data(g, "phosphorus_again", rate->again == 0 ? W(NULL) : N(rate->again));
    if (lasts)
        ls_doc_say(g, LS_FULL,
                   rate->again == 0 ? W("No phosphorus may be applied before that is over.")
                                    : T("Phosphorus may be applied again for the crop of {}.",
                                        W(ls_arena_printf(g->document->arena, "%d", rate->again))));
}

static void without_report(ls_doc_group *g, const ls_field_rates *field, const ls_rate *rate) {
    if (!rate->chance_over) return;
    bool middle = field->field->without_lab.is == LS_EXPECTED;
    SAY(g, LS_FULL, "No laboratory report: set for {}. Chance that this rate is over a limit all the same: {}.",
        W(middle ? "typical litter, as the plan asks" : "rich litter, to be safe (1 time in 10 it is richer)"),
        ls_line_value(sheet_of(g), rate->chance_over) < LS_RATES_LEAST_CHANCE ? W("below 0.1%")
                                                                              : F(rate->chance_over, "%"));
}

double ls_rates_spreadings(const ls_worksheet *w, const ls_rate *rate) {
    double least = INFINITY;
    for (ls_metal m = LS_COPPER; m < LS_METALS; m++)
        if (rate->metals[m].times) least = fmin(least, ls_line_value(w, rate->metals[m].times));
    return least;
}

static void metals(ls_doc_group *g, const ls_rate *rate) {
    const ls_metal_rate *cu = &rate->metals[LS_COPPER], *zn = &rate->metals[LS_ZINC];
    if (!cu->times || !zn->times) return;
    static const char *const by[] = {"as published for broiler litter",
                                     "one by the laboratory, one as published for broiler litter", "by the laboratory"};
    SAY(g, ls_rates_spreadings(sheet_of(g), rate) < LS_RATES_FEW ? LS_FULL : LS_DATA,
        "Copper {}, zinc {} ({}): {} and {} spreadings until the lifetime limit.", F(cu->on, "lb/ac"),
        F(zn->on, "lb/ac"), W(by[cu->reported + zn->reported]), F(cu->times, ""), F(zn->times, ""));
}

static void uncounted(ls_doc_group *g, const ls_field_rates *field, const ls_rate *rate) {
    ls_line over = rate->over[LS_FIELD_K2O];
    if (ls_line_value(sheet_of(g), over) > 0)
        SAY(g, LS_FULL, "Potash (K2O): {} over the need ({}): a caution, not a limit.", F(over, "lb/ac"),
            W(ls_rates_source(sheet_of(g), field->need[LS_FIELD_K2O])));
    metals(g, rate);
}

/* What goes on at the rate, against the need. */
static void balance(ls_doc_group *g, ls_doc_level level, const ls_rate *rate) {
    ls_doc_table t = ls_rates_nutrients(g, level, "At this rate");
    ls_rates_nutrient_row(t, level, "on_lb_ac", "Supplied", rate->on, false);
    ls_rates_nutrient_row(t, level, "counts_lb_ac", "Usable this year", rate->counts, false);
    ls_rates_nutrient_row(t, level, "short_lb_ac", "Still short", rate->short_of, false);
    ls_rates_nutrient_row(t, level, "over_lb_ac", "Over need", rate->over, false);
}

/* ---- one rate ---- */

/* What is data alone, told in other blocks. */
static void put_data(ls_doc_group *g, const ls_rate *rate, const char *analysis) {
    static const char *const on[LS_FIELD_NUTRIENTS] = {"N_lb_ac", "P2O5_lb_ac", "K2O_lb_ac"};
    MEMBERS(g, {"lot", W(rate->lot->name)}, {"limit", W(ls_limit_name(rate->limit))}, {"why", W(rate->why)},
            {"analysis", W(analysis)}, {"pan_lb_per_ton", F(rate->pan, "lb/ton")});
    for (int i = 0; i < LS_FIELD_NUTRIENTS; i++) ls_doc_data(g, on[i], F(rate->on[i], "lb/ac"));
    MEMBERS(g, {"chance_over", F(rate->chance_over, "")}, {"available_N_lb_ac", F(rate->available_N, "lb/ac")},
            {"takes_tons", F(rate->takes, "ton")}, {"outside_window_ton_per_ac", F(rate->outside, "ton/ac")});
    ls_doc_group *inner = ls_doc_object(g, LS_DATA, "metals_lb_ac", NULL);
    for (ls_metal m = LS_COPPER; m < LS_METALS; m++)
        ls_doc_data(inner, ls_metal_key(m), F(rate->metals[m].on, "lb/ac"));
}

/* What is told of a rate that no other rate of the field tells already. */
void ls_rates_put_rate(ls_doc_group *list, const ls_field_rates *field, size_t i) {
    const ls_rate *rate = &field->rates[i], *earlier = NULL;
    bool leads = ls_rates_leads(field, i), tell = leads;
    const ls_document *d = list->document;
    const ls_report_page page = {d->view, d->arena, NULL};
    const char *analysis = ls_report_analysis(&page, rate->lot->analysis);
    ls_doc_group *g = ls_doc_object(
        list, leads ? LS_FULL : LS_DATA, NULL,
        leads ? ls_arena_printf(d->arena, "Litter of %s, by the %s", ls_rates_lots(d->arena, field, i), analysis)
              : NULL);
    if (leads && (earlier = repeated(sheet_of(g), field, i)) != NULL) {
        SAY(g, LS_FULL, "As for {}.", W(earlier->lot->name));
        tell = false;
    }
    bool goes_on = tell && ls_line_value(sheet_of(g), rate->rate) > 0;
    bool open = tell && rate->limit != LS_LIMIT_CLOSED;
    put_data(g, rate, analysis);
    limits(g, open ? LS_FULL : LS_DATA, field, rate);
    if (open) divisions(g, rate);
    ls_doc_fact(g, LS_FULL, "ton_per_ac", "RATE", F(rate->rate, "ton/ac"));
    if (tell) why(g, field, rate);
    balance(g, goes_on ? LS_FULL : LS_DATA, rate);
    put_worth(g, goes_on ? LS_FULL : LS_DATA, field, i);
    phosphorus(g, open, rate);
    if (goes_on) {
        without_report(g, field, rate);
        uncounted(g, field, rate);
    }
    put_buy(g, tell ? LS_FULL : LS_DATA, field, rate);
}
