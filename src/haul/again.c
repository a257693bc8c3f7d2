/* Planning again while trucks run: what was promised stays promised as far as there is litter and
 * room for it, and a ticket keeps where it goes as far as the new plan goes there too. */
#include "plan.h"
#include "haul/split/split.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* ---- promises ---- */

/* What is left to promise from. */
typedef struct {
    const ls_haul_planner *p;
    ls_split_problem q;
    int64_t *capacity; /* [field] millionths of an acre */
    double *most;      /* [buyer] tons */
    long *loads;       /* [buyer], most */
    long *sure;        /* [lot] full loads */
    double stack;
} stock;

static stock stock_of(const ls_haul_planner *p, const ls_split_problem *q, const double *sure) {
    stock s = {.p = p, .q = *q, .stack = p->stack_tons};
    s.capacity = LS_NEW(p->arena, int64_t, p->fields);
    s.most = LS_NEW(p->arena, double, p->buyers);
    s.loads = LS_NEW(p->arena, long, p->buyers);
    s.sure = LS_NEW(p->arena, long, p->lots);
    for (size_t f = 0; f < p->fields; f++)
        s.capacity[f] = ls_haul_down(p->acres[f], 1e6);
    memcpy(s.most, q->most, p->buyers * sizeof *s.most);
    memcpy(s.loads, q->most_loads, p->buyers * sizeof *s.loads);
    for (size_t i = 0; i < p->lots; i++) {
        s.sure[i] = (long)floor(sure[i] / p->payload[i] + 1e-9);
        if (ls_haul_is_stacked(p, i))
            s.stack -= p->tons[0][i];
    }
    return s;
}

/* Hundredths of a ton of the lot that go on the field the load had as its k-th; taken off it if
 * told. */
static int64_t on_field(stock *s, size_t lot, const ls_field *field, int64_t most, bool take) {
    const ls_haul_planner *p = s->p;
    size_t f = 0;
    while (f < p->fields && p->field[f] != field)
        f++;
    size_t at = ls_haul_lot_field(p, lot, f < p->fields ? f : 0);
    if (f == p->fields || !s->q.open[at] || !(p->rate[at] > 0))
        return 0;
    int64_t fit = ls_haul_fit(1 / p->rate[at], s->capacity[f]);
    fit = fit < most ? fit : most;
    if (take)
        s->capacity[f] -= ls_haul_cover(1 / p->rate[at], fit);
    return fit;
}

/* Does a full load of the lot still fit on the fields it was for? If so they are taken. */
static bool takes_fields(stock *s, size_t lot, const ls_load *load) {
    int64_t left = 0;
    for (int pass = 0; pass < 2 && left == 0; pass++) { /* seen first, taken then */
        left = (int64_t)round(s->p->payload[lot] * 100);
        for (size_t k = 0; k < load->n; k++)
            left -= on_field(s, lot, load->drops[k].field, left, pass == 1);
    }
    return left == 0;
}

static bool takes(stock *s, size_t lot, const ls_load *load) {
    double tons = s->p->payload[lot];
    if (s->sure[lot] < 1)
        return false;
    if (load->buyer == NULL) {
        if (s->stack < tons)
            return false;
        s->stack -= tons;
    } else {
        size_t b = (size_t)(load->buyer - s->p->farm->buyers.at);
        if (s->loads[b] < 1 || s->most[b] < tons || !takes_fields(s, lot, load))
            return false;
        s->loads[b]--;
        s->most[b] -= tons;
    }
    s->sure[lot]--;
    return true;
}

static bool is_gone(const ls_haul_planner *p, const char *ticket) {
    for (size_t k = 0; k < p->farm->hauled.n; k++)
        if (strcmp(p->farm->hauled.at[k].ticket, ticket) == 0)
            return true;
    return false;
}

void ls_haul_promise_again(const ls_haul_planner *p, const ls_split_problem *q, const double *sure,
                           ls_haul_promise *to) {
    if (p->before == NULL)
        return;
    stock s = stock_of(p, q, sure);
    for (size_t k = 0; k < p->before->loads_n; k++) {
        const ls_load *load = &p->before->loads[k];
        size_t lot = ls_haul_lot_coded(p, load->lot->code);
        if (load->certainty != LS_FIRM || lot == p->e->n || is_gone(p, load->ticket) ||
            !takes(&s, lot, load))
            continue;
        size_t buyer = load->buyer == NULL ? p->buyers : (size_t)(load->buyer - p->farm->buyers.at);
        to->full[ls_haul_lot_to(p, lot, buyer)]++;
    }
}

