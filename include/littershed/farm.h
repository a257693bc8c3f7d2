/* farm: the farm files as plain structs. Every key they may hold stands in ls_schema. */
#pragma once

#include "littershed/farm/birds.h"
#include "littershed/farm/hauled.h"
#include "littershed/farm/house.h"
#include "littershed/farm/work.h"
#include "littershed/reference.h"

/* What is done in the empty houses before the next flock comes: days. */
typedef struct {
    ls_quantity wash, repairs, bedding;
    ls_place at;
} ls_make_ready;

typedef enum { LS_RECORDS_FEDERAL = 1, LS_RECORDS_STATE, LS_RECORDS_BOTH } ls_records;

/* The nutrient management plan, as a paper. */
typedef struct {
    ls_yesno on_site; /* a copy is kept on the farm */
    ls_name by;       /* who wrote it */
    ls_day date;
    ls_choice records; /* ls_records: whose records it asks for; not given: by the farm's size */
    ls_place at;
} ls_plan_paper;

/* What becomes of dead birds. */
typedef struct {
    ls_name method, place, by, permit;
    ls_name record; /* where the daily count is kept */
    ls_place at;
} ls_mortality;

typedef enum {
    LS_ATTACHED_MAP = 1,
    LS_ATTACHED_PERMIT,
    LS_ATTACHED_PLAN,
    LS_ATTACHED_SOIL,
    LS_ATTACHED_LITTER,
    LS_ATTACHED_AGREEMENT,
    LS_ATTACHED_OTHER
} ls_attached;
const char *ls_attached_name(int paper); /* "soil report"; "" for 0 */

/* A paper kept with the records. */
typedef struct {
    ls_choice paper;  /* ls_attached */
    ls_name of, kept; /* what it is about; where it is */
    ls_day date;
    ls_place at;
} ls_attached_paper;

/* Farm files of an earlier year; their haul log lies beside them. */
typedef struct {
    ls_name file, fields; /* fields: a second file that belongs to it, if there is one */
    ls_place at;
} ls_earlier_files;

typedef struct {
    ls_name name, place, state, phone, permit, prepared_by;
    ls_plan_paper *plan;
    ls_mortality *mortality;
    LS_LIST(ls_attached_paper) papers;
    LS_LIST(ls_earlier_files) earlier;
    ls_name haul_log; /* path of the haul log; not given: beside the farm file, named after it */
    ls_day next_flock;
    ls_make_ready *make_ready;
    ls_yesno quarantine;
    ls_place at;
} ls_farm_facts;

/* Names of the tables to use; text NULL: the program's default. */
typedef struct {
    ls_name removal, nitrogen, ammonium, carryover, soil, phosphate_and_potash;
    ls_place at;
} ls_table_names;

/* How old a soil test and a litter analysis may be when a field opens. */
typedef struct {
    ls_quantity soil, litter; /* time */
    ls_place at;
} ls_ages;

/* A file that a farm file names. */
typedef enum { LS_NAMED_TABLES = 1, LS_NAMED_GRID, LS_NAMED_LOG, LS_NAMED_FARM } ls_named_kind;
typedef struct {
    ls_named_kind kind;
    const char *path; /* from where the program runs */
    ls_place at;
} ls_named;
typedef LS_LIST(ls_named) ls_named_list;

/* What a change laid over farm files makes different: "house South, measured", as written before
 * and now; NULL: it was not there, or is dropped. */
typedef struct {
    const char *what, *was, *now;
} ls_farm_change;
typedef LS_LIST(ls_farm_change) ls_farm_changes;

typedef struct {
    ls_diag *diag;                 /* the inputs, for places */
    const ls_reference *reference; /* the tables the farm was read with, its own laid over
                                      them: to be handed to the other rooms */
    ls_named_list named;           /* every file that the farm files name, read or not */
    LS_LIST(ls_name) own_tables;   /* files of the farm's own tables, as written */
    ls_farm_facts *facts;
    ls_table_names *tables;
    LS_LIST(ls_house) houses;
    LS_LIST(ls_truck) trucks;
    ls_crew *crew;
    ls_stack *stack;
    ls_costs *costs;
    LS_LIST(ls_price) fertilizer;
    LS_LIST(ls_buyer) buyers;
    LS_LIST(ls_hauled)
    hauled;                            /* in the order they went out; empty as read from farm files: whoever
                                          reads the log too puts its loads here, and: */
    LS_LIST(ls_hauled) hauled_before;  /* of litter before that in the house now */
    LS_LIST(ls_issued) issued;         /* in the order of the log; the newest of a ticket, and: */
    LS_LIST(ls_issued) older;          /* those that a newer one took the place of, and still out there */
    LS_LIST(ls_promise_slip) promised; /* one a buyer */
    LS_LIST(ls_past)
    past;                        /* of earlier years' files, as loads that are gone: whoever reads those
                                    files puts it here, and: */
    LS_LIST(ls_stacked) stacked; /* what lay there longest first */
    ls_ages *ages;
    bool metric;             /* more of its quantities are in metric units than in US ones */
    ls_farm_changes changes; /* of what was read instead of the files; empty: none */
} ls_farm;

