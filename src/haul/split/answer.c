/* What an answer amounts to. */
#include "split.h"

#include <string.h>

ls_haul_answer *ls_haul_answer_new(const ls_haul_task *t) {
    ls_haul_answer *x = LS_NEW(t->arena, ls_haul_answer, 1);
    x->full = LS_NEW(t->arena, long, t->lots *(t->buyers + 1));
    x->part = LS_NEW(t->arena, int64_t, t->lots * (t->buyers + 1));
    x->straight = LS_NEW(t->arena, int64_t, t->lots * t->fields);
    x->out = LS_NEW(t->arena, int64_t, t->lots * t->fields);
    return x;
}

void ls_haul_answer_copy(const ls_haul_task *t, ls_haul_answer *to, const ls_haul_answer *from) {
    size_t ends = t->lots * (t->buyers + 1), pairs = t->lots * t->fields;
    memcpy(to->full, from->full, ends * sizeof *to->full);
    memcpy(to->part, from->part, ends * sizeof *to->part);
    memcpy(to->straight, from->straight, pairs * sizeof *to->straight);
    memcpy(to->out, from->out, pairs * sizeof *to->out);
    to->placed = from->placed;
    to->short_of = from->short_of;
    to->stacked = from->stacked;
    to->money = from->money;
    to->drops = from->drops;
}

void ls_haul_answer_copy_buyer(const ls_haul_task *t, ls_haul_answer *to, const ls_haul_answer *from, size_t buyer) {
    size_t fields = t->first[buyer + 1] - t->first[buyer];
    for (size_t i = 0; i < t->lots; i++) {
        size_t end = ls_haul_task_to(t, i, buyer), k = ls_haul_task_field(t, i, t->first[buyer]);
        to->full[end] = from->full[end];
        to->part[end] = from->part[end];
        memcpy(to->straight + k, from->straight + k, fields * sizeof *to->straight);
        memcpy(to->out + k, from->out + k, fields * sizeof *to->out);
    }
}

/* Tons on the field of all lots that use it as the lot `alike` does. */
static int64_t on_field(const ls_haul_task *t, const ls_haul_answer *x, size_t field, size_t alike) {
    int64_t sum = 0;
    for (size_t i = alike; i < t->lots; i++) {
        size_t at = ls_haul_task_field(t, i, field);
        if (t->alike[at] == alike) sum += x->straight[at] + x->out[at];
    }
    return sum;
}

static int64_t covered_but(const ls_haul_task *t, const ls_haul_answer *x, size_t field, size_t but) {
    int64_t sum = 0;
    for (size_t i = 0; i < t->lots; i++) {
        size_t at = ls_haul_task_field(t, i, field);
        if (t->alike[at] != i || i == but) continue;
        int64_t tons = on_field(t, x, field, i);
        if (tons > 0) sum += ls_haul_cover(t->use[at], tons);
    }
    return sum;
}

int64_t ls_haul_covered(const ls_haul_task *t, const ls_haul_answer *x, size_t field) {
    return covered_but(t, x, field, t->lots);
}

int64_t ls_haul_spare(const ls_haul_task *t, const ls_haul_answer *x, size_t lot, size_t field) {
    size_t alike = t->alike[ls_haul_task_field(t, lot, field)];
    int64_t left = t->capacity[field] - covered_but(t, x, field, alike);
    int64_t spare = ls_haul_fit(t->use[ls_haul_task_field(t, lot, field)], left) - on_field(t, x, field, alike);
    return spare > 0 ? spare : 0;
}

int64_t ls_haul_sent(const ls_haul_task *t, const ls_haul_answer *x, size_t lot, size_t to) {
    size_t at = ls_haul_task_to(t, lot, to);
    return x->full[at] * t->payload[lot] + x->part[at] + t->kept_part[at];
}

int64_t ls_haul_gone(const ls_haul_task *t, const ls_haul_answer *x, size_t lot) {
    int64_t sum = 0;
    for (size_t to = 0; to <= t->buyers; to++) sum += ls_haul_sent(t, x, lot, to);
    return sum;
}

