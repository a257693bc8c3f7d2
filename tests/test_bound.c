/* Tickets and slips that were handed out, for farms drawn at random and then changed: every ticket
 * stays as it is or is recalled with a reason that holds, and every limit is kept. */
#include "bound_world.h"
#include "chance.h"
#include "program.h"
#include "random_farm.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { FARMS = 8 };

static const double TON = 2000, ACRE = 43560;

typedef struct {
    ls_arena *a;
    const ls_reference *r;
    const char *folder, *path;
    uint64_t state;
} maker;

static unsigned pick(maker *m, unsigned n) { return test_pick(&m->state, n); }

/* ---- told ---- */

static void tell(const plan_rules *t) {
    for (size_t i = 0; i < t->plan->recalled.n; i++)
        printf("\n  recalled %s: %s", t->plan->recalled.at[i].issued->ticket, t->plan->recalled.at[i].why);
}

static void tell_loads(const plan_rules *t) {
    for (size_t i = 0; i < t->plan->loads_n + t->plan->out_n; i++) {
        const ls_load *l = bound_load(t->plan, i);
        printf("\n  %-22s %-8s %s %6.2f ->", l->ticket, ls_certainty_name(l->certainty),
               l->issued == NULL ? "NEW" : "   ", plan_rules_value(t, l->tons) / TON);
        for (size_t k = 0; k < l->n; k++)
            printf(" %s/%s %.2f", l->buyer->name.text, l->drops[k].field->name.text,
                   plan_rules_value(t, l->drops[k].tons) / TON);
        if (l->n == 0) printf(" stack");
    }
    tell(t);
}

static void tell_change(const plan_rules *was, const plan_rules *now) {
    printf("\n%s: was", now->seed);
    tell_loads(was);
    printf("\n now");
    tell_loads(now);
}

/* ---- what must hold ---- */

/* Way, buyer and rates of the ticket; rates but for what the log rounds. */
static bool stays(const plan_rules *t, const ls_issued *ticket, const ls_load *load) {
    bool same = strcmp(load->ticket, ticket->ticket) == 0 && load->from_stack == ticket->from_stack &&
                (load->buyer == NULL) == ticket->to_stack && strcmp(load->lot->code, ticket->lot) == 0 &&
                load->n == (ticket->to_stack ? 0 : ticket->n);
    for (size_t k = 0; same && k < load->n; k++) {
        double rate = plan_rules_value(t, load->drops[k].rate), on = ticket->drops[k].tons / ticket->drops[k].acres;
        same = load->drops[k].field == ticket->drops[k].field &&
               fabs(rate - on) <= on * 1e-4 * (1 + TON / ticket->drops[k].tons + ACRE / ticket->drops[k].acres);
    }
    return same;
}

static const ls_recall *recall_of(const ls_plan *p, const ls_issued *ticket) {
    for (size_t i = 0; i < p->recalled.n; i++)
        if (p->recalled.at[i].issued == ticket) return &p->recalled.at[i];
    return NULL;
}

static const ls_load *load_of(const ls_plan *p, const ls_issued *ticket) {
    for (size_t i = 0; i < p->loads_n + p->out_n; i++)
        if (bound_load(p, i)->issued == ticket) return bound_load(p, i);
    return NULL;
}

static void tickets_hold(const plan_rules *t) {
    const ls_plan *p = t->plan;
    for (size_t k = 0; k < t->farm->issued.n; k++) {
        const ls_issued *ticket = &t->farm->issued.at[k];
        const ls_load *load = load_of(p, ticket);
        const ls_recall *recall = recall_of(p, ticket);
        PLAN_HOLDS(t, (load == NULL) != (recall == NULL));
        if (load != NULL) PLAN_HOLDS(t, stays(t, ticket, load));
        if (recall != NULL) PLAN_HOLDS(t, recall->why != NULL && recall->why[0] != '\0');
        /* its number comes back another way, or with fewer tons: its place has no more room */
        if (recall != NULL && recall->now != NULL)
            PLAN_HOLDS(
                t, strcmp(recall->now->ticket, ticket->ticket) == 0 && recall->now->issued == NULL &&
                       (!stays(t, ticket, recall->now) || plan_rules_value(t, recall->now->tons) < .9 * ticket->tons));
    }
    for (size_t i = 0; i < p->loads_n + p->out_n; i++) {
        for (size_t k = 0; k < i; k++) PLAN_HOLDS(t, strcmp(bound_load(p, i)->ticket, bound_load(p, k)->ticket) != 0);
        for (size_t k = 0; k < t->farm->hauled.n; k++)
            PLAN_HOLDS(t, strcmp(bound_load(p, i)->ticket, t->farm->hauled.at[k].ticket) != 0);
    }
}

