/* Values: of one text, and lists of days, prices, names of files. */
#include "reader.h"

#include <string.h>

static void read_text(ls_farm_reader *reader, ls_farm_value value, void *member) {
    (void)reader;
    ((ls_name *)member)->text = value.node->text;
}

static void read_word(ls_farm_reader *reader, ls_farm_value value, void *member) {
    ls_choice *choice = member;
    const char *const *words = value.key->words;
    for (int i = 0; words[i]; i++) {
        size_t n = strlen(words[i]); /* "broilers" too */
        if (strncmp(words[i], value.node->text, n) == 0 &&
            (strcmp(value.node->text + n, "") == 0 || strcmp(value.node->text + n, "s") == 0))
            choice->is = i + 1;
    }
    if (choice->is == 0 && words == ls_farm_birds)
        choice->is = ls_farm_one_meant(reader->arena, value.node->text, words);
    if (choice->is == 0)
        LS_FARM_MISTAKE(
            reader, value,
            ls_farm_suggest(reader->arena, value.node->text, words, ls_farm_count(words), "write one of these"),
            "unknown %s \"%s\"", value.label, value.node->text);
}

/* The pasture of a hay that tables of removal hold. */
static bool is_pasture(ls_farm_reader *reader, const char *kinds, const char *name) {
    static const char pasture[] = " pasture";
    ls_farm_names also = {0};
    int n = (int)(strlen(name) - strlen(pasture));
    return ls_text_among(kinds, "removal") && ls_text_ends(name, pasture) &&
           ls_farm_rows_called(reader, kinds, ls_arena_printf(reader->arena, "%.*s hay", n, name), &also).n > 0;
}

/* A row of tables, by its name or another word for it, or a table. */
static void read_named(ls_farm_reader *reader, ls_farm_value value, void *member) {
    ls_arena *a = reader->arena;
    const char *kinds = value.key->tables, *text = value.node->text;
    bool row = value.key->kind == LS_FARM_ROW;
    ls_farm_names names = ls_farm_names_in(reader, kinds, row), also = {0}, rows = {0};
    if (row) rows = ls_farm_rows_called(reader, kinds, text, &also);
    if (row ? rows.n == 1 || (rows.n == 0 && is_pasture(reader, kinds, text))
            : ls_reference_table(reader->reference, kinds, text) != NULL) {
        ((ls_name *)member)->text = rows.n == 1 ? rows.at[0] : text;
        return;
    }
    const char *hint = ls_farm_suggest(a, text, names.at, names.n, NULL);
    if (rows.n > 1)
        hint = ls_arena_printf(a, "write which of these it is: %s", ls_farm_joined(a, rows.at, rows.n));
    else if (!hint && also.n > 0)
        hint = ls_farm_suggest(a, text, also.at, also.n, NULL);
    if (!hint) hint = ls_farm_suggest(a, text, names.at, names.n, row ? "the tables hold" : "there are");
    LS_FARM_MISTAKE(reader, value, hint,
                    rows.n > 1 ? "%s \"%s\" may be any of several"
                    : row      ? "unknown %s \"%s\""
                               : "unknown %s table \"%s\"",
                    value.label, text);
}

static void read_count(ls_farm_reader *reader, ls_farm_value value, void *member) {
    ls_count *count = member;
    const ls_farm_key *key = value.key;
    ls_arena *a = reader->arena;
    double number;
    const char *s = value.node->text;
    if (strspn(s, "0123456789,") != strlen(s) || !ls_farm_number(reader->arena, s, strlen(s), &number)) {
        const char *whole = ls_farm_whole_number(a, s);
        bool rate = strstr(s, "year") != NULL || strstr(s, "/yr") != NULL;
        LS_FARM_MISTAKE(reader, value,
                        rate    ? ls_arena_printf(a, "write a number, not one for a year: %.*s",
                                                  (int)strcspn(key->help, ";"), key->help)
                        : whole ? ls_arena_printf(a, "write the number alone: \"%s: %s\"", value.name, whole)
                                : ls_farm_for_example(reader, key),
                        "%s must be a whole number, not \"%s\"", value.label, s);
        return;
    }
    if (number < key->least || number > key->most)
        LS_FARM_MISTAKE(reader, value, ls_farm_for_example(reader, key), "%s must be between %s and %s, not %s",
                        value.label, ls_farm_bound(a, key, key->least), ls_farm_bound(a, key, key->most), s);
    else
        count->n = (long)number;
}

