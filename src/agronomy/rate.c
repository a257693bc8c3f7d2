/* The rate: the least of the limits, down to the spreader's step; and what goes on at it. */
#include "room.h"

#include <math.h>
#include <string.h>

const char *ls_limit_name(ls_limit limit) {
    static const char *const names[] = {"nitrogen", "phosphorus", "cap", "spreader", "window", "closed"};
    return names[limit];
}

/* The litter of one analysis on one field while its lines are made. */
typedef struct {
    const ls_agronomy_plot *plot;
    const ls_agronomy_litter *litter;
    ls_worksheet *w; /* the part of both */
    ls_line stepped;
    ls_rate out;
} rating;

/* The report's figure as it stands; without one the 90 % point, or the middle where the plan says so. */
ls_line ls_agronomy_used(const ls_field *f, const ls_agronomy_content *c) {
    if (c->reported) return c->stated;
    return f->without_lab.is == LS_EXPECTED ? c->middle : c->ninety;
}

static ls_line used(const rating *r, const ls_agronomy_content *c) { return ls_agronomy_used(r->plot->field, c); }

/* ---- limits ---- */

/* What may go on over what a ton holds. Litter that by its report or table holds none of it meets no limit. */
static ls_line limit_by(const rating *r, const char *key, const char *label, ls_line allowed, ls_line per_ton) {
    return ls_line_value(r->w, per_ton) > 0 ? ls_quotient(r->w, key, label, "ton/ac", allowed, per_ton) : LS_NO_LINE;
}

/* A cap of a season, in litter of this analysis. */
static ls_line cap_limit(const rating *r, size_t i) {
    const ls_field_cap *c = &r->plot->out->caps[i];
    if (LS_GIVEN(c->cap->most)) return c->figure;
    return limit_by(r, ls_printf(r->w, "window-%zu", i + 1), "limit of the season", c->figure,
                    LS_GIVEN(c->cap->total_nitrogen) ? used(r, &r->litter->nitrogen) : r->out.pan);
}

/* The least of the caps of a season that apply. */
static ls_line window_limit(rating *r) {
    const ls_field_rates *out = r->plot->out;
    size_t n = 0;
    ls_line *of = LS_NEW(r->plot->g->arena, ls_line, out->caps_n), last = LS_NO_LINE;
    r->out.seasons = of;
    for (size_t i = 0; i < out->caps_n; i++) {
        of[i] = out->caps[i].applies ? cap_limit(r, i) : LS_NO_LINE;
        if (of[i]) n++, last = of[i];
    }
    if (n < 2) return last;
    return ls_least(r->w, "window", "the lowest limit of the season", "ton/ac", of, out->caps_n);
}

/* The least of the limits, with or without the caps of a season. */
static ls_line least_limit(const rating *r, const char *key, const char *label, bool window) {
    const ls_rate *out = &r->out;
    return LS_LEAST(r->w, key, label, "ton/ac", out->nitrogen, out->phosphorus, out->cap, out->spreader,
                    r->plot->closed, window ? out->window : LS_NO_LINE);
}

static void make_limits(rating *r) {
    const ls_agronomy_plot *p = r->plot;
    ls_rate *out = &r->out;
    out->pan = used(r, &r->litter->pan[p->spreading]);
    out->nitrogen = limit_by(r, "nitrogen", "nitrogen limit", p->out->left[LS_FIELD_N], out->pan);
    out->phosphorus = limit_by(r, "phosphorus", "phosphorus limit", p->phosphate, used(r, &r->litter->phosphate));
    out->cap = p->cap;
    out->spreader = p->g->spreaders[p->spreader].most;
    out->window = window_limit(r);
    out->lowest = least_limit(r, "limit", "the lowest limit", true);
}

/* The limit that binds, read off afterwards: of equal ones the first. */
static ls_limit binding(const rating *r) {
    const ls_agronomy_plot *p = r->plot;
    const ls_phosphorus *rated = p->field->phosphorus;
    if (p->closed || (rated != NULL && rated->rating.is == LS_RATING_VERY_HIGH)) return LS_LIMIT_CLOSED;
    const ls_line limits[] = {r->out.nitrogen, r->out.phosphorus, r->out.cap, r->out.spreader, r->out.window};
    ls_limit least = LS_LIMIT_CAP;
    for (int i = LS_LIMIT_WINDOW; i >= LS_LIMIT_NITROGEN; i--)
        if (limits[i] && ls_line_value(p->g->w, limits[i]) <= ls_line_value(p->g->w, limits[least]))
            least = (ls_limit)i;
    return least;
}

