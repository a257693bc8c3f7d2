/* Days of the middle case and of the high one: loads that are only possible move no day of the
 * others, and how long it takes to empty the houses. */
#include "chance.h"
#include "plan_world.h"

#include <string.h>

static bool same_moment(ls_moment a, ls_moment b) { return a.day == b.day && a.second == b.second; }

static bool before(ls_moment a, ls_moment b) { return a.day < b.day || (a.day == b.day && a.second < b.second); }

/* ---- a far buyer of last resort ---- */

#define FAR "Far"

static bool same_ways(const plan_world *t, const ls_load *l, const plan_world *u, const ls_load *m) {
    bool same = strcmp(l->lot->code, m->lot->code) == 0 && l->certainty == m->certainty && l->n == m->n &&
                (l->buyer == NULL) == (m->buyer == NULL) && plan_tons(t, l->tons) == plan_tons(u, m->tons);
    for (size_t k = 0; same && k < l->n; k++)
        same = strcmp(l->drops[k].field->slug, m->drops[k].field->slug) == 0 &&
               strcmp(l->drops[k].buyer->slug, m->drops[k].buyer->slug) == 0 &&
               plan_tons(t, l->drops[k].tons) == plan_tons(u, m->drops[k].tons);
    return same;
}

/* The next load from number k on that counts; the number of loads if there is none. */
static size_t counted(const ls_plan *p, size_t k) {
    while (k < p->loads_n && p->loads[k].certainty == LS_POSSIBLE) k++;
    return k;
}

/* Is the middle case split alike? */
static bool alike(const plan_world *t, const plan_world *u) {
    const ls_plan *p = t->plan, *q = u->plan;
    size_t i = counted(p, 0), k = counted(q, 0);
    for (; i < p->loads_n && k < q->loads_n; i = counted(p, i + 1), k = counted(q, k + 1))
        if (!same_ways(t, &p->loads[i], u, &q->loads[k])) return false;
    return i == p->loads_n && k == q->loads_n;
}

/* Loads to the far buyer: are there any, all possible ones? */
static bool takes_possible_alone(const ls_plan *p) {
    size_t n = 0;
    for (size_t k = 0; k < p->loads_n; k++) {
        if (p->loads[k].buyer == NULL || strcmp(p->loads[k].buyer->name.text, FAR) != 0) continue;
        if (p->loads[k].certainty != LS_POSSIBLE) return false;
        n++;
    }
    return n > 0;
}

static void check_same_days(const plan_world *t, const plan_world *u) {
    const ls_plan *p = t->plan, *q = u->plan;
    TEST_SAME(p->finish, q->finish);
    CU_ASSERT(same_moment(p->ends, q->ends));
    TEST_SAME(p->working_days, q->working_days);
    TEST_SAME(p->days_n, q->days_n);
    TEST_SAME(p->moves_n, q->moves_n);
    TEST_SAME(p->spare_days, q->spare_days);
    for (size_t d = 0; d < p->days_n && d < q->days_n; d++) {
        TEST_SAME(p->days[d].day, q->days[d].day);
        TEST_TEXT(p->days[d].work, q->days[d].work);
        TEST_NEAR(plan_tons(t, p->days[d].tons), plan_tons(u, q->days[d].tons), 1e-9);
    }
    TEST_SAME(p->fleets_n, q->fleets_n);
    for (size_t k = 0; k < p->fleets_n && k < q->fleets_n; k++)
        CU_ASSERT(same_moment(p->fleets[k].finish, q->fleets[k].finish));
    TEST_SAME(p->soonest, q->soonest);
    for (size_t i = counted(p, 0), k = counted(q, 0); i < p->loads_n; i = counted(p, i + 1), k = counted(q, k + 1)) {
        TEST_SAME(p->loads[i].day, q->loads[k].day);
        CU_ASSERT(same_moment(p->loads[i].start, q->loads[k].start));
        CU_ASSERT(same_moment(p->loads[i].back, q->loads[k].back));
    }
}

/* The high case ends no sooner, and its loads are behind the full ones that count of their lot. */
static void check_high_case(const ls_plan *p) {
    CU_ASSERT(p->high_finish >= p->finish && p->high_days >= 0);
    TEST_SAME(p->high_ends.day, p->high_finish);
    ls_moment last = p->ends;
    for (size_t k = 0; k < p->loads_n; k++) {
        const ls_load *l = &p->loads[k];
        bool other_case = k > 0 && ls_load_counted(l) && !ls_load_counted(&l[-1]);
        CU_ASSERT(k == 0 || l[-1].lot != l->lot || l->certainty == LS_FIRM || other_case ||
                  !before(l->start, l[-1].leave));
        CU_ASSERT(!before(p->high_ends, l->back));
        if (before(last, l->back)) last = l->back;
    }
}

