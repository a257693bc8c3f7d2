/* Checks among the keys of a house. */
#include "reader.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define MISTAKE(reader, at, hint, ...)                                                             \
    ls_diag_add((reader)->diag, LS_ERROR, (at), (hint), __VA_ARGS__)

static bool known(ls_day day) {
    return LS_GIVEN(day) && day.day != LS_NO_DATE;
}

static const char *called(ls_arena *a, const ls_house *house) {
    return house->name.text ? ls_arena_printf(a, "house \"%s\"", house->name.text) : "this house";
}

void ls_farm_check_floor(ls_farm_reader *reader, void *section, bool clean) {
    const ls_floor *floor = section;
    double sum = floor->slats.value + floor->scratch.value + floor->floor.value;
    if (clean && fabs(sum - 1) > 1e-9)
        MISTAKE(reader, floor->at, "give each part its share of the whole floor",
                "the shares of the floor add up to %s %%, not to 100 %%",
                ls_number_text(reader->arena, 100 * sum, 5));
}

/* "slats and scratch" */
static const char *zones_of(ls_arena *a, const ls_house *house) {
    ls_text *text = ls_text_new(a);
    for (int z = 1; z < LS_ZONES; z++)
        if (ls_house_share(house, (ls_zone)z) > 0)
            ls_text_addf(text, "%s%s", text->n > 0 ? " and " : "", ls_zone_name(z));
    return text->s;
}

/* Is a place on the floor that is named there at all? */
static void check_zone(ls_farm_reader *reader, const ls_house *house, int zone, ls_place at,
                       const char *what) {
    ls_arena *a = reader->arena;
    if (ls_house_share(house, (ls_zone)zone) > 0)
        return;
    if (house->floor && zone == LS_FLOOR)
        MISTAKE(reader, at, ls_arena_printf(a, "its floor has the parts %s", zones_of(a, house)),
                "%s must be given by the parts of the floor", what);
    else
        MISTAKE(
            reader, at,
            house->floor
                ? ls_arena_printf(a, "its floor has the parts %s", zones_of(a, house))
                : "add the parts of its floor, for example \"floor: {slats: 64 %, scratch: 36 %}\"",
            "%s has no %s", called(a, house), ls_zone_name(zone));
}

static bool check_zoned(ls_farm_reader *reader, const ls_house *house, const ls_zoned *zoned,
                        const char *what) {
    bool any = false;
    for (int z = 1; z < LS_ZONES; z++) {
        if (!LS_GIVEN(zoned->of[z]))
            continue;
        any = true;
        check_zone(reader, house, z, zoned->of[z].at, what);
    }
    return any;
}

static void check_zones(ls_farm_reader *reader, const ls_house *house, bool clean) {
    for (size_t i = 0; i < house->bedding.n; i++)
        if (house->bedding.at[i].zone.is)
            check_zone(reader, house, house->bedding.at[i].zone.is, house->bedding.at[i].zone.at,
                       "bedding");
    if (!house->measured)
        return;
    size_t before = ls_diag_count(reader->diag, LS_ERROR);
    bool survey = check_zoned(reader, house, &house->measured->depth, "depth");
    if (clean && house->measured->depth.grid)
        ls_farm_check_grid(reader, house);
    check_zoned(reader, house, &house->measured->density, "density");
    check_zoned(reader, house, &house->measured->moisture, "moisture");
    for (int z = 1;
         clean && survey && z < LS_ZONES && ls_diag_count(reader->diag, LS_ERROR) == before; z++)
        if (ls_house_share(house, (ls_zone)z) > 0 && !LS_GIVEN(house->measured->depth.of[z]))
            MISTAKE(reader, house->measured->at, "a depth survey needs every part of the floor",
                    "depth of %s is missing", ls_zone_name(z));
}

/* Was all litter of the house weighed, in one or by its sides? */
static bool all_weighed(const ls_house *house) {
    if (house->measured && house->measured->weighed.form)
        return true;
    for (size_t i = 0; i < house->sides.n; i++)
        if (!house->sides.at[i].measured || !house->sides.at[i].measured->weighed.form)
            return false;
    return house->sides.n > 0;
}

