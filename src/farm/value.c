/* Values of single keys: words, dates, counts, lists of words. */
#include "farm/reader.h"

#include <string.h>

#define MISTAKE(reader, value, hint, ...) ls_diag_add((reader)->diag, LS_ERROR, (value).node->at, (hint), __VA_ARGS__)

ls_farm_value ls_farm_value_of(const ls_farm_key *key, const ls_node *node) {
    return (ls_farm_value){key, key->name, key->name, node};
}

static const char *for_example(ls_farm_reader *reader, const ls_farm_key *key) {
    return ls_arena_printf(reader->arena, "for example \"%s\"", ls_farm_example(reader->arena, key));
}

bool ls_farm_is_scalar(ls_farm_reader *reader, ls_farm_value value) {
    if (value.node->kind == LS_SCALAR)
        return true;
    const char *found = value.node->kind == LS_SEQUENCE ? "a list" : "keys of its own";
    MISTAKE(reader, value, for_example(reader, value.key), "%s takes one value, not %s", value.label, found);
    return false;
}

const char *ls_farm_joined(ls_arena *a, const char *const *words, size_t n) {
    ls_text *text = ls_text_new(a);
    for (size_t i = 0; i < n; i++)
        ls_text_addf(text, "%s%s", i > 0 ? ", " : "", words[i]);
    return text->s;
}

const char *ls_farm_suggest(ls_arena *a, const char *word, const char *const *words, size_t n, const char *lead) {
    const char *nearest = ls_text_nearest(word, words, n);
    if (nearest)
        return ls_arena_printf(a, "did you mean \"%s\"?", nearest);
    return ls_arena_printf(a, "%s: %s", lead, ls_farm_joined(a, words, n));
}

/* A decimal comma, or commas between thousands? */
static const char *comma_hint(ls_arena *a, const char *number) {
    const char *comma = strchr(number, ',');
    bool thousands = strlen(comma + 1) >= 3;
    char *fixed = ls_arena_copy(a, number);
    size_t n = 0;
    for (const char *s = number; *s; s++)
        if (*s != ',')
            fixed[n++] = *s;
        else if (!thousands)
            fixed[n++] = '.';
    fixed[n] = '\0';
    return ls_arena_printf(a, "no comma inside a number: write %s", fixed);
}

const char *ls_farm_number_hint(ls_arena *a, const char *number) {
    size_t digits = strspn(number, "0123456789.");
    if (number[0] == '+')
        return "write it without a sign";
    if (strchr(number, ','))
        return comma_hint(a, number);
    if (strstr(number, ".."))
        return "write a range with two dots and no blanks, for example \"5..7 in\"";
    if (digits > 0 && number[digits] == '-')
        return "write a range with two dots, for example \"5..7 in\"";
    if (digits > 0 && strchr("eExX_", number[digits]))
        return "write it out in plain digits, such as 12000 or 0.5";
    if (digits > 0 && (number[digits] == '/' || number[digits] == '+'))
        return "write it as one number with a decimal point, such as 0.5, and blanks around +/-";
    double plain;
    if (digits > 0 && ls_number_parse(number, digits, &plain))
        return ls_arena_printf(a, "put a blank between the number and its unit: \"%s %s\"",
                               ls_arena_copy_n(a, number, digits), number + digits);
    return "write it in digits, such as 12 or 12.5";
}

static size_t count_words(const char *const *words) {
    size_t n = 0;
    while (words[n])
        n++;
    return n;
}

static void read_text(ls_farm_reader *reader, ls_farm_value value, void *member) {
    ls_name *name = member;
    name->at = value.node->at;
    if (ls_farm_is_scalar(reader, value))
        name->text = value.node->text;
}

static void read_word(ls_farm_reader *reader, ls_farm_value value, void *member) {
    ls_choice *choice = member;
    const char *const *words = value.key->words;
    choice->at = value.node->at;
    if (!ls_farm_is_scalar(reader, value))
        return;
    for (int i = 0; words[i]; i++)
        if (strcmp(words[i], value.node->text) == 0)
            choice->is = i + 1;
    if (choice->is == 0)
        MISTAKE(reader, value, ls_farm_suggest(reader->arena, value.node->text, words, count_words(words), "write one of these"),
                "unknown %s \"%s\"", value.label, value.node->text);
}

typedef LS_LIST(const char *) word_list;

