#include "issue.h"

#include "haul_entry.h"

#include <math.h>

typedef LS_LIST(ls_log_entry) entry_list;

/* ---- the log ---- */

/* The entries into the log that was read, as one batch; the number of the first in *number. */
static int write_down(ls_run *r, const entry_list *list, long *number) {
    ls_log_book *book;
    int code = ls_haul_open(r, ls_books_log_path(&r->books), &book);
    if (code != LS_DONE) return code;
    if (ls_log_same(r->arena, r->books.log, ls_log_of(book)))
        code = ls_haul_append(r, book, list->at, list->n, number);
    else
        code = MISTAKE(r, "nothing was issued: %s changed while this was worked out; run the command again",
                       ls_log_of(book)->path);
    ls_log_close(book);
    return code;
}

static int add_entry(ls_run *r, entry_list *list, const ls_log_entry *e) {
    if (!ls_log_fits(r->arena, e->words[LS_LOG_FIELD]))
        return MISTAKE(r, "nothing was issued: the names of the fields of %s are too long for the haul log",
                       ls_log_about(e));
    *LS_PUSH(r->arena, list) = *e;
    return LS_DONE;
}

/* An entry made now. */
static int begin(ls_run *r, ls_log_kind kind, ls_log_entry *e) {
    *e = ls_log_no_facts(LS_NOWHERE);
    e->kind = e->of = kind;
    return ls_haul_now(&e->when) ? LS_DONE : ls_run_say(r, LS_SYSTEM, "this machine's clock cannot be read");
}

/* The entries of n papers that are left, written down: behind the drafts they are of, and said. */
static int hand_out(ls_run *r, const entry_list *list, ls_handed *handed, size_t n, const char *what) {
    const char *log = ls_books_log_path(&r->books);
    long first = 0;
    int code = list->n > 0 ? write_down(r, list, &first) : LS_DONE;
    if (code != LS_DONE) return code;
    long number = first;
    for (size_t i = 0; i < n; i++)
        if (handed[i].mark == LS_MARK_DRAFT) handed[i] = (ls_handed){LS_MARK_ISSUED, list->at[0].when.day, number++};
    if (list->n == 0) return TELL(r, "nothing new to issue; the log is as it was");
    return TELL(r, "%zu %s%s issued: entr%s of %s", list->n, what, list->n == 1 ? "" : "s",
                list->n == 1 ? ls_arena_printf(r->arena, "y %ld", first)
                             : ls_arena_printf(r->arena, "ies %ld to %ld", first, number - 1),
                log);
}

/* ---- tickets ---- */

ls_handed *ls_issue_tickets_handed(const ls_run *r, const ls_picked *loads) {
    ls_handed *handed = LS_NEW(r->arena, ls_handed, loads->n);
    for (size_t i = 0; i < loads->n; i++) {
        const ls_issued *is = loads->at[i]->issued;
        if (is != NULL) handed[i] = (ls_handed){LS_MARK_COPY, is->handed_out, is->log_entry};
    }
    return handed;
}

/* "Larkspur Hay/Upper Meadow (8.6 ton, 2.9 ac)", "Greenleaf/yard (20 ton)", "stack". */
static const char *way_of(const ls_run *r, const ls_load *load) {
    ls_text *t = ls_text_new(r->arena);
    for (size_t i = 0; i < load->n; i++) {
        const ls_drop *d = &load->drops[i];
        ls_text_addf(t, "%s%s/%s (%s ton", i > 0 ? "; " : "", d->buyer->name.text, d->field->name.text,
                     ls_log_tons_text(r->arena, ls_line_value(r->books.sheet, d->tons)));
        if (d->acres != LS_NO_LINE)
            ls_text_addf(t, ", %s ac", ls_log_acres_text(r->arena, ls_line_value(r->books.sheet, d->acres)));
        ls_text_add(t, ")");
    }
    return load->buyer == NULL ? "stack" : t->s;
}

/* Why a paper goes back is known while the ticket is out: the paper in its place tells it later.
 * Whom to call is known while the file names the buyer. */
static const char *note_of(const ls_run *r, const ls_plan *plan, const ls_load *load) {
    const ls_recall *recall = NULL;
    LS_EACH (const ls_recall, is, plan->recalled)
        if (is->now == load) recall = is;
    const char *note = ls_books_issue_note(r->arena, load->buyer, recall);
    return ls_log_fits(r->arena, note) ? note : "";
}

static int add_ticket(ls_run *r, entry_list *list, const ls_plan *plan, const ls_load *load) {
    ls_log_entry e;
    int code = begin(r, LS_LOG_ISSUED, &e);
    ls_ticket_read(r->arena, load->ticket, &e.ticket);
    e.tons = ls_line_value(r->books.sheet, load->tons);
    e.sure = LS_LOG_FIRM + load->certainty;
    e.planned = load->from_stack ? load->from : load->day;
    e.words[LS_LOG_FIELD] = way_of(r, load);
    if (load->from_stack) e.words[LS_LOG_ANALYSIS] = ls_books_litter_out(&r->books, load);
    e.words[LS_LOG_NOTE] = note_of(r, plan, load);
    e.words[LS_LOG_TRUCK] = r->books.farm->trucks.at[load->kind].name.text;
    return code == LS_DONE ? add_entry(r, list, &e) : code;
}

