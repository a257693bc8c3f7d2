/* Units, checked against GNU units (its own table of definitions). */
#include "suite.h"

#include "base/unit_symbols.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The figure that `units -t HAVE WANT` prints; -1 and a failed check if there is none. */
static double ask_units(ls_arena *a, const char *have, const char *want) {
    char line[100] = "";
    const char *command = ls_arena_printf(a, "units -t -o %%.17g '%s' '%s' 2>&1", have, want);
    FILE *answer = popen(command, "r");
    if (answer == NULL || fgets(line, sizeof line, answer) == NULL) line[0] = '\0';
    int status = answer == NULL ? -1 : pclose(answer);
    if (status == 0 && strspn(line, "0123456789.e+-\n") == strlen(line) && line[0] != '\0') return strtod(line, NULL);
    TEST_TEXT(line, "an answer of GNU units: is the program `units` installed?");
    return -1;
}

/* How GNU units spells a symbol of ours; NULL: it has no such unit (a counted thing, money, or a
 * year of 365 days). */
static const char *spelled(const ls_unit *u) {
    static const char *const pairs[][2] = {
        {"ton", "shortton"},  {"tons", "shortton"}, {"lbs", "lb"},       {"min", "minute"}, {"h", "hour"},
        {"mph", "mile/hour"}, {"acres", "acre"},    {"ac", "acre"},      {"ha", "hectare"}, {"mi", "mile"},
        {"%", "percent"},     {"year", "365 day"},  {"years", "365 day"}};
    if (u->dimension.power[LS_MONEY] != 0 || u->dimension.power[LS_BIRD] != 0 || u->dimension.power[LS_EGG] != 0 ||
        u->dimension.power[LS_LOAD] != 0 || u->dimension.power[LS_BUSHEL] != 0 || u->dimension.power[LS_BALE] != 0)
        return NULL;
    for (size_t i = 0; i < sizeof pairs / sizeof *pairs; i++)
        if (strcmp(pairs[i][0], u->text) == 0) return pairs[i][1];
    return u->text;
}

static void test_against_units(void) {
    ls_arena *a = ls_arena_new();
    size_t asked = 0, counted = 0;
    const ls_unit *u;
    for (size_t i = 0; (u = ls_unit_symbol(i)) != NULL; i++) {
        const char *have = spelled(u);
        if (have == NULL) {
            TEST_NEAR(u->factor, 1, 0);
            counted++;
            continue;
        }
        const char *base = ls_arena_printf(a, "lb^%d ft^%d day^%d", u->dimension.power[LS_MASS],
                                           u->dimension.power[LS_LENGTH], u->dimension.power[LS_TIME]);
        TEST_NEAR(u->factor, ask_units(a, have, base), 1e-14);
        asked++;
    }
    CU_ASSERT(asked >= 40 && counted >= 10);
    ls_arena_free(a);
}

static ls_unit_status status_of(ls_arena *a, const char *s) {
    ls_unit u = {0};
    return ls_unit_parse(a, s, strlen(s), &u);
}

static ls_unit parsed(ls_arena *a, const char *s) {
    ls_unit u = {0};
    TEST_SAME(ls_unit_parse(a, s, strlen(s), &u), LS_UNIT_OK);
    TEST_TEXT(u.text, s);
    return u;
}

