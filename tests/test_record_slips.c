/* Slips of the pen when a load is recorded: refused with what was meant, or said beside. */
#include "record_world.h"

#include "littershed/command.h"

#include <string.h>

static test_run record(world *t, const char *ticket, const char *tons, const char *one, const char *two,
                       const char *three, const char *four) {
    return PROGRAM(t->a, "record", t->house, t->fields, "--ticket", ticket, "--tons", tons, "--when",
                   "2026-02-16T09:00", one, two, three, four);
}

/* O and 0, I and 1 are told apart, never taken in silence. */
static void letters_and_digits(void) {
    static const char *const slips[][2] = {{"NORTH-LEFT-02-0", "NORTH-LEFT-02-O"},
                                           {"NORTH-LEFT-O1-Q", "NORTH-LEFT-01-Q"},
                                           {"NORTH-LEFT-05-1", "NORTH-LEFT-05-I"}};
    world t = begin();
    for (size_t i = 0; i < sizeof slips / sizeof *slips; i++) {
        test_run run = record(&t, slips[i][0], "8.6", NULL, NULL, NULL, NULL);
        TEST_SAME(run.status, LS_MISTAKE);
        TEST_HOLDS(run.err, ls_arena_printf(t.a, "did you mean %s?", slips[i][1]));
    }
    test_run other = record(&t, "NORTH-LEFT-02-7", "8.6", NULL, NULL, NULL, NULL);
    TEST_SAME(other.status, LS_MISTAKE);
    CU_ASSERT_PTR_NULL(strstr(other.err, "did you mean"));
    end(&t);
}

/* 17,400 lb are 8.7 short tons of 2,000 lb. */
static void weights(void) {
    world t = begin();
    test_run run = record(&t, "NORTH-LEFT-01-Q", "15800", NULL, NULL, NULL, NULL);
    TEST_SAME(run.status, LS_USAGE);
    TEST_HOLDS(run.err, "for pounds write --tons \"15800 lb\"");
    TEST_HOLDS(record(&t, "NORTH-LEFT-01-Q", "17400lb", NULL, NULL, NULL, NULL).out, ", 8.7 tons,");
    run = record(&t, "NORTH-LEFT-02-O", "0.86", "--weighed", NULL, NULL, NULL);
    TEST_SAME(run.status, LS_DONE);
    TEST_HOLDS(run.err, "0.86 tons is little for a load");
    TEST_TEXT(record(&t, "NORTH-LEFT-03-M", "0.86", "--sure", NULL, NULL, NULL).err, "");
    end(&t);
}

/* The estimate of North/left is some 58 to 80 ton. */
static void cleared_too_early(void) {
    world t = begin();
    test_run run = record(&t, "NORTH-LEFT-01-Q", "8.6", "--cleared", "all", NULL, NULL);
    TEST_SAME(run.status, LS_DONE);
    TEST_HOLDS(run.err, "--cleared all means that North/left held 8.60 tons in all");
    end(&t);
    t = begin();
    run = record(&t, "NORTH-LEFT-01-Q", "8.6", "--cleared", "12 %", NULL, NULL); /* of 71.67 ton */
    TEST_SAME(run.status, LS_DONE);
    TEST_TEXT(run.err, "");
    end(&t);
}

/* The row of the log that begins so, and the rest of it after the tons. */
static const char *row(world *t, const char *begin) {
    const char *log = test_file_text(t->a, ls_arena_printf(t->a, "%s/h.haul.csv", t->folder));
    const char *at = strstr(log, ls_arena_printf(t->a, "\n%s", begin));
    CU_ASSERT_PTR_NOT_NULL_FATAL(at);
    return ls_arena_copy_n(t->a, at + 1, strcspn(at + 1, "\r"));
}

/* Three loads, the second when 24 % of the lot was cleared: 8.6 + 8.6 = 17.2 ton by then. A correction
 * stands where the entry stood that it replaces, and what is logged later counts by its time: the estimate stays. */
