/* The dossier against the world outside it: the plan and the estimate as their own commands tell
 * them, and figures by hand on changed farms. */
#include "dossier_world.h"

#include "littershed/command.h"

#include <math.h>
#include <string.h>

static json_t *field(json_t *d, const char *name) {
    json_t *one = dossier_row(d, "fields", "field", name);
    CU_ASSERT_PTR_NOT_NULL_FATAL(one);
    return one;
}

static json_t *finding(json_t *d, const char *item) { return dossier_row(d, "findings", "item", item); }

/* A load more, of a lot's next number, to be added to a log of seven entries. */
static const char *load(ls_arena *a, long entry, const char *number, const char *day, const char *tons,
                        const char *where) {
    return ls_arena_printf(a,
                           "%ld,,%s-%c,%s,%s,yes,,%s,1,D. Ames,J. Osgood,report of "
                           "2026-01-29,not,dry,clear,rain,moist,\r\n",
                           entry, number, ls_check_character(number), day, tons, where);
}

typedef struct {
    ls_arena *a;
    dossier_world w;
    json_t *d;
} world;

static world look(ls_arena *a, const char *house, const char *fields, const char *log) {
    world x = {a, dossier_write(a, house, fields, log), NULL};
    test_run run = dossier_run(&x.w, "--format=json", NULL, NULL);
    x.d = json_loads(run.out, JSON_REJECT_DUPLICATES, NULL);
    CU_ASSERT_PTR_NOT_NULL_FATAL(x.d);
    return x;
}

static void end(world *x) {
    json_decref(x->d);
    test_folder_end(x->w.folder);
    ls_arena_free(x->a);
}

/* What another command tells of the same files. */
static json_t *told(ls_arena *a, const char *command, const char *house, const char *fields) {
    test_run run = PROGRAM(a, command, house, fields, FEW, "--format", "json");
    json_t *d = json_loads(run.out, 0, NULL);
    CU_ASSERT_PTR_NOT_NULL_FATAL(d);
    return d;
}

/* ---- nutrients ---- */

/* 60 % of the nitrogen of litter left on top is there for the crop (the demo's tables); the need
 * is compared with that, not with all of it: 24.2 of 40.4 lb/ac. */
static void available_nitrogen(void) {
    ls_arena *a = ls_arena_new();
    const char *fields = test_replace(a, dossier_fields(a), "nitrogen: 120 lb/ac", "nitrogen: 30 lb/ac");
    world x = look(a, dossier_house(a), fields, dossier_log(a));
    json_t *f = field(x.d, "Upper Meadow");
    TEST_NEAR(dossier_number(f, "available_N_lb_per_ac"), 0.6 * dossier_number(f, "N_lb_per_ac"), 1e-4);
    CU_ASSERT(dossier_number(f, "N_lb_per_ac") > 30);
    CU_ASSERT_PTR_NULL(finding(x.d, "more nitrogen than the need"));
    end(&x);
}

/* The ledger's row of that field for this litter; NULL: none. */
static json_t *this_litter(const world *x, const char *of) {
    size_t i;
    json_t *year;
    json_array_foreach(json_object_get(x->d, "ledger"), i, year) {
        if (strcmp(dossier_word(year, "field"), of) == 0 && strcmp(dossier_word(year, "year"), "this litter") == 0)
            return year;
    }
    return NULL;
}

/* Barn Field holds 5 lb/ac of 2025. 8.7 ton x 56 lb / 14.5 ac = 33.6; its bermudagrass took 4.6 of
 * 5 ton/ac, that share of what the page's removal is. */
