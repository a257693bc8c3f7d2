/* What an entry holds, and it as a row of the log. */
#include "row.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *const columns[] = {"entry", "replaces", "ticket", "when", "tons", "weighed", "cleared"};

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
    [LS_LOG_CONFIRMED] = {"confirmed", "confirmed"},
};

const char *ls_log_column(ls_log_word word) { return words[word].column; }

const char *ls_log_label(ls_log_word word) { return words[word].label; }

const char *ls_record_column(size_t column) {
    static const char *const last[] = {"acres", "certainty", "planned", "loads", "price", "batch", "kind"};
    if (column < LS_RECORD_WORDS) return columns[column];
    return column < LS_RECORD_ACRES ? words[column - LS_RECORD_WORDS].column : last[column - LS_RECORD_ACRES];
}

const char *ls_log_kind_name(ls_log_kind kind) {
    static const char *const names[LS_LOG_KINDS] = {"hauled", "issued", "promised", "correction", "strike"};
    return names[kind];
}

const char *ls_log_sure_name(ls_log_sure sure) {
    static const char *const names[LS_LOG_SURES] = {"", "firm", "likely", "possible"};
    return names[sure];
}

bool ls_log_holds(const ls_log_entry *e, ls_log_kind of) { return e->replaced_by == 0 && e->tons > 0 && e->of == of; }

bool ls_log_stands(const ls_log_entry *e) { return ls_log_holds(e, LS_LOG_HAULED); }

bool ls_log_corrects(const ls_log_entry *e) { return e->replaces > 0 && (e->of == LS_LOG_HAULED || e->tons <= 0); }

static int end_of_day(ls_when when) { return when.minute < 0 ? 24 * 60 : when.minute; }

int ls_log_order(const ls_log_entry *a, const ls_log_entry *b) {
    const long x[] = {a->when.day, end_of_day(a->when), a->first}, y[] = {b->when.day, end_of_day(b->when), b->first};
    for (size_t i = 0; i < sizeof x / sizeof *x; i++)
        if (x[i] != y[i]) return x[i] < y[i] ? -1 : 1;
    return 0;
}

static int by_order(const void *left, const void *right) {
    return ls_log_order(*(const ls_log_entry *const *)left, *(const ls_log_entry *const *)right);
}

ls_log_loads ls_log_loads_of(ls_arena *a, const ls_log *log) {
    ls_log_loads loads = {0};
    LS_EACH (const ls_log_entry, e, log->entries)
        if (ls_log_stands(e)) *LS_PUSH(a, &loads) = e;
    if (loads.n > 1) qsort(loads.at, loads.n, sizeof *loads.at, by_order);
    return loads;
}

const ls_log_entry *ls_log_issue_of(const ls_log *log, const char *ticket) {
    for (size_t i = log->entries.n; i > 0; i--)
        if (ls_log_holds(&log->entries.at[i - 1], LS_LOG_ISSUED) &&
            strcmp(log->entries.at[i - 1].ticket.text, ticket) == 0)
            return &log->entries.at[i - 1];
    return NULL;
}

const char *ls_log_about(const ls_log_entry *e) {
    return e->of == LS_LOG_PROMISED ? e->words[LS_LOG_FIELD] : e->ticket.text;
}

/* To 0.0001 of the unit, no trailing zeros, no commas. */
static const char *number_text(ls_arena *a, double value, const char *unit) {
    char *s = ls_arena_printf(a, "%.4f", value / ls_unit_of(unit).factor);
    size_t n = strlen(s);
    while (s[n - 1] == '0') n--;
    s[s[n - 1] == '.' ? n - 1 : n] = '\0';
    return s;
}

const char *ls_log_tons_text(ls_arena *a, double tons) { return number_text(a, tons, "ton"); }

const char *ls_log_acres_text(ls_arena *a, double acres) { return isnan(acres) ? "" : number_text(a, acres, "ac"); }

const char *ls_log_price_text(ls_arena *a, double price) { return isnan(price) ? "" : number_text(a, price, "$/ton"); }

const char *ls_log_share_text(ls_arena *a, double share) {
    if (isnan(share)) return "";
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
        if (*c == '\n' || *c == '\t') *c = ' ';
    bool fits = strcmp(ls_text_plain(a, flat), flat) == 0 && ls_text_characters(flat) <= LS_MOST_CELL;
    ls_arena_rewind(a, before);
    return fits;
}

/* ls_text_csv leads what would run as a formula with an apostrophe. */
static bool runs(ls_arena *a, const char *s) {
    const char *cell = ls_text_csv(a, s);
    return cell[cell[0] == '"'] == '\'' && s[0] != '\'';
}

/* Apostrophes before a formula get one more: reading takes one away and gives every text back. */
static bool is_guarded(ls_arena *a, const char *s) { return s[0] == '\'' && runs(a, s + strspn(s, "'")); }

