#include "run.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <unistd.h>

typedef LS_LIST(const char *) lines;

/* The file as lines, and what was changed in it: for one step back. */
typedef struct {
    ls_run *run;
    ls_arena *arena;
    const char *path;
    lines text;
    lines before; /* the last answer */
    size_t asked_before;
} form;

/* ---- the file ---- */

static bool read_lines(form *f) {
    ls_diag *d = ls_diag_new(f->arena);
    int32_t file = ls_file_read_plain(f->arena, d, f->path);
    f->text = (lines){0};
    if (file < 0) {
        ls_diag_print(d, f->run->err);
        return false;
    }
    for (const char *s = ls_diag_input_at(d, file)->text; *s != '\0';) {
        size_t n = strcspn(s, "\n");
        *LS_PUSH(f->arena, &f->text) = ls_arena_copy_n(f->arena, s, n);
        s += n + (s[n] == '\n');
    }
    return true;
}

static const char *joined(ls_arena *a, lines text) {
    ls_text *t = ls_text_new(a);
    for (size_t i = 0; i < text.n; i++)
        ls_text_addf(t, "%s\n", text.at[i]);
    return t->s;
}

static lines copy(ls_arena *a, lines text) {
    lines new = {0};
    for (size_t i = 0; i < text.n; i++)
        *LS_PUSH(a, &new) = text.at[i];
    return new;
}

static bool save(form *f, lines text) {
    const char *all = joined(f->arena, text), *why;
    if (ls_file_write(f->arena, f->path, all, strlen(all), &why))
        return true;
    ls_run_say(f->run, LS_SYSTEM, "cannot write %s: %s", f->path, why);
    return false;
}

static size_t indent_of(const char *line) {
    return strspn(line, " ");
}

/* The example of a line that is to be filled in; NULL: it is none. */
static const char *example_of(const char *line) {
    const char *mark = strstr(line, "# " LS_STARTER_FILL);
    return mark == NULL || line[indent_of(line)] == '#' ? NULL
                                                        : mark + strlen("# " LS_STARTER_FILL);
}

/* The line up to the colon of its key. */
static int key_length(const char *line) {
    return (int)strcspn(line, ":");
}

static const char *with_value(ls_arena *a, const char *line, const char *value) {
    return ls_arena_printf(a, "%.*s: %s", key_length(line), line, value);
}

/* An answer as a value: in quotes where it could be read as anything but one text. */
static const char *quoted(ls_arena *a, const char *answer) {
    bool plain = isalnum((unsigned char)answer[0]);
    for (const char *s = answer; *s != '\0'; s++)
        plain &= isalnum((unsigned char)*s) || strchr(" .,+/%$-&()_;", *s) != NULL;
    if (plain)
        return answer;
    ls_text *t = ls_text_new(a);
    for (const char *s = answer; *s != '\0'; s++)
        ls_text_addf(t, *s == '"' || *s == '\\' ? "\\%c" : "%c", *s);
    return ls_arena_printf(a, "\"%s\"", t->s);
}

/* ---- what the reader says ---- */

/* The mistakes of a text with examples in all lines that are still to be filled in. */
static ls_diag *mistakes(const form *f, lines text) {
    ls_diag *d = ls_diag_new(f->arena);
    lines full = copy(f->arena, text);
    for (size_t i = 0; i < full.n; i++) {
        const char *example = example_of(full.at[i]);
        if (example != NULL)
            full.at[i] = with_value(f->arena, full.at[i], example);
    }
    ls_farm_read_text(f->arena, d, f->run->books.published, f->path, joined(f->arena, full));
    return d;
}

static bool has_mistakes(const form *f, lines text) {
    return ls_diag_count(mistakes(f, text), LS_ERROR) > 0;
}

/* ---- a line that nobody knows ---- */

static void leave_out(form *f, lines *text, size_t from, size_t to) {
    for (size_t i = from; i < to; i++) {
        size_t indent = indent_of(text->at[i]);
        text->at[i] =
            ls_arena_printf(f->arena, "%.*s#%s", (int)indent, text->at[i], text->at[i] + indent);
    }
}

/* The lines of the section that a line stands in, with its key. */
static void section_of(lines text, size_t at, size_t *from, size_t *to) {
    size_t indent = indent_of(text.at[at]);
    for (*from = at; *from > 0 && indent_of(text.at[*from]) >= indent;)
        --*from;
    size_t outer = indent_of(text.at[*from]);
    for (*to = at + 1; *to < text.n && indent_of(text.at[*to]) > outer;)
        ++*to;
}

/* Without the line, or else without the section it stands in, if the file may do without. */
static bool do_without(form *f, lines *text, size_t at) {
    size_t from, to;
    lines less = copy(f->arena, *text);
    leave_out(f, &less, at, at + 1);
    if (has_mistakes(f, less)) {
        section_of(*text, at, &from, &to);
        less = copy(f->arena, *text);
        leave_out(f, &less, from, to);
    }
    if (has_mistakes(f, less))
        return false;
    *text = less;
    return true;
}

/* ---- asking ---- */

typedef enum { ANSWERED, UNKNOWN, BACK, STOPPED } outcome;

