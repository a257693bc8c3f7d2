/* From YAML trees to structs, by the schema. */
#include "reader.h"

#include <string.h>

/* Any LS_LIST, seen without its type. */
typedef struct {
    void *at;
    size_t n, cap;
} any_list;

/* Read the keys of a section; key_name is what it stands under. False: something in it is wrong. */
static bool load_section(ls_farm_reader *reader, const ls_farm_section *section, const char *key_name,
                         const ls_node *node, void *into);

/* The keys under which a key of that name stands right below the section: "measured: or bedding:".
 * If there is none, the nearest one further down. */
static const char *stands_under(ls_arena *a, const ls_farm_section *section, const char *name) {
    ls_text *under = ls_text_new(a);
    const char *deeper = NULL;
    for (size_t i = 0; i < section->n; i++)
        if (section->keys[i].section != NULL && ls_farm_key_of(section->keys[i].section, name))
            ls_text_addf(under, "%s%s:", under->n > 0 ? " or " : "", section->keys[i].name);
    for (size_t i = 0; i < section->n && under->n == 0 && deeper == NULL; i++)
        if (section->keys[i].section != NULL) deeper = stands_under(a, section->keys[i].section, name);
    return under->n > 0 ? under->s : deeper;
}

/* A hint that asks which of several keys is meant, as the lines that they make. */
static const char *as_lines(ls_arena *a, const char *hint, const char *const *names, size_t n, const char *value) {
    ls_text *t = ls_text_new(a);
    for (size_t i = 0; i < n; i++)
        if (strstr(hint, ls_arena_printf(a, "\"%s\"", names[i])) != NULL)
            ls_text_addf(t, "%s\"%s: %s\"", t->n > 0 ? " or " : "which is it? write ", names[i], value);
    return t->s;
}

/* Note a key that the section does not have; returns the key that was most likely meant, or NULL.
 */
static const ls_farm_key *unknown_key(ls_farm_reader *reader, const ls_farm_section *section, const char *key_name,
                                      const ls_node *key, const ls_node *value) {
    enum { FEW = 10 };
    ls_arena *a = reader->arena;
    const char **names = LS_NEW(a, const char *, section->n);
    for (size_t i = 0; i < section->n; i++) names[i] = section->keys[i].name;
    const char *hint = ls_farm_suggest(a, key->text, names, section->n, NULL);
    const ls_farm_key *meant = NULL;
    for (size_t i = 0; hint != NULL && i < section->n && meant == NULL; i++)
        if (strcmp(hint, ls_arena_printf(a, "did you mean \"%s\"?", names[i])) == 0) meant = &section->keys[i];
    if (hint != NULL && meant == NULL && value->kind == LS_SCALAR)
        hint = as_lines(a, hint, names, section->n, value->text);
    const char *under = stands_under(a, section, key->text);
    if (under == NULL && section->n > FEW) under = stands_under(a, &ls_farm_top, key->text);
    if (hint == NULL && under != NULL) hint = ls_arena_printf(a, "%s stands under %s", key->text, under);
    if (hint == NULL && section->n > FEW && key_name) {
        LS_FARM_WRONG(reader, key->at, "put \"# \" before it and it is a note; littershed-farm(5) has all that is read",
                      "nothing here is called \"%s\"", key->text);
        return NULL;
    }
    if (hint == NULL)
        hint = ls_arena_printf(a, key_name ? "keys that may stand here: %s" : "the sections are: %s",
                               ls_farm_joined(a, names, section->n));
    if (key_name)
        LS_FARM_WRONG(reader, key->at, hint, "unknown key \"%s\" under %s", key->text, key_name);
    else
        LS_FARM_WRONG(reader, key->at, hint, "unknown section \"%s\"", key->text);
    return meant;
}

/* Is it written as keys and values? */
static bool is_section(ls_farm_reader *reader, const ls_farm_key *key, const ls_node *node) {
    if (node->kind == LS_MAPPING || node->refused) return node->kind == LS_MAPPING;
    return LS_FARM_WRONG(reader, node->at, ls_farm_for_example(reader, key), "%s needs keys of its own", key->name);
}

