/* Days with hours in which something is out, half hold days, a plan from an hour on, slats moved
 * while another house is loaded, and the order that is done soonest. */
#include "plan_world.h"
#include "program.h"

#include <string.h>

enum { HOUR = 3600, DAWN = 7 * HOUR };

/* Six loads of 11 ton from a house without slats. */
static plan_world loads(ls_arena *a, const char *trucks, const char *crew, long from_hour) {
    const char *yaml =
        ls_arena_printf(a,
                        "houses: [{name: One, length: 440 ft, width: 40 ft, measured: {weighed: 66 ton, "
                        "loose_density: 40 lb/ft3}, lab: [{date: 2026-01-10, basis: as received, moisture: 30 %%, "
                        "N: 20 lb/ton, NH4N: 5 lb/ton, P2O5: 20 lb/ton, K2O: 20 lb/ton}]}]\n"
                        "trucks: [{name: T, count: %s, payload: 11 ton}]\n"
                        "crew: {arrives: 2026-02-16, starts: 07:00, hours: 9 h/day%s}\n"
                        "buyers: [{name: A, distance: 25 mi, price: 20 $/ton, fields: [{name: F, area: 200 "
                        "ac, " PLAN_FIELD "}]}]\n",
                        trucks, crew);
    plan_world t = plan_world_on(yaml, &(ls_plan_terms){.from = from_hour == 0 ? LS_NO_DATE : ls_date_of(2026, 2, 16),
                                                        .from_second = from_hour * HOUR});
    CU_ASSERT_PTR_NOT_NULL_FATAL(t.plan);
    TEST_SAME(t.plan->loads_n, 6);
    return t;
}

/* Loading and the whole round of a load, in seconds. */
static void measure(ls_arena *a, long *load, long *round) {
    plan_world t = loads(a, "1", "", 0);
    const ls_load *l = &t.plan->loads[0];
    *load = l->leave.second - l->start.second;
    *round = l->back.second - l->start.second;
    CU_ASSERT(4 * *round > 9 * HOUR && *round < 3 * HOUR); /* the numbers below rest on it */
    TEST_SAME(t.plan->outs.n, 0);
    plan_world_end(&t);
}

static void check_start(const plan_world *t, size_t k, int day, long second) {
    TEST_SAME(t->plan->loads[k].start.day, ls_date_of(2026, 2, day));
    TEST_SAME(t->plan->loads[k].start.second, second);
}

static double hours_of(const plan_world *t, const char *key) {
    return ls_line_shown(t->sheet, ls_line_find(t->sheet, key));
}

/* One truck, rounds of two to three hours in a day of nine: three a day. The loader is out from 8
 * to 12: the first load from 7, the second from 12, back before 3 pm, the third the next day. The
 * loader waits for the truck from the end of loading to 8, and loads nothing from 8 to 12. */
static void test_loader_out(void) {
    ls_arena *a = ls_arena_new();
    long load, round;
    measure(a, &load, &round);
    plan_world t = loads(a, "1", ", out: [{what: loader, from: 2026-02-16T08:00, until: 2026-02-16T12:00}]", 0);
    check_start(&t, 0, 16, DAWN);
    check_start(&t, 1, 16, 12 * HOUR);
    check_start(&t, 2, 17, DAWN);
    check_start(&t, 3, 17, DAWN + round);
    TEST_SAME(t.plan->outs.n, 1);
    TEST_TEXT(t.plan->outs.at[0], "Mon, Feb 16: loader out 8:00 am to 12:00 pm");
    TEST_NEAR(hours_of(&t, "plan.day.2026-02-16.out"), 4, 1e-9);
    TEST_NEAR(hours_of(&t, "plan.day.2026-02-16.idle") * HOUR, (double)(HOUR - load), 1e-6);
    TEST_NEAR(hours_of(&t, "plan.day.2026-02-16.stopped") * HOUR, (double)(12 * HOUR - DAWN - round), 1e-6);
    plan_world_end(&t);
    ls_arena_free(a);
}

/* The second of two trucks is out until the next day at 10. The first day all loads are the
 * first's; on the next the second one's first load is not before 10. */
