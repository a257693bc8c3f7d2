/* What stands on tickets and promise slips of a small farm, which tickets are printed, and when
 * none are. */
#include "program.h"

#include "littershed/command.h"

#include <string.h>

/* 105 ton off a scale in loads of 11: nine full ones that are sure and a last one of 6 ton. */
#define HOUSE                                                                                                          \
    "farm: {name: Test Flocks, place: Nowhere, permit: P-7, next_flock: 2026-05-01}\n"                                 \
    "houses:\n  - {name: One, length: 440 ft, width: 40 ft,\n"                                                         \
    "     measured: {weighed: 105 ton, loose_density: 40 lb/ft3},\n"                                                   \
    "     lab: [{date: 2026-01-10, by: Lab of X, basis: as received, moisture: 30 %, N: 20 "                           \
    "lb/ton, "                                                                                                         \
    "NH4N: 5 lb/ton, P2O5: 22 lb/ton, K2O: 24 lb/ton}]}\n"                                                             \
    "trucks: [{name: spreader, count: 2, payload: 11 ton, swath: 33 ft}]\n"                                            \
    "crew: {arrives: 2026-02-16, hauler: H and Sons, loader: {bucket: 2 yd3, fill: 95 %, "                             \
    "load_and_dump: 30 s, travel: 5 mph}}\n"
#define GROWS "yield: 3 ton/ac, nitrogen: 200 lb/ac, phosphorus: {rating: low}, most: 2 ton/ac"
#define BUYER                                                                                                          \
    "buyers:\n  - name: Ann\n    address: 1 Road\n    distance: 3 mi\n    price: 20 $/ton\n    "                       \
    "fields:\n"
#define HAY                                                                                                            \
    "      - {name: Flat, area: 100 ac, length: 1210 ft, crop: tall fescue hay, " GROWS                                \
    ", directions: over the bridge, setbacks: [{from: creek, edge: 400 ft, width: 50 ft, rule: "                       \
    "Plan 9}, {from: well, radius: 100 ft, rule: State}]}\n"
#define CORN                                                                                                           \
    "      - {name: Rows, area: 100 ac, crop: corn grain, yield: 150 bu/ac, nitrogen: 200 lb/ac, "                     \
    "phosphorus: {rating: low}, most: 2 ton/ac}\n"

/* The farm of such a text in a folder of its own, and what tickets writes of it. */
typedef struct {
    ls_arena *arena;
    const char *folder, *path;
} small_farm;

static small_farm farm_of(const char *text) {
    small_farm f = {.arena = ls_arena_new()};
    f.folder = test_folder(f.arena);
    f.path = test_file(f.arena, f.folder, "f.yaml", text);
    return f;
}

static void farm_end(small_farm *f) {
    test_folder_end(f->folder);
    ls_arena_free(f->arena);
}

#define TICKETS(f, ...) PROGRAM((f).arena, "tickets", (f).path, __VA_ARGS__)

/* "ONE-01-K": the number with its check character. */
static const char *number(const small_farm *f, const char *part) {
    return ls_arena_printf(f->arena, "ONE-%s-%c", part, ls_check_character(ls_arena_printf(f->arena, "ONE-%s", part)));
}

static const char *ticket(const small_farm *f, const char *part) {
    test_run run = TICKETS(*f, "--ticket", number(f, part));
    TEST_SAME(run.status, LS_DONE);
    TEST_TEXT(run.err, "");
    return run.out;
}

static void holds_all(const char *text, const char *const *words) {
    for (; *words != NULL; words++) TEST_HOLDS(text, *words);
}

static size_t count(const char *text, const char *part) {
    size_t n = 0;
    for (; (text = strstr(text, part)) != NULL; text += strlen(part)) n++;
    return n;
}

/* ---- tickets ---- */

/* By hand: 11 ton at 2 ton/ac are 5.5 ac, x 43,560 / 33 ft = 7,260 ft, six times 1,210 ft; 2 x 144
 * / 21.78 = 13.2 lb; 2 yd3 x 27 x 95 % x 40 lb/ft3 = 1.03 ton, of which 10.7 make the load; 2 x
 * (20, 22, 24) lb/ton of the laboratory. 16 February + 21 days (NSW: cattle off littered pasture,
 * botulism) = 9 March. */
