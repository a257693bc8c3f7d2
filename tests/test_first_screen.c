/* Default pages answer on their first screen, in few lines and short sentences. */
#include "program.h"
#include "random_farm.h"

#include <ctype.h>
#include <jansson.h>
#include <stdlib.h>
#include <string.h>

enum { FARMS = 50, HEAD_LINES = 25, PLAN_LINES = 45, OTHER_LINES = 60, SENTENCES = 20, WORDS = 25 };

#define DRAWS "10000"

static size_t lines(const char *page) {
    size_t n = 0;
    for (; *page != '\0'; page++)
        n += *page == '\n';
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
        if ((ends || item) && w > WORDS)
            TEST_TEXT(piece, "sentences of few words");
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

static size_t size(const json_t *d, const char *of) {
    return json_array_size(json_object_get(d, of));
}

/* Tons, loads, finish, money, tons without a field and the first act stand in the first lines. */
static void answers(ls_arena *a, const char *page, const json_t *d) {
    const char *end = page;
    for (size_t i = 0; i < HEAD_LINES && *end != '\0'; i++)
        end += strcspn(end, "\n") + 1;
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
    TEST_HOLDS(litter, homeless ? "NO FIELD" : "All has a field");
    TEST_HOLDS(loads, counted(d) == 0 ? "No load" : "all done ");
    if (counted(d) > 0)
        TEST_SAME((size_t)strtol(loads, NULL, 10), counted(d));
}

static void plan_page(ls_arena *a, const char *const *farm, size_t most) {
    test_run page = PROGRAM(a, "plan", "--draws", DRAWS, farm[0], farm[1]),
             data = PROGRAM(a, "plan", "--draws", DRAWS, "--format", "json", farm[0], farm[1]);
    if (page.status != 0)
        return;
    json_t *d = json_loads(data.out, 0, NULL);
    CU_ASSERT_PTR_NOT_NULL_FATAL(d);
    size_t things = size(d, "promises") + size(d, "fields");
    test_fits(page.out);
    answers(a, page.out, d);
    CU_ASSERT(lines(page.out) <= most + (things > 10 ? things - 10 : 0));
    CU_ASSERT(page_sentences(a, page.out) <= SENTENCES);
    json_decref(d);
}

/* The pages beside the plan. */
static void other_pages(ls_arena *a, const char *const *farm, size_t most) {
    static const char *const commands[] = {"check", "estimate", "rates"};
    for (size_t i = 0; i < sizeof commands / sizeof *commands; i++) {
        const char *page = PROGRAM(a, commands[i], "--draws", DRAWS, farm[0], farm[1]).out;
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

static void random_pages(void) {
    for (uint64_t seed = 1; seed <= FARMS; seed++) {
        ls_arena *a = ls_arena_new();
        const char *folder = test_folder(a);
        const char *farm[] = {test_file(a, folder, "farm.yaml", test_random_farm(a, seed)), NULL};
        plan_page(a, farm, PLAN_LINES);
        other_pages(a, farm, OTHER_LINES);
        test_folder_end(folder);
        ls_arena_free(a);
    }
}

TEST_SUITE(first_screen) = {
    {"the demo's pages", demo_pages}, {"pages of random farms", random_pages}, CU_TEST_INFO_NULL};
