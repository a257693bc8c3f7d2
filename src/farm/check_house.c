/* Checks among the keys of a house. */
#include "reader.h"

#include <math.h>
#include <string.h>

void ls_farm_check_floor(ls_farm_reader *reader, void *section, bool clean) {
    const ls_floor *floor = section;
    double sum = floor->slats.value + floor->scratch.value + floor->floor.value;
    if (clean && fabs(sum - 1) > 1e-9)
        LS_FARM_WRONG(reader, floor->at, "give each part its share of the whole floor",
                      "the shares of the floor add up to %s%%, not to 100%%",
                      ls_number_text(reader->arena, 100 * sum, 5));
}

/* ---- a depth grid against the house it was read in ---- */

static const double wall = 1 + 1e-9; /* a conversion may miss it by a last digit */

/* "from 0 to 12.8 ft across and from 27.2 to 40" */
static const char *strips_of(ls_arena *a, const ls_house *house, ls_zone zone) {
    ls_strip strips[2];
    size_t n = ls_house_strips(house, zone, strips);
    ls_text *text = ls_text_new(a);
    for (size_t i = 0; i < n; i++)
        ls_text_addf(text, "%sfrom %s to %s ft", i > 0 ? " and " : "",
                     ls_number_text(a, strips[i].from * house->width.value, 3),
                     ls_number_text(a, strips[i].to * house->width.value, 3));
    return text->s;
}

static bool within(const ls_house *house, ls_zone zone, double across) {
    ls_strip strips[2];
    size_t n = ls_house_strips(house, zone, strips);
    for (size_t i = 0; i < n; i++)
        if (across >= strips[i].from * house->width.value && across <= strips[i].to * house->width.value * wall)
            return true;
    return false;
}

/* Readings beyond a wall. */
static bool check_walls(ls_farm_reader *reader, const ls_house *house) {
    const ls_depth_grid *g = house->measured->depth.grid;
    ls_arena *a = reader->arena;
    bool inside = true;
    for (size_t k = 0; k < g->across_n * g->along_n; k++) {
        bool wide = g->across[k % g->across_n] > house->width.value * wall;
        bool far = g->along[k / g->across_n] > house->length.value * wall;
        if (!wide && !far) continue;
        inside = false;
        LS_FARM_WRONG(reader, g->read_at[k],
                      "places count from the left wall and the front wall; check the numbers and "
                      "their unit",
                      "this reading is outside the house, which is %s ft %s",
                      ls_number_text(a, wide ? house->width.value : house->length.value, 5), wide ? "wide" : "long");
    }
    return inside;
}

/* A part of the floor needs readings of its own: between those of others its depth would be made up. */
static void check_part(ls_farm_reader *reader, const ls_house *house, ls_zone zone) {
    const ls_depth_grid *g = house->measured->depth.grid;
    ls_arena *a = reader->arena;
    size_t n = 0, deep = 0;
    for (size_t k = 0; k < g->across_n * g->along_n; k++)
        if (within(house, zone, g->across[k % g->across_n])) n++, deep += g->depth[k] > 0;
    if (n == 0)
        LS_FARM_WRONG(reader, g->file.at,
                      ls_arena_printf(a, "by the shares of the floor it lies %s across", strips_of(a, house, zone)),
                      "the grid has no reading on the %s", ls_zone_name((int)zone));
    else if (deep == 0)
        LS_FARM_WRONG(reader, g->file.at, "check the column of depths", "every depth read on the %s is 0",
                      ls_zone_name((int)zone));
}

static void check_grid(ls_farm_reader *reader, const ls_house *house) {
    if (!LS_GIVEN(house->width) || !LS_GIVEN(house->length) || !check_walls(reader, house)) return;
    for (int z = LS_SLATS; z < LS_ZONES; z++)
        if (ls_house_share(house, (ls_zone)z) > 0) check_part(reader, house, (ls_zone)z);
}