/* As many loads or tons as were promised, firm or handed out: that can be kept where only prices
 * change. Trips out of the stack are promised by the ton: where there is one, some loads may be
 * likely. */
static void promises_hold(const plan_rules *t) {
    bool firm = t->farm->stack == NULL;
    for (size_t k = 0; k < t->farm->promised.n; k++) {
        const ls_promise_slip *slip = &t->farm->promised.at[k];
        long has = 0;
        double tons = 0;
        for (size_t i = 0; i < t->plan->loads_n + t->plan->out_n; i++) {
            const ls_load *l = bound_load(t->plan, i);
            bool sure = l->certainty == LS_FIRM || l->issued != NULL;
            if (l->buyer == slip->buyer && (sure || (!firm && ls_load_counted(l))))
                has++, tons += plan_rules_value(t, l->tons);
        }
        if (has < slip->loads && tons < slip->tons - 20)
            printf("\n%s: %ld of %ld, %.2f of %.2f", slip->name, has, slip->loads, tons / TON, slip->tons / TON);
        PLAN_HOLDS(t, has >= slip->loads || tons > slip->tons - 20);
        if (!(has >= slip->loads || tons > slip->tons - 20)) tell_loads(t);
    }
}

static void recalls_hold(const plan_rules *t) {
    for (size_t i = 0; i < t->plan->recalled.n; i++) {
        const ls_issued *ticket = t->plan->recalled.at[i].issued;
        if (!bound_is_broken(t, ticket))
            printf("\n%s (%s, %.2f ton): %s", ticket->ticket, ticket->drops[0].name, ticket->tons / TON,
                   t->plan->recalled.at[i].why);
        PLAN_HOLDS(t, bound_is_broken(t, ticket));
    }
}

/* ---- changes ---- */

static const ls_buyer *any_buyer(maker *m, const ls_farm *farm) {
    return &farm->buyers.at[pick(m, (unsigned)farm->buyers.n)];
}

static const char *of_field(maker *m, const ls_farm *farm, const char *keys) {
    const ls_buyer *b = any_buyer(m, farm);
    return ls_arena_printf(m->a, "buyers: [{name: %s, fields: [{name: %s, %s}]}]\n", b->name.text,
                           b->fields.at[pick(m, (unsigned)b->fields.n)].name.text, keys);
}

enum { NOTHING, REMOVED, PRICE, AREA, WINDOW, RATE, TRUCK, SHORT, MOISTURE, ORDER, ADDED, CHANGES };

