/* The haul log opened, added to, and what may have become of it on the way told. */
#include "haul_entry.h"

#include <time.h>

bool ls_haul_now(ls_when *out) {
    time_t now = time(NULL);
    struct tm parts;
    if (now == (time_t)-1 || localtime_r(&now, &parts) == NULL) return false;
    out->day = ls_date_of(parts.tm_year + 1900, parts.tm_mon + 1, parts.tm_mday);
    out->minute = parts.tm_hour * 60 + parts.tm_min;
    return true;
}

static int failed(ls_run *r, const char *path, const char *why) {
    return ls_run_say(r, LS_SYSTEM, "nothing was recorded: cannot write %s: %s", path, why);
}

int ls_haul_open(ls_run *r, const char *path, ls_log_book **out) {
    const char *why;
    switch (ls_log_open(r->arena, r->books.diag, path, out, &why)) {
    case LS_LOG_FAILED: return failed(r, path, why);
    case LS_LOG_MISTAKE: return ls_run_mistake(r);
    case LS_LOG_DONE: break;
    }
    return LS_DONE;
}

int ls_haul_append(ls_run *r, ls_log_book *book, const ls_log_entry *entries, size_t n, long *number) {
    const ls_log *log = ls_log_of(book);
    const char *why;
    if (ls_log_append(book, entries, n, number, &why) != LS_LOG_DONE) return failed(r, log->path, why);
    if (ls_log_copy_fault(book) != NULL)
        TELL(r, "it is recorded in %s, but its copy %s could not be written: %s", log->path,
             ls_log_copy_path(r->arena, log->path), ls_log_copy_fault(book));
    if (log->unfinished > 0)
        TELL(r,
             "the end of %s was not finished (its writing was cut off); it is moved to %s: look "
             "there, and what is not in the log, record or hand out again",
             log->path, ls_log_torn_path(r->arena, log->path));
    return LS_DONE;
}
