/* What full loads tell of the next one: by pencil, in drawn weeks, and on the ninth ticket. */
#include "program.h"

#include "littershed/command.h"
#include "littershed/litter.h"
#include "litter/house.h"

#include <jansson.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static const ls_full_load_spreads usual = {0.05, 4, 0.02, 0.07};

/* ---- by pencil ---- */

/* Two days of 2 and 1 loads, 0.1 off each other on the first: the scatter is 0.1^2 / 2 = 0.005 for
 * one degree of freedom; (4 x 0.0025 + 0.005) / 5 = 0.003. The days' means are known to 0.0004 +
 * 0.0015 = 0.0019 and 0.0004 + 0.003 = 0.0034; the second counts 19 / 53. */
static void two_days(void) {
    ls_full_load x[] = {{2.1, 0, 8, false}, {2.0, 0, 7, false}, {2.1, 0, 7, false}};
    ls_full_loads f = ls_full_loads_of(x, 3, usual);
    TEST_NEAR(f.load * f.load, 0.003, 1e-12);
    TEST_NEAR(f.df, 5, 1e-12);
    TEST_SAME(f.days, 2);
    TEST_NEAR(f.mean, (34 * 2.05 + 19 * 2.1) / 53, 1e-12);
    TEST_NEAR(f.sd * f.sd, 1 / (1 / 0.0019 + 1 / 0.0034), 1e-12);
}

/* One load here, one of a litter like it: known to 0.0029 each; the other litter tells that mean of
 * both to 0.0029 + 0.0049, and this litter about it to 0.0049 more, 0.0127. */
static void a_like_litter(void) {
    ls_full_load x[] = {{2.3, 4, 7, false}, {2.1, 0, 7, false}};
    ls_full_loads f = ls_full_loads_of(x, 2, usual);
    TEST_NEAR(f.mean, (2.1 * 127 + 2.3 * 29) / 156, 1e-12);
    TEST_NEAR(f.sd * f.sd, 1 / (1 / 0.0029 + 1 / 0.0127), 1e-12);
    TEST_NEAR(f.df, 4, 1e-12);
    f = ls_full_loads_of(x + 1, 1, usual); /* sorted: this is the other one */
    TEST_NEAR(f.sd * f.sd, 0.0029 + 0.0098, 1e-12);
}

/* Loads that the limit cut short are no evidence of how alike loads are. */
static void cut_short(void) {
    ls_full_load x[] = {{2.1, 0, 7, true}, {2.1, 0, 7, true}, {2.1, 0, 7, true}};
    TEST_NEAR(ls_full_loads_of(x, 3, usual).df, 4, 0);
    TEST_NEAR(ls_full_loads_of(x, 3, usual).load, 0.05, 1e-12);
}

/* ---- drawn weeks ---- */

enum { MOST_LOADS = 64 };

typedef struct {
    ls_stream *s;
    ls_full_load_spreads centre; /* of the hyperparameters */
    double drawn;                /* their log standard deviation */
} nature;

typedef struct {
    ls_full_load loads[MOST_LOADS];
    size_t n;
    double next;
} week;

static double normal(const nature *n, double sd) {
    double z;
    ls_stream_normal(n->s, &z, 1);
    return sd * z;
}

static size_t pick(const nature *n, size_t from, size_t to) {
    double u;
    ls_stream_uniform(n->s, &u, 1);
    return from + (size_t)(u * (double)(to - from + 1));
}

/* Loads of a litter with that mean, on days that go on from first; the day's part of the last. */
static double haul(const nature *n, week *w, ls_full_load_spreads is, size_t litter, double mean) {
    double day = 0;
    size_t days = pick(n, 1, 4);
    for (size_t d = 0; d < days; d++) {
        day = normal(n, is.day);
        for (size_t k = pick(n, 1, 5); k > 0 && w->n < MOST_LOADS; k--)
            w->loads[w->n++] = (ls_full_load){mean + day + normal(n, is.load), litter, (ls_date)(100 + d), false};
    }
    return day;
}

/* The litter asked for lies about prior; the next load is of a new day, or of the last one. */
static week draw_week(const nature *n, double prior, double prior_sd) {
    week w = {.n = 0};
    ls_full_load_spreads is = n->centre;
    is.load *= exp(normal(n, n->drawn));
    is.day *= exp(normal(n, n->drawn));
    is.litter *= exp(normal(n, n->drawn));
    double own = prior + normal(n, prior_sd), farm = own + normal(n, is.litter);
    for (size_t other = pick(n, 0, 2); other > 0; other--) haul(n, &w, is, other, farm + normal(n, is.litter));
    double day = haul(n, &w, is, 0, own);
    w.next = own + (pick(n, 0, 1) ? day : normal(n, is.day)) + normal(n, is.load);
    return w;
}

