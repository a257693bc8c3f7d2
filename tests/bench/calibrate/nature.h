/* Farms as they are, drawn by chance from what the published tables hold: how much droppings per
 * pound of feed, what is bedded, what rots, how moist and heavy it is, what it holds. Written apart
 * from the program; it reads the same tables, for their centers and spreads alone. */
#pragma once

#include "littershed/farm.h"
#include "littershed/reference.h"

enum { NATURE_MOST_HOUSES = 6 };

typedef struct {
    const ls_reference *reference;
    ls_stream *stream;
} nature;

/* One draw: of a figure of a table; normal; uniform. */
double nature_draw(const nature *n, const ls_figure *f);
double nature_normal(const nature *n, double sd);
double nature_between(const nature *n, double low, double high);
/* A factor of median 1. */
double nature_times(const nature *n, double log_sd);

/* NULL if there is none; a figure of the table of practice. */
const ls_figure *nature_cell(const nature *n, const char *kind, const char *name, const char *row, const char *column);
double nature_practice(const nature *n, const char *row);

/* Dry droppings found over feed, houses in general, on the log scale: their middle and how unsure
 * it is (nature_pool.c); how many figures tell it; is one of them of that source? */
typedef struct {
    double mean, variance;
    size_t sources;
} nature_ratio;
bool nature_asks(const nature *n, int bird, const char *manure, const ls_source *source);
nature_ratio nature_droppings(const nature *n, int bird, const char *manure);
/* lb of feed by a growing bird of so many days (0: not known) and lb (0: as usual at that age); by
 * the usual bird in its stay. */
double nature_feed(const nature *n, int bird, double days, double weight);
double nature_usual_feed(const nature *n, int bird);
/* lb of feed of a row's own bird per what the row is given per. */
double nature_own_feed(const nature *n, int bird, const ls_row *row);
/* The row of a table that stands for such manure and has the column, else the default one. */
const ls_row *nature_row(const nature *n, const char *kind, int bird, const char *manure, const char *column);

/* lb, lb/ft3, shares. */
typedef struct {
    long birds;
    double feed;    /* eaten, all flocks */
    double bedding; /* dry, what is left of it; told: wet lb brought in, 0: none is told */
    double told_bedding;
    double droppings, made, out, out_wet, left; /* dry, but out_wet */
    double moisture, moisture_then, wet;
    double density, loose;
    double P2O5, K2O; /* lb per lb of dry litter */
    double area;      /* ft2 */
} nature_house;

typedef struct {
    int bird;
    const char *manure;  /* NULL: the farm does not tell */
    long flocks, days;   /* alike; of each */
    double weight;       /* of a bird at removal, lb; 0: grown birds, or by the table */
    double usual_weight; /* by the growth table; 0: grown birds */
    bool feed_told;
    double feed_each;       /* lb a bird, as tables have it */
    double excreted_P;      /* lb of P over feed */
    double lies_over_loose; /* density in the house over loose */
    size_t n;
    nature_house house[NATURE_MOST_HOUSES];
} nature_farm;

/* Birds of a kind in n houses. */
nature_farm nature_farm_of(const nature *n, int bird, size_t houses);
