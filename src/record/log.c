/* The log on the disk: read, and appended to a whole line at a time. */
#include "row.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <strings.h>
#include <unistd.h>

/* The log, or its copy. */
typedef struct {
    ls_log log;
    const char *bytes; /* as it was read */
    ls_record_shape shape;
} file;

struct ls_log_book {
    ls_arena *arena;
    file log, copy;
    int fd; /* of the log */
    bool made, written;
    const char *copy_fault;
};

const char *ls_log_path(ls_arena *a, const char *farm_file) {
    size_t n = strlen(farm_file), yaml = strlen(".yaml"), yml = strlen(".yml");
    if (n > yaml && ls_text_ends(farm_file, ".yaml"))
        n -= yaml;
    else if (n > yml && ls_text_ends(farm_file, ".yml"))
        n -= yml;
    return ls_arena_printf(a, "%.*s.haul.csv", (int)n, farm_file);
}

bool ls_log_is_one(ls_arena *a, const char *path) {
    char begin[64] = {0}, *to = begin;
    const char *header = ls_record_header(a, ',');
    size_t n = strcspn(header, ",") + 1;
    FILE *in = fopen(path, "rb");
    if (in == NULL) return false;
    begin[fread(begin, 1, sizeof begin - 1, in)] = '\0';
    fclose(in);
    for (const char *from = begin; *from != '\0'; from++) /* as it stands without marks */
        if (strchr("\"\xEF\xBB\xBF", *from) == NULL) *to++ = *from == ';' || *from == '\t' ? ',' : *from;
    *to = '\0';
    return strncasecmp(begin, header, n + strcspn(header + n, ",")) == 0;
}

const char *ls_log_torn_path(ls_arena *a, const char *log) { return ls_arena_printf(a, "%s.torn", log); }

const char *ls_log_copy_path(ls_arena *a, const char *log) { return ls_arena_printf(a, "%s.copy", log); }

/* ---- reading ---- */

/* Read the open file. False: *why tells, or NULL there and the mistakes are noted. */
static bool read_file(ls_arena *a, ls_diag *d, int fd, const ls_log *beside, file *f, const char **why) {
    size_t before = ls_diag_count(d, LS_ERROR);
    ls_input read = {f->log.path, "", 0};
    *why = ls_file_read_open(a, fd, false, &read);
    if (*why != NULL) return false;
    int32_t input = ls_diag_input(d, read);
    f->shape = ls_record_read_all(a, d, input, beside, &f->log);
    f->bytes = read.text;
    f->log.unfinished = read.size - f->shape.whole;
    return ls_diag_count(d, LS_ERROR) == before;
}

static void say_of_file(ls_diag *d, const char *path, ls_severity severity, const char *hint, const char *message) {
    int32_t input = ls_diag_input(d, (ls_input){path, "", 0});
    ls_diag_add(d, severity, (ls_place){input, 0, 0, 0}, hint, "%s", message);
}

/* The copy, if any; whoever holds the log holds it too. One that cannot be read is left alone. */
static void read_copy(ls_log_book *b, ls_diag *d) {
    file *f = &b->copy;
    const char *why = NULL, *hint = NULL;
    f->log.path = ls_log_copy_path(b->arena, b->log.log.path);
    f->shape.separator = ',';
    int fd = open(f->log.path, O_RDONLY | O_CLOEXEC | O_NONBLOCK);
    if (fd < 0 && errno == ENOENT) return;
    if (fd < 0)
        why = ls_record_reason(errno);
    else if (!read_file(b->arena, ls_diag_new(b->arena), fd, NULL, f, &why) && why == NULL) {
        why = "it is no haul log any more";
        hint = "move it away, and the next littershed record writes a new one";
    }
    if (fd >= 0) close(fd);
    if (why == NULL) return;
    f->log.entries.n = 0;
    b->copy_fault = why;
    say_of_file(d, f->log.path, LS_WARNING, hint,
                ls_arena_printf(b->arena, "the copy of the haul log cannot be read: %s", why));
}

/* Copy, then log (fd -1: it is not there), one against the other. */
static bool read_book(ls_log_book *b, ls_diag *d, ls_severity lost, const char **why) {
    ls_log *log = &b->log.log;
    *why = NULL;
    b->log.shape.separator = ',';
    read_copy(b, d);
    if (b->fd >= 0 && !read_file(b->arena, d, b->fd, &b->copy.log, &b->log, why)) {
        if (*why == NULL && b->copy.log.entries.n > 0)
            say_of_file(d, log->path, LS_WARNING, NULL,
                        ls_arena_printf(b->arena,
                                        "its %zu entries stand in %s as they were recorded: to "
                                        "bring them back, copy that file over it",
                                        b->copy.log.entries.n, b->copy.log.path));
        return false;
    }
    size_t before = ls_diag_count(d, LS_ERROR);
    ls_record_compare(b->arena, d, log, &b->copy.log, lost);
    return ls_diag_count(d, LS_ERROR) == before;
}

