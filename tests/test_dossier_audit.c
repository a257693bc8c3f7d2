/* The audit: what is taken out of the records is what is found missing, and nothing else. Items by
 * 40 CFR 412.37(c), 412.4, 122.42(e), 9VAC25-630-70 and CPS 590. */
#include "dossier_world.h"

#include "littershed/command.h"
#include "littershed/reference.h"

#include <string.h>

typedef enum { HOUSE, FIELDS, LOG } which;

/* What to take out, and the items that are then missing (and limits that no longer hold), with ", "
 * between. */
static const struct {
    which file;
    const char *old, *new, *missing;
} cuts[] = {
    {HOUSE, "on_site: yes", "on_site: no", "plan on site"},
    {HOUSE,
     "  plan: {on_site: yes, by: county plan writer, date: 2025-10-30, records: federal and "
     "state}\n",
     "", "plan on site"},
    {HOUSE, "    calibrated: 2026-01-20\n", "", "calibration"},
    {HOUSE, "    inspected: 2026-02-14", "", "calibration"},
    {HOUSE, "  hauler_permit: none", "", "hauler"},
    {HOUSE, "  hauler: Quarry Lane Cleanout\n", "", "hauler"},
    {HOUSE, "  permit: none\n", "", "source farm"},
    {HOUSE, "method: combustion,", "", "test methods"},
    {FIELDS, "    address: 88 Quarry Lane, Millrace\n", "", "recipient"},
    {FIELDS, "    stream: Quarry Branch\n", "", "place of use"},
    {FIELDS, ", rule: plan}", "}", "setbacks kept"},
    {FIELDS, "        area: 22 ac\n        setbacks: none\n", "        area: 22 ac\n", "setbacks kept"},
    {FIELDS, "        setbacks:\n          - {from: stream, edge: 980 ft, width: 100 ft, rule: plan}\n", "",
     "setbacks kept"},
    {FIELDS, "        harvested: 2026-05-28\n        yield_got: 3.1 ton/ac\n",
     "        use: not harvested\n        planted: 2025-09-20\n", ""},
    {FIELDS, "        harvested: 2026-05-28\n        yield_got: 3.1 ton/ac\n", "        use: not harvested\n", ""},
    {FIELDS, "        harvested: 2026-05-28\n", "", "planting and harvest"},
    {FIELDS, "        yield_got: 3.1 ton/ac\n", "", "planting and harvest"},
    {FIELDS, "        planted: 2025-11-02\n", "", "planting and harvest"},
    {FIELDS, ", ledger: [{year: 2025, P2O5: 60 lb/ac, removed: 55 lb/ac}]", "", "phosphorus ledger"},
    {FIELDS, "        soil: {date: 2025-10-14, method: Mehlich-1, P: 34 lb/ac, K: 160 lb/ac}\n", "",
     "test methods, test results"},
    {FIELDS, "date: 2025-10-14, method: Mehlich-1, P: 34", "date: 2025-10-14, P: 34", "test methods"},
    {FIELDS, "        phosphorus: {rating: medium, rated_by: county plan writer, date: 2025-10-02}\n", "",
     "basis of rate"},
    {FIELDS, "rating: medium, rated_by: county plan writer, date: 2025-10-02", "rating: medium", "basis of rate"},
    {LOG, ",J. Osgood,", ",,", "acknowledgement"},
    {LOG, ",report of 2026-01-29,", ",,", "analysis handed over"},
    {LOG, ",dry,clear,rain,", ",,clear,rain,", "weather"},
    {LOG, ",dry,clear,rain,", ",dry,,rain,", "weather"},
    {LOG, ",dry,clear,rain,", ",dry,clear,,", "weather"},
    {LOG, ",moist,", ",,", "soil condition"},
    {HOUSE,
     "    flocks:\n      - {birds: broiler breeder, hens: 7200, males: 720, placed: 2025-05-05, "
     "removed: 2026-02-11, lost: 7 %}\n",
     "    measured: {weighed: 120 ton}\n    lab:\n      - {date: 2026-01-29, N: 38 lb/ton, P2O5: "
     "56 "
     "lb/ton, K2O: 36 lb/ton}\n",
     "yearly totals"},
    {HOUSE, "by: State Soil and Manure Laboratory, ", "", "analysis handed over"},
    {FIELDS, "        yield: 3.5 ton/ac\n", "", "crop and yield"},
    {LOG, ",Osgood Row Crops/Wheat Strip,", ",,", "load of unknown place, recipient, applied nutrients"},
    {LOG, ",not,", ",,", ""}, /* the field file says: never */
};

