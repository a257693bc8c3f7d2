/* The split, the core of a plan: lots to fields, without farms, units or dates. Private to the room. */
#pragma once

#include "littershed/haul.h"

/* Fields are numbered so that those of one buyer stand together. Matrices are [lot * fields +
 * field]. Tons unless said. */
typedef struct ls_split ls_split;

typedef struct {
    size_t lots, fields, buyers;
    const double *tons;         /* [lot] to be placed */
    const double *payload;      /* [lot] of a full load */
    const double *payload_out;  /* [lot] of one out of the stack; NULL: as payload */
    const size_t *buyer;        /* [field] */
    const double *use;          /* [lot][field] of the field's capacity per ton; INFINITY: this lot may not go there */
    const double *value;        /* [lot][field] money per ton, straight from the house */
    const double *capacity;     /* [field] */
    const bool *open;           /* [lot][field] may be taken straight from the house */
    const bool *later;          /* [lot][field] may be taken out of the stack; NULL: there is no stack */
    const double *later_value;  /* [lot][field] money per ton by way of the stack */
    const double *trip_cost;    /* [buyer] money per trip, out and back */
    double stack_value;         /* money per ton taken into the stack (a cost is negative) */
    double stack_room;          /* tons; 0: no stack */
    const double *pile;         /* [lot] tons of that room that the slopes of its pile take, if any litter
                                   of it goes there: lots lie apart; NULL: none */
    const size_t *pile_of;      /* [lot] number of its pile: lots with the same one lie together; NULL:
                                   each apart */
    const double *least, *most; /* [buyer] order, in tons; 0 and INFINITY: none */
    const long *least_loads, *most_loads; /* [buyer] order in loads; 0 and LONG_MAX: none */
    double smallest_drop;
    const long *kept;         /* [lot * (buyers + 1) + buyer; last: the stack] full loads that are promised
                                 already; NULL: none */
    const double *kept_part;  /* [as kept] tons of part loads that are promised already, one load
                                 each; NULL: none */
    const double *kept_out;   /* [lot * buyers + buyer] tons out of the stack that are promised
                                 already, no more of a lot than its kept loads take into it; NULL:
                                 none */
    const bool *no_part;      /* [lot] its part load is promised outside of the problem: it gets no
                                 other; NULL: none is */
    const ls_split *start;    /* an answer to begin with: one of less litter, its loads promised, say;
                                 NULL: none */
    bool whole_loads;         /* every load goes whole to one field or nowhere (tons[lot] is one load) */
    bool tons_only;           /* the first goal alone, and few tons into the stack; the other goals' bounds
                                 are what no answer can pass */
    bool quick;               /* no searching once the relaxed problem is rounded: wider gaps */
    const char *const *names; /* [field] ties go to the lesser name */
    ls_progress progress;     /* told of each goal */
    const char *stage;        /* the words that lead it: "middle stage" */
} ls_split_problem;

/* A part of a load on one field. A trip out of the stack goes to one field: fields open on days of their own. */
typedef struct {
    size_t lot, field;
    double tons;
    double rate; /* tons an acre on its ticket, which was handed out; 0: as the problem says */
} ls_split_drop;
typedef struct {
    size_t lot;
    size_t buyer; /* == buyers: to the stack */
    bool from_stack;
    double tons;
    size_t first, n; /* its drops */
} ls_split_load;

struct ls_split {
    size_t loads_n, drops_n;
    ls_split_load *loads; /* by lot, full loads first; within a lot by buyer */
    ls_split_drop *drops;
    double *straight; /* [lot] tons straight from the house to fields */
    double *stacked;  /* [lot] tons into the stack */
    double *unplaced; /* [lot] */
    ls_goal goals[LS_GOALS];
};

/* Solve goal by goal (tons on fields; tons short of orders; money; few drops) with GLPK, limited by nodes; tons to 0.01
 * (what is given is rounded down to that). Equal answers are told apart by names, never by the order of fields. If GLPK
 * gives up, answers of plain rounding and their wider bounds remain. The answer lives in the arena. It is checked again
 * against every limit in whole units before it is returned; a failed check ends the program (exit 3). NULL: the kept
 * loads could not be placed. */
const ls_split *ls_split_solve(ls_arena *a, const ls_split_problem *p);

/* again.c: the same, or what an equal problem with the same start got before, in the same arena. */
typedef struct {
    const char *problem; /* as bytes */
    size_t n;
    const ls_split *answer;
} ls_split_known;
typedef LS_LIST(ls_split_known) ls_split_memory;
const ls_split *ls_split_again(ls_arena *a, ls_split_memory *m, const ls_split_problem *p);
