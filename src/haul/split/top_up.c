/* What is left in the lots goes wherever whole loads still fit, best paid first. */
#include "split.h"

#include <string.h>

typedef struct {
    const ls_haul_task *t;
    ls_haul_answer *x, *before;
    const double *worth; /* [lot][field] a ton beside what the field could earn; NULL: in money */
    bool *dead;          /* [lot][buyer] tried in vain */
    bool *stale;         /* [buyer] what is known of it holds no longer */
    double *known;       /* [lot][buyer] its merit */
} filler;

static int64_t left(const filler *s, size_t lot) { return s->t->tons[lot] - ls_haul_gone(s->t, s->x, lot); }

static bool *dead(const filler *s, size_t lot, size_t buyer) { return &s->dead[lot * s->t->buyers + buyer]; }

/* Put tons more on the buyer's fields, the loads already noted in x; or take all back. */
static bool commit(filler *s, size_t lot, size_t buyer, int64_t tons) {
    ls_haul_side side = ls_haul_straight_side(s->t, s->x, lot, buyer);
    if (ls_haul_order_allows(s->t, s->x, buyer, 0, 0) && ls_haul_side_fill(side, tons) == 0 &&
        ls_haul_side_mend(side) && ls_haul_pieces_of(s->t, s->x, lot, buyer, false, NULL))
        return true;
    ls_haul_answer_copy_buyer(s->t, s->x, s->before, buyer);
    return false;
}

/* ---- a part load grows ---- */

static void extend(filler *s, size_t lot, size_t buyer) {
    size_t at = ls_haul_task_to(s->t, lot, buyer);
    int64_t spare = ls_haul_side_spare(ls_haul_straight_side(s->t, s->x, lot, buyer));
    int64_t more = ls_haul_lesser(ls_haul_lesser(left(s, lot), s->t->payload[lot] - s->x->part[at]), spare);
    if (s->x->part[at] == 0 || more <= 0) return;
    ls_haul_answer_copy_buyer(s->t, s->before, s->x, buyer);
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
        double worth = s->worth == NULL ? t->value[at] : s->worth[at];
        if (t->open[at] && worth > best && ls_haul_spare(t, s->x, lot, f) >= t->drop) best = worth;
    }
    bool lacks = ls_haul_on_buyer(t, s->x, buyer) < t->least[buyer] ||
                 (t->least_loads[buyer] > 0 && ls_haul_trips(t, s->x, buyer) < t->least_loads[buyer]);
    if (s->worth == NULL) best -= t->trip_cost[buyer] * 100 / (double)t->payload[lot];
    return best + (lacks ? 1e9 : 0);
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
    for (size_t i = 0; i < t->lots; i++) {
        if (left(s, i) < t->payload[i]) continue;
        for (size_t b = 0; b < t->buyers; b++) {
            if (*dead(s, i, b)) continue;
            double *money = &s->known[i * t->buyers + b];
            if (s->stale[b]) {
                *dead(s, i, b) = !full_fits(s, i, b);
                *money = *dead(s, i, b) ? 0 : merit(s, i, b);
            }
            if (!*dead(s, i, b) && (lot == t->lots || *money > best)) lot = i, buyer = b, best = *money;
        }
    }
    memset(s->stale, 0, t->buyers * sizeof *s->stale);
    if (lot == t->lots) return false;
    ls_haul_answer_copy_buyer(t, s->before, s->x, buyer);
    s->x->full[ls_haul_task_to(t, lot, buyer)]++;
    s->stale[buyer] = commit(s, lot, buyer, t->payload[lot]);
    *dead(s, lot, buyer) = !s->stale[buyer];
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
    ls_haul_answer_copy_buyer(t, s->before, s->x, buyer);
    s->x->part[ls_haul_task_to(t, lot, buyer)] = most;
    if (!commit(s, lot, buyer, most)) *dead(s, lot, buyer) = true;
    return true;
}

void ls_haul_top_up(const ls_haul_task *t, ls_haul_answer *x, const double *worth) {
    filler s = {.t = t, .x = x, .worth = worth, .before = ls_haul_answer_new(t)};
    s.dead = LS_NEW(t->arena, bool, t->lots * t->buyers);
    s.known = LS_NEW(t->arena, double, t->lots * t->buyers);
    s.stale = LS_NEW(t->arena, bool, t->buyers);
    memset(s.stale, 1, t->buyers * sizeof *s.stale);
    bool parts = !t->given->whole_loads;
    for (size_t i = 0; i < t->lots && parts; i++)
        for (size_t b = 0; b < t->buyers; b++) extend(&s, i, b);
    while (add_full(&s))
        ;
    if (t->priced) ls_haul_trade(t, x);
    s.dead = LS_NEW(t->arena, bool, t->lots * t->buyers);
    while (parts && add_part(&s))
        ;
}
