/* The page of rates as a plan writer checks it: needs, credits by name, what to buy, and each of
 * them explained. */
#include "program.h"

#include "littershed/command.h"

#include <jansson.h>
#include <stdio.h>
#include <string.h>

/* Two houses without a report, whose litter differs by the draws only; and one with. */
static const char houses[] =
    "tables: {phosphate_and_potash: ksu-value}\n"
    "houses:\n"
    "  - {name: Ash, alum: yes, length: 400 ft, width: 40 ft, flocks: [{birds: broiler, count: "
    "24000, placed: 2025-12-08, removed: 2026-01-26}]}\n"
    "  - {name: Birch, length: 400 ft, width: 40 ft, flocks: [{birds: broiler, count: 24000, "
    "placed: 2025-12-08, removed: 2026-01-26}]}\n"
    "  - {name: Cedar, length: 400 ft, width: 40 ft, flocks: [{birds: broiler, count: 24000, "
    "placed: 2025-12-08, removed: 2026-01-26}], lab: [{date: 2026-01-20, by: State Laboratory, N: "
    "63 lb/ton, NH4N: 6 lb/ton, P2O5: 55 lb/ton, K2O: 47 lb/ton}]}\n"
    "fertilizer: {urea: 600 $/ton, DAP: 700 $/ton}\n";
static const char buyers[] =
    "buyers:\n"
    "  - name: Buyer\n"
    "    distance: 3 mi\n"
    "    price: 20 $/ton\n"
    "    fields:\n"
    "      - {name: Bottom, area: 10 ac, crop: bermudagrass hay, yield: 6 ton/ac, phosphate: 90 "
    "lb/ac, potash: 300 lb/ac, soil: {date: 2025-10-14, method: Mehlich-1, P: 17 ppm, K: 60 ppm}, "
    "phosphorus: {rating: low, rated_by: R. Alder}, fertilizer: [{product: DAP, rate: 100 lb/ac, "
    "for: starter}, {grade: 10-10-10, rate: 50 lb/ac}], irrigation: {nitrate: 12 ppm, water: 8 "
    "in}, credits: {legume: 10 lb/ac}, most: 1 ton/ac}\n";

/* A run of the program on that farm; more: words after the files. */
static test_run run_on(ls_arena *a, const char *folder, const char *command, const char *word, const char *value) {
    const char *h = test_file(a, folder, "h.yaml", houses), *f = test_file(a, folder, "f.yaml", buyers);
    return value != NULL  ? PROGRAM(a, command, h, f, FEW, word, value)
           : word != NULL ? PROGRAM(a, command, h, f, FEW, word)
                          : PROGRAM(a, command, h, f, FEW);
}

static size_t count(const char *text, const char *part) {
    size_t n = 0;
    for (const char *s = strstr(text, part); s != NULL; s = strstr(s + 1, part)) n++;
    return n;
}

static void page_of_rates(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    const char *page = run_on(a, folder, "rates", "--full", NULL).out;
    test_fits(page);
    test_fits(run_on(a, folder, "rates", "--units", "metric").out);
    static const char *const parts[] = {"Crop: bermudagrass hay, 6 tons/ac expected.",
                                        "P 34 lb/ac; K 120 lb/ac.",
                                        "twice as many lb/ac",
                                        "Crop needs               300           90         300\n",
                                        "N from the legume before        10            -           -\n",
                                        "DAP, starter                    18           46           -\n",
                                        "10-10-10                         5            5           5\n",
                                        "N in irrigation water           22            -           -\n",
                                        "Need after credits       245           39         295\n",
                                        "200 lb/ac for 4.5 tons/ac and 400 lb/ac for",
                                        "12 ppm x 8 in x 226,600 lb/ac/in",
                                        "57 lb/ton x 60% + ammonium N 6 lb/ton x 20%",
                                        "by table ksu-value",
                                        "Treated with alum: litter of Ash.",
                                        "  DAP                   25               250\n"};
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) TEST_HOLDS(page, parts[i]);
    CU_ASSERT_PTR_NULL(strstr(page, "\n  muriate of potash")); /* it has no price on this farm */
    /* Birch repeats Ash, Cedar does not. */
    TEST_SAME(count(page, "As for Ash"), 1);
    TEST_SAME(count(page, "fertilizer to buy"), 2);
    TEST_SAME(count(page, "RATE  1 ton/ac"), 3);
    test_folder_end(folder);
    ls_arena_free(a);
}

/* A field that is closed takes no litter, of whatever lot: said once, without limits that count for
 * nothing. What a ton is counted by stands once, too. */
