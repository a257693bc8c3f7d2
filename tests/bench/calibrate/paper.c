#include "bench/calibrate/paper.h"

#include "littershed/litter.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

typedef struct {
    ls_arena *a;
    const nature *n;
    const nature_farm *f;
    ls_text *t;
} page;

enum { SPOTS = 12, SAMPLES = 4, CORES = 3, PAILS = 5 };

/* Readings of a value with the usual scatter of one; none below next to nothing. */
static const char *readings(const page *p, double value, double sd, size_t n, double scale, const char *unit) {
    ls_text *t = ls_text_new(p->a);
    double least = strcmp(unit, "%") == 0 ? 0.0101 : value / 50; /* less is refused */
    for (size_t i = 0; i < n; i++) ls_text_addf(t, "%.4f ", scale * fmax(value + nature_normal(p->n, sd), least));
    ls_text_add(t, unit);
    return t->s;
}

static const char *date(const page *p, long days_before) {
    return ls_date_iso(p->a, ls_date_of(2026, 2, 9) - (ls_date)days_before);
}

/* ---- flocks and bedding ---- */

/* Eggs a hen and their weight, and growth, as the tables have them: what is eaten beside what is
 * excreted. */
static double eaten_P(const page *p, const nature_house *h) {
    const char *name = ls_bird_name(p->f->bird);
    const ls_figure *kept = nature_cell(p->n, "bird", "", name, "retained_P");
    double excreted = p->f->excreted_P * h->feed / (double)p->f->flocks;
    if (kept) return excreted / (1 - nature_draw(p->n, kept));
    double birds = (double)h->birds, eggs = 0;
    if (p->f->bird == LS_BROILER_BREEDER || p->f->bird == LS_LAYER)
        eggs = (p->f->bird == LS_LAYER ? birds : round(birds / 1.1)) * 165 *
               nature_draw(p->n, nature_cell(p->n, "bird", "", name, "egg_weight")) *
               nature_draw(p->n, nature_cell(p->n, "bird", "", name, "egg_P"));
    const ls_figure *end = nature_cell(p->n, "bird", "", name, "end_weight"),
                    *weight = nature_cell(p->n, "bird", "", name, "weight");
    const ls_figure *start = nature_cell(p->n, "bird", "", name, "start_weight"),
                    *body = nature_cell(p->n, "bird", "", name, "body_P");
    double last = end ? nature_draw(p->n, end) : weight ? nature_draw(p->n, weight) : p->f->usual_weight;
    last = p->f->weight > 0 ? p->f->weight : last;
    double gain = last - (start ? nature_draw(p->n, start) : 0);
    double grown = birds * 0.975 * gain * (body ? nature_draw(p->n, body) : 0);
    return excreted + eggs + grown;
}

static void flock(const page *p, const nature_house *h, int evidence) {
    const nature_farm *f = p->f;
    bool breeder = f->bird == LS_BROILER_BREEDER;
    long hens = lround((double)h->birds / 1.1);
    ls_text_addf(p->t, "    flocks:\n      - birds: %s\n", ls_bird_name(f->bird));
    if (breeder)
        ls_text_addf(p->t, "        hens: %ld\n        males: %ld\n", hens, h->birds - hens);
    else
        ls_text_addf(p->t, "        count: %ld\n", h->birds);
    ls_text_addf(p->t, "        placed: %s\n        removed: %s\n        lost: 5 %%\n", date(p, f->days), date(p, 0));
    if (f->flocks > 1) ls_text_addf(p->t, "        flocks: %ld\n", f->flocks);
    if (f->weight > 0) ls_text_addf(p->t, "        weight: %.4f lb\n", f->weight);
    double each = h->feed / (double)f->flocks;
    bool balance = evidence & PAPER_LAB;
    if (f->feed_told || balance) ls_text_addf(p->t, "        feed: {total: %.6f ton", each / 2000);
    if (balance) {
        double P = eaten_P(p, h) / each * nature_times(p->n, nature_practice(p->n, "phosphorus balance feed"));
        ls_text_addf(p->t, ", phosphorus: %.5f %%", fmax(100 * P, 0.051));
    }
    if (f->feed_told || balance) ls_text_add(p->t, "}\n");
    if (balance && (breeder || f->bird == LS_LAYER)) ls_text_add(p->t, "        eggs: 165 per hen\n");
}

