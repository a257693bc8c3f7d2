/* Checks among the keys of bedding and of litter taken out before: one amount each. */
#include "reader.h"

#define MISTAKE(reader, at, hint, ...)                                                             \
    ls_diag_add((reader)->diag, LS_ERROR, (at), (hint), __VA_ARGS__)

/* Places of the amounts that are given, in the order of the keys. */
enum { MOST_AMOUNTS = 4 };
typedef struct {
    size_t n;
    ls_place at[MOST_AMOUNTS];
} amounts;

static void note(amounts *a, ls_place at) {
    if (at.line != 0)
        a->at[a->n++] = at;
}

static bool has_bale(const ls_farm_reader *reader, const ls_name *material) {
    const ls_row *row =
        ls_table_row(ls_reference_table(reader->reference, "bedding", ""), material->text);
    return ls_row_figure(row, "bale") != NULL;
}

void ls_farm_check_bedding(ls_farm_reader *reader, void *section, bool clean) {
    const ls_bedding *b = section;
    amounts given = {0};
    note(&given, b->depth.at);
    note(&given, b->volume.at);
    note(&given, b->bales.at);
    note(&given, b->weight.at);
    if (given.n > 1)
        MISTAKE(reader, given.at[1], "keep one of depth, volume, bales and weight",
                "the amount of this bedding is given twice");
    if (!clean)
        return;
    if (given.n == 0)
        MISTAKE(reader, b->at,
                "add one of depth, volume, bales and weight, for example \"depth: 3 in\"",
                "this bedding has no amount");
    else if (LS_GIVEN(b->bales) && !has_bale(reader, &b->material))
        MISTAKE(reader, b->bales.at, "give its weight, for example \"weight: 14 ton\"",
                "no weight of a bale of %s is known", b->material.text);
}

static bool is_share(const ls_quantity *q) {
    return ls_dimension_none(q->unit.dimension);
}

void ls_farm_check_already_out(ls_farm_reader *reader, void *section, bool clean) {
    const ls_already_out *o = section;
    amounts by_depth = {0};
    note(&by_depth, o->depth.at);
    note(&by_depth, o->area.at);
    if (LS_GIVEN(o->weighed) && by_depth.n > 0) {
        MISTAKE(reader, by_depth.at[0], "keep the tons, or the depth and its area",
                "how much was taken out is given twice");
        return;
    }
    if (!clean)
        return;
    if (by_depth.n == 1)
        MISTAKE(reader, by_depth.at[0],
                LS_GIVEN(o->depth)
                    ? "add the area, for example \"area: 6000 ft2\" or \"area: 40 %\" of the floor"
                    : "add the depth, for example \"depth: 2 in\"",
                LS_GIVEN(o->depth) ? "a depth taken out needs the area it was taken off"
                                   : "an area needs the depth that was taken off it");
    else if (by_depth.n == 0 && !LS_GIVEN(o->weighed))
        MISTAKE(reader, o->at,
                "add \"weighed: 6 ton\", or the depth and the area it was taken off: \"depth: 2 "
                "in\", \"area: 40 %\"",
                "how much was taken out is missing");
    if (LS_GIVEN(o->area) && is_share(&o->area) && o->area.value > 1)
        MISTAKE(reader, o->area.at, "give its share of the whole floor",
                "the area is more than the floor: %s %%",
                ls_number_text(reader->arena, 100 * o->area.value, 5));
}
