/* The keys of a house and all that stands in one. */
#include "farm/schema.h"

#define OF(type, member) .offset = offsetof(type, member)
#define COUNT_OF(keys) (sizeof(keys) / sizeof *(keys))
#define NUTRIENT LS_FARM_SPREAD | LS_FARM_ABOVE

static const ls_farm_key floor_keys[] = {
    {.name = "slats", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_STARTED, .units = "%", .least = 1, .most = 100, OF(ls_floor, slats),
     .help = "share of the floor under slats", .example = "64 %"},
    {.name = "scratch", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_STARTED, .units = "%", .least = 1, .most = 100, OF(ls_floor, scratch),
     .help = "share of the floor that is scratch area", .example = "36 %"},
    {.name = "floor", .kind = LS_FARM_QUANTITY, .units = "%", .least = 1, .most = 100, OF(ls_floor, floor),
     .help = "share of the floor that is plain litter floor; the shares add up to 100 %", .example = "10 %"},
};
static const ls_farm_section floor_section = {
    .name = "floor", .size = sizeof(ls_floor), .at = offsetof(ls_floor, at), .n = COUNT_OF(floor_keys), .keys = floor_keys,
    .check = ls_farm_check_floor};

static const ls_farm_key bedding_keys[] = {
    {.name = "material", .kind = LS_FARM_ROW, .flags = LS_FARM_REQUIRED, .tables = "bedding", OF(ls_bedding, material),
     .help = "what was spread", .example = "pine shavings"},
    {.name = "depth", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_REQUIRED | LS_FARM_SPREAD | LS_FARM_ABOVE, .units = "in", .most = 36,
     OF(ls_bedding, depth), .help = "depth when it was spread", .example = "3 in"},
    {.name = "zone", .kind = LS_FARM_WORD, .flags = LS_FARM_STARTED, .words = ls_farm_zones, OF(ls_bedding, zone),
     .birds = LS_FARM_BREEDERS, .help = "the part of the floor it went on; left out: the whole floor", .example = "scratch"},
    {.name = "date", .kind = LS_FARM_DATE, .flags = LS_FARM_STARTED, OF(ls_bedding, date), .help = "day it was spread",
     .example = "2025-04-14", .plain = "2025-12-04"},
};
static const ls_farm_section bedding_section = {
    .name = "bedding", .size = sizeof(ls_bedding), .at = offsetof(ls_bedding, at), .n = COUNT_OF(bedding_keys), .keys = bedding_keys};

static const ls_farm_key feed_keys[] = {
    {.name = "eaten", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_REQUIRED | LS_FARM_SPREAD, .units = "g/bird/day", .least = 1, .most = 2000,
     OF(ls_feed, eaten), .help = "feed eaten by each bird in a day, over the whole stay", .example = "138 g/bird/day"},
    {.name = "protein", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_SPREAD, .units = "%", .least = 1, .most = 60, OF(ls_feed, protein),
     .help = "crude protein of the feed", .example = "15 %"},
    {.name = "phosphorus", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_SPREAD, .units = "%", .least = 0.05, .most = 5,
     OF(ls_feed, phosphorus), .help = "total phosphorus (P) of the feed", .example = "0.55 %"},
    {.name = "potassium", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_SPREAD, .units = "%", .least = 0.05, .most = 5,
     OF(ls_feed, potassium), .help = "potassium (K) of the feed", .example = "0.65 %"},
};
static const ls_farm_section feed_section = {
    .name = "feed", .size = sizeof(ls_feed), .at = offsetof(ls_feed, at), .n = COUNT_OF(feed_keys), .keys = feed_keys};

