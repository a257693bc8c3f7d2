/* The keys of buyers and their fields. */
#include "schema_rows.h"

static const ls_farm_key soil_keys[] = {
    DATE(ls_soil, date, REQUIRED, "2025-10-14", "date of the soil report"),
    TEXT(ls_soil, method, STARTED, "Mehlich-1", "the laboratory's extraction method"),
    QUANTITY(ls_soil, P, REQUIRED, "lb/ac|ppm|mg/kg", 0, 20000, "34 lb/ac",
             "soil-test phosphorus, elemental; ppm counts twice as many lb/ac"),
    QUANTITY(ls_soil, K, REQUIRED, "lb/ac|ppm|mg/kg", 0, 20000, "160 lb/ac",
             "soil-test potassium, elemental; ppm counts twice as many lb/ac"),
    WORD(ls_soil, P_class, 0, ls_farm_soil_levels, "medium",
         "the class the laboratory gives the phosphorus; left out: by the soil table"),
    WORD(ls_soil, K_class, 0, ls_farm_soil_levels, "medium",
         "the class the laboratory gives the potassium; left out: by the soil table"),
};
static const ls_farm_section soil_section = KEYS_OF(ls_soil, soil_keys, "soil test");

static const ls_farm_key credits_keys[] = {
    QUANTITY(ls_credits, legume, 0, "lb/ac", 0, 500, "20 lb/ac", "nitrogen left by the legume before"),
    QUANTITY(ls_credits, cover, 0, "lb/ac", 0, 500, "30 lb/ac", "nitrogen left by a cover crop that was not harvested"),
    QUANTITY(ls_credits, starter, 0, "lb/ac", 0, 500, "25 lb/ac", "nitrogen in starter fertilizer"),
    QUANTITY(ls_credits, irrigation, 0, "lb/ac", 0, 500, "10 lb/ac", "nitrogen in irrigation water"),
};
static const ls_farm_section credits_section = KEYS_OF(ls_credits, credits_keys, "credits section");

static const ls_farm_key earlier_keys[] = {
    COUNT(ls_earlier, year, REQUIRED, 1990, 2199, "2024", "year it was spread"),
    COUNT(ls_earlier, for_crop, 0, 1990, 2199, "2025",
          "year of the first crop after it; left out: the year it was spread"),
    QUANTITY(ls_earlier, rate, REQUIRED | ABOVE, "ton/ac", 0, 50, "2 ton/ac", "how much was spread"),
    QUANTITY(ls_earlier, organic_nitrogen, REQUIRED | ABOVE, "lb/ton|%", 0, 2000, "29 lb/ton",
             "its organic nitrogen: total less ammonium and nitrate nitrogen"),
    QUANTITY(ls_earlier, P2O5, 0, "lb/ton|%", 0, 2000, "55 lb/ton",
             "its phosphate; with it this litter also stands in the phosphorus ledger"),
};
static const ls_farm_section earlier_section = KEYS_OF(ls_earlier, earlier_keys, "earlier litter");

