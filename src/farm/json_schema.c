/* The JSON Schema of a farm file, for editors: made from the schema table. It checks shapes; the
 * program checks the rest. */
#include "reader.h"

#include <ctype.h>
#include <jansson.h>
#include <stdlib.h>
#include <string.h>

#define WHOLE "[0-9]+(,[0-9]{3})*"
#define NUMBER WHOLE "(\\.[0-9]+)?"
#define DATE "[0-9]{4}-[0-9]{2}-[0-9]{2}"
#define CLOCK "([01][0-9]|2[0-3]):[0-5][0-9]"

static json_t *made(json_t *value) {
    if (!value) ls_fail("out of memory");
    return value;
}
/* Values by a format of jansson; what is handed over with o is taken over. */
#define MADE(...) made(json_pack(__VA_ARGS__))

static void put(json_t *object, const char *name, json_t *value) {
    if (json_object_set_new(object, name, made(value)) != 0) ls_fail("out of memory");
}

static void push(json_t *array, json_t *value) {
    if (json_array_append_new(array, made(value)) != 0) ls_fail("out of memory");
}

static json_t *matching(const char *pattern) { return MADE("{ss ss}", "type", "string", "pattern", pattern); }

static json_t *array_of(json_t *items) { return MADE("{ss so}", "type", "array", "items", items); }

static json_t *either(json_t *a, json_t *b) { return MADE("{s[oo]}", "anyOf", a, b); }

static json_t *words(const char *const *list) {
    json_t *array = MADE("[]");
    for (size_t i = 0; list[i]; i++) push(array, json_string(list[i]));
    return MADE("{so}", "enum", array);
}

/* A number and its unit in the forms the key allows. */
static json_t *quantity(ls_arena *a, const ls_farm_key *key) {
    const char *unit = key->per ? key->per : "[^ 0-9][^ ]*";
    ls_text *pattern = ls_text_new(a);
    ls_text_addf(pattern, "^(" NUMBER "%s %s", key->flags & LS_FARM_READINGS ? "( " NUMBER ")*" : "", unit);
    if (key->flags & LS_FARM_SPREAD)
        ls_text_addf(pattern, "|" NUMBER "\\.\\." NUMBER " %s|" NUMBER " %s \\+/- " NUMBER " [^ ]+", unit, unit);
    ls_text_addf(pattern, "|" NUMBER " [^ 0-9]+ " NUMBER " [^ 0-9]+)$");
    return matching(pattern->s);
}

/* Strings too: some readers of YAML leave numbers as text. */
static json_t *whole(const ls_farm_key *key) {
    return MADE("{s[ss] ss sI sI}", "type", "integer", "string", "pattern", "^" WHOLE "$", "minimum",
                (json_int_t)key->least, "maximum", (json_int_t)key->most);
}

/* A name may look like a number. */
static json_t *any_text(void) { return MADE("{s[ss]}", "type", "string", "number"); }

/* The names of the tables, to choose from; others may be known too. */
static json_t *names(ls_farm_reader *r, const ls_farm_key *key) {
    ls_farm_names of = ls_farm_names_in(r, key->tables, key->kind == LS_FARM_ROW);
    *LS_PUSH(r->arena, &of) = NULL;
    return either(words(of.at), any_text());
}

static json_t *section_schema(ls_farm_reader *r, const ls_farm_section *section);

/* A quantity, or one for each part of the floor; moisture also by weights, depth also on a grid. */
static json_t *zoned(ls_farm_reader *r, const ls_farm_key *key) {
    json_t *zones = MADE("{}"), *alone = quantity(r->arena, key);
    for (int z = 1; z < LS_ZONES; z++)
        put(zones, ls_zone_name(z),
            key->section == &ls_farm_weights ? either(quantity(r->arena, key), section_schema(r, key->section))
                                             : quantity(r->arena, key));
    if (key->section) alone = either(alone, section_schema(r, key->section));
    return either(alone, MADE("{ss so sb}", "type", "object", "properties", zones, "additionalProperties", false));
}

static json_t *list_schema(ls_farm_reader *r, const ls_farm_section *section) {
    json_t *item = section_schema(r, section);
    return MADE("{ss so si}", "type", "array", "items", section->only ? either(any_text(), item) : item, "minItems", 1);
}

