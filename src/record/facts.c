/* What a row says of a load, whoever wrote it. */
#include "row.h"

#include <limits.h>
#include <math.h>
#include <string.h>
#include <strings.h>

#define MISTAKE LS_RECORD_MISTAKE

/* The place of a cell with as much of it as stands on its first line. */
ls_place ls_record_marked(const ls_record_cell *cell) {
    ls_place at = cell->at;
    size_t n = strcspn(cell->text, "\n");
    at.length = n > 0 && n <= LS_MOST_CELL ? (uint32_t)n : 1;
    return at;
}

static void read_ticket(const ls_record_facts *r, const ls_record_cell *cell, ls_log_entry *e) {
    switch (ls_ticket_read(r->arena, cell->text, &e->ticket)) {
    case LS_TICKET_FORM:
        MISTAKE(r, cell, "a ticket number ends in a running number and a check character", "this is no ticket number");
        break;
    case LS_TICKET_SLIP:
        MISTAKE(r, cell, "compare it with the ticket", "the check character of the ticket number does not fit");
        break;
    case LS_TICKET_OK: break;
    }
}

/* The entry in the copy; NULL: it has none of that number. */
static const ls_log_entry *in_copy(const ls_record_facts *r, const ls_log_entry *e) {
    bool there = r->beside != NULL && (size_t)e->number <= r->beside->entries.n;
    return there ? &r->beside->entries.at[e->number - 1] : NULL;
}

/* That day, among those a cell may mean. */
static bool by_copy(const ls_when *may, ls_date day, ls_when *out) {
    for (; may->day != LS_NO_DATE && may->day != day; may++) continue;
    *out = *may;
    return may->day != LS_NO_DATE;
}

/* copy: the day that the copy has. */
static void read_when(const ls_record_facts *r, const ls_record_cell *cell, ls_date copy, ls_when *out) {
    ls_when may[4];
    switch (ls_record_when(&r->habits, cell->text, may)) {
    case LS_RECORD_READS: *out = may[0]; return;
    case LS_RECORD_TWO_WAYS:
        if (!by_copy(may, copy, out))
            MISTAKE(r, cell, ls_arena_printf(r->arena, "write the year first: %s", ls_record_days(r->arena, may)),
                    "this day may mean two days, and no other line shows which comes first, month "
                    "or day");
        return;
    case LS_RECORD_NOT:
        MISTAKE(r, cell, "for example 2026-02-16T10:00 or 2026-02-16", "this is no day, or no day and time");
    }
}

bool ls_record_amount(const ls_record_facts *r, const ls_record_cell *cell, size_t column, double most, double *out) {
    const char *unit = column == LS_RECORD_ACRES ? "ac" : column == LS_RECORD_PRICE ? "$/ton" : "ton";
    double v = 0;
    ls_record_meaning meaning = ls_record_number(&r->habits, cell->text, &v);
    if (meaning == LS_RECORD_READS && v <= most) {
        *out = v * ls_unit_of(unit).factor;
        return true;
    }
    if (meaning == LS_RECORD_TWO_WAYS)
        MISTAKE(r, cell, "write it with a point and without commas: 11.2",
                "this number may mean two amounts: its sign may stand between thousands, or be a "
                "decimal point");
    else
        MISTAKE(r, cell, "for example 11.2", "%s should be a number, at most %.0f", ls_record_column(column), most);
    return false;
}

long ls_record_whole_number(const char *s) {
    static const ls_record_habits plain = {.point = true};
    double v;
    bool number = ls_record_number(&plain, s, &v) == LS_RECORD_READS;
    return number && v == floor(v) && v <= LS_MOST_ENTRIES ? (long)v : 0;
}

/* "40 %", "40.00%", "40,0 %", "all". */
static void read_cleared(const ls_record_facts *r, const ls_record_cell *cell, ls_log_entry *e) {
    size_t n = strcspn(cell->text, " %");
    const char *number = ls_arena_copy_n(r->arena, cell->text, n), *text = cell->text;
    double percent;
    if (ls_record_number(&r->habits, number, &percent) == LS_RECORD_READS)
        text = ls_arena_printf(r->arena, "%.6f%s", percent, cell->text + n);
    if (cell->text[0] != '\0' && !ls_log_share_parse(text, &e->cleared))
        MISTAKE(r, cell, "for example 40 % or all; empty if it is not known", "cleared should be a share of the lot");
}