static void read_yesno(ls_farm_reader *reader, ls_farm_value value, void *member) {
    ls_yesno *answer = member;
    const char *s = value.node->text;
    answer->yes = strcmp(s, "yes") == 0;
    if (!answer->yes && strcmp(s, "no") != 0)
        LS_FARM_MISTAKE(reader, value,
                        ls_text_among("y|yes|true|on", s)    ? "write \"yes\""
                        : ls_text_among("n|no|false|off", s) ? "write \"no\""
                                                             : "write yes or no",
                        "%s must be yes or no, not \"%s\"", value.label, s);
}

bool ls_delay_parse(const char *s, long *days) {
    static const char within[] = "within ";
    const char *number = s + sizeof within - 1;
    double n = 0;
    *days = strcmp(s, "never") == 0 ? LS_NEVER : 0;
    if (*days == LS_NEVER || strcmp(s, "at once") == 0) return true;
    if (strncmp(s, within, sizeof within - 1) != 0) return false;
    size_t digits = strspn(number, "0123456789");
    const char *tail = number + digits;
    bool read = (strcmp(tail, " days") == 0 || strcmp(tail, " day") == 0) && ls_number_parse(number, digits, &n) &&
                n >= 1 && n <= 365;
    *days = (long)n;
    return read;
}

/* Hours, days or weeks as days; NULL if it is none of these. */
static const char *delay_meant(ls_farm_reader *reader, const char *s) {
    static const char *const words[] = {"at once", "never"};
    static const struct {
        const char *units;
        double days;
    } times[] = {{"day|days|d", 1}, {"week|weeks", 7}, {"hour|hours|h|hr|hrs", 1.0 / 24}};
    double n = 0;
    const char *number = s + strcspn(s, "0123456789");
    size_t digits = strspn(number, "0123456789");
    const char *unit = number + digits + strspn(number + digits, " ");
    for (size_t i = 0; i < sizeof times / sizeof *times; i++)
        if (ls_text_among(times[i].units, unit) && ls_number_parse(number, digits, &n)) {
            long days = (long)(n * times[i].days + 1e-9);
            return (double)days >= n * times[i].days - 1e-9 && days > 0
                       ? ls_arena_printf(reader->arena, "write \"within %ld day%s\"", days, days == 1 ? "" : "s")
                       : "write \"within 1 day\", or \"at once\" if it is within the hour";
        }
    return ls_farm_suggest(reader->arena, s, words, 2, NULL);
}

static void read_delay(ls_farm_reader *reader, ls_farm_value value, void *member) {
    ls_delay *delay = member;
    const char *s = value.node->text, *meant = delay_meant(reader, s);
    if (!ls_delay_parse(s, &delay->days))
        LS_FARM_MISTAKE(reader, value,
                        meant ? meant
                              : "write \"at once\", \"never\", or days from 1 to 365: \"within 2 "
                                "days\"",
                        "%s cannot be \"%s\"", value.label, s);
}

static void read_clock(ls_farm_reader *reader, ls_farm_value value, void *member) {
    ls_clock *clock = member;
    const char *s = value.node->text, *meant = ls_farm_clock_meant(reader->arena, s);
    if (!ls_clock_parse(meant ? meant : s, &clock->minute))
        LS_FARM_MISTAKE(reader, value,
                        ls_arena_printf(reader->arena,
                                        "write hours and minutes, from \"00:00\" to \"23:59\": "
                                        "\"%s\"",
                                        ls_farm_example(reader->arena, value.key)),
                        "\"%s\" is not a time of the day", s);
}

