/* What a load's entry holds besides its weight: acres, parts, what was confirmed; names before;
 * lists of loads that others wrote. */
#include "record_world.h"

#include "littershed/command.h"
#include "littershed/record.h"

#include <jansson.h>
#include <math.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static test_run record(world *t, const char *ticket, const char *tons, const char *field, const char *one,
                       const char *two) {
    return PROGRAM(t->a, "record", t->house, t->fields, "--ticket", ticket, "--tons", tons, "--when",
                   "2026-03-02T09:00", "--field", field, one, two);
}

static const ls_log_entry *entry(world *t, size_t number) {
    const ls_log *log = ls_log_read(t->a, ls_diag_new(t->a), t->log);
    CU_ASSERT_TRUE_FATAL(log != NULL && log->entries.n >= number);
    return &log->entries.at[number - 1];
}

static json_t *document(world *t, const char *command, const char *more) {
    test_run run = PROGRAM(t->a, command, t->house, t->fields, "--format", "json", more);
    TEST_SAME(run.status, LS_DONE);
    json_t *d = json_loads(run.out, 0, NULL);
    CU_ASSERT_PTR_NOT_NULL_FATAL(d);
    return d;
}

/* ---- acres and parts ---- */

#define MILL "Osgood Row Crops/Mill Forty"
#define WHEAT "Osgood Row Crops/Wheat Strip"

static void parts(void) {
    world t = begin();
    TEST_SAME(record(&t, "NORTH-LEFT-01-Q", "10.2", MILL " 9 tons 3 ac; " WHEAT " 1.2 tons", NULL, NULL).status,
              LS_DONE);
    TEST_TEXT(entry(&t, 1)->words[LS_LOG_FIELD], MILL " (9 ton, 3 ac); " WHEAT " (1.2 ton)");
    CU_ASSERT_TRUE(isnan(entry(&t, 1)->acres));
    test_run run = record(&t, "NORTH-LEFT-02-O", "10.2", MILL " 9 tons; " WHEAT, "--acres", "4");
    TEST_HOLDS(run.err, "Wheat Strip gets the rest, 1.2 tons");
    TEST_TEXT(entry(&t, 2)->words[LS_LOG_FIELD], MILL " (9 ton); " WHEAT " (1.2 ton)");
    TEST_NEAR(entry(&t, 2)->acres, 4 * 43560, 1e-9);
    record(&t, "NORTH-LEFT-03-M", "8", MILL " (5 ton, 2 ac); " WHEAT " 3 tons 1.5 acres", NULL, NULL);
    TEST_NEAR(entry(&t, 3)->acres, 3.5 * 43560, 1e-9); /* the parts tell it */
    end(&t);
}

static void parts_that_do_not_add_up(void) {
    static const char *const bad[][3] = {
        {MILL " 9 tons; " WHEAT " 2 tons", NULL, "11 tons and the load to 10.2: 0.8 tons are too many"},
        {MILL " 9 tons; " WHEAT " 1 tons", NULL, "10 tons and the load to 10.2: 0.2 tons are missing"},
        {MILL " 9 tons", NULL, "9 tons and the load to 10.2: 1.2 tons are missing"},
        {MILL " 10.2 tons; " WHEAT, NULL, "nothing is left for the others"},
        {MILL " 4 tons; " WHEAT "; stack", NULL, "only one part may go without tons"},
        {MILL " 9 tons 3 ac; " WHEAT " 1.2 tons 1 ac", "5", "cover 4 acres and the load 5"},
    };
    world t = begin();
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        test_run run =
            record(&t, "NORTH-LEFT-01-Q", "10.2", bad[i][0], bad[i][1] == NULL ? NULL : "--acres", bad[i][1]);
        TEST_SAME(run.status, LS_MISTAKE);
        TEST_HOLDS(run.err, bad[i][2]);
    }
    CU_ASSERT_PTR_NULL(test_file_text(t.a, t.log));
    end(&t);
}

/* An empty text takes acres and the share cleared back, with a correction alone. */
static void taken_back(void) {
    world t = begin();
    record(&t, "NORTH-LEFT-01-Q", "8.6", MILL, "--acres", "3");
    PROGRAM(t.a, "record", t.house, t.fields, "--replaces", "1", "--cleared", "12 %");
    PROGRAM(t.a, "record", t.house, t.fields, "--replaces", "2", "--acres", "");
    CU_ASSERT_TRUE(isnan(entry(&t, 3)->acres));
    TEST_NEAR(entry(&t, 3)->cleared, 0.12, 1e-12);
    PROGRAM(t.a, "record", t.house, t.fields, "--replaces", "3", "--cleared", "");
    CU_ASSERT_TRUE(isnan(entry(&t, 4)->cleared));
    TEST_SAME(record(&t, "NORTH-LEFT-02-O", "8.6", MILL, "--acres", "").status, LS_USAGE);
    record(&t, "NORTH-LEFT-02-O", "10.2", MILL " 9 tons 3 ac; " WHEAT " 1.2 tons 1 ac", NULL, NULL);
    test_run run = PROGRAM(t.a, "record", t.house, t.fields, "--replaces", "5", "--acres", "");
    TEST_SAME(run.status, LS_MISTAKE);
    TEST_HOLDS(run.err, "the parts tell acres of their own");
    end(&t);
}

