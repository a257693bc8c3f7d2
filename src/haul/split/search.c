/* Solving one goal: relax, round, dive (dive.c), branch. */
#include "search.h"

#include <math.h>

enum { MOST_HEURISTICS = 60, MOST_PAIRS = 100 };

/* A bound stands until a tighter one is known. */
static void tighten(ls_haul_search *s, double bound) {
    s->bound = ls_haul_maximizes(s->aim) ? fmin(s->bound, bound) : fmax(s->bound, bound);
}

/* What no answer can pass, whatever the solver says. */
static double plain_bound(const ls_haul_task *t, ls_haul_aim aim) {
    double tons = 0, money = 0;
    for (size_t i = 0; i < t->lots; i++) {
        double best = 0;
        for (size_t f = 0; f < t->fields; f++) {
            best = fmax(best, t->value[ls_haul_task_field(t, i, f)]);
            best = fmax(best, t->later_value[ls_haul_task_field(t, i, f)] + fmax(0, t->given->stack_value));
        }
        tons += (double)t->tons[i] / 100;
        money += (double)t->tons[i] / 100 * best;
    }
    return aim == LS_HAUL_TONS ? tons : aim == LS_HAUL_MONEY ? money : 0;
}

/* ---- relaxed ---- */

static bool relax(ls_haul_search *s) {
    if (!ls_haul_simplex(s->m->lp, GLP_PRIMAL)) {
        glp_std_basis(s->m->lp);
        if (!ls_haul_simplex(s->m->lp, GLP_PRIMAL)) return false;
    }
    tighten(s, glp_get_obj_val(s->m->lp));
    return true;
}

/* ---- branching ---- */

/* Hand the best answer to the solver. */
static void offer(ls_haul_search *s, glp_tree *tree) {
    int n = glp_get_num_cols(glp_ios_get_prob(tree));
    ls_arena_mark mark = ls_arena_here(s->t->arena);
    double *values = LS_NEW(s->t->arena, double, (size_t)n + 1);
    ls_haul_model_write(s->m, s->best, values);
    glp_ios_heur_sol(tree, values);
    ls_arena_rewind(s->t->arena, mark);
}

static void heuristic(ls_haul_search *s, glp_tree *tree) {
    if (s->nodes > MOST_HEURISTICS && s->nodes % 16 != 0) return;
    ls_haul_model_read(s->m, glp_ios_get_prob(tree), glp_get_col_prim, s->wish);
    bool better = ls_haul_consider(s, false, false);
    if (s->found && (better || s->nodes <= 1)) offer(s, tree);
}

/* The trips of a buyer decide most: branch on the one farthest from whole. */
static void branch(ls_haul_search *s, glp_tree *tree) {
    glp_prob *lp = glp_ios_get_prob(tree);
    int best = 0;
    double most = 0.05;
    for (size_t b = 0; s->aim != LS_HAUL_TONS && b < s->t->buyers; b++) {
        int j = s->m->trips[b];
        double value = glp_get_col_prim(lp, j), off = fabs(value - round(value));
        if (off > most && glp_ios_can_branch(tree, j)) best = j, most = off;
    }
    if (best != 0) glp_ios_branch_upon(tree, best, GLP_NO_BRNCH);
}

static void look(ls_haul_search *s, glp_tree *tree) {
    int best = glp_ios_best_node(tree);
    if (best != 0 && s->nodes > 0) tighten(s, glp_ios_node_bound(tree, best));
    if (s->nodes++ >= s->most_nodes || ls_haul_proven(s)) glp_ios_terminate(tree);
}

static void callback(glp_tree *tree, void *info) {
    ls_haul_search *s = info;
    switch (glp_ios_reason(tree)) {
    case GLP_ISELECT: look(s, tree); break;
    case GLP_IHEUR: heuristic(s, tree); break;
    case GLP_IBRANCH: branch(s, tree); break;
    case GLP_IBINGO:
        ls_haul_model_read(s->m, glp_ios_get_prob(tree), glp_get_col_prim, s->wish);
        ls_haul_consider(s, true, false);
        break;
    default: break;
    }
}

static void search_tree(ls_haul_search *s) {
    glp_iocp with;
    glp_init_iocp(&with);
    with.msg_lev = GLP_MSG_OFF;
    with.gmi_cuts = GLP_ON;
    with.cb_func = callback;
    with.cb_info = s;
    s->nodes = 0;
    if (glp_intopt(s->m->lp, &with) == 0 && glp_mip_status(s->m->lp) == GLP_OPT) tighten(s, glp_mip_obj_val(s->m->lp));
}

void ls_haul_search_aim(ls_haul_search *s, ls_haul_aim aim, long most_nodes) {
    s->aim = aim;
    s->most_nodes = most_nodes;
    s->bound = plain_bound(s->t, aim);
    if (s->t->priced && (aim == LS_HAUL_TONS || !s->t->given->tons_only)) ls_haul_price(s);
    if (s->m == NULL || ls_haul_proven(s)) return;
    ls_haul_model_aim(s->m, aim);
    if (!relax(s)) return;
    ls_haul_model_read(s->m, s->m->lp, glp_get_col_prim, s->wish);
    ls_haul_consider(s, false, false);
    if (ls_haul_proven(s)) return;
    ls_haul_dive(s);
    if (s->t->given->quick) return;
    bool small = s->t->lots * s->t->fields <= MOST_PAIRS; /* the tree mostly proves it */
    if (aim != LS_HAUL_STACKED && !small) ls_haul_improve(s);
    if (ls_haul_proven(s) || !relax(s)) return;
    if (most_nodes > 0) search_tree(s);
    if (aim != LS_HAUL_STACKED && small && !ls_haul_proven(s)) ls_haul_improve(s);
}
