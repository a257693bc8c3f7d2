/* The log on the disk: read, and appended to a whole line at a time. */
#include "lock.h"
#include "row.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <unistd.h>

struct ls_log_book {
    ls_arena *arena;
    ls_log log;
    const char *bytes; /* of the file as it was read */
    size_t whole;      /* bytes of its whole lines */
    int fd;
    bool made, headed, written;
};

static bool ends_with(const char *s, const char *end) {
    size_t n = strlen(s), m = strlen(end);
    return n > m && strcmp(s + n - m, end) == 0;
}

const char *ls_log_path(ls_arena *a, const char *farm_file) {
    size_t n = strlen(farm_file);
    if (ends_with(farm_file, ".yaml"))
        n -= strlen(".yaml");
    else if (ends_with(farm_file, ".yml"))
        n -= strlen(".yml");
    return ls_arena_printf(a, "%.*s.haul.csv", (int)n, farm_file);
}

bool ls_log_is_one(ls_arena *a, const char *path) {
    const char *header = ls_record_header(a);
    size_t n = strcspn(header, ",\r\n") + 1;
    char begin[64] = {0};
    FILE *file = fopen(path, "rb");
    if (file == NULL)
        return false;
    size_t got = fread(begin, 1, sizeof begin - 1, file);
    fclose(file);
    const char *mark = "\xEF\xBB\xBF", *at = strncmp(begin, mark, 3) == 0 ? begin + 3 : begin;
    const char *second = header + n;
    size_t both = n + strcspn(second, ",\r\n");
    return got >= both && strncmp(at, header, both) == 0;
}

const char *ls_log_torn_path(ls_arena *a, const char *log) {
    return ls_arena_printf(a, "%s.torn", log);
}

/* ---- reading ---- */

/* Read the open file into a book. False: *why tells, or NULL there and the mistakes are noted. */
static bool read_book(ls_log_book *b, ls_diag *d, const char **why) {
    *why = NULL;
    size_t before = ls_diag_count(d, LS_ERROR);
    int32_t file = ls_record_input(b->arena, d, b->fd, b->log.path, why);
    if (file < 0)
        return false;
    b->whole = ls_record_read_all(b->arena, d, file, &b->log, &b->headed);
    b->bytes = ls_diag_input_at(d, file)->text;
    b->log.unfinished = ls_diag_input_at(d, file)->size - b->whole;
    return ls_diag_count(d, LS_ERROR) == before;
}

static const ls_log *unreadable(ls_arena *a, ls_diag *d, const char *path, const char *why) {
    int32_t file = ls_diag_input(d, (ls_input){ls_arena_copy(a, path), "", 0});
    ls_diag_add(d, LS_ERROR, (ls_place){file, 0, 0, 0}, NULL, "%s", why);
    return NULL;
}

static void warn_of_unfinished(ls_diag *d, const ls_log *log) {
    int32_t file = ls_diag_input(d, (ls_input){log->path, "", 0});
    ls_diag_add(d, LS_WARNING, (ls_place){file, 0, 0, 0},
                "the next littershed record moves it out of the way; if its load is missing then, "
                "record it again",
                "the last line is not finished and does not count");
}

const ls_log *ls_log_read(ls_arena *a, ls_diag *d, const char *path) {
    ls_log_book *b = LS_NEW(a, ls_log_book, 1);
    const char *why;
    *b = (ls_log_book){.arena = a, .log = {.path = ls_arena_copy(a, path)}};
    b->fd = ls_record_lock(path, LS_RECORD_TO_READ, &b->made, &why);
    if (b->fd < 0)
        return why == NULL ? &b->log : unreadable(a, d, path, why);
    bool sound = read_book(b, d, &why);
    close(b->fd);
    if (why != NULL)
        return unreadable(a, d, path, why);
    if (b->log.unfinished > 0 && sound)
        warn_of_unfinished(d, &b->log);
    return sound ? &b->log : NULL;
}

/* ---- writing ---- */