/* Tons on field, of the plan. */
static double planned(world *t, const char *field) {
    json_t *plan = document(t, "plan", NULL), *load, *drop;
    double sum = 0;
    size_t i, k;
    json_array_foreach(json_object_get(plan, "loads"), i, load) {
        json_array_foreach(json_object_get(load, "drops"), k, drop) {
            if (strcmp(json_string_value(json_object_get(drop, "field")), field) == 0)
                sum += json_number_value(json_object_get(drop, "tons"));
        }
    }
    json_decref(plan);
    return sum;
}

/* Upper Meadow has some 23.7 acres to spread, at 3 tons/ac 71 tons: a load that covered 20 of them
 * leaves 3.7, so at most 11.3 tons. */
static void acres_are_taken(void) {
    world t = begin();
    TEST_SAME(record(&t, "NORTH-LEFT-01-Q", "8.6", "Larkspur Hay/Upper Meadow", "--acres", "20").status, LS_DONE);
    CU_ASSERT_TRUE(planned(&t, "Upper Meadow") < 11.4);
    PROGRAM(t.a, "record", t.house, t.fields, "--replaces", "1", "--acres", "2.9");
    CU_ASSERT_TRUE(planned(&t, "Upper Meadow") > 40);
    end(&t);
}

/* 8.6 tons on 2 of the field's 23.75 acres are 4.3 tons on an acre. A load more without acres
 * covers, at the rate of 3 tons/ac, 2.867: 17.2 tons on 4.867. One of 22 acres more, and all is
 * covered. */
static void acres_in_the_dossier(void) {
    static const double per_acre[] = {4.3, 17.2 / (2 + 8.6 / 3), 25.8 / 23.75023};
    static const char *const tickets[] = {"NORTH-LEFT-01-Q", "NORTH-LEFT-02-O", "NORTH-LEFT-03-M"};
    static const char *const acres[] = {"2", NULL, "22"};
    world t = begin();
    for (size_t i = 0; i < 3; i++) {
        record(&t, tickets[i], "8.6", "Larkspur Hay/Upper Meadow", acres[i] != NULL ? "--acres" : NULL, acres[i]);
        json_t *d = document(&t, "dossier", NULL), *field;
        size_t k, found = 0;
        json_array_foreach(json_object_get(d, "fields"), k, field) {
            if (strcmp(json_string_value(json_object_get(field, "field")), "Upper Meadow") != 0) continue;
            TEST_NEAR(json_number_value(json_object_get(field, "ton_per_ac")), per_acre[i], 1e-5);
            found++;
        }
        TEST_SAME(found, 1);
        json_decref(d);
    }
    end(&t);
}

/* ---- what was confirmed ---- */

#define HEAVY "12.6 tons is more than the truck may carry (payload 11 tons)"

static void confirmed(void) {
    static const char *const odd[][4] = {
        {"12.6", MILL, "2026-03-02", HEAVY},
        {"8.6", MILL, "2026-02-20", "Mill Forty is closed on 2026-02-20 (open 2026-03-01 to 2026-04-20), 8.6 tons"},
        {"8.6", "stack", "2026-02-03", "2026-02-03 is before the birds left North (2026-02-09)"},
        {"8.6", "stack", "2026-06-30", "2026-06-30 is long after the loads of North should be out (2026-04-17)"},
        {"8.6", "Whitcomb Pasture/Ridge", "2026-02-20",
         "Ridge takes no litter: its phosphorus is rated very high, 8.6 tons"},
    };
    static const char *const tickets[] = {"NORTH-LEFT-01-Q", "NORTH-LEFT-02-O", "NORTH-LEFT-03-M", "NORTH-LEFT-04-K",
                                          "NORTH-LEFT-05-I"};
    world t = begin();
    for (size_t i = 0; i < sizeof odd / sizeof *odd; i++)
        for (int sure = 0; sure < 2; sure++) {
            test_run run = PROGRAM(t.a, "record", t.house, t.fields, "--ticket", tickets[i], "--tons", odd[i][0],
                                   "--when", odd[i][2], "--field", odd[i][1], sure ? "--sure" : NULL);
            TEST_SAME(run.status, sure ? LS_DONE : LS_MISTAKE);
            if (sure)
                TEST_TEXT(entry(&t, i + 1)->words[LS_LOG_CONFIRMED], odd[i][3]);
            else
                TEST_HOLDS(run.err, "--sure records it all the same");
            TEST_HOLDS(run.err, odd[i][3]);
        }
    test_run run = PROGRAM(t.a, "record", t.house, t.fields, "--replaces", "1", "--weather", "dry");
    TEST_SAME(run.status, LS_DONE); /* it was confirmed before */
    TEST_TEXT(entry(&t, 6)->words[LS_LOG_CONFIRMED], HEAVY);
    run = PROGRAM(t.a, "record", t.house, t.fields, "--replaces", "6", "--tons", "900");
    TEST_SAME(run.status, LS_MISTAKE); /* that was for 12.6 */
    TEST_HOLDS(run.err, "900 tons is more than the truck may carry");
    run = PROGRAM(t.a, "record", t.house, t.fields, "--replaces", "5", "--tons", "9");
    TEST_SAME(run.status, LS_MISTAKE); /* that was for 8.6 on Ridge */
    PROGRAM(t.a, "record", t.house, t.fields, "--replaces", "6", "--tons", "8.6");
    TEST_TEXT(entry(&t, 7)->words[LS_LOG_CONFIRMED], "");
    end(&t);
}

