/* Columns, goals and readings of the program; its rows are in model_rows.c. */
#include "model.h"

#include <math.h>

static int column(ls_haul_model *m, int kind, double low, double high) {
    int j = glp_add_cols(m->lp, 1);
    if (high <= low)
        glp_set_col_bnds(m->lp, j, GLP_FX, low, low);
    else if (isinf(high))
        glp_set_col_bnds(m->lp, j, GLP_LO, low, 0);
    else
        glp_set_col_bnds(m->lp, j, GLP_DB, low, high);
    glp_set_col_kind(m->lp, j, kind);
    return j;
}

static double tons(int64_t hundredths) { return (double)hundredths / 100; }

/* Loads of a lot that may go to a buyer or the stack. */
static void load_columns(ls_haul_model *m, size_t lot, size_t to) {
    const ls_haul_task *t = m->t;
    size_t at = ls_haul_task_to(t, lot, to);
    int64_t payload = t->payload[lot];
    int64_t most = to < t->buyers ? t->at_most[lot * t->buyers + to] : t->room - t->pile[lot];
    most = most < t->tons[lot] ? most : t->tons[lot];
    if (payload < t->drop || most < t->drop) return;
    if (most >= payload || t->kept[at] > 0)
        m->full[at] = column(m, GLP_IV, (double)t->kept[at], (double)(most / payload));
    if (t->given->whole_loads || (t->given->no_part != NULL && t->given->no_part[lot])) return;
    m->some[at] = column(m, GLP_BV, 0, 1);
    m->part[at] = column(m, GLP_CV, 0, tons(most < payload ? most : payload));
}

/* With slopes of its own, if none stands there already. */
static void pile_column(ls_haul_model *m, size_t lot) {
    const ls_haul_task *t = m->t;
    size_t first = t->pile_of[lot];
    bool lies = false;
    for (size_t i = first; i < t->lots; i++) {
        size_t at = ls_haul_task_to(t, i, t->buyers);
        lies = lies || (t->pile_of[i] == first && (t->kept[at] > 0 || t->kept_part[at] > 0));
    }
    if (t->pile[lot] > 0) m->piled[lot] = first < lot ? m->piled[first] : column(m, GLP_IV, lies ? 1 : 0, 1);
}

static void field_columns(ls_haul_model *m, size_t lot, size_t field) {
    const ls_haul_task *t = m->t;
    size_t at = ls_haul_task_field(t, lot, field);
    bool whole = t->given->whole_loads;
    double most = whole ? 1 : tons(t->alone[at]);
    if (t->open[at]) m->straight[at] = column(m, whole ? GLP_BV : GLP_CV, 0, most);
    if (t->later[at]) m->out[at] = column(m, GLP_CV, 0, most);
    if (t->later[at]) m->out_trips[at] = column(m, GLP_IV, 0, ceil(most * 100 / (double)t->payload_out[lot]));
}

static void used_columns(ls_haul_model *m, size_t lot, size_t field) {
    const ls_haul_task *t = m->t;
    size_t at = ls_haul_task_field(t, lot, field);
    if (m->straight[at] != 0) m->used[at] = column(m, GLP_BV, 0, 1);
    if (m->out[at] != 0) m->out_used[at] = column(m, GLP_BV, 0, 1);
}

static void buyer_columns(ls_haul_model *m, size_t buyer) {
    const ls_haul_task *t = m->t;
    if (t->least[buyer] > 0 || t->least_loads[buyer] > 0) m->short_of[buyer] = column(m, GLP_CV, 0, INFINITY);
    m->trips[buyer] = column(m, GLP_IV, 0, INFINITY);
}

