/* The depth survey as a volume and a wet mass by zone; the mean depth of a zone from readings of
 * its own or on a regular grid over the whole floor. */
#include "house.h"

#include <gsl/gsl_interp2d.h>
#include <math.h>

/* ---- density of the litter as it lies, and loose before any load was weighed ---- */

static const ls_row *bird_row(const ls_litter_house *h) {
    const ls_table *density = ls_reference_table(h->reference, "density", "");
    return ls_table_row(density, ls_bird_tables(h->bird));
}

/* The pail, the published density and the ratio between them are each one line: whatever rests on
 * them moves with them. */
static ls_line pail(ls_litter_house *h) {
    return ls_litter_readings(h, "density.pail", "density of loose litter, in a pail", "lb/ft3",
                              &h->house->measured->loose_density, "usual density reading");
}

static ls_line lies_over_loose(ls_litter_house *h) {
    return ls_leaf_figure(h->all, "lies-over-loose", "density in the house over loose", "",
                          ls_reference_need(h->reference, "density", "", "in place over loose", "ratio"));
}

/* The houses of a farm are more alike than what is published lets see. */
static ls_line published_density(ls_litter_house *h) {
    const ls_figure *f = ls_row_figure(bird_row(h), "density");
    ls_line shared = ls_litter_shared_part(h->published, "density", "density in the house, houses of a farm alike",
                                           "lb/ft3", f, f->value * ls_litter_practice(h, "within farm density")->value);
    return ls_litter_own_part(h, h->w, "density.published", "density in the house, published", shared,
                              "within farm density", false);
}

/* Density as it lies: measured in this zone; else from the pail x published ratio; else the
 * published figure of the bird. */
static ls_line zone_density(ls_litter_house *h, int zone) {
    ls_worksheet *w = h->w;
    const ls_measured *m = h->house->measured;
    const char *name = ls_zone_name(zone), *key = ls_printf(w, "density.%s", name);
    const char *label = ls_printf(w, "density in the house: %s", name);
    if (LS_GIVEN(m->density.of[zone]))
        return ls_litter_readings(h, key, label, "lb/ft3", &m->density.of[zone], "usual density reading");
    if (LS_GIVEN(m->loose_density)) {
        ls_litter_note(h, "no density in the house for the %s: the pail density times 1.1-1.3 is used", name);
        return LS_PRODUCT(w, key, label, "lb/ft3", pail(h), lies_over_loose(h));
    }
    ls_litter_note(h, "no density for the %s: the published figure is used", name);
    return ls_same(w, key, label, "lb/ft3", published_density(h));
}

/* Density of the litter over the whole house as it lies: the survey's mass over its volume, else
 * the readings, each zone by its area (by its share of the floor without the size of the house). */
static ls_line mean_in_place(ls_litter_house *h) {
    ls_worksheet *w = h->w;
    const ls_measured *m = h->house->measured;
    ls_line mass[LS_ZONES] = {0}, of[LS_ZONES] = {0};
    bool sized = ls_litter_has_size(h);
    const char *heavy = h->surveyed ? "ton"
                        : sized     ? "lb/ft"
                                    : "lb/ft3",
               *over_unit = h->surveyed ? "ft3"
                            : sized     ? "ft2"
                                        : "%";
    for (int z = LS_SLATS; z < LS_ZONES; z++) {
        if (!m || !ls_litter_has_zone(h, z) || (!h->surveyed && !LS_GIVEN(m->density.of[z]))) continue;
        of[z] = h->surveyed ? h->zone_volume[z] : sized ? ls_litter_area(h, z) : ls_litter_floor_share(h, z);
        mass[z] = h->surveyed ? h->zone_wet[z]
                              : LS_PRODUCT(w, ls_printf(w, "density.%s.weighted", ls_zone_name(z)),
                                           ls_printf(w, "density x %s", sized ? "area" : "share"), heavy,
                                           zone_density(h, z), of[z]);
    }
    ls_line sum = ls_sum(w, "density.sum", "litter of the zones", heavy, mass, LS_ZONES);
    ls_line over = ls_sum(w, "density.of", "over", over_unit, of, LS_ZONES);
    return ls_quotient(w, "density.in_place", "density in the house, whole house", "lb/ft3", sum, over);
}

