/* Numbers of trucks, and what must hold of the days of every plan. */
#include "chance.h"
#include "plan_world.h"

#include "haul/plan.h"

#include <math.h>
#include <string.h>

/* ---- numbers of trucks ---- */

static bool before(ls_moment a, ls_moment b) { return a.day < b.day || (a.day == b.day && a.second < b.second); }

static void check_fleets(const plan_world *t) {
    const ls_plan *p = t->plan;
    long count = t->farm->trucks.at[0].count.n;
    CU_ASSERT((long)p->fleets_n >= count + 4 && p->fleets_n >= 8);
    for (size_t i = 0; i < p->fleets_n; i++) {
        const ls_fleet *f = &p->fleets[i], *before = &p->fleets[i > 0 ? i - 1 : 0];
        TEST_SAME(f->trucks, i + 1);
        CU_ASSERT(f->finish.day < before->finish.day ||
                  (f->finish.day == before->finish.day && f->finish.second <= before->finish.second));
    }
    for (size_t i = 0; i < p->soonest; i++) CU_ASSERT(before(p->fleets[p->soonest].finish, p->fleets[i].finish));
    for (size_t i = p->soonest; i < p->fleets_n; i++)
        CU_ASSERT(!before(p->fleets[i].finish, p->fleets[p->soonest].finish));
    const ls_fleet *own = &p->fleets[count - 1];
    TEST_SAME(own->finish.day, p->finish);
    TEST_NEAR(ls_line_value(t->sheet, own->idle), ls_line_value(t->sheet, p->idle), 1e-9);
    TEST_NEAR(ls_line_value(t->sheet, own->waiting), ls_line_value(t->sheet, p->waiting), 1e-9);
}

/* (180 + trucks x 95) $/h for the hours on the job; the least of them is named. */
static void test_fleets(void) {
    plan_small s = {"110 ton", "count: 2, payload: 11 ton",
                    ", loader: {bucket: 1 yd3, fill: 100 %, load_and_dump: 60 s, travel: 5 mph}", ", distance: 5 mi",
                    "costs: {crew: 180 $/h, truck: 95 $/h}\n"};
    plan_world t = plan_world_small(s);
    const ls_plan *p = t.plan;
    check_fleets(&t);
    double least = INFINITY;
    for (size_t i = 0; i < p->fleets_n; i++) {
        double cost = ls_line_value(t.sheet, p->fleets[i].cost);
        TEST_NEAR(cost, (180 + 95 * (double)(i + 1)) * ls_line_shown(t.sheet, p->fleets[i].hours), 1e-9);
        least = fmin(least, cost);
    }
    TEST_NEAR(ls_line_value(t.sheet, p->fleets[p->cheapest].cost), least, 1e-12);
    plan_world_end(&t);
    s.more = "costs: {crew: 180 $/h}\n";
    t = plan_world_small(s);
    CU_ASSERT(t.plan->cheapest == SIZE_MAX);
    plan_world_end(&t);
}

/* Burt and Caccetta 2007: trucks x load time / (loaders x truck cycle). Ten loads of 42 min, trips
 * of 88.83 min (the arithmetic stands in the tests of the plan): two trucks, 0.9456. */
static void test_match(void) {
    plan_world t = plan_world_small((plan_small){
        "110 ton", "count: 2, payload: 11 ton, swath: 33 ft, spreading: 5 mph, road: 30 mph",
        ", loader: {bucket: 1 yd3, fill: 100 %, load_and_dump: 60 s, travel: 5 mph}", ", distance: 5 mi", ""});
    TEST_NEAR(ls_line_value(t.sheet, t.plan->match), 2 * 42 / (42 + 20 + 5.5 / 12.3 * 60), 1e-4);
    plan_world_end(&t);
}

/* ---- what must hold of every plan ---- */

