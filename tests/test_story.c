/* A week on the demo farm, as a grower, a driver and a buyer live it: each morning the plan,
 * tickets and slips; each day loads; a load to the wrong field, a lost ticket, a buyer who leaves,
 * a new field, a house with less litter than thought. Every weight, ticket and promise is kept here
 * beside the program, and each of its pages must agree: to the pound, and to the ticket. */
#include "story_world.h"

#include "littershed/command.h"
#include "littershed/record.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* ---- a morning: the plan beside our books ---- */

/* "Larkspur Hay, Upper Meadow and Barn Field" of "Larkspur Hay/Upper Meadow; Larkspur Hay/Barn
 * Field". */
static const char *in_words(story *s, const char *way) {
    if (strcmp(way, "stack") == 0) return "the stack";
    char *words = ls_arena_copy(s->a, way), *slash = strchr(words, '/');
    const char *buyer = ls_arena_copy_n(s->a, words, (size_t)(slash - words));
    const char *one = test_replace(s->a, way, ls_arena_printf(s->a, "; %s/", buyer), " and ");
    return test_replace(s->a, one, "/", ", ");
}

static const char *buyer_in(story *s, const char *way) {
    return strchr(way, '/') == NULL ? "the stack" : ls_arena_copy_n(s->a, way, strcspn(way, "/"));
}

/* A buyer with the phone that the file gives, as whom to call; who was removed has the one that it
 * gave. */
static const char *phone_of(story *s, const char *buyer) {
    const char *lead = ls_arena_printf(s->a, "  - name: %s\n", buyer),
               *at = strstr(test_file_text(s->a, s->fields), lead);
    if (at == NULL) at = strstr(test_file_text(s->a, "tests/story/fields.yaml"), lead);
    return at == NULL ? buyer : ls_arena_printf(s->a, "%s, %.8s", buyer, strstr(at, "phone: ") + 7);
}

/* A ticket that goes another way is named with a reason and whom to call. */
static void check_recall(story *s, json_t *recall, const char *was, json_t *now) {
    const char *way = now == NULL ? NULL : in_words(s, story_way(s, now));
    TEST_TEXT(story_word(recall, "from"), in_words(s, was));
    TEST_TEXT(story_word(recall, "to"), way == NULL ? "" : way);
    CU_ASSERT_EQUAL(json_is_null(json_object_get(recall, "to")), way == NULL);
    CU_ASSERT_TRUE(story_word(recall, "why")[0] != '\0');
    if (strcmp(was, "stack") != 0) TEST_TEXT(story_word(recall, "call"), phone_of(s, buyer_in(s, was)));
}

static json_t *recall_of(json_t *recalled, const story_paper *paper) {
    json_t *one;
    size_t i;
    json_array_foreach(recalled, i, one) {
        if (story_number(one, "entry") == (double)paper->entry) return one;
    }
    return NULL;
}

/* Every ticket in a cab whose way changes, or that a newer one took the place of, is recalled, and
 * none else. Returns how many. */
static size_t check_recalls(story *s, json_t *plan, const char *page) {
    json_t *recalled = json_object_get(plan, "recalled"), *loads = story_loads(plan);
    size_t n = 0, out = 0;
    for (size_t i = 0; i < s->papers_n; i++) {
        const story_paper *paper = &s->papers[i];
        json_t *now = story_find(loads, "ticket", paper->ticket), *recall = recall_of(recalled, paper);
        if (paper->became != NULL) continue;
        out++;
        bool same = paper->again == 0 && now != NULL && strcmp(story_way(s, now), paper->way) == 0;
        CU_ASSERT_EQUAL(recall == NULL, same);
        if (same) TEST_SAME(story_number(now, "issued"), paper->entry);
        if (same || recall == NULL) continue;
        n++;
        CU_ASSERT_TRUE(now == NULL || paper->again > 0 || json_is_null(json_object_get(now, "issued")));
        check_recall(s, recall, paper->way, now);
        TEST_HOLDS(page, ls_arena_printf(s->a, " %s ", paper->ticket));
    }
    TEST_SAME(json_array_size(recalled), n);
    if (n > 0)
        TEST_HOLDS(page, ls_arena_printf(s->a, "%zu to TAKE BACK", n));
    else if (out > 0)
        TEST_HOLDS(page, ls_arena_printf(s->a, "TICKETS %zu out: %zu stay", out, out));
    json_decref(loads);
    return n;
}

