/* What the files of this room pass to each other while the lines of one house are made. */
#pragma once

#include "littershed/litter.h"

/* Weights, spreads and between-source spread fixed before drawing. */
enum { LS_MOST_METHODS = 32 };

/* A way the dry tons of a house are known, before it is combined with others. */
typedef struct {
    const char *name;
    bool evidence, memory; /* memory: a published figure that is from memory */
    bool as_lies;          /* found wet in this house now, so that it tells the wet tons */
    bool of_element;       /* by what the birds excreted of an element */
    ls_line dry;           /* tons of dry matter of the house */
    ls_line weight;        /* set when combined */
} ls_litter_way;

/* What the haul log tells of a lot. */
typedef struct {
    ls_line tons;    /* hauled; LS_NO_LINE: none */
    ls_line until;   /* hauled when the lot was cleared so far; LS_NO_LINE: nothing told */
    ls_line cleared; /* share of the lot, told with the last load that tells one */
    bool empty;
} ls_litter_gone;

/* A flock and its lines; LS_NO_LINE: not told, not known. */
typedef struct {
    const ls_flock *told;
    ls_worksheet *w;               /* its part */
    ls_line hens, placed;          /* birds; males too */
    ls_line days, bird_days, mean; /* of the stay; since the last cleanout; on an average day */
    ls_line lost, *counts;         /* by a straight line; by counts */
    ls_line weight, over_curve;    /* of a bird at removal; over the published one */
} ls_litter_flock;

/* full_loads.c: what full loads tell of the next: normal in logs, loads in days in litters. */
typedef struct {
    double log_tons;
    size_t litter; /* 0: the one asked for; others are litters like it */
    ls_date day;
    bool at_limit; /* the truck's weight limit: the body holds at least that */
} ls_full_load;

/* Log standard deviations: of loads about their day, counting for df degrees of freedom; of days
 * about their litter; of litters about their mean. */
typedef struct {
    double load, df, day, litter;
} ls_full_load_spreads;

typedef struct {
    double mean, sd; /* of the litter asked for, days and loads averaged out; log tons */
    double load, df; /* one load about its day: Student t of that scale */
    size_t days;     /* of any litter */
} ls_full_loads;

/* The posterior of the nested normal model with known spreads of days and litters and no other word of the mean (Gelman
 * and others, Bayesian Data Analysis, 3rd edition, 2.5 and 5.4: a mean known by its cells counts each with the inverse
 * of its variance), the spread of loads by the scaled inverse chi-square (2.6). n at least 1; sorts the loads. */
ls_full_loads ls_full_loads_of(ls_full_load *loads, size_t n, ls_full_load_spreads spreads);

/* What one kind of truck hauls of a house's litter. */
typedef struct {
    const ls_truck *truck;
    ls_worksheet *w;        /* its part of the house; the house's where there is one kind */
    ls_full_loads fit;      /* of its full loads; without any the usual scatter */
    ls_line full_body;      /* LS_NO_LINE: no body, no load tells it */
    ls_line payload, share; /* share: of all litter; LS_NO_LINE: one kind hauls all, or it none */
    ls_line next_load;      /* what the scale may say of the next full one */
} ls_litter_kind;

