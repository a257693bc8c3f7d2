/* farm: the farm files as plain structs. Every key the files may hold stands in one schema table
 * (ls_schema). */
#ifndef LITTERSHED_FARM_H
#define LITTERSHED_FARM_H

#include "littershed/base.h"
#include "littershed/farm/birds.h"
#include "littershed/reference.h"

/* What was not given is zero: at.line == 0, text NULL, a section pointer NULL, a list with n 0. */
#define LS_GIVEN(v) ((v).at.line != 0)

typedef struct {
    const char *text;
    ls_place at;
} ls_name;

typedef struct {
    ls_date day;
    ls_place at;
} ls_day;

typedef struct {
    ls_window days;
    ls_place at;
} ls_open;

typedef struct {
    long n;
    ls_place at;
} ls_count;

typedef struct {
    bool yes;
    ls_place at;
} ls_yesno;

/* A time of the day. */
typedef struct {
    long minute; /* after midnight; -1: wrong */
    ls_place at;
} ls_clock;

/* One of the words of its key, as an enum below; 0 is "not given". */
typedef struct {
    int is;
    ls_place at;
} ls_choice;

typedef enum { LS_PLAIN = 1, LS_PLUS_MINUS, LS_RANGE, LS_READINGS } ls_quantity_form;

/* A quantity as written, in base units. */
typedef struct {
    ls_quantity_form form; /* 0: not given */
    double value;          /* the number; of a range its middle; of readings their mean */
    double half; /* after +/-: half-width believed at about 95 % (two standard uncertainties) */
    double low, high;       /* of a range */
    const double *readings; /* the n readings; one number is one reading, a range has none */
    size_t n;
    ls_unit unit;     /* as written */
    const char *text; /* as written */
    const char *how;  /* how it comes about, if it is not simply what is written; else NULL */
    ls_place at;
} ls_quantity;

typedef enum {
    LS_SLATS = 1,
    LS_SCRATCH,
    LS_FLOOR,
    LS_ZONES
} ls_zone; /* LS_ZONES: one past the last */
/* How the manure of layers and layer pullets is kept: taken away on belts, in a pit below, scraped
 * off, or as litter on the floor. LS_MANURES: one past the last. */
typedef enum {
    LS_MANURE_BELT = 1,
    LS_MANURE_PIT,
    LS_MANURE_SCRAPED,
    LS_MANURE_LITTER,
    LS_MANURES
} ls_manure;
/* What was taken out of a house before it is emptied. */
typedef enum { LS_TAKEN_CAKE = 1, LS_TAKEN_LITTER } ls_taken;
typedef enum { LS_AS_RECEIVED = 1, LS_DRY } ls_basis;
typedef enum { LS_RATING_LOW = 1, LS_RATING_MEDIUM, LS_RATING_HIGH, LS_RATING_VERY_HIGH } ls_rating;
/* Classes of a soil test, as laboratories call them. */
typedef enum {
    LS_SOIL_LOW = 1,
    LS_SOIL_MEDIUM,
    LS_SOIL_SUFFICIENT,
    LS_SOIL_HIGH,
    LS_SOIL_VERY_HIGH,
    LS_SOIL_EXCESSIVE
} ls_soil_level;
typedef enum { LS_CUT = 1, LS_GRAZED_BEEF, LS_GRAZED_DAIRY } ls_use;
typedef enum { LS_AVERAGE = 1, LS_COOL_WET, LS_COOL_DRY, LS_WARM_WET, LS_WARM_DRY } ls_weather;
typedef enum { LS_NINETY_PERCENT = 1, LS_EXPECTED } ls_without_lab;
typedef enum { LS_RECORDS_FEDERAL = 1, LS_RECORDS_STATE, LS_RECORDS_BOTH } ls_records;
typedef enum { LS_FEED = 1, LS_FOOD, LS_ORGANIC_IN_SOIL, LS_ORGANIC_OFF_SOIL } ls_grown_for;

/* Days between spreading and incorporation: "at once" 0, "within 2 days" 2, "never" LS_NEVER. */
enum { LS_NEVER = -1 };
typedef struct {
    long days;
    ls_place at;
} ls_delay;

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
    ls_quantity of[LS_ZONES]; /* a house with zones never has of[LS_FLOOR], and depth for all its
                                 zones or none */
    ls_depth_grid *grid;      /* depth only: instead of the others; NULL: none */
} ls_zoned;

