/* The page of a plan. */
#include "parts.h"
#include "report/put.h"

/* ---- where the litter goes, field by field ---- */

enum { LIKELY = 1 };

LS_DOC_COLUMNS(columns, WORDS("where", "FIELD"), {.key = "buyer", .heading = "buyer", .level = LS_FULL}, BARS(),
               IN("tons", NULL, "ton"), {.heading = NULL, .unit = "ton/ac"}, DATA_IN("least_ton_per_ac", "ton/ac"),
               DATA_IN("most_ton_per_ac", "ton/ac"), WORDS("opens", "opens"), DATA_IN("acres", "ac"),
               DATA_IN("takes_tons", "ton"), DATA_IN("distance_miles", "mi"));

static bool one_rate(const ls_view *v, const ls_field_sum *sum) {
    return sum->least == LS_NO_LINE || ls_line_value(v->sheet, sum->least) == ls_line_value(v->sheet, sum->most);
}

static void row(ls_doc_table t, const ls_buyer *b, const ls_field *f, const ls_field_sum *sum) {
    bool one = one_rate(t.group->document->view, sum);
    LS_DOC_GRID_ROW(t, columns, sum->likely == LS_NO_LINE ? LS_FULL : LS_FIRST, NULL, W(f->name.text), W(b->name.text),
                    F(sum->likely, "ton"), L(sum->likely),
                    one ? L(sum->least) : T("{} to {}", BARE(F(sum->least, "ton/ac")), BARE(F(sum->most, "ton/ac"))),
                    L(sum->least), L(sum->most), ls_field_opens(f) ? DAY(f->allowed.from) : W("any day"),
                    L(sum->likely_acres), L(sum->takes), GIVEN(b->distance, "mi"));
}

static void other(ls_doc_table t, const char *where, ls_line tons, bool bar) {
    LS_DOC_ROW(t, columns, W(where), W(""), bar ? F(tons, "ton") : W(""), L(tons), W(""), W(NULL), W(NULL), W(""),
               W(NULL), W(NULL), W(NULL));
}

LS_DOC_COLUMNS(unused_columns, HEAD("gets nothing"), DATA("buyer"), DATA("field"), DATA("why"));

static void unused(ls_doc_group *g, const ls_plan *plan) {
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "unused", "FIELDS THAT GET NOTHING", unused_columns);
    ls_doc_as_items(t);
    LS_EACH (const ls_unused_field, f, plan->unused)
        LS_DOC_ROW(t, unused_columns,
                   T("{} of {} gets nothing: {}.", W(f->field->name.text), W(f->buyer->name.text), W(f->why)),
                   W(f->buyer->name.text), W(f->field->name.text), W(f->why));
}

static void where(ls_doc_group *top, const ls_plan_sums *s) {
    const ls_plan *plan = s->plan;
    bool several = false;
    ls_doc_table t = LS_DOC_TABLE_IN(top, LS_FIRST, "where", NULL, columns);
    for (size_t i = 0; i < s->estimate->farm->buyers.n; i++)
        for (size_t k = 0; k < s->estimate->farm->buyers.at[i].fields.n; k++) {
            const ls_buyer *b = &s->estimate->farm->buyers.at[i];
            row(t, b, &b->fields.at[k], &s->buyers[i].fields[k]);
            several = several || !one_rate(top->document->view, &s->buyers[i].fields[k]);
        }
    if (ls_line_shown(top->document->view->sheet, s->stays) >= 1) other(t, "stays in the stack", s->stays, true);
    if (ls_report_lacks_fields(plan)) other(t, "NO FIELD", plan->unplaced[LIKELY], true);
    if (ls_line_value(top->document->view->sheet, plan->stacked[LIKELY]) > 0)
        other(t, "(of it through the stack)", plan->stacked[LIKELY], false);
    if (several) ls_doc_say(top, LS_FULL, W("Two rates: sides differ; the load's ticket says which."));
}

LS_DOC_COLUMNS(promise_columns, WORDS("buyer", "buyer"), NUMBER("firm_loads", "firm loads"),
               IN("firm_tons", "firm", "ton"), NUMBER("likely_loads", "likely loads"),
               IN("likely_tons", "likely", "ton"), NUMBER("possible_loads", "possible loads"),
               IN("possible_tons", "possible", "ton"));

LS_DOC_COLUMNS(count_columns, WORDS("up_to", "up to"), IN("there", "there", "load"),
               IN("straight", "to fields", "load"), IN("stacked", "to the stack", "load"),
               IN("without", "no field", "load"), HEAD("whole farm"), DATA_IN("apart", "load"));

