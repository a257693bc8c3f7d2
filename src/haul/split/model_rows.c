/* The rows of the program: what whole loads, lots, fields, orders and the stack allow, and the goals. */
#include "model.h"

#include <math.h>

static double tons(int64_t hundredths) { return (double)hundredths / 100; }

/* A row that is at least low and at most high. */
static int row(ls_haul_model *m, double low, double high) {
    int i = glp_add_rows(m->lp, 1);
    int type = isinf(low) ? (isinf(high) ? GLP_FR : GLP_UP) : (isinf(high) ? GLP_LO : (low == high ? GLP_FX : GLP_DB));
    glp_set_row_bnds(m->lp, i, type, low, high);
    return i;
}

/* value times a column, if there is one, in a row. */
static void term(ls_haul_model *m, int at, double value, int column) {
    if (column == 0 || value == 0) return;
    *LS_PUSH(m->t->arena, &m->rows) = at;
    *LS_PUSH(m->t->arena, &m->columns) = column;
    *LS_PUSH(m->t->arena, &m->values) = value;
}

/* All tons that leave a lot for a buyer or the stack, but for kept part loads. */
static void sent(ls_haul_model *m, int at, double value, size_t lot, size_t to) {
    size_t k = ls_haul_task_to(m->t, lot, to);
    term(m, at, value * tons(m->t->payload[lot]), m->full[k]);
    term(m, at, value, m->part[k]);
}

/* Tons per unit of a straight column. */
static double unit(const ls_haul_model *m, size_t lot) { return m->t->given->whole_loads ? tons(m->t->tons[lot]) : 1; }

static int64_t kept_parts_to(const ls_haul_task *t, size_t to) {
    int64_t sum = 0;
    for (size_t i = 0; i < t->lots; i++) sum += t->kept_part[ls_haul_task_to(t, i, to)];
    return sum;
}

/* ---- loads ---- */

/* What goes onto a buyer's fields is what its loads carry; a part load carries a drop at least. */
static void load_rows(ls_haul_model *m, size_t lot, size_t to) {
    const ls_haul_task *t = m->t;
    size_t at = ls_haul_task_to(t, lot, to);
    if (to < t->buyers) {
        int carries = row(m, tons(t->kept_part[at]), tons(t->kept_part[at]));
        for (size_t f = t->first[to]; f < t->first[to + 1]; f++)
            term(m, carries, unit(m, lot), m->straight[ls_haul_task_field(t, lot, f)]);
        sent(m, carries, -1, lot, to);
    }
    if (m->some[at] == 0) return;
    int most = row(m, -INFINITY, 0), least = row(m, 0, INFINITY);
    term(m, most, 1, m->part[at]);
    term(m, most, -glp_get_col_ub(m->lp, m->part[at]), m->some[at]);
    term(m, least, 1, m->part[at]);
    term(m, least, -tons(t->drop), m->some[at]);
}

/* A lot's tons: whole loads, and one part load of the rest at most (so no more than the rest goes beyond the last whole
 * load, and nothing without a part load or if the rest is less than a drop). */
static void lot_rows(ls_haul_model *m, size_t lot) {
    const ls_haul_task *t = m->t;
    int64_t has = t->tons[lot], payload = t->payload[lot];
    for (size_t to = 0; to <= t->buyers; to++) has -= t->kept_part[ls_haul_task_to(t, lot, to)];
    if (payload <= 0) return;
    has = has > 0 ? has : 0;
    if (has % payload < t->drop) has -= has % payload;
    int parts = row(m, -INFINITY, 1), loads = row(m, -INFINITY, (double)(has / payload));
    int all = row(m, -INFINITY, tons(has / payload * payload));
    for (size_t to = 0; to <= t->buyers; to++) {
        size_t at = ls_haul_task_to(t, lot, to);
        term(m, parts, 1, m->some[at]);
        term(m, loads, 1, m->full[at]);
        sent(m, all, 1, lot, to);
        term(m, all, -tons(has % payload), m->some[at]);
    }
}

/* ---- fields and buyers ---- */

static void field_row(ls_haul_model *m, size_t field) {
    const ls_haul_task *t = m->t;
    bool even = t->even[field];
    int at = row(m, -INFINITY, even ? tons(t->even_tons[field]) : (double)t->capacity[field] / 1e6);
    m->field_row[field] = at;
    for (size_t i = 0; i < t->lots; i++) {
        size_t k = ls_haul_task_field(t, i, field);
        double use = even ? 1 : t->use[k];
        term(m, at, use * unit(m, i), m->straight[k]);
        term(m, at, use, m->out[k]);
    }
}

/* Nothing, or a smallest drop at least. */
static void used_rows(ls_haul_model *m, int on, int used) {
    if (used == 0) return;
    int most = row(m, -INFINITY, 0), least = row(m, 0, INFINITY);
    term(m, most, 1, on);
    term(m, most, -glp_get_col_ub(m->lp, on), used);
    term(m, least, 1, on);
    term(m, least, -tons(m->t->drop), used);
}

