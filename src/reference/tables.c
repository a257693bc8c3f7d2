#include "tables.h"

#include <string.h>

/* node is a mapping of keys among the n names (origin keys too where allowed); else an error. */
static bool has_only(ls_reference_reader *r, const ls_node *node, const char *what, const char *const *names, size_t n,
                     bool origin) {
    if (node->kind != LS_MAPPING)
        return ls_reference_wrong(
            r, node, ls_arena_printf(r->arena, "its keys are: %s", ls_reference_joined(r->arena, names, n)),
            "%s must be a list of keys with values", what);
    bool good = true;
    for (size_t i = 0; i < node->n; i++) {
        const char *key = node->keys[i]->text;
        bool known = origin && ls_reference_is_origin(key);
        for (size_t k = 0; k < n && !known; k++) known = strcmp(names[k], key) == 0;
        if (known) continue;
        ls_reference_wrong(r, node->keys[i], ls_reference_meant(r, key, names, n, "its keys are"),
                           "%s has nothing called %s", what, key);
        good = false;
    }
    return good;
}

/* The text of a key that must be there. */
static const char *must_have(ls_reference_reader *r, const ls_node *mapping, const char *key, const char *what) {
    const char *text = ls_reference_text(r, mapping, key);
    if (text == NULL)
        ls_reference_wrong(r, mapping, ls_arena_printf(r->arena, "add %s: and a text", key), "%s has no %s", what, key);
    return text;
}

static void read_source(ls_reference_reader *r, const ls_node *node) {
    static const char *const keys[] = {"id", "who", "title", "url"};
    if (!has_only(r, node, "a source", keys, sizeof keys / sizeof *keys, false)) return;
    ls_source *s = LS_NEW(r->arena, ls_source, 1);
    *s = (ls_source){must_have(r, node, "id", "a source"), must_have(r, node, "who", "a source"),
                     must_have(r, node, "title", "a source"), ls_reference_text(r, node, "url")};
    if (s->id == NULL || s->who == NULL || s->title == NULL) return;
    if (ls_reference_source(r->set, s->id) != NULL || strcmp(s->id, "none") == 0) {
        ls_reference_wrong(r, node, "give each source an id of its own; a built-in source is named by its id alone",
                           "the source %s stands here a second time", s->id);
        return;
    }
    *LS_PUSH(r->arena, &r->set->sources) = s;
}

static void read_whys(ls_reference_reader *r, const ls_node *node) {
    const char *names[LS_LOG_STUDENT + 1];
    for (int k = 0; k <= LS_LOG_STUDENT; k++) names[k] = ls_reference_spread_word((ls_spread_kind)k);
    if (!has_only(r, node, "spreads", names, LS_LOG_STUDENT + 1, false)) return;
    for (int k = 0; k <= LS_LOG_STUDENT; k++) {
        const char *why = ls_reference_text(r, node, names[k]);
        if (why != NULL) r->set->why[k] = why;
    }
}

/* A list under a key of a file, NULL if there is none or (an error) something else. */
static const ls_node *list_of(ls_reference_reader *r, const ls_node *root, const char *key) {
    const ls_node *list = ls_yaml_get(root, key);
    if (list == NULL || list->kind == LS_SEQUENCE) return list;
    ls_reference_wrong(r, list, "begin every one with a dash", "%s must be a list", key);
    return NULL;
}

static void read_head(ls_reference_reader *r, const ls_node *root) {
    static const char *const keys[] = {"sources", "tables", "version", "date", "spreads"};
    enum { OWN = 2, ALL = sizeof keys / sizeof *keys }; /* a farm's own file has the first two */
    if (!has_only(r, root, "a file of tables", keys, r->base != NULL ? OWN : ALL, false) && root->kind != LS_MAPPING)
        return;
    const char *version = ls_reference_text(r, root, "version"), *date = ls_reference_text(r, root, "date");
    r->set->version = version != NULL ? version : r->set->version;
    r->set->date = date != NULL ? date : r->set->date;
    const ls_node *spreads = ls_yaml_get(root, "spreads"), *sources = list_of(r, root, "sources");
    if (spreads != NULL) read_whys(r, spreads);
    for (size_t i = 0; sources != NULL && i < sources->n; i++)
        if (r->base == NULL || ls_reference_own_room(r, sources->items[i])) read_source(r, sources->items[i]);
}

