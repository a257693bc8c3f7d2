/* Days with times, and ticket numbers. */
#include "littershed/record.h"

#include <string.h>

enum { MINUTES = 60 };

const char *ls_when_text(ls_arena *a, ls_when when) {
    const char *day = ls_date_iso(a, when.day);
    if (when.minute < 0) return day;
    return ls_arena_printf(a, "%sT%02d:%02d", day, when.minute / MINUTES, when.minute % MINUTES);
}

/* ---- ticket numbers ---- */

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
    if (strspn(text, capitals) != strlen(text) || check == NULL || strlen(check) != 2 ||
        strlen(text) > LS_MOST_CELL)
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
