/* Trucks of several kinds: which takes litter out of the stack, and the share of all litter that each hauls. */
#include "plan.h"

#include <math.h>

static double most_of(const ls_haul_planner *p, size_t kind) {
    return p->most_of == NULL ? INFINITY : p->most_of[kind];
}

/* Fields on which the kind spreads litter of some lot; their lines are given back. */
static double fields_of(const ls_haul_planner *p, size_t kind) {
    double n = 0;
    size_t before = ls_worksheet_lines(p->w);
    for (size_t f = 0; f < p->fields; f++) {
        const ls_field_rates *r = ls_haul_spreads_on(p, kind, f)
                                      ? ls_agronomy_field(p->agronomy, &p->farm->buyers.at[p->buyer[f]], p->field[f])
                                      : NULL;
        bool some = false;
        for (size_t i = 0; r != NULL && i < p->e->n; i++)
            some = some || ls_line_shown(p->w, ls_field_rate(r, i, kind)->rate) > 0;
        n += some;
        ls_worksheet_cut(p->w, before);
    }
    return n;
}

/* The kind that spreads on most fields, of equal ones the one that carries most. */
void ls_haul_choose_stack_kind(ls_haul_planner *p) {
    double best = -1;
    for (size_t k = 0; k < p->kinds && p->kinds > 1; k++) {
        const ls_truck *truck = &p->farm->trucks.at[k];
        if (!(most_of(p, k) > 0)) continue;
        double reach = fields_of(p, k); /* first, then what all of them carry */
        double carry = (double)truck->count.n * ls_truck_payload(truck);
        reach += carry / (carry + 1);
        if (reach > best) best = reach, p->stack_kind = k;
    }
}

/* ---- how fast a kind hauls ---- */

/* Seconds of its mean full trip to the fields it spreads on, by the tons they take; to the stack if
 * there are none. 0: it hauls nowhere. */
static double mean_round(const ls_haul_planner *p, size_t kind) {
    double tons = 0, seconds = 0;
    for (size_t i = 0; i < p->e->n; i++)
        for (size_t f = 0; f < p->fields; f++) {
            size_t lot = ls_haul_house_lot(p, i, kind);
            double takes = p->rate[ls_haul_lot_field(p, lot, f)] * p->acres[f];
            if (!(takes > 0) || !ls_haul_spreads_on(p, kind, f)) continue;
            ls_sim_job j = ls_haul_full_trip(p, lot, f);
            tons += takes;
            seconds += takes * (double)(j.load + j.out + j.empty + j.back);
        }
    if (tons > 0) return seconds / tons;
    ls_sim_job j = ls_haul_full_trip(p, ls_haul_house_lot(p, 0, kind), LS_HAUL_TO_STACK);
    return p->stack_tons > 0 ? (double)(j.load + j.empty) : 0;
}

static const char *key_of(const ls_haul_planner *p, size_t kind, const char *what) {
    return ls_printf(p->w, "plan.truck-%zu.%s", kind + 1, what);
}

static ls_line mean_payload(ls_haul_planner *p, size_t kind) {
    ls_line *of = LS_NEW(p->arena, ls_line, p->e->n);
    for (size_t i = 0; i < p->e->n; i++) of[i] = p->e->lots[i].kinds[kind].payload.line;
    return ls_quotient(p->w, key_of(p, kind, "payload"), "mean payload over all litter", "ton/load",
                       ls_sum(p->w, key_of(p, kind, "payloads"), "payloads of all litter", "ton/load", of, p->e->n),
                       ls_haul_exact(p, "plan.trucks.lots", "sides and houses", "", (double)p->e->n));
}

/* Tons an hour that all of a kind haul; LS_NO_LINE: none. */
static ls_line pace(ls_haul_planner *p, size_t kind, ls_plan_kind *out) {
    ls_worksheet *w = p->w;
    const ls_truck *truck = &p->farm->trucks.at[kind];
    double round = mean_round(p, kind);
    out->payload = mean_payload(p, kind);
    out->round = LS_NO_LINE;
    if (!(round > 0)) return LS_NO_LINE;
    ls_line count = ls_leaf_count(w, ls_printf(w, "truck-%zu.count", kind + 1), "trucks", "", &truck->count);
    ls_line carry =
        LS_PRODUCT(w, key_of(p, kind, "carry"), ls_printf(w, "what all of %s carry at once", truck->name.text), "ton",
                   count, out->payload, ls_haul_exact(p, "plan.trucks.one-load", "one load", "load", 1));
    out->round =
        ls_leaf_exact(w, key_of(p, kind, "round"), ls_printf(w, "mean round of %s", truck->name.text), "min",
                      round * ls_unit_of("s").factor, LS_BY_DAYS,
                      "loading, road and spreading of a full load to the fields it spreads on, by the tons they "
                      "take; to the stack if it spreads on none");
    return ls_quotient(w, key_of(p, kind, "pace"), ls_printf(w, "tons an hour that %s can haul", truck->name.text),
                       "ton/h", carry, out->round);
}