/* What the files are not taken without, the items that stand on it, and the message. */
static const struct {
    which file;
    const char *old, *new, *items, *message;
} refusals[] = {
    {HOUSE, "{on_site: yes, by:", "{by:", "plan on site", "this plan section has no on_site"},
    {HOUSE,
     "    flocks:\n      - {birds: broiler breeder, hens: 7200, males: 720, placed: 2025-05-05, "
     "removed: 2026-02-11, lost: 7 %}\n",
     "", "yearly totals", "house \"South\" has no flocks"},
    {HOUSE, "{date: 2026-01-29, by:", "{by:", "analysis handed over, test results", "this lab report has no date"},
    {HOUSE, "  name: Cedar Fork Flocks\n", "", "source farm", "this farm section has no name"},
    {FIELDS, "        area: 26 ac\n", "", "spreadable acres, applied nutrients", "field \"Upper Meadow\" has no area"},
    {FIELDS, ", width: 100 ft, rule: plan}", ", rule: plan}", "spreadable acres, setbacks kept",
     "a strip needs edge and width"},
    {FIELDS, "        crop: tall fescue hay\n", "", "crop and yield, planned nutrients",
     "field \"Upper Meadow\" has no crop"},
    {FIELDS, "        soil: {date: 2025-10-14, method: Mehlich-1, P: 34", "        soil: {method: Mehlich-1, P: 34",
     "test results", "this soil test has no date"},
    {FIELDS, "  - name: Osgood Row Crops\n    stream", "  - stream", "recipient, place of use",
     "this buyer has no name"},
    {LOG, ",2026-02-16T09:10,", ",,", "application date, transfer date", "this is no day, or no day and time"},
    {LOG, ",8.62,", ",,", "tons, applied nutrients", "tons should be a number"},
};

/* What takes two cuts: a field of which the files do not tell whether litter is worked in. */
static const struct {
    const char *fields_old, *fields_new, *log_old, *log_new, *missing;
} pairs[] = {
    {"        incorporated: never\n        weather: cool wet\n        open: 2026-02-16",
     "        weather: cool wet\n        open: 2026-02-16", ",not,", ",,", "method"},
};

/* Is the item one of the list? */
static bool names(const char *list, const char *item) {
    size_t n = strlen(item);
    for (const char *s = list; (s = strstr(s, item)) != NULL; s++)
        if ((s == list || s[-1] == ' ') && (s[n] == '\0' || s[n] == ',') && (s == list || s[-2] == ',')) return true;
    return false;
}

/* What is missing tells where to write it: a line of a file, or an entry of the log. */
static const char *places_wrong(json_t *f) {
    const char *where = json_string_value(json_object_get(f, "where"));
    bool told = where != NULL && (strncmp(where, "entry ", 6) == 0 || strchr(where, ':') != NULL);
    return told ? "" : json_string_value(json_object_get(f, "item"));
}

