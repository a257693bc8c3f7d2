/* YAML: what is read, what is refused, with which words and where. */
#include "suite.h"

#include <stdio.h>
#include <string.h>
#include <time.h>

#define TOO_DEEP "error: more than 32 levels, one inside the other"
#define TOO_LONG "error: a text of more than 1,000 characters"

static const ls_node *read_bytes(ls_arena *a, ls_diag *d, const char *text, size_t n) {
    return ls_yaml_read(a, d, ls_diag_input(d, (ls_input){"f", text, n}));
}

/* The text is accepted without a word. */
static const ls_node *accepted(ls_arena *a, const char *text) {
    ls_diag *d = ls_diag_new(a);
    const ls_node *top = read_bytes(a, d, text, strlen(text));
    TEST_TEXT(test_messages(a, d), "");
    CU_ASSERT_PTR_NOT_NULL_FATAL(top);
    return top;
}

static const char *at(const ls_node *mapping, const char *key) {
    const ls_node *node = ls_yaml_get(mapping, key);
    return node == NULL ? NULL : node->text;
}

/* The text is refused with exactly this first line and, if not NULL, this in the rest. */
static void refused(const char *text, const char *line, const char *hint) {
    ls_arena *a = ls_arena_new();
    ls_diag *d = ls_diag_new(a);
    CU_ASSERT_PTR_NULL(read_bytes(a, d, text, strlen(text)));
    CU_ASSERT(ls_diag_count(d, LS_ERROR) > 0);
    const char *printed = test_messages(a, d);
    TEST_TEXT(ls_arena_copy_n(a, printed, strcspn(printed, "\n")), line);
    if (hint != NULL) TEST_HOLDS(printed, hint);
    ls_arena_free(a);
}

static void test_tree(void) {
    ls_arena *a = ls_arena_new();
    const ls_node *top = accepted(a, "# a comment\nfarm:\n  name: Cedar Fork\n  sides: [left, 'right']\n"
                                     "trucks:\n  - {count: 2, \"a b\": no}\n  - x\n");
    TEST_SAME(top->kind, LS_MAPPING);
    TEST_SAME(top->n, 2);
    const ls_node *farm = ls_yaml_get(top, "farm"), *sides = ls_yaml_get(farm, "sides");
    TEST_TEXT(at(farm, "name"), "Cedar Fork");
    TEST_SAME(ls_yaml_get(farm, "name")->at.line, 3);
    TEST_SAME(ls_yaml_get(farm, "name")->at.column, 9);
    TEST_SAME(ls_yaml_get(farm, "name")->at.length, 10);
    TEST_SAME(sides->kind, LS_SEQUENCE);
    TEST_SAME(sides->n, 2);
    CU_ASSERT(!sides->items[0]->quoted && sides->items[1]->quoted);
    const ls_node *trucks = ls_yaml_get(top, "trucks");
    TEST_TEXT(at(trucks->items[0], "a b"), "no");
    TEST_TEXT(trucks->items[1]->text, "x");
    CU_ASSERT_PTR_NULL(ls_yaml_get(farm, "none"));
    CU_ASSERT_PTR_NULL(ls_yaml_get(sides, "none"));
    CU_ASSERT_PTR_NULL(ls_yaml_get(NULL, "none"));
    ls_arena_free(a);
}

static void test_accepted(void) {
    ls_arena *a = ls_arena_new();
    TEST_TEXT(at(accepted(a, "\xEF\xBB\xBF"
                             "hens: 7800\r\nmales: 780\r\n"),
                 "males"),
              "780");
    TEST_SAME(accepted(a, "\xEF\xBB\xBF"
                          "hens: 7800\r\n")
                  ->keys[0]
                  ->at.column,
              1);
    TEST_TEXT(at(accepted(a, "note: |\n  one\n  two\n\n"), "note"), "one\ntwo");
    TEST_TEXT(at(accepted(a, "note: >\n  one\n  two\n"), "note"), "one two");
    TEST_TEXT(at(accepted(a, "a: \"null\""), "a"), "null");
    TEST_TEXT(at(accepted(a, "a: b # comment"), "a"), "b");
    TEST_TEXT(at(accepted(a, "a: b #"), "a"), "b");
    TEST_TEXT(at(accepted(a, "a: b #-----"), "a"), "b");
    TEST_TEXT(at(accepted(a, "a: Lot#4"), "a"), "Lot#4");
    TEST_TEXT(at(accepted(a, "--- # farm\na: 1\n...\n"), "a"), "1");
    TEST_TEXT(at(accepted(a, "\"<<\": 1"), "<<"), "1");
    TEST_TEXT(at(accepted(a, "a: 1\t\nb: 2"), "b"), "2");
    ls_arena_free(a);
}