static const ls_farm_key field_keys[] = {
    TEXT(ls_field, name, REQUIRED, "Upper Meadow", "name of the field"),
    LIKE(ls_field, "Lower Meadow",
         "a field of this buyer above this one: what is left out here is as there, but for "
         "setbacks, soil test, phosphorus rating, earlier litter and harvest"),
    FORMERLY(ls_field, "Creek Field"),
    TEXT(ls_field, tract, 0, "1482 field 3", "its tract and field number on the maps of the farm agency"),
    QUANTITY(ls_field, area, REQUIRED | ABOVE, "ac", 0, 100000, "26 ac", "whole area, setbacks included"),
    QUANTITY(ls_field, length, ABOVE | OF_ONE, "ft", 0, 100000, "1200 ft",
             "how far the spreader drives from end to end; tickets then show how many passes a "
             "load makes"),
    SECTIONS(ls_field, setbacks, OF_ONE, &ls_farm_setback,
             "[{from: stream, edge: 980 ft, width: 100 ft}, {from: well, radius: 100 ft}]",
             "strips and circles that stay unspread, by the distances of the plan or the local code; "
             "\"none\" if no stream, well, dwelling or line asks for one",
             .none = "none", .if_none = offsetof(ls_field, no_setbacks)),
    ROW(ls_field, crop, REQUIRED, "removal|need|crop", "tall fescue hay",
        "the crop this litter is for, as growers call it; a pasture removes as its hay does"),
    TEXT(ls_field, grown, 0, "irrigated",
         "how it is grown, where the crop table asks: irrigated, after corn, on sandy soil, for two "
         "cuts"),
    WORD(ls_field, use, 0, ls_farm_uses, "grazed by beef",
         "how the crop is used; not harvested: a cover crop, nothing of it leaves the field; left "
         "out: cut"),
    QUANTITY(ls_field, yield, STARTED | ABOVE, "ton/ac|bu/ac|bale/ac", 0, 1000, "3.5 ton/ac", "expected yield"),
    QUANTITY(ls_field, nitrogen, STARTED, "lb/ac", 0, 1000, "120 lb/ac",
             "nitrogen the soil laboratory or the plan asks for; left out: the crop table's"),
    QUANTITY(ls_field, phosphate, 0, "lb/ac", 0, 2000, "40 lb/ac",
             "phosphate (P2O5) the soil laboratory or the plan asks for"),
    QUANTITY(ls_field, potash, 0, "lb/ac", 0, 2000, "80 lb/ac",
             "potash (K2O) the soil laboratory or the plan asks for"),
    QUANTITY(ls_field, recommended_with_nitrogen, 0, "lb/ac", 0, 1000, "200 lb/ac",
             "with phosphate and potash: the nitrogen rate they were recommended for, where the "
             "laboratory adds to them for more nitrogen; left out: nothing is added"),
    SECTION(ls_field, soil, OF_ONE, &soil_section, "{date: 2025-10-14, method: Mehlich-1, P: 34 lb/ac, K: 160 lb/ac}",
            "the soil test"),
    SECTION(ls_field, phosphorus, STARTED | OF_ONE, &ls_farm_phosphorus,
            "{rating: medium, rated_by: county plan writer, date: 2025-10-30}",
            "the phosphorus rating; left out: treated as high, and flagged"),
    COUNT(ls_field, for_crop, 0, 1990, 2199, "2026",
          "year of the crop this litter is for; left out: the year the field opens"),
    QUANTITY(ls_field, most, ABOVE, "ton/ac", 0, 50, "3 ton/ac", "the plan's own top rate; left out: 3 tons/ac"),
    SECTION(ls_field, credits, 0, &credits_section, "{legume: 20 lb/ac, starter: 25 lb/ac}",
            "nitrogen that comes from elsewhere"),
    SECTIONS(ls_field, fertilizer, 0, &ls_farm_fertilized, "[{product: DAP, rate: 100 lb/ac, for: starter}]",
             "fertilizer applied besides the litter; what it holds counts against the need"),
    SECTION(ls_field, irrigation, 0, &ls_farm_irrigation, "{nitrate: 12 ppm, water: 8 in}",
            "nitrate that irrigation water brings, instead of a figure under credits"),
    SECTIONS(ls_field, earlier_litter, OF_ONE, &earlier_section,
             "[{year: 2024, for_crop: 2025, rate: 2 ton/ac, organic_nitrogen: 29 lb/ton}]",
             "litter spread here in years before; it still gives nitrogen"),
    YESNO(ls_field, overlap, 0, "yes",
          "yes: loads may go where litter was spread before; all of them together are then held "
          "to the limits on the acres of the field; left out: no"),
    DELAY(ls_field, incorporated, 0, 0, 365, "within 2 days",
          "when it is worked in: at once, within N days, or never; left out: never"),
    WORD(ls_field, weather, 0, ls_farm_weathers, "cool wet", "usual weather after spreading; left out: average"),
    WORD(ls_field, without_lab, 0, ls_farm_without_labs, "expected",
         "litter without a lab report: plan by rich litter, to be safe (\"90 %\"), or by "
         "typical litter (expected); left out: \"90 %\""),
    WINDOW(ls_field, open, STARTED, "2026-02-16..2026-04-15", "first and last day it may be spread; left out: any day"),
    SECTIONS(ls_field, window_caps, 0, &ls_farm_window_cap,
             "[{between: 2025-11-15..2026-02-15, total_nitrogen: 30 lb/ac}]",
             "limits that hold on some days of the year only; one applies if the field can be "
             "spread on any of its days. Alabama, cool-season forage in the north of the state: "
             "at most 30 lb/ac of nitrogen, November 15 to February 15 (aces-m6). The plan "
             "writer can say whether all nitrogen or what the crop can use is meant"),
    DATE(ls_field, planting, 0, "2026-04-10", "day the crop is planted"),
    COUNT(ls_field, days_before_planting, 0, 0, 365, "30",
          "the plan's limit: spread at most so many days before planting (South Carolina: 30)"),
    DATE(ls_field, planted, OF_ONE, "2026-04-12", "day the crop was planted, once it is"),
    DATE(ls_field, harvested, OF_ONE, "2026-05-28", "day it was harvested or first cut, once it is"),
    QUANTITY(ls_field, yield_got, ABOVE | OF_ONE, "ton/ac|bu/ac|bale/ac", 0, 1000, "3.1 ton/ac",
             "yield that was harvested"),
    DATE(ls_field, harvest, 0, "2026-09-20", "first harvest or cutting after spreading"),
    COUNT(ls_field, days_before_harvest, 0, 0, 365, "120",
          "the plan's limit: spread at least so many days before harvest"),
    DATE(ls_field, grazing, 0, "2026-05-20", "first day animals are to be on it after spreading"),
    COUNT(ls_field, days_before_grazing, 0, 0, 365, "30",
          "the plan's limit: spread at least so many days before animals come on; left out: "
          "21 days for cattle are shown as a caution"),
    WORD(ls_field, grown_for, 0, ls_farm_grown_for, "feed",
         "what the crop is for; organic food: the days from raw litter to harvest are shown "
         "as a caution"),
    TEXT(ls_field, directions, OF_ONE, "second gate past the bridge",
         "how the driver gets there; printed on the ticket"),
};
static const ls_farm_section field_section = KEYS_OF(ls_field, field_keys, "field", .check = ls_farm_check_field);

