/* The keys of what is known of the litter: measurements, lab reports, scale tickets. */
#include "schema.h"

#define NUTRIENT (LS_FARM_SPREAD | LS_FARM_ABOVE)

#define WEIGHED                                                                                    \
    LS_FARM_KEY(QUANTITY, ls_measured, weighed, LS_FARM_SPREAD | LS_FARM_ABOVE,                    \
                "all of the litter, weighed over a scale: settles the tons",                       \
                LS_FARM_IN("ton", 0, 10000), .example = "96 ton")

static const ls_farm_key grid_keys[] = {
    LS_FARM_KEY_AS(
        "grid", TEXT, ls_depth_grid, file, LS_FARM_REQUIRED,
        "comma-separated file (CSV) with the depths read on a regular grid, beside this one. Its "
        "first line is \"across ft,along ft,depth in\" (any order, any units of length). Then "
        "comes a line for each reading: its place from the left wall, its place from the front "
        "wall, the depth. Every across goes with every along. Depths run in straight lines from "
        "reading to reading, and the outermost hold to the walls. The slats lie along both long "
        "walls, half of their share each, the scratch in the middle, plain floor between. Each "
        "part needs readings of its own. How sure a mean depth is comes from how far apart its "
        "readings are, over the root of their number. The density is then the less sure of the "
        "two, so take cores too",
        .names = LS_NAMED_GRID, .example = "north-depth.csv"),
};
const ls_farm_section ls_farm_grid = {.name = "grid of depths",
                                      .size = sizeof(ls_depth_grid),
                                      .at = offsetof(ls_depth_grid, at),
                                      .n = 1,
                                      .keys = grid_keys};

static const ls_farm_key weights_keys[] = {
    LS_FARM_KEY(QUANTITY, ls_weights, wet, LS_FARM_REQUIRED | LS_FARM_READINGS | LS_FARM_ABOVE,
                "weights of the samples as taken, without the dish", LS_FARM_IN("g", 0, 50000),
                .example = "212 205 g"),
    LS_FARM_KEY(QUANTITY, ls_weights, dry, LS_FARM_REQUIRED | LS_FARM_READINGS | LS_FARM_ABOVE,
                "weights of the same samples in the same order, dried in a microwave or an oven "
                "until they lose no more",
                LS_FARM_IN("g", 0, 50000), .example = "128 125 g"),
};
const ls_farm_section ls_farm_weights =
    LS_FARM_KEYS(ls_weights, "moisture test", weights_keys, .check = NULL);

static const ls_farm_key measured_keys[] = {
    LS_FARM_KEY(ZONED, ls_measured, depth, LS_FARM_SPREAD | LS_FARM_READINGS | LS_FARM_ABOVE,
                "depth of the litter: readings spread over each part of the floor, or the file of "
                "a survey on a grid: \"depth: {grid: north-depth.csv}\"",
                LS_FARM_IN("in", 0, 120), .section = &ls_farm_grid,
                .example = "{slats: 5.5 6 4.5 6.5 in, scratch: 3.5 3 4 in}",
                .plain = "4 3.5 4.5 5 in"),
    LS_FARM_KEY(ZONED, ls_measured, density, LS_FARM_SPREAD | LS_FARM_READINGS,
                "weight of a cubic foot in the house: a core or box of known volume, not loosened",
                LS_FARM_IN("lb/ft3", 5, 120),
                .example = "{slats: 41 43 40 lb/ft3, scratch: 31 29 30 lb/ft3}",
                .plain = "33 31 32 lb/ft3"),
    LS_FARM_KEY(QUANTITY, ls_measured, loose_density, LS_FARM_SPREAD | LS_FARM_READINGS,
                "weight of a cubic foot loosened, as in the truck: net pounds in a level 5-gallon "
                "pail times 1.5",
                LS_FARM_IN("lb/ft3", 5, 120), .example = "33 31 32 lb/ft3"),
    LS_FARM_KEY(ZONED, ls_measured, moisture, LS_FARM_SPREAD | LS_FARM_READINGS,
                "water in the litter, of its wet weight: readings, or the weights of samples wet "
                "and dried: \"moisture: {wet: 212 205 g, dry: 128 125 g}\", in a house with parts "
                "\"moisture: {slats: {wet: 212 205 g, dry: 128 125 g}}\"; each pair makes one "
                "reading, 1 - dry/wet",
                LS_FARM_IN("%", 1, 95), .section = &ls_farm_weights,
                .example = "{slats: 38 41 36 %, scratch: 24 27 %}", .plain = "24 27 25 %"),
    WEIGHED,
};
const ls_farm_section ls_farm_measured =
    LS_FARM_KEYS(ls_measured, "measured section", measured_keys, .check = NULL);

