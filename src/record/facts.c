/* What a row says of a load, whoever wrote it. */
#include "row.h"

#include <math.h>
#include <string.h>

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
        MISTAKE(r, cell, "a ticket number ends in a running number and a check character",
                "this is no ticket number");
        break;
    case LS_TICKET_SLIP:
        MISTAKE(r, cell, "compare it with the ticket",
                "the check character of the ticket number does not fit");
        break;
    case LS_TICKET_OK:
        break;
    }
}

/* The day that the copy has for this entry, among those a cell may mean. */
static bool by_copy(const ls_record_facts *r, const ls_when *may, ls_log_entry *e) {
    if (r->beside == NULL || (size_t)e->number > r->beside->entries.n)
        return false;
    ls_date day = r->beside->entries.at[e->number - 1].when.day;
    for (; may->day != LS_NO_DATE && may->day != day; may++)
        continue;
    e->when = *may;
    return may->day != LS_NO_DATE;
}

static void read_when(const ls_record_facts *r, const ls_record_cell *cell, ls_log_entry *e) {
    ls_when may[4];
    switch (ls_record_when(&r->habits, cell->text, may)) {
    case LS_RECORD_READS:
        e->when = may[0];
        return;
    case LS_RECORD_TWO_WAYS:
        if (!by_copy(r, may, e))
            MISTAKE(r, cell,
                    ls_arena_printf(r->arena, "write the year first: %s",
                                    ls_record_days(r->arena, may)),
                    "this day may mean two days, and no other line shows which comes first, "
                    "month or day");
        return;
    case LS_RECORD_NOT:
        MISTAKE(r, cell, "for example 2026-02-16T10:00 or 2026-02-16",
                "this is no day, or no day and time");
    }
}

/* A number of the unit, at most so many; false: it is noted. */
bool ls_record_amount(const ls_record_facts *r, const ls_record_cell *cell, const char *unit,
                      double *out) {
    double v = 0;
    ls_record_meaning meaning = ls_record_number(&r->habits, cell->text, &v);
    if (meaning == LS_RECORD_READS && v <= LS_MOST_TONS) {
        *out = v * ls_unit_of(unit).factor;
        return true;
    }
    if (meaning == LS_RECORD_TWO_WAYS)
        MISTAKE(r, cell, "write it with a point and without commas: 11.2",
                "this number may mean two amounts: its sign may stand between thousands, or be a "
                "decimal point");
    else
        MISTAKE(r, cell, "for example 11.2", "%s should be a number, at most %d",
                strcmp(unit, "ac") == 0 ? "acres" : "tons", LS_MOST_TONS);
    return false;
}

/* "40 %", "40.00%", "40,0 %", "all". */
static void read_cleared(const ls_record_facts *r, const ls_record_cell *cell, ls_log_entry *e) {
    size_t n = strcspn(cell->text, " %");
    const char *number = ls_arena_copy_n(r->arena, cell->text, n), *text = cell->text;
    double percent;
    if (ls_record_number(&r->habits, number, &percent) == LS_RECORD_READS)
        text = ls_arena_printf(r->arena, "%.6f%s", percent, cell->text + n);
    if (cell->text[0] != '\0' && !ls_log_share_parse(text, &e->cleared))
        MISTAKE(r, cell, "for example 40 % or all; empty if it is not known",
                "cleared should be a share of the lot");
}

/* Every cell is text that may be shown. */
static bool fit(const ls_record_facts *r, const ls_record_cell *cells) {
    bool all = true;
    for (size_t i = 0; i < LS_RECORD_COLUMNS; i++) {
        if (ls_log_fits(r->arena, cells[i].text))
            continue;
        all = false;
        MISTAKE(r, &cells[i], "save the file as UTF-8, without control or invisible characters",
                "%s: a character that cannot be shown, or more than 1,000 characters",
                ls_record_column(i));
    }
    return all;
}

ls_log_entry ls_record_no_facts(ls_place at) {
    ls_log_entry e = {.cleared = NAN, .acres = NAN, .at = at};
    for (int i = 0; i < LS_LOG_WORDS; i++)
        e.words[i] = "";
    return e;
}

void ls_record_read_facts(const ls_record_facts *r, const ls_record_cell *cells, ls_log_entry *e) {
    if (!fit(r, cells))
        return;
    read_ticket(r, &cells[LS_RECORD_TICKET], e);
    read_when(r, &cells[LS_RECORD_WHEN], e);
    if (!ls_record_yes_no(cells[LS_RECORD_WEIGHED].text, &e->weighed))
        MISTAKE(r, &cells[LS_RECORD_WEIGHED], NULL, "weighed should be yes or no");
    read_cleared(r, &cells[LS_RECORD_CLEARED], e);
    if (cells[LS_RECORD_ACRES].text[0] != '\0')
        ls_record_amount(r, &cells[LS_RECORD_ACRES], "ac", &e->acres);
    for (int i = 0; i < LS_LOG_WORDS; i++)
        e->words[i] = ls_record_unguarded(r->arena, cells[LS_RECORD_WORDS + i].text);
}
