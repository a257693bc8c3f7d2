/* agronomy: what a field needs, what it may take, and at what rate, for the litter of each lot. */
#pragma once

#include "littershed/farm.h"
#include "littershed/litter.h"
#include "littershed/reference.h"
#include "littershed/worksheet.h"

/* What the rate is the least of. Window: a cap that holds on some days of the year (window_caps).
 * Closed: rated very high, or no acres left. */
typedef enum {
    LS_LIMIT_NITROGEN,
    LS_LIMIT_PHOSPHORUS,
    LS_LIMIT_CAP,
    LS_LIMIT_SPREADER,
    LS_LIMIT_WINDOW,
    LS_LIMIT_CLOSED
} ls_limit;
/* "nitrogen", "phosphorus", "cap", "spreader", "window", "closed". */
const char *ls_limit_name(ls_limit limit);

/* N, P2O5, K2O of a field, per acre. */
enum { LS_FIELD_N, LS_FIELD_P2O5, LS_FIELD_K2O, LS_FIELD_NUTRIENTS };
/* Their names, and which nutrient of the litter each is. */
extern const char *const ls_field_nutrient[LS_FIELD_NUTRIENTS];
extern const int ls_in_litter[LS_FIELD_NUTRIENTS];

/* What feeds the field besides litter: a legume, fertilizer, water, earlier litter. */
typedef struct {
    const char *name;                  /* "N from the legume before", "DAP, starter" */
    ls_line gives[LS_FIELD_NUTRIENTS]; /* lb/ac; LS_NO_LINE: none of it */
} ls_credit;

/* A product of the table "fertilizer" that finishes a field's need after litter at the rate. */
typedef struct {
    const char *product;
    bool priced;      /* it is one of the farm's own prices */
    ls_line per_acre; /* lb/ac of product */
    ls_line on_field; /* lb on the spreadable acres */
} ls_bought;

/* Metals that litter brings: a caution, never a limit. */
typedef enum { LS_COPPER, LS_ZINC, LS_METALS } ls_metal;
/* "Cu", "Zn" */
const char *ls_metal_key(ls_metal metal);

/* One metal in the litter of a rate, lb/ac: rate x what the laboratory found (reported), else x the
 * published content of broiler litter (University of Georgia, Bulletin 1330); the most in all, by
 * South Carolina's rule (Regulation 61-43); most / on, so many spreadings, if any goes on. */
typedef struct {
    ls_line on, most, times;
    bool reported;
} ls_metal_rate;

/* The litter of one lot on one field; lots with the same analysis share their lines. Rates are tons
 * of litter per acre. LS_NO_LINE: there is no such figure or limit, or it is not known. */
typedef struct {
    const ls_lot *lot;
    /* The lowest limit in whole steps of the spreader; 0 below its least, or if closed. */
    ls_line rate;
    const char *why;                             /* why it is 0, in plain words; NULL if it is not */
    ls_line takes;                               /* tons: rate x spreadable acres */
    ls_line nitrogen, phosphorus, cap, spreader; /* the limits */
    ls_line window;                              /* the least of the window caps that apply */
    const ls_line *seasons;                      /* [ls_field_rates.caps_n] the limit of each cap */
    ls_line lowest;                              /* of all limits, before rounding */
    ls_limit limit;                              /* the one that binds */
    ls_line step;                                /* of the spreader, in which the rate is */
    ls_line outside; /* the rate on days when no window cap holds (ls_field_rates.outside) */
    ls_line pan;     /* plant-available N per ton, as used */
    /* lb/ac that goes on at the rate: total N, P2O5, K2O; plant-available N by the stated figure,
     * not the 90 % point; and what a crop can use in the first year: N as available_N, P2O5 and K2O
     * by the table the farm names, all of them if it names none. */
    ls_line on[LS_FIELD_NUTRIENTS], available_N, counts[LS_FIELD_NUTRIENTS];
    /* What counts against need less credits. */
    ls_line short_of[LS_FIELD_NUTRIENTS], over[LS_FIELD_NUTRIENTS];
    ls_line years_of_removal; /* P2O5 that goes on over what the crop removes in a year */
    /* Whole crop years, this one the first, until the crops have taken what goes on and what is left of earlier years,
     * where phosphorus governs; the crop year in which it may go on again after that, 0: not known. */
    ls_line covered;
    int again;
    ls_metal_rate metals[LS_METALS];
    size_t bought_n; /* what to buy to finish the need; a product of which nothing is needed is 0 */
    const ls_bought *bought;
    /* Share of draws in which the rate passes the nitrogen or the phosphorus limit, whichever is
     * likelier, need and credits as given; 0 for a rate of 0; none with a lab report. */
    ls_line chance_over;
    /* $/ton: what a ton at this rate saves of each fertilizer nutrient, as far as the crop will use
     * it; by what it was counted, or what is missing, in plain words; their sum. */
    ls_line worth[LS_FIELD_NUTRIENTS];
    const char *worth_why[LS_FIELD_NUTRIENTS];
    ls_line value_per_ton;
    ls_line price_per_lb; /* $/lb of plant-available N at the buyer's price, delivered and spread */
} ls_rate;

