/* The haul log: add to it, or show it. */
#include "haul_entry.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Options that say what to record. */
#define OF_AN_ENTRY LS_OPTIONS_FROM_TO(LS_OPTION_TICKET, LS_OPTION_NOTE)
#define BESIDE_AN_ENTRY LS_OPTIONS_FROM_TO(LS_OPTION_REPLACES, LS_OPTION_SURE)

#define OF_THE_LIST (OPTION(FORMAT) | OPTION(PART) | OPTION(OUTPUT))

/* ---- usage ---- */

static int check_use(ls_run *r) {
    uint64_t given = r->options->given;
    if (GIVEN(r, LIST))
        return (given & (OF_AN_ENTRY | BESIDE_AN_ENTRY)) == 0
                   ? LS_DONE
                   : MISUSE(r, "record either shows the log (--list) or adds to it");
    if ((given & OF_THE_LIST) != 0) return MISUSE(r, "--format, --part and --output go with --list");
    if (GIVEN(r, IMPORT))
        return (given & OF_AN_ENTRY) == 0 &&
                       (!GIVEN(r, REPLACES) || strcmp(r->options->word[LS_OPTION_REPLACES], "all") == 0)
                   ? LS_DONE
                   : MISUSE(r, "--import reads the loads from its file; give only --sure, --again "
                               "or --replaces all with it");
    if (GIVEN(r, BY_EYE) && (GIVEN(r, WEIGHED) || !GIVEN(r, REPLACES)))
        return MISUSE(r, "--by-eye takes --weighed back, with --replaces; a new load is by eye "
                         "unless --weighed is given");
    if (GIVEN(r, REPLACES))
        return (given & OF_AN_ENTRY) != 0 ? LS_DONE : MISUSE(r, "say what is right instead: --tons, --ticket, ...");
    if (!GIVEN(r, TICKET) || !GIVEN(r, TONS))
        return MISUSE(r, "record needs --ticket and --tons, or --list; try: littershed record --help");
    return LS_DONE;
}

/* The entry to be replaced, 0: none; -1: no number of an entry. */
static long replaced(const ls_run *r) {
    const char *s = r->options->word[LS_OPTION_REPLACES];
    if (s == NULL) return 0;
    size_t n = strspn(s, "0123456789");
    return n > 0 && n <= 6 && s[n] == '\0' && s[0] != '0' ? strtol(s, NULL, 10) : -1;
}

/* ---- showing ---- */

/* What became of tickets and slips, by a plan that is made in a moment; NULL: there is none. */
static const ls_handed_out *handed_out(ls_run *r) {
    const ls_farm *farm = r->books.farm;
    if (farm->issued.n + farm->older.n + farm->promised.n == 0 || !ls_books_can_plan(&r->books) ||
        ls_haul_is_large(r) || !ls_books_earlier(&r->books) || !ls_books_estimate(&r->books) ||
        !ls_books_agronomy(&r->books))
        return NULL;
    const ls_plan *plan = ls_run_morning_plan(r);
    return plan == NULL ? NULL : ls_books_plan_sums(&r->books, plan)->handed_out;
}

static int list(ls_run *r) {
    if (!ls_run_log(r, LS_NO_DATE)) return LS_MISTAKE;
    const ls_log_sums *s = ls_books_log_sums(&r->books);
    if (!ls_books_fit(&r->books)) return ls_run_mistake(r);
    return ls_run_document(r, ls_report_record(ls_run_view(r), s, handed_out(r)));
}

/* ---- adding ---- */

/* The entry that --replaces names; *code tells why there is none. */
static const ls_log_entry *old_entry(ls_run *r, const ls_log *log, long number, int *code) {
    if ((size_t)number > log->entries.n) {
        *code =
            MISTAKE(r, "there is no entry %ld in %s; littershed record FILE... --list shows them", number, log->path);
        return NULL;
    }
    const ls_log_entry *old = &log->entries.at[number - 1];
    if (old->replaced_by == 0) return old;
    *code = MISTAKE(r, "entry %ld is replaced already, by entry %ld; correct the last one in its place", number,
                    old->replaced_by);
    return NULL;
}

/* A ticket goes out once. */
static int check_once(ls_run *r, const ls_log *log, const ls_log_entry *e) {
    bool same_ticket = e->replaces > 0 && !GIVEN(r, TICKET);
    if (same_ticket || GIVEN(r, AGAIN)) return LS_DONE;
    ls_coded_lots lots = ls_books_lots(r->arena, r->books.farm);
    LS_EACH (const ls_log_entry, other, log->entries) {
        if (other->number == e->replaces || !ls_log_stands(other) || !ls_books_same_ticket(&lots, other, e)) continue;
        return MISTAKE(r,
                       "ticket %s is logged already, as entry %ld (%s tons, %s); --replaces %ld "
                       "corrects that entry, --again records a second load on the same ticket",
                       e->ticket.text, other->number, ls_log_tons_text(r->arena, other->tons),
                       ls_when_text(r->arena, other->when), other->number);
    }
    return LS_DONE;
}

