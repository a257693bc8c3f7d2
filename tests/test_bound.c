/* Tickets and slips that were handed out, for farms drawn at random and then changed: every ticket
 * stays as it is or is recalled with a reason that holds, and every limit is kept. */
#include "chance.h"
#include "plan_rules.h"
#include "program.h"
#include "random_farm.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { FARMS = 20 };

static const double TON = 2000, ACRE = 43560;

typedef struct {
    ls_arena *a;
    const ls_reference *r;
    const char *folder, *path;
    uint64_t state;
} maker;

static unsigned pick(maker *m, unsigned n) {
    return test_pick(&m->state, n);
}

/* ---- what was handed out, and what is gone ---- */

static const ls_load *load_at(const ls_plan *p, size_t i) {
    return i < p->loads_n ? &p->loads[i] : &p->out[i - p->loads_n];
}

static long number_in(const char *ticket) {
    const char *s = strrchr(ticket, '-');
    while (s[-1] >= '0' && s[-1] <= '9')
        s--;
    return strtol(s, NULL, 10);
}

/* As the log tells it: tons and acres to 0.0001. */
static double told(double v, double unit) {
    return round(v / unit * 10000) / 10000 * unit;
}

static void find_place(const ls_farm *farm, const ls_drop *d, ls_issued_drop *out) {
    for (size_t b = 0; b < farm->buyers.n; b++)
        for (size_t f = 0; f < farm->buyers.at[b].fields.n; f++) {
            const ls_buyer *buyer = &farm->buyers.at[b];
            if (strcmp(buyer->name.text, d->buyer->name.text) == 0 &&
                strcmp(buyer->fields.at[f].name.text, d->field->name.text) == 0)
                out->buyer = buyer, out->field = &buyer->fields.at[f];
        }
}

static ls_issued issue(const plan_rules *was, const ls_farm *now, const ls_load *load) {
    ls_arena *a = was->arena;
    ls_issued_drop *drops = LS_NEW(a, ls_issued_drop, load->n + 1);
    for (size_t k = 0; k < load->n; k++) {
        const ls_drop *d = &load->drops[k];
        drops[k] = (ls_issued_drop){
            .name = ls_arena_printf(a, "%s/%s", d->buyer->name.text, d->field->name.text),
            .tons = told(plan_rules_value(was, d->tons), TON),
            .acres = told(plan_rules_value(was, d->acres), ACRE)};
        find_place(now, d, &drops[k]);
    }
    if (load->n == 0)
        drops[0] = (ls_issued_drop){.name = "stack", .tons = plan_rules_value(was, load->tons)};
    return (ls_issued){.lot = load->lot->code,
                       .ticket = load->ticket,
                       .number = number_in(load->ticket),
                       .from_stack = load->from_stack,
                       .to_stack = load->buyer == NULL,
                       .certainty = (int)load->certainty,
                       .planned = load->from_stack ? load->from : load->day,
                       .tons = told(plan_rules_value(was, load->tons), TON),
                       .buyer_name = load->buyer == NULL ? NULL : load->buyer->name.text,
                       .n = load->n == 0 ? 1 : load->n,
                       .drops = drops,
                       .log_entry = 1};
}

static ls_hauled haul(ls_arena *a, const ls_issued *ticket, ls_date day) {
    ls_hauled_drop *drops = LS_NEW(a, ls_hauled_drop, ticket->n);
    for (size_t k = 0; k < ticket->n; k++)
        drops[k] = (ls_hauled_drop){ticket->drops[k].buyer, ticket->drops[k].field,
                                    ticket->drops[k].tons, ticket->drops[k].acres, false};
    size_t known = ticket->n; /* the books tell no place of a load if the files do not name it */
    for (size_t k = 0; k < ticket->n; k++)
        known = !ticket->to_stack && drops[k].field == NULL ? 0 : known;
    return (ls_hauled){.lot = ticket->lot,
                       .ticket = ticket->ticket,
                       .number = ticket->number,
                       .from_stack = ticket->from_stack,
                       .day = day,
                       .tons = ticket->tons,
                       .cleared = NAN,
                       .n = known,
                       .drops = drops,
                       .entry = "an entry"};
}

