/* The days of a cleanout: worked examples, the demo farm by hand, what the file says of them.
 */
#include "plan_world.h"

#include <limits.h>
#include <math.h>
#include <string.h>

static const char *const demo[] = {"fixtures/demo-house.yaml", "fixtures/demo-fields.yaml"};

static double shown(const plan_world *t, const char *key) {
    return ls_line_shown(t->sheet, ls_line_find(t->sheet, key));
}

/* ---- worked examples ---- */

/* Iowa State University, Ag Decision Maker A3-24: 6 mph x 40 ft x 0.70 / 8.25 = 20.4 ac/h. The
 * program's own efficiency for spreaders is the middle of that source's 0.60 to 0.63. */
static void test_field_capacity(void) {
    plan_world t = plan_world_small(
        (plan_small){"25 ton", "count: 1, payload: 5 ton, swath: 40 ft, spreading: 6 mph", "", "", ""});
    TEST_NEAR(shown(&t, "days-spreading.pace") / 0.615 * 0.70, 20.4, 0.003);
    plan_world_end(&t);
}

/* 5 ton at 2 ton/ac on a swath of 30 ft: 2.5 ac, 3,630 ft; at 6 mph 6.875 min without turns (UMass
 * Extension: ton/ac = load tons x 43,560 / (distance x swath)). */
static void test_load_run(void) {
    plan_world t = plan_world_small(
        (plan_small){"25 ton", "count: 1, payload: 5 ton, swath: 30 ft, spreading: 6 mph", "", "", ""});
    TEST_SAME(t.plan->loads_n, 5);
    const ls_load *l = &t.plan->loads[0];
    double acres = ls_line_shown(t.sheet, l->drops[0].acres);
    TEST_NEAR(acres, 2.5, 1e-12);
    TEST_NEAR(acres * 43560 / 30, 3630, 1e-12);
    CU_ASSERT_DOUBLE_EQUAL((double)(l->emptied.second - l->there.second) * 0.615, 6.875 * 60, 0.5);
    plan_world_end(&t);
}

/* Mississippi Soybean Promotion Board: 25 ton over 100 miles at 2 ton/ac: take out 10, load 10,
 * spread 8, haul 0.17 $ a ton-mile: 45 $/ton, 90 $/ac. 0.17 x 25 = 4.25 $ for a loaded mile is
 * 2.125 $ for each mile out and back. */
static void test_haul_cost(void) {
    plan_world t = plan_world_small(
        (plan_small){"25 ton", "count: 1, payload: 25 ton", "", ", distance: 100 mi",
                     "costs: {take_out: 10 $/ton, load: 10 $/ton, spread: 8 $/ton, haul: 2.125 $/mi}\n"});
    double costs = shown(&t, "plan.costs");
    TEST_NEAR(costs / 25, 45, 1e-12);
    TEST_NEAR(costs / ls_line_shown(t.sheet, t.plan->loads[0].drops[0].acres), 90, 1e-12);
    TEST_NEAR(ls_line_value(t.sheet, t.plan->net_return), 25 * 20 - 25 * 45, 1e-12);
    TEST_NEAR(t.plan->goals[LS_GOAL_RETURN].value, 25 * 20 - 25 * 45, 1e-9);
    plan_world_end(&t);
}

/* 67 Pa. Code 185.3, bridge formula table, 20 ft: 51,000 lb on 3 axles, 60,500 on 5, 66,000 on 6.
 */
static void test_bridge(void) {
    static const struct {
        int axles;
        const char *spacing;
        double most;
    } rows[] = {{3, "10 ft", 51000}, {5, "5 ft", 60500}, {6, "4 ft", 66000}};
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < 3; i++) {
        ls_text *axles = ls_text_new(a);
        for (int k = 1; k < rows[i].axles; k++) ls_text_addf(axles, ", {spacing: %s}", rows[i].spacing);
        plan_world t =
            plan_world_small((plan_small){"25 ton",
                                          ls_arena_printf(a,
                                                          "count: 1, payload: 5 ton, gross: 70000 lb, axles: [{weight: "
                                                          "1000 lb}%s]",
                                                          axles->s),
                                          "", "", ""});
        TEST_NEAR(shown(&t, ls_arena_printf(a, "federal-weight.axles-1-%d.most", rows[i].axles)), rows[i].most, 1e-12);
        plan_world_end(&t);
    }
    ls_arena_free(a);
}

