/* A plan in the making: what all files that make one share. Private to the room; it knows none of
 * them. Times are whole seconds of working time. */
#pragma once

#include "haul/sim/sim.h"
#include "haul/split/solve.h"

#include <math.h>

typedef struct ls_haul_planner ls_haul_planner;

/* The days from the first to the last load of a lot. from == LS_NO_DATE: none. */
typedef ls_window ls_haul_range;

typedef struct {
    ls_sim_time day;     /* of work */
    ls_sim_time dawn;    /* when it begins, after midnight */
    LS_LIST(ls_date) on; /* all working days that may be used */
    LS_LIST(ls_sim_out) out;
    size_t on_road;     /* the last so many of out: trucks on the road when the plan begins */
    ls_sim_time dump;   /* to empty a truck at the stack */
    ls_sim_time *road;  /* [kind of truck * buyers + buyer] on the road, one way */
    ls_sim_time *slats; /* [lot] to move its slats off, or back */
    double *bucket;     /* [lot] tons in a bucket; 0: no loader is named, a truck takes cycle */
    double *cycle;      /* [lot] seconds for a bucket */
    double *acre;       /* [kind] seconds to spread one */
} ls_haul_clock;

/* A trip to come, in the order of hauling. */
typedef struct {
    size_t lot;
    ls_sim_job job;
    const ls_load *load; /* of the plan's list; NULL: none */
} ls_haul_trip;

/* Trips simulated: a block for each lot, in the order of hauling. */
typedef struct {
    ls_sim s;
    ls_sim_answer x;
    size_t *lot; /* [block] */
} ls_haul_run;

/* What is promised: full loads and tons of part loads of each lot to each buyer or the stack, and
 * tons that come out of the stack for each buyer. */
typedef struct {
    long *full;   /* [lot * (buyers + 1) + buyer; last: the stack] */
    double *part; /* as full */
    double *out;  /* [lot * buyers + buyer] */
} ls_haul_promise;

/* A ticket that was handed out, as this plan finds it; issued NULL: a load into the stack that no ticket was handed out
 * for, but one out of it. What is bound stands outside of the split: the rest is split with what it leaves. */
typedef struct {
    const ls_issued *issued;
    size_t lot;      /* where its litter lies; SIZE_MAX: the files name it no more */
    size_t to;       /* buyer; == buyers: the stack */
    size_t kind;     /* of truck */
    bool from_stack; /* out of the stack */
    bool full;       /* a full load, whatever the payload is now */
    bool promised;   /* a slip of its buyer covers it */
    int was;         /* ls_certainty when it was handed out */
    ls_certainty certainty;
    double tons;
    double wish; /* tons that a truck takes now, as far as the lot has them */
    size_t n;
    ls_split_drop *drops;
    const char *why; /* it is recalled; NULL: it stays */
    bool lost;       /* once, for good: it is not walked again */
} ls_haul_bound;

/* What bound loads leave of orders, acres and the stack. */
typedef struct {
    double *acres, *least, *most;
    long *least_loads, *most_loads;
    double stack;
    long *piled; /* [lot of the estimate] why its pile stands: loads into it, litter by the log */
} ls_haul_room;

/* What the haul log tells, in tons. */
typedef struct {
    double *tons;     /* [buyer] */
    long *loads;      /* [buyer] */
    double *in_stack; /* [lot of the estimate] left there */
    ls_date *last;    /* [lot of the estimate] day of its last load; LS_NO_DATE: none is gone */
    ls_date day;      /* of the last load of all */
    long second;      /* of that day, as far as it is told */
} ls_haul_past;

