/* Tickets and slips that are handed out: into the log first, once, and taken back by record. */
#include "record_world.h"

#include "littershed/books.h"
#include "littershed/command.h"

#include <jansson.h>
#include <math.h>
#include <string.h>
#include <unistd.h>

#define RUN(t, command, ...) PROGRAM((t)->a, command, (t)->house, (t)->fields, __VA_ARGS__)

/* The run ends well; what it wrote. */
static const char *good(test_run run) {
    TEST_SAME(run.status, LS_DONE);
    return run.out;
}

static const char *log_of(const world *t) { return test_file_text(t->a, t->log); }

static size_t count(const char *s, const char *what) {
    size_t n = 0;
    for (; (s = strstr(s, what)) != NULL; s += strlen(what)) n++;
    return n;
}

static json_t *document(world *t, const char *command, const char *one, const char *two) {
    json_t *d = json_loads(good(RUN(t, command, "--format", "json", one, two)), 0, NULL);
    CU_ASSERT_PTR_NOT_NULL_FATAL(d);
    return d;
}

static const ls_log *read_log(world *t) {
    const ls_log *log = ls_log_read(t->a, ls_diag_new(t->a), t->log);
    CU_ASSERT_PTR_NOT_NULL_FATAL(log);
    return log;
}

/* ---- tickets ---- */

/* Every load of the plan from a house as the log has it. */
static void compare_with_plan(world *t, const ls_log *log) {
    json_t *plan = document(t, "plan", NULL, NULL), *load;
    json_t *all = json_object_get(plan, "loads");
    size_t i;
    CU_ASSERT_TRUE_FATAL(log->entries.n > json_array_size(all));
    json_array_foreach(all, i, load) {
        const ls_log_entry *e = &log->entries.at[i];
        TEST_SAME(e->of, LS_LOG_ISSUED);
        TEST_TEXT(e->ticket.text, json_string_value(json_object_get(load, "ticket")));
        TEST_TEXT(ls_log_sure_name(e->sure), json_string_value(json_object_get(load, "certainty")));
        TEST_NEAR(e->tons / 2000, json_number_value(json_object_get(load, "tons")), 1e-6);
        TEST_TEXT(ls_date_iso(t->a, e->planned), json_string_value(json_object_get(load, "day")));
        TEST_SAME(json_integer_value(json_object_get(load, "issued")), e->number);
    }
    json_decref(plan);
}

static void once(void) {
    world t = begin();
    size_t drafts = count(good(RUN(&t, "tickets", NULL)), "DRAFT, NOT ISSUED");
    const char *plan = good(RUN(&t, "plan", NULL));
    TEST_HOLDS(plan, "No plan that keeps firm loads places more tons");
    TEST_HOLDS(plan, "with a stack for 144 tons in 4 piles (yours holds 67 in 4) ");
    CU_ASSERT_PTR_NULL(log_of(&t));
    test_run run = RUN(&t, "tickets", "--issue");
    TEST_SAME(count(good(run), "\nISSUED "), drafts);
    TEST_SAME(count(run.out, "DRAFT"), 0);
    TEST_HOLDS(run.err, "tickets issued: entries 1 to ");
    const char *log = log_of(&t);
    TEST_HOLDS(log, "Larkspur Hay/Upper Meadow (8.64 ton, 2.88 ac)");
    TEST_HOLDS(log, ",stack,");
    compare_with_plan(&t, read_log(&t));
    run = RUN(&t, "tickets", "--issue");
    TEST_TEXT(good(run), "");
    TEST_HOLDS(run.err, "nothing new to issue");
    TEST_TEXT(log_of(&t), log);
    TEST_SAME(count(good(RUN(&t, "tickets", NULL)), "\nCOPY, issued "), drafts);
    TEST_SAME(count(good(RUN(&t, "plan", "--full")), "No plan "), 0);
    run = RUN(&t, "tickets", "--issue", "--ticket", "NORTH-LEFT-03-M");
    TEST_SAME(count(good(run), "\nCOPY, issued "), 1);
    TEST_TEXT(log_of(&t), log);
    end(&t);
}

/* One side at a time: each once. */
static void by_part(void) {
    world t = begin();
    size_t first = count(good(RUN(&t, "tickets", "--issue", "--lot", "North/left")), "\nISSUED ");
    size_t all = count(good(RUN(&t, "tickets", NULL)), "\nTICKET ");
    CU_ASSERT_TRUE(first > 0 && first < all);
    TEST_SAME(read_log(&t)->entries.n, first);
    TEST_SAME(count(good(RUN(&t, "tickets", "--issue")), "\nISSUED "), all - first);
    TEST_SAME(read_log(&t)->entries.n, all);
    end(&t);
}

/* An output that cannot be is seen before anything is written. */
static void no_paper(void) {
    world t = begin();
    const char *none = ls_arena_printf(t.a, "%s/none/t.txt", t.folder);
    TEST_SAME(RUN(&t, "tickets", "--issue", "-o", none).status, LS_USAGE);
    TEST_SAME(RUN(&t, "tickets", "--promise", "--issue", "-o", "slips.csv").status, LS_USAGE);
    CU_ASSERT_PTR_NULL(log_of(&t));
    end(&t);
}

