#include "littershed/command.h"

#ifdef __GLIBC__
#include <malloc.h>
#endif

/* The columns of one drawing are used again by the next: memory given back to the system between
 * them would have to be cleared anew each time. */
static void keep_memory(void) {
#ifdef __GLIBC__
    enum { MEBIBYTE = 1024 * 1024 };
    mallopt(M_MMAP_THRESHOLD, 32 * MEBIBYTE);
    mallopt(M_TRIM_THRESHOLD, 128 * MEBIBYTE);
    mallopt(M_TOP_PAD, 8 * MEBIBYTE);
#endif
}

int main(int argc, char **argv) {
    keep_memory();
    return ls_command_main(argc, argv, stdout, stderr);
}
