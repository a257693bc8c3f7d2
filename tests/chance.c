#include "chance.h"

unsigned test_pick(uint64_t *state, unsigned n) {
    uint64_t z = (*state += 0x9e3779b97f4a7c15U);
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9U;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebU;
    return (unsigned)((z ^ (z >> 31)) % n);
}

double test_between(uint64_t *state, double low, double high) {
    return low + (high - low) * test_pick(state, 10001) / 10000;
}
