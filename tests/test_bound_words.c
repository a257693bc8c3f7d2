/* Why tickets are recalled, in words, on a farm made for it: one house of 110 ton, trucks of 11,
 * all ten loads handed out, six of them for F at 2 ton/ac (33 ac), the other four for G. */
#include "bound_world.h"
#include "program.h"

#include <string.h>

static const char FARM[] = "houses:\n  - {name: One, length: 440 ft, width: 40 ft,\n"
                           "     measured: {weighed: 110 ton, loose_density: 40 lb/ft3},\n"
                           "     lab: [{date: 2026-01-10, basis: as received, moisture: 30 %, N: 20 lb/ton, NH4N: 5 "
                           "lb/ton, P2O5: 20 lb/ton, K2O: 20 lb/ton}]}\n"
                           "trucks: [{name: T, payload: 11 ton, body: 40 yd3, count: 1}]\n"
                           "crew: {arrives: 2026-02-16}\n"
                           "buyers:\n"
                           "  - {name: A, price: 20 $/ton, fields: [{name: F, area: 33 ac, crop: tall fescue hay, "
                           "nitrogen: "
                           "200 lb/ac, phosphorus: {rating: low}, most: 2 ton/ac, open: 2026-02-01..2026-06-30}]}\n"
                           "  - {name: B, price: 10 $/ton, fields: [{name: G, area: 200 ac, crop: tall fescue hay, "
                           "nitrogen: "
                           "200 lb/ac, phosphorus: {rating: low}, most: 2 ton/ac}]}\n";

typedef struct {
    ls_arena *a;
    const ls_reference *r;
    const char *folder;
    plan_rules was, now;
} world;

static void plan_changed(world *w, const char *change) {
    const char *path = test_file(w->a, w->folder, "farm.yaml", FARM);
    uint64_t state = 1;
    w->was = plan_rules_read(w->a, w->r, path, NULL, "words");
    CU_ASSERT_PTR_NOT_NULL_FATAL(w->was.farm);
    plan_rules_plan(&w->was, w->r);
    w->now = plan_rules_read(w->a, w->r, path, test_file(w->a, w->folder, "change.yaml", change), change);
    CU_ASSERT_PTR_NOT_NULL_FATAL(w->now.farm);
    bound_hand_out(&w->was, &w->now, 0, 1, &state);
    plan_rules_plan(&w->now, w->r);
    CU_ASSERT_PTR_NOT_NULL_FATAL(w->now.plan);
    plan_rules_hold(&w->now);
}

/* So many tickets are recalled after a change, all for one reason. */
static void recalled(const char *change, size_t n, const char *why) {
    world w = {.a = ls_arena_new()};
    w.r = ls_reference_load(w.a);
    w.folder = test_folder(w.a);
    plan_changed(&w, change);
    TEST_SAME(w.was.plan->loads_n, 10);
    TEST_SAME(w.now.plan->recalled.n, n);
    for (size_t i = 0; i < w.now.plan->recalled.n; i++) TEST_HOLDS(w.now.plan->recalled.at[i].why, why);
    test_folder_end(w.folder);
    ls_arena_free(w.a);
}

#define OF_F(keys) "buyers: [{name: A, fields: [{name: F, " keys "}]}]\n"

