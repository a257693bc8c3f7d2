/* books: the inspector's answer: where every ton went, at what rate, and what the records lack. */
#pragma once

#include "littershed/agronomy.h"
#include "littershed/haul.h"
#include "littershed/record.h"

typedef struct ls_books ls_books;

/* Litter of one lot of one file (0: this one) that went one way on a day: a part of a load, or what
 * came out of the stack in one. */
typedef enum {
    LS_WENT_TO_OWN,
    LS_WENT_TO_OTHERS,
    LS_WENT_NOWHERE, /* that the files name */
    LS_WENT_TO_STACK
} ls_dossier_way;
typedef struct {
    size_t file, lot;          /* whose lot, and so whose report, it is; lot: of that file's estimate */
    const char *code;          /* of the lot */
    size_t log, load, part;    /* of the file whose log tells it */
    size_t n;                  /* of that part of the load */
    ls_date day, in;           /* in: into the stack, of what came out of it; LS_NO_DATE */
    bool from_stack, unlogged; /* unlogged: into the stack it never went by the logs */
    bool split;                /* not all of that part of the load */
    ls_dossier_way to;
    double mass;  /* base units */
    ls_line tons; /* the same, in a dossier */
} ls_dossier_piece;

/* One part of a load, as it went. */
typedef struct {
    const ls_buyer *buyer; /* NULL: the stack */
    const ls_field *field;
    ls_line tons;
    ls_line advised; /* ton/ac, the rate of its ticket, else the limit of its day; LS_NO_LINE: no
                        field */
    size_t litters;  /* what it holds: of the stack more than one lot's, if need be */
    const ls_dossier_piece *litter;
} ls_dossier_drop;

typedef struct {
    const ls_hauled *hauled;
    const ls_log_entry *entry;  /* NULL: not known */
    const ls_log_entry *issued; /* that handed its ticket out; NULL: none did */
    ls_issued ticket;           /* by that entry */
    bool astray;                /* it went another way than that */
    const ls_lot *lot;
    ls_line tons;
    size_t n; /* 0: the log does not tell where it went */
    ls_dossier_drop *drops;
} ls_dossier_load;
typedef LS_LIST(ls_dossier_load) ls_dossier_loads;

/* A part of a load on a field, held to the rate of its own lot and the limits of its day. */
typedef struct {
    const ls_dossier_load *load;
    size_t part;
    ls_worksheet *sheet; /* the part with its lines */
    const char *litter;  /* "North/left", "North/left of 2025.yaml, North/left" */
    const ls_rate *rate; /* of its litter, by the report of the file that made it */
    ls_line tons;
    ls_line acres;             /* as logged; else tons over the ticket's rate or the limit, fewer where the
                                  loads of the field together come to more acres than it has */
    ls_line per_acre, limit;   /* ton/ac; what may go on of its lot on its day */
    ls_line ticket;            /* ton/ac, the rate of its ticket; LS_NO_LINE: none was handed out */
    ls_line pan;               /* plant-available N in a ton, as it was worked in */
    ls_line available;         /* plant-available N, lb/ac */
    ls_line phosphate, potash; /* P2O5, K2O, lb/ac, of the litter alone */
    ls_line with_bought;       /* P2O5, lb/ac, that of bought fertilizer with it */
} ls_dossier_application;

/* Litter on a field. An acre is one of the spreadable acres, alike over all of them; or, where the
 * log gives acres of a load, of those covered: of loads without, tons over the rate. Planned: of
 * those that the tons which the plan allots cover at its rate; with none allotted, at the rate. */
typedef struct {
    ls_line tons, acres, per_acre;
    ls_line pounds[LS_FIELD_NUTRIENTS];  /* on the field */
    ls_line on_acre[LS_FIELD_NUTRIENTS]; /* lb/ac */
    ls_line available;                   /* lb/ac of plant-available N */
} ls_dossier_amounts;

