#include "bench/without.h"

#include "haul/split/arrange.h"
#include "haul/split/search.h"

#include <string.h>

typedef enum { NOTHING, DIVE, IMPROVE, TREE, CUTS, BRANCH, ROUND, TOP_UP, STACK_UP, ARRANGE, FEW } part;

static part without;
static bool arranging;
static bench_counts counts;

bool bench_leave_out(const char *name) {
    static const char *const names[] = {
        [NOTHING] = "",          [DIVE] = "dive",       [IMPROVE] = "improve", [TREE] = "tree",
        [CUTS] = "cuts",         [BRANCH] = "branch",   [ROUND] = "round",     [TOP_UP] = "top_up",
        [STACK_UP] = "stack_up", [ARRANGE] = "arrange", [FEW] = "few"};
    for (size_t k = 0; k < sizeof names / sizeof *names; k++)
        if (strcmp(names[k], name) == 0) {
            without = (part)k;
            return true;
        }
    return false;
}

bench_counts bench_counted(void) { return counts; }

/* ---- whole files of the split ---- */

#define STEP(function, ...)                                                                                            \
    void __real_##function(__VA_ARGS__);                                                                               \
    void __wrap_##function(__VA_ARGS__);                                                                               \
    void __wrap_##function(__VA_ARGS__)

STEP(ls_haul_dive, ls_haul_search *s) {
    if (without != DIVE) __real_ls_haul_dive(s);
}

STEP(ls_haul_improve, ls_haul_search *s) {
    if (without != IMPROVE) __real_ls_haul_improve(s);
}

STEP(ls_haul_top_up, const ls_haul_task *t, ls_haul_answer *x, const double *worth) {
    if (without != TOP_UP) __real_ls_haul_top_up(t, x, worth);
}

STEP(ls_haul_stack_up, const ls_haul_task *t, ls_haul_answer *x) {
    if (without != STACK_UP) __real_ls_haul_stack_up(t, x);
}

bool __real_ls_haul_arrangement_solve(ls_haul_arrangement *s);
bool __wrap_ls_haul_arrangement_solve(ls_haul_arrangement *s);

bool __wrap_ls_haul_arrangement_solve(ls_haul_arrangement *s) {
    if (without == (s->may_lose ? ARRANGE : FEW)) return false;
    arranging = true;
    bool solved = __real_ls_haul_arrangement_solve(s);
    arranging = false;
    return solved;
}

/* ---- GLPK ---- */

int __real_glp_simplex(glp_prob *lp, const glp_smcp *with);
int __wrap_glp_simplex(glp_prob *lp, const glp_smcp *with);

int __wrap_glp_simplex(glp_prob *lp, const glp_smcp *with) {
    int before = glp_get_it_cnt(lp), failed = __real_glp_simplex(lp, with);
    counts.pivots += glp_get_it_cnt(lp) - before;
    return failed;
}

static void callback(glp_tree *tree, void *info) {
    const glp_iocp *with = info;
    int reason = glp_ios_reason(tree);
    counts.nodes += reason == GLP_ISELECT;
    if (without != ROUND || reason != GLP_IHEUR) with->cb_func(tree, with->cb_info);
}

int __real_glp_intopt(glp_prob *lp, const glp_iocp *with);
int __wrap_glp_intopt(glp_prob *lp, const glp_iocp *with);

/* Plans made anew are presolved, the tree of a goal is not. */
int __wrap_glp_intopt(glp_prob *lp, const glp_iocp *with) {
    if (without == TREE && !arranging && with->presolve == GLP_OFF) return GLP_EFAIL;
    glp_iocp original = *with, counted = *with;
    counted.cb_func = callback;
    counted.cb_info = &original;
    if (without == CUTS) counted.gmi_cuts = GLP_OFF;
    int before = glp_get_it_cnt(lp), failed = __real_glp_intopt(lp, &counted);
    counts.pivots += glp_get_it_cnt(lp) - before;
    return failed;
}

void __real_glp_ios_branch_upon(glp_tree *tree, int column, int branch);
void __wrap_glp_ios_branch_upon(glp_tree *tree, int column, int branch);

void __wrap_glp_ios_branch_upon(glp_tree *tree, int column, int branch) {
    if (without != BRANCH) __real_glp_ios_branch_upon(tree, column, branch);
}
