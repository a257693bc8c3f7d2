/* Documents: the model and its four writers, and that JSON says what a page says. */
#include "command/entry.h"
#include "program.h"

#include "littershed/command.h"
#include "report/document/document.h"

#include <ctype.h>
#include <jansson.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* ---- a document of our own ---- */

typedef struct {
    ls_arena *a;
    ls_view *view;
    ls_document *d;
    ls_line tons, rate;
} world;

static world begin(void) {
    world w = {.a = ls_arena_new()};
    ls_worksheet *sheet = ls_worksheet_new(w.a);
    w.tons = ls_leaf_exact(sheet, "pile.tons", "tons of the pile", "ton", 2000 * 12.3456, LS_BY_DEFINITION, "test");
    w.rate = ls_leaf_exact(sheet, "pile.rate", "rate", "ton/ac", 2.5 * ls_unit_of("ton/ac").factor, LS_BY_DEFINITION,
                           "test");
    w.view = LS_NEW(w.a, ls_view, 1);
    *w.view = (ls_view){.arena = w.a, .sheet = sheet, .reference = ls_reference_load(w.a)};
    w.d = ls_document_new(w.view, "pile", "A pile");
    return w;
}

static json_t *tree_of(const ls_document *d) {
    json_t *tree = json_loads(ls_document_json(d), 0, NULL);
    CU_ASSERT_PTR_NOT_NULL_FATAL(tree);
    return tree;
}

static const ls_doc_column columns[] = {{.key = NULL, .heading = "where"},
                                        {.key = "field", .level = LS_DATA},
                                        {.key = "tons", .heading = "", .unit = "ton"},
                                        BARS(),
                                        {.key = "drops", .level = LS_DATA}};
static const ls_doc_column time_columns[] = {{.key = "load"}, {.key = "back", .number = true}};
static const ls_doc_column drop_columns[] = {{.key = "tons", .unit = "ton"}};

static void put_rows(world *w) {
    ls_doc_table t = LS_DOC_TABLE_IN(w->d->top, LS_FIRST, "loads", "Loads", columns);
    for (int i = 0; i < 2; i++) {
        ls_doc_group *drops = ls_doc_loose_list(w->d->top);
        ls_doc_group *drop = ls_doc_object(drops, LS_DATA, NULL, NULL);
        ls_doc_fact(drop, LS_DATA, "tons", NULL, F(w->tons, "ton"));
        ls_doc_object(drops, LS_DATA, NULL, NULL);
        LS_DOC_ROW(t, columns, T("field {}", N(i)), W(i == 0 ? "<b>" : "=1+1"), L(w->tons),
                   V(i == 0 ? 24691.2 : 100, "lb"), G(drops));
    }
    LS_DOC_DATA_ROW(t, columns, W("hidden"), W("data"), L(LS_NO_LINE), W(NULL), W(NULL));
}

/* The four ways of telling a table: only data is told everywhere, what is data alone on no page. */
static void tables(void) {
    world w = begin();
    put_rows(&w);
    const char *text = ls_document_text(w.d), *html = ls_document_html(w.d);
    TEST_HOLDS(text, "\n  where    tons\n  field 0    12  ################\n  field 1    12  #\n");
    CU_ASSERT_PTR_NULL(strstr(text, "hidden"));
    TEST_HOLDS(html, "<th scope=\"row\">field 1</th><td class=\"n\" data-head=\"tons\">12</td>"
                     "</tr>"); /* bars are for text alone */
    CU_ASSERT_PTR_NULL(strstr(html, "hidden"));
    TEST_TEXT(ls_document_csv(w.d, "loads"), "field,tons\r\n<b>,12.3456\r\n'=1+1,12.3456\r\ndata,\r\n");
    TEST_TEXT(ls_document_csv(w.d, "loads.drops"),
              "loads_field,loads_tons,tons\r\n<b>,12.3456,12.3456\r\n<b>,12.3456,\r\n"
              "'=1+1,12.3456,12.3456\r\n'=1+1,12.3456,\r\n");
    json_t *tree = tree_of(w.d), *loads = json_object_get(tree, "loads");
    TEST_SAME(json_array_size(loads), 3);
    TEST_TEXT(json_string_value(json_object_get(json_array_get(loads, 0), "field")), "<b>");
    CU_ASSERT_PTR_NULL(json_object_get(json_array_get(loads, 0), "where"));
    json_decref(tree);
    TEST_TEXT(ls_document_parts(w.d)[0], "tables");
    TEST_TEXT(ls_document_parts(w.d)[1], "loads");
    TEST_TEXT(ls_document_parts(w.d)[2], "loads.drops");
    CU_ASSERT_PTR_NULL(ls_document_parts(w.d)[3]);
    ls_arena_free(w.a);
}

