/* What tickets and promise slips say, against hand calculation. */
#include "plan_world.h"
#include "program.h"

#include "littershed/command.h"
#include "littershed/books.h"

#include <string.h>

/* ---- ticket numbers ---- */

/* Numbers whose check characters by ISO 7064 MOD 37,36 are published, all from memory: the Global
 * Release Identifier A1-2425G-ABC1234002-M; the audiovisual numbers (ISAN)
 * 0000-0000-3A8D-0000-Z-0000-0000-6, 0000-0001-8CFA-0000-I-0000-0000-K and 0000-0000-D07A-0090-Q,
 * whose second check character covers all digits before it but not the first one. */
static void check_characters(void) {
    TEST_SAME(ls_check_character("A1-2425G-ABC1234002"), 'M');
    TEST_SAME(ls_check_character("0000-0000-3A8D-0000"), 'Z');
    TEST_SAME(ls_check_character("0000-0000-3A8D-0000-0000-0000"), '6');
    TEST_SAME(ls_check_character("0000-0001-8CFA-0000"), 'I');
    TEST_SAME(ls_check_character("0000-0001-8CFA-0000-0000-0000"), 'K');
    TEST_SAME(ls_check_character("0000-0000-D07A-0090"), 'Q');
}

/* ---- figures ---- */

static plan_world lined(plan_world t) {
    if (t.plan == NULL) {
        CU_FAIL("no plan");
        return t;
    }
    ls_books books = {
        .arena = t.arena, .sheet = t.sheet, .reference = t.reference, .farm = t.farm, .estimate = t.estimate};
    ls_books_tickets(&books, ls_books_plan_sums(&books, t.plan));
    TEST_TEXT(ls_worksheet_fault(t.sheet), NULL);
    return t;
}

/* In the line's own unit; NaN, which fails, if there is no such line. */
static double figure(const plan_world *t, const char *key) {
    return ls_line_shown(t->sheet, ls_line_find(t->sheet, key));
}

static double of_load(const plan_world *t, const ls_load *load, const char *what) {
    return figure(t, ls_arena_printf(t->arena, "ticket.%s.%s", load->ticket, what));
}

#define SMALL_FARM(truck, field)                                                                                       \
    PLAN_HOUSE "trucks: [{name: T, count: 1, " truck "}]\n"                                                            \
               "crew: {arrives: 2026-02-16, loader: {bucket: 2 yd3, fill: 95 %, load_and_dump: "                       \
               "30 s, travel: 5 mph}}\n"                                                                               \
               "buyers:\n  - {name: A, distance: 3 mi, price: 20 $/ton, fields: [{name: F, area: "                     \
               "100 ac, " field PLAN_FIELD "}]}\n"

/* UMass Extension, manure spreader calibration: ton/ac = load tons x 43,560 / (distance ft x swath
 * ft). A load of 5 ton at 2 ton/ac covers 2.5 ac; at a swath of 30 ft that is 3,630 ft of driving,
 * three times a field of 1,210 ft. */
static void way_of_a_load(void) {
    plan_world t = lined(plan_world_text(SMALL_FARM("payload: 5 ton, swath: 30 ft", "length: 1210 ft, ")));
    const ls_load *load = &t.plan->loads[0];
    TEST_NEAR(plan_tons(&t, load->tons), 5, 1e-12);
    TEST_NEAR(ls_line_shown(t.sheet, load->drops[0].acres), 2.5, 1e-12);
    TEST_NEAR(of_load(&t, load, "1.run"), 3630, 1e-12);
    TEST_NEAR(of_load(&t, load, "1.passes"), 3, 1e-12);
    TEST_NEAR(5 * 43560 / (of_load(&t, load, "1.run") * 30), 2, 1e-12);
    plan_world_end(&t);
}

/* Ohio State University, Bulletin 817: the effective swath is twice the distance from the center to
 * where the rate is half of that at the center; 4 at the center and 2 at 6 ft make 12 ft. The same
 * load then goes 2.5 x 43,560 / 12 = 9,075 ft. Without a length there are no passes. */
static void narrow_swath(void) {
    plan_world t = lined(plan_world_text(SMALL_FARM("payload: 5 ton, swath: 12 ft", "")));
    TEST_NEAR(of_load(&t, &t.plan->loads[0], "1.run"), 9075, 1e-12);
    TEST_SAME(ls_line_find(t.sheet, ls_arena_printf(t.arena, "ticket.%s.1.passes", t.plan->loads[0].ticket)),
              LS_NO_LINE);
    plan_world_end(&t);
}

