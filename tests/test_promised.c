/* What was promised and handed out stays true whatever becomes of it: slips balance in loads and in
 * tons, papers that are out are told, and a load that goes astray is said. */
#include "record_world.h"

#include "littershed/command.h"
#include "littershed/record.h"

#include <jansson.h>
#include <math.h>
#include <string.h>

#define RUN(t, command, ...) PROGRAM((t)->a, command, (t)->house, (t)->fields, __VA_ARGS__)

/* The run ends well; what it wrote. */
static const char *good(test_run run) {
    TEST_SAME(run.status, LS_DONE);
    return run.out;
}

static void edit(world *t, const char *name, const char *old, const char *new) {
    const char *path = strcmp(name, "h.yaml") == 0 ? t->house : t->fields;
    test_file(t->a, t->folder, name, test_replace(t->a, test_file_text(t->a, path), old, new));
}

/* A buyer's new name, once a slip is out, is no second buyer. */
static void renamed(void) {
    world t = begin();
    good(RUN(&t, "tickets", "--issue"));
    good(RUN(&t, "tickets", "--promise", "--issue"));
    edit(&t, "f.yaml", "name: Larkspur Hay\n", "name: Lark Farms\n    formerly: Larkspur Hay\n");
    TEST_HOLDS(good(RUN(&t, "plan", NULL)), "Lark Farms: had 0 of 8 loads, 8 to come.");
    TEST_SAME(RUN(&t, "tickets", "--issue").status, LS_DONE);
    const char *slip = good(RUN(&t, "tickets", "--promise", "--buyer", "Lark Farms"));
    TEST_HOLDS(slip, "COPY, issued ");
    TEST_HOLDS(slip, "\nFOR           Lark Farms, ");
    TEST_HOLDS(slip, "\nPRICE         $31 a ton, ");
    end(&t);
}

/* ---- slips ---- */

static double number(json_t *row, const char *key) { return json_number_value(json_object_get(row, key)); }

/* The slips of a plan: in loads and in tons promised is what was had, is to come and lacks. More loads come than were
 * promised only where tons would lack without them: then less is beyond the promise than a truck takes. */
static json_t *promises(world *t) {
    json_t *plan = json_loads(good(RUN(t, "plan", "--format", "json")), 0, NULL), *one;
    json_t *rows = json_incref(json_object_get(plan, "promises"));
    size_t i;
    json_array_foreach(rows, i, one) {
        double come = number(one, "had") + number(one, "owed"), more = fmax(0, come - number(one, "promised"));
        TEST_NEAR(number(one, "promised") + more, come + number(one, "short"), 0);
        CU_ASSERT_TRUE(more == 0 || number(one, "beyond_tons") < 12);
        TEST_NEAR(number(one, "promised_tons") + number(one, "beyond_tons"),
                  number(one, "had_tons") + number(one, "owed_tons") + number(one, "short_tons"), 1e-6);
        CU_ASSERT_TRUE(number(one, "short_tons") >= 0 && number(one, "beyond_tons") >= 0);
    }
    json_decref(plan);
    CU_ASSERT_TRUE_FATAL(json_array_size(rows) > 0);
    return rows;
}

/* How often it stands in the text. */
static size_t count(const char *s, const char *what) {
    size_t n = 0;
    for (; (s = strstr(s, what)) != NULL; s += strlen(what)) n++;
    return n;
}

/* Half the field is gone: what is still to come of the promise stands under it, firm or not, and
 * the tons that lack are said. */
