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

/* Rows held against the log. */
typedef struct {
    ls_run *r;
    const ls_log *log;
    ls_coded_lots lots;
    bool *taken; /* entries that a row before tells, or takes the place of */
    batch out;
    size_t clashes, with_entries; /* rows of tickets that have gone out otherwise */
    int code;
} sorting;

/* Every row of the file as an entry. Of a log they keep their numbers. NULL: noted. */
static const batch *read_list(ls_run *r, const char *path) {
    batch *b = LS_NEW(r->arena, batch, 1);
    ls_diag *d = r->books.diag;
    const ls_log *log = ls_log_is_one(r->arena, path) ? ls_log_read(r->arena, d, path) : NULL;
    const ls_log_list *list =
        log != NULL || ls_diag_count(d, LS_ERROR) > 0 ? NULL : ls_log_list_read(r->arena, d, path);
    if (log == NULL && list == NULL) return NULL;
    size_t n = log != NULL ? log->entries.n : list->entries.n;
    for (size_t i = 0; i < n; i++)
        *LS_PUSH(r->arena, &b->entries) = log != NULL ? log->entries.at[i] : list->entries.at[i];
    b->unread = list == NULL ? NULL : list->unread;
    return b;
}

/* Where it went, as the log writes it. */
static const char *place_of(const ls_run *r, const ls_log_entry *e) {
    const char *text = e->words[LS_LOG_FIELD], *unknown = NULL;
    ls_hauled_drops drops = ls_hauled_places(r->arena, r->books.farm, text, e->tons, &unknown);
    return unknown != NULL || drops.n == 0 ? text : ls_hauled_text(r->arena, drops.at, drops.n);
}

/* The same load told twice, once perhaps with fewer words. */
static bool same(const ls_run *r, const ls_log_entry *a, const ls_log_entry *b) {
    if (strcmp(ls_log_about(a), ls_log_about(b)) != 0 || a->when.day != b->when.day || fabs(a->tons - b->tons) >= 1 ||
        a->of != b->of || a->loads != b->loads)
        return false;
    if (a->of != LS_LOG_HAULED) return strcmp(a->words[LS_LOG_FIELD], b->words[LS_LOG_FIELD]) == 0;
    const char *one = place_of(r, a), *other = place_of(r, b);
    return one[0] == '\0' || other[0] == '\0' || strcmp(one, other) == 0;
}

/* The entry that says the same, not taken by a row before; NULL: none. Of a list best one that
 * stands; of a log one in the same place of its corrections, as its corrections must be. */
static const ls_log_entry *find_same(const sorting *s, const ls_log_entry *e) {
    const ls_log_entry *found = NULL;
    for (size_t i = 0; i < s->log->entries.n; i++) {
        const ls_log_entry *other = &s->log->entries.at[i];
        bool in_place = other->replaces == e->replaces, best = e->number > 0 ? in_place : other->replaced_by == 0;
        if (s->taken[i] || (e->replaces > 0 && !in_place) || !same(s->r, other, e)) continue;
        if (best) return other;
        found = found == NULL ? other : found;
    }
    return found;
}

/* The last correction of an entry, or itself. */
static const ls_log_entry *standing(const ls_log *log, const ls_log_entry *e) {
    while (e->replaced_by != 0) e = &log->entries.at[e->replaced_by - 1];
    return e;
}

/* The load of a row before, or of the log, that went out on this ticket, or what corrects the same
 * entry; NULL: none does. */
static const ls_log_entry *gone_out(const sorting *s, const ls_log_entry *e) {
    const ls_log *log = s->log;
    if (e->replaces > 0 && (size_t)e->replaces <= log->entries.n) {
        const ls_log_entry *old = &log->entries.at[e->replaces - 1];
        return old->replaced_by == 0 ? NULL : standing(log, old);
    }
    size_t before = s->out.entries.n, n = before + log->entries.n;
    if (e->replaces > 0 || e->of == LS_LOG_ISSUED || (e->of == LS_LOG_HAULED && GIVEN(s->r, AGAIN)))
        n = 0; /* a ticket may be handed out anew */
    for (size_t i = 0; i < n; i++) {
        const ls_log_entry *other = i < before ? &s->out.entries.at[i] : &log->entries.at[i - before];
        if (ls_log_holds(other, e->of) && (e->of == LS_LOG_PROMISED ? strcmp(ls_log_about(other), ls_log_about(e)) == 0
                                                                    : ls_books_same_ticket(&s->lots, other, e)))
            return other;
    }
    return NULL;
}