/* Every cell is text that may be shown. */
static bool fit(const ls_record_facts *r, const ls_record_cell *cells) {
    bool all = true;
    for (size_t i = 0; i < LS_RECORD_COLUMNS; i++) {
        if (ls_log_fits(r->arena, cells[i].text)) continue;
        all = false;
        MISTAKE(r, &cells[i], "save the file as UTF-8, without control or invisible characters",
                "%s: a character that cannot be shown, or more than 1,000 characters", ls_record_column(i));
    }
    return all;
}

ls_log_entry ls_log_no_facts(ls_place at) {
    ls_log_entry e = {.first = LONG_MAX,
                      .ticket = {"", "", "", false},
                      .cleared = NAN,
                      .acres = NAN,
                      .planned = LS_NO_DATE,
                      .price = NAN,
                      .at = at};
    for (int i = 0; i < LS_LOG_WORDS; i++) e.words[i] = "";
    return e;
}

/* What is told of a ticket that was handed out: how sure its load is, and the day. */
static void read_issued(const ls_record_facts *r, const ls_record_cell *cells, ls_date copy, ls_log_entry *e) {
    const ls_record_cell *sure = &cells[LS_RECORD_CERTAINTY], *day = &cells[LS_RECORD_PLANNED];
    ls_when planned = {LS_NO_DATE, -1};
    for (int i = LS_LOG_FIRM; i < LS_LOG_SURES; i++)
        if (strcasecmp(sure->text, ls_log_sure_name((ls_log_sure)i)) == 0) e->sure = (ls_log_sure)i;
    if (e->sure == LS_LOG_UNTOLD)
        MISTAKE(r, sure, "firm, likely or possible", "an issued ticket needs how sure its load was");
    if (day->text[0] != '\0') read_when(r, day, copy, &planned);
    e->planned = planned.day;
}

/* What a slip tells beside loads and tons: for whom, and the price. */
static void read_promised(const ls_record_facts *r, const ls_record_cell *cells, ls_log_entry *e) {
    const ls_record_cell *price = &cells[LS_RECORD_PRICE], *buyer = &cells[LS_RECORD_WORDS + LS_LOG_FIELD];
    if (price->text[0] != '\0') ls_record_amount(r, price, LS_RECORD_PRICE, LS_MOST_PRICE, &e->price);
    if (buyer->text[0] == '\0') MISTAKE(r, buyer, NULL, "a promise names its buyer as its field");
}

void ls_record_read_facts(const ls_record_facts *r, const ls_record_cell *cells, ls_log_entry *e) {
    const ls_log_entry *copy = in_copy(r, e);
    if (!fit(r, cells)) return;
    if (e->of == LS_LOG_PROMISED)
        read_promised(r, cells, e);
    else
        read_ticket(r, &cells[LS_RECORD_TICKET], e);
    read_when(r, &cells[LS_RECORD_WHEN], copy == NULL ? LS_NO_DATE : copy->when.day, &e->when);
    if (e->of == LS_LOG_ISSUED) read_issued(r, cells, copy == NULL ? LS_NO_DATE : copy->planned, e);
    if (!ls_record_yes_no(cells[LS_RECORD_WEIGHED].text, &e->weighed))
        MISTAKE(r, &cells[LS_RECORD_WEIGHED], NULL, "weighed should be yes or no");
    read_cleared(r, &cells[LS_RECORD_CLEARED], e);
    if (cells[LS_RECORD_ACRES].text[0] != '\0')
        ls_record_amount(r, &cells[LS_RECORD_ACRES], LS_RECORD_ACRES, LS_MOST_TONS, &e->acres);
    for (int i = 0; i < LS_LOG_WORDS; i++) e->words[i] = ls_record_unguarded(r->arena, cells[LS_RECORD_WORDS + i].text);
}
