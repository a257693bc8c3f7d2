/* Birds, bird-days and live weight. The day of placement counts, the day of removal does not;
 * losses fall evenly over the stay, or between dated counts; males are lost like hens. */
#include "house.h"

/* ---- bird-days between two days of a stay: losses fall evenly, or along straight lines ---- */

ls_line ls_litter_by_dates(ls_litter_house *h, ls_worksheet *w, const char *key, const char *label, const char *unit,
                           double value, ls_place at, ls_litter_days d) {
    ls_origin origin = {LS_BY_FARM, at, NULL,
                        ls_printf(w, "%s to %s", ls_date_words(h->arena, d.from, 0), ls_date_words(h->arena, d.to, 0))};
    return ls_leaf(w, key, label, unit, value, ls_spread_exact(), origin);
}

/* How much of the way from one day to another the middle of these days is. */
static double middle(ls_litter_days d, ls_litter_days way) {
    return ((d.from - way.from) + (d.to - way.from)) / (2.0 * (way.to - way.from));
}

/* Losses fall evenly: the birds of the day in the middle stand for all days of the feed. */
static ls_line by_straight_line(ls_litter_house *h, const ls_litter_flock *f, ls_worksheet *w, ls_litter_days d) {
    ls_litter_days stay = {f->told->placed.day, f->told->removed.day};
    ls_place at = f->told->placed.at;
    ls_line passed = ls_litter_by_dates(h, w, "passed", "part of the stay that has passed at the middle of this feed",
                                        "%", middle(d, stay), at, d);
    ls_line away = LS_PRODUCT(w, "away", "share of the birds missing then", "%", f->lost, passed);
    ls_line there = ls_complement(w, "there", "share of the birds there then", "%", away);
    ls_line span = ls_litter_by_dates(h, w, "days", "days of this feed", "day", d.to - d.from, at, d);
    return LS_PRODUCT(w, "bird_days", "bird-days of these days", "bird-day", f->placed, span, there);
}

ls_litter_stretch ls_litter_stretch_of(const ls_litter_flock *f, size_t j) {
    const ls_flock *told = f->told;
    bool last = j == told->counts.n;
    ls_line before = j ? f->counts[j - 1] : f->hens;
    return (ls_litter_stretch){{j ? told->counts.at[j - 1].date.day : told->placed.day,
                                last ? told->removed.day : told->counts.at[j].date.day},
                               before,
                               last ? before : f->counts[j]};
}

ls_line ls_litter_on_the_way(ls_worksheet *w, const char *key, const char *label, ls_litter_stretch s, ls_line late) {
    ls_line early = ls_complement(w, "early", "how near to the earlier one", "%", late);
    ls_line first = LS_PRODUCT(w, "first", "birds by the earlier count", "bird", s.before, early);
    ls_line second = LS_PRODUCT(w, "second", "birds by the later count", "bird", s.after, late);
    return LS_SUM(w, key, label, "bird", first, second);
}

/* Bird-days of these days, all within the stretch: days x the birds of their middle. */
static ls_line within(ls_litter_house *h, ls_worksheet *w, ls_litter_stretch s, ls_litter_days d, ls_place at) {
    ls_line late = ls_litter_by_dates(h, w, "late", "how near the middle of these days is to the later count", "%",
                                      middle(d, s.days), at, d);
    ls_line birds = ls_litter_on_the_way(w, "birds", "birds on an average day", s, late);
    ls_line span = ls_litter_by_dates(h, w, "days", "days", "day", d.to - d.from, at, d);
    return LS_PRODUCT(w, "", "bird-days of this feed between two counts", "bird-day", birds, span);
}

/* Straight lines between the counts; of breeders hens are counted and males lost alike. */
static ls_line by_counts(ls_litter_house *h, const ls_litter_flock *f, ls_worksheet *w, ls_litter_days d) {
    const ls_flock *told = f->told;
    ls_line *x = LS_NEW(h->arena, ls_line, told->counts.n + 1);
    size_t n = 0;
    for (size_t j = 0; j <= told->counts.n; j++) {
        ls_litter_stretch s = ls_litter_stretch_of(f, j);
        ls_litter_days part = {d.from > s.days.from ? d.from : s.days.from, d.to < s.days.to ? d.to : s.days.to};
        if (part.from >= part.to) continue;
        x[n] = within(h, ls_part(w, NULL, "span-%zu", n + 1), s, part, told->counts.at[0].at);
        n++;
    }
    static const char label[] = "bird-days of this feed";
    if (f->placed == f->hens) return ls_sum(w, "bird_days", label, "bird-day", x, n);
    ls_line counted = ls_sum(w, "hen_days", "hen-days of this feed", "bird-day", x, n);
    ls_line over = ls_quotient(w, "per_hen", "birds over hens", "", f->placed, f->hens);
    return LS_PRODUCT(w, "bird_days", label, "bird-day", counted, over);
}

