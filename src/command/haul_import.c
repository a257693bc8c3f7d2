/* The loads of a list, a scale house's or another haul log, shown and then added in one piece. */
#include "haul_entry.h"

#include <math.h>
#include <string.h>

typedef struct {
    LS_LIST(ls_log_entry) entries;
    const char *unread;
    size_t there; /* rows that the log has already */
    double tons;
} batch;

/* Every row of the file as an entry. Of a log they keep their numbers. NULL: noted. */
static const batch *read_list(ls_run *r, const char *path) {
    batch *b = LS_NEW(r->arena, batch, 1);
    ls_diag *d = r->books.diag;
    const ls_log *log = ls_log_is_one(r->arena, path) ? ls_log_read(r->arena, d, path) : NULL;
    const ls_log_list *list =
        log != NULL || ls_diag_count(d, LS_ERROR) > 0 ? NULL : ls_log_list_read(r->arena, d, path);
    if (log == NULL && list == NULL)
        return NULL;
    size_t n = log != NULL ? log->entries.n : list->entries.n;
    for (size_t i = 0; i < n; i++)
        *LS_PUSH(r->arena, &b->entries) = log != NULL ? log->entries.at[i] : list->entries.at[i];
    b->unread = list == NULL ? NULL : list->unread;
    return b;
}

/* The same load told twice, once perhaps with fewer words. */
static bool same(const ls_log_entry *a, const ls_log_entry *b) {
    return strcmp(a->ticket.text, b->ticket.text) == 0 && a->when.day == b->when.day &&
           fabs(a->tons - b->tons) < 1 && a->of == b->of;
}

/* The entry of the log that says the same, not taken by a row before; 0: none. Rows of a list have
 * no numbers and are loads as they went out or as they were corrected. */
static long find_same(const ls_log *log, const ls_log_entry *e, bool *taken) {
    for (size_t i = 0; i < log->entries.n; i++) {
        const ls_log_entry *other = &log->entries.at[i];
        if (taken[i] || !same(other, e) ||
            (e->number > 0 && (other->replaces > 0) != (e->replaces > 0)))
            continue;
        taken[i] = true;
        return (long)i + 1;
    }
    return 0;
}

/* A load on a ticket that has gone out, in the log or in a row before. */
static int check_once(ls_run *r, const ls_log *log, const batch *all, const ls_log_entry *e) {
    for (size_t i = 0; i < log->entries.n + all->entries.n; i++) {
        const ls_log_entry *other =
            i < log->entries.n ? &log->entries.at[i] : &all->entries.at[i - log->entries.n];
        if (!ls_log_stands(other) || e->replaces > 0 || ls_run_given(r, LS_OPTION_AGAIN) ||
            strcmp(other->ticket.text, e->ticket.text) != 0)
            continue;
        return ls_run_say(r, LS_MISTAKE,
                          "%s: ticket %s has gone out already, %s tons on %s; correct one of them, "
                          "or --again records a second load on it",
                          ls_diag_where(r->arena, r->books.diag, e->at), e->ticket.text,
                          ls_log_tons_text(r->arena, other->tons),
                          ls_when_text(r->arena, other->when));
    }
    return LS_DONE;
}

/* What the log lacks of the list, numbers of what is replaced as the log will have them. */
static int sort_out(ls_run *r, const batch *list, const ls_log *log, batch *out) {
    long *number = LS_NEW(r->arena, long, list->entries.n + 1);
    bool *taken = LS_NEW(r->arena, bool, log->entries.n);
    for (size_t i = 0; i < list->entries.n; i++) {
        ls_log_entry e = list->entries.at[i];
        long there = find_same(log, &e, taken);
        number[i + 1] = there > 0 ? there : (long)(log->entries.n + out->entries.n) + 1;
        out->there += there > 0;
        if (there > 0)
            continue;
        e.replaces = e.replaces > 0 ? number[e.replaces] : 0;
        int code = check_once(r, log, out, &e);
        bool gone = (size_t)e.replaces <= log->entries.n && e.replaces > 0 &&
                    log->entries.at[e.replaces - 1].replaced_by != 0;
        if (gone)
            code = ls_run_say(r, LS_MISTAKE, "%s: entry %ld of the log is corrected already",
                              ls_diag_where(r->arena, r->books.diag, e.at), e.replaces);
        if (code == LS_DONE && e.tons > 0 && e.of == LS_LOG_HAULED)
            code = ls_haul_entry_check(r, &e);
        if (code == LS_DONE && e.tons > 0 && e.of == LS_LOG_HAULED)
            code = ls_haul_entry_confirm(r, log, &e);
        if (code != LS_DONE)
            return ls_run_say(r, code, "%s: nothing is recorded",
                              ls_diag_where(r->arena, r->books.diag, e.at));
        out->tons += e.replaced_by == 0 && e.of == LS_LOG_HAULED ? e.tons : 0;
        *LS_PUSH(r->arena, &out->entries) = e;
    }
    return LS_DONE;
}

