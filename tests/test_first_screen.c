/* Default pages answer on their first screen, in few lines and short sentences. */
#include "program.h"
#include "random_farm.h"

#include <ctype.h>
#include <jansson.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { FARMS = 3, HEAD_LINES = 25, PLAN_LINES = 45, OTHER_LINES = 60, SENTENCES = 20, WORDS = 25 };

static size_t lines(const char *page) {
    size_t n = 0;
    for (; *page != '\0'; page++) n += *page == '\n';
    return n;
}

/* ---- sentences ---- */

/* Does a line begin something of its own: an item, a numbered act? */
static bool begins(const char *line) {
    line += strspn(line, " ");
    return strncmp(line, "- ", 2) == 0 || isdigit((unsigned char)line[0]);
}

/* Words up to the end of a sentence, which is behind one, or of all; *ends: is it a sentence? The
 * need "68-?-?" of a table is none. */
static size_t words(const char **s, bool *ends) {
    size_t n = 0;
    *ends = false;
    for (*s += strspn(*s, " "); **s != '\0' && !*ends; *s += strspn(*s, " ")) {
        *s += strcspn(*s, " ");
        *ends = strchr(".!?", (*s)[-1]) != NULL && (*s)[-2] != '-';
        n++;
    }
    return n;
}

/* The sentences of what stands together. One with too many words is told; an item need not end as
 * one; a table has no end and is none. */
static size_t sentences(const char *piece, bool item) {
    size_t n = 0;
    for (const char *s = piece; *s != '\0';) {
        bool ends;
        size_t w = words(&s, &ends);
        if ((ends || item) && w > WORDS) TEST_TEXT(piece, "sentences of few words");
        n += ends;
    }
    return n;
}

static size_t page_sentences(ls_arena *a, const char *page) {
    ls_text *piece = ls_text_new(a);
    bool item = false, indented = false;
    size_t n = 0;
    for (const char *s = page; *s != '\0'; s += strcspn(s, "\n") + 1) {
        const char *line = ls_arena_copy_n(a, s, strcspn(s, "\n"));
        bool other = !item && (line[0] == ' ') != indented; /* a table, or behind one */
        if (line[0] == '\0' || strncmp(line, "---", 3) == 0 || begins(line) || other) {
            n += sentences(piece->s, item);
            piece = ls_text_new(a);
            item = begins(line);
        }
        indented = line[0] == ' ';
        ls_text_addf(piece, " %s", line);
    }
    return n + sentences(piece->s, item);
}

/* ---- what a plan answers first ---- */

static const char *word(const json_t *d, const char *of, const char *key) {
    const char *s = json_string_value(json_object_get(json_object_get(d, of), key));
    CU_ASSERT_PTR_NOT_NULL_FATAL(s);
    return s;
}

static size_t counted(const json_t *d) {
    json_t *load;
    size_t i, n = 0;
    json_array_foreach(json_object_get(d, "loads"), i, load) {
        n += strcmp(json_string_value(json_object_get(load, "certainty")), "possible") != 0;
    }
    return n;
}

static size_t size(const json_t *d, const char *of) { return json_array_size(json_object_get(d, of)); }

/* Rows that are fields: those have a buyer. */
static size_t fields_of(json_t *d) {
    size_t n = 0, i;
    json_t *row;
    json_array_foreach(json_object_get(d, "where"), i, row) {
        n += json_string_length(json_object_get(row, "buyer")) > 0;
    }
    return n;
}

/* Tons, loads, finish, money, tons without a field and the first act stand in the first lines. */
static void answers(ls_arena *a, const char *page, const json_t *d) {
    const char *end = page;
    for (size_t i = 0; i < HEAD_LINES && *end != '\0'; i++) end += strcspn(end, "\n") + 1;
    const char *head = test_joined(a, ls_arena_copy_n(a, page, (size_t)(end - page)));
    json_t *act = json_array_get(json_object_get(d, "do_now"), 0);
    CU_ASSERT_PTR_NOT_NULL_FATAL(act);
    const char *litter = word(d, "in_short", "litter"), *loads = word(d, "in_short", "loads");
    bool homeless = strcmp(json_string_value(json_object_get(act, "act")), "find room") == 0;
    TEST_HOLDS(head, litter);
    TEST_HOLDS(head, loads);
    TEST_HOLDS(head, word(d, "in_short", "money"));
    TEST_HOLDS(head, json_string_value(json_object_get(act, "words")));
    TEST_HOLDS(litter, "tons likely");
    TEST_HOLDS(litter, homeless                                    ? "NO FIELD"
                       : strstr(litter, " in no load yet") != NULL ? " in no load yet"
                       : strstr(litter, " to stay in ") != NULL    ? " to stay in the stack."
                                                                   : "All has a field");
    TEST_HOLDS(loads, counted(d) == 0 ? "No load" : "all done ");
    if (counted(d) > 0) TEST_SAME((size_t)strtol(loads, NULL, 10), counted(d));
}

