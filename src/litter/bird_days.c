/* Bird-days between two days of a stay: losses fall evenly, or along straight lines between counts.
 */
#include "house.h"

static const char *in_words(ls_litter_house *h, ls_litter_days d) {
    ls_arena *a = ls_worksheet_arena(h->w);
    return ls_printf(h->w, "%s to %s", ls_date_words(a, d.from, 0), ls_date_words(a, d.to, 0));
}

static ls_line by_dates(ls_litter_house *h, const char *key, const char *label, const char *unit,
                        double value, ls_place at, ls_litter_days d) {
    ls_origin origin = {LS_BY_FARM, at, NULL, in_words(h, d)};
    return ls_leaf(h->w, key, label, unit, value, ls_spread_exact(), origin);
}

/* How much of the way from one day to another the middle of these days is. */
static double middle(ls_litter_days d, ls_litter_days way) {
    return ((d.from - way.from) + (d.to - way.from)) / (2.0 * (way.to - way.from));
}

ls_line ls_litter_placed_of(const ls_litter_house *h, size_t k) {
    ls_line birds = ls_litter_flock_line(h, k, "birds");
    return birds != LS_NO_LINE ? birds : ls_litter_flock_line(h, k, "hens");
}

/* Losses fall evenly: the birds of the day in the middle stand for all days of the feed. */
static ls_line by_straight_line(ls_litter_house *h, size_t k, const char *prefix,
                                ls_litter_days d) {
    ls_worksheet *w = h->w;
    const ls_flock *f = &h->house->flocks.at[k - 1];
    ls_litter_days stay = {f->placed.day, f->removed.day};
    ls_line passed = by_dates(h, ls_printf(w, "%s.passed", prefix),
                              "part of the stay that has passed at the middle of this feed", "%",
                              middle(d, stay), f->placed.at, d);
    ls_line away = LS_PRODUCT(w, ls_printf(w, "%s.away", prefix), "share of the birds missing then",
                              "%", ls_litter_flock_line(h, k, "lost"), passed);
    ls_line there = ls_complement(w, ls_printf(w, "%s.there", prefix),
                                  "share of the birds there then", "%", away);
    ls_line span = by_dates(h, ls_printf(w, "%s.days", prefix), "days of this feed", "day",
                            d.to - d.from, f->placed.at, d);
    return LS_PRODUCT(w, ls_printf(w, "%s.bird_days", prefix), "bird-days of these days",
                      "bird-day", ls_litter_placed_of(h, k), span, there);
}

ls_litter_stretch ls_litter_stretch_of(const ls_litter_house *h, size_t k, size_t j) {
    const ls_flock *f = &h->house->flocks.at[k - 1];
    bool breeder = ls_bird_is_breeder(f->birds.is), last = j == f->counts.n;
    ls_litter_stretch s = {{j ? f->counts.at[j - 1].date.day : f->placed.day,
                            last ? f->removed.day : f->counts.at[j].date.day},
                           j ? ls_litter_flock_line(h, k, ls_printf(h->w, "count-%zu", j))
                             : ls_litter_flock_line(h, k, breeder ? "hens" : "birds"),
                           LS_NO_LINE};
    s.after = last ? s.before : ls_litter_flock_line(h, k, ls_printf(h->w, "count-%zu", j + 1));
    return s;
}

/* Bird-days of these days, all within the stretch: days x the birds of their middle. */
static ls_line within(ls_litter_house *h, const char *prefix, ls_litter_stretch s, ls_litter_days d,
                      ls_place at) {
    ls_worksheet *w = h->w;
    ls_line late = by_dates(h, ls_printf(w, "%s.late", prefix),
                            "how near the middle of these days is to the later count", "%",
                            middle(d, s.days), at, d);
    ls_line early = ls_complement(w, ls_printf(w, "%s.early", prefix),
                                  "how near to the earlier one", "%", late);
    ls_line first = LS_PRODUCT(w, ls_printf(w, "%s.first", prefix), "birds by the earlier count",
                               "bird", s.before, early);
    ls_line second = LS_PRODUCT(w, ls_printf(w, "%s.second", prefix), "birds by the later count",
                                "bird", s.after, late);
    ls_line birds = LS_SUM(w, ls_printf(w, "%s.birds", prefix), "birds on an average day", "bird",
                           first, second);
    ls_line span =
        by_dates(h, ls_printf(w, "%s.days", prefix), "days", "day", d.to - d.from, at, d);
    return LS_PRODUCT(w, prefix, "bird-days of this feed between two counts", "bird-day", birds,
                      span);
}

/* Straight lines between the counts; of breeders hens are counted and males lost alike. */
static ls_line by_counts(ls_litter_house *h, size_t k, const char *prefix, ls_litter_days d) {
    ls_worksheet *w = h->w;
    const ls_flock *f = &h->house->flocks.at[k - 1];
    ls_line *x = LS_NEW(ls_worksheet_arena(w), ls_line, f->counts.n + 1);
    size_t n = 0;
    for (size_t j = 0; j <= f->counts.n; j++) {
        ls_litter_stretch s = ls_litter_stretch_of(h, k, j);
        ls_litter_days part = {d.from > s.days.from ? d.from : s.days.from,
                               d.to < s.days.to ? d.to : s.days.to};
        if (part.from < part.to) {
            const char *key = ls_printf(w, "%s.span-%zu", prefix, n + 1);
            x[n++] = within(h, key, s, part, f->counts.at[0].at);
        }
    }
    ls_line all = ls_litter_flock_line(h, k, "birds"), hens = ls_litter_flock_line(h, k, "hens");
    if (all == LS_NO_LINE || hens == LS_NO_LINE)
        return ls_sum(w, ls_printf(w, "%s.bird_days", prefix), "bird-days of this feed", "bird-day",
                      x, n);
    ls_line counted =
        ls_sum(w, ls_printf(w, "%s.hen_days", prefix), "hen-days of this feed", "bird-day", x, n);
    ls_line over =
        ls_quotient(w, ls_printf(w, "%s.per_hen", prefix), "birds over hens", "", all, hens);
    return LS_PRODUCT(w, ls_printf(w, "%s.bird_days", prefix), "bird-days of this feed", "bird-day",
                      counted, over);
}

ls_line ls_litter_bird_days(ls_litter_house *h, size_t k, const char *prefix, ls_date from,
                            ls_date to) {
    const ls_flock *f = &h->house->flocks.at[k - 1];
    ls_line known = ls_line_find(h->w, ls_printf(h->w, "%s.bird_days", prefix));
    return known != LS_NO_LINE ? known
           : f->counts.n       ? by_counts(h, k, prefix, (ls_litter_days){from, to})
                               : by_straight_line(h, k, prefix, (ls_litter_days){from, to});
}