static void said_once(void) {
    ls_arena *a = ls_arena_new();
    const char *page = PROGRAM(a, "rates", FEW, DEMO, "--full").out,
               *closed = strstr(page, "\nWhitcomb Pasture, Ridge\n");
    CU_ASSERT_PTR_NOT_NULL_FATAL(closed);
    TEST_SAME(count(closed, "As for North/left."), 1);
    TEST_SAME(count(closed, "Why: the field's phosphorus is rated very high: no litter"), 1);
    TEST_SAME(count(closed, "Limit from"), 0);
    TEST_SAME(count(closed, "RATE  0 tons/ac"), 2);
    TEST_SAME(count(page, "RATE  1.75 tons/ac"), 1);
    TEST_SAME(count(page, "The rate is the lowest limit in whole steps of 0.25 tons/ac."), 1);
    TEST_SAME(count(page, "typical 67 lb/ton)"), 1);
    TEST_SAME(count(page, "P2O5              0  the soil test is very high: none is asked for\n"), 1);
    TEST_SAME(count(page, "P2O5 a harvest removes: "), 5);
    ls_arena_free(a);
}

/* Worked by hand: 1 ton of 63-55-47 brings 0.6 x 57 + 0.2 x 6 = 35.4 lb of N that counts, half its
 * P2O5, all its K2O; left to give are 300 - 10 - 18 - 5 - 12 x 8 x 0.2266 = 245.25, 90 - 51 = 39
 * and 295. DAP for the 11.5 lb P2O5 that are short: 25 lb, with 4.5 lb N. */
static void supplement_in_json(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    test_run run = run_on(a, folder, "rates", "--format", "json");
    json_t *d = json_loads(run.out, 0, NULL);
    CU_ASSERT_PTR_NOT_NULL_FATAL(d);
    json_t *field = json_array_get(json_object_get(d, "fields"), 0);
    json_t *lot = json_array_get(json_object_get(field, "lots"), 2);
    json_t *short_of = json_object_get(lot, "supplement"), *products = json_object_get(short_of, "products");
    const double N = 300 - 10 - 18 - 5 - 12 * 8 * 0.2266 - 35.4;
    TEST_NEAR(json_number_value(json_object_get(short_of, "N")), N, 1e-5);
    TEST_NEAR(json_number_value(json_object_get(short_of, "P2O5")), 39 - 27.5, 1e-5);
    TEST_NEAR(json_number_value(json_object_get(short_of, "K2O")), 295 - 47, 1e-5);
    static const char *const names[] = {"DAP", "urea", "muriate of potash"};
    const double amounts[] = {11.5 / 0.46, (N - 4.5) / 0.46, 248 / 0.60};
    TEST_SAME(json_array_size(products), 3);
    for (size_t i = 0; i < 3; i++) {
        json_t *product = json_array_get(products, i);
        TEST_TEXT(json_string_value(json_object_get(product, "product")), names[i]);
        TEST_NEAR(json_number_value(json_object_get(product, "lb_ac")), amounts[i], 1e-5);
        TEST_NEAR(json_number_value(json_object_get(product, "lb_field")), 10 * amounts[i], 1e-5);
    }
    json_t *credits = json_object_get(field, "credit_list");
    TEST_SAME(json_array_size(credits), 4);
    TEST_NEAR(json_number_value(json_object_get(json_object_get(field, "credits"), "P2O5")), 51, 1e-9);
    json_decref(d);
    test_folder_end(folder);
    ls_arena_free(a);
}

/* Every figure of the page can be asked for. */
static void all_explained(void) {
    static const struct {
        const char *key, *part;
    } cases[] = {
        {"buyer.bottom.need.N", "straight line"},
        {"buyer.bottom.soil.P", "soil a test stands for"},
        {"buyer.bottom.credit.irrigation", "226,600 lb/ac/in"},
        {"buyer.bottom.credit.fertilizer-1.P2O5", "DAP, starter"},
        {"buyer.bottom.credit.fertilizer-2.N", "by its grade"},
        {"buyer.bottom.left.K2O", "K2O need less credits"},
        {"buyer.bottom.cedar.counts.P2O5", "share of P2O5 that counts"},
        {"buyer.bottom.cedar.buy.dap", "DAP for the P2O5 that is short"},
        {"buyer.bottom.cedar.buy.urea", "N still short after DAP"},
        {"buyer.bottom.cedar.buy.muriate_of_potash.field", "spreadable acres"},
    };
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        test_run run = run_on(a, folder, "explain", cases[i].key, NULL);
        TEST_SAME(run.status, LS_DONE);
        TEST_HOLDS(run.out, cases[i].part);
    }
    test_folder_end(folder);
    ls_arena_free(a);
}

/* A laboratory's own tables (invented): classes by Mehlich-3, rates for bermudagrass hay that go
 * with 200 lb of nitrogen, a fertilizer. 50 ppm P is 100 lb/ac, medium: 60 lb P2O5; 6 ton need 300
 * lb N, which adds 10 lb P2O5 and 50 lb K2O (University of Georgia, crop sheet 037). The priced
 * nitrogen holds 33 %. */