static ls_log_book *book_of(ls_arena *a, const char *path) {
    ls_log_book *b = LS_NEW(a, ls_log_book, 1);
    *b = (ls_log_book){.arena = a, .log.log.path = ls_arena_copy(a, path)};
    return b;
}

const ls_log *ls_log_read(ls_arena *a, ls_diag *d, const char *path) {
    ls_log_book *b = book_of(a, path);
    const char *why;
    b->fd = ls_record_lock(path, LS_RECORD_TO_READ, &b->made, &why);
    bool sound = why == NULL && read_book(b, d, LS_WARNING, &why);
    if (b->fd >= 0) close(b->fd);
    if (why != NULL) say_of_file(d, b->log.log.path, LS_ERROR, NULL, why);
    if (b->log.log.torn > 0 && sound)
        say_of_file(d, b->log.log.path, LS_WARNING,
                    "record their loads again, hand out their tickets and slips anew; the next "
                    "entry of this log moves them out of the way",
                    ls_arena_printf(a,
                                    "its last %zu entries do not count: the others that were "
                                    "written with them are cut off",
                                    b->log.log.torn));
    else if (b->log.log.unfinished > 0 && sound)
        say_of_file(d, b->log.log.path, LS_WARNING,
                    "if its load is not in the log, record it again; the next entry of this log "
                    "moves the line out of the way",
                    "the last line is not finished and does not count");
    return sound ? &b->log.log : NULL;
}

/* ---- writing ---- */

ls_log_status ls_log_open(ls_arena *a, ls_diag *d, const char *path, ls_log_book **out, const char **why) {
    ls_log_book *b = book_of(a, path);
    b->fd = ls_record_lock(path, LS_RECORD_TO_WRITE, &b->made, why);
    if (b->fd < 0) return LS_LOG_FAILED;
    if (read_book(b, d, LS_ERROR, why)) {
        *out = b;
        return LS_LOG_DONE;
    }
    ls_log_close(b);
    return *why != NULL ? LS_LOG_FAILED : LS_LOG_MISTAKE;
}

const ls_log *ls_log_of(const ls_log_book *b) { return &b->log.log; }

const char *ls_log_copy_fault(const ls_log_book *b) { return b->copy_fault; }

void ls_log_close(ls_log_book *b) {
    if (b->made && !b->written && b->log.shape.whole + b->log.log.unfinished == 0)
        unlink(b->log.log.path); /* still locked, so nobody else has written to it */
    close(b->fd);
}

/* Add the unfinished end to PATH.torn, safely on the disk. False: errno tells. */
static bool keep_unfinished(ls_log_book *b) {
    const file *f = &b->log;
    const char *path = ls_log_torn_path(b->arena, f->log.path);
    int fd = open(path, O_WRONLY | O_APPEND | O_CREAT | O_CLOEXEC | O_NONBLOCK, 0666);
    if (fd < 0) return false;
    bool done = ls_file_write_all(fd, f->bytes + f->shape.whole, f->log.unfinished) &&
                ls_file_write_all(fd, "\r\n", 2) && fsync(fd) == 0;
    int error = errno;
    close(fd);
    errno = error;
    if (done) ls_file_sync_folder(b->arena, path);
    return done;
}

static bool cut_to_whole_lines(int fd, const file *f) {
    return ftruncate(fd, (off_t)f->shape.whole) == 0 && fsync(fd) == 0;
}

/* The lines in one write, and on the disk. False: errno tells, and the file is as it was. */
static bool write_lines(int fd, const file *f, const char *lines) {
    size_t n = strlen(lines);
    ssize_t done;
    do done = write(fd, lines, n);
    while (done < 0 && errno == EINTR);
    if (done == (ssize_t)n && fsync(fd) == 0) return true;
    int error = done >= 0 && (size_t)done < n ? ENOSPC : errno; /* a part only: no room for more */
    cut_to_whole_lines(fd, f); /* if that fails too, the next record finds unfinished lines */
    errno = error;
    return false;
}

/* Entries as lines behind what the file holds: with a header row, unless the last one there is that
 * of this program and all below it is written as record does. */
