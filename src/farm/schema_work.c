/* The keys of trucks, crew and stack. */
#include "schema.h"

static const ls_farm_key rate_keys[] = {
    LS_FARM_KEY(QUANTITY, ls_rate_range, least, LS_FARM_REQUIRED | LS_FARM_ABOVE,
                "lowest rate it spreads evenly", LS_FARM_IN("ton/ac", 0, 50),
                .example = "1 ton/ac"),
    LS_FARM_KEY(QUANTITY, ls_rate_range, most, LS_FARM_REQUIRED | LS_FARM_ABOVE, "highest rate",
                LS_FARM_IN("ton/ac", 0, 50), .example = "6 ton/ac"),
    LS_FARM_KEY(QUANTITY, ls_rate_range, step, LS_FARM_ABOVE | LS_FARM_STARTED,
                "rates are rounded down to this step", LS_FARM_IN("ton/ac", 0, 10),
                .example = "0.25 ton/ac"),
};
static const ls_farm_section rate_section =
    LS_FARM_KEYS(ls_rate_range, "rate", rate_keys, .check = ls_farm_check_rate);

static const ls_farm_key axle_keys[] = {
    LS_FARM_KEY(QUANTITY, ls_axle, spacing, LS_FARM_ABOVE,
                "from the middle of the axle before it; every axle but the first",
                LS_FARM_IN("ft", 0, 100), .example = "15 ft"),
    LS_FARM_KEY(QUANTITY, ls_axle, weight, LS_FARM_ABOVE, "weight on it when the truck is full",
                LS_FARM_IN("lb", 0, 100000), .example = "14500 lb"),
};
static const ls_farm_section axle_section = LS_FARM_KEYS(ls_axle, "axle", axle_keys, .check = NULL);

static const ls_farm_key truck_keys[] = {
    LS_FARM_KEY(TEXT, ls_truck, name, LS_FARM_REQUIRED, "what to call this kind of truck",
                .example = "spreader truck"),
    LS_FARM_FORMERLY(ls_truck, "spreader"),
    LS_FARM_PHONE(ls_truck, "of its driver"),
    LS_FARM_KEY(COUNT, ls_truck, count, LS_FARM_REQUIRED, "how many of them",
                LS_FARM_FROM_TO(1, 100), .example = "2"),
    LS_FARM_KEY(QUANTITY, ls_truck, payload, LS_FARM_STARTED | LS_FARM_SPREAD,
                "most weight of litter it may carry: legal gross less empty weight; may be left "
                "out if tare and gross are given; of the two the lesser counts",
                LS_FARM_IN("ton", 0.5, 60), .example = "11 ton"),
    LS_FARM_KEY(QUANTITY, ls_truck, tare, LS_FARM_SPREAD, "its weight empty, with driver and fuel",
                LS_FARM_IN("lb", 1000, 100000), .example = "26500 lb"),
    LS_FARM_KEY(QUANTITY, ls_truck, gross, 0,
                "most it may weigh loaded on the roads it takes, by its papers and your law",
                LS_FARM_IN("lb", 2000, 200000), .example = "48500 lb"),
    LS_FARM_KEY(SECTIONS, ls_truck, axles, 0,
                "its axles from front to back, to compare with the federal limits",
                .section = &axle_section,
                .example = "[{weight: 14500 lb}, {spacing: 15 ft, weight: 17000 lb}, {spacing: "
                           "4.5 ft, weight: 17000 lb}]"),
    LS_FARM_KEY(QUANTITY, ls_truck, body, LS_FARM_SPREAD | LS_FARM_STARTED,
                "struck volume of the body", LS_FARM_IN("yd3", 1, 200), .example = "20 yd3"),
    LS_FARM_KEY(QUANTITY, ls_truck, swath, LS_FARM_STARTED, "effective width of a spreading pass",
                LS_FARM_IN("ft", 3, 200), .example = "32 ft"),
    LS_FARM_KEY(QUANTITY, ls_truck, spreading, LS_FARM_STARTED, "speed when spreading",
                LS_FARM_IN("mph", 0.5, 30), .example = "6 mph"),
    LS_FARM_KEY(QUANTITY, ls_truck, road, LS_FARM_STARTED, "average speed on the road",
                LS_FARM_IN("mph", 1, 80), .example = "30 mph"),
    LS_FARM_KEY(SECTION, ls_truck, rate, LS_FARM_STARTED,
                "rates the spreader can be set to; left out: any", .section = &rate_section,
                .example = "{least: 1 ton/ac, most: 6 ton/ac, step: 0.25 ton/ac}"),
    LS_FARM_KEY(QUANTITY, ls_truck, smallest_drop, LS_FARM_ABOVE,
                "least part of a load worth a stop at another field; left out: 1 ton",
                LS_FARM_IN("ton", 0, 60), .example = "1 ton"),
    LS_FARM_KEY(DATE, ls_truck, calibrated, 0, "day the spreader was last calibrated",
                .example = "2026-01-20"),
    LS_FARM_KEY(DATE, ls_truck, inspected, 0, "day the truck and spreader were last inspected",
                .example = "2026-02-14"),
};
const ls_farm_section ls_farm_truck =
    LS_FARM_KEYS(ls_truck, "truck", truck_keys, .check = ls_farm_check_truck);

