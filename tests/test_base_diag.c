/* Messages: order, form, caret, clipping, safety. */
#include "suite.h"

#include <string.h>

static ls_diag *with_text(ls_arena *a, const char *name, const char *text) {
    ls_diag *d = ls_diag_new(a);
    TEST_SAME(ls_diag_input(d, (ls_input){name, text, strlen(text)}), 0);
    return d;
}

static void test_form(void) {
    ls_arena *a = ls_arena_new();
    ls_diag *d = with_text(a, "farm.yaml", "houses:\n  - name: North\n    lenght: 432 ft\n");
    ls_diag_input(d, (ls_input){"fields.yaml", "buyers: 1\r\n", 11});
    ls_diag_add(d, LS_ERROR, (ls_place){1, 1, 9, 1}, NULL, "buyers must be a list");
    ls_diag_add(d, LS_ERROR, (ls_place){0, 3, 5, 6}, "did you mean length?", "%s is not known here", "lenght");
    ls_diag_add(d, LS_WARNING, (ls_place){0, 2, 11, 5}, NULL, "later");
    ls_diag_add(d, LS_WARNING, (ls_place){0, 2, 11, 5}, NULL, "noted second");
    ls_diag_add(d, LS_ERROR, (ls_place){0, 0, 0, 0}, "add a section fields:", "no fields");
    ls_diag_add(d, LS_ERROR, LS_NOWHERE, NULL, "nothing to do");
    TEST_TEXT(test_messages(a, d), "littershed: error: nothing to do\n"
                                   "farm.yaml: error: no fields\n"
                                   "    hint: add a section fields:\n"
                                   "farm.yaml:2:11: warning: later\n"
                                   "      - name: North\n"
                                   "              ^~~~~\n"
                                   "farm.yaml:2:11: warning: noted second\n"
                                   "      - name: North\n"
                                   "              ^~~~~\n"
                                   "farm.yaml:3:5: error: lenght is not known here\n"
                                   "        lenght: 432 ft\n"
                                   "        ^~~~~~\n"
                                   "    hint: did you mean length?\n"
                                   "fields.yaml:1:9: error: buyers must be a list\n"
                                   "    buyers: 1\n"
                                   "            ^\n");
    TEST_SAME(ls_diag_count(d, LS_ERROR), 4);
    TEST_SAME(ls_diag_count(d, LS_WARNING), 2);
    TEST_TEXT(ls_diag_where(a, d, (ls_place){1, 1, 9, 1}), "fields.yaml:1");
    TEST_TEXT(ls_diag_where(a, d, (ls_place){1, 0, 0, 0}), "fields.yaml");
    TEST_TEXT(ls_diag_where(a, d, LS_NOWHERE), "");
    CU_ASSERT_PTR_NULL(ls_diag_input_at(d, 2));
    ls_arena_free(a);
}

/* A mistake of four houses is one, with the other places; what is to be done there where it
 * differs.
 */
static void test_again(void) {
    static const char text[] = "a: 1\nb: 2\nc: 3\nd: 4\ne: 5\n";
    ls_arena *a = ls_arena_new();
    ls_diag *d = with_text(a, "f", text);
    for (uint32_t line = 1; line <= 3; line++)
        ls_diag_add(d, LS_ERROR, (ls_place){0, line, 1, 1}, "add it", "house \"%c\" has no x", (char)('A' + line));
    ls_diag_add(d, LS_ERROR, (ls_place){0, 2, 4, 1}, "write 2 ft", "x needs a unit");
    ls_diag_add(d, LS_ERROR, (ls_place){0, 4, 4, 1}, "write 4 ft", "x needs a unit");
    ls_diag_add(d, LS_ERROR, (ls_place){0, 5, 4, 1}, "add it", "house \"E\" has no y");
    TEST_TEXT(test_messages(a, d), "f:1:1: error: house \"B\" has no x\n"
                                   "    a: 1\n"
                                   "    ^\n"
                                   "    hint: add it\n"
                                   "    the same: line 2, line 3\n"
                                   "f:2:4: error: x needs a unit\n"
                                   "    b: 2\n"
                                   "       ^\n"
                                   "    hint: write 2 ft\n"
                                   "    f:4: write 4 ft\n"
                                   "f:5:4: error: house \"E\" has no y\n"
                                   "    e: 5\n"
                                   "       ^\n"
                                   "    hint: add it\n");
    TEST_SAME(ls_diag_count(d, LS_ERROR), 6);
    ls_arena_free(a);
}

static void test_once_and_cap(void) {
    ls_arena *a = ls_arena_new();
    ls_diag *d = with_text(a, "f", "x\n");
    for (int i = 0; i < 3; i++) ls_diag_add(d, LS_ERROR, (ls_place){0, 1, 1, 1}, NULL, "the same");
    ls_diag_add(d, LS_WARNING, (ls_place){0, 1, 1, 1}, NULL, "the same");
    TEST_SAME(ls_diag_count(d, LS_ERROR), 1);
    TEST_SAME(ls_diag_count(d, LS_WARNING), 1);
    for (int i = 0; i < 101; i++) ls_diag_add(d, LS_ERROR, LS_NOWHERE, NULL, "number %d", i);
    TEST_SAME(ls_diag_count(d, LS_ERROR), 102);
    const char *text = test_messages(a, d);
    TEST_HOLDS(text, "littershed: error: number 98\n");
    CU_ASSERT_PTR_NULL(strstr(text, "number 99"));
    TEST_HOLDS(text, "\nlittershed: 2 more errors not shown\n");
    ls_arena_free(a);
}