/* Two houses, one with slats and two sides, weighed; crews and windows of many kinds. */
static const char *farm(ls_arena *a, uint64_t *s, unsigned speed) {
    static const char *const off[] = {"sunday", "saturday, sunday", "monday"};
    static const char *const open[] = {"2026-02-16..2026-03-31", "2026-02-16..2026-02-19", "2026-02-20..2026-03-31",
                                       "2026-03-02..2026-04-30"};
    ls_text *t = ls_text_new(a);
    static const char lab[] = "lab: [{date: 2026-01-10, moisture: 30 %, N: 20 lb/ton, NH4N: 5 "
                              "lb/ton, P2O5: 20 lb/ton, K2O: 20 lb/ton}]";
    ls_text_addf(t,
                 "houses:\n  - {name: North, length: %u ft, width: 40 ft, sides: [left, right], "
                 "floor: {slats: 60 %%, scratch: 40 %%}, measured: {weighed: %u ton, loose_density: "
                 "35 lb/ft3}, %s}\n  - {name: South, length: 400 ft, width: 40 ft, measured: "
                 "{weighed: %u ton, loose_density: 30 lb/ft3}, %s, flocks: [{birds: broiler, count: "
                 "20000, placed: 2025-12-20, removed: 2026-02-%u}]}\n",
                 200 + test_pick(s, 300), 20 + test_pick(s, 100), lab, 20 + test_pick(s, 100), lab,
                 10 + test_pick(s, 12));
    ls_text_addf(t, "trucks: [{name: T, count: %u, payload: %u ton, road: 30 mph}]\n", 1 + test_pick(s, 4),
                 6 + test_pick(s, 8));
    unsigned bucket = 10 + test_pick(s, 20);
    ls_text_addf(t,
                 "crew: {arrives: 2026-02-16, hours: %u h/day, days_off: [%s], hold_days: "
                 "[2026-02-18, 2026-02-%u%s], out: [{what: %s, from: 2026-02-17T%02u:00, until: "
                 "2026-02-%uT12:30}], loader: {bucket: %.1f yd3, fill: 90 %%, load_and_dump: "
                 "%u s, travel: 5 mph}, slats: {sections: 210, weight: 160 lb, people: 6, pace: %u "
                 "per hour, while_loading: %s}}\n",
                 2 + test_pick(s, 10), off[test_pick(s, 3)], 20 + test_pick(s, 8),
                 test_pick(s, 2) ? " until 12:00" : "", test_pick(s, 2) ? "loader" : "slat hands", test_pick(s, 12),
                 17 + test_pick(s, 6), bucket / 10.0, 60 / speed, 40 + test_pick(s, 100),
                 test_pick(s, 2) ? "yes" : "no");
    if (test_pick(s, 2))
        ls_text_add(t, "stack: {roofed: yes, length: 60 ft, width: 40 ft, height: 5 ft, kept_until: "
                       "2026-08-01}\n");
    ls_text_add(t, "buyers:\n");
    for (unsigned b = 0; b < 3; b++)
        ls_text_addf(t,
                     "  - {name: B%u, distance: %u mi, price: 20 $/ton, fields: [{name: F, area: "
                     "%u ac, open: %s, " PLAN_FIELD "}]}\n",
                     b, 1 + test_pick(s, 20), 5 + test_pick(s, 60), open[test_pick(s, 4)]);
    return t->s;
}

static bool works_on(const ls_crew *crew, ls_date day) {
    bool works = !(crew->days_off >> ls_date_weekday(day) & 1u);
    for (size_t i = 0; i < crew->hold_days.n; i++)
        works = works && (crew->hold_days.at[i].day != day || !ls_hold_whole(&crew->hold_days.at[i]));
    return works;
}

/* Is a span within a day clear of the hours held, and of those in which something is out? */
static bool is_clear(const plan_world *t, ls_moment from, ls_moment to, int what) {
    const ls_crew *crew = t->farm->crew;
    for (size_t i = 0; i < crew->hold_days.n; i++) {
        const ls_hold *h = &crew->hold_days.at[i];
        if (h->day == from.day && from.second < 60 * h->until && to.second > 60 * h->from) return false;
    }
    for (size_t i = 0; i < crew->out.n; i++) {
        const ls_out *o = &crew->out.at[i];
        if ((int)o->is == what && before(from, (ls_moment){o->until.day, 60 * o->until.minute}) &&
            before((ls_moment){o->from.day, 60 * o->from.minute}, to))
            return false;
    }
    return true;
}

/* On working days within their hours, in order, on days the fields are open, and back in time; no
 * truck twice, never two at the loader. */
