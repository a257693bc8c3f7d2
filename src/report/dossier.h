/* dossier: what the inspector's answer is made of. Private to this room. */
#ifndef REPORT_DOSSIER_H
#define REPORT_DOSSIER_H

#include "figure.h"

/* One part of a load, as it went. */
typedef struct {
    const ls_buyer *buyer; /* NULL: the stack */
    const ls_field *field;
    ls_line tons;
} ls_dossier_drop;

typedef struct {
    const ls_hauled *hauled;
    const ls_log_entry *entry; /* NULL: not known */
    const ls_lot *lot;
    ls_line tons;
    size_t n; /* 0: the log does not tell where it went */
    ls_dossier_drop *drops;
} ls_dossier_load;
typedef LS_LIST(ls_dossier_load) ls_dossier_loads;

/* A year of a field's phosphorus ledger, lb/ac of P2O5; this litter's year is not among them. */
typedef struct {
    int year;
    const char *from; /* whose figures they are: "the field's own ledger", "2025.yaml" */
    ls_line on, removed, left;
    ls_line other;    /* joined from earlier files where the own ledger governs; else LS_NO_LINE */
    const char *note; /* how the crop's part was come by; NULL: nothing to say */
} ls_dossier_ledger;

/* A field that got litter, or may. Lines are LS_NO_LINE where nothing is known or nothing went on.
 */
typedef struct {
    const ls_buyer *buyer;
    const ls_field *field;
    const ls_field_rates *rates;
    const ls_rate *rate; /* of the lots that went on it (of all, if none did) the least */
    size_t loads;
    ls_line planned;                      /* tons of the plan before any load */
    ls_line tons;                         /* that went on */
    ls_line per_acre;                     /* of the spreadable acres */
    ls_line pounds[LS_FIELD_NUTRIENTS];   /* on the field */
    ls_line on_acre[LS_FIELD_NUTRIENTS];  /* lb/ac */
    ls_line available;                    /* lb/ac of plant-available N */
    ls_line ledger_removed, ledger_after; /* P2O5: what the crop takes, what is left then, lb/ac */
    LS_LIST(ls_dossier_ledger) ledger;    /* by year */
    bool joined;                          /* a row comes of an earlier file */
    bool over_rate, over_nitrogen, over_phosphate;
} ls_dossier_field;
typedef LS_LIST(ls_dossier_field) ls_dossier_fields;

/* made = own + moved + stacked + left + difference */
typedef struct {
    ls_line made, own, moved, stacked, left, accounted, difference;
    ls_line stack_in, stack_out; /* LS_NO_LINE: nothing went in, or out */
    ls_line before[3];           /* low, middle, high as before any load */
    ls_line off;                 /* middle of that less what was made */
    ls_line trucked;             /* out of the houses by the log */
    bool cleared, scaled;        /* all lots are empty; by loads over a scale alone */
} ls_dossier_balance;

/* Twelve months of all files together; each load, flock and field counts once. */
typedef struct {
    const char *birds;      /* name of the kind */
    ls_line placed, housed; /* placed in the months; in a house on a day of them */
} ls_dossier_birds;
typedef struct {
    ls_date from, to; /* both days belong to them; LS_NO_DATE: nothing is logged */
    bool by_option;   /* to is the day asked for, not the newest entry's */
    LS_LIST(ls_dossier_birds) birds;
    ls_line housed; /* of all kinds */
    size_t undated; /* flocks without a day of placing: not counted */
    size_t doubled; /* loads that stand in two files, counted once */
    ls_line out, in_houses, made, moved, own, acres, own_acres, used, own_used;
} ls_dossier_months;

/* What a file tells in all. */
typedef struct {
    const char *name; /* "this file", "2025" */
    const ls_farm *farm;
    ls_line birds, out, moved, own, acres, used; /* LS_NO_LINE: none */
} ls_dossier_year;

typedef enum { LS_FOUND, LS_MISSING, LS_NO_MATTER } ls_found;
typedef enum { LS_ABOUT_LIMIT, LS_ABOUT_FARM, LS_ABOUT_TRANSFER, LS_ABOUT_FIELD } ls_about;

