#include "bench/calibrate/calibrate.h"

#include <stdlib.h>
#include <string.h>

int main(int argc, char **argv) {
    long farms = argc > 2 ? strtol(argv[2], NULL, 10) : 300;
    int part = argc > 3 ? atoi(argv[3]) : -1;
    if (argc > 1 && strcmp(argv[1], "coverage") == 0)
        return calibrate_coverage(farms, 1, part) > 0;
    return 2;
}