/* Whoever says --sure has been shown all that looks wrong, once; --sure at the first try shows it
 * too. A correction asks for what is new alone. */
static void all_of_it_is_shown(void) {
    static const char *const odd[] = {
        "12.6 tons is more than the truck may carry", "this ticket went into the stack with entry 1",
        "Mill Forty is closed on 2026-02-03", "Mill Forty has 38 ac, the load covered 99 acres",
        "2026-02-03 is before the birds left North"};
    enum { ODD = sizeof odd / sizeof *odd };
    world t = begin();
    record(&t, "NORTH-LEFT-01-Q", "8.6", "stack", NULL, NULL);
    for (int sure = 0; sure < 2; sure++) {
        test_run run =
            PROGRAM(t.a, "record", t.house, t.fields, "--ticket", "NORTH-LEFT-01-Q", "--tons", "12.6", "--when",
                    "2026-02-03T09:00", "--field", MILL, "--acres", "99", "--again", sure ? "--sure" : NULL);
        TEST_SAME(run.status, sure ? LS_DONE : LS_MISTAKE);
        for (size_t i = 0; i < ODD; i++) TEST_HOLDS(run.err, odd[i]);
    }
    for (size_t i = 0; i < ODD; i++) TEST_HOLDS(entry(&t, 2)->words[LS_LOG_CONFIRMED], odd[i]);
    test_run run = PROGRAM(t.a, "record", t.house, t.fields, "--replaces", "2", "--when", "2026-02-02");
    TEST_SAME(run.status, LS_MISTAKE);
    TEST_HOLDS(run.err, "Mill Forty is closed on 2026-02-02");
    CU_ASSERT_PTR_NULL(strstr(run.err, "12.6 tons is more"));
    CU_ASSERT_PTR_NULL(strstr(run.err, "99 acres"));
    end(&t);
}

/* A field that is past its limit gets nothing for that, not for its size. */
static void past_its_limit(void) {
    static const char *const tickets[] = {"NORTH-LEFT-01-Q", "NORTH-LEFT-02-O", "NORTH-LEFT-03-M", "NORTH-LEFT-04-K"};
    world t = begin();
    for (size_t i = 0; i < sizeof tickets / sizeof *tickets; i++)
        PROGRAM(t.a, "record", t.house, t.fields, "--ticket", tickets[i], "--tons", "11", "--when", "2026-03-02T09:00",
                "--field", "Osgood Row Crops/Wheat Strip", "--sure");
    test_run run = PROGRAM(t.a, "plan", t.house, t.fields, "--full");
    TEST_HOLDS(test_joined(t.a, run.out), "it has had all it may take.");
    end(&t);
}

/* From an hour on of a day on which loads went: it was not idle until then. */
static void a_day_that_is_begun(void) {
    world t = begin();
    PROGRAM(t.a, "record", t.house, t.fields, "--ticket", "NORTH-LEFT-01-Q", "--tons", "8.6", "--when",
            "2026-02-16T09:00", "--field", "Larkspur Hay/Upper Meadow");
    test_run run = PROGRAM(t.a, "plan", t.house, t.fields, "--from", "2026-02-16T13:00", "--full");
    TEST_HOLDS(run.out, "- Mon, Feb 16: 1 load went until 1:00 pm\n");
    TEST_HOLDS(test_joined(t.a, run.out), "1 load gone already; North/left: ");
    TEST_HOLDS(run.out, "Find room now for what has NO FIELD");
    CU_ASSERT_PTR_NULL(strstr(run.out, "The loader is out"));
    end(&t);
}

/* After loads of 8.6 tons, 10.8 are a heaped body, by weight within the payload of 11. */
static void a_heaped_body_is_a_remark(void) {
    world t = begin();
    static const char *const before[] = {"NORTH-RIGHT-01-2", "NORTH-RIGHT-02-Z", "NORTH-RIGHT-03-X",
                                         "NORTH-RIGHT-04-V"};
    for (size_t i = 0; i < sizeof before / sizeof *before; i++)
        PROGRAM(t.a, "record", t.house, t.fields, "--ticket", before[i], "--tons", "8.6", "--weighed", "--when",
                "2026-03-01T09:00", "--field", MILL);
    test_run run = record(&t, "NORTH-LEFT-01-Q", "10.8", MILL, "--weighed", NULL);
    TEST_SAME(run.status, LS_DONE);
    TEST_HOLDS(run.err, "10.80 tons is much for a load");
    TEST_TEXT(entry(&t, 5)->words[LS_LOG_CONFIRMED], "");
    end(&t);
}

/* The plan is of February; whoever leaves --when out years later is asked for the day. */
static void today_is_not_taken_in_silence(void) {
    world t = begin();
    test_run run =
        PROGRAM(t.a, "record", t.house, t.fields, "--ticket", "NORTH-LEFT-01-Q", "--tons", "8.6", "--field", "stack");
    TEST_SAME(run.status, LS_MISTAKE);
    TEST_HOLDS(run.err, "without --when today counts");
    end(&t);
}

/* The log is read to find the place, and again to write: what is odd about it is told once. */
static void told_once(void) {
    world t = begin();
    record(&t, "NORTH-LEFT-01-Q", "8.6", MILL, NULL, NULL);
    test_file(t.a, t.folder, "h.haul.csv", test_replace(t.a, test_file_text(t.a, t.log), ",8.6,", ",8.7,"));
    test_run run = record(&t, "NORTH-LEFT-02-O", "8.6", MILL, NULL, NULL);
    const char *once = strstr(run.err, "differs in the log and its copy");
    CU_ASSERT_PTR_NOT_NULL_FATAL(once);
    CU_ASSERT_PTR_NULL(strstr(once + 1, "differs in the log"));
    end(&t);
}

