/* Earlier files joined: ledgers and 12 months, by hand. The log (tests/dossier_world.c): Upper
 * Meadow 8.62 + 8.71 + 7.93 = 25.26 ton, Wheat Strip 8.55 + 8.58 = 17.13 ton, stack 8.49 ton; the
 * report: 56 lb of P2O5 a ton. Upper Meadow: 26 ac less 980 ft x 100 ft. Removal of tall fescue hay
 * by the table ipni: 12 lb of P2O5 a ton. */
#include "dossier_world.h"

#include "littershed/command.h"

#include <math.h>
#include <string.h>

#define ACRES (26 - 980.0 * 100 / 43560)
#define ON (25.26 * 56 / ACRES)

static double number(json_t *object, const char *key) {
    json_t *value = json_object_get(object, key);
    return json_is_number(value) ? json_number_value(value) : NAN;
}

/* The row of that field and year; NULL: none. */
static json_t *year(json_t *d, const char *field, const char *which) {
    size_t i;
    json_t *one;
    json_array_foreach(json_object_get(d, "ledger"), i, one) {
        if (strcmp(dossier_word(one, "field"), field) == 0 && strcmp(dossier_word(one, "year"), which) == 0) return one;
    }
    return NULL;
}

static double month(json_t *d, const char *what, const char *key) {
    size_t i;
    json_t *one;
    json_array_foreach(json_object_get(d, "months"), i, one) {
        if (strcmp(dossier_word(one, "what"), what) == 0) return number(one, key);
    }
    return NAN;
}

static bool told(json_t *d, const char *part) {
    size_t i;
    json_t *one;
    json_array_foreach(json_object_get(d, "joins"), i, one) {
        if (strstr(dossier_word(one, "note"), part) != NULL) return true;
    }
    return false;
}

/* This file and one or two earlier ones, named as the list says. */
static dossier_world world(ls_arena *a, const char *list) {
    const char *house = test_replace(a, dossier_house(a), "  permit: none\n",
                                     ls_arena_printf(a, "  permit: none\n  earlier: [%s]\n", list));
    dossier_world w = dossier_write(a, house, dossier_fields(a), dossier_log(a));
    test_file(a, w.folder, "2025.yaml", dossier_house_before(a));
    test_file(a, w.folder, "2025f.yaml", dossier_fields(a));
    test_file(a, w.folder, "2025.haul.csv", test_replace(a, dossier_log(a), "2026-02-1", "2025-02-1"));
    return w;
}
#define ONE "{file: 2025.yaml, fields: 2025f.yaml}"

static void done(dossier_world *w, json_t *d) {
    json_decref(d);
    test_folder_end(w->folder);
    ls_arena_free(w->a);
}

/* Harvested in 2026 by that file, so the yield got is not of 2025: 3.5 ton/ac x 12 = 42 lb/ac. */
static void expected_yield(void) {
    dossier_world w = world(ls_arena_new(), ONE);
    json_t *d = dossier_document(&w), *y = year(d, "Upper Meadow", "2025");
    TEST_NEAR(number(y, "P2O5_on_lb_per_ac"), ON, 1e-5);
    TEST_NEAR(number(y, "removed_lb_per_ac"), 42, 1e-9);
    TEST_NEAR(number(y, "left_lb_per_ac"), ON - 42, 1e-5);
    TEST_HOLDS(dossier_word(y, "note"), "expected yield, 3.5 tons/ac, of 2025.yaml (from memory)");
    /* running: left of 2025 + 59.56 - 37.2, by the yield that came of 3.1 ton/ac */
    TEST_NEAR(number(year(d, "Upper Meadow", "this litter"), "left_lb_per_ac"), (ON - 42) + (ON - 37.2), 1e-5);
    TEST_SAME(told(d, "joined to a field here, by the names of buyer and field, now or formerly"), true);
    done(&w, d);
}

/* 3.1 ton/ac x 12 = 37.2 lb/ac. */
static void yield_got(void) {
    dossier_world w = world(ls_arena_new(), ONE);
    test_file(w.a, w.folder, "2025f.yaml", test_replace(w.a, dossier_fields(w.a), "2026-05-28", "2025-05-28"));
    json_t *d = dossier_document(&w), *y = year(d, "Upper Meadow", "2025");
    TEST_NEAR(number(y, "removed_lb_per_ac"), 37.2, 1e-5);
    TEST_NEAR(number(y, "left_lb_per_ac"), ON - 37.2, 1e-5);
    TEST_HOLDS(dossier_word(y, "note"), "yield got, 3.1 tons/ac");
    done(&w, d);
}