static void less_room(void) {
    world t = begin();
    good(RUN(&t, "tickets", "--promise", "--issue"));
    good(RUN(&t, "tickets", "--issue"));
    edit(&t, "f.yaml", "area: 26 ac", "area: 15 ac");
    json_t *rows = promises(&t), *one = json_array_get(rows, 0);
    CU_ASSERT_TRUE_FATAL(number(one, "owed_likely") > 0 && number(one, "short_tons") > 8.64);
    const char *plan = test_joined(t.a, good(RUN(&t, "plan", NULL))),
               *slip = good(RUN(&t, "tickets", "--promise", "--buyer", "Larkspur Hay")),
               *words = test_joined(t.a, slip);
    double likely = number(one, "owed_likely"), owed = number(one, "owed"), lacks = number(one, "short");
    TEST_HOLDS(plan, ls_arena_printf(t.a, "%.0f to come (%.0f only likely), %.0f SHORT (%.0f tons)", owed, likely,
                                     lacks, number(one, "short_tons")));
    TEST_HOLDS(words, ls_arena_printf(t.a, "TO COME %.0f loads, %.0f tons (%.0f firm, %.0f likely)", owed,
                                      number(one, "owed_tons"), owed - likely, likely));
    TEST_HOLDS(words, ls_arena_printf(t.a, "SHORT %.0f load%s, %.0f tons: no litter or no field", lacks,
                                      lacks > 1 ? "s" : "", number(one, "short_tons")));
    const char *part = strstr(slip, "\nPROMISED, TO COME\n"), *rest = strstr(slip, "NOT PROMISED");
    CU_ASSERT_PTR_NOT_NULL_FATAL(part);
    TEST_SAME(count(part, ", only likely,"), (size_t)likely);
    CU_ASSERT_TRUE(rest == NULL || rest > strstr(part, "Rain or wet ground"));
    CU_ASSERT_PTR_NULL(strstr(slip, "How sure")); /* that is told of firm loads */
    json_decref(rows);
    end(&t);
}

/* Loads came lighter: a new slip promises no fewer tons, and says what lacks and what was paid. */
static void lighter(void) {
    static const char *const tickets[] = {"NORTH-RIGHT-01-2", "NORTH-RIGHT-02-Z", "NORTH-RIGHT-03-X"};
    world t = begin();
    edit(&t, "f.yaml", "most: 14 loads", "most: 3 loads");
    good(RUN(&t, "tickets", "--promise", "--issue", "--buyer", "Larkspur Hay"));
    for (size_t i = 0; i < 3; i++)
        good(RUN(&t, "record", "--ticket", tickets[i], "--tons", "7.1", "--when", "2026-02-16T10:00", "--field",
                 "Larkspur Hay/Upper Meadow"));
    json_t *rows = promises(&t), *one = json_array_get(rows, 0);
    double lacks = number(one, "promised_tons") - 3 * 7.1; /* one load in three shall not hide it */
    TEST_NEAR(number(one, "short"), 0, 0);
    TEST_NEAR(number(one, "short_tons"), lacks, 1e-6);
    CU_ASSERT_TRUE(lacks > 1);
    json_decref(rows);
    TEST_HOLDS(good(RUN(&t, "plan", NULL)), "Call Larkspur Hay: loads hauled hold less than promised ");
    TEST_HOLDS(good(RUN(&t, "tickets", "--promise", "--buyer", "Larkspur Hay")), "\nSHORT         no load, but ");
    /* the fourth brings it but for 0.7 tons: no load could bring those */
    edit(&t, "f.yaml", "most: 3 loads", "most: 4 loads");
    const char *slip = good(RUN(&t, "tickets", "--promise", "--issue", "--buyer", "Larkspur Hay"));
    TEST_HOLDS(slip, "\nPROMISED      3 loads, 33 tons in all\n");
    TEST_HOLDS(slip, "\nHAD           3 loads, 21.30 tons\nTO COME       1 load, ");
    CU_ASSERT_PTR_NULL(strstr(slip, "SHORT"));
    TEST_HOLDS(slip, "\nPRICE         $31 a ton, delivered and spread: $660 for the loads you had");
    rows = promises(&t);
    TEST_NEAR(number(json_array_get(rows, 0), "promised_tons"), 33, 1e-6);
    json_decref(rows);
    edit(&t, "f.yaml", "most: 4 loads", "most: 6 loads"); /* one more than tons lack for */
    slip = good(RUN(&t, "tickets", "--promise", "--issue", "--buyer", "Larkspur Hay"));
    TEST_HOLDS(slip, "\nPROMISED      6 loads, ");
    TEST_HOLDS(test_joined(t.a, slip), " in all (3 loads, 33 tons on the slip before)");
    CU_ASSERT_PTR_NULL(strstr(slip, "\nSHORT"));
    end(&t);
}

