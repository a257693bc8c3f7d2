/* From the wishes of a relaxed or searched model to an answer that keeps every limit in whole units. */
#include "arrange.h"
#include "split.h"

#include <math.h>
#include <string.h>

static void clear(const ls_haul_task *t, ls_haul_answer *x) {
    size_t ends = t->lots * (t->buyers + 1), pairs = t->lots * t->fields;
    memset(x->full, 0, ends * sizeof *x->full);
    memset(x->part, 0, ends * sizeof *x->part);
    memset(x->straight, 0, pairs * sizeof *x->straight);
    memset(x->out, 0, pairs * sizeof *x->out);
}

/* Hundredths of tons: the nearest if it is that but for the solver's noise, else down. */
static int64_t hundredths(double tons) {
    double nearest = round(tons * 100);
    double whole = fabs(tons * 100 - nearest) < 1e-3 ? nearest : floor(tons * 100);
    return whole > 0 ? (int64_t)whole : 0;
}

static void wished_part(const ls_haul_task *t, const ls_haul_wish *wish, ls_haul_answer *x, size_t lot) {
    size_t best = 0;
    for (size_t to = 1; to <= t->buyers; to++)
        if (wish->part[ls_haul_task_to(t, lot, to)] > wish->part[ls_haul_task_to(t, lot, best)]) best = to;
    size_t at = ls_haul_task_to(t, lot, best);
    int64_t tons = hundredths(wish->part[at]), left = t->tons[lot] - ls_haul_gone(t, x, lot);
    if (tons > left) tons = left;
    if (tons == t->payload[lot])
        x->full[at]++;
    else if (tons >= t->drop && tons < t->payload[lot])
        x->part[at] = tons;
}

static void wished_loads(const ls_haul_task *t, const ls_haul_wish *wish, ls_haul_answer *x) {
    for (size_t i = 0; i < t->lots; i++) {
        for (size_t to = 0; to <= t->buyers; to++) {
            size_t at = ls_haul_task_to(t, i, to);
            long full = (long)floor(wish->full[at] + 1e-4);
            x->full[at] = full > t->kept[at] ? full : t->kept[at];
        }
        if (wish->whole && !ls_haul_has_part(t, x, i)) wished_part(t, wish, x, i);
    }
}

static void wished_tons(const ls_haul_task *t, const double *wish, int64_t *on, const bool *may,
                        const ls_haul_answer *x) {
    for (size_t i = 0; i < t->lots; i++)
        for (size_t f = 0; f < t->fields; f++) {
            size_t at = ls_haul_task_field(t, i, f);
            int64_t tons = may[at] ? hundredths(wish[at]) : 0;
            if (tons == 0) continue;
            int64_t more = tons - on[at], spare = ls_haul_spare(t, x, i, f);
            if (more > 0) on[at] += more < spare ? more : spare;
        }
}

/* ---- straight from the house ---- */

/* Fewer loads: the part load first; a full one may leave a part load of what fits. */
static bool reduce(ls_haul_side s, int64_t lacking) {
    size_t at = ls_haul_task_to(s.t, s.lot, s.buyer);
    int64_t payload = s.t->payload[s.lot];
    if (s.x->part[at] > 0) {
        bool some = lacking > 0 && s.x->part[at] - lacking >= s.t->drop;
        s.x->part[at] = some ? s.x->part[at] - lacking : 0;
    } else if (s.x->full[at] > s.t->kept[at]) {
        s.x->full[at]--;
        if (lacking > 0 && payload - lacking >= s.t->drop && !s.t->given->whole_loads &&
            !ls_haul_has_part(s.t, s.x, s.lot))
            s.x->part[at] = payload - lacking;
    } else
        return false;
    return true;
}

/* Make the tons on fields those of the loads; returns -1 if that worked and the loads can be
 * formed, else what is lacking (0: they just cannot be formed). */
static int64_t agree(ls_haul_side s) {
    int64_t lacking = ls_haul_sent(s.t, s.x, s.lot, s.buyer) - ls_haul_side_tons(s);
    if (lacking < 0) ls_haul_side_cut(s, -lacking);
    if (lacking > 0) lacking = ls_haul_side_fill(s, lacking);
    if (lacking > 0) return lacking;
    bool formed = ls_haul_side_mend(s) && ls_haul_pieces_of(s.t, s.x, s.lot, s.buyer, false, NULL);
    return formed ? -1 : 0;
}

/* The same, with fewer loads if need be. */
static bool agree_or_reduce(ls_haul_side s) {
    int64_t lacking;
    while ((lacking = agree(s)) >= 0)
        if (!reduce(s, lacking)) return false;
    return true;
}

static bool buyer_agrees(const ls_haul_task *t, ls_haul_answer *x, size_t buyer) {
    bool agreed = true;
    for (int pass = 0; pass < 2; pass++) /* mending one lot may change another */
        for (size_t i = 0; i < t->lots && agreed; i++) agreed = agree(ls_haul_straight_side(t, x, i, buyer)) < 0;
    return agreed;
}

/* Let the solver arrange the buyer's fields so that the fewest tons are lost. */
static void arrange(const ls_haul_task *t, ls_haul_answer *x, size_t buyer) {
    ls_arena_mark mark = ls_arena_here(t->arena);
    ls_haul_arrangement *s = ls_haul_arrangement_new(t, x, buyer, true);
    if (ls_haul_arrangement_solve(s)) ls_haul_arrangement_read(s, x);
    ls_haul_arrangement_free(s);
    ls_arena_rewind(t->arena, mark);
}

