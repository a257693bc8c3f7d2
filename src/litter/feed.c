/* What the birds ate: by the farm's own feeds, one after another, else by how such birds grow, else
 * by what such birds eat a day. */
#include "house.h"

ls_worksheet *ls_litter_of_phase(const ls_litter_flock *f, ls_worksheet *w, size_t i) {
    return f->told->feed.n > 1 ? ls_part(w, NULL, "feed-%zu", i + 1) : w;
}

/* Of a feed, as far as it counts; none are left of one that was eaten before the last cleanout. */
static ls_litter_days days_of(const ls_litter_house *h, const ls_flock *f, size_t i) {
    ls_date since = ls_house_since(h->house, f);
    ls_litter_days d = {i == 0 ? f->placed.day : f->feed.at[i].from.day,
                        i + 1 < f->feed.n ? f->feed.at[i + 1].from.day : f->removed.day};
    d.from = d.from > since ? d.from : since;
    d.to = d.to > d.from ? d.to : d.from;
    return d;
}

ls_line ls_litter_phase(ls_litter_house *h, const ls_litter_flock *f, size_t i) {
    const ls_feed *feed = &f->told->feed.at[i];
    ls_litter_days d = days_of(h, f->told, i);
    ls_worksheet *w = ls_litter_of_phase(f, f->w, i);
    static const char label[] = "feed eaten";
    ls_date begin = i == 0 ? f->told->placed.day : feed->from.day;
    if (d.from >= d.to) return LS_NO_LINE;
    if (LS_GIVEN(feed->total) && d.from == begin) return ls_leaf_given(w, "feed", label, "ton", &feed->total);
    ls_line there = ls_litter_bird_days(h, f, w, d.from, d.to);
    if (LS_GIVEN(feed->eaten))
        return LS_PRODUCT(w, "feed", label, "ton", there,
                          ls_leaf_given(w, "eaten", "feed eaten a bird and day", "g/bird/day", &feed->eaten));
    ls_line all = ls_litter_bird_days(h, f, ls_part(w, NULL, "whole"), begin, d.to);
    ls_line total = ls_leaf_given(w, "total", "feed eaten in all", "ton", &feed->total);
    ls_line part = ls_quotient(w, "since", "bird-days since the last cleanout, of all", "%", there, all);
    return LS_PRODUCT(w, "feed", "feed eaten since the last cleanout", "ton", total, part);
}

/* ---- a flock whose feed is told ---- */

static ls_line told(ls_litter_house *h, const ls_litter_flock *f) {
    size_t n = f->told->feed.n;
    ls_line *x = LS_NEW(h->arena, ls_line, n);
    for (size_t i = 0; i < n; i++) x[i] = ls_litter_phase(h, f, i);
    return n == 1 ? x[0] : ls_sum(f->w, "feed", "feed eaten by the flock", "ton", x, n);
}

/* ---- a flock that grows ---- */

/* The day of the stay in the middle of its feed: half of it is eaten before. */
static double middle_of_feed(const ls_litter_growth *g, size_t from, size_t to) {
    double sum = 0;
    for (size_t t = from; t < to; t++)
        sum += ((double)t + 0.5) * (ls_litter_feed_to(g, t + 1, 1) - ls_litter_feed_to(g, t, 1));
    return sum / (ls_litter_feed_to(g, to, 1) - ls_litter_feed_to(g, from, 1));
}

/* How well feed not told is known: what birds of one kind on a farm eat is one question. */
static ls_line feed_known(ls_litter_house *h) {
    return ls_litter_factor(h, h->published, "feed-known", "how well such feed is known", "feed not given");
}

static const char middle_words[] = "the day about which the feed is spread evenly";
static const char alive_label[] = "birds alive in the middle of the feed";

/* Birds alive on a day of the stay, as losses fall evenly. */
static ls_line birds_by_loss(const ls_litter_flock *f, double day) {
    ls_worksheet *w = ls_part(f->w, NULL, "eating");
    ls_line passed =
        ls_leaf_exact(w, "passed", "part of the stay that has passed in the middle of the feed", "%",
                      day / (double)(f->told->removed.day - f->told->placed.day), LS_BY_FIRST_PASS, middle_words);
    ls_line away = LS_PRODUCT(w, "away", "share of the birds missing then", "%", f->lost, passed);
    ls_line there = ls_complement(w, "there", "share of the birds there then", "%", away);
    return LS_PRODUCT(w, "", alive_label, "bird", f->placed, there);
}

/* Between two counts; late: how near to the later one. */
static ls_line birds_by_counts(ls_worksheet *w, ls_litter_stretch s, double late) {
    ls_line later = ls_leaf_exact(w, "late", "how near the middle of the feed is to the later count", "%", late,
                                  LS_BY_FIRST_PASS, middle_words);
    return ls_litter_on_the_way(w, "eating", alive_label, s, later);
}

static ls_line of_curve(ls_worksheet *w, const char *key, const char *label, double value, const ls_figure *from) {
    return ls_leaf_by(w, key, label, "lb/bird", from, value, ls_spread_exact(),
                      "in proportion to 0.055 kg a day for each kg^0.75 of live weight and 1.35 kg for each kg "
                      "gained (common practice), by the growth curve, scaled to this published feed");
}

