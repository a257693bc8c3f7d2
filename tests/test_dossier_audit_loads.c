/* The audit load by load, how old tests may be, how large a farm is, and farms with less on file.
 */
#include "dossier_world.h"

#include "littershed/command.h"

#include <string.h>

static bool wrong(json_t *f) {
    const char *state = dossier_word(f, "state");
    return strcmp(state, "present") != 0 && strcmp(state, "not needed") != 0;
}

/* Every finding that is wrong as "item | of | where", with "; " between. */
static const char *all_wrong(ls_arena *a, json_t *d) {
    ls_text *t = ls_text_new(a);
    size_t i;
    json_t *f;
    json_array_foreach(json_object_get(d, "findings"), i, f) {
        if (wrong(f))
            ls_text_addf(t, "%s%s | %s | %s", t->n == 0 ? "" : "; ", dossier_word(f, "item"), dossier_word(f, "of"),
                         dossier_word(f, "where"));
    }
    return t->s;
}

static json_t *document(dossier_world w) {
    json_t *d = dossier_document(&w);
    test_folder_end(w.folder);
    return d;
}

/* ---- one load ---- */

static const char row_1[] = "2026-02-16T09:10,8.62,yes,,Larkspur Hay/Upper Meadow,1,D. Ames,J. Osgood,report of "
                            "2026-01-29,not,dry,clear,rain,moist,";
static const char row_3[] = "2026-02-17T08:50,8.55,yes,,Osgood Row Crops/Wheat Strip,1,D. Ames,J. Osgood,report of "
                            "2026-01-29,not,dry,clear,rain,moist,";
static const char row_4[] = "2026-02-17T10:30,8.85,yes,,Larkspur Hay/Upper Meadow,1,D. Ames,J. Osgood,report of "
                            "2026-01-29,not,dry,clear,rain,moist,";

/* What is taken from one load is told of that load (or of its field, by its entry) alone. */
static const struct {
    const char *row, *old, *new, *told;
} single[] = {
    {row_3, ",J. Osgood,", ",,", "acknowledgement | load NORTH-LEFT-03-M | entry 3"},
    {row_3, ",report of 2026-01-29,", ",,", "analysis handed over | load NORTH-LEFT-03-M | entry 3"},
    /* not one on file, with its date and laboratory */
    {row_3, ",report of 2026-01-29,", ",x,", "analysis handed over | load NORTH-LEFT-03-M | entry 3"},
    {row_3, ",report of 2026-01-29,", ",report of 2025-01-29,",
     "analysis handed over | load NORTH-LEFT-03-M | entry 3"},
    {row_3, ",moist,", ",,", "soil condition | Osgood Row Crops/Wheat Strip | entry 3"},
    {row_3, ",rain,", ",,", "weather | Osgood Row Crops/Wheat Strip | entry 3"},
    {row_1, ",dry,", ",,", "weather | Larkspur Hay/Upper Meadow | entry 1"},
    /* to his own field: nobody has to sign, and nothing has to be handed over */
    {row_1, ",J. Osgood,report of 2026-01-29,", ",,,", ""},
    /* entry 4 was replaced by entry 7 */
    {row_4, ",J. Osgood,report of 2026-01-29,not,dry,clear,rain,moist,", ",,,,,,,,", ""},
};

static void one_load(void) {
    for (size_t i = 0; i < sizeof single / sizeof *single; i++) {
        ls_arena *a = ls_arena_new();
        const char *log = dossier_log(a);
        TEST_HOLDS(log, single[i].row);
        TEST_HOLDS(single[i].row, single[i].old);
        log = test_replace(a, log, single[i].row, test_replace(a, single[i].row, single[i].old, single[i].new));
        json_t *d = document(dossier_write(a, dossier_house(a), dossier_fields(a), log));
        TEST_TEXT(all_wrong(a, d), single[i].told);
        json_decref(d);
        ls_arena_free(a);
    }
}

