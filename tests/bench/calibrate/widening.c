/* Evidence that comes out at the present middle must not widen the range. */
#include "bench/calibrate/calibrate.h"

#include "littershed/litter.h"

#include <math.h>
#include <string.h>

static const double most_widening = 1.02;

/* More rods in a house that was surveyed come out at its own depth, not at the middle of all that
 * is known. */
static bool is_more_of_the_same(const ls_farm *farm, const ls_next *x) {
    for (size_t i = 0; i < farm->houses.n; i++) {
        const ls_house *h = &farm->houses.at[i];
        bool surveyed = h->measured && (h->measured->depth.of[LS_FLOOR].form || h->measured->depth.of[LS_SLATS].form ||
                                        h->measured->depth.of[LS_SCRATCH].form);
        if (strcmp(h->name.text, x->where) == 0 && surveyed)
            return strncmp(x->what, "depth survey", strlen("depth survey")) == 0;
    }
    return false;
}

/* The farm without its trucks, so that tons are looked at and not whole loads. False: it cannot be
 * estimated. */
static int widest(const char *name, const ls_reference *r, const ls_farm *farm, bool all) {
    ls_arena *a = ls_arena_new();
    ls_farm bare = *farm;
    bare.trucks.n = 0;
    ls_worksheet *w = ls_worksheet_new(a);
    const ls_estimate *e = ls_litter_estimate(w, &bare, r, 1, LS_BLOCK);
    if (!e) ls_fail("no estimate");
    ls_next_list list = ls_litter_next(w, r, e);
    int missed = 0;
    const ls_next *worst = NULL;
    double most = 0;
    for (size_t i = 0; i < list.n; i++) {
        const ls_next *x = &list.at[i];
        if (is_more_of_the_same(&bare, x)) continue;
        double ratio = log(x->then.high / x->then.low) / log(x->now.high / x->now.low);
        missed += ratio > most_widening;
        if (all)
            printf("  %-22s %-8s %-34s %6.3f%s\n", name, x->where, x->what, ratio, ratio > most_widening ? " !" : "");
        if (!worst || ratio > most) worst = x, most = ratio;
    }
    if (!all && worst)
        printf("  %-22s %-8s %-34s %6.3f%s\n", name, worst->where, worst->what, most, most > most_widening ? " !" : "");
    ls_arena_free(a);
    return missed;
}

/* Farms drawn by chance, with evidence added kind by kind. */
static int drawn(const ls_reference *r) {
    static const int steps[] = {0, PAPER_MOISTURE, PAPER_DEPTH, PAPER_CORES, PAPER_CLEANOUT, PAPER_LAB, PAPER_PAIL};
    nature n = {r, ls_stream_new()};
    int missed = 0;
    for (int bird = 1; bird <= LS_DUCK; bird++) {
        int evidence = 0;
        for (size_t s = 0; s < sizeof steps / sizeof *steps; s++) {
            ls_arena *a = ls_arena_new();
            evidence |= steps[s];
            ls_stream_start(n.stream, 2, 1, (uint64_t)bird);
            nature_farm f = nature_farm_of(&n, bird, 1);
            const ls_farm *farm = paper_read(a, r, paper_of(a, &n, &f, &evidence));
            missed += widest(ls_arena_printf(a, "%s, %zu told", ls_bird_name(bird), s), r, farm, false);
            ls_arena_free(a);
        }
    }
    ls_stream_free(n.stream);
    return missed;
}

int calibrate_widening(const char *const *demo, size_t files) {
    ls_arena *a = ls_arena_new();
    const ls_reference *r = ls_reference_load(a);
    printf("\nOne more piece of evidence that comes out at the present middle: ln(high/low) of the\n"
           "farm's tons over that before it; of farms drawn by chance the widest\n");
    const ls_farm *farm = ls_farm_read(a, ls_diag_new(a), r, demo, files);
    if (!farm) ls_fail("the demo farm is refused");
    int missed = widest("demo", r, farm, true) + drawn(r);
    ls_arena_free(a);
    return missed;
}