static const char *tons_of(const ls_run *r, const ls_log_entry *e) {
    return ls_arena_printf(r->arena, "%s tons%s", ls_log_tons_text(r->arena, e->tons), e->weighed ? " weighed" : "");
}

/* A row in place of an entry: of a list, what it does not tell stays. */
static ls_log_entry in_place_of(const ls_run *r, const ls_log_entry *old, const ls_log_entry *e) {
    ls_log_entry new = *e;
    new.replaces = old->number;
    new.of = old->of;
    if (e->number > 0) return new;
    if (e->when.day == old->when.day && e->when.minute < 0) new.when = old->when;
    new.cleared = isnan(e->cleared) ? old->cleared : e->cleared;
    new.acres = isnan(e->acres) ? old->acres : e->acres;
    for (int i = 0; i < LS_LOG_WORDS; i++)
        if (e->words[i][0] == '\0') new.words[i] = old->words[i];
    if (e->words[LS_LOG_FIELD][0] == '\0')
        new.words[LS_LOG_FIELD] = ls_hauled_scaled(r->arena, r->books.farm, old->words[LS_LOG_FIELD], e->tons);
    return new;
}

/* Another load of its ticket, or another correction, is there: the row takes its place or is refused, false. */
static bool settle(sorting *s, const ls_log_entry *old, ls_log_entry *e, const char *where) {
    ls_run *r = s->r;
    bool logged = old->number > 0 && !s->taken[old->number - 1];
    if (logged && GIVEN(r, REPLACES)) {
        s->taken[old->number - 1] = true;
        *e = in_place_of(r, old, e);
        return true;
    }
    const char *by = old->number > 0 ? ls_arena_printf(r->arena, "entry %ld", old->number)
                                     : ls_diag_where(r->arena, r->books.diag, old->at);
    s->clashes++;
    s->with_entries += logged;
    TELL(r, "%s: %s %s already: %s, %s, %s; the row says %s, %s", where,
         e->of == LS_LOG_PROMISED ? ls_log_about(e) : ls_arena_printf(r->arena, "ticket %s", e->ticket.text),
         e->of == LS_LOG_HAULED ? "has gone out" : "was handed out", by, tons_of(r, old),
         ls_when_text(r->arena, old->when), tons_of(r, e), ls_when_text(r->arena, e->when));
    return false;
}

static void refuse(sorting *s, int code, ls_place at) {
    s->code =
        ls_run_say(s->r, code, "%s: so this row cannot be recorded", ls_diag_where(s->r->arena, s->r->books.diag, at));
}

/* Each row once all are known: one may take litter into the stack that another takes out. */
static void confirm(sorting *s) {
    for (size_t i = 0; i < s->out.entries.n; i++) {
        ls_log_entry *e = &s->out.entries.at[i];
        int code = e->tons > 0 && e->of == LS_LOG_HAULED
                       ? ls_haul_entry_confirm(s->r, s->log, s->out.entries.at, s->out.entries.n, e)
                       : LS_DONE;
        if (code != LS_DONE) refuse(s, code, e->at);
    }
}

/* A row that the log lacks, numbers of what it replaces as the log will have them; its number there. */
static long sort_row(sorting *s, ls_log_entry e) {
    ls_run *r = s->r;
    const char *where = ls_diag_where(r->arena, r->books.diag, e.at);
    const ls_log_entry *found = find_same(s, &e), *old = NULL;
    if (found != NULL) {
        const ls_log_entry *last = standing(s->log, found);
        s->taken[found->number - 1] = true;
        s->out.there++;
        if (last != found && e.replaced_by == 0)
            TELL(r, "%s: entry %ld said so and does not count any more: entry %ld %s", where, found->number,
                 last->number, last->tons > 0 ? ls_arena_printf(r->arena, "says %s", tons_of(r, last)) : "strikes it");
        return found->number;
    }
    long number = (long)(s->log->entries.n + s->out.entries.n) + 1;
    if ((old = gone_out(s, &e)) != NULL && !settle(s, old, &e, where)) return number;
    bool load = e.tons > 0 && e.of == LS_LOG_HAULED;
    if (load && e.words[LS_LOG_FIELD][0] == '\0') {
        const char *issued = ls_haul_issued_way(r, s->log, &e);
        e.words[LS_LOG_FIELD] = issued != NULL ? issued : "";
    }
    int code = load ? ls_haul_entry_check(r, &e) : LS_DONE;
    if (code != LS_DONE) refuse(s, code, e.at);
    s->out.tons += e.replaced_by == 0 && e.of == LS_LOG_HAULED ? e.tons : 0;
    e.number = 0;
    *LS_PUSH(r->arena, &s->out.entries) = e;
    return number;
}

