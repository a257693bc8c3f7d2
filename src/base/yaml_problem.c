#include "yaml_problem.h"

#include "source_line.h"

#include <string.h>

#define QUOTES "put quotes round the text"
#define COLUMNS                                                                                                        \
    "lines that belong together begin in the same column; what belongs to a key stands deeper "                        \
    "than the key"

#define REMARK(hint) hint ". If it is a remark, put the # back before it"

/* Everything a message is made from. */
typedef struct {
    ls_diag *d;
    const ls_input *input;
    ls_place at, from; /* where it failed; where what failed began */
    char sign, before; /* the byte there, the last before it in its line that is no blank; 0 */
    bool colon_before; /* ": " stands before it in its line */
    const char *problem, *context;
} failure;

ls_place ls_yaml_place(int32_t file, yaml_mark_t mark) {
    return (ls_place){file, (uint32_t)mark.line + 1, (uint32_t)mark.column + 1, 1};
}

static void note(const failure *f, ls_place at, const char *hint, const char *message) {
    ls_diag_add(f->d, LS_ERROR, at, hint, "%s", message);
}

void ls_yaml_refuse_sign(ls_diag *d, ls_place at, char sign) {
    const char *hint = QUOTES;
    if (sign == '*' || sign == '&') hint = QUOTES "; references from one part of the file to another are not accepted";
    if (sign == '!') hint = QUOTES "; tags are not accepted";
    ls_diag_add(d, LS_ERROR, at, hint, "a value cannot begin with %c", sign);
}

/* Line and column of a byte. */
static ls_place place_of(const ls_input *input, int32_t file, size_t offset) {
    ls_input part = {input->name, input->text, offset < input->size ? offset : input->size};
    ls_source_cursor c = {.file = -1};
    ls_source_seek(&c, &part, (ls_place){file, UINT32_MAX, 1, 1});
    return (ls_place){file, c.line, c.column, 1};
}

/* Bytes that are no text: the parser gives their offset. */
static void refuse_bytes(const failure *f, const yaml_parser_t *parser) {
    ls_place at = place_of(f->input, f->at.file, parser->problem_offset);
    if (parser->problem_value == 0)
        note(f, at, "save it as plain text in UTF-8", "a NUL byte: this is not a text file");
    else if (strstr(f->problem, "control") != NULL)
        note(f, at, "delete it; it may be invisible in an editor", "a control character");
    else
        note(f, at, "save the file as UTF-8 (plain text)", "a byte that is not UTF-8 text");
}

static void refuse_key(const failure *f) {
    if (f->before == '"' || f->before == '\'')
        note(f, f->at,
             "put the marks round the whole text; a mark inside a text in '...' is written twice, "
             "so is an apostrophe",
             "something follows a closing quotation mark");
    else if (f->sign == ':' && f->before == '\0')
        note(f, f->at, "write KEY: VALUE", "a key is missing before this colon");
    else if (f->sign == '-' && f->before == '\0')
        note(f, f->at, COLUMNS, "a list entry (-) stands where a key was expected");
    else
        note(f, f->at, REMARK(COLUMNS), "this line does not begin in the column of the lines it belongs to");
}

static void refuse_colon(const failure *f) {
    if (f->colon_before)
        note(f, f->at, QUOTES " if the colon belongs to it; otherwise begin a new line", "a second colon in one line");
    else
        note(f, f->at, COLUMNS "; each key is followed by a colon and a blank",
             "this key does not fit the line above it");
}

static void refuse_node(const failure *f) {
    if (f->sign == ',')
        note(f, f->at, "take the comma out, or " QUOTES " if it belongs to one", "nothing stands before this comma");
    else if (f->sign == ']' || f->sign == '}')
        note(f, f->at, "take it out, or " QUOTES " if it belongs to one", "this closes what was not opened");
    else
        note(f, f->at, "# after a blank begins a comment: " QUOTES " if it belongs to one",
             "a value is missing before this");
}

static void refuse_open(const failure *f, const char *open, const char *close) {
    ls_diag_add(f->d, LS_ERROR, f->at, "a text with a comma, a bracket or a # needs quotes round it",
                "a comma or %s was expected here: the %s of line %lu is still open", close, open,
                (unsigned long)f->from.line);
}

static bool refuse_signs(const failure *f) {
    if (strstr(f->problem, "cannot start any token") == NULL && strstr(f->problem, "tab character") == NULL)
        return false;
    if (f->sign == '\t')
        note(f, f->at, "use blanks", "a tab at the beginning of a line");
    else
        ls_yaml_refuse_sign(f->d, f->at, f->sign);
    return true;
}

/* Failures that one message fits: a part of libyaml's problem and of its context; from: the message
 * belongs where the context began. */
