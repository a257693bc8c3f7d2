/* What must hold of every farm's birds, feed and bedding: small farms drawn at random, and each
 * kind of bird twice over. */
#include "chance.h"
#include "litter_world.h"

#include <math.h>
#include <string.h>

typedef struct {
    uint64_t state;
    ls_arena *arena;
    ls_text *y;
    int bird;
} maker;

static unsigned pick(maker *m, unsigned n) { return test_pick(&m->state, n); }

static double between(maker *m, double low, double high) { return test_between(&m->state, low, high); }

/* ---- a farm as text ---- */

static void add_bedding(maker *m) {
    static const char *const amounts[] = {"material: pine shavings, depth: 3 in",
                                          "material: rice hulls, volume: 120 yd3", "material: shavings, bales: 30",
                                          "material: chopped straw, weight: 5 ton"};
    unsigned n = pick(m, 3);
    if (n > 0) ls_text_add(m->y, "    bedding:\n");
    for (unsigned i = 0; i < n; i++) ls_text_addf(m->y, "      - {%s}\n", amounts[pick(m, 4)]);
}

static void add_out(maker *m) {
    static const char *const amounts[] = {"weighed: 4 ton, moisture: 45 %", "depth: 1 in, area: 30 %",
                                          "depth: 0.5 in, area: 4000 ft2 +/- 200 ft2"};
    unsigned n = pick(m, 3);
    if (n > 0) ls_text_add(m->y, "    already_out:\n");
    for (unsigned i = 0; i < n; i++)
        ls_text_addf(m->y, "      - {date: 2025-06-0%u, %s}\n", i + 1, amounts[pick(m, 3)]);
}

static void add_feed(maker *m, ls_date placed, ls_date removed) {
    unsigned feeds = 1 + pick(m, 3);
    ls_text_add(m->y, "        feed:\n");
    for (unsigned i = 0; i < feeds; i++) {
        ls_date from = placed + (ls_date)((removed - placed) * (long)i / (long)feeds);
        ls_text_add(m->y, "          - {");
        if (i > 0 || pick(m, 2)) ls_text_addf(m->y, "from: %s, ", ls_date_iso(m->arena, from));
        ls_text_addf(m->y,
                     "eaten: %.0f g/bird/day, protein: %.1f %%, phosphorus: %.2f %% +/- 0.05 %%, "
                     "potassium: %.2f %%}\n",
                     between(m, 90, 180), between(m, 14, 24), between(m, 0.45, 0.8), between(m, 0.5, 1));
    }
}

/* The table's bird at removal is a grown one; these flocks stay for weeks only. */
static void add_weight(maker *m) {
    bool grown = ls_bird_is_breeder(m->bird) || m->bird == LS_LAYER;
    if (m->bird == LS_LAYER && pick(m, 2)) ls_text_addf(m->y, "        weight: %.1f lb\n", between(m, 3.1, 4.5));
    if (ls_bird_is_breeder(m->bird) && pick(m, 2)) ls_text_addf(m->y, "        weight: %.1f lb\n", between(m, 6, 9));
    if (!grown) ls_text_addf(m->y, "        weight: %.1f lb +/- 0.2 lb\n", between(m, 3, 6));
}

static void add_flock(maker *m, ls_date placed, ls_date removed) {
    unsigned birds = 5000 + pick(m, 20000);
    ls_text_addf(m->y, "      - birds: %s\n", ls_bird_name(m->bird));
    if (ls_bird_is_breeder(m->bird))
        ls_text_addf(m->y, "        hens: %u\n        males: %u\n", birds, birds / 10);
    else
        ls_text_addf(m->y, "        count: %u\n", birds);
    ls_text_addf(m->y, "        placed: %s\n        removed: %s\n", ls_date_iso(m->arena, placed),
                 ls_date_iso(m->arena, removed));
    if (pick(m, 2))
        ls_text_addf(m->y, "        lost: %.1f %%\n", between(m, 0, 12));
    else
        ls_text_addf(m->y, "        counts: [{date: %s, birds: %u}, {date: %s, birds: %u}]\n",
                     ls_date_iso(m->arena, placed + 10), birds - pick(m, 200),
                     ls_date_iso(m->arena, removed - (ls_date)pick(m, 20)), birds - 200 - pick(m, 900));
    if (m->bird == LS_BROILER_BREEDER || m->bird == LS_LAYER)
        ls_text_addf(m->y, "        eggs: %.0f per hen\n", between(m, 20, 60));
    add_weight(m);
    add_feed(m, placed, removed);
}