/* Loads to come to a buyer, up to that certainty. */
static long to_come(json_t *plan, const char *buyer, bool likely) {
    json_t *loads = story_loads(plan), *load;
    size_t i;
    long n = 0;
    json_array_foreach(loads, i, load) {
        const char *sure = story_word(load, "certainty");
        n += strcmp(story_word(load, "buyer"), buyer) == 0 &&
             (strcmp(sure, "firm") == 0 || (likely && strcmp(sure, "likely") == 0));
    }
    json_decref(loads);
    return n;
}

/* What our books make of a slip. */
typedef struct {
    long had, owed, lacks, beyond;
} kept;

static kept kept_of(const story *s, json_t *plan, const story_slip *slip) {
    long all = story_had(s, slip->buyer), had = all < slip->loads ? all : slip->loads;
    long come = to_come(plan, slip->buyer, true), rest = slip->loads - had;
    kept k = {had, come < rest ? come : rest, 0, all - had};
    k.lacks = rest - k.owed;
    return k;
}

static void check_promises(story *s, json_t *plan, const char *page) {
    json_t *rows = json_object_get(plan, "promises");
    TEST_SAME(json_array_size(rows), s->slips_n);
    for (size_t i = 0; i < s->slips_n; i++) {
        const story_slip *slip = &s->slips[i];
        json_t *row = story_find(rows, "buyer", slip->buyer);
        kept k = kept_of(s, plan, slip);
        TEST_SAME(story_number(row, "promised"), slip->loads);
        TEST_SAME(story_number(row, "had"), k.had);
        TEST_SAME(story_number(row, "owed"), k.owed);
        TEST_SAME(story_number(row, "short"), k.lacks);
        TEST_SAME(story_number(row, "beyond"), k.beyond);
        TEST_HOLDS(page, ls_arena_printf(s->a, "%s %ld %ld %ld %ld %ld ", slip->buyer, slip->loads, k.had, k.owed,
                                         k.lacks, k.beyond));
        if (k.lacks > 0)
            TEST_HOLDS(page, ls_arena_printf(s->a, "Call %s: %ld of %ld promised loads", phone_of(s, slip->buyer),
                                             k.lacks, slip->loads));
    }
}

/* Is a load left whose ticket is out? */
static bool keeps(json_t *plan) {
    json_t *loads = story_loads(plan), *load;
    size_t i, n = 0;
    json_array_foreach(loads, i, load) { n += !json_is_null(json_object_get(load, "issued")); }
    json_decref(loads);
    return n > 0;
}

/* The plan of a morning, all its pages read; the caller gives it back. */
static json_t *morning(story *s, size_t *recalls) {
    json_t *plan = story_document(s, "plan", NULL);
    test_run run = STORY_RUN(s, "plan", FEW, "--full");
    test_fits(run.out);
    const char *page = test_joined(s->a, run.out);
    story_check_tons(s, plan);
    *recalls = check_recalls(s, plan, page);
    check_promises(s, plan, page);
    if (s->removed != NULL) TEST_HOLDS(page, "the farm files do not name the field");
    CU_ASSERT_EQUAL(strstr(page, "tickets that are out keep their fields") != NULL, keeps(plan));
    return plan;
}

/* ---- handing out ---- */

static void hand_out(story *s, json_t *load) {
    CU_ASSERT_FATAL(s->papers_n < STORY_MOST);
    story_paper *old = story_paper_of(s, story_word(load, "ticket")), *paper = &s->papers[s->papers_n++];
    *paper = (story_paper){.ticket = ls_arena_copy(s->a, story_word(load, "ticket")),
                           .way = ls_arena_copy(s->a, story_way(s, load)),
                           .entry = ++s->entries};
    if (old != NULL) old->again = paper->entry;
}

