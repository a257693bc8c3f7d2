/* The tons of the pages, the haul log and the dossier beside our own books. */
#include "story_world.h"

#include <string.h>

/* What was made less what is hauled is what is left; the loads of the likely case, and what has no
 * field, are all of it. */
void story_check_tons(story *s, json_t *plan) {
    static const char *const points[] = {"low", "mid", "high"};
    json_t *e = story_document(s, "estimate", NULL), *lot, *load;
    json_t *total = json_object_get(json_object_get(e, "total"), "tons");
    double loads = story_number(json_object_get(plan, "unplaced_tons"), "mid");
    size_t i;
    TEST_SAME(json_array_size(json_object_get(e, "lots")), 3);
    json_array_foreach(json_object_get(e, "lots"), i, lot) {
        long lb = story_booked(s, story_word(lot, "lot"), NULL, NULL, false, NULL);
        TEST_SAME(story_pounds(lot, "hauled_tons"), lb);
        for (int k = 0; k < 3; k++) {
            double made = story_number(json_object_get(lot, "made_tons"), points[k]) * STORY_LB;
            double left = story_number(json_object_get(lot, "tons"), points[k]) * STORY_LB;
            TEST_NEAR(made - left - (double)lb, 0, 2); /* six digits are shown */
        }
    }
    json_array_foreach(json_object_get(plan, "loads"), i, load) {
        if (strcmp(story_word(load, "certainty"), "possible") != 0) loads += story_number(load, "tons");
    }
    TEST_NEAR(loads, story_number(total, "mid"), 0.01);
    json_decref(e);
}

static void check_sum(story *s, json_t *sum, const char *lot, const char *day, bool stack) {
    long loads, lb = story_booked(s, lot, NULL, day, stack, &loads);
    TEST_SAME(story_pounds(sum, "tons"), lb);
    TEST_SAME(story_number(sum, "loads"), loads);
}

static long of_all(const story *s) {
    return story_booked(s, NULL, NULL, NULL, false, NULL) + story_booked(s, NULL, NULL, NULL, true, NULL);
}

/* By lot and by day; they cover every pound. */
static void check_sums(story *s, json_t *d, const char *list, const char *name) {
    size_t i;
    json_t *sum;
    long all = 0;
    json_array_foreach(json_object_get(d, list), i, sum) {
        bool stack = json_is_true(json_object_get(sum, "from_stack")), lot = name[0] == 'l';
        check_sum(s, sum, lot ? story_word(sum, name) : NULL, lot ? NULL : story_word(sum, name), stack);
        all += story_pounds(sum, "tons");
    }
    TEST_SAME(all, of_all(s));
}

/* Pounds that lie with a buyer whom the files name no more. */
static long unnamed(const story *s) {
    long lb = 0;
    for (size_t i = 0; s->removed != NULL && i < s->n; i++)
        lb += story_is_his(s->at[i].place, s->removed) ? s->at[i].lb : 0;
    return lb;
}

/* By buyer and field, and into the stack: out of the houses and out of the stack together. */
static void check_places(story *s, json_t *d) {
    size_t i;
    json_t *sum;
    long all = 0;
    json_array_foreach(json_object_get(d, "places"), i, sum) {
        const char *to = story_word(sum, "to"), *place = "stack";
        if (strcmp(to, "field") == 0)
            place = ls_arena_printf(s->a, "%s/%s", story_word(sum, "buyer"), story_word(sum, "field"));
        long lb = story_booked(s, NULL, place, NULL, false, NULL) + story_booked(s, NULL, place, NULL, true, NULL);
        TEST_SAME(story_pounds(sum, "tons"), strcmp(to, "not in the files") == 0 ? unnamed(s) : lb);
        all += story_pounds(sum, "tons");
    }
    TEST_SAME(all, of_all(s));
}

/* Each load that counts: JSON, text and CSV say the same. */
static void check_loads(story *s, json_t *d, const char *page, const char *csv) {
    json_t *entries = json_object_get(d, "entries");
    TEST_SAME(json_array_size(entries), s->entries);
    for (size_t i = 0; i < s->n; i++) {
        const story_gone *g = &s->at[i];
        json_t *e = json_array_get(entries, (size_t)g->entry - 1);
        TEST_TEXT(story_word(e, "ticket"), g->ticket);
        TEST_TEXT(story_word(e, "field"), g->place);
        TEST_SAME(story_pounds(e, "tons"), g->lb);
        CU_ASSERT_TRUE(json_is_null(json_object_get(e, "replaced_by")));
        TEST_HOLDS(csv, ls_arena_printf(s->a, "\r\n%ld,%s,%s,%s,%s", g->entry, g->ticket, g->lot,
                                        g->from_stack ? "stack" : "house", g->day));
        TEST_HOLDS(page, ls_arena_printf(s->a, " %ld %s ", g->entry, g->ticket));
    }
    TEST_SAME(json_array_size(json_object_get(d, "loads")), s->n);
    TEST_SAME(story_count(csv, "\r\n"), s->n + 1); /* and the head */
}

