/* Tickets that were handed out as the files know them now, and the tons on their drops. */
#include "plan.h"

#include <stdlib.h>
#include <string.h>

/* ---- found in the files ---- */

static const char *no_more(const ls_haul_planner *p, const char *what) {
    return ls_arena_printf(p->arena, "the file no longer names %s", what);
}

/* "Upper Meadow" of "Larkspur Hay/Upper Meadow". */
static const char *field_name(const ls_issued *ticket, size_t drop) {
    const char *name = ticket->drops[drop].name, *buyer = ticket->buyer_name;
    size_t n = buyer == NULL ? 0 : strlen(buyer);
    return n > 0 && strncmp(name, buyer, n) == 0 && name[n] == '/' ? name + n + 1 : name;
}

/* The log tells tons and acres to 0.0001: a rate that is today's but for that is today's, any other
 * one that has three decimals. */
static double ticket_rate(double tons, double acres, double now) {
    double ratio = tons / acres, slip = ratio * 6e-5 * (1 / tons + 1 / acres) + 1e-9;
    double round_one = round(ratio * 1000) / 1000;
    if (fabs(ratio - now) <= slip) return now;
    return fabs(ratio - round_one) <= slip ? round_one : ratio;
}

static ls_split_drop drop_of(const ls_haul_planner *p, size_t lot, const ls_issued_drop *drop) {
    ls_split_drop out = {.lot = lot, .tons = drop->tons / ls_unit_of("ton").factor};
    while (out.field < p->fields && p->field[out.field] != drop->field) out.field++;
    if (out.field == p->fields) return out;
    double now = p->rate[ls_haul_lot_field(p, lot, out.field)];
    double acres = drop->acres / ls_unit_of("ac").factor;
    out.rate = acres > 0 && out.tons > 0 ? ticket_rate(out.tons, acres, now) : now;
    return out;
}

/* p->buyers: the files name it no more. */
static size_t buyer_of(const ls_haul_planner *p, const ls_issued *ticket) {
    size_t b = 0;
    while (b < p->buyers && ticket->drops[0].buyer != &p->farm->buyers.at[b] &&
           !ls_text_same(p->farm->buyers.at[b].name.text, ticket->buyer_name))
        b++;
    return b;
}

/* All tickets are of one kind of truck, and the file names one: it is called otherwise now. Were
 * others sold, there were tickets of the one that is left, or of several. */
static bool is_renamed(const ls_haul_planner *p, const char *kind) {
    bool renamed = p->farm->trucks.n == 1;
    for (size_t i = 0; i < p->farm->issued.n; i++)
        renamed = renamed && ls_text_same(p->farm->issued.at[i].truck_name, kind);
    return renamed;
}

/* Of those that may spread on its fields the kind whose full load is nearest to its tons. */
static size_t likeliest(const ls_haul_planner *p, const ls_issued *ticket, size_t lot) {
    size_t best = 0;
    double least = INFINITY;
    for (size_t k = 0; k < p->kinds; k++) {
        double payload = p->payload[ls_haul_house_lot(p, lot, k)],
               gap = fabs(payload - ticket->tons / ls_unit_of("ton").factor);
        for (size_t d = 0; d < ticket->n; d++)
            if (ticket->drops[d].field != NULL &&
                !ls_truck_spreads_on(&p->farm->trucks.at[k], ticket->drops[d].buyer, ticket->drops[d].field))
                gap = INFINITY;
        if (gap < least) best = k, least = gap;
    }
    return best;
}

/* Of one that the file names no more the ticket is recalled. */
static size_t kind_of(const ls_haul_planner *p, ls_haul_bound *b) {
    const ls_issued *ticket = b->issued;
    if (ticket->truck != NULL) return (size_t)(ticket->truck - p->farm->trucks.at);
    if (ticket->truck_name != NULL && ticket->truck_name[0] != '\0' && !is_renamed(p, ticket->truck_name))
        b->why = no_more(p, ticket->truck_name);
    return likeliest(p, ticket, b->lot);
}