static void check_load(const plan_world *t, size_t k) {
    const ls_plan *p = t->plan;
    const ls_load *l = &p->loads[k];
    long end = p->day_begins + p->day_seconds;
    CU_ASSERT(works_on(t->farm->crew, l->day) && works_on(t->farm->crew, l->back.day));
    CU_ASSERT(l->start.second >= p->day_begins && l->back.second <= end);
    CU_ASSERT(l->day >= t->farm->crew->arrives.day);
    CU_ASSERT(l->back.day == l->day || l->start.second == p->day_begins);
    CU_ASSERT(is_clear(t, l->start, l->leave, LS_OUT_LOADER));
    CU_ASSERT(l->back.day != l->day || is_clear(t, l->start, l->back, LS_OUT_TRUCK));
    for (size_t f = 0; f < l->lot->house->flocks.n; f++) CU_ASSERT(l->day >= l->lot->house->flocks.at[f].removed.day);
    for (size_t i = 0; i < k; i++) /* possible loads have days of their own */
        CU_ASSERT(ls_load_counted(&p->loads[i]) != ls_load_counted(l) || !before(l->start, p->loads[i].leave));
    for (size_t i = 0; i < k; i++)
        CU_ASSERT(ls_load_counted(&p->loads[i]) != ls_load_counted(l) || p->loads[i].truck != l->truck ||
                  !before(l->start, p->loads[i].back));
    CU_ASSERT(1 <= l->truck && l->truck <= t->farm->trucks.at[0].count.n);
    for (size_t d = 0; d < l->n; d++) {
        ls_window open = l->drops[d].field->open.days;
        CU_ASSERT(open.from <= l->day && l->emptied.day <= open.to);
    }
}

static void check_plan(const plan_world *t) {
    const ls_plan *p = t->plan;
    long loads = 0;
    double hours = 0;
    for (size_t k = 0; k < p->loads_n; k++) check_load(t, k);
    for (size_t d = 0; d < p->days_n; d++) {
        CU_ASSERT(works_on(t->farm->crew, p->days[d].day));
        CU_ASSERT(d == 0 || p->days[d].day > p->days[d - 1].day);
        loads += p->days[d].loads;
        hours += ls_line_value(t->sheet, p->days[d].loading);
    }
    for (size_t k = 0; k < p->loads_n; k++) loads -= ls_load_counted(&p->loads[k]);
    TEST_SAME(loads, 0);
    for (size_t k = 0; k < p->loads_n; k++)
        if (ls_load_counted(&p->loads[k]) && p->loads[k].leave.day == p->loads[k].day)
            hours -= (double)(p->loads[k].leave.second - p->loads[k].start.second) / 86400;
    TEST_NEAR(hours, 0, 1e-9);
    if (p->loads_n > 0) check_fleets(t);
}

static void test_every_plan(void) {
    enum { FARMS = 30 };
    for (uint64_t seed = 1; seed <= FARMS; seed++) {
        ls_arena *a = ls_arena_new();
        uint64_t state = seed;
        plan_world t = plan_world_text(farm(a, &state, 1));
        CU_ASSERT_PTR_NOT_NULL_FATAL(t.plan);
        check_plan(&t);
        plan_world_end(&t);
        ls_arena_free(a);
    }
}

/* A faster loader, all else alike, ends no later: every load where it was, and none later. Where
 * windows let the split change its mind, loads are others; such farms are passed over. */
static void test_faster_loader(void) {
    enum { FARMS = 15 };
    size_t compared = 0;
    for (uint64_t seed = 1; seed <= FARMS; seed++) {
        ls_arena *a = ls_arena_new();
        uint64_t one = seed, two = seed;
        plan_world t = plan_world_text(farm(a, &one, 1)), u = plan_world_text(farm(a, &two, 3));
        bool same = t.plan->loads_n == u.plan->loads_n;
        for (size_t k = 0; same && k < t.plan->loads_n; k++) {
            const ls_load *l = &t.plan->loads[k], *m = &u.plan->loads[k];
            same = l->n == m->n && plan_tons(&t, l->tons) == plan_tons(&u, m->tons) &&
                   (l->buyer == NULL) == (m->buyer == NULL) &&
                   (l->n == 0 || strcmp(l->buyer->name.text, m->buyer->name.text) == 0);
        }
        compared += same;
        for (size_t k = 0; same && k < t.plan->loads_n; k++)
            CU_ASSERT(!before(t.plan->loads[k].start, u.plan->loads[k].start));
        CU_ASSERT(!same || u.plan->finish <= t.plan->finish);
        plan_world_end(&t);
        plan_world_end(&u);
        ls_arena_free(a);
    }
    CU_ASSERT(compared > FARMS / 3);
}

