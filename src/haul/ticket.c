/* Ticket numbers that show a slip of the pen. */
#include "plan.h"

const char *ls_haul_ticket(ls_arena *a, const char *code, long number, bool from_stack) {
    const char *s = ls_arena_printf(a, "%s-%s%02ld", code, from_stack ? "S" : "", number);
    return ls_arena_printf(a, "%s-%c", s, ls_check_character(s));
}
