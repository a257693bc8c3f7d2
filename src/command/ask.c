#include "run.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <unistd.h>

typedef LS_LIST(const char *) lines;

/* An answer: the line it was asked for, and the file before it. */
typedef struct {
    size_t at;
    lines before;
} step;

/* The file as lines, and the answers given: for the way back. */
typedef struct {
    ls_run *run;
    ls_arena *arena;
    const char *path;
    lines text;
    LS_LIST(step) steps;
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
        *LS_PUSH(f->arena, &f->text) = ls_arena_copy_n(f->arena, s, n - (n > 0 && s[n - 1] == '\r'));
        s += n + (s[n] == '\n');
    }
    return true;
}

static const char *joined(ls_arena *a, lines text) {
    ls_text *t = ls_text_new(a);
    for (size_t i = 0; i < text.n; i++) ls_text_addf(t, "%s\n", text.at[i]);
    return t->s;
}

static lines copy(ls_arena *a, lines text) {
    lines new = {0};
    for (size_t i = 0; i < text.n; i++) *LS_PUSH(a, &new) = text.at[i];
    return new;
}

static bool save(form *f, lines text) {
    const char *all = joined(f->arena, text), *why = ls_file_unwritable(f->arena, f->path);
    if (why == NULL && ls_file_write(f->arena, f->path, all, strlen(all), &why)) return true;
    ls_run_say(f->run, LS_SYSTEM, "cannot write %s: %s", f->path, why);
    return false;
}

static size_t indent_of(const char *line) { return strspn(line, " "); }

/* The line up to the colon of its key. */
static int key_length(const char *line) { return (int)strcspn(line, ":"); }

/* The example of a line that is to be filled in; NULL: it is none. */
static const char *example_of(const char *line) {
    static const char mark[] = "# " LS_STARTER_FILL;
    const char *value = line + key_length(line) + (strchr(line, ':') != NULL);
    value += strspn(value, " ");
    bool asked = line[indent_of(line)] != '#' && strncmp(value, mark, strlen(mark)) == 0;
    return asked ? value + strlen(mark) : NULL;
}

static const char *with_value(ls_arena *a, const char *line, const char *value) {
    return ls_arena_printf(a, "%.*s: %s", key_length(line), line, value);
}

/* An answer as a value: in quotes where it could be read as anything but one text. */
static const char *quoted(ls_arena *a, const char *answer) {
    bool plain = isalnum((unsigned char)answer[0]);
    for (const char *s = answer; *s != '\0'; s++)
        plain &= isalnum((unsigned char)*s) || strchr(" .,+/%$-&()_;", *s) != NULL;
    if (plain) return answer;
    ls_text *t = ls_text_new(a);
    for (const char *s = answer; *s != '\0'; s++) ls_text_addf(t, *s == '"' || *s == '\\' ? "\\%c" : "%c", *s);
    return ls_arena_printf(a, "\"%s\"", t->s);
}

/* ---- what the reader says ---- */

/* A text with examples in all lines that are still to be filled in, as read; NULL: there are mistakes. */
static const ls_farm *read_filled(const form *f, ls_diag *d, lines text) {
    lines full = copy(f->arena, text);
    for (size_t i = 0; i < full.n; i++) {
        const char *example = example_of(full.at[i]);
        if (example != NULL) full.at[i] = with_value(f->arena, full.at[i], example);
    }
    return ls_farm_read_text(f->arena, d, f->run->books.published, f->path, joined(f->arena, full));
}

static ls_diag *mistakes(const form *f, lines text) {
    ls_diag *d = ls_diag_new(f->arena);
    read_filled(f, d, text);
    return d;
}

/* A stay that is answered already and not usual for such birds, in words; NULL: there is none. */
static const char *odd_stay(const form *f, lines text) {
    ls_arena *a = f->arena;
    const ls_farm *farm = read_filled(f, ls_diag_new(a), text);
    const ls_house *house = farm == NULL || farm->houses.n == 0 ? NULL : &farm->houses.at[0];
    for (size_t i = 0; house != NULL && i < house->flocks.n; i++) {
        const ls_flock *flock = &house->flocks.at[i];
        const char *bird = ls_bird_name(flock->birds.is);
        const ls_row *usual = ls_table_row(ls_reference_table(f->run->books.published, "plausible", ""),
                                           ls_arena_printf(a, "stay %s", bird));
        const ls_figure *low = ls_row_figure(usual, "low"), *high = ls_row_figure(usual, "high");
        double days = flock->removed.day - flock->placed.day;
        if (low == NULL || high == NULL || (days >= low->value && days <= high->value) ||
            example_of(text.at[flock->placed.at.line - 1]) != NULL ||
            example_of(text.at[flock->removed.at.line - 1]) != NULL)
            continue;
        return ls_arena_printf(
            a,
            "A %s flock of %.0f days: usual are %.0f to %.0f. Of several flocks alike, both dates "
            "are those of the last one. If it is right, write it again; else write it anew, or back.",
            bird, days, low->value, high->value);
    }
    return NULL;
}

