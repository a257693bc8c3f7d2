/* The farm of tests/test_story.c: a week of the demo farm in a folder, what the program says of it,
 * and books of our own: loads in whole pounds, tickets and slips as they were handed out. */
#pragma once

#include "program.h"

#include <jansson.h>

enum { STORY_MOST = 96, STORY_LB = 2000 /* in a short ton */ };

/* A load as it was logged here. */
typedef struct {
    const char *ticket, *lot, *place, *day;
    long lb, entry;
    bool from_stack;
} story_gone;

/* A ticket as it was handed out here. */
typedef struct {
    const char *ticket, *way;
    const char *became; /* "hauled as", "back by"; NULL: it is in a cab */
    long entry, by;     /* by: the entry that made it so */
    long again;         /* the newest that was handed out in its place; 0: none */
    const char *why;    /* it was recalled for; NULL: it was not */
} story_paper;

/* A slip: loads in all. */
typedef struct {
    const char *buyer;
    long loads, entry;
} story_slip;

typedef struct {
    ls_arena *a;
    const char *folder, *house, *fields, *log;
    story_gone at[STORY_MOST]; /* entries that stand */
    story_paper papers[STORY_MOST];
    story_slip slips[STORY_MOST];
    size_t n, papers_n, slips_n;
    long entries;        /* of the log */
    const char *removed; /* a buyer whose loads are warned of since; NULL: none */
} story;

story story_begin(void);
void story_end(story *s);

/* A run that is done and warns of nothing but loads of the buyer who was removed. */
#define STORY_RUN(s, command, ...) story_checked((s), PROGRAM((s)->a, command, (s)->house, (s)->fields, __VA_ARGS__))
test_run story_checked(story *s, test_run run);
/* Its JSON: the caller gives it back. */
json_t *story_document(story *s, const char *command, const char *option);
size_t story_count(const char *page, const char *what);

/* A member as text ("" if it is none), as a number (NaN), and short tons as whole pounds, which
 * they must be to a hundredth of a pound. The one of a list whose member is that; NULL if there is
 * none. */
const char *story_word(json_t *object, const char *name);
double story_number(json_t *object, const char *name);
long story_pounds(json_t *object, const char *name);
json_t *story_find(json_t *list, const char *name, const char *value);

/* Loads of the plan, those out of the stack last; out of the stack they have a member lot too. */
json_t *story_loads(json_t *plan);
/* Where a load of the plan goes, as the log writes it, but for tons and acres. */
const char *story_way(story *s, json_t *planned);
/* Does a place lie with that buyer? */
bool story_is_his(const char *place, const char *buyer);

/* Pounds of the entries that stand: of a lot, a place, a day (NULL: any), out of the houses or the
 * stack; and how many they are, if asked. */
long story_booked(const story *s, const char *lot, const char *place, const char *day, bool stack, long *loads);
/* Loads that a buyer had. */
long story_had(const story *s, const char *buyer);

/* Logs the load of a ticket by the program and here, and checks what the program answers. It goes
 * where its ticket was issued to, or to the place told. */
typedef struct {
    const char *ticket, *lot, *when, *cleared, *told;
    long lb;
    bool from_stack;
} story_load;
void story_haul(story *s, story_load l);

/* The newest ticket in a cab; NULL: there is none. */
story_paper *story_paper_of(story *s, const char *ticket);

/* story_books.c: every ton of the estimate is hauled, in the plan, or has no field; every pound,
 * ticket and slip of record --list is one of ours; every ton and load of the dossier. */
void story_check_tons(story *s, json_t *plan);
void story_check_log(story *s);
void story_check_dossier(story *s);
