/* What is left in the lots goes wherever whole loads still fit, best paid first. */
#include "split.h"

typedef struct {
    const ls_haul_task *t;
    ls_haul_answer *x, *before;
    bool *dead; /* [lot][buyer] tried in vain */
} filler;

static int64_t left(const filler *s, size_t lot) {
    return s->t->tons[lot] - ls_haul_gone(s->t, s->x, lot);
}

static bool *dead(const filler *s, size_t lot, size_t buyer) {
    return &s->dead[lot * s->t->buyers + buyer];
}

/* Put tons more on the buyer's fields, the loads already noted in x; or take all back. */
static bool commit(filler *s, size_t lot, size_t buyer, int64_t tons) {
    ls_haul_side side = ls_haul_straight_side(s->t, s->x, lot, buyer);
    if (ls_haul_order_allows(s->t, s->x, buyer, 0, 0) && ls_haul_side_fill(side, tons) == 0 &&
        ls_haul_side_mend(side) && ls_haul_pieces_of(s->t, s->x, lot, buyer, false, NULL))
        return true;
    ls_haul_answer_copy(s->t, s->x, s->before);
    return false;
}

/* ---- a part load grows ---- */

static void extend(filler *s, size_t lot, size_t buyer) {
    size_t at = ls_haul_task_to(s->t, lot, buyer);
    int64_t spare = ls_haul_side_spare(ls_haul_straight_side(s->t, s->x, lot, buyer));
    int64_t more =
        ls_haul_lesser(ls_haul_lesser(left(s, lot), s->t->payload[lot] - s->x->part[at]), spare);
    if (s->x->part[at] == 0 || more <= 0) return;
    ls_haul_answer_copy(s->t, s->before, s->x);
    s->x->part[at] += more;
    if (s->x->part[at] == s->t->payload[lot]) {
        s->x->part[at] = 0;
        s->x->full[at]++;
    }
    commit(s, lot, buyer, more);
}

/* ---- more full loads ---- */

/* Money per ton on the best paid field with room; a buyer short of its least comes before all. */
static double merit(const filler *s, size_t lot, size_t buyer) {
    const ls_haul_task *t = s->t;
    double best = -1e15;
    for (size_t f = t->first[buyer]; f < t->first[buyer + 1]; f++) {
        size_t at = ls_haul_task_field(t, lot, f);
        if (t->open[at] && t->value[at] > best && ls_haul_spare(t, s->x, lot, f) >= t->drop)
            best = t->value[at];
    }
    bool lacks =
        ls_haul_on_buyer(t, s->x, buyer) < t->least[buyer] ||
        (t->least_loads[buyer] > 0 && ls_haul_trips(t, s->x, buyer) < t->least_loads[buyer]);
    return best - t->trip_cost[buyer] * 100 / (double)t->payload[lot] + (lacks ? 1e9 : 0);
}

static bool full_fits(const filler *s, size_t lot, size_t buyer) {
    int64_t payload = s->t->payload[lot];
    return payload >= s->t->drop && s->t->at_most[lot * s->t->buyers + buyer] >= payload &&
           ls_haul_order_allows(s->t, s->x, buyer, 1, payload) &&
           ls_haul_side_spare(ls_haul_straight_side(s->t, s->x, lot, buyer)) >= payload;
}

static bool add_full(filler *s) {
    const ls_haul_task *t = s->t;
    size_t lot = t->lots, buyer = 0;
    double best = 0;
    for (size_t i = 0; i < t->lots; i++)
        for (size_t b = 0; b < t->buyers && left(s, i) >= t->payload[i]; b++) {
            if (*dead(s, i, b) || !full_fits(s, i, b)) {
                *dead(s, i, b) = true;
                continue;
            }
            double money = merit(s, i, b);
            if (lot == t->lots || money > best) lot = i, buyer = b, best = money;
        }
    if (lot == t->lots) return false;
    ls_haul_answer_copy(t, s->before, s->x);
    s->x->full[ls_haul_task_to(t, lot, buyer)]++;
    if (!commit(s, lot, buyer, t->payload[lot])) *dead(s, lot, buyer) = true;
    return true;
}

/* ---- a part load each ---- */

static int64_t part_that_fits(const filler *s, size_t lot, size_t buyer) {
    const ls_haul_task *t = s->t;
    int64_t tons = ls_haul_lesser(left(s, lot), t->payload[lot] - 1);
    if (tons < t->drop || !ls_haul_order_allows(t, s->x, buyer, 1, t->drop)) return 0;
    if (t->most[buyer] != LS_HAUL_PLENTY)
        tons = ls_haul_lesser(tons, t->most[buyer] - ls_haul_on_buyer(t, s->x, buyer));
    tons = ls_haul_lesser(tons, ls_haul_side_spare(ls_haul_straight_side(t, s->x, lot, buyer)));
    return tons >= t->drop ? tons : 0;
}

static bool add_part(filler *s) {
    const ls_haul_task *t = s->t;
    size_t lot = t->lots, buyer = 0;
    int64_t most = 0;
    double best = 0;
    for (size_t i = 0; i < t->lots; i++)
        for (size_t b = 0; b < t->buyers && !ls_haul_has_part(t, s->x, i); b++) {
            int64_t tons = *dead(s, i, b) ? 0 : part_that_fits(s, i, b);
            if (tons == 0 || tons < most) continue;
            double money = merit(s, i, b);
            if (tons > most || money > best) lot = i, buyer = b, most = tons, best = money;
        }
    if (lot == t->lots) return false;
    ls_haul_answer_copy(t, s->before, s->x);
    s->x->part[ls_haul_task_to(t, lot, buyer)] = most;
    if (!commit(s, lot, buyer, most)) *dead(s, lot, buyer) = true;
    return true;
}

void ls_haul_top_up(const ls_haul_task *t, ls_haul_answer *x) {
    filler s = {.t = t, .x = x, .before = ls_haul_answer_new(t)};
    s.dead = LS_NEW(t->arena, bool, t->lots * t->buyers);
    bool parts = !t->given->whole_loads;
    for (size_t i = 0; i < t->lots && parts; i++)
        for (size_t b = 0; b < t->buyers; b++) extend(&s, i, b);
    while (add_full(&s))
        ;
    s.dead = LS_NEW(t->arena, bool, t->lots * t->buyers);
    while (parts && add_part(&s))
        ;
}
