#include "bound_world.h"

#include "chance.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double TON = 2000, ACRE = 43560;

/* ---- what was handed out, and what is gone ---- */

const ls_load *bound_load(const ls_plan *p, size_t i) {
    return i < p->loads_n ? &p->loads[i] : &p->out[i - p->loads_n];
}

static long number_in(const char *ticket) {
    const char *s = strrchr(ticket, '-');
    while (s[-1] >= '0' && s[-1] <= '9') s--;
    return strtol(s, NULL, 10);
}

/* As the log tells it: tons and acres to 0.0001. */
static double told(double v, double unit) { return round(v / unit * 10000) / 10000 * unit; }

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
        drops[k] = (ls_issued_drop){.name = ls_arena_printf(a, "%s/%s", d->buyer->name.text, d->field->name.text),
                                    .tons = told(plan_rules_value(was, d->tons), TON),
                                    .acres = told(plan_rules_value(was, d->acres), ACRE)};
        find_place(now, d, &drops[k]);
    }
    if (load->n == 0) drops[0] = (ls_issued_drop){.name = "stack", .tons = plan_rules_value(was, load->tons)};
    return (ls_issued){.lot = load->lot->code,
                       .ticket = load->ticket,
                       .number = number_in(load->ticket),
                       .from_stack = load->from_stack,
                       .to_stack = load->buyer == NULL,
                       .certainty = (int)load->certainty,
                       .truck = &now->trucks.at[load->kind],
                       .planned = load->from_stack ? load->from : load->day,
                       .tons = told(plan_rules_value(was, load->tons), TON),
                       .full = plan_rules_value(was, load->tons) >
                               plan_rules_value(was, load->lot->kinds[load->kind].payload.line) - 0.005 * TON,
                       .buyer_name = load->buyer == NULL ? NULL : load->buyer->name.text,
                       .n = load->n == 0 ? 1 : load->n,
                       .drops = drops,
                       .log_entry = 1};
}

static ls_hauled haul(ls_arena *a, const ls_issued *ticket, ls_date day) {
    ls_hauled_drop *drops = LS_NEW(a, ls_hauled_drop, ticket->n);
    for (size_t k = 0; k < ticket->n; k++)
        drops[k] = (ls_hauled_drop){
            ticket->drops[k].buyer, ticket->drops[k].field, ticket->drops[k].tons, ticket->drops[k].acres, false, 0};
    size_t known = ticket->n; /* the books tell no place of a load if the files do not name it */
    for (size_t k = 0; k < ticket->n; k++) known = !ticket->to_stack && drops[k].field == NULL ? 0 : known;
    return (ls_hauled){.lot = ticket->lot,
                       .ticket = ticket->ticket,
                       .number = ticket->number,
                       .from_stack = ticket->from_stack,
                       .day = day,
                       .tons = ticket->tons,
                       .truck = ticket->truck,
                       .cleared = NAN,
                       .n = known,
                       .drops = drops,
                       .entry = "an entry"};
}

static long had_by(const ls_farm *farm, const ls_buyer *buyer) {
    long had = 0;
    for (size_t k = 0; buyer != NULL && k < farm->hauled.n; k++)
        had += farm->hauled.at[k].n > 0 && farm->hauled.at[k].drops[0].buyer == buyer;
    return had;
}

