/* The keys of a house and all that stands in one. */
#include "schema.h"

static const ls_farm_key floor_keys[] = {
    LS_FARM_KEY(QUANTITY, ls_floor, slats, LS_FARM_STARTED, "share of the floor under slats",
                LS_FARM_IN("%", 1, 100), .example = "64 %"),
    LS_FARM_KEY(QUANTITY, ls_floor, scratch, LS_FARM_STARTED,
                "share of the floor that is scratch area", LS_FARM_IN("%", 1, 100),
                .example = "36 %"),
    LS_FARM_KEY(QUANTITY, ls_floor, floor, 0,
                "share of the floor that is plain litter floor; the shares add up to \"100 %\"",
                LS_FARM_IN("%", 1, 100), .example = "10 %"),
};
static const ls_farm_section floor_section =
    LS_FARM_KEYS(ls_floor, "floor", floor_keys, .check = ls_farm_check_floor);

static const ls_farm_key bedding_keys[] = {
    LS_FARM_KEY(ROW, ls_bedding, material, LS_FARM_REQUIRED, "what was spread", .tables = "bedding",
                .example = "pine shavings"),
    LS_FARM_KEY(QUANTITY, ls_bedding, depth, LS_FARM_STARTED | LS_FARM_SPREAD | LS_FARM_ABOVE,
                "depth when it was spread", LS_FARM_IN("in", 0, 36), .example = "3 in"),
    LS_FARM_KEY(QUANTITY, ls_bedding, volume, LS_FARM_SPREAD | LS_FARM_ABOVE,
                "instead of depth: volume when it was spread", LS_FARM_IN("yd3", 0, 10000),
                .example = "160 yd3"),
    LS_FARM_KEY(COUNT, ls_bedding, bales, 0,
                "instead of depth: bales of shavings, each of the published weight",
                LS_FARM_FROM_TO(1, 100000), .example = "40"),
    LS_FARM_KEY(QUANTITY, ls_bedding, weight, LS_FARM_SPREAD | LS_FARM_ABOVE,
                "instead of depth: tons as brought in, by the scale or delivery tickets",
                LS_FARM_IN("ton", 0, 10000), .example = "14 ton"),
    LS_FARM_KEY(WORD, ls_bedding, zone, LS_FARM_STARTED,
                "the part of the floor it was spread on; left out: the whole floor",
                .words = ls_farm_zones, .birds = LS_FARM_BREEDERS, .example = "scratch"),
    LS_FARM_KEY(DATE, ls_bedding, date, LS_FARM_STARTED, "day it was spread",
                .example = "2025-04-14", .plain = "2025-12-04"),
};
static const ls_farm_section bedding_section =
    LS_FARM_KEYS(ls_bedding, "bedding", bedding_keys, .check = ls_farm_check_bedding);

#define LAB_EXAMPLE                                                                                \
    "[{date: 2026-01-29, by: State Soil and Manure Laboratory, moisture: 33 %, N: 38 lb/ton, "     \
    "NH4N: 8 lb/ton, P2O5: 56 lb/ton, K2O: 36 lb/ton}]"

static const ls_farm_key side_keys[] = {
    LS_FARM_KEY(TEXT, ls_side, name, LS_FARM_REQUIRED, "name of the side", .example = "left"),
    LS_FARM_FORMERLY(ls_side, "west"),
    LS_FARM_KEY(SECTION, ls_side, measured, 0, "scale weight of this side alone",
                .section = &ls_farm_side_measured, .example = "{weighed: 48 ton}"),
    LS_FARM_KEY(SECTIONS, ls_side, lab, 0, "lab reports of this side alone",
                .section = &ls_farm_lab, .example = LAB_EXAMPLE),
};
static const ls_farm_section side_section =
    LS_FARM_KEYS(ls_side, "side", side_keys, .only = "name");