static void test_compound(void) {
    ls_arena *a = ls_arena_new();
    ls_unit u = parsed(a, "g/bird/day");
    TEST_SAME(u.dimension.power[LS_MASS], 1);
    TEST_SAME(u.dimension.power[LS_BIRD], -1);
    TEST_SAME(u.dimension.power[LS_TIME], -1);
    TEST_NEAR(u.factor, 1 / 453.59237, 1e-15);
    TEST_NEAR(parsed(a, "lb/ton").factor, 1.0 / 2000, 1e-15);
    CU_ASSERT(ls_dimension_none(parsed(a, "lb/ton").dimension));
    TEST_NEAR(parsed(a, "mg/kg").factor, ls_unit_of("ppm").factor, 1e-15);
    TEST_NEAR(parsed(a, "mi/h").factor, ls_unit_of("mph").factor, 1e-15);
    TEST_NEAR(parsed(a, "lb/ft3").factor / parsed(a, "kg/m3").factor, ask_units(a, "lb/ft^3", "kg/m^3"), 1e-14);
    TEST_NEAR(parsed(a, "ton/ac").factor / parsed(a, "tonne/ha").factor, ask_units(a, "shortton/acre", "tonne/hectare"),
              1e-14);
    CU_ASSERT(ls_dimension_same(parsed(a, "bu/ac").dimension, parsed(a, "bushels/ha").dimension));
    CU_ASSERT(!ls_dimension_same(parsed(a, "bu").dimension, parsed(a, "ft3").dimension));
    u = ls_unit_of("");
    CU_ASSERT(ls_dimension_none(u.dimension) && u.factor == 1);
    ls_arena_free(a);
}

static void test_refused_units(void) {
    ls_arena *a = ls_arena_new();
    TEST_SAME(status_of(a, "t"), LS_UNIT_T);
    TEST_SAME(status_of(a, "lb/t"), LS_UNIT_T);
    TEST_SAME(status_of(a, "t/ac"), LS_UNIT_T);
    TEST_SAME(status_of(a, "furlong"), LS_UNIT_UNKNOWN);
    TEST_SAME(status_of(a, "Lb"), LS_UNIT_UNKNOWN);
    TEST_SAME(status_of(a, "lb /ton"), LS_UNIT_UNKNOWN);
    TEST_SAME(status_of(a, ""), LS_UNIT_MALFORMED);
    TEST_SAME(status_of(a, "/day"), LS_UNIT_MALFORMED);
    TEST_SAME(status_of(a, "lb/"), LS_UNIT_MALFORMED);
    TEST_SAME(status_of(a, "lb//day"), LS_UNIT_MALFORMED);
    ls_text *many = ls_text_new(a);
    ls_text_add(many, "lb");
    for (int i = 0; i < 128; i++) ls_text_add(many, "/day");
    TEST_SAME(status_of(a, many->s), LS_UNIT_OK);
    ls_text_add(many, "/day");
    TEST_SAME(status_of(a, many->s), LS_UNIT_MALFORMED);
    many = ls_text_new(a);
    ls_text_add(many, "%");
    for (int i = 0; i < 400; i++) ls_text_add(many, "/%");
    TEST_SAME(status_of(a, many->s), LS_UNIT_MALFORMED);
    ls_arena_free(a);
}

static int multiply_too_often(void *context) {
    ls_dimension *d = context;
    for (int i = 0; i < 128; i++) *d = ls_dimension_times(*d, ls_unit_of("ft").dimension, 1);
    return 0;
}

static int ask_for_unknown_unit(void *context) {
    (void)context;
    return ls_unit_of("furlong").factor > 0;
}

static void test_dimensions(void) {
    ls_arena *a = ls_arena_new();
    ls_dimension ft = ls_unit_of("ft").dimension, day = ls_unit_of("day").dimension;
    CU_ASSERT(ls_dimension_same(ls_dimension_times(ft, ft, 1), ls_unit_of("ac").dimension));
    CU_ASSERT(ls_dimension_same(ls_dimension_times(ft, day, -1), ls_unit_of("mph").dimension));
    CU_ASSERT(ls_dimension_none(ls_dimension_times(ft, ft, -1)));
    test_run run = test_call(a, multiply_too_often, &ft, NULL);
    TEST_SAME(run.status, 3);
    TEST_HOLDS(run.err, "dimension");
    run = test_call(a, ask_for_unknown_unit, NULL, NULL);
    TEST_SAME(run.status, 3);
    TEST_HOLDS(run.err, "furlong");
    ls_arena_free(a);
}

