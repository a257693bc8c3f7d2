/* What a plan says otherwise than the one before the newest loads of the haul log. */
#include "books.h"

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

static bool is_gone(const ls_farm *farm, const char *ticket) {
    for (size_t i = 0; i < farm->hauled.n; i++)
        if (strcmp(farm->hauled.at[i].ticket, ticket) == 0)
            return true;
    return false;
}

/* ---- tickets ---- */

static void compare(ls_arena *a, const ls_farm *farm, ls_plan_changes *c, loads was, loads now) {
    for (size_t i = 0; i < was.n; i++) {
        if (is_gone(farm, was.at[i].ticket))
            continue;
        const ls_load *same = find(now, was.at[i].ticket);
        if (same == NULL || !ls_load_same_fields(&was.at[i], same) ||
            (was.at[i].certainty == LS_FIRM && same->certainty != LS_FIRM))
            *LS_PUSH(a, &c->tickets) = (ls_ticket_change){&was.at[i], same};
    }
    for (size_t i = 0; i < now.n; i++)
        if (find(was, now.at[i].ticket) == NULL)
            *LS_PUSH(a, &c->tickets) = (ls_ticket_change){NULL, &now.at[i]};
}

/* ---- buyers ---- */

static void count(const ls_farm *farm, loads list, const ls_buyer *b, size_t *n) {
    for (size_t i = 0; i < list.n; i++)
        if (list.at[i].buyer == b && !is_gone(farm, list.at[i].ticket))
            n[list.at[i].certainty]++;
}

/* A firm load of the buyer that goes elsewhere, or another's that comes. */
static bool is_told(const ls_plan_changes *c, const ls_buyer *b) {
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
static size_t how_many(const ls_farm *farm, const ls_plan *plan, const ls_buyer *b, respect what,
                       const void *of, ls_date day) {
    size_t n = 0;
    for (size_t i = 0; i < plan->loads_n + plan->out_n; i++) {
        const ls_load *l = ls_plan_load(plan, i);
        n += l->buyer == b && l->certainty == LS_FIRM && !is_gone(farm, l->ticket) &&
             has(l, what, of, day);
    }
    return n;
}

/* Every lot, field and day of the firm loads of one plan comes as often in the other. */
static void compare_firm(const ls_farm *farm, ls_buyer_change *c, const ls_plan *one,
                         const ls_plan *other) {
    const ls_buyer *b = c->buyer;
    for (size_t i = 0; i < one->loads_n + one->out_n; i++) {
        const ls_load *l = ls_plan_load(one, i);
        if (l->buyer != b || l->certainty != LS_FIRM || is_gone(farm, l->ticket))
            continue;
        ls_date day = l->from_stack ? l->from : l->day;
        const char *lot = l->lot->name;
        c->lot =
            c->lot || how_many(farm, one, b, LOT, lot, 0) != how_many(farm, other, b, LOT, lot, 0);
        c->days = c->days || how_many(farm, one, b, DAY, NULL, day) !=
                                 how_many(farm, other, b, DAY, NULL, day);
        for (size_t k = 0; k < l->n; k++) {
            const ls_field *f = l->drops[k].field;
            c->field = c->field ||
                       how_many(farm, one, b, FIELD, f, 0) != how_many(farm, other, b, FIELD, f, 0);
        }
    }
}

static void compare_buyer(ls_arena *a, const ls_farm *farm, ls_plan_changes *c, const ls_plan *plan,
                          const ls_buyer *b) {
    ls_buyer_change change = {.buyer = b};
    const ls_plan *last = plan->last;
    count(farm, (loads){last->loads, last->loads_n}, b, change.was);
    count(farm, (loads){last->out, last->out_n}, b, change.was);
    count(farm, (loads){plan->loads, plan->loads_n}, b, change.now);
    count(farm, (loads){plan->out, plan->out_n}, b, change.now);
    compare_firm(farm, &change, last, plan);
    compare_firm(farm, &change, plan, last);
    change.call = change.was[LS_FIRM] != change.now[LS_FIRM] ||
                  (is_told(c, b) && (change.field || change.lot || change.days));
    if (change.call || memcmp(change.was, change.now, sizeof change.was) != 0)
        *LS_PUSH(a, &c->buyers) = change;
}

ls_plan_changes ls_plan_changes_of(ls_arena *a, const ls_farm *farm, const ls_plan *plan) {
    ls_plan_changes c = {0};
    if (plan->last == NULL)
        return c;
    compare(a, farm, &c, (loads){plan->last->loads, plan->last->loads_n},
            (loads){plan->loads, plan->loads_n});
    compare(a, farm, &c, (loads){plan->last->out, plan->last->out_n},
            (loads){plan->out, plan->out_n});
    for (size_t b = 0; b < farm->buyers.n; b++)
        compare_buyer(a, farm, &c, plan, &farm->buyers.at[b]);
    return c;
}