static void a_firm_ticket(void) {
    small_farm f = farm_of(HOUSE BUYER HAY);
    const char *t = ticket(&f, "01");
    static const char *const words[] = {
        "RUN           7,260 ft at a swath of 33 ft: 6 passes of 1,210 ft\n",
        "  FIRM ",
        "Mon, Feb 16, load 1 of ",
        "Test Flocks, Nowhere. Permit: P-7",
        "Litter of     One: N 20, P2O5 22, K2O 24 lb/ton, by the report of Lab of X,",
        "Hauler        H and Sons, spreader no. 1 of 2",
        "Loader        11 buckets of 2 yd3, about 1 ton each",
        "Directions    over the bridge",
        "13 lb net on 12 ft x 12 ft; tons/ac = net lb x 21.78 / ft2",
        "creek: 50 ft along 400 ft of edge (rule: Plan 9)",
        "well: 100 ft all around (rule: State)",
        "Cattle        off for 21 days after spreading (if on Mon, Feb 16: Mon, Mar 9):\n",
        "Supplies      N 40, P2O5 44, K2O 48 lb/ac",
        "Cover the load",
        "power lines",
        "ammonia",
        "respirator",
        "sheep",
        "Scale ",
        "Weather ",
        "received by",
        "The local code and the nutrient management plan decide",
        NULL};
    holds_all(t, words);
    /* first what the driver looks for */
    static const char first[] = "TO            Ann, 1 Road (3 mi one way)\nFIELD         Flat\n"
                                "SPREAD        11 tons on 5.5 ac at 2 tons/ac\nRUN ";
    TEST_TEXT(ls_arena_copy_n(f.arena, t, strlen(first)), first);
    CU_ASSERT_PTR_NULL(strstr(t, "Load "));
    CU_ASSERT_PTR_NULL(strstr(t, "STANDBY"));
    CU_ASSERT_PTR_NULL(strstr(t, "PART LOAD"));
    CU_ASSERT_PTR_NULL(strstr(t, "Organic")); /* hay */
    farm_end(&f);
}

/* What is left of 105 ton after nine loads of 11. */
static void a_part_load(void) {
    small_farm f = farm_of(HOUSE BUYER HAY);
    const char *t = ticket(&f, "10");
    TEST_HOLDS(t, "  LIKELY, PART LOAD ");
    TEST_HOLDS(t, "Load          6 tons, a PART LOAD (full: 11 tons)");
    TEST_HOLDS(t, ls_arena_printf(f.arena, "STANDBY. Haul it only if there is enough litter, and after %s.",
                                  number(&f, "09")));
    TEST_HOLDS(t, "SPREAD        6 tons on 3 ac at 2 tons/ac");
    farm_end(&f);
}

/* 7 CFR 205.203(c)(1): 90 and 120 days; 16 February + 90 = 17 May, + 120 = 16 June. */
static void food_crops(void) {
    small_farm f = farm_of(HOUSE BUYER CORN);
    const char *t = ticket(&f, "01");
    TEST_HOLDS(test_joined(f.arena, t),
               "no food harvest for 90 days after spreading (if on Mon, Feb 16: Sun, May 17), 120 days (if on Mon, Feb "
               "16: Tue, Jun 16) if the part eaten touches soil");
    TEST_HOLDS(t, "205.203(c)(1)");
    TEST_HOLDS(t, "not in the farm file. Ask");
    TEST_HOLDS(t, "none given. Look for wells");
    CU_ASSERT_PTR_NULL(strstr(t, "Cattle")); /* nor sheep, nor feed: nobody grazes corn */
    farm_end(&f);
}

/* 16 ton fill 8 ac of Flat, and 94 ton of 110 are for 47 ac of Rows: of the ten loads one has 5 ton
 * on Flat and 6 on Rows, which are 2.5 and 3 ac. */
