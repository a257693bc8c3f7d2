/* The days on the page of a plan. */
#include "program.h"

#include "littershed/command.h"

#include <string.h>

/* Loads of 42 min, 10 min out, 26.8 min to spread, 10 min back (the arithmetic stands in the tests
 * of the plan). */
static const char farm[] =
    "houses:\n  - {name: One, length: 440 ft, width: 40 ft,\n"
    "     measured: {weighed: 110 ton, loose_density: 40 lb/ft3},\n"
    "     lab: [{date: 2026-01-10, basis: as received, moisture: 30 %, N: 20 lb/ton, NH4N: 5 "
    "lb/ton, P2O5: 20 lb/ton, K2O: 20 lb/ton}]}\n"
    "trucks: [{name: T, count: 2, payload: 11 ton, swath: 33 ft, spreading: 5 mph, road: 30 mph}]\n"
    "crew: {arrives: 2026-02-16, hours: 8 h/day, loader: {bucket: 1 yd3, fill: 100 %, "
    "load_and_dump: 60 s, travel: 5 mph}}\n"
    "farm: {name: X, next_flock: 2026-02-21, make_ready: {wash: 3 days, bedding: 1 day}}\n"
    "buyers:\n  - {name: A, distance: 5 mi, price: 20 $/ton, fields: [{name: F, area: 80 ac, crop: "
    "tall fescue hay, nitrogen: 200 lb/ac, phosphorus: {rating: low}, most: 2 ton/ac}]}\n";

/* The plan's page of that farm with one text in place of another (NULL: as it stands). */
static const char *page(ls_arena *a, const char *old, const char *new) {
    const char *folder = test_folder(a);
    const char *text = old == NULL ? farm : test_replace(a, farm, old, new);
    test_run run = PROGRAM(a, "plan", FEW, "--full", test_file(a, folder, "farm.yaml", text));
    TEST_SAME(run.status, LS_DONE);
    test_fits(run.out);
    test_folder_end(folder);
    return run.out;
}

/* Truck 1, by columns of 10 minutes: loading to 42 min, on the road to 52, spreading to 78.8, back
 * at 88.8 min: LLLL, >, sss, <. Truck 2 comes after it. The loader waits 5 minutes of every 89. */
static void chart(void) {
    ls_arena *a = ls_arena_new();
    const char *text = page(a, NULL, NULL);
    TEST_HOLDS(text, "Mon, Feb 16\n"
                     "             7     8     9    10    11    12     1     2\n"
                     "  loader   |LLLLLLLLLLLLLLLLLLLLLLLLLLLLLLLLLLLLLLLL        |\n"
                     "  truck 1  |LLLL>sss<LLLL>sss<LLLL>sss<LLLL>sss<LLLL>ss<<   |\n"
                     "  truck 2  |....LLLL>sss<LLLL>sss<LLLL>sss<LLLL>sss<        |\n");
    const char *words = test_joined(a, text);
    TEST_HOLDS(words, " Mon, Feb 16: 99 tons in 9 loads. One: 9 loads ONE-01-Z A, F 11 firm 1 "
                      "7:00 am 7:52 am ONE-02-X A, F 11 firm 2 7:42 am 8:34 am ");
    TEST_HOLDS(words, " Mon, Feb 16 9 99 2:24 pm 6.3 0.3 0 0.7 0 ");
    ls_arena_free(a);
}

/* Of many days only the loader, a row a day. */
static void long_chart(void) {
    ls_arena *a = ls_arena_new();
    const char *text = page(a, "8 h/day", "1.5 h/day");
    TEST_HOLDS(text, "A column is 2 minutes");
    TEST_HOLDS(text, "  loader     7                             8\n"
                     "  Feb 16   |LLLLLLLLLLLLLLLLLLLLL                        |\n");
    CU_ASSERT_PTR_NULL(strstr(text, "  truck 1"));
    ls_arena_free(a);
}

static void next_flock(void) {
    ls_arena *a = ls_arena_new();
    TEST_HOLDS(page(a, NULL, NULL), "DOES NOT FIT: 1 day short before the next flock.");
    TEST_HOLDS(page(a, "2026-02-21", "2026-02-22"), "Sun, Feb 22: 4 whole days empty; they need 4.");
    TEST_HOLDS(page(a, "2026-02-21", "2026-02-17"), "TOO LATE: the next flock comes Tue, Feb 17.");
    TEST_HOLDS(page(a, ", make_ready: {wash: 3 days, bedding: 1 day}", ""),
               "3 whole days empty, for washing and bedding too.");
    ls_arena_free(a);
}

