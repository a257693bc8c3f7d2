/* Reading a whole file, writing a whole file or nothing. */
#pragma once

#include "littershed/base/arena.h"
#include "littershed/base/diag.h"

#include <stdbool.h>

enum { LS_MOST_BYTES = 16 * 1024 * 1024 };

/* Read path ("-": standard input) and register it with d. Not there, not readable, a directory, over 16 MiB: an error
 * in d at the file as a whole, returns -1. Else the input's number. The bytes live in the arena. */
int32_t ls_file_read(ls_arena *a, ls_diag *d, const char *path);

/* The name that "-" is registered under. */
#define LS_STANDARD_INPUT "standard input"

/* The same of a plain file alone, as files that a farm file names are: a pipe, device or folder is
 * an error and never waited for; "-" is a file of that name. */
int32_t ls_file_read_plain(ls_arena *a, ls_diag *d, const char *path);
/* The one full name, in the arena, of the file that path leads to, symbolic links followed, whether
 * or not that file is there. NULL: its folder is not there, or the like (errno). */
const char *ls_file_target(ls_arena *a, const char *path);
/* Why ls_file_write could not write to path, as far as that can be told without writing: it is a
 * folder, its folder is not there, no permission. NULL: nothing is known to stand against it. */
const char *ls_file_unwritable(ls_arena *a, const char *path);

/* Write n bytes to path as a whole: a temporary file beside it, fsync, rename; on failure nothing
 * is left behind, false is returned and *why (in the arena) tells the reason. An old file's mode
 * stays; a link is followed, even to no file yet; a device or pipe is written straight to. */
bool ls_file_write(ls_arena *a, const char *path, const char *bytes, size_t n, const char **why);
/* The whole of an open file (plain: nothing else), its name in input: NULL, or what is wrong. */
const char *ls_file_read_open(ls_arena *a, int fd, bool plain, ls_input *input);
/* A name is safe on the disk once its folder is; where that cannot be synced is no failure. */
void ls_file_sync_folder(ls_arena *a, const char *path);
/* All n bytes to an open file, however many writes that takes. False: errno tells. */
bool ls_file_write_all(int fd, const char *bytes, size_t n);
