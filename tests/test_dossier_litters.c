/* Litter of two files in one stack, by hand. The report of 2025: 112 lb of P2O5 a ton; of this
 * year:
 * 56. Upper Meadow, three years at once: 3 x 3.5 ton/ac of hay x 12 lb = 126 lb/ac. By 2025's
 * report that is 1.125 ton/ac; by the mean of both, 84 lb, it is 1.5.
 */
#include "dossier_world.h"

#include "littershed/command.h"

#include <stdlib.h>
#include <string.h>

#define MEADOW "Larkspur Hay/Upper Meadow"
#define WHEAT "Osgood Row Crops/Wheat Strip"

typedef dossier_haul load; /* of North/left */
#define LOAD(number, day, tons, to)                                                                                    \
    { "NORTH-LEFT-" number, day, tons, to, NULL, "2025-01-29", NULL }

/* first: of 2024, by whose report a ton holds 168 lb. */
static dossier_world farm(ls_arena *a, const load first[1], const load before[2], const load now[2],
                          const char *rating) {
    static const char rated[] = "rating: medium, rated_by: county plan writer, date: 2025-10-30";
    const char *house = test_replace(a, dossier_house(a), "  permit: none\n",
                                     "  permit: none\n  earlier: [{file: 2025.yaml, fields: "
                                     "2025f.yaml}, {file: 2024.yaml, fields: 2025f.yaml}]\n");
    const char *fields = dossier_fields(a);
    TEST_HOLDS(fields, rated);
    dossier_world w = dossier_write(a, house, test_replace(a, fields, rated, rating), dossier_log_of(a, now, 2));
    house = dossier_house_before(a);
    house = test_replace(a, house, "date: 2026-01-29", "date: 2025-01-29");
    test_file(a, w.folder, "2025.yaml", test_replace(a, house, "P2O5: 56", "P2O5: 112"));
    house = test_replace(a, test_replace(a, house, "2024-", "2023-"), "removed: 2025-", "removed: 2024-");
    house = test_replace(a, house, "date: 2025-01-29", "date: 2024-01-29");
    test_file(a, w.folder, "2024.yaml", test_replace(a, house, "P2O5: 56", "P2O5: 168"));
    test_file(a, w.folder, "2024.haul.csv", dossier_log_of(a, first, 1));
    test_file(a, w.folder, "2025f.yaml", fields);
    test_file(a, w.folder, "2025.haul.csv", dossier_log_of(a, before, 2));
    return w;
}

static json_t *look(ls_arena *a, const load first[1], const load before[2], const load now[2], const char *rating,
                    const char *period) {
    dossier_world w = farm(a, first, before, now, rating);
    json_t *d = json_loads(dossier_run(&w, "--format=json", "--period", period).out, JSON_REJECT_DUPLICATES, NULL);
    CU_ASSERT_PTR_NOT_NULL_FATAL(d);
    test_folder_end(w.folder);
    return d;
}
#define BANK "rating: high, rated_by: county plan writer, date: 2025-10-30, bank: 3 years"
#define MEDIUM "rating: medium, rated_by: county plan writer, date: 2025-10-30"
#define HIGH BANK ", ledger: [{year: 2025, P2O5: 55 lb/ac, removed: 55 lb/ac}]"

/* 5 ton at 1.125 ton/ac are 4.44 ac and 560 lb: no finding. */
static void by_its_own_report(void) {
    ls_arena *a = ls_arena_new();
    json_t *d = look(a, (load[1]){{0}}, (load[2]){LOAD("01", "2025-02-18", "5", "stack")},
                     (load[2]){LOAD("S01", "2026-02-18", "5", MEADOW)}, HIGH, "2026");
    json_t *f = dossier_row(d, "fields", "field", "Upper Meadow");
    json_t *one = json_array_get(json_object_get(f, "spread"), 0);
    TEST_NEAR(dossier_number(f, "P2O5_lb"), 560, 1e-6);
    TEST_NEAR(dossier_number(one, "rate_ton_per_ac"), 1.125, 1e-9);
    TEST_NEAR(dossier_number(one, "acres"), 5 / 1.125, 1e-4);
    CU_ASSERT_PTR_NULL(dossier_row(d, "findings", "item", "more phosphate than the rating allows"));
    CU_ASSERT_PTR_NULL(dossier_row(d, "findings", "item", "more litter than the rate"));
    json_decref(d);
    ls_arena_free(a);
}