/* What a setback takes, less what it shares with others. */
typedef struct {
    const ls_setback *setback;
    ls_line acres;
} ls_field_setback;

/* A line of the phosphorus ledger, lb/ac of P2O5: what went on for the crop of that year, what the
 * crop took, and what is left of it and of the years before, never below nothing. Where the farm
 * file and the earlier files with their logs both tell the year, what leaves more counts. */
typedef struct {
    int year;
    ls_line on, removed, balance;
    ls_line told, logged; /* on by the farm file, by earlier files and logs; LS_NO_LINE */
    const char *from;     /* the earlier files, "2025.yaml"; NULL: none tells of it */
    const char *took;     /* how their part of removed was come by; NULL: nothing to say */
} ls_field_ledger;

/* Nitrogen that litter of a year before gives this crop, where the farm file and the logs both tell
 * of that litter: the greater counts. */
typedef struct {
    int year;
    ls_line told, logged; /* lb/ac */
    const ls_past *past;
} ls_field_carryover;

/* A cap that holds on some days: it applies if the field can be spread on one of them. */
typedef struct {
    const ls_window_cap *cap;
    bool applies;
    ls_line figure; /* lb/ac of nitrogen, or ton/ac of litter */
} ls_field_cap;
static inline bool ls_field_cap_holds(const ls_field_cap *c, ls_date day) {
    const ls_window *days = &c->cap->between.days;
    return c->applies && day >= days->from && day <= days->to;
}

/* Days between spreading and a date, and the date after spreading on some day. */
typedef struct {
    long days;                 /* 0: none is asked for */
    ls_date day;               /* the earliest; LS_NO_DATE: no day of spreading is known, or no days asked for */
    bool given;                /* by the farm file: a limit; else a published caution */
    const char *source, *cite; /* of a caution: the id of its source; where in it, else the id */
    bool in_case;              /* the file does not say whether the caution concerns the field */
    bool longer;               /* a caution that no limit of the farm file is as long as */
    ls_line line;              /* the days as a line; LS_NO_LINE from ls_agronomy_earliest */
} ls_interval;

/* What may happen on a field how long after spreading: all pages ask here. The farm file's days are the plan's limit
 * and govern; a published caution governs where the file gives none, and stands beside a limit that it would have
 * longer, each with its name. Grazing: days_before_grazing, else 21 days off for cattle where the field is grazed or a
 * pasture. Harvest: days_before_harvest, else of organic food (grown_for) 120 days if the part that is eaten lies in or
 * on the soil, 90 if not (7 CFR 205.203(c)(1)). */
typedef struct {
    ls_interval grazing, harvest;
    /* The cautions themselves: of a field that no cattle are told of, in case; of organic food in
     * case where food is grown and the file does not say for whom. */
    ls_interval cattle, organic_on_soil, organic_off_soil;
} ls_earliest;

/* May cattle or sheep eat what grows on the field? Not a crop that is known to be another, unless
 * the file has animals there. */
bool ls_agronomy_for_stock(const ls_field *f);
/* Earliest dates of a field after spreading on a day (LS_NO_DATE: only the days). */
ls_earliest ls_agronomy_earliest(const ls_reference *r, const ls_field *f, ls_date day);
/* The same with its days as lines, keys led by prefix: made where the worksheet has none yet. */
ls_earliest ls_agronomy_earliest_lines(ls_worksheet *w, const char *prefix, const ls_reference *r, const ls_field *f,
                                       ls_date day);

