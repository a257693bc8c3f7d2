/* The stack holds what it has room for; and what is left in the lots goes there as far as fields wait for it. */
#include "split.h"

typedef struct {
    const ls_haul_task *t;
    ls_haul_answer *x, *before;
    bool *tried; /* [buyer] */
} stacker;

static double merit(const stacker *s, size_t lot, size_t buyer) {
    const ls_haul_task *t = s->t;
    double best = -1e15;
    for (size_t f = t->first[buyer]; f < t->first[buyer + 1]; f++) {
        size_t at = ls_haul_task_field(t, lot, f);
        if (t->later[at] && t->later_value[at] > best) best = t->later_value[at];
    }
    return best - t->trip_cost[buyer] * 100 / (double)t->payload_out[lot];
}

/* More tons out of the stack to one buyer, whose order and fields may not take as many; returns what goes. */
static int64_t out_to(stacker *s, size_t lot, size_t buyer, int64_t tons) {
    const ls_haul_task *t = s->t;
    ls_haul_side side = ls_haul_out_side(t, s->x, lot, buyer);
    if (t->most[buyer] != LS_HAUL_PLENTY)
        tons = ls_haul_lesser(tons, t->most[buyer] - ls_haul_on_buyer(t, s->x, buyer));
    tons = ls_haul_lesser(tons, ls_haul_side_spare(side));
    if (tons <= 0) return 0;
    ls_haul_answer_copy_buyer(t, s->before, s->x, buyer);
    int64_t gone = tons - ls_haul_side_fill(side, tons);
    if (gone > 0 && ls_haul_side_mend(side) && ls_haul_order_allows(t, s->x, buyer, 0, 0) &&
        ls_haul_pieces_of(t, s->x, lot, buyer, true, NULL))
        return gone;
    ls_haul_answer_copy_buyer(t, s->x, s->before, buyer);
    return 0;
}

/* Up to tons out of the stack, best paid buyers first; returns what goes. */
static int64_t out(stacker *s, size_t lot, int64_t tons) {
    int64_t gone = 0;
    for (size_t b = 0; b < s->t->buyers; b++) s->tried[b] = false;
    for (size_t n = 0; n < s->t->buyers && gone < tons; n++) {
        size_t best = s->t->buyers;
        double most = 0;
        for (size_t b = 0; b < s->t->buyers; b++) {
            double money = s->tried[b] ? 0 : merit(s, lot, b);
            if (!s->tried[b] && (best == s->t->buyers || money > most)) best = b, most = money;
        }
        s->tried[best] = true;
        gone += out_to(s, lot, best, tons - gone);
    }
    return gone;
}

static int64_t left(const stacker *s, size_t lot) {
    int64_t lot_left = s->t->tons[lot] - ls_haul_gone(s->t, s->x, lot);
    int64_t room = ls_haul_room_left(s->t, s->x);
    bool lies = ls_haul_lies(s->t, s->x, lot);
    return ls_haul_lesser(lot_left, lies ? room : room - s->t->pile[lot]);
}

static void stack_lot(stacker *s, size_t lot) {
    const ls_haul_task *t = s->t;
    size_t at = ls_haul_task_to(t, lot, t->buyers);
    int64_t payload = t->payload[lot];
    out(s, lot, ls_haul_sent(t, s->x, lot, t->buyers) - ls_haul_out_of_lot(t, s->x, lot));
    while (payload > 0 && left(s, lot) >= payload) {
        if (out(s, lot, payload) == 0) break;
        s->x->full[at]++;
    }
    int64_t part = ls_haul_lesser(left(s, lot), payload - 1);
    if (part >= t->drop && !ls_haul_has_part(t, s->x, lot)) s->x->part[at] = out(s, lot, part);
}

void ls_haul_stack_up(const ls_haul_task *t, ls_haul_answer *x) {
    stacker s = {.t = t, .x = x, .before = ls_haul_answer_new(t)};
    s.tried = LS_NEW(t->arena, bool, t->buyers);
    for (size_t i = 0; i < t->lots; i++) stack_lot(&s, i);
}

/* ---- too much ---- */

/* The smallest pile with a load that is not promised; lots: none. */
static size_t smallest_pile(const ls_haul_task *t, const ls_haul_answer *x) {
    size_t best = t->lots;
    for (size_t i = 0; i < t->lots; i++) {
        size_t at = ls_haul_task_to(t, i, t->buyers);
        bool open = x->part[at] > 0 || x->full[at] > t->kept[at];
        if (open && (best == t->lots || ls_haul_sent(t, x, i, t->buyers) < ls_haul_sent(t, x, best, t->buyers)))
            best = i;
    }
    return best;
}

void ls_haul_fit_stack(const ls_haul_task *t, ls_haul_answer *x) {
    size_t lot;
    while (ls_haul_room_left(t, x) < 0 && (lot = smallest_pile(t, x)) < t->lots) {
        size_t at = ls_haul_task_to(t, lot, t->buyers);
        if (x->part[at] > 0)
            x->part[at] = 0;
        else
            x->full[at]--;
    }
}