/* ---- the spreader ---- */

/* Down to whole steps, and then times 1 or 0: whether the least rate of the spreader is reached is
 * the whole part of rate / least, at most 1, so that no line's value decides how the rate is made.
 * *stepped is the limit in whole steps. */
static ls_line spread_at(const rating *r, ls_worksheet *w, const char *label, ls_line limit, ls_line *stepped) {
    const ls_agronomy_spreader *g = &r->plot->g->spreaders[r->plot->spreader];
    ls_line one = r->plot->g->one;
    *stepped = limit;
    if (g->step)
        *stepped = ls_step_down(w, "stepped", "the limit in whole steps of the spreader", "ton/ac", limit, g->step);
    ls_line times = ls_quotient(w, "leasts", "the spreader's least rate in it", "", *stepped, g->least);
    ls_line whole = ls_step_down(w, "whole_leasts", "the same in whole numbers", "", times, one);
    ls_line reached = LS_LEAST(w, "reached", "1 if the spreader can go so low, else 0", "", one, whole);
    return LS_PRODUCT(w, "rate", label, "ton/ac", *stepped, reached);
}

static void make_rate(rating *r) {
    r->out.rate = spread_at(r, r->w, "rate", r->out.lowest, &r->stepped);
    if (!r->out.window || r->plot->out->outside.n == 0) return;
    ls_worksheet *w = ls_part(r->w, NULL, "outside");
    ls_line stepped, limit = least_limit(r, "outside.limit", "the lowest limit without those of the season", false);
    r->out.outside = spread_at(r, w, "rate on days without a season limit", limit, &stepped);
}

/* The cap of a season whose limit is the least: which of the field's, by its days and its rule. */
static const char *season_words(const rating *r) {
    ls_agronomy *g = r->plot->g;
    const ls_window_cap *least = NULL;
    double lowest = INFINITY;
    for (size_t i = 0; i < r->plot->out->caps_n; i++)
        if (ls_line_value(g->w, r->out.seasons[i]) < lowest) {
            lowest = ls_line_value(g->w, r->out.seasons[i]);
            least = r->plot->out->caps[i].cap;
        }
    if (least == NULL) return "the limit of the season";
    return ls_printf(
        g->w, "the limit of the season from %s to %s%s%s", ls_date_words(g->arena, least->between.days.from, 0),
        ls_date_words(g->arena, least->between.days.to, 0), least->rule.text == NULL ? "" : ", by the rule of ",
        least->rule.text == NULL ? "" : least->rule.text);
}

/* The limit that binds, in words. */
static const char *limit_words(const rating *r) {
    switch (r->out.limit) {
    case LS_LIMIT_NITROGEN: return "the nitrogen limit";
    case LS_LIMIT_PHOSPHORUS: return "the phosphorus limit";
    case LS_LIMIT_CAP: return LS_GIVEN(r->plot->field->most) ? "the plan's top rate" : "the top of the published range";
    case LS_LIMIT_SPREADER: return "the spreader's own top rate";
    case LS_LIMIT_WINDOW: return season_words(r);
    case LS_LIMIT_CLOSED: break;
    }
    return "the limit";
}

/* Is the limit what one crop removes, only because nobody has rated the field? */
static bool unrated(const rating *r) {
    const ls_phosphorus *rated = r->plot->field->phosphorus;
    return r->out.limit == LS_LIMIT_PHOSPHORUS && (rated == NULL || rated->rating.is == 0);
}

/* What would raise the rate, or let it be spread as it is. */
static const char *cure(const rating *r, bool told) {
    if (unrated(r)) return ". It holds only as the field is not rated: ask the plan writer for a rating";
    if (r->out.limit == LS_LIMIT_PHOSPHORUS && !LS_GIVEN(r->plot->field->phosphorus->bank))
        return ". Ask the plan writer if several years may go on at once (bank)";
    return told ? ""
                : ". If yours goes lower, write under the truck, for example, \"rate: {least: 0.1 "
                  "ton/ac, most: 6 ton/ac}\"";
}