static void a_load_with_two_drops(void) {
    ls_arena *a = ls_arena_new();
    const char *text = test_replace(a, HOUSE BUYER HAY CORN, "105 ton", "110 ton");
    text = test_replace(a, text, "name: Flat, area: 100 ac", "name: Flat, area: 8 ac");
    text = test_replace(a, text, "name: Rows, area: 100 ac", "name: Rows, area: 47 ac");
    text = test_replace(a, text,
                        ", setbacks: [{from: creek, edge: 400 ft, width: 50 ft, rule: Plan 9}, "
                        "{from: well, radius: 100 ft, rule: State}]",
                        "");
    small_farm f = farm_of(text);
    test_run run = TICKETS(f, "--format", "text");
    TEST_SAME(run.status, LS_DONE);
    TEST_SAME(count(run.out, "FIELD 1 of 2  Flat\n"), 1);
    TEST_SAME(count(run.out, "FIELD 2 of 2  Rows\n"), 1);
    TEST_HOLDS(run.out, "\n\nTHE LOAD\nLitter of ");
    TEST_HOLDS(run.out, "\nLoad          11 tons\n");
    TEST_HOLDS(run.out, "SPREAD        5 tons on 2.5 ac at 2 tons/ac");
    TEST_HOLDS(run.out, "SPREAD        6 tons on 3 ac at 2 tons/ac");
    test_run html = TICKETS(f, "--format", "html");
    TEST_HOLDS(html.out, "<b>SPREAD</b> <span>5 tons on 2.5 ac at 2 tons/ac</span>");
    farm_end(&f);
    ls_arena_free(a);
}

/* The field opens in April: everything waits in the stack. */
static void tickets_of_the_stack(void) {
    ls_arena *a = ls_arena_new();
    const char *text =
        test_replace(a,
                     HOUSE BUYER HAY "stack: {roofed: yes, length: 100 ft, width: 50 ft, height: 6 ft, kept_until: "
                                     "2026-09-30}\n",
                     "directions:", "open: 2026-04-01..2026-08-31, directions:");
    small_farm f = farm_of(text);
    const char *in = ticket(&f, "01");
    static const char *const in_words[] = {"TO STACK      11 tons. Keep houses", "Kept until    Wed, Sep 30",
                                           "smoking stack", NULL};
    holds_all(in, in_words);
    CU_ASSERT_PTR_NULL(strstr(in, "Buyer"));
    CU_ASSERT_PTR_NULL(strstr(in, "Cover the load"));
    CU_ASSERT_PTR_NULL(strstr(in, "Tarp"));
    const char *out = ticket(&f, "S01");
    static const char *const out_words[] = {"TO            Ann, 1 Road", "out of the stack, not before Wed, Apr 1",
                                            "off for 21 days after spreading", "smoking stack", NULL};
    holds_all(out, out_words);
    CU_ASSERT_PTR_NULL(strstr(out, "niosh-nh3"));
    farm_end(&f);
    ls_arena_free(a);
}

static void tickets_as_json(void) {
    small_farm f = farm_of(HOUSE BUYER HAY);
    test_run run = TICKETS(f, "--format", "json", "--ticket", number(&f, "01"));
    TEST_SAME(run.status, LS_DONE);
    static const char *const words[] = {"\"certainty\": \"firm\"",
                                        "\"buckets\": 11",
                                        "\"run_ft\": 7260.0",
                                        "\"passes\": 6.0",
                                        "\"tarp_net_lb\": 13.2231",
                                        "\"P2O5\": 44.0",
                                        "\"radius_ft\": 100.0",
                                        "\"until\": \"2026-03-09\"",
                                        "\"id\": \"covered_load\"",
                                        "\"published\": false",
                                        NULL};
    holds_all(run.out, words);
    farm_end(&f);
}

/* Figures of tickets are explained like all others. */
static void tickets_explained(void) {
    small_farm f = farm_of(HOUSE BUYER HAY);
    const char *key = ls_arena_printf(f.arena, "ticket.%s.1.run", number(&f, "01"));
    test_run run = PROGRAM(f.arena, "explain", f.path, key);
    TEST_SAME(run.status, LS_DONE);
    TEST_HOLDS(run.out, "7,260 ft");
    TEST_HOLDS(run.out, "width the truck spreads");
    run = PROGRAM(f.arena, "explain", f.path, "promise-to.ann.firm-price");
    TEST_SAME(run.status, LS_DONE);
    farm_end(&f);
}