void bound_hand_out(const plan_rules *was, plan_rules *now, int days, unsigned one_of, uint64_t *state) {
    ls_arena *a = was->arena;
    ls_date end = LS_NO_DATE;
    for (size_t i = 0; i < was->plan->days_n && (int)i < days; i++) end = was->plan->days[i].day;
    long *firm = LS_NEW(a, long, was->farm->buyers.n);
    double *tons = LS_NEW(a, double, was->farm->buyers.n);
    for (size_t i = 0; i < was->plan->loads_n + was->plan->out_n; i++) {
        const ls_load *load = bound_load(was->plan, i);
        ls_issued ticket = issue(was, now->farm, load);
        if (load->buyer != NULL && load->certainty == LS_FIRM) {
            firm[load->buyer - was->farm->buyers.at]++;
            tons[load->buyer - was->farm->buyers.at] += plan_rules_value(was, load->tons);
        }
        if (end != LS_NO_DATE && !load->from_stack && ls_load_counted(load) && load->day <= end)
            *LS_PUSH(a, &now->farm->hauled) = haul(a, &ticket, load->day);
        else if (one_of < BOUND_NONE && test_pick(state, one_of) == 0)
            *LS_PUSH(a, &now->farm->issued) = ticket;
    }
    for (size_t b = 0; b < was->farm->buyers.n; b++) {
        const char *name = was->farm->buyers.at[b].name.text;
        const ls_buyer *buyer = NULL;
        for (size_t k = 0; k < now->farm->buyers.n; k++)
            if (strcmp(now->farm->buyers.at[k].name.text, name) == 0) buyer = &now->farm->buyers.at[k];
        if (firm[b] > 0)
            *LS_PUSH(a, &now->farm->promised) = (ls_promise_slip){.name = name,
                                                                  .buyer = buyer,
                                                                  .loads = firm[b],
                                                                  .had = had_by(now->farm, buyer),
                                                                  .tons = tons[b],
                                                                  .price = NAN};
    }
}

/* A ticket that a new load has the number of is replaced in the log. */
static bool is_replaced(const ls_plan *p, const ls_issued *ticket) {
    for (size_t i = 0; i < p->loads_n + p->out_n; i++)
        if (bound_load(p, i)->issued == NULL && strcmp(bound_load(p, i)->ticket, ticket->ticket) == 0) return true;
    return false;
}

/* Buyer and field of one farm, as the same farm read again has them. */
static void find_again(const plan_rules *was, const plan_rules *now, const ls_buyer **b, const ls_field **f) {
    if (*b == NULL) return;
    const ls_buyer *again = &now->farm->buyers.at[*b - was->farm->buyers.at];
    *f = *f == NULL ? NULL : &again->fields.at[*f - (*b)->fields.at];
    *b = again;
}

static const ls_truck *truck_again(const plan_rules *was, const plan_rules *now, const ls_truck *truck) {
    return truck == NULL ? NULL : &now->farm->trucks.at[truck - was->farm->trucks.at];
}

static void issue_again(const plan_rules *was, plan_rules *now, ls_issued ticket) {
    ls_issued_drop *drops = LS_NEW(was->arena, ls_issued_drop, ticket.n);
    for (size_t d = 0; d < ticket.n; d++) {
        drops[d] = ticket.drops[d];
        find_again(was, now, &drops[d].buyer, &drops[d].field);
    }
    ticket.drops = drops;
    ticket.truck = truck_again(was, now, ticket.truck);
    *LS_PUSH(was->arena, &now->farm->issued) = ticket;
}

static void haul_again(const plan_rules *was, plan_rules *now, ls_hauled load) {
    ls_hauled_drop *drops = LS_NEW(was->arena, ls_hauled_drop, load.n);
    for (size_t d = 0; d < load.n; d++) {
        drops[d] = load.drops[d];
        find_again(was, now, &drops[d].buyer, &drops[d].field);
    }
    load.drops = drops;
    load.truck = truck_again(was, now, load.truck);
    *LS_PUSH(was->arena, &now->farm->hauled) = load;
}

