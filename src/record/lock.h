/* lock: the file of the log, opened and locked. Private to this room. */
#pragma once

#include "littershed/record.h"

/* What the system says of an error number, in plainer words where it is a grower's doing. */
const char *ls_record_reason(int error);

typedef enum { LS_RECORD_TO_READ, LS_RECORD_TO_WRITE } ls_record_use;

/* The file, open and locked (shared to read, else exclusive), made if it is to be written and is
 * not there: *made then. -1: *why tells; NULL there: no such file to be read. Closing gives it
 * free.
 */
int ls_record_lock(const char *path, ls_record_use use, bool *made, const char **why);

/* The whole of the open file, registered with d. -1: *why tells. */
int32_t ls_record_input(ls_arena *a, ls_diag *d, int fd, const char *path, const char **why);

/* A name is safe on the disk once its folder is. */
void ls_record_sync_folder(ls_arena *a, const char *path);
