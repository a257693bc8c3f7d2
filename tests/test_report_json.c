#include "program.h"

#include "littershed/command.h"

#include <jansson.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The JSON of a command on the demo farm; the caller gives it back. */
static json_t *document(ls_arena *a, const char *command) {
    test_run run = PROGRAM(a, command, DEMO, FEW, "--format", "json");
    TEST_SAME(run.status, LS_DONE);
    TEST_TEXT(run.err, "");
    CU_ASSERT_TRUE(run.out_size > 0 && run.out[run.out_size - 1] == '\n');
    json_error_t error;
    json_t *d = json_loads(run.out, JSON_REJECT_DUPLICATES, &error);
    TEST_TEXT(d == NULL ? error.text : "", "");
    return d;
}

/* The names of an object, in order, with blanks between. */
static const char *names_of(ls_arena *a, json_t *object) {
    ls_text *t = ls_text_new(a);
    const char *name;
    json_t *value;
    json_object_foreach(object, name, value) { ls_text_addf(t, "%s%s", t->n > 0 ? " " : "", name); }
    return t->s;
}

/* The object has members of all these names (with blanks between); it may have more. */
static void has_names(ls_arena *a, json_t *object, const char *want) {
    for (const char *s = want; *s != '\0'; s += strspn(s, " ")) {
        size_t n = strcspn(s, " ");
        const char *name = ls_arena_copy_n(a, s, n);
        if (json_object_get(object, name) == NULL) TEST_TEXT(names_of(a, object), name);
        s += n;
    }
}

/* The value at a path of names and numbers: "lots/0/tons". */
static json_t *at(json_t *d, const char *path) {
    char name[100];
    while (d != NULL && *path != '\0') {
        size_t n = strcspn(path, "/");
        snprintf(name, sizeof name, "%.*s", (int)n, path);
        d = json_is_array(d) ? json_array_get(d, (size_t)atoi(name)) : json_object_get(d, name);
        path += n + (path[n] == '/');
    }
    return d;
}

static double number(json_t *d, const char *path) {
    json_t *value = at(d, path);
    return json_is_number(value) ? json_number_value(value) : NAN;
}

#define NAMES(path, want) has_names(a, at(d, path), want)
#define HEAD "program version tables command farm quarantine units seed draws"

/* The names that other programs rely on; more may only be added at the end. */
static void estimate_names(void) {
    ls_arena *a = ls_arena_new();
    json_t *d = document(a, "estimate");
    NAMES("", HEAD " lots total value all_firm_chance measure_next cautions");
    NAMES("account/0", "house reported N P K");
    NAMES("account/0/P", "eaten_lb eggs_lb growth_lb excreted_lb bedding_lb litter_lb out_lb "
                         "lost_lb lost_pct found_again_pct by_balance source");
    TEST_SAME(json_array_size(at(d, "account")), 2);
    /* what is eaten is in eggs, growth and droppings; numbers are rounded to six digits */
    TEST_NEAR(number(d, "account/0/P/eaten_lb"),
              number(d, "account/0/P/eggs_lb") + number(d, "account/0/P/growth_lb") +
                  number(d, "account/0/P/excreted_lb"),
              1e-5);
    CU_ASSERT_TRUE(json_is_null(at(d, "account/0/N/out_lb"))); /* no cake was taken out */
    CU_ASSERT_TRUE(json_is_null(at(d, "account/1/N/eaten_lb")));
    NAMES("tables", "version date");
    NAMES("lots/0", "lot house side tons hauled_tons made_tons dry_tons moisture_pct lb_per_ton lb "
                    "payload_tons loads "
                    "prior_weight methods");
    NAMES("lots/0/tons", "low mid high");
    NAMES("lots/0/lb_per_ton", "N NH4N P2O5 K2O");
    NAMES("lots/0/lb", "N P2O5 K2O");
    NAMES("lots/0/loads", "firm likely possible");
    NAMES("lots/0/methods/0", "name kind tons weight");
    NAMES("total", "tons hauled_tons lb loads");
    NAMES("total/loads", "firm likely possible");
    NAMES("value", "per_ton total");
    TEST_TEXT(json_string_value(at(d, "units")), "US");
    TEST_TEXT(json_string_value(at(d, "command")), "estimate");
    TEST_TEXT(json_string_value(at(d, "farm")), "Cedar Fork Flocks");
    TEST_TEXT(json_string_value(at(d, "lots/0/lot")), "North/left");
    TEST_TEXT(json_string_value(at(d, "lots/3/side")), "right");
    TEST_SAME(json_array_size(at(d, "lots")), 4);
    CU_ASSERT_TRUE(json_is_integer(at(d, "lots/0/loads/firm")));
    json_decref(d);
    ls_arena_free(a);
}

