/* agronomy: what the files of this room share. Private. */
#pragma once

#include "littershed/agronomy.h"

/* ---- shared by all fields; these lines stay in the worksheet ---- */

/* The chance that a figure is passed, by its draws: at rising values, from its middle upwards. */
enum { LS_AGRONOMY_BODY = 50, LS_AGRONOMY_TAIL = 50, LS_AGRONOMY_GRID = LS_AGRONOMY_BODY + LS_AGRONOMY_TAIL + 1 };
typedef struct {
    double at[LS_AGRONOMY_GRID], above[LS_AGRONOMY_GRID];
} ls_agronomy_odds;

/* What a ton of litter holds of one thing that a limit is reckoned by. */
typedef struct {
    ls_line stated;         /* the figure of the value pass */
    bool reported;          /* by a laboratory: the stated figure is used as it is */
    ls_line ninety, middle; /* points of its draws; LS_NO_LINE if reported */
    ls_agronomy_odds *odds; /* NULL if reported */
} ls_agronomy_content;

/* How litter is spread: days until it is worked in, and the weather. */
typedef struct {
    long days;        /* or LS_NEVER */
    int weather;      /* ls_weather */
    const char *slug; /* "never.cool_wet" */
    /* One of three forms; the lines of the others are LS_NO_LINE. */
    ls_line organic, ammonium; /* shares of organic and of ammonium N that count */
    ls_line total;             /* share of all N that counts */
    ls_line per_ton;           /* usable N in a ton, whatever it holds */
    const char *stand_in;      /* what is used for a delay or weather that a table lacks; NULL: nothing
                                  is lacking */
    LS_LIST(const char *) flags;
} ls_agronomy_spreading;

typedef struct {
    const ls_analysis *analysis;
    ls_line ammonium, organic; /* N in a ton; LS_NO_LINE where nothing asks for them */
    ls_agronomy_content *pan;  /* one for each spreading */
    ls_agronomy_content phosphate;
    ls_agronomy_content nitrogen; /* all of it; drawn only where a cap counts it */
    ls_line metals[LS_METALS];    /* shares; LS_NO_LINE: not known */
    bool metals_reported[LS_METALS];
    LS_LIST(const char *) flags; /* what was taken for lack of a figure */
} ls_agronomy_litter;

/* A range of rates and its step: of trucks alike; LS_NO_LINE: not given. */
typedef struct {
    const ls_truck *truck; /* the first of them; NULL: the farm names none */
    ls_line least, most, step;
} ls_agronomy_spreader;

struct ls_agronomy {
    ls_worksheet *w;
    ls_arena *arena; /* the worksheet's */
    const ls_reference *reference;
    const ls_estimate *estimate;
    const ls_farm *farm;
    const ls_table *nitrogen, *carryover;
    const ls_table *removal, *ammonium, *soil; /* NULL: the farm names none */
    const ls_figure *cap;
    ls_line soil_age, analysis_age, range_top, tolerance; /* inputs of flags */
    ls_line metals_most[LS_METALS];
    ls_line none, no_acres, one, one_year; /* by definition */
    size_t spreaders_n;
    ls_agronomy_spreader *spreaders;
    size_t *spreader_of; /* [truck of the farm] */
    size_t spreadings_n;
    ls_agronomy_spreading *spreadings;
    size_t litters_n;
    ls_agronomy_litter *litters;
    size_t *litter_of;                   /* [lot] */
    size_t stacked_from;                 /* behind those of lots: [farm->stacked] in the stack */
    ls_lot *stacked;                     /* [farm->stacked] the lot with that analysis */
    LS_LIST(ls_agronomy_litter) others;  /* of no lot */
    ls_line counted[LS_FIELD_NUTRIENTS]; /* share of P2O5 and K2O that counts in the first year;
                                            LS_NO_LINE: all, and for N */
    LS_LIST(const char *) notes;
    struct ls_agronomy_shop *shop; /* supplement.c */
    LS_LIST(ls_line) released;     /* [year - 1] share of organic N, by the carryover table */
};

/* spreading.c: how litter is spread, as far as it occurs. availability.c: plant-available N of each
 * analysis by each of them. False: a mistake is noted. */
bool ls_agronomy_spreadings(ls_agronomy *g);
bool ls_agronomy_litters(ls_agronomy *g);
bool ls_agronomy_fill(ls_agronomy *g, ls_agronomy_litter *l, const ls_analysis *a);
/* availability.c: shares of phosphate and potash that count; and notes on what counts. */
void ls_agronomy_counted(ls_agronomy *g);
/* supplement.c: the products to buy from. */
void ls_agronomy_open_shop(ls_agronomy *g);
/* How litter is spread on a field: one of g->spreadings. */
size_t ls_agronomy_spreading_of(const ls_agronomy *g, const ls_field *f);

/* metal.c: copper and zinc of each analysis. */
void ls_agronomy_metals(ls_agronomy *g);

/* odds.c: the points and odds of everything that no laboratory reported. */
void ls_agronomy_draw(ls_agronomy *g);
/* The share of draws in which a content lies above at; at is not below the middle. */
double ls_agronomy_chance(const ls_agronomy_odds *odds, double at);

/* ---- of one field ---- */

