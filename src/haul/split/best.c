/* The best answer so far: what it is worth, and whether a wish makes a better one. */
#include "search.h"

enum { MOST_PIVOTS = 200000 };

double ls_haul_worth(const ls_haul_answer *x, ls_haul_aim aim) {
    switch (aim) {
    case LS_HAUL_TONS: return (double)x->placed / 100;
    case LS_HAUL_SHORT: return (double)x->short_of / 100;
    case LS_HAUL_MONEY: return x->money;
    case LS_HAUL_STACKED: return (double)x->stacked / 100;
    }
    return 0;
}

bool ls_haul_consider(ls_haul_search *s, bool whole, bool arrange) {
    s->wish->whole = whole;
    s->wish->arrange = arrange;
    if (!ls_haul_settle(s->t, s->wish, s->trial)) return false;
    if (s->found && !ls_haul_better(s->trial, s->best)) return false;
    ls_haul_answer_copy(s->t, s->best, s->trial);
    s->found = true;
    return true;
}

static double distance(const ls_haul_search *s, double bound) {
    double worth = ls_haul_worth(s->best, s->aim);
    return ls_haul_maximizes(s->aim) ? bound - worth : worth - bound;
}

bool ls_haul_proven(const ls_haul_search *s) { return s->found && distance(s, s->bound) < 0.0099; }

bool ls_haul_simplex(glp_prob *lp, int method) {
    glp_smcp with;
    glp_init_smcp(&with);
    with.msg_lev = GLP_MSG_OFF;
    with.meth = method;
    with.it_lim = MOST_PIVOTS;
    return glp_simplex(lp, &with) == 0 && glp_get_status(lp) == GLP_OPT;
}