static json_t *finding(json_t *d, const char *item) {
    size_t i;
    json_t *one;
    json_array_foreach(json_object_get(d, "findings"), i, one) {
        if (strcmp(dossier_word(one, "item"), item) == 0) return one;
    }
    return NULL;
}

/* A name with {} in it stays as it is. Barn Field gives 2025 itself: 60 on, 55 removed. The joined
 * log: 25.26 x 56 / 14.5 ac = 97.6, and 5 ton/ac x 12 = 60 removed. More on and less off
 * count: 97.6 - 55; nothing may go on. */
static void the_greater_counts(void) {
    dossier_world w = world(ls_arena_new(), "{file: \"{}2025.yaml\", fields: 2025f.yaml}");
    const char *log = test_replace(w.a, dossier_log(w.a), "2026-02-1", "2025-02-1");
    test_file(w.a, w.folder, "{}2025.yaml", dossier_house_before(w.a));
    test_file(w.a, w.folder, "{}2025.haul.csv", test_replace(w.a, log, "Upper Meadow", "Barn Field"));
    json_t *d = dossier_document(&w), *y = year(d, "Barn Field", "2025");
    const double on = 25.26 * 56 / 14.5;
    TEST_NEAR(number(y, "file_says_lb_per_ac"), 60, 1e-9);
    TEST_NEAR(number(y, "logs_say_lb_per_ac"), on, 1e-4);
    TEST_NEAR(number(y, "P2O5_on_lb_per_ac"), on, 1e-4);
    TEST_NEAR(number(y, "removed_lb_per_ac"), 55, 1e-9);
    TEST_NEAR(number(y, "left_lb_per_ac"), on - 55, 1e-4);
    json_t *f = finding(d, "ledger differs from the logs");
    TEST_TEXT(dossier_word(f, "state"), "missing");
    TEST_TEXT(dossier_word(f, "id"), "ledger_differs_from_the_logs.larkspur_hay.barn_field.2025");
    TEST_TEXT(dossier_word(f, "what"), "2025: this file says 60 lb/ac, {}2025.yaml with the log 98 lb/ac. "
                                       "The greater counts");
    TEST_HOLDS(dossier_word(f, "mend"), "{year: 2025, P2O5: 97.56 lb/ac, removed: 55 lb/ac}");
    test_run rates = PROGRAM(w.a, "rates", FEW, w.house, w.fields, "--full");
    TEST_HOLDS(test_joined(w.a, rates.out), "42.6 lb/ac of phosphate from earlier years");
    TEST_SAME(dossier_run(&w, "--strict", NULL, NULL).status, LS_MISTAKE);
    done(&w, d);
}

/* 97.6 put on by the log, 60 taken: left for 2026, though the field's own file says nothing. */
static void rates_read_the_logs(void) {
    dossier_world w = world(ls_arena_new(), ONE);
    const char *own = ", ledger: [{year: 2025, P2O5: 60 lb/ac, removed: 55 lb/ac}]";
    const char *log = test_replace(w.a, dossier_log(w.a), "2026-02-1", "2025-02-1");
    test_file(w.a, w.folder, "2025.haul.csv", test_replace(w.a, log, "Upper Meadow", "Barn Field"));
    test_file(w.a, w.folder, strrchr(w.fields, '/') + 1, test_replace(w.a, dossier_fields(w.a), own, ""));
    json_t *d = json_loads(PROGRAM(w.a, "rates", FEW, w.house, w.fields, "--format=json").out, 0, NULL), *f;
    size_t i, seen = 0;
    json_array_foreach(json_object_get(d, "fields"), i, f) {
        if (strcmp(dossier_word(f, "field"), "Barn Field") != 0) continue;
        json_t *row = json_array_get(json_object_get(f, "ledger"), 0),
               *lot = json_array_get(json_object_get(f, "lots"), 0);
        seen++;
        TEST_NEAR(number(row, "balance"), 25.26 * 56 / 14.5 - 60, 1e-4);
        TEST_NEAR(number(lot, "ton_per_ac"), 0, 0);
    }
    TEST_SAME(seen, 1);
    done(&w, d);
}

