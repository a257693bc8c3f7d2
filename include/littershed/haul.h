/* haul: whole truck loads to fields and stack, and the days it takes. */
#pragma once

#include "littershed/agronomy.h"
#include "littershed/farm.h"
#include "littershed/litter.h"
#include "littershed/reference.h"
#include "littershed/worksheet.h"

/* Told what is being worked on, in words: "middle stage, goal 3 of 4". say NULL: nobody listens. */
typedef struct {
    void (*say)(void *to, const char *words);
    void *to;
} ls_progress;

/* What a plan aims at, in this order: most tons on fields; fewest tons short of orders; the third
 * goal, by the aim; few drops. */
typedef struct {
    const char *goal, *unit;
    double value, bound, gap; /* gap = distance between value and bound, in the unit, never negative */
} ls_goal;
enum { LS_GOAL_TONS, LS_GOAL_SHORT, LS_GOAL_RETURN, LS_GOAL_DROPS, LS_GOALS };

typedef enum { LS_FIRM, LS_LIKELY, LS_POSSIBLE } ls_certainty;
const char *ls_certainty_name(ls_certainty c); /* "firm", "likely", "possible" */
enum { LS_STAGES = 3 };                        /* litter as at its 10, 50 and 90 % points */

/* What the third goal is, after tons on fields and orders: the most net return; the fewest miles of
 * trucks; the most pounds of P2O5 that crops need (no more than need less credits counts). */
typedef enum { LS_AIM_MONEY, LS_AIM_NEAR, LS_AIM_PHOSPHORUS, LS_AIMS } ls_aim;
const char *ls_aim_name(ls_aim aim); /* "money", "near", "phosphorus" */

typedef struct {
    const ls_buyer *buyer;
    const ls_field *field;
    ls_line tons, acres, rate;   /* at a yard only tons */
    ls_line takes;               /* tons: the field could take at that rate on its spreadable acres */
    ls_line value_per_ton;       /* of this litter on this field, as fertilizer; LS_NO_LINE: not known */
    ls_line worth;               /* $ of the drop by that; LS_NO_LINE: not known, or a possible load */
    const ls_analysis *analysis; /* of the litter; in the stack: that which may go on least */
} ls_drop;

typedef struct {
    ls_date day;
    long second; /* of the day, after midnight */
} ls_moment;

typedef struct {
    const char *ticket;
    const ls_lot *lot;
    const ls_issued *issued; /* NULL: not handed out; else way, buyer and rates are the ticket's */
    ls_certainty certainty;
    const ls_buyer *buyer; /* NULL: to the stack */
    bool from_stack;       /* likely if as many trips to the buyer are in the middle stage */
    ls_line tons;
    ls_date day; /* LS_NO_DATE for loads out of the stack: from says the earliest. A possible load's
                    day and times are those of the high case, in which all loads are there */
    ls_date from;
    size_t kind;                                  /* of truck, in the order of the farm */
    long truck;                                   /* 1 ..., those of each kind after those of the kinds before */
    long number;                                  /* 1 ... of its kind; 0: out of the stack, by any of the kind */
    ls_moment start, leave, there, emptied, back; /* loads from the house: loading begins, the truck leaves, is at the
                                                     field or stack, is empty, is back */
    size_t n;
    const ls_drop *drops;
    const ls_field *standby; /* of a load that is not firm: a field that could take all of it, kept
                                for it alone, should its own not be fit then; NULL: none */
    const ls_buyer *standby_buyer;
} ls_load;

static inline const ls_analysis *ls_load_analysis(const ls_load *l) {
    return l->n > 0 ? l->drops[0].analysis : l->lot->analysis;
}

/* Is a load one of the middle case, firm or likely? The days of a plan are of these. */
static inline bool ls_load_counted(const ls_load *l) { return l->certainty != LS_POSSIBLE; }

