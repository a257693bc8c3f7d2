#include "littershed/base/yaml.h"

#include "littershed/base/text.h"
#include "source_line.h"
#include "utf8.h"
#include "yaml_problem.h"

#include <string.h>
#include <yaml.h>

/* One reading of a file. */
typedef struct {
    ls_arena *arena;
    ls_diag *d;
    int32_t file;
    const ls_input *input;
    yaml_parser_t parser;
    size_t errors, values;
    size_t stopped;           /* sections from this line on may be read; 0: all is read, or none can be */
    size_t characters, bytes; /* a place in the text that only moves on: libyaml counts characters */
} reader;

typedef LS_LIST(ls_node *) node_list;

/* The collection that a value stands in, for messages. */
typedef struct {
    const ls_node *key; /* NULL in a sequence and at the top */
    ls_node *before;    /* the value before it in a mapping, NULL if none */
    bool flow;          /* between { and } */
} surroundings;

static ls_node *read_node(reader *r, const yaml_event_t *event, size_t depth, surroundings in);

/* NULL, so that who reads can return it. */
static ls_node *refuse(reader *r, ls_place at, const char *hint, const char *message) {
    r->errors++;
    ls_diag_add(r->d, LS_ERROR, at, hint, "%s", message);
    return NULL;
}

static void refuse_sign(reader *r, ls_node *node, char sign) {
    r->errors++;
    node->refused = true;
    ls_yaml_refuse_sign(r->d, node->at, sign);
}

static bool next(reader *r, yaml_event_t *event) {
    if (yaml_parser_parse(&r->parser, event)) return true;
    r->errors++;
    const char *problem = r->parser.problem == NULL ? "" : r->parser.problem;
    yaml_mark_t at = strstr(problem, "end of stream") != NULL ? r->parser.context_mark : r->parser.problem_mark;
    if (r->parser.error != YAML_READER_ERROR) /* no text: what follows is none either */
        r->stopped = at.line + 1;
    ls_yaml_problem(r->d, r->file, &r->parser);
    return false;
}

static ls_node *new_node(reader *r, ls_node_kind kind, const yaml_event_t *event) {
    ls_node *node = LS_NEW(r->arena, ls_node, 1);
    node->kind = kind;
    node->text = "";
    node->at = ls_yaml_place(r->file, event->start_mark);
    if (kind == LS_SCALAR && event->end_mark.line == event->start_mark.line)
        node->at.length = (uint32_t)(event->end_mark.column - event->start_mark.column);
    return node;
}

/* The byte at a mark; only for marks in rising order. */
static size_t byte_of(reader *r, yaml_mark_t mark) {
    while (r->characters < mark.index && r->bytes < r->input->size) {
        const char *s = r->input->text + r->bytes;
        bool plain = (unsigned char)*s < 0x80; /* the usual case, without a call */
        r->bytes += plain ? 1 : ls_utf8_at(s, r->input->size - r->bytes).bytes;
        r->characters++;
    }
    return r->bytes;
}

/* What follows a plain text in its line if that begins with a # after a blank; else NULL. */
static const char *comment_after(reader *r, yaml_mark_t end) {
    const char *s = r->input->text + byte_of(r, end);
    size_t blanks = strspn(s, " \t");
    return blanks > 0 && s[blanks] == '#' ? s + blanks : NULL;
}

static bool is_word(char c) {
    return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (unsigned char)c >= 0x80;
}

/* `Lot #4` is the text `Lot` to YAML: say so where the comment looks like part of a name. */
static void warn_of_comment(reader *r, const ls_node *node, const char *comment) {
    if (comment == NULL || !is_word(comment[1])) return;
    ls_diag_add(r->d, LS_WARNING, node->at,
                "put quotes round the text if the # belongs to it; if not, put a blank after the #",
                "this text ends before the #: the rest of the line is a comment");
}

static const char *name_of(reader *r, const ls_node *key) {
    enum { LONGEST_SHOWN = 40 };
    return ls_text_fit(r->arena, key->text, LONGEST_SHOWN);
}