/* Upper Meadow got 25.26 / 23.75 ton/ac of 38 - 8 lb of organic N in 2025: 12 % of it in the second
 * year, 3.83 lb/ac. The file's own 0.5 ton/ac of 30 lb are 1.8: what is more counts too. */
static void nitrogen_carried_over(void) {
    dossier_world w = world(ls_arena_new(), ONE);
    const double logged = 25.26 / ACRES * 30 * 0.12;
    test_file(w.a, w.folder, strrchr(w.fields, '/') + 1,
              test_replace(w.a, dossier_fields(w.a), "        nitrogen: 120 lb/ac\n",
                           "        nitrogen: 120 lb/ac\n        earlier_litter: [{year: 2025, rate: "
                           "0.5 ton/ac, organic_nitrogen: 30 lb/ton}]\n"));
    json_t *d = dossier_document(&w), *f, *one = finding(d, "earlier litter differs from the logs");
    TEST_HOLDS(dossier_word(one, "what"), "2025: this file says 1.8 lb/ac, 2025.yaml with the log 3.8 lb/ac");
    TEST_HOLDS(dossier_word(one, "mend"), "{year: 2025, rate: 1.064 ton/ac, organic_nitrogen: 30 lb/ton}");
    size_t i;
    json_array_foreach(json_object_get(d, "fields"), i, f) {
        if (strcmp(dossier_word(f, "field"), "Upper Meadow") == 0)
            TEST_NEAR(number(f, "N_limit_lb_per_ac"), 120 - logged, 1e-3);
    }
    done(&w, d);
}

/* The same loads in October 2025, after the harvest of 2025-05-28, feed the crop of 2026: 55 % of the organic N in the
 * first year after spreading. What that crop takes is counted with this litter; that of 2025 had none. */
static void after_the_harvest(void) {
    dossier_world w = world(ls_arena_new(), ONE);
    test_file(w.a, w.folder, "2025.haul.csv", test_replace(w.a, dossier_log(w.a), "2026-02-1", "2025-10-1"));
    const char *fields = test_replace(w.a, dossier_fields(w.a), "2026-05-28", "2025-05-28");
    test_file(w.a, w.folder, "2025f.yaml",
              test_replace(w.a, fields, "open: 2026-02-16..2026-04-15", "open: 2025-02-16..2025-04-15"));
    json_t *d = dossier_document(&w), *y = year(d, "Upper Meadow", "2026");
    TEST_NEAR(number(y, "P2O5_on_lb_per_ac"), ON, 1e-5);
    TEST_NEAR(number(y, "removed_lb_per_ac"), 0, 0);
    TEST_NEAR(number(year(d, "Upper Meadow", "2025"), "P2O5_on_lb_per_ac"), 0, 0);
    TEST_NEAR(number(year(d, "Upper Meadow", "2025"), "removed_lb_per_ac"), 3.1 * 12, 1e-9);
    TEST_NEAR(number(year(d, "Upper Meadow", "this litter"), "left_lb_per_ac"), 2 * ON - 37.2, 1e-5);
    TEST_NEAR(number(dossier_row(d, "fields", "field", "Upper Meadow"), "N_limit_lb_per_ac"),
              120 - 25.26 / ACRES * 30 * 0.55, 1e-3);
    done(&w, d);
}