const char *ls_record_unguarded(ls_arena *a, const char *cell) { return is_guarded(a, cell) ? cell + 1 : cell; }

/* Whatever may part cells parts none in here. */
static const char *cell_of(ls_arena *a, const char *s) {
    const char *cell = ls_text_csv(a, is_guarded(a, s) ? ls_arena_printf(a, "'%s", s) : s);
    bool bare = cell[0] != '"' && strchr(cell, ';') != NULL;
    return bare ? ls_arena_printf(a, "\"%s\"", cell) : cell;
}

const char *ls_record_text(ls_arena *a, const ls_log_entry *e, size_t column) {
    switch (column) {
    case LS_RECORD_ENTRY: return ls_arena_printf(a, "%ld", e->number);
    case LS_RECORD_REPLACES: return e->replaces > 0 ? ls_arena_printf(a, "%ld", e->replaces) : "";
    case LS_RECORD_TICKET: return cell_of(a, e->ticket.text);
    case LS_RECORD_WHEN: return ls_when_text(a, e->when);
    case LS_RECORD_TONS: return ls_log_tons_text(a, e->tons);
    case LS_RECORD_WEIGHED: return e->weighed ? "yes" : "no";
    case LS_RECORD_CLEARED: return ls_log_share_text(a, e->cleared);
    case LS_RECORD_ACRES: return ls_log_acres_text(a, e->acres);
    case LS_RECORD_CERTAINTY: return e->of == LS_LOG_ISSUED ? ls_log_sure_name(e->sure) : "";
    case LS_RECORD_PLANNED: return e->of != LS_LOG_ISSUED || e->planned == LS_NO_DATE ? "" : ls_date_iso(a, e->planned);
    case LS_RECORD_LOADS: return e->of == LS_LOG_PROMISED ? ls_arena_printf(a, "%ld", e->loads) : "";
    case LS_RECORD_PRICE: return e->of == LS_LOG_PROMISED ? ls_log_price_text(a, e->price) : "";
    case LS_RECORD_BATCH: return e->batch_n > 0 ? ls_arena_printf(a, "%ld of %ld", e->batch, e->batch_n) : "";
    case LS_RECORD_KIND: return ls_log_kind_name(e->kind);
    default: return cell_of(a, e->words[column - LS_RECORD_WORDS]);
    }
}

const char *ls_record_header(ls_arena *a, char separator) {
    ls_text *t = ls_text_new(a);
    for (size_t i = 0; i < LS_RECORD_COLUMNS; i++) ls_text_addf(t, "%.*s%s", i > 0, &separator, ls_record_column(i));
    ls_text_add(t, "\r\n");
    return t->s;
}

const char *ls_record_row(ls_arena *a, char separator, const ls_log_entry *e) {
    ls_text *t = ls_text_new(a);
    for (size_t i = 0; i < LS_RECORD_COLUMNS; i++)
        ls_text_addf(t, "%.*s%s", i > 0, &separator, ls_record_text(a, e, i));
    ls_text_add(t, "\r\n");
    return t->s;
}

/* ---- days with times, and ticket numbers ---- */

enum { MINUTES = 60 };

const char *ls_when_text(ls_arena *a, ls_when when) {
    const char *day = ls_date_iso(a, when.day);
    if (when.minute < 0) return day;
    return ls_arena_printf(a, "%sT%02d:%02d", day, when.minute / MINUTES, when.minute % MINUTES);
}

static const char capitals[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-";

/* 01 ... 99, 100 ...: at least two digits, none too many before them. */
static bool is_running_number(const char *s) {
    size_t n = strspn(s, "0123456789");
    return n >= 2 && s[n] == '\0' && (n == 2 ? strcmp(s, "00") != 0 : s[0] != '0');
}

static char *in_capitals(ls_arena *a, const char *s) {
    char *copy = ls_arena_copy(a, s);
    for (char *c = copy; *c != '\0'; c++)
        if (*c >= 'a' && *c <= 'z') *c = (char)(*c - 'a' + 'A');
    return copy;
}

ls_ticket_status ls_ticket_read(ls_arena *a, const char *s, ls_ticket *out) {
    char *text = in_capitals(a, s), *body = ls_arena_copy(a, text);
    char *check = strrchr(body, '-');
    if (strspn(text, capitals) != strlen(text) || check == NULL || strlen(check) != 2 || strlen(text) > LS_MOST_CELL)
        return LS_TICKET_FORM;
    *check = '\0';
    char *number = strrchr(body, '-');
    if (number == NULL || number == body) return LS_TICKET_FORM;
    *number++ = '\0';
    bool from_stack = *number == 'S';
    number += from_stack;
    if (!is_running_number(number)) return LS_TICKET_FORM;
    *out = (ls_ticket){text, body, number, from_stack};
    const char *whole = ls_arena_copy_n(a, text, strlen(text) - 1);
    return ls_check_character(whole) == check[1] ? LS_TICKET_OK : LS_TICKET_SLIP;
}
