/* The log against the copy of its entries: what record wrote counts. */
#include "row.h"

#include <string.h>

/* The same word, but for blanks and zeros that a spreadsheet drops: "07" and "7". */
static bool alike(ls_arena *a, const char *left, const char *right) {
    const char *s = ls_record_trimmed(a, left), *t = ls_record_trimmed(a, right);
    double x, y;
    bool numbers = ls_number_parse(s, strlen(s), &x) && ls_number_parse(t, strlen(t), &y);
    return strcmp(s, t) == 0 || (numbers && !(x < y) && !(x > y));
}

/* Does a cell say the same in the log and its copy? Spreadsheets give a day the time 00:00. */
static bool agree(ls_arena *a, const ls_log_entry *log, const ls_log_entry *copy, size_t column) {
    if (column == LS_RECORD_WHEN && log->when.minute <= 0 && copy->when.minute <= 0)
        return log->when.day == copy->when.day;
    return alike(a, ls_record_text(a, log, column), ls_record_text(a, copy, column));
}

bool ls_log_same(ls_arena *a, const ls_log *left, const ls_log *right) {
    bool same = left->entries.n == right->entries.n;
    for (size_t i = 0; same && i < left->entries.n; i++)
        for (size_t c = 0; same && c < LS_RECORD_COLUMNS; c++)
            same = agree(a, &left->entries.at[i], &right->entries.at[i], c);
    return same;
}

/* Which of the two was edited nobody can tell. The log is opened and saved by people, the copy by
 * nobody but record: it counts. Of entries that are not replaced since. */
static void tell_changes(ls_arena *a, ls_diag *d, ls_log *log, const ls_log *copy) {
    size_t n = log->changed.n;
    log->changed.n = 0;
    ls_text *cells = ls_text_new(a);
    for (size_t i = 0; i < n; i++) {
        ls_log_change c = log->changed.at[i];
        const ls_log_entry *e = &log->entries.at[c.entry - 1];
        if (e->replaced_by != 0) continue;
        log->changed.at[log->changed.n++] = c;
        ls_text_addf(cells, "; %s: log \"%s\", copy \"%s\"", c.column, c.now, c.was);
        if (i + 1 < n && log->changed.at[i + 1].entry == c.entry) continue;
        ls_diag_add(d, LS_WARNING, e->at,
                    ls_arena_printf(a,
                                    e->of == LS_LOG_HAULED ? "one of them was edited; the copy counts until you record "
                                                             "what is right: --replaces %ld"
                                                           : "one of them was edited; the copy counts. To change what "
                                                             "was handed out: record --replaces %ld --tons 0, then %s "
                                                             "--issue. To drop the edit: copy %s over it",
                                    c.entry, e->of == LS_LOG_PROMISED ? "tickets --promise" : "tickets", copy->path),
                    "entry %ld differs in the log and its copy%s", c.entry, cells->s);
        cells->n = 0;
    }
}

static void tell_lost(ls_arena *a, ls_diag *d, const ls_log *log, const ls_log *copy, ls_severity severity) {
    int32_t file = ls_diag_input(d, (ls_input){log->path, "", 0});
    const ls_log_entry *last = &copy->entries.at[copy->entries.n - 1];
    ls_diag_add(d, severity, (ls_place){file, 0, 0, 0},
                ls_arena_printf(a,
                                "they count all the same; to bring them back, copy %s over it (to "
                                "begin a new log, move both away)",
                                copy->path),
                "the log lost %zu of the entries recorded, up to entry %ld (%s, %s)", log->lost, last->number,
                ls_log_about(last), ls_unit_amount(a, ls_log_tons_text(a, last->tons), "ton"));
}

/* Entries were put in place of others: what replaces what is found again. */
static void chain(ls_log *log) {
    for (size_t i = 0; i < log->entries.n; i++) log->entries.at[i].replaced_by = 0;
    LS_EACH (ls_log_entry, e, log->entries) {
        e->first = e->replaces == 0 ? e->number : log->entries.at[e->replaces - 1].first;
        if (e->replaces == 0) continue;
        log->entries.at[e->replaces - 1].replaced_by = e->number;
        e->of = log->entries.at[e->replaces - 1].of;
    }
}

void ls_record_compare(ls_arena *a, ls_diag *d, ls_log *log, const ls_log *copy, ls_severity lost) {
    size_t there = log->entries.n;
    for (size_t i = 0; i < copy->entries.n; i++) {
        ls_log_entry was = copy->entries.at[i];
        if (i >= there) {
            was.at = LS_NOWHERE;
            *LS_PUSH(a, &log->entries) = was;
            continue;
        }
        ls_log_entry now = log->entries.at[i];
        was.at = now.at;
        log->entries.at[i] = was;
        for (size_t k = 0; k < LS_RECORD_COLUMNS; k++)
            if (!agree(a, &now, &was, k))
                *LS_PUSH(a, &log->changed) = (ls_log_change){now.number, ls_record_column(k),
                                                             ls_record_text(a, &now, k), ls_record_text(a, &was, k)};
    }
    chain(log);
    log->lost = log->entries.n - there;
    if (log->lost > 0) tell_lost(a, d, log, copy, lost);
    tell_changes(a, d, log, copy);
}
