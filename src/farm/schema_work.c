/* The keys of trucks, crew and stack. */
#include "farm/schema.h"

#define OF(type, member) .offset = offsetof(type, member)
#define COUNT_OF(keys) (sizeof(keys) / sizeof *(keys))

static const ls_farm_key rate_keys[] = {
    {.name = "least", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_REQUIRED | LS_FARM_ABOVE, .units = "ton/ac", .most = 50,
     OF(ls_rate_range, least), .help = "lowest rate it spreads evenly", .example = "1 ton/ac"},
    {.name = "most", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_REQUIRED | LS_FARM_ABOVE, .units = "ton/ac", .most = 50,
     OF(ls_rate_range, most), .help = "highest rate", .example = "6 ton/ac"},
    {.name = "step", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_ABOVE | LS_FARM_STARTED, .units = "ton/ac", .most = 10,
     OF(ls_rate_range, step), .help = "rates are rounded down to this step", .example = "0.25 ton/ac"},
};
static const ls_farm_section rate_section = {
    .name = "rate", .size = sizeof(ls_rate_range), .at = offsetof(ls_rate_range, at), .n = COUNT_OF(rate_keys), .keys = rate_keys,
    .check = ls_farm_check_rate};

static const ls_farm_key truck_keys[] = {
    {.name = "name", .kind = LS_FARM_TEXT, .flags = LS_FARM_REQUIRED, OF(ls_truck, name), .help = "what to call this kind of truck",
     .example = "spreader truck"},
    {.name = "count", .kind = LS_FARM_COUNT, .flags = LS_FARM_REQUIRED, .least = 1, .most = 100, OF(ls_truck, count),
     .help = "how many of them", .example = "2"},
    {.name = "payload", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_REQUIRED | LS_FARM_SPREAD, .units = "ton", .least = 0.5, .most = 60,
     OF(ls_truck, payload), .help = "most weight of litter it may carry: legal gross less empty weight", .example = "11 ton"},
    {.name = "body", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_SPREAD | LS_FARM_STARTED, .units = "yd3", .least = 1, .most = 200,
     OF(ls_truck, body), .help = "struck volume of the body", .example = "20 yd3"},
    {.name = "swath", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_REQUIRED, .units = "ft", .least = 3, .most = 200, OF(ls_truck, swath),
     .help = "effective width of a spreading pass", .example = "32 ft"},
    {.name = "spreading", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_REQUIRED, .units = "mph", .least = 0.5, .most = 30,
     OF(ls_truck, spreading), .help = "speed when spreading", .example = "6 mph"},
    {.name = "road", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_REQUIRED, .units = "mph", .least = 1, .most = 80, OF(ls_truck, road),
     .help = "average speed on the road", .example = "30 mph"},
    {.name = "rate", .kind = LS_FARM_SECTION, .flags = LS_FARM_STARTED, .section = &rate_section, OF(ls_truck, rate),
     .help = "rates the spreader can be set to; left out: any", .example = "{least: 1 ton/ac, most: 6 ton/ac, step: 0.25 ton/ac}"},
    {.name = "smallest_drop", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_ABOVE, .units = "ton", .most = 60, OF(ls_truck, smallest_drop),
     .help = "least part of a load worth a stop at another field; left out: 1 ton", .example = "1 ton"},
    {.name = "calibrated", .kind = LS_FARM_DATE, OF(ls_truck, calibrated), .help = "day the spreader was last calibrated",
     .example = "2026-01-15"},
};
const ls_farm_section ls_farm_truck = {
    .name = "truck", .size = sizeof(ls_truck), .at = offsetof(ls_truck, at), .n = COUNT_OF(truck_keys), .keys = truck_keys};

static const ls_farm_key loader_keys[] = {
    {.name = "bucket", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_REQUIRED, .units = "yd3", .least = 0.1, .most = 30, OF(ls_loader, bucket),
     .help = "heaped bucket", .example = "2.2 yd3"},
    {.name = "fill", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_REQUIRED, .units = "%", .least = 10, .most = 150, OF(ls_loader, fill),
     .help = "how full the bucket comes", .example = "95 %"},
    {.name = "load_and_dump", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_REQUIRED, .units = "s", .least = 1, .most = 3600,
     OF(ls_loader, load_and_dump), .help = "time to fill and empty the bucket, without driving", .example = "30 s"},
    {.name = "travel", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_REQUIRED, .units = "mph", .least = 0.5, .most = 30, OF(ls_loader, travel),
     .help = "speed in the house", .example = "5 mph"},
};
static const ls_farm_section loader_section = {
    .name = "loader", .size = sizeof(ls_loader), .at = offsetof(ls_loader, at), .n = COUNT_OF(loader_keys), .keys = loader_keys};

