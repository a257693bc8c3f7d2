/* Names out of the tables, and what a wrong word or number was meant to be. */
#include "reader.h"

#include <string.h>

bool ls_farm_holds(const ls_farm_names *list, const char *word) {
    for (size_t i = 0; i < list->n; i++)
        if (strcmp(list->at[i], word) == 0)
            return true;
    return false;
}

ls_farm_names ls_farm_names_in(ls_farm_reader *reader, const char *kinds, bool rows) {
    ls_farm_names list = {0};
    const ls_table *table;
    for (size_t i = 0; (table = ls_reference_at(reader->reference, i)) != NULL; i++) {
        if (!ls_text_among(kinds, table->kind))
            continue;
        for (size_t j = 0; j < (rows ? table->n : 1); j++) {
            const char *name = rows ? table->rows[j].name : table->name;
            bool crops = rows && ls_row_word(&table->rows[j], "crop") != NULL;
            if (!crops && !ls_farm_holds(&list, name))
                *LS_PUSH(reader->arena, &list) = name;
        }
    }
    return list;
}

ls_farm_names ls_farm_rows_called(ls_farm_reader *reader, const char *kinds, const char *text,
                                  ls_farm_names *also) {
    ls_farm_names list = {0};
    const ls_table *table;
    for (size_t i = 0; (table = ls_reference_at(reader->reference, i)) != NULL; i++)
        for (size_t j = 0; ls_text_among(kinds, table->kind) && j < table->n; j++) {
            const char *name = table->rows[j].name, *one,
                       *words = ls_row_word(&table->rows[j], "also");
            bool is = ls_text_among(name, text) || ls_text_among(words, text);
            if (is && !ls_row_word(&table->rows[j], "crop") && !ls_farm_holds(&list, name))
                *LS_PUSH(reader->arena, &list) = name;
            for (size_t k = 0; words && (one = ls_farm_part(reader->arena, words, k)) != NULL; k++)
                *LS_PUSH(reader->arena, also) = one;
        }
    return list;
}

size_t ls_farm_count(const char *const *words) {
    size_t n = 0;
    while (words[n])
        n++;
    return n;
}

const char *ls_farm_joined(ls_arena *a, const char *const *words, size_t n) {
    ls_text *text = ls_text_new(a);
    for (size_t i = 0; i < n; i++)
        ls_text_addf(text, "%s%s", i > 0 ? ", " : "", words[i]);
    return text->s;
}

static char lower(char c) {
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

/* Does text begin with start, capitals aside? */
static bool begins(const char *text, const char *start) {
    while (*start && lower(*text) == lower(*start)) {
        text++;
        start++;
    }
    return *start == '\0';
}

/* Does it hold the words of part, one after another? */
static bool holds(const char *text, const char *part) {
    size_t n = strlen(part);
    for (const char *s = text; *s != '\0'; s++)
        if ((s == text || s[-1] == ' ') && begins(s, part) && (s[n] == '\0' || s[n] == ' '))
            return true;
    return false;
}

/* Words that begin with the one given, or hold it, or that it holds: `"corn grain" or "corn
 * silage"`; NULL if there is none. */
static const char *longer_words(ls_arena *a, const char *word, const char *const *words, size_t n) {
    ls_text *text = ls_text_new(a);
    for (size_t i = 0; i < n; i++)
        if (begins(words[i], word) || holds(words[i], word) || holds(word, words[i]))
            ls_text_addf(text, "%s\"%s\"", text->n > 0 ? " or " : "", words[i]);
    return text->n > 0 ? text->s : NULL;
}

const char *ls_farm_suggest(ls_arena *a, const char *word, const char *const *words, size_t n,
                            const char *lead) {
    const char *nearest = ls_text_nearest(word, words, n);
    if (nearest)
        return ls_arena_printf(a, "did you mean \"%s\"?", nearest);
    const char *longer = longer_words(a, word, words, n);
    if (longer)
        return ls_arena_printf(a, "did you mean %s?", longer);
    if (!lead)
        return NULL;
    return ls_arena_printf(a, "%s: %s", lead, ls_farm_joined(a, words, n));
}

bool ls_farm_number(ls_arena *a, const char *s, size_t n, double *out) {
    enum { GROUP = 3 };
    char *plain = ls_arena_copy_n(a, s, n);
    size_t kept = 0, whole = strspn(plain, "0123456789,");
    for (size_t i = 0; i < n; i++)
        if (s[i] != ',')
            plain[kept++] = s[i];
        else if (i == 0 || i > whole || (whole - i) % (GROUP + 1) != 0)
            return false;
        else if (memchr(s, ',', i) == NULL && i > GROUP)
            return false;
    return ls_number_parse(plain, kept, out);
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
    if (digits > 0 && strcmp(number + digits, ",") == 0)
        return "put blanks between readings, no commas: \"5 6 4 in\"";
    if (strchr(number, ','))
        return comma_hint(a, number);
    if (strstr(number, "+/-"))
        return "put blanks around the +/-, and the unit before it too: \"31 % +/- 4 %\"";
    if (strstr(number, ".."))
        return "write a range with two dots and no blanks, for example \"5..7 in\"";
    if (digits > 0 && number[digits] == '-')
        return "write a range with two dots, for example \"5..7 in\"";
    if (digits > 0 && number[digits] && strchr("eExX_", number[digits]))
        return "write it out in plain digits, such as 12000 or 0.5";
    if (digits > 0 && number[digits] == '/')
        return "write it as one number with a decimal point, such as 0.5";
    if (digits > 0 && (strcmp(number + digits, "'") == 0 || strcmp(number + digits, "\"") == 0))
        return ls_arena_printf(a, "write the unit as a word: %s %s",
                               ls_arena_copy_n(a, number, digits),
                               number[digits] == '\'' ? "ft" : "in");
    double plain;
    if (digits > 0 && ls_number_parse(number, digits, &plain))
        return ls_arena_printf(a, "put a blank between the number and its unit: \"%s %s\"",
                               ls_arena_copy_n(a, number, digits), number + digits);
    return "write it in digits, such as 12 or 12.5";
}
