/* Published figures made comparable: each is of birds of its own, that ate a feed and stood on a
 * bedding of their own. */
#include "house.h"

#include <math.h>
#include <string.h>

const ls_figure *ls_litter_bird_figure(const ls_litter_house *h, const char *column) {
    return ls_row_figure(
        ls_table_row(ls_reference_table(h->reference, "bird", ""), ls_bird_name(h->bird)), column);
}

const char *ls_litter_published_key(const ls_litter_house *h, const char *tail) {
    const char *bird = ls_text_slug(ls_worksheet_arena(h->w), ls_bird_name(h->bird));
    return ls_printf(h->w, "published-%s.%s", bird, tail);
}

const char *ls_litter_manure(const ls_litter_house *h) {
    return LS_GIVEN(h->house->manure) ? ls_manure_name(h->house->manure.is) : NULL;
}

const ls_figure *ls_litter_moisture_figure(const ls_litter_house *h, const char *manure) {
    const ls_table *t = ls_reference_table(h->reference, "moisture", "");
    bool apart = manure && ls_bird_is(h->bird, LS_MANURE_APART);
    const char *row = apart ? ls_printf(h->w, "manure %s", manure) : ls_bird_tables(h->bird);
    return ls_row_figure(ls_table_row(t, row), "moisture");
}

ls_line ls_litter_shared_part(ls_litter_house *h, const char *key, const char *label,
                              const char *unit, const ls_figure *f, double own) {
    ls_line known = ls_line_find(h->w, key);
    if (known != LS_NO_LINE)
        return known;
    double all = ls_spread_scale(f->spread, f->value), part = fmin(own / all, 1);
    ls_origin origin = {LS_BY_TABLE, LS_NOWHERE, f,
                        "the part of its spread that the houses of a farm share"};
    return ls_leaf(h->w, key, label, unit, f->value,
                   ls_spread_narrowed(f->spread, f->value, sqrt(1 - part * part)), origin);
}

ls_line ls_litter_cell(ls_litter_house *h, const ls_row *row, const char *prefix,
                       const char *column, const char *label) {
    const ls_figure *f = ls_row_figure(row, column);
    return f ? ls_litter_shared(h, ls_printf(h->w, "%s.%s", prefix, column), label, f->unit.text, f)
             : LS_NO_LINE;
}

bool ls_litter_row_fits(const ls_litter_house *h, const ls_row *row) {
    const char *kept = ls_row_word(row, "manure"), *told = ls_litter_manure(h);
    return kept == NULL || told == NULL || strcmp(kept, told) == 0;
}

const ls_row *ls_litter_default_row(const ls_litter_house *h, const char *kind,
                                    const char *column) {
    const ls_table *t = ls_reference_table(h->reference, kind, ls_bird_tables(h->bird));
    const char *told = ls_litter_manure(h);
    const ls_row *usual = NULL, *other = NULL;
    for (size_t i = 0; t && i < t->n; i++) {
        const ls_row *row = &t->rows[i];
        if (!ls_row_figure(row, column))
            continue;
        if (told && ls_text_same(ls_row_word(row, "manure"), told))
            return row;
        bool is_default = ls_text_same(ls_row_word(row, "default"), "yes");
        usual = !usual && is_default ? row : usual;
        other = other ? other : row;
    }
    return usual ? usual : other;
}

/* ---- the feed of a published figure's own bird ---- */

/* Its own bird by the growth curve: how long it stayed, and what it weighed (NULL: as the curve has
 * it). */
typedef struct {
    size_t days;
    double times, feed, live_days, weight; /* lb a bird; lb-days */
    const char *words;
} own_bird;

