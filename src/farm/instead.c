/* A part of a farm file laid over the farm files: what it names is changed, the rest stays. It
 * works on the trees, so that what comes of it is read, checked and told like any farm file. */
#include "reader.h"

#include <string.h>

typedef struct {
    ls_farm_reader *reader;
    ls_farm_changes *changes;
} laying;

static const char remove_key[] = "remove";

static ls_node *laid(laying *l, const ls_farm_section *section, const char *under, const ls_node *base,
                     const ls_node *change);

/* ---- what is changed, in words ---- */

static const char *told(ls_arena *a, const ls_node *node) {
    ls_text *t = ls_text_new(a);
    if (node->kind == LS_SCALAR) return node->text;
    ls_text_add(t, node->kind == LS_MAPPING ? "{" : "[");
    for (size_t i = 0; i < node->n; i++)
        ls_text_addf(t, "%s%s%s%s", i > 0 ? ", " : "", node->kind == LS_MAPPING ? node->keys[i]->text : "",
                     node->kind == LS_MAPPING ? ": " : "", told(a, node->items[i]));
    ls_text_add(t, node->kind == LS_MAPPING ? "}" : "]");
    return t->s;
}

static bool same(const ls_node *a, const ls_node *b) {
    if (a->kind != b->kind || a->n != b->n || strcmp(a->text, b->text) != 0) return false;
    for (size_t i = 0; i < a->n; i++)
        if (!same(a->items[i], b->items[i]) ||
            (a->kind == LS_MAPPING && strcmp(a->keys[i]->text, b->keys[i]->text) != 0))
            return false;
    return true;
}

static void say(laying *l, const char *what, const char *was, const char *now) {
    ls_arena *a = l->reader->arena;
    *LS_PUSH(a, l->changes) = (ls_farm_change){ls_arena_copy(a, what), was, now};
}

/* was or now NULL: it is added, or dropped. */
static void note(laying *l, const char *what, const ls_node *was, const ls_node *now) {
    ls_arena *a = l->reader->arena;
    if (was == NULL || now == NULL || !same(was, now))
        say(l, what, was == NULL ? NULL : told(a, was), now == NULL ? NULL : told(a, now));
}

static const char *below(laying *l, const char *under, const char *key) {
    return under[0] == '\0' ? key : ls_arena_printf(l->reader->arena, "%s, %s", under, key);
}

/* ---- trees ---- */

static size_t index_of(const ls_node *mapping, const char *key) {
    size_t i = 0;
    while (i < mapping->n && strcmp(mapping->keys[i]->text, key) != 0) i++;
    return i;
}

static void drop(ls_node *node, size_t at) {
    node->n--;
    for (size_t i = at; i < node->n; i++) {
        node->items[i] = node->items[i + 1];
        node->keys[i] = node->keys[i + 1];
    }
}

static bool drops_all(const ls_node *change) {
    const ls_node *remove = ls_yaml_get(change, remove_key);
    return remove != NULL && remove->kind == LS_SCALAR && strcmp(remove->text, "yes") == 0;
}

/* ---- remove: [keys] ---- */

static void drop_key(laying *l, const char *under, ls_node *base, const ls_node *name) {
    ls_arena *a = l->reader->arena;
    size_t i = name->kind == LS_SCALAR ? index_of(base, name->text) : base->n;
    const char **keys = LS_NEW(a, const char *, base->n + 1);
    if (i < base->n) {
        note(l, below(l, under, name->text), base->items[i], NULL);
        drop(base, i);
        return;
    }
    for (size_t k = 0; k < base->n; k++) keys[k] = base->keys[k]->text;
    LS_FARM_WRONG(l->reader, name->at, ls_farm_suggest(a, name->text, keys, base->n, "keys that stand there"),
                  "nothing to remove: there is no \"%s\" in %s", name->text,
                  under[0] == '\0' ? "the farm files" : under);
}

static void drop_keys(laying *l, const char *under, ls_node *base, const ls_node *remove) {
    if (remove->kind == LS_MAPPING) {
        LS_FARM_WRONG(l->reader, remove->at, "write \"remove: yes\", or \"remove: [bedding]\"",
                      "remove names what it drops");
        return;
    }
    if (remove->kind == LS_SCALAR) drop_key(l, under, base, remove);
    for (size_t i = 0; i < remove->n; i++) drop_key(l, under, base, remove->items[i]);
}

/* ---- lists of what has a name ---- */

/* Has it all that a new one needs? */
static bool is_whole(const ls_farm_section *section, const ls_node *item) {
    if (ls_yaml_get(item, "like") != NULL) return true;
    for (size_t i = 0; i < section->n; i++)
        if (ls_farm_lacks(&section->keys[i], item) &&
            (item->kind == LS_MAPPING || strcmp(section->keys[i].name, section->only) != 0))
            return false;
    return true;
}

static void refuse_unknown(laying *l, const ls_farm_section *section, const ls_node *list, const ls_node *name) {
    LS_FARM_WRONG(l->reader, name->at, ls_farm_node_names(l->reader->arena, list, name->text, "there are"),
                  "there is no %s \"%s\" to change, and a new one needs more keys", section->name, name->text);
}