/* The load went where its ticket did not say; the files lack a removed buyer. */
static const char *astray(const story *s, const story_paper *paper) {
    bool hauled = ls_text_same(paper->became, "hauled as"),
         gone = s->removed != NULL && story_is_his(paper->way, s->removed);
    for (size_t i = 0; i < s->n && hauled && !gone; i++)
        if (s->at[i].entry == paper->by && strcmp(s->at[i].place, paper->way) != 0) return ", elsewhere";
    return "";
}

/* As the plan tells of the slip. */
static const char *kept(story *s, json_t *plan, const char *buyer) {
    json_t *row;
    size_t i;
    json_array_foreach(json_object_get(plan, "promises"), i, row) {
        if (strcmp(story_word(row, "buyer"), buyer) == 0)
            return ls_arena_printf(s->a, "stands, had %g of %g load%s, %g to come", story_number(row, "had"),
                                   story_number(row, "promised"), story_number(row, "promised") > 1 ? "s" : "",
                                   story_number(row, "owed"));
    }
    return "a slip of the plan";
}

/* Each ticket and slip that was handed out, and what became of it. */
static void check_papers(story *s, json_t *d, const char *page) {
    json_t *plan = story_document(s, "plan", NULL);
    json_t *issued = json_object_get(d, "issued"), *slips = json_object_get(d, "promised"), *row;
    size_t i, n = 0;
    TEST_SAME(json_array_size(issued), s->papers_n);
    json_array_foreach(issued, i, row) {
        const story_paper *paper = &s->papers[i];
        TEST_SAME(story_number(row, "entry"), paper->entry);
        TEST_TEXT(story_word(row, "ticket"), paper->ticket);
        TEST_TEXT(story_word(row, "to"), paper->way);
        TEST_TEXT(story_word(row, "became"), paper->became == NULL && paper->again > 0
                                                 ? ls_arena_printf(s->a, "again as %ld, TAKE BACK", paper->again)
                                             : paper->became == NULL ? "stands"
                                                                     : ls_arena_printf(s->a, "%s %ld%s", paper->became,
                                                                                       paper->by, astray(s, paper)));
        TEST_HOLDS(page, ls_arena_printf(s->a, " %ld %s ", paper->entry, paper->ticket));
    }
    json_array_foreach(slips, i, row) {
        for (size_t k = 0; k < s->slips_n; k++) {
            const story_slip *slip = &s->slips[k];
            if (story_number(row, "entry") != (double)slip->entry) continue;
            TEST_TEXT(story_word(row, "buyer"), slip->buyer);
            TEST_SAME(story_number(row, "loads"), slip->loads);
            const char *became = story_word(row, "became");
            TEST_HOLDS(became, kept(s, plan, slip->buyer));
            CU_ASSERT_TRUE(ls_text_same(s->removed, slip->buyer) ==
                           (strstr(became, ", buyer no longer in the file") != NULL));
            TEST_HOLDS(page, ls_arena_printf(s->a, " %ld %s %ld ", slip->entry, slip->buyer, slip->loads));
            n++;
        }
    }
    TEST_SAME(n, s->slips_n);
    json_decref(plan);
}

void story_check_log(story *s) {
    json_t *d = story_document(s, "record", "--list");
    const char *page = test_joined(s->a, STORY_RUN(s, "record", "--list").out);
    check_loads(s, d, page, STORY_RUN(s, "record", "--list", "--format", "csv").out);
    check_papers(s, d, page);
    check_sums(s, d, "lots", "lot");
    check_sums(s, d, "days", "day");
    check_places(s, d);
    check_sum(s, json_object_get(d, "out_of_houses"), NULL, NULL, false);
    check_sum(s, json_object_get(d, "out_of_stack"), NULL, NULL, true);
    json_decref(d);
}

/* Every ton the dossier shows is one of ours, load by load. */
void story_check_dossier(story *s) {
    json_t *d = story_document(s, "dossier", NULL), *balance = json_object_get(d, "balance");
    json_t *loads = json_object_get(d, "loads"), *load;
    long stacked = story_booked(s, NULL, "stack", NULL, false, NULL) - story_booked(s, NULL, NULL, NULL, true, NULL);
    long out = story_booked(s, NULL, NULL, NULL, false, NULL);
    TEST_SAME(story_pounds(story_find(balance, "way", "moved"), "tons"), out - stacked - unnamed(s));
    TEST_SAME(story_pounds(story_find(balance, "way", "stacked"), "tons"), stacked);
    TEST_SAME(story_pounds(story_find(balance, "way", "difference"), "tons"), unnamed(s));
    size_t i;
    json_array_foreach(loads, i, load) {
        size_t k = 0;
        while (k < s->n && story_number(load, "entry") != (double)s->at[k].entry) k++;
        CU_ASSERT_FATAL(k < s->n);
        TEST_SAME(story_pounds(load, "tons"), s->at[k].lb);
        const char *place = s->at[k].place;
        bool gone = s->removed != NULL && story_is_his(place, s->removed);
        TEST_TEXT(story_word(load, "to"), gone ? "not known" : strcmp(place, "stack") == 0 ? "the stack" : place);
    }
    TEST_SAME(i, s->n);
    const char *page = test_joined(s->a, STORY_RUN(s, "dossier", FEW).out);
    TEST_HOLDS(page, ls_arena_printf(s->a, "+ moved to others %.2f", (double)(out - stacked - unnamed(s)) / STORY_LB));
    json_decref(d);
}
