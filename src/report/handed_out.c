/* Tickets and slips that were handed out, in words. */
#include "handed_out.h"

#include "figure.h"

#include <math.h>
#include <string.h>

const char *ls_report_way(ls_arena *a, const ls_load *load) {
    if (load->buyer == NULL) return "the stack";
    ls_text *t = ls_text_new(a);
    ls_text_add(t, load->buyer->name.text);
    for (size_t i = 0; i < load->n; i++)
        ls_text_addf(t, "%s %s", i > 0 ? " and" : ",", load->drops[i].field->name.text);
    return t->s;
}

const char *ls_report_way_issued(ls_arena *a, const ls_issued *ticket) {
    if (ticket->to_stack) return "the stack";
    ls_text *t = ls_text_new(a);
    size_t buyer = strlen(ticket->buyer_name);
    ls_text_add(t, ticket->buyer_name);
    for (size_t i = 0; i < ticket->n; i++) {
        const char *name = ticket->drops[i].name;
        bool led = strncmp(name, ticket->buyer_name, buyer) == 0 && name[buyer] == '/';
        ls_text_addf(t, "%s %s", i > 0 ? " and" : ",", led ? name + buyer + 1 : name);
    }
    return t->s;
}

/* "Larkspur Hay, 555-0142" */
static const char *with_phone(ls_arena *a, const char *name, const char *phone) {
    return phone == NULL ? name : ls_arena_printf(a, "%s, %s", name, phone);
}

const char *ls_report_promised_to(ls_arena *a, const ls_promise_slip *slip) {
    return with_phone(a, slip->name, slip->buyer == NULL ? slip->phone : slip->buyer->phone.text);
}

const char *ls_report_whom(const ls_view *v, const ls_recall *r) {
    const ls_issued *was = r->issued;
    const ls_buyer *now = r->now == NULL ? NULL : r->now->buyer;
    for (size_t i = 0; i < was->n; i++)
        if (was->drops[i].buyer != NULL)
            return with_phone(v->arena, was->drops[i].buyer->name.text, was->drops[i].buyer->phone.text);
    if (!was->to_stack) return with_phone(v->arena, was->buyer_name, was->phone);
    return now == NULL ? NULL : with_phone(v->arena, now->name.text, now->phone.text);
}

/* Are tickets of that kind to be taken back, or some that tell no kind? */
static bool takes_back(const ls_handed_out *h, const ls_truck *truck) {
    LS_EACH (const ls_recall, r, h->recalled)
        if (r->issued->truck == truck || r->issued->truck == NULL) return true;
    return false;
}

const char *ls_report_hauler(const ls_view *v, const ls_handed_out *h) {
    const ls_crew *crew = v->farm->crew;
    ls_text *t = ls_text_new(v->arena);
    if (crew != NULL && crew->hauler.text != NULL)
        ls_text_add(t, with_phone(v->arena, crew->hauler.text, crew->phone.text));
    LS_EACH (const ls_truck, truck, v->farm->trucks)
        if (truck->phone.text != NULL && takes_back(h, truck))
            ls_text_addf(t, "%s%s, %s", t->n > 0 ? "; " : "", truck->name.text, truck->phone.text);
    return t->n > 0 ? t->s : NULL;
}

/* "firm", "firm, now likely": of a ticket, and of the load that has its number. */
static const char *sureness(ls_arena *a, const ls_recall *r) {
    const char *was = ls_certainty_name((ls_certainty)r->issued->certainty);
    return r->now == NULL || (int)r->now->certainty == r->issued->certainty
               ? was
               : ls_arena_printf(a, "%s, now %s", was, ls_certainty_name(r->now->certainty));
}

const char *ls_report_recall(const ls_view *v, const ls_recall *r) {
    ls_arena *a = v->arena;
    const ls_report_page page = {v, a, NULL};
    const ls_issued *was = r->issued;
    const char *whom = ls_report_whom(v, r);
    return ls_arena_printf(a, "%s, in the cab for %s (%s, %s): %s, because %s.%s", was->ticket,
                           was->to_stack ? "the stack" : was->buyer_name, ls_report_line(&page, r->tons, "ton"),
                           sureness(a, r),
                           r->now == NULL ? "not planned now" : ls_arena_printf(a, "now %s", ls_report_way(a, r->now)),
                           r->why, whom == NULL ? "" : ls_arena_printf(a, " Call %s.", whom));
}