/* The first page names each ticket to take back; then each new ticket is printed, none else, in the
 * order in which they are written down. */
static size_t issue_tickets(story *s, json_t *plan) {
    test_run run = PROGRAM(s->a, "tickets", s->house, s->fields, FEW, "--issue");
    TEST_SAME(run.status, LS_DONE);
    json_t *loads = story_loads(plan), *load, *recall;
    const char *page = test_joined(s->a, run.out);
    size_t i, n = 0, all = 0;
    json_array_foreach(json_object_get(plan, "recalled"), i, recall) {
        story_paper *paper = NULL;
        for (size_t k = 0; k < s->papers_n; k++)
            if (recall_of(json_object_get(plan, "recalled"), &s->papers[k]) == recall) paper = &s->papers[k];
        CU_ASSERT_PTR_NOT_NULL_FATAL(paper);
        const char *to = story_word(recall, "to"), *whom = story_word(recall, "call");
        paper->why = ls_arena_copy(s->a, story_word(recall, "why"));
        TEST_HOLDS(page,
                   ls_arena_printf(s->a, "%s, in the cab for %s (%.2g tons, %s", paper->ticket, buyer_in(s, paper->way),
                                   story_number(recall, "tons"), story_word(recall, "certainty")));
        TEST_HOLDS(page, ls_arena_printf(s->a, "): %s%s, because %s.%s%s", to[0] == '\0' ? "not planned now" : "now ",
                                         to, story_word(recall, "why"), whom[0] == '\0' ? "" : " Call ", whom));
    }
    TEST_SAME(story_count(run.out, ", in the cab for "), i);
    for (const char *at = run.out; (at = strstr(at, "TICKET  ")) != NULL; n++) {
        at += strlen("TICKET  ");
        load = story_find(loads, "ticket", ls_arena_copy_n(s->a, at, strcspn(at, " ")));
        CU_ASSERT_TRUE_FATAL(load != NULL && json_is_null(json_object_get(load, "issued")));
        hand_out(s, load);
    }
    json_array_foreach(loads, i, load) { all += json_is_null(json_object_get(load, "issued")); }
    TEST_SAME(n, all);
    TEST_SAME(story_count(run.out, "\nISSUED "), n);
    json_decref(loads);
    return n;
}

/* A slip says the loads he had and the firm ones to come, and never fewer than one before. */
static void issue_slips(story *s, json_t *plan) {
    test_run run = PROGRAM(s->a, "tickets", s->house, s->fields, FEW, "--promise", "--issue");
    TEST_SAME(run.status, LS_DONE);
    json_t *one;
    size_t i, k, n = 0;
    json_array_foreach(json_object_get(plan, "by_buyer"), i, one) {
        const char *buyer = story_word(one, "buyer");
        long firm = to_come(plan, buyer, false), says = story_had(s, buyer) + firm;
        for (k = 0; k < s->slips_n && strcmp(s->slips[k].buyer, buyer) != 0;) k++;
        if (says <= (k < s->slips_n ? s->slips[k].loads : story_had(s, buyer))) continue;
        s->slips[k] = (story_slip){ls_arena_copy(s->a, buyer), says, ++s->entries};
        s->slips_n += k == s->slips_n;
        n++;
        TEST_HOLDS(run.out, ls_arena_printf(s->a, "FOR           %s,", buyer));
    }
    TEST_SAME(story_count(run.out, "\nISSUED "), n);
}

/* The number behind a head of a slip; 0: "nothing", or no such head. */
static long behind(story *s, const char *slip, const char *head) {
    const char *at = strstr(slip, ls_arena_printf(s->a, "\n%-14s", head));
    return at == NULL ? 0 : strtol(at + 15, NULL, 10);
}