/* The litter of a lot in the stack: lots lie apart, as they come, the first at the wall. */
typedef struct {
    const ls_lot *lot;
    ls_line tons;
    ls_line length;      /* of the shed, with its end slopes; LS_NO_LINE: the file gives no shed */
    ls_date first, last; /* days on which its first and last load may go out; LS_NO_DATE: none */
} ls_pile;

/* A ticket that was handed out and cannot stay as it is: its way, buyer or rate changes. */
typedef struct {
    const ls_issued *issued;
    const ls_load *now; /* the load that has its number now; NULL: none is planned */
    const char *why;    /* "Upper Meadow is full" */
    ls_line tons;       /* on the ticket; LS_NO_LINE: the books make it */
} ls_recall;

/* A field that gets nothing, and why, in plain words. */
typedef struct {
    const ls_buyer *buyer;
    const ls_field *field;
    const char *why;
} ls_unused_field;

/* A buyer whose least is not reached at the middle stage, and by how many tons. */
typedef struct {
    const ls_buyer *buyer;
    ls_line short_of;
} ls_short_order;

/* One limit that keeps litter of the middle stage from a home, and what lifting it does. */
typedef enum {
    LS_RELIEF_ORDER, /* a buyer's most: so many tons or loads */
    LS_RELIEF_WINDOW,
    LS_RELIEF_CAP,    /* the plan's top rate of a field */
    LS_RELIEF_SEASON, /* the caps of a season (window_caps) of a field */
    LS_RELIEF_STACK,  /* tons the stack holds */
    LS_RELIEF_TRUCK   /* tons of a full load */
} ls_relief_kind;
typedef struct {
    ls_relief_kind kind;
    const ls_buyer *buyer; /* NULL: stack, truck */
    const ls_field *field; /* window, cap and season */
    ls_line tons;          /* of those without a home, this many would find one */
    ls_line to;            /* the least change seen to do it; LS_NO_LINE: a window */
    ls_line now;           /* stack: what it holds in as many piles; LS_NO_LINE: none is given */
    size_t piles;
    ls_line body;   /* of a truck with more tons whose body is full before its weight limit: the
                       struck   volume of the body it takes; else LS_NO_LINE */
    ls_window open; /* the window that does it */
} ls_relief;

/* A limit of the program's own, taken because the file gives none, and the least on a field. */
typedef enum {
    LS_DEFAULT_PHOSPHORUS, /* no rating: what one crop removes */
    LS_DEFAULT_RATE,       /* no limit of the field: the top of the published range */
    LS_DEFAULT_RICH        /* no lab report: what a ton holds if the litter is rich */
} ls_default_kind;
typedef struct {
    ls_default_kind kind;
    const ls_buyer *buyer;
    const ls_field *field;
    const char *what; /* "no phosphorus rating: held to 1.9 tons/ac" */
    ls_line tons;     /* of those without a field in the middle case, this many would find one without
                         that limit, all others as they are; LS_NO_LINE: not tried, as there are many */
} ls_default_limit;

enum { LS_COSTS = 6 };

/* A day on which anything is done. Hours are lines; the loader's end with its last load. */
typedef struct {
    ls_date day;
    long loads;     /* begun on it */
    ls_moment done; /* the last truck is back, the last slats are moved */
    ls_line tons;
    const char *work; /* "North/left: slats off, 5 loads" */
    ls_line loading;  /* hours the loader loads */
    ls_line idle;     /* hours it waits for a truck */
    ls_line slats;    /* hours slats are moved */
    ls_line waiting;  /* hours trucks wait for the loader, all trucks together */
    ls_line held;     /* hours trucks wait for slats */
    ls_line out;      /* hours it is out, but for those slats are moved in; LS_NO_LINE: none ever */
    ls_line stopped;  /* hours trucks wait while it is out; as out */
} ls_workday;

