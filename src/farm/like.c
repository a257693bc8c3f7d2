/* `like: NAME`: what is left out is as another of the list has it, but for what is told of that one alone. It works on
 * the trees, so that what comes of it is read, checked and told like any farm file, at the line where it is written. */
#include "reader.h"

#include <string.h>

static const char like_key[] = "like";

typedef struct {
    ls_farm_reader *reader;
    size_t taken; /* values taken over in all: no more than a file may hold */
} filling;

/* The nearest list of things with names around a value. */
typedef struct {
    const ls_farm_section *section;
    const ls_node *list;
} around;

ls_node *ls_farm_node_copy(ls_arena *a, const ls_node *node, size_t more) {
    ls_node *copy = LS_NEW(a, ls_node, 1);
    *copy = *node;
    copy->items = LS_NEW(a, ls_node *, node->n + more);
    copy->keys = LS_NEW(a, ls_node *, node->n + more);
    for (size_t i = 0; i < node->n; i++) {
        copy->items[i] = node->items[i];
        if (node->kind == LS_MAPPING) copy->keys[i] = node->keys[i];
    }
    return copy;
}

const ls_node *ls_farm_node_name(const ls_node *item) {
    return item->kind == LS_SCALAR ? item : ls_yaml_get(item, "name");
}

size_t ls_farm_node_named(const ls_node *list, const char *name) {
    size_t i = 0;
    while (i < list->n) {
        const ls_node *of = ls_farm_node_name(list->items[i]);
        if (name != NULL && of != NULL && strcmp(of->text, name) == 0) break;
        i++;
    }
    return i;
}

const char *ls_farm_node_names(ls_arena *a, const ls_node *list, const char *meant, const char *lead) {
    const char **names = LS_NEW(a, const char *, list->n + 1);
    size_t n = 0;
    for (size_t i = 0; i < list->n; i++)
        if (ls_farm_node_name(list->items[i]) != NULL) names[n++] = ls_farm_node_name(list->items[i])->text;
    return ls_farm_suggest(a, meant, names, n, lead);
}

/* Is it told of one thing alone? */
static bool of_one(const ls_farm_key *key) { return key != NULL && (key->flags & LS_FARM_OF_ONE) != 0; }

static const ls_farm_key *key_at(const ls_farm_section *section, const ls_node *node, size_t i) {
    return section == NULL || node->kind != LS_MAPPING ? NULL : ls_farm_key_of(section, node->keys[i]->text);
}

/* The value, less what is told of one alone. */
static ls_node *taken_over(filling *f, const ls_farm_section *section, const ls_node *node) {
    ls_node *copy = ls_farm_node_copy(f->reader->arena, node, 0);
    f->taken++;
    copy->n = 0;
    for (size_t i = 0; i < node->n && f->taken <= LS_MOST_VALUES; i++) {
        const ls_farm_key *key = key_at(section, node, i);
        if (of_one(key)) continue;
        bool mapping = node->kind == LS_MAPPING;
        if (mapping) copy->keys[copy->n] = node->keys[i];
        copy->items[copy->n++] = taken_over(f, !mapping ? section : key ? key->section : NULL, node->items[i]);
    }
    return copy;
}

static void fill(filling *f, const ls_farm_section *section, ls_node *item, const ls_node *from) {
    ls_node *all = ls_farm_node_copy(f->reader->arena, item, from->n);
    for (size_t i = 0; i < from->n && f->taken <= LS_MOST_VALUES; i++) {
        const ls_farm_key *key = key_at(section, from, i);
        const char *name = from->keys[i]->text;
        if (key == NULL || of_one(key) || strcmp(name, "name") == 0 || ls_yaml_get(item, name)) continue;
        all->keys[all->n] = from->keys[i];
        all->items[all->n++] = taken_over(f, key->section, from->items[i]);
    }
    if (f->taken > LS_MOST_VALUES) LS_FARM_WRONG(f->reader, item->at, "give what they share once", "too much is alike");
    *item = *all;
}

/* Of a list with names the item of that name; else the value which this one is of the thing of that
 * name, in a list the one at the same place. NULL: there is none. */
static const ls_node *model_of(const ls_farm_key *key, size_t place, around in, size_t i) {
    const ls_node *found = i < in.list->n ? in.list->items[i] : NULL;
    if (found != NULL && in.section != key->section) {
        found = ls_yaml_get(found, key->name);
        if (found != NULL && found->kind == LS_SEQUENCE) found = place < found->n ? found->items[place] : NULL;
    }
    return found != NULL && found->kind == LS_MAPPING ? found : NULL;
}

static void note_none(ls_farm_reader *reader, const ls_farm_key *key, const ls_node *like, size_t place, around in) {
    bool same = in.section == key->section;
    ls_node of = *in.list;
    of.n = same ? place : of.n;
    const char *hint = of.n == 0 ? "write it out where it comes first"
                       : !same && ls_farm_node_named(&of, like->text) < of.n
                           ? "it takes over what stands at the same place of the list there"
                           : ls_farm_node_names(reader->arena, &of, like->text, "there are");
    LS_FARM_WRONG(reader, like->at, hint, same ? "no %s \"%s\" stands above this one" : "there is no such %s of \"%s\"",
                  key->section->name, like->text);
}

static void look_at_value(filling *f, const ls_farm_key *key, ls_node *value, around in);

static void look_at_item(filling *f, const ls_farm_key *key, ls_node *item, size_t place, around in) {
    const ls_node *like = ls_yaml_get(item, like_key);
    if (item->kind != LS_MAPPING) return;
    if (like != NULL && like->kind == LS_SCALAR && in.list != NULL && ls_farm_key_of(key->section, like_key) != NULL) {
        size_t i = ls_farm_node_named(in.list, like->text);
        const ls_node *from = model_of(key, place, in, i);
        if (from == NULL || from == item || (in.section == key->section && i > place)) {
            note_none(f->reader, key, like, place, in);
            item->refused = true; /* what it lacks is not noted as well */
        }
        item->refused = item->refused || (from != NULL && from->refused);
        if (from != NULL && from != item) fill(f, key->section, item, from);
    }
    for (size_t i = 0; i < item->n && f->taken <= LS_MOST_VALUES; i++) {
        const ls_farm_key *of = key_at(key->section, item, i);
        if (of != NULL && of->section != NULL && of->kind != LS_FARM_ZONED) look_at_value(f, of, item->items[i], in);
    }
}

static void look_at_value(filling *f, const ls_farm_key *key, ls_node *value, around in) {
    if (value->kind != LS_SEQUENCE) {
        look_at_item(f, key, value, 0, in);
        return;
    }
    if (ls_farm_key_of(key->section, like_key) && ls_farm_key_of(key->section, "name"))
        in = (around){key->section, value};
    for (size_t i = 0; i < value->n; i++) look_at_item(f, key, value->items[i], i, in);
}

void ls_farm_fill_alike(ls_farm_reader *reader, const ls_node *top) {
    filling f = {reader, 0};
    for (size_t i = 0; i < top->n; i++) {
        const ls_farm_key *key = key_at(&ls_farm_top, top, i);
        if (key != NULL && key->section != NULL) look_at_value(&f, key, top->items[i], (around){0});
    }
}