typedef struct {
    /* given */
    ls_worksheet *all, *w, *published; /* of the farm; its parts of the house, of such birds */
    ls_arena *arena;
    const ls_farm *farm;
    const ls_reference *reference;
    ls_estimate *estimate; /* for notes and cautions */
    const ls_house *house;
    const char *slug;
    int bird; /* ls_bird of its flocks; 0: none named */

    /* birds.c; LS_NO_LINE without flocks */
    ls_litter_flock *flocks;
    ls_line bird_days, placed; /* since the last cleanout; males too */

    /* growth.c; NULL: grown birds */
    const struct ls_litter_growth *growth;

    /* feed.c */
    ls_line feed; /* eaten since the last cleanout; LS_NO_LINE: not known */

    /* bedding.c */
    ls_line bedding; /* dry lb left of it; LS_NO_LINE: none */
    ls_line in_bedding[LS_ELEMENTS];

    /* balance.c; LS_NO_LINE: what was eaten or sold of it is not given */
    ls_line eaten[LS_ELEMENTS], in_eggs[LS_ELEMENTS], in_growth[LS_ELEMENTS];
    ls_line dropped[LS_ELEMENTS]; /* eaten less eggs and growth */

    /* balance.c; LS_NO_LINE, NULL: no figure */
    ls_line excreted[LS_ELEMENTS], kept[LS_ELEMENTS];
    const ls_figure *kept_share[LS_ELEMENTS];
    const ls_source *excreted_by[LS_ELEMENTS]; /* of the published figure */
    bool by_balance[LS_ELEMENTS];              /* excreted is dropped; else published */

    /* moisture.c; [zone] LS_NO_LINE where not surveyed */
    ls_line zone_volume[LS_ZONES], zone_wet[LS_ZONES];
    bool surveyed; /* every zone has a depth */
    ls_line moisture;
    ls_line zone_moisture[LS_ZONES];

    /* lab.c */
    ls_analysis *analysis;
    ls_analysis **side_analysis;   /* [side] of its own report; NULL: the house's */
    ls_line lab_moisture;          /* LS_NO_LINE: no report, or none in it */
    ls_line lab_moisture_sampling; /* of several reports; LS_NO_LINE: as for one */
    ls_line lab_dry[LS_NUTRIENTS]; /* in dry litter, by the house's or its sides' reports */

    /* droppings.c; LS_NO_LINE: no flock, no published figure of its birds */
    ls_line excreted_dry; /* dry matter excreted */
    ls_line pool_ratio;   /* dry droppings over feed, published */
    ls_line pooled;       /* dry droppings by it, houses in general */
    double pool_variance; /* of houses in general about it, on the log scale */

    /* content.c: published content of dry litter, of its droppings; LS_NO_LINE: reported, none */
    ls_line content[LS_NUTRIENTS], in_droppings[LS_NUTRIENTS], ammonium_share;
    ls_line found_again[LS_ELEMENTS], dry_found; /* found.c */

    ls_line out; /* dry matter taken out before; LS_NO_LINE: none */

    size_t ways_n;
    ls_litter_way ways[LS_MOST_METHODS];
    ls_line prior, prior_weight; /* LS_NO_LINE: no published method applies */
    ls_line prior_without;       /* the same, what birds excrete of P and K not asked, unbounded */
    double prior_scale;          /* log scale, for weighing it against evidence */
    ls_line own_evidence;        /* evidence of this house alone, pooled; LS_NO_LINE: none */
    ls_line made;                /* dry tons made since the last cleanout, taken out or not */
    ls_line made_without;        /* the same, what birds excrete of P and K not asked */
    ls_line dry, wet;            /* tons of the house */
    ls_line weighed;             /* LS_NO_LINE: not weighed as a house */

    /* payload.c; LS_NO_LINE without a truck */
    ls_line loose_density;     /* always there */
    ls_line payload, one_load; /* payload: of several kinds the mean of a trip */
    ls_litter_kind *kinds;     /* [truck of the farm] */

    /* hauled.c, by lot of the house */
    ls_litter_gone *gone;
    ls_line *share; /* of the house; LS_NO_LINE: it has one lot */
} ls_litter_house;

/* ---- house.c ---- */

/* A note in plain words for the reader of the estimate, told once; a caution. */
void ls_litter_note(ls_litter_house *h, const char *format, ...) __attribute__((format(printf, 2, 3)));
void ls_litter_caution(ls_litter_house *h, const char *id, const char *source, const char *format, ...)
    __attribute__((format(printf, 4, 5)));
/* ", from memory", ", common practice"; "" for a figure of a source. */
const char *ls_litter_status(const ls_figure *f);
/* A figure of the table of practice; a factor of median 1 whose log sd is such a figure. */
const ls_figure *ls_litter_practice(const ls_litter_house *h, const char *row);
ls_line ls_litter_factor(const ls_litter_house *h, ls_worksheet *w, const char *key, const char *label,
                         const char *row);
/* Of an element: "nitrogen", ...; the nutrient of litter that holds it; what takes one to the other
 * (NULL: they are the same), and that as a line of the farm. */
const char *ls_litter_element_word(int element);
int ls_litter_element_nutrient(int element);
const ls_figure *ls_litter_oxide(const ls_litter_house *h, int element);
ls_line ls_litter_oxide_per(ls_litter_house *h, int element);
/* A bound of a table, NULL if it has none; where it comes from, in words; a caution if the line is
 * below "low" or above "high" of a row. */
const ls_figure *ls_litter_bound(const ls_litter_house *h, const char *kind, const char *row, const char *column);
const char *ls_litter_source(const ls_figure *f);
void ls_litter_query(ls_litter_house *h, const char *id, const char *what, ls_line line, const char *kind,
                     const char *row);
/* What was read off in the house, by the usual scatter of such readings (a row of practice). */
ls_line ls_litter_readings(ls_litter_house *h, const char *key, const char *label, const char *unit,
                           const ls_quantity *q, const char *row);
