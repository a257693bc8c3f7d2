/* Trucks of several kinds in one plan: shares by pencil, farms drawn at random with two or three of
 * them, kinds of equal figures beside one kind of as many. */
#include "bound_world.h"
#include "chance.h"
#include "plan_world.h"
#include "program.h"
#include "random_farm.h"

#include <math.h>
#include <string.h>

/* ---- farms ---- */

/* The farm with more kinds of truck behind its first. */
static const char *with_trucks(ls_arena *a, const char *farm, const char *trucks) {
    const char *crew = strstr(farm, "crew:\n");
    return ls_arena_printf(a, "%.*s%s%s", (int)(crew - farm), farm, trucks, crew);
}

static const char *random_fleet(ls_arena *a, uint64_t seed) {
    uint64_t state = seed + 77;
    ls_text *y = ls_text_new(a);
    for (uint64_t k = 0; k < 1 + seed % 2; k++) {
        ls_text_addf(y,
                     "  - {name: kind %c, count: %u, payload: %.1f ton, swath: %.0f ft, spreading: "
                     "%.0f mph, road: %.0f mph",
                     (char)('b' + k), 1 + (unsigned)test_between(&state, 0, 2.9), test_between(&state, 4, 14),
                     test_between(&state, 20, 40), test_between(&state, 4, 8), test_between(&state, 20, 45));
        if (test_between(&state, 0, 1) < .5) ls_text_addf(y, ", body: %.0f yd3", test_between(&state, 8, 24));
        if (test_between(&state, 0, 1) < .5)
            ls_text_add(y, ", rate: {least: 0.5 ton/ac, most: 3 ton/ac, step: 0.5 ton/ac}");
        double where = test_between(&state, 0, 1);
        ls_text_add(y, where < .25 ? ", fields: [Field 1]}\n" : where < .45 ? ", only: road}\n" : "}\n");
    }
    return y->s;
}

static plan_rules rules_of(ls_arena *a, const ls_reference *r, const char *folder, const char *farm, const char *trucks,
                           uint64_t seed) {
    const char *path = test_file(a, folder, "farm.yaml", with_trucks(a, farm, trucks));
    plan_rules t = plan_rules_read(a, r, path, NULL, ls_arena_printf(a, "%llu", (unsigned long long)seed));
    if (t.farm != NULL) plan_rules_plan(&t, r);
    PLAN_HOLDS(&t, t.plan != NULL);
    if (t.plan == NULL) printf("%s%s", test_messages(a, t.diag), with_trucks(a, farm, trucks));
    return t;
}

/* ---- at random ---- */

/* The first kind alone places no more. */
static void no_less(const ls_reference *r, const char *folder, const char *farm, const plan_rules *t) {
    plan_rules alone = rules_of(t->arena, r, folder, farm, "", 0);
    PLAN_HOLDS(t, alone.plan != NULL &&
                      t->plan->goals[LS_GOAL_TONS].value > alone.plan->goals[LS_GOAL_TONS].value - 0.005);
}

/* Tickets that were handed out stay with their kind, and a plan as good changes nothing. */
static void handed_out(const ls_reference *r, const char *folder, const plan_rules *was, int days) {
    ls_arena *a = was->arena;
    uint64_t state = 1;
    plan_rules now = plan_rules_read(a, r, ls_arena_printf(a, "%s/farm.yaml", folder), NULL, was->seed);
    bound_hand_out(was, &now, days, 1, &state);
    plan_rules_plan(&now, r);
    PLAN_HOLDS(&now, now.plan != NULL);
    if (now.plan == NULL) return;
    plan_rules_hold(&now);
    PLAN_HOLDS(&now, days > 0 || now.plan->recalled.n == 0);
    for (size_t i = 0; i < now.plan->loads_n + now.plan->out_n; i++) {
        const ls_load *load = bound_load(now.plan, i);
        PLAN_HOLDS(&now, load->issued == NULL || load->issued->truck == &now.farm->trucks.at[load->kind]);
    }
}

static void at_random(void) {
    ls_arena *all = ls_arena_new();
    const char *folder = test_folder(all);
    const ls_reference *r = ls_reference_load(all);
    uint64_t first = test_count("FIRST_FLEET", 1), farms = test_count("RANDOM_FLEETS", 8);
    size_t of_others = 0;
    for (uint64_t seed = first; seed < first + farms; seed++) {
        ls_arena *a = ls_arena_new();
        plan_rules t = rules_of(a, r, folder, test_random_farm(a, seed), random_fleet(a, seed), seed);
        if (t.plan != NULL) {
            plan_rules_hold(&t);
            handed_out(r, folder, &t, 0);
            handed_out(r, folder, &t, 1);
            no_less(r, folder, test_random_farm(a, seed), &t);
            for (size_t i = 0; i < t.plan->loads_n; i++) of_others += t.plan->loads[i].kind > 0;
        }
        ls_arena_free(a);
    }
    CU_ASSERT_TRUE(of_others > farms);
    test_folder_end(folder);
    ls_arena_free(all);
}