/* A key in braces without a value mostly follows a comma that was meant as text or in a number. */
static const char *hint_for_empty(reader *r, surroundings in, const char *comment) {
    const char *key = in.key == NULL ? "" : in.key->text;
    const ls_node *before = in.before;
    static const char as[] = ", like ";
    const char *like = comment == NULL ? NULL : strstr(comment, as);
    if (like != NULL && like < comment + strcspn(comment, "\r\n"))
        return ls_arena_printf(r->arena, "write it before the #, for example \"%s: %.*s\"", key,
                               (int)strcspn(like + strlen(as), "\r\n"), like + strlen(as));
    if (comment != NULL) return "write the value before the #; a text that has a # in it needs quotes";
    if (!in.flow)
        return "write the value after the colon, or below it and deeper than the key; or take the "
               "key out";
    if (strchr(key, ':') != NULL) return "put a blank after the colon";
    if (before != NULL && before->kind == LS_SCALAR && !before->quoted)
        return ls_arena_printf(r->arena, "put quotes round a text with a comma: \"%s, %s\"", before->text, key);
    return "write KEY: VALUE, with a blank after the colon";
}

/* What a comma cut off a number or a text that begins with one: "24,000 lb", "6, 5.5 in", "31, Mill
 * Road". It goes back to the value before it. */
static bool is_cut_off(const ls_node *key, const yaml_event_t *value, surroundings in) {
    return in.flow && in.before != NULL && in.before->kind == LS_SCALAR && !in.before->quoted &&
           in.before->text[0] != '\0' && !key->quoted && key->text[0] >= '0' && key->text[0] <= '9' &&
           value->type == YAML_SCALAR_EVENT && value->data.scalar.length == 0 &&
           value->data.scalar.style == YAML_PLAIN_SCALAR_STYLE;
}

static void put_back(reader *r, ls_node *before, const ls_node *key) {
    bool one_line = before->at.line == key->at.line;
    uint32_t gap = key->at.column - before->at.column - before->at.length;
    before->text = ls_arena_printf(r->arena, one_line && gap == 1 ? "%s,%s" : "%s, %s", before->text, key->text);
    if (one_line) before->at.length += gap + key->at.length;
}

static void refuse_empty(reader *r, const yaml_event_t *event, surroundings in) {
    const char *comment = comment_after(r, event->end_mark);
    const char *hint = hint_for_empty(r, in, comment);
    if (in.key == NULL) {
        refuse(r, ls_yaml_place(r->file, event->start_mark), "write it after the -, or take the entry out",
               "an entry of this list has no value");
        return;
    }
    r->errors++;
    if (comment != NULL && strstr(hint, "for example") != NULL) /* all such lines are one mistake */
        ls_diag_add(r->d, LS_ERROR, in.key->at, hint, "a line is not filled in");
    else
        ls_diag_add(r->d, LS_ERROR, in.key->at, hint, "%s has no value", name_of(r, in.key));
}

static bool is_empty(const char *text, bool quoted) {
    static const char *const empties[] = {"", "~", "null", "Null", "NULL"};
    for (size_t i = 0; i < sizeof empties / sizeof *empties && !quoted; i++)
        if (strcmp(text, empties[i]) == 0) return true;
    return false;
}

static bool is_too_long(const char *s, size_t n) {
    if (n <= LS_MOST_SCALAR) /* no more characters than bytes */
        return false;
    size_t characters = 0;
    for (size_t i = 0; i < n && characters <= LS_MOST_SCALAR; i += ls_utf8_at(s + i, n - i).bytes) characters++;
    return characters > LS_MOST_SCALAR;
}

/* The line end of a text written as a block (| or >) belongs to the block, not to the text. */
static size_t trimmed(const char *s, size_t n, yaml_scalar_style_t style) {
    bool block = style == YAML_LITERAL_SCALAR_STYLE || style == YAML_FOLDED_SCALAR_STYLE;
    while (block && n > 0 && s[n - 1] == '\n') n--;
    return n;
}