static const char own[] = "sources:\n  - {id: county-lab, who: County Laboratory, title: Rates of 2025}\n"
                          "tables:\n"
                          "  - kind: soil\n    name: county\n    title: County\n    source: county-lab\n    status: "
                          "read\n    rows:\n"
                          "      P: {low: 60 lb/ac, medium: 100 lb/ac, high: 200 lb/ac, method: Mehlich-3}\n"
                          "      K: {low: 120 lb/ac, medium: 240 lb/ac, high: 400 lb/ac, method: Mehlich-3}\n"
                          "  - kind: recommended\n    name: county\n    title: County\n    source: county-lab\n    "
                          "status: read\n    rows:\n"
                          "      bermudagrass hay P2O5 medium: {rate: 60 lb/ac}\n"
                          "      bermudagrass hay K2O low: {rate: 200 lb/ac}\n"
                          "  - kind: fertilizer\n    source: county-lab\n    status: read\n    rows:\n"
                          "      ammonium blend: {N: 660 lb/ton}\n";
static const char own_farm[] =
    "own_tables: own.yaml\n"
    "tables: {soil: county}\n"
    "houses:\n"
    "  - {name: Cedar, length: 400 ft, width: 40 ft, flocks: [{birds: broiler, count: 24000, "
    "placed: 2025-12-08, removed: 2026-01-26}], lab: [{date: 2026-01-20, by: State Laboratory, N: "
    "63 lb/ton, NH4N: 6 lb/ton, P2O5: 55 lb/ton, K2O: 47 lb/ton}]}\n"
    "fertilizer: {ammonium blend: 400 $/ton}\n"
    "buyers:\n"
    "  - name: Buyer\n    distance: 3 mi\n    price: 20 $/ton\n    fields:\n"
    "      - {name: Bottom, area: 10 ac, crop: bermudagrass hay, yield: 6 ton/ac, soil: {date: "
    "2025-10-14, method: Mehlich 3, P: 50 ppm, K: 60 ppm}, phosphorus: {rating: low, rated_by: R. "
    "Alder}, most: 1 ton/ac}\n";

static void own_tables_of_a_laboratory(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    test_file(a, folder, "own.yaml", own);
    const char *path = test_file(a, folder, "farm.yaml", own_farm);
    test_run page = PROGRAM(a, "rates", FEW, path, "--full");
    TEST_TEXT(page.err, "");
    TEST_HOLDS(test_joined(a, page.out), "P 100 lb/ac, medium; K 120 lb/ac, low.");
    TEST_HOLDS(page.out, "Crop needs                 300           70         250\n");
    test_run json = PROGRAM(a, "rates", FEW, "--full", path, "--format", "json");
    json_t *d = json_loads(json.out, 0, NULL);
    CU_ASSERT_PTR_NOT_NULL_FATAL(d);
    json_t *lot = json_array_get(json_object_get(json_array_get(json_object_get(d, "fields"), 0), "lots"), 0);
    json_t *products = json_object_get(json_object_get(lot, "supplement"), "products");
    double nitrogen = 0;
    for (size_t i = 0; i < json_array_size(products); i++) {
        json_t *product = json_array_get(products, i);
        if (strcmp(json_string_value(json_object_get(product, "product")), "ammonium blend") == 0)
            nitrogen = json_number_value(json_object_get(product, "lb_ac"));
    }
    /* DAP for the 15 lb P2O5 that are short brings 15 / 0.46 x 0.18 lb N */
    TEST_NEAR(nitrogen, (300 - 35.4 - 15 / 0.46 * 0.18) / 0.33, 1e-5);
    json_decref(d);
    test_folder_end(folder);
    ls_arena_free(a);
}

/* Fields are written as they are told, but for CSV, which is made of those that are kept: both say
 * the same. */
static void written_and_kept(void) {
    ls_arena *a = ls_arena_new();
    test_run csv = PROGRAM(a, "rates", FEW, "--full", DEMO, "--format", "csv", "--part", "fields.lots"),
             json = PROGRAM(a, "rates", FEW, "--full", DEMO, "--format", "json");
    json_t *d = json_loads(json.out, JSON_REJECT_DUPLICATES, NULL), *field, *lot;
    const char *row = csv.out;
    size_t i, k, rows = 0;
    json_array_foreach(json_object_get(d, "fields"), i, field) {
        json_array_foreach(json_object_get(field, "lots"), k, lot) {
            row = strchr(row, '\n') + 1;
            rows++;
            const char *want = ls_arena_printf(a, "%s,%s,", json_string_value(json_object_get(field, "buyer")),
                                               json_string_value(json_object_get(field, "field")));
            TEST_TEXT(ls_arena_copy_n(a, row, strlen(want)), want);
            const char *of = ls_arena_copy_n(a, row, strcspn(row, "\n"));
            TEST_HOLDS(of, ls_arena_printf(a, ",%s,%s,", json_string_value(json_object_get(lot, "lot")),
                                           json_string_value(json_object_get(lot, "limit"))));
            TEST_HOLDS(of, ls_arena_printf(a, ",%.10g,", json_number_value(json_object_get(lot, "available_N_lb_ac"))));
        }
    }
    TEST_SAME(rows, 20);
    TEST_SAME(count(csv.out, "\n"), rows + 1);
    TEST_TEXT(PROGRAM(a, "rates", FEW, "--full", DEMO, "--format", "csv").out,
              PROGRAM(a, "rates", FEW, "--full", DEMO, "--format", "csv", "--part", "rates").out);
    json_decref(d);
    ls_arena_free(a);
}

