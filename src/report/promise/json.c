/* Promise slips for other programs. */
#include "promise.h"
#include "report/document/document.h"

static const ls_doc_column columns[] = {{.key = "field"},
                                        {.key = "certainty"},
                                        {.key = "from_stack"},
                                        {.key = "loads"},
                                        {.key = "tons", .unit = "ton"},
                                        {.key = "acres", .unit = "ac"},
                                        {.key = "ton_per_ac", .unit = "ton/ac"},
                                        {.key = "first_day"},
                                        {.key = "last_day"}};

static void promise(ls_doc_group *g, const ls_buyer *b, const ls_buyer_sum *s,
                    const ls_buyer_sheet *sheet) {
    ls_doc_fact(g, LS_DATA, "buyer", NULL, W(b->name.text));
    for (ls_certainty c = LS_FIRM; c <= LS_POSSIBLE; c++) {
        ls_doc_group *sum = ls_doc_object(g, LS_DATA, ls_certainty_name(c), NULL);
        ls_doc_fact(sum, LS_DATA, "loads", NULL, N(s->loads[c]));
        ls_doc_fact(sum, LS_DATA, "tons", NULL,
                    s->loads[c] == 0 ? V(0, "ton") : F(s->tons[c], "ton"));
    }
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_DATA, "rows", NULL, columns);
    for (size_t i = 0; i < sheet->rows.n; i++) {
        const ls_promised *is = &sheet->rows.at[i];
        LS_DOC_ROW(t, columns, W(is->field->name.text), W(ls_certainty_name(is->certainty)),
                   FLAG(is->from_stack), N(is->loads), L(is->tons), L(is->acres), L(is->rate),
                   DAY(is->first), DAY(is->from_stack ? LS_NO_DATE : is->last));
    }
    ls_doc_fact(g, LS_DATA, "price_per_ton", NULL, F(sheet->price, "$/ton"));
    ls_doc_fact(g, LS_DATA, "firm_price", NULL, F(sheet->firm_price, "$"));
    ls_doc_fact(g, LS_DATA, "firm_worth", NULL, F(sheet->firm_worth, "$"));
    ls_doc_fact(g, LS_DATA, "firm_worth_less_price", NULL, F(sheet->firm_gain, "$"));
}

const char *ls_report_promises_json(const ls_view *v, const ls_tickets *t, const char *buyer) {
    const ls_estimate *e = t->sums->estimate;
    ls_document *d = ls_document_new(v, "tickets", "What each buyer can be promised");
    ls_doc_fact(d->top, LS_DATA, "all_firm_chance", NULL, F(e->all_firm_chance, ""));
    ls_doc_group *list = ls_doc_list(d->top, LS_DATA, "promises", NULL);
    for (size_t i = 0; i < e->farm->buyers.n; i++)
        if (buyer == NULL || ls_text_same(buyer, e->farm->buyers.at[i].name.text))
            promise(ls_doc_object(list, LS_DATA, NULL, NULL), &e->farm->buyers.at[i],
                    &t->sums->buyers[i], &t->buyers[i]);
    return ls_document_json(d);
}