static const ls_farm_key side_measured_keys[] = {WEIGHED};
const ls_farm_section ls_farm_side_measured =
    LS_FARM_KEYS(ls_measured, "measured section of a side", side_measured_keys, .check = NULL);

static const ls_farm_key lab_keys[] = {
    LS_FARM_KEY(DATE, ls_lab, date, LS_FARM_REQUIRED, "date of the report",
                .example = "2026-01-29"),
    LS_FARM_KEY(TEXT, ls_lab, by, LS_FARM_STARTED, "the laboratory",
                .example = "State Soil and Manure Laboratory"),
    LS_FARM_KEY(TEXT, ls_lab, method, 0, "how the laboratory tested, as its report has it",
                .example = "combustion N, ICP minerals"),
    LS_FARM_KEY(WORD, ls_lab, basis, 0, "how the report gives its figures; left out: as received",
                .words = ls_farm_bases, .example = "as received"),
    LS_FARM_KEY(QUANTITY, ls_lab, moisture, LS_FARM_SPREAD,
                "moisture of the sample; needed if the basis is dry", LS_FARM_IN("%", 1, 95),
                .example = "33 %"),
    LS_FARM_KEY(QUANTITY, ls_lab, N, LS_FARM_REQUIRED | NUTRIENT,
                "total nitrogen; all nutrients also in ppm or kg/tonne",
                LS_FARM_IN("lb/ton|%", 0, 2000), .example = "38 lb/ton"),
    LS_FARM_KEY(QUANTITY, ls_lab, NH4N, LS_FARM_SPREAD, "ammonium nitrogen",
                LS_FARM_IN("lb/ton|%", 0, 2000), .example = "8 lb/ton"),
    LS_FARM_KEY(QUANTITY, ls_lab, P2O5, LS_FARM_STARTED | NUTRIENT,
                "phosphate; needed, but where the report gives the element: then P",
                LS_FARM_IN("lb/ton|%", 0, 2000), .example = "56 lb/ton"),
    LS_FARM_KEY(QUANTITY, ls_lab, K2O, LS_FARM_STARTED | NUTRIENT,
                "potash; needed, but where the report gives the element: then K",
                LS_FARM_IN("lb/ton|%", 0, 2000), .example = "36 lb/ton"),
    LS_FARM_KEY(QUANTITY, ls_lab, P, NUTRIENT,
                "phosphorus as the element, instead of P2O5: times 2.2914",
                LS_FARM_IN("lb/ton|%", 0, 872), .example = "1.2 %"),
    LS_FARM_KEY(QUANTITY, ls_lab, K, NUTRIENT,
                "potassium as the element, instead of K2O: times 1.2046",
                LS_FARM_IN("lb/ton|%", 0, 1660), .example = "1.5 %"),
    LS_FARM_KEY(QUANTITY, ls_lab, Cu, LS_FARM_SPREAD, "copper, for a caution only",
                LS_FARM_IN("ppm", 0, 10000), .example = "310 ppm"),
    LS_FARM_KEY(QUANTITY, ls_lab, Zn, LS_FARM_SPREAD, "zinc, for a caution only",
                LS_FARM_IN("ppm", 0, 10000), .example = "290 ppm"),
};
const ls_farm_section ls_farm_lab =
    LS_FARM_KEYS(ls_lab, "lab report", lab_keys, .check = ls_farm_check_lab);