/* What a column may hold, NULL and an error if the kind has no such column. */
static const ls_reference_column *column_of(ls_reference_reader *r, const ls_reference_kind *kind, const ls_node *key) {
    const ls_reference_column *column = ls_reference_column_of(r->arena, kind, key->text);
    ls_reference_column c;
    if (column != NULL) return column;
    LS_LIST(const char *) names = {0};
    for (const char *at = kind->columns; ls_reference_next_column(r->arena, &at, &c);)
        *LS_PUSH(r->arena, &names) = c.name;
    ls_reference_wrong(r, key, ls_reference_meant(r, key->text, names.at, names.n, "its columns are"),
                       "a table of the kind %s has no column %s", kind->kind, key->text);
    return NULL;
}

static const char *read_word(ls_reference_reader *r, const ls_node *node, const ls_reference_column *column) {
    if (!ls_reference_is_word(node)) {
        ls_reference_wrong(r, node, "put it in quotes if it is one", "%s must be a word", column->name);
        return NULL;
    }
    if (ls_reference_is_choice(column->words, node->text)) return node->text;
    size_t n = strlen(column->words) - ls_reference_may_lack(column);
    ls_reference_wrong(r, node, ls_arena_printf(r->arena, "one of %s", ls_arena_copy_n(r->arena, column->words, n)),
                       "%s cannot be %s", column->name, node->text);
    return NULL;
}

/* Read a cell; false: refused, with an error. */
static bool read_cell(ls_reference_reader *r, const ls_reference_kind *kind, const char *row_id, const ls_node *key,
                      const ls_node *node, const ls_reference_origin *origin, ls_cell *cell) {
    if (r->base != NULL && !ls_reference_own_column(r, kind, key)) return false;
    const ls_reference_column *column = column_of(r, kind, key);
    if (column == NULL) return false;
    *cell = (ls_cell){key->text, NULL, NULL};
    if (column->words != NULL)
        cell->word = read_word(r, node, column);
    else
        cell->figure = ls_reference_read_figure(r, node, ls_arena_printf(r->arena, "%s/%s", row_id, key->text),
                                                column->units, *origin);
    return cell->word != NULL || cell->figure != NULL;
}

/* Read a row; false: refused, with an error. */
static bool read_row(ls_reference_reader *r, const ls_reference_kind *kind, const ls_table *t, const ls_node *key,
                     const ls_node *node, ls_reference_origin origin, ls_row *row) {
    if (node->kind != LS_MAPPING)
        return ls_reference_wrong(r, node,
                                  ls_arena_printf(r->arena, "write its columns behind it: %s: {%.*s: ...}", key->text,
                                                  (int)strcspn(kind->columns, ":"), kind->columns),
                                  "the row %s must be a list of columns with cells", key->text);
    ls_reference_read_origin(r, node, &origin);
    if (!ls_reference_check_origin(r, key, &origin)) return false;
    const char *row_id = ls_arena_printf(r->arena, "%s/%s", t->id, key->text);
    ls_cell *cells = LS_NEW(r->arena, ls_cell, node->n);
    *row = (ls_row){key->text, 0, cells, origin.source, (ls_status)origin.status, origin.note, origin.own, NULL};
    for (size_t i = 0; i < node->n && ls_diag_count(r->diag, LS_ERROR) < LS_MOST_ERRORS; i++)
        if (!ls_reference_is_origin(node->keys[i]->text) &&
            read_cell(r, kind, row_id, node->keys[i], node->items[i], &origin, &cells[row->n]))
            row->n++;
    return r->base == NULL || ls_reference_own_row(r, kind, t, key, node, row);
}

/* KIND-NAME with '-' for blanks. */
static const char *table_id(ls_arena *a, const char *kind, const char *name) {
    char *id = name[0] == '\0' ? ls_arena_copy(a, kind) : ls_arena_printf(a, "%s-%s", kind, name);
    for (char *c = id; *c != '\0'; c++)
        if (*c == ' ') *c = '-';
    return id;
}

/* The spread of the table's figures that are given alone: exact, or lognormal with log_sd. */
static ls_spread single_spread(ls_reference_reader *r, const ls_node *table) {
    const char *word = ls_reference_text(r, table, "spread"), *log_sd = ls_reference_text(r, table, "log_sd");
    double scale = 0;
    bool scaled = log_sd != NULL && ls_number_parse(log_sd, strlen(log_sd), &scale) && scale > 0;
    if (word != NULL && strcmp(word, "lognormal") == 0 && scaled) return ls_spread_lognormal(scale);
    if (log_sd != NULL || (word != NULL && strcmp(word, "exact") != 0))
        ls_reference_wrong(r, table, "write spread: exact, or spread: lognormal and log_sd: 0.35",
                           "the spread of the table's single figures is not given");
    return ls_spread_exact();
}

