/* Diving: round up one load after the other, solving the rest again. */
#include "search.h"

#include <math.h>

static bool is_load(glp_prob *lp, int j) { return glp_get_col_kind(lp, j) != GLP_CV; }

/* Every load column at least what it is now; the one with the most to it beyond that, 0 if all are whole. */
static int rise(glp_prob *lp) {
    int most = 0;
    double beyond = 1e-5;
    for (int j = 1; j <= glp_get_num_cols(lp); j++) {
        if (!is_load(lp, j) || glp_get_col_type(lp, j) == GLP_FX) continue;
        double value = glp_get_col_prim(lp, j), whole = floor(value + 1e-5);
        double high = glp_get_col_ub(lp, j);
        if (whole >= high)
            glp_set_col_bnds(lp, j, GLP_FX, high, high);
        else if (whole > glp_get_col_lb(lp, j))
            glp_set_col_bnds(lp, j, glp_get_col_type(lp, j), whole, high);
        if (value - whole > beyond) most = j, beyond = value - whole;
    }
    return most;
}

/* Up if that leaves an answer, else down. */
static bool round_column(glp_prob *lp, int j) {
    double low = floor(glp_get_col_prim(lp, j) + 1e-5), high = glp_get_col_ub(lp, j);
    int type = glp_get_col_type(lp, j);
    if (low + 1 >= high)
        glp_set_col_bnds(lp, j, GLP_FX, low + 1, low + 1);
    else
        glp_set_col_bnds(lp, j, type, low + 1, high);
    if (low + 1 <= high && ls_haul_simplex(lp, GLP_DUALP)) return true;
    glp_set_col_bnds(lp, j, GLP_FX, low, low);
    return ls_haul_simplex(lp, GLP_DUALP);
}

void ls_haul_dive(ls_haul_search *s) {
    glp_prob *lp = glp_create_prob();
    glp_copy_prob(lp, s->m->lp, GLP_OFF);
    bool goes = ls_haul_simplex(lp, GLP_PRIMAL);
    int next = 1, most = 2 * glp_get_num_cols(lp);
    for (int step = 0; step < most && goes && next != 0; step++) {
        ls_haul_model_read(s->m, lp, glp_get_col_prim, s->wish);
        next = rise(lp);
        goes = next == 0 || round_column(lp, next);
    }
    ls_haul_consider(s, next == 0, true); /* where it got stuck: what was whole till then */
    glp_delete_prob(lp);
}
