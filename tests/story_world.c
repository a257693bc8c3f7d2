#include "story_world.h"

#include "littershed/command.h"

#include <math.h>
#include <string.h>

story story_begin(void) {
    story s = {.a = ls_arena_new()};
    s.folder = test_folder(s.a);
    s.house = test_file(s.a, s.folder, "house.yaml", test_file_text(s.a, "tests/story/house.yaml"));
    s.fields = test_file(s.a, s.folder, "fields.yaml", test_file_text(s.a, "tests/story/fields.yaml"));
    s.log = ls_arena_printf(s.a, "%s/house.haul.csv", s.folder);
    return s;
}

void story_end(story *s) {
    test_folder_end(s->folder);
    ls_arena_free(s->a);
}

/* ---- what the program says ---- */

test_run story_checked(story *s, test_run run) {
    TEST_SAME(run.status, LS_DONE);
    const char *of_his = ls_arena_printf(s->a, "the files name no field \"%s/", s->removed ? s->removed : "");
    TEST_SAME(story_count(run.err, "warning: "), story_count(run.err, of_his));
    if (s->removed == NULL) TEST_TEXT(run.err, "");
    return run;
}

json_t *story_document(story *s, const char *command, const char *option) {
    bool record = strcmp(command, "record") == 0;
    test_run run = record ? STORY_RUN(s, command, "--format", "json", option)
                          : STORY_RUN(s, command, FEW, "--format", "json", option);
    json_t *d = json_loads(run.out, JSON_REJECT_DUPLICATES, NULL);
    CU_ASSERT_PTR_NOT_NULL_FATAL(d);
    return d;
}

size_t story_count(const char *page, const char *what) {
    size_t n = 0;
    for (; (page = strstr(page, what)) != NULL; page += strlen(what)) n++;
    return n;
}

const char *story_word(json_t *object, const char *name) {
    const char *text = json_string_value(json_object_get(object, name));
    return text == NULL ? "" : text;
}

double story_number(json_t *object, const char *name) {
    json_t *value = json_object_get(object, name);
    return json_is_number(value) ? json_number_value(value) : NAN;
}

long story_pounds(json_t *object, const char *name) {
    double lb = story_number(object, name) * STORY_LB;
    TEST_NEAR(lb - round(lb), 0, 0.01);
    return lround(lb);
}

json_t *story_find(json_t *list, const char *name, const char *value) {
    size_t i;
    json_t *one;
    json_array_foreach(list, i, one) {
        if (strcmp(story_word(one, name), value) == 0) return one;
    }
    return NULL;
}

json_t *story_loads(json_t *plan) {
    json_t *all = json_copy(json_object_get(plan, "loads")), *lot, *out;
    size_t i, k;
    json_array_foreach(json_object_get(plan, "stack"), i, lot) {
        json_array_foreach(json_object_get(lot, "out"), k, out) {
            json_object_set(out, "lot", json_object_get(lot, "lot"));
            json_array_append(all, out);
        }
    }
    return all;
}

const char *story_way(story *s, json_t *planned) {
    json_t *drops = json_object_get(planned, "drops"), *drop;
    const char *buyer = story_word(planned, "buyer"), *way = "";
    size_t i;
    if (drops == NULL) return ls_arena_printf(s->a, "%s/%s", buyer, story_word(planned, "field"));
    if (json_array_size(drops) == 0) return "stack";
    json_array_foreach(drops, i, drop) {
        way = ls_arena_printf(s->a, "%s%s%s/%s", way, i > 0 ? "; " : "", buyer, story_word(drop, "field"));
    }
    return way;
}

bool story_is_his(const char *place, const char *buyer) {
    size_t n = strlen(buyer);
    return strncmp(place, buyer, n) == 0 && place[n] == '/';
}

/* ---- our own books ---- */

long story_booked(const story *s, const char *lot, const char *place, const char *day, bool stack, long *loads) {
    long lb = 0, n = 0;
    for (size_t i = 0; i < s->n; i++) {
        const story_gone *g = &s->at[i];
        if (g->from_stack != stack || (lot != NULL && strcmp(g->lot, lot) != 0) ||
            (place != NULL && strcmp(g->place, place) != 0) || (day != NULL && strcmp(g->day, day) != 0))
            continue;
        lb += g->lb;
        n++;
    }
    if (loads != NULL) *loads = n;
    return lb;
}

long story_had(const story *s, const char *buyer) {
    long n = 0;
    for (size_t i = 0; i < s->n; i++) n += story_is_his(s->at[i].place, buyer);
    return n;
}

story_paper *story_paper_of(story *s, const char *ticket) {
    for (size_t i = 0; i < s->papers_n; i++)
        if (s->papers[i].became == NULL && s->papers[i].again == 0 && strcmp(s->papers[i].ticket, ticket) == 0)
            return &s->papers[i];
    return NULL;
}

static story_gone *book(story *s, const story_load *l, const char *place) {
    CU_ASSERT_FATAL(s->n < STORY_MOST);
    CU_ASSERT_PTR_NULL(strchr(place, ';')); /* our book has one place a load */
    story_gone *g = &s->at[s->n++];
    *g = (story_gone){.ticket = ls_arena_copy(s->a, l->ticket),
                      .lot = ls_arena_copy(s->a, l->lot),
                      .place = place,
                      .day = ls_arena_copy_n(s->a, l->when, strlen("2026-02-16")),
                      .lb = l->lb,
                      .entry = ++s->entries,
                      .from_stack = l->from_stack};
    return g;
}

void story_haul(story *s, story_load l) {
    const char *tons = ls_arena_printf(s->a, "%ld.%02ld", l.lb / STORY_LB, l.lb % STORY_LB / 20);
    const char *arguments[STORY_MOST] = {"record",   s->house,    s->fields, "--ticket", l.ticket,  "--tons",
                                         tons,       "--weighed", "--when",  l.when,     "--truck", "spreader truck",
                                         "--driver", "R. Alder"};
    size_t n = 14;
    if (l.told != NULL) {
        arguments[n++] = "--field";
        arguments[n++] = l.told;
    }
    if (l.cleared != NULL) {
        arguments[n++] = "--cleared";
        arguments[n++] = l.cleared;
    }
    story_paper *paper = story_paper_of(s, l.ticket);
    CU_ASSERT_PTR_NOT_NULL_FATAL(paper);
    test_run run = test_program(s->a, arguments);
    bool elsewhere = l.told != NULL && strstr(paper->way, l.told) == NULL;
    CU_ASSERT_EQUAL(strstr(run.err, "its ticket was for ") != NULL, elsewhere);
    run.err = elsewhere ? "" : run.err;
    story_checked(s, run);
    story_gone *g = book(s, &l, l.told != NULL ? l.told : paper->way);
    for (size_t i = 0; i < s->papers_n; i++)
        if (s->papers[i].became == NULL && strcmp(s->papers[i].ticket, l.ticket) == 0) {
            s->papers[i].became = "hauled as";
            s->papers[i].by = g->entry;
        }
    const char *shown = ls_number_text(s->a, (double)l.lb / STORY_LB, 6);
    TEST_TEXT(run.out, ls_arena_printf(s->a, "entry %ld: ticket %s of %s, %s tons weighed, %s, to %s, in %s\n",
                                       g->entry, l.ticket, l.lot, shown, l.when, g->place, s->log));
}
