/* farm: houses, their birds, bedding, and what was measured of the litter. */
#pragma once

#include "littershed/farm/value.h"

typedef enum { LS_SLATS = 1, LS_SCRATCH, LS_FLOOR, LS_ZONES } ls_zone; /* LS_ZONES: one past the last */
/* How the manure of layers and layer pullets is kept: taken away on belts, in a pit below, scraped
 * off, or as litter on the floor. LS_MANURES: one past the last. */
typedef enum { LS_MANURE_BELT = 1, LS_MANURE_PIT, LS_MANURE_SCRAPED, LS_MANURE_LITTER, LS_MANURES } ls_manure;
/* What was taken out of a house before it is emptied. */
typedef enum { LS_TAKEN_CAKE = 1, LS_TAKEN_LITTER } ls_taken;
typedef enum { LS_AS_RECEIVED = 1, LS_DRY } ls_basis;

/* Depths read on a regular grid over the floor, from a file of its own. */
typedef struct {
    ls_name file;                 /* as the farm file names it */
    size_t across_n, along_n;     /* at least 2 each */
    const double *across, *along; /* places, rising: from the left wall, from the front wall; ft */
    const double *depth;          /* [along x across_n + across], ft */
    ls_place *read_at;            /* the same: where each reading stands */
    ls_unit unit;                 /* of the depths as written */
    ls_place at;                  /* in the farm file; the readings stand in another input */
} ls_depth_grid;

/* A quantity by zone: of[LS_SLATS] ...; a house without zones has it in of[LS_FLOOR]. */
typedef struct {
    ls_quantity of[LS_ZONES]; /* a house with zones has no of[LS_FLOOR], depth for all or none */
    ls_depth_grid *grid;      /* depth only: instead of the others; NULL: none */
} ls_zoned;

typedef struct {
    ls_name material; /* a row of the table "bedding" */
    /* one of: depth as spread, volume as spread, bales, weight as brought in */
    ls_quantity depth, volume, weight;
    ls_count bales;
    ls_choice zone; /* ls_zone; not given: the whole floor */
    ls_day date;
    ls_place at;
} ls_bedding;

/* What the birds ate from a day on. */
typedef struct {
    ls_day from;                                /* not given: from placing */
    ls_quantity eaten;                          /* mass per bird and day, or */
    ls_quantity total;                          /* mass: all of it that the flock ate */
    ls_quantity protein, phosphorus, potassium; /* shares */
    ls_place at;
} ls_feed;

/* Birds counted alive on a day; of breeders the hens (males are lost alike). */
typedef struct {
    ls_day date;
    ls_count birds;
    ls_place at;
} ls_bird_count;

typedef struct {
    ls_name like;                  /* the house whose flock what was left out is taken from */
    ls_choice birds;               /* ls_bird */
    ls_count hens;                 /* breeders: hens placed */
    ls_count males;                /* breeders */
    ls_count count;                /* other birds: birds placed */
    ls_day placed, removed;        /* placed not given: by age */
    ls_quantity age;               /* when removed */
    long came;                     /* days old when placed, as far as age tells */
    ls_quantity lost;              /* share of the birds lost by the end; else the practice default */
    LS_LIST(ls_bird_count) counts; /* instead of lost: dated counts after placing, oldest first */
    ls_quantity weight;            /* live weight of a bird at removal */
    LS_LIST(ls_feed) feed;         /* one after the other, oldest first; the first from placing */
    ls_quantity eggs;              /* eggs per hen placed */
    ls_count flocks;               /* so many alike in a row, of which this is the last; else 1 */
    ls_place at;
} ls_flock;

typedef struct {
    ls_zoned depth, density, moisture; /* density: as it lies (in place) */
    ls_quantity loose_density;
    ls_quantity weighed; /* tons off a scale: settles the tons */
    ls_place at;
} ls_measured;

/* A moisture test: samples weighed wet and dried, in the same order. */
typedef struct {
    ls_quantity wet, dry;
    ls_place at;
} ls_weights;

typedef struct {
    ls_day date;
    ls_name by;
    ls_name method;                           /* how it tested */
    ls_choice basis;                          /* ls_basis; not given: as received */
    ls_quantity moisture, N, NH4N, P2O5, K2O; /* shares by mass */
    ls_quantity P, K;                         /* elements, instead of P2O5 and K2O */
    ls_quantity Cu, Zn;                       /* metals: shares by mass, on the report's basis */
    ls_place at;
} ls_lab;

