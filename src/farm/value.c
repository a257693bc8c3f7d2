/* Values that are one text: names, words, dates, counts. */
#include "reader.h"

#include <string.h>

static void read_text(ls_farm_reader *reader, ls_farm_value value, void *member) {
    (void)reader;
    ((ls_name *)member)->text = value.node->text;
}

static void read_word(ls_farm_reader *reader, ls_farm_value value, void *member) {
    ls_choice *choice = member;
    const char *const *words = value.key->words;
    for (int i = 0; words[i]; i++)
        if (strcmp(words[i], value.node->text) == 0)
            choice->is = i + 1;
    if (choice->is == 0)
        LS_FARM_MISTAKE(reader, value,
                        ls_farm_suggest(reader->arena, value.node->text, words,
                                        ls_farm_count(words), "write one of these"),
                        "unknown %s \"%s\"", value.label, value.node->text);
}

/* The table row is there, or, of a pasture, that of its hay: "tall fescue pasture". */
static bool is_row(ls_farm_reader *reader, const char *kinds, const char *name) {
    static const char pasture[] = " pasture";
    size_t n = strlen(name), p = sizeof pasture - 1;
    return ls_farm_row_exists(reader, kinds, name) ||
           (strstr(kinds, "removal") != NULL && n > p && strcmp(name + n - p, pasture) == 0 &&
            ls_farm_row_exists(reader, kinds,
                               ls_arena_printf(reader->arena, "%.*s hay", (int)(n - p), name)));
}

/* A row of tables, or a table. */
static void read_named(ls_farm_reader *reader, ls_farm_value value, void *member) {
    const char *kinds = value.key->tables, *text = value.node->text;
    bool row = value.key->kind == LS_FARM_ROW;
    if (row ? is_row(reader, kinds, text)
            : ls_reference_table(reader->reference, kinds, text) != NULL) {
        ((ls_name *)member)->text = text;
        return;
    }
    ls_farm_names names = ls_farm_names_in(reader, kinds, row);
    LS_FARM_MISTAKE(reader, value,
                    ls_farm_suggest(reader->arena, text, names.at, names.n,
                                    row ? "the tables hold" : "there are"),
                    "unknown %s%s \"%s\"", value.label, row ? "" : " table", text);
}

/* Digits first, something after them: what the whole number would be. */
static const char *count_hint(ls_farm_reader *reader, ls_farm_value value) {
    ls_arena *a = reader->arena;
    const char *s = value.node->text;
    size_t digits = strspn(s, "0123456789");
    if (strchr(s, ','))
        return ls_farm_number_hint(a, s);
    if (digits > 0 && s[digits] == ' ')
        return ls_arena_printf(a, "no unit after it: \"%s: %s\"", value.name,
                               ls_arena_copy_n(a, s, digits));
    return ls_farm_for_example(reader, value.key);
}

static void read_count(ls_farm_reader *reader, ls_farm_value value, void *member) {
    ls_count *count = member;
    const ls_farm_key *key = value.key;
    ls_arena *a = reader->arena;
    double number;
    const char *s = value.node->text;
    if (strspn(s, "0123456789") != strlen(s) || !ls_number_parse(s, strlen(s), &number)) {
        LS_FARM_MISTAKE(reader, value, count_hint(reader, value),
                        "%s must be a whole number, not \"%s\"", value.label, s);
        return;
    }
    if (number < key->least || number > key->most)
        LS_FARM_MISTAKE(reader, value, ls_farm_for_example(reader, key),
                        "%s must be between %s and %s, not %s", value.label,
                        ls_farm_bound(a, key, key->least), ls_farm_bound(a, key, key->most), s);
    else
        count->n = (long)number;
}

static void read_yesno(ls_farm_reader *reader, ls_farm_value value, void *member) {
    ls_yesno *answer = member;
    answer->yes = strcmp(value.node->text, "yes") == 0;
    if (!answer->yes && strcmp(value.node->text, "no") != 0)
        LS_FARM_MISTAKE(reader, value, "write yes or no", "%s must be yes or no, not \"%s\"",
                        value.label, value.node->text);
}

/* N of "within N days". */
static bool parse_within(const char *s, double *days) {
    static const char lead[] = "within ";
    if (strncmp(s, lead, sizeof lead - 1) != 0)
        return false;
    s += sizeof lead - 1;
    size_t digits = strspn(s, "0123456789");
    bool tail = strcmp(s + digits, " days") == 0 || strcmp(s + digits, " day") == 0;
    return digits > 0 && tail && ls_number_parse(s, digits, days);
}

