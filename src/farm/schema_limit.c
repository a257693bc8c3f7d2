/* The keys of what limits a field: setbacks, phosphorus, caps of a season, ages of tests. */
#include "schema_rows.h"

static const ls_farm_key setback_keys[] = {
    TEXT(ls_setback, from, REQUIRED, "stream", "what to keep away from"),
    QUANTITY(ls_setback, edge, ABOVE, "ft", 0, 1e6, "980 ft", "length of the field's edge along it, with width"),
    QUANTITY(ls_setback, width, ABOVE, "ft", 0, 10000, "100 ft",
             "width of the strip left unspread, with edge, by the plan or the local code; South "
             "Carolina for example: 50 ft from a ditch, 100 ft from water, 300 ft from a "
             "residence (sc-4361)"),
    QUANTITY(ls_setback, radius, ABOVE, "ft", 0, 10000, "100 ft",
             "of the circle left unspread, instead of edge and width; South Carolina for "
             "example: 100 ft "
             "round a drinking well (sc-4361)"),
    QUANTITY(ls_setback, share, ABOVE, "%", 0, 100, "50 %",
             "with radius: how much of the circle lies in the field; left out: all of it"),
    QUANTITY(ls_setback, overlap, ABOVE, "ac", 0, 100000, "0.3 ac",
             "area of it that other setbacks of the field take already, so that it counts once"),
    TEXT(ls_setback, rule, 0, "nutrient management plan", "whose rule the distance is"),
};
const ls_farm_section ls_farm_setback = KEYS_OF(ls_setback, setback_keys, "setback", .check = ls_farm_check_setback);

static const ls_farm_key ledger_keys[] = {
    COUNT(ls_ledger_year, year, REQUIRED, 1990, 2199, "2024",
          "crop year: what was applied for that crop, and what it took"),
    QUANTITY(ls_ledger_year, litter, 0, "ton/ac", 0, 50, "2 ton/ac", "litter applied, of whatever kind"),
    QUANTITY(ls_ledger_year, P2O5, 0, "lb/ac|lb/ton|%", 0, 2000, "110 lb/ac",
             "phosphate applied, or held by the litter; left out: none was applied"),
    QUANTITY(ls_ledger_year, removed, REQUIRED, "lb/ac", 0, 2000, "45 lb/ac",
             "phosphate the crop took off that year: its yield times what a ton or bushel holds"),
};
static const ls_farm_section ledger_section =
    KEYS_OF(ls_ledger_year, ledger_keys, "ledger line", .check = ls_farm_check_ledger_year);

static const ls_farm_key phosphorus_keys[] = {
    WORD(ls_phosphorus, rating, REQUIRED, ls_farm_ratings, "medium",
         "risk of phosphorus loss as the plan writer rated it; all of it left out: taken as high"),
    TEXT(ls_phosphorus, rated_by, STARTED, "county plan writer", "who rated it"),
    DATE(ls_phosphorus, date, STARTED, "2025-10-30", "when it was rated"),
    QUANTITY(ls_phosphorus, bank, 0, "years", 1, 20, "3 years",
             "with rating high: years of crop removal that the plan allows at once"),
    SECTIONS(ls_phosphorus, ledger, 0, &ledger_section,
             "[{year: 2025, litter: 2 ton/ac, P2O5: 110 lb/ac, removed: 45 lb/ac}]",
             "phosphate applied and taken off in the years before, a line a year; until the "
             "crops have used up all of it, no more is allowed"),
};
const ls_farm_section ls_farm_phosphorus =
    KEYS_OF(ls_phosphorus, phosphorus_keys, "phosphorus section", .check = ls_farm_check_phosphorus);

static const ls_farm_key window_cap_keys[] = {
    WINDOW(ls_window_cap, between, REQUIRED, "2025-11-15..2026-02-15", "first and last day on which the limit holds"),
    QUANTITY(ls_window_cap, total_nitrogen, 0, "lb/ac", 0, 1000, "30 lb/ac",
             "at most so much nitrogen, all of it counted"),
    QUANTITY(ls_window_cap, available_nitrogen, 0, "lb/ac", 0, 1000, "30 lb/ac",
             "at most so much nitrogen, what the crop can use counted; instead of total_nitrogen"),
    QUANTITY(ls_window_cap, most, 0, "ton/ac", 0, 50, "1 ton/ac",
             "at most so much litter; instead of a figure of nitrogen"),
    TEXT(ls_window_cap, rule, 0, "Alabama, north of the state", "whose rule it is"),
};
const ls_farm_section ls_farm_window_cap =
    KEYS_OF(ls_window_cap, window_cap_keys, "cap", .one_of = "total_nitrogen|available_nitrogen|most");

static const ls_farm_key ages_keys[] = {
    QUANTITY(ls_ages, soil, ABOVE, "years", 0, 20, "3 years",
             "how old a soil test may be when the field opens; left out: 3 years (rules ask for "
             "3 to 5)"),
    QUANTITY(ls_ages, litter, ABOVE, "years", 0, 20, "1 year",
             "how old a lab report of the litter may be when the field opens; left out: 1 year "
             "(North Carolina: 60 days)"),
};
const ls_farm_section ls_farm_ages = KEYS_OF(ls_ages, ages_keys, "ages section");