/* Litter (cake, part of a house) taken out before the house is emptied: no longer there. */
typedef struct {
    ls_day date;             /* not given: of several alike, or before an earlier cleanout */
    ls_quantity weighed;     /* as hauled; or */
    ls_count loads;          /* full loads of the truck; or */
    ls_name truck;           /* see ls_truck_named */
    ls_quantity depth, area; /* depth taken off an area, or off a share of the floor */
    ls_choice what;          /* ls_taken; not given: see ls_taken_is_cake */
    ls_quantity moisture;    /* not given: that of such cake, of litter this house's */
    ls_count times;          /* so many times alike; not given: 1 */
    ls_place at;
} ls_already_out;

/* Is it cake? Not told, it is of birds that leave cake; of breeders and layers it is litter. */
bool ls_taken_is_cake(const ls_already_out *taken, int bird);

typedef struct {
    ls_day date;
    ls_quantity weighed;          /* as hauled; or */
    ls_count loads;               /* full loads of the truck */
    ls_name truck;                /* see ls_truck_named */
    ls_quantity bird_days, feed;  /* of the flocks before it; or */
    ls_count flocks;              /* so many alike the last of this house, or */
    ls_day from;                  /* birds that stayed from that day on: one of the four at least */
    ls_count birds;               /* placed then in a flock; not given: as now */
    LS_LIST(ls_already_out) cake; /* taken out of those flocks before it; not told: cake */
    ls_quantity moisture;         /* not given: this house's */
    ls_place at;
} ls_cleanout;

typedef LS_LIST(ls_lab) ls_lab_list;

typedef struct {
    ls_name name, formerly;
    ls_measured *measured; /* weighed only */
    ls_lab_list lab;
    ls_place at;
    const char *slug;
} ls_side;

typedef struct {
    ls_quantity slats, scratch, floor; /* shares of the floor area, summing to 100 % */
    ls_place at;
} ls_floor;

typedef struct {
    ls_name name, like, formerly; /* like: the house that what was left out is taken from */
    ls_quantity length, width;
    LS_LIST(ls_side) sides;
    ls_floor *floor; /* NULL: all LS_FLOOR */
    LS_LIST(ls_bedding) bedding;
    ls_yesno no_bedding; /* told that none was brought in; not given and no list: not known */
    LS_LIST(ls_flock) flocks;
    ls_choice manure; /* ls_manure */
    ls_measured *measured;
    ls_lab_list lab;
    LS_LIST(ls_cleanout) last_cleanout; /* of several years; in the order of the file */
    LS_LIST(ls_already_out) already_out;
    ls_yesno alike;          /* "no": sister houses tell nothing of this one */
    ls_quantity slat_height; /* top of the slats above the floor */
    ls_yesno alum;           /* the litter was treated with alum */
    ls_count sections;       /* slat sections; not given: the crew's figure */
    ls_name code;            /* letters and digits that begin its lot codes; else made from its name */
    ls_place at;
    const char *slug;
} ls_house;

/* The code of the lot of a house, or of one of its sides (NULL: the whole house), in the arena: the
 * house's own code, or the slug of its name in capitals; then the side's. Upper case ASCII letters,
 * digits and '-'. Ticket numbers begin with it: no two lots of a farm have the same. */
const char *ls_lot_code(ls_arena *a, const ls_house *house, const ls_side *side);
/* The area shares of a zone, whole floor included: 0 for a zone the house does not have. */
double ls_house_share(const ls_house *h, ls_zone z);
/* The first day of a flock that counts: since the last cleanout, if the birds stayed through it,
 * else since they were placed. LS_NO_DATE: not known. Of several flocks alike, of the last. */
ls_date ls_house_since(const ls_house *h, const ls_flock *f);

/* Days of age at removal of birds that came as day-olds, or from another house at an age. */
static inline size_t ls_flock_age(const ls_flock *f) { return (size_t)(f->removed.day - f->placed.day + f->came); }

/* How many flocks alike it stands for. */
long ls_flock_times(const ls_flock *f);

/* Where a zone lies across the house, as shares of its width from the left wall: the slats along
 * both long walls, half of their share each, the scratch in the middle, plain floor between.
 * Returns how many strips there are (0 for a zone the house does not have). */
typedef struct {
    double from, to;
} ls_strip;
size_t ls_house_strips(const ls_house *h, ls_zone z, ls_strip strips[2]);
/* Words as the farm file writes them: "broiler breeder", "slats", "belt"; "" for 0. */
const char *ls_zone_name(int zone);
const char *ls_manure_name(int manure);