/* ---- by pencil ---- */

static double found(const plan_world *t, const char *key) {
    ls_line line = ls_line_find(t->sheet, key);
    CU_ASSERT_TRUE(line != LS_NO_LINE);
    return line == LS_NO_LINE ? NAN : ls_line_shown(t->sheet, line);
}

/* 3 miles at 30 mph, 20 min to load, 2 ton/ac, 30 ft x 6 mph x 61.5 % an hour. */
static double minutes(double payload) {
    double acres = 30 * 6 * 5280.0 * .615 / 43560;
    return 20 + 2 * 6 + payload / 2 / acres * 60;
}

static const char *small_farm(ls_arena *a, const char *trucks, const char *more, const char *g) {
    /* F takes all of it but where G is small */
    const char *f = strstr(g, "14 ac") != NULL ? "20 ac" : "60 ac";
    return ls_arena_printf(a,
                           "%strucks:\n%screw: {arrives: 2026-02-16}\n%s"
                           "buyers:\n  - {name: A, price: 20 $/ton, distance: 3 mi, fields: [{name: F, area: %s, "
                           "%s}, {name: G, %s, %s}]}\n",
                           PLAN_HOUSE, trucks, more, f, PLAN_FIELD, g, PLAN_FIELD);
}

/* A truck of 11 ton and one of 5.5: shares by what each carries over its round, and the loads of
 * both in turns: no kind is ever a load ahead of its share. */
static void shares(void) {
    ls_arena *a = ls_arena_new();
    plan_world t = plan_world_text(
        small_farm(a,
                   "  - {name: Large, count: 1, payload: 11 ton, swath: 30 ft, spreading: 6 mph, road: 30 "
                   "mph}\n"
                   "  - {name: Small, count: 1, payload: 5.5 ton, swath: 30 ft, spreading: 6 mph, road: 30 "
                   "mph}\n",
                   "", "area: 200 ac"));
    double pace[] = {11 / minutes(11), 5.5 / minutes(5.5)}, had[2] = {0}, all = 0;
    double share[] = {pace[0] / (pace[0] + pace[1]), pace[1] / (pace[0] + pace[1])};
    TEST_NEAR(found(&t, "plan.truck-1.round"), minutes(11), 0.2);
    TEST_NEAR(found(&t, "plan.truck-2.round"), minutes(5.5), 0.2);
    TEST_NEAR(found(&t, "plan.truck-1.share"), 100 * share[0], 0.1);
    TEST_NEAR(found(&t, "plan.truck-2.share"), 100 * share[1], 0.1);
    for (size_t i = 0; t.plan != NULL && i < t.plan->loads_n; i++) {
        const ls_load *load = &t.plan->loads[i];
        double tons = plan_tons(&t, load->tons), most = load->kind == 0 ? 11 : 5.5;
        CU_ASSERT_TRUE(tons < most + 1e-6);
        had[load->kind] += tons;
        all += tons;
        CU_ASSERT_TRUE(fabs(had[0] - share[0] * all) < 11);
    }
    TEST_NEAR(all, 110, 0.005);
    plan_world_end(&t);
    ls_arena_free(a);
}

/* One kept to a field spreads on no other; one kept to the road has a share as far as the stack
 * must take litter: none where open fields take all. So one whose rates suit no field. */
static void where(void) {
    static const struct {
        const char *key, *stack;
        double share; /* NAN: some */
    } cases[] = {
        {", fields: [A/G]", "", NAN},
        {", only: road", "", 0},
        {", only: road",
         "stack: {roofed: yes, length: 120 ft, width: 60 ft, height: 6 ft, kept_until: "
         "2026-08-01}\n",
         0},
        {", rate: {least: 4 ton/ac, most: 6 ton/ac}",
         "stack: {roofed: yes, length: 120 ft, width: 60 ft, height: 6 ft, kept_until: "
         "2026-08-01}\n",
         0},
    };
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        plan_world t = plan_world_text(small_farm(a,
                                                  ls_arena_printf(a,
                                                                  "  - {name: Large, count: 1, payload: 11 ton}\n"
                                                                  "  - {name: Small, count: 1, payload: 5.5 ton%s}\n",
                                                                  cases[i].key),
                                                  cases[i].stack, "area: 200 ac"));
        long small = 0;
        for (size_t k = 0; t.plan != NULL && k < t.plan->loads_n; k++) {
            const ls_load *load = &t.plan->loads[k];
            small += load->kind == 1;
            for (size_t d = 0; d < load->n && load->kind == 1; d++) TEST_TEXT(load->drops[d].field->name.text, "G");
        }
        double share = found(&t, "plan.truck-2.share");
        CU_ASSERT_TRUE(isnan(cases[i].share) ? share > 10 && small > 0 : share < 1e-9 && small == 0);
        plan_world_end(&t);
    }
    ls_arena_free(a);
}