/* Top of 2024 became Middle, and that Upper Meadow: found in whichever order the files are listed. */
static void renamed_twice(void) {
    for (int newest_first = 0; newest_first < 2; newest_first++) {
        const char *two = "{file: 2024.yaml, fields: 2024f.yaml}";
        ls_arena *a = ls_arena_new();
        dossier_world w = world(a, ls_arena_printf(a, "%s, %s", newest_first ? ONE : two, newest_first ? two : ONE));
        const char *fields = dossier_fields(a), *log = dossier_log(a), *name = "name: Upper Meadow\n",
                   *house = test_replace(a, dossier_house_before(a), "2024-", "2023-");
        house = test_replace(a, house, "removed: 2025-02-09", "removed: 2024-02-09");
        test_file(a, w.folder, "2024.yaml", house);
        test_file(a, w.folder, "2024f.yaml", test_replace(a, fields, name, "name: Top\n"));
        test_file(a, w.folder, "2025f.yaml", test_replace(a, fields, name, "name: Middle\n        formerly: Top\n"));
        test_file(a, w.folder, strrchr(w.fields, '/') + 1,
                  test_replace(a, fields, name, "name: Upper Meadow\n        formerly: Middle\n"));
        log = test_replace(a, log, "Upper Meadow", "Middle");
        test_file(a, w.folder, "2025.haul.csv", test_replace(a, log, "2026-02-1", "2025-02-1"));
        log = test_replace(a, log, "Middle", "Top");
        test_file(a, w.folder, "2024.haul.csv", test_replace(a, log, "2026-02-1", "2024-02-1"));
        json_t *d = dossier_document(&w);
        TEST_NEAR(number(year(d, "Upper Meadow", "2024"), "P2O5_on_lb_per_ac"), ON, 1e-5);
        TEST_NEAR(number(year(d, "Upper Meadow", "2025"), "left_lb_per_ac"), 2 * (ON - 42), 1e-5);
        TEST_TEXT(dossier_word(json_array_get(json_object_get(d, "years"), 1), "file"), "2025.yaml");
        done(&w, d);
    }
}

/* 8.49 tons of 2025 went into the stack on 2025-02-18 and come out on 2026-03-16, 391 days later,
 * before those of 2026-02-18: with the report of their own year, 30 lb of P2O5 a ton. */
static void stack_of_the_year_before(void) {
    dossier_world w = world(ls_arena_new(), ONE);
    const char *number_out = "NORTH-LEFT-S01";
    test_file(w.a, w.folder, "2025.yaml",
              test_replace(w.a, dossier_house_before(w.a), "P2O5: 56 lb/ton", "P2O5: 30 lb/ton"));
    test_file(w.a, w.folder, "h.haul.csv",
              ls_arena_printf(w.a,
                              "%s8,,%s-%c,2026-03-16,8.49,yes,,Larkspur Hay/Upper Meadow,1,D. Ames,"
                              "J. Osgood,report of 2026-01-29,not,dry,clear,rain,moist,\r\n",
                              dossier_log(w.a), number_out, ls_check_character(number_out)));
    json_t *d = dossier_document(&w), *f;
    size_t i;
    TEST_NEAR(number(json_object_get(d, "stack"), "longest_days"), 391, 1e-9);
    json_array_foreach(json_object_get(d, "fields"), i, f) {
        if (strcmp(dossier_word(f, "field"), "Upper Meadow") == 0)
            TEST_NEAR(number(f, "P2O5_lb"), 25.26 * 56 + 8.49 * 30, 1e-4);
    }
    json_array_foreach(json_object_get(d, "balance"), i, f) {
        if (strcmp(dossier_word(f, "way"), "stacked") == 0 || strcmp(dossier_word(f, "way"), "opening") == 0)
            TEST_NEAR(number(f, "tons"), 8.49, 1e-9);
        if (strcmp(dossier_word(f, "way"), "difference") == 0) TEST_NEAR(number(f, "tons"), 0, 1e-9);
    }
    const char *page = test_joined(w.a, dossier_run(&w, "--full", NULL, NULL).out);
    TEST_HOLDS(page, "There from earlier files: 8.49 tons; in: 8.49 tons; out: 8.49 tons; still in it: 8.49 tons.");
    CU_ASSERT_PTR_NULL(strstr(page, "a load at most"));
    done(&w, d);
}

/* The totals of a file. */
static json_t *of_file(json_t *d, const char *file) {
    size_t i;
    json_t *one;
    json_array_foreach(json_object_get(d, "years"), i, one) {
        if (strcmp(dossier_word(one, "file"), file) == 0) return one;
    }
    return NULL;
}

/* Loads, fields and flocks of one number or name in two files are not one: 9.62 for 8.62 ton, 30
 * for 26 ac, 7,000 for 7,800 hens in the file of 2025. */