static void model_alloc(ls_haul_model *m) {
    const ls_haul_task *t = m->t;
    size_t ends = t->lots * (t->buyers + 1), pairs = t->lots * t->fields;
    m->full = LS_NEW(t->arena, int, ends);
    m->some = LS_NEW(t->arena, int, ends);
    m->part = LS_NEW(t->arena, int, ends);
    m->straight = LS_NEW(t->arena, int, pairs);
    m->out = LS_NEW(t->arena, int, pairs);
    m->used = LS_NEW(t->arena, int, pairs);
    m->out_used = LS_NEW(t->arena, int, pairs);
    m->out_trips = LS_NEW(t->arena, int, pairs);
    m->short_of = LS_NEW(t->arena, int, t->buyers);
    m->trips = LS_NEW(t->arena, int, t->buyers);
    m->piled = LS_NEW(t->arena, int, t->lots);
    m->field_row = LS_NEW(t->arena, int, t->fields);
}

ls_haul_model *ls_haul_model_new(const ls_haul_task *t, bool with_drops) {
    ls_haul_model *m = LS_NEW(t->arena, ls_haul_model, 1);
    m->t = t;
    m->lp = glp_create_prob();
    model_alloc(m);
    for (size_t i = 0; i < t->lots; i++) {
        for (size_t to = 0; to < t->buyers + (t->stack ? 1 : 0); to++) load_columns(m, i, to);
        if (t->stack) pile_column(m, i);
        for (size_t f = 0; f < t->fields; f++) field_columns(m, i, f);
        for (size_t f = 0; f < t->fields && with_drops; f++) used_columns(m, i, f);
    }
    for (size_t b = 0; b < t->buyers; b++) buyer_columns(m, b);
    ls_haul_model_rows(m);
    return m;
}

void ls_haul_model_free(ls_haul_model *m) { glp_delete_prob(m->lp); }

/* ---- goals ---- */

static int goal_row(const ls_haul_model *m, ls_haul_aim aim) {
    return aim == LS_HAUL_TONS ? m->tons_row : aim == LS_HAUL_SHORT ? m->short_row : m->money_row;
}

static void aim_at_row(ls_haul_model *m, int row) {
    int n = glp_get_mat_row(m->lp, row, NULL, NULL);
    int *columns = LS_NEW(m->t->arena, int, (size_t)n + 1);
    double *values = LS_NEW(m->t->arena, double, (size_t)n + 1);
    glp_get_mat_row(m->lp, row, columns, values);
    for (int k = 1; k <= n; k++) glp_set_obj_coef(m->lp, columns[k], values[k]);
}

static void aim_at_stack(ls_haul_model *m) {
    const ls_haul_task *t = m->t;
    for (size_t i = 0; i < t->lots; i++) {
        size_t at = ls_haul_task_to(t, i, t->buyers);
        if (m->full[at] != 0) glp_set_obj_coef(m->lp, m->full[at], tons(t->payload[i]));
        if (m->part[at] != 0) glp_set_obj_coef(m->lp, m->part[at], 1);
    }
}

void ls_haul_model_aim(ls_haul_model *m, ls_haul_aim aim) {
    for (int j = 0; j <= glp_get_num_cols(m->lp); j++) glp_set_obj_coef(m->lp, j, 0);
    bool most = aim == LS_HAUL_TONS || aim == LS_HAUL_MONEY;
    glp_set_obj_dir(m->lp, most ? GLP_MAX : GLP_MIN);
    if (aim == LS_HAUL_MONEY) glp_set_obj_coef(m->lp, 0, m->money_shift);
    if (aim == LS_HAUL_STACKED)
        aim_at_stack(m);
    else
        aim_at_row(m, goal_row(m, aim));
}

void ls_haul_model_hold(ls_haul_model *m, ls_haul_aim aim, double value) {
    if (aim == LS_HAUL_MONEY) value -= m->money_shift;
    glp_set_row_bnds(m->lp, goal_row(m, aim), aim == LS_HAUL_SHORT ? GLP_UP : GLP_LO, value, value);
}

/* ---- values ---- */

