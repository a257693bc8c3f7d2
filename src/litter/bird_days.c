/* Bird-days between two days of a stay: losses fall evenly, or along straight lines between counts.
 */
#include "house.h"

ls_line ls_litter_by_dates(ls_litter_house *h, ls_worksheet *w, const char *key, const char *label,
                           const char *unit, double value, ls_place at, ls_litter_days d) {
    ls_origin origin = {LS_BY_FARM, at, NULL,
                        ls_printf(w, "%s to %s", ls_date_words(h->arena, d.from, 0),
                                  ls_date_words(h->arena, d.to, 0))};
    return ls_leaf(w, key, label, unit, value, ls_spread_exact(), origin);
}

/* How much of the way from one day to another the middle of these days is. */
static double middle(ls_litter_days d, ls_litter_days way) {
    return ((d.from - way.from) + (d.to - way.from)) / (2.0 * (way.to - way.from));
}

/* Losses fall evenly: the birds of the day in the middle stand for all days of the feed. */
static ls_line by_straight_line(ls_litter_house *h, const ls_litter_flock *f, ls_worksheet *w,
                                ls_litter_days d) {
    ls_litter_days stay = {f->told->placed.day, f->told->removed.day};
    ls_place at = f->told->placed.at;
    ls_line passed = ls_litter_by_dates(
        h, w, "passed", "part of the stay that has passed at the middle of this feed", "%",
        middle(d, stay), at, d);
    ls_line away = LS_PRODUCT(w, "away", "share of the birds missing then", "%", f->lost, passed);
    ls_line there = ls_complement(w, "there", "share of the birds there then", "%", away);
    ls_line span =
        ls_litter_by_dates(h, w, "days", "days of this feed", "day", d.to - d.from, at, d);
    return LS_PRODUCT(w, "bird_days", "bird-days of these days", "bird-day", f->placed, span,
                      there);
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

ls_line ls_litter_on_the_way(ls_worksheet *w, const char *key, const char *label,
                             ls_litter_stretch s, ls_line late) {
    ls_line early = ls_complement(w, "early", "how near to the earlier one", "%", late);
    ls_line first = LS_PRODUCT(w, "first", "birds by the earlier count", "bird", s.before, early);
    ls_line second = LS_PRODUCT(w, "second", "birds by the later count", "bird", s.after, late);
    return LS_SUM(w, key, label, "bird", first, second);
}

/* Bird-days of these days, all within the stretch: days x the birds of their middle. */
static ls_line within(ls_litter_house *h, ls_worksheet *w, ls_litter_stretch s, ls_litter_days d,
                      ls_place at) {
    ls_line late =
        ls_litter_by_dates(h, w, "late", "how near the middle of these days is to the later count",
                           "%", middle(d, s.days), at, d);
    ls_line birds = ls_litter_on_the_way(w, "birds", "birds on an average day", s, late);
    ls_line span = ls_litter_by_dates(h, w, "days", "days", "day", d.to - d.from, at, d);
    return LS_PRODUCT(w, "", "bird-days of this feed between two counts", "bird-day", birds, span);
}

/* Straight lines between the counts; of breeders hens are counted and males lost alike. */
static ls_line by_counts(ls_litter_house *h, const ls_litter_flock *f, ls_worksheet *w,
                         ls_litter_days d) {
    const ls_flock *told = f->told;
    ls_line *x = LS_NEW(h->arena, ls_line, told->counts.n + 1);
    size_t n = 0;
    for (size_t j = 0; j <= told->counts.n; j++) {
        ls_litter_stretch s = ls_litter_stretch_of(f, j);
        ls_litter_days part = {d.from > s.days.from ? d.from : s.days.from,
                               d.to < s.days.to ? d.to : s.days.to};
        if (part.from >= part.to)
            continue;
        x[n] = within(h, ls_part(w, NULL, "span-%zu", n + 1), s, part, told->counts.at[0].at);
        n++;
    }
    static const char label[] = "bird-days of this feed";
    if (f->placed == f->hens)
        return ls_sum(w, "bird_days", label, "bird-day", x, n);
    ls_line counted = ls_sum(w, "hen_days", "hen-days of this feed", "bird-day", x, n);
    ls_line over = ls_quotient(w, "per_hen", "birds over hens", "", f->placed, f->hens);
    return LS_PRODUCT(w, "bird_days", label, "bird-day", counted, over);
}

ls_line ls_litter_bird_days(ls_litter_house *h, const ls_litter_flock *f, ls_worksheet *w,
                            ls_date from, ls_date to) {
    ls_litter_days d = {from, to};
    ls_line known = ls_line_find(w, "bird_days"); /* of a whole stay */
    return known ? known : f->told->counts.n ? by_counts(h, f, w, d) : by_straight_line(h, f, w, d);
}