/* A field that got litter, or may. LS_NO_LINE where nothing is known or nothing went on. */
typedef struct {
    const ls_buyer *buyer;
    const ls_field *field;
    const ls_field_rates *rates;
    ls_worksheet *sheet;  /* the part with its lines */
    const ls_rate *rate;  /* of all lots that went on it (of all, if none did); NULL: they differ */
    const ls_rate *least; /* of those; NULL: there is no lot */
    LS_LIST(ls_dossier_application) applications;
    ls_line logged;                     /* acres that the log gives in all; LS_NO_LINE: none */
    ls_line needed;                     /* acres that all loads need at their rates; LS_NO_LINE: no load */
    ls_dossier_amounts actual, planned; /* planned: before any load went */
    ls_line phosphate;                  /* P2O5 of all loads on an average acre, that of bought fertilizer with it */
    /* P2O5 of this litter, what the crop takes (by the yield that came, if it is known), what is left then, all on an
     * acre of the whole field, lb/ac. */
    ls_line ledger_on, ledger_removed, ledger_after;
} ls_dossier_field;
typedef LS_LIST(ls_dossier_field) ls_dossier_fields;

/* What the litter of one lot holds that a receiver got. */
typedef struct {
    size_t file, lot;
    const ls_analysis *by;
    ls_line per_ton[LS_FIELD_NUTRIENTS]; /* N, P2O5, K2O */
} ls_dossier_analysis;

/* What a receiver got, by this file's log. */
typedef struct {
    const ls_dossier_load *load;
    const ls_dossier_drop *drop; /* of it */
} ls_dossier_part;
typedef struct {
    const ls_buyer *buyer;
    LS_LIST(ls_dossier_part) loads; /* by day */
    ls_line tons;
    LS_LIST(ls_dossier_analysis) analyses;
} ls_dossier_transfer;

/* A run of a spreader: one of the farm file, or a load whose acres the log gives. Rate found = net
 * weight / area (43,560 ft2 an acre, 2,000 lb a ton); area = distance x swath, or a tarp. */
typedef struct {
    const ls_truck *truck;            /* NULL: not told */
    const ls_dossier_application *of; /* NULL: of the farm file */
    ls_date day;
    ls_line net, area, found;
    ls_line set, off; /* what it was set to or its ticket's rate; found less that, a share of it */
} ls_dossier_run;

/* What runs of the farm file come to, of one truck at one setting. */
typedef struct {
    const ls_truck *truck;
    size_t n;
    ls_line set, mean, off; /* as of a run */
} ls_dossier_setting;

/* How old something was on the newest day on which litter went out by it, or was printed. */
typedef struct {
    const char *item; /* of the audit, if it is too old: "old soil test" */
    const char *what, *of;
    const char *where; /* its date stands: "farm.yaml:12"; of an earlier file "2025.yaml" */
    ls_date date, on;
    ls_line age, limit;  /* days */
    const ls_place *own; /* where the farm file gives the limit; NULL: the usual one */
    bool old, late;      /* late: dated after the first of those days */
} ls_dossier_age;

/* made + opening + unlogged = own + moved + stacked + left + difference */
typedef struct {
    ls_line made, own, moved, stacked, left, accounted, difference;
    ls_line opening, unlogged; /* in the stack from earlier files; out of it, never logged in */
    ls_line stack_in, stack_out;
    ls_line before[3];    /* low, middle, high as before any load */
    ls_line off;          /* middle of that less what was made */
    ls_line trucked;      /* out of the houses by the log */
    bool cleared, scaled; /* all lots are empty; by loads over a scale alone */
} ls_dossier_balance;

/* Litter of one lot of a file in the stack: it goes out by its ticket, else first in, first out. */
typedef struct {
    size_t file, lot;
    ls_line in, out, lying; /* tons; out: of what went in by the logs */
    ls_date first, last;    /* from when to when some of it lay there longest; the newest day, or
                               the day printed, if it is there yet */
    ls_line days;           /* how long that was */
} ls_dossier_pile;

/* What went into a pile and out of it on a day, and what lay there at its end. */
typedef struct {
    size_t pile;
    ls_date day;
    ls_line in, out, lying; /* in, out: LS_NO_LINE: none */
} ls_dossier_stack_day;

/* Litter in the stack, of all files. */
typedef struct {
    LS_LIST(ls_dossier_pile) piles;
    LS_LIST(ls_dossier_stack_day) on; /* by day, then by pile */
    ls_line in, out, lying;           /* tons of all piles; LS_NO_LINE: none */
    ls_line days;                     /* the longest any of it lay there; LS_NO_LINE: none did */
    ls_date first, last;              /* from when to when that was; the day printed, if it is there yet */
    ls_date emptied;                  /* the last day on which some was there; LS_NO_DATE: none ever was */
    bool empty;
} ls_dossier_stack;

/* Tons of a lot as one way of knowing has them. */
typedef struct {
    const char *lot, *method;
    ls_line low, mid, high;
} ls_dossier_method;

