/* Each load judged by its own lot and its own day, by hand. The report of North: 38 lb of N (8 of
 * it ammonium), 56 lb of P2O5 a ton. Upper Meadow: 26 ac less 980 ft x 100 ft = 23.75 ac, at most 3
 * ton/ac, open from 2026-02-16; tall fescue hay takes 12 lb of P2O5 a ton. */
#include "dossier_world.h"

#include "littershed/command.h"

#include <string.h>

enum { MOST = 4 };

/* All that is wrong: "item: state (entries)" with "; " between. */
static const char *wrong(ls_arena *a, json_t *d) {
    ls_text *t = ls_text_new(a);
    size_t i, k;
    json_t *f, *entry;
    json_array_foreach(json_object_get(d, "findings"), i, f) {
        if (strcmp(dossier_word(f, "state"), "present") == 0) continue;
        ls_text_addf(t, "%s%s: %s (", t->n > 0 ? "; " : "", dossier_word(f, "item"), dossier_word(f, "state"));
        json_array_foreach(json_object_get(f, "entries"), k, entry)
            ls_text_addf(t, "%s%s", k > 0 ? ", " : "", json_string_value(entry));
        ls_text_add(t, ")");
    }
    return t->s;
}

#define MEADOW "Larkspur Hay/Upper Meadow"
#define WHEAT "Osgood Row Crops/Wheat Strip"
#define MEDIUM "rating: medium, rated_by: county plan writer, date: 2025-10-30"
#define RATED(rest) "rating: high, rated_by: county plan writer, date: 2025-10-30" rest
#define LEDGER(left) ", ledger: [{year: 2025, P2O5: " left " lb/ac, removed: 55 lb/ac}]"
#define CAP                                                                                                            \
    "        window_caps: [{between: 2025-11-15..2026-02-20, most: 1 ton/ac}]\n        most: 3 "                       \
    "ton/ac\n        incorporated: never\n"
#define UNCAPPED "        most: 3 ton/ac\n        incorporated: never\n"
#define THIN(most) "        most: " most " ton/ac\n        incorporated: never\n"
#define SPREADER                                                                                                       \
    "rate: {least: 1 ton/ac, most: 6 ton/ac, step: 0.25 ton/ac}",                                                      \
        "rate: {least: 2 ton/ac, most: 6 ton/ac, step: 0.25 ton/ac}"
#define NO_SPREADER "    rate: {least: 1 ton/ac, most: 6 ton/ac, step: 0.25 ton/ac}\n", ""
#define SOUTH "removed: 2026-02-11, lost: 7 %}\n"
#define OF_SOUTH                                                                                                       \
    SOUTH                                                                                                              \
    "    lab:\n      - {date: 2026-01-29, by: State Soil and Manure Laboratory, method: "                              \
    "combustion, basis: as received, moisture: 33 %, N: 38 lb/ton, NH4N: 8 lb/ton, P2O5: 90 "                          \
    "lb/ton, K2O: 36 lb/ton}\n"

