/* The table files as embedded at build time (embed.sh). Private to this room. */
#ifndef REFERENCE_EMBEDDED_H
#define REFERENCE_EMBEDDED_H

typedef struct {
    const char *name;
    const char *bytes; /* NUL-terminated */
    unsigned long size;
} ls_table_file;

extern const ls_table_file ls_table_files[];
extern const unsigned long ls_table_file_count;

#endif
