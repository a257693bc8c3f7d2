#include "embedded.h"

const ls_reference *ls_reference_load(ls_arena *a) {
    (void)a;
    return &ls_reference_built_in;
}
