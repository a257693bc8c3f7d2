/* The JSON Schema of a farm file, for editors: made from the schema table. It checks shapes; the
 * program checks the rest. */
#include "schema.h"

#include <jansson.h>
#include <stdlib.h>

#define NUMBER "[0-9]+(\\.[0-9]+)?"
#define DATE "[0-9]{4}-[0-9]{2}-[0-9]{2}"

static json_t *made(json_t *value) {
    if (!value)
        ls_fail("out of memory");
    return value;
}

static json_t *put(json_t *object, const char *name, json_t *value) {
    if (json_object_set_new(object, name, made(value)) != 0)
        ls_fail("out of memory");
    return object;
}

static void push(json_t *array, json_t *value) {
    if (json_array_append_new(array, made(value)) != 0)
        ls_fail("out of memory");
}

static json_t *object(void) {
    return made(json_object());
}

static json_t *text(const char *s) {
    return made(json_string(s));
}

static json_t *matching(const char *pattern) {
    return put(put(object(), "type", text("string")), "pattern", text(pattern));
}

static json_t *array_of(json_t *items) {
    return put(put(object(), "type", text("array")), "items", items);
}

static json_t *either(json_t *a, json_t *b) {
    json_t *any = made(json_array());
    push(any, a);
    push(any, b);
    return put(object(), "anyOf", any);
}

static json_t *words(const char *const *list) {
    json_t *array = made(json_array());
    for (size_t i = 0; list[i]; i++)
        push(array, text(list[i]));
    return put(object(), "enum", array);
}

static json_t *weekday(void) {
    enum { DAYS = 7 };
    const char *names[DAYS + 1] = {NULL};
    for (int k = 0; k < DAYS; k++)
        names[k] = ls_weekday_name(k);
    return words(names);
}

/* A number and its unit in the forms the key allows. */
static json_t *quantity(ls_arena *a, const ls_farm_key *key) {
    const char *unit = key->per ? key->per : "[^ 0-9][^ ]*";
    ls_text *pattern = ls_text_new(a);
    ls_text_addf(pattern, "^(" NUMBER "%s %s",
                 key->flags & LS_FARM_READINGS ? "( " NUMBER ")*" : "", unit);
    if (key->flags & LS_FARM_SPREAD)
        ls_text_addf(pattern, "|" NUMBER "\\.\\." NUMBER " %s|" NUMBER " %s \\+/- " NUMBER " [^ ]+",
                     unit, unit);
    ls_text_add(pattern, ")$");
    return matching(pattern->s);
}

/* Strings too: some readers of YAML leave numbers as text. */
static json_t *whole(const ls_farm_key *key) {
    json_t *types = made(json_array());
    push(types, text("integer"));
    push(types, text("string"));
    json_t *schema = put(put(object(), "type", types), "pattern", text("^[0-9]+$"));
    put(schema, "minimum", made(json_integer((json_int_t)key->least)));
    return put(schema, "maximum", made(json_integer((json_int_t)key->most)));
}

/* Some readers of YAML take yes and no for true and false. */
static json_t *yes_or_no(void) {
    static const char *const answers[] = {"yes", "no", NULL};
    json_t *schema = words(answers), *list = json_object_get(schema, "enum");
    push(list, json_true());
    push(list, json_false());
    return schema;
}

/* Some readers of YAML take 07:00 for a number of minutes. */
static json_t *clock_time(void) {
    json_t *types = made(json_array());
    push(types, text("string"));
    push(types, text("integer"));
    return put(put(object(), "type", types), "pattern", text("^([01][0-9]|2[0-3]):[0-5][0-9]$"));
}

/* A name may look like a number. */
static json_t *any_text(void) {
    json_t *types = made(json_array());
    push(types, text("string"));
    push(types, text("number"));
    return put(object(), "type", types);
}

static json_t *section_schema(ls_arena *a, const ls_farm_section *section);