/* No truck leaves less on a field than it may, whichever stands first in the file: B alone spreads
 * on F, of 38 ton, in loads of 9 of which one might leave 2 there. */
static void least_drop(void) {
    static const char *const trucks[] = {"  - {name: A, count: 1, payload: 11 ton, fields: [A/G]}\n",
                                         "  - {name: B, count: 1, payload: 9 ton, smallest_drop: 4 ton}\n"};
    ls_arena *a = ls_arena_new();
    for (int i = 0; i < 2; i++) {
        const char *both = ls_arena_printf(a, "%s%s", trucks[i], trucks[1 - i]);
        plan_world t =
            plan_world_text(test_replace(a, small_farm(a, both, "", "area: 14 ac"), "area: 20 ac", "area: 19 ac"));
        size_t drops = 0;
        for (size_t k = 0; t.plan != NULL && k < t.plan->loads_n; k++) {
            const ls_load *l = &t.plan->loads[k];
            for (size_t d = 0; d < l->n && l->kind == (size_t)(1 - i); d++, drops++)
                CU_ASSERT_TRUE(plan_tons(&t, l->drops[d].tons) > 4 - 1e-6);
        }
        CU_ASSERT_TRUE(drops > 0);
        plan_world_end(&t);
    }
    ls_arena_free(a);
}

#define LARGE "  - {name: Large, count: 1, payload: 11 ton}\n"
#define SMALL "  - {name: Small, count: 2, payload: 5.5 ton}\n"

/* Where no truck may spread, that is why a field gets nothing, of one kind too; check says it of a
 * whole fleet that stays on the road. */
static void no_spreader(void) {
    static const struct {
        const char *keys[2];
        bool warns;
    } cases[] = {{{", only: road", NULL}, true},
                 {{", only: road", ", only: road"}, true},
                 {{", only: road", ", fields: [A/F]"}, false}};
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const char *trucks = "";
        for (int k = 0; k < 2 && cases[i].keys[k] != NULL; k++)
            trucks = ls_arena_printf(a, "%s  - {name: Kind %c, count: 1, payload: 11 ton%s}\n", trucks, 'A' + k,
                                     cases[i].keys[k]);
        const char *farm = test_file(a, folder, "farm.yaml", small_farm(a, trucks, "", "area: 200 ac"));
        test_run check = PROGRAM(a, "check", farm), plan = PROGRAM(a, "plan", FEW, farm, "--full");
        TEST_SAME(check.status, 0);
        bool warned = strstr(ls_arena_printf(a, "%s%s", check.out, check.err), "every truck stays on the road") != NULL;
        CU_ASSERT_TRUE(warned == cases[i].warns);
        const char *page = test_joined(a, plan.out);
        CU_ASSERT_PTR_NOT_NULL(strstr(page, "no truck may spread there"));
        CU_ASSERT_PTR_NULL(strstr(page, "no litter may go there"));
    }
    test_folder_end(folder);
    ls_arena_free(a);
}

/* A kind more never places less: kept to a field that closes before its lot is hauled, to one too
 * small for its loads, to one that the others need, or to the road. Nor does one that hauls
 * nothing, larger than the others, make a firm load likely. */
static void one_more(void) {
    static const struct {
        const char *more, *weighed, *g, *stack;
        bool hauls;
    } cases[] = {
        {", fields: [A/G]", "204 ton", "area: 200 ac, open: 2026-02-10..2026-02-16", "", false},
        {", fields: [A/G]", "104 ton", "area: 2 ac", "", false},
        {", fields: [A/G]", "104 ton", "area: 3 ac", "", true},
        {", fields: [A/G]", "104 ton", "area: 14 ac", "", true},
        {", only: road", "104 ton", "area: 14 ac, open: 2026-03-20..2026-05-01",
         "stack: {roofed: yes, length: 60 ft, width: 40 ft, height: 6 ft, kept_until: "
         "2026-08-01}\n",
         true},
    };
    static const char *const payloads[] = {"5.5", "16"};
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < 2 * sizeof cases / sizeof *cases; i++) {
        const char *of = payloads[i % 2];
        plan_world t[2];
        double tons[2];
        long firm[2] = {0}, of_more = 0;
        for (int k = 0; k < 2; k++) {
            const char *trucks = ls_arena_printf(
                a, LARGE "%s",
                k == 0 ? ""
                       : ls_arena_printf(a, "  - {name: More, count: 2, payload: %s ton%s}\n", of, cases[i / 2].more));
            const char *farm = small_farm(a, trucks, cases[i / 2].stack, cases[i / 2].g);
            t[k] = plan_world_text(test_replace(a, farm, "110 ton", cases[i / 2].weighed));
            tons[k] = t[k].plan->goals[LS_GOAL_TONS].value;
            for (size_t l = 0; l < t[k].plan->loads_n; l++) {
                firm[k] += t[k].plan->loads[l].certainty == LS_FIRM;
                of_more += t[k].plan->loads[l].kind == 1;
            }
        }
        CU_ASSERT_TRUE(tons[1] > tons[0] - 0.005);
        CU_ASSERT_TRUE(i % 2 == 1 || (of_more > 0) == cases[i / 2].hauls);
        if (of_more == 0) TEST_SAME(firm[1], firm[0]);
        for (int k = 0; k < 2; k++) plan_world_end(&t[k]);
    }
    ls_arena_free(a);
}

