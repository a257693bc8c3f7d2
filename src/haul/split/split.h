/* The split in whole units: tons in hundredths, capacity in millionths. Private to the room. */
#pragma once

#include "littershed/base/arena.h"
#include "solve.h"

#include <limits.h>
#include <stdbool.h>
#include <stdint.h>

#define LS_HAUL_PLENTY (INT64_MAX / 8) /* more than any amount */

/* The problem, its fields and buyers in the order of their names, so that the order in a file
 * cannot matter. [lot][field] is [lot * fields + field]; [lot][to] is [lot * (buyers + 1) + to],
 * where to == buyers is the stack. Tons are hundredths of a ton. */
typedef struct {
    ls_arena *arena;
    const ls_split_problem *given;
    size_t lots, fields, buyers;
    size_t *given_field;         /* [field] its number in the given problem */
    size_t *given_buyer;         /* [buyer] */
    size_t *first;               /* [buyers + 1] a buyer's fields are first[b] .. first[b + 1] - 1 */
    size_t *buyer;               /* [field] */
    int64_t *tons;               /* [lot] */
    int64_t *payload;            /* [lot] */
    int64_t *payload_out;        /* [lot] of a trip out of the stack */
    double *use;                 /* [lot][field] capacity per ton */
    size_t *alike;               /* [lot][field] the first lot that uses this field at the same rate */
    bool *open, *later;          /* [lot][field] reachable, and at least one smallest drop fits */
    int64_t *alone;              /* [lot][field] tons that fit if no other lot goes there */
    double *value, *later_value; /* [lot][field] */
    double *trip_cost;           /* [buyer] */
    int64_t *capacity;           /* [field] in millionths */
    bool *even;                  /* [field] all lots that may go there use it alike */
    int64_t *even_tons;          /* [field] tons that fit in all, if even */
    int64_t *least, *most;
    long *least_loads, *most_loads; /* [buyer] */
    int64_t *at_most;               /* [lot][buyer] tons the buyer's open fields can take of this lot alone */
    int64_t drop;                   /* the smallest drop */
    int64_t room;                   /* of the stack */
    int64_t *pile;                  /* [lot] of it that a pile takes beside its litter, rounded up */
    size_t *pile_of;                /* [lot] the first lot that lies in the same pile */
    bool stack;                     /* there is one */
    long *kept;                     /* [lot][to] */
    int64_t *kept_part;             /* [lot][to] */
    int64_t *kept_out;              /* [lot][buyer], as at_most: tons out of the stack */
    bool priced;                    /* too large for the whole program: see price.c */
} ls_haul_task;

/* An answer in whole units. */
typedef struct {
    long *full;        /* [lot][to] full loads, the kept ones among them */
    int64_t *part;     /* [lot][to] tons of the part load; a lot has at most one beside kept parts */
    int64_t *straight; /* [lot][field] */
    int64_t *out;      /* [lot][field] out of the stack */
    /* what it is worth */
    int64_t placed, short_of, stacked;
    double money;
    long drops;
} ls_haul_answer;

/* What a relaxed or searched model wishes for, in tons and loads; same shapes as an answer. */
typedef struct {
    bool whole;   /* loads are whole numbers; else parts mean nothing */
    bool arrange; /* the solver may help to arrange fields (not while it is at work itself) */
    double *full, *part, *straight, *out;
    const double *worth; /* [lot][field] what a ton more is worth; NULL: its money */
} ls_haul_wish;

/* task.c */
ls_haul_task *ls_haul_task_new(ls_arena *a, const ls_split_problem *p);
/* v times scale down to a whole number; within a millionth of a whole counts as whole. */
int64_t ls_haul_down(double v, double scale);
/* Millionths of capacity that tons (hundredths) cover at a use, rounded up. */
int64_t ls_haul_cover(double use, int64_t tons);
static inline int64_t ls_haul_lesser(int64_t a, int64_t b) { return a < b ? a : b; }
/* Most tons (hundredths) that cover no more than capacity (millionths) at a use. */
int64_t ls_haul_fit(double use, int64_t capacity);