static void lay_item(laying *l, const ls_farm_section *section, ls_node *list, ls_node *item) {
    ls_arena *a = l->reader->arena;
    const ls_node *name = ls_farm_node_name(item);
    size_t i = ls_farm_node_named(list, name ? name->text : NULL);
    if (name == NULL) {
        LS_FARM_WRONG(l->reader, item->at, "begin it with \"name: ...\"", "which %s is to change is not named",
                      section->name);
        return;
    }
    const char *called = ls_arena_printf(a, "%s %s", section->name, name->text);
    bool dropped = drops_all(item);
    if (dropped && item->n > 2)
        LS_FARM_WRONG(l->reader, item->at, "write only its name and \"remove: yes\"",
                      "%s is removed and changed at once", called);
    if (dropped && i == list->n)
        LS_FARM_WRONG(l->reader, name->at, "write the name as it stands in the farm files",
                      "nothing to remove: there is no %s \"%s\"", section->name, name->text);
    else if (dropped) {
        say(l, called, "in the files", NULL);
        drop(list, i);
    } else if (i < list->n)
        list->items[i] = laid(l, section, called, list->items[i], item);
    else if (is_whole(section, item)) {
        say(l, called, NULL, "added");
        list->items[list->n++] = item;
    } else
        refuse_unknown(l, section, list, name);
}

/* One that stands without a list is a list of one. */
static ls_node *as_list(laying *l, const ls_node *node) {
    if (node->kind == LS_SEQUENCE) return ls_farm_node_copy(l->reader->arena, node, 0);
    ls_node *list = ls_farm_node_copy(l->reader->arena, node, 1);
    list->kind = LS_SEQUENCE;
    list->n = 1;
    *list->items = ls_farm_node_copy(l->reader->arena, node, 0);
    return list;
}

static bool is_named_before(const ls_node *list, size_t i) {
    const ls_node *name = ls_farm_node_name(list->items[i]);
    return name != NULL && ls_farm_node_named(list, name->text) < i;
}

static ls_node *lay_list(laying *l, const ls_farm_section *section, const ls_node *base, const ls_node *change) {
    const ls_node *from = as_list(l, change);
    ls_node *list = ls_farm_node_copy(l->reader->arena, as_list(l, base), from->n);
    for (size_t i = 0; i < from->n; i++)
        if (is_named_before(from, i))
            LS_FARM_WRONG(l->reader, from->items[i]->at, "put its keys together", "this %s is changed twice",
                          section->name);
        else
            lay_item(l, section, list, from->items[i]);
    return list;
}

/* ---- keys ---- */

static bool has_zones(const ls_node *node) {
    for (size_t i = 0; i < node->n; i++)
        for (size_t k = 0; ls_farm_zones[k] != NULL; k++)
            if (strcmp(node->keys[i]->text, ls_farm_zones[k]) == 0) return true;
    return false;
}

/* Are keys of the value changed one by one? */
static bool key_by_key(const ls_farm_key *key, const ls_node *base, const ls_node *change) {
    if (base->kind != LS_MAPPING || change->kind != LS_MAPPING) return false;
    if (key->kind == LS_FARM_ZONED) return has_zones(base) == has_zones(change);
    return true;
}

static ls_node *lay_value(laying *l, const ls_farm_key *key, const char *under, ls_node *base, ls_node *change) {
    if (key->kind == LS_FARM_SECTIONS && ls_farm_key_of(key->section, "name") != NULL)
        return lay_list(l, key->section, base, change);
    if (key_by_key(key, base, change)) return laid(l, key->section, under, base, change);
    note(l, under, base, change);
    return change;
}

static bool names_a_file(const ls_farm_key *key) {
    const ls_farm_section *section = key->section;
    return key->names != 0 ||
           (section != NULL && section->only != NULL && ls_farm_key_of(section, section->only)->names != 0);
}

/* One key of the change laid over a mapping that has room for it. */
static void lay_entry(laying *l, const ls_farm_section *section, const char *under, ls_node *base, ls_node *key_node,
                      ls_node *value) {
    const ls_farm_key *key = section == NULL ? NULL : ls_farm_key_of(section, key_node->text);
    const char *what = below(l, under, key_node->text);
    size_t i = index_of(base, key_node->text);
    if (key != NULL && names_a_file(key))
        LS_FARM_WRONG(l->reader, key_node->at, "write it into a farm file", "%s names a file; a change cannot",
                      key_node->text);
    else if (i < base->n && drops_all(value)) {
        note(l, what, base->items[i], NULL);
        drop(base, i);
    } else if (i < base->n && key != NULL) {
        base->items[i] = lay_value(l, key, what, base->items[i], value);
        if (base->items[i]->kind == LS_SEQUENCE && base->items[i]->n == 0) drop(base, i); /* the last of them is gone */
    } else {
        note(l, what, i < base->n ? base->items[i] : NULL, value);
        base->keys[i] = key_node;
        base->items[i] = value;
        base->n += i == base->n;
    }
}

static ls_node *laid(laying *l, const ls_farm_section *section, const char *under, const ls_node *base,
                     const ls_node *change) {
    ls_node *out = ls_farm_node_copy(l->reader->arena, base, change->n);
    if (change->kind != LS_MAPPING) return out; /* a bare name changes nothing */
    if (base->kind != LS_MAPPING)
        return ls_farm_node_copy(l->reader->arena, change, 0); /* a bare name has no keys yet */
    for (size_t i = 0; i < change->n; i++)
        if (strcmp(change->keys[i]->text, remove_key) == 0)
            drop_keys(l, under, out, change->items[i]);
        else
            lay_entry(l, section, under, out, change->keys[i], change->items[i]);
    return out;
}

const ls_node *ls_farm_lay(ls_farm_reader *reader, const ls_node *files, const ls_node *change,
                           ls_farm_changes *changes) {
    laying l = {reader, changes};
    size_t before = ls_diag_count(reader->diag, LS_ERROR);
    const ls_node *top = laid(&l, &ls_farm_top, "", files, change);
    return ls_diag_count(reader->diag, LS_ERROR) == before ? top : NULL;
}
