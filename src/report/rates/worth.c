/* What a ton is worth on a field, and what to buy after it. */
#include "rates.h"

#include <math.h>

/* ---- worth ---- */

static const ls_doc_column worth_columns[] = {HEAD("worth of its"), IN("per_ton", NULL, "$/ton"),
                                              WORDS("why", "counted by")},
                           same_columns[] = {HEAD("worth of its"), IN("per_ton", NULL, "$/ton"),
                                             DATA("why")};

/* The page has said by what the nutrients are counted, for a lot before this one. */
static bool is_said(const ls_field_rates *field, size_t i) {
    for (size_t k = 0; k < i; k++) {
        bool same = true;
        for (int n = 0; n < LS_FIELD_NUTRIENTS; n++)
            same = same && ls_text_same(field->rates[k].worth_why[n], field->rates[i].worth_why[n]);
        if (same)
            return true;
    }
    return false;
}

void ls_rates_put_worth(ls_doc_group *g, ls_doc_level level, const ls_field_rates *field,
                        size_t i) {
    const ls_rate *rate = &field->rates[i];
    const ls_doc_column *columns = is_said(field, i) ? same_columns : worth_columns;
    ls_doc_table t = ls_doc_table_in(g, level, "value_of", NULL, columns,
                                     sizeof worth_columns / sizeof *worth_columns);
    for (int k = 0; k < LS_FIELD_NUTRIENTS; k++)
        ls_doc_row_in(
            t, columns, level, ls_rates_nutrient[k],
            (ls_doc_cell[]){W(ls_rates_nutrient[k]), L(rate->worth[k]), W(rate->worth_why[k])});
    ls_doc_fact(g, level, "value_per_ton", "Worth as fertilizer the crop will use",
                rate->value_per_ton == LS_NO_LINE ? V(NAN, "$/ton")
                                                  : F(rate->value_per_ton, "$/ton"));
    ls_doc_fact(g, rate->price_per_lb == LS_NO_LINE ? LS_DATA : level, "price_per_lb_N",
                "Cost of usable N", F(rate->price_per_lb, "$/lb"));
}

/* ---- what to buy ---- */

LS_DOC_COLUMNS(product_columns, WORDS("product", "fertilizer to buy"), IN("lb_ac", NULL, "lb/ac"),
               IN("lb_field", "on the field", "lb"));

/* Less of a product than told, lb/ac, is what rounding leaves; than least: nothing. */
static const double told = 0.05, least = 1e-6;

void ls_rates_put_buy(ls_doc_group *rate_group, ls_doc_level level, const ls_field_rates *field,
                      const ls_rate *rate) {
    const ls_view *v = rate_group->document->view;
    bool any = false;
    ls_doc_group *g = ls_doc_object(rate_group, level, "supplement", NULL);
    for (int i = 0; i < LS_FIELD_NUTRIENTS; i++)
        ls_doc_data(g, ls_rates_nutrient[i], F(rate->short_of[i], "lb/ac"));
    ls_doc_table t = LS_DOC_TABLE_IN(g, level, "products", NULL, product_columns);
    for (size_t i = 0; i < rate->bought_n; i++) {
        const ls_bought *b = &rate->bought[i];
        double amount = ls_line_value(v->sheet, b->per_acre) / ls_unit_of("lb/ac").factor;
        bool tell = amount >= told && b->priced;
        if (!(amount > least))
            continue;
        LS_DOC_GRID_ROW(t, product_columns, tell ? level : LS_DATA, NULL, W(b->product),
                        L(b->per_acre), L(b->on_field));
        any = any || tell;
    }
    if (level == LS_DATA)
        return;
    if (!any)
        SAY(g, level, "Fertilizer to buy: none listed.");
    ls_line lacks = rate->short_of[LS_FIELD_P2O5];
    if (field->phosphate != LS_NO_LINE && lacks != LS_NO_LINE && ls_line_value(v->sheet, lacks) > 0)
        SAY(g, LS_FULL,
            "The phosphorus rating binds bought phosphate too: ask who rated the field before "
            "buying any.");
}