/* Every finding has an id that no other has; of one entry: its number is among the entries. */
static void check_ids(json_t *d) {
    json_t *seen = json_object(), *f;
    size_t i;
    json_array_foreach(json_object_get(d, "findings"), i, f) {
        const char *id = json_string_value(json_object_get(f, "id"));
        const char *where = json_string_value(json_object_get(f, "where"));
        json_t *first = json_array_get(json_object_get(f, "entries"), 0);
        CU_ASSERT_PTR_NOT_NULL_FATAL(id);
        CU_ASSERT_PTR_NULL(json_object_get(seen, id));
        json_object_set_new(seen, id, json_true());
        if (strncmp(where, "entry ", 6) == 0)
            CU_ASSERT_TRUE(json_string_length(first) > 0 &&
                           strncmp(where + 6, json_string_value(first), json_string_length(first)) == 0);
    }
    json_decref(seen);
}

/* The items missing, each once, in the order of the program. */
static const char *missing(ls_arena *a, json_t *d) {
    ls_text *t = ls_text_new(a);
    size_t i;
    json_t *f;
    check_ids(d);
    json_array_foreach(json_object_get(d, "findings"), i, f) {
        const char *item = json_string_value(json_object_get(f, "item"));
        const char *state = json_string_value(json_object_get(f, "state"));
        if ((strcmp(state, "missing") != 0 && strcmp(state, "limit exceeded") != 0) || names(t->s, item)) continue;
        ls_text_addf(t, "%s%s", t->n == 0 ? "" : ", ", item);
        CU_ASSERT(json_is_string(json_object_get(f, "mend")));
        TEST_TEXT(places_wrong(f), "");
    }
    return t->s;
}

/* South's litter is reported as well, and complete: nothing of its content has to be drawn for
 * every cut. One that has its report from the cut keeps it. */
static const char *with_reports(ls_arena *a, const char *house) {
    static const char report[] =
        "\n    lab:\n      - {date: 2026-01-29, by: State Soil and Manure Laboratory, method: "
        "combustion, basis: as received, moisture: 33 %, N: 38 lb/ton, NH4N: 8 lb/ton, P2O5: 56 "
        "lb/ton, K2O: 36 lb/ton}\n\ntrucks:\n";
    const char *south = strstr(house, "name: South");
    if (south != NULL && strstr(south, "    lab:\n") != NULL) return house;
    TEST_HOLDS(house, "\n\ntrucks:\n");
    return test_replace(a, house, "\n\ntrucks:\n", report);
}

/* The farm with one text of its files in the place of another. */
static dossier_world changed(ls_arena *a, which file, const char *old, const char *new) {
    const char *text[] = {dossier_house(a), dossier_fields(a), dossier_log(a)};
    TEST_HOLDS(text[file], old);
    text[file] = test_replace(a, text[file], old, new);
    return dossier_write(a, with_reports(a, text[HOUSE]), text[FIELDS], text[LOG]);
}

static void nothing_missing(void) {
    ls_arena *a = ls_arena_new();
    dossier_world w = dossier_write(a, dossier_house(a), dossier_fields(a), dossier_log(a));
    json_t *d = dossier_document(&w);
    TEST_TEXT(missing(a, d), "");
    TEST_SAME(dossier_run(&w, "--strict", NULL, NULL).status, LS_DONE);
    json_decref(d);
    test_folder_end(w.folder);
    ls_arena_free(a);
}

/* Loads out of the open days of one field: as many findings, each with its own id. */
static void ids(void) {
    ls_arena *a = ls_arena_new();
    dossier_world w = dossier_write(a, dossier_house(a), dossier_fields(a),
                                    test_replace(a, dossier_log(a), "2026-02-1", "2026-12-1"));
    json_t *d = dossier_document(&w), *f;
    size_t i, n = 0;
    check_ids(d);
    json_array_foreach(json_object_get(d, "findings"), i, f) {
        const char *id = json_string_value(json_object_get(f, "id"));
        n += strncmp(id, "spread_outside_the_open_days.larkspur_hay.upper_meadow.", 55) == 0;
    }
    TEST_SAME(n, 3);
    json_decref(d);
    test_folder_end(w.folder);
    ls_arena_free(a);
}