ls_haul_wish *ls_haul_wish_new(const ls_haul_task *t) {
    ls_haul_wish *wish = LS_NEW(t->arena, ls_haul_wish, 1);
    wish->full = LS_NEW(t->arena, double, t->lots *(t->buyers + 1));
    wish->part = LS_NEW(t->arena, double, t->lots *(t->buyers + 1));
    wish->straight = LS_NEW(t->arena, double, t->lots * t->fields);
    wish->out = LS_NEW(t->arena, double, t->lots * t->fields);
    return wish;
}

static double value_of(glp_prob *lp, ls_haul_reader reader, int column_number) {
    return column_number == 0 ? 0 : reader(lp, column_number);
}

void ls_haul_model_read(const ls_haul_model *m, glp_prob *lp, ls_haul_reader reader, ls_haul_wish *wish) {
    const ls_haul_task *t = m->t;
    for (size_t k = 0; k < t->lots * (t->buyers + 1); k++) {
        wish->full[k] = value_of(lp, reader, m->full[k]);
        wish->part[k] = value_of(lp, reader, m->part[k]);
    }
    for (size_t i = 0; i < t->lots; i++)
        for (size_t f = 0; f < t->fields; f++) {
            size_t at = ls_haul_task_field(t, i, f);
            double scale = t->given->whole_loads ? tons(t->tons[i]) : 1;
            wish->straight[at] = scale * value_of(lp, reader, m->straight[at]);
            wish->out[at] = value_of(lp, reader, m->out[at]);
        }
}

static void set(double *values, int column_number, double value) {
    values[column_number] = value; /* place 0 takes what has no column */
}

static void write_buyer(const ls_haul_model *m, const ls_haul_answer *x, size_t buyer, double *values) {
    const ls_haul_task *t = m->t;
    double on_buyer = tons(ls_haul_on_buyer(t, x, buyer)), straight = 0;
    long trips = ls_haul_trips(t, x, buyer);
    int64_t largest = 0;
    for (size_t i = 0; i < t->lots; i++) {
        size_t at = ls_haul_task_to(t, i, buyer);
        straight += (double)x->full[at] + (x->part[at] > 0 ? 1 : 0);
        largest = t->payload[i] > largest ? t->payload[i] : largest;
    }
    double lacks = tons(t->least[buyer]) - on_buyer;
    double lacks_loads = trips < t->least_loads[buyer] ? (double)(t->least_loads[buyer] - trips) * tons(largest) : 0;
    set(values, m->short_of[buyer], fmax(0, fmax(lacks, lacks_loads)));
    set(values, m->trips[buyer], straight);
}

void ls_haul_model_write(const ls_haul_model *m, const ls_haul_answer *x, double *values) {
    const ls_haul_task *t = m->t;
    for (size_t k = 0; k < t->lots * (t->buyers + 1); k++) {
        set(values, m->full[k], (double)x->full[k]);
        set(values, m->some[k], x->part[k] > 0 ? 1 : 0);
        set(values, m->part[k], tons(x->part[k]));
    }
    for (size_t i = 0; i < t->lots; i++) {
        set(values, m->piled[i], ls_haul_lies(t, x, i) ? 1 : 0);
        for (size_t f = 0; f < t->fields; f++) {
            size_t at = ls_haul_task_field(t, i, f);
            int64_t whole = t->given->whole_loads ? t->tons[i] : 100;
            set(values, m->straight[at], (double)x->straight[at] / (double)(whole > 0 ? whole : 1));
            set(values, m->out[at], tons(x->out[at]));
            set(values, m->used[at], x->straight[at] > 0 ? 1 : 0);
            set(values, m->out_trips[at], (double)ls_haul_out_trips(t, x, i, f));
            set(values, m->out_used[at], x->out[at] > 0 ? 1 : 0);
        }
    }
    for (size_t b = 0; b < t->buyers; b++) write_buyer(m, x, b, values);
}
