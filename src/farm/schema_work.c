/* The keys of trucks, crew and stack. */
#include "schema_rows.h"

static const ls_farm_key rate_keys[] = {
    QUANTITY(ls_rate_range, least, REQUIRED | ABOVE, "ton/ac", 0, 50, "1 ton/ac", "lowest rate it spreads evenly"),
    QUANTITY(ls_rate_range, most, REQUIRED | ABOVE, "ton/ac", 0, 50, "6 ton/ac", "highest rate"),
    QUANTITY(ls_rate_range, step, ABOVE | STARTED, "ton/ac", 0, 10, "0.25 ton/ac",
             "rates are rounded down to this step"),
};
static const ls_farm_section rate_section = KEYS_OF(ls_rate_range, rate_keys, "rate", .check = ls_farm_check_rate);

static const ls_farm_key axle_keys[] = {
    QUANTITY(ls_axle, spacing, ABOVE, "ft", 0, 100, "15 ft",
             "from the middle of the axle before it; every axle but the first"),
    QUANTITY(ls_axle, weight, ABOVE, "lb", 0, 100000, "14500 lb", "weight on it when the truck is full"),
};
static const ls_farm_section axle_section = KEYS_OF(ls_axle, axle_keys, "axle");

static const ls_farm_key field_name_keys[] = {
    TEXT(ls_field_name, name, REQUIRED, "Upper Meadow",
         "the field; with its buyer where several have one of that name: Larkspur Hay/Upper "
         "Meadow"),
};
static const ls_farm_section field_name_section = KEYS_OF(ls_field_name, field_name_keys, "field", .only = "name");

static const ls_farm_key run_keys[] = {
    DATE(ls_spreader_run, date, REQUIRED, "2026-01-20", "day of the run"),
    QUANTITY(ls_spreader_run, set, ABOVE, "ton/ac", 0, 50, "2 ton/ac", "rate the spreader was set to"),
    QUANTITY(ls_spreader_run, net, REQUIRED | ABOVE, "lb|ton", 0, 120000, "9.2 lb",
             "net weight of what the tarp caught, or of what was spread over the distance"),
    QUANTITY(ls_spreader_run, tarp, ABOVE, "ft2", 0, 100000, "100 ft2", "area of the tarp"),
    QUANTITY(ls_spreader_run, distance, ABOVE, "ft", 0, 100000, "1800 ft",
             "instead of tarp: how far it drove until the load was out"),
    QUANTITY(ls_spreader_run, swath, 0, "ft", 3, 200, "32 ft",
             "with distance: effective width of the pass; left out: the truck's swath"),
};
static const ls_farm_section run_section =
    KEYS_OF(ls_spreader_run, run_keys, "spreader run", .one_of = "tarp|distance");

