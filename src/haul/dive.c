/* Diving: round up one load after the other, solving the rest again; mending the tons on the way. */
#include "search.h"

#include <math.h>
#ifdef HAUL_DEBUG
#include <stdio.h>
#endif

enum { MOST_SMOOTHING = 3 };

static bool is_load(glp_prob *lp, int j) {
    return glp_get_col_kind(lp, j) != GLP_CV;
}

/* Every load column at least what it is now; the one with the most to it beyond that, 0 if all are whole. */
static int rise(glp_prob *lp) {
    int most = 0;
    double beyond = 1e-5;
    for (int j = 1; j <= glp_get_num_cols(lp); j++) {
        if (!is_load(lp, j) || glp_get_col_type(lp, j) == GLP_FX)
            continue;
        double value = glp_get_col_prim(lp, j), whole = floor(value + 1e-5);
        double high = glp_get_col_ub(lp, j);
        if (whole >= high)
            glp_set_col_bnds(lp, j, GLP_FX, high, high);
        else if (whole > glp_get_col_lb(lp, j))
            glp_set_col_bnds(lp, j, glp_get_col_type(lp, j), whole, high);
        if (value - whole > beyond)
            most = j, beyond = value - whole;
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
    if (low + 1 <= high && ls_haul_simplex(lp, GLP_DUALP))
        return true;
    glp_set_col_bnds(lp, j, GLP_FX, low, low);
    return ls_haul_simplex(lp, GLP_DUALP);
}

/* ---- smoothing: tons that can be whole hundredths and whole drops ---- */

typedef struct {
    int at, type; /* column, or minus a row */
    double low, high;
} bounds;

typedef struct {
    ls_haul_search *s;
    glp_prob *lp;
    LS_LIST(bounds) had; /* before the last smoothing */
    bool *vain;          /* [column] tried in vain */
} diver;

static void note(diver *d, int at) {
    glp_prob *lp = d->lp;
    *LS_PUSH(d->s->t->arena, &d->had) =
        at > 0 ? (bounds){at, glp_get_col_type(lp, at), glp_get_col_lb(lp, at), glp_get_col_ub(lp, at)}
               : (bounds){at, glp_get_row_type(lp, -at), glp_get_row_lb(lp, -at),
                          glp_get_row_ub(lp, -at)};
}

/* Where lots with different rates share a field, a hundredth of a ton each for rounding. */
static void leave_room(diver *d, size_t field) {
    const ls_haul_task *t = d->s->t;
    const ls_haul_model *m = d->s->m;
    double room = 0;
    int sharing = 0;
    for (size_t i = 0; i < t->lots && !t->even[field]; i++) {
        size_t at = ls_haul_lf(t, i, field);
        double tons = m->straight[at] == 0 ? 0 : glp_get_col_prim(d->lp, m->straight[at]);
        tons += m->out[at] == 0 ? 0 : glp_get_col_prim(d->lp, m->out[at]);
        if (tons < 1e-6)
            continue;
        room += 0.01 * t->use[at];
        sharing++;
    }
    double left = fmax(0, (double)t->capacity[field] / 1e6 - room);
    if (sharing < 2 || glp_get_row_ub(d->lp, m->field_row[field]) <= left)
        return;
    note(d, -m->field_row[field]);
    glp_set_row_bnds(d->lp, m->field_row[field], GLP_UP, 0, left);
}

/* A column that holds less than a smallest drop: to nothing, or to a drop. */
static void mend(diver *d, int j) {
    double drop = (double)d->s->t->drop / 100;
    if (j == 0 || d->vain[j] || glp_get_col_type(d->lp, j) != GLP_DB)
        return;
    double tons = glp_get_col_prim(d->lp, j), most = glp_get_col_ub(d->lp, j);
    if (tons < 1e-6 || tons > drop - 1e-6)
        return;
    note(d, j);
    if (tons < drop / 2)
        glp_set_col_bnds(d->lp, j, GLP_FX, 0, 0);
    else
        glp_set_col_bnds(d->lp, j, drop < most ? GLP_DB : GLP_FX, drop, most);
}

static void take_back(diver *d) {
    for (size_t k = 0; k < d->had.n; k++) {
        bounds b = d->had.at[k];
        if (b.at > 0) {
            glp_set_col_bnds(d->lp, b.at, b.type, b.low, b.high);
            d->vain[b.at] = true;
        } else
            glp_set_row_bnds(d->lp, -b.at, b.type, b.low, b.high);
    }
}

/* False if the program cannot be solved any more. */
static bool smooth(diver *d) {
    const ls_haul_task *t = d->s->t;
    for (int k = 0; k < MOST_SMOOTHING && !t->given->whole_loads; k++) {
        d->had.n = 0;
        for (size_t f = 0; f < t->fields; f++) {
            leave_room(d, f);
            for (size_t i = 0; i < t->lots; i++) {
                mend(d, d->s->m->straight[ls_haul_lf(t, i, f)]);
                mend(d, d->s->m->out[ls_haul_lf(t, i, f)]);
            }
        }
        if (d->had.n == 0)
            return true;
        if (!ls_haul_simplex(d->lp, GLP_DUALP)) {
            take_back(d);
            return ls_haul_simplex(d->lp, GLP_DUALP);
        }
    }
    return true;
}

void ls_haul_dive(ls_haul_search *s) {
    ls_arena_mark mark = ls_arena_here(s->t->arena);
    diver d = {.s = s, .lp = glp_create_prob()};
    glp_copy_prob(d.lp, s->m->lp, GLP_OFF);
    d.vain = LS_NEW(s->t->arena, bool, (size_t)glp_get_num_cols(d.lp) + 1);
    bool goes = ls_haul_simplex(d.lp, GLP_PRIMAL) && smooth(&d);
    int next = 1, most = 2 * glp_get_num_cols(d.lp);
    for (int step = 0; step < most && goes && next != 0; step++) {
        ls_haul_model_read(s->m, d.lp, glp_get_col_prim, s->wish);
        next = rise(d.lp);
        goes = next == 0 || (round_column(d.lp, next) && smooth(&d));
    }
#ifdef HAUL_DEBUG
        double obj = glp_get_obj_val(d.lp);
#endif
    ls_haul_consider(s, next == 0); /* where it got stuck, what was whole till then */
#ifdef HAUL_DEBUG
        fprintf(stderr, "    dived %d lp %.3f settled %.3f\n", next, obj, ls_haul_worth(s->trial, s->aim));
#endif
    glp_delete_prob(d.lp);
    ls_arena_rewind(s->t->arena, mark);
}
