/* The keys of a house and all that stands in one. */
#include "schema_rows.h"

static const ls_farm_key floor_keys[] = {
    QUANTITY(ls_floor, slats, STARTED, "%", 1, 100, "64 %", "share of the floor under slats"),
    QUANTITY(ls_floor, scratch, STARTED, "%", 1, 100, "36 %", "share of the floor that is scratch area"),
    QUANTITY(ls_floor, floor, 0, "%", 1, 100, "10 %",
             "share of the floor that is plain litter floor; the shares add up to \"100 %\""),
};
static const ls_farm_section floor_section = KEYS_OF(ls_floor, floor_keys, "floor", .check = ls_farm_check_floor);

static const ls_farm_key bedding_keys[] = {
    ROW(ls_bedding, material, REQUIRED, "bedding", "pine shavings", "what was spread"),
    QUANTITY(ls_bedding, depth, STARTED | SPREAD | ABOVE, "in", 0, 36, "3 in", "depth when it was spread"),
    QUANTITY(ls_bedding, volume, SPREAD | ABOVE, "yd3", 0, 10000, "160 yd3",
             "instead of depth: volume when it was spread"),
    COUNT(ls_bedding, bales, 0, 1, 100000, "40", "instead of depth: bales of shavings, each of the published weight"),
    QUANTITY(ls_bedding, weight, SPREAD | ABOVE, "ton", 0, 10000, "14 ton",
             "instead of depth: tons as brought in, by the scale or delivery tickets"),
    WORD(ls_bedding, zone, STARTED, ls_farm_zones, "scratch",
         "the part of the floor it was spread on; left out: the whole floor", .birds = BREEDERS),
    DATE(ls_bedding, date, 0, "2025-04-14", "day it was spread", .plain = "2025-12-04"),
};
static const ls_farm_section bedding_section =
    KEYS_OF(ls_bedding, bedding_keys, "bedding", .one_of = "depth|volume|bales|weight", .check = ls_farm_check_bedding);

#define LAB_EXAMPLE                                                                                                    \
    "[{date: 2026-01-29, by: State Soil and Manure Laboratory, moisture: 33 %, N: 38 lb/ton, "                         \
    "NH4N: 8 lb/ton, P2O5: 56 lb/ton, K2O: 36 lb/ton}]"

static const ls_farm_key side_keys[] = {
    TEXT(ls_side, name, REQUIRED, "left", "name of the side"),
    FORMERLY(ls_side, "west"),
    SECTION(ls_side, measured, OF_ONE, &ls_farm_side_measured, "{weighed: 48 ton}", "scale weight of this side alone"),
    SECTIONS(ls_side, lab, ONE_OR_MANY | OF_ONE, &ls_farm_lab, LAB_EXAMPLE, "lab reports of this side alone"),
};
static const ls_farm_section side_section = KEYS_OF(ls_side, side_keys, "side", .only = "name");

static const ls_farm_key house_keys[] = {
    TEXT(ls_house, name, REQUIRED, "North", "name of the house"),
    LIKE(ls_house, "North",
         "a house above this one: what is left out here is as there, but for measurements, "
         "lab reports, earlier cleanouts and cake"),
    QUANTITY(ls_house, length, SPREAD | STARTED, "ft", 10, 3000, "432 ft",
             "inside length; may be left out where all litter was weighed"),
    QUANTITY(ls_house, width, SPREAD | STARTED, "ft", 5, 500, "40 ft", "inside width"),
    SECTIONS(ls_house, sides, STARTED, &side_section, "[left, right]",
             "sides emptied one after the other; left out: the house is emptied as a whole", .birds = BREEDERS),
    SECTION(ls_house, floor, STARTED, &floor_section, "{slats: 64 %, scratch: 36 %}",
            "parts of the floor; left out: all of it is plain litter floor", .birds = BREEDERS),
    SECTIONS(ls_house, bedding, STARTED | ONE_OR_MANY, &bedding_section,
             "[{material: pine shavings, depth: 3 in, date: 2025-04-14}]",
             "bedding spread since the last cleanout, at the start and on top later; \"none\" "
             "if none was; left out: the usual pounds for such birds",
             .none = "none", .if_none = offsetof(ls_house, no_bedding)),
    SECTIONS(ls_house, flocks, STARTED | ONE_OR_MANY, &ls_farm_flock,
             "[{birds: broiler, count: 24000, placed: 2025-12-08, removed: 2026-01-26}]",
             "flocks since the last cleanout; may be left out where all litter was weighed and "
             "analyzed"),
    WORD(ls_house, manure, STARTED, ls_farm_manures, "pit",
         "how the manure of layers and layer pullets is kept: taken away on belts, in a pit "
         "below them, scraped off, or as litter on the floor",
         .birds = LAYERS),
    SECTION(ls_house, measured, OF_ONE, &ls_farm_measured,
            "{depth: {slats: 5.5 6 4.5 6.5 in, scratch: 3.5 3 4 in}, loose_density: "
            "33 31 32 lb/ft3}",
            "what was measured in this house; every reading narrows the estimate",
            .plain = "{depth: 4 3.5 4.5 5 in, loose_density: 33 31 32 lb/ft3}"),
    SECTIONS(ls_house, lab, ONE_OR_MANY | OF_ONE, &ls_farm_lab, LAB_EXAMPLE,
             "lab reports of this house's litter; they settle its nutrients, several by their mean"),
    SECTIONS(ls_house, last_cleanout, ONE_OR_MANY | OF_ONE, &ls_farm_cleanout,
             "{date: 2025-02-12, weighed: 128 ton, bird_days: 2280000}",
             "scale tickets of the cleanout before this one, or a list of several years: each "
             "is scaled to this flock by its feed or its bird-days; together they count as one"),
    SECTIONS(ls_house, already_out, ONE_OR_MANY | OF_ONE, &ls_farm_already_out,
             "[{date: 2025-12-22, weighed: 6 ton, moisture: 45 %}]",
             "cake or other litter taken out since the last cleanout"),
    YESNO(ls_house, alum, 0, "no",
          "yes: the litter was treated with alum, which keeps more nitrogen in it; the rates "
          "page says so; left out: no"),
    QUANTITY(ls_house, slat_height, 0, "in", 6, 120, "26 in",
             "top of the slats above the floor: litter cannot lie deeper under them", .birds = BREEDERS),
    COUNT(ls_house, sections, 0, 1, 10000, "210", "slat sections in this house; left out: the figure under crew",
          .birds = BREEDERS),
    YESNO(ls_house, alike, 0, "yes", "no: measurements in other houses say nothing of this one; left out: yes"),
    TEXT(ls_house, code, OF_ONE, "N",
         "one to four capital letters or digits that begin the ticket numbers of this "
         "house; left out: made from its name"),
    FORMERLY(ls_house, "Old North"),
};
const ls_farm_section ls_farm_house = KEYS_OF(ls_house, house_keys, "house", .check = ls_farm_check_house);