/* A part load that no slip promised is none of the full loads that are: all eight of those still come. */
static void part_load(void) {
    world t = begin();
    good(RUN(&t, "tickets", "--issue"));
    good(RUN(&t, "tickets", "--promise", "--issue"));
    good(RUN(&t, "record", "--ticket", "NORTH-RIGHT-07-P", "--tons", "2.1", "--when", "2026-02-16T10:00"));
    const char *page = test_joined(t.a, good(RUN(&t, "plan", NULL)));
    TEST_HOLDS(page, "Larkspur Hay: had 1 of 8 loads, 8 to come (1 only likely). ");
    CU_ASSERT_PTR_NULL(strstr(page, "Call Larkspur Hay"));
    json_decref(promises(&t));
    end(&t);
}

/* Four loads of 8.6 tons went on tickets of 3 tons an acre: 11.47 of the 23.75 acres to spread. Since then half the
 * rate may go on: 12.28 acres x 1.5 = 18 tons; had they gone at that rate, they had left 0.8 acres. */
static void at_ticket_rate(void) {
    static const char *const tickets[] = {"NORTH-LEFT-01-Q", "NORTH-LEFT-02-O", "NORTH-RIGHT-01-2", "NORTH-RIGHT-02-Z"};
    world t = begin();
    good(RUN(&t, "tickets", "--issue"));
    for (size_t i = 0; i < 4; i++)
        good(RUN(&t, "record", "--ticket", tickets[i], "--tons", "8.6", "--when", "2026-02-17T10:00"));
    edit(&t, "f.yaml", "most: 3 ton/ac", "most: 1.5 ton/ac");
    TEST_HOLDS(test_joined(t.a, good(RUN(&t, "plan", NULL))), " Upper Meadow ##### 18 1.5 ");
    end(&t);
}

/* None is hauled: a smaller body is why tons lack. */
static void smaller_body(void) {
    world t = begin();
    edit(&t, "f.yaml", "most: 14 loads", "most: 8 loads"); /* no more come that bring the tons */
    good(RUN(&t, "tickets", "--issue"));
    good(RUN(&t, "tickets", "--promise", "--issue", "--buyer", "Larkspur Hay"));
    edit(&t, "h.yaml", "body: 20 yd3", "body: 18 yd3");
    static const char why[] = "loads to come hold less than promised";
    TEST_SAME(count(test_joined(t.a, good(RUN(&t, "plan", NULL))), why), 1);
    TEST_SAME(count(test_joined(t.a, good(RUN(&t, "tickets", "--promise", "--buyer", "Larkspur Hay"))), why), 1);
    end(&t);
}

/* What is promised today has its tons, also where a slip promises a part of it. */
static void some_more(void) {
    world t = begin();
    edit(&t, "f.yaml", "most: 14 loads", "most: 4 loads");
    good(RUN(&t, "tickets", "--promise", "--issue", "--buyer", "Larkspur Hay"));
    edit(&t, "f.yaml", "most: 4 loads", "most: 14 loads");
    edit(&t, "f.yaml", "price: 31", "price: 36");
    json_t *plan = json_loads(good(RUN(&t, "plan", "--format", "json")), 0, NULL), *one;
    size_t i, n = 0;
    json_array_foreach(json_object_get(plan, "do_now"), i, one) {
        if (!ls_text_same(json_string_value(json_object_get(one, "act")), "promise")) continue;
        n++;
        CU_ASSERT_TRUE(number(one, "tons") > 6 * number(one, "loads"));
        CU_ASSERT_TRUE(number(one, "tons") < 11 * number(one, "loads") + 0.01);
    }
    CU_ASSERT_TRUE(n > 1);
    json_decref(plan);
    end(&t);
}

/* ---- loads that are recorded ---- */

static test_run record(world *t, const char *ticket, const char *tons, const char *one, const char *two,
                       const char *three, const char *four) {
    return RUN(t, "record", "--ticket", ticket, "--tons", tons, "--when", "2026-02-17T10:00", one, two, three, four);
}