/* What a correction leaves as it was, with commas between; tons are told anyway, as are parts. */
static const char *unchanged(const ls_run *r, const ls_log_entry *old, const ls_log_entry *e) {
    ls_text *t = ls_text_new(r->arena);
    if (!GIVEN(r, WHEN)) ls_text_add(t, ", time");
    if (e->weighed && !GIVEN(r, WEIGHED)) ls_text_add(t, ", weighed over a scale");
    if (!isnan(e->cleared) && !GIVEN(r, CLEARED))
        ls_text_addf(t, ", cleared %s", ls_log_share_text(r->arena, e->cleared));
    if (!isnan(e->acres) && !GIVEN(r, ACRES)) ls_text_add(t, ", acres");
    for (int i = 0; i < LS_LOG_CONFIRMED; i++)
        if (e->words[i][0] != '\0' && strcmp(e->words[i], old->words[i]) == 0 &&
            r->options->word[ls_haul_entry_option((ls_log_word)i)] == NULL)
            ls_text_addf(t, ", %s", ls_log_label((ls_log_word)i));
    return t->n > 0 ? t->s + 2 : "";
}

/* The entry in words: a load, or what was handed out and is taken back. */
static const char *in_words(ls_run *r, const ls_log *log, const ls_log_entry *e, long number) {
    ls_coded_lots lots = ls_books_lots(r->arena, r->books.farm);
    const ls_coded_lot *lot = ls_books_lot(&lots, e->ticket.code);
    const char *where = e->words[LS_LOG_FIELD], *of = lot != NULL ? lot->name : e->ticket.code;
    ls_text *t = ls_text_new(r->arena);
    ls_text_addf(t, "entry %ld: ", number);
    if (e->of != LS_LOG_HAULED)
        return ls_arena_printf(r->arena, "%stakes back entry %ld, the %s %s, in %s", t->s, e->replaces,
                               e->of == LS_LOG_ISSUED ? "ticket" : "slip for", ls_log_about(e), log->path);
    if (e->replaces > 0) ls_text_addf(t, "%s entry %ld, ", e->tons > 0 ? "in place of" : "strikes", e->replaces);
    ls_text_addf(t, "ticket %s of %s, %s tons%s, %s, %s, in %s", e->ticket.text, of,
                 ls_log_tons_text(r->arena, e->tons), e->weighed && e->tons > 0 ? " weighed" : "",
                 ls_when_text(r->arena, e->when),
                 where[0] == '\0' ? "no place given" : ls_arena_printf(r->arena, "to %s", where), log->path);
    const ls_log_entry *old = e->replaces > 0 ? &log->entries.at[e->replaces - 1] : e;
    if (old != e && e->tons > 0 && unchanged(r, old, e)[0] != '\0')
        ls_text_addf(t, "; as in entry %ld: %s", e->replaces, unchanged(r, old, e));
    if (e->tons != old->tons && !GIVEN(r, FIELD) && strcmp(where, old->words[LS_LOG_FIELD]) != 0)
        ls_text_addf(t, "; its parts are scaled from %s to %s tons", ls_log_tons_text(r->arena, old->tons),
                     ls_log_tons_text(r->arena, e->tons));
    return t->s;
}

/* What was written, and that it was if that cannot be shown. */
static int told(ls_run *r, const ls_log *log, const ls_log_entry *e, long number) {
    const char *words = ls_text_plain(r->arena, in_words(r, log, e, number));
    int code = ls_run_finish(r, ls_arena_printf(r->arena, "%s\n", words));
    return code == LS_DONE
               ? code
               : ls_run_say(r, code, "entry %ld IS in %s all the same (%s, %s tons): do not record it again", number,
                            log->path, ls_log_about(e), ls_log_tons_text(r->arena, e->tons));
}