/* Most tons a buyer can get: its fields at the lightest use, or its order. */
static int64_t buyer_tons(const ls_haul_task *t, size_t buyer) {
    int64_t sum = 0, all = 0;
    for (size_t i = 0; i < t->lots; i++) all += t->tons[i];
    for (size_t f = t->first[buyer]; f < t->first[buyer + 1]; f++) {
        int64_t most = 0;
        for (size_t i = 0; i < t->lots; i++) {
            size_t k = ls_haul_task_field(t, i, f);
            if (!t->open[k] && !t->later[k]) continue;
            int64_t fits = ls_haul_fit(t->use[k], t->capacity[f]);
            most = fits > most ? fits : most;
        }
        sum += most < all ? most : all;
    }
    return sum < t->most[buyer] ? sum : t->most[buyer];
}

/* The payload that all lots share that have loads for the buyer; 0 if they differ; least gets the smallest. */
static int64_t common_payload(const ls_haul_model *m, size_t buyer, int64_t *least) {
    const ls_haul_task *t = m->t;
    int64_t common = 0;
    bool same = true;
    *least = 0;
    for (size_t i = 0; i < t->lots; i++) {
        if (m->full[ls_haul_task_to(t, i, buyer)] == 0) continue;
        same = same && (common == 0 || common == t->payload[i]);
        common = t->payload[i];
        *least = *least == 0 || common < *least ? common : *least;
    }
    return same ? common : 0;
}

/* Rounding rows: whole loads only fill a buyer up to a whole number of them; beyond that only part loads go. */
static void rounding_rows(ls_haul_model *m, size_t buyer) {
    const ls_haul_task *t = m->t;
    int64_t has = buyer_tons(t, buyer) - kept_parts_to(t, buyer), least;
    int64_t payload = common_payload(m, buyer, &least);
    if (least == 0 || has < 0) return;
    int loads = row(m, -INFINITY, (double)(has / least));
    for (size_t i = 0; i < t->lots; i++) term(m, loads, 1, m->full[ls_haul_task_to(t, i, buyer)]);
    if (payload == 0) return;
    int all = row(m, -INFINITY, tons(has / payload * payload));
    for (size_t i = 0; i < t->lots; i++) {
        sent(m, all, 1, i, buyer);
        term(m, all, -tons(has % payload), m->some[ls_haul_task_to(t, i, buyer)]);
    }
}

static void received(ls_haul_model *m, int at, double value, size_t buyer) {
    const ls_haul_task *t = m->t;
    for (size_t i = 0; i < t->lots; i++) {
        sent(m, at, value, i, buyer);
        for (size_t f = t->first[buyer]; f < t->first[buyer + 1]; f++)
            term(m, at, value, m->out[ls_haul_task_field(t, i, f)]);
    }
}

static void trips(ls_haul_model *m, int at, double value, size_t buyer) {
    term(m, at, value, m->trips[buyer]);
    for (size_t i = 0; i < m->t->lots; i++)
        for (size_t f = m->t->first[buyer]; f < m->t->first[buyer + 1]; f++)
            term(m, at, value, m->out_trips[ls_haul_task_field(m->t, i, f)]);
}

static long kept_part_trips(const ls_haul_task *t, size_t buyer) {
    long n = 0;
    for (size_t i = 0; i < t->lots; i++) n += t->kept_part[ls_haul_task_to(t, i, buyer)] > 0;
    return n;
}

static void order_rows(ls_haul_model *m, size_t buyer) {
    const ls_haul_task *t = m->t;
    double kept = tons(kept_parts_to(t, buyer)), kept_trips = (double)kept_part_trips(t, buyer);
    if (t->most[buyer] != LS_HAUL_PLENTY) received(m, row(m, -INFINITY, tons(t->most[buyer]) - kept), 1, buyer);
    if (t->most_loads[buyer] != LONG_MAX)
        trips(m, row(m, -INFINITY, (double)t->most_loads[buyer] - kept_trips), 1, buyer);
    if (t->least[buyer] > 0) {
        int at = row(m, tons(t->least[buyer]) - kept, INFINITY);
        term(m, at, 1, m->short_of[buyer]);
        received(m, at, 1, buyer);
    }
    if (t->least_loads[buyer] > 0) {
        int64_t largest = 0;
        for (size_t i = 0; i < t->lots; i++) largest = t->payload[i] > largest ? t->payload[i] : largest;
        int at = row(m, tons(largest) * ((double)t->least_loads[buyer] - kept_trips), INFINITY);
        term(m, at, 1, m->short_of[buyer]);
        trips(m, at, tons(largest), buyer);
    }
}

static void trips_row(ls_haul_model *m, size_t buyer) {
    int at = row(m, 0, 0);
    term(m, at, -1, m->trips[buyer]);
    for (size_t i = 0; i < m->t->lots; i++) {
        term(m, at, 1, m->full[ls_haul_task_to(m->t, i, buyer)]);
        term(m, at, 1, m->some[ls_haul_task_to(m->t, i, buyer)]);
    }
}

/* ---- the stack ---- */

