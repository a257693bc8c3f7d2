/* Promise slips for other programs. */
#include "promise.h"
#include "report/put.h"
#include "report/document/document.h"
#include "report/handed_out.h"

LS_DOC_COLUMNS(columns, WORDS("field", NULL), WORDS("certainty", NULL), WORDS("from_stack", NULL), WORDS("loads", NULL),
               IN("tons", NULL, "ton"), IN("acres", NULL, "ac"), IN("ton_per_ac", NULL, "ton/ac"),
               WORDS("first_day", NULL), WORDS("last_day", NULL), WORDS("lots", NULL), WORDS("promised", NULL));

static ls_doc_cell lots_of(ls_arena *a, const ls_estimate *e, const bool *has) {
    const char **names = LS_NEW(a, const char *, e->n);
    size_t n = 0;
    for (size_t i = 0; i < e->n; i++)
        if (has[i]) names[n++] = e->lots[i].name;
    return ls_doc_names(names, n);
}

LS_DOC_COLUMNS(unused_columns, WORDS("field", NULL), WORDS("why", NULL));

/* Fields that get nothing, and why. */
static void unused(ls_doc_group *g, const ls_plan *plan, const ls_buyer *b) {
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_DATA, "unused", NULL, unused_columns);
    for (size_t i = 0; i < plan->unused.n; i++)
        if (plan->unused.at[i].buyer == b)
            LS_DOC_ROW(t, unused_columns, W(plan->unused.at[i].field->name.text), W(plan->unused.at[i].why));
}

/* What was promised with a slip, and what became of it; null without one. */
static void kept(ls_doc_group *g, const ls_promise_kept *k, const ls_handed *handed) {
    static const ls_promise_kept none; /* LS_NO_LINE in each place */
    const ls_promise_kept *is = k == NULL ? &none : k;
    const ls_promise_tons *tons = &is->tons;
    const ls_view *v = g->document->view;
    static const char *const names[] = {"promised", "had", "owed", "short", "beyond"};
    const ls_line lines[] = {is->promised, is->had, is->owed, is->short_of, is->beyond};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        ls_doc_data(g, names[i], k == NULL ? W(NULL) : N(ls_report_loads(v, lines[i])));
    MEMBERS(g, {"owed_likely", k == NULL ? W(NULL) : N(k->likely)}, {"promised_tons", F(tons->promised, "ton")},
            {"had_tons", F(tons->had, "ton")}, {"owed_tons", F(tons->owed, "ton")},
            {"short_tons", F(tons->short_of, "ton")}, {"beyond_tons", F(tons->beyond, "ton")},
            {"promised_price_per_ton", F(is->price, "$/ton")},
            {"promised_on", DAY(k == NULL ? LS_NO_DATE : k->slip->day)},
            {"in_place_of", DAY(ls_report_slip_before(handed, k))}, {"paper", W(ls_handed_text(v, handed))});
}

LS_DOC_COLUMNS(had_columns, WORDS("ticket", NULL), WORDS("day", NULL), IN("tons", NULL, "ton"), WORDS("astray", NULL));

/* Loads he had; without tons those that were meant for him and went elsewhere. */
static void loads_had(ls_doc_group *g, const ls_had_loads *list) {
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_DATA, "had_loads", NULL, had_columns);
    for (size_t i = 0; i < list->n; i++)
        LS_DOC_ROW(t, had_columns, W(list->at[i].load->ticket), DAY(list->at[i].load->day), L(list->at[i].tons),
                   FLAG(list->at[i].astray));
}

static void promise(ls_doc_group *g, const ls_tickets *of, size_t k, const ls_handed *handed) {
    const ls_buyer *b = &of->sums->estimate->farm->buyers.at[k];
    const ls_buyer_sum *s = &of->sums->buyers[k];
    const ls_buyer_sheet *sheet = &of->buyers[k];
    ls_doc_data(g, "buyer", W(b->name.text));
    kept(g, ls_promise_kept_of(of->sums->handed_out, b), handed);
    MEMBERS(g, {"loads_had", N(ls_report_loads(g->document->view, sheet->had))},
            {"tons_had", F(sheet->had_tons, "ton")}, {"slip_loads", N(ls_report_loads(g->document->view, sheet->says))},
            {"slip_tons", F(sheet->tons.promised, "ton")});
    loads_had(g, &sheet->loads);
    for (ls_certainty c = LS_FIRM; c <= LS_POSSIBLE; c++) {
        ls_doc_group *sum = ls_doc_object(g, LS_DATA, ls_certainty_name(c), NULL);
        MEMBERS(sum, {"loads", N(s->loads[c])}, {"tons", s->loads[c] == 0 ? V(0, "ton") : F(s->tons[c], "ton")});
    }
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_DATA, "rows", NULL, columns);
    LS_EACH (const ls_promised, is, sheet->rows)
        LS_DOC_ROW(t, columns, W(is->field->name.text), W(ls_certainty_name(is->certainty)), FLAG(is->from_stack),
                   N(is->loads), L(is->tons), L(is->acres), L(is->rate), DAY(is->first),
                   DAY(is->from_stack ? LS_NO_DATE : is->last),
                   lots_of(g->document->arena, of->sums->estimate, is->lots), FLAG(is->promised));
    unused(g, of->sums->plan, b);
    MEMBERS(g, {"price_per_ton", F(sheet->asked, "$/ton")}, {"had_price", F(sheet->had_price, "$")},
            {"to_come_price", F(sheet->come_price, "$")}, {"firm_price", F(sheet->firm_price, "$")},
            {"firm_worth", F(sheet->firm_worth, "$")}, {"firm_worth_less_price", F(sheet->firm_gain, "$")});
}

const char *ls_report_promises_json(const ls_view *v, const ls_slip_list *slips) {
    const ls_estimate *e = slips->figures->sums->estimate;
    ls_document *d = ls_document_new(v, "tickets", "What each buyer can be promised");
    ls_doc_data(d->top, "all_firm_chance", F(e->all_firm_chance, ""));
    ls_report_put_log(d->top);
    ls_doc_group *list = ls_doc_list(d->top, LS_DATA, "promises", NULL);
    for (size_t i = 0; i < slips->n; i++) {
        ls_doc_group *g = ls_doc_object(list, LS_DATA, NULL, NULL);
        promise(g, slips->figures, (size_t)(slips->buyers[i] - e->farm->buyers.at), &slips->handed[i]);
    }
    LS_EACH (const ls_promise_kept, k, slips->figures->sums->handed_out->promises) {
        if (!ls_report_is_gone(slips, k)) continue;
        ls_doc_group *g = ls_doc_object(list, LS_DATA, NULL, NULL);
        ls_doc_data(g, "buyer", W(k->slip->name));
        kept(g, k, &(ls_handed){LS_MARK_COPY, k->slip->day, k->slip->log_entry});
        loads_had(g, &k->loads);
    }
    return ls_document_json(d);
}
