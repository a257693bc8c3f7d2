/* What check says of figures that are read but look odd, and of a starter nobody has filled in. */
#include "program.h"

#include "littershed/command.h"
#include "littershed/farm.h"

#include <string.h>
#include <unistd.h>

typedef struct {
    ls_arena *a;
    const char *folder;
} world;

static world begin(void) {
    world t = {.a = ls_arena_new()};
    t.folder = test_folder(t.a);
    return t;
}

static void end(world *t) {
    test_folder_end(t->folder);
    ls_arena_free(t->a);
}

/* The page of check, line ends within items left out. */
static const char *check(world *t, const char *house, const char *fields) {
    const char *path = test_file(t->a, t->folder, "h.yaml", house);
    const char *other = fields == NULL ? NULL : test_file(t->a, t->folder, "f.yaml", fields);
    test_run run =
        other == NULL ? PROGRAM(t->a, "check", path, "--full") : PROGRAM(t->a, "check", path, other, "--full");
    TEST_SAME(run.status, LS_DONE);
    test_fits(run.out);
    return test_joined(t->a, run.out);
}

static const char *demo(world *t, const char *path, const char *old, const char *new) {
    const char *text = test_file_text(t->a, path);
    TEST_HOLDS(text, old);
    return test_replace(t->a, text, old, new);
}

/* The demo is as it should be. Usual bounds: common practice. */
static void fields(void) {
    static const struct {
        const char *old, *new, *said;
    } odd[] = {
        {"yield: 3.5 ton/ac", "yield: 35 ton/ac", "Upper Meadow yield 35 ton/ac at most 12 tons/ac"},
        {"yield: 65 bu/ac", "yield: 6.5 bu/ac", "yield 6.5 bu/ac at least 10 bu/ac"},
        {"nitrogen: 120 lb/ac", "nitrogen: 720 lb/ac", "nitrogen 720 lb/ac at most 450"},
    };
    world t = begin();
    const char *house = test_file_text(t.a, DEMO_HOUSE);
    CU_ASSERT_PTR_NULL(strstr(check(&t, house, test_file_text(t.a, DEMO_FIELDS)), "UNUSUAL"));
    for (size_t i = 0; i < sizeof odd / sizeof *odd; i++)
        TEST_HOLDS(check(&t, house, demo(&t, DEMO_FIELDS, odd[i].old, odd[i].new)), odd[i].said);
    end(&t);
}

/* Contradictions lead the page, under TAKE CARE. The sister house that has no evidence of its own
 * is not blamed. */
static void houses(void) {
    static const struct {
        const char *old, *new, *said;
    } odd[] = {
        {"lost: 8.5 %", "lost: 60 %", "North: the share of the birds lost is 60 %"},
        {"weighed: 128 ton", "weighed: 1280 ton", "North: tons by the last cleanout are 1"},
        {"bird_days: 2280000", "bird_days: 8000", "North: tons by the last cleanout are 2"},
        {"5.5 6 4.5 6.5 5 6 in", "55 60 45 65 50 60 in", "North: tons by the depth survey are "},
    };
    world t = begin();
    for (size_t i = 0; i < sizeof odd / sizeof *odd; i++) {
        const char *page = check(&t, demo(&t, DEMO_HOUSE, odd[i].old, odd[i].new), NULL);
        const char *care = strstr(page, "TAKE CARE"), *silent = strstr(page, "ASSUMED, AND"),
                   *said = strstr(page, odd[i].said);
        CU_ASSERT(care != NULL && said != NULL && care < said && said < silent);
        CU_ASSERT_PTR_NULL(strstr(page, "South: what was found in this house"));
    }
    end(&t);
}

