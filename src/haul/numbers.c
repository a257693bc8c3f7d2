/* In which order loads are served, and their tickets: one that was handed out keeps its own. */
#include "plan.h"

#include <stdlib.h>
#include <string.h>

/* A load with its place in the plan's list. */
typedef struct {
    ls_load load;
    size_t of, lot, place; /* load of the high stage; lot of the estimate; place in the list */
    size_t side;           /* place of the lot in the order of hauling */
    bool older;            /* left in the stack by earlier files, by a report of its own */
    long number;           /* 0: none yet */
    bool part;             /* less than a truck takes: it ends its lot */
    bool owed;             /* new, for a buyer who was promised more than he has and is bound */
    double turn;           /* of a house: 0 ... 1 among its lot's loads by the same kind of truck */
} served;

/* Out of the stack the day they may go on comes first, then litter of earlier years. Of a lot firm
 * loads go first and possible ones last, and then those that fill no truck, a likely one too: while
 * there is litter the crew fills trucks. Among equals by number, and until they have one bound
 * ones, those that slips promise, others, kinds of truck in turn. */
static int in_order(const void *pa, const void *pb) {
    const served *a = pa, *b = pb;
    bool bound_a = a->load.issued != NULL, bound_b = b->load.issued != NULL;
    if (a->side != b->side) return a->side < b->side ? -1 : 1;
    if (a->load.from != b->load.from) return a->load.from < b->load.from ? -1 : 1;
    if (a->older != b->older) return a->older ? -1 : 1;
    if (a->part != b->part) return a->part ? 1 : -1;
    if (a->load.certainty != b->load.certainty) return a->load.certainty < b->load.certainty ? -1 : 1;
    if (a->number != b->number && a->number > 0 && b->number > 0) return a->number < b->number ? -1 : 1;
    if (bound_a != bound_b) return bound_a ? -1 : 1;
    if (a->owed != b->owed) return a->owed ? -1 : 1;
    if (a->turn < b->turn || a->turn > b->turn) return a->turn < b->turn ? -1 : 1;
    return a->place < b->place ? -1 : a->place > b->place;
}

static bool is_older(const ls_haul_planner *p, size_t lot) {
    LS_EACH (const ls_stacked, s, p->farm->stacked)
        if (strcmp(s->lot, ls_haul_lot(p, lot)->code) == 0) return ls_haul_is_stacked(p, lot) && lot < p->stacked_lots;
    return false;
}

/* Firm loads of a buyer who is owed some; likely ones as far as those do not do. */
static bool is_owed(const ls_haul_planner *p, size_t buyer, const ls_load *load) {
    long left = buyer < p->buyers ? p->owed[buyer] : 0;
    LS_EACH_OF (const ls_load, l, p->loads, p->loads_n)
        left -= load->certainty != LS_FIRM && l->buyer == load->buyer && l->issued == NULL && l->certainty == LS_FIRM;
    return left > 0;
}

static bool is_taken(const ls_haul_planner *p, const served *list, size_t n, size_t lot, long number, bool from_stack) {
    for (size_t k = 0; k < n; k++)
        if (list[k].lot == lot && list[k].number == number) return true;
    return ls_haul_number_gone(p, lot, number, from_stack);
}

static int by_number(const void *pa, const void *pb) {
    const long *a = pa, *b = pb;
    return *a < *b ? -1 : *a > *b;
}

/* So many numbers of the lot for loads without one, in order: those of tickets that are recalled
 * are given again, and the least that no load has. */
static long *numbers_for(const ls_haul_planner *p, const served *list, size_t n, size_t lot, bool from_stack,
                         size_t count) {
    long *numbers = LS_NEW(p->arena, long, count);
    size_t have = 0;
    LS_EACH (const ls_haul_bound, b, p->bound)
        if (have < count && b->why != NULL && b->lot != SIZE_MAX && p->lot_of[b->lot] == lot &&
            b->from_stack == from_stack && !is_taken(p, list, n, lot, b->issued->number, from_stack))
            numbers[have++] = b->issued->number;
    size_t recalled = have;
    for (long number = 1; have < count; number++) {
        bool used = is_taken(p, list, n, lot, number, from_stack);
        for (size_t k = 0; k < recalled; k++) used = used || numbers[k] == number;
        if (!used) numbers[have++] = number;
    }
    qsort(numbers, count, sizeof *numbers, by_number);
    return numbers;
}

/* The loads of a lot stand together. */
static void number_lot(const ls_haul_planner *p, served *list, size_t n, size_t first, bool from_stack) {
    size_t count = 0, end = first;
    for (; end < n && list[end].lot == list[first].lot; end++) count += list[end].number == 0;
    if (count == 0) return;
    const long *number = numbers_for(p, list, n, list[first].lot, from_stack, count);
    for (size_t k = first; k < end; k++)
        if (list[k].number == 0) list[k].number = *number++;
}