static bool all_analyzed(const ls_house *house) {
    if (house->lab.n > 0)
        return true;
    for (size_t i = 0; i < house->sides.n; i++)
        if (house->sides.at[i].lab.n == 0)
            return false;
    return house->sides.n > 0;
}

/* What may be left out only where the litter was weighed. */
static void check_missing(ls_farm_reader *reader, const ls_house *house) {
    const char *who = called(reader->arena, house);
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
        if (LS_GIVEN(house->measured->depth.of[z]))
            return house->measured->depth.of[z].at;
    for (size_t i = 0; i < house->bedding.n; i++)
        if (LS_GIVEN(house->bedding.at[i].depth))
            return house->bedding.at[i].depth.at;
    for (size_t i = 0; i < house->already_out.n; i++) {
        const ls_quantity *area = &house->already_out.at[i].area;
        if (LS_GIVEN(*area) && ls_dimension_none(area->unit.dimension))
            return area->at;
    }
    return LS_NOWHERE;
}

static void check_floor_area(ls_farm_reader *reader, const ls_house *house) {
    if (!LS_GIVEN(house->length) || !LS_GIVEN(house->width)) {
        ls_place at = floor_used(house);
        if (at.line != 0 && all_weighed(house))
            MISTAKE(reader, at, "add length and width, or take this out",
                    "this needs the length and the width of %s", called(reader->arena, house));
        return;
    }
    for (size_t i = 0; i < house->already_out.n; i++) {
        const ls_quantity *area = &house->already_out.at[i].area;
        if (LS_GIVEN(*area) && !ls_dimension_none(area->unit.dimension) &&
            area->value > house->length.value * house->width.value * (1 + 1e-9))
            MISTAKE(reader, area->at, "check the area and its unit",
                    "more than the whole floor, %s ft2",
                    ls_number_text(reader->arena, house->length.value * house->width.value, 6));
    }
}

static void check_weighed_once(ls_farm_reader *reader, const ls_house *house) {
    if (!house->measured || !house->measured->weighed.form)
        return;
    for (size_t i = 0; i < house->sides.n; i++)
        if (house->sides.at[i].measured && house->sides.at[i].measured->weighed.form)
            MISTAKE(reader, house->sides.at[i].measured->weighed.at,
                    "keep the weights of the sides or the weight of the house",
                    "this litter is in the weight of the house too");
}

static int by_placing(const void *left, const void *right) {
    const ls_flock *a = *(const ls_flock *const *)left, *b = *(const ls_flock *const *)right;
    if (a->placed.day != b->placed.day)
        return a->placed.day < b->placed.day ? -1 : 1;
    return a < b ? -1 : a > b;
}

/* Flocks with both dates known, by the day they were placed. */
static size_t sorted_flocks(ls_arena *a, const ls_house *house, const ls_flock ***out) {
    const ls_flock **flocks = LS_NEW(a, const ls_flock *, house->flocks.n);
    size_t n = 0;
    for (size_t i = 0; i < house->flocks.n; i++)
        if (known(house->flocks.at[i].placed) && known(house->flocks.at[i].removed))
            flocks[n++] = &house->flocks.at[i];
    if (n > 1)
        qsort(flocks, n, sizeof *flocks, by_placing);
    *out = flocks;
    return n;
}

static void check_overlaps(ls_farm_reader *reader, const ls_flock **flocks, size_t n) {
    for (size_t i = 1, longest = 0; i < n; i++) {
        if (flocks[i]->placed.day < flocks[longest]->removed.day)
            MISTAKE(reader, flocks[i]->placed.at,
                    ls_arena_printf(reader->arena, "the flock at %s is removed %s",
                                    ls_diag_where(reader->arena, reader->diag, flocks[longest]->at),
                                    ls_date_iso(reader->arena, flocks[longest]->removed.day)),
                    "this flock is placed while another is still in the house");
        if (flocks[i]->removed.day > flocks[longest]->removed.day)
            longest = i;
    }
}

