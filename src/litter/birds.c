/* Birds, bird-days and live weight. The day of placement counts, the day of removal does not;
 * losses fall evenly over the stay, or between dated counts; males are lost like hens. */
#include "house.h"

typedef struct {
    ls_line bird_days, placed;
} flock_lines;

static ls_line lost_share(ls_litter_house *h, const ls_flock *f, size_t k) {
    const char *key = LS_KEY(h, "flock-%zu.lost", k);
    if (LS_GIVEN(f->lost))
        return ls_leaf_given(h->w, key, "share of the birds lost", "%", &f->lost);
    const ls_figure *usual = ls_litter_bird_figure(h, "lost");
    ls_litter_note(h, "losses are not given: %s%% is used%s",
                   ls_number_text(ls_worksheet_arena(h->w), usual->value * 100, 3),
                   ls_litter_status(usual));
    return ls_leaf_figure(h->w, key, "share of the birds lost", "%", usual);
}

/* Live weight of a bird at removal, lb/bird: as told (the farm file gives the weight of one bird),
 * of a growing bird by the growth curve; over the curve where told. LS_NO_LINE: a grown bird of
 * which nothing is told. */
static ls_line weight_of(ls_litter_house *h, const ls_flock *f, size_t k) {
    ls_worksheet *w = h->w;
    const ls_litter_growth *g = ls_litter_growth_of(h);
    const char *key = LS_KEY(h, "flock-%zu.weight", k);
    static const char label[] = "live weight of a bird at removal";
    ls_line by_curve = LS_NO_LINE, told = LS_NO_LINE;
    if (g) {
        ls_origin origin = {LS_BY_TABLE, LS_NOWHERE, g->last_weight,
                            "Gompertz curve through the hatch weight and the published weights; "
                            "past the last of them with its last slope"};
        by_curve = ls_leaf(w, LS_GIVEN(f->weight) ? LS_KEY(h, "flock-%zu.curve_weight", k) : key,
                           "published live weight at that age", "lb/bird",
                           g->weight[f->removed.day - f->placed.day], ls_spread_exact(), origin);
    }
    const ls_figure *usual = ls_litter_bird_figure(h, "weight");
    if (!LS_GIVEN(f->weight))
        return g || !usual ? by_curve : ls_leaf_figure(w, key, label, "lb/bird", usual);
    ls_line given = ls_leaf_given(w, LS_KEY(h, "flock-%zu.one_bird", k),
                                  "weight of one bird at removal", "lb", &f->weight);
    ls_line bird = ls_leaf_exact(w, LS_KEY(h, "flock-%zu.bird", k), "one bird", "bird", 1,
                                 LS_BY_DEFINITION, NULL);
    told = ls_quotient(w, key, label, "lb/bird", given, bird);
    if (g)
        ls_quotient(w, LS_KEY(h, "flock-%zu.weight_over_curve", k),
                    "live weight over the published one", "", told, by_curve);
    return told;
}

/* How many of the birds placed were there: on an average day, and at the end. */
typedef struct {
    ls_line present, left;
} stay;

static const char there_label[] = "share of the birds there on an average day";
static const char left_label[] = "share of the birds left at the end";

/* Losses fall evenly over the stay. */
static stay by_straight_line(ls_litter_house *h, const ls_flock *f, size_t k) {
    ls_worksheet *w = h->w;
    ls_line lost = lost_share(h, f, k);
    ls_line half = ls_leaf_exact(w, LS_KEY(h, "flock-%zu.half", k), "half, as losses fall evenly",
                                 "", 0.5, LS_BY_DEFINITION, "losses along a straight line");
    ls_line away = LS_PRODUCT(w, LS_KEY(h, "flock-%zu.away", k),
                              "share of the birds missing on an average day", "%", lost, half);
    return (stay){ls_complement(w, LS_KEY(h, "flock-%zu.present", k), there_label, "%", away),
                  ls_complement(w, LS_KEY(h, "flock-%zu.left", k), left_label, "%", lost)};
}

/* Bird-days between two counts: days x the mean of the counts. */
static ls_line between(ls_litter_house *h, size_t k, size_t i, ls_line before, ls_line after,
                       ls_date from, ls_day to) {
    ls_worksheet *w = h->w;
    ls_arena *a = ls_worksheet_arena(w);
    ls_origin dates = {
        LS_BY_FARM, to.at, NULL,
        ls_printf(w, "%s to %s", ls_date_words(a, from, 0), ls_date_words(a, to.day, 0))};
    ls_line days = ls_leaf(w, LS_KEY(h, "flock-%zu.span-%zu.days", k, i), "days between two counts",
                           "day", (double)(to.day - from), ls_spread_exact(), dates);
    ls_line half = ls_leaf_exact(w, LS_KEY(h, "flock-%zu.span-%zu.half", k, i), "half", "", 0.5,
                                 LS_BY_DEFINITION, NULL);
    ls_line both = LS_SUM(w, LS_KEY(h, "flock-%zu.span-%zu.both", k, i),
                          "birds at the start and at the end", "bird", before, after);
    return LS_PRODUCT(w, LS_KEY(h, "flock-%zu.span-%zu", k, i), "bird-days between two counts",
                      "bird-day", both, half, days);
}