/* NULL stops the reading. A text that is refused still gives a node, so that the rest is read. */
static ls_node *read_scalar(reader *r, const yaml_event_t *event, surroundings in) {
    const char *value = (const char *)event->data.scalar.value;
    yaml_scalar_style_t style = event->data.scalar.style;
    size_t n = trimmed(value, event->data.scalar.length, style);
    ls_node *node = new_node(r, LS_SCALAR, event);
    size_t before = r->errors;
    node->quoted = style != YAML_PLAIN_SCALAR_STYLE;
    node->text = is_too_long(value, n) ? "" : ls_arena_copy_n(r->arena, value, n);
    if (is_too_long(value, n))
        refuse(r, node->at, "shorten it", "a text of more than 1,000 characters");
    else if (event->data.scalar.tag != NULL)
        refuse_sign(r, node, '!');
    else if (event->data.scalar.anchor != NULL)
        refuse_sign(r, node, '&');
    else if (memchr(value, 0, n) != NULL)
        refuse(r, node->at, "take the \\0 out", "this text holds a NUL character");
    else if (is_empty(node->text, node->quoted))
        refuse_empty(r, event, in);
    else if (n == 0)
        refuse(r, node->at, "write something between the marks, or take the line out", "this text is empty");
    else if (!node->quoted)
        warn_of_comment(r, node, comment_after(r, event->end_mark));
    node->refused = r->errors > before;
    return node;
}

/* The key of a mapping; NULL stops the reading. */
static ls_node *read_key(reader *r, const yaml_event_t *event, bool flow) {
    if (event->type != YAML_SCALAR_EVENT)
        return refuse(r, ls_yaml_place(r->file, event->start_mark),
                      "put quotes round the text if it begins with a brace, a bracket or a *",
                      "a key must be a plain word or text");
    const char *text = (const char *)event->data.scalar.value;
    bool quoted = event->data.scalar.style != YAML_PLAIN_SCALAR_STYLE;
    if (is_empty(text, quoted)) {
        refuse(r, ls_yaml_place(r->file, event->start_mark), "write KEY: VALUE", "a key is missing before this colon");
        return new_node(r, LS_SCALAR, event);
    }
    ls_node *key = read_scalar(r, event, (surroundings){NULL, NULL, flow});
    if (!quoted && strcmp(text, "<<") == 0) {
        refuse(r, key->at, "write out what was to be merged", "<< is not accepted");
        key->refused = true;
    }
    return key;
}

/* A key without a value is refused as that; twice the end of a number (7,800) is no key twice. */
static bool may_be_twice(const ls_node *mapping, size_t i) {
    const ls_node *value = mapping->items[i];
    bool missing = value->kind == LS_SCALAR && is_empty(value->text, value->quoted);
    return !missing && mapping->keys[i]->text[0] != '\0';
}

static void refuse_duplicates(reader *r, const ls_node *mapping) {
    const char **texts = LS_NEW(r->arena, const char *, mapping->n);
    const ls_node **keys = LS_NEW(r->arena, const ls_node *, mapping->n);
    size_t n = 0;
    for (size_t i = 0; i < mapping->n; i++)
        if (may_be_twice(mapping, i)) {
            keys[n] = mapping->keys[i];
            texts[n++] = mapping->keys[i]->text;
        }
    const size_t *first = ls_text_firsts(r->arena, texts, n);
    for (size_t i = 0; i < n; i++) {
        if (first[i] == i) continue;
        r->errors++;
        ls_diag_add(r->d, LS_ERROR, keys[i]->at, "keep one of the two", "%s is given twice, on lines %lu and %lu",
                    name_of(r, keys[i]), (unsigned long)keys[first[i]]->at.line, (unsigned long)keys[i]->at.line);
    }
}

/* One entry of a mapping, whose key's event is given. */
static bool read_entry(reader *r, const yaml_event_t *event, size_t depth, bool flow, node_list *keys,
                       node_list *items) {
    yaml_event_t value_event;
    ls_node *key = read_key(r, event, flow);
    if (key == NULL || !next(r, &value_event)) return false;
    surroundings in = {key, items->n > 0 ? items->at[items->n - 1] : NULL, flow};
    if (is_cut_off(key, &value_event, in)) {
        put_back(r, items->at[items->n - 1], key);
        yaml_event_delete(&value_event);
        return true;
    }
    ls_node *value = read_node(r, &value_event, depth, in);
    yaml_event_delete(&value_event);
    if (value == NULL) return false;
    value->refused = value->refused || key->refused;
    *LS_PUSH(r->arena, keys) = key;
    *LS_PUSH(r->arena, items) = value;
    return true;
}