static void read_section(ls_farm_reader *reader, const ls_farm_key *key, const ls_node *node, void *member) {
    if (!is_section(reader, key, node)) return;
    void *into = ls_arena_alloc(reader->arena, key->section->size, 1);
    load_section(reader, key->section, key->name, node, into);
    memcpy(member, &into, sizeof into);
}

/* A word that stands for a section with one key: "left" for {name: left}. */
static void read_short_form(ls_farm_reader *reader, const ls_farm_section *section, const ls_node *node, char *into) {
    const ls_farm_key *key = ls_farm_key_of(section, section->only);
    memcpy(into + section->at, &node->at, sizeof node->at);
    ls_farm_read_value(reader, ls_farm_value_of(key, node), into + key->offset);
}

static void read_sections(ls_farm_reader *reader, const ls_farm_key *key, const ls_node *node, void *member) {
    const ls_farm_section *section = key->section;
    any_list list = {0};
    if (node->kind != LS_SEQUENCE && (key->flags & LS_FARM_ONE_OR_MANY)) {
        read_section(reader, key, node, &list.at);
        list.n = list.cap = list.at != NULL;
        memcpy(member, &list, sizeof list);
        return;
    }
    if (node->refused) return;
    if (node->kind != LS_SEQUENCE || node->n == 0) {
        const char *none =
            key->none ? ls_arena_printf(reader->arena, ", or write \"%s: %s\"", key->name, key->none) : "";
        LS_FARM_WRONG(reader, node->at,
                      ls_arena_printf(reader->arena, "begin each %s with \"- \", for example \"- %s\"%s", section->name,
                                      ls_farm_example(reader->arena, &section->keys[0]), none),
                      node->kind == LS_SEQUENCE ? "the list %s is empty" : "%s must be a list", key->name);
        return;
    }
    list.at = ls_arena_alloc(reader->arena, section->size, node->n);
    list.n = list.cap = node->n;
    for (size_t i = 0; i < node->n; i++) {
        char *into = (char *)list.at + i * section->size;
        if (section->only && node->items[i]->kind == LS_SCALAR)
            read_short_form(reader, section, node->items[i], into);
        else if (is_section(reader, key, node->items[i]))
            load_section(reader, section, key->name, node->items[i], into);
    }
    memcpy(member, &list, sizeof list);
}

/* ---- values that may be written as sections ---- */

/* A quantity, or the weights it is made of. */
static void read_one(ls_farm_reader *reader, ls_farm_value value, ls_quantity *out) {
    if (value.node->kind == LS_MAPPING && value.key->section == &ls_farm_weights) {
        ls_weights weights = {0};
        *out = (ls_quantity){.text = "", .at = value.node->at};
        if (load_section(reader, value.key->section, value.name, value.node, &weights))
            ls_farm_read_weights(reader, value, &weights, out);
    } else {
        ls_farm_read_quantity(reader, value, out);
    }
}

/* Does the mapping hold a key of the section, rather than parts of the floor? */
static bool holds_keys_of(const ls_farm_section *section, const ls_node *node) {
    for (size_t i = 0; section && i < node->n; i++)
        if (ls_farm_key_of(section, node->keys[i]->text)) return true;
    return false;
}

/* A mapping of zones to quantities, or one quantity for a plain floor; or the key's other form. */
static void read_zoned(ls_farm_reader *reader, ls_farm_value value, ls_zoned *zoned) {
    bool other = value.node->kind == LS_MAPPING && holds_keys_of(value.key->section, value.node);
    if (other && value.key->section == &ls_farm_grid) {
        ls_depth_grid *grid = LS_NEW(reader->arena, ls_depth_grid, 1);
        if (load_section(reader, value.key->section, value.name, value.node, grid) && ls_farm_read_grid(reader, grid))
            zoned->grid = grid;
        return;
    }
    if (other || value.node->kind != LS_MAPPING) {
        read_one(reader, value, &zoned->of[LS_FLOOR]);
        return;
    }
    bool known = true;
    for (size_t i = 0; i < value.node->n; i++) {
        const ls_node *zone_key = value.node->keys[i];
        int zone = 0;
        for (int k = 1; k < LS_ZONES; k++)
            if (strcmp(zone_key->text, ls_zone_name(k)) == 0) zone = k;
        if (zone == 0) {
            LS_FARM_WRONG(
                reader, zone_key->at,
                ls_farm_suggest(reader->arena, zone_key->text, ls_farm_zones, LS_ZONES - 1, "write one of these"),
                "unknown part of the floor \"%s\" under %s", zone_key->text, value.name);
            known = false;
            continue;
        }
        const char *label = ls_arena_printf(reader->arena, "%s of %s", value.label, ls_zone_name(zone));
        ls_farm_value item = {value.key, label, ls_zone_name(zone), value.node->items[i]};
        read_one(reader, item, &zoned->of[zone]);
    }
    if (!known) *zoned = (ls_zoned){.grid = NULL}; /* which part lacks is not known */
}

