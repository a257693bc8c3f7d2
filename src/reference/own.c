/* A farm's own tables, checked. */
#include "tables.h"

#include <math.h>
#include <string.h>

typedef LS_LIST(const char *) name_list;

static bool is_among(const name_list *list, const char *name) {
    for (size_t i = 0; i < list->n; i++)
        if (strcmp(list->at[i], name) == 0) return true;
    return false;
}

static void add_name(ls_arena *a, name_list *list, const char *name) {
    if (!is_among(list, name)) *LS_PUSH(a, list) = name;
}

static const char *meant(ls_arena *a, const char *word, const name_list *list) {
    const char *near = ls_text_nearest(word, list->at, list->n);
    return near != NULL ? ls_arena_printf(a, "did you mean \"%s\"?", near)
                        : ls_arena_printf(a, "there are: %s", ls_reference_joined(a, list->at, list->n));
}

bool ls_reference_own_room(ls_reference_reader *r, const ls_node *at) {
    r->read++;
    if (r->read == LS_MOST_OWN + 1)
        ls_reference_wrong(r, at, "leave out what the farm does not use",
                           "more than 2,000 sources, tables and rows in tables of your own");
    return r->read <= LS_MOST_OWN;
}

/* ---- tables ---- */

static name_list table_names(ls_reference_reader *r, const char *kind) {
    name_list names = {0};
    for (size_t i = 0; i < r->base->tables.n; i++)
        if (strcmp(r->base->tables.at[i]->kind, kind) == 0) add_name(r->arena, &names, r->base->tables.at[i]->name);
    return names;
}

bool ls_reference_own_table(ls_reference_reader *r, const ls_reference_kind *kind, const ls_node *node,
                            const ls_table *t) {
    const ls_node *name = ls_yaml_get(node, "name"), *at = name != NULL ? name : node;
    if (strcmp(kind->kind, "caution") == 0)
        return ls_reference_wrong(r, ls_yaml_get(node, "kind"), "take this table out",
                                  "cautions are not changed by tables of your own");
    if (kind->names[0] == '\0' && name != NULL)
        return ls_reference_wrong(r, at, "take the name out: the rows join the one table there is",
                                  "there is one table of the kind %s, and it has no name", kind->kind);
    if (kind->names[0] != '\0' && t->name[0] == '\0')
        return ls_reference_wrong(r, at, "add name: of the built-in table to change, or one of your own",
                                  "a table of the kind %s needs a name", kind->kind);
    name_list known = table_names(r, kind->kind);
    if (strcmp(kind->names, "=") != 0 || is_among(&known, t->name)) return true;
    return ls_reference_wrong(r, at, meant(r->arena, t->name, &known),
                              "no table of the kind %s is called %s, and the program would not use a new one",
                              kind->kind, t->name);
}

/* ---- columns ---- */

static name_list used_columns(ls_reference_reader *r, const ls_reference_kind *kind) {
    name_list names = {0};
    ls_reference_column column;
    for (const char *at = kind->columns; ls_reference_next_column(r->arena, &at, &column);)
        if (strcmp(column.name, "*") != 0) add_name(r->arena, &names, column.name);
    for (size_t i = 0; i < r->base->tables.n; i++) {
        const ls_table *t = r->base->tables.at[i];
        for (size_t k = 0; strcmp(t->kind, kind->kind) == 0 && k < t->n; k++)
            for (size_t c = 0; c < t->rows[k].n; c++) add_name(r->arena, &names, t->rows[k].cells[c].column);
    }
    return names;
}

bool ls_reference_own_column(ls_reference_reader *r, const ls_reference_kind *kind, const ls_node *key) {
    const ls_reference_column *column = ls_reference_column_of(r->arena, kind, key->text);
    if (column != NULL && strcmp(column->name, "*") != 0) return true;
    name_list known = used_columns(r, kind);
    if (is_among(&known, key->text)) return true;
    return ls_reference_wrong(r, key, meant(r->arena, key->text, &known), "a table of the kind %s has no column %s",
                              kind->kind, key->text);
}

/* ---- rows ---- */

/* name is the pattern, a # in it standing for one to three digits. */
static bool fits(const char *pattern, size_t n, const char *name) {
    enum { MOST_DIGITS = 3 };
    for (size_t i = 0; i < n; i++) {
        size_t digits = strspn(name, "0123456789");
        if (pattern[i] == '#' ? digits == 0 || digits > MOST_DIGITS : pattern[i] != *name) return false;
        name += pattern[i] == '#' ? digits : 1;
    }
    return *name == '\0';
}

static bool fits_any(ls_arena *a, const char *patterns, const char *name, name_list *all) {
    for (const char *at = patterns;;) {
        size_t n = strcspn(at, "|");
        if (fits(at, n, name)) return true;
        *LS_PUSH(a, all) = ls_arena_copy_n(a, at, n);
        if (at[n] == '\0') return false;
        at += n + 1;
    }
}

/* A row that the program looks for. */
static bool is_used(ls_reference_reader *r, const ls_reference_kind *kind, const ls_table *t, const ls_node *key) {
    name_list known = {0};
    const ls_table *over = ls_reference_by_id(r->base, t->id);
    if (strcmp(kind->rows, "*") == 0) return true;
    if (strcmp(kind->rows, "=") != 0) {
        if (fits_any(r->arena, kind->rows, key->text, &known)) return true;
    } else {
        for (size_t i = 0; over != NULL && i < over->n; i++) *LS_PUSH(r->arena, &known) = over->rows[i].name;
        if (is_among(&known, key->text)) return true;
    }
    return ls_reference_wrong(r, key, meant(r->arena, key->text, &known),
                              "the program does not use a row \"%s\" of a table of the kind %s", key->text, kind->kind);
}

