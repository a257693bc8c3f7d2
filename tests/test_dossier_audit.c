/* The audit: what is taken out of the records is what is found missing, and nothing else. Items by
 * 40 CFR 412.37(c), 412.4, 122.42(e), 9VAC25-630-70 and CPS 590. */
#include "dossier_world.h"

#include "littershed/command.h"

#include <string.h>

typedef enum { HOUSE, FIELDS, LOG } which;

/* What to take out, and the items that are then missing, blanks between by ", ". */
static const struct {
    which file;
    const char *old, *new, *missing;
} cuts[] = {
    {HOUSE, "on_site: yes", "on_site: no", "plan on site"},
    {HOUSE, "    calibrated: 2026-01-20\n", "", "calibration"},
    {HOUSE, "    inspected: 2026-02-14", "", "calibration"},
    {HOUSE, "  hauler_permit: none", "", "hauler"},
    {HOUSE, "  hauler: Quarry Lane Cleanout\n", "", "hauler"},
    {HOUSE, "  permit: none\n", "", "source farm"},
    {HOUSE, "method: combustion,", "", "test methods"},
    {FIELDS, "    address: 88 Quarry Lane, Millrace\n", "", "recipient"},
    {FIELDS, "    stream: Quarry Branch\n", "", "place of use"},
    {FIELDS, ", rule: plan}", "}", "setbacks kept"},
    {FIELDS, "        harvested: 2026-05-28\n", "", "planting and harvest"},
    {FIELDS, "        yield_got: 3.1 ton/ac\n", "", "planting and harvest"},
    {FIELDS, "        planted: 2025-11-02\n", "", "planting and harvest"},
    {FIELDS, ", ledger: [{year: 2025, P2O5: 60 lb/ac, removed: 55 lb/ac}]", "",
     "phosphorus ledger"},
    {FIELDS, "        soil: {date: 2025-10-14, method: Mehlich-1, P: 34 lb/ac, K: 160 lb/ac}\n", "",
     "test methods, test results"},
    {FIELDS, "date: 2025-10-14, method: Mehlich-1, P: 34", "date: 2025-10-14, P: 34",
     "test methods"},
    {FIELDS,
     "        phosphorus: {rating: medium, rated_by: county plan writer, date: 2025-10-02}\n", "",
     "basis of rate"},
    {LOG, ",J. Osgood,", ",,", "acknowledgement"},
    {LOG, ",report of 2026-01-29,", ",,", "analysis handed over"},
    {LOG, ",dry,clear,rain,", ",,clear,rain,", "weather"},
    {LOG, ",dry,clear,rain,", ",dry,,rain,", "weather"},
    {LOG, ",dry,clear,rain,", ",dry,clear,,", "weather"},
    {LOG, ",moist,", ",,", "soil condition"},
};

/* The items missing, each once, in the order of the program. */
static const char *missing(ls_arena *a, json_t *d) {
    ls_text *t = ls_text_new(a);
    size_t i;
    json_t *f;
    json_array_foreach(json_object_get(d, "findings"), i, f) {
        const char *item = json_string_value(json_object_get(f, "item"));
        if (strcmp(json_string_value(json_object_get(f, "state")), "missing") != 0 ||
            strstr(t->s, item) != NULL)
            continue;
        ls_text_addf(t, "%s%s", t->n == 0 ? "" : ", ", item);
        CU_ASSERT(json_is_string(json_object_get(f, "mend")));
    }
    return t->s;
}

static const char *cut(ls_arena *a, const char *text, size_t i, which file) {
    if (file != cuts[i].file)
        return text;
    TEST_HOLDS(text, cuts[i].old);
    return test_replace(a, text, cuts[i].old, cuts[i].new);
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

static void each_cut(void) {
    for (size_t i = 0; i < sizeof cuts / sizeof *cuts; i++) {
        ls_arena *a = ls_arena_new();
        dossier_world w =
            dossier_write(a, cut(a, dossier_house(a), i, HOUSE),
                          cut(a, dossier_fields(a), i, FIELDS), cut(a, dossier_log(a), i, LOG));
        json_t *d = dossier_document(&w);
        TEST_TEXT(missing(a, d), cuts[i].missing);
        json_decref(d);
        test_folder_end(w.folder);
        ls_arena_free(a);
    }
}

/* ---- limits ---- */

static const struct {
    which file;
    const char *old, *new, *item;
} passed[] = {
    {LOG, "2026-02-16T09:10", "2026-02-15T09:10", "hauled on a day off"},
    {LOG, "2026-02-16T09:10", "2026-02-14T09:10", "spread outside the open days"},
    {HOUSE, "days_off: [sunday]", "days_off: [sunday]\n  hold_days: [2026-02-17]",
     "hauled on a hold day"},
    {FIELDS, "area: 26 ac", "area: 8 ac", "more litter than the rate"},
    {FIELDS, "rating: medium, rated_by: county plan writer, date: 2025-10-02",
     "rating: very high, rated_by: county plan writer, date: 2025-10-02",
     "more phosphate than the rating allows"},
    {HOUSE, "kept_until: 2026-09-30", "kept_until: 2026-02-17", "in the stack past its last day"},
    {FIELDS, "nitrogen: 120 lb/ac", "nitrogen: 20 lb/ac", "more nitrogen than the need"},
};

static void limits(void) {
    for (size_t i = 0; i < sizeof passed / sizeof *passed; i++) {
        ls_arena *a = ls_arena_new();
        const char *text[] = {dossier_house(a), dossier_fields(a), dossier_log(a)};
        TEST_HOLDS(text[passed[i].file], passed[i].old);
        text[passed[i].file] = test_replace(a, text[passed[i].file], passed[i].old, passed[i].new);
        dossier_world w = dossier_write(a, text[HOUSE], text[FIELDS], text[LOG]);
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
    const char *house =
        test_replace(a, dossier_house(a), "height: 6 ft,", "height: 6 ft, most_days: 14 days,");
    const char *number = "NORTH-LEFT-S01";
    const char *log = ls_arena_printf(
        a, "%s8,,%s-%c,2026-03-05,8.49,yes,,Larkspur Hay/Upper Meadow,,,x,x,x,x,x,x,x,\r\n",
        dossier_log(a), number, ls_check_character(number));
    dossier_world w = dossier_write(a, house, dossier_fields(a), log);
    TEST_HOLDS(dossier_run(&w, "--format", "json", NULL).out, "longer in the stack than allowed");
    test_folder_end(w.folder);
    w = dossier_write(a, house, dossier_fields(a),
                      test_replace(a, log, "2026-03-05", "2026-03-04"));
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
    w = dossier_write(a, test_replace(a, bare, "hens: 7800", "hens: 82000"), dossier_fields(a),
                      dossier_log(a));
    test_run run = dossier_run(&w, "--strict", NULL, NULL);
    TEST_SAME(run.status, LS_MISTAKE);
    TEST_HOLDS(run.out, "By one reading the farm is large");
    test_folder_end(w.folder);
    ls_arena_free(a);
}

TEST_SUITE(dossier_audit) = {
    {"nothing is missing", nothing_missing}, {"each cut", each_cut}, {"limits", limits},
    {"days in the stack", stack_days},       {"sizes", sizes},       CU_TEST_INFO_NULL};
