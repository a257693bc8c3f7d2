#include "dossier_world.h"

#include <string.h>

/* old must stand in the text: else the demo has changed under the test. */
static const char *put(ls_arena *a, const char *text, const char *old, const char *new) {
    TEST_HOLDS(text, old);
    return test_replace(a, text, old, new);
}

const char *dossier_house(ls_arena *a) {
    const char *s = test_file_text(a, DEMO_HOUSE);
    s = put(a, s, "permit: none\n",
            "permit: none\n  plan: {on_site: yes, by: county plan writer, date: 2025-10-30, records: "
            "federal and state}\n");
    s = put(a, s, "by: State Soil and Manure Laboratory,", "by: State Soil and Manure Laboratory, method: combustion,");
    s = put(a, s, "body: 20 yd3", "body: 20 yd3\n    calibrated: 2026-01-20\n    inspected: 2026-02-14");
    return put(a, s, "hauler: Quarry Lane Cleanout", "hauler: Quarry Lane Cleanout\n  hauler_permit: none");
}

const char *dossier_house_before(ls_arena *a) {
    static const char *const days[][2] = {{"2025-02-12", "2024-02-12"},
                                          {"2025-04-14", "2024-04-14"},
                                          {"placed: 2025-04-21", "placed: 2024-04-21"},
                                          {"removed: 2026-02-09", "removed: 2025-02-09"}};
    const char *house = dossier_house(a);
    for (size_t i = 0; i < sizeof days / sizeof *days; i++) house = put(a, house, days[i][0], days[i][1]);
    return house;
}

const char *dossier_fields(ls_arena *a) {
    const char *s = test_file_text(a, DEMO_FIELDS);
    s = put(a, s, "name: Larkspur Hay\n", "name: Larkspur Hay\n    own: yes\n");
    s = put(a, s, "name: Osgood Row Crops\n", "name: Osgood Row Crops\n    stream: Quarry Branch\n");
    s = put(a, s, "width: 100 ft}", "width: 100 ft, rule: plan}");
    s = put(a, s, "yield: 3.5 ton/ac\n",
            "yield: 3.5 ton/ac\n        harvested: 2026-05-28\n        yield_got: 3.1 ton/ac\n");
    s = put(a, s, "yield: 5 ton/ac\n",
            "yield: 5 ton/ac\n        harvested: 2026-06-02\n        yield_got: 4.6 ton/ac\n");
    s = put(a, s, "bank: 3 years}", "bank: 3 years, ledger: [{year: 2025, P2O5: 60 lb/ac, removed: 55 lb/ac}]}");
    for (size_t i = 0; i < 3; i++) {
        static const char *const bare[] = {"area: 14.5 ac\n", "area: 22 ac\n", "area: 31 ac\n"};
        s = put(a, s, bare[i], ls_arena_printf(a, "%s        setbacks: none\n", bare[i]));
    }
    return put(a, s, "yield: 65 bu/ac\n",
               "yield: 65 bu/ac\n        planted: 2025-11-02\n        harvested: 2026-06-20\n        "
               "yield_got: 61 bu/ac\n");
}

const char *dossier_log_of(ls_arena *a, const dossier_haul *loads, size_t n) {
    ls_text *t = ls_text_new(a);
    ls_text_add(t, "entry,replaces,ticket,when,tons,weighed,cleared,field,truck,driver,received_by,"
                   "analysis,incorporated,weather_before,weather,weather_after,soil,note\r\n");
    for (size_t i = 0; i < n && loads[i].ticket != NULL; i++) {
        const dossier_haul *x = &loads[i];
        ls_text_addf(t,
                     "%zu,%s,%s-%c,%s,%s,yes,,%s,1,D. Ames,J. Osgood,report of %s,%s,dry,clear,"
                     "rain,moist,\r\n",
                     i + 1, x->replaces != NULL ? x->replaces : "", x->ticket, ls_check_character(x->ticket), x->when,
                     x->tons, x->to, x->report != NULL ? x->report : "2026-01-29",
                     x->worked_in != NULL ? x->worked_in : "not");
    }
    return t->s;
}

#define LOAD(number) "NORTH-LEFT-" number
#define MEADOW "Larkspur Hay/Upper Meadow"
#define WHEAT "Osgood Row Crops/Wheat Strip"

/* Weights as a scale shows them, in steps of 20 lb. Entry 4 is read anew by entry 7: 17,160 lb, and
 * it went to the Wheat Strip, not to Upper Meadow. */
const char *dossier_log(ls_arena *a) {
    static const dossier_haul loads[] = {{LOAD("01"), "2026-02-16T09:10", "8.62", MEADOW, NULL, NULL, NULL},
                                         {LOAD("02"), "2026-02-16T11:40", "8.71", MEADOW, NULL, NULL, NULL},
                                         {LOAD("03"), "2026-02-17T08:50", "8.55", WHEAT, NULL, NULL, NULL},
                                         {LOAD("04"), "2026-02-17T10:30", "8.85", MEADOW, NULL, NULL, NULL},
                                         {LOAD("05"), "2026-02-18T09:05", "8.49", "stack", NULL, NULL, NULL},
                                         {LOAD("06"), "2026-02-18T10:15", "7.93", MEADOW, NULL, NULL, NULL},
                                         {LOAD("04"), "2026-02-17T10:30", "8.58", WHEAT, NULL, NULL, "4"}};
    return dossier_log_of(a, loads, sizeof loads / sizeof *loads);
}

dossier_world dossier_write(ls_arena *a, const char *house, const char *fields, const char *log) {
    dossier_world w = {a, test_folder(a), NULL, NULL};
    w.house = test_file(a, w.folder, "h.yaml", house);
    w.fields = test_file(a, w.folder, "f.yaml", fields);
    test_file(a, w.folder, "h.haul.csv", log);
    return w;
}

test_run dossier_run(const dossier_world *w, const char *one, const char *two, const char *three) {
    return PROGRAM(w->a, "dossier", w->house, w->fields, FEW, one, two, three);
}

json_t *dossier_document(const dossier_world *w) {
    test_run run = dossier_run(w, "--format", "json", NULL);
    TEST_TEXT(run.err, "");
    TEST_SAME(run.status, 0);
    json_t *d = json_loads(run.out, JSON_REJECT_DUPLICATES, NULL);
    CU_ASSERT_PTR_NOT_NULL_FATAL(d);
    return d;
}

const char *dossier_word(json_t *object, const char *key) {
    const char *s = json_string_value(json_object_get(object, key));
    return s != NULL ? s : "";
}

double dossier_number(json_t *object, const char *key) { return json_number_value(json_object_get(object, key)); }

json_t *dossier_row(json_t *d, const char *table, const char *key, const char *value) {
    size_t i;
    json_t *one;
    json_array_foreach(json_object_get(d, table), i, one) {
        if (strcmp(dossier_word(one, key), value) == 0) return one;
    }
    return NULL;
}