static void refused(void) {
    world t = begin();
    const char *house = test_file_text(t.a, t.house);
    test_file(t.a, t.folder, "h.yaml", test_replace(t.a, house, "farm:\n", "farm:\n  quarantine: yes\n"));
    test_run run = RUN(&t, "tickets", "--issue");
    TEST_SAME(run.status, LS_MISTAKE);
    TEST_HOLDS(run.err, "nothing may leave it");
    run = RUN(&t, "tickets", "--promise", "--issue");
    TEST_SAME(run.status, LS_MISTAKE);
    CU_ASSERT_PTR_NULL(log_of(&t));
    test_file(t.a, t.folder, "h.yaml", house);
    good(RUN(&t, "tickets", "--issue", "--lot", "North/left"));
    const char *log = log_of(&t);
    run = RUN(&t, "record", "--replaces", "1", "--tons", "5");
    TEST_SAME(run.status, LS_MISTAKE);
    TEST_HOLDS(run.err, "is a ticket that was handed out: --replaces 1 --tons 0 takes it back");
    run = RUN(&t, "record", "--replaces", "1", "--tons", "0", "--ticket", "NORTH-LEFT-02-O");
    TEST_SAME(run.status, LS_MISTAKE);
    TEST_HOLDS(run.err, "entry 1 is of NORTH-LEFT-01-Q, not of NORTH-LEFT-02-O");
    TEST_TEXT(log_of(&t), log);
    end(&t);
}

/* Taken back, a ticket is new again; hauled, it is out of the list of what stands. */
static void became(void) {
    world t = begin();
    good(RUN(&t, "tickets", "--issue")); /* all: what is taken back finds the same place again */
    TEST_HOLDS(good(RUN(&t, "record", "--replaces", "9", "--tons", "0")),
               "takes back entry 9, the ticket NORTH-RIGHT-01-2");
    good(RUN(&t, "record", "--ticket", "NORTH-LEFT-01-Q", "--tons", "8.5", "--when", "2026-02-16T10:00"));
    const ls_log *log = read_log(&t);
    const ls_log_entry *hauled = &log->entries.at[log->entries.n - 1];
    test_run run = RUN(&t, "record", "--replaces", "1", "--tons", "0");
    TEST_SAME(run.status, LS_MISTAKE);
    TEST_HOLDS(run.err, ls_arena_printf(t.a, "went out with entry %ld", hauled->number));
    run = RUN(&t, "record", "--replaces", ls_arena_printf(t.a, "%ld", hauled->number - 1), "--tons", "0");
    TEST_SAME(run.status, LS_MISTAKE);
    TEST_HOLDS(run.err, "strikes entry 9 already; to hand out anew what it took back");
    TEST_TEXT(hauled->words[LS_LOG_FIELD], "Larkspur Hay/Upper Meadow"); /* as issued */
    CU_ASSERT_TRUE(isnan(hauled->acres));                                /* those planned are not those covered */
    json_t *page = document(&t, "record", "--list", NULL), *issued = json_object_get(page, "issued");
    TEST_HOLDS(json_string_value(json_object_get(json_array_get(issued, 0), "became")),
               ls_arena_printf(t.a, "hauled as %ld", hauled->number));
    TEST_HOLDS(json_string_value(json_object_get(json_array_get(issued, 8), "became")), "back by");
    TEST_TEXT(json_string_value(json_object_get(json_array_get(issued, 2), "became")), "stands");
    json_t *houses = json_object_get(page, "out_of_houses");
    TEST_SAME(json_integer_value(json_object_get(houses, "loads")), 1);
    TEST_NEAR(json_number_value(json_object_get(houses, "tons")), 8.5, 1e-9);
    json_decref(page);
    run = RUN(&t, "tickets", "--issue", "--ticket", "NORTH-RIGHT-01-2");
    TEST_SAME(count(good(run), "\nISSUED "), 1);
    log = read_log(&t);
    TEST_SAME(log->entries.at[log->entries.n - 1].replaces, 0);
    end(&t);
}

/* Every ticket of before that has the number of a new one is told until it is struck. */
static void check_older(world *t, const ls_log *log, size_t n) {
    const char *page = test_joined(t->a, good(RUN(t, "tickets", NULL)));
    size_t struck = 0;
    for (size_t i = n; i < log->entries.n; i++) {
        const char *ticket = log->entries.at[i].ticket.text;
        const ls_log_entry *was = NULL;
        for (size_t k = 0; k < n && was == NULL; k++)
            was = strcmp(log->entries.at[k].ticket.text, ticket) == 0 ? &log->entries.at[k] : NULL;
        if (was == NULL) continue;
        const char *entry = ls_arena_printf(t->a, "%ld", was->number);
        CU_ASSERT_TRUE(strcmp(log->entries.at[i].words[LS_LOG_FIELD], was->words[LS_LOG_FIELD]));
        TEST_HOLDS(page, ls_arena_printf(t->a, "%s, in the cab for Larkspur Hay", ticket));
        TEST_HOLDS(page, ls_arena_printf(t->a, "record FILE... --ticket %s --replaces %s --tons 0", ticket, entry));
        const char *copy = test_joined(t->a, good(RUN(t, "tickets", "--ticket", ticket)));
        TEST_HOLDS(test_joined(t->a, copy), "In place of the ticket of "),
            TEST_HOLDS(test_joined(t->a, copy), " (entry ");
        TEST_HOLDS(copy, " for Larkspur Hay, Upper Meadow. Tear up the old one.");
        good(RUN(t, "record", "--ticket", ticket, "--replaces", entry, "--tons", "0"));
        page = test_joined(t->a, good(RUN(t, "tickets", NULL)));
        CU_ASSERT_PTR_NULL(strstr(page, ls_arena_printf(t->a, "%s, in the cab", ticket)));
        struck++;
    }
    CU_ASSERT_TRUE(struck > 1);
    for (size_t k = 0; k < n; k++) { /* those that no load has the number of any more */
        const char *entry = ls_arena_printf(t->a, "%ld", log->entries.at[k].number),
                   *ticket = log->entries.at[k].ticket.text;
        if (strstr(page, ls_arena_printf(t->a, "--replaces %s --tons 0", entry)) != NULL)
            good(RUN(t, "record", "--ticket", ticket, "--replaces", entry, "--tons", "0"));
    }
    page = test_joined(t->a, good(RUN(t, "tickets", NULL)));
    CU_ASSERT_PTR_NULL(strstr(page, "TAKE BACK"));
    CU_ASSERT_PTR_NULL(strstr(page, "In place of"));
}