static void cut_all(const ls_haul_task *t, ls_haul_answer *x, size_t buyer) {
    for (size_t i = 0; i < t->lots; i++) { /* before any is filled: it may need the room */
        ls_haul_side s = ls_haul_straight_side(t, x, i, buyer);
        int64_t excess = ls_haul_side_tons(s) - ls_haul_sent(t, x, i, buyer);
        if (excess > 0) ls_haul_side_cut(s, excess);
    }
}

static bool agree_all(const ls_haul_task *t, const ls_haul_wish *wish, ls_haul_answer *x) {
    for (size_t b = 0; b < t->buyers; b++) {
        cut_all(t, x, b);
        if (buyer_agrees(t, x, b)) continue;
        if (wish->arrange && !t->given->whole_loads) arrange(t, x, b);
        for (int pass = 0; pass < 2; pass++)
            for (size_t i = 0; i < t->lots; i++)
                if (!agree_or_reduce(ls_haul_straight_side(t, x, i, b))) return false;
    }
    return true;
}

/* ---- by way of the stack ---- */

static bool out_stands(ls_haul_side s) {
    return ls_haul_side_mend(s) && ls_haul_pieces_of(s.t, s.x, s.lot, s.buyer, true, NULL) &&
           ls_haul_order_allows(s.t, s.x, s.buyer, 0, 0);
}

/* Only what is promised. */
static void cut_out(ls_haul_side s) {
    ls_haul_side_cut(s, ls_haul_side_tons(s) - s.t->kept_out[s.lot * s.t->buyers + s.buyer]);
    ls_haul_side_mend(s);
}

/* Room on fields for what is promised out of the stack, before other loads take it: where it is
 * wished, and else where it fits. */
static void reserve_out(const ls_haul_task *t, const ls_haul_wish *wish, ls_haul_answer *x, size_t lot, size_t buyer) {
    int64_t need = t->kept_out[lot * t->buyers + buyer];
    ls_haul_side s = ls_haul_out_side(t, x, lot, buyer);
    for (size_t f = t->first[buyer]; f < t->first[buyer + 1] && need > 0; f++) {
        int64_t tons = s.may[f] ? hundredths(wish->out[ls_haul_task_field(t, lot, f)]) : 0;
        int64_t spare = ls_haul_spare(t, x, lot, f);
        tons = tons < spare ? tons : spare;
        s.on[f] = tons < need ? tons : need;
        need -= s.on[f];
    }
    ls_haul_side_fill(s, need);
    ls_haul_side_mend(s);
}

static void agree_out(const ls_haul_task *t, ls_haul_answer *x, size_t lot) {
    int64_t held = ls_haul_sent(t, x, lot, t->buyers);
    for (size_t b = 0; b < t->buyers; b++) /* those who come later are owed theirs */
        held -= t->kept_out[lot * t->buyers + b];
    for (size_t b = 0; b < t->buyers; b++) {
        ls_haul_side s = ls_haul_out_side(t, x, lot, b);
        int64_t tons = ls_haul_side_tons(s);
        held += t->kept_out[lot * t->buyers + b];
        if (tons > held) ls_haul_side_cut(s, tons - held);
        if (!out_stands(s)) cut_out(s);
        held -= ls_haul_side_tons(s);
    }
}

/* Nothing goes to the stack that no field waits for, but for the rest of a whole load. */
static void justify(const ls_haul_task *t, ls_haul_answer *x, size_t lot) {
    size_t at = ls_haul_task_to(t, lot, t->buyers);
    int64_t waits = ls_haul_out_of_lot(t, x, lot);
    if (x->part[at] > 0 && ls_haul_sent(t, x, lot, t->buyers) - x->part[at] >= waits) x->part[at] = 0;
    while (x->full[at] > t->kept[at] && ls_haul_sent(t, x, lot, t->buyers) - t->payload[lot] >= waits) x->full[at]--;
}

static bool orders_hold(const ls_haul_task *t, const ls_haul_answer *x) {
    for (size_t b = 0; b < t->buyers; b++)
        if (!ls_haul_order_allows(t, x, b, 0, 0)) return false;
    return true;
}

static bool settle(const ls_haul_task *t, const ls_haul_wish *wish, ls_haul_answer *x) {
    clear(t, x);
    wished_loads(t, wish, x);
    ls_haul_fit_stack(t, x);
    for (size_t i = 0; i < t->lots && t->stack; i++)
        for (size_t b = 0; b < t->buyers; b++) reserve_out(t, wish, x, i, b);
    wished_tons(t, wish->straight, x->straight, t->open, x);
    if (!agree_all(t, wish, x)) return false;
    if (t->stack) {
        wished_tons(t, wish->out, x->out, t->later, x);
        for (size_t i = 0; i < t->lots; i++) {
            agree_out(t, x, i);
            justify(t, x, i);
        }
    }
    ls_haul_top_up(t, x, wish->worth);
    if (t->stack) ls_haul_stack_up(t, x);
    ls_haul_evaluate(t, x);
    return ls_haul_keeps_out(t, x) && orders_hold(t, x) && ls_haul_count_drops(t, x);
}

bool ls_haul_settle(const ls_haul_task *t, const ls_haul_wish *wish, ls_haul_answer *x) {
    ls_arena_mark mark = ls_arena_here(t->arena);
    bool settled = settle(t, wish, x);
    ls_arena_rewind(t->arena, mark);
    return settled;
}
