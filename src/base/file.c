#define _XOPEN_SOURCE 700 /* realpath */
#include "littershed/base/file.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* What the system says, in plainer words where it is a grower's doing. */
static const char *reason(int error) {
    switch (error) {
    case ENOENT: return "there is no such file or folder";
    case EACCES:
    case EPERM: return "permission denied";
    case EISDIR: return "this is a folder, not a file";
    case ENOSPC: return "the disk is full";
    default: return strerror(error);
    }
}

/* Read to the end, but no more than one byte past the limit. False: errno tells. */
static bool read_all(ls_arena *a, int fd, size_t expected, ls_input *input) {
    size_t cap = expected < LS_MOST_BYTES ? expected + 1 : LS_MOST_BYTES + 1;
    char *bytes = LS_NEW(a, char, cap + 1);
    size_t n = 0;
    while (n <= LS_MOST_BYTES) {
        if (n == cap) {
            size_t more = cap < LS_MOST_BYTES / 2 ? cap * 2 : LS_MOST_BYTES + 1;
            char *bigger = LS_NEW(a, char, more + 1);
            memcpy(bigger, bytes, n);
            bytes = bigger;
            cap = more;
        }
        ssize_t got = read(fd, bytes + n, cap - n);
        if (got < 0 && errno == EINTR) continue;
        if (got < 0) return false;
        if (got == 0) break;
        n += (size_t)got;
    }
    input->text = bytes;
    input->size = n;
    return true;
}

typedef enum { FROM_STANDARD_INPUT, FROM_ANY_FILE, FROM_PLAIN_FILE } origin;

const char *ls_file_read_open(ls_arena *a, int fd, bool plain, ls_input *input) {
    struct stat about;
    if (fstat(fd, &about) != 0) return reason(errno);
    if (S_ISDIR(about.st_mode)) return reason(EISDIR);
    bool regular = S_ISREG(about.st_mode);
    if (plain && !regular) return "this is not a plain file";
    bool small = !regular || about.st_size <= LS_MOST_BYTES;
    if (small && !read_all(a, fd, regular ? (size_t)about.st_size : 65536, input)) return reason(errno);
    return small && input->size <= LS_MOST_BYTES ? NULL : "this file is larger than 16 MiB, the most that is read";
}

/* Open, read and close; NULL or what went wrong. */
static const char *read_path(ls_arena *a, const char *path, origin from, ls_input *input) {
    bool standard = from == FROM_STANDARD_INPUT, plain = from == FROM_PLAIN_FILE;
    int flags = O_RDONLY | O_CLOEXEC | (plain ? O_NONBLOCK | O_NOCTTY : 0);
    int fd = standard ? STDIN_FILENO : open(path, flags);
    if (fd < 0) return reason(errno);
    const char *wrong = ls_file_read_open(a, fd, plain, input);
    if (!standard) close(fd);
    return wrong;
}

static int32_t read_from(ls_arena *a, ls_diag *d, const char *path, origin from) {
    bool standard = from == FROM_STANDARD_INPUT;
    ls_input input = {standard ? LS_STANDARD_INPUT : ls_arena_copy(a, path), "", 0};
    const char *wrong = read_path(a, path, from, &input);
    if (wrong != NULL) {
        input.text = "";
        input.size = 0;
    }
    int32_t number = ls_diag_input(d, input);
    if (wrong == NULL) return number;
    ls_diag_add(d, LS_ERROR, LS_WHOLE_FILE(number), NULL, "%s", wrong);
    return -1;
}

int32_t ls_file_read(ls_arena *a, ls_diag *d, const char *path) {
    return read_from(a, d, path, strcmp(path, "-") == 0 ? FROM_STANDARD_INPUT : FROM_ANY_FILE);
}

int32_t ls_file_read_plain(ls_arena *a, ls_diag *d, const char *path) { return read_from(a, d, path, FROM_PLAIN_FILE); }

bool ls_file_write_all(int fd, const char *bytes, size_t n) {
    while (n > 0) {
        ssize_t done = write(fd, bytes, n);
        if (done < 0 && errno == EINTR) continue;
        if (done < 0) return false;
        bytes += done;
        n -= (size_t)done;
    }
    return true;
}

/* ---- where a name leads ---- */

static const char *folder_of(ls_arena *a, const char *path) {
    const char *slash = strrchr(path, '/');
    if (slash == NULL) return ".";
    return slash == path ? "/" : ls_arena_copy_n(a, path, (size_t)(slash - path));
}

/* The real path of what is there; NULL: errno tells. */
static const char *real_path(ls_arena *a, const char *path) {
    char *real = realpath(path, NULL);
    if (real == NULL) return NULL;
    const char *copy = ls_arena_copy(a, real);
    free(real);
    return copy;
}

/* What the symbolic link at path says, from the link's folder; NULL: it is none. */
static const char *link_at(ls_arena *a, const char *path) {
    char to[PATH_MAX];
    ssize_t n = readlink(path, to, sizeof to);
    if (n <= 0 || (size_t)n == sizeof to) return NULL;
    return to[0] == '/' ? ls_arena_copy_n(a, to, (size_t)n)
                        : ls_arena_printf(a, "%s/%.*s", folder_of(a, path), (int)n, to);
}

