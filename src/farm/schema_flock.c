/* The keys of a flock. */
#include "schema_rows.h"

static const ls_farm_key feed_keys[] = {
    DATE(ls_feed, from, 0, "2025-09-01",
         "first day of this feed; the first feed is eaten from the day the birds came in"),
    QUANTITY(ls_feed, eaten, SPREAD, "g/bird/day", 1, 2000, "138 g/bird/day",
             "feed eaten by each bird in a day, on average while it was fed; this or total is "
             "needed"),
    QUANTITY(ls_feed, total, SPREAD | ABOVE, "ton", 0, 100000, "310 ton",
             "instead of eaten: all feed the flock ate while it was fed this; of several flocks "
             "alike what one of them ate"),
    QUANTITY(ls_feed, protein, SPREAD, "%", 1, 60, "15 %", "crude protein of the feed"),
    QUANTITY(ls_feed, phosphorus, SPREAD, "%", 0.05, 5, "0.55 %", "total phosphorus (P) of the feed"),
    QUANTITY(ls_feed, potassium, SPREAD, "%", 0.05, 5, "0.65 %", "potassium (K) of the feed"),
};
const ls_farm_section ls_farm_feed = KEYS_OF(ls_feed, feed_keys, "feed", .one_of = "eaten|total");

static const ls_farm_key count_keys[] = {
    DATE(ls_bird_count, date, REQUIRED, "2025-09-01", "day of the count"),
    COUNT(ls_bird_count, birds, REQUIRED, 0, 1e7, "7450", "birds alive that day; of breeders the hens"),
};
static const ls_farm_section count_section = KEYS_OF(ls_bird_count, count_keys, "count");

static const ls_farm_key flock_keys[] = {
    WORD(ls_flock, birds, REQUIRED, ls_farm_birds, "broiler breeder", "kind of birds"),
    LIKE(ls_flock, "North", "the house whose flock this one is like: what is left out here is as there"),
    COUNT(ls_flock, hens, STARTED, 1, 1e7, "7800", "hens placed", .birds = BREEDERS),
    COUNT(ls_flock, count, STARTED, 1, 1e7, "24000", "birds placed", .birds = OTHERS),
    COUNT(ls_flock, flocks, 0, 1, 100, "2",
          "so many flocks alike, one after the other, since the last cleanout; the dates are "
          "those of the last one; left out: 1",
          .plain = "2"),
    DATE(ls_flock, placed, REQUIRED, "2025-04-21", "day the birds came in; of several flocks alike: the last of them",
         .plain = "2025-12-08", .unless = "age"),
    DATE(ls_flock, removed, REQUIRED, "2026-02-09", "day the birds left, or will leave"),
    QUANTITY(ls_flock, age, ABOVE, "days", 0, 1000, "49 days",
             "age of the birds when removed; without placed they came as day-olds, with it from "
             "another house",
             .birds = (unsigned)~LAYING),
    COUNT(ls_flock, males, 0, 0, 1e7, "780", "males placed; left out: none", .birds = BREEDERS),
    SECTIONS(ls_flock, feed, ONE_OR_MANY, &ls_farm_feed,
             "{eaten: 138 g/bird/day, protein: 15 %, phosphorus: 0.55 %, potassium: 0.65 %}",
             "what the birds ate, from the feed tickets; a list of feeds, each with its first day, "
             "where they ate one after another: lets the program weigh the litter by its phosphorus"),
    QUANTITY(ls_flock, lost, SPREAD, "%", 0, 100, "8.5 %", "share of the birds lost by the end, taken as lost evenly",
             .plain = "4 %"),
    SECTIONS(ls_flock, counts, 0, &count_section, "[{date: 2025-09-01, birds: 7450}]",
             "instead of lost: birds counted on days after placing", .plain = "[{date: 2026-01-05, birds: 23600}]"),
    QUANTITY(ls_flock, weight, SPREAD, "lb", 0.5, 80, "7.3 lb",
             "live weight of a bird when removed, of laying birds that of a spent hen; left out: "
             "that of the published bird",
             .plain = "6.2 lb"),
    QUANTITY(ls_flock, eggs, SPREAD, "", 0, 400, "158 per hen", "eggs laid over the stay for each hen placed",
             .per = "per hen", .birds = LAYING),
};
const ls_farm_section ls_farm_flock =
    KEYS_OF(ls_flock, flock_keys, "flock", .one_of = "?lost|counts", .check = ls_farm_check_flock);