static void reasons(void) {
    recalled("buyers: [{name: A, remove: yes}]\n", 6, "the file no longer names A");
    recalled("buyers: [{name: A, fields: [{name: F, remove: yes}, {name: H, area: 9 ac, crop: corn "
             "grain, yield: 150 bu/ac}]}]\n",
             6, "the file no longer names F");
    recalled(OF_F("area: 16.6 ac"), 3, "F is full"); /* 33.2 ton: three loads of 11 */
    recalled(OF_F("area: 20 ac"), 3, "F has no room for all of it");
    recalled("buyers: [{name: A, order: {most: 2 loads}}]\n", 4, "A's order is full");
    recalled("buyers: [{name: A, order: {most: 40 ton}}]\n", 3, "A's order has no room for all of it");
    recalled(OF_F("open: 2026-01-01..2026-02-15"), 6, "F is closed");
    recalled(OF_F("most: 1.5 ton/ac"), 6, "1.5 tons/ac is the top rate on F now, the ticket says 2");
    recalled(OF_F("phosphorus: {rating: very high}"), 6,
             "no litter may go on F now: the field's phosphorus is rated very high");
    recalled("trucks: [{name: T, rate: {least: 2.5 ton/ac, most: 5 ton/ac}}]\n", 10,
             "top rate, 2 tons/ac, is below the lowest rate of the spreader");
    recalled("houses: [{name: One, measured: {weighed: 77 ton}}]\n", 3, "One holds less: no load is left for it");
}

/* What only changes prices, raises limits or adds buyers recalls nothing; a truck that takes more
 * fills up what is handed out as far as there is litter. */
static void nothing_to_recall(void) {
    recalled("buyers: [{name: A, price: 1 $/ton}, {name: B, price: 60 $/ton}]\n", 0, NULL);
    recalled(OF_F("most: 4 ton/ac"), 0, NULL);
    recalled("houses: [{name: One, measured: {weighed: 140 ton}}]\n", 0, NULL);
    recalled("buyers: [{name: C, distance: 1 mi, price: 90 $/ton, fields: [{name: K, area: 90 ac, "
             "crop: tall fescue hay, yield: 3 ton/ac, nitrogen: 200 lb/ac}]}]\n",
             0, NULL);
}

/* A lost number goes to the next new load of the lot: told as where the ticket goes now. */
static void numbers_again(void) {
    world w = {.a = ls_arena_new()};
    w.r = ls_reference_load(w.a);
    w.folder = test_folder(w.a);
    plan_changed(&w, "buyers: [{name: A, remove: yes}]\n");
    for (size_t i = 0; i < w.now.plan->recalled.n; i++) {
        const ls_recall *one = &w.now.plan->recalled.at[i];
        CU_ASSERT_PTR_NOT_NULL_FATAL(one->now);
        TEST_TEXT(one->now->ticket, one->issued->ticket);
        TEST_TEXT(one->now->buyer->name.text, "B");
    }
    test_folder_end(w.folder);
    ls_arena_free(w.a);
}

/* Two loads promised to B are firm though A pays more and takes all. */
static void promised_first(void) {
    for (int promised = 0; promised < 2; promised++) {
        world w = {.a = ls_arena_new()};
        w.r = ls_reference_load(w.a);
        w.folder = test_folder(w.a);
        const char *path = test_file(w.a, w.folder, "farm.yaml", FARM);
        w.now =
            plan_rules_read(w.a, w.r, path, test_file(w.a, w.folder, "change.yaml", OF_F("area: 100 ac")), "promised");
        const ls_buyer *b = &w.now.farm->buyers.at[1];
        if (promised)
            *LS_PUSH(w.a, &w.now.farm->promised) =
                (ls_promise_slip){.name = "B", .buyer = b, .loads = 2, .tons = 44000};
        plan_rules_plan(&w.now, w.r);
        CU_ASSERT_PTR_NOT_NULL_FATAL(w.now.plan);
        size_t firm = 0;
        for (size_t i = 0; i < w.now.plan->loads_n; i++)
            firm += w.now.plan->loads[i].buyer == b && w.now.plan->loads[i].certainty == LS_FIRM;
        TEST_SAME(firm, promised ? 2 : 0);
        if (promised) /* and go first */
            CU_ASSERT(w.now.plan->loads[0].buyer == b && w.now.plan->loads[1].buyer == b);
        test_folder_end(w.folder);
        ls_arena_free(w.a);
    }
}

TEST_SUITE(bound_words) = {
    {"why tickets are recalled", reasons},
    {"nothing to recall", nothing_to_recall},
    {"numbers are given again", numbers_again},
    {"promised loads come first", promised_first},
    CU_TEST_INFO_NULL,
};
