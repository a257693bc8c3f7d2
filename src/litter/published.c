/* Published figures made comparable: each is of birds of its own, that ate a feed and stood on a
 * bedding of their own. */
#include "house.h"

#include <math.h>
#include <string.h>

const ls_figure *ls_litter_bird_figure(const ls_litter_house *h, const char *column) {
    return ls_row_figure(ls_table_row(ls_reference_table(h->reference, "bird", ""), ls_bird_name(h->bird)), column);
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

ls_line ls_litter_shared_part(ls_worksheet *w, const char *key, const char *label, const char *unit, const ls_figure *f,
                              double own) {
    double all = ls_spread_scale(f->spread, f->value), part = fmin(own / all, 1);
    return ls_leaf_by(w, key, label, unit, f, f->value, ls_spread_narrowed(f->spread, f->value, sqrt(1 - part * part)),
                      "the part of its spread that the houses of a farm share");
}

ls_line ls_litter_cell(ls_worksheet *w, const ls_row *row, const char *column, const char *label) {
    const ls_figure *f = ls_row_figure(row, column);
    return f ? ls_leaf_figure(w, column, label, f->unit.text, f) : LS_NO_LINE;
}

bool ls_litter_row_fits(const ls_litter_house *h, const ls_row *row) {
    const char *kept = ls_row_word(row, "manure"), *told = ls_litter_manure(h);
    return kept == NULL || told == NULL || strcmp(kept, told) == 0;
}

const ls_row *ls_litter_default_row(const ls_litter_house *h, const char *kind, const char *column) {
    const ls_table *t = ls_reference_table(h->reference, kind, ls_bird_tables(h->bird));
    const char *told = ls_litter_manure(h);
    const ls_row *usual = NULL, *other = NULL;
    for (size_t i = 0; t && i < t->n; i++) {
        const ls_row *row = &t->rows[i];
        if (!ls_row_figure(row, column)) continue;
        if (told && ls_text_same(ls_row_word(row, "manure"), told)) return row;
        bool is_default = ls_text_same(ls_row_word(row, "default"), "yes");
        usual = !usual && is_default ? row : usual;
        other = other ? other : row;
    }
    return usual ? usual : other;
}

/* ---- the feed of a published figure's own bird ---- */

/* Its own bird by the growth curve. */
typedef struct {
    double feed, live_days, weight; /* lb a bird; lb-days */
    const char *words;
} own_bird;

static bool by_growth(ls_litter_house *h, const ls_row *row, own_bird *out) {
    const ls_litter_growth *g = ls_litter_growth_of(h);
    const ls_figure *days = ls_row_figure(row, "own_days"), *weight = ls_row_figure(row, "own_weight");
    if (!g || (!days && !weight)) return false;
    size_t day = days ? (size_t)days->value : 0;
    while (!days && day < g->days && g->weight[day] < weight->value) day++;
    if (day == 0 || day > g->days) return false;
    double times = weight ? weight->value / g->weight[day] : 1;
    *out = (own_bird){ls_litter_feed_to(g, day, times), times * ls_litter_live_days(g, day), times * g->weight[day],
                      ls_printf(h->w, "of a bird of %s lb at %zu days, by the growth curve",
                                ls_number_text(h->arena, times * g->weight[day], 3), day)};
    return true;
}

static ls_line of_own_bird(ls_litter_house *h, ls_worksheet *w, const char *label, const char *unit, double value,
                           const char *words) {
    return ls_leaf_by(w, "own_feed", label, unit, ls_litter_growth_of(h)->feed, value, ls_spread_exact(), words);
}

static const char own_label[] = "feed that its own bird ate",
                  over_weight_label[] = "feed over live weight of its own bird",
                  over_mean_label[] = "feed a day over the mean live weight of its own bird";

/* What a row is per: a day, a bird, over its live weight, or over its mean live weight a day. */
typedef enum { A_DAY, A_BIRD, LIVE_WEIGHT, LIVE_WEIGHT_DAY } per;

static per per_of(const ls_row *row) {
    const char *word = ls_row_word(row, "per");
    return strcmp(word, "bird") == 0              ? A_BIRD
           : strcmp(word, "live-weight") == 0     ? LIVE_WEIGHT
           : strcmp(word, "live-weight-day") == 0 ? LIVE_WEIGHT_DAY
                                                  : A_DAY;
}

/* In the terms of the figure. */
static ls_line told_feed(ls_worksheet *w, const ls_row *row, ls_line told) {
    per is = per_of(row);
    if (is == LIVE_WEIGHT)
        return ls_quotient(w, "own_feed_over", over_weight_label, "", told,
                           ls_litter_cell(w, row, "own_weight", "live weight of its own bird"));
    if (is != LIVE_WEIGHT_DAY) return told;
    ls_line over = ls_quotient(w, "own_feed_over_live", "feed over the mean live weight of its own bird", "", told,
                               ls_litter_cell(w, row, "own_mean_weight", "mean live weight of its own bird"));
    return ls_quotient(w, "own_feed_over", over_mean_label, "%/day", over,
                       ls_litter_cell(w, row, "own_days", "days its own bird stayed"));
}

ls_line ls_litter_daily_feed(ls_litter_house *h) {
    const ls_figure *f = ls_litter_bird_figure(h, "feed");
    return f ? ls_leaf_figure(h->published, "feed", "feed a bird eats in a day, published", "g/bird/day", f)
             : LS_NO_LINE;
}

ls_line ls_litter_own_feed(ls_litter_house *h, const ls_row *row, ls_worksheet *w) {
    ls_line told = ls_litter_cell(w, row, "own_feed", own_label);
    own_bird own;
    if (told) return told_feed(w, row, told);
    per is = per_of(row);
    if (is == A_DAY) return ls_litter_daily_feed(h);
    if (!by_growth(h, row, &own)) return LS_NO_LINE;
    if (is == A_BIRD) return of_own_bird(h, w, own_label, "lb/bird", own.feed, own.words);
    return is == LIVE_WEIGHT ? of_own_bird(h, w, over_weight_label, "", own.feed / own.weight, own.words)
                             : of_own_bird(h, w, over_mean_label, "%/day", own.feed / own.live_days, own.words);
}