/* The farm's truck of that name; not given: its first. NULL: there is none. */
const ls_truck *ls_truck_named(const ls_farm *farm, ls_name name);

/* The row of the table of needs for a field; what it is looked for by. */
typedef struct {
    const char *crop;  /* of hay that is grazed the pasture */
    const char *state; /* "any": of no state; NULL: the farm names none, and rows are of several */
    bool state_given;
    const ls_row *row;               /* NULL: no row, or it is not told which */
    LS_LIST(const char *) states;    /* that have rows for the crop */
    LS_LIST(const ls_row *) choices; /* for the crop and state */
} ls_crop_need;
ls_crop_need ls_farm_crop_need(ls_arena *a, const ls_reference *r, const ls_farm *farm, const ls_buyer *b,
                               const ls_field *f);

/* Read n farm files ("-": standard input) and join their sections. The whole of every file is
 * checked; mistakes are noted in d. NULL if there is any error. Structs live in the arena; d must
 * outlive them. Limits: lots x fields at most 200,000. The farm's own tables (own_tables) are read
 * with it and laid over r. What the files name must be plain files, or not there. */
const ls_farm *ls_farm_read(ls_arena *a, ls_diag *d, const ls_reference *r, const char *const *paths, size_t n);
/* The same of one file's text, as if it stood at path. */
const ls_farm *ls_farm_read_text(ls_arena *a, ls_diag *d, const ls_reference *r, const char *path, const char *text);

/* The same with a part of a farm file laid over them: a house, truck, buyer or field that it names
 * changes only in the keys given there, "remove: yes" drops it, "remove: [bedding]" its keys, a new
 * name is added; lists of what has no name, and values, are put in place of the old. */
const ls_farm *ls_farm_read_instead(ls_arena *a, ls_diag *d, const ls_reference *r, const char *const *paths, size_t n,
                                    const char *change);
/* The same of files that another farm file names: plain files alone (ls_file_read_plain). */
const ls_farm *ls_farm_read_named(ls_arena *a, ls_diag *d, const ls_reference *r, const char *const *paths, size_t n);

/* The files that the farm file at path names, whatever else may be wrong with it; none if it is no
 * plain file that can be read as YAML. At most LS_MOST_NAMED. */
enum { LS_MOST_NAMED = 1000 };
ls_named_list ls_farm_named(ls_arena *a, const char *path);
/* The path of a name that a farm file says: from the folder of that file ("-" or standard input:
 * from where the program runs). */
const char *ls_farm_beside(ls_arena *a, const char *farm_file, const char *name);
/* Is it "Field" or "Buyer/Field"? May the truck spread there? */
bool ls_field_is_named(const char *name, const ls_buyer *buyer, const ls_field *field);
bool ls_truck_spreads_on(const ls_truck *truck, const ls_buyer *buyer, const ls_field *field);
/* One of a kind, 1 ...: its name, with the number if there are several. */
const char *ls_farm_truck_called(ls_arena *a, const ls_truck *truck, long number);
/* The kind of that name, now or before, or that has one called so; NULL: none. */
const ls_truck *ls_farm_truck_named(const ls_farm *farm, const char *name);
/* Which of its kind is called so; 0: any. */
long ls_farm_truck_number(const ls_truck *truck, const char *name);
/* Nothing may leave the farm: it says that a disease control order holds. farm NULL: no. */
bool ls_farm_is_quarantined(const ls_farm *farm);
/* The year in which the litter goes out, as far as the file says: that of the crew, else of the
 * last flock removed; 0: unknown. Its days are told without it. */
int ls_farm_year(const ls_farm *farm);
/* The year of the crop that litter spread on a day is for: as the file says; that of a harvest within a year after the
 * day; after the harvest that of the next crop; else the year of the day. LS_NO_DATE: of the crop harvested. 0: unknown
 */
int ls_crop_year(const ls_field *f, ls_date day);
/* The same of the litter now planned, by the day the field opens, else that on which the crew (or NULL) comes. */
int ls_farm_crop_year(const ls_crew *crew, const ls_field *f);
/* Made from the schema table, in the arena: the JSON Schema (draft 2020-12) of a farm file,
 * with the names of the tables of r to choose from. */
const char *ls_farm_json_schema(ls_arena *a, const ls_reference *r);

/* The ways birds of a kind are kept, the usual one first, NULL at the end. */
const char *const *ls_farm_housings(ls_arena *a, int bird);

/* What a starter file is for. */
typedef struct {
    int bird;            /* 0: the first */
    const char *housing; /* one of the bird's, or several with commas between: a house for each;
                            NULL: its first */
    bool metric;         /* units of its examples */
    bool example;        /* with an example in each place to fill in, and all parts in use */
} ls_starter;

/* A commented farm file to start from, made from the schema table, in the arena. A line to be filled in ends in a
 * comment: LS_STARTER_FILL and an example; what it is stands in comments above it. */
#define LS_STARTER_FILL "FILL IN, like "
const char *ls_farm_starter(ls_arena *a, ls_starter what);
/* An example of the key at a path of keys ("houses.lab"), as a line to write into the file. */
const char *ls_farm_line_for(ls_arena *a, const char *path, ls_starter what);
