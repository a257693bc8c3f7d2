/* A better answer from a good one: a few buyers are planned anew, all others keep what they have.
 */
#include "search.h"

#include <math.h>

enum { TOGETHER = 3, MOST_NODES = 60, MOST_PASSES = 4 };

typedef struct {
    ls_haul_search *search;
    double *values; /* of the best answer, by column */
    long nodes;
} improver;

static void fix(glp_prob *lp, const double *values, int j) {
    if (j != 0)
        glp_set_col_bnds(lp, j, GLP_FX, values[j], values[j]);
}

/* Everything that goes to the buyer stays as it is. */
static void fix_buyer(const improver *s, glp_prob *lp, size_t buyer) {
    const ls_haul_model *m = s->search->m;
    const ls_haul_task *t = m->t;
    fix(lp, s->values, m->trips[buyer]);
    fix(lp, s->values, m->short_of[buyer]);
    for (size_t i = 0; i < t->lots; i++) {
        size_t to = ls_haul_to(t, i, buyer);
        fix(lp, s->values, m->full[to]);
        fix(lp, s->values, m->some[to]);
        fix(lp, s->values, m->part[to]);
        for (size_t f = t->first[buyer]; f < t->first[buyer + 1]; f++) {
            size_t at = ls_haul_lf(t, i, f);
            fix(lp, s->values, m->straight[at]);
            fix(lp, s->values, m->out[at]);
            fix(lp, s->values, m->out_trips[at]);
            fix(lp, s->values, m->used[at]);
            fix(lp, s->values, m->out_used[at]);
        }
    }
}

static void callback(glp_tree *tree, void *info) {
    improver *s = info;
    if (glp_ios_reason(tree) == GLP_ISELECT && s->nodes++ >= MOST_NODES)
        glp_ios_terminate(tree);
}

/* Buyers from first on, step apart, are free; true if that gave a better answer. */
static bool plan_anew(improver *s, size_t first, size_t step) {
    ls_haul_search *search = s->search;
    const ls_haul_task *t = search->t;
    glp_prob *lp = glp_create_prob();
    glp_copy_prob(lp, search->m->lp, GLP_OFF);
    ls_haul_model_write(search->m, search->best, s->values);
    for (size_t b = 0; b < t->buyers; b++) {
        size_t k = (b + t->buyers * step - first) % t->buyers;
        if (k % step != 0 || k / step >= TOGETHER)
            fix_buyer(s, lp, b);
    }
    glp_iocp with;
    glp_init_iocp(&with);
    with.msg_lev = GLP_MSG_OFF;
    with.presolve = GLP_ON;
    with.cb_func = callback;
    with.cb_info = s;
    s->nodes = 0;
    glp_intopt(lp, &with);
    int status = glp_mip_status(lp);
    bool better = false;
    if (status == GLP_OPT || status == GLP_FEAS) {
        ls_haul_model_read(search->m, lp, glp_mip_col_val, search->wish);
        better = ls_haul_consider(search, true, true);
    }
    glp_delete_prob(lp);
    return better;
}

void ls_haul_improve(ls_haul_search *search) {
    const ls_haul_task *t = search->t;
    if (!search->found || t->buyers <= TOGETHER || t->given->whole_loads)
        return;
    ls_arena_mark mark = ls_arena_here(t->arena);
    improver s = {.search = search};
    s.values = LS_NEW(t->arena, double, (size_t)glp_get_num_cols(search->m->lp) + 1);
    bool better = true;
    for (size_t pass = 0; pass < MOST_PASSES && better; pass++) {
        better = false;
        for (size_t b = 0; b < t->buyers && !ls_haul_proven(search); b++)
            better = plan_anew(&s, b, 1 + pass % t->buyers) || better;
    }
    ls_arena_rewind(t->arena, mark);
}