/* A quantity, or one for each part of the floor; moisture also by weights, depth also on a grid. */
static json_t *zoned(ls_arena *a, const ls_farm_key *key) {
    json_t *zones = object(), *alone = quantity(a, key);
    for (int z = 1; z < LS_ZONES; z++)
        put(zones, ls_zone_name(z),
            key->section == &ls_farm_weights
                ? either(quantity(a, key), section_schema(a, key->section))
                : quantity(a, key));
    if (key->section)
        alone = either(alone, section_schema(a, key->section));
    json_t *by_zone = put(put(object(), "type", text("object")), "properties", zones);
    return either(alone, put(by_zone, "additionalProperties", made(json_false())));
}

static json_t *list_schema(ls_arena *a, const ls_farm_section *section) {
    json_t *item = section_schema(a, section);
    json_t *list = array_of(section->only ? either(any_text(), item) : item);
    return put(list, "minItems", made(json_integer(1)));
}

static json_t *value_schema(ls_arena *a, const ls_farm_key *key) {
    switch (key->kind) {
    case LS_FARM_TEXT:
    case LS_FARM_ROW:
    case LS_FARM_TABLE:
        return any_text();
    case LS_FARM_WORD:
        return words(key->words);
    case LS_FARM_DATE:
        return matching("^" DATE "$");
    case LS_FARM_WINDOW:
        return matching("^" DATE "\\.\\." DATE "$");
    case LS_FARM_QUANTITY:
        return quantity(a, key);
    case LS_FARM_ZONED:
        return zoned(a, key);
    case LS_FARM_BARE:
    case LS_FARM_COUNT:
        return whole(key);
    case LS_FARM_YESNO:
        return yes_or_no();
    case LS_FARM_DELAY:
        return matching("^(at once|never|within [0-9]+ days?)$");
    case LS_FARM_WEEKDAYS:
        return array_of(weekday());
    case LS_FARM_DATES:
        return array_of(matching("^" DATE "$"));
    case LS_FARM_CLOCK:
        return clock_time();
    case LS_FARM_SECTION:
        return section_schema(a, key->section);
    case LS_FARM_SECTIONS:
        if (key->none)
            return either(put(object(), "const", text(key->none)), list_schema(a, key->section));
        return key->flags & LS_FARM_ONE_OR_MANY
                   ? either(section_schema(a, key->section), list_schema(a, key->section))
                   : list_schema(a, key->section);
    case LS_FARM_FILES:
        return either(any_text(), array_of(any_text()));
    case LS_FARM_PRICES:
        return put(put(object(), "type", text("object")), "additionalProperties", quantity(a, key));
    }
    return object();
}

/* The sections of a farm may stand in several files: none is required of one file. */
static json_t *section_schema(ls_arena *a, const ls_farm_section *section) {
    json_t *schema = put(object(), "type", text("object")), *properties = object(),
           *required = made(json_array());
    for (size_t i = 0; i < section->n; i++) {
        const ls_farm_key *key = &section->keys[i];
        json_t *value = value_schema(a, key), *examples = made(json_array());
        put(value, "description", text(key->help));
        push(examples, text(key->example));
        if (key->kind == LS_FARM_QUANTITY || key->kind == LS_FARM_TEXT)
            put(value, "examples", examples);
        else
            json_decref(examples);
        put(properties, key->name, value);
        if ((key->flags & LS_FARM_REQUIRED) && section != &ls_farm_top)
            push(required, text(key->name));
    }
    put(schema, "properties", properties);
    put(schema, "required", required);
    return put(schema, "additionalProperties", made(json_false()));
}

const char *ls_farm_json_schema(ls_arena *a) {
    json_t *schema = put(object(), "$schema", text("https://json-schema.org/draft/2020-12/schema"));
    put(schema, "title", text("littershed farm file"));
    json_t *top = section_schema(a, &ls_farm_top);
    if (json_object_update(schema, top) != 0)
        ls_fail("out of memory");
    json_decref(top);
    char *dumped = json_dumps(schema, JSON_INDENT(2));
    json_decref(schema);
    if (!dumped)
        ls_fail("out of memory");
    const char *copy = ls_arena_printf(a, "%s\n", dumped);
    free(dumped);
    return copy;
}
