/* One source left out: do the others foresee what it found, in a house of its own birds? */
#include "bench/calibrate/without_source.h"
#include "bench/calibrate/calibrate.h"

#include "littershed/litter.h"

#include <math.h>
#include <string.h>

typedef struct {
    ls_arena *a;
    const nature *n;
    int bird;
    const ls_row *row;
} source_case;

enum { BIRDS = 10000 };

static double value_of(const ls_row *row, const char *column, double otherwise) {
    const ls_figure *f = ls_row_figure(row, column);
    return f ? f->value : otherwise;
}

static bool is_per(const source_case *c, const char *what) { return strcmp(ls_row_word(c->row, "per"), what) == 0; }

/* Per bird and day, of birds that stay as they are? */
static bool is_daily(const source_case *c) { return !is_per(c, "bird") && !is_per(c, "live-weight"); }

static double days_of(const source_case *c) {
    const ls_figure *usual = nature_cell(c->n, "bird", "", ls_bird_name(c->bird), "days");
    return round(is_per(c, "bird-year") ? 365 : value_of(c->row, "own_days", usual ? usual->value : 0));
}

/* A figure that the source of the row itself tells; what others are taken to fill in is not told.
 */
static const ls_figure *told(const source_case *c, const char *column) {
    const ls_figure *f = ls_row_figure(c->row, column);
    return f && f->source == c->row->source ? f : NULL;
}

/* lb of feed a bird, in all, by the source. */
static double feed_of(const source_case *c) {
    const ls_figure *usual = nature_cell(c->n, "bird", "", ls_bird_name(c->bird), "feed");
    return value_of(c->row, "own_feed", usual ? usual->value : 0) * (is_daily(c) ? days_of(c) : 1);
}

/* lb a bird that the row says was found, wet or dry as it has it, its bedding in it. */
static double found_of(const source_case *c) {
    if (ls_row_figure(c->row, "feed_share"))
        return value_of(c->row, "feed_share", 0) * value_of(c->row, "kept", 1) * feed_of(c);
    double litter = value_of(c->row, "litter", 0);
    return litter * (is_daily(c) ? days_of(c) : is_per(c, "live-weight") ? value_of(c->row, "own_weight", 0) : 1);
}

/* The house of the source, as far as the source tells it. */
static const char *farm_of(const source_case *c) {
    ls_text *t = ls_text_new(c->a);
    double days = days_of(c);
    const ls_figure *bedding = ls_row_figure(c->row, "own_bedding"), *weight = ls_row_figure(c->row, "own_weight");
    const char *manure = ls_row_word(c->row, "manure");
    ls_text_addf(t,
                 "houses:\n  - name: H\n    length: 500 ft\n    width: 40 ft\n    flocks:\n      - "
                 "birds: %s\n        %s: %d\n",
                 ls_bird_name(c->bird), ls_bird_is_breeder(c->bird) ? "hens" : "count", BIRDS);
    ls_text_addf(t, "        placed: %s\n        removed: 2026-02-09\n        lost: 0 %%\n",
                 ls_date_iso(c->a, ls_date_of(2026, 2, 9) - (ls_date)days));
    if (weight && is_per(c, "bird") && weight->spread.kind == LS_RECTANGULAR)
        ls_text_addf(t, "        weight: %.4f..%.4f lb\n", weight->spread.low, weight->spread.high);
    else if (weight && !is_daily(c))
        ls_text_addf(t, "        weight: %.4f lb\n", weight->value);
    if (told(c, "own_feed") || ls_row_figure(c->row, "feed_share"))
        ls_text_addf(t, "        feed: {total: %.4f ton}\n", feed_of(c) * BIRDS / 2000);
    if (bedding && !(bedding->value > 0))
        ls_text_add(t, "    bedding: none\n");
    else if (told(c, "own_bedding")) /* shavings of 10 % moisture */
        ls_text_addf(t, "    bedding: [{material: shavings, weight: %.4f ton}]\n", bedding->value * BIRDS / 0.9 / 2000);
    if (manure) ls_text_addf(t, "    manure: %s\n", manure);
    return t->s;
}

static bool foreseen(const source_case *c) {
    const ls_reference *without = without_source(c->a, c->n->reference, c->row->source->id);
    ls_worksheet *w = ls_worksheet_new(c->a);
    const ls_estimate *e = ls_litter_estimate(w, paper_read(c->a, without, farm_of(c)), without, 1, LS_BLOCK);
    if (!e) ls_fail("no estimate without %s", c->row->source->id);
    double found = found_of(c) * BIRDS;
    const char *state = ls_row_word(c->row, "state");
    bool wet = state && strcmp(state, "wet") == 0;
    const ls_q *q = wet ? &e->tons : &e->dry_tons;
    bool holds = q->low <= found && found <= q->high;
    printf("  %-16s %-14s %7.1f %s  %7.1f %7.1f %7.1f   %s\n", ls_bird_name(c->bird), c->row->source->id, found / 2000,
           wet ? "wet" : "dry", q->low / 2000, q->mid / 2000, q->high / 2000,
           holds            ? "held"
           : found < q->low ? "below"
                            : "above");
    return holds;
}

static bool is_asked(const ls_row *row) {
    const char *word = ls_row_word(row, "default");
    return word && strcmp(word, "yes") == 0 && row->source;
}

int calibrate_sources(void) {
    ls_arena *a = ls_arena_new();
    nature n = {ls_reference_load(a), ls_stream_new()};
    int held = 0, of = 0;
    printf("\nOne source left out: tons it found of 10,000 of its own birds, and the 10-50-90 %%\n"
           "range by all others\n  bird             source           found          low     mid    "
           "high\n");
    for (int bird = 1; bird <= LS_DUCK; bird++) {
        const ls_table *t = ls_reference_table(n.reference, "droppings", ls_bird_name(bird));
        ls_stream_start(n.stream, 1, 1, (uint64_t)bird);
        if (nature_droppings(&n, bird, NULL).sources < 2) continue; /* nothing would be left */
        for (size_t i = 0; i < t->n; i++) {
            source_case c = {a, &n, bird, &t->rows[i]};
            if (is_asked(c.row)) held += foreseen(&c), of++;
        }
    }
    bool missed = held < 0.6 * of;
    printf("  %d of %d held%s\n", held, of, missed ? ": fewer than 60 % !" : "");
    ls_stream_free(n.stream);
    ls_arena_free(a);
    return missed;
}