/* ---- the parts of the floor ---- */

/* "slats and scratch" */
static const char *zones_of(ls_arena *a, const ls_house *house) {
    ls_text *text = ls_text_new(a);
    for (int z = 1; z < LS_ZONES; z++)
        if (ls_house_share(house, (ls_zone)z) > 0)
            ls_text_addf(text, "%s%s", text->n > 0 ? " and " : "", ls_zone_name(z));
    return text->s;
}

/* Is a place on the floor that is named there at all? */
static void check_zone(ls_farm_reader *reader, const ls_house *house, int zone, ls_place at, const char *what) {
    ls_arena *a = reader->arena;
    if (ls_house_share(house, (ls_zone)zone) > 0) return;
    if (house->floor && zone == LS_FLOOR)
        LS_FARM_WRONG(reader, at, ls_arena_printf(a, "its floor has the parts %s", zones_of(a, house)),
                      "%s must be given by the parts of the floor", what);
    else
        LS_FARM_WRONG(reader, at,
                      house->floor ? ls_arena_printf(a, "its floor has the parts %s", zones_of(a, house))
                                   : "add the parts of its floor, for example \"floor: {slats: 64 %, scratch: 36 %}\"",
                      "%s has no %s", ls_farm_called(a, "house", house->name), ls_zone_name(zone));
}

static bool check_zoned(ls_farm_reader *reader, const ls_house *house, const ls_zoned *zoned, const char *what) {
    bool any = false;
    for (int z = 1; z < LS_ZONES; z++) {
        if (!LS_GIVEN(zoned->of[z])) continue;
        any = true;
        check_zone(reader, house, z, zoned->of[z].at, what);
    }
    return any;
}

static void check_zones(ls_farm_reader *reader, const ls_house *house, bool clean) {
    for (size_t i = 0; i < house->bedding.n; i++)
        if (house->bedding.at[i].zone.is)
            check_zone(reader, house, house->bedding.at[i].zone.is, house->bedding.at[i].zone.at, "bedding");
    if (!house->measured) return;
    size_t before = ls_diag_count(reader->diag, LS_ERROR);
    bool survey = check_zoned(reader, house, &house->measured->depth, "depth");
    if (clean && house->measured->depth.grid) check_grid(reader, house);
    check_zoned(reader, house, &house->measured->density, "density");
    check_zoned(reader, house, &house->measured->moisture, "moisture");
    for (int z = 1; clean && survey && z < LS_ZONES && ls_diag_count(reader->diag, LS_ERROR) == before; z++)
        if (ls_house_share(house, (ls_zone)z) > 0 && !LS_GIVEN(house->measured->depth.of[z]))
            LS_FARM_WRONG(reader, house->measured->at, "a depth survey needs every part of the floor",
                          "depth of %s is missing", ls_zone_name(z));
}

/* Was all litter of the house weighed, in one or by its sides? */
static bool all_weighed(const ls_house *house) {
    if (house->measured && LS_GIVEN(house->measured->weighed)) return true;
    for (size_t i = 0; i < house->sides.n; i++)
        if (!house->sides.at[i].measured || !LS_GIVEN(house->sides.at[i].measured->weighed)) return false;
    return house->sides.n > 0;
}

static bool all_analyzed(const ls_house *house) {
    if (house->lab.n > 0) return true;
    for (size_t i = 0; i < house->sides.n; i++)
        if (house->sides.at[i].lab.n == 0) return false;
    return house->sides.n > 0;
}

