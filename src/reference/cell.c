#include "reference/cell.h"

#include "reference/parts.h"
#include "reference/tables.h"

#include <math.h>
#include <stdarg.h>
#include <string.h>

static const char *const status_keys[] = {"read", "read2", "derived", "memory", "practice"};
static const char *const origin_keys[] = {"source", "status", "note", "why"};

void ls_reference_refuse(ls_reference_reader *r, const ls_node *at, const char *hint, const char *format, ...) {
    ls_text *t = ls_text_new(r->arena);
    va_list arguments, again;
    va_start(arguments, format);
    va_copy(again, arguments);
    int n = vsnprintf(NULL, 0, format, arguments);
    if (n < 0)
        ls_fail("a message could not be made");
    char *bytes = LS_NEW(r->arena, char, (size_t)n + 1);
    vsnprintf(bytes, (size_t)n + 1, format, again);
    va_end(again);
    va_end(arguments);
    ls_text_add(t, bytes);
    ls_diag_add(r->diag, LS_ERROR, at->at, hint, "%s", t->s);
}