/* A moisture kept within 0 to 95 %: a draw beyond is no litter. */
ls_line ls_litter_kept_within(ls_litter_house *h, ls_worksheet *w, const char *key, const char *label, ls_line found);
/* A moisture told, kept so: no less sure than it and the published one together make it. */
ls_line ls_litter_told_moisture(ls_litter_house *h, ls_worksheet *w, const char *key, const char *label,
                                const ls_quantity *q, const ls_figure *published);
/* What houses of a farm share of a published figure x the part of each house; and +: for shares
 * that are counted in points. own: a row of the table of practice. */
ls_line ls_litter_own_part(ls_litter_house *h, ls_worksheet *w, const char *key, const char *label, ls_line shared,
                           const char *own, bool points);

/* ---- the floor, by zone ---- */

bool ls_litter_has_zone(const ls_litter_house *h, int zone);
bool ls_litter_has_size(const ls_litter_house *h);
/* Its share of the floor; its area (0: the whole floor). */
ls_line ls_litter_floor_share(ls_litter_house *h, int zone);
ls_line ls_litter_area(ls_litter_house *h, int zone);

/* ---- growth.c: a bird day by day of its age ---- */

typedef struct ls_litter_growth {
    size_t days;                         /* the last day */
    size_t end;                          /* the last day with a published feed */
    double *weight, *upkeep, *gain;      /* lb: on that day; feed eaten by then to live, and to grow. days + 1 places */
    const ls_figure *last_weight, *feed; /* the published figures they go by */
} ls_litter_growth;
/* NULL: birds that come grown. */
const ls_litter_growth *ls_litter_growth_of(ls_litter_house *h);
/* lb of feed a bird times as heavy as the curve eats by a day; lb-days of live weight by it. */
double ls_litter_feed_to(const ls_litter_growth *g, size_t day, double times);
double ls_litter_live_days(const ls_litter_growth *g, size_t day);

/* ---- published.c ---- */

/* A figure of the table of birds, NULL if it has none. */
const ls_figure *ls_litter_bird_figure(const ls_litter_house *h, const char *column);
/* The published moisture of litter kept as told (NULL: as the house's is). */
const ls_figure *ls_litter_moisture_figure(const ls_litter_house *h, const char *manure);
/* What houses of a farm share of a published figure: its spread less own, the standard deviation of
 * each house's own part (in base units). */
ls_line ls_litter_shared_part(ls_worksheet *w, const char *key, const char *label, const char *unit, const ls_figure *f,
                              double own);
/* A cell of a row as a line (LS_NO_LINE: the row has none); does the row tell of manure kept as in
 * this house; the row for it that has a column, else the default one (NULL: none); feed of the
 * row's own bird per what its figure is given per (see columns.c). w: the row's part. */
ls_line ls_litter_cell(ls_worksheet *w, const ls_row *row, const char *column, const char *label);
bool ls_litter_row_fits(const ls_litter_house *h, const ls_row *row);
const ls_row *ls_litter_default_row(const ls_litter_house *h, const char *kind, const char *column);
ls_line ls_litter_own_feed(ls_litter_house *h, const ls_row *row, ls_worksheet *w);
/* Feed a bird eats in a day; LS_NO_LINE: not published. */
ls_line ls_litter_daily_feed(ls_litter_house *h);
/* How the manure is kept, as told: "belt", "pit", "scraped", "litter"; NULL: not told. */
const char *ls_litter_manure(const ls_litter_house *h);

/* ---- birds.c ---- */

/* First day, and the day after the last. */
typedef struct {
    ls_date from, to;
} ls_litter_days;
/* One count to the next; the last count holds until removal. */
typedef struct {
    ls_litter_days days;
    ls_line before, after;
} ls_litter_stretch;
/* A figure of the farm file that such days make. */
ls_line ls_litter_by_dates(ls_litter_house *h, ls_worksheet *w, const char *key, const char *label, const char *unit,
                           double value, ls_place at, ls_litter_days d);
/* From the j-th count on; 0: from placing. Birds on the way: late: how near to the later one. */
ls_litter_stretch ls_litter_stretch_of(const ls_litter_flock *f, size_t j);
ls_line ls_litter_on_the_way(ls_worksheet *w, const char *key, const char *label, ls_litter_stretch s, ls_line late);
/* Bird-days of a flock between two days, as a line "bird_days" of w. */
ls_line ls_litter_bird_days(ls_litter_house *h, const ls_litter_flock *f, ls_worksheet *w, ls_date from, ls_date to);

/* ---- feed.c ---- */

/* The i-th feed of a flock (from 0), as far as it was eaten since the last cleanout (LS_NO_LINE:
 * none of it was); the part of w for it, w itself for the only feed. */