/* A ticket that goes another way is issued again. The paper of before is out there until it is
 * told to be back, and the new one says so. */
static void another_way(void) {
    world t = begin();
    good(RUN(&t, "tickets", "--issue"));
    size_t n = read_log(&t)->entries.n;
    const char *fields = test_file_text(t.a, t.fields);
    test_file(t.a, t.folder, "f.yaml",
              test_replace(t.a, fields, "- name: Upper Meadow\n        area: 26 ac",
                           "- name: Upper Meadow\n        area: 9 ac"));
    test_file(t.a, t.folder, "h.yaml",
              test_replace(t.a, test_file_text(t.a, t.house), "length: 80 ft", "length: 160 ft"));
    test_run run = RUN(&t, "tickets", "--issue");
    TEST_HOLDS(test_joined(t.a, good(run)), "in the cab for Larkspur Hay");
    const ls_log *log = read_log(&t);
    CU_ASSERT_TRUE(log->entries.n > n);
    const char *out = test_joined(t.a, run.out);
    TEST_SAME(count(out, "Tear up the old one.") + count(out, ": not planned now, because"),
              count(out, ", in the cab for "));
    const char *bytes = log_of(&t);
    good(RUN(&t, "tickets", "--issue"));
    TEST_TEXT(log_of(&t), bytes);
    check_older(&t, log, n);
    end(&t);
}

/* An older log gets the new columns once. */
static void older_log(void) {
    static const char old[] =
        "entry,replaces,ticket,when,tons,weighed,cleared,field,truck,driver,received_by,analysis,"
        "incorporated,weather_before,weather,weather_after,soil,note,confirmed,acres,batch,kind\r\n"
        "1,,NORTH-LEFT-01-Q,2026-02-16T10:00,8.6,yes,,Larkspur Hay/Upper Meadow,,,,,,,,,,,,,,"
        "hauled\r\n";
    world t = begin();
    test_file(t.a, t.folder, "h.haul.csv", old);
    good(RUN(&t, "tickets", "--issue", "--lot", "North/left"));
    good(RUN(&t, "tickets", "--issue", "--lot", "North/right"));
    const char *log = log_of(&t);
    CU_ASSERT_TRUE(strncmp(log, old, strlen(old)) == 0);
    TEST_SAME(count(log, "entry,replaces,"), 2);
    TEST_SAME(count(log, ",certainty,planned,loads,price,"), 1);
    TEST_SAME(count(good(RUN(&t, "record", "--list")), "hauled as"), 0);
    end(&t);
}

/* ---- slips ---- */

/* What the plan's income takes for a ton to Larkspur Hay. */
static double price_of(world *t) {
    json_t *plan = document(t, "plan", NULL, NULL), *one = json_array_get(json_object_get(plan, "money"), 0);
    double price = json_number_value(json_object_get(one, "dollars")) / json_number_value(json_object_get(one, "tons"));
    TEST_TEXT(json_string_value(json_object_get(one, "item")), "Larkspur Hay pays");
    json_decref(plan);
    return price;
}

static void slips(void) {
    world t = begin();
    test_run run = RUN(&t, "tickets", "--promise", "--issue");
    TEST_SAME(count(good(run), "\nISSUED "), 2); /* the third buyer has nothing firm */
    const ls_log *log = read_log(&t);
    TEST_SAME(log->entries.n, 2);
    const ls_log_entry *e = &log->entries.at[0];
    TEST_SAME(e->of, LS_LOG_PROMISED);
    TEST_TEXT(e->words[LS_LOG_FIELD], "Larkspur Hay");
    TEST_TEXT(e->ticket.text, "");
    TEST_SAME(e->loads, 8);
    TEST_NEAR(e->price * 2000, 31, 1e-9);
    const char *bytes = log_of(&t);
    TEST_TEXT(good(RUN(&t, "tickets", "--promise", "--issue")), "");
    const char *fields = test_file_text(t.a, t.fields);
    test_file(t.a, t.folder, "f.yaml", test_replace(t.a, fields, "price: 31", "price: 36"));
    run = RUN(&t, "tickets", "--promise", "--issue", "--buyer", "Larkspur Hay");
    TEST_SAME(count(good(run), "\nCOPY, issued "), 1); /* another price is no other promise */
    TEST_HOLDS(test_joined(t.a, run.out), "$31 a ton as promised");
    TEST_TEXT(log_of(&t), bytes);
    TEST_NEAR(price_of(&t), 31, 1e-9); /* nor is it in the money of the plan */
    TEST_HOLDS(good(RUN(&t, "record", "--replaces", "1", "--tons", "0")),
               "takes back entry 1, the slip for Larkspur Hay");
    good(RUN(&t, "tickets", "--promise", "--issue"));
    log = read_log(&t);
    TEST_SAME(log->entries.n, 4);
    TEST_NEAR(log->entries.at[3].price * 2000, 36, 1e-9);
    TEST_SAME(log->entries.at[3].replaces, 0);
    TEST_NEAR(price_of(&t), 36, 1e-9);
    end(&t);
}

