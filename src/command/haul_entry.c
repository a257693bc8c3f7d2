/* The options of record as an entry of the haul log. */
#include "haul_entry.h"

#include <math.h>
#include <string.h>

/* "11.2" in that unit, or a number and another unit of its dimension, as the log writes it. */
static int read_amount(ls_run *r, ls_option option, const char *usual, double *out) {
    const char *s = r->options->word[option], *name = ls_option_at(option)->name;
    size_t n = strspn(s, "0123456789.,+-"), blanks = strspn(s + n, " ");
    const char *unit_text = s[n] == '\0' ? usual : s + n + blanks;
    double value, own = ls_unit_of(usual).factor;
    bool tons = option == LS_OPTION_TONS;
    ls_unit unit;
    ls_unit_status known = ls_unit_parse(r->arena, unit_text, strlen(unit_text), &unit);
    if (known == LS_UNIT_T) return MISUSE(r, "--tons %s: write ton (2,000 lb) or tonne (1,000 kg) instead of t", s);
    if (known != LS_UNIT_OK || !ls_number_parse(s, n, &value) ||
        !ls_dimension_same(unit.dimension, ls_unit_of(usual).dimension))
        return MISUSE(r, "--%s \"%s\" is no %s; for example %s", name, s, tons ? "weight" : "area",
                      tons ? "--tons 11.2, --tons \"10.2 tonne\" or --tons \"22400 lb\""
                           : "--acres 3 or --acres \"1.2 ha\"");
    if (value * unit.factor > LS_MOST_TONS * own)
        return MISUSE(r, "--%s %s is more than a log takes for one load (%d)%s", name, s, LS_MOST_TONS,
                      unit.factor < own || !tons
                          ? ""
                          : ls_arena_printf(r->arena, "; for pounds write --tons \"%.*s lb\"", (int)n, s));
    const char *written =
        tons ? ls_log_tons_text(r->arena, value * unit.factor) : ls_log_acres_text(r->arena, value * unit.factor);
    ls_number_parse(written, strlen(written), out);
    *out *= own;
    if (*out == 0 && (!tons || !GIVEN(r, REPLACES)))
        return MISUSE(r, "a load of 0 %s cannot be recorded; --tons 0 strikes an entry together with --replaces", name);
    return LS_DONE;
}

static int read_when(ls_run *r, const char *s, ls_when *out) {
    if (strcmp(s, "now") == 0)
        return ls_haul_now(out) ? LS_DONE : ls_run_say(r, LS_SYSTEM, "this machine's clock cannot be read");
    const char *either;
    if (ls_when_parse(r->arena, s, out, &either)) return LS_DONE;
    if (either != NULL) return MISUSE(r, "--when \"%s\" may mean two days: write %s", s, either);
    return MISUSE(r,
                  "--when \"%s\" is no day and time; for example --when 2026-02-16T10:00, --when "
                  "2026-02-16 or --when now",
                  s);
}

/* The number with letters and digits told apart that look alike, O and 0, I and 1; NULL: that does
 * not make it right either. The number before the last character is digits. */
static const char *meant(const ls_run *r, const char *s) {
    static const char *const alike[] = {"O0", "0O", "I1", "1I"};
    ls_ticket ticket;
    char *text = ls_arena_copy(r->arena, s), *check = strrchr(text, '-'), *number;
    if (check == NULL || check == text || check[1] == '\0' || check[2] != '\0') return NULL;
    for (number = check - 1; number > text && *number != '-'; number--)
        *number = *number == 'O' ? '0' : *number == 'I' ? '1' : *number;
    if (ls_ticket_read(r->arena, text, &ticket) == LS_TICKET_OK) return text;
    for (size_t i = 0; i < sizeof alike / sizeof *alike; i++)
        if (check[1] == alike[i][0]) {
            check[1] = alike[i][1];
            return ls_ticket_read(r->arena, text, &ticket) == LS_TICKET_OK ? text : NULL;
        }
    return NULL;
}

static int read_ticket(ls_run *r, const char *s, ls_ticket *out) {
    ls_ticket_status status = ls_ticket_read(r->arena, s, out);
    const char *other = status == LS_TICKET_OK ? NULL : meant(r, s);
    if (other != NULL) return MISTAKE(r, "ticket %s does not exist; did you mean %s?", s, other);
    switch (status) {
    case LS_TICKET_OK: return LS_DONE;
    case LS_TICKET_SLIP:
        return MISTAKE(r,
                       "ticket %s: its last character does not fit the rest, so one of them is "
                       "wrong; read the number again from the ticket",
                       s);
    case LS_TICKET_FORM: break;
    }
    return MISTAKE(r,
                   "\"%s\" is no ticket number; it is a lot, a running number of two digits or "
                   "more and one last character, with dashes between: NORTH-LEFT-03-L",
                   s);
}