const char *ls_file_target(ls_arena *a, const char *path) {
    enum { MOST_LINKS = 40 };
    const char *real = real_path(a, path), *next;
    for (int i = 0; real == NULL && i < MOST_LINKS && (next = link_at(a, path)) != NULL; i++) path = next;
    if (real != NULL) return real;
    const char *slash = strrchr(path, '/'), *name = slash == NULL ? path : slash + 1;
    const char *folder = real_path(a, folder_of(a, path));
    if (folder == NULL) return NULL;
    if (name[0] == '\0') {
        errno = ENOTDIR;
        return NULL;
    }
    return ls_arena_printf(a, "%s/%s", strcmp(folder, "/") == 0 ? "" : folder, name);
}

const char *ls_file_unwritable(ls_arena *a, const char *path) {
    struct stat old;
    bool there = stat(path, &old) == 0;
    if (!there && errno != ENOENT) return reason(errno);
    if (there && S_ISDIR(old.st_mode)) return reason(EISDIR);
    if (there && access(path, W_OK) != 0) return reason(errno);
    if (there && !S_ISREG(old.st_mode)) return NULL;
    const char *target = ls_file_target(a, path);
    if (target == NULL) return errno == ENOENT ? "there is no such folder" : reason(errno);
    return access(folder_of(a, target), W_OK | X_OK) == 0 ? NULL : reason(errno);
}

/* ---- writing ---- */

/* A terminal, pipe or device cannot be replaced: written straight to. */
static bool write_through(const char *path, const char *bytes, size_t n) {
    int fd = open(path, O_WRONLY | O_CLOEXEC);
    if (fd < 0) return false;
    bool done = ls_file_write_all(fd, bytes, n);
    int error = errno;
    bool closed = close(fd) == 0;
    if (!done) errno = error;
    return done && closed;
}

/* A new file in the same folder; its name in *name. -1: errno tells. */
static int create_beside(ls_arena *a, const char *folder, const char **name) {
    enum { TRIES = 100 };
    int fd = -1;
    for (int i = 0; i < TRIES && fd < 0; i++) {
        *name = ls_arena_printf(a, "%s/.littershed-%ld-%d", folder, (long)getpid(), i);
        fd = open(*name, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0644);
        if (fd < 0 && errno != EEXIST) return -1;
    }
    return fd;
}

void ls_file_sync_folder(ls_arena *a, const char *path) {
    int fd = open(folder_of(a, path), O_RDONLY | O_CLOEXEC);
    if (fd < 0) return;
    fsync(fd);
    close(fd);
}

/* Fill a new file under name and give it its final path. */
static bool fill_and_rename(int fd, const char *name, const char *path, const char *bytes, size_t n) {
    bool done = ls_file_write_all(fd, bytes, n) && fsync(fd) == 0;
    int error = errno;
    if (close(fd) != 0 && done) {
        done = false;
        error = errno;
    }
    if (!done) errno = error;
    return done && rename(name, path) == 0;
}

/* mode: of the file that is replaced; NULL if there is none. */
static bool replace(ls_arena *a, const char *path, const mode_t *mode, const char *bytes, size_t n) {
    const char *name = NULL;
    int fd = create_beside(a, folder_of(a, path), &name);
    if (fd < 0) return false;
    if (mode != NULL) (void)!fchmod(fd, *mode); /* where a file system has no modes the file still counts */
    bool done = fill_and_rename(fd, name, path, bytes, n);
    int error = errno;
    if (done)
        ls_file_sync_folder(a, path);
    else
        unlink(name);
    errno = error;
    return done;
}

/* An interrupt waits until the temporary file is gone. */
static bool replace_undisturbed(ls_arena *a, const char *path, const mode_t *mode, const char *bytes, size_t n) {
    sigset_t held, before;
    sigemptyset(&held);
    sigaddset(&held, SIGHUP);
    sigaddset(&held, SIGINT);
    sigaddset(&held, SIGTERM);
    sigprocmask(SIG_BLOCK, &held, &before);
    bool done = replace(a, path, mode, bytes, n);
    int error = errno;
    sigprocmask(SIG_SETMASK, &before, NULL);
    errno = error;
    return done;
}

static bool write_path(ls_arena *a, const char *path, const char *bytes, size_t n) {
    struct stat old;
    bool there = stat(path, &old) == 0;
    if (!there && errno != ENOENT) return false;
    if (there && S_ISDIR(old.st_mode)) {
        errno = EISDIR;
        return false;
    }
    if (there && !S_ISREG(old.st_mode)) return write_through(path, bytes, n);
    mode_t mode = there ? old.st_mode & 07777 : 0;
    const char *target = ls_file_target(a, path);
    return target != NULL && replace_undisturbed(a, target, there ? &mode : NULL, bytes, n);
}

bool ls_file_write(ls_arena *a, const char *path, const char *bytes, size_t n, const char **why) {
    if (write_path(a, path, bytes, n)) return true;
    *why = ls_arena_copy(a, reason(errno));
    return false;
}
