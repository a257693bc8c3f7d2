/* Ticket numbers that show a slip of the pen. */
#include "plan.h"

/* ISO 7064 (2003), MOD 37,36: starting from 36, add each character's value (0-9, A = 10 ... Z = 35)
 * modulo 36 (0 counts as 36), double modulo 37; the check character brings the last sum to 1
 * modulo 36. */
char ls_haul_check_character(const char *s) {
    static const char alphabet[] = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ";
    int product = 36;
    for (; *s != '\0'; s++) {
        int value;
        if (*s >= '0' && *s <= '9')
            value = *s - '0';
        else if (*s >= 'A' && *s <= 'Z')
            value = *s - 'A' + 10; /* ASCII */
        else
            continue;
        int sum = (product + value) % 36;
        product = (sum == 0 ? 36 : sum) * 2 % 37;
    }
    return alphabet[(37 - product) % 36];
}

const char *ls_haul_ticket(ls_arena *a, const char *code, long number, bool from_stack) {
    const char *s = ls_arena_printf(a, "%s-%s%02ld", code, from_stack ? "S" : "", number);
    return ls_arena_printf(a, "%s-%c", s, ls_haul_check_character(s));
}