static const struct {
    const char *what;
    const char *house[2], *fields[4]; /* old, new */
    dossier_haul rows[MOST];
    const char *wrong, *figures; /* figures: what the page says; NULL: not asked */
    bool strict;                 /* does --strict fail? */
} cases[] = {
    {"as planned", {0}, {0}, {{"NORTH-LEFT-01", "2026-02-16", "8.62", MEADOW, NULL, NULL, NULL}}, "", NULL, false},
    /* 5 ton/ac x 12 = 60 lb/ac allowed; 100 lb/ac of 18-46-0 brings 46, 8.62 ton on 8.62 ac 56 */
    {"bought phosphate",
     {0},
     {MEDIUM, RATED(""), "        yield: 3.5 ton/ac\n",
      "        yield: 5 ton/ac\n        fertilizer: [{grade: 18-46-0, rate: 100 lb/ac}]\n"},
     {{"NORTH-LEFT-01", "2026-02-16", "8.62", MEADOW " 8.62 ton 8.62 ac", NULL, NULL, NULL}},
     "more litter than the rate: limit exceeded (1); more phosphate than the rating allows: limit "
     "exceeded (1)",
     "102 lb/ac applied; with bought fertilizer what the rating allows, P2O5, is 60 lb/ac",
     true},
    /* beside what went on in litter stands what litter may bring: 60 - 46 */
    {"the limit of a field is less bought phosphate",
     {0},
     {MEDIUM, RATED(""), "        yield: 3.5 ton/ac\n",
      "        yield: 5 ton/ac\n        fertilizer: [{grade: 18-46-0, rate: 100 lb/ac}]\n"},
     {{"NORTH-LEFT-01", "2026-02-16", "2", MEADOW " 2 ton 10 ac", NULL, NULL, NULL}},
     "",
     "\"P2O5_limit_lb_per_ac\": 14.0,",
     false},
    /* No litter went on the wheat: 65 bu/ac x 0.48 = 31.2 lb/ac allowed; 60 lb/ac bring 27.6, 70 bring 32.2 */
    {"bought phosphate alone, within the rating",
     {0},
     {"rating: medium, rated_by: county plan writer, date: 2025-10-02", RATED(""), "        yield: 65 bu/ac\n",
      "        yield: 65 bu/ac\n        fertilizer: [{grade: 18-46-0, rate: 60 lb/ac}]\n"},
     {{"NORTH-LEFT-01", "2026-02-16", "8.62", MEADOW, NULL, NULL, NULL}},
     "",
     NULL,
     false},
    {"bought phosphate alone, over the rating",
     {0},
     {"rating: medium, rated_by: county plan writer, date: 2025-10-02", RATED(""), "        yield: 65 bu/ac\n",
      "        yield: 65 bu/ac\n        fertilizer: [{grade: 18-46-0, rate: 70 lb/ac}]\n"},
     {{"NORTH-LEFT-01", "2026-02-16", "8.62", MEADOW, NULL, NULL, NULL}},
     "more phosphate than the rating allows: limit exceeded ()",
     "32 lb/ac of bought fertilizer, no litter; what the rating allows, P2O5, is 31 lb/ac",
     true},
    /* 155 put on in 2025 and 55 taken: 100 left. 8.62 ton on 3 ac: 160.9 lb/ac */
    {"a bank that is used up",
     {0},
     {MEDIUM, RATED(", bank: 3 years" LEDGER("155"))},
     {{"NORTH-LEFT-01", "2026-02-16", "8.62", MEADOW " 8.62 ton 3 ac", NULL, NULL, NULL}},
     "more litter than the rate: limit exceeded (1); more phosphate than the rating allows: limit "
     "exceeded (1)",
     "161 lb/ac applied; what the rating allows, P2O5, is 0 lb/ac",
     true},
    /* 3 x 42 = 126 lb/ac: North 126 / 56 = 2.25 ton/ac, South 126 / 90 = 1.4 */
    {"two sides, each at its rate",
     {SOUTH, OF_SOUTH},
     {MEDIUM, RATED(", bank: 3 years" LEDGER("55"))},
     {{"NORTH-LEFT-01", "2026-02-16", "8.64", MEADOW " 8.64 ton 3.84 ac", NULL, NULL, NULL},
      {"SOUTH-LEFT-01", "2026-02-16", "8.5", MEADOW " 8.5 ton 6.8 ac", NULL, NULL, NULL}},
     "",
     NULL,
     false},
    {"one side at the other's rate",
     {SOUTH, OF_SOUTH},
     {MEDIUM, RATED(", bank: 3 years" LEDGER("55"))},
     {{"NORTH-LEFT-01", "2026-02-16", "8.64", MEADOW " 8.64 ton 3.84 ac", NULL, NULL, NULL},
      {"SOUTH-LEFT-01", "2026-02-16", "8.5", MEADOW " 8.5 ton 3.78 ac", NULL, NULL, NULL}},
     "more litter than the rate: limit exceeded (2); more phosphate than the rating allows: limit "
     "exceeded (2)",
     "202 lb/ac applied",
     true},
    /* 1 ton/ac to February 20, 3 after it */
    {"a season's limit kept, and over",
     {0},
     {UNCAPPED, CAP},
     {{"NORTH-LEFT-01", "2026-02-16", "8.62", MEADOW " 8.62 ton 8.62 ac", NULL, NULL, NULL},
      {"NORTH-LEFT-02", "2026-03-02", "8.62", MEADOW " 8.62 ton 2.88 ac", NULL, NULL, NULL}},
     "",
     NULL,
     false},
    {"a season's limit passed on its last day",
     {0},
     {UNCAPPED, CAP},
     {{"NORTH-LEFT-01", "2026-02-20", "8.62", MEADOW " 8.62 ton 2.88 ac", NULL, NULL, NULL},
      {"NORTH-LEFT-02", "2026-02-21", "8.62", MEADOW " 8.62 ton 2.88 ac", NULL, NULL, NULL}},
     "more litter than the rate: limit exceeded (1)",
     "2.99 tons/ac applied; the limit is 1 ton/ac",
     true},
    /* Of two limits one holds: it is the file's own, though the others are published. */
    {"the first of two limits of a season passed",
     {0},
     {UNCAPPED, "        window_caps: [{between: 2026-02-16..2026-02-20, most: 1 ton/ac}, "
                "{between: 2026-02-21..2026-03-10, most: 2 ton/ac}]\n        incorporated: never\n"},
     {{"NORTH-LEFT-01", "2026-02-16", "8.62", MEADOW " 8.62 ton 2.88 ac", NULL, NULL, NULL}},
     "more litter than the rate: limit exceeded (1)",
     "2.99 tons/ac applied; the limit is 1 ton/ac",
     true},
    /* 60 allowed; 46 bought, and on an average acre 8.62 x 56 / 23.75 = 20.3 */
    {"bought phosphate where litter lies on litter",
     {0},
     {MEDIUM, RATED(""), "        yield: 3.5 ton/ac\n",
      "        yield: 5 ton/ac\n        overlap: yes\n        fertilizer: [{grade: 18-46-0, rate: "
      "100 lb/ac}]\n"},
     {{"NORTH-LEFT-01", "2026-02-16", "8.62", MEADOW, NULL, NULL, NULL}},
     "more litter than the rate: limit exceeded (1); more phosphate than the rating allows: limit "
     "exceeded (1)",
     "66 lb/ac applied; with bought fertilizer what the rating allows, P2O5, is 60 lb/ac",
     true},
    /* 24 + 8.62 / 3 = 26.9 of 23.75 ac */
    {"acres that the field does not have",
     {0},
     {0},
     {{"NORTH-LEFT-01", "2026-02-16", "9", MEADOW " 9 ton 12 ac", NULL, NULL, NULL},
      {"NORTH-LEFT-02", "2026-02-17", "9", MEADOW " 9 ton 12.5 ac", NULL, NULL, NULL}},
     "more acres than the field has: limit exceeded (1, 2)",
     "24.5 ac covered by the log; to be spread, setbacks taken off, are 23.8 ac",
     true},
    {"the same acres twice, as the file says",
     {0},
     {UNCAPPED, "        overlap: yes\n" UNCAPPED},
     {{"NORTH-LEFT-01", "2026-02-16", "9", MEADOW " 9 ton 12 ac", NULL, NULL, NULL},
      {"NORTH-LEFT-02", "2026-02-17", "9", MEADOW " 9 ton 12.5 ac", NULL, NULL, NULL}},
     "",
     NULL,
     false},
    /* 18 / 1.5 = 12 of 5 ac: both loads are over 1.5 ton/ac */
    {"together more than the acres take",
     {0},
     {"area: 22 ac", "area: 5 ac"},
     {{"NORTH-LEFT-01", "2026-02-16", "9", WHEAT, NULL, NULL, NULL},
      {"NORTH-LEFT-02", "2026-02-17", "9", WHEAT, NULL, NULL, NULL}},
     "more litter than the rate: limit exceeded (1, 2)",
     "3.6 tons/ac applied; the limit is 1.5 tons/ac",
     true},
    /* In warm, dry weather 60 % of 30 and none of 8 lb of ammonium serve if left on top: 18 lb a
     * ton, 22 if worked in within a day (50 % of the ammonium): 8.62 / 2.9 x 22 = 65.4 of 60 */
    {"worked in sooner than planned",
     {0},
     {"nitrogen: 120 lb/ac", "nitrogen: 60 lb/ac",
      UNCAPPED "        weather: cool wet\n        open: 2026-02-16..2026-04-15",
      UNCAPPED "        weather: warm dry\n        open: 2026-02-16..2026-04-15"},
     {{"NORTH-LEFT-01", "2026-02-16", "8.62", MEADOW " 8.62 ton 2.9 ac", NULL, NULL, NULL},
      {"NORTH-LEFT-02", "2026-02-17", "8.62", MEADOW " 8.62 ton 2.9 ac", "within 1 day", NULL, NULL}},
     "more nitrogen than the need: limit exceeded (2)",
     "65 lb/ac applied",
     true},
    /* February 17 to April 12 are 54 days */
    {"planted late",
     {0},
     {"        planted: 2025-11-02\n", "        planted: 2026-04-12\n        planting: "
                                       "2026-03-15\n        days_before_planting: 53\n"},
     {{"NORTH-LEFT-01", "2026-02-17", "8.62", WHEAT, NULL, NULL, NULL},
      {"NORTH-LEFT-02", "2026-02-18", "8.62", WHEAT, NULL, NULL, NULL}},
     "spread too long before planting: limit exceeded (1)",
     "planted on Sun, Apr 12; at most 53 days before",
     true},
    /* cut on May 28: 101 and 100 days after; 99 days after the third */
    {"harvested too soon is told once",
     {0},
     {"        harvested: 2026-05-28\n",
      "        harvested: 2026-05-28\n        days_before_harvest: 101\n        harvest: "
      "2026-08-30\n"},
     {{"NORTH-LEFT-01", "2026-02-16", "8.62", MEADOW, NULL, NULL, NULL},
      {"NORTH-LEFT-02", "2026-02-17", "8.62", MEADOW, NULL, NULL, NULL},
      {"NORTH-LEFT-03", "2026-02-18", "8.62", MEADOW, NULL, NULL, NULL}},
     "harvested too soon: limit exceeded (2, 3)",
     NULL,
     true},
    /* open to March 10 */
    {"a day too late is told once of two parts",
     {0},
     {0},
     {{"NORTH-LEFT-01", "2026-03-11", "8.62", WHEAT " (5 ton); " WHEAT " (3.62 ton)", NULL, NULL, NULL}},
     "spread outside the open days: limit exceeded (1)",
     NULL,
     true},
    /* January 11 of the year before is 401 days before February 16; a year is one of the calendar
     */
    {"a soil test a day too old",
     {"\ncrew:\n", "\nages: {soil: 400 days}\n\ncrew:\n"},
     {"date: 2025-10-14", "date: 2025-01-11"},
     {{"NORTH-LEFT-01", "2026-02-16", "8.62", MEADOW, NULL, NULL, NULL}},
     "old soil test: limit exceeded ()",
     "401 days old on Mon, Feb 16; at most 400 days",
     true},
    {"a soil test a day older than a year",
     {"\ncrew:\n", "\nages: {soil: 1 year}\n\ncrew:\n"},
     {"date: 2025-10-14", "date: 2025-02-15"},
     {{"NORTH-LEFT-01", "2026-02-16", "8.62", MEADOW, NULL, NULL, NULL}},
     "old soil test: limit exceeded ()",
     NULL,
     true},
    {"a soil test of a year",
     {"\ncrew:\n", "\nages: {soil: 1 year}\n\ncrew:\n"},
     {"date: 2025-10-14", "date: 2025-02-16"},
     {{"NORTH-LEFT-01", "2026-02-16", "8.62", MEADOW, NULL, NULL, NULL}},
     "",
     NULL,
     false},
    {"a Sunday",
     {0},
     {0},
     {{"NORTH-LEFT-01", "2026-02-22", "8.62", MEADOW, NULL, NULL, NULL}},
     "hauled on a day off: note (1)",
     NULL,
     false},
    {"before the crew starts",
     {"days_off: [sunday]", "days_off: [sunday]\n  starts: \"07:30\""},
     {0},
     {{"NORTH-LEFT-01", "2026-02-16T07:29", "8.62", MEADOW, NULL, NULL, NULL}},
     "hauled outside the crew's hours: note (1)",
     "the log says 07:29; the crew works from 07:30 to 16:30",
     false},
    {"half a hold day",
     {"days_off: [sunday]", "days_off: [sunday]\n  hold_days: [2026-02-17 until 12:00]"},
     {0},
     {{"NORTH-LEFT-01", "2026-02-17T11:59", "8.62", MEADOW, NULL, NULL, NULL},
      {"NORTH-LEFT-02", "2026-02-17T12:00", "8.62", MEADOW, NULL, NULL, NULL},
      {"NORTH-LEFT-03", "2026-02-17", "8.62", MEADOW, NULL, NULL, NULL}},
     "hauled on a hold day: limit exceeded (1)",
     "Tue, Feb 17 is a hold day until 12:00",
     true},
    {"a side that the files do not have",
     {0},
     {0},
     {{"NORTH-LEFT-01", "2026-02-16", "8.62", MEADOW, NULL, NULL, NULL},
      {"EAST-01", "2026-02-16", "8.62", MEADOW, NULL, NULL, NULL}},
     "load of an unknown side: missing (2)",
     "the files have no side or house EAST",
     true},
    /* 0.2 ton/ac, and no spreader keeps less than 0.25 even: 4.7 ton need 23.5 of 23.75 ac, 5 are
     * 0.211 an acre */
    {"less than spreaders keep even",
     {NO_SPREADER},
     {UNCAPPED, THIN("0.2")},
     {{"NORTH-LEFT-01", "2026-02-16", "4.7", MEADOW, NULL, NULL, NULL}},
     "",
     NULL,
     false},
    {"more than a limit that no spreader keeps even",
     {NO_SPREADER},
     {UNCAPPED, THIN("0.2")},
     {{"NORTH-LEFT-01", "2026-02-16", "5", MEADOW, NULL, NULL, NULL}},
     "more litter than the rate: limit exceeded (1)",
     "0.21 tons/ac applied; the limit is 0.2 tons/ac",
     true},
    /* of 0.9 ton/ac in steps of 0.25 the plan would have 0.75, were it not below the least; 8.62 on
     * 9.6 ac are 0.898, on 9 ac 0.958 */
    {"between two steps of a spreader, and below its least",
     {SPREADER},
     {UNCAPPED, THIN("0.9")},
     {{"NORTH-LEFT-01", "2026-02-16", "8.62", MEADOW " 8.62 ton 9.6 ac", NULL, NULL, NULL}},
     "",
     NULL,
     false},
    {"more than a limit below the spreader's least",
     {SPREADER},
     {UNCAPPED, THIN("0.9")},
     {{"NORTH-LEFT-01", "2026-02-16", "8.62", MEADOW " 8.62 ton 9 ac", NULL, NULL, NULL}},
     "more litter than the rate: limit exceeded (1)",
     "0.96 tons/ac applied; the limit is 0.9 tons/ac",
     true},
    /* of two seasons' limits one holds; its litter goes by the same limit as any other */
    {"between two steps on a day of one of two seasons",
     {0},
     {UNCAPPED, "        window_caps: [{between: 2026-02-16..2026-02-20, most: 1.6 ton/ac}, "
                "{between: 2026-02-21..2026-03-10, most: 2 ton/ac}]\n        incorporated: never\n"},
     {{"NORTH-LEFT-01", "2026-02-16", "8.62", MEADOW " 8.62 ton 5.4 ac", NULL, NULL, NULL}},
     "",
     NULL,
     false},
    {"the published limit is a caution",
     {0},
     {UNCAPPED, "        incorporated: never\n"},
     {{"NORTH-LEFT-01", "2026-02-16", "8.62", MEADOW " 8.62 ton 2.5 ac", NULL, NULL, NULL}},
     "more litter than the rate: caution (1)",
     "3.45 tons/ac applied; the limit is 3 tons/ac",
     false},
};