static const ls_farm_key truck_keys[] = {
    TEXT(ls_truck, name, REQUIRED, "spreader truck", "what to call this kind of truck"),
    LIKE(ls_truck, "big truck",
         "a truck above this one: what is left out here is as there, but for its driver, "
         "calibration and inspection"),
    FORMERLY(ls_truck, "spreader"),
    TEXT(ls_truck, phone, OF_ONE, "555-0142", "of its driver"),
    COUNT(ls_truck, count, STARTED, 1, 100, "2", "how many of them; left out: 1"),
    QUANTITY(ls_truck, payload, STARTED | SPREAD, "ton", 0.5, 60, "11 ton",
             "most weight of litter it may carry: legal gross less empty weight; may be left "
             "out if tare and gross are given; of the two the lesser counts"),
    QUANTITY(ls_truck, tare, SPREAD, "lb", 1000, 100000, "26500 lb", "its weight empty, with driver and fuel"),
    QUANTITY(ls_truck, gross, 0, "lb", 2000, 200000, "48500 lb",
             "most it may weigh loaded on the roads it takes, by its papers and your law"),
    SECTIONS(ls_truck, axles, 0, &axle_section,
             "[{weight: 14500 lb}, {spacing: 15 ft, weight: 17000 lb}, {spacing: "
             "4.5 ft, weight: 17000 lb}]",
             "its axles from front to back, to compare with the federal limits"),
    QUANTITY(ls_truck, body, SPREAD | STARTED, "yd3", 1, 200, "20 yd3", "struck volume of the body"),
    QUANTITY(ls_truck, swath, STARTED, "ft", 3, 200, "32 ft", "effective width of a spreading pass"),
    QUANTITY(ls_truck, spreading, STARTED, "mph", 0.5, 30, "6 mph", "speed when spreading"),
    QUANTITY(ls_truck, road, STARTED, "mph", 1, 80, "30 mph", "average speed on the road"),
    SECTION(ls_truck, rate, STARTED, &rate_section, "{least: 1 ton/ac, most: 6 ton/ac, step: 0.25 ton/ac}",
            "rates the spreader can be set to; left out: any"),
    SECTIONS(ls_truck, fields, 0, &field_name_section, "[Upper Meadow]",
             "the only fields it may spread on; left out: all"),
    WORD(ls_truck, only, 0, ls_farm_only, "road", "road: it stays on the road, hauls to the stack and spreads nowhere"),
    QUANTITY(ls_truck, smallest_drop, ABOVE, "ton", 0, 60, "1 ton",
             "least part of a load worth a stop at another field; left out: 1 ton"),
    DATE(ls_truck, calibrated, OF_ONE, "2026-01-20", "day the spreader was last calibrated"),
    DATE(ls_truck, inspected, OF_ONE, "2026-02-14", "day the truck and spreader were last inspected"),
    SECTIONS(ls_truck, runs, OF_ONE, &run_section, "[{date: 2026-01-20, set: 2 ton/ac, net: 9.2 lb, tarp: 100 ft2}]",
             "runs that show what the spreader puts out, over a tarp or a distance; the newest "
             "counts as its calibration"),
};
const ls_farm_section ls_farm_truck = KEYS_OF(ls_truck, truck_keys, "truck", .check = ls_farm_check_truck);

static const ls_farm_key loader_keys[] = {
    QUANTITY(ls_loader, bucket, REQUIRED, "yd3", 0.1, 30, "2.2 yd3", "heaped bucket"),
    QUANTITY(ls_loader, fill, REQUIRED, "%", 10, 150, "95 %", "how full the bucket comes"),
    QUANTITY(ls_loader, load_and_dump, REQUIRED, "s", 1, 3600, "30 s",
             "time to fill and empty the bucket, without driving"),
    QUANTITY(ls_loader, travel, REQUIRED, "mph", 0.5, 30, "5 mph", "speed in the house"),
};
static const ls_farm_section loader_section = KEYS_OF(ls_loader, loader_keys, "loader");

static const ls_farm_key slat_crew_keys[] = {
    COUNT(ls_slat_crew, sections, REQUIRED, 1, 10000, "210", "slat sections in a house"),
    QUANTITY(ls_slat_crew, weight, STARTED, "lb", 1, 2000, "160 lb", "weight of one section"),
    COUNT(ls_slat_crew, people, STARTED, 1, 200, "6", "people who move them"),
    QUANTITY(ls_slat_crew, pace, REQUIRED | ABOVE, "", 0, 5000, "90 per hour", "sections moved in an hour",
             .per = "per hour"),
    YESNO(ls_slat_crew, while_loading, 0, "yes",
          "yes if they move the slats of another house while the loader loads; left out: no"),
};
static const ls_farm_section slat_crew_section = KEYS_OF(ls_slat_crew, slat_crew_keys, "slats section");

static const ls_farm_key out_keys[] = {
    TEXT(ls_out, what, REQUIRED, "spreader truck 2",
         "loader, slat hands, or a truck by its name, with its number if there are several"),
    INSTANT(ls_out, from, REQUIRED, "2026-02-24T11:00", "since when it is out"),
    INSTANT(ls_out, until, REQUIRED, "2026-02-24T15:30", "when it is there again"),
};
static const ls_farm_section out_section = KEYS_OF(ls_out, out_keys, "entry of out", .check = ls_farm_check_out);

static const ls_farm_key side_name_keys[] = {
    TEXT(ls_field_name, name, REQUIRED, "North/left", "the house and its side, or a house without sides"),
};
static const ls_farm_section side_name_section = KEYS_OF(ls_field_name, side_name_keys, "side", .only = "name");