/* Fewer firm loads than were promised take no promise back; more are a new slip in its place. */
static void promises_only_grow(void) {
    world t = begin();
    const char *fields = test_file_text(t.a, t.fields);
    test_file(t.a, t.folder, "f.yaml", test_replace(t.a, fields, "most: 14 loads", "most: 4 loads"));
    good(RUN(&t, "tickets", "--promise", "--issue", "--buyer", "Larkspur Hay"));
    const ls_log *log = read_log(&t);
    TEST_SAME(log->entries.at[0].loads, 4);
    size_t n = log->entries.n;
    test_file(t.a, t.folder, "f.yaml", test_replace(t.a, fields, "price: 31", "price: 36"));
    test_run run = RUN(&t, "tickets", "--promise", "--issue", "--buyer", "Larkspur Hay");
    TEST_SAME(count(good(run), "\nISSUED "), 1);
    log = read_log(&t);
    TEST_SAME(log->entries.n, n + 1);
    TEST_SAME(log->entries.at[n].replaces, 1);
    CU_ASSERT_TRUE(log->entries.at[n].loads > 4);
    TEST_NEAR(log->entries.at[n].price * 2000, 31, 1e-9); /* the price was promised too */
    TEST_HOLDS(test_joined(t.a, run.out), "$31 a ton as promised");
    TEST_HOLDS(run.out, ". In place of the slip of ");
    TEST_SAME(count(good(RUN(&t, "record", "--list")), "CORRECTIONS"), 0);
    test_file(t.a, t.folder, "f.yaml", test_replace(t.a, fields, "most: 14 loads", "most: 4 loads"));
    n = read_log(&t)->entries.n;
    run = RUN(&t, "tickets", "--promise", "--issue", "--buyer", "Larkspur Hay");
    TEST_SAME(count(good(run), "\nCOPY, issued "), 1);
    TEST_SAME(read_log(&t)->entries.n, n);
    end(&t);
}

/* Slips promise what the plan has: handing them out, all or one, moves no load. */
static void slips_move_nothing(void) {
    static const char *const buyers[] = {"Larkspur Hay", "Osgood Row Crops", NULL};
    for (size_t i = 0; i < 3; i++) {
        world t = begin();
        json_t *before = document(&t, "plan", NULL, NULL);
        good(RUN(&t, "tickets", "--promise", "--issue", buyers[i] == NULL ? NULL : "--buyer", buyers[i]));
        json_t *after = document(&t, "plan", NULL, NULL);
        CU_ASSERT_TRUE(json_array_size(json_object_get(after, "promises")) > 0);
        CU_ASSERT_TRUE(json_equal(json_object_get(before, "loads"), json_object_get(after, "loads")));
        CU_ASSERT_TRUE(json_equal(json_object_get(before, "stack"), json_object_get(after, "stack")));
        json_decref(before);
        json_decref(after);
        end(&t);
    }
}

/* ---- papers that are out ---- */

/* No standby paper waits for one that may wait for it: whom it waits for has a lower number. */
static void check_waits(world *t, const char *papers) {
    const char *page = test_joined(t->a, papers), *at = page, *next;
    size_t n = 0;
    while ((at = strstr(at, "TICKET ")) != NULL) {
        at += strlen("TICKET ");
        size_t bytes = strcspn(at, " "); /* NORTH-LEFT-03-M */
        next = strstr(at, "TICKET ");
        const char *after = strstr(at, ", and after ");
        if (after == NULL || (next != NULL && after > next)) continue;
        after += strlen(", and after ");
        CU_ASSERT_TRUE(strncmp(after, at, bytes - 2) < 0);
        const char *lead = ls_arena_copy_n(t->a, after, strcspn(after, ".")),
                   *first = strstr(page, ls_arena_printf(t->a, "TICKET %s ", lead));
        CU_ASSERT_TRUE(first != NULL && first < at); /* hauled before */
        n++;
    }
    CU_ASSERT_TRUE(n > 1);
}

/* What stands above the number of a ticket. */
static const char *leads_of(world *t, const char *papers, const char *ticket) {
    const char *end = strstr(papers, ls_arena_printf(t->a, "\nTICKET  %s ", ticket)), *from = end;
    CU_ASSERT_PTR_NOT_NULL_FATAL(end);
    while (from > papers && from[-1] != '\f') from--;
    return ls_arena_copy_n(t->a, from, (size_t)(end - from));
}

/* A new buyer takes what had no field: drafts among copies, full loads before a bound part load. */
static void waits_go_by_the_days(void) {
    world t = begin();
    good(RUN(&t, "tickets", "--issue"));
    test_file(t.a, t.folder, "f.yaml",
              ls_arena_printf(t.a,
                              "%s  - {name: Harlow, distance: 4 mi, price: 36 $/ton, fields: "
                              "[{name: Long Bottom, area: 40 ac, crop: tall fescue hay, yield: 3.5 "
                              "ton/ac, nitrogen: 120 lb/ac, phosphorus: {rating: low}, most: 3 "
                              "ton/ac, open: 2026-02-16..2026-04-15}]}\n",
                              test_file_text(t.a, t.fields)));
    const char *page = good(RUN(&t, "tickets", NULL));
    CU_ASSERT_TRUE(count(page, "DRAFT") > 1 && count(page, "COPY") > 1);
    check_waits(&t, page);
    end(&t);
}

/* The houses hold less than was thought: copies are as they were handed out, and say what is
 * otherwise. */