static int by_size(const void *a, const void *b) {
    const double *x = a, *y = b;
    return (*x > *y) - (*x < *y);
}

/* Does the next load lie between the 10 and 90 % points of its predictive distribution? */
static bool held(const nature *n, week *w, double prior, double prior_sd) {
    enum { DRAWS = 1000 };
    double z[DRAWS], t[DRAWS];
    ls_full_loads f = ls_full_loads_of(w->loads, w->n, usual);
    double own = pow(f.sd, -2), before = pow(prior_sd, -2);
    double mean = (own * f.mean + before * prior) / (own + before);
    double sd = sqrt(1 / (own + before) + usual.day * usual.day);
    ls_stream_normal(n->s, z, DRAWS);
    ls_stream_student(n->s, f.df, t, DRAWS);
    for (int i = 0; i < DRAWS; i++) z[i] = mean + sd * z[i] + f.load * t[i];
    qsort(z, DRAWS, sizeof *z, by_size);
    return w->next >= z[DRAWS / 10] && w->next <= z[DRAWS - DRAWS / 10 - 1];
}

/* Weeks in 100 of 300 whose next load the range holds. The spreads that the program goes by are
 * common practice; here the true ones are drawn a third up or down about them; then worlds of other
 * spreads than the program thinks: more even loads and less even days, uneven loads. */
static void drawn_weeks(void) {
    static const ls_full_load_spreads worlds[] = {
        {0.05, 4, 0.02, 0.07}, {0.035, 4, 0.03, 0.10}, {0.07, 4, 0.015, 0.05}};
    for (size_t i = 0; i < sizeof worlds / sizeof *worlds; i++) {
        enum { WEEKS = 300 };
        nature n = {ls_stream_new(), worlds[i], 0.3};
        int in = 0;
        ls_stream_start(n.s, 1, ls_text_hash("drawn weeks"), i);
        for (int k = 0; k < WEEKS; k++) {
            week w = draw_week(&n, 2.2, 0.158);
            in += held(&n, &w, 2.2, 0.158);
        }
        ls_stream_free(n.s);
        CU_ASSERT_TRUE(in >= 74 * WEEKS / 100 && in <= 88 * WEEKS / 100);
    }
}

/* ---- the same through the program ---- */

/* Two houses of like litter; 20 yd3 at 33 lb/ft3, known to 5 %, are 8.91 tons. */
static const char two_houses[] =
    "houses:\n"
    "  - name: A\n"
    "    flocks: [{birds: broiler, count: 20000, placed: 2025-12-01, removed: 2026-01-20}]\n"
    "    measured: {weighed: 300 ton, loose_density: 33 lb/ft3 +/- 3.3 lb/ft3}\n"
    "  - name: B\n"
    "    flocks: [{birds: broiler, count: 21000, placed: 2025-12-03, removed: 2026-01-22}]\n"
    "    measured: {weighed: 300 ton}\n"
    "  - name: C\n"
    "    flocks: [{birds: broiler, count: 21000, placed: 2025-12-03, removed: 2026-01-22}]\n"
    "    measured: {weighed: 300 ton}\n"
    "trucks: [{name: truck, count: 1, payload: %.1f ton, body: 20 yd3}]\n";

static const ls_farm *farm_with(ls_arena *a, const ls_reference *r, double payload) {
    const char *folder = test_folder(a);
    const char *path = test_file(a, folder, "farm.yaml", ls_arena_printf(a, two_houses, payload));
    const ls_farm *f = ls_farm_read(a, ls_diag_new(a), r, &path, 1);
    CU_ASSERT_PTR_NOT_NULL_FATAL(f);
    test_folder_end(folder);
    return f;
}

/* What a scale says of a full load that would weigh so much: no more than the limit, and where it
 * binds up to 3 % less. */
static double scale(const nature *n, double log_lb, double limit) {
    double u;
    ls_stream_uniform(n->s, &u, 1);
    return exp(log_lb) < limit ? exp(log_lb) : limit * (1 - 0.03 * u);
}