/* An entry under out that may mean two is an error. */
static void named_twice(void) {
    static const char *const trucks[] = {
        "  - {name: T, count: 2, payload: 11 ton}\n  - {name: T 2, count: 1, payload: 11 ton}\n",
        "  - {name: loader, count: 1, payload: 11 ton}\n"};
    static const char *const what[] = {"T 2", "loader"};
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    for (size_t i = 0; i < 2; i++) {
        const char *house = ls_arena_printf(a,
                                            "%strucks:\n%screw:\n  arrives: 2026-02-16\n  out: [{what: %s, from: "
                                            "2026-02-16T08:00, until: 2026-02-16T09:00}]\n",
                                            PLAN_HOUSE, trucks[i], what[i]);
        test_run run = PROGRAM(a, "check", test_file(a, folder, "farm.yaml", house));
        TEST_SAME(run.status, 1);
        CU_ASSERT_PTR_NOT_NULL(strstr(run.err, "is the name of two here"));
    }
    test_folder_end(folder);
    ls_arena_free(a);
}

/* A kind that is out beyond what the others need hauls nothing; one that is out for a while less;
 * where no other may haul it all, it hauls what it would. */
static void out(void) {
    static const struct {
        const char *out, *fields;
        double least, most; /* % of Large */
    } cases[] = {
        {"", "", 44, 45},
        {"2026-02-16T09:00, until: 2026-06-01T00:00", "", 0, 0},
        {"2026-02-16T00:00, until: 2026-02-16T12:00", "", 5, 40},
        {"2026-02-16T00:00, until: 2026-02-25T00:00", ", fields: [A/G]", 60, 99},
    };
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const char *crew = cases[i].out[0] == '\0' ? ""
                                                   : ls_arena_printf(a,
                                                                     "crew: {arrives: 2026-02-16, out: [{what: "
                                                                     "Large, from: %s}]}\n",
                                                                     cases[i].out);
        const char *trucks =
            ls_arena_printf(a, LARGE "  - {name: Small, count: 2, payload: 5.5 ton%s}\n", cases[i].fields);
        const char *farm = small_farm(a, trucks, "", "area: 10 ac");
        const char *old = "crew: {arrives: 2026-02-16}\n", *at = strstr(farm, old);
        if (crew[0] != '\0') farm = ls_arena_printf(a, "%.*s%s%s", (int)(at - farm), farm, crew, at + strlen(old));
        plan_world t = plan_world_text(farm);
        double share = found(&t, "plan.truck-1.share");
        CU_ASSERT_TRUE(share > cases[i].least - 1e-9 && share < cases[i].most + 1e-9);
        if (share < 1e-9) CU_ASSERT_TRUE(t.plan != NULL && t.plan->finish < t.farm->crew->arrives.day + 7);
        plan_world_end(&t);
    }
    ls_arena_free(a);
}

/* Large is out from 9:30 to 14:00: its loads wait, those of Small go on, one after the other: a
 * round of Small takes less than an hour. */
static void out_mid_job(void) {
    ls_arena *a = ls_arena_new();
    const char *farm =
        test_replace(a, small_farm(a, LARGE "  - {name: Small, count: 1, payload: 5.5 ton}\n", "", "area: 9 ac"),
                     "crew: {arrives: 2026-02-16}",
                     "crew: {arrives: 2026-02-16, starts: 07:00, hours: 11 h/day, out: [{what: Large, from: "
                     "2026-02-16T09:30, until: 2026-02-16T14:00}]}");
    plan_world t = plan_world_text(farm);
    CU_ASSERT_PTR_NOT_NULL_FATAL(t.plan);
    enum { HOUR = 3600 };
    long last = 0, small = 0;
    for (size_t k = 0; k < t.plan->loads_n; k++) {
        const ls_load *l = &t.plan->loads[k];
        bool within = l->start.second > 9 * HOUR && l->start.second < 14 * HOUR;
        if (!within) continue;
        TEST_SAME(l->kind, 1);
        CU_ASSERT_TRUE(small++ == 0 || l->start.second - last < HOUR);
        last = l->start.second;
    }
    CU_ASSERT_TRUE(small >= 5);
    plan_world_end(&t);
    ls_arena_free(a);
}

