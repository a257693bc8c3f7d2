/* The keys of a flock. */
#include "schema.h"

static const ls_farm_key feed_keys[] = {
    LS_FARM_KEY(DATE, ls_feed, from, 0,
                "first day of this feed; the first feed is eaten from the day the birds came in",
                .example = "2025-09-01"),
    LS_FARM_KEY(QUANTITY, ls_feed, eaten, LS_FARM_SPREAD,
                "feed eaten by each bird in a day, on average while it was fed; this or total is "
                "needed",
                LS_FARM_IN("g/bird/day", 1, 2000), .example = "138 g/bird/day"),
    LS_FARM_KEY(QUANTITY, ls_feed, total, LS_FARM_SPREAD | LS_FARM_ABOVE,
                "instead of eaten: all feed the flock ate while it was fed this; of several flocks "
                "alike what one of them ate",
                LS_FARM_IN("ton", 0, 100000), .example = "310 ton"),
    LS_FARM_KEY(QUANTITY, ls_feed, protein, LS_FARM_SPREAD, "crude protein of the feed",
                LS_FARM_IN("%", 1, 60), .example = "15 %"),
    LS_FARM_KEY(QUANTITY, ls_feed, phosphorus, LS_FARM_SPREAD, "total phosphorus (P) of the feed",
                LS_FARM_IN("%", 0.05, 5), .example = "0.55 %"),
    LS_FARM_KEY(QUANTITY, ls_feed, potassium, LS_FARM_SPREAD, "potassium (K) of the feed",
                LS_FARM_IN("%", 0.05, 5), .example = "0.65 %"),
};
const ls_farm_section ls_farm_feed =
    LS_FARM_KEYS(ls_feed, "feed", feed_keys, .check = ls_farm_check_feed);

static const ls_farm_key count_keys[] = {
    LS_FARM_KEY(DATE, ls_bird_count, date, LS_FARM_REQUIRED, "day of the count",
                .example = "2025-09-01"),
    LS_FARM_KEY(COUNT, ls_bird_count, birds, LS_FARM_REQUIRED,
                "birds alive that day; of breeders the hens", LS_FARM_FROM_TO(0, 1e7),
                .example = "7450"),
};
static const ls_farm_section count_section =
    LS_FARM_KEYS(ls_bird_count, "count", count_keys, .check = NULL);

static const ls_farm_key flock_keys[] = {
    LS_FARM_KEY(WORD, ls_flock, birds, LS_FARM_REQUIRED, "kind of birds", .words = ls_farm_birds,
                .example = "broiler breeder"),
    LS_FARM_KEY(COUNT, ls_flock, hens, LS_FARM_STARTED, "hens placed", LS_FARM_FROM_TO(1, 1e7),
                .birds = LS_FARM_BREEDERS, .example = "7800"),
    LS_FARM_KEY(COUNT, ls_flock, males, LS_FARM_STARTED, "males placed; left out: none",
                LS_FARM_FROM_TO(0, 1e7), .birds = LS_FARM_BREEDERS, .example = "780"),
    LS_FARM_KEY(COUNT, ls_flock, count, LS_FARM_STARTED, "birds placed", LS_FARM_FROM_TO(1, 1e7),
                .birds = LS_FARM_OTHERS, .example = "24000"),
    LS_FARM_KEY(DATE, ls_flock, placed, LS_FARM_REQUIRED, "day the birds came in",
                .example = "2025-04-21", .plain = "2025-12-08"),
    LS_FARM_KEY(DATE, ls_flock, removed, LS_FARM_REQUIRED, "day the birds left, or will leave",
                .example = "2026-02-09"),
    LS_FARM_KEY(QUANTITY, ls_flock, lost, LS_FARM_SPREAD | LS_FARM_STARTED,
                "share of the birds lost by the end, taken as lost evenly", LS_FARM_IN("%", 0, 100),
                .example = "8.5 %", .plain = "4 %"),
    LS_FARM_KEY(SECTIONS, ls_flock, counts, 0,
                "instead of lost: birds counted on days after placing", .section = &count_section,
                .example = "[{date: 2025-09-01, birds: 7450}]",
                .plain = "[{date: 2026-01-05, birds: 23600}]"),
    LS_FARM_KEY(
        QUANTITY, ls_flock, weight, LS_FARM_SPREAD,
        "live weight of a bird when removed, of laying birds that of a spent hen; left out: "
        "that of the published bird",
        LS_FARM_IN("lb", 0.5, 80), .example = "7.3 lb", .plain = "6.2 lb"),
    LS_FARM_KEY(
        SECTIONS, ls_flock, feed, LS_FARM_ONE_OR_MANY,
        "what the birds ate, from the feed tickets; a list of feeds, each with its first day, "
        "where they ate one after another: lets the program weigh the litter by its phosphorus",
        .section = &ls_farm_feed,
        .example = "{eaten: 138 g/bird/day, protein: 15 %, phosphorus: 0.55 %, potassium: 0.65 %}"),
    LS_FARM_KEY(QUANTITY, ls_flock, eggs, LS_FARM_SPREAD,
                "eggs laid over the stay for each hen placed", LS_FARM_PER("per hen", 0, 400),
                .birds = LS_FARM_LAYING, .example = "158 per hen"),
    LS_FARM_KEY(COUNT, ls_flock, flocks, 0,
                "so many flocks alike, one after the other, since the last cleanout; the dates are "
                "those of the last one; left out: 1",
                LS_FARM_FROM_TO(1, 100), .example = "2", .plain = "5"),
};
const ls_farm_section ls_farm_flock =
    LS_FARM_KEYS(ls_flock, "flock", flock_keys, .check = ls_farm_check_flock);