static bool holds(const word_list *list, const char *word) {
    for (size_t i = 0; i < list->n; i++)
        if (strcmp(list->at[i], word) == 0)
            return true;
    return false;
}

static bool of_kind(ls_arena *a, const char *kinds, const char *kind) {
    const char *part;
    for (size_t i = 0; (part = ls_farm_part(a, kinds, i)) != NULL; i++)
        if (strcmp(part, kind) == 0)
            return true;
    return false;
}

/* Names of the tables of these kinds, or of their rows, each once. */
static word_list names_in(ls_farm_reader *reader, const char *kinds, bool rows) {
    word_list list = {0};
    const ls_table *table;
    for (size_t i = 0; (table = ls_reference_at(reader->reference, i)) != NULL; i++) {
        if (!of_kind(reader->arena, kinds, table->kind))
            continue;
        for (size_t j = 0; j < (rows ? table->n : 1); j++) {
            const char *name = rows ? table->rows[j].name : table->name;
            if (!holds(&list, name))
                *LS_PUSH(reader->arena, &list) = name;
        }
    }
    return list;
}

/* Is there a row of that name in a table of these kinds? */
static bool row_exists(ls_farm_reader *reader, const char *kinds, const char *row) {
    const ls_table *table;
    for (size_t i = 0; (table = ls_reference_at(reader->reference, i)) != NULL; i++)
        if (of_kind(reader->arena, kinds, table->kind) && ls_table_row(table, row))
            return true;
    return false;
}

static void read_row(ls_farm_reader *reader, ls_farm_value value, void *member) {
    ls_name *name = member;
    name->at = value.node->at;
    if (!ls_farm_is_scalar(reader, value))
        return;
    if (row_exists(reader, value.key->tables, value.node->text)) {
        name->text = value.node->text;
        return;
    }
    word_list rows = names_in(reader, value.key->tables, true);
    MISTAKE(reader, value, ls_farm_suggest(reader->arena, value.node->text, rows.at, rows.n, "the tables hold"),
            "unknown %s \"%s\"", value.label, value.node->text);
}

static void read_table(ls_farm_reader *reader, ls_farm_value value, void *member) {
    ls_name *name = member;
    name->at = value.node->at;
    if (!ls_farm_is_scalar(reader, value))
        return;
    if (ls_reference_table(reader->reference, value.key->tables, value.node->text)) {
        name->text = value.node->text;
        return;
    }
    word_list tables = names_in(reader, value.key->tables, false);
    MISTAKE(reader, value, ls_farm_suggest(reader->arena, value.node->text, tables.at, tables.n, "there are"),
            "unknown %s table \"%s\"", value.label, value.node->text);
}

/* n bytes as a date; what is wrong is noted. */
static ls_date parse_date(ls_farm_reader *reader, ls_farm_value value, const char *s, size_t n) {
    ls_date day = LS_NO_DATE;
    if (ls_date_parse(s, n, &day))
        return day;
    ls_arena *a = reader->arena;
    const char *shown = ls_arena_copy_n(a, s, n);
    bool shaped = n == 10 && strspn(s, "0123456789") == 4 && s[4] == '-' && strspn(s + 5, "0123456789") == 2 && s[7] == '-';
    if (shaped)
        MISTAKE(reader, value, "check the year (1900 to 2199), the month and the day", "there is no day %s", shown);
    else
        MISTAKE(reader, value, ls_arena_printf(a, "write year, month and day: \"%s\"", ls_farm_example(a, value.key)),
                "\"%s\" is not a date", shown);
    return LS_NO_DATE;
}

static void read_date(ls_farm_reader *reader, ls_farm_value value, void *member) {
    ls_day *day = member;
    day->at = value.node->at;
    day->day = LS_NO_DATE;
    if (ls_farm_is_scalar(reader, value))
        day->day = parse_date(reader, value, value.node->text, strlen(value.node->text));
}

static void read_window(ls_farm_reader *reader, ls_farm_value value, void *member) {
    ls_open *open = member;
    open->at = value.node->at;
    open->days = (ls_window){LS_NO_DATE, LS_NO_DATE};
    if (!ls_farm_is_scalar(reader, value))
        return;
    const char *text = value.node->text, *dots = strstr(text, "..");
    if (!dots) {
        MISTAKE(reader, value, ls_arena_printf(reader->arena, "write first and last day: \"%s\"", ls_farm_example(reader->arena, value.key)),
                "%s needs two dates with two dots between", value.label);
        return;
    }
    ls_date from = parse_date(reader, value, text, (size_t)(dots - text));
    ls_date to = parse_date(reader, value, dots + 2, strlen(dots + 2));
    if (from == LS_NO_DATE || to == LS_NO_DATE)
        return;
    if (to < from)
        MISTAKE(reader, value, "write the first day first", "%s ends before it begins", value.label);
    else
        open->days = (ls_window){from, to};
}