static void each_file_its_own(void) {
    dossier_world w = world(ls_arena_new(), ONE);
    const char *log = test_replace(w.a, dossier_log(w.a), "2026-02-1", "2025-02-1");
    test_file(w.a, w.folder, "2025.haul.csv", test_replace(w.a, log, "8.62", "9.62"));
    test_file(w.a, w.folder, "2025f.yaml", test_replace(w.a, dossier_fields(w.a), "area: 26 ac", "area: 30 ac"));
    test_file(w.a, w.folder, "2025.yaml", test_replace(w.a, dossier_house_before(w.a), "hens: 7800", "hens: 7000"));
    json_t *d = dossier_document(&w), *now = of_file(d, "this file"), *then = of_file(d, "2025.yaml");
    TEST_NEAR(number(now, "house_tons"), 50.88, 1e-6);
    TEST_NEAR(number(then, "house_tons"), 51.88, 1e-6);
    TEST_NEAR(number(then, "own_tons"), 26.26, 1e-6);
    TEST_NEAR(number(then, "plan_ac") - number(now, "plan_ac"), 4, 1e-6);
    TEST_NEAR(number(now, "birds") - number(then, "birds"), 800, 1e-9);
    TEST_NEAR(number(year(d, "Upper Meadow", "2025"), "P2O5_on_lb_per_ac"), 26.26 * 56 / (ACRES + 4), 1e-4);
    done(&w, d);
}

/* Twice the litter, one crop: 2 x 59.56 - 42. */
static void two_files_of_a_year(void) {
    dossier_world w = world(ls_arena_new(), ONE ", {file: b.yaml, fields: 2025f.yaml}");
    test_file(w.a, w.folder, "b.yaml", dossier_house_before(w.a));
    test_file(w.a, w.folder, "b.haul.csv", test_replace(w.a, dossier_log(w.a), "2026-02-1", "2025-03-1"));
    json_t *d = dossier_document(&w), *y = year(d, "Upper Meadow", "2025");
    TEST_NEAR(number(y, "P2O5_on_lb_per_ac"), 2 * ON, 1e-5);
    TEST_NEAR(number(y, "left_lb_per_ac"), 2 * ON - 42, 1e-5);
    /* all of March 2025 lies within the 12 months; each field is used once, each flock counts once
     */
    TEST_NEAR(month(d, "own fields", "tons"), 2 * 25.26, 1e-6);
    TEST_NEAR(month(d, "used", "acres"), 26 + 22, 1e-9);
    TEST_NEAR(month(d, "placed", "bird"), 7800 + 780 + 7200 + 720, 1e-9);
    done(&w, d);
}

/* The newest entry is of 2026-02-18: a load of 2025-02-18 is out, one of 2025-02-19 (7.93 ton) in.
 */
static void edge_of_the_months(void) {
    dossier_world w = world(ls_arena_new(), ONE);
    json_t *d = dossier_document(&w);
    TEST_NEAR(month(d, "own fields", "tons"), 25.26, 1e-6);
    TEST_NEAR(month(d, "out of houses", "tons"), 50.88, 1e-6);
    json_decref(d);
    const char *log = test_replace(w.a, dossier_log(w.a), "2026-02-18T10", "2025-02-19T10");
    test_file(w.a, w.folder, "2025.haul.csv", test_replace(w.a, log, "2026-02-1", "2025-02-1"));
    d = dossier_document(&w);
    TEST_NEAR(month(d, "own fields", "tons"), 25.26 + 7.93, 1e-6);
    TEST_NEAR(month(d, "moved", "tons"), 17.13, 1e-6);
    done(&w, d);
}

/* 2025-07-01 to 2026-06-30: the flocks were placed before, and removed within. The day printed
 * moves nothing. */
static void days_asked_for(void) {
    dossier_world w = world(ls_arena_new(), ONE);
    test_run run = dossier_run(&w, "--format=json", "--period=2025-07-01..2026-06-30", NULL);
    json_t *d = json_loads(run.out, 0, NULL);
    TEST_NEAR(month(d, "placed", "bird"), 0, 1e-9);
    TEST_NEAR(month(d, "in a house", "bird"), 16500, 1e-9);
    TEST_HOLDS(run.out, "\"days asked for\"");
    TEST_HOLDS(run.out, "\"2025-07-01\"");
    run = dossier_run(&w, "--format=json", "--printed", "2026-06-30");
    TEST_HOLDS(run.out, "\"newest entry\"");
    CU_ASSERT_PTR_NULL(strstr(run.out, "\"2025-07-01\""));
    TEST_SAME(dossier_run(&w, "--period", "2025-13", NULL).status, LS_USAGE);
    done(&w, d);
}