/* What a ton is worth to a buyer, and how far it may go. Lines, LS_NO_LINE: not known. */
typedef struct {
    const ls_buyer *buyer;
    ls_line value;      /* $/ton in the fields, as fertilizer the crops will use: mean by tons */
    ls_line price;      /* $/ton delivered and spread; LS_NO_LINE: none given */
    ls_line at_house;   /* $/ton: the price less haul, spreading and taking out: what is left of it */
    ls_line left;       /* the same without a price too: what a ton costs, below 0 */
    ls_line ton_mile;   /* $ to haul a ton a mile of distance, out and back */
    ls_line break_even; /* value = price at the house + take out + spread + haul; < 0: none */
    const char *lacks;  /* what to add to know it; NULL if it is known */
} ls_worth;

/* What the middle stage gives one buyer. LS_NO_LINE: nothing, or not given. */
typedef struct {
    ls_line tons, price, income, haul;
    ls_line distance; /* one way */
} ls_trade;

/* How the loader loads the litter of a lot. */
typedef struct {
    ls_line bucket, buckets, cycle, time; /* litter in one; for a full load, and their time */
    ls_line steady, production, volume;   /* in an hour: without pauses; with usual ones */
} ls_loading;

/* Slats of a lot moved off or back. */
typedef struct {
    const ls_lot *lot;
    bool back;
    ls_moment from, to;
} ls_move;

/* One of several kinds of truck. */
typedef struct {
    ls_line share;   /* of the litter that it hauls */
    ls_line payload; /* mean over all litter */
    ls_line round;   /* mean of its full trips; LS_NO_LINE: it can haul nowhere */
} ls_plan_kind;

/* The same loads with another fleet. */
typedef struct {
    long trucks;       /* that haul */
    const char *fleet; /* of several kinds: "2 x spreader, 1 x tandem"; NULL: of one */
    ls_moment finish;
    ls_line hours;               /* on the job, from the day's beginning to the last thing done, all days */
    ls_line idle, waiting, held; /* as of a workday, all days */
    ls_line cost;                /* of the crew and the trucks for those hours; LS_NO_LINE: not known */
} ls_fleet;