static bool by_growth(ls_litter_house *h, const ls_row *row, own_bird *out) {
    const ls_litter_growth *g = ls_litter_growth_of(h);
    const ls_figure *days = ls_row_figure(row, "own_days"),
                    *weight = ls_row_figure(row, "own_weight");
    if (!g || (!days && !weight))
        return false;
    size_t day = days ? (size_t)days->value : 0;
    while (!days && day < g->days && g->weight[day] < weight->value)
        day++;
    if (day == 0 || day > g->days)
        return false;
    double times = weight ? weight->value / g->weight[day] : 1;
    *out = (own_bird){day,
                      times,
                      ls_litter_feed_to(g, day, times),
                      times * ls_litter_live_days(g, day),
                      times * g->weight[day],
                      ls_printf(h->w, "of a bird of %s lb at %zu days, by the growth curve",
                                ls_number_text(ls_worksheet_arena(h->w), times * g->weight[day], 3),
                                day)};
    return true;
}

static ls_line of_own_bird(ls_litter_house *h, const char *prefix, const char *label,
                           const char *unit, double value, const char *words) {
    const char *key = ls_printf(h->w, "%s.own_feed", prefix);
    ls_line known = ls_line_find(h->w, key);
    ls_origin origin = {LS_BY_TABLE, LS_NOWHERE, ls_litter_growth_of(h)->feed, words};
    return known != LS_NO_LINE ? known
                               : ls_leaf(h->w, key, label, unit, value, ls_spread_exact(), origin);
}

/* In the terms of the figure: a day, a bird, over its live weight, or over its mean live weight a
 * day.
 */
static ls_line told_feed(ls_litter_house *h, const ls_row *row, const char *prefix, ls_line told) {
    const char *per = ls_row_word(row, "per"), *key = ls_printf(h->w, "%s.own_feed_over", prefix);
    ls_line known = ls_line_find(h->w, key);
    bool daily = strcmp(per, "live-weight-day") == 0;
    if (known != LS_NO_LINE || (strcmp(per, "live-weight") != 0 && !daily))
        return known != LS_NO_LINE ? known : told;
    if (!daily)
        return ls_quotient(
            h->w, key, "feed over live weight of its own bird", "", told,
            ls_litter_cell(h, row, prefix, "own_weight", "live weight of its own bird"));
    ls_line over = ls_quotient(
        h->w, ls_printf(h->w, "%s.own_feed_over_live", prefix),
        "feed over the mean live weight of its own bird", "", told,
        ls_litter_cell(h, row, prefix, "own_mean_weight", "mean live weight of its own bird"));
    return ls_quotient(h->w, key, "feed a day over the mean live weight of its own bird", "%/day",
                       over,
                       ls_litter_cell(h, row, prefix, "own_days", "days its own bird stayed"));
}

ls_line ls_litter_daily_feed(ls_litter_house *h) {
    const ls_figure *f = ls_litter_bird_figure(h, "feed");
    return f ? ls_litter_shared(h, ls_litter_published_key(h, "feed"),
                                "feed a bird eats in a day, published", "g/bird/day", f)
             : LS_NO_LINE;
}

ls_line ls_litter_own_feed(ls_litter_house *h, const ls_row *row, const char *prefix) {
    const char *per = ls_row_word(row, "per");
    ls_line told = ls_litter_cell(h, row, prefix, "own_feed", "feed that its own bird ate");
    bool a_day = strcmp(per, "bird") != 0 && strcmp(per, "live-weight") != 0 &&
                 strcmp(per, "live-weight-day") != 0;
    own_bird own;
    if (told != LS_NO_LINE)
        return told_feed(h, row, prefix, told);
    if (a_day)
        return ls_litter_daily_feed(h);
    if (!by_growth(h, row, &own))
        return LS_NO_LINE;
    if (strcmp(per, "bird") == 0)
        return of_own_bird(h, prefix, "feed that its own bird ate", "lb/bird", own.feed, own.words);
    if (strcmp(per, "live-weight") == 0)
        return of_own_bird(h, prefix, "feed over live weight of its own bird", "",
                           own.feed / own.weight, own.words);
    return of_own_bird(h, prefix, "feed a day over the mean live weight of its own bird", "%/day",
                       own.feed / own.live_days, own.words);
}
