/* Many fields with limits drawn at random, each worked out a second time in plain arithmetic, apart
 * from the code that makes the lines. */
#include "chance.h"
#include "agronomy_world.h"

#include <math.h>

enum { FIELDS = 400 };

/* The litter: 63-55-47 lb a ton, half of the nitrogen available (University of Georgia, Bulletin
 * 1330 and the table georgia); bermudagrass hay removes 12 lb P2O5 a ton (ipni, from memory). */
static const double total_N = 63, pan = 31.5, P2O5 = 55, removed_by_ton = 12;

/* What was drawn of one field, and what is expected of it. */
typedef struct {
    double area, taken, need, credit, yield, most, cap;
    int rating, bank; /* 0 low, 1 medium, 2 high, 3 very high, 4 none */
    double banked;
    bool capped;
} drawn;

typedef struct {
    uint64_t state;
    ls_text *y;
} maker;

static unsigned pick(maker *m, unsigned n) { return test_pick(&m->state, n); }

/* ---- drawing ---- */

static double draw_setbacks(maker *m) {
    const double pi = acos(-1);
    double taken = 0;
    unsigned n = pick(m, 4);
    ls_text_add(m->y, n > 0 ? ", setbacks: [" : "");
    for (unsigned i = 0; i < n; i++) {
        unsigned width = 10 + pick(m, 300), edge = 100 + pick(m, 900), share = 1 + pick(m, 100);
        bool overlaps = n > 1 && pick(m, 3) == 0, circle = pick(m, 2) == 1;
        double area = circle ? pi * width * width * share / 100 : (double)width * edge;
        double overlap = overlaps ? floor(area / 43560 * 1000 / 2) / 1000 : 0;
        ls_text_add(m->y, i > 0 ? ", " : "");
        if (circle)
            ls_text_addf(m->y, "{from: well, radius: %u ft, share: %u %%", width, share);
        else
            ls_text_addf(m->y, "{from: stream, edge: %u ft, width: %u ft", edge, width);
        if (overlap > 0) ls_text_addf(m->y, ", overlap: %.3f ac", overlap);
        ls_text_add(m->y, "}");
        taken += area / 43560 - overlap;
    }
    ls_text_add(m->y, n > 0 ? "]" : "");
    return taken;
}

/* Years up to the one before the crop's; what is left is never below nothing. */
static double draw_ledger(maker *m) {
    double left = 0;
    unsigned n = pick(m, 5);
    ls_text_add(m->y, n > 0 ? ", ledger: [" : "");
    for (unsigned i = n; i > 0; i--) {
        unsigned on = pick(m, 3) * pick(m, 80), tons = pick(m, 4), removed = pick(m, 120);
        bool by_ton = pick(m, 2) == 1;
        ls_text_addf(m->y, "{year: %u, ", 2026 - i);
        if (by_ton)
            ls_text_addf(m->y, "litter: %u ton/ac, P2O5: %u lb/ton", tons, on);
        else
            ls_text_addf(m->y, "P2O5: %u lb/ac", on);
        ls_text_addf(m->y, ", removed: %u lb/ac}%s", removed, i > 1 ? ", " : "");
        left = fmax(0, left + (by_ton ? (double)tons * on : on) - removed);
    }
    ls_text_add(m->y, n > 0 ? "]" : "");
    return left;
}

static void draw_phosphorus(maker *m, drawn *d) {
    static const char *const ratings[] = {"low", "medium", "high", "very high"};
    d->rating = (int)pick(m, 5);
    d->bank = 1;
    if (d->rating == 4) return;
    ls_text_addf(m->y, ", phosphorus: {rating: %s", ratings[d->rating]);
    if (d->rating == 2 && pick(m, 3) > 0) ls_text_addf(m->y, ", bank: %d years", d->bank = 1 + (int)pick(m, 5));
    d->banked = draw_ledger(m);
    ls_text_add(m->y, "}");
}

/* A cap in litter tons; the field is open from 1 March to 30 April. */
static void draw_cap(maker *m, drawn *d) {
    static const char *const between[] = {"2025-11-15..2026-02-28", "2025-11-15..2026-03-01", "2026-04-30..2026-06-30",
                                          "2026-05-01..2026-06-30"};
    unsigned window = pick(m, 8), kind = pick(m, 3), figure = pick(m, 90);
    if (window > 3) return;
    const double tons[] = {figure / total_N, figure / pan, figure / 100.0};
    ls_text_addf(m->y, ", window_caps: [{between: %s, ", between[window]);
    if (kind == 2)
        ls_text_addf(m->y, "most: 0.%02u ton/ac}]", figure);
    else
        ls_text_addf(m->y, "%s: %u lb/ac}]", kind == 0 ? "total_nitrogen" : "available_nitrogen", figure);
    d->capped = window == 1 || window == 2;
    d->cap = tons[kind];
}