/* ---- ticket numbers ---- */

/* A load with its place in the plan's list. */
typedef struct {
    ls_load load;
    size_t of;   /* load of the high stage */
    size_t lot;  /* of the estimate */
    long number; /* 0: none yet */
} numbered;

bool ls_load_same_fields(const ls_load *a, const ls_load *b) {
    bool same = a->buyer == b->buyer && a->n == b->n;
    for (size_t k = 0; same && k < a->n; k++)
        same = a->drops[k].field == b->drops[k].field;
    return same;
}

/* The same end, and as far as fields go the same ones. */
static bool same_end(const ls_load *a, const ls_load *b, bool fields) {
    return a->buyer == b->buyer && a->from_stack == b->from_stack &&
           (!fields || ls_load_same_fields(a, b));
}

/* Running number in a ticket, which stands before the check character. */
static long number_in(const char *ticket) {
    size_t n = strlen(ticket);
    const char *s = ticket + n - 2;
    while (s > ticket && s[-1] >= '0' && s[-1] <= '9')
        s--;
    return strtol(s, NULL, 10);
}

/* Tickets of the plan before that are still to go, to the loads that go the same way. */
static void match(const ls_haul_planner *p, numbered *list, size_t n, const ls_load *before,
                  size_t before_n, bool *used, bool fields) {
    for (size_t b = 0; b < before_n; b++) {
        if (used[b] || is_gone(p, before[b].ticket))
            continue;
        size_t lot = ls_haul_lot_coded(p, before[b].lot->code);
        for (size_t k = 0; k < n && !used[b]; k++)
            if (list[k].number == 0 && list[k].lot == lot &&
                same_end(&list[k].load, &before[b], fields)) {
                list[k].number = number_in(before[b].ticket);
                used[b] = true;
            }
    }
}

static bool is_taken(const ls_haul_planner *p, const numbered *list, size_t n, size_t lot,
                     long number, bool from_stack) {
    for (size_t k = 0; k < n; k++)
        if (list[k].lot == lot && list[k].number == number)
            return true;
    return ls_haul_number_gone(p, lot, number, from_stack);
}

/* The rest gets the least numbers that are free. */
static void number_rest(const ls_haul_planner *p, numbered *list, size_t n, bool from_stack) {
    for (size_t k = 0; k < n; k++)
        for (long number = 1; list[k].number == 0; number++)
            if (!is_taken(p, list, n, list[k].lot, number, from_stack))
                list[k].number = number;
}

/* Firm loads of a lot first, possible ones last, whatever number they have kept. */
static int in_order(const void *a, const void *b) {
    const numbered *x = a, *y = b;
    if (x->lot != y->lot)
        return x->lot < y->lot ? -1 : 1;
    if (x->load.certainty != y->load.certainty)
        return x->load.certainty < y->load.certainty ? -1 : 1;
    return x->number < y->number ? -1 : x->number > y->number;
}

static void renumber(ls_haul_planner *p, ls_load *loads, size_t *of, size_t n,
                     const ls_load *before, size_t before_n, bool from_stack) {
    if (n == 0)
        return;
    numbered *list = LS_NEW(p->arena, numbered, n);
    bool *used = LS_NEW(p->arena, bool, before_n);
    for (size_t k = 0; k < n; k++)
        list[k] = (numbered){loads[k], of[k], p->lot_of[p->high->loads[of[k]].lot], 0};
    match(p, list, n, before, before_n, used, true);
    match(p, list, n, before, before_n, used, false);
    number_rest(p, list, n, from_stack);
    qsort(list, n, sizeof *list, in_order);
    for (size_t k = 0; k < n; k++) {
        loads[k] = list[k].load;
        of[k] = list[k].of;
        loads[k].ticket =
            ls_haul_ticket(p->arena, p->e->lots[list[k].lot].code, list[k].number, from_stack);
    }
}

void ls_haul_renumber(ls_haul_planner *p) {
    if (p->before == NULL)
        return;
    renumber(p, p->loads, p->load_of, p->plan->loads_n, p->before->loads, p->before->loads_n,
             false);
    renumber(p, p->out, p->out_of, p->plan->out_n, p->before->out, p->before->out_n, true);
}
