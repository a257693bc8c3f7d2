/* Units and dimensions. Inside the program every quantity is in base units: lb, ft, day, $, and the counted things
 * below; ton is the short ton of 2,000 lb, a year has 365 days. A share (%, ppm, lb/ton) has no dimension. */
#pragma once

#include "littershed/base/arena.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* bushel and bale are the trade's units of a crop, not a volume; load is one truck trip. */
enum { LS_MASS, LS_LENGTH, LS_TIME, LS_MONEY, LS_BIRD, LS_EGG, LS_LOAD, LS_BUSHEL, LS_BALE, LS_DIMENSIONS };

typedef struct {
    int8_t power[LS_DIMENSIONS];
} ls_dimension;

/* text as written; a quantity of n text is n * factor base units. */
typedef struct {
    const char *text;
    ls_dimension dimension;
    double factor;
} ls_unit;

typedef enum {
    LS_UNIT_OK,
    LS_UNIT_UNKNOWN,  /* a symbol that is in no table */
    LS_UNIT_T,        /* a bare t: ton or tonne? */
    LS_UNIT_MONEY,    /* money of another land */
    LS_UNIT_MALFORMED /* empty, two slashes in a row, so many symbols that it overflows */
} ls_unit_status;

/* Read symbols joined by '/': "lb/ton", "g/bird/day", "%", "ft3", "mi" (n bytes). On LS_UNIT_OK
 * *out holds the unit, its text copied to the arena. */
ls_unit_status ls_unit_parse(ls_arena *a, const char *s, size_t n, ls_unit *out);

/* A unit in the words people write: "lb per 100 hens/day" is text "lb/hen/day", scale 0.01; of "kg N/ha" the nutrient
 * is "N", else NULL. text "": no unit at all. t is what a bare t stands for (NULL: LS_UNIT_T). */
typedef struct {
    const char *text; /* as ls_unit_parse reads it */
    double scale;     /* times the number before it */
    const char *of;
} ls_said_unit;
ls_unit_status ls_unit_said(ls_arena *a, const char *words, const char *t, ls_said_unit *out);
/* The unit of a text the program itself wrote; ends the program (exit 3) if there is no such unit.
 * The text must outlive the unit. "" is a bare number. */
ls_unit ls_unit_of(const char *text);

bool ls_dimension_same(ls_dimension a, ls_dimension b);
/* a x b (sign +1) or a / b (sign -1). A power beyond int8, far from any formula: exit 3. */
ls_dimension ls_dimension_times(ls_dimension a, ls_dimension b, int sign);
bool ls_dimension_none(ls_dimension d);
/* The unit in which --units metric shows a quantity that is shown in u otherwise, part by part (lb
 * -> kg, ton/ac -> tonne/ha, in -> cm ...), its text in the arena; u itself if it has none. */
ls_unit ls_unit_metric(ls_arena *a, ls_unit u);
/* A number with its unit as people write it: "3 tons/ac", "1 ton", "36%", "$61 a ton"; and the unit
 * alone, of many: "tons/ac". */
const char *ls_unit_amount(ls_arena *a, const char *number, const char *unit);
const char *ls_unit_many(ls_arena *a, const char *unit);
