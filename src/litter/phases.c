/* Feeds that follow each other: bird-days of each, from the birds alive while it was fed. */
#include "house.h"

ls_line ls_litter_flock_line(const ls_litter_house *h, size_t k, const char *what) {
    return ls_line_find(h->w, LS_KEY(h, "flock-%zu.%s", k, what));
}

const char *ls_litter_phase_key(const ls_litter_house *h, size_t k, size_t i) {
    bool several = h->house->flocks.at[k - 1].feed.n > 1;
    return several ? ls_words(h->w, ".feed-%zu", i + 1) : "";
}

/* First day, and the day after the last. */
typedef struct {
    ls_date from, to;
} days;

static days days_of(const ls_flock *f, size_t i) {
    days d = {i == 0 ? f->placed.day : f->feed.at[i].from.day,
              i + 1 < f->feed.n ? f->feed.at[i + 1].from.day : f->removed.day};
    return d;
}

static const char *in_words(ls_litter_house *h, days d) {
    ls_arena *a = ls_worksheet_arena(h->w);
    return ls_words(h->w, "%s to %s", ls_date_iso(a, d.from), ls_date_iso(a, d.to));
}

static ls_line by_dates(ls_litter_house *h, const char *key, const char *label, const char *unit,
                        double value, ls_place at, days d) {
    ls_origin origin = {LS_BY_FARM, at, NULL, in_words(h, d)};
    return ls_leaf(h->w, key, label, unit, value, ls_spread_exact(), origin);
}

/* How much of the way from one day to another the middle of these days is. */
static double middle(days d, days way) {
    return ((d.from - way.from) + (d.to - way.from)) / (2.0 * (way.to - way.from));
}

/* Losses fall evenly: the birds of the day in the middle stand for all days of the feed. */
static ls_line by_straight_line(ls_litter_house *h, size_t k, const char *prefix, days d) {
    ls_worksheet *w = h->w;
    const ls_flock *f = &h->house->flocks.at[k - 1];
    days stay = {f->placed.day, f->removed.day};
    ls_line passed = by_dates(h, ls_words(w, "%s.passed", prefix),
                              "part of the stay that has passed at the middle of this feed", "%",
                              middle(d, stay), f->feed.at[0].at, d);
    ls_line away = LS_PRODUCT(w, ls_words(w, "%s.away", prefix), "share of the birds missing then",
                              "%", ls_litter_flock_line(h, k, "lost"), passed);
    ls_line there = ls_complement(w, ls_words(w, "%s.there", prefix),
                                  "share of the birds there then", "%", away);
    ls_line span = by_dates(h, ls_words(w, "%s.days", prefix), "days of this feed", "day",
                            d.to - d.from, f->feed.at[0].at, d);
    ls_line birds = ls_litter_flock_line(h, k, "birds");
    if (birds == LS_NO_LINE)
        birds = ls_litter_flock_line(h, k, "hens");
    return LS_PRODUCT(w, ls_words(w, "%s.bird_days", prefix), "bird-days of this feed", "bird-day",
                      birds, span, there);
}

/* One count to the next; the last count holds until removal. */
typedef struct {
    days days;
    ls_line before, after;
} stretch;

static stretch stretch_of(const ls_litter_house *h, size_t k, size_t j) {
    const ls_flock *f = &h->house->flocks.at[k - 1];
    bool breeder = ls_bird_is_breeder(f->birds.is), last = j == f->counts.n;
    stretch s = {{j ? f->counts.at[j - 1].date.day : f->placed.day,
                  last ? f->removed.day : f->counts.at[j].date.day},
                 j ? ls_litter_flock_line(h, k, ls_words(h->w, "count-%zu", j))
                   : ls_litter_flock_line(h, k, breeder ? "hens" : "birds"),
                 LS_NO_LINE};
    s.after = last ? s.before : ls_litter_flock_line(h, k, ls_words(h->w, "count-%zu", j + 1));
    return s;
}

/* Bird-days of these days, all within the stretch: days x the birds of their middle. */
static ls_line within(ls_litter_house *h, const char *prefix, stretch s, days d, ls_place at) {
    ls_worksheet *w = h->w;
    ls_line late = by_dates(h, ls_words(w, "%s.late", prefix),
                            "how near the middle of these days is to the later count", "%",
                            middle(d, s.days), at, d);
    ls_line early =
        ls_complement(w, ls_words(w, "%s.early", prefix), "how near to the earlier one", "%", late);
    ls_line first = LS_PRODUCT(w, ls_words(w, "%s.first", prefix), "birds by the earlier count",
                               "bird", s.before, early);
    ls_line second = LS_PRODUCT(w, ls_words(w, "%s.second", prefix), "birds by the later count",
                                "bird", s.after, late);
    ls_line birds = LS_SUM(w, ls_words(w, "%s.birds", prefix), "birds on an average day", "bird",
                           first, second);
    ls_line span = by_dates(h, ls_words(w, "%s.days", prefix), "days", "day", d.to - d.from, at, d);
    return LS_PRODUCT(w, prefix, "bird-days of this feed between two counts", "bird-day", birds,
                      span);
}