static void house_begin(const page *p, const nature_house *h, size_t i, int evidence) {
    ls_text_addf(p->t, "  - name: H%zu\n    length: %.4f ft\n    width: 40 ft\n", i + 1, h->area / 40);
    if (p->f->bird == LS_BROILER_BREEDER) ls_text_add(p->t, "    floor: {slats: 60 %, scratch: 40 %}\n");
    if (p->f->manure) ls_text_addf(p->t, "    manure: %s\n", p->f->manure);
    if (h->told_bedding > 0)
        ls_text_addf(p->t, "    bedding: [{material: shavings, weight: %.4f ton}]\n", h->told_bedding / 2000);
    flock(p, h, evidence);
    if (h->out > 0)
        ls_text_addf(p->t, "    already_out: [{date: %s, weighed: %.5f ton, what: cake}]\n", date(p, 5),
                     h->out_wet / 2000);
}

/* ---- what is measured ---- */

/* Slats hold more of the litter than their share of the floor, and it is moister. */
typedef struct {
    const char *name;
    double depth, moister; /* over the mean of the house, by tons */
} zone;

static size_t zones(const page *p, zone *z) {
    if (p->f->bird != LS_BROILER_BREEDER) {
        z[0] = (zone){"floor", 1, 0};
        return 1;
    }
    z[0] = (zone){"slats", 1.2, 0.02};
    z[1] = (zone){"scratch", 0.7, -0.02 * 0.72 / 0.28};
    return 2;
}

static void by_zone(const page *p, const char *key, const char *const *x, const zone *z, size_t n) {
    ls_text_addf(p->t, "      %s: ", key);
    if (n == 1) {
        ls_text_addf(p->t, "%s\n", x[0]);
        return;
    }
    for (size_t i = 0; i < n; i++)
        ls_text_addf(p->t, "%s%s: %s%s", i ? ", " : "{", z[i].name, x[i], i + 1 < n ? "" : "}\n");
}

static void measured(const page *p, const nature_house *h, int evidence) {
    const nature *n = p->n;
    zone z[2];
    size_t k = zones(p, z);
    const char *x[2];
    double cv = nature_practice(n, "usual density reading"),
           missed = nature_times(n, nature_practice(n, "depth survey beyond readings"));
    ls_text_add(p->t, "    measured:\n");
    for (size_t i = 0; i < k; i++) {
        double depth = h->wet / h->density / h->area * z[i].depth / missed;
        x[i] = readings(p, depth, depth * nature_practice(n, "usual depth reading"), SPOTS, 12, "in");
    }
    if (evidence & PAPER_DEPTH) by_zone(p, "depth", x, z, k);
    for (size_t i = 0; i < k; i++) x[i] = readings(p, h->density, h->density * cv, CORES, 1, "lb/ft3");
    if (evidence & PAPER_CORES) by_zone(p, "density", x, z, k);
    for (size_t i = 0; i < k; i++)
        x[i] = readings(p, fmax(h->moisture + z[i].moister, 0.01), nature_practice(n, "usual moisture reading"),
                        SAMPLES, 100, "%");
    if (evidence & PAPER_MOISTURE) by_zone(p, "moisture", x, z, k);
    if (evidence & PAPER_PAIL)
        ls_text_addf(p->t, "      loose_density: %s\n", readings(p, h->loose, h->loose * cv, PAILS, 1, "lb/ft3"));
}

static void lab(const page *p, const nature_house *h) {
    double sd = nature_practice(p->n, "lab sampling");
    double water = fmin(h->moisture * nature_times(p->n, sd), 0.94);
    double solids = 2000 * (1 - fmax(water, 0.01));
    ls_text_addf(p->t,
                 "    lab:\n      - {date: %s, by: a laboratory, moisture: %.4f %%, N: 50 lb/ton, "
                 "P2O5: %.5f lb/ton, K2O: %.5f lb/ton}\n",
                 date(p, 10), 100 * fmax(water, 0.01), h->P2O5 * nature_times(p->n, sd) * solids,
                 h->K2O * nature_times(p->n, sd) * solids);
}

