/* books: what a plan adds up to, what its tickets tell, and what each buyer is promised. Lines are
 * LS_NO_LINE where there is nothing, or nothing is known. */
#pragma once

#include "littershed/haul.h"

typedef struct ls_books ls_books;

enum { LS_CERTAINTIES = LS_POSSIBLE + 1 };

/* All that goes on one field, straight and out of the stack. */
typedef struct {
    ls_line tons, acres;
    ls_line likely, likely_acres; /* tons and acres in the middle case */
    ls_line least, most;          /* rates of its drops */
    ls_line takes;                /* tons at the limit: on all spreadable acres at most */
} ls_field_sum;

/* What a buyer gets, straight and out of the stack. */
typedef struct {
    size_t loads[LS_CERTAINTIES];
    ls_line tons[LS_CERTAINTIES];
    const ls_field_sum *fields; /* [field of the buyer] */
    size_t unpromised;          /* firm loads that no slip promises, and their tons */
    ls_line unpromised_tons;
} ls_buyer_sum;

/* Truck loads up to a certainty, firm ones among the likely and so on, as lines: there = straight +
 * stacked + without + apart. */
typedef struct {
    ls_line there;                      /* on the whole farm, by the estimate */
    ls_line straight, stacked, without; /* out of the houses: to fields, to the stack, nowhere */
    ls_line apart;                      /* what the whole farm has more (below 0: less) than its lots one by one: lots
                                           are not all low, or high, at once, and each has a part load of its own */
} ls_load_count;

/* What lies in the stack in the middle case once the loads of a day are in it; or, not before that
 * day, once those for fields that are open then are out. */
typedef struct {
    ls_date day;
    bool out;
    ls_line tons;
} ls_stack_day;

typedef struct ls_handed_out ls_handed_out;

typedef struct {
    const ls_estimate *estimate;
    const ls_plan *plan;
    const ls_handed_out *handed_out;
    ls_load_count counts[LS_CERTAINTIES];
    const ls_buyer_sum *buyers;       /* [buyer of the farm] */
    ls_line unpromised[2];            /* tons of firm loads that no slip promises: buyers', own fields' */
    const ls_line *stacked;           /* [lot] tons taken into the stack */
    ls_line before, still_stacked;    /* tons hauled into it by the log, and those still there */
    LS_LIST(ls_stack_day) stack_days; /* in order: first all that goes in */
    ls_line stays;                    /* in the middle case: tons that no trip takes out of the stack */
    ls_cautions take_care;            /* those of the tables that belong to the work of the plan */
} ls_plan_sums;

/* Makes the lines, once after the plan. */
const ls_plan_sums *ls_books_plan_sums(ls_books *books, const ls_plan *plan);

/* The load at i, counting those from the houses first and then those out of the stack. */
static inline const ls_load *ls_plan_load(const ls_plan *p, size_t i) {
    return i < p->loads_n ? &p->loads[i] : &p->out[i - p->loads_n];
}

/* ---- since tickets and slips were handed out ---- */

/* A ticket that keeps its way and gets another day or tons, or is more or less sure than said. */
typedef struct {
    const ls_load *load;
    bool day, tons, sure; /* what is otherwise: tons by the tenths that tickets show */
    ls_line was;          /* tons that the ticket says */
} ls_ticket_moved;

/* A load that a buyer had, or (tons LS_NO_LINE) one of a ticket of his that went elsewhere. */
typedef struct {
    const ls_hauled *load;
    ls_line tons;
    bool astray; /* its ticket sent it elsewhere, and he had it */
} ls_had_load;
typedef LS_LIST(ls_had_load) ls_had_loads;

/* Tons of a slip: promised + beyond = had + owed + short_of, the last and beyond never below 0. */
typedef struct {
    ls_line promised, had, owed; /* had: all he had; LS_NO_LINE: none */
    ls_line short_of, beyond;
    bool lacks; /* so many that a load could bring them (the smallest drop): fewer are within what scales and payloads
                   give */
} ls_promise_tons;

/* What a buyer was promised, in loads: promised = had + owed + short_of, unless lighter loads leave tons lacking that
 * more loads to come bring: those are owed too. */
typedef struct {
    const ls_promise_slip *slip;
    ls_line promised, had, owed, short_of; /* loads: what went on any field of his, as far as it was
                                              promised; loads to come; the rest */
    ls_line beyond;                        /* loads he had beyond the promise; LS_NO_LINE: none */
    LS_LIST(const ls_load *) to_come;      /* those owed, surest first */
    size_t likely;                         /* of those owed: loads that are only likely */
    ls_promise_tons tons;
    ls_line price;      /* promised, of a ton; LS_NO_LINE: none */
    ls_had_loads loads; /* in the order of the log */
} ls_promise_kept;