/* What is done in the empty houses before the next flock comes: days. */
typedef struct {
    ls_quantity wash, repairs, bedding;
    ls_place at;
} ls_make_ready;

/* The nutrient management plan, as a paper. */
typedef struct {
    ls_yesno on_site; /* a copy is kept on the farm */
    ls_name by;       /* who wrote it */
    ls_day date;
    ls_choice records; /* ls_records: whose records it asks for; not given: by the farm's size */
    ls_place at;
} ls_plan_paper;

/* Farm files of an earlier year; their haul log lies beside them. */
typedef struct {
    ls_name file, fields; /* fields: a second file that belongs to it, if there is one */
    ls_place at;
} ls_earlier_files;

typedef struct {
    ls_name name, place, permit, prepared_by;
    ls_plan_paper *plan;
    LS_LIST(ls_earlier_files) earlier;
    ls_name haul_log; /* path of the haul log; not given: beside the farm file, named after it */
    ls_day next_flock;
    ls_make_ready *make_ready;
    ls_yesno quarantine;
    ls_place at;
} ls_farm_facts;

/* Names of the tables to use; text NULL: the program's default. */
typedef struct {
    ls_name removal, nitrogen, ammonium, carryover, soil, phosphate_and_potash;
    ls_place at;
} ls_table_names;

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
    ls_choice birds; /* ls_bird */
    ls_count hens;   /* breeders: hens placed */
    ls_count males;  /* breeders */
    ls_count count;  /* other birds: birds placed */
    ls_day placed, removed;
    ls_quantity lost; /* share of the birds lost by the end, straight-line; not given: the practice
                         default */
    LS_LIST(ls_bird_count) counts; /* instead of lost: dated counts after placing, oldest first */
    ls_quantity weight;            /* live weight of a bird at removal */
    LS_LIST(ls_feed) feed;         /* one after the other, oldest first; the first from placing */
    ls_quantity eggs;              /* eggs per hen placed */
    ls_count flocks; /* so many alike one after the other, of which this is the last; not given: 1
                      */
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
    ls_count loads;          /* times the payload of the farm's first truck; or */
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
    ls_quantity weighed;          /* as hauled */
    ls_quantity bird_days, feed;  /* of the flocks before it, one of them at least */
    LS_LIST(ls_already_out) cake; /* taken out of those flocks before it; not told: cake */
    ls_quantity moisture;         /* not given: this house's */
    ls_place at;
} ls_cleanout;

typedef LS_LIST(ls_lab) ls_lab_list;

typedef struct {
    ls_name name;
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
    ls_name name;
    ls_quantity length, width;
    LS_LIST(ls_side) sides;
    ls_floor *floor; /* NULL: all LS_FLOOR */
    LS_LIST(ls_bedding) bedding;
    ls_yesno no_bedding; /* told that none was brought in; not given and no list: not known */
    LS_LIST(ls_flock) flocks;
    ls_name flocks_as; /* the house whose flocks these are too: flocks is then the same list */
    ls_choice manure;  /* ls_manure */
    ls_measured *measured;
    ls_lab_list lab;
    LS_LIST(ls_cleanout) last_cleanout; /* of several years; in the order of the file */
    LS_LIST(ls_already_out) already_out;
    ls_yesno alike;          /* "no": sister houses tell nothing of this one */
    ls_quantity slat_height; /* top of the slats above the floor */
    ls_yesno alum;           /* the litter was treated with alum */
    ls_count sections;       /* slat sections; not given: the crew's figure */
    ls_name code; /* letters and digits that begin this house's lot codes; not given: made from its
                     name */
    ls_place at;
    const char *slug;
} ls_house;

typedef struct {
    ls_quantity least, most, step; /* mass per area */
    ls_place at;
} ls_rate_range;

typedef struct {
    ls_quantity spacing; /* from the axle before; the first has none */
    ls_quantity weight;  /* on it when loaded */
    ls_place at;
} ls_axle;

/* Payload, or tare and gross, or all three. */
typedef struct {
    ls_name name;
    ls_count count;
    ls_quantity payload, tare, gross, body, swath, spreading, road;
    LS_LIST(ls_axle) axles; /* front to back, two at least */
    ls_rate_range *rate;
    ls_quantity smallest_drop;    /* mass; not given: 1 ton */
    ls_day calibrated, inspected; /* of the spreader, the last time */
    ls_place at;
} ls_truck;