static void cleanout(const page *p, const nature_house *h) {
    const nature *n = p->n;
    double times = nature_between(n, 0.7, 1.3);
    double made = h->droppings * times * nature_times(n, nature_practice(n, "last cleanout")) + h->bedding;
    double water = nature_draw(n, nature_cell(n, "moisture", "", "cake", "moisture"));
    double cake = h->out > 0 ? made * nature_between(n, 0.1, 0.3) : 0;
    long before = (p->f->days + 14) * p->f->flocks + 14;
    ls_text_addf(p->t, "    last_cleanout: {date: %s, weighed: %.5f ton", date(p, before),
                 (made - cake) / (1 - h->moisture_then) / 2000);
    if (p->f->feed_told)
        ls_text_addf(p->t, ", feed: %.5f ton", h->feed * times / 2000);
    else
        ls_text_addf(p->t, ", bird_days: %.0f", (double)h->birds * 0.975 * (double)(p->f->days * p->f->flocks) * times);
    if (cake > 0) ls_text_addf(p->t, ", cake: [{weighed: %.5f ton}]", cake / (1 - fmin(water, 0.9)) / 2000);
    if (nature_between(n, 0, 2) < 1)
        ls_text_addf(p->t, ", moisture: %s",
                     readings(p, h->moisture_then, nature_practice(n, "usual moisture reading"), 1, 100, "%"));
    ls_text_add(p->t, "}\n");
}

const char *paper_of(ls_arena *a, const nature *n, const nature_farm *f, const int *evidence) {
    page p = {a, n, f, ls_text_new(a)};
    ls_text_add(p.t, "houses:\n");
    for (size_t i = 0; i < f->n; i++) {
        house_begin(&p, &f->house[i], i, evidence[i]);
        if (evidence[i] & (PAPER_DEPTH | PAPER_CORES | PAPER_PAIL | PAPER_MOISTURE))
            measured(&p, &f->house[i], evidence[i]);
        if (evidence[i] & PAPER_LAB) lab(&p, &f->house[i]);
        if (evidence[i] & PAPER_CLEANOUT) cleanout(&p, &f->house[i]);
    }
    ls_text_add(p.t, "trucks:\n  - {name: truck, count: 1, payload: 11 ton, body: 20 yd3}\n");
    return p.t->s;
}

/* Full loads, as even as loads of the same litter are. */
void paper_loads(ls_arena *a, const nature *n, const nature_house *h, const char *lot, ls_farm *farm, double *gone) {
    enum { MOST = 200 };
    double limit = 22000, body = 540 * nature_times(n, nature_practice(n, "full body"));
    ls_date day = 0;
    double days = 1, upto = h->wet * nature_between(n, 0.3, 0.7), sum = 0;
    farm->hauled.at = LS_NEW(a, ls_hauled, MOST);
    farm->hauled.n = 0;
    while (farm->hauled.n < MOST && sum < upto) {
        if (farm->hauled.n % 6 == 0) /* of a new day */
            day++, days = nature_times(n, nature_practice(n, "day to day loads"));
        double load = body * days * h->loose * nature_times(n, nature_practice(n, "load to load"));
        load = fmin(fmin(load, limit), 0.9 * h->wet - sum);
        sum += load;
        farm->hauled.at[farm->hauled.n++] = (ls_hauled){
            .lot = lot, .ticket = "T", .day = day, .tons = load, .weighed = true, .cleared = NAN, .entry = "an entry"};
    }
    double told = sum / h->wet + nature_normal(n, nature_practice(n, "cleared by eye"));
    farm->hauled.at[farm->hauled.n - 1].cleared = fmin(fmax(told, 0.01), 0.99);
    *gone = sum;
}

ls_farm *paper_read(ls_arena *a, const ls_reference *r, const char *yaml) {
    char path[] = "/tmp/calibrate-XXXXXX";
    int file = mkstemp(path);
    const char *named = path, *why;
    if (file < 0) ls_fail("no room for a farm file");
    close(file);
    if (!ls_file_write(a, path, yaml, strlen(yaml), &why)) ls_fail("cannot write %s: %s", path, why);
    ls_diag *d = ls_diag_new(a);
    const ls_farm *read = ls_farm_read(a, d, r, &named, 1);
    unlink(path);
    if (!read) {
        ls_diag_print(d, stdout);
        ls_fail("this farm is refused:\n%s", yaml);
    }
    ls_farm *out = LS_NEW(a, ls_farm, 1);
    *out = *read;
    return out;
}
