/* Is the truth within the 10-90 % range in 80 % of farms? */
#include "bench/calibrate/calibrate.h"

#include "littershed/litter.h"

#include <math.h>
#include <string.h>

enum { DRY, WET, POUNDS, FIRM, MEASURES };
enum { SURVEY = PAPER_DEPTH | PAPER_MOISTURE };

typedef struct {
    const char *name;
    size_t houses;
    int first, others; /* evidence of the first house, of each other */
    bool last;         /* looked at: the last house alone; else the farm */
    bool bound;        /* not asked of houses without evidence */
    bool wet_only;     /* readings of moisture tell nothing of dry tons */
} kind;

static const kind kinds[] = {
    {"depth survey with cores", 1, SURVEY | PAPER_CORES, 0, true, true, false},
    {"depth survey with a pail", 1, SURVEY | PAPER_PAIL, 0, true, true, false},
    {"depth survey without any density", 1, SURVEY, 0, true, true, false},
    {"readings of moisture", 1, PAPER_MOISTURE, 0, true, true, true},
    {"lab report, own feed's phosphorus", 1, PAPER_LAB, 0, true, true, false},
    {"last cleanout's tickets", 1, PAPER_CLEANOUT, 0, true, true, false},
    {"a sister house measured", 2, SURVEY | PAPER_CORES, 0, true, true, false},
    {"loads hauled, a share cleared", 1, PAPER_LOADS, 0, true, true, false},
    {"all of these", 1, PAPER_ALL, 0, true, true, false},
    {"no evidence", 1, 0, 0, true, false, false},
    {"farm of 6 houses, none measured", 6, 0, 0, false, false, false},
    {"farm of 6, one measured", 6, SURVEY | PAPER_CORES, 0, false, true, false},
    {"farm of 6, all surveyed", 6, SURVEY | PAPER_CORES, SURVEY | PAPER_CORES, false, true, false},
    {"farm of 6, surveyed, no density", 6, SURVEY, SURVEY, false, true, false},
};

typedef struct {
    long held[MEASURES], of[MEASURES];
    double width, above; /* ln(high/low) of dry tons; how often the truth lies above the middle */
} tally;

static void count(tally *t, int what, bool holds) { t->held[what] += holds, t->of[what]++; }

static bool within(const ls_q *q, double truth) { return q->low <= truth && truth <= q->high; }

/* One farm of this kind. */
static void one_farm(const nature *n, const kind *k, long number, tally *t) {
    ls_arena *a = ls_arena_new();
    ls_stream_start(n->stream, 1, ls_text_hash(k->name), (uint64_t)number);
    nature_farm f = nature_farm_of(n, 1 + (int)(number % LS_DUCK), k->houses);
    int evidence[NATURE_MOST_HOUSES];
    for (size_t i = 0; i < k->houses; i++) evidence[i] = i ? k->others : k->first;
    ls_farm *farm = paper_read(a, n->reference, paper_of(a, n, &f, evidence));
    double gone = 0;
    if (k->first & PAPER_LOADS) paper_loads(a, n, &f.house[0], "H1", farm, &gone);
    ls_worksheet *w = ls_worksheet_new(a);
    const ls_estimate *e = ls_litter_estimate(w, farm, n->reference, 1, LS_BLOCK);
    if (!e) ls_fail("no estimate");
    double wet = 0, dry = 0, pounds = 0, payloads = 0;
    for (size_t i = k->last ? k->houses - 1 : 0; i < k->houses; i++) {
        const nature_house *h = &f.house[i];
        double there = h->wet - gone;
        wet += there, dry += there * (1 - h->moisture);
        pounds += there * (1 - h->moisture) * h->P2O5;
        payloads += floor(there / fmin(22000, 540 * h->loose));
    }
    const ls_lot *lot = &e->lots[k->houses - 1];
    const ls_q *q = k->last ? &lot->dry_tons : &e->dry_tons;
    count(t, DRY, within(q, dry));
    count(t, WET, within(k->last ? &lot->tons : &e->tons, wet));
    if (!(k->first & PAPER_LAB))
        count(t, POUNDS, within(k->last ? &lot->pounds[LS_P2O5] : &e->pounds[LS_P2O5], pounds));
    count(t, FIRM, ls_line_value(w, k->last ? lot->firm : e->firm) <= payloads);
    t->width += log(q->high / q->low), t->above += dry > q->mid;
    ls_arena_free(a);
}

static int judge(const kind *k, const tally *t, long farms) {
    static const double least[] = {0.74, 0.74, 0, 0.86}, most[] = {0.88, 0.88, 1, 1};
    int missed = 0;
    printf("  %-34s", k->name);
    for (int i = 0; i < MEASURES; i++) {
        double share = (double)t->held[i] / (double)t->of[i];
        bool asked = k->bound && !(i == 0 && k->wet_only);
        bool bad = asked && t->of[i] > 0 && (share < least[i] || share > most[i]);
        if (t->of[i] == 0)
            printf("      -  ");
        else
            printf("  %5.1f%s", 100 * share, bad ? " !" : "  ");
        missed += bad;
    }
    printf("   %5.2f   %4.0f\n", exp(t->width / (double)farms), 100 * t->above / (double)farms);
    fflush(stdout);
    return missed;
}

int calibrate_coverage(long farms, int part) {
    ls_arena *a = ls_arena_new();
    nature n = {ls_reference_load(a), ls_stream_new()};
    int missed = 0;
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++) {
        tally t = {0};
        if (part >= 0 && (int)(i % 2) != part) continue;
        for (long number = 0; number < farms; number++) one_farm(&n, &kinds[i], number, &t);
        missed += judge(&kinds[i], &t, farms);
    }
    ls_stream_free(n.stream);
    ls_arena_free(a);
    return missed;
}