/* ton/ac = net lb x 21.78 / tarp ft2, as 43,560 ft2 are an acre and 2,000 lb a ton (UMass Extension
 * prints 21.8): 13.2 lb on 12 ft x 12 ft are 1.9965 ton/ac. */
static void tarp_check(void) {
    plan_world t = lined(plan_world_text(SMALL_FARM("payload: 5 ton, swath: 30 ft", "")));
    double factor = figure(&t, "ticket.tarp-factor"), area = figure(&t, "ticket.tarp-area");
    TEST_NEAR(factor, 21.78, 1e-12);
    TEST_NEAR(area, 144, 1e-12);
    TEST_NEAR(13.2 * factor / area, 1.9965, 1e-12);
    TEST_NEAR(of_load(&t, &t.plan->loads[0], "1.tarp"), 2 * 144 / 21.78, 1e-12);
    TEST_NEAR(figure(&t, "ticket.tarp-metric"), 10, 1e-12); /* 10,000 m2/ha over 1,000 kg/tonne */
    plan_world_end(&t);
}

/* Komatsu handbook: heaped bucket x fill factor. 2 yd3 x 27 ft3 x 0.95 x 40 lb/ft3 = 2,052 lb;
 * 10,000 lb need 4.87 of them, so 5. */
static void buckets(void) {
    plan_world t = lined(plan_world_text(SMALL_FARM("payload: 5 ton, swath: 30 ft", "")));
    TEST_NEAR(figure(&t, "ticket.bucket-of.one"), 2052.0 / 2000, 1e-12);
    TEST_NEAR(of_load(&t, &t.plan->loads[0], "bucketfuls"), 10000 / 2052.0, 1e-12);
    TEST_SAME(of_load(&t, &t.plan->loads[0], "buckets"), 5);
    plan_world_end(&t);
}

/* 20 lb of each in a ton, 2 ton on an acre. */
static void nutrients_on_an_acre(void) {
    plan_world t = lined(plan_world_text(SMALL_FARM("payload: 5 ton", "")));
    static const char *const keys[] = {"1.N", "1.P2O5", "1.K2O"};
    for (size_t i = 0; i < 3; i++) TEST_NEAR(of_load(&t, &t.plan->loads[0], keys[i]), 40, 1e-12);
    plan_world_end(&t);
}

/* Without a swath the figure of common practice serves, and the ticket says so. */
static void no_swath(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    test_run run = PROGRAM(a, "tickets", FEW, test_file(a, folder, "f.yaml", SMALL_FARM("payload: 5 ton", "")));
    TEST_SAME(run.status, LS_DONE);
    TEST_HOLDS(run.out, "swath not given: common practice");
    test_folder_end(folder);
    ls_arena_free(a);
}

/* The rows of the demo's slips add up to the loads and tons of its plan. */
static void promises_add_up(void) {
    static const char *const demo[] = {DEMO};
    plan_world t = lined(plan_world_of(demo, 2));
    double rows = 0, loads = 0;
    for (size_t b = 0; b < t.farm->buyers.n; b++)
        for (int row = 1; row < 50; row++) {
            const char *key = ls_arena_printf(t.arena, "promise-to.%s.%d.tons", t.farm->buyers.at[b].slug, row);
            rows += plan_tons(&t, ls_line_find(t.sheet, key));
        }
    for (size_t i = 0; i < t.plan->loads_n; i++)
        loads += t.plan->loads[i].buyer == NULL ? 0 : plan_tons(&t, t.plan->loads[i].tons);
    for (size_t i = 0; i < t.plan->out_n; i++) loads += plan_tons(&t, t.plan->out[i].tons);
    TEST_NEAR(rows, loads, 1e-12);
    CU_ASSERT(rows > 100);
    plan_world_end(&t);
}

TEST_SUITE(tickets) = {{"published check characters", check_characters},
                       {"the way of a load", way_of_a_load},
                       {"a narrow swath", narrow_swath},
                       {"the tarp check", tarp_check},
                       {"buckets", buckets},
                       {"nutrients on an acre", nutrients_on_an_acre},
                       {"no swath given", no_swath},
                       {"promises add up", promises_add_up},
                       CU_TEST_INFO_NULL};
