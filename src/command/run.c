#include "run.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <sys/ioctl.h>
#include <unistd.h>

bool ls_run_in(const ls_run *r, const char *format) { return strcmp(r->format, format) == 0; }

ls_form ls_run_form(const ls_run *r) {
    return ls_run_in(r, "json") ? LS_JSON : ls_run_in(r, "html") ? LS_HTML : ls_run_in(r, "csv") ? LS_CSV : LS_TEXT;
}

bool ls_run_given(const ls_run *r, ls_option option) { return (r->options->given & LS_OPTION_BIT(option)) != 0; }

int ls_run_mistake(ls_run *r) {
    ls_diag_print(r->books.diag, r->err);
    return LS_MISTAKE;
}

static bool stopped(ls_run *r) {
    ls_run_mistake(r);
    return false;
}

ls_run_operands ls_run_sort(const ls_run *r, bool any_file) {
    ls_run_operands q = {0};
    for (size_t i = 0; i < r->n; i++) {
        const char *s = r->operands[i];
        if (strcmp(s, "-") == 0 || ls_text_ends(s, ".yaml") || ls_text_ends(s, ".yml") ||
            (any_file && access(s, R_OK) == 0))
            *LS_PUSH(r->arena, &q.files) = s;
        else
            *(q.word == NULL ? &q.word : &q.second) = s;
    }
    return q;
}

const ls_view *ls_run_view(const ls_run *r) {
    ls_view *v = LS_NEW(r->arena, ls_view, 1);
    *v = (ls_view){.arena = r->arena,
                   .sheet = r->books.sheet,
                   .reference = r->books.reference,
                   .farm = r->books.farm,
                   .metric = r->options->metric,
                   .full = GIVEN(r, FULL) || (r->command->options & OPTION(FULL)) == 0,
                   .year = r->books.farm == NULL ? 0 : ls_farm_year(r->books.farm),
                   .log_notes = ls_books_log_notes(&r->books),
                   .seed = r->books.seed,
                   .draws = r->books.draws,
                   .files = r->files};
    if (ls_run_form(r) == LS_TEXT) ls_run_terminal(r, v);
    return v;
}