static const struct {
    const char *problem, *context;
    bool from;
    const char *message, *hint;
} plain[] = {
    {"end of stream", "quoted", true, "a quotation mark is opened here and never closed",
     "close it at the end of the text, or take it out"},
    {"document indicator", "quoted", true, "a quotation mark is opened here and never closed",
     "close it at the end of the text, or take it out"},
    {"expected ':'", "", true, "this line has no colon", REMARK("write KEY: VALUE, with a blank after the colon")},
    {"expected '-'", "", false, "a list entry beginning with - was expected here", REMARK(COLUMNS)},
    {"sequence entries are not allowed", "", false, "a list entry (-) cannot stand here",
     "begin each entry on a line of its own below the key, or write [FIRST, SECOND]"},
    {"<document start>", "", false, "this line does not belong to what stands above it", COLUMNS},
    {"", "block scalar", true, "a value cannot begin with | or >", QUOTES},
    {"", "anchor", true, "a value cannot begin with &", QUOTES},
    {"", "alias", true, "a value cannot begin with *", QUOTES},
    {"", " tag", true, "a value cannot begin with !", QUOTES},
    {"tag handle", "", true, "a value cannot begin with !", QUOTES},
    {"", "directive", true, "a line cannot begin with %", QUOTES},
    {"incompatible", "", false, "this line asks for another version of YAML", "take the line out"},
    {"keys are not allowed", "", false, "a value cannot begin with ?", QUOTES},
    {"", "quoted", false, "after a backslash (\\) inside \"...\" only certain letters may stand",
     "use '...' instead, or write the backslash twice"},
};

static void refuse_plain(const failure *f) {
    for (size_t i = 0; i < sizeof plain / sizeof *plain; i++) {
        if (strstr(f->problem, plain[i].problem) == NULL || strstr(f->context, plain[i].context) == NULL) continue;
        note(f, plain[i].from ? f->from : f->at, plain[i].hint, plain[i].message);
        return;
    }
    ls_diag_add(f->d, LS_ERROR, f->at, COLUMNS, "this cannot be read: %s", f->problem);
}

/* Find the bytes round the place of a failure. */
static void look_around(failure *f) {
    ls_source_cursor c = {.file = -1};
    ls_source_seek(&c, f->input, f->at);
    f->sign = c.at < f->input->size ? f->input->text[c.at] : '\0';
    for (size_t i = c.line_start; i < c.at; i++) {
        char byte = f->input->text[i];
        if (byte == ':' && strchr(" \t", f->input->text[i + 1]) != NULL && i + 1 < c.at) f->colon_before = true;
        if (byte != ' ' && byte != '\t') f->before = byte;
    }
}

void ls_yaml_problem(ls_diag *d, int32_t file, const yaml_parser_t *parser) {
    if (parser->error == YAML_MEMORY_ERROR) ls_fail("out of memory");
    failure f = {.d = d, .input = ls_diag_input_at(d, file), .problem = "", .context = ""};
    f.at = ls_yaml_place(file, parser->problem_mark);
    f.from = ls_yaml_place(file, parser->context_mark);
    if (parser->problem != NULL) f.problem = parser->problem;
    if (parser->context != NULL) f.context = parser->context;
    if (parser->error == YAML_READER_ERROR) {
        refuse_bytes(&f, parser);
        return;
    }
    look_around(&f);
    if (refuse_signs(&f)) return;
    if (strstr(f.problem, "expected key") != NULL)
        refuse_key(&f);
    else if (strstr(f.problem, "mapping values are not allowed") != NULL)
        refuse_colon(&f);
    else if (strstr(f.problem, "node content") != NULL)
        refuse_node(&f);
    else if (strstr(f.problem, "',' or '}'") != NULL)
        refuse_open(&f, "{", "}");
    else if (strstr(f.problem, "',' or ']'") != NULL)
        refuse_open(&f, "[", "]");
    else
        refuse_plain(&f);
}

bool ls_yaml_refuse_file(ls_diag *d, int32_t file) {
    static const struct {
        const char *start, *kind;
        size_t n;
    } kinds[] = {
        {"\xFF\xFE", "text in UTF-16", 2},
        {"\xFE\xFF", "text in UTF-16", 2},
        {"PK\x03\x04", "an office document or a zip archive", 4},
        {"\xD0\xCF\x11\xE0", "an old office document", 4},
        {"%PDF", "a PDF document", 4},
        {"{\\rtf", "a word processor's document", 5},
        {"\x89PNG", "a picture", 4},
        {"\xFF\xD8\xFF", "a picture", 3},
        {"\x1F\x8B", "a compressed file", 2},
        {"\x7F"
         "ELF",
         "a program", 4},
    };
    const ls_input *input = ls_diag_input_at(d, file);
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++) {
        if (input->size < kinds[i].n || memcmp(input->text, kinds[i].start, kinds[i].n) != 0) continue;
        ls_diag_add(d, LS_ERROR, LS_WHOLE_FILE(file), "save it as plain text in UTF-8", "this is %s", kinds[i].kind);
        return true;
    }
    return false;
}