/* From the slip alone: what was I promised, what had I, what is owed? */
static void read_slips(story *s, json_t *plan) {
    test_run run = STORY_RUN(s, "tickets", FEW, "--promise");
    test_fits(test_replace(s->a, run.out, "\f", ""));
    for (size_t i = 0; i < s->slips_n; i++) {
        const story_slip *own = &s->slips[i];
        kept k = kept_of(s, plan, own);
        bool removed = ls_text_same(s->removed, own->buyer); /* of one the log alone tells */
        const char *at = strstr(run.out, ls_arena_printf(s->a, "FOR           %s%s", own->buyer, removed ? "\n" : ","));
        CU_ASSERT_PTR_NOT_NULL_FATAL(at);
        const char *end = strstr(at, "PROMISE SLIP  ");
        const char *slip = end == NULL ? at : ls_arena_copy_n(s->a, at, (size_t)(end - at));
        TEST_SAME(behind(s, slip, "PROMISED"), own->loads);
        TEST_SAME(behind(s, slip, "HAD"), k.had + k.beyond);
        TEST_SAME(behind(s, slip, "SHORT"), k.lacks);
        if (k.had + k.beyond > 0) TEST_SAME(behind(s, slip, "TO COME"), k.owed);
        for (size_t g = 0; g < s->n; g++)
            if (story_is_his(s->at[g].place, own->buyer))
                TEST_HOLDS(slip, ls_arena_printf(s->a, "\n- %s, ", s->at[g].ticket));
    }
}

/* A morning's papers; a second time there is nothing new, and nothing is written. */
static json_t *hand_out_all(story *s, size_t recalls, size_t tickets) {
    size_t n;
    json_t *plan = morning(s, &n);
    TEST_SAME(n, recalls);
    TEST_SAME(issue_tickets(s, plan), tickets);
    issue_slips(s, plan);
    const char *log = test_file_text(s->a, s->log);
    TEST_SAME(story_count(log, "\n") - 1, s->entries);
    test_run run = PROGRAM(s->a, "tickets", s->house, s->fields, FEW, "--issue");
    TEST_HOLDS(run.err, "nothing new to issue");
    run = PROGRAM(s->a, "tickets", s->house, s->fields, FEW, "--promise", "--issue");
    TEST_HOLDS(run.err, "nothing new to issue");
    TEST_TEXT(test_file_text(s->a, s->log), log);
    read_slips(s, plan);
    return plan;
}

/* ---- the days ---- */

static const char *const strip = "Osgood Row Crops/Wheat Strip";

/* A load as the plan has it, so many pounds lighter; one for two fields all on the first of them.
 */
static void haul(story *s, json_t *load, const char *when, long less, bool clears, const char *told) {
    const char *way = story_way(s, load), *two = strchr(way, ';');
    if (told == NULL && two != NULL) told = ls_arena_copy_n(s->a, way, (size_t)(two - way));
    story_haul(s, (story_load){.ticket = story_word(load, "ticket"),
                               .lot = story_word(load, "lot"),
                               .when = when,
                               .lb = lround(story_number(load, "tons") * 100) * 20 - less,
                               .cleared = clears ? "all" : NULL,
                               .told = told,
                               .from_stack = json_object_get(load, "drops") == NULL});
}

static bool is_counted(json_t *load) { return strcmp(story_word(load, "certainty"), "possible") != 0; }

/* Is it the last of its lot that is counted? */
static bool is_last(json_t *loads, size_t i) {
    json_t *load = json_array_get(loads, i);
    for (size_t k = i + 1; k < json_array_size(loads); k++)
        if (strcmp(story_word(json_array_get(loads, k), "lot"), story_word(load, "lot")) == 0 &&
            is_counted(json_array_get(loads, k)))
            return false;
    return true;
}

/* So many loads of a day as their tickets say, lighter than planned; the last of a lot clears it.
 * The third may be taken to the wrong field. */
static size_t haul_day(story *s, json_t *plan, const char *day, size_t most, long less, const char *third) {
    json_t *loads = json_object_get(plan, "loads"), *load;
    size_t i, n = 0;
    json_array_foreach(loads, i, load) {
        if (n == most || strcmp(story_word(load, "day"), day) != 0 || !is_counted(load)) continue;
        n++;
        haul(s, load, ls_arena_printf(s->a, "%sT%02zu:10", day, 6 + n), less * (long)n,
             less > 0 && (is_last(loads, i) || n == most), n == 3 ? third : NULL);
    }
    return n;
}

