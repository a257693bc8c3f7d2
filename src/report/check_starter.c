/* Which lines of a farm file still stand as the starter wrote them. */
#include "put.h"

#include <string.h>

/* The next line of text, without blanks at its ends and what follows a "#"; NULL: there is none. */
static const char *next_line(ls_arena *a, const char **text) {
    if (**text == '\0')
        return NULL;
    size_t n = strcspn(*text, "\n");
    char *line = ls_arena_copy_n(a, *text, n);
    *text += n + ((*text)[n] == '\n');
    char *comment = line[0] == '#' ? line : strstr(line, " #");
    if (comment != NULL)
        *comment = '\0';
    size_t blanks = strspn(line, " "), end = strlen(line);
    while (end > blanks && (line[end - 1] == ' ' || line[end - 1] == '\r'))
        line[--end] = '\0';
    return line + blanks;
}

/* A key with a value. */
static bool says_something(const char *line) {
    const char *colon = strstr(line, ": ");
    return colon != NULL && colon[2] != '\0';
}

static bool holds(ls_arena *a, const char *text, const char *line) {
    for (const char *s; (s = next_line(a, &text)) != NULL;)
        if (strcmp(s, line) == 0)
            return true;
    return false;
}

/* The bird whose starter the file began as; 0: it did not. */
static int begun_as(ls_arena *a, const char *text) {
    for (int bird = 1; bird < LS_BIRDS; bird++) {
        const char *starter = ls_farm_starter(a, bird);
        if (strncmp(text, starter, strcspn(starter, "\n")) == 0)
            return bird;
    }
    return 0;
}

/* How much of one file, and where. */
static void one_file(ls_doc_group *g, const ls_input *input) {
    enum { MOST_NAMED = 15 };
    ls_arena *a = g->document->arena;
    const char *text = input->text;
    int bird = begun_as(a, text);
    const char *starter = bird == 0 ? "" : ls_farm_starter(a, bird);
    ls_text *lines = ls_text_new(a);
    long same = 0, all = 0, number = 0;
    for (const char *s; bird != 0 && (s = next_line(a, &text)) != NULL;) {
        number++;
        if (!says_something(s))
            continue;
        all++;
        if (holds(a, starter, s) && ++same <= MOST_NAMED)
            ls_text_addf(lines, "%s%ld", lines->n == 0 ? "" : ", ", number);
    }
    if (same > 0)
        ls_doc_item(g, LS_FIRST,
                    T("{}: {} of {} figures and names stand as the starter wrote them, as examples "
                      "(lines {}): put in your own",
                      W(input->name), N(same), N(all),
                      W(ls_arena_printf(a, "%s%s", lines->s, same > MOST_NAMED ? ", ..." : ""))));
}

void ls_report_put_starter_lines(ls_doc_group *top) {
    const ls_diag *d = top->document->view->farm->diag;
    ls_doc_group *g = ls_doc_object(top, LS_FIRST, "starter", "STILL THE STARTER'S");
    for (int32_t file = 0; ls_diag_input_at(d, file) != NULL; file++)
        one_file(g, ls_diag_input_at(d, file));
}
