/* litter: birds, feed, bedding and evidence make tons, moisture and nutrients of each lot. */
#pragma once

#include "littershed/farm.h"
#include "littershed/reference.h"
#include "littershed/worksheet.h"

/* A line with the 10, 50 and 90 % points of its draws (base units). line LS_NO_LINE: unknown. */
typedef struct {
    ls_line line;
    double low, mid, high;
} ls_q;

enum { LS_N, LS_NH4N, LS_P2O5, LS_K2O, LS_NUTRIENTS };
/* "N", "NH4-N", "P2O5", "K2O"; and for keys "N", "NH4N", "P2O5", "K2O". */
const char *ls_nutrient_name(int nutrient);
const char *ls_nutrient_key(int nutrient);

enum { LS_ELEMENT_N, LS_ELEMENT_P, LS_ELEMENT_K, LS_ELEMENTS };
/* "N", "P", "K". */
const char *ls_element_name(int element);

/* One way the tons of a house are known, with the share of one lot. */
typedef struct {
    const char *name; /* source id of a published method; "depth survey", "last cleanout", ... */
    bool evidence;    /* of this house; else published, of houses in general */
    bool memory;      /* published, and its figure is from memory */
    ls_line dry;      /* dry tons of the whole house */
    ls_line weight;   /* exact; published ones sum to 1, those of evidence and the prior too */
    ls_q tons;        /* wet tons of the lot */
} ls_method;

/* Nutrients of litter that share one analysis: the mean of its lab reports, or the published figures of a bird. */
typedef struct {
    const char *slug;              /* key prefix: "north", "north.left" */
    const ls_lab *report;          /* the latest of those averaged; NULL: published figures */
    size_t reports;                /* how many are averaged */
    ls_line solids;                /* dry share of the sample of report on dry basis; LS_NO_LINE */
    bool reported[LS_NUTRIENTS];   /* by the laboratory; else published */
    int bird;                      /* ls_bird of the flocks; 0: none named */
    const char *by;                /* in the stack: the file it is of; NULL: litter of this one */
    ls_line moisture;              /* of the sample; LS_NO_LINE: not told, or no report */
    ls_line per_ton[LS_NUTRIENTS]; /* lb/ton as received; NH4N may be LS_NO_LINE */
    ls_line per_dry[LS_NUTRIENTS]; /* lb/lb of dry matter: of the sample, or of the litter */
} ls_analysis;

/* A lot in one kind of truck. */
typedef struct {
    ls_q payload;      /* tons per trip */
    ls_q next_load;    /* what the scale may say of the next full one */
    ls_q full_loads;   /* if it hauled the whole lot; of several kinds alone */
    ls_line firm;      /* of those */
    bool volume_binds; /* the body is full before the weight limit is met (value pass) */
} ls_lot_kind;

typedef struct {
    const char *name; /* "North/left"; "North" for a house without sides */
    const char *slug; /* "north.left" */
    const char *code; /* upper case ASCII letters, digits and '-': leads the ticket numbers */
    const ls_house *house;
    const ls_side *side; /* NULL: the whole house */
    const ls_analysis *analysis;
    ls_q tons, dry_tons, moisture; /* tons, pounds, loads: of what is still to be hauled */
    ls_q made;                     /* tons hauled or not; line LS_NO_LINE if none are gone */
    ls_line gone;                  /* tons hauled already; LS_NO_LINE: none */
    bool empty;                    /* the log says that all of it is out */
    ls_q per_ton[LS_NUTRIENTS], pounds[LS_NUTRIENTS];
    ls_line loose_density;          /* of the litter once it is moved */
    ls_line house_length;           /* LS_NO_LINE: not given */
    ls_q payload;                   /* tons per trip, of several kinds of truck the mean by what each
                                       hauls; line LS_NO_LINE without a truck */
    ls_lot_kind *kinds;             /* [truck of the farm] */
    ls_line full_loads, trips;      /* F and K, per draw; LS_NO_LINE without a truck */
    ls_line firm, likely, possible; /* whole loads, by simulation; LS_NO_LINE without a truck */
    size_t methods_n;
    ls_method *methods;
    ls_line prior_weight; /* exact; LS_NO_LINE if weighed */
} ls_lot;

typedef struct {
    const char *id, *text, *source; /* source in words */
} ls_caution;
typedef LS_LIST(ls_caution) ls_cautions;