static void each_cut(void) {
    for (size_t i = 0; i < sizeof cuts / sizeof *cuts; i++) {
        ls_arena *a = ls_arena_new();
        dossier_world w = changed(a, cuts[i].file, cuts[i].old, cuts[i].new);
        json_t *d = dossier_document(&w);
        TEST_TEXT(missing(a, d), cuts[i].missing);
        json_decref(d);
        test_folder_end(w.folder);
        ls_arena_free(a);
    }
}

static void each_refusal(void) {
    for (size_t i = 0; i < sizeof refusals / sizeof *refusals; i++) {
        ls_arena *a = ls_arena_new();
        dossier_world w = changed(a, refusals[i].file, refusals[i].old, refusals[i].new);
        test_run run = dossier_run(&w, NULL, NULL, NULL);
        TEST_SAME(run.status, LS_MISTAKE);
        TEST_TEXT(run.out, "");
        TEST_HOLDS(run.err, refusals[i].message);
        test_folder_end(w.folder);
        ls_arena_free(a);
    }
}

static void each_pair(void) {
    for (size_t i = 0; i < sizeof pairs / sizeof *pairs; i++) {
        ls_arena *a = ls_arena_new();
        const char *fields = dossier_fields(a), *log = dossier_log(a);
        TEST_HOLDS(fields, pairs[i].fields_old);
        TEST_HOLDS(log, pairs[i].log_old);
        dossier_world w =
            dossier_write(a, dossier_house(a), test_replace(a, fields, pairs[i].fields_old, pairs[i].fields_new),
                          test_replace(a, log, pairs[i].log_old, pairs[i].log_new));
        json_t *d = dossier_document(&w);
        TEST_TEXT(missing(a, d), pairs[i].missing);
        json_decref(d);
        test_folder_end(w.folder);
        ls_arena_free(a);
    }
}

static bool in_a_cut(const char *item) {
    bool in = false;
    for (size_t i = 0; i < sizeof cuts / sizeof *cuts; i++) in = in || names(cuts[i].missing, item);
    for (size_t i = 0; i < sizeof refusals / sizeof *refusals; i++) in = in || names(refusals[i].items, item);
    for (size_t i = 0; i < sizeof pairs / sizeof *pairs; i++) in = in || names(pairs[i].missing, item);
    return in;
}

/* Every row of the rules that is a record item stands in the table of cuts, and is asked for. */
static void every_item(void) {
    static const char *const groups[] = {"record field", "record transfer", "record farm"};
    ls_arena *a = ls_arena_new();
    const ls_table *rules = ls_reference_by_id(ls_reference_load(a), "rule");
    dossier_world w = dossier_write(a, dossier_house(a), dossier_fields(a), dossier_log(a));
    test_run run = dossier_run(&w, "--format", "json", NULL);
    size_t items = 0;
    for (size_t i = 0; i < rules->n; i++) {
        const char *group = ls_row_word(&rules->rows[i], "group");
        for (size_t k = 0; k < sizeof groups / sizeof *groups; k++) {
            if (group == NULL || strcmp(group, groups[k]) != 0) continue;
            items++;
            const char *item = rules->rows[i].name;
            if (!in_a_cut(item)) TEST_TEXT(item, "an item of the table of cuts");
            TEST_HOLDS(run.out, ls_arena_printf(a, "\"item\": \"%s\"", item));
        }
    }
    TEST_SAME(items, 25); /* 15 of a field, 8 of a transfer, 2 of the farm */
    test_folder_end(w.folder);
    ls_arena_free(a);
}

/* ---- limits ---- */