/* Three flocks alike of North, 49 days each, the last of 2025-12-22: the ones before it of 2025-11-03 and 2025-09-15.
 * November and December see two placed and three in the house (the first left on 2025-11-03); 2026 the last alone.
 * South has 7,920 birds of 2025-05-05. Both sheets tell how many are alike. */
static void flocks_alike(void) {
    dossier_world w = world(ls_arena_new(), ONE);
    const char *house = test_file_text(w.a, w.house);
    house = test_replace(w.a, house, "placed: 2025-04-21", "flocks: 3\n        placed: 2025-12-22");
    test_file(w.a, w.folder, "h.yaml", house);
    static const struct {
        const char *days;
        double placed, housed;
    } of[] = {{"--period=2025-11-01..2025-12-31", 2 * 8580, 3 * 8580 + 7920},
              {"--period=2025-11-04..2025-12-21", 0, 8580 + 7920},
              {"--period=2026", 0, 8580 + 7920}};
    json_t *d = NULL;
    for (size_t i = 0; i < sizeof of / sizeof *of; i++) {
        json_decref(d);
        d = json_loads(dossier_run(&w, "--format=json", of[i].days, NULL).out, 0, NULL);
        TEST_NEAR(month(d, "placed", "bird"), of[i].placed, 1e-9);
        TEST_NEAR(month(d, "in a house", "bird"), of[i].housed, 1e-9);
    }
    TEST_NEAR(number(dossier_row(d, "flocks", "house", "North"), "flocks"), 3, 0);
    TEST_NEAR(number(dossier_row(json_object_get(d, "mortality"), "flocks", "house", "North"), "placed_birds"),
              3 * 8580, 1e-9);
    done(&w, d);
}

/* The log of the fixture: 7 entries, 2026-02-16 to 18, entry 4 replaced by 7: six loads. That of 2025 likewise, a year
 * before: 2025-02-19 to 2026-02-18 holds none of it; all of 2025 holds six, and none of this file. */
static void first_screen(void) {
    dossier_world w = world(ls_arena_new(), ONE);
    /* its columns hold numbers of the worksheet off the column before; the last of them stay on one page */
    const char *out = dossier_run(&w, "--full", "--format=html", NULL).out;
    TEST_HOLDS(out, ".sheet li{margin:.15rem 0 .15rem 2.7rem}");
    TEST_HOLDS(out, "nth-last-child(-n+8){break-before:avoid-page}");
    out = dossier_run(&w, "--period", "2025", NULL).out;
    TEST_HOLDS(out, "Loads of 2025.yaml in this period: 6.");
    TEST_HOLDS(out, "littershed dossier 2025.yaml");
    TEST_HOLDS(out, "outside of this period: 6 of 6, entries 1-3, 5-7.");
    TEST_HOLDS(out, "The books from Wed, Jan 1, 2025 to Wed, Dec 31, 2025");
    TEST_HOLDS(out, "  on own fields                     25.26");
    out = dossier_run(&w, "--period", "2020", NULL).out;
    TEST_HOLDS(out, "No load of any file went in this period.");
    out = dossier_run(&w, NULL, NULL, NULL).out;
    CU_ASSERT_PTR_NULL(strstr(out, "this period"));
    CU_ASSERT_PTR_NULL(strstr(out, "outside"));
    /* all entries but 5 and 6 are outside */
    json_t *d = json_loads(dossier_run(&w, "--format=json", "--period=2026-02-18..2026-02-18", NULL).out, 0, NULL), *f;
    size_t i, alone = 0, counted = 0;
    json_array_foreach(json_object_get(d, "findings"), i, f) {
        json_t *entries = json_object_get(f, "entries");
        size_t n = json_array_size(entries), before = 0;
        for (size_t k = 0; k < n; k++) before += strchr("56", *json_string_value(json_array_get(entries, k))) == NULL;
        alone += n > 0 && n == before && strcmp(dossier_word(f, "state"), "present") == 0;
    }
    counted = (size_t)dossier_number(dossier_row(d, "verdict", "class", "records present"), "outside_period");
    TEST_SAME(counted, alone);
    CU_ASSERT(alone > 0);
    done(&w, d);
}