static const ls_farm_key house_keys[] = {
    LS_FARM_KEY(TEXT, ls_house, name, LS_FARM_REQUIRED, "name of the house", .example = "North"),
    LS_FARM_FORMERLY(ls_house, "Old North"),
    LS_FARM_KEY(QUANTITY, ls_house, length, LS_FARM_SPREAD | LS_FARM_STARTED,
                "inside length; may be left out where all litter was weighed",
                LS_FARM_IN("ft", 10, 3000), .example = "432 ft"),
    LS_FARM_KEY(QUANTITY, ls_house, width, LS_FARM_SPREAD | LS_FARM_STARTED, "inside width",
                LS_FARM_IN("ft", 5, 500), .example = "40 ft"),
    LS_FARM_KEY(SECTIONS, ls_house, sides, LS_FARM_STARTED,
                "sides emptied one after the other; left out: the house is emptied as a whole",
                .section = &side_section, .birds = LS_FARM_BREEDERS, .example = "[left, right]"),
    LS_FARM_KEY(SECTION, ls_house, floor, LS_FARM_STARTED,
                "parts of the floor; left out: all of it is plain litter floor",
                .section = &floor_section, .birds = LS_FARM_BREEDERS,
                .example = "{slats: 64 %, scratch: 36 %}"),
    LS_FARM_KEY(SECTIONS, ls_house, bedding, LS_FARM_STARTED,
                "bedding spread since the last cleanout, at the start and on top later; \"none\" "
                "if none was; left out: the usual pounds for such birds",
                .section = &bedding_section, .none = "none",
                .if_none = offsetof(ls_house, no_bedding),
                .example = "[{material: pine shavings, depth: 3 in, date: 2025-04-14}]"),
    LS_FARM_KEY(
        SECTIONS, ls_house, flocks, LS_FARM_STARTED,
        "flocks since the last cleanout; may be left out where all litter was weighed and analyzed",
        .section = &ls_farm_flock,
        .example = "[{birds: broiler, count: 24000, placed: 2025-12-08, removed: 2026-01-26}]"),
    LS_FARM_KEY(TEXT, ls_house, flocks_as, 0,
                "instead of flocks: the house whose flocks this one had too, alike in number and "
                "days",
                .example = "North"),
    LS_FARM_KEY(WORD, ls_house, manure, LS_FARM_STARTED,
                "how the manure of layers and layer pullets is kept: taken away on belts, in a pit "
                "below them, scraped off, or as litter on the floor",
                .words = ls_farm_manures, .birds = LS_FARM_LAYERS, .example = "pit"),
    LS_FARM_KEY(SECTION, ls_house, measured, 0,
                "what was measured in this house; every reading narrows the estimate",
                .section = &ls_farm_measured,
                .example = "{depth: {slats: 5.5 6 4.5 6.5 in, scratch: 3.5 3 4 in}, loose_density: "
                           "33 31 32 lb/ft3}",
                .plain = "{depth: 4 3.5 4.5 5 in, loose_density: 33 31 32 lb/ft3}"),
    LS_FARM_KEY(
        SECTIONS, ls_house, lab, 0,
        "lab reports of this house's litter; they settle its nutrients, several by their mean",
        .section = &ls_farm_lab, .example = LAB_EXAMPLE),
    LS_FARM_KEY(SECTIONS, ls_house, last_cleanout, LS_FARM_ONE_OR_MANY,
                "scale tickets of the cleanout before this one, or a list of several years: each "
                "is scaled to this flock by its feed or its bird-days; together they count as one",
                .section = &ls_farm_cleanout,
                .example = "{date: 2025-02-12, weighed: 128 ton, bird_days: 2280000}"),
    LS_FARM_KEY(SECTIONS, ls_house, already_out, 0,
                "cake or other litter taken out since the last cleanout",
                .section = &ls_farm_already_out,
                .example = "[{date: 2025-12-22, weighed: 6 ton, moisture: 45 %}]"),
    LS_FARM_KEY(YESNO, ls_house, alike, 0,
                "no: measurements in other houses say nothing of this one; left out: yes",
                .example = "yes"),
    LS_FARM_KEY(YESNO, ls_house, alum, 0,
                "yes: the litter was treated with alum, which keeps more nitrogen in it; the rates "
                "page says so; left out: no",
                .example = "no"),
    LS_FARM_KEY(QUANTITY, ls_house, slat_height, 0,
                "top of the slats above the floor: litter cannot lie deeper under them",
                LS_FARM_IN("in", 6, 120), .birds = LS_FARM_BREEDERS, .example = "26 in"),
    LS_FARM_KEY(COUNT, ls_house, sections, 0,
                "slat sections in this house; left out: the figure under crew",
                LS_FARM_FROM_TO(1, 10000), .birds = LS_FARM_BREEDERS, .example = "210"),
    LS_FARM_KEY(TEXT, ls_house, code, 0,
                "one to four capital letters or digits that begin the ticket numbers of this "
                "house; left out: made from its name",
                .example = "N"),
};
const ls_farm_section ls_farm_house =
    LS_FARM_KEYS(ls_house, "house", house_keys, .check = ls_farm_check_house);