/* Loads of the first days are gone as planned; of the others some or all were handed out, and to
 * each buyer a slip for his firm loads. */
static void hand_out(maker *m, const plan_rules *was, plan_rules *now, int days, unsigned one_of) {
    ls_arena *a = m->a;
    ls_date end = LS_NO_DATE;
    for (size_t i = 0; i < was->plan->days_n && (int)i < days; i++)
        end = was->plan->days[i].day;
    long *firm = LS_NEW(a, long, was->farm->buyers.n);
    for (size_t i = 0; i < was->plan->loads_n + was->plan->out_n; i++) {
        const ls_load *load = load_at(was->plan, i);
        ls_issued ticket = issue(was, now->farm, load);
        if (load->buyer != NULL)
            firm[load->buyer - was->farm->buyers.at] += load->certainty == LS_FIRM;
        if (end != LS_NO_DATE && !load->from_stack && ls_load_counted(load) && load->day <= end)
            *LS_PUSH(a, &now->farm->hauled) = haul(a, &ticket, load->day);
        else if (pick(m, one_of) == 0)
            *LS_PUSH(a, &now->farm->issued) = ticket;
    }
    for (size_t b = 0; b < was->farm->buyers.n; b++) {
        const char *name = was->farm->buyers.at[b].name.text;
        const ls_buyer *buyer = NULL;
        for (size_t k = 0; k < now->farm->buyers.n; k++)
            if (strcmp(now->farm->buyers.at[k].name.text, name) == 0)
                buyer = &now->farm->buyers.at[k];
        if (firm[b] > 0)
            *LS_PUSH(a, &now->farm->promised) =
                (ls_promise_slip){.name = name, .buyer = buyer, .loads = firm[b], .price = NAN};
    }
}

/* ---- what must hold ---- */

/* Way, buyer and rates of the ticket; rates but for what the log rounds. */
static bool stays(const plan_rules *t, const ls_issued *ticket, const ls_load *load) {
    bool same =
        strcmp(load->ticket, ticket->ticket) == 0 && load->from_stack == ticket->from_stack &&
        (load->buyer == NULL) == ticket->to_stack && strcmp(load->lot->code, ticket->lot) == 0 &&
        load->n == (ticket->to_stack ? 0 : ticket->n);
    for (size_t k = 0; same && k < load->n; k++) {
        double rate = plan_rules_value(t, load->drops[k].rate),
               on = ticket->drops[k].tons / ticket->drops[k].acres;
        same = load->drops[k].field == ticket->drops[k].field &&
               fabs(rate - on) <=
                   on * 1e-4 * (1 + TON / ticket->drops[k].tons + ACRE / ticket->drops[k].acres);
    }
    return same;
}

static const ls_recall *recall_of(const ls_plan *p, const ls_issued *ticket) {
    for (size_t i = 0; i < p->recalled.n; i++)
        if (p->recalled.at[i].issued == ticket)
            return &p->recalled.at[i];
    return NULL;
}

static const ls_load *load_of(const ls_plan *p, const ls_issued *ticket) {
    for (size_t i = 0; i < p->loads_n + p->out_n; i++)
        if (load_at(p, i)->issued == ticket)
            return load_at(p, i);
    return NULL;
}

static void tickets_hold(const plan_rules *t) {
    const ls_plan *p = t->plan;
    for (size_t k = 0; k < t->farm->issued.n; k++) {
        const ls_issued *ticket = &t->farm->issued.at[k];
        const ls_load *load = load_of(p, ticket);
        const ls_recall *recall = recall_of(p, ticket);
        PLAN_HOLDS(t, (load == NULL) != (recall == NULL));
        if (load != NULL)
            PLAN_HOLDS(t, stays(t, ticket, load));
        if (recall != NULL)
            PLAN_HOLDS(t, recall->why != NULL && recall->why[0] != '\0');
        if (recall != NULL && recall->now != NULL)
            PLAN_HOLDS(t, strcmp(recall->now->ticket, ticket->ticket) == 0 &&
                              recall->now->issued == NULL);
    }
    for (size_t i = 0; i < p->loads_n + p->out_n; i++) {
        for (size_t k = 0; k < i; k++)
            PLAN_HOLDS(t, strcmp(load_at(p, i)->ticket, load_at(p, k)->ticket) != 0);
        for (size_t k = 0; k < t->farm->hauled.n; k++)
            PLAN_HOLDS(t, strcmp(load_at(p, i)->ticket, t->farm->hauled.at[k].ticket) != 0);
    }
}

