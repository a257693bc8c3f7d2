/* The program of one buyer: the tons of each lot for it stay, only the fields change. */
#include "arrange.h"

#include <math.h>

enum { MOST_NODES = 100, MOST_PIVOTS = 20000 };

static void entry(glp_prob *lp, int n, const int *columns, const double *values, int type, double low, double high) {
    int row = glp_add_rows(lp, 1);
    glp_set_row_bnds(lp, row, type, low, high);
    glp_set_mat_row(lp, row, n, columns, values);
}

static int column(glp_prob *lp, int kind, double high, double cost) {
    int j = glp_add_cols(lp, 1);
    glp_set_col_bnds(lp, j, high > 0 ? GLP_DB : GLP_FX, 0, high > 0 ? high : 0);
    glp_set_col_kind(lp, j, kind);
    glp_set_obj_coef(lp, j, cost);
    return j;
}

/* ---- columns and rows ---- */

/* Tons of one lot on one field, in pieces of a drop at least and a load at most; where drops are
 * not counted, in one piece. */
static void pair(ls_haul_arrangement *s, size_t lot, size_t field) {
    size_t at = ls_haul_task_field(s->t, lot, field);
    double payload = (double)s->t->payload[lot], drop = (double)s->t->drop;
    double most = (double)s->t->alone[at];
    s->tons[at] = column(s->lp, GLP_CV, most, 0);
    s->pieces[at] = column(s->lp, GLP_IV, s->may_lose ? 1 : floor(most / drop), s->may_lose ? 0 : 1);
    const int columns[] = {0, s->tons[at], s->pieces[at]};
    const double upper[] = {0, 1, s->may_lose || most < payload ? -most : -payload}, lower[] = {0, 1, -drop};
    entry(s->lp, 2, columns, upper, GLP_UP, 0, 0);
    entry(s->lp, 2, columns, lower, GLP_LO, 0, 0);
}

/* Loads that may be given up, and tons of the part load: what is left of it is a drop or nothing. */
static void losses(ls_haul_arrangement *s, size_t lot) {
    const ls_haul_task *t = s->t;
    size_t at = ls_haul_task_to(t, lot, s->buyer);
    double part = (double)s->x->part[at], drop = (double)t->drop;
    s->lost[lot] = column(s->lp, GLP_IV, (double)(s->x->full[at] - t->kept[at]), (double)t->payload[lot]);
    s->cut[lot] = column(s->lp, GLP_CV, part - drop, 1);
    s->dropped[lot] = column(s->lp, GLP_IV, part > 0 ? 1 : 0, drop);
    const int columns[] = {0, s->cut[lot], s->dropped[lot]};
    const double all[] = {0, 1, drop - part};
    if (part > 0) entry(s->lp, 2, columns, all, GLP_LO, 0, 0);
}

/* The lot's tons stay, or what is lost of them is known; and so does what they bring in, if fields differ in that. */
static void lot_rows(ls_haul_arrangement *s, size_t lot) {
    const ls_haul_task *t = s->t;
    ls_haul_answer x = *s->x;
    ls_haul_side side = ls_haul_straight_side(t, &x, lot, s->buyer);
    size_t n = t->first[s->buyer + 1] - t->first[s->buyer] + 4;
    int *columns = LS_NEW(t->arena, int, n), m = 0;
    double *ones = LS_NEW(t->arena, double, n), *money = LS_NEW(t->arena, double, n), now = 0;
    const double *value = t->value + ls_haul_task_field(t, lot, 0);
    double tons = (double)ls_haul_sent(t, s->x, lot, s->buyer);
    if (!(tons > 0)) return;
    bool differ = false;
    for (size_t f = t->first[s->buyer]; f < t->first[s->buyer + 1]; f++) {
        if (!side.may[f]) continue;
        pair(s, lot, f);
        columns[++m] = s->tons[ls_haul_task_field(t, lot, f)];
        ones[m] = 1;
        money[m] = value[f];
        now += value[f] * (double)side.on[f];
        differ = differ || value[f] != money[1];
    }
    if (differ && !s->may_lose) entry(s->lp, m, columns, money, GLP_LO, now, 0);
    if (s->may_lose) {
        losses(s, lot);
        const int more[] = {s->lost[lot], s->cut[lot], s->dropped[lot]};
        const double weighs[] = {(double)t->payload[lot], 1, (double)t->drop};
        for (int k = 0; k < 3; k++) {
            columns[++m] = more[k];
            ones[m] = weighs[k];
        }
    }
    entry(s->lp, m, columns, ones, GLP_FX, tons, tons);
}

/* Capacity that loads out of the stack leave. */
static int64_t left_of(const ls_haul_arrangement *s, size_t field) {
    const ls_haul_task *t = s->t;
    int64_t left = t->capacity[field];
    for (size_t i = 0; i < t->lots; i++) {
        size_t at = ls_haul_task_field(t, i, field);
        int64_t other = s->x->out[at];
        if (other > 0) left -= ls_haul_cover(t->use[at], other);
    }
    return left;
}