/* ---- choosing ---- */

static size_t tickets_in(test_run run) {
    TEST_SAME(run.status, LS_DONE);
    return count(run.out, "\nTICKET  ");
}

static void choosing(void) {
    ls_arena *a = ls_arena_new();
    small_farm f = farm_of(test_replace(a, HOUSE BUYER HAY, "arrives:", "hours: 3 h/day, arrives:"));
    TEST_SAME(tickets_in(TICKETS(f, "--format", "text")), 10);
    TEST_SAME(tickets_in(TICKETS(f, "--lot", "One")), 10);
    TEST_SAME(tickets_in(TICKETS(f, "--lot", "ONE")), 10);
    TEST_SAME(tickets_in(TICKETS(f, "--buyer", "Ann")), 10);
    size_t first = tickets_in(TICKETS(f, "--day", "2026-02-16"));
    CU_ASSERT(first > 0 && first < 10);
    for (int day = 17; first < 10 && day < 25; day++)
        first += count(TICKETS(f, "--day", ls_arena_printf(a, "2026-02-%d", day)).out, "\nTICKET  ");
    TEST_SAME(first, 10);
    const char *small = number(&f, "03");
    char *letters = ls_arena_copy(f.arena, small);
    for (char *c = letters; *c != '\0'; c++) *c = *c >= 'A' && *c <= 'Z' ? (char)(*c - 'A' + 'a') : *c;
    test_run run = TICKETS(f, "--ticket", letters);
    TEST_SAME(tickets_in(run), 1);
    TEST_HOLDS(run.out, ls_arena_printf(f.arena, "TICKET  %s ", small));
    farm_end(&f);
    ls_arena_free(a);
}

/* A run that must end so, with nothing on out and these words on err. */
#define REFUSED(f, code, words, ...)                                                                                   \
    do {                                                                                                               \
        test_run refused = TICKETS(f, __VA_ARGS__);                                                                    \
        TEST_SAME(refused.status, code);                                                                               \
        TEST_TEXT(refused.out, "");                                                                                    \
        TEST_HOLDS(refused.err, words);                                                                                \
    } while (0)

static void choosing_wrongly(void) {
    small_farm f = farm_of(HOUSE BUYER HAY);
    REFUSED(f, LS_MISTAKE, "did you mean One?", "--lot", "Onee");
    REFUSED(f, LS_MISTAKE, "there is no buyer \"Bob\"; for example Ann", "--buyer", "Bob");
    REFUSED(f, LS_USAGE, "no date", "--day", "16 Feb");
    REFUSED(f, LS_MISTAKE, "no load of the plan fits", "--day", "2026-03-19");
    REFUSED(f, LS_USAGE, "no ticket number", "--ticket", "7");
    REFUSED(f, LS_MISTAKE, "is mistyped", "--ticket",
            ls_arena_printf(f.arena, "ONE-01-%c", ls_check_character("ONE-02")));
    REFUSED(f, LS_MISTAKE, "the plan has no load ONE-70", "--ticket", number(&f, "70"));
    REFUSED(f, LS_USAGE, "--promise takes only --buyer", "--promise", "--lot", "One");
    farm_end(&f);
}

static void quarantine(void) {
    ls_arena *a = ls_arena_new();
    small_farm f = farm_of(test_replace(a, HOUSE BUYER HAY, "permit: P-7", "permit: P-7, quarantine: yes"));
    REFUSED(f, LS_MISTAKE, "under quarantine: nothing may leave it", "--format", "text");
    REFUSED(f, LS_MISTAKE, "f.yaml:1:", "--format", "html");
    REFUSED(f, LS_MISTAKE, "under quarantine", "--format", "json");
    REFUSED(f, LS_MISTAKE, "under quarantine", "--promise");
    farm_end(&f);
    ls_arena_free(a);
}

/* ---- promises ---- */