/* Words across a table are for people alone; a bare moment is the clock, and JSON has the day too.
 */
static void words_across(void) {
    world w = begin();
    ls_moment at = {ls_date_of(2026, 2, 16), 8 * 3600 + 600};
    ls_doc_table t = LS_DOC_TABLE_IN(w.d->top, LS_FIRST, "times", NULL, time_columns);
    ls_doc_words_in(t, LS_FIRST, T("Day <{}>", DAY(at.day)));
    LS_DOC_ROW(t, time_columns, W("one"), BARE(ls_doc_moment(at)));
    TEST_HOLDS(ls_document_text(w.d), "\nDay <Mon, Feb 16, 2026>\n  one  8:10 am\n");
    TEST_HOLDS(ls_document_html(w.d), "<th colspan=\"2\"><b>Day &lt;Mon, Feb 16, 2026&gt;</b></th>");
    TEST_TEXT(ls_document_csv(w.d, "times"), "load,back\r\none,2026-02-16T08:10\r\n");
    json_t *tree = tree_of(w.d);
    TEST_SAME(json_array_size(json_object_get(tree, "times")), 1);
    json_decref(tree);
    ls_arena_free(w.a);
}

/* An object that is put in twice is one in JSON. */
static void parts_of_an_object(void) {
    world w = begin();
    ls_doc_fact(ls_doc_object(w.d->top, LS_FIRST, "days", "First"), LS_FIRST, "a", "a", N(1));
    ls_doc_fact(ls_doc_object(w.d->top, LS_FIRST, "days", NULL), LS_FIRST, "b", "b", N(2));
    json_t *tree = tree_of(w.d), *days = json_object_get(tree, "days");
    TEST_SAME(json_integer_value(json_object_get(days, "a")), 1);
    TEST_SAME(json_integer_value(json_object_get(days, "b")), 2);
    json_decref(tree);
    ls_arena_free(w.a);
}

/* A table without rows still has its names in CSV, and no place on a page. */
static void empty_table(void) {
    world w = begin();
    LS_DOC_TABLE_IN(w.d->top, LS_FIRST, "drops", "Nothing", drop_columns);
    TEST_TEXT(ls_document_csv(w.d, "drops"), "tons\r\n");
    LS_DOC_TABLE_IN(ls_doc_object(w.d->top, LS_FIRST, "all", NULL), LS_FIRST, "times", NULL, time_columns);
    TEST_TEXT(ls_document_csv(w.d, "all.times"), "load,back\r\n");
    CU_ASSERT_PTR_NULL(strstr(ls_document_text(w.d), "Nothing"));
    CU_ASSERT_PTR_NULL(strstr(ls_document_html(w.d), "Nothing"));
    ls_arena_free(w.a);
}