/* "the nitrogen limit, 0.8 tons/ac, is below the lowest rate of the spreader". */
static const char *too_low(const rating *r, const char *what) {
    ls_agronomy *g = r->plot->g;
    const ls_agronomy_spreader *s = &g->spreaders[r->plot->spreader];
    bool told = s->truck != NULL && s->truck->rate != NULL && LS_GIVEN(s->truck->rate->least);
    if (!told)
        what = ls_printf(g->w, "%s tons/ac, the lowest that most spreaders keep even", ls_agronomy_number(g, s->least));
    return ls_printf(g->w, "%s, %s tons/ac, is below %s%s", limit_words(r), ls_agronomy_number(g, r->out.lowest), what,
                     cure(r, told));
}

static const char *why_zero(const rating *r) {
    ls_worksheet *w = r->plot->g->w;
    if (!(ls_line_value(w, r->out.rate) <= 0)) return NULL;
    if (r->plot->closed) return "no acres are left after the setbacks";
    if (r->out.limit == LS_LIMIT_CLOSED) return "the field's phosphorus is rated very high: no litter";
    if (ls_line_value(w, r->stepped) > 0) return too_low(r, "the lowest rate of the spreader");
    if (ls_line_value(w, r->out.lowest) > 0) return too_low(r, "one step of the spreader");
    if (r->out.limit == LS_LIMIT_NITROGEN) return "the crop needs no nitrogen beyond what it gets from elsewhere";
    if (r->out.limit == LS_LIMIT_WINDOW) return ls_printf(w, "%s allows none", season_words(r));
    if (ls_agronomy_waits(r->plot)) return "the crops have not yet taken up the phosphorus of earlier years";
    return "the crop removes no phosphorus beyond what it gets from elsewhere";
}

/* ---- what goes on ---- */

/* What is short and what is over, against what is left of the need. */
static void balance(rating *r, int nutrient, const char *name) {
    ls_worksheet *w = r->w;
    ls_line left = r->plot->out->left[nutrient], given = r->out.counts[nutrient], none = r->plot->g->none;
    ls_line less = ls_difference(ls_part(w, NULL, "left_less_on"), name, "need after credits less what is supplied",
                                 "lb/ac", left, given);
    ls_line more = ls_difference(ls_part(w, NULL, "on_less_left"), name, "what is supplied less need after credits",
                                 "lb/ac", given, left);
    if (!less) return;
    r->out.short_of[nutrient] = LS_GREATEST(ls_part(w, name, "short"), name, "%s short", "lb/ac", none, less);
    r->out.over[nutrient] = LS_GREATEST(ls_part(w, name, "over"), name, "%s over", "lb/ac", none, more);
}

static void make_balance(rating *r) {
    const ls_agronomy_plot *p = r->plot;
    ls_worksheet *w = r->w;
    ls_rate *out = &r->out;
    out->takes = LS_PRODUCT(w, "takes", "tons that the field could take", "ton", out->rate, p->out->spreadable);
    for (int k = 0; k < LS_FIELD_NUTRIENTS; k++)
        out->on[k] = LS_PRODUCT(ls_part(w, ls_field_nutrient[k], "on"), ls_field_nutrient[k], "%s supplied", "lb/ac",
                                out->rate, r->litter->analysis->per_ton[ls_in_litter[k]]);
    out->available_N = LS_PRODUCT(w, "on.available_N", "plant-available N supplied", "lb/ac", out->rate,
                                  r->litter->pan[p->spreading].stated);
    out->counts[LS_FIELD_N] = out->available_N;
    for (int k = LS_FIELD_P2O5; k < LS_FIELD_NUTRIENTS; k++)
        out->counts[k] = p->g->counted[k]
                             ? LS_PRODUCT(ls_part(w, NULL, "counts"), ls_field_nutrient[k],
                                          "what of it counts in the first year", "lb/ac", out->on[k], p->g->counted[k])
                             : out->on[k];
    for (int k = 0; k < LS_FIELD_NUTRIENTS; k++) balance(r, k, ls_field_nutrient[k]);
    if (ls_line_value(w, p->out->removal_P2O5) > 0)
        out->years_of_removal = ls_quotient(w, "years_of_removal", "P2O5 supplied, in years of crop removal", "",
                                            out->on[LS_FIELD_P2O5], p->out->removal_P2O5);
}

/* ---- the chance ---- */

/* The share of draws in which a ton holds more than what may go on, at this rate, leaves room for.
 */