/* A field. LS_NO_LINE: none, or not known. */
typedef struct {
    const ls_buyer *buyer;
    const ls_field *field;
    const char *slug; /* "larkspur_hay.upper_meadow" */
    ls_line area, spreadable;
    size_t setbacks_n;
    ls_field_setback *setbacks; /* in the order of the file */
    size_t ledger_n;
    ls_field_ledger *ledger;             /* by year */
    LS_LIST(ls_field_carryover) carried; /* by year */
    ls_line banked;                      /* P2O5 of earlier years not yet taken off, by the ledger */
    /* P2O5 the rating allows, and what of it may go on now: none while some is banked, else all. */
    ls_line phosphate, phosphate_left;
    ls_line phosphate_litter; /* the same that may go on now in litter: less that of bought fertilizer */
    size_t caps_n;
    ls_field_cap *caps;
    LS_LIST(ls_window) outside;    /* days it may be spread and no cap that applies holds */
    ls_date last_day;              /* on which it may be spread; LS_NO_DATE: not known */
    ls_earliest earliest;          /* after spreading on that day */
    ls_line soil_P, soil_K;        /* soil test, elements, lb/ac */
    const char *P_class, *K_class; /* by the laboratory or the soil table; NULL: not known */
    size_t credit_n;
    ls_credit *credit; /* one by one */
    /* Credits together; need less these, at least 0. */
    ls_line need[LS_FIELD_NUTRIENTS], credits[LS_FIELD_NUTRIENTS], left[LS_FIELD_NUTRIENTS];
    ls_line removal_P2O5; /* lb/ac the harvest removes in a year, or grazing animals keep */
    /* What nitrogen counts by for lack of a row for the field's delay or weather, in plain words;
     * NULL: the tables have it. */
    const char *stand_in;
    /* One per lot of the estimate, in its order, by the first spreader, those by others behind; the same of the litter
     * of the lot that lies in the stack: of that of earlier years (its lot has its own analysis) and of this one's the
     * least; [ls_farm.stacked] of earlier years' litter, by the first spreader. */
    size_t n;
    ls_rate *rates;
    const ls_rate *stacked, *earlier;
    const size_t *spreader_of;           /* [truck of the farm] 0: the first */
    const struct ls_agronomy_plot *plot; /* of the room's own */
    /* In plain words: no rating, an old soil test, a cap above 3 ton/ac, ... */
    LS_LIST(const char *) flags;
} ls_field_rates;

/* The rate of a lot of the estimate by a kind of truck of the farm; of what lies in the stack. */
static inline const ls_rate *ls_field_rate(const ls_field_rates *r, size_t lot, size_t truck) {
    return &r->rates[r->spreader_of[truck] * r->n + lot];
}
static inline const ls_rate *ls_field_stacked_rate(const ls_field_rates *r, size_t lot, size_t truck) {
    return &r->stacked[r->spreader_of[truck] * r->n + lot];
}

typedef struct ls_agronomy ls_agronomy;

/* What all fields share: the tables the farm names, plant-available N per ton of each analysis at each delay and
 * weather that occurs. A table that the farm names and that does not exist was refused by the farm room. Lines of this
 * stay in the worksheet. Lives in the worksheet's arena. NULL if a table that the farm names cannot serve it: the
 * mistake is in the farm's diag. Litter without a lab report is drawn here, with the estimate's seed and draws. */
ls_agronomy *ls_agronomy_new(ls_worksheet *w, const ls_reference *r, const ls_estimate *e);

/* The lines of one field, each key led by the field's slug; made once: before it is asked for
 * again, the worksheet must be cut back to where it was before the call (the result stays, its
 * lines do not). NULL if something is lacking that the rates need (a nitrogen need, the removal of
 * the crop): the mistake is in the farm's diag. Rate = the least of the limits (25 Pa. Code 83.293:
 * the lesser of the nitrogen and the phosphorus rate; nitrogen rate = (need - residual
 * - other nitrogen) / available nitrogen per ton), in whole steps of the spreader. */
const ls_field_rates *ls_agronomy_field(ls_agronomy *g, const ls_buyer *b, const ls_field *f);
/* What may go on of a lot on one day, by the caps that hold on it, whatever a spreader can do; made
 * where the worksheet has no such line yet. */
ls_line ls_agronomy_limit_on(ls_worksheet *w, const ls_field_rates *f, const ls_rate *rate, ls_date day);
/* The limits and the rate on the field of litter that no lot of the estimate is, by what a ton of it holds, spread as
 * that rate is; its slug leads the keys of its lines, so once for each. NULL: the mistake is in the farm's diag. */
const ls_rate *ls_agronomy_rate_of(ls_agronomy *g, const ls_field_rates *f, const ls_rate *like, const ls_analysis *a);
/* Plant-available N in a ton of a load, as it was worked in by the log; else rate->pan. */
ls_line ls_agronomy_pan(const ls_agronomy *g, const ls_field *f, const ls_rate *rate, const ls_hauled *load);
/* The last day on which a test of that day is not too old, by an age in base units: of whole years
 * the same day of the calendar. */
ls_date ls_agronomy_good_until(ls_date day, double age);
/* The most copper and zinc on an acre in all. */
ls_line ls_agronomy_metal_most(const ls_agronomy *g, ls_metal metal);
/* What holds for all fields, in plain words: by which tables nitrogen, phosphate and potash count;
 * litter treated with alum. */
size_t ls_agronomy_notes(const ls_agronomy *g, const char *const **notes);

/* The class of a soil test by a table of the kind "soil": element "P" or "K", elemental, in base
 * units of mass per area: "low", "medium", "high", "very high"; a test at the upper bound of a
 * class belongs to it. NULL if the table has no such element. */
const char *ls_soil_class(const ls_table *soil, const char *element, double per_area);
