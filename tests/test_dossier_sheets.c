/* The sheets that go with a dossier: figures by pencil, what is missing, JSON and CSV of each. */
#include "dossier_world.h"

#include "littershed/command.h"

#include <math.h>
#include <string.h>

static json_t *at(json_t *d, const char *sheet, const char *table, size_t row) {
    json_t *one = json_array_get(json_object_get(sheet != NULL ? json_object_get(d, sheet) : d, table), row);
    CU_ASSERT_PTR_NOT_NULL_FATAL(one);
    return one;
}

static double number(json_t *object, const char *key) {
    json_t *value = json_object_get(object, key);
    return json_is_number(value) ? json_number_value(value) : NAN;
}

static const char *word(json_t *object, const char *key) {
    const char *text = json_string_value(json_object_get(object, key));
    return text == NULL ? "" : text;
}

/* The farm of the dossier's tests with a line more below another, and its dossier. */
typedef struct {
    dossier_world w;
    json_t *d;
} sheets;

static sheets look(const char *house, const char *fields, const char *log) {
    ls_arena *a = ls_arena_new();
    sheets s = {dossier_write(a, house, fields, log), NULL};
    s.d = dossier_document(&s.w);
    return s;
}

static void done(sheets *s) {
    json_decref(s->d);
    test_folder_end(s->w.folder);
    ls_arena_free(s->w.a);
}

static bool is_missing(json_t *sheet, const char *line) {
    size_t i;
    json_t *one;
    json_array_foreach(json_object_get(sheet, "missing"), i, one) {
        if (strstr(word(one, "line"), line) != NULL) return true;
    }
    return false;
}

static const char *csv(const sheets *s, const char *table) {
    const char *option = ls_arena_printf(s->w.a, "--part=%s", table);
    return dossier_run(&s->w, "--format=csv", option, NULL).out;
}

/* ---- calibration ---- */

/* By definition: an acre is 43,560 ft2, a ton 2,000 lb. 13.2 lb on 12 ft x 12 ft: 13.2 / 144 x
 * 21.78 = 1.9965 ton/ac. 5 ton over 3,630 ft x 30 ft = 2.5 ac: 2 ton/ac. Iowa State University
 * Extension, Spreader calibration: on 56 in x 56 in = 21.78 ft2 the net pounds are the tons an
 * acre: 2.3. Their mean is 6.2965 / 3. Without a swath the truck's 32 ft: 6.4 ton over 2,722.5 ft:
 * 2 ac. */
static void rates_found(void) {
    ls_arena *a = ls_arena_new();
    const char *house = test_replace(a, dossier_house(a), "calibrated: 2026-01-20",
                                     "calibrated: 2025-01-20\n    runs:\n"
                                     "      - {date: 2026-01-20, set: 2 ton/ac, net: 13.2 lb, tarp: 144 ft2}\n"
                                     "      - {date: 2026-01-21, set: 2 ton/ac, net: 5 ton, distance: 3630 ft, "
                                     "swath: 30 ft}\n"
                                     "      - {date: 2026-01-20, set: 2 ton/ac, net: 2.3 lb, tarp: 21.78 ft2}\n"
                                     "      - {date: 2026-01-20, net: 6.4 ton, distance: 2722.5 ft}");
    sheets s = look(house, dossier_fields(a), dossier_log(a));
    const double found[] = {1.9965, 2, 2.3, 3.2}, off[] = {-0.175, 0, 15, NAN};
    for (size_t i = 0; i < 4; i++) {
        json_t *run = at(s.d, "calibration", "runs", i);
        TEST_NEAR(number(run, "found_ton_per_ac"), found[i], 1e-9);
        CU_ASSERT(isnan(off[i]) ? isnan(number(run, "off_pct")) : fabs(number(run, "off_pct") - off[i]) < 1e-6);
    }
    json_t *mean = at(s.d, "calibration", "settings", 0);
    TEST_SAME(json_integer_value(json_object_get(mean, "runs")), 3);
    TEST_NEAR(number(mean, "mean_ton_per_ac"), 6.2965 / 3, 1e-5);
    TEST_SAME(json_array_size(json_object_get(json_object_get(s.d, "calibration"), "settings")), 1);
    TEST_TEXT(word(at(s.d, "calibration", "spreaders", 0), "calibrated"), "2026-01-21");
    TEST_HOLDS(csv(&s, "calibration.runs"), "truck,date,over,net_lb,area_ft2,set_ton_per_ac,"
                                            "found_ton_per_ac,off_pct\r\n"
                                            "spreader truck,2026-01-20,tarp,13.2,144,2,1.9965,");
    done(&s);
    ls_arena_free(a);
}