typedef struct {
    ls_quantity bucket, fill, load_and_dump, travel;
    ls_place at;
} ls_loader;

typedef struct {
    ls_count sections, people;
    ls_quantity weight;
    ls_quantity pace; /* sections per hour, written "90 per hour"; base unit 1/day */
    ls_place at;
} ls_slat_crew;

typedef struct {
    ls_day arrives;
    ls_clock starts;   /* not given: the practice default */
    ls_quantity hours; /* working time per day: a share */
    unsigned days_off; /* bit k: weekday k (0 Sunday) */
    LS_LIST(ls_day) hold_days;
    ls_name hauler, hauler_permit;
    ls_loader *loader;
    ls_slat_crew *slats;
    ls_place at;
} ls_crew;

typedef struct {
    ls_yesno roofed;
    ls_quantity length, width, height;
    ls_quantity most_days; /* time a load may lie in it, by the farm's own plan or code */
    ls_day kept_until;
    ls_place at;
} ls_stack;

typedef struct {
    ls_quantity take_out, load, spread, reload, stacking; /* money per mass */
    ls_quantity haul;                                     /* money per length driven */
    ls_quantity crew,
        truck; /* money per time: the crew with its loader; one truck with its driver */
    ls_place at;
} ls_costs;

/* Prices of products, in the order of the table "fertilizer"; only those given. */
typedef struct {
    ls_name product;   /* a row of the table "fertilizer" */
    ls_quantity price; /* money per mass */
} ls_price;

typedef struct {
    ls_name from;
    ls_quantity edge, width; /* a strip, or */
    ls_quantity radius;      /* a circle, */
    ls_quantity share;       /* of which this share lies in the field; not given: all of it */
    ls_quantity overlap;     /* area of it that other setbacks of the field take already */
    ls_name rule;            /* whose rule it is */
    ls_place at;
} ls_setback;

typedef struct {
    ls_day date;
    ls_name method;
    ls_quantity P, K;           /* elemental, mass per area, or a share of the soil (ppm) */
    ls_choice P_class, K_class; /* ls_soil_level: as the laboratory's report has it */
    ls_place at;
} ls_soil;

/* Phosphate of one crop year before this one. */
typedef struct {
    ls_count year;
    ls_quantity litter;  /* mass per area that went on */
    ls_quantity P2O5;    /* that went on: mass per area, or a share of the litter */
    ls_quantity removed; /* P2O5 the crop took, mass per area */
    ls_place at;
} ls_ledger_year;

typedef struct {
    ls_choice rating; /* ls_rating */
    ls_name rated_by;
    ls_day date;
    ls_quantity bank;               /* years of removal that may go on at once */
    LS_LIST(ls_ledger_year) ledger; /* in any order, each year once */
    ls_place at;
} ls_phosphorus;

/* A cap that holds on some days of the year: one of the three figures. */
typedef struct {
    ls_open between;
    ls_quantity total_nitrogen, available_nitrogen; /* mass per area */
    ls_quantity most;                               /* litter, mass per area */
    ls_name rule;                                   /* whose rule it is */
    ls_place at;
} ls_window_cap;

typedef struct {
    ls_quantity legume, starter, irrigation; /* N, mass per area; irrigation: in the water */
    ls_place at;
} ls_credits;

/* Nitrate in irrigation water: as nitrogen (NO3-N), or the nitrate itself (NO3), a share of the
 * water or mass per volume; and the depth of water a season. */
typedef struct {
    ls_quantity nitrate, NO3;
    ls_quantity water;
    ls_place at;
} ls_irrigation;

/* Fertilizer that goes on besides the litter: a row of the table "fertilizer", or a grade. */
typedef struct {
    ls_name product, grade;
    double holds[3];  /* of a grade: shares of N, P2O5, K2O; filled by the check of the section */
    ls_quantity rate; /* mass of the product per area */
    ls_name purpose;
    ls_place at;
} ls_fertilized;

typedef struct {
    ls_count year,
        for_crop; /* year spread; year of the first crop after it (not given: the year spread) */
    ls_quantity rate, organic_nitrogen;
    ls_quantity P2O5; /* of that litter, a share: it then stands in the phosphorus ledger */
    ls_place at;
} ls_earlier;