static void rates_names(void) {
    ls_arena *a = ls_arena_new();
    json_t *d = document(a, "rates");
    NAMES("", HEAD " fields");
    NAMES("fields/0", "buyer field area_ac spreadable_ac need credits lots");
    NAMES("fields/0/need", "N P2O5 K2O");
    NAMES("fields/0/credits", "N P2O5 K2O");
    NAMES("fields/0/lots/0", "lot ton_per_ac limit limits pan_lb_per_ton N_lb_ac P2O5_lb_ac K2O_lb_ac chance_over");
    NAMES("fields/0/lots/0/limits", "nitrogen phosphorus cap spreader window");
    NAMES("fields/0/setbacks/0", "from rule acres distance_ft");
    TEST_TEXT(json_string_value(at(d, "fields/0/setbacks/0/from")), "stream");
    TEST_NEAR(number(d, "fields/0/setbacks/0/acres"), 98000 / 43560.0, 1e-5);
    TEST_NEAR(number(d, "fields/0/setbacks/0/distance_ft"), 100, 0);
    TEST_SAME(json_array_size(at(d, "fields/0/ledger")), 0);
    NAMES("fields/0/earliest", "spread grazing harvest cattle organic_on_soil organic_off_soil");
    TEST_TEXT(json_string_value(at(d, "fields/0/earliest/spread")), "2026-04-15");
    CU_ASSERT_TRUE(json_is_null(at(d, "fields/0/earliest/grazing")));
    NAMES("fields/4/earliest/grazing", "date days given source in_case"); /* grazed by beef */
    TEST_TEXT(json_string_value(at(d, "fields/4/earliest/grazing/date")), "2026-05-06");
    TEST_TEXT(json_string_value(at(d, "fields/4/earliest/grazing/source")), "botulism-nsw");
    TEST_SAME(json_array_size(at(d, "fields")), 5);
    TEST_SAME(json_array_size(at(d, "fields/4/lots")), 4);
    TEST_NEAR(number(d, "fields/0/need/N"), 120, 0); /* as the file says */
    /* a report settles the analysis: 38 lb/ton at 3 ton/ac; there is then no chance to tell */
    TEST_NEAR(number(d, "fields/0/lots/0/N_lb_ac"), 38 * number(d, "fields/0/lots/0/ton_per_ac"), 1e-6);
    CU_ASSERT_TRUE(json_is_null(at(d, "fields/0/lots/0/chance_over")));
    CU_ASSERT_TRUE(json_is_real(at(d, "fields/0/lots/2/chance_over")));
    TEST_TEXT(json_string_value(at(d, "fields/4/lots/0/limit")), "closed"); /* rated very high */
    TEST_NEAR(number(d, "fields/4/lots/0/ton_per_ac"), 0, 0);
    json_decref(d);
    ls_arena_free(a);
}