/* Keys of figures are made of names: two that differ by signs only would be one. */
static bool is_alone(ls_reference_reader *r, const ls_table *t, const ls_node *key) {
    const char *slug = ls_text_slug(r->arena, key->text);
    const ls_table *const tables[] = {t, ls_reference_by_id(r->base, t->id)};
    for (size_t k = 0; k < 2; k++)
        for (size_t i = 0; tables[k] != NULL && i < tables[k]->n; i++) {
            const char *name = tables[k]->rows[i].name;
            ls_arena_mark mark = ls_arena_here(r->arena);
            bool like = strcmp(name, key->text) != 0 && strcmp(ls_text_slug(r->arena, name), slug) == 0;
            ls_arena_rewind(r->arena, mark);
            if (!like) continue;
            return ls_reference_wrong(r, key, "write it just so to change that row, or choose another name",
                                      "the row \"%s\" is too like \"%s\"", key->text, name);
        }
    return true;
}

/* Words that say how the row is meant are not guessed. */
static bool says_how(ls_reference_reader *r, const ls_reference_kind *kind, const ls_node *key, const ls_row *row) {
    ls_reference_column c;
    for (const char *at = kind->columns; ls_reference_next_column(r->arena, &at, &c);) {
        if (c.words == NULL || c.words[0] == '\0' || ls_reference_may_lack(&c) ||
            ls_reference_cell(row, c.name) != NULL)
            continue;
        ls_text *t = ls_text_new(r->arena);
        for (const char *s = c.words; *s != '\0'; s++) ls_text_add_n(t, *s == '|' ? ", " : s, *s == '|' ? 2 : 1);
        return ls_reference_wrong(r, key, ls_arena_printf(r->arena, "add %s: one of %s", c.name, t->s),
                                  "the row %s does not say %s", key->text, c.name);
    }
    return true;
}

/* Greater than 100 % of what it is a share of. */
static bool is_too_much(const ls_reference_column *c, const ls_figure *f) {
    bool share = strcmp(c->units, "%") == 0 || strstr(c->units, "lb/ton") != NULL;
    double most = f->value;
    if (f->spread.kind == LS_RECTANGULAR || f->spread.kind == LS_TRIANGULAR || f->spread.kind == LS_TRUNCATED)
        most = fmax(most, f->spread.high);
    return share && ls_dimension_none(f->unit.dimension) && most > 1;
}

/* Shares, rates, contents, bedding, a day of hatch may be nothing; what is divided by may not. */
static bool may_be_none(const ls_reference_kind *kind, const char *column, const ls_figure *f) {
    if (strcmp(column, "bedding") == 0 || strcmp(column, "own_bedding") == 0) return true;
    if (strcmp(kind->kind, "growth") == 0) return strcmp(column, "days") == 0;
    if (strcmp(kind->kind, "fertilizer") == 0) return false;
    return ls_dimension_none(f->unit.dimension) || strcmp(kind->kind, "removal") == 0 ||
           strcmp(kind->kind, "recommended") == 0 || strcmp(kind->kind, "need") == 0 || strcmp(kind->kind, "rule") == 0;
}

static bool check_figure(ls_reference_reader *r, const ls_reference_kind *kind, const ls_cell *cell, const ls_node *at,
                         const ls_row *over) {
    const ls_figure *f = cell->figure;
    const ls_cell *old = ls_reference_cell(over, cell->column);
    if (f == NULL) return true;
    if (old != NULL && old->figure != NULL && !ls_dimension_same(old->figure->unit.dimension, f->unit.dimension))
        return ls_reference_wrong(
            r, at,
            ls_arena_printf(r->arena, "write it in %s, or in a row or table of its own",
                            old->figure->unit.text[0] == '\0' ? "a bare number" : old->figure->unit.text),
            "%s stands in for a built-in figure of another unit", cell->column);
    if (is_too_much(ls_reference_column_of(r->arena, kind, cell->column), f))
        return ls_reference_wrong(r, at, "check the figure and its unit", "%s is more than 100%%", cell->column);
    if (!(f->value > 0) && !may_be_none(kind, cell->column, f))
        return ls_reference_wrong(r, at, "leave the column out if there is nothing to say", "%s cannot be 0 here",
                                  cell->column);
    return true;
}

static size_t columns_of(const ls_node *row) {
    size_t n = 0;
    for (size_t i = 0; i < row->n; i++) n += !ls_reference_is_origin(row->keys[i]->text);
    return n;
}

bool ls_reference_own_row(ls_reference_reader *r, const ls_reference_kind *kind, const ls_table *t, const ls_node *key,
                          const ls_node *node, const ls_row *row) {
    const ls_row *over = ls_table_row(ls_reference_by_id(r->base, t->id), key->text);
    bool good = is_used(r, kind, t, key) && is_alone(r, t, key);
    if (good && row->source == NULL) {
        ls_reference_wrong(r, key, "write source: and an id that stands under sources:, of this file or built in",
                           "the row %s names no source", key->text);
        good = false;
    }
    if (good && columns_of(node) == 0) {
        ls_reference_wrong(r, key, "add a column with a figure", "the row %s holds nothing", key->text);
        good = false;
    }
    for (size_t i = 0; i < row->n; i++)
        good = check_figure(r, kind, &row->cells[i], ls_yaml_get(node, row->cells[i].column), over) && good;
    return good && (over != NULL || says_how(r, kind, key, row));
}
