/* Loads of a buyer for others: what a whole number of loads leaves free on its fields is less where
 * trucks of other lots take more or less. */
#include "split.h"

enum { MOST_OUT = 2, MOST_IN = 3, MOST_TRADES = 50 };

typedef struct {
    const ls_haul_task *t;
    ls_haul_answer *x, *before;
    size_t buyer;
    int64_t *left; /* [lot] in the house, of all buyers */
    int64_t room;  /* tons that the fields take beside what is on them, of the lot they take most of */
    size_t out[MOST_OUT], in[MOST_IN];
    size_t outs, ins; /* of the trade that is tried */
    int64_t best;     /* hundredths of a ton more */
    size_t best_out[MOST_OUT], best_in[MOST_IN], best_outs, best_ins;
} trader;

static bool stands(const trader *s, size_t lot) {
    ls_haul_side side = ls_haul_straight_side(s->t, s->x, lot, s->buyer);
    return ls_haul_side_mend(side) && ls_haul_pieces_of(s->t, s->x, lot, s->buyer, false, NULL);
}

static bool put_in(trader *s, size_t lot) {
    ls_haul_side side = ls_haul_straight_side(s->t, s->x, lot, s->buyer);
    s->x->full[ls_haul_task_to(s->t, lot, s->buyer)]++;
    return ls_haul_side_fill(side, s->t->payload[lot]) == 0;
}

/* True if the trade is made and keeps every limit. */
static bool make(trader *s, const size_t *out, size_t outs, const size_t *in, size_t ins) {
    bool made = true;
    for (size_t k = 0; k < outs; k++) {
        s->x->full[ls_haul_task_to(s->t, out[k], s->buyer)]--;
        ls_haul_side_cut(ls_haul_straight_side(s->t, s->x, out[k], s->buyer), s->t->payload[out[k]]);
    }
    for (size_t k = 0; k < ins && made; k++) made = put_in(s, in[k]);
    for (size_t k = 0; k < outs && made; k++) made = stands(s, out[k]);
    for (size_t k = 0; k < ins && made; k++) made = stands(s, in[k]);
    return made && ls_haul_order_allows(s->t, s->x, s->buyer, 0, 0);
}

static void try(trader *s, int64_t more) {
    if (more <= s->best || more > s->room + 300) return;
    if (make(s, s->out, s->outs, s->in, s->ins)) {
        s->best = more, s->best_outs = s->outs, s->best_ins = s->ins;
        for (size_t k = 0; k < s->outs; k++) s->best_out[k] = s->out[k];
        for (size_t k = 0; k < s->ins; k++) s->best_in[k] = s->in[k];
    }
    ls_haul_answer_copy_buyer(s->t, s->x, s->before, s->buyer);
}

static void add_in(trader *s, size_t first, int64_t more) {
    if (s->ins > 0) try(s, more);
    if (s->ins == s->outs + 1 || s->ins == MOST_IN) return;
    for (size_t i = first; i < s->t->lots; i++) {
        bool given = false;
        for (size_t k = 0; k < s->outs; k++) given = given || s->out[k] == i;
        if (given || s->left[i] < s->t->payload[i]) continue;
        s->in[s->ins++] = i;
        s->left[i] -= s->t->payload[i];
        add_in(s, i, more + s->t->payload[i]);
        s->left[i] += s->t->payload[i];
        s->ins--;
    }
}

static void take_out(trader *s, size_t first, int64_t more) {
    if (s->outs > 0) add_in(s, 0, more);
    if (s->outs == MOST_OUT) return;
    for (size_t i = first; i < s->t->lots; i++) {
        size_t at = ls_haul_task_to(s->t, i, s->buyer);
        long taken = 0;
        for (size_t k = 0; k < s->outs; k++) taken += s->out[k] == i;
        if (s->x->full[at] - taken <= s->t->kept[at]) continue;
        s->out[s->outs++] = i;
        take_out(s, i, more - s->t->payload[i]);
        s->outs--;
    }
}

static bool trade(trader *s) {
    const ls_haul_task *t = s->t;
    s->room = s->best = 0;
    for (size_t i = 0; i < t->lots; i++) {
        ls_haul_side side = ls_haul_straight_side(t, s->x, i, s->buyer);
        int64_t spare = ls_haul_side_spare(side);
        s->room = spare > s->room ? spare : s->room;
    }
    if (s->room < t->drop) return false;
    ls_haul_answer_copy_buyer(t, s->before, s->x, s->buyer);
    take_out(s, 0, 0);
    if (s->best == 0) return false;
    make(s, s->best_out, s->best_outs, s->best_in, s->best_ins);
    for (size_t k = 0; k < s->best_outs; k++) s->left[s->best_out[k]] += t->payload[s->best_out[k]];
    for (size_t k = 0; k < s->best_ins; k++) s->left[s->best_in[k]] -= t->payload[s->best_in[k]];
    return true;
}

void ls_haul_trade(const ls_haul_task *t, ls_haul_answer *x) {
    trader s = {.t = t, .x = x, .before = ls_haul_answer_new(t)};
    s.left = LS_NEW(t->arena, int64_t, t->lots);
    for (size_t i = 0; i < t->lots; i++) s.left[i] = t->tons[i] - ls_haul_gone(t, x, i);
    for (s.buyer = 0; s.buyer < t->buyers; s.buyer++)
        for (int k = 0; k < MOST_TRADES && trade(&s);) k++;
}