static bool no_part(const ls_haul_task *t, size_t lot) { return t->given->no_part != NULL && t->given->no_part[lot]; }

bool ls_haul_has_part(const ls_haul_task *t, const ls_haul_answer *x, size_t lot) {
    if (no_part(t, lot)) return true;
    for (size_t to = 0; to <= t->buyers; to++)
        if (x->part[ls_haul_task_to(t, lot, to)] > 0) return true;
    return false;
}

static int64_t out_to(const ls_haul_task *t, const ls_haul_answer *x, size_t lot, size_t buyer) {
    int64_t sum = 0;
    for (size_t f = t->first[buyer]; f < t->first[buyer + 1]; f++) sum += x->out[ls_haul_task_field(t, lot, f)];
    return sum;
}

int64_t ls_haul_out_of_lot(const ls_haul_task *t, const ls_haul_answer *x, size_t lot) {
    int64_t sum = 0;
    for (size_t f = 0; f < t->fields; f++) sum += x->out[ls_haul_task_field(t, lot, f)];
    return sum;
}

int64_t ls_haul_on_buyer(const ls_haul_task *t, const ls_haul_answer *x, size_t buyer) {
    int64_t sum = 0;
    for (size_t i = 0; i < t->lots; i++) sum += ls_haul_sent(t, x, i, buyer) + out_to(t, x, i, buyer);
    return sum;
}

bool ls_haul_keeps_out(const ls_haul_task *t, const ls_haul_answer *x) {
    for (size_t i = 0; i < t->lots; i++)
        for (size_t b = 0; b < t->buyers; b++)
            if (out_to(t, x, i, b) < t->kept_out[i * t->buyers + b]) return false;
    return true;
}

static int64_t all_stacked(const ls_haul_task *t, const ls_haul_answer *x) {
    int64_t sum = 0;
    for (size_t i = 0; i < t->lots; i++) sum += ls_haul_sent(t, x, i, t->buyers);
    return sum;
}

bool ls_haul_lies(const ls_haul_task *t, const ls_haul_answer *x, size_t lot) {
    for (size_t i = t->pile_of[lot]; i < t->lots; i++)
        if (t->pile_of[i] == t->pile_of[lot] && ls_haul_sent(t, x, i, t->buyers) > 0) return true;
    return false;
}

int64_t ls_haul_room_left(const ls_haul_task *t, const ls_haul_answer *x) {
    int64_t left = t->room - all_stacked(t, x);
    for (size_t i = 0; i < t->lots; i++)
        left -= t->pile_of[i] == i && t->pile[i] > 0 && ls_haul_lies(t, x, i) ? t->pile[i] : 0;
    return left;
}

long ls_haul_out_trips(const ls_haul_task *t, const ls_haul_answer *x, size_t lot, size_t field) {
    int64_t tons = x->out[ls_haul_task_field(t, lot, field)];
    return tons == 0 ? 0 : (long)((tons + t->payload_out[lot] - 1) / t->payload_out[lot]);
}

long ls_haul_trips(const ls_haul_task *t, const ls_haul_answer *x, size_t buyer) {
    long trips = 0;
    for (size_t i = 0; i < t->lots; i++) {
        size_t at = ls_haul_task_to(t, i, buyer);
        trips += x->full[at] + (x->part[at] > 0) + (t->kept_part[at] > 0);
        for (size_t f = t->first[buyer]; f < t->first[buyer + 1]; f++) trips += ls_haul_out_trips(t, x, i, f);
    }
    return trips;
}

bool ls_haul_order_allows(const ls_haul_task *t, const ls_haul_answer *x, size_t buyer, long trips, int64_t tons) {
    if (t->most_loads[buyer] != LONG_MAX && ls_haul_trips(t, x, buyer) + trips > t->most_loads[buyer]) return false;
    return t->most[buyer] == LS_HAUL_PLENTY || ls_haul_on_buyer(t, x, buyer) + tons <= t->most[buyer];
}

