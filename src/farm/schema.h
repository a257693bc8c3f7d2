/* schema: every key of the farm files, once. The loader, "did you mean", the JSON Schema, the
 * starter file and the manual page are made from these tables. Private to this room. */
#pragma once

#include "littershed/farm.h"

/* What stands behind a key, and the type of the struct member it fills. */
typedef enum {
    LS_FARM_TEXT,     /* ls_name */
    LS_FARM_WORD,     /* ls_choice: one of words */
    LS_FARM_ROW,      /* ls_name: a row of a table of the kinds in tables */
    LS_FARM_TABLE,    /* ls_name: a table of the kind in tables */
    LS_FARM_DATE,     /* ls_day */
    LS_FARM_WINDOW,   /* ls_open */
    LS_FARM_QUANTITY, /* ls_quantity: number unit */
    LS_FARM_ZONED,    /* ls_zoned: one quantity, or one for each zone; or the keys of section */
    LS_FARM_BARE,     /* ls_quantity of bird-days: a whole number without a unit */
    LS_FARM_COUNT,    /* ls_count: a whole number without a unit */
    LS_FARM_YESNO,    /* ls_yesno */
    LS_FARM_DELAY,    /* ls_delay: at once, within N days, never */
    LS_FARM_WEEKDAYS, /* unsigned: a list of weekday names */
    LS_FARM_HOLDS,    /* a list of ls_hold */
    LS_FARM_CLOCK,    /* ls_clock: hours and minutes */
    LS_FARM_INSTANT,  /* ls_instant: a day with hours and minutes */
    LS_FARM_SECTION,  /* pointer to a struct: keys of its own */
    LS_FARM_SECTIONS, /* a list of structs */
    LS_FARM_PRICES,   /* a list of ls_price: prices by rows of the table in tables */
    LS_FARM_FILES     /* a list of ls_name: one name of a file, or a list of them */
} ls_farm_kind;

enum {
    LS_FARM_REQUIRED = 1,
    LS_FARM_SPREAD = 2,       /* may be written +/- or as a range */
    LS_FARM_READINGS = 4,     /* may be several readings */
    LS_FARM_ABOVE = 8,        /* must be above least, not only at it */
    LS_FARM_STARTED = 16,     /* stands in the starter file though not required */
    LS_FARM_ONE_OR_MANY = 32, /* a list of sections that may be written as one section */
    LS_FARM_LATER = 64,       /* a part of the starter file that is commented out as a whole */
    LS_FARM_OF_ONE = 128      /* told of one thing alone: "like" does not take it over */
};

/* Kinds of birds a key is for, as a set of bits; 0 stands for all. */
#define LS_FARM_FOR(bird) (1U << (bird))

typedef struct ls_farm_section ls_farm_section;
typedef struct ls_farm_reader ls_farm_reader;

/* Checks among the keys of one section, after they are read; clean: of its own keys none was wrong,
 * whatever stands below them. */
typedef void ls_farm_check(ls_farm_reader *reader, void *section, bool clean);

typedef struct {
    const char *name;
    ls_farm_kind kind;
    unsigned flags;
    const char *units;        /* quantities: units of every kind that fits, '|' between; the first is the
                                 usual one */
    const char *per;          /* "per hen": stands in place of a unit; units is then "" */
    double least, most;       /* allowed range, in the first unit; counts bare */
    const char *const *words; /* words a key may hold, NULL at the end */
    const char *tables;       /* kinds of tables, '|' between */
    const ls_farm_section *section;
    const char *unless;  /* a key that may stand instead of this one, if it is required */
    ls_named_kind names; /* the file its text names; 0: it names none */
    size_t offset;       /* of the member in the struct of the section */
    const char *none;    /* the bare word that tells there is nothing to list, or NULL */
    size_t if_none;      /* offset of the ls_yesno which that word fills */
    unsigned birds;      /* kinds of birds it is for; 0: all */
    const char *help;    /* in plain words, no capital, no full stop */
    const char *example; /* a value, as it may stand on one line */
    const char *plain;   /* the same for birds other than breeders, if it differs */
} ls_farm_key;