/* The change as a part of a farm file; NULL: it cannot be made. */
static const char *change_of(maker *m, const ls_farm *farm, unsigned kind) {
    const ls_house *h = &farm->houses.at[pick(m, (unsigned)farm->houses.n)];
    ls_arena *a = m->a;
    switch (kind) {
    case REMOVED:
        return farm->buyers.n < 2
                   ? NULL
                   : ls_arena_printf(a, "buyers: [{name: %s, remove: yes}]\n", any_buyer(m, farm)->name.text);
    case PRICE:
        return ls_arena_printf(a, "buyers: [{name: %s, price: %.0f $/ton}]\n", any_buyer(m, farm)->name.text,
                               test_between(&m->state, 0, 60));
    case AREA: return of_field(m, farm, ls_arena_printf(a, "area: %.1f ac", test_between(&m->state, 1, 30)));
    case WINDOW: return of_field(m, farm, pick(m, 2) ? "open: 2026-02-01..2026-02-18" : "open: 2026-04-01..2026-06-30");
    case RATE: return of_field(m, farm, ls_arena_printf(a, "most: %.1f ton/ac", test_between(&m->state, .5, 4)));
    case TRUCK:
        return ls_arena_printf(a, "trucks: [{name: truck, payload: %.1f ton}]\n", test_between(&m->state, 4, 14));
    case SHORT:
        return ls_arena_printf(a, "houses: [{name: %s, length: %.0f ft}]\n", h->name.text, h->length.value * .8);
    case MOISTURE:
        return ls_arena_printf(a,
                               "houses: [{name: %s, lab: [{date: 2026-02-01, by: Lab, moisture: %.0f %%, N: 50 "
                               "lb/ton, NH4N: 7 lb/ton, P2O5: 60 lb/ton, K2O: 36 lb/ton}]}]\n",
                               h->name.text, test_between(&m->state, 15, 45));
    case ORDER:
        return ls_arena_printf(a, "buyers: [{name: %s, order: {least: 1 loads, most: %u loads}}]\n",
                               any_buyer(m, farm)->name.text, pick(m, 5) + 1);
    case ADDED:
        return "buyers: [{name: New, distance: 1 mi, price: 70 $/ton, fields: [{name: Next, area: "
               "30 ac, crop: tall fescue hay, yield: 3 ton/ac, nitrogen: 200 lb/ac, phosphorus: "
               "{rating: low}, open: 2026-02-01..2026-06-30}]}]\n";
    default: return NULL;
    }
}

/* ---- farm by farm ---- */

static double homeless(const plan_rules *t, int stage) {
    ls_line tons = t->plan->unplaced[stage];
    return tons == LS_NO_LINE ? 0 : plan_rules_value(t, tons);
}

/* Tickets of a farm that is as it was, all handed out, make no case worse but the low one: in that
 * their fields are those of the high case. */
static void cases_hold(const plan_rules *was, const plan_rules *now) {
    for (int stage = 1; stage < LS_STAGES; stage++) {
        double more = homeless(now, stage) - homeless(was, stage);
        if (more >= 30) printf("\nstage %d: %.2f more", stage, more / TON);
        PLAN_HOLDS(now, more < 30);
    }
}

static const ls_load *same_load(const plan_rules *t, const ls_load *load) {
    for (size_t i = 0; i < t->plan->loads_n + t->plan->out_n; i++)
        if (strcmp(bound_load(t->plan, i)->ticket, load->ticket) == 0) return bound_load(t->plan, i);
    return NULL;
}

static bool any_new(const ls_plan *plan) {
    for (size_t i = 0; i < plan->loads_n + plan->out_n; i++)
        if (bound_load(plan, i)->issued == NULL) return true;
    return false;
}

static double left_in_stack(const plan_rules *t) {
    double tons = 0;
    for (size_t i = 0; i < t->plan->loads_n + t->plan->out_n; i++) {
        const ls_load *l = bound_load(t->plan, i);
        tons += (l->buyer == NULL ? 1 : l->from_stack ? -1 : 0) * plan_rules_value(t, l->tons);
    }
    for (size_t i = 0; i < t->farm->hauled.n; i++)
        tons += t->farm->hauled.at[i].n > 0 && t->farm->hauled.at[i].drops[0].buyer == NULL ? t->farm->hauled.at[i].tons
                                                                                            : 0;
    return tons;
}

/* Tons that are on no field in the end, in the high case. */
static double on_no_field(const plan_rules *t) { return homeless(t, LS_STAGES - 1) + left_in_stack(t); }

/* Issued again: every load keeps its ticket, and there is a new one only if more litter finds a
 * field than in the plan that was handed out: days and splits are searched anew. True: nothing is
 * new. */