/* Nine firm loads of 11 ton: 99 ton on 49.5 ac, at 20 $/ton $1,980; the tenth is 6 ton on 3 ac. */
static void promises(void) {
    small_farm f = farm_of(HOUSE BUYER HAY);
    test_run run = TICKETS(f, "--promise");
    TEST_SAME(run.status, LS_DONE);
    static const char *const words[] = {
        "FOR           Ann, 1 Road\n",
        "PROMISED      9 loads, 99 tons, Mon, Feb 16\n",
        "PRICE         $20 a ton, delivered and spread: $1,980\n",
        "\nPROMISED TODAY\n- Flat: 9 loads, 99 tons on 49.5 ac at 2 tons/ac, Mon, Feb 16. Litter "
        "of "
        "One.\n",
        "\nLIKELY, NOT PROMISED\n- Flat: 1 load, 6 tons on 3 ac at 2 tons/ac, Mon, Feb 16. Litter "
        "of "
        "One.\n",
        "\n- One: N 20, P2O5 22, K2O 24 lb/ton, by the report of Lab of X",
        "\nFor the buyer ",
        NULL};
    holds_all(run.out, words);
    TEST_HOLDS(test_joined(f.arena, run.out), "there together 100% of the time");
    TEST_SAME(count(run.out, "PROMISE SLIP"), 1);
    CU_ASSERT_PTR_NULL(strstr(TICKETS(f, "--promise", "--worth").out, "Worth")); /* no prices */
    static const char *const data[] = {"\"firm_price\": 1980.0", "\"lots\": [\n", "\"unused\": []", NULL};
    holds_all(TICKETS(f, "--promise", "--format", "json").out, data);
    REFUSED(f, LS_USAGE, "--worth is for slips", "--worth");
    farm_end(&f);
}

/* What the litter is worth to a buyer stands on the slip when it is asked for and fertilizer has
 * prices; a buyer without loads is told why. Litter goes by its houses' names. */
static void worth_and_nothing(void) {
    ls_arena *a = ls_arena_new();
    test_run run = PROGRAM(a, "tickets", FEW, DEMO, "--promise");
    TEST_SAME(count(run.out, "PROMISE SLIP"), 3);
    TEST_SAME(count(run.out, "\f"), 2);
    TEST_HOLDS(run.out, "PROMISED      nothing today\n"); /* Whitcomb Pasture */
    TEST_HOLDS(run.out, "None can be promised today:\n- Ridge: the field's phosphorus is rated very "
                        "high: no litter.\n");
    TEST_HOLDS(run.out, "Litter of\n  North (both sides).");
    TEST_HOLDS(run.out, "Tue, Feb 17, the rest not before Sun, Mar 1\n");
    CU_ASSERT_PTR_NULL(strstr(run.out, "Litter A"));
    CU_ASSERT_PTR_NULL(strstr(run.out, "\nWorth "));
    run = PROGRAM(a, "tickets", FEW, DEMO, "--promise", "--worth");
    /* The buyer's figures alone: what the plan's page counts on his fields, not the worth of a ton
     * of the farm's litter. */
    TEST_HOLDS(run.out, "about $1,966 to you for the promised loads, $177 less than their");
    CU_ASSERT_PTR_NULL(strstr(run.out, "61.2"));
    run = PROGRAM(a, "explain", FEW, DEMO, "promise-to.larkspur_hay.firm-gain");
    TEST_SAME(run.status, LS_DONE);
    ls_arena_free(a);
}

TEST_SUITE(tickets_words) = {{"a firm ticket", a_firm_ticket},
                             {"a part load", a_part_load},
                             {"food crops", food_crops},
                             {"a load with two drops", a_load_with_two_drops},
                             {"tickets of the stack", tickets_of_the_stack},
                             {"tickets as JSON", tickets_as_json},
                             {"tickets explained", tickets_explained},
                             {"choosing", choosing},
                             {"choosing wrongly", choosing_wrongly},
                             {"quarantine", quarantine},
                             {"promises", promises},
                             {"worth, and nothing to promise", worth_and_nothing},
                             CU_TEST_INFO_NULL};