static void test_places(void) {
    ls_arena *a = ls_arena_new();
    ls_diag *d = ls_diag_new(a);
    const char *text = "\xEF\xBB\xBF"
                       "bücher: [a, é, ~]\r\nhens: 1\r\nhens: 2\r\n";
    CU_ASSERT_PTR_NULL(read_bytes(a, d, text, strlen(text)));
    TEST_TEXT(test_messages(a, d), "f:1:16: error: an entry of this list has no value\n"
                                   "    bücher: [a, é, ~]\n"
                                   "                   ^\n"
                                   "    hint: write it after the -, or take the entry out\n"
                                   "f:3:1: error: hens is given twice, on lines 2 and 3\n"
                                   "    hens: 2\n"
                                   "    ^~~~\n"
                                   "    hint: keep one of the two\n");
    ls_arena_free(a);
}

static void test_refused(void) {
    refused("a: &x 1", "f:1:4: error: a value cannot begin with &", "references");
    refused("a: *x", "f:1:4: error: a value cannot begin with *", "quotes");
    refused("a: *x*", "f:1:4: error: a value cannot begin with *", "quotes");
    refused("a: & b", "f:1:4: error: a value cannot begin with &", "quotes");
    refused("a: !x 1", "f:1:4: error: a value cannot begin with !", "tags");
    refused("a: !<x", "f:1:4: error: a value cannot begin with !", "quotes");
    refused("a: !b!c d", "f:1:4: error: a value cannot begin with !", "quotes");
    refused("a: &x [1]", "f:1:4: error: a value cannot begin with &", NULL);
    refused("a: !!map {b: 1}", "f:1:4: error: a value cannot begin with !", NULL);
    refused("a: @x", "f:1:4: error: a value cannot begin with @", "quotes");
    refused("a: %x", "f:1:4: error: a value cannot begin with %", "quotes");
    refused("a: `x", "f:1:4: error: a value cannot begin with `", "quotes");
    refused("a: >5 lb", "f:1:4: error: a value cannot begin with | or >", "quotes");
    refused("a: ? b", "f:1:4: error: a value cannot begin with ?", "quotes");
    refused("b: 1\n<<: {a: 1}", "f:2:1: error: << is not accepted", NULL);
    refused("{a: 1}: 2", "f:1:1: error: a key must be a plain word or text", NULL);
    refused("? [a]\n: 2", "f:1:3: error: a key must be a plain word or text", NULL);
    refused(": 2", "f:1:1: error: a key is missing before this colon", NULL);
    refused("~: 2", "f:1:1: error: a key is missing before this colon", NULL);
    refused("a: \"x\\0y\"", "f:1:4: error: this text holds a NUL character", NULL);
    refused("a: ''", "f:1:4: error: this text is empty", NULL);
    refused("a: 1\n---\nb: 2", "f:2:1: error: a second document in one file", "---");
    refused("a: 1\n...\nb: 2", "f:3:1: error: this line does not belong to what stands above it", NULL);
    refused("%YAML 2.0\n---\na: 1", "f:1:1: error: this line asks for another version of YAML", NULL);
    refused("%x: 5", "f:1:1: error: a line cannot begin with %", NULL);
}