static bool settles(maker *m, const plan_rules *was, const char *change, int again) {
    plan_rules now = plan_rules_read(m->a, m->r, m->path, change, ls_arena_printf(m->a, "%s, again", was->seed));
    bool same = true;
    bound_hand_out_rest(was, &now);
    plan_rules_plan(&now, m->r);
    PLAN_HOLDS(&now, now.plan != NULL);
    for (size_t i = 0; now.plan != NULL && i < was->plan->loads_n + was->plan->out_n; i++) {
        const ls_load *l = same_load(&now, bound_load(was->plan, i));
        same = same && l != NULL && l->issued != NULL;
    }
    if (now.plan == NULL) return false;
    bool any = any_new(now.plan), better = on_no_field(&now) < on_no_field(was) - 20;
    if (!same || (any && !better)) tell_change(was, &now);
    PLAN_HOLDS(&now, same);
    PLAN_HOLDS(&now, !any || better);
    return !any || (again > 0 && settles(m, &now, change, again - 1));
}

/* The plan of the changed farm with its tickets handed out, and looked at. */
static void changed(maker *m, const plan_rules *was, unsigned kind, int days, unsigned one_of) {
    const char *text = change_of(m, was->farm, kind), *why;
    const char *path = text == NULL ? NULL : ls_arena_printf(m->a, "%s/change.yaml", m->folder);
    if (path != NULL) CU_ASSERT_TRUE_FATAL(ls_file_write(m->a, path, text, strlen(text), &why));
    plan_rules now = plan_rules_read(m->a, m->r, m->path, path,
                                     ls_arena_printf(m->a, "%s, change %u (%s), %d days, one of %u", was->seed, kind,
                                                     text == NULL ? "" : text, days, one_of));
    PLAN_HOLDS(&now, now.farm != NULL);
    if (now.farm == NULL) return;
    bound_hand_out(was, &now, days, one_of, &m->state);
    plan_rules_plan(&now, m->r);
    PLAN_HOLDS(&now, now.plan != NULL);
    if (now.plan == NULL) return;
    plan_rules_hold(&now);
    tickets_hold(&now);
    recalls_hold(&now);
    if (text == NULL && now.plan->recalled.n > 0) tell(&now);
    if ((kind == NOTHING || kind == PRICE) && days == 0) promises_hold(&now);
    PLAN_HOLDS(&now, settles(m, &now, path, 2));
    if (text == NULL && days == 0 && one_of == 1) cases_hold(was, &now);
    if (text == NULL) /* a plan as good as the one handed out changes nothing */
        PLAN_HOLDS(&now, now.plan->recalled.n == 0);
}

static void one_farm(const ls_reference *r, const char *folder, uint64_t seed) {
    maker m = {.a = ls_arena_new(), .r = r, .folder = folder, .state = seed};
    m.path = test_file(m.a, folder, "farm.yaml", test_random_farm(m.a, seed));
    plan_rules was = plan_rules_read(m.a, r, m.path, NULL, ls_arena_printf(m.a, "%llu", (unsigned long long)seed));
    plan_rules_plan(&was, r);
    changed(&m, &was, NOTHING, 0, 1);
    changed(&m, &was, NOTHING, 0, 2);
    changed(&m, &was, NOTHING, 0, BOUND_NONE);
    changed(&m, &was, PRICE, 0, BOUND_NONE);
    changed(&m, &was, NOTHING, 1, 1);
    changed(&m, &was, NOTHING, 2, 2);
    changed(&m, &was, SHORT, 0, 1);
    changed(&m, &was, SHORT, 0, 2);
    for (int k = 0; k < 3; k++) changed(&m, &was, 1 + pick(&m, CHANGES - 1), (int)pick(&m, 3), 1 + pick(&m, 2));
    ls_arena_free(m.a);
}

static void random_tickets(void) {
    ls_arena *a = ls_arena_new();
    const ls_reference *r = ls_reference_load(a);
    const char *folder = test_folder(a);
    uint64_t first = test_count("FIRST_TICKETS", 1), farms = test_count("RANDOM_TICKETS", FARMS);
    for (uint64_t seed = first; seed < first + farms; seed++) one_farm(r, folder, seed);
    test_folder_end(folder);
    ls_arena_free(a);
}

TEST_SUITE(bound) = {
    {"tickets handed out stay or are recalled", random_tickets},
    CU_TEST_INFO_NULL,
};