/* n bytes as a date; what is wrong is noted. */
static ls_date parse_date(ls_farm_reader *reader, ls_farm_value value, const char *s, size_t n) {
    ls_date day = LS_NO_DATE;
    if (ls_date_parse(s, n, &day)) return day;
    const char *shown = ls_arena_copy_n(reader->arena, s, n);
    ls_said_days said = ls_farm_days_said(reader->arena, shown, 0);
    if (said.n == 1) return said.days[0];
    bool shaped =
        n == 10 && strspn(s, "0123456789") == 4 && s[4] == '-' && strspn(s + 5, "0123456789") == 2 && s[7] == '-';
    if (shaped)
        LS_FARM_MISTAKE(reader, value, "check the year (1900 to 2199), the month and the day", "there is no day %s",
                        shown);
    else if (said.n > 1)
        LS_FARM_MISTAKE(reader, value, ls_farm_day_meant(reader, value),
                        "a date of numbers may have the day or the month first");
    else
        LS_FARM_MISTAKE(reader, value, ls_farm_day_meant(reader, value), "\"%s\" is not a date", shown);
    return LS_NO_DATE;
}

static void read_date(ls_farm_reader *reader, ls_farm_value value, void *member) {
    ((ls_day *)member)->day = parse_date(reader, value, value.node->text, strlen(value.node->text));
}

static void read_instant(ls_farm_reader *reader, ls_farm_value value, void *member) {
    ls_instant *instant = member;
    const char *s = value.node->text;
    size_t n = strcspn(s, "T");
    if (s[n] != 'T' || !ls_clock_parse(s + n + 1, &instant->minute))
        LS_FARM_MISTAKE(reader, value,
                        ls_arena_printf(reader->arena, "write day, T, hours and minutes: \"%s\"",
                                        ls_farm_example(reader->arena, value.key)),
                        "\"%s\" is not a day with an hour", s);
    else
        instant->day = parse_date(reader, value, s, n);
}

const char *ls_hold_words(ls_arena *a, const ls_hold *hold, const char *day) {
    long at = hold->from == 0 ? hold->until : hold->from;
    if (ls_hold_whole(hold)) return ls_arena_printf(a, "%s is a hold day", day);
    return ls_arena_printf(a, "%s is a hold day %s%02ld:%02ld", day, hold->from == 0 ? "until " : "from ", at / 60,
                           at % 60);
}

/* A day alone, or with "until HH:MM" or "from HH:MM". */
static void read_hold(ls_farm_reader *reader, ls_farm_value value, ls_hold *hold) {
    const char *s = value.node->text;
    size_t n = strcspn(s, " ");
    bool until = strncmp(s + n, " until ", 7) == 0, from = strncmp(s + n, " from ", 6) == 0;
    *hold = (ls_hold){LS_NO_DATE, 0, LS_DAY_MINUTES, value.node->at};
    if (s[n] == '\0' || (until && ls_clock_parse(s + n + 7, &hold->until)) ||
        (from && ls_clock_parse(s + n + 6, &hold->from)))
        hold->day = parse_date(reader, value, s, n);
    else {
        ls_place at = hold->at;
        if (at.length == strlen(s)) /* not quoted: what follows the day */
            at.column += (uint32_t)n + 1, at.length -= (uint32_t)n + 1;
        LS_FARM_WRONG(reader, at, "for example \"2026-02-23 until 12:00\" or \"2026-02-23 from 12:00\"",
                      "after a day stands until or from, and an hour, not \"%s\"", s + n + 1);
    }
}

static void read_window(ls_farm_reader *reader, ls_farm_value value, void *member) {
    const char *text = value.node->text, *dots = strstr(text, "..");
    if (ls_farm_window_said(reader->arena, text, &((ls_open *)member)->days)) return;
    if (!dots) {
        LS_FARM_MISTAKE(reader, value, ls_farm_day_meant(reader, value), "%s needs two dates with two dots between",
                        value.label);
        return;
    }
    ls_date from = parse_date(reader, value, text, (size_t)(dots - text));
    ls_date to = from == LS_NO_DATE ? from : parse_date(reader, value, dots + 2, strlen(dots + 2));
    if (from == LS_NO_DATE || to == LS_NO_DATE) return;
    if (to < from)
        LS_FARM_MISTAKE(reader, value, "write the first day first", "%s ends before it begins", value.label);
    else
        ((ls_open *)member)->days = (ls_window){from, to};
}

/* ---- what holds several ---- */