/* Is there a mistake in the text that is not in the file as it is? */
static bool is_worse(const form *f, lines text) {
    return ls_diag_count(mistakes(f, text), LS_ERROR) > ls_diag_count(mistakes(f, f->text), LS_ERROR);
}

/* ---- a line that nobody knows ---- */

static void leave_out(form *f, lines *text, size_t from, size_t to) {
    for (size_t i = from; i < to; i++) {
        size_t indent = indent_of(text->at[i]);
        text->at[i] = ls_arena_printf(f->arena, "%.*s#%s", (int)indent, text->at[i], text->at[i] + indent);
    }
}

/* The lines of the section that a line stands in, with its key. */
static void section_of(lines text, size_t at, size_t *from, size_t *to) {
    size_t indent = indent_of(text.at[at]);
    for (*from = at; *from > 0 && indent_of(text.at[*from]) >= indent;) --*from;
    size_t outer = indent_of(text.at[*from]);
    for (*to = at + 1; *to < text.n && indent_of(text.at[*to]) > outer;) ++*to;
}

/* Without the line, or else without the section it stands in, if the file may do without. */
static bool do_without(form *f, lines *text, size_t at) {
    size_t from, to;
    lines less = copy(f->arena, *text);
    leave_out(f, &less, at, at + 1);
    if (is_worse(f, less)) {
        section_of(*text, at, &from, &to);
        less = copy(f->arena, *text);
        leave_out(f, &less, from, to);
    }
    if (is_worse(f, less)) return false;
    *text = less;
    return true;
}

/* ---- asking ---- */

typedef enum { ANSWERED, UNKNOWN, BACK, STOPPED } outcome;

static void say(const form *f, const char *words) {
    ls_text *t = ls_text_new(f->arena);
    ls_text_wrap(t, ls_text_plain(f->arena, words), 0, 80);
    fputs(t->s, f->run->out);
}

/* What a line says that is a remark alone: "## ..."; NULL: it is none. */
static const char *remark_of(const char *line) {
    const char *signs = line + indent_of(line), *words = signs + strspn(signs, "#");
    return words > signs && words[0] == ' ' ? words + 1 : NULL;
}

/* What the comments above a line say of it. */
static const char *help_of(const form *f, size_t at) {
    ls_text *t = ls_text_new(f->arena);
    size_t from = at;
    while (from > 0 && remark_of(f->text.at[from - 1]) != NULL) from--;
    for (; from < at; from++) ls_text_addf(t, "%s ", remark_of(f->text.at[from]));
    return t->s;
}

static bool is_one_of(const char *answer, const char *const *words) {
    for (; *words != NULL; words++)
        if (strcasecmp(answer, *words) == 0) return true;
    return false;
}

/* A line from the terminal without blanks at its ends; NULL: it ended. */
static const char *answer_to(const form *f, const char *question) {
    char *line = NULL;
    size_t room = 0;
    fputs(ls_text_plain(f->arena, question), f->run->out);
    fflush(f->run->out);
    ssize_t n = getline(&line, &room, stdin);
    while (n > 0 && isspace((unsigned char)line[n - 1])) line[--n] = '\0';
    const char *answer = n < 0 ? NULL : ls_arena_copy(f->arena, line + strspn(line, " \t"));
    free(line);
    return answer;
}

/* Put the answer into the text, unless the reader finds a mistake in that line, or it makes a stay that is not usual
 * and is not the answer doubted for that before. */
static bool put(form *f, size_t at, const char *answer, const char **doubted) {
    lines text = copy(f->arena, f->text);
    text.at[at] = with_value(f->arena, text.at[at], quoted(f->arena, answer));
    const ls_diag *of_line = ls_diag_of_line(f->arena, mistakes(f, text), (uint32_t)at + 1);
    if (ls_diag_count(of_line, LS_ERROR) > 0) {
        ls_diag_print(of_line, f->run->out);
        return false;
    }
    const char *odd = ls_text_same(*doubted, answer) || odd_stay(f, f->text) != NULL ? NULL : odd_stay(f, text);
    if (odd != NULL) {
        *doubted = answer;
        say(f, odd);
        return false;
    }
    f->text = text;
    return true;
}