static const ls_farm_key count_keys[] = {
    {.name = "date", .kind = LS_FARM_DATE, .flags = LS_FARM_REQUIRED, OF(ls_bird_count, date), .help = "day of the count",
     .example = "2025-09-01"},
    {.name = "birds", .kind = LS_FARM_COUNT, .flags = LS_FARM_REQUIRED, .least = 0, .most = 1e7, OF(ls_bird_count, birds),
     .help = "birds alive that day; of breeders the hens", .example = "7450"},
};
static const ls_farm_section count_section = {
    .name = "count", .size = sizeof(ls_bird_count), .at = offsetof(ls_bird_count, at), .n = COUNT_OF(count_keys), .keys = count_keys};

static const ls_farm_key flock_keys[] = {
    {.name = "birds", .kind = LS_FARM_WORD, .flags = LS_FARM_REQUIRED, .words = ls_farm_birds, OF(ls_flock, birds),
     .help = "kind of birds", .example = "broiler breeder"},
    {.name = "hens", .kind = LS_FARM_COUNT, .flags = LS_FARM_STARTED, .least = 1, .most = 1e7, OF(ls_flock, hens),
     .birds = LS_FARM_BREEDERS, .help = "hens placed", .example = "7800"},
    {.name = "males", .kind = LS_FARM_COUNT, .flags = LS_FARM_STARTED, .least = 0, .most = 1e7, OF(ls_flock, males),
     .birds = LS_FARM_BREEDERS, .help = "males placed; left out: none", .example = "780"},
    {.name = "count", .kind = LS_FARM_COUNT, .flags = LS_FARM_STARTED, .least = 1, .most = 1e7, OF(ls_flock, count),
     .birds = LS_FARM_OTHERS, .help = "birds placed", .example = "24000"},
    {.name = "placed", .kind = LS_FARM_DATE, .flags = LS_FARM_REQUIRED, OF(ls_flock, placed), .help = "day the birds came in",
     .example = "2025-04-21", .plain = "2025-12-08"},
    {.name = "removed", .kind = LS_FARM_DATE, .flags = LS_FARM_REQUIRED, OF(ls_flock, removed), .help = "day the birds left, or will leave",
     .example = "2026-02-09"},
    {.name = "lost", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_SPREAD | LS_FARM_STARTED, .units = "%", .least = 0, .most = 100,
     OF(ls_flock, lost), .help = "share of the birds lost by the end, taken as lost evenly", .example = "8.5 %", .plain = "4 %"},
    {.name = "counts", .kind = LS_FARM_SECTIONS, .section = &count_section, OF(ls_flock, counts),
     .help = "instead of lost: birds counted on days after placing", .example = "[{date: 2025-09-01, birds: 7450}]", .plain = "[{date: 2026-01-05, birds: 23600}]"},
    {.name = "weight", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_SPREAD, .units = "lb", .least = 0.5, .most = 80, OF(ls_flock, weight),
     .birds = LS_FARM_MEAT, .help = "live weight of a bird when removed; left out: that of the published bird", .example = "6.2 lb"},
    {.name = "feed", .kind = LS_FARM_SECTION, .section = &feed_section, OF(ls_flock, feed),
     .help = "what the birds ate, from the feed tickets: lets the program weigh the litter by its phosphorus",
     .example = "{eaten: 138 g/bird/day, protein: 15 %, phosphorus: 0.55 %, potassium: 0.65 %}"},
    {.name = "eggs", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_SPREAD, .units = "", .per = "per hen", .least = 0, .most = 400,
     OF(ls_flock, eggs), .birds = LS_FARM_LAYING, .help = "eggs laid over the stay for each hen placed", .example = "158 per hen"},
};
const ls_farm_section ls_farm_flock = {
    .name = "flock", .size = sizeof(ls_flock), .at = offsetof(ls_flock, at), .n = COUNT_OF(flock_keys), .keys = flock_keys,
    .check = ls_farm_check_flock};

#define WEIGHED                                                                                                                \
    {.name = "weighed", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_SPREAD | LS_FARM_ABOVE, .units = "ton", .most = 10000,       \
     OF(ls_measured, weighed), .help = "all of the litter, weighed over a scale: settles the tons", .example = "96 ton"}