/* A plan whose loads have their days for the first time. */
static ls_haul_planner scheduled(const plan_world *t) {
    CU_ASSERT_PTR_NOT_NULL_FATAL(t->plan);
    ls_worksheet *w = ls_worksheet_new(t->arena);
    ls_estimate *e = ls_litter_estimate(w, t->farm, t->reference, 1, LS_BLOCK);
    ls_haul_planner p = {
        .w = w, .arena = t->arena, .reference = t->reference, .e = e, .farm = t->farm, .from = LS_NO_DATE};
    p.agronomy = ls_agronomy_new(w, t->reference, e);
    p.plan = LS_NEW(t->arena, ls_plan, 1);
    CU_ASSERT_TRUE_FATAL(ls_haul_gather(&p) && ls_haul_first_ranges(&p));
    ls_haul_stages(&p);
    ls_haul_list(&p);
    CU_ASSERT_TRUE(ls_haul_schedule(&p));
    return p;
}

/* Two of one kind and one of another by turns: as they are, 1 more, 1 fewer of the first kind, 1
 * more of the second, whose only truck is never taken away. One more is never later. */
static void test_fleets_of_kinds(void) {
    plan_world t =
        plan_world_text(PLAN_HOUSE "trucks: [{name: T, count: 2, payload: 11 ton}, {name: U, count: 1, payload: 11 "
                                   "ton}]\n"
                                   "crew: {arrives: 2026-02-16}\n"
                                   "costs: {crew: 180 $/h, truck: 95 $/h}\n"
                                   "buyers:\n  - {name: A, distance: 10 mi, price: 20 $/ton, fields: [{name: F, "
                                   "area: 200 ac, " PLAN_FIELD "}]}\n");
    ls_haul_planner p = scheduled(&t);
    ls_haul_lines(&p);
    for (size_t k = 0; k < p.trips_n; k++) p.trips[k].job.kind = k % 2;
    CU_ASSERT_TRUE(ls_haul_simulate(&p, p.trips, p.trips_n, ls_haul_fleet(&p), &p.run));
    ls_haul_workdays(&p);
    ls_haul_fleets(&p);
    static const char *const fleets[] = {"2 x T, 1 x U", "1 more T", "1 fewer T", "1 more U"};
    static const long trucks[] = {3, 4, 2, 4};
    const ls_fleet *f = p.plan->fleets;
    TEST_SAME(p.plan->fleets_n, 4);
    for (size_t k = 0; k < 4 && p.plan->fleets_n == 4; k++) {
        TEST_TEXT(f[k].fleet, fleets[k]);
        TEST_SAME(f[k].trucks, trucks[k]);
        CU_ASSERT(k == 2 ? !before(f[2].finish, f[0].finish) : !before(f[0].finish, f[k].finish));
        TEST_NEAR(ls_line_value(p.w, f[k].cost), (180 + 95 * (double)trucks[k]) * ls_line_shown(p.w, f[k].hours), 1e-9);
    }
    TEST_SAME(p.plan->now, 0);
    TEST_SAME(p.plan->more, 3); /* the second kind has half of the loads and one truck */
    CU_ASSERT(before(f[3].finish, f[0].finish));
    plan_world_end(&t);
}

/* The search for days that fit ends because at last each lot's range holds all days its loads can
 * fall on, however the litter is split. */
static void check_widest(const char *yaml) {
    plan_world t = plan_world_text(yaml);
    enum { LAST_ROUND = 6 };
    ls_haul_planner p = scheduled(&t);
    CU_ASSERT_TRUE(ls_haul_next_ranges(&p, LAST_ROUND));
    CU_ASSERT_TRUE(ls_haul_ranges_hold(&p));
    plan_world_end(&t);
}

static void test_widest(void) {
    enum { FARMS = 15 };
    for (uint64_t seed = 100; seed < 100 + FARMS; seed++) {
        ls_arena *a = ls_arena_new();
        uint64_t state = seed;
        check_widest(farm(a, &state, 1));
        ls_arena_free(a);
    }
}

TEST_SUITE(days_rules) = {{"numbers of trucks", test_fleets},
                          {"fleets of several kinds", test_fleets_of_kinds},
                          {"match factor", test_match},
                          {"every plan keeps the rules", test_every_plan},
                          {"at last the ranges hold everything", test_widest},
                          {"a faster loader ends no later", test_faster_loader},
                          CU_TEST_INFO_NULL};