/* The entries of a mapping or sequence; false: the reading stops, and the node has those before. */
static bool read_entries(reader *r, ls_node *node, size_t depth, bool flow) {
    yaml_event_type_t end = node->kind == LS_MAPPING ? YAML_MAPPING_END_EVENT : YAML_SEQUENCE_END_EVENT;
    node_list keys = {0}, items = {0};
    bool done = true;
    for (bool more = true; more && done;) {
        yaml_event_t event;
        done = next(r, &event);
        if (!done) break;
        more = event.type != end;
        if (more && node->kind == LS_MAPPING) {
            done = read_entry(r, &event, depth, flow, &keys, &items);
        } else if (more) {
            ls_node *item = read_node(r, &event, depth, (surroundings){NULL, NULL, flow});
            done = item != NULL;
            if (done) *LS_PUSH(r->arena, &items) = item;
        }
        yaml_event_delete(&event);
    }
    node->keys = keys.at;
    node->items = items.at;
    node->n = items.n;
    return done;
}

static ls_node *read_collection(reader *r, const yaml_event_t *event, size_t depth) {
    bool mapping = event->type == YAML_MAPPING_START_EVENT;
    ls_node *node = new_node(r, mapping ? LS_MAPPING : LS_SEQUENCE, event);
    const yaml_char_t *tag = mapping ? event->data.mapping_start.tag : event->data.sequence_start.tag;
    const yaml_char_t *anchor = mapping ? event->data.mapping_start.anchor : event->data.sequence_start.anchor;
    if (depth >= LS_MOST_DEPTH)
        return refuse(r, node->at, "a farm file needs only a few levels", "more than 32 levels, one inside the other");
    if (tag != NULL)
        refuse_sign(r, node, '!');
    else if (anchor != NULL)
        refuse_sign(r, node, '&');
    bool flow = mapping && event->data.mapping_start.style == YAML_FLOW_MAPPING_STYLE;
    if (!read_entries(r, node, depth + 1, flow)) {
        node->refused = true;
        if (node->n > 0 && node->items[node->n - 1]->kind == LS_SCALAR) node->n--; /* "crew: a" of "crew: a: b" */
        return depth == 0 ? node : NULL; /* the sections before the one that cannot be read */
    }
    if (mapping) refuse_duplicates(r, node);
    return node;
}

static ls_node *read_node(reader *r, const yaml_event_t *event, size_t depth, surroundings in) {
    if (++r->values > LS_MOST_VALUES)
        return refuse(r, ls_yaml_place(r->file, event->start_mark), "split the farm over several runs",
                      "more than 2,000,000 values in one file");
    if (event->type == YAML_ALIAS_EVENT) {
        ls_node *alias = new_node(r, LS_SCALAR, event);
        refuse_sign(r, alias, '*');
        return alias;
    }
    if (event->type == YAML_SCALAR_EVENT) return read_scalar(r, event, in);
    return read_collection(r, event, depth);
}

/* What stands at the top; NULL if nothing does. */
static ls_node *read_document(reader *r, const yaml_event_t *event) {
    bool scalar = event->type == YAML_SCALAR_EVENT;
    if (scalar && event->data.scalar.style == YAML_PLAIN_SCALAR_STYLE && event->data.scalar.length == 0) return NULL;
    return read_node(r, event, 0, (surroundings){NULL, NULL, false});
}