static const ls_farm_key measured_keys[] = {
    {.name = "depth", .kind = LS_FARM_ZONED, .flags = LS_FARM_SPREAD | LS_FARM_READINGS | LS_FARM_ABOVE, .units = "in", .most = 120,
     OF(ls_measured, depth), .help = "depth of the litter: readings spread over each part of the floor",
     .example = "{slats: 5.5 6 4.5 6.5 in, scratch: 3.5 3 4 in}", .plain = "4 3.5 4.5 5 in"},
    {.name = "density", .kind = LS_FARM_ZONED, .flags = LS_FARM_SPREAD | LS_FARM_READINGS, .units = "lb/ft3", .least = 5, .most = 120,
     OF(ls_measured, density), .help = "weight of a cubic foot as it lies: a core or box of known volume, not loosened",
     .example = "{slats: 41 43 40 lb/ft3, scratch: 31 29 30 lb/ft3}", .plain = "33 31 32 lb/ft3"},
    {.name = "loose_density", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_SPREAD | LS_FARM_READINGS, .units = "lb/ft3", .least = 5,
     .most = 120, OF(ls_measured, loose_density),
     .help = "weight of a cubic foot loosened, as in the truck: net pounds in a level 5-gallon pail times 1.5", .example = "33 31 32 lb/ft3"},
    {.name = "moisture", .kind = LS_FARM_ZONED, .flags = LS_FARM_SPREAD | LS_FARM_READINGS, .units = "%", .least = 1, .most = 95,
     OF(ls_measured, moisture), .help = "water in the litter, of its wet weight", .example = "{slats: 38 41 36 %, scratch: 24 27 %}",
     .plain = "24 27 25 %"},
    WEIGHED,
};
static const ls_farm_section measured_section = {
    .name = "measured section", .size = sizeof(ls_measured), .at = offsetof(ls_measured, at), .n = COUNT_OF(measured_keys),
    .keys = measured_keys};

static const ls_farm_key side_measured_keys[] = {WEIGHED};
static const ls_farm_section side_measured_section = {
    .name = "measured section of a side", .size = sizeof(ls_measured), .at = offsetof(ls_measured, at),
    .n = COUNT_OF(side_measured_keys), .keys = side_measured_keys};

static const ls_farm_key lab_keys[] = {
    {.name = "date", .kind = LS_FARM_DATE, .flags = LS_FARM_REQUIRED, OF(ls_lab, date), .help = "date of the report", .example = "2026-01-29"},
    {.name = "by", .kind = LS_FARM_TEXT, .flags = LS_FARM_STARTED, OF(ls_lab, by), .help = "the laboratory",
     .example = "State Soil and Manure Laboratory"},
    {.name = "basis", .kind = LS_FARM_WORD, .words = ls_farm_bases, OF(ls_lab, basis),
     .help = "how the report gives its figures; left out: as received", .example = "as received"},
    {.name = "moisture", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_SPREAD, .units = "%", .least = 1, .most = 95, OF(ls_lab, moisture),
     .help = "moisture of the sample; needed if the basis is dry", .example = "33 %"},
    {.name = "N", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_REQUIRED | NUTRIENT, .units = "lb/ton|%", .most = 2000, OF(ls_lab, N),
     .help = "total nitrogen", .example = "38 lb/ton"},
    {.name = "NH4N", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_SPREAD, .units = "lb/ton|%", .least = 0, .most = 2000, OF(ls_lab, NH4N),
     .help = "ammonium nitrogen", .example = "8 lb/ton"},
    {.name = "P2O5", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_REQUIRED | NUTRIENT, .units = "lb/ton|%", .most = 2000, OF(ls_lab, P2O5),
     .help = "phosphate; elemental P times 2.29", .example = "56 lb/ton"},
    {.name = "K2O", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_REQUIRED | NUTRIENT, .units = "lb/ton|%", .most = 2000, OF(ls_lab, K2O),
     .help = "potash; elemental K times 1.2", .example = "36 lb/ton"},
};
static const ls_farm_section lab_section = {
    .name = "lab report", .size = sizeof(ls_lab), .at = offsetof(ls_lab, at), .n = COUNT_OF(lab_keys), .keys = lab_keys,
    .check = ls_farm_check_lab};
