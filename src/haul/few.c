/* Few drops, buyer by buyer: the tons of each lot for each buyer stay, only the fields change. */
#include "search.h"

#include <math.h>

enum { MOST_NODES = 150 };

/* The program of one buyer: how many pieces of each lot on each field. */
typedef struct {
    const ls_haul_task *t;
    const ls_haul_answer *x;
    size_t buyer;
    bool out;      /* of the loads out of the stack; else straight from the house */
    glp_prob *lp;
    int *tons, *pieces; /* [lot][field] columns; 0: none */
    long nodes;
    double bound;
} few;

static ls_haul_side side_of(const few *s, ls_haul_answer *x, size_t lot) {
    return s->out ? ls_haul_out_side(s->t, x, lot, s->buyer)
                  : ls_haul_straight_side(s->t, x, lot, s->buyer);
}

/* Drops now, and the least there can be: one a load. */
static long drops_now(const few *s, long *least) {
    long drops = 0;
    *least = 0;
    for (size_t i = 0; i < s->t->lots; i++) {
        ls_arena_mark mark = ls_arena_here(s->t->arena);
        ls_haul_pieces pieces;
        ls_haul_pieces_of(s->t, s->x, i, s->buyer, s->out, &pieces);
        drops += (long)pieces.n;
        *least += (long)ls_haul_sizes_of(s->t, s->x, i, s->buyer, s->out).n;
        ls_arena_rewind(s->t->arena, mark);
    }
    return drops;
}

static void entry(glp_prob *lp, int n, const int *columns, const double *values, int type, double low,
                  double high) {
    int row = glp_add_rows(lp, 1);
    glp_set_row_bnds(lp, row, type, low, high);
    glp_set_mat_row(lp, row, n, columns, values);
}

/* Columns of one lot on one field: tons, and pieces of a drop at least and a load at most. */
static void pair(few *s, size_t lot, size_t field) {
    size_t at = ls_haul_lf(s->t, lot, field);
    double payload = (double)s->t->payload[lot], drop = (double)s->t->drop;
    int tons = glp_add_cols(s->lp, 2), pieces = tons + 1;
    glp_set_col_bnds(s->lp, tons, GLP_DB, 0, (double)s->t->alone[at]);
    glp_set_col_bnds(s->lp, pieces, GLP_LO, 0, 0);
    glp_set_col_kind(s->lp, pieces, GLP_IV);
    glp_set_obj_coef(s->lp, pieces, 1);
    s->tons[at] = tons;
    s->pieces[at] = pieces;
    const int columns[] = {0, tons, pieces};
    const double most[] = {0, 1, -payload}, least[] = {0, 1, -drop};
    entry(s->lp, 2, columns, most, GLP_UP, 0, 0);
    entry(s->lp, 2, columns, least, GLP_LO, 0, 0);
}

/* The lot's tons stay, and so does what they bring in. */
static void lot_rows(few *s, size_t lot) {
    const ls_haul_task *t = s->t;
    ls_haul_answer x = *s->x;
    ls_haul_side side = side_of(s, &x, lot);
    size_t n = t->first[s->buyer + 1] - t->first[s->buyer];
    int *columns = LS_NEW(t->arena, int, n + 1), m = 0;
    double *ones = LS_NEW(t->arena, double, n + 1), *money = LS_NEW(t->arena, double, n + 1), now = 0;
    const double *value = (s->out ? t->later_value : t->value) + ls_haul_lf(t, lot, 0);
    if (ls_haul_side_tons(side) == 0)
        return;
    bool differ = false;
    for (size_t f = t->first[s->buyer]; f < t->first[s->buyer + 1]; f++) {
        if (!side.may[f])
            continue;
        pair(s, lot, f);
        columns[++m] = s->tons[ls_haul_lf(t, lot, f)];
        ones[m] = 1;
        money[m] = value[f];
        now += value[f] * (double)side.on[f];
        differ = differ || value[f] != money[1];
    }
    double tons = (double)ls_haul_side_tons(side);
    entry(s->lp, m, columns, ones, GLP_FX, tons, tons);
    if (differ)
        entry(s->lp, m, columns, money, GLP_LO, now, 0);
}

/* Capacity that the other kind of loads (out of the stack, or straight) leaves. */
static int64_t left_of(const few *s, size_t field) {
    const ls_haul_task *t = s->t;
    int64_t left = t->capacity[field];
    for (size_t i = 0; i < t->lots; i++) {
        size_t at = ls_haul_lf(t, i, field);
        int64_t other = s->out ? s->x->straight[at] : s->x->out[at];
        if (other > 0)
            left -= ls_haul_cover(t->use[at], other);
    }
    return left;
}