static void test_missing_values(void) {
    refused("farm:\nname: x", "f:1:1: error: farm has no value", "deeper than the key");
    refused("a: 1\nhens: ~", "f:2:1: error: hens has no value", NULL);
    refused("hens: null", "f:1:1: error: hens has no value", NULL);
    refused("a:\n  -\n  - x", "f:2:4: error: an entry of this list has no value", NULL);
    refused("lot: #4", "f:1:1: error: lot has no value", "write the value before the #");
    refused("{address: 212 Ferry Road, Millrace}", "f:1:27: error: Millrace has no value",
            "hint: put quotes round a text with a comma: \"212 Ferry Road, Millrace\"\n");
    refused("{hens:7800}", "f:1:2: error: hens:7800 has no value", "hint: put a blank after the colon\n");
    refused("{hens}", "f:1:2: error: hens has no value", "hint: write KEY: VALUE");
}

/* A comma in braces cuts off what begins with a digit: it is put back, with its place. */
static void test_commas(void) {
    ls_arena *a = ls_arena_new();
    const ls_node *top = accepted(a, "{hens: 7,800, males: 1,800, all: 1,000,000, depth: 6, 5.5 in, "
                                     "price: 9}");
    TEST_SAME(top->n, 5);
    TEST_TEXT(at(top, "hens"), "7,800");
    TEST_TEXT(at(top, "males"), "1,800");
    TEST_TEXT(at(top, "all"), "1,000,000");
    TEST_TEXT(at(top, "depth"), "6, 5.5 in");
    TEST_SAME(ls_yaml_get(top, "all")->at.length, strlen("1,000,000"));
    TEST_SAME(ls_yaml_get(top, "depth")->at.length, strlen("6, 5.5 in"));
    ls_arena_free(a);
}

/* What cannot be read hides nothing of the sections before and after it. */
static void test_most(void) {
    static const char text[] = "farm:\n  name: \"Cedär\"\nhouses:\n  - {name: North, length: 4 ft\n"
                               "trucks:\n  count: ~\n  name: x # a\ncrew: a: b\nages: {soil: 3 years}\n";
    ls_arena *a = ls_arena_new();
    ls_diag *d = ls_diag_new(a);
    const ls_node *top = ls_yaml_read_most(a, d, ls_diag_input(d, (ls_input){"f", text, sizeof text - 1}));
    CU_ASSERT_PTR_NOT_NULL_FATAL(top);
    const char *messages = test_messages(a, d);
    TEST_SAME(ls_diag_count(d, LS_ERROR), 3);
    TEST_HOLDS(messages, "f:5:7: error: a comma or } was expected here");
    TEST_HOLDS(messages, "f:6:3: error: count has no value");
    TEST_HOLDS(messages, "f:8:8: error: a second colon in one line");
    CU_ASSERT(top->refused);
    TEST_TEXT(at(ls_yaml_get(top, "farm"), "name"), "Cedär");
    CU_ASSERT_PTR_NULL(ls_yaml_get(top, "houses"));
    CU_ASSERT(ls_yaml_get(ls_yaml_get(top, "trucks"), "count")->refused);
    TEST_TEXT(at(ls_yaml_get(top, "trucks"), "name"), "x");
    TEST_SAME(ls_yaml_get(ls_yaml_get(top, "trucks"), "name")->at.line, 7);
    TEST_TEXT(at(ls_yaml_get(top, "ages"), "soil"), "3 years");
    ls_arena_free(a);
}

static void test_comment_warning(void) {
    ls_arena *a = ls_arena_new();
    ls_diag *d = ls_diag_new(a);
    const char *text = "\xEF\xBB\xBF"
                       "é: {name: Lot #4\n}\nb:\n - x  #y\n";
    CU_ASSERT_PTR_NOT_NULL(read_bytes(a, d, text, strlen(text)));
    TEST_SAME(ls_diag_count(d, LS_WARNING), 2);
    const char *printed = test_messages(a, d);
    TEST_HOLDS(printed, "f:1:11: warning: this text ends before the #: the rest of the line is a comment\n"
                        "    é: {name: Lot #4\n"
                        "              ^~~\n");
    TEST_HOLDS(printed, "    the same: line 4\n");
    ls_arena_free(a);
}