static void trucks(void) {
    ls_arena *a = ls_arena_new();
    const char *text = page(a, NULL, NULL);
    TEST_HOLDS(text, "\n       3  Mon, Feb 16, 2:47 pm  ");
    TEST_HOLDS(text, "to see the cheapest.");
    TEST_HOLDS(text, "The loader waits");
    TEST_HOLDS(page(a, "houses:", "costs: {crew: 180 $/h, truck: 95 $/h}\nhouses:"), "cheapest by the hour: 2.");
    const char *many = page(a, "count: 2", "count: 9");
    TEST_HOLDS(many, "One more would not finish sooner.");
    CU_ASSERT_PTR_NULL(strstr(many, "more would help"));
    ls_arena_free(a);
}

/* A day on which only slats are moved reads as such. */
static void no_loads(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    const char *house = test_replace(a, test_file_text(a, DEMO_HOUSE), "9 h/day", "1.1 h/day");
    test_run run = PROGRAM(a, "plan", FEW, "--full", test_file(a, folder, "house.yaml", house), DEMO_FIELDS);
    TEST_SAME(run.status, LS_DONE);
    TEST_HOLDS(run.out, "Mon, Feb 16: no loads. North/left: slats off\n");
    test_fits(run.out);
    test_folder_end(folder);
    ls_arena_free(a);
}

static void nothing_at_all(void) {
    ls_arena *a = ls_arena_new();
    const char *text = page(a, "area: 80 ac", "area: 80 ac, open: 2025-03-01..2025-04-01");
    TEST_HOLDS(text, "No load leaves a house");
    CU_ASSERT_PTR_NULL(strstr(text, "HOW MANY TRUCKS"));
    CU_ASSERT_PTR_NULL(strstr(text, "NEXT FLOCK"));
    ls_arena_free(a);
}

static void same_bytes(void) {
    ls_arena *a = ls_arena_new();
    TEST_TEXT(page(a, NULL, NULL), page(a, NULL, NULL));
    ls_arena_free(a);
}

/* A slip of the pen in a year is named; half a day held is no loader that is out. */
static void hours_out(void) {
    ls_arena *a = ls_arena_new();
    static const char loader[] = "The loader is out for 4.5 h", check[] = "Check the file: ";
    const char *text = page(a, "hours: 8 h/day",
                            "hours: 8 h/day, out: [{what: loader, from: 2026-02-16T08:00, until: "
                            "2027-02-16T09:00}]");
    TEST_HOLDS(text, "  1  Check the file: loader out until Tue, Feb 16, 2027\n");
    text = page(a, "hours: 8 h/day",
                "hours: 8 h/day, out: [{what: loader, from: 2026-02-16T08:00, until: "
                "2026-02-16T12:30}]");
    TEST_HOLDS(text, loader);
    CU_ASSERT_PTR_NULL(strstr(text, check));
    text = page(a, "hours: 8 h/day", "hours: 8 h/day, hold_days: [2026-02-16 until 12:30]");
    CU_ASSERT_PTR_NULL(strstr(text, "loader is out"));
    ls_arena_free(a);
}

/* Out before the crew comes alone: a remark. */
static void out_too_soon(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    const char *text = test_replace(a, farm, "hours: 8 h/day",
                                    "hours: 8 h/day, out: [{what: loader, from: 2025-02-16T08:00, "
                                    "until: 2025-02-17T09:00}]");
    test_run run = PROGRAM(a, "plan", FEW, test_file(a, folder, "farm.yaml", text));
    TEST_SAME(run.status, LS_DONE);
    TEST_HOLDS(run.err, "warning: loader: out before the crew comes alone");
    test_folder_end(folder);
    ls_arena_free(a);
}

TEST_SUITE(report_days) = {{"hours out", hours_out},
                           {"out too soon", out_too_soon},
                           {"hour by hour", chart},
                           {"day by day", long_chart},
                           {"before the next flock", next_flock},
                           {"how many trucks", trucks},
                           {"a day without loads", no_loads},
                           {"no loads at all", nothing_at_all},
                           {"the same file, the same bytes", same_bytes},
                           CU_TEST_INFO_NULL};