static void banked_phosphate(void) {
    ls_arena *a = ls_arena_new();
    world x = look(a, dossier_house(a), dossier_fields(a),
                   ls_arena_printf(a, "%s%s", dossier_log(a),
                                   load(a, 8, "NORTH-LEFT-07", "2026-02-19T09:00", "8.7", "Larkspur Hay/Barn Field")));
    json_t *mine = this_litter(&x, "Barn Field");
    TEST_NEAR(dossier_number(mine, "P2O5_on_lb_per_ac"), 33.6, 1e-4);
    TEST_NEAR(dossier_number(mine, "left_lb_per_ac"), fmax(0, 33.6 + 5 - dossier_number(mine, "removed_lb_per_ac")),
              1e-4);
    CU_ASSERT_PTR_NOT_NULL(finding(x.d, "more phosphate than the rating allows"));
    end(&x);
}

/* Of 10 ac less the stream's strip one load covered 5.75 by the log: the other two share what is left. A row's
 * phosphate is its litter's, 56 lb a ton, without the 46 lb/ac bought. */
static void what_the_logged_acres_leave(void) {
    ls_arena *a = ls_arena_new();
    const char *fields = test_replace(a, dossier_fields(a), "area: 26 ac", "area: 10 ac");
    fields = test_replace(a, fields, "yield: 3.5 ton/ac\n",
                          "yield: 3.5 ton/ac\n        fertilizer: [{grade: 18-46-0, rate: 100 lb/ac}]\n");
    world x = look(a, dossier_house(a), fields,
                   test_replace(a, dossier_log(a), "8.62,yes,,Larkspur Hay/Upper Meadow",
                                "8.62,yes,,Larkspur Hay/Upper Meadow 8.62 ton 5.75 ac"));
    json_t *rows = json_object_get(field(x.d, "Upper Meadow"), "spread");
    const double left = 10 - 980 * 100 / 43560. - 5.75;
    TEST_SAME(json_array_size(rows), 3);
    TEST_NEAR(dossier_number(json_array_get(rows, 0), "acres"), 5.75, 1e-9);
    TEST_NEAR(dossier_number(json_array_get(rows, 0), "P2O5_lb_per_ac"), 8.62 * 56 / 5.75, 1e-4);
    TEST_NEAR(dossier_number(json_array_get(rows, 1), "acres"), left * 8.71 / (8.71 + 7.93), 1e-4);
    TEST_NEAR(dossier_number(json_array_get(rows, 2), "acres"), left * 7.93 / (8.71 + 7.93), 1e-4);
    end(&x);
}

/* The same load on 5 of the 14.5 ac is 8.7 x 56 / 5 = 97.44 lb an acre covered, and 33.6 of the whole field, off which
 * the crop takes it: that stands in the ledger, and the same does in the ledger of the year after. */
static void one_base(void) {
    ls_arena *a = ls_arena_new();
    world x = look(a, dossier_house(a), dossier_fields(a),
                   ls_arena_printf(a, "%s%s", dossier_log(a),
                                   load(a, 8, "NORTH-LEFT-07", "2026-02-19T09:00", "8.7",
                                        "\"Larkspur Hay/Barn Field (8.7 ton, 5 ac)\"")));
    json_t *f = field(x.d, "Barn Field"), *mine = this_litter(&x, "Barn Field");
    TEST_NEAR(dossier_number(f, "P2O5_lb_per_ac"), 97.44, 1e-4);
    TEST_NEAR(dossier_number(mine, "P2O5_on_lb_per_ac"), 33.6, 1e-4);
    TEST_NEAR(dossier_number(mine, "left_lb_per_ac"), fmax(0, 33.6 + 5 - dossier_number(mine, "removed_lb_per_ac")),
              1e-4);
    end(&x);
}

/* 25.26 ton on 10 ac less the stream's 2.25 is 3.26 ton/ac. The plan's own 3 ton/ac is a limit;
 * where the files give none, the published 3 ton/ac is a caution. */