/* ---- the litter before ---- */

static double tons_of(world *t, const char *command, const char *lot) {
    json_t *d = document(t, command, NULL), *one;
    double tons = NAN;
    size_t i;
    json_array_foreach(json_object_get(d, "lots"), i, one) {
        if (strcmp(json_string_value(json_object_get(one, "lot")), lot) == 0)
            tons = json_number_value(json_object_get(json_object_get(one, "tons"), "mid"));
    }
    json_decref(d);
    return tons;
}

/* The birds of North came on 2025-04-21. A load of the spring before, when all of the side went
 * out, empties nothing now, and its ticket is free again. */
static void litter_of_last_year(void) {
    world t = begin();
    double before = tons_of(&t, "estimate", "North/left");
    CU_ASSERT_TRUE(before > 50);
    test_run run = PROGRAM(t.a, "record", t.house, t.fields, "--ticket", "NORTH-LEFT-01-Q", "--tons", "9", "--when",
                           "2025-02-20", "--field", "stack", "--cleared", "all", "--sure");
    TEST_SAME(run.status, LS_DONE);
    TEST_NEAR(tons_of(&t, "estimate", "North/left"), before, 1e-9);
    TEST_HOLDS(PROGRAM(t.a, "tickets", t.house, t.fields).out, "NORTH-LEFT-01-Q");
    run = record(&t, "NORTH-LEFT-01-Q", "8.6", MILL, NULL, NULL);
    TEST_SAME(run.status, LS_DONE);
    TEST_NEAR(tons_of(&t, "estimate", "North/left"), before - 8.6, 0.5);
    run = record(&t, "NORTH-LEFT-01-Q", "8.6", MILL, NULL, NULL);
    TEST_HOLDS(run.err, "is logged already, as entry 2");
    run = PROGRAM(t.a, "record", t.house, t.fields, "--list");
    TEST_SAME(run.status, LS_DONE);
    TEST_HOLDS(run.out, "North/left, litter before");
    end(&t);
}

/* ---- notes of the log ---- */

/* What is odd about the log stands on every page that counts its loads, and in their JSON. */
static void notes_on_the_pages(void) {
    static const char *const notes[] = {"Entry 2 (SOUTH-LEFT-01-G): the farm files name no side or house",
                                        "Entry 1 (NORTH-LEFT-01-Q): out before the birds came",
                                        "Entry 3 (NORTH-LEFT-02-O): the farm files do not name the field",
                                        "Entry 4, tons: the log says \"18.6\", its copy \"8.6\", which counts",
                                        "Its last entry is missing in the log and counted by its copy"};
    static const char *const commands[][2] = {{"estimate", NULL},  {"rates", NULL},          {"plan", NULL},
                                              {"tickets", NULL},   {"tickets", "--promise"}, {"dossier", NULL},
                                              {"record", "--list"}};
    enum { NOTES = sizeof notes / sizeof *notes };
    world t = begin();
    PROGRAM(t.a, "record", t.house, t.fields, "--ticket", "NORTH-LEFT-01-Q", "--tons", "9", "--when", "2025-02-20",
            "--field", "stack", "--sure");
    record(&t, "SOUTH-LEFT-01-G", "7", MILL, NULL, NULL);
    record(&t, "NORTH-LEFT-02-O", "8.7", WHEAT, NULL, NULL);
    record(&t, "NORTH-LEFT-03-M", "8.6", MILL, NULL, NULL);
    record(&t, "NORTH-LEFT-04-K", "8.5", MILL, NULL, NULL);
    const char *log = test_replace(t.a, test_file_text(t.a, t.log), ",8.6,", ",18.6,");
    test_file(t.a, t.folder, "h.haul.csv", ls_arena_copy_n(t.a, log, (size_t)(strstr(log, "\n5,") + 1 - log)));
    test_file(t.a, t.folder, "h.yaml",
              test_replace(t.a, test_file_text(t.a, t.house), "  - name: South", "  - name: West"));
    test_file(t.a, t.folder, "f.yaml",
              test_replace(t.a, test_file_text(t.a, t.fields), "name: Wheat Strip", "name: Strip"));
    for (size_t i = 0; i < sizeof commands / sizeof *commands; i++) {
        const char *command = commands[i][0], *more = commands[i][1];
        const char *page = PROGRAM(t.a, command, t.house, t.fields, more).out;
        test_run run = PROGRAM(t.a, command, t.house, t.fields, "--format", "json", more);
        json_t *d = json_loads(run.out, 0, NULL), *list = json_object_get(d, "log_notes");
        TEST_SAME(json_array_size(list), NOTES);
        for (size_t k = 0; k < NOTES; k++) {
            TEST_HOLDS(test_joined(t.a, page), notes[k]);
            TEST_HOLDS(json_string_value(json_array_get(list, k)), notes[k]);
        }
        json_decref(d);
    }
    end(&t);
}

/* ---- tickets that were issued ---- */

/* As next year's paper will be written down: the way of the ticket, not the plan's, which sends it
 * to a field. */