/* Nothing comes out that did not go in; and less than a load goes in that no field waits for. */
static void stack_rows(ls_haul_model *m, size_t lot) {
    const ls_haul_task *t = m->t;
    double kept = tons(t->kept_part[ls_haul_task_to(t, lot, t->buyers)]);
    int rest = row(m, -kept, tons(t->payload[lot]) - 0.01 - kept);
    sent(m, rest, 1, lot, t->buyers);
    for (size_t f = 0; f < t->fields; f++) {
        size_t at = ls_haul_task_field(t, lot, f);
        if (m->out[at] == 0) continue;
        term(m, rest, -1, m->out[at]);
        int trips_carry = row(m, 0, tons(t->payload_out[lot]) - 0.01);
        term(m, trips_carry, tons(t->payload_out[lot]), m->out_trips[at]);
        term(m, trips_carry, -1, m->out[at]);
        int trips_need = row(m, 0, INFINITY); /* a drop each */
        term(m, trips_need, 1, m->out[at]);
        term(m, trips_need, -tons(t->drop), m->out_trips[at]);
    }
}

/* What is promised out of the stack comes out. */
static void kept_out_row(ls_haul_model *m, size_t lot, size_t buyer) {
    const ls_haul_task *t = m->t;
    int64_t kept = t->kept_out[lot * t->buyers + buyer];
    if (kept == 0) return;
    int at = row(m, tons(kept), INFINITY);
    for (size_t f = t->first[buyer]; f < t->first[buyer + 1]; f++)
        term(m, at, 1, m->out[ls_haul_task_field(t, lot, f)]);
}

static void room_row(ls_haul_model *m) {
    const ls_haul_task *t = m->t;
    int at = row(m, -INFINITY, tons(t->room - kept_parts_to(t, t->buyers)));
    for (size_t i = 0; i < t->lots; i++) {
        sent(m, at, 1, i, t->buyers);
        if (t->pile_of[i] == i) term(m, at, tons(t->pile[i]), m->piled[i]);
        if (m->piled[i] == 0) continue;
        int64_t most = ls_haul_lesser(t->tons[i], t->room - t->pile[i]);
        int piled = row(m, -INFINITY, 0);
        sent(m, piled, 1, i, t->buyers);
        term(m, piled, -tons(most), m->piled[i]);
    }
}

/* ---- goals ---- */

static void money_terms(ls_haul_model *m, size_t lot) {
    const ls_haul_task *t = m->t;
    for (size_t f = 0; f < t->fields; f++) {
        size_t k = ls_haul_task_field(t, lot, f);
        term(m, m->money_row, t->value[k] * unit(m, lot), m->straight[k]);
        term(m, m->money_row, t->later_value[k], m->out[k]);
    }
    sent(m, m->money_row, t->given->stack_value, lot, t->buyers);
}

static void goal_rows(ls_haul_model *m) {
    const ls_haul_task *t = m->t;
    m->tons_row = row(m, -INFINITY, INFINITY);
    m->short_row = row(m, -INFINITY, INFINITY);
    m->money_row = row(m, -INFINITY, INFINITY);
    for (size_t i = 0; i < t->lots; i++) {
        for (size_t f = 0; f < t->fields; f++) {
            size_t k = ls_haul_task_field(t, i, f);
            term(m, m->tons_row, unit(m, i), m->straight[k]);
            term(m, m->tons_row, 1, m->out[k]);
        }
        money_terms(m, i);
    }
    for (size_t b = 0; b < t->buyers; b++) {
        term(m, m->short_row, 1, m->short_of[b]);
        trips(m, m->money_row, -t->trip_cost[b], b);
        m->money_shift -= (double)kept_part_trips(t, b) * t->trip_cost[b];
    }
    m->money_shift += tons(kept_parts_to(t, t->buyers)) * t->given->stack_value;
}

void ls_haul_model_rows(ls_haul_model *m) {
    const ls_haul_task *t = m->t;
    *LS_PUSH(t->arena, &m->rows) = 0; /* GLPK counts from 1 */
    *LS_PUSH(t->arena, &m->columns) = 0;
    *LS_PUSH(t->arena, &m->values) = 0;
    for (size_t i = 0; i < t->lots; i++) {
        for (size_t to = 0; to <= t->buyers; to++) load_rows(m, i, to);
        lot_rows(m, i);
        if (t->stack) stack_rows(m, i);
        for (size_t b = 0; b < t->buyers && t->stack; b++) kept_out_row(m, i, b);
    }
    for (size_t f = 0; f < t->fields; f++) field_row(m, f);
    for (size_t k = 0; k < t->lots * t->fields; k++) {
        used_rows(m, m->straight[k], m->used[k]);
        used_rows(m, m->out[k], m->out_used[k]);
    }
    for (size_t b = 0; b < t->buyers; b++) {
        rounding_rows(m, b);
        order_rows(m, b);
        trips_row(m, b);
    }
    if (t->stack) room_row(m);
    goal_rows(m);
    glp_load_matrix(m->lp, (int)m->rows.n - 1, m->rows.at, m->columns.at, m->values.at);
}
