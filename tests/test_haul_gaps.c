/* What the haul log leaves open or tells against the farm file: said on the plan, never passed
 * over, never the end of the program. */
#include "program.h"

#include "littershed/command.h"

#include <string.h>

#define LEFT(n) "NORTH-LEFT-" n

typedef struct {
    ls_arena *a;
    const char *folder, *house, *fields;
} world;

/* The demo in a folder of its own, old replaced by new in its fields and houses. */
static world begin(const char *old, const char *new) {
    world t = {.a = ls_arena_new()};
    t.folder = test_folder(t.a);
    t.house = test_file(t.a, t.folder, "demo-house.yaml", test_replace(t.a, test_file_text(t.a, DEMO_HOUSE), old, new));
    t.fields =
        test_file(t.a, t.folder, "demo-fields.yaml", test_replace(t.a, test_file_text(t.a, DEMO_FIELDS), old, new));
    return t;
}

static void end(world *t) {
    test_folder_end(t->folder);
    ls_arena_free(t->a);
}

/* What is said when the load is recorded; where "": the plan finds it. */
static const char *haul(world *t, const char *ticket, const char *where) {
    test_run run = PROGRAM(t->a, "record", t->house, t->fields, "--ticket", ticket, "--tons", "8.4", "--weighed",
                           "--when", "2026-02-16T09:00", "--sure", where[0] != '\0' ? "--field" : NULL, where);
    TEST_SAME(run.status, LS_DONE);
    return ls_arena_printf(t->a, "%s%s", run.err, run.out);
}

/* A page without its line ends and single blanks, so that words stand together. */
static const char *page(world *t, const char *command) {
    test_run run = PROGRAM(t->a, command, t->house, t->fields, FEW, "--full");
    TEST_SAME(run.status, LS_DONE);
    TEST_TEXT(run.err, "");
    test_fits(run.out);
    return test_joined(t->a, run.out);
}

/* The file names no stack, the log does. */
static void a_stack_the_file_does_not_name(void) {
    world t = begin("\nstack: {roofed: yes", "\n# {roofed: yes");
    haul(&t, LEFT("01-Q"), "stack");
    TEST_HOLDS(page(&t, "plan"), "Hauled into it already, by the haul log 8.4 tons");
    end(&t);
}

/* A shed of 100 ft takes three lots apart, of 88 ft less five end slopes of 4.5 ft: 65.5 ft x 1.824
 * ton/ft = 119.5 tons. The middle one waits for a field that opens later than those of the one
 * behind it. In the demo's own shed of 80 ft nothing is in the way. */
static void a_pile_in_the_way(void) {
    world t = begin("length: 80 ft, width: 40 ft", "length: 100 ft, width: 40 ft");
    const char *plan = page(&t, "plan");
    TEST_HOLDS(plan, "Holds in 3 piles 119 tons");
    TEST_HOLDS(plan, "North/left may go out from Sun, Mar 1, but North/right lies in front of it "
                     "until Wed, Apr 1: haul North/left in last, or keep a way past.");
    end(&t);
    t = begin("?", "?");
    CU_ASSERT_PTR_NULL(strstr(page(&t, "plan"), "lies in front of it"));
    end(&t);
}

/* Nobody knows what a load has covered whose place is not told. */
static void a_place_not_told(void) {
    world t = begin("?", "?");
    TEST_HOLDS(haul(&t, LEFT("77-J"), ""), "where the load went stays open");
    const char *plan = page(&t, "plan");
    TEST_HOLDS(plan, "does not say where a load went (NORTH-LEFT-77-J). The plan takes it off no field");
    end(&t);
}

static void more_out_of_the_stack_than_in(void) {
    world t = begin("?", "?");
    haul(&t, LEFT("S01-7"), "Larkspur Hay/Upper Meadow");
    TEST_HOLDS(page(&t, "plan"), "more litter of North/left came out of the stack than went into it");
    end(&t);
}

/* All loads are gone: whether the slats are back, nobody has said. */
static void slats_of_a_side_that_is_hauled(void) {
    world t = begin("?", "?");
    test_run run = PROGRAM(t.a, "record", t.house, t.fields, "--ticket", LEFT("01-Q"), "--tons", "8", "--cleared",
                           "all", "--when", "2026-02-16", "--field", "stack");
    TEST_SAME(run.status, LS_DONE);
    TEST_HOLDS(page(&t, "plan"), "Loads of North/left are gone and no more are planned");
    end(&t);
}

