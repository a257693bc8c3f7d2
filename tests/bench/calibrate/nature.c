#include "bench/calibrate/nature.h"

#include "littershed/litter.h"

#include <math.h>
#include <string.h>

static const ls_figure *of_bird(const nature *n, int bird, const char *column) {
    return nature_cell(n, "bird", "", ls_bird_name(bird), column);
}

/* What houses share of a figure: its spread less the part of a single house. on_log: that part is
 * on the log scale. */
static double shared(const nature *n, const ls_figure *f, double own, bool on_log) {
    double sd = ls_spread_scale(f->spread, f->value), part = own * (on_log ? f->value : 1);
    double left = sd > part ? sqrt(1 - part * part / sd / sd) : 0, x = nature_draw(n, f);
    bool lognormal = f->spread.kind == LS_LOGNORMAL || f->spread.kind == LS_LOG_STUDENT;
    return lognormal ? f->value * pow(x / f->value, left) : f->value + (x - f->value) * left;
}

/* What is the same for all houses of a farm. */
typedef struct {
    double droppings; /* log, over feed */
    double excreted, P, K, fed, usual_bedding, stays, moisture, density;
} common;

static const ls_figure *moisture_of(const nature *n, int bird, const char *manure) {
    const char *name = ls_bird_name(bird);
    char kind[64];
    snprintf(kind, sizeof kind, "%s%s%s", name, manure ? " " : "", manure ? manure : "");
    const ls_figure *f = nature_cell(n, "moisture", "", kind, "moisture");
    return f ? f : nature_cell(n, "moisture", "", name, "moisture");
}

/* ---- what published contents tell ---- */

/* Contents of droppings, log of lb per lb, P2O5 and K2O; how unsure both together are. */
typedef struct {
    bool known, tell; /* tell: of droppings too, as their source is not asked of those already */
    double P2O5, K2O, sd;
} contents;

/* Share of dry matter left in manure kept in one way over that in another, where the table tells.
 */
static double more_rot(const nature *n, int bird, const char *of_row, const char *told) {
    if (!told || !of_row || strcmp(told, of_row) == 0) return 1;
    return ls_row_figure(nature_row(n, "kept", bird, of_row, "dry_matter"), "dry_matter")->value /
           ls_row_figure(nature_row(n, "kept", bird, told, "dry_matter"), "dry_matter")->value;
}

static contents contents_of(const nature *n, const nature_farm *f, nature_ratio ratio) {
    const ls_row *row = nature_row(n, "composition", f->bird, f->manure, "N");
    const ls_figure *P = ls_row_figure(row, "P2O5"), *K = ls_row_figure(row, "K2O");
    if (!P || !K) return (contents){0};
    const char *manure = ls_row_word(row, "manure");
    const ls_figure *printed = ls_row_figure(row, "moisture"),
                    *water = printed ? printed : moisture_of(n, f->bird, manure);
    double bedding =
               of_bird(n, f->bird, "bedding")->value * (1 - nature_cell(n, "bedding", "", "shavings", "lost")->value),
           over = 1 + bedding / nature_usual_feed(n, f->bird) / exp(ratio.mean),
           times = over * more_rot(n, f->bird, manure, f->manure) / (1 - water->value),
           wet = printed ? 0 : ls_spread_scale(water->spread, water->value) / (1 - water->value),
           sd = ls_spread_scale(P->spread, P->value) / P->value;
    return (contents){true, !nature_asks(n, f->bird, f->manure, P->source), log(P->value * times),
                      log(K->value * times), hypot(sd, wet)};
}

static double oxide_over_feed(const nature *n, const nature_farm *f, double over_feed, bool P) {
    const char *name = P ? "P" : "K";
    const ls_row *kept = nature_row(n, "kept", f->bird, NULL, name);
    return log(over_feed * nature_practice(n, P ? "P to P2O5" : "K to K2O") * ls_row_figure(kept, name)->value);
}

/* How well such droppings go with the contents, 0 to 1: P and K of one table are one voice. */
static double likely(const nature *n, const nature_farm *f, const common *c, const contents *x) {
    double off =
        (oxide_over_feed(n, f, c->P, true) - x->P2O5 + oxide_over_feed(n, f, c->K, false) - x->K2O) / 2 - c->droppings;
    return x->tell ? exp(-0.5 * pow(off / x->sd, 2)) : 1;
}

/* ---- draws ---- */

static double over_feed(const nature *n, int bird, const char *element) {
    const ls_row *row = nature_row(n, "excreted", bird, NULL, element);
    return nature_draw(n, ls_row_figure(row, element)) / nature_own_feed(n, bird, row);
}

