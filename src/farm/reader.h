/* Reading values and sections by the schema. Private to this room. */
#pragma once

#include "schema.h"

/* A value in the file with what it is called in messages ("depth of slats") and in examples ("slats"). */
typedef struct {
    const ls_farm_key *key;
    const char *label, *name;
    const ls_node *node;
} ls_farm_value;

/* The value of a key by its own name. */
ls_farm_value ls_farm_value_of(const ls_farm_key *key, const ls_node *node);

/* Fill the member of a struct from a value. What is wrong is noted; the member then has its place,
 * but no date (LS_NO_DATE), count -1, choice 0, quantity form 0, name text NULL. Sections, and what
 * may be written as one, are not read here. */
void ls_farm_read_value(ls_farm_reader *reader, ls_farm_value value, void *member);

/* Is the key required of a mapping, and neither it nor what may stand instead is there? */
bool ls_farm_lacks(const ls_farm_key *key, const ls_node *item);

/* Is the value one text or number? If not, that is noted. */
bool ls_farm_is_scalar(ls_farm_reader *reader, ls_farm_value value);

/* meant.c: read a quantity, or a bare whole number of bird-days. False, and form 0, if it is wrong:
 * the hint is then the same amount in a form that reads, or several to choose from. Tried without a
 * note (quantity.c) it gives what is wrong, message NULL: nothing. */
typedef struct {
    const char *message, *hint;
} ls_farm_fault;
bool ls_farm_read_quantity(ls_farm_reader *reader, ls_farm_value value, ls_quantity *out);
/* Does it read, or can it be meant in one way alone? */
bool ls_farm_fits(ls_farm_reader *reader, ls_farm_value value);
ls_farm_fault ls_farm_try_quantity(ls_farm_reader *reader, ls_farm_value value, ls_quantity *out);

/* A whole number out of "24,000" or "24000 birds", NULL if there is none. */
const char *ls_farm_whole_number(ls_arena *a, const char *text);

/* meant_day.c: the days a text may be ("2/3/2026": two); year: where it names none, 0 then none. */
typedef struct {
    ls_date days[2];
    size_t n;
    bool no_year;
} ls_said_days;
ls_said_days ls_farm_days_said(ls_arena *a, const char *s, int year);
/* A window that can be read in one way. */
bool ls_farm_window_said(ls_arena *a, const char *s, ls_window *out);
/* What to write for a date or window; the time of a day ("7 am") as HH:MM, NULL if it is none. */
const char *ls_farm_day_meant(ls_farm_reader *reader, ls_farm_value value);
/* "Sun", "Sundays" of n bytes: the weekday k? */
bool ls_farm_is_weekday(const char *s, size_t n, int k);
const char *ls_farm_clock_meant(ls_arena *a, const char *s);

/* The unit in which the limits of the key stand for a quantity in this unit. */
ls_unit ls_farm_limit_unit(ls_arena *a, const ls_farm_key *key, ls_unit unit);

/* The usual unit of a quantity key; the unit behind the word of a `per` key. */
ls_unit ls_farm_unit(ls_arena *a, const ls_farm_key *key);

/* Digits, a decimal point if need be, and commas between thousands ("24,000"), as ls_number_parse.
 */
bool ls_farm_number(ls_arena *a, const char *s, size_t n, double *out);
/* How many words there are, NULL at the end; words with commas between. */
size_t ls_farm_count(const char *const *words);
const char *ls_farm_joined(ls_arena *a, const char *const *words, size_t n);

/* `did you mean "NEAREST"?`, or the whole list led by lead (NULL: NULL). */
const char *ls_farm_suggest(ls_arena *a, const char *word, const char *const *words, size_t n, const char *lead);

/* The place of the one word that a grower's word means, from 1; 0: none, or several. */
int ls_farm_one_meant(ls_arena *a, const char *said, const char *const *words);

/* Names, each once. */
typedef LS_LIST(const char *) ls_farm_names;
bool ls_farm_holds(const ls_farm_names *list, const char *name);

/* Names of the tables of these kinds ('|' between), or of their rows; rows that name crops are left out. */
ls_farm_names ls_farm_names_in(ls_farm_reader *reader, const char *kinds, bool rows);
/* The names of rows in tables of these kinds that the text is, capitals aside, or is another word
 * for; *also: all such other words. */
ls_farm_names ls_farm_rows_called(ls_farm_reader *reader, const char *kinds, const char *text, ls_farm_names *also);