static void plan_names(void) {
    ls_arena *a = ls_arena_new();
    json_t *d = document(a, "plan");
    NAMES("", HEAD " loads stack piles placed_tons stacked_tons unplaced_tons net_return goals gap_pct days");
    NAMES("loads/0", "ticket lot certainty to buyer tons day truck drops start leave there empty back");
    NAMES("", "by_buyer promises recalled moved where unused short_orders do_now loader assumed "
              "cautions");
    NAMES("by_buyer/0", "buyer firm_loads firm_tons likely_loads likely_tons possible_loads");
    NAMES("do_now/0", "number act words loads tons buyer field before");
    NAMES("where/0", "where buyer tons acres least_ton_per_ac most_ton_per_ac");
    TEST_NEAR(number(d, "by_buyer/0/firm_loads"), 8, 0);
    TEST_NEAR(number(d, "where/0/most_ton_per_ac"), 3, 0);
    NAMES("placed_tons", "low mid high");
    NAMES("unplaced_tons", "low mid high");
    NAMES("goals/0", "goal value bound gap");
    NAMES("days", "start finish working_days slack_days by_day ready_days spare_days loading_hours "
                  "idle_hours slats_hours waiting_hours held_hours match_factor best_trucks");
    NAMES("days/by_day/0", "day loads tons work loading_hours idle_hours slats_hours waiting_hours "
                           "held_hours");
    NAMES("days/best_trucks", "soonest cheapest tried");
    NAMES("days/best_trucks/tried/0", "trucks finish hours idle_hours waiting_hours held_hours "
                                      "cost");
    for (size_t i = 0; i < json_array_size(at(d, "stack")); i++) {
        has_names(a, json_array_get(at(d, "stack"), i), "lot in_tons out");
        if (json_array_size(at(json_array_get(at(d, "stack"), i), "out")) > 0)
            has_names(a, at(json_array_get(at(d, "stack"), i), "out/0"), "buyer field tons from");
    }
    json_decref(d);
    ls_arena_free(a);
}

/* No number is printed with more than six significant digits, and none coarser than whole units. */
static void all_rounded(json_t *value) {
    const char *name;
    json_t *part;
    size_t i;
    if (json_is_real(value)) TEST_NEAR(json_real_value(value), ls_number_round(json_real_value(value)), 0);
    json_array_foreach(value, i, part) { all_rounded(part); }
    json_object_foreach(value, name, part) { all_rounded(part); }
}

static void numbers_are_rounded(void) {
    ls_arena *a = ls_arena_new();
    static const char *const commands[] = {"estimate", "rates", "plan"};
    for (size_t i = 0; i < 3; i++) {
        json_t *d = document(a, commands[i]);
        all_rounded(d);
        json_decref(d);
        const char *text = PROGRAM(a, commands[i], DEMO, FEW, "--format", "json").out;
        CU_ASSERT_PTR_NULL(strstr(text, "0000000"));
        CU_ASSERT_PTR_NULL(strstr(text, "999999999"));
    }
    ls_arena_free(a);
}

/* Published weights sum to 1; those of the evidence do with the prior's. */
static void weights(void) {
    ls_arena *a = ls_arena_new();
    json_t *d = document(a, "estimate");
    for (size_t i = 0; i < json_array_size(at(d, "lots")); i++) {
        json_t *lot = json_array_get(at(d, "lots"), i), *method;
        double published = 0, evidence = number(lot, "prior_weight");
        size_t k;
        json_array_foreach(at(lot, "methods"), k, method) {
            bool own = strcmp(json_string_value(at(method, "kind")), "evidence") == 0;
            *(own ? &evidence : &published) += number(method, "weight");
        }
        TEST_NEAR(published, 1, 3e-6);
        TEST_NEAR(evidence, 1, 3e-6);
    }
    json_decref(d);
    ls_arena_free(a);
}

/* ---- the plan's columns ---- */

/* The tons of all loads of the plan that go to such a place, at most this uncertain. */
static double tons_of(json_t *d, const char *to, const char *last) {
    static const char *const levels[] = {"firm", "likely", "possible"};
    double sum = 0;
    json_t *load;
    size_t i;
    json_array_foreach(at(d, "loads"), i, load) {
        bool counts = false;
        for (size_t c = 0; c < 3; c++) {
            counts = counts || strcmp(levels[c], json_string_value(at(load, "certainty"))) == 0;
            if (strcmp(levels[c], last) == 0) break;
        }
        if (counts && strcmp(json_string_value(at(load, "to")), to) == 0) sum += number(load, "tons");
    }
    return sum;
}