static const ls_farm_key loader_keys[] = {
    LS_FARM_KEY(QUANTITY, ls_loader, bucket, LS_FARM_REQUIRED, "heaped bucket",
                LS_FARM_IN("yd3", 0.1, 30), .example = "2.2 yd3"),
    LS_FARM_KEY(QUANTITY, ls_loader, fill, LS_FARM_REQUIRED, "how full the bucket comes",
                LS_FARM_IN("%", 10, 150), .example = "95 %"),
    LS_FARM_KEY(QUANTITY, ls_loader, load_and_dump, LS_FARM_REQUIRED,
                "time to fill and empty the bucket, without driving", LS_FARM_IN("s", 1, 3600),
                .example = "30 s"),
    LS_FARM_KEY(QUANTITY, ls_loader, travel, LS_FARM_REQUIRED, "speed in the house",
                LS_FARM_IN("mph", 0.5, 30), .example = "5 mph"),
};
static const ls_farm_section loader_section =
    LS_FARM_KEYS(ls_loader, "loader", loader_keys, .check = NULL);

static const ls_farm_key slat_crew_keys[] = {
    LS_FARM_KEY(COUNT, ls_slat_crew, sections, LS_FARM_REQUIRED, "slat sections in a house",
                LS_FARM_FROM_TO(1, 10000), .example = "210"),
    LS_FARM_KEY(QUANTITY, ls_slat_crew, weight, LS_FARM_STARTED, "weight of one section",
                LS_FARM_IN("lb", 1, 2000), .example = "160 lb"),
    LS_FARM_KEY(COUNT, ls_slat_crew, people, LS_FARM_STARTED, "people who move them",
                LS_FARM_FROM_TO(1, 200), .example = "6"),
    LS_FARM_KEY(QUANTITY, ls_slat_crew, pace, LS_FARM_REQUIRED | LS_FARM_ABOVE,
                "sections moved in an hour", LS_FARM_PER("per hour", 0, 5000),
                .example = "90 per hour"),
};
static const ls_farm_section slat_crew_section =
    LS_FARM_KEYS(ls_slat_crew, "slats section", slat_crew_keys, .check = NULL);

static const ls_farm_key crew_keys[] = {
    LS_FARM_KEY(DATE, ls_crew, arrives, LS_FARM_REQUIRED, "first working day",
                .example = "2026-02-16"),
    LS_FARM_KEY(CLOCK, ls_crew, starts, 0,
                "when the working day begins; left out: \"07:00\" (7 am)", .example = "07:00"),
    LS_FARM_KEY(QUANTITY, ls_crew, hours, LS_FARM_STARTED | LS_FARM_ABOVE, "working time in a day",
                LS_FARM_IN("h/day", 0, 24), .example = "9 h/day"),
    LS_FARM_KEY(WEEKDAYS, ls_crew, days_off, LS_FARM_STARTED, "weekdays without work",
                .example = "[sunday]"),
    LS_FARM_KEY(DATES, ls_crew, hold_days, 0, "other days without work", .example = "[2026-02-20]"),
    LS_FARM_KEY(TEXT, ls_crew, hauler, LS_FARM_STARTED, "who hauls; printed on tickets",
                .example = "Quarry Lane Cleanout"),
    LS_FARM_PHONE(ls_crew, "the hauler's phone, to call when a ticket changes"),
    LS_FARM_KEY(TEXT, ls_crew, hauler_permit, 0, "the hauler's permit or registration, or none",
                .example = "none"),
    LS_FARM_KEY(SECTION, ls_crew, loader, LS_FARM_STARTED, "the machine that loads the trucks",
                .section = &loader_section,
                .example = "{bucket: 2.2 yd3, fill: 95 %, load_and_dump: 30 s, travel: 5 mph}"),
    LS_FARM_KEY(SECTION, ls_crew, slats, LS_FARM_STARTED, "moving the slats off a side and back",
                .section = &slat_crew_section, .birds = LS_FARM_BREEDERS,
                .example = "{sections: 210, weight: 160 lb, people: 6, pace: 90 per hour}"),
};
const ls_farm_section ls_farm_crew =
    LS_FARM_KEYS(ls_crew, "crew", crew_keys, .check = ls_farm_check_crew);

static const ls_farm_key stack_keys[] = {
    LS_FARM_KEY(YESNO, ls_stack, roofed, LS_FARM_REQUIRED, "is it under a roof?", .example = "yes"),
    LS_FARM_KEY(QUANTITY, ls_stack, length, LS_FARM_REQUIRED, "inside length of the shed",
                LS_FARM_IN("ft", 1, 1000), .example = "80 ft"),
    LS_FARM_KEY(QUANTITY, ls_stack, width, LS_FARM_REQUIRED, "inside width",
                LS_FARM_IN("ft", 1, 1000), .example = "40 ft"),
    LS_FARM_KEY(QUANTITY, ls_stack, height, LS_FARM_REQUIRED, "height of the pile",
                LS_FARM_IN("ft", 0.5, 20), .example = "6 ft"),
    LS_FARM_KEY(QUANTITY, ls_stack, most_days, LS_FARM_ABOVE,
                "how long a load may lie in it by your plan or code; examples: Virginia 14 days, "
                "North Carolina 15 days",
                LS_FARM_IN("days", 0, 3660), .example = "14 days"),
    LS_FARM_KEY(DATE, ls_stack, kept_until, LS_FARM_REQUIRED, "last day litter may stay in it",
                .example = "2026-09-30"),
};
const ls_farm_section ls_farm_stack = LS_FARM_KEYS(ls_stack, "stack", stack_keys, .check = NULL);