static const ls_farm_key crew_keys[] = {
    DATE(ls_crew, arrives, REQUIRED, "2026-02-16", "first working day"),
    CLOCK(ls_crew, starts, 0, "07:00", "when the working day begins; left out: \"07:00\" (7 am)"),
    QUANTITY(ls_crew, hours, STARTED | ABOVE, "h/day", 0, 24, "9 h/day", "working time in a day"),
    WEEKDAYS(ls_crew, days_off, STARTED, "[sunday]", "weekdays without work"),
    HOLDS(ls_crew, hold_days, 0, "[2026-02-20, 2026-02-23 until 12:00]",
          "other days without work, or without work until or from an hour"),
    SECTIONS(ls_crew, out, 0, &out_section, "[{what: loader, from: 2026-02-24T11:00, until: 2026-02-24T15:30}]",
             "hours in which the loader, a truck or the slat hands are not there"),
    SECTIONS(ls_crew, order, 0, &side_name_section, "[North/left, North/right]",
             "every side once, in the order of hauling; left out: as houses and sides are given", .birds = BREEDERS),
    TEXT(ls_crew, hauler, STARTED, "Quarry Lane Cleanout", "who hauls; printed on tickets"),
    TEXT(ls_crew, phone, 0, "555-0142", "the hauler's phone, to call when a ticket changes"),
    TEXT(ls_crew, hauler_permit, 0, "none", "the hauler's permit or registration, or none"),
    SECTION(ls_crew, loader, STARTED, &loader_section,
            "{bucket: 2.2 yd3, fill: 95 %, load_and_dump: 30 s, travel: 5 mph}", "the machine that loads the trucks"),
    SECTION(ls_crew, slats, STARTED, &slat_crew_section,
            "{sections: 210, weight: 160 lb, people: 6, pace: 90 per hour}", "moving the slats off a side and back",
            .birds = BREEDERS),
};
const ls_farm_section ls_farm_crew = KEYS_OF(ls_crew, crew_keys, "crew", .check = ls_farm_check_crew);

static const ls_farm_key distance_keys[] = {
    TEXT(ls_stack_distance, from, REQUIRED, "well", "what it is measured to"),
    QUANTITY(ls_stack_distance, distance, REQUIRED, "ft", 0, 100000, "240 ft", "from the edge of the stack"),
    QUANTITY(ls_stack_distance, least, ABOVE, "ft", 0, 100000, "100 ft",
             "what your plan or code asks for; Virginia for example: 100 ft from water, a well "
             "or a sinkhole, 200 ft from a neighbor's dwelling (va-630)"),
    TEXT(ls_stack_distance, rule, 0, "nutrient management plan", "whose rule the limit is"),
};
static const ls_farm_section distance_section = KEYS_OF(ls_stack_distance, distance_keys, "entry of distances");

static const ls_farm_key stack_keys[] = {
    YESNO(ls_stack, roofed, REQUIRED, "yes", "is it under a roof?"),
    TEXT(ls_stack, cover, 0, "steel roof, two walls", "roof, tarp or sheet that keeps rain off"),
    TEXT(ls_stack, base, 0, "concrete", "what it lies on"),
    SECTIONS(ls_stack, distances, 0, &distance_section,
             "[{from: well, distance: 240 ft, least: 100 ft, rule: nutrient management plan}]",
             "how far it is from water, wells, dwellings and lines"),
    QUANTITY(ls_stack, length, REQUIRED, "ft", 1, 1000, "80 ft", "inside length of the shed"),
    QUANTITY(ls_stack, width, REQUIRED, "ft", 1, 1000, "40 ft", "inside width"),
    QUANTITY(ls_stack, height, REQUIRED, "ft", 0.5, 20, "6 ft", "height of the pile"),
    QUANTITY(ls_stack, most_days, ABOVE, "days", 0, 3660, "14 days",
             "how long a load may lie in it by your plan or code; examples: Virginia 14 days, "
             "North Carolina 15 days"),
    DATE(ls_stack, kept_until, REQUIRED, "2026-09-30", "last day litter may stay in it"),
};
const ls_farm_section ls_farm_stack = KEYS_OF(ls_stack, stack_keys, "stack");