static json_t *value_schema(ls_farm_reader *r, const ls_farm_key *key) {
    switch (key->kind) {
    case LS_FARM_TEXT: return any_text();
    case LS_FARM_ROW:
    case LS_FARM_TABLE: return names(r, key);
    case LS_FARM_WORD: return words(key->words);
    case LS_FARM_DATE: return matching("^" DATE "$");
    case LS_FARM_WINDOW: return matching("^" DATE "\\.\\." DATE "$");
    case LS_FARM_QUANTITY: return quantity(r->arena, key);
    case LS_FARM_ZONED: return zoned(r, key);
    case LS_FARM_BARE:
    case LS_FARM_COUNT: return whole(key);
    case LS_FARM_YESNO:
        /* some readers of YAML take yes and no for true and false */
        return MADE("{s[ssbb]}", "enum", "yes", "no", true, false);
    case LS_FARM_DELAY: return matching("^(at once|never|within [0-9]+ days?)$");
    case LS_FARM_WEEKDAYS: return array_of(words(ls_weekdays));
    case LS_FARM_HOLDS: return array_of(matching("^" DATE "( (until|from) " CLOCK ")?$"));
    case LS_FARM_INSTANT: return matching("^" DATE "T" CLOCK "$");
    case LS_FARM_CLOCK:
        /* some readers of YAML take 07:00 for a number of minutes */
        return MADE("{s[ss] ss}", "type", "string", "integer", "pattern", "^" CLOCK "$");
    case LS_FARM_SECTION: return section_schema(r, key->section);
    case LS_FARM_SECTIONS: {
        json_t *list = list_schema(r, key->section);
        if (key->flags & LS_FARM_ONE_OR_MANY) list = either(section_schema(r, key->section), list);
        return key->none ? either(MADE("{ss}", "const", key->none), list) : list;
    }
    case LS_FARM_FILES: return either(any_text(), array_of(any_text()));
    case LS_FARM_PRICES: return MADE("{ss so}", "type", "object", "additionalProperties", quantity(r->arena, key));
    }
    return MADE("{}");
}

static json_t *section_schema(ls_farm_reader *r, const ls_farm_section *section) {
    json_t *properties = MADE("{}"), *required = MADE("[]");
    for (size_t i = 0; i < section->n; i++) {
        const ls_farm_key *key = &section->keys[i];
        json_t *value = value_schema(r, key);
        const char *help = key->help, *example = ls_farm_example(r->arena, key);
        put(value, "description",
            json_string(ls_arena_printf(r->arena, "%c%s%s For example: \"%s\"", toupper(help[0]), help + 1,
                                        ls_text_ends(help, "?") ? "" : ".", example)));
        if (key->kind < LS_FARM_SECTION) put(value, "examples", MADE("[s]", example + strlen(key->name) + 2));
        put(properties, key->name, value);
        if ((key->flags & LS_FARM_REQUIRED) && !key->unless) push(required, json_string(key->name));
    }
    json_t *object = MADE("{ss so sb}", "type", "object", "properties", properties, "additionalProperties", false);
    if (ls_farm_key_of(section, "like"))
        put(object, "anyOf", MADE("[{s[s]}{so}]", "required", "like", "required", required));
    else
        put(object, "required", required);
    return object;
}

const char *ls_farm_json_schema(ls_arena *a, const ls_reference *reference) {
    ls_farm_reader r = {.arena = a, .reference = reference};
    json_t *schema = MADE("{ss ss ss}", "$schema", "https://json-schema.org/draft/2020-12/schema", "title",
                          "littershed farm file", "description",
                          "A poultry farm, for littershed. This is the plain way to write it; "
                          "littershed check takes more, and says what is wrong.");
    json_t *top = section_schema(&r, &ls_farm_top);
    if (json_object_update(schema, top) != 0) ls_fail("out of memory");
    json_decref(top);
    char *dumped = json_dumps(schema, JSON_INDENT(2));
    json_decref(schema);
    if (!dumped) ls_fail("out of memory");
    const char *copy = ls_arena_printf(a, "%s\n", dumped);
    free(dumped);
    return copy;
}