static void test_truck_out(void) {
    ls_arena *a = ls_arena_new();
    long load, round;
    measure(a, &load, &round);
    plan_world t = loads(a, "2", ", out: [{what: T 2, from: 2026-02-14T08:00, until: 2026-02-17T10:00}]", 0);
    for (size_t k = 0; k < 3; k++) {
        check_start(&t, k, 16, DAWN + (long)k * round);
        TEST_SAME(t.plan->loads[k].truck, 1);
    }
    check_start(&t, 3, 17, DAWN);
    check_start(&t, 4, 17, DAWN + round);
    TEST_SAME(t.plan->loads[4].truck, 1);
    check_start(&t, 5, 17, DAWN + round + load > 10 * HOUR ? DAWN + round + load : 10 * HOUR);
    TEST_SAME(t.plan->loads[5].truck, 2);
    TEST_SAME(t.plan->outs.n, 2);
    TEST_TEXT(t.plan->outs.at[0], "Mon, Feb 16: T 2 out all day");
    TEST_TEXT(t.plan->outs.at[1], "Tue, Feb 17: T 2 out until 10:00 am");
    plan_world_end(&t);
    ls_arena_free(a);
}

/* Held until noon, a second load only if it is back by 4 pm; the next day until 10 am one. */
static void test_half_days(void) {
    ls_arena *a = ls_arena_new();
    long load, round;
    measure(a, &load, &round);
    plan_world t = loads(a, "1", ", hold_days: [2026-02-16 until 12:00, 2026-02-17 from 10:00]", 0);
    bool two = 12 * HOUR + 2 * round <= 16 * HOUR;
    check_start(&t, 0, 16, 12 * HOUR);
    check_start(&t, 1, two ? 16 : 17, two ? 12 * HOUR + round : DAWN);
    check_start(&t, 2, two ? 17 : 18, DAWN);
    TEST_TEXT(t.plan->outs.at[0], "Mon, Feb 16: no work until 12:00 pm");
    TEST_TEXT(t.plan->outs.at[1], "Tue, Feb 17: no work from 10:00 am");
    /* the days are counted from their beginnings, without what is held */
    double job = ls_line_shown(t.sheet, ls_line_find(t.sheet, "plan.fleet.1.hours"));
    TEST_NEAR(job * HOUR, 6.0 * (double)round, 1e-6);
    plan_world_end(&t);
    ls_arena_free(a);
}

/* From 1 pm on: as if that day were held until then, and whatever is out before is not told. */
static void test_from_an_hour(void) {
    ls_arena *a = ls_arena_new();
    plan_world t = loads(a, "1", "", 13), u = loads(a, "1", ", hold_days: [2026-02-16 until 13:00]", 0);
    check_start(&t, 0, 16, 13 * HOUR);
    for (size_t k = 0; k < 6; k++) {
        TEST_SAME(t.plan->loads[k].start.day, u.plan->loads[k].start.day);
        TEST_SAME(t.plan->loads[k].start.second, u.plan->loads[k].start.second);
    }
    TEST_TEXT(t.plan->outs.at[0], "Mon, Feb 16: no work until 1:00 pm");
    plan_world_end(&t);
    plan_world_end(&u);
    ls_arena_free(a);
}

/* 25 miles at 50 mph: a load spread at 12:50 keeps its truck until 1:20 pm, the one the log names
 * or the first. No plan begins before that load, or before the crew comes. */
static void test_on_the_road(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    const char *farm =
        test_file(a, folder, "farm.yaml",
                  PLAN_HOUSE "trucks: [{name: T, count: 2, payload: 11 ton, road: 50 mph}]\n"
                             "crew: {arrives: 2026-02-16, starts: 07:00, hours: 12 h/day}\n"
                             "buyers: [{name: A, distance: 25 mi, price: 20 $/ton, fields: [{name: F, area: "
                             "200 ac, " PLAN_FIELD "}]}]\n");
    test_run early = PROGRAM(a, "plan", FEW, farm, "--from", "2026-02-10");
    TEST_HOLDS(early.err, "--from is before the crew arrives");
    TEST_HOLDS(early.err, "the plan begins on Mon, Feb 16");
    static const char *const named[] = {"T 2", "T"};
    for (int i = 0; i < 2; i++) {
        if (i == 1)
            PROGRAM(a, "record", farm, "--replaces", "1", "--truck", "T", "--tons", "11");
        else
            PROGRAM(a, "record", farm, "--ticket", "ONE-01-Z", "--tons", "11", "--when", "2026-02-16T12:50", "--field",
                    "A/F", "--truck", named[i]);
        test_run run = PROGRAM(a, "plan", FEW, farm, "--from", "2026-02-16T13:00", "--full");
        TEST_HOLDS(run.out, i == 0 ? "T 2 on the road 1:00 pm to 1:20 pm" : "T 1 on the road 1:00 pm to 1:20 pm");
    }
    test_run late = PROGRAM(a, "plan", FEW, farm, "--from", "2026-02-16");
    TEST_HOLDS(late.err, "--from is before the last load in the haul log");
    TEST_HOLDS(late.err, "the plan begins on Mon, Feb 16, 12:50 pm");
    test_folder_end(folder);
    ls_arena_free(a);
}

