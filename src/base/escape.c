/* Text from files made safe for the place where it is shown. */
#include "littershed/base/text.h"

#include "utf8.h"

#include <string.h>

/* Add s with every unsafe character made visible, but not those in keep. */
static void add_visible(ls_text *t, const char *s, const char *keep) {
    char shown[LS_UTF8_VISIBLE];
    for (size_t n = strlen(s), plain; n > 0;) {
        plain = ls_utf8_plain(s);
        ls_text_add_n(t, s, plain);
        s += plain;
        if ((n -= plain) == 0) break;
        ls_utf8_character c = ls_utf8_at(s, n);
        if (c.code < 0x80 && strchr(keep, (int)c.code) != NULL) {
            ls_text_add_n(t, s, c.bytes);
        } else {
            ls_utf8_visible(s, c, shown);
            ls_text_add(t, shown);
        }
        s += c.bytes;
        n -= c.bytes;
    }
}

const char *ls_text_plain(ls_arena *a, const char *s) {
    ls_text *t = ls_text_new(a);
    add_visible(t, s, "");
    return t->s;
}

static const char *html_name(char c) {
    switch (c) {
    case '&': return "&amp;";
    case '<': return "&lt;";
    case '>': return "&gt;";
    case '"': return "&quot;";
    case '\'': return "&#39;";
    default: return NULL;
    }
}

const char *ls_text_html(ls_arena *a, const char *s) {
    ls_text *visible = ls_text_new(a), *t = ls_text_new(a);
    add_visible(visible, s, "\t\n");
    for (size_t i = 0; i < visible->n; i++) {
        const char *name = html_name(visible->s[i]);
        if (name != NULL)
            ls_text_add(t, name);
        else
            ls_text_add_n(t, &visible->s[i], 1);
    }
    return t->s;
}

/* Spreadsheets run a cell that begins so, some after dropping blanks; wide forms count as well. */
static bool runs_as_formula(const char *s) {
    static const char *const starts[] = {"=", "+", "-", "@", "\uFF1D", "\uFF0B", "\uFF0D", "\uFF20"};
    s += strspn(s, " \t\n\r");
    for (size_t i = 0; i < sizeof starts / sizeof *starts; i++)
        if (strncmp(s, starts[i], strlen(starts[i])) == 0) return true;
    return false;
}

const char *ls_text_csv(ls_arena *a, const char *s) {
    ls_text *cell = ls_text_new(a), *t = ls_text_new(a);
    if (runs_as_formula(s)) ls_text_add(cell, "'");
    add_visible(cell, s, "\t\n");
    bool blank_end = cell->n > 0 && (cell->s[0] == ' ' || cell->s[cell->n - 1] == ' ');
    if (!blank_end && strpbrk(cell->s, ",\"\t\n") == NULL) return cell->s;
    ls_text_add(t, "\"");
    for (size_t i = 0; i < cell->n; i++)
        ls_text_add_n(t, cell->s[i] == '"' ? "\"\"" : &cell->s[i], cell->s[i] == '"' ? 2 : 1);
    ls_text_add(t, "\"");
    return t->s;
}