static void each(void) {
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        ls_arena *a = ls_arena_new();
        const char *house = dossier_house(a), *fields = dossier_fields(a);
        if (cases[i].house[0] != NULL) house = test_replace(a, house, cases[i].house[0], cases[i].house[1]);
        for (size_t k = 0; k < 4 && cases[i].fields[k] != NULL; k += 2) {
            TEST_HOLDS(fields, cases[i].fields[k]);
            fields = test_replace(a, fields, cases[i].fields[k], cases[i].fields[k + 1]);
        }
        dossier_world w = dossier_write(a, house, fields, dossier_log_of(a, cases[i].rows, MOST));
        test_run run = dossier_run(&w, "--format=json", "--strict", NULL);
        json_t *d = json_loads(run.out, JSON_REJECT_DUPLICATES, NULL);
        CU_ASSERT_PTR_NOT_NULL_FATAL(d);
        const char *got = wrong(a, d);
        if (strcmp(got, cases[i].wrong) != 0)
            TEST_TEXT(got, ls_arena_printf(a, "%s (%s)", cases[i].wrong, cases[i].what));
        TEST_SAME(run.status, cases[i].strict ? LS_MISTAKE : LS_DONE);
        if (cases[i].figures != NULL) TEST_HOLDS(run.out, cases[i].figures);
        json_decref(d);
        test_folder_end(w.folder);
        ls_arena_free(a);
    }
}