/* Alabama Extension ANR AL-ENG-25G: 10,000 ft3 in a shed 39 ft wide, 7 ft high: cross-section 115.5
 * ft2, a pile of 91.83 ft, and 12 ft clear at the end. */
static void test_shed(void) {
    plan_world t =
        plan_world_small((plan_small){"25 ton", "count: 1, payload: 5 ton", "", "",
                                      "stack: {roofed: yes, length: 103.83 ft, width: 39 ft, height: 7 ft, kept_until: "
                                      "2026-09-30}\n"});
    TEST_NEAR(shown(&t, "plan.stack.section"), 115.5, 1e-12);
    TEST_NEAR(shown(&t, "plan.stack.room") * 2000 / 40, 10000, 1e-4);
    plan_world_end(&t);
}

/* Komatsu handbook: heaped bucket x fill x 60 / cycle minutes x job efficiency. North of the demo:
 * 30 s and 432 ft at 5 mph (440 ft/min), 58.9 s: 2.2 yd3 x 0.95 x 60 / 1.48182 x 0.83 = 70.2. */
static void test_production(void) {
    plan_world t = plan_world_of(demo, 2);
    double cycle = 0.5 + 432.0 / 440;
    TEST_NEAR(shown(&t, "days-loading.north.volume"), 2.2 * 0.95 * 60 / cycle * 0.83, 1e-12);
    TEST_NEAR(shown(&t, "days-loading.north.production"), 2.2 * 27 * 0.95 * 32 / 2000 * 60 / cycle * 0.83, 1e-12);
    plan_world_end(&t);
}

/* ---- the demo farm by hand ---- */

/* Slats: 105 sections a side, 90 an hour: 70 min off and 70 min back for each of four sides, 9 h 20
 * in all. A bucket of 2.2 yd3 at 95 % holds 1,806 lb in North (32 lb/ft3), 10 of them a load
 * of 8.64 ton; filling and dumping 30 s and 432 ft at 5 mph (7.333 ft/s) 58.91 s: 14.8 min a load.
 * In South 400 ft take 54.55 s: 10 buckets, 14.1 min. 14 loads and 10 loads: 5.7 h of loading.
 *
 * Slats and loading do not overlap: 15 h, more than one day of 9 h. Two days hold 18 h, and the
 * loader waits less than 3 h for the two trucks: a round to Larkspur is 14.8 + 13 + 12 + 13 = 53
 * min, of which two loads fill 30, and eight of its nine loads come two by two; a round to
 * Osgood is 14.1 + 22 + 31 + 22 = 89 min, of which two loads fill 28. So the crew ends on the
 * second day, Tuesday 17 February 2026; the flock comes on 23 March, 34 days later. */
static void test_demo(void) {
    plan_world t = plan_world_of(demo, 2);
    const ls_plan *p = t.plan;
    TEST_SAME(p->start, ls_date_of(2026, 2, 16));
    TEST_SAME(p->finish, ls_date_of(2026, 2, 17));
    TEST_SAME(p->slack_days, 34);
    TEST_SAME(p->spare_days, 33);
    TEST_NEAR(ls_line_shown(t.sheet, p->slats), 8 * 70.0 / 60, 1e-9);
    TEST_NEAR(shown(&t, "days-loading.north.bucket") * 2000, 2.2 * 27 * 0.95 * 32, 1e-12);
    TEST_SAME(p->loads[0].start.second, (7 * 60 + 70) * 60); /* 07:00 and the slats off */
    plan_world_end(&t);
}

