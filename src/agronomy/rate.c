/* The rate: the least of the limits, down to the spreader's step; and what goes on at it. */
#include "room.h"

#include <math.h>

const char *ls_limit_name(ls_limit limit) {
    static const char *const names[] = {"nitrogen", "phosphorus", "cap",
                                        "spreader", "window",     "closed"};
    return names[limit];
}

/* The litter of one analysis on one field while its lines are made. */
typedef struct {
    const ls_agronomy_plot *plot;
    const ls_agronomy_litter *litter;
    const char *prefix; /* of the keys */
    ls_line limit, stepped;
    ls_line *window_of; /* [cap of a season] in litter; LS_NO_LINE: it does not apply */
    ls_rate out;
} rating;

static const char *key_of(const rating *r, const char *rest) {
    return ls_printf(r->plot->g->w, "%s.%s", r->prefix, rest);
}

/* The report's figure as it stands; without one the 90 % point, or the middle where the plan says
 * so. */
static ls_line used(const rating *r, const ls_agronomy_content *c) {
    if (c->reported)
        return c->stated;
    return r->plot->field->without_lab.is == LS_EXPECTED ? c->middle : c->ninety;
}

/* ---- limits ---- */

/* What may go on over what a ton holds. Litter that by its report or table holds none of it meets
 * no limit. */
static ls_line limit_by(const rating *r, const char *key, const char *label, ls_line allowed,
                        ls_line per_ton) {
    ls_worksheet *w = r->plot->g->w;
    if (allowed == LS_NO_LINE || !(ls_line_value(w, per_ton) > 0))
        return LS_NO_LINE;
    return ls_quotient(w, key_of(r, key), label, "ton/ac", allowed, per_ton);
}

/* A cap of a season, in litter of this analysis. */
static ls_line cap_limit(const rating *r, size_t i) {
    const ls_field_cap *c = &r->plot->out->caps[i];
    if (LS_GIVEN(c->cap->most))
        return c->figure;
    const char *rest = ls_printf(r->plot->g->w, "window-%zu", i + 1);
    return limit_by(r, rest, "limit of the season", c->figure,
                    LS_GIVEN(c->cap->total_nitrogen) ? used(r, &r->litter->nitrogen) : r->out.pan);
}

/* The least of the caps of a season that apply. */
static ls_line window_limit(rating *r) {
    const ls_field_rates *out = r->plot->out;
    ls_worksheet *w = r->plot->g->w;
    ls_line *limits = LS_NEW(r->plot->g->arena, ls_line, out->caps_n);
    size_t n = 0;
    r->window_of = LS_NEW(r->plot->g->arena, ls_line, out->caps_n);
    for (size_t i = 0; i < out->caps_n; i++) {
        ls_line limit = out->caps[i].applies ? cap_limit(r, i) : LS_NO_LINE;
        r->window_of[i] = limit;
        if (limit != LS_NO_LINE)
            limits[n++] = limit;
    }
    if (n < 2)
        return n == 1 ? limits[0] : LS_NO_LINE;
    return ls_least(w, key_of(r, "window"), "the lowest limit of the season", "ton/ac", limits, n);
}

/* The least of the limits, with or without the caps of a season. */
static ls_line least_limit(const rating *r, const char *key, const char *label, bool window) {
    const ls_agronomy_plot *p = r->plot;
    const ls_rate *out = &r->out;
    const ls_line all[] = {out->nitrogen, out->phosphorus, out->cap,
                           out->spreader, p->closed,       window ? out->window : LS_NO_LINE};
    ls_line limits[sizeof all / sizeof *all];
    size_t n = 0;
    for (size_t i = 0; i < sizeof all / sizeof *all; i++)
        if (all[i] != LS_NO_LINE)
            limits[n++] = all[i];
    return ls_least(p->g->w, key_of(r, key), label, "ton/ac", limits, n);
}

static void make_limits(rating *r) {
    const ls_agronomy_plot *p = r->plot;
    ls_rate *out = &r->out;
    out->pan = used(r, &r->litter->pan[p->spreading]);
    out->nitrogen = limit_by(r, "nitrogen", "nitrogen limit", p->out->left[LS_FIELD_N], out->pan);
    out->phosphorus =
        limit_by(r, "phosphorus", "phosphorus limit", p->phosphate, used(r, &r->litter->phosphate));
    out->cap = p->cap;
    out->spreader = p->g->truck_most;
    out->window = window_limit(r);
    r->limit = least_limit(r, "limit", "the lowest limit", true);
}