/* Of a load shared by two receivers each is told his part: 5.2 and 3.4 tons. */
static void parts(void) {
    ls_arena *a = ls_arena_new();
    const dossier_haul rows[MOST] = {
        {"NORTH-LEFT-01", "2026-03-10", "8.6", WHEAT " (5.2 ton); Whitcomb Pasture/Ridge (3.4 ton)", NULL, NULL, NULL}};
    dossier_world w = dossier_write(a, dossier_house(a), dossier_fields(a), dossier_log_of(a, rows, MOST));
    json_t *d = dossier_document(&w), *f;
    size_t i, n = 0;
    json_array_foreach(json_object_get(d, "findings"), i, f) {
        if (strcmp(dossier_word(f, "item"), "tons") != 0) continue;
        n++;
        TEST_HOLDS(dossier_word(f, "what"),
                   strstr(dossier_word(f, "of"), "Whitcomb") != NULL ? "3.4 tons" : "5.2 tons");
    }
    TEST_SAME(n, 2);
    json_t *loads = json_object_get(d, "loads");
    TEST_SAME(json_array_size(loads), 2);
    TEST_TEXT(dossier_word(json_array_get(loads, 1), "part"), "2 of 2");
    TEST_NEAR(dossier_number(json_array_get(loads, 1), "tons"), 3.4, 1e-9);
    json_decref(d);
    test_folder_end(w.folder);
    ls_arena_free(a);
}