/* A load that went another way than its ticket, as that was issued and as the log has it. */
typedef struct {
    const ls_hauled *load;
    ls_issued issued;
    const char *to;
} ls_astray;

struct ls_handed_out {
    LS_LIST(ls_recall)
    recalled;              /* those of the plan, and papers that newer ones took the place of */
    ls_line recalled_tons; /* LS_NO_LINE: none is */
    LS_LIST(ls_ticket_moved) moved;
    LS_LIST(ls_astray) astray;
    LS_LIST(ls_promise_kept) promises; /* in the order of the farm file, then of the log */
};

/* What the buyer was promised; NULL: nothing. */
const ls_promise_kept *ls_promise_kept_of(const ls_handed_out *h, const ls_buyer *b);

/* ---- tickets ---- */

/* What a driver needs of one drop. */
typedef struct {
    ls_line run;                         /* the way the truck spreads */
    ls_line length, passes;              /* of a pass on the field; how many make the run */
    ls_line tarp;                        /* net weight of litter on the tarp at the rate */
    ls_line on_acre[LS_FIELD_NUTRIENTS]; /* at the rate */
    ls_line cover[2];                    /* acres if the scale says the low and the high of the load sheet */
    ls_earliest earliest;                /* what may come on the field, by the day planned now */
} ls_drop_sheet;

typedef struct {
    const ls_load *load;     /* as the paper says it: one that was handed out as it was then */
    ls_line bucket, buckets; /* tons in one of the loader's; whole ones that make the load */
    bool full;               /* of a full truck, when it was handed out or now */
    ls_line scale[2];        /* what it may weigh: 10 and 90 % point, never above the truck's limit;
                                LS_NO_LINE: always the same */
    const ls_drop_sheet *drops;
    ls_cautions take_care; /* source: its id */
} ls_load_sheet;

/* Drops of one certainty on one field at one rate, straight or out of the stack. */
typedef struct {
    bool promised; /* by the slip that stands or, of firm loads, by one handed out now */
    const ls_field *field;
    const ls_analysis *analysis;
    ls_certainty certainty;
    bool from_stack;
    ls_line rate, tons, acres;
    size_t loads;
    bool *lots;          /* [lot] some of it comes from there */
    ls_date first, last; /* days hauled; out of the stack both the first day it may be spread */
} ls_promised;
typedef LS_LIST(ls_promised) ls_promised_list;

/* Firm rows first; straight ones before those out of the stack; by field as in the farm file. */
typedef struct {
    ls_promised_list rows;
    ls_line price;      /* of a ton: as promised, else as the file says */
    ls_line asked;      /* ... as the file says */
    ls_line firm_price; /* of the firm loads, and what their nutrients are worth */
    ls_line firm_worth;
    ls_line firm_gain, firm_loss;  /* worth less price, and price less worth */
    ls_line had, had_tons;         /* loads on his fields so far, while his slip held */
    ls_had_loads loads;            /* ... */
    ls_line says, to_come;         /* loads of a slip handed out now: those he had and firm ones to come,
                                      never fewer than the slip that stands; LS_NO_LINE: none */
    ls_promise_tons tons;          /* ... */
    ls_line had_price, come_price; /* of the tons he had, and of those to come of the promised */
} ls_buyer_sheet;

typedef struct {
    const ls_plan_sums *sums;
    const ls_line *swath; /* [truck of the farm] */
    ls_line tarp_side;
    ls_line tarp_factor, tarp_metric; /* 1 lb/ft2 in ton/ac; 1 kg/m2 in tonne/ha */
    ls_line the_bucket;               /* of the loader, heaped */
    const ls_load_sheet *loads;       /* [as ls_plan_load] */
    const ls_buyer_sheet *buyers;     /* [buyer of the farm] */
} ls_tickets;

/* The figures of a load of the plan. */
static inline const ls_load_sheet *ls_ticket_sheet(const ls_tickets *t, const ls_load *load) {
    const ls_plan *p = t->sums->plan;
    return &t->loads[load->from_stack ? p->loads_n + (size_t)(load - p->out) : (size_t)(load - p->loads)];
}

/* Makes the lines that only tickets and promise slips need, of every load, once after the sums. */
const ls_tickets *ls_books_tickets(ls_books *books, const ls_plan_sums *sums);
/* Whose litter a load out of the stack is, as its ticket's entry tells: "2025.yaml: laboratory
 * report of Jan 29, 2025". */
const char *ls_books_litter_out(const ls_books *books, const ls_load *load);
