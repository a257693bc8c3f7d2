#include "changes.h"
#include "loads.h"

static const char *loads_in_words(const ls_report_page *p, const size_t n[LS_POSSIBLE + 1]) {
    return ls_arena_printf(p->arena, "%zu firm, %zu likely, %zu possible", n[LS_FIRM], n[LS_LIKELY],
                           n[LS_POSSIBLE]);
}

/* " Firm loads go to other fields and come on other days."; "" if they do not. */
static const char *what_changed(const ls_report_page *p, const ls_report_buyer_change *b) {
    const char *words[3];
    size_t n = 0;
    if (b->field)
        words[n++] = "go to other fields";
    if (b->lot)
        words[n++] = "are of other lots";
    if (b->days)
        words[n++] = "come on other days";
    ls_text *t = ls_text_new(p->arena);
    for (size_t i = 0; i < n; i++)
        ls_text_addf(t, "%s%s", i == 0 ? " Firm loads " : i + 1 < n ? ", " : " and ", words[i]);
    return n == 0 ? "" : ls_arena_printf(p->arena, "%s.", t->s);
}

static void say_buyer(ls_report_page *p, const ls_report_buyer_change *b) {
    ls_report_item(p, 2, "%s%s: still to come %s; before %s.%s", b->call ? "Call " : "",
                   b->buyer->name.text, loads_in_words(p, b->now), loads_in_words(p, b->was),
                   b->call && b->was[LS_FIRM] == b->now[LS_FIRM] ? what_changed(p, b) : "");
}

static void say_ticket(ls_report_page *p, const ls_report_change *c) {
    const ls_view *v = p->view;
    if (c->was == NULL)
        ls_report_item(p, 2, "%s is new: %s, %s.", c->now->ticket, ls_report_way(v, c->now),
                       ls_certainty_name(c->now->certainty));
    else if (c->now == NULL)
        ls_report_item(p, 2, "%s is no longer planned; it was for %s, %s.", c->was->ticket,
                       ls_report_way(v, c->was), ls_certainty_name(c->was->certainty));
    else
        ls_report_item(p, 2, "%s: %s, %s; before %s, %s. Print its ticket again.", c->now->ticket,
                       ls_report_way(v, c->now), ls_certainty_name(c->now->certainty),
                       ls_report_way(v, c->was), ls_certainty_name(c->was->certainty));
}

void ls_report_what_changed(ls_report_page *p, const ls_plan *plan) {
    if (plan->last == NULL)
        return;
    ls_report_changes c = ls_report_changes_of(p->view, plan);
    ls_report_heading(p, "WHAT CHANGED WITH THE LOADS OF %s", ls_date_words(p->arena, plan->since));
    if (c.buyers.n == 0 && c.tickets.n == 0)
        ls_report_say(p, 2, "Nothing: the loads still to come go as they were planned before.");
    for (size_t i = 0; i < c.buyers.n; i++)
        say_buyer(p, &c.buyers.at[i]);
    for (size_t i = 0; i < c.tickets.n; i++)
        say_ticket(p, &c.tickets.at[i]);
}