static const char *refused(world *t, const char *ticket, const char *when, const char *where) {
    test_run run = PROGRAM(t->a, "record", t->house, t->fields, "--ticket", ticket, "--tons", "8", "--when", when,
                           "--field", where);
    TEST_SAME(run.status, LS_MISTAKE);
    CU_ASSERT_PTR_NULL(test_file_text(t->a, ls_arena_printf(t->a, "%s/demo-house.haul.csv", t->folder)));
    return run.err;
}

static void what_cannot_be(void) {
    world t = begin("?", "?");
    TEST_HOLDS(refused(&t, LEFT("01-Q"), "2036-02-16", "stack"),
               "2036-02-16 is long after the loads of North should be out (2026-04-17)");
    TEST_HOLDS(refused(&t, LEFT("01-Q"), "2026-02-08", "stack"), "is before the birds left North");
    TEST_HOLDS(refused(&t, LEFT("S01-7"), "2026-03-08", "stack"), "it cannot go to the stack");
    end(&t);
}

/* A log that is none takes no load: said once, and nothing of where the load went. */
static void a_log_that_is_none(void) {
    world t = begin("?", "?");
    const char *log = test_file(t.a, t.folder, "demo-house.haul.csv", "garbage\n");
    test_run run =
        PROGRAM(t.a, "record", t.house, t.fields, "--ticket", LEFT("01-Q"), "--tons", "8", "--when", "2026-02-16");
    TEST_SAME(run.status, LS_MISTAKE);
    const char *first = strstr(run.err, "this is no haul log");
    CU_ASSERT_PTR_NOT_NULL_FATAL(first);
    CU_ASSERT_PTR_NULL(strstr(first + 1, "this is no haul log"));
    CU_ASSERT_PTR_NULL(strstr(run.err, "stays open"));
    TEST_TEXT(test_file_text(t.a, log), "garbage\n");
    end(&t);
}

/* The demo's Wheat Strip takes 33 ton; Osgood Row Crops orders 20 loads at most, here one. */
static void an_order_filled_by_the_log(void) {
    world t = begin("order: {most: 20 loads}", "order: {most: 1 loads}");
    haul(&t, LEFT("01-Q"), "Osgood Row Crops/Wheat Strip");
    TEST_HOLDS(page(&t, "plan"), "the buyer's order is filled with the loads it has had");
    end(&t);
}

/* What the program wrote down it reads again, whatever the names. */
static void names_with_semicolons(void) {
    world t = begin("name: Upper Meadow", "name: \"Upper; Meadow (2 ton)\"");
    haul(&t, LEFT("01-Q"), "Larkspur Hay/Upper; Meadow (2 ton) (5.4 ton); Osgood Row Crops/Wheat Strip (3 ton)");
    const char *list = PROGRAM(t.a, "record", t.house, t.fields, "--list", "--format", "json").out;
    const char *flat = test_replace(t.a, list, "\n      ", " ");
    TEST_HOLDS(flat, "\"field\": \"Upper; Meadow (2 ton)\", \"loads\": 1, \"tons\": 5.4");
    TEST_HOLDS(flat, "\"field\": \"Wheat Strip\", \"loads\": 1, \"tons\": 3");
    page(&t, "plan");
    test_run run =
        PROGRAM(t.a, "record", t.house, t.fields, "--ticket", LEFT("02-O"), "--tons", "8", "--when", "2026-02-16",
                "--field", "Larkspur Hay/Upper; Meadow (2 ton) (5 ton); Nowhere/At All (3 ton)");
    TEST_SAME(run.status, LS_MISTAKE);
    TEST_HOLDS(run.err, "\"Nowhere/At All\"");
    end(&t);
}

TEST_SUITE(haul_gaps) = {
    {"a stack the file does not name", a_stack_the_file_does_not_name},
    {"a pile in the way", a_pile_in_the_way},
    {"a place not told", a_place_not_told},
    {"more out of the stack than in", more_out_of_the_stack_than_in},
    {"slats of a side that is hauled", slats_of_a_side_that_is_hauled},
    {"what cannot be", what_cannot_be},
    {"a log that is none", a_log_that_is_none},
    {"an order filled by the log", an_order_filled_by_the_log},
    {"names with semicolons", names_with_semicolons},
    CU_TEST_INFO_NULL,
};