ls_line ls_litter_in_place(ls_litter_house *h) {
    ls_line lies = mean_in_place(h);
    if (lies) return lies;
    if (!h->house->measured || !LS_GIVEN(h->house->measured->loose_density)) return published_density(h);
    return LS_PRODUCT(h->w, "density.by-pail", "density in the house, by the pail", "lb/ft3", pail(h),
                      lies_over_loose(h));
}

ls_line ls_litter_loose_before(ls_litter_house *h, const char *key, const char *label) {
    ls_line lies = mean_in_place(h); /* looked at even where the pail decides */
    if (h->house->measured && LS_GIVEN(h->house->measured->loose_density))
        return ls_same(h->w, key, label, "lb/ft3", pail(h));
    if (!lies) {
        lies = published_density(h);
        ls_litter_note(h, "no density was measured: the published density of %s litter is used (%s)%s",
                       h->bird ? "this bird's" : ls_bird_tables(h->bird),
                       bird_row(h)->source ? bird_row(h)->source->id : "", h->bird ? "" : ", as no bird is named");
    }
    return ls_quotient(h->w, key, label, "lb/ft3", lies, lies_over_loose(h));
}

/* The grid carried on to the walls: the outermost readings hold beyond themselves. */
typedef struct {
    size_t nx, ny;
    double *x, *y, *z; /* z[j * nx + i] at x[i], y[j] */
    gsl_interp2d *bilinear;
    gsl_interp_accel *near_x, *near_y;
} surface;

/* Places from one wall to the other, and which place of the grid each takes its depth from. */
static size_t to_walls(ls_arena *a, const double *at, size_t n, double wall, double **places, size_t **from) {
    size_t k = 0;
    *places = LS_NEW(a, double, n + 2);
    *from = LS_NEW(a, size_t, n + 2);
    if (at[0] > 0) (*places)[k] = 0, (*from)[k++] = 0;
    for (size_t i = 0; i < n; i++) (*places)[k] = at[i], (*from)[k++] = i;
    if (at[n - 1] < wall) (*places)[k] = wall, (*from)[k++] = n - 1;
    return k;
}

static surface surface_of(ls_arena *a, const ls_depth_grid *g, double width, double length) {
    surface s = {0};
    size_t *column, *row;
    s.nx = to_walls(a, g->across, g->across_n, width, &s.x, &column);
    s.ny = to_walls(a, g->along, g->along_n, length, &s.y, &row);
    s.z = LS_NEW(a, double, s.nx *s.ny);
    for (size_t j = 0; j < s.ny; j++)
        for (size_t i = 0; i < s.nx; i++) s.z[j * s.nx + i] = g->depth[row[j] * g->across_n + column[i]];
    s.bilinear = gsl_interp2d_alloc(gsl_interp2d_bilinear, s.nx, s.ny);
    s.near_x = gsl_interp_accel_alloc();
    s.near_y = gsl_interp_accel_alloc();
    if (!s.bilinear || !s.near_x || !s.near_y) ls_fail("out of memory");
    if (gsl_interp2d_init(s.bilinear, s.x, s.y, s.z, s.nx, s.ny) != 0) ls_fail("a depth grid is not regular");
    return s;
}

static void end(surface *s) {
    gsl_interp2d_free(s->bilinear);
    gsl_interp_accel_free(s->near_x);
    gsl_interp_accel_free(s->near_y);
}

static double depth_at(const surface *s, double x, double y) {
    double z = NAN;
    return gsl_interp2d_eval_e(s->bilinear, s->x, s->y, s->z, x, y, s->near_x, s->near_y, &z) == 0 ? z : NAN;
}

/* Volume over from..to across and the whole length. Within a cell of the grid the depth is
 * bilinear, so that the mean over a rectangle there is the depth at its middle: exact. */
static double volume(const surface *s, double from, double to) {
    double sum = 0;
    for (size_t i = 0; i + 1 < s->nx; i++) {
        double left = fmax(s->x[i], from), right = fmin(s->x[i + 1], to);
        for (size_t j = 0; left < right && j + 1 < s->ny; j++)
            sum +=
                (right - left) * (s->y[j + 1] - s->y[j]) * depth_at(s, (left + right) / 2, (s->y[j] + s->y[j + 1]) / 2);
    }
    return sum;
}

