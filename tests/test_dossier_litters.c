/* Litter of two files in one stack, by hand. The report of 2025: 112 lb of P2O5 a ton; of this
 * year:
 * 56. Upper Meadow, three years at once: 3 x 3.5 ton/ac of hay x 12 lb = 126 lb/ac. By 2025's
 * report that is 1.125 ton/ac, in steps of the spreader 1; by the mean of both, 84 lb, it is 1.5.
 */
#include "dossier_world.h"

#include "littershed/command.h"

#include <string.h>

#define MEADOW "Larkspur Hay/Upper Meadow"
#define WHEAT "Osgood Row Crops/Wheat Strip"

static const char *text(json_t *object, const char *key) {
    const char *s = json_string_value(json_object_get(object, key));
    return s == NULL ? "" : s;
}

static double number(json_t *object, const char *key) {
    return json_number_value(json_object_get(object, key));
}

/* The row of a table that holds that; NULL: none. */
static json_t *row(json_t *d, const char *table, const char *key, const char *value) {
    size_t i;
    json_t *one;
    json_array_foreach(json_object_get(d, table), i, one) {
        if (strcmp(text(one, key), value) == 0)
            return one;
    }
    return NULL;
}

/* One load of North/left; NULL tons: none. */
typedef struct {
    const char *number, *day, *tons, *to;
} load;

static const char *log_of(ls_arena *a, const load *loads, size_t n) {
    ls_text *t = ls_text_new(a);
    ls_text_add(t, "entry,replaces,ticket,when,tons,weighed,cleared,field,truck,driver,received_by,"
                   "analysis,incorporated,weather_before,weather,weather_after,soil,note\r\n");
    for (size_t i = 0; i < n && loads[i].tons != NULL; i++) {
        const char *ticket = ls_arena_printf(a, "NORTH-LEFT-%s", loads[i].number);
        ls_text_addf(t,
                     "%zu,,%s-%c,%s,%s,yes,,%s,1,D. Ames,J. Osgood,report of 2025-01-29,not,dry,"
                     "clear,rain,moist,\r\n",
                     i + 1, ticket, ls_check_character(ticket), loads[i].day, loads[i].tons,
                     loads[i].to);
    }
    return t->s;
}

/* first: of 2024, by whose report a ton holds 168 lb. */
static json_t *look(ls_arena *a, const load first[1], const load before[2], const load now[2],
                    const char *rating, const char *period) {
    static const char rated[] = "rating: medium, rated_by: county plan writer, date: 2025-10-30";
    const char *house = test_replace(a, dossier_house(a), "  permit: none\n",
                                     "  permit: none\n  earlier: [{file: 2025.yaml, fields: "
                                     "2025f.yaml}, {file: 2024.yaml, fields: 2025f.yaml}]\n");
    const char *fields = dossier_fields(a);
    TEST_HOLDS(fields, rated);
    dossier_world w =
        dossier_write(a, house, test_replace(a, fields, rated, rating), log_of(a, now, 2));
    house = dossier_house_before(a);
    house = test_replace(a, house, "date: 2026-01-29", "date: 2025-01-29");
    test_file(a, w.folder, "2025.yaml", test_replace(a, house, "P2O5: 56", "P2O5: 112"));
    house = test_replace(a, test_replace(a, house, "2024-", "2023-"), "removed: 2025-",
                         "removed: 2024-");
    house = test_replace(a, house, "date: 2025-01-29", "date: 2024-01-29");
    test_file(a, w.folder, "2024.yaml", test_replace(a, house, "P2O5: 56", "P2O5: 168"));
    test_file(a, w.folder, "2024.haul.csv", log_of(a, first, 1));
    test_file(a, w.folder, "2025f.yaml", fields);
    test_file(a, w.folder, "2025.haul.csv", log_of(a, before, 2));
    json_t *d = json_loads(dossier_run(&w, "--format=json", "--period", period).out,
                           JSON_REJECT_DUPLICATES, NULL);
    CU_ASSERT_PTR_NOT_NULL_FATAL(d);
    test_folder_end(w.folder);
    return d;
}
#define BANK "rating: high, rated_by: county plan writer, date: 2025-10-30, bank: 3 years"
#define HIGH BANK ", ledger: [{year: 2025, P2O5: 55 lb/ac, removed: 55 lb/ac}]"

/* 5 ton at 1 ton/ac are 5 ac and 560 lb: no finding. */
static void by_its_own_report(void) {
    ls_arena *a = ls_arena_new();
    json_t *d = look(a, (load[1]){{0}}, (load[2]){{"01", "2025-02-18", "5", "stack"}},
                     (load[2]){{"S01", "2026-02-18", "5", MEADOW}}, HIGH, "2026");
    json_t *f = row(d, "fields", "field", "Upper Meadow");
    json_t *one = json_array_get(json_object_get(f, "spread"), 0);
    TEST_NEAR(number(f, "P2O5_lb"), 560, 1e-6);
    TEST_NEAR(number(one, "rate_ton_per_ac"), 1, 1e-9);
    TEST_NEAR(number(one, "acres"), 5, 1e-9);
    CU_ASSERT_PTR_NULL(row(d, "findings", "item", "more phosphate than the rating allows"));
    CU_ASSERT_PTR_NULL(row(d, "findings", "item", "more litter than the rate"));
    json_decref(d);
    ls_arena_free(a);
}