static drawn draw_field(maker *m, unsigned number) {
    drawn d = {.area = 1 + pick(m, 200) / 10.0, .need = 5.0 * pick(m, 80), .most = 3};
    d.credit = pick(m, 2) ? pick(m, 60) : 0;
    d.yield = 1 + pick(m, 70) / 10.0;
    ls_text_addf(m->y,
                 "      - {name: Field %u, open: 2026-03-01..2026-04-30, area: %.1f ac, crop: "
                 "bermudagrass hay, yield: %.1f ton/ac, nitrogen: %.0f lb/ac",
                 number, d.area, d.yield, d.need);
    if (d.credit > 0) ls_text_addf(m->y, ", credits: {legume: %.0f lb/ac}", d.credit);
    if (pick(m, 2)) ls_text_addf(m->y, ", most: %.1f ton/ac", d.most = 0.5 + pick(m, 50) / 10.0);
    d.taken = draw_setbacks(m);
    draw_phosphorus(m, &d);
    draw_cap(m, &d);
    ls_text_add(m->y, "}\n");
    return d;
}

/* ---- the second reckoning ---- */

/* The rate before the spreader's steps: 25 Pa. Code 83.293 and what the file limits besides. */
static double limit_of(const drawn *d) {
    double nitrogen = fmax(0, d->need - d->credit) / pan,
           allowed = (d->banked > 0 ? 0 : d->yield * removed_by_ton * d->bank) / P2O5, limit = fmin(nitrogen, d->most);
    if (d->rating == 2 || d->rating == 4) limit = fmin(limit, allowed);
    if (d->capped) limit = fmin(limit, d->cap);
    return d->rating == 3 || d->taken >= d->area ? 0 : limit;
}

static void check_field(world *t, size_t k, const drawn *d) {
    size_t before = ls_worksheet_lines(t->sheet);
    const ls_field_rates *f = rates_of(t, 0, k);
    const ls_rate *r = &f->rates[0];
    double got = shown(t, r->rate), limit = limit_of(d), want = 0.25 * floor(limit / 0.25 + 1e-9);
    TEST_NEAR(shown(t, f->spreadable), fmax(0, d->area - d->taken), 1e-6);
    TEST_NEAR(got, want < 0.5 ? 0 : want, 1e-9);
    TEST_SAME(r->why == NULL, got > 0);
    if (f->banked != LS_NO_LINE) TEST_NEAR(shown(t, f->banked), d->banked, 1e-9);
    if (r->covered != LS_NO_LINE) {
        double there = got * P2O5 + d->banked;
        TEST_NEAR(shown(t, r->covered), ceil(there / (d->yield * removed_by_ton) - 1e-9), 1e-9);
        TEST_SAME(r->again, 2026 + (long)shown(t, r->covered));
    }
    ls_worksheet_cut(t->sheet, before);
}

static void random_limits(void) {
    ls_arena *a = ls_arena_new();
    maker m = {20260301, ls_text_new(a)};
    drawn *of = LS_NEW(a, drawn, FIELDS);
    ls_text_add(m.y, "tables: {nitrogen: georgia, removal: ipni}\n"
                     "trucks: [{name: T, count: 1, payload: 11 ton, body: 20 yd3, swath: 30 ft, "
                     "spreading: 6 mph, road: 30 mph, rate: {least: 0.5 ton/ac, most: 9 ton/ac, step: "
                     "0.25 ton/ac}}]\n"
                     "houses:\n  - {name: House, length: 400 ft, width: 40 ft, measured: {weighed: 100 "
                     "ton}, lab: [{date: 2026-01-29, N: 63 lb/ton, P2O5: 55 lb/ton, K2O: 47 lb/ton}]}\n"
                     "buyers:\n  - name: Buyer\n    fields:\n");
    for (unsigned i = 0; i < FIELDS; i++) of[i] = draw_field(&m, i + 1);
    world t = world_of_text(m.y->s);
    size_t some = 0;
    for (size_t i = 0; i < FIELDS; i++) {
        check_field(&t, i, &of[i]);
        some += limit_of(&of[i]) >= 0.5;
    }
    CU_ASSERT_TRUE(some > FIELDS / 10 && some < FIELDS);
    world_end(&t);
    ls_arena_free(a);
}

TEST_SUITE(agronomy_random) = {{"limits at random", random_limits}, CU_TEST_INFO_NULL};