/* Digits first, something after them: what the whole number would be. */
static const char *count_hint(ls_arena *a, ls_farm_value value) {
    const char *s = value.node->text;
    size_t digits = strspn(s, "0123456789");
    if (strchr(s, ','))
        return ls_farm_number_hint(a, s);
    if (digits > 0 && s[digits] == ' ')
        return ls_arena_printf(a, "no unit after it: \"%s: %s\"", value.name, ls_arena_copy_n(a, s, digits));
    return ls_arena_printf(a, "for example \"%s\"", ls_farm_example(a, value.key));
}

static void read_count(ls_farm_reader *reader, ls_farm_value value, void *member) {
    ls_count *count = member;
    const ls_farm_key *key = value.key;
    ls_arena *a = reader->arena;
    double number;
    count->at = value.node->at;
    count->n = -1;
    if (!ls_farm_is_scalar(reader, value))
        return;
    const char *s = value.node->text;
    if (strspn(s, "0123456789") != strlen(s) || !ls_number_parse(s, strlen(s), &number)) {
        MISTAKE(reader, value, count_hint(a, value), "%s must be a whole number, not \"%s\"", value.label, s);
        return;
    }
    bool year = key->least >= 1000; /* a year has no comma */
    const char *least = year ? ls_arena_printf(a, "%.0f", key->least) : ls_number_text(a, key->least, 6);
    const char *most = year ? ls_arena_printf(a, "%.0f", key->most) : ls_number_text(a, key->most, 6);
    if (number < key->least || number > key->most)
        MISTAKE(reader, value, for_example(reader, key), "%s must be between %s and %s, not %s", value.label, least, most, s);
    else
        count->n = (long)number;
}

static void read_yesno(ls_farm_reader *reader, ls_farm_value value, void *member) {
    ls_yesno *answer = member;
    answer->at = value.node->at;
    if (!ls_farm_is_scalar(reader, value))
        return;
    answer->yes = strcmp(value.node->text, "yes") == 0;
    if (!answer->yes && strcmp(value.node->text, "no") != 0)
        MISTAKE(reader, value, "write yes or no", "%s must be yes or no, not \"%s\"", value.label, value.node->text);
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
    delay->at = value.node->at;
    if (!ls_farm_is_scalar(reader, value))
        return;
    const char *s = value.node->text;
    if (strcmp(s, "at once") == 0)
        delay->days = 0;
    else if (strcmp(s, "never") == 0)
        delay->days = LS_NEVER;
    else if (parse_within(s, &days) && days >= 1 && days <= value.key->most)
        delay->days = (long)days;
    else
        MISTAKE(reader, value, "write \"at once\", \"never\", or days from 1 to 365: \"within 2 days\"", "%s cannot be \"%s\"", value.label, s);
}

static bool is_list(ls_farm_reader *reader, ls_farm_value value) {
    if (value.node->kind != LS_SEQUENCE)
        MISTAKE(reader, value, for_example(reader, value.key), "%s must be a list", value.label);
    return value.node->kind == LS_SEQUENCE;
}

static void read_weekdays(ls_farm_reader *reader, ls_farm_value value, void *member) {
    enum { DAYS = 7 };
    unsigned *set = member;
    const char *names[DAYS];
    for (int k = 0; k < DAYS; k++)
        names[k] = ls_weekday_name(k);
    for (size_t i = 0; is_list(reader, value) && i < value.node->n; i++) {
        ls_farm_value item = {value.key, "a day off", value.name, value.node->items[i]};
        if (!ls_farm_is_scalar(reader, item))
            continue;
        unsigned bit = 0;
        for (int k = 0; k < DAYS; k++)
            if (strcmp(item.node->text, names[k]) == 0)
                bit = 1U << k;
        *set |= bit;
        if (bit == 0)
            MISTAKE(reader, item, ls_farm_suggest(reader->arena, item.node->text, names, DAYS, "write one of these"),
                    "unknown weekday \"%s\"", item.node->text);
    }
}

