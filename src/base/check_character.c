/* A check character for numbers that people copy by hand. */
#include "littershed/base/text.h"

/* The value of a letter or digit; -1 for anything else. */
static int value_of(char c) {
    if (c >= '0' && c <= '9') return c - '0';
    return c >= 'A' && c <= 'Z' ? c - 'A' + 10 : -1; /* ASCII */
}

char ls_check_character(const char *s) {
    static const char alphabet[] = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ";
    int product = 36;
    for (; *s != '\0'; s++) {
        if (value_of(*s) < 0) continue;
        int sum = (product + value_of(*s)) % 36;
        product = (sum == 0 ? 36 : sum) * 2 % 37;
    }
    return alphabet[(37 - product) % 36];
}