/* Hauled to the pound as planned: the next morning no ticket changes (hand_out_all sees to it). The
 * driver has lost one: a copy is printed, which is no other ticket. */
static void lost_ticket(story *s) {
    const char *log = test_file_text(s->a, s->log);
    const story_paper *paper = &s->papers[12];
    CU_ASSERT_PTR_NULL(paper->became);
    test_run run = STORY_RUN(s, "tickets", FEW, "--ticket", paper->ticket);
    TEST_SAME(story_count(run.out, "TICKET  "), 1);
    TEST_HOLDS(run.out, ls_arena_printf(s->a, "TICKET  %s ", paper->ticket));
    TEST_SAME(story_count(run.out, "\nCOPY, issued "), 1);
    TEST_TEXT(test_file_text(s->a, s->log), log);
}

/* A load nobody was sure of goes into the stack, and its side is empty. */
static void into_the_stack(story *s, json_t *plan) {
    json_t *load;
    size_t i;
    json_array_foreach(json_object_get(plan, "loads"), i, load) {
        if (strcmp(story_way(s, load), "stack") == 0) {
            haul(s, load, "2026-02-17T06:30", 0, true, NULL);
            return;
        }
    }
    CU_FAIL("no load for the stack");
}

/* The wrong field: who had the load, and whose ticket it was, are both told. */
static void check_astray(story *s) {
    json_t *plan = story_document(s, "plan", NULL), *rows = json_object_get(plan, "promises");
    const char *ticket = NULL, *page = STORY_RUN(s, "tickets", FEW, "--promise").out;
    for (size_t i = 0; i < s->n; i++)
        if (strcmp(s->at[i].place, strip) == 0) ticket = s->at[i].ticket;
    CU_ASSERT_PTR_NOT_NULL_FATAL(ticket);
    json_t *his = story_find(rows, "buyer", "Osgood Row Crops"), *hers = story_find(rows, "buyer", "Larkspur Hay");
    TEST_SAME(json_array_size(json_object_get(his, "astray")), 1);
    TEST_TEXT(story_word(json_array_get(json_object_get(his, "astray"), 0), "ticket"), ticket);
    TEST_SAME(json_array_size(json_object_get(hers, "lost")), 1);
    TEST_TEXT(story_word(json_array_get(json_object_get(hers, "lost"), 0), "ticket"), ticket);
    TEST_HOLDS(page, ls_arena_printf(s->a, "- %s, Tue, Feb 17: not here", ticket));
    json_decref(plan);
}

/* A weight was misread by 540 lb. */
static void correct(story *s, size_t at) {
    story_gone *g = &s->at[at];
    long was = g->entry;
    g->lb -= 540;
    const char *tons = ls_number_text(s->a, (double)g->lb / STORY_LB, 6);
    test_run run = STORY_RUN(s, "record", "--replaces", ls_arena_printf(s->a, "%ld", was), "--tons", tons, "--weighed");
    for (size_t i = 0; i < s->papers_n; i++)
        if (s->papers[i].by == was) s->papers[i].by = s->entries + 1;
    g->entry = ++s->entries;
    TEST_HOLDS(run.out, ls_arena_printf(s->a, "entry %ld: in place of entry %ld, ticket %s of %s", g->entry, was,
                                        g->ticket, g->lot));
}

/* A buyer leaves, and another has one field more. */
static void another_farm(story *s) {
    const char *was = test_file_text(s->a, s->fields), *leaves = strstr(was, "  - name: Yarrow");
    const char *rest = ls_arena_copy_n(s->a, was, (size_t)(leaves - was));
    test_file(s->a, s->folder, "fields.yaml",
              test_replace(s->a, rest, "  - name: Whitcomb",
                           "      - name: Orchard Rise\n        area: 20 ac\n"
                           "        crop: wheat grain\n        yield: 60 bu/ac\n"
                           "        nitrogen: 90 lb/ac\n        phosphorus: {rating: low}\n"
                           "        most: 2 ton/ac\n        incorporated: never\n"
                           "        weather: cool wet\n        open: 2026-02-16..2026-03-20\n"
                           "  - name: Whitcomb"));
    s->removed = "Yarrow Seed";
}