static const ls_farm_key slat_crew_keys[] = {
    {.name = "sections", .kind = LS_FARM_COUNT, .flags = LS_FARM_REQUIRED, .least = 1, .most = 10000, OF(ls_slat_crew, sections),
     .help = "slat sections in a house", .example = "210"},
    {.name = "weight", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_STARTED, .units = "lb", .least = 1, .most = 2000, OF(ls_slat_crew, weight),
     .help = "weight of one section", .example = "160 lb"},
    {.name = "people", .kind = LS_FARM_COUNT, .flags = LS_FARM_STARTED, .least = 1, .most = 200, OF(ls_slat_crew, people),
     .help = "people who move them", .example = "6"},
    {.name = "pace", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_REQUIRED | LS_FARM_ABOVE, .units = "", .per = "per hour", .most = 5000,
     OF(ls_slat_crew, pace), .help = "sections moved in an hour", .example = "90 per hour"},
};
static const ls_farm_section slat_crew_section = {
    .name = "slats section", .size = sizeof(ls_slat_crew), .at = offsetof(ls_slat_crew, at), .n = COUNT_OF(slat_crew_keys),
    .keys = slat_crew_keys};

static const ls_farm_key crew_keys[] = {
    {.name = "arrives", .kind = LS_FARM_DATE, .flags = LS_FARM_REQUIRED, OF(ls_crew, arrives), .help = "first working day",
     .example = "2026-02-16"},
    {.name = "hours", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_REQUIRED | LS_FARM_ABOVE, .units = "h/day", .most = 24, OF(ls_crew, hours),
     .help = "working time in a day", .example = "9 h/day"},
    {.name = "days_off", .kind = LS_FARM_WEEKDAYS, .flags = LS_FARM_STARTED, OF(ls_crew, days_off), .help = "weekdays without work",
     .example = "[sunday]"},
    {.name = "hold_days", .kind = LS_FARM_DATES, OF(ls_crew, hold_days), .help = "other days without work", .example = "[2026-02-20]"},
    {.name = "hauler", .kind = LS_FARM_TEXT, .flags = LS_FARM_STARTED, OF(ls_crew, hauler), .help = "who hauls; printed on tickets",
     .example = "Quarry Lane Cleanout"},
    {.name = "hauler_permit", .kind = LS_FARM_TEXT, OF(ls_crew, hauler_permit), .help = "the hauler's permit, where the state asks for one",
     .example = "none"},
    {.name = "loader", .kind = LS_FARM_SECTION, .flags = LS_FARM_STARTED, .section = &loader_section, OF(ls_crew, loader),
     .help = "the machine that loads the trucks", .example = "{bucket: 2.2 yd3, fill: 95 %, load_and_dump: 30 s, travel: 5 mph}"},
    {.name = "slats", .kind = LS_FARM_SECTION, .flags = LS_FARM_STARTED, .section = &slat_crew_section, OF(ls_crew, slats),
     .birds = LS_FARM_BREEDERS, .help = "moving the slats off a side and back", .example = "{sections: 210, weight: 160 lb, people: 6, pace: 90 per hour}"},
};
const ls_farm_section ls_farm_crew = {
    .name = "crew", .size = sizeof(ls_crew), .at = offsetof(ls_crew, at), .n = COUNT_OF(crew_keys), .keys = crew_keys,
    .check = ls_farm_check_crew};

static const ls_farm_key stack_keys[] = {
    {.name = "roofed", .kind = LS_FARM_YESNO, .flags = LS_FARM_REQUIRED, OF(ls_stack, roofed), .help = "is it under a roof?",
     .example = "yes"},
    {.name = "length", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_REQUIRED, .units = "ft", .least = 1, .most = 1000, OF(ls_stack, length),
     .help = "inside length of the shed", .example = "80 ft"},
    {.name = "width", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_REQUIRED, .units = "ft", .least = 1, .most = 1000, OF(ls_stack, width),
     .help = "inside width", .example = "40 ft"},
    {.name = "height", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_REQUIRED, .units = "ft", .least = 0.5, .most = 20, OF(ls_stack, height),
     .help = "height of the pile", .example = "6 ft"},
    {.name = "kept_until", .kind = LS_FARM_DATE, .flags = LS_FARM_REQUIRED, OF(ls_stack, kept_until), .help = "last day litter may stay in it",
     .example = "2026-09-30"},
};
const ls_farm_section ls_farm_stack = {
    .name = "stack", .size = sizeof(ls_stack), .at = offsetof(ls_stack, at), .n = COUNT_OF(stack_keys), .keys = stack_keys};
