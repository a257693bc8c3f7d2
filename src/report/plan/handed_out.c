/* What became of the tickets and slips that were handed out. */
#include "parts.h"

#include "report/handed_out.h"

LS_DOC_COLUMNS(moved_columns, WHOLE("ticket", "ticket"), WORDS("day", "day"), WORDS("was_day", "was"),
               IN("tons", NULL, "ton"), IN("was_tons", "was", "ton"), WORDS("certainty", "sure"),
               WORDS("was_certainty", "was"));
LS_DOC_COLUMNS(promise_columns, WORDS("buyer", "buyer"), NUMBER("promised", "loads promised"), NUMBER("had", "had"),
               NUMBER("owed", "to come"), NUMBER("short", "short"), NUMBER("beyond", "not promised"),
               IN("promised_tons", "promised", "ton"), IN("had_tons", "had", "ton"), IN("owed_tons", "to come", "ton"),
               DATA_IN("short_tons", "ton"), DATA_IN("beyond_tons", "ton"), DATA("owed_likely"), DATA("astray"),
               DATA("lost"));

static void moved(ls_doc_group *g, const ls_handed_out *h) {
    ls_doc_table t =
        LS_DOC_TABLE_IN(g, LS_FULL, "moved",
                        "Tickets that keep their way, with another day, other tons, more or less sure", moved_columns);
    for (size_t i = 0; i < h->moved.n; i++) {
        const ls_load *load = h->moved.at[i].load;
        LS_DOC_ROW(t, moved_columns, W(load->ticket), DAY(load->from_stack ? load->from : load->day),
                   DAY(load->issued->planned), BOOKED(load->tons, "ton"), BOOKED(h->moved.at[i].was, "ton"),
                   W(ls_certainty_name(load->certainty)), W(ls_certainty_name((ls_certainty)load->issued->certainty)));
    }
}

/* Tickets of loads that he had and others were meant to have, or the other way round: in JSON. */
static const ls_doc_group *tickets(ls_doc_group *g, const ls_promise_kept *p, bool astray) {
    ls_doc_group *list = ls_doc_loose_list(g);
    LS_EACH (const ls_had_load, had, p->loads)
        if (astray ? had->astray : had->tons == LS_NO_LINE)
            ls_doc_data(ls_doc_object(list, LS_DATA, NULL, NULL), "ticket", W(had->load->ticket));
    return list;
}

static void promises(ls_doc_group *g, const ls_handed_out *h) {
    const ls_view *v = g->document->view;
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "promises", "Loads promised with a slip", promise_columns);
    LS_EACH (const ls_promise_kept, p, h->promises)
        LS_DOC_ROW(t, promise_columns, W(p->slip->name), N(ls_report_loads(v, p->promised)),
                   N(ls_report_loads(v, p->had)), N(ls_report_loads(v, p->owed)), N(ls_report_loads(v, p->short_of)),
                   N(ls_report_loads(v, p->beyond)), L(p->tons.promised),
                   p->tons.had == LS_NO_LINE ? V(0, "ton") : L(p->tons.had),
                   p->tons.owed == LS_NO_LINE ? V(0, "ton") : L(p->tons.owed), L(p->tons.short_of), L(p->tons.beyond),
                   N(p->likely), G(tickets(g, p, true)), G(tickets(g, p, false)));
}

LS_DOC_COLUMNS(astray_columns, WHOLE("ticket", "ticket"), NUMBER("entry", "entry"), WORDS("to", "went to"),
               WORDS("from", "its ticket"));

static void astray(ls_doc_group *g, const ls_handed_out *h) {
    ls_doc_table t =
        LS_DOC_TABLE_IN(g, LS_FULL, "went_astray", "Loads that went another way than their tickets", astray_columns);
    LS_EACH (const ls_astray, is, h->astray)
        LS_DOC_ROW(t, astray_columns, W(is->load->ticket), N(is->load->log_entry), W(is->to),
                   W(ls_report_way_issued(g->document->arena, &is->issued)));
}

void ls_report_put_handed_out(ls_doc_group *top, const ls_plan_sums *s) {
    const ls_farm *farm = top->document->view->farm;
    bool any = farm->issued.n + farm->older.n + farm->promised.n > 0;
    ls_doc_group *g = ls_doc_object(top, any ? LS_FULL : LS_DATA, NULL, "TICKETS AND SLIPS HANDED OUT");
    ls_report_put_recalled(g, LS_FULL, s->handed_out);
    moved(g, s->handed_out);
    astray(g, s->handed_out);
    promises(g, s->handed_out);
    if (any && s->handed_out->recalled.n == 0 && s->handed_out->moved.n == 0)
        ls_doc_say(g, LS_FULL, W("Every ticket that was handed out stays as it is."));
}

/* ---- first screen ---- */

static ls_doc_cell kept(const ls_document *d, const ls_handed_out *h) {
    enum { MOST = 3 };
    ls_doc_cell words = W("");
    size_t n = h->promises.n;
    for (size_t i = 0; i < n && i < MOST; i++)
        words = ls_doc_keep(d, T("{}{}{}: {}.", words, W(i > 0 ? " " : ""), W(h->promises.at[i].slip->name),
                                 W(ls_report_kept(d->view, &h->promises.at[i]))));
    return n > MOST ? ls_doc_keep(d, T("{} {} more (--full).", words, N(n - MOST))) : words;
}

/* The first load that went another way, and how many more. */
static ls_doc_cell went_astray(const ls_document *d, const ls_astray *first, size_t n) {
    return ls_doc_keep(d, T("{} went to {}, its ticket said {}{}.", W(first->load->ticket), W(first->to),
                            W(ls_report_way_issued(d->arena, &first->issued)),
                            n == 1 ? W("") : T("; {} more (--full)", N(n - 1))));
}

void ls_report_put_kept(ls_doc_group *g, const ls_plan_sums *s) {
    const ls_document *d = g->document;
    size_t out = d->view->farm->issued.n + d->view->farm->older.n, back = s->handed_out->recalled.n,
           moves = s->handed_out->moved.n;
    if (out > 0)
        ls_doc_fact(
            g, LS_FIRST, "tickets", "TICKETS",
            ls_doc_keep(d, T("{} out: {} stay{}{}.", N(out), N(out - back),
                             moves == 0 ? W("") : T(" ({} with another day, other tons, more or less sure)", N(moves)),
                             back == 0 ? W("") : T(", {} to TAKE BACK", N(back)))));
    if (s->handed_out->astray.n > 0)
        ls_doc_fact(g, LS_FIRST, "astray", "ASTRAY",
                    went_astray(d, &s->handed_out->astray.at[0], s->handed_out->astray.n));
    if (s->handed_out->promises.n > 0) ls_doc_fact(g, LS_FIRST, "promised", "PROMISED", kept(d, s->handed_out));
}