/* A load that is struck (0 tons) is asked for nothing, though nothing else stands in its line. */
static void struck_load(void) {
    ls_arena *a = ls_arena_new();
    const char *log = ls_arena_printf(
        a, "%s8,3,NORTH-LEFT-03-M,2026-02-17T08:50,0,no,,Osgood Row Crops/Wheat Strip,,,,,,,,,,\r\n", dossier_log(a));
    dossier_world w = dossier_write(a, dossier_house(a), dossier_fields(a), log);
    json_t *d = document(w);
    static const char *const tables[] = {"findings", "loads", "transfers", "fields"};
    for (size_t i = 0; i < sizeof tables / sizeof *tables; i++) {
        char *table = json_dumps(json_object_get(d, tables[i]), 0);
        CU_ASSERT_PTR_NOT_NULL_FATAL(table);
        CU_ASSERT_PTR_NULL(strstr(table, "NORTH-LEFT-03"));
        free(table);
    }
    TEST_SAME(json_array_size(json_object_get(d, "corrections")), 2); /* there it stands */
    TEST_TEXT(all_wrong(a, d), "");
    json_decref(d);
    ls_arena_free(a);
}

/* The command that the audit writes mends the log. */
static void mended(void) {
    ls_arena *a = ls_arena_new();
    dossier_world w =
        dossier_write(a, dossier_house(a), dossier_fields(a),
                      test_replace(a, dossier_log(a), row_3, test_replace(a, row_3, ",J. Osgood,", ",,")));
    TEST_HOLDS(dossier_run(&w, "--format", "json", NULL).out, "record FILE... --replaces 3 --received-by NAME");
    test_run run = PROGRAM(a, "record", w.house, w.fields, "--replaces", "3", "--received-by", "J. Osgood");
    TEST_SAME(run.status, LS_DONE);
    json_t *d = document(w);
    TEST_TEXT(all_wrong(a, d), "");
    json_decref(d);
    ls_arena_free(a);
}

/* ---- ages ---- */

/* On 2026-02-18 went the newest load of the field and of the lot. Soil tests: every 3 to 5 years;
 * litter: yearly; North Carolina: within 60 days of the spreading (15A NCAC 02T), given as the
 * plan's limit. */
static const struct {
    const char *ages, *old, *new, *told;
} aged[] = {
    {"", "date: 2025-10-14, method: Mehlich-1, P: 34", "date: 2023-02-18, method: Mehlich-1, P: 34", NULL},
    {"", "date: 2025-10-14, method: Mehlich-1, P: 34", "date: 2023-02-17, method: Mehlich-1, P: 34", "old soil test"},
    {"ages: {soil: 5 years}\n", "date: 2025-10-14, method: Mehlich-1, P: 34",
     "date: 2021-02-18, method: Mehlich-1, P: 34", NULL},
    {"ages: {soil: 5 years}\n", "date: 2025-10-14, method: Mehlich-1, P: 34",
     "date: 2021-02-16, method: Mehlich-1, P: 34", "old soil test"},
    {"", "date: 2026-01-29, by", "date: 2025-02-18, by", NULL},
    {"", "date: 2026-01-29, by", "date: 2025-02-16, by", "old litter analysis"},
    {"ages: {litter: 60 days}\n", "date: 2026-01-29, by", "date: 2025-12-20, by", NULL},
    {"ages: {litter: 60 days}\n", "date: 2026-01-29, by", "date: 2025-12-19, by", "old litter analysis"},
};