/* Lots that use a field at different rates leave a hundredth of a ton each for rounding, where loads may be lost. */
static void field_row(ls_haul_arrangement *s, size_t field) {
    const ls_haul_task *t = s->t;
    int *columns = LS_NEW(t->arena, int, 2 * t->lots + 1), n = 0;
    double *use = LS_NEW(t->arena, double, 2 * t->lots + 1);
    int64_t left = left_of(s, field);
    bool even = t->even[field];
    double high = (double)left / 1e4; /* millionths to hundredths of a ton times use */
    for (size_t i = 0; i < t->lots; i++) {
        size_t at = ls_haul_task_field(t, i, field);
        if (s->tons[at] == 0) continue;
        columns[++n] = s->tons[at];
        use[n] = even ? 1 : t->use[at];
        if (even)
            high = (double)ls_haul_fit(t->use[at], left);
        else if (s->may_lose) {
            columns[++n] = s->pieces[at];
            use[n] = t->use[at];
        }
    }
    if (n > 0) entry(s->lp, n, columns, use, GLP_UP, 0, high);
}

ls_haul_arrangement *ls_haul_arrangement_new(const ls_haul_task *t, const ls_haul_answer *x, size_t buyer,
                                             bool may_lose) {
    ls_haul_arrangement *s = LS_NEW(t->arena, ls_haul_arrangement, 1);
    *s = (ls_haul_arrangement){.t = t, .x = x, .buyer = buyer, .may_lose = may_lose};
    s->tons = LS_NEW(t->arena, int, t->lots * t->fields);
    s->pieces = LS_NEW(t->arena, int, t->lots * t->fields);
    s->lost = LS_NEW(t->arena, int, t->lots);
    s->cut = LS_NEW(t->arena, int, t->lots);
    s->dropped = LS_NEW(t->arena, int, t->lots);
    s->lp = glp_create_prob();
    for (size_t i = 0; i < t->lots; i++) lot_rows(s, i);
    for (size_t f = t->first[buyer]; f < t->first[buyer + 1]; f++) field_row(s, f);
    return s;
}

void ls_haul_arrangement_free(ls_haul_arrangement *s) { glp_delete_prob(s->lp); }

/* ---- solving ---- */

static void callback(glp_tree *tree, void *info) {
    ls_haul_arrangement *s = info;
    if (glp_ios_reason(tree) != GLP_ISELECT) return;
    int best = glp_ios_best_node(tree);
    if (best != 0 && s->nodes > 0) s->bound = fmax(s->bound, glp_ios_node_bound(tree, best));
    bool good =
        glp_mip_status(glp_ios_get_prob(tree)) == GLP_FEAS && glp_mip_obj_val(glp_ios_get_prob(tree)) < s->bound + 0.99;
    if (s->nodes++ >= MOST_NODES || good) glp_ios_terminate(tree);
}

bool ls_haul_arrangement_solve(ls_haul_arrangement *s) {
    glp_smcp relaxed;
    glp_init_smcp(&relaxed);
    relaxed.msg_lev = GLP_MSG_OFF;
    relaxed.it_lim = MOST_PIVOTS;
    if (glp_simplex(s->lp, &relaxed) != 0 || glp_get_status(s->lp) != GLP_OPT) return false;
    s->bound = fmax(s->bound, glp_get_obj_val(s->lp));
    glp_iocp with;
    glp_init_iocp(&with);
    with.msg_lev = GLP_MSG_OFF;
    with.gmi_cuts = s->may_lose ? GLP_OFF : GLP_ON;
    with.bt_tech = s->may_lose ? GLP_BT_DFS : GLP_BT_BLB;
    with.cb_func = callback;
    with.cb_info = s;
    bool ended = glp_intopt(s->lp, &with) == 0;
    int status = glp_mip_status(s->lp);
    if (ended && status == GLP_OPT) s->bound = fmax(s->bound, glp_mip_obj_val(s->lp));
    return status == GLP_OPT || status == GLP_FEAS;
}

static double value(const ls_haul_arrangement *s, int j) { return j == 0 ? 0 : glp_mip_col_val(s->lp, j); }

static int64_t whole(double v) { return (int64_t)floor(v + 1e-3); }

static void read_losses(const ls_haul_arrangement *s, ls_haul_answer *x, size_t lot) {
    size_t at = ls_haul_task_to(s->t, lot, s->buyer);
    int64_t part = x->part[at] - (int64_t)ceil(value(s, s->cut[lot]) - 1e-3);
    x->full[at] -= (long)round(value(s, s->lost[lot]));
    x->part[at] = value(s, s->dropped[lot]) > 0.5 || part < s->t->drop ? 0 : part;
}

void ls_haul_arrangement_read(const ls_haul_arrangement *s, ls_haul_answer *x) {
    const ls_haul_task *t = s->t;
    for (size_t i = 0; i < t->lots; i++) {
        if (s->may_lose) read_losses(s, x, i);
        for (size_t f = t->first[s->buyer]; f < t->first[s->buyer + 1]; f++) {
            size_t at = ls_haul_task_field(t, i, f);
            x->straight[at] = whole(value(s, s->tons[at]));
        }
    }
}