static void copies(void) {
    world t = begin();
    const char *issued = good(RUN(&t, "tickets", "--issue"));
    const char *house = test_file_text(t.a, t.house);
    check_waits(&t, issued);
    TEST_HOLDS(issued, "spreader truck no. 1 of ");
    test_file(t.a, t.folder, "h.yaml",
              test_replace(t.a, house, "slats: 5.5 6 4.5 6.5 5 6 in", "slats: 4.5 5 3.5 5.5 4 5 in"));
    const char *papers = good(RUN(&t, "tickets", NULL));
    check_waits(&t, papers);
    json_t *plan = document(&t, "plan", NULL, NULL), *one;
    size_t i, less_sure = 0;
    json_array_foreach(json_object_get(plan, "moved"), i, one) {
        const char *ticket = json_string_value(json_object_get(one, "ticket")),
                   *was = json_string_value(json_object_get(one, "was_certainty")),
                   *sure = json_string_value(json_object_get(one, "certainty"));
        const char *copy = good(RUN(&t, "tickets", "--ticket", ticket));
        const char *name = strcmp(was, "firm") == 0 ? "FIRM" : strcmp(was, "likely") == 0 ? "LIKELY" : "POSSIBLE";
        TEST_HOLDS(copy, ls_arena_printf(t.a, "\nTICKET  %s  %s", ticket, name));
        TEST_HOLDS(test_joined(t.a, copy), " By the plan now: ");
        CU_ASSERT_PTR_NULL(strstr(copy, "spreader truck no.")); /* the log has no number: another truck may come now */
        TEST_TEXT(leads_of(&t, copy, ticket), leads_of(&t, issued, ticket));
        if (strcmp(was, sure) == 0) continue;
        less_sure++;
        TEST_HOLDS(test_joined(t.a, copy), ls_arena_printf(t.a, ", only %s.", sure));
    }
    CU_ASSERT_TRUE(less_sure > 0 && less_sure < i);
    json_decref(plan);
    end(&t);
}

/* The crew comes nine days later: what comes after spreading is counted from the day planned now, never the one that
 * the paper was handed out for, which is too early. */
static void waits_of_copies(void) {
    world t = begin();
    good(RUN(&t, "tickets", "--issue"));
    test_file(t.a, t.folder, "h.yaml",
              test_replace(t.a, test_file_text(t.a, t.house), "arrives: 2026-02-16", "arrives: 2026-02-25"));
    json_t *d = document(&t, "tickets", NULL, NULL), *one, *wait;
    size_t i, k, seen = 0;
    json_array_foreach(json_object_get(d, "tickets"), i, one) {
        const char *now = json_string_value(json_object_get(json_object_get(one, "today"), "day")),
                   *was = json_string_value(json_object_get(one, "day"));
        json_t *waits = json_object_get(json_array_get(json_object_get(one, "drops"), 0), "waits");
        ls_date day;
        if (now == NULL || strcmp(now, was) == 0 || json_array_size(waits) == 0) continue;
        CU_ASSERT_TRUE(ls_date_parse(now, strlen(now), &day));
        const char *copy = good(RUN(&t, "tickets", "--ticket", json_string_value(json_object_get(one, "ticket"))));
        json_array_foreach(waits, k, wait) {
            ls_date until = day + (ls_date)json_integer_value(json_object_get(wait, "days"));
            TEST_TEXT(json_string_value(json_object_get(wait, "until")), ls_date_iso(t.a, until));
            TEST_HOLDS(test_joined(t.a, copy), ls_arena_printf(t.a, "(if on %s: %s)", ls_date_words(t.a, day, 2026),
                                                               ls_date_words(t.a, until, 2026)));
        }
        if (++seen == 2) break;
    }
    CU_ASSERT_TRUE(seen > 0);
    json_decref(d);
    end(&t);
}

/* The paper cannot be written, but the log was: what to take back is still told. */
static void full_disk(void) {
    world t = begin();
    good(RUN(&t, "tickets", "--issue"));
    test_file(t.a, t.folder, "f.yaml", test_replace(t.a, test_file_text(t.a, t.fields), "area: 26 ac", "area: 9 ac"));
    test_file(t.a, t.folder, "h.yaml",
              test_replace(t.a, test_file_text(t.a, t.house), "length: 80 ft", "length: 160 ft"));
    size_t back = count(good(RUN(&t, "tickets", NULL)), ", in the cab for ");
    test_run run = RUN(&t, "tickets", "--issue", "-o", "/dev/full");
    TEST_SAME(run.status, LS_SYSTEM);
    TEST_HOLDS(run.err, "they ARE issued all the same");
    CU_ASSERT_TRUE(back > 1);
    TEST_SAME(count(good(RUN(&t, "tickets", NULL)), ", in the cab for "), back);
    TEST_HOLDS(test_joined(t.a, good(RUN(&t, "plan", NULL))), ls_arena_printf(t.a, "%zu to TAKE BACK", back));
    end(&t);
}

/* Tickets of a batch without its end, and a slip that was edited. */
static void mangled(void) {
    world t = begin();
    good(RUN(&t, "tickets", "--issue", "--lot", "North/left"));
    const char *log = log_of(&t), *third = strstr(log, "\n3,");
    test_file(t.a, t.folder, "h.haul.csv", ls_arena_copy_n(t.a, log, (size_t)(third - log) + 1));
    unlink(ls_log_copy_path(t.a, t.log));
    test_run run = RUN(&t, "plan", NULL);
    TEST_HOLDS(run.err, "its last 2 entries do not count: the others that were written with them");
    TEST_HOLDS(test_joined(t.a, good(run)), "Its last 2 entries are of a batch that is cut off");
    unlink(t.log);
    good(RUN(&t, "tickets", "--promise", "--issue"));
    test_file(t.a, t.folder, "h.haul.csv", test_replace(t.a, log_of(&t), ",8,31,", ",9,31,"));
    run = RUN(&t, "plan", NULL);
    TEST_HOLDS(run.err, "record --replaces 1 --tons 0, then tickets --promise --issue.");
    end(&t);
}

/* ---- the farm is told ---- */

static ls_log_entry ticket_entry(world *t, const char *ticket, const char *way) {
    ls_log_entry e = ls_log_no_facts(LS_NOWHERE);
    ls_ticket_read(t->a, ticket, &e.ticket);
    e.kind = LS_LOG_ISSUED;
    e.sure = LS_LOG_LIKELY;
    e.when = (ls_when){ls_date_of(2026, 2, 14), -1};
    e.planned = ls_date_of(2026, 2, 17);
    e.tons = 17200;
    e.words[LS_LOG_FIELD] = way;
    return e;
}