/* ---- what stands together adds up ---- */

/* The number before words, or behind them; 0: they are not there. */
static double before(const char *s, const char *words) {
    const char *end = strstr(s, words), *at = end;
    while (at != NULL && at > s && (isdigit((unsigned char)at[-1]) || at[-1] == '.')) at--;
    return at == end ? 0 : strtod(at, NULL);
}

static double behind(const char *s, const char *words) {
    const char *at = strstr(s, words);
    return at == NULL ? 0 : strtod(at + strlen(words), NULL);
}

static double sum(const json_t *rows, const char *key) {
    json_t *row;
    size_t i;
    double all = 0;
    json_array_foreach(rows, i, row) { all += json_number_value(json_object_get(row, key)); }
    return all;
}

/* Likely and in the stack are placed and without a field; the rows are what is placed, and those of
 * fields what buyers take. */
static void tons_add_up(ls_arena *a, const json_t *d) {
    const char *litter = test_replace(a, word(d, "in_short", "litter"), ",", "");
    const json_t *where = json_object_get(d, "where");
    double placed = before(litter, " placed"), rows = 0, stays = 0;
    json_t *row;
    size_t i;
    json_array_foreach(where, i, row) {
        const char *name = json_string_value(json_object_get(row, "where"));
        double tons = json_number_value(json_object_get(row, "tons"));
        stays += strcmp(name, "stays in the stack") == 0 ? tons : 0;
        rows += strcmp(name, "NO FIELD") == 0 || name[0] == '(' ? 0 : tons;
    }
    TEST_NEAR(before(litter, " tons likely") + behind(litter, " + "),
              placed + before(litter, " to stay in the stack") + before(litter, " in no load yet") +
                  before(litter, " have NO FIELD"),
              0.05);
    TEST_NEAR(rows - stays, placed, 1.05);
    TEST_NEAR(sum(json_object_get(d, "money"), "tons"), rows - stays, 1.05);
}

/* No more loads placed than there; no more days than the empty houses have; trucks that help finish
 * sooner; days left out are told. */
static void agrees(ls_arena *a, const char *page, const json_t *d) {
    const char *counts = test_replace(a, word(d, "in_short", "counts"), ",", "");
    CU_ASSERT(behind(counts, "Firm: ") <= behind(strstr(counts, "Firm: "), " of "));
    CU_ASSERT(behind(counts, "Likely: ") <= behind(strstr(counts, "Likely: "), " of "));
    const json_t *days = json_object_get(d, "days"), *by_day = json_object_get(days, "by_day"),
                 *tried = json_object_get(days, "tried");
    const char *flock = json_string_value(json_object_get(json_object_get(d, "in_short"), "next_flock"));
    CU_ASSERT(before(flock, " whole days empty") <=
              fmax(0, json_number_value(json_object_get(days, "slack_days")) - 1 -
                          json_number_value(json_object_get(days, "empty_days"))));
    const char *trucks = json_string_value(json_object_get(json_object_get(d, "in_short"), "trucks"));
    size_t n = (size_t)strtol(trucks, NULL, 10);
    if (n > 0 && strstr(trucks, "more would help") != NULL)
        CU_ASSERT(!json_equal(json_object_get(json_array_get(tried, n - 1), "finish"),
                              json_object_get(json_array_get(tried, n), "finish")));
    size_t work = json_array_size(by_day), i, loads = 0;
    json_t *day;
    json_array_foreach(by_day, i, day) {
        loads += i >= 5 && i + 1 < work ? (size_t)json_integer_value(json_object_get(day, "loads")) : 0;
    }
    if (work > 6)
        TEST_HOLDS(page, ls_arena_printf(a, "... %zu more day%s: %zu load", work - 6, work == 7 ? "" : "s", loads));
}

static void plan_page(ls_arena *a, const char *const *farm, size_t most) {
    test_run page = PROGRAM(a, "plan", FEW, farm[0], farm[1]),
             data = PROGRAM(a, "plan", FEW, "--format", "json", farm[0], farm[1]);
    if (page.status != 0) return;
    json_t *d = json_loads(data.out, 0, NULL);
    CU_ASSERT_PTR_NOT_NULL_FATAL(d);
    size_t things = size(d, "by_buyer") + fields_of(d);
    test_fits(page.out);
    answers(a, page.out, d);
    tons_add_up(a, d);
    agrees(a, page.out, d);
    CU_ASSERT(lines(page.out) <= most + (things > 10 ? things - 10 : 0));
    CU_ASSERT(page_sentences(a, page.out) <= SENTENCES);
    json_decref(d);
}