/* A load of 8.62 ton over 2.9 ac: 2.9724 ton/ac. Without runs the line to paste is told. */
static void loads_tell_too(void) {
    ls_arena *a = ls_arena_new();
    const char *log = test_replace(a, dossier_log(a), "soil,note\r\n", "soil,note,acres\r\n");
    log = test_replace(a, log, "moist,\r\n", "moist,,\r\n");
    const char *end = strstr(log, "moist,,\r\n") + strlen("moist,,");
    log = ls_arena_printf(a, "%.*s2.9%s", (int)(end - log), log, end);
    sheets s = look(dossier_house(a), dossier_fields(a), log);
    json_t *sheet = json_object_get(s.d, "calibration");
    TEST_SAME(json_array_size(json_object_get(sheet, "loads")), 1);
    TEST_NEAR(number(at(s.d, "calibration", "loads", 0), "found_ton_per_ac"), 8.62 / 2.9, 1e-5);
    CU_ASSERT_TRUE(is_missing(sheet, "runs: [{date: 2026-01-20"));
    CU_ASSERT_FALSE(is_missing(sheet, "inspected:"));
    done(&s);
    ls_arena_free(a);
}

/* ---- the stack ---- */

typedef struct {
    const char *number, *day, *tons, *field, *received, *analysis;
} entry;

/* A log of North/left. */
static const char *log_of(ls_arena *a, const entry *rows, size_t n) {
    ls_text *t = ls_text_new(a);
    ls_text_add(t, "entry,replaces,ticket,when,tons,weighed,cleared,field,truck,driver,received_by,"
                   "analysis,incorporated,weather_before,weather,weather_after,soil,note\r\n");
    for (size_t i = 0; i < n; i++) {
        const char *number = ls_arena_printf(a, "NORTH-LEFT-%s", rows[i].number);
        ls_text_addf(t, "%zu,,%s-%c,%s,%s,yes,,%s,1,,%s,%s,,,,,,\r\n", i + 1, number, ls_check_character(number),
                     rows[i].day, rows[i].tons, rows[i].field, rows[i].received == NULL ? "" : rows[i].received,
                     rows[i].analysis == NULL ? "" : rows[i].analysis);
    }
    return t->s;
}

/* First in, first out: of 8.49 + 8 ton the 10 out on March 10 are the 8.49 of February 16 (22 days)
 * and 1.51 of those of February 20; the 6.49 left lie there until March 20, 28 days. A well 80 ft
 * away is nearer than the plan's 100 ft; a dwelling at just 200 ft is not. */
