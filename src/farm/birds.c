#include "schema.h"

#define ROW(bird, name, traits, size, count, placed) [bird] = {name, traits, size, count, placed},
static const ls_bird_row rows[] = {[LS_NO_BIRD] = {"", 0, LS_SIZE_OPEN, NULL, NULL}, LS_EACH_BIRD(ROW)};
#undef ROW
#define NAME(bird, name, ...) name,
const char *const ls_farm_birds[] = {LS_EACH_BIRD(NAME) NULL};
#undef NAME
#define STANDS_IN(bird, name, traits, ...) +(((traits)&LS_STANDS_IN) != 0)

_Static_assert(sizeof rows / sizeof *rows == LS_BIRDS, "a row for each bird");
_Static_assert(sizeof ls_farm_birds / sizeof *ls_farm_birds == LS_BIRDS, "a word for each bird");
_Static_assert(LS_BIRDS <= 32, "birds fit the bits of ls_farm_key.birds");
_Static_assert(0 LS_EACH_BIRD(STANDS_IN) == 1, "one bird stands in");

const ls_bird_row *ls_bird_row_of(int bird) { return &rows[bird > LS_NO_BIRD && bird < LS_BIRDS ? bird : LS_NO_BIRD]; }

const char *ls_bird_name(int bird) { return ls_bird_row_of(bird)->name; }

bool ls_bird_is(int bird, unsigned trait) { return (ls_bird_row_of(bird)->traits & trait) != 0; }

bool ls_bird_is_breeder(int bird) { return ls_bird_is(bird, LS_BY_SEX); }

const char *ls_bird_tables(int bird) {
    int stands_in = 1;
    while ((rows[stands_in].traits & LS_STANDS_IN) == 0) stands_in++;
    return ls_bird_name(bird == LS_NO_BIRD ? stands_in : bird);
}