/* The pages beside the plan. */
static void other_pages(ls_arena *a, const char *const *farm, size_t most) {
    static const char *const commands[] = {"check", "estimate", "rates"};
    for (size_t i = 0; i < sizeof commands / sizeof *commands; i++) {
        const char *page = PROGRAM(a, commands[i], FEW, farm[0], farm[1]).out;
        if (lines(page) > most || page_sentences(a, page) > SENTENCES)
            TEST_TEXT(page, "a page of few lines and sentences");
    }
}

static void demo_pages(void) {
    ls_arena *a = ls_arena_new();
    plan_page(a, (const char *const[]){DEMO}, PLAN_LINES);
    other_pages(a, (const char *const[]){DEMO}, OTHER_LINES);
    ls_arena_free(a);
}

/* Many days, and no costs: what is left out is told, what is not known is no $0. */
static void long_plan(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    const char *house = test_replace(a, test_file_text(a, DEMO_HOUSE), "9 h/day", "2.5 h/day");
    plan_page(a, (const char *const[]){test_file(a, folder, "house.yaml", house), DEMO_FIELDS}, PLAN_LINES + 10);
    test_folder_end(folder);
    ls_arena_free(a);
}

/* After loads are gone too: litter is in the stack, and a trip out of it is likely in part. */
static void rest_of_plan(void) {
    static const char upper[] = "Larkspur Hay/Upper Meadow";
    static const char *const gone[][5] = {{"NORTH-LEFT-01-Q", "8.7", "2026-02-16T08:40", upper, "--weighed"},
                                          {"NORTH-LEFT-02-O", "8.9", "2026-02-16T09:00", upper, "--weighed"},
                                          {"NORTH-LEFT-03-M", "8.4", "2026-02-16T09:20", "stack", "--weighed"},
                                          {"NORTH-LEFT-04-K", "8.4", "2026-02-16", "stack", NULL},
                                          {"NORTH-LEFT-05-I", "8.7", "2026-02-16", "Whitcomb Pasture/Ridge", NULL}};
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    const char *house = test_file(a, folder, "house.yaml", test_file_text(a, DEMO_HOUSE));
    for (size_t i = 0; i < sizeof gone / sizeof *gone; i++)
        PROGRAM(a, "record", house, DEMO_FIELDS, "--ticket", gone[i][0], "--tons", gone[i][1], "--when", gone[i][2],
                "--field", gone[i][3], gone[i][4]);
    PROGRAM(a, "record", house, DEMO_FIELDS, "--when", "2026-02-16", "--ticket", "NORTH-LEFT-07-E", "--tons", "3",
            "--field", "stack", "--cleared", "all");
    plan_page(a, (const char *const[]){house, DEMO_FIELDS}, PLAN_LINES + 5);
    TEST_HOLDS(PROGRAM(a, "plan", FEW, house, DEMO_FIELDS).out, " + 20 in the stack.");
    test_folder_end(folder);
    ls_arena_free(a);
}

/* The plan and the slips tell the same chance. */
static void one_chance(void) {
    ls_arena *a = ls_arena_new();
    const char *plan = test_joined(a, PROGRAM(a, "plan", FEW, DEMO).out),
               *slips = test_joined(a, PROGRAM(a, "tickets", FEW, "--promise", DEMO).out);
    const char *at = strstr(plan, "there together ");
    CU_ASSERT_PTR_NOT_NULL_FATAL(at);
    TEST_HOLDS(slips, ls_arena_copy_n(a, at, strlen("there together 82% of the time")));
    ls_arena_free(a);
}

static void random_pages(void) {
    uint64_t farms = test_count("SCREEN_FARMS", FARMS);
    for (uint64_t seed = 1; seed <= farms; seed++) {
        ls_arena *a = ls_arena_new();
        const char *folder = test_folder(a);
        const char *farm[] = {test_file(a, folder, "farm.yaml", test_random_farm(a, seed)), NULL};
        plan_page(a, farm, PLAN_LINES);
        other_pages(a, farm, OTHER_LINES);
        test_folder_end(folder);
        ls_arena_free(a);
    }
}

TEST_SUITE(first_screen) = {{"the demo's pages", demo_pages},        {"a plan of many days", long_plan},
                            {"the rest of a plan", rest_of_plan},    {"one chance everywhere", one_chance},
                            {"pages of random farms", random_pages}, CU_TEST_INFO_NULL};