static void add_row(ls_run *r, ls_text *t, const ls_log_entry *e) {
    const char *field = e->words[LS_LOG_FIELD], *truck = e->words[LS_LOG_TRUCK];
    ls_text_addf(t, "  %s, %s tons%s, %s, %s%s%s", e->ticket.text,
                 ls_log_tons_text(r->arena, e->tons), e->weighed ? " weighed" : "",
                 ls_when_text(r->arena, e->when),
                 field[0] == '\0' ? "no field given" : ls_text_plain(r->arena, field),
                 truck[0] == '\0' ? "" : ", ", ls_text_plain(r->arena, truck));
    if (e->replaces > 0)
        ls_text_addf(t, ", %s entry %ld", e->tons > 0 ? "in place of" : "strikes", e->replaces);
    ls_text_add(t, "\n");
}

static int tell(ls_run *r, const char *path, const char *log, const batch *b, const char *unread) {
    ls_text *t = ls_text_new(r->arena);
    bool write = ls_run_given(r, LS_OPTION_SURE);
    for (size_t i = 0; i < b->entries.n; i++)
        add_row(r, t, &b->entries.at[i]);
    ls_text_addf(t, "%zu rows of %s%s %s, %s tons; %zu more are there already.\n", b->entries.n,
                 ls_text_plain(r->arena, path), write ? " are in" : " for",
                 ls_text_plain(r->arena, log), ls_log_tons_text(r->arena, b->tons), b->there);
    if (unread != NULL)
        ls_text_addf(t, "Columns not read: %s.\n", ls_text_plain(r->arena, unread));
    if (!write)
        ls_text_add(t, "Nothing is written yet: --sure writes it.\n");
    return ls_run_finish(r, t->s);
}

/* All or nothing, with the log in hand. */
static int write_all(ls_run *r, ls_log_book *book, const char *path, const batch *list) {
    batch out = {0};
    long number;
    const char *why = NULL, *log = ls_log_of(book)->path;
    int code = sort_out(r, list, ls_log_of(book), &out);
    if (code == LS_DONE && out.entries.n > 0 &&
        ls_log_append(book, out.entries.at, out.entries.n, &number, &why) != LS_LOG_DONE)
        return ls_run_say(r, LS_SYSTEM, "nothing was recorded: cannot write %s: %s", log, why);
    return code == LS_DONE ? tell(r, path, log, &out, list->unread) : code;
}

int ls_haul_import(ls_run *r, const char *log) {
    const char *path = r->options->word[LS_OPTION_IMPORT], *why;
    const batch *list = read_list(r, path);
    ls_log_book *book;
    if (list == NULL)
        return ls_run_mistake(r);
    if (!ls_run_given(r, LS_OPTION_SURE)) {
        batch out = {0};
        const ls_log *now = ls_log_read(r->arena, r->books.diag, log);
        if (now == NULL)
            return ls_run_mistake(r);
        int code = sort_out(r, list, now, &out);
        return code == LS_DONE ? tell(r, path, log, &out, list->unread) : code;
    }
    switch (ls_log_open(r->arena, r->books.diag, log, &book, &why)) {
    case LS_LOG_FAILED:
        return ls_run_say(r, LS_SYSTEM, "nothing was recorded: cannot write %s: %s", log, why);
    case LS_LOG_MISTAKE:
        return ls_run_mistake(r);
    case LS_LOG_DONE:
        break;
    }
    int code = write_all(r, book, path, list);
    ls_log_close(book);
    return code;
}
