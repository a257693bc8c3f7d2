/* The page and the data of rates say every limit that was kept, and explain proves the figures. */
#include "program.h"

#include "littershed/command.h"

#include <jansson.h>
#include <string.h>

static const char fields[] =
    "buyers:\n"
    "  - name: Larkspur Hay\n"
    "    fields:\n"
    "      - name: Upper Meadow\n"
    "        area: 26 ac\n"
    "        setbacks:\n"
    "          - {from: stream, edge: 980 ft, width: 100 ft, rule: county code}\n"
    "          - {from: well, radius: 150 ft, share: 50 %, overlap: 0.3 ac}\n"
    "        crop: bermudagrass hay\n"
    "        yield: 5 ton/ac\n"
    "        nitrogen: 250 lb/ac\n"
    "        potash: 60 lb/ac\n"
    "        phosphorus:\n"
    "          rating: high\n"
    "          rated_by: county plan writer\n"
    "          date: 2025-10-30\n"
    "          bank: 3 years\n"
    "          ledger:\n"
    "            - {year: 2024, litter: 2 ton/ac, P2O5: 55 lb/ton, removed: 60 lb/ac}\n"
    "            - {year: 2025, removed: 50 lb/ac}\n"
    "        window_caps:\n"
    "          - {between: 2025-11-15..2026-02-28, available_nitrogen: 25 lb/ac, rule: Alabama}\n"
    "        planting: 2026-03-20\n"
    "        days_before_planting: 30\n"
    "        use: cut\n"
    "        grazing: 2026-08-20\n"
    "        open: 2026-02-16..2026-04-15\n";

/* The crops of 2024 and 2025 took what went on, 110 - 60 - 50 = 0: three years of 60, 180 lb/ac,
 * are open again. The cap of 25 lb/ac rules until the end of February. */
static void the_page(void) {
    static const char *const parts[] = {
        "stream 100 ft along 980 ft, by the rule of county code 2.2",
        "well 150 ft round, 50% of it in the field, 0.3 ac of it kept 0.5 back already",
        "Open Wed, Feb 18 to Wed, Apr 15: by the file Mon, Feb 16 to Wed, Apr 15, "
        "and - at most 30 days before planting on Fri, Mar 20",
        "After litter on the last open day what not before after it, days by animals Wed, May 6 "
        "21 a published caution, botulism-nsw",
        "Sat, Nov 15, 2025 to Sat, available nitrogen 25 lb/ac Alabama yes Feb 28",
        "rated high by county plan writer, Thu, Oct 30, 2025; the removal of 3 years may be spread "
        "at once. P2O5 the rating allows 180 lb/ac Crops have yet to take up 0 lb/ac Allowed "
        "now 180 lb/ac",
        "crop of put on, lb/ac taken off, lb/ac left, lb/ac 2024 110 60 50",
        "2025 0 50 0",
        "season limit (lowest: sets the rate) 1.21 tons/ac",
        "From Sun, Mar 1 to Wed, Apr 15 no such limit holds: without it the rate would be "
        "3 tons/ac",
        "P2O5 a harvest removes: 60 lb/ac = 5 tons/ac x 12 lb/ton (ipni, from memory)",
        "Harvests that take up the phosphorus applied 0.933 Crops that it lasts for, this year's "
        "the first 1 Phosphorus may be applied again for the crop of 2027.",
        "RATE 1 ton/ac The rate is the lowest limit in whole steps of 0.25 tons/ac.",
        "the lifetime limit is 1,339 lb/ac and 2,499 lb/ac in South Carolina "
        "(sc-4361)",
    };
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a), *file = test_file(a, folder, "fields.yaml", fields);
    test_run run = PROGRAM(a, "rates", FEW, DEMO_HOUSE, file, "--full");
    TEST_SAME(run.status, LS_DONE);
    test_fits(run.out);
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) TEST_HOLDS(test_joined(a, run.out), parts[i]);
    test_folder_end(folder);
    ls_arena_free(a);
}

/* 110 - 60 - 40 = 10 lb/ac are not taken up: nothing goes on for the crop of 2026, which takes
 * them.
 */
static void crops_come_first(void) {
    static const char *const parts[] = {
        "P2O5 the rating allows 180 lb/ac Crops have yet to take up 10 lb/ac Allowed now 0 "
        "lb/ac No P2O5 may be applied until the crops have taken up what is left of earlier years.",
        "RATE 0 tons/ac",
        "P2O5 allowed over P2O5 of the litter, 0 lb/ac / 56 lb/ton",
        "Why: the crops have not yet taken up the phosphorus of earlier years",
        "Crops that the field's phosphorus lasts for without litter 1 Phosphorus may be applied "
        "again "
        "for the crop of 2027.",
        "No litter until they are (40 CFR 412.4(b)(3), from memory)",
    };
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a),
               *file = test_file(a, folder, "fields.yaml",
                                 test_replace(a, fields, "removed: 50 lb/ac", "removed: 40 lb/ac"));
    const char *page = test_joined(a, PROGRAM(a, "rates", FEW, DEMO_HOUSE, file, "--full").out);
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) TEST_HOLDS(page, parts[i]);
    test_folder_end(folder);
    ls_arena_free(a);
}