/* 1.5 ton of each year: 1.5 x 112 + 1.5 x 56 = 252 lb; 3 ton at 1.5 ton/ac are 2 ac. */
static void two_litters(void) {
    ls_arena *a = ls_arena_new();
    json_t *d =
        look(a, (load[1]){{0}}, (load[2]){LOAD("01", "2025-02-18", "1.5", "stack")},
             (load[2]){LOAD("01", "2026-02-17", "1.5", "stack"), LOAD("S01", "2026-02-18", "3", MEADOW)}, HIGH, "2026");
    json_t *f = dossier_row(d, "fields", "field", "Upper Meadow");
    json_t *one = json_array_get(json_object_get(f, "spread"), 0);
    TEST_NEAR(dossier_number(f, "P2O5_lb"), 252, 1e-6);
    TEST_NEAR(dossier_number(one, "rate_ton_per_ac"), 1.5, 1e-9);
    TEST_NEAR(dossier_number(one, "acres"), 2, 1e-9);
    json_decref(d);
    ls_arena_free(a);
}

/* 5 ton of each year lie there, and the ticket says this year's: 5 x 56 = 280 lb, 126 / 56 = 2.25
 * ton/ac. By a ticket that tells no litter the oldest goes first: 5 x 112 = 560 lb. */
static void as_its_ticket_says(void) {
    for (int told = 0; told < 2; told++) {
        ls_arena *a = ls_arena_new();
        const load in = LOAD("01", "2026-02-17", "5", "stack");
        char c = ls_check_character("NORTH-LEFT-S01");
        dossier_world w =
            farm(a, (load[1]){{0}}, (load[2]){LOAD("01", "2025-02-18", "5", "stack")}, (load[2]){in}, HIGH);
        test_file(a, w.folder, "h.haul.csv",
                  ls_arena_printf(a,
                                  "%sentry,replaces,ticket,when,tons,weighed,cleared,field,truck,driver,"
                                  "received_by,analysis,incorporated,weather_before,weather,weather_after,soil,"
                                  "note,confirmed,acres,certainty,planned,loads,price,batch,kind\r\n"
                                  "2,,NORTH-LEFT-S01-%c,2026-02-17,5,no,,\"" MEADOW
                                  " (5 ton, 2.2 ac)\",spreader truck,,,%s,,,,,,,,,firm,2026-02-18,,,,issued\r\n"
                                  "3,,NORTH-LEFT-S01-%c,2026-02-18,5,yes,," MEADOW
                                  ",1,,,report of 2026-01-29,not,,,,,,,,,,,,,hauled\r\n",
                                  dossier_log_of(a, &in, 1), c,
                                  told ? "\"h.yaml: laboratory report of Jan 29, 2026\"" : "", c));
        json_t *d = dossier_document(&w), *f = dossier_row(d, "fields", "field", "Upper Meadow");
        TEST_NEAR(dossier_number(f, "P2O5_lb"), told ? 280 : 560, 1e-6);
        json_decref(d);
        test_folder_end(w.folder);
        ls_arena_free(a);
    }
}

/* Upper Meadow is called Top now: 5 ton of 112 lb on 26 ac less 980 ft x 100 ft, 23.75 ac,
 * are 23.6 lb/ac of phosphate in 2025. */
static void field_by_its_former_name(void) {
    ls_arena *a = ls_arena_new();
    dossier_world w = farm(a, (load[1]){{0}}, (load[2]){LOAD("01", "2025-02-18", "5", MEADOW)},
                           (load[2]){LOAD("01", "2026-02-18", "5", "Larkspur Hay/Top")}, BANK);
    const char *fields = test_file_text(a, w.fields);
    test_file(a, w.folder, "f.yaml",
              test_replace(a, fields, "name: Upper Meadow\n", "name: Top\n        formerly: Upper Meadow\n"));
    json_t *d = dossier_document(&w), *year = dossier_row(d, "ledger", "year", "2025");
    TEST_TEXT(dossier_word(year, "field"), "Top");
    TEST_NEAR(dossier_number(year, "logs_say_lb_per_ac"), 560 / (26 - 98000 / 43560.), 1e-6);
    json_decref(d);
    test_folder_end(w.folder);
    ls_arena_free(a);
}

/* 5 ton of 2024 and 5 of 2025, each with 30 lb of organic N, were both for the crop of 2025: 10 x
 * 30 x 12 % on the acres of the field, more than the file says of 2025, though neither log alone
 * is. */
