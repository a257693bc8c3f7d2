/* The keys of fertilizer and irrigation water that feed a field besides the litter. */
#include "schema_rows.h"

static const ls_farm_key fertilized_keys[] = {
    ROW(ls_fertilized, product, 0, "fertilizer", "DAP", "a product the tables know; or give its grade"),
    TEXT(ls_fertilized, grade, 0, "10-10-10", "instead of product: percent of N, P2O5 and K2O as on the bag"),
    QUANTITY(ls_fertilized, rate, REQUIRED | ABOVE, "lb/ac", 0, 5000, "100 lb/ac",
             "how much of the product is applied"),
    {KEY_AS("for", TEXT, ls_fertilized, purpose, 0, "starter", "what it is for, in your words")},
};
const ls_farm_section ls_farm_fertilized =
    KEYS_OF(ls_fertilized, fertilized_keys, "fertilizer", .one_of = "product|grade", .check = ls_farm_check_fertilized);

static const ls_farm_key irrigation_keys[] = {
    QUANTITY(ls_irrigation, nitrate, ABOVE, "ppm|mg/L", 0, 500, "12 ppm",
             "nitrate in the water counted as nitrogen (NO3-N), as most laboratories print it"),
    QUANTITY(ls_irrigation, NO3, ABOVE, "ppm|mg/L", 0, 2000, "53 ppm",
             "instead of nitrate: the nitrate itself (NO3), where the laboratory prints that"),
    QUANTITY(ls_irrigation, water, REQUIRED | ABOVE, "in", 0, 200, "8 in",
             "depth of water the crop is given in the season"),
};
const ls_farm_section ls_farm_irrigation =
    KEYS_OF(ls_irrigation, irrigation_keys, "irrigation section", .one_of = "nitrate|NO3");