/* "2 more" than lot by lot. */
static ls_doc_cell farm_wide(const ls_document *d, ls_line apart) {
    double more = ls_line_shown(d->view->sheet, apart);
    return more > 0 ? KEPT(d, "{} more", N(more)) : more < 0 ? KEPT(d, "{} fewer", N(-more)) : W("as many");
}

static void promises(ls_doc_group *top, const ls_plan_sums *s) {
    const ls_estimate *e = s->estimate;
    ls_doc_group *g = ls_doc_object(top, LS_FULL, NULL, "FIRM, LIKELY AND POSSIBLE LOADS");
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "by_buyer", NULL, promise_columns);
    for (size_t i = 0; i < e->farm->buyers.n; i++) {
        const ls_buyer_sum *b = &s->buyers[i];
        LS_DOC_ROW(t, promise_columns, W(e->farm->buyers.at[i].name.text), N(b->loads[LS_FIRM]), L(b->tons[LS_FIRM]),
                   N(b->loads[LS_LIKELY]), L(b->tons[LS_LIKELY]), N(b->loads[LS_POSSIBLE]), L(b->tons[LS_POSSIBLE]));
    }
    ls_doc_table counts = LS_DOC_TABLE_IN(g, LS_FULL, "load_counts", "Loads there, and where they go", count_columns);
    for (ls_certainty c = LS_FIRM; c <= LS_POSSIBLE; c++)
        LS_DOC_ROW(counts, count_columns, W(ls_certainty_name(c)), L(s->counts[c].there), L(s->counts[c].straight),
                   L(s->counts[c].stacked), L(s->counts[c].without), farm_wide(top->document, s->counts[c].apart),
                   L(s->counts[c].apart));
    ls_doc_data(g, "all_firm_chance", F(e->all_firm_chance, ""));
    SAY(g, LS_FULL,
        "Firm: all there together {} of the time. Likely: there in the likely case. Possible: "
        "there if litter is high.",
        F(e->all_firm_chance, "%"));
}

/* ---- money ---- */

LS_DOC_COLUMNS(money_columns, WORDS("item", "item"), IN("tons", NULL, "ton"), IN("dollars", NULL, "$"));
static void money_row(ls_doc_table t, const char *item, ls_line tons, ls_line dollars) {
    LS_DOC_ROW(t, money_columns, W(item), tons == LS_NO_LINE ? W("") : L(tons), L(dollars));
}

static void money(ls_doc_group *top, const ls_plan_sums *s) {
    const ls_document *d = top->document;
    const ls_plan *plan = s->plan;
    ls_doc_group *g = ls_doc_object(top, LS_FULL, NULL,
                                    d->view->farm->hauled.n > 0 ? "MONEY OF WHAT IS STILL TO HAUL, LIKELY CASE"
                                                                : "MONEY, LIKELY CASE");
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "money", NULL, money_columns);
    for (size_t i = 0; i < s->estimate->farm->buyers.n; i++) {
        const ls_trade *trade = &plan->trade[i];
        const char *buyer = s->estimate->farm->buyers.at[i].name.text;
        if (trade->tons != LS_NO_LINE)
            money_row(t, ls_arena_printf(d->arena, "%s pays", buyer), trade->tons, trade->income);
    }
    money_row(t, "in", LS_NO_LINE, plan->income);
    for (int i = 0; i < LS_COSTS; i++)
        if (plan->cost[i] != LS_NO_LINE) money_row(t, ls_cost_name(i), LS_NO_LINE, plan->cost[i]);
    money_row(t, ls_report_has_costs(plan) ? "out" : "out (no costs in the file)", LS_NO_LINE, plan->costs);
    money_row(t, "left", LS_NO_LINE, plan->net_return);
    MEMBERS(g, {"net_return", F(plan->net_return, "$")}, {"firmness_cost", F(plan->firmness_cost, "$")});
    if (plan->firmness_cost != LS_NO_LINE && ls_line_value(d->view->sheet, plan->firmness_cost) > 0)
        SAY(g, LS_FULL, "Keeping the firm loads where they are promised costs {} of that.",
            F(plan->firmness_cost, "$"));
}

LS_DOC_COLUMNS(worth_columns, WORDS("buyer", "buyer"), IN("value_per_ton", "worth", "$/ton"),
               IN("price_per_ton", "price", "$/ton"), IN("price_at_house", "at house", "$/ton"),
               IN("distance_miles", "distance", "mi"), {.heading = "up to", .unit = "mi"},
               DATA_IN("break_even_miles", "mi"), DATA_IN("haul_per_ton_mile", "$/ton/mi"), DATA("lacks"));