static void take_turns(const ls_haul_planner *p, served *list, size_t n) {
    double *all = LS_NEW(p->arena, double, p->lots), *had = LS_NEW(p->arena, double, p->lots);
    for (size_t k = 0; k < n; k++) all[ls_haul_house_lot(p, list[k].lot, list[k].load.kind)]++;
    for (size_t k = 0; k < n; k++) {
        size_t lot = ls_haul_house_lot(p, list[k].lot, list[k].load.kind);
        list[k].turn = (had[lot]++ + 0.5) / all[lot];
    }
}

/* In order, each with its number. */
static void serve(ls_haul_planner *p, bool from_stack) {
    size_t first = from_stack ? p->plan->loads_n : 0, n = from_stack ? p->plan->out_n : p->plan->loads_n;
    served *list = LS_NEW(p->arena, served, n);
    for (size_t k = 0; k < n; k++) {
        const ls_load *load = &p->loads[first + k];
        const ls_split_load *from = ls_haul_split_of(p, load);
        size_t b = load->buyer == NULL ? p->buyers : (size_t)(load->buyer - p->farm->buyers.at);
        size_t truck = ls_haul_house_lot(p, p->lot_of[from->lot], load->kind);
        list[k] = (served){.load = *load,
                           .of = p->load_of[first + k],
                           .lot = p->lot_of[from->lot],
                           .place = k,
                           .older = is_older(p, from->lot),
                           .part = from->tons < p->payload[truck] - 0.005,
                           .number = load->issued == NULL ? 0 : load->issued->number,
                           .owed = is_owed(p, b, load)};
        while (p->order[list[k].side] != list[k].lot) list[k].side++;
    }
    if (!from_stack && p->kinds > 1) take_turns(p, list, n);
    if (n > 0) qsort(list, n, sizeof *list, in_order);
    for (size_t k = 0; k < n; k++)
        if (k == 0 || list[k - 1].lot != list[k].lot) number_lot(p, list, n, k, from_stack);
    if (n > 0) qsort(list, n, sizeof *list, in_order);
    for (size_t k = 0; k < n; k++) {
        ls_load *load = &p->loads[first + k];
        *load = list[k].load;
        p->load_of[first + k] = list[k].of;
        load->ticket = load->issued != NULL
                           ? load->issued->ticket
                           : ls_haul_ticket(p->arena, p->e->lots[list[k].lot].code, list[k].number, from_stack);
    }
}

/* ---- what is recalled ---- */

/* The load that has the number now; NULL: none. */
static const ls_load *now(const ls_haul_planner *p, const ls_haul_bound *b) {
    if (b->lot == SIZE_MAX) return NULL;
    const char *ticket = ls_haul_ticket(p->arena, ls_haul_lot(p, b->lot)->code, b->issued->number, b->from_stack);
    LS_EACH_OF (const ls_load, load, p->loads, p->loads_n)
        if (load->issued == NULL && load->from_stack == b->from_stack && strcmp(load->ticket, ticket) == 0) return load;
    return NULL;
}

/* By lot and number; out of the stack last of a lot. */
typedef struct {
    ls_recall recall;
    size_t lot; /* of the estimate; p->lots: none */
} recalled;

static int recalls_in_order(const void *pa, const void *pb) {
    const recalled *a = pa, *b = pb;
    const ls_issued *of_a = a->recall.issued, *of_b = b->recall.issued;
    if (a->lot != b->lot) return a->lot < b->lot ? -1 : 1;
    if (of_a->from_stack != of_b->from_stack) return of_a->from_stack ? 1 : -1;
    return of_a->number < of_b->number ? -1 : of_a->number > of_b->number;
}

static void list_recalled(ls_haul_planner *p) {
    recalled *list = LS_NEW(p->arena, recalled, p->bound.n);
    size_t n = 0;
    LS_EACH (const ls_haul_bound, b, p->bound)
        if (b->why != NULL)
            list[n++] = (recalled){{b->issued, now(p, b), b->why, LS_NO_LINE},
                                   b->lot == SIZE_MAX ? p->lots : p->lot_of[b->lot]};
    if (n > 0) qsort(list, n, sizeof *list, recalls_in_order);
    p->plan->recalled.n = 0;
    for (size_t k = 0; k < n; k++) *LS_PUSH(p->arena, &p->plan->recalled) = list[k].recall;
}

void ls_haul_number(ls_haul_planner *p) { serve(p, false); }

void ls_haul_number_out(ls_haul_planner *p) {
    serve(p, true);
    list_recalled(p);
}