static void ages(void) {
    for (size_t i = 0; i < sizeof aged / sizeof *aged; i++) {
        ls_arena *a = ls_arena_new();
        bool own = aged[i].ages[0] != '\0';
        const char *house = ls_arena_printf(a, "%s%s", dossier_house(a), aged[i].ages);
        dossier_world w =
            dossier_write(a, test_replace(a, house, aged[i].old, aged[i].new),
                          test_replace(a, dossier_fields(a), aged[i].old, aged[i].new),
                          strcmp(aged[i].old, "date: 2026-01-29, by") == 0 /* the log names the report's date */
                              ? test_replace(a, dossier_log(a), "2026-01-29", ls_arena_copy_n(a, aged[i].new + 6, 10))
                              : dossier_log(a));
        /* past a limit of the files: strictly wrong; past the usual age: a caution */
        test_run run = dossier_run(&w, "--format", "json", "--strict");
        TEST_SAME(run.status, aged[i].told != NULL && own ? LS_MISTAKE : LS_DONE);
        for (const char *const *item = (const char *const[]){"old soil test", "old litter analysis", NULL};
             *item != NULL; item++)
            CU_ASSERT_EQUAL(strstr(run.out, ls_arena_printf(a, "\"item\": \"%s\"", *item)) != NULL,
                            aged[i].told != NULL && strcmp(aged[i].told, *item) == 0);
        if (aged[i].told != NULL) TEST_HOLDS(run.out, own ? "the farm's own file, " : "usual age");
        test_folder_end(w.folder);
        ls_arena_free(a);
    }
}

/* ---- sizes ---- */

/* 40 CFR 122.23(b)(4) and (6), litter handled dry: large from 125,000 chickens other than layers,
 * 82,000 layers, 55,000 turkeys, 30,000 ducks; medium from 37,500, 25,000, 16,500 and 10,000. The
 * figures for ducks are from memory. */
static const struct {
    const char *birds;
    int medium, large;
} kinds[] = {{"birds: broiler, count:", 37500, 125000},       {"birds: breeder pullet, count:", 37500, 125000},
             {"birds: layer pullet, count:", 37500, 125000},  {"birds: layer, count:", 25000, 82000},
             {"birds: turkey tom, count:", 16500, 55000},     {"birds: turkey hen, count:", 16500, 55000},
             {"birds: duck, count:", 10000, 30000},           {"birds: broiler breeder, hens:", 25000, 82000},
             {"birds: broiler breeder, hens:", 37500, 125000}};

static json_t *farm_of(ls_arena *a, const char *birds, int n) {
    const char *folder = test_folder(a);
    const char *file =
        test_file(a, folder, "h.yaml",
                  ls_arena_printf(a,
                                  "farm: {name: T}\nhouses:\n  - name: A\n    length: 400 ft\n    width: 40 "
                                  "ft\n    flocks: [{%s %d, placed: 2025-12-08, removed: 2026-01-26}]\n",
                                  birds, n));
    test_run run = PROGRAM(a, "dossier", file, FEW, "--format", "json");
    TEST_SAME(run.status, LS_DONE);
    json_t *d = json_loads(run.out, JSON_REJECT_DUPLICATES, NULL);
    CU_ASSERT_PTR_NOT_NULL_FATAL(d);
    test_folder_end(folder);
    return d;
}

/* Are federal items required? */
static bool required(json_t *d) {
    size_t i;
    json_t *f;
    json_array_foreach(json_object_get(d, "findings"), i, f) {
        if (strcmp(dossier_word(f, "item"), "plan on site") == 0)
            return strcmp(dossier_word(f, "required"), "yes") == 0;
    }
    return false;
}

static void size_is(const char *birds, size_t reading, int n, const char *class) {
    ls_arena *a = ls_arena_new();
    json_t *d = farm_of(a, birds, n), *sizes = json_object_get(d, "sizes");
    bool open = strstr(birds, "hens") != NULL; /* shown both ways */
    TEST_SAME(json_array_size(sizes), open ? 2 : 1);
    TEST_TEXT(dossier_word(json_array_get(sizes, reading), "class"), class);
    bool large = false;
    for (size_t i = 0; i < json_array_size(sizes); i++)
        large = large || strcmp(dossier_word(json_array_get(sizes, i), "class"), "large") == 0;
    CU_ASSERT_EQUAL(required(d), large);
    json_decref(d);
    ls_arena_free(a);
}

static void each_kind(void) {
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++) {
        size_t reading = i == sizeof kinds / sizeof *kinds - 1; /* breeders as other chickens */
        size_is(kinds[i].birds, reading, kinds[i].medium - 1, "below medium");
        size_is(kinds[i].birds, reading, kinds[i].medium, "medium");
        size_is(kinds[i].birds, reading, kinds[i].large - 1, "medium");
        size_is(kinds[i].birds, reading, kinds[i].large, "large");
    }
}