/* A plan in the making. Fields are numbered as in the farm, buyer after buyer. */
struct ls_haul_planner {
    ls_worksheet *w;
    ls_arena *arena;
    const ls_reference *reference;
    const ls_estimate *e;
    const ls_farm *farm;
    ls_agronomy *agronomy;
    ls_plan *plan;
    ls_date from;     /* as told; LS_NO_DATE: it was not */
    long from_second; /* no work before, on that day */
    ls_aim aim;
    ls_progress progress;
    ls_split_memory known; /* answers of all rounds and choices of kinds */
    bool quick;            /* days are still being found for a large farm: no searching */
    /* the farm in numbers. A lot is what one kind of truck hauls of a lot of the estimate: first
     * those in the houses, the kinds of each together. Behind them stand those whose litter lies in
     * the stack by the haul log, and behind these those that bound loads take litter into it from:
     * what bound loads out of it leave. None of it is in a house */
    size_t lots, fields, buyers, kinds;
    size_t house_lots;         /* lots in houses: those of the estimate times the kinds */
    size_t stacked_lots;       /* lots before those of bound loads */
    size_t *lot_of;            /* [lot] of the estimate */
    size_t *order;             /* lots of the estimate in the order of hauling */
    size_t *kind_of;           /* [lot] of truck */
    size_t stack_kind;         /* the kind that takes litter out of the stack where its own cannot */
    const double *most_of;     /* [kind] tons it may haul, 0: no new load; NULL: any */
    bool *away;                /* [kind] out until the others are done: no new load; found once for
                                  all choices of kinds */
    double *share;             /* [lot] in a house: of its litter; NULL: not known yet */
    long *sure;                /* [lot] in a house: full loads that are sure, bound ones among them */
    const ls_haul_past *gone;  /* NULL: nothing is gone yet */
    const ls_field **field;    /* [field] */
    size_t *buyer;             /* [field] */
    double *rate;              /* [lot][field] ton/ac, 0: not there */
    double *top_rate;          /* [lot][field] ton/ac before it is rounded to the spreader's step */
    double *free_rate;         /* [lot][field] ton/ac if the plan gave no top rate */
    double *season_rate;       /* [lot][field] ton/ac if no cap of a season held */
    double *met;               /* [lot][field] lb of P2O5 that the crop needs, in a ton */
    unsigned *defaults;        /* [field] bit ls_default_kind: that limit is the least for a lot */
    double *acres;             /* [field] */
    double *payload;           /* [lot] ton */
    double *payload_out;       /* [lot] ton, of a trip out of the stack */
    double *tons[LS_STAGES];   /* [lot] */
    double *in_lot[LS_STAGES]; /* [lot of the estimate] in its house, by all kinds */
    double *held;              /* [lot] in a house: tons of bound loads */
    double *joined;            /* [lot of the estimate] tons in the stack by the log that count with what bound
                                  loads take there */
    double stack_tons;         /* room for litter and the slopes of its piles; 0: no stack */
    double pile_tons;          /* of it, what the slopes of a pile take: lots lie apart */
    /* days */
    ls_haul_clock clock;
    ls_haul_range *range;  /* [lot] what the split reckons with */
    ls_haul_range *hauled; /* [lot] as the calendar has it */
    /* what was handed out */
    LS_LIST(ls_haul_bound)
    bound;                   /* tickets in the order in which they are served, then loads that
                                those out of the stack need */
    long *owed;              /* [buyer] promised loads that are neither gone nor bound */
    double *owed_tons;       /* [buyer] tons of them by the slip, as far as trucks take them now */
    double *rest[LS_STAGES]; /* [lot] tons that bound loads leave */
    long *rest_sure;         /* [lot] full loads that are sure, bound ones aside */
    ls_haul_room room;
    /* answers, bound loads among them but for rest_middle */
    const ls_split *rest_middle;
    size_t bound_from; /* load of the high stage: the first bound one, the others follow */
    /* free: the middle stage with nothing promised; its and the middle stage's third goal is money, whatever the aim */
    const ls_split *low, *middle, *high, *free;
    ls_goal aimed[LS_GOALS];      /* of the middle stage, by the aim */
    ls_haul_promise firm, likely; /* likely: the middle stage's, firm loads among them; of the rest
                                   */
    /* the plan's loads, still open for changes */
    ls_load *loads; /* those out of the stack last */
    size_t loads_n;
    size_t *load_of;     /* which load of the high stage each is */
    ls_haul_trip *trips; /* of the loads counted */
    size_t trips_n;
    ls_trade *trade;           /* [buyer], of the plan */
    ls_loading *loading_of;    /* [lot of the estimate], of the plan */
    ls_haul_run run, high_run; /* of the loads counted; of all */
};

static inline size_t ls_haul_lot_field(const ls_haul_planner *p, size_t lot, size_t field) {
    return lot * p->fields + field;
}
static inline size_t ls_haul_lot_to(const ls_haul_planner *p, size_t lot, size_t to) {
    return lot * (p->buyers + 1) + to;
}

/* The lot of the estimate; has its litter left the house? */
static inline const ls_lot *ls_haul_lot(const ls_haul_planner *p, size_t lot) { return &p->e->lots[p->lot_of[lot]]; }
static inline bool ls_haul_is_stacked(const ls_haul_planner *p, size_t lot) { return lot >= p->house_lots; }

/* The lot in a house of one of the estimate's and a kind of truck; the one there that a lot is of. */
static inline size_t ls_haul_house_lot(const ls_haul_planner *p, size_t of, size_t kind) {
    return of * p->kinds + kind;
}
static inline size_t ls_haul_home(const ls_haul_planner *p, size_t lot) {
    return ls_haul_house_lot(p, p->lot_of[lot], p->kind_of[lot]);
}