static void add_found(maker *m) {
    if (pick(m, 2))
        ls_text_addf(m->y, "    measured: {density: %.0f %.0f lb/ft3, moisture: %.0f %.0f %%}\n", between(m, 25, 45),
                     between(m, 25, 45), between(m, 20, 45), between(m, 20, 45));
    if (pick(m, 2))
        ls_text_addf(m->y,
                     "    lab: [{date: 2025-12-20, by: Lab, moisture: %.0f %%, N: %.0f lb/ton, P2O5: "
                     "%.0f lb/ton, K2O: %.0f lb/ton}]\n",
                     between(m, 20, 40), between(m, 25, 60), between(m, 30, 80), between(m, 25, 60));
}

static const char *farm_text(ls_arena *a, uint64_t seed) {
    maker m = {.state = seed, .arena = a, .y = ls_text_new(a)};
    ls_text_add(m.y, "houses:\n");
    for (unsigned h = 0, houses = 1 + pick(&m, 2); h < houses; h++) {
        m.bird = 1 + (int)pick(&m, LS_BIRDS - 1);
        ls_text_addf(m.y, "  - name: House %u\n    length: %.0f ft\n    width: 40 ft\n", h + 1, between(&m, 200, 500));
        if (pick(&m, 2)) ls_text_add(m.y, "    sides: [left, right]\n");
        add_bedding(&m);
        add_out(&m);
        add_found(&m);
        ls_text_add(m.y, "    flocks:\n");
        ls_date placed = ls_date_of(2025, 1, 1);
        for (unsigned k = 0, flocks = 1 + pick(&m, 3); k < flocks; k++) {
            ls_date removed = placed + 42 + (ls_date)pick(&m, 60);
            add_flock(&m, placed, removed);
            placed = removed + 7;
        }
    }
    return m.y->s;
}

/* ---- what must hold ---- */