/* ---- kinds of equal figures ---- */

/* The totals are those of one kind of as many trucks. */
static void alike(void) {
    static const char *const trucks[] = {"  - {name: A, count: 2, payload: 8.3 ton, body: 16 yd3}\n",
                                         "  - {name: A, count: 1, payload: 8.3 ton, body: 16 yd3}\n"
                                         "  - {name: B, count: 1, payload: 8.3 ton, body: 16 yd3}\n"};
    ls_arena *a = ls_arena_new();
    for (int tight = 0; tight < 2; tight++) {
        plan_world t[2];
        for (int i = 0; i < 2; i++)
            t[i] = plan_world_text(small_farm(a, trucks[i],
                                              tight ? "stack: {roofed: yes, length: 60 ft, width: 40 ft, height: 6 ft, "
                                                      "kept_until: 2026-08-01}\n"
                                                    : "",
                                              tight ? "area: 14 ac, open: 2026-06-01..2026-07-30" : "area: 200 ac"));
        const ls_estimate *one = t[0].estimate, *two = t[1].estimate;
        const ls_line counts[][2] = {
            {one->firm, two->firm}, {one->likely, two->likely}, {one->possible, two->possible}};
        for (size_t k = 0; k < 3; k++)
            TEST_NEAR(ls_line_value(t[0].sheet, counts[k][0]), ls_line_value(t[1].sheet, counts[k][1]), 1e-9);
        for (int s = 0; s < LS_STAGES; s++) {
            TEST_NEAR(plan_tons(&t[0], t[0].plan->straight[s]), plan_tons(&t[1], t[1].plan->straight[s]), 0.011);
        }
        TEST_NEAR(t[0].plan->goals[LS_GOAL_TONS].value, t[1].plan->goals[LS_GOAL_TONS].value, 0.011);
        if (!tight) { /* a part load more may bring fewer tons into the stack that stay there */
            TEST_SAME(t[0].plan->loads_n, t[1].plan->loads_n);
            TEST_NEAR(t[0].plan->goals[LS_GOAL_RETURN].value, t[1].plan->goals[LS_GOAL_RETURN].value, 0.5);
        }
        for (int i = 0; i < 2; i++) plan_world_end(&t[i]);
    }
    ls_arena_free(a);
}

/* ---- what scales teach ---- */

/* Loads of one kind over a scale tell what that one holds; of the other only how dense litter is.
 */
static void learns(void) {
    ls_arena *a = ls_arena_new();
    ls_diag *diag = ls_diag_new(a);
    const ls_reference *r = ls_reference_load(a);
    const char *folder = test_folder(a);
    const char *path = test_file(a, folder, "farm.yaml",
                                 small_farm(a,
                                            "  - {name: Large, count: 1, payload: 14 ton, body: 20 yd3}\n"
                                            "  - {name: Small, count: 1, payload: 14 ton, body: 10 yd3}\n",
                                            "", "area: 200 ac"));
    const ls_farm *read = ls_farm_read(a, diag, r, &path, 1);
    CU_ASSERT_PTR_NOT_NULL_FATAL(read);
    ls_farm farm = *read;
    double mid[2][2];
    for (int weighed = 0; weighed < 2; weighed++) {
        for (int k = 0; k < 8 && weighed; k++)
            *LS_PUSH(a, &farm.hauled) = (ls_hauled){.lot = "ONE",
                                                    .ticket = "ONE-01-X",
                                                    .number = k + 1,
                                                    .day = 1000 + k / 4,
                                                    .tons = 2000 * (6.4 + 0.05 * (k % 3)),
                                                    .weighed = true,
                                                    .truck = &farm.trucks.at[1],
                                                    .cleared = NAN,
                                                    .entry = "an entry"};
        ls_estimate *e = ls_litter_estimate(ls_worksheet_new(a), &farm, r, 1, LS_BLOCK);
        CU_ASSERT_PTR_NOT_NULL_FATAL(e);
        for (size_t k = 0; k < 2; k++) mid[weighed][k] = e->lots[0].kinds[k].payload.mid / 2000;
    }
    TEST_NEAR(mid[0][1], 5.4, 0.15); /* 10 yd3 x 40 lb/ft3 */
    TEST_NEAR(mid[1][1], 6.4, 0.15);
    TEST_NEAR(mid[0][0], 10.8, 0.3);
    CU_ASSERT_TRUE(mid[1][0] > mid[0][0] && mid[1][0] < 2 * mid[1][1]);
    test_folder_end(folder);
    ls_arena_free(a);
}

/* ---- on paper ---- */

/* A ticket names its kind, spreads at its swath, and goes into the log with it; a load is held
 * against what that kind may carry. */