/* What may be left out only where the litter was weighed. */
static void check_missing(ls_farm_reader *reader, const ls_house *house) {
    const char *who = ls_farm_called(reader->arena, "house", house->name);
    static const char weighed[] = "only where all litter was weighed may it be left out";
    if (!all_weighed(house) && !LS_GIVEN(house->length))
        ls_farm_missing(reader, house->at, who, ls_farm_key_of(reader->section, "length"), weighed);
    if (!all_weighed(house) && !LS_GIVEN(house->width))
        ls_farm_missing(reader, house->at, who, ls_farm_key_of(reader->section, "width"), weighed);
    if (house->flocks.n == 0 && !(all_weighed(house) && all_analyzed(house)))
        ls_farm_missing(reader, house->at, who, ls_farm_key_of(reader->section, "flocks"),
                        "only litter that was weighed and analyzed can do without");
}

/* Depths and litter taken off a share of the floor need the floor. */
static ls_place floor_used(const ls_house *house) {
    for (int z = 1; house->measured && z < LS_ZONES; z++)
        if (LS_GIVEN(house->measured->depth.of[z])) return house->measured->depth.of[z].at;
    for (size_t i = 0; i < house->bedding.n; i++)
        if (LS_GIVEN(house->bedding.at[i].depth)) return house->bedding.at[i].depth.at;
    for (size_t i = 0; i < house->already_out.n; i++) {
        const ls_quantity *area = &house->already_out.at[i].area;
        if (LS_GIVEN(*area) && ls_dimension_none(area->unit.dimension)) return area->at;
    }
    return LS_NOWHERE;
}

static void check_floor_area(ls_farm_reader *reader, const ls_house *house) {
    if (!LS_GIVEN(house->length) || !LS_GIVEN(house->width)) {
        ls_place at = floor_used(house);
        if (at.line != 0 && all_weighed(house))
            LS_FARM_WRONG(reader, at, "add length and width, or take this out",
                          "this needs the length and the width of %s",
                          ls_farm_called(reader->arena, "house", house->name));
        return;
    }
    for (size_t i = 0; i < house->already_out.n; i++) {
        const ls_quantity *area = &house->already_out.at[i].area;
        if (LS_GIVEN(*area) && !ls_dimension_none(area->unit.dimension) &&
            area->value > house->length.value * house->width.value * (1 + 1e-9))
            LS_FARM_WRONG(reader, area->at, "check the area and its unit", "more than the whole floor, %s ft2",
                          ls_number_text(reader->arena, house->length.value * house->width.value, 6));
    }
}

static void check_weighed_once(ls_farm_reader *reader, const ls_house *house) {
    if (!house->measured || !house->measured->weighed.form) return;
    for (size_t i = 0; i < house->sides.n; i++)
        if (house->sides.at[i].measured && house->sides.at[i].measured->weighed.form)
            LS_FARM_WRONG(reader, house->sides.at[i].measured->weighed.at,
                          "keep the weights of the sides or the weight of the house",
                          "this litter is in the weight of the house too");
}

/* What was taken out once has its day. */
static void check_removals(ls_farm_reader *reader, const ls_house *house) {
    for (size_t i = 0; i < house->already_out.n; i++) {
        const ls_already_out *o = &house->already_out.at[i];
        if (o->at.line != 0 && !LS_GIVEN(o->date) && (!LS_GIVEN(o->times) || o->times.n == 1))
            ls_farm_missing(reader, o->at, "this removal", ls_farm_key_of(&ls_farm_already_out, "date"), NULL);
    }
}

static void check_code(ls_farm_reader *reader, const ls_house *house) {
    enum { LONGEST = 4 };
    const char *code = house->code.text;
    if (code && (strlen(code) > LONGEST || strspn(code, "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789") != strlen(code)))
        LS_FARM_WRONG(reader, house->code.at, "for example \"code: N\"",
                      "code takes one to four capital letters or digits");
}

void ls_farm_check_house(ls_farm_reader *reader, void *section, bool clean) {
    const ls_house *house = section;
    if (clean || house->floor) check_zones(reader, house, clean);
    if (clean) check_missing(reader, house);
    if (clean) check_floor_area(reader, house);
    check_weighed_once(reader, house);
    check_removals(reader, house);
    check_code(reader, house);
}