/* The limit that binds, read off afterwards: of equal ones the first. */
static ls_limit binding(const rating *r) {
    const ls_agronomy_plot *p = r->plot;
    ls_worksheet *w = p->g->w;
    const ls_phosphorus *rated = p->field->phosphorus;
    if (p->closed != LS_NO_LINE || (rated != NULL && rated->rating.is == LS_RATING_VERY_HIGH))
        return LS_LIMIT_CLOSED;
    const ls_line limits[] = {r->out.nitrogen, r->out.phosphorus, r->out.cap, r->out.spreader,
                              r->out.window};
    ls_limit least = LS_LIMIT_CAP;
    for (int i = LS_LIMIT_WINDOW; i >= LS_LIMIT_NITROGEN; i--)
        if (limits[i] != LS_NO_LINE &&
            ls_line_value(w, limits[i]) <= ls_line_value(w, limits[least]))
            least = (ls_limit)i;
    return least;
}

/* ---- the spreader ---- */

/* Down to whole steps, and then times 1 or 0: whether the least rate of the spreader is reached is
 * the whole part of rate / least, at most 1, so that no line's value decides how the rate is made.
 * part leads the keys; *stepped is the limit in whole steps. */
static ls_line spread_at(const rating *r, const char *part, const char *label, ls_line limit,
                         ls_line *stepped) {
    ls_agronomy *g = r->plot->g;
    ls_worksheet *w = g->w;
    const char *key = key_of(r, ls_printf(w, "%srate", part));
    bool least = g->truck_least != LS_NO_LINE;
    *stepped = limit;
    if (g->truck_step != LS_NO_LINE)
        *stepped = ls_step_down(w, least ? key_of(r, ls_printf(w, "%sstepped", part)) : key,
                                least ? "the limit in whole steps of the spreader" : label,
                                "ton/ac", limit, g->truck_step);
    if (!least)
        return g->truck_step != LS_NO_LINE ? *stepped : ls_same(w, key, label, "ton/ac", limit);
    ls_line times = ls_quotient(w, key_of(r, ls_printf(w, "%sleasts", part)),
                                "the spreader's least rate in it", "", *stepped, g->truck_least);
    ls_line whole = ls_step_down(w, key_of(r, ls_printf(w, "%swhole_leasts", part)),
                                 "the same in whole numbers", "", times, g->one);
    ls_line reached = LS_LEAST(w, key_of(r, ls_printf(w, "%sreached", part)),
                               "1 if the spreader can go so low, else 0", "", g->one, whole);
    return LS_PRODUCT(w, key, label, "ton/ac", *stepped, reached);
}

static void make_rate(rating *r) {
    r->out.rate = spread_at(r, "", "rate", r->limit, &r->stepped);
    r->out.outside = LS_NO_LINE;
    if (r->out.window == LS_NO_LINE || r->plot->out->outside.n == 0)
        return;
    ls_line stepped, limit = least_limit(r, "outside.limit",
                                         "the lowest limit without those of the season", false);
    r->out.outside =
        spread_at(r, "outside.", "rate on days without a season limit", limit, &stepped);
}

/* The cap of a season whose limit is the least: which of the field's, by its days and its rule. */
static const char *season_words(const rating *r) {
    const ls_field_rates *out = r->plot->out;
    ls_agronomy *g = r->plot->g;
    const ls_window_cap *least = NULL;
    double lowest = INFINITY;
    for (size_t i = 0; i < out->caps_n; i++) {
        const ls_field_cap *c = &out->caps[i];
        ls_line litter = r->window_of[i];
        if (litter != LS_NO_LINE && ls_line_value(g->w, litter) < lowest) {
            lowest = ls_line_value(g->w, litter);
            least = c->cap;
        }
    }
    if (least == NULL)
        return "the limit of the season";
    return ls_printf(g->w, "the limit of the season from %s to %s%s%s",
                     ls_date_words(g->arena, least->between.days.from, 0),
                     ls_date_words(g->arena, least->between.days.to, 0),
                     least->rule.text == NULL ? "" : ", by the rule of ",
                     least->rule.text == NULL ? "" : least->rule.text);
}