typedef struct {
    ls_name name;
    ls_quantity area, length; /* length: of a pass of the spreader, from end to end */
    LS_LIST(ls_setback) setbacks;
    ls_name crop;
    ls_choice use;     /* ls_use; not given: cut */
    ls_quantity yield; /* mass, bushels or bales per area */
    ls_quantity nitrogen, phosphate,
        potash; /* the laboratory's or plan's need: N, P2O5, K2O per area */
    ls_quantity recommended_with_nitrogen; /* the N that phosphate and potash were recommended with;
                                              not given: this field's */
    ls_soil *soil;
    ls_phosphorus *phosphorus;
    ls_count
        for_crop;     /* year of the crop this litter is for; not given: the year the field opens */
    ls_quantity most; /* the plan's cap, mass per area */
    ls_credits *credits;
    LS_LIST(ls_fertilized) fertilizer;
    ls_irrigation *irrigation; /* instead of credits->irrigation */
    LS_LIST(ls_earlier) earlier_litter;
    ls_delay incorporated; /* not given: never */
    ls_choice weather;     /* ls_weather; not given: average */
    ls_choice without_lab; /* ls_without_lab */
    ls_open open;
    LS_LIST(ls_window_cap) window_caps;
    ls_day planting, harvest;  /* of this crop */
    ls_day planted, harvested; /* as it came to be */
    ls_quantity yield_got;     /* as yield */
    ls_day grazing;            /* first day animals are to be on it after spreading */
    /* The plan's: at most so many days from spreading to planting; at least so many from spreading
     * to harvest and to grazing. */
    ls_count days_before_planting, days_before_harvest, days_before_grazing;
    ls_choice grown_for; /* ls_grown_for */
    ls_name directions;
    ls_place at;
    const char *slug;
    /* The days on which it may be spread: open, less what the three limits of days rule out.
     * from == LS_NO_DATE: any day. */
    ls_window allowed;
} ls_field;

/* May the field be spread on that day? If the file tells no days, on any. */
static inline bool ls_field_allows(const ls_field *f, ls_date day) {
    return f->allowed.from == LS_NO_DATE || (day >= f->allowed.from && day <= f->allowed.to);
}

/* Has allowed a first day? Else only a last one is told, if any day is. */
static inline bool ls_field_opens(const ls_field *f) {
    return LS_GIVEN(f->open) || LS_GIVEN(f->days_before_planting);
}

typedef struct {
    ls_quantity least, most; /* loads or tons */
    ls_place at;
} ls_order;

typedef struct {
    ls_name name, address;
    ls_name stream; /* the nearest to where the litter is used */
    ls_yesno own;   /* the fields are the farm's own: nothing is sold */
    ls_quantity distance, price;
    ls_order *order;
    LS_LIST(ls_field) fields;
    ls_place at;
    const char *slug;
} ls_buyer;

/* ---- what has gone out, as a haul log tells ---- */

/* Where a part of a load went. */
typedef struct {
    const ls_buyer *buyer; /* NULL: to the stack */
    const ls_field *field;
    double tons;  /* base units */
    bool guessed; /* the log tells no tons of the parts: all alike */
} ls_hauled_drop;

typedef struct {
    const char *lot; /* code of the lot, as its tickets lead with it */
    const char *ticket;
    long number; /* running number in the lot (of those from its house, or out of the stack) */
    bool from_stack;
    ls_date day;
    double tons; /* base units */
    bool weighed;
    double cleared; /* share of the lot that was cleared once the load was out; NAN: not told */
    size_t n;       /* 0: not told where it went */
    const ls_hauled_drop *drops;
    long log_entry;    /* its number in the log; 0: not known */
    const char *entry; /* where it is written down: "entry 7 of farm.haul.csv" */
} ls_hauled;
/* How old a soil test and a litter analysis may be when a field opens. */
typedef struct {
    ls_quantity soil, litter; /* time */
    ls_place at;
} ls_ages;

/* A file that a farm file names. */
typedef enum { LS_NAMED_TABLES = 1, LS_NAMED_GRID, LS_NAMED_LOG, LS_NAMED_FARM } ls_named_kind;
typedef struct {
    ls_named_kind kind;
    const char *path; /* from where the program runs */
    ls_place at;
} ls_named;
typedef LS_LIST(ls_named) ls_named_list;