static void read_rows(ls_reference_reader *r, const ls_reference_kind *kind, const ls_node *node, ls_table *t) {
    const ls_node *rows = ls_yaml_get(node, "rows");
    if (rows == NULL || rows->kind != LS_MAPPING) {
        ls_diag_add(r->diag, LS_ERROR, rows == NULL ? node->at : rows->at,
                    "add rows: and below it each row with its columns", "the table %s has no rows", t->id);
        return;
    }
    ls_reference_origin origin = {.status = -1, .single = single_spread(r, node)};
    ls_reference_read_origin(r, node, &origin);
    ls_row *read = LS_NEW(r->arena, ls_row, rows->n);
    t->rows = read;
    for (size_t i = 0; i < rows->n; i++) {
        if (r->base != NULL && !ls_reference_own_room(r, rows->keys[i])) return;
        if (r->base != NULL) origin.own = ls_diag_where(r->arena, r->diag, rows->keys[i]->at);
        if (read_row(r, kind, t, rows->keys[i], rows->items[i], origin, &read[t->n])) t->n++;
    }
}

static const ls_reference_kind *kind_of(ls_reference_reader *r, const ls_node *node) {
    const char *name = must_have(r, node, "kind", "a table");
    const ls_reference_kind *kind = name == NULL ? NULL : ls_reference_kind_of(name);
    if (name == NULL || kind != NULL) return kind;
    LS_LIST(const char *) names = {0};
    for (size_t i = 0; ls_reference_kind_at(i) != NULL; i++) *LS_PUSH(r->arena, &names) = ls_reference_kind_at(i)->kind;
    ls_reference_wrong(r, ls_yaml_get(node, "kind"), ls_reference_meant(r, name, names.at, names.n, "the kinds are"),
                       "there is no kind of table %s", name);
    return NULL;
}

static void read_table(ls_reference_reader *r, const ls_node *node) {
    static const char *const keys[] = {"kind", "name", "once", "title", "spread", "log_sd", "rows"};
    if (!has_only(r, node, "a table", keys, sizeof keys / sizeof *keys, true)) return;
    const ls_reference_kind *kind = kind_of(r, node);
    const char *name = ls_reference_text(r, node, "name");
    if (kind == NULL) return;
    ls_table *t = LS_NEW(r->arena, ls_table, 1);
    const ls_table *over = NULL;
    if (r->base != NULL && name != NULL) over = ls_reference_table(r->base, kind->kind, name);
    name = over != NULL ? over->name : name == NULL ? "" : name;
    *t = (ls_table){.id = table_id(r->arena, kind->kind, name),
                    .kind = kind->kind,
                    .name = name,
                    .once = ls_reference_text(r, node, "once")};
    if (r->base != NULL && !ls_reference_own_table(r, kind, node, t)) return;
    over = r->base == NULL ? NULL : ls_reference_by_id(r->base, t->id);
    t->title = over != NULL ? over->title : must_have(r, node, "title", "a table");
    if (t->title == NULL) return;
    if (ls_reference_by_id(r->set, t->id) != NULL) {
        ls_reference_wrong(r, node, "put the rows of both into one", "the table %s stands here a second time", t->id);
        return;
    }
    read_rows(r, kind, node, t);
    *LS_PUSH(r->arena, &r->set->tables) = t;
}

void ls_reference_read(ls_arena *a, ls_diag *d, ls_reference *set, const ls_reference *base, const int32_t *files,
                       size_t n) {
    ls_reference_reader r = {a, d, set, base, 0};
    const ls_node **roots = LS_NEW(a, const ls_node *, n);
    for (size_t i = 0; i < n; i++) {
        roots[i] = ls_yaml_read(a, d, files[i]);
        if (roots[i] != NULL) read_head(&r, roots[i]);
    }
    for (size_t i = 0; i < n; i++) {
        const ls_node *tables = roots[i] == NULL ? NULL : list_of(&r, roots[i], "tables");
        for (size_t k = 0; tables != NULL && k < tables->n; k++)
            if (base == NULL || ls_reference_own_room(&r, tables->items[k])) read_table(&r, tables->items[k]);
    }
}