/* Every starter passes without a query, and is told to be one until it is filled in. */
static void starters(void) {
    for (int bird = 1; bird < LS_BIRDS; bird++) {
        world t = begin();
        const char *starter = test_starter(t.a, bird), *page = check(&t, starter, NULL);
        CU_ASSERT_PTR_NULL(strstr(page, "TAKE CARE "));
        TEST_HOLDS(page, "STILL THE STARTER'S");
        TEST_HOLDS(page, "NOT YOUR FARM YET: ");
        end(&t);
    }
    world t = begin();
    CU_ASSERT_PTR_NULL(strstr(check(&t, test_file_text(t.a, DEMO_HOUSE), NULL), "STARTER"));
    static const char *const commands[] = {"estimate", "rates", "plan", "tickets"};
    const char *own = test_file(t.a, t.folder, "s.yaml", test_starter(t.a, 1));
    for (size_t i = 0; i < sizeof commands / sizeof *commands; i++) {
        TEST_HOLDS(PROGRAM(t.a, commands[i], FEW, own).out, "NOT YOUR FARM YET: ");
        CU_ASSERT_PTR_NULL(strstr(PROGRAM(t.a, commands[i], FEW, DEMO).out, "NOT YOUR FARM YET"));
    }
    TEST_HOLDS(PROGRAM(t.a, "tickets", FEW, own, "--promise").out, "NOT YOUR FARM YET: ");
    TEST_HOLDS(PROGRAM(t.a, "tickets", FEW, own, "--format", "html").out, "NOT YOUR FARM YET: ");
    /* what is not yet the farm's is not handed out */
    const char *log = ls_arena_printf(t.a, "%s/s.haul.csv", t.folder);
    for (int promise = 0; promise < 2; promise++) {
        test_run run = PROGRAM(t.a, "tickets", FEW, own, "--issue", promise ? "--promise" : NULL);
        TEST_SAME(run.status, LS_MISTAKE);
        TEST_TEXT(run.out, "");
        TEST_HOLDS(run.err, "nothing was issued. NOT YOUR FARM YET: ");
        CU_ASSERT_NOT_EQUAL(access(log, F_OK), 0);
    }
    end(&t);
}

/* Soil tests without a soil table call for nothing, and that is said. */
static void soil_table(void) {
    world t = begin();
    const char *fields = test_file_text(t.a, DEMO_FIELDS);
    CU_ASSERT_PTR_NULL(strstr(check(&t, test_file_text(t.a, DEMO_HOUSE), fields), "no soil table"));
    const char *page = check(&t, demo(&t, DEMO_HOUSE, "  soil: piedmont\n", ""), fields);
    TEST_HOLDS(page, "no soil table");
    TEST_HOLDS(page, "- at the left edge: write \"tables: {"); /* it is no key of the field it is of use for */
    end(&t);
}

/* The first screen says how many there are: as many as are listed, and how many are not. */
static void counts(void) {
    static const char farm[] =
        "houses:\n  - {name: Barn, length: 300 ft, width: 40 ft, flocks: [{birds: broiler, count: "
        "20000, placed: 2025-12-08, removed: 2026-01-26}]}\n";
    world t = begin();
    const char *path = test_file(t.a, t.folder, "h.yaml", farm);
    const char *page = PROGRAM(t.a, "check", path).out;
    TEST_HOLDS(page, "Gaps: 9.");
    TEST_HOLDS(page, "\n- and 6 more: --full\n");
    page = PROGRAM(t.a, "check", path, "--full").out;
    TEST_HOLDS(page, "Gaps: 9.");
    CU_ASSERT_PTR_NULL(strstr(page, " more: --full"));
    end(&t);
}

/* A stay that no broiler has (2025-02-02 to 2026-01-26: 26 + 306 + 26 = 358 days) is asked about before anything is to
 * be measured. */
static void stays(void) {
    static const char farm[] =
        "houses:\n  - {name: Barn, length: 300 ft, width: 40 ft, flocks: [{birds: broiler, count: "
        "20000, placed: PLACED, removed: 2026-01-26}]}\n";
    world t = begin();
    const char *path = test_file(t.a, t.folder, "h.yaml", test_replace(t.a, farm, "PLACED", "2025-02-02"));
    const char *page = PROGRAM(t.a, "estimate", path).out, *asked = strstr(page, "- Check the dates first: Barn: ");
    TEST_HOLDS(page, "358 days");
    CU_ASSERT(asked != NULL && strstr(page, "- Measure ") > asked);
    path = test_file(t.a, t.folder, "u.yaml", test_replace(t.a, farm, "PLACED", "2025-12-08"));
    CU_ASSERT_PTR_NULL(strstr(PROGRAM(t.a, "estimate", path).out, "Check the dates"));
    end(&t);
}

