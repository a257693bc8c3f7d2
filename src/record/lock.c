/* Two people may record at once: each waits for the other. */
#include "row.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

/* Half a minute, anew after each entry of others: a crowd is waited for, one that hangs is not. */
enum { WAITS = 3000, WAIT_NANOSECONDS = 10 * 1000 * 1000 };

static const char held[] = "it is being written to all the time; end the other littershed record, then try again";

const char *ls_record_reason(int error) {
    switch (error) {
    case ENOENT: return "there is no such folder";
    case EACCES:
    case EPERM: return "permission denied";
    case EROFS: return "the disk can only be read";
    case EISDIR: return "this is a folder, not a file";
    case ENOSPC:
    case EDQUOT:
    case EFBIG: return "the disk is full, or no larger file is allowed";
    case ENOLCK:
    case ENOTSUP: return "files on this disk cannot be locked; keep the farm file on another";
    default: return strerror(error);
    }
}

static int open_file(const char *path, ls_record_use use, bool *made) {
    int flags = O_CLOEXEC | O_NONBLOCK; /* a pipe must not keep us waiting */
    if (use == LS_RECORD_TO_READ) return open(path, O_RDONLY | flags);
    int fd = open(path, O_RDWR | O_APPEND | flags);
    *made = fd < 0 && errno == ENOENT;
    return *made ? open(path, O_RDWR | O_APPEND | O_CREAT | flags, 0666) : fd;
}

/* What keeps the open file from being a log; NULL: nothing. */
static const char *unfit(int fd) {
    struct stat about;
    if (fstat(fd, &about) != 0) return ls_record_reason(errno);
    if (S_ISDIR(about.st_mode)) return ls_record_reason(EISDIR);
    return S_ISREG(about.st_mode) ? NULL : "this is no plain file";
}

static void wait_a_little(void) {
    struct timespec wait = {0, WAIT_NANOSECONDS};
    nanosleep(&wait, NULL);
}

/* Is the open file still the one of that name? Another may have been put in its place meanwhile. */
static bool is_current(int fd, const char *path) {
    struct stat mine, now;
    return fstat(fd, &mine) == 0 && stat(path, &now) == 0 && mine.st_dev == now.st_dev && mine.st_ino == now.st_ino;
}

/* Has it another size than when last seen? */
static bool has_grown(int fd, off_t *seen) {
    struct stat now;
    off_t before = *seen;
    if (fstat(fd, &now) == 0) *seen = now.st_size;
    return before != *seen;
}

/* Lock, if that can be done at once. A log on a disk without locks may still be read. */
static bool lock_now(int fd, ls_record_use use, const char **why) {
    if (flock(fd, (use == LS_RECORD_TO_READ ? LOCK_SH : LOCK_EX) | LOCK_NB) == 0) return true;
    if (errno == EWOULDBLOCK || errno == EINTR) return false;
    if (use == LS_RECORD_TO_WRITE) *why = ls_record_reason(errno);
    return use == LS_RECORD_TO_READ;
}

int ls_record_lock(const char *path, ls_record_use use, bool *made, const char **why) {
    *why = NULL;
    off_t seen = -1;
    for (int waits = 0; waits < WAITS; waits++) {
        int fd = open_file(path, use, made);
        if (fd < 0) {
            *why = use == LS_RECORD_TO_READ && errno == ENOENT ? NULL : ls_record_reason(errno);
            return -1;
        }
        *why = unfit(fd);
        if (*why == NULL && lock_now(fd, use, why) && is_current(fd, path)) return fd;
        if (has_grown(fd, &seen)) waits = 0;
        close(fd);
        if (*why != NULL) return -1;
        wait_a_little();
    }
    *why = held;
    return -1;
}