static void one_crop_by_two_logs(void) {
    static const char yield[] = "        yield: 3.5 ton/ac\n";
    ls_arena *a = ls_arena_new();
    dossier_world w =
        farm(a, (load[1]){LOAD("01", "2024-11-18", "5", MEADOW)}, (load[2]){LOAD("01", "2025-02-18", "5", MEADOW)},
             (load[2]){LOAD("01", "2026-02-18", "5", MEADOW)}, MEDIUM);
    const char *now = test_file_text(a, w.fields),
               *before = test_replace(a, dossier_fields(a), "2026-02-16..2026-04-15", "2025-02-16..2025-04-15");
    TEST_HOLDS(now, yield);
    test_file(a, w.folder, "2025f.yaml",
              test_replace(a, before, yield, ls_arena_printf(a, "%s        for_crop: 2025\n", yield)));
    test_file(a, w.folder, "f.yaml",
              test_replace(a, now, yield,
                           ls_arena_printf(a,
                                           "%s        earlier_litter: [{year: 2025, rate: 0.3 "
                                           "ton/ac, organic_nitrogen: 30 lb/ton}]\n",
                                           yield)));
    json_t *d = dossier_document(&w), *f = dossier_row(d, "fields", "field", "Upper Meadow"),
           *year = dossier_row(d, "ledger", "year", "2025");
    const double acres = 26 - 980 * 100 / 43560.;
    TEST_NEAR(dossier_number(f, "N_limit_lb_per_ac"), 120 - 10 * 30 * .12 / acres, 1e-4);
    TEST_NEAR(dossier_number(year, "logs_say_lb_per_ac"), (5 * 168 + 5 * 112) / acres, 1e-4);
    TEST_TEXT(dossier_word(year, "figures_of"), "2025.yaml, 2024.yaml");
    json_decref(d);
    test_folder_end(w.folder);
    ls_arena_free(a);
}

/* The report of 2025 is that of litter of 2025, and of no other. */
static void report_of_its_own(void) {
    for (int stacked = 0; stacked < 2; stacked++) {
        ls_arena *a = ls_arena_new();
        json_t *d = look(a, (load[1]){{0}}, (load[2]){LOAD("01", "2025-02-18", "5", "stack")},
                         (load[2]){stacked ? (load)LOAD("S01", "2026-02-18", "5", WHEAT)
                                           : (load)LOAD("01", "2026-02-18", "5", WHEAT)},
                         HIGH, "2026");
        TEST_TEXT(dossier_word(dossier_row(d, "findings", "item", "analysis handed over"), "state"),
                  stacked ? "present" : "missing");
        json_decref(d);
        ls_arena_free(a);
    }
}

static double book(json_t *d, const char *words) {
    return dossier_number(dossier_row(d, "period", "what", words), "tons");
}

/* What was left in the house in 2025 was lost when newer birds came that year: in 2026 it is not
 * lost again, though the stack has 5 ton of that litter. */
static void lost_once(void) {
    ls_arena *a = ls_arena_new();
    json_t *d = look(a, (load[1]){{0}}, (load[2]){LOAD("01", "2025-02-18", "5", "stack")},
                     (load[2]){LOAD("01", "2026-02-18", "5", MEADOW)}, HIGH, "2026");
    TEST_NEAR(book(d, "in the stack at the start"), 5, 1e-9);
    TEST_NEAR(book(d, "lost, or gone to no known place"), 0, 1e-9);
    TEST_NEAR(book(d, "in the stack at the end"), 5, 1e-9);
    json_decref(d);
    ls_arena_free(a);
}

/* Out of the stack by the log of 2025, after newer birds came, and never logged in. */
static void never_logged_in(void) {
    ls_arena *a = ls_arena_new();
    json_t *d = look(a, (load[1]){{0}}, (load[2]){LOAD("S01", "2025-09-17", "6", WHEAT)},
                     (load[2]){LOAD("01", "2026-02-18", "5", MEADOW)}, HIGH, "2025-06-01..2025-12-31");
    TEST_NEAR(book(d, "moved to others"), 6, 1e-9);
    TEST_NEAR(book(d, "lost, or gone to no known place"), -6, 1e-9);
    json_decref(d);
    ls_arena_free(a);
}

/* Several years' phosphorus at once; the year before is told by its file and log alone. */
static void ledger_by_the_logs(void) {
    ls_arena *a = ls_arena_new();
    json_t *d = look(a, (load[1]){{0}}, (load[2]){LOAD("01", "2025-02-18", "5", MEADOW)},
                     (load[2]){LOAD("01", "2026-02-18", "5", MEADOW)}, BANK, "2026");
    size_t i, seen = 0;
    json_t *f;
    json_array_foreach(json_object_get(d, "findings"), i, f) {
        if (strcmp(dossier_word(f, "item"), "phosphorus ledger") != 0 || strcmp(dossier_word(f, "of"), MEADOW) != 0)
            continue;
        seen++;
        TEST_TEXT(dossier_word(f, "state"), "present");
    }
    TEST_SAME(seen, 1);
    json_decref(d);
    ls_arena_free(a);
}