/* What goes to a yard is handed over like any other: 8.6 tons. */
static void to_a_yard(void) {
    ls_arena *a = ls_arena_new();
    const dossier_haul rows[MOST] = {{"NORTH-LEFT-01", "2026-02-17", "8.6", "Vale Compost/yard", NULL, NULL, NULL}};
    const char *fields =
        ls_arena_printf(a, "%s\n  - name: Vale Compost\n    distance: 3 mi\n    takes: 90 ton\n", dossier_fields(a));
    dossier_world w = dossier_write(a, dossier_house(a), fields, dossier_log_of(a, rows, MOST));
    json_t *d = dossier_document(&w), *t = dossier_row(d, "transfers", "receiver", "Vale Compost"),
           *one = json_array_get(json_object_get(t, "loads"), 0);
    TEST_NEAR(dossier_number(t, "tons"), 8.6, 1e-9);
    TEST_NEAR(dossier_number(one, "tons"), 8.6, 1e-9);
    CU_ASSERT(json_is_null(json_object_get(one, "advised_ton_per_ac")));
    TEST_NEAR(dossier_number(json_array_get(json_object_get(t, "analyses"), 0), "P2O5_lb_per_ton"), 56, 1e-6);
    json_decref(d);
    test_folder_end(w.folder);
    ls_arena_free(a);
}