/* Headings of fields that were written away one by one each have a name of their own. */
static void headings_named(void) {
    ls_arena *a = ls_arena_new();
    const char *page = PROGRAM(a, "rates", FEW, DEMO, "--format", "html", "--full").out;
    size_t n = 0;
    for (const char *s = strstr(page, " id=\""); s != NULL; s = strstr(s + 1, " id=\""), n++) {
        size_t quoted = strlen(" id=\"") + strcspn(s + strlen(" id=\""), "\"") + 1;
        TEST_SAME(count(page, ls_arena_copy_n(a, s, quoted)), 1);
    }
    CU_ASSERT_TRUE(n > 5);
    ls_arena_free(a);
}

/* Rates are of bare fields: what the haul log has on one is said. A soil test without a table is
 * unread, not missing. Rates of litters that differ by no more than a spreader keeps are one. */
static void as_it_is(void) {
    static const char applied[] = "Applied by the haul log: Upper Meadow 8.7 tons.",
                      unread[] = "the soil test of Bottom is unread", one[] = "Bottom 0.96 10 nitrogen",
                      lab[] = ", lab: [{date: 2026-01-20, by: State Laboratory, N: 63 lb/ton, "
                              "NH4N: 6 lb/ton, P2O5: 55 lb/ton, K2O: 47 lb/ton}]";
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    const char *h = test_file(a, folder, "h.yaml", test_file_text(a, DEMO_HOUSE)),
               *f = test_file(a, folder, "f.yaml", test_file_text(a, DEMO_FIELDS));
    CU_ASSERT_PTR_NULL(strstr(PROGRAM(a, "rates", FEW, h, f).out, "haul log"));
    TEST_SAME(PROGRAM(a, "record", h, f, "--ticket", "NORTH-LEFT-01-Q", "--tons", "8.7", "--field",
                      "Larkspur Hay/Upper Meadow", "--when", "2026-02-16")
                  .status,
              LS_DONE);
    TEST_HOLDS(test_joined(a, PROGRAM(a, "rates", FEW, h, f).out), applied);
    const char *fields = test_replace(a, buyers, "phosphate: 90 lb/ac, potash: 300 lb/ac, ", "");
    fields = test_replace(a, fields, "most: 1 ton/ac", "nitrogen: 100 lb/ac");
    const char *drawn = test_replace(a, houses, "alum: yes, ", "");
    h = test_file(a, folder, "g.yaml", test_replace(a, drawn, lab, ""));
    f = test_file(a, folder, "b.yaml", fields);
    const char *page = test_joined(a, PROGRAM(a, "rates", h, f).out);
    TEST_HOLDS(page, unread);
    TEST_HOLDS(page, one);
    CU_ASSERT_PTR_NULL(strstr(page, "Write in"));
    test_folder_end(folder);
    ls_arena_free(a);
}

/* Two buyers' closed fields of one name are two. */
static void closed_counted(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a), *text = test_file_text(a, DEMO_FIELDS);
    text = test_replace(a, text, "name: Wheat Strip", "name: Ridge");
    text = test_replace(a, text, "rating: medium, rated_by: county plan writer, date: 2025-10-02",
                        "rating: very high, rated_by: county plan writer, date: 2025-10-02");
    const char *path = test_file(a, folder, "fields.yaml", text);
    TEST_HOLDS(PROGRAM(a, "rates", FEW, DEMO_HOUSE, path).out, "\n3 of 5 fields take litter.");
    test_folder_end(folder);
    ls_arena_free(a);
}

TEST_SUITE(report_rates) = {{"the page of rates", page_of_rates},
                            {"said once", said_once},
                            {"what to buy in JSON", supplement_in_json},
                            {"every figure explained", all_explained},
                            {"fields written and kept", written_and_kept},
                            {"headings have names", headings_named},
                            {"as it is", as_it_is},
                            {"closed fields of one name", closed_counted},
                            {"own tables of a laboratory", own_tables_of_a_laboratory},
                            CU_TEST_INFO_NULL};