/* Tons of bound loads of a lot of the estimate. */
static inline double ls_haul_held(const ls_haul_planner *p, size_t of) {
    double held = 0;
    for (size_t k = 0; k < p->kinds; k++) held += p->held[ls_haul_house_lot(p, of, k)];
    return held;
}

/* Tons in whole hundredths, as the split counts them. */
static inline double ls_haul_hundredths(double tons) { return tons > 0 ? floor(tons * 100 + 1e-6) / 100 : 0; }

/* Whoever is promised loads means full ones, or nearly: less is never firm. */
static inline bool ls_haul_is_load(const ls_haul_planner *p, size_t lot, double tons) {
    return tons > 0.9 * p->payload_out[lot] - 0.005;
}

/* Tons an acre of a drop. */
static inline double ls_haul_drop_rate(const ls_haul_planner *p, const ls_split_drop *d) {
    return d->rate > 0 ? d->rate : p->rate[ls_haul_lot_field(p, d->lot, d->field)];
}

/* The load of the high stage that one of the plan's list is. */
static inline const ls_split_load *ls_haul_split_of(const ls_haul_planner *p, const ls_load *load) {
    return &p->high->loads[p->load_of[load - p->loads]];
}

static inline size_t ls_haul_lot_buyer(const ls_haul_planner *p, size_t lot, size_t buyer) {
    return lot * p->buyers + buyer;
}

/* The highest rate of any lot on a field as it is, ton/ac; the largest full load of any lot, ton. */
double ls_haul_top_rate(const ls_haul_planner *p, size_t field);
double ls_haul_largest(const ls_haul_planner *p);

/* The lot of the estimate with that code; e->n if there is none. */
size_t ls_haul_lot_coded(const ls_haul_planner *p, const char *code);

/* A range made to hold other days too; the days of a lot of the estimate, by all kinds of truck. */
void ls_haul_widen(ls_haul_range *range, ls_haul_range days);
ls_haul_range ls_haul_range_of(const ls_haul_planner *p, const ls_haul_range *ranges, size_t of);

/* May the kind of truck spread on the field? The kind that spreads litter of a lot there: its own,
 * or that of the stack, which takes it out of there. */
bool ls_haul_spreads_on(const ls_haul_planner *p, size_t kind, size_t field);
size_t ls_haul_kind_for(const ls_haul_planner *p, size_t lot, size_t field);
/* Kinds take turns: whose is next that had so many of all its loads; p->kinds: none is left. */
size_t ls_haul_turn(const ls_haul_planner *p, const size_t *had, const size_t *all);

/* Of the litter of a lot in a house, or of what lies in the stack of it. */
static inline const ls_rate *ls_haul_rate_of(const ls_haul_planner *p, const ls_field_rates *r, size_t lot,
                                             size_t field) {
    bool lies = ls_haul_is_stacked(p, lot) && lot < p->stacked_lots;
    return (lies ? ls_field_stacked_rate : ls_field_rate)(r, p->lot_of[lot], ls_haul_kind_for(p, lot, field));
}

/* A figure of common practice. The lines of a buyer, whose name labels hold. The rates of a field. */
const ls_figure *ls_haul_practice(const ls_haul_planner *p, const char *row);
ls_worksheet *ls_haul_of_buyer(const ls_haul_planner *p, const ls_buyer *b);
const ls_field_rates *ls_haul_rates(const ls_haul_planner *p, size_t field);

/* A note of the plan, once. */
void ls_haul_note(ls_haul_planner *p, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* Lot code, running number with two digits at least, check character: "NORTH-LEFT-07-K"; out of the
 * stack "NORTH-LEFT-S07-Q". */
const char *ls_haul_ticket(ls_arena *a, const char *code, long number, bool from_stack);

/* A quantity of the farm as a line, or else the figure of common practice, said aloud
 * unless what is NULL. A line of time in seconds, cut to what any calendar can hold; whole ones. */
ls_line ls_haul_given_or(ls_haul_planner *p, ls_worksheet *w, const char *key, const char *label, const char *unit,
                         const ls_quantity *q, const char *row, const char *what);
double ls_haul_seconds(const ls_haul_planner *p, ls_line line);
ls_sim_time ls_haul_whole(double seconds);

/* A figure that is exact by definition. */
ls_line ls_haul_exact(ls_haul_planner *p, const char *key, const char *label, const char *unit, double value);
/* A figure that the split decides, in the unit; words say which split: ls_haul_likely_split. */
extern const char ls_haul_likely_split[];
ls_line ls_haul_decided(ls_worksheet *w, const char *key, const char *label, const char *unit, double value,
                        const char *words);
/* Hours that the days come to. */
ls_line ls_haul_timed(ls_worksheet *w, const char *key, const char *label, ls_sim_time time);