static void say(const form *f, const char *words) {
    ls_text *t = ls_text_new(f->arena);
    ls_text_wrap(t, words, 0, 80);
    fputs(t->s, f->run->out);
}

/* What the comments above a line say of it. */
static const char *help_of(const form *f, size_t at) {
    ls_text *t = ls_text_new(f->arena);
    size_t from = at;
    while (from > 0 &&
           strncmp(f->text.at[from - 1] + indent_of(f->text.at[from - 1]), "# ", 2) == 0)
        from--;
    for (; from < at; from++)
        ls_text_addf(t, "%s ", f->text.at[from] + indent_of(f->text.at[from]) + 2);
    return t->s;
}

static bool is_one_of(const char *answer, const char *const *words) {
    for (; *words != NULL; words++)
        if (strcasecmp(answer, *words) == 0)
            return true;
    return false;
}

/* A line from the terminal without blanks at its ends; NULL: it ended. */
static const char *answer_to(const form *f, const char *question) {
    char *line = NULL;
    size_t room = 0;
    fprintf(f->run->out, "%s", question);
    fflush(f->run->out);
    ssize_t n = getline(&line, &room, stdin);
    while (n > 0 && isspace((unsigned char)line[n - 1]))
        line[--n] = '\0';
    const char *answer = n < 0 ? NULL : ls_arena_copy(f->arena, line + strspn(line, " \t"));
    free(line);
    return answer;
}

/* Put the answer into the text, unless the reader finds a mistake in that line. */
static bool put(form *f, size_t at, const char *answer) {
    lines text = copy(f->arena, f->text);
    text.at[at] = with_value(f->arena, text.at[at], quoted(f->arena, answer));
    const ls_diag *of_line = ls_diag_of_line(f->arena, mistakes(f, text), (uint32_t)at + 1);
    if (ls_diag_count(of_line, LS_ERROR) > 0) {
        ls_diag_print(of_line, f->run->out);
        return false;
    }
    f->text = text;
    return true;
}

static size_t left(lines text) {
    size_t n = 0;
    for (size_t i = 0; i < text.n; i++)
        n += example_of(text.at[i]) != NULL;
    return n;
}

static outcome ask(form *f, size_t at) {
    static const char *const unknown[] = {"?",         "do not know", "don't know",
                                          "dont know", "unknown",     NULL};
    const char *line = f->text.at[at], *name = line + strspn(line, " -");
    fputs("\n", f->run->out);
    say(f, ls_arena_printf(f->arena, "%zu to go: %s", left(f->text), help_of(f, at)));
    const char *question =
        ls_arena_printf(f->arena, "%.*s, like %s: ", key_length(name), name, example_of(line));
    for (;;) {
        const char *answer = answer_to(f, question);
        if (answer == NULL)
            return STOPPED;
        if (strcasecmp(answer, "back") == 0)
            return BACK;
        if (is_one_of(answer, unknown))
            return UNKNOWN;
        if (answer[0] == '\0')
            say(f, "Write an answer, ? if you do not know, or back for the question before.");
        else if (put(f, at, answer))
            return ANSWERED;
    }
}

static void put_unknown(form *f, size_t at) {
    lines text = copy(f->arena, f->text);
    if (do_without(f, &text, at)) {
        f->text = text;
        say(f, "Left out. The published figures serve instead, or a later page asks for it.");
    } else {
        say(f, "An estimate needs this. Find it out, and go on then: the file keeps the rest.");
    }
}

/* Ask line by line; false: the file could not be read or written, which is said. */
static bool ask_all(form *f, bool *stopped) {
    for (size_t at = 0; !*stopped && read_lines(f); at++) {
        while (at < f->text.n && example_of(f->text.at[at]) == NULL)
            at++;
        if (at == f->text.n)
            return true;
        lines now = f->text;
        outcome o = ask(f, at);
        *stopped = o == STOPPED;
        if (o == UNKNOWN)
            put_unknown(f, at);
        if (o == BACK && f->before.n == now.n)
            f->text = f->before, at = f->asked_before;
        else if (o != BACK)
            f->before = now, f->asked_before = at;
        if (!*stopped && !save(f, f->text))
            return false;
        at -= o == BACK;
    }
    return *stopped;
}

static int print_estimate(ls_run *r, const char *path) {
    ls_options o = *r->options;
    o.output = NULL;
    ls_run e = *r;
    e.command = &ls_command_estimate, e.options = &o, e.format = "text";
    e.operands = &path, e.n = 1;
    fputs("\n", r->out);
    return ls_run_made(&e, e.command->make);
}

int ls_run_ask(ls_run *r, const char *path) {
    if (!isatty(STDIN_FILENO))
        return MISUSE(r, "--ask needs a terminal to ask on; fill in %s by hand", path);
    form f = {.run = r, .arena = r->arena, .path = path};
    bool stopped = false;
    say(&f,
        "Each answer is saved. Write ? if you do not know, back for the question before; end with "
        "Ctrl-D.");
    if (!ask_all(&f, &stopped))
        return LS_SYSTEM;
    size_t n = left(f.text);
    if (n == 0)
        return print_estimate(r, path);
    fprintf(r->out, "\nSaved: %s. Still to fill in: %zu. Go on: littershed new --ask -o %s\n", path,
            n, path);
    return LS_DONE;
}
