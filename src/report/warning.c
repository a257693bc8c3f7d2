#include "warning.h"

#include <string.h>

/* The next line of text, without blanks at its ends and what follows a "#"; NULL: there is none. */
static const char *next_line(ls_arena *a, const char **text) {
    if (**text == '\0') return NULL;
    size_t n = strcspn(*text, "\n");
    char *line = ls_arena_copy_n(a, *text, n);
    *text += n + ((*text)[n] == '\n');
    char *comment = line[0] == '#' ? line : strstr(line, " #");
    if (comment != NULL) *comment = '\0';
    size_t blanks = strspn(line, " "), end = strlen(line);
    while (end > blanks && (line[end - 1] == ' ' || line[end - 1] == '\r')) line[--end] = '\0';
    return line + blanks;
}

/* A key with a value. */
static bool says_something(const char *line) {
    const char *colon = strstr(line, ": ");
    return colon != NULL && colon[2] != '\0';
}

/* Is it a line of the text, after blanks and the signs of such lines? */
static bool holds(const char *text, const char *signs, const char *line) {
    size_t n = strlen(line);
    for (const char *s = text; *s != '\0'; s += strcspn(s, "\n"), s += *s == '\n') {
        const char *is = s + strspn(s, " ") + strspn(s + strspn(s, " "), signs);
        size_t blanks = strspn(is + strnlen(is, n), " ");
        if (strncmp(is, line, n) == 0 && strchr("#\n", is[n + blanks]) != NULL) return true;
    }
    return false;
}

/* The starter that the file began as; NULL: none. The first line is the same in all, the second
 * says what the starter is for. */
static const char *began_as(ls_arena *a, const char *text) {
    for (int i = 2; i < 2 * LS_BIRDS; i++) {
        ls_starter is = {.bird = i / 2, .metric = i % 2 == 1};
        const char *const *housing = ls_farm_housings(a, is.bird);
        for (; (is.housing = *housing) != NULL; housing++) {
            const char *starter = ls_farm_starter(a, is);
            size_t first = strcspn(starter, "\n") + 1;
            if (strncmp(text, starter, first) != 0) return NULL;
            if (strncmp(text, starter, first + strcspn(starter + first, "\n")) == 0) return starter;
        }
    }
    return NULL;
}

static ls_report_begun one_file(ls_arena *a, const ls_input *input) {
    enum { MOST_NAMED = 15 };
    const char *text = input->text;
    const char *starter = began_as(a, text);
    ls_text *lines = ls_text_new(a);
    ls_report_begun file = {.file = input->name};
    long number = 0;
    for (const char *s; starter != NULL && (s = next_line(a, &text)) != NULL;) {
        number++;
        if (!says_something(s) || holds(starter, "", s)) continue;
        file.all++;
        if (holds(starter, "# ", s) && ++file.same <= MOST_NAMED)
            ls_text_addf(lines, "%s%ld", lines->n == 0 ? "" : ", ", number);
    }
    file.lines = file.same > MOST_NAMED ? ls_arena_printf(a, "%s, ...", lines->s) : lines->s;
    return file;
}

ls_report_starter ls_report_starter_of(const ls_view *v) {
    ls_report_starter list = {0};
    const ls_diag *d = v->farm == NULL ? NULL : v->farm->diag;
    for (int32_t i = 0; d != NULL && ls_diag_input_at(d, i) != NULL; i++) {
        ls_report_begun file = one_file(v->arena, ls_diag_input_at(d, i));
        if (file.same > 0) *LS_PUSH(v->arena, &list) = file;
    }
    return list;
}

const char *ls_report_starter_words(const ls_view *v) {
    long same = 0, all = 0;
    ls_report_starter list = ls_report_starter_of(v);
    for (size_t i = 0; i < list.n; i++) same += list.at[i].same, all += list.at[i].all;
    return same == 0 ? NULL
                     : ls_arena_printf(v->arena,
                                       "NOT YOUR FARM YET: %ld of %ld figures and names are examples of "
                                       "the starter file. Put in your own. List: littershed check",
                                       same, all);
}

const ls_report_quarantine *ls_report_quarantine_of(const ls_view *v) {
    if (!ls_farm_is_quarantined(v->farm)) return NULL;
    const ls_row *row = ls_table_row(ls_reference_table(v->reference, "caution", ""), "avian_influenza");
    ls_report_quarantine *q = LS_NEW(v->arena, ls_report_quarantine, 1);
    *q = (ls_report_quarantine){
        .heading = "QUARANTINE: NOTHING MAY LEAVE THE FARM",
        .order = "All figures are for planning only: no load may be hauled until the order is "
                 "lifted or a permit allows it.",
        .caution = ls_row_word(row, "text"),
        .who = row->source->who,
    };
    return q;
}
