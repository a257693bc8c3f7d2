#define _XOPEN_SOURCE 700 /* realpath */
#include "littershed/base/file.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* What the system says, in plainer words where it is a grower's doing. */
static const char *reason(int error) {
    switch (error) {
    case ENOENT:
        return "there is no such file or folder";
    case EACCES:
    case EPERM:
        return "permission denied";
    case EISDIR:
        return "this is a folder, not a file";
    case ENOSPC:
        return "the disk is full";
    default:
        return strerror(error);
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
        if (got < 0 && errno == EINTR)
            continue;
        if (got < 0)
            return false;
        if (got == 0)
            break;
        n += (size_t)got;
    }
    input->text = bytes;
    input->size = n;
    return true;
}

/* Open, read and close; NULL or what went wrong. */
static const char *read_path(ls_arena *a, const char *path, bool standard, ls_input *input) {
    struct stat about;
    const char *wrong = NULL;
    int fd = standard ? STDIN_FILENO : open(path, O_RDONLY | O_CLOEXEC);
    if (fd < 0)
        return reason(errno);
    if (fstat(fd, &about) != 0)
        wrong = reason(errno);
    else if (S_ISDIR(about.st_mode))
        wrong = reason(EISDIR);
    else if (S_ISREG(about.st_mode) && about.st_size > LS_MOST_BYTES)
        wrong = "";
    else if (!read_all(a, fd, S_ISREG(about.st_mode) ? (size_t)about.st_size : 65536, input))
        wrong = reason(errno);
    if (!standard)
        close(fd);
    if (wrong == NULL && input->size <= LS_MOST_BYTES)
        return NULL;
    return wrong != NULL && wrong[0] != '\0'
               ? wrong
               : "this file is larger than 16 MiB, the most that is read";
}

int32_t ls_file_read(ls_arena *a, ls_diag *d, const char *path) {
    bool standard = strcmp(path, "-") == 0;
    ls_input input = {standard ? "standard input" : ls_arena_copy(a, path), "", 0};
    const char *wrong = read_path(a, path, standard, &input);
    if (wrong != NULL) {
        input.text = "";
        input.size = 0;
    }
    int32_t number = ls_diag_input(d, input);
    if (wrong == NULL)
        return number;
    ls_diag_add(d, LS_ERROR, (ls_place){number, 0, 0, 0}, NULL, "%s", wrong);
    return -1;
}

bool ls_file_write_all(int fd, const char *bytes, size_t n) {
    while (n > 0) {
        ssize_t done = write(fd, bytes, n);
        if (done < 0 && errno == EINTR)
            continue;
        if (done < 0)
            return false;
        bytes += done;
        n -= (size_t)done;
    }
    return true;
}

/* A terminal, pipe or device cannot be replaced: written straight to. */
static bool write_through(const char *path, const char *bytes, size_t n) {
    int fd = open(path, O_WRONLY | O_CLOEXEC);
    if (fd < 0)
        return false;
    bool done = ls_file_write_all(fd, bytes, n);
    int error = errno;
    bool closed = close(fd) == 0;
    if (!done)
        errno = error;
    return done && closed;
}

/* A new file in the same folder; its name in *name. -1: errno tells. */
static int create_beside(ls_arena *a, const char *folder, const char **name) {
    enum { TRIES = 100 };
    int fd = -1;
    for (int i = 0; i < TRIES && fd < 0; i++) {
        *name = ls_arena_printf(a, "%s/.littershed-%ld-%d", folder, (long)getpid(), i);
        fd = open(*name, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0644);
        if (fd < 0 && errno != EEXIST)
            return -1;
    }
    return fd;
}

/* A name is safe on the disk once its folder is; some file systems cannot sync a folder, which is
 * no failure. */
static void sync_folder(const char *folder) {
    int fd = open(folder, O_RDONLY | O_CLOEXEC);
    if (fd < 0)
        return;
    fsync(fd);
    close(fd);
}

/* Fill a new file under name and give it its final path. */
static bool fill_and_rename(int fd, const char *name, const char *path, const char *bytes,
                            size_t n) {
    bool done = ls_file_write_all(fd, bytes, n) && fsync(fd) == 0;
    int error = errno;
    if (close(fd) != 0 && done) {
        done = false;
        error = errno;
    }
    if (!done)
        errno = error;
    return done && rename(name, path) == 0;
}

/* mode: of the file that is replaced; NULL if there is none. */
static bool replace(ls_arena *a, const char *path, const mode_t *mode, const char *bytes,
                    size_t n) {
    const char *slash = strrchr(path, '/'), *name = NULL, *folder = ".";
    if (slash != NULL)
        folder = slash == path ? "/" : ls_arena_copy_n(a, path, (size_t)(slash - path));
    int fd = create_beside(a, folder, &name);
    if (fd < 0)
        return false;
    if (mode != NULL)
        (void)!fchmod(fd, *mode); /* where a file system has no modes the file still counts */
    bool done = fill_and_rename(fd, name, path, bytes, n);
    int error = errno;
    if (done)
        sync_folder(folder);
    else
        unlink(name);
    errno = error;
    return done;
}

/* An interrupt waits until the temporary file is gone. */
static bool replace_undisturbed(ls_arena *a, const char *path, const mode_t *mode,
                                const char *bytes, size_t n) {
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

/* The file a chain of symbolic links ends at, so that the link itself stays. */
static const char *resolved(ls_arena *a, const char *path) {
    char *real = realpath(path, NULL);
    if (real == NULL)
        return path;
    const char *copy = ls_arena_copy(a, real);
    free(real);
    return copy;
}

static bool write_path(ls_arena *a, const char *path, const char *bytes, size_t n) {
    struct stat old;
    if (stat(path, &old) != 0)
        return replace_undisturbed(a, path, NULL, bytes, n);
    if (S_ISDIR(old.st_mode)) {
        errno = EISDIR;
        return false;
    }
    if (!S_ISREG(old.st_mode))
        return write_through(path, bytes, n);
    mode_t mode = old.st_mode & 07777;
    return replace_undisturbed(a, resolved(a, path), &mode, bytes, n);
}

bool ls_file_write(ls_arena *a, const char *path, const char *bytes, size_t n, const char **why) {
    if (write_path(a, path, bytes, n))
        return true;
    *why = ls_arena_copy(a, reason(errno));
    return false;
}
