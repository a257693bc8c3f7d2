/* A better answer from a good one: a part of the litter is planned anew, the rest keeps what it has. Which part: a few
 * buyers, all litter of two lots, or whatever the relaxed problem would do otherwise. */
#include "search.h"

#include <math.h>

enum { TOGETHER = 3, MOST_NODES = 60, MOST_PASSES = 4, MOST_COLUMNS = 600000, FEW_COLUMNS = 400 };

typedef struct {
    ls_haul_search *search;
    double *values;  /* [column] of the best answer */
    double *relaxed; /* [column] */
    bool *free;      /* [column] planned anew */
    long nodes;
    long left; /* parts that may still be planned: fewer where each costs more or the tree did most
                  of it */
} improver;

/* ---- what is free ---- */

static void release(improver *s, int j) { s->free[j] = true; /* place 0 takes what has no column */ }

static void release_pair(improver *s, size_t lot, size_t field) {
    const ls_haul_model *m = s->search->m;
    size_t at = ls_haul_task_field(m->t, lot, field);
    const int columns[] = {m->straight[at], m->out[at], m->out_trips[at], m->used[at], m->out_used[at]};
    for (size_t k = 0; k < sizeof columns / sizeof *columns; k++) release(s, columns[k]);
}

static void release_end(improver *s, size_t lot, size_t to) {
    const ls_haul_model *m = s->search->m;
    const ls_haul_task *t = m->t;
    size_t at = ls_haul_task_to(t, lot, to);
    release(s, m->full[at]);
    release(s, m->some[at]);
    release(s, m->part[at]);
    for (size_t f = t->first[to]; to < t->buyers && f < t->first[to + 1]; f++) release_pair(s, lot, f);
}

/* Sums of a buyer follow from the rest. */
static void release_sums(improver *s, size_t buyer) {
    release(s, s->search->m->trips[buyer]);
    release(s, s->search->m->short_of[buyer]);
}

static void begin(improver *s) {
    const ls_haul_task *t = s->search->t;
    int n = glp_get_num_cols(s->search->m->lp);
    for (int j = 0; j <= n; j++) s->free[j] = false;
    for (size_t i = 0; i < t->lots; i++) release_end(s, i, t->buyers), release(s, s->search->m->piled[i]);
    ls_haul_model_write(s->search->m, s->search->best, s->values);
}

static void free_buyers(improver *s, size_t first, size_t step) {
    const ls_haul_task *t = s->search->t;
    for (size_t k = 0; k < TOGETHER; k++) {
        size_t b = (first + k * step) % t->buyers;
        release_sums(s, b);
        for (size_t i = 0; i < t->lots; i++) release_end(s, i, b);
    }
}

static void free_lots(improver *s, size_t one, size_t other) {
    const ls_haul_task *t = s->search->t;
    for (size_t b = 0; b < t->buyers; b++) {
        release_sums(s, b);
        release_end(s, one, b);
        release_end(s, other, b);
    }
}

/* Columns in whose value answer and relaxed problem differ, and all that are not loads. */
static void free_differing(improver *s) {
    glp_prob *lp = s->search->m->lp;
    for (int j = 1; j <= glp_get_num_cols(lp); j++)
        if (glp_get_col_kind(lp, j) == GLP_CV || fabs(s->values[j] - s->relaxed[j]) > 1e-6) s->free[j] = true;
    for (size_t b = 0; b < s->search->t->buyers; b++) release_sums(s, b);
}

/* ---- planned anew ---- */

static void callback(glp_tree *tree, void *info) {
    improver *s = info;
    if (glp_ios_reason(tree) == GLP_ISELECT && s->nodes++ >= MOST_NODES) glp_ios_terminate(tree);
}

/* True if that gave an answer that is better in the aim, not only in what comes after. */
static bool plan_anew(improver *s) {
    ls_haul_search *search = s->search;
    double before = ls_haul_worth(search->best, search->aim);
    if (s->left-- <= 0) return false;
    glp_prob *lp = glp_create_prob();
    glp_copy_prob(lp, search->m->lp, GLP_OFF);
    for (int j = 1; j <= glp_get_num_cols(lp); j++)
        if (!s->free[j]) glp_set_col_bnds(lp, j, GLP_FX, s->values[j], s->values[j]);
    glp_iocp with;
    glp_init_iocp(&with);
    with.msg_lev = GLP_MSG_OFF;
    with.presolve = GLP_ON;
    with.cb_func = callback;
    with.cb_info = s;
    s->nodes = 0;
    glp_intopt(lp, &with);
    int status = glp_mip_status(lp);
    if (status == GLP_OPT || status == GLP_FEAS) {
        ls_haul_model_read(search->m, lp, glp_mip_col_val, search->wish);
        ls_haul_consider(search, true, true);
    }
    glp_delete_prob(lp);
    return fabs(ls_haul_worth(search->best, search->aim) - before) > 0.005;
}

static bool by_buyers(improver *s, size_t step) {
    size_t buyers = s->search->t->buyers;
    bool better = false;
    for (size_t b = 0; b < buyers && buyers > TOGETHER && !ls_haul_proven(s->search); b++) {
        begin(s);
        free_buyers(s, b, 1 + step % buyers);
        better = plan_anew(s) || better;
    }
    return better;
}

static bool by_lots(improver *s, size_t step) {
    size_t lots = s->search->t->lots;
    bool better = false;
    for (size_t i = 0; i < lots && lots > 2 && !ls_haul_proven(s->search); i++) {
        begin(s);
        free_lots(s, i, (i + 1 + step % (lots - 1)) % lots);
        better = plan_anew(s) || better;
    }
    return better;
}

static bool by_difference(improver *s) {
    if (ls_haul_proven(s->search)) return false;
    begin(s);
    free_differing(s);
    return plan_anew(s);
}

void ls_haul_improve(ls_haul_search *search) {
    const ls_haul_task *t = search->t;
    if (!search->found || t->given->whole_loads) return;
    ls_arena_mark mark = ls_arena_here(t->arena);
    size_t n = (size_t)glp_get_num_cols(search->m->lp) + 1;
    improver s = {.search = search, .left = n < FEW_COLUMNS ? 8 : 10 + MOST_COLUMNS / (long)n};
    s.values = LS_NEW(t->arena, double, n);
    s.relaxed = LS_NEW(t->arena, double, n);
    s.free = LS_NEW(t->arena, bool, n);
    for (size_t j = 1; j < n; j++) s.relaxed[j] = glp_get_col_prim(search->m->lp, (int)j);
    bool better = true;
    for (size_t pass = 0; pass < MOST_PASSES && better; pass++) {
        better = by_difference(&s);
        better = by_lots(&s, pass) || better;
        better = by_buyers(&s, pass) || better;
    }
    ls_arena_rewind(t->arena, mark);
}