static const char *lines_of(ls_arena *a, const file *f, const ls_log_entry *entries, size_t n) {
    ls_text *t = ls_text_new(a);
    char last = f->shape.headed ? f->bytes[f->shape.whole - 1] : '\n';
    ls_text_add(t, last == '\n' ? "" : last == '\r' ? "\n" : "\r\n");
    if (!f->shape.headed || !f->shape.ours) ls_text_add(t, ls_record_header(a, f->shape.separator));
    for (size_t i = 0; i < n; i++) ls_text_add(t, ls_record_row(a, f->shape.separator, &entries[i]));
    return t->s;
}

/* What the copy lacks of the log, to the copy. */
static void write_copy(ls_log_book *b) {
    file *f = &b->copy;
    const ls_log *log = &b->log.log;
    if (b->copy_fault != NULL) return;
    size_t has = f->log.entries.n;
    const char *lines = lines_of(b->arena, f, &log->entries.at[has], log->entries.n - has);
    bool first = !f->shape.headed;
    int fd = open(f->log.path, O_WRONLY | O_APPEND | O_CREAT | O_CLOEXEC | O_NONBLOCK, 0666);
    if (fd < 0 || (f->log.unfinished > 0 && !cut_to_whole_lines(fd, f)) || !write_lines(fd, f, lines))
        b->copy_fault = ls_record_reason(errno);
    if (fd >= 0) close(fd);
    if (first) ls_file_sync_folder(b->arena, f->log.path);
}

static const char *no_room(const ls_log_book *b, size_t entries, size_t bytes) {
    if (b->log.log.entries.n + entries <= LS_MOST_ENTRIES && b->log.shape.whole + bytes <= LS_MOST_BYTES) return NULL;
    return "it is full (100,000 entries or 16 MiB); begin a new farm file for the next cleanout";
}

/* The entry as the next but k of n; next: those before it, which it may replace. */
static ls_log_entry next_entry(const ls_log_book *b, const ls_log_entry *next, const ls_log_entry *entry, size_t k,
                               size_t n) {
    ls_log_entry e = *entry;
    for (int i = 0; i < LS_LOG_WORDS; i++)
        if (!ls_log_fits(b->arena, e.words[i])) ls_fail("a text that does not fit came to the haul log");
    e.number = (long)(b->log.log.entries.n + k) + 1;
    e.batch = n > 1 ? (long)k + 1 : 0;
    e.batch_n = n > 1 ? (long)n : 0;
    if (e.replaces > 0) e.kind = e.tons > 0 ? LS_LOG_CORRECTION : LS_LOG_STRIKE;
    if ((e.kind == LS_LOG_ISSUED && e.sure == LS_LOG_UNTOLD) || (e.kind == LS_LOG_PROMISED && e.loads < 1))
        ls_fail("a ticket or slip came to the haul log without what makes it one");
    const ls_log *log = &b->log.log;
    size_t at = (size_t)e.replaces - 1;
    const ls_log_entry *old = e.replaces == 0       ? NULL
                              : at < log->entries.n ? &log->entries.at[at]
                                                    : &next[at - log->entries.n];
    e.of = old != NULL ? old->of : e.kind;
    e.first = old != NULL ? old->first : e.number;
    return e;
}

ls_log_status ls_log_append(ls_log_book *b, const ls_log_entry *entries, size_t n, long *number, const char **why) {
    ls_log_entry *next = LS_NEW(b->arena, ls_log_entry, n);
    for (size_t k = 0; k < n; k++) next[k] = next_entry(b, next, &entries[k], k, n);
    *number = next[0].number;
    file *f = &b->log;
    const char *lines = lines_of(b->arena, f, next, n);
    *why = no_room(b, n, strlen(lines));
    if (*why != NULL) return LS_LOG_FAILED;
    bool done = f->log.unfinished == 0 || (keep_unfinished(b) && cut_to_whole_lines(b->fd, f));
    if (!done || !write_lines(b->fd, f, lines)) {
        *why = ls_record_reason(errno);
        return LS_LOG_FAILED;
    }
    b->written = true;
    if (!f->shape.headed) ls_file_sync_folder(b->arena, f->log.path);
    for (size_t k = 0; k < n; k++) {
        *LS_PUSH(b->arena, &f->log.entries) = next[k];
        if (next[k].replaces > 0) f->log.entries.at[next[k].replaces - 1].replaced_by = next[k].number;
    }
    write_copy(b);
    return LS_LOG_DONE;
}
