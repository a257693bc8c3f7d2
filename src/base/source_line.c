#include "source_line.h"

#include "utf8.h"

#include <string.h>

enum { INDENT = 4, WIDTH = 80 - INDENT, TAB = 8 };

/* The bytes of a line break at text[at], 0: none: LF, CR, CR LF, NEL, LS, PS, as in YAML 1.1. */
static size_t break_at(const ls_input *input, size_t at) {
    const char *s = input->text + at;
    size_t left = input->size - at;
    if (left == 0) return 0;
    if (*s == '\n') return 1;
    if (*s == '\r') return left > 1 && s[1] == '\n' ? 2 : 1;
    if (left > 1 && memcmp(s, "\xC2\x85", 2) == 0) return 2;
    return left > 2 && (memcmp(s, "\u2028", 3) == 0 || memcmp(s, "\u2029", 3) == 0) ? 3 : 0;
}

static ls_source_cursor at_start(const ls_input *input, int32_t file) {
    bool marked = input->size >= 3 && memcmp(input->text, "\uFEFF", 3) == 0;
    size_t start = marked ? 3 : 0;
    return (ls_source_cursor){file, 1, 1, start, start};
}

bool ls_source_seek(ls_source_cursor *c, const ls_input *input, ls_place place) {
    bool behind = place.line < c->line || (place.line == c->line && place.column < c->column);
    if (c->file != place.file || behind) *c = at_start(input, place.file);
    while (c->at < input->size) {
        if (c->line == place.line && c->column >= place.column) return true;
        size_t end = break_at(input, c->at);
        if (end > 0 && c->line == place.line) return true;
        if (end > 0) {
            c->at = c->line_start = c->at + end;
            c->line++;
            c->column = 1;
        } else {
            c->at += ls_utf8_at(input->text + c->at, input->size - c->at).bytes;
            c->column++;
        }
    }
    return c->line == place.line;
}

static bool is_tab(ls_utf8_character c) { return c.valid && c.code == '\t'; }

/* Columns of the character at a byte, counting a tab as the most it can take. */
static size_t columns_at(const ls_input *input, size_t at, size_t *bytes) {
    char shown[LS_UTF8_VISIBLE];
    ls_utf8_character c = ls_utf8_at(input->text + at, input->size - at);
    *bytes = c.bytes;
    return is_tab(c) ? TAB : ls_utf8_visible(input->text + at, c, shown);
}

/* From where to where the line is shown. */
typedef struct {
    size_t from, to;
    bool cut_left, cut_right;
} window;

static window choose(const ls_source_cursor *c, const ls_input *input) {
    window w = {c->at, c->at, false, false};
    size_t used = 2, bytes = 0; /* two columns for the ellipses */
    while (w.from > c->line_start) {
        size_t back = ls_utf8_back(input->text, w.from);
        size_t columns = columns_at(input, w.from - back, &bytes);
        if (used + columns > WIDTH * 3 / 4) break;
        used += columns;
        w.from -= back;
    }
    while (w.to < input->size && break_at(input, w.to) == 0) {
        size_t columns = columns_at(input, w.to, &bytes);
        if (used + columns > WIDTH) break;
        used += columns;
        w.to += bytes;
    }
    w.cut_left = w.from > c->line_start;
    w.cut_right = w.to < input->size && break_at(input, w.to) == 0;
    return w;
}

static void print_line(const ls_input *input, window w, FILE *to) {
    char shown[LS_UTF8_VISIBLE];
    fprintf(to, "%*s%s", INDENT, "", w.cut_left ? "\u2026" : "");
    for (size_t at = w.from; at < w.to;) {
        ls_utf8_character c = ls_utf8_at(input->text + at, input->size - at);
        ls_utf8_visible(input->text + at, c, shown);
        fputs(is_tab(c) ? "\t" : shown, to);
        at += c.bytes;
    }
    fprintf(to, "%s\n", w.cut_right ? "\u2026" : "");
}

static void repeat(char c, size_t n, FILE *to) {
    for (; n > 0; n--) fputc(c, to);
}

static void print_caret(const ls_source_cursor *c, const ls_input *input, window w, uint32_t length, FILE *to) {
    char shown[LS_UTF8_VISIBLE];
    fprintf(to, "%*s%s", INDENT, "", w.cut_left ? " " : "");
    for (size_t at = w.from; at < c->at;) {
        ls_utf8_character character = ls_utf8_at(input->text + at, input->size - at);
        size_t columns = ls_utf8_visible(input->text + at, character, shown);
        if (is_tab(character))
            fputc('\t', to);
        else
            repeat(' ', columns, to);
        at += character.bytes;
    }
    fputc('^', to);
    size_t tail = 0;
    size_t at = c->at;
    for (uint32_t i = 0; i < length && at < w.to; i++) {
        ls_utf8_character character = ls_utf8_at(input->text + at, input->size - at);
        tail += is_tab(character) ? 1 : ls_utf8_visible(input->text + at, character, shown);
        at += character.bytes;
    }
    repeat('~', tail > 0 ? tail - 1 : 0, to);
    fputc('\n', to);
}

void ls_source_print(const ls_source_cursor *c, const ls_input *input, ls_place place, FILE *to) {
    window w = choose(c, input);
    if (w.from == w.to) return; /* an empty line, or past the last one */
    print_line(input, w, to);
    if (place.column > 0) print_caret(c, input, w, place.length, to);
}