static bool is_list(ls_farm_reader *reader, ls_farm_value value) {
    if (value.node->kind != LS_SEQUENCE && !value.node->refused)
        LS_FARM_MISTAKE(reader, value, ls_farm_for_example(reader, value.key), "%s must be a list", value.label);
    return value.node->kind == LS_SEQUENCE;
}

static void read_weekdays(ls_farm_reader *reader, ls_farm_value value, void *member) {
    enum { DAYS = 7 };
    unsigned *set = member;
    for (size_t i = 0; is_list(reader, value) && i < value.node->n; i++) {
        ls_farm_value item = {value.key, "a day off", value.name, value.node->items[i]};
        if (!ls_farm_is_scalar(reader, item)) continue;
        unsigned bit = 0;
        for (int k = 0; k < DAYS; k++)
            if (ls_farm_is_weekday(item.node->text, strlen(item.node->text), k)) bit = 1U << k;
        *set |= bit;
        if (bit == 0)
            LS_FARM_MISTAKE(reader, item,
                            ls_farm_suggest(reader->arena, item.node->text, ls_weekdays, DAYS, "write one of these"),
                            "unknown weekday \"%s\"", item.node->text);
    }
}

static void read_holds(ls_farm_reader *reader, ls_farm_value value, void *member) {
    LS_LIST(ls_hold) days = {0};
    for (size_t i = 0; is_list(reader, value) && i < value.node->n; i++) {
        ls_farm_value item = {value.key, value.label, value.name, value.node->items[i]};
        ls_hold hold;
        if (!ls_farm_is_scalar(reader, item)) continue;
        read_hold(reader, item, &hold);
        if (hold.day != LS_NO_DATE) *LS_PUSH(reader->arena, &days) = hold;
    }
    memcpy(member, &days, sizeof days);
}

/* Prices by product, put in the order of the table. */
static void read_prices(ls_farm_reader *reader, ls_farm_value value, void *member) {
    LS_LIST(ls_price) prices = {0};
    if (value.node->kind != LS_MAPPING) {
        if (!value.node->refused)
            LS_FARM_MISTAKE(reader, value, ls_farm_for_example(reader, value.key), "%s needs keys of its own",
                            value.label);
        return;
    }
    ls_farm_names products = ls_farm_names_in(reader, value.key->tables, true);
    for (size_t i = 0; i < value.node->n; i++)
        if (!ls_farm_holds(&products, value.node->keys[i]->text))
            LS_FARM_WRONG(
                reader, value.node->keys[i]->at,
                ls_farm_suggest(reader->arena, value.node->keys[i]->text, products.at, products.n, "the tables hold"),
                "unknown product \"%s\"", value.node->keys[i]->text);
    for (size_t k = 0; k < products.n; k++)
        for (size_t i = 0; i < value.node->n; i++) {
            if (strcmp(value.node->keys[i]->text, products.at[k]) != 0) continue;
            ls_price *price = LS_PUSH(reader->arena, &prices);
            price->product = (ls_name){products.at[k], value.node->keys[i]->at};
            ls_farm_value item = {value.key, products.at[k], products.at[k], value.node->items[i]};
            ls_farm_read_quantity(reader, item, &price->price);
        }
    memcpy(member, &prices, sizeof prices);
}

/* Names under own_tables. A name that is no text is noted. */
void ls_farm_read_files(ls_farm_reader *reader, ls_farm_value value, void *member) {
    enum { MOST_FILES = 100 };
    LS_LIST(ls_name) names = {0};
    bool list = value.node->kind == LS_SEQUENCE;
    if (list && (value.node->n == 0 || value.node->n > MOST_FILES)) {
        LS_FARM_MISTAKE(reader, value, ls_farm_for_example(reader, value.key),
                        value.node->n == 0 ? "the list %s is empty" : "%s names more than 100 files", value.label);
        return;
    }
    for (size_t i = 0; i < (list ? value.node->n : 1); i++) {
        ls_farm_value item = {value.key, value.label, value.name, list ? value.node->items[i] : value.node};
        if (!ls_farm_is_scalar(reader, item)) continue;
        if (strcmp(item.node->text, "-") == 0)
            LS_FARM_MISTAKE(reader, item, ls_farm_for_example(reader, value.key),
                            "%s must name a file, not standard input", value.label);
        else
            *LS_PUSH(reader->arena, &names) = (ls_name){item.node->text, item.node->at};
    }
    memcpy(member, &names, sizeof names);
}