/* answer.c */
ls_haul_answer *ls_haul_answer_new(const ls_haul_task *t);
void ls_haul_answer_copy(const ls_haul_task *t, ls_haul_answer *to, const ls_haul_answer *from);
/* The loads and tons of one buyer. */
void ls_haul_answer_copy_buyer(const ls_haul_task *t, ls_haul_answer *to, const ls_haul_answer *from, size_t buyer);
int64_t ls_haul_covered(const ls_haul_task *t, const ls_haul_answer *x, size_t field);
/* Tons of the lot that still fit on the field. */
int64_t ls_haul_spare(const ls_haul_task *t, const ls_haul_answer *x, size_t lot, size_t field);
/* Tons that leave the lot for a buyer or the stack; all that leave it. */
int64_t ls_haul_sent(const ls_haul_task *t, const ls_haul_answer *x, size_t lot, size_t to);
int64_t ls_haul_gone(const ls_haul_task *t, const ls_haul_answer *x, size_t lot);
/* Has the lot a part load beside kept ones, or may it have none? */
bool ls_haul_has_part(const ls_haul_task *t, const ls_haul_answer *x, size_t lot);
/* Tons on the buyer's fields straight and out of the stack; tons of one lot out of the stack. */
int64_t ls_haul_on_buyer(const ls_haul_task *t, const ls_haul_answer *x, size_t buyer);
int64_t ls_haul_out_of_lot(const ls_haul_task *t, const ls_haul_answer *x, size_t lot);
/* Does every buyer get the tons out of the stack that are promised of each lot? */
bool ls_haul_keeps_out(const ls_haul_task *t, const ls_haul_answer *x);
/* Does litter lie in the pile of the lot? */
bool ls_haul_lies(const ls_haul_task *t, const ls_haul_answer *x, size_t lot);
/* Room of the stack that is left: its litter and the slopes of its piles aside. */
int64_t ls_haul_room_left(const ls_haul_task *t, const ls_haul_answer *x);
/* Trips out of the stack to a field: never shared, fields open on days of their own. */
long ls_haul_out_trips(const ls_haul_task *t, const ls_haul_answer *x, size_t lot, size_t field);
/* Truck trips to a buyer: full and part loads and those out of the stack. */
long ls_haul_trips(const ls_haul_task *t, const ls_haul_answer *x, size_t buyer);
/* May the buyer get that many more trips and tons? */
bool ls_haul_order_allows(const ls_haul_task *t, const ls_haul_answer *x, size_t buyer, long trips, int64_t tons);
/* Fill in what it is worth (drops aside). */
void ls_haul_evaluate(const ls_haul_task *t, ls_haul_answer *x);
/* Form all loads and count their drops; false if some cannot be formed. */
bool ls_haul_count_drops(const ls_haul_task *t, ls_haul_answer *x);
/* Make a new answer of the problem's start, not checked yet; false if there is none or its loads cannot be formed. */
bool ls_haul_start(const ls_haul_task *t, ls_haul_answer *x);
/* Is a the better by the goals in their order: tons, short, money, few in the stack, few drops? */
bool ls_haul_better(const ls_haul_answer *a, const ls_haul_answer *b);

/* form.c */
typedef struct {
    size_t load, field;
    int64_t tons;
} ls_haul_piece;
typedef LS_LIST(ls_haul_piece) ls_haul_pieces;
typedef LS_LIST(int64_t) ls_haul_sizes;
/* The loads of a lot to a buyer (straight or out of the stack), full ones first. */
ls_haul_sizes ls_haul_sizes_of(const ls_haul_task *t, const ls_haul_answer *x, size_t lot, size_t buyer,
                               bool from_stack);
/* Pieces of a lot's loads to a buyer; false if they cannot be formed. */
bool ls_haul_pieces_of(const ls_haul_task *t, const ls_haul_answer *x, size_t lot, size_t buyer, bool from_stack,
                       ls_haul_pieces *out);

/* fields.c: tons of one lot on the fields of one buyer, straight from the house or out of the stack. */
typedef struct {
    const ls_haul_task *t;
    ls_haul_answer *x;
    size_t lot, buyer;
    int64_t *on;     /* [field] */
    const bool *may; /* [field] */
} ls_haul_side;
ls_haul_side ls_haul_straight_side(const ls_haul_task *t, ls_haul_answer *x, size_t lot, size_t buyer);
ls_haul_side ls_haul_out_side(const ls_haul_task *t, ls_haul_answer *x, size_t lot, size_t buyer);
int64_t ls_haul_side_tons(ls_haul_side s);
/* Tons that still fit on the fields it may go to. */
int64_t ls_haul_side_spare(ls_haul_side s);
/* Add tons where they fit, first on fields in use; returns what did not fit. */
int64_t ls_haul_side_fill(ls_haul_side s, int64_t need);
/* Take tons off, emptying the smallest first. */
void ls_haul_side_cut(ls_haul_side s, int64_t excess);
/* Bring fields that hold less than the smallest drop to nothing or to a drop, the sum unchanged;
 * false if that cannot be. */
bool ls_haul_side_mend(ls_haul_side s);

/* settle.c: from wishes to an answer that keeps every limit. */
/* Make x of the wish; false if not even the kept loads could be placed. x is evaluated, drops counted. */
bool ls_haul_settle(const ls_haul_task *t, const ls_haul_wish *wish, ls_haul_answer *x);

/* top_up.c: what is left goes wherever it still fits, best paid first; stack_up.c: then by way of the stack. */
void ls_haul_top_up(const ls_haul_task *t, ls_haul_answer *x, const double *worth);
/* trade.c: a buyer's loads for others, so that more tons go onto its fields. */
void ls_haul_trade(const ls_haul_task *t, ls_haul_answer *x);
void ls_haul_stack_up(const ls_haul_task *t, ls_haul_answer *x);
/* Fewer loads that are not promised, those of the smallest piles first, until the stack holds all. */
void ls_haul_fit_stack(const ls_haul_task *t, ls_haul_answer *x);

/* check.c: every limit again, in whole units; NULL or what is wrong. */
const char *ls_haul_check(const ls_haul_task *t, const ls_haul_answer *x);

static inline size_t ls_haul_task_field(const ls_haul_task *t, size_t lot, size_t field) {
    return lot * t->fields + field;
}
static inline size_t ls_haul_task_to(const ls_haul_task *t, size_t lot, size_t to) {
    return lot * (t->buyers + 1) + to;
}