void bound_hand_out_rest(const plan_rules *was, plan_rules *now) {
    for (size_t k = 0; k < was->farm->issued.n; k++)
        if (!is_replaced(was->plan, &was->farm->issued.at[k])) issue_again(was, now, was->farm->issued.at[k]);
    for (size_t i = 0; i < was->plan->loads_n + was->plan->out_n; i++)
        if (bound_load(was->plan, i)->issued == NULL)
            *LS_PUSH(was->arena, &now->farm->issued) = issue(was, now->farm, bound_load(was->plan, i));
    for (size_t k = 0; k < was->farm->hauled.n; k++) haul_again(was, now, was->farm->hauled.at[k]);
    for (size_t k = 0; k < was->farm->promised.n; k++) {
        ls_promise_slip *slip = LS_PUSH(was->arena, &now->farm->promised);
        const ls_field *none = NULL;
        *slip = was->farm->promised.at[k];
        find_again(was, now, &slip->buyer, &none);
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
        const ls_load *l = bound_load(t->plan, i);
        if (l->issued != NULL && l->buyer == b) sum.tons += plan_rules_value(t, l->tons), sum.loads++;
    }
    for (size_t i = 0; i < t->farm->hauled.n; i++) {
        const ls_hauled *h = &t->farm->hauled.at[i];
        if (h->n > 0 && h->drops[0].buyer == b) sum.tons += h->tons, sum.loads++;
    }
    return sum;
}

static bool order_is_full(const plan_rules *t, const ls_buyer *b, double tons) {
    if (b->order == NULL || b->order->most.form == 0) return false;
    amount has = bound_for(t, b);
    return b->order->most.unit.dimension.power[LS_LOAD] == 1 ? (double)has.loads + 1 > b->order->most.value
                                                             : has.tons + tons > b->order->most.value + 1;
}

static bool field_refuses(const plan_rules *t, const ls_issued *ticket, const ls_issued_drop *drop, double tons) {
    const ls_field *f = drop->field;
    const plan_bounds *b = NULL;
    for (size_t i = 0; i < t->bounds.n; i++) b = t->bounds.at[i].field == f ? &t->bounds.at[i] : b;
    double rate = drop->tons / drop->acres, covered = 0, least = INFINITY;
    for (size_t i = 0; i < t->estimate->n; i++)
        for (size_t k = 0; strcmp(t->estimate->lots[i].code, ticket->lot) == 0 && k < PLAN_LIMITS; k++)
            least = fmin(least, b->most[i][k]);
    const ls_rate_range *truck = t->farm->trucks.at[0].rate;
    if (rate > least * (1 + 1e-4) ||
        (truck != NULL && LS_GIVEN(truck->least) && rate < truck->least.value * (1 - 1e-4)) ||
        (truck != NULL && LS_GIVEN(truck->least) && least < truck->least.value * (1 + 1e-4)) ||
        (f->phosphorus != NULL && f->phosphorus->rating.is == LS_RATING_VERY_HIGH))
        return true;
    for (size_t i = 0; i < t->plan->loads_n + t->plan->out_n; i++)
        for (size_t k = 0; k < bound_load(t->plan, i)->n; k++)
            if (bound_load(t->plan, i)->issued != NULL && bound_load(t->plan, i)->drops[k].field == f)
                covered += plan_rules_value(t, bound_load(t->plan, i)->drops[k].acres);
    for (size_t i = 0; i < t->farm->hauled.n; i++)
        for (size_t k = 0; k < t->farm->hauled.at[i].n; k++)
            if (t->farm->hauled.at[i].drops[k].field == f) covered += t->farm->hauled.at[i].drops[k].acres;
    return covered + tons * drop->tons / ticket->tons / rate > b->acres - 1e-4 * ACRE;
}

/* The lot's loads go on days on which the field is closed, or would with this one. */
static bool is_closed(const plan_rules *t, const ls_issued *ticket, const ls_field *f) {
    ls_date first = LS_NO_DATE, last = LS_NO_DATE;
    for (size_t i = 0; i < t->plan->loads_n; i++) {
        const ls_load *l = &t->plan->loads[i];
        if (strcmp(l->lot->code, ticket->lot) != 0) continue;
        first = first == LS_NO_DATE || l->day < first ? l->day : first;
        last = last == LS_NO_DATE || l->emptied.day > last ? l->emptied.day : last;
    }
    ls_window open = f->allowed;
    return open.from != LS_NO_DATE && (first == LS_NO_DATE || open.from > first - 1 || open.to < last + 2);
}