/* Seconds that a load of the demo takes, worked out beside the program: whole buckets; 6.5 mi or 11
 * mi at 30 mph; 32 ft x 6 mph / 8.25 x 0.615 = 14.313 ac/h; 5 min at the stack. */
static void seconds_of(const plan_world *t, const ls_load *l, long *load, long *way, long *empty) {
    bool north = l->lot->code[0] == 'N';
    double bucket = shown(t, north ? "days-loading.north.bucket" : "days-loading.south.bucket");
    double cycle = 30 + (north ? 432 : 400) / (5 * 88 / 60.0);
    *load = lround(ceil(plan_tons(t, l->tons) / bucket - 1e-9) * cycle);
    *way = 0, *empty = 300;
    if (l->buyer == NULL) return;
    *way = lround((strcmp(l->buyer->name.text, "Larkspur Hay") == 0 ? 6.5 : 11) * 120);
    *empty = 0;
    for (size_t k = 0; k < l->n; k++)
        *empty += lround(ls_line_shown(t->sheet, l->drops[k].acres) * 3600 / (32 * 6 / 8.25 * 0.615));
}

/* Each load of the demo by the clock: seconds of work since Monday 07:00, in days of 9 h. */
static void test_demo_by_the_clock(void) {
    enum { DAY = 9 * 3600, SLATS = 70 * 60 };
    plan_world t = plan_world_of(demo, 2);
    long loader = 0, home[2] = {0, 0}, load, way, empty;
    for (size_t k = 0; k < t.plan->loads_n; k++) {
        const ls_load *l = &t.plan->loads[k];
        if (k == 0 || l->lot != l[-1].lot)
            loader += k == 0 ? SLATS : 2 * SLATS; /* back on the last side, off on this one */
        seconds_of(&t, l, &load, &way, &empty);
        int truck = home[1] < home[0];
        long start = loader > home[truck] ? loader : home[truck];
        if (start % DAY + load + 2 * way + empty > DAY) start = (start / DAY + 1) * DAY;
        TEST_SAME(l->day, ls_date_of(2026, 2, 16) + start / DAY);
        TEST_SAME(l->start.second, 7 * 3600 + start % DAY);
        TEST_SAME(l->back.second - l->start.second, load + 2 * way + empty);
        loader = start + load;
        home[truck] = loader + 2 * way + empty;
    }
    long end = loader + SLATS;
    TEST_SAME(t.plan->finish, ls_date_of(2026, 2, 16) + (end - 1) / DAY);
    plan_world_end(&t);
}

/* ---- what the file says of the days ---- */

static void test_starts(void) {
    plan_small s = {"25 ton", "count: 1, payload: 5 ton", ", hours: 8 h/day, starts: 06:30", "", ""};
    plan_world t = plan_world_small(s);
    TEST_SAME(t.plan->loads[0].start.second, 6 * 3600 + 30 * 60);
    TEST_SAME(t.plan->day_begins + t.plan->day_seconds, 14 * 3600 + 30 * 60);
    plan_world_end(&t);
    s.crew = ", hours: 20 h/day"; /* the usual 07:00 would end after midnight */
    t = plan_world_small(s);
    TEST_SAME(t.plan->day_begins, 4 * 3600);
    plan_world_end(&t);
}

static void test_make_ready(void) {
    plan_small s = {"25 ton", "count: 1, payload: 5 ton", "", "",
                    "farm: {name: X, next_flock: 2026-02-24, make_ready: {wash: 3 days, repairs: 2 days, "
                    "bedding: 1 day}}\n"};
    plan_world t = plan_world_small(s); /* done on the 16th: 17th to 23rd, seven whole days */
    TEST_SAME(t.plan->finish, ls_date_of(2026, 2, 16));
    TEST_SAME(t.plan->spare_days, 1);
    plan_world_end(&t);
    s.more = "farm: {name: X, next_flock: 2026-02-24, make_ready: {wash: 7.5 days}}\n";
    t = plan_world_small(s);
    TEST_SAME(t.plan->spare_days, -1);
    plan_world_end(&t);
    s.more = "farm: {name: X, make_ready: {wash: 7.5 days}}\n";
    t = plan_world_small(s);
    TEST_SAME(t.plan->spare_days, LONG_MIN);
    TEST_NEAR(ls_line_shown(t.sheet, t.plan->ready), 7.5, 1e-12);
    plan_world_end(&t);
}