static void stack_by_day(void) {
    ls_arena *a = ls_arena_new();
    const entry rows[] = {
        {.number = "02", .day = "2026-02-20", .tons = "8", .field = "stack"},
        {.number = "01", .day = "2026-02-16", .tons = "8.49", .field = "stack"},
        {.number = "S01", .day = "2026-03-10", .tons = "10", .field = "Osgood Row Crops/Wheat Strip"}};
    const char *house = test_replace(a, dossier_house(a), "stack: {roofed: yes,",
                                     "stack: {roofed: yes, base: concrete, distances: [{from: "
                                     "well, distance: 80 ft, least: 100 ft}, {from: dwelling, "
                                     "distance: 200 ft, least: 200 ft}],");
    sheets s = {dossier_write(a, house, dossier_fields(a), log_of(a, rows, 3)), NULL};
    s.d = json_loads(dossier_run(&s.w, "--format=json", "--printed=2026-03-20", NULL).out, 0, NULL);
    const double in[] = {8.49, 8, NAN}, out[] = {NAN, NAN, 10}, lying[] = {8.49, 16.49, 6.49};
    for (size_t i = 0; i < 3; i++) {
        json_t *day = at(s.d, "stack", "days", i);
        CU_ASSERT(isnan(in[i]) ? isnan(number(day, "in_tons")) : number(day, "in_tons") == in[i]);
        CU_ASSERT(isnan(out[i]) ? isnan(number(day, "out_tons")) : number(day, "out_tons") == out[i]);
        TEST_NEAR(number(day, "lying_tons"), lying[i], 1e-9);
    }
    /* 8.49 + 8 in, 10 out */
    TEST_HOLDS(dossier_run(&s.w, "--full", "--printed=2026-03-20", NULL).out,
               "All these days: in 16.49 tons; out 10.00 tons; left 6.49 tons.");
    json_t *pile = at(s.d, "stack", "piles", 0), *sheet = json_object_get(s.d, "stack");
    TEST_NEAR(number(pile, "days"), 28, 1e-9);
    TEST_TEXT(word(pile, "from"), "2026-02-20");
    TEST_NEAR(number(pile, "still_tons"), 6.49, 1e-9);
    TEST_TEXT(word(at(s.d, "stack", "distances", 0), "too_near"), "yes");
    TEST_TEXT(word(at(s.d, "stack", "distances", 1), "too_near"), "no");
    CU_ASSERT_TRUE(is_missing(sheet, "most_days: 14 days"));
    CU_ASSERT_FALSE(is_missing(sheet, "base:"));
    size_t i, near = 0;
    json_t *f;
    json_array_foreach(json_object_get(s.d, "findings"), i, f) {
        if (strcmp(word(f, "item"), "stack nearer than allowed") != 0) continue;
        near++;
        TEST_TEXT(word(f, "id"), "stack_nearer_than_allowed.the_stack.well");
        TEST_TEXT(word(f, "what"), "80 ft from the well; at least 100 ft");
        TEST_TEXT(word(f, "state"), "limit exceeded");
    }
    TEST_SAME(near, 1);
    done(&s);
}

/* ---- transfers ---- */

/* Osgood got 8.55 + 8.58 = 17.13 tons; the rate is the plan's 1.5 ton/ac of the Wheat Strip. Where
 * nobody signed for entry 3 the sheet says so, with the command. */
