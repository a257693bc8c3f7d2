/* The parts of a figure as a table file gives them, and the spread they amount to. Private to this
 * room. */
#pragma once

#include "littershed/reference.h"

/* In the unit of the figure; NaN: not given. */
typedef struct {
    ls_printed printed;
    double value, low, high;
    double scale, relative_scale, log_sd, df;
    const char *spread; /* the word for it; NULL: not given */
} ls_reference_parts;

/* All parts not given. */
ls_reference_parts ls_reference_no_parts(void);

/* Where a part of this name is kept, NULL if there is none: "n", "mean", "low", ... */
double *ls_reference_part(ls_reference_parts *p, const char *name);
/* Names of the parts by index, NULL past the end. */
const char *ls_reference_part_name(size_t index);

/* The kind of spread of a word, -1 if there is none; and the word. */
int ls_reference_spread_kind(const char *word);
const char *ls_reference_spread_word(ls_spread_kind kind);

/* Fill in what follows from the parts (value, bounds, scale, df) and tell the spread in base units
 * of factor each; single is the spread of a figure given alone. Returns NULL, or what is wrong. */
const char *ls_reference_settle(ls_reference_parts *p, double factor, ls_spread single,
                                ls_spread *out);