static ls_estimate *estimate_of(ls_arena *a, const ls_reference *r, const ls_farm *read, const week *w, const nature *n,
                                double limit) {
    static const char *const lots[] = {"A", "B", "C"};
    ls_farm *farm = LS_NEW(a, ls_farm, 1);
    *farm = *read;
    for (size_t i = 0; i < w->n; i++)
        *LS_PUSH(a, &farm->hauled) = (ls_hauled){.lot = lots[w->loads[i].litter],
                                                 .ticket = "T",
                                                 .day = w->loads[i].day,
                                                 .tons = scale(n, w->loads[i].log_tons, limit),
                                                 .weighed = true,
                                                 .cleared = NAN,
                                                 .entry = "entry of a test"};
    ls_worksheet *sheet = ls_worksheet_new(a);
    ls_estimate *e = ls_litter_estimate(sheet, farm, r, 1, LS_BLOCK);
    TEST_TEXT(ls_worksheet_fault(sheet), NULL);
    CU_ASSERT_PTR_NOT_NULL_FATAL(e);
    return e;
}

/* As drawn weeks, with the truck's limit cutting loads short in many of them. */
static void weeks_of_the_program(void) {
    enum { WEEKS = 100 };
    nature n = {ls_stream_new(), usual, 0.3};
    int in = 0;
    ls_stream_start(n.s, 1, ls_text_hash("weeks of the program"), 0);
    for (int k = 0; k < WEEKS; k++) {
        ls_arena *a = ls_arena_new();
        const ls_reference *r = ls_reference_load(a);
        double payload = 8 + 0.1 * (double)pick(&n, 0, 50), limit = payload * 2000;
        week w = draw_week(&n, log(540 * 33), 0.158);
        const ls_lot *lot = &estimate_of(a, r, farm_with(a, r, payload), &w, &n, limit)->lots[0];
        double next = scale(&n, w.next, limit);
        in += next >= lot->kinds[0].next_load.low * (1 - 1e-9) && next <= lot->kinds[0].next_load.high * (1 + 1e-9);
        CU_ASSERT_TRUE(lot->kinds[0].next_load.high <= limit * (1 + 1e-9));
        CU_ASSERT_TRUE(lot->payload.high <= limit * (1 + 1e-9));
        ls_arena_free(a);
    }
    ls_stream_free(n.s);
    CU_ASSERT_TRUE(in >= 74 && in <= 88);
}

/* Eight loads at the limit, well above what the pail tells: the payload is the limit, not the
 * 8.9 tons of the pail. Where the body holds more than the limit, they take nothing off it. */
static void loads_at_the_limit(void) {
    static const double limits[] = {11, 7};
    for (int i = 0; i < 2; i++) {
        ls_arena *a = ls_arena_new();
        const ls_reference *r = ls_reference_load(a);
        double limit = limits[i] * 2000;
        week w = {.n = 8};
        for (size_t k = 0; k < w.n; k++)
            w.loads[k] = (ls_full_load){log(limit * (0.975 + 0.003 * (double)k)), 0, 7, false};
        nature n = {ls_stream_new(), usual, 0};
        const ls_lot *lot = &estimate_of(a, r, farm_with(a, r, limits[i]), &w, &n, limit)->lots[0];
        CU_ASSERT_TRUE(lot->payload.mid >= 0.97 * limit && lot->payload.high <= limit * 1.000001);
        /* at least as even as loads and days usually are: a t of 4 degrees of freedom */
        CU_ASSERT_TRUE(lot->kinds[0].next_load.low >= 0.97 * exp(-1.6 * hypot(0.05, 0.02)) * limit);
        ls_stream_free(n.s);
        ls_arena_free(a);
    }
}

/* A truck whose body nobody measured: thought to carry its limit, it carries what it carries. */
static void no_body(void) {
    ls_arena *a = ls_arena_new();
    const ls_reference *r = ls_reference_load(a);
    ls_farm farm = *farm_with(a, r, 12);
    farm.trucks.at[0].body = (ls_quantity){0};
    week w = {.n = 0};
    nature n = {ls_stream_new(), usual, 0};
    TEST_NEAR(estimate_of(a, r, &farm, &w, &n, 24000)->lots[0].payload.low, 24000, 1e-6);
    for (; w.n < 8; w.n++) w.loads[w.n] = (ls_full_load){log(9 * 2000), 0, 7, false};
    const ls_lot *lot = &estimate_of(a, r, &farm, &w, &n, 24000)->lots[0];
    CU_ASSERT_TRUE(lot->payload.mid > 9 * 2000 && lot->payload.mid < 9.15 * 2000);
    ls_stream_free(n.s);
    ls_arena_free(a);
}