static double book(json_t *d, const char *what, const char *key) {
    json_t *period = json_object_get(d, "period"), *one;
    size_t i;
    json_array_foreach(period, i, one) {
        if (strcmp(dossier_word(one, "what"), what) == 0) return number(one, key);
    }
    return NAN;
}

/* Both sides of the books, of tons and of pounds. */
static void balanced(json_t *d) {
    static const char *const keys[] = {"tons", "N_lb", "P2O5_lb", "K2O_lb"};
    for (size_t i = 0; i < 4; i++) {
        double had = book(d, "in the stack at the start", keys[i]) + book(d, "in the houses at the start", keys[i]) +
                     book(d, "made", keys[i]);
        double went = book(d, "on own fields", keys[i]) + book(d, "moved to others", keys[i]) +
                      book(d, "lost, or gone to no known place", keys[i]) +
                      book(d, "in the stack at the end", keys[i]) + book(d, "in the houses at the end", keys[i]);
        TEST_NEAR(had, went, i == 0 ? 0.01 : 0.1);
    }
}

/* The year 2025: at its start the houses held what the flocks of 2024-04-21 (8,580 birds) and
 * 2024-05-05 (7,920) had made until then; on February 16 to 18 went 25.26, 17.13 and 8.49 tons; new
 * flocks came on 2025-04-21 and 2025-05-05, and what the old files had left is lost then. North
 * stood from 2025-04-21 to 2026-02-09, 294 days, of which 255 in 2025. */
static void a_year(void) {
    dossier_world w = world(ls_arena_new(), ONE);
    json_t *d = json_loads(dossier_run(&w, "--format=json", "--period=2025", NULL).out, 0, NULL);
    TEST_NEAR(book(d, "on own fields", "tons"), 25.26, 1e-6);
    TEST_NEAR(book(d, "on own fields", "P2O5_lb"), 25.26 * 56, 1e-3);
    TEST_NEAR(book(d, "moved to others", "tons"), 17.13, 1e-6);
    TEST_NEAR(book(d, "moved to others", "N_lb"), 17.13 * 38, 1e-3);
    TEST_NEAR(book(d, "in the stack at the start", "tons"), 0, 1e-9);
    TEST_NEAR(book(d, "in the stack at the end", "tons"), 8.49, 1e-6);
    TEST_NEAR(book(d, "in the stack at the end", "K2O_lb"), 8.49 * 36, 1e-3);
    CU_ASSERT(book(d, "lost, or gone to no known place", "tons") > 0);
    balanced(d);
    size_t i, seen = 0;
    json_t *line;
    json_array_foreach(json_object_get(d, "worksheet"), i, line) {
        if (strcmp(dossier_word(line, "key"), "dossier.period.file-0.north.left.made-until-share") != 0) continue;
        seen++;
        TEST_NEAR(number(line, "value"), 100 * 255.0 / 294, 1e-3);
    }
    TEST_SAME(seen, 1);
    json_decref(d);
    d = dossier_document(&w);
    json_t *lots = json_object_get(d, "lots"), *flock = json_array_get(json_object_get(d, "flocks"), 0);
    TEST_NEAR(number(flock, "made_tons"),
              number(json_array_get(lots, 0), "made_tons") + number(json_array_get(lots, 1), "made_tons"),
              1e-3); /* the one flock of North */
    balanced(d);
    done(&w, d);
}

/* The same log in both: six loads stand twice. */
static void doubled(void) {
    dossier_world w = world(ls_arena_new(), ONE);
    test_file(w.a, w.folder, "2025.haul.csv", dossier_log(w.a));
    json_t *d = dossier_document(&w);
    TEST_NEAR(month(d, "own fields", "tons"), 25.26, 1e-6);
    TEST_NEAR(month(d, "loads in two files", "count"), 6, 0);
    TEST_NEAR(number(year(d, "Upper Meadow", "this litter"), "left_lb_per_ac"), ON - 37.2, 1e-5);
    TEST_HOLDS(dossier_run(&w, "--full", NULL, NULL).out, "6 loads are in two files");
    done(&w, d);
}

