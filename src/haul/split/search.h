/* Solving one goal of the program. Private to the room. */
#pragma once

#include "model.h"

/* The best answer so far, and the means to find a better one. */
typedef struct {
    const ls_haul_task *t;
    ls_haul_model *m; /* NULL: no solver at hand, rounding only */
    ls_haul_answer *best, *trial;
    ls_haul_wish *wish;
    bool found; /* best holds an answer */
    ls_haul_aim aim;
    double bound; /* of the aim under what is held */
    long nodes, most_nodes;
    double *nearness; /* [buyer] what a ton of the best litter earned at the last prices */
} ls_haul_search;

static inline bool ls_haul_maximizes(ls_haul_aim aim) { return aim == LS_HAUL_TONS || aim == LS_HAUL_MONEY; }

/* best.c. What the best answer is worth for an aim, as the model counts it. */
double ls_haul_worth(const ls_haul_answer *x, ls_haul_aim aim);
/* Round and repair the wish (see ls_haul_wish); keep it if it is the better answer. True if it is. */
bool ls_haul_consider(ls_haul_search *s, bool whole, bool arrange);
/* Is the best answer as good as the bound, within a hundredth of the aim's unit? */
bool ls_haul_proven(const ls_haul_search *s);
/* Solve a relaxed program with a method of GLPK's; true if that gave an optimum. */
bool ls_haul_simplex(glp_prob *lp, int method);

/* search.c: maximize (minimize) the aim: relaxed, then by diving, then by branching over at most
 * most_nodes nodes. Leaves the bound, and the best answer if a better one turned up. */
void ls_haul_search_aim(ls_haul_search *s, ls_haul_aim aim, long most_nodes);

/* price.c: the same for tons or money without a program, in so many rounds of prices; its work is
 * in proportion to pairs of a lot and a field. */
void ls_haul_price(ls_haul_search *s);

/* group.c: the best answer's buyers planned anew, a few at a time, for all goals. */
void ls_haul_groups(ls_haul_search *s, const ls_split *(*solve)(ls_arena *a, const ls_split_problem *p));

/* dive.c: from the optimum of the relaxed program to whole loads, one after the other; considers what comes of it. */
void ls_haul_dive(ls_haul_search *s);
/* improve.c: a better answer for the aim by planning a few buyers at a time anew. */
void ls_haul_improve(ls_haul_search *s);
/* few.c: fewer drops in the best answer, the tons of each lot for each buyer staying as they are;
 * returns a bound on the drops that can be had so. */
double ls_haul_few_drops(ls_haul_search *s);