/* P or K over feed, by what is excreted and by the contents of such droppings, by their precision.
 */
static double element(const nature *n, const nature_farm *f, double droppings, const contents *x, bool P) {
    const double sd = 0.14; /* of what is excreted, as the table has it */
    double drawn = over_feed(n, f->bird, P ? "P" : "K");
    if (!x->known) return drawn;
    double off = oxide_over_feed(n, f, drawn, P) - (P ? x->P2O5 : x->K2O) - droppings;
    double part = sd * sd / (sd * sd + x->sd * x->sd);
    return drawn * exp(-part * (off - nature_normal(n, x->sd)));
}

static double square(double x) { return x * x; }

/* Houses in general first, as all sources tell them; then how far the houses of this farm lie from
 * that: no less, all in all, than what one source alone is unsure of. */
static common draw_common(const nature *n, const nature_farm *f, nature_ratio ratio) {
    double houses = square(nature_practice(n, "house to house log sd")),
           single = square(nature_practice(n, "single source log sd")),
           own = square(nature_practice(n, "sister house")) / 2,
           general = fmax(single, ratio.variance + houses) - houses, left = ratio.variance;
    contents x = contents_of(n, f, ratio);
    common c;
    do {
        c.droppings = ratio.mean + nature_normal(n, sqrt(general));
        c.P = over_feed(n, f->bird, "P"), c.K = over_feed(n, f->bird, "K");
    } while (nature_between(n, 0, 1) > likely(n, f, &c, &x));
    c.P = element(n, f, c.droppings, &x, true), c.K = element(n, f, c.droppings, &x, false);
    if (x.tell) left = 1 / (1 / general + 1 / (square(x.sd) + square(0.13)));
    double drawn = x.tell ? left : general;
    c.droppings += nature_normal(n, sqrt(fmax(fmax(single, left + houses) - drawn - own, 0)));
    c.excreted = nature_draw(n, of_bird(n, f->bird, "excreted_share"));
    c.fed = f->feed_told ? 1 : nature_times(n, nature_practice(n, "feed not given"));
    c.usual_bedding = nature_draw(n, of_bird(n, f->bird, "bedding"));
    c.stays = 1 - nature_draw(n, nature_cell(n, "bedding", "", "shavings", "lost"));
    c.moisture = shared(n, moisture_of(n, f->bird, f->manure), nature_practice(n, "within farm moisture"), false);
    c.density = shared(n, nature_cell(n, "density", "", ls_bird_name(f->bird), "density"),
                       nature_practice(n, "within farm density"), true);
    return c;
}

/* Droppings, and the P2O5 and K2O in them. */
static void draw_house(const nature *n, const nature_farm *f, const common *c, nature_house *h) {
    double own = nature_practice(n, "sister house") * sqrt(0.5);
    const ls_row *P = nature_row(n, "kept", f->bird, NULL, "P"), *K = nature_row(n, "kept", f->bird, NULL, "K");
    h->feed = (double)h->birds * (double)f->flocks * f->feed_each * c->fed;
    h->droppings = h->feed * fmin(exp(c->droppings + nature_normal(n, own)), c->excreted);
    h->P2O5 = h->feed * c->P * nature_practice(n, "P to P2O5") * fmin(1, nature_draw(n, ls_row_figure(P, "P")));
    h->K2O = h->feed * c->K * nature_practice(n, "K to K2O") * fmin(1, nature_draw(n, ls_row_figure(K, "K")));
}

/* P2O5 and K2O become shares of all litter. */
static void add_bedding(const nature *n, const nature_farm *f, const common *c, nature_house *h) {
    const ls_figure *water = nature_cell(n, "bedding", "", "shavings", "moisture"),
                    *P = nature_cell(n, "bedding", "", "shavings", "P"),
                    *K = nature_cell(n, "bedding", "", "shavings", "K");
    double spread = h->told_bedding > 0 ? h->told_bedding * (1 - nature_draw(n, water))
                                        : c->usual_bedding * (double)h->birds * (double)f->flocks;
    h->bedding = spread * c->stays;
    h->made = h->droppings + h->bedding;
    h->P2O5 = (h->P2O5 + spread * P->value * nature_practice(n, "P to P2O5")) / h->made;
    h->K2O = (h->K2O + spread * K->value * nature_practice(n, "K to K2O")) / h->made;
}

