/* The dossier of three days of hauling: the books to the pound, figures by hand, pages. */
#include "dossier_world.h"

#include "littershed/command.h"

#include <math.h>
#include <string.h>

static double number(json_t *object, const char *key) {
    json_t *value = json_object_get(object, key);
    return json_is_number(value) ? json_number_value(value) : NAN;
}

/* The row of a table whose cell holds that; fails if there is none. */
static json_t *row(json_t *d, const char *table, const char *key, const char *value) {
    size_t i;
    json_t *one;
    json_array_foreach(json_object_get(d, table), i, one) {
        const char *text = json_string_value(json_object_get(one, key));
        if (text != NULL && strcmp(text, value) == 0) return one;
    }
    CU_FAIL_FATAL("no such row");
    return NULL;
}

static double way(json_t *d, const char *name) { return number(row(d, "balance", "way", name), "tons"); }

static dossier_world plain(ls_arena *a) {
    return dossier_write(a, dossier_house(a), dossier_fields(a), dossier_log(a));
}

/* Pounds of the log as written above: Upper Meadow 17,240 + 17,420 + 15,860 = 50,520; Wheat Strip
 * 17,100 + 17,160 = 34,260; stack 16,980. */
static void books_balance(void) {
    ls_arena *a = ls_arena_new();
    dossier_world w = plain(a);
    json_t *d = dossier_document(&w);
    TEST_NEAR(way(d, "own") * 2000, 50520, 1e-9);
    TEST_NEAR(way(d, "moved") * 2000, 34260, 1e-9);
    TEST_NEAR(way(d, "stacked") * 2000, 16980, 1e-9);
    TEST_NEAR(way(d, "difference") * 2000, 0, 1e-6);
    TEST_NEAR((way(d, "made") - way(d, "left")) * 2000, 50520 + 34260 + 16980, 1e-6);
    json_decref(d);
    test_folder_end(w.folder);
    ls_arena_free(a);
}

/* By hand: 26 ac - 980 ft x 100 ft / 43,560 ft2 = 23.750230 ac; 25.26 ton x 38 lb N and 56 lb P2O5
 * a ton (the lab report); over those acres. */
static void figures_by_hand(void) {
    ls_arena *a = ls_arena_new();
    dossier_world w = plain(a);
    json_t *d = dossier_document(&w), *f = row(d, "fields", "field", "Upper Meadow");
    const double acres = 26 - 980.0 * 100 / 43560, tons = 25.26;
    TEST_NEAR(number(f, "spreadable_ac"), acres, 1e-6);
    TEST_NEAR(number(f, "ton_per_ac"), tons / acres, 1e-5);
    TEST_NEAR(number(f, "N_lb"), tons * 38, 1e-7);
    TEST_NEAR(number(f, "P2O5_lb"), tons * 56, 1e-7);
    TEST_NEAR(number(f, "P2O5_lb_per_ac"), tons * 56 / acres, 1e-6);
    TEST_NEAR(number(f, "K2O_lb_per_ac"), tons * 36 / acres, 1e-6);
    f = row(d, "fields", "field", "Wheat Strip");
    TEST_NEAR(number(f, "ton_per_ac"), 17.13 / 22, 1e-5);
    TEST_SAME(json_array_size(json_object_get(d, "loads")), 6);
    TEST_SAME(json_array_size(json_object_get(d, "transfers")), 1);
    json_decref(d);
    test_folder_end(w.folder);
    ls_arena_free(a);
}

/* A load no field is told for is the difference, and a finding. */
static void load_of_unknown_place(void) {
    ls_arena *a = ls_arena_new();
    const char *log = test_replace(a, dossier_log(a), "8.49,yes,,stack", "8.49,yes,,Nobody/Nothing");
    dossier_world w = dossier_write(a, dossier_house(a), dossier_fields(a), log);
    test_run run = dossier_run(&w, "--format", "json", NULL);
    json_t *d = json_loads(run.out, 0, NULL);
    TEST_NEAR(way(d, "difference") * 2000, 16980, 1e-6);
    TEST_TEXT(json_string_value(json_object_get(row(d, "findings", "item", "load of unknown place"), "state")),
              "missing");
    json_decref(d);
    test_folder_end(w.folder);
    ls_arena_free(a);
}