/* Planned is the plan's rate, however little the split allots: 3 and 1.5 ton/ac. Entry 7 of the log
 * puts entry 4 right. */
static void planned_and_corrected(void) {
    static const struct {
        const char *field;
        double rate;
    } rates[] = {{"Upper Meadow", 3}, {"Wheat Strip", 1.5}};
    ls_arena *a = ls_arena_new();
    const char *fields =
        test_replace(a, dossier_fields(a), "order: {least: 3 loads, most: 14 loads}", "order: {most: 1 loads}");
    dossier_world w = dossier_write(a, dossier_house(a), fields, dossier_log(a));
    json_t *d = dossier_document(&w), *f;
    size_t i, k, seen = 0;
    json_array_foreach(json_object_get(d, "fields"), i, f) {
        for (k = 0; k < 2; k++) {
            if (strcmp(dossier_word(f, "field"), rates[k].field) != 0) continue;
            seen++;
            TEST_NEAR(dossier_number(f, "planned_ton_per_ac"), rates[k].rate, 1e-9);
        }
    }
    TEST_SAME(seen, 2);
    json_t *correction = json_array_get(json_object_get(d, "corrections"), 0);
    TEST_NEAR(dossier_number(correction, "was_tons"), 8.85, 1e-9);
    TEST_NEAR(dossier_number(correction, "tons"), 8.58, 1e-9);
    TEST_TEXT(dossier_word(correction, "changed"),
              "field: Osgood Row Crops/Wheat Strip, was Larkspur Hay/Upper Meadow");
    json_decref(d);
    test_folder_end(w.folder);
    ls_arena_free(a);
}