static void finish(const nature *n, const nature_farm *f, const common *c, nature_house *h) {
    add_bedding(n, f, c, h);
    bool cakes = f->bird == LS_BROILER && nature_between(n, 0, 3) < 1;
    double wet = nature_draw(n, nature_cell(n, "moisture", "", "cake", "moisture"));
    h->out = cakes ? h->made * nature_between(n, 0.1, 0.3) : 0;
    h->out_wet = h->out / (1 - fmin(wet, 0.9));
    h->left = h->made - h->out;
    /* What a house has of its own stays by half from flock to flock: two litters of a house differ
     * by as many points as two houses have of their own. */
    double half = nature_practice(n, "within farm moisture") * sqrt(0.5);
    double house = c->moisture + nature_normal(n, half);
    h->moisture = fmin(fmax(house + nature_normal(n, half), 0), 0.95);
    h->moisture_then = fmin(fmax(house + nature_normal(n, half), 0.01), 0.95);
    h->wet = h->left / (1 - h->moisture);
    h->density = fmin(c->density, 75) * nature_times(n, nature_practice(n, "within farm density"));
    h->loose = h->density / f->lies_over_loose;
}

/* ---- the farm as it is told ---- */

static double per_bird_area(int bird) {
    static const double ft2[] = {
        [LS_BROILER_BREEDER] = 2.0, [LS_BREEDER_PULLET] = 1.2, [LS_BROILER] = 0.8,    [LS_LAYER] = 0.8,
        [LS_LAYER_PULLET] = 0.6,    [LS_TURKEY_TOM] = 3.5,     [LS_TURKEY_HEN] = 2.2, [LS_DUCK] = 1.8};
    return ft2[bird];
}

/* How long they stay, at an age that the growth table has; what one eats by the tables. */
static void stay(const nature *n, nature_farm *f) {
    static const long days[] = {
        [LS_BROILER_BREEDER] = 294, [LS_BREEDER_PULLET] = 140, [LS_BROILER] = 49,    [LS_LAYER] = 365,
        [LS_LAYER_PULLET] = 119,    [LS_TURKEY_TOM] = 140,     [LS_TURKEY_HEN] = 84, [LS_DUCK] = 42};
    static const char *const row[] = {
        [LS_BREEDER_PULLET] = "140 days", [LS_BROILER] = "49 days",    [LS_LAYER_PULLET] = "119 days",
        [LS_TURKEY_TOM] = "140 days",     [LS_TURKEY_HEN] = "84 days", [LS_DUCK] = "42 days"};
    const char *name = ls_bird_name(f->bird);
    f->days = days[f->bird];
    const ls_figure *weight = nature_cell(n, "growth", name, row[f->bird] ? row[f->bird] : "", "weight");
    f->usual_weight = weight ? weight->value : 0;
    bool short_stays = weight && f->days < 100;
    f->flocks = short_stays ? 1 + (long)nature_between(n, 0, 5) : 1;
    if (weight && nature_between(n, 0, 2) < 1)
        f->weight = round(100 * weight->value * nature_between(n, 0.9, 1.1)) / 100;
    double there = 1 - 0.05 * (weight ? 0.62 : 0.5); /* 5 % are lost */
    double grown = weight ? nature_feed(n, f->bird, (double)f->days, f->weight)
                          : nature_draw(n, of_bird(n, f->bird, "feed")) * (double)f->days;
    f->feed_each = there * grown;
}

static const char *manure_of(const nature *n) {
    static const char *const kinds[] = {NULL, "belt", "pit", "scraped", "litter"};
    return kinds[(size_t)nature_between(n, 0, 4.999)];
}

nature_farm nature_farm_of(const nature *n, int bird, size_t houses) {
    nature_farm f = {.bird = bird, .n = houses};
    f.manure = bird == LS_LAYER ? manure_of(n) : NULL;
    f.feed_told = nature_between(n, 0, 2) < 1;
    stay(n, &f);
    f.lies_over_loose = nature_draw(n, ls_reference_need(n->reference, "density", "", "in place over loose", "ratio"));
    bool bedding_told = nature_between(n, 0, 2) < 1 && of_bird(n, bird, "bedding")->value > 0;
    for (size_t i = 0; i < houses; i++) {
        nature_house *h = &f.house[i];
        h->birds = 100 * (long)nature_between(n, 60, 240);
        h->area = per_bird_area(bird) * (double)h->birds;
        if (bedding_told)
            h->told_bedding = round((double)h->birds * (double)f.flocks * of_bird(n, bird, "bedding")->value *
                                    nature_between(n, 0.5, 2) / 200) *
                              200;
    }
    nature_ratio ratio = nature_droppings(n, bird, f.manure);
    common c = draw_common(n, &f, ratio);
    f.excreted_P = c.P;
    for (size_t i = 0; i < houses; i++) {
        draw_house(n, &f, &c, &f.house[i]);
        finish(n, &f, &c, &f.house[i]);
    }
    return f;
}