/* ---- where its litter finds room ---- */

/* Tons that fields open on the first day, or the others, take of the kind, no more than their
 * buyers ordered; of all kinds: p->kinds. */
static double field_room(const ls_haul_planner *p, size_t kind, bool open) {
    ls_split_problem q = ls_haul_problem(p);
    ls_date first = ls_haul_first_day(p);
    double sum = 0;
    for (size_t b = 0, f = 0; b < p->buyers; b++) {
        double room = 0;
        for (; f < p->fields && p->buyer[f] == b; f++) {
            const ls_window *days = &p->field[f]->allowed;
            bool now = !ls_haul_has_window(p->field[f]) || (days->from <= first && first <= days->to);
            double rate = 0;
            for (size_t i = 0; i < p->house_lots; i++)
                if ((kind == p->kinds || p->kind_of[i] == kind) && ls_haul_spreads_on(p, p->kind_of[i], f))
                    rate = fmax(rate, p->rate[ls_haul_lot_field(p, i, f)]);
            room += now == open ? rate * p->acres[f] : 0;
        }
        sum += fmin(room, q.most[b]);
    }
    return sum;
}

/* Tons of the stack for a kind that hauls to it alone, of as few lots as hold most: each of them
 * has a pile with its slopes. */
static double pile_room(const ls_haul_planner *p) {
    double best = 0, lots = 0;
    for (size_t i = 0; i < p->e->n; i++) {
        lots += p->in_lot[1][i];
        best = fmax(best, fmin(lots, p->stack_tons - (double)(i + 1) * p->pile_tons));
    }
    return best;
}

/* Tons that find room if the kind hauls them, in whole loads: of one that is kept to the road or finds less room on
 * fields than the others those of its fields, and of the stack what no open field takes and a later one may. */
static double room_of(const ls_haul_planner *p, size_t kind, double all) {
    const ls_truck *truck = &p->farm->trucks.at[kind];
    double fields = field_room(p, p->kinds, true), own = field_room(p, kind, true);
    if (!(truck->fields.n > 0 || truck->only.is == LS_ONLY_ROAD || own < fields - 1e-6)) return most_of(p, kind);
    double load = p->payload[kind], stack = fmin(field_room(p, p->kinds, false), fmax(0, all - fields)),
           loads = fmin(floor(pile_room(p) / load), ceil(stack / load - 1e-9));
    return fmin(most_of(p, kind), (floor(own / load + 1e-9) + fmax(0, loads)) * load);
}

/* ---- the shares ---- */

typedef struct {
    const ls_haul_planner *p;
    ls_sim s;            /* while the loader is out, so are all */
    ls_sim_time from;    /* when the first house may be hauled */
    const double *speed; /* [kind] tons a second that all of it haul */
    const double *room;  /* [kind] tons */
} race;

static ls_sim_who truck_of(size_t kind, long k) { return (ls_sim_who){LS_SIM_TRUCK, kind, (size_t)k}; }

/* Tons that each kind has hauled by then, each as far as its litter finds room, and in all. */
static double hauled(const race *r, ls_sim_time until, double *tons) {
    double sum = 0;
    for (size_t k = 0; k < r->p->kinds; k++) {
        long count = r->p->farm->trucks.at[k].count.n;
        ls_sim_time there = 0; /* all trucks together */
        for (long t = 0; t < count; t++)
            there += until - r->from - ls_sim_absent(&r->s, truck_of(k, t), (ls_sim_span){r->from, until});
        double most = r->speed[k] * (double)there / (double)count;
        tons[k] = r->p->away[k] ? 0 : fmin(r->room[k], most);
        sum += tons[k];
    }
    return sum;
}

static ls_sim_time last(const race *r) { return (ls_sim_time)r->p->clock.on.n * r->s.day; }

/* By pace and the hours they are there; when so many tons are hauled, or the last moment of all. */
static ls_sim_time run(const race *r, double all, double *tons) {
    ls_sim_time low = r->from, high = last(r);
    while (high - low > 1) {
        ls_sim_time middle = low + (high - low) / 2;
        if (hauled(r, middle, tons) < all)
            low = middle;
        else
            high = middle;
    }
    hauled(r, high, tons);
    return high;
}

/* When the first truck of a kind is there again. */
static ls_sim_time back(const race *r, size_t kind, ls_sim_time from) {
    ls_sim_time first = INT64_MAX;
    for (long k = 0; k < r->p->farm->trucks.at[kind].count.n; k++) {
        ls_sim_time t = ls_sim_there(&r->s, truck_of(kind, k), from);
        first = t < first ? t : first;
    }
    return first;
}