/* Straight lines from placing over the dated counts; the last count holds until removal. */
static stay by_counts(ls_litter_house *h, const ls_flock *f, size_t k, ls_line placed,
                      ls_line days) {
    ls_worksheet *w = h->w;
    size_t n = f->counts.n;
    ls_line *span = LS_NEW(ls_worksheet_arena(w), ls_line, n + 1), before = placed;
    ls_date from = f->placed.day;
    for (size_t i = 0; i < n; i++) {
        const ls_bird_count *c = &f->counts.at[i];
        ls_line now = ls_leaf_count(w, LS_KEY(h, "flock-%zu.count-%zu", k, i + 1), "birds counted",
                                    "bird", &c->birds);
        span[i] = between(h, k, i + 1, before, now, from, c->date);
        before = now, from = c->date.day;
    }
    span[n] = between(h, k, n + 1, before, before, from, f->removed);
    ls_line sum = ls_sum(w, LS_KEY(h, "flock-%zu.counted_days", k), "bird-days by the counts",
                         "bird-day", span, n + 1);
    ls_line all = LS_PRODUCT(w, LS_KEY(h, "flock-%zu.placed_days", k),
                             "bird-days had none been lost", "bird-day", placed, days);
    return (stay){ls_quotient(w, LS_KEY(h, "flock-%zu.present", k), there_label, "%", sum, all),
                  ls_quotient(w, LS_KEY(h, "flock-%zu.left", k), left_label, "%", before, placed)};
}

static flock_lines make_flock(ls_litter_house *h, const ls_flock *f, size_t k) {
    ls_worksheet *w = h->w;
    ls_arena *a = ls_worksheet_arena(w);
    bool breeder = ls_bird_is_breeder(f->birds.is);
    flock_lines out = {0};

    ls_line hens = ls_leaf_count(w, LS_KEY(h, "flock-%zu.%s", k, breeder ? "hens" : "birds"),
                                 breeder ? "hens placed" : "birds placed", "bird",
                                 breeder ? &f->hens : &f->count);
    ls_line birds = hens;
    if (LS_GIVEN(f->males)) {
        ls_line males =
            ls_leaf_count(w, LS_KEY(h, "flock-%zu.males", k), "males placed", "bird", &f->males);
        birds = LS_SUM(w, LS_KEY(h, "flock-%zu.birds", k), "birds placed", "bird", hens, males);
    }
    ls_origin dates = {LS_BY_FARM, f->placed.at, NULL,
                       ls_printf(w, "placed %s, removed %s", ls_date_words(a, f->placed.day, 0),
                                 ls_date_words(a, f->removed.day, 0))};
    ls_line days = ls_leaf(w, LS_KEY(h, "flock-%zu.days", k), "days in the house", "day",
                           (double)(f->removed.day - f->placed.day), ls_spread_exact(), dates);
    stay there = f->counts.n ? by_counts(h, f, k, hens, days) : by_straight_line(h, f, k);
    ls_line present = there.present, left = there.left;

    ls_date since = ls_house_since(h->house, f);
    out.placed = birds;
    out.bird_days =
        since > f->placed.day
            ? ls_litter_bird_days(h, k, LS_KEY(h, "flock-%zu.since", k), since, f->removed.day)
            : LS_PRODUCT(w, LS_KEY(h, "flock-%zu.bird_days", k), "bird-days", "bird-day", birds,
                         days, present);
    if (since > f->placed.day)
        ls_same(w, LS_KEY(h, "flock-%zu.bird_days", k), "bird-days since the last cleanout",
                "bird-day", out.bird_days);
    LS_PRODUCT(w, LS_KEY(h, "flock-%zu.mean_birds", k), "birds on an average day", "bird", birds,
               present);
    LS_PRODUCT(w, LS_KEY(h, "flock-%zu.removed", k), "birds removed", "bird", birds, left);
    weight_of(h, f, k);
    return out;
}

/* Sum over flocks; the line itself under a new name if there is one. */
static ls_line over_flocks(ls_litter_house *h, const char *key, const char *label, const char *unit,
                           const ls_line *x, size_t n) {
    for (size_t i = 0; i < n; i++)
        if (x[i] == LS_NO_LINE)
            return LS_NO_LINE;
    return n == 1 ? ls_same(h->w, LS_KEY(h, "%s", key), label, unit, x[0])
                  : ls_sum(h->w, LS_KEY(h, "%s", key), label, unit, x, n);
}

void ls_litter_birds(ls_litter_house *h) {
    size_t n = h->house->flocks.n;
    h->bird_days = h->placed = LS_NO_LINE;
    if (n == 0)
        return;
    ls_arena *a = ls_worksheet_arena(h->w);
    ls_line *days = LS_NEW(a, ls_line, n), *placed = LS_NEW(a, ls_line, n);
    size_t n_placed = 0;
    for (size_t k = 0; k < n; k++) {
        flock_lines f = make_flock(h, &h->house->flocks.at[k], k + 1);
        days[k] = ls_litter_times(h, k + 1, LS_KEY(h, "flock-%zu.bird_days_of_all", k + 1),
                                  "bird-days of the flocks alike", "bird-day", f.bird_days);
        if (ls_house_since(h->house, &h->house->flocks.at[k]) > h->house->flocks.at[k].placed.day)
            continue; /* their bedding went out with the last cleanout */
        placed[n_placed++] = ls_litter_times(h, k + 1, LS_KEY(h, "flock-%zu.placed_of_all", k + 1),
                                             "birds placed in the flocks alike", "bird", f.placed);
    }
    h->bird_days =
        over_flocks(h, "bird_days", "bird-days since the last cleanout", "bird-day", days, n);
    if (n_placed > 0)
        h->placed = over_flocks(h, "placed", "birds placed since the last cleanout", "bird", placed,
                                n_placed);
}
