#include "tables.h"

#include <stdarg.h>
#include <string.h>

static const char *const status_keys[] = {"read", "read2", "derived", "memory", "practice"};

/* What a figure at length may say beside its parts. */
static const char *const cell_keys[] = {"unit", "spread", "source", "status", "note", "why"};

bool ls_reference_wrong(ls_reference_reader *r, const ls_node *at, const char *hint, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    ls_diag_add(r->diag, LS_ERROR, at->at, hint, "%s", ls_arena_vprintf(r->arena, format, arguments));
    va_end(arguments);
    return false;
}

const char *ls_reference_text(ls_reference_reader *r, const ls_node *mapping, const char *key) {
    const ls_node *node = ls_yaml_get(mapping, key);
    if (node == NULL) return NULL;
    if (node->kind == LS_SCALAR) return node->text;
    ls_reference_wrong(r, node, "put it in quotes if it holds commas or braces", "%s must be a text", key);
    return NULL;
}

bool ls_reference_is_origin(const char *key) { return ls_reference_is_choice("source|status|note|why", key); }

static void read_source(ls_reference_reader *r, const ls_node *mapping, ls_reference_origin *o) {
    const char *id = ls_reference_text(r, mapping, "source");
    if (id == NULL) return;
    o->source = ls_reference_source(r->set, id);
    o->unknown_source = o->source == NULL && strcmp(id, "none") != 0;
    if (!o->unknown_source) return;
    LS_LIST(const char *) ids = {0};
    for (size_t i = 0; ls_reference_source_at(r->set, i) != NULL; i++)
        *LS_PUSH(r->arena, &ids) = ls_reference_source_at(r->set, i)->id;
    const char *near = ls_text_nearest(id, ids.at, ids.n);
    ls_reference_wrong(r, ls_yaml_get(mapping, "source"),
                       near != NULL ? ls_arena_printf(r->arena, "did you mean %s?", near)
                                    : "name one that stands under sources:, or a built-in one "
                                      "(littershed sources lists them)",
                       "there is no source %s", id);
}

static void read_status(ls_reference_reader *r, const ls_node *mapping, ls_reference_origin *o) {
    const char *word = ls_reference_text(r, mapping, "status");
    for (size_t i = 0; word != NULL && i < sizeof status_keys / sizeof *status_keys; i++)
        if (strcmp(word, status_keys[i]) == 0) {
            o->status = (int)i;
            return;
        }
    if (word != NULL)
        ls_reference_wrong(r, ls_yaml_get(mapping, "status"), "status is read, read2, derived, memory or practice",
                           "there is no status %s", word);
}

void ls_reference_read_origin(ls_reference_reader *r, const ls_node *mapping, ls_reference_origin *o) {
    read_source(r, mapping, o);
    read_status(r, mapping, o);
    const char *note = ls_reference_text(r, mapping, "note"), *why = ls_reference_text(r, mapping, "why");
    o->note = note != NULL ? note : o->note;
    o->why = why != NULL ? why : o->why;
}

bool ls_reference_check_origin(ls_reference_reader *r, const ls_node *at, const ls_reference_origin *o) {
    if (o->status < 0)
        return ls_reference_wrong(r, at, "write status: read, read2, derived, memory or practice",
                                  "the status is missing");
    if (o->unknown_source) return false; /* that is noted */
    if (o->source == NULL && o->status != LS_PRACTICE)
        return ls_reference_wrong(r, at, "write source: and an id that stands under sources:", "the source is missing");
    return true;
}

const char *ls_reference_joined(ls_arena *a, const char *const *names, size_t n) {
    ls_text *t = ls_text_new(a);
    for (size_t i = 0; i < n; i++) ls_text_addf(t, "%s%s", i > 0 ? ", " : "", names[i]);
    return t->s;
}

const char *ls_reference_meant(ls_reference_reader *r, const char *word, const char *const *names, size_t n,
                               const char *lead) {
    const char *near = ls_text_nearest(word, names, n);
    return near != NULL ? ls_arena_printf(r->arena, "did you mean %s?", near)
                        : ls_arena_printf(r->arena, "%s: %s", lead, ls_reference_joined(r->arena, names, n));
}

bool ls_reference_is_word(const ls_node *node) {
    return node->kind == LS_SCALAR && (node->quoted || node->text[0] < '0' || node->text[0] > '9');
}

/* The length of the number that s begins with: two dots in a row end it. */
static size_t number_length(const char *s) {
    size_t n = strspn(s, "0123456789");
    if (s[n] == '.' && s[n + 1] != '.') n += 1 + strspn(s + n + 1, "0123456789");
    return n;
}

/* "0.67 lb/bu" or "2.9..9 lb/ft3" into parts and unit. */
static bool read_short(ls_reference_reader *r, const ls_node *node, ls_reference_parts *p, const char **unit) {
    const char *s = node->text;
    size_t n = number_length(s);
    double first = 0, second = 0;
    bool good = ls_number_parse(s, n, &first), range = strncmp(s + n, "..", 2) == 0;
    s += n;
    if (good && range) {
        n = number_length(s + 2);
        good = ls_number_parse(s + 2, n, &second);
        s += 2 + n;
    }
    if (!good || (*s != '\0' && *s != ' '))
        return ls_reference_wrong(r, node, "write a figure such as 0.67 lb/bu or a range such as 2.9..9 lb/ft3",
                                  "this is no figure");
    *unit = s + strspn(s, " ");
    if (range) {
        p->printed.least = first;
        p->printed.most = second;
    } else {
        p->value = first;
    }
    return true;
}

