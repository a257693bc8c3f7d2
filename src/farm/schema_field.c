/* The keys of buyers and their fields. */
#include "farm/schema.h"

#define OF(type, member) .offset = offsetof(type, member)
#define COUNT_OF(keys) (sizeof(keys) / sizeof *(keys))

static const ls_farm_key setback_keys[] = {
    {.name = "from", .kind = LS_FARM_TEXT, .flags = LS_FARM_REQUIRED, OF(ls_setback, from), .help = "what to keep away from",
     .example = "stream"},
    {.name = "edge", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_ABOVE, .units = "ft", .most = 1e6, OF(ls_setback, edge),
     .help = "length of the field's edge along it, with width", .example = "980 ft"},
    {.name = "width", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_ABOVE, .units = "ft", .most = 10000, OF(ls_setback, width),
     .help = "width of the strip left unspread, with edge", .example = "100 ft"},
    {.name = "radius", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_ABOVE, .units = "ft", .most = 10000, OF(ls_setback, radius),
     .help = "of the full circle left unspread, instead of edge and width", .example = "100 ft"},
    {.name = "rule", .kind = LS_FARM_TEXT, OF(ls_setback, rule), .help = "whose rule the distance is", .example = "nutrient management plan"},
};
static const ls_farm_section setback_section = {
    .name = "setback", .size = sizeof(ls_setback), .at = offsetof(ls_setback, at), .n = COUNT_OF(setback_keys), .keys = setback_keys,
    .check = ls_farm_check_setback};

static const ls_farm_key soil_keys[] = {
    {.name = "date", .kind = LS_FARM_DATE, .flags = LS_FARM_REQUIRED, OF(ls_soil, date), .help = "date of the soil report",
     .example = "2025-10-14"},
    {.name = "method", .kind = LS_FARM_TEXT, .flags = LS_FARM_STARTED, OF(ls_soil, method), .help = "the laboratory's extraction method",
     .example = "Mehlich-1"},
    {.name = "P", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_REQUIRED, .units = "lb/ac", .least = 0, .most = 20000, OF(ls_soil, P),
     .help = "soil-test phosphorus, elemental", .example = "34 lb/ac"},
    {.name = "K", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_REQUIRED, .units = "lb/ac", .least = 0, .most = 20000, OF(ls_soil, K),
     .help = "soil-test potassium, elemental", .example = "160 lb/ac"},
};
static const ls_farm_section soil_section = {
    .name = "soil test", .size = sizeof(ls_soil), .at = offsetof(ls_soil, at), .n = COUNT_OF(soil_keys), .keys = soil_keys};

static const ls_farm_key phosphorus_keys[] = {
    {.name = "rating", .kind = LS_FARM_WORD, .flags = LS_FARM_REQUIRED, .words = ls_farm_ratings, OF(ls_phosphorus, rating),
     .help = "risk of phosphorus loss as the plan writer rated it", .example = "medium"},
    {.name = "rated_by", .kind = LS_FARM_TEXT, .flags = LS_FARM_STARTED, OF(ls_phosphorus, rated_by), .help = "who rated it",
     .example = "county plan writer"},
    {.name = "date", .kind = LS_FARM_DATE, .flags = LS_FARM_STARTED, OF(ls_phosphorus, date), .help = "when it was rated",
     .example = "2025-10-30"},
    {.name = "bank", .kind = LS_FARM_QUANTITY, .units = "years", .least = 1, .most = 20, OF(ls_phosphorus, bank),
     .help = "with rating high: years of crop removal that the plan lets go on at once", .example = "3 years"},
};
static const ls_farm_section phosphorus_section = {
    .name = "phosphorus section", .size = sizeof(ls_phosphorus), .at = offsetof(ls_phosphorus, at), .n = COUNT_OF(phosphorus_keys),
    .keys = phosphorus_keys, .check = ls_farm_check_phosphorus};

static const ls_farm_key credits_keys[] = {
    {.name = "legume", .kind = LS_FARM_QUANTITY, .units = "lb/ac", .least = 0, .most = 500, OF(ls_credits, legume),
     .help = "nitrogen left by the legume before", .example = "20 lb/ac"},
    {.name = "starter", .kind = LS_FARM_QUANTITY, .units = "lb/ac", .least = 0, .most = 500, OF(ls_credits, starter),
     .help = "nitrogen in starter fertilizer", .example = "25 lb/ac"},
    {.name = "irrigation", .kind = LS_FARM_QUANTITY, .units = "lb/ac", .least = 0, .most = 500, OF(ls_credits, irrigation),
     .help = "nitrogen in irrigation water", .example = "10 lb/ac"},
};
static const ls_farm_section credits_section = {
    .name = "credits section", .size = sizeof(ls_credits), .at = offsetof(ls_credits, at), .n = COUNT_OF(credits_keys),
    .keys = credits_keys};