/* A list of texts is one cell, also where the list of the first row is empty. */
static void lists_of_texts(void) {
    static const char *const both[] = {"a", "b"};
    world w = begin();
    ls_doc_table t = LS_DOC_TABLE_IN(w.d->top, LS_FIRST, "times", NULL, time_columns);
    for (size_t n = 0; n <= 2; n += 2) LS_DOC_ROW(t, time_columns, W("one"), ls_doc_names(both, n));
    TEST_TEXT(ls_document_csv(w.d, "times"), "load,back\r\none,\r\none,a; b\r\n");
    ls_arena_free(w.a);
}

static const ls_doc_column grid_columns[] = {
    {.key = NULL, .heading = ""}, {.key = "N", .unit = "lb"}, {.key = "K", .unit = "lb"}};

/* A grid is an object of its rows or of its columns; without a key it is part of its group. */
static void grids(void) {
    for (int by_column = 0; by_column < 2; by_column++) {
        world w = begin();
        ls_doc_table t = LS_DOC_TABLE_IN(w.d->top, LS_FIRST, NULL, NULL, grid_columns);
        if (by_column) ls_doc_by_column(t);
        LS_DOC_GRID_ROW(t, grid_columns, LS_FIRST, "need", W("Need"), V(1, "lb"), V(2, "lb"));
        LS_DOC_GRID_ROW(t, grid_columns, LS_DATA, "left", W("Left"), V(3, "lb"), V(NAN, "lb"));
        json_t *tree = tree_of(w.d);
        json_t *row = json_object_get(tree, by_column ? "K" : "need");
        TEST_NEAR(json_number_value(json_object_get(row, by_column ? "need" : "K")), 2, 0);
        row = json_object_get(tree, by_column ? "K" : "left");
        CU_ASSERT(json_is_null(json_object_get(row, by_column ? "left" : "K")));
        json_decref(tree);
        CU_ASSERT_PTR_NULL(strstr(ls_document_text(w.d), "Left"));
        ls_arena_free(w.a);
    }
}

/* Figures are rounded and get their unit when they are written: US in JSON whatever the page has.
 */
static void figures(void) {
    world w = begin();
    ls_doc_fact(w.d->top, LS_FIRST, "rate", "Rate", F(w.rate, "ton/ac"));
    ls_doc_fact(w.d->top, LS_FIRST, "booked", "Booked", BOOKED(w.tons, "ton"));
    ls_doc_fact(w.d->top, LS_FIRST, "points", "Range", P(((ls_q){w.tons, 2000, 4000, 6000}), "ton"));
    ls_doc_fact(w.d->top, LS_FIRST, "day", "Day", DAY(ls_date_of(2026, 2, 16)));
    ls_doc_say(w.d->top, LS_FIRST, T("From {} to {} loads at {}.", BARE(V(1, "load")), N(3), F(w.rate, "ton/ac")));
    const char *us = ls_document_text(w.d), *json = ls_document_json(w.d);
    TEST_HOLDS(us, "  Rate    2.5 tons/ac\n  Booked   12.35 tons\n");
    TEST_HOLDS(us, "  Range, tons  1.0     2.0   3.0\n");
    TEST_HOLDS(us, "From 1 to 3 loads at 2.5 tons/ac.");
    TEST_HOLDS(json, "\"rate\": 2.5,");
    TEST_HOLDS(json, "\"booked\": 12.3456,");
    TEST_HOLDS(json, "\"day\": \"2026-02-16\",");
    TEST_HOLDS(json, "\"words\": [\n    \"From 1 to 3 loads at 2.5 tons/ac.\"\n  ]");
    w.view->metric = true;
    TEST_HOLDS(ls_document_text(w.d), "5.6 tonnes/ha");
    TEST_TEXT(ls_document_json(w.d), json);
    ls_arena_free(w.a);
}

/* The digits that a figure deserves: by its unit, by its range. Ranges of JCGM 101 7.2.1: two
 * significant digits of half of them at most. */