/* ---- could it have stayed? ---- */

typedef struct {
    double tons;
    long loads;
} amount;

static amount bound_for(const plan_rules *t, const ls_buyer *b) {
    amount sum = {0, 0};
    for (size_t i = 0; i < t->plan->loads_n + t->plan->out_n; i++) {
        const ls_load *l = load_at(t->plan, i);
        if (l->issued != NULL && l->buyer == b)
            sum.tons += plan_rules_value(t, l->tons), sum.loads++;
    }
    for (size_t i = 0; i < t->farm->hauled.n; i++) {
        const ls_hauled *h = &t->farm->hauled.at[i];
        if (h->n > 0 && h->drops[0].buyer == b)
            sum.tons += h->tons, sum.loads++;
    }
    return sum;
}

static bool order_is_full(const plan_rules *t, const ls_buyer *b, double tons) {
    if (b->order == NULL || b->order->most.form == 0)
        return false;
    amount has = bound_for(t, b);
    return b->order->most.unit.dimension.power[LS_LOAD] == 1
               ? (double)has.loads + 1 > b->order->most.value
               : has.tons + tons > b->order->most.value + 1;
}

static bool field_refuses(const plan_rules *t, const ls_issued *ticket, const ls_issued_drop *drop,
                          double tons) {
    const ls_field *f = drop->field;
    const plan_bounds *b = NULL;
    for (size_t i = 0; i < t->bounds.n; i++)
        b = t->bounds.at[i].field == f ? &t->bounds.at[i] : b;
    double rate = drop->tons / drop->acres, covered = 0, least = INFINITY;
    for (size_t i = 0; i < t->estimate->n; i++)
        for (size_t k = 0; strcmp(t->estimate->lots[i].code, ticket->lot) == 0 && k < PLAN_LIMITS;
             k++)
            least = fmin(least, b->most[i][k]);
    const ls_rate_range *truck = t->farm->trucks.at[0].rate;
    if (rate > least * (1 + 1e-4) ||
        (truck != NULL && LS_GIVEN(truck->least) && rate < truck->least.value * (1 - 1e-4)) ||
        (truck != NULL && LS_GIVEN(truck->least) && least < truck->least.value * (1 + 1e-4)) ||
        (f->phosphorus != NULL && f->phosphorus->rating.is == LS_RATING_VERY_HIGH))
        return true;
    for (size_t i = 0; i < t->plan->loads_n + t->plan->out_n; i++)
        for (size_t k = 0; k < load_at(t->plan, i)->n; k++)
            if (load_at(t->plan, i)->issued != NULL && load_at(t->plan, i)->drops[k].field == f)
                covered += plan_rules_value(t, load_at(t->plan, i)->drops[k].acres);
    for (size_t i = 0; i < t->farm->hauled.n; i++)
        for (size_t k = 0; k < t->farm->hauled.at[i].n; k++)
            if (t->farm->hauled.at[i].drops[k].field == f)
                covered += t->farm->hauled.at[i].drops[k].acres;
    return covered + tons * drop->tons / ticket->tons / rate > b->acres - 1e-4 * ACRE;
}

/* The lot's loads go on days on which the field is closed, or would with this one. */
static bool is_closed(const plan_rules *t, const ls_issued *ticket, const ls_field *f) {
    ls_date first = LS_NO_DATE, last = LS_NO_DATE;
    for (size_t i = 0; i < t->plan->loads_n; i++) {
        const ls_load *l = &t->plan->loads[i];
        if (strcmp(l->lot->code, ticket->lot) != 0)
            continue;
        first = first == LS_NO_DATE || l->day < first ? l->day : first;
        last = last == LS_NO_DATE || l->emptied.day > last ? l->emptied.day : last;
    }
    ls_window open = f->allowed;
    return open.from != LS_NO_DATE &&
           (first == LS_NO_DATE || open.from > first - 1 || open.to < last + 2);
}