/* One thing an inspector asks for, of one field, load or the farm. */
typedef struct {
    ls_about about;
    const char *item; /* the row of the rules, or the limit that was passed */
    const char *words;
    const char *required_by; /* "federal", "state", "good practice", "limit" */
    const char *cite;        /* NULL: none */
    const char *source;      /* NULL: none */
    bool memory;             /* the rule is from memory */
    bool required;           /* of this farm */
    const char *of;          /* "Larkspur Hay/Upper Meadow", "load NORTH-LEFT-01-Q", "the farm" */
    ls_found found;
    const char *what;  /* what was found, or what is wrong */
    const char *where; /* "farm.yaml:12", "entry 7"; "" */
    const char *mend;  /* what to write where; NULL: nothing */
    size_t order;
} ls_dossier_finding;
typedef LS_LIST(ls_dossier_finding) ls_dossier_findings;

/* A federal size class of one kind of bird, read one way. */
typedef struct {
    const char *birds;            /* "broiler breeder, counted as layers" */
    const char *size;             /* "large", "medium", "below medium" */
    ls_line count, large, medium; /* birds; at least so many */
    bool is_large;
} ls_dossier_size;

struct ls_dossier {
    const ls_view *view;
    ls_dossier_terms terms;
    ls_dossier_loads loads;
    ls_dossier_fields fields;
    ls_dossier_balance balance;
    LS_LIST(ls_dossier_size) sizes;
    bool large, size_open; /* large by one way of reading at least; not by all */
    LS_LIST(ls_dossier_year) years;
    ls_dossier_months months;
    LS_LIST(const char *) joins;  /* how earlier fields were matched, and what was left out */
    ls_dossier_findings findings; /* in the order in which they are told */
    ls_line stack_days;           /* longest time in the stack; LS_NO_LINE: nothing was */
    ls_date stack_first, stack_last;
    bool stack_empty;
};

/* A drop that left the farm for another's field. */
static inline bool ls_dossier_is_own(const ls_buyer *buyer) {
    return buyer != NULL && buyer->own.yes;
}
bool ls_dossier_is_transfer(const ls_dossier_load *load);
const char *ls_dossier_place(const ls_view *v, const ls_dossier_load *load);
const char *ls_dossier_name(const ls_view *v, const ls_buyer *b, const ls_field *f);

/* The parts of ls_report_dossier, in this order. */
void ls_dossier_make_loads(ls_dossier *d);
bool ls_dossier_make_fields(ls_dossier *d);
void ls_dossier_make_balance(ls_dossier *d);
void ls_dossier_make_sizes(ls_dossier *d);
void ls_dossier_make_years(ls_dossier *d);
void ls_dossier_make_months(ls_dossier *d);
/* Of a field: its own ledger with what earlier files tell. */
void ls_dossier_join(ls_dossier *d, ls_dossier_field *f);
/* What of the earlier files stands in no ledger. After the fields. */
void ls_dossier_join_notes(ls_dossier *d);
/* The farm of a file: 0 this one, then the earlier ones. */
const ls_farm *ls_dossier_farm(const ls_dossier *d, size_t file);
/* Does the load stand in a file before this one too (same ticket, same day)? */
bool ls_dossier_doubled(const ls_dossier *d, size_t file, const ls_hauled *load);
void ls_dossier_audit(ls_dossier *d);

/* Of the audit. */
ls_dossier_finding *ls_dossier_add(ls_dossier *d, ls_about about, const char *item, const char *of);
void ls_dossier_audit_limits(ls_dossier *d);
void ls_dossier_audit_farm(ls_dossier *d);
void ls_dossier_audit_fields(ls_dossier *d);
void ls_dossier_audit_transfers(ls_dossier *d);
/* "farm.yaml:12" of a place. */
const char *ls_dossier_at(const ls_dossier *d, ls_place at);
/* Found at a place of the files, or missing, with what to write. */
void ls_dossier_given(ls_dossier *d, ls_dossier_finding *f, bool given, ls_place at,
                      const char *what, const char *mend);

#endif