static int64_t most_payload(const ls_haul_task *t) {
    int64_t most = 0;
    for (size_t i = 0; i < t->lots; i++) most = t->payload[i] > most ? t->payload[i] : most;
    return most;
}

/* Tons short of a buyer's least; a load that is missing counts as a full one. */
static int64_t short_of(const ls_haul_task *t, const ls_haul_answer *x, size_t buyer, long trips) {
    int64_t tons = t->least[buyer] - ls_haul_on_buyer(t, x, buyer);
    int64_t loads = trips < t->least_loads[buyer] ? (t->least_loads[buyer] - trips) * most_payload(t) : 0;
    int64_t most = tons > loads ? tons : loads;
    return most > 0 ? most : 0;
}

void ls_haul_evaluate(const ls_haul_task *t, ls_haul_answer *x) {
    x->placed = x->short_of = 0;
    x->stacked = all_stacked(t, x);
    x->money = (double)x->stacked / 100 * t->given->stack_value;
    for (size_t b = 0; b < t->buyers; b++) {
        long trips = ls_haul_trips(t, x, b);
        x->money -= (double)trips * t->trip_cost[b];
        x->short_of += short_of(t, x, b, trips);
    }
    for (size_t k = 0; k < t->lots * t->fields; k++) {
        x->placed += x->straight[k] + x->out[k];
        if (x->straight[k] > 0) x->money += (double)x->straight[k] / 100 * t->value[k];
        if (x->out[k] > 0) x->money += (double)x->out[k] / 100 * t->later_value[k];
    }
}

bool ls_haul_count_drops(const ls_haul_task *t, ls_haul_answer *x) {
    bool formed = true;
    x->drops = 0;
    for (size_t i = 0; i < t->lots; i++)
        for (size_t b = 0; b < t->buyers; b++)
            for (int out = 0; out < (t->stack ? 2 : 1); out++) {
                ls_arena_mark mark = ls_arena_here(t->arena);
                ls_haul_pieces pieces;
                formed = ls_haul_pieces_of(t, x, i, b, out == 1, &pieces) && formed;
                x->drops += (long)pieces.n;
                ls_arena_rewind(t->arena, mark);
            }
    return formed;
}

/* Where a given buyer or field stands in the order of names. */
static size_t number_of(const size_t *given, size_t n, size_t which) {
    size_t k = 0;
    while (k < n && given[k] != which) k++;
    return k;
}

static void start_load(const ls_haul_task *t, ls_haul_answer *x, const ls_split *s, const ls_split_load *l) {
    int64_t tons = ls_haul_down(l->tons, 100);
    size_t at = ls_haul_task_to(t, l->lot, number_of(t->given_buyer, t->buyers, l->buyer));
    bool full = tons == t->payload[l->lot], kept = tons == t->kept_part[at];
    if (!l->from_stack && !full && !kept && no_part(t, l->lot)) return;
    if (!l->from_stack && full)
        x->full[at]++;
    else if (!l->from_stack && !kept)
        x->part[at] = tons;
    for (size_t k = l->first; k < l->first + l->n; k++) {
        size_t field = number_of(t->given_field, t->fields, s->drops[k].field);
        int64_t *on = l->from_stack ? x->out : x->straight;
        on[ls_haul_task_field(t, l->lot, field)] += ls_haul_down(s->drops[k].tons, 100);
    }
}

bool ls_haul_start(const ls_haul_task *t, ls_haul_answer *x) {
    const ls_split *s = t->given->start;
    if (s == NULL) return false;
    for (size_t k = 0; k < s->loads_n; k++) start_load(t, x, s, &s->loads[k]);
    ls_haul_evaluate(t, x);
    return ls_haul_count_drops(t, x);
}

bool ls_haul_better(const ls_haul_answer *a, const ls_haul_answer *b) {
    if (a->placed != b->placed) return a->placed > b->placed;
    if (a->short_of != b->short_of) return a->short_of < b->short_of;
    if (a->money > b->money + 0.005 || a->money < b->money - 0.005) return a->money > b->money;
    if (a->stacked != b->stacked) return a->stacked < b->stacked;
    return a->drops < b->drops;
}
