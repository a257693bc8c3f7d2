/* farm: what has gone out, and what was handed out and signed for it, as a haul log tells. */
#pragma once

#include "littershed/farm/field.h"
#include "littershed/farm/house.h"
#include "littershed/farm/work.h"

/* Where a part of a load went. */
typedef struct {
    const ls_buyer *buyer; /* NULL: to the stack */
    const ls_field *field;
    double tons;  /* base units */
    double acres; /* it covered, base units; 0: not told */
    bool guessed; /* the log tells no tons of the parts: all alike */
    double rate;  /* its ticket says for the field, base units; 0: none does */
} ls_hauled_drop;

typedef struct {
    const char *lot; /* code of the lot, as its tickets lead with it */
    const char *ticket;
    long number; /* running number in the lot (of those from its house, or out of the stack) */
    bool from_stack;
    ls_date day;
    long second; /* of it; -1: not told */
    double tons; /* base units */
    bool weighed;
    const ls_truck *truck; /* NULL: not told, or named by no file */
    long truck_number;     /* of that kind, 1 ...; 0: not told */
    bool tells_delay;      /* the log tells when it was worked in: */
    long delay;            /* days, or LS_NEVER */
    double cleared;        /* share of the lot that was cleared once the load was out; NAN: not told */
    size_t n;              /* 0: not told where it went */
    const ls_hauled_drop *drops;
    long log_entry;     /* its number in the log; 0: not known */
    long issue;         /* the entry that handed its ticket out; 0: none did */
    const char *litter; /* out of the stack: the file of that litter; NULL: not told */
    const char *entry;  /* where it is written down: "entry 7 of farm.haul.csv" */
} ls_hauled;

/* What the files of earlier years and their haul logs tell of a field for the crop of one year, on
 * an acre to spread, in base units; one for each field and year. */
typedef struct {
    const ls_field *field; /* of this farm */
    int year;
    const char *from;          /* the files: "2025.yaml, 2024.yaml" */
    double tons, P2O5, bought; /* litter; P2O5 of it, of bought fertilizer */
    double organic;            /* organic nitrogen of the litter */
    double removed;            /* P2O5 the crop took, by the newest file; NAN: not known */
    size_t loads;              /* or parts of them */
    const char *took;          /* how removed was, or why it is not known */
} ls_past;

/* Litter of a lot that earlier years' files left in the stack, by the report of its file. */
typedef struct {
    const char *lot;      /* code */
    const char *from;     /* the file: "2025.yaml" */
    const char *by;       /* how it knows what a ton holds */
    double tons, left;    /* base units: before this farm's loads, and what of it is there now */
    bool alone;           /* no litter of this farm's own lies there with it */
    double per_ton[4];    /* N, NH4-N, P2O5, K2O; NAN: not known */
    const ls_lab *report; /* NULL: published figures */
    size_t reports;       /* how many are averaged */
    int bird;             /* ls_bird of its flocks */
} ls_stacked;

/* A ticket that was handed out and not taken back; the load itself is not gone. Names as they were
 * handed out: the files may name the buyer or a field no more. */
typedef struct {
    const char *name;      /* "Larkspur Hay/Upper Meadow"; "stack" */
    const ls_buyer *buyer; /* NULL: the stack, or the files name it no more */
    const ls_field *field; /* as buyer */
    double tons, acres;    /* base units; acres 0: the stack. Their ratio is the rate */
} ls_issued_drop;
typedef struct {
    const char *lot, *ticket; /* as of a load that is gone */
    long number;
    bool from_stack, to_stack;
    int certainty;          /* ls_certainty (haul) on that day */
    ls_date planned;        /* day it was to be hauled; out of the stack: the earliest */
    const char *truck_name; /* kind of truck; NULL or "": not told */
    const ls_truck *truck;  /* NULL: not told, or named by no file */
    ls_date handed_out;     /* day of the entry */
    double tons;            /* base units */
    bool full;              /* of a full truck, by the tickets handed out with it */
    const char *buyer_name; /* NULL: to the stack */
    const char *phone;      /* of the buyer on that day; NULL: not told */
    size_t n;
    const ls_issued_drop *drops;
    long log_entry;
} ls_issued;

/* A signed slip, the newest of its buyer: loads of the cleanout it was made in, in all, those he
 * had before it among them. */
typedef struct {
    const char *name;
    const ls_buyer *buyer; /* NULL: the files name it no more */
    const char *phone;     /* on that day; NULL: not told */
    long loads;
    double tons;    /* base units */
    double price;   /* money per mass, base units; NAN: none */
    ls_date day;    /* it was handed out */
    ls_date before; /* the slip that it took the place of; LS_NO_DATE: none */
    long had;       /* loads that he had, more than promised too */
    long log_entry;
    const char *entry; /* "entry 7 of farm.haul.csv" */
} ls_promise_slip;