static void transfer_sheet(void) {
    ls_arena *a = ls_arena_new();
    const char *log = dossier_log(a);
    const char *third = strstr(log, "\r\n3,");
    CU_ASSERT_PTR_NOT_NULL_FATAL(third);
    log = ls_arena_printf(a, "%.*s%s", (int)(third - log), log,
                          test_replace(a, third,
                                       "8.55,yes,,Osgood Row Crops/Wheat Strip,1,D. "
                                       "Ames,J. Osgood",
                                       "8.55,yes,,Osgood Row Crops/Wheat Strip,1,D. Ames,"));
    sheets s = look(dossier_house(a), dossier_fields(a), log);
    TEST_SAME(json_array_size(json_object_get(s.d, "transfers")), 1); /* Larkspur is the farm's */
    json_t *sheet = json_array_get(json_object_get(s.d, "transfers"), 0);
    TEST_TEXT(word(sheet, "receiver"), "Osgood Row Crops");
    TEST_TEXT(word(sheet, "stream"), "Quarry Branch");
    TEST_TEXT(word(sheet, "hauler_permit"), "none");
    TEST_NEAR(number(sheet, "tons"), 17.13, 1e-9);
    json_t *load = json_array_get(json_object_get(sheet, "loads"), 1),
           *x = json_array_get(json_object_get(sheet, "analyses"), 0);
    TEST_NEAR(number(load, "tons"), 8.58, 1e-9);
    TEST_NEAR(number(load, "advised_ton_per_ac"), 1.5, 1e-9);
    TEST_TEXT(word(load, "received_by"), "J. Osgood");
    TEST_NEAR(number(x, "N_lb_per_ton"), 38, 1e-9);
    TEST_NEAR(number(x, "P2O5_lb_per_ton"), 56, 1e-9);
    TEST_NEAR(number(x, "K2O_lb_per_ton"), 36, 1e-9);
    TEST_NEAR(number(x, "moisture_pct"), 33, 1e-9);
    TEST_TEXT(word(x, "laboratory"), "State Soil and Manure Laboratory");
    TEST_TEXT(word(x, "date"), "2026-01-29");
    size_t i, missing = 0, all = json_array_size(json_object_get(sheet, "records"));
    json_t *one;
    json_array_foreach(json_object_get(sheet, "records"), i, one) {
        if (!json_is_string(json_object_get(one, "missing"))) continue;
        missing++;
        TEST_TEXT(word(one, "missing"), "3");
        TEST_HOLDS(word(one, "fix"), "--replaces 3 --received-by");
    }
    TEST_SAME(missing, 1);
    TEST_SAME(all, 8); /* four that 40 CFR 122.42(e)(3) asks, four of states */
    TEST_HOLDS(csv(&s, "transfers.loads"), ",3,2026-02-17,NORTH-LEFT-03-M,Wheat Strip,8.55,");
    done(&s);
    ls_arena_free(a);
}

static json_t *record_of(json_t *sheet, const char *what) {
    size_t i;
    json_t *one;
    json_array_foreach(json_object_get(sheet, "records"), i, one) {
        if (strstr(word(one, "record"), what) != NULL) return one;
    }
    CU_FAIL_FATAL("no such record");
    return NULL;
}

/* Of a load shared by two each is told his tons, and asked for his own address and stream. */
static void shared_load(void) {
    ls_arena *a = ls_arena_new();
    const entry rows[] = {{"01", "2026-02-17", "8.6",
                           "Osgood Row Crops/Wheat Strip (5.2 ton); Whitcomb Pasture/Ridge (3.4 "
                           "ton)",
                           "J. Osgood", "report of 2026-01-29"}};
    sheets s = look(dossier_house(a), dossier_fields(a), log_of(a, rows, 1));
    json_t *osgood = json_array_get(json_object_get(s.d, "transfers"), 0),
           *whitcomb = json_array_get(json_object_get(s.d, "transfers"), 1);
    TEST_NEAR(number(osgood, "tons"), 5.2, 1e-9);
    TEST_NEAR(number(whitcomb, "tons"), 3.4, 1e-9);
    TEST_TEXT(word(record_of(osgood, "nearest stream"), "missing"), "");
    TEST_TEXT(word(record_of(whitcomb, "nearest stream"), "missing"), "1");
    TEST_NEAR(number(record_of(whitcomb, "amount in tons"), "present"), 1, 0);
    TEST_NEAR(number(record_of(whitcomb, "acknowledgement"), "present"), 1, 0);
    done(&s);
    ls_arena_free(a);
}

/* ---- fields in front, in the list of papers, and on their sheets ---- */

/* Of three fields one got litter: it alone stands in front and in the list of papers, by its buyer.
 * The log says nothing of how it was spread, the farm file that it is not worked in; a word of the
 * log goes first. */