/* Loads of another house count by its litter's likeness: same birds, same bedding, same age. */
static void like_houses_alone(void) {
    double mid[2];
    for (int i = 0; i < 2; i++) {
        ls_arena *a = ls_arena_new();
        const ls_reference *r = ls_reference_load(a);
        ls_farm farm = *farm_with(a, r, 14);
        if (i == 1) farm.houses.at[1].flocks.at[0].removed.day += 60;
        week w = {.n = 8};
        for (size_t k = 0; k < w.n; k++) w.loads[k] = (ls_full_load){log(11.5 * 2000), 1, 7, false};
        nature n = {ls_stream_new(), usual, 0};
        mid[i] = estimate_of(a, r, &farm, &w, &n, 28000)->lots[0].payload.mid / 2000;
        ls_stream_free(n.s);
        ls_arena_free(a);
    }
    CU_ASSERT_TRUE(mid[0] > 10 && mid[0] < 11.5);
    TEST_NEAR(mid[1], 8.91, 0.05);
}

/* ---- the ninth ticket ---- */

static json_t *tickets_of(ls_arena *a, const char *house, const char *fields) {
    test_run run = PROGRAM(a, "tickets", house, fields, FEW, "--format", "json");
    TEST_SAME(run.status, LS_DONE);
    json_t *d = json_loads(run.out, 0, NULL);
    CU_ASSERT_PTR_NOT_NULL_FATAL(d);
    return d;
}

static double number(json_t *object, const char *name) { return json_number_value(json_object_get(object, name)); }

/* The demo with a truck that may carry 12 tons; its pail tells 8.64. Eight loads of 11.4 to 11.6
 * tons, and the ninth is of no other weight. */
static void the_ninth_ticket(void) {
    static const char *const tons[] = {"11.4", "11.5", "11.6", "11.45", "11.55", "11.5", "11.6", "11.4"};
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    const char *house = test_file(a, folder, "h.yaml",
                                  test_replace(a, test_file_text(a, DEMO_HOUSE), "payload: 11 ton", "payload: 12 ton"));
    const char *fields = test_file(a, folder, "f.yaml", test_file_text(a, DEMO_FIELDS));
    json_t *d = tickets_of(a, house, fields);
    for (size_t i = 0; i < sizeof tons / sizeof *tons; i++) {
        json_t *t = json_array_get(json_object_get(d, "tickets"), i);
        test_run run = PROGRAM(a, "record", house, fields, "--ticket", json_string_value(json_object_get(t, "ticket")),
                               "--tons", tons[i], "--weighed", "--truck", "spreader truck", "--when",
                               ls_arena_printf(a, "2026-02-%zuT%02zu:10", 16 + i / 5, 8 + i % 5));
        TEST_SAME(run.status, LS_DONE);
    }
    json_decref(d);
    d = tickets_of(a, house, fields);
    json_t *t = json_array_get(json_object_get(d, "tickets"), 0);
    json_t *drop = json_array_get(json_object_get(t, "drops"), 0);
    CU_ASSERT_TRUE(number(t, "tons") >= 11.4 && number(t, "tons") <= 11.6);
    double low = number(t, "scale_low_tons"), high = number(t, "scale_high_tons");
    CU_ASSERT_TRUE(low > 10 && low <= 11.4 && high >= 11.6 && high <= 12);
    TEST_NEAR(number(drop, "cover_low_ac"), low / number(drop, "ton_per_ac"), 1e-9);
    TEST_NEAR(number(drop, "cover_high_ac"), high / number(drop, "ton_per_ac"), 1e-9);
    test_run run =
        PROGRAM(a, "tickets", house, fields, FEW, "--ticket", json_string_value(json_object_get(t, "ticket")));
    TEST_HOLDS(run.out, ls_arena_printf(a, "SPREAD        %.1f tons on", number(t, "tons")));
    TEST_HOLDS(run.out,
               ls_arena_printf(a, "If the scale says %.1f tons, cover %s ac; %s tons, %s ac", low,
                               ls_number_step(a, number(drop, "cover_low_ac"), 0.01), ls_number_step(a, high, 0.1),
                               ls_number_step(a, number(drop, "cover_high_ac"), 0.01)));
    json_decref(d);
    test_folder_end(folder);
    ls_arena_free(a);
}

TEST_SUITE(payload) = {
    {"two days by pencil", two_days},
    {"a like litter by pencil", a_like_litter},
    {"loads cut short tell no scatter", cut_short},
    {"300 drawn weeks: the range holds the next load", drawn_weeks},
    {"drawn weeks through the program", weeks_of_the_program},
    {"loads at the limit", loads_at_the_limit},
    {"a truck without a body", no_body},
    {"houses of like litter alone", like_houses_alone},
    {"the ninth ticket", the_ninth_ticket},
    CU_TEST_INFO_NULL,
};
