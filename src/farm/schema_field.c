/* The keys of buyers and their fields. */
#include "schema.h"

static const ls_farm_key soil_keys[] = {
    LS_FARM_KEY(DATE, ls_soil, date, LS_FARM_REQUIRED, "date of the soil report",
                .example = "2025-10-14"),
    LS_FARM_KEY(TEXT, ls_soil, method, LS_FARM_STARTED, "the laboratory's extraction method",
                .example = "Mehlich-1"),
    LS_FARM_KEY(QUANTITY, ls_soil, P, LS_FARM_REQUIRED,
                "soil-test phosphorus, elemental; ppm counts twice as many lb/ac",
                LS_FARM_IN("lb/ac|ppm|mg/kg", 0, 20000), .example = "34 lb/ac"),
    LS_FARM_KEY(QUANTITY, ls_soil, K, LS_FARM_REQUIRED,
                "soil-test potassium, elemental; ppm counts twice as many lb/ac",
                LS_FARM_IN("lb/ac|ppm|mg/kg", 0, 20000), .example = "160 lb/ac"),
    LS_FARM_KEY(WORD, ls_soil, P_class, 0,
                "the class the laboratory gives the phosphorus; left out: by the soil table",
                .words = ls_farm_soil_levels, .example = "medium"),
    LS_FARM_KEY(WORD, ls_soil, K_class, 0,
                "the class the laboratory gives the potassium; left out: by the soil table",
                .words = ls_farm_soil_levels, .example = "medium"),
};
static const ls_farm_section soil_section =
    LS_FARM_KEYS(ls_soil, "soil test", soil_keys, .check = NULL);

static const ls_farm_key credits_keys[] = {
    LS_FARM_KEY(QUANTITY, ls_credits, legume, 0, "nitrogen left by the legume before",
                LS_FARM_IN("lb/ac", 0, 500), .example = "20 lb/ac"),
    LS_FARM_KEY(QUANTITY, ls_credits, starter, 0, "nitrogen in starter fertilizer",
                LS_FARM_IN("lb/ac", 0, 500), .example = "25 lb/ac"),
    LS_FARM_KEY(QUANTITY, ls_credits, irrigation, 0, "nitrogen in irrigation water",
                LS_FARM_IN("lb/ac", 0, 500), .example = "10 lb/ac"),
};
static const ls_farm_section credits_section =
    LS_FARM_KEYS(ls_credits, "credits section", credits_keys, .check = NULL);

static const ls_farm_key earlier_keys[] = {
    LS_FARM_KEY(COUNT, ls_earlier, year, LS_FARM_REQUIRED, "year it was spread",
                LS_FARM_FROM_TO(1990, 2199), .example = "2024"),
    LS_FARM_KEY(COUNT, ls_earlier, for_crop, 0,
                "year of the first crop after it; left out: the year it was spread",
                LS_FARM_FROM_TO(1990, 2199), .example = "2025"),
    LS_FARM_KEY(QUANTITY, ls_earlier, rate, LS_FARM_REQUIRED | LS_FARM_ABOVE, "how much was spread",
                LS_FARM_IN("ton/ac", 0, 50), .example = "2 ton/ac"),
    LS_FARM_KEY(QUANTITY, ls_earlier, organic_nitrogen, LS_FARM_REQUIRED | LS_FARM_ABOVE,
                "its organic nitrogen: total less ammonium and nitrate nitrogen",
                LS_FARM_IN("lb/ton|%", 0, 2000), .example = "29 lb/ton"),
    LS_FARM_KEY(QUANTITY, ls_earlier, P2O5, 0,
                "its phosphate; with it this litter also stands in the phosphorus ledger",
                LS_FARM_IN("lb/ton|%", 0, 2000), .example = "55 lb/ton"),
};
static const ls_farm_section earlier_section =
    LS_FARM_KEYS(ls_earlier, "earlier litter", earlier_keys, .check = NULL);