static void on_paper(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    const char *farm = test_file(a, folder, "farm.yaml",
                                 small_farm(a,
                                            "  - {name: Large, count: 1, payload: 11 ton, swath: 30 ft}\n"
                                            "  - {name: Small, count: 1, payload: 5.5 ton, swath: 20 ft}\n",
                                            "", "area: 200 ac"));
    test_run run = PROGRAM(a, "tickets", FEW, farm, "--issue");
    TEST_SAME(run.status, 0);
    const char *log = test_file_text(a, ls_arena_printf(a, "%s/farm.haul.csv", folder));
    CU_ASSERT_PTR_NOT_NULL_FATAL(log);
    const char *small = strstr(log, ",Small,");
    CU_ASSERT_PTR_NOT_NULL_FATAL(small);
    while (strncmp(small, "ONE-", 4) != 0) small--;
    const char *number = ls_arena_copy_n(a, small, strlen("ONE-01-X"));
    const char *ticket = strstr(run.out, ls_arena_printf(a, "TICKET  %s", number));
    CU_ASSERT_PTR_NOT_NULL_FATAL(ticket);
    while (ticket > run.out && ticket[-1] != '\f') ticket--;
    const char *page = test_joined(a, ls_arena_copy_n(a, ticket, strcspn(ticket, "\f")));
    CU_ASSERT_PTR_NOT_NULL(strstr(page, "Small no. 1 of 1"));
    CU_ASSERT_PTR_NOT_NULL(strstr(page, " at a swath of 20 ft"));
    static const char *const formats[] = {"text", "json", "csv"};
    for (size_t i = 0; i < 3; i++) {
        test_run plan = PROGRAM(a, "plan", FEW, farm, "--full", "--format", formats[i]);
        const char *load = strstr(plan.out, number);
        CU_ASSERT_PTR_NOT_NULL_FATAL(load);
        CU_ASSERT_PTR_NOT_NULL(strstr(plan.out, i == 0 ? "called" : "truck_name"));
        CU_ASSERT_TRUE(i > 0 || strstr(plan.out, "\n  Small    |") != NULL); /* of the clock */
        const char *line = ls_arena_copy_n(a, load, strcspn(load, i == 1 ? "}" : "\n"));
        CU_ASSERT_TRUE(i == 1 || strstr(line, "Small") != NULL);
    }
    test_run heavy =
        PROGRAM(a, "record", farm, "--ticket", number, "--tons", "8", "--weighed", "--when", "2026-02-16T10:00");
    CU_ASSERT_TRUE(heavy.status != 0 && strstr(heavy.err, "payload 5.5 tons") != NULL);
    static const char *const names[][3] = {{"Smal", "5", "no truck is called \"Smal\" (did you mean Small)"},
                                           {"Rig 9", "5", "no truck is called \"Rig 9\" (the trucks are Large, Small)"},
                                           {"Small 1", "8", "payload 5.5 tons"},
                                           {"Small 2", "5", "no truck is called \"Small 2\""}};
    for (size_t i = 0; i < 4; i++) {
        test_run odd = PROGRAM(a, "record", farm, "--ticket", number, "--tons", names[i][1], "--truck", names[i][0],
                               "--when", "2026-02-16T10:00");
        CU_ASSERT_TRUE(odd.status != 0 && strstr(odd.err, names[i][2]) != NULL);
    }
    test_run right =
        PROGRAM(a, "record", farm, "--ticket", number, "--tons", "5.2", "--weighed", "--when", "2026-02-16T10:00");
    TEST_SAME(right.status, 0);
    log = test_file_text(a, ls_arena_printf(a, "%s/farm.haul.csv", folder));
    const char *last = strstr(log, ",5.2,yes,");
    CU_ASSERT_TRUE(last != NULL && strstr(last, ",Small,") != NULL);
    test_folder_end(folder);
    ls_arena_free(a);
}

/* A truck that is logged on a field where it does not spread is asked about; what is little for a
 * load, by its own kind. */