static race race_of(const ls_haul_planner *p, const double *speed, const double *room) {
    const ls_haul_clock *c = &p->clock;
    race r = {.p = p, .speed = speed, .room = room};
    ls_sim_out *outs = LS_NEW(p->arena, ls_sim_out, c->out.n);
    for (size_t k = 0; k < c->out.n; k++) {
        outs[k] = c->out.at[k];
        if (outs[k].who.what == LS_SIM_LOADER) outs[k].who.what = LS_SIM_ALL;
    }
    r.s = (ls_sim){.day = c->day, .outs_n = c->out.n, .outs = outs};
    r.from = INT64_MAX;
    for (size_t i = 0; i < p->house_lots; i++) {
        ls_sim_time ready = ls_haul_work_time(p, ls_haul_empty(p, i), 0);
        r.from = ready < r.from ? ready : r.from;
    }
    return r;
}

/* Loads come in turns to the last: a kind all of which is out when the work would be done hauls
 * none if the others are done before it is back. */
static void find_away(const race *r, double all, double *share) {
    for (size_t k = 0; k < r->p->kinds; k++) {
        ls_sim_time end = run(r, all, share), until = back(r, k, end);
        if (r->p->away[k] || until == end) continue;
        r->p->away[k] = true;
        if (run(r, all, share) < until)
            k = SIZE_MAX; /* the others anew: they need longer */
        else
            r->p->away[k] = false;
    }
}

static void share_out(ls_haul_planner *p, const double *speed, const double *room, double all, double *share) {
    race r = race_of(p, speed, room);
    bool known = p->away != NULL;
    if (!known) p->away = LS_NEW(p->arena, bool, p->kinds);
    all = fmin(fmax(all, 1), hauled(&r, last(&r), share)) - 1e-9;
    if (!known) find_away(&r, all, share);
    run(&r, all, share);
    double sum = 0;
    for (size_t k = 0; k < p->kinds; k++) sum += share[k];
    for (size_t k = 0; k < p->kinds; k++) share[k] = sum > 0 ? share[k] / sum : k == 0;
}

/* Lots lie apart in the stack: a kind that hauls to it alone does so from few of them; the others
 * have the rest as their shares are. */
static void share_lots(ls_haul_planner *p, const double *share, double all) {
    double *left = LS_NEW(p->arena, double, p->kinds);
    for (size_t k = 0; k < p->kinds; k++) left[k] = share[k] * all;
    for (size_t i = 0; i < p->e->n; i++) {
        double *of = &p->share[ls_haul_house_lot(p, i, 0)], rest = 1, sum = 0;
        for (size_t k = 0; k < p->kinds; k++) {
            bool road = p->farm->trucks.at[k].only.is == LS_ONLY_ROAD;
            double tons = road ? fmin(left[k], p->in_lot[1][i] * rest) : 0;
            of[k] = p->in_lot[1][i] > 0 ? tons / p->in_lot[1][i] : 0;
            left[k] -= tons;
            rest -= of[k];
            sum += road ? 0 : share[k];
        }
        for (size_t k = 0; k < p->kinds; k++)
            if (p->farm->trucks.at[k].only.is != LS_ONLY_ROAD)
                of[k] = sum > 0 ? rest * share[k] / sum : 0;
            else if (!(sum > 0))
                of[k] = share[k];
    }
}

void ls_haul_share_kinds(ls_haul_planner *p) {
    if (p->kinds == 1) return;
    p->share = LS_NEW(p->arena, double, p->house_lots);
    double *share = LS_NEW(p->arena, double, p->kinds);
    ls_plan_kind *kinds = LS_NEW(p->arena, ls_plan_kind, p->kinds);
    double *speed = LS_NEW(p->arena, double, p->kinds), *room = LS_NEW(p->arena, double, p->kinds);
    double all = 0;
    for (size_t i = 0; i < p->e->n; i++) all += p->in_lot[1][i];
    for (size_t k = 0; k < p->kinds; k++) {
        ls_line line = pace(p, k, &kinds[k]);
        double an_hour = line == LS_NO_LINE ? 0 : ls_line_value(p->w, line);
        speed[k] = an_hour / ls_unit_of("ton/h").factor / (60 * 60);
        room[k] = room_of(p, k, all);
    }
    share_out(p, speed, room, all, share);
    share_lots(p, share, all);
    for (size_t k = 0; k < p->kinds; k++)
        kinds[k].share =
            ls_leaf_exact(p->w, key_of(p, k, "share"),
                          ls_printf(p->w, "share of the litter that %s hauls", p->farm->trucks.at[k].name.text), "%",
                          share[k], LS_BY_DAYS,
                          ls_printf(p->w,
                                    "by plan.truck-%zu.pace and the hours it is there beside those of all trucks, no "
                                    "more than the fields it spreads on and the stack take",
                                    k + 1));
    p->plan->kinds = kinds;
}