static void read_delay(ls_farm_reader *reader, ls_farm_value value, void *member) {
    ls_delay *delay = member;
    double days;
    const char *s = value.node->text;
    if (strcmp(s, "at once") == 0)
        delay->days = 0;
    else if (strcmp(s, "never") == 0)
        delay->days = LS_NEVER;
    else if (parse_within(s, &days) && days >= 1 && days <= value.key->most)
        delay->days = (long)days;
    else
        LS_FARM_MISTAKE(reader, value,
                        "write \"at once\", \"never\", or days from 1 to 365: \"within 2 days\"",
                        "%s cannot be \"%s\"", value.label, s);
}

/* Exactly HH:MM, 00:00 to 23:59. */
static void read_clock(ls_farm_reader *reader, ls_farm_value value, void *member) {
    ls_clock *clock = member;
    const char *s = value.node->text;
    bool shaped = strlen(s) == 5 && strspn(s, "0123456789") == 2 && s[2] == ':' &&
                  strspn(s + 3, "0123456789") == 2;
    long hour = shaped ? (s[0] - '0') * 10 + s[1] - '0' : 24;
    long minute = shaped ? (s[3] - '0') * 10 + s[4] - '0' : 60;
    if (hour < 24 && minute < 60)
        clock->minute = 60 * hour + minute;
    else
        LS_FARM_MISTAKE(
            reader, value,
            ls_arena_printf(reader->arena,
                            "write hours and minutes, from \"00:00\" to \"23:59\": \"%s\"",
                            ls_farm_example(reader->arena, value.key)),
            "\"%s\" is not a time of the day", s);
}

static void read_quantity(ls_farm_reader *reader, ls_farm_value value, void *member) {
    ls_farm_read_quantity(reader, value, member);
}

/* What one text fills: its reader, the type, and its value while nothing right is read. Others look
 * for themselves. */
#define OF_TEXT(reader, type, ...)                                                                 \
    reader, sizeof(type), offsetof(type, at), &(const type) {                                      \
        __VA_ARGS__                                                                                \
    }
static const struct {
    void (*read)(ls_farm_reader *, ls_farm_value, void *);
    size_t size, at;
    const void *unread;
} readers[] = {
    [LS_FARM_TEXT] = {OF_TEXT(read_text, ls_name, .text = NULL)},
    [LS_FARM_WORD] = {OF_TEXT(read_word, ls_choice, .is = 0)},
    [LS_FARM_ROW] = {OF_TEXT(read_named, ls_name, .text = NULL)},
    [LS_FARM_TABLE] = {OF_TEXT(read_named, ls_name, .text = NULL)},
    [LS_FARM_DATE] = {OF_TEXT(ls_farm_read_date, ls_day, .day = LS_NO_DATE)},
    [LS_FARM_WINDOW] = {OF_TEXT(ls_farm_read_window, ls_open, .days = {LS_NO_DATE, LS_NO_DATE})},
    [LS_FARM_COUNT] = {OF_TEXT(read_count, ls_count, .n = -1)},
    [LS_FARM_YESNO] = {OF_TEXT(read_yesno, ls_yesno, .yes = false)},
    [LS_FARM_DELAY] = {OF_TEXT(read_delay, ls_delay, .days = 0)},
    [LS_FARM_CLOCK] = {OF_TEXT(read_clock, ls_clock, .minute = -1)},
    [LS_FARM_QUANTITY] = {read_quantity, 0, 0, NULL},
    [LS_FARM_BARE] = {read_quantity, 0, 0, NULL},
    [LS_FARM_WEEKDAYS] = {ls_farm_read_weekdays, 0, 0, NULL},
    [LS_FARM_DATES] = {ls_farm_read_dates, 0, 0, NULL},
    [LS_FARM_PRICES] = {ls_farm_read_prices, 0, 0, NULL},
    [LS_FARM_FILES] = {ls_farm_read_files, 0, 0, NULL},
};

void ls_farm_read_as(ls_farm_reader *reader, ls_farm_kind kind, ls_farm_value value, void *member) {
    if (readers[kind].size > 0) {
        memcpy(member, readers[kind].unread, readers[kind].size);
        memcpy((char *)member + readers[kind].at, &value.node->at, sizeof value.node->at);
    }
    if (readers[kind].size == 0 || ls_farm_is_scalar(reader, value))
        readers[kind].read(reader, value, member);
}

void ls_farm_read_value(ls_farm_reader *reader, ls_farm_value value, void *member) {
    ls_farm_read_as(reader, value.key->kind, value, member);
}