/* Another field than the ticket's is said when it is recorded, and by the plan. */
static void astray(void) {
    static const char other[] = "Osgood Row Crops/Wheat Strip";
    world t = begin();
    good(RUN(&t, "tickets", "--issue"));
    test_run run = record(&t, "NORTH-LEFT-01-Q", "8.6", NULL, NULL, NULL, NULL);
    TEST_TEXT(run.err, "");
    CU_ASSERT_PTR_NULL(strstr(good(RUN(&t, "plan", "--full")), "ASTRAY"));
    run = record(&t, "NORTH-LEFT-02-O", "8.6", "--field", other, NULL, NULL);
    TEST_SAME(run.status, LS_DONE);
    TEST_HOLDS(run.err, "its ticket was for Larkspur Hay/Upper Meadow, this load went to Osgood "
                        "Row Crops/Wheat Strip");
    const char *page = test_joined(t.a, good(RUN(&t, "plan", NULL)));
    TEST_HOLDS(page, "ASTRAY NORTH-LEFT-02-O went to Osgood Row Crops/Wheat Strip, its ticket said "
                     "Larkspur Hay, Upper Meadow.");
    json_t *plan = json_loads(good(RUN(&t, "plan", "--format", "json")), 0, NULL),
           *list = json_object_get(plan, "went_astray");
    TEST_SAME(json_array_size(list), 1);
    json_decref(plan);
    run = RUN(&t, "record", "--replaces", "36", "--field", "Larkspur Hay/Upper Meadow");
    TEST_SAME(run.status, LS_DONE);
    TEST_TEXT(run.err, "");
    CU_ASSERT_PTR_NULL(strstr(good(RUN(&t, "plan", NULL)), "ASTRAY"));
    end(&t);
}

/* Wheat Strip may take 22 ac x 1.5 tons/ac = 33 tons. */
static void too_much(void) {
    static const char *const tickets[] = {"SOUTH-LEFT-01-G", "SOUTH-LEFT-02-E", "SOUTH-LEFT-03-C", "SOUTH-LEFT-04-A"};
    static const char field[] = "Osgood Row Crops/Wheat Strip";
    world t = begin();
    for (size_t i = 0; i < 3; i++) TEST_TEXT(record(&t, tickets[i], "11", "--field", field, NULL, NULL).err, "");
    test_run run = record(&t, tickets[3], "8.5", "--field", field, NULL, NULL);
    TEST_SAME(run.status, LS_DONE);
    TEST_HOLDS(run.err, "Wheat Strip has 41.50 tons with this load and may take 33.00");
    /* in place of an entry counts once */
    run = RUN(&t, "record", "--replaces", "4", "--tons", "3");
    TEST_HOLDS(run.err, "Wheat Strip has 36.00 tons");
    run = RUN(&t, "record", "--replaces", "5", "--field", "stack");
    CU_ASSERT_PTR_NULL(strstr(run.err, "Wheat Strip"));
    end(&t);
}

/* Nothing comes out of a stack that nothing went into. */
static void out_of_nowhere(void) {
    static const char meadow[] = "Larkspur Hay/Upper Meadow";
    world t = begin();
    test_run run = record(&t, "NORTH-LEFT-S01-7", "8.6", "--field", meadow, NULL, NULL);
    TEST_SAME(run.status, LS_MISTAKE);
    TEST_HOLDS(run.err, "nothing of North/left is in the stack by the log");
    CU_ASSERT_PTR_NULL(test_file_text(t.a, t.log));
    record(&t, "NORTH-RIGHT-01-2", "8.6", "--field", "stack", NULL, NULL);
    run = record(&t, "NORTH-LEFT-S01-7", "8.6", "--field", meadow, NULL, NULL);
    TEST_SAME(run.status, LS_MISTAKE);
    record(&t, "NORTH-LEFT-01-Q", "8.6", "--field", "stack", NULL, NULL);
    run = record(&t, "NORTH-LEFT-S01-7", "8.6", "--field", meadow, NULL, NULL);
    TEST_SAME(run.status, LS_DONE);
    TEST_TEXT(run.err, "");
    run = record(&t, "SOUTH-RIGHT-S01-Q", "8.6", "--field", meadow, "--sure", NULL);
    TEST_SAME(run.status, LS_DONE);
    TEST_HOLDS(run.err, "confirmed");
    end(&t);
}

/* A light load of a full ticket is said; a correction counts the other loads of its side. */
static void light(void) {
    world t = begin();
    good(RUN(&t, "tickets", "--issue", "--lot", "North/left"));
    TEST_HOLDS(record(&t, "NORTH-LEFT-01-Q", "3", NULL, NULL, NULL, NULL).err, "3.00 tons is little for a load");
    TEST_TEXT(record(&t, "NORTH-LEFT-02-O", "8", NULL, NULL, NULL, NULL).err, "");
    test_run run = record(&t, "NORTH-LEFT-03-M", "8.6", "--cleared", "all", NULL, NULL);
    TEST_HOLDS(run.err, "North/left held 19.60 tons in all");
    const ls_log *log = ls_log_read(t.a, ls_diag_new(t.a), t.log);
    CU_ASSERT_PTR_NOT_NULL_FATAL(log);
    run = RUN(&t, "record", "--replaces", ls_arena_printf(t.a, "%zu", log->entries.n), "--tons", "2");
    TEST_HOLDS(run.err, "North/left held 13.00 tons in all");
    end(&t);
}