static void read_entry(ls_farm_reader *reader, const ls_farm_key *key, const ls_node *node, char *into) {
    if (key->none && node->kind == LS_SCALAR && strcmp(node->text, key->none) == 0) {
        ls_yesno told = {true, node->at};
        memcpy(into + key->if_none, &told, sizeof told);
    } else if (key->kind == LS_FARM_SECTION)
        read_section(reader, key, node, into + key->offset);
    else if (key->kind == LS_FARM_SECTIONS)
        read_sections(reader, key, node, into + key->offset);
    else if (key->kind == LS_FARM_ZONED)
        read_zoned(reader, ls_farm_value_of(key, node), (void *)(into + key->offset));
    else
        ls_farm_read_value(reader, ls_farm_value_of(key, node), into + key->offset);
}

/* `house "North"`, or `this flock` for what has no name. */
static const char *called(ls_farm_reader *reader, const ls_farm_section *section, const char *into) {
    const ls_farm_key *key = ls_farm_key_of(section, "name");
    ls_name name = {0};
    if (key) memcpy(&name, into + key->offset, sizeof name);
    return ls_farm_called(reader->arena, section->name, name);
}

/* Of a group of keys one is given: "depth|volume". Adds to what is lacked, and examples of it. */
static void check_one_of(ls_farm_reader *reader, const ls_farm_section *section, const ls_node *node, const char *group,
                         ls_text *lacks, ls_text *hint) {
    ls_arena *a = reader->arena;
    const ls_farm_key *first = NULL;
    const char *name;
    ls_text *names = ls_text_new(a), *examples = ls_text_new(a);
    for (size_t i = 0; (name = ls_farm_part(a, group + (group[0] == '?'), i)) != NULL; i++) {
        const ls_farm_key *key = ls_farm_key_of(section, name);
        const ls_node *value = ls_yaml_get(node, name);
        ls_text_addf(names, "%s%s", i > 0 ? " or " : "", name);
        ls_text_addf(examples, "%s\"%s\"", i > 0 ? " or " : "", ls_farm_local(reader, ls_farm_example(a, key)));
        if (value != NULL && first != NULL)
            LS_FARM_WRONG(reader, value->at, ls_arena_printf(a, "keep one; %s: %s", name, key->help),
                          "%s and %s are both given", first->name, name);
        first = value != NULL ? key : first;
    }
    if (first != NULL || group[0] == '?') return;
    ls_text_addf(lacks, "%s%s", lacks->n > 0 ? ", " : "", names->s);
    ls_text_addf(hint, "%s%s", hint->n > 0 ? ", " : "", examples->s);
}