/* Nothing in the house may be older than its last cleanout. */
static void check_since(ls_farm_reader *reader, const ls_house *house) {
    ls_date emptied = LS_NO_DATE;
    for (size_t i = 0; i < house->last_cleanout.n; i++)
        if (known(house->last_cleanout.at[i].date) &&
            (emptied == LS_NO_DATE || house->last_cleanout.at[i].date.day > emptied))
            emptied = house->last_cleanout.at[i].date.day;
    if (emptied == LS_NO_DATE)
        return;
    const char *hint =
        ls_arena_printf(reader->arena, "list only what came in after the last cleanout, %s",
                        ls_date_iso(reader->arena, emptied));
    for (size_t i = 0; i < house->flocks.n; i++)
        if (known(house->flocks.at[i].placed) && house->flocks.at[i].placed.day < emptied)
            MISTAKE(reader, house->flocks.at[i].placed.at, hint,
                    "this flock was placed before the last cleanout");
    for (size_t i = 0; i < house->bedding.n; i++)
        if (known(house->bedding.at[i].date) && house->bedding.at[i].date.day < emptied)
            MISTAKE(reader, house->bedding.at[i].date.at, hint,
                    "this bedding was spread before the last cleanout");
    for (size_t i = 0; i < house->already_out.n; i++)
        if (known(house->already_out.at[i].date) && house->already_out.at[i].date.day < emptied)
            MISTAKE(reader, house->already_out.at[i].date.at, hint,
                    "this litter was taken out before the last cleanout");
}

static void check_cleanouts(ls_farm_reader *reader, const ls_house *house) {
    for (size_t i = 1; i < house->last_cleanout.n; i++)
        for (size_t k = 0; k < i; k++) {
            const ls_day *day = &house->last_cleanout.at[i].date,
                         *other = &house->last_cleanout.at[k].date;
            if (known(*day) && known(*other) && day->day == other->day)
                MISTAKE(reader, day->at, "give each cleanout once, all its loads together",
                        "two cleanouts on the same day, %s", ls_date_iso(reader->arena, day->day));
        }
}

static void check_bedding_dates(ls_farm_reader *reader, const ls_house *house,
                                const ls_flock **flocks, size_t n) {
    ls_date last = LS_NO_DATE;
    for (size_t i = 0; i < n; i++)
        last = flocks[i]->removed.day > last ? flocks[i]->removed.day : last;
    for (size_t i = 0; n > 0 && i < house->bedding.n; i++)
        if (known(house->bedding.at[i].date) && house->bedding.at[i].date.day >= last)
            MISTAKE(reader, house->bedding.at[i].date.at,
                    ls_arena_printf(reader->arena, "the last birds leave %s: check both dates",
                                    ls_date_iso(reader->arena, last)),
                    "this bedding is spread after the birds have left");
}

static void check_code(ls_farm_reader *reader, const ls_house *house) {
    enum { LONGEST = 4 };
    const char *code = house->code.text;
    if (code && (strlen(code) > LONGEST ||
                 strspn(code, "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789") != strlen(code)))
        MISTAKE(reader, house->code.at, "for example \"code: N\"",
                "code takes one to four capital letters or digits");
}

void ls_farm_check_house(ls_farm_reader *reader, void *section, bool clean) {
    const ls_house *house = section;
    const ls_flock **flocks;
    size_t n = sorted_flocks(reader->arena, house, &flocks);
    if (clean || house->floor)
        check_zones(reader, house, clean);
    if (clean)
        check_missing(reader, house);
    if (clean)
        check_floor_area(reader, house);
    check_weighed_once(reader, house);
    check_overlaps(reader, flocks, n);
    check_cleanouts(reader, house);
    check_since(reader, house);
    check_bedding_dates(reader, house, flocks, n);
    check_code(reader, house);
}