/* Handed out at 3 ton/ac, then the plan is put down to 2: a load without acres covered what its
 * ticket said, one third of an acre a ton. */
static void by_its_ticket(void) {
    ls_arena *a = ls_arena_new();
    dossier_world w = dossier_write(a, dossier_house(a), dossier_fields(a), "");
    const char *log = ls_arena_printf(a, "%s/h.haul.csv", w.folder), *ticket;
    TEST_SAME(PROGRAM(a, "tickets", w.house, w.fields, FEW, "--issue").status, LS_DONE);
    const char *text = test_file_text(a, log), *meadow = strstr(text, ",\"" MEADOW);
    meadow = meadow != NULL ? meadow : strstr(text, "," MEADOW);
    CU_ASSERT_PTR_NOT_NULL_FATAL(meadow);
    while (meadow > text && meadow[-1] != '\n') meadow--;
    ticket = strstr(meadow, "NORTH");
    CU_ASSERT_PTR_NOT_NULL_FATAL(ticket);
    ticket = ls_arena_copy_n(a, ticket, strcspn(ticket, ","));
    test_file(a, w.folder, "f.yaml",
              test_replace(a, dossier_fields(a), "most: 3 ton/ac\n        incorporated: never",
                           "most: 2 ton/ac\n        incorporated: never"));
    TEST_SAME(PROGRAM(a, "record", w.house, w.fields, "--ticket", ticket, "--tons", "8.7", "--when", "2026-02-16T10:00",
                      "--weighed", "--sure", "--field", MEADOW)
                  .status,
              LS_DONE);
    json_t *d = json_loads(dossier_run(&w, "--format=json", NULL, NULL).out, 0, NULL), *f;
    size_t i, seen = 0;
    json_array_foreach(json_object_get(d, "fields"), i, f) {
        json_t *one = json_array_get(json_object_get(f, "spread"), 0);
        if (one == NULL) continue;
        seen++;
        TEST_NEAR(dossier_number(one, "acres"), 8.7 / 3, 0.01);
        TEST_NEAR(dossier_number(one, "rate_ton_per_ac"), 2, 1e-9);
    }
    TEST_SAME(seen, 1);
    TEST_HOLDS(wrong(a, d), "more litter than the rate as counted since: caution (");
    TEST_HOLDS(json_string_value(json_object_get(
                   dossier_row(d, "findings", "item", "more litter than the rate as counted since"), "what")),
               " allowed; the limit counted since is 2 tons/ac");
    json_decref(d);
    test_folder_end(w.folder);
    ls_arena_free(a);
}