/* The limit that binds, in words. */
static const char *limit_words(const rating *r) {
    switch (r->out.limit) {
    case LS_LIMIT_NITROGEN:
        return "the nitrogen limit";
    case LS_LIMIT_PHOSPHORUS:
        return "the phosphorus limit";
    case LS_LIMIT_CAP:
        return LS_GIVEN(r->plot->field->most) ? "the plan's top rate"
                                              : "the top of the published range";
    case LS_LIMIT_SPREADER:
        return "the spreader's own top rate";
    case LS_LIMIT_WINDOW:
        return season_words(r);
    case LS_LIMIT_CLOSED:
        break;
    }
    return "the limit";
}

/* "the nitrogen limit, 0.8 ton/ac, is below ... of the spreader". */
static const char *too_low(const rating *r, const char *what) {
    ls_agronomy *g = r->plot->g;
    return ls_printf(g->w, "%s, %s tons/ac, is below %s of the spreader", limit_words(r),
                     ls_agronomy_number(g, r->limit), what);
}

static const char *why_zero(const rating *r) {
    ls_worksheet *w = r->plot->g->w;
    if (!(ls_line_value(w, r->out.rate) <= 0))
        return NULL;
    if (r->plot->closed != LS_NO_LINE)
        return "no acres are left after the setbacks";
    if (r->out.limit == LS_LIMIT_CLOSED)
        return "the field's phosphorus is rated very high: no litter";
    if (ls_line_value(w, r->stepped) > 0)
        return too_low(r, "the lowest rate");
    if (ls_line_value(w, r->limit) > 0)
        return too_low(r, "one step");
    if (r->out.limit == LS_LIMIT_NITROGEN)
        return "the crop needs no nitrogen beyond what it gets from elsewhere";
    if (r->out.limit == LS_LIMIT_WINDOW)
        return ls_printf(w, "%s allows none", season_words(r));
    if (ls_agronomy_waits(r->plot))
        return "the crops have not yet taken up the phosphorus of earlier years";
    return "the crop removes no phosphorus beyond what it gets from elsewhere";
}

/* ---- what goes on ---- */

static ls_line goes_on(const rating *r, const char *key, const char *label, ls_line per_ton) {
    if (per_ton == LS_NO_LINE)
        return LS_NO_LINE;
    return LS_PRODUCT(r->plot->g->w, key_of(r, key), label, "lb/ac", r->out.rate, per_ton);
}

/* Keys and labels of the balance of a nutrient. */
typedef struct {
    const char *less_key, *more_key, *short_key, *over_key, *short_label, *over_label;
} balance_names;
#define BALANCE(name)                                                                              \
    {                                                                                              \
        "left_less_on." name, "on_less_left." name, "short." name, "over." name, name " short",    \
            name " over"                                                                           \
    }
static const balance_names balances[LS_FIELD_NUTRIENTS] = {BALANCE("N"), BALANCE("P2O5"),
                                                           BALANCE("K2O")};

/* What is short and what is over, against what is left of the need. */
static void balance(rating *r, int nutrient, ls_line given) {
    ls_agronomy *g = r->plot->g;
    ls_worksheet *w = g->w;
    const balance_names *names = &balances[nutrient];
    ls_line left = r->plot->out->left[nutrient];
    r->out.short_of[nutrient] = r->out.over[nutrient] = LS_NO_LINE;
    if (left == LS_NO_LINE || given == LS_NO_LINE)
        return;
    ls_line less = ls_difference(w, key_of(r, names->less_key),
                                 "need after credits less what is supplied", "lb/ac", left, given);
    ls_line more = ls_difference(w, key_of(r, names->more_key),
                                 "what is supplied less need after credits", "lb/ac", given, left);
    r->out.short_of[nutrient] =
        LS_GREATEST(w, key_of(r, names->short_key), names->short_label, "lb/ac", g->none, less);
    r->out.over[nutrient] =
        LS_GREATEST(w, key_of(r, names->over_key), names->over_label, "lb/ac", g->none, more);
}

/* Of the phosphate or potash that goes on, what a crop can use in the first year. */
static ls_line counted(const rating *r, int nutrient, const char *key) {
    ls_line on = r->out.on[nutrient], share = r->plot->g->counted[nutrient];
    return share == LS_NO_LINE || on == LS_NO_LINE
               ? on
               : LS_PRODUCT(r->plot->g->w, key_of(r, key), "what of it counts in the first year",
                            "lb/ac", on, share);
}

