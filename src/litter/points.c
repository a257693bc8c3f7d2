/* The points of all that an estimate shows, from one set of draws, and the whole loads they mean.
 */
#include "house.h"

#include <math.h>

typedef LS_LIST(ls_q *) q_list;

static void want(ls_arena *a, q_list *list, ls_q *q) {
    if (q->line) *LS_PUSH(a, list) = q;
}

static void want_lot(ls_arena *a, q_list *list, ls_lot *lot, size_t trucks) {
    want(a, list, &lot->tons);
    want(a, list, &lot->made);
    want(a, list, &lot->dry_tons);
    want(a, list, &lot->moisture);
    want(a, list, &lot->payload);
    for (size_t k = 0; k < trucks; k++) {
        if (lot->kinds[k].payload.line != lot->payload.line) want(a, list, &lot->kinds[k].payload);
        want(a, list, &lot->kinds[k].next_load);
        want(a, list, &lot->kinds[k].full_loads);
    }
    for (int k = 0; k < LS_NUTRIENTS; k++) {
        want(a, list, &lot->per_ton[k]);
        want(a, list, &lot->pounds[k]);
    }
    for (size_t i = 0; i < lot->methods_n; i++) want(a, list, &lot->methods[i].tons);
}

static void want_account(ls_arena *a, q_list *list, ls_account *account) {
    want(a, list, &account->dry_found);
    for (int e = 0; e < LS_ELEMENTS; e++) want(a, list, &account->of[e].found_again);
}

/* words says which point of which line. */
static ls_line count_line(ls_worksheet *w, const char *prefix, const char *what, const char *label, double loads,
                          const char *words, const char *of) {
    return ls_leaf_exact(w, ls_printf(w, "%s.%s", prefix, what), label, "load", loads, LS_BY_SIMULATION,
                         ls_printf(w, words, prefix, of));
}

static const double close = 1e-9;

static ls_line firm_loads(ls_worksheet *w, const char *prefix, ls_q full) {
    return count_line(w, prefix, "firm", "firm loads", floor(full.low + close), "low of %s.%s, rounded down",
                      "full_loads");
}

/* The points are means over blocks: the promise is rounded down, the middle to the nearest, the most up. */
static void count_loads(ls_worksheet *w, const char *prefix, ls_q full, ls_q trips, ls_line *firm, ls_line *likely,
                        ls_line *possible) {
    *firm = firm_loads(w, prefix, full);
    *likely = count_line(w, prefix, "likely", "likely loads", floor(trips.mid + 0.5), "likely of %s.%s, to the nearest",
                         "trips");
    *possible = count_line(w, prefix, "possible", "possible loads", ceil(trips.high - close),
                           "high of %s.%s, rounded up", "trips");
}

static void draw_all(ls_worksheet *w, ls_estimate *e, const q_list *list) {
    ls_arena *a = ls_arena_new();
    ls_drawn *drawn = LS_NEW(a, ls_drawn, list->n);
    for (size_t i = 0; i < list->n; i++) drawn[i] = ls_drawn_of(list->at[i]->line);
    ls_draw(w, e->seed, e->draws, drawn, list->n);
    for (size_t i = 0; i < list->n; i++)
        *list->at[i] = (ls_q){drawn[i].line, drawn[i].low, drawn[i].mid, drawn[i].high};
    ls_arena_free(a);
}

/* Share of the draws in which every lot holds its firm loads. */
static ls_line together(ls_worksheet *w, ls_estimate *e) {
    ls_line *x = LS_NEW(ls_worksheet_arena(w), ls_line, e->n);
    for (size_t i = 0; i < e->n; i++)
        x[i] = ls_difference(w, ls_printf(w, "%s.beyond_firm", e->lots[i].slug), "whole payloads beyond the firm ones",
                             "load", e->lots[i].full_loads, e->lots[i].firm);
    ls_drawn least = ls_drawn_of(ls_least(w, "whole-farm.beyond_firm", "least of them", "load", x, e->n));
    least.above = -0.5;
    ls_draw(w, e->seed, e->draws, &least, 1);
    return ls_leaf_exact(w, "whole-farm.all_firm_chance", "chance that all firm loads exist together", "%",
                         least.share_above, LS_BY_SIMULATION,
                         "share of the draws in which no lot falls short of its firm loads");
}

void ls_litter_points(ls_worksheet *w, ls_estimate *e) {
    ls_arena *a = ls_worksheet_arena(w);
    q_list list = {0};
    ls_q *full = LS_NEW(a, ls_q, e->n + 1), *trips = LS_NEW(a, ls_q, e->n + 1);
    for (size_t i = 0; i <= e->n; i++) {
        full[i].line = i < e->n ? e->lots[i].full_loads : e->full_loads;
        trips[i].line = i < e->n ? e->lots[i].trips : e->trips;
        want(a, &list, &full[i]);
        want(a, &list, &trips[i]);
        if (i < e->n) want_lot(a, &list, &e->lots[i], e->farm->trucks.n);
    }
    for (size_t i = 0; i < e->accounts.n; i++) want_account(a, &list, &e->accounts.at[i]);
    want(a, &list, &e->tons);
    want(a, &list, &e->dry_tons);
    want(a, &list, &e->value);
    for (int k = 0; k < LS_NUTRIENTS; k++) want(a, &list, &e->pounds[k]);
    draw_all(w, e, &list);
    for (size_t i = 0; i < e->n && e->farm->trucks.n == 1; i++) e->lots[i].kinds[0].payload = e->lots[i].payload;
    ls_litter_query_found(w, e);
    if (!e->full_loads) return;
    for (size_t i = 0; i < e->n; i++) {
        ls_lot *lot = &e->lots[i];
        count_loads(w, lot->slug, full[i], trips[i], &lot->firm, &lot->likely, &lot->possible);
        for (size_t k = 0; k < e->farm->trucks.n; k++)
            lot->kinds[k].firm = e->farm->trucks.n == 1 ? lot->firm
                                                        : firm_loads(w, ls_printf(w, "%s.truck-%zu", lot->slug, k + 1),
                                                                     lot->kinds[k].full_loads);
    }
    count_loads(w, "whole-farm", full[e->n], trips[e->n], &e->firm, &e->likely, &e->possible);
    e->all_firm_chance = together(w, e);
}