static size_t left(lines text) {
    size_t n = 0;
    for (size_t i = 0; i < text.n; i++) n += example_of(text.at[i]) != NULL;
    return n;
}

static const char *const unknown[] = {"?", "do not know", "don't know", "dont know", "unknown", NULL};

static outcome ask(form *f, size_t at) {
    const char *line = f->text.at[at], *name = line + strspn(line, " -");
    fputs("\n", f->run->out);
    say(f, ls_arena_printf(f->arena, "%zu to go: %s", left(f->text), help_of(f, at)));
    const char *question = ls_arena_printf(f->arena, "%.*s, like %s: ", key_length(name), name, example_of(line));
    for (const char *doubted = "";;) {
        const char *answer = answer_to(f, question);
        if (answer == NULL) return STOPPED;
        if (strcasecmp(answer, "back") == 0) return BACK;
        if (is_one_of(answer, unknown)) return UNKNOWN;
        if (answer[0] == '\0')
            say(f, "Write an answer, ? if you do not know, or back for the question before.");
        else if (put(f, at, answer, &doubted))
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

static const char no_step[] = "There is no question before this one.";

/* Take the last answer back; the line asked for then. */
static size_t step_back(form *f, size_t at) {
    if (f->steps.n == 0) {
        say(f, no_step);
        return at;
    }
    f->text = f->steps.at[--f->steps.n].before;
    return f->steps.at[f->steps.n].at;
}

/* Has the file another text by now? Then that is what counts. */
static bool was_changed(form *f, lines asked) {
    form now = *f;
    if (!read_lines(&now) || strcmp(joined(f->arena, now.text), joined(f->arena, asked)) == 0) return false;
    say(f, "The file was changed meanwhile: your last answer is not in it, and is asked again.");
    f->steps.n = 0;
    return true;
}

static size_t next_asked(lines text, size_t at) {
    while (at < text.n && example_of(text.at[at]) == NULL) at++;
    return at;
}

/* Ask line by line; false: the file could not be read or written, which is said. */
static bool ask_all(form *f, bool *stopped) {
    for (size_t at = 0; read_lines(f);) {
        at = next_asked(f->text, at);
        if (at == f->text.n) return true;
        lines asked = copy(f->arena, f->text);
        outcome o = ask(f, at);
        *stopped = o == STOPPED;
        if (*stopped) return true;
        if (was_changed(f, asked)) {
            at = 0;
            continue;
        }
        if (o == UNKNOWN) put_unknown(f, at);
        if (o == BACK)
            at = step_back(f, at);
        else
            *LS_PUSH(f->arena, &f->steps) = (step){at++, asked};
        if (!save(f, f->text)) return false;
    }
    return false;
}

/* ---- what is asked before and after ---- */

bool ls_run_ask_kind(ls_run *r, ls_starter *is) {
    const form f = {.run = r, .arena = r->arena};
    LS_LIST(ls_starter) kinds = {0};
    say(&f, "What birds, and how are they kept?");
    for (int bird = LS_NO_BIRD + 1; bird < LS_BIRDS; bird++)
        for (const char *const *name = ls_farm_housings(r->arena, bird); *name != NULL; name++) {
            *LS_PUSH(r->arena, &kinds) = (ls_starter){bird, *name, is->metric, false};
            fprintf(r->out, "%3zu  %s, %s\n", kinds.n, ls_bird_name(bird), *name);
        }
    for (const char *answer; (answer = answer_to(&f, "number of the line, like 5: ")) != NULL;) {
        char *end;
        long n = strtol(answer, &end, 10);
        if (*answer != '\0' && *end == '\0' && n > 0 && (size_t)n <= kinds.n) {
            *is = kinds.at[n - 1];
            return true;
        }
        if (strcasecmp(answer, "back") == 0) say(&f, no_step);
        say(&f, "Write one of these numbers; nearest to it serves where yours is not among them.");
    }
    return false;
}

/* Lines of a list of houses: the name of its first as written, and where its last line is. */
static const char *first_house(const form *f, size_t *end) {
    size_t at = 0;
    while (at < f->text.n && strncmp(f->text.at[at], "houses:", strlen("houses:")) != 0) at++;
    const char *name = NULL;
    for (*end = ++at; at < f->text.n; at++) {
        const char *line = f->text.at[at], *item = line + indent_of(line);
        if (indent_of(line) == 0 && line[0] != '\0') break;
        if (name == NULL && strncmp(item, "- name: ", strlen("- name: ")) == 0) name = item + strlen("- name: ");
        *end = line[0] == '\0' ? *end : at + 1;
    }
    return name;
}

/* A name of none: a count, as in "2", "two more", "all 3". Where the first house is called by a number, numbers are
 * names. */
static bool is_count(ls_arena *a, const char *name, const char *first) {
    static const char *const words[] = {
        "one", "two", "three", "four",   "five",    "six",  "seven", "eight",   "nine", "ten", "more", "all",    "both",
        "the", "of",  "other", "others", "another", "them", "these", "further", "same", "yes", "y",    "houses", NULL};
    if (strpbrk(first, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ") == NULL) return false;
    for (size_t n; *name != '\0'; name += n + (name[n] != '\0')) {
        n = strcspn(name, " ");
        bool number = strspn(name, "0123456789-+#.") >= n;
        if (!number && !is_one_of(ls_arena_copy_n(a, name, n), words)) return false;
    }
    return true;
}

/* The next of names that stand with commas or "and" between, without blanks at its ends; NULL: there is none. */
static const char *next_name(ls_arena *a, const char **names) {
    const char *s = *names + strspn(*names, " ,;&"), *end = s;
    if (strncasecmp(s, "and ", 4) == 0) s += 4, s += strspn(s, " "), end = s;
    while (*end != '\0' && strchr(",;&", *end) == NULL && strncasecmp(end, " and ", 5) != 0) end++;
    *names = end;
    while (end > s && end[-1] == ' ') end--;
    return end > s ? ls_arena_copy_n(a, s, (size_t)(end - s)) : NULL;
}

/* Houses like the first into the file, all or none of those named. */
static bool add_houses(form *f, const char *names) {
    size_t end;
    const char *first = first_house(f, &end);
    lines more = {0};
    for (size_t i = 0; i < end; i++) *LS_PUSH(f->arena, &more) = f->text.at[i];
    for (const char *name; (name = next_name(f->arena, &names)) != NULL;) {
        if (is_count(f->arena, name, first)) {
            say(f,
                ls_arena_printf(f->arena, "\"%s\" is no name. Write the name of each, like House 2, House 3.", name));
            return false;
        }
        *LS_PUSH(f->arena, &more) = ls_arena_printf(f->arena, "  - name: %s", quoted(f->arena, name));
        *LS_PUSH(f->arena, &more) = ls_arena_printf(f->arena, "    like: %s", first);
    }
    for (size_t i = end; i < f->text.n; i++) *LS_PUSH(f->arena, &more) = f->text.at[i];
    if (is_worse(f, more)) {
        ls_diag_print(mistakes(f, more), f->run->out);
        return false;
    }
    f->text = more;
    return save(f, f->text);
}

/* Are there houses like the first already? */
static bool has_further(const form *f, const char *first) {
    const char *like = ls_arena_printf(f->arena, "    like: %s", first);
    for (size_t i = 0; i < f->text.n; i++)
        if (strcmp(f->text.at[i], like) == 0) return true;
    return false;
}

/* Other houses that were kept alike: asked once. */
static outcome ask_houses(form *f) {
    static const char *const none[] = {"", "none", "no", "n", "nothing", "no more", "0", NULL};
    size_t end;
    const char *answer, *first = first_house(f, &end);
    if (first == NULL || has_further(f, first)) return ANSWERED;
    fputs("\n", f->run->out);
    say(f, "Names of further houses like it, commas between them; nothing if there are none. What "
           "differs is written below their names, later.");
    do {
        lines asked = copy(f->arena, f->text);
        answer = answer_to(f, ls_arena_printf(f->arena, "houses like %s: ", first));
        if (answer == NULL) return STOPPED;
        if (is_one_of(answer, none)) return ANSWERED;
        if (is_one_of(answer, unknown)) return UNKNOWN;
        if (strcasecmp(answer, "back") == 0 && !was_changed(f, asked)) return BACK;
    } while (strcasecmp(answer, "back") == 0 || !read_lines(f) || !add_houses(f, answer));
    return ANSWERED;
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
    form f = {.run = r, .arena = r->arena, .path = path};
    bool stopped = false;
    say(&f, "Each answer is saved. Write ? if you do not know, back for the question before; end with "
            "Ctrl-D.");
    outcome last;
    size_t n;
    do {
        if (!ask_all(&f, &stopped)) return LS_SYSTEM;
        n = left(f.text);
        last = n == 0 && !stopped ? ask_houses(&f) : STOPPED;
        if (last == BACK) step_back(&f, 0);
    } while (last == BACK && save(&f, f.text));
    if (last == BACK) return LS_SYSTEM;
    if (last != STOPPED) return print_estimate(r, path);
    fprintf(r->out, "\nSaved: %s. Still to fill in: %zu. Go on: littershed new --ask -o %s\n", path, n, path);
    return LS_DONE;
}