static void whose_limit(void) {
    for (int own = 0; own < 2; own++) {
        ls_arena *a = ls_arena_new();
        const char *fields = test_replace(a, dossier_fields(a), "area: 26 ac", "area: 10 ac");
        if (!own)
            fields = test_replace(a, fields, "        most: 3 ton/ac\n        incorporated: never\n",
                                  "        incorporated: never\n");
        world x = look(a, dossier_house(a), fields, dossier_log(a));
        json_t *f = finding(x.d, "more litter than the rate");
        TEST_TEXT(dossier_word(f, "required"), own ? "yes" : "no");
        TEST_TEXT(dossier_word(f, "state"), own ? "limit exceeded" : "caution");
        TEST_HOLDS(dossier_word(f, "cite"), own ? "the farm's own file, " : "aces-889");
        TEST_SAME(dossier_run(&x.w, "--strict", NULL, NULL).status, own ? LS_MISTAKE : LS_DONE);
        end(&x);
    }
}

/* 22 ac at 1.5 ton/ac take 33 ton: 33.3 ton are 1 % over, which scales and tarps leave open. */
static void a_scale_step_over(void) {
    static const char *const tons[] = {"16.15", "16.35"}; /* with 17.13: 33.28 and 33.48 */
    for (size_t i = 0; i < 2; i++) {
        ls_arena *a = ls_arena_new();
        world x = look(
            a, dossier_house(a), dossier_fields(a),
            ls_arena_printf(a, "%s%s", dossier_log(a),
                            load(a, 8, "NORTH-LEFT-07", "2026-02-18T12:00", tons[i], "Osgood Row Crops/Wheat Strip")));
        CU_ASSERT_EQUAL(finding(x.d, "more litter than the rate") != NULL, i == 1);
        end(&x);
    }
}

/* ---- the stack ---- */

static json_t *too_long(const world *x) { return finding(x->d, "longer in the stack than allowed"); }

/* At most 14 days. In on the 16th and out on the 20th, in again on 10 March and out on the
 * 12th: 4 days. Litter that is in it yet counts to the day printed. */
static void stack_days(void) {
    ls_arena *a = ls_arena_new();
    const char *house = test_replace(a, dossier_house(a), "height: 6 ft,", "height: 6 ft, most_days: 14 days,");
    const char *meadow = "Larkspur Hay/Upper Meadow";
    const char *out = load(a, 8, "NORTH-LEFT-S01", "2026-02-20", "8.49", meadow),
               *in = load(a, 9, "NORTH-LEFT-07", "2026-03-10", "8.49", "stack"),
               *again = load(a, 10, "NORTH-LEFT-S02", "2026-03-12", "8.49", meadow);
    world x = look(a, house, dossier_fields(a), ls_arena_printf(a, "%s%s%s%s", dossier_log(a), out, in, again));
    CU_ASSERT_PTR_NULL(too_long(&x));
    TEST_HOLDS(dossier_run(&x.w, "--full", NULL, NULL).out, "Longest in it: Wed, Feb 18 to Fri, Feb 20.");
    TEST_HOLDS(dossier_run(&x.w, "--full", NULL, NULL).out,
               "By the log 59.37 tons went out of the houses."); /* 50.88 + 8.49 of load 07 */
    end(&x);
    a = ls_arena_new();
    x = look(a, test_replace(a, dossier_house(a), "height: 6 ft,", "height: 6 ft, most_days: 14 days,"),
             dossier_fields(a), dossier_log(a));
    CU_ASSERT_PTR_NULL(too_long(&x));
    TEST_HOLDS(dossier_run(&x.w, "--printed", "2026-03-05", "--format=json").out,
               "15 days, from Wed, Feb 18 to Thu, Mar 5; at most 14 days");
    end(&x);
}

/* Out and in on one day, the load out logged before the load in: nothing is left to lie there. */
static void through_the_stack_in_a_day(void) {
    ls_arena *a = ls_arena_new();
    const char *house = test_replace(a, dossier_house(a), "height: 6 ft,", "height: 6 ft, most_days: 14 days,");
    const char *log = test_replace(a, dossier_log(a), "8.49,yes,,stack", "8.49,yes,,Larkspur Hay/Upper Meadow");
    world x = look(a, house, dossier_fields(a),
                   ls_arena_printf(a, "%s%s%s", log,
                                   load(a, 8, "NORTH-LEFT-S01", "2026-02-20", "8.5", "Larkspur Hay/Upper Meadow"),
                                   load(a, 9, "NORTH-LEFT-07", "2026-02-20", "8.5", "stack")));
    TEST_NEAR(dossier_number(dossier_row(x.d, "balance", "way", "stacked"), "tons"), 0, 1e-9);
    CU_ASSERT_PTR_NULL(strstr(dossier_run(&x.w, "--printed", "2026-03-30", "--full").out, "some is there yet"));
    end(&x);
}