static const struct {
    which file;
    const char *old, *new, *item;
} passed[] = {
    {LOG, "2026-02-16T09:10", "2026-02-14T09:10", "spread outside the open days"},
    {HOUSE, "days_off: [sunday]", "days_off: [sunday]\n  hold_days: [2026-02-17]", "hauled on a hold day"},
    {FIELDS, "area: 26 ac", "area: 8 ac", "more litter than the rate"},
    {FIELDS, "rating: medium, rated_by: county plan writer, date: 2025-10-02",
     "rating: very high, rated_by: county plan writer, date: 2025-10-02", "more phosphate than the rating allows"},
    {HOUSE, "kept_until: 2026-09-30", "kept_until: 2026-02-17", "in the stack past its last day"},
    {FIELDS, "nitrogen: 120 lb/ac", "nitrogen: 20 lb/ac", "more nitrogen than the need"},
};

static void limits(void) {
    for (size_t i = 0; i < sizeof passed / sizeof *passed; i++) {
        ls_arena *a = ls_arena_new();
        dossier_world w = changed(a, passed[i].file, passed[i].old, passed[i].new);
        test_run run = dossier_run(&w, "--format", "json", "--strict");
        TEST_SAME(run.status, LS_MISTAKE);
        TEST_HOLDS(run.out, ls_arena_printf(a, "\"item\": \"%s\"", passed[i].item));
        test_folder_end(w.folder);
        ls_arena_free(a);
    }
}

/* 14 days at most, out of the stack on the 15th day. */
static void stack_days(void) {
    ls_arena *a = ls_arena_new();
    const char *house = test_replace(a, dossier_house(a), "height: 6 ft,", "height: 6 ft, most_days: 14 days,");
    const char *number = "NORTH-LEFT-S01";
    const char *log =
        ls_arena_printf(a, "%s8,,%s-%c,2026-03-05,8.49,yes,,Larkspur Hay/Upper Meadow,,,x,x,x,x,x,x,x,\r\n",
                        dossier_log(a), number, ls_check_character(number));
    dossier_world w = dossier_write(a, house, dossier_fields(a), log);
    TEST_HOLDS(dossier_run(&w, "--format", "json", NULL).out, "longer in the stack than allowed");
    test_folder_end(w.folder);
    w = dossier_write(a, house, dossier_fields(a), test_replace(a, log, "2026-03-05", "2026-03-04"));
    test_run run = dossier_run(&w, "--format", "json", NULL);
    CU_ASSERT_PTR_NULL(strstr(run.out, "longer in the stack than allowed"));
    test_folder_end(w.folder);
    ls_arena_free(a);
}

/* ---- size and whose records ---- */

/* 40 CFR 122.23: 82,000 laying hens or 125,000 other chickens are large. A farm of 90,000 breeders
 * is large by one reading only. A small farm is held to nothing its plan does not ask. */
static void sizes(void) {
    ls_arena *a = ls_arena_new();
    const char *bare = test_replace(a, dossier_house(a), ", records: federal and state", "");
    bare = test_replace(a, bare, "on_site: yes", "on_site: no");
    dossier_world w = dossier_write(a, bare, dossier_fields(a), dossier_log(a));
    TEST_SAME(dossier_run(&w, "--strict", NULL, NULL).status, LS_DONE);
    test_folder_end(w.folder);
    w = dossier_write(a, test_replace(a, bare, "hens: 7800", "hens: 82000"), dossier_fields(a), dossier_log(a));
    test_run run = dossier_run(&w, "--strict", "--full", NULL);
    TEST_SAME(run.status, LS_MISTAKE);
    TEST_HOLDS(run.out, "By one reading the farm is at or above the federal");
    test_folder_end(w.folder);
    ls_arena_free(a);
}

TEST_SUITE(dossier_audit) = {{"nothing is missing", nothing_missing},
                             {"ids", ids},
                             {"each cut", each_cut},
                             {"each refusal", each_refusal},
                             {"each pair", each_pair},
                             {"every item", every_item},
                             {"limits", limits},
                             {"days in the stack", stack_days},
                             {"sizes", sizes},
                             CU_TEST_INFO_NULL};
