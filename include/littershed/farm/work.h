/* farm: trucks, the crew, the stack, what work and fertilizer cost. */
#pragma once

#include "littershed/farm/value.h"

typedef struct {
    ls_quantity least, most, step; /* mass per area */
    ls_place at;
} ls_rate_range;

typedef struct {
    ls_quantity spacing; /* from the axle before; the first has none */
    ls_quantity weight;  /* on it when loaded */
    ls_place at;
} ls_axle;

typedef enum { LS_ONLY_ROAD = 1 } ls_only;

/* A field by its name, "Field" or "Buyer/Field"; a side, "House/side", or a house without any. */
typedef struct {
    ls_name name;
    ls_place at;
} ls_field_name;

/* A run of a spreader to find its rate: what a tarp caught, or weighed litter over a distance. */
typedef struct {
    ls_day date;
    ls_quantity set;             /* what it was set to, mass per area */
    ls_quantity net;             /* mass */
    ls_quantity tarp;            /* area of the tarp; or: */
    ls_quantity distance, swath; /* swath not given: the truck's */
    ls_place at;
} ls_spreader_run;

/* Payload, or tare and gross, or all three. */
typedef struct {
    ls_name name, like, formerly, phone; /* like: the truck that what was left out is taken from */
    ls_count count;
    ls_quantity payload, tare, gross, body, swath, spreading, road;
    LS_LIST(ls_axle) axles;        /* front to back, two at least */
    LS_LIST(ls_field_name) fields; /* it spreads on these alone; none: on any */
    ls_choice only;                /* ls_only */
    ls_rate_range *rate;
    ls_quantity smallest_drop;    /* mass; not given: 1 ton */
    ls_day calibrated, inspected; /* of the spreader, the last time; a newer run calibrates it */
    LS_LIST(ls_spreader_run) runs;
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
    ls_yesno while_loading;
    ls_place at;
} ls_slat_crew;

typedef enum { LS_OUT_LOADER = 1, LS_OUT_HANDS, LS_OUT_TRUCK } ls_out_kind;

/* Hours in which the loader, the slat hands or a truck are not there. */
typedef struct {
    ls_name what;
    ls_instant from, until;
    ls_out_kind is; /* what that names; 0: it names nothing */
    size_t truck;   /* LS_OUT_TRUCK: of the farm's kinds */
    long number;    /* of that kind, 1 ... */
    ls_place at;
} ls_out;

typedef struct {
    ls_day arrives;
    ls_clock starts;   /* not given: the practice default */
    ls_quantity hours; /* working time per day: a share */
    unsigned days_off; /* bit k: weekday k (0 Sunday) */
    LS_LIST(ls_hold) hold_days;
    LS_LIST(ls_out) out;
    LS_LIST(ls_field_name) order; /* of hauling, every side once; none: that of the files */
    ls_name hauler, hauler_permit, phone;
    ls_loader *loader;
    ls_slat_crew *slats;
    ls_place at;
} ls_crew;

/* How far the stack is from something, and at least has to be. */
typedef struct {
    ls_name from;
    ls_quantity distance, least; /* least not given: the file names no limit */
    ls_name rule;                /* whose limit it is */
    ls_place at;
} ls_stack_distance;

typedef struct {
    ls_yesno roofed;
    ls_name cover, base;
    LS_LIST(ls_stack_distance) distances;
    ls_quantity length, width, height;
    ls_quantity most_days; /* time a load may lie in it, by the farm's own plan or code */
    ls_day kept_until;
    ls_place at;
} ls_stack;

static inline bool ls_stack_too_near(const ls_stack_distance *x) {
    return LS_GIVEN(x->least) && x->distance.value < x->least.value;
}

typedef struct {
    ls_quantity take_out, load, spread, reload, stacking; /* money per mass */
    ls_quantity haul;                                     /* money per length driven */
    ls_quantity crew, truck; /* money per time: the crew with its loader; one truck with its driver */
    ls_place at;
} ls_costs;

/* Prices of products, in the order of the table "fertilizer"; only those given. */
typedef struct {
    ls_name product;   /* a row of the table "fertilizer" */
    ls_quantity price; /* money per mass */
} ls_price;

/* The most weight a truck may carry: the lesser of its payload and of gross less tare, lb. */
double ls_truck_payload(const ls_truck *t);