static const ls_farm_key cleanout_keys[] = {
    LS_FARM_KEY(DATE, ls_cleanout, date, LS_FARM_REQUIRED, "day the house was emptied",
                .example = "2025-02-12"),
    LS_FARM_KEY(QUANTITY, ls_cleanout, weighed, LS_FARM_REQUIRED | LS_FARM_SPREAD | LS_FARM_ABOVE,
                "tons hauled then, by the scale tickets", LS_FARM_IN("ton", 0, 10000),
                .example = "128 ton"),
    LS_FARM_KEY(BARE, ls_cleanout, bird_days, 0,
                "birds times days in the house before that cleanout; this or feed is needed",
                LS_FARM_FROM_TO(1, 1e10), .example = "2280000"),
    LS_FARM_KEY(QUANTITY, ls_cleanout, feed, LS_FARM_SPREAD | LS_FARM_ABOVE,
                "all feed those birds ate before that cleanout; goes before their bird-days",
                LS_FARM_IN("ton", 0, 100000), .example = "300 ton"),
    LS_FARM_KEY(SECTIONS, ls_cleanout, cake, 0,
                "cake or other litter taken out of those flocks before that cleanout; what is left "
                "out: cake",
                .section = &ls_farm_already_out, .example = "[{weighed: 6 ton, times: 5}]"),
    LS_FARM_KEY(QUANTITY, ls_cleanout, moisture, LS_FARM_SPREAD,
                "moisture of that litter; left out: this house's", LS_FARM_IN("%", 1, 95),
                .example = "30 %"),
};
const ls_farm_section ls_farm_cleanout =
    LS_FARM_KEYS(ls_cleanout, "last cleanout", cleanout_keys, .check = ls_farm_check_cleanout);

static const ls_farm_key already_out_keys[] = {
    LS_FARM_KEY(DATE, ls_already_out, date, 0,
                "day it was taken out; needed, but where times says of how many, and before an "
                "earlier cleanout",
                .example = "2025-11-03"),
    LS_FARM_KEY(QUANTITY, ls_already_out, weighed, LS_FARM_SPREAD | LS_FARM_ABOVE, "tons taken out",
                LS_FARM_IN("ton", 0, 10000), .example = "6 ton"),
    LS_FARM_KEY(COUNT, ls_already_out, loads, 0,
                "instead of weighed: full loads, each of the payload of the first truck",
                LS_FARM_FROM_TO(1, 10000), .example = "3"),
    LS_FARM_KEY(QUANTITY, ls_already_out, depth, LS_FARM_SPREAD | LS_FARM_ABOVE,
                "instead of weighed: depth taken off the area below", LS_FARM_IN("in", 0, 120),
                .example = "2 in"),
    LS_FARM_KEY(QUANTITY, ls_already_out, area, LS_FARM_SPREAD | LS_FARM_ABOVE,
                "the area that depth was taken off, or its share of the floor",
                LS_FARM_IN("ft2|%", 0, 1500000), .example = "6000 ft2"),
    LS_FARM_KEY(WORD, ls_already_out, what, 0,
                "what it was; left out: litter of broiler breeders and layers, cake of all other "
                "birds",
                .words = ls_farm_takens, .example = "cake"),
    LS_FARM_KEY(QUANTITY, ls_already_out, moisture, LS_FARM_SPREAD,
                "its moisture; left out: of litter this house's, of cake that of cake",
                LS_FARM_IN("%", 1, 95), .example = "45 %"),
    LS_FARM_KEY(COUNT, ls_already_out, times, 0,
                "so many times alike, for example after each flock; left out: 1",
                LS_FARM_FROM_TO(1, 1000), .example = "5"),
};
const ls_farm_section ls_farm_already_out =
    LS_FARM_KEYS(ls_already_out, "removal", already_out_keys, .check = ls_farm_check_already_out);