/* An entry put right. */
typedef struct {
    const ls_log_entry *now, *was;
    ls_line tons, was_tons; /* 0 now: struck */
    const char *changed;    /* "field: A, was B; ..." of what is not tons; "" */
} ls_dossier_correction;

/* A day on which loads went, out of a house or the stack. */
typedef struct {
    ls_date day;
    size_t loads;
    ls_line tons;
} ls_dossier_day;

/* Books of all files: opening + houses + made = own + moved + lost + closing + left. */
enum {
    LS_PERIOD_OPENING, /* in the stack */
    LS_PERIOD_HOUSES,  /* in the houses */
    LS_PERIOD_MADE,
    LS_PERIOD_OWN,
    LS_PERIOD_MOVED,
    LS_PERIOD_LOST, /* places not told, rests of old litter; less what was never logged in */
    LS_PERIOD_CLOSING,
    LS_PERIOD_LEFT,
    LS_PERIOD_BOOKS
};
enum { LS_PERIOD_MEASURES = 4 }; /* tons; lb of N, P2O5, K2O */
typedef struct {
    const char *words;
    ls_line of[LS_PERIOD_MEASURES];
} ls_dossier_book;

/* The days asked for, or the twelve months to the newest entry, of all files together; each load,
 * flock and field counts once. */
typedef struct {
    const char *birds;      /* name of the kind */
    ls_line placed, housed; /* placed in the months; in a house on a day of them */
} ls_dossier_birds;
typedef struct {
    ls_date from, to; /* both days belong to them; LS_NO_DATE: nothing is logged */
    bool by_option;   /* the days were asked for */
    LS_LIST(ls_dossier_birds) birds;
    ls_line housed; /* of all kinds */
    size_t undated; /* flocks without a day of placing: not counted */
    size_t doubled; /* loads that stand in two files, counted once */
    ls_line out, moved, own, acres, own_acres, used, own_used;
} ls_dossier_months;

/* What a file tells in all. */
typedef struct {
    const char *name;  /* the days on which loads went: "2026-02-16 to 2026-03-02" */
    const char *words; /* the same for a reader */
    const char *file;  /* "this file", "2025.yaml" */
    const ls_farm *farm;
    ls_line birds, out, moved, own, acres, used; /* LS_NO_LINE: none */
} ls_dossier_year;

/* In the order of their weight: past a limit of the plan, the rating or the farm's own file; past a
 * published figure that stands in where the files give none; against what the crew has of its own
 * days; a record that is not there, is, or is not asked for. */
typedef enum {
    LS_EXCEEDED,
    LS_CAUTION,
    LS_NOTE,
    LS_MISSING,
    LS_PRESENT,
    LS_NOT_NEEDED,
    LS_FINDING_STATES
} ls_finding_state;
/* "limit exceeded", "caution", "note", "missing", "present", "not needed". */
const char *ls_finding_state_name(ls_finding_state state);
typedef enum { LS_ABOUT_LIMIT, LS_ABOUT_FARM, LS_ABOUT_TRANSFER, LS_ABOUT_FIELD } ls_about;

#define LS_FIGURE "\001" /* which no name in a file can hold */

/* One thing an inspector asks for, of one field, load or the farm. */
typedef struct {
    ls_about about;
    const char *id;   /* the same in every dossier of the farm; no other has it */
    const char *item; /* the row of the rules, or the limit that was exceeded */
    const char *words;
    const char *required_by;  /* "federal", "state", "good practice"; "limit"; "haul log" */
    const char *cite;         /* NULL: none */
    const char *source;       /* NULL: none */
    bool memory;              /* the rule is from memory */
    bool required;            /* a record: of this farm */
    const char *of;           /* "Larkspur Hay/Upper Meadow", "load NORTH-LEFT-01-Q", "the farm" */
    const char *field;        /* it is about; NULL: about none, or more than one */
    const ls_buyer *receiver; /* of a transfer: it is about him alone; NULL: about the load */
    LS_LIST(long) entries;    /* of the log that it is about */
    ls_finding_state state;
    const char *what; /* what was found, or what is wrong; each LS_FIGURE in it is the next of;
                         names of the files stand behind them */
    struct {
        ls_line line;
        const char *unit;
    } figures[2];
    const char *where; /* "farm.yaml:12", "entry 7"; "": where it is, or where to write it */
    const char *mend;  /* what to write where; NULL: nothing */
    size_t order;
} ls_dossier_finding;
typedef LS_LIST(ls_dossier_finding) ls_dossier_findings;