static void in_its_place(void) {
    world t = begin();
    static const char *const loads[][4] = {{"NORTH-LEFT-01-Q", "2026-02-16T08:00"},
                                           {"NORTH-LEFT-02-O", "2026-02-16T09:00", "--cleared", "24 %"},
                                           {"NORTH-LEFT-03-M", "2026-02-16T10:00"}};
    for (size_t k = 0; k < 3; k++)
        PROGRAM(t.a, "record", t.house, t.fields, "--ticket", loads[k][0], "--tons", "8.6", "--weighed", "--sure",
                "--when", loads[k][1], loads[k][2], loads[k][3]);
    const char *before = PROGRAM(t.a, "estimate", t.house).out;
    TEST_SAME(PROGRAM(t.a, "record", t.house, t.fields, "--replaces", "2", "--driver", "Al").status, LS_DONE);
    TEST_TEXT(PROGRAM(t.a, "estimate", t.house).out, before);
    PROGRAM(t.a, "record", t.house, t.fields, "--replaces", "1", "--tons", "0");
    PROGRAM(t.a, "record", t.house, t.fields, "--replaces", "5", "--tons", "8.6");
    TEST_TEXT(PROGRAM(t.a, "estimate", t.house).out, before);
    PROGRAM(t.a, "record", t.house, t.fields, "--replaces", "6", "--tons", "0");
    PROGRAM(t.a, "record", t.house, t.fields, "--ticket", loads[0][0], "--tons", "8.6", "--weighed", "--sure", "--when",
            loads[0][1]);
    TEST_TEXT(PROGRAM(t.a, "estimate", t.house).out, before);
    TEST_HOLDS(PROGRAM(t.a, "explain", t.house, "north.left.gone-by-then").out, "17.2");
    end(&t);
}

/* A hold day is the file's own limit. 8.6 ton on 1 acre are 8.60 ton/ac; on 8 acres 1.075. */
static void holds_and_rates(void) {
    world t = begin();
    test_file(t.a, t.folder, "h.yaml",
              test_replace(t.a, test_file_text(t.a, t.house), "days_off: [sunday]",
                           "days_off: [sunday]\n  hold_days: [2026-02-16 until 09:30]"));
    test_run run = record(&t, "NORTH-LEFT-01-Q", "8.6", NULL, NULL, NULL, NULL);
    TEST_SAME(run.status, LS_MISTAKE);
    TEST_HOLDS(run.err, "2026-02-16 is a hold day until 09:30: check it");
    run = record(&t, "NORTH-LEFT-01-Q", "8.6", "--sure", NULL, NULL, NULL);
    TEST_SAME(run.status, LS_DONE);
    TEST_HOLDS(row(&t, "1,"), "2026-02-16 is a hold day until 09:30");
    run = PROGRAM(t.a, "record", t.house, t.fields, "--replaces", "1", "--when", "2026-02-16T09:30", "--field",
                  "Larkspur Hay/Upper Meadow", "--acres", "1");
    TEST_SAME(run.status, LS_DONE);
    TEST_HOLDS(run.err, "8.60 tons on 1 acres of Upper Meadow are 8.60 tons/ac, and no more than ");
    run = PROGRAM(t.a, "record", t.house, t.fields, "--replaces", "2", "--acres", "8");
    TEST_SAME(run.status, LS_DONE);
    CU_ASSERT_PTR_NULL(strstr(run.err, "ton/ac"));
    end(&t);
}

/* Two loads on one ticket are corrected one by one; a ticket that went into the stack does not
 * come out of it. */
static void once_more(void) {
    world t = begin();
    record(&t, "NORTH-LEFT-01-Q", "4.4", NULL, NULL, NULL, NULL);
    record(&t, "NORTH-LEFT-01-Q", "4.2", "--again", NULL, NULL, NULL);
    test_run run = PROGRAM(t.a, "record", t.house, t.fields, "--replaces", "1", "--weather", "dry");
    TEST_SAME(run.status, LS_DONE);
    TEST_HOLDS(run.out, "entry 3: in place of entry 1, ticket NORTH-LEFT-01-Q");
    record(&t, "NORTH-LEFT-02-O", "8.6", "--field", "stack", NULL, NULL);
    run = record(&t, "NORTH-LEFT-02-O", "8.6", "--again", "--field", "Larkspur Hay/Upper Meadow", NULL);
    TEST_SAME(run.status, LS_MISTAKE);
    TEST_HOLDS(run.err, "went into the stack with entry 4");
    run = record(&t, "NORTH-LEFT-02-O", "8.6", "--again", "--field", "Larkspur Hay/Upper Meadow", "--sure");
    TEST_SAME(run.status, LS_DONE);
    end(&t);
}