static void logged(void) {
    static const struct {
        const char *truck, *tons, *asked, *told;
    } cases[] = {
        {"Road", "9", "Road does not spread on F (only: road in the farm file)", NULL},
        {"Small", "5", "Small does not spread on F (not among its fields)", NULL},
        {"Large", "6", NULL, "littershed: 6.00 tons is little for a load (a full one is about 11.00 tons)"},
        {"Large", "11", NULL, ""},
    };
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    const char *farm = test_file(a, folder, "farm.yaml",
                                 small_farm(a,
                                            LARGE "  - {name: Small, count: 1, payload: 5.5 ton, fields: [A/G]}\n"
                                                  "  - {name: Road, count: 1, payload: 9 ton, only: road}\n",
                                            "", "area: 200 ac"));
    TEST_SAME(PROGRAM(a, "tickets", FEW, farm, "--issue").status, 0);
    const char *log = test_file_text(a, ls_arena_printf(a, "%s/farm.haul.csv", folder));
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        log = strstr(log, ",Large,");
        CU_ASSERT_PTR_NOT_NULL_FATAL(log);
        const char *number = log++;
        while (strncmp(number, "ONE-", 4) != 0) number--;
        number = ls_arena_copy_n(a, number, strlen("ONE-01-X"));
        test_run run;
        int sure = 0;
        for (; sure < 2; sure++) {
            run = PROGRAM(a, "record", farm, "--ticket", number, "--tons", cases[i].tons, "--truck", cases[i].truck,
                          "--field", "A/F", "--when", "2026-02-16T10:00", sure ? "--sure" : NULL);
            if (run.status == 0) break;
            CU_ASSERT_TRUE(cases[i].asked != NULL && strstr(run.err, cases[i].asked) != NULL);
        }
        TEST_SAME(run.status, 0);
        TEST_SAME(sure, cases[i].asked != NULL);
        if (cases[i].told != NULL)
            TEST_TEXT(ls_arena_copy_n(a, test_joined(a, run.err), strlen(cases[i].told)), cases[i].told);
    }
    test_folder_end(folder);
    ls_arena_free(a);
}

/* ---- handed out, then the fleet changes ---- */

/* Tickets of a truck that is sold are recalled for that, and become none of another. */
static void sold(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    const char *farm = test_file(a, folder, "farm.yaml", small_farm(a, LARGE SMALL, "", "area: 200 ac"));
    TEST_SAME(PROGRAM(a, "tickets", FEW, farm, "--issue").status, 0);
    const char *log = test_file_text(a, ls_arena_printf(a, "%s/farm.haul.csv", folder));
    size_t small = 0, recalled = 0;
    for (const char *s = log; s != NULL && (s = strstr(s, ",Small,")) != NULL; s++) small++;
    CU_ASSERT_TRUE(small > 2);
    test_file(a, folder, "farm.yaml", small_farm(a, LARGE, "", "area: 200 ac"));
    test_run run = PROGRAM(a, "plan", FEW, farm, "--full", "--format", "json");
    for (const char *s = run.out; (s = strstr(s, "the file no longer names Small")) != NULL; s++) recalled++;
    CU_ASSERT_TRUE(recalled >= small);
    test_folder_end(folder);
    ls_arena_free(a);
}

/* A truck for the road breaks down for three weeks: the crew does not wait for it, though a field
 * that opens in between would take litter then, nor for its tickets, which are recalled for that;
 * tickets of the others stay. */
static void breaks_down(void) {
    static const char crew[] = "crew: {arrives: 2026-02-16}",
                      out[] = "crew: {arrives: 2026-02-16, out: [{what: Road, from: "
                              "2026-02-16T00:00, until: 2026-03-09T00:00}]}";
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    const char *whole = small_farm(a, LARGE "  - {name: Road, count: 1, payload: 9 ton, only: road}\n",
                                   "stack: {roofed: yes, length: 60 ft, width: 40 ft, height: 6 ft, "
                                   "kept_until: 2026-08-01}\n",
                                   "area: 14 ac, open: 2026-03-05..2026-05-01");
    for (int issued = 0; issued < 2; issued++) {
        const char *farm = test_file(a, folder, "farm.yaml", whole);
        size_t of_road = 0, recalled = 0;
        if (issued) TEST_SAME(PROGRAM(a, "tickets", FEW, farm, "--issue").status, 0);
        const char *log = test_file_text(a, ls_arena_printf(a, "%s/farm.haul.csv", folder));
        for (const char *s = log; s != NULL && (s = strstr(s, ",Road,")) != NULL; s++) of_road++;
        CU_ASSERT_TRUE((of_road > 0) == issued);
        test_file(a, folder, "farm.yaml", test_replace(a, whole, crew, out));
        test_run run = PROGRAM(a, "plan", FEW, farm, "--full", "--format", "json");
        CU_ASSERT_PTR_NOT_NULL(strstr(run.out, "\"finish\": \"2026-02-16\""));
        CU_ASSERT_PTR_NULL(strstr(run.out, "\"truck\": \"Road\""));
        for (const char *s = run.out; (s = strstr(s, "\"why\": \"Road is out until")) != NULL; s++) recalled++;
        TEST_SAME(recalled, of_road);
        run = PROGRAM(a, "record", farm, "--list", "--format", "json");
        for (const char *s = run.out; (s = strstr(s, "\"TAKE BACK, Road is out until")) != NULL; s++) recalled--;
        TEST_SAME(recalled, 0);
    }
    test_folder_end(folder);
    ls_arena_free(a);
}