static const ls_farm_key earlier_keys[] = {
    {.name = "year", .kind = LS_FARM_COUNT, .flags = LS_FARM_REQUIRED, .least = 1990, .most = 2199, OF(ls_earlier, year),
     .help = "year it was spread", .example = "2024"},
    {.name = "for_crop", .kind = LS_FARM_COUNT, .least = 1990, .most = 2199, OF(ls_earlier, for_crop),
     .help = "year of the first crop after it; left out: the year it was spread", .example = "2025"},
    {.name = "rate", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_REQUIRED | LS_FARM_ABOVE, .units = "ton/ac", .most = 50, OF(ls_earlier, rate),
     .help = "how much was spread", .example = "2 ton/ac"},
    {.name = "organic_nitrogen", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_REQUIRED | LS_FARM_ABOVE, .units = "lb/ton|%", .most = 2000,
     OF(ls_earlier, organic_nitrogen), .help = "its organic nitrogen: total less ammonium and nitrate nitrogen", .example = "29 lb/ton"},
};
static const ls_farm_section earlier_section = {
    .name = "earlier litter", .size = sizeof(ls_earlier), .at = offsetof(ls_earlier, at), .n = COUNT_OF(earlier_keys), .keys = earlier_keys};

static const ls_farm_key field_keys[] = {
    {.name = "name", .kind = LS_FARM_TEXT, .flags = LS_FARM_REQUIRED, OF(ls_field, name), .help = "name of the field",
     .example = "Upper Meadow"},
    {.name = "area", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_REQUIRED | LS_FARM_ABOVE, .units = "ac", .most = 100000, OF(ls_field, area),
     .help = "whole area, setbacks included", .example = "26 ac"},
    {.name = "setbacks", .kind = LS_FARM_SECTIONS, .section = &setback_section, OF(ls_field, setbacks),
     .help = "strips and circles that stay unspread, by the distances of the plan or the local code",
     .example = "[{from: stream, edge: 980 ft, width: 100 ft}, {from: well, radius: 100 ft}]"},
    {.name = "crop", .kind = LS_FARM_ROW, .flags = LS_FARM_REQUIRED, .tables = "removal|need", OF(ls_field, crop),
     .help = "the crop this litter is for", .example = "tall fescue hay"},
    {.name = "use", .kind = LS_FARM_WORD, .words = ls_farm_uses, OF(ls_field, use), .help = "how the crop is used; left out: cut",
     .example = "grazed by beef"},
    {.name = "yield", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_REQUIRED | LS_FARM_ABOVE, .units = "ton/ac|bu/ac|bale/ac", .most = 1000,
     OF(ls_field, yield), .help = "expected yield", .example = "3.5 ton/ac"},
    {.name = "nitrogen", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_STARTED, .units = "lb/ac", .least = 0, .most = 1000,
     OF(ls_field, nitrogen), .help = "nitrogen the soil laboratory or the plan asks for; left out: the crop table's", .example = "120 lb/ac"},
    {.name = "phosphate", .kind = LS_FARM_QUANTITY, .units = "lb/ac", .least = 0, .most = 2000, OF(ls_field, phosphate),
     .help = "phosphate (P2O5) the soil laboratory or the plan asks for", .example = "40 lb/ac"},
    {.name = "potash", .kind = LS_FARM_QUANTITY, .units = "lb/ac", .least = 0, .most = 2000, OF(ls_field, potash),
     .help = "potash (K2O) the soil laboratory or the plan asks for", .example = "80 lb/ac"},
    {.name = "soil", .kind = LS_FARM_SECTION, .section = &soil_section, OF(ls_field, soil), .help = "the soil test",
     .example = "{date: 2025-10-14, method: Mehlich-1, P: 34 lb/ac, K: 160 lb/ac}"},
    {.name = "phosphorus", .kind = LS_FARM_SECTION, .flags = LS_FARM_STARTED, .section = &phosphorus_section, OF(ls_field, phosphorus),
     .help = "the phosphorus rating; left out: treated as high, and flagged",
     .example = "{rating: medium, rated_by: county plan writer, date: 2025-10-30}"},
    {.name = "for_crop", .kind = LS_FARM_COUNT, .least = 1990, .most = 2199, OF(ls_field, for_crop),
     .help = "year of the crop this litter is for; left out: the year the field opens", .example = "2026"},
    {.name = "most", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_ABOVE, .units = "ton/ac", .most = 50, OF(ls_field, most),
     .help = "the plan's own top rate; left out: 3 ton/ac", .example = "3 ton/ac"},
    {.name = "credits", .kind = LS_FARM_SECTION, .section = &credits_section, OF(ls_field, credits),
     .help = "nitrogen that comes from elsewhere", .example = "{legume: 20 lb/ac, starter: 25 lb/ac}"},
    {.name = "earlier_litter", .kind = LS_FARM_SECTIONS, .section = &earlier_section, OF(ls_field, earlier_litter),
     .help = "litter spread here in years before; it still gives nitrogen",
     .example = "[{year: 2024, for_crop: 2025, rate: 2 ton/ac, organic_nitrogen: 29 lb/ton}]"},
    {.name = "incorporated", .kind = LS_FARM_DELAY, .most = 365, OF(ls_field, incorporated),
     .help = "when it is worked in: at once, within N days, or never; left out: never", .example = "within 2 days"},
    {.name = "weather", .kind = LS_FARM_WORD, .words = ls_farm_weathers, OF(ls_field, weather),
     .help = "usual weather after spreading; left out: average", .example = "cool wet"},
    {.name = "without_lab", .kind = LS_FARM_WORD, .words = ls_farm_without_labs, OF(ls_field, without_lab),
     .help = "litter without a lab report: plan by the richest it may well be (90 %), or by the middle (expected); left out: 90 %",
     .example = "expected"},
    {.name = "open", .kind = LS_FARM_WINDOW, .flags = LS_FARM_REQUIRED, OF(ls_field, open), .help = "first and last day it may be spread",
     .example = "2026-02-16..2026-04-15"},
    {.name = "directions", .kind = LS_FARM_TEXT, OF(ls_field, directions), .help = "how the driver gets there; printed on the ticket",
     .example = "second gate past the bridge"},
};
static const ls_farm_section field_section = {
    .name = "field", .size = sizeof(ls_field), .at = offsetof(ls_field, at), .n = COUNT_OF(field_keys), .keys = field_keys,
    .check = ls_farm_check_field};