/* Every figure of the ledger, the setbacks, the cap and what follows has a line that explain shows
 * down to the file. */
static void the_proof(void) {
    static const struct {
        const char *key, *part;
    } cases[] = {
        {"phosphorus.left", "= 180 lb/ac x 1"},
        {"ledger-2024.on", "= 2 tons/ac x 55 lb/ton"},
        {"ledger-2025.balance", "the greatest of 0 lb/ac and 0 lb/ac"},
        {"ledger-2025.removed", "fields.yaml:20"},
        {"phosphorus.waits", "the least of"},
        {"setback-2.counted", "= 0.811362 ac - 0.3 ac"},
        {"window-cap-1", "fields.yaml:22"},
        {"north.window-1", "= 25 lb/ac / 20.72 lb/ton"},
        {"north.outside.rate", "the lowest limit without those of the season"},
        {"north.phosphorus.covered", "up to whole"},
        {"north.on.Cu", "1 ton/ac x 339.5 ppm"},
        {"interval.cattle", "botulism-nsw"},
        {"interval.planting", "fields.yaml:24"},
    };
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a), *file = test_file(a, folder, "fields.yaml", fields);
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        test_run run = PROGRAM(a, "explain", FEW, DEMO_HOUSE, file,
                               ls_arena_printf(a, "larkspur_hay.upper_meadow.%s", cases[i].key));
        TEST_SAME(run.status, LS_DONE);
        TEST_HOLDS(run.out, cases[i].part);
    }
    test_folder_end(folder);
    ls_arena_free(a);
}

/* What the plan writer would give is named as a gap. */
static void the_gaps(void) {
    ls_arena *a = ls_arena_new();
    const char *page = PROGRAM(a, "check", DEMO, "--format", "csv").out;
    TEST_HOLDS(page, "phosphorus is banked, and no ledger; ask the plan writer\",Barn Field,Barn Field,\r");
    TEST_HOLDS(page, "no setbacks: all acres count as spreadable,\"Barn Field, Wheat Strip, "
                     "Ridge\",Barn Field; Wheat Strip; Ridge,\r");
    CU_ASSERT_PTR_NULL(strstr(page, "who rated the phosphorus"));
    const char *folder = test_folder(a),
               *file = test_file(a, folder, "fields.yaml",
                                 test_replace(a, fields, "          rated_by: county plan writer\n", ""));
    page = PROGRAM(a, "check", DEMO_HOUSE, file, "--format", "csv").out;
    TEST_HOLDS(page, "who rated the phosphorus, and when (rated_by, date)\",Upper Meadow,Upper Meadow,\r");
    CU_ASSERT_PTR_NULL(strstr(page, "phosphorus is banked"));
    test_folder_end(folder);
    ls_arena_free(a);
}

/* The same as data. */
static void the_data(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a), *file = test_file(a, folder, "fields.yaml", fields);
    test_run run = PROGRAM(a, "rates", FEW, "--full", DEMO_HOUSE, file, "--format", "json");
    json_t *d = json_loads(run.out, JSON_REJECT_DUPLICATES, NULL);
    json_t *field = json_array_get(json_object_get(d, "fields"), 0),
           *rate = json_array_get(json_object_get(field, "lots"), 0), *ledger = json_object_get(field, "ledger");
    CU_ASSERT_PTR_NOT_NULL_FATAL(rate);
    TEST_SAME(json_array_size(ledger), 2);
    int year;
    double on, removed, balance;
    TEST_SAME(json_unpack(json_array_get(ledger, 0), "{s:i, s:F, s:F, s:F}", "year", &year, "on", &on, "removed",
                          &removed, "balance", &balance),
              0);
    TEST_SAME(year, 2024);
    TEST_NEAR(on, 110, 1e-9);
    TEST_NEAR(removed, 60, 1e-9);
    TEST_NEAR(balance, 50, 1e-9);
    TEST_TEXT(json_string_value(json_object_get(rate, "limit")), "window");
    TEST_NEAR(json_number_value(json_object_get(rate, "ton_per_ac")), 1, 1e-9);
    TEST_NEAR(json_number_value(json_object_get(rate, "outside_window_ton_per_ac")), 3, 1e-9);
    TEST_SAME(json_integer_value(json_object_get(rate, "phosphorus_again")), 2027);
    json_decref(d);
    test_folder_end(folder);
    ls_arena_free(a);
}

TEST_SUITE(report_limits) = {{"the page says every limit", the_page},
                             {"crops come first", crops_come_first},
                             {"explain proves the figures", the_proof},
                             {"the same as data", the_data},
                             {"gaps are named", the_gaps},
                             CU_TEST_INFO_NULL};