/* The page opens with what the files are good for and the gaps worth most. A survey narrows the
 * loads as the estimate has it: 24-37 now, then 24-34. Without buyers no load has a field; an
 * unrated field takes what its crop removes of phosphorus, a rated one more. */
static void worth(void) {
    world t = begin();
    const char *page = PROGRAM(t.a, "check", DEMO).out;
    const char *first = strstr(page, "No mistakes found. Good for a plan: 246 tons likely."),
               *gap = strstr(page, "FILL THESE GAPS"), *care = strstr(page, "TAKE CARE");
    CU_ASSERT(first != NULL && gap != NULL && care != NULL && first < gap && gap < care);
    TEST_HOLDS(test_joined(t.a, page), "tons as South up to 3 loads published");
    TEST_HOLDS(PROGRAM(t.a, "estimate", DEMO).out, "24-37 now, then 24-34");
    page = PROGRAM(t.a, "check", DEMO_HOUSE).out;
    TEST_HOLDS(page, "Good for an estimate: 246 tons likely. A plan needs buyers");
    TEST_HOLDS(page, "up to 29 loads");
    const char *unrated =
        test_file(t.a, t.folder, "u.yaml",
                  test_replace(t.a, demo(&t, DEMO_FIELDS, "rating: medium, ", "rating: high, "),
                               "        phosphorus: {rating: low, rated_by: county plan writer, date: "
                               "2025-10-02}\n",
                               ""));
    page = test_joined(t.a, PROGRAM(t.a, "check", DEMO_HOUSE, unrated).out);
    TEST_HOLDS(page, "no phosphorus rating");
    CU_ASSERT(strstr(page, "no phosphorus rating") < strstr(page, "no depth readings"));
    end(&t);
}

static void named_twice(void) {
    ls_arena *a = ls_arena_new();
    test_run run = PROGRAM(a, "check", DEMO_HOUSE, DEMO_HOUSE, DEMO_FIELDS);
    TEST_SAME(run.status, LS_MISTAKE);
    TEST_HOLDS(run.err, "demo-house.yaml is named twice");
    CU_ASSERT_PTR_NULL(strstr(run.err, "given twice"));
    ls_arena_free(a);
}

/* Each line to write, put where it belongs, closes its gap. */
static void lines_to_write(void) {
    static const struct {
        const char *where, *begins, *indent, *gap;
    } lines[] = {{"South", "measured", "    ", "no depth readings"},
                 {"South", "lab", "    ", "no laboratory report"},
                 {"Barn Field", "setbacks", "        ", "no setbacks"},
                 {"Ridge", "most", "        ", "no limit of the plan"}};
    world t = begin();
    const char *house = test_file_text(t.a, DEMO_HOUSE), *fields = test_file_text(t.a, DEMO_FIELDS);
    fields =
        test_replace(t.a, fields, "      - name: Barn Field\n", "      - name: Barn Field\n        most: 2 ton/ac\n");
    const char *page = check(&t, house, fields);
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) {
        const char *lead = ls_arena_printf(t.a, "%s: write \"", lines[i].where),
                   *start = ls_arena_printf(t.a, "%s%s: ", lead, lines[i].begins), *at = strstr(page, start);
        TEST_HOLDS(page, lines[i].gap);
        CU_ASSERT_PTR_NOT_NULL(at);
        if (at == NULL) continue;
        at += strlen(lead);
        const char *name = ls_arena_printf(t.a, "- name: %s\n", lines[i].where),
                   *new = ls_arena_printf(t.a, "%s%s%.*s\n", name, lines[i].indent, (int)strcspn(at, "\""), at);
        bool of_house = strstr(house, name) != NULL;
        const char *text = test_replace(t.a, of_house ? house : fields, name, new);
        const char *after = check(&t, of_house ? text : house, of_house ? fields : text);
        CU_ASSERT_PTR_NULL(strstr(after, start));
    }
    end(&t);
}

TEST_SUITE(check) = {
    {"lines to write", lines_to_write},  {"fields", fields}, {"houses", houses}, {"starters", starters},
    {"a soil table", soil_table},        {"counts", counts}, {"stays", stays},   {"worth", worth},
    {"a file named twice", named_twice}, CU_TEST_INFO_NULL};