static void field_row(few *s, size_t field) {
    const ls_haul_task *t = s->t;
    int *columns = LS_NEW(t->arena, int, t->lots + 1), n = 0;
    double *use = LS_NEW(t->arena, double, t->lots + 1);
    int64_t left = left_of(s, field);
    bool even = t->even[field];
    double high = (double)left / 1e4; /* millionths to hundredths of a ton times use */
    for (size_t i = 0; i < t->lots; i++) {
        size_t at = ls_haul_lf(t, i, field);
        if (s->tons[at] == 0)
            continue;
        columns[++n] = s->tons[at];
        use[n] = even ? 1 : t->use[at];
        if (even)
            high = (double)ls_haul_fit(t->use[at], left);
    }
    if (n > 0)
        entry(s->lp, n, columns, use, GLP_UP, 0, high);
}

static void callback(glp_tree *tree, void *info) {
    few *s = info;
    if (glp_ios_reason(tree) != GLP_ISELECT)
        return;
    int best = glp_ios_best_node(tree);
    if (best != 0 && s->nodes > 0)
        s->bound = fmax(s->bound, glp_ios_node_bound(tree, best));
    if (s->nodes++ >= MOST_NODES)
        glp_ios_terminate(tree);
}

/* Solve; true if there is a way, with the tons of the fields in its columns. */
static bool solve(few *s) {
    glp_smcp relaxed;
    glp_init_smcp(&relaxed);
    relaxed.msg_lev = GLP_MSG_OFF;
    if (glp_simplex(s->lp, &relaxed) != 0 || glp_get_status(s->lp) != GLP_OPT)
        return false;
    s->bound = fmax(s->bound, glp_get_obj_val(s->lp));
    glp_iocp with;
    glp_init_iocp(&with);
    with.msg_lev = GLP_MSG_OFF;
    with.gmi_cuts = GLP_ON;
    with.cb_func = callback;
    with.cb_info = s;
    bool ended = glp_intopt(s->lp, &with) == 0;
    int status = glp_mip_status(s->lp);
    if (ended && status == GLP_OPT)
        s->bound = fmax(s->bound, glp_mip_obj_val(s->lp));
    return status == GLP_OPT || status == GLP_FEAS;
}

/* The solver's tons into trial, repaired to whole units; false if that is not possible. */
static bool take(const few *s, ls_haul_answer *trial) {
    const ls_haul_task *t = s->t;
    for (size_t i = 0; i < t->lots; i++)
        for (size_t f = t->first[s->buyer]; f < t->first[s->buyer + 1]; f++) {
            size_t at = ls_haul_lf(t, i, f);
            if (s->tons[at] != 0)
                (s->out ? trial->out : trial->straight)[at] =
                    (int64_t)floor(glp_mip_col_val(s->lp, s->tons[at]) + 1e-3);
        }
    for (size_t i = 0; i < t->lots; i++) {
        ls_haul_answer now = *s->x;
        int64_t had = ls_haul_side_tons(side_of(s, &now, i));
        ls_haul_side side = side_of(s, trial, i);
        int64_t has = ls_haul_side_tons(side);
        if (has > had)
            ls_haul_side_cut(side, has - had);
        if (has < had && ls_haul_side_fill(side, had - has) > 0)
            return false;
    }
    ls_haul_evaluate(t, trial);
    return ls_haul_count_drops(t, trial) && ls_haul_check(t, trial) == NULL;
}

static double few_of_buyer(ls_haul_search *search, size_t buyer, bool out) {
    const ls_haul_task *t = search->t;
    few s = {.t = t, .x = search->best, .buyer = buyer, .out = out};
    long least, drops = drops_now(&s, &least);
    if (drops == least || search->m == NULL)
        return (double)least;
    s.bound = (double)least;
    s.tons = LS_NEW(t->arena, int, t->lots * t->fields);
    s.pieces = LS_NEW(t->arena, int, t->lots * t->fields);
    s.lp = glp_create_prob();
    for (size_t i = 0; i < t->lots; i++)
        lot_rows(&s, i);
    for (size_t f = t->first[buyer]; f < t->first[buyer + 1]; f++)
        field_row(&s, f);
    if (solve(&s)) {
        ls_haul_answer_copy(t, search->trial, search->best);
        if (take(&s, search->trial) && ls_haul_better(search->trial, search->best))
            ls_haul_answer_copy(t, search->best, search->trial);
    }
    glp_delete_prob(s.lp);
    return ceil(s.bound - 1e-6);
}

double ls_haul_few_drops(ls_haul_search *search) {
    const ls_haul_task *t = search->t;
    double bound = 0;
    for (size_t b = 0; b < t->buyers; b++)
        for (int out = 0; out < (t->stack ? 2 : 1); out++) {
            ls_arena_mark mark = ls_arena_here(t->arena);
            bound += few_of_buyer(search, b, out == 1);
            ls_arena_rewind(t->arena, mark);
        }
    return bound;
}