/* The readings of a zone into out, their number; the places of the first into *first. */
static size_t readings_in(const ls_depth_grid *g, const ls_strip *strips, size_t strips_n, double width, double *out,
                          ls_place *first) {
    size_t n = 0;
    for (size_t k = 0; k < g->across_n * g->along_n; k++)
        for (size_t s = 0; s < strips_n; s++) {
            double x = g->across[k % g->across_n] / width;
            if (!(x >= strips[s].from && x <= strips[s].to)) continue;
            *first = n == 0 ? g->read_at[k] : *first;
            out[n++] = g->depth[k];
            break;
        }
    return n;
}

/* The mean counts as known as well as that many readings taken at random would make it: their spread over the root of
 * their number. A grid does better where the depth changes slowly from spot to spot, so this errs on the wide side. */
static ls_line grid_depth(ls_litter_house *h, int zone) {
    const ls_depth_grid *g = h->house->measured->depth.grid;
    double width = h->house->width.value, length = h->house->length.value, sum = 0, over = 0;
    ls_strip strips[2];
    size_t n = ls_house_strips(h->house, (ls_zone)zone, strips);
    surface s = surface_of(h->arena, g, width, length);
    for (size_t i = 0; i < n; i++) {
        sum += volume(&s, strips[i].from * width, strips[i].to * width);
        over += (strips[i].to - strips[i].from) * width * length;
    }
    end(&s);
    double *readings = LS_NEW(h->arena, double, g->across_n * g->along_n);
    ls_quantity q = {.form = LS_READINGS, .value = sum / over, .unit = g->unit, .text = ""};
    q.readings = readings;
    q.n = readings_in(g, strips, n, width, readings, &q.at);
    q.how = ls_printf(h->w,
                      "mean over this part of the floor of a grid of %zu x %zu readings, %zu of "
                      "them on it: straight lines between, the outermost held to the walls",
                      g->across_n, g->along_n, q.n);
    const char *name = ls_zone_name(zone);
    return ls_litter_readings(h, ls_printf(h->w, "depth.%s", name), ls_printf(h->w, "depth of the litter: %s", name),
                              "in", &q, "usual depth reading");
}

/* Mean depth of a zone: by its readings, or a grid over the whole floor; LS_NO_LINE: neither. */
static ls_line depth_of(ls_litter_house *h, int zone) {
    const ls_zoned *depth = &h->house->measured->depth;
    if (depth->grid) return grid_depth(h, zone);
    if (!LS_GIVEN(depth->of[zone])) return LS_NO_LINE;
    const char *name = ls_zone_name(zone);
    return ls_litter_readings(h, ls_printf(h->w, "depth.%s", name), ls_printf(h->w, "depth of the litter: %s", name),
                              "in", &depth->of[zone], "usual depth reading");
}

void ls_litter_survey(ls_litter_house *h) {
    ls_worksheet *w = h->w;
    bool measured = h->house->measured && ls_litter_has_size(h);
    size_t deep = 0, zones = 0;
    for (int z = LS_SLATS; z < LS_ZONES; z++) {
        zones += ls_litter_has_zone(h, z);
        ls_line depth = measured && ls_litter_has_zone(h, z) ? depth_of(h, z) : LS_NO_LINE;
        if (!depth) continue;
        deep++;
        const char *zone = ls_zone_name(z);
        ls_line density = zone_density(h, z);
        h->zone_volume[z] = LS_PRODUCT(ls_part(w, zone, "volume"), zone, "volume of the litter: %s", "ft3",
                                       ls_litter_area(h, z), depth);
        h->zone_wet[z] = LS_PRODUCT(ls_part(w, zone, "wet"), zone, "litter by the depth survey: %s", "ton",
                                    h->zone_volume[z], density);
    }
    h->surveyed = zones > 0 && deep == zones;
    if (deep > 0 && !h->surveyed)
        ls_litter_note(h, "the depth survey leaves a zone of the house out and is not used for its tons");
}