ls_line ls_litter_phase(ls_litter_house *h, const ls_litter_flock *f, size_t i);
ls_worksheet *ls_litter_of_phase(const ls_litter_flock *f, ls_worksheet *w, size_t i);
/* x of one flock for all that are told as alike; x itself if there is one. */
ls_line ls_litter_times(const ls_litter_flock *f, ls_worksheet *w, const char *key, const char *label, const char *unit,
                        ls_line x);
/* Feed that the usual bird eats in its stay, lb/bird. */
ls_line ls_litter_usual_feed(ls_litter_house *h);

/* ---- bedding.c ---- */

/* Usual dry bedding, lb/bird; the share of such bedding that stays. */
ls_line ls_litter_usual_bedding(ls_litter_house *h);
ls_line ls_litter_bedding_stays(ls_litter_house *h);
/* Dry tons of droppings, and the bedding that is left. */
ls_line ls_litter_with_bedding(const ls_litter_house *h, ls_worksheet *w, const char *key, const char *label,
                               ls_line droppings);
/* Dry litter less its bedding (LS_NO_LINE: none), no less than a twentieth of it: droppings. of:
 * the litter, in words. */
ls_line ls_litter_less_bedding(ls_worksheet *w, const char *of, const char *rest_label, const char *label,
                               ls_line litter, ls_line bedding);

/* ---- sides.c, payload.c, hauled.c ---- */

size_t ls_litter_lots_of(const ls_house *house);
const ls_side *ls_litter_side(const ls_house *house, size_t lot); /* NULL: the whole house */
/* The part of a lot, of the side's name. */
ls_worksheet *ls_litter_lot_part(const ls_litter_house *h, size_t lot);
/* The part of a kind of truck in the farm's lines; its volume; the most it may carry by weight. */
ls_worksheet *ls_litter_truck_part(const ls_litter_house *h, const ls_truck *truck);
ls_line ls_litter_body(const ls_litter_house *h, const ls_truck *truck);
ls_line ls_litter_weight_limit(const ls_litter_house *h, const ls_truck *truck);
/* Loose density, and what a full truck holds, by the loads over the scale too. */
void ls_litter_payload(ls_litter_house *h);
/* Out of its house, of the lot of that code. */
bool ls_litter_load_is_of(const ls_hauled *load, const char *code);
/* How well loads are judged that go over no scale: one factor of the farm. */
ls_line ls_litter_by_eye(ls_litter_house *h);
/* What the haul log tells: the litter made, once a lot is cleared or a share of it; litter of the
 * house beside its cleared sides, none below nothing. */
ls_line ls_litter_by_loads(ls_litter_house *h);
ls_line ls_litter_beside_cleared(ls_litter_house *h);

/* ---- survey.c ---- */

/* As it lies in the house: measured, else by the pail, else published; loose before any load was
 * weighed, a line of that key. */
ls_line ls_litter_in_place(ls_litter_house *h);
ls_line ls_litter_loose_before(ls_litter_house *h, const char *key, const char *label);

/* ---- already_out.c ---- */

/* Full loads that went over no scale, of the truck of that name: tons, with that label. */
ls_line ls_litter_by_full_loads(ls_litter_house *h, ls_worksheet *w, const char *label, const ls_count *told,
                                ls_name of);
/* Dry matter of what was taken out once, or so many times alike, with keys that begin with prefix;
 * of cake at the moisture of cake. */
ls_line ls_litter_taken(ls_litter_house *h, const ls_already_out *taken, ls_worksheet *w, bool cake);
/* What is left of dry matter made since the last cleanout: less what was taken out, never below
 * next to nothing; made itself if nothing was. key leads the keys of its lines. */
ls_line ls_litter_left(ls_litter_house *h, const char *key, const char *label, ls_line made);

/* ---- cleanout.c, moisture.c ---- */

/* Dry tons by the cleanouts before; LS_NO_LINE if they are not given. */
ls_line ls_litter_by_cleanouts(ls_litter_house *h);
/* Moisture of the latest cleanout that tells one; LS_NO_LINE: none does. */
ls_line ls_litter_cleanout_moisture(ls_litter_house *h);
/* Dry share of the litter. */
ls_line ls_litter_solids(ls_litter_house *h);
/* The farm's layers of which nobody tells how their manure is kept: asked first of all. */
void ls_litter_ask_manure(ls_worksheet *w, ls_estimate *e);

/* ---- lab.c ---- */

/* Every lot has a report; the content of litter without one. */
bool ls_litter_all_reported(const ls_litter_house *h);
void ls_litter_publish(ls_litter_house *h, const ls_line *per_dry);

/* ---- combine.c ---- */