/* What became of an element since the last cleanout, in lb of the element: eaten = eggs + growth +
 * excreted; excreted + bedding = litter + out + lost. */
typedef struct {
    bool by_balance;             /* excreted is what was eaten less eggs and growth */
    ls_line eaten, eggs, growth; /* LS_NO_LINE unless by_balance; eggs too where none are laid */
    const char *source;          /* of excreted, in words */
    ls_line excreted;
    ls_line bedding, out; /* brought in with bedding, taken out before; LS_NO_LINE: none */
    ls_line litter;       /* in the litter of the house, hauled already or not */
    ls_line lost;         /* nitrogen to the air; of the others what is not recovered */
    ls_line lost_share;   /* of what was excreted */
    /* P and K: the share of what was excreted that the litter holds, by all that tells its tons but
     * the element itself; the published share (NULL: none). Line LS_NO_LINE: not known. */
    ls_q found_again;
    const ls_figure *kept_share;
} ls_fate;

typedef struct {
    const ls_house *house;
    bool reported;           /* the litter of every lot by a laboratory */
    bool own;                /* this house's own feed or analysis is in it */
    ls_fate of[LS_ELEMENTS]; /* excreted LS_NO_LINE: nothing is known of this element */
    ls_q dry_found;          /* dry matter found over excreted, bedding taken off; as found_again */
} ls_account;

typedef struct {
    const ls_farm *farm;
    size_t n;
    ls_lot *lots;
    ls_q tons, dry_tons, pounds[LS_NUTRIENTS];
    ls_line gone;                   /* tons hauled already; LS_NO_LINE: none */
    ls_line full_loads, trips;      /* sums of the lots' */
    ls_line firm, likely, possible; /* points of the sums; LS_NO_LINE without a truck */
    ls_line all_firm_chance;        /* share; LS_NO_LINE without a truck */
    ls_line *truck_payload;         /* [truck of the farm] by weight */
    ls_line *truck_gross;           /* [as those] the most it may weigh; LS_NO_LINE: payload is given alone */
    ls_line price[LS_NUTRIENTS];    /* $/lb in fertilizer, the cheapest; LS_NO_LINE: none given */
    ls_line value_per_ton;          /* $/ton; LS_NO_LINE without prices */
    ls_q value;
    LS_LIST(ls_account) accounts; /* of houses with flocks */
    ls_cautions cautions;
    LS_LIST(const char *)
    notes; /* what was assumed where the file is silent, and disagreements, in plain words */
    uint64_t seed;
    size_t draws; /* as drawn */
    int digits;   /* asked for (see ls_draws_needed); 0: as many draws as asked for */
    bool sure;    /* digits were reached */
} ls_estimate;

/* Lines of every house and lot of the farm, and their points from draws (see ls_draw). A missing thing that only
 * estimating needs is noted in the farm's diag and NULL returned. Loads are LS_NO_LINE if the farm names no truck. */
ls_estimate *ls_litter_estimate(ls_worksheet *w, const ls_farm *f, const ls_reference *r, uint64_t seed, size_t draws);
/* The same with as many draws as make the farm's totals (tons, nutrients, trips) sure to so many
 * digits, at most most. */
ls_estimate *ls_litter_estimate_until(ls_worksheet *w, const ls_farm *f, const ls_reference *r, uint64_t seed,
                                      int digits, size_t most);
/* Add what every page of an estimate shows to the list, in the arena: totals of the farm, and of
 * each lot tons, moisture and nutrients. Some are LS_NO_LINE. */
void ls_litter_shown(ls_arena *a, const ls_estimate *e, ls_line_list *list);

/* What one more measurement would do to the range of all loads (tons, where no truck is given). */
typedef struct {
    const char *what;   /* "depth survey" */
    const char *where;  /* name of the house */
    const char *effort; /* in plain words */
    bool loads;         /* the ranges are of trips; else of tons */
    bool outdone;       /* less work in the same house narrows the range more */
    ls_q now, then;
} ls_next;
typedef LS_LIST(ls_next) ls_next_list;

/* Every measurement, made already or not, at its usual precision, as if it came out as the estimate expects: the farm
 * is estimated again with it, from one block of draws. The one that narrows the range most comes first. Of more than
 * three houses those whose tons are widest are looked at, at least one. Adds lines to the worksheet of e. */
ls_next_list ls_litter_next(ls_worksheet *w, const ls_reference *r, const ls_estimate *e);