static const ls_farm_key field_keys[] = {
    LS_FARM_KEY(TEXT, ls_field, name, LS_FARM_REQUIRED, "name of the field",
                .example = "Upper Meadow"),
    LS_FARM_FORMERLY(ls_field, "Creek Field"),
    LS_FARM_KEY(QUANTITY, ls_field, area, LS_FARM_REQUIRED | LS_FARM_ABOVE,
                "whole area, setbacks included", LS_FARM_IN("ac", 0, 100000), .example = "26 ac"),
    LS_FARM_KEY(QUANTITY, ls_field, length, LS_FARM_ABOVE,
                "how far the spreader drives from end to end; tickets then show how many passes a "
                "load makes",
                LS_FARM_IN("ft", 0, 100000), .example = "1200 ft"),
    LS_FARM_KEY(
        SECTIONS, ls_field, setbacks, 0,
        "strips and circles that stay unspread, by the distances of the plan or the local code",
        .section = &ls_farm_setback,
        .example = "[{from: stream, edge: 980 ft, width: 100 ft}, {from: well, radius: 100 ft}]"),
    LS_FARM_KEY(ROW, ls_field, crop, LS_FARM_REQUIRED,
                "the crop this litter is for; a pasture goes by its hay", .tables = "removal|need",
                .example = "tall fescue hay"),
    LS_FARM_KEY(WORD, ls_field, use, 0, "how the crop is used; left out: cut",
                .words = ls_farm_uses, .example = "grazed by beef"),
    LS_FARM_KEY(QUANTITY, ls_field, yield, LS_FARM_STARTED | LS_FARM_ABOVE, "expected yield",
                LS_FARM_IN("ton/ac|bu/ac|bale/ac", 0, 1000), .example = "3.5 ton/ac"),
    LS_FARM_KEY(QUANTITY, ls_field, nitrogen, LS_FARM_STARTED,
                "nitrogen the soil laboratory or the plan asks for; left out: the crop table's",
                LS_FARM_IN("lb/ac", 0, 1000), .example = "120 lb/ac"),
    LS_FARM_KEY(QUANTITY, ls_field, phosphate, 0,
                "phosphate (P2O5) the soil laboratory or the plan asks for",
                LS_FARM_IN("lb/ac", 0, 2000), .example = "40 lb/ac"),
    LS_FARM_KEY(QUANTITY, ls_field, potash, 0,
                "potash (K2O) the soil laboratory or the plan asks for",
                LS_FARM_IN("lb/ac", 0, 2000), .example = "80 lb/ac"),
    LS_FARM_KEY(QUANTITY, ls_field, recommended_with_nitrogen, 0,
                "with phosphate and potash: the nitrogen rate they were recommended for, where the "
                "laboratory adds to them for more nitrogen; left out: nothing is added",
                LS_FARM_IN("lb/ac", 0, 1000), .example = "200 lb/ac"),
    LS_FARM_KEY(SECTION, ls_field, soil, 0, "the soil test", .section = &soil_section,
                .example = "{date: 2025-10-14, method: Mehlich-1, P: 34 lb/ac, K: 160 lb/ac}"),
    LS_FARM_KEY(SECTION, ls_field, phosphorus, LS_FARM_STARTED,
                "the phosphorus rating; left out: treated as high, and flagged",
                .section = &ls_farm_phosphorus,
                .example = "{rating: medium, rated_by: county plan writer, date: 2025-10-30}"),
    LS_FARM_KEY(COUNT, ls_field, for_crop, 0,
                "year of the crop this litter is for; left out: the year the field opens",
                LS_FARM_FROM_TO(1990, 2199), .example = "2026"),
    LS_FARM_KEY(QUANTITY, ls_field, most, LS_FARM_ABOVE,
                "the plan's own top rate; left out: 3 tons/ac", LS_FARM_IN("ton/ac", 0, 50),
                .example = "3 ton/ac"),
    LS_FARM_KEY(SECTION, ls_field, credits, 0, "nitrogen that comes from elsewhere",
                .section = &credits_section, .example = "{legume: 20 lb/ac, starter: 25 lb/ac}"),
    LS_FARM_KEY(SECTIONS, ls_field, fertilizer, 0,
                "fertilizer applied besides the litter; what it holds counts against the need",
                .section = &ls_farm_fertilized,
                .example = "[{product: DAP, rate: 100 lb/ac, for: starter}]"),
    LS_FARM_KEY(SECTION, ls_field, irrigation, 0,
                "nitrate that irrigation water brings, instead of a figure under credits",
                .section = &ls_farm_irrigation, .example = "{nitrate: 12 ppm, water: 8 in}"),
    LS_FARM_KEY(
        SECTIONS, ls_field, earlier_litter, 0,
        "litter spread here in years before; it still gives nitrogen", .section = &earlier_section,
        .example = "[{year: 2024, for_crop: 2025, rate: 2 ton/ac, organic_nitrogen: 29 lb/ton}]"),
    LS_FARM_KEY(DELAY, ls_field, incorporated, 0,
                "when it is worked in: at once, within N days, or never; left out: never",
                LS_FARM_FROM_TO(0, 365), .example = "within 2 days"),
    LS_FARM_KEY(WORD, ls_field, weather, 0, "usual weather after spreading; left out: average",
                .words = ls_farm_weathers, .example = "cool wet"),
    LS_FARM_KEY(WORD, ls_field, without_lab, 0,
                "litter without a lab report: plan by rich litter, to be safe (\"90 %\"), or by "
                "typical litter (expected); left out: \"90 %\"",
                .words = ls_farm_without_labs, .example = "expected"),
    LS_FARM_KEY(WINDOW, ls_field, open, LS_FARM_STARTED,
                "first and last day it may be spread; left out: any day",
                .example = "2026-02-16..2026-04-15"),
    LS_FARM_KEY(SECTIONS, ls_field, window_caps, 0,
                "limits that hold on some days of the year only; one applies if the field can be "
                "spread on any of its days. Alabama, cool-season forage in the north of the state: "
                "at most 30 lb/ac of nitrogen, November 15 to February 15 (aces-m6). The plan "
                "writer can say whether all nitrogen or what the crop can use is meant",
                .section = &ls_farm_window_cap,
                .example = "[{between: 2025-11-15..2026-02-15, total_nitrogen: 30 lb/ac}]"),
    LS_FARM_KEY(DATE, ls_field, planting, 0, "day the crop is planted", .example = "2026-04-10"),
    LS_FARM_KEY(
        COUNT, ls_field, days_before_planting, 0,
        "the plan's limit: spread at most so many days before planting (South Carolina: 30)",
        LS_FARM_FROM_TO(0, 365), .example = "30"),
    LS_FARM_KEY(DATE, ls_field, planted, 0, "day the crop was planted, once it is",
                .example = "2026-04-12"),
    LS_FARM_KEY(DATE, ls_field, harvested, 0, "day it was harvested or first cut, once it is",
                .example = "2026-05-28"),
    LS_FARM_KEY(QUANTITY, ls_field, yield_got, LS_FARM_ABOVE, "yield that was harvested",
                LS_FARM_IN("ton/ac|bu/ac|bale/ac", 0, 1000), .example = "3.1 ton/ac"),
    LS_FARM_KEY(DATE, ls_field, harvest, 0, "first harvest or cutting after spreading",
                .example = "2026-09-20"),
    LS_FARM_KEY(COUNT, ls_field, days_before_harvest, 0,
                "the plan's limit: spread at least so many days before harvest",
                LS_FARM_FROM_TO(0, 365), .example = "120"),
    LS_FARM_KEY(DATE, ls_field, grazing, 0, "first day animals are to be on it after spreading",
                .example = "2026-05-20"),
    LS_FARM_KEY(COUNT, ls_field, days_before_grazing, 0,
                "the plan's limit: spread at least so many days before animals come on; left out: "
                "21 days for cattle are shown as a caution",
                LS_FARM_FROM_TO(0, 365), .example = "30"),
    LS_FARM_KEY(WORD, ls_field, grown_for, 0,
                "what the crop is for; organic food: the days from raw litter to harvest are shown "
                "as a caution",
                .words = ls_farm_grown_for, .example = "feed"),
    LS_FARM_KEY(TEXT, ls_field, directions, 0, "how the driver gets there; printed on the ticket",
                .example = "second gate past the bridge"),
};
static const ls_farm_section field_section =
    LS_FARM_KEYS(ls_field, "field", field_keys, .check = ls_farm_check_field);