/* 5 ton of 2024 on Upper Meadow by the log of 2025, over 26 ac less 980 ft x 100 ft. */
static void ledger_of_an_earlier_file(void) {
    ls_arena *a = ls_arena_new();
    json_t *d =
        look(a, (load[1]){LOAD("01", "2024-02-18", "5", "stack")}, (load[2]){LOAD("S01", "2025-02-18", "5", MEADOW)},
             (load[2]){LOAD("01", "2026-02-18", "5", MEADOW)}, BANK, "2025");
    size_t i, seen = 0;
    json_t *y;
    json_array_foreach(json_object_get(d, "ledger"), i, y) {
        if (strcmp(dossier_word(y, "field"), "Upper Meadow") != 0 || strcmp(dossier_word(y, "year"), "2025") != 0)
            continue;
        seen++;
        TEST_NEAR(dossier_number(y, "P2O5_on_lb_per_ac"), 5 * 168 / (26 - 980.0 * 100 / 43560), 1e-4);
    }
    TEST_SAME(seen, 1);
    TEST_NEAR(dossier_number(dossier_row(d, "period", "what", "on own fields"), "P2O5_lb"), 840, 1e-6);
    json_decref(d);
    ls_arena_free(a);
}

/* So many tons of 2025 lie in the stack, with nothing hauled yet. Mill Forty, three years at once: 3 x 165 bu/ac of
 * corn x 0.35 lb = 173.25 lb/ac. By 2025's report that is 1.547 ton/ac, in steps of the spreader 1.5; by this
 * year's 3.09, and the plan has 3. */
static dossier_world stacked(ls_arena *a, const char *tons) {
    static const char low[] = "rating: low, rated_by: county plan writer, date: 2025-10-02";
    dossier_world w =
        farm(a, (load[1]){{0}}, (load[2]){LOAD("01", "2025-02-18", tons, "stack")}, (load[2]){{0}}, MEDIUM);
    const char *fields = test_file_text(a, w.fields);
    TEST_HOLDS(fields, low);
    test_file(a, w.folder, "f.yaml", test_replace(a, fields, low, HIGH));
    return w;
}

/* What another command tells of 5 ton of them. */
static json_t *told(ls_arena *a, const char *command) {
    dossier_world w = stacked(a, "5");
    test_run run = PROGRAM(a, command, w.house, w.fields, FEW, "--format", "json");
    json_t *d = json_loads(run.out, JSON_REJECT_DUPLICATES, NULL);
    CU_ASSERT_PTR_NOT_NULL_FATAL(d);
    test_folder_end(w.folder);
    return d;
}

static void ticket_by_its_own_report(void) {
    ls_arena *a = ls_arena_new();
    json_t *d = told(a, "tickets"), *one;
    size_t i, k, seen[2] = {0, 0};
    json_array_foreach(json_object_get(d, "tickets"), i, one) {
        const char *date = dossier_word(json_object_get(one, "analysis"), "date");
        bool old = strcmp(date, "2025-01-29") == 0;
        json_t *drop;
        json_array_foreach(json_object_get(one, "drops"), k, drop) {
            if (strncmp(dossier_word(one, "ticket"), "NORTH-LEFT-S", 12) != 0) continue;
            TEST_TEXT(dossier_word(drop, "field"), "Mill Forty");
            TEST_NEAR(dossier_number(drop, "ton_per_ac"), old ? 1.5 : 3, 1e-9);
            TEST_NEAR(dossier_number(json_object_get(drop, "lb_per_ac"), "P2O5"), 168, 1e-6);
            seen[old]++;
            CU_ASSERT_EQUAL(old, dossier_word(one, "ticket")[13] == '1'); /* it goes first */
        }
    }
    TEST_SAME(seen[1], 1);
    CU_ASSERT(seen[0] > 0);
    json_decref(d);
    ls_arena_free(a);
}

/* What lies there is in the plan, and is none of this year's litter. */
static void plan_knows_the_stack(void) {
    ls_arena *a = ls_arena_new();
    json_t *d = told(a, "plan"), *lot;
    size_t i, k;
    double out = 0, in = 0;
    json_array_foreach(json_object_get(d, "stack"), i, lot) {
        json_t *trip;
        in += dossier_number(lot, "in_tons");
        json_array_foreach(json_object_get(lot, "out"), k, trip) out += dossier_number(trip, "tons");
    }
    TEST_NEAR(dossier_number(d, "in_stack_tons"), 5, 1e-9);
    TEST_NEAR(out, in + 5, 0.005);
    json_decref(d);
    ls_arena_free(a);
}