/* Tickets are back that no load is planned for, or that newer ones took the place of: each is
 * recalled until its issue is struck. */
static void take_back(story *s) {
    json_t *plan = story_document(s, "plan", NULL), *recalled = json_object_get(plan, "recalled");
    for (size_t i = 0; i < s->papers_n; i++) {
        story_paper *paper = &s->papers[i];
        json_t *recall = recall_of(recalled, paper);
        if (recall == NULL) continue;
        CU_ASSERT_EQUAL(json_is_null(json_object_get(recall, "to")), paper->again == 0);
        if (paper->again > 0) /* the newer one tells why it was recalled */
            TEST_HOLDS(story_word(recall, "why"), ls_arena_printf(s->a, "%s; a newer one is out since ", paper->why));
        test_run run = STORY_RUN(s, "record", "--ticket", paper->ticket, "--replaces",
                                 ls_arena_printf(s->a, "%ld", paper->entry), "--tons", "0");
        TEST_HOLDS(run.out, ls_arena_printf(s->a, "takes back entry %ld, the ticket %s", paper->entry, paper->ticket));
        paper->became = "back by";
        paper->by = ++s->entries;
    }
    json_decref(plan);
}

/* What lies in the stack goes out once its field opens; then there is nothing left to plan. */
static void out_of_stack(story *s, json_t *plan) {
    json_t *loads = story_loads(plan), *load;
    size_t i, recalls;
    TEST_SAME(json_array_size(json_object_get(plan, "loads")), 0);
    json_array_foreach(loads, i, load) {
        haul(s, load, ls_arena_printf(s->a, "%sT09:10", story_word(load, "from")), 0, false, NULL);
    }
    TEST_SAME(story_booked(s, NULL, "stack", NULL, false, NULL), story_booked(s, NULL, NULL, NULL, true, NULL));
    json_t *end = morning(s, &recalls), *none = story_loads(end);
    TEST_SAME(recalls, 0);
    TEST_SAME(json_array_size(none), 0);
    json_decref(none);
    json_decref(end);
    json_decref(loads);
}

static void a_week(void) {
    story s = story_begin();
    json_t *monday = hand_out_all(&s, 0, 40);
    TEST_SAME(haul_day(&s, monday, "2026-02-16", STORY_MOST, 0, NULL), 9);
    json_t *tuesday = hand_out_all(&s, 0, 0);
    lost_ticket(&s);
    into_the_stack(&s, tuesday);
    TEST_SAME(haul_day(&s, tuesday, "2026-02-17", STORY_MOST, 20, strip), 9);
    check_astray(&s);
    correct(&s, 10);
    another_farm(&s);
    json_t *wednesday = hand_out_all(&s, 8, 5);
    take_back(&s);
    story_check_log(&s);
    TEST_SAME(haul_day(&s, wednesday, "2026-02-18", STORY_MOST, 40, NULL), 8);
    json_t *thursday = hand_out_all(&s, 0, 0);
    TEST_SAME(haul_day(&s, thursday, "2026-02-19", 4, 40, NULL), 4); /* a fifth less than planned */
    json_t *friday = hand_out_all(&s, 5, 0);
    take_back(&s);
    story_check_log(&s);
    story_check_dossier(&s);
    out_of_stack(&s, friday);
    story_check_log(&s);
    story_check_dossier(&s);
    json_t *const mornings[] = {monday, tuesday, wednesday, thursday, friday};
    for (size_t i = 0; i < 5; i++) json_decref(mornings[i]);
    story_end(&s);
}

TEST_SUITE(story) = {{"a week, to the pound and to the ticket", a_week}, CU_TEST_INFO_NULL};