/* Two houses whose litter is not weighed; A takes so many tons in all. */
static const char *farm(ls_arena *a, uint64_t seed, double order, const char *more) {
    ls_text *t = ls_text_new(a);
    ls_text_add(t, "farm: {name: X, next_flock: 2026-05-01}\nhouses:\n");
    for (unsigned i = 0; i < 2; i++)
        ls_text_addf(t,
                     "  - {name: House %u, length: %u ft, width: 40 ft, sides: [%s], flocks: "
                     "[{birds: broiler, count: %u, placed: 2025-12-01, removed: 2026-01-20}]}\n",
                     i + 1, 200 + test_pick(&seed, 300), test_pick(&seed, 2) ? "left, right" : "a",
                     15000 + test_pick(&seed, 20000));
    ls_text_addf(t,
                 "trucks: [{name: T, count: %u, payload: %u ton}]\n"
                 "crew: {arrives: 2026-02-16, hours: %u h/day, days_off: [sunday]}\n"
                 "buyers:\n  - {name: A, distance: %u mi, price: 20 $/ton, order: {most: %.0f "
                 "ton}, fields: [{name: F, area: 400 ac, " PLAN_FIELD "}]}\n%s",
                 1 + test_pick(&seed, 3), 6 + test_pick(&seed, 6), 3 + test_pick(&seed, 7), 1 + test_pick(&seed, 12),
                 order, more);
    return t->s;
}

/* Room for what is there in the middle case and half of what may be there besides. */
static double between_cases(ls_arena *a, uint64_t seed) {
    plan_world t = plan_world_text(farm(a, seed, 10000, ""));
    double tons = (t.estimate->tons.mid + t.estimate->tons.high) / 2 / 2000;
    plan_world_end(&t);
    return tons;
}

/* Farms that differ in the far buyer alone; passed over where he takes other loads than possible
 * ones, or the loads that count are split another way with him. */
static void test_far_buyer(void) {
    const uint64_t farms = test_count("FAR_FARMS", 6);
    static const char far[] = "  - {name: " FAR ", distance: 90 mi, price: 1 $/ton, fields: "
                              "[{name: Last, area: 400 ac, " PLAN_FIELD "}]}\n";
    size_t compared = 0;
    for (uint64_t seed = 1; seed <= farms; seed++) {
        ls_arena *a = ls_arena_new();
        double tons = between_cases(a, seed);
        plan_world t = plan_world_text(farm(a, seed, tons, "")), u = plan_world_text(farm(a, seed, tons, far));
        CU_ASSERT_FATAL(t.plan != NULL && u.plan != NULL);
        if (takes_possible_alone(u.plan) && alike(&t, &u)) {
            compared++;
            check_same_days(&t, &u);
            check_high_case(u.plan);
        }
        plan_world_end(&t);
        plan_world_end(&u);
        ls_arena_free(a);
    }
    CU_ASSERT(compared > farms / 2);
}

/* ---- the houses emptied ---- */

/* Ten loads of 11 ton of which A takes two: the other eight go, as it were, to a field like A's. So
 * the houses are empty when they would be if A took all ten. Trips of 88.83 min, six in a day of 9
 * h (the arithmetic stands with the match factor): one day of work and one more. */
static void test_empty(void) {
    plan_small s = {"110 ton",
                    "count: 1, payload: 11 ton, swath: 33 ft, spreading: 5 mph, road: "
                    "30 mph",
                    ", hours: 9 h/day, loader: {bucket: 1 yd3, fill: 100 %, load_and_dump: 60 s, "
                    "travel: 5 mph}",
                    ", distance: 5 mi, order: {most: 2 loads}", ""};
    plan_world t = plan_world_small(s);
    s.buyer = ", distance: 5 mi";
    plan_world u = plan_world_small(s);
    TEST_SAME(t.plan->working_days, 1);
    TEST_SAME(t.plan->empty_days, 1);
    TEST_SAME(t.plan->empty_finish, ls_date_of(2026, 2, 17));
    CU_ASSERT(same_moment(t.plan->empty_ends, u.plan->ends));
    TEST_NEAR(ls_line_shown(t.sheet, t.plan->empty_distance), 5, 1e-9);
    TEST_SAME(u.plan->empty_days, 0);
    TEST_SAME(u.plan->empty_finish, LS_NO_DATE);
    plan_world_end(&t);
    plan_world_end(&u);
}

/* Two buyers: 22 ton go 4 mi, 33 ton 9 mi, 55 ton nowhere. The mean of the 55 by tons is 7 mi: 14
 * min at 30 mph, one way, beside 8 and 18. */
static void test_mean_field(void) {
    plan_world t =
        plan_world_text(PLAN_HOUSE "trucks: [{name: T, count: 1, payload: 11 ton, road: 30 mph}]\n"
                                   "crew: {arrives: 2026-02-16, hours: 20 h/day}\nbuyers:\n"
                                   "  - {name: A, distance: 4 mi, order: {most: 2 loads}, fields: [{name: F, "
                                   "area: 200 ac, " PLAN_FIELD "}]}\n"
                                   "  - {name: B, distance: 9 mi, order: {most: 3 loads}, fields: [{name: F, "
                                   "area: 200 ac, " PLAN_FIELD "}]}\n");
    CU_ASSERT_FATAL(t.plan != NULL);
    TEST_NEAR(ls_line_shown(t.sheet, t.plan->empty_distance), 7, 1e-9);
    const ls_load *l = &t.plan->loads[0], *m = &t.plan->loads[t.plan->loads_n - 1];
    long each = 0; /* to load and to spread, the same for all */
    each = (l->emptied.second - l->there.second) + (l->leave.second - l->start.second);
    TEST_SAME(t.plan->empty_finish, m->day);
    TEST_SAME(t.plan->empty_ends.second - m->back.second, 5 * (each + 2 * 14 * 60));
    plan_world_end(&t);
}

TEST_SUITE(days_cases) = {{"a far buyer of last resort", test_far_buyer},
                          {"the houses emptied", test_empty},
                          {"the mean field", test_mean_field},
                          CU_TEST_INFO_NULL};