static bool is_known(const char *key) {
    for (size_t i = 0; i < sizeof cell_keys / sizeof *cell_keys; i++)
        if (strcmp(cell_keys[i], key) == 0) return true;
    return false;
}

static const char *part_hint(ls_reference_reader *r, const char *word) {
    LS_LIST(const char *) names = {0};
    for (size_t i = 0; ls_reference_part_name(i) != NULL; i++) *LS_PUSH(r->arena, &names) = ls_reference_part_name(i);
    for (size_t i = 0; i < sizeof cell_keys / sizeof *cell_keys; i++) *LS_PUSH(r->arena, &names) = cell_keys[i];
    return ls_reference_meant(r, word, names.at, names.n, "it may have");
}

/* {value: 50, unit: lb/ft3, ...} into parts and unit. */
static bool read_long(ls_reference_reader *r, const ls_node *node, ls_reference_parts *p, const char **unit) {
    bool good = true;
    for (size_t i = 0; i < node->n; i++) {
        const ls_node *key = node->keys[i], *item = node->items[i];
        double *part = ls_reference_part(p, key->text);
        if (part == NULL && is_known(key->text)) continue;
        if (part == NULL) {
            ls_reference_wrong(r, key, part_hint(r, key->text), "a figure has nothing called %s", key->text);
            good = false;
        } else if (item->kind != LS_SCALAR || !ls_number_parse(item->text, strlen(item->text), part)) {
            ls_reference_wrong(r, item, "the unit stands under unit:", "%s must be a bare number", key->text);
            good = false;
        }
    }
    const char *text = ls_reference_text(r, node, "unit");
    *unit = text == NULL ? "" : text;
    p->spread = ls_reference_text(r, node, "spread");
    return good;
}

static bool fits(ls_reference_reader *r, const char *units, const char *text, ls_unit unit) {
    for (const char *at = units;; at++) {
        size_t n = strcspn(at, "|");
        ls_unit allowed;
        if (n == 0 && ls_dimension_none(unit.dimension)) return true;
        if (n > 0 && text[0] != '\0' && ls_unit_parse(r->arena, at, n, &allowed) == LS_UNIT_OK &&
            ls_dimension_same(allowed.dimension, unit.dimension))
            return true;
        at += n;
        if (*at == '\0') return false;
    }
}

static bool read_unit(ls_reference_reader *r, const ls_node *node, const char *text, const char *units, ls_unit *out) {
    if (text[0] == '\0') {
        *out = ls_unit_of("");
    } else if (ls_unit_parse(r->arena, text, strlen(text), out) != LS_UNIT_OK)
        return ls_reference_wrong(r, node, "write a unit such as lb/ton", "there is no unit %s", text);
    if (fits(r, units, text, *out)) return true;
    return ls_reference_wrong(
        r, node, "write it in that unit", "a figure in this column is in %s or the like, not in %s",
        units[0] == '\0' || units[0] == '|' ? "a bare number" : ls_arena_copy_n(r->arena, units, strcspn(units, "|")),
        text[0] == '\0' ? "a bare number" : text);
}

static ls_printed in_base(ls_printed p, double factor) {
    return (ls_printed){p.n, p.least * factor, p.most * factor, p.median * factor, p.mean * factor, p.sd * factor};
}

const ls_figure *ls_reference_read_figure(ls_reference_reader *r, const ls_node *node, const char *id,
                                          const char *units, ls_reference_origin origin) {
    ls_reference_parts p = ls_reference_no_parts();
    const char *text = "";
    bool long_form = node->kind == LS_MAPPING;
    if (node->kind == LS_SEQUENCE || ls_reference_is_word(node)) {
        ls_reference_wrong(r, node, "write a figure such as 0.67 lb/bu", "this column holds figures");
        return NULL;
    }
    if (long_form) ls_reference_read_origin(r, node, &origin);
    ls_figure *f = LS_NEW(r->arena, ls_figure, 1);
    if (!(long_form ? read_long(r, node, &p, &text) : read_short(r, node, &p, &text)) ||
        !read_unit(r, node, text, units, &f->unit) || !ls_reference_check_origin(r, node, &origin))
        return NULL;
    const char *wrong = ls_reference_settle(&p, f->unit.factor, origin.single, &f->spread);
    if (wrong != NULL) {
        ls_reference_wrong(r, node, "write it like 0.67 lb/bu, 2.9..9 lb/ft3, or {value: 50, unit: lb/ft3}", "%s",
                           wrong);
        return NULL;
    }
    f->id = id;
    f->value = p.value * f->unit.factor;
    f->why = origin.why != NULL ? origin.why : r->set->why[f->spread.kind];
    f->printed = in_base(p.printed, f->unit.factor);
    f->source = origin.source;
    f->status = (ls_status)origin.status;
    f->note = origin.note;
    f->own = origin.own;
    return f;
}