/* What is struck already, is another's or went out is not struck. */
static int check_strike(ls_run *r, const ls_log *log, const ls_log_entry *old, const ls_log_entry *e) {
    ls_coded_lots lots = ls_books_lots(r->arena, r->books.farm);
    if (GIVEN(r, TICKET) && strcmp(e->ticket.text, ls_log_about(old)) != 0)
        return MISTAKE(r, "entry %ld is of %s, not of %s; look at the numbers again", old->number, ls_log_about(old),
                       e->ticket.text);
    if (old->tons == 0)
        return MISTAKE(r, "entry %ld strikes entry %ld already; %s", old->number, old->replaces,
                       old->of != LS_LOG_HAULED
                           ? "to hand out anew what it took back: littershed tickets FILE... --issue"
                           : ls_arena_printf(r->arena, "to bring its load back: --replaces %ld --tons %s", old->number,
                                             ls_log_tons_text(r->arena, log->entries.at[old->replaces - 1].tons)));
    for (size_t i = 0; old->of == LS_LOG_ISSUED && i < log->entries.n; i++)
        if (ls_log_stands(&log->entries.at[i]) && ls_books_same_ticket(&lots, &log->entries.at[i], old))
            return MISTAKE(r,
                           "ticket %s went out with entry %ld, so there is nothing to take back; "
                           "if it did not, first --replaces %ld --tons 0",
                           old->ticket.text, log->entries.at[i].number, log->entries.at[i].number);
    return LS_DONE;
}

/* A ticket or a slip that was handed out is taken back, not put right. */
static int check_kind(ls_run *r, const ls_log *log, const ls_log_entry *old, const ls_log_entry *e) {
    if (e->tons == 0) return check_strike(r, log, old, e);
    if (old->of == LS_LOG_HAULED) return LS_DONE;
    return MISTAKE(r,
                   "entry %ld is a %s that was handed out: --replaces %ld --tons 0 takes it back, "
                   "littershed tickets FILE... --issue hands out what is right now",
                   old->number, old->of == LS_LOG_ISSUED ? "ticket" : "slip", old->number);
}

/* With the log in hand: nobody else adds to it meanwhile. e: a new load, or what replaces number,
 * looked at like a first entry; what it strikes is not. */
static int add(ls_run *r, ls_log_book *book, long number, ls_log_entry *e) {
    const ls_log *log = ls_log_of(book);
    int code = LS_DONE;
    const ls_log_entry *old = number > 0 ? old_entry(r, log, number, &code) : NULL;
    if (old != NULL) code = ls_haul_entry_read(r, old, e);
    if (code == LS_DONE && old != NULL) code = check_kind(r, log, old, e);
    if (code == LS_DONE && old != NULL && e->tons > 0) code = ls_haul_entry_check(r, e);
    if (code == LS_DONE && e->tons > 0) code = check_once(r, log, e);
    if (code == LS_DONE && e->tons > 0) code = ls_haul_entry_confirm(r, log, NULL, 0, e);
    if (code != LS_DONE) return code;
    if (e->tons > 0) ls_haul_entry_notes(r, log, e);
    code = ls_haul_append(r, book, e, 1, &number);
    return code == LS_DONE ? told(r, log, e, number) : code;
}

/* What is wrong whatever the log says is refused before the log is touched. */
static int record_load(ls_run *r, const char *path, long number) {
    ls_log_entry e;
    ls_log_book *book;
    int code = ls_haul_entry_read(r, NULL, &e);
    if (code == LS_DONE && number == 0) code = ls_haul_entry_check(r, &e);
    if (code == LS_DONE && number == 0) code = ls_haul_entry_find_place(r, &e);
    if (code != LS_DONE) return code;
    code = ls_haul_open(r, path, &book);
    if (code != LS_DONE) return code;
    code = add(r, book, number, &e);
    ls_log_close(book);
    return code;
}

static int record(ls_run *r) {
    int code = check_use(r);
    if (code != LS_DONE) return code;
    bool import = GIVEN(r, IMPORT);
    long number = import ? 0 : replaced(r);
    if (number < 0)
        return MISUSE(r, "--replaces \"%s\" is no number of an entry", r->options->word[LS_OPTION_REPLACES]);
    if (!ls_run_farm(r, r->operands, r->n)) return LS_MISTAKE;
    const char *path = ls_books_log_path(&r->books);
    if (path == NULL)
        return MISUSE(r, "a farm read from the standard input has no haul log: the log is kept "
                         "beside the farm file; name that file");
    if (import) return ls_haul_import(r, path);
    return GIVEN(r, LIST) ? list(r) : record_load(r, path, number);
}

const ls_command ls_command_record = {
    .name = "record",
    .operands = "FILE...",
    .summary = "log a load that went out, or show the log",
    .help = "Adds one load to the haul log, a CSV beside the farm file: farm.yaml has "
            "farm.haul.csv. Needed are --ticket and --tons; without --when the load is spread now. "
            "Entries are numbered and never changed: a mistake is corrected by a new entry that "
            "names the one it replaces. With --list: the log, and the tons by lot and by day.",
    .options = OF_AN_ENTRY | BESIDE_AN_ENTRY | OF_THE_LIST | LS_OPTIONS_FROM_TO(LS_OPTION_LIST, LS_OPTION_IMPORT),
    .exec = record,
};