/* The cap of a season stands on the sheet with its days and its rule; a finding cites its line, not the field's. */
static void cap_of_a_season(void) {
    ls_arena *a = ls_arena_new();
    static const dossier_haul load = {"NORTH-LEFT-01", "2026-02-18", "8.62", MEADOW, NULL, NULL, NULL};
    const char *cap = "        window_caps: [{between: 2025-11-15..2026-02-20, total_nitrogen: 10 lb/ac, rule: county "
                      "plan}]\n" UNCAPPED;
    const char *fields = test_replace(a, dossier_fields(a), UNCAPPED, cap);
    dossier_world w = dossier_write(a, dossier_house(a), fields, dossier_log_of(a, &load, 1));
    size_t line = 1;
    for (const char *c = fields; c < strstr(fields, "window_caps"); c++) line += *c == '\n';
    const char *page = dossier_run(&w, "--format=html", "--full", NULL).out;
    const char *at = ls_arena_printf(a, "f.yaml:%zu", line);
    TEST_HOLDS(page, " of total N from Sat, Nov 15, 2025 to Fri, Feb 20 (rule of county plan, ");
    TEST_HOLDS(page, ls_arena_printf(a, "%s); on no other day", at));
    json_t *d = json_loads(dossier_run(&w, "--format=json", NULL, NULL).out, 0, NULL);
    TEST_HOLDS(dossier_word(dossier_row(d, "findings", "item", "more litter than the rate"), "cite"), at);
    json_decref(d);
    test_folder_end(w.folder);
    ls_arena_free(a);
}

/* A load for the meadow that went to the stack says so in its row; loads stand by their days, not as they were logged.
 */
static void astray(void) {
    ls_arena *a = ls_arena_new();
    dossier_world w = dossier_write(a, dossier_house(a), dossier_fields(a), "");
    const char *log = ls_arena_printf(a, "%s/h.haul.csv", w.folder);
    TEST_SAME(PROGRAM(a, "tickets", w.house, w.fields, FEW, "--issue").status, LS_DONE);
    const char *text = test_file_text(a, log);
    for (size_t i = 0; i < 2; i++) {
        text = strstr(text + 1, ",NORTH-LEFT");
        CU_ASSERT_PTR_NOT_NULL_FATAL(text);
        const char *ticket = ls_arena_copy_n(a, text + 1, strcspn(text + 1, ","));
        TEST_SAME(PROGRAM(a, "record", w.house, w.fields, "--ticket", ticket, "--tons", "8.7", "--when",
                          i == 0 ? "2026-02-18T10:00" : "2026-02-16T10:00", "--weighed", "--sure", "--field",
                          i == 0 ? "stack" : MEADOW)
                      .status,
                  LS_DONE);
    }
    json_t *d = json_loads(dossier_run(&w, "--format=json", NULL, NULL).out, 0, NULL);
    json_t *loads = json_object_get(d, "loads"), *first = json_array_get(loads, 0), *last = json_array_get(loads, 1);
    TEST_TEXT(dossier_word(first, "date"), "2026-02-16");
    TEST_TEXT(dossier_word(last, "date"), "2026-02-18");
    CU_ASSERT(dossier_word(last, "ticket_to")[0] != '\0');
    TEST_HOLDS(dossier_run(&w, "--format=html", "--full", NULL).out, "the stack ! not by its ticket: ");
    json_decref(d);
    test_folder_end(w.folder);
    ls_arena_free(a);
}

/* Two fields that got litter of different sides, no method told of either: each with its own side. */
static void method_of_its_litter(void) {
    ls_arena *a = ls_arena_new();
    static const dossier_haul loads[] = {{"SOUTH-LEFT-01", "2026-02-16", "8.62", MEADOW, NULL, NULL, NULL},
                                         {"NORTH-LEFT-01", "2026-02-17", "8.62", WHEAT, NULL, NULL, NULL}};
    const char *house = test_replace(a, dossier_house(a), "method: combustion,", "");
    dossier_world w = dossier_write(a, house, dossier_fields(a), dossier_log_of(a, loads, 2));
    const char *page = dossier_run(&w, "--format=html", NULL, NULL).out;
    TEST_HOLDS(page, "No method of the litter test is given for South");
    TEST_HOLDS(page, "No method of the litter test is given for North");
    test_folder_end(w.folder);
    ls_arena_free(a);
}

TEST_SUITE(dossier_judge) = {{"each case", each},
                             {"parts of a load", parts},
                             {"to a yard", to_a_yard},
                             {"by its ticket", by_its_ticket},
                             {"cap of a season", cap_of_a_season},
                             {"another way than the ticket", astray},
                             {"the method of its own litter", method_of_its_litter},
                             {"planned and corrected", planned_and_corrected},
                             CU_TEST_INFO_NULL};