/* Note a mistake at a place; at a value. */
#define LS_FARM_WRONG(reader, at, hint, ...) ls_diag_add((reader)->diag, LS_ERROR, (at), (hint), __VA_ARGS__)
#define LS_FARM_MISTAKE(reader, value, hint, ...) LS_FARM_WRONG(reader, (value).node->at, hint, __VA_ARGS__)
/* Is more in the tree in metric units than in US ones? An example as it would stand in such a file:
 * rounded, of text the program wrote. */
bool ls_farm_is_metric(ls_arena *a, const ls_node *top);
const char *ls_farm_local(const ls_farm_reader *reader, const char *example);
/* `for example "KEY: VALUE"` */
const char *ls_farm_for_example(ls_farm_reader *reader, const ls_farm_key *key);

/* One name of a file, or a list of them. */
void ls_farm_read_files(ls_farm_reader *reader, ls_farm_value value, void *member);

/* The file of a grid whose keys are read; false, and noted, if it is wrong. */
bool ls_farm_read_grid(ls_farm_reader *reader, ls_depth_grid *grid);
/* Moisture by weights that are read; form 0 if they are wrong. */
void ls_farm_read_weights(ls_farm_reader *reader, ls_farm_value value, const ls_weights *weights, ls_quantity *out);

/* said.c: the tree of a file with what growers say put into the words of the schema. */
const ls_node *ls_farm_in_its_words(ls_farm_reader *reader, const ls_node *top);
/* like.c: on the trees, what is left out of a thing that is like another. */
void ls_farm_fill_alike(ls_farm_reader *reader, const ls_node *top);
/* A node with room for more; the name of an item of a list, a bare word or its key name, or NULL; the place of the item
 * of that name, n if there is none (or name is NULL); the names to choose from, for a hint. */
ls_node *ls_farm_node_copy(ls_arena *a, const ls_node *node, size_t more);
const ls_node *ls_farm_node_name(const ls_node *item);
size_t ls_farm_node_named(const ls_node *list, const char *name);
const char *ls_farm_node_names(ls_arena *a, const ls_node *list, const char *meant, const char *lead);
/* instead.c: the tree of a change laid over that of the files, and what it changes; NULL: mistakes are noted. */
const ls_node *ls_farm_lay(ls_farm_reader *reader, const ls_node *files, const ls_node *change,
                           ls_farm_changes *changes);
/* named.c: every file that the farm names. False: one is no plain file, or there are too many;
 * noted where it is named. */
bool ls_farm_find_named(ls_farm_reader *reader, const ls_node *top, ls_named_list *out);
/* own_tables.c: lay the tables that the farm names over the reader's reference. False: there are
 * mistakes in them, noted. */
bool ls_farm_read_own_tables(ls_farm_reader *reader, const ls_node *top);

/* Checks over the whole farm; clean: nothing was wrong so far. */
void ls_farm_check_all(ls_farm_reader *reader, ls_farm *farm, bool clean);

/* `field "NAME"`, or "this field". */
const char *ls_farm_called(ls_arena *a, const char *what, ls_name name);
/* Setbacks against the area, the phosphorus ledger against the crop year. */
void ls_farm_check_area(ls_farm_reader *reader, const ls_field *field);
void ls_farm_check_ledger(ls_farm_reader *reader, const ls_field *field);

/* The flocks of a house against each other, its cleanouts, its bedding and the way its manure is kept. */
void ls_farm_check_stay(ls_farm_reader *reader, const ls_house *house);

/* The fields that trucks are kept to are fields of the farm. */
void ls_farm_check_truck_fields(ls_farm_reader *reader, const ls_farm *farm);
/* What is out, by its name. */
void ls_farm_check_turns(ls_farm_reader *reader, const ls_farm *farm);
void ls_farm_find_outs(ls_farm_reader *reader, ls_farm *farm);

/* Names and slugs: fills the slugs, notes what is named twice. */
void ls_farm_check_names(ls_farm_reader *reader, ls_farm *farm);

/* What is asked for where the tables cannot tell the nitrogen a field needs. */
void ls_farm_check_needs(ls_farm_reader *reader, const ls_farm *farm);
/* What the fields remove against the removal table the farm chose. */
void ls_farm_check_removal(ls_farm_reader *reader, const ls_farm *farm);

/* Soil tests by a method that the soil table the farm chose does not class: a warning. A table
 * named for phosphate and potash that has no shares of them: a mistake. */
void ls_farm_check_nutrient_tables(ls_farm_reader *reader, const ls_farm *farm);

/* Nitrogen of one field said twice: as a credit and as fertilizer or water. */
void ls_farm_check_twice(ls_farm_reader *reader, const ls_field *field);

/* Note that a section lacks a key, with an example of it and, if not NULL, more to say. */
void ls_farm_missing(ls_farm_reader *reader, ls_place at, const char *who, const ls_farm_key *key, const char *more);
