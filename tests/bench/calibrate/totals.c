/* Published totals of whole houses beside what the program says of such a house, with their source
 * and without it. */
#include "bench/calibrate/without_source.h"
#include "bench/calibrate/calibrate.h"

#include "littershed/litter.h"

#include <math.h>
#include <string.h>

typedef enum { DRY_TONS, WET_TONS, P2O5_LB, K2O_LB, N_KEPT } measure;

typedef struct {
    const char *name, *source;
    measure what;
    double published;
    const char *farm; /* the house of the list */
} total;

#define FLOCK(birds, count, placed, removed, rest)                                                                     \
    "    flocks:\n      - {birds: " birds ", " count ", placed: " placed ", removed: " removed ", lost: 0 %" rest "}"  \
    "\n"
#define BROILERS(count, rest) FLOCK("broiler", "count: " count, "2025-12-23", "2026-02-09", rest)

/* 48 days to 2026-02-09; six flocks a year. */
static const total totals[] = {
    /* uga-b1245: 20,000 broilers, 6 flocks, 2.5 lb a bird: 150 ton a year */
    {"uga-broiler-house", "uga-b1245", WET_TONS, 150, BROILERS("20000", ", flocks: 6")},
    /* uga-b1245: 14,000 hens, 150 ton a year at 50 % dry matter; 43 of 47 weeks in the house */
    {"uga-breeder-house", "uga-b1245", DRY_TONS, 75,
     FLOCK("broiler breeder", "hens: 14000", "2025-03-12", "2026-02-09", "")},
    /* handboek: 40 kg feed a hen, 5.6 kg dry: of 10,000 */
    {"dutch-breeder", "handboek", DRY_TONS, 5.6 * 10000 / 907.18474,
     FLOCK("broiler breeder", "hens: 10000", "2025-04-21", "2026-02-09",
           ", feed: {total: 440.92 ton}") "    bedding: none\n"},
    /* ncsu-66: 10,000 birds, 280 days, 0.13 lb a bird and day: 182 ton, 37-58-35 lb/ton */
    {"ncsu-consistency", "ncsu-66", WET_TONS, 182.0,
     FLOCK("broiler breeder", "hens: 10000", "2025-05-05", "2026-02-09", "")},
    {"ncsu-consistency P2O5", "ncsu-66", P2O5_LB, 10360,
     FLOCK("broiler breeder", "hens: 10000", "2025-05-05", "2026-02-09", "")},
    {"ncsu-consistency K2O", "ncsu-66", K2O_LB, 6160,
     FLOCK("broiler breeder", "hens: 10000", "2025-05-05", "2026-02-09", "")},
    /* coufal: 25,000 broilers of 6 lb: 22,995 lb dry litter and 11,220 lb dry cake */
    {"coufal-25000", "coufal", DRY_TONS, (22995 + 11220) / 2000.0, BROILERS("25000", ", weight: 6.0 lb")},
    /* iowa-hr: 100,000 hens in a high-rise house, 6.2 dry tons per 1,000 and year, 1,050 ton at 41
       % */
    {"iowa-100000-hens", "iowa-hr", DRY_TONS, 620,
     FLOCK("layer", "count: 100000", "2025-02-09", "2026-02-09", "") "    manure: pit\n"},
    {"iowa-100000-hens wet", "iowa-hr", WET_TONS, 1050,
     FLOCK("layer", "count: 100000", "2025-02-09", "2026-02-09", "") "    manure: pit\n"},
    /* nrcs-au: 100,000 broiler places: lb of P and K a year after losses, handling in it, as oxides
     */
    {"nrcs-broilers P2O5", "nrcs-au", P2O5_LB, 21748 * 2.2914, BROILERS("100000", ", flocks: 6")},
    {"nrcs-broilers K2O", "nrcs-au", K2O_LB, 31190 * 1.2046, BROILERS("100000", ", flocks: 6")},
    /* patterson-98: 0.305 of the feed's nitrogen in the litter, 0.18 lost: 0.63 of it kept */
    {"feed-fate-broiler N kept", "patterson-98", N_KEPT, 0.63, BROILERS("25000", "")},
};

static ls_q result(const ls_worksheet *w, const ls_estimate *e, measure what) {
    const ls_q *of[] = {&e->dry_tons, &e->tons, &e->pounds[LS_P2O5], &e->pounds[LS_K2O]};
    if (what != N_KEPT) return *of[what];
    ls_line lost = e->accounts.at[0].of[LS_ELEMENT_N].lost_share;
    if (lost == LS_NO_LINE) return (ls_q){lost, NAN, NAN, NAN};
    ls_drawn d = ls_drawn_of(lost);
    ls_draw(w, 1, LS_BLOCK, &d, 1);
    return (ls_q){lost, 1 - d.high, 1 - d.mid, 1 - d.low};
}

static void show(ls_arena *a, const ls_reference *r, const total *t) {
    const char *yaml = ls_arena_printf(a, "houses:\n  - name: H\n    length: 500 ft\n    width: 40 ft\n%s", t->farm);
    ls_worksheet *w = ls_worksheet_new(a);
    const ls_estimate *e = ls_litter_estimate(w, paper_read(a, r, yaml), r, 1, LS_BLOCK);
    if (!e) ls_fail("no estimate of %s", t->name);
    ls_q q = result(w, e, t->what);
    double by = t->what == DRY_TONS || t->what == WET_TONS ? 2000 : 1;
    printf("   %9.4g %9.4g %9.4g%s", q.low / by, q.mid / by, q.high / by,
           q.low / by <= t->published && t->published <= q.high / by ? "  " : " .");
}

int calibrate_totals(void) {
    ls_arena *a = ls_arena_new();
    const ls_reference *r = ls_reference_load(a);
    static const char *const units[] = {"dry ton", "ton", "lb", "lb", ""};
    printf("\nPublished totals of whole houses; the 10-50-90 %% range with their source, and without\n"
           "it (. where it does not hold the total)\n");
    for (size_t i = 0; i < sizeof totals / sizeof *totals; i++) {
        const total *t = &totals[i];
        printf("  %-25s %-13s %8.4g %-7s", t->name, t->source, t->published, units[t->what]);
        show(a, r, t);
        show(a, without_source(a, r, t->source), t);
        printf("\n");
    }
    ls_arena_free(a);
    return 0;
}
