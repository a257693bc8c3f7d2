/* farm: buyers and their fields. */
#pragma once

#include "littershed/farm/value.h"

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
typedef enum { LS_CUT = 1, LS_GRAZED_BEEF, LS_GRAZED_DAIRY, LS_COVER } ls_use;
typedef enum { LS_AVERAGE = 1, LS_COOL_WET, LS_COOL_DRY, LS_WARM_WET, LS_WARM_DRY } ls_weather;
typedef enum { LS_NINETY_PERCENT = 1, LS_EXPECTED } ls_without_lab;
typedef enum { LS_FEED = 1, LS_FOOD, LS_ORGANIC_IN_SOIL, LS_ORGANIC_OFF_SOIL } ls_grown_for;

/* Days between spreading and incorporation: "at once" 0, "within 2 days" 2, "never" LS_NEVER. */
enum { LS_NEVER = -1 };
typedef struct {
    long days;
    ls_place at;
} ls_delay;
/* "at once", "never", "within 2 days"; false: something else. */
bool ls_delay_parse(const char *s, long *days);

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
    ls_quantity legume, cover, starter, irrigation; /* N, mass per area; irrigation: in the water */
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
    ls_count year, for_crop; /* year spread; year of the first crop after it (not given: the year spread) */
    ls_quantity rate, organic_nitrogen;
    ls_quantity P2O5; /* of that litter, a share: it then stands in the phosphorus ledger */
    ls_place at;
} ls_earlier;

typedef struct {
    ls_name name, like, formerly; /* like: the field that what was left out is taken from */
    ls_name tract;                /* its number on the maps of the farm agency */
    ls_quantity area, length;     /* length: of a pass of the spreader, from end to end */
    LS_LIST(ls_setback) setbacks;
    ls_yesno no_setbacks; /* the file says that there are none */
    ls_name crop;
    ls_name grown;                           /* how, in a word of the table of needs */
    ls_choice use;                           /* ls_use; not given: cut */
    ls_quantity yield;                       /* mass, bushels or bales per area */
    ls_quantity nitrogen, phosphate, potash; /* the laboratory's or plan's need: N, P2O5, K2O per area */
    ls_quantity recommended_with_nitrogen;   /* N that P, K were recommended with; else need */
    ls_soil *soil;
    ls_phosphorus *phosphorus;
    ls_count for_crop; /* year of the crop it is for; not given: the year the field opens */
    ls_quantity most;  /* the plan's cap, mass per area */
    ls_credits *credits;
    LS_LIST(ls_fertilized) fertilizer;
    ls_irrigation *irrigation; /* instead of credits->irrigation */
    LS_LIST(ls_earlier) earlier_litter;
    ls_yesno overlap;      /* loads may be spread where litter lies already */
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
    bool yard;              /* no field but a place that takes tons: its area counts an acre for each */
    bool clean, yield_told; /* read without a mistake; what is wrong with its yield is noted */
} ls_field;

/* May the field be spread on that day? If the file tells no days, on any. */
static inline bool ls_field_allows(const ls_field *f, ls_date day) {
    return f->allowed.from == LS_NO_DATE || (day >= f->allowed.from && day <= f->allowed.to);
}

/* Has allowed a first day? Else only a last one is told, if any day is. */
static inline bool ls_field_opens(const ls_field *f) { return LS_GIVEN(f->open) || LS_GIVEN(f->days_before_planting); }

typedef struct {
    ls_quantity least, most; /* loads or tons */
    ls_place at;
} ls_order;

typedef struct {
    ls_name name, like, formerly, address, phone; /* like: as of a field */
    ls_name stream;                               /* the nearest to where the litter is used */
    ls_name state;                                /* a row of the table "state"; not given: the farm's */
    ls_yesno own;                                 /* the fields are the farm's own: nothing is sold */
    ls_quantity distance, price;                  /* below 0: paid by the farm */
    ls_quantity takes;                            /* mass; the most of order too */
    ls_order *order;
    LS_LIST(ls_field) fields; /* of a buyer without any one yard */
    ls_place at;
    const char *slug;
} ls_buyer;

/* Does it take tons at a yard, and has no fields? */
static inline bool ls_buyer_is_yard(const ls_buyer *b) { return b->fields.n > 0 && b->fields.at[0].yard; }

/* Names under which a table of removal may hold a crop, likest first: its own; the hay of a
 * pasture; grass hay of any kind. In the arena; how many. */
enum { LS_CROP_NAMES = 3 };
size_t ls_crop_names(ls_arena *a, const char *crop, const char *names[LS_CROP_NAMES]);
/* Words as the farm file writes them: "cool wet", "cut"; "" for 0. */
const char *ls_weather_name(int weather);
const char *ls_use_name(int use);
const char *ls_rating_name(int rating);
const char *ls_soil_level_name(int level);
