/* The page of rates, told field by field. */
#include "rates.h"

/* A page in the making. */
struct ls_rates_page {
    ls_document *document;
    const ls_agronomy *agronomy;
    ls_doc_table answers;
    ls_doc_stream *fields;
};

static const ls_doc_column answer_columns[] = {HEAD("field"),
                                               DATA("buyer"),
                                               DATA("field"),
                                               WORDS("lots", "litter of"),
                                               IN("ton_per_ac", "rate", "ton/ac"),
                                               WORDS("set_by", "rate set by")};

ls_rates_page *ls_report_rates_begin(const ls_view *v, const ls_agronomy *g, ls_form form) {
    ls_rates_page *page = LS_NEW(v->arena, ls_rates_page, 1);
    ls_document *d = ls_document_new(v, "rates", "What each field may take, and why");
    d->table = "rates";
    ls_doc_say(d->top, LS_FIRST,
               W("The limits are those of the farm file: its plan, its ratings, its dates. This "
                 "page only does the arithmetic and names the lowest limit."));
    *page = (ls_rates_page){.document = d, .agronomy = g};
    d->more = "limits, need and worth of each field";
    page->answers = LS_DOC_TABLE_IN(d->top, LS_FIRST, "rates", NULL, answer_columns);
    page->fields = ls_doc_stream_in(d, LS_FULL, "fields", form);
    return page;
}

static void answers(ls_doc_table t, const ls_field_rates *field) {
    ls_arena *a = t.group->document->arena;
    const char *buyer = field->buyer->name.text, *name = field->field->name.text;
    for (size_t i = 0; i < field->n; i++) {
        const ls_rate *rate = &field->rates[i];
        if (ls_rates_leads(field, i))
            LS_DOC_ROW(t, answer_columns, T("{}, {}", W(buyer), W(name)), W(buyer), W(name),
                       W(ls_rates_lots(a, field, i)), L(rate->rate),
                       W(ls_rates_set_by(field, rate->limit)));
    }
}

void ls_report_rates_field(ls_rates_page *page, const ls_field_rates *field) {
    const char *buyer = field->buyer->name.text, *name = field->field->name.text;
    answers(page->answers, field);
    ls_doc_group *list = ls_doc_stream_begin(page->fields);
    ls_doc_group *g = ls_doc_object(list, LS_FULL, NULL,
                                    ls_arena_printf(list->document->arena, "%s, %s", buyer, name));
    ls_doc_data(g, "buyer", W(buyer));
    ls_doc_data(g, "field", W(name));
    ls_rates_put_limits(g, field);
    ls_rates_put_need(g, field);
    ls_doc_group *lots = ls_doc_list(g, LS_FULL, "lots", NULL);
    for (size_t i = 0; i < field->n; i++)
        ls_rates_put_rate(lots, field, i);
    ls_doc_texts(g, LS_FULL, "flags", "To note", field->flags.at, field->flags.n);
    ls_doc_stream_end(page->fields);
}

const ls_document *ls_report_rates_end(ls_rates_page *page) {
    const ls_agronomy *g = page->agronomy;
    const ls_worksheet *w = page->document->view->sheet;
    ls_line cu = ls_agronomy_metal_most(g, LS_COPPER), zn = ls_agronomy_metal_most(g, LS_ZINC);
    const char *const *notes;
    size_t noted = ls_agronomy_notes(g, &notes);
    ls_doc_texts(page->document->top, LS_FULL, "notes", "HOW NUTRIENTS COUNT", notes, noted);
    ls_doc_say(page->document->top, LS_FULL,
               T("Copper and zinc: the lifetime limit is {} and {} in South Carolina ({}); a "
                 "caution here, not a limit.",
                 F(cu, "lb/ac"), F(zn, "lb/ac"), W(ls_rates_source(w, cu))));
    return page->document;
}