/* ---- by kind ---- */

static void read_quantity(ls_farm_reader *reader, ls_farm_value value, void *member) {
    ls_farm_read_quantity(reader, value, member);
}

/* What one text fills: its reader, the type, and its value while nothing right is read. Others look for themselves. */
#define OF_TEXT(reader, type, ...)                                                                                     \
    reader, sizeof(type), offsetof(type, at), &(const type) { __VA_ARGS__ }
static const struct {
    void (*read)(ls_farm_reader *, ls_farm_value, void *);
    size_t size, at;
    const void *unread;
} readers[] = {
    [LS_FARM_TEXT] = {OF_TEXT(read_text, ls_name, .text = NULL)},
    [LS_FARM_WORD] = {OF_TEXT(read_word, ls_choice, .is = 0)},
    [LS_FARM_ROW] = {OF_TEXT(read_named, ls_name, .text = NULL)},
    [LS_FARM_TABLE] = {OF_TEXT(read_named, ls_name, .text = NULL)},
    [LS_FARM_DATE] = {OF_TEXT(read_date, ls_day, .day = LS_NO_DATE)},
    [LS_FARM_WINDOW] = {OF_TEXT(read_window, ls_open, .days = {LS_NO_DATE, LS_NO_DATE})},
    [LS_FARM_COUNT] = {OF_TEXT(read_count, ls_count, .n = -1)},
    [LS_FARM_YESNO] = {OF_TEXT(read_yesno, ls_yesno, .yes = false)},
    [LS_FARM_DELAY] = {OF_TEXT(read_delay, ls_delay, .days = 0)},
    [LS_FARM_CLOCK] = {OF_TEXT(read_clock, ls_clock, .minute = -1)},
    [LS_FARM_INSTANT] = {OF_TEXT(read_instant, ls_instant, .day = LS_NO_DATE)},
    [LS_FARM_QUANTITY] = {read_quantity, 0, 0, NULL},
    [LS_FARM_BARE] = {read_quantity, 0, 0, NULL},
    [LS_FARM_WEEKDAYS] = {read_weekdays, 0, 0, NULL},
    [LS_FARM_HOLDS] = {read_holds, 0, 0, NULL},
    [LS_FARM_PRICES] = {read_prices, 0, 0, NULL},
    [LS_FARM_FILES] = {ls_farm_read_files, 0, 0, NULL},
};

/* Words of who has nothing to say, or no limit: a key that may be left out is, as its help says. False: it says
 * something. */
static bool says_nothing(ls_farm_reader *reader, ls_farm_value value) {
    static const char words[] =
        "?|don't know|do not know|dont know|not sure|unsure|unknown|no idea|n/a|free|for free|all|"
        "all of it|everything|any amount|no limit";
    static const char otherwise[] = "left out: ";
    const ls_farm_key *key = value.key;
    if (value.node->kind != LS_SCALAR || key->kind == LS_FARM_TEXT || key->kind == LS_FARM_FILES ||
        !ls_text_among(words, value.node->text))
        return false;
    bool required = (key->flags & LS_FARM_REQUIRED) != 0;
    const char *then = strstr(key->help, otherwise), *what = required ? "its section" : "the line";
    if (required && then == NULL) return false;
    LS_FARM_MISTAKE(reader, value,
                    then == NULL
                        ? "leave the line out"
                        : ls_arena_printf(reader->arena, "leave %s out; %.*s", what, (int)strcspn(then, ";"), then),
                    "%s cannot be \"%s\"", value.label, value.node->text);
    return true;
}

void ls_farm_read_value(ls_farm_reader *reader, ls_farm_value value, void *member) {
    ls_farm_kind kind = value.key->kind;
    if (readers[kind].size > 0) {
        memcpy(member, readers[kind].unread, readers[kind].size);
        memcpy((char *)member + readers[kind].at, &value.node->at, sizeof value.node->at);
    }
    if (says_nothing(reader, value)) return;
    if (readers[kind].size == 0 || ls_farm_is_scalar(reader, value)) readers[kind].read(reader, value, member);
}
