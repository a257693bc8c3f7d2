/* farm: what has gone out, as a haul log tells. */
#ifndef LITTERSHED_FARM_HAULED_H
#define LITTERSHED_FARM_HAULED_H

#include "littershed/farm/field.h"

/* Where a part of a load went. */
typedef struct {
    const ls_buyer *buyer; /* NULL: to the stack */
    const ls_field *field;
    double tons;  /* base units */
    double acres; /* it covered, base units; 0: not told */
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

#endif