static void fields_alike(void) {
    ls_arena *a = ls_arena_new();
    const entry row = {"01", "2026-02-17", "8.6", "Osgood Row Crops/Wheat Strip", NULL, NULL};
    for (int worked_in = 0; worked_in < 2; worked_in++) {
        const char *log = log_of(a, &row, 1);
        if (worked_in) log = test_replace(a, log, ",,,,,,,\r\n", ",,within a day,,,,,\r\n");
        sheets s = look(dossier_house(a), test_replace(a, dossier_fields(a), "own: yes", "own: no"), log);
        json_t *papers = json_object_get(json_object_get(s.d, "attached"), "fields");
        TEST_SAME(json_array_size(papers), 1);
        TEST_SAME(json_array_size(json_object_get(s.d, "fields_in_short")), 1);
        TEST_TEXT(word(json_array_get(papers, 0), "field"), "Osgood Row Crops/Wheat Strip");
        const char *page = dossier_run(&s.w, "--format=html", NULL, NULL).out;
        TEST_HOLDS(page, "<a href=\"#field-1\">1 Osgood Row Crops/Wheat Strip</a></th>");
        CU_ASSERT(worked_in == (strstr(page, "<td data-head=\"how spread\">on top<") == NULL));
        done(&s);
    }
    ls_arena_free(a);
}

/* ---- the annual summary ---- */

/* 7,800 + 780 + 7,200 + 720 birds; moved 17.13 tons of 38 lb N, 56 lb P2O5 and 36 lb K2O. The farm
 * file alone names no fields of the plan. */
static void annual_summary(void) {
    ls_arena *a = ls_arena_new();
    sheets s = look(dossier_house(a), dossier_fields(a), dossier_log(a));
    TEST_NEAR(number(at(s.d, NULL, "months", 1), "bird"), 16500, 1e-9);
    json_t *moved = at(s.d, NULL, "period", 4);
    TEST_TEXT(word(moved, "what"), "moved to others");
    TEST_NEAR(number(moved, "N_lb"), 17.13 * 38, 1e-3);
    TEST_NEAR(number(moved, "P2O5_lb"), 17.13 * 56, 1e-3);
    TEST_NEAR(number(moved, "K2O_lb"), 17.13 * 36, 1e-3);
    TEST_SAME(json_array_size(json_object_get(json_object_get(s.d, "annual"), "missing")), 0);
    test_run alone = PROGRAM(s.w.a, "dossier", DEMO_HOUSE, FEW, "--format=json");
    json_t *d = json_loads(alone.out, 0, NULL);
    CU_ASSERT_TRUE(is_missing(json_object_get(d, "annual"), "dossier farm.yaml fields.yaml"));
    json_decref(d);
    done(&s);
    ls_arena_free(a);
}

/* ---- dead birds, papers ---- */

/* 8.5 % of 7,800 hens and 780 males: 729.3. Of the 7,200 hens of South 6,480 at the last count are
 * 90 %, so 10 % of 7,920 birds are lost: 792. */
static void dead_birds(void) {
    ls_arena *a = ls_arena_new();
    const char *house = test_replace(a, dossier_house(a), "removed: 2026-02-11, lost: 7 %",
                                     "removed: 2026-02-11, counts: [{date: 2025-10-01, birds: "
                                     "7000}, {date: 2026-02-01, birds: 6480}]");
    house = test_replace(a, house, "Alabama\n  permit: none\n",
                         "Alabama\n  permit: none\n  mortality: {method: composted in bins}\n");
    sheets s = look(house, dossier_fields(a), dossier_log(a));
    TEST_NEAR(number(at(s.d, "mortality", "flocks", 0), "lost_birds"), 729.3, 1e-6);
    TEST_NEAR(number(at(s.d, "mortality", "flocks", 1), "lost_birds"), 792, 1e-6);
    json_t *sheet = json_object_get(s.d, "mortality");
    TEST_TEXT(word(sheet, "method"), "composted in bins");
    CU_ASSERT_FALSE(is_missing(sheet, "mortality: {"));
    CU_ASSERT_TRUE(is_missing(sheet, "record: house sheets"));
    TEST_HOLDS(csv(&s, "mortality.flocks"), "North,broiler breeder,2025-04-21,2026-02-09,1,8580,");
    done(&s);
    ls_arena_free(a);
}