/* Litter of the lot at the very best, less what is bound of it. */
static double litter_left(const plan_rules *t, const ls_issued *ticket) {
    for (size_t i = 0; i < t->estimate->n; i++) {
        const ls_lot *lot = &t->estimate->lots[i];
        double left = lot->tons.high;
        if (strcmp(lot->code, ticket->lot) != 0)
            continue;
        for (size_t k = 0; k < t->plan->loads_n; k++)
            if (t->plan->loads[k].lot == lot && t->plan->loads[k].issued != NULL)
                left -= plan_rules_value(t, t->plan->loads[k].tons);
        double all = t->estimate->tons.high;
        for (size_t k = 0; k < t->plan->loads_n; k++)
            all -= plan_rules_value(t, t->plan->loads[k].tons);
        return fmin(left, fmax(all, 0) + left); /* the farm's high case binds all lots together */
    }
    return 0;
}

/* A limit that the ticket breaks beside those that stay. */
/* Room of the stack in the piles of what is bound for it, or lies there, and this ticket's. */
static double room_with(const plan_rules *t, const ls_issued *ticket) {
    double piles = (double)(t->plan->piles.n > 0 ? t->plan->piles.n : 1);
    for (size_t i = 0; i < t->estimate->n; i++) {
        const ls_lot *lot = &t->estimate->lots[i];
        bool lies = strcmp(lot->code, ticket->lot) == 0;
        for (size_t k = 0; k < t->plan->loads_n; k++) {
            const ls_load *l = &t->plan->loads[k];
            lies = lies || (l->lot == lot && l->buyer == NULL && l->issued != NULL);
        }
        for (size_t k = 0; k < t->farm->hauled.n; k++) {
            const ls_hauled *h = &t->farm->hauled.at[k];
            lies =
                lies || (h->n > 0 && h->drops[0].buyer == NULL && strcmp(h->lot, lot->code) == 0);
        }
        piles -= lies ? 1 : 0;
    }
    return plan_rules_value(t, t->plan->stack_room) +
           piles * plan_rules_value(t, t->plan->another_pile);
}

static bool is_broken(const plan_rules *t, const ls_issued *ticket) {
    double tons = ticket->tons;
    for (size_t i = 0; i < t->estimate->n; i++)
        if (strcmp(t->estimate->lots[i].code, ticket->lot) == 0)
            tons = fmin(tons, plan_rules_value(t, t->estimate->lots[i].payload.line));
    double some = fmin(tons, TON * (double)ticket->n);
    double left = ticket->from_stack ? tons : litter_left(t, ticket);
    if (left < some + 20 && !ticket->from_stack)
        return true;
    tons = fmin(tons, left);
    if (ticket->to_stack)
        return t->plan->stack_room == LS_NO_LINE ||
               bound_for(t, NULL).tons + tons > room_with(t, ticket) - 20;
    for (size_t k = 0; k < ticket->n; k++) {
        const ls_issued_drop *d = &ticket->drops[k];
        if (d->field == NULL || order_is_full(t, d->buyer, tons) ||
            field_refuses(t, ticket, d, tons) || is_closed(t, ticket, d->field))
            return true;
    }
    return ticket->from_stack; /* its litter: seen by the rules of the stack */
}