static void test_syntax(void) {
    refused("a:\n\tb: 1", "f:2:1: error: a tab at the beginning of a line", "hint: use blanks\n");
    refused("a:\n  b: 1\n\tc: 2", "f:3:1: error: a tab at the beginning of a line", "hint: use blanks\n");
    refused("a: \"x\nb: 2\n", "f:1:4: error: a quotation mark is opened here and never closed", NULL);
    refused("a: \"x\n---\n\"", "f:1:4: error: a quotation mark is opened here and never closed", NULL);
    refused("a: 'it's'", "f:1:8: error: something follows a closing quotation mark", "apostrophe");
    refused("a: \"x\" y", "f:1:8: error: something follows a closing quotation mark", NULL);
    refused("a: \"C:\\data\"", "f:1:7: error: after a backslash (\\) inside \"...\" only certain letters may stand",
            NULL);
    refused("a: {b: 1\nc: 2", "f:2:2: error: a comma or } was expected here: the { of line 1 is still open", NULL);
    refused("a: [1, 2\nb: 2", "f:2:2: error: a comma or ] was expected here: the [ of line 1 is still open", NULL);
    refused("a: 1\nb\nc: 2", "f:2:1: error: this line has no colon", "KEY: VALUE");
    refused("a: x: y", "f:1:5: error: a second colon in one line", "quotes");
    refused("a: 1\n b: 2", "f:2:3: error: this key does not fit the line above it", "same column");
    refused("a\nb: 1", "f:2:2: error: this key does not fit the line above it", NULL);
    refused("a:\n  b: 1\n c: 2", "f:3:2: error: this line does not begin in the column of the lines it belongs to",
            NULL);
    refused("a: 1\n- b", "f:2:1: error: a list entry (-) stands where a key was expected", NULL);
    refused("- a\nb: 1", "f:2:1: error: a list entry beginning with - was expected here", NULL);
    refused("a: - x", "f:1:4: error: a list entry (-) cannot stand here", NULL);
    refused("  a: 1\nb: 2", "f:2:1: error: this line does not belong to what stands above it", NULL);
    refused("a: ]", "f:1:4: error: this closes what was not opened", NULL);
    refused("{a: b, d: #4}\n", "f:2:1: error: a value is missing before this", "# after a blank");
    refused("{a: 1,,b: 2}", "f:1:7: error: nothing stands before this comma", NULL);
}

static void test_bytes(void) {
    ls_arena *a = ls_arena_new();
    refused("", "f: error: there is nothing in this file", NULL);
    refused("# only a comment\n", "f: error: there is nothing in this file", NULL);
    refused("---\n", "f: error: there is nothing in this file", NULL);
    refused("a: 1\nb: \xFF\n", "f:2:4: error: a byte that is not UTF-8 text", "b: \\xFF");
    refused("\xEF\xBB\xBF"
            "ä: \xC0\xAF",
            "f:1:4: error: a byte that is not UTF-8 text", NULL);
    refused("a: 1\r\nb: x\x1B[0m", "f:2:5: error: a control character", "b: x\\x1B[0m");
    refused("%PDF-1.7", "f: error: this is a PDF document", "plain text");
    refused("PK\x03\x04...", "f: error: this is an office document or a zip archive", NULL);
    ls_diag *d = ls_diag_new(a);
    CU_ASSERT_PTR_NULL(read_bytes(a, d, "a: 1\nb: \0", 9));
    CU_ASSERT_PTR_NULL(read_bytes(a, d,
                                  "\xFF\xFE"
                                  "a\0:\0 \0001\0",
                                  10));
    const char *printed = test_messages(a, d);
    TEST_HOLDS(printed, "f:2:4: error: a NUL byte: this is not a text file\n    b: \\x00\n");
    TEST_HOLDS(printed, "f: error: this is text in UTF-16\n");
    CU_ASSERT_PTR_NULL(ls_yaml_read(a, d, 7));
    ls_arena_free(a);
}

