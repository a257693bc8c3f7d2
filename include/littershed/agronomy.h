/* agronomy: what a field needs, what it may take, and at what rate, for the litter of each lot. */
#ifndef LITTERSHED_AGRONOMY_H
#define LITTERSHED_AGRONOMY_H

#include "littershed/farm.h"
#include "littershed/litter.h"
#include "littershed/reference.h"
#include "littershed/worksheet.h"

/* What the rate is the least of. Closed: rated very high, or no acres left. */
typedef enum {
    LS_LIMIT_NITROGEN,
    LS_LIMIT_PHOSPHORUS,
    LS_LIMIT_CAP,
    LS_LIMIT_SPREADER,
    LS_LIMIT_CLOSED
} ls_limit;
/* "nitrogen", "phosphorus", "cap", "spreader", "closed". */
const char *ls_limit_name(ls_limit limit);

/* N, P2O5, K2O of a field, per acre. */
enum { LS_FIELD_N, LS_FIELD_P2O5, LS_FIELD_K2O, LS_FIELD_NUTRIENTS };

/* The litter of one lot on one field; lots with the same analysis share their lines. Rates are
 * litter tons per acre. */
typedef struct {
    const ls_lot *lot;
    ls_line rate; /* what goes on: the least limit, rounded down to the spreader's step; 0 below its
                     least or if closed */
    ls_line nitrogen, phosphorus, cap, spreader; /* the limits; LS_NO_LINE: does not apply */
    ls_limit limit;                              /* the one that binds before rounding */
    ls_line pan;                                 /* plant-available N per ton, as used */
    ls_line on[LS_FIELD_NUTRIENTS]; /* lb/ac that goes on at the rate: total N, P2O5, K2O;
                                       LS_NO_LINE: no figure */
    ls_line available_N; /* lb/ac of plant-available N at the rate, by the stated figure, not the 90
                            % point */
    ls_line years_of_removal; /* P2O5 that goes on over what the crop removes in a year; LS_NO_LINE:
                                 not known */
    ls_line short_of[LS_FIELD_NUTRIENTS],
        over[LS_FIELD_NUTRIENTS]; /* against need less credits; LS_NO_LINE where the need is unknown
                                   */
    ls_line chance_over; /* share of draws in which the rate passes the nitrogen or the phosphorus
                            limit, whichever is likelier, need and credits as given; 0 for a rate of
                            0; LS_NO_LINE with a lab report */
    const char *why;     /* why it is 0, in plain words; NULL if it is not */
    ls_line worth[LS_FIELD_NUTRIENTS]; /* $/ton: what a ton at this rate saves of each fertilizer
                                          nutrient, as far as the crop will use it; LS_NO_LINE: not
                                          known, or the rate is 0 */
    const char *worth_why[LS_FIELD_NUTRIENTS]; /* by what it was counted, or what is missing, in
                                                  plain words */
    ls_line value_per_ton;                     /* their sum; LS_NO_LINE: none is known */
    ls_line price_per_lb; /* $/lb of plant-available N at the buyer's price, delivered and spread;
                             LS_NO_LINE: no price */
} ls_rate;

typedef struct {
    const ls_buyer *buyer;
    const ls_field *field;
    const char *slug; /* "larkspur_hay.upper_meadow" */
    ls_line area, spreadable;
    ls_line need[LS_FIELD_NUTRIENTS], credits[LS_FIELD_NUTRIENTS]; /* LS_NO_LINE: unknown */
    ls_line removal_P2O5; /* lb/ac the harvest removes in a year, of grazed land what animals keep;
                             LS_NO_LINE: not known */
    size_t n;
    ls_rate *rates; /* one per lot of the estimate, in its order */
    LS_LIST(const char *)
    flags; /* in plain words: no rating, an old soil test, a cap above 3 ton/ac, ... */
} ls_field_rates;

typedef struct ls_agronomy ls_agronomy;

/* What all fields share: the tables the farm names, plant-available N per ton of each analysis at
 * each delay and weather that occurs. A table that the farm names and that does not exist was
 * refused by the farm room. Lines of this stay in the worksheet. Lives in the worksheet's arena.
 * NULL if a table that the farm names cannot serve it: the mistake is in the farm's diag. Litter
 * without a lab report is drawn here, with the estimate's seed and draws. */
ls_agronomy *ls_agronomy_new(ls_worksheet *w, const ls_reference *r, const ls_estimate *e);

/* The lines of one field, each key led by the field's slug; made once: before it is asked for
 * again, the worksheet must be cut back to where it was before the call (the result stays, its
 * lines do not). NULL if something is lacking that the rates need (a nitrogen need, the removal of
 * the crop): the mistake is in the farm's diag. Rate = the least of the limits (25 Pa. Code 83.293:
 * the lesser of the nitrogen and the phosphorus rate; nitrogen rate = (need - residual
 * - other nitrogen) / available nitrogen per ton), in whole steps of the first truck. */
const ls_field_rates *ls_agronomy_field(ls_agronomy *g, const ls_buyer *b, const ls_field *f);

/* The class of a soil test by a table of the kind "soil": element "P" or "K", elemental, in base
 * units of mass per area: "low", "medium", "high", "very high"; a test at the upper bound of a
 * class belongs to it. NULL if the table has no such element. */
const char *ls_soil_class(const ls_table *soil, const char *element, double per_area);

#endif