static void issued(void) {
    world t = begin();
    ls_log_book *book;
    const char *why;
    long number;
    ls_log_entry e = ls_log_no_facts(LS_NOWHERE);
    e.tons = 17200;
    e.kind = LS_LOG_ISSUED;
    e.sure = LS_LOG_FIRM;
    e.when = (ls_when){ls_date_of(2026, 2, 16), -1};
    e.words[LS_LOG_FIELD] = MILL " (5 ton, 2.5 ac); " WHEAT " (3.6 ton, 1.8 ac)";
    ls_ticket_read(t.a, "NORTH-LEFT-01-Q", &e.ticket);
    CU_ASSERT_EQUAL_FATAL(ls_log_open(t.a, ls_diag_new(t.a), t.log, &book, &why), LS_LOG_DONE);
    CU_ASSERT_EQUAL(ls_log_append(book, &e, 1, &number, &why), LS_LOG_DONE);
    ls_log_close(book);
    test_run run = PROGRAM(t.a, "record", t.house, t.fields, "--ticket", "NORTH-LEFT-01-Q", "--tons", "4.3", "--when",
                           "2026-03-02");
    TEST_SAME(run.status, LS_DONE);
    TEST_TEXT(entry(&t, 2)->words[LS_LOG_FIELD], MILL " (2.5 ton); " WHEAT " (1.8 ton)");
    json_t *list = document(&t, "record", "--list");
    TEST_SAME(json_array_size(json_object_get(list, "loads")), 1);
    json_decref(list);
    end(&t);
}

/* ---- names before ---- */

/* House, side, buyer, field and truck renamed: loads count where they went. */
static void renamed(void) {
    world t = begin();
    PROGRAM(t.a, "record", t.house, t.fields, "--ticket", "NORTH-LEFT-01-Q", "--tons", "8.6", "--when", "2026-02-16",
            "--field", "Larkspur Hay/Upper Meadow", "--truck", "spreader truck");
    const char *house = test_file_text(t.a, t.house), *fields = test_file_text(t.a, t.fields);
    const char *named = test_replace(t.a, house, "name: North\n", "name: Barn One\n    formerly: North\n");
    named = test_replace(t.a, named, "name: spreader truck\n", "name: Mack\n    formerly: spreader truck\n");
    named = test_replace(t.a, named, "sides: [left, right]", "sides: [{name: west, formerly: left}, right]");
    test_file(t.a, t.folder, "h.yaml", named);
    named = test_replace(t.a, fields, "name: Larkspur Hay\n", "name: Lark Farm\n    formerly: Larkspur Hay\n");
    test_file(t.a, t.folder, "f.yaml",
              test_replace(t.a, named, "name: Upper Meadow\n", "name: Top\n        formerly: Upper Meadow\n"));
    test_run run = PROGRAM(t.a, "estimate", FEW, t.house, t.fields);
    TEST_TEXT(run.err, "");
    json_t *list = document(&t, "record", "--list");
    json_t *place = json_array_get(json_object_get(list, "places"), 0);
    TEST_TEXT(json_string_value(json_object_get(place, "field")), "Top");
    TEST_TEXT(json_string_value(json_object_get(json_array_get(json_object_get(list, "lots"), 0), "lot")),
              "Barn One/west");
    json_decref(list);
    run = PROGRAM(t.a, "record", t.house, t.fields, "--replaces", "1", "--weather", "dry");
    TEST_SAME(run.status, LS_DONE);
    TEST_TEXT(entry(&t, 2)->words[LS_LOG_FIELD], "Lark Farm/Top");
    end(&t);
}

/* A house that is gone from the files, a correction of a correction, a strike, a load without a
 * place: each on the page, and the sums hold all that counts. */
static void on_the_pages(void) {
    world t = begin();
    record(&t, "NORTH-LEFT-01-Q", "8.6", MILL, NULL, NULL);
    PROGRAM(t.a, "record", t.house, t.fields, "--replaces", "1", "--tons", "8.4");
    PROGRAM(t.a, "record", t.house, t.fields, "--replaces", "2", "--tons", "8.5");
    record(&t, "SOUTH-LEFT-01-G", "7", "Larkspur Hay/Upper Meadow", NULL, NULL);
    record(&t, "NORTH-LEFT-02-O", "9", MILL, NULL, NULL);
    PROGRAM(t.a, "record", t.house, t.fields, "--replaces", "5", "--tons", "0");
    const char *south = strstr(test_file_text(t.a, t.house), "  - name: South");
    test_file(t.a, t.folder, "h.yaml",
              test_replace(t.a, test_file_text(t.a, t.house), ls_arena_copy_n(t.a, south, 15), "  - name: West"));
    test_run run = PROGRAM(t.a, "record", t.house, t.fields, "--list");
    TEST_HOLDS(run.out, "entry 3 replaces entry 2");
    TEST_HOLDS(run.out, "entry 6 strikes entry 5");
    TEST_HOLDS(test_joined(t.a, run.out), "Entry 4 (SOUTH-LEFT-01-G): the farm files name no side");
    json_t *list = document(&t, "record", "--list"), *place;
    static const char *const kinds[] = {"hauled", "correction", "correction", "hauled", "hauled", "strike"};
    size_t i;
    json_array_foreach(json_object_get(list, "entries"), i, place) {
        TEST_TEXT(json_string_value(json_object_get(place, "kind")), kinds[i]);
    }
    TEST_SAME(i, 6);
    double sum = 0;
    json_array_foreach(json_object_get(list, "places"), i, place) {
        sum += json_number_value(json_object_get(place, "tons"));
    }
    TEST_NEAR(sum, 8.5 + 7, 1e-9);
    TEST_NEAR(json_number_value(json_object_get(json_object_get(list, "out_of_houses"), "tons")), 8.5 + 7, 1e-9);
    json_decref(list);
    TEST_SAME(PROGRAM(t.a, "record", t.house, t.fields, "--replaces", "4", "--tons", "6.5").status, LS_DONE);
    end(&t);
}