/* When every lot is out over a scale, made is the truth, and the estimate stands beside it. */
static void cleared(void) {
    ls_arena *a = ls_arena_new();
    const char *house = dossier_house(a), *south = strstr(house, "  - name: South"),
               *trucks = strstr(house, "\ntrucks:");
    house = ls_arena_printf(a, "%.*s%s", (int)(south - house), house, trucks);
    house = test_replace(a, house, "sides: [left, right]", "sides: [left]");
    const char *log = test_replace(a, dossier_log(a), "7.93,yes,,", "7.93,yes,all,");
    dossier_world w = dossier_write(a, house, dossier_fields(a), log);
    test_run run = dossier_run(&w, "--printed", "2026-03-01", NULL);
    TEST_TEXT(run.err, "");
    TEST_SAME(run.status, LS_DONE);
    TEST_HOLDS(run.out, "All houses are empty and every load was weighed");
    TEST_HOLDS(run.out, "50.88"); /* 101,760 lb */
    TEST_HOLDS(run.out, "Sun, Mar 1");
    test_folder_end(w.folder);
    ls_arena_free(a);
}

static size_t count(const char *text, const char *part) {
    size_t n = 0;
    for (; (text = strstr(text, part)) != NULL; text += strlen(part)) n++;
    return n;
}

/* Text fits 80 columns; HTML is complete in itself; the same input gives the same bytes. */
static void pages(void) {
    ls_arena *a = ls_arena_new();
    dossier_world w = plain(a);
    test_run text = dossier_run(&w, "--full", NULL, NULL);
    TEST_SAME(text.status, LS_DONE);
    test_fits(text.out);
    test_fits(dossier_run(&w, "--units", "metric", "--full").out);
    TEST_HOLDS(dossier_run(&w, "--units=metric", "--format", "html").out, "data-head=\"N-P-K, kg/ha\"");
    test_run html = dossier_run(&w, "--format", "html", NULL);
    static const char *const none[] = {"<script", "http", "src=", "url(http", "@import", "<link"};
    for (size_t i = 0; i < sizeof none / sizeof *none; i++) CU_ASSERT_PTR_NULL(strstr(html.out, none[i]));
    TEST_SAME(count(html.out, "<svg"), 3); /* where the tons went, two fields with loads */
    TEST_SAME(count(html.out, "<svg"), count(html.out, "<desc>"));
    TEST_TEXT(dossier_run(&w, "--format", "html", NULL).out, html.out);
    /* every link leads to a line of the worksheet or a chapter */
    for (const char *s = html.out; (s = strstr(s, "href=\"#")) != NULL; s += 7)
        TEST_HOLDS(html.out, ls_arena_printf(a, "id=\"%.*s\"", (int)strcspn(s + 7, "\""), s + 7));
    TEST_HOLDS(PROGRAM(a, "dossier", FEW, w.house, w.fields, "--format", "csv").out, "entry,ticket,");
    for (size_t i = 0; i < 2; i++) {
        static const char *const parts[] = {"fields", "findings"};
        test_run csv = PROGRAM(a, "dossier", FEW, w.house, w.fields, "--format", "csv", "--part", parts[i]);
        TEST_SAME(csv.status, LS_DONE);
        CU_ASSERT(count(csv.out, "\r\n") > 3);
    }
    test_folder_end(w.folder);
    ls_arena_free(a);
}

/* Names that would break a page stand in it as text. */
static void names(void) {
    ls_arena *a = ls_arena_new();
    static const char *const bad = "\"\\u202E\\e[31m <script>alert(1)</script> ' & \\\" =1+1 \xF0\x9F\x90\x94\"";
    ls_text *many = ls_text_new(a);
    for (int i = 0; i < 300; i++) ls_text_add(many, "n");
    const char *fields = test_replace(a, dossier_fields(a), "212 Ferry Road, Millrace", bad);
    fields = test_replace(a, fields, "stream: Quarry Branch", ls_arena_printf(a, "stream: %s", many->s));
    const char *house =
        test_replace(a, dossier_house(a), "name: Cedar Fork Flocks", ls_arena_printf(a, "name: %s", bad));
    dossier_world w = dossier_write(a, house, fields, dossier_log(a));
    test_run run = dossier_run(&w, "--format", "html", NULL);
    TEST_SAME(run.status, LS_DONE);
    CU_ASSERT_PTR_NULL(strstr(run.out, "<script"));
    CU_ASSERT_PTR_NULL(strstr(run.out, "\u202E"));
    TEST_HOLDS(run.out, "&lt;script&gt;");
    TEST_HOLDS(run.out, "\\3c script\\3e alert"); /* in the style sheet, at the foot of each page */
    test_fits(dossier_run(&w, "--full", NULL, NULL).out);
    test_folder_end(w.folder);
    ls_arena_free(a);
}