/* Days on which the same is out stand in one line. */
static void out_for_days(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    const char *house = test_file(a, folder, "farm.yaml",
                                  test_replace(a, test_file_text(a, DEMO_HOUSE), "  days_off: [sunday]\n",
                                               "  days_off: [sunday]\n  out: [{what: spreader truck 2, from: "
                                               "2026-02-16T00:00, until: 2026-03-02T00:00}]\n"));
    const char *page = PROGRAM(a, "plan", FEW, house, DEMO_FIELDS).out;
    CU_ASSERT_PTR_NOT_NULL(strstr(page, "\n- Mon, Feb 16 to Wed, Feb 18: spreader truck 2 out all day\n"));
    test_folder_end(folder);
    ls_arena_free(a);
}

/* Tickets handed out while there was one kind stay with it when another one leads the file. */
static void led(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    const char *farm = test_file(a, folder, "farm.yaml", small_farm(a, LARGE, "", "area: 200 ac"));
    TEST_SAME(PROGRAM(a, "tickets", FEW, farm, "--issue").status, 0);
    test_file(a, folder, "farm.yaml", small_farm(a, SMALL LARGE, "", "area: 200 ac"));
    test_run run = PROGRAM(a, "plan", FEW, farm, "--format", "json");
    CU_ASSERT_PTR_NULL(strstr(run.out, "\"Small 1\""));
    CU_ASSERT_PTR_NOT_NULL(strstr(run.out, "\"Large\""));
    test_folder_end(folder);
    ls_arena_free(a);
}

/* A log of before tickets told their truck: they are of the kind that takes so much, whichever
 * leads the file. */
static void untold(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    const char *farm = test_file(a, folder, "farm.yaml", small_farm(a, LARGE, "", "area: 200 ac"));
    TEST_SAME(PROGRAM(a, "tickets", FEW, farm, "--issue").status, 0);
    const char *log = ls_arena_printf(a, "%s/farm.haul.csv", folder);
    test_file(a, folder, "farm.haul.csv", test_replace(a, test_file_text(a, log), ",Large,", ",,"));
    remove(ls_arena_printf(a, "%s.copy", log));
    test_file(a, folder, "farm.yaml", small_farm(a, SMALL LARGE, "", "area: 200 ac"));
    test_run run = PROGRAM(a, "plan", FEW, farm, "--format", "json");
    CU_ASSERT_PTR_NOT_NULL(strstr(run.out, "\"recalled\": []"));
    CU_ASSERT_PTR_NULL(strstr(run.out, "\"Small 1\""));
    CU_ASSERT_PTR_NOT_NULL(strstr(run.out, "\"Large\""));
    test_folder_end(folder);
    ls_arena_free(a);
}

/* Where a kind's litter finds no field another gets none of it for having handed out its own:
 * issuing again writes nothing. */
static void twice(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    const char *of_b = "  - {name: B, price: 20 $/ton, distance: 3 mi, order: {most: 3 loads}, fields: "
                       "[{name: H, area: 200 ac, " PLAN_FIELD "}]}\n";
    const char *one =
        small_farm(a, LARGE "  - {name: Small, count: 2, payload: 5.5 ton, fields: [H]}\n", "", "area: 200 ac");
    const char *farm = test_file(a, folder, "farm.yaml", ls_arena_printf(a, "%s%s", one, of_b));
    const char *log[2];
    for (int i = 0; i < 2; i++) {
        TEST_SAME(PROGRAM(a, "tickets", FEW, farm, "--issue").status, 0);
        log[i] = test_file_text(a, ls_arena_printf(a, "%s/farm.haul.csv", folder));
    }
    CU_ASSERT_PTR_NOT_NULL(strstr(log[0], ",Large,"));
    CU_ASSERT_PTR_NOT_NULL(strstr(log[0], ",Small,"));
    TEST_TEXT(log[1], log[0]);
    test_folder_end(folder);
    ls_arena_free(a);
}

TEST_SUITE(kinds) = {
    {"shares by pencil, loads in turns", shares},
    {"a kind goes where it may", where},
    {"a kind more never places less", one_more},
    {"a kind that is out leaves its loads to the others", out},
    {"no drop below the least", least_drop},
    {"others go on while a kind is out", out_mid_job},
    {"no truck may spread", no_spreader},
    {"an entry under out that may mean two", named_twice},
    {"a kind that breaks down idles no crew", breaks_down},
    {"logged where it does not spread", logged},
    {"out for days", out_for_days},
    {"tickets that tell no truck", untold},
    {"kinds of equal figures are as one", alike},
    {"a kind learns from its own loads", learns},
    {"a ticket and its load are of a kind", on_paper},
    {"tickets of a truck that is sold are recalled", sold},
    {"tickets stay with the only kind there was", led},
    {"issuing twice writes nothing", twice},
    {"random farms with several kinds of truck keep every limit", at_random},
    CU_TEST_INFO_NULL,
};
