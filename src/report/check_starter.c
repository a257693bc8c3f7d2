/* Which lines of a farm file still stand as the starter wrote them. */
#include "check_odd.h"

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

void ls_report_left_of_starter(ls_report_page *p) {
    enum { MOST_NAMED = 15 };
    ls_arena *a = p->arena;
    const ls_diag *d = p->view->farm->diag;
    for (int32_t file = 0; ls_diag_input_at(d, file) != NULL; file++) {
        const char *text = ls_diag_input_at(d, file)->text;
        int bird = begun_as(a, text);
        const char *starter = bird == 0 ? "" : ls_farm_starter(a, bird);
        ls_text *lines = ls_text_new(a);
        size_t same = 0, all = 0, number = 0;
        for (const char *s; bird != 0 && (s = next_line(a, &text)) != NULL;) {
            number++;
            if (!says_something(s))
                continue;
            all++;
            if (holds(a, starter, s) && ++same <= MOST_NAMED)
                ls_text_addf(lines, "%s%zu", lines->n == 0 ? "" : ", ", number);
        }
        if (same > 0) {
            ls_report_heading(p, "STILL THE STARTER'S");
            ls_report_item(p, 2,
                           "%s: %zu of %zu figures and names stand as the starter wrote them, as "
                           "examples (lines %s%s): put in your own",
                           ls_report_name(p, ls_diag_input_at(d, file)->name, 40), same, all,
                           lines->s, same > MOST_NAMED ? ", ..." : "");
        }
    }
}
