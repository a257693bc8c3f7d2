/* Names out of the tables, and what a wrong word or number was meant to be. */
#include "reader.h"

#include <string.h>

bool ls_farm_holds(const ls_farm_names *list, const char *word) {
    for (size_t i = 0; i < list->n; i++)
        if (strcmp(list->at[i], word) == 0) return true;
    return false;
}

ls_farm_names ls_farm_names_in(ls_farm_reader *reader, const char *kinds, bool rows) {
    ls_farm_names list = {0};
    const ls_table *table;
    for (size_t i = 0; (table = ls_reference_at(reader->reference, i)) != NULL; i++) {
        if (!ls_text_among(kinds, table->kind)) continue;
        for (size_t j = 0; j < (rows ? table->n : 1); j++) {
            const char *name = rows ? table->rows[j].name : table->name;
            bool crops = rows && ls_row_word(&table->rows[j], "crop") != NULL;
            if (!crops && !ls_farm_holds(&list, name)) *LS_PUSH(reader->arena, &list) = name;
        }
    }
    return list;
}

ls_farm_names ls_farm_rows_called(ls_farm_reader *reader, const char *kinds, const char *text, ls_farm_names *also) {
    ls_farm_names list = {0};
    const ls_table *table;
    for (size_t i = 0; (table = ls_reference_at(reader->reference, i)) != NULL; i++)
        for (size_t j = 0; ls_text_among(kinds, table->kind) && j < table->n; j++) {
            const char *name = table->rows[j].name, *one, *words = ls_row_word(&table->rows[j], "also");
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
    while (words[n]) n++;
    return n;
}

const char *ls_farm_joined(ls_arena *a, const char *const *words, size_t n) {
    ls_text *text = ls_text_new(a);
    for (size_t i = 0; i < n; i++) ls_text_addf(text, "%s%s", i > 0 ? ", " : "", words[i]);
    return text->s;
}

static char lower(char c) { return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c; }

/* Does text begin with n bytes of start, capitals aside? */
static bool begins_n(const char *text, const char *start, size_t n) {
    size_t i = 0;
    while (i < n && lower(text[i]) == lower(start[i])) i++;
    return i == n;
}

/* Does it hold the words of part, one after another, in the singular or the plural? */
static bool holds(const char *text, const char *part) {
    size_t n = strlen(part);
    n -= n > 3 && part[n - 1] == 's';
    for (const char *s = text; *s != '\0'; s++)
        if ((s == text || s[-1] == ' ') && begins_n(s, part, n) &&
            (s[n] == '\0' || s[n] == ' ' || (s[n] == 's' && strchr(" ", s[n + 1]))))
            return true;
    return false;
}

/* What growers say for words of the farm file: '|' between. */
static const struct {
    const char *word, *said;
} meanings[] = {
    {"layer", "hens|hen|chicken|chickens"},
    {"layer", "laying hens|layer hens|egg layers|commercial layers|laying hen"},
    {"broiler", "chicken|chickens|meat birds|meat chickens|fryers|broiler chickens"},
    {"broiler breeder", "hens|breeder hens|hatching eggs|hatching egg"},
    {"turkey tom", "tom|toms|gobblers|turkey toms"},
    {"layer pullet", "pullet|pullets"},
    {"breeder pullet", "pullet|pullets"},
    {"duck", "pekin|pekins|pekin ducks"},
    {"low", "good|small"},
    {"medium", "moderate|med|mid|average|normal"},
    {"very high", "severe|vh|excessive|extreme"},
    {"as received", "wet|as is|as-is|as sampled|fresh"},
    {"at once", "immediately|same day|right away|now"},
    {"never", "no|none|not|not incorporated|left on top|surface|no-till|no till"},
    {"cut", "hay|harvested|mowed|baled"},
    {"belt", "belts|manure belt"},
    {"pit", "deep pit|high rise|high-rise"},
    {"average", "normal|usual|mild"},
    /* keys that are asked about */
    {"N", "TKN"},
    {"P2O5", "phosphorus"},
    {"P", "phosphorus"},
    {"K2O", "potassium"},
    {"K", "potassium"},
    {"NH4N", "ammonium|ammonia|NH3"},
    {"price", "cost|dollars"},
    {"yield", "bushels"},
    {"most", "rate|spread rate|application rate"},
    {"road", "speed"},
    {"spreading", "speed"},
};

/* Is text among what is said, capitals and - or _ between words aside? */
static bool is_said(ls_arena *a, const char *said, const char *text) {
    char *plain = ls_arena_copy(a, text);
    for (char *s = plain; *s != '\0'; s++)
        if (*s == '_' || *s == '-') *s = ' ';
    return ls_text_among(said, plain) || ls_text_among(said, text);
}

/* Words that mean the one given; or that begin with it, or hold it, or that it holds: `"corn grain"
 * or "corn silage"`; NULL if there is none. */
static const char *other_words(ls_arena *a, const char *word, const char *const *words, size_t n, bool meaning) {
    ls_text *text = ls_text_new(a);
    for (size_t i = 0; i < n; i++) {
        bool is = !meaning && ((strlen(word) > 2 && begins_n(words[i], word, strlen(word))) || holds(words[i], word) ||
                               holds(word, words[i]));
        for (size_t k = 0; meaning && k < sizeof meanings / sizeof *meanings && !is; k++)
            is = strcmp(meanings[k].word, words[i]) == 0 && is_said(a, meanings[k].said, word);
        if (is) ls_text_addf(text, "%s\"%s\"", text->n > 0 ? " or " : "", words[i]);
    }
    return text->n > 0 ? text->s : NULL;
}

int ls_farm_one_meant(ls_arena *a, const char *said, const char *const *words) {
    int is = 0, n = 0;
    for (int i = 0; words[i]; i++)
        if (other_words(a, said, &words[i], 1, true)) is = i + 1, n++;
    return n == 1 ? is : 0;
}

const char *ls_farm_suggest(ls_arena *a, const char *word, const char *const *words, size_t n, const char *lead) {
    const char *nearest = ls_text_nearest(word, words, n), *other = NULL;
    for (size_t i = 0; nearest != NULL && i < n; i++) /* "wood shavings" is a kind of shavings, no other kind of them */
        if (ls_text_ends(word, ls_arena_printf(a, " %s", words[i]))) nearest = words[i];
    if (nearest) return ls_arena_printf(a, "did you mean \"%s\"?", nearest);
    for (int meaning = 1; !other && meaning >= 0; meaning--) other = other_words(a, word, words, n, meaning);
    if (other) return ls_arena_printf(a, "did you mean %s?", other);
    if (!lead) return NULL;
    return n == 0 ? "there is none yet" : ls_arena_printf(a, "%s: %s", lead, ls_farm_joined(a, words, n));
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