ls_line ls_litter_bird_days(ls_litter_house *h, const ls_litter_flock *f, ls_worksheet *w, ls_date from, ls_date to) {
    ls_litter_days d = {from, to};
    ls_line known = ls_line_find(w, "bird_days"); /* of a whole stay */
    return known ? known : f->told->counts.n ? by_counts(h, f, w, d) : by_straight_line(h, f, w, d);
}

static ls_line lost_share(ls_litter_house *h, const ls_litter_flock *f) {
    static const char label[] = "share of the birds lost";
    if (LS_GIVEN(f->told->lost)) return ls_leaf_given(f->w, "lost", label, "%", &f->told->lost);
    const ls_figure *usual = ls_litter_bird_figure(h, "lost");
    ls_litter_note(h, "losses are not given: %s%% is used%s", ls_number_text(h->arena, usual->value * 100, 3),
                   ls_litter_status(usual));
    return ls_leaf_figure(f->w, "lost", label, "%", usual);
}

/* Live weight of a bird at removal, lb/bird: as told (the farm file gives the weight of one bird), of a growing bird by
 * the growth curve; over the curve where told. LS_NO_LINE: a grown bird of which nothing is told. */
static void weigh(ls_litter_house *h, ls_litter_flock *f) {
    const ls_quantity *told = &f->told->weight;
    const ls_litter_growth *g = ls_litter_growth_of(h);
    const ls_figure *usual = ls_litter_bird_figure(h, "weight");
    static const char label[] = "live weight of a bird at removal";
    if (g)
        f->weight = ls_leaf_by(f->w, LS_GIVEN(*told) ? "curve_weight" : "weight", "published live weight at that age",
                               "lb/bird", g->last_weight, g->weight[ls_flock_age(f->told)], ls_spread_exact(),
                               "Gompertz curve through the hatch weight and the published weights; past "
                               "the last of them with its last slope");
    if (!LS_GIVEN(*told)) {
        if (!g && usual) f->weight = ls_leaf_figure(f->w, "weight", label, "lb/bird", usual);
        return;
    }
    ls_line by_curve = f->weight;
    ls_line given = ls_leaf_given(f->w, "one_bird", "weight of one bird at removal", "lb", told);
    ls_line bird = ls_leaf_exact(f->w, "bird", "one bird", "bird", 1, LS_BY_DEFINITION, NULL);
    f->weight = ls_quotient(f->w, "weight", label, "lb/bird", given, bird);
    f->over_curve =
        ls_quotient(f->w, "weight_over_curve", "live weight over the published one", "", f->weight, by_curve);
}

/* How many of the birds placed were there: on an average day, and at the end. */
typedef struct {
    ls_line present, left;
} stay;

static const char there_label[] = "share of the birds there on an average day";
static const char left_label[] = "share of the birds left at the end";

/* Losses fall evenly over the stay. */
static stay stay_by_straight_line(ls_litter_house *h, ls_litter_flock *f) {
    ls_worksheet *w = f->w;
    f->lost = lost_share(h, f);
    ls_line half = ls_leaf_exact(w, "half", "half, as losses fall evenly", "", 0.5, LS_BY_DEFINITION,
                                 "losses along a straight line");
    ls_line away = LS_PRODUCT(w, "away", "share of the birds missing on an average day", "%", f->lost, half);
    return (stay){ls_complement(w, "present", there_label, "%", away),
                  ls_complement(w, "left", left_label, "%", f->lost)};
}

/* Bird-days of the j-th stretch: days x the mean of the counts. */
static ls_line between(ls_litter_house *h, const ls_litter_flock *f, size_t j) {
    ls_litter_stretch s = ls_litter_stretch_of(f, j);
    ls_worksheet *w = ls_part(f->w, NULL, "span-%zu", j + 1);
    ls_place at = j < f->told->counts.n ? f->told->counts.at[j].date.at : f->told->removed.at;
    ls_line days =
        ls_litter_by_dates(h, w, "days", "days between two counts", "day", s.days.to - s.days.from, at, s.days);
    ls_line half = ls_leaf_exact(w, "half", "half", "", 0.5, LS_BY_DEFINITION, NULL);
    ls_line both = LS_SUM(w, "both", "birds at the start and at the end", "bird", s.before, s.after);
    return LS_PRODUCT(w, "", "bird-days between two counts", "bird-day", both, half, days);
}