static const ls_farm_key order_keys[] = {
    QUANTITY(ls_order, least, ABOVE, "loads|ton", 0, 100000, "3 loads",
             "what the buyer asks for at least; a plan that cannot reach it says how short it falls"),
    QUANTITY(ls_order, most, ABOVE | STARTED, "loads|ton", 0, 100000, "14 loads", "the buyer takes no more than this"),
};
static const ls_farm_section order_section = KEYS_OF(ls_order, order_keys, "order", .check = ls_farm_check_order);

static const ls_farm_key buyer_keys[] = {
    TEXT(ls_buyer, name, REQUIRED, "Larkspur Hay", "name of the buyer"),
    LIKE(ls_buyer, "Larkspur Hay",
         "a buyer above this one: what is left out here is as there, but for address, phone and "
         "fields"),
    FORMERLY(ls_buyer, "Larkspur Farm"),
    TEXT(ls_buyer, address, STARTED | OF_ONE, "\"212 Ferry Road, Millrace\"", "address for tickets and records"),
    TEXT(ls_buyer, phone, OF_ONE, "555-0142", "whom to call when a ticket that was handed out changes"),
    TEXT(ls_buyer, stream, 0, "Ferry Branch", "the stream nearest to where the litter is used, or not known"),
    YESNO(ls_buyer, own, 0, "yes", "yes: the fields are the farm's own, litter on them is not sold; left out: no"),
    ROW(ls_buyer, state, 0, "state", "Georgia", "the state of these fields, for what crops need; left out: the farm's"),
    QUANTITY(ls_buyer, distance, STARTED, "mi", 0, 1000, "6.5 mi", "one way, house to field"),
    QUANTITY(ls_buyer, price, STARTED, "$/ton", -10000, 10000, "31 $/ton",
             "paid for a ton delivered and spread; left out: given away; below 0: what the farm "
             "pays to be rid of it"),
    QUANTITY(ls_buyer, takes, ABOVE, "ton", 0, 100000, "200 ton",
             "tons this buyer takes at most, on all fields together; one without fields takes them "
             "at a yard, as a broker or a composter does, and spreads them elsewhere"),
    SECTION(ls_buyer, order, STARTED, &order_section, "{least: 3 loads, most: 14 loads}",
            "what the buyer will take, in loads or tons; left out: no limit"),
    SECTIONS(ls_buyer, fields, REQUIRED | OF_ONE, &field_section,
             "[{name: Upper Meadow, area: 26 ac, crop: tall fescue hay, yield: 3.5 "
             "ton/ac, open: 2026-02-16..2026-04-15}]",
             "the buyer's fields", .unless = "takes"),
};
const ls_farm_section ls_farm_buyer = KEYS_OF(ls_buyer, buyer_keys, "buyer", .check = ls_farm_check_buyer);
