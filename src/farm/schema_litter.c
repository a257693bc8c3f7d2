/* The keys of what is known of the litter: measurements, lab reports, scale tickets. */
#include "schema_rows.h"

#define NUTRIENT (LS_FARM_SPREAD | LS_FARM_ABOVE)

#define WEIGHED                                                                                                        \
    QUANTITY(ls_measured, weighed, SPREAD | ABOVE, "ton", 0, 10000, "96 ton",                                          \
             "all of the litter, weighed over a scale: settles the tons")

static const ls_farm_key grid_keys[] = {
    {KEY_AS("grid", TEXT, ls_depth_grid, file, REQUIRED, "north-depth.csv",
            "comma-separated file (CSV) with the depths read on a regular grid, beside this one. Its "
            "first line is \"across ft,along ft,depth in\" (any order, any units of length). Then "
            "comes a line for each reading: its place from the left wall, its place from the front "
            "wall, the depth. Every across goes with every along. Depths run in straight lines from "
            "reading to reading, and the outermost hold to the walls. The slats lie along both long "
            "walls, half of their share each, the scratch in the middle, plain floor between. Each "
            "part needs readings of its own. How sure a mean depth is comes from how far apart its "
            "readings are, over the root of their number. The density is then the less sure of the "
            "two, so take cores too",
            .names = LS_NAMED_GRID)},
};
const ls_farm_section ls_farm_grid = KEYS_OF(ls_depth_grid, grid_keys, "grid of depths");

static const ls_farm_key weights_keys[] = {
    QUANTITY(ls_weights, wet, REQUIRED | READINGS | ABOVE, "g", 0, 50000, "212 205 g",
             "weights of the samples as taken, without the dish"),
    QUANTITY(ls_weights, dry, REQUIRED | READINGS | ABOVE, "g", 0, 50000, "128 125 g",
             "weights of the same samples in the same order, dried in a microwave or an oven "
             "until they lose no more"),
};
const ls_farm_section ls_farm_weights = KEYS_OF(ls_weights, weights_keys, "moisture test");

static const ls_farm_key measured_keys[] = {
    ZONED(ls_measured, depth, SPREAD | READINGS | ABOVE, "in", 0, 120, "{slats: 5.5 6 4.5 6.5 in, scratch: 3.5 3 4 in}",
          "depth of the litter: readings spread over each part of the floor, or the file of "
          "a survey on a grid: \"depth: {grid: north-depth.csv}\"",
          .section = &ls_farm_grid, .plain = "4 3.5 4.5 5 in"),
    ZONED(
        ls_measured, density, SPREAD | READINGS, "lb/ft3", 5, 120, "{slats: 41 43 40 lb/ft3, scratch: 31 29 30 lb/ft3}",
        "weight of a cubic foot in the house: a core or box of known volume, not loosened", .plain = "33 31 32 lb/ft3"),
    QUANTITY(ls_measured, loose_density, SPREAD | READINGS, "lb/ft3", 5, 120, "33 31 32 lb/ft3",
             "weight of a cubic foot loosened, as in the truck: net pounds in a level 5-gallon "
             "pail times 1.5"),
    ZONED(ls_measured, moisture, SPREAD | READINGS, "%", 1, 95, "{slats: 38 41 36 %, scratch: 24 27 %}",
          "water in the litter, of its wet weight: readings, or the weights of samples wet "
          "and dried: \"moisture: {wet: 212 205 g, dry: 128 125 g}\", in a house with parts "
          "\"moisture: {slats: {wet: 212 205 g, dry: 128 125 g}}\"; each pair makes one "
          "reading, 1 - dry/wet",
          .section = &ls_farm_weights, .plain = "24 27 25 %"),
    WEIGHED,
};
const ls_farm_section ls_farm_measured = KEYS_OF(ls_measured, measured_keys, "measured section");

static const ls_farm_key side_measured_keys[] = {WEIGHED};
const ls_farm_section ls_farm_side_measured = KEYS_OF(ls_measured, side_measured_keys, "measured section of a side");

