#include "random_farm.h"

#include "chance.h"

typedef struct {
    uint64_t state;
    ls_text *y;
} maker;

static unsigned pick(maker *m, unsigned n) { return test_pick(&m->state, n); }

static double between(maker *m, double low, double high) { return test_between(&m->state, low, high); }

static void add_evidence(maker *m) {
    if (pick(m, 2))
        ls_text_addf(m->y,
                     "    measured: {depth: %.1f %.1f %.1f in, density: 38 40 lb/ft3, "
                     "loose_density: %.0f lb/ft3}\n",
                     between(m, 3, 7), between(m, 3, 7), between(m, 3, 7), between(m, 20, 45));
    if (pick(m, 2))
        ls_text_addf(m->y,
                     "    lab:\n      - {date: 2026-01-20, by: Lab, moisture: %.0f %%, N: %.0f "
                     "lb/ton, NH4N: 7 lb/ton, P2O5: %.0f "
                     "lb/ton, K2O: 36 lb/ton}\n",
                     between(m, 20, 40), between(m, 25, 60), between(m, 30, 80));
}

static void add_houses(maker *m) {
    ls_text_add(m->y, "houses:\n");
    unsigned houses = 1 + pick(m, 2);
    for (unsigned i = 0; i < houses; i++) {
        ls_text_addf(m->y, "  - name: House %u\n    length: %.0f ft\n    width: 40 ft\n", i + 1, between(m, 150, 500));
        if (pick(m, 2)) ls_text_add(m->y, "    sides: [left, right]\n");
        if (pick(m, 3))
            ls_text_addf(m->y,
                         "    flocks:\n      - {birds: broiler breeder, hens: %u, males: %u, "
                         "placed: 2025-04-21, removed: 2026-02-09, "
                         "lost: 8 %%}\n",
                         1000 + pick(m, 7000), 100 + pick(m, 600));
        else
            ls_text_addf(m->y,
                         "    flocks:\n      - {birds: broiler, count: %u, placed: 2025-12-01, "
                         "removed: 2026-01-20, lost: 5 %%}\n",
                         5000 + pick(m, 20000));
        add_evidence(m);
    }
}

static void add_field(maker *m, unsigned k) {
    static const char *const crops[] = {"tall fescue hay", "bermudagrass hay", "corn grain"};
    static const char *const yields[] = {"3.5 ton/ac", "5 ton/ac", "150 bu/ac"};
    static const char *const ratings[] = {"low", "medium", "high", "very high"};
    unsigned crop = pick(m, 3);
    ls_text_addf(m->y,
                 "      - name: Field %u\n        area: %.1f ac\n        crop: %s\n        yield: "
                 "%s\n        nitrogen: %.0f lb/ac\n",
                 k, between(m, 1, 40), crops[crop], yields[crop], between(m, 0, 250));
    if (pick(m, 3) == 0)
        ls_text_addf(m->y, "        setbacks: [{from: stream, edge: %.0f ft, width: 100 ft}]\n", between(m, 100, 2000));
    if (pick(m, 5)) ls_text_addf(m->y, "        phosphorus: {rating: %s}\n", ratings[pick(m, 4)]);
    if (pick(m, 2)) ls_text_addf(m->y, "        most: %.1f ton/ac\n", between(m, 0.5, 4));
    static const char *const windows[] = {"2026-02-01..2026-06-30", "2026-04-01..2026-08-31", "2026-02-16..2026-02-20",
                                          "2026-03-01..2026-03-31", "2025-09-01..2025-12-31"};
    ls_text_addf(m->y, "        open: %s\n", windows[pick(m, 5) ? pick(m, 4) : pick(m, 5)]);
}

static void add_buyers(maker *m) {
    unsigned fields = 1 + pick(m, 12), buyer = 0;
    ls_text_add(m->y, "buyers:\n");
    for (unsigned k = 1; k <= fields; k++) {
        if (k == 1 || pick(m, 3) == 0) {
            ls_text_addf(m->y, "  - name: Buyer %u\n    distance: %.1f mi\n    price: %.0f $/ton\n", ++buyer,
                         between(m, 0, 30), between(m, 0, 40));
            unsigned order = pick(m, 4);
            if (order == 1)
                ls_text_addf(m->y, "    order: {least: %u loads, most: %u loads}\n", 1 + pick(m, 3), 4 + pick(m, 8));
            if (order == 2) ls_text_addf(m->y, "    order: {most: %u ton}\n", 5 + pick(m, 80));
            ls_text_add(m->y, "    fields:\n");
        }
        add_field(m, k);
    }
}

const char *test_random_farm(ls_arena *a, uint64_t seed) {
    maker m = {seed, ls_text_new(a)};
    ls_text_add(m.y, "farm: {name: Cedar Fork Flocks, next_flock: 2026-05-01}\n");
    add_houses(&m);
    ls_text_addf(m.y,
                 "trucks:\n  - {name: truck, count: %u, payload: %.1f ton, body: %u yd3, swath: 30 "
                 "ft, spreading: 6 mph, road: 30 mph",
                 1 + pick(&m, 3), between(&m, 4, 14), 10 + pick(&m, 14));
    if (pick(&m, 2)) ls_text_add(m.y, ", rate: {least: 1 ton/ac, most: 5 ton/ac, step: 0.25 ton/ac}");
    ls_text_add(m.y, "}\ncrew:\n  arrives: 2026-02-16\n  hours: 9 h/day\n  days_off: [sunday]\n"
                     "  loader: {bucket: 2.2 yd3, fill: 95 %, load_and_dump: 30 s, travel: 5 mph}\n");
    if (pick(&m, 2))
        ls_text_addf(m.y,
                     "stack: {roofed: yes, length: %u ft, width: 40 ft, height: 5 ft, kept_until: "
                     "2026-08-01}\n",
                     30 + pick(&m, 80));
    ls_text_add(m.y, "costs: {take_out: 9 $/ton, haul: 2.10 $/mi, spread: 8 $/ton, reload: 4 $/ton}\n");
    add_buyers(&m);
    return m.y->s;
}