/* ---- a buyer leaves ---- */

/* Ten papers of one buyer go back for one reason: one call. The list of the log knows it without a
 * plan, and the reason outlives the newer papers. */
static void buyer_gone(void) {
    static const char why[] = "because the file no longer names Larkspur Hay";
    world t = begin();
    good(RUN(&t, "tickets", "--issue"));
    good(RUN(&t, "tickets", "--promise", "--issue"));
    TEST_SAME(count(good(RUN(&t, "record", "--list")), "stands"), 36);
    edit(&t, "f.yaml", "name: Larkspur Hay", "name: Another"); /* no formerly */
    const char *page = test_joined(t.a, good(RUN(&t, "plan", NULL)));
    TEST_SAME(count(page, why), 1);
    /* 8 loads of 8.64 tons and parts of 2.13 and 2.54 */
    TEST_HOLDS(page, " 2 Take back 10 tickets: call Quarry Lane Cleanout 10 74 ");
    TEST_HOLDS(page, "- Larkspur Hay: 10 tickets (8 firm), because the file no longer names Larkspur Hay: "
                     "NORTH-LEFT-01-Q, ");
    TEST_HOLDS(page, "- littershed record FILE... --replaces 35 --tons 0 ends the slip");
    const char *list = test_joined(t.a, good(RUN(&t, "record", "--list")));
    TEST_SAME(count(list, "TAKE BACK"), 10);
    TEST_SAME(count(list, "stands"), 26);
    good(RUN(&t, "tickets", "--issue"));
    json_t *plan = json_loads(good(RUN(&t, "plan", "--format", "json")), 0, NULL), *one;
    size_t i, n = 0;
    json_array_foreach(json_object_get(plan, "recalled"), i, one) {
        const char *now = json_string_value(json_object_get(one, "why"));
        TEST_HOLDS(now, "the file no longer names Larkspur Hay");
        n += strstr(now, "; a newer one is out since ") != NULL;
    }
    TEST_SAME(i, 10);
    CU_ASSERT_TRUE(n > 0);
    json_decref(plan);
    end(&t);
}

/* Copies of what was handed out while there seemed to be less litter say what is surer now. */
static void surer(void) {
    static const char few[] = "slats: 4.5 5 3.5 5.5 4 5 in", many[] = "slats: 5.5 6 4.5 6.5 5 6 in";
    world t = begin();
    edit(&t, "h.yaml", many, few);
    good(RUN(&t, "tickets", "--issue"));
    edit(&t, "h.yaml", few, many);
    json_t *plan = json_loads(good(RUN(&t, "plan", "--format", "json")), 0, NULL), *one;
    const char *page = test_joined(t.a, good(RUN(&t, "tickets", NULL)));
    size_t i, n = 0;
    json_array_foreach(json_object_get(plan, "moved"), i, one) {
        n += ls_text_same(json_string_value(json_object_get(one, "certainty")), "firm") &&
             !ls_text_same(json_string_value(json_object_get(one, "was_certainty")), "firm");
    }
    CU_ASSERT_TRUE(n > 0);
    TEST_SAME(count(page, ", now firm."), n);
    json_decref(plan);
    end(&t);
}

TEST_SUITE(promised) = {{"a buyer is renamed", renamed},
                        {"less room than was promised", less_room},
                        {"lighter loads", lighter},
                        {"a smaller body", smaller_body},
                        {"a part load nobody was promised", part_load},
                        {"loads gone at the rate of their tickets", at_ticket_rate},
                        {"some more can be promised", some_more},
                        {"a load goes astray", astray},
                        {"more than a field may take", too_much},
                        {"out of an empty stack", out_of_nowhere},
                        {"light loads", light},
                        {"a buyer is gone", buyer_gone},
                        {"a copy is surer now", surer},
                        CU_TEST_INFO_NULL};