/* The names as a shell takes them; NULL: one would have to be quoted, or is no file. */
static const char *typed(ls_arena *a, const char *const *files, size_t n) {
    static const char plain[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789._-+/";
    ls_text *t = ls_text_new(a);
    for (size_t i = 0; i < n; i++) {
        if (files[i][0] == '-' || files[i][strspn(files[i], plain)] != '\0') return NULL;
        ls_text_addf(t, "%s%s", i > 0 ? " " : "", files[i]);
    }
    return t->s;
}

bool ls_run_farm(ls_run *r, const char *const *files, size_t n) {
    r->files = typed(r->arena, files, n);
    if (!ls_books_read(&r->books, files, n)) return stopped(r);
    ls_gate_keep(r, files, n);
    return ls_gate_passes(r);
}

bool ls_run_log(ls_run *r, ls_date before) { return ls_books_log(&r->books, before) || stopped(r); }

/* Reads the years before; their mistakes and warnings are printed, each with its own files. */
static bool read_earlier(ls_run *r) {
    bool read = ls_books_earlier(&r->books);
    for (size_t i = 0; i < r->books.earlier.n; i++) {
        const ls_diag *d = r->books.earlier.at[i]->diag;
        if (ls_diag_count(d, LS_WARNING) > 0 || ls_diag_count(d, LS_ERROR) > 0) ls_diag_print(d, r->err);
    }
    return read;
}

bool ls_run_estimate(ls_run *r) {
    bool years = ls_books_has_fields(&r->books); /* houses alone need nothing of the years before */
    return ((!years || read_earlier(r)) && ls_books_estimate(&r->books)) || stopped(r);
}

bool ls_run_agronomy(ls_run *r) { return ls_books_agronomy(&r->books) || stopped(r); }

/* A mistake found now is printed, and what is told goes on. */
static void check_sheet(ls_run *r) {
    if (!ls_books_fit(&r->books)) ls_run_mistake(r);
}

ls_next_list ls_run_next(ls_run *r) {
    ls_next_list next = ls_litter_next(r->books.sheet, r->books.reference, r->books.estimate);
    check_sheet(r);
    return next;
}

const ls_plan *ls_run_morning_plan(ls_run *r) {
    ls_run_progress *progress = ls_run_progress_new(r);
    ls_plan_terms terms = {.aim = r->options->aim,
                           .from = r->options->from,
                           .from_second = 60 * r->options->from_minute,
                           .progress = ls_run_progress_hook(progress)};
    const ls_plan *plan = ls_books_plan(&r->books, &terms);
    ls_run_progress_end(progress);
    return plan;
}

const ls_plan_sums *ls_run_plan(ls_run *r) {
    const ls_plan *plan = ls_run_morning_plan(r);
    const ls_plan_sums *sums = plan == NULL ? NULL : ls_books_plan_sums(&r->books, plan);
    return sums != NULL && ls_books_fit(&r->books) ? sums : (stopped(r), NULL);
}

const ls_tickets *ls_run_tickets(ls_run *r, const ls_plan_sums *sums) {
    const ls_tickets *tickets = ls_books_tickets(&r->books, sums);
    check_sheet(r);
    return tickets;
}

const ls_dossier *ls_run_dossier(ls_run *r, ls_dossier_terms terms) {
    ls_run_progress *progress = ls_run_progress_new(r);
    const ls_dossier *d = ls_books_dossier(&r->books, terms, ls_run_progress_hook(progress));
    ls_run_progress_end(progress);
    bool good = d != NULL && ls_diag_count(r->books.diag, LS_ERROR) == 0 && ls_books_fit(&r->books);
    return good ? d : (stopped(r), NULL);
}

/* ---- output ---- */

const char *ls_run_ending(const char *path) {
    static const char *const endings[][2] = {{".html", "html"}, {".htm", "html"}, {".json", "json"}, {".csv", "csv"}};
    const char *dot = path == NULL ? NULL : strrchr(path, '.');
    for (size_t i = 0; dot != NULL && i < sizeof endings / sizeof *endings; i++)
        if (strcasecmp(dot, endings[i][0]) == 0) return endings[i][1];
    return NULL;
}

/* What was let pass may be another file by now. */
int ls_run_may_write(ls_run *r) {
    const char *path = r->options->output, *said = ls_run_ending(path);
    if (!ls_gate_passes(r)) return LS_USAGE;
    if (said != NULL && !ls_run_in(r, said) && !GIVEN(r, FORMAT))
        return MISUSE(r, "this is %s, not %s as the name %s says; name another file, or say --format %s", r->format,
                      said, path, r->format);
    return LS_DONE;
}

static int write_file(ls_run *r, const char *path, const char *text) {
    const char *why;
    int code = ls_run_may_write(r);
    if (code != LS_DONE) return code;
    if (!ls_file_write(r->arena, path, text, strlen(text), &why))
        return ls_run_say(r, LS_SYSTEM, "cannot write %s: %s", path, why);
    return LS_DONE;
}

int ls_run_write(ls_run *r, const char *text) {
    const char *path = r->options->output;
    if (path != NULL && strcmp(path, "-") != 0) return write_file(r, path, text);
    errno = 0;
    if (fputs(text, r->out) == EOF || fflush(r->out) != 0 || ferror(r->out))
        return ls_run_say(r, LS_SYSTEM, "cannot write the output: %s", strerror(errno));
    return LS_DONE;
}

int ls_run_finish(ls_run *r, const char *text) {
    if (r->books.diag != NULL && ls_diag_count(r->books.diag, LS_WARNING) > 0) ls_diag_print(r->books.diag, r->err);
    return ls_run_write(r, text);
}

/* The table that --part names; NULL: there is none, which is said. */
static const char *part_of(ls_run *r, const ls_document *d) {
    const char *part = GIVEN(r, PART) ? r->options->word[LS_OPTION_PART] : ls_document_table(d);
    const char *const *parts = ls_document_parts(d);
    ls_text *names = ls_text_new(r->arena);
    for (size_t i = 0; parts[i] != NULL; i++) {
        if (ls_text_same(part, parts[i])) return part;
        ls_text_addf(names, "%s%s", i == 0 ? "" : ", ", parts[i]);
    }
    MISUSE(r, "--format csv: --part is one of: %s", names->s);
    return NULL;
}

const char *ls_run_written(ls_run *r, const ls_document *d) {
    ls_form form = ls_run_form(r);
    if (form != LS_CSV && GIVEN(r, PART)) {
        MISUSE(r, "--part is for --format csv");
        return NULL;
    }
    const char *part = form == LS_CSV ? part_of(r, d) : NULL;
    if (form == LS_CSV) return part == NULL ? NULL : ls_document_csv(d, part);
    return form == LS_JSON ? ls_document_json(d) : form == LS_HTML ? ls_document_html(d) : ls_document_text(d);
}

int ls_run_document(ls_run *r, const ls_document *d) {
    const char *text = ls_run_written(r, d);
    return text == NULL ? LS_USAGE : ls_run_finish(r, text);
}

int ls_run_made(ls_run *r, const ls_document *(*make)(ls_run *)) {
    ls_run other = *r;
    bool twice = GIVEN(r, INSTEAD);
    for (size_t i = 0; twice && i < r->n; i++)
        if (strcmp(r->operands[i], "-") == 0)
            return MISUSE(r, "--instead reads the farm files twice; save standard input in a file "
                             "and name that");
    const ls_document *now = make(r), *instead;
    if (now == NULL) return LS_MISTAKE;
    if (!twice) return ls_run_document(r, now);
    other.books.instead = r->options->word[LS_OPTION_INSTEAD];
    if ((instead = make(&other)) == NULL) return LS_MISTAKE;
    if (other.files != NULL)
        other.files = ls_arena_printf(r->arena, "%s --instead %s", other.files, other.books.instead);
    return ls_run_document(
        &other, ls_report_instead(ls_run_view(&other), r->command->name, now, instead, &other.books.farm->changes));
}

/* ---- what a terminal can show ---- */

enum { NARROWEST = 60, WIDEST = 80 };

static bool is_set(const char *name) {
    const char *s = getenv(name);
    return s != NULL && s[0] != '\0';
}

/* Lines are read best at no more than 80 columns, and tables need 60. */
static size_t columns_of(int terminal) {
    struct winsize size;
    bool told = ioctl(terminal, TIOCGWINSZ, &size) == 0 && size.ws_col > 0;
    long n = told ? size.ws_col : is_set("COLUMNS") ? strtol(getenv("COLUMNS"), NULL, 10) : WIDEST;
    return n < NARROWEST ? NARROWEST : n > WIDEST ? WIDEST : (size_t)n;
}

void ls_run_terminal(const ls_run *r, ls_view *v) {
    const char *path = r->options->output, *kind = getenv("TERM");
    int out = fileno(r->out);
    if ((path != NULL && strcmp(path, "-") != 0) || out < 0 || !isatty(out)) return;
    v->columns = columns_of(out);
    v->bold = is_set("TERM") && strcmp(kind, "dumb") != 0 && !is_set("NO_COLOR");
}
