#include "changes.h"

#include <string.h>

typedef struct {
    const ls_load *at;
    size_t n;
} loads;

static const ls_load *find(loads list, const char *ticket) {
    for (size_t i = 0; i < list.n; i++)
        if (strcmp(list.at[i].ticket, ticket) == 0)
            return &list.at[i];
    return NULL;
}

static bool is_gone(const ls_view *v, const char *ticket) {
    for (size_t i = 0; i < v->farm->hauled.n; i++)
        if (strcmp(v->farm->hauled.at[i].ticket, ticket) == 0)
            return true;
    return false;
}

/* ---- tickets ---- */

static void compare(const ls_view *v, ls_report_changes *c, loads was, loads now) {
    for (size_t i = 0; i < was.n; i++) {
        if (is_gone(v, was.at[i].ticket))
            continue;
        const ls_load *same = find(now, was.at[i].ticket);
        if (same == NULL || !ls_load_same_fields(&was.at[i], same) ||
            (was.at[i].certainty == LS_FIRM && same->certainty != LS_FIRM))
            *LS_PUSH(v->arena, &c->tickets) = (ls_report_change){&was.at[i], same};
    }
    for (size_t i = 0; i < now.n; i++)
        if (find(was, now.at[i].ticket) == NULL)
            *LS_PUSH(v->arena, &c->tickets) = (ls_report_change){NULL, &now.at[i]};
}

/* ---- buyers ---- */

static void count(const ls_view *v, loads list, const ls_buyer *b, size_t *n) {
    for (size_t i = 0; i < list.n; i++)
        if (list.at[i].buyer == b && !is_gone(v, list.at[i].ticket))
            n[list.at[i].certainty]++;
}

/* A firm load of the buyer that goes elsewhere, or another's that comes. */
static bool is_told(const ls_report_changes *c, const ls_buyer *b) {
    for (size_t i = 0; i < c->tickets.n; i++) {
        const ls_load *was = c->tickets.at[i].was, *now = c->tickets.at[i].now;
        if ((was != NULL && was->buyer == b && was->certainty == LS_FIRM) ||
            (now != NULL && now->buyer == b && now->certainty == LS_FIRM))
            return true;
    }
    return false;
}

/* What a firm load brings in one respect. */
typedef enum { FIELD, LOT, DAY } respect;

static bool has(const ls_load *load, respect what, const void *of, ls_date day) {
    if (what == LOT)
        return ls_text_same(load->lot->name, of);
    if (what == DAY)
        return (load->from_stack ? load->from : load->day) == day;
    for (size_t k = 0; k < load->n; k++)
        if (load->drops[k].field == of)
            return true;
    return false;
}

/* Firm loads of the buyer that are still to come and have that lot, field or day. */
static size_t how_many(const ls_view *v, const ls_plan *plan, const ls_buyer *b, respect what,
                       const void *of, ls_date day) {
    size_t n = 0;
    for (size_t i = 0; i < plan->loads_n + plan->out_n; i++) {
        const ls_load *l = ls_plan_load(plan, i);
        n += l->buyer == b && l->certainty == LS_FIRM && !is_gone(v, l->ticket) &&
             has(l, what, of, day);
    }
    return n;
}

/* Every lot, field and day of the firm loads of one plan comes as often in the other. */
static void compare_firm(const ls_view *v, ls_report_buyer_change *c, const ls_plan *one,
                         const ls_plan *other) {
    const ls_buyer *b = c->buyer;
    for (size_t i = 0; i < one->loads_n + one->out_n; i++) {
        const ls_load *l = ls_plan_load(one, i);
        if (l->buyer != b || l->certainty != LS_FIRM || is_gone(v, l->ticket))
            continue;
        ls_date day = l->from_stack ? l->from : l->day;
        const char *lot = l->lot->name;
        c->lot = c->lot || how_many(v, one, b, LOT, lot, 0) != how_many(v, other, b, LOT, lot, 0);
        c->days =
            c->days || how_many(v, one, b, DAY, NULL, day) != how_many(v, other, b, DAY, NULL, day);
        for (size_t k = 0; k < l->n; k++) {
            const ls_field *f = l->drops[k].field;
            c->field =
                c->field || how_many(v, one, b, FIELD, f, 0) != how_many(v, other, b, FIELD, f, 0);
        }
    }
}

static void compare_buyer(const ls_view *v, ls_report_changes *c, const ls_plan *plan,
                          const ls_buyer *b) {
    ls_report_buyer_change change = {.buyer = b};
    const ls_plan *last = plan->last;
    count(v, (loads){last->loads, last->loads_n}, b, change.was);
    count(v, (loads){last->out, last->out_n}, b, change.was);
    count(v, (loads){plan->loads, plan->loads_n}, b, change.now);
    count(v, (loads){plan->out, plan->out_n}, b, change.now);
    compare_firm(v, &change, last, plan);
    compare_firm(v, &change, plan, last);
    change.call = change.was[LS_FIRM] != change.now[LS_FIRM] ||
                  (is_told(c, b) && (change.field || change.lot || change.days));
    if (change.call || memcmp(change.was, change.now, sizeof change.was) != 0)
        *LS_PUSH(v->arena, &c->buyers) = change;
}

ls_report_changes ls_report_changes_of(const ls_view *v, const ls_plan *plan) {
    ls_report_changes c = {0};
    if (plan->last == NULL)
        return c;
    compare(v, &c, (loads){plan->last->loads, plan->last->loads_n},
            (loads){plan->loads, plan->loads_n});
    compare(v, &c, (loads){plan->last->out, plan->last->out_n}, (loads){plan->out, plan->out_n});
    for (size_t b = 0; b < v->farm->buyers.n; b++)
        compare_buyer(v, &c, plan, &v->farm->buyers.at[b]);
    return c;
}

const char *ls_report_way(const ls_view *v, const ls_load *load) {
    if (load->buyer == NULL)
        return "the stack";
    ls_text *t = ls_text_new(v->arena);
    ls_text_add(t, load->buyer->name.text);
    for (size_t i = 0; i < load->n; i++)
        ls_text_addf(t, "%s %s", i > 0 ? " and" : ",", load->drops[i].field->name.text);
    return t->s;
}