static void plan_sums(void) {
    ls_arena *a = ls_arena_new();
    json_t *d = document(a, "plan"), *e = document(a, "estimate"), *part;
    static const char *const points[] = {"low", "mid", "high"};
    for (size_t i = 0; i < 3; i++) {
        double all = number(at(d, "placed_tons"), points[i]) + number(at(d, "stacked_tons"), points[i]) +
                     number(at(d, "unplaced_tons"), points[i]);
        TEST_NEAR(all, number(at(e, "total/tons"), points[i]), 5e-4);
    }
    TEST_NEAR(tons_of(d, "field", "possible"), number(d, "placed_tons/high"), 1e-3);
    TEST_NEAR(tons_of(d, "stack", "possible"), number(d, "stacked_tons/high"), 1e-3);
    double stacked = 0, by_day = 0;
    long loads = 0;
    size_t k;
    json_array_foreach(at(d, "stack"), k, part) { stacked += number(part, "in_tons"); }
    TEST_NEAR(stacked, number(d, "stacked_tons/high"), 1e-3);
    json_array_foreach(at(d, "days/by_day"), k, part) {
        by_day += number(part, "tons");
        loads += (long)number(part, "loads");
    }
    TEST_NEAR(by_day, tons_of(d, "field", "possible") + tons_of(d, "stack", "possible"), 1e-3);
    TEST_SAME(loads, json_array_size(at(d, "loads")));
    json_array_foreach(at(d, "loads"), k, part) {
        double drops = 0;
        json_t *drop;
        size_t i;
        json_array_foreach(at(part, "drops"), i, drop) {
            drops += number(drop, "tons");
            TEST_NEAR(number(drop, "acres") * number(drop, "ton_per_ac"), number(drop, "tons"), 1e-3);
        }
        if (strcmp(json_string_value(at(part, "to")), "field") == 0) TEST_NEAR(drops, number(part, "tons"), 1e-3);
    }
    json_decref(d);
    json_decref(e);
    ls_arena_free(a);
}

static void explain_document(void) {
    ls_arena *a = ls_arena_new();
    test_run run = PROGRAM(a, "explain", FEW, DEMO, "north.left.tons", "--format", "json");
    json_t *d = json_loads(run.out, JSON_REJECT_DUPLICATES, NULL);
    NAMES("", HEAD " key first_order lines");
    NAMES("lines/0", "key label depth value unit points formula numbers made_of origin spread");
    TEST_TEXT(json_string_value(at(d, "lines/0/key")), "north.left.tons");
    json_decref(d);
    ls_arena_free(a);
}

/* Houses alone have an estimate; loads are unknown without a truck. */
static void loads_unknown(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    test_run run = PROGRAM(a, "estimate", FEW, test_without_trucks(a, folder), "--format", "json");
    json_t *d = json_loads(run.out, 0, NULL);
    CU_ASSERT_TRUE(json_is_null(at(d, "lots/0/loads")));
    CU_ASSERT_TRUE(json_is_null(at(d, "lots/0/payload_tons")));
    CU_ASSERT_TRUE(json_is_null(at(d, "total/loads")));
    CU_ASSERT_TRUE(json_is_null(at(d, "all_firm_chance")));
    CU_ASSERT_TRUE(number(d, "total/tons/mid") > 0);
    json_decref(d);
    test_folder_end(folder);
    ls_arena_free(a);
}

TEST_SUITE(report_json) = {{"names of estimate", estimate_names},
                           {"names of rates", rates_names},
                           {"names of plan", plan_names},
                           {"names of explain", explain_document},
                           {"numbers are rounded", numbers_are_rounded},
                           {"weights sum to 1", weights},
                           {"columns of the plan sum to its totals", plan_sums},
                           {"loads are unknown without a truck", loads_unknown},
                           CU_TEST_INFO_NULL};