struct ls_farm_section {
    const char *name; /* what one is called: "house" */
    size_t size;      /* of the struct */
    size_t at;        /* offset of its ls_place; LS_FARM_NO_PLACE: it has none */
    size_t n;
    const ls_farm_key *keys;
    const char *only;     /* the key that a bare word stands for ("name"), or NULL */
    ls_farm_check *check; /* NULL: none */
    const char *one_of;   /* groups of keys, '|' between, of which one is given; blanks between
                             groups; '?' leads one of which none need be */
};
#define LS_FARM_NO_PLACE ((size_t)-1)

/* What a reading run carries about. */
struct ls_farm_reader {
    ls_arena *arena;
    ls_diag *diag;
    const ls_reference *reference;
    const ls_farm_section *section; /* whose check runs */
    bool metric;                    /* the files are, so examples are too */
};

/* The whole farm file; its sections. */
extern const ls_farm_section ls_farm_top;
extern const ls_farm_section ls_farm_house, ls_farm_flock, ls_farm_measured, ls_farm_side_measured, ls_farm_lab,
    ls_farm_grid, ls_farm_weights, ls_farm_cleanout, ls_farm_already_out, ls_farm_feed, ls_farm_truck, ls_farm_crew,
    ls_farm_stack, ls_farm_buyer, ls_farm_setback, ls_farm_phosphorus, ls_farm_window_cap, ls_farm_ages,
    ls_farm_fertilized, ls_farm_irrigation;

/* Words of LS_FARM_WORD keys: the word at i is the enumerator i + 1. */
extern const char *const ls_farm_birds[];
extern const char *const ls_farm_zones[];
extern const char *const ls_farm_manures[];
extern const char *const ls_farm_takens[];
extern const char *const ls_farm_bases[];
extern const char *const ls_farm_ratings[];
extern const char *const ls_farm_soil_levels[];
extern const char *const ls_farm_uses[];
extern const char *const ls_farm_weathers[];
extern const char *const ls_farm_without_labs[];
extern const char *const ls_farm_grown_for[];
extern const char *const ls_farm_records[];
extern const char *const ls_farm_papers[];
extern const char *const ls_farm_only[];

/* The key of that name, NULL if there is none. */
const ls_farm_key *ls_farm_key_of(const ls_farm_section *section, const char *name);

/* The i-th of the parts between '|' in the arena, NULL past the end. */
const char *ls_farm_part(ls_arena *a, const char *parts, size_t i);

/* Its units for a reader: "tons/ac or bu/ac". */
const char *ls_farm_units(ls_arena *a, const ls_farm_key *key);
/* A bound of the key in words. */
const char *ls_farm_bound(ls_arena *a, const ls_farm_key *key, double bound);

/* Is the key for this kind of bird (0: unknown, then yes)? */
bool ls_farm_key_for(const ls_farm_key *key, int bird);

/* A key of this section, or of one below it, as an example: "name: value". */
const char *ls_farm_example(ls_arena *a, const ls_farm_key *key);

/* An example that the program wrote, in metric units, rounded. */
const char *ls_farm_in_metric(ls_arena *a, const char *example);

/* Checks of sections, called by the loader. */
ls_farm_check ls_farm_check_flock, ls_farm_check_bedding, ls_farm_check_already_out, ls_farm_check_cleanout,
    ls_farm_check_lab, ls_farm_check_floor, ls_farm_check_house, ls_farm_check_truck, ls_farm_check_rate,
    ls_farm_check_crew, ls_farm_check_out, ls_farm_check_setback, ls_farm_check_ledger_year, ls_farm_check_phosphorus,
    ls_farm_check_fertilized, ls_farm_check_field, ls_farm_check_order, ls_farm_check_buyer;