static void digits(void) {
    world w = begin();
    const struct {
        ls_doc_cell cell;
        const char *shown;
    } all[] = {{P(((ls_q){w.tons, 116000, 137000, 160000}), "ton"), "69 tons (58-80)"},
               {P(((ls_q){w.tons, 6959, 9169, 12079}), "lb"), "9,200 lb (7,000-12,100)"},
               {P(((ls_q){w.tons, 40, 51400, 151000}), "ton"), "26 tons (0-76)"},
               {P(((ls_q){w.tons, 0.35, 0.362, 0.374}), "%"), "36% (35-37)"},
               {POINT((&(ls_q){w.tons, 14000, 24000, 61000}), 24691.2, "ton"), "12 tons"},
               {POINT((&(ls_q){w.tons, 12000, 24000, 461000}), 24691.2, "ton"), "10 tons"},
               {V(0.021 * 2000, "ton"), "under 0.1 tons"},
               {V(0.08 * 2000, "ton"), "0.1 tons"},
               {V(0, "ton"), "0 tons"},
               {V(1e-12, "ton"), "0 tons"},
               {V(-42, "ton"), "0 tons"},
               {V(2000, "ton"), "1 ton"},
               {V(8.64 * 2000, "ton"), "8.6 tons"},
               {V(9.97 * 2000, "ton"), "10 tons"},
               {V(12.3456 * 2000, "ton"), "12 tons"},
               {V(23.84 * 43560, "ac"), "23.8 ac"},
               {V(1.75 * 2000 / 43560, "ton/ac"), "1.75 tons/ac"},
               {V(0.0833 / 24, "h"), "0.1 h"},
               {V(61.4 / 2000, "$/ton"), "$61 a ton"},
               {V(0.4 / 2000 / 5280, "$/ton/mi"), "$0.40 a ton a mile"},
               {V(0.2, "$"), "under $1"},
               {V(-1234.5, "$"), "-$1,235"},
               {V(0.901, "%"), "90%"},
               {V(0.0042, "%"), "0.4%"},
               {V(19.8, "lb"), "20 lb"},
               {V(8.25, "lb"), "8.2 lb"},
               {V(16500, "bird"), "16,500 birds"}};
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) TEST_TEXT(ls_doc_told(w.d, all[i].cell), all[i].shown);
    ls_arena_free(w.a);
}

/* The worksheet behind a document numbers its figures. */
static void worksheet(void) {
    world w = begin();
    ls_diag *diag = ls_diag_new(w.a);
    ls_farm farm = {.diag = diag};
    w.view->farm = &farm;
    w.view->full = true;
    ls_doc_fact(w.d->top, LS_FIRST, "rate", "Rate", F(w.rate, "ton/ac"));
    ls_doc_worksheet(w.d, false);
    const char *html = ls_document_html(w.d);
    TEST_HOLDS(html, "<a href=\"#w1\" data-line=\"1\">2.5 tons/ac</a>");
    TEST_HOLDS(html, "<li id=\"w1\"><code>pile.rate</code>: rate, <b>2.5 tons/ac</b>");
    CU_ASSERT_PTR_NULL(strstr(html, "pile.tons"));
    TEST_HOLDS(ls_document_text(w.d), "\n1. pile.rate: rate, 2.5 tons/ac\n");
    ls_arena_free(w.a);
}

/* A cell within words leads to a row or a block by its id; text and JSON say the words alone. */
static void links(void) {
    static const ls_doc_column name_columns[] = {WORDS("name", "name")};
    world w = begin();
    SAY(w.d->top, LS_FIRST, "See {}, and {}.", LINK(W("<row>"), "row-1"), LINK(W("that"), "part"));
    ls_doc_group *g = ls_doc_object(w.d->top, LS_FIRST, NULL, "Part");
    ls_doc_name_block(w.d->top, "part");
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FIRST, "rows", NULL, name_columns);
    LS_DOC_ROW(t, name_columns, W("first"));
    ls_doc_name_row(t, "row-1");
    const char *html = ls_document_html(w.d);
    TEST_HOLDS(html, "<p>See <a href=\"#row-1\">&lt;row&gt;</a>, and <a href=\"#part\">that</a>.</p>");
    TEST_HOLDS(html, "<section id=\"part\">\n<h2 ");
    TEST_HOLDS(html, "<tr id=\"row-1\"><th scope=\"row\" class=\"d\">first</th></tr>");
    TEST_HOLDS(html, "</table>\n</section>\n");
    TEST_HOLDS(ls_document_text(w.d), "See <row>, and that.");
    ls_arena_free(w.a);
}