ls_log_status ls_log_open(ls_arena *a, ls_diag *d, const char *path, ls_log_book **out,
                          const char **why) {
    ls_log_book *b = LS_NEW(a, ls_log_book, 1);
    *b = (ls_log_book){.arena = a, .log = {.path = ls_arena_copy(a, path)}};
    b->fd = ls_record_lock(path, LS_RECORD_TO_WRITE, &b->made, why);
    if (b->fd < 0)
        return LS_LOG_FAILED;
    if (read_book(b, d, why)) {
        *out = b;
        return LS_LOG_DONE;
    }
    ls_log_close(b);
    return *why != NULL ? LS_LOG_FAILED : LS_LOG_MISTAKE;
}

const ls_log *ls_log_of(const ls_log_book *b) {
    return &b->log;
}

void ls_log_close(ls_log_book *b) {
    if (b->made && !b->written && b->whole + b->log.unfinished == 0)
        unlink(b->log.path); /* still locked, so nobody else has written to it */
    close(b->fd);
}

/* Add the unfinished line to PATH.torn, safely on the disk. False: errno tells. */
static bool keep_unfinished(ls_log_book *b) {
    const char *path = ls_log_torn_path(b->arena, b->log.path);
    int fd = open(path, O_WRONLY | O_APPEND | O_CREAT | O_CLOEXEC | O_NONBLOCK, 0666);
    if (fd < 0)
        return false;
    bool done = ls_file_write_all(fd, b->bytes + b->whole, b->log.unfinished) &&
                ls_file_write_all(fd, "\r\n", 2) && fsync(fd) == 0;
    int error = errno;
    close(fd);
    errno = error;
    if (done)
        ls_record_sync_folder(b->arena, path);
    return done;
}

static bool cut_to_whole_lines(ls_log_book *b) {
    return ftruncate(b->fd, (off_t)b->whole) == 0 && fsync(b->fd) == 0;
}

/* The line in one write, and on the disk. False: errno tells, and the log is as it was. */
static bool write_line(ls_log_book *b, const char *line) {
    size_t n = strlen(line);
    ssize_t done;
    do
        done = write(b->fd, line, n);
    while (done < 0 && errno == EINTR);
    if (done == (ssize_t)n && fsync(b->fd) == 0)
        return true;
    int error = done >= 0 && (size_t)done < n ? ENOSPC : errno; /* a part only: no room for more */
    cut_to_whole_lines(b); /* if that fails too, the next record finds an unfinished line */
    errno = error;
    return false;
}

static const char *no_room(const ls_log_book *b, size_t more) {
    if (b->log.entries.n < LS_MOST_ENTRIES && b->whole + more <= LS_MOST_BYTES)
        return NULL;
    return "it is full (100,000 entries or 16 MiB); begin a new farm file for the next cleanout";
}

static void check_words(ls_arena *a, const ls_log_entry *e) {
    for (int i = 0; i < LS_LOG_WORDS; i++)
        if (!ls_log_fits(a, e->words[i]))
            ls_fail("a text that does not fit came to the haul log");
}

ls_log_status ls_log_append(ls_log_book *b, const ls_log_entry *entry, long *number,
                            const char **why) {
    ls_log_entry e = *entry;
    check_words(b->arena, &e);
    *number = e.number = (long)b->log.entries.n + 1;
    const char *line = ls_arena_printf(
        b->arena, "%s%s", b->headed ? "" : ls_record_header(b->arena), ls_record_row(b->arena, &e));
    *why = no_room(b, strlen(line));
    if (*why != NULL)
        return LS_LOG_FAILED;
    bool done = b->log.unfinished == 0 || (keep_unfinished(b) && cut_to_whole_lines(b));
    if (!done || !write_line(b, line)) {
        *why = ls_record_reason(errno);
        return LS_LOG_FAILED;
    }
    b->written = true;
    if (!b->headed)
        ls_record_sync_folder(b->arena, b->log.path);
    return LS_LOG_DONE;
}