static void test_metric(void) {
    ls_arena *a = ls_arena_new();
    static const char *const pairs[][2] = {{"lb", "kg"},
                                           {"ton", "tonne"},
                                           {"in", "cm"},
                                           {"ft", "m"},
                                           {"mi", "km"},
                                           {"ac", "ha"},
                                           {"ft3", "m3"},
                                           {"yd3", "m3"},
                                           {"mph", "km/h"},
                                           {"lb/ton", "kg/tonne"},
                                           {"lb/ac", "kg/ha"},
                                           {"lb/ft3", "kg/m3"},
                                           {"ton/ac", "tonne/ha"},
                                           {"bu/ac", "bu/ha"},
                                           {"$/ton", "$/tonne"},
                                           {"%", "%"},
                                           {"tons/ac", "tonne/ha"},
                                           {"acres", "ha"},
                                           {"lbs", "kg"},
                                           {"bird", "bird"},
                                           {"day", "day"},
                                           {"kg", "kg"}};
    for (size_t i = 0; i < sizeof pairs / sizeof *pairs; i++)
        TEST_TEXT(ls_unit_metric(a, ls_unit_of(pairs[i][0])).text, pairs[i][1]);
    const ls_unit *u;
    for (size_t i = 0; (u = ls_unit_symbol(i)) != NULL; i++)
        CU_ASSERT(ls_dimension_same(ls_unit_metric(a, *u).dimension, u->dimension));
    ls_unit rate = ls_unit_of("ton/ac"), metric = ls_unit_metric(a, rate);
    CU_ASSERT(ls_dimension_same(rate.dimension, metric.dimension));
    TEST_NEAR(3 * rate.factor / metric.factor, 6.725, 1e-4); /* 1 ton/ac is 2.2417 tonne/ha */
    ls_arena_free(a);
}

/* As a grower writes them: one ton, three tons. */
static void test_amounts(void) {
    static const char *const want[][3] = {{"3", "ton", "3 tons"},
                                          {"1", "ton", "1 ton"},
                                          {"1", "tons/ac", "1 ton/ac"},
                                          {"3", "ton/ac", "3 tons/ac"},
                                          {"3", "tons/ac", "3 tons/ac"},
                                          {"16,500", "bird", "16,500 birds"},
                                          {"36", "%", "36%"},
                                          {"5", "lb", "5 lb"},
                                          {"61", "$/ton", "$61 a ton"},
                                          {"-4", "$/ac", "-$4 an acre"},
                                          {"7,244", "$", "$7,244"},
                                          {"2", "", "2"}};
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < sizeof want / sizeof *want; i++)
        TEST_TEXT(ls_unit_amount(a, want[i][0], want[i][1]), want[i][2]);
    TEST_TEXT(ls_unit_many(a, "ton/ac"), "tons/ac");
    ls_arena_free(a);
}

/* What a page says can be pasted into a farm file. */
static void test_plural_is_read(void) {
    static const char *const pairs[][2] = {
        {"tons/ac", "ton/ac"}, {"tons", "ton"}, {"loads", "load"}, {"birds", "bird"}, {"tonnes/ha", "tonne/ha"}};
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < sizeof pairs / sizeof *pairs; i++) {
        ls_unit many, one = ls_unit_of(pairs[i][1]);
        CU_ASSERT_EQUAL(ls_unit_parse(a, pairs[i][0], strlen(pairs[i][0]), &many), LS_UNIT_OK);
        CU_ASSERT(ls_dimension_same(many.dimension, one.dimension) && many.factor == one.factor);
    }
    ls_arena_free(a);
}

TEST_SUITE(base_unit) = {
    {"amounts in words", test_amounts},
    {"plurals are read", test_plural_is_read},
    {"symbols against GNU units", test_against_units},
    {"joined symbols", test_compound},
    {"refused units", test_refused_units},
    {"dimensions", test_dimensions},
    {"metric", test_metric},
    CU_TEST_INFO_NULL,
};