static ls_log_entry hauled_entry(world *t, const char *ticket, int day) {
    ls_log_entry e = ticket_entry(t, ticket, "Larkspur Hay/Upper Meadow");
    e.kind = LS_LOG_HAULED;
    e.when.day = ls_date_of(2026, 2, day);
    return e;
}

static ls_log_entry slip_entry(const char *buyer, long loads) {
    ls_log_entry e = ls_log_no_facts(LS_NOWHERE);
    e.kind = LS_LOG_PROMISED;
    e.when = (ls_when){ls_date_of(2026, 2, 14), -1};
    e.loads = loads;
    e.tons = 17200 * (double)loads;
    e.words[LS_LOG_FIELD] = buyer;
    return e;
}

static void append(world *t, const ls_log_entry *all, size_t n) {
    ls_log_book *book;
    const char *why;
    long number;
    CU_ASSERT_EQUAL_FATAL(ls_log_open(t->a, ls_diag_new(t->a), t->log, &book, &why), LS_LOG_DONE);
    CU_ASSERT_EQUAL(ls_log_append(book, all, n, &number, &why), LS_LOG_DONE);
    ls_log_close(book);
}

static const ls_farm *farm_of(world *t, ls_date before) {
    const char *const files[] = {t->house, t->fields};
    ls_books books = {.arena = t->a, .published = ls_reference_load(t->a), .seed = 1, .draws = 1000};
    CU_ASSERT_TRUE_FATAL(ls_books_read(&books, files, 2));
    CU_ASSERT_TRUE_FATAL(ls_books_log(&books, before));
    return books.farm;
}

/* Old names, names that the files have no more, names with the signs of the log in them. */
static void told(void) {
    world t = begin();
    test_file(t.a, t.folder, "f.yaml",
              test_replace(t.a, test_file_text(t.a, t.fields), "name: Larkspur Hay\n",
                           "name: Lark; Farm\n    formerly: Larkspur Hay\n"));
    ls_log_entry past = slip_entry("Whitcomb Pasture", 3), gone = ticket_entry(&t, "SOUTH-LEFT-01-G", "stack");
    past.when.day = gone.when.day = ls_date_of(2024, 2, 14); /* before the birds came */
    const ls_log_entry all[] = {
        past,
        gone,
        ticket_entry(&t, "NORTH-LEFT-01-Q", "Larkspur Hay/Upper Meadow (8.6 ton, 2.9 ac)"),
        ticket_entry(&t, "NORTH-LEFT-02-O",
                     "Lark; Farm/Upper Meadow (5 ton, 2 ac); Gone (1 ton)/Far; Field (3.6 ton, 1.2 "
                     "ac)"),
        ticket_entry(&t, "NORTH-LEFT-03-M", "stack"),
        hauled_entry(&t, "NORTH-LEFT-01-Q", 16),
        hauled_entry(&t, "NORTH-LEFT-03-M", 18),
        slip_entry("Larkspur Hay", 5),
        slip_entry("Gone", 2),
        slip_entry("Lark; Farm", 7)};
    append(&t, all, sizeof all / sizeof *all);
    const ls_farm *farm = farm_of(&t, LS_NO_DATE);
    TEST_SAME(farm->hauled.n, 2);
    TEST_SAME(farm->issued.n, 1); /* the others went out */
    const ls_issued *is = &farm->issued.at[0];
    TEST_TEXT(is->ticket, "NORTH-LEFT-02-O");
    TEST_SAME(is->number, 2);
    TEST_SAME(is->certainty, LS_LIKELY);
    TEST_TEXT(is->buyer_name, "Lark; Farm");
    TEST_SAME(is->n, 2);
    TEST_TEXT(is->drops[0].name, "Lark; Farm/Upper Meadow");
    TEST_TEXT(is->drops[0].field->name.text, "Upper Meadow");
    TEST_NEAR(is->drops[0].acres / 43560, 2, 1e-9);
    TEST_TEXT(is->drops[1].name, "Gone (1 ton)/Far; Field");
    CU_ASSERT_PTR_NULL(is->drops[1].buyer);
    TEST_NEAR(is->drops[1].tons / 2000, 3.6, 1e-9);
    TEST_SAME(farm->promised.n, 2);
    TEST_SAME(farm->promised.at[0].loads, 7); /* the newest, under another name */
    CU_ASSERT_PTR_EQUAL(farm->promised.at[0].buyer, &farm->buyers.at[0]);
    CU_ASSERT_PTR_NULL(farm->promised.at[1].buyer);
    farm = farm_of(&t, ls_date_of(2026, 2, 18)); /* that day's own load is still to come */
    TEST_SAME(farm->issued.n, 2);
    CU_ASSERT_TRUE(farm->issued.at[1].to_stack && farm->issued.at[1].n == 0);
    end(&t);
}

/* ---- another flock ---- */

/* A house with a new flock, there since that day. */
static void restock(world *t, const char *placed, const char *removed, const char *since) {
    const char *house = test_file_text(t->a, t->house);
    house = test_replace(t->a, house, placed, ls_arena_printf(t->a, "placed: %s", since));
    test_file(t->a, t->folder, "h.yaml", test_replace(t->a, house, removed, "removed: 2026-03-05"));
}

/* What a promise kept mid-way is worth once its house has new birds: loads of the slip's cleanout
 * count, those of the one before do not, and once all litter is newer it is over. */
