/* An entry as a row of the log. */
#include "row.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const char *const columns[] = {"entry", "replaces", "ticket", "when",
                                      "tons",  "weighed",  "cleared"};

static const struct {
    const char *column, *label;
} words[LS_LOG_WORDS] = {
    [LS_LOG_FIELD] = {"field", "field"},
    [LS_LOG_TRUCK] = {"truck", "truck"},
    [LS_LOG_DRIVER] = {"driver", "driver"},
    [LS_LOG_RECEIVED_BY] = {"received_by", "received by"},
    [LS_LOG_ANALYSIS] = {"analysis", "analysis handed over"},
    [LS_LOG_INCORPORATED] = {"incorporated", "worked in"},
    [LS_LOG_WEATHER_BEFORE] = {"weather_before", "weather before"},
    [LS_LOG_WEATHER] = {"weather", "weather"},
    [LS_LOG_WEATHER_AFTER] = {"weather_after", "weather after"},
    [LS_LOG_SOIL] = {"soil", "soil"},
    [LS_LOG_NOTE] = {"note", "note"},
};

const char *ls_log_column(ls_log_word word) {
    return words[word].column;
}

const char *ls_log_label(ls_log_word word) {
    return words[word].label;
}

const char *ls_record_column(size_t column) {
    return column < LS_RECORD_WORDS ? columns[column] : words[column - LS_RECORD_WORDS].column;
}

bool ls_log_stands(const ls_log_entry *e) {
    return e->replaced_by == 0 && e->tons > 0;
}

const char *ls_log_tons_text(ls_arena *a, double tons) {
    char *s = ls_arena_printf(a, "%.4f", tons / ls_unit_of("ton").factor);
    size_t n = strlen(s);
    while (s[n - 1] == '0')
        n--;
    s[s[n - 1] == '.' ? n - 1 : n] = '\0';
    return s;
}

const char *ls_log_share_text(ls_arena *a, double share) {
    if (isnan(share))
        return "";
    return share >= 1 ? "all" : ls_arena_printf(a, "%s %%", ls_number_text(a, share * 100, 4));
}

bool ls_log_share_parse(const char *s, double *out) {
    double percent;
    size_t n = strcspn(s, " %");
    if (strcmp(s, "all") == 0) {
        *out = 1;
        return true;
    }
    if (!ls_number_parse(s, n, &percent) || percent <= 0 || percent > 100 ||
        strcmp(s + n + strspn(s + n, " "), "%") != 0)
        return false;
    *out = percent / 100;
    return true;
}

bool ls_log_fits(ls_arena *a, const char *s) {
    ls_arena_mark before = ls_arena_here(a);
    char *flat = ls_arena_copy(a, s);
    for (char *c = flat; *c != '\0'; c++)
        if (*c == '\n' || *c == '\t')
            *c = ' ';
    bool fits = strcmp(ls_text_plain(a, flat), flat) == 0 && ls_text_columns(flat) <= LS_MOST_CELL;
    ls_arena_rewind(a, before);
    return fits;
}

/* ls_text_csv leads what would run as a formula with an apostrophe. */
static bool runs(ls_arena *a, const char *s) {
    const char *cell = ls_text_csv(a, s);
    return cell[cell[0] == '"'] == '\'' && s[0] != '\'';
}

/* A text of apostrophes before a formula gets one more, so that taking one away when reading gives
 * every text back. */
static bool is_guarded(ls_arena *a, const char *s) {
    return s[0] == '\'' && runs(a, s + strspn(s, "'"));
}

const char *ls_record_unguarded(ls_arena *a, const char *cell) {
    return is_guarded(a, cell) ? cell + 1 : cell;
}

static const char *cell_of(ls_arena *a, const char *s) {
    return ls_text_csv(a, is_guarded(a, s) ? ls_arena_printf(a, "'%s", s) : s);
}

const char *ls_record_header(ls_arena *a) {
    ls_text *t = ls_text_new(a);
    for (size_t i = 0; i < LS_RECORD_COLUMNS; i++)
        ls_text_addf(t, "%s%s", i > 0 ? "," : "", ls_record_column(i));
    ls_text_add(t, "\r\n");
    return t->s;
}

const char *ls_record_row(ls_arena *a, const ls_log_entry *e) {
    ls_text *t = ls_text_new(a);
    ls_text_addf(t, "%ld,", e->number);
    if (e->replaces > 0)
        ls_text_addf(t, "%ld", e->replaces);
    ls_text_addf(t, ",%s,%s,%s,%s,%s", cell_of(a, e->ticket.text), ls_when_text(a, e->when),
                 ls_log_tons_text(a, e->tons), e->weighed ? "yes" : "no",
                 ls_log_share_text(a, e->cleared));
    for (int i = 0; i < LS_LOG_WORDS; i++)
        ls_text_addf(t, ",%s", cell_of(a, e->words[i]));
    ls_text_add(t, "\r\n");
    return t->s;
}