/* ---- what a page says, JSON says ---- */

typedef struct {
    double value, step; /* to which a page may round it; 0: to the last place it shows */
} number;

typedef struct {
    ls_arena *a;
    ls_text *words;
    LS_LIST(number) numbers;
} said;

/* A figure between low and high is shown with no more than two significant digits of half of
 * that. */
static double step_of(const json_t *range) {
    double low = json_number_value(json_object_get(range, "low")),
           high = json_number_value(json_object_get(range, "high")), step = 1e-9;
    while (high - low >= 100 * step) step *= 10;
    return high > low ? step : 0;
}

/* All that a document's JSON says. */
static void gather(said *x, json_t *value, double step) {
    const char *key;
    json_t *member;
    size_t i;
    if (json_is_string(value))
        ls_text_addf(x->words, " %s ", json_string_value(value));
    else if (json_is_number(value))
        LS_PUSH(x->a, &x->numbers)->value = json_number_value(value), x->numbers.at[x->numbers.n - 1].step = step;
    json_object_foreach(value, key, member) { gather(x, member, step_of(value)); }
    json_array_foreach(value, i, member) { gather(x, member, 0); }
}

/* Is it a number of JSON, rounded as the page has it: to its last place, one of a range to the step
 * of the range? */
static bool is_number(const said *x, double value, double step) {
    for (size_t i = 0; i < x->numbers.n; i++) {
        double coarse = fmax(step, x->numbers.at[i].step);
        if (fabs(fabs(x->numbers.at[i].value) - value) <= 0.501 * coarse) return true;
    }
    return false;
}

/* Is there a figure of JSON that is too little for this one's last digit? */
static bool is_under(const said *x, double value) {
    for (size_t i = 0; i < x->numbers.n; i++)
        if (x->numbers.at[i].value > 0 && x->numbers.at[i].value < value / 2) return true;
    return false;
}

/* The date of a page, "Feb 16" or "Feb 16, 2026", as JSON has it; *n: its length. */
static const char *as_day(ls_arena *a, const char *s, size_t *n) {
    static const char months[] = "JanFebMarAprMayJunJulAugSepOctNovDec";
    int day, year = 2026, read = 0, more = 0;
    char month[4];
    const char *at;
    if (sscanf(s, "%3[A-Za-z] %2d%n", month, &day, &read) != 2 || strlen(month) != 3 ||
        (at = strstr(months, month)) == NULL)
        return NULL;
    if (strspn(s + read + strspn(s + read, ", "), "0123456789") == 4) sscanf(s + read, ", %d%n", &year, &more);
    *n = (size_t)(read + more);
    return ls_arena_printf(a, "%04d-%02d-%02d", year, (int)(at - months) / 3 + 1, day);
}

/* The clock of a page, "2:28 pm", as JSON has it. */
static const char *as_clock(ls_arena *a, const char *s) {
    int hour, minute;
    char half[2];
    if (sscanf(s, "%2d:%2d %1[ap]m", &hour, &minute, half) != 3) return NULL;
    return ls_arena_printf(a, "T%02d:%02d", hour % 12 + (half[0] == 'p' ? 12 : 0), minute);
}