/* 41,000 layers and as many breeders: 82,000 laying hens, or 41,000 of them and 41,000 others. */
static void layers_by_themselves(json_t *sizes) {
    static const char *const rows[][2] = {{"laying hens, breeders among them", "large"},
                                          {"laying hens", "medium"},
                                          {"chickens other than layers, breeders among them", "medium"}};
    TEST_SAME(json_array_size(sizes), 3);
    for (size_t i = 0; i < 3; i++) {
        TEST_TEXT(dossier_word(json_array_get(sizes, i), "birds"), rows[i][0]);
        TEST_TEXT(dossier_word(json_array_get(sizes, i), "class"), rows[i][1]);
    }
}

/* The rule counts turkeys, not toms and hens by themselves: 30,000 of each are large, 27,000 not.
 */
static void kinds_together(void) {
    static const struct {
        const char *one, *other;
        int n;
        bool large;
    } farms[] = {
        {"turkey tom, count:", "turkey hen, count:", 30000, true},
        {"turkey tom, count:", "turkey hen, count:", 27000, false},
        {"broiler, count:", "breeder pullet, count:", 62500, true},
        {"broiler, count:", "layer, count:", 62500, false}, /* counted apart */
        {"layer, count:", "broiler breeder, hens:", 41000, true},
        {"broiler, count:", "turkey hen, count:", 54999, false},
    };
    for (size_t i = 0; i < sizeof farms / sizeof *farms; i++) {
        ls_arena *a = ls_arena_new();
        json_t *d = farm_of(a,
                            ls_arena_printf(a,
                                            "birds: %s %d, placed: 2025-12-08, removed: 2026-01-26}]\n  - name: B\n"
                                            "    length: 400 ft\n    width: 40 ft\n    flocks: [{birds: %s",
                                            farms[i].one, farms[i].n, farms[i].other),
                            farms[i].n);
        CU_ASSERT_EQUAL(required(d), farms[i].large);
        if (strstr(farms[i].other, "breeder,") != NULL && strstr(farms[i].one, "layer,") != NULL)
            layers_by_themselves(json_object_get(d, "sizes"));
        json_decref(d);
        ls_arena_free(a);
    }
}

/* ---- whose records ---- */

/* What the plan asks for governs; without it the federal size. Of the demo's farm, small. */
static const struct {
    const char *records, *hens, *of_federal, *of_state;
} asked[] = {{", records: federal and state", "7800", "yes", "yes"},
             {", records: federal", "7800", "yes", "no"},
             {", records: state", "7800", "no", "yes"},
             {"", "7800", "no", "no"},
             {"", "82000", "yes", "no"},
             {", records: state", "82000", "no", "yes"}};

static void whose(void) {
    for (size_t i = 0; i < sizeof asked / sizeof *asked; i++) {
        ls_arena *a = ls_arena_new();
        const char *house = test_replace(a, dossier_house(a), ", records: federal and state", asked[i].records);
        house = test_replace(a, house, "hens: 7800", ls_arena_printf(a, "hens: %s", asked[i].hens));
        dossier_world w = dossier_write(a, house, dossier_fields(a), dossier_log(a));
        json_t *d = json_loads(dossier_run(&w, "--format", "json", NULL).out, 0, NULL), *f;
        CU_ASSERT_PTR_NOT_NULL_FATAL(d);
        size_t k;
        json_array_foreach(json_object_get(d, "findings"), k, f) {
            if (strcmp(dossier_word(f, "item"), "recipient") == 0)
                TEST_TEXT(dossier_word(f, "required"), asked[i].of_federal);
            if (strcmp(dossier_word(f, "item"), "acknowledgement") == 0)
                TEST_TEXT(dossier_word(f, "required"), asked[i].of_state);
            if (strcmp(dossier_word(f, "item"), "soil condition") == 0) TEST_TEXT(dossier_word(f, "required"), "no");
        }
        json_decref(d);
        test_folder_end(w.folder);
        ls_arena_free(a);
    }
}