/* What the log lacks of the list. All that is wrong with it is said, and nothing of it recorded. */
static int sort_out(ls_run *r, const batch *list, const ls_log *log, batch *out) {
    long *number = LS_NEW(r->arena, long, list->entries.n + 1);
    sorting s = {.r = r,
                 .log = log,
                 .lots = ls_books_lots(r->arena, r->books.farm),
                 .taken = LS_NEW(r->arena, bool, log->entries.n)};
    for (size_t i = 0; i < list->entries.n; i++) {
        ls_log_entry e = list->entries.at[i];
        e.replaces = e.replaces > 0 ? number[e.replaces] : 0;
        number[i + 1] = sort_row(&s, e);
    }
    if (s.clashes == 0 && s.code == LS_DONE) confirm(&s);
    *out = s.out;
    if (s.clashes > 0 || s.code != LS_DONE) ls_run_mistake(r); /* what is odd about the files */
    if (s.clashes > 0)
        return MISTAKE(r, "nothing is recorded: --again records such rows as second loads%s",
                       s.with_entries == 0 ? ""
                                           : "; --replaces all puts them in place of the entries, "
                                             "as a scale's weight in place of one by eye");
    return s.code == LS_DONE ? LS_DONE : ls_run_say(r, s.code, "nothing is recorded");
}

static void add_row(ls_run *r, ls_text *t, const ls_log_entry *e) {
    const char *field = e->words[LS_LOG_FIELD], *truck = e->words[LS_LOG_TRUCK];
    ls_text_addf(t, "  %s%s, %s, %s, %s%s%s",
                 e->of == LS_LOG_ISSUED     ? "issued: "
                 : e->of == LS_LOG_PROMISED ? "promised: "
                                            : "",
                 ls_text_plain(r->arena, ls_log_about(e)), tons_of(r, e), ls_when_text(r->arena, e->when),
                 field[0] == '\0' ? "no field given" : ls_text_plain(r->arena, field), truck[0] == '\0' ? "" : ", ",
                 ls_text_plain(r->arena, truck));
    if (e->replaces > 0) ls_text_addf(t, ", %s entry %ld", e->tons > 0 ? "in place of" : "strikes", e->replaces);
    ls_text_add(t, "\n");
}

static int tell(ls_run *r, const char *path, const char *log, const batch *b, const char *unread) {
    ls_text *t = ls_text_new(r->arena);
    bool write = GIVEN(r, SURE);
    for (size_t i = 0; i < b->entries.n; i++) add_row(r, t, &b->entries.at[i]);
    ls_text_addf(t, "%zu row%s of %s%s %s, %s tons; %zu more are there already.\n", b->entries.n,
                 b->entries.n == 1 ? "" : "s", ls_text_plain(r->arena, path),
                 !write              ? " for"
                 : b->entries.n == 1 ? " is in"
                                     : " are in",
                 ls_text_plain(r->arena, log), ls_log_tons_text(r->arena, b->tons), b->there);
    if (unread != NULL) ls_text_addf(t, "Columns not read: %s.\n", ls_text_plain(r->arena, unread));
    if (!write) ls_text_add(t, "Nothing is written yet: --sure writes it.\n");
    return ls_run_finish(r, t->s);
}

/* What the log lacks, shown; all or nothing of it written to the book (NULL: none of it). */
static int add(ls_run *r, ls_log_book *book, const ls_log *log, const batch *list) {
    const char *path = r->options->word[LS_OPTION_IMPORT];
    batch out = {0};
    long number;
    int code = sort_out(r, list, log, &out);
    if (code == LS_DONE && book != NULL && out.entries.n > 0)
        code = ls_haul_append(r, book, out.entries.at, out.entries.n, &number);
    return code == LS_DONE ? tell(r, path, log->path, &out, list->unread) : code;
}

int ls_haul_import(ls_run *r, const char *path) {
    const batch *list = read_list(r, r->options->word[LS_OPTION_IMPORT]);
    ls_log_book *book = NULL;
    if (list == NULL) return ls_run_mistake(r);
    if (!GIVEN(r, SURE)) {
        const ls_log *log = ls_log_read(r->arena, r->books.diag, path);
        return log == NULL ? ls_run_mistake(r) : add(r, NULL, log, list);
    }
    int code = ls_haul_open(r, path, &book);
    if (code != LS_DONE) return code;
    code = add(r, book, ls_log_of(book), list);
    ls_log_close(book);
    return code;
}