#define LAB_EXAMPLE "[{date: 2026-01-29, by: State Soil and Manure Laboratory, moisture: 33 %, N: 38 lb/ton, NH4N: 8 lb/ton, P2O5: 56 lb/ton, K2O: 36 lb/ton}]"

static const ls_farm_key cleanout_keys[] = {
    {.name = "date", .kind = LS_FARM_DATE, .flags = LS_FARM_REQUIRED, OF(ls_cleanout, date), .help = "day the house was last emptied",
     .example = "2025-02-12"},
    {.name = "weighed", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_REQUIRED | LS_FARM_SPREAD | LS_FARM_ABOVE, .units = "ton", .most = 10000,
     OF(ls_cleanout, weighed), .help = "tons hauled then, by the scale tickets", .example = "128 ton"},
    {.name = "bird_days", .kind = LS_FARM_BARE, .flags = LS_FARM_REQUIRED, .least = 1, .most = 1e10, OF(ls_cleanout, bird_days),
     .help = "birds times days in the house before that cleanout", .example = "2280000"},
    {.name = "moisture", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_SPREAD, .units = "%", .least = 1, .most = 95,
     OF(ls_cleanout, moisture), .help = "moisture of that litter; left out: this house's", .example = "30 %"},
};
static const ls_farm_section cleanout_section = {
    .name = "last cleanout", .size = sizeof(ls_cleanout), .at = offsetof(ls_cleanout, at), .n = COUNT_OF(cleanout_keys),
    .keys = cleanout_keys};

static const ls_farm_key already_out_keys[] = {
    {.name = "date", .kind = LS_FARM_DATE, .flags = LS_FARM_REQUIRED, OF(ls_already_out, date), .help = "day it was taken out",
     .example = "2025-11-03"},
    {.name = "weighed", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_REQUIRED | LS_FARM_SPREAD | LS_FARM_ABOVE, .units = "ton", .most = 10000,
     OF(ls_already_out, weighed), .help = "tons taken out", .example = "6 ton"},
    {.name = "moisture", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_SPREAD, .units = "%", .least = 1, .most = 95,
     OF(ls_already_out, moisture), .help = "its moisture; left out: this house's", .example = "45 %"},
};
static const ls_farm_section already_out_section = {
    .name = "removal", .size = sizeof(ls_already_out), .at = offsetof(ls_already_out, at), .n = COUNT_OF(already_out_keys),
    .keys = already_out_keys};

static const ls_farm_key side_keys[] = {
    {.name = "name", .kind = LS_FARM_TEXT, .flags = LS_FARM_REQUIRED, OF(ls_side, name), .help = "name of the side", .example = "left"},
    {.name = "measured", .kind = LS_FARM_SECTION, .section = &side_measured_section, OF(ls_side, measured),
     .help = "scale weight of this side alone", .example = "{weighed: 48 ton}"},
    {.name = "lab", .kind = LS_FARM_SECTIONS, .section = &lab_section, OF(ls_side, lab), .help = "lab reports of this side alone",
     .example = LAB_EXAMPLE},
};
static const ls_farm_section side_section = {
    .name = "side", .size = sizeof(ls_side), .at = offsetof(ls_side, at), .n = COUNT_OF(side_keys), .keys = side_keys, .only = "name"};