/* ---- slats and orders ---- */

/* Two houses of two sides, a side's slats moved in an hour, each side 22 ton: two loads. */
static plan_world slats_on(ls_arena *a, const char *first, const char *second, const char *crew, const char *days) {
    const char *yaml =
        ls_arena_printf(a,
                        "houses:\n%s%s"
                        "trucks: [{name: T, count: 2, payload: 11 ton}]\n"
                        "crew: {arrives: 2026-02-16, starts: 07:00, hours: 12 h/day%s, slats: {sections: 120, "
                        "pace: 60 per hour%s}}\n"
                        "buyers: [{name: A, distance: 2 mi, price: 20 $/ton, fields: [{name: F, area: 200 "
                        "ac, " PLAN_FIELD "}]}]\n",
                        first, second, days, crew);
    plan_world t = plan_world_text(yaml);
    CU_ASSERT_PTR_NOT_NULL_FATAL(t.plan);
    TEST_SAME(t.plan->loads_n, 8);
    TEST_SAME(t.plan->moves_n, 8);
    return t;
}

static plan_world slats(ls_arena *a, const char *first, const char *second, const char *crew) {
    return slats_on(a, first, second, crew, "");
}

#define HOUSE(name, more)                                                                                              \
    "  - {name: " name ", length: 440 ft, width: 40 ft, floor: {slats: 60 %, scratch: 40 %}, sides: [left, right], "   \
    "measured: {weighed: 44 ton, loose_density: 40 lb/ft3}, lab: [{date: 2026-01-10, basis: as "                       \
    "received, moisture: 30 %, N: 20 lb/ton, NH4N: 5 lb/ton, P2O5: 20 lb/ton, K2O: 20 "                                \
    "lb/ton}]" more "}\n"

static long begins(const plan_world *t, size_t move) { return t->plan->moves[move].from.second; }

/* Loading a side takes less than an hour. As a rule: off at 7, two loads, back, off, ... While
 * loading: North/left off 7-8; it is loaded from 8, back as soon as it is, right off, loaded, but
 * South/left is moved off before North/right's go back. */
static void test_while_loading(void) {
    ls_arena *a = ls_arena_new();
    plan_world t = slats(a, HOUSE("North", ""), HOUSE("South", ""), ""),
               u = slats(a, HOUSE("North", ""), HOUSE("South", ""), ", while_loading: yes");
    const ls_load *l = u.plan->loads;
    long side = l[1].leave.second - l[0].start.second; /* to load one */
    CU_ASSERT(side > 0 && side < HOUR);
    long now = DAWN;
    for (size_t b = 0; b < 4; b++) {
        TEST_SAME(begins(&t, 2 * b), now);
        TEST_SAME(begins(&t, 2 * b + 1), now + HOUR + side);
        now += 2 * HOUR + side;
    }
    static const char *const lots[] = {"North/left",  "North/left", "North/right", "South/left",
                                       "North/right", "South/left", "South/right", "South/right"};
    static const bool back[] = {false, true, false, false, true, true, false, true};
    /* South/left is off when North/right is loaded, or an hour after North/right's are off */
    long at[8] = {DAWN, DAWN + HOUR + side};
    for (size_t k = 2; k < 7; k++) at[k] = at[k - 1] + HOUR;
    at[7] = at[6] + HOUR + side;
    for (size_t k = 0; k < 8; k++) {
        TEST_TEXT(u.plan->moves[k].lot->name, lots[k]);
        TEST_SAME(u.plan->moves[k].back, back[k]);
        TEST_SAME(begins(&u, k), at[k]);
    }
    TEST_SAME(t.plan->ends.second - u.plan->ends.second, 2 * side);
    plan_world_end(&t);
    plan_world_end(&u);
    ls_arena_free(a);
}

