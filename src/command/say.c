/* What goes wrong, said in one line. */
#include "run.h"

#include <stdarg.h>

int ls_run_say(ls_run *r, int code, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    const char *message = ls_arena_vprintf(r->arena, format, arguments);
    va_end(arguments);
    fprintf(r->err, "littershed: %s\n", ls_text_plain(r->arena, message));
    return code;
}