static void check_required(ls_farm_reader *reader, const ls_farm_section *section, const bool *given,
                           const ls_node *node, const char *into, bool clean) {
    ls_arena *a = reader->arena;
    ls_text *lacks = ls_text_new(a), *hint = ls_text_new(a);
    for (const char *s = clean && section->one_of ? section->one_of : ""; *s != '\0';) {
        size_t n = strcspn(s, " ");
        check_one_of(reader, section, node, ls_arena_copy_n(a, s, n), lacks, hint);
        s += n + strspn(s + n, " ");
    }
    for (size_t i = 0; i < section->n && !node->refused; i++) {
        const ls_farm_key *key = &section->keys[i], *other = key->unless ? ls_farm_key_of(section, key->unless) : NULL;
        if (given[i] || !ls_farm_lacks(key, node)) continue;
        ls_text_addf(lacks, "%s%s", lacks->n > 0 ? ", " : "", key->name);
        ls_text_addf(hint, "%s\"%s\"", hint->n > 0 ? ", " : "", ls_farm_local(reader, ls_farm_example(a, key)));
        if (other) ls_text_addf(hint, " or \"%s\"", ls_farm_example(a, other));
    }
    if (lacks->n > 0)
        LS_FARM_WRONG(reader, node->at,
                      ls_arena_printf(a, "add %s, for example %s", strchr(lacks->s, ',') ? "them" : "it", hint->s),
                      "%s has no %s", called(reader, section, into), lacks->s);
}

static bool load_section(ls_farm_reader *reader, const ls_farm_section *section, const char *key_name,
                         const ls_node *node, void *into) {
    size_t before = ls_diag_count(reader->diag, LS_ERROR);
    bool *given = LS_NEW(reader->arena, bool, section->n), right = !node->refused, clean = right;
    memcpy((char *)into + section->at, &node->at, sizeof node->at);
    for (size_t i = 0; i < node->n; i++) {
        const ls_farm_key *key = ls_farm_key_of(section, node->keys[i]->text);
        bool known = key != NULL;
        if (!known && !node->items[i]->refused)
            key = unknown_key(reader, section, key_name, node->keys[i], node->items[i]);
        bool twice = !known && key != NULL && ls_yaml_get(node, key->name) != NULL;
        size_t so_far = ls_diag_count(reader->diag, LS_ERROR);
        bool below = key && key->kind >= LS_FARM_SECTION && node->items[i]->n > 0;
        if (key && !twice) read_entry(reader, key, node->items[i], into);
        clean = clean && known && (below || ls_diag_count(reader->diag, LS_ERROR) == so_far);
        if (key) given[key - section->keys] = true;
        right = right && !node->items[i]->refused;
    }
    check_required(reader, section, given, node, into, clean);
    reader->section = section;
    if (section->check) section->check(reader, into, clean);
    return right && ls_diag_count(reader->diag, LS_ERROR) == before;
}

/* The files of one farm as they are joined. */
typedef struct {
    ls_farm_reader *reader;
    ls_farm *farm;
    ls_place *given;  /* by key of the top: where it was given first */
    const char *text; /* stands for what the file holds; NULL: it is read */
    bool plain;       /* only plain files are read */
} joining;

/* One section of one file. */
static void join_entry(joining *j, const ls_node *key_node, const ls_node *node) {
    ls_farm_reader *reader = j->reader;
    const ls_farm_key *key = ls_farm_key_of(&ls_farm_top, key_node->text);
    if (!key && node->refused) return;
    if (!key) {
        key = unknown_key(reader, &ls_farm_top, NULL, key_node, node);
        if (key && j->given[key - ls_farm_top.keys].line == 0) j->given[key - ls_farm_top.keys] = key_node->at;
        return;
    }
    ls_place *given = &j->given[key - ls_farm_top.keys];
    if (given->line != 0) {
        LS_FARM_WRONG(reader, key_node->at,
                      ls_arena_printf(reader->arena, "it stands at %s too: keep one",
                                      ls_diag_where(reader->arena, reader->diag, *given)),
                      "%s is given twice", key->name);
        return;
    }
    *given = key_node->at;
    read_entry(reader, key, node, (char *)j->farm);
}

/* NULL: a mistake is noted. */
static const ls_node *read_file(const joining *j, const char *path) {
    ls_farm_reader *reader = j->reader;
    int32_t file = j->text != NULL ? ls_diag_input(reader->diag, (ls_input){path, j->text, strlen(j->text)})
                                   : (j->plain ? ls_file_read_plain : ls_file_read)(reader->arena, reader->diag, path);
    const ls_node *top = file < 0 ? NULL : ls_yaml_read_most(reader->arena, reader->diag, file);
    if (top == NULL || top->kind == LS_MAPPING) return top;
    LS_FARM_WRONG(reader, top->at, "begin with a section, for example \"houses:\"", "this is not a farm file");
    return NULL;
}

