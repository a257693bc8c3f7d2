#include "story_world.h"

#include "littershed/command.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

story story_begin(void) {
    story s = {.a = ls_arena_new()};
    s.folder = test_folder(s.a);
    s.house = test_file(s.a, s.folder, "demo-house.yaml", test_file_text(s.a, DEMO_HOUSE));
    s.fields = test_file(s.a, s.folder, "demo-fields.yaml", test_file_text(s.a, DEMO_FIELDS));
    return s;
}

void story_end(story *s) {
    test_folder_end(s->folder);
    ls_arena_free(s->a);
}

/* ---- what the program says ---- */

const char *story_page(story *s, const char *command) {
    test_run run = PROGRAM(s->a, command, s->house, s->fields, FEW);
    TEST_SAME(run.status, LS_DONE);
    TEST_TEXT(run.err, "");
    test_fits(test_replace(s->a, run.out, "\f", "")); /* between tickets */
    return run.out;
}

json_t *story_parsed(test_run run) {
    TEST_SAME(run.status, LS_DONE);
    TEST_TEXT(run.err, "");
    json_t *d = json_loads(run.out, JSON_REJECT_DUPLICATES, NULL);
    CU_ASSERT_PTR_NOT_NULL_FATAL(d);
    return d;
}

json_t *story_document(story *s, const char *command) {
    return story_parsed(PROGRAM(s->a, command, s->house, s->fields, FEW, "--format", "json"));
}

const char *story_word(json_t *object, const char *name) {
    const char *text = json_string_value(json_object_get(object, name));
    return text == NULL ? "" : text;
}

double story_number(json_t *object, const char *name) {
    json_t *value = json_object_get(object, name);
    return json_is_number(value) ? json_number_value(value) : NAN;
}

/* Short tons of the object as whole pounds, which they must be to a hundredth of a pound. */
long story_pounds(json_t *object, const char *name) {
    double lb = story_number(object, name) * STORY_LB;
    TEST_NEAR(lb - round(lb), 0, 0.01);
    return lround(lb);
}

/* The one of the list whose name is that; NULL if there is none. */
json_t *story_find(json_t *list, const char *name, const char *value) {
    size_t i;
    json_t *one;
    json_array_foreach(list, i, one) {
        if (strcmp(story_word(one, name), value) == 0)
            return one;
    }
    return NULL;
}

/* ---- our own book ---- */

/* Pounds of the entries that stand: of a lot, a place, a day (NULL: any), out of the houses or the
 * stack. */
long story_booked(const story *s, const char *lot, const char *place, const char *day, bool stack,
                  long *loads) {
    long lb = 0, n = 0;
    for (size_t i = 0; i < s->n; i++) {
        const story_gone *g = &s->at[i];
        if (g->from_stack != stack || (lot != NULL && strcmp(g->lot, lot) != 0) ||
            (place != NULL && strcmp(g->place, place) != 0) ||
            (day != NULL && strcmp(g->day, day) != 0))
            continue;
        lb += g->lb;
        n++;
    }
    if (loads != NULL)
        *loads = n;
    return lb;
}

static void book(story *s, const story_load *l) {
    story_gone *g = &s->at[s->n++];
    *g = (story_gone){.lb = l->lb, .from_stack = l->from_stack};
    snprintf(g->ticket, sizeof g->ticket, "%s", l->ticket);
    snprintf(g->lot, sizeof g->lot, "%s", l->lot);
    snprintf(g->place, sizeof g->place, "%s", l->place);
    snprintf(g->day, sizeof g->day, "%.10s", l->when);
}

void story_haul(story *s, story_load l) {
    const char *tons = ls_arena_printf(s->a, "%ld.%02ld", l.lb / STORY_LB, l.lb % STORY_LB / 20);
    const char *arguments[STORY_MOST] = {"record",   s->house,   s->fields,   "--ticket",
                                         l.ticket,   "--tons",   tons,        "--weighed",
                                         "--when",   l.when,     "--truck",   "spreader truck",
                                         "--driver", "R. Alder", "--weather", "cloudy, dry"};
    size_t n = 16;
    if (l.told) {
        arguments[n++] = "--field";
        arguments[n++] = l.place;
    }
    if (l.cleared != NULL) {
        arguments[n++] = "--cleared";
        arguments[n++] = l.cleared;
    }
    CU_ASSERT_FATAL(s->n < STORY_MOST);
    book(s, &l);
    test_run run = test_program(s->a, arguments);
    TEST_SAME(run.status, LS_DONE);
    TEST_TEXT(run.err, "");
    const char *shown = ls_number_text(s->a, (double)l.lb / STORY_LB, 6);
    TEST_TEXT(run.out,
              ls_arena_printf(s->a,
                              "entry %ld: ticket %s of %s, %s tons weighed, %s, to %s, in "
                              "%s/demo-house.haul.csv\n",
                              ++s->entries, l.ticket, l.lot, shown, l.when, l.place, s->folder));
}

/* Where a load of the plan goes, as the log writes it. */
const char *story_place(story *s, json_t *planned) {
    json_t *drops = json_object_get(planned, "drops");
    if (json_array_size(drops) == 0)
        return "stack";
    TEST_SAME(json_array_size(drops), 1); /* the demo splits no load */
    return ls_arena_printf(s->a, "%s/%s", story_word(planned, "buyer"),
                           story_word(json_array_get(drops, 0), "field"));
}