ls_option ls_haul_entry_option(ls_log_word word) {
    static const ls_option options[LS_LOG_WORDS] = {
        [LS_LOG_FIELD] = LS_OPTION_FIELD,
        [LS_LOG_TRUCK] = LS_OPTION_TRUCK,
        [LS_LOG_RECEIVED_BY] = LS_OPTION_RECEIVED_BY,
        [LS_LOG_ANALYSIS] = LS_OPTION_ANALYSIS,
        [LS_LOG_INCORPORATED] = LS_OPTION_INCORPORATED,
        [LS_LOG_DRIVER] = LS_OPTION_DRIVER,
        [LS_LOG_WEATHER_BEFORE] = LS_OPTION_WEATHER_BEFORE,
        [LS_LOG_WEATHER] = LS_OPTION_WEATHER,
        [LS_LOG_WEATHER_AFTER] = LS_OPTION_WEATHER_AFTER,
        [LS_LOG_SOIL] = LS_OPTION_SOIL,
        [LS_LOG_NOTE] = LS_OPTION_NOTE,
        [LS_LOG_CONFIRMED] = LS_OPTIONS,
    };
    return options[word];
}

static int read_words(ls_run *r, ls_log_entry *out) {
    for (int i = 0; i < LS_LOG_WORDS; i++) {
        ls_option option = ls_haul_entry_option((ls_log_word)i);
        const char *word = option == LS_OPTIONS ? NULL : r->options->word[option];
        if (word == NULL) continue;
        if (!ls_log_fits(r->arena, word))
            return MISUSE(r,
                          "--%s cannot be written down: it holds a character that cannot be shown, "
                          "or more than 1,000 characters",
                          ls_option_at(option)->name);
        out->words[i] = word;
    }
    return LS_DONE;
}

/* A correction takes back what was told, with an empty text. */
static bool taken_back(const ls_run *r, ls_option option) {
    return GIVEN(r, REPLACES) && ls_run_given(r, option) && r->options->word[option][0] == '\0';
}

/* What a correction leaves as it was. */
static ls_log_entry begin(const ls_log_entry *old) {
    ls_log_entry e = old == NULL ? ls_log_no_facts(LS_NOWHERE) : *old;
    e.replaces = old == NULL ? 0 : old->number;
    e.replaced_by = 0;
    return e;
}

int ls_haul_entry_read(ls_run *r, const ls_log_entry *old, ls_log_entry *out) {
    const ls_options *o = r->options;
    *out = begin(old);
    int code = LS_DONE;
    if (GIVEN(r, TONS)) code = read_amount(r, LS_OPTION_TONS, "ton", &out->tons);
    if (taken_back(r, LS_OPTION_ACRES))
        out->acres = NAN;
    else if (code == LS_DONE && GIVEN(r, ACRES))
        code = read_amount(r, LS_OPTION_ACRES, "ac", &out->acres);
    if (code == LS_DONE && (GIVEN(r, WHEN) || old == NULL))
        code = read_when(r, GIVEN(r, WHEN) ? o->word[LS_OPTION_WHEN] : "now", &out->when);
    if (taken_back(r, LS_OPTION_CLEARED))
        out->cleared = NAN;
    else if (code == LS_DONE && GIVEN(r, CLEARED) && !ls_log_share_parse(o->word[LS_OPTION_CLEARED], &out->cleared))
        code = MISUSE(r,
                      "--cleared \"%s\" is no share of a lot; for example --cleared \"40 %%\", or "
                      "--cleared all with its last load",
                      o->word[LS_OPTION_CLEARED]);
    if (code == LS_DONE) code = read_words(r, out);
    if (code == LS_DONE && GIVEN(r, TICKET)) code = read_ticket(r, o->word[LS_OPTION_TICKET], &out->ticket);
    out->weighed = GIVEN(r, WEIGHED) || (out->weighed && !GIVEN(r, BY_EYE));
    if (code == LS_DONE && old != NULL && !GIVEN(r, FIELD) && out->tons > 0 && out->tons != old->tons)
        out->words[LS_LOG_FIELD] = ls_hauled_scaled(r->arena, r->books.farm, old->words[LS_LOG_FIELD], out->tons);
    return code;
}
