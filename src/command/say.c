/* What goes wrong, said in one line. */
#include "run.h"

#include <stdarg.h>

int ls_run_say(ls_run *r, int code, const char *format, ...) {
    char message[2000];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(message, sizeof message, format, arguments);
    va_end(arguments);
    fprintf(r->err, "littershed: %s\n", ls_text_plain(r->arena, message));
    return code;
}