#define HOLDS(condition)                                                                                               \
    do {                                                                                                               \
        bool holds_ = (condition);                                                                                     \
        if (!holds_) printf("\n%s: %s\n", where, #condition);                                                          \
        CU_ASSERT_TRUE(holds_);                                                                                        \
    } while (0)

static double value(const litter_world *t, ls_line line) {
    return line == LS_NO_LINE ? 0 : ls_line_value(t->sheet, line);
}

static bool same(double a, double b, double of) { return fabs(a - b) <= 1e-12 * fabs(of); }

/* Eaten and bedded = eggs + growth + litter + taken out + lost, to rounding. */
static void account_holds(const litter_world *t, const ls_fate *f, const char *where) {
    HOLDS(f->by_balance && f->excreted != LS_NO_LINE && value(t, f->excreted) > 0);
    double eaten = value(t, f->eaten), bedding = value(t, f->bedding);
    double to = value(t, f->eggs) + value(t, f->growth) + value(t, f->litter) + value(t, f->out) + value(t, f->lost);
    HOLDS(same(eaten + bedding, to, eaten));
    HOLDS(value(t, f->growth) > 0 && value(t, f->litter) > 0);
}

/* The feeds of a flock cover its bird-days once. */
static void feeds_hold(const litter_world *t, const ls_house *house, size_t k, const char *where) {
    const ls_flock *f = &house->flocks.at[k - 1];
    ls_arena *a = ls_arena_new();
    double all = litter_shown(t, ls_arena_printf(a, "%s.flock-%zu.bird_days", house->slug, k));
    double sum = f->feed.n > 1 ? 0 : all;
    for (size_t i = 1; i <= f->feed.n && f->feed.n > 1; i++)
        sum += litter_shown(t, ls_arena_printf(a, "%s.flock-%zu.feed-%zu.bird_days", house->slug, k, i));
    HOLDS(same(sum, all, all));
    ls_arena_free(a);
}

static void farm_holds(const litter_world *t, const char *where) {
    HOLDS(t->estimate->accounts.n == t->farm->houses.n);
    for (size_t i = 0; i < t->estimate->accounts.n; i++) {
        const ls_account *account = &t->estimate->accounts.at[i];
        for (int e = 0; e < LS_ELEMENTS; e++) account_holds(t, &account->of[e], where);
        for (size_t k = 1; k <= account->house->flocks.n; k++) feeds_hold(t, account->house, k, where);
    }
    const ls_q all = t->estimate->tons;
    HOLDS(0 < all.low && all.low < all.mid && all.mid < all.high && all.high < INFINITY);
}

static void random_flocks(void) {
    uint64_t farms = test_count("RANDOM_FLOCKS", 25);
    for (uint64_t seed = 1; seed <= farms; seed++) {
        ls_arena *a = ls_arena_new();
        litter_world t = litter_farm(farm_text(a, seed), NULL);
        if (t.estimate) farm_holds(&t, ls_arena_printf(a, "farm of seed %llu", (unsigned long long)seed));
        litter_end(&t);
        ls_arena_free(a);
    }
}

/* ---- each kind of bird, one house of it and one of twice as many ---- */

static const char *flock_of(ls_arena *a, int bird, unsigned n) {
    const char *breeder = ls_arena_printf(a, "hens: %u, males: %u", n, n / 10);
    const char *count = ls_arena_printf(a, "count: %u", n);
    return ls_arena_printf(a,
                           "houses:\n  - name: One\n    length: 400 ft\n    width: 40 ft\n    "
                           "bedding: [{material: rice hulls, depth: 2 in}]\n    flocks: [{birds: "
                           "%s, %s, placed: 2025-01-01, removed: 2025-02-20}]\n",
                           ls_bird_name(bird), ls_bird_is_breeder(bird) ? breeder : count);
}

/* The droppings in the dry litter made by one method: all but the bedding. */
static double manure_by(const litter_world *t, const ls_method *method) {
    return value(t, method->dry) - value(t, ls_line_find(t->sheet, "one.bedding"));
}

static void twice_the_birds(void) {
    size_t methods = 0;
    for (int bird = 1; bird < LS_BIRDS; bird++) {
        ls_arena *a = ls_arena_new();
        litter_world one = litter_farm(flock_of(a, bird, 10000), NULL),
                     two = litter_farm(flock_of(a, bird, 20000), NULL);
        const ls_lot *x = &one.estimate->lots[0], *y = &two.estimate->lots[0];
        CU_ASSERT_EQUAL_FATAL(x->methods_n, y->methods_n);
        CU_ASSERT_TRUE(x->methods_n > 0 && x->tons.low > 0);
        for (size_t i = 0; i < x->methods_n; i++, methods++)
            TEST_NEAR(manure_by(&two, &y->methods[i]), 2 * manure_by(&one, &x->methods[i]), 1e-12);
        TEST_NEAR(litter_shown(&two, "one.bedding"), litter_shown(&one, "one.bedding"), 1e-12);
        litter_end(&one);
        litter_end(&two);
        ls_arena_free(a);
    }
    CU_ASSERT_TRUE(methods >= 12);
}

TEST_SUITE(flock_random) = {
    {"nothing eaten is lost from the account", random_flocks},
    {"twice the birds, twice the manure", twice_the_birds},
    CU_TEST_INFO_NULL,
};
