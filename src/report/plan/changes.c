/* What changed with the newest loads of the haul log. */
#include "parts.h"

LS_DOC_COLUMNS(buyer_columns, WORDS("buyer", "buyer"), WORDS("call", "call"), HEAD("still to come"),
               HEAD("before"), WORDS("firm_differ_in", "firm loads differ in"), DATA("before"),
               DATA("now"));

static ls_doc_group *counts(ls_doc_group *g, const size_t n[LS_CERTAINTIES]) {
    ls_doc_group *object = ls_doc_loose_object(g);
    for (int c = LS_FIRM; c < LS_CERTAINTIES; c++)
        ls_doc_fact(object, LS_DATA, ls_certainty_name((ls_certainty)c), NULL, N(n[c]));
    return object;
}

/* In what the firm loads of a buyer differ. */
static ls_doc_cell differs(ls_arena *a, const ls_buyer_change *c) {
    enum { MOST = 3 };
    const char **names = LS_NEW(a, const char *, MOST);
    size_t n = 0;
    if (c->field)
        names[n++] = "field";
    if (c->lot)
        names[n++] = "lot";
    if (c->days)
        names[n++] = "days";
    return ls_doc_names(names, n);
}

static void buyers(ls_doc_group *g, const ls_plan_changes *c) {
    static const char loads[] = "{} firm, {} likely, {} possible";
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "buyers", NULL, buyer_columns);
    for (size_t i = 0; i < c->buyers.n; i++) {
        const ls_buyer_change *b = &c->buyers.at[i];
        LS_DOC_ROW(t, buyer_columns, W(b->buyer->name.text), FLAG(b->call),
                   T(loads, N(b->now[LS_FIRM]), N(b->now[LS_LIKELY]), N(b->now[LS_POSSIBLE])),
                   T(loads, N(b->was[LS_FIRM]), N(b->was[LS_LIKELY]), N(b->was[LS_POSSIBLE])),
                   differs(g->document->arena, b), G(counts(g, b->was)), G(counts(g, b->now)));
    }
}

LS_DOC_COLUMNS(ticket_columns, WHOLE("ticket", "ticket"), HEAD("now"), HEAD("before"),
               DATA("before"), DATA("now"));

/* "Larkspur Hay, Upper Meadow"; "the stack". */
static const char *way(ls_arena *a, const ls_load *load) {
    if (load->buyer == NULL)
        return "the stack";
    ls_text *t = ls_text_new(a);
    ls_text_add(t, load->buyer->name.text);
    for (size_t i = 0; i < load->n; i++)
        ls_text_addf(t, "%s %s", i > 0 ? " and" : ",", load->drops[i].field->name.text);
    return t->s;
}

static ls_doc_cell told(ls_arena *a, const ls_load *load) {
    return W(load == NULL
                 ? "not planned"
                 : ls_arena_printf(a, "%s (%s)", way(a, load), ls_certainty_name(load->certainty)));
}

static ls_doc_cell data(ls_doc_group *g, const ls_load *load) {
    if (load == NULL)
        return W(NULL);
    return G(OBJECT(g, {"for", W(way(g->document->arena, load))},
                    {"certainty", W(ls_certainty_name(load->certainty))}));
}

static void tickets(ls_doc_group *g, const ls_plan_changes *c) {
    ls_arena *a = g->document->arena;
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "tickets", NULL, ticket_columns);
    for (size_t i = 0; i < c->tickets.n; i++) {
        const ls_load *was = c->tickets.at[i].was, *now = c->tickets.at[i].now;
        LS_DOC_ROW(t, ticket_columns, W((now != NULL ? now : was)->ticket), told(a, now),
                   told(a, was), data(g, was), data(g, now));
    }
}

void ls_report_put_changes(ls_doc_group *top, const ls_plan *plan) {
    const ls_document *d = top->document;
    if (plan->last == NULL) {
        ls_doc_data(top, "changes", W(NULL));
        return;
    }
    const ls_plan_changes c = ls_plan_changes_of(d->arena, d->view->farm, plan);
    ls_doc_group *g =
        ls_doc_object(top, LS_FULL, "changes",
                      ls_arena_printf(d->arena, "WHAT CHANGED WITH THE LOADS OF %s",
                                      ls_date_words(d->arena, plan->since, d->view->year)));
    ls_doc_data(g, "since", DAY(plan->since));
    buyers(g, &c);
    tickets(g, &c);
    if (c.tickets.n > 0)
        SAY(g, LS_FULL, "Destroy tickets that are not planned now; print the others.");
    else if (c.buyers.n == 0)
        SAY(g, LS_FULL, "Nothing: the loads still to come are those planned before.");
}
