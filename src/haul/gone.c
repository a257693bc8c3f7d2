/* What the haul log tells: acres covered, orders filled, litter that lies in the stack, days and
 * ticket numbers that are past; and what it leaves open, said beside the plan. */
#include "plan.h"

#include <math.h>
#include <string.h>

static double short_tons(double mass) { return mass / ls_unit_of("ton").factor; }

/* ---- litter in the stack ---- */

static void count_load(const ls_haul_planner *p, ls_haul_past *gone, const ls_hauled *load, size_t lot) {
    if (gone->last[lot] == LS_NO_DATE || load->day > gone->last[lot]) gone->last[lot] = load->day;
    if (gone->day == LS_NO_DATE || load->day > gone->day) gone->day = load->day, gone->second = 0;
    if (load->day == gone->day && load->second > gone->second) gone->second = load->second;
    if (load->from_stack) gone->in_stack[lot] -= short_tons(load->tons);
    const ls_buyer *buyer = NULL;
    LS_EACH_OF (const ls_hauled_drop, drop, load->drops, load->n) {
        if (drop->buyer == NULL && !load->from_stack) gone->in_stack[lot] += short_tons(drop->tons);
        if (drop->buyer == NULL) continue;
        size_t b = (size_t)(drop->buyer - p->farm->buyers.at);
        gone->tons[b] += short_tons(drop->tons);
        gone->loads[b] += drop->buyer != buyer;
        buyer = drop->buyer;
    }
}

static const ls_haul_past *what_is_gone(ls_haul_planner *p) {
    const ls_farm *farm = p->farm;
    if (farm->hauled.n == 0 && farm->stacked.n == 0) return NULL;
    ls_haul_past *gone = LS_NEW(p->arena, ls_haul_past, 1);
    *gone = (ls_haul_past){.tons = LS_NEW(p->arena, double, p->buyers),
                           .loads = LS_NEW(p->arena, long, p->buyers),
                           .in_stack = LS_NEW(p->arena, double, p->e->n),
                           .last = LS_NEW(p->arena, ls_date, p->e->n),
                           .day = LS_NO_DATE};
    for (size_t i = 0; i < p->e->n; i++) gone->last[i] = LS_NO_DATE;
    LS_EACH (const ls_stacked, pile, farm->stacked)
        gone->in_stack[ls_haul_lot_coded(p, pile->lot)] += short_tons(pile->tons);
    LS_EACH (const ls_hauled, load, farm->hauled) {
        size_t lot = ls_haul_lot_coded(p, load->lot);
        if (lot < p->e->n) count_load(p, gone, load, lot);
    }
    return gone;
}

/* Litter below a hundredth of a ton is none: the split works in hundredths. */
static bool lies_in_stack(const ls_haul_past *gone, size_t lot) { return gone != NULL && gone->in_stack[lot] >= 0.01; }

/* A ticket of it is for a load into the stack, or out of it. */
static bool is_bound_by_stack(const ls_haul_planner *p, size_t lot) {
    LS_EACH (const ls_issued, ticket, p->farm->issued)
        if ((ticket->from_stack || ticket->to_stack) && ls_haul_lot_coded(p, ticket->lot) == lot) return true;
    return false;
}

static void add_lot(ls_haul_planner *p, size_t of, size_t kind) {
    p->kind_of[p->lots] = kind;
    p->lot_of[p->lots++] = of;
}

/* As the crew's file has it, else as houses and sides are given. */
static void put_in_order(ls_haul_planner *p) {
    const ls_crew *crew = p->farm->crew;
    p->order = LS_NEW(p->arena, size_t, p->e->n);
    for (size_t k = 0; k < p->e->n; k++) {
        p->order[k] = k;
        for (size_t i = 0; i < p->e->n && k < crew->order.n; i++)
            if (ls_text_same(crew->order.at[k].name.text, p->e->lots[i].name)) p->order[k] = i;
    }
}