/* ---- lists ---- */

static const char scale_list[] = "Ticket No,Date,Time,Truck,Gross (lb),Tare (lb),Net (lb),Fee\n"
                                 "NORTH-LEFT-01-Q,2/16/2026,9:06 AM,07,\"43,700\",26500,\"17,200\",4\n"
                                 "NORTH-LEFT-02-O,2/16/2026,10:15 AM,07,\"43,900\",26500,17400,4\n";

static test_run import(world *t, const char *list, const char *sure) {
    const char *path = test_file(t->a, t->folder, "scale.csv", list);
    return PROGRAM(t->a, "record", t->house, t->fields, "--import", path, sure);
}

static void a_scale_house(void) {
    world t = begin();
    test_run run = import(&t, scale_list, NULL);
    TEST_SAME(run.status, LS_DONE);
    TEST_HOLDS(run.out, "NORTH-LEFT-02-O, 8.7 tons weighed, 2026-02-16T10:15, no field given, 07");
    TEST_HOLDS(run.out, "Columns not read: Fee.");
    TEST_HOLDS(run.out, "Nothing is written yet");
    CU_ASSERT_PTR_NULL(test_file_text(t.a, t.log));
    run = import(&t, scale_list, "--sure");
    TEST_SAME(run.status, LS_DONE);
    TEST_HOLDS(run.out, "2 rows of ");
    TEST_HOLDS(test_file_text(t.a, t.log),
               "2,,NORTH-LEFT-02-O,2026-02-16T10:15,8.7,yes,,,07,,,,,,,,,,,,,,,,2 of 2,hauled\r\n");
    run = import(&t, scale_list, "--sure"); /* once more */
    TEST_HOLDS(run.out, "0 rows of ");
    TEST_HOLDS(run.out, "2 more are there already");
    CU_ASSERT_PTR_NULL(strstr(test_file_text(t.a, t.log), "\n3,"));
    PROGRAM(t.a, "record", t.house, t.fields, "--replaces", "1", "--tons", "8.5");
    TEST_HOLDS(import(&t, scale_list, "--sure").out, "2 more are there already"); /* all the same */
    end(&t);
}

/* Rows, and what is said of them; nothing is written. */
static void lists_that_are_refused(void) {
    static const char *const bad[][2] = {
        {"Ticket,Date\nNORTH-LEFT-01-Q,2026-02-16\n", "1:1: error: this list has no columns"},
        {"Ticket,Date,Net\nNORTH-LEFT-01-Q,2026-02-16,450\n", "2:28: error: this row has no weight"},
        {"Ticket,Date,Net\nNORTH-LEFT-01-Q,2026-02-16,\"17,200\"\n", "2:28: error: this may be 8.6 or 17.2 tons"},
        {"Ticket,Date,Net\nNORTH-LEFT-01-Q,2026-02-16,9.460\n", "2:28: error: this may be 4.73 or 9.46 tons"},
        {"Ticket,Date,Net\nNORTH-LEFT-01-Q,2026-02-16,17200\nNORTH-LEFT-02-O,2026-02-16,8.7\n",
         "3:28: error: this weight has another unit or decimal sign than those above"},
        {"Ticket,Date,Net (t)\nNORTH-LEFT-01-Q,2026-02-16,8.6\n", "1:13: error: t may be of 2,000 lb or of 1,000 kg"},
        {"Ticket,Date,Net\nNORTH-LEFT-01-Q,2026-02-16,8.6 t\n", "2:28: error: t may be of 2,000 lb or of 1,000 kg"},
        {"Ticket,Date,Net lb,Note\nNORTH-LEFT-01-Q,2026-02-16,17200,\"dry an", "2:1: error: this line has 4 cells"},
        {"Ticket,Date,Net lb,Fee\nNORTH-LEFT-01-Q,2026-02-16,172", "hint: was the list cut off?"},
        {"Ticket,Date,Net\nNORTH-LEFT-01-Q,3/4/2026,17200\n", "2:17: error: this day may mean"},
        {"Ticket,Date,Net\nNORTH-LEFT-01-R,2026-02-16,17200\n", "2:1: error: the check character"},
        {"Ticket,Date,Net\nNORTH-LEFT-01-Q,2026-02-16,\n", "2:28: error: this row has no weight"},
        {"Ticket,Date,Net lb,Gross,Tare\nNORTH-LEFT-01-Q,2026-02-16,17200,44000,26000\n",
         "2:34: error: the net weight is not"},
        {"Ticket,Date,Net lb\nNORTH-LEFT-01-Q,2026-02-16,17200\nWEST-01-U,2026-02-16,17200\n",
         "this farm has no lot WEST"},
        {"Ticket,Date,Net lb\nNORTH-LEFT-01-Q,2026-02-16,17200\nNORTH-LEFT-01-Q,2026-02-16,16000\n",
         "scale.csv:3: ticket NORTH-LEFT-01-Q has gone out already"},
        {"Ticket,Date,Net lb,To\nNORTH-LEFT-01-Q,2026-02-16,17200,Bob/Back\n", "no field \"Bob/Back\""},
        {"Ticket,Date,Net lb,To\nNORTH-LEFT-01-Q,2026-02-16,17200,mill fourty\n", "did you mean \"" MILL "\"?"},
        {"Ticket,Date,Net lb,To\nNORTH-LEFT-01-Q,2026-02-16,17200,Osgood/Wheat Strip\n", "did you mean \"" WHEAT "\"?"},
    };
    world t = begin();
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        test_run run = import(&t, bad[i][0], "--sure");
        TEST_SAME(run.status, LS_MISTAKE);
        TEST_HOLDS(run.err, bad[i][1]);
        CU_ASSERT_PTR_NULL(test_file_text(t.a, t.log));
    }
    end(&t);
}