/* Times as much to live: live weight to the power of 0.75. */
static ls_line to_the_power(const ls_litter_flock *f) {
    ls_line power = ls_leaf_exact(f->w, "power", "power of live weight", "", 0.75, LS_BY_DEFINITION,
                                  "what living takes rises as live weight to the power of 0.75");
    ls_line rest = ls_complement(f->w, "power_rest", "rest of the power", "", power);
    ls_line one = ls_leaf_exact(f->w, "one", "one", "", 1, LS_BY_DEFINITION, NULL);
    return ls_geomean(f->w, "living_over_curve", "times as much feed to live", "",
                      (const ls_line[]){f->over_curve, one}, (const ls_line[]){power, rest}, 2);
}

/* From one day of age to another by so many birds. */
static ls_line eaten(ls_litter_house *h, const ls_litter_flock *f, ls_worksheet *w, size_t from, size_t to,
                     ls_line birds) {
    const ls_litter_growth *g = ls_litter_growth_of(h);
    ls_line live = of_curve(w, "feed_to_live", "feed that a bird of the published weight eats to live",
                            g->upkeep[to] - g->upkeep[from], g->feed);
    ls_line gain = of_curve(w, "feed_to_grow", "feed that a bird of the published weight eats to grow",
                            g->gain[to] - g->gain[from], g->feed);
    if (f->over_curve) {
        live = LS_PRODUCT(w, "fed_to_live", "feed that a bird of this weight eats to live", "lb/bird", live,
                          to_the_power(f));
        gain = LS_PRODUCT(w, "fed_to_grow", "feed that a bird of this weight eats to grow", "lb/bird", gain,
                          f->over_curve);
    }
    ls_line each = LS_SUM(w, "feed_per_bird", "feed a bird eats", "lb/bird", live, gain);
    return LS_PRODUCT(w, "feed_by_growth", "feed eaten, by growth", "ton", birds, each, feed_known(h));
}

static ls_line grown(ls_litter_house *h, const ls_litter_flock *f) {
    const ls_litter_growth *g = ls_litter_growth_of(h);
    const ls_flock *flock = f->told;
    ls_date hatched = flock->placed.day - (ls_date)flock->came;
    size_t from = (size_t)(ls_house_since(h->house, flock) - hatched), to = ls_flock_age(flock);
    if (flock->counts.n == 0)
        return eaten(h, f, f->w, from, to, birds_by_loss(f, middle_of_feed(g, from, to) - (double)flock->came));
    ls_line *x = LS_NEW(h->arena, ls_line, flock->counts.n + 1);
    for (size_t j = 0; j <= flock->counts.n; j++) {
        ls_litter_stretch s = ls_litter_stretch_of(f, j);
        size_t begin = (size_t)(s.days.from - hatched), end = (size_t)(s.days.to - hatched);
        size_t a = begin > from ? begin : from, b = end < to ? end : to;
        if (a >= b) continue;
        ls_worksheet *w = ls_part(f->w, NULL, "stretch-%zu", j + 1);
        double late = (middle_of_feed(g, a, b) - (double)begin) / (double)(end - begin);
        x[j] = eaten(h, f, w, a, b, birds_by_counts(w, s, late));
    }
    return ls_sum(f->w, "feed_by_growth", "feed eaten, by growth", "ton", x, flock->counts.n + 1);
}

/* ---- a flock of grown birds ---- */

static ls_line by_day(ls_litter_house *h, const ls_litter_flock *f) {
    ls_line each = ls_litter_daily_feed(h);
    return each ? LS_PRODUCT(f->w, "feed_by_days", "feed eaten, by the day", "ton", f->bird_days, each, feed_known(h))
                : LS_NO_LINE;
}

ls_line ls_litter_usual_feed(ls_litter_house *h) {
    const ls_litter_growth *g = ls_litter_growth_of(h);
    const ls_figure *feed = ls_litter_bird_figure(h, "feed"), *stay = ls_litter_bird_figure(h, "days");
    double each = g ? ls_litter_feed_to(g, g->end, 1) : feed->value * stay->value;
    return ls_leaf_by(h->published, "usual_feed", "feed such a bird eats in its stay", "lb/bird", g ? g->feed : feed,
                      each, ls_spread_exact(),
                      g ? "by the growth curve, at the age of this figure" : "times the usual days in the house");
}

static ls_line of_flock(ls_litter_house *h, const ls_litter_flock *f) {
    ls_line usual = ls_litter_growth_of(h) ? grown(h, f) : by_day(h, f);
    if (f->told->feed.n == 0) return usual;
    ls_line feed = told(h, f);
    /* is it of one flock, in the right unit? */
    ls_line over = ls_quotient(f->w, "feed_over_usual", "feed given over what such birds eat", "", feed, usual);
    ls_litter_query(h, "feed-told", "the feed given, over what such birds eat in that time,", over, "plausible",
                    "feed over usual");
    return feed;
}

void ls_litter_feed(ls_litter_house *h) {
    size_t n = h->house->flocks.n;
    ls_line *x = LS_NEW(h->arena, ls_line, n);
    for (size_t k = 0; k < n; k++) {
        const ls_litter_flock *f = &h->flocks[k];
        x[k] = of_flock(h, f);
        if (!x[k]) return;
        x[k] = ls_litter_times(f, f->w, "feed_of_all", "feed eaten by the flocks alike", "ton", x[k]);
    }
    if (n > 0) h->feed = ls_sum(h->w, "feed", "feed eaten since the last cleanout", "ton", x, n);
}