/* No plan begins before the crew comes, or before loads that are gone. */
static void begin_later(ls_haul_planner *p) {
    ls_arena *a = p->arena;
    const ls_day *arrives = &p->farm->crew->arrives;
    bool early = p->gone == NULL || p->gone->day < arrives->day;
    ls_date day = early ? arrives->day : p->gone->day;
    long second = early ? 0 : p->gone->second;
    if (p->from == LS_NO_DATE || p->from > day || (p->from == day && p->from_second >= second)) return;
    ls_diag_add(p->farm->diag, LS_WARNING, early ? arrives->at : LS_NOWHERE,
                ls_arena_printf(a, "the plan begins on %s%s%s", ls_date_words(a, day, ls_farm_year(p->farm)),
                                second > 0 ? ", " : "", second > 0 ? ls_clock_words(a, second) : ""),
                early ? "--from is before the crew arrives" : "--from is before the last load in the haul log");
    p->from = day;
    p->from_second = second;
}

void ls_haul_number_lots(ls_haul_planner *p) {
    put_in_order(p);
    p->gone = what_is_gone(p);
    begin_later(p);
    p->lot_of = LS_NEW(p->arena, size_t, (p->kinds + 2) * p->e->n);
    p->kind_of = LS_NEW(p->arena, size_t, (p->kinds + 2) * p->e->n);
    for (size_t i = 0; i < p->e->n; i++)
        for (size_t k = 0; k < p->kinds; k++) add_lot(p, i, k);
    p->house_lots = p->lots;
    for (size_t i = 0; i < p->e->n; i++)
        if (lies_in_stack(p->gone, i)) add_lot(p, i, p->stack_kind);
    p->stacked_lots = p->lots;
    for (size_t i = 0; i < p->e->n; i++)
        if (is_bound_by_stack(p, i)) add_lot(p, i, p->stack_kind);
}

double ls_haul_stacked_tons(const ls_haul_planner *p) {
    double sum = 0;
    for (size_t i = p->house_lots; i < p->stacked_lots; i++) sum += p->tons[0][i];
    return sum;
}

void ls_haul_promise_stacked(const ls_haul_planner *p, int stage, ls_haul_promise *to) {
    for (size_t i = p->house_lots; i < p->lots; i++) {
        double tons = ls_haul_hundredths(p->rest[stage][i]);
        size_t stack = ls_haul_lot_to(p, i, p->buyers);
        to->full[stack] = (long)floor(tons / p->payload[i] + 1e-9);
        to->part[stack] = fmax(0, tons - (double)to->full[stack] * p->payload[i]);
        if (to->part[stack] < 0.005) to->part[stack] = 0;
    }
}

/* ---- acres ---- */

/* The rate a load went on at: its ticket's, else the lot's on that field by its truck, else the field's highest; 0: it
 * may take none. */
static double rate_of(const ls_haul_planner *p, size_t lot, size_t field, const ls_hauled_drop *drop) {
    double rate = drop->rate > 0 ? drop->rate / ls_unit_of("ton/ac").factor : p->rate[ls_haul_lot_field(p, lot, field)];
    for (size_t i = 0; rate <= 0 && i < p->house_lots; i++) rate = fmax(rate, p->rate[ls_haul_lot_field(p, i, field)]);
    return rate;
}

/* The split counts millionths of an acre and rounds what a drop covers up; the log tells acres to 0.0001, of
 * loads and of their tickets. */
static const double least_acre = 1e-6, least_told = 5e-5;

static void take_drop(ls_haul_planner *p, size_t lot, const ls_hauled_drop *drop) {
    for (size_t f = 0; f < p->fields; f++) {
        if (p->field[f] != drop->field) continue;
        double rate = rate_of(p, lot, f, drop);
        double covered = drop->acres > 0 ? drop->acres / ls_unit_of("ac").factor
                         : rate > 0      ? short_tons(drop->tons) / rate
                                         : p->acres[f];
        p->acres[f] = fmax(0, p->acres[f] - covered + (drop->acres > 0 || drop->rate > 0 ? least_told : least_acre));
    }
}