static void unmatched_and_missing(void) {
    dossier_world w = world(ls_arena_new(), ONE ", {file: b.yaml, fields: 2025f.yaml}");
    test_file(w.a, w.folder, "b.yaml", dossier_house_before(w.a)); /* and no log */
    test_file(w.a, w.folder, "2025f.yaml",
              test_replace(w.a, dossier_fields(w.a), "name: Upper Meadow", "name: Far Meadow"));
    test_file(
        w.a, w.folder, "2025.haul.csv",
        test_replace(w.a, test_replace(w.a, dossier_log(w.a), "2026-02-1", "2025-02-1"), "Upper Meadow", "Far Meadow"));
    json_t *d = dossier_document(&w);
    TEST_SAME(told(d, "Larkspur Hay/Far Meadow of 2025.yaml (3 loads"), true);
    TEST_SAME(told(d, "b.yaml: its haul log has no entry, or is not there"), true);
    CU_ASSERT_PTR_NULL(year(d, "Upper Meadow", "2025"));
    done(&w, d);
}

/* Tables of a farm's own are those of its year. In a table of its own, tall fescue hay removes 1 lb
 * of P2O5 a ton: 3.5 lb/ac; by ipni, 12 lb a ton: 42 lb/ac. */
static double removed_by(bool this_year, bool earlier_year) {
    static const char table[] = "sources:\n  - {id: lab, who: County Laboratory, title: Samples}\n"
                                "tables:\n  - kind: removal\n    name: ipni\n    source: lab\n"
                                "    status: read\n    rows:\n"
                                "      tall fescue hay: {P2O5: 1 lb/ton}\n";
    dossier_world w = world(ls_arena_new(), ONE);
    const char *named = "farm:\n", *with = "own_tables: own.yaml\nfarm:\n";
    test_file(w.a, w.folder, "own.yaml", table);
    if (this_year)
        test_file(w.a, w.folder, strrchr(w.house, '/') + 1,
                  test_replace(w.a, test_file_text(w.a, w.house), named, with));
    if (earlier_year) test_file(w.a, w.folder, "2025.yaml", test_replace(w.a, dossier_house_before(w.a), named, with));
    json_t *d = dossier_document(&w);
    double removed = number(year(d, "Upper Meadow", "2025"), "removed_lb_per_ac");
    done(&w, d);
    return removed;
}

static void own_tables_of_the_year(void) {
    TEST_NEAR(removed_by(true, false), 42, 1e-9);
    TEST_NEAR(removed_by(false, true), 3.5, 1e-9);
    TEST_NEAR(removed_by(true, true), 3.5, 1e-9);
}

/* The message names the earlier file. */
static void mistake(void) {
    dossier_world w = world(ls_arena_new(), ONE);
    test_file(w.a, w.folder, "2025.yaml", test_replace(w.a, dossier_house(w.a), "length: 432 ft", "length: 432"));
    test_run run = dossier_run(&w, NULL, NULL, NULL);
    TEST_SAME(run.status, LS_MISTAKE);
    TEST_HOLDS(run.err, "2025.yaml:");
    TEST_TEXT(run.out, "");
    done(&w, NULL);
}

TEST_SUITE(dossier_years) = {{"removed at the expected yield", expected_yield},
                             {"removed at the yield got", yield_got},
                             {"file and logs differ", the_greater_counts},
                             {"rates read the logs", rates_read_the_logs},
                             {"nitrogen carried over", nitrogen_carried_over},
                             {"stack of the year before", stack_of_the_year_before},
                             {"each file its own", each_file_its_own},
                             {"two files of a year", two_files_of_a_year},
                             {"edge of the 12 months", edge_of_the_months},
                             {"days asked for", days_asked_for},
                             {"flocks alike", flocks_alike},
                             {"the period on the first screen", first_screen},
                             {"the books of a year", a_year},
                             {"a load in two files", doubled},
                             {"unmatched field, missing log", unmatched_and_missing},
                             {"own tables are those of their year", own_tables_of_the_year},
                             {"litter spread after the harvest", after_the_harvest},
                             {"renamed twice", renamed_twice},
                             {"a mistake in an earlier file", mistake},
                             CU_TEST_INFO_NULL};