/* Whatever the file tells already is on the list; what it does not is missing, until it is. */
static void papers_with_dates(void) {
    ls_arena *a = ls_arena_new();
    sheets s = look(dossier_house(a), dossier_fields(a), dossier_log(a));
    json_t *sheet = json_object_get(s.d, "attached");
    TEST_TEXT(word(at(s.d, "attached", "papers", 0), "date"), "2025-10-30"); /* the plan */
    TEST_TEXT(word(at(s.d, "attached", "papers", 2), "by"), "State Soil and Manure Laboratory");
    TEST_TEXT(word(at(s.d, "attached", "fields", 2), "soil_report"), "2025-09-22");
    CU_ASSERT_TRUE(is_missing(sheet, "paper: map"));
    CU_ASSERT_TRUE(is_missing(sheet, "tract: 1482 field 3"));
    CU_ASSERT_FALSE(is_missing(sheet, "plan: {"));
    CU_ASSERT_FALSE(is_missing(sheet, "soil: {"));
    done(&s);
    const char *house = test_replace(a, dossier_house(a), "Alabama\n  permit: none\n",
                                     "Alabama\n  permit: none\n  papers: [{paper: map, of: all fields, date: "
                                     "2025-10-30, kept: binder tab 2}]\n");
    s = look(house,
             test_replace(a, dossier_fields(a), "        area:",
                          "        tract: 1482\n"
                          "        area:"),
             dossier_log(a));
    sheet = json_object_get(s.d, "attached");
    TEST_TEXT(word(at(s.d, "attached", "papers", 3), "kept"), "binder tab 2");
    TEST_TEXT(word(at(s.d, "attached", "fields", 0), "tract"), "1482");
    TEST_SAME(json_array_size(json_object_get(sheet, "missing")), 0);
    done(&s);
    ls_arena_free(a);
}

/* The Wheat Strip needs 90 lb/ac of N. Litter of South has 37.3 lb of usable N a ton (rates): 2.41
 * ton/ac; that of North 38 x 60 % = 22.8, so the top of the published range, 3
 * ton/ac, comes first there. The Upper Meadow needs 120: 3 ton/ac of both, which no plan says. */
static void limits_in_front(void) {
    ls_arena *a = ls_arena_new();
    const char *fields = test_replace(a, dossier_fields(a), "        most: 1.5 ton/ac\n", "");
    fields = test_replace(a, fields, "        most: 3 ton/ac\n", "");
    sheets s = look(dossier_house(a), fields, log_of(a, NULL, 0));
    size_t i, seen = 0;
    json_t *row;
    json_array_foreach(json_object_get(s.d, "fields_in_short"), i, row) {
        bool wheat = strstr(word(row, "field"), "Wheat Strip") != NULL;
        if (!wheat && strstr(word(row, "field"), "Upper Meadow") == NULL) continue;
        seen++;
        TEST_NEAR(number(row, "limit_ton_per_ac"), wheat ? 90 / 37.3 : 3, 5e-3);
        TEST_TEXT(word(row, "limit_from"),
                  wheat ? "nitrogen need; the least, litter of South/left" : "published range");
    }
    TEST_SAME(seen, 2);
    done(&s);
    ls_arena_free(a);
}

TEST_SUITE(dossier_sheets) = {{"rates found by runs", rates_found},
                              {"rates found by loads", loads_tell_too},
                              {"the stack by day", stack_by_day},
                              {"the transfer sheet", transfer_sheet},
                              {"a load of two receivers", shared_load},
                              {"the list of papers has the fields in front", fields_alike},
                              {"the annual summary", annual_summary},
                              {"dead birds", dead_birds},
                              {"papers with their dates", papers_with_dates},
                              {"limits in front", limits_in_front},
                              CU_TEST_INFO_NULL};