/* ---- less on file ---- */

static void no_fields(void) {
    ls_arena *a = ls_arena_new();
    dossier_world w = dossier_write(a, dossier_house(a), dossier_fields(a), dossier_log(a));
    test_run run = PROGRAM(a, "dossier", w.house, FEW, "--format", "json", "--strict");
    TEST_SAME(run.status, LS_MISTAKE);
    TEST_HOLDS(run.out, "\"item\": \"recipient\"");
    TEST_HOLDS(run.out, "name the file of the buyers and fields too");
    CU_ASSERT_PTR_NULL(strstr(run.out, "load of unknown place"));
    test_folder_end(w.folder);
    ls_arena_free(a);
}

/* How many findings of the item are not needed, as the lists of items count them. */
static long not_needed(json_t *d, const char *item) {
    json_t *all = json_object_get(json_object_get(d, "audit"), "items"), *list, *one;
    const char *key;
    size_t i;
    json_object_foreach(all, key, list) {
        json_array_foreach(list, i, one) {
            if (strcmp(dossier_word(one, "item"), item) == 0)
                return (long)json_integer_value(json_object_get(one, "not_needed"));
        }
    }
    return -1;
}

/* Nothing has gone: what the log would hold does not matter yet, what the files hold does. */
static void no_log(void) {
    static const char *const items[] = {"weather", "soil condition", "application date", "applied nutrients"};
    ls_arena *a = ls_arena_new();
    dossier_world w = dossier_write(a, dossier_house(a), dossier_fields(a), "");
    json_t *d = document(w), *f;
    size_t i, transfers = 0;
    for (i = 0; i < sizeof items / sizeof *items; i++)
        TEST_SAME(not_needed(d, items[i]), 5); /* five fields in the demo */
    json_array_foreach(json_object_get(d, "findings"), i, f) {
        transfers += strcmp(dossier_word(f, "item"), "recipient") == 0;
        CU_ASSERT_STRING_NOT_EQUAL(dossier_word(f, "state"), "not needed");
    }
    TEST_SAME(transfers, 0);
    json_decref(d);
    ls_arena_free(a);
}

/* Pasture and hay stand for years: no planting is asked; without a bank no ledger. */
static void not_asked(void) {
    ls_arena *a = ls_arena_new();
    const char *fields =
        test_replace(a, dossier_fields(a), "name: Whitcomb Pasture\n", "name: Whitcomb Pasture\n    own: yes\n");
    fields = test_replace(a, fields, "yield: 2.5 ton/ac\n",
                          "yield: 2.5 ton/ac\n        harvested: 2026-06-02\n        yield_got: 2 "
                          "ton/ac\n");
    json_t *d = document(dossier_write(a, dossier_house(a), fields, dossier_log(a))), *f;
    size_t i, seen = 0;
    json_array_foreach(json_object_get(d, "findings"), i, f) {
        const char *item = dossier_word(f, "item");
        if (strcmp(dossier_word(f, "of"), "Whitcomb Pasture/Ridge") != 0) continue;
        if (strcmp(item, "setbacks kept") == 0) TEST_TEXT(dossier_word(f, "what"), "the file says that none is needed");
        CU_ASSERT_STRING_NOT_EQUAL(item, "phosphorus ledger");
        if (strcmp(item, "planting and harvest") == 0) {
            seen++;
            TEST_TEXT(dossier_word(f, "state"), "present");
        }
    }
    TEST_SAME(seen, 1);
    json_decref(d);
    ls_arena_free(a);
}

TEST_SUITE(dossier_audit_loads) = {{"one load", one_load},
                                   {"a load that is struck", struck_load},
                                   {"what mends the log", mended},
                                   {"ages", ages},
                                   {"each kind of bird", each_kind},
                                   {"kinds together", kinds_together},
                                   {"whose records", whose},
                                   {"no fields", no_fields},
                                   {"no log", no_log},
                                   {"what is not asked", not_asked},
                                   CU_TEST_INFO_NULL};