static void restocked(void) {
    world t = begin();
    ls_log_entry all[] = {hauled_entry(&t, "NORTH-LEFT-01-Q", 12), slip_entry("Larkspur Hay", 4),
                          hauled_entry(&t, "NORTH-LEFT-02-O", 16), hauled_entry(&t, "NORTH-RIGHT-01-2", 16),
                          hauled_entry(&t, "NORTH-LEFT-01-Q", 1)};
    all[4].when.day = ls_date_of(2025, 4, 22); /* that flock was there by then: any day counts */
    append(&t, all, sizeof all / sizeof *all);
    TEST_SAME(farm_of(&t, LS_NO_DATE)->promised.at[0].had, 4);
    restock(&t, "placed: 2025-04-21", "removed: 2026-02-09", "2026-02-20");
    const ls_farm *farm = farm_of(&t, LS_NO_DATE);
    TEST_SAME(farm->hauled.n, 0); /* no litter of the new flock is gone */
    TEST_SAME(farm->promised.n, 1);
    TEST_SAME(farm->promised.at[0].had, 3);
    json_t *plan = document(&t, "plan", NULL, NULL), *kept = json_array_get(json_object_get(plan, "promises"), 0);
    TEST_SAME(json_integer_value(json_object_get(kept, "had")), 3);
    TEST_SAME(json_integer_value(json_object_get(kept, "owed")) + json_integer_value(json_object_get(kept, "short")),
              1);
    json_decref(plan);
    const char *slip = good(RUN(&t, "tickets", "--promise", "--buyer", "Larkspur Hay"));
    TEST_HOLDS(slip, "\nHAD           3 loads, 25.80 tons\n");
    TEST_HOLDS(slip, "\n- NORTH-LEFT-01-Q, Thu, Feb 12: 8.60 tons on Upper Meadow\n");
    restock(&t, "placed: 2025-05-05", "removed: 2026-02-11", "2026-02-20");
    TEST_SAME(farm_of(&t, LS_NO_DATE)->promised.n, 0);
    end(&t);
}

/* The buyer is in the files no more: what he was promised and had, and why no more comes. */
static void removed(void) {
    world t = begin();
    const ls_log_entry all[] = {slip_entry("Larkspur Hay", 5), hauled_entry(&t, "NORTH-LEFT-01-Q", 16)};
    append(&t, all, 2);
    const char *fields = test_file_text(t.a, t.fields);
    test_file(t.a, t.folder, "f.yaml", test_replace(t.a, fields, "name: Larkspur Hay", "name: Another"));
    const char *slip = good(RUN(&t, "tickets", "--promise", "--buyer", "Larkspur Hay"));
    TEST_HOLDS(slip, "\nCOPY, issued Sat, Feb 14\nFOR           Larkspur Hay\n");
    TEST_HOLDS(slip, "\nPROMISED      5 loads, 43 tons in all\nHAD           1 load, 8.60 tons\n");
    TEST_HOLDS(slip, "\nTO COME       nothing\n"
                     "SHORT         4 loads, 34 tons: the farm plans no more loads for you. Call it\n");
    TEST_HOLDS(slip, "\n- NORTH-LEFT-01-Q, Mon, Feb 16: 8.60 tons\n");
    CU_ASSERT_PTR_NULL(strstr(slip, "littershed")); /* how it is settled is for the farm */
    const char *page = test_joined(t.a, good(RUN(&t, "plan", "--full")));
    TEST_HOLDS(page, "4 of 5 promised loads come no more");
    TEST_HOLDS(page, "littershed record FILE... --replaces 1 --tons 0 ends the slip");
    TEST_SAME(count(good(RUN(&t, "tickets", "--promise", "--format", "json")), "\"buyer\": \"Larkspur Hay\""), 1);
    end(&t);
}

/* "Hay" leads "Hay/Sons/East" too, which is no field of his. */
static void names_with_a_slash(void) {
    world t = begin();
    const char *fields = test_file_text(t.a, t.fields);
    fields = test_replace(t.a, fields, "name: Larkspur Hay", "name: Hay");
    test_file(t.a, t.folder, "f.yaml", test_replace(t.a, fields, "name: Osgood Row Crops", "name: Hay/Sons"));
    ls_log_entry gone = hauled_entry(&t, "NORTH-LEFT-01-Q", 16);
    gone.words[LS_LOG_FIELD] = "Hay/Sons/East";
    const ls_log_entry all[] = {slip_entry("Hay", 2), slip_entry("Hay/Sons", 3), gone,
                                ticket_entry(&t, "NORTH-LEFT-02-O", "Hay/Sons/Gone (8.6 ton, 2.9 ac)")};
    append(&t, all, 4);
    const ls_farm *farm = farm_of(&t, LS_NO_DATE);
    TEST_TEXT(farm->issued.at[0].buyer_name, "Hay/Sons");
    CU_ASSERT_PTR_EQUAL(farm->issued.at[0].drops[0].buyer, &farm->buyers.at[1]);
    test_file(t.a, t.folder, "f.yaml", test_file_text(t.a, DEMO_FIELDS)); /* both are removed */
    farm = farm_of(&t, LS_NO_DATE);
    TEST_SAME(farm->promised.at[0].had, 0);
    TEST_SAME(farm->promised.at[1].had, 1);
    TEST_TEXT(farm->issued.at[0].buyer_name, "Hay/Sons");
    end(&t);
}

/* ---- another log ---- */

/* What was handed out comes with a log that is imported, once. */
static void imported(void) {
    world t = begin();
    good(RUN(&t, "tickets", "--issue", "--lot", "North/left"));
    good(RUN(&t, "tickets", "--promise", "--issue"));
    const ls_log *before = read_log(&t);
    const char *other = test_file(t.a, t.folder, "other.csv", log_of(&t));
    unlink(t.log);
    unlink(ls_log_copy_path(t.a, t.log));
    test_run run = RUN(&t, "record", "--import", other, "--sure");
    TEST_HOLDS(good(run), "issued: NORTH-LEFT-01-Q");
    TEST_HOLDS(run.out, "promised: Larkspur Hay");
    const ls_log *after = read_log(&t);
    TEST_SAME(after->entries.n, before->entries.n);
    for (size_t i = 0; i < after->entries.n && i < before->entries.n; i++) {
        const ls_log_entry *is = &after->entries.at[i], *was = &before->entries.at[i];
        TEST_TEXT(ls_log_about(is), ls_log_about(was));
        TEST_SAME(is->of, was->of);
        TEST_SAME(is->loads, was->loads);
        TEST_SAME(is->planned, was->planned);
    }
    const char *bytes = log_of(&t);
    good(RUN(&t, "record", "--import", other, "--sure"));
    TEST_TEXT(log_of(&t), bytes);
    end(&t);
}