size_t ls_report_recall_group(const ls_view *v, const ls_handed_out *h, size_t first, const char **words) {
    const ls_recall *r = &h->recalled.at[first];
    const char *whom = ls_report_whom(v, r);
    ls_text *t = ls_text_new(v->arena);
    size_t n = 0, firm = 0;
    for (size_t i = 0; i < h->recalled.n; i++) {
        const ls_recall *other = &h->recalled.at[i];
        if (strcmp(r->why, other->why) != 0 || !ls_text_same(whom, ls_report_whom(v, other))) continue;
        if (i < first) return 0;
        firm += other->issued->certainty == LS_FIRM;
        ls_text_addf(t, "%s%s", n++ > 0 ? ", " : "", other->issued->ticket);
    }
    *words = n == 1 ? ls_report_recall(v, r)
                    : ls_arena_printf(v->arena, "%s%s%zu tickets (%zu firm), because %s: %s", whom == NULL ? "" : whom,
                                      whom == NULL ? "" : ": ", n, firm, r->why, t->s);
    return n;
}

long ls_report_loads(const ls_view *v, ls_line loads) {
    return loads ? lround(ls_line_value(v->sheet, loads) / ls_unit_of("load").factor) : 0;
}

const char *ls_report_kept(const ls_view *v, const ls_promise_kept *p) {
    const ls_report_page page = {v, v->arena, NULL};
    long promised = ls_report_loads(v, p->promised), lacks = ls_report_loads(v, p->short_of),
         beyond = ls_report_loads(v, p->beyond);
    ls_text *t = ls_text_new(v->arena);
    ls_text_addf(t, "had %ld of %ld load%s, %ld to come", ls_report_loads(v, p->had), promised,
                 promised == 1 ? "" : "s", ls_report_loads(v, p->owed));
    if (p->likely > 0) ls_text_addf(t, " (%zu only likely)", p->likely);
    if (lacks > 0)
        ls_text_addf(t, ", %ld SHORT", lacks);
    else if (beyond > 0)
        ls_text_addf(t, ", and %ld not promised", beyond);
    if (p->tons.lacks)
        ls_text_addf(t, lacks > 0 ? " (%s)" : ", %s SHORT", ls_report_line(&page, p->tons.short_of, "ton"));
    return t->s;
}

/* Does a load hold less of them than one that was promised? A hundredth of a ton is rounding. */
static bool is_less(const ls_view *v, const ls_promise_kept *p, ls_line tons, long loads) {
    return loads > 0 && ls_line_shown(v->sheet, tons) / (double)loads <
                            ls_line_shown(v->sheet, p->tons.promised) / (double)p->slip->loads - 0.01;
}

const char *ls_report_light(const ls_view *v, const ls_promise_kept *p) {
    bool had = is_less(v, p, p->tons.had, ls_report_loads(v, p->had) + ls_report_loads(v, p->beyond)),
         owed = is_less(v, p, p->tons.owed, ls_report_loads(v, p->owed));
    return ls_arena_printf(v->arena, "loads %s%s%s hold less than promised", had ? "hauled" : "",
                           had && owed ? " and " : "", had && !owed ? "" : "to come");
}

const char *ls_report_settle(ls_arena *a, const ls_issued *ticket) {
    return ls_arena_printf(a, "littershed record FILE... --ticket %s --replaces %ld --tons 0", ticket->ticket,
                           ticket->log_entry);
}

const char *ls_report_settle_slip(ls_arena *a, const ls_promise_slip *slip) {
    return ls_arena_printf(a, "littershed record FILE... --replaces %ld --tons 0", slip->log_entry);
}

LS_DOC_COLUMNS(recall_columns, WHOLE("ticket", "ticket"), HEAD("was for"), DATA("from"), DATA_IN("tons", "ton"),
               DATA("certainty"), WORDS("to", "now"), WORDS("why", "because"), WORDS("call", "call"),
               NUMBER("entry", "entry"), DATA("once_back"));

void ls_report_put_recalled(ls_doc_group *g, ls_doc_level level, const ls_handed_out *h) {
    const ls_document *d = g->document;
    ls_doc_table t = LS_DOC_TABLE_IN(g, level, "recalled", "Tickets to take back", recall_columns);
    LS_EACH (const ls_recall, r, h->recalled)
        LS_DOC_ROW(
            t, recall_columns, W(r->issued->ticket),
            T("{} ({}, {})", W(ls_report_way_issued(d->arena, r->issued)), F(r->tons, "ton"), W(sureness(d->arena, r))),
            W(ls_report_way_issued(d->arena, r->issued)), L(r->tons),
            W(ls_certainty_name((ls_certainty)r->issued->certainty)),
            W(r->now == NULL ? NULL : ls_report_way(d->arena, r->now)), W(r->why), W(ls_report_whom(d->view, r)),
            N(r->issued->log_entry), W(ls_report_settle(d->arena, r->issued)));
    if (h->recalled.n > 0)
        ls_doc_say(g, level,
                   W("Once a ticket is back or torn up: littershed record FILE... --ticket TICKET "
                     "--replaces ENTRY --tons 0."));
}
