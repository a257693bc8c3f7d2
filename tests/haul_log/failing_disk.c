/* A disk that fails: preloaded into a run of the program, it makes one call of one kind fail, or
 * ends the run there. CALL is "open", "write", "short", "fsync" or "ftruncate", NTH which call of
 * that kind on a file whose name holds FILE_PART fails; with KILL set the run is killed instead (a
 * short write is written first). */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static int is_part(const char *path) {
    const char *part = getenv("FILE_PART");
    return part != NULL && strstr(path, part) != NULL;
}

static int is_file(int fd) {
    char link[64], path[4096];
    snprintf(link, sizeof link, "/proc/self/fd/%d", fd);
    ssize_t n = readlink(link, path, sizeof path - 1);
    if (n < 0) return 0;
    path[n] = '\0';
    return is_part(path);
}

static int fails(const char *call, int here, int *seen) {
    const char *wanted = getenv("CALL"), *nth = getenv("NTH");
    if (wanted == NULL || nth == NULL || strcmp(wanted, call) != 0 || !here || ++*seen != atoi(nth)) return 0;
    if (getenv("KILL") != NULL && strcmp(call, "short") != 0) raise(SIGKILL);
    return 1;
}

static int opened(const char *name, const char *path, int flags, mode_t mode) {
    static int seen;
    int (*real)(const char *, int, ...);
    *(void **)&real = dlsym(RTLD_NEXT, name);
    if (fails("open", is_part(path), &seen)) {
        errno = EMFILE;
        return -1;
    }
    return real(path, flags, mode);
}

static mode_t mode_of(int flags, va_list more) { return (flags & O_CREAT) != 0 ? va_arg(more, mode_t) : 0; }

int open(const char *path, int flags, ...) {
    va_list more;
    va_start(more, flags);
    mode_t mode = mode_of(flags, more);
    va_end(more);
    return opened("open", path, flags, mode);
}

int open64(const char *path, int flags, ...) {
    va_list more;
    va_start(more, flags);
    mode_t mode = mode_of(flags, more);
    va_end(more);
    return opened("open64", path, flags, mode);
}

ssize_t write(int fd, const void *bytes, size_t n) {
    static int seen, seen_short;
    ssize_t (*real)(int, const void *, size_t);
    *(void **)&real = dlsym(RTLD_NEXT, "write");
    if (fails("write", is_file(fd), &seen)) {
        errno = ENOSPC;
        return -1;
    }
    if (!fails("short", is_file(fd), &seen_short)) return real(fd, bytes, n);
    ssize_t done = real(fd, bytes, n / 2);
    if (getenv("KILL") != NULL) raise(SIGKILL);
    return done;
}

int fsync(int fd) {
    static int seen;
    int (*real)(int);
    *(void **)&real = dlsym(RTLD_NEXT, "fsync");
    if (fails("fsync", is_file(fd), &seen)) {
        errno = EIO;
        return -1;
    }
    return real(fd);
}

int ftruncate(int fd, off_t length) {
    static int seen;
    int (*real)(int, off_t);
    *(void **)&real = dlsym(RTLD_NEXT, "ftruncate");
    if (fails("ftruncate", is_file(fd), &seen)) {
        errno = EIO;
        return -1;
    }
    return real(fd, length);
}