static const ls_farm_key order_keys[] = {
    LS_FARM_KEY(
        QUANTITY, ls_order, least, LS_FARM_ABOVE,
        "what the buyer asks for at least; a plan that cannot reach it says how short it falls",
        LS_FARM_IN("loads|ton", 0, 100000), .example = "3 loads"),
    LS_FARM_KEY(QUANTITY, ls_order, most, LS_FARM_ABOVE | LS_FARM_STARTED,
                "the buyer takes no more than this", LS_FARM_IN("loads|ton", 0, 100000),
                .example = "14 loads"),
};
static const ls_farm_section order_section =
    LS_FARM_KEYS(ls_order, "order", order_keys, .check = ls_farm_check_order);

static const ls_farm_key buyer_keys[] = {
    LS_FARM_KEY(TEXT, ls_buyer, name, LS_FARM_REQUIRED, "name of the buyer",
                .example = "Larkspur Hay"),
    LS_FARM_FORMERLY(ls_buyer, "Larkspur Farm"),
    LS_FARM_KEY(TEXT, ls_buyer, address, LS_FARM_STARTED, "address for tickets and records",
                .example = "\"212 Ferry Road, Millrace\""),
    LS_FARM_PHONE(ls_buyer, "whom to call when a ticket that was handed out changes"),
    LS_FARM_KEY(TEXT, ls_buyer, stream, 0,
                "the stream nearest to where the litter is used, or not known",
                .example = "Ferry Branch"),
    LS_FARM_KEY(YESNO, ls_buyer, own, 0,
                "yes: the fields are the farm's own, litter on them is not sold; left out: no",
                .example = "yes"),
    LS_FARM_KEY(QUANTITY, ls_buyer, distance, LS_FARM_STARTED, "one way, house to field",
                LS_FARM_IN("mi", 0, 1000), .example = "6.5 mi"),
    LS_FARM_KEY(QUANTITY, ls_buyer, price, LS_FARM_STARTED,
                "paid for a ton delivered and spread; left out: given away",
                LS_FARM_IN("$/ton", 0, 10000), .example = "31 $/ton"),
    LS_FARM_KEY(SECTION, ls_buyer, order, LS_FARM_STARTED,
                "what the buyer will take, in loads or tons; left out: no limit",
                .section = &order_section, .example = "{least: 3 loads, most: 14 loads}"),
    LS_FARM_KEY(SECTIONS, ls_buyer, fields, LS_FARM_REQUIRED, "the buyer's fields",
                .section = &field_section,
                .example = "[{name: Upper Meadow, area: 26 ac, crop: tall fescue hay, yield: 3.5 "
                           "ton/ac, open: 2026-02-16..2026-04-15}]"),
};
const ls_farm_section ls_farm_buyer = LS_FARM_KEYS(ls_buyer, "buyer", buyer_keys, .check = NULL);
