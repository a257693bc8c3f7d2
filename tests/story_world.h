/* The farm of tests/test_story.c: the demo in a folder, what the program says of it, and a book of
 * our own, in whole pounds. */
#ifndef LITTERSHED_TESTS_STORY_WORLD_H
#define LITTERSHED_TESTS_STORY_WORLD_H

#include "program.h"

#include <jansson.h>

enum { STORY_MOST = 64, STORY_LB = 2000 /* in a short ton */ };

/* A load as it was logged here. */
typedef struct {
    char ticket[32], lot[32], place[64], day[12];
    long lb;
    bool from_stack;
} story_gone;

typedef struct {
    ls_arena *a;
    const char *folder, *house, *fields;
    story_gone at[STORY_MOST]; /* entries that stand */
    size_t n;
    long entries; /* all of them */
    long misread; /* pounds that entry 4 told before it was corrected */
} story;

/* A load to log. */
typedef struct {
    const char *ticket, *lot, *place, *when, *cleared;
    long lb;
    bool told; /* the place is told; else the program finds it in the plan */
    bool from_stack;
} story_load;

story story_begin(void);
void story_end(story *s);

/* The page of a command; its JSON, also of a run: the caller gives it back. */
const char *story_page(story *s, const char *command);
json_t *story_parsed(test_run run);
json_t *story_document(story *s, const char *command);

/* A member as text ("" if it is none), as a number (NaN), and short tons as whole pounds, which
 * they must be to a hundredth of a pound. The one of a list whose member is that; NULL if there is
 * none. */
const char *story_word(json_t *object, const char *name);
double story_number(json_t *object, const char *name);
long story_pounds(json_t *object, const char *name);
json_t *story_find(json_t *list, const char *name, const char *value);

/* Pounds of the entries that stand: of a lot, a place, a day (NULL: any), out of the houses or the
 * stack; and how many they are, if asked. */
long story_booked(const story *s, const char *lot, const char *place, const char *day, bool stack,
                  long *loads);

/* Logs the load by the program and here, and checks what the program answers. */
void story_haul(story *s, story_load l);

/* Where a load of the plan goes, as the log writes it. */
const char *story_place(story *s, json_t *planned);

#endif