void ls_haul_take_acres(ls_haul_planner *p) {
    LS_EACH (const ls_hauled, load, p->farm->hauled) {
        size_t lot = ls_haul_lot_coded(p, load->lot);
        size_t kind = load->truck == NULL ? 0 : (size_t)(load->truck - p->farm->trucks.at);
        LS_EACH_OF (const ls_hauled_drop, drop, load->drops, load->n)
            if (lot < p->e->n && drop->field != NULL) take_drop(p, ls_haul_house_lot(p, lot, kind), drop);
    }
}

/* ---- numbers and days ---- */

bool ls_haul_number_gone(const ls_haul_planner *p, size_t lot, long number, bool from_stack) {
    LS_EACH (const ls_hauled, load, p->farm->hauled)
        if (load->number == number && load->from_stack == from_stack && strcmp(load->lot, p->e->lots[lot].code) == 0)
            return true;
    return false;
}

ls_date ls_haul_first_day(const ls_haul_planner *p) {
    ls_date arrives = p->farm->crew->arrives.day;
    if (p->from != LS_NO_DATE) return p->from;
    return p->gone != NULL && p->gone->day != LS_NO_DATE && p->gone->day >= arrives ? p->gone->day + 1 : arrives;
}

/* ---- what is left open ---- */

enum { MOST_NAMES = 8 };

/* "A, B, C and 2 more" of what is told one by one. */
typedef struct {
    ls_text *t;
    size_t n;
} names;

static void add(names *s, const char *name) {
    if (s->n < MOST_NAMES) ls_text_addf(s->t, "%s%s", s->n > 0 ? ", " : "", name);
    s->n++;
}

static const char *listed(const names *s) {
    if (s->n > MOST_NAMES) ls_text_addf(s->t, " and %zu more", s->n - MOST_NAMES);
    return s->t->s;
}

/* Litter that lies nobody knows where: the plan may send more on top of it. */
static void say_open_places(ls_haul_planner *p) {
    names open = {ls_text_new(p->arena), 0};
    LS_EACH (const ls_hauled, load, p->farm->hauled)
        if (load->n == 0) add(&open, load->ticket);
    if (open.n == 0) return;
    ls_haul_note(p,
                 "The haul log does not say where %s went (%s). The plan takes %s off no field and no "
                 "order, so it may send too much there. Fix: record --replaces with --field.",
                 open.n == 1 ? "a load" : "some loads", listed(&open), open.n == 1 ? "it" : "them");
}

/* A load into it may not be logged yet. */
static void say_overdrawn(ls_haul_planner *p) {
    names lots = {ls_text_new(p->arena), 0};
    for (size_t i = 0; i < p->e->n; i++)
        if (p->gone->in_stack[i] <= -0.01) add(&lots, p->e->lots[i].name);
    if (lots.n > 0)
        ls_haul_note(p,
                     "By the haul log, more litter of %s came out of the stack than went into it. "
                     "Check the log for a missing load.",
                     listed(&lots));
}

static bool is_planned(const ls_haul_planner *p, size_t lot) {
    LS_EACH_OF (const ls_load, load, p->loads, p->plan->loads_n)
        if (load->lot == &p->e->lots[lot]) return true;
    return false;
}

/* Nobody knows whether they are back already. */
static void say_slats(ls_haul_planner *p) {
    names off = {ls_text_new(p->arena), 0};
    for (size_t i = 0; i < p->e->n; i++)
        if (p->gone->last[i] != LS_NO_DATE && p->clock.slats[ls_haul_house_lot(p, i, 0)] > 0 && !is_planned(p, i))
            add(&off, p->e->lots[i].name);
    if (off.n > 0)
        ls_haul_note(p,
                     "Loads of %s are gone and no more are planned. The days count no time to "
                     "move slats back there.",
                     listed(&off));
}

void ls_haul_say_open(ls_haul_planner *p) {
    if (p->gone == NULL) return;
    say_open_places(p);
    say_overdrawn(p);
    say_slats(p);
}