static void find(ls_haul_planner *p, const ls_issued *ticket) {
    ls_haul_bound *b = LS_PUSH(p->arena, &p->bound);
    *b = (ls_haul_bound){.issued = ticket,
                         .lot = ls_haul_lot_coded(p, ticket->lot),
                         .to = p->buyers,
                         .from_stack = ticket->from_stack,
                         .was = ticket->certainty,
                         .n = ticket->to_stack ? 0 : ticket->n};
    if (b->lot == p->e->n) {
        b->lot = SIZE_MAX;
        b->why = "the file no longer names its house or side";
        b->lost = true;
        return;
    }
    b->kind = kind_of(p, b);
    b->lot = ls_haul_house_lot(p, b->lot, b->kind);
    if (!ticket->to_stack) b->to = buyer_of(p, ticket);
    if (!ticket->to_stack && b->to == p->buyers) b->why = no_more(p, ticket->buyer_name);
    b->full = !b->from_stack && (ticket->full || ticket->tons / ls_unit_of("ton").factor > p->payload[b->lot] - 0.005);
    b->drops = LS_NEW(p->arena, ls_split_drop, b->n);
    for (size_t k = 0; k < b->n; k++) {
        b->drops[k] = drop_of(p, b->lot, &ticket->drops[k]);
        if (b->why == NULL && b->drops[k].field == p->fields) b->why = no_more(p, field_name(ticket, k));
    }
    b->lost = b->why != NULL;
}

/* Firm ones first, then by lot and number; out of the stack last. */
static int in_order(const void *pa, const void *pb) {
    const ls_haul_bound *a = pa, *b = pb;
    if (a->from_stack != b->from_stack) return a->from_stack ? 1 : -1;
    if (a->was != b->was) return a->was < b->was ? -1 : 1;
    if (a->lot != b->lot) return a->lot < b->lot ? -1 : 1;
    return a->issued->number < b->issued->number ? -1 : a->issued->number > b->issued->number;
}

void ls_haul_find_bound(ls_haul_planner *p) {
    for (size_t k = 0; k < p->farm->issued.n; k++) find(p, &p->farm->issued.at[k]);
    if (p->bound.n > 0) qsort(p->bound.at, p->bound.n, sizeof *p->bound.at, in_order);
}

/* ---- tons ---- */

/* No drop gets less than the truck may leave, or than it had. */
double ls_haul_bound_least_drop(const ls_haul_planner *p, const ls_haul_bound *b, size_t drop) {
    double was = b->issued->drops[drop].tons / ls_unit_of("ton").factor;
    return ls_haul_hundredths(fmin(was, ls_haul_smallest_drop(p)));
}

double ls_haul_bound_least(const ls_haul_planner *p, const ls_haul_bound *b) {
    double least = 0;
    if (b->issued == NULL) return ls_haul_smallest_drop(p);
    for (size_t k = 0; k < b->issued->n; k++) least += ls_haul_bound_least_drop(p, b, k);
    return least;
}

bool ls_haul_bound_share(const ls_haul_planner *p, ls_haul_bound *b, double tons) {
    double left = ls_haul_hundredths(tons), later = ls_haul_bound_least(p, b), issued = 0;
    if (left < later - 1e-9 || left < 0.005) return false;
    b->tons = left;
    for (size_t k = 0; k < b->n; k++) issued += b->issued->drops[k].tons;
    for (size_t k = 0; k < b->n; k++) {
        double least = ls_haul_bound_least_drop(p, b, k), share = b->issued->drops[k].tons / issued * b->tons;
        later -= least;
        bool last = k + 1 == b->n;
        b->drops[k].tons = last ? left : fmax(least, fmin(ls_haul_hundredths(share), left - fmax(0, later)));
        left = round((left - b->drops[k].tons) * 100) / 100;
    }
    return true;
}

size_t ls_haul_bound_lot(const ls_haul_planner *p, size_t lot) {
    size_t i = p->stacked_lots;
    while (i < p->lots && p->lot_of[i] != lot) i++;
    return i;
}

bool ls_haul_bound_whole(const ls_haul_planner *p, const ls_haul_bound *b) {
    return b->tons > p->payload[b->lot] - 0.005;
}

bool ls_haul_is_bound_part(const ls_haul_planner *p, const ls_haul_bound *b, int stage) {
    bool possible = b->certainty == LS_POSSIBLE;
    return stage > 0 && b->why == NULL && !b->from_stack && !ls_haul_bound_whole(p, b) &&
           possible == (stage == LS_STAGES - 1);
}