typedef struct ls_agronomy_plot {
    ls_agronomy *g;
    const ls_field *field;
    ls_field_rates *out;
    ls_worksheet *w; /* the part of the field */
    size_t spreading;
    ls_line phosphate;     /* P2O5 that may go on by the rating and the ledger; LS_NO_LINE: they set no
                              limit */
    const ls_row *removal; /* by which the harvest removes phosphate; NULL: by none */
    ls_line cap;
    ls_line closed;  /* 0, where there are no acres left; else LS_NO_LINE */
    size_t spreader; /* whose rates are made */
} ls_agronomy_plot;

/* Its lines of one litter and the spreader. */
static inline ls_worksheet *ls_agronomy_part(const ls_agronomy_plot *p, const ls_agronomy_litter *litter) {
    return p->spreader == 0 ? ls_part(p->w, NULL, "%s", litter->analysis->slug)
                            : ls_part(p->w, NULL, "%s.spreader-%zu", litter->analysis->slug, p->spreader + 1);
}

/* Lines of the field. False: a mistake is noted in the farm's diagnostics. */
void ls_agronomy_acres(ls_agronomy_plot *p);
void ls_agronomy_need(ls_agronomy_plot *p);
/* soil.c: the soil test and its classes; what a laboratory recommends for phosphate and potash. The
 * need of nitrogen is made before. */
void ls_agronomy_soil(ls_agronomy_plot *p);
void ls_agronomy_other_needs(ls_agronomy_plot *p);
void ls_agronomy_credits(ls_agronomy_plot *p);
/* Does something besides the litter give the field that nutrient? */
bool ls_agronomy_gives(const ls_agronomy_plot *p, int nutrient);
bool ls_agronomy_removal(ls_agronomy_plot *p);
/* A year's removal of a nutrient by the row of the field: yield x what a unit of it holds, and of
 * grazed land the share that animals keep. */
ls_line ls_agronomy_removed(const ls_agronomy_plot *p, int nutrient);
/* ledger.c: while some of earlier years' phosphate is left, nothing of what the rating allows may go on. */
void ls_agronomy_ledger(ls_agronomy_plot *p);
/* Does the field wait for crops to take up phosphate of earlier years? For words only. */
bool ls_agronomy_waits(const ls_agronomy_plot *p);
/* metal.c: the metals that go on at a rate, as cautions. */
void ls_agronomy_metals_on(const ls_agronomy_plot *p, const ls_agronomy_litter *litter, ls_worksheet *w, ls_rate *rate);
/* ledger.c: how long what goes on lasts; fills covered and again. */
void ls_agronomy_covered(const ls_agronomy_plot *p, ls_worksheet *w, ls_rate *rate);
/* window.c: the caps that hold on some days only, and the days outside them. */
void ls_agronomy_windows(ls_agronomy_plot *p);
/* Does a cap count all nitrogen, on a field that it applies to? */
bool ls_agronomy_counts_total(const ls_field *f);
/* interval.c: the earliest dates after the last day of spreading. */
void ls_agronomy_dates(ls_agronomy_plot *p);
/* What finishes the need after the litter of a rate whose balance is made. */
void ls_agronomy_supplement(const ls_agronomy_plot *p, ls_worksheet *w, ls_rate *rate);
/* What a limit of the field goes by. */
ls_line ls_agronomy_used(const ls_field *f, const ls_agronomy_content *c);
/* The litter of one analysis on the field; all but rate.lot. */
ls_rate ls_agronomy_rate(const ls_agronomy_plot *p, const ls_agronomy_litter *litter);

/* worth.c: the rate with what a ton is worth on the field. */
ls_rate ls_agronomy_worth(const ls_agronomy_plot *p, const ls_agronomy_litter *litter, ls_rate of);

/* say.c: a line's number in its unit, of three digits, for words. */
const char *ls_agronomy_number(ls_agronomy *g, ls_line line);
/* "aces-889", or "common practice". */
const char *ls_agronomy_source(const ls_source *source, ls_status status);
void ls_agronomy_flag(ls_agronomy_plot *p, const char *format, ...) __attribute__((format(printf, 2, 3)));
/* The year of the crop that earlier litter was for. */
static inline long ls_agronomy_crop_of(const ls_earlier *e) {
    return LS_GIVEN(e->for_crop) ? e->for_crop.n : e->year.n;
}

/* flag.c: the ages that tests may have, the top of the range, the tolerance; lines that flags print. */
void ls_agronomy_flag_lines(ls_agronomy *g);
/* Flags of what the file does not say and of what is old; once all lines of the field are made. */
void ls_agronomy_flags(ls_agronomy_plot *p);
/* interval.c: of the dates of the field. */
void ls_agronomy_flag_dates(ls_agronomy_plot *p);

/* Note a mistake that stands at a place of the farm file. */
#define LS_AGRONOMY_WRONG(g, at, hint, ...) ls_diag_add((g)->farm->diag, LS_ERROR, (at), (hint), __VA_ARGS__)

/* A yield, per unit of which a figure counts, gives lb/ac. */
bool ls_agronomy_fits(const ls_figure *per_unit, const ls_quantity *yield);
/* The yield of the field as a line. */
ls_line ls_agronomy_yield(const ls_agronomy_plot *p);
