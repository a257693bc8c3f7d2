/* Promise slips for other programs. */
#include "promise.h"
#include "report/put.h"
#include "report/document/document.h"

static const ls_doc_column columns[] = {WORDS("field", NULL),
                                        WORDS("certainty", NULL),
                                        WORDS("from_stack", NULL),
                                        WORDS("loads", NULL),
                                        IN("tons", NULL, "ton"),
                                        IN("acres", NULL, "ac"),
                                        IN("ton_per_ac", NULL, "ton/ac"),
                                        WORDS("first_day", NULL),
                                        WORDS("last_day", NULL),
                                        WORDS("lots", NULL)};

static ls_doc_cell lots_of(ls_arena *a, const ls_estimate *e, const bool *has) {
    const char **names = LS_NEW(a, const char *, e->n);
    size_t n = 0;
    for (size_t i = 0; i < e->n; i++)
        if (has[i])
            names[n++] = e->lots[i].name;
    return ls_doc_names(names, n);
}

static const ls_doc_column unused_columns[] = {WORDS("field", NULL), WORDS("why", NULL)};

/* Fields that get nothing, and why. */
static void unused(ls_doc_group *g, const ls_plan *plan, const ls_buyer *b) {
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_DATA, "unused", NULL, unused_columns);
    for (size_t i = 0; i < plan->unused.n; i++)
        if (plan->unused.at[i].buyer == b)
            LS_DOC_ROW(t, unused_columns, W(plan->unused.at[i].field->name.text),
                       W(plan->unused.at[i].why));
}

static void promise(ls_doc_group *g, const ls_tickets *of, size_t k) {
    const ls_estimate *e = of->sums->estimate;
    const ls_buyer *b = &e->farm->buyers.at[k];
    const ls_buyer_sum *s = &of->sums->buyers[k];
    const ls_buyer_sheet *sheet = &of->buyers[k];
    ls_doc_data(g, "buyer", W(b->name.text));
    for (ls_certainty c = LS_FIRM; c <= LS_POSSIBLE; c++) {
        ls_doc_group *sum = ls_doc_object(g, LS_DATA, ls_certainty_name(c), NULL);
        ls_doc_data(sum, "loads", N(s->loads[c]));
        ls_doc_data(sum, "tons", s->loads[c] == 0 ? V(0, "ton") : F(s->tons[c], "ton"));
    }
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_DATA, "rows", NULL, columns);
    for (size_t i = 0; i < sheet->rows.n; i++) {
        const ls_promised *is = &sheet->rows.at[i];
        LS_DOC_ROW(t, columns, W(is->field->name.text), W(ls_certainty_name(is->certainty)),
                   FLAG(is->from_stack), N(is->loads), L(is->tons), L(is->acres), L(is->rate),
                   DAY(is->first), DAY(is->from_stack ? LS_NO_DATE : is->last),
                   lots_of(g->document->arena, e, is->lots));
    }
    unused(g, of->sums->plan, b);
    ls_doc_data(g, "price_per_ton", F(sheet->price, "$/ton"));
    ls_doc_data(g, "firm_price", F(sheet->firm_price, "$"));
    ls_doc_data(g, "firm_worth", F(sheet->firm_worth, "$"));
    ls_doc_data(g, "firm_worth_less_price", F(sheet->firm_gain, "$"));
}

const char *ls_report_promises_json(const ls_view *v, const ls_tickets *t, const char *buyer) {
    const ls_estimate *e = t->sums->estimate;
    ls_document *d = ls_document_new(v, "tickets", "What each buyer can be promised");
    ls_doc_data(d->top, "all_firm_chance", F(e->all_firm_chance, ""));
    ls_report_put_log(d->top);
    ls_doc_group *list = ls_doc_list(d->top, LS_DATA, "promises", NULL);
    for (size_t i = 0; i < e->farm->buyers.n; i++)
        if (buyer == NULL || ls_text_same(buyer, e->farm->buyers.at[i].name.text))
            promise(ls_doc_object(list, LS_DATA, NULL, NULL), t, i);
    return ls_document_json(d);
}