/* What lists look like; each row is 8.6 tons. */
static void lists_that_are_read(void) {
    static const char *const good[] = {
        "#,Ticket,Date,Net lb\n7,NORTH-LEFT-01-Q,2026-02-16,17200\n",
        "# Ticket #,Date,NET LB\nNORTH-LEFT-01-Q,2026-02-16,17200\n",
        "Ticket,Date,Net\nNORTH-LEFT-01-Q,2026-02-16,\"17,200 LBS.\"\n",
        "Ticket,Date,Net (tons)\nNORTH-LEFT-01-Q,2026-02-16,8.600\n",
        "Ticket,Date,Net (lb)\nNORTH-LEFT-01-Q,2026-02-16,17.200\n",
        "Ticket,Date,Net\nNORTH-LEFT-01-Q,2026-02-16,8.600\nNORTH-LEFT-02-O,2026-02-16,8.7\n",
        "County Scale\n\n16 Feb\nTicket;Date;Net lb\nNORTH-LEFT-01-Q;16.02.2026;17200\n",
        "Ticket,Date,Time,Net lb\nNORTH-LEFT-01-Q,2026-02-16 00:00:00,9:06,17200\n",
        "Ticket,Date,Net lb,Note\rNORTH-LEFT-01-Q,2026-02-16,17200,",
    };
    world t = begin();
    for (size_t i = 0; i < sizeof good / sizeof *good; i++) {
        test_run run = import(&t, good[i], NULL);
        TEST_SAME(run.status, LS_DONE);
        TEST_HOLDS(run.out, "NORTH-LEFT-01-Q, 8.6 tons weighed, 2026-02-16");
    }
    TEST_HOLDS(import(&t, good[0], NULL).out, "1 row of ");
    end(&t);
}

/* Loads by eye, and then the list of the scale: all that differs is told at once. */
static void a_scale_after_the_eye(void) {
    world t = begin();
    record(&t, "NORTH-LEFT-01-Q", "8", MILL " 5 tons; " WHEAT, "--note", "dry");
    record(&t, "NORTH-LEFT-02-O", "8.7", "stack", NULL, NULL);
    static const char list[] = "Ticket,Date,Net (lb),To\n"
                               "NORTH-LEFT-01-Q,2026-03-02,17200,\n"
                               "NORTH-LEFT-02-O,2026-03-02,17400," MILL "\n"
                               "NORTH-LEFT-03-M,2026-03-02,17400," MILL "\n";
    const char *before = test_file_text(t.a, t.log);
    test_run run = import(&t, list, "--sure");
    TEST_SAME(run.status, LS_MISTAKE);
    TEST_HOLDS(run.err, "scale.csv:2: ticket NORTH-LEFT-01-Q has gone out already: entry 1, 8 tons");
    TEST_HOLDS(run.err, "scale.csv:3: ticket NORTH-LEFT-02-O has gone out already: entry 2");
    TEST_HOLDS(run.err, "--replaces all puts them in place");
    TEST_TEXT(test_file_text(t.a, t.log), before);
    const char *path = ls_arena_printf(t.a, "%s/scale.csv", t.folder);
    run = PROGRAM(t.a, "record", t.house, t.fields, "--import", path, "--replaces", "all", "--sure");
    TEST_SAME(run.status, LS_DONE);
    TEST_HOLDS(run.out, "in place of entry 2");
    const ls_log_entry *e = entry(&t, 3);
    TEST_SAME(e->replaces, 1);
    CU_ASSERT_TRUE(e->weighed);
    TEST_NEAR(e->tons, 17200, 1e-9);
    TEST_SAME(e->when.minute, 540); /* what the list does not tell stays */
    TEST_TEXT(e->words[LS_LOG_NOTE], "dry");
    TEST_TEXT(e->words[LS_LOG_FIELD], MILL " (5.375 ton); " WHEAT " (3.225 ton)");
    TEST_TEXT(entry(&t, 4)->words[LS_LOG_FIELD], MILL);
    TEST_SAME(entry(&t, 5)->replaces, 0);
    TEST_HOLDS(import(&t, list, "--sure").out, "0 rows of ");
    end(&t);
}