/* 1.5 ton of each year: 1.5 x 112 + 1.5 x 56 = 252 lb; 3 ton at 1.5 ton/ac are 2 ac. */
static void two_litters(void) {
    ls_arena *a = ls_arena_new();
    json_t *d =
        look(a, (load[1]){{0}}, (load[2]){{"01", "2025-02-18", "1.5", "stack"}},
             (load[2]){{"01", "2026-02-17", "1.5", "stack"}, {"S01", "2026-02-18", "3", MEADOW}},
             HIGH, "2026");
    json_t *f = row(d, "fields", "field", "Upper Meadow");
    json_t *one = json_array_get(json_object_get(f, "spread"), 0);
    TEST_NEAR(number(f, "P2O5_lb"), 252, 1e-6);
    TEST_NEAR(number(one, "rate_ton_per_ac"), 1.5, 1e-9);
    TEST_NEAR(number(one, "acres"), 2, 1e-9);
    json_decref(d);
    ls_arena_free(a);
}

/* The report of 2025 is that of litter of 2025, and of no other. */
static void report_of_its_own(void) {
    for (int stacked = 0; stacked < 2; stacked++) {
        ls_arena *a = ls_arena_new();
        json_t *d =
            look(a, (load[1]){{0}}, (load[2]){{"01", "2025-02-18", "5", "stack"}},
                 (load[2]){{stacked ? "S01" : "01", "2026-02-18", "5", WHEAT}}, HIGH, "2026");
        TEST_TEXT(text(row(d, "findings", "item", "analysis handed over"), "state"),
                  stacked ? "present" : "missing");
        json_decref(d);
        ls_arena_free(a);
    }
}

static double book(json_t *d, const char *words) {
    return number(row(d, "period", "what", words), "tons");
}

/* What was left in the house in 2025 was lost when newer birds came that year: in 2026 it is not
 * lost again, though the stack has 5 ton of that litter. */
static void lost_once(void) {
    ls_arena *a = ls_arena_new();
    json_t *d = look(a, (load[1]){{0}}, (load[2]){{"01", "2025-02-18", "5", "stack"}},
                     (load[2]){{"01", "2026-02-18", "5", MEADOW}}, HIGH, "2026");
    TEST_NEAR(book(d, "in the stack at the start"), 5, 1e-9);
    TEST_NEAR(book(d, "lost, or gone to no known place"), 0, 1e-9);
    TEST_NEAR(book(d, "in the stack at the end"), 5, 1e-9);
    json_decref(d);
    ls_arena_free(a);
}

/* Out of the stack by the log of 2025, after newer birds came, and never logged in. */
static void never_logged_in(void) {
    ls_arena *a = ls_arena_new();
    json_t *d = look(a, (load[1]){{0}}, (load[2]){{"S01", "2025-09-17", "6", WHEAT}},
                     (load[2]){{"01", "2026-02-18", "5", MEADOW}}, HIGH, "2025-06-01..2025-12-31");
    TEST_NEAR(book(d, "moved to others"), 6, 1e-9);
    TEST_NEAR(book(d, "lost, or gone to no known place"), -6, 1e-9);
    json_decref(d);
    ls_arena_free(a);
}

/* Several years' phosphorus at once; the year before is told by its file and log alone. */
static void ledger_by_the_logs(void) {
    ls_arena *a = ls_arena_new();
    json_t *d = look(a, (load[1]){{0}}, (load[2]){{"01", "2025-02-18", "5", MEADOW}},
                     (load[2]){{"01", "2026-02-18", "5", MEADOW}}, BANK, "2026");
    size_t i, seen = 0;
    json_t *f;
    json_array_foreach(json_object_get(d, "findings"), i, f) {
        if (strcmp(text(f, "item"), "phosphorus ledger") != 0 || strcmp(text(f, "of"), MEADOW) != 0)
            continue;
        seen++;
        TEST_TEXT(text(f, "state"), "present");
    }
    TEST_SAME(seen, 1);
    json_decref(d);
    ls_arena_free(a);
}

/* 5 ton of 2024 on Upper Meadow by the log of 2025, over 26 ac less 980 ft x 100 ft. */
static void ledger_of_an_earlier_file(void) {
    ls_arena *a = ls_arena_new();
    json_t *d = look(a, (load[1]){{"01", "2024-02-18", "5", "stack"}},
                     (load[2]){{"S01", "2025-02-18", "5", MEADOW}},
                     (load[2]){{"01", "2026-02-18", "5", MEADOW}}, BANK, "2025");
    size_t i, seen = 0;
    json_t *y;
    json_array_foreach(json_object_get(d, "ledger"), i, y) {
        if (strcmp(text(y, "field"), "Upper Meadow") != 0 || strcmp(text(y, "year"), "2025") != 0)
            continue;
        seen++;
        TEST_NEAR(number(y, "P2O5_on_lb_per_ac"), 5 * 168 / (26 - 980.0 * 100 / 43560), 1e-4);
    }
    TEST_SAME(seen, 1);
    TEST_NEAR(number(row(d, "period", "what", "on own fields"), "P2O5_lb"), 840, 1e-6);
    json_decref(d);
    ls_arena_free(a);
}

TEST_SUITE(dossier_litters) = {{"by its own report", by_its_own_report},
                               {"two litters in a load", two_litters},
                               {"the report handed over", report_of_its_own},
                               {"lost once", lost_once},
                               {"never logged in", never_logged_in},
                               {"a ledger by the logs", ledger_by_the_logs},
                               {"the ledger of an earlier file", ledger_of_an_earlier_file},
                               CU_TEST_INFO_NULL};