static const ls_farm_key lab_keys[] = {
    DATE(ls_lab, date, REQUIRED, "2026-01-29", "date of the report"),
    TEXT(ls_lab, by, STARTED, "State Soil and Manure Laboratory", "the laboratory"),
    TEXT(ls_lab, method, 0, "combustion N, ICP minerals", "how the laboratory tested, as its report has it"),
    WORD(ls_lab, basis, 0, ls_farm_bases, "as received", "how the report gives its figures; left out: as received"),
    QUANTITY(ls_lab, moisture, SPREAD, "%", 1, 95, "33 %", "moisture of the sample; needed if the basis is dry"),
    QUANTITY(ls_lab, N, REQUIRED | NUTRIENT, "lb/ton|%", 0, 2000, "38 lb/ton",
             "total nitrogen; all nutrients also in ppm or kg/tonne"),
    QUANTITY(ls_lab, NH4N, SPREAD, "lb/ton|%", 0, 2000, "8 lb/ton", "ammonium nitrogen"),
    QUANTITY(ls_lab, P2O5, STARTED | NUTRIENT, "lb/ton|%", 0, 2000, "56 lb/ton",
             "phosphate; needed, but where the report gives the element: then P"),
    QUANTITY(ls_lab, K2O, STARTED | NUTRIENT, "lb/ton|%", 0, 2000, "36 lb/ton",
             "potash; needed, but where the report gives the element: then K"),
    QUANTITY(ls_lab, P, NUTRIENT, "lb/ton|%", 0, 872, "1.2 %",
             "phosphorus as the element, instead of P2O5: times 2.2914"),
    QUANTITY(ls_lab, K, NUTRIENT, "lb/ton|%", 0, 1660, "1.5 %",
             "potassium as the element, instead of K2O: times 1.2046"),
    QUANTITY(ls_lab, Cu, SPREAD, "ppm", 0, 10000, "310 ppm", "copper, for a caution only"),
    QUANTITY(ls_lab, Zn, SPREAD, "ppm", 0, 10000, "290 ppm", "zinc, for a caution only"),
};
const ls_farm_section ls_farm_lab =
    KEYS_OF(ls_lab, lab_keys, "lab report", .one_of = "P2O5|P K2O|K", .check = ls_farm_check_lab);
static const ls_farm_key cleanout_keys[] = {
    DATE(ls_cleanout, date, REQUIRED, "2025-02-12", "day the house was emptied"),
    QUANTITY(ls_cleanout, weighed, REQUIRED | SPREAD | ABOVE, "ton", 0, 10000, "128 ton",
             "tons hauled then, by the scale tickets", .unless = "loads"),
    COUNT(ls_cleanout, loads, 0, 1, 10000, "14", "instead of weighed: full loads of the truck below"),
    TEXT(ls_cleanout, truck, 0, "spreader truck", "the truck those loads went by; left out: the first of the farm"),
    COUNT(ls_cleanout, flocks, 0, 1, 100, "6",
          "flocks in the house before that cleanout, each alike the last one here now; this, from, "
          "bird_days or feed is needed"),
    DATE(ls_cleanout, from, 0, "2024-03-04",
         "instead of flocks: the day the birds came that stayed until that cleanout"),
    COUNT(ls_cleanout, birds, 0, 1, 1e7, "22000", "birds placed then in a flock; left out: as many as now"),
    BARE(ls_cleanout, bird_days, 0, 1, 1e10, "2280000", "birds times days in the house before that cleanout"),
    QUANTITY(ls_cleanout, feed, SPREAD | ABOVE, "ton", 0, 100000, "300 ton",
             "all feed those birds ate before that cleanout; goes before flocks and bird-days"),
    SECTIONS(ls_cleanout, cake, ONE_OR_MANY, &ls_farm_already_out, "[{weighed: 6 ton, times: 5}]",
             "cake or other litter taken out of those flocks before that cleanout; what is left "
             "out: cake"),
    QUANTITY(ls_cleanout, moisture, SPREAD, "%", 1, 95, "30 %", "moisture of that litter; left out: this house's"),
};
const ls_farm_section ls_farm_cleanout =
    KEYS_OF(ls_cleanout, cleanout_keys, "last cleanout", .one_of = "?weighed|loads", .check = ls_farm_check_cleanout);

static const ls_farm_key already_out_keys[] = {
    DATE(ls_already_out, date, 0, "2025-11-03",
         "day it was taken out; needed, but where times says of how many, and before an "
         "earlier cleanout"),
    QUANTITY(ls_already_out, weighed, SPREAD | ABOVE, "ton", 0, 10000, "6 ton", "tons taken out"),
    COUNT(ls_already_out, loads, 0, 1, 10000, "3", "instead of weighed: full loads of the truck below"),
    TEXT(ls_already_out, truck, 0, "spreader truck", "the truck those loads went by; left out: the first of the farm"),
    QUANTITY(ls_already_out, depth, SPREAD | ABOVE, "in", 0, 120, "2 in",
             "instead of weighed: depth taken off the area below"),
    QUANTITY(ls_already_out, area, SPREAD | ABOVE, "ft2|%", 0, 1500000, "6000 ft2",
             "the area that depth was taken off, or its share of the floor"),
    WORD(ls_already_out, what, 0, ls_farm_takens, "cake",
         "what it was; left out: litter of broiler breeders and layers, cake of all other "
         "birds"),
    QUANTITY(ls_already_out, moisture, SPREAD, "%", 1, 95, "45 %",
             "its moisture; left out: of litter this house's, of cake that of cake"),
    COUNT(ls_already_out, times, 0, 1, 1000, "5", "so many times alike, for example after each flock; left out: 1"),
};
const ls_farm_section ls_farm_already_out = KEYS_OF(
    ls_already_out, already_out_keys, "removal", .one_of = "weighed|loads|depth", .check = ls_farm_check_already_out);
