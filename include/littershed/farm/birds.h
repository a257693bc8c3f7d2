/* farm: the kinds of birds. All that the program knows of one by itself stands in its row; its
 * figures are rows of the published tables. */
#pragma once

#include <stdbool.h>

enum {
    LS_LAYS = 1,         /* eggs: a flock may tell how many */
    LS_BY_SEX = 2,       /* hens and males are counted apart, in a house with slats and sides */
    LS_STANDS_IN = 4,    /* its published litter stands in where no bird is told; one row has it */
    LS_MANURE_APART = 8, /* its manure may be kept apart from litter: on belts, in a pit, scraped
                            off */
    LS_MOVED = 16        /* brooded in one house and grown in another */
};

/* As what the federal size classes count a bird (40 CFR 122.23). Open: by one reading as laying
 * hens, by another as other chickens. */
typedef enum {
    LS_SIZE_LAYING_HENS,
    LS_SIZE_OTHER_CHICKENS,
    LS_SIZE_TURKEYS,
    LS_SIZE_DUCKS,
    LS_SIZES,
    LS_SIZE_OPEN = LS_SIZES
} ls_size;

/* A row: the enumerator; the name in farm files and of its tables; traits; size; and how many birds
 * the starter file places on which day in its house (NULL: the schema's examples are of it). The
 * first is the starter's where no bird is asked for. */
#define LS_EACH_BIRD(X)                                                                                                \
    X(LS_BROILER_BREEDER, "broiler breeder", LS_LAYS | LS_BY_SEX, LS_SIZE_OPEN, NULL, NULL)                            \
    X(LS_BREEDER_PULLET, "breeder pullet", 0, LS_SIZE_OTHER_CHICKENS, "12000", "2025-09-22")                           \
    X(LS_BROILER, "broiler", LS_STANDS_IN, LS_SIZE_OTHER_CHICKENS, "24000", "2025-12-08")                              \
    X(LS_LAYER, "layer", LS_LAYS | LS_MANURE_APART, LS_SIZE_LAYING_HENS, "24000", "2025-02-24")                        \
    X(LS_LAYER_PULLET, "layer pullet", LS_MANURE_APART, LS_SIZE_OTHER_CHICKENS, "24000", "2025-10-13")                 \
    X(LS_TURKEY_TOM, "turkey tom", LS_MOVED, LS_SIZE_TURKEYS, "5000", "2025-09-29")                                    \
    X(LS_TURKEY_HEN, "turkey hen", LS_MOVED, LS_SIZE_TURKEYS, "8000", "2025-11-03")                                    \
    X(LS_DUCK, "duck", 0, LS_SIZE_DUCKS, "10000", "2025-12-29")

/* 0: no bird is told; LS_BIRDS: one past the last. */
#define LS_BIRD_ENUMERATOR_(bird, name, traits, size, count, placed) bird,
typedef enum { LS_NO_BIRD, LS_EACH_BIRD(LS_BIRD_ENUMERATOR_) LS_BIRDS } ls_bird;
#undef LS_BIRD_ENUMERATOR_

typedef struct {
    const char *name;
    unsigned traits;
    ls_size size;
    const char *count, *placed;
} ls_bird_row;

/* The row of a bird; of what is none a row named "". */
const ls_bird_row *ls_bird_row_of(int bird);
const char *ls_bird_name(int bird);
/* Has it the trait? */
bool ls_bird_is(int bird, unsigned trait);
bool ls_bird_is_breeder(int bird); /* LS_BY_SEX */
/* The name of its tables; of no bird those of the one that stands in. */
const char *ls_bird_tables(int bird);
