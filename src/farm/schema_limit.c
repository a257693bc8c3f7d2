/* The keys of what limits a field: setbacks, phosphorus, caps of a season, ages of tests. */
#include "schema.h"

static const ls_farm_key setback_keys[] = {
    LS_FARM_KEY(TEXT, ls_setback, from, LS_FARM_REQUIRED, "what to keep away from",
                .example = "stream"),
    LS_FARM_KEY(QUANTITY, ls_setback, edge, LS_FARM_ABOVE,
                "length of the field's edge along it, with width", LS_FARM_IN("ft", 0, 1e6),
                .example = "980 ft"),
    LS_FARM_KEY(QUANTITY, ls_setback, width, LS_FARM_ABOVE,
                "width of the strip left unspread, with edge, by the plan or the local code; South "
                "Carolina for example: 50 ft from a ditch, 100 ft from water, 300 ft from a "
                "residence (sc-4361)",
                LS_FARM_IN("ft", 0, 10000), .example = "100 ft"),
    LS_FARM_KEY(QUANTITY, ls_setback, radius, LS_FARM_ABOVE,
                "of the circle left unspread, instead of edge and width; South Carolina for "
                "example: 100 ft "
                "round a drinking well (sc-4361)",
                LS_FARM_IN("ft", 0, 10000), .example = "100 ft"),
    LS_FARM_KEY(QUANTITY, ls_setback, share, LS_FARM_ABOVE,
                "with radius: how much of the circle lies in the field; left out: all of it",
                LS_FARM_IN("%", 0, 100), .example = "50 %"),
    LS_FARM_KEY(QUANTITY, ls_setback, overlap, LS_FARM_ABOVE,
                "area of it that other setbacks of the field take already, so that it counts once",
                LS_FARM_IN("ac", 0, 100000), .example = "0.3 ac"),
    LS_FARM_KEY(TEXT, ls_setback, rule, 0, "whose rule the distance is",
                .example = "nutrient management plan"),
};
const ls_farm_section ls_farm_setback =
    LS_FARM_KEYS(ls_setback, "setback", setback_keys, .check = ls_farm_check_setback);

static const ls_farm_key ledger_keys[] = {
    LS_FARM_KEY(COUNT, ls_ledger_year, year, LS_FARM_REQUIRED,
                "crop year: what was applied for that crop, and what it took",
                LS_FARM_FROM_TO(1990, 2199), .example = "2024"),
    LS_FARM_KEY(QUANTITY, ls_ledger_year, litter, 0, "litter applied, of whatever kind",
                LS_FARM_IN("ton/ac", 0, 50), .example = "2 ton/ac"),
    LS_FARM_KEY(QUANTITY, ls_ledger_year, P2O5, 0,
                "phosphate applied, or held by the litter; left out: none was applied",
                LS_FARM_IN("lb/ac|lb/ton|%", 0, 2000), .example = "110 lb/ac"),
    LS_FARM_KEY(QUANTITY, ls_ledger_year, removed, LS_FARM_REQUIRED,
                "phosphate the crop took off that year: its yield times what a ton or bushel holds",
                LS_FARM_IN("lb/ac", 0, 2000), .example = "45 lb/ac"),
};
static const ls_farm_section ledger_section =
    LS_FARM_KEYS(ls_ledger_year, "ledger line", ledger_keys, .check = ls_farm_check_ledger_year);

static const ls_farm_key phosphorus_keys[] = {
    LS_FARM_KEY(WORD, ls_phosphorus, rating, LS_FARM_REQUIRED,
                "risk of phosphorus loss as the plan writer rated it", .words = ls_farm_ratings,
                .example = "medium"),
    LS_FARM_KEY(TEXT, ls_phosphorus, rated_by, LS_FARM_STARTED, "who rated it",
                .example = "county plan writer"),
    LS_FARM_KEY(DATE, ls_phosphorus, date, LS_FARM_STARTED, "when it was rated",
                .example = "2025-10-30"),
    LS_FARM_KEY(QUANTITY, ls_phosphorus, bank, 0,
                "with rating high: years of crop removal that the plan allows at once",
                LS_FARM_IN("years", 1, 20), .example = "3 years"),
    LS_FARM_KEY(SECTIONS, ls_phosphorus, ledger, 0,
                "phosphate applied and taken off in the years before, a line a year; until the "
                "crops have used up all of it, no more is allowed",
                .section = &ledger_section,
                .example = "[{year: 2025, litter: 2 ton/ac, P2O5: 110 lb/ac, removed: 45 lb/ac}]"),
};
const ls_farm_section ls_farm_phosphorus = LS_FARM_KEYS(
    ls_phosphorus, "phosphorus section", phosphorus_keys, .check = ls_farm_check_phosphorus);

static const ls_farm_key window_cap_keys[] = {
    LS_FARM_KEY(WINDOW, ls_window_cap, between, LS_FARM_REQUIRED,
                "first and last day on which the limit holds", .example = "2025-11-15..2026-02-15"),
    LS_FARM_KEY(QUANTITY, ls_window_cap, total_nitrogen, 0,
                "at most so much nitrogen, all of it counted", LS_FARM_IN("lb/ac", 0, 1000),
                .example = "30 lb/ac"),
    LS_FARM_KEY(
        QUANTITY, ls_window_cap, available_nitrogen, 0,
        "at most so much nitrogen, what the crop can use counted; instead of total_nitrogen",
        LS_FARM_IN("lb/ac", 0, 1000), .example = "30 lb/ac"),
    LS_FARM_KEY(QUANTITY, ls_window_cap, most, 0,
                "at most so much litter; instead of a figure of nitrogen",
                LS_FARM_IN("ton/ac", 0, 50), .example = "1 ton/ac"),
    LS_FARM_KEY(TEXT, ls_window_cap, rule, 0, "whose rule it is",
                .example = "Alabama, north of the state"),
};
const ls_farm_section ls_farm_window_cap =
    LS_FARM_KEYS(ls_window_cap, "cap", window_cap_keys, .check = ls_farm_check_window_cap);

static const ls_farm_key ages_keys[] = {
    LS_FARM_KEY(QUANTITY, ls_ages, soil, LS_FARM_ABOVE,
                "how old a soil test may be when the field opens; left out: 3 years (rules ask for "
                "3 to 5)",
                LS_FARM_IN("years", 0, 20), .example = "3 years"),
    LS_FARM_KEY(QUANTITY, ls_ages, litter, LS_FARM_ABOVE,
                "how old a lab report of the litter may be when the field opens; left out: 1 year "
                "(North Carolina: 60 days)",
                LS_FARM_IN("years", 0, 20), .example = "1 year"),
};
const ls_farm_section ls_farm_ages =
    LS_FARM_KEYS(ls_ages, "ages section", ages_keys, .check = NULL);
