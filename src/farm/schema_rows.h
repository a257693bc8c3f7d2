/* schema_rows: how a row of the schema is written. For the files that hold the tables, and for them
 * alone: the names are short. */
#pragma once

#include "schema.h"

#define REQUIRED LS_FARM_REQUIRED
#define SPREAD LS_FARM_SPREAD
#define READINGS LS_FARM_READINGS
#define ABOVE LS_FARM_ABOVE
#define STARTED LS_FARM_STARTED
#define ONE_OR_MANY LS_FARM_ONE_OR_MANY
#define LATER LS_FARM_LATER
#define OF_ONE LS_FARM_OF_ONE

/* For .birds: the kinds that have a trait. */
#define HAS_(bird, traits, trait) | (((traits) & (trait)) != 0 ? LS_FARM_FOR(bird) : 0U)
#define BY_SEX_(bird, name, traits, ...) HAS_(bird, traits, LS_BY_SEX)
#define LAYS_(bird, name, traits, ...) HAS_(bird, traits, LS_LAYS)
#define KEPT_(bird, name, traits, ...) HAS_(bird, traits, LS_MANURE_APART)
#define BREEDERS (0U LS_EACH_BIRD(BY_SEX_))
#define OTHERS (~BREEDERS)
#define LAYING (0U LS_EACH_BIRD(LAYS_))
#define LAYERS (0U LS_EACH_BIRD(KEPT_))

/* Is a member of the type that the kind fills? An array of that length cannot be if it is not. */
#define FITS(sort, member)                                                                                             \
    _Generic((member), ls_name                                                                                         \
             : (sort) <= LS_FARM_TABLE && (sort) != LS_FARM_WORD, ls_choice                                            \
             : (sort) == LS_FARM_WORD, ls_day                                                                          \
             : (sort) == LS_FARM_DATE, ls_open                                                                         \
             : (sort) == LS_FARM_WINDOW, ls_quantity                                                                   \
             : (sort) == LS_FARM_QUANTITY || (sort) == LS_FARM_BARE, ls_zoned                                          \
             : (sort) == LS_FARM_ZONED, ls_count                                                                       \
             : (sort) == LS_FARM_COUNT, ls_yesno                                                                       \
             : (sort) == LS_FARM_YESNO, ls_delay                                                                       \
             : (sort) == LS_FARM_DELAY, ls_clock                                                                       \
             : (sort) == LS_FARM_CLOCK, ls_instant                                                                     \
             : (sort) == LS_FARM_INSTANT, default                                                                      \
             : (sort) == LS_FARM_WEEKDAYS || (sort) == LS_FARM_HOLDS || (sort) >= LS_FARM_SECTION)
#define OFFSET(sort, type, member)                                                                                     \
    offsetof(type, member) + 0 * sizeof(char[FITS(sort, ((const type *)0)->member) ? 1 : -1])

/* A key is the member it fills, its flags, what its kind asks for, an example, what it is in plain
 * words; behind that stands what else there is to say. */
#define KEY_AS(key, sort, type, member, flag, shown, ...)                                                              \
    .name = key, .kind = LS_FARM_##sort, .flags = flag, .offset = OFFSET(LS_FARM_##sort, type, member),                \
    .example = shown, .help = __VA_ARGS__
#define KEY(sort, type, member, ...) KEY_AS(#member, sort, type, member, __VA_ARGS__)
#define PLAIN(sort, ...)                                                                                               \
    { KEY(sort, __VA_ARGS__) }
#define WITH(what, list, sort, type, member, flag, ...)                                                                \
    { .what = list, KEY(sort, type, member, flag, __VA_ARGS__) }
#define FROM_TO(sort, type, member, flag, low, high, ...)                                                              \
    { .least = low, .most = high, KEY(sort, type, member, flag, __VA_ARGS__) }
#define IN(sort, type, member, flag, symbols, low, high, ...)                                                          \
    { .units = symbols, .least = low, .most = high, KEY(sort, type, member, flag, __VA_ARGS__) }
#define TEXT(...) PLAIN(TEXT, __VA_ARGS__)
#define DATE(...) PLAIN(DATE, __VA_ARGS__)
#define HOLDS(...) PLAIN(HOLDS, __VA_ARGS__)
#define WINDOW(...) PLAIN(WINDOW, __VA_ARGS__)
#define YESNO(...) PLAIN(YESNO, __VA_ARGS__)
#define CLOCK(...) PLAIN(CLOCK, __VA_ARGS__)
#define INSTANT(...) PLAIN(INSTANT, __VA_ARGS__)
#define WEEKDAYS(...) PLAIN(WEEKDAYS, __VA_ARGS__)
#define FILES(...) PLAIN(FILES, __VA_ARGS__)
#define WORD(type, member, flag, list, ...) WITH(words, list, WORD, type, member, flag, __VA_ARGS__)
#define ROW(type, member, flag, of, ...) WITH(tables, of, ROW, type, member, flag, __VA_ARGS__)
#define TABLE(type, member, flag, of, ...) WITH(tables, of, TABLE, type, member, flag, __VA_ARGS__)
#define SECTION(type, member, flag, of, ...) WITH(section, of, SECTION, type, member, flag, __VA_ARGS__)
#define SECTIONS(type, member, flag, of, ...) WITH(section, of, SECTIONS, type, member, flag, __VA_ARGS__)
#define COUNT(...) FROM_TO(COUNT, __VA_ARGS__)
#define BARE(...) FROM_TO(BARE, __VA_ARGS__)
#define DELAY(...) FROM_TO(DELAY, __VA_ARGS__)
#define QUANTITY(...) IN(QUANTITY, __VA_ARGS__)
#define ZONED(...) IN(ZONED, __VA_ARGS__)
#define PRICES(...) IN(PRICES, __VA_ARGS__)
#define FORMERLY(type, shown)                                                                                          \
    TEXT(type, formerly, OF_ONE, shown, "its name before: what the haul log holds under that name counts for it")
#define LIKE(type, shown, help) TEXT(type, like, 0, shown, help)

/* The section of a struct with these keys; its name, and what else there is to say. */
#define KEYS_OF(type, list, ...)                                                                                       \
    {                                                                                                                  \
        .size = sizeof(type), .at = offsetof(type, at), .n = sizeof(list) / sizeof *(list), .keys = list,              \
        .name = __VA_ARGS__                                                                                            \
    }