static const ls_farm_key order_keys[] = {
    {.name = "least", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_ABOVE, .units = "loads|ton", .most = 100000, OF(ls_order, least),
     .help = "the buyer takes none below this", .example = "3 loads"},
    {.name = "most", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_ABOVE | LS_FARM_STARTED, .units = "loads|ton", .most = 100000, OF(ls_order, most),
     .help = "the buyer takes no more than this", .example = "14 loads"},
};
static const ls_farm_section order_section = {
    .name = "order", .size = sizeof(ls_order), .at = offsetof(ls_order, at), .n = COUNT_OF(order_keys), .keys = order_keys,
    .check = ls_farm_check_order};

static const ls_farm_key buyer_keys[] = {
    {.name = "name", .kind = LS_FARM_TEXT, .flags = LS_FARM_REQUIRED, OF(ls_buyer, name), .help = "name of the buyer",
     .example = "Larkspur Hay"},
    {.name = "address", .kind = LS_FARM_TEXT, .flags = LS_FARM_STARTED, OF(ls_buyer, address), .help = "address for tickets and records",
     .example = "\"212 Ferry Road, Millrace\""},
    {.name = "distance", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_REQUIRED, .units = "mi", .least = 0, .most = 1000, OF(ls_buyer, distance),
     .help = "one way, house to field", .example = "6.5 mi"},
    {.name = "price", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_REQUIRED, .units = "$/ton", .least = 0, .most = 10000, OF(ls_buyer, price),
     .help = "paid for a ton delivered and spread; 0 $/ton if it is given away", .example = "31 $/ton"},
    {.name = "order", .kind = LS_FARM_SECTION, .flags = LS_FARM_STARTED, .section = &order_section, OF(ls_buyer, order),
     .help = "what the buyer will take, in loads or tons; left out: no limit", .example = "{least: 3 loads, most: 14 loads}"},
    {.name = "fields", .kind = LS_FARM_SECTIONS, .flags = LS_FARM_REQUIRED, .section = &field_section, OF(ls_buyer, fields),
     .help = "the buyer's fields",
     .example = "[{name: Upper Meadow, area: 26 ac, crop: tall fescue hay, yield: 3.5 ton/ac, open: 2026-02-16..2026-04-15}]"},
};
const ls_farm_section ls_farm_buyer = {
    .name = "buyer", .size = sizeof(ls_buyer), .at = offsetof(ls_buyer, at), .n = COUNT_OF(buyer_keys), .keys = buyer_keys};