/* A trip that takes longer than the day: 60 mi at 10 mph is 6 h one way, the day has 8 h. It begins
 * with a day, is spread on it, and its truck is back on the next. */
static void test_longer_than_a_day(void) {
    plan_small s = {"10 ton", "count: 1, payload: 5 ton, road: 10 mph", ", hours: 8 h/day", ", distance: 60 mi", ""};
    plan_world t = plan_world_small(s);
    TEST_SAME(t.plan->loads_n, 2);
    TEST_SAME(t.plan->loads[0].day, ls_date_of(2026, 2, 16));
    TEST_SAME(t.plan->loads[0].back.day, ls_date_of(2026, 2, 17));
    TEST_SAME(t.plan->loads[1].day, ls_date_of(2026, 2, 18));
    TEST_SAME(t.plan->finish, ls_date_of(2026, 2, 19));
    TEST_SAME(t.plan->working_days, 4);
    TEST_TEXT(t.plan->days[1].work, "One: 1 load from the day before");
    TEST_SAME(t.plan->days[1].loads, 0);
    plan_world_end(&t);
}

/* Ten such loads are begun on every other day from 16 February on, the last on 6 March. Each is
 * there after 6 h 20 and empty about 23 min later: on the day it was begun if that has 8 h, on the
 * next if it has 6.5 h. On the day it is empty the field must still be open. */
static void test_spread_on_a_later_day(void) {
    static const struct {
        const char *hours, *open;
        double placed;
    } rows[] = {{"8", "2026-03-06", 110}, {"8", "2026-03-05", 0}, {"6.5", "2026-03-07", 110}, {"6.5", "2026-03-06", 0}};
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        plan_world t = plan_world_text(
            ls_arena_printf(a,
                            "%strucks: [{name: T, count: 1, payload: 11 ton, road: 10 mph}]\n"
                            "crew: {arrives: 2026-02-16, hours: %s h/day}\n"
                            "buyers:\n  - {name: A, distance: 60 mi, fields: [{name: F, area: 200 ac, open: "
                            "2026-02-16..%s, " PLAN_FIELD "}]}\n",
                            PLAN_HOUSE, rows[i].hours, rows[i].open));
        CU_ASSERT_PTR_NOT_NULL_FATAL(t.plan);
        TEST_NEAR(plan_tons(&t, t.plan->straight[1]), rows[i].placed, 1e-9);
        plan_world_end(&t);
    }
    ls_arena_free(a);
}

/* 20 min to load and 5 to empty at the stack: six loads fill a day of 150 min to the last minute.
 */
static void test_full_day(void) {
    plan_world t =
        plan_world_text(PLAN_HOUSE "trucks: [{name: T, count: 1, payload: 10 ton}]\n"
                                   "crew: {arrives: 2026-02-16, hours: 2.5 h/day}\n"
                                   "stack: {roofed: yes, length: 80 ft, width: 40 ft, height: 6 ft, kept_until: "
                                   "2026-09-30}\n"
                                   "buyers:\n  - {name: A, distance: 5 mi, fields: [{name: F, area: 200 ac, open: "
                                   "2026-04-01..2026-05-01, " PLAN_FIELD "}]}\n");
    CU_ASSERT_PTR_NOT_NULL_FATAL(t.plan);
    TEST_SAME(t.plan->loads_n, 11);
    TEST_SAME(t.plan->days[0].loads, 6);
    TEST_SAME(t.plan->loads[5].back.day, t.plan->loads[5].day);
    TEST_SAME(t.plan->loads[5].back.second, t.plan->day_begins + 150 * 60);
    TEST_SAME(t.plan->loads[6].start.day, t.plan->loads[5].day + 1);
    plan_world_end(&t);
}