static ls_node *read_stream(reader *r) {
    ls_node *top = NULL;
    for (size_t documents = 0; r->errors == 0;) {
        yaml_event_t event;
        if (!next(r, &event)) return NULL;
        yaml_event_type_t type = event.type;
        ls_place at = ls_yaml_place(r->file, event.start_mark);
        if (type == YAML_DOCUMENT_START_EVENT && ++documents > 1)
            refuse(r, at, "take the --- out, or give the second part a file of its own",
                   "a second document in one file");
        else if (type == YAML_SCALAR_EVENT || type == YAML_MAPPING_START_EVENT || type == YAML_SEQUENCE_START_EVENT ||
                 type == YAML_ALIAS_EVENT)
            top = read_document(r, &event);
        yaml_event_delete(&event);
        if (type == YAML_STREAM_END_EVENT) break;
    }
    if (top == NULL && r->errors == 0)
        refuse(r, LS_WHOLE_FILE(r->file), "begin with a section, for example \"houses:\"",
               "there is nothing in this file");
    return top;
}

/* The text from a byte on, with its line ends before that, so that lines keep their numbers. */
static ls_node *read_from(reader *r, size_t from) {
    const char *text = r->input->text;
    char *rest = from == 0 ? NULL : ls_arena_copy_n(r->arena, text, r->input->size);
    for (size_t i = 0; i < from; i++) rest[i] = text[i] == '\n' ? '\n' : ' ';
    if (!yaml_parser_initialize(&r->parser)) ls_fail("out of memory");
    yaml_parser_set_input_string(&r->parser, (const unsigned char *)(rest ? rest : text), r->input->size);
    ls_node *top = read_stream(r);
    yaml_parser_delete(&r->parser);
    return top;
}

/* The first byte of the first section that begins at the line or after; 0: there is none. */
static size_t section_from(const ls_input *input, size_t line) {
    const char *s = input->text;
    for (size_t at = 2; (s = strchr(s, '\n')) != NULL; at++) {
        size_t n = strspn(++s, "abcdefghijklmnopqrstuvwxyz_");
        if (at >= line && n > 0 && s[n] == ':') return (size_t)(s - input->text);
    }
    return 0;
}

/* The sections of both. */
static ls_node *joined(ls_arena *arena, const ls_node *a, const ls_node *b) {
    node_list keys = {0}, items = {0};
    const ls_node *parts[] = {a, b};
    for (size_t k = 0; k < 2; k++)
        for (size_t i = 0; parts[k] != NULL && parts[k]->kind == LS_MAPPING && i < parts[k]->n; i++) {
            *LS_PUSH(arena, &keys) = parts[k]->keys[i];
            *LS_PUSH(arena, &items) = parts[k]->items[i];
        }
    ls_node *all = LS_NEW(arena, ls_node, 1);
    all->kind = LS_MAPPING, all->text = "", all->refused = true;
    all->keys = keys.at, all->items = items.at, all->n = keys.n;
    return all;
}

ls_node *ls_yaml_read_most(ls_arena *a, ls_diag *d, int32_t file) {
    enum { MOST_STOPS = 20 };
    const ls_input *input = ls_diag_input_at(d, file);
    if (input == NULL || ls_yaml_refuse_file(d, file)) return NULL;
    bool mark = input->size >= 3 && memcmp(input->text, "\uFEFF", 3) == 0;
    ls_node *top = NULL;
    size_t from = 0, stops = 0;
    do {
        reader r = {.arena = a,
                    .d = d,
                    .file = file,
                    .input = input,
                    .characters = from,
                    .bytes = from == 0 && mark ? 3 : from};
        ls_node *part = read_from(&r, from);
        if (r.stopped == 0 && stops == 0) return part;
        top = joined(a, top, part);
        size_t last = from;
        from = r.stopped == 0 ? 0 : section_from(input, r.stopped);
        if (from == last && from > 0) from = section_from(input, r.stopped + 1);
    } while (from > 0 && ++stops < MOST_STOPS);
    return top;
}

ls_node *ls_yaml_read(ls_arena *a, ls_diag *d, int32_t file) {
    size_t before = ls_diag_count(d, LS_ERROR);
    ls_node *top = ls_yaml_read_most(a, d, file);
    return ls_diag_count(d, LS_ERROR) == before ? top : NULL;
}

const ls_node *ls_yaml_get(const ls_node *mapping, const char *key) {
    if (mapping == NULL || mapping->kind != LS_MAPPING) return NULL;
    for (size_t i = 0; i < mapping->n; i++)
        if (strcmp(mapping->keys[i]->text, key) == 0) return mapping->items[i];
    return NULL;
}