static double chance_of(const rating *r, const ls_agronomy_content *c, ls_line limit, ls_line allowed) {
    double rate = ls_line_value(r->plot->g->w, r->out.rate);
    if (c->reported || !limit || !(rate > 0)) return 0;
    return ls_agronomy_chance(c->odds, ls_line_value(r->plot->g->w, allowed) / rate);
}

/* The greatest of the chances that the caps of a season are passed. */
static double window_chance(const rating *r) {
    double most = 0;
    LS_EACH_OF (const ls_field_cap, c, r->plot->out->caps, r->plot->out->caps_n) {
        if (!c->applies || LS_GIVEN(c->cap->most)) continue;
        const ls_agronomy_content *of =
            LS_GIVEN(c->cap->total_nitrogen) ? &r->litter->nitrogen : &r->litter->pan[r->plot->spreading];
        most = fmax(most, chance_of(r, of, r->out.window, c->figure));
    }
    return most;
}

/* The greatest of the chances that the nitrogen limit, the phosphorus limit or a cap of the season
 * is passed; need, credits and rate count as given. */
static void make_chance(rating *r) {
    const ls_agronomy_plot *p = r->plot;
    const ls_agronomy_content *pan = &r->litter->pan[p->spreading], *phosphate = &r->litter->phosphate;
    if (pan->reported && phosphate->reported) return;
    double nitrogen = chance_of(r, pan, r->out.nitrogen, p->out->left[LS_FIELD_N]),
           phosphorus = chance_of(r, phosphate, r->out.phosphorus, p->phosphate);
    r->out.chance_over = ls_leaf_exact(r->w, "chance_over", "chance that a limit is passed, the greatest of them", "%",
                                       fmax(fmax(nitrogen, phosphorus), window_chance(r)), LS_BY_SIMULATION,
                                       "share of draws of what a ton holds, the litter having no lab report");
}

static rating limited(const ls_agronomy_plot *p, const ls_agronomy_litter *litter) {
    rating r = {.plot = p, .litter = litter, .w = ls_agronomy_part(p, litter)};
    make_limits(&r);
    r.out.limit = binding(&r);
    make_rate(&r);
    return r;
}

const ls_rate *ls_agronomy_rate_of(ls_agronomy *g, const ls_field_rates *f, const ls_rate *like, const ls_analysis *a) {
    ls_agronomy_plot p = *f->plot;
    ls_agronomy_litter *l = LS_PUSH(g->arena, &g->others);
    if (!ls_agronomy_fill(g, l, a)) return NULL;
    l->nitrogen = (ls_agronomy_content){.stated = a->per_ton[LS_N], .reported = a->reported[LS_N]};
    p.spreader = (size_t)(like - f->rates) / f->n;
    ls_lot *lot = LS_NEW(g->arena, ls_lot, 1);
    *lot = *like->lot;
    lot->slug = a->slug;
    lot->analysis = a;
    ls_rate *out = LS_NEW(g->arena, ls_rate, 1);
    *out = limited(&p, l).out;
    out->lot = lot;
    out->step = like->step;
    return out;
}

ls_rate ls_agronomy_rate(const ls_agronomy_plot *p, const ls_agronomy_litter *litter) {
    rating r = limited(p, litter);
    r.out.why = why_zero(&r);
    make_balance(&r);
    ls_agronomy_covered(p, r.w, &r.out);
    ls_agronomy_metals_on(p, litter, r.w, &r.out);
    make_chance(&r);
    ls_agronomy_supplement(p, r.w, &r.out);
    return r.out;
}

ls_line ls_agronomy_limit_on(ls_worksheet *w, const ls_field_rates *f, const ls_rate *rate, ls_date day) {
    const ls_line always[] = {rate->nitrogen, rate->phosphorus, rate->cap, f->plot->closed};
    size_t n = sizeof always / sizeof *always;
    ls_line *limits = LS_NEW(ls_worksheet_arena(w), ls_line, n + f->caps_n);
    memcpy(limits, always, sizeof always);
    const char *key = ls_printf(w, "%s.%s.limit-of-day", f->slug, rate->lot->slug);
    for (size_t i = 0; i < f->caps_n; i++)
        if (ls_field_cap_holds(&f->caps[i], day)) {
            limits[n++] = rate->seasons[i];
            key = ls_printf(w, "%s-%zu", key, i + 1);
        }
    ls_line line = ls_line_find(w, key); /* of another spreader, maybe */
    return line ? line : ls_least(w, key, "the lowest limit of the day", "ton/ac", limits, n);
}
