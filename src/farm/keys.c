/* Keys of the schema: found, as an example, missing; and the value behind one. */
#include "reader.h"

#include <string.h>

const ls_farm_key *ls_farm_key_of(const ls_farm_section *section, const char *name) {
    for (size_t i = 0; i < section->n; i++)
        if (strcmp(section->keys[i].name, name) == 0) return &section->keys[i];
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
    return name.text ? ls_arena_printf(a, "%s \"%s\"", what, name.text) : ls_arena_printf(a, "this %s", what);
}

/* 1: a metric unit, -1: a US one, 0: neither, or no unit. */
static int metric(ls_arena *a, const char *text) {
    static const char of_both[] = "g|%|ppm|h|day|days|h/day|g/bird/day|year|years|$/h|s|load|loads";
    ls_unit unit;
    if (ls_text_among(of_both, text) || ls_unit_parse(a, text, strlen(text), &unit) != LS_UNIT_OK) return 0;
    return strcmp(ls_unit_metric(a, unit).text, text) == 0 ? 1 : -1;
}

static int metric_values(ls_arena *a, const ls_node *node) {
    const char *unit = node->kind == LS_SCALAR ? strrchr(node->text, ' ') : NULL;
    int n = unit == NULL || node->text[0] < '0' || node->text[0] > '9' ? 0 : metric(a, unit + 1);
    for (size_t i = 0; i < node->n; i++) n += metric_values(a, node->items[i]);
    return n;
}

bool ls_farm_is_metric(ls_arena *a, const ls_node *top) { return metric_values(a, top) > 0; }

const char *ls_farm_in_metric(ls_arena *a, const char *example) {
    enum { DIGITS = 2 };
    static const char ends[] = " ,}]\"";
    ls_text *t = ls_text_new(a);
    for (const char *s = example; *s != '\0';) {
        size_t numbers = strspn(s, "0123456789. "), n = strcspn(s + numbers, ends);
        const char *word = ls_arena_copy_n(a, s + numbers, n);
        if (numbers > 1 && s[numbers - 1] == ' ' && metric(a, word) < 0) {
            ls_unit from = ls_unit_of(word), to = ls_unit_metric(a, from);
            for (double x; *s >= '0' && *s <= '9'; s += strcspn(s, " ") + 1)
                if (ls_number_parse(s, strcspn(s, " "), &x))
                    ls_text_addf(t, "%s ", ls_number_text(a, x * from.factor / to.factor, DIGITS));
            ls_text_add(t, to.text);
            s += n;
        } else {
            n += numbers + (s[numbers + n] != '\0');
            ls_text_add_n(t, s, n);
            s += n;
        }
    }
    return t->s;
}

const char *ls_farm_local(const ls_farm_reader *reader, const char *example) {
    return reader->metric ? ls_farm_in_metric(reader->arena, example) : example;
}

void ls_farm_missing(ls_farm_reader *reader, ls_place at, const char *who, const ls_farm_key *key, const char *more) {
    const char *hint =
        ls_arena_printf(reader->arena, "add it, for example \"%s\"%s%s",
                        ls_farm_local(reader, ls_farm_example(reader->arena, key)), more ? "; " : "", more ? more : "");
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
                           ls_farm_local(reader, ls_farm_example(reader->arena, key)));
}

bool ls_farm_is_scalar(ls_farm_reader *reader, ls_farm_value value) {
    if (value.node->kind == LS_SCALAR) return !value.node->refused;
    const char *found = value.node->kind == LS_SEQUENCE ? "a list" : "keys of its own";
    return LS_FARM_MISTAKE(reader, value, ls_farm_for_example(reader, value.key), "%s takes one value, not %s",
                           value.label, found);
}