static void read_dates(ls_farm_reader *reader, ls_farm_value value, void *member) {
    LS_LIST(ls_day) days = {0};
    for (size_t i = 0; is_list(reader, value) && i < value.node->n; i++) {
        ls_farm_value item = {value.key, value.label, value.name, value.node->items[i]};
        ls_day day;
        read_date(reader, item, &day);
        if (day.day != LS_NO_DATE)
            *LS_PUSH(reader->arena, &days) = day;
    }
    memcpy(member, &days, sizeof days);
}

static void read_quantity(ls_farm_reader *reader, ls_farm_value value, void *member) {
    ls_farm_read_quantity(reader, value, member);
}

/* A mapping of zones to quantities, or one quantity for a plain floor. */
static void read_zoned(ls_farm_reader *reader, ls_farm_value value, void *member) {
    ls_zoned *zoned = member;
    if (value.node->kind != LS_MAPPING) {
        ls_farm_read_quantity(reader, value, &zoned->of[LS_FLOOR]);
        return;
    }
    for (size_t i = 0; i < value.node->n; i++) {
        const ls_node *zone_key = value.node->keys[i];
        int zone = 0;
        for (int k = 1; k < LS_ZONES; k++)
            if (strcmp(zone_key->text, ls_zone_name(k)) == 0)
                zone = k;
        if (zone == 0) {
            ls_diag_add(reader->diag, LS_ERROR, zone_key->at,
                        ls_farm_suggest(reader->arena, zone_key->text, ls_farm_zones, LS_ZONES - 1, "write one of these"),
                        "unknown part of the floor \"%s\" under %s", zone_key->text, value.name);
            continue;
        }
        const char *label = ls_arena_printf(reader->arena, "%s of %s", value.label, ls_zone_name(zone));
        ls_farm_value item = {value.key, label, ls_zone_name(zone), value.node->items[i]};
        ls_farm_read_quantity(reader, item, &zoned->of[zone]);
    }
}

/* Prices by product, put in the order of the table. */
static void read_prices(ls_farm_reader *reader, ls_farm_value value, void *member) {
    LS_LIST(ls_price) prices = {0};
    if (value.node->kind != LS_MAPPING) {
        MISTAKE(reader, value, for_example(reader, value.key), "%s needs keys of its own", value.label);
        return;
    }
    word_list products = names_in(reader, value.key->tables, true);
    for (size_t i = 0; i < value.node->n; i++)
        if (!holds(&products, value.node->keys[i]->text))
            ls_diag_add(reader->diag, LS_ERROR, value.node->keys[i]->at,
                        ls_farm_suggest(reader->arena, value.node->keys[i]->text, products.at, products.n, "the tables hold"),
                        "unknown product \"%s\"", value.node->keys[i]->text);
    for (size_t k = 0; k < products.n; k++)
        for (size_t i = 0; i < value.node->n; i++) {
            if (strcmp(value.node->keys[i]->text, products.at[k]) != 0)
                continue;
            ls_price *price = LS_PUSH(reader->arena, &prices);
            price->product = (ls_name){products.at[k], value.node->keys[i]->at};
            ls_farm_value item = {value.key, products.at[k], products.at[k], value.node->items[i]};
            ls_farm_read_quantity(reader, item, &price->price);
        }
    memcpy(member, &prices, sizeof prices);
}

void ls_farm_read_value(ls_farm_reader *reader, ls_farm_value value, void *member) {
    static void (*const readers[])(ls_farm_reader *, ls_farm_value, void *) = {
        [LS_FARM_TEXT] = read_text,         [LS_FARM_WORD] = read_word,     [LS_FARM_ROW] = read_row,
        [LS_FARM_TABLE] = read_table,       [LS_FARM_DATE] = read_date,     [LS_FARM_WINDOW] = read_window,
        [LS_FARM_QUANTITY] = read_quantity, [LS_FARM_ZONED] = read_zoned,   [LS_FARM_BARE] = read_quantity,
        [LS_FARM_COUNT] = read_count,       [LS_FARM_YESNO] = read_yesno,   [LS_FARM_DELAY] = read_delay,
        [LS_FARM_WEEKDAYS] = read_weekdays, [LS_FARM_DATES] = read_dates,   [LS_FARM_PRICES] = read_prices,
    };
    readers[value.key->kind](reader, value, member);
}
