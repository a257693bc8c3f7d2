/* Promise slips as text, a page each. */
#include "promise.h"
#include "report/sheet.h"

static const ls_report_column columns[LS_PROMISE_CELLS] = {
    {"", 18, true}, {"", 6, true},  {"", 5, false}, {"", 7, false},
    {"", 7, false}, {"", 6, false}, {"", 17, true}};

static const char *head_of(const ls_view *v, const ls_report_promise *s) {
    ls_report_page p = ls_report_scrap(v);
    ls_report_say(&p, 0, "PROMISE SLIP: LITTER FROM");
    ls_report_say(&p, 0, "%s", ls_report_farm_words(&p));
    ls_report_facts_text(&p, &s->who);
    ls_report_rule(&p);
    return p.text->s;
}

static void part(ls_report_page *p, const ls_report_promise_part *is) {
    if (is->below == NULL)
        return;
    const char *heads[LS_PROMISE_CELLS];
    ls_report_promise_heads(p, heads);
    ls_report_say(p, 0, "%s", is->heading);
    if (is->rows.n > 0)
        ls_report_row(p, columns, LS_PROMISE_CELLS, heads);
    for (size_t i = 0; i < is->rows.n; i++)
        ls_report_row(p, columns, LS_PROMISE_CELLS, is->rows.at[i].cells);
    ls_report_say(p, 2, "%s", is->below);
    ls_report_blank(p);
}

static const char *body_of(const ls_view *v, const ls_report_promise *s) {
    ls_report_page p = ls_report_scrap(v);
    for (ls_certainty c = LS_FIRM; c <= LS_POSSIBLE; c++)
        part(&p, &s->parts[c]);
    ls_report_facts_text(&p, &s->terms);
    if (s->parts[LS_FIRM].rows.n > 0)
        ls_text_add(
            p.text,
            "\nFor the farm ______________________________________ date __________________\n"
            "\nFor the buyer _____________________________________ date __________________\n");
    ls_report_blank(&p);
    ls_report_say(&p, 0, "%s", ls_report_decide);
    return p.text->s;
}

const char *ls_report_promises_text(const ls_view *v, const ls_tickets *t, const char *buyer) {
    const ls_farm *farm = t->sums->estimate->farm;
    ls_text *text = ls_text_new(v->arena);
    ls_report_page p = ls_report_scrap(v);
    for (size_t i = 0; i < farm->buyers.n; i++) {
        const ls_buyer *b = &farm->buyers.at[i];
        if (buyer != NULL && !ls_text_same(buyer, b->name.text))
            continue;
        ls_report_promise s = ls_report_promise_of(&p, t, b);
        ls_report_sheet(v->arena, text, head_of(v, &s), body_of(v, &s));
    }
    return text->s;
}