/* Straight lines from placing over the dated counts; the last count holds until removal. */
static stay stay_by_counts(ls_litter_house *h, ls_litter_flock *f) {
    ls_worksheet *w = f->w;
    size_t n = f->told->counts.n;
    ls_line *span = LS_NEW(h->arena, ls_line, n + 1);
    f->counts = LS_NEW(h->arena, ls_line, n);
    for (size_t j = 0; j <= n; j++) {
        if (j < n)
            f->counts[j] = ls_leaf_count(w, ls_printf(w, "count-%zu", j + 1), "birds counted", "bird",
                                         &f->told->counts.at[j].birds);
        span[j] = between(h, f, j);
    }
    ls_line sum = ls_sum(w, "counted_days", "bird-days by the counts", "bird-day", span, n + 1);
    ls_line all = LS_PRODUCT(w, "placed_days", "bird-days had none been lost", "bird-day", f->hens, f->days);
    return (stay){ls_quotient(w, "present", there_label, "%", sum, all),
                  ls_quotient(w, "left", left_label, "%", f->counts[n - 1], f->hens)};
}

/* Its bird-days since the last cleanout. */
static ls_line make_flock(ls_litter_house *h, ls_litter_flock *f) {
    ls_worksheet *w = f->w;
    const ls_flock *told = f->told;
    bool breeder = ls_bird_is_breeder(told->birds.is);
    f->placed = f->hens = ls_leaf_count(w, breeder ? "hens" : "birds", breeder ? "hens placed" : "birds placed", "bird",
                                        breeder ? &told->hens : &told->count);
    if (LS_GIVEN(told->males)) {
        ls_line males = ls_leaf_count(w, "males", "males placed", "bird", &told->males);
        f->placed = LS_SUM(w, "birds", "birds placed", "bird", f->hens, males);
    }
    ls_origin dates = {LS_BY_FARM, told->placed.at, NULL,
                       ls_printf(w, "placed %s, removed %s", ls_date_words(h->arena, told->placed.day, 0),
                                 ls_date_words(h->arena, told->removed.day, 0))};
    f->days = ls_leaf(w, "days", "days in the house", "day", (double)(told->removed.day - told->placed.day),
                      ls_spread_exact(), dates);
    stay there = told->counts.n ? stay_by_counts(h, f) : stay_by_straight_line(h, f);
    ls_date since = ls_house_since(h->house, told);
    ls_line counted = LS_NO_LINE;
    if (since > told->placed.day) {
        counted = ls_litter_bird_days(h, f, ls_part(w, NULL, "since"), since, told->removed.day);
        f->bird_days = ls_same(w, "bird_days", "bird-days since the last cleanout", "bird-day", counted);
    } else
        counted = f->bird_days = LS_PRODUCT(w, "bird_days", "bird-days", "bird-day", f->placed, f->days, there.present);
    f->mean = LS_PRODUCT(w, "mean_birds", "birds on an average day", "bird", f->placed, there.present);
    LS_PRODUCT(w, "removed", "birds removed", "bird", f->placed, there.left);
    weigh(h, f);
    return counted;
}

/* Sum over flocks; the line itself under a new name if there is one. */
static ls_line over_flocks(ls_litter_house *h, const char *key, const char *label, const char *unit, const ls_line *x,
                           size_t n) {
    return n == 1 ? ls_same(h->w, key, label, unit, x[0]) : ls_sum(h->w, key, label, unit, x, n);
}

void ls_litter_birds(ls_litter_house *h) {
    size_t n = h->house->flocks.n, n_placed = 0;
    ls_line *days = LS_NEW(h->arena, ls_line, n), *placed = LS_NEW(h->arena, ls_line, n);
    h->flocks = LS_NEW(h->arena, ls_litter_flock, n);
    for (size_t k = 0; k < n; k++) {
        ls_litter_flock *f = &h->flocks[k];
        *f = (ls_litter_flock){.told = &h->house->flocks.at[k], .w = ls_part(h->w, NULL, "flock-%zu", k + 1)};
        ls_line counted = make_flock(h, f);
        days[k] = ls_litter_times(f, f->w, "bird_days_of_all", "bird-days of the flocks alike", "bird-day", counted);
        if (ls_house_since(h->house, f->told) > f->told->placed.day)
            continue; /* their bedding went out with the last cleanout */
        placed[n_placed++] =
            ls_litter_times(f, f->w, "placed_of_all", "birds placed in the flocks alike", "bird", f->placed);
    }
    if (n > 0) h->bird_days = over_flocks(h, "bird_days", "bird-days since the last cleanout", "bird-day", days, n);
    if (n_placed > 0)
        h->placed = over_flocks(h, "placed", "birds placed since the last cleanout", "bird", placed, n_placed);
}