/* A correction of the tons keeps every other column as it was, and says so; drops keep their
 * shares: of 8.4 and 11.7 ton, 5.4 x 11.7 / 8.4 = 7.52142... and 3 x 11.7 / 8.4 = 4.17857... */
static void the_rest_stays(void) {
    static const char words[] = ",one,Al,\"J. O\",report of May,same day,\"dry, cool\",clear,rain,moist,steep";
    world t = begin();
    test_run run = PROGRAM(t.a, "record", t.house, t.fields, "--ticket", "NORTH-LEFT-01-Q", "--tons", "8.4", "--when",
                           "2026-02-16T09:00", "--weighed", "--cleared", "12 %", "--field",
                           "Larkspur Hay/Upper Meadow (5.4 ton); Osgood Row Crops/Wheat Strip (3 ton)", "--truck",
                           "one", "--driver", "Al", "--received-by", "J. O", "--analysis", "report of May",
                           "--incorporated", "same day", "--weather-before", "dry, cool", "--weather", "clear",
                           "--weather-after", "rain", "--soil", "moist", "--note", "steep", "--sure");
    TEST_SAME(run.status, LS_DONE);
    const char *of = test_replace(t.a, words, "\"J. O\"", "J. O");
    TEST_TEXT(row(&t, "1,"), ls_arena_printf(t.a,
                                             "1,,NORTH-LEFT-01-Q,2026-02-16T09:00,8.4,yes,12 %%,\"Larkspur Hay/Upper "
                                             "Meadow (5.4 ton); Osgood Row Crops/Wheat Strip (3 ton)\"%s,,,,,,,,hauled",
                                             of));
    run = PROGRAM(t.a, "record", t.house, t.fields, "--replaces", "1", "--tons", "11.7", "--sure");
    TEST_SAME(run.status, LS_DONE);
    TEST_HOLDS(run.out, ", 11.7 tons weighed, ");
    TEST_HOLDS(run.out, "; as in entry 1: time, weighed over a scale, cleared 12 %, truck, "
                        "driver, received by, analysis handed over, worked in, weather before, "
                        "weather, weather after, soil, note; its parts are scaled from 8.4 to 11.7 "
                        "tons\n");
    TEST_TEXT(row(&t, "2,"), ls_arena_printf(t.a,
                                             "2,1,NORTH-LEFT-01-Q,2026-02-16T09:00,11.7,yes,12 %%,\"Larkspur "
                                             "Hay/Upper Meadow (7.5214 ton); Osgood Row Crops/Wheat Strip (4.1786 "
                                             "ton)\"%s,11.7 tons is more than the truck may carry (payload 11 "
                                             "tons),,,,,,,correction",
                                             of));
    TEST_HOLDS(PROGRAM(t.a, "record", t.house, t.fields, "--list").out, "scale");
    end(&t);
}

/* A scale that was not one is taken back, with or without other tons. */
static void by_eye(void) {
    world t = begin();
    record(&t, "NORTH-LEFT-01-Q", "8.4", "--weighed", "--field", "stack", NULL);
    test_run run = PROGRAM(t.a, "record", t.house, "--replaces", "1", "--by-eye");
    TEST_SAME(run.status, LS_DONE);
    TEST_HOLDS(run.out, ", 8.4 tons, ");
    TEST_HOLDS(row(&t, "2,"), ",8.4,no,");
    TEST_SAME(record(&t, "NORTH-LEFT-02-O", "8.4", "--by-eye", NULL, NULL, NULL).status, LS_USAGE);
    run = PROGRAM(t.a, "record", t.house, "--replaces", "2", "--by-eye", "--weighed");
    TEST_SAME(run.status, LS_USAGE);
    end(&t);
}

static void a_new_buyer(void) {
    world t = begin();
    test_run run = record(&t, "NORTH-LEFT-01-Q", "8.6", "--field", "Bob/Back Forty", NULL, NULL);
    TEST_SAME(run.status, LS_MISTAKE);
    TEST_HOLDS(run.err, "A new buyer is added to the farm file first");
    end(&t);
}

TEST_SUITE(record_slips) = {{"letters and digits", letters_and_digits},
                            {"weights", weights},
                            {"cleared too early", cleared_too_early},
                            {"in its place", in_its_place},
                            {"holds and rates", holds_and_rates},
                            {"once more", once_more},
                            {"the rest stays", the_rest_stays},
                            {"by eye", by_eye},
                            {"a new buyer", a_new_buyer},
                            CU_TEST_INFO_NULL};
