/* A disk that fails: preloaded into a run of the program, it makes one call of one kind fail. CALL
 * is "write", "short", "fsync" or "ftruncate", NTH which call of that kind on a file whose name
 * holds FILE_PART fails. */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static int is_file(int fd) {
    char link[64], path[4096];
    snprintf(link, sizeof link, "/proc/self/fd/%d", fd);
    ssize_t n = readlink(link, path, sizeof path - 1);
    const char *part = getenv("FILE_PART");
    if (n < 0 || part == NULL)
        return 0;
    path[n] = '\0';
    return strstr(path, part) != NULL;
}

static int fails(const char *call, int fd, int *seen) {
    const char *wanted = getenv("CALL"), *nth = getenv("NTH");
    if (wanted == NULL || nth == NULL || strcmp(wanted, call) != 0 || !is_file(fd))
        return 0;
    return ++*seen == atoi(nth);
}

ssize_t write(int fd, const void *bytes, size_t n) {
    static int seen, seen_short;
    ssize_t (*real)(int, const void *, size_t);
    *(void **)&real = dlsym(RTLD_NEXT, "write");
    if (fails("write", fd, &seen)) {
        errno = ENOSPC;
        return -1;
    }
    return real(fd, bytes, fails("short", fd, &seen_short) ? n / 2 : n);
}

int fsync(int fd) {
    static int seen;
    int (*real)(int);
    *(void **)&real = dlsym(RTLD_NEXT, "fsync");
    if (fails("fsync", fd, &seen)) {
        errno = EIO;
        return -1;
    }
    return real(fd);
}

int ftruncate(int fd, off_t length) {
    static int seen;
    int (*real)(int, off_t);
    *(void **)&real = dlsym(RTLD_NEXT, "ftruncate");
    if (fails("ftruncate", fd, &seen)) {
        errno = EIO;
        return -1;
    }
    return real(fd, length);
}
