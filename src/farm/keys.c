/* Keys of the schema: found, as an example, missing; and the value behind one. */
#include "reader.h"

#include <string.h>

const ls_farm_key *ls_farm_key_of(const ls_farm_section *section, const char *name) {
    for (size_t i = 0; i < section->n; i++)
        if (strcmp(section->keys[i].name, name) == 0)
            return &section->keys[i];
    return NULL;
}

const char *ls_farm_part(ls_arena *a, const char *parts, size_t i) {
    for (; i > 0 && parts; i--) {
        parts = strchr(parts, '|');
        parts = parts ? parts + 1 : NULL;
    }
    return parts ? ls_arena_copy_n(a, parts, strcspn(parts, "|")) : NULL;
}

const char *ls_farm_units(ls_arena *a, const ls_farm_key *key) {
    ls_text *text = ls_text_new(a);
    const char *part;
    for (size_t i = 0; (part = ls_farm_part(a, key->units, i)) != NULL; i++)
        ls_text_addf(text, "%s%s", i > 0 ? " or " : "", ls_unit_many(a, part));
    return text->s;
}

const char *ls_farm_bound(ls_arena *a, const ls_farm_key *key, double bound) {
    bool year = key->least >= 1000; /* a year has no comma */
    return year ? ls_arena_printf(a, "%.0f", bound) : ls_number_text(a, bound, 6);
}

bool ls_farm_key_for(const ls_farm_key *key, int bird) {
    return key->birds == 0 || bird == 0 || (key->birds & LS_FARM_FOR(bird)) != 0;
}

const char *ls_farm_example(ls_arena *a, const ls_farm_key *key) {
    return ls_arena_printf(a, "%s: %s", key->name, key->example);
}

const char *ls_farm_called(ls_arena *a, const char *what, ls_name name) {
    return name.text ? ls_arena_printf(a, "%s \"%s\"", what, name.text)
                     : ls_arena_printf(a, "this %s", what);
}

void ls_farm_missing(ls_farm_reader *reader, ls_place at, const char *who, const ls_farm_key *key,
                     const char *more) {
    const char *hint =
        ls_arena_printf(reader->arena, "add it, for example \"%s\"%s%s",
                        ls_farm_example(reader->arena, key), more ? "; " : "", more ? more : "");
    LS_FARM_WRONG(reader, at, hint, "%s has no %s", who, key->name);
}

bool ls_farm_lacks(const ls_farm_key *key, const ls_node *item) {
    return (key->flags & LS_FARM_REQUIRED) != 0 && ls_yaml_get(item, key->name) == NULL &&
           (key->unless == NULL || ls_yaml_get(item, key->unless) == NULL);
}

ls_farm_value ls_farm_value_of(const ls_farm_key *key, const ls_node *node) {
    return (ls_farm_value){key, key->name, key->name, node};
}

const char *ls_farm_for_example(ls_farm_reader *reader, const ls_farm_key *key) {
    return ls_arena_printf(reader->arena, "for example \"%s\"",
                           ls_farm_example(reader->arena, key));
}

bool ls_farm_is_scalar(ls_farm_reader *reader, ls_farm_value value) {
    if (value.node->kind == LS_SCALAR)
        return true;
    const char *found = value.node->kind == LS_SEQUENCE ? "a list" : "keys of its own";
    return LS_FARM_MISTAKE(reader, value, ls_farm_for_example(reader, value.key),
                           "%s takes one value, not %s", value.label, found);
}