/* Straight lines between the counts; of breeders hens are counted and males lost alike. */
static ls_line by_counts(ls_litter_house *h, size_t k, const char *prefix, days d) {
    ls_worksheet *w = h->w;
    const ls_flock *f = &h->house->flocks.at[k - 1];
    ls_line *x = LS_NEW(ls_worksheet_arena(w), ls_line, f->counts.n + 1);
    size_t n = 0;
    for (size_t j = 0; j <= f->counts.n; j++) {
        stretch s = stretch_of(h, k, j);
        days part = {d.from > s.days.from ? d.from : s.days.from,
                     d.to < s.days.to ? d.to : s.days.to};
        if (part.from < part.to) {
            const char *key = ls_words(w, "%s.span-%zu", prefix, n + 1);
            x[n++] = within(h, key, s, part, f->counts.at[0].at);
        }
    }
    ls_line all = ls_litter_flock_line(h, k, "birds"), hens = ls_litter_flock_line(h, k, "hens");
    if (all == LS_NO_LINE || hens == LS_NO_LINE)
        return ls_sum(w, ls_words(w, "%s.bird_days", prefix), "bird-days of this feed", "bird-day",
                      x, n);
    ls_line counted =
        ls_sum(w, ls_words(w, "%s.hen_days", prefix), "hen-days of this feed", "bird-day", x, n);
    ls_line over =
        ls_quotient(w, ls_words(w, "%s.per_hen", prefix), "birds over hens", "", all, hens);
    return LS_PRODUCT(w, ls_words(w, "%s.bird_days", prefix), "bird-days of this feed", "bird-day",
                      counted, over);
}

ls_litter_phase ls_litter_phase_of(ls_litter_house *h, size_t k, size_t i) {
    ls_worksheet *w = h->w;
    const ls_flock *f = &h->house->flocks.at[k - 1];
    const char *prefix = LS_KEY(h, "flock-%zu%s", k, ls_litter_phase_key(h, k, i));
    ls_litter_phase out = {ls_line_find(w, ls_words(w, "%s.bird_days", prefix)),
                           ls_line_find(w, ls_words(w, "%s.eaten", prefix))};
    if (out.bird_days == LS_NO_LINE)
        out.bird_days = f->counts.n ? by_counts(h, k, prefix, days_of(f, i))
                                    : by_straight_line(h, k, prefix, days_of(f, i));
    if (out.eaten == LS_NO_LINE && LS_GIVEN(f->feed.at[i].total))
        out.eaten = ls_quotient(w, ls_words(w, "%s.eaten", prefix), "feed eaten", "g/bird/day",
                                ls_leaf_given(w, ls_words(w, "%s.total", prefix), "all feed eaten",
                                              "ton", &f->feed.at[i].total),
                                out.bird_days);
    if (out.eaten == LS_NO_LINE)
        out.eaten = ls_leaf_given(w, ls_words(w, "%s.eaten", prefix), "feed eaten", "g/bird/day",
                                  &f->feed.at[i].eaten);
    return out;
}

static ls_line eaten_by(ls_litter_house *h, size_t k) {
    ls_worksheet *w = h->w;
    size_t n = h->house->flocks.at[k - 1].feed.n;
    ls_line *x = LS_NEW(ls_worksheet_arena(w), ls_line, n);
    for (size_t i = 0; i < n; i++) {
        ls_litter_phase phase = ls_litter_phase_of(h, k, i);
        x[i] = LS_PRODUCT(w, LS_KEY(h, "flock-%zu%s.feed", k, ls_litter_phase_key(h, k, i)),
                          "feed eaten in all", "ton", phase.bird_days, phase.eaten);
    }
    return n == 1 ? x[0]
                  : ls_sum(w, LS_KEY(h, "flock-%zu.feed", k), "feed eaten in all", "ton", x, n);
}

ls_line ls_litter_feed_eaten(ls_litter_house *h) {
    size_t n = h->house->flocks.n;
    ls_line known = ls_line_find(h->w, LS_KEY(h, "feed")),
            *x = LS_NEW(ls_worksheet_arena(h->w), ls_line, n);
    if (known != LS_NO_LINE || n == 0)
        return known;
    for (size_t k = 0; k < n; k++)
        if (h->house->flocks.at[k].feed.n == 0)
            return LS_NO_LINE;
    for (size_t k = 0; k < n; k++)
        x[k] = eaten_by(h, k + 1);
    return ls_sum(h->w, LS_KEY(h, "feed"), "feed eaten in all", "ton", x, n);
}