/* The sections of all files that could be read, in one tree. */
static const ls_node *read_files(const joining *j, const char *const *paths, size_t n) {
    LS_LIST(ls_node *) keys = {0}, items = {0};
    bool whole = true;
    for (size_t i = 0; i < n; i++) {
        const ls_node *top = read_file(j, paths[i]);
        whole = whole && top != NULL && !top->refused;
        for (size_t k = 0; top != NULL && k < top->n; k++) {
            *LS_PUSH(j->reader->arena, &keys) = top->keys[k];
            *LS_PUSH(j->reader->arena, &items) = top->items[k];
        }
    }
    ls_node *all = LS_NEW(j->reader->arena, ls_node, 1);
    *all =
        (ls_node){.kind = LS_MAPPING, .text = "", .refused = !whole, .n = keys.n, .keys = keys.at, .items = items.at};
    return all;
}

/* One message, not one for every section that then stands twice. */
static bool each_once(ls_diag *d, const char *const *paths, size_t n) {
    for (size_t i = 0; i < n; i++)
        for (size_t k = 0; k < i; k++)
            if (strcmp(paths[i], paths[k]) == 0)
                return ls_diag_add(d, LS_ERROR, LS_NOWHERE, "name each file once", "the file %s is named twice",
                                   paths[i]);
    return true;
}

static const ls_farm *read_farm(joining j, const char *const *paths, size_t n, const char *change) {
    ls_farm_reader *reader = j.reader;
    ls_arena *a = reader->arena;
    ls_diag *d = reader->diag;
    j.farm = LS_NEW(a, ls_farm, 1), j.given = LS_NEW(a, ls_place, ls_farm_top.n);
    size_t before = ls_diag_count(d, LS_ERROR);
    j.farm->diag = d;
    if (!each_once(d, paths, n)) return NULL;
    const ls_node *top = read_files(&j, paths, n);
    reader->metric = ls_farm_is_metric(a, top);
    top = ls_farm_in_its_words(reader, top);
    const ls_node *over = change == NULL ? NULL : read_file(&j, change);
    if (change != NULL)
        top = ls_diag_count(d, LS_ERROR) == before ? ls_farm_lay(reader, top, over, &j.farm->changes) : NULL;
    if (top != NULL) ls_farm_fill_alike(reader, top);
    if (top == NULL || !ls_farm_find_named(reader, top, &j.farm->named) || !ls_farm_read_own_tables(reader, top))
        return NULL; /* what else the files say cannot be checked without them */
    j.farm->metric = reader->metric;
    j.farm->reference = reader->reference;
    for (size_t i = 0; i < top->n; i++) join_entry(&j, top->keys[i], top->items[i]);
    if (!top->refused) /* else what belongs together may lack a part */
        ls_farm_check_all(reader, j.farm, ls_diag_count(d, LS_ERROR) == before);
    return ls_diag_count(d, LS_ERROR) == before ? j.farm : NULL;
}

#define READING(...) ((joining){.reader = &(ls_farm_reader){.arena = a, .diag = d, .reference = r}, __VA_ARGS__})

const ls_farm *ls_farm_read(ls_arena *a, ls_diag *d, const ls_reference *r, const char *const *paths, size_t n) {
    return read_farm(READING(.plain = false), paths, n, NULL);
}

const ls_farm *ls_farm_read_named(ls_arena *a, ls_diag *d, const ls_reference *r, const char *const *paths, size_t n) {
    return read_farm(READING(.plain = true), paths, n, NULL);
}

const ls_farm *ls_farm_read_text(ls_arena *a, ls_diag *d, const ls_reference *r, const char *path, const char *text) {
    return read_farm(READING(.text = text), &path, 1, NULL);
}

const ls_farm *ls_farm_read_instead(ls_arena *a, ls_diag *d, const ls_reference *r, const char *const *paths, size_t n,
                                    const char *change) {
    return read_farm(READING(.plain = false), paths, n, change);
}
