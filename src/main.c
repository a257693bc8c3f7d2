#include "littershed/command.h"

int main(int argc, char **argv) {
    return ls_command_main(argc, argv, stdout, stderr);
}