typedef struct ls_plan ls_plan;
struct ls_plan {
    size_t loads_n;
    /* From the house, in the order of hauling: of a lot full loads, firm ones before likely before
     * possible, then part loads in the same order. A truck leaves with a part load only when the
     * house is swept: as long as there is litter it is filled, and the load is a possible one. */
    const ls_load *loads;
    size_t out_n;
    const ls_load *out;                                                   /* out of the stack */
    ls_line straight[LS_STAGES], stacked[LS_STAGES], unplaced[LS_STAGES]; /* tons */
    bool all_placed[LS_STAGES];                 /* but for less than the smallest drop that is usual */
    long homeless;                              /* loads, full and part, of litter without a field, middle case */
    long high_homeless;                         /* the same in the high case */
    long firm_homeless;                         /* full loads their lots are sure of, without a field or stack */
    ls_line income, cost[LS_COSTS], net_return; /* at the middle stage; a cost that is not given: LS_NO_LINE */
    ls_line costs;                              /* all of them */
    ls_line firmness_cost;                      /* money the middle stage gives up to keep firm loads where they are */
    ls_aim aim;
    ls_goal goals[LS_GOALS];                                   /* of the middle stage; the third is that of the aim */
    ls_line reached[LS_GOALS], bound[LS_GOALS], gap[LS_GOALS]; /* the goals as lines */
    /* What the bounds hold for: plans that keep the firm loads alone; those that keep the tickets
     * which are out as well, of whose litter no other split is tried. Neither: all plans. */
    bool firm_kept, tickets_kept;
    double gap_percent;             /* of the third goal: of income and costs if it is net return, else of it */
    ls_line stack_room, stack_left; /* at the middle stage, in its piles; LS_NO_LINE: no stack */
    ls_line another_pile;           /* tons of room that the slopes of one more take */
    LS_LIST(ls_pile) piles;         /* at the middle stage, the one nearest the door first */
    LS_LIST(ls_recall) recalled;    /* in the order of their lots and numbers */
    LS_LIST(ls_unused_field) unused;
    LS_LIST(ls_short_order) short_orders;
    LS_LIST(ls_relief) relief;          /* best first, three at most; empty if all has a home */
    LS_LIST(ls_default_limit) defaults; /* most tons first */
    /* Days, moves, hours, match and fleets are of the middle case: loads counted, in the order of their tickets. */
    ls_date start, finish;
    ls_moment begins;              /* no work before: the crew comes, or loads before it are gone */
    ls_moment ends;                /* on the finish: the last truck is back, the last slats are */
    long working_days, slack_days; /* slack: days between the finish and the next flock; LONG_MIN unknown */
    ls_date high_finish;           /* of all loads; LS_NO_DATE: none from a house is only possible */
    ls_moment high_ends;
    long high_days; /* working days of all loads, more than working_days */
    /* If litter without a field in the middle case found one as far away as the fields of that case
     * are on the mean by tons. */
    ls_line empty_distance; /* that far, one way; LS_NO_LINE: no such litter, or no distance */
    ls_date empty_finish;   /* the houses are empty; LS_NO_DATE: no such litter, or not known */
    ls_moment empty_ends;
    long empty_days; /* working days of that, more than working_days; 0: as empty_finish */
    size_t days_n;
    const ls_workday *days;
    long day_begins, day_seconds; /* of the working day: seconds after midnight, and how many */
    size_t moves_n;
    const ls_move *moves; /* in order */
    /* The order of lots in which the same loads are done soonest; n 0: that of the files. */
    LS_LIST(const ls_lot *) sooner;
    ls_moment sooner_ends;
    bool all_orders;            /* were tried: none is done sooner */
    LS_LIST(const char *) outs; /* a day each: "Tue, Feb 24: loader out 11:00 am to 3:30 pm" */
    ls_line loading, idle, slats, waiting, held, out_hours, stopped; /* hours of all days */
    ls_line match;             /* trucks x load time / round trip; LS_NO_LINE without loads */
    const ls_plan_kind *kinds; /* [truck of the farm]; NULL: one kind hauls all */
    size_t fleets_n;
    const ls_fleet *fleets;           /* of one kind of truck: 1, 2, ...; else as now, and one more
                                         or one fewer of each kind */
    size_t now, more;                 /* of the fleets: the farm's; of those with a truck more the
                                         one that finishes soonest. SIZE_MAX: not listed */
    size_t soonest, fewest, cheapest; /* fewest: of the soonest day; cheapest SIZE_MAX: unknown */
    ls_line ready;                    /* days the houses need before the next flock; LS_NO_LINE */
    long spare_days;                  /* whole days from finish to next flock less those; LONG_MIN */
    LS_LIST(const char *) notes;
    size_t unverified;            /* figures in the last notes that no source that was read gives */
    const ls_trade *trade;        /* [buyer of the farm] */
    const ls_loading *loading_of; /* [lot of the estimate]; NULL: no loader is given */
    ls_line job_efficiency;       /* share of an hour a loader works; LS_NO_LINE: no loader */
    LS_LIST(ls_worth) worth;      /* of the buyers that get litter at the middle stage */
};

/* "take out", "load", "haul", "spread", "stacking", "reload". */
const char *ls_cost_name(int cost);

typedef struct {
    ls_aim aim;
    ls_date from;     /* first day of what is left; LS_NO_DATE: when the crew arrives, or the day
                         after the last load that is gone */
    long from_second; /* of that day: no work before */
    ls_progress progress;
} ls_plan_terms;

/* Plan the loads of an estimate, once loads are gone (farm->hauled) what is left. Tickets that were handed out
 * (farm->issued) keep way, buyer and rate as long as field, order, stack and litter suffice; the others are recalled.
 * Slips (farm->promised) are served before what nobody was promised. Something missing that only planning needs (a
 * truck, a crew, buyers) is noted in the farm's diag; NULL then. */
const ls_plan *ls_haul_plan(ls_worksheet *w, const ls_reference *r, const ls_estimate *e, ls_agronomy *g,
                            const ls_plan_terms *terms);