/* One more way to know the dry litter made; one that gives none is left out (NULL), with a note. */
ls_litter_way *ls_litter_add_way(ls_litter_house *h, const char *name, bool evidence, ls_line made);
/* A published one, with its weight among those; figure: what is published of it. */
void ls_litter_add_published(ls_litter_house *h, const char *name, ls_line figure, ls_line made, ls_line weight);

/* Figures of the same thing, with their spreads on the log scale. */
typedef struct {
    size_t n;
    const char *name[LS_MOST_METHODS + 1];
    ls_line x[LS_MOST_METHODS + 1], weight[LS_MOST_METHODS + 1];
    double scale[LS_MOST_METHODS + 1];
} ls_litter_opinions;
void ls_litter_opine(ls_litter_opinions *o, const char *name, ls_line x, double scale);
/* Weights by the inverses of their squared scales: lines KEY-i from first on, labeled. */
void ls_litter_give_weights(ls_litter_opinions *o, ls_worksheet *w, const char *key, size_t first, const char *label);

/* ---- droppings.c, content.c, prior.c, balance.c ---- */

/* Is the source in the pool of published droppings already? */
bool ls_litter_pool_asks(const ls_litter_house *h, const ls_source *source);
/* Log variance of what one house gets, where that of houses in general is mean: what houses alike
 * differ by comes to it, which means do not show; sources that agree by luck stay as wide as a
 * single one. How far this house lies from published droppings: a factor of such a variance. */
double ls_litter_predictive(const ls_litter_house *h, double mean);
ls_line ls_litter_house_factor(ls_litter_house *h, double variance);
/* lb per lb of dry droppings, by a source not asked for their tons already; LS_NO_LINE. */
ls_line ls_litter_content_beside(ls_litter_house *h, int nutrient);
/* Dry litter by what was excreted of an element and the laboratory's content; LS_NO_LINE. */
ls_line ls_litter_by_element(ls_litter_house *h, int element);
/* Excreted and kept, as the oxide. */
ls_line ls_litter_kept_oxide(ls_litter_house *h, int element);
/* Where the figure of H.excreted.E comes from, in words. */
const char *ls_litter_excreted_source(const ls_litter_house *h, int element);

/* ---- the steps of an estimate, in the order in which they are taken ---- */

void ls_litter_shares(ls_litter_house *h); /* of each lot, as lines in h->share */
void ls_litter_hauled(ls_litter_house *h); /* loads gone */
void ls_litter_birds(ls_litter_house *h);
void ls_litter_feed(ls_litter_house *h);
void ls_litter_bedding(ls_litter_house *h);
void ls_litter_balance(ls_litter_house *h);
void ls_litter_excreted(ls_litter_house *h);
void ls_litter_survey(ls_litter_house *h);
void ls_litter_analysis(ls_litter_house *h);
void ls_litter_moisture(ls_litter_house *h);
void ls_litter_dry_basis(ls_litter_house *h); /* reported figures on the dry matter */
void ls_litter_already_out(ls_litter_house *h);
void ls_litter_droppings(ls_litter_house *h); /* published ways, and their pool */
void ls_litter_content(ls_litter_house *h);   /* published content */
void ls_litter_prior(ls_litter_house *h);     /* the pool, and what P and K excreted tell */
void ls_litter_evidence(ls_litter_house *h);
/* The house's own evidence in one line (for its sisters). */
void ls_litter_own_evidence(ls_litter_house *h);

void ls_litter_sisters(ls_litter_house *h, const ls_litter_house *houses, size_t n);
void ls_litter_combine(ls_litter_house *h);
void ls_litter_settle(ls_litter_house *h); /* content of litter without a report */
void ls_litter_found_again(ls_litter_house *h);
void ls_litter_cautions(ls_litter_house *h);

void ls_litter_lots(ls_litter_house *h, ls_lot *lots);
/* What became of the nutrients, once the lots are known. */
void ls_litter_account(ls_litter_house *h, const ls_lot *lots, size_t n);
/* Fertilizer value per ton of the farm's litter; sets estimate->value. */
void ls_litter_value(ls_worksheet *w, const ls_reference *r, ls_estimate *e);
/* estimate.c: all lines of the farm, nothing drawn yet; NULL if something is missing (noted).
 * points.c: the draws. caution.c: what is found again of what was excreted, once it is drawn. */
ls_estimate *ls_litter_lines(ls_worksheet *w, const ls_farm *f, const ls_reference *r, uint64_t seed, size_t draws);
void ls_litter_points(ls_worksheet *w, ls_estimate *e);
void ls_litter_query_found(ls_worksheet *w, ls_estimate *e);
