/* What the birds ate: by the farm's own feeds, one after another, else by how such birds grow, else
 * by what such birds eat a day. */
#include "house.h"

const char *ls_litter_phase_key(const ls_litter_house *h, size_t k, size_t i) {
    bool several = h->house->flocks.at[k - 1].feed.n > 1;
    return several ? ls_printf(h->w, ".feed-%zu", i + 1) : "";
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

ls_litter_phase ls_litter_phase_of(ls_litter_house *h, size_t k, size_t i) {
    ls_worksheet *w = h->w;
    const ls_flock *f = &h->house->flocks.at[k - 1];
    const ls_feed *feed = &f->feed.at[i];
    ls_litter_days d = days_of(h, f, i);
    const char *prefix = LS_KEY(h, "flock-%zu%s", k, ls_litter_phase_key(h, k, i));
    const char *key = ls_printf(w, "%s.feed", prefix);
    static const char label[] = "feed eaten";
    ls_litter_phase out = {ls_line_find(w, key), d.from < d.to};
    if (out.feed != LS_NO_LINE || !out.counts)
        return out;
    ls_date begin = i == 0 ? f->placed.day : feed->from.day;
    if (LS_GIVEN(feed->total) && d.from == begin) {
        out.feed = ls_leaf_given(w, key, label, "ton", &feed->total);
        return out;
    }
    ls_line there = ls_litter_bird_days(h, k, prefix, d.from, d.to);
    if (LS_GIVEN(feed->eaten)) {
        ls_line eaten = ls_leaf_given(w, ls_printf(w, "%s.eaten", prefix),
                                      "feed eaten a bird and day", "g/bird/day", &feed->eaten);
        out.feed = LS_PRODUCT(w, key, label, "ton", there, eaten);
        return out;
    }
    ls_line all = ls_litter_bird_days(h, k, ls_printf(w, "%s.whole", prefix), begin, d.to);
    ls_line total = ls_leaf_given(w, ls_printf(w, "%s.total", prefix), "feed eaten in all", "ton",
                                  &feed->total);
    ls_line part = ls_quotient(w, ls_printf(w, "%s.since", prefix),
                               "bird-days since the last cleanout, of all", "%", there, all);
    out.feed = LS_PRODUCT(w, key, "feed eaten since the last cleanout", "ton", total, part);
    return out;
}

/* ---- a flock whose feed is told ---- */

static ls_line told(ls_litter_house *h, size_t k) {
    ls_worksheet *w = h->w;
    size_t n = h->house->flocks.at[k - 1].feed.n, counted = 0;
    ls_line *x = LS_NEW(ls_worksheet_arena(w), ls_line, n);
    for (size_t i = 0; i < n; i++) {
        ls_litter_phase phase = ls_litter_phase_of(h, k, i);
        x[counted] = phase.feed;
        counted += phase.counts;
    }
    return n == 1 ? x[0]
                  : ls_sum(w, LS_KEY(h, "flock-%zu.feed", k), "feed eaten by the flock", "ton", x,
                           counted);
}

/* ---- a flock that grows ---- */

/* The day of the stay in the middle of its feed: half of it is eaten before. */
static double middle_of_feed(const ls_litter_growth *g, size_t from, size_t to) {
    double sum = 0;
    for (size_t t = from; t < to; t++)
        sum += ((double)t + 0.5) * (ls_litter_feed_to(g, t + 1, 1) - ls_litter_feed_to(g, t, 1));
    return sum / (ls_litter_feed_to(g, to, 1) - ls_litter_feed_to(g, from, 1));
}

/* How well feed that the farm does not tell is known: what birds of one kind on a farm eat is one
 * question. */
static ls_line feed_known(ls_litter_house *h) {
    const char *key = ls_litter_published_key(h, "feed-known");
    ls_line known = ls_line_find(h->w, key);
    return known != LS_NO_LINE
               ? known
               : ls_litter_factor(h, key, "how well such feed is known", "feed not given");
}

static const char middle_words[] = "the day about which the feed is spread evenly";

/* Birds alive on a day of the stay, as losses fall evenly. */
static ls_line birds_by_loss(ls_litter_house *h, size_t k, double day) {
    ls_worksheet *w = h->w;
    const ls_flock *f = &h->house->flocks.at[k - 1];
    ls_line passed = ls_leaf_exact(w, LS_KEY(h, "flock-%zu.eating.passed", k),
                                   "part of the stay that has passed in the middle of the feed",
                                   "%", day / (double)(f->removed.day - f->placed.day),
                                   LS_BY_FIRST_PASS, middle_words);
    ls_line away =
        LS_PRODUCT(w, LS_KEY(h, "flock-%zu.eating.away", k), "share of the birds missing then", "%",
                   ls_litter_flock_line(h, k, "lost"), passed);
    ls_line there = ls_complement(w, LS_KEY(h, "flock-%zu.eating.there", k),
                                  "share of the birds there then", "%", away);
    return LS_PRODUCT(w, LS_KEY(h, "flock-%zu.eating", k), "birds alive in the middle of the feed",
                      "bird", ls_litter_placed_of(h, k), there);
}

/* Between two counts; late: how near to the later one. */
static ls_line birds_by_counts(ls_litter_house *h, const char *prefix, ls_litter_stretch s,
                               double late) {
    ls_worksheet *w = h->w;
    ls_line later = ls_leaf_exact(w, ls_printf(w, "%s.late", prefix),
                                  "how near the middle of the feed is to the later count", "%",
                                  late, LS_BY_FIRST_PASS, middle_words);
    ls_line early = ls_complement(w, ls_printf(w, "%s.early", prefix),
                                  "how near to the earlier one", "%", later);
    ls_line first = LS_PRODUCT(w, ls_printf(w, "%s.first", prefix), "birds by the earlier count",
                               "bird", s.before, early);
    ls_line second = LS_PRODUCT(w, ls_printf(w, "%s.second", prefix), "birds by the later count",
                                "bird", s.after, later);
    return LS_SUM(w, ls_printf(w, "%s.eating", prefix), "birds alive in the middle of the feed",
                  "bird", first, second);
}

static ls_line of_curve(ls_litter_house *h, const char *key, const char *label, double value,
                        const ls_figure *from) {
    ls_origin origin = {
        LS_BY_TABLE, LS_NOWHERE, from,
        "in proportion to 0.055 kg a day for each kg^0.75 of live weight and 1.35 kg "
        "for each kg gained (common practice), by the growth curve, scaled to this "
        "published feed"};
    return ls_leaf(h->w, key, label, "lb/bird", value, ls_spread_exact(), origin);
}

/* Times as much to live: live weight to the power of 0.75. Made once. */
static ls_line to_the_power(ls_litter_house *h, size_t k, ls_line times) {
    ls_worksheet *w = h->w;
    static const char words[] = "what living takes rises as live weight to the power of 0.75";
    ls_line known = ls_litter_flock_line(h, k, "living_over_curve");
    if (known != LS_NO_LINE)
        return known;
    ls_line power = ls_leaf_exact(w, LS_KEY(h, "flock-%zu.power", k), "power of live weight", "",
                                  0.75, LS_BY_DEFINITION, words);
    ls_line rest =
        ls_complement(w, LS_KEY(h, "flock-%zu.power_rest", k), "rest of the power", "", power);
    ls_line one =
        ls_leaf_exact(w, LS_KEY(h, "flock-%zu.one", k), "one", "", 1, LS_BY_DEFINITION, NULL);
    return ls_geomean(w, LS_KEY(h, "flock-%zu.living_over_curve", k), "times as much feed to live",
                      "", (const ls_line[]){times, one}, (const ls_line[]){power, rest}, 2);
}

/* From one day of age to another by so many birds. */
static ls_line eaten(ls_litter_house *h, size_t k, const char *prefix, size_t from, size_t to,
                     ls_line birds) {
    ls_worksheet *w = h->w;
    const ls_litter_growth *g = ls_litter_growth_of(h);
    ls_line live = of_curve(h, ls_printf(w, "%s.feed_to_live", prefix),
                            "feed that a bird of the published weight eats to live",
                            g->upkeep[to] - g->upkeep[from], g->feed);
    ls_line gain = of_curve(h, ls_printf(w, "%s.feed_to_grow", prefix),
                            "feed that a bird of the published weight eats to grow",
                            g->gain[to] - g->gain[from], g->feed);
    ls_line times = ls_litter_flock_line(h, k, "weight_over_curve");
    if (times != LS_NO_LINE) {
        live = LS_PRODUCT(w, ls_printf(w, "%s.fed_to_live", prefix),
                          "feed that a bird of this weight eats to live", "lb/bird", live,
                          to_the_power(h, k, times));
        gain = LS_PRODUCT(w, ls_printf(w, "%s.fed_to_grow", prefix),
                          "feed that a bird of this weight eats to grow", "lb/bird", gain, times);
    }
    ls_line each = LS_SUM(w, ls_printf(w, "%s.feed_per_bird", prefix), "feed a bird eats",
                          "lb/bird", live, gain);
    return LS_PRODUCT(w, ls_printf(w, "%s.feed_by_growth", prefix), "feed eaten, by growth", "ton",
                      birds, each, feed_known(h));
}

static ls_line grown(ls_litter_house *h, size_t k) {
    ls_worksheet *w = h->w;
    const ls_litter_growth *g = ls_litter_growth_of(h);
    const ls_flock *f = &h->house->flocks.at[k - 1];
    size_t from = (size_t)(ls_house_since(h->house, f) - f->placed.day),
           to = (size_t)(f->removed.day - f->placed.day), n = 0;
    if (f->counts.n == 0)
        return eaten(h, k, LS_KEY(h, "flock-%zu", k), from, to,
                     birds_by_loss(h, k, middle_of_feed(g, from, to)));
    ls_line *x = LS_NEW(ls_worksheet_arena(w), ls_line, f->counts.n + 1);
    for (size_t j = 0; j <= f->counts.n; j++) {
        ls_litter_stretch s = ls_litter_stretch_of(h, k, j);
        size_t begin = (size_t)(s.days.from - f->placed.day),
               end = (size_t)(s.days.to - f->placed.day);
        size_t a = begin > from ? begin : from, b = end < to ? end : to;
        if (a >= b)
            continue;
        const char *prefix = LS_KEY(h, "flock-%zu.stretch-%zu", k, j + 1);
        double late = (middle_of_feed(g, a, b) - (double)begin) / (double)(end - begin);
        x[n++] = eaten(h, k, prefix, a, b, birds_by_counts(h, prefix, s, late));
    }
    return ls_sum(w, LS_KEY(h, "flock-%zu.feed_by_growth", k), "feed eaten, by growth", "ton", x,
                  n);
}

/* ---- a flock of grown birds ---- */

static ls_line by_day(ls_litter_house *h, size_t k) {
    ls_line each = ls_litter_daily_feed(h);
    return each == LS_NO_LINE
               ? LS_NO_LINE
               : LS_PRODUCT(h->w, LS_KEY(h, "flock-%zu.feed_by_days", k), "feed eaten, by the day",
                            "ton", ls_litter_flock_line(h, k, "bird_days"), each, feed_known(h));
}

ls_line ls_litter_usual_feed(ls_litter_house *h) {
    ls_worksheet *w = h->w;
    const ls_litter_growth *g = ls_litter_growth_of(h);
    const char *key = ls_litter_published_key(h, "usual_feed");
    static const char label[] = "feed such a bird eats in its stay";
    ls_line known = ls_line_find(w, key);
    if (known != LS_NO_LINE)
        return known;
    const ls_figure *feed = ls_litter_bird_figure(h, "feed"),
                    *stay = ls_litter_bird_figure(h, "days");
    double each = g ? ls_litter_feed_to(g, g->end, 1) : feed->value * stay->value;
    ls_origin origin = {LS_BY_TABLE, LS_NOWHERE, g ? g->feed : feed,
                        g ? "by the growth curve, at the age of this figure"
                          : "times the usual days in the house"};
    return ls_leaf(w, key, label, "lb/bird", each, ls_spread_exact(), origin);
}

ls_line ls_litter_times(ls_litter_house *h, size_t k, const char *key, const char *label,
                        const char *unit, ls_line x) {
    const ls_flock *f = &h->house->flocks.at[k - 1];
    if (x == LS_NO_LINE || !LS_GIVEN(f->flocks))
        return x;
    ls_line n = ls_litter_flock_line(h, k, "flocks");
    if (n == LS_NO_LINE)
        n = ls_leaf_exact(h->w, LS_KEY(h, "flock-%zu.flocks", k), "flocks alike", "",
                          (double)ls_flock_times(f), LS_BY_FARM, "as given");
    return LS_PRODUCT(h->w, key, label, unit, x, n);
}

/* Feed told beside what such birds eat: is it of one flock, in the right unit? */
static void compare(ls_litter_house *h, size_t k, ls_line told_feed, ls_line usual) {
    if (usual == LS_NO_LINE)
        return;
    ls_line over = ls_quotient(h->w, LS_KEY(h, "flock-%zu.feed_over_usual", k),
                               "feed given over what such birds eat", "", told_feed, usual);
    ls_litter_query(h, "feed-told", "the feed given, over what such birds eat in that time,", over,
                    "plausible", "feed over usual");
}

static ls_line of_flock(ls_litter_house *h, size_t k) {
    bool is_told = h->house->flocks.at[k - 1].feed.n > 0;
    ls_line usual = ls_litter_growth_of(h) ? grown(h, k) : by_day(h, k);
    if (!is_told)
        return usual;
    ls_line feed = told(h, k);
    compare(h, k, feed, usual);
    return feed;
}

void ls_litter_feed(ls_litter_house *h) {
    size_t n = h->house->flocks.n;
    ls_line *x = LS_NEW(ls_worksheet_arena(h->w), ls_line, n);
    h->feed = LS_NO_LINE;
    for (size_t k = 0; k < n; k++) {
        x[k] = of_flock(h, k + 1);
        if (x[k] == LS_NO_LINE)
            return;
        x[k] = ls_litter_times(h, k + 1, LS_KEY(h, "flock-%zu.feed_of_all", k + 1),
                               "feed eaten by the flocks alike", "ton", x[k]);
    }
    if (n > 0)
        h->feed =
            ls_sum(h->w, LS_KEY(h, "feed"), "feed eaten since the last cleanout", "ton", x, n);
}