static void make_balance(rating *r) {
    const ls_agronomy_plot *p = r->plot;
    const ls_line *per_ton = r->litter->analysis->per_ton;
    ls_rate *out = &r->out;
    out->takes = LS_PRODUCT(p->g->w, key_of(r, "takes"), "tons that the field could take", "ton",
                            out->rate, p->out->spreadable);
    out->on[LS_FIELD_N] = goes_on(r, "on.N", "N supplied", per_ton[LS_N]);
    out->on[LS_FIELD_P2O5] = goes_on(r, "on.P2O5", "P2O5 supplied", per_ton[LS_P2O5]);
    out->on[LS_FIELD_K2O] = goes_on(r, "on.K2O", "K2O supplied", per_ton[LS_K2O]);
    out->available_N = goes_on(r, "on.available_N", "plant-available N supplied",
                               r->litter->pan[p->spreading].stated);
    out->counts[LS_FIELD_N] = out->available_N;
    out->counts[LS_FIELD_P2O5] = counted(r, LS_FIELD_P2O5, "counts.P2O5");
    out->counts[LS_FIELD_K2O] = counted(r, LS_FIELD_K2O, "counts.K2O");
    for (int i = 0; i < LS_FIELD_NUTRIENTS; i++)
        balance(r, i, out->counts[i]);
    out->years_of_removal = LS_NO_LINE;
    if (p->out->removal_P2O5 != LS_NO_LINE && ls_line_value(p->g->w, p->out->removal_P2O5) > 0)
        out->years_of_removal = ls_quotient(p->g->w, key_of(r, "years_of_removal"),
                                            "P2O5 supplied, in years of crop removal", "",
                                            out->on[LS_FIELD_P2O5], p->out->removal_P2O5);
}

/* ---- the chance ---- */

/* The share of draws in which a ton holds more than what may go on, at this rate, leaves room for.
 */
static double chance_of(const rating *r, const ls_agronomy_content *c, ls_line limit,
                        ls_line allowed) {
    ls_worksheet *w = r->plot->g->w;
    double rate = ls_line_value(w, r->out.rate);
    if (c->reported || limit == LS_NO_LINE || !(rate > 0))
        return 0;
    return ls_agronomy_chance(c->odds, ls_line_value(w, allowed) / rate);
}

/* The greatest of the chances that the caps of a season are passed. */
static double window_chance(const rating *r) {
    const ls_field_rates *out = r->plot->out;
    double most = 0;
    for (size_t i = 0; i < out->caps_n; i++) {
        const ls_field_cap *c = &out->caps[i];
        if (!c->applies || LS_GIVEN(c->cap->most))
            continue;
        const ls_agronomy_content *of = LS_GIVEN(c->cap->total_nitrogen)
                                            ? &r->litter->nitrogen
                                            : &r->litter->pan[r->plot->spreading];
        most = fmax(most, chance_of(r, of, r->out.window, c->figure));
    }
    return most;
}

/* The greatest of the chances that the nitrogen limit, the phosphorus limit or a cap of the season
 * is passed; need, credits and rate count as given. */
static void make_chance(rating *r) {
    const ls_agronomy_plot *p = r->plot;
    const ls_agronomy_content *pan = &r->litter->pan[p->spreading],
                              *phosphate = &r->litter->phosphate;
    r->out.chance_over = LS_NO_LINE;
    if (pan->reported && phosphate->reported)
        return;
    double nitrogen = chance_of(r, pan, r->out.nitrogen, p->out->left[LS_FIELD_N]);
    double phosphorus = chance_of(r, phosphate, r->out.phosphorus, p->phosphate);
    r->out.chance_over = ls_leaf_exact(
        p->g->w, key_of(r, "chance_over"), "chance that a limit is passed, the greatest of them",
        "%", fmax(fmax(nitrogen, phosphorus), window_chance(r)), LS_BY_SIMULATION,
        "share of draws of what a ton holds, the litter having no lab report");
}

ls_rate ls_agronomy_rate(const ls_agronomy_plot *p, const ls_agronomy_litter *litter) {
    rating r = {.plot = p, .litter = litter};
    r.prefix = ls_printf(p->g->w, "%s.%s", p->out->slug, litter->analysis->slug);
    make_limits(&r);
    r.out.limit = binding(&r);
    make_rate(&r);
    r.out.why = why_zero(&r);
    make_balance(&r);
    ls_agronomy_covered(p, r.prefix, &r.out);
    ls_agronomy_metals_on(p, litter, r.prefix, &r.out);
    make_chance(&r);
    ls_agronomy_supplement(p, r.prefix, &r.out);
    return r.out;
}