/* Without the worksheet every figure keeps its number, which then is no link. */
static void without(void) {
    ls_arena *a = ls_arena_new();
    dossier_world w = plain(a);
    const char *with = dossier_run(&w, "--format=html", NULL, NULL).out,
               *apart = dossier_run(&w, "--format=html", "--without", "worksheet").out;
    size_t n = count(with, " data-line=\"");
    CU_ASSERT(n > 100);
    TEST_SAME(count(apart, " data-line=\""), n);
    TEST_SAME(count(apart, "href=\"#w"), 0);
    TEST_SAME(count(apart, "id=\"worksheet\""), 0);
    CU_ASSERT_PTR_NULL(strstr(dossier_run(&w, "--format=json", "--without", "worksheet").out, "\"worksheet\""));
    test_run wrong = dossier_run(&w, "--without", "lunch", NULL);
    TEST_SAME(wrong.status, LS_USAGE);
    TEST_HOLDS(wrong.err, "--without \"lunch\" is no part; it may be \"worksheet\"");
    test_folder_end(w.folder);
    ls_arena_free(a);
}

/* An earlier year's file and log stand in the table of years. */
static void earlier(void) {
    ls_arena *a = ls_arena_new();
    const char *house = test_replace(a, dossier_house(a), "  permit: none\n",
                                     "  permit: none\n  earlier: [{file: 2025.yaml, fields: "
                                     "f.yaml}]\n");
    dossier_world w = dossier_write(a, house, dossier_fields(a), dossier_log(a));
    test_file(a, w.folder, "2025.yaml", dossier_house_before(a));
    test_file(a, w.folder, "2025.haul.csv", test_replace(a, dossier_log(a), "2026-02-1", "2025-02-1"));
    json_t *d = dossier_document(&w), *year = row(d, "years", "loads", "2025-02-16 to 2025-02-18");
    TEST_NEAR(number(year, "own_tons"), 25.26, 1e-6);
    TEST_NEAR(number(year, "moved_tons"), 17.13, 1e-6);
    TEST_NEAR(number(year, "used_ac"), 26 + 22, 1e-9);
    TEST_NEAR(number(year, "birds"), 7800 + 780 + 7200 + 720, 1e-9);
    json_decref(d);
    test_folder_end(w.folder);
    ls_arena_free(a);
}

/* Every figure behind the dossier and the list of the haul log has a key that explain knows. */
static void explained(void) {
    ls_arena *a = ls_arena_new();
    dossier_world w = plain(a);
    const char *keys = ls_arena_printf(a, "\n%s", PROGRAM(a, "explain", FEW, w.house, w.fields).out);
    json_t *d = json_loads(dossier_run(&w, "--format", "json", NULL).out, 0, NULL), *line;
    CU_ASSERT_PTR_NOT_NULL_FATAL(d);
    size_t i;
    json_array_foreach(json_object_get(d, "worksheet"), i, line) {
        const char *key = json_string_value(json_object_get(line, "key"));
        CU_ASSERT_PTR_NULL(strchr(key, ' '));
        TEST_HOLDS(keys, ls_arena_printf(a, "\n%s  ", key));
    }
    CU_ASSERT(i > 100);
    json_decref(d);
    TEST_HOLDS(keys, "\nhaul-log.entry-1.tons  ");
    TEST_HOLDS(PROGRAM(a, "explain", FEW, w.house, w.fields, "dossier.load-1.tons").out, "haul log: entry 1");
    test_folder_end(w.folder);
    ls_arena_free(a);
}

TEST_SUITE(dossier) = {{"explain knows its figures", explained},
                       {"the books balance to the pound", books_balance},
                       {"figures by hand", figures_by_hand},
                       {"a load of unknown place", load_of_unknown_place},
                       {"all cleared", cleared},
                       {"pages", pages},
                       {"names", names},
                       {"without the worksheet", without},
                       {"earlier years", earlier},
                       CU_TEST_INFO_NULL};