static const ls_farm_key house_keys[] = {
    {.name = "name", .kind = LS_FARM_TEXT, .flags = LS_FARM_REQUIRED, OF(ls_house, name), .help = "name of the house", .example = "North"},
    {.name = "length", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_SPREAD | LS_FARM_STARTED, .units = "ft", .least = 10, .most = 3000,
     OF(ls_house, length), .help = "inside length; may be left out where all litter was weighed", .example = "432 ft"},
    {.name = "width", .kind = LS_FARM_QUANTITY, .flags = LS_FARM_SPREAD | LS_FARM_STARTED, .units = "ft", .least = 5, .most = 500,
     OF(ls_house, width), .help = "inside width", .example = "40 ft"},
    {.name = "sides", .kind = LS_FARM_SECTIONS, .flags = LS_FARM_STARTED, .section = &side_section, OF(ls_house, sides),
     .birds = LS_FARM_BREEDERS, .help = "sides emptied one after the other; left out: the house is emptied as a whole",
     .example = "[left, right]"},
    {.name = "floor", .kind = LS_FARM_SECTION, .flags = LS_FARM_STARTED, .section = &floor_section, OF(ls_house, floor),
     .birds = LS_FARM_BREEDERS, .help = "parts of the floor; left out: all of it is plain litter floor",
     .example = "{slats: 64 %, scratch: 36 %}"},
    {.name = "bedding", .kind = LS_FARM_SECTIONS, .flags = LS_FARM_STARTED, .section = &bedding_section, OF(ls_house, bedding),
     .help = "bedding spread since the last cleanout; left out: none is added",
     .example = "[{material: pine shavings, depth: 3 in, date: 2025-04-14}]"},
    {.name = "flocks", .kind = LS_FARM_SECTIONS, .flags = LS_FARM_STARTED, .section = &ls_farm_flock, OF(ls_house, flocks),
     .help = "flocks since the last cleanout; may be left out where all litter was weighed and analyzed",
     .example = "[{birds: broiler, count: 24000, placed: 2025-12-08, removed: 2026-01-26}]"},
    {.name = "measured", .kind = LS_FARM_SECTION, .section = &measured_section, OF(ls_house, measured),
     .help = "what was measured in this house; every reading narrows the estimate",
     .example = "{depth: {slats: 5.5 6 4.5 6.5 in, scratch: 3.5 3 4 in}, loose_density: 33 31 32 lb/ft3}",
     .plain = "{depth: 4 3.5 4.5 5 in, loose_density: 33 31 32 lb/ft3}"},
    {.name = "lab", .kind = LS_FARM_SECTIONS, .section = &lab_section, OF(ls_house, lab),
     .help = "lab reports of this house's litter; they settle its nutrients", .example = LAB_EXAMPLE},
    {.name = "last_cleanout", .kind = LS_FARM_SECTION, .section = &cleanout_section, OF(ls_house, last_cleanout),
     .help = "scale tickets of the cleanout before this one", .example = "{date: 2025-02-12, weighed: 128 ton, bird_days: 2280000}"},
    {.name = "already_out", .kind = LS_FARM_SECTIONS, .section = &already_out_section, OF(ls_house, already_out),
     .help = "cake or other litter taken out since the last cleanout", .example = "[{date: 2025-12-22, weighed: 6 ton, moisture: 45 %}]"},
    {.name = "alike", .kind = LS_FARM_YESNO, OF(ls_house, alike),
     .help = "no: measurements in other houses tell nothing of this one; left out: yes", .example = "yes"},
    {.name = "sections", .kind = LS_FARM_COUNT, .least = 1, .most = 10000, OF(ls_house, sections), .birds = LS_FARM_BREEDERS,
     .help = "slat sections in this house; left out: the figure under crew", .example = "210"},
    {.name = "code", .kind = LS_FARM_TEXT, OF(ls_house, code),
     .help = "one to four capital letters or digits that begin the ticket numbers of this house; left out: made from its name",
     .example = "N"},
};
const ls_farm_section ls_farm_house = {
    .name = "house", .size = sizeof(ls_house), .at = offsetof(ls_house, at), .n = COUNT_OF(house_keys), .keys = house_keys,
    .check = ls_farm_check_house};