static void recalls_hold(const plan_rules *t) {
    for (size_t i = 0; i < t->plan->recalled.n; i++) {
        const ls_issued *ticket = t->plan->recalled.at[i].issued;
        if (!is_broken(t, ticket))
            printf("\n%s (%s, %.2f ton): %s", ticket->ticket, ticket->drops[0].name,
                   ticket->tons / TON, t->plan->recalled.at[i].why);
        PLAN_HOLDS(t, is_broken(t, ticket));
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
        return farm->buyers.n < 2 ? NULL
                                  : ls_arena_printf(a, "buyers: [{name: %s, remove: yes}]\n",
                                                    any_buyer(m, farm)->name.text);
    case PRICE:
        return ls_arena_printf(a, "buyers: [{name: %s, price: %.0f $/ton}]\n",
                               any_buyer(m, farm)->name.text, test_between(&m->state, 0, 60));
    case AREA:
        return of_field(m, farm,
                        ls_arena_printf(a, "area: %.1f ac", test_between(&m->state, 1, 30)));
    case WINDOW:
        return of_field(
            m, farm, pick(m, 2) ? "open: 2026-02-01..2026-02-18" : "open: 2026-04-01..2026-06-30");
    case RATE:
        return of_field(m, farm,
                        ls_arena_printf(a, "most: %.1f ton/ac", test_between(&m->state, .5, 4)));
    case TRUCK:
        return ls_arena_printf(a, "trucks: [{name: truck, payload: %.1f ton}]\n",
                               test_between(&m->state, 4, 14));
    case SHORT:
        return ls_arena_printf(a, "houses: [{name: %s, length: %.0f ft}]\n", h->name.text,
                               h->length.value * .8);
    case MOISTURE:
        return ls_arena_printf(
            a,
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
    default:
        return NULL;
    }
}

/* ---- farm by farm ---- */

static void tell(const plan_rules *t) {
    for (size_t i = 0; i < t->plan->recalled.n; i++)
        printf("\n  recalled %s: %s", t->plan->recalled.at[i].issued->ticket,
               t->plan->recalled.at[i].why);
}

/* The plan of the changed farm with its tickets handed out, and looked at. */
static void changed(maker *m, const plan_rules *was, unsigned kind, int days, unsigned one_of) {
    const char *text = change_of(m, was->farm, kind), *why;
    const char *path = text == NULL ? NULL : ls_arena_printf(m->a, "%s/change.yaml", m->folder);
    if (path != NULL)
        CU_ASSERT_TRUE_FATAL(ls_file_write(m->a, path, text, strlen(text), &why));
    plan_rules now =
        plan_rules_read(m->a, m->r, m->path, path,
                        ls_arena_printf(m->a, "%s, change %u (%s), %d days, one of %u", was->seed,
                                        kind, text == NULL ? "" : text, days, one_of));
    PLAN_HOLDS(&now, now.farm != NULL);
    if (now.farm == NULL)
        return;
    hand_out(m, was, &now, days, one_of);
    plan_rules_plan(&now, m->r);
    PLAN_HOLDS(&now, now.plan != NULL);
    if (now.plan == NULL)
        return;
    plan_rules_hold(&now);
    tickets_hold(&now);
    recalls_hold(&now);
    if (text == NULL && now.plan->recalled.n > 0)
        tell(&now);
    if (text == NULL) /* a plan as good as the one handed out changes nothing */
        PLAN_HOLDS(&now, now.plan->recalled.n == 0);
}

static void one_farm(const ls_reference *r, const char *folder, uint64_t seed) {
    maker m = {.a = ls_arena_new(), .r = r, .folder = folder, .state = seed};
    m.path = test_file(m.a, folder, "farm.yaml", test_random_farm(m.a, seed));
    plan_rules was = plan_rules_read(m.a, r, m.path, NULL,
                                     ls_arena_printf(m.a, "%llu", (unsigned long long)seed));
    plan_rules_plan(&was, r);
    changed(&m, &was, NOTHING, 0, 1);
    changed(&m, &was, NOTHING, 0, 2);
    changed(&m, &was, NOTHING, 1, 1);
    changed(&m, &was, NOTHING, 2, 2);
    for (int k = 0; k < 3; k++)
        changed(&m, &was, 1 + pick(&m, CHANGES - 1), (int)pick(&m, 3), 1 + pick(&m, 2));
    ls_arena_free(m.a);
}

static void random_tickets(void) {
    ls_arena *a = ls_arena_new();
    const ls_reference *r = ls_reference_load(a);
    const char *folder = test_folder(a);
    uint64_t first = test_count("FIRST_TICKETS", 1), farms = test_count("RANDOM_TICKETS", FARMS);
    for (uint64_t seed = first; seed < first + farms; seed++)
        one_farm(r, folder, seed);
    test_folder_end(folder);
    ls_arena_free(a);
}

TEST_SUITE(bound) = {
    {"tickets handed out stay or are recalled", random_tickets},
    CU_TEST_INFO_NULL,
};