/* 8.49 ton went in. */
static void overdrawn(void) {
    ls_arena *a = ls_arena_new();
    world x = look(a, dossier_house(a), dossier_fields(a),
                   ls_arena_printf(a, "%s%s", dossier_log(a),
                                   load(a, 8, "NORTH-LEFT-S01", "2026-02-20", "10.49", "Larkspur Hay/Upper Meadow")));
    TEST_NEAR(dossier_number(dossier_row(x.d, "balance", "way", "stacked"), "tons"), 0, 1e-6);
    TEST_NEAR(dossier_number(dossier_row(x.d, "balance", "way", "unlogged"), "tons"), 2, 1e-6);
    CU_ASSERT_PTR_NOT_NULL(finding(x.d, "more out of the stack than went in"));
    end(&x);
}

/* ---- dates ---- */

/* The first load went on Upper Meadow on 2026-02-16: a soil test of that day serves, one of the
 * next does not. */
static void dated_late(void) {
    static const char *const days[] = {"2026-02-16", "2026-02-17"};
    for (size_t i = 0; i < 2; i++) {
        ls_arena *a = ls_arena_new();
        const char *fields = test_replace(a, dossier_fields(a), "soil: {date: 2025-10-14, method: Mehlich-1, P: 34",
                                          ls_arena_printf(a, "soil: {date: %s, method: Mehlich-1, P: 34", days[i]));
        world x = look(a, dossier_house(a), fields, dossier_log(a));
        CU_ASSERT_EQUAL(finding(x.d, "dated after litter went out") != NULL, i == 1);
        end(&x);
    }
}

/* The newest load went on Upper Meadow on 2026-02-18, and it was cut on 2026-05-28, 99 days after.
 */
static void harvest_too_soon(void) {
    for (long days = 99; days <= 100; days++) {
        ls_arena *a = ls_arena_new();
        const char *fields = test_replace(a, dossier_fields(a), "        harvested: 2026-05-28\n",
                                          ls_arena_printf(a,
                                                          "        harvested: 2026-05-28\n        "
                                                          "days_before_harvest: %ld\n        harvest: 2026-06-30\n",
                                                          days));
        world x = look(a, dossier_house(a), fields, dossier_log(a));
        CU_ASSERT_EQUAL(finding(x.d, "harvested too soon") != NULL, days == 100);
        end(&x);
    }
}

/* ---- receivers ---- */

/* Half a load to each of two: the second has no stream. */
static void two_receivers(void) {
    ls_arena *a = ls_arena_new();
    world x = look(a, dossier_house(a), dossier_fields(a),
                   ls_arena_printf(a, "%s%s", dossier_log(a),
                                   load(a, 8, "NORTH-LEFT-07", "2026-03-10T09:00", "8.4",
                                        "Osgood Row Crops/Wheat Strip; Whitcomb Pasture/Ridge")));
    size_t i, missing = 0;
    json_t *f;
    json_array_foreach(json_object_get(x.d, "findings"), i, f) {
        if (strcmp(dossier_word(f, "item"), "place of use") == 0 && strcmp(dossier_word(f, "state"), "missing") == 0) {
            TEST_HOLDS(dossier_word(f, "of"), "to Whitcomb Pasture");
            missing++;
        }
        if (strcmp(dossier_word(f, "of"), "Osgood Row Crops/Wheat Strip") == 0)
            TEST_TEXT(dossier_word(f, "required"), "no"); /* another's field is his to keep records of */
    }
    TEST_SAME(missing, 1);
    TEST_TEXT(dossier_word(finding(x.d, "acknowledgement"), "what"), "J. Osgood");
    end(&x);
}