/* What stands at s, a digit or the name of a month: is it there in JSON? *n: its length. */
static bool is_said(const said *x, const char *page, const char *s, size_t *n) {
    const char *when = as_day(x->a, s, n);
    if (when == NULL) {
        when = as_clock(x->a, s);
        *n = when != NULL ? strcspn(s, "m") + 1 : strspn(s, "0123456789,.");
    }
    while (*n > 1 && strchr(",.", s[*n - 1]) != NULL) --*n;
    const char *shown = ls_arena_copy_n(x->a, s, *n);
    if (strstr(x->words->s, shown) != NULL) return true;
    if (when != NULL) return strstr(x->words->s, when) != NULL;
    const char *plain = test_replace(x->a, shown, ",", ""), *point = strchr(plain, '.');
    double value = atof(plain);
    double step = point == NULL ? 1 : pow(10, -(double)strlen(point + 1));
    bool under = s - page >= 6 && strncmp(s - 6, "under ", 6) == 0;
    return is_number(x, value, step) || (under && is_under(x, value));
}

/* Numbers, days and hours of the page, one after the other, are looked for in what JSON says. */
static size_t missing_numbers(const said *x, const char *page) {
    size_t missing = 0, n;
    for (const char *s = page; *s != '\0'; s += n) {
        n = 1;
        if (!isdigit((unsigned char)*s) && (!isupper((unsigned char)*s) || as_day(x->a, s, &n) == NULL)) continue;
        if (!is_said(x, page, s, &n) && missing++ == 0)
            TEST_TEXT(ls_arena_copy_n(x->a, s, n + 40), "a number that JSON has");
    }
    return missing;
}

static void says_all(ls_arena *a, const char *const *arguments, size_t n) {
    const char *text[12], *json[12];
    for (size_t i = 0; i < n; i++) text[i] = json[i] = arguments[i];
    text[n] = NULL;
    json[n] = "--format", json[n + 1] = "json", json[n + 2] = NULL;
    test_run page = test_program(a, text), data = test_program(a, json);
    TEST_SAME(page.status, LS_DONE);
    TEST_SAME(data.status, LS_DONE);
    json_t *tree = json_loads(data.out, 0, NULL);
    CU_ASSERT_PTR_NOT_NULL_FATAL(tree);
    said x = {.a = a, .words = ls_text_new(a)};
    gather(&x, tree, 0);
    json_decref(tree);
    TEST_SAME(missing_numbers(&x, test_joined(a, page.out)), 0);
}

/* Every command that makes a document, those to come as well; some need a word beside the files. */
static void pages(void) {
    static const struct {
        const char *command, *word;
    } beside[] = {{"record", "--list"}, {"explain", "north.tons"}, {"sources", "density"}};
    ls_arena *a = ls_arena_new();
    size_t walked = 0;
    for (size_t i = 0; ls_command_at(i) != NULL; i++) {
        const ls_command *c = ls_command_at(i);
        const char *arguments[8] = {c->name, DEMO, FEW};
        size_t n = c->options & LS_OPTION_BIT(LS_OPTION_DRAWS) ? 5 : 3;
        if (c->formats != NULL) continue;
        for (size_t k = 0; k < sizeof beside / sizeof *beside; k++)
            if (strcmp(beside[k].command, c->name) == 0) arguments[n++] = beside[k].word;
        says_all(a, arguments, n);
        walked++;
        if ((c->options & LS_OPTION_BIT(LS_OPTION_FULL)) == 0) continue;
        arguments[n++] = "--full";
        says_all(a, arguments, n);
    }
    CU_ASSERT(walked >= 8);
    ls_arena_free(a);
}

TEST_SUITE(document) = {{"tables", tables},
                        {"words across a table", words_across},
                        {"an object told in parts", parts_of_an_object},
                        {"a table without rows", empty_table},
                        {"lists of texts in a cell", lists_of_texts},
                        {"grids", grids},
                        {"figures", figures},
                        {"digits", digits},
                        {"the worksheet", worksheet},
                        {"links", links},
                        {"what a page says, JSON says", pages},
                        CU_TEST_INFO_NULL};