/* The only kind of truck is called otherwise: whatever its tickets say, no other can be meant. */
static void truck_renamed(void) {
    world t = begin();
    good(RUN(&t, "tickets", "--issue", "--lot", "North/left"));
    const char *house = test_file_text(t.a, t.house);
    test_file(t.a, t.folder, strrchr(t.house, '/') + 1, test_replace(t.a, house, "name: spreader truck", "name: Mack"));
    TEST_SAME(count(good(RUN(&t, "plan", "--format", "json")), "no longer names"), 0);
    end(&t);
}

/* A scale house tells no field: the load went where its ticket sent it. And once its house is
 * called otherwise, its ticket has gone out all the same. */
static void scale_list(void) {
    world t = begin();
    good(RUN(&t, "tickets", "--issue", "--lot", "North/left"));
    size_t n = read_log(&t)->entries.n;
    const char *way = read_log(&t)->entries.at[0].words[LS_LOG_FIELD];
    const char *list = test_file(t.a, t.folder, "scale.csv",
                                 "Date,Time,Ticket,Net lb\n"
                                 "2026-02-16,08:05,NORTH-LEFT-01-Q,17200\n");
    good(RUN(&t, "record", "--import", list, "--sure"));
    const ls_log_entry *e = &read_log(&t)->entries.at[n];
    CU_ASSERT_EQUAL(strncmp(way, e->words[LS_LOG_FIELD], strlen(e->words[LS_LOG_FIELD])), 0);
    CU_ASSERT_TRUE(strlen(e->words[LS_LOG_FIELD]) > 5);
    const char *house = test_file_text(t.a, t.house);
    test_file(t.a, t.folder, strrchr(t.house, '/') + 1,
              test_replace(t.a, house, "name: North\n", "name: Norden\n    formerly: North\n"));
    ls_ticket renamed;
    char *text = ls_arena_printf(t.a, "NORDEN-LEFT-01-%c", ls_check_character("NORDEN-LEFT-01"));
    TEST_SAME(ls_ticket_read(t.a, text, &renamed), LS_TICKET_OK);
    test_run run = RUN(&t, "record", "--ticket", text, "--tons", "8.6", "--when", "2026-02-16", "--field", "stack");
    TEST_SAME(run.status, LS_MISTAKE);
    TEST_HOLDS(run.err, "is logged already");
    end(&t);
}

/* Loads heavier than was reckoned are weighed: a ticket of a full truck stays one, and whatever the
 * scale says there are acres for it, on part loads too. */
static void heavier(void) {
    static const char part[] = ", PART LOAD", lead[] = "\nTICKET  ";
    world t = begin();
    const char *first = good(RUN(&t, "tickets", "--issue"));
    TEST_SAME(count(first, "\nBy weight "), count(first, "\nSPREAD "));
    TEST_HOLDS(first, "\nTICKET  NORTH-LEFT-08-C  LIKELY, PART LOAD");
    for (int k = 1; k <= 4; k++) {
        const char *number = ls_arena_printf(t.a, "NORTH-LEFT-%02d", k);
        good(RUN(&t, "record", "--ticket", ls_arena_printf(t.a, "%s-%c", number, ls_check_character(number)), "--tons",
                 "9.6", "--weighed", "--when", "2026-02-16T11:00", "--sure"));
    }
    const char *copies = good(RUN(&t, "tickets", NULL));
    TEST_SAME(count(copies, "\nBy weight "), count(copies, "\nSPREAD "));
    TEST_HOLDS(copies, "(full: 9.6 tons)");
    size_t full = 0;
    for (const char *s = copies; (s = strstr(s, lead)) != NULL; s += strlen(lead)) {
        const char *name = ls_arena_copy_n(t.a, s, strcspn(s + strlen(lead), " ") + strlen(lead)),
                   *was = strstr(first, name);
        bool whole = was != NULL && strstr(ls_arena_copy_n(t.a, was, strcspn(was + 1, "\n")), part) == NULL;
        if (whole) CU_ASSERT_PTR_NULL(strstr(ls_arena_copy_n(t.a, s, strcspn(s + 1, "\n")), part));
        full += whole;
    }
    CU_ASSERT_TRUE(full > 15);
    end(&t);
}

TEST_SUITE(issue) = {{"once", once},
                     {"waits go by the days", waits_go_by_the_days},
                     {"one side at a time", by_part},
                     {"no paper", no_paper},
                     {"refused", refused},
                     {"what became of tickets", became},
                     {"another way", another_way},
                     {"an older log", older_log},
                     {"slips", slips},
                     {"promises only grow", promises_only_grow},
                     {"slips move nothing", slips_move_nothing},
                     {"copies", copies},
                     {"waits of copies", waits_of_copies},
                     {"heavier than was reckoned", heavier},
                     {"a full disk", full_disk},
                     {"a mangled log", mangled},
                     {"the farm is told", told},
                     {"restocked", restocked},
                     {"a buyer is removed", removed},
                     {"names with a slash", names_with_a_slash},
                     {"the only truck is renamed", truck_renamed},
                     {"another log", imported},
                     {"a scale's list", scale_list},
                     CU_TEST_INFO_NULL};