/* ---- beside other commands ---- */

/* What the plan sends to a field, from the house and out of the stack. */
static double sent(json_t *plan, const char *name) {
    double tons = 0;
    size_t i, k;
    json_t *one, *drop;
    json_array_foreach(json_object_get(plan, "loads"), i, one) {
        json_array_foreach(json_object_get(one, "drops"), k, drop) {
            if (strcmp(dossier_word(drop, "field"), name) == 0) tons += dossier_number(drop, "tons");
        }
    }
    json_array_foreach(json_object_get(plan, "stack"), i, one) {
        json_array_foreach(json_object_get(one, "out"), k, drop) {
            if (strcmp(dossier_word(drop, "field"), name) == 0) tons += dossier_number(drop, "tons");
        }
    }
    return tons;
}

static void plan_and_estimate(void) {
    ls_arena *a = ls_arena_new();
    json_t *plan = told(a, "plan", DEMO_HOUSE, DEMO_FIELDS), *estimate = told(a, "estimate", DEMO_HOUSE, DEMO_FIELDS);
    world x = look(a, dossier_house(a), dossier_fields(a), dossier_log(a));
    json_t *tons = json_object_get(json_object_get(estimate, "total"), "tons");
    TEST_NEAR(dossier_number(dossier_row(x.d, "balance", "way", "estimate middle"), "tons"),
              dossier_number(tons, "mid"), 1e-3);
    TEST_NEAR(dossier_number(dossier_row(x.d, "balance", "way", "estimate high"), "tons"), dossier_number(tons, "high"),
              1e-3);
    json_decref(x.d);
    x.d = told(a, "dossier", DEMO_HOUSE, DEMO_FIELDS);
    double all = 0;
    size_t i;
    json_t *f;
    json_array_foreach(json_object_get(x.d, "fields"), i, f) {
        TEST_NEAR(dossier_number(f, "allotted_tons"), sent(plan, dossier_word(f, "field")), 1e-3);
        all += dossier_number(f, "allotted_tons");
    }
    CU_ASSERT(all > dossier_number(plan, "placed_tons")); /* some of it goes through the stack */
    json_decref(plan);
    json_decref(estimate);
    end(&x);
}

/* ---- pictures ---- */

/* Bars are to each other as their tons: 25.26 on own fields, 17.13 moved. */
static void bars(void) {
    ls_arena *a = ls_arena_new();
    world x = look(a, dossier_house(a), dossier_fields(a), dossier_log(a));
    const char *s = strstr(dossier_run(&x.w, "--format=html", NULL, NULL).out, "<title>Where the tons went");
    double wide[2] = {0, 0};
    for (size_t i = 0; i < 2; i++) {
        s = strstr(s, "<rect x=\"134.00\"");
        CU_ASSERT_PTR_NOT_NULL_FATAL(s);
        s = strstr(s, "width=\"") + 7;
        CU_ASSERT(ls_number_parse(s, strcspn(s, "\""), &wide[i]));
    }
    TEST_NEAR(wide[0] / wide[1], 25.26 / 17.13, 0.01);
    CU_ASSERT(wide[0] < 396);
    end(&x);
}

TEST_SUITE(dossier_books) = {{"available nitrogen", available_nitrogen},
                             {"banked phosphate", banked_phosphate},
                             {"what the logged acres leave", what_the_logged_acres_leave},
                             {"ledger by the whole field", one_base},
                             {"whose limit", whose_limit},
                             {"a scale step over", a_scale_step_over},
                             {"days in the stack", stack_days},
                             {"through the stack in a day", through_the_stack_in_a_day},
                             {"overdrawn stack", overdrawn},
                             {"dated late", dated_late},
                             {"harvest too soon", harvest_too_soon},
                             {"two receivers", two_receivers},
                             {"beside plan and estimate", plan_and_estimate},
                             {"bars", bars},
                             CU_TEST_INFO_NULL};
