/* The keys of fertilizer and irrigation water that feed a field besides the litter. */
#include "schema.h"

static const ls_farm_key fertilized_keys[] = {
    LS_FARM_KEY(ROW, ls_fertilized, product, 0, "a product the tables know; or give its grade",
                .tables = "fertilizer", .example = "DAP"),
    LS_FARM_KEY(TEXT, ls_fertilized, grade, 0,
                "instead of product: percent of N, P2O5 and K2O as on the bag",
                .example = "10-10-10"),
    LS_FARM_KEY(QUANTITY, ls_fertilized, rate, LS_FARM_REQUIRED | LS_FARM_ABOVE,
                "how much of the product is applied", LS_FARM_IN("lb/ac", 0, 5000),
                .example = "100 lb/ac"),
    LS_FARM_KEY_AS("for", TEXT, ls_fertilized, purpose, 0, "what it is for, in your words",
                   .example = "starter"),
};
const ls_farm_section ls_farm_fertilized =
    LS_FARM_KEYS(ls_fertilized, "fertilizer", fertilized_keys, .check = ls_farm_check_fertilized);

static const ls_farm_key irrigation_keys[] = {
    LS_FARM_KEY(QUANTITY, ls_irrigation, nitrate, LS_FARM_ABOVE,
                "nitrate in the water counted as nitrogen (NO3-N), as most laboratories print it",
                LS_FARM_IN("ppm|mg/L", 0, 500), .example = "12 ppm"),
    LS_FARM_KEY(QUANTITY, ls_irrigation, NO3, LS_FARM_ABOVE,
                "instead of nitrate: the nitrate itself (NO3), where the laboratory prints that",
                LS_FARM_IN("ppm|mg/L", 0, 2000), .example = "53 ppm"),
    LS_FARM_KEY(QUANTITY, ls_irrigation, water, LS_FARM_REQUIRED | LS_FARM_ABOVE,
                "depth of water the crop is given in the season", LS_FARM_IN("in", 0, 200),
                .example = "8 in"),
};
const ls_farm_section ls_farm_irrigation = LS_FARM_KEYS(
    ls_irrigation, "irrigation section", irrigation_keys, .check = ls_farm_check_irrigation);