static const char *shown(ls_arena *a, const char *text, ls_place at) {
    ls_diag *d = with_text(a, "f", text);
    ls_diag_add(d, LS_ERROR, at, NULL, "m");
    return test_messages(a, d);
}

static void test_caret(void) {
    ls_arena *a = ls_arena_new();
    TEST_TEXT(shown(a, "\tä\tb c\n", (ls_place){0, 1, 4, 1}), "f:1:4: error: m\n    \tä\tb c\n    \t \t^\n");
    TEST_TEXT(shown(a,
                    "\xEF\xBB\xBF"
                    "hens: x\n",
                    (ls_place){0, 1, 7, 1}),
              "f:1:7: error: m\n    hens: x\n          ^\n");
    TEST_TEXT(shown(a,
                    "a\x1B"
                    "b: \u202Ex",
                    (ls_place){0, 1, 6, 9}),
              "f:1:6: error: m\n    a\\x1Bb: \\u{202E}x\n            ^~~~~~~~~\n");
    TEST_TEXT(shown(a, "\tb", (ls_place){0, 1, 1, 1}), "f:1:1: error: m\n    \tb\n    ^\n");
    TEST_TEXT(shown(a, "abc\r\ndef\r\n", (ls_place){0, 2, 9, 4}), "f:2:9: error: m\n    def\n       ^\n");
    TEST_TEXT(shown(a, "abc\n", (ls_place){0, 7, 1, 1}), "f:7:1: error: m\n");
    TEST_TEXT(shown(a, "abc\n", (ls_place){0, 2, 1, 1}), "f:2:1: error: m\n");
    TEST_TEXT(shown(a, "abc\n", (ls_place){0, 1, 0, 0}), "f:1: error: m\n    abc\n");
    TEST_TEXT(shown(a, "", (ls_place){0, 1, 1, 1}), "f:1:1: error: m\n");
    ls_arena_free(a);
}

/* The longest line of a text, in characters. */
static size_t widest(ls_arena *a, const char *text) {
    size_t most = 0;
    while (*text != '\0') {
        size_t n = strcspn(text, "\n");
        size_t columns = ls_text_columns(ls_arena_copy_n(a, text, n));
        most = columns > most ? columns : most;
        text += n + (text[n] == '\n');
    }
    return most;
}

static void test_clipping(void) {
    ls_arena *a = ls_arena_new();
    ls_text *line = ls_text_new(a);
    for (int i = 0; i < 1000; i++) ls_text_addf(line, "%03d ", i);
    const char *middle = shown(a, line->s, (ls_place){0, 1, 2001, 3});
    TEST_HOLDS(middle, "    …");
    TEST_HOLDS(middle, " 500 ");
    TEST_HOLDS(middle, "…\n");
    CU_ASSERT(widest(a, middle) <= 80);
    /* The caret stands under the 5 of 500. */
    const char *source = strchr(middle, '\n') + 1, *below = strchr(source, '\n') + 1;
    size_t before = (size_t)(strstr(source, "500") - source);
    TEST_SAME(strchr(below, '^') - below, ls_text_columns(ls_arena_copy_n(a, source, before)));
    CU_ASSERT(widest(a, shown(a, line->s, (ls_place){0, 1, 3999, 3})) <= 80);
    CU_ASSERT(widest(a, shown(a, line->s, (ls_place){0, 1, 1, 4000})) <= 80);
    CU_ASSERT_PTR_NULL(strstr(shown(a, line->s, (ls_place){0, 1, 3999, 1}), "…\n"));
    TEST_HOLDS(shown(a, line->s, (ls_place){0, 1, 3, 1}), "    000 001");
    ls_arena_free(a);
}

static void test_unsafe(void) {
    ls_arena *a = ls_arena_new();
    ls_diag *d = with_text(a, "bad\x1Bname", "x\n");
    ls_diag_add(d, LS_ERROR, (ls_place){0, 1, 1, 1}, "a\x07", "two\nlines %s", "\xFF");
    TEST_TEXT(test_messages(a, d), "bad\\x1Bname:1:1: error: two\\x0Alines \\xFF\n    x\n    ^\n    hint: a\\x07\n");
    ls_arena_free(a);
}

TEST_SUITE(base_diag) = {
    {"the same elsewhere", test_again},
    {"form and order", test_form},
    {"once, and capped", test_once_and_cap},
    {"caret", test_caret},
    {"long lines", test_clipping},
    {"unsafe text", test_unsafe},
    CU_TEST_INFO_NULL,
};