/* A flock of this file with the litter it made, by bird-days; LS_NO_LINE: its days are not known.
 * Birds lost = birds placed x the share lost, or of counted ones that missing at the last count. */
typedef struct {
    const ls_house *house;
    const ls_flock *flock;
    ls_line made;
    ls_line placed, lost; /* lost LS_NO_LINE: the file does not say */
} ls_dossier_flock;

/* A federal size class of one kind of bird, read one way. */
typedef struct {
    const char *birds;            /* "laying hens, breeders among them" */
    const char *size;             /* "large", "medium", "below medium" */
    ls_line count, large, medium; /* birds; at least so many */
    bool is_large;
} ls_dossier_size;

typedef struct {
    ls_books *books;
    ls_worksheet *sheet; /* the part "dossier" of theirs, with its lines */
    ls_arena *arena;
    const ls_farm *farm;
    const ls_estimate *estimate;
    const ls_log *log;      /* NULL: there is none */
    ls_date printed;        /* LS_NO_DATE: not asked for */
    const ls_books *before; /* as before any load; NULL: none is gone, or it cannot be estimated */
    const ls_plan *plan;    /* as before any load; NULL: it cannot be made */
    const ls_worksheet *plan_sheet;
    ls_dossier_loads loads;
    ls_dossier_fields fields; /* in the order of the files */
    ls_dossier_balance balance;
    LS_LIST(ls_dossier_flock) flocks;
    LS_LIST(ls_dossier_size) sizes;
    bool large, size_open; /* large by one way of reading at least; not by all */
    bool two_readings;     /* breeders as laying hens, and as other chickens */
    LS_LIST(ls_dossier_year) years;
    LS_LIST(ls_dossier_age) ages;
    LS_LIST(ls_dossier_transfer) transfers; /* in the order of the files */
    LS_LIST(ls_dossier_run) runs;           /* those of the farm file first */
    LS_LIST(ls_dossier_setting) settings;
    LS_LIST(ls_dossier_method) methods;
    LS_LIST(ls_dossier_day) days;
    LS_LIST(ls_dossier_correction) corrections; /* in the order of the log */
    ls_dossier_months months;
    ls_dossier_book period[LS_PERIOD_BOOKS]; /* words NULL: nothing is logged */
    LS_LIST(const char *) joins;             /* how earlier fields were matched, and what was left out */
    ls_dossier_findings findings;            /* in the order in which they are told */
    ls_dossier_stack stack;
    LS_LIST(ls_dossier_piece) pieces; /* of all files, a load that stands in two of them once */
} ls_dossier;

/* What a dossier is asked for; LS_NO_DATE: not asked for. */
typedef struct {
    ls_date printed;
    ls_window period;
} ls_dossier_terms;

/* Makes the lines of a dossier, once, and looks through the records: after ls_books_earlier, the estimate, and the
 * rates of a farm with fields. NULL: a field could not be worked out; the mistake is in the diagnostics. */
const ls_dossier *ls_books_dossier(ls_books *books, ls_dossier_terms terms, ls_progress progress);
/* A required record is missing, or a limit was passed. */
bool ls_dossier_falls_short(const ls_dossier *d);

/* Does the day belong to the period? */
static inline bool ls_dossier_covers(const ls_dossier *d, ls_date day) {
    return day >= d->months.from && day <= d->months.to;
}
/* A drop that left the farm for another's field. */
static inline bool ls_dossier_is_own(const ls_buyer *buyer) { return buyer != NULL && buyer->own.yes; }
/* Does bought fertilizer give the field P2O5? */
bool ls_dossier_bought(const ls_dossier_field *f);
bool ls_dossier_is_transfer(const ls_dossier_load *load);
/* "Larkspur Hay/Upper Meadow", "the stack"; of NULL "not known". The first of a field. */
const char *ls_dossier_drop_place(ls_arena *a, const ls_dossier_drop *drop);
const char *ls_dossier_name(ls_arena *a, const ls_buyer *b, const ls_field *f);
/* Of a file (0: this one): its name, and that of a lot of its estimate. */
const char *ls_dossier_file(const ls_dossier *d, size_t file);
const char *ls_dossier_lot(const ls_dossier *d, size_t file, size_t lot);
/* "farm.yaml:12" of a place. */
const char *ls_dossier_at(const ls_dossier *d, ls_place at);