/* n times open, the middle, n times close. */
static const char *nested(ls_arena *a, size_t n, const char *open, const char *middle, const char *close) {
    size_t opening = strlen(open), between = strlen(middle), closing = strlen(close);
    char *text = LS_NEW(a, char, (opening + closing) * n + between + 1);
    for (size_t i = 0; i < n; i++) {
        memcpy(text + i * opening, open, opening);
        memcpy(text + n * opening + between + i * closing, close, closing);
    }
    memcpy(text + n * opening, middle, between);
    return text;
}

static void test_limits(void) {
    ls_arena *a = ls_arena_new();
    accepted(a, nested(a, 32, "[", "x", "]"));
    refused(nested(a, 33, "[", "x", "]"), "f:1:33: " TOO_DEEP, NULL);
    refused(nested(a, 33, "- ", "x", ""), "f:1:65: " TOO_DEEP, NULL);
    accepted(a, nested(a, 500, "é", "", "é"));
    refused(nested(a, 500, "é", "x", "é"), "f:1:1: " TOO_LONG, NULL);
    refused(nested(a, 10000000, "x", "", ""), "f:1:1: " TOO_LONG, NULL);
    refused(ls_arena_printf(a, "[%s]", nested(a, 2000001, "x,", "", "")),
            "f:1:4000000: error: more than 2,000,000 values in one file", NULL);
    ls_arena_free(a);
}

/* Ten million signs that each open a level end at once, with one message. */
static void test_deep(void) {
    static const char *const openings[][2] = {
        {"[", "f:1:33: " TOO_DEEP},
        {"- ", "f:1:65: " TOO_DEEP},
        {"{a: ", "f:1:129: " TOO_DEEP},
        {"{", "f:1:2: error: a key must be a plain word or text"},
        {"? ", "f:1:3: error: a key must be a plain word or text"},
    };
    for (size_t i = 0; i < sizeof openings / sizeof *openings; i++) {
        ls_arena *a = ls_arena_new();
        ls_diag *d = ls_diag_new(a);
        const char *opening = openings[i][0];
        const char *text = nested(a, 10000000 / strlen(opening), opening, "", "");
        clock_t start = clock();
        CU_ASSERT_PTR_NULL(read_bytes(a, d, text, strlen(text)));
        TEST_NEAR((double)(clock() - start) / CLOCKS_PER_SEC, 0, 0.9);
        const char *printed = test_messages(a, d);
        TEST_TEXT(ls_arena_copy_n(a, printed, strcspn(printed, "\n")), openings[i][1]);
        TEST_SAME(ls_diag_count(d, LS_ERROR), 1);
        ls_arena_free(a);
    }
}

/* Many equal and many different keys: no quadratic search. */
static void test_many_keys(void) {
    ls_arena *a = ls_arena_new();
    ls_text *t = ls_text_new(a);
    for (int i = 0; i < 100000; i++) ls_text_addf(t, "k%d: 1\n", i);
    TEST_SAME(accepted(a, t->s)->n, 100000);
    ls_diag *d = ls_diag_new(a);
    const char *same = nested(a, 100000, "k: 1\n", "", "");
    CU_ASSERT_PTR_NULL(read_bytes(a, d, same, strlen(same)));
    TEST_SAME(ls_diag_count(d, LS_ERROR), 99999);
    TEST_HOLDS(test_messages(a, d), "f:2:1: error: k is given twice, on lines 1 and 2\n");
    TEST_HOLDS(test_messages(a, d), "littershed: 99899 more errors not shown\n");
    ls_arena_free(a);
}

TEST_SUITE(base_yaml) = {
    {"tree", test_tree},
    {"accepted", test_accepted},
    {"places", test_places},
    {"refused", test_refused},
    {"missing values", test_missing_values},
    {"commas in numbers", test_commas},
    {"the rest is read", test_most},
    {"comment in a text", test_comment_warning},
    {"syntax", test_syntax},
    {"bytes", test_bytes},
    {"limits", test_limits},
    {"too deep", test_deep},
    {"many keys", test_many_keys},
    CU_TEST_INFO_NULL,
};