/* Out of a stack that nothing went into, by the log or another row, wherever that stands. */
static void a_list_of_the_stack(void) {
    static const char out[] = "Ticket,Date,Net (lb),To\n"
                              "NORTH-LEFT-S01-7,2026-03-03,17200," MILL "\n";
    static const char doubt[] = "NORTH-LEFT-S01-7: nothing of North/left is in the stack by the log";
    world t = begin();
    TEST_HOLDS(import(&t, out, NULL).err, doubt);
    CU_ASSERT_PTR_NULL(
        strstr(import(&t, ls_arena_printf(t.a, "%sNORTH-LEFT-01-Q,2026-03-02,17200,stack\n", out), NULL).err,
               "is in the stack"));
    TEST_SAME(import(&t, out, "--sure").status, LS_DONE);
    TEST_HOLDS(entry(&t, 1)->words[LS_LOG_CONFIRMED], doubt + strlen("NORTH-LEFT-S01-7: "));
    end(&t);
}

/* A row of an entry that was struck since is left out, and not in silence. */
static void corrected_since(void) {
    world t = begin();
    import(&t, scale_list, "--sure");
    PROGRAM(t.a, "record", t.house, t.fields, "--replaces", "1", "--tons", "0");
    PROGRAM(t.a, "record", t.house, t.fields, "--replaces", "2", "--tons", "8.5");
    test_run run = import(&t, scale_list, "--sure");
    TEST_SAME(run.status, LS_DONE);
    TEST_HOLDS(run.err, "scale.csv:2: entry 1 said so and does not count any more: entry 3 strikes");
    TEST_HOLDS(run.err, "scale.csv:3: entry 2 said so and does not count any more: entry 4 says 8.5");
    end(&t);
}

/* The cut off end of another log is told, where nothing can be recorded too; and a copy that cannot
 * be written. */
static void files_of_an_import(void) {
    world t = begin();
    record(&t, "NORTH-LEFT-01-Q", "8.6", MILL, NULL, NULL);
    const char *cut = ls_arena_printf(t.a, "%s2,,NOR", test_file_text(t.a, t.log));
    TEST_HOLDS(import(&t, cut, "--sure").err, "scale.csv: warning: the last line is not finished");
    cut = test_replace(t.a, cut, ",8.6,", ",8.5,");
    test_run refused = import(&t, cut, "--sure");
    TEST_SAME(refused.status, LS_MISTAKE);
    TEST_HOLDS(refused.err, "scale.csv: warning: the last line is not finished");
    unlink(ls_log_copy_path(t.a, t.log));
    CU_ASSERT_TRUE(mkdir(ls_log_copy_path(t.a, t.log), 0777) == 0);
    static const char two[] = "Ticket,Date,Net lb\nNORTH-LEFT-03-M,2026-02-16,17200\n";
    test_run run = import(&t, two, "--sure");
    TEST_SAME(run.status, LS_DONE);
    TEST_HOLDS(run.err, "its copy ");
    TEST_HOLDS(run.err, "could not be written");
    rmdir(ls_log_copy_path(t.a, t.log));
    end(&t);
}

/* Two copies of one log that went apart: what one lacks comes out of the other, once. */
static void two_copies(void) {
    world t = begin();
    record(&t, "NORTH-LEFT-01-Q", "8.6", MILL, NULL, NULL);
    const char *one = test_file_text(t.a, t.log);
    record(&t, "NORTH-LEFT-02-O", "8.7", MILL, NULL, NULL);
    PROGRAM(t.a, "record", t.house, t.fields, "--replaces", "1", "--tons", "8.4");
    PROGRAM(t.a, "record", t.house, t.fields, "--replaces", "2", "--tons", "0");
    const char *other = test_file_text(t.a, t.log);
    test_file(t.a, t.folder, "h.haul.csv", one);
    test_file(t.a, t.folder, "h.haul.csv.copy", one);
    record(&t, "NORTH-LEFT-03-M", "8.5", MILL, NULL, NULL);
    for (int again = 0; again < 2; again++) {
        test_run run = import(&t, other, "--sure");
        TEST_SAME(run.status, LS_DONE);
        TEST_HOLDS(run.out, again ? "0 rows of" : "3 rows of");
        json_t *list = document(&t, "record", "--list");
        TEST_SAME(json_array_size(json_object_get(list, "entries")), 5);
        TEST_NEAR(json_number_value(json_object_get(json_object_get(list, "out_of_houses"), "tons")), 8.4 + 8.5, 1e-9);
        json_decref(list);
    }
    end(&t);
}

TEST_SUITE(record_more) = {{"parts", parts},
                           {"parts that do not add up", parts_that_do_not_add_up},
                           {"acres are taken", acres_are_taken},
                           {"acres in the dossier", acres_in_the_dossier},
                           {"confirmed", confirmed},
                           {"acres and share taken back", taken_back},
                           {"notes of the log on the pages", notes_on_the_pages},
                           {"litter of last year", litter_of_last_year},
                           {"all that looks wrong is shown", all_of_it_is_shown},
                           {"past its limit", past_its_limit},
                           {"a day that is begun", a_day_that_is_begun},
                           {"a heaped body is a remark", a_heaped_body_is_a_remark},
                           {"today is not taken in silence", today_is_not_taken_in_silence},
                           {"told once", told_once},
                           {"issued", issued},
                           {"renamed", renamed},
                           {"on the pages", on_the_pages},
                           {"a scale house", a_scale_house},
                           {"lists that are read", lists_that_are_read},
                           {"lists that are refused", lists_that_are_refused},
                           {"a scale after the eye", a_scale_after_the_eye},
                           {"corrected since", corrected_since},
                           {"a list of the stack", a_list_of_the_stack},
                           {"files of an import", files_of_an_import},
                           {"two copies", two_copies},
                           CU_TEST_INFO_NULL};