int ls_issue_tickets(ls_run *r, const ls_plan *plan, ls_picked *loads, ls_handed *handed, bool named) {
    entry_list list = {0};
    size_t n = loads->n;
    loads->n = 0;
    for (size_t i = 0; i < n; i++) {
        const ls_load *load = loads->at[i];
        bool new = handed[i].mark == LS_MARK_DRAFT;
        int code = new ? add_ticket(r, &list, plan, load) : LS_DONE;
        if (code != LS_DONE) return code;
        if (!new && !named) continue;
        handed[loads->n] = handed[i];
        loads->at[loads->n++] = load;
    }
    return hand_out(r, &list, handed, loads->n, "ticket");
}

/* ---- slips ---- */

static const ls_promise_slip *slip_of(const ls_run *r, const ls_buyer *buyer) {
    const ls_farm *farm = r->books.farm;
    for (size_t i = 0; i < farm->promised.n; i++)
        if (farm->promised.at[i].buyer == buyer) return &farm->promised.at[i];
    return NULL;
}

static const ls_buyer_sheet *sheet_of(const ls_slip_list *list, const ls_buyer *buyer) {
    return &list->figures->buyers[buyer - list->figures->sums->estimate->farm->buyers.at];
}

/* Can any load be promised today? */
static bool firm(const ls_slip_list *list, const ls_buyer *buyer) {
    const ls_plan_sums *sums = list->figures->sums;
    return sums->buyers[buyer - sums->estimate->farm->buyers.at].loads[LS_FIRM] > 0;
}

/* Loads that a slip handed out now says. */
static long loads_of(const ls_run *r, const ls_buyer_sheet *sheet) {
    return sheet->says == LS_NO_LINE ? 0 : lround(ls_line_shown(r->books.sheet, sheet->says));
}

ls_handed *ls_issue_slips_handed(const ls_run *r, const ls_slip_list *list) {
    ls_handed *handed = LS_NEW(r->arena, ls_handed, list->n);
    for (size_t i = 0; i < list->n; i++) {
        const ls_buyer *buyer = list->buyers[i];
        const ls_promise_slip *is = slip_of(r, buyer);
        if (is != NULL && (loads_of(r, sheet_of(list, buyer)) <= is->loads || !firm(list, buyer)))
            handed[i] = (ls_handed){LS_MARK_COPY, is->day, is->log_entry};
    }
    return handed;
}

/* The price of a slip that stands is kept: to agree on another the slip is taken back first. */
static int add_slip(ls_run *r, entry_list *list, const ls_buyer *buyer, const ls_buyer_sheet *sheet) {
    const ls_promise_slip *was = slip_of(r, buyer);
    ls_log_entry e;
    int code = begin(r, LS_LOG_PROMISED, &e);
    e.words[LS_LOG_FIELD] = buyer->name.text;
    e.words[LS_LOG_NOTE] = ls_books_issue_note(r->arena, buyer, NULL);
    e.loads = loads_of(r, sheet);
    e.tons = ls_line_value(r->books.sheet, sheet->tons.promised);
    e.price = was != NULL ? was->price : LS_GIVEN(buyer->price) ? buyer->price.value : NAN;
    e.replaces = was == NULL ? 0 : was->log_entry;
    if (e.tons > LS_MOST_SLIP_TONS * ls_unit_of("ton").factor * (double)e.loads)
        return MISTAKE(r,
                       "nothing was issued: %s tons are too many for %ld loads of %s; look for a "
                       "wrong weight with littershed record FILE... --list",
                       ls_log_tons_text(r->arena, e.tons), e.loads, buyer->name.text);
    if (e.price > LS_MOST_PRICE * ls_unit_of("$/ton").factor)
        return MISTAKE(r, "nothing was issued: the log takes no price above %d dollars a ton (%s)", LS_MOST_PRICE,
                       buyer->name.text);
    return code == LS_DONE ? add_entry(r, list, &e) : code;
}

int ls_issue_slips(ls_run *r, ls_slip_list *list, const ls_buyer **buyers, ls_handed *handed, bool named) {
    entry_list new = {0};
    size_t n = list->n;
    list->n = 0;
    for (size_t i = 0; i < n; i++) {
        bool stands = handed[i].mark == LS_MARK_COPY, due = !stands && firm(list, buyers[i]);
        int code = due ? add_slip(r, &new, buyers[i], sheet_of(list, buyers[i])) : LS_DONE;
        if (code != LS_DONE) return code;
        if (!due && !(stands && named)) continue;
        handed[list->n] = handed[i];
        buyers[list->n++] = buyers[i];
    }
    return hand_out(r, &new, handed, list->n, "slip");
}