/* ---- weights ---- */

static bool notes_hold(const ls_plan *p, const char *part) {
    for (size_t i = 0; i < p->notes.n; i++)
        if (strstr(p->notes.at[i], part) != NULL) return true;
    return false;
}

/* Payload: the lesser of what is given, gross less tare, and the volume. */
static void test_payload(void) {
    static const struct {
        const char *truck;
        double tons;
    } rows[] = {
        {"count: 1, payload: 11 ton", 11},
        {"count: 1, tare: 26500 lb, gross: 48500 lb", 11},
        {"count: 1, payload: 10 ton, tare: 26500 lb, gross: 48500 lb", 10},
        {"count: 1, payload: 12 ton, tare: 26500 lb, gross: 48500 lb", 11},
        {"count: 1, tare: 26500 lb, gross: 48500 lb, body: 15 yd3", 15 * 27 * 40 / 2000.0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        plan_world t = plan_world_small((plan_small){"100 ton", rows[i].truck, "", "", ""});
        TEST_NEAR(shown(&t, "one.payload"), rows[i].tons, 1e-12);
        CU_ASSERT_EQUAL(t.estimate->lots[0].kinds[0].volume_binds, i == 4);
        plan_world_end(&t);
    }
}

/* Federal limits (23 CFR 658.17): 20,000 lb on an axle, 34,000 on a pair, 80,000 in all. */
static void test_weights(void) {
    plan_small s = {"25 ton",
                    "count: 1, payload: 10 ton, gross: 48000 lb, axles: [{weight: 14000 lb}, {spacing: "
                    "15 ft, weight: 17000 lb}, {spacing: 4.5 ft, weight: 17000 lb}]",
                    "", "", ""};
    plan_world t = plan_world_small(s);
    CU_ASSERT(!notes_hold(t.plan, "WEIGHT"));
    plan_world_end(&t);
    s.truck = "count: 1, payload: 10 ton, gross: 81000 lb, axles: [{weight: 20500 lb}, {spacing: "
              "15 ft, weight: 17000 lb}, {spacing: 4.5 ft, weight: 17500 lb}]";
    t = plan_world_small(s);
    CU_ASSERT(notes_hold(t.plan, "the loaded weight of the T is 81,000 lb, above 80,000 lb"));
    CU_ASSERT(notes_hold(t.plan, "the weight on axle 1 of the T is 20,500 lb, above 20,000 lb"));
    CU_ASSERT(notes_hold(t.plan, "axles 2 to 3 of the T is 34,500 lb, above 34,000 lb"));
    /* 500 (19.5 x 3 / 2 + 36 + 36) = 50,625: 50,500 */
    CU_ASSERT(notes_hold(t.plan, "axles 1 to 3 of the T is 55,000 lb, above 50,500 lb"));
    plan_world_end(&t);
}

TEST_SUITE(days) = {{"field capacity", test_field_capacity},
                    {"the run of a load", test_load_run},
                    {"cost of a long haul", test_haul_cost},
                    {"the bridge formula", test_bridge},
                    {"a shed", test_shed},
                    {"what a loader moves", test_production},
                    {"the demo farm by hand", test_demo},
                    {"the demo farm by the clock", test_demo_by_the_clock},
                    {"when the day begins", test_starts},
                    {"days the houses need", test_make_ready},
                    {"a trip longer than a day", test_longer_than_a_day},
                    {"spread on a later day", test_spread_on_a_later_day},
                    {"a day filled to the last minute", test_full_day},
                    {"payload by weight", test_payload},
                    {"federal weights", test_weights},
                    CU_TEST_INFO_NULL};
