/* Where the litter goes, field by field. */
#include "parts.h"

enum { LIKELY = 1 };

static const ls_doc_column columns[] = {WORDS("where", "FIELD"),
                                        {.key = "buyer", .heading = "buyer", .level = LS_FULL},
                                        BARS(),
                                        IN("tons", NULL, "ton"),
                                        {.heading = NULL, .unit = "ton/ac"},
                                        DATA_IN("least_ton_per_ac", "ton/ac"),
                                        DATA_IN("most_ton_per_ac", "ton/ac"),
                                        WORDS("opens", "opens"),
                                        DATA_IN("acres", "ac"),
                                        DATA_IN("takes_tons", "ton"),
                                        DATA_IN("distance_miles", "mi")};

static bool one_rate(const ls_view *v, const ls_field_sum *sum) {
    return sum->least == LS_NO_LINE ||
           ls_line_value(v->sheet, sum->least) == ls_line_value(v->sheet, sum->most);
}

static void row(ls_doc_table t, const ls_buyer *b, const ls_field *f, const ls_field_sum *sum) {
    bool one = one_rate(t.group->document->view, sum);
    LS_DOC_GRID_ROW(
        t, columns, sum->likely == LS_NO_LINE ? LS_FULL : LS_FIRST, NULL, W(f->name.text),
        W(b->name.text), F(sum->likely, "ton"), L(sum->likely),
        one ? L(sum->least)
            : T("{} to {}", BARE(F(sum->least, "ton/ac")), BARE(F(sum->most, "ton/ac"))),
        L(sum->least), L(sum->most), ls_field_opens(f) ? DAY(f->allowed.from) : W("any day"),
        L(sum->likely_acres), L(sum->takes), GIVEN(b->distance, "mi"));
}

static void other(ls_doc_table t, const char *where, ls_line tons, bool bar) {
    LS_DOC_ROW(t, columns, W(where), W(""), bar ? F(tons, "ton") : W(""), L(tons), W(""), W(NULL),
               W(NULL), W(""), W(NULL), W(NULL), W(NULL));
}

static const ls_doc_column unused_columns[] = {HEAD("gets nothing"), DATA("buyer"), DATA("field"),
                                               DATA("why")};

void ls_report_put_unused(ls_doc_group *g, const ls_plan *plan) {
    ls_doc_table t =
        LS_DOC_TABLE_IN(g, LS_FULL, "unused", "FIELDS THAT GET NOTHING", unused_columns);
    ls_doc_as_items(t);
    for (size_t i = 0; i < plan->unused.n; i++) {
        const ls_unused_field *f = &plan->unused.at[i];
        LS_DOC_ROW(t, unused_columns,
                   T("{} of {} gets nothing: {}.", W(f->field->name.text), W(f->buyer->name.text),
                     W(f->why)),
                   W(f->buyer->name.text), W(f->field->name.text), W(f->why));
    }
}

void ls_report_put_where(ls_doc_group *top, const ls_plan_sums *s) {
    const ls_plan *plan = s->plan;
    bool several = false;
    ls_doc_table t = LS_DOC_TABLE_IN(top, LS_FIRST, "where", NULL, columns);
    for (size_t i = 0; i < s->estimate->farm->buyers.n; i++)
        for (size_t k = 0; k < s->estimate->farm->buyers.at[i].fields.n; k++) {
            const ls_buyer *b = &s->estimate->farm->buyers.at[i];
            row(t, b, &b->fields.at[k], &s->buyers[i].fields[k]);
            several = several || !one_rate(top->document->view, &s->buyers[i].fields[k]);
        }
    if (ls_line_shown(top->document->view->sheet, s->stays) >= 1)
        other(t, "stays in the stack", s->stays, true);
    if (ls_report_lacks_fields(plan))
        other(t, "NO FIELD", plan->unplaced[LIKELY], true);
    if (ls_line_value(top->document->view->sheet, plan->stacked[LIKELY]) > 0)
        other(t, "(of it through the stack)", plan->stacked[LIKELY], false);
    if (several)
        ls_doc_say(top, LS_FULL, W("Two rates: sides differ; the load's ticket says which."));
}
