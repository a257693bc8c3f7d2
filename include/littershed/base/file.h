/* Reading a whole file, writing a whole file or nothing. */
#ifndef LITTERSHED_BASE_FILE_H
#define LITTERSHED_BASE_FILE_H

#include "littershed/base/arena.h"
#include "littershed/base/diag.h"

#include <stdbool.h>

enum { LS_MOST_BYTES = 16 * 1024 * 1024 };

/* Read path ("-": standard input) and register it with d. Not there, not readable, a directory,
 * over 16 MiB: an error in d at the file as a whole, returns -1. Else the input's number. The bytes
 * live in the arena. */
int32_t ls_file_read(ls_arena *a, ls_diag *d, const char *path);

/* Write n bytes to path as a whole: a temporary file beside it, fsync, rename; on failure nothing
 * is left behind, false is returned and *why (in the arena) tells the reason. An old file's mode
 * stays; a link is followed; a device or pipe is written straight to. */
bool ls_file_write(ls_arena *a, const char *path, const char *bytes, size_t n, const char **why);

/* All n bytes to an open file, however many writes that takes. False: errno tells. */
bool ls_file_write_all(int fd, const char *bytes, size_t n);

#endif