/* The log's own page judges tickets as the plan does: litter of 2025 lies there for them. */
static void list_knows_the_stack(void) {
    ls_arena *a = ls_arena_new();
    dossier_world w = stacked(a, "60");
    test_run run = PROGRAM(a, "tickets", w.house, w.fields, FEW, "--issue");
    TEST_SAME(run.status, LS_DONE);
    TEST_HOLDS(run.out, "NORTH-LEFT-S01-");
    const char *list = PROGRAM(a, "record", w.house, w.fields, "--list").out;
    TEST_HOLDS(list, "NORTH-LEFT-S01-");
    CU_ASSERT_PTR_NULL(strstr(list, "TAKE BACK"));
    test_folder_end(w.folder);
    ls_arena_free(a);
}

/* The same of what was planned: 1.5 x 112 and 3 x 56 are both 168 lb/ac. */
static void planned_by_its_own_report(void) {
    ls_arena *a = ls_arena_new();
    json_t *d = told(a, "dossier"), *f = dossier_row(d, "fields", "field", "Mill Forty");
    CU_ASSERT(dossier_number(f, "planned_ton_per_ac") < 2.99);
    TEST_NEAR(dossier_number(f, "planned_P2O5_lb_per_ac"), 168, 1e-6);
    json_decref(d);
    ls_arena_free(a);
}

/* 5 ton of North lay in the stack since 2024; it was East in 2025. As West in 2026 they are its
 * own, 168 lb a ton, and not without formerly. */
static void house_by_its_former_names(void) {
    for (int told = 0; told < 2; told++) {
        ls_arena *a = ls_arena_new();
        dossier_world w = farm(a, (load[1]){LOAD("01", "2024-02-18", "5", "stack")}, (load[2]){{0}},
                               (load[2]){{"WEST-LEFT-S01", "2026-02-18", "5", MEADOW, NULL, "2024-01-29", NULL}}, HIGH);
        const char *now = test_file_text(a, w.house), *north = "name: North\n",
                   *before = ls_arena_printf(a, "%s/2025.yaml", w.folder);
        test_file(a, w.folder, "2025.yaml",
                  test_replace(a, test_file_text(a, before), north, "name: East\n    formerly: North\n"));
        test_file(a, w.folder, "h.yaml",
                  test_replace(a, now, north, told ? "name: West\n    formerly: East\n" : "name: West\n"));
        json_t *d = dossier_document(&w), *f = dossier_row(d, "fields", "field", "Upper Meadow");
        TEST_NEAR(dossier_number(f, "P2O5_lb"), 5 * (told ? 168 : 56), 1e-6);
        CU_ASSERT_EQUAL(dossier_row(d, "findings", "item", "more out of the stack than went in") == NULL, told);
        const char *joins = json_dumps(json_object_get(d, "joins"), JSON_COMPACT);
        const char *rest = "litter of East/left was left in the house, and no later file names it";
        CU_ASSERT_EQUAL(strstr(joins, rest) == NULL, told);
        free((char *)joins);
        json_decref(d);
        test_run run = PROGRAM(a, "plan", w.house, w.fields, FEW);
        const char *note = "The stack holds 5 tons of North/left by 2024.yaml. These files name no";
        CU_ASSERT_EQUAL(strstr(run.out, note) == NULL, told);
        test_folder_end(w.folder);
        ls_arena_free(a);
    }
}

TEST_SUITE(dossier_litters) = {{"by its own report", by_its_own_report},
                               {"two litters in a load", two_litters},
                               {"the report handed over", report_of_its_own},
                               {"a ticket by its own report", ticket_by_its_own_report},
                               {"a house by its former names", house_by_its_former_names},
                               {"planned by its own report", planned_by_its_own_report},
                               {"the plan knows the stack", plan_knows_the_stack},
                               {"the list knows the stack", list_knows_the_stack},
                               {"lost once", lost_once},
                               {"never logged in", never_logged_in},
                               {"a ledger by the logs", ledger_by_the_logs},
                               {"litter out of the stack by its ticket", as_its_ticket_says},
                               {"a field by its former name", field_by_its_former_name},
                               {"one crop by two logs", one_crop_by_two_logs},
                               {"the ledger of an earlier file", ledger_of_an_earlier_file},
                               CU_TEST_INFO_NULL};