/* Work ends half a minute before North/left's slats are off: the next day does not name that. */
static void test_seconds_are_left(void) {
    ls_arena *a = ls_arena_new();
    plan_world t =
        slats_on(a, HOUSE("North", ", sections: 121"), HOUSE("South", ""), "", ", hold_days: [2026-02-16 from 08:00]");
    CU_ASSERT_FATAL(t.plan->days_n > 1);
    TEST_SAME(t.plan->moves[0].to.day, ls_date_of(2026, 2, 17));
    TEST_SAME(t.plan->moves[0].to.second, DAWN + 30);
    TEST_TEXT(t.plan->days[0].work, "North/left: slats off");
    TEST_HOLDS(t.plan->days[1].work, "North/left: 2 loads, slats back; North/right: slats off, ");
    plan_world_end(&t);
    ls_arena_free(a);
}

/* By turns, left, left, right, right, the hands never wait: what is loaded is so while they move
 * the other house's. Eight moves of an hour. */
static void test_soonest(void) {
    ls_arena *a = ls_arena_new();
    plan_world t = slats(a, HOUSE("North", ""), HOUSE("South", ""), ", while_loading: yes");
    TEST_SAME(t.plan->sooner.n, 4);
    TEST_SAME(t.plan->sooner_ends.second, DAWN + 8 * HOUR);
    if (t.plan->sooner.n == 4) {
        CU_ASSERT(t.plan->sooner.at[0]->house != t.plan->sooner.at[1]->house);
        CU_ASSERT(t.plan->sooner.at[2]->house != t.plan->sooner.at[3]->house);
    }
    ls_text *order = ls_text_new(a); /* the file may have it so */
    for (size_t k = 0; k < t.plan->sooner.n; k++)
        ls_text_addf(order, "%s%s", k > 0 ? ", " : ", order: [", t.plan->sooner.at[k]->name);
    ls_text_add(order, "]");
    plan_world u = slats_on(a, HOUSE("North", ""), HOUSE("South", ""), ", while_loading: yes", order->s);
    TEST_SAME(u.plan->ends.second, t.plan->sooner_ends.second);
    TEST_SAME(u.plan->sooner.n, 0);
    for (size_t k = 0; k < 8 && t.plan->sooner.n == 4; k++)
        TEST_TEXT(u.plan->loads[k].lot->name, t.plan->sooner.at[k / 2]->name);
    plan_world_end(&t);
    plan_world_end(&u);
    ls_arena_free(a);
}

/* Birds leave the first house on the fifth day: the other one first, and nothing is said of files
 * that name it so. */
#define BIRDS ", flocks: [{birds: broiler, count: 20000, placed: 2025-12-20, removed: 2026-02-20}]"
static void test_birds_in_the_first(void) {
    ls_arena *a = ls_arena_new();
    const char *late = HOUSE("North", BIRDS), *empty = HOUSE("South", "");
    plan_world t = slats(a, late, empty, ""), u = slats(a, empty, late, "");
    TEST_SAME(t.plan->sooner.n, 4);
    if (t.plan->sooner.n == 4) {
        TEST_TEXT(t.plan->sooner.at[0]->house->name.text, "South");
        TEST_TEXT(t.plan->sooner.at[1]->house->name.text, "South");
    }
    TEST_SAME(t.plan->sooner_ends.day, u.plan->ends.day);
    TEST_SAME(t.plan->sooner_ends.second, u.plan->ends.second);
    TEST_SAME(u.plan->sooner.n, 0);
    plan_world_end(&t);
    plan_world_end(&u);
    ls_arena_free(a);
}

TEST_SUITE(days_hours) = {{"the loader is out", test_loader_out},
                          {"a truck is out", test_truck_out},
                          {"half hold days", test_half_days},
                          {"from an hour on", test_from_an_hour},
                          {"trucks on the road", test_on_the_road},
                          {"slats while another house is loaded", test_while_loading},
                          {"seconds are left", test_seconds_are_left},
                          {"the soonest order", test_soonest},
                          {"birds in the first house", test_birds_in_the_first},
                          CU_TEST_INFO_NULL};