typedef struct {
    ls_diag *diag;                 /* the inputs, for places */
    const ls_reference *reference; /* the tables the farm was read with, its own laid over
                                      them: to be handed to the other rooms */
    ls_named_list named;           /* every file that the farm files name, read or not */
    LS_LIST(ls_name) own_tables;   /* files of the farm's own tables, as written */
    ls_farm_facts *facts;
    ls_table_names *tables;
    LS_LIST(ls_house) houses;
    LS_LIST(ls_truck) trucks;
    ls_crew *crew;
    ls_stack *stack;
    ls_costs *costs;
    LS_LIST(ls_price) fertilizer;
    LS_LIST(ls_buyer) buyers;
    LS_LIST(ls_hauled)
    hauled; /* in the order of the log; empty as read from farm files: whoever
               reads the log too puts its loads here */
    ls_ages *ages;
} ls_farm;

/* The code of the lot of a house, or of one of its sides (NULL: the whole house), in the arena: the
 * house's own code, or the slug of its name in capitals; then the side's. Upper case ASCII letters,
 * digits and '-'. Ticket numbers begin with it: no two lots of a farm have the same. */
const char *ls_lot_code(ls_arena *a, const ls_house *house, const ls_side *side);

/* Read n farm files ("-": standard input) and join their sections. The whole of every file is
 * checked; mistakes are noted in d. NULL if there is any error. Structs live in the arena; d must
 * outlive them. Limits: lots x fields at most 200,000. The farm's own tables (own_tables) are read
 * with it and laid over r. What the files name must be plain files, or not there. */
const ls_farm *ls_farm_read(ls_arena *a, ls_diag *d, const ls_reference *r,
                            const char *const *paths, size_t n);

/* The same of files that another farm file names: plain files alone (ls_file_read_plain). */
const ls_farm *ls_farm_read_named(ls_arena *a, ls_diag *d, const ls_reference *r,
                                  const char *const *paths, size_t n);

/* The files that the farm file at path names, whatever else may be wrong with it; none if it is no
 * plain file that can be read as YAML. At most LS_MOST_NAMED. */
enum { LS_MOST_NAMED = 1000 };
ls_named_list ls_farm_named(ls_arena *a, const char *path);

/* The path of a name that a farm file says: from the folder of that file ("-" or standard input:
 * from where the program runs). */
const char *ls_farm_beside(ls_arena *a, const char *farm_file, const char *name);

/* Nothing may leave the farm: it says that a disease control order holds. farm NULL: no. */
bool ls_farm_is_quarantined(const ls_farm *farm);

/* The most weight a truck may carry: the lesser of its payload and of gross less tare, lb. */
double ls_truck_payload(const ls_truck *t);

/* The area shares of a zone, whole floor included: 0 for a zone the house does not have. */
double ls_house_share(const ls_house *h, ls_zone z);

/* Names under which a table of removal may hold a crop, likest first: its own; the hay of a
 * pasture; grass hay of any kind. In the arena; how many. */
enum { LS_CROP_NAMES = 3 };
size_t ls_crop_names(ls_arena *a, const char *crop, const char *names[LS_CROP_NAMES]);

/* The first day of a flock that counts: since the last cleanout, if the birds stayed through it,
 * else since they were placed. LS_NO_DATE: not known. Of several flocks alike, of the last. */
ls_date ls_house_since(const ls_house *h, const ls_flock *f);

/* How many flocks alike it stands for. */
long ls_flock_times(const ls_flock *f);

/* Where a zone lies across the house, as shares of its width from the left wall: the slats along
 * both long walls, half of their share each, the scratch in the middle, plain floor between.
 * Returns how many strips there are (0 for a zone the house does not have). */
typedef struct {
    double from, to;
} ls_strip;
size_t ls_house_strips(const ls_house *h, ls_zone z, ls_strip strips[2]);

/* Words as the farm file writes them: "broiler breeder", "slats", "cool wet"; "" for 0. */
const char *ls_zone_name(int zone);
const char *ls_manure_name(int manure);
const char *ls_weather_name(int weather);
const char *ls_use_name(int use);
const char *ls_rating_name(int rating);
const char *ls_soil_level_name(int level);

/* Made from the schema table, in the arena: the JSON Schema (draft 2020-12) of a farm file; a
 * commented starter file for a kind of bird (0: broiler breeder); the whole manual page
 * littershed-farm(5) in mdoc. */
const char *ls_farm_json_schema(ls_arena *a);
const char *ls_farm_starter(ls_arena *a, int bird);
const char *ls_farm_manual(ls_arena *a);

#endif