static void worth(ls_doc_group *top, const ls_plan *plan) {
    ls_doc_group *g = ls_doc_object(top, LS_FULL, NULL, "WHAT A TON IS WORTH TO THE BUYER, AND HOW FAR IT MAY GO");
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "worth_to_buyers", NULL, worth_columns);
    LS_EACH (const ls_worth, w, plan->worth) {
        bool nowhere = w->break_even != LS_NO_LINE && !(ls_line_value(g->document->view->sheet, w->break_even) > 0);
        LS_DOC_ROW(t, worth_columns, W(w->buyer->name.text), L(w->value), L(w->price), L(w->at_house),
                   GIVEN(w->buyer->distance, "mi"), nowhere ? W("nowhere") : L(w->break_even), L(w->break_even),
                   L(w->ton_mile), W(w->lacks));
    }
    if (plan->worth.n > 0)
        SAY(g, LS_FULL,
            "Worth: as fertilizer that the crops will use, at the file's prices. At house: the "
            "price less all work. Up to: as far as a ton is worth its price at the house and the "
            "work. Nowhere: not even next door.");
    for (size_t i = 0; i < plan->worth.n; i++)
        if (plan->worth.at[i].lacks != NULL)
            ITEM(g, LS_FULL, "{}: to know how far, {}.", W(plan->worth.at[i].buyer->name.text),
                 W(plan->worth.at[i].lacks));
}

/* ---- how good the plan is ---- */

LS_DOC_COLUMNS(goal_columns, WORDS("goal", "goal, in this order"), NUMBER("value", "reached"),
               NUMBER("bound", "at best"), NUMBER("gap", "gap"), DATA("unit"));

static void goals(ls_doc_group *top, const ls_plan *plan) {
    static const char *const asked[LS_AIMS] = {
        [LS_AIM_NEAR] = "Asked for: the fewest truck miles, not the most money.",
        [LS_AIM_PHOSPHORUS] = "Asked for: phosphorus where crops need it, not the most money. What "
                              "a field gets beyond its need less credits does not count."};
    ls_doc_group *g = ls_doc_object(top, LS_FULL, NULL, "HOW GOOD THE PLAN IS");
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "goals", NULL, goal_columns);
    for (int i = 0; i < LS_GOALS; i++) {
        const char *unit = ls_line_at(top->document->view->sheet, plan->reached[i])->unit.text;
        LS_DOC_ROW(t, goal_columns, W(plan->goals[i].goal), F(plan->reached[i], unit), F(plan->bound[i], unit),
                   F(plan->gap[i], unit), W(plan->goals[i].unit));
    }
    ls_doc_data(g, "gap_pct", V(plan->gap_percent, ""));
    SAY(g, LS_FULL,
        plan->tickets_kept ? "At best: beside the tickets that stay. Without them more may be had."
        : plan->firm_kept  ? "At best: no plan that keeps the firm loads can do better. A gap of 0 "
                             "proves that none does."
                           : "At best: no plan can do better. A gap of 0 proves that none does.");
    if (asked[plan->aim] != NULL) SAY(g, LS_FULL, asked[plan->aim]);
}

const ls_document *ls_report_plan(const ls_view *v, const ls_plan_sums *s) {
    const char *day = ls_date_words(v->arena, v->farm->crew->arrives.day, v->year);
    ls_document *d = ls_document_new(v, "plan", ls_arena_printf(v->arena, "PLAN, crew %s", day));
    d->table = "loads";
    d->more = "loads, clock, trucks, money, notes";
    ls_report_put_answer(d->top, s);
    ls_report_put_do_now(d->top, s);
    ls_report_put_days(d->top, s->plan);
    ls_report_put_calendar(d->top, s->plan);
    ls_report_put_in_short(d->top, s);
    where(d->top, s);
    ls_report_put_fields_picture(d->top, s);
    ls_report_put_money_picture(d->top, s->plan);
    ls_report_put_stack_picture(d->top, s);
    ls_report_put_more(d->top, s);
    ls_report_put_log(d->top);
    ls_report_put_handed_out(d->top, s);
    ls_report_put_loads(d->top, s->plan);
    ls_report_put_chart(d->top, s->plan);
    ls_report_put_stack(d->top, s);
    promises(d->top, s);
    unused(d->top, s->plan);
    ls_report_put_trucks(d->top, s->plan);
    ls_report_put_rules(d->top, s->plan);
    ls_report_put_loader(d->top, s);
    money(d->top, s);
    worth(d->top, s->plan);
    goals(d->top, s->plan);
    ls_report_put_why(d->top, s);
    ls_report_put_cautions(d->top, &s->take_care, 0);
    return d;
}