/* Sure, and for a buyer who was promised loads: these go before other tickets. */
static bool is_promised(const plan_rules *t, const ls_load *load) {
    bool promised = false;
    for (size_t k = 0; k < t->farm->promised.n; k++)
        promised = promised || t->farm->promised.at[k].buyer == load->buyer;
    return promised && load->buyer != NULL && load->certainty == LS_FIRM;
}

static double bound_of(const plan_rules *t, const ls_lot *lot) {
    double tons = 0;
    for (size_t k = 0; k < t->plan->loads_n; k++) {
        const ls_load *load = &t->plan->loads[k];
        if (load->lot == lot && (load->issued != NULL || is_promised(t, load))) tons += plan_rules_value(t, load->tons);
    }
    return tons;
}

/* Litter of the lot at the very best, less what is bound of it; and of all lots together no more
 * than the farm has in the high case, where the others have theirs of the middle case. */
static double litter_left(const plan_rules *t, const ls_issued *ticket) {
    double left = 0, all = t->estimate->tons.high, mids = 0;
    for (size_t i = 0; i < t->estimate->n; i++) mids += t->estimate->lots[i].tons.mid;
    for (size_t i = 0; i < t->estimate->n; i++) {
        const ls_lot *lot = &t->estimate->lots[i];
        double middle = lot->tons.mid * t->estimate->tons.mid / mids, bound = bound_of(t, lot);
        bool own = strcmp(lot->code, ticket->lot) == 0;
        left += own ? lot->tons.high - bound : 0;
        all -= own ? bound : fmax(middle, bound);
    }
    return fmin(left, all);
}

/* Is litter of the lot in the stack by the log, or bound for it? */
static bool lies(const plan_rules *t, const ls_lot *lot) {
    for (size_t k = 0; k < t->plan->loads_n; k++) {
        const ls_load *l = &t->plan->loads[k];
        if (l->lot == lot && l->buyer == NULL && l->issued != NULL) return true;
    }
    for (size_t k = 0; k < t->farm->hauled.n; k++) {
        const ls_hauled *h = &t->farm->hauled.at[k];
        if (h->n > 0 && h->drops[0].buyer == NULL && strcmp(h->lot, lot->code) == 0) return true;
    }
    return false;
}

/* Room of the stack in the piles of what lies there or is bound for it, this ticket with it. */
static double room_with(const plan_rules *t, const ls_issued *ticket) {
    double piles = (double)(t->plan->piles.n > 0 ? t->plan->piles.n : 1);
    for (size_t i = 0; i < t->estimate->n; i++) {
        const ls_lot *lot = &t->estimate->lots[i];
        piles -= lies(t, lot) || strcmp(lot->code, ticket->lot) == 0 ? 1 : 0;
    }
    return plan_rules_value(t, t->plan->stack_room) + piles * plan_rules_value(t, t->plan->another_pile);
}

/* A limit that the ticket breaks beside those that stay. */
bool bound_is_broken(const plan_rules *t, const ls_issued *ticket) {
    double tons = ticket->tons;
    for (size_t i = 0; i < t->estimate->n; i++)
        if (strcmp(t->estimate->lots[i].code, ticket->lot) == 0)
            tons = fmin(tons, plan_rules_value(t, t->estimate->lots[i].payload.line));
    double some = fmin(tons, TON * (double)ticket->n);
    double left = ticket->from_stack ? tons : litter_left(t, ticket);
    if (left < some + 20 && !ticket->from_stack) return true;
    tons = fmin(tons, left);
    if (ticket->to_stack)
        return t->plan->stack_room == LS_NO_LINE || bound_for(t, NULL).tons + tons > room_with(t, ticket) - 20;
    for (size_t k = 0; k < ticket->n; k++) {
        const ls_issued_drop *d = &ticket->drops[k];
        if (d->field == NULL || order_is_full(t, d->buyer, tons) || field_refuses(t, ticket, d, tons) ||
            is_closed(t, ticket, d->field))
            return true;
    }
    return ticket->from_stack; /* its litter: seen by the rules of the stack */
}
